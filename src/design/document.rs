//! A design as a JSON file: versioned, in SI with the unit in each name.

use super::field::{Choice, FIELDS, Field, FieldId, Kind, MOST_RUNS, Number, Problem, check};
use super::frozen::design_of;
use super::notes::{Note, Notes};
use super::{Design, RunOverride};
use crate::units::{Quantity, ZERO_CELSIUS, celsius, float, kelvin};
use serde_json::{Map, Value, json};

/// Version of the file format that is written.
pub const VERSION: u64 = 1;
/// Version of the frozen values that a file means by what it leaves out.
const FROZEN: u32 = 1;
/// Key that marks a file as a design and holds its version.
pub const VERSION_KEY: &str = "heater_design_version";
/// Largest file that is read (bytes); what a file or a link holds is no larger as we write it.
pub const MOST_BYTES: usize = 256 * 1024;
/// Longest name (characters).
pub const MOST_NAME: usize = 80;

/// Why a file cannot be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DocumentError {
    /// Too long, as it is or as we would write it.
    #[error("the file is longer than {MOST_BYTES} bytes, as it is or as it would be written")]
    TooLong,
    /// Not JSON.
    #[error("line {line}: not JSON: {cause}")]
    NotJson {
        /// Line, from 1.
        line: usize,
        /// What the reader says.
        cause: String,
    },
    /// JSON, but no design.
    #[error("this is not a design file: {VERSION_KEY} is missing")]
    NotADesign,
    /// Made by a later version.
    #[error("the file has version {0}, this program reads up to {VERSION}")]
    UnknownVersion(u64),
    /// A value of the wrong kind.
    #[error("line {line}: {path}: {expected} expected")]
    WrongKind {
        /// Line, from 1.
        line: usize,
        /// Group and key.
        path: String,
        /// What would be right.
        expected: String,
    },
    /// A value that the program refuses.
    #[error("line {line}: {path}: outside what is possible")]
    Refused {
        /// Line, from 1.
        line: usize,
        /// Group and key.
        path: String,
        /// What is wrong.
        problem: Problem,
    },
}

/// Key of the designs that are pinned beside the one of the file.
const PINNED: &str = "pinned_designs";
/// Most designs that a file or a link pins beside its own.
pub const MOST_PINNED: usize = 4;

/// A design with the file from which it came, so that what we do not know survives.
#[derive(Clone, Debug, PartialEq)]
pub struct Document {
    /// The design.
    pub design: Design,
    /// Designs that are pinned beside it.
    pub pinned: Vec<Design>,
    /// The file as read.
    pub original: Value,
}

impl Document {
    /// How many inputs the file leaves out, so that they take their frozen values.
    pub fn missing(&self) -> usize {
        let is_absent = |field: &&Field| self.original.pointer(&pointer_to(field)).is_none();
        FIELDS.iter().filter(is_absent).count()
    }

    /// The file as we write it.
    pub fn written(&self) -> String {
        write_pinned(&self.design, &self.pinned, Some(&self.original))
    }
}

/// Whether a file that we write is short enough to be read.
pub const fn fits(written: &str) -> bool {
    written.len() <= MOST_BYTES
}

/// Where an input stands in a file.
fn pointer_to(field: &Field) -> String {
    format!("/{}", field.path.replace('.', "/"))
}

/// A number as it stands in files and links: in the fewest digits that read back as the same.
pub(super) fn number(value: f64) -> Value {
    format!("{value:?}").parse().map_or(Value::Null, Value::Number)
}

/// The number of a value; `Value::as_f64` would read it by `parse`, see [`float`].
pub(super) fn as_float(value: &Value) -> Option<f64> {
    value.as_number().and_then(|number| float(number.as_str())).filter(|read| read.is_finite())
}

