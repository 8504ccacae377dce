//! What is asked of a study from another program, as words, and its answers.

use super::{day, edges, remedy, strip, trials, uncertainty};
use crate::design::Design;
use crate::design::document;
use crate::units::System;
use std::fmt;
use std::str::FromStr;

/// A study that takes long.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Job {
    /// Compares one to ten runs.
    Strip,
    /// Computes the firing day.
    Day,
    /// Judges the heater under other conditions.
    Trials,
    /// Tries the spreads at the height of the fire.
    Samples,
    /// Looks for the unfavorable edge of safety.
    Edges,
    /// Seeks what mends the findings, in the steps of a system of units.
    Remedies(System),
}

impl Job {
    const ALL: [Self; 7] = [
        Self::Strip,
        Self::Day,
        Self::Trials,
        Self::Samples,
        Self::Edges,
        Self::Remedies(System::Metric),
        Self::Remedies(System::Us),
    ];

    const fn id(self) -> &'static str {
        match self {
            Self::Strip => "strip",
            Self::Day => "day",
            Self::Trials => "trials",
            Self::Samples => "samples",
            Self::Edges => "edges",
            Self::Remedies(System::Metric) => "remedies-metric",
            Self::Remedies(System::Us) => "remedies-us",
        }
    }

    /// The answers of this study, each found when it is asked for.
    pub fn answers(self, design: &Design) -> Box<dyn Iterator<Item = String>> {
        match self {
            Self::Strip => Box::new(strip::Strip::new(design).map(|column| column.to_string())),
            Self::Day => Box::new(day::Parts::new(design).map(|part| part.to_string())),
            Self::Trials => Box::new(trials::Trials::new(design).map(|each| each.to_string())),
            Self::Samples => {
                Box::new(uncertainty::Parts::new(design).map(|part| part.to_string()))
            }
            Self::Edges => Box::new(edges::Parts::new(design).map(|part| part.to_string())),
            Self::Remedies(system) => {
                let parts = remedy::Remedies::new(design, system);
                Box::new(parts.map(|part| part.to_string()))
            }
        }
    }
}

/// A message about long work. A later generation ends the work for an earlier one.
#[derive(Clone, Debug, PartialEq)]
pub enum Order {
    /// Is answered at once.
    Ping {
        /// Comes back with the answer.
        generation: u64,
    },
    /// Ends the work for earlier generations.
    Stop {
        /// The first that is not ended.
        generation: u64,
    },
    /// Begins a study.
    Begin {
        /// Which one.
        job: Job,
        /// Comes back with each answer.
        generation: u64,
        /// What it is about.
        design: Box<Design>,
    },
}

/// The words are not those of an order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAnOrder;

/// What is asked for, the generation and, for a study, the design as a file.
impl fmt::Display for Order {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ping { generation } => write!(f, "ping {generation}"),
            Self::Stop { generation } => write!(f, "stop {generation}"),
            Self::Begin { job, generation, design } => {
                write!(f, "{} {generation} {}", job.id(), document::write(design, None))
            }
        }
    }
}

impl FromStr for Order {
    type Err = NotAnOrder;

    fn from_str(text: &str) -> Result<Self, NotAnOrder> {
        let mut words = text.splitn(3, ' ');
        let what = words.next().unwrap_or_default();
        let generation = words.next().and_then(|word| word.parse().ok()).ok_or(NotAnOrder)?;
        match (what, words.next()) {
            ("ping", None) => Ok(Self::Ping { generation }),
            ("stop", None) => Ok(Self::Stop { generation }),
            (what, Some(file)) => {
                let job = Job::ALL.into_iter().find(|job| job.id() == what);
                let document = document::read(file).map_err(|_| NotAnOrder)?;
                let design = Box::new(document.design);
                Ok(Self::Begin { job: job.ok_or(NotAnOrder)?, generation, design })
            }
            _ => Err(NotAnOrder),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_order_survives_its_words() {
        let design = Box::new(Design { name: "two words".into(), ..Design::demonstration() });
        let begun = Job::ALL.map(|job| Order::Begin {
            job,
            generation: u64::MAX,
            design: design.clone(),
        });
        let others = [Order::Ping { generation: 0 }, Order::Stop { generation: 7 }];
        for order in begun.into_iter().chain(others) {
            assert_eq!(order.to_string().parse(), Ok(order));
        }
    }

    #[test]
    fn other_words_are_no_order() {
        for text in ["", "ping", "ping x", "ping 1 2", "day 1", "day 1 {", "dig 1 {}"] {
            assert_eq!(text.parse::<Order>(), Err(NotAnOrder), "{text}");
        }
    }
}
