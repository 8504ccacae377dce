//! Gnielinski, Int. Chem. Eng. 16 (1976) 359-368, formula as read in an open library's
//! documentation: worked by hand with Konakov's friction factor, Pr 0.71.

use crate::{Check, Publication};
use longsmoke::physics::convection::nusselt_gnielinski;
use longsmoke::physics::pressure::friction_factor_konakov;
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    let rows = [
        (5000.0, 0.0, "16.23"),
        (10000.0, 0.0, "29.30"),
        (5000.0, 0.1, "19.72"),
        (10000.0, 0.1, "35.61"),
    ];
    let checks = rows.map(|(reynolds, diameter_over_length, printed)| {
        let friction = friction_factor_konakov(reynolds);
        let nusselt = nusselt_gnielinski(reynolds, 0.71, friction, diameter_over_length);
        let what = format!("Nusselt number, Re {reynolds}, D/L {diameter_over_length}");
        Check::rounds_to(what, nusselt.unwrap(), printed)
    });
    Publication {
        name: "Gnielinski, Int. Chem. Eng. 16 (1976) 359-368",
        trust: Trust::Seen,
        checks: checks.into(),
    }
}
