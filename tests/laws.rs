//! What must hold for any design: balances close, limits are kept, trends run the right way,
//! decoders refuse with a typed error.
//!
//! Designs are drawn from the catalog of inputs with a fixed seed, so that every run sees the
//! same ones.

use crate::drawn::{Range, drawn, set_right, typed};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use longsmoke::analysis::draft::Item;
use longsmoke::analysis::extrapolation::Formula;
use longsmoke::analysis::factors::Factors;
use longsmoke::analysis::march::{Channel, Sink, Stream, march};
use longsmoke::analysis::path::path;
use longsmoke::analysis::{Analysis, Failure, HeightOfFire, analyze, analyze_with};
use longsmoke::design::field::{FIELDS, Kind, MOST_RUNS, ProblemKind, check};
use longsmoke::design::{Design, Layout, Oven, RunOverride, Species as Wood, document, link};
use longsmoke::physics::air::DRY_AIR;
use longsmoke::physics::convection::Duct;
use longsmoke::physics::gas::{Composition, Gas, Species};
use longsmoke::physics::pressure::orifice_flow;
use longsmoke::physics::wood::{FlueGas, flue_gas};
use longsmoke::rules;
use longsmoke::study::strip::{Column, OpenFlow, Strip};
use longsmoke::units::kelvin;
use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::{Config, TestCaseError, TestRunner};

pub(crate) type Outcome = Result<(), TestCaseError>;

/// Runs a property over drawn values, the same ones each time.
#[track_caller]
pub(crate) fn holds<S: Strategy>(
    cases: u32,
    strategy: &S,
    property: impl Fn(S::Value) -> Outcome,
) {
    let config = Config {
        cases,
        failure_persistence: None,
        max_shrink_iters: 2000,
        ..Config::default()
    };
    let rng = proptest::test_runner::TestRng::deterministic_rng(config.rng_algorithm);
    let mut runner = TestRunner::new_with_rng(config, rng);
    if let Err(error) = runner.run(strategy, property) {
        panic!("{error}");
    }
}

// ---------------------------------------------------------------- designs drawn at random

/// Place in a range: now and then one of its ends.
fn share() -> impl Strategy<Value = f64> {
    prop_oneof![1 => Just(0.0), 1 => Just(1.0), 12 => 0.0..=1.0_f64]
}

fn overrides() -> impl Strategy<Value = Vec<[Option<f64>; 3]>> {
    let size = || proptest::option::weighted(0.3, share());
    let one =
        (size(), size(), size()).prop_map(|(length, width, height)| [length, width, height]);
    prop_oneof![3 => Just(Vec::new()), 1 => vec(one, 0..=MOST_RUNS)]
}

/// Designs over a range of every input. The sizes that belong together are then set right, as
/// `check` asks, so that nearly all of them can be analyzed.
pub(crate) fn designs(range: Range) -> impl Strategy<Value = Design> {
    (vec(share(), FIELDS.len()), overrides()).prop_map(move |(shares, overrides)| {
        let mut design = drawn(range, &shares);
        design.path.overrides = overrides
            .into_iter()
            .map(|[length, width, height]| {
                let size = |id: usize, share: Option<f64>| match &FIELDS[id].kind {
                    Kind::Number(number) => share.map(|x| typed(number, range(number), x)),
                    Kind::Choice(_) => None,
                };
                let place = |path: &str| FIELDS.iter().position(|f| f.path == path).unwrap();
                RunOverride {
                    length: size(place("path.run_length_m"), length),
                    width: size(place("path.run_width_m"), width),
                    height: size(place("path.run_height_m"), height),
                }
            })
            .collect();
        set_right(&mut design);
        design
    })
}

pub(crate) fn possible() -> impl Strategy<Value = Design> {
    designs(|number| &number.possible)
}

pub(crate) fn usual() -> impl Strategy<Value = Design> {
    designs(|number| &number.usual)
}

fn fire(design: &Design) -> Result<HeightOfFire, TestCaseError> {
    analyzed(design).map(|analysis| analysis.height_of_fire)
}

fn analyzed(design: &Design) -> Result<Analysis, TestCaseError> {
    analyze(design).map_err(|failure| TestCaseError::fail(format!("{failure:?}")))
}

/// All numbers in an analysis, by their names in files.
fn figures(analysis: &Analysis) -> Vec<(String, Option<f64>)> {
    fn walk(name: &str, value: &serde_json::Value, into: &mut Vec<(String, Option<f64>)>) {
        use serde_json::Value;
        match value {
            Value::Object(map) => map.iter().for_each(|(key, value)| {
                walk(&format!("{name}.{key}"), value, into);
            }),
            Value::Array(list) => list.iter().for_each(|value| walk(name, value, into)),
            Value::Number(number) => into.push((name.into(), number.as_f64())),
            // A number that is not finite has no JSON form.
            Value::Null => into.push((name.into(), None)),
            Value::Bool(_) | Value::String(_) => {}
        }
    }
    let mut list = Vec::new();
    walk("", &serde_json::to_value(analysis).unwrap(), &mut list);
    list
}

// ---------------------------------------------------------------- balances and limits

#[test]
fn any_possible_design_gives_finite_figures_or_a_typed_failure() {
    holds(2500, &possible(), |design| {
        match analyze(&design) {
            Ok(analysis) => {
                for (name, value) in figures(&analysis) {
                    // What would cover a house is none where nothing is useful of the wood.
                    let none = name.ends_with("charge_that_covers_kg")
                        || name.ends_with("firings_that_cover");
                    let useful = analysis.house.charge_that_covers.is_some();
                    let finite = value.map_or(none && !useful, f64::is_finite);
                    prop_assert!(finite, "{name} is not finite");
                }
                // Neither rules nor answers may panic on it.
                let findings = rules::check(&design, &analysis);
                for question in rules::Question::ALL {
                    rules::answer(question, &findings);
                }
                within_limits(&design, &analysis.height_of_fire)?;
                balances(&design, &analysis.height_of_fire)?;
                ledger_adds_up(&design, &analysis.height_of_fire)?;
            }
            Err(Failure::Inputs(problems)) => {
                prop_assert_eq!(check(&design), problems);
            }
            Err(failure) => return Err(TestCaseError::fail(format!("{failure:?}"))),
        }
        Ok(())
    });
}

#[test]
fn raw_designs_over_the_possible_ranges_never_panic() {
    let raw =
        vec(share(), FIELDS.len()).prop_map(|shares| drawn(|number| &number.possible, &shares));
    holds(4000, &raw, |design| {
        match analyze(&design) {
            Ok(_) => prop_assert!(check(&design).is_empty()),
            Err(Failure::Inputs(problems)) => prop_assert!(!problems.is_empty()),
            Err(failure) => return Err(TestCaseError::fail(format!("{failure:?}"))),
        }
        Ok(())
    });
}

