//! Conduction into walls: what a surface does under a heat flux.

use super::formula::{Formula, formula};
use crate::sources::FOURIER;
use std::f64::consts::PI;

/// Temperature rise of the surface of a semi-infinite solid per unit of constant flux (m2K/W).
///
/// R = 2 (t/pi)^(1/2) / (k rho c)^(1/2)
///
/// * `conductivity` (W/mK), `volumetric_heat_capacity` (J/m3K), `time` (s): since the flux began.
///
/// # Source
///
/// [`crate::sources::CARSLAW_JAEGER_1959`], 2.9.
pub fn semi_infinite_resistance(
    conductivity: f64,
    volumetric_heat_capacity: f64,
    time: f64,
) -> f64 {
    2.0 * (time / PI).sqrt() / (conductivity * volumetric_heat_capacity).sqrt()
}

/// Temperature rise of the heated surface of a slab per unit of constant flux (m2K/W).
///
/// R = t/(rho c L) + L/(3k) - (2L/(k pi2)) sum exp(-n2 pi2 a t/L2)/n2
///
/// * `thickness` (m): from the heated face to the adiabatic one; half of a slab heated alike on
///   both faces.
/// * `conductivity` (W/mK), `volumetric_heat_capacity` (J/m3K), `time` (s).
///
/// # Source
///
/// [`crate::sources::CARSLAW_JAEGER_1959`], 3.8.
pub fn slab_resistance(
    thickness: f64,
    conductivity: f64,
    volumetric_heat_capacity: f64,
    time: f64,
) -> f64 {
    let fourier = conductivity * time / (volumetric_heat_capacity * thickness * thickness);
    // For short times the far face is not felt, and the series would need many terms.
    if fourier < 0.02 {
        return semi_infinite_resistance(conductivity, volumetric_heat_capacity, time);
    }
    let mut series = 0.0;
    for n in 1..=40 {
        let square = f64::from(n * n);
        let term = libm::exp(-square * PI * PI * fourier) / square;
        series += term;
        if term < 1e-14 {
            break;
        }
    }
    thickness / conductivity * (fourier + 1.0 / 3.0 - 2.0 / (PI * PI) * series)
}

/// Thermal resistance of a cylindrical layer, related to the inner surface of the duct (m2K/W).
///
/// R = D_0/(2 k) ln(D_o/D_i)
///
/// * `duct_diameter` (m): to which the resistance is related.
/// * `inner_diameter`, `outer_diameter` (m): of the layer.
/// * `conductivity` (W/mK).
///
/// # Source
///
/// [`FOURIER`], in a cylinder.
pub fn cylinder_resistance(
    duct_diameter: f64,
    inner_diameter: f64,
    outer_diameter: f64,
    conductivity: f64,
) -> f64 {
    0.5 * duct_diameter / conductivity * libm::log(outer_diameter / inner_diameter)
}

/// [`cylinder_resistance`].
pub const CYLINDER_RESISTANCE: Formula = formula!(
    cylinder_resistance: "R = D_0/(2 k) ln(D_o/D_i)", FOURIER,
    "R" "resistance of the layer" RESISTANCE;
    duct_diameter "D_0" "diameter of the flue" LENGTH,
    inner_diameter "D_i" "inner diameter of the layer" LENGTH,
    outer_diameter "D_o" "outer diameter of the layer" LENGTH,
    conductivity "k" "conductivity" CONDUCTIVITY,
);

/// Thermal resistance of a film around a duct, related to its inner surface (m2K/W).
///
/// R = D_0/(D_o h)
///
/// * `duct_diameter` (m): to which the resistance is related; `outer_diameter` (m): on which the
///   film lies; `film` (W/m2K).
///
/// # Source
///
/// [`FOURIER`].
pub fn film_resistance(duct_diameter: f64, outer_diameter: f64, film: f64) -> f64 {
    duct_diameter / (outer_diameter * film)
}

/// [`film_resistance`].
pub const FILM_RESISTANCE: Formula = formula!(
    film_resistance: "R = D_0/(D_o h)", FOURIER,
    "R" "resistance of the outside film" RESISTANCE;
    duct_diameter "D_0" "diameter of the flue" LENGTH,
    outer_diameter "D_o" "outer diameter" LENGTH,
    film "h" "outside film" FILM,
);

/// Inner surface of a wall between gas and surroundings (K).
///
/// T_w = T_g - (T_g - T_o)/(1 + h R)
///
/// * `gas`, `outside` (K); `film` (W/m2K): of the gas, convection and radiation together;
///   `resistance` (m2K/W): from the surface to the surroundings.
///
/// # Source
///
/// [`FOURIER`].
pub fn inner_surface(gas: f64, outside: f64, film: f64, resistance: f64) -> f64 {
    gas - (gas - outside) / (1.0 + film * resistance)
}

/// [`inner_surface`].
pub const INNER_SURFACE: Formula = formula!(
    inner_surface: "T_w = T_g - (T_g - T_o)/(1 + h R)", FOURIER,
    "T_w" "inner surface of the wall" TEMPERATURE;
    gas "T_g" "gas" TEMPERATURE,
    outside "T_o" "surroundings" TEMPERATURE,
    film "h" "film of the gas, convection and radiation" FILM,
    resistance "R" "from the surface to the surroundings" RESISTANCE,
);
