//! A stage of a step of time: gas in balance with the walls at its end.
//!
//! Each face answers a flux within the step by a line (base and resistance), so that gas meets
//! walls here as it does at the height of the fire. What couples cells against the flow (the
//! other face of a baffle, radiation between walls) takes the values of the sweep before; sweeps
//! go on until no surface moves.

use super::body::{Body, End, Strip, Zone, outdoor_length};
use super::layers::{Conductances, Fluxes, Ply, Reduced, Response};
use super::record::LayerPeaks;
use super::seeking::Seeking;
use super::settling::{Faces, Settling};
use super::trace::{CellMemory, Found, Trace};
use super::{Setup, Without};
use crate::analysis::Failure;
use crate::analysis::branch::{self, Way};
use crate::analysis::chimney::{Flue, connector_channel, flue_channel};
use crate::analysis::conditions::Weather;
use crate::analysis::draft::{Flow, Ledger, ledger};
use crate::analysis::fire::{
    Burn, Feed, Firebox, GLASS_EXCHANGE, Within, balance, black, through_glass,
};
use crate::analysis::march::{Gathering, Passage, Sink, Stream, Stretch, Touch, wall_at};
use crate::analysis::path::Path;
use crate::analysis::runs::run_channel;
use crate::design::{AirControl, Design, Layout};
use crate::physics::air::DRY_AIR;
use crate::physics::gap::across_gap;
use crate::physics::gas::{Gas, sensible_enthalpy};

const MOST_SWEEPS: u32 = 80;
/// Draft over losses, on logarithms: 0.02 Pa of 20.
const FLOW_TOLERANCE: f64 = 1e-3;
/// On the share of the gas that takes the bleed slot (–).
const SHARE_TOLERANCE: f64 = 2e-4;
/// Sweeps after which the flow through a heater without fire is taken as it is.
const SWEEPS_FOR_A_TRICKLE: u32 = 40;
/// Largest move of a surface in the last sweep (K).
const TOLERANCE: f64 = 0.01;
/// A wall is light for a step over which films of this would give it its heat capacity (W/m2K):
/// those of hot gas inside and of the room outside are twice as much or less.
const LIGHT: f64 = 20.0;
/// A flow that stands for none (kg/s).
const LEAST_FLOW: f64 = 1e-5;
/// Excess air beyond which a fire is as good as out (–).
const MOST_EXCESS_AIR: f64 = 1e7;

/// What burns, what flows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instant {
    /// Gas and flow.
    pub stream: Stream,
    /// Air taken in (kg/s).
    pub air_flow: f64,
    /// Air over stoichiometric air (–); 0 without fire.
    pub excess_air_ratio: f64,
    /// Heat of the wood that burns (W).
    pub wood: f64,
    /// Heat into the firebox: wood less unburned, and air (W).
    supply: f64,
    /// Hottest that the fire can be (K).
    hottest: f64,
    inlet_area: f64,
    burning: bool,
}

/// What one step found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Rates {
    /// Instant that it was for.
    pub excess_air_ratio: f64,
    /// Gas (kg/s).
    pub gas_flow: f64,
    /// Heat of the wood (W).
    pub wood: f64,
    /// Heat of the air above 25 °C (W).
    pub air: f64,
    /// Left unburned (W).
    pub unburned: f64,
    /// Gas out of the firebox (K).
    pub firebox: f64,
    /// Gas at the end of each run (K).
    pub runs: Vec<f64>,
    /// Gas into the chimney, at the mouth, wall there (K).
    pub chimney_inlet: f64,
    /// Gas at the mouth (K).
    pub mouth_gas: f64,
    /// Wall at the mouth (K).
    pub mouth_wall: f64,
    /// Through glass and door (W).
    pub glass: f64,
    /// Through the metal of the door (W).
    pub door: f64,
    /// Out of the mouth above 25 °C (W).
    pub mouth: f64,
    /// Gas above room temperature into the connector (W).
    pub stack: f64,
    /// Draft less losses (Pa).
    pub margin: f64,
    /// Air over stoichiometric air at which the two would balance with these temperatures (–).
    pub drawn_ratio: f64,
}

/// The gas from the firebox to the mouth, as a sweep found it.
struct Swept {
    firebox: Firebox,
    /// Through runs and bleed slot.
    way: Way,
    flue: Flue,
}