#[test]
fn numbers_that_are_no_numbers_are_refused() {
    let poison = prop_oneof![
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(f64::NEG_INFINITY),
        Just(-1e300),
        Just(1e300),
        Just(f64::MIN_POSITIVE),
        -1e6..1e6_f64,
    ];
    let cases = (0..FIELDS.len(), poison);
    holds(2000, &cases, |(place, value)| {
        let mut design = Design::demonstration();
        let Kind::Number(number) = &FIELDS[place].kind else {
            return Ok(());
        };
        (number.set)(&mut design, value);
        match analyze(&design) {
            Ok(analysis) => {
                for (name, value) in figures(&analysis) {
                    prop_assert!(value.is_some_and(f64::is_finite), "{name} is not finite");
                }
            }
            Err(Failure::Inputs(problems)) => prop_assert!(!problems.is_empty()),
            Err(failure) => return Err(TestCaseError::fail(format!("{failure:?}"))),
        }
        Ok(())
    });
}

/// Temperatures lie between the colder of room and outdoors and the flame; shares are shares.
fn within_limits(design: &Design, fire: &HeightOfFire) -> Outcome {
    let coldest = design.site.outdoor_temperature.min(design.site.room_temperature) - 1e-6;
    let hottest = fire.flame + 1e-6;
    let mut temperatures = vec![
        ("firebox", fire.firebox_outlet),
        ("firebox wall", fire.firebox_wall),
        ("outlet", fire.runs_outlet),
        ("chimney", fire.chimney_inlet),
        ("mouth", fire.chimney_mouth_gas),
        ("wall of the mouth", fire.chimney_mouth_wall),
    ];
    for run in &fire.runs {
        temperatures.extend([("inlet", run.inlet), ("run", run.outlet), ("wall", run.wall)]);
        prop_assert!(run.outlet <= run.inlet + 1e-9, "gas warms along a run");
        prop_assert!(run.wall <= run.inlet + 1e-9, "wall warmer than the gas");
        prop_assert!((0.0..=1.0).contains(&run.radiation_fraction));
        prop_assert!(0.0 <= run.heat && 0.0 <= run.friction && 0.0 <= run.turn);
        prop_assert!(0.0 < run.velocity && 0.0 < run.reynolds);
    }
    for (name, value) in temperatures {
        prop_assert!(coldest <= value && value <= hottest, "{name}: {value} K");
    }
    let efficiencies = [fire.efficiency_lower, fire.efficiency_higher];
    prop_assert!(efficiencies.iter().all(|value| *value <= 1.0), "{efficiencies:?}");
    prop_assert!(fire.efficiency_higher.abs() <= fire.efficiency_lower.abs());
    Ok(())
}

/// Energy, and the mass and elements of the gas.
fn balances(design: &Design, fire: &HeightOfFire) -> Outcome {
    let heat = &fire.heat;
    let supplied = heat.wood_watts + heat.air_watts;
    let useful =
        heat.firebox_walls_watts + heat.glass_watts + heat.door_watts + heat.runs_watts;
    let lost =
        heat.unburned_watts + heat.connector_watts + heat.chimney_watts + heat.mouth_watts;
    let gap = supplied - useful - lost;
    prop_assert!(gap.abs() <= 1e-6 * heat.wood_watts, "{gap} W are missing: {heat:?}");

    // The efficiency counts the stack from the room's temperature, the shares from 25 °C.
    let wood = design.fire.species.ultimate();
    let gas = flue_gas(&wood, design.fire.moisture_fraction, fire.excess_air_ratio);
    let room = Gas::new(gas.composition).enthalpy(design.site.room_temperature);
    let stack = heat.connector_watts + heat.chimney_watts + heat.mouth_watts;
    let stack = stack - fire.gas_flow * room;
    let efficiency = 1.0 - (stack + heat.unburned_watts) / heat.wood_watts;
    let difference = efficiency - fire.efficiency_lower;
    prop_assert!(difference.abs() < 1e-6, "efficiency {difference} off");

    let burn_rate = design.fire.charge / design.fire.burn_duration;
    prop_assert!((fire.burn_rate / burn_rate - 1.0).abs() < 1e-12);
    let ash = wood.ash * (1.0 - design.fire.moisture_fraction);
    let mass = fire.air_flow + fire.burn_rate * (1.0 - ash) - fire.gas_flow;
    // Ultimate analyses do not always sum to one: oak and pine of the catalog do.
    prop_assert!(mass.abs() < 1e-5 * fire.gas_flow, "{mass} kg/s are missing");
    elements_balance(&gas, &wood, design.fire.moisture_fraction)
}

/// Moles of carbon, hydrogen, oxygen and nitrogen per kilogram of moist wood, in and out.
fn elements_balance(
    burned: &FlueGas,
    wood: &longsmoke::physics::wood::Ultimate,
    moisture: f64,
) -> Outcome {
    // IUPAC abridged atomic weights.
    let [carbon, hydrogen, oxygen, nitrogen] = [0.012011, 0.001008, 0.015999, 0.014007];
    let dry = 1.0 - moisture;
    let water = moisture / (2.0 * hydrogen + oxygen);
    let part = |mixture: &Composition, species| mixture.fraction(species);
    let moles = burned.gas_per_fuel / burned.composition.molar_mass();
    let air = burned.air_per_fuel / DRY_AIR.molar_mass();
    let atoms = |mixture: &Composition, amount: f64| {
        let [n2, o2, co2, h2o] =
            [Species::Nitrogen, Species::Oxygen, Species::CarbonDioxide, Species::Water]
                .map(|species| amount * part(mixture, species));
        [co2, 2.0 * h2o, 2.0 * o2 + 2.0 * co2 + h2o, 2.0 * n2]
    };
    let into = atoms(&DRY_AIR, air);
    let out = atoms(&burned.composition, moles);
    let fuel = [
        dry * wood.carbon / carbon,
        dry * wood.hydrogen / hydrogen + 2.0 * water,
        dry * wood.oxygen / oxygen + water,
        dry * wood.nitrogen / nitrogen,
    ];
    for (name, ((air, fuel), out)) in
        ["C", "H", "O", "N"].iter().zip(into.iter().zip(fuel).zip(out))
    {
        let gap = air + fuel - out;
        // The weights here are rounded to five digits.
        prop_assert!(gap.abs() < 1e-4 * out, "{name}: {gap} of {out} mol/kg");
    }
    Ok(())
}

