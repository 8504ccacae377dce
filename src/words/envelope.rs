//! Heat loss from the parts of the house, to type and to read.

use super::build::{number_cell, typed};
use super::passage::{Block, Cell, Entry, Passage, Take};
use super::sources::cited;
use crate::analysis::Analysis;
use crate::analysis::envelope::{
    self, BRIDGES, CHANGES, CONDUCTIVITIES, DEGREE_DAYS, Demand, Element, Envelope, LAYERS,
    OWN, PartLoss, STILL_AIR, TYPICAL, USUAL_BRIDGES, USUAL_CHANGES, VOLUME, WOODS, demand,
    stacked,
};
use crate::design::Design;
use crate::design::field::{FieldId, Kind, field};
use crate::language::{English, said, say};
use crate::sources::{
    AIR_CHANGES, ASHRAE_2013, BRIDGES as BRIDGES_SOURCE, BUILDING_CONDUCTIVITY,
    DEGREE_DAYS as DEGREE_DAYS_SOURCE, EN_12524, EN_12831, ISO_6946, SINGLE_GLASS,
    STACKED_WOOD, TYPICAL_U,
};
use crate::units::measure::{DIFFERENCE, FILM, RESISTANCE, VOLUME as VOLUMES};
use crate::units::{METERS_PER_INCH, Quantity, System, figure, fixed, unit_of};

/// Heading over it.
pub const TITLE: English = English("Heat loss from the parts of the house");

/// A stack of firewood as it is sold in North America (m3): 128 ft3.
const CORD: f64 = 128.0 * 1728.0 * METERS_PER_INCH * METERS_PER_INCH * METERS_PER_INCH;

/// The parts, what they lose, and the wood for it.
pub fn passage(design: &Design, analysis: &Analysis, system: System) -> Passage {
    let found = envelope::envelope(&design.notes);
    let rows = found.parts.iter().map(|part| row(design, part, system));
    let passage = Passage::new(TITLE)
        .text(said(
            "Enter the outer areas of the house, or of the rooms that the heater warms, each \
             without the windows and doors in it. Leave at nothing what borders on warm \
             rooms.",
        ))
        .table(
            &[
                said("Part"),
                &area_head(system),
                said("Built as"),
                &own_head(system),
                said("Transmittance"),
                said("Loses"),
            ],
            rows,
        )
        .table(
            &[said("Air and climate"), said("Figure"), said("Unit")],
            house_rows(design, system),
        );
    let layered = found.parts.iter().filter(|part| part.built_as == LAYERS);
    let passage =
        layered.fold(passage, |passage, part| passage.folded(layers(design, part, system)));
    let passage = sum(passage, design, analysis, &found, system);
    passage.folded(
        Passage::new(said("Where this comes from")).list(
            [
                &EN_12831,
                &ISO_6946,
                &TYPICAL_U,
                &SINGLE_GLASS,
                &BUILDING_CONDUCTIVITY,
                &ASHRAE_2013,
                &EN_12524,
                &AIR_CHANGES,
                &BRIDGES_SOURCE,
                &DEGREE_DAYS_SOURCE,
                &STACKED_WOOD,
            ]
            .map(cited),
        ),
    )
}

fn area_head(system: System) -> String {
    say!("Area ({})", unit_of(Quantity::Area, system).symbol)
}

const fn film_symbol(system: System) -> &'static str {
    match system {
        System::Metric => FILM.si,
        System::Us => FILM.us,
    }
}

fn own_head(system: System) -> String {
    say!("Own transmittance ({})", film_symbol(system))
}

/// A cell in which one of several words is chosen.
fn word_cell(name: String, label: String, chosen: &str, words: Vec<(String, String)>) -> Cell {
    let shown = words.iter().find(|(word, _)| word == chosen);
    let text = shown.map(|(_, shown)| shown.clone()).unwrap_or_default();
    Cell { entry: Some(Entry { name, label, factor: 1.0, words }), ..Cell::from(text) }
}

fn row(design: &Design, part: &PartLoss, system: System) -> Vec<Cell> {
    let (element, title) = (part.element, name(part.element));
    let area = unit_of(Quantity::Area, system).factor;
    let words = TYPICAL.iter().map(|(key, _)| *key).chain([LAYERS, OWN]);
    let words = words.map(|key| (key.to_owned(), built_as(key).to_owned())).collect();
    let label = |what: &str| format!("{title}, {what}");
    let own = if part.built_as == OWN {
        number_cell(design, element.note("u"), label(said("transmittance")), FILM.per(system))
    } else {
        Cell::default()
    };
    let shown = part.transmittance.map(|value| FILM.figure(value, system, 3));
    vec![
        title.into(),
        number_cell(design, element.note("area_m2"), label(said("area")), area),
        word_cell(element.note("as"), label(said("built as")), &part.built_as, words),
        own,
        shown.unwrap_or_default().into(),
        figure(part.loss, Quantity::HeatLoss, system).into(),
    ]
}

