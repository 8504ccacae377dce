//! A house that a heater warms: loss, heat of a day, wood for it, rise of the room.

use super::formula::{Formula, formula};
use crate::sources::{DEGREE_DAYS, EN_12831, ENERGY_BALANCE, HOUSE_TIME_CONSTANT, ISO_6946};

/// Seconds of a day (s).
pub const DAY: f64 = 86_400.0;

/// Loss of a house (W).
///
/// Q = C max(T_i - T_o, 0)
///
/// * `coefficient` (W/K): by walls and air, `room`, `outdoors` (K).
///
/// # Source
///
/// [`EN_12831`].
pub fn house_loss(coefficient: f64, room: f64, outdoors: f64) -> f64 {
    coefficient * (room - outdoors).max(0.0)
}

/// [`house_loss`].
pub const HOUSE_LOSS: Formula = formula!(
    house_loss: "Q = C max(T_i - T_o, 0)", EN_12831,
    "Q" "loss of the house" POWER;
    coefficient "C" "heat loss of the house per degree" HEAT_LOSS,
    room "T_i" "room" TEMPERATURE,
    outdoors "T_o" "outdoors" TEMPERATURE,
);

/// What a layer holds back (m2K/W).
///
/// R = d / lambda
///
/// * `thickness` (m), `conductivity` (W/mK).
///
/// # Source
///
/// [`ISO_6946`].
pub fn layer_resistance(thickness: f64, conductivity: f64) -> f64 {
    thickness / conductivity
}

/// [`layer_resistance`].
pub const LAYER_RESISTANCE: Formula = formula!(
    layer_resistance: "R = d / lambda", ISO_6946,
    "R" "resistance of a layer" RESISTANCE;
    thickness "d" "thickness" LENGTH,
    conductivity "lambda" "conductivity" CONDUCTIVITY,
);

/// Transmittance of a part of a house (W/m2K).
///
/// U = 1 / (R_si + R + R_se)
///
/// * `inside`, `layers`, `outside` (m2K/W): resistance of the inner surface, of all layers, of the
///   outer surface.
///
/// # Source
///
/// [`ISO_6946`], for layers that cover the whole part; studs, ties and joints count extra.
pub fn transmittance(inside: f64, layers: f64, outside: f64) -> f64 {
    1.0 / (inside + layers + outside)
}

/// [`transmittance`].
pub const TRANSMITTANCE: Formula = formula!(
    transmittance: "U = 1 / (R_si + R + R_se)", ISO_6946,
    "U" "transmittance" FILM;
    inside "R_si" "resistance of the inner surface" RESISTANCE,
    layers "R" "resistance of all layers" RESISTANCE,
    outside "R_se" "resistance of the outer surface" RESISTANCE,
);

/// Loss by air that is changed (W/K).
///
/// C = 0.34 n V
///
/// * `changes` (1/h), `volume` (m3): of the rooms that are warmed.
///
/// # Source
///
/// [`EN_12831`]: 1.2 kg/m3 times 1005 J/kgK over 3600 s is 0.335 Wh/m3K, rounded to 0.34.
pub fn air_loss(changes: f64, volume: f64) -> f64 {
    0.34 * changes * volume
}

/// Heat of a winter (J).
///
/// E = 86400 C D
///
/// * `coefficient` (W/K), `degree_days` (K d): sum of the differences between room and outdoors.
///
/// # Source
///
/// [`DEGREE_DAYS`].
pub fn winter_heat(coefficient: f64, degree_days: f64) -> f64 {
    DAY * coefficient * degree_days
}

/// [`winter_heat`].
pub const WINTER_HEAT: Formula = formula!(
    winter_heat: "E = 86400 C D", DEGREE_DAYS,
    "E" "heat of a winter" HEAT;
    coefficient "C" "heat loss of the house per degree" HEAT_LOSS,
    degree_days "D" "degree days" DIFFERENCE,
);

/// Heat of a day (J).
///
/// E = 86400 Q
///
/// * `power` (W): all day long.
///
/// # Source
///
/// Definition.
pub fn heat_of_a_day(power: f64) -> f64 {
    DAY * power
}

/// [`heat_of_a_day`].
pub const HEAT_OF_A_DAY: Formula = formula!(
    heat_of_a_day: "E = 86400 Q", ENERGY_BALANCE,
    "E" "heat that the house needs in a day" HEAT;
    power "Q" "loss of the house, all day long" POWER,
);

/// Useful heat of the wood of a day (J).
///
/// E = n m LHV e
///
/// * `firings` (–) of a day, `charge` (kg), `heating_value` (J/kg): lower, `efficiency` (–): on it.
///
/// # Source
///
/// [`ENERGY_BALANCE`].
pub fn wood_heat(firings: f64, charge: f64, heating_value: f64, efficiency: f64) -> f64 {
    charge * heating_value * efficiency * firings
}

/// [`wood_heat`].
pub const WOOD_HEAT: Formula = formula!(
    wood_heat: "E = n m LHV e", ENERGY_BALANCE,
    "E" "useful heat of a day" HEAT;
    firings "n" "firings in a day" NUMBER,
    charge "m" "charge of moist wood" MASS,
    heating_value "LHV" "lower heating value" SPECIFIC_HEAT,
    efficiency "e" "efficiency" NUMBER,
);

/// Charge that gives the heat of a day (kg).
///
/// m = E / (n LHV e)
///
/// * `heat` (J), `firings` (–) of a day, `heating_value` (J/kg): lower, `efficiency` (–): on it.
///
/// # Source
///
/// [`ENERGY_BALANCE`].
pub fn charge_for(heat: f64, firings: f64, heating_value: f64, efficiency: f64) -> f64 {
    heat / (firings * heating_value * efficiency)
}

