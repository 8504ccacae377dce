//! Bricks: sizes in which they are sold, one of the builder's own, and the joint.

use super::choices;
use crate::units::METERS_PER_INCH as INCH;

choices! {
    /// A size in which bricks are sold.
    BrickFormat {
        /// Firebrick of 9 x 4 1/2 x 2 1/2 in.
        Firebrick = "firebrick",
        /// Firebrick of 9 x 4 1/2 x 3 in.
        FirebrickThree = "firebrick_3in",
        /// Firebrick of 230 x 114 x 64 mm.
        MetricFirebrick = "firebrick_230",
        /// Firebrick of 250 x 124 x 64 mm.
        LargeFirebrick = "firebrick_250",
        /// Modular brick of 7 5/8 x 3 5/8 x 2 1/4 in.
        Modular = "modular",
        /// Brick of 240 x 115 x 71 mm.
        Normal = "brick_240",
        /// Brick of 215 x 102.5 x 65 mm.
        British = "brick_215",
        /// Brick of 250 x 120 x 65 mm.
        Stove = "brick_250",
        /// The builder's own, salvaged perhaps.
        Own = "own_brick",
    }
}

/// Size of a brick without its joint (m).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BrickSize {
    /// Along the course.
    pub length: f64,
    /// Across a wall that is one brick thick.
    pub width: f64,
    /// Of a course.
    pub height: f64,
}

/// A brick with its joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Brick {
    /// Its size (m).
    pub size: BrickSize,
    /// Between bricks of a course, and between courses (m).
    pub joint: f64,
}

const fn inches(length: f64, width: f64, height: f64) -> BrickSize {
    BrickSize { length: length * INCH, width: width * INCH, height: height * INCH }
}

const fn millimeters(length: f64, width: f64, height: f64) -> BrickSize {
    BrickSize { length: length * 1e-3, width: width * 1e-3, height: height * 1e-3 }
}

impl BrickFormat {
    /// Its size, or that of the builder's own brick.
    ///
    /// # Source
    ///
    /// [`crate::sources::BRICK_FORMATS`].
    pub const fn size(self, own: BrickSize) -> BrickSize {
        match self {
            Self::Firebrick => inches(9.0, 4.5, 2.5),
            Self::FirebrickThree => inches(9.0, 4.5, 3.0),
            Self::MetricFirebrick => millimeters(230.0, 114.0, 64.0),
            Self::LargeFirebrick => millimeters(250.0, 124.0, 64.0),
            Self::Modular => inches(7.625, 3.625, 2.25),
            Self::Normal => millimeters(240.0, 115.0, 71.0),
            Self::British => millimeters(215.0, 102.5, 65.0),
            Self::Stove => millimeters(250.0, 120.0, 65.0),
            Self::Own => own,
        }
    }
}

impl Brick {
    /// Straight firebrick with joints of 1/16 in.
    pub const FIREBRICK: Self = Self { size: inches(9.0, 4.5, 2.5), joint: 0.0625 * INCH };
    /// Modular clay brick with joints of 3/8 in.
    pub const MODULAR: Self = Self { size: inches(7.625, 3.625, 2.25), joint: 0.375 * INCH };

    /// Volume of the brick alone (m3).
    pub const fn volume(self) -> f64 {
        self.size.length * self.size.width * self.size.height
    }
}
