//! What is told of variants of a design: those that can be taken as the design, pictures of what was
//! found so far, and at the end what is read of them all.

use super::news::News;
use super::shared::{Help, Lead, Shared};
use super::tell::{Telling, failed};
use super::wire::{read, write};
use super::{InUnits, Told};
use crate::analysis::Failure;
use crate::design::Design;
use crate::design::field::FieldId;
use crate::drawing::gallery::Gallery;
use crate::drawing::variants::{self as drawn, Marked};
use crate::study;
use crate::study::compare::{Best, Column, best, crossing, with_runs};
use crate::study::figures::{self, Figures};
use crate::study::matters::effects;
use crate::study::pinned::Pin;
use crate::study::strip::RUNS;
use crate::study::suggest::{Ground, Memory, Part, Piece, Suggest, Wish};
use crate::study::sweep::{Axis, Point, Sweep};
use crate::study::variant::Variant;
use crate::units::System;
use crate::words;
use crate::words::passage::Passage;
use std::collections::BTreeMap;
use std::fmt;
use std::rc::Rc;
use std::str::FromStr;

/// What is told of variants.
#[derive(Clone, Debug, PartialEq)]
pub enum VariantsTold {
    /// Pictures and readings of those that were found so far; of suggestions in the end the best
    /// first.
    Seen(InUnits<Gallery>),
    /// What is read of all of them.
    Read(Told),
}

/// Its kind, then its words.
impl fmt::Display for VariantsTold {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Seen(gallery) => write!(f, "seen {}", write(gallery)),
            Self::Read(told) => write!(f, "read {}", write(told)),
        }
    }
}

/// The words are not those of variants.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotVariants;

impl FromStr for VariantsTold {
    type Err = NotVariants;

    fn from_str(text: &str) -> Result<Self, NotVariants> {
        let (kind, rest) = text.split_once(' ').ok_or(NotVariants)?;
        match kind {
            "seen" => read(rest).map(Self::Seen).ok_or(NotVariants),
            "read" => read(rest).map(Self::Read).ok_or(NotVariants),
            _ => Err(NotVariants),
        }
    }
}

fn found(told: &VariantsTold) -> News {
    News::Found(told.to_string())
}

fn seen(see: impl Fn(System) -> Gallery) -> News {
    found(&VariantsTold::Seen(InUnits::say(see)))
}

fn read_out(say: impl Fn(System) -> Passage) -> News {
    found(&VariantsTold::Read(InUnits::say(say)))
}

/// What is known of the designs of a row, by their places.
type Known = BTreeMap<usize, Result<Figures, Failure>>;

/// Says what is to be told of them.
type Tell = dyn Fn(&Known) -> Vec<News>;

/// A row of designs that are known beforehand.
struct Row {
    designs: Rc<dyn Fn(usize) -> Option<Design>>,
    of: usize,
    /// So many are told of at once.
    at_once: usize,
    known: Known,
    /// What is told of those that are known.
    tell: Box<Tell>,
}

impl Row {
    fn shared(
        of: usize,
        at_once: usize,
        designs: impl Fn(usize) -> Option<Design> + 'static,
        tell: impl Fn(&Known) -> Vec<News> + 'static,
    ) -> Shared {
        let designs: Rc<dyn Fn(usize) -> Option<Design>> = Rc::new(designs);
        let help = Box::new(Days(Rc::clone(&designs)));
        let known = Known::new();
        let lead = Self { designs, of, at_once, known, tell: Box::new(tell) };
        Shared { lead: Box::new(lead), help }
    }
}

impl Lead for Row {
    fn begin(&mut self) -> Vec<News> {
        vec![News::Progress { done: 0, of: self.of }]
    }

    fn wanted(&self) -> Vec<String> {
        let open = (0..self.of).filter(|place| !self.known.contains_key(place));
        open.map(|place| place.to_string()).collect()
    }

    fn take(&mut self, piece: &str, found: &str) -> Vec<News> {
        let Ok(place) = piece.parse() else {
            return Vec::new();
        };
        let Some(design) = (self.designs)(place) else {
            return Vec::new();
        };
        // What failed, fails at once.
        let read = figures::Days::read(&design, found).map(|days| days.figures);
        self.known.insert(place, read.map_or_else(|| Figures::new(&design), Ok));
        let done = self.known.len();
        let mut news = vec![News::Progress { done, of: self.of }];
        if done.is_multiple_of(self.at_once) || done == self.of {
            news.extend((self.tell)(&self.known));
        }
        news
    }
}

