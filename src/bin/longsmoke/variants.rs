//! Many variants of one design: runs compared, inputs swept.

use super::{Outcome, complain, open, say};
use longsmoke::analysis::Failure;
use longsmoke::design::field::{FIELDS, Field, FieldId, Kind, field};
use longsmoke::language::said;
use longsmoke::rules::{Answer, Question};
use longsmoke::study::compare::{Column, best};
use longsmoke::study::figures::{Figures, Line};
use longsmoke::study::strip::RUNS;
use longsmoke::study::suggest::{self, Aim, Found, Part, Piece, Proposal, Suggest, Wish, with};
use longsmoke::study::sweep::{Axis, Point, Sweep};
use longsmoke::study::trials::Trial;
use longsmoke::study::variant::value;
use longsmoke::units::{Quantity, System, celsius, figure, kelvin};
use longsmoke::words;
use serde_json::{Map, Value, json};
use std::num::NonZero;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Condvar, Mutex};

/// Values of an axis where nothing else is said.
const STEPS: u32 = 9;
/// Variants beside each other in a table.
const ABREAST: usize = 10;

/// How the figures are written.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Form {
    Table(System),
    Csv,
    Json,
}

/// An input to sweep, as it was asked for, in the units of a file.
pub struct Asked {
    field: FieldId,
    from: Option<f64>,
    to: Option<f64>,
    steps: u32,
    /// Numbers that cannot be, as they were given, each with the one that is taken.
    held: Vec<[f64; 2]>,
}

impl Asked {
    /// An input by its key in files.
    pub fn new(key: &str) -> Result<Self, String> {
        let found = FIELDS.iter().find(|field| field.path == key);
        let found = found.ok_or_else(|| {
            say!("{key} is no input of a design file; see longsmoke schema design")
        })?;
        Ok(Self { field: found.id, from: None, to: None, steps: STEPS, held: Vec::new() })
    }

    pub fn from(&mut self, value: f64) -> Result<(), String> {
        self.from = Some(self.end(value)?);
        Ok(())
    }

    pub fn to(&mut self, value: f64) -> Result<(), String> {
        self.to = Some(self.end(value)?);
        Ok(())
    }

    /// An end of the range, in SI. A design holds a count to what can be, so that is done here.
    fn end(&mut self, given: f64) -> Result<f64, String> {
        let field = field(self.field);
        if !given.is_finite() {
            let key = field.path;
            return Err(say!("{key}: --from and --to take a number"));
        }
        match &field.kind {
            Kind::Number(number) if number.quantity == Quantity::Count => {
                let taken = given.clamp(*number.possible.start(), *number.possible.end());
                if taken < given || given < taken {
                    self.held.push([given, taken]);
                }
                Ok(taken)
            }
            _ => Ok(from_file(field, given)),
        }
    }

    /// Says which numbers cannot be.
    fn say_held(&self) {
        for [given, taken] in &self.held {
            let key = field(self.field).path;
            complain(&(say!("{key}: {given} cannot be, {taken} is taken") + "\n"));
        }
    }

    pub const fn steps(&mut self, steps: u32) {
        self.steps = steps;
    }

    fn axis(&self) -> Axis {
        let range = match &field(self.field).kind {
            Kind::Number(number) => {
                let from = self.from.unwrap_or(*number.usual.start());
                Some(from..=self.to.unwrap_or(*number.usual.end()))
            }
            Kind::Choice(_) => None,
        };
        Axis::new(self.field, range, self.steps)
    }
}

/// What is wished of a suggestion, option by option.
#[derive(Default)]
pub struct Wished {
    trials: Vec<Trial>,
    aims: Vec<Aim>,
}

impl Wished {
    /// Takes a condition or an aim by its name.
    pub fn take(&mut self, option: &str, name: &str) -> Result<(), String> {
        if option == "aim" {
            let aim = Aim::from_id(name).ok_or_else(|| say!("{name} is no aim"))?;
            self.aims.push(aim);
        } else {
            let trial = Trial::from_id(name).ok_or_else(|| say!("{name} is no condition"))?;
            self.trials.push(trial);
        }
        Ok(())
    }

    /// All of it.
    pub fn wish(&self) -> Wish {
        Wish::new(&self.trials, &self.aims)
    }
}

fn from_file(field: &Field, value: f64) -> f64 {
    match &field.kind {
        Kind::Number(number) if number.quantity == Quantity::Temperature => kelvin(value),
        _ => value,
    }
}

