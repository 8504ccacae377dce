//! Suggestions in words: what is changed, what it comes to, what it trades away.

use super::compare::{NOTHING, answered, line as name_of_line, line_with_unit, shown};
use super::findings::in_short;
use super::{label, quantity, trials, with_unit};
use crate::design::Design;
use crate::design::field::{FieldId, Kind, field};
use crate::language::{English, said, say, within};
use crate::rules::{Finding, Question};
use crate::study::figures::{Figures, Line};
use crate::study::suggest::{Aim, Conflict, Near, Outcome, Proposal, Puts, Wish, labor, with};
use crate::study::trials::Trial;
use crate::study::variant::value;
use crate::units::{System, figure};
use crate::words::passage::{Block, Cell, Passage, Table};

/// Heading over suggestions.
pub const TITLE: English = English("Other designs for this house, wood and chimney");
/// How they are found.
pub const NOTE: English = English(
    "Runs and firebox are sought in whole courses and half bricks; house, wood and chimney \
     stay, and so does all that is not named. Each was put into the design and judged anew, \
     with its day, a mild day, a cold start and, at the edge, more wood than stated. A design \
     that is not told may be better still.",
);

/// The design as it stands.
pub const NOW: English = English("Now");

/// Name of an aim.
pub fn aim(aim: Aim) -> &'static str {
    let english = match aim {
        Aim::Warmth => "Warmth that lasts",
        Aim::Wood => "Little wood for the heat",
        Aim::Masonry => "Little masonry",
        Aim::Simplicity => "Few runs, in whole courses",
    };
    said(english)
}

/// A value of an input with its unit, or the name of a choice.
pub fn input(id: FieldId, value: f64, system: System) -> String {
    match &field(id).kind {
        Kind::Number(_) => with_unit(value, quantity(id), system),
        Kind::Choice(choice) => {
            let key = choice
                .keys
                .iter()
                .zip(0_u32..)
                .find(|(_, place)| (f64::from(*place) - value).abs() < 0.5);
            key.map_or(NOTHING, |(key, _)| super::choice(key)).to_owned()
        }
    }
}

/// What is searched for, what was found and what it trades away.
pub fn passage(design: &Design, wish: Wish, outcome: &Outcome, system: System) -> Passage {
    let passage = Passage::new(TITLE).text(summary(outcome)).text(conditions(outcome));
    if outcome.proposals.is_empty() {
        return nearest(design, passage, outcome, system).text(NOTE);
    }
    let puts: Vec<&Puts> = outcome.proposals.iter().map(|each| &each.puts).collect();
    let figures: Vec<&Figures> = outcome.proposals.iter().map(|each| &each.figures).collect();
    let counted = outcome.proposals.iter().zip(1_u32..);
    let trades = counted
        .map(|(each, count)| format!("{count}: {}", traded(design, each, outcome, system)));
    passage
        .text(order(wish))
        .with(Block::Table(table(design, (&puts, &figures), outcome, system)))
        .list(trades)
        .text(NOTE)
}

fn summary(outcome: &Outcome) -> String {
    let Outcome { looked, followed, proposals, .. } = outcome;
    let found = match proposals.len() {
        0 => said("None of them answers yes three times.").into(),
        1 => said("One that answers yes three times follows.").into(),
        count => say!("{count} that answer yes three times follow, the best first."),
    };
    say!(
        "{looked} sizes were looked at by the height of the fire, {followed} of them followed \
         through the day. {found}"
    )
}

fn conditions(outcome: &Outcome) -> String {
    let names = |trials: &mut dyn Iterator<Item = Trial>| {
        trials.map(|each| within(trials::name(each))).collect::<Vec<_>>().join(", ")
    };
    if outcome.asked.is_empty() {
        return String::new();
    }
    let asked = names(&mut outcome.asked.iter().copied());
    let left = names(&mut Trial::ALL.into_iter().filter(|each| !outcome.asked.contains(each)));
    if left.is_empty() {
        return say!("Asked for a yes: {asked}.");
    }
    say!("Asked for a yes: {asked}. Not asked: {left}.")
}

fn order(wish: Wish) -> String {
    let aims = Aim::ALL.into_iter().filter(|each| wish.aims_at(*each)).map(aim);
    let aims: Vec<_> = aims.collect();
    if let [only] = aims.as_slice() {
        return say!("In the order of: {}.", within(only));
    }
    say!(
        "In the order of: {}. Four hours of warmth, five points of heat kept, 1000 kg (2200 lb) of masonry \
         and two runs weigh the same (our choice).",
        aims.into_iter().map(within).collect::<Vec<_>>().join(", ")
    )
}

