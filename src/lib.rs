//! Core of Longsmoke, the designer for the smoke path of site-built masonry heaters.
//!
//! Data flows one way, and each layer may use only those above it:
//!
//! 1. [`mod@language`] – in which language it is said;
//! 2. [`mod@sources`] – the bibliography;
//! 3. [`mod@units`] – SI and what is shown;
//! 4. [`mod@physics`] – published formulas;
//! 5. [`mod@design`] – what the builder decides;
//! 6. [`mod@analysis`] – one design under one condition;
//! 7. [`mod@courses`] – every brick, course by course;
//! 8. [`mod@build`] – what it takes to build it;
//! 9. [`mod@rules`] – judgments as data;
//! 10. [`mod@study`] – many analyses;
//! 11. [`mod@words`] – sentences;
//! 12. [`mod@drawing`] – pictures as data;
//! 13. [`mod@export`] – files for other programs;
//! 14. [`mod@paper`] – a design on sheets;
//! 15. [`mod@service`] – what the page asks of a worker, and what it is told.
//!
//! The page (`src/ui`) and the native command (`src/bin`) are binaries beside this library.

// The macro of `language` names it from outside.
extern crate self as longsmoke;

pub mod analysis;
pub mod build;
pub mod courses;
pub mod design;
pub mod drawing;
pub mod export;
pub mod language;
pub mod paper;
pub mod physics;
pub mod rules;
pub mod service;
pub mod sources;
pub mod study;
pub mod units;
pub mod words;
