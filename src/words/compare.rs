//! Variants side by side in words.

use super::findings::in_short;
use super::{answer, failure, question};
use crate::analysis::Failure;
use crate::language::{English, said, say};
use crate::rules::{Answer, Finding, Question};
use crate::study::compare::{self, Best, Column, Crossing, End, LEAST_GAIN};
use crate::study::figures::{Figures, Line};
use crate::units::{Quantity, System, figure, number, unit_of};
use crate::words::passage::{Block, Cell, Passage, Table};

/// Name of a figure.
pub fn line(line: Line) -> &'static str {
    let english = match line {
        Line::RunsOutlet => "Gas out of the last run",
        Line::ChimneyInlet => "Gas into the chimney",
        Line::Efficiency => "Efficiency",
        Line::MarginHot => "Draft to spare, hot",
        Line::MarginCold => "Draft to spare, cold start",
        Line::MarginMild => "Draft to spare, mild day",
        Line::MouthWall => "Wall at the mouth",
        Line::HottestFace => "Hottest face",
        Line::Output => "Heat to the room",
        Line::HalfWarm => "Half of the warmth lasts",
        Line::Mass => "Mass without chimney",
        Line::CoreBricks => "Core bricks, by volume",
        Line::FacingBricks => "Facing bricks, by volume",
    };
    said(english)
}

/// What the figures belong to.
pub const NOTE: English = English(
    "Gas out of the last run, wall at the mouth and draft belong to the height of the fire, \
     with the masonry cold and the flue steady; all else to the day that repeats.",
);

/// How bricks are counted.
pub const BRICKS: English = English(
    "Bricks are estimated by volume and by the size that the design states, as if none were cut, \
     without slabs. Materials and courses count those that are placed, which may be a fifth more; \
     waste comes on top.",
);

/// Heading over the comparison of runs.
pub const TITLE: English = English("One to ten runs");
/// What stands where a design has no figures.
pub const NOTHING: &str = "\u{2013}";
/// What stands where the warmth does not fall to half within days.
const DAYS: English = English("days");

/// A figure with what stands for it where there is none.
pub fn shown(line: Line, figures: &Figures, system: System) -> String {
    let quantity = line.quantity();
    match (figures.line(line), line) {
        (Some(value), _) => number(value, quantity, system),
        (None, Line::HalfWarm) => DAYS.into(),
        (None, _) => NOTHING.into(),
    }
}

/// Name of a figure with its unit.
pub fn line_with_unit(line: Line, system: System) -> String {
    let name = self::line(line);
    match unit_of(line.quantity(), system).symbol {
        "" => name.into(),
        symbol => format!("{name} ({symbol})"),
    }
}

/// A design beside others: its heading and what it comes to.
pub type Beside<'a> = (String, &'a Result<Figures, Failure>);

