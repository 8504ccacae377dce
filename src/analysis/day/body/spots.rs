//! Plane walls for the hottest spots of faces.
//!
//! A face spreads its heat on a wider outside, by corners, end walls and edges of baffles: that is
//! its mean, on which the energy rests. In its middle heat goes straight through, or nearly so. There
//! a plane wall of the same layers rides along: it meets the gas and the radiation of the face, takes
//! no heat of them, and keeps its own temperatures. In two dimensions the middle of a face lies
//! between both.

use super::runs::add_riding;
use super::sections::{Beyond, Standing};
use super::{Maker, Part, RunCells, Zone};
use crate::analysis::day::layers::Layers;
use crate::analysis::path::{Backing, Path, Wall};

/// Cells of a run that have one, from its inlet on: as many as tell the inlet itself.
const CELLS: usize = 3;

impl Maker<'_> {
    /// Around the runs where a face of its kind comes first: from there on the gas only cools.
    pub(super) fn ride_along_runs(&mut self, path: &Path, runs: &mut [RunCells]) {
        let mut known: Vec<(Backing, Layers)> = Vec::new();
        for (index, segment) in path.segments.iter().enumerate() {
            for (wall, outside, beyond) in self.parted(&segment.walls, index) {
                let (own, zone) = self.layers_of(&wall, index, (outside, beyond));
                let plane = (wall.backing, self.plane_of(&wall, own.clone(), (zone, beyond)));
                if plane.1 == own || known.contains(&plane) {
                    continue;
                }
                self.ride(runs, index, &wall, (&plane.1, zone));
                known.push(plane);
            }
        }
    }

    fn ride(
        &mut self,
        runs: &mut [RunCells],
        run: usize,
        wall: &Wall,
        (plane, zone): (&Layers, Zone),
    ) {
        for cell in 0..self.resolution.cells_per_run.min(CELLS) {
            let placed = self.place(plane.clone(), 0.0, zone);
            if cell > 0 {
                self.in_row(placed);
            }
            add_riding(runs, (run, cell), placed, wall);
        }
    }

    fn plane_of(&self, wall: &Wall, own: Layers, (zone, beyond): (Zone, Beyond)) -> Layers {
        match zone {
            Zone::RunFace(_, outside) => {
                let standing = Standing::plane(beyond.distance);
                self.face(self.design.shell.core_thickness, standing, outside)
            }
            Zone::Cap if wall.backing == Backing::Cap => self.cap(1.0),
            _ => own,
        }
    }

    /// Around the firebox, one for each of its faces.
    pub(super) fn ride_along_firebox(&mut self, parts: &[Part]) -> Vec<Part> {
        let zone = |part: &Part| self.walls.get(part.wall).map(|wall| wall.zone);
        let zones: Vec<Zone> = parts.iter().filter_map(zone).collect();
        let standing = Standing::plane(self.design.shell.gap);
        let thickness = self.design.firebox.wall_thickness;
        let ride = |zone: Zone| {
            let Zone::FireboxFace(outside) = zone else { return None };
            let plane = self.face(thickness, standing, outside);
            Some(Part { wall: self.place(plane, 0.0, zone), area: 0.0 })
        };
        zones.into_iter().filter_map(ride).collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::analysis::day::body::{Body, Outside, Strip, Zone, body};
    use crate::analysis::day::{Setup, Without};
    use crate::analysis::path::path;
    use crate::design::{Design, Layout};

    fn both(design: &Design) -> [Body; 2] {
        let path = path(design);
        let bare = Setup { without: vec![Without::HotSpots], ..Setup::STANDARD };
        [Setup::STANDARD, bare].map(|setup| body(design, &path, &setup))
    }

    /// By hand: 115 mm of brick with 1760 x 800 J/m3K keep 161.9 kJ/m2K where heat goes straight through,
    /// and firebrick with 2150 x 956 J/m3K keeps 234.3 of 114 mm and 131.5 of 64 mm.
    #[test]
    fn the_middle_of_a_face_keeps_what_its_layers_keep_and_no_more() {
        let [whole, _] = both(&Design::demonstration());
        let around_the_run = Zone::RunFace(0, Outside::Front);
        for (zone, by_hand) in
            [(Zone::FireboxFace(Outside::Front), 396.2e3), (around_the_run, 293.4e3)]
        {
            let in_zone = || whole.walls.iter().filter(|wall| wall.zone == zone);
            let riding: Vec<_> = in_zone().filter(|wall| wall.rides_along()).collect();
            assert!(!riding.is_empty(), "{zone:?}");
            for wall in riding {
                let capacity = wall.layers.capacity();
                assert!((capacity / by_hand - 1.0).abs() < 1e-3, "{zone:?}: {capacity}");
                assert!((wall.ratio - 1.0).abs() < 1e-12);
            }
            // What spreads keeps more.
            for wall in in_zone().filter(|wall| !wall.rides_along()) {
                assert!(1.05 * by_hand < wall.layers.capacity(), "{zone:?}");
            }
        }
    }

    /// All other walls, their areas and where the gas touches them stay as they are.
    #[test]
    fn what_rides_along_comes_on_top() {
        for layout in [Layout::Above, Layout::Behind, Layout::Bench] {
            let mut design = Design::demonstration();
            design.path.layout = layout;
            design.shell.insulation.back = 0.03;
            let [whole, bare] = both(&design);
            let area = |body: &Body, zone: Zone| -> f64 {
                body.walls.iter().filter(|wall| wall.zone == zone).map(|wall| wall.area).sum()
            };
            for wall in &bare.walls {
                assert!(!wall.rides_along());
                let areas = [area(&whole, wall.zone), area(&bare, wall.zone)];
                assert!((areas[0] - areas[1]).abs() < 1e-12, "{layout:?}: {:?}", wall.zone);
            }
            assert!(bare.walls.len() < whole.walls.len());
            for (run, other) in whole.runs.iter().zip(&bare.runs) {
                for (cell, other) in run.cells.iter().zip(&other.cells) {
                    let girth: f64 = cell.iter().map(Strip::exchanging).sum();
                    let bare: f64 = other.iter().map(Strip::girth).sum();
                    assert!((girth - bare).abs() < 1e-12, "{layout:?}");
                }
            }
        }
    }
}
