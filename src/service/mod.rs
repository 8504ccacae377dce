//! What the page asks of a worker, and what it is told: words both ways.
//!
//! Whatever is only read is made into passages here, in both systems of units, so that the page
//! knows how to show a passage and nothing of what stands in it.

mod bands;
pub mod news;
pub mod order;
mod paper;
mod plan;
pub mod shared;
mod tell;
mod variants;
mod wire;

pub use bands::Bands;
pub use plan::{DrawnCourse, Room};
pub use tell::{DayTold, EdgesTold, Guide, Offer, Register, Workings};
pub use variants::VariantsTold;

use crate::units::System;
use crate::words::passage::Passage;

/// The same in either system of units.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct InUnits<T> {
    /// In metric units.
    pub metric: T,
    /// In US customary units.
    pub us: T,
}

impl<T> InUnits<T> {
    /// Says it twice.
    pub fn say(say: impl Fn(System) -> T) -> Self {
        Self { metric: say(System::Metric), us: say(System::Us) }
    }

    /// What was said for a system.
    pub const fn get(&self, system: System) -> &T {
        match system {
            System::Metric => &self.metric,
            System::Us => &self.us,
        }
    }
}

/// A passage in either system of units, as a message carries it.
pub type Told = InUnits<Passage>;

impl Told {
    /// Reads a passage that was told.
    pub fn read(words: &str) -> Option<Self> {
        wire::read(words)
    }
}