fn house_rows(design: &Design, system: System) -> Vec<Vec<Cell>> {
    let volume = match system {
        System::Metric => VOLUMES.si,
        System::Us => VOLUMES.us,
    };
    let days = if system == System::Metric { said("K days") } else { said("°F days") };
    let rows = [
        (said("Volume that is warmed"), VOLUME, None, VOLUMES.per(system), volume),
        (said("Air changes"), CHANGES, Some(USUAL_CHANGES), 1.0, said("an hour")),
        (said("Bridges of heat, on top of the parts"), BRIDGES, Some(USUAL_BRIDGES), 0.01, "%"),
        (said("Degree days of a winter"), DEGREE_DAYS, None, DIFFERENCE.per(system), days),
    ];
    let row = |(title, note, usual, factor, unit): (&str, &str, Option<f64>, f64, &str)| {
        let cell = number_cell(design, note.to_owned(), title.to_owned(), factor);
        let usual = usual.filter(|_| cell.text.is_empty());
        let text = usual.map_or_else(|| cell.text.clone(), |usual| typed(usual / factor));
        vec![title.into(), Cell { text, ..cell }, unit.into()]
    };
    rows.into_iter().map(row).collect()
}

fn layers(design: &Design, part: &PartLoss, system: System) -> Passage {
    let (element, title) = (part.element, name(part.element));
    let (factor, unit) = match system {
        System::Metric => (1e-3, "mm"),
        System::Us => (METERS_PER_INCH, "in"),
    };
    let keys = CONDUCTIVITIES.iter().map(|(key, _)| *key).chain([STILL_AIR]);
    let words: Vec<(String, String)> = std::iter::once((String::new(), String::new()))
        .chain(keys.map(|key| (key.to_owned(), layer_of(key).to_owned())))
        .collect();
    let rows = part.layers.iter().enumerate().map(|(index, layer)| {
        let label = |what: &str| say!("{title}, layer {}, {what}", index + 1);
        let of = element.layer_note(index, "of");
        let thick = element.layer_note(index, "m");
        vec![
            Cell::from((index + 1).to_string()),
            word_cell(of, label(said("material")), &layer.material, words.clone()),
            number_cell(design, thick, label(said("thickness")), factor),
            RESISTANCE.figure(layer.resistance, system, 2).into(),
        ]
    });
    let rows: Vec<_> = rows.collect();
    Passage::new(say!("Layers: {title}"))
        .table(
            &[said("Layer"), said("Material"), &say!("Thickness ({unit})"), said("Holds back")],
            rows,
        )
        .text(said(
            "Layers that cover the whole part; what studs, beams and joints add stands among \
             the bridges. Salvaged panels of foam are taken as aged; wet or crushed ones hold \
             back less.",
        ))
}

fn sum(
    passage: Passage,
    design: &Design,
    analysis: &Analysis,
    found: &Envelope,
    system: System,
) -> Passage {
    let loss = |value| figure(value, Quantity::HeatLoss, system);
    let Some(demand) = demand(design, analysis, found.coefficient) else {
        return passage
            .text(said("As soon as an area or a volume stands there, the sum stands here."));
    };
    let passage = passage
        .text(say!(
            "The parts lose {}, bridges {}, the air {}: {} in all. Entered as the heat loss of the \
             house are {}.",
            loss(found.parts.iter().map(|part| part.loss).sum()),
            loss(found.bridges),
            loss(found.air),
            loss(found.coefficient),
            loss(design.site.heat_loss)
        ))
        .list(needs(design, &demand, system));
    let passage = match demand.winter {
        Some((heat, wood)) => winter(passage, design, (heat, wood), system),
        None => passage,
    };
    let take = match &field(FieldId::HeatLoss).kind {
        Kind::Number(number) => number.possible.contains(&found.coefficient),
        Kind::Choice(_) => false,
    };
    let differs = 1e-9 < (found.coefficient - design.site.heat_loss).abs();
    if !take || !differs {
        return passage;
    }
    passage.with(Block::Take(Take {
        text: say!("Take {} as the heat loss of the house", loss(found.coefficient)),
        link: field(FieldId::HeatLoss).link.to_owned(),
        value: found.coefficient,
    }))
}

