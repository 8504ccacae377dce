//! Heat transfer between gas and wall inside ducts.

use super::formula::{Formula, formula};
use super::pressure::{LAMINAR_END, TURBULENT_START, friction_factor, friction_factor_konakov};
use super::{GRAVITY, OutOfRange, quick, require};
use crate::sources::{GNIELINSKI_1976, HEAT_EXCHANGER, SHAH_LONDON_1978};
use std::ops::RangeInclusive;

/// Reynolds numbers of [`nusselt_gnielinski`] (–).
pub const GNIELINSKI_REYNOLDS: RangeInclusive<f64> = 3000.0..=5e6;
/// Prandtl numbers of [`nusselt_gnielinski`] (–).
pub const GNIELINSKI_PRANDTL: RangeInclusive<f64> = 0.5..=2000.0;
/// Largest ratio of rough to smooth friction that raises heat transfer (–).
pub const NORRIS_FRICTION_RATIO: f64 = 4.0;

/// Mean Nusselt number of turbulent flow in a duct (–).
///
/// Nu = (f/8)(Re - 1000) Pr / \[1 + 12.7 (f/8)^(1/2) (Pr^(2/3) - 1)\] (1 + (D/L)^(2/3))
///
/// * `friction_factor` (–): Darcy, of the smooth duct.
/// * `diameter_over_length` (–): 0 for fully developed flow.
///
/// # Errors
///
/// [`OutOfRange`] outside [`GNIELINSKI_REYNOLDS`] or [`GNIELINSKI_PRANDTL`].
///
/// # Source
///
/// [`GNIELINSKI_1976`].
pub fn nusselt_gnielinski(
    reynolds: f64,
    prandtl: f64,
    friction_factor: f64,
    diameter_over_length: f64,
) -> Result<f64, OutOfRange> {
    require("Reynolds number", reynolds, GNIELINSKI_REYNOLDS, &GNIELINSKI_1976)?;
    require("Prandtl number", prandtl, GNIELINSKI_PRANDTL, &GNIELINSKI_1976)?;
    Ok(gnielinski(reynolds, prandtl, friction_factor) * entrance(diameter_over_length))
}

fn gnielinski(reynolds: f64, prandtl: f64, friction_factor: f64) -> f64 {
    let eighth = friction_factor / 8.0;
    let prandtl_root = quick::cbrt(prandtl);
    eighth * (reynolds - 1000.0) * prandtl
        / (1.0 + 12.7 * eighth.sqrt() * (prandtl_root * prandtl_root - 1.0))
}

fn entrance(diameter_over_length: f64) -> f64 {
    let root = quick::cbrt(diameter_over_length);
    1.0 + root * root
}

/// Developed Nusselt number of laminar flow in a rectangle with isothermal walls (–).
///
/// Nu = 7.541 (1 - 2.610 a + 4.970 a2 - 5.119 a3 + 2.702 a4 - 0.548 a5)
///
/// * `aspect` (–): short side over long side, 0 to 1.
///
/// # Source
///
/// [`crate::sources::SHAH_LONDON_1978`].
pub fn nusselt_laminar_rectangle(aspect: f64) -> f64 {
    let a = aspect;
    7.541 * (1.0 + a * (-2.610 + a * (4.970 + a * (-5.119 + a * (2.702 - 0.548 * a)))))
}

/// Developed Nusselt number of laminar flow in a round duct with isothermal walls (–).
pub const NUSSELT_LAMINAR_ROUND: f64 = 3.66;

/// Mean Nusselt number of laminar flow with a thermal entrance and isothermal walls (–).
///
/// Nu = {Nu_d^3 + 0.7^3 + \[1.615 Gz^(1/3) - 0.7\]^3}^(1/3)
///
/// * `developed` (–): Nusselt number far from the entrance; 3.66 in a round duct.
/// * `graetz` (–): Re Pr D/L.
///
/// # Source
///
/// [`crate::sources::VDI_LAMINAR`] for the round duct; the developed value of other sections is
/// put in its place.
pub fn nusselt_laminar_entrance(developed: f64, graetz: f64) -> f64 {
    laminar_entrance(developed * developed * developed, graetz)
}

/// The same by the cube of the developed value.
fn laminar_entrance(developed_cube: f64, graetz: f64) -> f64 {
    let entry = 1.615 * quick::cbrt(graetz) - 0.7;
    // Far from the entrance the developed value alone remains.
    let entry = entry.max(-0.7);
    quick::cbrt(developed_cube + 0.343 + entry * entry * entry)
}

/// Cube of the mean Nusselt number of turbulent natural convection on an upright face (–).
///
/// Nu = 0.10 Ra^(1/3)
///
/// * `rayleigh` (–): over the same length as the Nusselt number; the film does not depend on it,
///   which is why this one serves inside a duct, where a boundary layer does not begin anew.
///
/// # Source
///
/// [`crate::sources::BAYLEY_1955`].
pub fn natural_cube(rayleigh: f64) -> f64 {
    0.10 * 0.10 * 0.10 * rayleigh
}