fn ledger_adds_up(design: &Design, fire: &HeightOfFire) -> Outcome {
    let item = |item| -> f64 {
        let entries = fire.ledger.iter().filter(|entry| entry.item == item);
        entries.map(|entry| entry.pascals).sum()
    };
    let sum: f64 = fire.ledger.iter().map(|entry| entry.pascals).sum();
    let scale = 1e-9 * (1.0 + fire.draft.abs() + fire.losses.abs());
    prop_assert!((sum - fire.margin).abs() < scale);
    prop_assert!((fire.draft - fire.losses - fire.margin).abs() < scale);
    let columns = item(Item::FireboxColumn) + item(Item::RunRises) + item(Item::ChimneyColumn);
    prop_assert!((columns - fire.draft).abs() < scale);
    let hindrances = [
        Item::Inlet,
        Item::EntryTurn,
        Item::Reversals,
        Item::ExitTurn,
        Item::RunFriction,
        Item::ChimneyFriction,
        Item::Mouth,
        Item::HouseSuction,
        Item::Wind,
    ];
    for each in hindrances {
        prop_assert!(item(each) <= 0.0, "{each:?} pulls");
    }
    prop_assert!((item(Item::HouseSuction) + design.site.house_suction).abs() < scale);
    let friction: f64 = fire.runs.iter().map(|run| run.friction).sum();
    prop_assert!((item(Item::RunFriction) + friction).abs() < scale);
    let turns: f64 = fire.runs.iter().map(|run| run.turn).sum();
    prop_assert!((item(Item::EntryTurn) + item(Item::Reversals) + turns).abs() < scale);
    Ok(())
}

#[test]
fn files_and_links_bring_every_design_back() {
    holds(1000, &possible(), |mut design| {
        design.name = "North farmhouse, \u{201e}2\u{201d}".into();
        if !check(&design).is_empty() {
            return Ok(());
        }
        prop_assert_eq!(link::decode(&link::encode(&design)), Ok(design.clone()));
        let document = document::read(&document::write(&design, None));
        prop_assert_eq!(document.map(|document| document.design), Ok(design));
        Ok(())
    });
}

// ---------------------------------------------------------------- natural flows

#[test]
fn at_a_natural_flow_the_margin_vanishes() {
    let seen = std::cell::Cell::new(0);
    holds(200, &usual(), |mut design| {
        let flows = fire(&design)?.natural_flows;
        for flow in flows {
            let mut at = |ratio: f64| {
                design.fire.excess_air_ratio = ratio;
                fire(&design)
            };
            let ratio = flow.excess_air_ratio;
            // Further out no excess air can be stated.
            if !(1.06..=9.9).contains(&ratio) {
                continue;
            }
            let here = at(ratio)?;
            prop_assert!(here.margin.abs() < 0.05, "margin {} Pa", here.margin);
            let gas_flow = here.gas_flow / flow.gas_flow_kg_per_s;
            prop_assert!((gas_flow - 1.0).abs() < 1e-6);
            let (less, more) = (at(ratio * 0.999)?.margin, at(ratio * 1.001)?.margin);
            prop_assert_eq!(flow.stable, more < less, "{} Pa to {} Pa", less, more);
            seen.set(seen.get() + 1);
        }
        Ok(())
    });
    assert!(seen.get() > 100, "only {} flows", seen.get());
}

#[test]
fn stable_and_unstable_flows_take_turns() {
    holds(120, &usual(), |design| {
        let flows = fire(&design)?.natural_flows;
        for pair in flows.windows(2) {
            prop_assert!(pair[0].excess_air_ratio < pair[1].excess_air_ratio);
            prop_assert!(pair[0].stable != pair[1].stable);
        }
        Ok(())
    });
}

#[test]
fn a_strip_has_ten_columns_and_never_panics() {
    holds(12, &possible(), |design| {
        let columns: Vec<_> = Strip::new(&design).collect();
        prop_assert_eq!(columns.len(), 10);
        for result in columns.iter().filter_map(|column| column.result) {
            prop_assert!(result.efficiency_lower <= 1.0);
            if let OpenFlow::Runs { gas_flow, .. } = result.open {
                prop_assert!(gas_flow > 0.0);
            }
        }
        Ok(())
    });
}

/// What the strip says of a number of runs is to the last bit what the page says when that number is
/// chosen; the flow with the air open is the page's when its excess air is stated.
#[test]
fn a_column_of_the_strip_is_the_page_with_its_runs() {
    holds(6, &usual(), |design| {
        for Column { runs, result } in Strip::new(&design) {
            let mut chosen = design.clone();
            chosen.path.run_count = runs;
            let analysis = analyze(&chosen);
            prop_assert_eq!(result.is_some(), analysis.is_ok());
            let (Some(result), Ok(analysis)) = (result, analysis) else { continue };
            let page = &analysis.height_of_fire;
            let shown = [
                result.runs_outlet,
                result.chimney_inlet,
                result.efficiency_lower,
                result.margin,
                result.mouth_wall,
                result.dew_point,
            ];
            let expected = [
                page.runs_outlet,
                page.chimney_inlet,
                page.efficiency_lower,
                page.margin,
                page.chimney_mouth_wall,
                page.dew_point,
            ];
            prop_assert_eq!(shown.map(f64::to_bits), expected.map(f64::to_bits));
            let findings = rules::check(&chosen, &analysis);
            prop_assert_eq!(result.worst, findings.first().map(|finding| finding.severity));
            if let OpenFlow::Runs { excess_air_ratio, chimney_inlet, .. } = result.open {
                chosen.fire.excess_air_ratio = excess_air_ratio;
                let open = fire(&chosen)?;
                prop_assert_eq!(open.chimney_inlet.to_bits(), chimney_inlet.to_bits());
                // The draft balances there, but for the tolerance of the search.
                prop_assert!(open.margin.abs() < 0.01 * open.losses, "{}", open.margin);
            }
        }
        Ok(())
    });
}

// ---------------------------------------------------------------- other conditions

#[test]
fn the_mild_day_is_the_design_on_a_mild_day() {
    let seen = std::cell::Cell::new(0);
    holds(60, &usual(), |design| {
        let conditions = analyzed(&design)?.conditions;
        let mut mild = design.clone();
        let site = &mut mild.site;
        site.outdoor_temperature = site.outdoor_temperature.max(kelvin(15.0));
        site.house_suction = site.house_suction.max(4.0);
        let there = fire(&mild)?;
        let here = &conditions.mild_day;
        prop_assert!((here.stated.margin - there.margin).abs() < 1e-9);
        prop_assert!((here.stated.draft - there.draft).abs() < 1e-9);
        prop_assert!((here.stated.chimney_mouth_gas - there.chimney_mouth_gas).abs() < 1e-9);
        prop_assert_eq!(here.natural_flows.len(), there.natural_flows.len());
        for (here, there) in here.natural_flows.iter().zip(&there.natural_flows) {
            prop_assert!((here.excess_air_ratio / there.excess_air_ratio - 1.0).abs() < 1e-9);
        }
        seen.set(seen.get() + here.natural_flows.len());
        Ok(())
    });
    assert!(seen.get() > 30, "only {} flows", seen.get());
}

#[test]
fn a_cold_start_lies_between_its_walls_and_its_fire() {
    holds(300, &possible(), |design| {
        let Ok(analysis) = analyze(&design) else {
            return Ok(());
        };
        let start = analysis.conditions.cold_start;
        let room = design.site.room_temperature;
        for state in [start.design_day, start.mild_day] {
            let coldest = room.min(state.outdoors) - 1e-6;
            let hottest = room.max(state.outdoors).max(start.firebox_outlet) + 1e-6;
            for gas in [state.runs_outlet, state.chimney_mouth_gas] {
                prop_assert!(coldest <= gas && gas <= hottest, "{gas} K");
            }
        }
        prop_assert!((start.design_day.runs_outlet - start.mild_day.runs_outlet).abs() < 1e-12);
        // A heater stands below its mouth, so that air of less density outdoors pulls less.
        prop_assert!(start.mild_day.draft <= start.design_day.draft + 1e-9);
        Ok(())
    });
}

