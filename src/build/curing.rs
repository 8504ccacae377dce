//! The first fires, which dry the masonry.

/// First charge, and by how much that of each day is larger (kg).
///
/// # Source
///
/// [`crate::sources::CURING`].
pub const STEP: f64 = 1.8;
/// Fires of a day.
pub const FIRES: u32 = 2;
/// Days in the air before them, at least and at most.
pub const AIR_DAYS: (f64, f64) = (14.0, 28.0);
/// Most days that are listed.
const MOST_DAYS: usize = 60;

/// Charge of each day (kg), up to that of the design.
pub fn charges(charge: f64) -> Vec<f64> {
    let steps = (1_u32..).map(|day| f64::from(day) * STEP);
    let below = steps.take_while(|each| *each < charge).take(MOST_DAYS);
    below.chain([charge]).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn charges_rise_to_that_of_the_design() {
        // 14 kg in steps of 1.8 kg: 1.8, 3.6 ... 12.6, then the whole on day 8.
        let days = charges(14.0);
        assert_eq!((days.len(), days.last()), (8, Some(&14.0)));
        assert!((days[0] - 1.8).abs() < 1e-12 && (days[6] - 12.6).abs() < 1e-12);
        assert_eq!(charges(1.0).len(), 1);
    }
}
