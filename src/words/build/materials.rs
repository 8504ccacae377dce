//! What has to be bought or found.

use super::number_cell;
use crate::analysis::Analysis;
use crate::build::materials::{Item, Kind, Measure, flue_size, note, of_placed};
use crate::build::placed::{Difference, Placed, placed};
use crate::design::Design;
use crate::design::brick::BrickFormat;
use crate::design::material::Material;
use crate::language::{said, say};
use crate::sources::{BRICK_FORMATS, Source};
use crate::units::measure::VOLUME;
use crate::units::{Quantity, System, figure, fixed, number, unit_of};
use crate::words::choice;
use crate::words::passage::{Cell, Passage};
use crate::words::sources::cited;

/// A bag of dry mortar (kg), 55 lb; common practice, no source.
const BAG: f64 = 25.0;

/// Materials with their amounts, and what is left to buy.
pub fn passage(design: &Design, analysis: &Analysis, system: System) -> Passage {
    let placed = placed(design, &analysis.structure);
    let items = of_placed(design, analysis, placed.as_ref());
    let amounts = items.iter().map(|item| amount_row(design, item, system));
    let buying = items.iter().map(|item| buying_row(design, item, system));
    let mut sources: Vec<&'static Source> = vec![&BRICK_FORMATS];
    for item in &items {
        if !sources.contains(&item.source) {
            sources.push(item.source);
        }
    }
    Passage::new(said("Materials"))
        .text(said(
            "Bricks, mortar, slabs and lintels as the course plans place them, two pieces cut from \
             one brick where both are at most half of it; all else by volumes and surfaces.",
        ))
        .table(
            &[
                said("Material"),
                said("Built in"),
                said("It weighs about"),
                said("Waste (%)"),
                said("Needed"),
                said("It weighs about"),
            ],
            amounts,
        )
        .text(load(&items, system))
        .list(bags(&items, system))
        .text(said(
            "What you have already, salvaged or in stock, and prices as you know them, of one \
             piece, length, surface or volume as the amounts are shown. Nothing else is known \
             here of prices.",
        ))
        .table(
            &[
                said("Material"),
                said("Needed"),
                said("In stock"),
                said("Left to buy"),
                said("Price of one"),
                said("Cost"),
            ],
            buying,
        )
        .text(total(&items))
        .folded(differences(placed))
        .folded(
            Passage::new(said("Where this comes from")).list(sources.into_iter().map(cited)),
        )
}

/// Mortar as it is bought.
fn bags(items: &[Item], system: System) -> Vec<String> {
    let of = |item: &Item| {
        let mass = item.mass.filter(|_| item.kind.is_mortar())? * (1.0 + item.waste);
        Some(say!(
            "{}: about {} bags of {}, if as much dry mix is taken as the mortar weighs; the bag says \
             what it yields.",
            plain_name(item.kind),
            number((mass / BAG).ceil(), Quantity::Count, system),
            figure(BAG, Quantity::Mass, system),
        ))
    };
    items.iter().filter_map(of).collect()
}

/// Bricks placed against those of the estimate by volume, with what makes the difference.
fn differences(placed: Option<Placed>) -> Passage {
    let passage = Passage::new(said("Bricks placed, and by volume"));
    let Some(placed) = placed else {
        return passage
            .text(said("The course plans are not in order; bricks are counted by volume."));
    };
    let row = |kind: Kind, why: Option<Difference>| {
        let why = why?;
        let more = [why.other_volume, why.slabs, why.cutting, why.joints].map(signed);
        let first = [
            plain_name(kind).to_owned(),
            format!("{:.0}", why.placed),
            format!("{:.0}", why.by_volume),
        ];
        Some(first.into_iter().chain(more).collect::<Vec<_>>())
    };
    let rows =
        [row(Kind::CoreBrick, placed.core.why), row(Kind::FacingBrick, placed.facing.why)];
    let heads = [
        said("Material"),
        said("Placed"),
        said("By volume"),
        said("Other volume"),
        said("Slabs, lintels"),
        said("Left of cuts"),
        said("Joints"),
    ];
    passage.table(&heads, rows.into_iter().flatten()).text(said(
        "The estimate by volume leaves out openings but for the door and takes walls as thick as \
         entered. Slabs and lintels stand in the place of bricks. Of a brick that is cut the rest is \
         lost unless it serves for another piece. Joints are a little wider where that saves a cut.",
    ))
}

