//! What stands around a heater in views of the whole: walls, ceiling, with their distances.

use super::sheet::Sheet;
use super::{Axis, Extent, Grip, Point, Reach, Role, point};
use crate::design::field::FieldId;
use crate::rules::Place;
use crate::units::{Quantity, System, figure};

/// Longest distance that is drawn to scale in a picture (m).
const LONGEST: f64 = 1.0;
/// Thickness of a drawn wall (m): drawn, not designed.
pub(super) const THICKNESS: f64 = 0.08;

/// A distance from a face to something that can burn.
pub(super) struct Distance {
    /// Its input.
    pub field: FieldId,
    /// What it is measured from and to, for findings.
    pub place: Place,
    /// On the face, where the distance is dimensioned.
    pub from: Point,
    /// Away from the face: 1 or -1 along one axis.
    pub away: Point,
    /// The distance itself (m).
    pub length: f64,
    /// Ends of the wall across that direction (m).
    pub ends: (f64, f64),
}

/// How far off a distance is drawn (m).
pub(super) fn drawn(distance: f64, reach: Reach) -> f64 {
    match reach {
        Reach::Shortened => distance.min(LONGEST),
        Reach::True => distance,
    }
}

impl Distance {
    /// Adds wall, dimension and grip; whether it is drawn to scale.
    pub(super) fn add(&self, sheet: &mut Sheet, system: System) -> bool {
        let Self { from, away, .. } = self;
        let off = drawn(self.length, sheet.reach);
        let at = |by: f64| point(from.x + by * away.x, from.y + by * away.y);
        let (near, far) = (at(off), at(off + THICKNESS));
        let (low, high) = self.ends;
        let is_across = away.y.abs() < away.x.abs();
        let wall = if is_across {
            Extent::new(near.x.min(far.x), low, near.x.max(far.x), high)
        } else {
            Extent::new(low, near.y.min(far.y), high, near.y.max(far.y))
        };
        sheet.rectangle(Role::Combustible, Some(self.place), wall);
        let text = figure(self.length, Quantity::Size, system);
        let size = 0.6 * sheet.text_size;
        let step = if is_across { point(0.0, -size) } else { point(size, 0.0) };
        let ascends = away.x + away.y > 0.0;
        let (start, end) = if ascends { (*from, near) } else { (near, *from) };
        sheet.dimension(start, end, &text, step);
        let (axis, along) = if is_across { (Axis::Across, away.x) } else { (Axis::Up, away.y) };
        sheet.grips.push(Grip { field: self.field, at: near, axis, per_meter: along });
        self.length <= off
    }
}
