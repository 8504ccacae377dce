//! The flows at which a heater balances with its air fully open.

use super::conditions::Weather;
use super::draft::NaturalFlow;
use super::fire::Burn;
use super::{Case, Failure, state_at};
use crate::physics::root::{NoRoot, interpolated};

/// Range of excess air that is searched, below 1 for a fire that is short of air (–).
const SEARCHED: (f64, f64) = (0.2, 14.0);
/// Intervals of the search; the points between two of them are looked at where they may tell more.
const INTERVALS: u32 = 16;
/// By how much of its curvature over a pair of intervals a margin must keep away from zero at both
/// ends for the point between to be passed over: four times what it can bend toward zero.
const BEND: f64 = 0.5;
/// On the logarithm of the excess air.
const TOLERANCE: f64 = 5e-5;
/// Points on the way to a root; two or three are usual.
const MOST_STEPS: u32 = 40;

/// The weather in which a margin is meant.
#[derive(Clone, Copy)]
enum In {
    Stated,
    Other,
}

/// The logarithm of an excess air, with the margin that it has (Pa).
type Point = (f64, f64);

/// Finds every flow at which the heater balances with its air fully open, in the weather that the
/// design states and in another one, by a scan over the excess air and a root in each interval
/// whose ends differ in sign. One march of the scan serves both kinds of weather; what is found in
/// one does not depend on the other.
pub(super) fn natural_flows(
    case: Case<'_>,
    other: Weather,
) -> Result<[Vec<NaturalFlow>; 2], Failure> {
    let (low, high) = (libm::log(SEARCHED.0), libm::log(SEARCHED.1));
    let step = (high - low) / f64::from(INTERVALS);
    let at = (0..=INTERVALS).map(|index| low + step * f64::from(index)).collect();
    let mut scan = Scan { case, other, at, known: [None; INTERVALS as usize + 1] };
    Ok([scan.flows(In::Stated)?, scan.flows(In::Other)?])
}

/// The margins at points that stand equally far apart.
struct Scan<'a> {
    case: Case<'a>,
    other: Weather,
    at: Vec<f64>,
    known: [Option<[f64; 2]>; INTERVALS as usize + 1],
}

impl Scan<'_> {
    /// One of the points, reckoned when it is first asked for.
    fn point(&mut self, index: usize, weather: In) -> Result<Option<Point>, Failure> {
        let (Some(at), Some(known)) = (self.at.get(index), self.known.get_mut(index)) else {
            return Ok(None);
        };
        let [stated, other] = if let Some(margins) = *known {
            margins
        } else {
            let state = state_at(self.case, libm::exp(*at))?;
            let other = state.in_weather(self.case, self.other).1.margin();
            *known.insert([state.ledger.margin(), other])
        };
        Ok(Some(match weather {
            In::Stated => (*at, stated),
            In::Other => (*at, other),
        }))
    }

    /// Every other point of the range, and those between that may tell more.
    fn points(&mut self, weather: In) -> Result<Vec<Point>, Failure> {
        let mut every_other = Vec::with_capacity(self.at.len());
        for index in (0..self.at.len()).step_by(2) {
            every_other.extend(self.point(index, weather)?);
        }
        let mut points = Vec::with_capacity(self.at.len());
        for (index, point) in every_other.iter().enumerate() {
            points.push(*point);
            if may_cross(&every_other, index) {
                points.extend(self.point(2 * index + 1, weather)?);
            }
        }
        Ok(points)
    }

    /// The flows at which the margin is zero.
    fn flows(&mut self, weather: In) -> Result<Vec<NaturalFlow>, Failure> {
        let points = self.points(weather)?;
        let mut flows = Vec::new();
        for (index, (before, after)) in points.iter().zip(points.iter().skip(1)).enumerate() {
            if (before.1 < 0.0) == (after.1 < 0.0) {
                continue;
            }
            let around = points.iter().skip(index.saturating_sub(1)).take(4).copied().collect();
            let root = self.root(around, (*before, *after), weather)?;
            let burn = Burn::new(self.case.design, libm::exp(root));
            flows.push(NaturalFlow {
                gas_flow_kg_per_s: burn.gas_flow(),
                excess_air_ratio: burn.excess_air_ratio,
                stable: after.1 < before.1,
            });
        }
        Ok(flows)
    }

    /// The root between two points: where the polynomial through the points around has its own,
    /// until that stands still.
    fn root(
        &self,
        mut around: Vec<Point>,
        (mut before, mut after): (Point, Point),
        weather: In,
    ) -> Result<f64, Failure> {
        for _ in 0..MOST_STEPS {
            let (low, high) = (before.0, after.0);
            let next = interpolated(&around, (low, high), 0.01 * TOLERANCE);
            if (next - low).min(high - next) < TOLERANCE {
                return Ok(next);
            }
            let point = (next, self.margin(next, weather)?);
            if (point.1 < 0.0) == (before.1 < 0.0) {
                before = point;
            } else {
                after = point;
            }
            // The farthest one tells least.
            let far = |(at, _): &Point| (at - next).abs();
            let farthest = around.iter().map(far).fold(0.0, f64::max);
            around.retain(|each| far(each) < farthest);
            around.push(point);
        }
        Err(Failure::NaturalFlow(NoRoot::TooManySteps))
    }

    fn margin(&self, at: f64, weather: In) -> Result<f64, Failure> {
        let state = state_at(self.case, libm::exp(at))?;
        Ok(match weather {
            In::Stated => state.ledger.margin(),
            In::Other => state.in_weather(self.case, self.other).1.margin(),
        })
    }
}

/// Whether the margin may be on the other side of zero between a point and the next, as far as the
/// points around can tell.
fn may_cross(points: &[Point], index: usize) -> bool {
    let margin = |at: usize| points.get(at).map(|point| point.1);
    let bend = |middle: usize| {
        let before = margin(middle.checked_sub(1)?)?;
        Some(before - 2.0 * margin(middle)? + margin(middle + 1)?)
    };
    let (Some(here), Some(next)) = (margin(index), margin(index + 1)) else { return false };
    let bends = [bend(index), bend(index + 1)].into_iter().flatten();
    let most = bends.fold(0.0, |most: f64, bend| most.max(bend.abs()));
    (here < 0.0) == (next < 0.0) && here.abs().min(next.abs()) < BEND * most
}
