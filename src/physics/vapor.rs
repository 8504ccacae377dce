//! Water vapor: saturation and dew point.

/// Dew point of water vapor (K).
///
/// t = 4077.9 / (23.6448 - ln p) - 236.67 in degrees Celsius
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
