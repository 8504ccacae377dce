//! The native command: figures and findings of design files, variants side by side, and the schema
//! of both formats.

#[path = "longsmoke/courses.rs"]
mod courses;
#[path = "longsmoke/paper.rs"]
mod paper;
#[path = "longsmoke/variants.rs"]
mod variants;

use lexopt::prelude::*;
use longsmoke::analysis::day::{Day, Setup, Whole, whole};
use longsmoke::analysis::{Analysis, Failure, analyze};
use longsmoke::design::Design;
use longsmoke::design::document::{self, Document, DocumentError};
use longsmoke::design::examples::Example;
use longsmoke::language::{self, English, said, say};
use longsmoke::rules::{Answer, DayFigures, Edges, Finding, Known, Question, answer, judge};
use longsmoke::study::day::First;
use longsmoke::study::edges::{Sample, Study};
use longsmoke::study::remedy::{Key, Part, Remedies, Remedy, Standing};
use longsmoke::study::suggest::Wish;
use longsmoke::study::trials::{Trial, Tried, judge as judge_trial, mild_of, try_near};
use longsmoke::study::uncertainty::{Plan, Setup as Samples, Uncertainty};
use longsmoke::units::{Quantity, System, figure};
use longsmoke::words;
use longsmoke::words::day::{DayFigure, FigureGroup};
use longsmoke::words::edges as said;
use longsmoke::words::languages;
use longsmoke::words::report::Computed;
use longsmoke::words::trials as trial_words;
use std::ffi::OsString;
use std::io::{Read as _, Write as _};
use std::num::NonZero;
use std::process::ExitCode;

/// What can be asked for, and what it does.
const USAGE: [(&str, English); 12] = [
    (
        "longsmoke check FILE... [--json|--working] [--units metric|us]",
        English(
            "figures and findings of design files; - reads standard input; --working shows how \
             each figure came about",
        ),
    ),
    (
        "longsmoke compare FILE [--csv|--json] [--units metric|us]",
        English("the same heater with one to ten runs, and which number is the best"),
    ),
    (
        "longsmoke sweep FILE --input KEY [--from A] [--to B] [--steps N] [--and KEY ...] [--csv|--json]",
        English(
            "inputs over their ranges, by their keys and in the units of a design file; two make \
             a map",
        ),
    ),
    (
        "longsmoke courses FILE [--csv|--json|--svg|--dxf] [--units metric|us]",
        English(
            "every brick, course by course, with cuts, materials and sizes that fit the bricks; \
             --svg draws all courses one below the other, --dxf puts every brick in its place, a \
             layer for each course",
        ),
    ),
    (
        "longsmoke sheet FILE [-o OUT.html] [--letter] [--us] [--date TEXT] [--address URL]",
        English(
            "sheets to print, on A4 or Letter, as one HTML file; the address is that of the page, \
             for the link",
        ),
    ),
    (
        "longsmoke export FILE -o FOLDER [--format FORMAT ...] [--us]",
        English(
            "files for other programs: sheet, svg, dxf, csv, json; all of them where none is named",
        ),
    ),
    (
        "longsmoke sources [--markdown]",
        English("where formulas, limits and values come from, and how far that was checked"),
    ),
    (
        "longsmoke suggest FILE [--aim AIM ...] [--when CONDITION ...] [--csv|--json] [--units metric|us]",
        English(
            "other designs for the same house, wood and chimney that answer yes three times; aims \
             are warmth, wood, masonry and simplicity, conditions those of the result; all of \
             them where none is named",
        ),
    ),
    (
        "longsmoke build FILE [--json] [--units metric|us]",
        English(
            "what it takes to build it: materials, weight, labor, order of work, first fires, and \
             the heat loss from the parts of the house",
        ),
    ),
    (
        "longsmoke schema [design|result]",
        English("JSON Schema of the design file, of the result, or of both"),
    ),
    (
        "longsmoke example [NAME]",
        English(
            "a design file to start from: farmhouse, cabin, bench, tall-stack, stone-faced, \
             tight-house",
        ),
    ),
    (
        "--language de|en",
        English("with any of them: the language; without it that of the environment"),
    ),
];
const OUTCOMES: English = English(
    "check ends with 0 when nothing forbids building, 1 when a finding does or no clearances were \
     checked, or what lies below the heater, what carries it or where its chimney stands is not \
     stated, 2 when a file cannot be read or analyzed: the worst of all files.",
);

