//! The walk through the page: a card that points at one part after another and blocks none.

use super::dom::{Tag, button, tag, watch};
use super::guide::Guide;
use super::signal::RwSignal;
use super::{browser, contents, storage, texts};
use leptos::leptos_dom::helpers::document;
use longsmoke::words::walk::{STOPS, TITLE};

/// What each stop points at.
const POINTED: [&str; STOPS.len()] =
    ["#decisions", ".section-frame", ".questions", ".strip", ".variants", ".bar .main"];

/// Id of the card.
const ID: &str = "walk";

/// The walk's state.
#[derive(Clone, Copy)]
struct Walk {
    guide: Guide,
    stop: RwSignal<Option<usize>>,
    /// Only who asks for a stop has the page moved.
    moves: RwSignal<bool>,
}

/// The button that calls the walk, and its card.
pub fn walk(guide: Guide) -> (Tag, Tag) {
    // A first visit is shown round, unless it came by a link.
    let is_known = [storage::WALK, storage::OWN].iter().any(|key| storage::read(key).is_some());
    let is_first = !is_known && storage::linked().is_none();
    let stop = RwSignal::new(is_first.then_some(0));
    let walk = Walk { guide, stop, moves: RwSignal::new(false) };
    watch(move || {
        let pointed = stop.get().and_then(|stop| POINTED.get(stop).copied());
        // At the first visit the page is not there yet.
        browser::at_frame(move || {
            let part = browser::point_out(pointed);
            if let Some(part) = part.filter(|_| walk.moves.get_untracked()) {
                part.scroll_into_view();
            }
        });
    });
    let call = move || {
        walk.show(Some(0));
        browser::focus_here(ID);
    };
    (button(call).text(texts::walk()), walk.card())
}

impl Walk {
    fn show(self, stop: Option<usize>) {
        self.moves.set(true);
        self.stop.set(stop);
    }

    fn close(self) {
        let _ = storage::write(storage::WALK, "seen");
        // At hand whatever is shown.
        browser::focus_here(contents::ID);
        self.stop.set(None);
    }

    fn back(self) {
        self.show(self.stop.get_untracked().and_then(|stop| stop.checked_sub(1)));
    }

    fn next(self) {
        match self.stop.get_untracked().map(|stop| stop + 1) {
            Some(next) if next < STOPS.len() => self.show(Some(next)),
            _ => self.close(),
        }
    }

    /// Heading or text of the stop.
    fn said(self, of: fn(&(String, String)) -> &String) -> Option<String> {
        let stop = self.stop.get()?;
        self.guide.read(|told| told.walk.get(stop).map(of).cloned()).flatten()
    }

    fn card(self) -> Tag {
        let title = move || self.said(|stop| &stop.0);
        // For the style sheet, on the root: what asks by `:has` whether it is shown has the browser
        // style the whole page anew at every change.
        watch(move || {
            let root = document().document_element();
            root.map(|root| root.toggle_attribute_with_force("data-walk", title().is_some()));
        });
        let text = tag("div")
            .attr("role", "status")
            .child(tag("h2").live_text(title))
            .child(tag("p").live_text(move || self.said(|stop| &stop.1)));
        tag("section")
            .id(ID)
            .class("walk")
            .attr("tabindex", "-1")
            .attr("aria-label", TITLE.said())
            .live_attr("hidden", move || title().is_none().then(String::new))
            .on("keydown", move |event| {
                if browser::key(&event) == "Escape" {
                    self.close();
                }
            })
            .child(text)
            .child(self.steps())
    }

    fn steps(self) -> Tag {
        let place = move || Some(format!("{} / {}", self.stop.get()? + 1, STOPS.len()));
        let is_first = move || (self.stop.get() == Some(0)).then(String::new);
        let next = move || {
            let is_last = self.stop.get()? + 1 == STOPS.len();
            Some(if is_last { texts::walk_end() } else { texts::walk_next() }.to_owned())
        };
        tag("div")
            .class("walk-steps")
            .child(tag("span").class("help").live_text(place))
            .child(button(move || self.close()).text(texts::walk_skip()))
            .child(
                button(move || self.back())
                    .live_attr("disabled", is_first)
                    .text(texts::walk_back()),
            )
            .child(button(move || self.next()).class("on").live_text(next))
    }
}
