//! What lies on each part of the outside of a heater: board, and a wall of the house behind it.

use super::{Maker, Outside};
use crate::analysis::day::layers::OUTER_EMISSIVITY;
use crate::analysis::facing::{Facing, Plan};
use crate::design::{Design, WallBehind as WallKind};
use crate::physics::gap::{GapAir, WallBehind};

/// What lies on a part of the outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Cover {
    /// Insulating board (m).
    pub(super) insulation: f64,
    /// A wall of the house across a gap; the room otherwise.
    pub(super) behind: Option<WallBehind>,
}

/// Film between either face of a gap and its air (W/m2K).
///
/// # Source
///
/// [`crate::sources::WALL_BEHIND`].
pub const GAP_FILM: f64 = 3.5;
/// From the face of a framed wall through its insulation (m2K/W), 1/0.25.
///
/// # Source
///
/// [`crate::sources::WALL_U_VALUE`].
pub const INSULATED: f64 = 4.0;
/// From the face of a masonry wall to the other side (m2K/W): 240 mm of brick and a film.
const MASONRY_RESISTANCE: f64 = 0.24 / 0.78 + 0.13;
/// Narrowest gap in which air flows (m): 25 mm.
///
/// # Source
///
/// [`crate::sources::VENTILATED_GAP`].
const NARROWEST_GAP: f64 = 0.025;
/// Openings at foot and top over the section of the gap from which its air flows freely (–): then
/// 2 m of air that is 10 K warmer carry off what a back of 85 °C gives to it, with 2.7 for the loss
/// of each opening; computed.
const FREE_OPENING: f64 = 0.5;

/// The wall behind a heater. The other side of it is taken to be as warm as the room, for a wall
/// that loses nothing to the cold gets hotter.
pub(super) fn wall_behind(design: &Design) -> Option<WallBehind> {
    let around = &design.surroundings;
    let resistance = match around.wall_behind {
        WallKind::NoWall => return None,
        WallKind::Framed => INSULATED,
        WallKind::Masonry => MASONRY_RESISTANCE,
    };
    let room = design.site.room_temperature;
    Some(WallBehind {
        room,
        beyond: room,
        resistance,
        film: GAP_FILM,
        emissivity: OUTER_EMISSIVITY,
        air: gap_air(design),
    })
}

/// Blocked unless openings at foot and top are known.
pub fn gap_air(design: &Design) -> GapAir {
    let surroundings = &design.surroundings;
    let opening = surroundings.gap_low_opening.min(surroundings.gap_high_opening);
    let facing = Facing::new(design);
    let bodies = (0..facing.shells.len()).filter_map(|body| facing.outside(body));
    let width = bodies.map(Plan::length).fold(0.0, f64::max);
    let gap = surroundings.wall_gap;
    if opening <= 0.0 || gap < NARROWEST_GAP {
        GapAir::Blocked
    } else if opening < FREE_OPENING * width * gap {
        GapAir::Poor
    } else {
        GapAir::Flowing
    }
}

pub(super) fn covers(design: &Design, behind: Option<WallBehind>) -> [(Outside, Cover); 3] {
    let board = design.shell.insulation;
    let cover = |insulation, behind| Cover { insulation, behind };
    [
        (Outside::Front, cover(board.front, None)),
        (Outside::Back, cover(board.back, behind)),
        (Outside::Sides, cover(board.sides, None)),
    ]
}

impl Maker<'_> {
    /// The first part of the outside that loses heat as this one does.
    pub(super) fn alike(&self, outside: Outside) -> Outside {
        let cover = self.cover(outside);
        let first = self.covers.iter().find(|(_, each)| *each == cover);
        first.map_or(outside, |(first, _)| *first)
    }

    pub(super) fn cover(&self, outside: Outside) -> Cover {
        let own = self.covers.iter().find(|(each, _)| *each == outside);
        own.map_or(Cover { insulation: 0.0, behind: None }, |(_, cover)| *cover)
    }
}
