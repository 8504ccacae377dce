//! The designs of whose days the independent model made its table, `reference/day_designs`.

use longsmoke::analysis::day::{Resolution, Setup, Without};
use longsmoke::design::building::VoidBelow;
use longsmoke::design::{Design, document};
use serde_json::Value;
use std::path::PathBuf;

pub const NAMES: [&str; 2] = ["quince_hut", "rowan_parlor"];

fn json(name: &str) -> Value {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference/day_designs");
    let text = std::fs::read_to_string(folder.join(name)).unwrap();
    serde_json::from_str(&text).unwrap()
}

/// A design with the burn and the air after the fire that its author held.
pub fn read(name: &str, resolution: Resolution) -> (Design, Setup) {
    let design = json(&format!("{name}.json")).to_string();
    let mut design = document::read(&design).unwrap().design;
    let extra = json(&format!("{name}.day.json"));
    let number = |key: &str| extra["day"][key].as_f64().unwrap();
    design.shell.base_thickness = number("base_thickness_m");
    design.surroundings.void_below = VoidBelow::Ventilated;
    design.fire.shape.kindling_fraction = number("kindling_fraction");
    design.fire.shape.char_start_fraction = number("char_start_fraction");
    design.fire.shape.char_rate_ratio = number("char_rate_ratio");
    let after_flow = Some(number("after_air_kg_per_s"));
    // Its walls conduct as they do cold.
    let without = vec![Without::HotConductivity];
    (design, Setup { resolution, after_flow, without, ..Setup::STANDARD })
}
