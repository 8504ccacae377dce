//! A design as the fragment of a link: version, then packed JSON with the defaults left out.
//!
//! What a link leaves out is frozen with its version, see `frozen`. Version 1 is bare deflate.
//! Versions from 2 on have a CRC-32 of the packed bytes behind it, since version 3 of the version
//! too, so that no link opens that was changed on the way: a checksum of the text, as zlib and gzip
//! have it, misses changes, since one packed bit can change many letters. Version 4 is version 3 with
//! other designs pinned beside; a link without them is of version 3, which older readers open.

use super::document::{
    self, MOST_NAME, MOST_PINNED, as_float, field_value, number, read_notes, set_field,
    write_notes,
};
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
/// Version that is written of a design with others pinned beside it, the newest that is read.
pub const PINNED_VERSION: u32 = 4;
/// Key of the pinned designs.
const PINNED: &str = "pd";
/// Key of a name.
const NAME: &str = "n";
/// Key of the runs with sizes of their own.
const OVERRIDES: &str = "ro";
/// Key of what the builder notes.
const NOTES: &str = "no";
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
    #[error("this link was made by a newer version ({0}) than this one ({PINNED_VERSION})")]
    UnknownVersion(u32),
    /// Cut off or changed on the way.
    #[error("this link is damaged: it was cut off or changed on the way")]
    Damaged,
    /// Longer than a link may be, or what it holds longer than a file may be.
    #[error("this link is too long, or holds too much")]
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
    pack(VERSION, stated(design))
}

/// The same with the designs that are pinned beside it, each by what differs from it; those past
/// [`MOST_PINNED`] are left out.
pub fn encode_pinned(design: &Design, pinned: &[Design]) -> String {
    if pinned.is_empty() {
        return encode(design);
    }
    let mut values = stated(design);
    let each = pinned.iter().take(MOST_PINNED);
    let each = each.map(|other| Value::Object(differing(design, other)));
    values.insert(PINNED.into(), Value::Array(each.collect()));
    pack(PINNED_VERSION, values)
}

fn pack(version: u32, values: Map<String, Value>) -> String {
    let text = Value::Object(values).to_string();
    let mut packed = miniz_oxide::deflate::compress_to_vec(text.as_bytes(), EFFORT);
    packed.extend(checksum(version, &packed).to_be_bytes());
    format!("{version}.{}", URL_SAFE_NO_PAD.encode(packed))
}

/// What a design states beyond the frozen values.
fn stated(design: &Design) -> Map<String, Value> {
    let frozen = defaults(VERSION);
    let mut values = Map::new();
    values.insert(NAME.into(), design.name.as_str().into());
    for field in &FIELDS {
        let value = field_value(field, design);
        if !frozen.get(field.link).is_some_and(|default| same(default, &value)) {
            values.insert(field.link.into(), value);
        }
    }
    if !design.path.overrides.is_empty() {
        values.insert(OVERRIDES.into(), overrides(design));
    }
    if !design.notes.is_empty() {
        values.insert(NOTES.into(), write_notes(&design.notes));
    }
    values
}

/// What is other in a design than in one beside it.
fn differing(design: &Design, other: &Design) -> Map<String, Value> {
    let mut values = Map::new();
    if design.name != other.name {
        values.insert(NAME.into(), other.name.as_str().into());
    }
    for field in &FIELDS {
        let value = field_value(field, other);
        if !same(&field_value(field, design), &value) {
            values.insert(field.link.into(), value);
        }
    }
    if design.path.overrides != other.path.overrides {
        values.insert(OVERRIDES.into(), overrides(other));
    }
    if design.notes != other.notes {
        values.insert(NOTES.into(), write_notes(&other.notes));
    }
    values
}

fn overrides(design: &Design) -> Value {
    let size = |size: Option<f64>| size.map_or(Value::Null, number);
    let runs = design.path.overrides.iter();
    let runs = runs.map(|own| [own.length, own.width, own.height].map(size).into());
    Value::Array(runs.collect())
}

fn same(one: &Value, other: &Value) -> bool {
    match (as_float(one), as_float(other)) {
        (Some(one), Some(other)) => one.to_bits() == other.to_bits(),
        _ => one == other,
    }
}

/// A design from a link.
#[derive(Clone, Debug, PartialEq)]
pub struct Linked {
    /// The design.
    pub design: Design,
    /// Designs that are pinned beside it.
    pub pinned: Vec<Design>,
}

