//! The burn over time: kindling, flame, char.

use crate::design::{BurnShape, Fire};

/// Share of the burn in which the flame falls to the char's rate (–), common practice, no source.
const FALL: f64 = 0.15;
/// Share of the burn in which the last char dies down (–), common practice, no source.
const END: f64 = 0.05;

/// Rate of burning over the mean rate, as a curve whose integral over the burn is one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurnCurve {
    shape: BurnShape,
    /// Duration (s).
    duration: f64,
    /// Integral of the bare shape (–).
    integral: f64,
}

impl BurnCurve {
    /// The curve of a fire.
    pub fn new(fire: &Fire) -> Self {
        let BurnShape { kindling_fraction, char_start_fraction, char_rate_ratio } = fire.shape;
        let char = 1.0 - END - char_start_fraction - FALL;
        let integral = 0.5 * kindling_fraction
            + (char_start_fraction - kindling_fraction)
            + 0.5 * FALL * (1.0 + char_rate_ratio)
            + char_rate_ratio * (char + 0.5 * END);
        Self { shape: fire.shape, duration: fire.burn_duration, integral }
    }

    /// Rate over mean rate, at a time since lighting (s).
    pub fn at(&self, time: f64) -> f64 {
        let BurnShape { kindling_fraction, char_start_fraction, char_rate_ratio } = self.shape;
        let x = time / self.duration;
        let fallen = char_start_fraction + FALL;
        let shape = if !(0.0..1.0).contains(&x) {
            0.0
        } else if x < kindling_fraction {
            smooth(x / kindling_fraction)
        } else if x < char_start_fraction {
            1.0
        } else if x < fallen {
            1.0 - (1.0 - char_rate_ratio) * smooth((x - char_start_fraction) / FALL)
        } else if x < 1.0 - END {
            char_rate_ratio
        } else {
            char_rate_ratio * (1.0 - smooth((x - 1.0 + END) / END))
        };
        shape / self.integral
    }

    /// Times at which the curve changes its form (s), the end of the burn last.
    pub fn breaks(&self) -> [f64; 5] {
        let BurnShape { kindling_fraction, char_start_fraction, .. } = self.shape;
        [kindling_fraction, char_start_fraction, char_start_fraction + FALL, 1.0 - END, 1.0]
            .map(|share| share * self.duration)
    }
}

/// Smooth step from 0 to 1 with level ends.
fn smooth(u: f64) -> f64 {
    u * u * (3.0 - 2.0 * u)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;

    #[test]
    fn the_charge_burns_in_its_time() {
        let curve = BurnCurve::new(&Design::demonstration().fire);
        let steps = 20_000;
        let width = curve.duration / f64::from(steps);
        let sum: f64 = (0..steps).map(|i| curve.at((f64::from(i) + 0.5) * width)).sum();
        assert!((sum * width / curve.duration - 1.0).abs() < 1e-6);
    }

    #[test]
    fn the_curve_has_no_step() {
        let curve = BurnCurve::new(&Design::demonstration().fire);
        for time in curve.breaks() {
            assert!((curve.at(time - 1e-3) - curve.at(time + 1e-3)).abs() < 1e-4, "{time}");
        }
    }
}
