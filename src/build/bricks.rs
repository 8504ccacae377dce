//! Bricks by volume: an estimate, uncut and without waste.

use crate::analysis::structure::{Part, Structure};
use crate::design::Design;
use crate::design::brick::Brick;

/// By how much a wall may differ from what its bricks make (m).
const FITS: f64 = 0.006;
/// Most bricks one behind the other.
const MOST_WYTHES: u8 = 4;

/// How bricks stand in a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bond {
    /// Lengthwise, the narrow face to be seen.
    Stretcher,
    /// On edge or flat: the broad face to be seen.
    Edge,
    /// Crosswise, the end to be seen.
    Header,
}

/// Bricks of a wall of a thickness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Laying {
    /// How they stand.
    pub bond: Bond,
    /// Bricks one behind the other.
    pub wythes: u8,
    /// Bricks of 1 m2 of wall (1/m2).
    pub rate: f64,
}

impl Bond {
    /// Face without joints (m, m) and what lies across the wall (m).
    const fn sides(self, brick: Brick) -> [f64; 3] {
        let size = brick.size;
        match self {
            Self::Stretcher => [size.length, size.height, size.width],
            Self::Edge => [size.length, size.width, size.height],
            Self::Header => [size.width, size.height, size.length],
        }
    }
}

/// How bricks make a wall of a thickness (m); none where they would have to be cut for it.
pub fn laying(brick: Brick, thickness: f64) -> Option<Laying> {
    let ways = [Bond::Stretcher, Bond::Edge, Bond::Header].into_iter().flat_map(|bond| {
        let [along, up, across] = bond.sides(brick);
        (1..=MOST_WYTHES).map(move |wythes| {
            let deep = f64::from(wythes) * (across + brick.joint) - brick.joint;
            let face = (along + brick.joint) * (up + brick.joint);
            let laying = Laying { bond, wythes, rate: f64::from(wythes) / face };
            ((deep - thickness).abs(), laying)
        })
    });
    let best = ways.min_by(|one, other| one.0.total_cmp(&other.0));
    best.filter(|(off, _)| *off <= FITS).map(|(_, laying)| laying)
}

/// Bricks and mortar of a wall.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Walled {
    /// Bricks, not rounded.
    pub bricks: f64,
    /// Mortar in the joints (m3).
    pub mortar: f64,
}

/// Bricks and mortar in a volume of wall (m3) of a thickness (m). Where bricks have to be cut for it,
/// the volume is taken as walls one brick thick.
pub fn amount(brick: Brick, volume: f64, thickness: f64) -> Walled {
    let size = brick.size;
    let (bricks, whole) = if let Some(laying) = laying(brick, thickness) {
        let area = volume / thickness;
        let [_, _, across] = laying.bond.sides(brick);
        let wythes = f64::from(laying.wythes);
        (area * laying.rate, area * (wythes * (across + brick.joint) - brick.joint))
    } else {
        let face = (size.length + brick.joint) * (size.height + brick.joint);
        (volume / (face * size.width), volume)
    };
    Walled { bricks, mortar: whole - bricks * brick.volume() }
}

/// Thickness of the walls of a part (m); 0 where it is a body.
pub fn thickness(design: &Design, part: Part) -> f64 {
    match part {
        Part::Firebox => design.firebox.wall_thickness,
        Part::Runs => design.shell.core_thickness,
        Part::Baffles => design.path.baffle_thickness,
        Part::Facing => design.shell.facing_thickness,
        Part::Cap => design.shell.cap_thickness,
        Part::Base => design.shell.base_thickness,
        Part::Fill | Part::Chimney => 0.0,
    }
}

/// Whether a part is laid of the core's bricks.
pub const fn is_core(part: Part) -> bool {
    matches!(part, Part::Firebox | Part::Runs | Part::Baffles | Part::Fill)
}

/// Slab over the firebox (m3), which the structure counts with its walls.
pub fn crown(design: &Design) -> f64 {
    let chamber = &design.firebox;
    let side = |inner: f64| inner + 2.0 * chamber.wall_thickness;
    side(chamber.width) * side(chamber.depth) * chamber.crown_thickness
}

