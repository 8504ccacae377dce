//! Flow resistance: friction factors and local losses.

use super::formula::{Formula, formula};
use super::{GRAVITY, OutOfRange, quick, require};
use crate::sources::{BERNOULLI, COLEBROOK_1939, DISCHARGE, GEOMETRY, STACK_EFFECT};
use std::ops::RangeInclusive;

/// Reynolds number at which laminar flow begins to break up (–).
pub const LAMINAR_END: f64 = 2300.0;
/// Reynolds number from which flow is taken as turbulent (–).
pub const TURBULENT_START: f64 = 4000.0;
/// Reynolds numbers of [`friction_factor_colebrook`] (–).
pub const COLEBROOK_REYNOLDS: RangeInclusive<f64> = 4000.0..=1e8;
/// Relative roughness of [`friction_factor_colebrook`] (–).
pub const COLEBROOK_ROUGHNESS: RangeInclusive<f64> = 0.0..=0.05;

/// Friction factor (Darcy) of turbulent flow in a smooth duct (–).
///
/// f = (1.8 log10 Re - 1.5)^-2
///
/// * `reynolds` (–): above 4000.
///
/// # Source
///
/// [`crate::sources::KONAKOV_1946`].
pub fn friction_factor_konakov(reynolds: f64) -> f64 {
    let root = 1.8 * quick::log10(reynolds) - 1.5;
    1.0 / (root * root)
}

/// Friction factor (Darcy) of turbulent flow in a rough duct, explicit (–).
///
/// 1/sqrt f = -1.8 log10\[(e/3.7)^1.11 + 6.9/Re\]
///
/// # Source
///
/// [`crate::sources::HAALAND_1983`].
pub fn friction_factor_haaland(reynolds: f64, relative_roughness: f64) -> f64 {
    let rough = libm::pow(relative_roughness / 3.7, 1.11);
    let root = -1.8 * quick::log10(rough + 6.9 / reynolds);
    1.0 / (root * root)
}

/// Friction factor (Darcy) of turbulent flow in a rough duct (–).
///
/// 1/sqrt f = -2 log10\[e/3.7 + 2.51/(Re sqrt f)\]
///
/// * `relative_roughness` (–): mean roughness over hydraulic diameter.
///
/// # Errors
///
/// [`OutOfRange`] outside [`COLEBROOK_REYNOLDS`] or [`COLEBROOK_ROUGHNESS`].
///
/// # Source
///
/// [`COLEBROOK_1939`].
pub fn friction_factor_colebrook(
    reynolds: f64,
    relative_roughness: f64,
) -> Result<f64, OutOfRange> {
    require("Reynolds number", reynolds, COLEBROOK_REYNOLDS, &COLEBROOK_1939)?;
    require("relative roughness", relative_roughness, COLEBROOK_ROUGHNESS, &COLEBROOK_1939)?;
    Ok(colebrook(reynolds, relative_roughness))
}

/// Colebrook's equation solved by Newton's method on 1/sqrt f, from a start on the smooth side.
fn colebrook(reynolds: f64, relative_roughness: f64) -> f64 {
    let rough = relative_roughness / 3.7;
    let viscous = 2.51 / reynolds;
    let mut x = -2.0 * quick::log10(rough + viscous * 6.0);
    for _ in 0..8 {
        let inside = rough + viscous * x;
        let residual = x + 2.0 * quick::log10(inside);
        let slope = 1.0 + 2.0 * std::f64::consts::LOG10_E * viscous / inside;
        let step = residual / slope;
        x -= step;
        // What remains goes with its square.
        if step.abs() < 1e-4 {
            break;
        }
    }
    1.0 / (x * x)
}

/// Product of friction factor (Darcy) and Reynolds number of laminar flow in a rectangle (–).
///
/// f Re = 96 (1 - 1.3553 a + 1.9467 a2 - 1.7012 a3 + 0.9564 a4 - 0.2537 a5)
///
/// * `aspect` (–): short side over long side, 0 to 1.
///
/// # Source
///
/// [`crate::sources::SHAH_LONDON_1978`].
pub fn laminar_friction_rectangle(aspect: f64) -> f64 {
    let a = aspect;
    96.0 * (1.0 + a * (-1.3553 + a * (1.9467 + a * (-1.7012 + a * (0.9564 - 0.2537 * a)))))
}

/// Product of friction factor (Darcy) and Reynolds number of laminar flow in a round duct (–).
pub const LAMINAR_FRICTION_ROUND: f64 = 64.0;

/// Friction factor (Darcy) at any Reynolds number (–).
///
/// Laminar below [`LAMINAR_END`], Colebrook from [`TURBULENT_START`], a linear blend over the
/// Reynolds number between the values at the two ends.
///
/// * `laminar` (–): product of friction factor and Reynolds number of the laminar duct.
/// * `relative_roughness` (–): held to 0.05 at most.
///
/// # Source
///
/// [`COLEBROOK_1939`]; the blend is Gnielinski's (2013) weighting of heat transfer, so that both
/// change over the same span and without a step.
pub fn friction_factor(reynolds: f64, laminar: f64, relative_roughness: f64) -> f64 {
    let roughness = relative_roughness.min(*COLEBROOK_ROUGHNESS.end());
    if reynolds >= TURBULENT_START {
        return colebrook(reynolds, roughness);
    }
    if reynolds <= LAMINAR_END {
        return laminar / reynolds.max(1e-9);
    }
    let weight = (reynolds - LAMINAR_END) / (TURBULENT_START - LAMINAR_END);
    (1.0 - weight) * laminar / LAMINAR_END + weight * colebrook(TURBULENT_START, roughness)
}