/// What can be asked for, to read.
fn usage() -> String {
    let lines = USAGE.iter().flat_map(|(asked, does)| {
        std::iter::once((*asked).to_owned()).chain(wrapped(does, "    "))
    });
    let ends = [OUTCOMES]
        .iter()
        .chain(words::CAUTIONS.first())
        .flat_map(|text| std::iter::once(String::new()).chain(wrapped(text, "")));
    lines.chain(ends).map(|line| line + "\n").collect()
}

/// Most letters of a line.
const LINE: usize = 100;

/// A text in lines behind an indent.
fn wrapped(text: &str, indent: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ') {
        let length = |line: &String| line.chars().count() + 1 + word.chars().count();
        match lines.last_mut().filter(|line| length(line) <= LINE) {
            Some(line) => *line = format!("{line} {word}"),
            None => lines.push(format!("{indent}{word}")),
        }
    }
    lines
}

/// The language of the environment, as systems name it: `de_DE.UTF-8`.
fn environment() -> Option<String> {
    let names = ["LC_ALL", "LC_MESSAGES", "LANG"];
    let named = names.iter().filter_map(|name| std::env::var(name).ok());
    let first = named.into_iter().find(|value| !value.is_empty())?;
    first.split(['_', '.', '-']).next().map(str::to_owned)
}

/// Speaks a language that was asked for.
fn speak(tag: &str) -> Result<(), lexopt::Error> {
    if tag == "en" {
        language::english();
        return Ok(());
    }
    if languages::speak(tag) { Ok(()) } else { Err(said("--language takes en or de").into()) }
}
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
    Courses { file: String, form: courses::Form },
    Build { file: String, form: Form, system: System },
    Sheet { file: String, print: paper::Print },
    Export { file: String, print: paper::Print },
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
    // Where there is no catalog for it, English is spoken.
    let _ = environment().is_some_and(|tag| languages::speak(&tag));
    let outcome = match request() {
        Ok(request) => run(request),
        Err(error) => {
            complain(&format!("{error}\n\n{}", usage()));
            Outcome::Unreadable
        }
    };
    match outcome {
        Outcome::Fine => ExitCode::SUCCESS,
        Outcome::Forbidden => ExitCode::from(1),
        Outcome::Unreadable => ExitCode::from(2),
    }
}

/// What options say.
struct Options {
    form: Form,
    system: System,
    csv: bool,
    svg: bool,
    dxf: bool,
    asked: Vec<variants::Asked>,
    listing: Listing,
    wished: variants::Wished,
    print: paper::Print,
}

impl Options {
    /// Many figures as a table, for a spreadsheet or for a program.
    const fn many(&self) -> variants::Form {
        match self.form {
            _ if self.csv => variants::Form::Csv,
            Form::Json => variants::Form::Json,
            Form::Text | Form::Working => variants::Form::Table(self.system),
        }
    }

    const fn courses(&self) -> courses::Form {
        match self.form {
            _ if self.csv => courses::Form::Csv,
            _ if self.svg => courses::Form::Svg(self.system),
            _ if self.dxf => courses::Form::Dxf(self.system),
            Form::Json => courses::Form::Json,
            Form::Text | Form::Working => courses::Form::Text(self.system),
        }
    }
}