/// Steps a heater through time.
pub struct Solver<'a> {
    design: &'a Design,
    path: &'a Path,
    /// The masonry.
    pub body: &'a Body,
    setup: &'a Setup,
    held: Burn,
    air: Gas,
    pressure: f64,
    found: Found,
    trace: Option<Trace>,
    settling: Settling,
    conductances: Vec<Conductances>,
    reduced: Vec<Reduced>,
    /// Node temperatures at the end of the step.
    new: Vec<f64>,
    /// How fast they changed in the step before (K/s).
    rates: Vec<f64>,
    /// Walls that are light for the step of time at hand.
    light: Vec<bool>,
    seeking_flow: Seeking,
    seeking_share: Seeking,
    /// Buffers for one cell.
    sinks: Vec<Sink>,
    touches: Vec<Touch>,
}

impl<'a> Solver<'a> {
    /// Prepares a heater; faces start at the temperatures of the start from cold.
    pub fn new(design: &'a Design, path: &'a Path, body: &'a Body, setup: &'a Setup) -> Self {
        let faces = body.walls.iter().map(|wall| {
            let face = Touch { surface: wall.start, flux: 0.0 };
            Faces { inner: face, outer: face }
        });
        let cells: usize = body.runs.iter().map(|run| run.cells.len()).sum();
        let cells = cells + 1 + body.indoors.len() + body.outdoors.len();
        let found = Found {
            faces: faces.collect(),
            memories: vec![CellMemory::default(); cells],
            firebox: design.site.room_temperature,
            flow: 0.0,
            branched: 0.0,
        };
        Self {
            design,
            path,
            body,
            setup,
            held: Burn::new(design, design.fire.excess_air_ratio),
            air: Gas::new(DRY_AIR),
            pressure: crate::analysis::pressure(design),
            found,
            trace: None,
            settling: Settling::default(),
            conductances: vec![Conductances::default(); body.walls.len()],
            reduced: vec![Reduced::default(); body.walls.len()],
            new: Vec::new(),
            rates: vec![0.0; body.nodes],
            light: vec![false; body.walls.len()],
            seeking_flow: Seeking::new(FLOW_TOLERANCE),
            seeking_share: Seeking::new(SHARE_TOLERANCE),
            sinks: Vec::new(),
            touches: Vec::new(),
        }
    }

    /// The design.
    pub const fn design(&self) -> &Design {
        self.design
    }

    /// Gas of the held excess air.
    pub const fn held_gas(&self) -> &Gas {
        &self.held.gas
    }

    /// Lower heating value of the moist wood (J/kg).
    pub const fn lower_heating_value(&self) -> f64 {
        self.held.lower_heating_value
    }

    /// Room temperature (K).
    pub const fn room(&self) -> f64 {
        self.design.site.room_temperature
    }

    /// Temperatures of all nodes at a start from cold (K).
    pub fn cold(&self) -> Vec<f64> {
        let mut temperatures = vec![0.0; self.body.nodes];
        for wall in &self.body.walls {
            if let Some(nodes) = temperatures.get_mut(wall.nodes.clone()) {
                nodes.fill(wall.start);
            }
        }
        temperatures
    }

    /// Begins a period that has the same stages as the one before: each starts from what it found
    /// then.
    pub fn begin_period(&mut self) {
        self.trace.get_or_insert_default().rewind();
    }

    /// Where it stands among the stages, with what it found last.
    pub fn place(&self) -> Found {
        self.found.clone()
    }

    /// Does again what failed from a place on, in steps that no other period has.
    pub fn aside(
        &mut self,
        place: Found,
        again: impl FnOnce(&mut Self) -> Result<(), Failure>,
    ) -> Result<(), Failure> {
        self.found = place;
        self.rates.fill(0.0);
        let trace = self.trace.take();
        let done = again(self);
        self.trace = trace.map(|trace| trace.beyond(&self.found));
        done
    }

    /// Tells which walls are light for a step.
    pub fn weigh(&mut self, step: f64) {
        for (light, wall) in self.light.iter_mut().zip(&self.body.walls) {
            *light = wall.layers.capacity() < LIGHT * step;
        }
    }

    /// Carries a state on by a multiple of its change since an earlier one, light walls apart.
    pub fn run_ahead(&self, state: &mut [f64], before: &[f64], times: f64) {
        for (wall, light) in self.body.walls.iter().zip(&self.light) {
            let nodes = wall.nodes.clone();
            let pair = state.get_mut(nodes.clone()).zip(before.get(nodes));
            if let Some((now, before)) = pair.filter(|_| !light) {
                for (now, before) in now.iter_mut().zip(before) {
                    *now = before + times * (*now - before);
                }
            }
        }
    }

