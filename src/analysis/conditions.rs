//! The heater under other conditions than those of the height of the fire: the same fire on a mild
//! day, the first kindling in cold masonry, the draft when it is due for cleaning, and the wall at
//! the mouth with half the wood.
//!
//! Burn, march, flue and ledger are those of the height of the fire. Of these only the outdoor
//! part of the flue and the ledger know the weather.

use super::branch::way;
use super::chimney::{Flue, cold_flue, cold_wall, flue_outdoors};
use super::draft::{Flow, Ledger, NaturalFlow, ledger};
use super::fire::Burn;
use super::march::{Passage, Stream};
use super::otherwise::{fouled, half_charged};
use super::path::path;
use super::runs::through_runs;
use super::{Case, State, dew_point_of, state_at};
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

/// Wood that a kindling fire burns (kg/s): 1.5 kg/h, the middle of 1 to 2 kg/h. Less wood makes
/// less flow and less loss, but also less heat for the flue: neither end is always the worse.
///
/// # Source
///
/// [`crate::sources::COLD_START`].
pub const KINDLING_RATE: f64 = 1.5 / 3600.0;

/// Excess air of a kindling fire (–), the middle of 4 to 6.
///
/// # Source
///
/// [`crate::sources::COLD_START`].
pub const KINDLING_EXCESS_AIR: f64 = 5.0;

/// Gas of a kindling fire in the firebox and where it leaves it (K).
///
/// # Source
///
/// [`crate::sources::COLD_START`].
pub const KINDLING_GAS: f64 = 250.0 + ZERO_CELSIUS;

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

/// States of the heater in which the draft is smaller, or the chimney colder, than at the height of
/// the fire.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Conditions {
    /// The height of the fire on a mild day.
    pub mild_day: MildDay,
    /// A kindling fire while masonry and flue are cold.
    pub cold_start: ColdStart,
    /// The wall at the mouth at the height of the fire with half a charge; missing where no figures
    /// were found.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub half_charge: Option<MouthState>,
    /// The height of the fire when the heater is due for cleaning; missing where no figures were
    /// found.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub due_for_cleaning: Option<DueForCleaning>,
}

/// The height of the fire with ash on the floor of every run and soot on every wall.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DueForCleaning {
    /// At the outdoor temperature that the design states.
    pub design_day: DraftState,
    /// On the mild day.
    pub mild_day: DraftState,
}

/// The wall at the mouth and what it is held against.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MouthState {
    /// Inner wall at the mouth (K in memory, °C in files).
    #[serde(rename = "chimney_mouth_wall_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub wall: f64,
    /// Dew point of the water in the gas (K in memory, °C in files).
    #[serde(rename = "dew_point_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub dew_point: f64,
}

/// The height of the fire on a mild day: 15 °C outdoors, or as the design states if that is warmer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MildDay {
    /// At the excess air that the design states.
    pub stated: DraftState,
    /// Flows at which the heater balances with the air fully open.
    pub natural_flows: Vec<NaturalFlow>,
}

/// A kindling fire: runs and indoor flue at room temperature, outdoor flue as cold as outdoors.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ColdStart {
    /// Moist wood burned (kg/s).
    #[serde(rename = "burn_rate_kg_per_s")]
    pub burn_rate: f64,
    /// Air over stoichiometric air (–).
    pub excess_air_ratio: f64,
    /// Gas where it leaves the firebox (K in memory, °C in files).
    #[serde(rename = "firebox_outlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub firebox_outlet: f64,
    /// At the outdoor temperature that the design states.
    pub design_day: DraftState,
    /// On the mild day.
    pub mild_day: DraftState,
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
    pub(crate) fn in_weather(&self, case: Case<'_>, weather: Weather) -> (Flue, Ledger) {
        let Case { design, path, .. } = case;
        let height = path.exit_height;
        let flue = flue_outdoors(design, &self.stream, height, &self.flue, weather.outdoors);
        let ledger = ledger(
            design,
            &Flow {
                stream: &self.stream,
                runs_stream: &self.way.runs_stream,
                path,
                firebox_temperature: self.firebox.temperature,
                passages: &self.way.passages,
                flue: &flue,
                air: self.burn.air_flow(),
                inlet_area: design.firebox.inlet_area,
                weather,
            },
        );
        (flue, ledger)
    }
}

