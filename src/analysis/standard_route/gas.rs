//! Air, gas and temperatures of the route.

use crate::units::{celsius, kelvin};

/// Gas in the firebox in the pressure calculation (°C).
pub const FIREBOX_CELSIUS: f64 = 700.0;
/// Gas where the runs begin (°C).
pub const RUNS_INLET_CELSIUS: f64 = 550.0;
/// Exponent of the temperature after the shortest path (–).
pub const LENGTH_EXPONENT: f64 = 0.83;
/// Wood burned per hour over the charge (1/h).
const BURNING_SHARE: f64 = 0.78;
/// Air at 0 °C and sea level per charge (m3/s kg).
const AIR_PER_CHARGE: f64 = 0.00256;
/// Gas at 0 °C and sea level per charge (m3/s kg).
const GAS_PER_CHARGE: f64 = 0.00273;
/// Air at 0 °C and sea level (kg/m3).
const AIR_DENSITY: f64 = 1.293;
/// Gas at 0 °C and sea level (kg/m3).
const GAS_DENSITY: f64 = 1.282;
/// Free fall as the route has it (m/s2).
pub const ROUTE_GRAVITY: f64 = 9.81;
/// Gas constant of air times 0 °C (J/kg): 288 J/kgK x 273 K.
const ALTITUDE_SCALE: f64 = 78_624.0;

/// Burning rate (kg/s).
///
/// 0.78 m kg/h
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn burning_rate(charge: f64) -> f64 {
    BURNING_SHARE / 3600.0 * charge
}

/// Factor by which a gas is wider than at 0 °C (–).
///
/// f_t = (273 + t) / 273, t in °C
///
/// * `temperature` (K).
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn temperature_factor(temperature: f64) -> f64 {
    (273.0 + celsius(temperature)) / 273.0
}

/// Factor by which a gas is wider than at sea level (–).
///
/// f_s = 1 / exp(-9.81 z / 78624)
///
/// * `altitude` (m): above sea level.
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn altitude_factor(altitude: f64) -> f64 {
    libm::exp(ROUTE_GRAVITY * altitude / ALTITUDE_SCALE)
}

/// Combustion air (m3/s).
///
/// V = 0.00256 m f_t f_s
///
/// * `charge` (kg): 10 to 40.
/// * `temperature` (K): of the air.
/// * `altitude` (m).
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn air_volume_flow(charge: f64, temperature: f64, altitude: f64) -> f64 {
    AIR_PER_CHARGE * charge * temperature_factor(temperature) * altitude_factor(altitude)
}

/// Gas (m3/s).
///
/// V = 0.00273 m f_t f_s
///
/// * `charge` (kg): 10 to 40.
/// * `temperature` (K): of the gas.
/// * `altitude` (m).
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn gas_volume_flow(charge: f64, temperature: f64, altitude: f64) -> f64 {
    GAS_PER_CHARGE * charge * temperature_factor(temperature) * altitude_factor(altitude)
}

/// Density of air (kg/m3).
///
/// rho = 1.293 / (f_t f_s)
///
/// * `temperature` (K), `altitude` (m).
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn air_density(temperature: f64, altitude: f64) -> f64 {
    AIR_DENSITY / (temperature_factor(temperature) * altitude_factor(altitude))
}

/// Density of gas (kg/m3).
///
/// rho = 1.282 / (f_t f_s)
///
/// * `temperature` (K), `altitude` (m).
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn gas_density(temperature: f64, altitude: f64) -> f64 {
    GAS_DENSITY / (temperature_factor(temperature) * altitude_factor(altitude))
}

/// Gas (kg/s): volume flow times density, 0.0035 m.
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn gas_mass_flow(charge: f64) -> f64 {
    GAS_PER_CHARGE * GAS_DENSITY * charge
}

/// Combustion air (kg/s): volume flow times density, 0.0033 m.
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_FLOW`].
pub fn air_mass_flow(charge: f64) -> f64 {
    AIR_PER_CHARGE * AIR_DENSITY * charge
}

/// Gas along the runs (K).
///
/// t = 550 exp(-0.83 L / L_min) in °C
///
/// * `length` (m): from where the runs begin.
/// * `shortest_path` (m): of the charge.
///
/// # Source
///
/// [`crate::sources::EN_15544_TEMPERATURE`].
pub fn run_temperature(length: f64, shortest_path: f64) -> f64 {
    kelvin(RUNS_INLET_CELSIUS * libm::exp(-LENGTH_EXPONENT * length / shortest_path))
}

/// Efficiency (–).
///
/// eta = 101.09 - 0.0941 t in %, t in °C
///
/// * `outlet` (K): gas where it leaves the runs; below 12 °C the line passes 100 %.
///
/// # Source
///
/// [`crate::sources::EN_15544_EFFICIENCY`].
pub fn efficiency(outlet: f64) -> f64 {
    (101.09 - 0.0941 * celsius(outlet)) / 100.0
}

/// Gas where it leaves the runs at an efficiency (K): [`efficiency`] turned around.
///
/// t = (101.09 - eta) / 0.0941 in °C, eta in %
///
/// * `efficiency` (–): below 1.
///
/// # Source
///
/// [`crate::sources::EN_15544_EFFICIENCY`].
pub fn temperature_of_efficiency(efficiency: f64) -> f64 {
    kelvin((101.09 - 100.0 * efficiency) / 0.0941)
}
