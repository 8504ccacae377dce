//! Many analyses of variants of one design.
//!
//! A study is an iterator: whoever drives it shows progress between its items and stops when it
//! likes, so that it needs to know neither workers nor threads.

pub mod compare;
pub mod day;
pub mod edges;
pub mod figures;
pub mod matters;
pub mod pinned;
pub mod remedy;
pub mod strip;
pub mod suggest;
pub mod sweep;
pub mod trials;
pub mod uncertainty;
pub mod variant;
pub mod working;

use std::cmp::Ordering;

/// Sorts few by insertion: equal ones stay in their order. A sort for many would take ten times
/// the room in the program for each type.
fn sort_few<T>(all: &mut [T], order: impl Fn(&T, &T) -> Ordering) {
    for last in 1..all.len() {
        for at in (1..=last).rev() {
            match all.get(at - 1..=at) {
                Some([one, other]) if order(one, other) == Ordering::Greater => {
                    all.swap(at - 1, at);
                }
                _ => break,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_are_sorted_and_equal_ones_stay_in_their_order() {
        let mut all: Vec<(u32, u32)> = (0..40).map(|i| (i * 7919 % 11, i)).collect();
        let mut expected = all.clone();
        expected.sort_by_key(|(key, _)| *key);
        sort_few(&mut all, |(one, _), (other, _)| one.cmp(other));
        assert_eq!(all, expected);
    }
}
