//! Safety at its unfavorable edge: the day that repeats with an overload, many times over.
//!
//! One day is computed as finely as the page shows it. What the spreads change in it is found on a
//! coarse day, which is a few kelvin off but off by the same in all samples.

mod deciding;

pub use deciding::Deciding;

use super::day::{failure_from_id, failure_id, place_number, place_of};
use super::sort_few;
use super::uncertainty::{Plan, Setup as Samples, Spread, SpreadId, Target, quantile, ratio};
use crate::analysis::day::{
    DayState, FacePlace, Repeating, Setup, repeating_alone, repeating_near,
};
use crate::analysis::factors::Factors;
use crate::analysis::{Failure, analyze, analyze_with};
use crate::design::Design;
use crate::design::field::FieldId;
use crate::rules::{BEYOND, Edges, OVERLOAD, TemperatureEdge, TimeEdge, air_it_gets};
use crate::units::{ZERO_CELSIUS, float};
use std::fmt;
use std::ops::Range;
use std::str::FromStr;

/// Samples after which 95 in 100 stand within some kelvins of those of many more.
pub const ENOUGH: u32 = 40;

/// Number of figures of a day that are judged, in the order of [`pairs`].
const FIGURES: usize = 18;
/// Places of those that are times; most of them are zero, so no deviation tells anything of them.
const TIMES: Range<usize> = 6..8;

/// Figures of a day with an overload, in the order of [`pairs`] (K, s).
#[derive(Clone, Copy, Debug, PartialEq)]
struct Peaks {
    figures: [f64; FIGURES],
    /// Least draft to spare (Pa).
    margin: f64,
}

impl Peaks {
    fn of(state: &DayState) -> Self {
        let DayState { peak, draft, .. } = state;
        let mut figures = [0.0; FIGURES];
        let mut layers = peak.layers;
        let all = [
            peak.chimney_inlet.temperature,
            peak.firebox_outlet.temperature,
            peak.surface.temperature,
            peak.wall_behind.map_or(0.0, |at| at.temperature),
            peak.upright,
            peak.bench,
            draft.short_of_draft_s,
            draft.smoke_back_s,
        ];
        let all = all.into_iter().chain(layers.figures().into_iter().map(|figure| *figure));
        for (figure, value) in figures.iter_mut().zip(all) {
            *figure = value;
        }
        Self { figures, margin: draft.least_margin_pascals }
    }

    fn at(&self, place: usize) -> f64 {
        self.figures.get(place).copied().unwrap_or_default()
    }
}

/// Each figure of a day as it is reckoned and at its edge.
fn pairs(edges: &mut Edges) -> impl Iterator<Item = [&mut f64; 2]> {
    split(edges).0
}

/// The same, and what belongs to no day.
fn split(edges: &mut Edges) -> (impl Iterator<Item = [&mut f64; 2]>, [&mut f64; 5]) {
    let Edges {
        air_ratio,
        mouth_wall,
        wet_wall_fraction,
        frozen_wall_fraction,
        peak_gas,
        peak_firebox,
        hottest_face,
        wall_behind,
        upright,
        bench,
        short_of_draft,
        smoke_back,
        layers,
        layers_edge,
        ..
    } = edges;
    let hot = [peak_gas, peak_firebox, hottest_face, wall_behind, upright, bench];
    let hot = hot.into_iter().map(|TemperatureEdge { nominal, edge }| [nominal, edge]);
    let times = [short_of_draft, smoke_back];
    let times = times.into_iter().map(|TimeEdge { nominal, edge }| [nominal, edge]);
    let layers = layers.figures().into_iter().zip(layers_edge.figures());
    let of_days = hot.chain(times).chain(layers.map(|(nominal, edge)| [nominal, edge]));
    let TemperatureEdge { nominal, edge } = mouth_wall;
    (of_days, [air_ratio, nominal, edge, wet_wall_fraction, frozen_wall_fraction])
}

/// The wall at the mouth at the height of the fire (K).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Mouth {
    wall: f64,
    dew_point: f64,
}

impl Mouth {
    fn is_wet(&self) -> bool {
        self.wall < self.dew_point
    }

