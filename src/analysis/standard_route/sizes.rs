//! Sizes that the route asks of a charge, and the heat that it counts on.

use super::gas::{LENGTH_EXPONENT, RUNS_INLET_CELSIUS, temperature_of_efficiency};
use crate::physics::formula::{Formula, formula};
use crate::sources::{EN_15544_BLEED, EN_15544_SIZES};
use crate::units::celsius;

/// Gap from which core and facing count as built with an air gap (m), common practice, no source:
/// thinner slip layers only part the two.
pub const AIR_GAP: f64 = 0.010;

/// Useful heat of wood at the fixed efficiency of 78 % (J/kg): 3.25 kWh/kg.
const FIXED_HEAT: f64 = 3.25 * 3.6e6;
/// Heating value of the wood that the route has in mind (J/kg): 4.16 kWh/kg.
const HEATING_VALUE: f64 = 4.16 * 3.6e6;
/// Factor of the path length without air gap (m/kg^(1/2)).
pub const LENGTH_FACTOR: f64 = 1.3;
/// Factor of the path length with an air gap (m/kg^(1/2)).
pub const LENGTH_FACTOR_GAP: f64 = 1.5;

/// Time over which one charge heats (s).
///
/// t_n = 24 h / n
///
/// * `firings_per_day` (–): 1 to 3 keep it between 8 and 24 h.
///
/// # Source
///
/// [`crate::sources::EN_15544_PERIOD`]; evenly spread firings.
pub fn heating_period(firings_per_day: f64) -> f64 {
    86_400.0 / firings_per_day
}

/// Nominal output at the fixed efficiency of 78 % (W).
///
/// P = 3.25 kWh/kg m / t_n
///
/// * `charge` (kg): 10 to 40.
/// * `heating_period` (s): 8 to 24 h.
///
/// # Source
///
/// [`crate::sources::EN_15544_OUTPUT`].
pub fn nominal_output(charge: f64, heating_period: f64) -> f64 {
    FIXED_HEAT * charge / heating_period
}

/// Nominal output at an efficiency (W).
///
/// P = 4.16 kWh/kg eta m / t_n
///
/// * `charge` (kg): 10 to 40.
/// * `heating_period` (s): 8 to 24 h.
/// * `efficiency` (–): 0.78 and above.
///
/// # Source
///
/// [`crate::sources::EN_15544_OUTPUT_2023`].
pub fn nominal_output_at(charge: f64, heating_period: f64, efficiency: f64) -> f64 {
    HEATING_VALUE * efficiency * charge / heating_period
}

/// Smallest charge of a heater (kg).
///
/// m_min = 0.5 m
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_LEAST_CHARGE`].
pub fn least_charge(charge: f64) -> f64 {
    0.5 * charge
}

/// Inner surface of the firebox, door and gas exit counted in (m2).
///
/// O = 0.09 m
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`].
pub fn firebox_surface(charge: f64) -> f64 {
    0.09 * charge
}

/// [`firebox_surface`].
pub const FIREBOX_SURFACE: Formula = formula!(
    firebox_surface: "O = 0.09 m", EN_15544_SIZES,
    "O" "inner surface that the route asks for" AREA;
    charge "m" "charge" MASS,
);

/// Smallest base of the firebox (m2).
///
/// A = 0.01 m
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`].
pub fn least_firebox_base(charge: f64) -> f64 {
    0.01 * charge
}

/// [`least_firebox_base`].
pub const LEAST_FIREBOX_BASE: Formula = formula!(
    least_firebox_base: "A = 0.01 m", EN_15544_SIZES,
    "A" "smallest base that the route asks for" AREA;
    charge "m" "charge" MASS,
);

/// Largest base of a firebox with a perimeter (m2): a larger one would be too low for its surface.
///
/// A = (0.09 m - (0.25 + 0.01 m) U) / 2
///
/// * `charge` (kg): 10 to 40.
/// * `perimeter` (m): of the base.
///
/// # Source
///
/// [`crate::sources::EN_15544_LARGEST_BASE`].
pub fn largest_firebox_base(charge: f64, perimeter: f64) -> f64 {
    0.5 * (firebox_surface(charge) - least_firebox_height(charge) * perimeter)
}

/// Smallest height of the firebox (m).
///
/// H = 0.25 + 0.01 m
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`].
pub fn least_firebox_height(charge: f64) -> f64 {
    0.25 + 0.01 * charge
}

