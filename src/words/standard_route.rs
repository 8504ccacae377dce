//! The standard route in words: its label, a small table beside the model, why the two differ,
//! which of its limits a design does not keep.

use crate::analysis::HeightOfFire;
use crate::analysis::draft::Item;
use crate::analysis::standard_route::limits::{Bound, Limit, UnmetLimit};
use crate::analysis::standard_route::pressure::{Part, PressureCondition, RouteSegment};
use crate::analysis::standard_route::{LEAST_MOUTH_WALL_CELSIUS, StandardRoute};
use crate::design::Design;
use crate::language::{English, said, say};
use crate::units::{Quantity, System, figure, fixed, kelvin, number, unit_of};
use crate::words::passage::Passage;

/// Heading over the route.
pub const TITLE: English = English("The standard sizing route beside it");
/// What is said wherever figures of the route are shown.
pub const LABEL: English = English("After EN 15544 (from memory where marked)");
/// Limits of the route for which there is no input.
pub const NOT_CHECKED: English = English(
    "Not held to the route's limits, as they are no inputs here: size of the logs, porosity \
     of the fireclay, height of the air opening above the floor of the firebox.",
);

/// A design with its route and what the model found.
#[derive(Clone, Copy, Debug)]
pub struct Both<'a> {
    /// The design.
    pub design: &'a Design,
    /// The route.
    pub route: &'a StandardRoute,
    /// The model at the height of the fire.
    pub fire: &'a HeightOfFire,
}

/// Everything about the route: figures side by side, limits, why it differs, part by part.
pub fn passage(both: Both<'_>, system: System) -> Passage {
    let Both { route, .. } = both;
    let unmet = route.unmet.iter().map(|limit| unmet(limit, system));
    let limits = if route.unmet.is_empty() {
        said("The design keeps the limits of the route that were checked.")
    } else {
        said("Limits of the route that the design does not keep:")
    };
    Passage::new(TITLE)
        .text(format!("{LABEL}."))
        .table(&[said("Figure"), said("Route"), said("Model")], comparison(both, system))
        .text(limits)
        .list(unmet)
        .folded(Passage::new(said("Why the two differ")).list(differences(both, system)))
        .folded(segments(route, system))
        .text(NOT_CHECKED)
}

fn segments(route: &StandardRoute, system: System) -> Passage {
    let columns = [
        (said("Length"), Quantity::Length),
        (said("Gas"), Quantity::Temperature),
        (said("Speed"), Quantity::Speed),
        (said("Pulls"), Quantity::Pressure),
        (said("Holds back"), Quantity::Pressure),
    ];
    // Feet and inches carry their marks.
    let head = |(name, quantity): (&str, _)| match unit_of(quantity, system).symbol {
        "" => name.to_owned(),
        unit => format!("{name}, {unit}"),
    };
    let heads: Vec<_> =
        std::iter::once(said("Part").to_owned()).chain(columns.map(head)).collect();
    let heads: Vec<_> = heads.iter().map(String::as_str).collect();
    let row = |(segment, name): (&RouteSegment, String)| {
        let values = [
            segment.length,
            segment.mean,
            segment.velocity,
            segment.standing,
            segment.friction + segment.turn,
        ];
        let cells = values.into_iter().zip(columns);
        let cells = cells.map(|(value, (_, quantity))| number(value, quantity, system));
        std::iter::once(name).chain(cells).collect::<Vec<_>>()
    };
    let rows = route.segments.iter().zip(parts(route)).map(row);
    Passage::new(said("The route part by part")).table(&heads, rows)
}

/// Route and model side by side: what, after the route, in the model.
fn comparison(Both { route, fire, .. }: Both<'_>, system: System) -> Vec<Vec<String>> {
    let length = |value| figure(value, Quantity::Length, system);
    let row = |name: &str, quantity, of_route, of_model| {
        vec![
            name.to_owned(),
            figure(of_route, quantity, system),
            figure(of_model, quantity, system),
        ]
    };
    let temperature = Quantity::Temperature;
    let (pressure, mouth) = (&route.pressure, &route.mouth);
    vec![
        vec![
            said("Length of the smoke path").to_owned(),
            say!("at least {}", length(route.shortest_path)),
            length(fire.path_length),
        ],
        row(said("Gas in the firebox"), temperature, firebox(route, fire), fire.firebox_outlet),
        row(said("Gas out of the last run"), temperature, route.runs_outlet, fire.runs_outlet),
        row(said("Efficiency"), Quantity::Share, route.efficiency, fire.efficiency_lower),
        row(said("Flow of gas"), Quantity::MassFlow, route.gas_flow, fire.gas_flow),
        row(said("Excess air"), Quantity::Ratio, route.excess_air_ratio, fire.excess_air_ratio),
        row(said("What pulls"), Quantity::Pressure, pressure.standing, fire.draft),
        row(said("What holds back"), Quantity::Pressure, pressure.resistance, fire.losses),
        row(said("Wall at the mouth"), temperature, mouth.wall, fire.chimney_mouth_wall),
    ]
}

