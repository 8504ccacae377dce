//! Samples summed up: bands, shares of answers, what makes a band wide.

use super::ranks::{correlation, ranks, ratio};
use super::{Distribution, Headline, Outcome, Plan, Sample, Spread, SpreadId, Uncertainty};
use crate::design::Design;
use crate::rules::{Answer, Question, Severity};
use crate::units::in_celsius;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Where the middle of all cases lies and nine in ten of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// 5 in 100 are less.
    pub p05: f64,
    /// As many are less as more.
    pub p50: f64,
    /// 5 in 100 are more.
    pub p95: f64,
}

impl Band {
    fn of(mut values: Vec<f64>) -> Self {
        values.sort_by(f64::total_cmp);
        let at = |share| quantile(&values, share);
        Self { p05: at(0.05), p50: at(0.50), p95: at(0.95) }
    }
}

/// Band of a temperature of the gas.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GasBand {
    /// 5 in 100 are cooler (K in memory, °C in files).
    #[serde(rename = "p05_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub p05: f64,
    /// As many are cooler as hotter (K in memory, °C in files).
    #[serde(rename = "p50_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub p50: f64,
    /// 5 in 100 are hotter (K in memory, °C in files).
    #[serde(rename = "p95_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub p95: f64,
}

impl From<Band> for GasBand {
    fn from(Band { p05, p50, p95 }: Band) -> Self {
        Self { p05, p50, p95 }
    }
}

/// Band of a figure, with what makes it wide.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FigureBand {
    /// 5 in 100 are less.
    pub p05: f64,
    /// As many are less as more.
    pub p50: f64,
    /// 5 in 100 are more.
    pub p95: f64,
    /// What makes the band wide, the most first; what cannot be told from chance is left out.
    pub ranking: Vec<Rank>,
}

/// How much a spread bears on a figure.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Rank {
    /// The spread.
    pub spread: SpreadId,
    /// 1 when the figure rises wherever it does, -1 when it falls (–).
    pub rank_correlation: f64,
}

impl Rank {
    /// Share of the scatter of the figure's ranks that goes along with the spread (–): the square
    /// of the correlation, since the spreads do not go along with one another.
    pub const fn share(&self) -> f64 {
        self.rank_correlation * self.rank_correlation
    }
}

/// Bands of the figures that matter.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FigureBands {
    /// Gas out of the firebox (K in memory, °C in files).
    #[serde(rename = "firebox_outlet_celsius", with = "band_in_celsius")]
    #[schemars(with = "FigureBand")]
    pub firebox_outlet: FigureBand,
    /// Gas into the chimney (K in memory, °C in files).
    #[serde(rename = "chimney_inlet_celsius", with = "band_in_celsius")]
    #[schemars(with = "FigureBand")]
    pub chimney_inlet: FigureBand,
    /// Wall at the mouth (K in memory, °C in files).
    #[serde(rename = "chimney_mouth_wall_celsius", with = "band_in_celsius")]
    #[schemars(with = "FigureBand")]
    pub mouth_wall: FigureBand,
    /// Wall at the mouth less dew point (K).
    #[serde(rename = "chimney_mouth_wall_above_dew_point_kelvins")]
    pub mouth_wall_above_dew_point: FigureBand,
    /// Dew point of the gas (K in memory, °C in files).
    #[serde(rename = "dew_point_celsius", with = "band_in_celsius")]
    #[schemars(with = "FigureBand")]
    pub dew_point: FigureBand,
    /// Efficiency on the lower heating value (–).
    #[serde(rename = "efficiency_lower")]
    pub efficiency: FigureBand,
    /// Draft less losses, as the design states (Pa).
    #[serde(rename = "margin_pascals")]
    pub margin: FigureBand,
    /// Draft less losses on a mild day (Pa).
    #[serde(rename = "mild_day_margin_pascals")]
    pub mild_day_margin: FigureBand,
    /// Draft less losses of the kindling, on the day on which it is less (Pa).
    #[serde(rename = "cold_start_margin_pascals")]
    pub cold_start_margin: FigureBand,
}

impl FigureBands {
    pub(super) fn new(mut band: impl FnMut(Headline) -> FigureBand) -> Self {
        Self {
            firebox_outlet: band(Headline::FireboxOutlet),
            chimney_inlet: band(Headline::ChimneyInlet),
            mouth_wall: band(Headline::MouthWall),
            mouth_wall_above_dew_point: band(Headline::MouthWallAboveDewPoint),
            dew_point: band(Headline::DewPoint),
            efficiency: band(Headline::Efficiency),
            margin: band(Headline::Margin),
            mild_day_margin: band(Headline::MildDayMargin),
            cold_start_margin: band(Headline::ColdStartMargin),
        }
    }

