//! Heat given off by an outer face to a room.

use super::STEFAN_BOLTZMANN;

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
    let convection = 1.31 * difference * libm::cbrt(difference.abs());
    STEFAN_BOLTZMANN * emissivity * (fourth(surface_temperature) - fourth(room_temperature))
        + convection
}
