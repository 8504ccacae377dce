//! Sizes that the standard route for one-off heaters asks of a charge. The route in full comes
//! with the firing day.

/// Gap from which core and facing count as built with an air gap (m), common practice, no source:
/// thinner slip layers only part the two.
pub const AIR_GAP: f64 = 0.010;

/// Inner surface of the firebox, door and gas exit counted in (m2).
///
/// O = 0.09 m
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`].
pub fn firebox_surface(charge: f64) -> f64 {
    0.09 * charge
}

/// Smallest base of the firebox (m2).
///
/// A = 0.01 m
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`].
pub fn least_firebox_base(charge: f64) -> f64 {
    0.01 * charge
}

/// Smallest height of the firebox (m).
///
/// H = 0.25 + 0.01 m
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`].
pub fn least_firebox_height(charge: f64) -> f64 {
    0.25 + 0.01 * charge
}

/// Shortest smoke path (m).
///
/// L = 1.3 sqrt(m) without air gap between core and facing, 1.5 sqrt(m) with one
///
/// * `charge` (kg): 10 to 40.
/// * `gap` (m): between core and facing.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`]; which factor belongs to which construction is from memory.
pub fn shortest_path(charge: f64, gap: f64) -> f64 {
    let factor = if gap < AIR_GAP { 1.3 } else { 1.5 };
    factor * charge.sqrt()
}
