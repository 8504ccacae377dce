//! What is printed of a design besides what the page shows: its figures in tables for the site.

use super::passage::{Block, Cell, Passage, Table};
use super::standard_route::NOT_CHECKED;
use super::{CAUTIONS, choice, group, label, question, structure, uncertainty};
use super::{deciding, hours::Hours};
use crate::analysis::Analysis;
use crate::analysis::day::Day;
use crate::design::Design;
use crate::design::field::{FIELDS, Field, Group, Kind};
use crate::language::{English, said, say};
use crate::rules::{Finding, Question, answer};
use crate::study::uncertainty::Uncertainty;
use crate::units::{Quantity, System, figure, kelvin, number, unit_of};

/// Heading over the sizes and gas of each run.
pub const RUNS: English = English("Run by run");
/// Heading over the day.
pub const DAY: English = English("Hour by hour, once the days repeat");
/// Heading over every decision.
pub const INPUTS: English = English("Every decision");
/// Heading over what was left out.
pub const LEFT_OUT: English = English("What was not checked");

/// The three questions with their answers and the figure that decides each; how sure that is,
/// where it is known.
pub fn answers(
    analysis: &Analysis,
    findings: &[Finding],
    worth: Option<&Uncertainty>,
    system: System,
) -> Table {
    let row = |asked| {
        let found = answer(asked, findings);
        let sure = worth.map(|worth| worth.answers.get(asked));
        let word = uncertainty::answer(asked, found, sure);
        let verdict = Cell { answer: Some((found, word)), ..Cell::default() };
        let why = deciding(asked, analysis, findings, system);
        let by = match sure.map(|sure| uncertainty::cases(asked, sure)) {
            Some(cases) => say!("{why}. At the height of the fire: {cases}"),
            None => why,
        };
        vec![question(asked).into(), verdict, by.into()]
    };
    Table {
        caption: None,
        heads: [said("Question"), said("Answer"), said("By")].map(String::from).to_vec(),
        rows: Question::ALL.map(row).to_vec(),
    }
}

/// The figures at the head of the page and what the heater is.
pub fn figures(design: &Design, analysis: &Analysis, system: System) -> Table {
    let fire = &analysis.height_of_fire;
    let chimney = &design.chimney;
    let rows = [
        (said("Wood of a firing"), design.fire.charge, Quantity::Mass),
        (said("Firings on the coldest days"), design.fire.firings_per_day, Quantity::Count),
        (said("Draft to spare"), fire.margin, Quantity::Pressure),
        (said("Gas into the chimney"), fire.chimney_inlet, Quantity::Temperature),
        (
            said("Wall at the mouth, steady flue"),
            fire.chimney_mouth_wall,
            Quantity::Temperature,
        ),
        (said("Dew point of the gas"), fire.dew_point, Quantity::Temperature),
        (said("Heat kept"), fire.efficiency_lower, Quantity::Share),
        (said("Mouth above the floor of the firebox"), chimney.mouth_height, Quantity::Length),
        (said("Heater without chimney and base"), analysis.structure.heater, Quantity::Weight),
    ];
    let row = |(name, value, quantity)| {
        vec![Cell::from(name), figure(value, quantity, system).into()]
    };
    Table {
        caption: Some(said("At the height of the first fire").into()),
        heads: [said("Figure"), said("Is")].map(String::from).to_vec(),
        rows: rows.map(row).to_vec(),
    }
}

