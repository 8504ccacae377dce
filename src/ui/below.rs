//! What explains the answers, below the first screen: a part of the program of its own, fetched when
//! the first screen stands, so that one waits for less until one can type.

use super::dom::{Tag, button, tag};
use super::sketch::Pace;
use super::uncertainty::worth_view;
use super::workspace::Workspace;
use super::{
    Known, Theme, contents, courses, day, edges, fading, guide, ledger, plot, reading, sketch,
    sources, strip, texts, variants, working,
};
use leptos::reactive::computed::ScopedFuture;
use leptos::reactive::owner::Owner;
use leptos::wasm_split::{SplitLoaderError, wasm_split};
use longsmoke::drawing::path;
use wasm_bindgen_futures::spawn_local;

/// Where it is put: below the rest of the sheet, and the list of all sections in its place.
#[derive(Clone)]
pub struct Place {
    sheet: Tag,
    list: Tag,
    /// What stands as long as the page: nobody does when a button is pressed.
    owner: Owner,
}

/// Fetches it and puts it in its place. What cannot be fetched is told there, and asked for anew.
pub fn fetch(place: Place, workspace: Workspace, theme: Theme, known: Known) {
    let part = place.owner.with(|| ScopedFuture::new(pictures(workspace, theme, known)));
    spawn_local(async move {
        let part = part.await;
        place.owner.clone().with(|| match part {
            Ok(part) => place.take(part),
            Err(_) => place
                .clone()
                .tell_missing(move || fetch(place.clone(), workspace, theme, known)),
        });
    });
}

impl Place {
    /// In a page that is being built.
    pub fn new(sheet: &Tag, list: &Tag) -> Self {
        let owner = Owner::current().unwrap_or_default();
        Self { sheet: sheet.clone(), list: list.clone(), owner }
    }

    fn take(self, part: Tag) {
        let sheet = self.sheet.child(part);
        self.list.child(contents::contents(&sheet));
    }

    fn tell_missing(self, again: impl Fn() + 'static) {
        let notice = tag("div").class("notice trouble-notice").attr("role", "alert");
        let told = notice.clone();
        let again = button(move || {
            told.element().remove();
            again();
        });
        self.sheet
            .child(notice.text(texts::rest_missing()).child(again.text(texts::fetch_again())));
    }
}

/// All of it: what only this function calls is taken out of the program. To fetch it may fail.
#[wasm_split(below, wasm_split_path = leptos::wasm_split, fallible)]
#[allow(clippy::unnecessary_wraps, reason = "what is fetched fails for the one who fetches it")]
fn pictures(workspace: Workspace, theme: Theme, known: Known) -> Result<Tag, SplitLoaderError> {
    let Known { worth, working, .. } = known;
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
        .child(tag("h2").id("path-title").text(texts::path()))
        .child(wide)
        .child(sketch::legend(workspace));
    let side_by_side = tag("div")
        .class("side-by-side")
        .child(plot::plot_view(workspace, theme, worth))
        .child(ledger::ledger(workspace));
    let part = fading(workspace, tag("div"), "pictures")
        .child(unrolled)
        .child(strip::strip_view(workspace))
        .child(side_by_side)
        .child(day::day_view(workspace, theme))
        .child(reading::conditions(workspace))
        .child(reading::trials(workspace))
        .child(worth_view(worth).child(edges::edges_view(workspace)))
        .child(variants::variants_view(workspace))
        .child(reading::envelope(workspace))
        .child(reading::build(workspace))
        .child(reading::courses(workspace).child(courses::courses_view(workspace)))
        .child(reading::operation(workspace))
        .child(reading::route(workspace))
        .child(working::working_view(working))
        .child(guide::glossary_view(known.guide))
        .child(sources::sources_view(workspace, known.cited));
    Ok(part)
}
