//! Gas that cools in connector and chimney, as the chimney standard has it.

use crate::units::celsius;

const MOST_ROUNDS: u32 = 20;
/// On the mean temperature (K).
const TOLERANCE: f64 = 1e-3;
/// On the root of the inverse friction factor (–).
const ROOT_TOLERANCE: f64 = 1e-7;
/// Least Reynolds number in the formulas (–).
const LEAST_REYNOLDS: f64 = 2300.0;

/// Share of the wall's resistance that counts where the pull is checked (–).
///
/// # Source
///
/// [`crate::sources::EN_13384_COOLING`].
pub const INSTABILITY_PRESSURE: f64 = 0.5;
/// Share of the wall's resistance that counts where its temperature is checked (–).
///
/// # Source
///
/// [`crate::sources::EN_13384_COOLING`].
pub const INSTABILITY_TEMPERATURE: f64 = 1.0;

/// Conductivity of the gas (W/mK).
///
/// 0.0223 + 0.000065 t, t in °C
///
/// * `temperature` (K).
///
/// # Source
///
/// [`crate::sources::EN_13384_COOLING`].
pub fn gas_conductivity(temperature: f64) -> f64 {
    0.0223 + 0.000065 * celsius(temperature)
}

/// Dynamic viscosity of the gas (Pa s).
///
/// 15e-6 + 47e-9 t - 20e-12 t2, t in °C
///
/// * `temperature` (K).
///
/// # Source
///
/// [`crate::sources::EN_13384_COOLING`].
pub fn gas_viscosity(temperature: f64) -> f64 {
    let t = celsius(temperature);
    15e-6 + t * (47e-9 - 20e-12 * t)
}

/// Friction factor (–).
///
/// 1/sqrt f = -2 log10\[2.51/(Re sqrt f) + r/(3.71 D)\]
///
/// * `reynolds` (–): 2300 below 2300.
/// * `relative_roughness` (–): mean roughness over hydraulic diameter.
///
/// # Source
///
/// [`crate::sources::EN_13384_COOLING`].
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> f64 {
    let reynolds = reynolds.max(LEAST_REYNOLDS);
    let mut root = 6.0;
    for _ in 0..MOST_ROUNDS {
        let next = -2.0 * libm::log10(2.51 * root / reynolds + relative_roughness / 3.71);
        let change: f64 = next - root;
        root = next;
        if change.abs() < ROOT_TOLERANCE {
            break;
        }
    }
    1.0 / (root * root)
}

/// Nusselt number inside a flue (–).
///
/// Nu = (f/f_smooth)^0.67 0.0214 (Re^0.8 - 100) Pr^0.4 \[1 + (D/L)^0.67\]
///
/// * `reynolds` (–): 2300 to 1e7; 2300 below.
/// * `prandtl` (–): 0.6 to 1.5.
/// * `relative_roughness` (–): the friction ratio counts up to 3.
/// * `diameter_over_length` (–): of the whole flue.
///
/// # Source
///
/// [`crate::sources::EN_13384_COOLING`].
pub fn nusselt(
    reynolds: f64,
    prandtl: f64,
    relative_roughness: f64,
    diameter_over_length: f64,
) -> f64 {
    let reynolds = reynolds.max(LEAST_REYNOLDS);
    let smooth = friction_factor(reynolds, 0.0);
    let ratio = (friction_factor(reynolds, relative_roughness) / smooth).min(3.0);
    libm::pow(ratio, 0.67)
        * 0.0214
        * (libm::pow(reynolds, 0.8) - 100.0)
        * libm::pow(prandtl, 0.4)
        * (1.0 + libm::pow(diameter_over_length, 0.67))
}

/// A flue and what flows in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flue {
    /// Gas (kg/s).
    pub mass_flow: f64,
    /// Heat capacity of the gas (J/kgK).
    pub heat_capacity: f64,
    /// Free area (m2).
    pub area: f64,
    /// Hydraulic diameter (m).
    pub hydraulic_diameter: f64,
    /// Mean roughness (m).
    pub roughness: f64,
    /// From its inlet to its mouth (m).
    pub whole_length: f64,
}

/// What a part of a flue is built of and stands in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Around {
    /// Of wall and outside film, related to the inner surface (m2K/W).
    pub resistance: f64,
    /// Share of that resistance that counts (–).
    pub instability: f64,
    /// Surroundings (K).
    pub ambient: f64,
}

/// Gas through a part of a flue.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooling {
    /// Mean over the length (K).
    pub mean: f64,
    /// At the end (K).
    pub end: f64,
    /// Film between gas and wall (W/m2K).
    pub inner_film: f64,
    /// From gas to surroundings (W/m2K).
    pub overall: f64,
    /// Inner wall surface at the end (K).
    pub wall: f64,
}

impl Flue {
    /// Film between gas and wall at the mean temperature of the gas (W/m2K).
    ///
    /// alpha = lambda Nu / D
    ///
    /// # Source
    ///
    /// [`crate::sources::EN_13384_COOLING`].
    pub fn inner_film(&self, mean: f64) -> f64 {
        let diameter = self.hydraulic_diameter;
        let viscosity = gas_viscosity(mean);
        let reynolds = self.mass_flow * diameter / (self.area * viscosity);
        let conductivity = gas_conductivity(mean);
        let prandtl = viscosity * self.heat_capacity / conductivity;
        let number = nusselt(
            reynolds,
            prandtl,
            self.roughness / diameter,
            diameter / self.whole_length.max(diameter),
        );
        conductivity * number / diameter
    }

    /// Gas after a part of the flue.
    ///
    /// T_o = T_u + (T_e - T_u) exp(-K), T_m = T_u + (T_e - T_u) (1 - exp(-K))/K, K = U k L/(m c),
    /// k = 1/(1/alpha + S R), wall T_o - k/alpha (T_o - T_u)
    ///
    /// * `length` (m), `inlet` (K).
    ///
    /// # Source
    ///
    /// [`crate::sources::EN_13384_COOLING`].
    pub fn cooled(&self, around: &Around, length: f64, inlet: f64) -> Cooling {
        let Around { resistance, instability, ambient } = *around;
        let perimeter = 4.0 * self.area / self.hydraulic_diameter;
        let at = |mean: f64| {
            let inner_film = self.inner_film(mean);
            let overall = 1.0 / (1.0 / inner_film + instability * resistance);
            let number = perimeter * overall * length / (self.mass_flow * self.heat_capacity);
            let drop = -libm::expm1(-number);
            // The mean of a part without length is its inlet.
            let share = if number < 1e-9 { 1.0 } else { drop / number };
            let end = inlet - (inlet - ambient) * drop;
            Cooling {
                mean: ambient + (inlet - ambient) * share,
                end,
                inner_film,
                overall,
                wall: end - overall / inner_film * (end - ambient),
            }
        };
        // The film depends little on the temperature at which it is taken.
        let mut cooling = at(inlet);
        for _ in 0..MOST_ROUNDS {
            let next = at(cooling.mean);
            let change = next.mean - cooling.mean;
            cooling = next;
            if change.abs() < TOLERANCE {
                break;
            }
        }
        cooling
    }
}