/// Factor by which roughness raises the Nusselt number of turbulent flow (–).
///
/// Nu/Nu_smooth = (f/f_smooth)^n, n = 0.68 Pr^0.215, f/f_smooth at most 4
///
/// # Source
///
/// [`crate::sources::NORRIS_1970`].
pub fn roughness_gain_norris(friction_ratio: f64, prandtl: f64) -> f64 {
    let ratio = friction_ratio.clamp(1.0, NORRIS_FRICTION_RATIO);
    quick::pow(ratio, 0.68 * quick::pow(prandtl, 0.215))
}

/// The duct that [`nusselt`] looks at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Duct {
    /// Hydraulic diameter (m).
    pub hydraulic_diameter: f64,
    /// Length from one thermal entrance to the next (m).
    pub length: f64,
    /// Mean roughness (m).
    pub roughness: f64,
    /// Friction factor times Reynolds number in laminar flow (–).
    pub laminar_friction: f64,
    /// Developed Nusselt number in laminar flow (–).
    pub laminar_nusselt: f64,
}

impl Duct {
    /// Friction factor (Darcy) at a Reynolds number (–): [`friction_factor`] of this duct.
    pub fn friction_factor(&self, reynolds: f64) -> f64 {
        friction_factor(
            reynolds,
            self.laminar_friction,
            self.roughness / self.hydraulic_diameter,
        )
    }
}

/// Mean Nusselt number of a duct at any Reynolds number (–), continuous.
///
/// Laminar entrance below 2300, Gnielinski with the smooth friction factor, entrance term and
/// Norris' gain from 4000, between them Nu = (1 - g) Nu(2300) + g Nu(4000),
/// g = (Re - 2300)/1700.
///
/// # Source
///
/// [`crate::sources::GNIELINSKI_2013`].
pub fn nusselt(duct: &Duct, reynolds: f64, prandtl: f64) -> f64 {
    nusselt_mixed(duct, 0.0, reynolds, prandtl)
}

/// [`nusselt`] with natural convection beside the laminar flow, by the rule of cubes (Churchill):
/// Nu^3 = `Nu_laminar^3` + `Nu_natural^3`. Where the Richardson number is small the second cube is
/// too: no threshold tells forced from natural.
///
/// * `natural_cube` (–): cube of the Nusselt number of natural convection alone, over the hydraulic
///   diameter.
///
/// # Source
///
/// [`crate::sources::CHURCHILL_1977`].
pub fn nusselt_mixed(duct: &Duct, natural_cube: f64, reynolds: f64, prandtl: f64) -> f64 {
    let diameter_over_length = duct.hydraulic_diameter / duct.length;
    let developed = duct.laminar_nusselt;
    let developed_cube = developed * developed * developed + natural_cube;
    let laminar = |reynolds: f64| {
        laminar_entrance(developed_cube, reynolds * prandtl * diameter_over_length)
    };
    let turbulent = |reynolds: f64| {
        let smooth = friction_factor_konakov(reynolds);
        let gain = roughness_gain_norris(duct.friction_factor(reynolds) / smooth, prandtl);
        gnielinski(reynolds, prandtl, smooth) * entrance(diameter_over_length) * gain
    };
    if reynolds <= LAMINAR_END {
        laminar(reynolds)
    } else if reynolds >= TURBULENT_START {
        turbulent(reynolds)
    } else {
        let weight = (reynolds - LAMINAR_END) / (TURBULENT_START - LAMINAR_END);
        (1.0 - weight) * laminar(LAMINAR_END) + weight * turbulent(TURBULENT_START)
    }
}

/// Buoyancy over inertia in a duct (–).
///
/// Ri = 9.80665 (T - T_w)/T D/v^2
///
/// * `gas`, `wall` (K), `hydraulic_diameter` (m), `speed` (m/s).
///
/// # Source
///
/// [`SHAH_LONDON_1978`].
pub fn richardson(gas: f64, wall: f64, hydraulic_diameter: f64, speed: f64) -> f64 {
    GRAVITY * (gas - wall) / gas * hydraulic_diameter / (speed * speed)
}

/// [`richardson`].
pub const RICHARDSON: Formula = formula!(
    richardson: "Ri = 9.80665 (T - T_w)/T D/v^2", SHAH_LONDON_1978,
    "Ri" "buoyancy over inertia" NUMBER;
    gas "T" "gas, mean of the run" TEMPERATURE,
    wall "T_w" "wall, mean of the run" TEMPERATURE,
    hydraulic_diameter "D" "hydraulic diameter" LENGTH,
    speed "v" "speed, mean of the run" SPEED,
);

/// Share of its way to the temperature of the walls that a stream has gone (–).
///
/// s = 1 - exp(-N)
///
/// * `transfer_units` (–): exchange with the walls over the heat that the stream carries, both per
///   kelvin.
///
/// # Source
///
/// [`HEAT_EXCHANGER`].
pub fn approach(transfer_units: f64) -> f64 {
    -quick::expm1(-transfer_units)
}

