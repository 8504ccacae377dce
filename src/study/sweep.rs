//! A design with one input or several at many values.

use super::figures::Figures;
use super::variant::{Brief, Variant, put};
use crate::analysis::Failure;
use crate::design::Design;
use crate::design::field::{FieldId, Kind, Number, field};
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
    /// * `range`: that of the catalog which is usual where missing, in whole steps of the arrow
    ///   keys.
    pub fn new(id: FieldId, range: Option<RangeInclusive<f64>>, steps: u32) -> Self {
        let mut values: Vec<f64> = match &field(id).kind {
            Kind::Choice(choice) => (0..).take(choice.keys.len()).map(f64::from).collect(),
            Kind::Number(number) => match range {
                Some(range) => spread(number, &range, steps),
                None if number.quantity == Quantity::Count => {
                    spread(number, &number.usual, u32::MAX)
                }
                // In whole steps of the arrow keys, which for a temperature are not those of kelvin.
                None if number.quantity == Quantity::Temperature => {
                    spread(number, &number.usual, steps)
                }
                None => {
                    let values = spread(number, &number.usual, steps);
                    values.into_iter().map(|value| number.nearest(value)).collect()
                }
            },
        };
        values.dedup();
        Self { field: id, values }
    }

    fn set(&self, design: &mut Design, place: usize) -> Option<f64> {
        let value = *self.values.get(place)?;
        put(design, self.field, value);
        Some(value)
    }
}

/// So many values over a range; of whole numbers no more than there are.
fn spread(number: &Number, range: &RangeInclusive<f64>, steps: u32) -> Vec<f64> {
    let (from, to) = (*range.start(), *range.end());
    let whole = number.quantity == Quantity::Count;
    let spans = (1..MOST_WHOLE).find(|span| to - from <= f64::from(*span));
    let most = spans.map_or(MOST_WHOLE, |span| span + 1);
    let steps = if whole { steps.min(most) } else { steps }.max(2);
    let last = f64::from(steps - 1);
    let even = |step: u32| from + (to - from) * f64::from(step) / last;
    let round = |value: f64| if whole { value.round() } else { value };
    (0..steps).map(|step| round(even(step))).collect()
}

/// Most whole numbers of an axis.
const MOST_WHOLE: u32 = 50;

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
