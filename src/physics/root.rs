//! Roots of a continuous function of one variable.

/// A search that did not come to an end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoRoot {
    /// The two ends do not lie on different sides of zero.
    #[error("the function has the same sign at both ends")]
    NotBracketed,
    /// The cap on iterations was reached.
    #[error("no root within the allowed number of steps")]
    TooManySteps,
}

const MOST_STEPS: u32 = 80;

/// Root between two ends at which the function has different signs.
///
/// Bisection joined with inverse quadratic interpolation where that is safe.
///
/// * `low`, `high`: the bracket with its function values.
/// * `tolerance`: on the variable, absolute.
///
/// # Errors
///
/// [`NoRoot`] when the ends do not bracket a root, or after 80 steps.
///
/// # Source
///
/// Chandrupatla, Adv. Eng. Software 28 (1997) 145-149 (from memory).
pub fn bracketed(
    low: (f64, f64),
    high: (f64, f64),
    tolerance: f64,
    mut function: impl FnMut(f64) -> f64,
) -> Result<f64, NoRoot> {
    let ((mut a, mut fa), (mut b, mut fb)) = (high, low);
    if fa.is_nan() || fb.is_nan() || fa * fb > 0.0 {
        return Err(NoRoot::NotBracketed);
    }
    let mut share = 0.5;
    for _ in 0..MOST_STEPS {
        let x = a + share * (b - a);
        let fx = function(x);
        let (c, fc);
        if (fx > 0.0) == (fa > 0.0) {
            (c, fc) = (a, fa);
        } else {
            (c, fc) = (b, fb);
            (b, fb) = (a, fa);
        }
        (a, fa) = (x, fx);
        let (best, f_best) = if fa.abs() < fb.abs() { (a, fa) } else { (b, fb) };
        let relative = tolerance / (b - a).abs();
        if relative > 0.5 || f_best.abs() < f64::MIN_POSITIVE {
            return Ok(best);
        }
        let xi = (a - b) / (c - b);
        let phi = (fa - fb) / (fc - fb);
        share = if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
            fa / (fb - fa) * fc / (fb - fc)
                + (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        } else {
            0.5
        };
        share = share.clamp(relative, 1.0 - relative);
    }
    Err(NoRoot::TooManySteps)
}

const MOST_NEWTON_STEPS: u32 = 12;

/// Root by Newton's method; none where it leaves the bracket or does not settle.
///
/// * `tolerance`: on the last step; what remains goes with the square of it.
/// * `function`: value and slope.
///
/// # Source
///
/// Newton's method.
pub fn newton(
    start: f64,
    (low, high): (f64, f64),
    tolerance: f64,
    mut function: impl FnMut(f64) -> (f64, f64),
) -> Option<f64> {
    let mut x = start;
    for _ in 0..MOST_NEWTON_STEPS {
        let (value, slope) = function(x);
        let step = -value / slope;
        x += step;
        // A step that is not a number leaves it too.
        if !(low..=high).contains(&x) {
            return None;
        }
        if step.abs() < tolerance {
            return Some(x);
        }
    }
    None
}

/// Where the polynomial through a few points of a function has its root within a bracket; the
/// middle of the bracket where it has none there.
///
/// * `points`: variables with function values, all variables different.
/// * `tolerance`: on the variable, absolute.
///
/// # Source
///
/// Lagrange's interpolation.
pub fn interpolated(points: &[(f64, f64)], (low, high): (f64, f64), tolerance: f64) -> f64 {
    let polynomial = |x: f64| -> f64 {
        let terms = points.iter().enumerate().map(|(index, (at, value))| {
            let others = points.iter().enumerate().filter(|(other, _)| *other != index);
            others.fold(*value, |term, (_, (other, _))| term * (x - other) / (at - other))
        });
        terms.sum()
    };
    let ends = ((low, polynomial(low)), (high, polynomial(high)));
    bracketed(ends.0, ends.1, tolerance, polynomial).unwrap_or(0.5 * (low + high))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn newton_finds_the_root_of_a_cubic_or_says_that_it_left() {
        let cubic = |x: f64| (x * x * x - 2.0, 3.0 * x * x);
        let root = newton(1.0, (0.0, 2.0), 1e-4, cubic).unwrap();
        assert!((root - libm::cbrt(2.0)).abs() < 1e-8);
        assert_eq!(newton(0.1, (0.0, 2.0), 1e-4, cubic), None);
        assert_eq!(newton(1.0, (0.0, 2.0), 1e-4, |_| (1.0, 0.0)), None);
    }

    #[test]
    fn four_points_give_the_root_of_a_cubic() {
        let points = [-1.0, 0.5, 1.0, 2.0].map(|x: f64| (x, x * x * x - 2.0));
        let root = interpolated(&points, (1.0, 2.0), 1e-12);
        assert!((root - libm::cbrt(2.0)).abs() < 1e-11);
        // No root there.
        assert!((interpolated(&points, (0.0, 1.0), 1e-12) - 0.5).abs() < 1e-12);
    }

    #[test]
    fn finds_the_root_of_a_cubic() {
        let cubic = |x: f64| x * x * x - 2.0;
        let root = bracketed((0.0, -2.0), (2.0, 6.0), 1e-12, cubic).unwrap();
        assert!((root - libm::cbrt(2.0)).abs() < 1e-11);
    }

    #[test]
    fn says_when_there_is_no_bracket() {
        assert_eq!(
            bracketed((0.0, 1.0), (1.0, f64::NAN), 1e-9, |x| x),
            Err(NoRoot::NotBracketed)
        );
    }
}
