//! Bergman, Lavine, Incropera and DeWitt, "Fundamentals of Heat and Mass Transfer", 7th edition
//! (2011), table A.4, air at atmospheric pressure. From memory.

use crate::{Check, Publication};
use longsmoke::physics::air::{DRY_AIR, SEA_LEVEL_PRESSURE, density};
use longsmoke::physics::gas::Gas;
use longsmoke::sources::Trust;

/// Temperature (K), density (kg/m3), heat capacity (kJ/kgK), viscosity (1e-7 Pa s),
/// conductivity (1e-3 W/mK).
const TABLE_A4: [(f64, [&str; 4]); 5] = [
    (300.0, ["1.1614", "1.007", "184.6", "26.3"]),
    (400.0, ["0.8711", "1.014", "230.1", "33.8"]),
    (500.0, ["0.6964", "1.030", "270.1", "40.7"]),
    (600.0, ["0.5804", "1.051", "305.8", "46.9"]),
    (1000.0, ["0.3482", "1.141", "424.4", "66.7"]),
];

pub fn publication() -> Publication {
    let air = Gas::new(DRY_AIR);
    let mut checks = Vec::new();
    for (t, [rho, capacity, viscosity, conductivity]) in TABLE_A4 {
        let what = |name: &str| format!("table A.4, air at {t} K: {name}");
        let reason = "the table is of about 1970";
        checks.extend([
            Check::within(
                what("density (kg/m3)"),
                density(SEA_LEVEL_PRESSURE, t),
                rho,
                0.015,
                "the table's pressure is not quite one atmosphere",
            ),
            Check::within(
                what("heat capacity (kJ/kgK)"),
                air.heat_capacity(t) / 1e3,
                capacity,
                0.005,
                reason,
            ),
            Check::within(
                what("viscosity (1e-7 Pa s)"),
                air.viscosity(t) * 1e7,
                viscosity,
                0.02,
                reason,
            ),
            Check::within(
                what("conductivity (1e-3 W/mK)"),
                air.conductivity(t) * 1e3,
                conductivity,
                0.05,
                reason,
            ),
        ]);
    }
    Publication {
        name: "Bergman and others, Fundamentals of Heat and Mass Transfer (2011), table A.4",
        trust: Trust::Memory,
        checks,
    }
}
