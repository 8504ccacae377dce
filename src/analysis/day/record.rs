//! What is kept of a day: energies, means, peaks, curves.

use super::body::Zone;
use super::solver::{Outflows, Rates, Solver};
use crate::units::{celsius, in_celsius};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Where the heat went over a time (J).
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Energy {
    /// Heat of the wood on the lower heating value.
    pub wood_joules: f64,
    /// Sensible heat of all air taken in, above 25 °C.
    pub air_joules: f64,
    /// Left unburned.
    pub unburned_joules: f64,
    /// Through the glass to the room.
    pub glass_joules: f64,
    /// Through the metal of the door to the room.
    pub door_joules: f64,
    /// From the faces of firebox and runs, the door of an oven with them, to the room.
    pub faces_joules: f64,
    /// From the cap to the room.
    pub cap_joules: f64,
    /// Down through the base slab.
    pub under_joules: f64,
    /// From the connector to the room.
    pub connector_joules: f64,
    /// From the chimney to the house.
    pub chimney_indoors_joules: f64,
    /// From the chimney to outdoors.
    pub chimney_outdoors_joules: f64,
    /// Out of the mouth, above 25 °C.
    pub mouth_joules: f64,
    /// More in the walls at the end than at the beginning.
    pub stored_joules: f64,
    /// Gas above room temperature where it leaves the last run, fire and after: of this connector,
    /// chimney and mouth take their share.
    pub stack_joules: f64,
}

impl Energy {
    /// What came in and is not found again (J).
    pub fn missing(&self) -> f64 {
        self.wood_joules + self.air_joules
            - self.unburned_joules
            - self.to_room()
            - self.under_joules
            - self.connector_joules
            - self.chimney_indoors_joules
            - self.chimney_outdoors_joules
            - self.mouth_joules
            - self.stored_joules
    }

    /// From the heater to the room (J): glass, door, faces, cap.
    pub fn to_room(&self) -> f64 {
        self.glass_joules + self.door_joules + self.faces_joules + self.cap_joules
    }
}

/// A temperature with its time.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct At {
    /// Temperature (K in memory, °C in files).
    #[serde(rename = "celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub temperature: f64,
    /// Since the first lighting (s).
    pub time_s: f64,
}

impl At {
    fn raise(&mut self, temperature: f64, time: f64) {
        if self.temperature < temperature {
            *self = Self { temperature, time_s: time };
        }
    }
}

/// Where the hottest face is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FacePlace {
    /// Around the firebox.
    #[default]
    Firebox,
    /// Around a run, counted from 1.
    Run(usize),
    /// The cap.
    Cap,
}

/// Hottest side of each layer, over all walls that have it, with heat straight through; 0 K where
/// none has. Along a run that is the middle of its first cell.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LayerPeaks {
    /// Core toward the fire (K in memory, °C in files).
    #[serde(
        rename = "firebox_celsius",
        with = "in_celsius",
        skip_serializing_if = "is_absent"
    )]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub firebox: f64,
    /// Core toward the gas of a run.
    #[serde(rename = "runs_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub runs: f64,
    /// Facing, on its inner side.
    #[serde(rename = "facing_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub facing: f64,
    /// Insulating board, on its inner side.
    #[serde(rename = "board_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub board: f64,
    /// Concrete of the base slab, on its upper side.
    #[serde(rename = "base_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub base: f64,
    /// Concrete of the base slab, on its underside.
    #[serde(rename = "under_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub under: f64,
    /// Sheet of the connector.
    #[serde(
        rename = "connector_celsius",
        with = "in_celsius",
        skip_serializing_if = "is_absent"
    )]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub connector: f64,
    /// Wall of the flue, on its inner side.
    #[serde(rename = "liner_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub liner: f64,
    /// Mineral wool around the flue, on its inner side.
    #[serde(rename = "wool_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub wool: f64,
    /// Core between the gas of a run and the room, of the firebox where there is no run, as a mean
    /// through its thickness and over its outside.
    #[serde(rename = "core_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub core: f64,
}

/// Whether a part is not there: nothing else is at 0 K.
fn is_absent<T: Default + PartialOrd>(temperature: &T) -> bool {
    *temperature <= T::default()
}

