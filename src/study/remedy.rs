//! Remedies: for each finding the values of single decisions with which it would not be made.
//!
//! A decision is moved in steps of a builder, outward from where it stands, and the design judged
//! anew each time; between the first step that passes and the last before it that did not, the
//! search is halved. What is told was judged at the very value that is told, with its days and at
//! the unfavorable edge of its overload.
//!
//! A remedy brings nothing that weighs as much as its finding, unless that is only good to know, and
//! nothing heavier, nor makes it worse. What it does bring is told with it, and remedies that bring
//! less come first.
//!
//! What is judged at the edge is sought with the few cases that decide it in the design as it stands,
//! and what they find then judged with all samples; where it does not pass, so is a value a little
//! farther. Of other findings what they find is judged with those cases alone, so that nothing heavy
//! comes up at the edge instead. The effort is bounded along each lever and for each finding.

mod brought;
mod trial;
mod words;

pub use brought::Brought;
pub use words::NotAPart;

use crate::analysis::Analysis;
use crate::analysis::day::Whole;
use crate::design::Design;
use crate::design::field::{FieldId, Kind, Number, field};
use crate::rules::{Finding, Lever, Rule, Severity, levers};
use crate::study::edges::{Deciding, Sample, Study};
use crate::study::sort_few;
use crate::study::trials::Mild;
use crate::units::{Quantity, System, unit_of};
use std::collections::VecDeque;
use trial::{Aim, Put, Sampling, Trials};

/// Most remedies that are told of a finding.
pub const MOST: usize = 3;
/// Most firing days that are computed along one lever, and for one finding.
const MOST_DAYS: (usize, usize) = (5, 15);
/// Most values that are tried on the cases that decide an edge, likewise.
const MOST_NEAR: (usize, usize) = (4, 8);
/// Most values that are judged at last, for one finding: with all samples where it has an edge.
const MOST_SURE: usize = 2;
/// Steps beyond what the deciding cases find, of the values that are judged with all samples.
const FARTHER: [usize; 2] = [0, 2];

/// A figure that a remedy may cost.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Traded {
    /// Draft to spare (Pa).
    Margin,
    /// Efficiency on the lower heating value (–).
    Efficiency,
    /// Gas into the chimney (K).
    ChimneyInlet,
    /// Wall at the mouth (K).
    MouthWall,
    /// Heat of a day's firings, as a mean (W).
    MeanOutput,
}

impl Traded {
    /// All of them, in the order in which they are told.
    pub const ALL: [Self; 5] =
        [Self::Margin, Self::Efficiency, Self::ChimneyInlet, Self::MouthWall, Self::MeanOutput];

    /// The figure of an analysis, at the height of the fire (SI).
    pub fn of(self, analysis: &Analysis) -> f64 {
        let fire = &analysis.height_of_fire;
        match self {
            Self::Margin => fire.margin,
            Self::Efficiency => fire.efficiency_lower,
            Self::ChimneyInlet => fire.chimney_inlet,
            Self::MouthWall => fire.chimney_mouth_wall,
            Self::MeanOutput => analysis.house.mean_output,
        }
    }

    /// Loss of it that weighs as much as moving a decision over all that is usual (SI): a
    /// convention of this project, for the order in which remedies are told.
    const fn heavy(self) -> Option<f64> {
        match self {
            Self::Margin => Some(6.0),
            Self::Efficiency => Some(0.10),
            Self::MeanOutput => Some(2000.0),
            Self::ChimneyInlet | Self::MouthWall => None,
        }
    }
}

/// Figures before and after, in the order of [`Traded::ALL`] (SI).
pub type Trades = [(f64, f64); Traded::ALL.len()];

/// One decision with which a finding is not made.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// The decision.
    pub field: FieldId,
    /// Its value now (SI).
    pub present: f64,
    /// Its new value (SI).
    pub value: f64,
    /// Weight that the matter of the finding keeps, where it is only made lighter.
    pub leaves: Option<Severity>,
    /// Findings that come with it, lighter than its own or only good to know.
    pub brings: Vec<Brought>,
    /// What changes with it.
    pub trades: Trades,
}

impl Remedy {
    /// Puts the new value into a design.
    pub fn apply(&self, design: &mut Design) {
        if let Some(number) = number(self.field) {
            (number.set)(design, self.value);
        }
    }

