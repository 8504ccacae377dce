//! Walls of the firebox.

use super::runs::add;
use super::sections::Standing;
use super::{End, Maker, Outside, Part, RunCells, Zone, in_float};
use crate::analysis::day::Without;
use crate::analysis::day::layers::Back;
use crate::analysis::path::{Backing, Path};
use crate::design::Layout;

impl Maker<'_> {
    pub(super) fn firebox(&mut self, path: &Path, runs: &mut [RunCells]) -> Vec<Part> {
        let firebox = &self.design.firebox;
        let shell = &self.design.shell;
        let mut parts = Vec::new();
        for (index, segment) in path.segments.iter().enumerate() {
            for wall in &segment.walls {
                let Backing::Firebox(thickness) = wall.backing else { continue };
                let count = self.resolution.cells_per_run;
                let area = segment.length / in_float(count) * wall.girth;
                for cell in 0..count {
                    if self.setup.lacks(Without::CrownConduction) {
                        let half = self.plain(0.5 * thickness, Back::Adiabatic);
                        let placed = self.place(half.clone(), area, Zone::Inside);
                        add(runs, (index, cell), placed, End::Inner, wall);
                        parts.push(Part { wall: self.place(half, area, Zone::Inside), area });
                    } else {
                        let placed = self.place(self.slab(thickness), area, Zone::Inside);
                        add(runs, (index, cell), placed, End::Outer, wall);
                        parts.push(Part { wall: placed, area });
                    }
                }
            }
        }
        let base = firebox.width * firebox.depth;
        let floor = self.place(self.under(firebox.wall_thickness), base, Zone::Under);
        parts.push(Part { wall: floor, area: base });
        let mut rest = firebox.surface() - firebox.door_area() - path.firebox_overlap - base;
        if self.design.path.layout != Layout::Above && shell.cap_thickness > 0.0 {
            let cap = self.place(self.cap(1.0), base, Zone::Cap);
            parts.push(Part { wall: cap, area: base });
            rest -= base;
        }
        // Where the runs take up more of the firebox than it has, nothing is left over.
        if rest > 0.0 {
            let whole = firebox.wall_thickness + shell.gap + shell.facing_thickness;
            let inner = firebox.width + firebox.depth;
            let ratio = (inner + 4.0 * whole) / inner;
            for (outside, share) in self.firebox_outsides() {
                let standing = Standing { core: ratio, facing: ratio, distance: shell.gap };
                let face = self.face(firebox.wall_thickness, standing, outside);
                let area = share * rest;
                let wall = self.place(face, area, Zone::FireboxFace(outside));
                parts.push(Part { wall, area });
            }
        }
        parts
    }

    /// Parts of the outside of the firebox with their shares of its free walls (–), those together
    /// that lose heat alike.
    pub(super) fn firebox_outsides(&self) -> Vec<(Outside, f64)> {
        let firebox = &self.design.firebox;
        let upright = firebox.width * firebox.height;
        // Runs behind the firebox stand between it and what lies behind the heater.
        let back = match self.design.path.layout {
            Layout::Behind => 0.0,
            Layout::Above | Layout::Bench => upright,
        };
        let areas = [
            (Outside::Front, upright - firebox.door_area()),
            (Outside::Back, back),
            (Outside::Sides, 2.0 * firebox.depth * firebox.height),
        ];
        let whole: f64 = areas.iter().map(|(_, area)| area.max(0.0)).sum();
        let mut shares: Vec<(Outside, f64)> = Vec::new();
        for (outside, area) in areas {
            let (alike, share) = (self.alike(outside), area.max(0.0) / whole);
            match shares.iter_mut().find(|(each, _)| *each == alike) {
                Some((_, sum)) => *sum += share,
                None if share > 0.0 => shares.push((alike, share)),
                None => {}
            }
        }
        if let [(_, only)] = shares.as_mut_slice() {
            *only = 1.0;
        }
        shares
    }
}
