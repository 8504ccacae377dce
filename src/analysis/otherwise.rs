//! The same heater as use will have it: with half the wood, or due for cleaning.

use crate::design::Design;
use crate::design::field::{FIELDS, FieldId, Kind, field};

/// Charge over the stated one when half is laid (–): as little as is laid out for.
///
/// # Source
///
/// [`crate::sources::EN_15544_LEAST_CHARGE`].
pub const HALF_CHARGE: f64 = 0.5;

/// Height that ash takes from a horizontal run (m).
///
/// # Source
///
/// [`crate::sources::TRIAL_SOOT`].
pub const ASH: f64 = 0.010;
/// Soot on a wall (m).
///
/// # Source
///
/// [`crate::sources::TRIAL_SOOT`].
pub const SOOT: f64 = 0.0015;

/// The same heater with half the wood, burned in the stated time at the stated excess air.
pub fn half_charged(design: &Design) -> Design {
    let mut half = design.clone();
    half.fire.charge *= HALF_CHARGE;
    hold(&mut half, design);
    half
}

/// The same heater when it is due for cleaning: ash on the floor of every run, soot on every wall of
/// runs and flue.
pub fn fouled(design: &Design) -> Design {
    let mut foul = design.clone();
    let path = &mut foul.path;
    let low = |height: f64| height - ASH - SOOT;
    let narrow = |width: f64| width - 2.0 * SOOT;
    path.run_height = low(path.run_height);
    path.run_width = narrow(path.run_width);
    for run in &mut path.overrides {
        run.height = run.height.map(low).map(|height| within(FieldId::RunHeight, height));
        run.width = run.width.map(narrow).map(|width| within(FieldId::RunWidth, width));
    }
    let chimney = &mut foul.chimney;
    chimney.flue_width = narrow(chimney.flue_width);
    chimney.flue_depth = narrow(chimney.flue_depth);
    hold(&mut foul, design);
    foul
}

/// Holds each input that another design has otherwise within what it may be.
pub fn hold(tried: &mut Design, design: &Design) {
    for field in &FIELDS {
        let Kind::Number(number) = &field.kind else {
            continue;
        };
        let (before, now) = ((number.get)(design), (number.get)(tried));
        if before.to_bits() != now.to_bits() {
            (number.set)(tried, within(field.id, now));
        }
    }
}

/// The nearest value that an input may have.
fn within(id: FieldId, value: f64) -> f64 {
    match &field(id).kind {
        Kind::Number(number) => value.clamp(*number.possible.start(), *number.possible.end()),
        Kind::Choice(_) => value,
    }
}
