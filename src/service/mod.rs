//! What the page asks of a worker, and what it is told: words both ways.
//!
//! Whatever is only read is made into passages here, in both systems of units, so that the page
//! knows how to show a passage and nothing of what stands in it.

mod bands;
pub mod news;
pub mod order;
mod tell;

pub use bands::Bands;
pub use tell::EdgesTold;

use crate::units::System;
use crate::words::passage::Passage;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};

/// The same in either system of units.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
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

/// Reads what was told as JSON.
pub fn read<T: DeserializeOwned>(told: &str) -> Option<T> {
    serde_json::from_str(told).ok()
}

/// As JSON. What is told here has no keys but texts, so that nothing can fail.
fn json(told: &impl Serialize) -> String {
    serde_json::to_string(told).unwrap_or_default()
}
