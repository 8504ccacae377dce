//! How a wall conducts at its present temperatures: between nodes, through its gap, to the room.

use super::{Back, Layers, OUTER_EMISSIVITY};
use crate::physics::gap::across_gap;
use crate::physics::surface::emission_and_slope as emission;

/// Conductances at the present temperatures, for one step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Conductances {
    /// Between neighbors (W/m2K).
    pub(super) links: Vec<f64>,
    /// From the inner face to the first node (W/m2K).
    pub(super) inner: f64,
    /// From the last node to the outer face (W/m2K).
    pub(super) outer: f64,
    /// Resistance of both half nodes around a gap (m2K/W).
    pub(super) around: f64,
    /// Whether the masonry conducts as it does cold.
    cold: bool,
    /// From the last node to what is beyond (W/m2K), 0 for none.
    pub(super) out: f64,
    pub(super) ambient: f64,
    /// Outer face that meets the room, and the last node behind it (K); 0 before the first time.
    face: f64,
    node: f64,
}

impl Conductances {
    /// Heat that leaves by the outer face (W/m2 of inner face), gas apart.
    pub fn outflow(&self, temperatures: &[f64]) -> f64 {
        let last = temperatures.last().copied().unwrap_or(0.0);
        self.out * (last - self.ambient)
    }

    /// Temperature of an outer face that meets room, wall or film (K).
    pub fn outer_face(&self, temperatures: &[f64]) -> f64 {
        let last = temperatures.last().copied().unwrap_or(0.0);
        last - self.outflow(temperatures) / self.outer
    }

    /// Film on an outer face (W/m2K), behind which lies a node (K), with its area over that of
    /// the inner face; `emission` is what a face gives off and how that grows (W/m2, W/m2K).
    fn film(
        &mut self,
        (node, ratio): (f64, f64),
        ambient: f64,
        emission: impl Fn(f64) -> (f64, f64),
    ) -> f64 {
        self.node = node;
        let conductance = self.outer / ratio;
        let mut face = if self.face > 0.0 { self.face } else { node };
        let (mut flux, mut steepness) = (0.0, 0.0);
        for _ in 0..MOST_FILM_ROUNDS {
            let (here, slope) = emission(face);
            steepness = slope;
            let step = (conductance * (node - face) - here) / (conductance + slope);
            face += step;
            flux = here + slope * step;
            if step.abs() < FACE_TOLERANCE {
                break;
            }
        }
        self.face = face;
        let excess = face - ambient;
        if excess.abs() < 1e-3 { steepness } else { flux / excess }
    }
}

impl Layers {
    /// Whether it conducts alike for a whole step: nothing of it follows its faces at once.
    pub const fn is_firm(&self) -> bool {
        self.gap.is_none() && !matches!(self.back, Back::Room { .. } | Back::Wall { .. })
    }

    /// Lets the masonry conduct as it does at node temperatures. For a step these are the ones to
    /// which the step before leads: conductivity follows them slowly.
    pub fn conduct(&self, temperatures: &[f64], now: &mut Conductances) {
        let cold = temperatures.iter().all(|t| *t <= self.constant_to);
        if cold && now.cold {
            return;
        }
        now.cold = cold;
        now.links.resize(self.halves.len().saturating_sub(1), 0.0);
        let mut links = now.links.iter_mut().enumerate();
        // Resistance from the last node so far to its outer border.
        let mut behind = None;
        for (half, temperature) in self.halves.iter().zip(temperatures) {
            let resistance = half.resistance(*temperature);
            let Some(before) = behind.replace(resistance) else {
                now.inner = 1.0 / resistance;
                continue;
            };
            let Some((index, link)) = links.next() else { break };
            if self.gap.is_some_and(|gap| gap.link == index) {
                now.around = before + resistance;
            } else {
                *link = 1.0 / (before + resistance);
            }
        }
        now.outer = behind.map_or(f64::INFINITY, |behind| 1.0 / behind);
    }

    /// Brings gap and outer film to node temperatures; whether they differ from what they were.
    pub fn conductances(
        &self,
        temperatures: &[f64],
        air: &impl Fn(f64) -> f64,
        now: &mut Conductances,
    ) -> bool {
        let first = now.outer <= 0.0;
        if first {
            self.conduct(temperatures, now);
        }
        let gap = self.through_gap(temperatures, air, now);
        let back = self.to_back(temperatures, now);
        first || gap || back
    }

    fn through_gap(
        &self,
        temperatures: &[f64],
        air: &impl Fn(f64) -> f64,
        now: &mut Conductances,
    ) -> bool {
        let Some(gap) = &self.gap else { return false };
        let [Some(one), Some(other)] =
            [gap.link, gap.link + 1].map(|node| temperatures.get(node))
        else {
            return false;
        };
        let mean = 0.5 * (one + other);
        let next = gap.conductance((mean, one - other), air(mean), now.around);
        now.links.get_mut(gap.link).is_some_and(|link| replaced(link, next, one - other))
    }

    fn to_back(&self, temperatures: &[f64], now: &mut Conductances) -> bool {
        let last = temperatures.last().copied().unwrap_or(0.0);
        let (film, ambient) = match self.back {
            Back::Adiabatic | Back::Gas => return false,
            Back::Film { conductance, ambient } => (conductance, ambient),
            Back::Room { .. } | Back::Wall { .. } if (last - now.node).abs() < NODE_MOVED => {
                return false;
            }
            Back::Room { ratio, ambient, film: factor } => {
                let emission = |face| {
                    let (flux, slope) = emission(OUTER_EMISSIVITY, face, ambient);
                    (factor * flux, factor * slope)
                };
                (ratio * now.film((last, ratio), ambient, emission), ambient)
            }
            Back::Wall { ratio, behind } => {
                let flux = |face| across_gap(&behind, face).1;
                let emission = |face| (flux(face), flux(face + 0.5) - flux(face - 0.5));
                (ratio * now.film((last, ratio), behind.room, emission), behind.room)
            }
        };
        now.ambient = ambient;
        replaced(&mut now.out, 1.0 / (1.0 / now.outer + 1.0 / film), last - ambient)
    }
}

/// Conductances that differ by less than this share are the same (–): by as much as a face of
/// 60 °C in a room of 20 °C differs when it moves by 0.01 K.
const SAME_CONDUCTANCE: f64 = 1e-4;
/// And those whose flux differs by less than this (W/m2): near the temperature of the room a film
/// changes at once with the face, but carries nothing.
const SAME_FLUX: f64 = 0.02;
/// A film to the room is reckoned anew when the node behind the face has moved by this much (K).
const NODE_MOVED: f64 = 1e-3;
const MOST_FILM_ROUNDS: u32 = 12;
/// Last step of Newton's method for an outer face (K); its error goes with the square of it.
const FACE_TOLERANCE: f64 = 0.05;

/// Puts a new conductance in the place of one that differs from it, at a difference of
/// temperature (K); 0 stands for not known.
fn replaced(conductance: &mut f64, next: f64, difference: f64) -> bool {
    let change = (next - *conductance).abs();
    let differs = change > SAME_CONDUCTANCE * next && change * difference.abs() > SAME_FLUX;
    let replaced = differs || *conductance <= 0.0;
    if replaced {
        *conductance = next;
    }
    replaced
}
