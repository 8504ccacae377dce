//! The native command: figures and findings of design files, variants side by side, and the schema
//! of both formats.

#[path = "longsmoke/variants.rs"]
mod variants;

use lexopt::prelude::*;
use longsmoke::analysis::day::{Day, Setup, day};
use longsmoke::analysis::{Analysis, analyze};
use longsmoke::design::Design;
use longsmoke::design::document;
use longsmoke::design::examples::Example;
use longsmoke::rules::{Answer, DayFigures, Edges, Finding, Known, Question, answer, judge};
use longsmoke::study::day::First;
use longsmoke::study::edges::Study;
use longsmoke::study::remedy::{Key, Part, Remedies, Remedy};
use longsmoke::study::suggest::Wish;
use longsmoke::study::trials::{Trial, Tried, judge as judge_trial, mild_of, try_one};
use longsmoke::study::uncertainty::{Plan, Setup as Samples, Uncertainty};
use longsmoke::units::{Quantity, System, figure};
use longsmoke::words;
use longsmoke::words::day::{DayFigure, FigureGroup};
use longsmoke::words::edges as said;
use longsmoke::words::report::Computed;
use longsmoke::words::trials as trial_words;
use std::ffi::OsString;
use std::io::{Read as _, Write as _};
use std::num::NonZero;
use std::process::ExitCode;

const USAGE: &str = "\
longsmoke check FILE... [--json|--working] [--units metric|us]
    figures and findings of design files; - reads standard input; --working shows how each figure
    came about
longsmoke compare FILE [--csv|--json] [--units metric|us]
    the same heater with one to ten runs, and which number is the best
longsmoke sweep FILE --input KEY [--from A] [--to B] [--steps N] [--and KEY ...] [--csv|--json]
    inputs over their ranges, by their keys and in the units of a design file; two make a map
longsmoke sources [--markdown]
    where formulas, limits and values come from, and how far that was checked
longsmoke suggest FILE [--aim AIM ...] [--when CONDITION ...] [--csv|--json] [--units metric|us]
    other designs for the same house, wood and chimney that answer yes three times; aims are warmth,
    wood, masonry and simplicity, conditions those of the result; all of them where none is named
longsmoke schema [design|result]
    JSON Schema of the design file, of the result, or of both
longsmoke example [NAME]
    a design file to start from: farmhouse, cabin, bench, tall-stack, stone-faced, tight-house

check ends with 0 when nothing forbids building, 1 when a finding does or no clearances were
checked, or what lies below the heater, what carries it or where its chimney stands is not stated,
2 when a file cannot be read or analyzed: the worst of all files.

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
    Example(Example),
    Schema(Option<String>),
    Sources(Listing),
    Check { files: Vec<String>, form: Form, system: System },
    Compare { file: String, form: variants::Form },
    Sweep { file: String, asked: Vec<variants::Asked>, form: variants::Form },
    Suggest { file: String, wish: Wish, form: variants::Form },
}

/// How the sources are listed.
#[derive(Clone, Copy)]
enum Listing {
    Plain,
    Markdown,
}

#[derive(Clone, Copy)]
enum Form {
    Text,
    Working,
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
    let (mut csv, mut asked) = (false, Vec::new());
    let (mut listing, mut wished) = (Listing::Plain, variants::Wished::default());
    while let Some(argument) = parser.next()? {
        match argument {
            Long("json") => form = Form::Json,
            Long("working") => form = Form::Working,
            Long("csv") => csv = true,
            Long("markdown") => listing = Listing::Markdown,
            Long("input" | "and") => {
                asked.push(variants::Asked::new(&parser.value()?.string()?)?);
            }
            Long(option @ ("from" | "to" | "steps")) => {
                let option = option.to_owned();
                range(&option, asked.last_mut(), &parser.value()?)?;
            }
            Long(option @ ("aim" | "when")) => {
                let option = option.to_owned();
                wished.take(&option, &parser.value()?.string()?)?;
            }
            Long("units") => system = units(&parser.value()?.string()?)?,
            Short('h') | Long("help") => return Ok(Request::Help),
            Value(word) => words.push(word.string()?),
            other => return Err(other.unexpected()),
        }
    }
    let mut words = words.into_iter();
    let many = match form {
        _ if csv => variants::Form::Csv,
        Form::Json => variants::Form::Json,
        Form::Text | Form::Working => variants::Form::Table(system),
    };
    match words.next().as_deref() {
        Some("compare") if words.len() == 1 => {
            Ok(Request::Compare { file: words.next().unwrap_or_default(), form: many })
        }
        Some("sweep") if words.len() == 1 && !asked.is_empty() => {
            let file = words.next().unwrap_or_default();
            Ok(Request::Sweep { file, asked, form: many })
        }
        Some("suggest") if words.len() == 1 => {
            let file = words.next().unwrap_or_default();
            Ok(Request::Suggest { file, wish: wished.wish(), form: many })
        }
        Some("check") if words.len() > 0 => {
            Ok(Request::Check { files: words.collect(), form, system })
        }
        Some("sources") => Ok(Request::Sources(listing)),
        Some("schema") => Ok(Request::Schema(words.next())),
        Some("example") => {
            let name = words.next().unwrap_or_else(|| Example::Farmhouse.id().to_owned());
            let example = Example::from_id(&name).ok_or("there is no example of that name")?;
            Ok(Request::Example(example))
        }
        Some("help") => Ok(Request::Help),
        _ => Err("say what to do".into()),
    }
}

