//! Gas cooling along a duct: the one march for runs, connector and chimney.

use crate::physics::convection::{Duct, nusselt};
use crate::physics::gas::{Gas, Species};
use crate::physics::radiation::{Radiator, Volume, gas_to_wall, mean_beam_length};

/// A stream of flue gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stream {
    /// The gas.
    pub gas: Gas,
    /// Mass flow (kg/s).
    pub mass_flow: f64,
    /// Absolute pressure (Pa).
    pub pressure: f64,
}

/// A wall strip as the march sees it: its surface is warmer than a base by flux times resistance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sink {
    /// Width of the strip (m).
    pub girth: f64,
    /// Temperature rise of the surface per unit of flux (m2K/W).
    pub resistance: f64,
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
    /// Walls.
    pub sinks: &'a [Sink],
    /// Temperature to which all of them drain (K).
    pub base_temperature: f64,
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

/// Passes over a cell until its mean temperature stands still.
const MOST_PASSES: u32 = 12;
/// At which change of the outlet a cell is done (K); what remains is a fifth of it.
const CELL_TOLERANCE: f64 = 0.01;
/// Films are reckoned anew when the gas has moved by this much within a cell (K): at the mean of
/// a wood gas, half a kelvin changes a film by less than 0.1 %.
const GAS_MOVED: f64 = 0.5;
/// And when the wall has moved by this much (K).
const WALL_MOVED: f64 = 2.0;

/// Marches a stream through a channel.
pub fn march(stream: &Stream, channel: &Channel<'_>, inlet: f64) -> Passage {
    let step = channel.length / f64::from(channel.cells);
    let mut passage = Passage {
        outlet: inlet,
        velocity: speed(stream, channel.area, inlet),
        ..Passage::default()
    };
    let place = Stretch { stream, channel, radiator: radiator(stream, channel) };
    let mut radiated = 0.0;
    let mut guess = Guess { drop: 0.0, wall: channel.base_temperature };
    for index in 0..channel.cells {
        let cell = cell(&place, passage.outlet, step, guess);
        // The next cell drops less, as its gas is nearer to the base.
        let excess = passage.outlet - channel.base_temperature;
        let left = if excess.abs() < 1e-6 { 0.0 } else { 1.0 - cell.drop / excess };
        guess = Guess { drop: cell.drop * left.clamp(0.0, 1.0), wall: cell.wall };
        let weight = 1.0 / f64::from(channel.cells);
        passage.wall += weight * cell.wall;
        passage.heat += cell.heat;
        radiated += cell.heat * cell.radiation_fraction;
        passage.friction += cell.friction;
        passage.mean_density += weight * cell.density;
        if index == channel.cells / 2 {
            passage.reynolds = cell.reynolds;
        }
        passage.outlet -= cell.drop;
    }
    passage.radiation_fraction = if passage.heat > 0.0 { radiated / passage.heat } else { 0.0 };
    let flux = stream.mass_flow / channel.area;
    let volume = |t: f64| 1.0 / stream.gas.density(stream.pressure, t);
    passage.acceleration = flux * flux * (volume(passage.outlet) - volume(inlet));
    passage
}

/// Wall surface where the gas of a channel has a temperature, mean over the girth (K).
pub fn wall_at(stream: &Stream, channel: &Channel<'_>, gas_temperature: f64) -> f64 {
    let place = Stretch { stream, channel, radiator: radiator(stream, channel) };
    let guess = 0.5 * (gas_temperature + channel.base_temperature);
    let first = Film::at(&place, gas_temperature, guess).flow(channel, gas_temperature).wall;
    Film::at(&place, gas_temperature, first).flow(channel, gas_temperature).wall
}

/// A stream in a channel, with what its gas radiates.
#[derive(Clone, Copy)]
struct Stretch<'a> {
    stream: &'a Stream,
    channel: &'a Channel<'a>,
    radiator: Radiator,
}

fn radiator(stream: &Stream, channel: &Channel<'_>) -> Radiator {
    let partial = |species| stream.gas.composition().fraction(species) * stream.pressure;
    Radiator::new(&Volume {
        water_pressure: partial(Species::Water),
        carbon_dioxide_pressure: partial(Species::CarbonDioxide),
        pressure: stream.pressure,
        beam_length: mean_beam_length(0.25 * channel.duct.hydraulic_diameter),
    })
}

/// Speed of a stream in a section (m/s).
pub fn speed(stream: &Stream, area: f64, temperature: f64) -> f64 {
    stream.mass_flow / (area * stream.gas.density(stream.pressure, temperature))
}

/// Dynamic pressure of a stream in a section (Pa).
pub fn dynamic_pressure(stream: &Stream, area: f64, temperature: f64) -> f64 {
    let density = stream.gas.density(stream.pressure, temperature);
    let flux = stream.mass_flow / area;
    0.5 * flux * flux / density
}

#[derive(Clone, Copy)]
struct Guess {
    drop: f64,
    wall: f64,
}

struct Cell {
    drop: f64,
    wall: f64,
    heat: f64,
    radiation_fraction: f64,
    friction: f64,
    density: f64,
    reynolds: f64,
}

