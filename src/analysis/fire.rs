//! The firebox as a stirred volume: heat of the wood against walls, door, glass and gas.

use super::Failure;
use super::march::{Exchange, Sink};
use super::path::{Backing, Path, storage_resistance};
use crate::design::{Design, Layout};
use crate::physics::air::DRY_AIR;
use crate::physics::gas::{Gas, sensible_enthalpy};
use crate::physics::root::bracketed;
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
    /// The burn of a design at an excess air. Short of air, only so much wood burns.
    pub fn new(design: &Design, excess_air_ratio: f64) -> Self {
        let fire = &design.fire;
        let ultimate = fire.species.ultimate();
        let flue_gas = flue_gas(&ultimate, fire.moisture_fraction, excess_air_ratio.max(1.0));
        Self {
            rate: fire.charge / fire.burn_duration * excess_air_ratio.min(1.0),
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
        self.rate * self.lower_heating_value
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

/// Finds the temperature at which the firebox balances.
///
/// # Errors
///
/// [`Failure::Firebox`] when no temperature between room and flame does.
pub fn firebox(
    design: &Design,
    path: &Path,
    burn: &Burn,
    time: f64,
) -> Result<Firebox, Failure> {
    let room = design.site.room_temperature;
    let air = sensible_enthalpy(&DRY_AIR, room);
    let supply = burn.heat() * (1.0 - design.fire.unburned_fraction) + burn.air_flow() * air;
    let shares = WallShares::new(design, path, time);
    let surplus = |temperature: f64| {
        let state = shares.state(design, temperature);
        supply
            - burn.gas_flow() * burn.gas.enthalpy(temperature)
            - state.wall_heat
            - state.glass_heat
            - state.door_heat
    };
    // The flame bounds from above; a little slack covers a firebox that loses nothing.
    let hottest = burn.flame_temperature(room) + 1.0;
    let temperature =
        bracketed((room, surplus(room)), (hottest, surplus(hottest)), 1e-7, surplus)
            .map_err(Failure::Firebox)?;
    Ok(shares.state(design, temperature))
}

struct WallShares {
    /// Area (m2) and storage resistance (m2K/W) of thick walls and of the shared crown.
    parts: [(f64, f64); 2],
}

impl WallShares {
    fn new(design: &Design, path: &Path, time: f64) -> Self {
        let firebox = &design.firebox;
        let inner = (firebox.surface() - firebox.door_area()).max(0.0);
        let shared = path.firebox_overlap;
        let thickness = match design.path.layout {
            Layout::Above => firebox.crown_thickness,
            Layout::Behind | Layout::Bench => firebox.wall_thickness,
        };
        let resistance = |backing| storage_resistance(backing, design, time);
        Self {
            parts: [
                ((inner - shared).max(0.0), resistance(Backing::Face)),
                (shared.min(inner), resistance(Backing::Firebox(thickness))),
            ],
        }
    }

    fn state(&self, design: &Design, temperature: f64) -> Firebox {
        let room = design.site.room_temperature;
        let firebox = &design.firebox;
        let exchange = Exchange {
            coefficient: FIREBOX_FILM,
            wall_emissivity: design.shell.inner_emissivity,
            gas_emissivity: firebox.flame_emissivity,
            gas_absorptivity: firebox.flame_emissivity,
            gas_temperature: temperature,
        };
        let (mut wall_heat, mut weighted, mut total) = (0.0, 0.0, 0.0);
        for (area, resistance) in self.parts {
            let surface = exchange.surface(&Sink::alone(area, room, resistance));
            wall_heat += area * exchange.flux(surface);
            weighted += area * surface;
            total += area;
        }
        let glass = firebox.door_area() * firebox.glass_fraction;
        let metal = firebox.door_area() - glass;
        let fourth = |t: f64| t * t * t * t;
        Firebox {
            temperature,
            wall_heat,
            wall: if total > 0.0 { weighted / total } else { room },
            glass_heat: glass
                * GLASS_EXCHANGE
                * STEFAN_BOLTZMANN
                * (fourth(temperature) - fourth(room)),
            door_heat: metal * DOOR_CONDUCTANCE * (temperature - room),
        }
    }
}
