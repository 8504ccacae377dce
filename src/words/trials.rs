//! The heater under nine conditions in words.

use super::findings::in_short;
use super::sources::cited;
use super::{Text, finding, severity};
use crate::analysis::conditions::MILD_OUTDOORS;
use crate::analysis::otherwise::{ASH, HALF_CHARGE, SOOT};
use crate::design::Design;
use crate::language::{English, said, say};
use crate::rules::{self, OVERLOAD, Question};
use crate::study::trials::{FAN, Trial, Tried, Verdict, WET_WOOD, WIND, judge};
use crate::units::{Quantity, System, figure};
use crate::words::passage::{Cell, Passage};

/// Heading over the table.
pub const TITLE: English = English("On other days");
/// What the table is.
pub const NOTE: English = English(
    "The same heater as weather, wood and use will have it, each with a firing day of its \
     own, with every figure as it stands: how rough they are is told beside the answers on \
     top, which hold the mild day too. Distances and sizes are those of the design. Soot also \
     slows the heat into the wall; that is not computed.",
);
/// Heading over the conditions.
pub const CONDITION: English = English("Condition");
/// A question that a condition does not ask.
pub const NOT_ASKED: English = English("not asked");
/// A condition for which no day was found.
pub const NOT_FOUND: English = English("not found");
/// What is said where nothing speaks against a yes.
const NOTHING: English = English("Nothing to look at.");

/// Name of a condition.
pub fn name(trial: Trial) -> &'static str {
    let english = match trial {
        Trial::ColdDay => "Day of the design",
        Trial::MildDay => "Mild day",
        Trial::ColdStart => "Cold start",
        Trial::WetWood => "Wet wood",
        Trial::HalfCharge => "Half a charge",
        Trial::Overload => "Too much wood",
        Trial::Fan => "Fan running",
        Trial::DueForCleaning => "Due for cleaning",
        Trial::Wind => "Wind on the mouth",
    };
    said(english)
}

/// What a condition supposes.
pub fn supposes(trial: Trial, system: System) -> String {
    let show = |value, quantity| figure(value, quantity, system);
    let charge = |share| show(share, Quantity::Share);
    match trial {
        Trial::ColdDay => said("as entered").into(),
        Trial::MildDay => say!("{} outdoors", show(MILD_OUTDOORS, Quantity::Temperature)),
        Trial::ColdStart => said("a kindling fire, all cold, cold and mild day").into(),
        Trial::WetWood => say!("{} water", show(WET_WOOD, Quantity::Share)),
        Trial::HalfCharge => say!("{} of the wood", charge(HALF_CHARGE)),
        Trial::Overload => say!("{} of the wood", charge(OVERLOAD)),
        Trial::Fan => say!("{} more suction", show(FAN, Quantity::Pressure)),
        Trial::DueForCleaning => {
            say!("{} of ash, {} of soot", show(ASH, Quantity::Size), show(SOOT, Quantity::Size))
        }
        Trial::Wind => say!("{} of wind", show(WIND, Quantity::Pressure)),
    }
}

/// The figure on which an answer rests, beside it.
pub fn figure_of(question: Question, verdict: &Verdict, system: System) -> String {
    if let Some(finding) = rules::deciding(question, &verdict.findings) {
        return in_short(finding, system);
    }
    match question {
        Question::Draw => {
            let short = verdict.margin < 0.0;
            let pascals = figure(verdict.margin.abs(), Quantity::Pressure, system);
            format!("{pascals} {}", if short { said("short") } else { said("to spare") })
        }
        Question::Heat => {
            let kept = verdict.analysis.height_of_fire.efficiency_lower;
            say!("{} stays", figure(kept, Quantity::Share, system))
        }
        Question::Safe => {
            let gas = figure(verdict.chimney_inlet, Quantity::Temperature, system);
            say!("gas into the chimney {gas}")
        }
    }
}

/// What speaks against a yes: what was found, why it matters, what to change, and the source.
pub fn against(question: Question, verdict: &Verdict, system: System) -> Vec<String> {
    let mine = verdict.findings.iter().filter(|each| each.rule.questions().contains(&question));
    let lines: Vec<String> = mine
        .map(|each| {
            let Text { title, reason, remedy } = finding(each, system);
            let weight = severity(each.severity);
            format!("{weight}: {title} {reason} {remedy} [{}]", cited(each.source))
        })
        .collect();
    if lines.is_empty() { vec![NOTHING.into()] } else { lines }
}

/// The table of all conditions: three answers each, and what speaks against a yes.
pub fn passage(design: &Design, tried: &[Tried], system: System) -> Passage {
    let heads: Vec<_> =
        std::iter::once(CONDITION.said()).chain(Question::ALL.map(super::question)).collect();
    let rows = tried.iter().map(|tried| row(design, tried, system));
    Passage::new(TITLE).text(NOTE).table(&heads, rows)
}

fn row(design: &Design, tried: &Tried, system: System) -> Vec<Cell> {
    let trial = tried.trial;
    let judged = judge(design, tried);
    let cell = |question| {
        let title = format!("{}: {}", name(trial), super::question(question));
        match &judged {
            Ok(verdict) => match verdict.answer(question, trial) {
                Some(answer) => Cell {
                    answer: Some((answer, super::answer(question, answer).to_owned())),
                    text: figure_of(question, verdict, system),
                    more: Some(Passage::new(title).list(against(question, verdict, system))),
                    ..Cell::default()
                },
                None => NOT_ASKED.into(),
            },
            Err(failure) => Cell {
                more: Some(Passage::new(title).text(super::failure(failure, system))),
                ..NOT_FOUND.into()
            },
        }
    };
    let head = format!("{}: {}", name(trial), supposes(trial, system));
    std::iter::once(head.into()).chain(Question::ALL.map(cell)).collect()
}
