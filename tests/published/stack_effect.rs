//! Stack effect in its common SI form, dP = 0.0342 p h (1/T_o - 1/T_i), as read.

use crate::{Check, Publication};
use longsmoke::physics::GRAVITY;
use longsmoke::physics::air::{SEA_LEVEL_PRESSURE, density};
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    let difference = density(SEA_LEVEL_PRESSURE, 273.15) - density(SEA_LEVEL_PRESSURE, 453.15);
    Publication {
        name: "Stack effect, SI form with 0.0342 K/m",
        trust: Trust::Seen,
        checks: vec![Check::within(
            "6 m of air at 180 °C against 0 °C (Pa)",
            GRAVITY * 6.0 * difference,
            "30.24",
            0.0015,
            "the constant has three digits",
        )],
    }
}
