//! Openings of the firebox whose section is designed and whose place is not: bleed slot, bypass, air
//! duct, and the way to runs that do not stand on it. They are placed where the wall is free, and
//! as wide as their section asks for in whole courses.

use super::{Builder, Channel, Fit, Hole, Opening};
use crate::courses::lattice::{Rect, Region, Way, steps};
use crate::design::building::AirSupply;
use crate::design::{Layout, Run};

/// From the floor of the firebox up to the lowest inlet of air at least (m).
///
/// # Source
///
/// [`crate::sources::EN_15544_AIR_INLET`].
const AIR_SILL: f64 = 0.05;
/// What openings side by side take of a wall between them, over what they leave, and how high one is
/// over the wall at most (–).
const LARGEST: (f64, f64) = (0.6, 0.7);
/// Height by which openings grow in a wall that is not of brick (m): drawn, not designed.
const CAST: f64 = 0.05;
/// What stays of a wall at either side of the way to the runs (m): the bearing of a lintel.
const PIER: f64 = 0.10;
/// Share of the height of a run over which it must meet the firebox to be reached from it (–).
const MEETS: f64 = 0.5;

/// A wall of the firebox other than that of the door.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Face {
    Left,
    Right,
    Back,
}

impl Face {
    const fn through(self) -> Way {
        match self {
            Self::Left | Self::Right => Way::Along,
            Self::Back => Way::Deep,
        }
    }
}

/// An opening that is to be placed.
struct Wanted {
    opening: Opening,
    /// Its section (m2).
    area: f64,
    /// Where the wall is free, which of so many openings in it this is, from 1, and of how many.
    place: Option<(Face, [u8; 2])>,
    /// Whether it lies at the top of the firebox, or low.
    is_high: bool,
}