/// A difference in whole pieces with its sign.
fn signed(value: f64) -> String {
    match format!("{value:+.0}").as_str() {
        "-0" | "+0" => "0".to_owned(),
        text => text.replace('-', "\u{2212}"),
    }
}

fn amount_row(design: &Design, item: &Item, system: System) -> Vec<Cell> {
    let mass = |mass: Option<f64>| -> Cell {
        mass.map(|mass| figure(mass, Quantity::Weight, system)).unwrap_or_default().into()
    };
    vec![
        name(design, item.kind, system).into(),
        amount(item.net, item.measure, system).into(),
        mass(item.mass),
        waste_cell(design, item),
        amount(item.gross(), item.measure, system).into(),
        mass(item.gross_mass()),
    ]
}

/// What all that is needed weighs, for whoever carries it.
fn load(items: &[Item], system: System) -> String {
    let show = |mass| figure(mass, Quantity::Weight, system);
    let built_in = show(items.iter().filter_map(|item| item.mass).sum());
    let needed = show(items.iter().filter_map(Item::gross_mass).sum());
    say!(
        "What is needed weighs about {needed} in all, as far as its weight is known: bricks whole, as \
         they are bought, and what is wasted with them. Built in, {built_in} of it are left."
    )
}

fn waste_cell(design: &Design, item: &Item) -> Cell {
    let label = say!("{}, waste in percent", plain_name(item.kind));
    let cell = number_cell(design, note("waste", item.kind), label, 0.01);
    let text = super::typed(100.0 * item.waste);
    Cell { text, ..cell }
}

fn buying_row(design: &Design, item: &Item, system: System) -> Vec<Cell> {
    let unit = unit(item.measure, system);
    let label = |what: &str| format!("{}, {what}", plain_name(item.kind));
    let stock = number_cell(design, note("stock", item.kind), label(said("in stock")), unit);
    let price =
        number_cell(design, note("price", item.kind), label(said("price of one")), 1.0 / unit);
    vec![
        name(design, item.kind, system).into(),
        amount(item.gross(), item.measure, system).into(),
        stock,
        amount(item.to_buy(), item.measure, system).into(),
        price,
        item.cost().map(|cost| fixed(cost, 2)).unwrap_or_default().into(),
    ]
}

fn total(items: &[Item]) -> String {
    let cost: f64 = items.iter().filter_map(Item::cost).sum();
    let left: Vec<&Item> = items.iter().filter(|item| 0.0 < item.to_buy()).collect();
    let open = left.iter().filter(|item| item.price.is_none()).count();
    let all = left.len();
    if open == all {
        return say!("{all} kinds are left to buy, none of them with a price.");
    }
    let cost = fixed(cost, 2);
    say!("{all} kinds are left to buy; what has a price comes to {cost}, {open} have none.")
}

/// One of what a measure shows (SI).
const fn unit(measure: Measure, system: System) -> f64 {
    match measure {
        Measure::Pieces => 1.0,
        Measure::Length => match system {
            System::Metric => 1.0,
            System::Us => crate::units::METERS_PER_INCH * 12.0,
        },
        Measure::Area => unit_of(Quantity::Area, system).factor,
        Measure::Volume => VOLUME.per(system),
    }
}

/// An amount with its unit.
pub fn amount(value: f64, measure: Measure, system: System) -> String {
    match measure {
        Measure::Pieces => fixed((value - 1e-6).ceil(), 0),
        Measure::Length => figure(value, Quantity::Length, system),
        Measure::Area => figure(value, Quantity::Area, system),
        Measure::Volume => {
            let decimals = if system == System::Metric { 3 } else { 1 };
            VOLUME.figure(value, system, decimals)
        }
    }
}

