//! Sutherland (1893), viscosity of gases, with constants as printed by Tan, "Air Pollution and
//! Greenhouse Gases", table 2.2: values worked by hand from them.

use super::gri_mech_1999::pure;
use crate::{Check, Publication};
use longsmoke::physics::air::DRY_AIR;
use longsmoke::physics::gas::{Gas, Species};
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    let reason = "Sutherland's formula is within 2 % of measurements";
    let check = |name: &str, gas: &Gas, printed| {
        let what = format!("{name}, viscosity at 500 K (Pa s)");
        Check::within(what, gas.viscosity(500.0), printed, 0.02, reason)
    };
    Publication {
        name: "Sutherland (1893), constants of Tan, table 2.2",
        trust: Trust::Seen,
        checks: vec![
            check("air", &Gas::new(DRY_AIR), "2.727e-5"),
            check("nitrogen", &pure(Species::Nitrogen), "2.574e-5"),
            check("carbon dioxide", &pure(Species::CarbonDioxide), "2.375e-5"),
        ],
    }
}
