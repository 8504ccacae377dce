//! The spreads: what is known only roughly, how roughly, and how it is varied.

use super::normal;
use crate::analysis::factors::Factors;
use crate::design::Design;
use crate::design::field::{FieldId, Kind, field};
use crate::sources::{
    COLD_START, CONVECTION_SPREAD, EN_15544_FIRECLAY, EN_15544_TURN_SPREAD,
    EXCESS_AIR_PRACTICE, FLAME_EMISSIVITY, GAS_RADIATION_SPREAD, HEARTH_EMISSIONS,
    MOISTURE_PRACTICE, OUTSIDE_FILM_SPREAD, REVERSAL_PRACTICE, ROUGHNESS, Source,
    WOOL_CONDUCTIVITY,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::ops::RangeInclusive;

/// What is known only roughly.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum SpreadId {
    /// Loss coefficient of the reversals between the runs.
    Reversal,
    /// Loss coefficient of the turns into the first run and out of the last.
    Turn,
    /// Roughness of the runs.
    Roughness,
    /// Roughness of the flue.
    FlueRoughness,
    /// Excess air at the height of the fire.
    ExcessAir,
    /// Moisture of the wood.
    Moisture,
    /// Share that leaves unburned.
    Unburned,
    /// Emissivity of the flame.
    FlameEmissivity,
    /// Formula for the convection in ducts.
    Convection,
    /// Formula for the radiation of the gas.
    GasRadiation,
    /// Conductivity of the core.
    CoreConductivity,
    /// Heat capacity of the core.
    CoreHeatCapacity,
    /// Conductivity of the flue's wall and wool.
    FlueConductivity,
    /// Film outside connector and chimney.
    OutsideFilm,
    /// Wood that a kindling fire burns.
    KindlingRate,
    /// Excess air of a kindling fire.
    KindlingExcessAir,
}

/// Something that is known only roughly, the same everywhere in the heater.
#[derive(Clone, Copy, Debug)]
pub struct Spread {
    /// Its name.
    pub id: SpreadId,
    /// What is varied.
    pub target: Target,
    /// How it is varied around its nominal value.
    pub distribution: Distribution,
    /// Where the range comes from.
    pub source: &'static Source,
}

/// What a spread varies.
#[derive(Clone, Copy, Debug)]
pub enum Target {
    /// An input, around the value that the design states.
    Input(FieldId),
    /// A factor of the analysis, around 1.
    Factor(fn(&mut Factors) -> &mut f64),
}

impl Target {
    /// The value around which it is varied.
    pub fn nominal(&self, design: &Design) -> f64 {
        match self {
            Self::Input(id) => match &field(*id).kind {
                Kind::Number(number) => (number.get)(design),
                Kind::Choice(_) => f64::NAN,
            },
            Self::Factor(_) => 1.0,
        }
    }

    /// What it can be at all.
    pub fn possible(&self) -> RangeInclusive<f64> {
        match self {
            Self::Input(id) => match &field(*id).kind {
                Kind::Number(number) => number.possible.clone(),
                Kind::Choice(_) => f64::NAN..=f64::NAN,
            },
            Self::Factor(_) => 0.0..=f64::INFINITY,
        }
    }

    /// Gives it a value.
    pub fn set(&self, design: &mut Design, factors: &mut Factors, value: f64) {
        match self {
            Self::Input(id) => {
                if let Kind::Number(number) = &field(*id).kind {
                    (number.set)(design, value);
                }
            }
            Self::Factor(factor) => *factor(factors) = value,
        }
    }
}

/// How something is distributed around its nominal value. Of the lognormal and the normal
/// distribution what lies beyond the possible is cut off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Distribution {
    /// Multiplied by a lognormal number of median 1.
    Lognormal {
        /// 5 and 95 in 100 lie below 1/factor and below the factor; above 1.
        factor: f64,
    },
    /// A normal number of mean 0 added.
    Normal {
        /// 5 and 95 in 100 lie below less and more than the nominal value by this.
        reach: f64,
    },
    /// Multiplied by a number that is equally likely anywhere in a range around 1.
    Uniform {
        /// The range reaches so far up and down from 1.
        share: f64,
    },
}

