//! Gas cooling along a duct: the one march for runs, connector and chimney.
//!
//! Slow gas is stirred by its own cooling at the walls as well, whatever fire it comes from.

use super::factors::Factors;
use crate::physics::convection::{
    Duct, approach, natural_cube, nusselt, nusselt_mixed, transfer_units,
};
use crate::physics::gas::{Gas, Species};
use crate::physics::pressure::{self, TURBULENT_START};
use crate::physics::radiation::{Radiator, Volume, mean_beam_length};
use crate::physics::{GRAVITY, STEFAN_BOLTZMANN};

/// A stream of flue gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stream {
    /// The gas.
    pub gas: Gas,
    /// Mass flow (kg/s).
    pub mass_flow: f64,
    /// Absolute pressure (Pa).
    pub pressure: f64,
    /// How far the formulas for its exchange with walls are taken to be off.
    pub factors: Factors,
}

/// A wall strip as the march sees it: its surface is warmer than a base by the net flux into it
/// times a resistance. Thick storing walls, steady walls and walls within a step of time all take
/// this form.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Sink {
    /// Width of the strip (m).
    pub girth: f64,
    /// Temperature of the surface without flux (K).
    pub base: f64,
    /// Temperature rise of the surface per unit of flux (m2K/W).
    pub resistance: f64,
    /// Radiation that arrives from other walls and is taken up (W/m2).
    pub received: f64,
    /// Share of its own black-body radiation that the surface gives to other walls (–).
    pub emission: f64,
}

impl Sink {
    /// A strip that exchanges with the gas alone.
    pub fn alone(girth: f64, base: f64, resistance: f64) -> Self {
        Self { girth, base, resistance, ..Self::default() }
    }

    /// Net radiation received from other walls at a surface temperature (W/m2).
    pub fn from_walls(&self, surface: f64) -> f64 {
        self.received - self.emission * STEFAN_BOLTZMANN * fourth_power(surface)
    }
}

fn fourth_power(t: f64) -> f64 {
    t * t * t * t
}

/// A duct with its walls.
#[derive(Clone, Debug, PartialEq)]
pub struct Channel<'a> {
    /// Flow and heat transfer of the section; `length` is from entrance to entrance.
    pub duct: Duct,
    /// Length to march (m).
    pub length: f64,
    /// Free section (m2).
    pub area: f64,
    /// Volume of the gas over the surface around it (m).
    pub volume_over_area: f64,
    /// Walls, the same in all cells.
    pub sinks: &'a [Sink],
    /// Emissivity of the walls (–).
    pub wall_emissivity: f64,
    /// Number of cells.
    pub cells: u32,
}

/// What the gas did along a channel.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Passage {
    /// Gas at the end (K).
    pub outlet: f64,
    /// Wall surface, mean over length and girth (K).
    pub wall: f64,
    /// Heat given to the walls (W).
    pub heat: f64,
    /// Share of it by radiation (–).
    pub radiation_fraction: f64,
    /// Wall friction (Pa).
    pub friction: f64,
    /// Rise of momentum flux from inlet to outlet (Pa).
    pub acceleration: f64,
    /// Length-mean of the gas density (kg/m3).
    pub mean_density: f64,
    /// Speed at the inlet (m/s).
    pub velocity: f64,
    /// Reynolds number at the middle (–).
    pub reynolds: f64,
}

impl Passage {
    /// A channel of no length after this one.
    #[must_use]
    pub const fn none_after(self) -> Self {
        Self { friction: 0.0, acceleration: 0.0, heat: 0.0, ..self }
    }
}

/// Passes over a cell until its mean temperature stands still.
const MOST_PASSES: u32 = 12;
/// At which change of its outlet and mean a cell is done (K); what remains is a fifth of it.
const CELL_TOLERANCE: f64 = 0.01;
/// Films are reckoned anew when the gas has moved by this much within a cell (K): at the mean of
/// a wood gas, half a kelvin changes a film by less than 0.1 %.
const GAS_MOVED: f64 = 0.5;
/// And when the wall has moved by this much (K).
const WALL_MOVED: f64 = 2.0;