/// Value of an input as it stands in files.
pub(super) fn field_value(field: &Field, design: &Design) -> Value {
    match &field.kind {
        Kind::Choice(choice) => {
            choice.keys.get((choice.get)(design)).copied().unwrap_or_default().into()
        }
        Kind::Number(number) => {
            let value = (number.get)(design);
            match number.quantity {
                Quantity::Temperature => self::number(celsius(value)),
                Quantity::Count => self::number(value.round()),
                _ => self::number(value),
            }
        }
    }
}

/// Puts a value from a file into a design; says what was expected if it is of the wrong kind.
pub(super) fn set_field(
    field: &Field,
    design: &mut Design,
    value: &Value,
) -> Result<(), String> {
    match &field.kind {
        Kind::Choice(choice) => set_choice(choice, design, value),
        Kind::Number(number) => set_number(number, design, value),
    }
}

fn set_choice(choice: &Choice, design: &mut Design, value: &Value) -> Result<(), String> {
    let text = value.as_str().unwrap_or_default();
    let index = choice.keys.iter().position(|key| *key == text);
    let index = index.ok_or_else(|| format!("one of {}", choice.keys.join(", ")))?;
    (choice.set)(design, index);
    Ok(())
}

fn set_number(number: &Number, design: &mut Design, value: &Value) -> Result<(), String> {
    let value = as_float(value).ok_or("a number")?;
    let value = if number.quantity == Quantity::Temperature { kelvin(value) } else { value };
    // `set` of a count holds it to its range, so a wrong one must be seen before.
    if number.quantity == Quantity::Count
        && !(number.possible.contains(&value) && value.fract().abs() < 1e-9)
    {
        let (low, high) = (number.possible.start(), number.possible.end());
        return Err(format!("a whole number from {low} to {high}"));
    }
    (number.set)(design, value);
    Ok(())
}

/// Reads a design file. Inputs that it lacks mean what a link of version 1 means by leaving them
/// out: values that are frozen. What is read can be written and read again.
///
/// # Errors
///
/// [`DocumentError`], with line and field where there is one.
pub fn read(text: &str) -> Result<Document, DocumentError> {
    let document = read_ours(text)?;
    if fits(&document.written()) { Ok(document) } else { Err(DocumentError::TooLong) }
}

/// Reads a design file that we wrote, for whoever will not write it again.
///
/// # Errors
///
/// [`DocumentError`], with line and field where there is one.
pub fn read_ours(text: &str) -> Result<Document, DocumentError> {
    if text.len() > MOST_BYTES {
        return Err(DocumentError::TooLong);
    }
    let original: Value = serde_json::from_str(text).map_err(|error| {
        DocumentError::NotJson { line: error.line(), cause: error.to_string() }
    })?;
    let version = original.get(VERSION_KEY).ok_or(DocumentError::NotADesign)?;
    let version = version.as_u64().ok_or(DocumentError::NotADesign)?;
    if version > VERSION {
        return Err(DocumentError::UnknownVersion(version));
    }
    let design = read_design(text, &original, "")?;
    let pinned = match original.get(PINNED) {
        None => Vec::new(),
        Some(Value::Array(all)) if all.len() <= MOST_PINNED => {
            let each = (1_u32..).zip(all);
            let each =
                each.map(|(count, one)| read_design(text, one, &format!("{PINNED}.{count}.")));
            each.collect::<Result<_, _>>()?
        }
        Some(_) => {
            return Err(DocumentError::WrongKind {
                line: line_of(text, PINNED),
                path: PINNED.into(),
                expected: format!("a list of at most {MOST_PINNED} designs"),
            });
        }
    };
    Ok(Document { design, pinned, original })
}

