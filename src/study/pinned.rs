//! A few designs of any kind beside each other.

use super::figures::Figures;
use super::variant::value;
use crate::analysis::Failure;
use crate::design::Design;
use crate::design::field::{FIELDS, FieldId};

/// Most designs that stand beside each other.
pub const MOST: usize = 4;

/// A design with what it comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Pin {
    /// The design.
    pub design: Design,
    /// What was found, or why nothing was.
    pub result: Result<Figures, Failure>,
}

/// The designs, one by one; those past [`MOST`] are left out.
#[derive(Clone, Debug)]
pub struct Pinned {
    designs: std::vec::IntoIter<Design>,
}

impl Pinned {
    /// A design and others beside it.
    pub fn new(first: &Design, others: &[Design]) -> Self {
        let all = std::iter::once(first).chain(others).take(MOST).cloned();
        Self { designs: all.collect::<Vec<_>>().into_iter() }
    }
}

impl Iterator for Pinned {
    type Item = Pin;

    fn next(&mut self) -> Option<Pin> {
        let design = self.designs.next()?;
        let result = Figures::new(&design);
        Some(Pin { design, result })
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        self.designs.size_hint()
    }
}

impl ExactSizeIterator for Pinned {}

/// Inputs that are not the same in all designs, in the order of the form.
pub fn differing(pins: &[Pin]) -> Vec<FieldId> {
    let Some((first, others)) = pins.split_first() else {
        return Vec::new();
    };
    let differs = |id: &FieldId| {
        let of = |pin: &Pin| value(&pin.design, *id).to_bits();
        others.iter().any(|other| of(other) != of(first))
    };
    FIELDS.iter().map(|field| field.id).filter(differs).collect()
}
