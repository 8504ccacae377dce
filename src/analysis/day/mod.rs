//! The firing day: what the heater does over time, from cold and when the days repeat.
//!
//! Gas is steady at each instant; walls conduct across and store.

mod body;
mod burn;
mod clock;
mod echoes;
mod layers;
mod moment;
mod periodic;
mod record;
mod seeking;
mod settling;
mod solver;
mod stages;
mod trace;

pub use body::{GAP_FILM, INSULATED, gap_air};
pub use layers::OUTER_EMISSIVITY;
pub use moment::Moment;
pub use record::{At, BurnMean, DraftOfDay, Energy, FacePlace, LayerPeaks, Peak, Series};

use super::factors::Factors;
use super::fire::Burn;
use super::path::path;
use super::{Failure, pressure};
use crate::design::Design;
use crate::design::field::check;
use crate::physics::gas::Species;
use crate::physics::vapor::dew_point;
use burn::BurnCurve;
use clock::{Step, cooling, steps};
use echoes::{Echoes, Point};
use periodic::{Learned, fixed_point};
use record::Record;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use solver::Solver;
use stages::advance;
use trace::Trace;

const SECONDS_PER_DAY: f64 = 86_400.0;
/// Heat that a period may leave in the masonry or take from it, over that of its wood (–).
const STORED_TOLERANCE: f64 = 5e-4;
/// Share of the charge that must burn for a day to be one (–).
const LEAST_BURNED: f64 = 0.5;
/// How long a single firing is followed for the times to a half and a quarter (s).
const FOLLOWED: f64 = 4.0 * SECONDS_PER_DAY;

/// How finely space and time are cut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resolution {
    /// Cells along each run.
    pub cells_per_run: usize,
    /// Nodes of a core.
    pub core_nodes: usize,
    /// Nodes of a facing or of the base slab.
    pub facing_nodes: usize,
    /// Nodes of a slab with gas on both sides.
    pub slab_nodes: usize,
    /// Nodes of the flue's wall, and of its insulation.
    pub flue_nodes: usize,
    /// Steps of time are shorter by this factor.
    pub refinement: f64,
    /// Change of any node over a period at which it counts as repeating (K).
    pub repeats_within: f64,
}

impl Resolution {
    /// For the page and the native command: half a percent. A day repeats to a thousandth of what
    /// the faces swing, a ten-thousandth of what the gas does.
    pub const STANDARD: Self = Self {
        cells_per_run: 6,
        core_nodes: 7,
        facing_nodes: 9,
        slab_nodes: 6,
        flue_nodes: 3,
        refinement: 0.75,
        repeats_within: 0.05,
    };

    /// For many days that differ a little: what they differ by is as good as that of the standard.
    pub const COARSE: Self = Self {
        cells_per_run: 3,
        core_nodes: 4,
        facing_nodes: 3,
        slab_nodes: 3,
        flue_nodes: 2,
        refinement: 0.4,
        repeats_within: 0.5,
    };

    /// Everything cut finer by a factor.
    #[must_use]
    pub fn finer(self, factor: u32) -> Self {
        let times = |count: usize| count * usize::try_from(factor).unwrap_or(1);
        Self {
            cells_per_run: times(self.cells_per_run),
            core_nodes: times(self.core_nodes),
            facing_nodes: times(self.facing_nodes),
            slab_nodes: times(self.slab_nodes),
            flue_nodes: times(self.flue_nodes),
            refinement: self.refinement * f64::from(factor),
            repeats_within: self.repeats_within,
        }
    }
}

/// An effect that a simpler model leaves out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Without {
    /// Heat through the baffles from run to run.
    BaffleConduction,
    /// Heat through the slab between firebox and runs.
    CrownConduction,
    /// Radiation between the walls of a run and of the firebox.
    WallRadiation,
    /// Heat through the glass.
    Glass,
    /// Gas through the bleed slot.
    Bleed,
    /// Conductivity that follows the temperature: it is what it is cold.
    HotConductivity,
    /// Plane walls for the hottest spots: faces are as hot as they are on average.
    HotSpots,
}

/// How a day is computed.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// How finely space and time are cut.
    pub resolution: Resolution,
    /// Air after the fire (kg/s) where it is held; the draft drives it otherwise.
    pub after_flow: Option<f64>,
    /// Effects that are left out, to compare with simpler models.
    pub without: Vec<Without>,
    /// How far formulas and table values are taken to be off.
    pub factors: Factors,
}

impl Setup {
    /// Everything in, at the resolution of page and native command.
    pub const STANDARD: Self = Self {
        resolution: Resolution::STANDARD,
        after_flow: None,
        without: Vec::new(),
        factors: Factors::NOMINAL,
    };