/// Reads one of the designs of a file.
///
/// * `place`: what stands before the paths of its inputs in messages.
fn read_design(text: &str, original: &Value, place: &str) -> Result<Design, DocumentError> {
    let mut design = design_of(FROZEN);
    let line =
        |path: &str| if place.is_empty() { line_of(text, path) } else { line_of(text, PINNED) };
    let wrong = |path: &str, expected: String| DocumentError::WrongKind {
        line: line(path),
        path: format!("{place}{path}"),
        expected,
    };
    if !original.is_object() {
        return Err(wrong("name", "a design".into()));
    }
    design.name = match original.get("name") {
        None => String::new(),
        Some(Value::String(name)) => name.chars().take(MOST_NAME).collect(),
        Some(_) => return Err(wrong("name", "a text".into())),
    };
    for field in &FIELDS {
        if let Some(value) = original.pointer(&pointer_to(field)) {
            set_field(field, &mut design, value).map_err(|e| wrong(field.path, e))?;
        }
    }
    if let Some(value) = original.pointer("/path/runs") {
        design.path.overrides =
            read_overrides(value).map_err(|expected| wrong("path.runs", expected))?;
    }
    if let Some(value) = original.get("notes") {
        design.notes = read_notes(value).ok_or_else(|| {
            wrong("notes", "names with numbers not below 0, or with words,".into())
        })?;
    }
    match check(&design).into_iter().next() {
        None => Ok(design),
        Some(problem) => {
            let path = super::field::field(problem.field).path;
            Err(DocumentError::Refused {
                line: line(path),
                path: format!("{place}{path}"),
                problem,
            })
        }
    }
}

fn read_overrides(value: &Value) -> Result<Vec<RunOverride>, String> {
    let expected =
        || format!("a list of at most {MOST_RUNS} runs with length_m, width_m, height_m");
    let list = value.as_array().filter(|list| list.len() <= MOST_RUNS).ok_or_else(expected)?;
    list.iter()
        .map(|run| {
            let size = |key: &str| match run.get(key) {
                None | Some(Value::Null) => Ok(None),
                Some(size) => as_float(size).map(Some).ok_or_else(expected),
            };
            if !run.is_object() {
                return Err(expected());
            }
            Ok(RunOverride {
                length: size("length_m")?,
                width: size("width_m")?,
                height: size("height_m")?,
            })
        })
        .collect()
}

/// Notes by name; none where one of them cannot be.
pub(super) fn read_notes(value: &Value) -> Option<Notes> {
    let mut notes = Notes::default();
    for (name, value) in value.as_object()? {
        let note = match value {
            Value::String(word) => Note::Word(word.clone()),
            other => Note::Number(as_float(other)?),
        };
        if !notes.set(name, Some(note)) {
            return None;
        }
    }
    Some(notes)
}

/// Notes as they stand in files and links.
pub(super) fn write_notes(notes: &Notes) -> Value {
    let written = |note: &Note| match note {
        Note::Number(value) => number(*value),
        Note::Word(word) => word.as_str().into(),
    };
    Value::Object(notes.iter().map(|(name, note)| (name.into(), written(note))).collect())
}

fn write_override(own: &RunOverride) -> Value {
    let mut run = Map::new();
    for (key, size) in
        [("length_m", own.length), ("width_m", own.width), ("height_m", own.height)]
    {
        if let Some(size) = size {
            run.insert(key.into(), number(size));
        }
    }
    Value::Object(run)
}

/// Writes a design file; laid over the original, so that what we do not know survives.
pub fn write(design: &Design, original: Option<&Value>) -> String {
    let root = match original {
        Some(Value::Object(root)) => root.clone(),
        _ => Map::new(),
    };
    text_of(with_design(root, design))
}

/// The same with the designs that are pinned beside it.
pub fn write_pinned(design: &Design, pinned: &[Design], original: Option<&Value>) -> String {
    let mut root = match original {
        Some(Value::Object(root)) => root.clone(),
        _ => Map::new(),
    };
    // What we do not know of a pinned design stays with the place in the list.
    let known = root.shift_remove(PINNED);
    let known = known.as_ref().and_then(Value::as_array);
    let each = pinned.iter().enumerate().map(|(place, design)| {
        let own = known.and_then(|known| known.get(place)).and_then(Value::as_object);
        Value::Object(with_design(own.cloned().unwrap_or_default(), design))
    });
    let list: Vec<Value> = each.collect();
    let mut root = with_design(root, design);
    if !list.is_empty() {
        root.insert(PINNED.into(), Value::Array(list));
    }
    text_of(root)
}