/// The options of each command, beside `--language`. What would be passed over is refused: a script
/// would take the wrong form for the one it asked for.
const OPTIONS: [(&str, &str); 11] = [
    ("build", "--json --units --us"),
    ("check", "--json --working --units --us"),
    ("compare", "--csv --json --units --us"),
    ("courses", "--csv --json --svg --dxf --units --us"),
    ("example", ""),
    ("export", "-o --format --letter --date --address --units --us"),
    ("schema", ""),
    ("sheet", "-o --letter --date --address --units --us"),
    ("sources", "--markdown"),
    ("suggest", "--aim --when --csv --json --units --us"),
    ("sweep", "--input --and --from --to --steps --csv --json --units --us"),
];

fn belong(command: &str, given: &[String]) -> Result<(), lexopt::Error> {
    let own = OPTIONS.iter().find(|(name, _)| *name == command).map(|(_, own)| *own);
    let is_own = |own: &str, option: &str| own.split(' ').any(|each| each == option);
    let alien = own.and_then(|own| given.iter().find(|each| !is_own(own, each)));
    match alien {
        Some(alien) => Err(say!("{alien} is no option of {command}").into()),
        None => Ok(()),
    }
}

fn request() -> Result<Request, lexopt::Error> {
    let mut parser = lexopt::Parser::from_env();
    let mut words: Vec<String> = Vec::new();
    let mut given = Vec::new();
    let mut options = Options {
        form: Form::Text,
        system: System::Metric,
        csv: false,
        svg: false,
        dxf: false,
        asked: Vec::new(),
        listing: Listing::Plain,
        wished: variants::Wished::default(),
        print: paper::Print::default(),
    };
    while let Some(argument) = parser.next()? {
        match argument {
            Long("language" | "help") | Value(_) => {}
            Long(option) => given.push(format!("--{option}")),
            Short(option) => given.push(format!("-{option}")),
        }
        match argument {
            Long("json") => options.form = Form::Json,
            Long("working") => options.form = Form::Working,
            Long("csv") => options.csv = true,
            Long("svg") => options.svg = true,
            Long("dxf") => options.dxf = true,
            Long("markdown") => options.listing = Listing::Markdown,
            Long("input" | "and") => {
                options.asked.push(variants::Asked::new(&parser.value()?.string()?)?);
            }
            Long(option @ ("from" | "to" | "steps")) => {
                let option = option.to_owned();
                range(&option, options.asked.last_mut(), &parser.value()?)?;
            }
            Long(option @ ("aim" | "when")) => {
                let option = option.to_owned();
                options.wished.take(&option, &parser.value()?.string()?)?;
            }
            Short('o') => options.print.take("out", &parser.value()?.string()?)?,
            Long(option @ ("date" | "address" | "format")) => {
                let option = option.to_owned();
                options.print.take(&option, &parser.value()?.string()?)?;
            }
            Long("letter") => options.print.letter(),
            Long("us") => options.system = System::Us,
            Long("language") => speak(&parser.value()?.string()?)?,
            Long("units") => options.system = units(&parser.value()?.string()?)?,
            Short('h') | Long("help") => return Ok(Request::Help),
            Value(word) => words.push(word.string()?),
            other => return Err(other.unexpected()),
        }
    }
    options.print.system = options.system;
    if let Some(command) = words.first() {
        belong(command, &given)?;
    }
    named(words, options)
}

