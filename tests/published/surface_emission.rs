//! Textbook form of the heat given off by a vertical face, q = sigma e (T_s^4 - T_r^4) +
//! 1.31 (T_s - T_r)^(4/3), from memory; worked by hand for emissivity 0.93 in a room of 20 °C.

use crate::{Check, Publication};
use longsmoke::physics::surface::emission;
use longsmoke::sources::Trust;
use longsmoke::units::kelvin;

pub fn publication() -> Publication {
    let from = |surface: f64| emission(0.93, kelvin(surface), kelvin(20.0));
    let rows = [
        (40.0, "189"),
        (50.0, "308"),
        (60.0, "439.4"),
        (70.0, "583"),
        (80.0, "739"),
        (90.0, "906"),
        (100.0, "1085"),
    ];
    let mut checks: Vec<Check> = rows
        .into_iter()
        .map(|(surface, printed)| {
            let what = format!("face at {surface} °C (W/m2)");
            let check = Check::rounds_to(what, from(surface), printed);
            match printed {
                "739" => check.differs("by hand 430.77 + 307.71 = 738.48: a slip of rounding"),
                _ => check,
            }
        })
        .collect();
    checks.push(Check::rounds_to("film at 60 °C (W/m2K)", from(60.0) / 40.0, "10.98"));
    Publication {
        name: "Radiation and natural convection of a vertical face, textbook form",
        trust: Trust::Memory,
        checks,
    }
}