    fn is_frozen(&self) -> bool {
        self.wall < ZERO_CELSIUS
    }
}

/// One sample.
#[derive(Clone, Debug, PartialEq)]
pub struct Sample {
    index: usize,
    outcome: Result<(Peaks, Mouth), Failure>,
}

impl Sample {
    /// Its place among all samples.
    pub const fn index(&self) -> usize {
        self.index
    }
}

/// A design with its overload, as it stands.
#[derive(Clone, Debug, PartialEq)]
pub struct Nominal {
    peaks: Peaks,
    place: FacePlace,
    mouth: Mouth,
    /// Air over stoichiometric air that the overloaded fire gets (–).
    air_ratio: f64,
}

impl Nominal {
    /// Computes the day as it stands, finely.
    ///
    /// # Errors
    ///
    /// [`Failure`]: why there is no such day.
    pub fn new(design: &Design) -> Result<Self, Failure> {
        let overloaded = overloaded(design);
        let mouth = mouth(design, &Factors::NOMINAL)?;
        let air_ratio = air_it_gets(&analyze(&overloaded)?);
        let fine = repeating_alone(&overloaded, &Setup::STANDARD)?;
        let place = fine.state.peak.surface_place;
        Ok(Self { peaks: Peaks::of(&fine.state), place, mouth, air_ratio })
    }
}

/// The samples of a design, each found by itself.
#[derive(Clone, Debug)]
pub struct Cases {
    stated: Design,
    plan: Plan,
    seed: u64,
    /// As it stands, coarsely.
    coarse: Repeating,
}

/// Some samples, beside the coarse day from which they differ.
#[derive(Clone, Debug, PartialEq)]
pub struct Sampled {
    coarse: Peaks,
    samples: Vec<Sample>,
}

impl Cases {
    /// Computes the coarse day as it stands.
    ///
    /// # Errors
    ///
    /// [`Failure`]: why there is no such day.
    pub fn new(design: &Design) -> Result<Self, Failure> {
        Self::with(design, enough())
    }

    fn with(design: &Design, samples: Samples) -> Result<Self, Failure> {
        let overloaded = overloaded(design);
        let coarse = repeating_alone(&overloaded, &Setup::COARSE)?;
        let (stated, seed) = (design.clone(), samples.seed);
        Ok(Self { stated, seed, plan: Plan::new(&overloaded, samples), coarse })
    }

    /// Computes the samples of some places.
    pub fn sampled(&self, places: Range<usize>) -> Sampled {
        let samples = places.filter_map(|index| self.sample(index)).collect();
        Sampled { coarse: Peaks::of(&self.coarse.state), samples }
    }

    fn sample(&self, index: usize) -> Option<Sample> {
        let outcome = |index| Sample { index, outcome: self.outcome(index) };
        (index < self.plan.len()).then(|| outcome(index))
    }

    fn outcome(&self, index: usize) -> Result<(Peaks, Mouth), Failure> {
        let (mut design, factors) = self.plan.varied(index);
        let setup = Setup { factors, ..Setup::COARSE };
        let peaks = Peaks::of(&repeating_near(&design, &setup, &self.coarse)?.state);
        design.fire.charge = self.stated.fire.charge;
        Ok((peaks, mouth(&design, &factors)?))
    }
}

/// What all samples of a design say together, found in parts.
///
/// # Errors
///
/// As [`Study::sum_up`].
pub fn summed_up(nominal: &Nominal, parts: &[Sampled]) -> Result<Edges, Failure> {
    let samples: Vec<Sample> = parts.iter().flat_map(|part| part.samples.clone()).collect();
    let coarse = parts.first().map_or(&nominal.peaks, |part| &part.coarse);
    summed_up_from((nominal, coarse), enough().seed, &samples)
}

/// A design with its overload, as it stands, and its samples.
#[derive(Clone, Debug)]
pub struct Study {
    nominal: Nominal,
    cases: Cases,
}

impl Study {
    /// Computes the day as it stands.
    ///
    /// # Errors
    ///
    /// [`Failure`]: why there is no such day.
    pub fn new(design: &Design) -> Result<Self, Failure> {
        Self::with(design, enough())
    }