/// What the first word asks for.
fn named(words: Vec<String>, options: Options) -> Result<Request, lexopt::Error> {
    let mut words = words.into_iter();
    let (many, courses) = (options.many(), options.courses());
    let Options { form, system, asked, listing, wished, print, .. } = options;
    match words.next().as_deref() {
        Some("compare") if words.len() == 1 => {
            Ok(Request::Compare { file: words.next().unwrap_or_default(), form: many })
        }
        Some("courses") if words.len() == 1 => {
            Ok(Request::Courses { file: words.next().unwrap_or_default(), form: courses })
        }
        Some("sweep") if words.len() == 1 && !asked.is_empty() => {
            let file = words.next().unwrap_or_default();
            Ok(Request::Sweep { file, asked, form: many })
        }
        Some("suggest") if words.len() == 1 => {
            let file = words.next().unwrap_or_default();
            Ok(Request::Suggest { file, wish: wished.wish(), form: many })
        }
        Some("sheet") if words.len() == 1 => {
            Ok(Request::Sheet { file: words.next().unwrap_or_default(), print })
        }
        Some("export") if words.len() == 1 => {
            Ok(Request::Export { file: words.next().unwrap_or_default(), print })
        }
        Some("check") if words.len() > 0 => {
            Ok(Request::Check { files: words.collect(), form, system })
        }
        Some("build") if words.len() == 1 => {
            Ok(Request::Build { file: words.next().unwrap_or_default(), form, system })
        }
        Some("sources") if words.len() == 0 => Ok(Request::Sources(listing)),
        Some("schema") if words.len() < 2 => Ok(Request::Schema(words.next())),
        Some("example") if words.len() < 2 => example(words.next()),
        Some("help") => Ok(Request::Help),
        _ => Err(said("say what to do").into()),
    }
}

fn example(name: Option<String>) -> Result<Request, lexopt::Error> {
    let name = name.unwrap_or_else(|| Example::Farmhouse.id().to_owned());
    let example = Example::from_id(&name).ok_or(said("there is no example of that name"))?;
    Ok(Request::Example(example))
}

/// An option that belongs to the input named before it.
fn range(
    option: &str,
    asked: Option<&mut variants::Asked>,
    value: &OsString,
) -> Result<(), lexopt::Error> {
    let asked = asked.ok_or(said("--from, --to and --steps follow an --input or --and"))?;
    match option {
        "from" => asked.from(value.parse()?)?,
        "to" => asked.to(value.parse()?)?,
        _ => asked.steps(value.parse::<u8>()?.into()),
    }
    Ok(())
}

fn units(word: &str) -> Result<System, lexopt::Error> {
    match word {
        "metric" => Ok(System::Metric),
        "us" => Ok(System::Us),
        _ => Err(said("--units takes metric or us").into()),
    }
}

fn run(request: Request) -> Outcome {
    match request {
        Request::Help => say(&usage()),
        Request::Example(example) => {
            say(&format!("{}\n", document::write(&words::examples::named(example), None)))
        }
        Request::Schema(which) => schema(which.as_deref()),
        Request::Sources(Listing::Plain) => say(&words::sources::passage().plain()),
        Request::Sources(Listing::Markdown) => say(&words::sources::markdown()),
        Request::Compare { file, form } => variants::compare(&file, form),
        Request::Courses { file, form } => courses::courses(&file, form),
        Request::Suggest { file, wish, form } => variants::suggest(&file, wish, form),
        Request::Sheet { file, print } => paper::sheet(&file, &print),
        Request::Export { file, print } => paper::export(&file, &print),
        Request::Sweep { file, asked, form } => variants::sweep(&file, &asked, form),
        Request::Build { file, form, system } => build(&file, form, system),
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
            complain(said("schema takes design or result\n"));
            return Outcome::Unreadable;
        }
    };
    say(&format!("{schema:#}\n"))
}

/// What editors of some systems put in front of a text.
const BYTE_ORDER_MARK: &[u8] = &[0xEF, 0xBB, 0xBF];

/// The bytes of a file behind its byte order mark; no more than tell that it is too long.
fn read(file: &str) -> std::io::Result<Vec<u8>> {
    let most = u64::try_from(document::MOST_BYTES + BYTE_ORDER_MARK.len() + 1);
    let most = most.unwrap_or(u64::MAX);
    let mut bytes = Vec::new();
    if file == "-" {
        std::io::stdin().take(most).read_to_end(&mut bytes)?;
    } else {
        std::fs::File::open(file)?.take(most).read_to_end(&mut bytes)?;
    }
    if bytes.starts_with(BYTE_ORDER_MARK) {
        bytes.drain(..BYTE_ORDER_MARK.len());
    }
    Ok(bytes)
}

