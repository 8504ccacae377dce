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

/// Facings (in) before a firebox wall of 114 mm and channel walls of 114 mm.
const THIN: f64 = 2.0;
const THICK: f64 = 8.0;

/// Largest distance, to a thousandth of an inch, at which a rule still forbids building (in); the
/// facing (in) decides whether the walls count as thick.
fn distance(rule: Rule, facing: f64, set: Set) -> f64 {
    let mut design = Design::demonstration();
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
    let rows: [(&str, Rule, f64, Set, &str); 6] = [
        ("side", Rule::SideClose, THIN, |d, x| d.surroundings.side = x, "36"),
        ("back", Rule::BackClose, THIN, |d, x| d.surroundings.behind = x, "36"),
        ("ceiling", Rule::CeilingClose, THIN, |d, x| d.surroundings.above = x, "36"),
        ("door, ASTM E1602", Rule::FrontClose, THIN, |d, x| d.surroundings.front = x, "48"),
        ("side, thick walls", Rule::SideClose, THICK, |d, x| d.surroundings.side = x, "4"),
        (
            "ceiling, thick walls",
            Rule::CeilingClose,
            THICK,
            |d, x| d.surroundings.above = x,
            "8",
        ),
    ];
    let reason = "the code's own millimeters are rounded";
    let checks = rows.map(|(name, rule, facing, set, printed)| {
        let what = format!("distance at the {name} (in)");
        Check::within(what, distance(rule, facing, set), printed, 0.005, reason)
    });
    Publication {
        name: "IRC R1002 / IBC 2112 and ASTM E1602, clearances",
        trust: Trust::Seen,
        checks: checks.into(),
    }
}
