//! What is told of variants of a design: each in figures as it is found, for a plot and to be taken
//! as the design, and at the end what is read of them all.

use super::news::News;
use super::tell::{Telling, failed};
use super::wire::{read, write};
use super::{InUnits, Told};
use crate::design::Design;
use crate::design::field::FieldId;
use crate::study::compare::{Column, Compare};
use crate::study::matters::effects;
use crate::study::pinned::{Pin, Pinned};
use crate::study::strip::RUNS;
use crate::study::suggest::{Part, Suggest, Wish};
use crate::study::sweep::{Axis, Point, Sweep};
use crate::study::variant::Variant;
use crate::words;
use crate::words::passage::Passage;
use std::fmt;
use std::str::FromStr;

/// What is told of variants.
#[derive(Clone, Debug, PartialEq)]
pub enum VariantsTold {
    /// One of them.
    One(Variant),
    /// Those that are chosen in the end, the best first.
    Best(Vec<Variant>),
    /// What is read of all of them.
    Read(Told),
}

/// Its kind, then its words; several have commas between them.
impl fmt::Display for VariantsTold {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::One(variant) => write!(f, "variant {variant}"),
            Self::Best(variants) => {
                f.write_str("best ")?;
                let texts: Vec<_> = variants.iter().map(ToString::to_string).collect();
                f.write_str(&texts.join(","))
            }
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
            "variant" => rest.parse().map(Self::One).map_err(|_| NotVariants),
            "best" if rest.is_empty() => Ok(Self::Best(Vec::new())),
            "best" => {
                let variants =
                    rest.split(',').map(|text| text.parse().map_err(|_| NotVariants));
                variants.collect::<Result<_, _>>().map(Self::Best)
            }
            "read" => read(rest).map(Self::Read).ok_or(NotVariants),
            _ => Err(NotVariants),
        }
    }
}

fn found(told: &VariantsTold) -> News {
    News::Found(told.to_string())
}

fn one(variant: Variant) -> News {
    found(&VariantsTold::One(variant))
}

/// One to ten runs.
pub(super) fn compare(design: &Design) -> Telling {
    let (of, mut columns) = (RUNS.count(), Vec::<Column>::new());
    let begun = News::Progress { done: 0, of };
    let news = Compare::new(design).flat_map(move |column| {
        let told = one(Variant::from(&column));
        columns.push(column);
        let done = columns.len();
        let mut news = vec![told, News::Progress { done, of }];
        if done == of {
            let say = |system| words::compare::passage(&columns, system);
            news.push(found(&VariantsTold::Read(InUnits::say(say))));
        }
        news
    });
    Box::new(std::iter::once(begun).chain(news))
}

/// Other designs: each as it is found, at the end the best in their order.
pub(super) fn suggest(design: &Design, wish: Wish) -> Telling {
    let parts = Suggest::new(design, wish);
    let design = design.clone();
    Box::new(parts.flat_map(move |part| match part {
        Part::Done(done, of) => vec![News::Progress { done, of }],
        Part::Found(proposal) => vec![one(Variant::from(&*proposal))],
        Part::End(outcome) => {
            let best = outcome.proposals.iter().map(Variant::from).collect();
            let say = |system| words::suggest::passage(&design, wish, &outcome, system);
            vec![
                found(&VariantsTold::Best(best)),
                found(&VariantsTold::Read(InUnits::say(say))),
            ]
        }
    }))
}

/// Values of each input of a map.
const MAP_STEPS: u32 = 7;

/// An input over its usual range.
pub(super) fn sweep(design: &Design, id: FieldId, steps: u32) -> Telling {
    let steps = steps.min(MOST_STEPS);
    points(Sweep::new(design, vec![Axis::new(id, None, steps)]))
}

/// Most values of an input.
const MOST_STEPS: u32 = 50;

/// Two inputs over their usual ranges.
pub(super) fn map(design: &Design, (one, other): (FieldId, FieldId)) -> Telling {
    let axes = [one, other].map(|id| Axis::new(id, None, MAP_STEPS));
    points(Sweep::new(design, axes.to_vec()))
}

fn points(sweep: Sweep) -> Telling {
    let (of, mut points) = (sweep.len(), Vec::<Point>::new());
    let begun = News::Progress { done: 0, of };
    let news = (0..of).flat_map(move |index| {
        let Some(point) = sweep.point(index) else {
            return Vec::new();
        };
        let told = one(sweep.variant(&point));
        points.push(point);
        let mut news = vec![told, News::Progress { done: points.len(), of }];
        if points.len() == of {
            let say = |system| match sweep.axes() {
                [down, across] => words::sweep::map((down, across), &points, system),
                [axis, ..] => words::sweep::passage(axis, &points, system),
                [] => Passage::default(),
            };
            news.push(found(&VariantsTold::Read(InUnits::say(say))));
        }
        news
    });
    Box::new(std::iter::once(begun).chain(news))
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
pub(super) fn pinned(design: &Design, others: &[Design]) -> Telling {
    let study = Pinned::new(design, others);
    let (of, mut pins) = (study.len(), Vec::<Pin>::new());
    let begun = News::Progress { done: 0, of };
    let news = study.flat_map(move |pin| {
        pins.push(pin);
        let done = pins.len();
        let mut news = vec![News::Progress { done, of }];
        if done == of {
            let say = |system| words::pinned::passage(&pins, system);
            news.push(found(&VariantsTold::Read(InUnits::say(say))));
        }
        news
    });
    Box::new(std::iter::once(begun).chain(news))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::order::Job;

    #[test]
    fn a_comparison_tells_each_column_and_then_the_passage() {
        let design = Design::demonstration();
        let news: Vec<News> = Job::Compare.news(&design).collect();
        let told = news.iter().filter_map(|news| match news {
            News::Found(words) => Some(words.parse::<VariantsTold>().unwrap()),
            _ => None,
        });
        let told: Vec<VariantsTold> = told.collect();
        let (last, columns) = told.split_last().unwrap();
        assert_eq!(columns.len(), 10);
        for (told, runs) in columns.iter().zip(1_u32..) {
            let VariantsTold::One(variant) = told else { panic!("{told:?}") };
            assert_eq!(variant.puts, [(FieldId::RunCount, f64::from(runs))]);
            assert_eq!(told.to_string().parse().as_ref(), Ok(told));
        }
        assert!(matches!(last, VariantsTold::Read(_)));
        assert_eq!(last.to_string().parse().as_ref(), Ok(last));
        assert_eq!("".parse::<VariantsTold>(), Err(NotVariants));
        assert_eq!("variant x".parse::<VariantsTold>(), Err(NotVariants));
    }
}
