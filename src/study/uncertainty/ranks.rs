//! Ranks of values and how far two rankings agree.

/// Ranks from 1; values alike share the mean of theirs.
pub fn ranks(values: &[f64]) -> Vec<f64> {
    let mut order: Vec<_> = values.iter().copied().enumerate().collect();
    order.sort_by(|a, b| a.1.total_cmp(&b.1));
    let mut ranked = Vec::with_capacity(values.len());
    let mut before = 0;
    for alike in order.chunk_by(|a, b| a.1.total_cmp(&b.1).is_eq()) {
        let rank = ratio(before, 1) + 0.5 * (ratio(alike.len(), 1) + 1.0);
        ranked.extend(alike.iter().map(|(index, _)| (*index, rank)));
        before += alike.len();
    }
    ranked.sort_by_key(|(index, _)| *index);
    ranked.into_iter().map(|(_, rank)| rank).collect()
}

/// Correlation (–), of ranks the rank correlation; 0 when either list does not vary.
///
/// r = sum (x - mean x)(y - mean y) / \[sum (x - mean x)2 sum (y - mean y)2\]^(1/2)
///
/// # Source
///
/// [`crate::sources::SPEARMAN_1904`].
pub fn correlation(x: &[f64], y: &[f64]) -> f64 {
    let mean = |list: &[f64]| list.iter().sum::<f64>() / ratio(list.len(), 1);
    let (mean_x, mean_y) = (mean(x), mean(y));
    let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
    for (x, y) in x.iter().zip(y) {
        let (x, y) = (x - mean_x, y - mean_y);
        xx += x * x;
        yy += y * y;
        xy += x * y;
    }
    let scale = (xx * yy).sqrt();
    if scale > 0.0 { xy / scale } else { 0.0 }
}

/// A count over another one (–).
pub fn ratio(count: usize, total: usize) -> f64 {
    let number = |count: usize| f64::from(u32::try_from(count).unwrap_or(u32::MAX));
    number(count) / number(total)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_alike_share_their_rank() {
        assert_eq!(ranks(&[30.0, 10.0, 20.0, 20.0]), [4.0, 1.0, 2.5, 2.5]);
    }

    /// By hand: 1 - 6 sum d2 / (n (n2 - 1)) with d = 1, 1, 1, 1, 0.
    #[test]
    fn a_rank_correlation_by_hand() {
        let (x, y) = ([1.0, 2.0, 3.0, 4.0, 5.0], [20.0, 10.0, 400.0, 300.0, 5000.0]);
        let found = correlation(&ranks(&x), &ranks(&y));
        assert!((found - (1.0 - 6.0 * 4.0 / 120.0)).abs() < 1e-12, "{found}");
        assert!((correlation(&ranks(&x), &ranks(&x)) - 1.0).abs() < 1e-12);
        assert!(correlation(&x, &[7.0; 5]).abs() < 1e-12);
    }
}
