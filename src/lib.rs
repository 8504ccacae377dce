//! Core of Longsmoke, the designer for the smoke path of site-built masonry heaters.
//!
//! Data flows one way, and each layer may use only those above it:
//!
//! 1. [`mod@sources`] – the bibliography;
//! 2. [`mod@units`] – SI and what is shown;
//! 3. [`mod@physics`] – published formulas;
//! 4. [`mod@design`] – what the builder decides;
//! 5. [`mod@analysis`] – one design under one condition;
//! 6. [`mod@rules`] – judgments as data;
//! 7. [`mod@study`] – many analyses;
//! 8. [`mod@words`] – sentences;
//! 9. [`mod@service`] – what the page asks of a worker, and what it is told;
//! 10. [`mod@drawing`] – pictures as data.
//!
//! The page (`src/ui`) and the native command (`src/bin`) are binaries beside this library.

pub mod analysis;
pub mod design;
pub mod drawing;
pub mod physics;
pub mod rules;
pub mod service;
pub mod sources;
pub mod study;
pub mod units;
pub mod words;
