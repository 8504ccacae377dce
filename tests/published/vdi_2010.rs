//! VDI Heat Atlas, 2nd edition (2010): refractories as carried by the ht library; laminar tube
//! with a thermal entrance, from memory, worked by hand.

use crate::{Check, Publication};
use longsmoke::design::material::Material;
use longsmoke::physics::convection::{NUSSELT_LAMINAR_ROUND, nusselt_laminar_entrance};
use longsmoke::sources::Trust;
use longsmoke::units::kelvin;

pub fn publication() -> Publication {
    let brick = Material::Fireclay.properties();
    let capacity = brick.volumetric_heat_capacity();
    let graetz = 1500.0 * 0.7 * 0.1;
    Publication {
        name: "VDI Heat Atlas (2010)",
        trust: Trust::Seen,
        checks: vec![
            Check::rounds_to(
                "fireclay at 400 °C, conductivity (W/mK)",
                brick.conductivity,
                "1.05",
            ),
            Check::rounds_to(
                "fireclay at 700 °C, between rows, conductivity (W/mK)",
                brick.conductivity_at(kelvin(700.0)),
                "1.125",
            ),
            Check::rounds_to(
                "fireclay at 1000 °C, conductivity (W/mK)",
                brick.conductivity_at(kelvin(1000.0)),
                "1.18",
            ),
            Check::rounds_to(
                "high-duty fireclay at 1200 °C, conductivity (W/mK)",
                Material::HighDutyFireclay.properties().conductivity_at(kelvin(1200.0)),
                "1.42",
            ),
            Check::rounds_to(
                "fireclay at 400 °C, heat capacity (J/kgK)",
                brick.specific_heat,
                "956",
            ),
            Check::rounds_to("fireclay, density (kg/m3)", brick.density, "2150"),
            Check::rounds_to(
                "fireclay, diffusivity (m2/s)",
                brick.conductivity / capacity,
                "5.11e-7",
            ),
            Check::rounds_to(
                "fireclay, effusivity (J/m2K s^0.5)",
                (brick.conductivity * capacity).sqrt(),
                "1469",
            ),
            Check::rounds_to(
                "laminar tube with entrance, Graetz number 105, from memory: Nusselt number",
                nusselt_laminar_entrance(NUSSELT_LAMINAR_ROUND, graetz),
                "7.25",
            ),
        ],
    }
}
