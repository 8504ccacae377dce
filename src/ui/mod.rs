//! The page: state, derivation, view. Physics and sentences are the library's.

mod answers;
mod bar;
mod browser;
mod decisions;
mod field;
mod findings;
mod history;
mod icon;
mod ledger;
mod opening;
mod plot;
mod sketch;
mod storage;
mod strip;
mod texts;
pub mod worker;
mod workspace;

use leptos::prelude::*;
use longsmoke::drawing::{path, section};
use longsmoke::words;
use workspace::{Shown, Workspace};

/// Theme that the user chose; empty for that of the device.
#[derive(Clone, Copy)]
pub struct Theme(pub RwSignal<String>);

/// The whole page.
#[component]
pub fn Page() -> impl IntoView {
    let theme = Theme(RwSignal::new(storage::read(storage::THEME).unwrap_or_default()));
    let workspace = Workspace::new(opening::open());
    provide_context(theme);
    provide_context(workspace);
    opening::watch_address(workspace);
    tell_browser(workspace, theme);
    let shown = workspace.shown;
    // The fragment of the address is for designs.
    let skip = |event: leptos::ev::MouseEvent| {
        event.prevent_default();
        browser::focus_on("decisions".into());
    };
    view! {
        <a class="skip" href="#decisions" on:click=skip>
            {texts::TO_DECISIONS}
        </a>
        <bar::Bar />
        <bar::Notices />
        <answers::Questions shown />
        <Stale shown />
        <main class="sheet">
            <decisions::Decisions />
            <Pictures shown />
            <findings::Findings shown />
        </main>
        <Caution />
    }
}

/// Keeps what lies outside the page in step: storage, title, theme, the link for emergencies.
fn tell_browser(workspace: Workspace, theme: Theme) {
    Effect::new(move |last: Option<()>| {
        workspace.design.with(|design| {
            browser::set_global("longsmokeLink", &bar::link_of(design));
            let name = match design.name.trim() {
                "" => texts::UNNAMED,
                name => name,
            };
            document().set_title(&format!("{name} \u{b7} Longsmoke"));
        });
        // The first run shows what is stored already.
        if last.is_some() {
            workspace.keep_soon();
        }
    });
    Effect::new(move |_| {
        let root = document().document_element();
        if let Some(root) = root {
            let _ = root.set_attribute("data-theme", &theme.0.read());
        }
    });
    browser::listen("pagehide", move |_| {
        if workspace.is_unkept() {
            workspace.keep_now();
        }
    });
}

/// Says that the figures are not those of the present design.
#[component]
fn Stale(shown: Memo<Option<Shown>>) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let text = Memo::new(move |_| {
        let system = workspace.system.get();
        shown.with(|shown| match shown {
            None => Some(texts::NOTHING_TO_SHOW.to_owned()),
            Some(shown) => {
                let failure = words::failure(shown.failure.as_ref()?, system);
                Some(format!("{failure} {}", texts::LAST_GOOD))
            }
        })
    });
    view! {
        <p class="notice trouble-notice" role="status" hidden=move || text.read().is_none()>
            {text}
        </p>
    }
}

#[component]
fn Pictures(shown: Memo<Option<Shown>>) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let section = Memo::new(move |_| {
        let system = workspace.system.get();
        shown.with(|shown| {
            let Shown { design, analysis, findings, .. } = shown.as_ref()?;
            Some(section::section(design, analysis, findings, system))
        })
    });
    let path = Memo::new(move |_| {
        let system = workspace.system.get();
        shown.with(|shown| {
            let Shown { design, analysis, .. } = shown.as_ref()?;
            Some(path::unrolled(design, analysis, system))
        })
    });
    let stale =
        move || shown.with(|shown| shown.as_ref().is_none_or(|shown| shown.failure.is_some()));
    view! {
        <div class="pictures" class:stale=stale>
            <section class="drawing" aria-labelledby="section-title">
                <answers::KeyFigures shown />
                <h2 id="section-title">{texts::SECTION}</h2>
                <sketch::Sketch drawing=section name="section" />
            </section>
            <section class="unrolled" aria-labelledby="path-title">
                <h2 id="path-title">{texts::PATH}</h2>
                <div class="wide" role="group" aria-labelledby="path-title" tabindex="0">
                    <sketch::Sketch drawing=path name="path" />
                </div>
                <sketch::Legend />
            </section>
            <strip::StripView />
            <div class="side-by-side">
                <plot::PlotView shown />
                <ledger::LedgerView shown />
            </div>
        </div>
    }
}

/// Always in view: who decides.
#[component]
fn Caution() -> impl IntoView {
    view! { <footer class="caution">{words::CAUTIONS.first().copied()}</footer> }
}
