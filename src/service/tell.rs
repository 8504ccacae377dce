//! What each job tells, piece by piece.

use super::news::News;
use super::wire::{Texts, Wire, read, write};
use super::{Bands, DrawnCourse, InUnits, Room, Told};
use crate::analysis::day::Setup;
use crate::analysis::path::path;
use crate::analysis::standard_route::standard_route;
use crate::analysis::{Analysis, Failure, analyze};
use crate::courses::brick::Bricks;
use crate::courses::plans;
use crate::design::Design;
use crate::design::document;
use crate::design::examples::Example;
use crate::design::field::{FIELDS, Field};
use crate::design::link;
use crate::rules::{Edges, conditions};
use crate::sources::{ALL, Entry, Source};
use crate::study::trials::{Trial, Trials, Tried, mild_day_near};
use crate::study::working::{Inputs, Shown};
use crate::study::{day, edges, remedy, strip, uncertainty};
use crate::units::System;
use crate::words;
use crate::words::passage::Passage;
use std::fmt;
use std::str::FromStr;

/// News, each found when it is asked for.
pub(super) type Telling = Box<dyn Iterator<Item = News>>;

pub(super) fn failed(failure: &Failure) -> News {
    News::Failed(InUnits::say(|system| words::failure(failure, system)))
}

/// All columns at once, each in a line: the page is made anew for each of the news.
pub(super) fn strip(design: &Design) -> Telling {
    let design = design.clone();
    Box::new(std::iter::once_with(move || {
        let columns = strip::Strip::new(&design).map(|column| column.to_string());
        News::Found(columns.collect::<Vec<_>>().join("\n"))
    }))
}

/// The day of the design in its parts with what it makes of the house, then a mild day.
pub(super) fn day(design: &Design) -> Telling {
    let of = 3;
    let (mut parts, mut first) = (day::Parts::new(design), None);
    let stated = design.clone();
    let (mut mild_is_open, mut end) = (true, None);
    let told = std::iter::from_fn(move || {
        Some(match parts.next() {
            Some(day::Part::Begun) => vec![News::Progress { done: 0, of }],
            Some(day::Part::Failed(failure)) => {
                end = Some(failed(&failure));
                let part = DayTold::Part(Box::new(day::Part::Failed(failure)));
                vec![News::Found(part.to_string())]
            }
            Some(day::Part::First(found)) => {
                first = Some(found.state.clone());
                let part = DayTold::Part(Box::new(day::Part::First(found)));
                vec![News::Found(part.to_string()), News::Progress { done: 1, of }]
            }
            Some(day::Part::Repeating(repeating)) => {
                let house = first.as_ref().and_then(|first| {
                    house(&stated, words::house::Days { first, repeating: &repeating })
                });
                let part = DayTold::Part(Box::new(day::Part::Repeating(repeating)));
                let told = std::iter::once(part).chain(house.map(DayTold::House));
                told.map(|told| News::Found(told.to_string()))
                    .chain([News::Progress { done: 2, of }])
                    .collect()
            }
            None if std::mem::take(&mut mild_is_open) => {
                let day = mild_day_near(&stated, &Setup::STANDARD, parts.standing());
                let told = day.map(|day| Tried { trial: Trial::MildDay, day });
                let told = told.map(|tried| News::Found(DayTold::Mild(tried).to_string()));
                told.into_iter().chain(end.take()).collect()
            }
            None => return None,
        })
    });
    Box::new(told.flatten())
}

fn house(design: &Design, days: words::house::Days<'_>) -> Option<Told> {
    let analysis = analyze(design).ok()?;
    let say = |system| {
        let house = words::house::passage(design, &analysis, Some(days), system);
        match words::day::beyond_formulas(days.repeating, system) {
            Some(beyond) => house.folded(beyond),
            None => house,
        }
    };
    Some(InUnits::say(say))
}

/// How the figures of a design came about, each by its id, the last under no id all of them.
pub(super) fn working(design: &Design) -> Telling {
    let design = design.clone();
    Box::new(std::iter::once_with(move || match Inputs::new(&design) {
        Ok(inputs) => {
            let say = |shown| {
                let told: Told =
                    InUnits::say(|system| words::working::figure(&inputs, shown, system));
                (shown.id(), told)
            };
            let figures: Vec<_> =
                Shown::of(design.path.run_count).into_iter().map(say).collect();
            let all: Told = InUnits::say(|system| words::working::choice(&inputs, system));
            News::Found(write(&Workings { figures, all }))
        }
        Err(failure) => failed(&failure),
    }))
}

/// What is only read of a design and its analysis.
pub(super) fn read_of(
    design: &Design,
    say: fn(&Design, &Analysis, System) -> Passage,
) -> Telling {
    let design = design.clone();
    Box::new(std::iter::once_with(move || match analyze(&design) {
        Ok(analysis) => {
            let told: Told = InUnits::say(|system| say(&design, &analysis, system));
            News::Found(write(&told))
        }
        Err(failure) => failed(&failure),
    }))
}

