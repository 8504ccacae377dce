//! One design under one condition: the height of the fire; beside it `conditions` in which the
//! same heater draws less or its chimney is colder, some of them with the heater `otherwise`.
//!
//! The height of the fire is an instant: burn rate = charge / burn duration, every heater wall at
//! room temperature when lit, half of the burn over. Walls take heat as if the flux had been
//! constant since; connector and chimney are steady.

pub mod branch;
pub mod chimney;
pub mod conditions;
pub mod connection;
pub mod day;
pub mod draft;
pub mod envelope;
pub mod extrapolation;
pub mod facing;
pub mod factors;
pub mod fire;
pub mod house;
pub mod march;
mod natural;
pub mod otherwise;
pub mod path;
pub mod places;
mod runs;
pub mod standard_route;
pub mod structure;

use crate::design::Design;
use crate::design::field::{Problem, check};
use crate::physics::air::{self, DRY_AIR};
use crate::physics::convection::richardson;
use crate::physics::gas::{Species, sensible_enthalpy, stream_heat};
use crate::physics::root::NoRoot;
use crate::physics::vapor::{dew_point, partial_pressure};
use crate::physics::wood::{share_of_higher, useful_share};
use crate::units::in_celsius;
use branch::{Way, way};
use chimney::{Flue, flue};
use conditions::{Conditions, Weather, conditions};
use draft::{Entry, Flow, Ledger, NaturalFlow, ledger, turn_losses};
use extrapolation::{Extrapolation, extrapolations};
use factors::Factors;
use fire::{Burn, Firebox, firebox};
use house::{House, house};
use march::{LastCell, Passage, Sink, Stream};
use natural::natural_flows;
use path::{Path, Segment, path};
use runs::{CELLS_PER_RUN, add_strip, run_channel, through_runs};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use structure::{Structure, structure};

/// Why a design could not be analyzed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Failure {
    /// An input is outside what is possible.
    #[error("an input is outside what is possible")]
    Inputs(Vec<Problem>),
    /// No temperature at which the firebox balances.
    #[error("the firebox finds no balance: {0}")]
    Firebox(NoRoot),
    /// The search for a natural flow did not end.
    #[error("the search for the natural flow did not end: {0}")]
    NaturalFlow(NoRoot),
    /// A step of the day did not settle.
    #[error("a step of the day did not settle")]
    DayUnsettled,
    /// With its air left to the draft, the fire gets none and goes out.
    #[error("the draft gives the fire no air")]
    FireStarved,
    /// The day found no state that repeats.
    #[error("the day found no state that repeats")]
    NotPeriodic,
    /// A figure came out infinite or not a number.
    #[error("the analysis came to no finite figures")]
    NotFinite,
}

/// Everything found out about a design.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Analysis {
    /// The instant that stands for the firing.
    pub height_of_fire: HeightOfFire,
    /// Where its draft is smaller: a mild day, and the kindling in cold masonry.
    pub conditions: Conditions,
    /// The heater in its house.
    pub house: House,
    /// Masses of the parts and what they press on.
    pub structure: Structure,
}

/// One run at the height of the fire.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RunState {
    /// Gas where it enters the run (K in memory, °C in files).
    #[serde(rename = "inlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub inlet: f64,
    /// Gas where it leaves the run (K in memory, °C in files).
    #[serde(rename = "outlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub outlet: f64,
    /// Inner wall surface, mean over length and walls (K in memory, °C in files).
    #[serde(rename = "wall_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub wall: f64,
    /// Heat given to the walls (W).
    #[serde(rename = "heat_watts")]
    pub heat: f64,
    /// Share of that heat by gas radiation (–).
    pub radiation_fraction: f64,
    /// Speed where the gas enters (m/s).
    #[serde(rename = "velocity_m_per_s")]
    pub velocity: f64,
    /// Reynolds number at the middle (–).
    pub reynolds: f64,
    /// Buoyancy over inertia, g (T_g - T_w)/T_g D/v2 (–): near 1 and above, natural convection in
    /// the run matters; the rule by which it joins forced flow is rough.
    pub richardson: f64,
    /// Wall friction (Pa).
    #[serde(rename = "friction_pascals")]
    pub friction: f64,
    /// Loss of the turn into the run (Pa).
    #[serde(rename = "turn_pascals")]
    pub turn: f64,
}

/// Where the heat of the wood goes at the height of the fire (W).
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HeatShares {
    /// Heat of the wood on the lower heating value.
    pub wood_watts: f64,
    /// Sensible heat of the combustion air above 25 °C.
    pub air_watts: f64,
    /// Left unburned.
    pub unburned_watts: f64,
    /// Into the walls of the firebox.
    pub firebox_walls_watts: f64,
    /// Through the glass to the room.
    pub glass_watts: f64,
    /// Through the metal of the door to the room.
    pub door_watts: f64,
    /// Into the walls of the runs.
    pub runs_watts: f64,
    /// From the connector to the room.
    pub connector_watts: f64,
    /// From the chimney to house and outdoors.
    pub chimney_watts: f64,
    /// Out of the mouth, above 25 °C.
    pub mouth_watts: f64,
}

