//! A design as the fragment of a link: version, then deflated JSON with the defaults left out.
//!
//! The defaults of each version are frozen: change the demonstration as you like, an old link
//! keeps its meaning.

use super::document::{MOST_NAME, field_value, number, set_field};
use super::field::{FIELDS, MOST_RUNS, check};
use super::{Design, RunOverride};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde_json::{Map, Value};

/// Version that is written.
pub const VERSION: u32 = 1;
/// Longest fragment that is read (bytes).
pub const MOST_BYTES: usize = 16 * 1024;
/// Most bytes after inflating.
const MOST_INFLATED: usize = 256 * 1024;
/// Effort of the compressor, 0 to 10.
const EFFORT: u8 = 9;

/// Values that links of version 1 leave out, by link key. Never to be changed.
const DEFAULTS_1: &str = include_str!("link_defaults_1.json");

/// Why a link cannot be opened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LinkError {
    /// No version in front, so not one of ours.
    #[error("this link holds no design")]
    NotADesign,
    /// Made by a later version.
    #[error("this link was made by a newer version ({0}) than this one ({VERSION})")]
    UnknownVersion(u32),
    /// Cut off or changed on the way.
    #[error("this link is damaged: it was cut off or changed on the way")]
    Damaged,
    /// Longer than a link may be.
    #[error("this link is too long")]
    TooLong,
    /// A value in it is not possible.
    #[error("this link holds a value that is not possible")]
    Refused,
}

fn defaults() -> Map<String, Value> {
    read_map(DEFAULTS_1).unwrap_or_default()
}

fn read_map(text: &str) -> Option<Map<String, Value>> {
    match serde_json::from_str(text) {
        Ok(Value::Object(map)) => Some(map),
        _ => None,
    }
}

/// The fragment of a design, without `#`.
pub fn encode(design: &Design) -> String {
    let frozen = defaults();
    let mut values = Map::new();
    values.insert("n".into(), design.name.as_str().into());
    for field in &FIELDS {
        let value = field_value(field, design);
        if !frozen.get(field.link).is_some_and(|default| same(default, &value)) {
            values.insert(field.link.into(), value);
        }
    }
    if !design.path.overrides.is_empty() {
        let size = |size: Option<f64>| size.map_or(Value::Null, number);
        let runs = design.path.overrides.iter();
        let runs: Vec<Value> =
            runs.map(|own| [own.length, own.width, own.height].map(size).into()).collect();
        values.insert("ro".into(), Value::Array(runs));
    }
    let text = Value::Object(values).to_string();
    let packed = miniz_oxide::deflate::compress_to_vec(text.as_bytes(), EFFORT);
    format!("{VERSION}.{}", URL_SAFE_NO_PAD.encode(packed))
}

fn same(one: &Value, other: &Value) -> bool {
    match (one.as_f64(), other.as_f64()) {
        (Some(one), Some(other)) => one.to_bits() == other.to_bits(),
        _ => one == other,
    }
}

/// The design of a fragment, without `#`.
///
/// # Errors
///
/// [`LinkError`] for anything that is not a link of this or an earlier version.
pub fn decode(fragment: &str) -> Result<Design, LinkError> {
    if fragment.len() > MOST_BYTES {
        return Err(LinkError::TooLong);
    }
    let (version, data) = fragment.split_once('.').ok_or(LinkError::NotADesign)?;
    let version: u32 = version.parse().map_err(|_| LinkError::NotADesign)?;
    if version == 0 {
        return Err(LinkError::NotADesign);
    }
    if version > VERSION {
        return Err(LinkError::UnknownVersion(version));
    }
    let packed = URL_SAFE_NO_PAD.decode(data).map_err(|_| LinkError::Damaged)?;
    let text = miniz_oxide::inflate::decompress_to_vec_with_limit(&packed, MOST_INFLATED)
        .map_err(|_| LinkError::Damaged)?;
    let text = std::str::from_utf8(&text).map_err(|_| LinkError::Damaged)?;
    let values = read_map(text).ok_or(LinkError::Damaged)?;
    let design = from_values(&values)?;
    if check(&design).is_empty() { Ok(design) } else { Err(LinkError::Refused) }
}

fn from_values(values: &Map<String, Value>) -> Result<Design, LinkError> {
    let frozen = defaults();
    let mut design = Design::demonstration();
    let name = values.get("n").and_then(Value::as_str).unwrap_or_default();
    design.name = name.chars().take(MOST_NAME).collect();
    for field in &FIELDS {
        let value = values.get(field.link).or_else(|| frozen.get(field.link));
        if let Some(value) = value {
            set_field(field, &mut design, value).map_err(|_| LinkError::Refused)?;
        }
    }
    if let Some(runs) = values.get("ro") {
        let runs = runs.as_array().filter(|runs| runs.len() <= MOST_RUNS);
        let runs = runs.ok_or(LinkError::Refused)?;
        design.path.overrides = runs.iter().map(run_override).collect::<Result<_, _>>()?;
    }
    Ok(design)
}

fn run_override(value: &Value) -> Result<RunOverride, LinkError> {
    let Some([length, width, height]) = value.as_array().map(Vec::as_slice) else {
        return Err(LinkError::Refused);
    };
    let size = |value: &Value| match value {
        Value::Null => Ok(None),
        other => other.as_f64().map(Some).ok_or(LinkError::Refused),
    };
    Ok(RunOverride { length: size(length)?, width: size(width)?, height: size(height)? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_trip_is_exact_and_short() {
        let mut design = Design::demonstration();
        design.path.run_length = 1.234;
        design.path.overrides = vec![
            RunOverride::default(),
            RunOverride { length: Some(0.9), width: None, height: Some(0.15) },
        ];
        let link = encode(&design);
        assert_eq!(decode(&link), Ok(design));
        assert!(link.len() < 400, "{}", link.len());
    }

    #[test]
    fn damaged_and_foreign_links_are_told_apart() {
        let link = encode(&Design::demonstration());
        assert_eq!(decode(link.get(..link.len() - 4).unwrap()), Err(LinkError::Damaged));
        assert_eq!(decode("top"), Err(LinkError::NotADesign));
        assert_eq!(decode("7.abc"), Err(LinkError::UnknownVersion(7)));
        assert_eq!(decode(&"1.a".repeat(9000)), Err(LinkError::TooLong));
    }
}
