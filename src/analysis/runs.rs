//! Gas through the runs, one after the other.

use super::Case;
use super::march::{Channel, Passage, Sink, Stream, march};
use super::path::Segment;
use crate::design::Design;

/// Cells of the march along each run, but for the day.
pub const CELLS_PER_RUN: u32 = 3;

/// A run as a channel with walls.
pub fn run_channel<'a>(
    design: &Design,
    segment: &Segment,
    sinks: &'a [Sink],
    cells: u32,
) -> Channel<'a> {
    Channel {
        duct: segment.duct,
        length: segment.length,
        area: segment.area,
        volume_over_area: segment.volume_over_area,
        sinks,
        wall_emissivity: design.shell.inner_emissivity,
        cells,
    }
}

/// Marches a stream through all runs, from a temperature of the gas (K); `walls` tells the strips
/// of a run.
pub fn through_runs(
    case: Case<'_>,
    stream: &Stream,
    inlet: f64,
    walls: impl Fn(&Segment, &mut Vec<Sink>),
) -> Vec<Passage> {
    let mut inlet = inlet;
    let mut sinks = Vec::with_capacity(4);
    case.path
        .segments
        .iter()
        .map(|segment| {
            sinks.clear();
            walls(segment, &mut sinks);
            let channel = run_channel(case.design, segment, &sinks, CELLS_PER_RUN);
            let passage = march(stream, &channel, inlet);
            inlet = passage.outlet;
            passage
        })
        .collect()
}

/// Adds a strip, as a widening of one that behaves the same where there is one.
pub fn add_strip(sinks: &mut Vec<Sink>, strip: Sink) {
    let same = sinks.iter_mut().find(|sink| {
        (sink.resistance - strip.resistance).abs() <= f64::EPSILON * strip.resistance
    });
    match same {
        Some(sink) => sink.girth += strip.girth,
        None => sinks.push(strip),
    }
}