/// The height of the fire: see the module.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HeightOfFire {
    /// Moist wood of the firing (kg).
    #[serde(rename = "charge_kg")]
    pub charge: f64,
    /// Moist wood burned (kg/s).
    #[serde(rename = "burn_rate_kg_per_s")]
    pub burn_rate: f64,
    /// Air over stoichiometric air (–).
    pub excess_air_ratio: f64,
    /// Flue gas (kg/s).
    #[serde(rename = "gas_flow_kg_per_s")]
    pub gas_flow: f64,
    /// Combustion air (kg/s).
    #[serde(rename = "air_flow_kg_per_s")]
    pub air_flow: f64,
    /// Local air pressure (Pa).
    #[serde(rename = "pressure_pascals")]
    pub pressure: f64,
    /// Lower heating value of the moist wood (J/kg).
    #[serde(rename = "lower_heating_value_j_per_kg")]
    pub lower_heating_value: f64,
    /// Adiabatic flame of complete combustion without dissociation, the unburned share not taken
    /// off (K in memory, °C in files).
    #[serde(rename = "flame_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub flame: f64,
    /// Gas where it leaves the firebox (K in memory, °C in files).
    #[serde(rename = "firebox_outlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub firebox_outlet: f64,
    /// Inner wall surface of the firebox, mean (K in memory, °C in files).
    #[serde(rename = "firebox_wall_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub firebox_wall: f64,
    /// Runs in flow order.
    pub runs: Vec<RunState>,
    /// Length of runs and of the rises between them (m).
    #[serde(rename = "path_length_m")]
    pub path_length: f64,
    /// Gas where it leaves the last run for the connector (K in memory, °C in files).
    #[serde(rename = "runs_outlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub runs_outlet: f64,
    /// Share of the gas that goes through the bleed slot past the runs (–).
    pub bleed_fraction: f64,
    /// Gas where it enters the chimney (K in memory, °C in files).
    #[serde(rename = "chimney_inlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub chimney_inlet: f64,
    /// Speed of the gas where it enters the chimney (m/s).
    #[serde(rename = "chimney_velocity_m_per_s")]
    pub chimney_velocity: f64,
    /// Gas at the mouth (K in memory, °C in files).
    #[serde(rename = "chimney_mouth_gas_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub chimney_mouth_gas: f64,
    /// Inner wall surface at the mouth (K in memory, °C in files).
    #[serde(rename = "chimney_mouth_wall_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub chimney_mouth_wall: f64,
    /// Dew point of the water in the gas (K in memory, °C in files).
    #[serde(rename = "dew_point_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub dew_point: f64,
    /// What pulls: the columns of gas, signed (Pa).
    #[serde(rename = "draft_pascals")]
    pub draft: f64,
    /// What holds back (Pa).
    #[serde(rename = "losses_pascals")]
    pub losses: f64,
    /// Draft less losses (Pa).
    #[serde(rename = "margin_pascals")]
    pub margin: f64,
    /// The ledger, item by item: pull positive, hindrance negative.
    pub ledger: Vec<Entry>,
    /// Flows at which the heater balances with the air fully open.
    pub natural_flows: Vec<NaturalFlow>,
    /// Useful heat over heat of the wood, lower heating value (–).
    pub efficiency_lower: f64,
    /// Useful heat over heat of the wood, higher heating value (–).
    pub efficiency_higher: f64,
    /// Where the heat goes.
    pub heat: HeatShares,
    /// Formulas that were used outside the range for which they were published.
    pub extrapolations: Vec<Extrapolation>,
}

impl HeightOfFire {
    /// The flow that the heater takes with its air open: the largest stable one.
    pub fn running_flow(&self) -> Option<&NaturalFlow> {
        self.natural_flows.iter().rfind(|flow| flow.stable)
    }
}

/// A design with its path, and how far the formulas for it are taken to be off.
#[derive(Clone, Copy)]
pub(crate) struct Case<'a> {
    pub(crate) design: &'a Design,
    pub(crate) path: &'a Path,
    pub(crate) factors: &'a Factors,
}

/// State of the whole heater at one excess air; what [`HeightOfFire`] is read off.
pub(crate) struct State {
    pub(crate) burn: Burn,
    pub(crate) firebox: Firebox,
    pub(crate) stream: Stream,
    pub(crate) way: Way,
    turns: Vec<f64>,
    pub(crate) flue: Flue,
    pub(crate) ledger: Ledger,
}

