//! Sheets and files of a design, made from its figures when they are asked for.

use super::news::News;
use super::tell::{Telling, failed};
use crate::analysis::day::{Day, Setup, day, whole};
use crate::analysis::{Analysis, Failure, analyze};
use crate::courses::brick::Bricks;
use crate::courses::plans;
use crate::design::Design;
use crate::drawing::{front, path, plan, section};
use crate::export::{csv, dxf, svg};
use crate::language::said;
use crate::paper::{self, Heater, Paper, Print, listed};
use crate::rules::{DayFigures, Edges, Finding, Known, judge};
use crate::study::compare::{Column, Compare};
use crate::study::edges::{Part, Parts};
use crate::study::trials::mild_day_near;
use crate::study::uncertainty::{self, Uncertainty};
use crate::units::System;
use crate::words::build::materials;
use crate::words::hours::Hours;
use crate::words::report::{Computed, report};

/// Parts what the page needs for its own print.
const PART: char = '\u{1f}';

/// What is asked for, as words between commas: the kind of file, the units, the day, the address of
/// the page and, where they are known, the edges of safety, or why there are none.
#[derive(Clone, Debug, PartialEq)]
struct Asked<'a> {
    kind: &'a str,
    system: System,
    date: &'a str,
    address: &'a str,
    edges: Option<Result<Box<Edges>, Failure>>,
}

impl<'a> Asked<'a> {
    fn read(words: &'a str) -> Option<Self> {
        let mut words = words.split(',');
        let (kind, system) = (words.next()?, words.next()?);
        let system = if system == "us" { System::Us } else { System::Metric };
        let (date, address) = (words.next()?, words.next()?);
        let edges = words.next().map(|text| text.replace('_', " "));
        let edges = match edges.and_then(|text| text.parse().ok()) {
            Some(Part::Found(edges)) => Some(Ok(edges)),
            Some(Part::Failed(failure)) => Some(Err(failure)),
            _ => None,
        };
        Some(Self { kind, system, date, address, edges })
    }

    const fn print(&self) -> Print<'a> {
        Print { system: self.system, date: Some(self.date), address: Some(self.address) }
    }
}

/// A design with all that is printed of it.
struct Judged<'a> {
    design: &'a Design,
    analysis: Analysis,
    day: Option<Day>,
    edges: Result<Box<Edges>, Failure>,
    worth: Option<Box<Uncertainty>>,
    findings: Vec<Finding>,
}

impl<'a> Judged<'a> {
    fn new(design: &'a Design, edges: Result<Box<Edges>, Failure>) -> Result<Self, Failure> {
        let analysis = analyze(design)?;
        let standing = whole(design, &Setup::STANDARD, None);
        let mild = mild_day_near(design, &Setup::STANDARD, standing.as_ref().ok());
        let day = standing.map(Day::from);
        let figures =
            day.as_ref().map(|day| DayFigures::new(design, &day.first_fire, &day.periodic));
        let known = Known {
            day: Some(figures.as_ref().map_err(|failure| *failure)),
            mild: mild.as_ref().map(Result::as_ref),
            edges: Some(edges.as_deref()),
        };
        let findings = listed(&judge(design, &analysis, known));
        Ok(Self { design, analysis, day: day.ok(), edges, worth: None, findings })
    }

    /// With what the figures are worth.
    fn with_worth(self) -> Self {
        let worth = uncertainty::Parts::new(self.design).find_map(|part| match part {
            uncertainty::Part::Found(worth) => Some(worth),
            _ => None,
        });
        Self { worth, ..self }
    }

    fn heater(&self) -> Heater<'_> {
        Heater {
            design: self.design,
            analysis: &self.analysis,
            day: self.day.as_ref(),
            edges: self.edges.as_deref().ok(),
            worth: self.worth.as_deref(),
            findings: &self.findings,
        }
    }
}

fn edges(design: &Design) -> Result<Box<Edges>, Failure> {
    let ends = Parts::new(design).find_map(|part| match part {
        Part::Found(edges) => Some(Ok(edges)),
        Part::Failed(failure) => Some(Err(failure)),
        Part::Begun | Part::Done(_) => None,
    });
    ends.unwrap_or(Err(Failure::NotFinite))
}

/// What was asked for; nothing for words that ask for nothing.
pub(super) fn told(design: &Design, words: &str) -> Telling {
    let (design, words) = (design.clone(), words.to_owned());
    Box::new(
        std::iter::once_with(move || {
            let asked = Asked::read(&words)?;
            Some(match made(&design, &asked) {
                Ok(text) => News::Found(text?),
                Err(failure) => failed(&failure),
            })
        })
        .flatten(),
    )
}