    /// Band of a figure.
    pub const fn get(&self, headline: Headline) -> &FigureBand {
        match headline {
            Headline::FireboxOutlet => &self.firebox_outlet,
            Headline::ChimneyInlet => &self.chimney_inlet,
            Headline::MouthWall => &self.mouth_wall,
            Headline::MouthWallAboveDewPoint => &self.mouth_wall_above_dew_point,
            Headline::DewPoint => &self.dew_point,
            Headline::Efficiency => &self.efficiency,
            Headline::Margin => &self.margin,
            Headline::MildDayMargin => &self.mild_day_margin,
            Headline::ColdStartMargin => &self.cold_start_margin,
        }
    }
}

/// Serde form of a band of temperatures: kelvin in memory, degrees Celsius outside.
mod band_in_celsius {
    use super::FigureBand;
    use crate::units::{celsius, kelvin};
    use serde::{Deserialize as _, Deserializer, Serialize as _, Serializer};

    pub(super) fn serialize<S: Serializer>(
        band: &FigureBand,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        converted(band.clone(), celsius).serialize(serializer)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<FigureBand, D::Error> {
        FigureBand::deserialize(deserializer).map(|band| converted(band, kelvin))
    }

    fn converted(band: FigureBand, to: fn(f64) -> f64) -> FigureBand {
        let FigureBand { p05, p50, p95, ranking } = band;
        FigureBand { p05: to(p05), p50: to(p50), p95: to(p95), ranking }
    }
}

/// Shares of all samples with each answer (–); together 1 less those that failed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Fractions {
    /// What was checked passed.
    #[serde(rename = "yes_fraction")]
    pub yes: f64,
    /// Something to look at again.
    #[serde(rename = "look_again_fraction")]
    pub look_again: f64,
    /// Not as it stands.
    #[serde(rename = "no_fraction")]
    pub no: f64,
    /// Too little is known or checked.
    #[serde(rename = "not_enough_known_fraction")]
    pub not_enough_known: f64,
}

/// How often each of the three questions is answered how.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AnswerFractions {
    /// Does the chimney pull the gas through the runs?
    pub will_it_draw: Fractions,
    /// Does the heat end in the masonry?
    pub will_the_heat_stay: Fractions,
    /// Did what was checked for safety pass?
    pub is_it_safe: Fractions,
}

impl AnswerFractions {
    /// Those of one question.
    pub const fn get(&self, question: Question) -> &Fractions {
        match question {
            Question::Draw => &self.will_it_draw,
            Question::Heat => &self.will_the_heat_stay,
            Question::Safe => &self.is_it_safe,
        }
    }
}

/// In how many samples a finding is made that speaks against a yes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FindingFraction {
    /// Short name, what is wrong.
    pub id: String,
    /// How much it weighs.
    pub severity: Severity,
    /// Share of all samples (–).
    pub fraction: f64,
}

/// What a spread was varied between.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpreadRange {
    /// The spread.
    pub spread: SpreadId,
    /// How it is distributed.
    pub distribution: Shape,
    /// As it stands: the input of the design, or 1 for a factor on a formula.
    pub nominal: f64,
    /// 5 in 100 are less.
    pub p05: f64,
    /// 5 in 100 are more.
    pub p95: f64,
}

/// Shape of a distribution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Shape {
    /// Multiplied: as likely doubled as halved.
    Lognormal,
    /// Added: as likely so much more as less.
    Normal,
    /// Equally likely anywhere.
    Uniform,
}

pub(super) fn sum_up(plan: &Plan, samples: &[Sample]) -> Option<Uncertainty> {
    let mut outcomes: Vec<_> = samples
        .iter()
        .filter_map(|sample| Some((sample.index, sample.outcome.as_ref()?)))
        .collect();
    // So that sums come out the same to the last bit in whatever order the samples were made.
    outcomes.sort_by_key(|(index, _)| *index);
    let (_, first) = outcomes.first()?;
    let total = samples.len();
    let gas = (0..first.gas.len()).map(|place| {
        let values = outcomes.iter().filter_map(|(_, outcome)| outcome.gas.get(place).copied());
        Band::of(values.collect()).into()
    });
    let fractions = |question| fractions(question, &outcomes, total);
    Some(Uncertainty {
        samples: total,
        seed: plan.setup.seed,
        failed: total - outcomes.len(),
        spreads: plan.setup.spreads.iter().map(|spread| range(spread, &plan.design)).collect(),
        gas_along_the_path: gas.collect(),
        figures: figures(plan, &outcomes),
        answers: AnswerFractions {
            will_it_draw: fractions(Question::Draw),
            will_the_heat_stay: fractions(Question::Heat),
            is_it_safe: fractions(Question::Safe),
        },
        findings: findings(&outcomes, total),
    })
}