impl State {
    /// Gas out of the last run (K).
    fn runs_outlet(&self) -> f64 {
        let last = self.way.passages.last();
        last.map_or(self.firebox.temperature, |passage| passage.outlet)
    }
}

/// Analyzes a design.
///
/// # Errors
///
/// [`Failure`]: what is wrong with the inputs, or why no figures were found.
pub fn analyze(design: &Design) -> Result<Analysis, Failure> {
    analyze_with(design, &Factors::NOMINAL)
}

/// Analyzes a design with formulas and table values off by factors. The firing day and the
/// standard route do not know them.
///
/// # Errors
///
/// As [`analyze`].
pub fn analyze_with(design: &Design, factors: &Factors) -> Result<Analysis, Failure> {
    let problems = check(design);
    if !problems.is_empty() {
        return Err(Failure::Inputs(problems));
    }
    let path = path(design);
    let case = Case { design, path: &path, factors };
    let state = state_at(case, design.fire.excess_air_ratio)?;
    let mut height_of_fire = read_off(design, &path, &state);
    let [natural_flows, mild_flows] = natural_flows(case, Weather::mild(design))?;
    height_of_fire.natural_flows = natural_flows;
    let conditions = conditions(case, &state, mild_flows);
    let finite = [
        height_of_fire.margin,
        conditions.mild_day.stated.margin,
        conditions.cold_start.design_day.margin,
        conditions.cold_start.mild_day.margin,
        height_of_fire.efficiency_lower,
        height_of_fire.chimney_mouth_wall,
        height_of_fire.dew_point,
    ];
    if finite.iter().all(|value| value.is_finite()) {
        let house = house(design, &height_of_fire, height_of_fire.efficiency_lower);
        let structure = structure(design, &path);
        Ok(Analysis { height_of_fire, conditions, house, structure })
    } else {
        Err(Failure::NotFinite)
    }
}

/// What the height of the fire of a design is read off, for the working of its figures.
///
/// # Errors
///
/// As [`analyze`].
pub(crate) fn detail(design: &Design) -> Result<(Path, State), Failure> {
    let problems = check(design);
    if !problems.is_empty() {
        return Err(Failure::Inputs(problems));
    }
    let path = path(design);
    let case = Case { design, path: &path, factors: &Factors::NOMINAL };
    let state = state_at(case, design.fire.excess_air_ratio)?;
    Ok((path, state))
}

/// The last cell of the last run; none without runs, or without exchange.
pub(crate) fn last_cell_of_runs(
    design: &Design,
    path: &Path,
    state: &State,
) -> Option<LastCell> {
    let stream = &state.way.runs_stream;
    let segment = path.segments.last()?;
    let mut before = state.way.passages.iter().rev().skip(1);
    let inlet = before.next().map_or(state.firebox.temperature, |passage| passage.outlet);
    let mut sinks = Vec::new();
    storing_walls(design, stream, segment, &mut sinks);
    march::last_cell(stream, &run_channel(design, segment, &sinks, CELLS_PER_RUN), inlet)
}

/// Half of the burn: since then the walls have taken heat (s).
fn elapsed(design: &Design) -> f64 {
    0.5 * design.fire.burn_duration
}

pub(crate) fn state_at(case: Case<'_>, excess_air_ratio: f64) -> Result<State, Failure> {
    let Case { design, path, .. } = case;
    let burn = Burn::new(design, excess_air_ratio);
    let firebox = firebox(case, &burn, elapsed(design))?;
    let stream = case.stream(&burn);
    let opening = (design.path.bleed_area, firebox.temperature);
    let way =
        way(path, &stream, opening, |stream| storing_runs(case, stream, firebox.temperature));
    let flue = flue(design, &stream, path.exit_height, way.joined);
    let flow = Flow {
        stream: &stream,
        runs_stream: &way.runs_stream,
        path,
        firebox_temperature: firebox.temperature,
        passages: &way.passages,
        flue: &flue,
        air: burn.air_flow(),
        inlet_area: design.firebox.inlet_area,
        weather: Weather::stated(design),
    };
    let ledger = ledger(design, &flow);
    let turns = turn_losses(path, &way.runs_stream, firebox.temperature, &way.passages);
    Ok(State { burn, firebox, stream, way, turns, flue, ledger })
}

impl Case<'_> {
    /// The gas of a burn on its way.
    fn stream(&self, burn: &Burn) -> Stream {
        Stream {
            gas: burn.gas,
            mass_flow: burn.gas_flow(),
            pressure: pressure(self.design),
            factors: *self.factors,
        }
    }
}

/// Local pressure (Pa); the catalog of inputs holds the altitude inside the formula's range.
fn pressure(design: &Design) -> f64 {
    air::pressure_at_altitude(design.site.altitude).unwrap_or(air::SEA_LEVEL_PRESSURE)
}

