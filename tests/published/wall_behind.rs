//! Wood wall across a gap from the back of a heater, as computed by the handbook of this project: an
//! outside computation, of which the air temperature alone is stated (30 °C, flowing freely).
//!
//! With 2.5 m2K/W to -16 °C behind the wall, 0.9 for both faces and a film of 3.5 W/m2K all six
//! numbers follow; these three were chosen so. The day takes a wall that loses less, to a room.

use crate::{Check, Publication};
use longsmoke::physics::gap::{GapAir, WallBehind, across_gap};
use longsmoke::sources::Trust;
use longsmoke::units::kelvin;

const LOST: &str =
    "the day takes 4 m2K/W to a room of 20 °C instead of what loses more to the cold";

const STATED: WallBehind = WallBehind {
    room: kelvin(20.0),
    beyond: kelvin(-16.0),
    resistance: 2.5,
    film: 3.5,
    emissivity: 0.9,
    air: GapAir::Blocked,
};

pub fn publication() -> Publication {
    let rows = [
        (85.0, GapAir::Flowing, "65"),
        (85.0, GapAir::Poor, "74"),
        (85.0, GapAir::Blocked, "81"),
        (110.0, GapAir::Flowing, "85"),
        (110.0, GapAir::Poor, "96"),
        (110.0, GapAir::Blocked, "106"),
    ];
    let face = |wall: WallBehind, back: f64| across_gap(&wall, kelvin(back)).0 - kelvin(0.0);
    let stated = rows.map(|(back, air, printed)| {
        let what = format!("back {back} °C, air {air:?}: face of the wall (°C)");
        Check::rounds_to(what, face(WallBehind { air, ..STATED }, back), printed)
    });
    let cautious = rows.map(|(back, air, printed)| {
        let wall = WallBehind { air, beyond: STATED.room, resistance: 4.0, ..STATED };
        let what = format!("the same of the day, back {back} °C, air {air:?} (°C)");
        Check::rounds_to(what, face(wall, back), printed).differs(LOST)
    });
    Publication {
        name: "Handbook of this project: wood wall behind a heater",
        trust: Trust::Computed,
        checks: stated.into_iter().chain(cautious).collect(),
    }
}
