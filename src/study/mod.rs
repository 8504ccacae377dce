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
