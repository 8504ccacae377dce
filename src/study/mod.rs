//! Many analyses of variants of one design.
//!
//! A study is an iterator: whoever drives it shows progress between its items and stops when it
//! likes, so that it needs to know neither workers nor threads.

pub mod day;
pub mod order;
pub mod strip;
pub mod uncertainty;
