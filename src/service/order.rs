//! What is asked for, as words.

use super::news::News;
use super::tell;
use crate::design::Design;
use crate::design::document;
use crate::units::System;
use std::fmt;
use std::str::FromStr;

/// What a worker says of a ticket when its work has ended.
pub const END: &str = "end";

/// What a worker can be asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Job {
    /// Compares one to ten runs.
    Strip,
    /// Computes the firing day.
    Day,
    /// Lists the designs to begin with.
    Examples,
    /// Makes the link that carries the design.
    Link,
    /// Shows how the figures came about.
    Working,
    /// Says how the heater is run without harm.
    Operation,
    /// Lists the sources.
    Sources,
    /// Follows the standard route.
    Route,
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
    const ALL: [Self; 13] = [
        Self::Strip,
        Self::Day,
        Self::Examples,
        Self::Link,
        Self::Working,
        Self::Operation,
        Self::Sources,
        Self::Route,
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
            Self::Examples => "examples",
            Self::Link => "link",
            Self::Working => "working",
            Self::Operation => "operation",
            Self::Sources => "sources",
            Self::Route => "route",
            Self::Trials => "trials",
            Self::Samples => "samples",
            Self::Edges => "edges",
            Self::Remedies(System::Metric) => "remedies-metric",
            Self::Remedies(System::Us) => "remedies-us",
        }
    }

    /// The news of this job, each found when it is asked for.
    pub fn news(self, design: &Design) -> Box<dyn Iterator<Item = News>> {
        match self {
            Self::Strip => tell::strip(design),
            Self::Day => tell::day(design),
            Self::Examples => tell::examples(),
            Self::Link => tell::link(design),
            Self::Working => tell::working(design),
            Self::Operation => tell::operation(design),
            Self::Sources => tell::sources(),
            Self::Route => tell::route(design),
            Self::Trials => tell::trials(design),
            Self::Samples => tell::samples(design),
            Self::Edges => tell::edges(design),
            Self::Remedies(system) => tell::remedies(design, system),
        }
    }
}

/// A message about a job, which has a ticket. A worker works for the ticket that it heard of last.
#[derive(Clone, Debug, PartialEq)]
pub enum Order {
    /// Is answered at once.
    Ping {
        /// Comes back with the answer.
        ticket: u64,
    },
    /// Ends the work for a ticket.
    Stop {
        /// Which one.
        ticket: u64,
    },
    /// Begins a job, and ends the one before.
    Begin {
        /// Which one.
        job: Job,
        /// Comes back with all news.
        ticket: u64,
        /// What it is about.
        design: Box<Design>,
    },
}

/// The words are not those of an order.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAnOrder;

/// What is asked for, the ticket and, for a job, the design as a file.
impl fmt::Display for Order {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ping { ticket } => write!(f, "ping {ticket}"),
            Self::Stop { ticket } => write!(f, "stop {ticket}"),
            Self::Begin { job, ticket, design } => {
                write!(f, "{} {ticket} {}", job.id(), document::write(design, None))
            }
        }
    }
}

impl FromStr for Order {
    type Err = NotAnOrder;

    fn from_str(text: &str) -> Result<Self, NotAnOrder> {
        let mut words = text.splitn(3, ' ');
        let what = words.next().unwrap_or_default();
        let ticket = words.next().and_then(|word| word.parse().ok()).ok_or(NotAnOrder)?;
        match (what, words.next()) {
            ("ping", None) => Ok(Self::Ping { ticket }),
            ("stop", None) => Ok(Self::Stop { ticket }),
            (what, Some(file)) => {
                let job = Job::ALL.into_iter().find(|job| job.id() == what);
                let document = document::read(file).map_err(|_| NotAnOrder)?;
                let design = Box::new(document.design);
                Ok(Self::Begin { job: job.ok_or(NotAnOrder)?, ticket, design })
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
        let begun =
            Job::ALL.map(|job| Order::Begin { job, ticket: u64::MAX, design: design.clone() });
        let others = [Order::Ping { ticket: 0 }, Order::Stop { ticket: 7 }];
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