/// Sizes and gas of each part of the path.
pub fn runs(design: &Design, analysis: &Analysis, system: System) -> Passage {
    let columns = [
        (said("Length"), Quantity::Length),
        (said("Width"), Quantity::Size),
        (said("Height"), Quantity::Size),
        (said("Floor at"), Quantity::Length),
        (said("Gas in"), Quantity::Temperature),
        (said("Gas out"), Quantity::Temperature),
        (said("Wall"), Quantity::Temperature),
        (said("Speed"), Quantity::Speed),
    ];
    let head = |(name, quantity): (&str, Quantity)| match unit_of(quantity, system).symbol {
        // Feet and inches carry their marks.
        "" => name.into(),
        symbol => format!("{name} ({symbol})"),
    };
    let heads = std::iter::once(said("Run").to_owned()).chain(columns.map(head)).collect();
    let sizes = design.path.runs().into_iter().zip(design.run_heights());
    let states = sizes.zip(&analysis.height_of_fire.runs).enumerate();
    let rows = states.map(|(index, ((run, middle), state))| {
        let floor = middle - 0.5 * run.height;
        let sizes = [run.length, run.width, run.height, floor];
        let gas = [state.inlet, state.outlet, state.wall, state.velocity];
        let figures = sizes.into_iter().chain(gas).zip(columns);
        let cells =
            figures.map(|(value, (_, quantity))| number(value, quantity, system).into());
        std::iter::once(Cell::from((index + 1).to_string())).chain(cells).collect()
    });
    let table = Table { caption: None, heads, rows: rows.collect() };
    Passage::new(RUNS)
        .text(said(
            "Inner sizes, in the order in which the gas goes. The floor of a run is \
                 measured from the floor of the firebox.",
        ))
        .with(Block::Table(table))
}

/// What the heater does at each full hour of the day that repeats.
pub fn hours(day: &Day, system: System) -> Passage {
    let show = |value, quantity| Cell::from(number(value, quantity, system));
    let unit = |name: &str, quantity| format!("{name} ({})", unit_of(quantity, system).symbol);
    let hot = |celsius| show(kelvin(celsius), Quantity::Temperature);
    let heads = vec![
        said("Hour").to_owned(),
        unit(said("Fire"), Quantity::Power),
        unit(said("With the gas"), Quantity::Power),
        unit(said("To the room"), Quantity::Power),
        unit(said("Hottest face"), Quantity::Temperature),
        unit(said("Into the chimney"), Quantity::Temperature),
        unit(said("Wall at the mouth"), Quantity::Temperature),
    ];
    let row = |hour: super::hours::Hour| {
        vec![
            Cell::from(hour.hour.to_string()),
            show(hour.wood_watts, Quantity::Power),
            show(hour.stack_watts, Quantity::Power),
            show(hour.room_watts, Quantity::Power),
            hot(hour.surface_celsius),
            hot(hour.chimney_inlet_celsius),
            hot(hour.mouth_wall_celsius),
        ]
    };
    let rows = Hours::new(day).periodic.into_iter().map(row).collect();
    Passage::new(DAY).with(Block::Table(Table { caption: None, heads, rows }))
}

/// Every decision, group by group, so that the design can be entered again from paper.
pub fn inputs(design: &Design, system: System) -> Passage {
    let groups = Group::ALL.iter().map(|of| {
        let fields = FIELDS.iter().filter(|field| field.group == *of);
        let rows =
            fields.map(|field| vec![label(field.id).to_owned(), value(field, design, system)]);
        Passage::new(group(*of)).table(&[said("Decision"), said("Is")], rows)
    });
    let own =
        design.path.overrides.iter().any(|own| *own != crate::design::RunOverride::default());
    let passage = groups.fold(Passage::new(INPUTS), Passage::folded);
    if own {
        passage.text(said("Some runs have sizes of their own: they stand under Run by run."))
    } else {
        passage
    }
}

fn value(field: &Field, design: &Design, system: System) -> String {
    match &field.kind {
        Kind::Number(number) => figure((number.get)(design), number.quantity, system),
        Kind::Choice(chosen) => {
            choice(chosen.keys.get((chosen.get)(design)).copied().unwrap_or_default()).into()
        }
    }
}

/// What nobody looked at.
pub fn left_out(design: &Design) -> Passage {
    let cautions = CAUTIONS.map(English::said).into_iter().skip(1).take(1);
    let points = [
        structure::scope(design.site.rule_set),
        NOT_CHECKED.said(),
        said("How well the heater is built is not looked at."),
    ];
    Passage::new(LEFT_OUT).list(cautions.chain(points).map(String::from))
}
