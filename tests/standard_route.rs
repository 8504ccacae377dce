//! What must hold for the standard route of any design.

use crate::laws::{Outcome, holds, possible, usual};
use longsmoke::analysis::path::path;
use longsmoke::analysis::standard_route::limits::Limit;
use longsmoke::analysis::standard_route::pressure::{Part, RouteSegment};
use longsmoke::analysis::standard_route::{StandardRoute, gas, standard_route};
use longsmoke::design::Design;
use proptest::prelude::*;

/// The route before and after a change of any usual design.
#[track_caller]
fn route_trend(
    change: impl Fn(&mut Design),
    claim: impl Fn(&StandardRoute, &StandardRoute) -> Outcome,
) {
    holds(200, &usual(), |mut design| {
        design.path.overrides.clear();
        design.path.oven.place = 0;
        let before = standard_route(&design, &path(&design));
        change(&mut design);
        claim(&before, &standard_route(&design, &path(&design)))
    });
}

#[test]
fn after_the_route_a_longer_path_is_cooler_and_more_efficient() {
    route_trend(
        |design| design.path.run_length += 0.2,
        |short, long| {
            prop_assert!(long.path_length > short.path_length);
            prop_assert!(long.runs_outlet < short.runs_outlet);
            prop_assert!(long.efficiency > short.efficiency);
            prop_assert!(long.mouth.gas < short.mouth.gas);
            Ok(())
        },
    );
}

#[test]
fn after_the_route_a_larger_charge_wants_a_longer_path() {
    route_trend(
        |design| design.fire.charge += 2.0,
        |small, large| {
            prop_assert!(large.shortest_path > small.shortest_path);
            prop_assert!(large.runs_outlet > small.runs_outlet);
            prop_assert!(large.pressure.resistance > small.pressure.resistance);
            prop_assert!(large.firebox.surface > small.firebox.surface);
            Ok(())
        },
    );
}

#[test]
fn the_route_pulls_less_at_altitude_and_on_a_mild_day() {
    route_trend(
        |design| design.site.altitude += 300.0,
        |low, high| {
            prop_assert!(high.pressure.standing.abs() < low.pressure.standing.abs());
            prop_assert!(high.pressure.resistance > low.pressure.resistance);
            Ok(())
        },
    );
    route_trend(
        |design| design.site.outdoor_temperature += 5.0,
        |cold, mild| {
            prop_assert!(mild.pressure.standing < cold.pressure.standing);
            Ok(())
        },
    );
}

#[test]
fn the_route_adds_up_and_its_columns_reach_the_mouth() {
    holds(200, &possible(), |design| {
        let path = path(&design);
        let route = standard_route(&design, &path);
        let all = |of: fn(&RouteSegment) -> f64| route.segments.iter().map(of).sum::<f64>();
        let pressure = route.pressure;
        let held = all(|each| each.friction + each.turn) + pressure.inlet + pressure.mouth;
        prop_assert!((held - pressure.resistance).abs() < 1e-9 * (1.0 + held));
        let runs =
            route.segments.iter().filter(|each| matches!(each.part, Part::Run | Part::Rise));
        let length: f64 = runs.map(|each| each.length).sum();
        prop_assert!((length - route.path_length).abs() < 1e-9 * (1.0 + length));
        // With gas as dense everywhere the columns are that of the whole height.
        let outside = gas::air_density(design.site.outdoor_temperature, design.site.altitude);
        let height: f64 = route
            .segments
            .iter()
            .map(|each| each.standing / (gas::ROUTE_GRAVITY * (outside - each.density)))
            .filter(|rise| rise.is_finite())
            .sum();
        prop_assert!((height - design.chimney.mouth_height).abs() < 1e-6, "{height}");
        Ok(())
    });
}

type Set = fn(&mut Design, f64);

#[test]
fn each_limit_of_the_route_is_kept_just_within_and_told_just_beyond() {
    let broken = |design: &Design, limit: Limit| {
        let route = standard_route(design, &path(design));
        route.unmet.iter().any(|unmet| unmet.limit == limit)
    };
    let edges: [(Limit, f64, f64, Set); 8] = [
        (Limit::Charge, 40.0, 40.1, |design, x| design.fire.charge = x),
        (Limit::Charge, 10.0, 9.9, |design, x| design.fire.charge = x),
        (Limit::Moisture, 0.20, 0.201, |design, x| design.fire.moisture_fraction = x),
        (Limit::Moisture, 0.12, 0.119, |design, x| design.fire.moisture_fraction = x),
        (Limit::HeatingPeriod, 3.0, 3.1, |design, x| design.fire.firings_per_day = x),
        (Limit::FireboxHeight, 0.391, 0.389, |design, x| {
            design.fire.charge = 14.0;
            design.firebox.height = x;
        }),
        (Limit::BaseWidth, 0.231, 0.229, |design, x| design.firebox.depth = x),
        (Limit::Glass, 0.199, 0.201, |design, x| {
            let area = x * design.firebox.surface() / design.firebox.glass_fraction;
            design.firebox.door_width = area / design.firebox.door_height;
        }),
    ];
    for (limit, within, beyond, set) in edges {
        let mut design = Design::demonstration();
        set(&mut design, within);
        assert!(!broken(&design, limit), "{limit:?} at {within}");
        set(&mut design, beyond);
        assert!(broken(&design, limit), "{limit:?} at {beyond}");
    }
}