impl LayerPeaks {
    /// Every figure (K), in the order of a message.
    pub fn figures(&mut self) -> [&mut f64; 10] {
        let Self { firebox, runs, facing, board, base, under, connector, liner, wool, core } =
            self;
        [firebox, runs, facing, board, base, under, connector, liner, wool, core]
    }
}

/// The hottest minute of each part.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Peak {
    /// Gas out of the firebox.
    pub firebox_outlet: At,
    /// Gas out of the last run.
    pub runs_outlet: At,
    /// Gas into the chimney.
    pub chimney_inlet: At,
    /// Hottest face to the room, in its middle, where heat goes straight through.
    pub surface: At,
    /// Where that face is.
    pub surface_place: FacePlace,
    /// Hottest face of the wall behind; none without such a wall. An upper bound: heat spreads
    /// sideways in the masonry, and no gap is quite shut.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wall_behind: Option<At>,
    /// Hottest upright face to the room (K in memory, °C in files).
    #[serde(
        rename = "upright_celsius",
        with = "in_celsius",
        skip_serializing_if = "is_absent"
    )]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub upright: f64,
    /// Hottest face of the top of a bench (K in memory, °C in files); 0 K where there is none.
    #[serde(rename = "bench_celsius", with = "in_celsius", skip_serializing_if = "is_absent")]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub bench: f64,
    /// Hottest side of each layer.
    pub layers: LayerPeaks,
    /// Most heat from the heater to the room (W).
    pub room_watts: f64,
    /// When (s).
    pub room_time_s: f64,
}

/// Means over the burn, weighted by the flow of gas.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BurnMean {
    /// Gas out of the firebox (K in memory, °C in files).
    #[serde(rename = "firebox_outlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub firebox_outlet: f64,
    /// Gas at the end of each run (°C).
    pub runs_celsius: Vec<f64>,
    /// Gas into the chimney (K in memory, °C in files).
    #[serde(rename = "chimney_inlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub chimney_inlet: f64,
    /// Gas (kg/s), mean over time.
    pub gas_flow_kg_per_s: f64,
    /// Air over stoichiometric air (–).
    pub excess_air_ratio: f64,
}

/// Draft through the burn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DraftOfDay {
    /// Least margin while the fire burns (Pa).
    pub least_margin_pascals: f64,
    /// When (s since the first lighting).
    pub least_margin_time_s: f64,
    /// Time in which losses exceed the draft while the fire burns (s): the chimney pulls less air
    /// than the fire is said to get.
    pub short_of_draft_s: f64,
    /// Time of that in which it pulls less than the wood needs to burn, or none at all (s): smoke
    /// comes back.
    pub smoke_back_s: f64,
    /// Of that, until the flame of the first fire stands (s).
    #[serde(default)]
    pub kindling_smoke_s: f64,
    /// Coldest inner wall at the mouth while the fire burns (K in memory, °C in files).
    #[serde(rename = "coldest_mouth_wall_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub coldest_mouth_wall: f64,
    /// Time in which that wall is below the dew point of the gas while the fire burns (s).
    pub wet_wall_s: f64,
    /// Warmest inner wall at the mouth while the fire burns (K in memory, °C in files); none of a day
    /// that was computed before this was kept.
    #[serde(
        rename = "warmest_mouth_wall_celsius",
        with = "in_celsius",
        skip_serializing_if = "is_absent"
    )]
    #[serde(default)]
    #[schemars(with = "f64")]
    pub warmest_mouth_wall: f64,
    /// How long the fire burns (s).
    #[serde(default)]
    pub burning_s: f64,
}

impl DraftOfDay {
    /// Share of the burns in which the wall at the mouth is below the dew point (–).
    pub fn wet_share(&self) -> f64 {
        if self.burning_s > 0.0 { self.wet_wall_s / self.burning_s } else { 0.0 }
    }
}

