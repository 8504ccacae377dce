//! Bricks by volume: an estimate, uncut and without waste.

use crate::analysis::structure::{Part, Structure};
use crate::design::Design;
use crate::design::material::Material;

/// A brick with its joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Format {
    /// Along the course (m).
    pub length: f64,
    /// Across the wall (m).
    pub depth: f64,
    /// Of a course without its joint (m).
    pub height: f64,
    /// Between bricks of a course, and between courses (m).
    pub joint: f64,
}

impl Format {
    /// Straight firebrick, 9 x 4 1/2 x 2 1/2 in with joints of 1/16 in.
    ///
    /// # Source
    ///
    /// [`crate::sources::BRICK_FORMATS`].
    pub const FIREBRICK: Self =
        Self { length: 0.2286, depth: 0.1143, height: 0.0635, joint: 0.0015875 };
    /// Modular clay brick, 7 5/8 x 3 5/8 x 2 1/4 in with joints of 3/8 in.
    ///
    /// # Source
    ///
    /// [`crate::sources::BRICK_FORMATS`].
    pub const MODULAR: Self =
        Self { length: 0.193675, depth: 0.092075, height: 0.05715, joint: 0.009525 };

    /// That in which a material is laid; none where it is cast or hewn.
    pub const fn of(material: Material) -> Option<Self> {
        match material {
            Material::Fireclay | Material::HighDutyFireclay => Some(Self::FIREBRICK),
            Material::CommonBrick => Some(Self::MODULAR),
            _ => None,
        }
    }

    /// Bricks in a volume of walls (m3) one brick deep.
    pub fn count(self, volume: f64) -> f64 {
        let face = (self.length + self.joint) * (self.height + self.joint);
        (volume / (face * self.depth)).ceil()
    }
}

/// Bricks of the core with cap and fill, none where it is not of brick.
pub fn core(design: &Design, structure: &Structure) -> Option<f64> {
    let volume =
        volume(structure, |part| !matches!(part, Part::Facing | Part::Base | Part::Chimney));
    Format::of(design.shell.core_material).map(|format| format.count(volume))
}

/// Bricks of the facing, none where it is not of brick.
pub fn facing(design: &Design, structure: &Structure) -> Option<f64> {
    let volume = volume(structure, |part| part == Part::Facing);
    Format::of(design.shell.facing_material).map(|format| format.count(volume))
}

fn volume(structure: &Structure, counts: impl Fn(Part) -> bool) -> f64 {
    let parts = structure.parts.iter().filter(|amount| counts(amount.part));
    parts.map(|amount| amount.volume).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A wall of 1 m2 of firebrick, 4 1/2 in thick: 1 / (9 1/16 x 2 9/16 in) = 66.7. A square foot
    /// of modular brick: 144 / (8 x 2 5/8) = 6.86.
    #[test]
    fn a_wall_takes_the_bricks_of_the_estimators_tables() {
        let many = |format: Format, area: f64| format.count(1000.0 * area * format.depth);
        assert!((many(Format::FIREBRICK, 1.0) / 1000.0 - 66.7).abs() < 0.05);
        assert!((many(Format::MODULAR, 0.3048 * 0.3048) / 1000.0 - 6.86).abs() < 0.005);
    }
}
