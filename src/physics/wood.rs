//! Wood as a fuel: heating value, air, flue gas, flame temperature.

use super::air::DRY_AIR;
use super::formula::{Formula, formula};
use super::gas::{Composition, Gas, MOLAR_MASS, Species, molar_mass, sensible_enthalpy};
use crate::sources::{
    CHANNIWALA_PARIKH_2002, ELEMENT_BALANCE, ENERGY_BALANCE, NET_HEATING_VALUE,
};

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
/// HHV = 0.3491 C + 1.1783 H + 0.1005 S - 0.1034 O - 0.0151 N - 0.0211 ash (MJ/kg, mass %), which
/// without sulfur and in mass fractions is, in J/kg,
///
/// HHV = 1e8 (0.3491 C + 1.1783 H - 0.1034 O - 0.0151 N - 0.0211 ash)
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

/// [`higher_heating_value`], the elements as mass fractions and the result in J/kg.
pub const HIGHER_HEATING_VALUE: Formula = formula!(
    higher_heating_value by
        |carbon, hydrogen, oxygen, nitrogen, ash| {
            let wood = Ultimate { carbon, hydrogen, oxygen, nitrogen, ash };
            higher_heating_value(&wood)
        },
    "HHV = 1e8 (0.3491 C + 1.1783 H - 0.1034 O - 0.0151 N - 0.0211 ash)",
    CHANNIWALA_PARIKH_2002,
    "HHV" "higher heating value of the dry wood" SPECIFIC_HEAT;
    carbon "C" "carbon in dry wood" NUMBER,
    hydrogen "H" "hydrogen" NUMBER,
    oxygen "O" "oxygen" NUMBER,
    nitrogen "N" "nitrogen" NUMBER,
    ash "ash" "ash" NUMBER,
);

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
    net_heating_value(higher_heating_value(wood), moisture_fraction, wood.hydrogen)
}

/// Lower heating value of moist wood from the higher one of the dry wood (J/kg of moist wood).
///
/// LHV = HHV (1 - w) - 2.447e6 (w + 9.01 H (1 - w))
///
/// * `higher` (J/kg of dry wood), `moisture_fraction` (–): wet basis, `hydrogen` (–): in dry wood.
///
/// # Source
///
/// [`NET_HEATING_VALUE`].
pub fn net_heating_value(higher: f64, moisture_fraction: f64, hydrogen: f64) -> f64 {
    let dry = 1.0 - moisture_fraction;
    higher * dry - VAPORIZATION * (moisture_fraction + WATER_PER_HYDROGEN * hydrogen * dry)
}

/// [`net_heating_value`].
pub const NET_HEAT: Formula = formula!(
    net_heating_value: "LHV = HHV (1 - w) - 2.447e6 (w + 9.01 H (1 - w))", NET_HEATING_VALUE,
    "LHV" "lower heating value of the moist wood" SPECIFIC_HEAT;
    higher "HHV" "higher heating value of the dry wood" SPECIFIC_HEAT,
    moisture_fraction "w" "water over moist mass" NUMBER,
    hydrogen "H" "hydrogen in dry wood" NUMBER,
);

/// Heat of wood that burns (W).
///
/// Q = m LHV
///
/// * `rate` (kg/s): moist wood, `heating_value` (J/kg): lower.
///
/// # Source
///
/// [`ENERGY_BALANCE`].
pub fn fire_power(rate: f64, heating_value: f64) -> f64 {
    rate * heating_value
}

/// [`fire_power`].
pub const FIRE_POWER: Formula = formula!(
    fire_power: "Q = m LHV", ENERGY_BALANCE,
    "Q" "heat of the wood" POWER;
    rate "m" "moist wood that burns" MASS_FLOW,
    heating_value "LHV" "lower heating value of the moist wood" SPECIFIC_HEAT,
);