    /// What it costs, for the order in which remedies are told (–): how far the decision moves over
    /// its usual range, and what is lost.
    fn cost(&self) -> f64 {
        let usual =
            number(self.field).map_or(1.0, |each| each.usual.end() - each.usual.start());
        let moved = (self.value - self.present).abs() / usual;
        let pairs = Traded::ALL.into_iter().zip(self.trades);
        let lost = pairs.filter_map(|(traded, (before, after))| {
            Some((before - after).max(0.0) / traded.heavy()?)
        });
        moved + lost.sum::<f64>()
    }
}

fn number(id: FieldId) -> Option<&'static Number> {
    match &field(id).kind {
        Kind::Number(number) => Some(number),
        Kind::Choice(_) => None,
    }
}

/// A finding by its name: what is wrong, and where or with which input. A single word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Key(String);

impl Key {
    /// Name of a finding.
    pub fn of(finding: &Finding) -> Self {
        let id = finding.rule.id();
        Self(match finding.rule {
            Rule::InputUnusual(input) => format!("{id}:{}", field(input).link),
            _ => format!("{id}:{:?}", finding.place),
        })
    }
}

/// What is told, piece by piece.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// A lever was tried; more is to come.
    Working,
    /// Everything about a finding: its remedies, the best first, none where no single decision
    /// mends it within its usual range.
    Found(Key, Vec<Remedy>),
}

/// The remedies of a design, finding by finding; judged with the firing day and at the edge.
#[derive(Clone, Debug)]
pub struct Remedies {
    design: Design,
    system: System,
    stage: Stage,
    works: VecDeque<Work>,
}

/// What is known already of a design as it stands.
#[derive(Clone, Debug)]
pub struct Standing {
    /// Its days.
    pub days: (Whole, Option<Mild>),
    /// Its edges, where there are any.
    pub edges: Option<(Study, Vec<Sample>)>,
}

#[derive(Clone, Debug)]
enum Stage {
    Begin(Option<Box<Standing>>),
    /// Its edges are computed.
    Edges(Box<(Trials, Study)>, Vec<Sample>),
    Seek(Box<Trials>),
    /// A value is judged with all samples.
    Sure(Box<Trials>, Box<Sampling>),
    Nothing,
}

/// A finding for which remedies are sought.
#[derive(Clone, Debug)]
struct Work {
    key: Key,
    aim: Aim,
    levers: Vec<Lever>,
    /// Place of the next lever.
    next: usize,
    effort: Effort,
    /// Values yet to be judged with all that is judged, the next one last.
    candidates: Vec<Put>,
    found: Vec<Remedy>,
}

impl Work {
    /// None where nothing is there to be moved.
    fn new(finding: &Finding) -> Option<Self> {
        let levers = levers(finding);
        (!levers.is_empty()).then(|| Self {
            key: Key::of(finding),
            aim: Aim::silence(finding),
            levers,
            next: 0,
            effort: Effort::ALL,
            candidates: Vec::new(),
            found: Vec::new(),
        })
    }
}

/// What may yet be tried.
#[derive(Clone, Copy, Debug)]
struct Effort {
    days: usize,
    near: usize,
    sure: usize,
}

impl Effort {
    const ALL: Self = Self { days: MOST_DAYS.1, near: MOST_NEAR.1, sure: MOST_SURE };
}

impl Remedies {
    /// The remedies of a design, in the steps of a system of units.
    pub fn new(design: &Design, system: System) -> Self {
        let stage = Stage::Begin(None);
        Self { design: design.clone(), system, stage, works: VecDeque::new() }
    }

    /// The same where the design is known as it stands.
    pub fn of(design: &Design, system: System, standing: Standing) -> Self {
        let stage = Stage::Begin(Some(Box::new(standing)));
        Self { stage, ..Self::new(design, system) }
    }

    /// Judges the design as it stands.
    fn begin(&self, standing: Option<Standing>) -> Option<Stage> {
        let (days, edges) = match standing {
            Some(Standing { days, edges }) => (Some(days), edges),
            None => (None, Study::new(&self.design).ok().map(|study| (study, Vec::new()))),
        };
        let trials = Trials::new(&self.design, days)?;
        Some(match edges {
            Some((study, samples)) => Stage::Edges(Box::new((trials, study)), samples),
            None => Stage::Seek(Box::new(trials)),
        })
    }

    /// Lists what is to be mended: what is quickly tried, then what is judged at the edge, the heaviest
    /// of each first.
    fn list(&mut self, trials: &Trials) {
        let of = |at_edge: bool| {
            let mine = move |each: &&Finding| each.rule.has_edge() == at_edge;
            trials.findings().iter().filter(mine).filter_map(Work::new)
        };
        self.works = of(false).chain(of(true)).collect();
    }

