//! Walls of the runs, cell by cell, and what their sides see of each other.

use super::sections::Beyond;
use super::{End, Maker, Outside, Placed, RunCells, Strip, Zone, in_float};
use crate::analysis::day::Without;
use crate::analysis::day::layers::{Back, Layers};
use crate::analysis::facing;
use crate::analysis::path::{Backing, Path, Segment, Side, Wall, ends_of_oven};
use crate::design::{Design, Layout};

/// Views between the sides of a duct, width by height, by Hottel's crossed strings.
///
/// F = ((w2 + h2)^(1/2) - h)/w between floor and ceiling; what is left goes to both uprights.
///
/// # Source
///
/// [`crate::sources::HOTTEL_SAROFIM_1967`].
fn views((width, height): (f64, f64)) -> [[f64; 4]; 4] {
    let diagonal = libm::hypot(width, height);
    let level = (diagonal - height) / width;
    let upright = (diagonal - width) / height;
    let to_upright = 0.5 * (1.0 - level);
    let to_level = 0.5 * (1.0 - upright);
    [
        [0.0, level, to_upright, to_upright],
        [level, 0.0, to_upright, to_upright],
        [to_level, to_level, 0.0, upright],
        [to_level, to_level, upright, 0.0],
    ]
}

const fn place_of(side: Side) -> usize {
    match side {
        Side::Bottom => 0,
        Side::Top => 1,
        Side::Left => 2,
        Side::Right => 3,
    }
}

impl Maker<'_> {
    pub(super) fn runs(&mut self, path: &Path) -> Vec<RunCells> {
        let count = self.resolution.cells_per_run;
        let blank = |(index, segment): (usize, &Segment)| {
            // The ends of an oven stand with its upright sides, as if these were higher.
            let (width, height) = segment.section;
            let end = 0.5 * ends_of_oven(self.design, index) / segment.length;
            RunCells { cells: vec![Vec::new(); count], views: views((width, height + end)) }
        };
        let mut runs: Vec<RunCells> = path.segments.iter().enumerate().map(blank).collect();
        for (index, segment) in path.segments.iter().enumerate() {
            for (wall, outside, beyond) in self.parted(&segment.walls, index) {
                let area = segment.length / in_float(count) * wall.girth;
                for cell in 0..count {
                    let at = (index, cell);
                    match wall.backing {
                        Backing::Run { index: other, thickness } => {
                            let beyond = path.segments.get(other).map(|run| run.length);
                            let girth = beyond.map(|length| area * in_float(count) / length);
                            let beyond = (other, thickness, girth);
                            self.baffle(&mut runs, at, (&wall, area), beyond);
                        }
                        // Made with the firebox.
                        Backing::Firebox(_) => {}
                        _ => self.own_wall(&mut runs, at, (&wall, area), (outside, beyond)),
                    }
                }
            }
        }
        runs
    }

    /// Walls of a run, each face of them parted where what it shares the outside with has another
    /// cover: the ends of a run lose heat by its long walls, by their share of the perimeter; and where
    /// the facing before a part of it stands farther off.
    pub(super) fn parted(&self, walls: &[Wall], run: usize) -> Vec<(Wall, Outside, Beyond)> {
        let covered = self.parted_by_cover(walls, run);
        covered
            .into_iter()
            .flat_map(|(wall, outside)| self.parted_by_distance(wall, run, outside))
            .collect()
    }

    /// The same by the distance of the facing alone. The ends of a run, which have no walls of their own,
    /// count as the long sides.
    fn parted_by_distance(
        &self,
        wall: Wall,
        run: usize,
        outside: Outside,
    ) -> Vec<(Wall, Outside, Beyond)> {
        let at_the_gap = Beyond { distance: self.design.shell.gap, wider: 1.0 };
        let own = self.design.path.runs().get(run).copied();
        let own = own.zip(self.design.run_heights().get(run).copied());
        let Some((own, axis)) = own.filter(|_| wall.backing == Backing::Face) else {
            return vec![(wall, outside, at_the_gap)];
        };
        let side = match (self.design.path.layout, wall.side) {
            (Layout::Above, Side::Right) | (Layout::Behind, Side::Left) => facing::Side::Back,
            _ => facing::Side::Front,
        };
        let heights = (axis - 0.5 * own.height, axis + 0.5 * own.height);
        let before = self.facing.before_run(side, heights);
        let far = if before.share < 1.0 {
            (before.share * own.height).min(wall.girth)
        } else {
            wall.girth
        };
        let beyond = Beyond { distance: before.distance, wider: before.wider };
        let parts = [(wall.girth - far, at_the_gap), (far, beyond)];
        let parts = parts.into_iter().filter(|(girth, _)| 0.0 < *girth);
        parts.map(|(girth, beyond)| (Wall { girth, ..wall }, outside, beyond)).collect()
    }

    fn parted_by_cover(&self, walls: &[Wall], run: usize) -> Vec<(Wall, Outside)> {
        let Design { path, .. } = self.design;
        let sizes = path.runs();
        let (along, across) =
            self.facing.around_runs().map_or((1.0, 0.0), |plan| (plan.length(), plan.depth()));
        let last = run + 1 == sizes.len();
        let mut parts = Vec::with_capacity(walls.len() + 2);
        for wall in walls {
            let outside = match (path.layout, wall.side) {
                _ if wall.backing != Backing::Face => Outside::Front,
                (Layout::Above, Side::Right) | (Layout::Behind, Side::Left) => Outside::Back,
                (Layout::Bench, Side::Right) if last => Outside::Back,
                _ => Outside::Front,
            };
            let (long, ends) = (self.alike(outside), self.alike(Outside::Sides));
            if wall.backing != Backing::Face || path.layout == Layout::Bench || long == ends {
                parts.push((*wall, long));
                continue;
            }
            let share = along / (along + across);
            let part = |share: f64| Wall { girth: share * wall.girth, ..*wall };
            parts.push((part(share), long));
            parts.push((part(1.0 - share), ends));
        }
        parts
    }

    /// A baffle, made by the lower-numbered of its two runs; the serpentine runs back on its
    /// other side.
    pub(super) fn baffle(
        &mut self,
        runs: &mut [RunCells],
        (run, cell): (usize, usize),
        (wall, area): (&Wall, f64),
        (other, thickness, girth): (usize, f64, Option<f64>),
    ) {
        if self.setup.lacks(Without::BaffleConduction) {
            let half = self.plain(0.5 * thickness, Back::Adiabatic);
            let placed = self.place(half, area, Zone::Inside);
            add(runs, (run, cell), placed, End::Inner, wall);
        } else if let Some(girth) = girth.filter(|_| run < other) {
            let placed = self.place(self.slab(thickness), area, Zone::Inside);
            add(runs, (run, cell), placed, End::Inner, wall);
            let far = (other, self.resolution.cells_per_run - 1 - cell);
            let wall = Wall { side: opposite(wall.side), girth, ..*wall };
            add(runs, far, placed, End::Outer, &wall);
        }
    }

    /// A wall that is not shared; left and right are one wall where they face the same.
    pub(super) fn own_wall(
        &mut self,
        runs: &mut [RunCells],
        (run, cell): (usize, usize),
        (wall, area): (&Wall, f64),
        beyond: (Outside, Beyond),
    ) {
        let (layers, zone) = self.layers_of(wall, run, beyond);
        let same = widened(runs, (run, cell), &self.walls, (zone, &layers, wall));
        if let Some(placed) = same.and_then(|index| self.walls.get_mut(index)) {
            placed.area += area;
        } else {
            let placed = self.place(layers, area, zone);
            if cell > 0 {
                self.in_row(placed);
            }
            add(runs, (run, cell), placed, End::Inner, wall);
        }
    }
}

