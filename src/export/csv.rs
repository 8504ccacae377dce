//! Figures for a spreadsheet: RFC 4180, a decimal point, units in the heads, none but ASCII letters in
//! what this program writes by itself.
//!
//! A text that a spreadsheet would take for a formula is led by an apostrophe.

mod courses;

use super::decimal;
use crate::analysis::Analysis;
use crate::design::Design;
use crate::language::{English, said, say};
use crate::rules::Question;
use crate::study::compare::Column;
use crate::study::figures::{Figures, Line};
use crate::units::{Quantity, System, to_shown};
use crate::words;
use crate::words::hours::{Hour, Hours};
use crate::words::passage::{Block, Passage, Table};

pub use courses::courses;

/// A cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// A text.
    Text(String),
    /// A figure.
    Number(f64),
    /// Nothing.
    Empty,
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<Option<f64>> for Cell {
    fn from(value: Option<f64>) -> Self {
        value.map_or(Self::Empty, Self::Number)
    }
}

/// A file of rows below their heads.
pub fn write(heads: &[String], rows: &[Vec<Cell>]) -> String {
    let heads: Vec<String> = heads.iter().map(|head| written(head)).collect();
    let row = |row: &Vec<Cell>| row.iter().map(cell).collect::<Vec<_>>().join(",");
    std::iter::once(heads.join(","))
        .chain(rows.iter().map(row))
        .map(|line| line + "\r\n")
        .collect()
}

fn cell(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => written(text),
        Cell::Number(value) if value.is_finite() => decimal(*value, DIGITS),
        Cell::Number(_) | Cell::Empty => String::new(),
    }
}

/// Decimals of a figure.
const DIGITS: usize = 6;

/// A text as it stands in a file.
pub fn written(text: &str) -> String {
    let risky = text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
    let guarded = if risky { format!("'{text}") } else { text.to_owned() };
    if guarded.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", guarded.replace('"', "\"\""))
    } else {
        guarded
    }
}

/// A figure in the unit of [`symbol`].
fn shown(value: f64, quantity: Quantity, system: System) -> f64 {
    to_shown(value, quantity, system)
}

/// Unit of a quantity in a head.
const fn symbol(quantity: Quantity, system: System) -> &'static str {
    match (quantity, system) {
        (Quantity::Length, System::Metric) => "m",
        (Quantity::Length, System::Us) => "ft",
        (Quantity::Size, System::Metric) => "mm",
        (Quantity::Size, System::Us) => "in",
        (Quantity::Area, System::Metric) => "m2",
        (Quantity::Area, System::Us) => "ft2",
        (Quantity::Opening, System::Metric) => "cm2",
        (Quantity::Opening, System::Us) => "in2",
        (Quantity::Temperature, System::Metric) => "C",
        (Quantity::Temperature, System::Us) => "F",
        (Quantity::Mass | Quantity::Weight, System::Metric) => "kg",
        (Quantity::Mass | Quantity::Weight, System::Us) => "lb",
        (Quantity::Power, System::Metric) => "kW",
        (Quantity::Power, System::Us) => "Btu/h",
        (Quantity::Energy, System::Metric) => "kWh",
        (Quantity::Energy, System::Us) => "Btu",
        (Quantity::Pressure, System::Metric) => "Pa",
        (Quantity::Pressure, System::Us) => "in w.c.",
        (Quantity::Speed, System::Metric) => "m/s",
        (Quantity::Speed, System::Us) => "ft/s",
        (Quantity::Duration, _) => "min",
        (Quantity::Hours, _) => "h",
        (Quantity::Share, _) => "%",
        (Quantity::Ratio | Quantity::Count, _) => "1",
        (Quantity::MassFlow, System::Metric) => "g/s",
        (Quantity::MassFlow, System::Us) => "lb/h",
        (Quantity::HeatLoss, System::Metric) => "W/K",
        (Quantity::HeatLoss, System::Us) => "Btu/h F",
        (Quantity::Bearing, System::Metric) => "kPa",
        (Quantity::Bearing, System::Us) => "psf",
    }
}