    /// The same with other samples.
    ///
    /// # Errors
    ///
    /// As [`Study::new`].
    pub fn with(design: &Design, samples: Samples) -> Result<Self, Failure> {
        Ok(Self { nominal: Nominal::new(design)?, cases: Cases::with(design, samples)? })
    }

    /// Number of samples.
    pub fn len(&self) -> usize {
        self.cases.plan.len()
    }

    /// Whether there are no samples.
    pub fn is_empty(&self) -> bool {
        self.cases.plan.is_empty()
    }

    /// Computes one sample, by its place from 0; none past the last.
    pub fn sample(&self, index: usize) -> Option<Sample> {
        self.cases.sample(index)
    }

    /// What samples say together, in whatever order they were made.
    ///
    /// # Errors
    ///
    /// The [`Failure`] of a sample where more than 5 of 100 have no figures.
    pub fn sum_up(&self, samples: &[Sample]) -> Result<Edges, Failure> {
        summed_up_from((&self.nominal, &self.coarse()), self.cases.seed, samples)
    }

    /// As it stands, coarsely.
    fn coarse(&self) -> Peaks {
        Peaks::of(&self.cases.coarse.state)
    }
}

fn summed_up_from(
    (nominal, coarse): (&Nominal, &Peaks),
    seed: u64,
    samples: &[Sample],
) -> Result<Edges, Failure> {
    let mut sorted: Vec<&Sample> = samples.iter().collect();
    sort_few(&mut sorted, |one, other| one.index.cmp(&other.index));
    let found: Vec<(Peaks, Mouth)> =
        sorted.iter().filter_map(|sample| sample.outcome.clone().ok()).collect();
    let mut failures = sorted.iter().filter_map(|sample| sample.outcome.as_ref().err());
    let failed = sorted.len() - found.len();
    if let Some(failure) = failures.next_back().filter(|_| BEYOND < ratio(failed, sorted.len()))
    {
        return Err(failure.clone());
    }
    let mut edges = Edges {
        samples: sorted.len(),
        seed,
        failed,
        hottest_place: nominal.place,
        air_ratio: nominal.air_ratio,
        ..Edges::default()
    };
    for (place, [stands, edge]) in pairs(&mut edges).enumerate() {
        let rises = found.iter().map(|(peaks, _)| peaks.at(place) - coarse.at(place));
        let rises: Vec<f64> = rises.collect();
        *stands = nominal.peaks.at(place);
        let rise =
            if TIMES.contains(&place) { quantile_of(rises).max(0.0) } else { beyond(rises) };
        *edge = *stands + rise;
    }
    let mouths: Vec<Mouth> = found.iter().map(|(_, mouth)| *mouth).collect();
    sum_up_mouth(&mut edges, nominal.mouth, &mouths);
    Ok(edges)
}

/// A rise of a sample that is not known, below any that is (K).
const UNKNOWN: f64 = -1e6;

impl Study {
    /// What the edges are at least, whatever the samples come to that are not known yet.
    pub fn at_least(&self, samples: &[Sample]) -> Edges {
        let found = || samples.iter().filter_map(|sample| sample.outcome.as_ref().ok());
        let unknown = self.len() - found().count();
        let coarse = self.coarse();
        let Nominal { peaks: stands, place, mouth, air_ratio } = &self.nominal;
        let mut edges =
            Edges { hottest_place: *place, air_ratio: *air_ratio, ..Edges::default() };
        let least = |rises: &mut dyn Iterator<Item = f64>| {
            let rises = rises.chain(std::iter::repeat_n(UNKNOWN, unknown)).collect();
            quantile_of(rises).max(0.0)
        };
        for (place, [nominal, edge]) in pairs(&mut edges).enumerate() {
            let mut rises = found().map(|(peaks, _)| peaks.at(place) - coarse.at(place));
            *nominal = stands.at(place);
            *edge = *nominal + least(&mut rises);
        }
        let wall = mouth.wall;
        let fall = least(&mut found().map(|(_, mouth)| wall - mouth.wall));
        edges.mouth_wall = TemperatureEdge { nominal: wall, edge: wall - fall };
        let share = |is: fn(&Mouth) -> bool| {
            ratio(found().filter(|(_, mouth)| is(mouth)).count(), self.len())
        };
        edges.wet_wall_fraction = share(Mouth::is_wet);
        edges.frozen_wall_fraction = share(Mouth::is_frozen);
        edges
    }
}