/// Marches a stream through a channel.
pub fn march(stream: &Stream, channel: &Channel<'_>, inlet: f64) -> Passage {
    let step = channel.length / f64::from(channel.cells);
    let place = Stretch::new(stream, channel);
    let mut touches = vec![Touch::default(); channel.sinks.len()];
    let mut memory = Memory::default();
    let mut gathering = Gathering::new(&place, channel.cells, inlet);
    for _ in 0..channel.cells {
        let cell =
            place.cell(channel.sinks, (gathering.gas(), step), &mut memory, &mut touches);
        gathering.add(&cell);
        // The next cell drops less, as its gas is nearer to the walls.
        memory.drop *= memory.left;
        memory.mean_drop *= memory.left;
    }
    gathering.finish()
}

/// The last cell of a march, for its working.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LastCell {
    /// Gas where it enters the cell (K).
    pub inlet: f64,
    /// Gas to which no heat would flow (K).
    pub equilibrium: f64,
    /// Exchange with the walls per length, by film and radiation (W/mK).
    pub exchange: f64,
    /// Length of the cell (m).
    pub length: f64,
    /// Gas (kg/s).
    pub mass_flow: f64,
    /// Heat that the gas carries, mean over the cell (J/kgK).
    pub heat_capacity: f64,
}

/// Marches a stream through a channel and tells of the last cell; none where it had no exchange.
pub fn last_cell(stream: &Stream, channel: &Channel<'_>, inlet: f64) -> Option<LastCell> {
    let length = channel.length / f64::from(channel.cells);
    let place = Stretch::new(stream, channel);
    let mut touches = vec![Touch::default(); channel.sinks.len()];
    let mut memory = Memory::default();
    let mut at = inlet;
    let mut last = None;
    for _ in 0..channel.cells {
        let cell = place.cell(channel.sinks, (at, length), &mut memory, &mut touches);
        let done = 1.0 - memory.left;
        last = (0.0 < done && memory.drop.abs() > 0.0).then(|| {
            let drop = at - cell.outlet;
            let heat_capacity =
                (stream.gas.enthalpy(at) - stream.gas.enthalpy(cell.outlet)) / drop;
            let units = -libm::log(memory.left);
            LastCell {
                inlet: at,
                equilibrium: at - drop / done,
                exchange: units * stream.mass_flow * heat_capacity / length,
                length,
                mass_flow: stream.mass_flow,
                heat_capacity,
            }
        });
        at = cell.outlet;
        memory.drop *= memory.left;
        memory.mean_drop *= memory.left;
    }
    last
}

/// Wall surface where the gas of a channel has a temperature, mean over the girth (K).
pub fn wall_at(stream: &Stream, channel: &Channel<'_>, gas_temperature: f64) -> f64 {
    let place = Stretch::new(stream, channel);
    let mut touches = vec![Touch::default(); channel.sinks.len()];
    let base = channel.sinks.first().map_or(gas_temperature, |sink| sink.base);
    let guess = 0.5 * (gas_temperature + base);
    let mut wall_near = |guess| {
        let film = Film::at(&place, gas_temperature, guess);
        film.flow(&place, channel.sinks, gas_temperature, &mut touches).wall
    };
    let first = wall_near(guess);
    wall_near(first)
}

/// Sums up the cells of a channel.
pub struct Gathering {
    passage: Passage,
    radiated: f64,
    inlet_volume: f64,
    flux: f64,
    cells: u32,
    done: u32,
}

impl Gathering {
    /// Before the first of a number of cells.
    pub fn new(place: &Stretch<'_>, cells: u32, inlet: f64) -> Self {
        let Stretch { stream, channel, .. } = place;
        Self {
            passage: Passage {
                outlet: inlet,
                velocity: speed(stream, channel.area, inlet),
                ..Passage::default()
            },
            radiated: 0.0,
            inlet_volume: 1.0 / stream.gas.density(stream.pressure, inlet),
            flux: stream.mass_flow / channel.area,
            cells,
            done: 0,
        }
    }

    /// Gas where the next cell begins (K).
    pub const fn gas(&self) -> f64 {
        self.passage.outlet
    }

    /// Adds the next cell.
    pub fn add(&mut self, cell: &Cell) {
        let weight = 1.0 / f64::from(self.cells);
        let passage = &mut self.passage;
        passage.wall += weight * cell.wall;
        passage.heat += cell.heat;
        self.radiated += cell.heat * cell.radiation_fraction;
        passage.friction += cell.friction;
        passage.mean_density += weight * cell.density;
        if self.done == self.cells / 2 {
            passage.reynolds = cell.reynolds;
        }
        passage.outlet = cell.outlet;
        self.flux_change(cell);
        self.done += 1;
    }