    /// Computes one more sample of the edges.
    fn sample(&mut self, known: Box<(Trials, Study)>, mut samples: Vec<Sample>) -> Stage {
        if let Some(sample) = known.1.sample(samples.len()) {
            samples.push(sample);
            return Stage::Edges(known, samples);
        }
        let (mut trials, study) = *known;
        if let Ok(deciding) = Deciding::new(&study, &samples) {
            trials.know(deciding);
        }
        self.list(&trials);
        Stage::Seek(Box::new(trials))
    }

    /// Goes on with the first finding: what is told, and what is done next.
    fn seek(&mut self, mut trials: Box<Trials>) -> Option<(Part, Stage)> {
        let work = self.works.front_mut()?;
        if let Some(put) = work.candidates.pop() {
            if let Some(sampling) = trials.left_to_sample(work.aim, put) {
                work.candidates.push(put);
                return Some((Part::Working, Stage::Sure(trials, Box::new(sampling))));
            }
            work.effort.sure = work.effort.sure.saturating_sub(1);
            if trials.passes_surely(work.aim, put) {
                work.found.extend(trials.remedy(work.aim, put));
                work.candidates.clear();
            }
            return Some((Part::Working, Stage::Seek(trials)));
        }
        if work.found.len() < MOST
            && let Some(lever) = work.levers.get(work.next)
        {
            work.next += 1;
            work.candidates =
                seek(&mut trials, (work.aim, &mut work.effort), *lever, self.system);
            return Some((Part::Working, Stage::Seek(trials)));
        }
        if work.found.is_empty()
            && let Some(lighter) = work.aim.lighter()
        {
            (work.aim, work.next) = (lighter, 0);
            work.effort = Effort { days: work.effort.days, ..Effort::ALL };
            return Some((Part::Working, Stage::Seek(trials)));
        }
        let Work { key, mut found, .. } = self.works.pop_front()?;
        sort_few(&mut found, |a, b| {
            a.brings.len().cmp(&b.brings.len()).then(a.cost().total_cmp(&b.cost()))
        });
        Some((Part::Found(key, found), Stage::Seek(trials)))
    }
}

impl Iterator for Remedies {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        let (part, stage) = match std::mem::replace(&mut self.stage, Stage::Nothing) {
            Stage::Begin(standing) => {
                let stage = self.begin(standing.map(|standing| *standing))?;
                if let Stage::Seek(trials) = &stage {
                    self.list(trials);
                }
                (Part::Working, stage)
            }
            Stage::Edges(known, samples) => (Part::Working, self.sample(known, samples)),
            Stage::Seek(trials) => self.seek(trials)?,
            Stage::Sure(mut trials, sampling) => {
                let stage = match trials.sample(*sampling) {
                    Some(left) => Stage::Sure(trials, Box::new(left)),
                    None => Stage::Seek(trials),
                };
                (Part::Working, stage)
            }
            Stage::Nothing => return None,
        };
        self.stage = stage;
        Some(part)
    }
}

/// The smallest move of a lever that reaches an aim; of those that ask for the firing day one that
/// does, found with few days; of those that are judged at the edge one that does in the cases that
/// decide it, with some beyond it. What is to be tried first stands last.
fn seek(
    trials: &mut Trials,
    (aim, effort): (Aim, &mut Effort),
    lever: Lever,
    system: System,
) -> Vec<Put> {
    let Some(number) = number(lever.field) else { return Vec::new() };
    let steps = Steps::new(number, trials.design(), lever, system);
    let at_edge = trials.has_edges() && aim.finding.rule.has_edge();
    let way = (lever.field, steps);
    let (step, farther): (_, &[usize]) = if at_edge {
        let most = (MOST_NEAR.0, &mut effort.near);
        (first(trials, aim, way, most, Trials::passes_near), &FARTHER)
    } else {
        let most = (MOST_DAYS.0, &mut effort.days);
        (first(trials, aim, way, most, Trials::passes), &[0])
    };
    let tried = step.into_iter().flat_map(|step| farther.iter().map(move |more| step + more));
    let tried = tried.filter(|step| *step <= steps.count).take(effort.sure);
    let mut puts: Vec<Put> = tried.map(|step| (lever.field, steps.value(step))).collect();
    puts.reverse();
    puts
}

