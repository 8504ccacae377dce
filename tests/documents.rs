//! Every link and file of every released version opens forever and means what it meant.
//!
//! The corpus in `documents/` only grows: `links-<version>.txt` holds a name and a fragment a
//! line, `links-<version>.json` what each of them means, as a file would state it;
//! `file-<version>*.json` are files. Nothing in it is ever written again.

use longsmoke::analysis::analyze;
use longsmoke::design::brick::{BrickFormat, BrickSize};
use longsmoke::design::building::{
    AirSupply, Below, BenchUse, Carrier, ChimneyCarrier, ChimneyKind, ChimneyPlace,
    CleanoutFace, Cleanouts, ConnectorKind, Damper, Floor, Foam, Protection, Seismic, Soil,
    Stated, VoidBelow,
};
use longsmoke::design::examples::Example;
use longsmoke::design::material::Material;
use longsmoke::design::notes::Notes;
use longsmoke::design::{
    AirControl, BurnShape, Chimney, ChimneyDuty, Design, FaceInsulation, Fire, Firebox,
    FlueShape, Layout, Oven, RuleSet, RunOverride, Shell, Site, SmokePath, Species, Support,
    Surroundings, WallBehind, document, link,
};
use longsmoke::units::{Quantity, System, from_shown, kelvin};
use serde_json::Value;
use std::path::PathBuf;

const VERSIONS: [u32; 3] = [1, 2, 3];

fn corpus(name: &str) -> String {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/documents");
    std::fs::read_to_string(folder.join(name)).unwrap()
}

/// Whether all that is stated holds; numbers to a part in a billion, what is not stated may be
/// there or not.
fn states(stated: &Value, found: &Value, path: &str) {
    match (stated, found) {
        (Value::Object(stated), Value::Object(_)) => {
            for (key, value) in stated {
                let inner = found.get(key).unwrap_or(&Value::Null);
                states(value, inner, &format!("{path}.{key}"));
            }
        }
        (Value::Array(stated), Value::Array(found)) => {
            assert_eq!(stated.len(), found.len(), "{path}");
            for (stated, found) in stated.iter().zip(found) {
                states(stated, found, path);
            }
        }
        (Value::Number(stated), Value::Number(found)) => {
            let [stated, found] = [stated, found].map(|number| number.as_f64().unwrap());
            let near = (stated - found).abs() <= 1e-9 * stated.abs().max(1e-9);
            assert!(near, "{path}: {stated} stated, {found} found");
        }
        _ => assert_eq!(stated, found, "{path}"),
    }
}

fn as_file(design: &Design) -> Value {
    serde_json::from_str(&document::write(design, None)).unwrap()
}

#[test]
fn every_link_opens_and_means_what_it_meant() {
    for version in VERSIONS {
        let meanings: Value =
            serde_json::from_str(&corpus(&format!("links-{version}.json"))).unwrap();
        let links = corpus(&format!("links-{version}.txt"));
        assert_eq!(links.lines().count(), meanings.as_object().unwrap().len());
        for line in links.lines() {
            let (name, fragment) = line.split_once(' ').unwrap();
            let design = link::decode(fragment).unwrap_or_else(|e| panic!("{name}: {e}"));
            states(&meanings[name], &as_file(&design), name);
            assert!(analyze(&design).is_ok(), "{name}");
        }
    }
}

#[test]
fn every_file_opens_and_keeps_what_it_states() {
    for name in ["file-1.json", "file-1-partial.json"] {
        let text = corpus(name);
        let document = document::read(&text).unwrap_or_else(|e| panic!("{name}: {e}"));
        let again = document::write(&document.design, Some(&document.original));
        let stated: Value = serde_json::from_str(&text).unwrap();
        let again: Value = serde_json::from_str(&again).unwrap();
        if name == "file-1.json" {
            let mut known = stated.clone();
            // A note inside the list of runs is not ours to keep; see below.
            known["path"]["runs"][1].as_object_mut().unwrap().remove("note");
            states(&known, &again, name);
        } else {
            states(&stated, &again, name);
        }
    }
}

