//! A start for the day that repeats: what is left of one firing from cold, summed up over all the
//! firings before. Were heat to flow in proportion to temperatures, that would be the day itself.

use super::SECONDS_PER_DAY;

/// Times for which a firing leaves something that counts (s); beyond, it fades as it did last.
const REMEMBERED: f64 = 4.0 * SECONDS_PER_DAY;
/// From here on a heater cools as a whole (s).
const EVEN: f64 = 0.5 * SECONDS_PER_DAY;

/// A heater that is hot already takes less of a fire than a cold one (–), as tried: a start need
/// not be exact.
const TAKEN: f64 = 0.75;

/// A time since lighting (s) and the nodes then (K).
pub type Point<'a> = (f64, &'a [f64]);

/// Sums up what a firing leaves in each node at the ends of the periods after it.
#[derive(Clone, Debug)]
pub struct Echoes<'a> {
    cold: &'a [f64],
    weights: &'a [f64],
    /// Times of those ends since lighting (s), and the length of a period (s).
    ends: Vec<f64>,
    period: f64,
    /// Sum of the rises above the cold state (K).
    sum: Vec<f64>,
    /// Heat that was left when the heater began to cool evenly (J), and when that was (s).
    even: Option<(f64, f64)>,
}

impl<'a> Echoes<'a> {
    /// Nothing is left yet.
    ///
    /// * `cold` (K), `weights` (J/K): nodes at the start from cold, their heat capacities.
    /// * `lit` (s): times of lighting in a period of a length (s).
    pub fn new(cold: &'a [f64], weights: &'a [f64], (lit, period): (&[f64], f64)) -> Self {
        let mut ends = Vec::new();
        for lit in lit {
            let mut end = period - lit;
            while end < REMEMBERED {
                ends.push(end);
                end += period;
            }
        }
        ends.sort_by(f64::total_cmp);
        Self { cold, weights, ends, period, sum: vec![0.0; cold.len()], even: None }
    }

    /// Adds what ends within a step: where it begins and where it ends.
    pub fn step(&mut self, (start, before): Point<'_>, (end, after): Point<'_>) {
        for at in self.ends.iter().filter(|at| start < **at && **at <= end) {
            let share = (at - start) / (end - start);
            let nodes = before.iter().zip(after).zip(self.cold).zip(&mut self.sum);
            for (((before, after), cold), sum) in nodes {
                *sum += before + share * (after - before) - cold;
            }
        }
        if self.even.is_none() && EVEN <= end {
            self.even = Some((self.heat(after), end));
        }
    }

    fn heat(&self, nodes: &[f64]) -> f64 {
        let rises = nodes.iter().zip(self.cold).zip(self.weights);
        rises.map(|((node, cold), weight)| weight * (node - cold)).sum()
    }

    /// The state at the end of a period after many, where the steps ended so.
    pub fn summed_up(self, (end, nodes): Point<'_>) -> Vec<f64> {
        let fading = self
            .even
            .map_or(0.0, |(heat, since)| libm::log(heat / self.heat(nodes)) / (end - since));
        // What comes after fades from the last state on, to the end of all days.
        let later: f64 = if fading > 0.0 && fading.is_finite() {
            let first = self.ends.iter().filter(|at| end < **at && **at <= end + self.period);
            let left: f64 = first.map(|at| libm::exp(fading * (end - at))).sum();
            left / (1.0 - libm::exp(-fading * self.period))
        } else {
            0.0
        };
        let parts = self.cold.iter().zip(&self.sum).zip(nodes);
        parts.map(|((cold, sum), node)| cold + TAKEN * (sum + later * (node - cold))).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A node that a firing heats by 8 K and that cools by half in a period: from period to period
    /// it keeps 8/2 + 8/4 + ... = 8 K, of which three quarters are told.
    #[test]
    fn what_fades_by_half_adds_up_to_as_much_again() {
        let period = 0.5 * SECONDS_PER_DAY;
        let rise = |time: f64| 8.0 * libm::exp2(-time / period);
        let (cold, weights) = ([290.0], [3.0]);
        let mut echoes = Echoes::new(&cold, &weights, (&[0.0], period));
        let mut end = 0.0;
        while end < 1.2 * SECONDS_PER_DAY {
            let start = end;
            end += 600.0;
            echoes.step((start, &[290.0 + rise(start)]), (end, &[290.0 + rise(end)]));
        }
        let start = echoes.summed_up((end, &[290.0 + rise(end)]));
        assert!((start[0] - 290.0 - 0.75 * 8.0).abs() < 1e-6, "{}", start[0]);
    }
}