/// Curves over the time, one entry per step.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Series {
    /// Since the first lighting (s).
    pub time_s: Vec<f64>,
    /// Heat of the wood that burns (W).
    pub wood_watts: Vec<f64>,
    /// Gas above room temperature out of the last run (W).
    pub stack_watts: Vec<f64>,
    /// From glass, door, faces and cap to the room (W).
    pub room_watts: Vec<f64>,
    /// In the walls above the start from cold (J).
    pub stored_joules: Vec<f64>,
    /// Hottest face to the room (°C).
    pub surface_celsius: Vec<f64>,
    /// Gas out of the firebox (°C).
    pub firebox_outlet_celsius: Vec<f64>,
    /// Gas at the end of each run (°C), run by run.
    pub runs_celsius: Vec<Vec<f64>>,
    /// Gas into the chimney (°C).
    pub chimney_inlet_celsius: Vec<f64>,
    /// Inner wall at the mouth (°C).
    pub mouth_wall_celsius: Vec<f64>,
    /// Draft less losses (Pa).
    pub margin_pascals: Vec<f64>,
    /// Air over stoichiometric air (–); 0 without fire.
    pub excess_air_ratio: Vec<f64>,
    /// Gas or air (kg/s).
    pub gas_flow_kg_per_s: Vec<f64>,
    /// Largest Richardson number of all runs (–).
    #[serde(default)]
    pub largest_richardson: Vec<f64>,
}

/// Margin below zero from which air is short (Pa).
const SHORT_MARGIN: f64 = 0.1;

/// What stage after stage is booked.
#[derive(Clone, Debug, Default)]
pub struct Booked {
    /// Energies so far.
    pub energy: Energy,
    /// Peaks so far.
    pub peak: Peak,
    /// Draft so far.
    pub draft: DraftOfDay,
    weighted: BurnMean,
    gas_mass: f64,
}

/// Keeps a record while a heater is stepped through time.
#[derive(Clone, Debug, Default)]
pub struct Record {
    /// Of the stages so far.
    pub booked: Booked,
    /// Curves so far.
    pub series: Series,
    dew_point: f64,
    /// When the flame of the first fire stands (s).
    kindled: f64,
    /// Hottest face at the stage just booked (K).
    surface: f64,
    /// The warmest face on average over its outside (K), one entry per step as in the curves.
    pub warmth: Vec<f64>,
}

/// A stage of a step as it is booked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stage {
    /// At its end (s since the first lighting).
    pub time: f64,
    /// Its weight in sums over time (s).
    pub weight: f64,
}

impl Record {
    /// An empty record for a heater with a number of runs, whose gas has a dew point (K) and whose
    /// first flame stands after a time (s).
    pub fn new(runs: usize, dew_point: f64, kindled: f64) -> Self {
        let mut record = Self { dew_point, kindled, ..Self::default() };
        record.booked.weighted.runs_celsius = vec![0.0; runs];
        record.series.runs_celsius = vec![Vec::new(); runs];
        record.booked.draft.least_margin_pascals = f64::INFINITY;
        record.booked.draft.coldest_mouth_wall = f64::INFINITY;
        record
    }

    /// Books a stage.
    pub fn add(&mut self, solver: &Solver<'_>, state: &[f64], rates: &Rates, stage: Stage) {
        let Stage { time, weight } = stage;
        let Outflows { faces, cap, under, connector, indoors, outdoors } =
            solver.outflows(state);
        let flows: [(&mut f64, f64); 13] = {
            let energy = &mut self.booked.energy;
            [
                (&mut energy.wood_joules, rates.wood),
                (&mut energy.air_joules, rates.air),
                (&mut energy.unburned_joules, rates.unburned),
                (&mut energy.glass_joules, rates.glass),
                (&mut energy.door_joules, rates.door),
                (&mut energy.faces_joules, faces),
                (&mut energy.cap_joules, cap),
                (&mut energy.under_joules, under),
                (&mut energy.connector_joules, connector),
                (&mut energy.chimney_indoors_joules, indoors),
                (&mut energy.chimney_outdoors_joules, outdoors),
                (&mut energy.mouth_joules, rates.mouth),
                (&mut energy.stack_joules, rates.stack),
            ]
        };
        for (sum, watts) in flows {
            *sum += weight * watts;
        }
        let room = rates.glass + rates.door + faces + cap;
        self.peaks(solver, state, (rates, room), time);
        if rates.wood > 0.0 {
            self.burn(rates, stage);
        }
    }

