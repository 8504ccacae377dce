//! A design as the fragment of a link: version, then packed JSON with the defaults left out.
//!
//! What a link leaves out is frozen with its version, see `frozen`. Version 1 is bare deflate.
//! Versions from 2 on have a CRC-32 of the packed bytes behind it, since version 3 of the version
//! too, so that no link opens that was changed on the way: a checksum of the text, as zlib and gzip
//! have it, misses changes, since one packed bit can change many letters.

use super::document::{MOST_NAME, field_value, number, set_field};
use super::field::{FIELDS, MOST_RUNS, check};
use super::frozen::{defaults, design_of};
use super::{Design, RunOverride};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress};
use serde_json::{Map, Value};

/// Version that is written.
pub const VERSION: u32 = 3;
/// Longest fragment that is read (bytes).
pub const MOST_BYTES: usize = 16 * 1024;
/// Most bytes after inflating.
const MOST_INFLATED: usize = 256 * 1024;
/// Effort of the compressor, 0 to 10.
const EFFORT: u8 = 9;

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

fn read_map(text: &str) -> Option<Map<String, Value>> {
    match serde_json::from_str(text) {
        Ok(Value::Object(map)) => Some(map),
        _ => None,
    }
}

/// The fragment of a design, without `#`.
pub fn encode(design: &Design) -> String {
    let frozen = defaults(VERSION);
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
    let mut packed = miniz_oxide::deflate::compress_to_vec(text.as_bytes(), EFFORT);
    packed.extend(checksum(VERSION, &packed).to_be_bytes());
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
    let packed =
        if version == 1 { Some(packed.as_slice()) } else { unsealed(version, &packed) };
    let text = packed.and_then(unpack).ok_or(LinkError::Damaged)?;
    let text = std::str::from_utf8(&text).map_err(|_| LinkError::Damaged)?;
    let values = read_map(text).ok_or(LinkError::Damaged)?;
    let design = from_values(&values, version)?;
    if check(&design).is_empty() { Ok(design) } else { Err(LinkError::Refused) }
}

/// The packed bytes in front of their checksum, if it is theirs.
fn unsealed(version: u32, sealed: &[u8]) -> Option<&[u8]> {
    let (packed, sum) = sealed.split_last_chunk::<4>()?;
    (u32::from_be_bytes(*sum) == checksum(version, packed)).then_some(packed)
}

/// Checksum of the packed bytes, since version 3 of the version in front of them too: a link that
/// takes another's version means other figures.
fn checksum(version: u32, packed: &[u8]) -> u32 {
    if version < 3 {
        crc32(packed)
    } else {
        crc32(&[version.to_string().as_bytes(), packed].concat())
    }
}

/// CRC-32 of IEEE 802.3: it sees every change that spans at most 32 bits, so any one character.
fn crc32(bytes: &[u8]) -> u32 {
    const POLYNOMIAL: u32 = 0xEDB8_8320;
    let shift = |sum: u32| if sum & 1 == 1 { (sum >> 1) ^ POLYNOMIAL } else { sum >> 1 };
    !bytes
        .iter()
        .fold(u32::MAX, |sum, byte| (0..8).fold(sum ^ u32::from(*byte), |sum, _| shift(sum)))
}

/// The content of a deflate stream that ends where the bytes end.
fn unpack(packed: &[u8]) -> Option<Vec<u8>> {
    let mut text = vec![0; MOST_INFLATED];
    let flags = TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
    let (status, read, written) =
        decompress(&mut DecompressorOxide::new(), packed, &mut text, 0, flags);
    text.truncate(written);
    (status == TINFLStatus::Done && read == packed.len()).then_some(text)
}

fn from_values(values: &Map<String, Value>, version: u32) -> Result<Design, LinkError> {
    let mut design = design_of(version);
    let name = values.get("n").and_then(Value::as_str).unwrap_or_default();
    design.name = name.chars().take(MOST_NAME).collect();
    for field in &FIELDS {
        if let Some(value) = values.get(field.link) {
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
    fn the_checksum_has_its_published_check_value() {
        assert_eq!(crc32(b"123456789"), 0xCBF4_3926);
    }

    #[test]
    fn damaged_and_foreign_links_are_told_apart() {
        let link = encode(&Design::demonstration());
        assert_eq!(decode(link.get(..link.len() - 4).unwrap()), Err(LinkError::Damaged));
        assert_eq!(decode("top"), Err(LinkError::NotADesign));
        assert_eq!(decode("7.abc"), Err(LinkError::UnknownVersion(7)));
        assert_eq!(decode(&"1.a".repeat(9000)), Err(LinkError::TooLong));
        assert_eq!(
            decode(&format!("{link}AAAA")),
            Err(LinkError::Damaged),
            "bytes after the end"
        );
    }
}