    /// Makes a stage of a step; the temperatures become those of its end.
    ///
    /// * `steps` (s): of the implicit method, for walls and for light walls.
    /// * `share` (–): rate of burning over its mean; 0 without fire.
    ///
    /// # Errors
    ///
    /// [`Failure`] when the sweeps do not settle.
    pub fn stage(
        &mut self,
        state: &mut Vec<f64>,
        steps: (f64, f64),
        share: f64,
    ) -> Result<Rates, Failure> {
        let driven = if share > 0.0 {
            self.design.fire.air == AirControl::Draft
        } else {
            self.setup.after_flow.is_none()
        };
        self.seeking_flow = Seeking::new(FLOW_TOLERANCE);
        self.seeking_share = Seeking::new(SHARE_TOLERANCE);
        if let Some(trace) = &self.trace {
            trace.start(&mut self.found);
        }
        self.prepare(state, steps);
        self.settling.sweeps = 0;
        let mut instant = self.instant(share);
        for sweep in 0..MOST_SWEEPS {
            if driven && sweep > 0 {
                instant = self.instant(share);
            }
            self.settling.keep(&self.found.faces);
            let swept = self.sweep(&instant)?;
            self.advance();
            let moved = self.settling.moved(&self.found.faces);
            // Close to a stall the trickle through a heater that cools has no firm value, nor
            // does it carry heat that counts.
            let trickle = share <= 0.0 && SWEEPS_FOR_A_TRICKLE < sweep;
            let steady = !driven || trickle || self.drive(&instant, &swept);
            let same = self.renew(state, steps);
            let parted = trickle || self.part(&instant.stream, &swept);
            if moved < TOLERANCE && steady && same && parted {
                self.finish(state, steps);
                if let Some(trace) = &mut self.trace {
                    trace.keep(&self.found);
                }
                return Ok(self.rates(&instant, &swept));
            }
            self.settling.ahead(&mut self.found.faces);
        }
        Err(Failure::DayUnsettled)
    }

    /// What burns and flows at a rate over the mean rate.
    fn instant(&mut self, share: f64) -> Instant {
        let fire = &self.design.fire;
        if share <= 0.0 {
            let flow = self.setup.after_flow.unwrap_or(self.found.flow).max(LEAST_FLOW);
            let room = self.design.site.room_temperature;
            return Instant {
                stream: self.stream(&self.air, flow),
                air_flow: flow,
                excess_air_ratio: 0.0,
                wood: 0.0,
                supply: flow * sensible_enthalpy(&DRY_AIR, room),
                hottest: room,
                inlet_area: fire.after_opening,
                burning: false,
            };
        }
        let mut burn = match fire.air {
            AirControl::Held => self.held,
            AirControl::Draft => self.burn_by_draft(share),
        };
        burn.rate *= share;
        Instant {
            stream: self.stream(&burn.gas, burn.gas_flow().max(LEAST_FLOW)),
            air_flow: burn.air_flow(),
            excess_air_ratio: burn.excess_air_ratio,
            wood: burn.heat(),
            supply: burn.supply(self.design),
            hottest: burn.flame_temperature(self.design.site.room_temperature),
            inlet_area: self.design.firebox.inlet_area,
            burning: true,
        }
    }

    /// The burn whose air is the flow that the draft drives.
    fn burn_by_draft(&mut self, share: f64) -> Burn {
        let stoichiometric = self.held.air_flow() / self.held.excess_air_ratio * share;
        if self.found.flow <= 0.0 {
            self.found.flow = stoichiometric * self.design.fire.excess_air_ratio;
        }
        let ratio = (self.found.flow / stoichiometric).min(MOST_EXCESS_AIR);
        Burn::new(self.design, ratio)
    }

    const fn stream(&self, gas: &Gas, mass_flow: f64) -> Stream {
        Stream { gas: *gas, mass_flow, pressure: self.pressure, factors: self.setup.factors }
    }

