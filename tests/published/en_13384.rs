//! EN 13384-1, chimneys: water dew point of the flue gas at 97000 Pa. The formula is from
//! memory, the numbers worked by hand from it.

use crate::{Check, Publication};
use longsmoke::physics::vapor::dew_point;
use longsmoke::sources::Trust;
use longsmoke::units::celsius;

pub fn publication() -> Publication {
    let rows = [("6.36", "36.7"), ("9.62", "44.5"), ("11.81", "48.5"), ("15.0", "53.4")];
    let checks = rows.map(|(percent, printed)| {
        let share = percent.parse::<f64>().unwrap() / 100.0;
        Check::rounds_to(
            format!("dew point at {percent} % water vapor (°C)"),
            celsius(dew_point(share * 97_000.0)),
            printed,
        )
    });
    Publication {
        name: "EN 13384-1, water dew point",
        trust: Trust::Memory,
        checks: checks.into(),
    }
}
