//! Seeking a value at which two things balance, while all else settles from sweep to sweep too.

/// Most by which a sweep changes the value.
const MOST_STRIDE: f64 = 0.9;
/// Fall of the imbalance with the value from which a secant is taken.
const LEAST_SLOPE: f64 = -0.2;
/// Sweeps on one side of the balance after which strides grow.
const PATIENCE: i32 = 8;
const MOST_DOUBLINGS: i32 = 16;
/// How often both bounds may turn out to be of the past.
const MOST_RENEWALS: u32 = 3;

/// A search for the zero of an imbalance that falls with a value and drifts from sweep to sweep:
/// for the flow that the draft drives, on logarithms of the flow and of draft over losses, and for
/// the share of the gas that takes the bleed slot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seeking {
    /// On value and imbalance.
    tolerance: f64,
    /// Highest value known to be too low, lowest known to be too high.
    floor: Option<f64>,
    ceiling: Option<f64>,
    /// Value and imbalance of the sweep before.
    before: Option<(f64, f64)>,
    /// Sweeps since the imbalance last changed its sign.
    one_sided: i32,
    renewals: u32,
}

impl Seeking {
    /// Nothing is known yet; the tolerance is one on value and imbalance.
    pub const fn new(tolerance: f64) -> Self {
        Self { tolerance, floor: None, ceiling: None, before: None, one_sided: 0, renewals: 0 }
    }

    /// The next value, and whether this one balances.
    ///
    /// Half of the imbalance is a safe step: losses grow with the square of a flow or less, and
    /// buoyancy alone drives a slow flow through a slot. Once two sweeps have told how the
    /// imbalance falls, its secant; between values of which one is too low and one too high, never
    /// outside them. Where the imbalance hardly falls, strides grow until it changes its sign.
    /// Bounds that close in on a value that does not balance are of earlier sweeps.
    pub fn next(&mut self, at: f64, imbalance: f64) -> (f64, bool) {
        if imbalance > 0.0 {
            self.floor = Some(at);
            self.ceiling = self.ceiling.filter(|ceiling| at < *ceiling);
        } else {
            self.ceiling = Some(at);
            self.floor = self.floor.filter(|floor| *floor < at);
        }
        let stride = self.stride(at, imbalance);
        let mut next = at + stride.clamp(-MOST_STRIDE, MOST_STRIDE);
        let mut there = imbalance.abs() < self.tolerance;
        if let (Some(floor), Some(ceiling)) = (self.floor, self.ceiling) {
            if !there && ceiling - floor < self.tolerance {
                there = self.renewals == MOST_RENEWALS;
                if !there {
                    *self = Self { renewals: self.renewals + 1, ..Self::new(self.tolerance) };
                }
            } else if !(floor..=ceiling).contains(&next) {
                next = 0.5 * (floor + ceiling);
            }
        }
        (next, there)
    }

    fn stride(&mut self, at: f64, imbalance: f64) -> f64 {
        let (value, then) = self.before.unwrap_or((at, imbalance));
        self.before = imbalance.is_finite().then_some((at, imbalance));
        self.one_sided = if then * imbalance > 0.0 { self.one_sided + 1 } else { 0 };
        let moved = at - value;
        let slope = if moved.abs() < 1e-9 { f64::NAN } else { (imbalance - then) / moved };
        let stride = if slope < LEAST_SLOPE { -imbalance / slope } else { 0.5 * imbalance };
        let over = (self.one_sided - PATIENCE).clamp(0, MOST_DOUBLINGS);
        stride * libm::exp2(f64::from(over))
    }
}