/// Figures down, designs across; then the three answers, each with what decides it.
pub fn table(what: &str, designs: &[Beside<'_>], system: System) -> Table {
    let heads = designs.iter().map(|(head, _)| head.clone());
    let row = |name: String, cell: &dyn Fn(&Figures) -> Cell| {
        let cells = designs.iter().map(|(_, found)| match found {
            Ok(figures) => cell(figures),
            Err(_) => NOTHING.into(),
        });
        std::iter::once(name.into()).chain(cells).collect::<Vec<Cell>>()
    };
    let figures = Line::ALL.map(|each| {
        row(line_with_unit(each, system), &|found| shown(each, found, system).into())
    });
    let answers = Question::ALL
        .map(|each| row(question(each).into(), &|found| answered(each, found, system)));
    let all = row(ALL.into(), &|found| worst(found));
    Table {
        caption: None,
        heads: std::iter::once(what.to_owned()).chain(heads).collect(),
        rows: std::iter::once(all).chain(figures).chain(answers).collect(),
    }
}

/// Row of the worst of the three answers.
const ALL: English = English("All three questions");

/// The worst of the three answers, as it is said of a question.
pub fn worst(figures: &Figures) -> Cell {
    let has = |answer: &Answer| figures.verdicts.iter().any(|each| each.answer == *answer);
    let worst = [Answer::No, Answer::NotEnoughKnown, Answer::LookAgain];
    let worst = worst.into_iter().find(has).unwrap_or(Answer::Yes);
    Cell { answer: Some((worst, answer(Question::Draw, worst).to_owned())), ..Cell::default() }
}

/// An answer; what decides it shows when it is opened.
pub fn answered(asked: Question, figures: &Figures, system: System) -> Cell {
    let found = figures.answer(asked);
    let all = Question::ALL.into_iter().zip(&figures.verdicts);
    let mine = all.filter(|(each, _)| *each == asked);
    let deciding = mine.filter_map(|(_, verdict)| verdict.deciding).next_back();
    let more =
        deciding.map(|finding| Passage::new(question(asked)).text(told(&finding, system)));
    Cell { answer: Some((found, answer(asked, found).to_owned())), more, ..Cell::default() }
}

fn told(finding: &Finding, system: System) -> String {
    let text = super::finding(finding, system);
    format!("{} {} {}", text.title, text.reason, text.remedy)
}

/// The comparison of runs: which number is the best and why, and every figure.
pub fn passage(columns: &[Column], system: System) -> Passage {
    let found = compare::best(columns);
    let chosen = found.and_then(|best| match best {
        Best::Passes { runs, .. } => Some(runs),
        Best::None { .. } => None,
    });
    let head =
        |runs| format!("{runs}{}", if chosen == Some(runs) { said(" (best)") } else { "" });
    let heads: Vec<Beside<'_>> =
        columns.iter().map(|column| (head(column.runs), &column.result)).collect();
    let missing = columns.iter().filter_map(|column| {
        let why = failure(column.result.as_ref().err()?, system);
        Some(format!("{}: {why}", count(column.runs)))
    });
    Passage::new(TITLE)
        .text(found.map(|found| best(&found, system)).unwrap_or_default())
        .text(crossing(&compare::crossing(columns), system))
        .with(Block::Table(table(said("Runs"), &heads, system)))
        .list(missing)
        .text(NOTE)
        .text(BRICKS)
}

/// Where draft and efficiency end the row of runs, and which of them ends it first.
pub fn crossing(found: &Crossing, system: System) -> String {
    let pascals = |value: f64| figure(value.abs(), Quantity::Pressure, system);
    let draft = found.draft.map(|(runs, has, lacks)| {
        say!(
            "The draft lasts for {}: {} beyond what is wanted, and with one more {} too little.",
            count(runs),
            pascals(has),
            pascals(lacks)
        )
    });
    let gain = found.gain.map(|(runs, adds)| {
        say!(
            "Heat is worth a run up to {}: one more keeps only {} of the wood's heat.",
            count(runs),
            figure(adds, Quantity::Share, system)
        )
    });
    let decides = match (found.draft, found.gain) {
        (Some((draft, ..)), Some((gain, _))) if draft < gain => said("The draft ends first."),
        (Some((draft, ..)), Some((gain, _))) if gain < draft => {
            said("The gain in heat ends first.")
        }
        (Some(_), Some(_)) => said("Both end there."),
        (None, None) => said("Draft and heat both speak for more runs than were compared."),
        _ => "",
    };
    let parts = [draft.unwrap_or_default(), gain.unwrap_or_default(), decides.into()];
    let parts: Vec<_> = parts.into_iter().filter(|part| !part.is_empty()).collect();
    parts.join(" ")
}

/// Which number of runs is the best, and why.
pub fn best(best: &Best, system: System) -> String {
    let short = |finding: &Finding| in_short(finding, system);
    let share = |value| figure(value, Quantity::Share, system);
    match best {
        Best::None { runs, finding } => say!(
            "No number of runs answers yes three times. With {} the least speaks against it: {}.",
            count(*runs),
            short(finding)
        ),
        Best::Passes { runs, sensible: (fewest, most), end } => {
            let range = if fewest == most {
                said("no other number answers yes three times").into()
            } else {
                say!("{fewest} to {most} answer yes three times")
            };
            let why = match end {
                End::GainsLittle(gain) => say!(
                    "one run more keeps only {} more of the wood's heat, and a run should earn \
                     {} (our choice)",
                    share(*gain),
                    share(LEAST_GAIN)
                ),
                End::Fails(finding) => {
                    say!("one run more does not pass: {}", short(finding))
                }
                End::CannotStand => {
                    said("one run more does not stand below the mouth of the chimney").into()
                }
                End::Last => said("more were not compared").into(),
            };
            say!("Best with {}: {range}, and {why}.", count(*runs))
        }
    }
}

fn count(runs: usize) -> String {
    if runs == 1 { said("1 run").into() } else { say!("{runs} runs") }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::analyze;
    use crate::design::Design;
    use crate::rules::{Question, check, deciding};

    #[test]
    fn the_best_is_named_with_its_reason() {
        let passes = |sensible, end| Best::Passes { runs: 5, sensible, end };
        let said = |found: &Best| best(found, System::Metric);
        assert_eq!(
            said(&passes((4, 6), End::GainsLittle(0.007))),
            "Best with 5 runs: 4 to 6 answer yes three times, and one run more keeps only 0.7 % \
             more of the wood's heat, and a run should earn 1.0 % (our choice)."
        );
        let mut design = Design::demonstration();
        design.site.house_suction = 40.0;
        let findings = check(&design, &analyze(&design).unwrap());
        let finding = *deciding(Question::Draw, &findings).unwrap();
        let fails = said(&passes((5, 5), End::Fails(finding)));
        assert!(
            fails.contains("no other number") && fails.contains("not pass: draft"),
            "{fails}"
        );
        let none = said(&Best::None { runs: 1, finding });
        assert!(none.contains("With 1 run the least speaks against it: draft"), "{none}");
    }
}