/// What a file leaves out means what it meant when the first link was made, as that link's own
/// record says, and not what the demonstration is today.
#[test]
fn what_a_file_leaves_out_never_changes() {
    let meanings: Value = serde_json::from_str(&corpus("links-1.json")).unwrap();
    let mut expected = meanings["demonstration"].clone();
    expected["name"] = "".into();
    let empty = document::read("{\"heater_design_version\": 1}").unwrap();
    states(&expected, &as_file(&empty.design), "an empty file");

    let partial = document::read(&corpus("file-1-partial.json")).unwrap();
    expected["fire"]["charge_kg"] = 11.into();
    expected["path"]["run_count"] = 4.into();
    expected["path"]["runs"] = serde_json::json!([{ "width_m": 0.3 }]);
    expected["chimney"]["mouth_height_m"] = 6.75.into();
    states(&expected, &as_file(&partial.design), "the partial file");
}

/// The design of `file-1.json` and of the link `different`, typed by hand: no two numbers of it
/// are alike, so that no input can take the place of another.
#[expect(clippy::too_many_lines, reason = "one literal, a line per input")]
fn different() -> Design {
    Design {
        name: "All different".into(),
        site: Site {
            altitude: 123.0,
            outdoor_temperature: kelvin(-7.25),
            room_temperature: kelvin(19.5),
            heat_loss: 137.0,
            house_suction: 2.5,
            wind_pressure: 0.0,
            air_supply: AirSupply::NotStated,
            air_opening: 0.02,
            rule_set: RuleSet::Europe,
        },
        fire: Fire {
            species: Species::Oak,
            moisture_fraction: 0.183,
            charge: 17.25,
            burn_duration: 5130.0,
            excess_air_ratio: 2.65,
            unburned_fraction: 0.013,
            firings_per_day: 3.0,
            firing_interval: 0.0,
            air: AirControl::Held,
            shape: BurnShape {
                kindling_fraction: 0.12,
                char_start_fraction: 0.65,
                char_rate_ratio: 0.25,
            },
            after_opening: 0.0003,
        },
        firebox: Firebox {
            width: 0.47,
            depth: 0.39,
            height: 0.71,
            wall_thickness: 0.121,
            crown_thickness: 0.091,
            door_width: 0.37,
            door_height: 0.35,
            glass_fraction: 0.45,
            inlet_area: 0.0185,
            inlet_coefficient: 2.1,
            flame_emissivity: 0.55,
        },
        path: SmokePath {
            layout: Layout::Behind,
            run_count: 6,
            run_length: 1.35,
            run_width: 0.26,
            run_height: 0.17,
            overrides: vec![
                RunOverride::default(),
                RunOverride { length: Some(1.21), width: Some(0.23), height: Some(0.19) },
            ],
            baffle_thickness: 0.061,
            roughness: 0.0025,
            reversal_coefficient: 2.9,
            turn_coefficient: 1.1,
            bleed_area: 0.0,
            bypass_area: 0.0,
            oven: Oven { place: 0, width: 0.5, depth: 0.4, height: 0.35, door_area: 0.12 },
            cleanouts: Cleanouts::NotStated,
            cleanout_face: CleanoutFace::Sides,
            cleanout_space: 0.6,
        },
        shell: Shell {
            core_material: Material::Castable,
            core_thickness: 0.111,
            gap: 0.012,
            facing_material: Material::Soapstone,
            facing_thickness: 0.125,
            cap_thickness: 0.16,
            base_thickness: 0.15,
            inner_emissivity: 0.88,
            insulation: FaceInsulation::default(),
            bench_use: BenchUse::NotStated,
            core_brick: BrickFormat::Firebrick,
            core_joint: 0.001_587_5,
            facing_brick: BrickFormat::Normal,
            facing_joint: 0.010,
            own_brick: BrickSize { length: 0.203, width: 0.095, height: 0.057 },
        },
        chimney: Chimney {
            mouth_height: 8.3,
            shape: FlueShape::Rectangular,
            flue_width: 0.21,
            flue_depth: 0.18,
            wall_material: Material::Stainless,
            wall_thickness: 0.0011,
            insulation_thickness: 0.035,
            outdoor_length: 1.9,
            roughness: 0.0012,
            mouth_coefficient: 0.7,
            connector_length: 0.6,
            rated_temperature: kelvin(450.0),
            duty: ChimneyDuty::Wet,
            kind: ChimneyKind::NotStated,
            masonry_wall: 0.1,
            soot_fire: Stated::NotStated,
            cleanout: Stated::NotStated,
            place: ChimneyPlace::NotStated,
            connector_kind: ConnectorKind::NotStated,
            roof_height: 0.0,
            near_rise: 0.0,
            near_distance: 0.0,
            damper: Damper::NotStated,
            damper_opening: 0.002,
        },
        surroundings: Surroundings {
            side: 0.52,
            behind: 0.33,
            front: 1.65,
            above: 0.74,
            chimney: 0.0,
            connector: 0.0,
            wall_protection: Protection::Bare,
            ceiling_protection: Protection::Bare,
            floor: Floor::NotStated,
            hearth_front: 0.0,
            hearth_side: 0.0,
            below: Below::NotStated,
            void_below: VoidBelow::Closed,
            wall_behind: WallBehind::NoWall,
            wall_gap: 0.30,
            gap_low_opening: 0.0,
            gap_high_opening: 0.0,
            foam: Foam::NotStated,
            foam_covered: Stated::NotStated,
            children: Stated::NotStated,
        },
        support: Support {
            carrier: Carrier::NotStated,
            chimney: ChimneyCarrier::Beside,
            footing_thickness: 0.3,
            footing_projection: 0.15,
            footing_depth: 0.3,
            frost_depth: 0.0,
            soil: Soil::NotStated,
            seismic: Seismic::NotStated,
        },
        notes: Notes::default(),
    }
}