    /// Moves the driven flow toward the balance of draft and losses; whether it is there.
    fn drive(&mut self, instant: &Instant, swept: &Swept) -> bool {
        let (pull, held) = self.moving(&self.ledger(instant, swept));
        let at = libm::log(instant.air_flow);
        let open = instant.inlet_area > 0.0 && pull > 0.0 && held > 0.0;
        let imbalance = if open { libm::log(pull / held) } else { -f64::INFINITY };
        let (next, there) = self.seeking_flow.next(at, imbalance);
        self.found.flow = libm::exp(next).max(LEAST_FLOW);
        there || (imbalance < 0.0 && instant.air_flow < 1.01 * LEAST_FLOW)
    }

    /// Reduces all walls for a stage, with conductances at the temperatures to which the stage
    /// before leads.
    fn prepare(&mut self, old: &[f64], steps: (f64, f64)) {
        let Self { body, setup, conductances, reduced, new, rates, air, light, .. } = self;
        new.clear();
        new.extend_from_slice(old);
        let walls = body.walls.iter().zip(conductances).zip(reduced).zip(light);
        for (((wall, now), reduced), light) in walls {
            let nodes = wall.nodes.clone();
            let (Some(old), Some(new), Some(rates)) =
                (old.get(nodes.clone()), new.get_mut(nodes.clone()), rates.get(nodes))
            else {
                continue;
            };
            let step = if *light { steps.1 } else { steps.0 };
            for (new, rate) in new.iter_mut().zip(rates) {
                *new += step * rate;
            }
            if !setup.lacks(Without::HotConductivity) {
                wall.layers.conduct(new, now);
            }
            wall.layers.conductances(new, &|t| air.conductivity(t), now);
            wall.layers.reduce(old, step, now, reduced);
        }
    }

    /// Makes the temperatures those of the end of the stage.
    fn finish(&mut self, state: &mut Vec<f64>, steps: (f64, f64)) {
        let Self { body, new, rates, light, .. } = self;
        for (wall, light) in body.walls.iter().zip(light) {
            let nodes = wall.nodes.clone();
            let step = if *light { steps.1 } else { steps.0 };
            let (Some(rates), Some(new), Some(old)) =
                (rates.get_mut(nodes.clone()), new.get(nodes.clone()), state.get(nodes))
            else {
                continue;
            };
            for ((rate, new), old) in rates.iter_mut().zip(new).zip(old) {
                *rate = (new - old) / step;
            }
        }
        std::mem::swap(state, &mut self.new);
    }

    /// Brings conductances to the present temperatures; whether all were so already.
    fn renew(&mut self, old: &[f64], steps: (f64, f64)) -> bool {
        let Self { body, conductances, reduced, new, air, light, .. } = self;
        let mut same = true;
        let walls = body.walls.iter().zip(conductances).zip(reduced).zip(light);
        for (((wall, now), reduced), light) in walls {
            let (Some(old), Some(new)) =
                (old.get(wall.nodes.clone()), new.get(wall.nodes.clone()))
            else {
                continue;
            };
            if wall.layers.conductances(new, &|t| air.conductivity(t), now) {
                let step = if *light { steps.1 } else { steps.0 };
                wall.layers.reduce(old, step, now, reduced);
                same = false;
            }
        }
        same
    }

    /// Gas from the firebox to the mouth, once.
    fn sweep(&mut self, instant: &Instant) -> Result<Swept, Failure> {
        let firebox = self.firebox(instant)?;
        let way = self.way(&instant.stream, firebox.temperature);
        let flue = self.flue(instant, way.joined);
        Ok(Swept { firebox, way, flue })
    }

    /// The gas through runs and bleed slot, at the share that the slot took in the sweep before.
    fn way(&mut self, stream: &Stream, firebox: f64) -> Way {
        let branched = self.found.branched;
        let runs_stream = Stream { mass_flow: (1.0 - branched) * stream.mass_flow, ..*stream };
        let passages = self.runs(&runs_stream, firebox);
        let joined = branch::joined(stream, branched, firebox, &passages);
        Way { branched, runs_stream, passages, joined }
    }

    /// Parts the gas anew between runs and bleed slot; whether it was parted so already.
    fn part(&mut self, stream: &Stream, swept: &Swept) -> bool {
        let Swept { firebox, way, .. } = swept;
        let opening = self.design.path.bleed_area;
        let shut = opening <= 0.0 || self.setup.lacks(Without::Bleed);
        if shut || way.passages.is_empty() {
            return true;
        }
        let share = branch::share(self.path, stream, (opening, firebox.temperature), way);
        let (next, there) = self.seeking_share.next(way.branched, share - way.branched);
        self.found.branched = next.clamp(0.0, branch::MOST_SHARE);
        there
    }