/// The edges of a design with all samples.
///
/// # Errors
///
/// [`Failure`]: why there are none.
pub fn edges(design: &Design) -> Result<Edges, Failure> {
    let study = Study::new(design)?;
    let samples: Vec<Sample> =
        (0..study.len()).filter_map(|index| study.sample(index)).collect();
    study.sum_up(&samples)
}

/// The wall at the mouth among its samples.
fn sum_up_mouth(edges: &mut Edges, nominal: Mouth, found: &[Mouth]) {
    let falls = found.iter().map(|mouth| nominal.wall - mouth.wall).collect();
    let share = |is: fn(&Mouth) -> bool| {
        ratio(found.iter().filter(|mouth| is(mouth)).count(), found.len().max(1))
    };
    edges.mouth_wall =
        TemperatureEdge { nominal: nominal.wall, edge: nominal.wall - beyond(falls) };
    edges.wet_wall_fraction = share(Mouth::is_wet);
    edges.frozen_wall_fraction = share(Mouth::is_frozen);
}

/// The same heater with more wood in each firing than is stated, as far as any can take.
pub fn overloaded(design: &Design) -> Design {
    let mut design = design.clone();
    let most = *Target::Input(FieldId::Charge).possible().end();
    design.fire.charge = (OVERLOAD * design.fire.charge).min(most).max(design.fire.charge);
    design
}

fn mouth(design: &Design, factors: &Factors) -> Result<Mouth, Failure> {
    let fire = analyze_with(design, factors)?.height_of_fire;
    Ok(Mouth { wall: fire.chimney_mouth_wall, dew_point: fire.dew_point })
}

/// Standard deviations above the mean beyond which 5 in 100 lie, of a normal distribution (–).
const DEVIATIONS_95: f64 = 1.6448536269514722;

/// How much worse than as it stands 5 of 100 cases are; never better.
///
/// Of few samples a quantile stands on the two or three worst; mean and deviation use all, but
/// know no skew. The worse of the two counts.
fn beyond(worse: Vec<f64>) -> f64 {
    let count = ratio(worse.len(), 1);
    let mean = worse.iter().sum::<f64>() / count;
    let square = worse.iter().map(|each| (each - mean) * (each - mean)).sum::<f64>();
    let deviation = (square / (count - 1.0).max(1.0)).sqrt();
    (mean + DEVIATIONS_95 * deviation).max(quantile_of(worse)).max(0.0)
}

fn quantile_of(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    quantile(&values, 1.0 - BEYOND)
}

/// The samples of every study.
fn enough() -> Samples {
    let mut samples = Samples::standard(ENOUGH);
    samples.spreads.retain(is_varied);
    samples
}

/// Whether a spread bears on what is judged here.
pub fn is_varied(spread: &Spread) -> bool {
    !matches!(spread.id, SpreadId::KindlingRate | SpreadId::KindlingExcessAir)
}

impl Nominal {
    /// As words, without rounding: its place, its air, then every figure.
    pub fn words(&self) -> String {
        let place = ratio(place_number(self.place), 1);
        row(&[&[place, self.air_ratio], figures_of(&self.peaks, self.mouth).as_slice()]
            .concat())
    }

    /// Reads its words.
    pub fn read(words: &str) -> Option<Self> {
        let figures = read_row(words)?;
        let (first, rest) = figures.split_at_checked(2)?;
        let [place, air_ratio] = first else { return None };
        let place = place_of(index_of(*place)?);
        let (peaks, mouth) = read_figures(rest)?;
        Some(Self { peaks, place, mouth, air_ratio: *air_ratio })
    }
}

