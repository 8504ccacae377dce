//! The same heater with one to ten runs, each with a day, and which number is the best.

use super::figures::Figures;
use super::strip::RUNS;
use super::variant::{Brief, Variant};
use crate::analysis::Failure;
use crate::design::Design;
use crate::design::field::FieldId;
use crate::rules::Finding;
use std::cmp::Ordering;

/// Efficiency that a further run must bring to be worth its bricks, its turn and its draft (–): one
/// point is one part in a hundred of the wood. Our choice.
pub const LEAST_GAIN: f64 = 0.01;

/// The design with another number of runs, the mouth of its chimney kept.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Number of runs.
    pub runs: usize,
    /// What was found, or why nothing was: mostly that the heater cannot stand below its mouth.
    pub result: Result<Figures, Failure>,
}

/// What is put into the design, and what it comes to.
impl From<&Column> for Variant {
    fn from(column: &Column) -> Self {
        let runs = u32::try_from(column.runs).map_or(f64::NAN, f64::from);
        let brief = column.result.as_ref().ok().map(Brief::from);
        Self { puts: vec![(FieldId::RunCount, runs)], brief }
    }
}

impl Column {
    /// The column of a design with a number of runs.
    pub fn new(design: &Design, runs: usize) -> Self {
        Self { runs, result: Figures::new(&with_runs(design, runs)) }
    }

    fn passing(&self) -> Option<&Figures> {
        self.result.as_ref().ok().filter(|figures| figures.passes())
    }
}

/// A design with another number of runs.
pub fn with_runs(design: &Design, runs: usize) -> Design {
    let mut design = design.clone();
    design.path.run_count = runs;
    design
}

/// The columns, one by one.
#[derive(Clone, Debug)]
pub struct Compare {
    design: Design,
    next: usize,
}

impl Compare {
    /// A comparison of a design.
    pub fn new(design: &Design) -> Self {
        Self { design: design.clone(), next: *RUNS.start() }
    }
}

impl Iterator for Compare {
    type Item = Column;

    fn next(&mut self) -> Option<Column> {
        let runs = self.next;
        self.next += 1;
        RUNS.contains(&runs).then(|| Column::new(&self.design, runs))
    }
}

/// Which number of runs is the best.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Best {
    /// It answers yes three times.
    Passes {
        /// Its number of runs.
        runs: usize,
        /// The sensible range: the numbers next to it that answer yes three times as well.
        sensible: (usize, usize),
        /// Why not one more.
        end: End,
    },
    /// No number does; this one is the least wrong.
    None {
        /// Its number of runs.
        runs: usize,
        /// What speaks against it most.
        finding: Finding,
    },
}

/// Up to which number of runs draft and efficiency each speak for one run more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Last number of runs with the draft to spare that is wanted, with what it has beyond that and
    /// what one run more has (Pa).
    pub draft: Option<(usize, f64, f64)>,
    /// First number of runs to which one more adds less than [`LEAST_GAIN`], with what it adds (–).
    pub gain: Option<(usize, f64)>,
}

/// Where efficiency and draft cross over the number of runs, among columns that stand in the order
/// of their runs.
pub fn crossing(columns: &[Column]) -> Crossing {
    let known = |column: &Column| Some((column.runs, *column.result.as_ref().ok()?));
    let known: Vec<(usize, Figures)> = columns.iter().filter_map(known).collect();
    let mut pairs = known.iter().zip(known.iter().skip(1));
    let draft = pairs.clone().find_map(|((runs, one), (_, more))| {
        let falls = 0.0 <= one.spare && more.spare < 0.0;
        falls.then_some((*runs, one.spare, more.spare))
    });
    let gain = pairs.find_map(|((runs, one), (_, more))| {
        let gain = more.efficiency() - one.efficiency();
        (gain < LEAST_GAIN).then_some((*runs, gain))
    });
    Crossing { draft, gain }
}

/// Why a further run is not taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum End {
    /// It brings this much efficiency (–), less than [`LEAST_GAIN`].
    GainsLittle(f64),
    /// This finding speaks against it.
    Fails(Finding),
    /// It does not fit below the mouth, or could not be computed.
    CannotStand,
    /// No more were compared.
    Last,
}

/// The best of columns that stand in the order of their runs; none where none could be computed.
///
/// Among those that answer yes three times it is the smallest number from which one run more
/// brings less than [`LEAST_GAIN`] or no yes. Without any yes it is the column whose heaviest
/// finding weighs least; among equals the one with the fewest questions open, then the one nearest
/// to its limit.
pub fn best(columns: &[Column]) -> Option<Best> {
    let mut rest = columns.iter().skip_while(|column| column.passing().is_none());
    let Some(first) = rest.next() else {
        return least_wrong(columns);
    };
    let mut taken = first;
    let end = loop {
        let Some(next) = rest.next() else {
            break End::Last;
        };
        let gain = match (&next.result, taken.passing()) {
            (Ok(next), Some(taken)) => next.efficiency() - taken.efficiency(),
            _ => break End::CannotStand,
        };
        if let Some(finding) = next.result.as_ref().ok().and_then(Figures::heaviest) {
            break End::Fails(*finding);
        }
        if gain < LEAST_GAIN {
            break End::GainsLittle(gain);
        }
        taken = next;
    };
    let beyond = columns.iter().skip_while(|column| column.runs <= taken.runs);
    let last = beyond.take_while(|column| column.passing().is_some()).last().unwrap_or(taken);
    Some(Best::Passes { runs: taken.runs, sensible: (first.runs, last.runs), end })
}

fn least_wrong(columns: &[Column]) -> Option<Best> {
    let found = columns.iter().filter_map(|column| {
        let figures = column.result.as_ref().ok()?;
        Some((Wrong::new(figures)?, column.runs))
    });
    let (Wrong { finding, .. }, runs) = found.min_by(|(a, _), (b, _)| a.cmp(b))?;
    Some(Best::None { runs, finding })
}

/// How wrong a design is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wrong {
    /// Its heaviest finding.
    pub finding: Finding,
    /// How far that is beyond its limit, as a share of it (–).
    pub beyond: f64,
    open: usize,
}

impl Wrong {
    /// None where nothing speaks against a yes.
    pub fn new(figures: &Figures) -> Option<Self> {
        let deciding = figures.verdicts.iter().filter_map(|verdict| verdict.deciding);
        Self::among(&deciding.collect::<Vec<_>>())
    }

    /// Of the findings that speak against a design; none without any.
    pub fn among(findings: &[Finding]) -> Option<Self> {
        let heaviest = findings.iter().map(|finding| finding.severity).max()?;
        let of_all = findings.iter().filter(|finding| finding.severity == heaviest);
        // Of those that weigh the same the one that is furthest beyond.
        let finding = of_all.max_by(|a, b| beyond(a).total_cmp(&beyond(b)))?;
        Some(Self { finding: *finding, beyond: beyond(finding), open: findings.len() })
    }

    /// By the weight of the heaviest finding, then by the questions that are open, then by how far
    /// the finding is beyond its limit.
    pub fn cmp(&self, other: &Self) -> Ordering {
        let weight = |wrong: &Self| (wrong.finding.severity, wrong.open);
        weight(self).cmp(&weight(other)).then(self.beyond.total_cmp(&other.beyond))
    }
}

/// A finding without a limit is wholly beyond it.
fn beyond(finding: &Finding) -> f64 {
    let limit = finding.limit.filter(|limit| limit.value.abs() > f64::EPSILON);
    limit.map_or(1.0, |limit| ((finding.found.value - limit.value) / limit.value).abs())
}