/// The first step that reaches an aim in a test, as far as few trials of it tell: so many along a
/// lever, and so many that are left for the finding.
fn first(
    trials: &mut Trials,
    aim: Aim,
    (id, steps): (FieldId, Steps),
    (most, left): (usize, &mut usize),
    test: fn(&mut Trials, Aim, Put) -> bool,
) -> Option<usize> {
    let put = |step| (id, steps.value(step));
    let mut from = 1;
    if !aim.finding.rule.is_of_the_day() {
        let mut passes = |step| Some(trials.passes_stated(aim, put(step)));
        from = nearest((1, steps.count), |way| way / 2, &mut passes)?;
    }
    let mut along = most.min(*left);
    let mut passes = |step| {
        if !trials.passes_stated(aim, put(step)) {
            return Some(false);
        }
        along = along.checked_sub(1)?;
        *left = left.saturating_sub(1);
        Some(test(trials, aim, put(step)))
    };
    nearest((from, steps.count), |way| 2 * way, &mut passes)
}

/// The first of some steps that passes, as far as steps spread ever wider show it: between the
/// last that failed and the first that passed the search is halved. The test answers none when it
/// is tired.
fn nearest(
    (from, count): (usize, usize),
    spread: fn(usize) -> usize,
    passes: &mut dyn FnMut(usize) -> Option<bool>,
) -> Option<usize> {
    let (mut failed, mut passed) = (from.saturating_sub(1), from);
    let start = failed;
    while passed <= count && !passes(passed)? {
        let way = passed - start;
        failed = passed;
        passed =
            if passed == count { count + 1 } else { count.min(passed + spread(way).max(1)) };
    }
    if count < passed {
        return None;
    }
    while failed + 1 < passed {
        let between = usize::midpoint(failed, passed);
        match passes(between) {
            Some(true) => passed = between,
            Some(false) => failed = between,
            None => break,
        }
    }
    Some(passed)
}

/// Whole steps of a builder from where a decision stands to the end of what is usual; of what is
/// possible, where it is unusual already.
#[derive(Clone, Copy, Debug)]
struct Steps {
    step: f64,
    /// The decision in steps, rounded against the way.
    start: f64,
    /// 1 upward, -1 downward.
    way: f64,
    count: usize,
}

/// Hair by which a value may miss a whole step (steps).
const HAIR: f64 = 1e-6;

impl Steps {
    fn new(number: &Number, design: &Design, lever: Lever, system: System) -> Self {
        let present = (number.get)(design);
        let step = step(number, system);
        let range =
            if number.usual.contains(&present) { &number.usual } else { &number.possible };
        let (start, way, end) = if lever.raise {
            ((present / step + HAIR).floor(), 1.0, (range.end() / step + HAIR).floor())
        } else {
            ((present / step - HAIR).ceil(), -1.0, (range.start() / step - HAIR).ceil())
        };
        Self { step, start, way, count: whole(way * (end - start)) }
    }

    #[expect(clippy::cast_precision_loss, reason = "a few hundred steps")]
    fn value(&self, step: usize) -> f64 {
        let steps = self.start + self.way * step as f64;
        // Tenths and hundredths come out as one would write them.
        let parts = (1.0 / self.step).round();
        let is_decimal = parts >= 1.0 && (parts * self.step - 1.0).abs() < HAIR;
        if is_decimal { steps / parts } else { steps * self.step }
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to what no search exceeds"
)]
fn whole(steps: f64) -> usize {
    steps.clamp(0.0, 1e4) as usize
}

/// Least step of a size (m).
const LEAST_SIZE: f64 = 0.01;
/// Step of the charge (kg).
const QUARTER: f64 = 0.25;

/// Step in which a builder changes a decision (SI): that of its arrow keys, but no less than a
/// centimeter or half an inch, and quarters of a kilogram or half pounds.
fn step(number: &Number, system: System) -> f64 {
    let quantity = number.quantity;
    let metric = match quantity {
        Quantity::Length | Quantity::Size => number.step.max(LEAST_SIZE),
        Quantity::Mass => QUARTER,
        _ => number.step,
    };
    let is_plain = unit_of(quantity, System::Us) == unit_of(quantity, System::Metric);
    if system == System::Metric || is_plain {
        return metric;
    }
    let inches = if quantity == Quantity::Length { Quantity::Size } else { quantity };
    let half = 0.5 * unit_of(inches, System::Us).factor;
    half * (metric / half).round().max(1.0)
}