pub(super) fn courses(design: &Design) -> Telling {
    let design = design.clone();
    Box::new(std::iter::once_with(move || match analyze(&design) {
        Ok(analysis) => {
            let plans = plans(&design, Bricks::of(&design));
            let say = |system| words::courses::passage(&design, &analysis, &plans, system);
            let told: Told = InUnits::say(say);
            News::Found(write(&told))
        }
        Err(failure) => failed(&failure),
    }))
}

/// The draft of two fires on two days.
pub(super) fn two_days(design: &Design) -> Telling {
    let design = design.clone();
    Box::new(std::iter::once_with(move || match analyze(&design) {
        Ok(analysis) => {
            let all = conditions(&design, &analysis);
            let told: Told = InUnits::say(|system| words::conditions::passage(&all, system));
            News::Found(write(&told))
        }
        Err(failure) => failed(&failure),
    }))
}

/// A course, or the last where there are not so many.
pub(super) fn plan(design: &Design, system: System, at: usize, room: Room) -> Telling {
    let design = design.clone();
    Box::new(std::iter::once_with(move || {
        let plans = plans(&design, Bricks::of(&design));
        let at = at.min(plans.courses.len().saturating_sub(1));
        let told = DrawnCourse::new(&plans, at, system, room).unwrap_or_default();
        News::Found(write(&told))
    }))
}

pub(super) fn link(design: &Design, pinned: &[Design]) -> Telling {
    let (design, pinned) = (design.clone(), pinned.to_vec());
    Box::new(std::iter::once_with(move || News::Found(link::encode_pinned(&design, &pinned))))
}

pub(super) fn sources() -> Telling {
    let line = |entry: &Entry| words::sources::cited(entry.source);
    let register = Register {
        lines: ALL.iter().map(line).collect(),
        passage: InUnits::say(|_| words::sources::passage()),
    };
    Box::new(std::iter::once(News::Found(write(&register))))
}

pub(super) fn guide() -> Telling {
    let of_field = |field: &Field| (field.link.to_owned(), words::glossary::terms(field.id));
    let stops = words::walk::STOPS.iter();
    let guide = Guide {
        glossary: words::glossary::passage(),
        terms: FIELDS.iter().map(of_field).collect(),
        walk: stops.map(|(title, text)| (title.said().into(), text.said().into())).collect(),
    };
    Box::new(std::iter::once(News::Found(write(&guide))))
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
            let none = || words::uncertainty::NOTHING.said().to_owned();
            News::Failed(InUnits { metric: none(), us: none() })
        }
    }))
}

pub(super) fn edges(design: &Design) -> Telling {
    let (parts, design) = (edges::Parts::new(design), design.clone());
    let of = usize::try_from(edges::ENOUGH).unwrap_or(usize::MAX);
    Box::new(parts.flat_map(move |part| match part {
        edges::Part::Begun => vec![News::Progress { done: 0, of }],
        edges::Part::Done(done) => vec![News::Progress { done, of }],
        edges::Part::Failed(failure) => {
            let end = failed(&failure);
            let passage = InUnits::say(|_| Passage::new(words::edges::TITLE));
            vec![News::Found(EdgesTold { edges: Err(failure), passage }.to_string()), end]
        }
        edges::Part::Found(edges) => {
            let say = |system| words::edges::passage(&design, &edges, system);
            let told = EdgesTold { edges: Ok(*edges), passage: InUnits::say(say) };
            vec![News::Found(told.to_string())]
        }
    }))
}

pub(super) fn remedies(design: &Design, system: System) -> Telling {
    let parts = remedy::Remedies::new(design, system);
    let told = move |part| match part {
        remedy::Part::Found(key, remedies) => {
            let told = |each| words::remedy::told(each, system);
            remedy::Part::Found(key, remedies.into_iter().map(told).collect())
        }
        remedy::Part::Working => remedy::Part::Working,
    };
    Box::new(parts.map(move |part| News::Found(told(part).to_string())))
}

/// A piece of what is told of a day.
#[derive(Clone, Debug, PartialEq)]
pub enum DayTold {
    /// A part of the day.
    Part(Box<day::Part>),
    /// What it makes of the house.
    House(Told),
    /// What is judged of a mild day.
    Mild(Tried),
}

/// Its kind, then its words.
impl fmt::Display for DayTold {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Part(part) => write!(f, "part {part}"),
            Self::House(told) => write!(f, "house {}", write(told)),
            Self::Mild(tried) => write!(f, "mild {tried}"),
        }
    }
}

/// The words are not those of a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotADay;

impl FromStr for DayTold {
    type Err = NotADay;

    fn from_str(text: &str) -> Result<Self, NotADay> {
        let (kind, rest) = text.split_once(' ').ok_or(NotADay)?;
        match kind {
            "part" => rest.parse().map(Box::new).map(Self::Part).map_err(|_| NotADay),
            "house" => read(rest).map(Self::House).ok_or(NotADay),
            "mild" => rest.parse().map(Self::Mild).map_err(|_| NotADay),
            _ => Err(NotADay),
        }
    }
}

