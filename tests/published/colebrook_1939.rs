//! Colebrook, J. Inst. Civ. Eng. 11 (1939) 133-156; Haaland, J. Fluids Eng. 105 (1983) 89-90;
//! Konakov (1946). Formulas from memory, worked by hand for Re 5000 and e/D 0.0111.

use crate::{Check, Publication};
use longsmoke::physics::pressure::{
    friction_factor_colebrook, friction_factor_haaland, friction_factor_konakov,
};
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    Publication {
        name: "Colebrook (1939), Haaland (1983), Konakov (1946)",
        trust: Trust::Memory,
        checks: vec![
            Check::rounds_to(
                "Colebrook, Re 5000, e/D 0.0111",
                friction_factor_colebrook(5000.0, 0.0111).unwrap(),
                "0.0482",
            ),
            Check::rounds_to(
                "Haaland, Re 5000, e/D 0.0111",
                friction_factor_haaland(5000.0, 0.0111),
                "0.0483",
            ),
            Check::rounds_to(
                "fully rough end of Colebrook, e/D 0.0111",
                friction_factor_colebrook(1e8, 0.0111).unwrap(),
                "0.0392",
            )
            .differs(
                "worked with 1.14 + 2 log10(D/e); Colebrook's 3.7 makes it 1.136, by hand 0.03928",
            ),
            Check::rounds_to("Konakov, Re 5000", friction_factor_konakov(5000.0), "0.0376"),
        ],
    }
}