fn head(name: &str, quantity: Quantity, system: System) -> String {
    match quantity {
        Quantity::Count | Quantity::Ratio => name.to_owned(),
        _ => format!("{name} ({})", symbol(quantity, system)),
    }
}

/// Columns of the smoke path behind the name of the part.
const PATH: [(English, Quantity); 10] = [
    (English("Length"), Quantity::Length),
    (English("Width"), Quantity::Size),
    (English("Height"), Quantity::Size),
    (English("Middle above the floor of the firebox"), Quantity::Length),
    (English("Gas in"), Quantity::Temperature),
    (English("Gas out"), Quantity::Temperature),
    (English("Inner wall"), Quantity::Temperature),
    (English("Speed"), Quantity::Speed),
    (English("Friction"), Quantity::Pressure),
    (English("Turn into it"), Quantity::Pressure),
];

/// The smoke path at the height of the fire, part by part.
pub fn path(design: &Design, analysis: &Analysis, system: System) -> String {
    let fire = &analysis.height_of_fire;
    let mut heads = vec![said("Part").to_owned()];
    heads.extend(PATH.map(|(name, quantity)| head(&name, quantity, system)));
    let row = |name: &str, figures: [Option<f64>; PATH.len()]| {
        let cells = figures.into_iter().zip(PATH).map(|(value, (_, quantity))| {
            Cell::from(value.map(|value| shown(value, quantity, system)))
        });
        std::iter::once(name.into()).chain(cells).collect::<Vec<Cell>>()
    };
    let chamber = &design.firebox;
    let mut rows = vec![row(
        said("Firebox"),
        [
            Some(chamber.depth),
            Some(chamber.width),
            Some(chamber.height),
            Some(0.5 * chamber.height),
            None,
            Some(fire.firebox_outlet),
            Some(fire.firebox_wall),
            None,
            None,
            None,
        ],
    )];
    let sizes = design.path.runs().into_iter().zip(design.run_heights());
    for (index, ((run, middle), state)) in sizes.zip(&fire.runs).enumerate() {
        let figures = [run.length, run.width, run.height, middle, state.inlet, state.outlet];
        let rest = [state.wall, state.velocity, state.friction, state.turn];
        let mut all = [None; PATH.len()];
        for (place, value) in all.iter_mut().zip(figures.into_iter().chain(rest)) {
            *place = Some(value);
        }
        rows.push(row(&say!("Run {}", index + 1), all));
    }
    let chimney = &design.chimney;
    rows.push(row(
        said("Chimney"),
        [
            Some(chimney.mouth_height),
            Some(chimney.flue_width),
            Some(chimney.flue_depth),
            None,
            Some(fire.chimney_inlet),
            Some(fire.chimney_mouth_gas),
            Some(fire.chimney_mouth_wall),
            Some(fire.chimney_velocity),
            None,
            None,
        ],
    ));
    write(&heads, &rows)
}

/// The day hour by hour: the first fire, and the day that repeats.
pub fn hours(hours: &Hours, system: System) -> String {
    let runs = hours.first_fire.first().map_or(0, |hour| hour.runs_celsius.len());
    let mut heads = vec![said("Day").to_owned(), said("Hour").to_owned()];
    let columns = [
        (said("Fire"), Quantity::Power),
        (said("Lost with the gas"), Quantity::Power),
        (said("To the room"), Quantity::Power),
        (said("Hottest face"), Quantity::Temperature),
        (said("Gas out of the firebox"), Quantity::Temperature),
    ];
    heads.extend(columns.map(|(name, quantity)| head(name, quantity, system)));
    let of_run =
        |run: usize| head(&say!("Gas out of run {run}"), Quantity::Temperature, system);
    heads.extend((1..=runs).map(of_run));
    let last = [
        (said("Gas into the chimney"), Quantity::Temperature),
        (said("Wall at the mouth"), Quantity::Temperature),
        (said("Draft to spare"), Quantity::Pressure),
    ];
    heads.extend(last.map(|(name, quantity)| head(name, quantity, system)));
    let days = [(said("First fire"), &hours.first_fire), (said("Repeating"), &hours.periodic)];
    let rows: Vec<Vec<Cell>> = days
        .into_iter()
        .flat_map(|(name, hours)| hours.iter().map(move |each| hour(name, each, system)))
        .collect();
    write(&heads, &rows)
}

