//! A variant of a design in figures alone, as a message carries it: what is put into the design,
//! and what it comes to.

use super::figures::{Figures, Line};
use crate::design::Design;
use crate::design::field::{FIELDS, FieldId, Kind, field};
use crate::rules::{Answer, Question};
use std::fmt;
use std::str::FromStr;

/// A variant of a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Variant {
    /// Inputs that are other than in the design, with their values: SI, or places in the list of a
    /// choice.
    pub puts: Vec<(FieldId, f64)>,
    /// What it comes to; none where it cannot stand or be computed.
    pub brief: Option<Brief>,
}

/// What a design comes to, for a plot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brief {
    /// In the order of [`Line::ALL`] (SI).
    pub lines: [Option<f64>; Line::ALL.len()],
    /// Draft to spare beyond what is wanted, where that is least (Pa).
    pub spare: f64,
    /// In the order of [`Question::ALL`].
    pub answers: [Answer; Question::ALL.len()],
}

impl From<&Figures> for Brief {
    fn from(figures: &Figures) -> Self {
        Self {
            lines: *figures.lines(),
            spare: figures.spare,
            answers: figures.verdicts.map(|verdict| verdict.answer),
        }
    }
}

impl Variant {
    /// Puts its values into a design.
    pub fn apply(&self, design: &mut Design) {
        for (id, value) in &self.puts {
            put(design, *id, *value);
        }
    }
}

/// Puts a value into a design: SI, or a place in the list of a choice.
pub fn put(design: &mut Design, id: FieldId, value: f64) {
    match &field(id).kind {
        Kind::Number(number) => (number.set)(design, value),
        Kind::Choice(choice) => {
            let place = (0..choice.keys.len()).zip(0_u32..);
            let nearest = place.into_iter().find(|(_, place)| f64::from(*place) >= value);
            if let Some((place, _)) = nearest {
                (choice.set)(design, place);
            }
        }
    }
}

/// Value of an input: SI, or the place in the list of a choice.
pub fn value(design: &Design, id: FieldId) -> f64 {
    match &field(id).kind {
        Kind::Number(number) => (number.get)(design),
        Kind::Choice(choice) => u32::try_from((choice.get)(design)).map_or(f64::NAN, f64::from),
    }
}

/// How many inputs, each by its key in links with its value; then the figures, `-` for none, the
/// draft to spare and the answers, or `none`. Nothing is rounded.
impl fmt::Display for Variant {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.puts.len())?;
        for (id, value) in &self.puts {
            write!(f, " {} {value}", field(*id).link)?;
        }
        let Some(Brief { lines, spare, answers }) = &self.brief else {
            return f.write_str(" none");
        };
        for line in lines {
            match line {
                Some(value) => write!(f, " {value}")?,
                None => f.write_str(" -")?,
            }
        }
        write!(f, " {spare}")?;
        answers.iter().try_for_each(|answer| write!(f, " {}", answer.id()))
    }
}

/// The words are not those of a variant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAVariant;

impl FromStr for Variant {
    type Err = NotAVariant;

    fn from_str(text: &str) -> Result<Self, NotAVariant> {
        read(&mut text.split(' ')).ok_or(NotAVariant)
    }
}

fn read<'a>(words: &mut impl Iterator<Item = &'a str>) -> Option<Variant> {
    let count: usize = words.next()?.parse().ok()?;
    let mut puts = Vec::new();
    for _ in 0..count {
        let link = words.next()?;
        let id = FIELDS.iter().find(|field| field.link == link)?.id;
        puts.push((id, words.next()?.parse().ok()?));
    }
    let mut words = words.peekable();
    if words.peek() == Some(&"none") {
        words.next();
        return words.next().is_none().then_some(Variant { puts, brief: None });
    }
    let mut lines = [None; Line::ALL.len()];
    for line in &mut lines {
        *line = match words.next()? {
            "-" => None,
            word => Some(word.parse().ok()?),
        };
    }
    let spare = words.next()?.parse().ok()?;
    let mut answers = [Answer::NotEnoughKnown; Question::ALL.len()];
    for answer in &mut answers {
        *answer = Answer::from_id(words.next()?)?;
    }
    let brief = Some(Brief { lines, spare, answers });
    words.next().is_none().then_some(Variant { puts, brief })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Layout;

    #[test]
    fn a_variant_survives_its_words() {
        let figures = Figures::new(&Design::demonstration()).unwrap();
        let puts = vec![(FieldId::RunCount, 4.0), (FieldId::Layout, 2.0)];
        let mut brief = Brief::from(&figures);
        brief.lines[9] = None;
        for brief in [Some(brief), None] {
            let variant = Variant { puts: puts.clone(), brief };
            assert_eq!(variant.to_string().parse(), Ok(variant));
        }
        for text in ["", "1", "1 rn", "1 zz 4 none", "0 none none", "0 1 2 3"] {
            assert_eq!(text.parse::<Variant>(), Err(NotAVariant), "{text}");
        }
    }

    #[test]
    fn a_variant_is_put_into_a_design() {
        let mut design = Design::demonstration();
        let puts = vec![(FieldId::RunLength, 1.25), (FieldId::Layout, 1.0)];
        Variant { puts: puts.clone(), brief: None }.apply(&mut design);
        assert_eq!(design.path.layout, Layout::Behind);
        for (id, expected) in puts {
            assert!((value(&design, id) - expected).abs() < 1e-12);
        }
    }
}
