//! A variant of a design in figures alone: what is put into the design, and what it comes to.

use super::figures::{Figures, Line};
use crate::design::Design;
use crate::design::field::{FIELDS, FieldId, Kind, field};
use crate::rules::{Answer, Question};
use crate::units::float;

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

/// Puts values into a design.
pub fn apply(puts: &[(FieldId, f64)], design: &mut Design) {
    for (id, value) in puts {
        put(design, *id, *value);
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

/// Inputs with their values as words: each by its key in links, unrounded.
pub fn words_of(puts: &[(FieldId, f64)]) -> String {
    let words = puts.iter().map(|(id, value)| format!("{} {value}", field(*id).link));
    words.collect::<Vec<_>>().join(" ")
}

/// Reads inputs with their values; none where the words are not theirs.
pub fn read_puts(words: &str) -> Option<Vec<(FieldId, f64)>> {
    let mut words = words.split(' ').filter(|word| !word.is_empty());
    let mut puts = Vec::new();
    while let Some(link) = words.next() {
        let id = FIELDS.iter().find(|field| field.link == link)?.id;
        puts.push((id, float(words.next()?)?));
    }
    Some(puts)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Layout;

    #[test]
    fn inputs_survive_their_words() {
        let puts = vec![(FieldId::RunCount, 4.0), (FieldId::RunLength, 0.1 + 0.2)];
        assert_eq!(read_puts(&words_of(&puts)), Some(puts));
        assert_eq!(read_puts(""), Some(Vec::new()));
        for words in ["rn", "rn x", "zz 4", "rn 4 rl"] {
            assert_eq!(read_puts(words), None, "{words}");
        }
    }

    #[test]
    fn values_are_put_into_a_design() {
        let mut design = Design::demonstration();
        let puts = vec![(FieldId::RunLength, 1.25), (FieldId::Layout, 1.0)];
        apply(&puts, &mut design);
        assert_eq!(design.path.layout, Layout::Behind);
        for (id, expected) in puts {
            assert!((value(&design, id) - expected).abs() < 1e-12);
        }
    }
}
