//! Hottel and Sarofim, "Radiative Transfer" (1967): mean beam length 3.6 V/A, from memory.

use crate::{Check, Publication};
use longsmoke::physics::radiation::mean_beam_length;
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    let duct = 0.20 * 0.18 / (2.0 * (0.20 + 0.18));
    Publication {
        name: "Hottel and Sarofim, Radiative Transfer (1967)",
        trust: Trust::Memory,
        checks: vec![
            Check::rounds_to("duct 0.20 x 0.18 m (m)", mean_beam_length(duct), "0.1705"),
            Check::rounds_to("cube of 1 m (m)", mean_beam_length(1.0 / 6.0), "0.6"),
            Check::rounds_to("plates 1 m apart (m)", mean_beam_length(0.5), "1.8"),
            Check::rounds_to("square duct of 1 m (m)", mean_beam_length(0.25), "0.9"),
        ],
    }
}
