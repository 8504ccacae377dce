//! The page: state, derivation, view. Physics and sentences are the library's.

mod answers;
mod bar;
mod below;
mod browser;
mod contents;
mod courses;
mod day;
mod decisions;
mod dom;
mod edges;
mod field;
mod findings;
mod gallery;
mod grips;
mod guide;
mod history;
mod icon;
mod labor;
mod ledger;
mod menu;
mod office;
mod opening;
mod paper;
mod parts;
mod passage;
mod plot;
mod reading;
mod remedies;
mod shapes;
mod share;
mod shelf;
mod signal;
mod sketch;
mod sources;
mod storage;
mod strip;
mod texts;
mod told;
mod uncertainty;
mod variants;
mod walk;
mod working;
mod workspace;

use dom::{Tag, button, tag, watch};
use guide::Guide;
use leptos::leptos_dom::helpers::document;
use longsmoke::courses::snap::Sizes;
use longsmoke::design::field::FieldId;
use longsmoke::drawing::{front, plan, section};
use longsmoke::words;
use signal::RwSignal;
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
    guide: Guide,
}

pub use opening::open;

/// The whole page, put into an element of the document in the place of the shell.
pub fn start(page: web_sys::Element, opened: opening::Opened) {
    let theme = Theme(RwSignal::new(storage::read(storage::THEME).unwrap_or_default()));
    let workspace = Workspace::new(opened);
    let known = Known {
        worth: Worth::new(workspace),
        working: Working::new(workspace),
        cited: Cited::new(workspace),
        guide: Guide::new(workspace),
    };
    opening::watch_address(workspace);
    tell_browser(workspace, theme);
    let side = tag("div")
        .class("side")
        .child(decisions::decisions(workspace, known.guide))
        .child(findings::findings(workspace, &known));
    let sheet = tag("main").class("sheet").child(drawing(workspace, known.worth)).child(side);
    let (call, card) = walk::walk(known.guide);
    let list = tag("div");
    below::fetch(below::Place::new(&sheet, &list), workspace, theme, known);
    let foot = tag("footer").class("caution").child(list).child(card);
    // Always in view: who decides.
    let caution = words::CAUTIONS.first().map_or("", |first| first.said());
    let (to_shelf, shelf) = shelf::shelf(workspace);
    if let Some(shell) = document().get_element_by_id("shell") {
        shell.remove();
    }
    let _ = Tag::from(page)
        .child(skip("decisions", texts::to_decisions()))
        .child(skip(contents::ID, texts::to_contents()))
        .child(bar::bar(workspace, theme, (to_shelf, call)))
        .child(shelf)
        .child(bar::notices(workspace))
        .child(answers::questions(workspace, known.worth))
        .child(answers::announced(workspace))
        .child(stale(workspace))
        .child(sheet)
        .child(foot.child(tag("p").text(caution)));
}

/// A link past what stands before a part of the page.
fn skip(id: &'static str, name: &str) -> Tag {
    // The fragment of the address is for designs.
    let go = move |event: web_sys::Event| {
        event.prevent_default();
        browser::focus_on(id.into());
    };
    tag("a").class("skip").attr("href", &format!("#{id}")).on("click", go).text(name)
}

/// Keeps what lies outside the page in step: storage, title, theme, the link for emergencies.
fn tell_browser(workspace: Workspace, theme: Theme) {
    let mut is_first = true;
    watch(move || {
        workspace.design.with(|design| {
            let name = match design.name.trim() {
                "" => texts::unnamed(),
                name => name,
            };
            document().set_title(&format!("{name} \u{b7} Longsmoke"));
        });
        workspace.pinned.track();
        // The first run shows what is stored already.
        if !std::mem::take(&mut is_first) {
            workspace.keep_soon();
        }
    });
    watch(move || {
        let root = document().document_element();
        if let Some(root) = root {
            let _ = root.set_attribute("data-theme", &theme.0.get());
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
            None => Some(texts::nothing_to_show().to_owned()),
            Some(shown) => {
                let failure = words::failure(shown.failure.as_ref()?, system);
                Some(format!("{failure} {}", texts::last_good()))
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
    // Enlarged, it is moved about in its frame.
    let large = RwSignal::new(false);
    let section = sketch::sketch(workspace, section).live_attr("class", move || {
        Some(if large.get() { "section-frame large" } else { "section-frame" }.to_owned())
    });
    // On phones only when asked for: the entries would be out of reach.
    let others = RwSignal::new(false);
    let tools = tag("div")
        .class("tools")
        .child(to_bricks(workspace))
        .child(toggle(large, texts::enlarge()))
        .child(toggle(others, texts::front_and_plan()).class("for-views"));
    fading(workspace, tag("section"), "drawing")
        .attr("aria-labelledby", "section-title")
        .child(answers::key_figures(workspace, worth))
        .child(tag("h2").id("section-title").text(texts::section()))
        .child(section)
        .child(sketch::legend(workspace).child(tools))
        .child(parts::card(workspace))
        .child(views(workspace).live_attr("class", move || {
            Some(if others.get() { "views" } else { "views put-away" }.to_owned())
        }))
}

/// Has grips set sizes to whole courses and half bricks; not there where nothing is laid of them.
fn to_bricks(workspace: Workspace) -> Tag {
    let is_brick =
        move || workspace.design.with(|design| Sizes::of(FieldId::RunLength, design).is_some());
    toggle(workspace.to_bricks, texts::to_bricks())
        .live_attr("hidden", move || (!is_brick()).then(String::new))
}

/// A button that turns something on and off.
fn toggle(on: RwSignal<bool>, name: &str) -> Tag {
    button(move || on.update(|on| *on = !*on))
        .live_attr("aria-pressed", move || Some(on.get().to_string()))
        .text(name)
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
    let views = [(texts::front(), front), (texts::plan(), plan)];
    tag("div").children(views.map(|(title, view)| {
        tag("section").child(tag("h3").text(title)).child(sketch::sketch(workspace, view))
    }))
}
