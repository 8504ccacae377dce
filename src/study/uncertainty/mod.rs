//! What the figures are worth: the same design many times over, each time with every spread at
//! another place of its range.
//!
//! A [`Plan`] knows all samples beforehand, so that they may be computed one by one or in any
//! number of shares; [`Plan::sum_up`] does not mind their order.

mod bands;
pub mod normal;
mod ranks;
mod sampling;
mod spread;
mod told;

pub(super) use bands::quantile;
pub use bands::{
    AnswerFractions, FigureBand, FigureBands, FindingFraction, Fractions, GasBand, Rank, Shape,
    SpreadRange,
};
pub(super) use ranks::ratio;
pub use spread::{Distribution, SPREADS, Spread, SpreadId, Target};
pub use told::{Part, Parts};

use crate::analysis::factors::Factors;
use crate::analysis::{Analysis, analyze_with};
use crate::design::Design;
use crate::rules::{Answer, Finding, Question, Rule, Severity, TESTED_AIR, answer, check};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What is to be tried.
#[derive(Clone, Debug)]
pub struct Setup {
    /// Number of samples.
    pub samples: u32,
    /// Start of the random numbers: the same samples for the same seed.
    pub seed: u64,
    /// What is varied.
    pub spreads: Vec<Spread>,
}

impl Setup {
    /// Samples at which 5 and 95 in 100 stand within a kelvin or two of those of many more.
    pub const ENOUGH: u32 = 500;

    /// All spreads, so many samples.
    pub fn standard(samples: u32) -> Self {
        Self { samples, seed: 1, spreads: SPREADS.to_vec() }
    }
}

/// A figure whose band is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Headline {
    /// Gas out of the firebox (K).
    FireboxOutlet,
    /// Gas into the chimney (K).
    ChimneyInlet,
    /// Wall at the mouth (K).
    MouthWall,
    /// The same above the dew point (K).
    MouthWallAboveDewPoint,
    /// Dew point of the gas (K).
    DewPoint,
    /// Efficiency on the lower heating value (–).
    Efficiency,
    /// Draft to spare as the design states (Pa).
    Margin,
    /// Draft to spare on a mild day (Pa).
    MildDayMargin,
    /// Draft to spare of the kindling, on the day on which it is less (Pa).
    ColdStartMargin,
}

impl Headline {
    /// All of them.
    pub const ALL: [Self; 9] = [
        Self::FireboxOutlet,
        Self::ChimneyInlet,
        Self::MouthWall,
        Self::MouthWallAboveDewPoint,
        Self::DewPoint,
        Self::Efficiency,
        Self::Margin,
        Self::MildDayMargin,
        Self::ColdStartMargin,
    ];

    /// The figure of an analysis (SI).
    pub fn of(self, analysis: &Analysis) -> f64 {
        let fire = &analysis.height_of_fire;
        let start = &analysis.conditions.cold_start;
        match self {
            Self::FireboxOutlet => fire.firebox_outlet,
            Self::ChimneyInlet => fire.chimney_inlet,
            Self::MouthWall => fire.chimney_mouth_wall,
            Self::MouthWallAboveDewPoint => fire.chimney_mouth_wall - fire.dew_point,
            Self::DewPoint => fire.dew_point,
            Self::Efficiency => fire.efficiency_lower,
            Self::Margin => fire.margin,
            Self::MildDayMargin => analysis.conditions.mild_day.stated.margin,
            Self::ColdStartMargin => start.design_day.margin.min(start.mild_day.margin),
        }
    }
}

/// One design with everything at some place of its range.
#[derive(Clone, Debug, PartialEq)]
pub struct Sample {
    index: usize,
    outcome: Option<Outcome>,
}

/// What was found at a sample.
#[derive(Clone, Debug, PartialEq)]
struct Outcome {
    /// In the order of [`Headline::ALL`].
    headlines: [f64; Headline::ALL.len()],
    /// Gas along the path (K): out of the firebox and of each run, into the chimney, at its mouth.
    gas: Vec<f64>,
    /// In the order of [`Question::ALL`].
    answers: [Answer; Question::ALL.len()],
    /// What spoke against a yes.
    findings: Vec<(Severity, &'static str)>,
}

impl Outcome {
    /// Of a sample of a design that is stated.
    fn new(stated: &Design, design: &Design, analysis: &Analysis) -> Self {
        let fire = &analysis.height_of_fire;
        let mut findings = check(design, analysis);
        findings.retain(|finding| finding.rule != Rule::AirScarce || counts(finding, stated));
        let runs = fire.runs.iter().map(|run| run.outlet);
        let gas = std::iter::once(fire.firebox_outlet)
            .chain(runs)
            .chain([fire.chimney_inlet, fire.chimney_mouth_gas])
            .collect();
        Self {
            headlines: Headline::ALL.map(|headline| headline.of(analysis)),
            gas,
            answers: Question::ALL.map(|question| answer(question, &findings)),
            findings: findings
                .iter()
                .filter(|finding| Severity::LookAgain <= finding.severity)
                .map(|finding| (finding.severity, finding.rule.id()))
                .collect(),
        }
    }