/// The days of designs, by their places.
struct Days(Rc<dyn Fn(usize) -> Option<Design>>);

impl Help for Days {
    fn find(&mut self, piece: &str) -> String {
        let design = piece.parse().ok().and_then(|place| (self.0)(place));
        let days = design.and_then(|design| figures::Days::new(&design).ok());
        days.map(|days| days.to_string()).unwrap_or_default()
    }
}

/// One to ten runs.
pub(super) fn compare(design: &Design) -> Shared {
    let (of, first) = (RUNS.count(), *RUNS.start());
    let own = design.clone();
    let designs = move |place| Some(with_runs(&own, first + place));
    let design = design.clone();
    Row::shared(of, 1, designs, move |known| {
        let columns: Vec<Column> = known
            .iter()
            .map(|(place, result)| Column { runs: first + place, result: result.clone() })
            .collect();
        let is_all = columns.len() == of;
        let variants: Vec<Variant> = columns.iter().map(Variant::from).collect();
        let marked = if is_all { marked(&columns) } else { Marked::default() };
        let seen = seen(|system| drawn::sweep(&design, &variants, marked, system));
        let read = is_all.then(|| read_out(|units| words::compare::passage(&columns, units)));
        std::iter::once(seen).chain(read).collect()
    })
}

fn marked(columns: &[Column]) -> Marked {
    let runs = |runs: usize| u32::try_from(runs).ok().map(f64::from);
    let best = best(columns).and_then(|best| match best {
        Best::Passes { runs: best, .. } => runs(best),
        Best::None { .. } => None,
    });
    Marked { best, gain_ends: crossing(columns).gain.and_then(|(last, _)| runs(last)) }
}

/// Values of each input of a map.
const MAP_STEPS: u32 = 7;
/// Most values of an input.
const MOST_STEPS: u32 = 50;

/// An input over its usual range.
pub(super) fn sweep(design: &Design, id: FieldId, steps: u32) -> Shared {
    let steps = steps.min(MOST_STEPS);
    points(design, vec![Axis::new(id, None, steps)])
}

/// Two inputs over their usual ranges.
pub(super) fn map(design: &Design, (one, other): (FieldId, FieldId)) -> Shared {
    let axes = [one, other].map(|id| Axis::new(id, None, MAP_STEPS));
    points(design, axes.to_vec())
}

fn points(design: &Design, axes: Vec<Axis>) -> Shared {
    let (sweep, own) = (Sweep::new(design, axes.clone()), design.clone());
    let designs = sweep.clone();
    let of = sweep.len();
    let at_once = if let [_, across] = axes.as_slice() { across.values.len() } else { 1 };
    let designs = move |place| designs.design(place).map(|(design, _)| design);
    Row::shared(of, at_once.max(1), designs, move |known| {
        let point = |(place, result): (&usize, &Result<Figures, Failure>)| {
            let (_, values) = sweep.design(*place)?;
            Some(Point { index: *place, values, result: result.clone() })
        };
        let points: Vec<Point> = known.iter().filter_map(point).collect();
        let variants: Vec<Variant> = points.iter().map(|point| sweep.variant(point)).collect();
        let seen = seen(|system| match axes.as_slice() {
            [_] => drawn::sweep(&own, &variants, Marked::default(), system),
            _ => drawn::map(&own, &variants, system),
        });
        let say = |system| match axes.as_slice() {
            [down, across] => words::sweep::map((down, across), &points, system),
            [axis, ..] => words::sweep::passage(axis, &points, system),
            [] => Passage::default(),
        };
        let read = (points.len() == of).then(|| read_out(say));
        std::iter::once(seen).chain(read).collect()
    })
}

/// Other designs: each as it is found, at the end the best in their order.
pub(super) fn suggest(design: &Design, wish: Wish) -> Shared {
    let search = Suggest::new(design, wish);
    let help = Box::new(Seeker(search.ground().clone(), Memory::default()));
    Shared { lead: Box::new(Seeking { search, found: Vec::new() }), help }
}

/// The search for other designs, with those that were found so far.
struct Seeking {
    search: Suggest,
    found: Vec<Variant>,
}

