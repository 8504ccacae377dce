//! Water vapor: saturation and dew point.

use super::formula::{Formula, formula};
use crate::sources::{EN_13384_DEW_POINT, IDEAL_GAS};

/// Pressure of a gas in a mixture (Pa).
///
/// p = x p_a
///
/// * `fraction` (–): of the molecules, `pressure` (Pa): of the mixture.
///
/// # Source
///
/// [`IDEAL_GAS`].
pub fn partial_pressure(fraction: f64, pressure: f64) -> f64 {
    fraction * pressure
}

/// [`partial_pressure`].
pub const PARTIAL_PRESSURE: Formula = formula!(
    partial_pressure: "p = x p_a", IDEAL_GAS,
    "p" "pressure of the vapor" PRESSURE;
    fraction "x" "share of water vapor in the gas" NUMBER,
    pressure "p_a" "local air pressure" PRESSURE,
);

/// Dew point of water vapor (K).
///
/// T = 273.15 + 4077.9 / (23.6448 - ln p) - 236.67
///
/// * `partial_pressure` (Pa): of the vapor, about 600 to 30 000.
///
/// # Source
///
/// [`crate::sources::EN_13384_DEW_POINT`].
pub fn dew_point(partial_pressure: f64) -> f64 {
    let celsius = 4077.9 / (23.6448 - libm::log(partial_pressure.max(1.0))) - 236.67;
    celsius + crate::units::ZERO_CELSIUS
}

/// [`dew_point`].
pub const DEW_POINT: Formula = formula!(
    dew_point: "T = 273.15 + 4077.9 / (23.6448 - ln p) - 236.67", EN_13384_DEW_POINT,
    "T" "dew point" TEMPERATURE;
    partial_pressure "p" "pressure of the vapor" PRESSURE,
);
