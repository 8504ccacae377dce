//! The heater on other days than that of the height of the fire: the same fire on a mild day.
//!
//! Burn, march, flue and ledger are those of the height of the fire. Of these only the outdoor
//! part of the flue and the ledger know the weather.

use super::State;
use super::chimney::{Flue, flue_outdoors};
use super::draft::{Flow, Ledger, NaturalFlow, ledger};
use super::march::Stream;
use super::path::Path;
use crate::design::Design;
use crate::units::{ZERO_CELSIUS, in_celsius};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Outdoors on a mild day (K); a design that is warmer than this is mild as it stands.
///
/// # Source
///
/// [`crate::sources::MILD_DAY`].
pub const MILD_OUTDOORS: f64 = 15.0 + ZERO_CELSIUS;

/// Least suction of a house that feeds the fire with its air, whatever was entered (Pa).
///
/// # Source
///
/// [`crate::sources::HOUSE_SUCTION`].
pub const LEAST_SUCTION: f64 = 4.0;

/// What decides the draft of a heater from outside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Weather {
    /// Outdoors (K).
    pub outdoors: f64,
    /// Suction of the house (Pa).
    pub suction: f64,
}

impl Weather {
    /// As the design states it.
    pub fn stated(design: &Design) -> Self {
        Self { outdoors: design.site.outdoor_temperature, suction: design.site.house_suction }
    }

    /// Outdoors as the design states it, with at least the suction that is judged.
    pub fn judged(design: &Design) -> Self {
        let stated = Self::stated(design);
        Self { suction: stated.suction.max(LEAST_SUCTION), ..stated }
    }

    /// The mild day, with at least the suction that is judged.
    pub fn mild(design: &Design) -> Self {
        let judged = Self::judged(design);
        Self { outdoors: judged.outdoors.max(MILD_OUTDOORS), ..judged }
    }
}

/// Days on which the draft is smaller than at the height of the fire.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Conditions {
    /// The height of the fire on a mild day.
    pub mild_day: MildDay,
}

/// The height of the fire on a mild day: 15 °C outdoors, or as the design states if that is warmer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MildDay {
    /// At the excess air that the design states.
    pub stated: DraftState,
    /// Flows at which the heater balances with the air fully open.
    pub natural_flows: Vec<NaturalFlow>,
}

/// Draft and losses under one condition.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DraftState {
    /// Outdoors (K in memory, °C in files).
    #[serde(rename = "outdoor_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub outdoors: f64,
    /// Suction of the house that was reckoned with, at least 4 Pa (Pa).
    #[serde(rename = "house_suction_pascals")]
    pub house_suction: f64,
    /// Flue gas (kg/s).
    #[serde(rename = "gas_flow_kg_per_s")]
    pub gas_flow: f64,
    /// Gas where it leaves the last run (K in memory, °C in files).
    #[serde(rename = "runs_outlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub runs_outlet: f64,
    /// Gas at the mouth (K in memory, °C in files).
    #[serde(rename = "chimney_mouth_gas_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub chimney_mouth_gas: f64,
    /// What pulls: the columns of gas, signed (Pa).
    #[serde(rename = "draft_pascals")]
    pub draft: f64,
    /// What holds back (Pa).
    #[serde(rename = "losses_pascals")]
    pub losses: f64,
    /// Draft less losses (Pa).
    #[serde(rename = "margin_pascals")]
    pub margin: f64,
}

impl State {
    /// The ledger of the same fire in other weather, with the flue that it has there.
    pub(super) fn in_weather(
        &self,
        design: &Design,
        path: &Path,
        weather: Weather,
    ) -> (Flue, Ledger) {
        let height = path.exit_height;
        let flue = flue_outdoors(design, &self.stream, height, &self.flue, weather.outdoors);
        let ledger = ledger(
            design,
            &Flow {
                stream: &self.stream,
                path,
                firebox_temperature: self.firebox.temperature,
                passages: &self.passages,
                flue: &flue,
                air: self.burn.air_flow(),
                inlet_area: design.firebox.inlet_area,
                weather,
            },
        );
        (flue, ledger)
    }
}

/// Draft on the mild day.
pub(super) fn conditions(
    design: &Design,
    path: &Path,
    state: &State,
    natural_flows: Vec<NaturalFlow>,
) -> Conditions {
    let weather = Weather::mild(design);
    let (flue, ledger) = state.in_weather(design, path, weather);
    let runs_outlet =
        state.passages.last().map_or(state.firebox.temperature, |last| last.outlet);
    let stated = draft_state(&state.stream, runs_outlet, &flue, &ledger, weather);
    let mild_day = MildDay { stated, natural_flows };
    Conditions { mild_day }
}

fn draft_state(
    stream: &Stream,
    runs_outlet: f64,
    flue: &Flue,
    ledger: &Ledger,
    weather: Weather,
) -> DraftState {
    DraftState {
        outdoors: weather.outdoors,
        house_suction: weather.suction,
        gas_flow: stream.mass_flow,
        runs_outlet,
        chimney_mouth_gas: flue.outdoors.outlet,
        draft: ledger.draft,
        losses: ledger.losses,
        margin: ledger.margin(),
    }
}