/// Below so many standard deviations lie 95 in 100 (–): [`normal::deviations`] of 0.95.
const DEVIATIONS_95: f64 = 1.6448536269514722;

impl Distribution {
    /// The value below which a share of all cases lies.
    ///
    /// * `probability`: between 0 and 1.
    pub fn value(&self, nominal: f64, possible: &RangeInclusive<f64>, probability: f64) -> f64 {
        let (low, high) = (*possible.start(), *possible.end());
        let value = match *self {
            Self::Lognormal { factor } => {
                let deviation = libm::log(factor) / DEVIATIONS_95;
                let place = |value: f64| libm::log(value / nominal) / deviation;
                if deviation <= 0.0 || nominal <= 0.0 {
                    return nominal;
                }
                nominal * libm::exp(deviation * cut(place(low), place(high), probability))
            }
            Self::Normal { reach } => {
                let deviation = reach / DEVIATIONS_95;
                let place = |value: f64| (value - nominal) / deviation;
                if deviation <= 0.0 {
                    return nominal;
                }
                nominal + deviation * cut(place(low), place(high), probability)
            }
            Self::Uniform { share } => {
                let from = (nominal * (1.0 - share)).max(low);
                let to = (nominal * (1.0 + share)).min(high);
                from + probability * (to - from)
            }
        };
        value.max(low).min(high)
    }
}

/// Standard deviations below which a share lies of what is left between two of them.
fn cut(low: f64, high: f64, probability: f64) -> f64 {
    let (below, up_to) = (normal::probability(low), normal::probability(high));
    normal::deviations(below + probability * (up_to - below))
}

const fn lognormal(
    id: SpreadId,
    target: Target,
    factor: f64,
    source: &'static Source,
) -> Spread {
    Spread { id, target, distribution: Distribution::Lognormal { factor }, source }
}

const fn normal(id: SpreadId, target: Target, reach: f64, source: &'static Source) -> Spread {
    Spread { id, target, distribution: Distribution::Normal { reach }, source }
}

const fn uniform(id: SpreadId, target: Target, share: f64, source: &'static Source) -> Spread {
    Spread { id, target, distribution: Distribution::Uniform { share }, source }
}

use SpreadId as Id;
use Target::{Factor, Input};

/// All spreads; why each is as wide as it is stands in `words::uncertainty`.
pub static SPREADS: [Spread; 16] = [
    // 3.0, from 2.0 to 4.5.
    lognormal(Id::Reversal, Input(FieldId::Reversal), 1.5, &REVERSAL_PRACTICE),
    // 1.2, from 0.8 to 1.8.
    lognormal(Id::Turn, Input(FieldId::Turn), 1.5, &EN_15544_TURN_SPREAD),
    // 3 mm, from 2 mm of smooth fireclay to 5 mm of brickwork.
    lognormal(Id::Roughness, Input(FieldId::PathRoughness), 1.7, &ROUGHNESS),
    lognormal(Id::FlueRoughness, Input(FieldId::FlueRoughness), 1.7, &ROUGHNESS),
    // 2.0, from 1.6 to 2.5.
    lognormal(Id::ExcessAir, Input(FieldId::ExcessAir), 1.25, &EXCESS_AIR_PRACTICE),
    normal(Id::Moisture, Input(FieldId::Moisture), 0.03, &MOISTURE_PRACTICE),
    // 1 %, from 14 g of carbon monoxide per kg of wood, to 3 % from 41 g.
    lognormal(Id::Unburned, Input(FieldId::Unburned), 3.0, &HEARTH_EMISSIONS),
    // 0.5, from 0.3 to 0.7.
    normal(Id::FlameEmissivity, Input(FieldId::FlameEmissivity), 0.2, &FLAME_EMISSIVITY),
    lognormal(Id::Convection, Factor(|f| &mut f.convection), 1.3, &CONVECTION_SPREAD),
    lognormal(Id::GasRadiation, Factor(|f| &mut f.gas_radiation), 1.2, &GAS_RADIATION_SPREAD),
    // 1.05 W/mK of the table, 0.90 to 1.35 of the route.
    lognormal(
        Id::CoreConductivity,
        Factor(|f| &mut f.core_conductivity),
        1.25,
        &EN_15544_FIRECLAY,
    ),
    // 2150 kg/m3 of the table, 1750 to 2300 of the route.
    lognormal(
        Id::CoreHeatCapacity,
        Factor(|f| &mut f.core_heat_capacity),
        1.15,
        &EN_15544_FIRECLAY,
    ),
    // 0.06 W/mK, from 0.04 of cold wool to 0.09 of hot.
    lognormal(
        Id::FlueConductivity,
        Factor(|f| &mut f.flue_conductivity),
        1.5,
        &WOOL_CONDUCTIVITY,
    ),
    lognormal(Id::OutsideFilm, Factor(|f| &mut f.outside_film), 1.4, &OUTSIDE_FILM_SPREAD),
    // 1.5 kg/h, from 1 to 2.
    uniform(Id::KindlingRate, Factor(|f| &mut f.kindling_rate), 1.0 / 3.0, &COLD_START),
    // 5, from 4 to 6.
    uniform(Id::KindlingExcessAir, Factor(|f| &mut f.kindling_excess_air), 0.2, &COLD_START),
];

