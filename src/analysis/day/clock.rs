//! Steps of time: fine where the fire changes, growing while the heater cools.

use super::burn::BurnCurve;

/// First step after lighting (s).
const FIRST: f64 = 30.0;
/// Longest step while the fire is kindled, and while it burns (s).
const KINDLING: f64 = 180.0;
const BURNING: f64 = 300.0;
/// Longest step while the last char dies down: the thin sheet of the connector follows at once.
const DYING: f64 = 90.0;
/// First and longest step after the fire (s).
const FIRST_AFTER: f64 = 20.0;
const COOLING: f64 = 1800.0;
/// Each step is at most this much longer than the one before (–).
const GROWTH: f64 = 1.4;

/// One step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Step {
    /// Where it begins, since the first lighting (s).
    pub start: f64,
    /// Its length (s).
    pub length: f64,
    /// Time since the last lighting (s).
    pub since_lit: f64,
}

impl Step {
    /// Both halves of it.
    pub fn halves(&self) -> [Self; 2] {
        let length = 0.5 * self.length;
        let first = Self { length, ..*self };
        [
            first,
            Self { start: self.start + length, since_lit: self.since_lit + length, ..first },
        ]
    }
}

/// Steps of a time with firings at given hours.
///
/// * `lit` (s): times of lighting, rising, the first at 0.
/// * `end` (s): end of the time.
/// * `refinement`: steps are shorter by this factor.
pub fn steps(curve: &BurnCurve, lit: &[f64], end: f64, refinement: f64) -> Vec<Step> {
    let mut steps = Vec::new();
    for (index, start) in lit.iter().enumerate() {
        let next = lit.get(index + 1).copied().unwrap_or(end);
        let mut at = 0.0;
        let [kindled, char, fallen, dying, out] = curve.breaks();
        let phases = [
            (kindled, FIRST, KINDLING),
            (char, BURNING, BURNING),
            (fallen, BURNING, BURNING),
            (dying, BURNING, BURNING),
            (out, DYING, DYING),
        ];
        for (border, first, longest) in phases {
            fill(&mut steps, (*start, at, border), (first, longest), refinement);
            at = border;
        }
        fill(&mut steps, (*start, at, next - start), (FIRST_AFTER, COOLING), refinement);
    }
    steps
}

/// Steps without fire, each of the longest length.
pub fn cooling(start: f64, since_lit: f64, end: f64) -> Vec<Step> {
    let mut steps = Vec::new();
    let lit = start - since_lit;
    fill(&mut steps, (lit, since_lit, end - lit), (COOLING, COOLING), 1.0);
    steps
}

/// Fills the time between two borders with growing steps, scaled to end on the border.
fn fill(
    steps: &mut Vec<Step>,
    (lit, from, to): (f64, f64, f64),
    (first, longest): (f64, f64),
    refinement: f64,
) {
    let span = to - from;
    if span <= 0.0 {
        return;
    }
    // The growth shrinks with the steps, so that twice the steps resolve all twice as well.
    let growth = libm::pow(GROWTH, 1.0 / refinement);
    let mut lengths = Vec::new();
    let mut sum = 0.0;
    let mut length = first / refinement;
    while sum < span {
        lengths.push(length);
        sum += length;
        length = (length * growth).min(longest / refinement);
    }
    let scale = span / sum;
    let mut since_lit = from;
    for length in lengths {
        let length = length * scale;
        steps.push(Step { start: lit + since_lit, length, since_lit });
        since_lit += length;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;

    #[test]
    fn steps_fill_the_time_without_a_gap_and_stop_at_the_breaks_of_the_burn() {
        let curve = BurnCurve::new(&Design::demonstration().fire);
        let steps = steps(&curve, &[0.0, 20_000.0], 86_400.0, 1.0);
        let mut at = 0.0;
        for step in &steps {
            assert!((step.start - at).abs() < 1e-6);
            at += step.length;
        }
        assert!((at - 86_400.0).abs() < 1e-6);
        for time in curve.breaks() {
            assert!(steps.iter().any(|step| (step.since_lit - time).abs() < 1e-6), "{time}");
        }
    }
}
