//! What a state of the walls shows outside: heat that leaves, the hottest face, heat stored.

use super::Solver;
use crate::analysis::day::body::{Placed, Zone};
use crate::analysis::day::layers::Ply;
use crate::analysis::day::record::LayerPeaks;
use crate::design::Layout;
use crate::physics::gap::across_gap;

/// Heat that leaves by outer faces (W).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Outflows {
    /// Around firebox and runs, the door of an oven with them.
    pub faces: f64,
    /// The cap.
    pub cap: f64,
    /// Below the heater.
    pub under: f64,
    /// The connector.
    pub connector: f64,
    /// The chimney indoors.
    pub indoors: f64,
    /// The chimney outdoors.
    pub outdoors: f64,
}

impl Solver<'_> {
    /// Heat that leaves by the outer faces of all zones, at node temperatures.
    pub fn outflows(&self, state: &[f64]) -> Outflows {
        let mut sums = Outflows::default();
        for (wall, now) in self.body.walls.iter().zip(&self.conductances) {
            let sum = match wall.zone {
                Zone::RunFace(..) | Zone::FireboxFace(_) | Zone::OvenDoor => &mut sums.faces,
                Zone::Cap => &mut sums.cap,
                Zone::Under => &mut sums.under,
                Zone::Connector => &mut sums.connector,
                Zone::Indoors => &mut sums.indoors,
                Zone::Outdoors => &mut sums.outdoors,
                Zone::Inside => continue,
            };
            if let Some(nodes) = state.get(wall.nodes.clone()) {
                *sum += wall.area * now.outflow(nodes);
            }
        }
        sums
    }

    /// Temperature of the face of a wall to the room (K).
    pub(super) fn face_to_room(&self, state: &[f64], index: usize) -> Option<f64> {
        let wall = self.body.walls.get(index)?;
        let nodes = state.get(wall.nodes.clone())?;
        Some(self.conductances.get(index)?.outer_face(nodes))
    }

    /// The hottest spot of a face to the room: temperature (K) and zone.
    pub fn hottest_face(&self, state: &[f64]) -> (f64, Zone) {
        self.hottest(state, |wall| wall.zone.is_face() || wall.zone == Zone::Cap)
    }

    /// The warmest of the faces that give heat to the room, each as it is on average over its
    /// outside (K).
    pub fn warmest_face(&self, state: &[f64]) -> f64 {
        let gives = |wall: &Placed| !wall.rides_along();
        let is_face = |wall: &Placed| wall.zone.is_face() || wall.zone == Zone::Cap;
        self.hottest(state, |wall| gives(wall) && is_face(wall)).0
    }

    /// The hottest face of the wall behind, where there is one (K).
    pub fn wall_behind(&self, state: &[f64]) -> Option<f64> {
        let behind = self.body.behind?;
        Some(across_gap(&behind, self.hottest(state, |wall| wall.zone.is_back()).0).0)
    }

    /// The hottest face of some walls. Along a run the faces of the cells are carried on to its
    /// ends by a parabola, since the hottest spot is at the inlet.
    pub(super) fn hottest(
        &self,
        state: &[f64],
        among: impl Fn(&Placed) -> bool,
    ) -> (f64, Zone) {
        let mut best = (0.0, Zone::Cap);
        let mut row: Vec<f64> = Vec::new();
        let mut row_before = None;
        for (index, wall) in self.body.walls.iter().enumerate() {
            if !among(wall) {
                continue;
            }
            let Some(face) = self.face_to_room(state, index) else { continue };
            if row_before != Some(wall.row) {
                row.clear();
                row_before = Some(wall.row);
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
        self.hottest(state, |wall| wall.zone.is_face()).0
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
            let mut of_the_fire = self.of_the_fire.get(index).copied().unwrap_or_default();
            if wall.zone == Zone::Under {
                peaks.under = peaks.under.max(now.outer_face(nodes));
            }
            let is_core = match wall.zone {
                _ if wall.rides_along() => false,
                Zone::RunFace(..) => true,
                Zone::FireboxFace(_) => self.body.runs.is_empty(),
                _ => false,
            };
            if let Some(mean) = wall.layers.inner_mean(nodes).filter(|_| is_core) {
                peaks.core = peaks.core.max(mean);
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