/// The design of a fragment, without `#`.
///
/// # Errors
///
/// [`LinkError`] for anything that is not a link of this or an earlier version.
pub fn decode(fragment: &str) -> Result<Design, LinkError> {
    decode_pinned(fragment).map(|linked| linked.design)
}

/// The same with the designs that are pinned beside it.
///
/// # Errors
///
/// [`LinkError`] for anything that is not a link of this or an earlier version.
pub fn decode_pinned(fragment: &str) -> Result<Linked, LinkError> {
    let packed = packed(fragment)?;
    packed.open(&unpack(&packed.bytes).ok_or(LinkError::Damaged)?)
}

/// A link that came whole, not unpacked yet: a program may have its own way to do that.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Packed {
    version: u32,
    /// A deflate stream that ends where these end.
    pub bytes: Vec<u8>,
}

/// The packed design of a fragment, without `#`.
///
/// # Errors
///
/// [`LinkError`] for anything that is not a link of this or an earlier version.
pub fn packed(fragment: &str) -> Result<Packed, LinkError> {
    if fragment.len() > MOST_BYTES {
        return Err(LinkError::TooLong);
    }
    let (version, data) = fragment.split_once('.').ok_or(LinkError::NotADesign)?;
    let version: u32 = version.parse().map_err(|_| LinkError::NotADesign)?;
    if version == 0 {
        return Err(LinkError::NotADesign);
    }
    if version > PINNED_VERSION {
        return Err(LinkError::UnknownVersion(version));
    }
    let mut bytes = URL_SAFE_NO_PAD.decode(data).map_err(|_| LinkError::Damaged)?;
    if version > 1 {
        let length = unsealed(version, &bytes).ok_or(LinkError::Damaged)?.len();
        bytes.truncate(length);
    }
    Ok(Packed { version, bytes })
}

impl Packed {
    /// The designs of its unpacked text.
    ///
    /// # Errors
    ///
    /// [`LinkError`] for a text that holds none.
    pub fn open(&self, text: &[u8]) -> Result<Linked, LinkError> {
        let text = std::str::from_utf8(text).map_err(|_| LinkError::Damaged)?;
        let values = read_map(text).ok_or(LinkError::Damaged)?;
        let design = from_values(&values, design_of(self.version))?;
        let pinned = match values.get(PINNED) {
            Some(pinned) if self.version == PINNED_VERSION => read_pinned(pinned, &design)?,
            _ => Vec::new(),
        };
        if document::fits(&document::write_pinned(&design, &pinned, None)) {
            Ok(Linked { design, pinned })
        } else {
            Err(LinkError::TooLong)
        }
    }
}

fn read_pinned(pinned: &Value, design: &Design) -> Result<Vec<Design>, LinkError> {
    let all = pinned.as_array().filter(|all| all.len() <= MOST_PINNED);
    let each = all.ok_or(LinkError::Refused)?.iter().map(|values| {
        let values = values.as_object().ok_or(LinkError::Refused)?;
        from_values(values, design.clone())
    });
    each.collect()
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
    /// Half a byte at a time: of a loop over bits a compiler makes a table of whole bytes, which no
    /// download can shrink.
    const HALVES: [u32; 16] = halves();
    let half = |sum: u32| {
        let place = usize::try_from(sum & 15).unwrap_or_default();
        (sum >> 4) ^ HALVES.get(place).copied().unwrap_or_default()
    };
    !bytes.iter().fold(u32::MAX, |sum, byte| half(half(sum ^ u32::from(*byte))))
}

