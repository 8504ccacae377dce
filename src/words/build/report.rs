//! The build as it leaves the program: SI with the unit in each name.

use crate::analysis::Analysis;
use crate::build::crew::Crew;
use crate::build::curing::charges;
use crate::build::labor::{Spread, labor};
use crate::build::materials::{Item, Measure, materials};
use crate::build::order::order;
use crate::build::weight::{Weights, weights};
use crate::design::Design;
use crate::words::structure;
use serde_json::{Value, json};

/// Materials, weights, labor, order of work and first fires of a design.
pub fn report(design: &Design, analysis: &Analysis) -> Value {
    let items = materials(design, analysis);
    let works = labor(design, analysis, &items);
    let crew = Crew::of(design);
    let steps = works.iter().map(|work| {
        json!({ "step": super::labor::name(work.step), "mason_hours": spread(work.mason),
            "tender_hours": spread(work.tender), "source": work.source })
    });
    let stages = order(design).into_iter().map(
        |stage| json!({ "stage": super::order::name(stage), "hold_point": stage.holds() }),
    );
    json!({
        "name": design.name,
        "materials": items.iter().map(material).collect::<Vec<_>>(),
        "weights": weight(&weights(design, &analysis.structure)),
        "crew": { "people": crew.people, "hours_a_day": crew.hours, "factor": crew.factor },
        "labor": steps.collect::<Vec<_>>(),
        "order": stages.collect::<Vec<_>>(),
        "first_fires_kg": charges(design.fire.charge),
    })
}

fn spread(Spread { low, high }: Spread) -> Value {
    json!([low, high])
}

fn material(item: &Item) -> Value {
    let unit = match item.measure {
        Measure::Pieces => "pieces",
        Measure::Length => "m",
        Measure::Area => "m2",
        Measure::Volume => "m3",
    };
    json!({
        "material": item.kind.id(), "unit": unit, "built_in": item.net, "by_volume": item.by_volume,
        "waste_fraction": item.waste, "needed": item.gross(), "in_stock": item.stock,
        "left_to_buy": item.to_buy(), "price": item.price, "cost": item.cost(),
        "mass_kg": item.mass, "needed_mass_kg": item.gross_mass(), "source": item.source,
    })
}

fn weight(found: &Weights) -> Value {
    let parts = found.parts.iter().map(|part| {
        json!({ "part": structure::part(part.part), "mass_kg": part.mass,
            "center_m": part.center })
    });
    let footing = found.footing.map(|footing| {
        json!({ "sides_m": footing.sides, "thickness_m": footing.thickness,
            "mass_kg": footing.mass, "soil_pascals": footing.soil,
            "soil_bears_pascals": footing.bears })
    });
    json!({
        "parts": parts.collect::<Vec<_>>(), "carried_kg": found.carried,
        "center_m": found.center, "outline_m": found.outline,
        "bearing_pascals": found.bearing, "edge_pascals": found.edge,
        "walls_kg_per_m": found.per_wall,
        "walls_most_kg_per_m": found.most_per_wall, "footing": footing,
    })
}
