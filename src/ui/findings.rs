//! The findings, by question, each with what, where, why, what to do, and who says so.

use super::answers::name;
use super::icon::Icon;
use super::workspace::{Shown, Workspace};
use super::{browser, field, texts};
use leptos::prelude::*;
use longsmoke::design::field as catalog;
use longsmoke::rules::{Finding, Lever, Question};
use longsmoke::words;

#[component]
pub fn Findings(shown: Memo<Option<Shown>>) -> impl IntoView {
    let questions = Question::ALL.map(|question| view! { <Answered question shown /> });
    let always = words::CAUTIONS.into_iter().skip(1);
    let always = always.map(|caution| view! { <li>{caution}</li> });
    view! {
        <section class="findings" id="findings" aria-labelledby="findings-title">
            <h2 id="findings-title">{texts::FINDINGS}</h2>
            {questions.into_iter().collect_view()}
            <section class="answered">
                <h3>{texts::ALWAYS}</h3>
                <ul class="always">{always.collect_view()}</ul>
            </section>
        </section>
    }
}

#[component]
fn Answered(question: Question, shown: Memo<Option<Shown>>) -> impl IntoView {
    let mine = Memo::new(move |_| {
        shown.with(|shown| {
            let findings = shown.iter().flat_map(|shown| shown.findings.iter());
            let numbered = (1_usize..).zip(findings.copied());
            let mine = numbered.filter(|(_, finding)| finding.rule.question() == question);
            mine.collect::<Vec<_>>()
        })
    });
    view! {
        <section class="answered" id=format!("findings-{}", name(question))>
            <h3>{words::question(question)}</h3>
            <p class="help" hidden=move || !mine.read().is_empty()>
                {texts::NO_FINDINGS_HERE}
            </p>
            <ul>
                {move || {
                    mine.get()
                        .into_iter()
                        .map(|(number, finding)| view! { <FindingView number finding /> })
                        .collect_view()
                }}
            </ul>
        </section>
    }
}

#[component]
fn FindingView(
    /// Its number in the drawing.
    number: usize,
    finding: Finding,
) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let text = words::finding(&finding, workspace.system.get());
    let mark = super::icon::Mark::from(finding.severity);
    let place = finding.place;
    view! {
        <li
            class=format!("finding {}", mark.class())
            data-rule=finding.rule.id()
            on:pointerenter=move |_| workspace.marked.set(Some(place))
            on:pointerleave=move |_| workspace.marked.set(None)
        >
            <p class="severity">
                <span class="number">{number}</span>
                <Icon mark />
                {words::severity(finding.severity)}
                <span class="place">{words::place(place)}</span>
            </p>
            <p class="title">{text.title}</p>
            <p>{text.reason}</p>
            <p class="remedy">{text.remedy}</p>
            {finding.lever.map(|lever| view! { <GoTo lever /> })}
            <p class="source">
                {finding.source.text} " "
                <span class="trust">{words::trust(finding.source.trust)}</span>
            </p>
        </li>
    }
}

/// Opens the decision that mends a finding.
#[component]
fn GoTo(lever: Lever) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let field = catalog::field(lever.field);
    let go = move |_| {
        workspace.open_group.set(Some(field.group));
        browser::focus_on(field::entry_id(field));
    };
    let way = if lever.raise { "\u{2191}" } else { "\u{2193}" };
    view! {
        <button type="button" class="go" on:click=go>
            {texts::GO_TO}
            ": "
            {words::label(lever.field)}
            <span aria-hidden="true">" " {way}</span>
        </button>
    }
}