/// A stream after a way along walls that tend to one temperature (K).
///
/// T = T_1 - (T_1 - T_e) (1 - exp(-N))
///
/// * `inlet` (K), `equilibrium` (K): where no heat would flow, `transfer_units` (–).
///
/// # Source
///
/// [`HEAT_EXCHANGER`].
pub fn cooled(inlet: f64, equilibrium: f64, transfer_units: f64) -> f64 {
    inlet - (inlet - equilibrium) * approach(transfer_units)
}

/// [`cooled`].
pub const COOLED: Formula = formula!(
    cooled: "T = T_1 - (T_1 - T_e) (1 - exp(-N))", HEAT_EXCHANGER,
    "T" "gas at the end" TEMPERATURE;
    inlet "T_1" "gas at the beginning" TEMPERATURE,
    equilibrium "T_e" "gas to which no heat would flow" TEMPERATURE,
    transfer_units "N" "transfer units" NUMBER,
);

/// Transfer units of a stream along a wall (–).
///
/// N = k L / (m c)
///
/// * `exchange` (W/mK): with the walls, per length; `length` (m), `mass_flow` (kg/s),
///   `heat_capacity` (J/kgK).
///
/// # Source
///
/// [`HEAT_EXCHANGER`].
pub fn transfer_units(exchange: f64, length: f64, mass_flow: f64, heat_capacity: f64) -> f64 {
    exchange * length / (mass_flow * heat_capacity)
}

/// [`transfer_units`].
pub const TRANSFER_UNITS: Formula = formula!(
    transfer_units: "N = k L / (m c)", HEAT_EXCHANGER,
    "N" "transfer units" NUMBER;
    exchange "k" "exchange with the walls per length, by film and radiation" CONDUCTIVITY,
    length "L" "length" LENGTH,
    mass_flow "m" "gas" MASS_FLOW,
    heat_capacity "c" "heat that the gas carries" HEAT_CAPACITY,
);

#[cfg(test)]
mod tests {
    use super::*;

    const DUCT: Duct = Duct {
        hydraulic_diameter: 0.19,
        length: 1.2,
        roughness: 0.003,
        laminar_friction: 57.0,
        laminar_nusselt: 2.98,
    };

    /// Air at 300 K as textbooks print it: k 0.0263 W/mK, nu 15.89e-6 m2/s, Pr 0.707. With 1 K and
    /// 1 m: Ra = 9.81/300 0.707/(15.89e-6)^2 = 9.16e7, Nu = 45.1, h = 1.19 W/m2K, where
    /// [`crate::physics::surface`] has 1.31 of a rounder formula.
    #[test]
    fn natural_convection_in_air_is_that_of_textbooks() {
        let rayleigh = 9.81 / 300.0 * 0.707 / (15.89e-6 * 15.89e-6);
        let film = libm::cbrt(natural_cube(rayleigh)) * 0.0263;
        assert!((film - 1.19).abs() < 0.005, "{film}");
    }

    /// Depew and August (1971, from memory) measured Nu = 1.75 [Gz + 0.12 (Gz Gr^(1/3) Pr^0.36)^0.88]^(1/3)
    /// in laminar tubes; here Gz = pi/4 Re Pr D/L = 1.07e2 and Gr = 6.5e6, as hot gas has them in a
    /// cool run: 1.75 (107 + 0.12 (107 x 187 x 0.88)^0.88)^(1/3) = 16.0.
    #[test]
    fn mixed_convection_is_near_what_was_measured_in_tubes() {
        let length_over_diameter = std::f64::consts::FRAC_PI_4 * 2200.0 * 0.7 / 107.0;
        let duct = Duct { length: length_over_diameter * DUCT.hydraulic_diameter, ..DUCT };
        let found = nusselt_mixed(&duct, natural_cube(6.5e6 * 0.7), 2200.0, 0.7);
        assert!((found / 16.0 - 1.0).abs() < 0.2, "{found}");
    }

    #[test]
    fn natural_convection_joins_by_cubes() {
        // A duct so long that its entrance does not count: 27 + 64 = 91.
        let duct = Duct { laminar_nusselt: 3.0, length: 1e12, ..DUCT };
        let stirred = nusselt_mixed(&duct, 64.0, 1000.0, 0.7);
        assert!((stirred * stirred * stirred - 91.0).abs() < 1e-2, "{stirred}");
        let still = nusselt(&duct, 1000.0, 0.7);
        assert!((still - 3.0).abs() < 1e-3, "{still}");
    }

    #[test]
    fn heat_transfer_and_friction_have_no_step() {
        for edge in [LAMINAR_END, TURBULENT_START] {
            let (below, above) = (edge - 1e-6, edge + 1e-6);
            assert!((nusselt(&DUCT, below, 0.7) - nusselt(&DUCT, above, 0.7)).abs() < 1e-5);
            assert!((DUCT.friction_factor(below) - DUCT.friction_factor(above)).abs() < 1e-7);
        }
    }
}
