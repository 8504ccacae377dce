//! Every brick of a heater, course by course.
//!
//! `solids` turns a design into bodies of masonry, `laying` lays each of them in courses, `check`
//! proves that bricks and joints fill them, `snap` sets sizes to whole courses and half bricks,
//! `materials` counts. All lengths are whole steps of a tenth of a millimeter (`lattice`).

pub mod brick;
pub mod check;
pub mod lattice;
mod laying;
pub mod materials;
mod row;
pub mod snap;
mod solids;
mod spans;

use crate::design::Design;
use brick::{Bed, Bricks};
use lattice::{Rect, Region, Way};

pub use solids::{Clear, FRAME_GAP, LeftOut, Opening, Part, Space, as_laid};

/// What a piece of masonry is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A brick, whole or cut.
    Brick,
    /// A slab across a space, or of a cap.
    Slab,
    /// What carries the courses over an opening.
    Lintel,
    /// Stone, or a cast piece.
    Block,
}

impl Kind {
    /// Its name in files.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Brick => "brick",
            Self::Slab => "slab",
            Self::Lintel => "lintel",
            Self::Block => "block",
        }
    }
}

/// A piece of masonry in its course.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Piece {
    /// What it is.
    pub kind: Kind,
    /// Its place in plan.
    pub rect: Rect,
    /// What is left out of a slab.
    pub holes: Vec<Rect>,
    /// Length, width and height, in steps; of a cut brick as it is cut.
    pub size: [i32; 3],
    /// Whether it is a brick that is cut.
    pub is_cut: bool,
}

impl Piece {
    /// Its name in files.
    pub const fn id(&self) -> &'static str {
        if self.is_cut { "cut_brick" } else { self.kind.id() }
    }
}

/// An upright joint, in plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Joint {
    /// Its place.
    pub rect: Rect,
    /// The way across it, along the bricks between which it lies.
    pub way: Way,
    /// By how much the joints of the next course must keep away from it.
    pub lap: i32,
}

/// A course of a part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Course {
    /// The part to which it belongs.
    pub part: Part,
    /// Which of several bodies of this part, from 0.
    pub body: usize,
    /// Its number in its body, from 1 at the bottom.
    pub number: usize,
    /// Its number among the courses of one level, walls of a kind, floor or slab, from 0.
    pub in_level: usize,
    /// Bottom of the bed on which it lies, in steps above the floor of the firebox.
    pub bottom: i32,
    /// Thickness of that bed.
    pub bed: i32,
    /// Height of the pieces.
    pub height: i32,
    /// How bricks lie.
    pub lie: Bed,
    /// The masonry of the course in plan, joints included.
    pub region: Region,
    /// Its pieces.
    pub pieces: Vec<Piece>,
    /// Its upright joints as laid.
    pub joints: Vec<Joint>,
    /// Ties between facing and core that are laid into the bed under it.
    pub ties: Vec<(i32, i32)>,
    /// The widest joint that is let pass in it.
    pub widest: i32,
    /// What the course is open for.
    pub open: Vec<(Opening, Rect)>,
}

impl Course {
    /// Its top.
    pub const fn top(&self) -> i32 {
        self.bottom + self.bed + self.height
    }
}

/// What is open through masonry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Through {
    /// What for.
    pub opening: Opening,
    /// The way through it.
    pub way: Way,
    /// Its plan.
    pub rect: Rect,
    /// Its bottom in steps.
    pub bottom: i32,
    /// Its top.
    pub top: i32,
    /// Section that it must have at least, in square steps, where that is designed.
    pub area: Option<i64>,
}

/// All courses of a heater, in the order in which they are laid.
#[derive(Clone, Debug)]
pub struct Plans {
    /// From the bottom up.
    pub courses: Vec<Course>,
    /// What must stay clear of masonry.
    pub clear: Vec<Clear>,
    /// What is open through it.
    pub through: Vec<Through>,
    /// What no input places.
    pub left_out: Vec<LeftOut>,
    /// The bricks.
    pub bricks: Bricks,
}

/// Lays a design.
pub fn plans(design: &Design, bricks: Bricks) -> Plans {
    let laid = as_laid(design, bricks);
    let solids = solids::solids(&laid, bricks);
    let (mut courses, through) = laying::lay(&solids, bricks);
    courses.sort_by_key(|course| (course.bottom + course.bed, course.part, course.body));
    Plans { courses, clear: solids.clear, through, left_out: solids.left_out, bricks }
}
