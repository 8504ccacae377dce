//! Core of Longsmoke, the designer for the smoke path of site-built masonry heaters.
//!
//! Data flows one way, and each layer may use only those above it:
//!
//! 1. [`sources`]: the bibliography;
//! 2. [`units`]: SI and what is shown;
//! 3. [`physics`]: published formulas;

pub mod physics;
pub mod sources;
pub mod units;
