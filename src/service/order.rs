//! What is asked for, as words.

use super::news::News;
use super::shared::Shared;
use super::{Room, paper, tell, variants};
use crate::design::Design;
use crate::design::document;
use crate::design::field::{FIELDS, FieldId, field};
use crate::study::suggest::Wish;
use crate::units::{System, float};
use crate::words;
use std::fmt;
use std::str::FromStr;

/// Parts designs: the record separator of ASCII, which no file has.
const BETWEEN: char = '\u{1e}';

/// What a worker says of a ticket when its work has ended.
pub const END: &str = "end";

/// What a worker can be asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Job {
    /// Compares one to ten runs.
    Strip,
    /// Computes the firing day.
    Day,
    /// Lists the designs to begin with.
    Examples,
    /// Makes the link that carries the design, with others pinned beside it.
    Link(Vec<Design>),
    /// Shows how the figures came about.
    Working,
    /// Says how the heater is run without harm.
    Operation,
    /// Lays every brick.
    Courses,
    /// Draws a course, by its place among all of them, in a system of units, for a room.
    Plan(System, usize, Room),
    /// Says what it takes to build it.
    Build,
    /// Finds the heat loss from the parts of the house.
    Envelope,
    /// Lists the sources.
    Sources,
    /// Explains words and page.
    Guide,
    /// Follows the standard route.
    Route,
    /// Judges the draft on two days.
    TwoDays,
    /// Judges the heater under other conditions.
    Trials,
    /// Tries the spreads at the height of the fire.
    Samples,
    /// Looks for the unfavorable edge of safety.
    Edges,
    /// Seeks what mends the findings, in the steps of a system of units.
    Remedies(System),
    /// Sets one to ten runs side by side, each with a day.
    Compare,
    /// Seeks other designs.
    Suggest(Wish),
    /// Tries an input at so many values over its usual range.
    Sweep(FieldId, u32),
    /// Tries two inputs over their usual ranges.
    Map(FieldId, FieldId),
    /// Ranks what matters most, sizes as they are built among it.
    Matters,
    /// Sets other designs beside the design.
    Pinned(Vec<Design>),
    /// Makes sheets or a file of the design; what is asked for stands in words without a space.
    Paper(String),
}

