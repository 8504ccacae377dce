//! Heat given off by an outer face to a room.

use super::{STEFAN_BOLTZMANN, quick};

/// Film of turbulent natural convection between a vertical face and air (W/m2K).
///
/// h = 1.31 dT^(1/3)
///
/// * `difference` (K): between face and gas, not negative.
///
/// # Source
///
/// [`crate::sources::SURFACE_EMISSION`].
pub fn natural_film(difference: f64) -> f64 {
    1.31 * quick::cbrt(difference)
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
    emission_and_slope(emissivity, surface_temperature, room_temperature).0
}

/// [`emission`] (W/m2) and how it grows with the temperature of the face (W/m2K).
///
/// dq/dT_s = 4 sigma e T_s^3 + 4/3 1.31 (T_s - T_r)^(1/3)
///
/// # Source
///
/// [`crate::sources::SURFACE_EMISSION`].
pub fn emission_and_slope(
    emissivity: f64,
    surface_temperature: f64,
    room_temperature: f64,
) -> (f64, f64) {
    let cube = |t: f64| t * t * t;
    let (surface, room) = (surface_temperature, room_temperature);
    let film = natural_film((surface - room).abs());
    let radiation = STEFAN_BOLTZMANN * emissivity;
    let flux =
        radiation * (cube(surface) * surface - cube(room) * room) + film * (surface - room);
    (flux, 4.0 * radiation * cube(surface) + 4.0 / 3.0 * film)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_slope_is_that_of_the_emission() {
        for face in [285.0, 300.0, 350.0, 500.0] {
            let (flux, slope) = emission_and_slope(0.9, face, 293.15);
            let near = emission(0.9, face + 1e-3, 293.15);
            assert!(((near - flux) / 1e-3 - slope).abs() < 1e-3 * slope, "{face}");
        }
    }

    #[test]
    fn the_natural_film_grows_with_the_cube_root() {
        assert!((natural_film(1.0) - 1.31).abs() < 1e-12);
        assert!((natural_film(8.0) - 2.62).abs() < 1e-12);
        assert!(natural_film(0.0).abs() < 1e-12);
    }
}