fn text_of(root: Map<String, Value>) -> String {
    // A map of numbers and texts always has a JSON form.
    serde_json::to_string_pretty(&Value::Object(root)).unwrap_or_default()
}

/// Lays a design over what stands in a file.
fn with_design(mut root: Map<String, Value>, design: &Design) -> Map<String, Value> {
    root.insert(VERSION_KEY.into(), VERSION.into());
    root.insert("name".into(), design.name.as_str().into());
    for field in &FIELDS {
        let Some((group, key)) = field.path.split_once('.') else {
            continue;
        };
        insert(&mut root, group, key, field_value(field, design));
    }
    let runs: Vec<Value> = design.path.overrides.iter().map(write_override).collect();
    insert(&mut root, "path", "runs", Value::Array(runs));
    if !design.notes.is_empty() || root.contains_key("notes") {
        root.insert("notes".into(), write_notes(&design.notes));
    }
    root
}

fn insert(root: &mut Map<String, Value>, group: &str, key: &str, value: Value) {
    let entry = root.entry(group.to_owned()).or_insert_with(|| json!({}));
    if !entry.is_object() {
        *entry = json!({});
    }
    if let Some(map) = entry.as_object_mut() {
        map.insert(key.into(), value);
    }
}

/// Line on which a key of a group first stands, from 1; the first line when it does not.
fn line_of(text: &str, path: &str) -> usize {
    let mut from = 0;
    for part in path.split('.') {
        let quoted = format!("\"{part}\"");
        let Some(at) = text.get(from..).and_then(|rest| rest.find(&quoted)) else {
            return 1;
        };
        from += at;
    }
    text.get(..from).map_or(1, |before| before.matches('\n').count() + 1)
}

/// JSON Schema of a design file, made from the catalog of inputs.
pub fn schema(describe: impl Fn(FieldId) -> String) -> Value {
    let missing = design_of(FROZEN);
    let mut groups = Map::new();
    for field in &FIELDS {
        let Some((group, key)) = field.path.split_once('.') else {
            continue;
        };
        let mut entry = match &field.kind {
            Kind::Choice(choice) => json!({ "enum": choice.keys }),
            Kind::Number(number) => number_schema(number),
        };
        if let Some(map) = entry.as_object_mut() {
            map.insert("description".into(), json!(describe(field.id)));
            map.insert("default".into(), field_value(field, &missing));
        }
        let properties = groups
            .entry(group.to_owned())
            .or_insert_with(|| json!({ "type": "object", "properties": {} }));
        if let Some(Value::Object(map)) = properties.get_mut("properties") {
            map.insert(key.into(), entry);
        }
    }
    let size = json!({ "type": "number", "exclusiveMinimum": 0 });
    if let Some(Value::Object(map)) =
        groups.get_mut("path").and_then(|p| p.get_mut("properties"))
    {
        map.insert(
            "runs".into(),
            json!({ "type": "array", "maxItems": MOST_RUNS,
                "description": "Runs in flow order whose sizes differ from the rest.",
                "items": { "type": "object",
                    "properties": { "length_m": size, "width_m": size, "height_m": size } } }),
        );
    }
    groups.insert(VERSION_KEY.into(), json!({ "const": VERSION }));
    groups.insert("name".into(), json!({ "type": "string" }));
    groups.insert(
        "notes".into(),
        json!({ "type": "object",
            "description": "What the builder notes beside the decisions, by name: stock, prices, \
                who builds, parts of the house. It changes no judgment.",
            "additionalProperties": { "type": ["number", "string"], "minimum": 0 } }),
    );
    groups.insert(
        PINNED.into(),
        json!({ "type": "array", "maxItems": MOST_PINNED,
            "description": "Other designs that stand beside this one, each as a file of its own.",
            "items": { "type": "object" } }),
    );
    json!({ "type": "object", "required": [VERSION_KEY], "properties": groups })
}