#[test]
fn no_input_takes_the_place_of_another() {
    let file = document::read(&corpus("file-1.json")).unwrap();
    assert_eq!(file.design, different());
    for version in VERSIONS {
        let links = corpus(&format!("links-{version}.txt"));
        let fragment = links.lines().find_map(|line| line.strip_prefix("different "));
        assert_eq!(link::decode(fragment.unwrap()), Ok(different()), "version {version}");
    }
}

/// The design of `file-1-day.json`: with the inputs of the firing day, which `file-1.json` of an
/// earlier release leaves out.
fn different_day() -> Design {
    let mut design = different();
    design.fire.firing_interval = 21_600.0;
    design.fire.air = AirControl::Draft;
    design.fire.shape =
        BurnShape { kindling_fraction: 0.09, char_start_fraction: 0.72, char_rate_ratio: 0.31 };
    design.fire.after_opening = 0.0012;
    design.shell.base_thickness = 0.22;
    design.site.wind_pressure = 12.0;
    design.path.bleed_area = 0.0014;
    design.path.bypass_area = 0.023;
    design
}

#[test]
fn inputs_of_the_day_have_their_own_place() {
    let file = document::read(&corpus("file-1-day.json")).unwrap();
    assert_eq!(file.design, different_day());
    assert_eq!(link::decode(&link::encode(&different_day())), Ok(different_day()));
}