/// The gas at the height of the fire, whose walls have taken heat since they were lit.
fn storing_runs(case: Case<'_>, stream: &Stream, inlet: f64) -> Vec<Passage> {
    through_runs(case, stream, inlet, |segment, sinks| {
        storing_walls(case.design, stream, segment, sinks);
    })
}

/// The walls of a run as the gas sees them then.
fn storing_walls(design: &Design, stream: &Stream, segment: &Segment, sinks: &mut Vec<Sink>) {
    let room = design.site.room_temperature;
    for wall in &segment.walls {
        let resistance = wall.storage_resistance(design, &stream.factors, elapsed(design));
        add_strip(sinks, Sink::alone(wall.girth, room, resistance));
    }
}

/// Dew point of the water in a stream of gas (K).
fn dew_point_of(stream: &Stream) -> f64 {
    let water = stream.gas.composition().fraction(Species::Water);
    dew_point(partial_pressure(water, stream.pressure))
}

fn read_off(design: &Design, path: &Path, state: &State) -> HeightOfFire {
    let State { burn, firebox, stream, way, turns, flue, ledger } = state;
    let gas = &stream.gas;
    let room = design.site.room_temperature;
    let stack = stream_heat(stream.mass_flow, gas.enthalpy(way.joined), gas.enthalpy(room));
    let efficiency_lower = useful_share(stack, burn.heat(), design.fire.unburned_fraction);
    let mut inlet = firebox.temperature;
    let runs: Vec<RunState> = way
        .passages
        .iter()
        .zip(turns)
        .zip(&path.segments)
        .map(|((passage, turn), segment)| {
            let state = run_state(passage, inlet, *turn, segment.duct.hydraulic_diameter);
            inlet = passage.outlet;
            state
        })
        .collect();
    HeightOfFire {
        charge: design.fire.charge,
        burn_rate: burn.rate,
        excess_air_ratio: burn.excess_air_ratio,
        gas_flow: stream.mass_flow,
        air_flow: burn.air_flow(),
        pressure: stream.pressure,
        lower_heating_value: burn.lower_heating_value,
        flame: burn.flame_temperature(room),
        firebox_outlet: firebox.temperature,
        firebox_wall: firebox.wall,
        path_length: path.length,
        runs_outlet: state.runs_outlet(),
        bleed_fraction: way.branched,
        chimney_inlet: flue.connector.outlet,
        chimney_velocity: flue.indoors.velocity,
        chimney_mouth_gas: flue.outdoors.outlet,
        chimney_mouth_wall: flue.mouth_wall,
        dew_point: dew_point_of(stream),
        draft: ledger.draft,
        losses: ledger.losses,
        margin: ledger.margin(),
        ledger: ledger.entries.clone(),
        natural_flows: Vec::new(),
        efficiency_lower,
        efficiency_higher: share_of_higher(
            efficiency_lower,
            burn.lower_heating_value,
            burn.higher_heating_value,
        ),
        heat: heat_shares(design, state),
        extrapolations: extrapolations(design, (path, state), &runs),
        runs,
    }
}

/// Richardson number at the mean of a run (–).
fn of_passage(passage: &Passage, inlet: f64, hydraulic_diameter: f64) -> f64 {
    let mean = 0.5 * (inlet + passage.outlet);
    // The speed rises with the temperature at constant mass flow.
    let velocity = passage.velocity * mean / inlet;
    richardson(mean, passage.wall, hydraulic_diameter, velocity)
}

fn run_state(passage: &Passage, inlet: f64, turn: f64, hydraulic_diameter: f64) -> RunState {
    RunState {
        inlet,
        outlet: passage.outlet,
        wall: passage.wall,
        heat: passage.heat,
        radiation_fraction: passage.radiation_fraction,
        velocity: passage.velocity,
        reynolds: passage.reynolds,
        richardson: of_passage(passage, inlet, hydraulic_diameter),
        friction: passage.friction,
        turn,
    }
}

fn heat_shares(design: &Design, state: &State) -> HeatShares {
    let State { burn, firebox, stream, way, flue, .. } = state;
    let room = design.site.room_temperature;
    HeatShares {
        wood_watts: burn.heat(),
        air_watts: burn.air_flow() * sensible_enthalpy(&DRY_AIR, room),
        unburned_watts: burn.heat() * design.fire.unburned_fraction,
        firebox_walls_watts: firebox.wall_heat,
        glass_watts: firebox.glass_heat,
        door_watts: firebox.door_heat,
        runs_watts: way.passages.iter().map(|passage| passage.heat).sum(),
        connector_watts: flue.connector.heat,
        chimney_watts: flue.indoors.heat + flue.outdoors.heat,
        mouth_watts: stream.mass_flow * stream.gas.enthalpy(flue.outdoors.outlet),
    }
}
