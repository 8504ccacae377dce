//! Remedies: for each finding the values of single decisions with which it would not be made.
//!
//! A decision is moved in steps of a builder, outward from where it stands, and the design judged
//! anew each time; between the first step that passes and the last before it that did not, the
//! search is halved. What is told was judged at the very value that is told.

mod trial;
mod words;

pub use words::NotAPart;

use crate::analysis::Analysis;
use crate::design::Design;
use crate::design::field::{FieldId, Kind, Number, field};
use crate::rules::{Finding, Lever, Question, Rule, Severity, levers};
use crate::units::{Quantity, System, unit_of};
use std::collections::VecDeque;
use trial::{Aim, Trials};

/// Most remedies that are told of a finding.
pub const MOST: usize = 3;
/// Most firing days that are computed along one lever, and for one finding.
const MOST_DAYS: (usize, usize) = (5, 15);

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
    /// Lighter findings that come with it: the question and the weight of each.
    pub brings: Vec<(Question, Severity)>,
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

/// The remedies of a design, finding by finding; judged with the firing day.
#[derive(Clone, Debug)]
pub struct Remedies {
    design: Design,
    system: System,
    trials: Option<Trials>,
    works: VecDeque<Work>,
}

/// A finding for which remedies are sought.
#[derive(Clone, Debug)]
struct Work {
    key: Key,
    aim: Aim,
    levers: Vec<Lever>,
    /// Place of the next lever.
    next: usize,
    /// Firing days that may yet be computed.
    days: usize,
    found: Vec<Remedy>,
}

impl Remedies {
    /// The remedies of a design, in the steps of a system of units.
    pub fn new(design: &Design, system: System) -> Self {
        Self { design: design.clone(), system, trials: None, works: VecDeque::new() }
    }

    /// Judges the design as it stands and lists what is to be mended, the heaviest first.
    fn begin(&mut self) -> Option<Trials> {
        let trials = Trials::new(&self.design)?;
        self.works = trials
            .findings()
            .iter()
            .filter_map(|finding| {
                let levers = levers(finding);
                (!levers.is_empty()).then(|| Work {
                    key: Key::of(finding),
                    aim: Aim::silence(finding),
                    levers,
                    next: 0,
                    days: MOST_DAYS.1,
                    found: Vec::new(),
                })
            })
            .collect();
        Some(trials)
    }
}

impl Iterator for Remedies {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        let Some(trials) = &mut self.trials else {
            self.trials = Some(self.begin()?);
            return Some(Part::Working);
        };
        let work = self.works.front_mut()?;
        if work.found.len() < MOST
            && let Some(lever) = work.levers.get(work.next)
        {
            work.next += 1;
            let days = &mut work.days;
            work.found.extend(seek(trials, (work.aim, days), *lever, self.system));
            return Some(Part::Working);
        }
        if work.found.is_empty()
            && let Some(lighter) = work.aim.lighter()
        {
            (work.aim, work.next) = (lighter, 0);
            return Some(Part::Working);
        }
        let Work { key, mut found, .. } = self.works.pop_front()?;
        found.sort_by(|a, b| {
            a.brings.len().cmp(&b.brings.len()).then(a.cost().total_cmp(&b.cost()))
        });
        Some(Part::Found(key, found))
    }
}

/// The smallest move of a lever that reaches an aim; of those that ask for the firing day one that
/// does, found with few days.
fn seek(
    trials: &mut Trials,
    (aim, days): (Aim, &mut usize),
    lever: Lever,
    system: System,
) -> Option<Remedy> {
    let steps = Steps::new(number(lever.field)?, trials.design(), lever, system);
    let put = |step| (lever.field, steps.value(step));
    let mut from = 1;
    if !aim.finding.rule.is_of_the_day() {
        let mut passes = |step| Some(trials.passes_stated(aim, put(step)));
        from = nearest((1, steps.count), |way| way / 2, &mut passes)?;
    }
    let mut along = MOST_DAYS.0.min(*days);
    let mut passes = |step| {
        if !trials.passes_stated(aim, put(step)) {
            return Some(false);
        }
        along = along.checked_sub(1)?;
        *days = days.saturating_sub(1);
        Some(trials.passes(aim, put(step)))
    };
    let step = nearest((from, steps.count), |way| 2 * way, &mut passes)?;
    trials.remedy(aim, put(step))
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
