//! Where the runs lie and where the gas turns: what sections, plans and courses agree on.
//!
//! x from the inner left wall of the firebox to the right; of runs one above the other their length
//! lies along x, of those of a bench their width.

use crate::design::{Design, Layout, Run};

/// Share of a sill under the door of the height that is left over (–): not designed.
pub const SILL: f64 = 0.25;
/// Longest slot, over the length of a run (–).
const LONGEST_SLOT: f64 = 0.4;

/// A run along x.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Placed {
    /// Its left end (m).
    pub left: f64,
    /// Its right end (m).
    pub right: f64,
    /// 1 for gas that flows to the right, -1 to the left.
    pub along: f64,
}

impl Placed {
    /// Where the gas leaves it (m).
    pub fn exit(self) -> f64 {
        if self.along > 0.0 { self.right } else { self.left }
    }
}

/// All runs in flow order, from where the leftmost begins (m).
pub fn runs(design: &Design, left: f64) -> Vec<Placed> {
    let sizes = design.path.runs();
    let longest = sizes.iter().map(|run| run.length).fold(0.0, f64::max);
    // A picture of runs behind the firebox ends to the right, where there is room for a chimney.
    let mut along = match design.path.layout {
        Layout::Behind if sizes.len().is_multiple_of(2) => -1.0,
        Layout::Above | Layout::Behind | Layout::Bench => 1.0,
    };
    let mut from = if along > 0.0 { left } else { left + longest };
    let mut placed = Vec::with_capacity(sizes.len());
    for run in &sizes {
        if design.path.layout == Layout::Bench {
            placed.push(Placed { left: from, right: from + run.width, along });
            from += run.width + design.path.baffle_thickness;
            continue;
        }
        // A short run begins where the one before ended, as far as it fits.
        let low = if along > 0.0 { from } else { from - run.length };
        let low = low.min(left + longest - run.length).max(left);
        let place = Placed { left: low, right: low + run.length, along };
        from = place.exit();
        along = -along;
        placed.push(place);
    }
    placed
}

/// The opening in the baffle between two runs of a stack (m, m): as long as the run before is high,
/// where it ends.
pub fn slot(before: (Placed, &Run), after: (Placed, &Run)) -> (f64, f64) {
    let (place, run) = before;
    let longest = |place: Placed| LONGEST_SLOT * (place.right - place.left);
    let length = run.height.min(longest(place)).min(longest(after.0));
    let (end, other) = (place.exit(), place.exit() - place.along * length);
    (end.min(other), end.max(other))
}

/// How far the middle of a bench lies behind that of the firebox (m): its first run begins in front, beside
/// the firebox, so that the gas comes to it there and goes all along it.
pub fn bench_middle(design: &Design) -> f64 {
    let first = design.path.runs().first().map_or(design.firebox.depth, |run| run.length);
    0.5 * (first - design.firebox.depth)
}

/// Length of the opening by which the gas comes down into the first run of a bench, where it begins (m).
pub fn way_down(first: &Run) -> f64 {
    first.height.min(LONGEST_SLOT * first.length)
}

/// The opening in the wall between two runs of a bench, along them from their middle (m, m): as long
/// as the run before is wide, at one end and the other in turn.
pub fn slot_of_bench(index: usize, before: &Run, after: &Run) -> (f64, f64) {
    let end = 0.5 * before.length.min(after.length);
    let length = before.width.min(LONGEST_SLOT * before.length);
    if index.is_multiple_of(2) { (end - length, end) } else { (-end, length - end) }
}

/// Length of the opening from the firebox up to the first run of a stack above it (m).
pub fn way_up(design: &Design, first: &Run) -> f64 {
    first.height.min(design.firebox.width)
}

/// Height of the sill of the loading door above the floor of the firebox (m): not designed.
pub fn sill(design: &Design) -> f64 {
    SILL * (design.firebox.height - design.firebox.door_height)
}