/// Ten runs of the longest take all heat from the kindling: what pulls is the column of the
/// firebox, then gas as cold as its walls. Hydrostatics of ideal gases, by hand.
#[test]
fn after_long_cold_runs_only_the_firebox_and_the_warm_house_pull() {
    let mut design = Design::demonstration();
    design.site.altitude = 0.0;
    design.site.outdoor_temperature = kelvin(-10.0);
    design.path.layout = Layout::Bench;
    design.path.run_count = MOST_RUNS;
    design.path.run_length = 4.0;
    design.chimney.outdoor_length = 0.0;
    let state = analyze(&design).unwrap().conditions.cold_start.design_day;
    let room = design.site.room_temperature;
    near(state.runs_outlet, room, 0.05);

    let wood = design.fire.species.ultimate();
    let burned = flue_gas(&wood, design.fire.moisture_fraction, 5.0);
    // 1.5 kg of wood in an hour.
    near(state.gas_flow, burned.gas_per_fuel * 1.5 / 3600.0, 1e-9);
    let density = |molar_mass: f64, t: f64| 101_325.0 * molar_mass / (8.314_462_6 * t);
    let outdoors = density(DRY_AIR.molar_mass(), kelvin(-10.0));
    let gas = |t: f64| density(burned.composition.molar_mass(), t);
    let axis = 0.5 * design.path.run_height;
    let firebox = outdoors - gas(kelvin(250.0));
    let house = outdoors - gas(room);
    let rise = design.chimney.mouth_height - axis;
    near(state.draft, 9.806_65 * (axis * firebox + rise * house), 0.01);
}

#[track_caller]
fn near(found: f64, expected: f64, allowed: f64) {
    assert!((found - expected).abs() < allowed, "{found} instead of {expected}");
}

// ---------------------------------------------------------------- trends

/// The design before and after a change; both must be possible.
fn pair(
    design: &Design,
    change: impl FnOnce(&mut Design),
) -> Result<Option<(HeightOfFire, HeightOfFire)>, TestCaseError> {
    let mut changed = design.clone();
    change(&mut changed);
    if !check(design).is_empty() || !check(&changed).is_empty() {
        return Ok(None);
    }
    Ok(Some((fire(design)?, fire(&changed)?)))
}

#[track_caller]
fn trend(
    change: impl Fn(&mut Design) + Copy,
    claim: impl Fn(&HeightOfFire, &HeightOfFire) -> Outcome,
) {
    let seen = std::cell::Cell::new(0);
    holds(150, &usual(), |mut design| {
        // What holds from run to run does not from run to oven.
        design.path.oven.place = 0;
        if let Some((before, after)) = pair(&design, change)? {
            seen.set(seen.get() + 1);
            claim(&before, &after)?;
        }
        Ok(())
    });
    assert!(seen.get() > 75, "only {} designs", seen.get());
}

#[test]
fn draft_falls_with_altitude() {
    trend(
        |design| design.site.altitude += 300.0,
        |low, high| {
            // The slot may pass hot gas up there that it keeps back down here.
            let slot = low.bleed_fraction + high.bleed_fraction;
            prop_assert!(slot > 0.0 || high.draft.abs() < low.draft.abs());
            prop_assert!(high.dew_point < low.dew_point);
            Ok(())
        },
    );
}

#[test]
fn draft_falls_as_it_warms_outdoors() {
    trend(
        |design| design.site.outdoor_temperature += 5.0,
        |cold, mild| {
            prop_assert!(mild.draft < cold.draft);
            Ok(())
        },
    );
}

#[test]
fn a_taller_chimney_has_a_cooler_mouth() {
    trend(
        |design| design.chimney.mouth_height += 1.0,
        |short, tall| {
            prop_assert!(tall.chimney_mouth_gas < short.chimney_mouth_gas);
            Ok(())
        },
    );
}

#[test]
fn less_insulation_makes_the_mouth_colder() {
    trend(
        |design| {
            design.chimney.insulation_thickness =
                (design.chimney.insulation_thickness - 0.01).max(0.0);
        },
        |more, less| {
            prop_assert!(less.chimney_mouth_wall <= more.chimney_mouth_wall);
            Ok(())
        },
    );
}

#[test]
fn wetter_wood_burns_cooler_and_wets_sooner() {
    trend(
        |design| design.fire.moisture_fraction += 0.02,
        |dry, wet| {
            prop_assert!(wet.flame < dry.flame);
            prop_assert!(wet.dew_point > dry.dew_point);
            prop_assert!(wet.lower_heating_value < dry.lower_heating_value);
            Ok(())
        },
    );
}

#[test]
fn rougher_runs_have_more_friction_and_a_cooler_outlet() {
    trend(
        |design| {
            design.path.run_count = design.path.run_count.max(1);
            design.path.roughness += 0.001;
        },
        |smooth, rough| {
            let friction =
                |fire: &HeightOfFire| fire.runs.iter().map(|run| run.friction).sum::<f64>();
            // Past rougher runs more of the gas takes the bleed slot.
            if smooth.bleed_fraction <= 0.0 {
                prop_assert!(friction(rough) >= friction(smooth) * (1.0 - 1e-9));
            }
            prop_assert!(rough.runs_outlet <= smooth.runs_outlet + 1e-6);
            Ok(())
        },
    );
}

#[test]
fn more_runs_cool_the_gas_and_hold_it_back() {
    trend(
        |design| design.path.run_count += 1,
        |few, many| {
            prop_assert!(many.runs_outlet < few.runs_outlet);
            // What more runs hold back may take the bleed slot instead, hot.
            if few.bleed_fraction <= 0.0 {
                prop_assert!(many.chimney_inlet < few.chimney_inlet);
                prop_assert!(many.efficiency_lower > few.efficiency_lower);
            }
            // Not all losses: cooler gas takes less friction and speed in a narrow flue, which can
            // outweigh one more run.
            let held = |fire: &HeightOfFire| -> f64 {
                fire.runs.iter().map(|run| run.friction + run.turn).sum()
            };
            if few.bleed_fraction <= 0.0 {
                prop_assert!(held(many) > held(few), "{} to {} Pa", held(few), held(many));
            }
            Ok(())
        },
    );
}