/// Share of the heat of the wood that does not leave with the gas (–).
///
/// e = 1 - Q_g/Q_w - u
///
/// * `stack` (W): gas above room temperature, `wood` (W): heat of the wood, `unburned` (–).
///
/// # Source
///
/// [`ENERGY_BALANCE`].
pub fn useful_share(stack: f64, wood: f64, unburned: f64) -> f64 {
    1.0 - stack / wood - unburned
}

/// [`useful_share`].
pub const USEFUL_SHARE: Formula = formula!(
    useful_share: "e = 1 - Q_g/Q_w - u", ENERGY_BALANCE,
    "e" "efficiency on the lower heating value" NUMBER;
    stack "Q_g" "heat of the gas above room temperature, out of the runs" POWER,
    wood "Q_w" "heat of the wood" POWER,
    unburned "u" "share that stays unburned" NUMBER,
);

/// The same share of the higher heating value (–).
///
/// e_h = e LHV/HHV
///
/// * `share` (–): of the lower heating value; `lower`, `higher` (J/kg of moist wood).
///
/// # Source
///
/// Definition.
pub fn share_of_higher(share: f64, lower: f64, higher: f64) -> f64 {
    share * lower / higher
}

/// [`share_of_higher`].
pub const SHARE_OF_HIGHER: Formula = formula!(
    share_of_higher: "e_h = e LHV/HHV", ENERGY_BALANCE,
    "e_h" "efficiency on the higher heating value" NUMBER;
    share "e" "efficiency on the lower heating value" NUMBER,
    lower "LHV" "lower heating value of the moist wood" SPECIFIC_HEAT,
    higher "HHV" "higher heating value of the moist wood" SPECIFIC_HEAT,
);

/// Oxygen for complete combustion (mol per kg of dry wood).
///
/// n = C/0.012011 + H/0.00403176 - O/0.0319988
///
/// # Source
///
/// Element balance.
pub fn stoichiometric_oxygen(wood: &Ultimate) -> f64 {
    wood.carbon / CARBON + wood.hydrogen / (4.0 * HYDROGEN) - wood.oxygen / (2.0 * OXYGEN_ATOM)
}

/// [`stoichiometric_oxygen`].
pub const STOICHIOMETRIC_OXYGEN: Formula = formula!(
    stoichiometric_oxygen by
        |carbon, hydrogen, oxygen| {
            let wood = Ultimate { carbon, hydrogen, oxygen, nitrogen: 0.0, ash: 0.0 };
            stoichiometric_oxygen(&wood)
        },
    "n = C/0.012011 + H/0.00403176 - O/0.0319988", ELEMENT_BALANCE,
    "n" "oxygen that dry wood needs" AMOUNT;
    carbon "C" "carbon in dry wood" NUMBER,
    hydrogen "H" "hydrogen" NUMBER,
    oxygen "O" "oxygen" NUMBER,
);

/// Air over what the wood needs (–).
///
/// a = m_a / (m_w (1 - w) n M_a / 0.20946)
///
/// * `air`, `wood` (kg/s), `moisture_fraction` (–): wet basis, `oxygen` (mol per kg of dry wood),
///   `molar_mass` (kg/mol): of air.
///
/// # Source
///
/// [`ELEMENT_BALANCE`].
pub fn excess_air(
    air: f64,
    wood: f64,
    moisture_fraction: f64,
    oxygen: f64,
    molar_mass: f64,
) -> f64 {
    let needed = (1.0 - moisture_fraction) * oxygen * molar_mass;
    air / (wood * needed / DRY_AIR.fraction(Species::Oxygen))
}

/// [`excess_air`].
pub const EXCESS_AIR: Formula = formula!(
    excess_air: "a = m_a / (m_w (1 - w) n M_a / 0.20946)", ELEMENT_BALANCE,
    "a" "excess air" NUMBER;
    air "m_a" "combustion air" MASS_FLOW,
    wood "m_w" "moist wood that burns" MASS_FLOW,
    moisture_fraction "w" "water over moist mass" NUMBER,
    oxygen "n" "oxygen that dry wood needs" AMOUNT,
    molar_mass "M_a" "molar mass of air" MOLAR_MASS,
);

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