fn range(spread: &Spread, design: &Design) -> SpreadRange {
    let Spread { id, target, distribution, .. } = *spread;
    let (nominal, possible) = (target.nominal(design), target.possible());
    let value = |share| distribution.value(nominal, &possible, share);
    let distribution = match distribution {
        Distribution::Lognormal { .. } => Shape::Lognormal,
        Distribution::Normal { .. } => Shape::Normal,
        Distribution::Uniform { .. } => Shape::Uniform,
    };
    SpreadRange { spread: id, distribution, nominal, p05: value(0.05), p95: value(0.95) }
}

fn fractions(question: Question, outcomes: &[(usize, &Outcome)], total: usize) -> Fractions {
    let share = |answer: Answer| {
        let same = outcomes.iter().filter(|(_, outcome)| outcome.answer(question) == answer);
        ratio(same.count(), total)
    };
    Fractions {
        yes: share(Answer::Yes),
        look_again: share(Answer::LookAgain),
        no: share(Answer::No),
        not_enough_known: share(Answer::NotEnoughKnown),
    }
}

fn findings(outcomes: &[(usize, &Outcome)], total: usize) -> Vec<FindingFraction> {
    let mut counts: BTreeMap<(Severity, &str), usize> = BTreeMap::new();
    for (_, outcome) in outcomes {
        let mut once = outcome.findings.clone();
        once.sort_unstable();
        once.dedup();
        for finding in once {
            *counts.entry(finding).or_default() += 1;
        }
    }
    let mut list: Vec<_> = counts
        .into_iter()
        .map(|((severity, id), count)| FindingFraction {
            id: id.into(),
            severity,
            fraction: ratio(count, total),
        })
        .collect();
    list.sort_by(|a, b| b.severity.cmp(&a.severity).then(b.fraction.total_cmp(&a.fraction)));
    list
}

fn figures(plan: &Plan, outcomes: &[(usize, &Outcome)]) -> FigureBands {
    let places: Vec<_> = plan
        .setup
        .spreads
        .iter()
        .zip(&plan.shares)
        .map(|(spread, shares)| {
            let shares = outcomes.iter().filter_map(|(index, _)| shares.get(*index).copied());
            (spread.id, ranks(&shares.collect::<Vec<_>>()))
        })
        .collect();
    FigureBands::new(|headline| {
        let values: Vec<_> =
            outcomes.iter().map(|(_, outcome)| outcome.headline(headline)).collect();
        let ranking = ranking(&places, &ranks(&values));
        let Band { p05, p50, p95 } = Band::of(values);
        FigureBand { p05, p50, p95, ranking }
    })
}

/// Standard deviations of a rank correlation by chance beyond which it is believed (–): one
/// correlation in a hundred is larger by chance.
const BELIEVED: f64 = 2.58;

fn ranking(places: &[(SpreadId, Vec<f64>)], figure: &[f64]) -> Vec<Rank> {
    // By chance alone it has the standard deviation 1/(n - 1)^(1/2).
    let chance = 1.0 / (ratio(figure.len(), 1) - 1.0).max(1.0).sqrt();
    let mut ranking: Vec<_> = places
        .iter()
        .map(|(spread, places)| Rank {
            spread: *spread,
            rank_correlation: correlation(places, figure),
        })
        .filter(|rank| BELIEVED * chance < rank.rank_correlation.abs())
        .collect();
    ranking.sort_by(|a, b| b.rank_correlation.abs().total_cmp(&a.rank_correlation.abs()));
    ranking
}

/// Value below which a share of a sorted list lies, by a line between neighbors; NaN of an empty
/// one.
///
/// # Source
///
/// [`crate::sources::HYNDMAN_FAN_1996`], their definition 7.
pub fn quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * ratio(sorted.len().saturating_sub(1), 1);
    let whole = place.floor();
    let at = |place: f64| {
        let (_, value) =
            sorted.iter().enumerate().find(|(index, _)| place <= ratio(*index, 1))?;
        Some(*value)
    };
    let below = at(whole).unwrap_or(f64::NAN);
    let above = at(whole + 1.0).unwrap_or(below);
    below + (place - whole) * (above - below)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quantiles_lie_on_a_line_between_neighbors() {
        let list = [1.0, 2.0, 4.0, 8.0, 16.0];
        for (share, expected) in
            [(0.0, 1.0), (0.5, 4.0), (0.625, 6.0), (0.05, 1.2), (1.0, 16.0)]
        {
            let found = quantile(&list, share);
            assert!((found - expected).abs() < 1e-12, "{share}: {found}");
        }
        assert!((quantile(&[3.0], 0.95) - 3.0).abs() < 1e-12);
        assert!(quantile(&[], 0.5).is_nan());
    }
}
