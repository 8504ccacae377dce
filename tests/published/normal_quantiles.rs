//! Shares and quantiles of the normal distribution as they are printed everywhere.

use crate::{Check, Publication};
use longsmoke::sources::Trust;
use longsmoke::study::uncertainty::normal::{deviations, probability};

/// Share below, deviations to five places: table 26.5.
const TABLE: [(f64, &str); 8] = [
    (0.50, "0.00000"),
    (0.75, "0.67449"),
    (0.90, "1.28155"),
    (0.95, "1.64485"),
    (0.975, "1.95996"),
    (0.99, "2.32635"),
    (0.995, "2.57583"),
    (0.999, "3.09023"),
];

/// The algorithm's own check values, with all the digits of a double.
const PRINTED: [(f64, &str); 3] = [
    (0.25, "-0.6744897501960817"),
    (0.001, "-3.090232306167814"),
    (1e-20, "-9.262340089798408"),
];

/// Deviations, share below: table 26.1.
const SHARES: [(f64, &str); 4] = [
    (0.0, "0.500000000000000"),
    (1.0, "0.841344746068543"),
    (2.0, "0.977249868051821"),
    (3.0, "0.998650101968370"),
];

pub fn publication() -> Publication {
    let places = TABLE.iter().flat_map(|(share, printed)| {
        let name = |share: f64| format!("deviations below which {share} lie (–)");
        let mirrored =
            if *printed == "0.00000" { "0.00000".into() } else { format!("-{printed}") };
        [
            Check::rounds_to(name(*share), deviations(*share), printed),
            Check::rounds_to(name(1.0 - share), deviations(1.0 - share), &mirrored),
        ]
    });
    let reason = "a double holds 16 digits, of which the share takes up some";
    let printed = PRINTED.iter().map(|(share, printed)| {
        Check::within(
            format!("deviations below which {share:e} lie (–)"),
            deviations(*share),
            printed,
            1e-15,
            reason,
        )
    });
    let shares = SHARES.iter().map(|(place, printed)| {
        Check::rounds_to(format!("share below {place} (–)"), probability(*place), printed)
    });
    Publication {
        name: "Abramowitz and Stegun (1964), tables 26.1 and 26.5; Wichura (1988)",
        trust: Trust::Memory,
        checks: places.chain(printed).chain(shares).collect(),
    }
}