/// One variant: what is changed in it, by key and in words, and what it comes to.
struct Row {
    changed: Vec<(&'static str, Value)>,
    head: String,
    result: Result<Figures, Failure>,
}

/// One to ten runs side by side.
pub fn compare(file: &str, form: Form) -> Outcome {
    let design = match open(file) {
        Ok(design) => design,
        Err(outcome) => return outcome,
    };
    let count = RUNS.count();
    let columns = shared(count, |index| Column::new(&design, RUNS.start() + index));
    let found = best(&columns);
    let rows: Vec<Row> = columns
        .into_iter()
        .map(|column| Row {
            changed: vec![(field(FieldId::RunCount).path, json!(column.runs))],
            head: column.runs.to_string(),
            result: column.result,
        })
        .collect();
    let system = if let Form::Table(system) = form { system } else { System::Metric };
    let sentence = found.map(|found| words::compare::best(&found, system));
    match form {
        Form::Table(system) => {
            let best = sentence.unwrap_or_default();
            let note = words::compare::NOTE.said();
            let title = format!("{file}: {}", words::label(FieldId::RunCount));
            say(&format!("{title}\n{}{best}\n{note}\n", table(&rows, system)))
        }
        Form::Csv => say(&csv(&rows)),
        Form::Json => {
            let columns: Vec<Value> = rows.iter().map(object).collect();
            say(&format!("{}\n", json!({ "columns": columns, "best": sentence })))
        }
    }
}

/// Other designs for the same house, wood and chimney.
pub fn suggest(file: &str, wish: Wish, form: Form) -> Outcome {
    let design = match open(file) {
        Ok(design) => design,
        Err(outcome) => return outcome,
    };
    let Some(found) = sought(Suggest::new(&design, wish)) else {
        return Outcome::Unreadable;
    };
    if let Form::Table(system) = form {
        return say(&words::suggest::passage(&design, wish, &found, system).plain());
    }
    // A table of files has the same columns in every row.
    let fields = found.proposals.iter().flat_map(|each| &each.puts).map(|(id, _)| *id);
    let mut ids: Vec<FieldId> = fields.collect();
    ids.sort_by_key(|id| field(*id).path);
    ids.dedup();
    let row = |proposal: &Proposal| {
        let proposed = with(&design, &proposal.puts);
        let changed = ids.iter().map(|id| {
            let field = field(*id);
            (field.path, in_file(field, value(&proposed, *id)))
        });
        Row { changed: changed.collect(), head: String::new(), result: Ok(proposal.figures) }
    };
    let rows: Vec<Row> = found.proposals.iter().map(row).collect();
    if form == Form::Csv {
        return say(&csv(&rows));
    }
    let told = found.proposals.iter().zip(&rows).map(|(proposal, row)| {
        let mut object = object(row);
        let unmet: Vec<_> = proposal.unmet.iter().map(|trial| trial.id()).collect();
        if let Value::Object(object) = &mut object {
            object.insert("unmet_conditions".into(), json!(unmet));
        }
        object
    });
    let asked: Vec<_> = found.asked.iter().map(|trial| trial.id()).collect();
    let reading = words::suggest::passage(&design, wish, &found, System::Metric).plain();
    let told: Vec<Value> = told.collect();
    let all = json!({ "proposals": told, "asked_conditions": asked, "in_words": reading });
    say(&format!("{all}\n"))
}

/// One input or several over their ranges.
pub fn sweep(file: &str, asked: &[Asked], form: Form) -> Outcome {
    let design = match open(file) {
        Ok(design) => design,
        Err(outcome) => return outcome,
    };
    asked.iter().for_each(Asked::say_held);
    let sweep = Sweep::new(&design, asked.iter().map(Asked::axis).collect());
    let points = shared(sweep.len(), |index| sweep.point(index));
    let system = if let Form::Table(system) = form { system } else { System::Metric };
    let row = |point: Point| Row {
        changed: changed(asked, &point.values),
        head: heads(asked, &point.values, system).join(", "),
        result: point.result,
    };
    let rows: Vec<Row> = points.into_iter().flatten().map(row).collect();
    let names: Vec<_> = asked.iter().map(|asked| words::label(asked.field)).collect();
    let title = format!("{file}: {}", names.join(", "));
    match (form, asked) {
        (Form::Csv, _) => say(&csv(&rows)),
        (Form::Json, _) => {
            let points: Vec<Value> = rows.iter().map(object).collect();
            say(&format!("{}\n", json!({ "points": points })))
        }
        (Form::Table(system), [down, across]) => {
            let map = map(&rows, (&down.axis(), &across.axis()), system);
            say(&format!("{title}\n{map}"))
        }
        (Form::Table(system), _) => {
            let note = words::compare::NOTE.said();
            say(&format!("{title}\n{}{note}\n", table(&rows, system)))
        }
    }
}

fn changed(asked: &[Asked], values: &[f64]) -> Vec<(&'static str, Value)> {
    let pairs = asked.iter().zip(values);
    pairs
        .map(|(asked, value)| {
            let field = field(asked.field);
            (field.path, in_file(field, *value))
        })
        .collect()
}

fn in_file(field: &Field, value: f64) -> Value {
    match &field.kind {
        Kind::Number(number) => written(value, number.quantity),
        Kind::Choice(choice) => json!(chosen(choice.keys, value)),
    }
}

fn written(value: f64, quantity: Quantity) -> Value {
    match quantity {
        Quantity::Temperature => json!(celsius(value)),
        Quantity::Count => json!(format!("{value:.0}").parse::<u32>().unwrap_or(0)),
        _ => json!(value),
    }
}

/// The key at a place that is written as a number.
fn chosen<'a>(keys: &[&'a str], place: f64) -> &'a str {
    let place = format!("{place:.0}").parse::<usize>();
    place.ok().and_then(|place| keys.get(place).copied()).unwrap_or_default()
}