/// What is left of each half of a byte when it is shifted out.
#[expect(clippy::indexing_slicing, reason = "all sixteen, in a constant")]
const fn halves() -> [u32; 16] {
    const POLYNOMIAL: u32 = 0xEDB8_8320;
    let mut halves = [0; 16];
    let mut value = 0;
    while value < 16 {
        let (mut left, mut bit) = (value, 0);
        while bit < 4 {
            left = if left & 1 == 1 { (left >> 1) ^ POLYNOMIAL } else { left >> 1 };
            bit += 1;
        }
        halves[value as usize] = left;
        value += 1;
    }
    halves
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

/// Lays values over a design.
fn from_values(values: &Map<String, Value>, mut design: Design) -> Result<Design, LinkError> {
    if let Some(name) = values.get(NAME).and_then(Value::as_str) {
        design.name = name.chars().take(MOST_NAME).collect();
    }
    for field in &FIELDS {
        if let Some(value) = values.get(field.link) {
            set_field(field, &mut design, value).map_err(|_| LinkError::Refused)?;
        }
    }
    if let Some(runs) = values.get(OVERRIDES) {
        let runs = runs.as_array().filter(|runs| runs.len() <= MOST_RUNS);
        let runs = runs.ok_or(LinkError::Refused)?;
        design.path.overrides = runs.iter().map(run_override).collect::<Result<_, _>>()?;
    }
    if let Some(notes) = values.get(NOTES) {
        design.notes = read_notes(notes).ok_or(LinkError::Refused)?;
    }
    if check(&design).is_empty() { Ok(design) } else { Err(LinkError::Refused) }
}

fn run_override(value: &Value) -> Result<RunOverride, LinkError> {
    let Some([length, width, height]) = value.as_array().map(Vec::as_slice) else {
        return Err(LinkError::Refused);
    };
    let size = |value: &Value| match value {
        Value::Null => Ok(None),
        other => as_float(other).map(Some).ok_or(LinkError::Refused),
    };
    Ok(RunOverride { length: size(length)?, width: size(width)?, height: size(height)? })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::notes::Note;

    #[test]
    fn round_trip_is_exact_and_short() {
        let mut design = Design::demonstration();
        design.path.run_length = 1.234;
        design.path.overrides = vec![
            RunOverride::default(),
            RunOverride { length: Some(0.9), width: None, height: Some(0.15) },
        ];
        assert!(design.notes.set("stock.core", Some(Note::Number(120.0))));
        assert!(design.notes.set("wall.1.layer", Some(Note::Word("straw".into()))));
        let link = encode(&design);
        assert_eq!(decode(&link), Ok(design));
        assert!(link.len() < 400, "{}", link.len());
    }

    #[test]
    fn pinned_designs_travel_by_what_differs() {
        let design = Design::demonstration();
        let mut other = Design { name: "Four runs".into(), ..design.clone() };
        other.path.run_count = 4;
        other.path.overrides = vec![RunOverride { length: Some(0.9), ..Default::default() }];
        let mut wider = other.clone();
        (wider.path.run_width, wider.path.overrides) = (0.2, Vec::new());
        let pinned = vec![other, design.clone(), wider];
        let link = encode_pinned(&design, &pinned);
        assert!(link.starts_with("4."), "{link}");
        assert_eq!(decode_pinned(&link), Ok(Linked { design: design.clone(), pinned }));
        assert_eq!(decode(&link), Ok(design.clone()));
        // Without any, the link is one that older readers open.
        assert_eq!(encode_pinned(&design, &[]), encode(&design));
        let many = vec![design.clone(); 9];
        let kept = decode_pinned(&encode_pinned(&design, &many)).unwrap();
        assert_eq!(kept.pinned.len(), MOST_PINNED);
    }

    #[test]
    fn a_pinned_design_that_cannot_be_is_refused() {
        let link = |pinned: &str| {
            let text = format!("{{\"n\":\"\",\"pd\":{pinned}}}");
            pack(PINNED_VERSION, read_map(&text).unwrap())
        };
        assert_eq!(decode_pinned(&link("[{}]")).unwrap().pinned.len(), 1);
        for pinned in ["7", "[7]", "[{\"rn\":99}]", "[{},{},{},{},{}]", "[{\"ro\":3}]"] {
            assert_eq!(decode_pinned(&link(pinned)), Err(LinkError::Refused), "{pinned}");
        }
        // Older versions know nothing of them.
        let text = read_map("{\"pd\":[{}]}").unwrap();
        assert_eq!(decode_pinned(&pack(VERSION, text)).unwrap().pinned, []);
    }

    /// A note of a name and a word of 48 control characters each is 576 letters in a file, so that
    /// 300 of them are 173 kB; with a pinned design they stand there twice.
    #[test]
    fn what_no_file_could_hold_is_refused() {
        let mut design = Design::demonstration();
        for count in 0..300 {
            let name = format!("{count:03}{}", "\u{1}".repeat(45));
            let word = Note::Word("\u{1}".repeat(48));
            assert!(design.notes.set(&name, Some(word)));
        }
        assert_eq!(decode(&encode(&design)), Ok(design.clone()));
        let link = encode_pinned(&design, std::slice::from_ref(&design));
        assert!(link.len() < MOST_BYTES, "{}", link.len());
        assert_eq!(decode_pinned(&link), Err(LinkError::TooLong));
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