    fn peaks(
        &mut self,
        solver: &Solver<'_>,
        state: &[f64],
        (rates, room): (&Rates, f64),
        time: f64,
    ) {
        let peak = &mut self.booked.peak;
        if rates.wood > 0.0 {
            peak.firebox_outlet.raise(rates.firebox, time);
            let last = rates.runs.last().copied().unwrap_or(rates.firebox);
            peak.runs_outlet.raise(last, time);
            peak.chimney_inlet.raise(rates.chimney_inlet, time);
        }
        let (surface, zone) = solver.hottest_face(state);
        if peak.surface.temperature < surface {
            peak.surface_place = match zone {
                Zone::RunFace(index, _) => FacePlace::Run(index + 1),
                Zone::Cap => FacePlace::Cap,
                _ => FacePlace::Firebox,
            };
        }
        peak.surface.raise(surface, time);
        self.surface = surface;
        if let Some(face) = solver.wall_behind(state) {
            peak.wall_behind.get_or_insert_default().raise(face, time);
        }
        peak.upright = peak.upright.max(solver.hottest_upright(state));
        peak.bench = peak.bench.max(solver.bench(state).unwrap_or_default());
        solver.raise_layers(state, &mut peak.layers);
        if peak.room_watts < room {
            (peak.room_watts, peak.room_time_s) = (room, time);
        }
    }

    fn burn(&mut self, rates: &Rates, Stage { time, weight }: Stage) {
        let mass = weight * rates.gas_flow;
        let Booked { weighted: sums, draft, gas_mass, .. } = &mut self.booked;
        *gas_mass += mass;
        sums.firebox_outlet += mass * rates.firebox;
        sums.chimney_inlet += mass * rates.chimney_inlet;
        sums.excess_air_ratio += mass * rates.excess_air_ratio;
        for (sum, run) in sums.runs_celsius.iter_mut().zip(&rates.runs) {
            *sum += mass * run;
        }
        if rates.margin < draft.least_margin_pascals {
            (draft.least_margin_pascals, draft.least_margin_time_s) = (rates.margin, time);
        }
        // Where the draft sets the air, the margin is zero to within its search.
        if rates.margin < -SHORT_MARGIN {
            draft.short_of_draft_s += weight;
            if rates.drawn_ratio < 1.0 {
                draft.smoke_back_s += weight;
                if time <= self.kindled {
                    draft.kindling_smoke_s += weight;
                }
            }
        }
        draft.burning_s += weight;
        draft.coldest_mouth_wall = draft.coldest_mouth_wall.min(rates.mouth_wall);
        draft.warmest_mouth_wall = draft.warmest_mouth_wall.max(rates.mouth_wall);
        if rates.mouth_wall < self.dew_point {
            draft.wet_wall_s += weight;
        }
    }

    /// Adds the stage just booked to the curves.
    pub fn point(&mut self, solver: &Solver<'_>, state: &[f64], rates: &Rates, time: f64) {
        let series = &mut self.series;
        let Outflows { faces, cap, .. } = solver.outflows(state);
        series.time_s.push(time);
        series.wood_watts.push(rates.wood);
        series.stack_watts.push(rates.stack);
        series.room_watts.push(rates.glass + rates.door + faces + cap);
        series.stored_joules.push(solver.stored(state));
        series.surface_celsius.push(celsius(self.surface));
        self.warmth.push(solver.warmest_face(state));
        series.firebox_outlet_celsius.push(celsius(rates.firebox));
        for (run, outlet) in series.runs_celsius.iter_mut().zip(&rates.runs) {
            run.push(celsius(*outlet));
        }
        series.chimney_inlet_celsius.push(celsius(rates.chimney_inlet));
        series.mouth_wall_celsius.push(celsius(rates.mouth_wall));
        series.margin_pascals.push(rates.margin);
        series.excess_air_ratio.push(rates.excess_air_ratio);
        series.gas_flow_kg_per_s.push(rates.gas_flow);
        series.largest_richardson.push(rates.richardson);
    }

    /// Means over the burn so far.
    pub fn burn_mean(&self) -> BurnMean {
        let Booked { weighted: sums, gas_mass, draft, .. } = &self.booked;
        if *gas_mass <= 0.0 {
            return BurnMean::default();
        }
        let mean = |sum: f64| sum / gas_mass;
        BurnMean {
            firebox_outlet: mean(sums.firebox_outlet),
            runs_celsius: sums.runs_celsius.iter().map(|sum| celsius(mean(*sum))).collect(),
            chimney_inlet: mean(sums.chimney_inlet),
            gas_flow_kg_per_s: gas_mass / draft.burning_s,
            excess_air_ratio: mean(sums.excess_air_ratio),
        }
    }
}
