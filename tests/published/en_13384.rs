//! EN 13384-1, chimneys: water dew point of the flue gas at 97000 Pa, and gas that cools in a
//! chimney. The formulas are from memory, the numbers worked apart from this code.

use crate::{Check, Publication};
use longsmoke::analysis::standard_route::cooling::{
    Around, Flue, INSTABILITY_PRESSURE, INSTABILITY_TEMPERATURE, friction_factor,
    gas_conductivity, gas_viscosity, nusselt,
};
use longsmoke::physics::vapor::dew_point;
use longsmoke::sources::Trust;
use longsmoke::units::{celsius, kelvin};

fn dew_points() -> Vec<Check> {
    let rows = [("6.36", "36.7"), ("9.62", "44.5"), ("11.81", "48.5"), ("15.0", "53.4")];
    rows.into_iter()
        .map(|(percent, printed)| {
            let share = percent.parse::<f64>().unwrap() / 100.0;
            Check::rounds_to(
                format!("dew point at {percent} % water vapor (°C)"),
                celsius(dew_point(share * 97_000.0)),
                printed,
            )
        })
        .collect()
}

/// 0.0525 kg/s at 180 °C into 6 m of a round flue of 180 mm, 0.12 m2K/W, outer diameter 300 mm
/// with 8 W/m2K, roughness 1.5 mm, surroundings at 15 °C, 1045 J/kgK.
fn cooling() -> Vec<Check> {
    let diameter: f64 = 0.18;
    let flue = Flue {
        mass_flow: 0.0525,
        heat_capacity: 1045.0,
        area: std::f64::consts::PI / 4.0 * diameter * diameter,
        hydraulic_diameter: diameter,
        roughness: 0.0015,
        whole_length: 6.0,
    };
    let around = |instability| Around {
        resistance: 0.12 + diameter / (0.30 * 8.0),
        instability,
        ambient: kelvin(15.0),
    };
    let pull = flue.cooled(&around(INSTABILITY_PRESSURE), 6.0, kelvin(180.0));
    let wall = flue.cooled(&around(INSTABILITY_TEMPERATURE), 6.0, kelvin(180.0));
    let viscosity = gas_viscosity(pull.mean);
    let reynolds = flue.mass_flow * diameter / (flue.area * viscosity);
    let prandtl = viscosity * flue.heat_capacity / gas_conductivity(pull.mean);
    let relative = flue.roughness / diameter;
    vec![
        Check::rounds_to("at 200 °C: conductivity", gas_conductivity(kelvin(200.0)), "0.0353"),
        Check::rounds_to("at 200 °C: viscosity", gas_viscosity(kelvin(200.0)), "2.360e-5"),
        Check::rounds_to("Reynolds number, in tens", reynolds / 10.0, "1701"),
        Check::rounds_to("Prandtl number", prandtl, "0.7037"),
        Check::rounds_to("friction factor", friction_factor(reynolds, relative), "0.0392"),
        Check::rounds_to(
            "Nusselt number",
            nusselt(reynolds, prandtl, relative, diameter / flue.whole_length),
            "60.90",
        ),
        Check::rounds_to("inner film (W/m2K)", pull.inner_film, "10.97"),
        Check::rounds_to("overall coefficient (W/m2K)", pull.overall, "5.300"),
        Check::rounds_to("mean gas (°C)", celsius(pull.mean), "155.7"),
        Check::rounds_to("gas at the mouth (°C)", celsius(pull.end), "133.9"),
        Check::rounds_to("overall coefficient, wall (W/m2K)", wall.overall, "3.494").differs(
            "the number keeps the inner film of the pressure check, 10.97 W/m2K; here the film \
             follows the warmer gas of the temperature check",
        ),
        Check::rounds_to("gas at the mouth, wall (°C)", celsius(wall.end), "147.9"),
        Check::rounds_to("wall at the mouth (°C)", celsius(wall.wall), "105.6"),
    ]
}

pub fn publication() -> Publication {
    let mut checks = dew_points();
    checks.extend(cooling());
    Publication {
        name: "EN 13384-1, formulas from memory, numbers worked apart",
        trust: Trust::Memory,
        checks,
    }
}