impl Builder<'_> {
    /// All of them, in the wall of the firebox and what lies before it.
    pub(super) fn slots(&self) -> Vec<Hole> {
        let slots = self.wanted().into_iter().filter_map(|wanted| self.slot(&wanted));
        slots.chain(self.to_runs()).collect()
    }

    /// Those for which there is no room.
    pub(super) fn without_room(&self) -> impl Iterator<Item = Opening> {
        let wanted = self.wanted().into_iter();
        wanted.filter(|wanted| self.slot(wanted).is_none()).map(|wanted| wanted.opening)
    }

    /// Slot and bypass in the free wall nearest to the connector, the duct in another where there is
    /// one; side by side where they share one, so that none stands on another.
    fn wanted(&self) -> Vec<Wanted> {
        let path = &self.design.path;
        let free = self.free_faces();
        let (near, far) = (free.first().copied(), free.last().copied());
        let is_ducted = self.design.site.air_supply == AirSupply::Duct;
        let air = if is_ducted { self.design.firebox.inlet_area } else { 0.0 };
        let all = [
            (Opening::BleedSlot, path.bleed_area, near, true),
            (Opening::Bypass, path.bypass_area, near, true),
            (Opening::Air, air, far, false),
        ];
        let all: Vec<_> = all.into_iter().filter(|(_, area, ..)| *area > 0.0).collect();
        let mut wanted = Vec::with_capacity(all.len());
        for (index, (opening, area, face, is_high)) in all.iter().copied().enumerate() {
            let shares =
                |(_, _, other, _): &&(Opening, f64, Option<Face>, bool)| *other == face;
            let count = |among: usize| {
                u8::try_from(all.iter().take(among).filter(shares).count()).unwrap_or(u8::MAX)
            };
            let place = face.map(|face| (face, [count(index + 1), count(all.len())]));
            wanted.push(Wanted { opening, area, place, is_high });
        }
        wanted
    }

    /// An opening about as high as it is wide in whole courses, or higher where the wall is short.
    fn slot(&self, wanted: &Wanted) -> Option<Hole> {
        let Wanted { opening, area, place, is_high } = *wanted;
        let (face, [number, count]) = place?;
        let parts = f64::from(count) + 1.0;
        let widest = match opening {
            Opening::WayToRuns => f64::from(self.long(face) - 2 * steps(PIER)),
            _ => LARGEST.0 / parts * f64::from(self.long(face)),
        };
        let section = square_steps(area);
        let ends = self.ends();
        let (fixed, others): (i32, Vec<i32>) = if is_high {
            (ends.last().copied()?, ends)
        } else {
            let sill = ends.iter().copied().find(|end| steps(AIR_SILL) <= *end)?;
            (sill, ends.into_iter().filter(|end| sill < *end).collect())
        };
        let tall = |end: &i32| (fixed - end).abs();
        let height = f64::from(steps(self.design.firebox.height));
        let fits = |end: &i32| {
            let tall = f64::from(tall(end));
            0.0 < tall && tall <= LARGEST.1 * height && rounded_up(section) <= widest * tall
        };
        let side = rounded_up(section).sqrt();
        let off = |end: &i32| (f64::from(tall(end)) - side).abs();
        let found = others.into_iter().filter(fits).min_by(|a, b| off(a).total_cmp(&off(b)))?;
        let (bottom, top) = (fixed.min(found), fixed.max(found));
        let share = f64::from(number) / parts;
        Some(Hole {
            opening,
            rect: self.through(face, section, share, top - bottom),
            bottom,
            top,
            fit: Fit::Around,
            through: face.through(),
            area: Some(section),
        })
    }

    /// Where courses of the walls of the firebox end, from its floor up.
    fn ends(&self) -> Vec<i32> {
        let (kit, height) = (self.kit, steps(self.design.firebox.height));
        if kit.is_brick {
            let rises = kit.rises(height, kit.bed(self.wall)).into_iter();
            let ends = rises.map(|(start, size)| kit.joint + start + size);
            std::iter::once(0).chain(ends).collect()
        } else {
            let step = steps(CAST).max(1);
            let from_top = (0..height / step).map(|count| height - count * step);
            let mut ends: Vec<i32> = from_top.chain([0]).collect();
            ends.sort_unstable();
            ends
        }
    }

    /// Inner length of a wall of the firebox.
    const fn long(&self, face: Face) -> i32 {
        match face {
            Face::Left | Face::Right => self.chamber.depth(),
            Face::Back => self.chamber.width(),
        }
    }

    /// Those that go through a region.
    pub(super) fn slots_in(&self, region: &Region) -> Vec<Hole> {
        let mut slots = self.slots();
        slots.retain(|hole| !region.within(hole.rect).is_empty());
        slots
    }

    /// Plan of an opening in a wall from the firebox to the outer face, with its middle at a share of
    /// the wall.
    fn through(&self, face: Face, section: i64, share: f64, tall: i32) -> Rect {
        let chamber = self.chamber;
        let (gap, facing) = self.skin();
        let outline = match (self.layout(), self.stack) {
            (Layout::Above, Some(stack)) => stack.join(self.block),
            _ => self.block,
        };
        let outer = outline.grown(gap + facing);
        let at = |low: i32, high: i32| {
            let wide = section / i64::from(tall.max(1)) + 1;
            let wide = i32::try_from(wide).unwrap_or(high - low);
            let middle = low + whole(share * f64::from(high - low));
            let from = (middle - wide / 2).max(low);
            (from, (from + wide).min(high))
        };
        match face {
            Face::Left => {
                let (front, back) = at(chamber.front, chamber.back);
                Rect::new(outer.left, front, chamber.left, back)
            }
            Face::Right => {
                let (front, back) = at(chamber.front, chamber.back);
                Rect::new(chamber.right, front, outer.right, back)
            }
            Face::Back => {
                let (left, right) = at(chamber.left, chamber.right);
                Rect::new(left, chamber.back, right, outer.back)
            }
        }
    }

    /// The faces of the firebox before which nothing else stands, that nearest to the connector first.
    fn free_faces(&self) -> Vec<Face> {
        let to_right = self.channels.last().is_none_or(|last| last.place.along > 0.0);
        let all = if to_right {
            [Face::Right, Face::Back, Face::Left]
        } else {
            [Face::Left, Face::Back, Face::Right]
        };
        all.into_iter().filter(|face| self.is_free(*face)).collect()
    }

    fn is_free(&self, face: Face) -> bool {
        let Some(stack) = self.stack else {
            return true;
        };
        let block = self.block;
        // Thick walls of runs behind reach around the firebox.
        let is_behind = self.chamber.back <= stack.front;
        match (self.layout(), face) {
            (Layout::Above, Face::Left) => block.left <= stack.left,
            (Layout::Above, Face::Right) => stack.right <= block.right,
            (Layout::Above, Face::Back) => stack.back <= block.back,
            (Layout::Behind, Face::Left) => is_behind || block.left <= stack.left,
            (Layout::Behind, Face::Right) => is_behind || stack.right <= block.right,
            (Layout::Behind, Face::Back) | (Layout::Bench, Face::Right) => false,
            (Layout::Bench, Face::Left | Face::Back) => true,
        }
    }

    /// The first run with its sizes.
    pub(super) fn first_run(&self) -> Option<(Channel, Run)> {
        self.channels.first().copied().zip(self.sizes.first().copied())
    }

    /// The way from the firebox to runs behind it, where both have heights in common, as large as the
    /// section of the run, as far as the wall lets it be; to those of a bench from the top of the firebox,
    /// where the gas is computed to leave it.
    pub(super) fn to_runs(&self) -> Option<Hole> {
        let (first, run) = self.first_run()?;
        match self.layout() {
            Layout::Above => None,
            Layout::Behind => self.to_runs_behind(first, run),
            Layout::Bench => self.slot(&Wanted {
                opening: Opening::WayToRuns,
                area: run.width * run.height,
                place: Some((Face::Right, [1, 1])),
                is_high: true,
            }),
        }
    }

    fn to_runs_behind(&self, first: Channel, run: Run) -> Option<Hole> {
        // Whole courses of the firebox that end where the run does at the latest.
        let within = |end: &i32| (first.bottom.max(0)..=first.top).contains(end);
        let ends: Vec<i32> = self.ends().into_iter().filter(within).collect();
        let (bottom, top) = ends.first().copied().zip(ends.last().copied())?;
        let tall = top - bottom;
        if f64::from(tall) < MEETS * f64::from(first.top - first.bottom) {
            return None;
        }
        let section = square_steps(run.width * run.height) / i64::from(tall.max(1));
        let wide = i32::try_from(section).ok()?;
        let (chamber, pier) = (self.chamber, steps(PIER));
        let left = chamber.left.max(first.rect.left) + pier;
        let right = chamber.right.min(first.rect.right) - pier;
        // Where the run begins.
        let left = if first.place.along > 0.0 { left } else { (right - wide).max(left) };
        let rect = Rect::new(left, chamber.back, (left + wide).min(right), first.rect.front);
        let of = (Opening::WayToRuns, Way::Deep);
        (!rect.is_empty()).then(|| Hole::of_sides(of, rect, (bottom, top), Fit::Around))
    }
}

#[expect(clippy::cast_possible_truncation, reason = "an opening is far below 1 m2")]
fn square_steps(area: f64) -> i64 {
    let side = f64::from(steps(1.0));
    (area * side * side).ceil() as i64
}

#[expect(clippy::cast_possible_truncation, reason = "within a heater")]
fn whole(steps: f64) -> i32 {
    steps.round() as i32
}

#[expect(clippy::cast_precision_loss, reason = "far below 2^53")]
fn rounded_up(square_steps: i64) -> f64 {
    square_steps as f64
}
