//! The floor: in front of the loading door, and below the heater.

use super::around::Around;
use super::sets::{Matter, rule_of};
use super::{Finding, Lever};
use crate::design::building::{Below, Floor, VoidBelow};
use crate::design::field::FieldId;
use crate::design::{Design, RuleSet};
use crate::sources::BELOW_HEATER;

/// North America, opening from which a hearth is larger: 6 ft2 (m2).
pub const LARGE_OPENING: f64 = 0.557;
/// North America, hearth in front and beside: 16 in and 8 in (m).
pub const HEARTH: [f64; 2] = [0.406, 0.203];
/// North America, hearth of a large opening: 20 in and 12 in (m).
pub const LARGE_HEARTH: [f64; 2] = [0.508, 0.3048];
/// Europe, floor that cannot burn, in front and beside (m).
pub const EUROPE_HEARTH: [f64; 2] = [0.500, 0.300];

pub(super) fn check(design: &Design, findings: &mut Vec<Finding>) {
    hearth(design, findings);
    findings.extend(below(design));
}

fn hearth(design: &Design, findings: &mut Vec<Finding>) {
    let around = &design.surroundings;
    let set = design.site.rule_set;
    let Some(source) = rule_of(set, Matter::Hearth) else { return };
    match around.floor {
        Floor::NotStated => findings.push(Matter::Hearth.not_stated()),
        Floor::Mineral => {}
        Floor::Combustible => {
            let [front, side] = if set == RuleSet::Europe {
                EUROPE_HEARTH
            } else if LARGE_OPENING <= design.firebox.door_area() {
                LARGE_HEARTH
            } else {
                HEARTH
            };
            let lever = |field| Lever { field, raise: true };
            let sizes = [around.hearth_front, front];
            let in_front = lever(FieldId::HearthFront);
            findings.extend(Around::HearthShort.short(sizes, in_front, source));
            let sizes = [around.hearth_side, side];
            let beside = lever(FieldId::HearthSide);
            findings.extend(Around::HearthNarrow.short(sizes, beside, source));
        }
    }
}

/// Foam and wood below need a void through which air moves.
fn below(design: &Design) -> Option<Finding> {
    let around = &design.surroundings;
    let ventilated = around.void_below == VoidBelow::Ventilated;
    let lever = Some(Lever { field: FieldId::VoidBelow, raise: true });
    match around.below {
        Below::NotStated => Some(Matter::Below.not_stated()),
        Below::Foam if !ventilated => Some(Around::FoamBelow.bare(lever, &BELOW_HEATER)),
        Below::Wood if !ventilated => Some(Around::WoodBelow.bare(lever, &BELOW_HEATER)),
        Below::Mineral | Below::Foam | Below::Wood => None,
    }
}