    /// The same on a coarse day.
    pub const COARSE: Self = Self {
        resolution: Resolution::COARSE,
        after_flow: None,
        without: Vec::new(),
        factors: Factors::NOMINAL,
    };

    /// Whether an effect is left out.
    fn lacks(&self, effect: Without) -> bool {
        self.without.contains(&effect)
    }
}

/// A state of the heater over a time.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DayState {
    /// Length of the time (s): a day from cold, or the period.
    pub period_s: f64,
    /// Firings in it.
    pub firings: usize,
    /// Means over the burn, weighted by the flow.
    pub burn_mean: BurnMean,
    /// The hottest minutes.
    pub peak: Peak,
    /// Where the heat went.
    pub energy: Energy,
    /// Useful heat over heat of the wood, lower heating value (–).
    pub efficiency_lower: f64,
    /// Useful heat over heat of the wood, higher heating value (–).
    pub efficiency_higher: f64,
    /// Draft through the burn.
    pub draft: DraftOfDay,
    /// Curves.
    pub series: Series,
}

/// The firing day.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Day {
    /// A single firing from cold, over 24 hours.
    pub first_fire: DayState,
    /// Hours from the peak of the warmest face, on average over its outside, until its excess over the
    /// room is half of it, after a single firing from cold; none within four days where missing.
    pub hours_to_half: Option<f64>,
    /// The same to a quarter.
    pub hours_to_quarter: Option<f64>,
    /// The day that repeats.
    pub periodic: DayState,
    /// Heat that the repeating state gains over a period, over the heat of the wood (–).
    pub periodic_residual: f64,
    /// Periods computed until the state repeated.
    pub periodic_rounds: u32,
}

/// A single firing from cold, with what the day that repeats starts from.
#[derive(Clone, Debug, PartialEq)]
pub struct FirstFire {
    /// The 24 hours.
    pub state: DayState,
    /// As in [`Day`].
    pub hours_to_half: Option<f64>,
    /// As in [`Day`].
    pub hours_to_quarter: Option<f64>,
    /// Temperatures of all nodes to which such firings lead, roughly (K).
    nodes: Vec<f64>,
    trace: Trace,
}

/// The day that repeats.
#[derive(Clone, Debug, PartialEq)]
pub struct Repeating {
    /// Its period.
    pub state: DayState,
    /// As [`Day::periodic_residual`].
    pub residual: f64,
    /// As [`Day::periodic_rounds`].
    pub rounds: u32,
    left: Left,
}

/// What a day that repeats leaves to one that is sought near it.
#[derive(Clone, Debug, Default, PartialEq)]
struct Left {
    /// Temperatures of all nodes at its end (K).
    nodes: Vec<f64>,
    learned: Learned,
    trace: Trace,
}

/// A day with what one that is sought near it starts from.
#[derive(Clone, Debug, PartialEq)]
pub struct Whole {
    /// The single firing from cold.
    pub first: FirstFire,
    /// The day that repeats.
    pub repeating: Repeating,
}

impl From<Whole> for Day {
    fn from(Whole { first, repeating }: Whole) -> Self {
        Self {
            first_fire: first.state,
            hours_to_half: first.hours_to_half,
            hours_to_quarter: first.hours_to_quarter,
            periodic: repeating.state,
            periodic_residual: repeating.residual,
            periodic_rounds: repeating.rounds,
        }
    }
}

/// Computes the day of a design: [`first_fire`], then [`repeating`].
///
/// # Errors
///
/// [`Failure`]: what is wrong with the inputs, or why no day was found.
pub fn day(design: &Design, setup: &Setup) -> Result<Day, Failure> {
    whole(design, setup, None).map(Into::into)
}

/// The same with what it leaves to days near it; near another one where that is given, at the same
/// resolution.
///
/// # Errors
///
/// [`Failure`]: what is wrong with the inputs, or why no day was found.
pub fn whole(design: &Design, setup: &Setup, near: Option<&Whole>) -> Result<Whole, Failure> {
    let first = first_fire_near(design, setup, near.map(|near| &near.first))?;
    let repeating = match near {
        Some(near) => repeating_near(design, setup, &near.repeating)?,
        None => repeating(design, setup, &first)?,
    };
    Ok(Whole { first, repeating })
}

/// Computes a single firing from cold.
///
/// # Errors
///
/// [`Failure`]: what is wrong with the inputs, or why the firing was not found.
pub fn first_fire(design: &Design, setup: &Setup) -> Result<FirstFire, Failure> {
    first_fire_near(design, setup, None)
}

