//! Safety at its unfavorable edge: what must hold for any design, and how good a coarse day is.

use crate::laws::{holds, usual};
use longsmoke::analysis::Failure;
use longsmoke::analysis::day::{DayState, Setup, repeating_alone, repeating_near};
use longsmoke::analysis::factors::Factors;
use longsmoke::design::{Design, document};
use longsmoke::rules::Edges;
use longsmoke::study::edges::{Deciding, Study, edges as all_edges, is_varied};
use longsmoke::study::uncertainty::{
    Distribution, SPREADS, Setup as Samples, Spread, SpreadId,
};
use proptest::prelude::*;

fn varied(samples: u32) -> Samples {
    let mut samples = Samples::standard(samples);
    samples.spreads.retain(is_varied);
    samples
}

fn edges(design: &Design, samples: Samples) -> Result<Edges, Failure> {
    let study = Study::with(design, samples)?;
    let found: Vec<_> = (0..study.len()).filter_map(|index| study.sample(index)).collect();
    study.sum_up(&found)
}

fn figures(edges: &Edges) -> [(f64, f64); 4] {
    let Edges { peak_gas, peak_firebox, hottest_face, short_of_draft, .. } = edges;
    [
        (peak_gas.nominal, peak_gas.edge),
        (peak_firebox.nominal, peak_firebox.edge),
        (hottest_face.nominal, hottest_face.edge),
        (short_of_draft.nominal, short_of_draft.edge),
    ]
}

/// One spread of the convection alone: how far the hottest gas is above nominal.
fn rise(factor: f64) -> f64 {
    let spread = *SPREADS.iter().find(|spread| spread.id == SpreadId::Convection).unwrap();
    let spread = Spread { distribution: Distribution::Lognormal { factor }, ..spread };
    let samples = Samples { spreads: vec![spread], ..Samples::standard(9) };
    let found = edges(&Design::demonstration(), samples).unwrap();
    found.peak_gas.edge - found.peak_gas.nominal
}

#[test]
fn without_spreads_the_edge_is_nominal_and_more_spread_is_farther() {
    let samples = Samples { spreads: Vec::new(), ..Samples::standard(3) };
    let found = edges(&Design::demonstration(), samples).unwrap();
    for (nominal, edge) in figures(&found) {
        // A day that starts from its own repeating state is off by what counts as repeating.
        assert!((0.0..0.5).contains(&(edge - nominal)), "{nominal}, {edge}");
    }
    assert!((found.mouth_wall.edge - found.mouth_wall.nominal).abs() < 1e-9);
    let rises = [1.1, 1.3, 1.6].map(rise);
    assert!(1.0 < rises[0] && rises[0] < rises[1] && rises[1] < rises[2], "{rises:?}");
}

#[test]
fn a_seed_gives_the_same_edges_in_whatever_order() {
    let study = Study::with(&Design::demonstration(), varied(6)).unwrap();
    let mut found: Vec<_> = (0..6).filter_map(|index| study.sample(index)).collect();
    assert_eq!(study.sample(6), None);
    let forward = study.sum_up(&found).unwrap();
    found.reverse();
    assert_eq!(study.sum_up(&found).unwrap(), forward);
    assert_eq!(edges(&Design::demonstration(), varied(6)).unwrap(), forward);
    let other = Samples { seed: 2, ..varied(6) };
    assert_ne!(edges(&Design::demonstration(), other).unwrap().peak_gas, forward.peak_gas);
}

#[test]
fn an_edge_is_never_on_the_favorable_side() {
    holds(3, &usual(), |design| {
        let found = match edges(&design, varied(5)) {
            Ok(found) => found,
            Err(Failure::FireStarved | Failure::DayUnsettled | Failure::NotPeriodic) => {
                return Ok(());
            }
            Err(failure) => return Err(TestCaseError::fail(format!("{failure:?}"))),
        };
        for (nominal, edge) in figures(&found) {
            prop_assert!(nominal <= edge, "{found:?}");
        }
        prop_assert!(found.mouth_wall.edge <= found.mouth_wall.nominal, "{found:?}");
        Ok(())
    });
}

fn reference(name: &str) -> Design {
    let path = format!("tests/reference/designs/{name}.json");
    document::read(&std::fs::read_to_string(path).unwrap()).unwrap().design
}

