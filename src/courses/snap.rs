//! Sizes set to whole courses and half bricks, on demand.

use super::brick::{Bricks, Kit};
use super::lattice::{meters, steps};
use super::solids::{FRAME_GAP, as_laid};
use crate::design::field::{FieldId, Kind, field};
use crate::design::{Design, Layout};

/// What is set to another size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Change {
    /// The input.
    pub field: FieldId,
    /// The run of which it is a size of its own, from 0; none for all of them.
    pub run: Option<usize>,
    /// Its size before (m).
    pub from: f64,
    /// And after (m).
    pub to: f64,
}

/// A design with what was changed in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Snapped {
    /// The design, in whole courses and half bricks.
    pub design: Design,
    /// What was changed.
    pub changes: Vec<Change>,
}

/// Less is no change (m).
const HAIR: f64 = 1e-6;

/// The sizes of an input that whole courses or half bricks leave, one after the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sizes {
    /// From one size to the next, in half steps.
    unit: i32,
    /// What each has beside, in steps.
    more: i32,
}

impl Sizes {
    /// Those of an input in a design as it is; none where it is no size of bricks.
    pub fn of(id: FieldId, design: &Design) -> Option<Self> {
        let bricks = Bricks::of(design);
        let kit = Kit::new(bricks.core);
        let laid = as_laid(design, bricks);
        match id {
            _ if !kit.is_brick => None,
            FieldId::RunHeight => Some(Self::courses(kit, laid.shell.core_thickness)),
            FieldId::FireboxHeight => Some(Self::courses(kit, laid.firebox.wall_thickness)),
            FieldId::RunLength | FieldId::FireboxWidth | FieldId::FireboxDepth => {
                Some(Self::half_bricks(kit))
            }
            _ => None,
        }
    }

    /// Whole courses of a wall of a thickness (m).
    fn courses(kit: Kit, thickness: f64) -> Self {
        Self { unit: 2 * course(kit, thickness), more: 0 }
    }

    /// Inner lengths between walls, with a joint at both ends.
    const fn half_bricks(kit: Kit) -> Self {
        Self { unit: kit.length + kit.joint, more: kit.joint }
    }

    /// From one to the next (m).
    pub fn step(self) -> f64 {
        0.5 * meters(self.unit)
    }

    /// The one nearest to a size (m).
    pub fn nearest(self, size: f64) -> f64 {
        let count = nearest(2 * (steps(size) - self.more), self.unit, 1);
        meters(count * self.unit / 2 + self.more)
    }
}

/// Height of a course with its bed in a wall of a thickness (m).
fn course(kit: Kit, thickness: f64) -> i32 {
    kit.rise(kit.bed(steps(thickness))) + kit.joint
}

struct Snap {
    kit: Kit,
    design: Design,
    changes: Vec<Change>,
}

/// Sets walls to the thickness of bricks, heights to whole courses, lengths to half bricks. The
/// width of the runs stays: half a brick would change the way of the gas too much.
pub fn snap(design: &Design, bricks: Bricks) -> Snapped {
    let kit = Kit::new(bricks.core);
    let mut snap = Snap { kit, design: design.clone(), changes: Vec::new() };
    let laid = as_laid(design, bricks);
    snap.put(FieldId::FireboxWall, laid.firebox.wall_thickness);
    snap.put(FieldId::CoreThickness, laid.shell.core_thickness);
    snap.put(FieldId::FacingThickness, laid.shell.facing_thickness);
    if kit.is_brick {
        snap.firebox();
        snap.door();
        snap.runs();
    }
    Snapped { design: snap.design, changes: snap.changes }
}

impl Snap {
    /// The nearest number of whole courses in a wall of a thickness (m).
    fn courses(&self, height: f64, thickness: f64) -> f64 {
        Sizes::courses(self.kit, thickness).nearest(height)
    }

    /// The nearest inner length that half bricks leave (m).
    fn half_bricks(&self, length: f64) -> f64 {
        Sizes::half_bricks(self.kit).nearest(length)
    }

    fn put(&mut self, id: FieldId, to: f64) {
        let Kind::Number(number) = &field(id).kind else {
            return;
        };
        let from = (number.get)(&self.design);
        let to = to.clamp(*number.possible.start(), *number.possible.end());
        if (to - from).abs() > HAIR {
            (number.set)(&mut self.design, to);
            self.changes.push(Change { field: id, run: None, from, to });
        }
    }

    fn firebox(&mut self) {
        let fire = self.design.firebox.clone();
        self.put(FieldId::FireboxWidth, self.half_bricks(fire.width));
        self.put(FieldId::FireboxDepth, self.half_bricks(fire.depth));
        self.put(FieldId::FireboxHeight, self.courses(fire.height, fire.wall_thickness));
    }

    /// The opening takes the door with the gap around its frame.
    fn door(&mut self) {
        let fire = self.design.firebox.clone();
        let gaps = 2.0 * FRAME_GAP;
        let half = meters(i32::midpoint(self.kit.length, self.kit.joint));
        let course = meters(course(self.kit, fire.wall_thickness));
        let mut width = self.half_bricks(fire.door_width + gaps) - gaps;
        while fire.width < width && half < width {
            width -= half;
        }
        let mut height = self.courses(fire.door_height + gaps, fire.wall_thickness) - gaps;
        while fire.height < height + gaps && course < height {
            height -= course;
        }
        self.put(FieldId::DoorWidth, width);
        self.put(FieldId::DoorHeight, height);
    }

    fn runs(&mut self) {
        let core = self.design.shell.core_thickness;
        let path = self.design.path.clone();
        self.put(FieldId::RunHeight, self.courses(path.run_height, core));
        self.put(FieldId::RunLength, self.half_bricks(path.run_length));
        for index in 0..path.overrides.len() {
            self.own_sizes(index, core);
        }
        // A baffle of bricks laid flat, where it is nearly as thick.
        let course = meters(self.kit.height + self.kit.joint);
        let baffle = path.baffle_thickness;
        if path.layout != Layout::Bench && (baffle - course).abs() < 0.3 * course {
            self.put(FieldId::Baffle, course);
        }
    }

    fn own_sizes(&mut self, run: usize, core: f64) {
        let Some(own) = self.design.path.overrides.get(run).copied() else {
            return;
        };
        let height = own.height.map(|from| (from, self.courses(from, core)));
        let length = own.length.map(|from| (from, self.half_bricks(from)));
        let Some(place) = self.design.path.overrides.get_mut(run) else {
            return;
        };
        place.height = height.map(|(_, to)| to);
        place.length = length.map(|(_, to)| to);
        let both = [(FieldId::RunHeight, height), (FieldId::RunLength, length)];
        for (id, size) in both {
            if let Some((from, to)) = size.filter(|(from, to)| (to - from).abs() > HAIR) {
                self.changes.push(Change { field: id, run: Some(run), from, to });
            }
        }
    }
}

/// How many times a unit goes into a size, to the nearest, at least so often.
fn nearest(size: i32, unit: i32, least: i32) -> i32 {
    if unit <= 0 { least } else { ((size + unit / 2) / unit).max(least) }
}
