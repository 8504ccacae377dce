//! How long it takes.

use super::number_cell;
use crate::analysis::Analysis;
use crate::build::crew::{self, Crew, FIRST_TIME};
use crate::build::labor::{Doing, Spread, Step, Work, calendar, labor, sum};
use crate::build::materials::of_placed;
use crate::design::Design;
use crate::language::{said, say};
use crate::sources::{CONCRETE_HARDENING, CURING, HEATER_LABOR, Source};
use crate::units::{System, fixed};
use crate::words::passage::{Cell, Passage};
use crate::words::sources::cited;

/// Hours by step, and a calendar.
pub fn passage(design: &Design, analysis: &Analysis, _system: System) -> Passage {
    let items = of_placed(design, analysis, None);
    let works = labor(design, analysis, &items);
    let crew = Crew::of(design);
    let hours = |spread: Spread| match between(spread).as_str() {
        "0" => said("none").to_owned(),
        between => format!("{between} h"),
    };
    let own = |spread: Spread| {
        hours(Spread { low: spread.low * crew.factor, high: spread.high * crew.factor })
    };
    let rows = works.iter().map(|work| {
        let name = name(work.step).to_owned();
        vec![name, hours(work.mason), hours(work.tender), own(work.hours())]
    });
    let all = sum(&works, Work::hours);
    let whole = vec![
        said("All steps").to_owned(),
        hours(sum(&works, |work| work.mason)),
        hours(sum(&works, |work| work.tender)),
        own(all),
    ];
    let mut sources: Vec<&'static Source> = vec![&HEATER_LABOR, &CONCRETE_HARDENING, &CURING];
    for work in &works {
        if !sources.contains(&work.source) {
            sources.push(work.source);
        }
    }
    let steps =
        [said("Step"), said("Masons"), said("Tenders"), said("All hands with the factor")];
    let days = [said("Calendar"), said("Takes"), said("From day"), said("To day")];
    Passage::new(said("Labor and calendar"))
        .table(&[said("Who builds"), said("Figure")], crew_rows(design, crew))
        .text(say!(
            "The factor says how much longer it takes than masons take who have built heaters: 1 for \
             them, {} to {} for a crew that builds its first.",
            super::typed(FIRST_TIME.0),
            super::typed(FIRST_TIME.1),
        ))
        .table(&steps, rows.chain([whole]))
        .text(
            said(
                "Published rates with their spread; a tender mixes, carries and cuts. \
                 Permits, waiting for material and tearing out what was there come on top.",
            ),
        )
        .table(&days, lines(design, &works, crew))
        .text(ends(design, &works, crew))
        .folded(
            Passage::new(said("Where this comes from"))
                .list(sources.into_iter().map(cited)),
        )
}

fn crew_rows(design: &Design, crew: Crew) -> Vec<Vec<Cell>> {
    let rows = [
        (said("People"), crew::PEOPLE, crew.people),
        (said("Hours of a working day"), crew::HOURS, crew.hours),
        (said("Factor"), crew::FACTOR, crew.factor),
    ];
    let row = |(name, note, value): (&str, &str, f64)| {
        let cell = number_cell(design, note.to_owned(), name.to_owned(), 1.0);
        vec![Cell::from(name), Cell { text: super::typed(value), ..cell }]
    };
    rows.into_iter().map(row).collect()
}

/// A spread in whole numbers, or in tenths where it is small.
fn between(spread: Spread) -> String {
    let whole = (spread.low.fract() + spread.high.fract()).abs() < 1e-9;
    let digits = usize::from(spread.high < 10.0 && !whole);
    let [low, high] = [spread.low, spread.high].map(|value| fixed(value, digits));
    if low == high { low } else { say!("{low} to {high}") }
}

fn lines(design: &Design, works: &[Work], crew: Crew) -> Vec<Vec<String>> {
    let line = |line: crate::build::labor::Line| {
        let (from, to) = line.from_to;
        let (what, unit) = match line.what {
            Doing::Work(step) => (name(step), said("working days")),
            Doing::Hardening => (said("Concrete hardens"), said("days")),
            Doing::Drying => (said("Masonry dries in the air"), said("days")),
            Doing::Curing => (said("First fires"), said("days")),
        };
        let takes = format!("{} {unit}", between(line.days));
        vec![what.to_owned(), takes, fixed(from, 0), fixed(to, 0)]
    };
    calendar(design, works, crew).into_iter().map(line).collect()
}

fn ends(design: &Design, works: &[Work], crew: Crew) -> String {
    let lines = calendar(design, works, crew);
    let last = |what: fn(&Doing) -> bool| {
        let days = lines.iter().filter(|line| what(&line.what)).map(|line| line.from_to.1);
        days.fold(0.0, f64::max) / 7.0
    };
    say!(
        "In the middle of the spread, five days a week and one step after the other, the masonry \
         stands after {} weeks and the heater is ready after {}.",
        fixed(last(|what| matches!(what, Doing::Work(_))).ceil(), 0),
        fixed(last(|_| true).ceil(), 0),
    )
}

/// Name of a step.
pub fn name(step: Step) -> &'static str {
    let english = match step {
        Step::Footing => "Footing",
        Step::Base => "Base slab",
        Step::LayOut => "Laying out, first course dry",
        Step::Core => "Firebox and runs",
        Step::Slabs => "Slabs and lintels",
        Step::Fittings => "Doors, cleanouts, damper, connector",
        Step::Chimney => "Chimney",
        Step::Facing => "Facing",
        Step::Finish => "Hearth, pointing, cleaning up",
    };
    said(english)
}
