//! The three questions with their answers, and the figures behind them.

use super::icon::Icon;
use super::workspace::{Shown, Workspace};
use super::{browser, texts};
use leptos::prelude::*;
use longsmoke::analysis::HeightOfFire;
use longsmoke::rules::{Question, answer};
use longsmoke::units::{Quantity, number, unit_of};
use longsmoke::words;

/// Name of a question in ids.
pub fn name(question: Question) -> &'static str {
    match question {
        Question::Draw => "draw",
        Question::Heat => "heat",
        Question::Safe => "safe",
    }
}

#[component]
pub fn Questions(shown: Memo<Option<Shown>>) -> impl IntoView {
    let questions = Question::ALL.map(|question| view! { <QuestionView question shown /> });
    view! {
        <nav class="questions" aria-label=texts::QUESTIONS>
            {questions.into_iter().collect_view()}
        </nav>
    }
}

#[component]
fn QuestionView(question: Question, shown: Memo<Option<Shown>>) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let answered = Memo::new(move |_| {
        shown.with(|shown| Some(answer(question, &shown.as_ref()?.findings)))
    });
    let deciding = move || {
        let system = workspace.system.get();
        shown.with(|shown| {
            let Shown { analysis, findings, .. } = shown.as_ref()?;
            Some(words::deciding(question, analysis, findings, system))
        })
    };
    let name = name(question);
    view! {
        <button
            type="button"
            class="question"
            on:click=move |_| browser::scroll_to(&format!("findings-{name}"))
        >
            <span class="asked">{words::question(question)}</span>
            <span class="answer" data-testid=format!("answer-{name}")>
                {move || {
                    answered
                        .get()
                        .map(|answer| {
                            view! {
                                <Icon mark=answer.into() />
                                {words::answer(question, answer)}
                            }
                        })
                }}
            </span>
            <span class="deciding">{deciding}</span>
        </button>
    }
}

/// A key figure: its id in tests, its name, its kind, and where it stands.
type Key = (&'static str, &'static str, Quantity, fn(&HeightOfFire) -> f64);

const KEYS: [Key; 5] = [
    ("margin", texts::MARGIN, Quantity::Pressure, |fire| fire.margin),
    ("chimney-inlet", texts::CHIMNEY_INLET, Quantity::Temperature, |fire| fire.chimney_inlet),
    ("efficiency", texts::EFFICIENCY, Quantity::Share, |fire| fire.efficiency_lower),
    ("mouth-wall", texts::MOUTH_WALL, Quantity::Temperature, |fire| fire.chimney_mouth_wall),
    ("dew-point", texts::DEW_POINT, Quantity::Temperature, |fire| fire.dew_point),
];

#[component]
pub fn KeyFigures(shown: Memo<Option<Shown>>) -> impl IntoView {
    let figures = KEYS.map(|key| view! { <KeyFigure key_figure=key shown /> });
    view! {
        <dl class="figures" aria-label=texts::FIGURES>
            {figures.into_iter().collect_view()}
        </dl>
    }
}

#[component]
fn KeyFigure(key_figure: Key, shown: Memo<Option<Shown>>) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let (id, name, quantity, read) = key_figure;
    let value = Memo::new(move |_| {
        let system = workspace.system.get();
        shown.with(|shown| {
            let fire = &shown.as_ref()?.analysis.height_of_fire;
            Some(number(read(fire), quantity, system))
        })
    });
    view! {
        <div>
            <dt>{name}</dt>
            <dd data-testid=id>
                {value} " "
                <span class="unit">
                    {move || unit_of(quantity, workspace.system.get()).symbol}
                </span>
            </dd>
        </div>
    }
}
