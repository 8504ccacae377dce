//! The language in which the program speaks. It knows no sentence: the English of a sentence is the
//! key by which a [`Catalog`] has its translation, and is what is said where there is none.
//!
//! A program sets its language once, when it starts.

use std::cell::Cell;
use std::fmt::{Display, Write as _};
use std::ops::Deref;

pub use longsmoke_say::say;

/// Translations of the sentences of this program into one language.
#[derive(Debug)]
pub struct Catalog {
    /// Its tag, as HTML and locales have it.
    tag: &'static str,
    /// What stands between whole and parts of a number.
    decimal_mark: char,
    /// English and translation, in the order of the English.
    rows: Vec<(&'static str, &'static str)>,
}

/// Parts English from its translation in the text of a catalog.
pub const TO: char = '\u{1f}';
/// Parts row from row there.
pub const ROW: char = '\u{1e}';
/// Stands before a text of the language that is written otherwise within a sentence.
pub const WITHIN: char = '\u{1}';

thread_local! {
    /// The language that is spoken; English where there is none.
    static SPOKEN: Cell<Option<&'static Catalog>> = const { Cell::new(None) };
}

impl Catalog {
    /// Reads the rows of a catalog: the first holds tag and decimal mark, the others English and
    /// translation in the order of the English.
    pub fn of_rows(text: &'static str) -> Option<Self> {
        let mut rows = text.split(ROW).filter_map(|row| row.split_once(TO));
        let (tag, mark) = rows.next()?;
        Some(Self { tag, decimal_mark: mark.chars().next()?, rows: rows.collect() })
    }

    /// Has this thread speak the language from here on.
    pub fn speak(self) {
        SPOKEN.set(Some(Box::leak(Box::new(self))));
    }

    fn find(&self, english: &str) -> Option<&'static str> {
        let found = self.rows.binary_search_by_key(&english, |(key, _)| key);
        found.ok().and_then(|at| self.rows.get(at)).map(|(_, said)| *said)
    }
}

/// Has this thread speak English again.
pub fn english() {
    SPOKEN.set(None);
}

/// Tag of the language that is spoken.
pub fn tag() -> &'static str {
    SPOKEN.get().map_or("en-US", |catalog| catalog.tag)
}

/// A number as the language writes it, from one with a point.
pub fn decimal(number: String) -> String {
    match SPOKEN.get() {
        Some(catalog) if catalog.decimal_mark != '.' => {
            number.replace('.', catalog.decimal_mark.encode_utf8(&mut [0; 4]))
        }
        _ => number,
    }
}

/// A number with a point, from one as the language writes it.
pub fn point(number: &str) -> String {
    match SPOKEN.get() {
        Some(catalog) if catalog.decimal_mark != '.' => {
            number.replace(catalog.decimal_mark, ".")
        }
        _ => number.to_owned(),
    }
}

/// A text in the language that is spoken.
pub fn said(english: &'static str) -> &'static str {
    SPOKEN.get().and_then(|catalog| catalog.find(english)).unwrap_or(english)
}

/// A text that is made of others, or comes from outside, as it stands within a sentence: with small
/// letters in English, as the catalog has it elsewhere.
pub fn within(said: &str) -> String {
    let Some(catalog) = SPOKEN.get() else { return said.to_ascii_lowercase() };
    let mut key = String::from(WITHIN);
    key.push_str(said);
    catalog.find(&key).unwrap_or(said).to_owned()
}

/// A sentence in the language that is spoken, with what is put in for its placeholders, in the order
/// of the English. [`say!`] is the way to call it.
pub fn sentence(english: &'static str, values: &[&dyn Display]) -> String {
    let mut text = String::new();
    let mut unnamed = 0;
    for Piece { before, name } in pieces(said(english)) {
        text.push_str(before);
        let Some(name) = name else { continue };
        let place = place(english, name, unnamed);
        unnamed += usize::from(name.is_empty());
        if let Some(value) = place.and_then(|place| values.get(place)) {
            // A string takes all that is written.
            let _ = write!(text, "{value}");
        }
    }
    text
}

/// A stretch of a sentence and the name of what comes behind it.
struct Piece<'a> {
    before: &'a str,
    name: Option<&'a str>,
}

fn pieces(text: &str) -> impl Iterator<Item = Piece<'_>> {
    text.split('}').map(|piece| match piece.split_once('{') {
        Some((before, name)) => Piece { before, name: Some(name) },
        None => Piece { before: piece, name: None },
    })
}

/// Which of the values of a sentence a name stands for; one without a name by how many of those came
/// before, or by its number.
fn place(english: &str, name: &str, unnamed: usize) -> Option<usize> {
    let wanted = if name.is_empty() { Some(unnamed) } else { name.parse().ok() };
    let mut seen: Vec<&str> = Vec::new();
    let mut count = 0;
    for each in pieces(english).filter_map(|piece| piece.name) {
        if each.is_empty() {
            if wanted == Some(count) {
                return Some(seen.len());
            }
            count += 1;
        } else if seen.contains(&each) {
            continue;
        } else if each == name {
            return Some(seen.len());
        }
        seen.push(each);
    }
    None
}

/// A text that stands in English where no program has set its language yet: in a constant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct English(pub &'static str);

impl English {
    /// The text in the language that is spoken.
    pub fn said(self) -> &'static str {
        said(self.0)
    }
}

impl Deref for English {
    type Target = str;

    fn deref(&self) -> &str {
        self.said()
    }
}

impl Display for English {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.pad(self.said())
    }
}

impl From<English> for String {
    fn from(text: English) -> Self {
        text.said().into()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A language that reads backwards.
    fn speak() {
        let rows = "xx\u{1f},\u{1e}\u{1}Hot\u{1f}hot!\u{1e}Fire\u{1f}Erif\u{1e}\
            {a} then {b}\u{1f}{b} before {a}, {a}\u{1e}{} of {name}\u{1f}{name}: {0}\u{1e}\
            {} {} {}\u{1f}{2} {1} {0}";
        Catalog::of_rows(rows).unwrap().speak();
    }

    #[test]
    fn english_is_said_where_no_language_is_set() {
        let (found, place) = ("3 m", "Run 1");
        assert_eq!(say!("{found} in {place}, {} at {found}", 7), "3 m in Run 1, 7 at 3 m");
        assert_eq!((within("Run 1"), decimal("1.5".into())), ("run 1".into(), "1.5".into()));
    }

    #[test]
    fn what_is_put_in_follows_its_name() {
        speak();
        assert_eq!((said("Fire"), said("Smoke"), tag()), ("Erif", "Smoke", "xx"));
        assert_eq!(English("Fire").to_string() + &English("Fire"), "ErifErif");
        let name = "oak";
        assert_eq!(say!("{} of {name}", 3), "oak: 3");
        assert_eq!(say!("{} {} {}", 1, 2, 3), "3 2 1");
        assert_eq!(say!("{a} then {b}", b = 'B', a = 'A'), "B before A, A");
        assert_eq!(say!("{a} and {a}", a = 1), "1 and 1");
        assert_eq!((within("Hot"), within("Fire")), ("hot!".into(), "Fire".into()));
        assert_eq!((decimal("1.50".into()), point("1,50")), ("1,50".into(), "1.50".into()));
    }
}
