//! Words of a part for a message from one program to another: nothing is rounded. What a remedy brings
//! goes by what is told of it; what was only judged goes without.

use super::{Brought, Key, Part, Remedy, Traded};
use crate::design::field::{FIELDS, field};
use crate::rules::{Question, Severity};
use crate::units::float;
use std::fmt;
use std::str::FromStr;

/// Stands for a space within a sentence.
const SPACE: &str = "\u{1}";

impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self::Found(Key(key), remedies) = self else {
            return f.write_str("working");
        };
        write!(f, "found {key}")?;
        for remedy in remedies {
            let Remedy { field: id, present, value, leaves, brings, trades } = remedy;
            let leaves = leaves.map_or("nothing", Severity::id);
            write!(f, " {} {present} {value} {leaves}", field(*id).link)?;
            for (before, after) in trades {
                write!(f, " {before} {after}")?;
            }
            write!(f, " {}", brings.len())?;
            for brought in brings {
                write!(f, " {} {} ", brought.question().id(), brought.severity().id())?;
                if let Brought::Told(.., short) = brought {
                    f.write_str(&short.replace(' ', SPACE))?;
                }
            }
        }
        Ok(())
    }
}

/// The words are not those of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAPart;

impl FromStr for Part {
    type Err = NotAPart;

    fn from_str(text: &str) -> Result<Self, NotAPart> {
        let mut words = text.split(' ');
        match words.next() {
            Some("working") => Ok(Self::Working),
            Some("found") => {
                let key = Key(words.next().ok_or(NotAPart)?.to_owned());
                let mut remedies = Vec::new();
                while let Some(link) = words.next() {
                    remedies.push(remedy(link, &mut words)?);
                }
                Ok(Self::Found(key, remedies))
            }
            _ => Err(NotAPart),
        }
    }
}

fn read(word: Option<&str>) -> Result<f64, NotAPart> {
    word.and_then(float).ok_or(NotAPart)
}

fn remedy<'a>(
    link: &str,
    words: &mut impl Iterator<Item = &'a str>,
) -> Result<Remedy, NotAPart> {
    let field = FIELDS.iter().find(|field| field.link == link).ok_or(NotAPart)?.id;
    let (present, value) = (read(words.next())?, read(words.next())?);
    let leaves = words.next().and_then(Severity::from_id);
    let mut trades = [(0.0, 0.0); Traded::ALL.len()];
    for (before, after) in &mut trades {
        (*before, *after) = (read(words.next())?, read(words.next())?);
    }
    let count = words.next().and_then(|word| word.parse().ok()).ok_or(NotAPart)?;
    let count: usize = count;
    let mut brings = Vec::new();
    for _ in 0..count {
        let question = words.next().and_then(Question::from_id).ok_or(NotAPart)?;
        let severity = words.next().and_then(Severity::from_id).ok_or(NotAPart)?;
        let short = words.next().ok_or(NotAPart)?.replace(SPACE, " ");
        brings.push(Brought::Told(question, severity, short));
    }
    Ok(Remedy { field, present, value, leaves, brings, trades })
}
