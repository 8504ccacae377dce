//! What matters most, in words.

use super::{label, trust, uncertainty};
use crate::language::{English, said, say};
use crate::rules::Question;
use crate::sources::BUILDING_TOLERANCES;
use crate::study::matters::{Effect, What, ranked};
use crate::study::uncertainty::{SPREADS, Target};
use crate::units::{Quantity, System, difference, figure};
use crate::words::passage::{Block, Cell, Passage};

/// Heading over the rank.
pub const TITLE: English = English("What matters most");
/// What is ranked.
pub const NOTE: English = English(
    "Sizes as they are built and what is known only roughly, each alone at both ends of its \
     range, at the height of the first fire. Where the change is small next to the margin, \
     usual care will do for this figure; where it is large, measure twice.",
);
/// Most rows for a question.
const ROWS: usize = 12;

/// The figure that is ranked for a question.
fn figure_of(question: Question) -> &'static str {
    let english = match question {
        Question::Draw => "Draft to spare beyond what is wanted, where that is least",
        Question::Heat => "Share of the wood's heat that stays",
        Question::Safe => "Gas into the chimney",
    };
    said(english)
}

fn name(what: What) -> String {
    match what {
        What::Size(id) => say!("{}, as built", label(id)),
        What::Rough(id) => uncertainty::name(id).into(),
    }
}

fn ends(effect: &Effect, system: System) -> String {
    let (low, high) = effect.ends;
    let id = match effect.what {
        What::Size(id) => Some(id),
        What::Rough(spread) => {
            SPREADS.iter().find(|each| each.id == spread).and_then(|each| match each.target {
                Target::Input(id) => Some(id),
                Target::Factor(_) => None,
            })
        }
    };
    let Some(id) = id else {
        let share = |value| figure(value, Quantity::Share, system);
        return say!("{} to {} of what is computed", share(low), share(high));
    };
    let quantity = super::quantity(id);
    say!("{} to {}", figure(low, quantity, system), figure(high, quantity, system))
}

fn change(question: Question, by: f64, system: System) -> String {
    let text = match question {
        Question::Draw => figure(by, Quantity::Pressure, system),
        Question::Heat => figure(by, Quantity::Share, system),
        Question::Safe => difference(by, system),
    };
    if shows_nothing(&text) {
        return text.trim_start_matches(['-', '\u{2212}']).to_owned();
    }
    if by > 0.0 { format!("+{text}") } else { text }
}

/// Whether a figure is zero in the digits that are shown.
fn shows_nothing(text: &str) -> bool {
    !text.chars().any(|c| ('1'..='9').contains(&c))
}

/// For each question what moves its figure most.
pub fn passage(effects: &[Effect], system: System) -> Passage {
    let of = |question| {
        let ranked = ranked(effects, question);
        let most = ranked.first().map_or(1.0, |first| first.most(question).abs());
        let shown = ranked
            .iter()
            .filter(|effect| !shows_nothing(&change(question, effect.most(question), system)));
        let rows = shown.take(ROWS).map(|effect| {
            let (low, high) = Question::ALL
                .into_iter()
                .zip(effect.changes)
                .find(|(each, _)| *each == question)
                .map_or((0.0, 0.0), |(_, changes)| changes);
            let bar = Some(effect.most(question) / most);
            vec![
                name(effect.what).into(),
                ends(effect, system).into(),
                change(question, low, system).into(),
                Cell { bar, ..change(question, high, system).into() },
            ]
        });
        let heads = [said("What"), said("From and to"), said("Lower end"), said("Upper end")];
        Passage::new(super::question(question)).text(figure_of(question)).table(&heads, rows)
    };
    let source = &BUILDING_TOLERANCES;
    Passage::new(TITLE)
        .text(NOTE)
        .with(Block::Choice(said("For the question").into(), Question::ALL.map(of).to_vec()))
        .text(format!("{} ({}).", source.text(), trust(source.trust)))
}
