//! Bricks on the lattice: how one lies in a wall of a thickness.

use super::lattice::steps;
use super::row::{Spacing, Span, fill};
use crate::design::Design;
use crate::design::brick::Brick;

/// The bricks of a heater; none where a part is cast or of stone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bricks {
    /// Of the core.
    pub core: Option<Brick>,
    /// Of the facing.
    pub facing: Option<Brick>,
}

impl Bricks {
    /// Those in which the materials of a design are laid.
    pub fn of(design: &Design) -> Self {
        Self { core: design.shell.core(), facing: design.shell.facing() }
    }
}

/// A wall that differs from a brick by no more is laid with it uncut (m): what a mason lets pass.
const TOLERANCE: f64 = 0.003;
/// By how much a lap may be less than a quarter of a brick (m).
const LAP_TOLERANCE: f64 = 0.002;
/// A joint may be wider by its own width, at most by 1/8 in (m), the tolerance of joints in
/// TMS 602, from memory.
const WIDER: f64 = 0.0031750;
/// Stones and cast pieces where there is no brick: length and height (m): drawn, not designed.
const BLOCK: (f64, f64) = (0.40, 0.20);
/// Joint between them (m): drawn, not designed.
const BLOCK_JOINT: f64 = 0.010;

/// Whether a wall of a thickness (m) is laid of bricks that are not cut for it.
pub fn is_whole(brick: Brick, thickness: f64) -> bool {
    Kit::new(Some(brick)).near(thickness).is_some()
}

/// How a brick lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bed {
    /// On its largest face.
    Flat,
    /// On its long narrow face.
    Edge,
}

/// What one course is laid with, in steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Kit {
    /// Length of a brick.
    pub length: i32,
    /// Its width.
    pub width: i32,
    /// Its height, laid flat.
    pub height: i32,
    /// Joint.
    pub joint: i32,
    /// Widest joint.
    pub widest: i32,
    /// Whether it is brick; else stone, or cast.
    pub is_brick: bool,
}

impl Kit {
    pub(super) fn new(brick: Option<Brick>) -> Self {
        let Some(brick) = brick else {
            let (length, height) = (steps(BLOCK.0), steps(BLOCK.1));
            let joint = steps(BLOCK_JOINT);
            let widest = joint + steps(WIDER);
            return Self { length, width: length, height, joint, widest, is_brick: false };
        };
        let joint = steps(brick.joint).max(1);
        Self {
            length: steps(brick.size.length),
            width: steps(brick.size.width),
            height: steps(brick.size.height),
            joint,
            widest: joint + joint.min(steps(WIDER)),
            is_brick: true,
        }
    }

    /// A quarter of a unit with the joints that it shares: the smallest piece that is cut where
    /// another way is left.
    pub(super) fn quarter(self, unit: i32) -> i32 {
        ((unit - 3 * self.joint) / 4).max(1)
    }

    /// By how much a course breaks joints with the next: a quarter, less what a mason lets
    /// pass: a firebrick is a joint shorter than two are wide.
    pub(super) fn lap(self, unit: i32) -> i32 {
        (self.quarter(unit) - steps(LAP_TOLERANCE)).max(1)
    }

    pub(super) fn spacing(self, unit: i32) -> Spacing {
        Spacing { joint: self.joint, widest: self.widest, least: self.quarter(unit) }
    }

    /// A thickness as it is laid: that of bricks where they come near.
    pub(super) fn laid(self, thickness: f64) -> f64 {
        let near = self.near(thickness).filter(|_| self.is_brick);
        near.map_or(thickness, super::lattice::meters)
    }

    /// The thickness of a wall of uncut bricks that comes near.
    fn near(self, thickness: f64) -> Option<i32> {
        let wanted = steps(thickness);
        let two = 2 * self.width + self.joint;
        let fits = [self.height, self.width, self.length, two].into_iter();
        let near = fits.filter(|fit| (fit - wanted).abs() <= steps(TOLERANCE));
        near.min_by_key(|fit| (fit - wanted).abs())
    }

    /// How bricks lie in a wall of a thickness.
    pub(super) fn bed(self, thickness: i32) -> Bed {
        if self.is_brick && thickness <= self.height { Bed::Edge } else { Bed::Flat }
    }

    /// Height of a course.
    pub(super) const fn rise(self, bed: Bed) -> i32 {
        match bed {
            Bed::Flat => self.height,
            Bed::Edge => self.width,
        }
    }

    /// Across a wall, the brick along it.
    pub(super) const fn across(self, bed: Bed) -> i32 {
        match bed {
            Bed::Flat => self.width,
            Bed::Edge => self.height,
        }
    }

    /// Heights of the courses of a level, from above its first bed.
    pub(super) fn rises(self, total: i32, bed: Bed) -> Vec<Span> {
        let rise = self.rise(bed);
        fill(total - self.joint, rise, Spacing { least: rise / 2, ..self.spacing(rise) })
    }

    /// The bed in which solid masonry of a height takes the fewest cut courses, then the fewest.
    pub(super) fn best_bed(self, total: i32) -> Bed {
        let rate = |bed: Bed| {
            let rises = self.rises(total, bed);
            let rise = self.rise(bed);
            (rises.iter().filter(|(_, size)| *size != rise).count(), rises.len())
        };
        if self.is_brick && rate(Bed::Edge).0 < rate(Bed::Flat).0 {
            Bed::Edge
        } else {
            Bed::Flat
        }
    }
}
