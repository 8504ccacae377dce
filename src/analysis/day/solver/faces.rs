//! What a state of the walls shows outside: heat that leaves, the hottest face, heat stored.

use super::Solver;
use crate::analysis::day::body::{Placed, Zone};
use crate::analysis::day::layers::Ply;
use crate::analysis::day::record::LayerPeaks;
use crate::design::Layout;
use crate::physics::gap::across_gap;

impl Solver<'_> {
    /// Heat that leaves by the outer faces of a zone (W), at node temperatures.
    pub fn outflow(&self, state: &[f64], zone: impl Fn(Zone) -> bool) -> f64 {
        let walls = self.body.walls.iter().zip(&self.conductances);
        walls
            .filter(|(wall, _)| zone(wall.zone))
            .filter_map(|(wall, now)| {
                let nodes = state.get(wall.nodes.clone())?;
                Some(wall.area * now.outflow(nodes))
            })
            .sum()
    }

    /// Temperature of the face of a wall to the room (K).
    pub(super) fn face_to_room(&self, state: &[f64], index: usize) -> Option<f64> {
        let wall = self.body.walls.get(index)?;
        let nodes = state.get(wall.nodes.clone())?;
        Some(self.conductances.get(index)?.outer_face(nodes))
    }

    /// The hottest face to the room: temperature (K) and zone.
    pub fn hottest_face(&self, state: &[f64]) -> (f64, Zone) {
        self.hottest(state, |zone| zone.is_face() || zone == Zone::Cap)
    }

    /// The hottest face of the wall behind, where there is one (K).
    pub fn wall_behind(&self, state: &[f64]) -> Option<f64> {
        let behind = self.body.behind?;
        Some(across_gap(&behind, self.hottest(state, Zone::is_back).0).0)
    }

    /// The hottest face of some zones. Along a run the faces of the cells are carried on to its
    /// ends by a parabola, since the hottest spot is at the inlet.
    pub(super) fn hottest(&self, state: &[f64], among: impl Fn(Zone) -> bool) -> (f64, Zone) {
        let mut best = (0.0, Zone::Cap);
        let mut row: Vec<f64> = Vec::new();
        let mut zone_before = None;
        for (index, wall) in self.body.walls.iter().enumerate() {
            if !among(wall.zone) {
                continue;
            }
            let Some(face) = self.face_to_room(state, index) else { continue };
            if zone_before != Some(wall.zone) {
                row.clear();
                zone_before = Some(wall.zone);
            }
            row.push(face);
            let hottest = hottest_of(&row);
            if best.0 < hottest {
                best = (hottest, wall.zone);
            }
        }
        best
    }

    /// The hottest upright face to the room (K).
    pub fn hottest_upright(&self, state: &[f64]) -> f64 {
        self.hottest(state, Zone::is_face).0
    }

    /// The hottest face of the top of a bench (K); none where the runs are no bench.
    pub fn bench(&self, state: &[f64]) -> Option<f64> {
        let is_bench = self.design.path.layout == Layout::Bench;
        let over_a_run = |index: usize| {
            let zone = self.body.walls.get(index).map(|wall| wall.zone);
            let over_the_fire = self.body.firebox.iter().any(|part| part.wall == index);
            zone == Some(Zone::Cap) && !over_the_fire
        };
        let tops = (0..self.body.walls.len()).filter(|index| is_bench && over_a_run(*index));
        tops.filter_map(|index| self.face_to_room(state, index)).reduce(f64::max)
    }

    /// Raises what the layers of the heater have been at most.
    pub fn raise_layers(&self, state: &[f64], peaks: &mut LayerPeaks) {
        let walls = self.body.walls.iter().zip(&self.conductances).enumerate();
        for (index, (wall, now)) in walls {
            let Some(nodes) = state.get(wall.nodes.clone()) else { continue };
            let mut of_the_fire = self.body.firebox.iter().any(|part| part.wall == index);
            if wall.zone == Zone::Under {
                peaks.under = peaks.under.max(now.outer_face(nodes));
            }
            for (ply, temperature) in wall.layers.sides(nodes, now) {
                let peak = match (ply, wall.zone) {
                    (Ply::Core, _) if of_the_fire => &mut peaks.firebox,
                    (Ply::Core, _) => &mut peaks.runs,
                    (Ply::Facing, _) => &mut peaks.facing,
                    (Ply::Board, _) => &mut peaks.board,
                    (Ply::Base, _) => &mut peaks.base,
                    (Ply::Liner, _) => &mut peaks.liner,
                    (Ply::Wool, _) => &mut peaks.wool,
                    (Ply::Sheet, Zone::Connector) => &mut peaks.connector,
                    (Ply::Sheet, _) => continue,
                };
                *peak = peak.max(temperature);
                // The crown has a run on its outer side.
                of_the_fire = false;
            }
        }
    }

    /// Heat in all walls above the start from cold (J).
    pub fn stored(&self, state: &[f64]) -> f64 {
        let heat = |wall: &Placed| {
            let nodes = state.get(wall.nodes.clone())?;
            Some(wall.area * wall.layers.heat(nodes, wall.start))
        };
        self.body.walls.iter().filter_map(heat).sum()
    }
}

/// The hottest of faces at the middles of equal cells, and of the two ends of their row.
fn hottest_of(row: &[f64]) -> f64 {
    let edge = |one: f64, two: f64, three: f64| (15.0 * one - 10.0 * two + 3.0 * three) / 8.0;
    let ends = match row {
        [one, two, three, ..] => edge(*one, *two, *three),
        _ => 0.0,
    };
    let other = match row {
        [.., three, two, one] => edge(*one, *two, *three),
        _ => 0.0,
    };
    row.iter().copied().fold(ends.max(other), f64::max)
}
