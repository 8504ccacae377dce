//! Surfaces of simple bodies.

use super::formula::{Formula, formula};
use crate::sources::GEOMETRY;

/// Surface of a block (m2).
///
/// O = 2 a b + 2 (a + b) h
///
/// * `width`, `depth`, `height` (m).
///
/// # Source
///
/// [`GEOMETRY`].
pub fn block_surface(width: f64, depth: f64, height: f64) -> f64 {
    2.0 * width * depth + 2.0 * (width + depth) * height
}

/// [`block_surface`].
pub const BLOCK_SURFACE: Formula = formula!(
    block_surface: "O = 2 a b + 2 (a + b) h", GEOMETRY,
    "O" "inner surface" AREA;
    width "a" "width" LENGTH,
    depth "b" "depth" LENGTH,
    height "h" "height" LENGTH,
);

/// Base of a block (m2).
///
/// A = a b
///
/// * `width`, `depth` (m).
///
/// # Source
///
/// [`GEOMETRY`].
pub fn base(width: f64, depth: f64) -> f64 {
    width * depth
}

/// [`base`].
pub const BASE: Formula = formula!(
    base: "A = a b", GEOMETRY,
    "A" "base" AREA;
    width "a" "width" LENGTH,
    depth "b" "depth" LENGTH,
);