impl SpreadId {
    /// All of them, in the order of [`SPREADS`].
    pub fn all() -> impl Iterator<Item = Self> {
        SPREADS.iter().map(|spread| spread.id)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::field::check;
    use std::collections::HashSet;

    #[test]
    fn every_spread_varies_something_and_can_be_analyzed() {
        let ids: HashSet<_> = SpreadId::all().map(|id| format!("{id:?}")).collect();
        assert_eq!(ids.len(), SPREADS.len());
        let nominal = Design::demonstration();
        for Spread { target, distribution, id, .. } in &SPREADS {
            for probability in [1e-9, 0.05, 0.95, 1.0 - 1e-9] {
                let (mut design, mut factors) = (nominal.clone(), Factors::NOMINAL);
                let value = distribution.value(
                    target.nominal(&design),
                    &target.possible(),
                    probability,
                );
                target.set(&mut design, &mut factors, value);
                assert!(design != nominal || factors != Factors::NOMINAL, "{id:?}");
                assert_eq!(check(&design), Vec::new(), "{id:?}");
            }
        }
    }

    #[test]
    fn the_coefficient_of_a_reversal_has_the_range_of_its_source() {
        let Spread { target, distribution, .. } = &SPREADS[0];
        let at = |probability| distribution.value(3.0, &target.possible(), probability);
        // What lies beyond 0.5 and beyond 10 is cut off: less than one in a million.
        assert!((at(0.05) - 2.0).abs() < 1e-4);
        assert!((at(0.50) - 3.0).abs() < 1e-4);
        assert!((at(0.95) - 4.5).abs() < 1e-4);
    }

    #[test]
    fn what_lies_beyond_the_possible_is_cut_off() {
        let half = Distribution::Normal { reach: 0.2 };
        // Half of a normal distribution: its median is the upper quartile of the whole, 0.67449
        // deviations of 0.2/1.64485.
        let median = half.value(0.0, &(0.0..=10.0), 0.5);
        assert!((median - 0.67449 * 0.2 / 1.64485).abs() < 1e-6, "{median}");
        assert!(half.value(0.0, &(0.0..=10.0), 1e-12) >= 0.0);
        let none = Distribution::Lognormal { factor: 3.0 };
        assert!(none.value(0.0, &(0.0..=0.2), 0.9).abs() < 1e-12);
        let even = Distribution::Uniform { share: 0.2 };
        assert!((even.value(5.0, &(0.0..=f64::INFINITY), 0.25) - 4.5).abs() < 1e-12);
    }
}
