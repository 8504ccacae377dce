//! Where the middle of each part lies.
//!
//! Lengths run from the left, as the section shows the heater; depths from the front; heights from
//! the underside of the base slab. Slots, cleanouts and short runs are left out of account.

use super::{Amount, Part};
use crate::analysis::facing::{Facing, Plan};
use crate::design::building::ChimneyCarrier;
use crate::design::{Design, Layout};

/// An upright block: where it begins and ends along, deep and high (m).
#[derive(Clone, Copy, Debug)]
struct Block([(f64, f64); 3]);

impl Block {
    fn volume(self) -> f64 {
        self.0.iter().map(|(low, high)| high - low).product()
    }

    fn center(self) -> [f64; 3] {
        self.0.map(|(low, high)| 0.5 * (low + high))
    }

    /// The same plan between two heights.
    fn between(self, low: f64, high: f64) -> Self {
        let Self([along, deep, _]) = self;
        Self([along, deep, (low, high)])
    }

    fn wider(self, by: f64) -> Self {
        let Self([along, deep, high]) = self;
        let wide = |(from, to): (f64, f64)| (from - by, to + by);
        Self([wide(along), wide(deep), high])
    }

    fn join(self, other: Self) -> Self {
        let mut joined = self.0;
        for (mine, theirs) in joined.iter_mut().zip(other.0) {
            *mine = (mine.0.min(theirs.0), mine.1.max(theirs.1));
        }
        Self(joined)
    }

    /// What both have in common; without volume where they are apart.
    fn shared(self, other: Self) -> Self {
        let mut shared = self.0;
        for (mine, theirs) in shared.iter_mut().zip(other.0) {
            let low = mine.0.max(theirs.0);
            *mine = (low, mine.1.min(theirs.1).max(low));
        }
        Self(shared)
    }
}

/// The center of blocks, each with its share: below zero what is cut out.
fn center(blocks: &[(Block, f64)]) -> [f64; 3] {
    let (mut whole, mut moment) = (0.0, [0.0; 3]);
    for (block, share) in blocks {
        let volume = share * block.volume();
        whole += volume;
        for (sum, middle) in moment.iter_mut().zip(block.center()) {
            *sum += volume * middle;
        }
    }
    moment.map(|sum| if whole.abs() < 1e-12 { 0.0 } else { sum / whole })
}

/// Where the blocks of the core stand; 0 along at the left inside of the firebox, 0 deep in its
/// middle, 0 high on its floor, as in the drawings.
struct Places {
    facing: Facing,
    firebox: Block,
    runs: Option<Block>,
    /// From the core that reaches farthest to the inner and to the outer face of the facing (m).
    skin: (f64, f64),
}

/// A block on a plan between two heights (m).
const fn upright(plan: Plan, heights: (f64, f64)) -> Block {
    Block([(plan.left, plan.right), (plan.front, plan.back), heights])
}

impl Places {
    fn new(design: &Design) -> Self {
        let shell = &design.shell;
        let facing = Facing::new(design);
        let firebox = upright(facing.firebox, (-facing.foot, facing.crown));
        let (bottom, top) = facing.heights;
        let floor = match design.path.layout {
            Layout::Above => bottom,
            Layout::Behind | Layout::Bench => -facing.foot,
        };
        let runs = facing.runs.map(|plan| upright(plan, (floor, top)));
        let skin = (shell.gap, shell.gap + shell.facing_thickness);
        Self { facing, firebox, runs, skin }
    }

    /// The rectangle around the outer faces of all facing, from its foot to the top of the core (m).
    fn outline(&self) -> Block {
        let (bodies, high) = (self.facing.shells.len(), self.firebox.0[2].0);
        let outsides = (0..bodies).filter_map(|body| {
            let top = self.facing.shells.get(body)?.top;
            Some(upright(self.facing.outside(body)?, (high, top)))
        });
        outsides.reduce(Block::join).unwrap_or(self.firebox)
    }

    /// What every body of facing goes around, wider on every side, between heights that follow from its
    /// top, with what two blocks share taken out once.
    fn bodies(&self, by: f64, heights: impl Fn(f64) -> (f64, f64)) -> Vec<(Block, f64)> {
        let mut blocks = Vec::new();
        for shell in &self.facing.shells {
            let block = |plan: &Plan| upright(plan.grown(by), heights(shell.top));
            blocks.extend(shell.around.iter().map(|plan| (block(plan), 1.0)));
            if let [one, other] = shell.around.as_slice() {
                blocks.push((block(one).shared(block(other)), -1.0));
            }
        }
        blocks
    }
}