/// An option that belongs to the input named before it.
fn range(
    option: &str,
    asked: Option<&mut variants::Asked>,
    value: &OsString,
) -> Result<(), lexopt::Error> {
    let asked = asked.ok_or("--from, --to and --steps follow an --input or --and")?;
    match option {
        "from" => asked.from(value.parse()?),
        "to" => asked.to(value.parse()?),
        _ => asked.steps(value.parse::<u8>()?.into()),
    }
    Ok(())
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
        Request::Example(example) => {
            say(&format!("{}\n", document::write(&words::examples::named(example), None)))
        }
        Request::Schema(which) => schema(which.as_deref()),
        Request::Sources(Listing::Plain) => say(&words::sources::passage().plain()),
        Request::Sources(Listing::Markdown) => say(&words::sources::markdown()),
        Request::Compare { file, form } => variants::compare(&file, form),
        Request::Suggest { file, wish, form } => variants::suggest(&file, wish, form),
        Request::Sweep { file, asked, form } => variants::sweep(&file, &asked, form),
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

/// The design of a file; what is wrong with it is said.
fn open(file: &str) -> Result<Design, Outcome> {
    let read = read(file).map_err(|error| error.to_string()).and_then(|text| {
        document::read(&text).map_err(|error| words::document_error(&error, System::Metric))
    });
    read.map(|document| document.design).map_err(|error| {
        complain(&format!("{file}: {error}\n"));
        Outcome::Unreadable
    })
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
    let figures = DayFigures::new(&design, &day.first_fire, &day.periodic);
    let edges = edges(&design);
    let (trials, remedies) = (trials(&design), remedies(&design, system));
    let mild = mild_of(&design, &trials);
    let known = Known { day: Some(&figures), mild, edges: edges.as_ref() };
    let findings = judge(&design, &analysis, known);
    let computed = Computed {
        analysis: &analysis,
        day: Some(&day),
        uncertainty: None,
        edges: edges.as_ref(),
        trials: Some(&trials),
        remedies: &remedies,
    };
    let said = match form {
        Form::Json => json(&design, computed, &findings, system),
        Form::Text => say(&text(file, &design, &computed, &findings, system)),
        Form::Working => {
            let figures = say(&text(file, &design, &computed, &findings, system));
            figures.max(working(&design, &findings, system))
        }
    };
    let forbidden = Question::ALL.into_iter().any(|question| {
        matches!(answer(question, &findings), Answer::No | Answer::NotEnoughKnown)
    });
    if forbidden { said.max(Outcome::Forbidden) } else { said }
}

/// What mends the findings.
fn remedies(design: &Design, system: System) -> Vec<(Key, Vec<Remedy>)> {
    let found = |part| match part {
        Part::Found(key, remedies) => Some((key, remedies)),
        Part::Working => None,
    };
    Remedies::new(design, system).filter_map(found).collect()
}

/// One JSON document a line, so that many files make one stream.
fn json(
    design: &Design,
    computed: Computed<'_>,
    findings: &[Finding],
    system: System,
) -> Outcome {
    let uncertainty = uncertainty(design);
    let computed = Computed { uncertainty: uncertainty.as_ref(), ..computed };
    let report = words::report::report(design, computed, findings, system);
    match serde_json::to_string(&report) {
        Ok(line) => say(&format!("{line}\n")),
        Err(error) => {
            complain(&format!("{error}\n"));
            Outcome::Unreadable
        }
    }
}

fn uncertainty(design: &Design) -> Option<Uncertainty> {
    let plan = &Plan::new(design, Samples::standard(Samples::ENOUGH));
    plan.sum_up(&shared(plan.len(), |index| plan.sample(index)))
}

/// Safety at its unfavorable edge; a day that has none leaves the judgment without it.
fn edges(design: &Design) -> Option<Edges> {
    let study = &Study::new(design).ok()?;
    study.sum_up(&shared(study.len(), |index| study.sample(index))).ok()
}

fn trials(design: &Design) -> Vec<Tried> {
    let all = Trial::ALL;
    let mut tried = shared(all.len(), |index| Some(try_one(design, *all.get(index)?)));
    tried.sort_by_key(|tried| tried.trial);
    tried
}

/// Work in as many shares as there are processors; their number changes no figure.
fn shared<T: Send>(count: usize, sample: impl Fn(usize) -> Option<T> + Sync) -> Vec<T> {
    let shares = std::thread::available_parallelism().map_or(1, NonZero::get);
    let sample = &sample;
    std::thread::scope(|scope| {
        let share = |first: usize| {
            scope.spawn(move || {
                (first..count).step_by(shares).filter_map(sample).collect::<Vec<_>>()
            })
        };
        let all: Vec<_> = (0..shares).map(share).collect();
        all.into_iter().flat_map(|share| share.join().unwrap_or_default()).collect()
    })
}

fn text(
    file: &str,
    design: &Design,
    computed: &Computed<'_>,
    findings: &[Finding],
    system: System,
) -> String {
    let analysis = computed.analysis;
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
    lines.extend(computed.day.into_iter().flat_map(|day| figures_of_day(day, system)));
    if let Some(edges) = computed.edges {
        lines.push(format!("  {}:", said::TITLE));
        let rows = said::rows(design, edges, system);
        lines.extend(rows.map(|row| {
            format!("  {:<34}{:>12}, {} in 95 of 100 cases", row.name, row.nominal, row.edge)
        }));
    }
    for finding in findings {
        let text = words::finding(finding, system);
        lines.push(format!(
            "  {}: {} {} {} [{}; {}]",
            words::severity(finding.severity),
            text.title,
            text.reason,
            text.remedy,
            finding.source.text(),
            words::trust(finding.source.trust),
        ));
        lines.extend(tried(computed.remedies_of(finding), system));
    }
    lines.extend(other_days(design, computed.trials.unwrap_or_default(), system));
    for passage in [
        words::house::passage(design, analysis, computed.day.map(Into::into), system),
        words::operation::passage(design, analysis, system),
    ] {
        lines.extend(passage.plain().lines().map(|line| format!("  {line}")));
    }
    lines.push(format!("  {}", words::structure::weight(&analysis.structure, system)));
    lines.push(format!("  {}", words::structure::scope(design.site.rule_set)));
    lines.extend(words::CAUTIONS.iter().map(|caution| format!("  {caution}")));
    lines.join("\n") + "\n"
}

/// How each figure came about.
fn working(design: &Design, findings: &[Finding], system: System) -> Outcome {
    match words::working::all(design, findings, system) {
        Ok(passage) => say(&passage.plain()),
        Err(failure) => {
            complain(&format!("{}\n", words::failure(&failure, system)));
            Outcome::Unreadable
        }
    }
}

/// The heater under other conditions, a line each.
fn other_days(design: &Design, tried: &[Tried], system: System) -> Vec<String> {
    let line = |tried: &Tried| {
        let trial = tried.trial;
        let answers = match judge_trial(design, tried) {
            Ok(verdict) => Question::ALL
                .into_iter()
                .filter_map(|question| {
                    let answer = words::answer(question, verdict.answer(question, trial)?);
                    Some(format!("{} {answer}", words::question(question)))
                })
                .collect::<Vec<_>>()
                .join(" "),
            Err(failure) => words::failure(&failure, system),
        };
        let (name, supposes) = (trial_words::name(trial), trial_words::supposes(trial, system));
        format!("  {name} ({supposes}): {answers}")
    };
    tried.iter().map(line).collect()
}

/// What was found to mend a finding; no line where nothing was sought.
fn tried(remedies: Option<&[Remedy]>, system: System) -> Vec<String> {
    match remedies {
        None => Vec::new(),
        Some([]) => vec![format!("    {}", words::remedy::NONE)],
        Some(remedies) => {
            let line = |remedy: &Remedy| {
                let act = words::remedy::act(remedy, system);
                format!(
                    "    {}: {act} {}",
                    words::remedy::TRIED,
                    words::remedy::trades(remedy, system)
                )
            };
            remedies.iter().map(line).collect()
        }
    }
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