/// Peaks over the room: a coarse day is within 1.5 % of the standard one, and what spreads change
/// in it within 1 % of that.
#[test]
fn a_coarse_day_is_near_enough() {
    for name in ["fjord_bench", "birch_barn", "heath_bench"] {
        let design = reference(name);
        let room = design.site.room_temperature;
        let peaks = |state: &DayState| {
            [
                state.peak.chimney_inlet.temperature - room,
                state.peak.firebox_outlet.temperature - room,
                state.peak.surface.temperature - room,
            ]
        };
        let mut other = design.clone();
        other.fire.excess_air_ratio *= 1.2;
        let factors = Factors { convection: 0.8, core_conductivity: 1.2, ..Factors::NOMINAL };
        let [fine, rough] = [Setup::STANDARD, Setup::COARSE].map(|setup| {
            let near = repeating_alone(&design, &setup).unwrap();
            let setup = Setup { factors, ..setup };
            let far = repeating_near(&other, &setup, &near).unwrap();
            [peaks(&near.state), peaks(&far.state)]
        });
        for place in 0..3 {
            let (standard, found) = (fine[0][place], rough[0][place]);
            assert!((found / standard - 1.0).abs() < 0.015, "{name}: {found}, {standard}");
            let [change, of] = [&rough, &fine].map(|[near, far]| far[place] - near[place]);
            assert!((change - of).abs() < 0.01 * standard, "{name}: {change} K, {of} K");
        }
    }
}

/// What a formula is off by moves the day as it moves the height of the fire.
#[test]
fn factors_reach_the_day() {
    let design = Design::demonstration();
    let coarse = Setup::COARSE;
    let near = repeating_alone(&design, &coarse).unwrap();
    let with = |change: fn(&mut Factors)| {
        let mut factors = Factors::NOMINAL;
        change(&mut factors);
        repeating_near(&design, &Setup { factors, ..coarse.clone() }, &near).unwrap().state
    };
    let gas = |state: &DayState| state.burn_mean.chimney_inlet;
    let wall = |state: &DayState| state.draft.coldest_mouth_wall;
    assert!(gas(&with(|factors| factors.convection = 1.3)) < gas(&near.state) - 2.0);
    assert!(gas(&with(|factors| factors.gas_radiation = 1.2)) < gas(&near.state) - 1.0);
    assert!(gas(&with(|factors| factors.core_conductivity = 1.25)) < gas(&near.state) - 1.0);
    assert!(gas(&with(|factors| factors.core_heat_capacity = 1.15)) < gas(&near.state) - 0.5);
    // A day ends with a wall that has fallen farther where more passes to outdoors.
    assert!(wall(&with(|factors| factors.outside_film = 1.4)) < wall(&near.state));
    assert!(wall(&with(|factors| factors.flue_conductivity = 1.5)) < wall(&near.state));
}

/// The few cases that decide the edges of a design tell those of one that is a little other within
/// 4 K of what all samples do, a tenth of what the edge is off by there.
#[test]
fn few_cases_tell_the_edge_of_a_design_much_alike() {
    let design = Design::demonstration();
    let study = Study::new(&design).unwrap();
    let samples: Vec<_> = (0..study.len()).filter_map(|index| study.sample(index)).collect();
    let deciding = Deciding::new(&study, &samples).unwrap();
    assert_eq!(*deciding.edges(), study.sum_up(&samples).unwrap());
    // Of itself they tell what they were picked from.
    let same = deciding.estimate(&design, None).unwrap();
    for ((nominal, edge), (is, at)) in figures(&same).into_iter().zip(figures(deciding.edges()))
    {
        assert!((nominal - is).abs() < 0.1 && (edge - at).abs() < 0.1, "{edge} {at}");
    }
    assert!((same.mouth_wall.edge - deciding.edges().mouth_wall.edge).abs() < 1e-9);
    let mut other = design.clone();
    other.path.run_length += 0.2;
    other.fire.charge -= 1.0;
    let (told, all) = (deciding.estimate(&other, None).unwrap(), all_edges(&other).unwrap());
    for ((nominal, edge), (is, at)) in figures(&told).into_iter().zip(figures(&all)).take(3) {
        assert!((nominal - is).abs() < 4.0 && (edge - at).abs() < 4.0, "{edge} K, {at} K");
    }
}
