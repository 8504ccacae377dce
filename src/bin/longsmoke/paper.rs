//! Sheets to print and files for other programs.

use super::{Outcome, complain, edges, open, remedies, sampled, say, trials, uncertainty};
use longsmoke::analysis::day::{Day, Setup, Whole, whole};
use longsmoke::analysis::{Analysis, Failure, analyze};
use longsmoke::courses::brick::Bricks;
use longsmoke::courses::plans;
use longsmoke::design::{Design, document};
use longsmoke::drawing::{Drawing, front, path, plan, section};
use longsmoke::export::{csv, dxf, svg};
use longsmoke::language::said;
use longsmoke::paper::{self, Heater, Paper, listed};
use longsmoke::rules::{DayFigures, Edges, Finding, Known, judge};
use longsmoke::study::compare::Column;
use longsmoke::study::edges::{Sample, Study};
use longsmoke::study::remedy::Standing;
use longsmoke::study::strip::RUNS;
use longsmoke::study::trials::{Mild, mild_day_near, mild_of};
use longsmoke::study::uncertainty::Uncertainty;
use longsmoke::units::System;
use longsmoke::words;
use longsmoke::words::hours::Hours;
use longsmoke::words::report::{Computed, report};
use std::path::Path;

/// What is asked of a print, option by option.
#[derive(Default)]
pub struct Print {
    pub system: System,
    out: Option<String>,
    date: Option<String>,
    address: Option<String>,
    paper: Option<Paper>,
    formats: Vec<Format>,
}

/// A kind of file.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Format {
    Sheet,
    Svg,
    Dxf,
    Csv,
    Json,
}

impl Format {
    const ALL: [(&'static str, Self); 5] = [
        ("sheet", Self::Sheet),
        ("svg", Self::Svg),
        ("dxf", Self::Dxf),
        ("csv", Self::Csv),
        ("json", Self::Json),
    ];
}

impl Print {
    /// Takes an option with its value.
    pub fn take(&mut self, option: &str, value: &str) -> Result<(), String> {
        match option {
            "out" => self.out = Some(value.to_owned()),
            "date" => self.date = Some(value.to_owned()),
            "address" => self.address = Some(value.to_owned()),
            _ => {
                let known = Format::ALL.iter().find(|(name, _)| *name == value);
                let (_, format) = known.ok_or_else(|| say!("{value} is no format"))?;
                self.formats.push(*format);
            }
        }
        Ok(())
    }

    /// On paper of 8 1/2 by 11 in.
    pub const fn letter(&mut self) {
        self.paper = Some(Paper::Letter);
    }

    fn as_printed(&self) -> paper::Print<'_> {
        paper::Print {
            system: self.system,
            date: self.date.as_deref(),
            address: self.address.as_deref(),
        }
    }

    fn wants(&self, format: Format) -> bool {
        self.formats.is_empty() || self.formats.contains(&format)
    }
}

/// A design with all that is printed of it.
struct Judged {
    design: Design,
    analysis: Analysis,
    standing: Result<Whole, Failure>,
    day: Option<Day>,
    mild: Option<Mild>,
    sampled: Result<(Study, Vec<Sample>), Failure>,
    edges: Result<Edges, Failure>,
    worth: Option<Uncertainty>,
    findings: Vec<Finding>,
}

impl Judged {
    fn new(design: Design, system: System) -> Result<Self, String> {
        let analysis = analyze(&design).map_err(|error| words::failure(&error, system))?;
        let standing = whole(&design, &Setup::STANDARD, None);
        let day = standing.clone().map(Day::from);
        let figures =
            day.as_ref().map(|day| DayFigures::new(&design, &day.first_fire, &day.periodic));
        let mild = mild_day_near(&design, &Setup::STANDARD, standing.as_ref().ok());
        let sampled = sampled(&design);
        let edges = edges(sampled.as_ref());
        let known = Known {
            day: Some(figures.as_ref().map_err(|failure| *failure)),
            mild: mild.as_ref().map(Result::as_ref),
            edges: Some(edges.as_ref()),
        };
        let findings = listed(&judge(&design, &analysis, known));
        let worth = uncertainty(&design);
        let day = day.ok();
        Ok(Self { design, analysis, standing, day, mild, sampled, edges, worth, findings })
    }

    fn heater(&self) -> Heater<'_> {
        Heater {
            design: &self.design,
            analysis: &self.analysis,
            day: self.day.as_ref(),
            edges: self.edges.as_ref().ok(),
            worth: self.worth.as_ref(),
            findings: &self.findings,
        }
    }
}

fn judged(file: &str, print: &Print) -> Result<Judged, Outcome> {
    Judged::new(open(file)?, print.system).map_err(|error| {
        complain(&format!("{file}: {error}\n"));
        Outcome::Unreadable
    })
}

/// The sheets of a design.
pub fn sheet(file: &str, print: &Print) -> Outcome {
    let judged = match judged(file, print) {
        Ok(judged) => judged,
        Err(outcome) => return outcome,
    };
    let text = sheets(&judged, print);
    match &print.out {
        Some(out) => written(Path::new(out), &text),
        None => say(&text),
    }
}

