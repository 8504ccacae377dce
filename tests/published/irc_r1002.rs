//! International Residential Code R1002 (masonry heaters), code reprint, and ASTM E1602 (door),
//! from memory: distances in inches. Each must forbid building a hundredth of an inch below and
//! say nothing at the limit.

use crate::{Check, Publication};
use longsmoke::analysis::analyze;
use longsmoke::design::Design;
use longsmoke::rules::{Rule, Severity, check};
use longsmoke::sources::Trust;
use longsmoke::units::{Quantity, System, from_shown};

type Set = fn(&mut Design, f64);

/// Largest distance, to a thousandth of an inch, at which a rule still forbids building (in).
fn distance(rule: Rule, thick: bool, set: Set) -> f64 {
    let mut design = Design::demonstration();
    let facing = if thick { 8.0 } else { 2.0 };
    design.shell.facing_thickness = inches(facing);
    let analysis = analyze(&design).unwrap();
    let mut forbids = |size: f64| {
        set(&mut design, inches(size));
        check(&design, &analysis)
            .iter()
            .any(|finding| finding.rule == rule && finding.severity == Severity::DoNotBuild)
    };
    let (mut low, mut high) = (0.0, 100.0);
    assert!(forbids(low) && !forbids(high));
    while high - low > 1e-3 {
        let middle = 0.5 * (low + high);
        if forbids(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

fn inches(size: f64) -> f64 {
    from_shown(size, Quantity::Size, System::Us)
}

pub fn publication() -> Publication {
    let rows: [(&str, Rule, bool, Set, &str); 6] = [
        ("side", Rule::SideClose, false, |d, x| d.surroundings.side = x, "36"),
        ("back", Rule::BackClose, false, |d, x| d.surroundings.behind = x, "36"),
        ("ceiling", Rule::CeilingClose, false, |d, x| d.surroundings.above = x, "36"),
        ("door, ASTM E1602", Rule::FrontClose, false, |d, x| d.surroundings.front = x, "48"),
        ("side, thick walls", Rule::SideClose, true, |d, x| d.surroundings.side = x, "4"),
        (
            "ceiling, thick walls",
            Rule::CeilingClose,
            true,
            |d, x| d.surroundings.above = x,
            "8",
        ),
    ];
    let reason = "the code's own millimeters are rounded";
    let checks = rows.map(|(name, rule, thick, set, printed)| {
        let what = format!("distance at the {name} (in)");
        Check::within(what, distance(rule, thick, set), printed, 0.005, reason)
    });
    Publication {
        name: "IRC R1002 / IBC 2112 and ASTM E1602, clearances",
        trust: Trust::Seen,
        checks: checks.into(),
    }
}