/// Bricks and mortar of the core without its slabs.
pub fn core_amount(design: &Design, structure: &Structure, brick: Brick) -> Walled {
    let parts = structure.parts.iter().filter(|amount| is_core(amount.part));
    parts.fold(Walled::default(), |sum, part| {
        let slab = if part.part == Part::Firebox { crown(design) } else { 0.0 };
        let walled = amount(brick, part.volume - slab, thickness(design, part.part));
        Walled { bricks: sum.bricks + walled.bricks, mortar: sum.mortar + walled.mortar }
    })
}

/// Bricks of the core without its slabs, none where it is not of brick.
pub fn core(design: &Design, structure: &Structure) -> Option<f64> {
    let brick = design.shell.core()?;
    Some(core_amount(design, structure, brick).bricks.ceil())
}

/// Bricks of the facing, none where it is not of brick.
pub fn facing(design: &Design, structure: &Structure) -> Option<f64> {
    let brick = design.shell.facing()?;
    let volume = structure.parts.iter().find(|amount| amount.part == Part::Facing)?.volume;
    Some(amount(brick, volume, design.shell.facing_thickness).bricks.ceil())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::brick::BrickFormat;

    /// Walls of 1 m2 of firebrick with joints of 1/16 in: on its long side 4 1/2 in thick
    /// 1 / (9 1/16 x 2 9/16 in) = 66.7, on edge 1 / (9 1/16 x 4 9/16 in) = 37.5; with 1/8 in 64.7.
    /// A square foot of modular brick: 144 / (8 x 2 5/8) = 6.86. NF with 10 mm 49.4, 215 x 102.5 x
    /// 65 mm with 10 mm 59.3 a square meter, as estimators print them.
    #[test]
    fn a_wall_takes_the_bricks_of_the_estimators_tables() {
        let rate = |brick: Brick, thickness| laying(brick, thickness).unwrap().rate;
        let own = Design::demonstration().shell.own_brick;
        let of = |format: BrickFormat, joint| Brick { size: format.size(own), joint };
        assert!((rate(Brick::FIREBRICK, 0.1143) - 66.7).abs() < 0.05);
        assert!((rate(Brick::FIREBRICK, 0.0635) - 37.5).abs() < 0.05);
        assert!((rate(of(BrickFormat::Firebrick, 0.003_175), 0.1143) - 64.7).abs() < 0.05);
        let foot = 0.3048 * 0.3048;
        assert!((rate(Brick::MODULAR, 0.092) * foot - 6.86).abs() < 0.005);
        assert!((rate(of(BrickFormat::Normal, 0.010), 0.115) - 49.4).abs() < 0.05);
        assert!((rate(of(BrickFormat::British, 0.010), 0.1025) - 59.3).abs() < 0.05);
    }

    /// Mortar of 1000 bricks without waste, as estimators print it: modular brick 8.1 ft3, firebrick
    /// with joints of 1/16 in 1.9 ft3 and of 1/8 in 3.8 ft3.
    #[test]
    fn a_thousand_bricks_take_the_mortar_of_the_estimators_tables() {
        let of = |brick: Brick| {
            let walled = amount(brick, 10.0, brick.size.width);
            1000.0 * walled.mortar / walled.bricks / (0.3048 * 0.3048 * 0.3048)
        };
        let wide = Brick { joint: 0.003_175, ..Brick::FIREBRICK };
        for (brick, printed) in [(Brick::MODULAR, 8.1), (Brick::FIREBRICK, 1.9), (wide, 3.8)] {
            assert!((of(brick) - printed).abs() < 0.05, "{printed}: {}", of(brick));
        }
    }

    #[test]
    fn bricks_stand_as_the_thickness_of_the_wall_makes_them() {
        let brick = Brick::FIREBRICK;
        let ways =
            [(0.064, Bond::Edge, 1), (0.114, Bond::Stretcher, 1), (0.2286, Bond::Header, 1)];
        for (thickness, bond, wythes) in ways {
            let found = laying(brick, thickness).unwrap();
            assert_eq!((found.bond, found.wythes), (bond, wythes), "{thickness}");
        }
        assert_eq!(laying(brick, 0.10), None);
        // A wall of two bricks on edge takes twice those of one.
        let twice = laying(brick, 2.0 * 0.0635 + 0.0016).unwrap();
        assert!((twice.rate / laying(brick, 0.0635).unwrap().rate - 2.0).abs() < 1e-12);
    }
}
