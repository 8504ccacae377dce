//! The three questions with their answers, and the figures behind them.

use super::dom::{Tag, button, tag};
use super::icon::icon;
use super::uncertainty::Worth;
use super::workspace::Workspace;
use super::{browser, texts};
use longsmoke::rules::{Answer, Question, answer};
use longsmoke::study::uncertainty::Headline;
use longsmoke::units::{Quantity, number, unit_of};
use longsmoke::words;

pub fn questions(workspace: Workspace, worth: Worth) -> Tag {
    tag("nav")
        .class("questions")
        .attr("aria-label", texts::questions())
        .children(Question::ALL.map(|question| question_view(workspace, worth, question)))
}

fn question_view(workspace: Workspace, worth: Worth, question: Question) -> Tag {
    let name = question.id();
    let answered = move || workspace.read(|shown, _| answer(question, &shown.findings));
    let reserve = tag("span").attr("data-testid", &format!("reserve-{name}"));
    let reserve = worth.line(reserve, "reserve", move |found, _| {
        let is_yes = answered() == Some(Answer::Yes);
        found.reserve(question).filter(|_| is_yes).map(str::to_owned)
    });
    let answer = tag("span")
        .class("answer")
        .attr("data-testid", &format!("answer-{name}"))
        .live_of(answered, move |span, answered| match *answered {
            Some(answer) => {
                span.child(icon(answer.into())).text(words::answer(question, answer))
            }
            None => span,
        });
    let deciding = move || {
        workspace.read(|shown, system| {
            words::deciding(question, &shown.analysis, &shown.findings, system)
        })
    };
    let go = move || {
        workspace.lists.set(true);
        browser::focus_on(format!("findings-{name}"));
    };
    button(go)
        .class("question")
        .child(tag("span").class("asked").text(words::question(question)))
        .child(answer)
        .child(reserve)
        .child(tag("span").class("deciding").live_text(deciding))
}

/// The three answers for who listens, once the design has rested.
pub fn announced(workspace: Workspace) -> Tag {
    let text = move || {
        workspace.kept.track();
        workspace.shown.with_untracked(|shown| {
            let findings = &shown.as_ref()?.findings;
            let answers = Question::ALL.map(|question| {
                let answer = words::answer(question, answer(question, findings));
                format!("{} {answer}.", words::question(question))
            });
            Some(answers.join(" "))
        })
    };
    tag("p")
        .class("unseen")
        .attr("role", "status")
        .attr("data-testid", "announced")
        .live_text(text)
}

/// A key figure: its id in tests, its name, its kind, and where its band stands.
type Key = (&'static str, texts::Text, Quantity, Headline);

const KEYS: [Key; 5] = [
    ("margin", texts::margin, Quantity::Pressure, Headline::Margin),
    ("chimney-inlet", texts::chimney_inlet, Quantity::Temperature, Headline::ChimneyInlet),
    ("efficiency", texts::efficiency, Quantity::Share, Headline::Efficiency),
    ("mouth-wall", texts::mouth_wall, Quantity::Temperature, Headline::MouthWall),
    ("dew-point", texts::dew_point, Quantity::Temperature, Headline::DewPoint),
];

pub fn key_figures(workspace: Workspace, worth: Worth) -> Tag {
    tag("dl")
        .class("figures")
        .attr("aria-label", texts::figures())
        .children(KEYS.map(|key| key_figure(workspace, worth, key)))
}

fn key_figure(workspace: Workspace, worth: Worth, (id, name, quantity, headline): Key) -> Tag {
    let value = move || {
        workspace.read(|shown, system| number(headline.of(&shown.analysis), quantity, system))
    };
    let value = tag("dd")
        .attr("data-testid", id)
        .live_text(value)
        .text(" ")
        .child(unit(workspace, quantity));
    let within = tag("dd").attr("data-testid", &format!("{id}-band"));
    let within = worth.line(within, "band", move |found, system| {
        Some(found.figure(headline)?.get(system).clone())
    });
    tag("div").child(tag("dt").text(name())).child(value).child(within)
}

/// The unit that is shown for a quantity.
pub fn unit(workspace: Workspace, quantity: Quantity) -> Tag {
    tag("span").class("unit").live_text(move || Some(unit_name(workspace, quantity)))
}

/// Its name.
pub fn unit_name(workspace: Workspace, quantity: Quantity) -> String {
    unit_of(quantity, workspace.system.get()).symbol.to_owned()
}