fn made(design: &Design, asked: &Asked<'_>) -> Result<Option<String>, Failure> {
    let system = asked.system;
    let kind = asked.kind.split_once('-').map_or((asked.kind, ""), |parts| parts);
    Ok(Some(match kind {
        ("csv", "compare") => {
            let columns: Vec<Column> = Compare::new(design).collect();
            csv::compare(&columns, system)
        }
        ("csv", "materials") => {
            csv::passage(&materials::passage(design, &analyze(design)?, system))
        }
        ("csv", "path") => csv::path(design, &analyze(design)?, system),
        ("csv", "day") => csv::hours(&Hours::new(&day(design, &Setup::STANDARD)?), system),
        ("csv", "courses") => csv::courses(&plans(design, Bricks::of(design))),
        ("dxf", "") => dxf::drawings(design, &analyze(design)?, system),
        ("dxf", "courses") => dxf::courses(&plans(design, Bricks::of(design)), system),
        ("picture", "courses") => svg::courses(&plans(design, Bricks::of(design)), system),
        _ => return printed(design, asked, kind),
    }))
}

/// What shows findings.
fn printed(
    design: &Design,
    asked: &Asked<'_>,
    kind: (&str, &str),
) -> Result<Option<String>, Failure> {
    let (system, print) = (asked.system, asked.print());
    let known = asked.edges.clone().unwrap_or_else(|| edges(design));
    let judged = Judged::new(design, known)?;
    let judged = match kind {
        ("print" | "sheet" | "json", _) => judged.with_worth(),
        _ => judged,
    };
    let heater = judged.heater();
    let Judged { analysis, findings, .. } = &judged;
    let drawn = |title, drawing| Some(svg::file(&drawing, title));
    Ok(match kind {
        ("print", _) => {
            let style = paper::style(design, print);
            Some(format!("{style}{PART}{}", paper::article(heater, print)))
        }
        ("sheet", "a4") => Some(paper::document(heater, print, Paper::A4)),
        ("sheet", "letter") => Some(paper::document(heater, print, Paper::Letter)),
        ("json", "result") => {
            let computed = Computed {
                analysis,
                day: judged.day.as_ref(),
                uncertainty: judged.worth.as_deref(),
                trials: None,
                edges: judged.edges.as_deref().ok(),
                remedies: &[],
            };
            Some(report(design, computed, findings, system).text())
        }
        ("picture", "section") => drawn(
            said("Section along the runs"),
            section::section(design, analysis, findings, system, 1.0),
        ),
        ("picture", "front") => {
            drawn(said("From the front"), front::front(design, analysis, system, 1.0))
        }
        ("picture", "plan") => {
            drawn(said("From above"), plan::plan(design, analysis, system, 1.0))
        }
        ("picture", "path") => {
            drawn(said("The smoke path, unrolled"), path::unrolled(design, analysis, system))
        }
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::order::Job;

    fn found(words: &str) -> Vec<News> {
        Job::Paper(words.to_owned()).news(&Design::demonstration()).collect()
    }

    #[test]
    fn each_kind_of_file_is_told_at_once() {
        let kinds = [
            "picture-front",
            "picture-courses",
            "dxf",
            "dxf-courses",
            "csv-path",
            "csv-courses",
            "csv-day",
            "sheet-a4",
            "print",
        ];
        let design = Design::demonstration();
        let known = Part::Found(edges(&design).unwrap()).to_string().replace(' ', "_");
        for kind in kinds {
            let news = found(&format!("{kind},us,2031-02-03,https://x.example/,{known}"));
            let [News::Found(text)] = news.as_slice() else { panic!("{kind}: {news:?}") };
            assert!(text.len() > 500, "{kind}");
        }
    }

    #[test]
    fn known_edges_are_taken_as_they_were_told() {
        let design = Design::demonstration();
        let edges = edges(&design).unwrap();
        let known = Part::Found(edges.clone()).to_string().replace(' ', "_");
        let words = format!("print,metric,2031-02-03,https://x.example/,{known}");
        assert_eq!(Asked::read(&words).unwrap().edges, Some(Ok(edges)));
        assert_eq!(
            Asked::read("print,metric,2031-02-03,https://x.example/,").unwrap().edges,
            None
        );
    }

    #[test]
    fn other_words_ask_for_nothing() {
        for words in ["", "print", "song,us,2031-02-03,https://x.example/,"] {
            assert!(found(words).is_empty(), "{words}");
        }
    }
}