fn number_schema(number: &Number) -> Value {
    let zero = if number.quantity == Quantity::Temperature { ZERO_CELSIUS } else { 0.0 };
    let kind = if number.quantity == Quantity::Count { "integer" } else { "number" };
    let shift = |value: f64| ((value - zero) * 1e9).round() / 1e9;
    json!({ "type": kind, "minimum": shift(*number.possible.start()),
        "maximum": shift(*number.possible.end()) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_trip_keeps_what_we_do_not_know() {
        let mut design = Design::demonstration();
        design.path.overrides = vec![RunOverride { height: Some(0.25), ..Default::default() }];
        assert!(design.notes.set("stock.core", Some(Note::Number(120.5))));
        assert!(design.notes.set("wall.1.layer", Some(Note::Word("straw".into()))));
        let text = write(&design, Some(&json!({ "note": "ours", "site": { "well_m": 3 } })));
        let document = read(&text).unwrap();
        assert_eq!(document.design, design);
        assert_eq!(document.original["note"], "ours");
        assert_eq!(document.original["site"]["well_m"], 3);
        assert_eq!(document.missing(), 0);
        let bare = read(&format!("{{\"{VERSION_KEY}\": 1, \"fire\": {{\"charge_kg\": 9}}}}"));
        assert_eq!(bare.unwrap().missing(), FIELDS.len() - 1);
    }

    #[test]
    fn notes_that_cannot_be_are_refused() {
        for notes in ["3", "{\"a\": -1}", "{\"a\": true}", "{\"a\": {}}"] {
            let text = format!("{{\"{VERSION_KEY}\": 1, \"notes\": {notes}}}");
            assert!(matches!(read(&text), Err(DocumentError::WrongKind { .. })), "{notes}");
        }
    }

    #[test]
    fn numbers_that_we_do_not_know_keep_their_digits() {
        let foreign = "12345678901234567890123.10";
        let text = format!("{{\"{VERSION_KEY}\": 1, \"note\": {foreign}}}");
        let document = read(&text).unwrap();
        let again = write(&document.design, Some(&document.original));
        assert!(again.contains(foreign), "{again}");
    }

    /// A list of 60 000 ones is 120 kB as it is and, with a line for each, 300 kB at the least.
    #[test]
    fn what_could_not_be_read_again_is_refused() {
        let file = |count: usize| {
            format!("{{\"{VERSION_KEY}\":1,\"x\":[{}1]}}", "1,".repeat(count - 1))
        };
        assert!(file(60_000).len() < MOST_BYTES / 2);
        assert_eq!(read(&file(60_000)), Err(DocumentError::TooLong));
        let read_first = read(&file(20_000)).unwrap();
        assert_eq!(read(&read_first.written()).unwrap().design, read_first.design);
    }

    #[test]
    fn errors_name_line_and_field() {
        let text =
            "{\n \"heater_design_version\": 1,\n \"fire\": {\n  \"charge_kg\": -3\n }\n}";
        let error = read(text).unwrap_err().to_string();
        assert!(error.starts_with("line 4: fire.charge_kg"), "{error}");
        assert_eq!(read("{}").unwrap_err(), DocumentError::NotADesign);
        assert!(matches!(read("{\n,"), Err(DocumentError::NotJson { line: 2, .. })));
        let newer = "{\"heater_design_version\": 99}";
        assert_eq!(read(newer).unwrap_err(), DocumentError::UnknownVersion(99));
        let text = "{\"heater_design_version\": 1, \"path\": {\"run_count\": 2.5}}";
        assert!(matches!(read(text), Err(DocumentError::WrongKind { .. })));
    }
}
