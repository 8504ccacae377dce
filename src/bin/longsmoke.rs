//! The native command: figures and findings of design files, and the schema of both formats.

use lexopt::prelude::*;
use longsmoke::analysis::day::{Day, Setup, day};
use longsmoke::analysis::{Analysis, analyze};
use longsmoke::design::Design;
use longsmoke::design::document;
use longsmoke::rules::{Answer, DayFigures, Finding, Question, answer, judge};
use longsmoke::study::day::First;
use longsmoke::study::uncertainty::{Plan, Setup as Samples, Uncertainty};
use longsmoke::units::{Quantity, System, figure};
use longsmoke::words;
use longsmoke::words::day::{DayFigure, FigureGroup};
use longsmoke::words::report::Computed;
use std::io::{Read as _, Write as _};
use std::num::NonZero;
use std::process::ExitCode;

const USAGE: &str = "\
longsmoke check FILE... [--json] [--units metric|us]
    figures and findings of design files; - reads standard input
longsmoke schema [design|result]
    JSON Schema of the design file, of the result, or of both
longsmoke example
    a design file to start from

check ends with 0 when nothing forbids building, 1 when a finding does or no clearances were
checked, 2 when a file cannot be read or analyzed: the worst of all files.

This is a design aid, not a permit: local fire code, the building official and a qualified mason
or chimney professional decide.
";

/// How a run of the command ended, the worst last.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Outcome {
    Fine,
    Forbidden,
    Unreadable,
}

/// What was asked for.
enum Request {
    Help,
    Example,
    Schema(Option<String>),
    Check { files: Vec<String>, form: Form, system: System },
}

#[derive(Clone, Copy)]
enum Form {
    Text,
    Json,
}

fn main() -> ExitCode {
    let outcome = match request() {
        Ok(request) => run(request),
        Err(error) => {
            complain(&format!("{error}\n\n{USAGE}"));
            Outcome::Unreadable
        }
    };
    match outcome {
        Outcome::Fine => ExitCode::SUCCESS,
        Outcome::Forbidden => ExitCode::from(1),
        Outcome::Unreadable => ExitCode::from(2),
    }
}

fn request() -> Result<Request, lexopt::Error> {
    let mut parser = lexopt::Parser::from_env();
    let mut words = Vec::new();
    let (mut form, mut system) = (Form::Text, System::Metric);
    while let Some(argument) = parser.next()? {
        match argument {
            Long("json") => form = Form::Json,
            Long("units") => system = units(&parser.value()?.string()?)?,
            Short('h') | Long("help") => return Ok(Request::Help),
            Value(word) => words.push(word.string()?),
            other => return Err(other.unexpected()),
        }
    }
    let mut words = words.into_iter();
    match words.next().as_deref() {
        Some("check") if words.len() > 0 => {
            Ok(Request::Check { files: words.collect(), form, system })
        }
        Some("schema") => Ok(Request::Schema(words.next())),
        Some("example") => Ok(Request::Example),
        Some("help") => Ok(Request::Help),
        _ => Err("say what to do".into()),
    }
}

fn units(word: &str) -> Result<System, lexopt::Error> {
    match word {
        "metric" => Ok(System::Metric),
        "us" => Ok(System::Us),
        _ => Err("--units takes metric or us".into()),
    }
}

fn run(request: Request) -> Outcome {
    match request {
        Request::Help => say(USAGE),
        Request::Example => {
            say(&format!("{}\n", document::write(&Design::demonstration(), None)))
        }
        Request::Schema(which) => schema(which.as_deref()),
        Request::Check { files, form, system } => files
            .iter()
            .map(|file| check_file(file, form, system))
            .max()
            .unwrap_or(Outcome::Unreadable),
    }
}

fn schema(which: Option<&str>) -> Outcome {
    let design = || document::schema(|id| format!("{}. {}", words::label(id), words::help(id)));
    let schema = match which {
        Some("design") => design(),
        Some("result") => words::report::schema().to_value(),
        None => serde_json::json!({
            "design": design(), "result": words::report::schema().to_value()
        }),
        Some(_) => {
            complain("schema takes design or result\n");
            return Outcome::Unreadable;
        }
    };
    say(&format!("{schema:#}\n"))
}

fn read(file: &str) -> std::io::Result<String> {
    if file == "-" {
        let mut text = String::new();
        std::io::stdin().read_to_string(&mut text)?;
        Ok(text)
    } else {
        std::fs::read_to_string(file)
    }
}

fn check_file(file: &str, form: Form, system: System) -> Outcome {
    let result = read(file)
        .map_err(|error| error.to_string())
        .and_then(|text| {
            document::read(&text).map_err(|error| words::document_error(&error, system))
        })
        .and_then(|document| {
            let failed = |error| words::failure(&error, system);
            let analysis = analyze(&document.design).map_err(failed)?;
            let day = day(&document.design, &Setup::STANDARD).map_err(failed)?;
            Ok((document.design, analysis, day))
        });
    let (design, analysis, day) = match result {
        Ok(result) => result,
        Err(error) => {
            complain(&format!("{file}: {error}\n"));
            return Outcome::Unreadable;
        }
    };
    let figures = DayFigures::new(&day.first_fire, &day.periodic);
    let findings = judge(&design, &analysis, Some(&figures));
    let said = match form {
        Form::Json => json(&design, (&analysis, &day), &findings, system),
        Form::Text => say(&text(file, (&analysis, &day), &findings, system)),
    };
    let forbidden = Question::ALL.into_iter().any(|question| {
        matches!(answer(question, &findings), Answer::No | Answer::NotEnoughKnown)
    });
    if forbidden { said.max(Outcome::Forbidden) } else { said }
}

