//! Published formulas, one function each, on `f64` in SI base units.
//!
//! Nothing here knows a design or chooses a default. Temperatures are in kelvin.

pub mod air;
pub mod conduction;
pub mod convection;
pub mod expansion;
pub mod formula;
pub mod gap;
pub mod gas;
pub mod geometry;
pub mod house;
pub mod pressure;
pub mod quick;
pub mod radiation;
pub mod root;
pub mod surface;
pub mod vapor;
pub mod wood;

use crate::sources::Source;
use std::ops::RangeInclusive;

/// Stefan-Boltzmann constant (W/m2K4), CODATA 2018.
pub const STEFAN_BOLTZMANN: f64 = 5.670374419e-8;
/// Molar gas constant (J/mol K), CODATA 2018.
pub const MOLAR_GAS_CONSTANT: f64 = 8.314462618;
/// Standard acceleration of free fall (m/s2).
pub const GRAVITY: f64 = 9.80665;

/// A formula was asked for a value outside the range for which it was published.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{quantity} {value} is outside {start} to {end} ({reference})",
    start = range.start(), end = range.end(), reference = reference.text())]
pub struct OutOfRange {
    /// What the value is.
    pub quantity: &'static str,
    /// The value that was asked for.
    pub value: f64,
    /// The published range.
    pub range: RangeInclusive<f64>,
    /// The publication that states the range.
    pub reference: &'static Source,
}

/// Refuses a value outside a published range, NaN included.
///
/// # Errors
///
/// [`OutOfRange`] if the value does not lie within the range.
pub(crate) fn require(
    quantity: &'static str,
    value: f64,
    range: RangeInclusive<f64>,
    reference: &'static Source,
) -> Result<(), OutOfRange> {
    if range.contains(&value) {
        Ok(())
    } else {
        Err(OutOfRange { quantity, value, range, reference })
    }
}
