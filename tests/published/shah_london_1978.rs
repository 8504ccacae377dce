//! Shah and London, "Laminar Flow Forced Convection in Ducts" (1978), rectangular ducts with
//! isothermal walls: the printed table, from memory. The polynomials are the authors' own fit.

use crate::{Check, Publication};
use longsmoke::physics::convection::nusselt_laminar_rectangle;
use longsmoke::physics::pressure::laminar_friction_rectangle;
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    let rows = [
        ("1:1", 1.0, "2.976", "56.9"),
        ("2:1", 0.5, "3.391", "62.2"),
        ("4:1", 0.25, "4.439", "72.9"),
        ("parallel plates", 0.0, "7.541", "96"),
    ];
    let mut checks = Vec::new();
    let reason = "the authors' fit misses their exact values by as much";
    for (name, aspect, nusselt, friction) in rows {
        checks.push(Check::within(
            format!("{name}: Nusselt number"),
            nusselt_laminar_rectangle(aspect),
            nusselt,
            0.005,
            reason,
        ));
        checks.push(Check::within(
            format!("{name}: f Re"),
            laminar_friction_rectangle(aspect),
            friction,
            0.005,
            reason,
        ));
    }
    Publication {
        name: "Shah and London, Laminar Flow Forced Convection in Ducts (1978)",
        trust: Trust::Memory,
        checks,
    }
}