impl Sampled {
    /// As words, without rounding: the coarse day, then each sample in a line, its place with its
    /// figures; a sample without figures is its place alone.
    pub fn words(&self) -> String {
        let coarse = row(&figures_of(&self.coarse, Mouth::default()));
        let sample = |sample: &Sample| {
            let mut figures = vec![ratio(sample.index, 1)];
            if let Ok((peaks, mouth)) = &sample.outcome {
                figures.extend(figures_of(peaks, *mouth));
            }
            row(&figures)
        };
        let rows = std::iter::once(coarse).chain(self.samples.iter().map(sample));
        rows.collect::<Vec<_>>().join("\n")
    }

    /// Reads its words. Why a sample has no figures is not among them.
    pub fn read(words: &str) -> Option<Self> {
        let mut rows = words.split('\n').map(read_row);
        let (coarse, _) = read_figures(&rows.next()??)?;
        let sample = |row: Option<Vec<f64>>| {
            let row = row?;
            let (index, figures) = row.split_first()?;
            let outcome = if figures.is_empty() {
                Err(Failure::NotFinite)
            } else {
                Ok(read_figures(figures)?)
            };
            Some(Sample { index: index_of(*index)?, outcome })
        };
        Some(Self { coarse, samples: rows.map(sample).collect::<Option<_>>()? })
    }
}

fn row(figures: &[f64]) -> String {
    figures.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
}

fn read_row(words: &str) -> Option<Vec<f64>> {
    words.split(' ').map(float).collect()
}

fn figures_of(peaks: &Peaks, mouth: Mouth) -> Vec<f64> {
    [&peaks.figures, [peaks.margin, mouth.wall, mouth.dew_point].as_slice()].concat()
}

fn read_figures(figures: &[f64]) -> Option<(Peaks, Mouth)> {
    let (figures, rest) = figures.split_first_chunk::<FIGURES>()?;
    let [margin, wall, dew_point] = rest else { return None };
    let peaks = Peaks { figures: *figures, margin: *margin };
    Some((peaks, Mouth { wall: *wall, dew_point: *dew_point }))
}

/// A place that came as a figure.
fn index_of(figure: f64) -> Option<usize> {
    (0..1000).find(|index| (ratio(*index, 1) - figure).abs() < 0.5)
}

/// What is told of it, in this order.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// It has begun.
    Begun,
    /// So many samples are computed.
    Done(usize),
    /// What all of them say together; the last part.
    Found(Box<Edges>),
    /// Why there are no edges; the last part then.
    Failed(Failure),
}

/// The parts, one by one.
#[derive(Clone, Debug)]
pub struct Parts {
    design: Design,
    next: Next,
    samples: Vec<Sample>,
}

#[derive(Clone, Debug)]
enum Next {
    Begin,
    Nominal,
    Samples(Box<Study>),
    Nothing,
}

impl Parts {
    /// The edges of a design.
    pub fn new(design: &Design) -> Self {
        Self { design: design.clone(), next: Next::Begin, samples: Vec::new() }
    }
}

impl Iterator for Parts {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        match std::mem::replace(&mut self.next, Next::Nothing) {
            Next::Begin => {
                self.next = Next::Nominal;
                Some(Part::Begun)
            }
            Next::Nominal => Some(match Study::new(&self.design) {
                Ok(study) => {
                    self.next = Next::Samples(Box::new(study));
                    Part::Done(0)
                }
                Err(failure) => Part::Failed(failure),
            }),
            Next::Samples(study) => Some(match study.sample(self.samples.len()) {
                Some(sample) => {
                    self.samples.push(sample);
                    self.next = Next::Samples(study);
                    Part::Done(self.samples.len())
                }
                None => match study.sum_up(&self.samples) {
                    Ok(edges) => Part::Found(Box::new(edges)),
                    Err(failure) => Part::Failed(failure),
                },
            }),
            Next::Nothing => None,
        }
    }
}

/// As words, without rounding.
impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Begun => f.write_str("begun"),
            Self::Done(count) => write!(f, "done {count}"),
            Self::Found(edges) => {
                let place = place_number(edges.hottest_place);
                let Edges { samples, seed, failed, .. } = **edges;
                write!(f, "found {samples} {seed} {failed} {place}")?;
                figures(&mut (**edges).clone()).iter().try_for_each(|each| write!(f, " {each}"))
            }
            Self::Failed(failure) => write!(f, "failed {}", failure_id(failure)),
        }
    }
}