    fn flux_change(&mut self, cell: &Cell) {
        self.passage.acceleration =
            self.flux * self.flux * (cell.outlet_volume - self.inlet_volume);
    }

    /// The channel as a whole.
    pub fn finish(self) -> Passage {
        let Self { mut passage, radiated, .. } = self;
        passage.radiation_fraction =
            if passage.heat > 0.0 { radiated / passage.heat } else { 0.0 };
        passage
    }
}

/// A stream in a channel, with what its gas radiates.
#[derive(Clone, Copy)]
pub struct Stretch<'a> {
    stream: &'a Stream,
    channel: &'a Channel<'a>,
    radiator: Radiator,
}

impl<'a> Stretch<'a> {
    /// Prepares a stream in a channel.
    pub fn new(stream: &'a Stream, channel: &'a Channel<'a>) -> Self {
        let partial = |species| stream.gas.composition().fraction(species) * stream.pressure;
        let radiator = Radiator::new(&Volume {
            water_pressure: partial(Species::Water),
            carbon_dioxide_pressure: partial(Species::CarbonDioxide),
            pressure: stream.pressure,
            beam_length: mean_beam_length(channel.volume_over_area),
        });
        Self { stream, channel, radiator }
    }
}

/// Speed of a stream in a section (m/s).
pub fn speed(stream: &Stream, area: f64, temperature: f64) -> f64 {
    let density = stream.gas.density(stream.pressure, temperature);
    pressure::flow_speed(stream.mass_flow, area, density)
}

/// Dynamic pressure of a stream in a section (Pa).
pub fn dynamic_pressure(stream: &Stream, area: f64, temperature: f64) -> f64 {
    let density = stream.gas.density(stream.pressure, temperature);
    pressure::dynamic_pressure(stream.mass_flow, area, density)
}

/// What one cell remembers for the next time it is reckoned: a start for the iteration.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Memory {
    /// Gas temperature drop (K).
    drop: f64,
    /// The same to the mean of the cell (K).
    mean_drop: f64,
    /// Share of the distance to equilibrium that was left at the end (–).
    left: f64,
    /// Mean wall surface (K).
    wall: f64,
    /// Films, with the mass flow and the molar mass of the gas for which they hold.
    film: Option<(Film, f64, f64)>,
    /// Reynolds number and friction factor (–).
    friction: (f64, f64),
}

/// Flows that differ by less than this share films and friction factor (–).
const SAME_FLOW: f64 = 1e-4;

impl Memory {
    /// The same for a cell like this one of another heater: a start, without what holds here alone.
    #[must_use]
    pub fn elsewhere(self) -> Self {
        Self { film: None, friction: (0.0, 0.0), ..self }
    }

    /// Friction factor at a Reynolds number (–), reckoned anew where that is another one.
    fn friction_factor(&mut self, duct: &Duct, reynolds: f64) -> f64 {
        if (self.friction.0 - reynolds).abs() > SAME_FLOW * reynolds {
            self.friction = (reynolds, duct.friction_factor(reynolds));
        }
        self.friction.1
    }

    /// Films of the time before, if they were for the same flow.
    fn film(&self, stream: &Stream) -> Option<Film> {
        let (film, flow, molar_mass) = self.film?;
        let same = (flow - stream.mass_flow).abs() < SAME_FLOW * flow
            && (molar_mass - stream.gas.molar_mass()).abs() < f64::EPSILON;
        same.then_some(film)
    }
}

/// One strip of wall in a cell.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Touch {
    /// Surface (K).
    pub surface: f64,
    /// Net flux into the wall, from gas and other walls (W/m2).
    pub flux: f64,
}

/// One cell of a channel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cell {
    /// Gas at its end (K).
    pub outlet: f64,
    /// Mean wall surface (K).
    pub wall: f64,
    /// Heat from gas to walls (W).
    pub heat: f64,
    /// Absorptivity of the gas for the walls' radiation (–).
    pub absorptivity: f64,
    radiation_fraction: f64,
    friction: f64,
    density: f64,
    outlet_volume: f64,
    reynolds: f64,
}

