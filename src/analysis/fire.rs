//! The firebox as a stirred volume: heat of the wood against walls, door, glass and gas.

use super::march::{Exchange, Gray, Sink, Touch};
use super::path::{Backing, storage_resistance};
use super::{Case, Failure};
use crate::design::{Design, Layout};
use crate::physics::air::DRY_AIR;
use crate::physics::gas::{Gas, sensible_enthalpy};
use crate::physics::root::{bracketed, newton};
use crate::physics::wood::{FlueGas, flame_temperature, flue_gas, higher_heating_value};
use crate::physics::{STEFAN_BOLTZMANN, wood};

/// Convective film inside a firebox (W/m2K).
///
/// # Source
///
/// [`crate::sources::FIREBOX_CONVECTION`].
pub const FIREBOX_FILM: f64 = 8.0;

/// Share of black-body exchange between fire and room that passes the glass of a closed door,
/// let through and given off again (–): 10 kW/m2 at 840 °C.
///
/// # Source
///
/// [`crate::sources::GLASS_PRACTICE`].
pub const GLASS_EXCHANGE: f64 = 0.115;

/// Conductance of the metal part of a double-walled door (W/m2K), common practice, no source.
pub const DOOR_CONDUCTANCE: f64 = 4.0;

/// Wood that burns, and what becomes of it, at one excess air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Burn {
    /// Wood burned (kg/s); less than what lies in the fire when air is short.
    pub rate: f64,
    /// Air over stoichiometric air, below 1 when air is short (–).
    pub excess_air_ratio: f64,
    /// Flue gas per kilogram of wood.
    pub flue_gas: FlueGas,
    /// The gas, ready for use.
    pub gas: Gas,
    /// Lower heating value of the moist wood (J/kg).
    pub lower_heating_value: f64,
    /// Higher heating value of the moist wood (J/kg).
    pub higher_heating_value: f64,
}

impl Burn {
    /// The mean burn of a design at an excess air. Short of air, only so much wood burns.
    pub fn new(design: &Design, excess_air_ratio: f64) -> Self {
        let rate = design.fire.charge / design.fire.burn_duration;
        Self::at_rate(design, rate * excess_air_ratio.min(1.0), excess_air_ratio)
    }

    /// The wood of a design burning at a rate (kg/s).
    pub fn at_rate(design: &Design, rate: f64, excess_air_ratio: f64) -> Self {
        let fire = &design.fire;
        let ultimate = fire.species.ultimate();
        let flue_gas = flue_gas(&ultimate, fire.moisture_fraction, excess_air_ratio.max(1.0));
        Self {
            rate,
            excess_air_ratio,
            flue_gas,
            gas: Gas::new(flue_gas.composition),
            lower_heating_value: wood::lower_heating_value(&ultimate, fire.moisture_fraction),
            higher_heating_value: higher_heating_value(&ultimate)
                * (1.0 - fire.moisture_fraction),
        }
    }

    /// Flue gas (kg/s).
    pub fn gas_flow(&self) -> f64 {
        self.rate * self.flue_gas.gas_per_fuel
    }

    /// Air taken in (kg/s).
    pub fn air_flow(&self) -> f64 {
        self.rate * self.flue_gas.air_per_fuel
    }

    /// Heat of the wood on the lower heating value (W).
    pub fn heat(&self) -> f64 {
        wood::fire_power(self.rate, self.lower_heating_value)
    }

    /// Heat of the wood, less what stays unburned, and of the air at room temperature (W).
    pub fn supply(&self, design: &Design) -> f64 {
        let air = sensible_enthalpy(&DRY_AIR, design.site.room_temperature);
        self.heat() * (1.0 - design.fire.unburned_fraction) + self.air_flow() * air
    }

    /// Adiabatic flame temperature with air at a temperature (K).
    pub fn flame_temperature(&self, air_temperature: f64) -> f64 {
        flame_temperature(&self.flue_gas, &self.gas, self.lower_heating_value, air_temperature)
    }
}

/// Temperature of the firebox and where its heat goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Firebox {
    /// Gas in the firebox and at its exit (K).
    pub temperature: f64,
    /// Heat into walls, floor and crown (W).
    pub wall_heat: f64,
    /// Mean wall surface (K).
    pub wall: f64,
    /// Heat through the glass (W).
    pub glass_heat: f64,
    /// Heat through the metal of the door (W).
    pub door_heat: f64,
}

/// Finds the temperature at which the firebox balances at the height of the fire.
///
/// # Errors
///
/// [`Failure::Firebox`] when no temperature between room and flame does.
pub(super) fn firebox(case: Case<'_>, burn: &Burn, time: f64) -> Result<Firebox, Failure> {
    let design = case.design;
    let room = design.site.room_temperature;
    let sinks = storing_walls(case, time);
    let mut touches = [Touch::default(); 2];
    let feed = Feed {
        gas: &burn.gas,
        mass_flow: burn.gas_flow(),
        supply: burn.supply(design),
        flame_emissivity: design.firebox.flame_emissivity,
        glass_exchange: GLASS_EXCHANGE,
    };
    // The flame bounds from above; a little slack covers a firebox that loses nothing.
    let hottest = burn.flame_temperature(room) + 1.0;
    let within = Within { coolest: room, hottest, start: START * hottest };
    balance(design, &feed, &sinks, within, &mut touches)
}

