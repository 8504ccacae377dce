//! What it takes to build a design: derived from it and its analysis, judged nowhere.

pub mod bricks;
pub mod crew;
pub mod curing;
pub mod labor;
pub mod materials;
pub mod order;
pub mod placed;
pub mod support;
pub mod weight;
