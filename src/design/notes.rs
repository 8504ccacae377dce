//! What the builder notes beside the decisions, by name: what is in stock, prices, who builds, the
//! parts of the house. Notes change no judgment; whoever reads one knows its unit, SI as a rule.

/// Most notes of a design.
pub const MOST: usize = 400;
/// Longest name and longest word of a note (characters).
pub const LONGEST: usize = 48;
/// Largest number of a note.
pub const LARGEST: f64 = 1e9;

/// One note.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// A number, not below zero.
    Number(f64),
    /// One of several words.
    Word(String),
}

/// Notes by name, in the order of their names.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Notes(Vec<(String, Note)>);

impl Notes {
    fn place(&self, name: &str) -> Result<usize, usize> {
        self.0.binary_search_by(|(each, _)| each.as_str().cmp(name))
    }

    fn get(&self, name: &str) -> Option<&Note> {
        self.place(name).ok().and_then(|place| self.0.get(place)).map(|(_, note)| note)
    }

    /// A number that was noted.
    pub fn number(&self, name: &str) -> Option<f64> {
        match self.get(name)? {
            Note::Number(number) => Some(*number),
            Note::Word(_) => None,
        }
    }

    /// A word that was noted.
    pub fn word(&self, name: &str) -> Option<&str> {
        match self.get(name)? {
            Note::Word(word) => Some(word),
            Note::Number(_) => None,
        }
    }

    /// Notes something, or strikes it out; says whether it could be noted.
    pub fn set(&mut self, name: &str, note: Option<Note>) -> bool {
        let short = |text: &str| text.chars().count() <= LONGEST;
        let good = short(name)
            && match &note {
                Some(Note::Number(number)) => (0.0..=LARGEST).contains(number),
                Some(Note::Word(word)) => short(word),
                None => true,
            };
        match (self.place(name), note) {
            _ if !good => return false,
            (Ok(place), None) => {
                self.0.remove(place);
            }
            (Ok(place), Some(note)) => {
                if let Some(each) = self.0.get_mut(place) {
                    each.1 = note;
                }
            }
            (Err(_), None) => {}
            (Err(_), Some(_)) if MOST <= self.0.len() => return false,
            (Err(place), Some(note)) => self.0.insert(place, (name.to_owned(), note)),
        }
        true
    }

    /// All of them.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &Note)> {
        self.0.iter().map(|(name, note)| (name.as_str(), note))
    }

    /// Whether nothing was noted.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn notes_are_kept_by_name_and_struck_out() {
        let mut notes = Notes::default();
        assert!(notes.set("b", Some(Note::Number(2.0))));
        assert!(notes.set("a", Some(Note::Word("straw".into()))));
        assert!(notes.set("b", Some(Note::Number(3.0))));
        assert_eq!((notes.number("b"), notes.word("a")), (Some(3.0), Some("straw")));
        let names: Vec<_> = notes.iter().map(|(name, _)| name).collect();
        assert_eq!(names, ["a", "b"]);
        for wrong in [-1.0, f64::NAN, f64::INFINITY, 2.0 * LARGEST] {
            assert!(!notes.set("c", Some(Note::Number(wrong))));
        }
        assert!(!notes.set(&"x".repeat(LONGEST + 1), Some(Note::Number(1.0))));
        assert!(notes.set("a", None) && notes.set("b", None) && notes.is_empty());
    }
}