    fn headline(&self, headline: Headline) -> f64 {
        let mut pairs = Headline::ALL.into_iter().zip(self.headlines);
        pairs.find(|(other, _)| *other == headline).map_or(f64::NAN, |(_, value)| value)
    }

    fn answer(&self, question: Question) -> Answer {
        let mut pairs = Question::ALL.into_iter().zip(self.answers);
        let found = pairs.find(|(other, _)| *other == question);
        found.map_or(Answer::NotEnoughKnown, |(_, answer)| answer)
    }
}

/// Whether scarce air counts at a sample. The air of tested chambers is a limit for what is stated, about
/// which their fires scattered as this one does; what flames burn with is one for each fire.
fn counts(finding: &Finding, stated: &Design) -> bool {
    finding.severity == Severity::DoNotBuild || stated.fire.excess_air_ratio < TESTED_AIR
}

/// What the samples say together. Everything is at the height of the fire, first fire; it is
/// judged without the firing day, which would take too long for each sample.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Uncertainty {
    /// Number of samples.
    pub samples: usize,
    /// Start of the random numbers.
    pub seed: u64,
    /// Samples at which no figures were found; they count as no yes.
    pub failed: usize,
    /// What was varied, and between what.
    pub spreads: Vec<SpreadRange>,
    /// Gas along the path: out of the firebox and of each run, into the chimney, at its mouth.
    pub gas_along_the_path: Vec<GasBand>,
    /// Bands of the figures that matter, with what makes them wide.
    pub figures: FigureBands,
    /// How often each question is answered how.
    pub answers: AnswerFractions,
    /// What speaks against a yes and how often, the heaviest first.
    pub findings: Vec<FindingFraction>,
}

/// All samples of a design, not yet computed.
#[derive(Clone, Debug)]
pub struct Plan {
    design: Design,
    setup: Setup,
    /// For each spread the place in its range at each sample.
    shares: Vec<Vec<f64>>,
}

impl Plan {
    /// Plans the samples of a design.
    pub fn new(design: &Design, setup: Setup) -> Self {
        let shares = sampling::latin_hypercube(setup.spreads.len(), setup.samples, setup.seed);
        Self { design: design.clone(), setup, shares }
    }

    /// Number of samples.
    pub fn len(&self) -> usize {
        usize::try_from(self.setup.samples).unwrap_or(usize::MAX)
    }

    /// Whether there are no samples.
    pub fn is_empty(&self) -> bool {
        self.setup.samples == 0
    }

    /// Computes one sample, by its place from 0; none past the last.
    pub fn sample(&self, index: usize) -> Option<Sample> {
        if self.len() <= index {
            return None;
        }
        let (design, factors) = self.varied(index);
        let analysis = analyze_with(&design, &factors).ok();
        let outcome = analysis.map(|analysis| Outcome::new(&self.design, &design, &analysis));
        Some(Sample { index, outcome })
    }

    /// The samples, one by one.
    pub fn samples(&self) -> impl Iterator<Item = Sample> {
        (0..self.len()).filter_map(|index| self.sample(index))
    }

    /// Design and factors of a sample.
    pub(super) fn varied(&self, index: usize) -> (Design, Factors) {
        let (mut design, mut factors) = (self.design.clone(), Factors::NOMINAL);
        for (Spread { target, distribution, .. }, column) in
            self.setup.spreads.iter().zip(&self.shares)
        {
            if let Some(share) = column.get(index) {
                let value = distribution.value(
                    target.nominal(&self.design),
                    &target.possible(),
                    *share,
                );
                target.set(&mut design, &mut factors, value);
            }
        }
        (design, factors)
    }

    /// What samples of this plan say together; none when no figures were found at any of them.
    pub fn sum_up(&self, samples: &[Sample]) -> Option<Uncertainty> {
        bands::sum_up(self, samples)
    }
}
