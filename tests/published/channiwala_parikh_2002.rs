//! Channiwala and Parikh, "A unified correlation for estimating HHV of solid, liquid and gaseous
//! fuels", Fuel 81 (2002) 1051-1063; net heating value and the table by moisture as carried by a
//! fuel analysis table (Kanchanrai).

use crate::{Check, Publication};
use longsmoke::design::Species;
use longsmoke::physics::wood::{dry_basis, higher_heating_value, lower_heating_value};
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    let wood = Species::Mixed.ultimate();
    let net = |percent: f64| lower_heating_value(&wood, percent / 100.0) / 1e6;
    // C 50, H 6, O 43, N 0.2, ash 0.8 %, worked by hand from the printed correlation.
    let mut checks = vec![Check::rounds_to(
        "gross heating value, dry (MJ/kg)",
        higher_heating_value(&wood) / 1e6,
        "20.06",
    )];
    let worked = [
        (0.0, "18.74"),
        (10.0, "16.62"),
        (12.0, "16.19"),
        (15.0, "15.56"),
        (17.0, "15.13"),
        (18.0, "14.92"),
        (20.0, "14.50"),
        (25.0, "13.44"),
        (30.0, "12.38"),
        (40.0, "10.26"),
    ];
    checks.extend(worked.map(|(moisture, printed)| {
        let what = format!("net heating value, {moisture} % water (MJ/kg)");
        Check::rounds_to(what, net(moisture), printed)
    }));
    // Printed for wood of unstated composition.
    let table =
        [(0.0, "19.0"), (15.0, "15.79"), (20.0, "14.72"), (25.0, "13.72"), (30.0, "12.58")];
    checks.extend(table.map(|(moisture, printed)| {
        let what =
            format!("net heating value of the printed table, {moisture} % water (MJ/kg)");
        let reason = "the table's wood has no stated composition";
        Check::within(what, net(moisture), printed, 0.025, reason)
    }));
    checks.push(Check::rounds_to(
        "17 % of the wet mass as a share of the dry mass",
        dry_basis(0.17),
        "0.205",
    ));
    Publication {
        name: "Channiwala and Parikh, Fuel 81 (2002) 1051-1063, and net heating value",
        trust: Trust::Seen,
        checks,
    }
}