/// The register of sources.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Register {
    /// Each as it stands behind a figure, in the order of their places.
    lines: Vec<String>,
    /// All of it.
    pub passage: Told,
}

impl Register {
    /// Reads what was told.
    pub fn read(words: &str) -> Option<Self> {
        read(words)
    }

    /// A source as it stands behind a figure.
    pub fn line(&self, source: &Source) -> Option<&str> {
        self.lines.get(source.place()).map(String::as_str)
    }
}

impl Wire for Register {
    fn put(&self, texts: &mut Vec<String>) {
        self.lines.put(texts);
        self.passage.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self { lines: Wire::take(texts)?, passage: Wire::take(texts)? })
    }
}

/// What explains words and page; the same in either system of units.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Guide {
    /// All words of the trade.
    pub glossary: Passage,
    /// Those of each input, by its key in links.
    terms: Vec<(String, Vec<String>)>,
    /// The stops of the walk: heading and text.
    pub walk: Vec<(String, String)>,
}

impl Guide {
    /// Reads what was told.
    pub fn read(words: &str) -> Option<Self> {
        read(words)
    }

    /// The words of an input, explained.
    pub fn terms(&self, field: &Field) -> &[String] {
        let found = self.terms.iter().find(|(of, _)| *of == field.link);
        found.map_or(&[], |(_, terms)| terms)
    }
}

impl Wire for Guide {
    fn put(&self, texts: &mut Vec<String>) {
        self.glossary.put(texts);
        self.terms.put(texts);
        self.walk.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            glossary: Wire::take(texts)?,
            terms: Wire::take(texts)?,
            walk: Wire::take(texts)?,
        })
    }
}

/// How the figures of a design came about.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Workings {
    /// Each figure by its id.
    figures: Vec<(String, Told)>,
    /// Those at the head of the page, to choose from.
    pub all: Told,
}

impl Workings {
    /// Reads what was told.
    pub fn read(words: &str) -> Option<Self> {
        read(words)
    }

    /// How a figure came about.
    pub fn figure(&self, shown: Shown) -> Option<&Told> {
        let id = shown.id();
        self.figures.iter().find(|(of, _)| *of == id).map(|(_, told)| told)
    }
}

impl Wire for Workings {
    fn put(&self, texts: &mut Vec<String>) {
        self.figures.put(texts);
        self.all.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self { figures: Wire::take(texts)?, all: Wire::take(texts)? })
    }
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
    /// The figures, or why there are none.
    pub edges: Result<Edges, Failure>,
    /// What is read.
    pub passage: Told,
}

/// The words of the figures, then, on a line of its own, the passage.
impl fmt::Display for EdgesTold {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let part = match &self.edges {
            Ok(edges) => edges::Part::Found(Box::new(*edges)),
            Err(failure) => edges::Part::Failed(failure.clone()),
        };
        write!(f, "{part}\n{}", write(&self.passage))
    }
}

/// The words are not those of edges.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotEdges;

impl FromStr for EdgesTold {
    type Err = NotEdges;

    fn from_str(text: &str) -> Result<Self, NotEdges> {
        let (edges, passage) = text.split_once('\n').ok_or(NotEdges)?;
        let edges = match edges.parse() {
            Ok(edges::Part::Found(edges)) => Ok(*edges),
            Ok(edges::Part::Failed(failure)) => Err(failure),
            _ => return Err(NotEdges),
        };
        let passage = read(passage).ok_or(NotEdges)?;
        Ok(Self { edges, passage })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::AirControl;
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

    /// A low chimney and narrow runs, the air left to the draft: the fire goes out, however much wood.
    #[test]
    fn why_there_is_no_day_is_told_for_the_judgment_too() {
        let mut design = Design::demonstration();
        design.fire.air = AirControl::Draft;
        design.chimney.mouth_height = 4.0;
        design.path.run_height = 0.12;
        let failure = Failure::FireStarved;
        let news: Vec<News> = Job::Day.news(&design).collect();
        let parts = news.iter().filter_map(|news| match news {
            News::Found(words) => words.parse::<DayTold>().ok(),
            _ => None,
        });
        let told = DayTold::Part(Box::new(day::Part::Failed(failure.clone())));
        assert!(parts.into_iter().any(|part| part == told), "{news:?}");
        assert_eq!(news.last(), Some(&failed(&failure)));
        let news: Vec<News> = Job::Edges.news(&design).collect();
        let [.., News::Found(words), end] = news.as_slice() else { panic!("{news:?}") };
        assert_eq!(words.parse::<EdgesTold>().unwrap().edges, Err(failure.clone()));
        assert_eq!(*end, failed(&failure));
    }

    #[test]
    fn the_guide_survives_its_words() {
        let Some(News::Found(told)) = Job::Guide.news(&Design::demonstration()).next() else {
            panic!("no guide");
        };
        let guide = Guide::read(&told).unwrap();
        assert_eq!(write(&guide), told);
        let count = &FIELDS[0];
        assert_eq!(guide.terms(count), words::glossary::terms(count.id));
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
