//! Masonry that grows when it gets hot.

/// Growth of a length (m) by a rise of temperature (K): dL = alpha L dT.
///
/// * `coefficient` (1/K): linear expansion, taken as constant.
/// * `length` (m), `rise` (K).
///
/// # Source
///
/// [`crate::sources::EXPANSION`].
pub fn thermal_growth(coefficient: f64, length: f64, rise: f64) -> f64 {
    coefficient * length * rise
}
