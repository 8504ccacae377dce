//! What the bricks as they are placed take, and why it is not what the volume says.

use super::bricks;
use crate::analysis::structure::{Part as Estimated, Structure};
use crate::courses::brick::Bricks;
use crate::courses::check::check;
use crate::courses::materials::{Tally, tallies};
use crate::courses::{Part, plans};
use crate::design::Design;
use crate::design::brick::Brick;

/// Pieces of core or facing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    /// Bricks to take for them.
    pub bricks: f64,
    /// Volume of brick that is built in (m3).
    pub volume: f64,
    /// Mortar in joints and beds (m3).
    pub mortar: f64,
    /// Lintels.
    pub lintels: f64,
    /// Why the bricks are not those of the estimate; none where it is not of brick.
    pub why: Option<Difference>,
}

/// Bricks placed against those of the estimate by volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Difference {
    /// Bricks to take.
    pub placed: f64,
    /// Bricks of the estimate.
    pub by_volume: f64,
    /// More of them by other volume: openings, walls as thick as bricks.
    pub other_volume: f64,
    /// More by slabs and lintels that stand in the place of bricks: below zero.
    pub slabs: f64,
    /// More by what is left over of bricks that are cut.
    pub cutting: f64,
    /// More by joints that are not as wide as the brick's own.
    pub joints: f64,
}

/// What is placed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Firebox, fill and runs.
    pub core: Amount,
    /// The facing.
    pub facing: Amount,
    /// Ties between facing and core.
    pub ties: f64,
    /// Slabs between runs (m3).
    pub baffle_slabs: f64,
}

/// What is placed of a design; none where the plans are wrong.
pub fn placed(design: &Design, structure: &Structure) -> Option<Placed> {
    let plans = plans(design, Bricks::of(design));
    if !check(&plans).faults.is_empty() {
        return None;
    }
    let tallies = tallies(design, structure, &plans);
    let of = |is_meant: fn(Part) -> bool| -> Vec<Tally> {
        tallies.iter().copied().filter(|tally| is_meant(tally.part)).collect()
    };
    let core = of(|part| matches!(part, Part::Firebox | Part::Fill | Part::Runs));
    let facing = of(|part| part == Part::Facing);
    let runs = tallies.iter().find(|tally| tally.part == Part::Runs);
    let crown = bricks::crown(design);
    let by_volume = design
        .shell
        .core()
        .map(|brick| (brick, bricks::core_amount(design, structure, brick).bricks, crown));
    let of_facing = design.shell.facing().map(|brick| {
        let parts = structure.parts.iter().filter(|part| part.part == Estimated::Facing);
        let volume = parts.map(|part| part.volume).sum();
        let amount = bricks::amount(brick, volume, design.shell.facing_thickness);
        (brick, amount.bricks, 0.0)
    });
    Some(Placed {
        core: amount(&core, by_volume),
        facing: amount(&facing, of_facing),
        ties: facing.iter().map(|tally| count(tally.ties)).sum(),
        baffle_slabs: runs.map_or(0.0, |tally| tally.slab),
    })
}

fn count(pieces: usize) -> f64 {
    u32::try_from(pieces).map_or(f64::NAN, f64::from)
}

/// Parts together, with the brick of the estimate, its count and the slab (m3) that it leaves out.
fn amount(tallies: &[Tally], estimate: Option<(Brick, f64, f64)>) -> Amount {
    let sum = |of: fn(&Tally) -> f64| tallies.iter().map(of).sum::<f64>();
    let bricks = sum(|tally| count(tally.bricks));
    let why = estimate.map(|(brick, by_volume, slab)| {
        let estimated = sum(|tally| tally.estimated) - slab;
        let rate = if 0.0 < estimated { by_volume / estimated } else { 0.0 };
        let whole = sum(|tally| tally.pieces + tally.mortar);
        let other = sum(|tally| tally.pieces - tally.brick);
        let other_volume = rate * (whole - slab - estimated);
        let slabs = -rate * (other - slab);
        let cutting = bricks - sum(|tally| tally.brick) / brick.volume();
        let joints = bricks - by_volume - other_volume - slabs - cutting;
        Difference { placed: bricks, by_volume, other_volume, slabs, cutting, joints }
    });
    let lintels = sum(|tally| count(tally.lintels));
    let (volume, mortar) = (sum(|tally| tally.brick), sum(|tally| tally.mortar));
    Amount { bricks, volume, mortar, lintels, why }
}