/// Name of a material with what one asks for when buying it.
pub fn name(design: &Design, kind: Kind, system: System) -> String {
    let plain = plain_name(kind);
    let size = |value| figure(value, Quantity::Size, system);
    let (shell, chamber) = (&design.shell, &design.firebox);
    let what = match kind {
        Kind::CoreBrick => Some(brick(design, shell.core_brick, system)),
        Kind::FacingBrick => Some(brick(design, shell.facing_brick, system)),
        Kind::ChimneyBrick if shell.facing().is_some() => {
            Some(brick(design, shell.facing_brick, system))
        }
        Kind::ChimneyBrick => Some(brick(design, BrickFormat::Modular, system)),
        Kind::CoreBody | Kind::CapSlab | Kind::CrownSlab => {
            let thick = match kind {
                Kind::CapSlab => say!(", {} thick", size(shell.cap_thickness)),
                Kind::CrownSlab => say!(", {} thick", size(chamber.crown_thickness)),
                _ => String::new(),
            };
            Some(format!("{}{thick}", of(shell.core_material)))
        }
        Kind::FacingStone => {
            Some(say!("{}, {} thick", of(shell.facing_material), size(shell.facing_thickness)))
        }
        Kind::GapLayer => Some(say!("gap of {}", size(shell.gap))),
        Kind::Door => {
            Some(say!("opening {} x {}", size(chamber.door_width), size(chamber.door_height)))
        }
        Kind::Liner => {
            let (width, depth) = flue_size(design);
            let inside = match depth {
                None => say!("{} inside", size(width)),
                Some(depth) => say!("{} x {} inside", size(width), size(depth)),
            };
            Some(format!("{}, {inside}", of(design.chimney.wall_material)))
        }
        Kind::FlueWool => Some(size(design.chimney.insulation_thickness)),
        Kind::Bypass => Some(figure(design.path.bypass_area, Quantity::Opening, system)),
        _ => None,
    };
    what.map_or_else(|| plain.to_owned(), |what| format!("{plain}: {what}"))
}

fn of(material: Material) -> &'static str {
    choice(material.key())
}

fn brick(design: &Design, format: BrickFormat, system: System) -> String {
    if format == BrickFormat::Own {
        let own = design.shell.own_brick;
        let [length, width, height] = [own.length, own.width, own.height]
            .map(|value| figure(value, Quantity::Size, system));
        return say!("own size, {length} x {width} x {height}");
    }
    choice(format.key()).to_owned()
}

/// Name of a kind.
pub fn plain_name(kind: Kind) -> &'static str {
    let english = match kind {
        Kind::CoreBrick => "Bricks of the core",
        Kind::CoreBody => "Core",
        Kind::CrownSlab => "Slab over the firebox",
        Kind::BaffleSlab => "Slabs between the runs",
        Kind::CapSlab => "Cap slab",
        Kind::FacingBrick => "Bricks of the facing",
        Kind::FacingStone => "Facing",
        Kind::ChimneyBrick => "Bricks of the chimney",
        Kind::FireclayMortar => "Fireclay mortar",
        Kind::CementMortar => "Lime or cement mortar",
        Kind::BaseConcrete => "Concrete of the base slab",
        Kind::FootingConcrete => "Concrete of the footing",
        Kind::GapLayer => "Cardboard or paper for the gap",
        Kind::SoftStrip => "Ceramic paper around openings",
        Kind::Board => "Insulating board",
        Kind::Door => "Loading door",
        Kind::OvenDoor => "Oven door",
        Kind::Cleanout => "Cleanout doors with plugs",
        Kind::Damper => "Damper",
        Kind::Bypass => "Bypass damper",
        Kind::CoreLintel => "Firebrick or cast lintels",
        Kind::FacingLintel => "Lintels of the facing, sizes in the list of pieces made to size",
        Kind::SteelLintel => "Steel lintel, facing only",
        Kind::Tie => "Ties of the facing, 22 gauge",
        Kind::Hearth => "Hearth in front of the door",
        Kind::Connector => "Connector",
        Kind::Liner => "Liner or pipe of the chimney",
        Kind::FlueWool => "Mineral wool at the flue",
        Kind::Strap => "Straps of the chimney",
        Kind::ChimneyCap => "Chimney cap",
        Kind::AirDuct => "Duct for outdoor air",
        Kind::Alarm => "Carbon monoxide alarms",
    };
    said(english)
}
