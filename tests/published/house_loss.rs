//! Heat loss of a house and of its walls, as teaching texts work it.

use crate::{Check, Publication};
use longsmoke::analysis::envelope::{BRIDGES, CHANGES, VOLUME, envelope};
use longsmoke::design::notes::{Note, Notes};
use longsmoke::physics::house::{house_loss, layer_resistance, transmittance};
use longsmoke::sources::Trust;

/// Notes of a house: part, area (m2), transmittance (W/m2K); no bridges.
fn noted(parts: &[(&str, f64, f64)], air: [f64; 2]) -> Notes {
    let mut notes = Notes::default();
    for (part, area, u) in parts {
        notes.set(&format!("house.{part}.area_m2"), Some(Note::Number(*area)));
        notes.set(&format!("house.{part}.as"), Some(Note::Word("own".into())));
        notes.set(&format!("house.{part}.u"), Some(Note::Number(*u)));
    }
    let [changes, volume] = air;
    for (name, value) in [(BRIDGES, 0.0), (CHANGES, changes), (VOLUME, volume)] {
        notes.set(name, Some(Note::Number(value)));
    }
    notes
}

/// 0.25 x 120 + 1.4 x 20 + 0.2 x 80 + 0.5 x 0.3 x 80 = 86 W/K, at 35 K 3010 W; half an air change of
/// 200 m3 1190 W.
pub fn design_load() -> Publication {
    let parts = [
        ("wall", 120.0, 0.25),
        ("windows", 20.0, 1.4),
        ("roof", 80.0, 0.2),
        ("floor", 80.0, 0.5 * 0.3),
    ];
    let found = envelope(&noted(&parts, [0.5, 200.0]));
    Publication {
        name: "EN 12831, simplified: design load of a house, by hand",
        trust: Trust::Computed,
        checks: vec![
            Check::rounds_to(
                "through the parts (W)",
                house_loss(found.coefficient - found.air, 293.15, 258.15),
                "3010",
            ),
            Check::rounds_to("by air (W)", house_loss(found.air, 293.15, 258.15), "1190"),
            Check::rounds_to(
                "whole (W)",
                house_loss(found.coefficient, 293.15, 258.15),
                "4200",
            ),
        ],
    }
}

/// End-of-terrace house, table 7: floor 48 m2 x 0.25, roof 48 x 0.16, walls 80 x 0.35, windows and
/// doors 20 x 2.00, printed with what each adds.
pub fn house() -> Publication {
    let parts = [
        ("floor", 48.0, 0.25),
        ("roof", 48.0, 0.16),
        ("wall", 80.0, 0.35),
        ("windows", 20.0, 2.0),
    ];
    let found = envelope(&noted(&parts, [0.0, 0.0]));
    let loss = |id: &str| {
        found.parts.iter().find(|part| part.element.id() == id).map_or(f64::NAN, |p| p.loss)
    };
    Publication {
        name: "The Open University, Energy in buildings, 2.4.1: heat loss of a house",
        trust: Trust::Seen,
        checks: vec![
            Check::rounds_to("floor (W/K)", loss("floor"), "12"),
            Check::rounds_to("roof (W/K)", loss("roof"), "7.7"),
            Check::rounds_to("walls (W/K)", loss("wall"), "28"),
            Check::rounds_to("windows and doors (W/K)", loss("windows"), "40"),
            Check::rounds_to("whole house (W/K)", found.coefficient, "87.7"),
        ],
    }
}

/// Brick of 215 mm and 0.84 W/mK, plaster of 13 mm and 0.50 W/mK, surfaces of 0.055 and 0.123.
pub fn wall() -> Publication {
    let brick = layer_resistance(0.215, 0.84);
    let plaster = layer_resistance(0.013, 0.50);
    Publication {
        name: "Building Construction Handbook, U-value calculations: solid brick wall",
        trust: Trust::Seen,
        checks: vec![
            Check::rounds_to("brick (m²K/W)", brick, "0.256"),
            Check::rounds_to("plaster (m²K/W)", plaster, "0.026"),
            Check::rounds_to(
                "wall (W/m²K)",
                transmittance(0.123, brick + plaster, 0.055),
                "2.17",
            ),
        ],
    }
}
