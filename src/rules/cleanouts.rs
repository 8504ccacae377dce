//! Whether every run can be swept, in every rule set: common practice.

use super::around::Around;
use super::sets::Matter;
use super::{Finding, Lever, Place};
use crate::design::Design;
use crate::design::building::{CleanoutFace, Cleanouts};
use crate::design::field::FieldId;
use crate::sources::{CLEANOUT_PRACTICE, IRC_R1003_CLEANOUT};
use crate::units::Quantity;

/// Length of run that a brush sweeps from one end (m).
pub const REACH: f64 = 1.5;
/// Free space to work in, in front of a cleanout (m).
pub const SPACE: f64 = 0.600;
/// From a cleanout to what can burn: 6 in (m).
pub const TO_COMBUSTIBLES: f64 = 0.152;
/// Hair by which a run may be longer than the reach (m).
const HAIR: f64 = 1e-6;

pub(super) fn check(design: &Design, findings: &mut Vec<Finding>) {
    if design.path.run_count == 0 {
        return;
    }
    let reach = match design.path.cleanouts {
        Cleanouts::NotStated => {
            findings.push(Matter::Cleanouts.not_stated());
            return;
        }
        Cleanouts::Missing => {
            let lever = Lever { field: FieldId::Cleanouts, raise: true };
            findings.push(Around::CleanoutsMissing.bare(Some(lever), &CLEANOUT_PRACTICE));
            return;
        }
        Cleanouts::OneEnd => REACH,
        Cleanouts::BothEnds => 2.0 * REACH,
    };
    findings.extend(out_of_reach(design, reach));
    findings.extend(space(design));
}

/// The longest run that a brush does not sweep.
fn out_of_reach(design: &Design, reach: f64) -> Option<Finding> {
    let runs = design.path.runs().into_iter().enumerate();
    let (index, run) = runs.max_by(|a, b| a.1.length.total_cmp(&b.1.length))?;
    let lever = match design.path.cleanouts {
        Cleanouts::OneEnd => Lever { field: FieldId::Cleanouts, raise: true },
        _ => Lever { field: FieldId::RunLength, raise: false },
    };
    let figures = [run.length, reach];
    (reach + HAIR < run.length).then(|| Finding {
        place: Place::Run(index),
        ..Around::CleanoutOutOfReach.beyond(
            figures,
            Quantity::Length,
            lever,
            &CLEANOUT_PRACTICE,
        )
    })
}

/// What can burn near a cleanout, or else too little room in front of it: wood stands in the way
/// as well.
fn space(design: &Design) -> Option<Finding> {
    let around = &design.surroundings;
    let (wood, field, place) = match design.path.cleanout_face {
        CleanoutFace::Sides => (around.side, FieldId::SideDistance, Place::Side),
        CleanoutFace::Front => (around.front, FieldId::FrontDistance, Place::Front),
        CleanoutFace::Rear => {
            (around.behind_to_combustibles(), FieldId::BehindDistance, Place::Back)
        }
    };
    let away = Lever { field, raise: true };
    let near = [wood, TO_COMBUSTIBLES];
    let free = wood.min(design.path.cleanout_space);
    let room =
        if free < wood { Lever { field: FieldId::CleanoutSpace, raise: true } } else { away };
    Around::CleanoutNearWood
        .short(near, away, &IRC_R1003_CLEANOUT)
        .or_else(|| Around::CleanoutBlocked.short([free, SPACE], room, &CLEANOUT_PRACTICE))
        .map(|finding| Finding { place, ..finding })
}
