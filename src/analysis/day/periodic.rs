//! The state that repeats: a fixed point of the map from one period to the next.

use crate::analysis::Failure;

/// Earlier rounds that a new guess draws on.
const DEPTH: usize = 6;
const MOST_ROUNDS: u32 = 60;
/// Rounds after which single entries may change more, by the greater factor, if their mean changes
/// by less than the smaller one: the draft of a heater that cools may stall a step sooner or later
/// from period to period, for the chimney's wall alone to tell.
const ROUNDS_OF_ALL: u32 = 25;
const LOOSER: f64 = 20.0;
const STRICTER: f64 = 0.2;

/// Finds a state that a map leaves alone, which is the last that the map saw; how often it did.
///
/// Anderson acceleration: the next guess mixes the images of the last rounds so that their
/// changes, in the norm of the weights, cancel as well as they can. A heater's few slow modes are
/// found in a few rounds, where repeating the days would take a week of them.
///
/// * `weights`: of each entry in the norm.
/// * `tolerance`: largest change of any entry over a period; after 25 rounds their
///   mean change may count instead.
/// * `most_in_all`: largest change of all entries together, each times its weight: a heavy heater
///   hides much heat in small changes.
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
    mut map: impl FnMut(&[f64]) -> Result<Vec<f64>, Failure>,
) -> Result<u32, Failure> {
    let mut guess = start;
    let mut images: Vec<Vec<f64>> = Vec::new();
    let mut changes: Vec<Vec<f64>> = Vec::new();
    for round in 1..=MOST_ROUNDS {
        let image = map(&guess)?;
        let change: Vec<f64> = image.iter().zip(&guess).map(|(a, b)| a - b).collect();
        let most = change.iter().fold(0.0, |most: f64, each| most.max(each.abs()));
        let mean = mean_change(&change, weights);
        let all =
            ROUNDS_OF_ALL < round && mean < STRICTER * tolerance && most < LOOSER * tolerance;
        let together: f64 =
            change.iter().zip(weights).map(|(each, weight)| each * weight).sum();
        if together.abs() < most_in_all && (most < tolerance || all) {
            return Ok(round);
        }
        if images.len() > DEPTH {
            images.remove(0);
            changes.remove(0);
        }
        images.push(image);
        changes.push(change);
        guess = mixed(&images, &changes, weights);
    }
    Err(Failure::NotPeriodic)
}

/// Mean change of the entries by their weights.
fn mean_change(change: &[f64], weights: &[f64]) -> f64 {
    let sum: f64 =
        change.iter().zip(weights).map(|(change, weight)| change.abs() * weight).sum();
    sum / weights.iter().sum::<f64>()
}

/// Mix of the images whose changes cancel best.
fn mixed(images: &[Vec<f64>], changes: &[Vec<f64>], weights: &[f64]) -> Vec<f64> {
    let (Some(image), Some(change)) = (images.last(), changes.last()) else {
        return Vec::new();
    };
    let earlier = changes.len() - 1;
    let difference = |one: &[f64], other: &[f64]| -> Vec<f64> {
        one.iter().zip(other).map(|(a, b)| a - b).collect()
    };
    let steps: Vec<Vec<f64>> =
        changes.iter().take(earlier).map(|each| difference(change, each)).collect();
    let inner = |one: &[f64], other: &[f64]| -> f64 {
        one.iter().zip(other).zip(weights).map(|((a, b), w)| a * b * w).sum()
    };
    let mut matrix: Vec<Vec<f64>> = steps
        .iter()
        .map(|row| {
            let mut row: Vec<f64> = steps.iter().map(|column| inner(row, column)).collect();
            row.shrink_to_fit();
            row
        })
        .collect();
    // A trace of the diagonal keeps rounds that say the same from blowing up.
    for (index, row) in matrix.iter_mut().enumerate() {
        if let Some(diagonal) = row.get_mut(index) {
            *diagonal *= 1.0 + 1e-12;
        }
    }
    let right: Vec<f64> = steps.iter().map(|row| inner(row, change)).collect();
    let shares = solved(matrix, right);
    let mut guess = image.clone();
    for (share, earlier) in shares.iter().zip(images) {
        for ((guess, image), earlier) in guess.iter_mut().zip(image).zip(earlier) {
            *guess -= share * (image - earlier);
        }
    }
    guess
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

    /// A linear map contracts slowly in one direction and fast in the others; its fixed point is
    /// known.
    #[test]
    fn finds_the_fixed_point_of_a_slow_map_in_few_rounds() {
        let rates = [0.99, 0.7, 0.4, 0.1, 0.01];
        let target = [300.0, 450.0, 500.0, 320.0, 290.0];
        let map = |state: &[f64]| -> Result<Vec<f64>, Failure> {
            let each = state.iter().zip(rates).zip(target);
            Ok(each.map(|((x, rate), t)| t + rate * (x - t)).collect())
        };
        let mut fixed = Vec::new();
        let seen = |state: &[f64]| {
            fixed = state.to_vec();
            map(state)
        };
        let rounds = fixed_point(vec![293.0; 5], &[1.0; 5], (1e-6, 1e-3), seen).unwrap();
        assert!(rounds < 12, "{rounds}");
        for (x, t) in fixed.iter().zip(target) {
            assert!((x - t).abs() < 1e-3);
        }
    }
}