/// With every input on what stands around, lies below and carries the heater, no two alike.
fn different_place() -> Design {
    let mut design = different();
    design.path.cleanouts = Cleanouts::OneEnd;
    design.path.cleanout_face = CleanoutFace::Rear;
    design.path.cleanout_space = 0.61;
    let chimney = &mut design.chimney;
    chimney.kind = ChimneyKind::Lined;
    chimney.masonry_wall = 0.107;
    chimney.soot_fire = Stated::Yes;
    chimney.cleanout = Stated::No;
    chimney.place = ChimneyPlace::Outside;
    chimney.connector_kind = ConnectorKind::Tested;
    (chimney.roof_height, chimney.near_rise, chimney.near_distance) = (6.9, 0.72, 2.3);
    design.surroundings = Surroundings {
        chimney: 0.053,
        connector: 0.47,
        wall_protection: Protection::Sheet,
        ceiling_protection: Protection::BoardOnWool,
        floor: Floor::Combustible,
        hearth_front: 0.43,
        hearth_side: 0.23,
        below: Below::Foam,
        void_below: VoidBelow::Ventilated,
        ..design.surroundings
    };
    design.support = Support {
        carrier: Carrier::Walls,
        chimney: ChimneyCarrier::Heater,
        footing_thickness: 0.37,
        footing_projection: 0.22,
        footing_depth: 1.35,
        frost_depth: 0.95,
        soil: Soil::Gravel,
        seismic: Seismic::High,
    };
    design
}

#[test]
fn inputs_of_the_place_have_their_own_place() {
    let place = different_place();
    assert_eq!(link::decode(&link::encode(&place)), Ok(different_place()));
    let file = document::read(&document::write(&place, None)).unwrap();
    assert_eq!(file.design, place);
}

/// A file or link that is older than these inputs states nothing of them.
#[test]
fn what_older_documents_do_not_state_is_not_made_up() {
    let empty = document::read("{\"heater_design_version\": 1}").unwrap().design;
    let links = corpus("links-2.txt");
    let fragment = links.lines().find_map(|line| line.strip_prefix("different "));
    for design in [empty, link::decode(fragment.unwrap()).unwrap()] {
        assert_eq!(design.surroundings.below, Below::NotStated);
        assert_eq!(design.surroundings.floor, Floor::NotStated);
        assert_eq!(design.path.cleanouts, Cleanouts::NotStated);
        assert_eq!(design.support.carrier, Carrier::NotStated);
        assert_eq!(design.chimney.kind, ChimneyKind::NotStated);
    }
}

/// Opened and shared again, a link is the same link: sizes typed in eighths of an inch have digits
/// that a JSON reader of less than full precision changes.
#[test]
fn inches_survive_links_and_files_to_the_last_bit() {
    let mut design = Design::demonstration();
    for eighths in 1..=800 {
        let inches = f64::from(eighths) / 8.0;
        design.surroundings.side = from_shown(inches, Quantity::Size, System::Us);
        let kept = link::decode(&link::encode(&design)).unwrap();
        assert_eq!(kept, design, "{inches} in in a link");
        let kept = document::read(&document::write(&design, None)).unwrap().design;
        assert_eq!(kept, design, "{inches} in in a file");
    }
}

#[test]
fn links_made_today_are_read_and_as_short_as_a_message() {
    let link = link::encode(&different());
    assert_eq!(link::decode(&link), Ok(different()));
    assert!(link.len() < 900, "{}", link.len());
}

/// A text message takes a few hundred characters: six runs of the builder's own choosing.
#[test]
fn a_link_with_six_runs_is_short() {
    let mut design = Design::demonstration();
    design.name = "Kitchen heater, second try".into();
    design.chimney.duty = ChimneyDuty::Dry;
    design.path.run_count = 6;
    let own = |length, height| RunOverride {
        length: Some(length),
        width: Some(0.255),
        height: Some(height),
    };
    design.path.overrides = vec![
        own(1.62, 0.191),
        own(1.585, 0.187),
        own(1.44, 0.181),
        own(1.395, 0.174),
        own(1.27, 0.168),
        own(1.115, 0.163),
    ];
    design.fire.charge = 16.5;
    design.firebox.width = 0.455;
    design.firebox.height = 0.68;
    design.chimney.mouth_height = 8.35;
    design.surroundings.side = 0.475;
    let link = link::encode(&design);
    assert_eq!(link::decode(&link), Ok(design));
    assert!(link.len() <= 250, "{} {link}", link.len());
}