/// The temperature that the route puts into the firebox (K).
fn firebox(route: &StandardRoute, fire: &HeightOfFire) -> f64 {
    route.segments.first().map_or(fire.firebox_outlet, |segment| segment.mean)
}

/// Why route and model differ, a sentence or a few to each cause.
pub fn differences(both: Both<'_>, system: System) -> Vec<String> {
    let parts = [outlet, efficiency, flow, pressure, mouth];
    parts.map(|part| part(both, system)).to_vec()
}

fn outlet(Both { design, route, fire }: Both<'_>, system: System) -> String {
    let show = |value| figure(value, Quantity::Temperature, system);
    say!(
        "Gas leaves the runs at {} after the route, at {} in the model at the height of the \
         fire. The route knows only the charge and the length of the path, here {} times its \
         shortest: its gas cools as along walls that stay at room temperature, whatever they \
         are made of and however wide the runs. In the model the walls were at room \
         temperature when lit and have taken heat for {} since.",
        show(route.runs_outlet),
        show(fire.runs_outlet),
        figure(route.path_length / route.shortest_path, Quantity::Ratio, system),
        figure(0.5 * design.fire.burn_duration, Quantity::Duration, system),
    )
}

fn efficiency(Both { route, fire, .. }: Both<'_>, system: System) -> String {
    say!(
        "The route's efficiency is {}, the model's {} on the lower heating value. The route \
         reads it off a straight line over the outlet temperature that belongs to an excess air \
         of about 2.5; the model balances the heat at {}. No verdict rests on the route's \
         efficiency.",
        figure(route.efficiency, Quantity::Share, system),
        figure(fire.efficiency_lower, Quantity::Share, system),
        figure(fire.excess_air_ratio, Quantity::Ratio, system),
    )
}

fn flow(Both { route, fire, .. }: Both<'_>, system: System) -> String {
    let burn = |rate: f64| figure(fire.charge / rate, Quantity::Duration, system);
    say!(
        "The route moves {} of gas and burns the charge in {}: for this wood an excess air of \
         {}, for wood with 13 % of water about 2.95. The model moves {} at an excess air of {} \
         and a burn of {}. The route's flow and its efficiency thus belong to different fires.",
        figure(route.gas_flow, Quantity::MassFlow, system),
        burn(route.burning_rate),
        figure(route.excess_air_ratio, Quantity::Ratio, system),
        figure(fire.gas_flow, Quantity::MassFlow, system),
        figure(fire.excess_air_ratio, Quantity::Ratio, system),
        burn(fire.burn_rate),
    )
}

fn pressure(Both { design, route, fire }: Both<'_>, system: System) -> String {
    let show = |value| figure(value, Quantity::Pressure, system);
    let item = |item: Item| -> f64 {
        let entries = fire.ledger.iter().filter(|entry| entry.item == item);
        -entries.map(|entry| entry.pascals).sum::<f64>()
    };
    say!(
        "The route's pressure condition is an equality to design by, pull between resistance \
         and 5 % more: {} against {}, {}. The model asks what is left: draft {} against losses {}, \
         a margin of {}. It counts the suction of the house ({}) and the gas \
         set in motion ({}), which the route does not, and a reversal with {} where the route \
         has two turns of 1.2.",
        show(route.pressure.standing),
        show(route.pressure.resistance),
        condition(route.pressure.condition),
        show(fire.draft),
        show(fire.losses),
        show(fire.margin),
        show(item(Item::HouseSuction)),
        show(item(Item::Acceleration)),
        figure(design.path.reversal_coefficient, Quantity::Ratio, system),
    )
}

fn mouth(Both { route, fire, .. }: Both<'_>, system: System) -> String {
    let show = |value| figure(value, Quantity::Temperature, system);
    say!(
        "The route asks for {} on the wall at the mouth, whatever the wood and the air, and \
         finds {}. The model finds {} and holds it against the dew point of its own gas, {}.",
        show(kelvin(LEAST_MOUTH_WALL_CELSIUS)),
        show(route.mouth.wall),
        show(fire.chimney_mouth_wall),
        show(fire.dew_point),
    )
}

/// Outcome of the pressure condition.
pub fn condition(condition: PressureCondition) -> &'static str {
    let english = match condition {
        PressureCondition::TooLittle => "too little pull",
        PressureCondition::Met => "met",
        PressureCondition::TooMuch => "more pull than it wants",
    };
    said(english)
}