#[test]
fn each_further_run_gains_less() {
    holds(25, &usual(), |mut design| {
        design.path.overrides.clear();
        design.path.oven.place = 0;
        // What more runs hold back may take the bleed slot instead, hot.
        design.path.bleed_area = 0.0;
        // Behind the firebox the lowest runs share its wall and are not like the others.
        if design.path.layout == Layout::Behind {
            design.path.layout = Layout::Above;
        }
        design.chimney.mouth_height = 15.0;
        let mut efficiencies = Vec::new();
        for runs in 1..=10 {
            design.path.run_count = runs;
            if !check(&design).is_empty() {
                break;
            }
            efficiencies.push(fire(&design)?.efficiency_lower);
        }
        let gains: Vec<f64> = efficiencies.windows(2).map(|pair| pair[1] - pair[0]).collect();
        for pair in gains.windows(2) {
            prop_assert!(pair[1] < pair[0] + 1e-6, "{efficiencies:?}");
        }
        Ok(())
    });
}

// ---------------------------------------------------------------- the march

const DUCT: Duct = Duct {
    hydraulic_diameter: 0.2,
    length: 1.5,
    roughness: 0.003,
    laminar_friction: 57.0,
    laminar_nusselt: 2.98,
};

fn stream() -> Stream {
    let wood = Design::demonstration().fire.species.ultimate();
    Stream {
        gas: Gas::new(flue_gas(&wood, 0.17, 2.2).composition),
        mass_flow: 0.035,
        pressure: 101_325.0,
        factors: Factors::NOMINAL,
    }
}

/// Three cells a run, as the analysis takes, against three hundred: 1 % of the stack loss.
#[test]
fn a_few_cells_give_what_many_give() {
    let thick = Sink::alone(0.6, 293.15, 0.045);
    let shared = Sink::alone(0.2, 293.15, 0.06);
    let sinks = [thick, shared];
    let mut channel = Channel {
        duct: DUCT,
        length: 1.5,
        area: 0.04,
        volume_over_area: 0.25 * DUCT.hydraulic_diameter,
        sinks: &sinks,
        wall_emissivity: 0.9,
        cells: 3,
    };
    let stream = stream();
    for inlet in [400.0, 600.0, 800.0, 1000.0, 1200.0] {
        channel.cells = 3;
        let coarse = march(&stream, &channel, inlet);
        channel.cells = 300;
        let fine = march(&stream, &channel, inlet);
        let stack = |t: f64| stream.gas.enthalpy(t) - stream.gas.enthalpy(293.15);
        let gap = stack(coarse.outlet) / stack(fine.outlet) - 1.0;
        assert!(gap.abs() < 0.01, "{inlet} K: {gap}");
        assert!((coarse.friction / fine.friction - 1.0).abs() < 0.01, "{inlet} K");
        assert!((coarse.wall - fine.wall).abs() < 3.0, "{inlet} K");
    }
}

/// Limits of the march: no length, a wall that takes nothing, a very long duct.
#[test]
fn the_march_has_its_limits() {
    let stream = stream();
    let outlet = |length: f64, resistance: f64| {
        let sinks = [Sink::alone(0.8, 293.15, resistance)];
        let channel = Channel {
            duct: DUCT,
            length,
            area: 0.04,
            volume_over_area: 0.25 * DUCT.hydraulic_diameter,
            sinks: &sinks,
            wall_emissivity: 0.9,
            cells: 1,
        };
        march(&stream, &channel, 800.0).outlet
    };
    assert!((outlet(0.0, 0.05) - 800.0).abs() < 1e-9);
    assert!((outlet(1.0, 1e9) - 800.0).abs() < 1e-2);
    assert!((outlet(1e4, 0.05) - 293.15).abs() < 1e-3);
}

// ---------------------------------------------------------------- formulas that are off

/// Without radiation, a film twice as strong does what a duct twice as long does.
#[test]
fn a_stronger_film_is_a_longer_duct() {
    let outlet = |convection: f64, length: f64| {
        let factors = Factors { convection, gas_radiation: 0.0, ..Factors::NOMINAL };
        let sinks = [Sink::alone(0.8, 293.15, 0.0)];
        let channel = Channel {
            duct: DUCT,
            length,
            area: 0.04,
            volume_over_area: 0.25 * DUCT.hydraulic_diameter,
            sinks: &sinks,
            wall_emissivity: 0.9,
            cells: 1,
        };
        let passage = march(&Stream { factors, ..stream() }, &channel, 800.0);
        assert!(passage.radiation_fraction.abs() < 1e-12);
        passage.outlet
    };
    for factor in [0.5, 1.3, 2.0] {
        near(outlet(factor, 1.5), outlet(1.0, 1.5 * factor), 1e-9);
    }
}

#[test]
fn factors_of_one_change_no_bit() {
    holds(100, &possible(), |design| {
        let (plain, nominal) = (analyze(&design), analyze_with(&design, &Factors::default()));
        prop_assert_eq!(plain.is_ok(), nominal.is_ok());
        if let (Ok(plain), Ok(nominal)) = (plain, nominal) {
            let bits = |analysis: &Analysis| -> Vec<_> {
                let all = figures(analysis).into_iter();
                all.map(|(name, value)| (name, value.map(f64::to_bits))).collect()
            };
            prop_assert_eq!(bits(&plain), bits(&nominal));
        }
        Ok(())
    });
}

/// Each factor moves the figure for which it is there, and the way it must.
#[test]
fn each_factor_moves_what_it_names() {
    type Moved = fn(&Analysis) -> f64;
    let more: [(&str, Factors, Moved, f64); 8] = [
        ("convection", factor(|f| f.convection = 1.2), |a| a.height_of_fire.runs_outlet, -1.0),
        (
            "radiation",
            factor(|f| f.gas_radiation = 1.2),
            |a| a.height_of_fire.runs_outlet,
            -1.0,
        ),
        (
            "core",
            factor(|f| f.core_conductivity = 1.2),
            |a| a.height_of_fire.firebox_wall,
            -1.0,
        ),
        (
            "core",
            factor(|f| f.core_heat_capacity = 1.2),
            |a| a.height_of_fire.firebox_wall,
            -1.0,
        ),
        (
            "flue",
            factor(|f| f.flue_conductivity = 1.2),
            |a| a.height_of_fire.chimney_mouth_wall,
            -1.0,
        ),
        (
            "film",
            factor(|f| f.outside_film = 1.2),
            |a| a.height_of_fire.chimney_mouth_wall,
            -1.0,
        ),
        ("wood", factor(|f| f.kindling_rate = 1.2), |a| a.conditions.cold_start.burn_rate, 1.0),
        (
            "air",
            factor(|f| f.kindling_excess_air = 1.2),
            |a| a.conditions.cold_start.excess_air_ratio,
            1.0,
        ),
    ];
    let seen = std::cell::Cell::new(0);
    holds(40, &usual(), |mut design| {
        design.path.run_count = design.path.run_count.max(1);
        if !check(&design).is_empty() {
            return Ok(());
        }
        let plain = analyzed(&design)?;
        for (name, factors, figure, way) in &more {
            let moved = analyze_with(&design, factors)
                .map_err(|failure| TestCaseError::fail(format!("{failure:?}")))?;
            let by = figure(&moved) - figure(&plain);
            prop_assert!(by * way > 0.0, "{name}: {by}");
        }
        seen.set(seen.get() + 1);
        Ok(())
    });
    assert!(seen.get() > 20, "only {} designs", seen.get());
}

