//! The state that repeats: a fixed point of the map from one period to the next.

use crate::analysis::Failure;
use std::collections::VecDeque;

/// Earlier rounds that a new guess draws on.
const DEPTH: usize = 6;
const MOST_ROUNDS: u32 = 60;
/// Rounds after which single entries may change more, by the greater factor, if their mean changes
/// by less than the smaller one: the draft of a heater that cools may stall a step sooner or later
/// from period to period, for the chimney's wall alone to tell.
const ROUNDS_OF_ALL: u32 = 25;
const LOOSER: f64 = 20.0;
const STRICTER: f64 = 0.2;

/// How images and changes of a map differed from round to round: how one of them answers what the
/// other guesses. What was learned of a map serves for another one much like it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Learned {
    rounds: VecDeque<Differences>,
}

#[derive(Clone, Debug, PartialEq)]
struct Differences {
    image: Vec<f64>,
    change: Vec<f64>,
}

impl Learned {
    /// Takes the difference of a round to the one before.
    fn take(&mut self, round: &Round, before: &Round) {
        if self.rounds.len() == DEPTH {
            self.rounds.pop_front();
        }
        let difference = |one: &[f64], other: &[f64]| -> Vec<f64> {
            one.iter().zip(other).map(|(a, b)| a - b).collect()
        };
        self.rounds.push_back(Differences {
            image: difference(&round.image, &before.image),
            change: difference(&round.change, &before.change),
        });
    }

    /// The image less the mix of differences whose changes cancel that of the round best.
    fn guess(&self, round: &Round, weights: &[f64]) -> Vec<f64> {
        let inner = |one: &[f64], other: &[f64]| -> f64 {
            one.iter().zip(other).zip(weights).map(|((a, b), w)| a * b * w).sum()
        };
        let with = |row: &Differences| -> Vec<f64> {
            self.rounds.iter().map(|column| inner(&row.change, &column.change)).collect()
        };
        let mut matrix: Vec<Vec<f64>> = self.rounds.iter().map(with).collect();
        // A trace of the diagonal keeps rounds that say the same from blowing up.
        for (index, row) in matrix.iter_mut().enumerate() {
            if let Some(diagonal) = row.get_mut(index) {
                *diagonal *= 1.0 + 1e-12;
            }
        }
        let right = self.rounds.iter().map(|row| inner(&row.change, &round.change)).collect();
        let shares = solved(matrix, right);
        let mut guess = round.image.clone();
        for (share, differences) in shares.iter().zip(&self.rounds) {
            for (guess, difference) in guess.iter_mut().zip(&differences.image) {
                *guess -= share * difference;
            }
        }
        guess
    }
}

/// What a map made of a guess, and by how much that differs.
struct Round {
    image: Vec<f64>,
    change: Vec<f64>,
}

/// Finds a state that a map leaves alone, which is the last that the map saw; how often it did.
///
/// Anderson acceleration: the next guess mixes the images of the last rounds so that their
/// changes, in the norm of the weights, cancel as well as they can. A heater's few slow modes are
/// found in a few rounds, where repeating the days would take a week of them; in two or three where
/// they are known from a heater much like it.
///
/// * `weights`: of each entry in the norm.
/// * `tolerance`: largest change of any entry over a period; after 25 rounds their
///   mean change may count instead.
/// * `most_in_all`: largest change of all entries together, each times its weight: a heavy heater
///   hides much heat in small changes.
/// * `learned`: of a map like this one, and of this one in the end.
///
/// # Errors
///
/// [`Failure::NotPeriodic`] after 60 rounds, or what the map fails with.
///
/// # Source
///
/// D. G. Anderson, J. ACM 12 (1965) 547 (from memory).
pub fn fixed_point(
    start: Vec<f64>,
    weights: &[f64],
    (tolerance, most_in_all): (f64, f64),
    learned: &mut Learned,
    mut map: impl FnMut(&[f64]) -> Result<Vec<f64>, Failure>,
) -> Result<u32, Failure> {
    let mut guess = start;
    let mut before: Option<Round> = None;
    for count in 1..=MOST_ROUNDS {
        let image = map(&guess)?;
        let change: Vec<f64> = image.iter().zip(&guess).map(|(a, b)| a - b).collect();
        let most = change.iter().fold(0.0, |most: f64, each| most.max(each.abs()));
        let mean = mean_change(&change, weights);
        let all =
            ROUNDS_OF_ALL < count && mean < STRICTER * tolerance && most < LOOSER * tolerance;
        let together: f64 =
            change.iter().zip(weights).map(|(each, weight)| each * weight).sum();
        if together.abs() < most_in_all && (most < tolerance || all) {
            return Ok(count);
        }
        let round = Round { image, change };
        if let Some(before) = &before {
            learned.take(&round, before);
        }
        guess = learned.guess(&round, weights);
        before = Some(round);
    }
    Err(Failure::NotPeriodic)
}