fn sheets(judged: &Judged, print: &Print) -> String {
    let paper = print.paper.unwrap_or(Paper::A4);
    paper::document(judged.heater(), print.as_printed(), paper)
}

/// A folder of files.
pub fn export(file: &str, print: &Print) -> Outcome {
    let Some(out) = &print.out else {
        complain(said("export needs a folder: -o FOLDER\n"));
        return Outcome::Unreadable;
    };
    let folder = Path::new(out);
    if let Err(error) = std::fs::create_dir_all(folder) {
        complain(&format!("{out}: {error}\n"));
        return Outcome::Unreadable;
    }
    let design = match open(file) {
        Ok(design) => design,
        Err(outcome) => return outcome,
    };
    let files = match files(design, print) {
        Ok(files) => files,
        Err(error) => {
            complain(&format!("{file}: {error}\n"));
            return Outcome::Unreadable;
        }
    };
    let files = files.iter().map(|(name, text)| written(&folder.join(name), text));
    files.max().unwrap_or(Outcome::Fine)
}

/// Files by their names; what no file asks for is not computed.
fn files(design: Design, print: &Print) -> Result<Vec<(&'static str, String)>, String> {
    let (system, mut files) = (print.system, Vec::new());
    if print.wants(Format::Dxf) {
        let analysis = analyze(&design).map_err(|error| words::failure(&error, system))?;
        files.push(("drawings.dxf", dxf::drawings(&design, &analysis, system)));
        files.push(("courses.dxf", dxf::courses(&plans(&design, Bricks::of(&design)), system)));
    }
    if print.formats.iter().all(|format| *format == Format::Dxf) && !print.formats.is_empty() {
        return Ok(files);
    }
    let judged = Judged::new(design, system)?;
    if print.wants(Format::Sheet) {
        files.push(("sheets.html", sheets(&judged, print)));
    }
    if print.wants(Format::Svg) {
        files.extend(pictures(&judged, system));
    }
    if print.wants(Format::Csv) {
        files.extend(tables(&judged, system));
    }
    if print.wants(Format::Json) {
        files.push(("design.json", document::write(&judged.design, None)));
        files.push(("result.json", result(&judged, system)));
    }
    Ok(files)
}

fn pictures(judged: &Judged, system: System) -> [(&'static str, String); 5] {
    let Judged { design, analysis, findings, .. } = judged;
    let file = |name, title, drawing: Drawing| (name, svg::file(&drawing, title));
    let section = section::section(design, analysis, findings, system, 1.0);
    let courses = svg::courses(&plans(design, Bricks::of(design)), system);
    [
        file("section.svg", said("Section along the runs"), section),
        file("front.svg", said("From the front"), front::front(design, analysis, system, 1.0)),
        file("plan.svg", said("From above"), plan::plan(design, analysis, system, 1.0)),
        file(
            "path.svg",
            said("The smoke path, unrolled"),
            path::unrolled(design, analysis, system),
        ),
        ("courses.svg", courses),
    ]
}

fn tables(judged: &Judged, system: System) -> Vec<(&'static str, String)> {
    let Judged { design, analysis, day, .. } = judged;
    let materials = words::build::materials::passage(design, analysis, system);
    let mut tables = vec![
        ("path.csv", csv::path(design, analysis, system)),
        ("materials.csv", csv::passage(&materials)),
        ("courses.csv", csv::courses(&plans(design, Bricks::of(design)))),
    ];
    tables.extend(day.as_ref().map(|day| ("day.csv", csv::hours(&Hours::new(day), system))));
    let columns = super::shared(RUNS.count(), |index| {
        Some((index, Column::new(design, RUNS.start() + index)))
    });
    let mut columns: Vec<(usize, Column)> = columns;
    columns.sort_by_key(|(index, _)| *index);
    let columns: Vec<Column> = columns.into_iter().map(|(_, column)| column).collect();
    tables.push(("compare.csv", csv::compare(&columns, system)));
    tables
}

/// The same as of `check --json`.
fn result(judged: &Judged, system: System) -> String {
    let Judged { design, analysis, standing, day, mild, sampled, edges, worth, .. } = judged;
    let trials = trials(design, standing.as_ref());
    let known = standing.clone().ok();
    let known =
        known.map(|day| Standing { days: (day, mild.clone()), edges: sampled.clone().ok() });
    let remedies = remedies(design, system, known);
    let figures =
        day.as_ref().map(|day| DayFigures::new(design, &day.first_fire, &day.periodic));
    let known = Known {
        day: figures.as_ref().map(Ok).or(standing.as_ref().err().map(Err)),
        mild: mild_of(design, &trials).map(Result::as_ref),
        edges: Some(edges.as_ref()),
    };
    let computed = Computed {
        analysis,
        day: day.as_ref(),
        uncertainty: worth.as_ref(),
        edges: edges.as_ref().ok(),
        trials: Some(&trials),
        remedies: &remedies,
    };
    report(design, computed, &judge(design, analysis, known), system).text()
}

fn written(path: &Path, text: &str) -> Outcome {
    match std::fs::write(path, text) {
        Ok(()) => Outcome::Fine,
        Err(error) => {
            complain(&format!("{}: {error}\n", path.display()));
            Outcome::Unreadable
        }
    }
}