/// What a file holds, or what is wrong with it, in words.
fn opened(file: &str, system: System) -> Result<Document, String> {
    let bytes = read(file).map_err(|error| error.to_string())?;
    // A letter may be cut in two there.
    let text = match String::from_utf8(bytes) {
        Err(error) if error.as_bytes().len() > document::MOST_BYTES => {
            return Err(words::document_error(&DocumentError::TooLong, system));
        }
        text => text.map_err(|error| error.to_string())?,
    };
    document::read(&text).map_err(|error| words::document_error(&error, system))
}

/// The design of a file; what is wrong with it is said.
fn open(file: &str) -> Result<Design, Outcome> {
    opened(file, System::Metric).map(|document| document.design).map_err(|error| {
        complain(&format!("{file}: {error}\n"));
        Outcome::Unreadable
    })
}

/// What it takes to build the design of a file.
fn build(file: &str, form: Form, system: System) -> Outcome {
    let design = match open(file) {
        Ok(design) => design,
        Err(outcome) => return outcome,
    };
    match analyze(&design) {
        Ok(analysis) if matches!(form, Form::Json) => {
            say(&format!("{}\n", words::build::report::report(&design, &analysis)))
        }
        Ok(analysis) => {
            let house = words::envelope::passage(&design, &analysis, system).plain();
            say(&(words::build::passage(&design, &analysis, system).plain() + &house))
        }
        Err(failure) => {
            complain(&format!("{file}: {}\n", words::failure(&failure, system)));
            Outcome::Unreadable
        }
    }
}