/// [`least_firebox_height`].
pub const LEAST_FIREBOX_HEIGHT: Formula = formula!(
    least_firebox_height: "H = 0.25 + 0.01 m", EN_15544_SIZES,
    "H" "smallest height that the route asks for" LENGTH;
    charge "m" "charge" MASS,
);

/// Height at which a prismatic firebox has its surface (m).
///
/// H = (0.09 m - 2 A) / U
///
/// * `charge` (kg): 10 to 40.
/// * `base` (m2), `perimeter` (m): of the base.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`].
pub fn firebox_height(charge: f64, base: f64, perimeter: f64) -> f64 {
    (firebox_surface(charge) - 2.0 * base) / perimeter
}

/// Shortest smoke path (m).
///
/// L = 1.3 sqrt(m) without air gap between core and facing, 1.5 sqrt(m) with one
///
/// * `charge` (kg): 10 to 40.
/// * `gap` (m): between core and facing.
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`]; which factor belongs to which construction is from memory.
pub fn shortest_path(charge: f64, gap: f64) -> f64 {
    path_of_charge(base_factor(gap), charge)
}

/// Smoke path of a charge (m).
///
/// L = F sqrt(m)
///
/// * `factor` (m/kg^(1/2)): see [`base_factor`] and [`length_factor`]; `charge` (kg).
///
/// # Source
///
/// [`EN_15544_SIZES`].
pub fn path_of_charge(factor: f64, charge: f64) -> f64 {
    factor * charge.sqrt()
}

/// [`path_of_charge`].
pub const PATH_OF_CHARGE: Formula = formula!(
    path_of_charge: "L = F sqrt(m)", EN_15544_SIZES,
    "L" "shortest smoke path" LENGTH;
    factor "F" "1.3 without an air gap in the shell, 1.5 with one" NUMBER,
    charge "m" "charge" MASS,
);

/// Factor of the path length of a construction (m/kg^(1/2)).
///
/// # Source
///
/// [`crate::sources::EN_15544_SIZES`]; which factor belongs to which construction is from memory.
pub fn base_factor(gap: f64) -> f64 {
    if gap < AIR_GAP { LENGTH_FACTOR } else { LENGTH_FACTOR_GAP }
}

/// Factor F of the path length F sqrt(m) at which the route gives an efficiency (m/kg^(1/2)).
///
/// F = f/0.83 ln(550 / t), t = (101.09 - eta) / 0.0941 in °C
///
/// * `efficiency` (–): 0.78 to 0.90.
/// * `base_factor` (m/kg^(1/2)): 1.3 or 1.5.
///
/// # Source
///
/// [`crate::sources::EN_15544_FACTOR`].
pub fn length_factor(efficiency: f64, base_factor: f64) -> f64 {
    let outlet = celsius(temperature_of_efficiency(efficiency));
    base_factor / LENGTH_EXPONENT * libm::log(RUNS_INLET_CELSIUS / outlet)
}

/// Slot from the top of the firebox to the chimney, against pockets of gas (m2).
///
/// A = 1e-4 m
///
/// * `charge` (kg): 10 to 40.
///
/// # Source
///
/// [`crate::sources::EN_15544_BLEED`].
pub fn bleed_area(charge: f64) -> f64 {
    1e-4 * charge
}

/// [`bleed_area`].
pub const BLEED_AREA: Formula = formula!(
    bleed_area: "A = 1e-4 m", EN_15544_BLEED,
    "A" "bleed slot that the route asks for" AREA;
    charge "m" "charge" MASS,
);
