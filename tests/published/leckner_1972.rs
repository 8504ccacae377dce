//! Leckner, Combustion and Flame 19 (1972) 33-48: worked by hand; overlap seen, constants from
//! memory.

use crate::{Check, Publication};
use longsmoke::physics::radiation::{
    Volume, emissivity_carbon_dioxide_leckner, emissivity_leckner, emissivity_water_leckner,
};
use longsmoke::sources::Trust;

const ATMOSPHERE: f64 = 101_325.0;

fn volume(water: f64, carbon_dioxide: f64, beam_length: f64) -> Volume {
    Volume {
        water_pressure: water * ATMOSPHERE,
        carbon_dioxide_pressure: carbon_dioxide * ATMOSPHERE,
        pressure: ATMOSPHERE,
        beam_length,
    }
}

pub fn publication() -> Publication {
    let furnace = emissivity_leckner(&volume(0.1, 0.1, 1.0), 1000.0);
    let duct = emissivity_leckner(&volume(0.075, 0.065, 0.16), 800.0);
    Publication {
        name: "Leckner, Combustion and Flame 19 (1972) 33-48",
        trust: Trust::Memory,
        checks: vec![
            Check::rounds_to(
                "water vapor at 1000 K, 10 bar cm",
                emissivity_water_leckner(10.0, 1000.0),
                "0.1401",
            ),
            Check::rounds_to(
                "carbon dioxide at 1000 K, 10 bar cm",
                emissivity_carbon_dioxide_leckner(10.0, 1000.0),
                "0.1146",
            ),
            Check::rounds_to(
                "1000 K, 0.1 and 0.1 atm, 1 m: water vapor",
                furnace.water,
                "0.1514",
            ),
            Check::rounds_to(
                "1000 K, 0.1 and 0.1 atm, 1 m: carbon dioxide",
                furnace.carbon_dioxide,
                "0.1150",
            ),
            Check::rounds_to(
                "1000 K, 0.1 and 0.1 atm, 1 m: overlap",
                furnace.overlap,
                "0.0171",
            ),
            Check::rounds_to(
                "1000 K, 0.1 and 0.1 atm, 1 m: mixture",
                furnace.total(),
                "0.2493",
            ),
            Check::rounds_to(
                "duct gas, 800 K, 0.075 and 0.065 atm, 0.16 m: mixture",
                duct.total(),
                "0.1054",
            ),
        ],
    }
}