impl Stretch<'_> {
    /// One cell from an inlet temperature (K) over a length (m): an exponential step toward the
    /// temperature at which no heat would flow, with film and walls at the cell's logarithmic
    /// mean. `touches` begin with what the surfaces were before.
    pub fn cell(
        &self,
        sinks: &[Sink],
        (inlet, length): (f64, f64),
        memory: &mut Memory,
        touches: &mut [Touch],
    ) -> Cell {
        let Stream { gas, mass_flow, pressure, .. } = self.stream;
        let mut drop = memory.drop;
        let mut mean = inlet - memory.mean_drop;
        // Films of another temperature will do to find the temperature at which to reckon them.
        let mut film = memory.film(self.stream).unwrap_or_else(|| {
            let wall = if memory.wall > 0.0 { memory.wall } else { mean_base(sinks, inlet) };
            Film::at(self, mean, wall)
        });
        let mut flow = film.flow(self, sinks, mean, touches);
        for _ in 0..MOST_PASSES {
            let cooled = if drop.abs() < 1e-6 {
                gas.heat_capacity(mean)
            } else {
                (gas.enthalpy(inlet) - gas.enthalpy(inlet - drop)) / drop
            };
            // Without any exchange there is no equilibrium either.
            let excess =
                if flow.slope > 0.0 { inlet - mean + flow.gas_flux / flow.slope } else { 0.0 };
            let units = transfer_units(flow.slope, length, *mass_flow, cooled);
            let done = approach(units);
            memory.left = 1.0 - done;
            let next = excess * done;
            let change = next - drop;
            drop = next;
            // The logarithmic mean of the distances to equilibrium at both ends.
            let mean_share = if units > 1e-9 { done / units } else { 1.0 };
            let before = mean;
            mean = inlet - excess * (1.0 - mean_share);
            if !film.holds(mean, flow.wall) {
                film = Film::at(self, mean, flow.wall);
            } else if change.abs().max((mean - before).abs()) < CELL_TOLERANCE {
                break;
            }
            flow = film.flow(self, sinks, mean, touches);
        }
        memory.drop = drop;
        memory.mean_drop = inlet - mean;
        memory.wall = flow.wall;
        memory.film = Some((film, *mass_flow, gas.molar_mass()));
        let outlet = between(inlet - drop, inlet, sinks, touches);
        let duct = &self.channel.duct;
        let friction_factor = memory.friction_factor(duct, film.reynolds);
        Cell {
            outlet,
            wall: flow.wall,
            heat: mass_flow * (gas.enthalpy(inlet) - gas.enthalpy(outlet)),
            absorptivity: film.gas_absorptivity,
            radiation_fraction: flow.radiation_fraction,
            friction: friction_factor * length / duct.hydraulic_diameter
                * dynamic_pressure(self.stream, self.channel.area, mean),
            density: gas.density(*pressure, mean),
            outlet_volume: 1.0 / gas.density(*pressure, outlet),
            reynolds: film.reynolds,
        }
    }
}

/// Holds the outlet between the inlet and the coolest and hottest wall: the last round of an
/// iteration may end a hair beyond.
fn between(outlet: f64, inlet: f64, sinks: &[Sink], touches: &[Touch]) -> f64 {
    let (mut low, mut high) = (inlet, inlet);
    // What only rides along has no girth, and no say in this.
    for (sink, touch) in sinks.iter().zip(touches).filter(|(sink, _)| 0.0 < sink.girth) {
        let rest = if sink.emission > 0.0 { touch.surface } else { sink.base };
        low = low.min(rest);
        high = high.max(rest);
    }
    outlet.max(low).min(high)
}

fn mean_base(sinks: &[Sink], inlet: f64) -> f64 {
    let girth: f64 = sinks.iter().map(|sink| sink.girth).sum();
    let sum: f64 = sinks.iter().map(|sink| sink.girth * sink.base).sum();
    if girth > 0.0 { sum / girth } else { inlet }
}

/// Films between gas and walls, reckoned at one temperature of each.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Film {
    coefficient: f64,
    gas_emissivity: f64,
    gas_absorptivity: f64,
    reynolds: f64,
    gas_temperature: f64,
    wall_temperature: f64,
}

/// Cube of the Nusselt number of natural convection alone between gas and walls (–), over the
/// hydraulic diameter, with the gas halfway between both temperatures.
fn natural(place: &Stretch<'_>, gas_temperature: f64, wall: f64) -> f64 {
    let Stretch { stream: Stream { gas, pressure, .. }, channel, .. } = place;
    let film = 0.5 * (gas_temperature + wall);
    let (viscosity, conductivity) = gas.transport(film);
    let prandtl = viscosity * gas.heat_capacity(film) / conductivity;
    let kinematic = viscosity / gas.density(*pressure, film);
    let diameter = channel.duct.hydraulic_diameter;
    let grashof =
        GRAVITY * (gas_temperature - wall).abs() / film * diameter * diameter * diameter
            / (kinematic * kinematic);
    natural_cube(grashof * prandtl)
}