/// Inputs that differ, then figures and answers: the present design and each proposal.
fn table(
    design: &Design,
    (puts, figures): (&[&Puts], &[&Figures]),
    outcome: &Outcome,
    system: System,
) -> Table {
    let heads = (1..=puts.len()).map(|count| count.to_string());
    let heads = [said("What").to_owned(), NOW.into()].into_iter().chain(heads).collect();
    let mut fields: Vec<FieldId> = Vec::new();
    for (id, _) in puts.iter().flat_map(|puts| puts.iter()) {
        if !fields.contains(id) {
            fields.push(*id);
        }
    }
    let inputs = fields.into_iter().map(|id| {
        let now = value(design, id);
        let then = puts.iter().map(|puts| {
            let put = puts.iter().find(|(each, _)| *each == id);
            input(id, put.map_or(now, |(_, value)| *value), system)
        });
        let cells = [label(id).to_owned(), input(id, now, system)].into_iter().chain(then);
        cells.map(Cell::from).collect::<Vec<Cell>>()
    });
    let row = |name: String, cell: &dyn Fn(&Figures) -> Cell| {
        let now = outcome.present.as_ref().map_or(NOTHING.into(), cell);
        let then = figures.iter().map(|each| cell(each));
        [name.into(), now].into_iter().chain(then).collect::<Vec<Cell>>()
    };
    let lines = Line::ALL.map(|each| {
        row(line_with_unit(each, system), &|found| shown(each, found, system).into())
    });
    let answers = Question::ALL
        .map(|each| row(super::question(each).into(), &|found| answered(each, found, system)));
    Table { caption: None, heads, rows: inputs.chain(lines).chain(answers).collect() }
}

/// Whether more of a figure is welcome; nothing where that depends.
const fn more_is_better(line: Line) -> Option<bool> {
    match line {
        Line::Efficiency
        | Line::MarginHot
        | Line::MarginCold
        | Line::MarginMild
        | Line::Output
        | Line::HalfWarm => Some(true),
        Line::Mass | Line::CoreBricks | Line::FacingBricks | Line::HottestFace => Some(false),
        Line::RunsOutlet | Line::ChimneyInlet | Line::MouthWall => None,
    }
}

/// What a proposal gains and what it trades away, against the present design.
fn traded(design: &Design, each: &Proposal, outcome: &Outcome, system: System) -> String {
    let changes = each
        .puts
        .iter()
        .map(|(id, put)| format!("{} {}", within(label(*id)), input(*id, *put, system)));
    let mut text = format!("{}.", changes.collect::<Vec<_>>().join(", "));
    let (mut gains, mut costs) = (Vec::new(), Vec::new());
    if let Ok(present) = &outcome.present {
        for line in Line::ALL {
            let (Some(now), Some(then)) = (present.line(line), each.figures.line(line)) else {
                continue;
            };
            let show = |value| figure(value, line.quantity(), system);
            let (before, after) = (show(now), show(then));
            if let Some(better) = more_is_better(line).filter(|_| before != after) {
                let name = within(name_of_line(line));
                let list = if better == (now < then) { &mut gains } else { &mut costs };
                list.push(say!("{name} {after} instead of {before}"));
            }
        }
    }
    let (now, then) = (labor(design), labor(&with(design, &each.puts)));
    if now < then {
        costs.push(said("more runs or cut bricks").into());
    } else if then < now {
        gains.push(said("fewer runs or cut bricks").into());
    }
    for (what, list) in [(said("Gains"), gains), (said("Trades away"), costs)] {
        if !list.is_empty() {
            text = format!("{text} {what}: {}.", list.join("; "));
        }
    }
    let unmet = each.unmet.iter().map(|trial| within(trials::name(*trial)));
    let unmet = unmet.collect::<Vec<_>>().join(", ");
    if unmet.is_empty() { text } else { say!("{text} No full yes with: {unmet}.") }
}

/// The least wrong, each with the limits that it does not keep.
fn nearest(design: &Design, passage: Passage, outcome: &Outcome, system: System) -> Passage {
    if outcome.nearest.is_empty() {
        return passage.text(said(
            "Within whole courses, the usual sizes and this chimney no heater could be \
                 computed.",
        ));
    }
    let runs = |near: &Near| with(design, &near.puts).path.run_count;
    let points = outcome.nearest.iter().map(|near| {
        let against: Vec<_> =
            near.against.iter().map(|finding: &Finding| in_short(finding, system)).collect();
        let unmet = near.unmet.iter().map(|trial| within(trials::name(*trial)));
        let why = if against.is_empty() {
            say!("no full yes with {}", unmet.collect::<Vec<_>>().join(", "))
        } else {
            against.join("; ")
        };
        say!("{} runs: {why}.", runs(near))
    });
    let points: Vec<_> = points.collect();
    let (puts, figures): (Vec<&Puts>, Vec<&Figures>) =
        outcome.nearest.iter().map(|near| (&near.puts, &near.figures)).unzip();
    passage
        .text(said(
            "The limits conflict: these come nearest, each with another number of runs, \
                 and this is what they miss. Other wood, another chimney or another limit \
                 must give way.",
        ))
        .list(points)
        .text(conflicts(outcome))
        .list(outcome.conflicts.iter().map(|each| conflict(each, system)))
        .with(Block::Table(table(design, (&puts, &figures), outcome, system)))
}

/// What the sizes that do not come so near have against them.
fn conflicts(outcome: &Outcome) -> String {
    if outcome.conflicts.is_empty() {
        return String::new();
    }
    let missing: usize = outcome.conflicts.iter().map(|each| each.count).sum();
    let kept = outcome.looked.saturating_sub(missing);
    say!(
        "Of the {} sizes {kept} keep the limits at the height of the fire. The others do not, each \
         counted where it misses most:",
        outcome.looked
    )
}

fn conflict(conflict: &Conflict, system: System) -> String {
    let nearest = in_short(&conflict.nearest, system);
    match conflict.count {
        1 => say!("1 size, of which the nearest has: {nearest}."),
        count => say!("{count} sizes, of which the nearest has: {nearest}."),
    }
}
