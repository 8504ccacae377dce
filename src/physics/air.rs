//! Air: pressure of the standard atmosphere, composition, density.

use super::formula::{Formula, formula};
use super::gas::{self, Composition};
use super::{OutOfRange, require};
use crate::sources::STANDARD_ATMOSPHERE;
use std::ops::RangeInclusive;

/// Pressure of the standard atmosphere at sea level (Pa).
pub const SEA_LEVEL_PRESSURE: f64 = 101_325.0;
/// Altitudes covered by [`pressure_at_altitude`] (m).
pub const TROPOSPHERE_ALTITUDE: RangeInclusive<f64> = -500.0..=11_000.0;

/// Mole fractions of dry air (–): nitrogen 78.084, oxygen 20.946, argon 0.934, carbon dioxide
/// 0.036 %, in the order of [`super::gas::Species`].
///
/// # Source
///
/// [`crate::sources::DRY_AIR`].
pub const DRY_AIR: Composition = Composition::new([0.78084, 0.20946, 0.00036, 0.0, 0.00934]);

/// Pressure of the standard atmosphere at an altitude (Pa).
///
/// p = 101325 (1 - 2.25577e-5 z)^5.25588
///
/// * `altitude` (m): above sea level.
///
/// # Errors
///
/// [`OutOfRange`] if `altitude` is not within [`TROPOSPHERE_ALTITUDE`].
///
/// # Source
///
/// [`STANDARD_ATMOSPHERE`].
pub fn pressure_at_altitude(altitude: f64) -> Result<f64, OutOfRange> {
    require("altitude", altitude, TROPOSPHERE_ALTITUDE, &STANDARD_ATMOSPHERE)?;
    Ok(SEA_LEVEL_PRESSURE * libm::pow(1.0 - 2.25577e-5 * altitude, 5.25588))
}

/// [`pressure_at_altitude`] within its range.
pub const PRESSURE_AT_ALTITUDE: Formula = formula!(
    pressure_at_altitude by
        |altitude| pressure_at_altitude(altitude).unwrap_or(SEA_LEVEL_PRESSURE),
    "p = 101325 (1 - 2.25577e-5 z)^5.25588", STANDARD_ATMOSPHERE,
    "p" "local air pressure" PRESSURE;
    altitude "z" "height above the sea" LENGTH,
);

/// Density of dry air as an ideal gas (kg/m3).
///
/// rho = p M / (R T)
///
/// * `pressure` (Pa), `temperature` (K).
///
/// # Source
///
/// Ideal gas, molar mass of [`DRY_AIR`].
pub fn density(pressure: f64, temperature: f64) -> f64 {
    gas::density(pressure, DRY_AIR.molar_mass(), temperature)
}
