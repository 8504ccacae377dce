//! Points at which the spreads are tried, the same for a seed on any machine.

use super::ranks::ratio;
use oorandom::Rand32;

/// A Latin hypercube: for each spread a share for every sample, one in each of as many equal parts
/// of 0 to 1 as there are samples. Never 0 and never 1. No spread goes along with another one,
/// but for what ranks cannot avoid.
///
/// # Source
///
/// [`crate::sources::MCKAY_1979`]; the generator is [`crate::sources::ONEILL_2014`].
pub fn latin_hypercube(spreads: usize, samples: u32, seed: u64) -> Vec<Vec<f64>> {
    let mut generator = Rand32::new(seed);
    let mut columns: Vec<_> = (0..spreads).map(|_| shuffled(samples, &mut generator)).collect();
    for _ in 0..ROUNDS {
        part(&mut columns);
        columns.reverse();
    }
    let mut within = || (f64::from(generator.rand_u32()) + 0.5) / 4_294_967_296.0;
    for share in columns.iter_mut().flatten() {
        *share = (*share - 1.0 + within()) / f64::from(samples);
    }
    columns
}

/// The numbers from 1, after Fisher and Yates.
fn shuffled(samples: u32, generator: &mut Rand32) -> Vec<f64> {
    let mut list: Vec<_> = (1..=samples).map(f64::from).collect();
    for (last, count) in (1..list.len()).zip(2..).collect::<Vec<_>>().into_iter().rev() {
        let other = usize::try_from(generator.rand_range(0..count)).unwrap_or(last);
        list.swap(last, other);
    }
    list
}

/// Times that the columns are parted, each time in the other order; an even number.
const ROUNDS: u32 = 6;

/// Takes out of each column what goes along with the columns before it, and ranks what is left.
///
/// # Source
///
/// [`crate::sources::OWEN_1994`], ranked Gram-Schmidt.
fn part(columns: &mut [Vec<f64>]) {
    let mut rest = columns;
    let mut before: Vec<&[f64]> = Vec::new();
    while let Some((column, after)) = rest.split_first_mut() {
        let mut left = column.clone();
        for other in &before {
            take_out(&mut left, other);
        }
        *column = order(&left);
        before.push(column);
        rest = after;
    }
}

/// Places in the order of size from 1, of equals in the order of the list.
fn order(values: &[f64]) -> Vec<f64> {
    let mut sorted: Vec<_> = values.iter().enumerate().collect();
    sorted.sort_by(|a, b| a.1.total_cmp(b.1));
    let mut places: Vec<_> =
        sorted.into_iter().zip(1_u32..).map(|((index, _), place)| (index, place)).collect();
    places.sort_unstable();
    places.into_iter().map(|(_, place)| f64::from(place)).collect()
}

/// Takes out of a list what goes along with another one.
fn take_out(list: &mut [f64], other: &[f64]) {
    let mean = |list: &[f64]| list.iter().sum::<f64>() / ratio(list.len(), 1);
    let (mean_list, mean_other) = (mean(list), mean(other));
    let (mut both, mut square) = (0.0, 0.0);
    for (x, y) in list.iter().zip(other) {
        both += (x - mean_list) * (y - mean_other);
        square += (y - mean_other) * (y - mean_other);
    }
    if square > 0.0 {
        for (x, y) in list.iter_mut().zip(other) {
            *x -= both / square * (y - mean_other);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::uncertainty::normal::deviations;
    use crate::study::uncertainty::ranks::{correlation, ranks};

    /// The first numbers that the authors' demonstration of PCG32 prints for its seed of 42 and
    /// stream of 54.
    #[test]
    fn the_generator_is_the_published_one() {
        let mut generator = Rand32::new_inc(42, 54);
        for printed in
            [0xa15c02b7, 0x7b47f409, 0xba1d3330, 0x83d2f293, 0xbfa4784b, 0xcbed606e_u32]
        {
            assert_eq!(generator.rand_u32(), printed);
        }
    }

    #[test]
    fn each_part_is_tried_once() {
        for samples in [1, 2, 7, 250] {
            for column in latin_hypercube(5, samples, 3) {
                let mut parts: Vec<_> =
                    column.iter().map(|share| (share * f64::from(samples)).floor()).collect();
                parts.sort_by(f64::total_cmp);
                let all: Vec<_> = (0..samples).map(f64::from).collect();
                assert_eq!(parts, all);
            }
        }
        assert!(latin_hypercube(5, 0, 3).iter().all(Vec::is_empty));
    }

    /// Deviations of the samples against those of a normal distribution: a quantile of n samples,
    /// one in each nth part, is off by a part at most.
    #[test]
    fn samples_have_the_quantiles_of_a_normal_distribution() {
        let samples = 1000_u32;
        for mut column in latin_hypercube(4, samples, 5) {
            column.sort_by(f64::total_cmp);
            let drawn: Vec<_> = column.into_iter().map(deviations).collect();
            // Printed deviations and the height of the curve there.
            for (index, printed, density) in [
                (49, -1.64485, 0.10314),
                (249, -0.67449, 0.31778),
                (499, 0.0, 0.39894),
                (749, 0.67449, 0.31778),
                (949, 1.64485, 0.10314),
                (989, 2.32635, 0.02665),
            ] {
                let part = 1.0 / f64::from(samples) / density;
                let off: f64 = drawn[index] - printed;
                assert!(off.abs() < 1.1 * part, "{printed}: {off}");
            }
            let mean = drawn.iter().sum::<f64>() / f64::from(samples);
            let square = drawn.iter().map(|z| z * z).sum::<f64>() / f64::from(samples);
            assert!(mean.abs() < 0.005 && (square - 1.0).abs() < 0.02, "{mean}, {square}");
        }
    }

    /// By chance the correlation of two columns of 500 is 0.045.
    #[test]
    fn no_column_goes_along_with_another() {
        let columns = latin_hypercube(16, 500, 1);
        for (index, column) in columns.iter().enumerate() {
            for other in columns.iter().take(index) {
                let along = correlation(&ranks(column), &ranks(other));
                assert!(along.abs() < 0.005, "{along}");
            }
        }
    }

    #[test]
    fn a_seed_gives_the_same_points_and_another_one_others() {
        assert_eq!(latin_hypercube(4, 50, 1), latin_hypercube(4, 50, 1));
        assert_ne!(latin_hypercube(4, 50, 1), latin_hypercube(4, 50, 2));
        let points = latin_hypercube(2, 50, 1);
        assert_ne!(points.first(), points.last());
    }
}
