//! What the placed pieces weigh and how many there are, beside the estimate by volume.

use super::lattice::{meters, steps};
use super::{Course, Kind, Part, Piece, Plans};
use crate::analysis::structure::{Part as Estimated, Structure};
use crate::design::Design;
use crate::design::brick::Brick;

/// Density of mortar of clay or cement that has set (kg/m3), 1800 to 2000.
///
/// # Source
///
/// [`crate::sources::MORTAR_WASTE`].
pub const MORTAR_DENSITY: f64 = 1900.0;

/// What a part is laid of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tally {
    /// The part.
    pub part: Part,
    /// Bricks that are laid whole.
    pub whole: usize,
    /// Pieces of brick that are cut.
    pub cut: usize,
    /// Bricks that this takes: two pieces come from one where both are at most half as long.
    pub bricks: usize,
    /// Slabs.
    pub slabs: usize,
    /// Lintels.
    pub lintels: usize,
    /// Stones, or cast pieces, as sketched.
    pub blocks: usize,
    /// Ties between facing and core.
    pub ties: usize,
    /// Volume of the pieces (m3).
    pub pieces: f64,
    /// Of them what is brick (m3).
    pub brick: f64,
    /// And what is slab (m3).
    pub slab: f64,
    /// Volume of joints and beds (m3).
    pub mortar: f64,
    /// Its mass (kg).
    pub mortar_mass: f64,
    /// Mass of pieces and mortar (kg).
    pub mass: f64,
    /// Volume of the estimate (m3).
    pub estimated: f64,
    /// Mass of the estimate, which takes mortar for brick (kg).
    pub estimated_mass: f64,
    /// What the mortar makes of the difference (kg).
    pub by_mortar: f64,
    /// What other volume makes of it (kg): openings, walls as thick as bricks.
    pub by_volume: f64,
}

/// Pieces cut alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cut {
    /// The part.
    pub part: Part,
    /// What they are.
    pub kind: Kind,
    /// Length, width and height in steps.
    pub size: [i32; 3],
    /// How many.
    pub count: usize,
}

/// What all of it is laid of, part by part.
pub fn tallies(design: &Design, structure: &Structure, plans: &Plans) -> Vec<Tally> {
    let parts = Part::ALL.into_iter();
    let parts = parts.filter(|part| plans.courses.iter().any(|course| course.part == *part));
    parts.map(|part| tally(design, structure, plans, part)).collect()
}

fn tally(design: &Design, structure: &Structure, plans: &Plans, part: Part) -> Tally {
    let courses = || plans.courses.iter().filter(|course| course.part == part);
    let all = || courses().flat_map(|course| &course.pieces);
    let count = |kind: Kind| all().filter(|piece| piece.kind == kind).count();
    let facing = part == Part::Facing;
    let brick = if facing { plans.bricks.facing } else { plans.bricks.core };
    let material =
        if facing { design.shell.facing_material } else { design.shell.core_material };
    let density = material.properties().density;
    let cubic = meters(1) * meters(1) * meters(1);
    let volume_of = |is_meant: &dyn Fn(Kind) -> bool| {
        let of = |course: &Course| {
            let meant = course.pieces.iter().filter(|piece| is_meant(piece.kind));
            meant.map(|piece| volume(piece, course.height)).sum::<f64>()
        };
        courses().map(of).sum::<f64>() * cubic
    };
    let pieces = volume_of(&|_| true);
    let whole: f64 = courses()
        .map(|course| area(course.region.area()) * f64::from(course.top() - course.bottom))
        .sum::<f64>()
        * cubic;
    let mortar = whole - pieces;
    let mass = pieces * density + mortar * MORTAR_DENSITY;
    let amounts =
        structure.parts.iter().filter(|amount| estimated_in(amount.part) == Some(part));
    let (estimated, estimated_mass) =
        amounts.fold((0.0, 0.0), |sum, amount| (sum.0 + amount.volume, sum.1 + amount.mass));
    let is_cut = |piece: &&Piece| piece.is_cut;
    Tally {
        part,
        whole: count(Kind::Brick) - all().filter(is_cut).count(),
        cut: all().filter(is_cut).count(),
        bricks: brick.map_or(0, |brick| bricks(all(), brick)),
        slabs: count(Kind::Slab),
        lintels: count(Kind::Lintel),
        blocks: count(Kind::Block),
        ties: courses().map(|course| course.ties.len()).sum(),
        pieces,
        brick: volume_of(&|kind| kind == Kind::Brick),
        slab: volume_of(&|kind| kind == Kind::Slab),
        mortar,
        mortar_mass: mortar * MORTAR_DENSITY,
        mass,
        estimated,
        estimated_mass,
        by_mortar: mortar * (MORTAR_DENSITY - density),
        by_volume: whole * density - estimated_mass,
    }
}

#[expect(clippy::cast_precision_loss, reason = "far below 2^53")]
fn area(square_steps: i64) -> f64 {
    square_steps as f64
}

fn volume(piece: &Piece, height: i32) -> f64 {
    let holes: i64 = piece.holes.iter().map(|hole| hole.area()).sum();
    area(piece.rect.area() - holes) * f64::from(height)
}

/// Bricks for pieces: one each, but for those that leave more than half a brick.
fn bricks<'a>(pieces: impl Iterator<Item = &'a Piece>, brick: Brick) -> usize {
    let half = (steps(brick.size.length) - steps(brick.joint)) / 2;
    let (small, large): (Vec<_>, Vec<_>) = pieces
        .filter(|piece| piece.kind == Kind::Brick)
        .partition(|piece| piece.size.first().is_some_and(|length| *length <= half));
    large.len() + small.len().div_ceil(2)
}

const fn estimated_in(part: Estimated) -> Option<Part> {
    match part {
        Estimated::Firebox => Some(Part::Firebox),
        Estimated::Runs | Estimated::Baffles => Some(Part::Runs),
        Estimated::Fill => Some(Part::Fill),
        Estimated::Facing => Some(Part::Facing),
        Estimated::Cap => Some(Part::Cap),
        Estimated::Base | Estimated::Chimney => None,
    }
}

/// What is cut or made to size, those of a part together, the most first.
pub fn cuts(plans: &Plans) -> Vec<Cut> {
    let mut cuts: Vec<Cut> = Vec::new();
    for course in &plans.courses {
        let made = course
            .pieces
            .iter()
            .filter(|piece| piece.is_cut || matches!(piece.kind, Kind::Slab | Kind::Lintel));
        for piece in made {
            let same = cuts.iter_mut().find(|cut| {
                (cut.part, cut.kind, cut.size) == (course.part, piece.kind, piece.size)
            });
            match same {
                Some(cut) => cut.count += 1,
                None => cuts.push(Cut {
                    part: course.part,
                    kind: piece.kind,
                    size: piece.size,
                    count: 1,
                }),
            }
        }
    }
    cuts.sort_by_key(|cut| (cut.part, cut.kind, usize::MAX - cut.count, cut.size));
    cuts
}