/// One JSON document a line, so that many files make one stream.
fn json(
    design: &Design,
    (analysis, day): (&Analysis, &Day),
    findings: &[Finding],
    system: System,
) -> Outcome {
    let uncertainty = uncertainty(design);
    let computed = Computed { analysis, day: Some(day), uncertainty: uncertainty.as_ref() };
    let report = words::report::report(design, computed, findings, system);
    match serde_json::to_string(&report) {
        Ok(line) => say(&format!("{line}\n")),
        Err(error) => {
            complain(&format!("{error}\n"));
            Outcome::Unreadable
        }
    }
}

/// The samples in as many shares as there are processors; their number changes no figure.
fn uncertainty(design: &Design) -> Option<Uncertainty> {
    let plan = &Plan::new(design, Samples::standard(Samples::ENOUGH));
    let shares = std::thread::available_parallelism().map_or(1, NonZero::get);
    let samples: Vec<_> = std::thread::scope(|scope| {
        let share = |first: usize| {
            scope.spawn(move || {
                let indices = (first..plan.len()).step_by(shares);
                indices.filter_map(|index| plan.sample(index)).collect::<Vec<_>>()
            })
        };
        let all: Vec<_> = (0..shares).map(share).collect();
        all.into_iter().flat_map(|share| share.join().unwrap_or_default()).collect()
    });
    plan.sum_up(&samples)
}

fn text(
    file: &str,
    (analysis, day): (&Analysis, &Day),
    findings: &[Finding],
    system: System,
) -> String {
    let mut lines = vec![format!("{file}: at the height of the fire, first fire")];
    for question in Question::ALL {
        lines.push(format!(
            "  {} {} ({})",
            words::question(question),
            words::answer(question, answer(question, findings)),
            words::deciding(question, analysis, findings, system),
        ));
    }
    lines.extend(figures(analysis, system));
    lines.extend(figures_of_day(day, system));
    for finding in findings {
        let text = words::finding(finding, system);
        lines.push(format!(
            "  {}: {} {} {} [{}; {}]",
            words::severity(finding.severity),
            text.title,
            text.reason,
            text.remedy,
            finding.source.text,
            words::trust(finding.source.trust),
        ));
    }
    lines.extend(words::CAUTIONS.iter().map(|caution| format!("  {caution}")));
    lines.join("\n") + "\n"
}

fn figures(analysis: &Analysis, system: System) -> Vec<String> {
    let fire = &analysis.height_of_fire;
    let figures = [
        ("Gas out of the firebox", fire.firebox_outlet, Quantity::Temperature),
        ("Gas out of the last run", fire.runs_outlet, Quantity::Temperature),
        ("Gas into the chimney", fire.chimney_inlet, Quantity::Temperature),
        ("Wall at the mouth", fire.chimney_mouth_wall, Quantity::Temperature),
        ("Dew point", fire.dew_point, Quantity::Temperature),
        ("Draft", fire.draft, Quantity::Pressure),
        ("Losses", fire.losses, Quantity::Pressure),
        ("Margin", fire.margin, Quantity::Pressure),
        ("Efficiency, lower heating value", fire.efficiency_lower, Quantity::Share),
        ("Efficiency, higher heating value", fire.efficiency_higher, Quantity::Share),
    ];
    let line = |(name, value, quantity)| {
        format!("  {name:<34}{:>12}", figure(value, quantity, system))
    };
    figures.map(line).to_vec()
}

fn figures_of_day(day: &Day, system: System) -> Vec<String> {
    let groups = words::day::figures(&day.periodic, &First::from(day), system);
    let lines = |group: FigureGroup| {
        let line = |DayFigure { name, value, note, .. }| {
            let line = format!("    {name:<32}{value:>12}  {note}");
            line.trim_end().to_owned()
        };
        std::iter::once(format!("  {}", group.title))
            .chain(group.figures.into_iter().map(line))
            .collect::<Vec<_>>()
    };
    std::iter::once("  Once the days repeat:".into())
        .chain(groups.into_iter().flat_map(lines))
        .collect()
}

/// Writes to standard output; a reader that has gone away is no reason to fail.
fn say(text: &str) -> Outcome {
    match std::io::stdout().write_all(text.as_bytes()) {
        Ok(()) => Outcome::Fine,
        Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => Outcome::Fine,
        Err(_) => Outcome::Unreadable,
    }
}

/// Writes to standard error; there is nobody left to tell if that fails.
fn complain(text: &str) {
    let _ = std::io::stderr().write_all(text.as_bytes());
}
