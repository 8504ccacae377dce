//! A design with one input or several at many values.

use super::figures::Figures;
use super::variant::{Brief, Variant};
use crate::analysis::Failure;
use crate::design::Design;
use crate::design::field::{FieldId, Kind, field};
use crate::units::Quantity;
use std::ops::RangeInclusive;

/// An input with the values that it takes.
#[derive(Clone, Debug, PartialEq)]
pub struct Axis {
    /// The input.
    pub field: FieldId,
    /// In the order in which they are tried: SI, or places in the list of a choice.
    pub values: Vec<f64>,
}

impl Axis {
    /// So many values over a range, its ends included. A whole number takes each once, a choice all
    /// that it has.
    ///
    /// * `range`: that of the catalog which is usual where missing.
    pub fn new(id: FieldId, range: Option<RangeInclusive<f64>>, steps: u32) -> Self {
        let mut values = match &field(id).kind {
            Kind::Choice(choice) => {
                (0..).take(choice.keys.len()).map(f64::from).collect::<Vec<_>>()
            }
            Kind::Number(number) => {
                let range = range.unwrap_or_else(|| number.usual.clone());
                let (from, to) = (*range.start(), *range.end());
                let last = f64::from(steps.max(2) - 1);
                let even = |step: u32| from + (to - from) * f64::from(step) / last;
                let whole = number.quantity == Quantity::Count;
                let round = |value: f64| if whole { value.round() } else { value };
                (0..steps.max(2)).map(|step| round(even(step))).collect()
            }
        };
        values.dedup();
        Self { field: id, values }
    }

    fn set(&self, design: &mut Design, place: usize) -> Option<f64> {
        let value = *self.values.get(place)?;
        match &field(self.field).kind {
            Kind::Number(number) => (number.set)(design, value),
            Kind::Choice(choice) => (choice.set)(design, place),
        }
        Some(value)
    }
}

/// One point of a sweep.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// Which one.
    pub index: usize,
    /// Value of each axis.
    pub values: Vec<f64>,
    /// What was found, or why nothing was.
    pub result: Result<Figures, Failure>,
}

/// All points, known beforehand so that they can be shared out; the last axis runs fastest.
#[derive(Clone, Debug)]
pub struct Sweep {
    design: Design,
    axes: Vec<Axis>,
}

impl Sweep {
    /// A sweep of a design.
    pub fn new(design: &Design, axes: Vec<Axis>) -> Self {
        Self { design: design.clone(), axes }
    }

    /// Number of points.
    pub fn len(&self) -> usize {
        self.axes.iter().map(|axis| axis.values.len()).product()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The design at a point, with the value of each axis; none beyond the last.
    pub fn design(&self, index: usize) -> Option<(Design, Vec<f64>)> {
        if self.len() <= index {
            return None;
        }
        let mut design = self.design.clone();
        let mut rest = index;
        let mut values = Vec::new();
        for axis in self.axes.iter().rev() {
            values.push(axis.set(&mut design, rest % axis.values.len())?);
            rest /= axis.values.len();
        }
        values.reverse();
        Some((design, values))
    }

    /// The axes.
    pub fn axes(&self) -> &[Axis] {
        &self.axes
    }

    /// A point in figures.
    pub fn variant(&self, point: &Point) -> Variant {
        let ids = self.axes.iter().map(|axis| axis.field);
        let brief = point.result.as_ref().ok().map(Brief::from);
        Variant { puts: ids.zip(point.values.iter().copied()).collect(), brief }
    }

    /// A point; none beyond the last.
    pub fn point(&self, index: usize) -> Option<Point> {
        let (design, values) = self.design(index)?;
        Some(Point { index, values, result: Figures::new(&design) })
    }
}
