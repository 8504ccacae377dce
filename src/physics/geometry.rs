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

/// One side over the other (–).
///
/// r = a / b
///
/// * `long`, `short` (m).
///
/// # Source
///
/// [`GEOMETRY`].
pub fn ratio_of_sides(long: f64, short: f64) -> f64 {
    long / short
}

/// [`ratio_of_sides`].
pub const RATIO_OF_SIDES: Formula = formula!(
    ratio_of_sides: "r = a / b", GEOMETRY,
    "r" "longer side over the other" NUMBER;
    long "a" "longer side" LENGTH,
    short "b" "shorter side" LENGTH,
);

/// Glass over a surface (–).
///
/// g = A s / O
///
/// * `door` (m2), `share` (–): of glass in it, `surface` (m2).
///
/// # Source
///
/// [`GEOMETRY`].
pub fn glass_share(door: f64, share: f64, surface: f64) -> f64 {
    door * share / surface
}

/// [`glass_share`].
pub const GLASS_SHARE: Formula = formula!(
    glass_share: "g = A s / O", GEOMETRY,
    "g" "glass over the surface of the firebox" NUMBER;
    door "A" "door" AREA,
    share "s" "share of glass in it" NUMBER,
    surface "O" "inner surface of the firebox" AREA,
);