/// The words are not those of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAPart;

impl FromStr for Part {
    type Err = NotAPart;

    fn from_str(text: &str) -> Result<Self, NotAPart> {
        let mut words = text.split(' ');
        let part = match words.next() {
            Some("begun") => Some(Self::Begun),
            Some("done") => words.next().and_then(|word| word.parse().ok()).map(Self::Done),
            Some("found") => read(words).map(|edges| Self::Found(Box::new(edges))),
            Some("failed") => words.next().and_then(failure_from_id).map(Self::Failed),
            _ => None,
        };
        part.ok_or(NotAPart)
    }
}

fn read<'a>(mut words: impl Iterator<Item = &'a str>) -> Option<Edges> {
    let mut edges = Edges {
        samples: words.next()?.parse().ok()?,
        seed: words.next()?.parse().ok()?,
        failed: words.next()?.parse().ok()?,
        hottest_place: place_of(words.next()?.parse().ok()?),
        ..Edges::default()
    };
    for figure in figures(&mut edges) {
        *figure = float(words.next()?)?;
    }
    Some(edges)
}

/// Every figure in the order of a message.
fn figures(edges: &mut Edges) -> Vec<&mut f64> {
    let (of_days, others) = split(edges);
    others.into_iter().chain(of_days.flatten()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: mean 2, deviation 1, so 3.645 against a 95th of 100 at 2.95; and the other way
    /// around where one sample is far out.
    #[test]
    fn the_worse_of_two_estimates_counts() {
        assert!((beyond(vec![1.0, 2.0, 3.0]) - 3.6448536269514722).abs() < 1e-12);
        let far: Vec<f64> = (0..20).map(|i| if i < 18 { 0.0 } else { 100.0 }).collect();
        assert!((beyond(far) - 100.0).abs() < 1e-9);
        assert!(beyond(vec![-5.0, -4.0, -6.0]).abs() < 1e-12);
        assert!(beyond(vec![0.0; 5]).abs() < 1e-12);
    }

    #[test]
    fn parts_survive_their_words() {
        let edges = Edges {
            samples: 40,
            seed: 1,
            failed: 2,
            peak_gas: TemperatureEdge { nominal: 500.1, edge: 555.5 },
            hottest_place: FacePlace::Run(3),
            wet_wall_fraction: 0.1,
            ..Edges::default()
        };
        let parts = [
            Part::Begun,
            Part::Done(7),
            Part::Found(Box::new(edges)),
            Part::Failed(Failure::NotPeriodic),
        ];
        for part in parts {
            assert_eq!(part.to_string().parse().as_ref(), Ok(&part));
        }
        for text in ["", "done", "found 40 1", "found x", "failed so"] {
            assert_eq!(text.parse::<Part>(), Err(NotAPart), "{text}");
        }
    }

    /// What is found in parts, by way of words, is what is found at once; a sample that failed too.
    #[test]
    fn parts_of_the_samples_sum_up_to_all() {
        let design = Design::demonstration();
        let cases = Cases::new(&design).unwrap();
        let nominal = Nominal::new(&design).unwrap();
        assert_eq!(Nominal::read(&nominal.words()).as_ref(), Some(&nominal));
        let half = usize::try_from(ENOUGH).unwrap() / 2;
        let mut parts = [cases.sampled(half..2 * half), cases.sampled(0..half)];
        let samples = parts.iter().flat_map(|part| part.samples.clone());
        let study = Study { nominal: nominal.clone(), cases };
        let all = study.sum_up(&samples.collect::<Vec<_>>());
        for part in &mut parts {
            *part = Sampled::read(&part.words()).unwrap();
        }
        assert_eq!(summed_up(&nominal, &parts), all);
        parts[0].samples[3].outcome = Err(Failure::NotFinite);
        assert_eq!(Sampled::read(&parts[0].words()).as_ref(), Some(&parts[0]));
        for text in ["", "1 2", " 1 2", "0 x"] {
            assert_eq!((Nominal::read(text), Sampled::read(text)), (None, None), "{text}");
        }
    }
}