const fn opposite(side: Side) -> Side {
    match side {
        Side::Bottom => Side::Top,
        Side::Top => Side::Bottom,
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    }
}

/// Puts a face of a wall into a cell.
pub(super) fn add(
    runs: &mut [RunCells],
    (run, cell): (usize, usize),
    wall: usize,
    end: End,
    strip: &Wall,
) {
    push(runs, (run, cell), (wall, end, false), strip);
}

/// Puts the inner face of a wall that only rides along before that of a wall in a cell.
pub(super) fn add_riding(
    runs: &mut [RunCells],
    cell: (usize, usize),
    wall: usize,
    strip: &Wall,
) {
    push(runs, cell, (wall, End::Inner, true), strip);
}

fn push(
    runs: &mut [RunCells],
    (run, cell): (usize, usize),
    (wall, end, rides_along): (usize, End, bool),
    strip: &Wall,
) {
    let mut sides = [0.0; 4];
    if let Some(side) = sides.get_mut(place_of(strip.side)) {
        *side = strip.girth;
    }
    if let Some(cell) = runs.get_mut(run).and_then(|run| run.cells.get_mut(cell)) {
        cell.push(Strip { wall, end, sides, rides_along });
    }
}

/// Widens the face alike that a cell already has to the room, where there is one.
fn widened(
    runs: &mut [RunCells],
    (run, cell): (usize, usize),
    walls: &[Placed],
    (zone, layers, strip): (Zone, &Layers, &Wall),
) -> Option<usize> {
    if !matches!(zone, Zone::RunFace(..)) {
        return None;
    }
    let cell = runs.get_mut(run)?.cells.get_mut(cell)?;
    let is_same = |wall: &Placed| wall.zone == zone && wall.layers == *layers;
    let own = cell.iter_mut().find(|own| walls.get(own.wall).is_some_and(is_same))?;
    *own.sides.get_mut(place_of(strip.side))? += strip.girth;
    Some(own.wall)
}
