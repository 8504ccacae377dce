//! What each job tells, piece by piece.

use super::news::News;
use super::wire::{Texts, Wire, read, write};
use super::{Bands, InUnits, Told};
use crate::analysis::path::path;
use crate::analysis::standard_route::standard_route;
use crate::analysis::{Failure, analyze};
use crate::design::Design;
use crate::design::document;
use crate::design::examples::Example;
use crate::rules::Edges;
use crate::study::trials::{Trial, Trials, Tried, has_mild_day, try_one};
use crate::study::{day, edges, remedy, strip, uncertainty};
use crate::units::System;
use crate::words;
use std::fmt;
use std::str::FromStr;

/// News, each found when it is asked for.
pub(super) type Telling = Box<dyn Iterator<Item = News>>;

pub(super) fn failed(failure: &Failure) -> News {
    News::Failed(InUnits::say(|system| words::failure(failure, system)))
}

pub(super) fn strip(design: &Design) -> Telling {
    Box::new(strip::Strip::new(design).map(|column| News::Found(column.to_string())))
}

/// The day of the design in its parts, then what is judged of a mild one.
pub(super) fn day(design: &Design) -> Telling {
    let of = 3;
    let parts = day::Parts::new(design).flat_map(move |part| match part {
        day::Part::Begun => vec![News::Progress { done: 0, of }],
        day::Part::Failed(failure) => vec![failed(&failure)],
        day::Part::First(_) => {
            vec![News::Found(part.to_string()), News::Progress { done: 1, of }]
        }
        day::Part::Repeating(_) => {
            vec![News::Found(part.to_string()), News::Progress { done: 2, of }]
        }
    });
    let design = design.clone();
    let mild = std::iter::once_with(move || {
        has_mild_day(&design).then(|| News::Found(try_one(&design, Trial::MildDay).to_string()))
    });
    Box::new(parts.chain(mild.flatten()))
}

/// The designs to begin with, each as [`Offer`].
pub(super) fn examples() -> Telling {
    let offers = Example::ALL.into_iter().map(|example| Offer {
        name: words::examples::name(example).into(),
        teaches: words::examples::teaches(example).into(),
        file: document::write(&words::examples::named(example), None),
    });
    Box::new(offers.map(|offer| News::Found(write(&offer))))
}

/// The standard route beside the model.
pub(super) fn route(design: &Design) -> Telling {
    let design = design.clone();
    Box::new(std::iter::once_with(move || match analyze(&design) {
        Ok(analysis) => {
            let route = standard_route(&design, &path(&design));
            let fire = &analysis.height_of_fire;
            let both = words::standard_route::Both { design: &design, route: &route, fire };
            let told: Told =
                InUnits::say(|system| words::standard_route::passage(both, system));
            News::Found(write(&told))
        }
        Err(failure) => failed(&failure),
    }))
}

pub(super) fn trials(design: &Design) -> Telling {
    let (design, mut tried) = (design.clone(), Vec::<Tried>::new());
    let of = Trial::ALL.len();
    Box::new(Trials::new(&design).map(move |each| {
        tried.push(each);
        if tried.len() < of {
            return News::Progress { done: tried.len(), of };
        }
        let told: Told = InUnits::say(|system| words::trials::passage(&design, &tried, system));
        News::Found(write(&told))
    }))
}

pub(super) fn samples(design: &Design) -> Telling {
    let of = usize::try_from(uncertainty::Setup::ENOUGH).unwrap_or(usize::MAX);
    Box::new(uncertainty::Parts::new(design).map(move |part| match part {
        uncertainty::Part::Done(done) => News::Progress { done, of },
        uncertainty::Part::Found(found) => News::Found(write(&Bands::new(&found))),
        uncertainty::Part::Nothing => {
            let none = || words::uncertainty::NOTHING.to_owned();
            News::Failed(InUnits { metric: none(), us: none() })
        }
    }))
}

pub(super) fn edges(design: &Design) -> Telling {
    let (parts, design) = (edges::Parts::new(design), design.clone());
    let of = usize::try_from(edges::ENOUGH).unwrap_or(usize::MAX);
    Box::new(parts.map(move |part| match part {
        edges::Part::Begun => News::Progress { done: 0, of },
        edges::Part::Done(done) => News::Progress { done, of },
        edges::Part::Failed(failure) => failed(&failure),
        edges::Part::Found(edges) => {
            let say = |system| words::edges::passage(&design, &edges, system);
            let told = EdgesTold { edges: *edges, passage: InUnits::say(say) };
            News::Found(told.to_string())
        }
    }))
}

pub(super) fn remedies(design: &Design, system: System) -> Telling {
    let parts = remedy::Remedies::new(design, system);
    Box::new(parts.map(|part| News::Found(part.to_string())))
}

/// A design to begin with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Offer {
    /// Its name.
    pub name: String,
    /// What it teaches.
    pub teaches: String,
    /// The design as a file.
    pub file: String,
}

impl Offer {
    /// Reads what was told.
    pub fn read(words: &str) -> Option<Self> {
        read(words)
    }
}

impl Wire for Offer {
    fn put(&self, texts: &mut Vec<String>) {
        for text in [&self.name, &self.teaches, &self.file] {
            text.put(texts);
        }
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            name: Wire::take(texts)?,
            teaches: Wire::take(texts)?,
            file: Wire::take(texts)?,
        })
    }
}

/// The edges: their figures for the judgment, and what is read of them.
#[derive(Clone, Debug, PartialEq)]
pub struct EdgesTold {
    /// The figures.
    pub edges: Edges,
    /// What is read.
    pub passage: Told,
}

/// The words of the figures, then, on a line of its own, the passage.
impl fmt::Display for EdgesTold {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}\n{}", edges::Part::Found(Box::new(self.edges)), write(&self.passage))
    }
}

/// The words are not those of edges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotEdges;

impl FromStr for EdgesTold {
    type Err = NotEdges;

    fn from_str(text: &str) -> Result<Self, NotEdges> {
        let (edges, passage) = text.split_once('\n').ok_or(NotEdges)?;
        let Ok(edges::Part::Found(edges)) = edges.parse() else {
            return Err(NotEdges);
        };
        let passage = read(passage).ok_or(NotEdges)?;
        Ok(Self { edges: *edges, passage })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::service::order::Job;

    #[test]
    fn whatever_is_told_is_news_with_an_end() {
        let design = Design::demonstration();
        for job in [Job::Strip, Job::Examples, Job::Route, Job::Samples] {
            let told: Vec<News> = job.clone().news(&design).collect();
            assert!(!told.is_empty());
            for news in &told {
                assert_eq!(news.to_string().parse().as_ref(), Ok(news));
            }
            assert!(matches!(told.last(), Some(News::Found(_))), "{job:?}");
        }
    }

    #[test]
    fn a_passage_and_bands_survive_their_words() {
        let design = Design::demonstration();
        let Some(News::Found(route)) = Job::Route.news(&design).last() else {
            panic!("no route");
        };
        let told = Told::read(&route).unwrap();
        assert_eq!(write(&told), route);
        assert_ne!(told.metric, told.us);
        let Some(News::Found(bands)) = Job::Samples.news(&design).last() else {
            panic!("no bands");
        };
        let bands = Bands::read(&bands).unwrap();
        assert_eq!(bands.gas.len(), design.path.run_count + 3);
    }
}
