//! Formulas that are used outside the range for which they were published, listed once the figures
//! are found.

use super::day::{DayState, Series};
use super::path::Path;
use super::{RunState, State};
use crate::design::Design;
use crate::physics::convection::NORRIS_FRICTION_RATIO;
use crate::physics::gas::TRANSPORT_TEMPERATURE;
use crate::physics::pressure::{COLEBROOK_ROUGHNESS, TURBULENT_START, friction_factor_konakov};
use crate::physics::radiation::LECKNER_TEMPERATURE;
use crate::units::kelvin;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::ops::RangeInclusive;

/// A formula with a published range.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Formula {
    /// Heat transfer of forced flow in a run, by the Richardson number (–): above 1 its sum with
    /// natural convection is rough.
    ForcedConvection,
    /// Colebrook's friction factor, by the roughness over the hydraulic diameter (–).
    ColebrookFriction,
    /// Norris' gain of rough walls, by the friction factor over the smooth one (–): held at 4.
    NorrisGain,
    /// Leckner's emissivity, by the temperature of the gas (K): held to its range.
    LecknerEmissivity,
    /// Viscosity and conductivity of the gas, by its temperature (K): held to their range.
    GasTransport,
}

/// Where on its way the gas left the range farthest behind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Stretch {
    /// A run, counted from 1.
    Run(usize),
    /// Connector or chimney.
    Flue,
}

/// A formula that was used outside its range at the height of the fire.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Extrapolation {
    /// Which.
    pub formula: Formula,
    /// Where the value lies farthest outside.
    pub stretch: Stretch,
    /// The value there, in the unit that the formula states.
    pub value: f64,
    /// Least value of the published range.
    pub from: f64,
    /// Greatest value of it.
    pub to: f64,
}

/// Richardson numbers at which forced flow carries the heat (–).
pub const FORCED_RICHARDSON: RangeInclusive<f64> = 0.0..=1.0;
/// Friction factors over smooth ones that raise heat transfer (–).
const NORRIS_RATIO: RangeInclusive<f64> = 0.0..=NORRIS_FRICTION_RATIO;

/// A value on a stretch of the way.
type Seen = (Stretch, f64);

/// Lists what lies outside at the height of the fire, each formula once; after convergence, so that
/// no search pays for it.
pub(super) fn extrapolations(
    design: &Design,
    (path, state): (&Path, &State),
    runs: &[RunState],
) -> Vec<Extrapolation> {
    let along = || runs.iter().zip(&path.segments).enumerate();
    let richardson =
        along().map(|(index, (run, _))| (Stretch::Run(index + 1), run.richardson.abs()));
    let flue = (Stretch::Flue, design.chimney.roughness / design.chimney.hydraulic_diameter());
    let roughness = along().map(|(index, (_, segment))| {
        (Stretch::Run(index + 1), segment.duct.roughness / segment.duct.hydraulic_diameter)
    });
    let gain = along().map(|(index, (run, segment))| {
        let reynolds = run.reynolds.max(TURBULENT_START);
        let smooth = friction_factor_konakov(reynolds);
        (Stretch::Run(index + 1), segment.duct.friction_factor(reynolds) / smooth)
    });
    let gas = || {
        let hot = along().map(|(index, (run, _))| (Stretch::Run(index + 1), run.inlet));
        let cold = along().map(|(index, (run, _))| (Stretch::Run(index + 1), run.outlet));
        hot.chain(cold).chain([(Stretch::Flue, state.flue.outdoors.outlet)])
    };
    let worst = [
        outside(Formula::ForcedConvection, &FORCED_RICHARDSON, richardson),
        outside(Formula::ColebrookFriction, &COLEBROOK_ROUGHNESS, roughness.chain([flue])),
        outside(Formula::NorrisGain, &NORRIS_RATIO, gain),
        outside(Formula::LecknerEmissivity, &LECKNER_TEMPERATURE, gas()),
        outside(Formula::GasTransport, &TRANSPORT_TEMPERATURE, gas()),
    ];
    worst.into_iter().flatten().collect()
}

/// A formula that was used outside its range while a fire burned.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OverTheBurn {
    /// Which.
    pub formula: Formula,
    /// The value farthest outside, in the unit that the formula states.
    pub value: f64,
    /// Least value of the published range.
    pub from: f64,
    /// Greatest value of it.
    pub to: f64,
    /// For how long of all burns of the period (s).
    pub time_s: f64,
    /// How long fires burn in the period (s).
    pub of_s: f64,
}

