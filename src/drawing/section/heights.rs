//! Heights as they are drawn: a chimney much taller than the heater is drawn with breaks, so that the
//! heater stays large.

use super::HOUSE_SLAB;
use crate::design::Design;

/// Chimney over heater from which it is broken (–).
const TALL: f64 = 4.0;
/// Longest stretch without anything to see, over the heater (–).
const LONGEST: f64 = 0.67;
/// And at least (m).
const SHORTEST: f64 = 0.8;

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
        let longest =
            if mouth <= TALL * top { f64::INFINITY } else { SHORTEST.max(LONGEST * top) };
        let ceiling = top + design.surroundings.above;
        let roof = mouth - design.chimney.outdoor_length;
        let mut seen = [ceiling, ceiling + HOUSE_SLAB, roof, mouth];
        seen.sort_by(f64::total_cmp);
        for height in seen.into_iter().filter(|height| top < *height && *height <= mouth) {
            heights.extend(height, longest);
        }
        heights
    }

    fn extend(&mut self, height: f64, longest: f64) {
        let Some((below, drawn)) = self.knots.last().copied() else {
            return;
        };
        let gap = height - below;
        if longest < gap {
            self.breaks.push(drawn + 0.5 * longest);
        }
        self.knots.push((height, drawn + gap.min(longest)));
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