fn hour(day: &str, hour: &Hour, system: System) -> Vec<Cell> {
    let hot = |celsius| shown(crate::units::kelvin(celsius), Quantity::Temperature, system);
    let power = |watts| shown(watts, Quantity::Power, system);
    let mut cells = vec![Cell::from(day), Cell::Number(f64::from(hour.hour))];
    let first = [
        power(hour.wood_watts),
        power(hour.stack_watts),
        power(hour.room_watts),
        hot(hour.surface_celsius),
        hot(hour.firebox_outlet_celsius),
    ];
    cells.extend(first.map(Cell::Number));
    cells.extend(hour.runs_celsius.iter().map(|celsius| Cell::Number(hot(*celsius))));
    let last = [
        hot(hour.chimney_inlet_celsius),
        hot(hour.mouth_wall_celsius),
        shown(hour.margin_pascals, Quantity::Pressure, system),
    ];
    cells.extend(last.map(Cell::Number));
    cells
}

/// One to ten runs side by side, a row each.
pub fn compare(columns: &[Column], system: System) -> String {
    let mut heads = vec![said("Runs").to_owned()];
    heads.extend(
        Line::ALL.map(|line| head(words::compare::line(line), line.quantity(), system)),
    );
    heads.extend(Question::ALL.map(|question| words::question(question).to_owned()));
    heads.push(said("Why there are no figures").into());
    let rows: Vec<Vec<Cell>> = columns
        .iter()
        .map(|column| {
            let found = column.result.as_ref().ok();
            let figure = |line: Line| {
                let value = found.and_then(|figures: &Figures| figures.line(line));
                Cell::from(value.map(|value| shown(value, line.quantity(), system)))
            };
            let answer = |question| match found {
                Some(figures) => words::answer(question, figures.answer(question)).into(),
                None => Cell::Empty,
            };
            let failure = column.result.as_ref().err();
            let failure =
                failure.map_or(Cell::Empty, |why| Cell::Text(words::failure(why, system)));
            std::iter::once(count(column.runs))
                .chain(Line::ALL.map(figure))
                .chain(Question::ALL.map(answer))
                .chain([failure])
                .collect()
        })
        .collect();
    write(&heads, &rows)
}

fn count(count: usize) -> Cell {
    Cell::Number(u32::try_from(count).map_or(f64::NAN, f64::from))
}

/// The tables of a passage one below the other, each under its heading, as it is read.
pub fn passage(passage: &Passage) -> String {
    let mut tables = Vec::new();
    gather(passage, &mut tables);
    let file = |(title, table): &(String, &Table)| {
        let row = |row: &Vec<words::passage::Cell>| row.iter().map(read).collect::<Vec<_>>();
        let rows: Vec<Vec<Cell>> = table.rows.iter().map(row).collect();
        format!("{}\r\n{}", written(title), write(&table.heads, &rows))
    };
    tables.iter().map(file).collect::<Vec<_>>().join("\r\n")
}

fn read(cell: &words::passage::Cell) -> Cell {
    let text = cell.plain();
    crate::units::read(&text).map_or(Cell::Text(text), Cell::Number)
}

fn gather<'a>(passage: &'a Passage, tables: &mut Vec<(String, &'a Table)>) {
    for block in &passage.blocks {
        match block {
            Block::Table(table) => {
                let title = table.caption.clone().unwrap_or_else(|| passage.title.clone());
                tables.push((title, table));
            }
            Block::Folded(passage) => gather(passage, tables),
            Block::Choice(_, passages) => passages.iter().for_each(|each| gather(each, tables)),
            Block::Text(_) | Block::Head(_) | Block::List(_) | Block::Take(_) => {}
        }
    }
}
