//! Wood as a fuel: heating value, air, flue gas, flame temperature.

use super::air::DRY_AIR;
use super::gas::{Composition, Gas, MOLAR_MASS, Species, molar_mass, sensible_enthalpy};

/// Atomic masses of carbon, hydrogen, nitrogen and oxygen (kg/mol).
const CARBON: f64 = 0.012011;
const HYDROGEN: f64 = 0.00100794;
const NITROGEN_ATOM: f64 = 0.0140067;
const OXYGEN_ATOM: f64 = 0.0159994;
/// Heat of vaporization in the net heating value (J/kg of water).
const VAPORIZATION: f64 = 2.447e6;
/// Water made from hydrogen (kg/kg).
const WATER_PER_HYDROGEN: f64 = 9.01;

/// Elements of dry wood as mass fractions (–).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ultimate {
    /// Carbon.
    pub carbon: f64,
    /// Hydrogen.
    pub hydrogen: f64,
    /// Oxygen.
    pub oxygen: f64,
    /// Nitrogen.
    pub nitrogen: f64,
    /// Ash.
    pub ash: f64,
}

/// What a kilogram of moist wood becomes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlueGas {
    /// Mole fractions of the wet flue gas.
    pub composition: Composition,
    /// Dry air taken in (kg per kg of moist wood).
    pub air_per_fuel: f64,
    /// Wet flue gas given off (kg per kg of moist wood).
    pub gas_per_fuel: f64,
}

/// Moisture on the dry basis from moisture on the wet basis (–).
///
/// u = w / (1 - w)
///
/// # Source
///
/// Definition.
pub fn dry_basis(moisture_fraction: f64) -> f64 {
    moisture_fraction / (1.0 - moisture_fraction)
}

/// Higher heating value of dry wood (J/kg).
///
/// HHV = 0.3491 C + 1.1783 H + 0.1005 S - 0.1034 O - 0.0151 N - 0.0211 ash (MJ/kg, mass %)
///
/// # Source
///
/// [`crate::sources::CHANNIWALA_PARIKH_2002`].
pub fn higher_heating_value(wood: &Ultimate) -> f64 {
    let percent = 0.3491 * wood.carbon + 1.1783 * wood.hydrogen
        - 0.1034 * wood.oxygen
        - 0.0151 * wood.nitrogen
        - 0.0211 * wood.ash;
    percent * 100.0 * 1e6
}

/// Lower heating value of moist wood at 25 C (J/kg of moist wood).
///
/// LHV = HHV (1 - w) - 2.447 w - 2.447 9.01 H (1 - w)
///
/// * `moisture_fraction` (–): wet basis.
///
/// # Source
///
/// [`crate::sources::NET_HEATING_VALUE`].
pub fn lower_heating_value(wood: &Ultimate, moisture_fraction: f64) -> f64 {
    let dry = 1.0 - moisture_fraction;
    higher_heating_value(wood) * dry
        - VAPORIZATION * (moisture_fraction + WATER_PER_HYDROGEN * wood.hydrogen * dry)
}

/// Oxygen for complete combustion (mol per kg of dry wood).
///
/// n = C/12.011 + H/4.032 - O/31.999
///
/// # Source
///
/// Element balance.
pub fn stoichiometric_oxygen(wood: &Ultimate) -> f64 {
    wood.carbon / CARBON + wood.hydrogen / (4.0 * HYDROGEN) - wood.oxygen / (2.0 * OXYGEN_ATOM)
}

/// Flue gas of complete combustion.
///
/// Element balance for carbon, hydrogen, oxygen, nitrogen; dry air.
///
/// * `moisture_fraction` (–): wet basis.
/// * `excess_air_ratio` (–): at least 1.
///
/// # Source
///
/// Element balance.
pub fn flue_gas(wood: &Ultimate, moisture_fraction: f64, excess_air_ratio: f64) -> FlueGas {
    let dry = 1.0 - moisture_fraction;
    let oxygen_need = stoichiometric_oxygen(wood) * dry;
    let air = excess_air_ratio * oxygen_need / DRY_AIR.fraction(Species::Oxygen);
    let amounts = [
        air * DRY_AIR.fraction(Species::Nitrogen) + dry * wood.nitrogen / (2.0 * NITROGEN_ATOM),
        (excess_air_ratio - 1.0) * oxygen_need,
        air * DRY_AIR.fraction(Species::CarbonDioxide) + dry * wood.carbon / CARBON,
        dry * wood.hydrogen / (2.0 * HYDROGEN) + moisture_fraction / molar_mass(Species::Water),
        air * DRY_AIR.fraction(Species::Argon),
    ];
    FlueGas {
        composition: Composition::new(amounts),
        air_per_fuel: air * DRY_AIR.molar_mass(),
        gas_per_fuel: amounts.iter().zip(MOLAR_MASS).map(|(n, m)| n * m).sum(),
    }
}

/// Adiabatic flame temperature of complete combustion without dissociation (K).
///
/// LHV + air (h(T_air) - h(298.15)) = gas (h(T) - h(298.15))
///
/// * `lower_heating_value` (J/kg of moist wood), `air_temperature` (K).
///
/// # Source
///
/// Energy balance. Without dissociation it is high by 50 K and more below an excess air of 1.3.
pub fn flame_temperature(
    flue_gas: &FlueGas,
    gas: &Gas,
    lower_heating_value: f64,
    air_temperature: f64,
) -> f64 {
    let air = sensible_enthalpy(&DRY_AIR, air_temperature);
    let heat = lower_heating_value + flue_gas.air_per_fuel * air;
    gas.temperature(heat / flue_gas.gas_per_fuel)
}