/// One cell: an exponential step, with film and walls at the cell's logarithmic mean.
fn cell(place: &Stretch<'_>, inlet: f64, step: f64, guess: Guess) -> Cell {
    let Stretch { stream, channel, .. } = *place;
    let Stream { gas, mass_flow, pressure } = stream;
    let base = channel.base_temperature;
    let excess = inlet - base;
    let mut drop = guess.drop;
    let mut mean = base + logarithmic_mean(excess, excess - drop);
    let mut film = Film::at(place, mean, guess.wall);
    let mut flow = film.flow(channel, mean);
    for _ in 0..MOST_PASSES {
        let cooled = if drop.abs() < 1e-6 {
            gas.heat_capacity(mean)
        } else {
            (gas.enthalpy(inlet) - gas.enthalpy(inlet - drop)) / drop
        };
        let theta = mean - base;
        // Near the base, emissivity and absorptivity reckoned at different temperatures may
        // disagree on the sign; no heat flows then.
        let conductance =
            if theta.abs() < 1e-6 { 0.0 } else { (flow.flux_girth / theta).max(0.0) };
        let next = -excess * libm::expm1(-conductance * step / (mass_flow * cooled));
        let change = next - drop;
        drop = next;
        mean = base + logarithmic_mean(excess, excess - drop);
        if change.abs() < CELL_TOLERANCE {
            break;
        }
        if GAS_MOVED < (mean - film.gas_temperature).abs()
            || WALL_MOVED < (flow.wall - film.wall_temperature).abs()
        {
            film = Film::at(place, mean, flow.wall);
        }
        flow = film.flow(channel, mean);
    }
    let density = gas.density(*pressure, mean);
    Cell {
        drop,
        wall: flow.wall,
        heat: mass_flow * (gas.enthalpy(inlet) - gas.enthalpy(inlet - drop)),
        radiation_fraction: flow.radiation_fraction,
        friction: channel.duct.friction_factor(film.reynolds) * step
            / channel.duct.hydraulic_diameter
            * dynamic_pressure(stream, channel.area, mean),
        density,
        reynolds: film.reynolds,
    }
}

fn logarithmic_mean(one: f64, other: f64) -> f64 {
    let ratio = one / other;
    if (ratio - 1.0).abs() < 1e-4 || ratio <= 0.0 || !ratio.is_finite() {
        0.5 * (one + other)
    } else {
        (one - other) / libm::log(ratio)
    }
}

/// Films between gas and walls, reckoned at one temperature of each.
#[derive(Clone, Copy)]
struct Film {
    coefficient: f64,
    gas_emissivity: f64,
    gas_absorptivity: f64,
    reynolds: f64,
    gas_temperature: f64,
    wall_temperature: f64,
}

/// Heat flow from gas to walls.
#[derive(Clone, Copy)]
struct HeatFlow {
    /// Flux times girth, over all strips (W/m).
    flux_girth: f64,
    radiation_fraction: f64,
    wall: f64,
}

impl Film {
    fn at(place: &Stretch<'_>, gas_temperature: f64, wall: f64) -> Self {
        let Stretch { stream: Stream { gas, mass_flow, .. }, channel, radiator } = place;
        let duct = &channel.duct;
        let viscosity = gas.viscosity(gas_temperature);
        let conductivity = gas.conductivity(gas_temperature);
        let reynolds = mass_flow * duct.hydraulic_diameter / (channel.area * viscosity);
        let prandtl = viscosity * gas.heat_capacity(gas_temperature) / conductivity;
        Self {
            coefficient: nusselt(duct, reynolds, prandtl) * conductivity
                / duct.hydraulic_diameter,
            gas_emissivity: radiator.emissivity(gas_temperature, 0.0).total(),
            // It changes slowly with the wall, so one value serves all strips.
            gas_absorptivity: radiator.absorptivity(gas_temperature, wall),
            reynolds,
            gas_temperature,
            wall_temperature: wall,
        }
    }

    fn flow(&self, channel: &Channel<'_>, gas_temperature: f64) -> HeatFlow {
        let exchange = Exchange {
            coefficient: self.coefficient,
            wall_emissivity: channel.wall_emissivity,
            gas_emissivity: self.gas_emissivity,
            gas_absorptivity: self.gas_absorptivity,
            gas_temperature,
        };
        let (mut flux_girth, mut radiated, mut wall_girth, mut girth) = (0.0, 0.0, 0.0, 0.0);
        for sink in channel.sinks {
            let surface = exchange.surface(sink.resistance, channel.base_temperature);
            flux_girth += sink.girth * exchange.flux(surface);
            radiated += sink.girth * exchange.radiation(surface);
            wall_girth += sink.girth * surface;
            girth += sink.girth;
        }
        HeatFlow {
            flux_girth,
            radiation_fraction: if flux_girth > 0.0 { radiated / flux_girth } else { 0.0 },
            wall: wall_girth / girth,
        }
    }
}

/// Heat exchange of a gas with one wall surface by convection and radiation.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exchange {
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

impl Exchange {
    fn radiation(&self, surface: f64) -> f64 {
        gas_to_wall(
            self.wall_emissivity,
            self.gas_emissivity,
            self.gas_absorptivity,
            self.gas_temperature,
            surface,
        )
    }

    /// Flux into a wall whose surface has a temperature (W/m2).
    pub fn flux(&self, surface: f64) -> f64 {
        self.coefficient * (self.gas_temperature - surface) + self.radiation(surface)
    }

    /// Surface temperature at which the flux into the wall equals what it takes up (K).
    ///
    /// Newton's method on `base + resistance flux(T) - T`, which falls everywhere.
    pub fn surface(&self, resistance: f64, base: f64) -> f64 {
        let mut surface = base.max(0.5 * (base + self.gas_temperature));
        for _ in 0..20 {
            let residual = base + resistance * self.flux(surface) - surface;
            let radiative = 4.0
                * crate::physics::STEFAN_BOLTZMANN
                * 0.5
                * (self.wall_emissivity + 1.0)
                * self.gas_absorptivity
                * surface
                * surface
                * surface;
            let step = residual / (1.0 + resistance * (self.coefficient + radiative));
            surface += step;
            // Newton's next error is the square of this one.
            if step.abs() < 1e-3 {
                break;
            }
        }
        surface
    }
}
