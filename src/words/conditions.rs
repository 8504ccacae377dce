//! The draft under four conditions: two fires on two days.

use super::passage::{Cell, Passage};
use crate::analysis::conditions::{KINDLING_RATE, LEAST_SUCTION};
use crate::language::{English, said, say};
use crate::rules::{Answer, Condition, Severity, Start};
use crate::units::{Quantity, System, figure};

/// Heading over the conditions.
pub const TITLE: English = English("Draft on two days");

/// The conditions to read: a row per fire, a column per day.
pub fn passage(all: &[Condition], system: System) -> Passage {
    let of = |start| all.iter().filter(move |condition| condition.start == start);
    let days = of(Start::Hot).map(|condition| day(condition, system));
    let heads: Vec<String> = std::iter::once(said("Fire").to_owned()).chain(days).collect();
    let heads: Vec<&str> = heads.iter().map(String::as_str).collect();
    let rows = [Start::Hot, Start::Cold].map(|fire| {
        let cells = of(fire).map(|condition| cell(condition, system));
        std::iter::once(Cell::from(start(fire))).chain(cells).collect()
    });
    Passage::new(TITLE).text(note(all, system)).table(&heads, rows)
}

fn cell(condition: &Condition, system: System) -> Cell {
    let (answer, word) = verdict(condition.severity);
    let answer = Some((answer, word.to_owned()));
    Cell { answer, ..Cell::from(margin(condition, system)) }
}

/// Name of a fire for which the draft is judged.
fn start(start: Start) -> &'static str {
    let english = match start {
        Start::Hot => "Height of the fire",
        Start::Cold => "Kindling, all cold",
    };
    said(english)
}

/// Name of a day, with the temperature outdoors.
fn day(condition: &Condition, system: System) -> String {
    let name = match condition.day {
        crate::rules::Day::Design => said("Day of the design"),
        crate::rules::Day::Mild => said("Mild day"),
    };
    format!("{name}, {}", figure(condition.outdoors, Quantity::Temperature, system))
}

/// What a condition comes to.
fn verdict(severity: Option<Severity>) -> (Answer, &'static str) {
    match severity {
        None => (Answer::Yes, said("Draws")),
        Some(Severity::GoodToKnow) => (Answer::Yes, said("Draws, good to know")),
        Some(Severity::LookAgain) => (Answer::LookAgain, said("Look again")),
        Some(Severity::DoNotBuild) => (Answer::No, said("Does not draw")),
    }
}

/// Its figure beside what is wanted.
fn margin(condition: &Condition, system: System) -> String {
    let show = |pascals: f64| figure(pascals, Quantity::Pressure, system);
    let found = if condition.margin < 0.0 {
        say!("{} short", show(-condition.margin))
    } else {
        say!("{} to spare", show(condition.margin))
    };
    if condition.wanted > 0.0 {
        say!("{found}, at least {} wanted", show(condition.wanted))
    } else {
        found
    }
}

/// What the conditions are.
fn note(conditions: &[Condition], system: System) -> String {
    let raised = conditions.iter().any(|condition| condition.suction_raised);
    let suction = if raised {
        say!(
            " All are judged with a suction of the house of {}, more than was entered.",
            figure(LEAST_SUCTION, Quantity::Pressure, system)
        )
    } else {
        String::new()
    };
    say!(
        "The height of the fire at the excess air that is stated; the kindling with {} of wood \
         an hour in cold masonry and a cold flue.{suction}",
        figure(KINDLING_RATE * 3600.0, Quantity::Mass, system)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::analyze;
    use crate::design::Design;
    use crate::rules::conditions;

    #[test]
    fn four_conditions_are_told_with_figure_and_verdict() {
        let mut design = Design::demonstration();
        design.site.house_suction = 0.0;
        let analysis = analyze(&design).unwrap();
        let all = conditions(&design, &analysis);
        let said: Vec<String> = all.iter().map(|each| margin(each, System::Metric)).collect();
        assert!(said.iter().all(|each| each.contains("Pa to spare")), "{said:?}");
        assert!(note(&all, System::Metric).contains("4.0 Pa"));
        assert!(note(&all, System::Us).contains("lb"));
        assert_eq!(day(&all[1], System::Metric), "Mild day, 15 °C");
        let plain = passage(&all, System::Metric).plain();
        assert_eq!(plain.matches("Pa to spare").count(), 4, "{plain}");
    }
}