fn heads(asked: &[Asked], values: &[f64], system: System) -> Vec<String> {
    asked.iter().zip(values).map(|(asked, value)| head(asked.field, *value, system)).collect()
}

fn head(id: FieldId, value: f64, system: System) -> String {
    match &field(id).kind {
        Kind::Number(number) => figure(value, number.quantity, system),
        Kind::Choice(choice) => chosen(choice.keys, value).into(),
    }
}

/// All cores at work on items that each know their place.
fn shared<T: Send>(count: usize, work: impl Fn(usize) -> T + Sync) -> Vec<T> {
    let next = AtomicUsize::new(0);
    let workers = std::thread::available_parallelism().map_or(1, NonZero::get);
    let take = || {
        let mut mine = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            if count <= index {
                return mine;
            }
            mine.push((index, work(index)));
        }
    };
    let mut all: Vec<(usize, T)> = std::thread::scope(|scope| {
        let handles: Vec<_> = (0..workers).map(|_| scope.spawn(take)).collect();
        handles.into_iter().flat_map(|handle| handle.join().unwrap_or_default()).collect()
    });
    all.sort_by_key(|(index, _)| *index);
    all.into_iter().map(|(_, item)| item).collect()
}

/// A search that several threads are at.
struct Shared {
    search: Suggest,
    /// Pieces that somebody seeks.
    at_work: Vec<Piece>,
    outcome: Option<suggest::Outcome>,
}

impl Shared {
    /// Goes on until a piece is wanted.
    fn go_on(&mut self) {
        while let Some(part) = self.search.step() {
            if let Part::End(outcome) = part {
                self.outcome = Some(*outcome);
            }
        }
    }

    /// The next piece that nobody seeks.
    fn open(&mut self) -> Option<Piece> {
        self.go_on();
        let wanted = self.search.wanted();
        let piece = wanted.into_iter().find(|piece| !self.at_work.contains(piece))?;
        self.at_work.push(piece);
        Some(piece)
    }

    fn take(&mut self, piece: Piece, found: Found) {
        self.at_work.retain(|other| *other != piece);
        self.search.learn(piece, found);
        self.go_on();
    }
}

/// What a search comes to, with all cores at its pieces. Which of them finds a piece changes nothing.
fn sought(search: Suggest) -> Option<suggest::Outcome> {
    let ground = search.ground().clone();
    let search = Mutex::new(Shared { search, at_work: Vec::new(), outcome: None });
    let changed = Condvar::new();
    let seek = || {
        let mut held = search.lock().ok()?;
        while held.outcome.is_none() {
            let Some(piece) = held.open() else {
                if held.outcome.is_none() {
                    held = changed.wait(held).ok()?;
                }
                continue;
            };
            drop(held);
            let found = ground.find(piece);
            held = search.lock().ok()?;
            held.take(piece, found);
            changed.notify_all();
        }
        changed.notify_all();
        Some(())
    };
    std::thread::scope(|scope| {
        let workers = std::thread::available_parallelism().map_or(1, NonZero::get);
        for _ in 0..workers {
            scope.spawn(seek);
        }
    });
    search.into_inner().ok()?.outcome
}

/// Lines down, variants across.
fn table(rows: &[Row], system: System) -> String {
    rows.chunks(ABREAST).map(|rows| block(rows, system)).collect()
}

