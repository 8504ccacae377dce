//! EN 15544, one-off tiled and mortared stoves: sizes. The formulas are from memory, the numbers
//! worked by hand from them.

use crate::{Check, Publication};
use longsmoke::analysis::standard_route::{
    firebox_surface, least_firebox_base, least_firebox_height, shortest_path,
};
use longsmoke::sources::Trust;

pub fn publication() -> Publication {
    let mut checks = vec![
        Check::rounds_to("15 kg: firebox surface (cm2)", firebox_surface(15.0) * 1e4, "13500"),
        Check::rounds_to("15 kg: smallest base (cm2)", least_firebox_base(15.0) * 1e4, "1500"),
        Check::rounds_to("15 kg: smallest height (cm)", least_firebox_height(15.0) * 1e2, "40"),
    ];
    let rows = [
        (10.0, "4.11", "4.74"),
        (15.0, "5.03", "5.81"),
        (20.0, "5.81", "6.71"),
        (25.0, "6.50", "7.50"),
        (30.0, "7.12", "8.22"),
        (40.0, "8.22", "9.49"),
    ];
    for (charge, plain, gapped) in rows {
        let what = |name: &str| format!("{charge} kg: shortest path, {name} (m)");
        checks.push(Check::rounds_to(what("no air gap"), shortest_path(charge, 0.0), plain));
        checks.push(Check::rounds_to(what("air gap"), shortest_path(charge, 0.02), gapped));
    }
    Publication { name: "EN 15544, sizes", trust: Trust::Memory, checks }
}
