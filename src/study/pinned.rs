//! A few designs of any kind beside each other.

use super::figures::Figures;
use super::variant::value;
use crate::analysis::Failure;
use crate::design::field::{FIELDS, FieldId};
use crate::design::{Design, document};

/// Most designs that are pinned beside one.
pub const MOST: usize = document::MOST_PINNED;

/// A design with what it comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct Pin {
    /// The design.
    pub design: Design,
    /// What was found, or why nothing was.
    pub result: Result<Figures, Failure>,
}

/// A design and those that are pinned beside it; those past [`MOST`] are left out.
pub fn beside(design: &Design, pinned: &[Design]) -> Vec<Design> {
    std::iter::once(design).chain(pinned.iter().take(MOST)).cloned().collect()
}

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
