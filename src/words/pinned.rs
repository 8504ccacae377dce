//! Designs beside each other in words.

use super::compare::{BRICKS, NOTE, NOTHING, answered, line_with_unit, shown};
use super::label;
use super::suggest::input;
use crate::rules::Question;
use crate::study::figures::{Figures, Line};
use crate::study::pinned::{Pin, differing};
use crate::study::variant::value;
use crate::units::{Quantity, System, number};
use crate::words::passage::{Block, Cell, Passage, Table};

/// Heading over the designs.
pub const TITLE: &str = "Beside each other";

/// What differs in the inputs, then all figures with their difference to the first design.
pub fn passage(pins: &[Pin], system: System) -> Passage {
    let named = |(pin, count): (&Pin, u32)| match pin.design.name.as_str() {
        "" => format!("Design {count}"),
        name => name.to_owned(),
    };
    let names = pins.iter().zip(1_u32..).map(named);
    let heads = std::iter::once("What".to_owned()).chain(names).collect();
    let fields = differing(pins);
    let same = fields.is_empty() && pins.len() > 1;
    let inputs = fields.into_iter().map(|id| {
        let cells = pins.iter().map(|pin| input(id, value(&pin.design, id), system));
        std::iter::once(label(id).to_owned()).chain(cells).map(Cell::from).collect::<Vec<_>>()
    });
    let own = pins.iter().map(|pin| pin.design.path.overrides.len());
    let sized = |count: usize| Cell::from(count.to_string());
    let differs = own.clone().any(|count| Some(count) != own.clone().next());
    let row = std::iter::once(Cell::from("Runs with sizes of their own"));
    let own = differs.then(|| row.chain(own.map(sized)).collect::<Vec<Cell>>());
    let failures = pins.iter().zip(1_u32..).filter_map(|(pin, count)| {
        let why = super::failure(pin.result.as_ref().err()?, system);
        Some(format!("{}: {why}", named((pin, count))))
    });
    let note =
        if same { "No input differs." } else { "Of the inputs those stand here that differ." };
    Passage::new(TITLE)
        .text(format!("{note} In brackets: more or less than in the first design."))
        .with(Block::Table(Table {
            caption: None,
            heads,
            rows: inputs.chain(own).chain(figures(pins, system)).collect(),
        }))
        .list(failures)
        .text(NOTE)
        .text(BRICKS)
}

fn figures(pins: &[Pin], system: System) -> impl Iterator<Item = Vec<Cell>> {
    let found = |pin: &Pin| pin.result.as_ref().ok().copied();
    let first = pins.first().and_then(found);
    let row = |name: String, cell: &dyn Fn(&Figures) -> Cell| {
        let cells =
            pins.iter().map(|pin| found(pin).map_or(NOTHING.into(), |each| cell(&each)));
        std::iter::once(Cell::from(name)).chain(cells).collect::<Vec<_>>()
    };
    let lines = Line::ALL.map(|line| {
        row(line_with_unit(line, system), &|figures| {
            let text = shown(line, figures, system);
            let change = first.and_then(|first| change(line, &first, figures, system));
            change.map_or_else(|| text.clone(), |change| format!("{text} ({change})")).into()
        })
    });
    let answers = Question::ALL.map(|question| {
        row(super::question(question).into(), &|figures| answered(question, figures, system))
    });
    lines.into_iter().chain(answers)
}

/// By how much a figure is other than in the first design, with its sign; none where it shows no
/// difference.
fn change(line: Line, first: &Figures, figures: &Figures, system: System) -> Option<String> {
    let (before, after) = (first.line(line)?, figures.line(line)?);
    let quantity = line.quantity();
    // The difference of what is shown, so that it adds up.
    let plain = |value| number(value, quantity, system).replace('\u{2212}', "-").parse::<f64>();
    let (from, to) = (plain(before).ok()?, plain(after).ok()?);
    let decimals = match quantity {
        Quantity::Temperature | Quantity::Count => 0,
        _ => crate::units::unit_of(quantity, system).decimals,
    };
    let by = to - from;
    let text = format!("{:.decimals$}", by.abs());
    let is_none = text.parse::<f64>().is_ok_and(|size| size <= 0.0);
    let sign = if by < 0.0 { '\u{2212}' } else { '+' };
    (!is_none).then(|| format!("{sign}{text}"))
}
