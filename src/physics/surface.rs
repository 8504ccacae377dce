//! Heat given off by an outer face to a room.

use super::STEFAN_BOLTZMANN;

/// Film of turbulent natural convection between a vertical face and air or flue gas (W/m2K).
///
/// h = 1.31 dT^(1/3)
///
/// * `difference` (K): between face and gas, not negative.
///
/// # Source
///
/// [`crate::sources::SURFACE_EMISSION`].
pub fn natural_film(difference: f64) -> f64 {
    1.31 * libm::cbrt(difference)
}

/// Heat flux from a vertical face to a room by radiation and natural convection (W/m2).
///
/// q = sigma e (T_s^4 - T_r^4) + 1.31 (T_s - T_r)^(4/3)
///
/// * `emissivity` (–), `surface_temperature`, `room_temperature` (K). Negative when the face is
///   cooler than the room.
///
/// # Source
///
/// [`crate::sources::SURFACE_EMISSION`].
pub fn emission(emissivity: f64, surface_temperature: f64, room_temperature: f64) -> f64 {
    let fourth = |t: f64| t * t * t * t;
    let difference = surface_temperature - room_temperature;
    let convection = difference * natural_film(difference.abs());
    STEFAN_BOLTZMANN * emissivity * (fourth(surface_temperature) - fourth(room_temperature))
        + convection
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_natural_film_grows_with_the_cube_root() {
        assert!((natural_film(1.0) - 1.31).abs() < 1e-12);
        assert!((natural_film(8.0) - 2.62).abs() < 1e-12);
        assert!(natural_film(0.0).abs() < 1e-12);
    }
}