fn first_fire_near(
    design: &Design,
    setup: &Setup,
    near: Option<&FirstFire>,
) -> Result<FirstFire, Failure> {
    let problems = check(design);
    if !problems.is_empty() {
        return Err(Failure::Inputs(problems));
    }
    let path = path(design);
    let body = body::body(design, &path, setup);
    let mut solver = Solver::new(design, &path, &body, setup);
    let curve = BurnCurve::new(&design.fire);
    let plan = steps(&curve, &[0.0], SECONDS_PER_DAY, setup.resolution.refinement);
    let cold = solver.cold();
    let weights = weights(&solver);
    let (lit, period) = firings(design);
    let mut echoes = Echoes::new(&cold, &weights, (&lit, period));
    let mut nodes = cold.clone();
    let watch = |from: Point<'_>, to: Point<'_>| echoes.step(from, to);
    let trace = near.map(|near| near.trace.clone());
    solver.follow(trace.unwrap_or_default(), plan.len());
    let first = recorded(&mut solver, &curve, &plan, &mut nodes, watch)?;
    let trace = solver.trace();
    if first.booked.energy.wood_joules < LEAST_BURNED * solver.charge_heat() {
        return Err(Failure::FireStarved);
    }
    let (excess, nodes) = followed((&mut solver, &curve), &first, nodes, echoes)?;
    let found = FirstFire {
        state: finished(design, first, (SECONDS_PER_DAY, 1)),
        hours_to_half: fallen_to(&excess, 0.5),
        hours_to_quarter: fallen_to(&excess, 0.25),
        nodes,
        trace,
    };
    found.state.is_finite().then_some(found).ok_or(Failure::NotFinite)
}

/// Computes the day that repeats, from what the first fire leaves day after day: a better start
/// than the cold heater.
///
/// # Errors
///
/// [`Failure`]: why no day was found that repeats.
pub fn repeating(
    design: &Design,
    setup: &Setup,
    first: &FirstFire,
) -> Result<Repeating, Failure> {
    let (nodes, trace) = (first.nodes.clone(), first.trace.clone());
    let left = Left { nodes, trace, ..Left::default() };
    repeating_from(design, setup, left)
}

/// Computes the day that repeats by itself, from the cold heater.
///
/// # Errors
///
/// [`Failure`]: what is wrong with the inputs, or why no day was found that repeats.
pub fn repeating_alone(design: &Design, setup: &Setup) -> Result<Repeating, Failure> {
    repeating_from(design, setup, Left::default())
}

/// Computes the day that repeats from that of a heater much like it, at the same resolution.
///
/// # Errors
///
/// [`Failure`]: what is wrong with the inputs, or why no day was found that repeats.
pub fn repeating_near(
    design: &Design,
    setup: &Setup,
    near: &Repeating,
) -> Result<Repeating, Failure> {
    repeating_from(design, setup, near.left.clone())
}

/// Where no nodes are left, or those of another body, the heater is cold.
fn repeating_from(design: &Design, setup: &Setup, left: Left) -> Result<Repeating, Failure> {
    let problems = check(design);
    if !problems.is_empty() {
        return Err(Failure::Inputs(problems));
    }
    let path = path(design);
    let body = body::body(design, &path, setup);
    let mut solver = Solver::new(design, &path, &body, setup);
    let curve = BurnCurve::new(&design.fire);
    let (lit, period) = firings(design);
    let plan = steps(&curve, &lit, period, setup.resolution.refinement);
    let weights = weights(&solver);
    let mut record = Record::default();
    let wood = in_float(lit.len()) * solver.charge_heat();
    let within = (setup.resolution.repeats_within, STORED_TOLERANCE * wood);
    let fits = left.nodes.len() == body.nodes;
    let left = if fits { left } else { Left { nodes: solver.cold(), ..Left::default() } };
    let Left { nodes, mut learned, trace } = left;
    solver.follow(trace, plan.len());
    let mut end = Vec::new();
    let rounds = fixed_point(nodes, &weights, within, &mut learned, |nodes| {
        let mut nodes = nodes.to_vec();
        solver.begin_period();
        record = recorded(&mut solver, &curve, &plan, &mut nodes, |_, _| ())?;
        end.clone_from(&nodes);
        Ok(nodes)
    })?;
    if record.booked.energy.wood_joules
        < LEAST_BURNED * in_float(lit.len()) * solver.charge_heat()
    {
        return Err(Failure::FireStarved);
    }
    let found = Repeating {
        residual: record.booked.energy.stored_joules / record.booked.energy.wood_joules,
        state: finished(design, record, (period, lit.len())),
        rounds,
        left: Left { nodes: end, learned, trace: solver.trace() },
    };
    found.state.is_finite().then_some(found).ok_or(Failure::NotFinite)
}

