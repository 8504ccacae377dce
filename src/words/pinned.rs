//! Designs beside each other in words.

use super::compare::{BRICKS, NOTE, NOTHING, answered, line_with_unit, shown};
use super::label;
use super::suggest::input;
use crate::design::field::{FieldId, Kind, field};
use crate::language::{English, said, say};
use crate::rules::Question;
use crate::study::figures::{Figures, Line};
use crate::study::pinned::{Pin, differing};
use crate::study::variant::value;
use crate::units::{Quantity, System, difference, fixed, number, read};
use crate::words::passage::{Block, Cell, Passage, Table};

/// Heading over the designs.
pub const TITLE: English = English("Beside each other");

/// What the designs are called: the first is the one that is open; one without a name, or with that
/// of one before it, is counted.
pub fn names(pins: &[Pin]) -> Vec<String> {
    let name = |pin: &Pin| pin.design.name.trim().to_owned();
    let mut names: Vec<String> = Vec::new();
    for (count, pin) in (1_u32..).zip(pins) {
        let own = match name(pin) {
            own if own.is_empty() => say!("Design {count}"),
            own => own,
        };
        names.push(if names.contains(&own) { format!("{own} ({count})") } else { own });
    }
    names
}

/// What differs in the inputs, then all figures with their difference to the first design.
pub fn passage(pins: &[Pin], system: System) -> Passage {
    let names = names(pins);
    let heads = std::iter::once(said("What").to_owned()).chain(names.iter().cloned()).collect();
    let fields = differing(pins);
    let same = fields.is_empty() && pins.len() > 1;
    let inputs = fields.into_iter().map(|id| {
        let first = pins.first().map(|pin| value(&pin.design, id));
        let cells = pins.iter().map(|pin| {
            let own = value(&pin.design, id);
            let text = input(id, own, system);
            let other = first.and_then(|first| other(id, first, own, system));
            other.map_or_else(|| text.clone(), |other| format!("{text} ({other})"))
        });
        std::iter::once(label(id).to_owned()).chain(cells).map(Cell::from).collect::<Vec<_>>()
    });
    let own = pins.iter().map(|pin| pin.design.path.overrides.len());
    let sized = |count: usize| Cell::from(count.to_string());
    let differs = own.clone().any(|count| Some(count) != own.clone().next());
    let row = std::iter::once(Cell::from(said("Runs with sizes of their own")));
    let own = differs.then(|| row.chain(own.map(sized)).collect::<Vec<Cell>>());
    let failures = pins.iter().zip(&names).filter_map(|(pin, name)| {
        let why = super::failure(pin.result.as_ref().err()?, system);
        Some(format!("{name}: {why}"))
    });
    let note = if same {
        said("No input differs.")
    } else {
        said("Of the inputs those stand here that differ.")
    };
    Passage::new(TITLE)
        .text(say!("{note} In brackets: more or less than in the first design."))
        .with(Block::Table(Table {
            caption: None,
            heads,
            rows: inputs.chain(own).chain(figures(pins, system)).collect(),
        }))
        .list(failures)
        .text(NOTE)
        .text(BRICKS)
}

/// How an input is other than in the first design; none where it is not.
fn other(id: FieldId, first: f64, own: f64, system: System) -> Option<String> {
    let by = own - first;
    if by.abs() <= f64::EPSILON {
        return None;
    }
    let sign = if by < 0.0 { '\u{2212}' } else { '+' };
    Some(match &field(id).kind {
        Kind::Choice(_) => said("other").into(),
        Kind::Number(number) if number.quantity == Quantity::Temperature => {
            format!("{sign}{}", difference(by.abs(), system))
        }
        // To what is built, so that a sum of binary fractions shows no dust.
        Kind::Number(_) => {
            format!("{sign}{}", input(id, (1e6 * by.abs()).round() / 1e6, system))
        }
    })
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
    let plain = |value| read(&number(value, quantity, system).replace('\u{2212}', "-"));
    let (from, to) = (plain(before)?, plain(after)?);
    let decimals = match quantity {
        Quantity::Temperature | Quantity::Count => 0,
        _ => crate::units::unit_of(quantity, system).decimals,
    };
    let by = to - from;
    let text = fixed(by.abs(), decimals);
    let is_none = read(&text).is_some_and(|size| size <= 0.0);
    let sign = if by < 0.0 { '\u{2212}' } else { '+' };
    (!is_none).then(|| format!("{sign}{text}"))
}
