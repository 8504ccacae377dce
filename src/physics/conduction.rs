//! Conduction into walls: what a surface does under a heat flux.

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
/// R = D_0/(2k) ln(D_o/D_i)
///
/// * `duct_diameter` (m): to which the resistance is related.
/// * `inner_diameter`, `outer_diameter` (m): of the layer.
/// * `conductivity` (W/mK).
///
/// # Source
///
/// Fourier's law in a cylinder.
pub fn cylinder_resistance(
    duct_diameter: f64,
    inner_diameter: f64,
    outer_diameter: f64,
    conductivity: f64,
) -> f64 {
    0.5 * duct_diameter / conductivity * libm::log(outer_diameter / inner_diameter)
}