    fn ledger(&self, instant: &Instant, swept: &Swept) -> Ledger {
        let flow = Flow {
            stream: &instant.stream,
            runs_stream: &swept.way.runs_stream,
            path: self.path,
            firebox_temperature: swept.firebox.temperature,
            passages: &swept.way.passages,
            flue: &swept.flue,
            air: instant.air_flow,
            inlet_area: instant.inlet_area.max(1e-9),
            weather: Weather::stated(self.design),
        };
        ledger(self.design, &flow)
    }

    /// What is left of the draft to move gas against suction and wind, and what the gas that moves
    /// loses (Pa).
    fn moving(&self, ledger: &Ledger) -> (f64, f64) {
        let site = &self.design.site;
        let still = site.house_suction + site.wind_pressure;
        (ledger.draft - still, ledger.losses - still)
    }

    fn rates(&self, instant: &Instant, swept: &Swept) -> Rates {
        let Swept { firebox, way, flue } = swept;
        let Stream { gas, mass_flow, .. } = &instant.stream;
        let room = self.design.site.room_temperature;
        let ledger = self.ledger(instant, swept);
        let (pull, held) = self.moving(&ledger);
        Rates {
            excess_air_ratio: instant.excess_air_ratio,
            gas_flow: *mass_flow,
            wood: instant.wood,
            air: instant.air_flow * sensible_enthalpy(&DRY_AIR, room),
            unburned: instant.wood * self.design.fire.unburned_fraction,
            firebox: firebox.temperature,
            runs: way.passages.iter().map(|passage| passage.outlet).collect(),
            chimney_inlet: flue.connector.outlet,
            mouth_gas: flue.outdoors.outlet,
            mouth_wall: self.mouth_wall(&instant.stream, flue.outdoors.outlet),
            glass: firebox.glass_heat,
            door: firebox.door_heat,
            mouth: mass_flow * gas.enthalpy(flue.outdoors.outlet),
            stack: mass_flow * (gas.enthalpy(way.joined) - gas.enthalpy(room)),
            margin: ledger.margin(),
            // What holds back goes with the square of the flow.
            drawn_ratio: instant.excess_air_ratio * (pull.max(0.0) / held).sqrt(),
        }
    }

    /// How a face answers a flux within the step.
    fn response(&self, wall: usize, end: End) -> Option<Response> {
        let faces = self.found.faces.get(wall)?;
        let reduced = self.reduced.get(wall)?;
        Some(match end {
            End::Inner => reduced.inner_response(faces.outer.flux),
            End::Outer => reduced.outer_response(faces.inner.flux),
        })
    }

    fn touch(&self, wall: usize, end: End) -> Touch {
        self.found.faces.get(wall).map_or_else(Touch::default, |faces| faces.get(end))
    }

    fn surface(&self, wall: usize, end: End) -> f64 {
        self.touch(wall, end).surface
    }

    fn set(&mut self, wall: usize, end: End, touch: Touch) {
        if let Some(faces) = self.found.faces.get_mut(wall) {
            match end {
                End::Inner => faces.inner = touch,
                End::Outer => faces.outer = touch,
            }
        }
    }

    /// Share of its radiation that a gray wall gives to other gray walls around (–): between
    /// parallel plates of the same emissivity.
    fn wall_exchange(&self) -> f64 {
        if self.setup.lacks(Without::WallRadiation) {
            return 0.0;
        }
        let emissivity = self.design.shell.inner_emissivity;
        emissivity / (2.0 - emissivity)
    }