/// [`charge_for`].
pub const CHARGE_FOR: Formula = formula!(
    charge_for: "m = E / (n LHV e)", ENERGY_BALANCE,
    "m" "charge that covers the day" MASS;
    heat "E" "heat that the house needs in a day" HEAT,
    firings "n" "firings in a day" NUMBER,
    heating_value "LHV" "lower heating value" SPECIFIC_HEAT,
    efficiency "e" "efficiency" NUMBER,
);

/// Firings that give the heat of a day, not rounded (–).
///
/// n = E / (m LHV e)
///
/// * `heat` (J), `charge` (kg), `heating_value` (J/kg): lower, `efficiency` (–): on it.
///
/// # Source
///
/// [`ENERGY_BALANCE`].
pub fn firings_for(heat: f64, charge: f64, heating_value: f64, efficiency: f64) -> f64 {
    heat / (charge * heating_value * efficiency)
}

/// [`firings_for`].
pub const FIRINGS_FOR: Formula = formula!(
    firings_for: "n = E / (m LHV e)", ENERGY_BALANCE,
    "n" "firings that cover the day" NUMBER;
    heat "E" "heat that the house needs in a day" HEAT,
    charge "m" "charge of moist wood" MASS,
    heating_value "LHV" "lower heating value" SPECIFIC_HEAT,
    efficiency "e" "efficiency" NUMBER,
);

/// Rise of a house (K), taken as one body, by heat of which it loses nothing meanwhile.
///
/// dT = E / (C tau)
///
/// * `surplus` (J): beyond the loss, `coefficient` (W/K): of the loss, `time_constant` (s): heat
///   that the house holds per degree over what it loses per degree.
///
/// # Source
///
/// [`HOUSE_TIME_CONSTANT`].
pub fn room_rise(surplus: f64, coefficient: f64, time_constant: f64) -> f64 {
    surplus / (coefficient * time_constant)
}

/// How much warmer than outdoors a house is (K), taken as one body, after it was heated for a while.
///
/// dT = q / C + (dT0 - q / C) e^(-t / tau)
///
/// * `before` (K): how much warmer it was, `heat` (W): all the while alike, `coefficient` (W/K): of
///   the loss, `time_constant` (s), `duration` (s). Exact for one body; a house is several, whose air
///   follows within minutes.
///
/// # Source
///
/// [`HOUSE_TIME_CONSTANT`].
pub fn house_after(
    before: f64,
    heat: f64,
    coefficient: f64,
    time_constant: f64,
    duration: f64,
) -> f64 {
    let settled = heat / coefficient;
    settled + (before - settled) * libm::exp(-duration / time_constant)
}

/// [`room_rise`].
pub const ROOM_RISE: Formula = formula!(
    room_rise: "dT = E / (C tau)", HOUSE_TIME_CONSTANT,
    "dT" "rise of the house as one body" DIFFERENCE;
    surplus "E" "heat beyond the loss" HEAT,
    coefficient "C" "heat loss of the house per degree" HEAT_LOSS,
    time_constant "tau" "time constant of the house" TIME,
);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn loss_and_wood_by_hand() {
        // 86 W/K at 35 K is 3010 W; 100 W/K at 36 K for a day are 311.04 MJ.
        assert!((house_loss(86.0, 293.15, 258.15) - 3010.0).abs() < 1e-9);
        assert!(house_loss(86.0, 293.15, 300.0).abs() < 1e-12, "a warm day loses nothing");
        let need = heat_of_a_day(house_loss(100.0, 293.15, 257.15));
        assert!((need - 311.04e6).abs() < 1.0);
        // At 15.13 MJ/kg and 80 %: 25.697 kg a day, in two firings 12.849 kg each.
        let charge = charge_for(need, 2.0, 15.13e6, 0.8);
        assert!((charge - 12.849).abs() < 5e-4, "{charge}");
        assert!((firings_for(need, charge, 15.13e6, 0.8) - 2.0).abs() < 1e-12);
        assert!((wood_heat(2.0, charge, 15.13e6, 0.8) / need - 1.0).abs() < 1e-12);
    }

    #[test]
    fn walls_and_winters_by_hand() {
        // 0.10 m of 0.04 W/mK hold back 2.5 m2K/W; with films of 0.13 and 0.04 that is 0.3745 W/m2K.
        let layer = layer_resistance(0.10, 0.04);
        assert!((layer - 2.5).abs() < 1e-12);
        assert!((transmittance(0.13, layer, 0.04) - 1.0 / 2.67).abs() < 1e-12);
        // Half an air change an hour of 200 m3: 34 W/K.
        assert!((air_loss(0.5, 200.0) - 34.0).abs() < 1e-12);
        // 100 W/K for 3000 K d are 25.92 GJ, 7200 kWh.
        assert!((winter_heat(100.0, 3000.0) - 25.92e9).abs() < 1.0);
    }

    /// After one time constant 1 - 1/e of the way is gone, after none nothing.
    #[test]
    fn a_heated_house_settles_by_hand() {
        // 2 kW into 100 W/K: 20 K in the end, 12.642 K after 60 h of a house of 60 h.
        let after = |hours: f64| house_after(0.0, 2000.0, 100.0, 216_000.0, 3600.0 * hours);
        assert!((after(60.0) - 12.642_411).abs() < 1e-6, "{}", after(60.0));
        assert!(after(0.0).abs() < 1e-12 && (after(1e5) - 20.0).abs() < 1e-9);
    }

    #[test]
    fn a_house_of_a_time_constant_rises_by_hand() {
        // 21.6 MJ in a house that loses 100 W/K and has 60 h: 100 W/K x 216 000 s = 21.6 MJ/K.
        assert!((room_rise(21.6e6, 100.0, 216_000.0) - 1.0).abs() < 1e-12);
    }
}