/// Names of the segments of the route, runs counted.
pub fn parts(route: &StandardRoute) -> Vec<String> {
    let mut run = 0;
    let mut name = |part: Part| match part {
        Part::Firebox => said("Firebox").into(),
        Part::Run => {
            run += 1;
            say!("Run {run}")
        }
        Part::Rise => say!("To run {}", run + 1),
        Part::Connector => said("Connector").into(),
        Part::ChimneyIndoors => said("Chimney indoors").into(),
        Part::ChimneyOutdoors => said("Chimney outdoors").into(),
    };
    route.segments.iter().map(|segment| name(segment.part)).collect()
}

/// A limit of the route that a design does not keep.
pub fn unmet(unmet: &UnmetLimit, system: System) -> String {
    let (name, quantity) = limit(unmet.limit);
    let show = |value: f64| match unmet.limit {
        Limit::CoreDensity => format!("{} kg/m³", fixed(value, 0)),
        Limit::CoreConductivity => format!("{} W/mK", fixed(value, 2)),
        _ => figure(value, quantity, system),
    };
    let bound = match unmet.bound {
        Bound::AtLeast => said("at least"),
        Bound::AtMost => said("at most"),
    };
    say!("{name}: {}, the route asks for {bound} {}.", show(unmet.found), show(unmet.asked))
}

fn limit(limit: Limit) -> (&'static str, Quantity) {
    match limit {
        Limit::Charge => (said("Charge"), Quantity::Mass),
        Limit::Moisture => (said("Moisture of the wood"), Quantity::Share),
        Limit::HeatingPeriod => (said("Time over which a charge heats"), Quantity::Hours),
        Limit::CoreDensity => (said("Density of the core"), Quantity::Ratio),
        Limit::CoreConductivity => (said("Conductivity of the core"), Quantity::Ratio),
        Limit::Glass => (said("Glass over the surface of the firebox"), Quantity::Share),
        Limit::AirVelocity => {
            (said("Speed of the combustion air in its inlet"), Quantity::Speed)
        }
        Limit::FireboxSurface => (said("Inner surface of the firebox"), Quantity::Opening),
        Limit::FireboxBase => (said("Base of the firebox"), Quantity::Opening),
        Limit::FireboxHeight => (said("Height of the firebox"), Quantity::Size),
        Limit::BaseRatio => (said("Longer side of the base over the other"), Quantity::Ratio),
        Limit::BaseWidth => (said("Shorter side of the base"), Quantity::Size),
        Limit::PathLength => (said("Length of the smoke path"), Quantity::Length),
        Limit::RunVelocity => (said("Speed of the gas in a run"), Quantity::Speed),
        Limit::Efficiency => (said("Efficiency of the route"), Quantity::Share),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::analyze;
    use crate::analysis::path::path;
    use crate::analysis::standard_route::standard_route;

    fn route(design: &Design) -> StandardRoute {
        standard_route(design, &path(design))
    }

    #[test]
    fn the_sentences_carry_the_figures_and_claim_no_conformity() {
        let design = Design::demonstration();
        let (analysis, route) = (analyze(&design).unwrap(), route(&design));
        for system in [System::Metric, System::Us] {
            let both = Both { design: &design, route: &route, fire: &analysis.height_of_fire };
            let said = passage(both, system).plain();
            let outlet = figure(route.runs_outlet, Quantity::Temperature, system);
            let efficiency = figure(route.efficiency, Quantity::Share, system);
            for part in [outlet.as_str(), efficiency.as_str(), "from memory"] {
                assert!(said.contains(part), "{part}: {said}");
            }
            assert!(!said.to_lowercase().contains("conform"));
            assert!(!said.contains("NaN") && !said.contains("inf"));
        }
    }

    #[test]
    fn every_segment_has_its_name() {
        let route = route(&Design::demonstration());
        let names = parts(&route);
        assert_eq!(names.len(), route.segments.len());
        assert_eq!(names[..4].join(", "), "Firebox, Run 1, To run 2, Run 2");
        assert_eq!(names.last().unwrap(), "Chimney outdoors");
    }

    #[test]
    fn a_limit_that_is_not_kept_is_told_with_both_figures() {
        let mut design = Design::demonstration();
        design.fire.charge = 44.0;
        let unmet_ones = route(&design).unmet;
        let said: Vec<_> = unmet_ones.iter().map(|each| unmet(each, System::Metric)).collect();
        let expected = "Charge: 44.0 kg, the route asks for at most 40.0 kg.";
        assert!(said.iter().any(|each| each == expected), "{said:?}");
    }
}