    fn firebox(&mut self, instant: &Instant) -> Result<Firebox, Failure> {
        let room = self.design.site.room_temperature;
        let flame = if instant.burning { self.design.firebox.flame_emissivity } else { 0.0 };
        let area: f64 = self.body.firebox.iter().map(|part| part.area).sum();
        let glow =
            |part: &super::body::Part| part.area * black(self.surface(part.wall, End::Inner));
        let mean = self.body.firebox.iter().map(glow).sum::<f64>() / area;
        let emission = (1.0 - flame) * self.wall_exchange();
        // Without fire the walls look out through the glass.
        let (glass, _) = self.design.firebox.door_parts();
        let exchange = if self.setup.lacks(Without::Glass) { 0.0 } else { GLASS_EXCHANGE };
        let window =
            if instant.burning { 0.0 } else { glass * through_glass(exchange, mean, room) };
        let received = emission * mean - window / area;
        let mut bounds = (room, instant.hottest);
        let mut sinks = Vec::with_capacity(self.body.firebox.len());
        for part in &self.body.firebox {
            let Some(response) = self.response(part.wall, End::Inner) else {
                continue;
            };
            let surface = self.surface(part.wall, End::Inner);
            bounds.0 = bounds.0.min(response.base).min(surface);
            bounds.1 = bounds.1.max(response.base).max(surface);
            sinks.push(Sink { received, emission, ..response.sink(part.area) });
        }
        let before = self.body.firebox.iter().map(|part| self.touch(part.wall, End::Inner));
        let mut touches: Vec<Touch> = before.collect();
        let feed = Feed {
            gas: &instant.stream.gas,
            mass_flow: instant.stream.mass_flow,
            supply: instant.supply,
            flame_emissivity: flame,
            glass_exchange: if instant.burning { exchange } else { 0.0 },
        };
        let (coolest, hottest) = (bounds.0 - SLACK, bounds.1 + SLACK);
        let start = self.found.firebox.clamp(coolest, hottest);
        let within = Within { coolest, hottest, start };
        let mut firebox = balance(self.design, &feed, &sinks, within, &mut touches)?;
        self.found.firebox = firebox.temperature;
        firebox.glass_heat += window;
        for (part, touch) in self.body.firebox.iter().zip(touches) {
            self.set(part.wall, End::Inner, touch);
        }
        Ok(firebox)
    }

    fn runs(&mut self, stream: &Stream, inlet: f64) -> Vec<Passage> {
        let body = self.body;
        let path = self.path;
        let mut inlet = inlet;
        let mut passages = Vec::with_capacity(body.runs.len());
        let mut first = 0;
        let mut sinks = std::mem::take(&mut self.sinks);
        for (run, segment) in body.runs.iter().zip(&path.segments) {
            let cells = u32::try_from(run.cells.len()).unwrap_or(1);
            let channel = run_channel(self.design, segment, &[], cells);
            let place = Stretch::new(stream, &channel);
            let mut gathering = Gathering::new(&place, cells, inlet);
            let length = segment.length / f64::from(cells);
            for (index, strips) in run.cells.iter().enumerate() {
                let memory =
                    self.found.memories.get(first + index).copied().unwrap_or_default();
                self.strips(strips, &run.views, memory.absorptivity, &mut sinks);
                let at = (&place, length, first + index);
                self.cell(at, &sinks, &mut gathering, |index| {
                    strips.get(index).map(|strip| (strip.wall, strip.end))
                });
            }
            first += run.cells.len();
            let passage = gathering.finish();
            inlet = passage.outlet;
            passages.push(passage);
        }
        self.sinks = sinks;
        passages
    }

    /// Strips of a cell with what they receive from one another.
    fn strips(
        &self,
        strips: &[Strip],
        views: &[[f64; 4]; 4],
        absorptivity: f64,
        sinks: &mut Vec<Sink>,
    ) {
        let mut glow = [0.0; 4];
        let mut girth = [0.0; 4];
        for strip in strips {
            let power = black(self.surface(strip.wall, strip.end));
            for ((glow, girth), side) in glow.iter_mut().zip(&mut girth).zip(strip.sides) {
                *glow += side * power;
                *girth += side;
            }
        }
        for (glow, girth) in glow.iter_mut().zip(girth) {
            *glow /= girth;
        }
        let arriving = views.map(|row| row.iter().zip(glow).map(|(view, e)| view * e).sum());
        let emission = (1.0 - absorptivity) * self.wall_exchange();
        let sink = |strip: &Strip| {
            let response = self.response(strip.wall, strip.end)?;
            let girth = strip.girth();
            let seen: f64 =
                strip.sides.iter().zip(arriving).map(|(side, e): (_, f64)| side * e).sum();
            let received = emission * seen / girth;
            Some(Sink { received, emission, ..response.sink(girth) })
        };
        sinks.clear();
        sinks.extend(strips.iter().filter_map(sink));
    }