fn factor(change: impl FnOnce(&mut Factors)) -> Factors {
    let mut factors = Factors::NOMINAL;
    change(&mut factors);
    factors
}

#[test]
fn no_runs_is_a_firebox_under_a_chimney() {
    for layout in Layout::ALL {
        let mut design = Design::demonstration();
        design.path.layout = *layout;
        design.path.run_count = 0;
        let fire = analyze(&design).unwrap().height_of_fire;
        assert!((fire.runs_outlet - fire.firebox_outlet).abs() < 1e-9);
        assert!(fire.runs.is_empty() && fire.path_length.abs() < 1e-12);
    }
}

// ---------------------------------------------------------------- decoders

/// Texts of good designs, to be spoiled.
fn good() -> impl Strategy<Value = Design> {
    possible().prop_filter("possible", |design| check(design).is_empty())
}

fn link_is_good_or_refused(fragment: &str) -> Outcome {
    match link::decode_pinned(fragment) {
        Ok(link::Linked { design, pinned }) => {
            prop_assert!(pinned.len() <= document::MOST_PINNED);
            prop_assert!(pinned.iter().all(|each| check(each).is_empty()));
            prop_assert!(check(&design).is_empty());
            prop_assert!(design.name.chars().count() <= document::MOST_NAME);
            prop_assert!(design.path.overrides.len() <= MOST_RUNS);
            // Temperatures are kept to a billionth of a degree, so once more around is exact.
            let kept = link::decode(&link::encode(&design));
            prop_assert!(kept.is_ok());
            prop_assert_eq!(link::decode(&link::encode(kept.as_ref().unwrap())), kept);
            reads_again(&document::write_pinned(&design, &pinned, None))?;
        }
        Err(error) => prop_assert!(!error.to_string().is_empty()),
    }
    Ok(())
}

fn file_is_good_or_refused(text: &str) -> Outcome {
    match document::read(text) {
        Ok(document) => {
            prop_assert!(check(&document.design).is_empty());
            prop_assert!(document.pinned.len() <= document::MOST_PINNED);
            prop_assert!(document.pinned.iter().all(|each| check(each).is_empty()));
            prop_assert!(document.design.name.chars().count() <= document::MOST_NAME);
            reads_again(&document.written())?;
        }
        Err(error) => prop_assert!(!error.to_string().is_empty()),
    }
    Ok(())
}

/// A file that we write is read, and written once more it means the same.
fn reads_again(text: &str) -> Outcome {
    let kept = document::read(text);
    prop_assert!(kept.is_ok(), "{} bytes: {kept:?}", text.len());
    let kept = kept.unwrap();
    let again = document::read(&kept.written()).map(|read| (read.design, read.pinned));
    prop_assert_eq!(again, Ok((kept.design, kept.pinned)));
    Ok(())
}

/// Changes to a text of bytes: which, where, and to what.
fn spoil() -> impl Strategy<Value = Vec<(u8, prop::sample::Index, u8)>> {
    vec((0..4_u8, any::<prop::sample::Index>(), any::<u8>()), 1..4)
}

fn spoiled(mut bytes: Vec<u8>, changes: &[(u8, prop::sample::Index, u8)]) -> Vec<u8> {
    for (kind, place, byte) in changes {
        if bytes.is_empty() {
            break;
        }
        let at = place.index(bytes.len());
        match kind {
            0 => bytes[at] = *byte,
            1 => bytes.insert(at, *byte),
            2 => drop(bytes.remove(at)),
            _ => bytes.truncate(at),
        }
    }
    bytes
}

fn fragment(version: u32, packed: &[u8]) -> String {
    let text = URL_SAFE_NO_PAD.encode(packed);
    format!("{version}.{text}")
}

/// A text as links of a version pack it: bare in version 1, with its checksum behind it since.
fn packed(version: u32, text: &[u8]) -> Vec<u8> {
    let packed = miniz_oxide::deflate::compress_to_vec(text, 6);
    if version == 1 { packed } else { sealed(version, packed) }
}

/// With CRC-32 behind, by table; since version 3 of the version too.
fn sealed(version: u32, mut packed: Vec<u8>) -> Vec<u8> {
    let table = |index: u32| {
        (0..8)
            .fold(index, |sum, _| if sum % 2 == 1 { 0xEDB8_8320 ^ (sum / 2) } else { sum / 2 })
    };
    let front = if version < 3 { String::new() } else { version.to_string() };
    let sum = front
        .as_bytes()
        .iter()
        .chain(&packed)
        .fold(!0_u32, |sum, byte| table((sum ^ u32::from(*byte)) & 0xFF) ^ (sum >> 8));
    packed.extend((!sum).to_be_bytes());
    packed
}

fn version() -> impl Strategy<Value = u32> {
    1..=link::PINNED_VERSION
}

/// JSON of any shape, with our own keys and odd numbers among its parts.
fn json() -> impl Strategy<Value = serde_json::Value> {
    use serde_json::{Value, json};
    let number = prop_oneof![
        any::<f64>().prop_map(|x| json!(x)),
        any::<i64>().prop_map(|x| json!(x)),
        (-100.0..100.0_f64).prop_map(|x| json!(x)),
        Just(json!(1e308)),
        Just(json!(-0.0)),
    ];
    let text = prop_oneof![
        Just("above".to_owned()),
        Just("round".to_owned()),
        ".{0,100}".prop_map(|text| text),
    ];
    let leaf = prop_oneof![
        4 => number,
        2 => text.prop_map(Value::String),
        1 => any::<bool>().prop_map(Value::Bool),
        1 => Just(Value::Null),
    ];
    leaf.prop_recursive(3, 24, 6, |inner| {
        prop_oneof![
            vec(inner.clone(), 0..14).prop_map(Value::Array),
            vec(("[a-z]{1,3}", inner), 0..6)
                .prop_map(|pairs| Value::Object(pairs.into_iter().collect())),
        ]
    })
}

#[test]
fn links_of_any_text_open_or_are_refused() {
    let text = prop_oneof![
        ".{0,60}",
        "[0-9]{1,12}\\.[A-Za-z0-9_-]{0,200}",
        "[12]\\.[A-Za-z0-9_=+/-]{0,200}",
    ];
    holds(4000, &text, |text| link_is_good_or_refused(&text));
}

#[test]
fn links_of_any_bytes_open_or_are_refused() {
    let bytes = (version(), vec(any::<u8>(), 0..300), any::<bool>());
    holds(4000, &bytes, |(version, bytes, pack)| {
        let bytes = if pack { packed(version, &bytes) } else { bytes };
        link_is_good_or_refused(&fragment(version, &bytes))
    });
}

