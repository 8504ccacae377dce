//! What pulls and what holds back.

use super::chimney::Flue;
use super::conditions::Weather;
use super::march::{Passage, Stream, dynamic_pressure};
use super::path::Path;
use crate::design::Design;
use crate::physics::air;
use crate::physics::pressure::{column_pull, local_loss, margin};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A line of the draft ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Item {
    /// Hot gas in the firebox, up or down to the axis of the first run.
    FireboxColumn,
    /// Rises and falls from run to run.
    RunRises,
    /// Hot gas in the chimney.
    ChimneyColumn,
    /// Air inlet.
    Inlet,
    /// Turn into the first run.
    EntryTurn,
    /// Reversals between the runs.
    Reversals,
    /// Turn out of the last run.
    ExitTurn,
    /// Wall friction of the runs.
    RunFriction,
    /// Wall friction of connector and chimney.
    ChimneyFriction,
    /// Cap or other obstacle at the mouth.
    Mouth,
    /// Gas set in motion, from the firebox to the mouth.
    Acceleration,
    /// Suction of the house.
    HouseSuction,
    /// Wind onto the mouth.
    Wind,
}

/// An item of the ledger with its pressure.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Entry {
    /// What it is.
    pub item: Item,
    /// Pull if positive, hindrance if negative (Pa).
    pub pascals: f64,
}

/// The draft ledger at one flow.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Ledger {
    /// All items, in flow order of what pulls and then of what holds back.
    pub entries: Vec<Entry>,
    /// Sum of the columns of gas, signed (Pa).
    pub draft: f64,
    /// Sum of all that holds back (Pa).
    pub losses: f64,
}

impl Ledger {
    /// Draft less losses (Pa).
    pub fn margin(&self) -> f64 {
        margin(self.draft, self.losses)
    }
}

/// What the ledger is made from.
pub(crate) struct Flow<'a> {
    pub stream: &'a Stream,
    /// The part of it that takes the runs.
    pub runs_stream: &'a Stream,
    pub path: &'a Path,
    pub firebox_temperature: f64,
    pub passages: &'a [Passage],
    pub flue: &'a Flue,
    /// Air taken in (kg/s), and the free area through which it comes (m2).
    pub air: f64,
    pub inlet_area: f64,
    pub weather: Weather,
}

/// Loss of the turn into each run (Pa), on the faster of the two sections that it joins.
pub(super) fn turn_losses(
    path: &Path,
    stream: &Stream,
    firebox_temperature: f64,
    passages: &[Passage],
) -> Vec<f64> {
    let mut area_before = f64::INFINITY;
    let mut temperature = firebox_temperature;
    let mut losses = Vec::with_capacity(passages.len());
    for (segment, passage) in path.segments.iter().zip(passages) {
        let narrow = segment.area.min(area_before);
        let dynamic = dynamic_pressure(stream, narrow, temperature);
        losses.push(segment.turn_coefficient * dynamic);
        area_before = segment.area;
        temperature = passage.outlet;
    }
    losses
}

/// Sums up what pulls and what holds back.
pub(crate) fn ledger(design: &Design, flow: &Flow<'_>) -> Ledger {
    let Flow { stream, path, firebox_temperature, passages, flue, air: air_flow, .. } = flow;
    let [firebox, rises, column] = columns(design, flow);
    let flue_area = design.chimney.area();
    let turns = turn_losses(path, flow.runs_stream, *firebox_temperature, passages);
    let last = passages.last().map_or(*firebox_temperature, |passage| passage.outlet);
    let last_area = path.segments.last().map_or(f64::INFINITY, |segment| segment.area);
    let narrow = last_area.min(flue_area);
    let exit = path.exit_coefficient * dynamic_pressure(flow.runs_stream, narrow, last);
    let room = air::density(stream.pressure, design.site.room_temperature);
    let inlet = local_loss(design.firebox.inlet_coefficient, *air_flow, flow.inlet_area, room);
    let mouth = design.chimney.mouth_coefficient
        * dynamic_pressure(stream, flue_area, flue.outdoors.outlet);

    let reversals: f64 = turns.iter().skip(1).sum();
    let run_friction: f64 = passages.iter().map(|passage| passage.friction).sum();
    let flue_friction =
        flue.connector.friction + flue.indoors.friction + flue.outdoors.friction;
    let items = [
        (Item::FireboxColumn, firebox),
        (Item::RunRises, rises),
        (Item::ChimneyColumn, column),
        (Item::Inlet, -inlet),
        (Item::EntryTurn, -turns.first().copied().unwrap_or(0.0)),
        (Item::Reversals, -reversals),
        (Item::ExitTurn, -exit),
        (Item::RunFriction, -run_friction),
        (Item::ChimneyFriction, -flue_friction),
        (Item::Mouth, -mouth),
        (Item::Acceleration, -acceleration(flow, flue_area)),
        (Item::HouseSuction, -flow.weather.suction),
        (Item::Wind, -design.site.wind_pressure),
    ];
    let entries: Vec<Entry> =
        items.into_iter().map(|(item, pascals)| Entry { item, pascals }).collect();
    let draft = firebox + rises + column;
    let losses = draft - entries.iter().map(|entry| entry.pascals).sum::<f64>();
    Ledger { entries, draft, losses }
}

/// Pull of the gas in firebox, rises between runs, and chimney (Pa), signed.
fn columns(design: &Design, flow: &Flow<'_>) -> [f64; 3] {
    let Flow { stream, path, firebox_temperature, passages, flue, .. } = flow;
    let outside = air::density(stream.pressure, flow.weather.outdoors);
    let gas_density = |t: f64| stream.gas.density(stream.pressure, t);
    let pull = |rise: f64, density: f64| column_pull(rise, outside, density);
    let first_rise = path.segments.first().map_or(0.0, |segment| segment.rise);
    let firebox = pull(design.firebox.height + first_rise, gas_density(*firebox_temperature));
    let rises = path.segments.iter().skip(1).zip(*passages);
    let rises: f64 =
        rises.map(|(segment, before)| pull(segment.rise, gas_density(before.outlet))).sum();
    let outdoors = design.chimney.outdoor_length;
    let indoors = design.chimney.mouth_height - path.exit_height - outdoors;
    let column =
        pull(indoors, flue.indoors.mean_density) + pull(outdoors, flue.outdoors.mean_density);
    [firebox, rises, column]
}

/// Momentum from rest in the firebox to the mouth: along each duct the rise of the momentum flux,
/// at each change of section the difference of the dynamic pressures.
fn acceleration(flow: &Flow<'_>, flue_area: f64) -> f64 {
    let mut sum = 0.0;
    let mut before = 0.0;
    let mut temperature = flow.firebox_temperature;
    for (segment, passage) in flow.path.segments.iter().zip(flow.passages) {
        sum += dynamic_pressure(flow.runs_stream, segment.area, temperature) - before;
        sum += passage.acceleration;
        temperature = passage.outlet;
        before = dynamic_pressure(flow.runs_stream, segment.area, temperature);
    }
    sum += dynamic_pressure(flow.stream, flue_area, temperature) - before;
    let Flue { connector, indoors, outdoors, .. } = flow.flue;
    sum + connector.acceleration + indoors.acceleration + outdoors.acceleration
}

/// A flow at which draft and losses balance with the air fully open.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct NaturalFlow {
    /// Flue gas (kg/s).
    pub gas_flow_kg_per_s: f64,
    /// Air over stoichiometric air (–).
    pub excess_air_ratio: f64,
    /// Whether the margin falls with the flow, so that the flow holds itself.
    pub stable: bool,
}
