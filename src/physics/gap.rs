//! A hot back across a gap from a wall: radiation, air in the gap, heat through the wall.

use super::STEFAN_BOLTZMANN;

/// The air in a gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GapAir {
    /// It rises freely, fresh from the room.
    Flowing,
    /// It rises slowly and warms up on its way.
    Poor,
    /// It is shut in.
    Blocked,
}

/// A wall behind a hot back, with the gap between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WallBehind {
    /// Air of the room (K).
    pub room: f64,
    /// On the other side of the wall (K).
    pub beyond: f64,
    /// From the face of the wall to what is beyond (m2K/W).
    pub resistance: f64,
    /// Film between either face and the air of the gap (W/m2K).
    pub film: f64,
    /// Emissivity of both faces (–).
    pub emissivity: f64,
    /// The air in the gap.
    pub air: GapAir,
}

/// How much warmer the air of a gap is than that of the room where it rises freely (K).
///
/// # Source
///
/// [`crate::sources::WALL_BEHIND`].
pub const AIR_RISE: f64 = 10.0;

const MOST_ROUNDS: u32 = 40;
/// Last move of the face (K).
const TOLERANCE: f64 = 1e-4;

/// Face of a wall across a gap from a hot back (K), and the heat that leaves the back (W/m2).
///
/// h_r (T_b - T_w) + h (T_a - T_w) = (T_w - T_o)/R,
/// q = h_r (T_b - T_w) + h (T_b - T_a),
/// h_r = sigma (T_b2 + T_w2) (T_b + T_w)/(2/e - 1)
///
/// * `back` (K): of the face of the heater.
///
/// The air T_a is [`AIR_RISE`] above the room where it flows freely (half of the excess of a back
/// that is hardly warm), midway between that and the back where it flows poorly, midway between
/// the faces where it is shut in.
///
/// # Source
///
/// [`crate::sources::WALL_BEHIND`].
pub fn across_gap(wall: &WallBehind, back: f64) -> (f64, f64) {
    let WallBehind { room, beyond, resistance, film, emissivity, air } = *wall;
    let gray = STEFAN_BOLTZMANN / (2.0 / emissivity - 1.0);
    let free = room + AIR_RISE.min(0.5 * (back - room));
    let air_at = |face: f64| match air {
        GapAir::Flowing => free,
        GapAir::Poor => 0.5 * (free + back),
        GapAir::Blocked => 0.5 * (face + back),
    };
    let mut face = back;
    let mut radiative = 0.0;
    for _ in 0..MOST_ROUNDS {
        radiative = gray * (back * back + face * face) * (back + face);
        let gained = radiative * back + film * air_at(face) + beyond / resistance;
        let next = gained / (radiative + film + 1.0 / resistance);
        let moved = (next - face).abs();
        face = next;
        if moved < TOLERANCE {
            break;
        }
    }
    (face, radiative * (back - face) + film * (back - air_at(face)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::kelvin;

    const FRAMED: WallBehind = WallBehind {
        room: kelvin(20.0),
        beyond: kelvin(20.0),
        resistance: 4.0,
        film: 3.5,
        emissivity: 0.9,
        air: GapAir::Blocked,
    };

    #[test]
    fn what_leaves_the_back_goes_through_the_wall_when_the_air_is_shut_in() {
        let (face, flux) = across_gap(&FRAMED, kelvin(90.0));
        assert!((flux - (face - FRAMED.beyond) / FRAMED.resistance).abs() < 1e-2, "{flux}");
    }

    #[test]
    fn a_back_as_warm_as_the_room_gives_nothing() {
        for air in [GapAir::Flowing, GapAir::Poor, GapAir::Blocked] {
            let (face, flux) = across_gap(&WallBehind { air, ..FRAMED }, kelvin(20.0));
            assert!((face - kelvin(20.0)).abs() < 1e-6 && flux.abs() < 1e-6);
        }
    }

    #[test]
    fn less_air_makes_a_hotter_wall() {
        let face = |air| across_gap(&WallBehind { air, ..FRAMED }, kelvin(85.0)).0;
        assert!(face(GapAir::Flowing) + 5.0 < face(GapAir::Poor));
        assert!(face(GapAir::Poor) + 5.0 < face(GapAir::Blocked));
        assert!(face(GapAir::Blocked) < kelvin(85.0));
    }
}
