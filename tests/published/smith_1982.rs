//! Smith, Shen and Friedman, "Evaluation of coefficients for the weighted sum of gray gases
//! model", J. Heat Transfer 104 (1982) 602-608, table 1: worked by hand from the printed
//! coefficients for equal parts of water vapor and carbon dioxide.

use crate::{Check, Publication};
use longsmoke::physics::radiation::emissivity_smith;
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    // 0.075 and 0.065 atm over 0.16 m.
    let duct = emissivity_smith(0.140 * 0.16, 800.0).unwrap();
    Publication {
        name: "Smith, Shen and Friedman, J. Heat Transfer 104 (1982) 602-608",
        trust: Trust::Seen,
        checks: vec![
            Check::rounds_to(
                "emissivity at 1000 K, 0.2 atm m",
                emissivity_smith(0.2, 1000.0).unwrap(),
                "0.2600",
            ),
            Check::rounds_to("emissivity of duct gas, 800 K, 0.0224 atm m", duct, "0.1127"),
        ],
    }
}