fn check_file(file: &str, form: Form, system: System) -> Outcome {
    let result = opened(file, system).and_then(|document| {
        let failed = |error| words::failure(&error, system);
        let analysis = analyze(&document.design).map_err(failed)?;
        let day = whole(&document.design, &Setup::STANDARD, None).map_err(failed)?;
        Ok((document.design, analysis, day))
    });
    let (design, analysis, standing) = match result {
        Ok(result) => result,
        Err(error) => {
            complain(&format!("{file}: {error}\n"));
            return Outcome::Unreadable;
        }
    };
    let day = Day::from(standing.clone());
    let figures = DayFigures::new(&design, &day.first_fire, &day.periodic);
    let sampled = sampled(&design);
    let edges = edges(sampled.as_ref());
    let trials = trials(&design, Ok(&standing));
    let mild = mild_of(&design, &trials);
    let days = (standing, mild.cloned());
    let remedies = remedies(&design, system, Some(Standing { days, edges: sampled.ok() }));
    let known = Known {
        day: Some(Ok(&figures)),
        mild: mild.map(Result::as_ref),
        edges: Some(edges.as_ref()),
    };
    let findings = judge(&design, &analysis, known);
    let computed = Computed {
        analysis: &analysis,
        day: Some(&day),
        uncertainty: None,
        edges: edges.as_ref().ok(),
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
fn remedies(
    design: &Design,
    system: System,
    standing: Option<Standing>,
) -> Vec<(Key, Vec<Remedy>)> {
    let found = |part| match part {
        Part::Found(key, remedies) => Some((key, remedies)),
        Part::Working => None,
    };
    let remedies = match standing {
        Some(standing) => Remedies::of(design, system, standing),
        None => Remedies::new(design, system),
    };
    remedies.filter_map(found).collect()
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

/// Samples of safety at its unfavorable edge.
fn sampled(design: &Design) -> Result<(Study, Vec<Sample>), Failure> {
    let study = Study::new(design)?;
    let mut samples = shared(study.len(), |index| study.sample(index));
    samples.sort_by_key(Sample::index);
    Ok((study, samples))
}

/// What the samples say together.
fn edges(sampled: Result<&(Study, Vec<Sample>), &Failure>) -> Result<Edges, Failure> {
    let (study, samples) = sampled.map_err(Clone::clone)?;
    study.sum_up(samples)
}

fn trials(design: &Design, standing: Result<&Whole, &Failure>) -> Vec<Tried> {
    let all = Trial::ALL;
    let one = |index| Some(try_near(design, *all.get(index)?, standing));
    let mut tried = shared(all.len(), one);
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
    let mut lines = vec![say!("{file}: at the height of the fire, first fire")];
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
        lines.push(format!("  {}:", said::TITLE.said()));
        let rows = said::rows(design, edges, system);
        let wide = width(rows.iter().map(|row| row.name));
        lines.extend(rows.iter().map(|row| {
            let edge = say!("{} in 95 of 100 cases", row.edge);
            format!("  {:<wide$}{:>12}, {edge}", row.name, row.nominal)
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
        let range = words::validity::validity(finding.rule, system);
        lines.push(format!("    {}", say!("Range of validity: {range}")));
        lines.extend(tried(computed.remedies_of(finding), system));
    }
    lines.extend(other_days(design, computed.trials.unwrap_or_default(), system));
    let beyond =
        computed.day.and_then(|day| words::day::beyond_formulas(&day.periodic, system));
    let read = [
        words::house::passage(design, analysis, computed.day.map(Into::into), system),
        words::operation::passage(design, analysis, system),
    ];
    for passage in beyond.into_iter().chain(read) {
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
        Some([]) => vec![format!("    {}", words::remedy::NONE.said())],
        Some(remedies) => {
            let line = |remedy: &Remedy| {
                let act = words::remedy::act(remedy, system);
                format!(
                    "    {}: {act} {}",
                    words::remedy::TRIED.said(),
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
        (said("Gas out of the firebox"), fire.firebox_outlet, Quantity::Temperature),
        (said("Gas out of the last run"), fire.runs_outlet, Quantity::Temperature),
        (said("Gas into the chimney"), fire.chimney_inlet, Quantity::Temperature),
        (
            said("Wall at the mouth, steady flue"),
            fire.chimney_mouth_wall,
            Quantity::Temperature,
        ),
        (said("Dew point"), fire.dew_point, Quantity::Temperature),
        (said("Draft"), fire.draft, Quantity::Pressure),
        (said("Losses"), fire.losses, Quantity::Pressure),
        (said("Margin"), fire.margin, Quantity::Pressure),
        (said("Efficiency, lower heating value"), fire.efficiency_lower, Quantity::Share),
        (said("Efficiency, higher heating value"), fire.efficiency_higher, Quantity::Share),
    ];
    let wide = width(figures.iter().map(|(name, ..)| *name));
    let line = |(name, value, quantity)| {
        format!("  {name:<wide$}{:>12}", figure(value, quantity, system))
    };
    figures.map(line).to_vec()
}

/// Letters for the longest of some names, and for a usual one at least.
fn width<'a>(names: impl Iterator<Item = &'a str>) -> usize {
    names.map(|name| name.chars().count() + 1).fold(34, usize::max)
}

fn figures_of_day(day: &Day, system: System) -> Vec<String> {
    let groups = words::day::figures(&day.periodic, &First::from(day), system);
    let all = groups.iter().flat_map(|group| &group.figures);
    let wide = width(all.map(|figure| figure.name)) - 2;
    let lines = |group: FigureGroup| {
        let line = |DayFigure { name, value, note, .. }| {
            let line = format!("    {name:<wide$}{value:>12}  {note}");
            line.trim_end().to_owned()
        };
        std::iter::once(format!("  {}", group.title))
            .chain(group.figures.into_iter().map(line))
            .collect::<Vec<_>>()
    };
    std::iter::once(format!("  {}:", said("Once the days repeat")))
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