fn block(rows: &[Row], system: System) -> String {
    let names = Line::ALL.map(|each| words::compare::line_with_unit(each, system));
    let wide = super::width(names.iter().map(String::as_str));
    let line = |name: &str, cell: &dyn Fn(&Row) -> String| {
        let cells = rows.iter().map(|row| {
            let width = row.head.chars().count().max(8) + 2;
            format!("{:>width$}", cell(row))
        });
        format!("  {name:<wide$}{}\n", cells.collect::<String>())
    };
    let found = |row: &Row, cell: &dyn Fn(&Figures) -> String| {
        row.result.as_ref().map_or("-".into(), cell)
    };
    let figures = Line::ALL.map(|each| {
        line(&words::compare::line_with_unit(each, system), &|row| {
            found(row, &|figures| words::compare::shown(each, figures, system))
        })
    });
    let answers = Question::ALL.map(|each| {
        line(words::question(each), &|row| {
            found(row, &|figures| short(figures.answer(each)).into())
        })
    });
    let passes = line(said("Yes three times"), &|row| {
        found(row, &|figures| if figures.passes() { said("yes").into() } else { String::new() })
    });
    let heads = line("", &|row| row.head.clone());
    [heads, figures.concat(), answers.concat(), passes, "\n".into()].concat()
}

/// Two inputs: a word for each pair of values.
fn map(rows: &[Row], (down, across): (&Axis, &Axis), system: System) -> String {
    let line = |name: &str, cells: &mut dyn Iterator<Item = String>| {
        let cells = cells.map(|cell| format!("{cell:>12}"));
        format!("  {name:<12}{}\n", cells.collect::<String>())
    };
    let mut heads = across.values.iter().map(|value| head(across.field, *value, system));
    let first = line("", &mut heads);
    let lines = down.values.iter().zip(rows.chunks(across.values.len().max(1)));
    let lines = lines.map(|(value, rows)| {
        let mut words = rows.iter().map(|row| worst(row).into());
        line(&head(down.field, *value, system), &mut words)
    });
    std::iter::once(first)
        .chain(lines)
        .chain([said(
            "yes: all three questions; look, no: the worst answer; -: cannot be built.\n",
        )
        .into()])
        .collect()
}

fn worst(row: &Row) -> &'static str {
    let Ok(figures) = &row.result else {
        return "-";
    };
    let answers = || figures.verdicts.iter().map(|verdict| verdict.answer);
    let worst = [Answer::No, Answer::NotEnoughKnown, Answer::LookAgain];
    short(worst.into_iter().find(|worst| answers().any(|a| a == *worst)).unwrap_or(Answer::Yes))
}

fn short(answer: Answer) -> &'static str {
    match answer {
        Answer::Yes => said("yes"),
        Answer::LookAgain => said("look"),
        Answer::No => said("no"),
        Answer::NotEnoughKnown => said("unknown"),
    }
}

/// A variant by key: what is changed, figures, answers with the rule that decides each.
fn object(row: &Row) -> Value {
    let mut object = Map::new();
    for (key, value) in &row.changed {
        object.insert((*key).into(), value.clone());
    }
    let figures = row.result.as_ref().ok();
    for line in Line::ALL {
        let value = figures.and_then(|figures| figures.line(line));
        let value = value.map_or(Value::Null, |value| written(value, line.quantity()));
        object.insert(line.key().into(), value);
    }
    for (index, question) in Question::ALL.into_iter().enumerate() {
        let verdict = figures.and_then(|figures| figures.verdicts.get(index));
        let key = json!(question).as_str().unwrap_or_default().to_owned();
        let rule = verdict.and_then(|verdict| verdict.deciding).map(|f| f.rule.id());
        object.insert(format!("{key}_decided_by"), json!(rule));
        object.insert(key, json!(verdict.map(|verdict| verdict.answer)));
    }
    object.insert("passes".into(), json!(figures.is_some_and(Figures::passes)));
    let failure = row.result.as_ref().err();
    let failure = failure.map(|failure| words::failure(failure, System::Metric));
    object.insert("failure".into(), json!(failure));
    Value::Object(object)
}

fn csv(rows: &[Row]) -> String {
    let mut lines = Vec::new();
    for row in rows {
        let Value::Object(object) = object(row) else {
            continue;
        };
        if lines.is_empty() {
            lines.push(object.keys().cloned().collect::<Vec<_>>().join(","));
        }
        lines.push(object.values().map(cell).collect::<Vec<_>>().join(","));
    }
    lines.join("\r\n") + "\r\n"
}

fn cell(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) if text.contains([',', '"', '\n']) => {
            format!("\"{}\"", text.replace('"', "\"\""))
        }
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}
