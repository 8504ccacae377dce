//! By what the section is changed.

use super::Scene;
use crate::design::field::FieldId;
use crate::design::{Layout, RunOverride};
use crate::drawing::{Axis, Grip, Point, point};

/// The inputs that the section changes, in the order in which one reads it.
pub const GRIPS: [FieldId; 8] = [
    FieldId::MouthHeight,
    FieldId::AboveDistance,
    FieldId::RunCount,
    FieldId::RunLength,
    FieldId::RunHeight,
    FieldId::RunWidth,
    FieldId::FireboxHeight,
    FieldId::FireboxWidth,
];

/// From the middle of a run to the grip of its height, over the length (–).
const ASIDE: f64 = 0.3;

impl Scene<'_> {
    /// Of a height between two others, at the upper end of its dimension.
    pub(super) fn grip_up(
        &mut self,
        field: Option<FieldId>,
        at: Point,
        (low, high): (f64, f64),
    ) {
        let heights = &self.frame.heights;
        let drawn = heights.drawn(high) - heights.drawn(low);
        let per_meter = if drawn > 0.0 { (high - low) / drawn } else { 1.0 };
        let grip = |field| Grip { field, at, axis: Axis::Up, per_meter };
        self.sheet.grips.extend(field.map(grip));
    }

    /// Of a width that grows to the right.
    pub(super) fn grip_across(&mut self, field: Option<FieldId>, at: Point) {
        let grip = |field| Grip { field, at, axis: Axis::Across, per_meter: 1.0 };
        self.sheet.grips.extend(field.map(grip));
    }

    /// Of the runs, on their edges, where they move as far as the pointer does.
    pub(super) fn grips(&mut self) {
        let path = &self.design.path;
        let (width, height, baffle) = (path.run_width, path.run_height, path.baffle_thickness);
        let own = |index: usize| path.overrides.get(index).copied().unwrap_or_default();
        let outer = self.frame.outer();
        let cells: Vec<_> = self.frame.cells.iter().copied().enumerate().collect();
        let shared = |value: fn(&RunOverride) -> Option<f64>| {
            cells
                .iter()
                .filter(move |(index, _)| {
                    path.oven_index() != Some(*index) && value(&own(*index)).is_none()
                })
                .map(|(_, cell)| *cell)
        };
        let mut grips = Vec::new();
        if path.layout == Layout::Bench {
            let at = |x: f64, y: f64| point(x, y);
            let run = shared(|own| own.width).next().map(|cell| cell.extent);
            grips.extend(run.map(|run| {
                (FieldId::RunWidth, Axis::Across, at(run.high.x, 0.5 * run.high.y), 1.0)
            }));
            let more = 1.0 / (width + baffle);
            let side = at(outer.high.x, 0.5 * outer.high.y);
            grips.push((FieldId::RunCount, Axis::Across, side, more));
        } else {
            let level = |cell: &super::Cell| cell.extent.low.y;
            let middle = self.frame.inner.middle().y;
            let long = shared(|own| own.length)
                .min_by(|a, b| {
                    let far = |cell| (level(cell) - middle).abs();
                    far(a).total_cmp(&far(b))
                })
                .map(|cell| cell.extent);
            grips.extend(long.map(|run| {
                let end = point(run.high.x, run.middle().y);
                (FieldId::RunLength, Axis::Across, end, 1.0)
            }));
            let top = point(outer.middle().x, self.frame.top);
            grips.push((FieldId::RunCount, Axis::Up, top, 1.0 / (height + baffle)));
        }
        let lowest =
            shared(|own| own.height).min_by(|a, b| a.extent.low.y.total_cmp(&b.extent.low.y));
        grips.extend(lowest.map(|cell| {
            let run = cell.extent;
            let aside = if path.layout == Layout::Bench { 0.0 } else { ASIDE };
            let x = run.middle().x - cell.along * aside * run.width();
            (FieldId::RunHeight, Axis::Up, point(x, run.high.y), 1.0)
        }));
        self.sheet.grips.extend(grips.into_iter().map(|(field, axis, at, per_meter)| Grip {
            field,
            at,
            axis,
            per_meter,
        }));
    }
}