/// Mean change of the entries by their weights.
fn mean_change(change: &[f64], weights: &[f64]) -> f64 {
    let sum: f64 =
        change.iter().zip(weights).map(|(change, weight)| change.abs() * weight).sum();
    sum / weights.iter().sum::<f64>()
}

/// Solves a small symmetric system by elimination with pivots.
fn solved(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Vec<f64> {
    let size = right.len();
    for column in 0..size {
        let entry = |row: &Vec<f64>| row.get(column).map_or(0.0, |value| value.abs());
        let pivot = matrix
            .iter()
            .enumerate()
            .skip(column)
            .max_by(|a, b| entry(a.1).total_cmp(&entry(b.1)))
            .map_or(column, |(index, _)| index);
        matrix.swap(column, pivot);
        right.swap(column, pivot);
        let (top, below) = matrix.split_at_mut(column + 1);
        let (right_top, right_below) = right.split_at_mut(column + 1);
        let (Some(row), Some(value)) = (top.last(), right_top.last()) else { continue };
        let Some(diagonal) = row.get(column).filter(|diagonal| **diagonal != 0.0) else {
            continue;
        };
        for (other, right) in below.iter_mut().zip(right_below) {
            let factor = other.get(column).map_or(0.0, |value| value / diagonal);
            for (a, b) in other.iter_mut().zip(row) {
                *a -= factor * b;
            }
            *right -= factor * value;
        }
    }
    let mut solution = vec![0.0; size];
    for index in (0..size).rev() {
        let Some(row) = matrix.get(index) else { continue };
        let known: f64 = row.iter().zip(&solution).skip(index + 1).map(|(a, x)| a * x).sum();
        let value = right.get(index).map_or(0.0, |right| right - known);
        let diagonal = row.get(index).copied().unwrap_or(0.0);
        if let Some(slot) = solution.get_mut(index) {
            *slot = if diagonal == 0.0 { 0.0 } else { value / diagonal };
        }
    }
    solution
}

#[cfg(test)]
mod tests {
    use super::*;

    const RATES: [f64; 5] = [0.99, 0.7, 0.4, 0.1, 0.01];

    /// Seeks the known fixed point of a linear map that contracts slowly in one direction and fast in
    /// the others.
    fn rounds(target: [f64; 5], start: f64, learned: &mut Learned) -> u32 {
        let mut fixed = Vec::new();
        let map = |state: &[f64]| -> Result<Vec<f64>, Failure> {
            fixed = state.to_vec();
            let each = state.iter().zip(RATES).zip(target);
            Ok(each.map(|((x, rate), t)| t + rate * (x - t)).collect())
        };
        let within = (1e-6, 1e-3);
        let rounds = fixed_point(vec![start; 5], &[1.0; 5], within, learned, map).unwrap();
        for (x, t) in fixed.iter().zip(target) {
            assert!((x - t).abs() < 1e-3);
        }
        rounds
    }

    #[test]
    fn finds_the_fixed_point_of_a_slow_map_in_few_rounds() {
        let mut learned = Learned::default();
        assert!(rounds([300.0, 450.0, 500.0, 320.0, 290.0], 293.0, &mut learned) < 12);
        // All five directions are known by then.
        assert!(rounds([320.0, 440.0, 470.0, 310.0, 280.0], 300.0, &mut learned) <= 3);
    }
}