/// Heat flow from gas to walls.
#[derive(Clone, Copy)]
struct HeatFlow {
    /// Flux from the gas times girth, over all strips (W/m).
    gas_flux: f64,
    /// How it grows with the temperature of the gas (W/mK).
    slope: f64,
    radiation_fraction: f64,
    wall: f64,
}

impl Film {
    fn at(place: &Stretch<'_>, gas_temperature: f64, wall: f64) -> Self {
        let Stretch { stream: Stream { gas, mass_flow, factors, .. }, channel, radiator } =
            place;
        let (viscosity, conductivity) = gas.transport(gas_temperature);
        let diameter = channel.duct.hydraulic_diameter;
        let reynolds = mass_flow * diameter / (channel.area * viscosity);
        let prandtl = viscosity * gas.heat_capacity(gas_temperature) / conductivity;
        let duct = &channel.duct;
        let nusselt = if reynolds < TURBULENT_START {
            nusselt_mixed(duct, natural(place, gas_temperature, wall), reynolds, prandtl)
        } else {
            nusselt(duct, reynolds, prandtl)
        };
        let radiation = |value: f64| (factors.gas_radiation * value).min(1.0);
        Self {
            coefficient: factors.convection * nusselt * conductivity / diameter,
            gas_emissivity: radiation(radiator.emissivity(gas_temperature, 0.0).total()),
            // It changes slowly with the wall, so one value serves all strips.
            gas_absorptivity: radiation(radiator.absorptivity(gas_temperature, wall)),
            reynolds,
            gas_temperature,
            wall_temperature: wall,
        }
    }

    /// Whether it still holds at these temperatures.
    fn holds(&self, gas_temperature: f64, wall: f64) -> bool {
        (gas_temperature - self.gas_temperature).abs() <= GAS_MOVED
            && (wall - self.wall_temperature).abs() <= WALL_MOVED
    }

    fn flow(
        &self,
        place: &Stretch<'_>,
        sinks: &[Sink],
        gas_temperature: f64,
        touches: &mut [Touch],
    ) -> HeatFlow {
        let exchange = Exchange::new(&Gray {
            coefficient: self.coefficient,
            wall_emissivity: place.channel.wall_emissivity,
            gas_emissivity: self.gas_emissivity,
            gas_absorptivity: self.gas_absorptivity,
            gas_temperature,
        });
        let mut sum =
            HeatFlow { gas_flux: 0.0, slope: 0.0, radiation_fraction: 0.0, wall: 0.0 };
        let (mut radiated, mut girth) = (0.0, 0.0);
        for (sink, touch) in sinks.iter().zip(touches) {
            let met = exchange.meet(sink, touch.surface);
            sum.gas_flux += sink.girth * met.flux;
            sum.slope += sink.girth * met.slope;
            radiated += sink.girth * met.radiation;
            sum.wall += sink.girth * met.touch.surface;
            girth += sink.girth;
            *touch = met.touch;
        }
        // Where there is no wall, nothing is cooler than the gas.
        sum.wall = if girth > 0.0 { sum.wall / girth } else { gas_temperature };
        if sum.gas_flux > 0.0 {
            sum.radiation_fraction = radiated / sum.gas_flux;
        }
        sum
    }
}

/// A gas before a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gray {
    /// Convective film (W/m2K).
    pub coefficient: f64,
    /// Emissivity of the wall (–).
    pub wall_emissivity: f64,
    /// Emissivity of the gas (–).
    pub gas_emissivity: f64,
    /// Absorptivity of the gas for the wall's radiation (–).
    pub gas_absorptivity: f64,
    /// Temperature of the gas (K).
    pub gas_temperature: f64,
}

/// Heat exchange of a gas with wall surfaces by convection and radiation: [`crate::physics::radiation::gas_to_wall`] with all
/// that is the same for every surface reckoned once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exchange {
    coefficient: f64,
    gas_temperature: f64,
    /// Radiation of the gas that a surface takes up (W/m2).
    given: f64,
    /// And that of a surface which the gas takes up, over the fourth power of its temperature
    /// (W/m2K4).
    taken: f64,
    /// Both at the temperature of the gas (W/m2).
    at_gas: f64,
    /// How the flux grows with the temperature of the gas, the surface being held (W/m2K).
    driving: f64,
}