/// Draft on the mild day, at the cold start and when due for cleaning, and the wall at the mouth
/// with half a charge.
pub(super) fn conditions(
    case: Case<'_>,
    state: &State,
    natural_flows: Vec<NaturalFlow>,
) -> Conditions {
    let weather = Weather::mild(case.design);
    let (flue, ledger) = state.in_weather(case, weather);
    let runs_outlet = state.runs_outlet();
    let stated = draft_state(&state.stream, runs_outlet, &flue, &ledger, weather);
    let mild_day = MildDay { stated, natural_flows };
    Conditions {
        mild_day,
        cold_start: cold_start(case),
        half_charge: half_charge(case),
        due_for_cleaning: due_for_cleaning(case),
    }
}

/// The draft when the heater is due for cleaning.
fn due_for_cleaning(case: Case<'_>) -> Option<DueForCleaning> {
    let foul = fouled(case.design);
    let narrowed = path(&foul);
    let case = Case { design: &foul, path: &narrowed, ..case };
    let state = state_at(case, foul.fire.excess_air_ratio).ok()?;
    let at = |weather: Weather| {
        let (flue, ledger) = state.in_weather(case, weather);
        draft_state(&state.stream, state.runs_outlet(), &flue, &ledger, weather)
    };
    let [design_day, mild_day] = [Weather::judged(&foul), Weather::mild(&foul)].map(at);
    let is_found = design_day.margin.is_finite() && mild_day.margin.is_finite();
    is_found.then_some(DueForCleaning { design_day, mild_day })
}

/// The wall at the mouth with half a charge.
fn half_charge(case: Case<'_>) -> Option<MouthState> {
    let half = half_charged(case.design);
    let state = state_at(Case { design: &half, ..case }, half.fire.excess_air_ratio).ok()?;
    let found =
        MouthState { wall: state.flue.mouth_wall, dew_point: dew_point_of(&state.stream) };
    (found.wall.is_finite() && found.dew_point.is_finite()).then_some(found)
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

/// The instant at which the kindling burns and no wall has taken heat yet.
fn cold_start(case: Case<'_>) -> ColdStart {
    let Case { design, path, factors } = case;
    let burn = Burn::at_rate(
        design,
        KINDLING_RATE * factors.kindling_rate,
        KINDLING_EXCESS_AIR * factors.kindling_excess_air,
    );
    let stream = case.stream(&burn);
    // The bypass is there to be opened now.
    let opening = design.path.bleed_area + design.path.bypass_area;
    let way = way(path, &stream, (opening, KINDLING_GAS), |stream| cold_runs(case, stream));
    let runs_outlet = way.passages.last().map_or(KINDLING_GAS, |last| last.outlet);
    let at = |weather: Weather| {
        let flue = cold_flue(design, &stream, path.exit_height, way.joined, weather.outdoors);
        let flow = Flow {
            stream: &stream,
            runs_stream: &way.runs_stream,
            path,
            firebox_temperature: KINDLING_GAS,
            passages: &way.passages,
            flue: &flue,
            air: burn.air_flow(),
            inlet_area: design.firebox.inlet_area,
            weather,
        };
        draft_state(&stream, runs_outlet, &flue, &ledger(design, &flow), weather)
    };
    ColdStart {
        burn_rate: burn.rate,
        excess_air_ratio: burn.excess_air_ratio,
        firebox_outlet: KINDLING_GAS,
        design_day: at(Weather::judged(design)),
        mild_day: at(Weather::mild(design)),
    }
}

/// The gas of the kindling through runs whose walls are held at room temperature.
fn cold_runs(case: Case<'_>, stream: &Stream) -> Vec<Passage> {
    let room = case.design.site.room_temperature;
    through_runs(case, stream, KINDLING_GAS, |segment, sinks| {
        let girth = segment.walls.iter().map(|wall| wall.girth).sum();
        sinks.extend(cold_wall(girth, room));
    })
}