#[test]
fn links_with_spoiled_packing_open_or_are_refused() {
    let cases = (good(), spoil());
    holds(2000, &cases, |(design, changes)| {
        let link = link::encode(&design);
        let text = spoiled(link.clone().into_bytes(), &changes);
        link_is_good_or_refused(&String::from_utf8_lossy(&text))?;
        let packed = URL_SAFE_NO_PAD.decode(link.strip_prefix("3.").unwrap()).unwrap();
        link_is_good_or_refused(&fragment(2, &spoiled(packed.clone(), &changes)))?;
        // The same without its checksum is a link of version 1; with a new one it is well packed.
        let bare = spoiled(packed[..packed.len() - 4].to_vec(), &changes);
        link_is_good_or_refused(&fragment(1, &bare))?;
        link_is_good_or_refused(&fragment(2, &sealed(2, bare)))
    });
}

/// One character changed, wherever it stands and whatever it becomes: the link is refused, or it
/// means the same. So with a piece cut off or put on.
#[test]
fn a_damaged_link_never_opens_with_other_figures() {
    const ALPHABET: &[u8] =
        b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_.~";
    let tried = std::cell::Cell::new(0_u32);
    let check = |design: &Design, bytes: &[u8]| {
        tried.set(tried.get() + 1);
        let text = String::from_utf8_lossy(bytes);
        let opened = link::decode(&text);
        let same = opened.as_ref().map_or(true, |other| other == design);
        prop_assert!(same, "{text} opens");
        Ok(())
    };
    holds(60, &good(), |design| {
        let link = link::encode(&design).into_bytes();
        let design = link::decode(std::str::from_utf8(&link).unwrap()).unwrap();
        for at in 0..link.len() {
            for step in 0..6 {
                let mut bytes = link.clone();
                bytes[at] =
                    ALPHABET[(11 * step + 7 * at + usize::from(link[at])) % ALPHABET.len()];
                check(&design, &bytes)?;
            }
            check(&design, &link[..at])?;
            check(&design, &[&link[..], &link[at..]].concat())?;
        }
        Ok(())
    });
    // Every character that it may become.
    let design = Design::demonstration();
    let link = link::encode(&design).into_bytes();
    for at in 0..link.len() {
        for other in ALPHABET {
            let mut bytes = link.clone();
            bytes[at] = *other;
            check(&design, &bytes).unwrap();
        }
    }
    assert!(tried.get() > 100_000, "{}", tried.get());
}

#[test]
fn links_with_spoiled_values_open_or_are_refused() {
    let keys: Vec<&str> = FIELDS.iter().map(|field| field.link).chain(["n", "ro"]).collect();
    let values = vec((prop::sample::select(keys), json()), 0..6);
    holds(4000, &(version(), values), |(version, pairs)| {
        let map: serde_json::Map<_, _> =
            pairs.into_iter().map(|(key, value)| (key.to_owned(), value)).collect();
        let text = serde_json::Value::Object(map).to_string();
        link_is_good_or_refused(&fragment(version, &packed(version, text.as_bytes())))
    });
}

#[test]
fn a_link_that_inflates_without_end_is_refused() {
    for version in 1..=link::VERSION {
        let bomb = packed(version, &vec![b' '; 8_000_000]);
        assert!(link::decode(&fragment(version, &bomb)).is_err());
    }
}

/// What is asked of bytes.
type Holds<'a> = dyn Fn(&[u8]) -> Outcome + 'a;

