//! Words of a part for a message from one program to another: nothing is rounded.

use super::{Key, Part, Remedy, Traded};
use crate::design::field::{FIELDS, field};
use crate::rules::{Question, Severity};
use std::fmt;
use std::str::FromStr;

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
            for (question, severity) in brings {
                write!(f, " {} {}", question.id(), severity.id())?;
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

fn read<T: FromStr>(word: Option<&str>) -> Result<T, NotAPart> {
    word.and_then(|word| word.parse().ok()).ok_or(NotAPart)
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
    let count: usize = read(words.next())?;
    let mut brings = Vec::new();
    for _ in 0..count {
        let question = words.next().and_then(Question::from_id).ok_or(NotAPart)?;
        let severity = words.next().and_then(Severity::from_id).ok_or(NotAPart)?;
        brings.push((question, severity));
    }
    Ok(Remedy { field, present, value, leaves, brings, trades })
}
