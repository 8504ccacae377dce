//! What each part weighs, where its middle lies, and what all of it presses on.
//!
//! Places are those of `analysis::structure::centers`.

use super::support::{Proposal, proposal};
use crate::analysis::structure::centers::Masonry;
use crate::analysis::structure::{Part, Structure};
use crate::design::Design;
use crate::design::building::Carrier;
use crate::physics::expansion::{edge_pressure, ground_pressure};

/// A part with its middle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weighed {
    /// The part.
    pub part: Part,
    /// Its mass (kg).
    pub mass: f64,
    /// Its center of mass: along, deep, high (m).
    pub center: [f64; 3],
}

/// What stands on the ground.
#[derive(Clone, Debug, PartialEq)]
pub struct Weights {
    /// The parts that have a mass.
    pub parts: Vec<Weighed>,
    /// Mass of all that stands on the support (kg).
    pub carried: f64,
    /// Its center of mass: along, deep, high (m).
    pub center: [f64; 3],
    /// Length and depth of the rectangle around all masonry (m).
    pub outline: [f64; 2],
    /// What the base slab presses on the ground below it, as a mean (Pa).
    pub bearing: f64,
    /// At the edge that bears most (Pa).
    pub edge: f64,
    /// What walls under the edges of that rectangle carry, as a mean (kg/m).
    pub per_wall: f64,
    /// And where they carry most, since the middle is not that of the rectangle (kg/m).
    pub most_per_wall: f64,
    /// A footing that would suit; none on framing and where none was found.
    pub footing: Option<Proposal>,
}

/// The most that walls under the edges of a rectangle (m, m) carry of a mass (kg) with its center at
/// a place in it (kg/m): a stiff slab on a line of walls, as [`edge_pressure`] on an area.
fn most_per_wall(mass: f64, [length, depth]: [f64; 2], [along, deep]: [f64; 2]) -> f64 {
    // Of the walls across and those along, over the square of their distance.
    let second = |side: f64, other: f64| other * side * side / 2.0 + side * side * side / 6.0;
    let more = |at: f64, side: f64, other: f64| {
        mass * (at - 0.5 * side).abs() * 0.5 * side / second(side, other)
    };
    mass / (2.0 * (length + depth)) + more(along, length, depth) + more(deep, depth, length)
}

/// What each part weighs and where, and what all of it presses on.
pub fn weights(design: &Design, structure: &Structure) -> Weights {
    let masonry = Masonry::new(design);
    let parts = structure.parts.iter().filter(|amount| 0.0 < amount.mass).map(|amount| {
        Weighed { part: amount.part, mass: amount.mass, center: masonry.center(amount.part) }
    });
    let Structure { carried, bearing, footprint, outline, center, .. } = *structure;
    let [length, depth] = outline;
    let [along, deep] = structure.off_middle(0.0);
    let [at_length, at_depth, _] = center;
    Weights {
        parts: parts.collect(),
        carried,
        center,
        outline,
        bearing: ground_pressure(carried, footprint),
        edge: edge_pressure(bearing, along, deep),
        per_wall: carried / (2.0 * (length + depth)),
        most_per_wall: most_per_wall(carried, outline, [at_length, at_depth]),
        footing: (design.support.carrier != Carrier::Framing)
            .then(|| proposal(design, structure))
            .flatten(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A square of walls of 1 m a side, 4 m in all: 100 kg in its middle are 25 kg/m. 0.1 m off it the
    /// moment is 10 kgm; the two walls across lie 0.5 m from the middle, 2 x 1 x 0.25 = 0.5 m3, the
    /// two along it make 2 / 12 = 0.1667 m3: 10 x 0.5 / 0.6667 = 7.5 kg/m more at the edge.
    #[test]
    fn walls_nearer_to_the_middle_carry_more_by_hand() {
        let most = |along: f64| most_per_wall(100.0, [1.0, 1.0], [along, 0.5]);
        assert!((most(0.5) - 25.0).abs() < 1e-12);
        assert!((most(0.6) - 32.5).abs() < 1e-9, "{}", most(0.6));
        assert!((most(0.4) - 32.5).abs() < 1e-9);
    }
}