impl Job {
    /// Those that are asked for by their name alone.
    const PLAIN: [(&'static str, Self); 19] = [
        ("strip", Self::Strip),
        ("day", Self::Day),
        ("examples", Self::Examples),
        ("working", Self::Working),
        ("operation", Self::Operation),
        ("courses", Self::Courses),
        ("build", Self::Build),
        ("envelope", Self::Envelope),
        ("sources", Self::Sources),
        ("guide", Self::Guide),
        ("route", Self::Route),
        ("two-days", Self::TwoDays),
        ("trials", Self::Trials),
        ("samples", Self::Samples),
        ("edges", Self::Edges),
        ("remedies-metric", Self::Remedies(System::Metric)),
        ("remedies-us", Self::Remedies(System::Us)),
        ("compare", Self::Compare),
        ("matters", Self::Matters),
    ];

    /// Its name, then what belongs to it behind commas: inputs by their keys in links. Designs beside
    /// the first follow it as files.
    fn id(&self) -> String {
        let link = |id: &FieldId| field(*id).link;
        match self {
            Self::Suggest(wish) => {
                let (trials, aims) = wish.bits();
                format!("suggest,{trials},{aims}")
            }
            Self::Sweep(id, steps) => format!("sweep,{},{steps}", link(id)),
            Self::Plan(system, at, Room { width, height, text }) => {
                let system = if *system == System::Us { "us" } else { "metric" };
                format!("plan,{system},{at},{width},{height},{text}")
            }
            Self::Map(one, other) => format!("map,{},{}", link(one), link(other)),
            Self::Pinned(_) => "pinned".to_owned(),
            Self::Link(_) => "link".to_owned(),
            Self::Paper(words) => format!("paper,{words}"),
            plain => {
                let known = Self::PLAIN.iter().find(|(_, job)| job == plain);
                known.map_or("", |(id, _)| *id).to_owned()
            }
        }
    }

    /// The designs beside the first.
    fn others(&self) -> &[Design] {
        match self {
            Self::Pinned(designs) | Self::Link(designs) => designs,
            _ => &[],
        }
    }

    fn from_id(id: &str, others: Vec<Design>) -> Option<Self> {
        if let Some(words) = id.strip_prefix("paper,") {
            return Some(Self::Paper(words.to_owned()));
        }
        let mut words = id.split(',');
        let name = words.next()?;
        let words: Vec<&str> = words.collect();
        let input = |link: &str| FIELDS.iter().find(|field| field.link == link).map(|f| f.id);
        match (name, words.as_slice()) {
            ("pinned", []) => Some(Self::Pinned(others)),
            ("link", []) => Some(Self::Link(others)),
            (name, []) => {
                Self::PLAIN.into_iter().find(|(id, _)| *id == name).map(|(_, job)| job)
            }
            ("suggest", [trials, aims]) => {
                let wish = Wish::from_bits(trials.parse().ok()?, aims.parse().ok()?);
                Some(Self::Suggest(wish))
            }
            ("sweep", [id, steps]) => Some(Self::Sweep(input(id)?, steps.parse().ok()?)),
            ("plan", [system @ ("us" | "metric"), at, width, height, text]) => {
                let system = if *system == "us" { System::Us } else { System::Metric };
                let (width, height, text) = (float(width)?, float(height)?, float(text)?);
                Some(Self::Plan(system, at.parse().ok()?, Room { width, height, text }))
            }
            ("map", [one, other]) => Some(Self::Map(input(one)?, input(other)?)),
            _ => None,
        }
    }

    /// The news of this job, each found when it is asked for.
    pub fn news(self, design: &Design) -> Box<dyn Iterator<Item = News>> {
        match self {
            Self::Strip => tell::strip(design),
            Self::Day => tell::day(design),
            Self::Examples => tell::examples(),
            Self::Link(pinned) => tell::link(design, &pinned),
            Self::Working => tell::working(design),
            Self::Courses => tell::courses(design),
            Self::Plan(system, at, room) => tell::plan(design, system, at, room),
            Self::Operation => tell::read_of(design, words::operation::passage),
            Self::Build => tell::read_of(design, words::build::passage),
            Self::Envelope => tell::read_of(design, words::envelope::passage),
            Self::Sources => tell::sources(),
            Self::Guide => tell::guide(),
            Self::Route => tell::route(design),
            Self::TwoDays => tell::two_days(design),
            Self::Trials => tell::trials(design),
            Self::Samples => tell::samples(design),
            Self::Edges => tell::edges(design),
            Self::Remedies(system) => tell::remedies(design, system),
            Self::Matters => variants::matters(design),
            Self::Paper(words) => paper::told(design, &words),
            Self::Compare
            | Self::Suggest(_)
            | Self::Sweep(..)
            | Self::Map(..)
            | Self::Pinned(_) => {
                self.shared(design).map_or_else(|| Box::new(std::iter::empty()), Shared::alone)
            }
        }
    }

    /// The job in pieces that several workers find at once; none where it is not done so.
    pub fn shared(&self, design: &Design) -> Option<Shared> {
        match self {
            Self::Compare => Some(variants::compare(design)),
            Self::Suggest(wish) => Some(variants::suggest(design, *wish)),
            Self::Sweep(id, steps) => Some(variants::sweep(design, *id, *steps)),
            Self::Map(one, other) => Some(variants::map(design, (*one, *other))),
            Self::Pinned(others) => Some(variants::pinned(design, others)),
            _ => None,
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
                write!(f, "{} {ticket} {}", job.id(), document::write(design, None))?;
                let mut others = job.others().iter();
                others.try_for_each(|other| {
                    write!(f, "{BETWEEN}{}", document::write(other, None))
                })
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
                let mut designs = file.split(BETWEEN).map(|file| {
                    let read = document::read_ours(file);
                    read.map(|document| document.design).map_err(|_| NotAnOrder)
                });
                let design = Box::new(designs.next().ok_or(NotAnOrder)??);
                let others = designs.collect::<Result<_, _>>()?;
                let job = Job::from_id(what, others).ok_or(NotAnOrder)?;
                Ok(Self::Begin { job, ticket, design })
            }
            _ => Err(NotAnOrder),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::suggest::Aim;
    use crate::study::trials::Trial;

    #[test]
    fn an_order_survives_its_words() {
        let design = Box::new(Design { name: "two words".into(), ..Design::demonstration() });
        let wish = Wish::new(&[Trial::Wind], &[Aim::Wood]);
        let pinned = Design { name: "a, b".into(), ..Design::demonstration() };
        let others = [
            Job::Suggest(wish),
            Job::Sweep(FieldId::RunLength, 9),
            Job::Map(FieldId::RunLength, FieldId::RunCount),
            Job::Pinned(vec![pinned, Design::demonstration()]),
            Job::Pinned(Vec::new()),
            Job::Plan(System::Us, 17, Room { width: 350.0, height: 675.2, text: 11.52 }),
            Job::Plan(System::Metric, 0, Room::default()),
            Job::Link(vec![Design::demonstration()]),
            Job::Paper("print,us,2031-02-03,https://x.example/a%2Cb/,".into()),
        ];
        let jobs = Job::PLAIN.into_iter().map(|(_, job)| job).chain(others);
        let begun =
            jobs.map(|job| Order::Begin { job, ticket: u64::MAX, design: design.clone() });
        let others = [Order::Ping { ticket: 0 }, Order::Stop { ticket: 7 }];
        for order in begun.chain(others) {
            assert_eq!(order.to_string().parse(), Ok(order));
        }
    }

    #[test]
    fn other_words_are_no_order() {
        for text in
            ["", "ping", "ping x", "ping 1 2", "day 1", "day 1 {", "dig 1 {}", "sweep,rl 1 {}"]
        {
            assert_eq!(text.parse::<Order>(), Err(NotAnOrder), "{text}");
        }
    }
}