fn needs(design: &Design, demand: &Demand, system: System) -> Vec<String> {
    let show = |value, quantity| figure(value, quantity, system);
    let mass = |value| show(value, Quantity::Mass);
    vec![
        say!(
            "At {} outdoors it loses {}, {} in a day, which takes {} of wood.",
            show(design.site.outdoor_temperature, Quantity::Temperature),
            show(demand.hour, Quantity::Power),
            show(demand.day, Quantity::Energy),
            mass(demand.day_wood)
        ),
        say!(
            "With {} firings a day, {} of wood each would cover that day; with {} each, {} \
             firings would.",
            fixed(design.fire.firings_per_day, 0),
            mass(demand.charge),
            mass(design.fire.charge),
            fixed(demand.firings, 1)
        ),
    ]
}

fn winter(
    passage: Passage,
    design: &Design,
    (heat, wood): (f64, f64),
    system: System,
) -> Passage {
    let rows = WOODS.iter().map(|(kind, density)| {
        let stack = stacked(wood, design.fire.moisture_fraction, *density);
        let stack = match system {
            System::Metric => VOLUMES.figure(stack, system, 1),
            System::Us => {
                say!("{}, {} cords", VOLUMES.figure(stack, system, 0), fixed(stack / CORD, 1))
            }
        };
        vec![said(kind).to_owned(), stack]
    });
    passage
        .text(say!(
            "A winter takes {} and {} of wood as moist as entered. Sun, people and appliances spare \
             some of it.",
            figure(heat, Quantity::Energy, system),
            figure(wood, Quantity::Weight, system)
        ))
        .table(&[said("Wood of a winter"), said("Stacked")], rows)
}

/// Name of a part.
fn name(element: Element) -> &'static str {
    let english = match element {
        Element::Wall => "Walls",
        Element::OtherWall => "Other walls",
        Element::Roof => "Roof or top ceiling",
        Element::Floor => "Floor",
        Element::Windows => "Windows",
        Element::Doors => "Outer doors",
    };
    said(english)
}

fn built_as(key: &str) -> &'static str {
    let english = match key {
        "solid_brick" => "Solid brick, bare",
        "cavity" => "Cavity wall of the 1980s",
        "insulated" => "Insulated wall",
        "of_today" => "Wall of today",
        "passive" => "Passive house",
        "roof" => "Insulated roof",
        "floor" => "Insulated floor",
        "single_glass" => "Single glass",
        "double_glass" => "Double glass",
        "triple_glass" => "Triple glass",
        "door" => "Door",
        LAYERS => "Layers, entered below",
        _ => "Own transmittance",
    };
    said(english)
}

fn layer_of(key: &str) -> &'static str {
    let english = match key {
        "brick" => "Brick",
        "granite" => "Granite, hard stone",
        "limestone" => "Limestone",
        "concrete" => "Concrete",
        "log" => "Logs, solid softwood",
        "straw" => "Straw bales",
        "mineral_wool" => "Mineral wool",
        "cellulose" => "Cellulose",
        "wood_fiber" => "Wood fiber board",
        "polystyrene" => "Polystyrene, salvaged too",
        "foam_new" => "Polyurethane panel, new",
        "foam_salvaged" => "Foam panel, salvaged",
        "gypsum" => "Gypsum board",
        "plaster" => "Plaster",
        "clay" => "Clay",
        _ => "Still air",
    };
    said(english)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::analyze;
    use crate::design::notes::Note;

    #[test]
    fn every_key_has_a_name_of_its_own() {
        let typical = TYPICAL.map(|(key, _)| built_as(key));
        assert!(typical.iter().all(|name| *name != built_as(OWN)));
        let layers = CONDUCTIVITIES.map(|(key, _)| layer_of(key));
        assert!(layers.iter().all(|name| *name != layer_of(STILL_AIR)));
    }

    #[test]
    fn the_sum_is_told_in_both_systems_and_can_be_taken() {
        let mut design = Design::demonstration();
        for (name, value) in
            [("house.wall.area_m2", 120.0), (VOLUME, 280.0), (DEGREE_DAYS, 3900.0)]
        {
            assert!(design.notes.set(name, Some(Note::Number(value))));
        }
        let analysis = analyze(&design).unwrap();
        // 120 x 0.28 = 33.6, a tenth more 36.96, and 0.34 x 0.5 x 280 = 47.6: 84.56 W/K.
        for (system, loss) in [(System::Metric, "85 W/K"), (System::Us, "160 Btu/h°F")] {
            let passage = passage(&design, &analysis, system);
            let said = passage.plain();
            assert!(said.contains(loss) && said.contains("A winter takes"), "{said}");
            let takes = passage.blocks.iter().any(|block| {
                matches!(block,
                Block::Take(take) if (take.value - 84.56).abs() < 1e-9 && take.link == "ua")
            });
            assert!(takes, "{said}");
        }
    }
}
