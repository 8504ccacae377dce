//! The ground below a heater, and a footing that would suit it. An engineer decides.

use crate::analysis::structure::Structure;
use crate::design::Design;
use crate::design::building::{Carrier, Soil};
use crate::design::material::CONCRETE;
use crate::physics::expansion::soil_pressure;

/// North America, thickness of a footing: 12 in (m).
pub const FOOTING_THICKNESS: f64 = 0.3048;
/// North America, by how much it is wider: 6 in (m).
pub const FOOTING_PROJECTION: f64 = 0.152;
/// North America, underside below grade where there is no frost: 12 in (m).
pub const FOOTING_DEPTH: f64 = 0.3048;

const POUND_PER_SQUARE_FOOT: f64 = 47.880_26;
/// What soil bears of which nothing is known: the least of the table (Pa).
const LEAST_BEARING: f64 = 1500.0 * POUND_PER_SQUARE_FOOT;

/// What a soil bears (Pa).
///
/// # Source
///
/// [`crate::sources::IRC_R401_SOIL`].
pub const fn bearing(soil: Soil) -> Option<f64> {
    let pounds_per_square_foot = match soil {
        Soil::NotStated => return None,
        Soil::Bedrock => 12_000.0,
        Soil::SoftRock => 4000.0,
        Soil::Gravel => 3000.0,
        Soil::Sand => 2000.0,
        Soil::Clay => 1500.0,
    };
    Some(pounds_per_square_foot * POUND_PER_SQUARE_FOOT)
}

/// A footing of plain concrete that would suit a heater.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Proposal {
    /// Sides (m).
    pub sides: [f64; 2],
    /// By how much it is wider on every side (m).
    pub projection: f64,
    /// Thickness (m).
    pub thickness: f64,
    /// Underside below grade at least (m).
    pub depth: f64,
    /// Its own mass (kg).
    pub mass: f64,
    /// What both press on the soil (Pa).
    pub soil: f64,
    /// What the soil bears (Pa).
    pub bears: f64,
}

/// Widest projection that is tried (m).
const WIDEST: f64 = 1.5;
/// Steps in which it is built (m).
const STEP: f64 = 0.01;

/// The smallest footing under the rectangle around a heater that presses no more on the soil than it
/// bears, at the edge that bears most. None where a wide one would not do either, or where nothing
/// stands on a footing.
pub fn proposal(design: &Design, structure: &Structure) -> Option<Proposal> {
    let support = &design.support;
    if support.carrier == Carrier::Framing {
        return None;
    }
    let bears = bearing(support.soil).unwrap_or(LEAST_BEARING);
    let try_one = |step: u32| {
        let projection = FOOTING_PROJECTION.max(f64::from(step) * STEP);
        // A plain footing juts out no farther than it is thick.
        let thickness = FOOTING_THICKNESS.max(projection);
        let sides = structure.outline.map(|side| side + 2.0 * projection);
        let area = sides.iter().product::<f64>();
        let mass = area * thickness * CONCRETE.density;
        let [along, deep] = structure.off_middle(projection);
        let soil = soil_pressure(structure.carried, along, deep, mass, area);
        let depth = support.frost_depth.max(FOOTING_DEPTH);
        Proposal { sides, projection, thickness, depth, mass, soil, bears }
    };
    let steps = (0_u32..).take_while(|step| f64::from(*step) * STEP <= WIDEST);
    steps.map(try_one).find(|footing| footing.soil <= footing.bears)
}