/// The blocks that make a part.
fn blocks(design: &Design, places: &Places, part: Part) -> Vec<(Block, f64)> {
    let Places { firebox, runs, skin: (gap, skin), .. } = places;
    let chamber = &design.firebox;
    let wall = chamber.wall_thickness;
    let top = design.top_height();
    let cap = design.shell.cap_thickness;
    let [_, _, (foot, crown)] = firebox.0;
    match (part, runs) {
        (Part::Firebox, _) => {
            let inside = firebox.wider(-wall).between(0.0, chamber.height);
            vec![(*firebox, 1.0), (inside, -1.0)]
        }
        (Part::Runs | Part::Baffles, Some(runs)) => {
            // On the base their floor is solid.
            let [_, _, (low, high)] = runs.0;
            let inside = runs.wider(-design.shell.core_thickness).between(low.max(0.0), high);
            vec![(*runs, 1.0), (inside, if part == Part::Runs { -1.0 } else { 0.0 })]
        }
        (Part::Facing, _) => {
            let (outer, inner) = (
                places.bodies(*skin, |top| (foot, top)),
                places.bodies(*gap, |top| (foot, top)),
            );
            outer
                .into_iter()
                .chain(inner.into_iter().map(|(block, share)| (block, -share)))
                .collect()
        }
        (Part::Cap, _) => places.bodies(*skin, |top| (top, top + cap)),
        (Part::Fill, Some(runs)) => {
            let below = runs.between(foot, crown);
            vec![(below, 1.0), (below.shared(*firebox), -1.0)]
        }
        (Part::Base, _) => places.bodies(*skin, |_| (foot - design.shell.base_thickness, foot)),
        (Part::Chimney, on) => {
            let low = match design.support.chimney {
                ChimneyCarrier::Beside => 0.0,
                ChimneyCarrier::Heater => top,
            };
            vec![(on.unwrap_or(*firebox).between(low, design.chimney.mouth_height), 1.0)]
        }
        (Part::Runs | Part::Baffles | Part::Fill, None) => Vec::new(),
    }
}

/// The masonry of a design in space.
pub struct Masonry<'a> {
    design: &'a Design,
    places: Places,
    outline: Block,
}

impl<'a> Masonry<'a> {
    /// Where the parts of a design stand.
    pub fn new(design: &'a Design) -> Self {
        let places = Places::new(design);
        let outline = places.outline();
        Self { design, places, outline }
    }

    /// Length and depth of the rectangle around all masonry (m).
    pub fn outline(&self) -> [f64; 2] {
        let Block([along, deep, _]) = self.outline;
        [along.1 - along.0, deep.1 - deep.0]
    }

    /// The middle of a part: along, deep, high (m).
    pub fn center(&self, part: Part) -> [f64; 3] {
        let Block([along, deep, _]) = self.outline;
        let Block([_, _, (foot, _)]) = self.places.firebox;
        let origin = [along.0, deep.0, foot - self.design.shell.base_thickness];
        let mut center = center(&blocks(self.design, &self.places, part));
        center.iter_mut().zip(origin).for_each(|(middle, from)| *middle -= from);
        center
    }

    /// The common middle of parts: along, deep, high (m).
    pub fn common<'b>(&self, parts: impl Iterator<Item = &'b Amount>) -> [f64; 3] {
        let (mut mass, mut moment) = (0.0, [0.0; 3]);
        for amount in parts.filter(|amount| 0.0 < amount.mass) {
            mass += amount.mass;
            let center = self.center(amount.part);
            moment.iter_mut().zip(center).for_each(|(sum, at)| *sum += amount.mass * at);
        }
        moment.map(|sum| sum / mass)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_box_with_a_hole_has_its_center_by_hand() {
        // 2 x 1 x 1 less 1 x 1 x 1 at its right end: what is left is the left cube.
        let whole = Block([(0.0, 2.0), (0.0, 1.0), (0.0, 1.0)]);
        let hole = Block([(1.0, 2.0), (0.0, 1.0), (0.0, 1.0)]);
        let left = center(&[(whole, 1.0), (hole, -1.0)]);
        assert!(left.iter().all(|middle| (middle - 0.5).abs() < 1e-12));
        assert!(center(&[]).iter().all(|middle| middle.abs() < 1e-12));
        assert!((whole.shared(hole).volume() - 1.0).abs() < 1e-12);
        let apart = Block([(5.0, 6.0), (0.0, 1.0), (0.0, 1.0)]);
        assert!(whole.shared(apart).volume().abs() < 1e-12);
    }
}