/// What the fuzzer starts from (`make fuzz`): every link and file of the corpus, cut ones, bombs,
/// odd values. Also that none takes longer than a blink, at the quickest of some tries.
#[test]
fn the_seeds_of_the_fuzzer_open_or_are_refused_at_once() {
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
    let link = |bytes: &[u8]| link_is_good_or_refused(&text(bytes));
    let pack = |bytes: &[u8]| link_is_good_or_refused(&fragment(1, bytes));
    let values = |bytes: &[u8]| link_is_good_or_refused(&fragment(1, &packed(1, bytes)));
    let file = |bytes: &[u8]| file_is_good_or_refused(&text(bytes));
    let kinds: [(&str, &Holds<'_>); 4] =
        [("link", &link), ("packed", &pack), ("values", &values), ("file", &file)];
    for (kind, holds) in kinds {
        let folder =
            std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/corpus").join(kind);
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let bytes = std::fs::read(&path).unwrap();
            holds(&bytes).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
            let once = || {
                let start = std::time::Instant::now();
                match kind {
                    "file" => drop(document::read(&text(&bytes))),
                    "link" => drop(link::decode(&text(&bytes))),
                    _ => drop(link::decode(&fragment(1, &bytes))),
                }
                start.elapsed()
            };
            let quickest = (0..5).map(|_| once()).min().unwrap();
            assert!(quickest.as_millis() < 5, "{}: {quickest:?}", path.display());
        }
    }
}

#[test]
fn files_of_any_text_open_or_are_refused() {
    let text = prop_oneof![
        ".{0,200}".prop_map(|text| text),
        json().prop_map(|value| value.to_string()),
        "\\{\"heater_design_version\": ?-?[0-9.e]{1,6}\\}".prop_map(|text| text),
    ];
    holds(4000, &text, |text| file_is_good_or_refused(&text));
}

#[test]
fn files_with_spoiled_text_open_or_are_refused() {
    let cases = (good(), spoil());
    holds(1500, &cases, |(design, changes)| {
        let text = spoiled(document::write(&design, None).into_bytes(), &changes);
        file_is_good_or_refused(&String::from_utf8_lossy(&text))
    });
}

#[test]
fn files_with_spoiled_values_open_or_are_refused() {
    let paths: Vec<&str> = FIELDS
        .iter()
        .map(|field| field.path)
        .chain(["path.runs", "site", "path", "name", "heater_design_version"])
        .collect();
    let values = vec((prop::sample::select(paths), json()), 0..5);
    holds(3000, &values, |pairs| {
        let text = document::write(&Design::demonstration(), None);
        let mut root: serde_json::Value = serde_json::from_str(&text).unwrap();
        for (path, value) in pairs {
            let (group, key) = path.split_once('.').unwrap_or(("", path));
            let parent = if group.is_empty() { Some(&mut root) } else { root.get_mut(group) };
            if let Some(serde_json::Value::Object(map)) = parent {
                map.insert(key.into(), value);
            }
        }
        file_is_good_or_refused(&root.to_string())
    });
}

/// What is short as it comes and long as it is written: a line for each of many, and letters that
/// are written as six.
#[test]
fn files_that_hold_much_open_or_are_refused() {
    let one = prop::sample::select(vec!["1", "[]", "{\"a\":[0]}", "\"\\u0001\""]);
    holds(60, &(one, 0..130_000_usize), |(one, count)| {
        let many = vec![one; count.min(250_000 / (one.len() + 1))].join(",");
        file_is_good_or_refused(&format!("{{\"heater_design_version\":1,\"x\":[{many}]}}"))
    });
}

#[test]
fn links_that_hold_much_open_or_are_refused() {
    let letter = prop::sample::select(vec!['a', '\u{1}']);
    holds(40, &(letter, 0..=400_usize, 0..=4_usize), |(letter, notes, pinned)| {
        let long = letter.to_string().repeat(45);
        let notes: Vec<String> = (0..notes)
            .map(|count| format!("{:?}:{:?}", format!("{count:03}{long}"), 1))
            .collect();
        let notes = notes.join(",").replace("\\u{1}", "\\u0001");
        let pinned = vec!["{}"; pinned].join(",");
        let text = format!("{{\"no\":{{{notes}}},\"pd\":[{pinned}]}}");
        link_is_good_or_refused(&fragment(4, &packed(4, text.as_bytes())))
    });
}

// ---------------------------------------------------------------- side branches

/// Figures of the trade's physics notes: 15 cm2 at 700 C and 16 Pa pass about 6 % of the flow of a
/// 15 kg charge (0.0035 kg/s per kg), and the slot costs 2.5 to 4.5 points of the heat.
#[test]
fn a_bleed_slot_takes_its_share_of_gas_and_heat() {
    let gas = Gas::new(flue_gas(&Wood::Mixed.ultimate(), 0.17, 2.5).composition);
    let density = gas.density(101_325.0, kelvin(700.0));
    let share = orifice_flow(15e-4, density, 16.0) / (0.0035 * 15.0);
    assert!((0.055..0.065).contains(&share), "{share}");

    let closed = Design::demonstration();
    let mut open = closed.clone();
    // The demonstration moves less gas than the notes' fire: the same share takes a smaller slot.
    open.path.bleed_area = 10e-4;
    let [closed, open] = [closed, open].map(|design| fire(&design).unwrap());
    assert!((0.05..0.07).contains(&open.bleed_fraction), "{}", open.bleed_fraction);
    let points = 100.0 * (closed.efficiency_lower - open.efficiency_lower);
    assert!((2.5..4.5).contains(&points), "{points}");
    assert!(open.runs_outlet < closed.runs_outlet, "less gas through the runs");
    assert!(open.chimney_inlet > closed.chimney_inlet, "hot gas joins it");
}

#[test]
fn a_bypass_helps_the_cold_start_alone() {
    let shut = analyze(&Design::demonstration()).unwrap();
    let mut design = Design::demonstration();
    design.path.bypass_area = 0.01;
    let opened = analyze(&design).unwrap();
    assert_eq!(shut.height_of_fire, opened.height_of_fire);
    let margin = |analysis: &Analysis| analysis.conditions.cold_start.mild_day.margin;
    assert!(margin(&opened) > margin(&shut) + 1.0);
}

/// Runs of 0.5 x 0.55 m carry the gas of runs of 0.14 x 0.24 m at an eighth of its speed: its
/// Richardson number grows by 8^2 times three diameters, far past 1. Roughness of 5 mm in runs of
/// 60 mm is 0.083 of them.
#[test]
fn what_lies_outside_the_range_of_a_formula_is_listed() {
    let listed = |change: &dyn Fn(&mut Design)| {
        let mut design = Design::demonstration();
        change(&mut design);
        analyze(&design).unwrap().height_of_fire
    };
    let has = |fire: &HeightOfFire, formula| {
        fire.extrapolations.iter().any(|found| found.formula == formula)
    };
    let usual = listed(&|_| ());
    assert!(usual.runs.iter().all(|run| run.richardson < 1.0));
    for formula in [Formula::ForcedConvection, Formula::ColebrookFriction, Formula::NorrisGain]
    {
        assert!(!has(&usual, formula), "{formula:?}");
    }
    let slow = listed(&|design| {
        design.path.run_width = 0.5;
        design.path.run_height = 0.55;
        design.path.run_count = 2;
    });
    let most = slow.runs.iter().map(|run| run.richardson).fold(0.0, f64::max);
    let found = slow.extrapolations.iter().find(|e| e.formula == Formula::ForcedConvection);
    assert!(1.0 < most && found.is_some_and(|found| (found.value - most).abs() < 1e-12));
    let rough = listed(&|design| {
        design.path.run_width = 0.06;
        design.path.run_height = 0.06;
        design.path.roughness = 0.005;
    });
    assert!(has(&rough, Formula::ColebrookFriction));
}

/// A large chamber holds the gas back less by friction, and more by the changes of its section.
#[test]
fn an_oven_is_a_run_with_losses_of_its_own() {
    let mut design = Design::demonstration();
    design.chimney.mouth_height = 8.0;
    let plain = path(&design);
    design.path.oven.place = 2;
    let oven = path(&design);
    let (run, chamber) = (&plain.segments[1], &oven.segments[1]);
    assert_eq!(plain.segments.len(), oven.segments.len());
    assert!(run.turn_coefficient < chamber.turn_coefficient);
    assert!(plain.segments[2].turn_coefficient < oven.segments[2].turn_coefficient);
    // A box has more surface around its gas than an endless duct of its section.
    assert!(chamber.volume_over_area < 0.25 * chamber.duct.hydraulic_diameter);
    assert!((run.volume_over_area - 0.25 * run.duct.hydraulic_diameter).abs() < 1e-12);
    // Hottel: a cube of side a has a mean beam length of 0.6 a.
    design.path.oven = Oven { place: 2, width: 0.4, depth: 0.4, height: 0.4, door_area: 0.0 };
    let cube = path(&design).segments[1].volume_over_area;
    assert!((3.6 * cube - 0.6 * 0.4).abs() < 1e-12);
    // With both ends of 0.4 by 0.35 m, less slots as large as the runs beside it.
    let girths: f64 = chamber.walls.iter().map(|wall| wall.girth).sum();
    let ends = 2.0 * (0.4 * 0.35 - run.area) / 0.5;
    assert!((girths - 2.0 * (0.4 + 0.35) - ends).abs() < 1e-9, "{girths}");
    assert!(analyze(&design).is_ok());
    design.path.layout = Layout::Bench;
    assert_eq!(check(&design)[0].kind, ProblemKind::OvenInBench);
}

/// Runs that lie lower than what comes before fall, and the sum of rises is the way from the
/// firebox to the exit.
#[test]
fn rises_have_the_sign_of_their_layout() {
    for layout in [Layout::Above, Layout::Behind, Layout::Bench] {
        let mut design = Design::demonstration();
        design.path.layout = layout;
        let path = path(&design);
        let turns = &path.segments[1..];
        match layout {
            Layout::Above => assert!(path.segments.iter().all(|run| run.rise > 0.0)),
            Layout::Behind => assert!(turns.iter().all(|run| run.rise < 0.0)),
            Layout::Bench => {
                assert!(path.segments[0].rise < 0.0);
                assert!(turns.iter().all(|run| run.rise.abs() < 1e-12));
            }
        }
        let sum: f64 = path.segments.iter().map(|run| run.rise).sum();
        assert!((design.firebox.height + sum - path.exit_height).abs() < 1e-12, "{layout:?}");
        let pull = analyze(&design).unwrap().height_of_fire.ledger;
        let rises = pull.iter().find(|entry| entry.item == Item::RunRises).unwrap();
        let rising = layout == Layout::Above;
        assert_eq!(rises.pascals > 0.0, rising, "{layout:?}: {rises:?}");
    }
}