/// Times of lighting (s) and length of the time that repeats (s).
fn firings(design: &Design) -> (Vec<f64>, f64) {
    let fire = &design.fire;
    if fire.firing_interval <= 0.0 {
        return (vec![0.0], SECONDS_PER_DAY / fire.firings_per_day);
    }
    let mut lit = Vec::new();
    let mut at = 0.0;
    while lit.is_empty() || at < fire.firing_interval * (fire.firings_per_day - 0.5) {
        lit.push(at);
        at += fire.firing_interval;
    }
    (lit, SECONDS_PER_DAY)
}

/// Weights of the nodes in the norm of the search for the repeating state: their heat capacity.
fn weights(solver: &Solver<'_>) -> Vec<f64> {
    let walls = solver.body.walls.iter();
    walls
        .flat_map(|wall| {
            let area = wall.area.max(1e-6);
            wall.layers.capacities().iter().map(move |capacity| area * capacity)
        })
        .collect()
}

/// Runs a plan and keeps a record; `watch` sees where each step begins and ends.
fn recorded(
    solver: &mut Solver<'_>,
    curve: &BurnCurve,
    plan: &[Step],
    state: &mut Vec<f64>,
    mut watch: impl FnMut(Point<'_>, Point<'_>),
) -> Result<Record, Failure> {
    let [kindled, ..] = curve.breaks();
    let mut record = Record::new(solver.body.runs.len(), solver.dew_point(), kindled);
    let stored = solver.stored(state);
    let mut before = Vec::new();
    for step in plan {
        before.clone_from(state);
        advance(solver, curve, step, state, Some(&mut record))?;
        watch((step.start, &before), (step.start + step.length, state));
    }
    record.booked.energy.stored_joules = solver.stored(state) - stored;
    Ok(record)
}

/// Times from a peak on (s) with the excess of a face over the room (K).
type Excess = Vec<(f64, f64)>;

/// Excess of the warmest face from its peak on; and the state to
/// which the days will lead, as the echoes tell it.
fn followed(
    (solver, curve): (&mut Solver<'_>, &BurnCurve),
    first: &Record,
    mut state: Vec<f64>,
    mut echoes: Echoes<'_>,
) -> Result<(Excess, Vec<f64>), Failure> {
    let room = solver.room();
    let times = first.series.time_s.iter().zip(&first.warmth);
    let warmest = times.clone().max_by(|one, other| one.1.total_cmp(other.1));
    let peak = warmest.map_or(0.0, |(time, _)| *time);
    let mut excess: Excess = times
        .filter(|(time, _)| peak <= **time)
        .map(|(time, face)| (time - peak, face - room))
        .collect();
    let top = excess.first().map_or(0.0, |(_, excess)| *excess);
    let mut ended = SECONDS_PER_DAY;
    for step in cooling(SECONDS_PER_DAY, SECONDS_PER_DAY, FOLLOWED) {
        if excess.last().is_none_or(|(_, excess)| *excess < 0.25 * top) {
            break;
        }
        let before = state.clone();
        advance(solver, curve, &step, &mut state, None)?;
        ended = step.start + step.length;
        echoes.step((step.start, &before), (ended, &state));
        excess.push((ended - peak, solver.warmest_face(&state) - room));
    }
    let repeating = echoes.summed_up((ended, &state));
    Ok((excess, repeating))
}

/// Hours until the excess has fallen to a share of its first value.
fn fallen_to(excess: &[(f64, f64)], share: f64) -> Option<f64> {
    let (_, top) = excess.first()?;
    let level = share * top;
    let pairs = excess.iter().zip(excess.iter().skip(1));
    pairs.into_iter().find(|((_, before), (_, after))| level <= *before && *after < level).map(
        |((t0, before), (t1, after))| {
            (t0 + (t1 - t0) * (before - level) / (before - after)) / 3600.0
        },
    )
}

fn finished(design: &Design, record: Record, (period_s, firings): (f64, usize)) -> DayState {
    let energy = record.booked.energy;
    let burn = Burn::new(design, design.fire.excess_air_ratio);
    let efficiency_lower =
        1.0 - (energy.stack_joules + energy.unburned_joules) / energy.wood_joules;
    DayState {
        period_s,
        firings,
        burn_mean: record.burn_mean(),
        peak: record.booked.peak,
        energy,
        efficiency_lower,
        efficiency_higher: efficiency_lower * burn.lower_heating_value
            / burn.higher_heating_value,
        draft: record.booked.draft,
        series: record.series,
    }
}

impl DayState {
    const fn is_finite(&self) -> bool {
        self.efficiency_lower.is_finite()
    }
}

impl Solver<'_> {
    /// Heat of a charge on the lower heating value (J).
    fn charge_heat(&self) -> f64 {
        self.design().fire.charge * self.lower_heating_value()
    }

    /// Dew point of the gas at the held excess air (K).
    fn dew_point(&self) -> f64 {
        let water = self.held_gas().composition().fraction(Species::Water);
        dew_point(water * pressure(self.design()))
    }
}

fn in_float(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}