/// What a surface comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Met {
    /// The surface, with the net flux into it.
    pub touch: Touch,
    /// Flux from the gas (W/m2).
    pub flux: f64,
    /// Radiation among it (W/m2).
    pub radiation: f64,
    /// How the flux grows with the temperature of the gas, the surface following (W/m2K).
    pub slope: f64,
}

/// Rounds of Newton's method for a surface; two are usual.
const MOST_ROUNDS: u32 = 20;
/// Last step of that method (K); what remains goes with its square.
const SURFACE_TOLERANCE: f64 = 0.1;

impl Exchange {
    /// Prepares a gas before walls.
    pub fn new(gray: &Gray) -> Self {
        let Gray { coefficient, wall_emissivity, gas_temperature, .. } = *gray;
        let share = STEFAN_BOLTZMANN * 0.5 * (wall_emissivity + 1.0);
        let power = fourth_power(gas_temperature);
        let given = share * gray.gas_emissivity * power;
        let taken = share * gray.gas_absorptivity;
        Self {
            coefficient,
            gas_temperature,
            given,
            taken,
            at_gas: given - taken * power,
            driving: coefficient + 4.0 * given / gas_temperature,
        }
    }

    /// Radiation from gas to wall (W/m2), by the fourth power of the surface's temperature (K4).
    /// Emissivity and absorptivity may have been reckoned at slightly other temperatures; heat
    /// never flows from cold to hot for that.
    fn radiation(&self, surface: f64, fourth: f64) -> f64 {
        let flux = self.given - self.taken * fourth;
        if flux * (self.gas_temperature - surface) <= 0.0 { 0.0 } else { flux }
    }

    /// How a surface exchanges, from what it was before; 0 K stands for not known.
    pub fn meet(&self, sink: &Sink, before: f64) -> Met {
        let surface = self.surface(sink, before);
        let cube = surface * surface * surface;
        let radiation = self.radiation(surface, cube * surface);
        let flux = self.coefficient * (self.gas_temperature - surface) + radiation;
        let darkened = STEFAN_BOLTZMANN * sink.emission;
        let from_walls = sink.received - darkened * cube * surface;
        let restoring = self.coefficient + 4.0 * (self.taken + darkened) * cube;
        let to_gas = self.coefficient + 4.0 * self.taken * cube;
        let follows = sink.resistance * self.driving / (1.0 + sink.resistance * restoring);
        Met {
            touch: Touch { surface, flux: flux + from_walls },
            flux,
            radiation,
            slope: self.driving - to_gas * follows,
        }
    }

    /// Surface temperature at which the net flux into the wall equals what it takes up (K).
    ///
    /// Newton's method on `base + resistance flux(T) - T`, which falls everywhere, from what the
    /// surface was before. At the temperature of the gas the function has a step where emissivity
    /// and absorptivity were reckoned elsewhere, see `radiation`: the surface lies on the step, or
    /// all of the search on one side of it.
    fn surface(&self, sink: &Sink, before: f64) -> f64 {
        let Sink { base, resistance, received, emission, .. } = *sink;
        let gas = self.gas_temperature;
        let darkened = STEFAN_BOLTZMANN * emission;
        let from_walls = sink.from_walls(gas);
        let at_gas = |flux: f64| base + resistance * (flux + from_walls) - gas;
        let (low, high) = if at_gas(self.at_gas.max(0.0)) < 0.0 {
            (f64::MIN, gas)
        } else if at_gas(self.at_gas.min(0.0)) > 0.0 {
            (gas, f64::MAX)
        } else {
            return gas;
        };
        let start = if before > 0.0 { before } else { base.max(0.5 * (base + gas)) };
        let mut surface = start.clamp(low, high);
        for _ in 0..MOST_ROUNDS {
            let cube = surface * surface * surface;
            let fourth = cube * surface;
            let flux = self.coefficient * (gas - surface) + self.radiation(surface, fourth);
            let residual = base + resistance * (flux + received - darkened * fourth) - surface;
            let restoring = self.coefficient + 4.0 * (self.taken + darkened) * cube;
            let step = residual / (1.0 + resistance * restoring);
            surface = (surface + step).clamp(low, high);
            if step.abs() < SURFACE_TOLERANCE {
                break;
            }
        }
        surface
    }
}
