//! The page: state, derivation, view. Physics and sentences are the library's.

mod answers;
mod bar;
mod browser;
mod conditions;
mod day;
mod decisions;
mod dom;
mod edges;
mod field;
mod findings;
mod grips;
mod history;
mod icon;
mod labor;
mod ledger;
mod office;
mod opening;
mod passage;
mod plot;
mod reading;
mod remedies;
mod runs;
mod share;
mod shelf;
mod sketch;
mod sources;
mod storage;
mod strip;
mod texts;
mod told;
mod uncertainty;
mod variants;
mod working;
mod workspace;

use dom::{Tag, tag};
use leptos::prelude::*;
use longsmoke::drawing::{front, path, plan, section};
use longsmoke::words;
use sketch::Pace;
use sources::Cited;
use uncertainty::Worth;
use working::Working;
use workspace::Workspace;

/// Theme that the user chose; empty for that of the device.
#[derive(Clone, Copy)]
pub struct Theme(pub RwSignal<String>);

/// What workers tell that several parts of the page show.
#[derive(Clone, Copy)]
pub struct Known {
    worth: Worth,
    working: Working,
    cited: Cited,
}

/// The whole page, put into an element of the document.
pub fn start(page: web_sys::Element) {
    let theme = Theme(RwSignal::new(storage::read(storage::THEME).unwrap_or_default()));
    let workspace = Workspace::new(opening::open());
    let known = Known {
        worth: Worth::new(workspace),
        working: Working::new(workspace),
        cited: Cited::new(workspace),
    };
    opening::watch_address(workspace);
    tell_browser(workspace, theme);
    // The fragment of the address is for designs.
    let skip = |event: web_sys::Event| {
        event.prevent_default();
        browser::focus_on("decisions".into());
    };
    let skip = tag("a").class("skip").attr("href", "#decisions").on("click", skip);
    let side = tag("div")
        .class("side")
        .child(decisions::decisions(workspace))
        .child(findings::findings(workspace, &known));
    let sheet = tag("main")
        .class("sheet")
        .child(drawing(workspace, known.worth))
        .child(side)
        .child(pictures(workspace, theme, &known));
    // Always in view: who decides.
    let caution = words::CAUTIONS.first().copied().unwrap_or_default();
    let (to_shelf, shelf) = shelf::shelf(workspace);
    let _ = Tag::from(page)
        .child(skip.text(texts::TO_DECISIONS))
        .child(bar::bar(workspace, theme, to_shelf))
        .child(shelf)
        .child(bar::notices(workspace))
        .child(answers::questions(workspace))
        .child(answers::announced(workspace))
        .child(stale(workspace))
        .child(sheet)
        .child(tag("footer").class("caution").text(caution));
}

/// Keeps what lies outside the page in step: storage, title, theme, the link for emergencies.
fn tell_browser(workspace: Workspace, theme: Theme) {
    Effect::new(move |last: Option<()>| {
        workspace.design.with(|design| {
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
    browser::listen("pagehide", move |_| workspace.leave());
    browser::listen("storage", move |_| workspace.look_at_other());
}

/// Says that the figures are not those of the present design.
fn stale(workspace: Workspace) -> Tag {
    let text = move || {
        let system = workspace.system.get();
        workspace.shown.with(|shown| match shown {
            None => Some(texts::NOTHING_TO_SHOW.to_owned()),
            Some(shown) => {
                let failure = words::failure(shown.failure.as_ref()?, system);
                Some(format!("{failure} {}", texts::LAST_GOOD))
            }
        })
    };
    tag("p")
        .class("notice trouble-notice")
        .attr("role", "status")
        .live_attr("hidden", move || text().is_none().then(String::new))
        .live_text(text)
}

/// A class that tells when the figures are not those of the present design.
fn fading(workspace: Workspace, part: Tag, class: &'static str) -> Tag {
    part.live_attr("class", move || {
        let failed = workspace.read(|shown, _| shown.failure.is_some());
        let stale = if failed == Some(false) { "" } else { " stale" };
        Some(format!("{class}{stale}"))
    })
}

/// The drawing with the key figures.
fn drawing(workspace: Workspace, worth: Worth) -> Tag {
    let section = sketch::Sketch {
        name: "section",
        paint: |shown, system, text_scale| {
            section::section(&shown.design, &shown.analysis, &shown.listed, system, text_scale)
        },
        grips: &section::GRIPS,
        pace: Pace::Live,
    };
    let section = sketch::sketch(workspace, section);
    fading(workspace, tag("section"), "drawing")
        .attr("aria-labelledby", "section-title")
        .child(answers::key_figures(workspace, worth))
        .child(tag("h2").id("section-title").text(texts::SECTION))
        .child(section)
        .child(sketch::legend(workspace))
        .child(runs::run_card(workspace))
        .child(views(workspace))
}

/// The other views of the same heater.
fn views(workspace: Workspace) -> Tag {
    let front = sketch::Sketch {
        name: "front",
        paint: |shown, system, text_scale| {
            front::front(&shown.design, &shown.analysis, system, text_scale)
        },
        grips: &front::GRIPS,
        pace: Pace::Rested,
    };
    let plan = sketch::Sketch {
        name: "plan",
        paint: |shown, system, text_scale| {
            plan::plan(&shown.design, &shown.analysis, system, text_scale)
        },
        grips: &plan::GRIPS,
        pace: Pace::Rested,
    };
    let views = [(texts::FRONT, front), (texts::PLAN, plan)];
    tag("div").class("views").children(views.map(|(title, view)| {
        tag("section").child(tag("h3").text(title)).child(sketch::sketch(workspace, view))
    }))
}

/// What explains the answers.
fn pictures(workspace: Workspace, theme: Theme, known: &Known) -> Tag {
    let Known { worth, working, .. } = *known;
    let path = sketch::Sketch {
        name: "path",
        paint: |shown, system, _| path::unrolled(&shown.design, &shown.analysis, system),
        grips: &[],
        pace: Pace::Rested,
    };
    let path = sketch::sketch(workspace, path);
    let wide = tag("div")
        .class("wide")
        .attr("role", "group")
        .attr("aria-labelledby", "path-title")
        .attr("tabindex", "0")
        .child(path);
    let unrolled = tag("section")
        .class("unrolled")
        .attr("aria-labelledby", "path-title")
        .child(tag("h2").id("path-title").text(texts::PATH))
        .child(wide)
        .child(sketch::legend(workspace));
    let side_by_side = tag("div")
        .class("side-by-side")
        .child(plot::plot_view(workspace, theme, worth))
        .child(ledger::ledger(workspace));
    fading(workspace, tag("div"), "pictures")
        .child(unrolled)
        .child(strip::strip_view(workspace))
        .child(variants::variants_view(workspace))
        .child(side_by_side)
        .child(uncertainty::worth_view(worth).child(edges::edges_view(workspace)))
        .child(day::day_view(workspace, theme))
        .child(reading::trials(workspace))
        .child(conditions::conditions_view(workspace))
        .child(reading::operation(workspace))
        .child(reading::route(workspace))
        .child(working::working_view(working))
        .child(sources::sources_view(workspace, known.cited))
}