/// Lists what lies outside while the fire burns, each formula once: those that depend on the minute.
/// After the fire hardly anything flows, and nothing hangs on it.
pub fn over_the_burns(state: &DayState) -> Vec<OverTheBurn> {
    let series = &state.series;
    let gas = |index: usize| {
        let Series { firebox_outlet_celsius, runs_celsius, chimney_inlet_celsius, .. } = series;
        let curves =
            [firebox_outlet_celsius, chimney_inlet_celsius].into_iter().chain(runs_celsius);
        curves.filter_map(|curve| curve.get(index)).map(|celsius| kelvin(*celsius)).collect()
    };
    let stirred =
        |index: usize| series.largest_richardson.get(index).copied().into_iter().collect();
    let found = [
        over(series, (Formula::ForcedConvection, &FORCED_RICHARDSON), &stirred),
        over(series, (Formula::LecknerEmissivity, &LECKNER_TEMPERATURE), &gas),
        over(series, (Formula::GasTransport, &TRANSPORT_TEMPERATURE), &gas),
    ];
    found.into_iter().flatten().collect()
}

/// A formula over the steps in which the fire burns, by the values that each of them has.
fn over(
    series: &Series,
    (formula, range): (Formula, &RangeInclusive<f64>),
    values: &dyn Fn(usize) -> Vec<f64>,
) -> Option<OverTheBurn> {
    let (from, to) = (*range.start(), *range.end());
    let beyond = |value: f64| (from - value).max(value - to);
    let mut worst: Option<f64> = None;
    let (mut before, mut time_s, mut of_s) = (0.0, 0.0, 0.0);
    for (index, (time, wood)) in series.time_s.iter().zip(&series.wood_watts).enumerate() {
        let step = time - before;
        before = *time;
        if *wood <= 0.0 {
            continue;
        }
        of_s += step;
        let farthest =
            values(index).into_iter().max_by(|a, b| beyond(*a).total_cmp(&beyond(*b)));
        let Some(value) = farthest.filter(|value| 0.0 < beyond(*value)) else { continue };
        time_s += step;
        if worst.is_none_or(|worst| beyond(worst) < beyond(value)) {
            worst = Some(value);
        }
    }
    worst.map(|value| OverTheBurn { formula, value, from, to, time_s, of_s })
}

/// The value farthest outside a range, where there is one.
fn outside(
    formula: Formula,
    range: &RangeInclusive<f64>,
    values: impl Iterator<Item = Seen>,
) -> Option<Extrapolation> {
    let (from, to) = (*range.start(), *range.end());
    let beyond = |value: f64| (from - value).max(value - to);
    let (stretch, value) = values
        .filter(|(_, value)| 0.0 < beyond(*value))
        .max_by(|one, other| beyond(one.1).total_cmp(&beyond(other.1)))?;
    Some(Extrapolation { formula, stretch, value, from, to })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two fires of four steps of 10 min, the first of which is beyond for two: 20 min of 80.
    #[test]
    fn time_beyond_is_counted_while_the_fire_burns() {
        let mut series = Series {
            time_s: (1..=10).map(|step| 600.0 * f64::from(step)).collect(),
            wood_watts: vec![1.0, 1.0, 1.0, 1.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0],
            largest_richardson: vec![0.5, 1.5, 3.0, 0.9, 9.0, 9.0, 0.2, 1.0, 0.4, 0.3],
            ..Series::default()
        };
        let of = |series: &Series| {
            let at = |index: usize| {
                series.largest_richardson.get(index).copied().into_iter().collect()
            };
            over(series, (Formula::ForcedConvection, &FORCED_RICHARDSON), &at)
        };
        let found = of(&series).unwrap();
        assert_eq!((found.value, found.time_s, found.of_s), (3.0, 1200.0, 4800.0));
        series.largest_richardson.iter_mut().for_each(|value| *value = value.min(1.0));
        assert_eq!(of(&series), None);
    }

    #[test]
    fn the_value_farthest_outside_is_listed_and_none_within() {
        let of = |values: &[f64]| {
            let seen = values.iter().enumerate();
            let seen = seen.map(|(index, value)| (Stretch::Run(index + 1), *value));
            outside(Formula::LecknerEmissivity, &(400.0..=2500.0), seen)
        };
        assert_eq!(of(&[400.0, 900.0, 2500.0]), None);
        let cold = of(&[600.0, 390.0, 350.0, 395.0]).unwrap();
        assert_eq!((cold.stretch, cold.value), (Stretch::Run(3), 350.0));
        let hot = of(&[390.0, 2600.0]).unwrap();
        assert_eq!((hot.value, hot.to), (2600.0, 2500.0));
    }
}
