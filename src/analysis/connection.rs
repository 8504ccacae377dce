//! Where the chimney stands beside the heater: what drawings and rules agree on.
//!
//! The connector leads from where the last run ends through core, gap and facing into the flue. All of
//! it counts as bare pipe for the gas; bare to be seen is what neither facing nor chimney takes in.

use super::facing::{Facing, Plan};
use super::places;
use crate::design::{Design, Layout};

/// The chimney beside a heater, as a plan in the measure of [`Plan`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Connection {
    /// The inside of the flue.
    pub flue: Plan,
    /// Around its masonry, or around its wool where it has none.
    pub outside: Plan,
    /// What the connector goes through from the last run to the outer face of the facing (m).
    pub through: f64,
    /// Pipe between facing and chimney (m); below zero where they take each other's place.
    pub bare: f64,
    /// 1 where the chimney stands to the right of the heater, -1 to the left.
    pub side: f64,
}

/// Where gas leaves the last run, or the firebox where there is none: along, deep (m), and to which side.
fn exit(design: &Design, facing: &Facing) -> (f64, f64, f64) {
    let runs = design.path.runs();
    let Some((around, size)) = facing.runs.zip(runs.last()) else {
        return (design.firebox.width, 0.0, 1.0);
    };
    let inside = around.grown(-design.shell.core_thickness);
    let last = places::runs(design, inside.left).last().copied();
    let Some(last) = last else { return (inside.right, 0.0, 1.0) };
    match design.path.layout {
        Layout::Above => (last.exit(), 0.0, last.along),
        Layout::Behind => (last.exit(), inside.front + 0.5 * size.width, last.along),
        Layout::Bench => (last.right, exit_of_bench(design), 1.0),
    }
}

/// How far behind the middle of the firebox the connector leaves a bench (m): the gas enters its first run
/// in front, each run ends where the next one begins.
fn exit_of_bench(design: &Design) -> f64 {
    let runs = design.path.runs();
    let Some(last) = runs.last() else { return 0.0 };
    let flue = design.chimney.flue_width.min(last.length);
    let end = 0.5 * (last.length - flue);
    let end = if runs.len().is_multiple_of(2) { -end } else { end };
    places::bench_middle(design) + end
}

impl Connection {
    /// That of a design.
    pub fn new(design: &Design) -> Self {
        let (facing, chimney) = (Facing::new(design), &design.chimney);
        let (along, deep, side) = exit(design, &facing);
        let face = facing.around_runs().or_else(|| facing.outside(0)).unwrap_or(facing.firebox);
        let through = if side > 0.0 { face.right - along } else { along - face.left };
        let near = along + side * chimney.connector_length;
        let far = near + side * chimney.flue_width;
        let half = 0.5 * chimney.depth();
        let flue = Plan {
            left: near.min(far),
            front: deep - half,
            right: near.max(far),
            back: deep + half,
        };
        let outside = flue.grown(chimney.shell());
        let skin = design.shell.gap + design.shell.facing_thickness;
        let faces = facing.shells.iter().flat_map(|shell| &shell.around);
        let beside = faces
            .map(|plan| plan.grown(skin))
            .filter(|face| face.front < outside.back && outside.front < face.back);
        let off = |face: Plan| {
            if side > 0.0 { outside.left - face.right } else { face.left - outside.right }
        };
        let own = chimney.connector_length - through - chimney.shell();
        let bare = beside.map(off).fold(own, f64::min);
        Self { flue, outside, through, bare, side }
    }

    /// The shortest connector with which heater and chimney do not take each other's place (m).
    pub fn shortest(&self, design: &Design) -> f64 {
        design.chimney.connector_length - self.bare
    }

    /// What is left between chimney and the walls that can burn at the side and behind (m, m), if the wall
    /// at the side stands there as well.
    pub fn to_walls(&self, design: &Design) -> [f64; 2] {
        let facing = Facing::new(design);
        let bodies = (0..facing.shells.len()).filter_map(|body| facing.outside(body));
        let heater = bodies.reduce(Plan::join).unwrap_or(facing.firebox);
        let beyond = if self.side > 0.0 {
            self.outside.right - heater.right
        } else {
            heater.left - self.outside.left
        };
        let around = &design.surroundings;
        [
            around.side - beyond,
            around.behind_to_combustibles() - (self.outside.back - heater.back),
        ]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(one: f64, other: f64) {
        assert!((one - other).abs() < 1e-9, "{one}, {other}");
    }

    /// A flue of 0.20 m in 20 mm of liner, 40 mm of wool and 115 mm of brick: 0.175 m to the outside, 0.55 m
    /// in all. Beyond the run 64 mm of core, 6 mm of gap and 115 mm of facing: 0.185 m.
    #[test]
    fn the_chimney_of_a_stack_stands_as_by_hand() {
        let mut design = Design::demonstration();
        design.chimney.connector_length = 0.4;
        design.surroundings.side = 0.6;
        let connection = Connection::new(&design);
        near(connection.through, 0.185);
        near(connection.bare, 0.040);
        near(connection.shortest(&design), 0.360);
        near(connection.outside.length(), 0.55);
        near(connection.outside.depth(), 0.55);
        // The facing ends 2.0 + 0.185 m from the left inside of the firebox.
        near(connection.outside.left, 2.185 + 0.040);
        near(connection.to_walls(&design)[0], 0.6 - 0.59);
        // With an even number of runs it leaves at the left, where the firebox is wider: 0.114 + 0.121.
        design.path.run_count = 6;
        let connection = Connection::new(&design);
        near(connection.side, -1.0);
        near(connection.through, 0.235);
        near(connection.bare, -0.010);
        // A tested pipe has no masonry.
        design.chimney.kind = crate::design::building::ChimneyKind::System;
        near(Connection::new(&design).bare, 0.105);
    }

    /// Runs of 0.3 m behind the firebox end before it does: 0.05 m to the left of its inside they begin, at
    /// 0.25 m the last ends, at 0.70 m the flue begins, its masonry at 0.525 m. The facing of the firebox ends
    /// at 0.42 + 0.114 + 0.121 m, and the chimney is as deep as to stand in it.
    #[test]
    fn a_chimney_behind_may_stand_in_the_facing_of_the_firebox() {
        let mut design = Design::demonstration();
        design.path.layout = Layout::Behind;
        design.path.run_count = 3;
        design.path.run_length = 0.3;
        design.chimney.connector_length = 0.45;
        let connection = Connection::new(&design);
        near(connection.outside.left, 0.525);
        near(connection.bare, 0.525 - 0.655);
        near(connection.shortest(&design), 0.58);
    }

    /// A bench of runs 3 m long that begins beside a firebox 0.36 m deep, 0.18 m before its middle: the first
    /// run ends 2.82 m behind it, the second in front, the connector as wide as the flue of 0.2 m lies there.
    #[test]
    fn the_chimney_of_a_bench_stands_where_its_last_run_ends() {
        let mut design = Design::demonstration();
        design.path.layout = Layout::Bench;
        design.path.run_length = 3.0;
        for (count, at) in [(1, 2.72), (2, -0.08), (3, 2.72)] {
            design.path.run_count = count;
            let flue = Connection::new(&design).flue;
            near(0.5 * (flue.front + flue.back), at);
            near(Connection::new(&design).through, 0.185);
        }
    }
}