impl Seeking {
    /// Goes on until a piece is wanted.
    fn go_on(&mut self) -> Vec<News> {
        let mut news = Vec::new();
        while self.search.wanted().is_empty()
            && let Some(part) = self.search.step()
        {
            news.extend(self.tell(part));
        }
        news
    }

    fn tell(&mut self, part: Part) -> Vec<News> {
        let Ground { design, wish, .. } = self.search.ground();
        let told =
            |variants: &[Variant]| seen(|system| drawn::proposals(design, variants, system));
        match part {
            Part::Done(done, of) => vec![News::Progress { done, of }],
            Part::Found(proposal) => {
                self.found.push(Variant::from(&*proposal));
                vec![told(&self.found)]
            }
            Part::End(outcome) => {
                let best: Vec<_> = outcome.proposals.iter().map(Variant::from).collect();
                let say = |system| words::suggest::passage(design, *wish, &outcome, system);
                vec![told(&best), read_out(say)]
            }
        }
    }
}

impl Lead for Seeking {
    fn begin(&mut self) -> Vec<News> {
        self.go_on()
    }

    fn wanted(&self) -> Vec<String> {
        self.search.wanted().iter().map(ToString::to_string).collect()
    }

    fn take(&mut self, piece: &str, found: &str) -> Vec<News> {
        let Ok(piece) = piece.parse() else {
            return Vec::new();
        };
        let ground = self.search.ground();
        let found = ground.read(piece, found).unwrap_or_else(|| ground.find(piece));
        self.search.learn(piece, found);
        let part = self.search.step();
        let told = part.map(|part| self.tell(part)).unwrap_or_default();
        told.into_iter().chain(self.go_on()).collect()
    }
}

/// Finds pieces of a search, with what it keeps for the next one.
struct Seeker(Ground, Memory);

impl Help for Seeker {
    fn find(&mut self, piece: &str) -> String {
        let Self(ground, memory) = self;
        let found = |piece: Piece| ground.find_with(memory, piece).to_string();
        piece.parse().map(found).unwrap_or_default()
    }
}

/// What matters most.
pub(super) fn matters(design: &Design) -> Telling {
    let design = design.clone();
    Box::new(std::iter::once_with(move || match effects(&design) {
        Ok(effects) => {
            let say = |system| words::matters::passage(&effects, system);
            found(&VariantsTold::Read(InUnits::say(say)))
        }
        Err(failure) => failed(&failure),
    }))
}

/// Designs beside each other.
pub(super) fn pinned(design: &Design, others: &[Design]) -> Shared {
    let all: Vec<Design> = study::pinned::beside(design, others);
    let designs = all.clone();
    Row::shared(
        all.len(),
        all.len(),
        move |place| designs.get(place).cloned(),
        move |known| {
            let pin =
                |(design, (_, result)): (&Design, (&usize, &Result<Figures, Failure>))| Pin {
                    design: design.clone(),
                    result: result.clone(),
                };
            let pins: Vec<Pin> = all.iter().zip(known).map(pin).collect();
            vec![read_out(|system| words::pinned::passage(&pins, system))]
        },
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::order::Job;
    use crate::study::variant::read_puts;

    #[test]
    fn a_comparison_tells_pictures_and_then_the_passage() {
        let design = Design::demonstration();
        let news: Vec<News> = Job::Compare.news(&design).collect();
        let told = news.iter().filter_map(|news| match news {
            News::Found(words) => Some(words.parse::<VariantsTold>().unwrap()),
            _ => None,
        });
        let told: Vec<VariantsTold> = told.collect();
        let (last, seen) = told.split_last().unwrap();
        assert_eq!(seen.len(), 10);
        for each in &told {
            assert_eq!(each.to_string().parse().as_ref(), Ok(each));
        }
        let Some(VariantsTold::Seen(all)) = seen.last() else { panic!("{seen:?}") };
        assert_eq!((all.metric.pictures.len(), all.metric.readings.len()), (2, 10));
        for ((_, words), runs) in all.metric.readings.iter().zip(1_u32..) {
            assert_eq!(read_puts(words), Some(vec![(FieldId::RunCount, f64::from(runs))]));
        }
        assert!(matches!(last, VariantsTold::Read(_)));
        assert_eq!("".parse::<VariantsTold>(), Err(NotVariants));
        assert_eq!("variant x".parse::<VariantsTold>(), Err(NotVariants));
    }
}