    /// One cell of gas; `wall` names the face behind each sink.
    fn cell(
        &mut self,
        (place, length, index): (&Stretch<'_>, f64, usize),
        sinks: &[Sink],
        gathering: &mut Gathering,
        wall: impl Fn(usize) -> Option<(usize, End)>,
    ) {
        let mut memory = self.found.memories.get(index).copied().unwrap_or_default();
        let mut touches = std::mem::take(&mut self.touches);
        touches.clear();
        let face = |index| wall(index).map(|(wall, end)| self.touch(wall, end));
        touches.extend((0..sinks.len()).filter_map(face));
        let cell =
            place.cell(sinks, (gathering.gas(), length), &mut memory.march, &mut touches);
        memory.absorptivity = cell.absorptivity;
        if let Some(slot) = self.found.memories.get_mut(index) {
            *slot = memory;
        }
        gathering.add(&cell);
        for (index, touch) in touches.iter().enumerate() {
            if let Some((wall, end)) = wall(index) {
                self.set(wall, end, *touch);
            }
        }
        self.touches = touches;
    }

    /// Connector and chimney.
    fn flue(&mut self, instant: &Instant, inlet: f64) -> Flue {
        let body = self.body;
        let stream = &instant.stream;
        let mut index: usize = body.runs.iter().map(|run| run.cells.len()).sum();
        let design = self.design;
        let height = design.chimney.mouth_height - self.path.exit_height;
        let outdoor = outdoor_length(design);
        let exit = self.path.exit_height;
        let parts = [
            (connector_channel(design, &[]), std::slice::from_ref(&body.connector)),
            (flue_channel(design, exit, height - outdoor, &[]), body.indoors.as_slice()),
            (flue_channel(design, exit, outdoor, &[]), body.outdoors.as_slice()),
        ];
        let mut gas = inlet;
        let passages = parts.map(|(channel, walls)| {
            let cells = u32::try_from(walls.len()).unwrap_or(1);
            let length = channel.length / f64::from(cells);
            let place = Stretch::new(stream, &channel);
            let mut gathering = Gathering::new(&place, cells, gas);
            for wall in walls {
                if let Some(response) = self.response(*wall, End::Inner) {
                    let sinks = [response.sink(body.flue_girth)];
                    let at = (&place, length, index);
                    self.cell(at, &sinks, &mut gathering, |_| Some((*wall, End::Inner)));
                }
                index += 1;
            }
            let passage = gathering.finish();
            gas = passage.outlet;
            passage
        });
        let [connector, indoors, outdoors] = passages;
        Flue { connector, indoors, outdoors, mouth_wall: outdoors.wall }
    }

    /// Inner wall at the mouth (K), where a sweep brought gas of a temperature.
    fn mouth_wall(&self, stream: &Stream, gas: f64) -> f64 {
        let last = self.body.outdoors.last();
        let response = last.and_then(|wall| self.response(*wall, End::Inner));
        let sinks = response.map(|response| [response.sink(self.body.flue_girth)]);
        let sinks = sinks.as_ref().map_or([].as_slice(), |sinks| sinks.as_slice());
        let length = outdoor_length(self.design);
        let mouth = flue_channel(self.design, self.path.exit_height, length, sinks);
        wall_at(stream, &mouth, gas)
    }

    /// Node temperatures from the fluxes of the sweep.
    fn advance(&mut self) {
        let Self { body, reduced, found, new, .. } = self;
        for ((wall, reduced), faces) in body.walls.iter().zip(reduced).zip(&found.faces) {
            if let Some(new) = new.get_mut(wall.nodes.clone()) {
                let fluxes = Fluxes { inner: faces.inner.flux, outer: faces.outer.flux };
                reduced.advance(fluxes, new);
            }
        }
    }

    /// Heat that leaves by the outer faces of a zone (W), at node temperatures.
    pub fn outflow(&self, state: &[f64], zone: impl Fn(Zone) -> bool) -> f64 {
        let walls = self.body.walls.iter().zip(&self.conductances);
        walls
            .filter(|(wall, _)| zone(wall.zone))
            .filter_map(|(wall, now)| {
                let nodes = state.get(wall.nodes.clone())?;
                Some(wall.area * now.outflow(nodes))
            })
            .sum()
    }

    /// Temperature of the face of a wall to the room (K).
    fn face_to_room(&self, state: &[f64], index: usize) -> Option<f64> {
        let wall = self.body.walls.get(index)?;
        let nodes = state.get(wall.nodes.clone())?;
        Some(self.conductances.get(index)?.outer_face(nodes))
    }

    /// The hottest face to the room: temperature (K) and zone.
    pub fn hottest_face(&self, state: &[f64]) -> (f64, Zone) {
        self.hottest(state, |zone| zone.is_face() || zone == Zone::Cap)
    }

    /// The hottest face of the wall behind, where there is one (K).
    pub fn wall_behind(&self, state: &[f64]) -> Option<f64> {
        let behind = self.body.behind?;
        Some(across_gap(&behind, self.hottest(state, Zone::is_back).0).0)
    }

    /// The hottest face of some zones. Along a run the faces of the cells are carried on to its
    /// ends by a parabola, since the hottest spot is at the inlet.
    fn hottest(&self, state: &[f64], among: impl Fn(Zone) -> bool) -> (f64, Zone) {
        let mut best = (0.0, Zone::Cap);
        let mut row: Vec<f64> = Vec::new();
        let mut zone_before = None;
        for (index, wall) in self.body.walls.iter().enumerate() {
            if !among(wall.zone) {
                continue;
            }
            let Some(face) = self.face_to_room(state, index) else { continue };
            if zone_before != Some(wall.zone) {
                row.clear();
                zone_before = Some(wall.zone);
            }
            row.push(face);
            let hottest = hottest_of(&row);
            if best.0 < hottest {
                best = (hottest, wall.zone);
            }
        }
        best
    }

    /// The hottest upright face to the room (K).
    pub fn hottest_upright(&self, state: &[f64]) -> f64 {
        self.hottest(state, Zone::is_face).0
    }

    /// The hottest face of the top of a bench (K); none where the runs are no bench.
    pub fn bench(&self, state: &[f64]) -> Option<f64> {
        let is_bench = self.design.path.layout == Layout::Bench;
        let over_a_run = |index: usize| {
            let zone = self.body.walls.get(index).map(|wall| wall.zone);
            let over_the_fire = self.body.firebox.iter().any(|part| part.wall == index);
            zone == Some(Zone::Cap) && !over_the_fire
        };
        let tops = (0..self.body.walls.len()).filter(|index| is_bench && over_a_run(*index));
        tops.filter_map(|index| self.face_to_room(state, index)).reduce(f64::max)
    }

    /// Raises what the layers of the heater have been at most.
    pub fn raise_layers(&self, state: &[f64], peaks: &mut LayerPeaks) {
        let walls = self.body.walls.iter().zip(&self.conductances).enumerate();
        for (index, (wall, now)) in walls {
            let Some(nodes) = state.get(wall.nodes.clone()) else { continue };
            let mut of_the_fire = self.body.firebox.iter().any(|part| part.wall == index);
            if wall.zone == Zone::Under {
                peaks.under = peaks.under.max(now.outer_face(nodes));
            }
            for (ply, temperature) in wall.layers.sides(nodes, now) {
                let peak = match (ply, wall.zone) {
                    (Ply::Core, _) if of_the_fire => &mut peaks.firebox,
                    (Ply::Core, _) => &mut peaks.runs,
                    (Ply::Facing, _) => &mut peaks.facing,
                    (Ply::Board, _) => &mut peaks.board,
                    (Ply::Base, _) => &mut peaks.base,
                    (Ply::Liner, _) => &mut peaks.liner,
                    (Ply::Wool, _) => &mut peaks.wool,
                    (Ply::Sheet, Zone::Connector) => &mut peaks.connector,
                    (Ply::Sheet, _) => continue,
                };
                *peak = peak.max(temperature);
                // The crown has a run on its outer side.
                of_the_fire = false;
            }
        }
    }

    /// Heat in all walls above the start from cold (J).
    pub fn stored(&self, state: &[f64]) -> f64 {
        let heat = |wall: &super::body::Placed| {
            let nodes = state.get(wall.nodes.clone())?;
            Some(wall.area * wall.layers.heat(nodes, wall.start))
        };
        self.body.walls.iter().filter_map(heat).sum()
    }
}

/// The hottest of faces at the middles of equal cells, and of the two ends of their row.
fn hottest_of(row: &[f64]) -> f64 {
    let edge = |one: f64, two: f64, three: f64| (15.0 * one - 10.0 * two + 3.0 * three) / 8.0;
    let ends = match row {
        [one, two, three, ..] => edge(*one, *two, *three),
        _ => 0.0,
    };
    let other = match row {
        [.., three, two, one] => edge(*one, *two, *three),
        _ => 0.0,
    };
    row.iter().copied().fold(ends.max(other), f64::max)
}

/// Around the bracket of the firebox (K).
const SLACK: f64 = 5.0;
