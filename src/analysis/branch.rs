//! Side branches: a slot or an open damper lets part of the gas go straight from the firebox to
//! the connector.
//!
//! Runs and branch lie between the same two places, so that they lose the same pressure.

use super::draft::turn_losses;
use super::march::{Passage, Stream, dynamic_pressure};
use super::path::Path;
use crate::physics::GRAVITY;
use crate::physics::pressure::orifice_flow;

/// Most of the gas that a branch takes (–): beyond, cold runs would turn about, which this does not
/// follow.
pub const MOST_SHARE: f64 = 0.9;
/// Pressure at which the flow through a slot turns from laminar to turbulent (Pa), common practice,
/// no source; it lowers the flow at 16 Pa by 0.6 %.
const LAMINAR: f64 = 0.2;
/// Rounds until runs and branch lose the same; two or three are usual.
const MOST_ROUNDS: u32 = 12;
/// On the share of the gas that takes the branch (–).
const TOLERANCE: f64 = 2e-4;

/// The gas on its way from the firebox to the connector.
#[derive(Clone, Debug, PartialEq)]
pub struct Way {
    /// Share of the gas that takes the branch (–).
    pub branched: f64,
    /// The gas that takes the runs.
    pub runs_stream: Stream,
    /// Through each run.
    pub passages: Vec<Passage>,
    /// Both together where they enter the connector (K).
    pub joined: f64,
}

/// Sends gas through runs and branch.
///
/// * `opening` (m2): free area of the branch; 0 for none. `firebox` (K): the gas there.
/// * `march`: a stream through the runs.
pub fn way(
    path: &Path,
    stream: &Stream,
    (opening, firebox): (f64, f64),
    mut march: impl FnMut(&Stream) -> Vec<Passage>,
) -> Way {
    let mut parted = |branched: f64| {
        let runs_stream = Stream { mass_flow: (1.0 - branched) * stream.mass_flow, ..*stream };
        let passages = march(&runs_stream);
        let joined = joined(stream, branched, firebox, &passages);
        Way { branched, runs_stream, passages, joined }
    };
    let mut way = parted(0.0);
    if opening <= 0.0 || way.passages.is_empty() {
        return way;
    }
    for _ in 0..MOST_ROUNDS {
        let next = share(path, stream, (opening, firebox), &way);
        if (next - way.branched).abs() < TOLERANCE {
            break;
        }
        way = parted(next);
    }
    way
}

/// Gas of both ways together (K).
pub fn joined(stream: &Stream, branched: f64, firebox: f64, passages: &[Passage]) -> f64 {
    let through_runs = passages.last().map_or(firebox, |passage| passage.outlet);
    if branched <= 0.0 {
        return through_runs;
    }
    let gas = &stream.gas;
    let enthalpy =
        (1.0 - branched) * gas.enthalpy(through_runs) + branched * gas.enthalpy(firebox);
    gas.temperature(enthalpy)
}

/// Share of the gas that the branch would take: what the runs lose at the present share goes with
/// the square of what is left for them.
pub fn share(path: &Path, stream: &Stream, (opening, firebox): (f64, f64), way: &Way) -> f64 {
    let density = stream.gas.density(stream.pressure, firebox);
    let pascals = difference(path, (stream, firebox), way).max(0.0);
    // A trickle through a slot is laminar and goes with the pressure itself.
    let flow = orifice_flow(opening, density, pascals) * (pascals / (pascals + LAMINAR)).sqrt();
    (flow / (stream.mass_flow * (1.0 - way.branched) + flow)).min(MOST_SHARE)
}

/// Pressure between the ends of the branch (Pa): what the runs lose, less what their rises pull
/// more than the hot gas of the branch does.
fn difference(path: &Path, (stream, firebox): (&Stream, f64), way: &Way) -> f64 {
    let Way { runs_stream, passages, .. } = way;
    let turns: f64 = turn_losses(path, runs_stream, firebox, passages).iter().sum();
    let friction: f64 = passages.iter().map(|passage| passage.friction).sum();
    let last = passages.last().map_or(firebox, |passage| passage.outlet);
    let last_area = path.segments.last().map_or(f64::INFINITY, |segment| segment.area);
    let exit = path.exit_coefficient * dynamic_pressure(runs_stream, last_area, last);
    let density = |t: f64| stream.gas.density(stream.pressure, t);
    let rises = path.segments.iter().skip(1).zip(passages);
    let heavier: f64 = rises
        .map(|(segment, before)| {
            GRAVITY * segment.rise * (density(before.outlet) - density(firebox))
        })
        .sum();
    turns + friction + exit + heavier
}