/// Where the search for the firebox temperature begins, over that of the flame (–).
const START: f64 = 0.7;

/// Inner walls of the firebox that are not shared with a run, and those that are.
fn storing_walls(case: Case<'_>, time: f64) -> [Sink; 2] {
    let Case { design, path, factors } = case;
    let firebox = &design.firebox;
    let inner = (firebox.surface() - firebox.door_area()).max(0.0);
    let shared = path.firebox_overlap;
    let thickness = match design.path.layout {
        Layout::Above => firebox.crown_thickness,
        Layout::Behind | Layout::Bench => firebox.wall_thickness,
    };
    let sink = |area: f64, backing| {
        let resistance = storage_resistance(backing, design, factors, time);
        Sink::alone(area, design.site.room_temperature, resistance)
    };
    [
        sink((inner - shared).max(0.0), Backing::Face),
        sink(shared.min(inner), Backing::Firebox(thickness)),
    ]
}

/// What enters and fills a firebox.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feed<'a> {
    /// Gas that leaves it.
    pub gas: &'a Gas,
    /// How much of it (kg/s).
    pub mass_flow: f64,
    /// Heat of the wood, less what stays unburned, and of the air (W).
    pub supply: f64,
    /// Emissivity of the flame (–); 0 without fire.
    pub flame_emissivity: f64,
    /// Share of black-body exchange between fire and room through the glass (–).
    pub glass_exchange: f64,
}

/// Where the temperature of a firebox is sought (K).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Within {
    /// Not below this.
    pub coolest: f64,
    /// Not above this.
    pub hottest: f64,
    /// Near this.
    pub start: f64,
}

/// Last step toward the temperature of a firebox (K); what remains is its square over it.
const TOLERANCE: f64 = 0.01;

/// Finds the temperature at which a firebox balances; the girth of a wall is its area (m2), and
/// `touches` begin with what the surfaces were before.
///
/// # Errors
///
/// [`Failure::Firebox`] when no temperature within the bracket does.
pub fn balance(
    design: &Design,
    feed: &Feed<'_>,
    sinks: &[Sink],
    within: Within,
    touches: &mut [Touch],
) -> Result<Firebox, Failure> {
    let Within { coolest, hottest, start } = within;
    let mut surplus = |temperature: f64| {
        let (state, slope) = state(design, feed, sinks, temperature, touches);
        let spent = feed.mass_flow * feed.gas.enthalpy(temperature)
            + state.wall_heat
            + state.glass_heat
            + state.door_heat;
        (feed.supply - spent, -feed.mass_flow * feed.gas.heat_capacity(temperature) - slope)
    };
    let near = newton(start, (coolest, hottest), TOLERANCE, &mut surplus);
    let temperature = near.map_or_else(
        || {
            let mut surplus = |temperature: f64| surplus(temperature).0;
            let ends = ((coolest, surplus(coolest)), (hottest, surplus(hottest)));
            bracketed(ends.0, ends.1, 1e-7, surplus).map_err(Failure::Firebox)
        },
        Ok,
    )?;
    Ok(state(design, feed, sinks, temperature, touches).0)
}

/// A firebox at a temperature, and how its losses grow with it (W/K), those by the gas apart.
fn state(
    design: &Design,
    feed: &Feed<'_>,
    sinks: &[Sink],
    temperature: f64,
    touches: &mut [Touch],
) -> (Firebox, f64) {
    let room = design.site.room_temperature;
    let exchange = Exchange::new(&Gray {
        coefficient: FIREBOX_FILM,
        wall_emissivity: design.shell.inner_emissivity,
        gas_emissivity: feed.flame_emissivity,
        gas_absorptivity: feed.flame_emissivity,
        gas_temperature: temperature,
    });
    let (mut wall_heat, mut weighted, mut total, mut slope) = (0.0, 0.0, 0.0, 0.0);
    for (sink, touch) in sinks.iter().zip(touches) {
        let met = exchange.meet(sink, touch.surface);
        wall_heat += sink.girth * met.flux;
        slope += sink.girth * met.slope;
        weighted += sink.girth * met.touch.surface;
        total += sink.girth;
        *touch = met.touch;
    }
    let (glass, metal) = design.firebox.door_parts();
    let power = black(temperature);
    slope += glass * feed.glass_exchange * 4.0 * power / temperature + metal * DOOR_CONDUCTANCE;
    let firebox = Firebox {
        temperature,
        wall_heat,
        wall: if total > 0.0 { weighted / total } else { room },
        glass_heat: glass * through_glass(feed.glass_exchange, power, room),
        door_heat: metal * DOOR_CONDUCTANCE * (temperature - room),
    };
    (firebox, slope)
}

/// Black-body emissive power (W/m2).
pub fn black(temperature: f64) -> f64 {
    STEFAN_BOLTZMANN * temperature * temperature * temperature * temperature
}

/// Heat through glass between an emissive power (W/m2) and a room (W/m2).
pub fn through_glass(exchange: f64, emissive_power: f64, room: f64) -> f64 {
    exchange * (emissive_power - black(room))
}
