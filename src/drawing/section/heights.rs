//! Heights as they are drawn: what is long above the heater is drawn with breaks, so that the heater
//! is the largest thing in the picture.

use super::HOUSE_SLAB;
use crate::design::Design;

/// Longest distance from heater to ceiling, over the heater (–).
const TO_CEILING: f64 = 0.25;
/// And at least (m).
const TO_CEILING_AT_LEAST: f64 = 0.5;
/// Longest stretch above the ceiling without anything to see, over the heater (–).
const BEYOND: f64 = 0.1;
/// And at least (m).
const BEYOND_AT_LEAST: f64 = 0.24;
/// A stretch that is longer than its longest by less is not worth a break (–).
const WORTH: f64 = 1.25;

/// From heights above the floor of the firebox to heights in the drawing.
pub(super) struct Heights {
    /// Heights with their place in the drawing, rising (m).
    knots: Vec<(f64, f64)>,
    /// Where in the drawing something is left out (m).
    pub breaks: Vec<f64>,
}

impl Heights {
    pub(super) fn new(design: &Design) -> Self {
        let (top, mouth) = (design.top_height(), design.chimney.mouth_height);
        let mut heights = Self { knots: vec![(0.0, 0.0), (top, top)], breaks: Vec::new() };
        let ceiling = top + design.surroundings.above;
        let roof = mouth - design.chimney.outdoor_length;
        let seen = [ceiling, ceiling + HOUSE_SLAB, roof, mouth];
        let next = |below: f64| {
            let above = seen.into_iter().filter(|height| below < *height && *height <= mouth);
            above.min_by(f64::total_cmp)
        };
        let (mut below, mut longest) = (top, TO_CEILING_AT_LEAST.max(TO_CEILING * top));
        while let Some(height) = next(below) {
            heights.extend(height, longest);
            (below, longest) = (height, BEYOND_AT_LEAST.max(BEYOND * top));
        }
        heights
    }

    /// Every height as it is.
    pub(super) fn unbroken() -> Self {
        Self { knots: Vec::new(), breaks: Vec::new() }
    }

    fn extend(&mut self, height: f64, longest: f64) {
        let Some((below, drawn)) = self.knots.last().copied() else {
            return;
        };
        let mut gap = height - below;
        if WORTH * longest < gap {
            self.breaks.push(drawn + 0.5 * longest);
            gap = longest;
        }
        self.knots.push((height, drawn + gap));
    }

    /// Where a height is drawn (m).
    pub(super) fn drawn(&self, height: f64) -> f64 {
        let mut pairs = self.knots.iter().zip(self.knots.iter().skip(1));
        let around = pairs.find(|(_, high)| height <= high.0);
        around.map_or(height, |(low, high)| {
            let share = (height - low.0) / (high.0 - low.0).max(f64::MIN_POSITIVE);
            low.1 + share * (high.1 - low.1)
        })
    }
}