/// Links of version 4 were packed by another program, from the description in `design/link.rs`.
#[test]
fn every_link_with_pinned_designs_opens_and_means_what_it_meant() {
    let meanings: Value = serde_json::from_str(&corpus("links-4.json")).unwrap();
    let links = corpus("links-4.txt");
    assert_eq!(links.lines().count(), meanings.as_object().unwrap().len());
    for line in links.lines() {
        let (name, fragment) = line.split_once(' ').unwrap();
        let linked = link::decode_pinned(fragment).unwrap_or_else(|e| panic!("{name}: {e}"));
        let text = document::write_pinned(&linked.design, &linked.pinned, None);
        states(&meanings[name], &serde_json::from_str(&text).unwrap(), name);
        assert_eq!(link::decode(fragment), Ok(linked.design));
    }
}

/// Four designs that a builder would set beside one: each with a few sizes of its own.
fn beside() -> (Design, Vec<Design>) {
    let design = different();
    let mut pinned = vec![design.clone(); 4];
    for (design, (name, runs)) in pinned.iter_mut().zip([
        ("Four runs", 4),
        ("Five, longer", 5),
        ("Six, as drawn by the mason", 6),
        ("Seven", 7),
    ]) {
        (design.name, design.path.run_count) = (name.into(), runs);
        design.path.overrides.clear();
    }
    (pinned[1].path.run_length, pinned[1].path.run_width) = (1.957, 0.12);
    pinned[2].firebox.width = 0.46;
    pinned[2].path.overrides = vec![RunOverride { height: Some(0.26), ..Default::default() }];
    (pinned[3].shell.core_thickness, pinned[3].fire.charge) = (0.1143, 14.5);
    (design, pinned)
}

#[test]
fn a_link_with_pinned_designs_is_short_enough_to_be_sent() {
    let (design, pinned) = beside();
    let link = link::encode_pinned(&design, &pinned);
    assert_eq!(link::decode_pinned(&link), Ok(link::Linked { design, pinned }));
    assert!(link.len() <= 1500, "{}", link.len());
    // Designs that have nothing in common: those to begin with.
    let all: Vec<Design> = Example::ALL.map(Example::design).to_vec();
    let link = link::encode_pinned(&all[0], &all[1..5]);
    assert_eq!(link::decode_pinned(&link).unwrap().pinned, &all[1..5]);
    assert!(link.len() <= 1500, "{}", link.len());
}

#[test]
fn a_file_keeps_the_designs_that_are_pinned() {
    let (design, pinned) = beside();
    let text = document::write_pinned(&design, &pinned, None);
    let document = document::read(&text).unwrap();
    assert_eq!((&document.design, &document.pinned), (&design, &pinned));
    // Whoever knows nothing of them keeps them.
    let again = document::write(&design, Some(&document.original));
    assert_eq!(document::read(&again).unwrap().pinned, pinned);
    let fewer = document::write_pinned(&design, &pinned[..1], Some(&document.original));
    assert_eq!(document::read(&fewer).unwrap().pinned, &pinned[..1]);
    let none = document::write_pinned(&design, &[], Some(&document.original));
    assert!(!none.contains("pinned_designs"), "{none}");
}

#[test]
fn a_pinned_design_that_cannot_be_read_is_named() {
    let error = |pinned: &str| {
        let text = format!("{{\"heater_design_version\": 1,\n\"pinned_designs\": {pinned}}}");
        document::read(&text).unwrap_err().to_string()
    };
    let found = error("[{}, {\"path\": {\"run_count\": 99}}]");
    assert!(found.starts_with("line 2: pinned_designs.2.path.run_count"), "{found}");
    assert!(error("[7]").contains("a design expected"), "{}", error("[7]"));
    for pinned in ["7", "[{},{},{},{},{}]"] {
        assert!(error(pinned).contains("at most 4 designs"), "{}", error(pinned));
    }
}