/// Loss coefficient of a sudden change of section, related to the faster side (–).
///
/// Expansion (1 - a)^2, contraction (1 - a)/2, where a is the smaller area over the larger.
///
/// # Source
///
/// [`crate::sources::BORDA_CARNOT`].
pub fn section_change_coefficient(area_before: f64, area_after: f64) -> f64 {
    if area_before < area_after {
        let step = 1.0 - area_before / area_after;
        step * step
    } else {
        0.5 * (1.0 - area_after / area_before)
    }
}

/// Pull of a column of gas beside outdoor air (Pa), negative where the gas goes down.
///
/// p = 9.80665 h (rho_o - rho)
///
/// * `rise` (m), `outside`, `inside` (kg/m3): densities of outdoor air and gas.
///
/// # Source
///
/// [`STACK_EFFECT`].
pub fn column_pull(rise: f64, outside: f64, inside: f64) -> f64 {
    GRAVITY * rise * (outside - inside)
}

/// [`column_pull`].
pub const COLUMN_PULL: Formula = formula!(
    column_pull: "p = 9.80665 h (rho_o - rho)", STACK_EFFECT,
    "p" "pull of the column" PRESSURE;
    rise "h" "height by which the gas rises" LENGTH,
    outside "rho_o" "density of the outdoor air" DENSITY,
    inside "rho" "density of the gas" DENSITY,
);

/// Speed of a flow in a section (m/s).
///
/// v = m / (A rho)
///
/// * `mass_flow` (kg/s), `area` (m2), `density` (kg/m3).
///
/// # Source
///
/// Balance of mass.
pub fn flow_speed(mass_flow: f64, area: f64, density: f64) -> f64 {
    mass_flow / (area * density)
}

/// [`flow_speed`].
pub const FLOW_SPEED: Formula = formula!(
    flow_speed: "v = m / (A rho)", GEOMETRY,
    "v" "speed" SPEED;
    mass_flow "m" "mass flow" MASS_FLOW,
    area "A" "free section" AREA,
    density "rho" "density" DENSITY,
);

/// Dynamic pressure of a flow in a section (Pa).
///
/// p_d = (m/A)^2 / (2 rho)
///
/// * `mass_flow` (kg/s), `area` (m2), `density` (kg/m3).
///
/// # Source
///
/// [`BERNOULLI`].
pub fn dynamic_pressure(mass_flow: f64, area: f64, density: f64) -> f64 {
    let flux = mass_flow / area;
    0.5 * flux * flux / density
}

/// Loss of an obstacle (Pa): a turn, an opening, a cap.
///
/// p = z (m/A)^2 / (2 rho)
///
/// * `coefficient` (–), `mass_flow` (kg/s), `area` (m2), `density` (kg/m3).
///
/// # Source
///
/// [`BERNOULLI`].
pub fn local_loss(coefficient: f64, mass_flow: f64, area: f64, density: f64) -> f64 {
    coefficient * dynamic_pressure(mass_flow, area, density)
}

/// [`local_loss`].
pub const LOCAL_LOSS: Formula = formula!(
    local_loss: "p = z (m/A)^2 / (2 rho)", BERNOULLI,
    "p" "loss" PRESSURE;
    coefficient "z" "loss coefficient" NUMBER,
    mass_flow "m" "mass flow" MASS_FLOW,
    area "A" "narrowest free section" AREA,
    density "rho" "density" DENSITY,
);

/// What is left of the pull (Pa).
///
/// p_m = p - p_l
///
/// * `pull`, `losses` (Pa).
///
/// # Source
///
/// [`BERNOULLI`].
pub fn margin(pull: f64, losses: f64) -> f64 {
    pull - losses
}

/// [`margin`].
pub const MARGIN: Formula = formula!(
    margin: "p_m = p - p_l", BERNOULLI,
    "p_m" "draft to spare" PRESSURE;
    pull "p" "what pulls" PRESSURE,
    losses "p_l" "what holds back" PRESSURE,
);

/// Discharge coefficient of an opening with sharp edges (–).
///
/// # Source
///
/// [`crate::sources::DISCHARGE`].
pub const SHARP_DISCHARGE: f64 = 0.62;

/// Flow through an opening with sharp edges (kg/s).
///
/// m = 0.62 A (2 rho dp)^(1/2)
///
/// * `area` (m2), `density` (kg/m3) of the gas, `pascals` (Pa): at least 0.
///
/// # Source
///
/// [`crate::sources::DISCHARGE`].
pub fn orifice_flow(area: f64, density: f64, pascals: f64) -> f64 {
    SHARP_DISCHARGE * area * (2.0 * density * pascals).sqrt()
}

/// Opening with sharp edges that a flow needs (m2).
///
/// A = m / (0.62 sqrt(2 rho dp))
///
/// * `flow` (kg/s), `density` (kg/m3) of the gas, `pascals` (Pa): above 0.
///
/// # Source
///
/// [`DISCHARGE`].
pub fn orifice_area(flow: f64, density: f64, pascals: f64) -> f64 {
    flow / orifice_flow(1.0, density, pascals)
}

/// [`orifice_area`].
pub const ORIFICE_AREA: Formula = formula!(
    orifice_area: "A = m / (0.62 sqrt(2 rho dp))", DISCHARGE,
    "A" "opening that the flow needs" AREA;
    flow "m" "flow" MASS_FLOW,
    density "rho" "density" DENSITY,
    pascals "dp" "suction" PRESSURE,
);
