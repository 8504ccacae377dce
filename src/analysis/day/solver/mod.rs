//! A stage of a step of time: gas in balance with the walls at its end.
//!
//! Each face answers a flux within the step by a line (base and resistance), so that gas meets
//! walls here as it does at the height of the fire. What couples cells against the flow (the
//! other face of a baffle, radiation between walls) takes the values of the sweep before; sweeps
//! go on until no surface moves.

mod driving;
mod faces;
mod sweep;
mod walls;

pub use faces::Outflows;

use super::Setup;
use super::body::Body;
use super::layers::{Conductances, Reduced};
use super::seeking::Seeking;
use super::settling::{Faces, Settling};
use super::trace::{CellMemory, Found, Trace};
use crate::analysis::Failure;
use crate::analysis::fire::Burn;
use crate::analysis::march::{Sink, Touch};
use crate::analysis::path::Path;
use crate::design::{AirControl, Design};
use crate::physics::air::DRY_AIR;
use crate::physics::gas::Gas;

const MOST_SWEEPS: u32 = 80;
/// Draft over losses, on logarithms: 0.02 Pa of 20.
const FLOW_TOLERANCE: f64 = 1e-3;
/// On the share of the gas that takes the bleed slot (–).
const SHARE_TOLERANCE: f64 = 2e-4;
/// Sweeps after which the flow through a heater without fire is taken as it is.
const SWEEPS_FOR_A_TRICKLE: u32 = 40;
/// Largest move of a surface in the last sweep (K).
const TOLERANCE: f64 = 0.01;
/// From here on conductances follow the temperatures (K): farther off, these are not worth it.
const NEAR: f64 = 0.3;
/// A wall is light for a step over which films of this would give it its heat capacity (W/m2K):
/// those of hot gas inside and of the room outside are twice as much or less.
const LIGHT: f64 = 20.0;

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
    /// Largest Richardson number of all runs (–).
    pub richardson: f64,
    /// Draft less losses (Pa).
    pub margin: f64,
    /// Air over stoichiometric air at which the two would balance with these temperatures (–).
    pub drawn_ratio: f64,
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
    /// Walls of the firebox.
    of_the_fire: Vec<bool>,
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
        let mut of_the_fire = vec![false; body.walls.len()];
        for part in &body.firebox {
            if let Some(wall) = of_the_fire.get_mut(part.wall) {
                *wall = true;
            }
        }
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
            of_the_fire,
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

    /// Follows what a heater much like it found at each stage, where that had as many steps, and
    /// keeps what is found from here on.
    pub fn follow(&mut self, near: Trace, steps: usize) {
        let fits = near.is_of(steps, &self.found);
        self.trace = Some(if fits { near.elsewhere() } else { Trace::default() });
        self.begin_period();
    }

    /// What was found at each stage.
    pub fn trace(&mut self) -> Trace {
        self.trace.take().unwrap_or_default()
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
            let moved = self.settling.moved(&self.found.faces);
            // Close to a stall the trickle through a heater that cools has no firm value, nor
            // does it carry heat that counts.
            let trickle = share <= 0.0 && SWEEPS_FOR_A_TRICKLE < sweep;
            let steady = !driven || trickle || self.drive(&instant, &swept);
            let same = moved < NEAR && self.renewed(state, steps);
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
}
