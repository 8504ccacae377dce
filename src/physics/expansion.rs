//! Masonry that grows when it gets hot, and presses on the ground.

use super::GRAVITY;
use super::formula::{Formula, formula};
use crate::sources::{EDGE_PRESSURE, EXPANSION, GEOMETRY, WEIGHT};

/// Growth of a length by a rise of temperature (m).
///
/// dL = alpha L dT
///
/// * `coefficient` (1/K): linear expansion, taken as constant.
/// * `length` (m), `rise` (K).
///
/// # Source
///
/// [`crate::sources::EXPANSION`].
pub fn thermal_growth(coefficient: f64, length: f64, rise: f64) -> f64 {
    coefficient * length * rise
}

/// [`thermal_growth`].
pub const THERMAL_GROWTH: Formula = formula!(
    thermal_growth: "dL = alpha L dT", EXPANSION,
    "dL" "growth" LENGTH;
    coefficient "alpha" "linear expansion" EXPANSION,
    length "L" "length when cold" LENGTH,
    rise "dT" "rise of the temperature" DIFFERENCE,
);

/// Mass of a part (kg).
///
/// M = V rho
///
/// * `volume` (m3), `density` (kg/m3).
///
/// # Source
///
/// Definition of density.
pub fn mass(volume: f64, density: f64) -> f64 {
    volume * density
}

/// [`mass`].
pub const MASS: Formula = formula!(
    mass: "M = V rho", GEOMETRY,
    "M" "mass" MASS;
    volume "V" "volume" VOLUME,
    density "rho" "density" DENSITY,
);

/// What a mass presses on level ground (Pa).
///
/// p = 9.80665 M / A
///
/// * `mass` (kg), `area` (m2).
///
/// # Source
///
/// [`WEIGHT`].
pub fn ground_pressure(mass: f64, area: f64) -> f64 {
    mass * GRAVITY / area
}

/// What a mass off the middle presses on the ground at the edge that bears most (Pa).
///
/// p = p_m (1 + 6 e_l / l + 6 e_d / d)
///
/// * `mean` (Pa); `along`, `deep` (–): distance of the mass from the middle of a rectangle over its
///   side. Exact while the sum of both is at most 1/6, above which one edge lifts; too low then.
///
/// # Source
///
/// [`EDGE_PRESSURE`].
pub fn edge_pressure(mean: f64, along: f64, deep: f64) -> f64 {
    mean * (1.0 + 6.0 * along + 6.0 * deep)
}

/// What a footing presses on the soil at the edge that bears most (Pa).
///
/// p = 9.80665 (M (1 + 6 a + 6 b) + m) / A
///
/// * `carried` (kg): what stands on it, with its mass `along` and `deep` off the middle over the
///   sides of the footing (–), as in [`edge_pressure`].
/// * `footing` (kg): its own mass, in its middle; `area` (m2): the ground below it.
///
/// # Source
///
/// [`EDGE_PRESSURE`].
pub fn soil_pressure(carried: f64, along: f64, deep: f64, footing: f64, area: f64) -> f64 {
    edge_pressure(ground_pressure(carried, area), along, deep) + ground_pressure(footing, area)
}

/// [`soil_pressure`].
pub const SOIL_PRESSURE: Formula = formula!(
    soil_pressure: "p = 9.80665 (M (1 + 6 a + 6 b) + m) / A", EDGE_PRESSURE,
    "p" "pressure on the soil at the edge" LOAD;
    carried "M" "mass on the footing" MASS,
    along "a" "off the middle, over the length" NUMBER,
    deep "b" "off the middle, over the depth" NUMBER,
    footing "m" "mass of the footing" MASS,
    area "A" "ground" AREA,
);

/// [`ground_pressure`].
pub const GROUND_PRESSURE: Formula = formula!(
    ground_pressure: "p = 9.80665 M / A", WEIGHT,
    "p" "pressure on the ground" LOAD;
    mass "M" "mass" MASS,
    area "A" "ground" AREA,
);
