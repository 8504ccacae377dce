//! The list of sections, at hand at the foot of the window: leads to each, and marks the one that
//! is read.

use super::dom::{Tag, button, tag};
use super::signal::RwSignal;
use super::{browser, texts};
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::JsCast as _;
use web_sys::Element;

/// What stands higher in the window is read already (px).
const READ: f64 = 260.0;

/// Id of the list, for the skip link.
pub const ID: &str = "contents";

/// A heading, and the button that leads to it.
type Lead = (Element, Element);

/// Short names of headings; of the others, the whole heading is the name.
const NAMES: [(&str, texts::Text); 13] = [
    ("section-title", texts::to_section),
    ("path-title", texts::to_path),
    ("plot-title", texts::to_plot),
    ("ledger-title", texts::to_ledger),
    ("worth-title", texts::to_worth),
    ("trials-title", texts::to_trials),
    ("conditions-title", texts::to_conditions),
    ("envelope-title", texts::to_envelope),
    ("variants-title", texts::to_variants),
    ("operation-title", texts::to_operation),
    ("route-title", texts::to_route),
    ("workings-title", texts::to_workings),
    ("strip-title", texts::to_strip),
];

/// Leads to all second headings within a part of the page.
pub fn contents(sheet: &Tag) -> Tag {
    let open = RwSignal::new(false);
    let leads: Vec<Lead> = headings(sheet.element())
        .into_iter()
        .map(|heading| {
            let button = lead(&heading).element().clone();
            (heading, button)
        })
        .collect();
    let item = |(heading, button): &Lead| {
        tag("li").attr("data-to", &heading.id()).child(button.clone().into())
    };
    let list = tag("ol").children(leads.iter().map(item)).on("click", move |_| open.set(false));
    follow(leads);
    let unfold = button(move || open.update(|open| *open = !*open))
        .class("unfold")
        .live_attr("aria-expanded", move || Some(open.get().to_string()))
        .text(texts::contents());
    tag("nav")
        .id(ID)
        .class("contents")
        .attr("tabindex", "-1")
        .attr("aria-label", texts::contents())
        .on("keydown", move |event| {
            if browser::key(&event) == "Escape" {
                open.set(false);
            }
        })
        .child(unfold)
        .child(list)
}

fn headings(sheet: &Element) -> Vec<Element> {
    let Ok(found) = sheet.query_selector_all("h2[id]") else { return Vec::new() };
    (0..found.length()).filter_map(|index| found.get(index)?.dyn_into().ok()).collect()
}

fn lead(heading: &Element) -> Tag {
    // So that it can be given the focus.
    let _ = heading.set_attribute("tabindex", "-1");
    let id = heading.id();
    let short = NAMES.iter().find(|(of, _)| *of == id).map(|(_, name)| name().to_owned());
    button(move || browser::focus_on(id.clone()))
        .text(&short.or_else(|| heading.text_content()).unwrap_or_default())
}

/// Marks the section that is read, looked for once a frame while the page is scrolled.
fn follow(leads: Vec<Lead>) {
    let leads = Rc::new(leads);
    let waits = Rc::new(Cell::new(false));
    let look = move || {
        if !waits.replace(true) {
            let (leads, waits) = (Rc::clone(&leads), Rc::clone(&waits));
            browser::at_frame(move || {
                waits.set(false);
                mark(&leads);
            });
        }
    };
    look();
    browser::listen("scroll", move |_| look());
}

/// The last heading that has come up is that of the section that is read; of two beside each other
/// the first. One that was just led to is, wherever it could be brought.
fn mark(leads: &[Lead]) {
    let mut read: Option<(f64, usize)> = None;
    for (index, (heading, button)) in leads.iter().enumerate() {
        let top = heading.get_bounding_client_rect().top();
        if top > 0.0 && heading.matches(":focus").unwrap_or(false) {
            read = Some((top, index));
            break;
        }
        // What stays in view beside the rest is not in the list there.
        let is_listed = button.client_height() > 0;
        if is_listed && top < READ && read.is_none_or(|(highest, _)| top > highest) {
            read = Some((top, index));
        }
    }
    for (index, (_, button)) in leads.iter().enumerate() {
        let _ = match read {
            Some((_, here)) if here == index => button.set_attribute("aria-current", "true"),
            _ => button.remove_attribute("aria-current"),
        };
    }
}
