//! What opens below a button, and shuts when one turns to something else: by a choice, by Escape, by
//! a press elsewhere, by keys that lead out of it.

use super::browser;
use super::dom::{Tag, button, tag};
use super::signal::RwSignal;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, EventTarget, HtmlElement, Node};

/// What is a choice: a press that opens something more is none.
const CHOICE: &str = "button:not([aria-expanded]), .button";

/// A menu of a class under a name; the style sheet hides what is shut.
pub fn menu(class: &str, name: &str, body: Tag) -> Tag {
    let open = RwSignal::new(false);
    let switch = button(move || open.update(|open| *open = !*open))
        .class("switch")
        .live_attr("aria-expanded", move || Some(open.get().to_string()))
        .text(name);
    let whole = tag("div").class(class);
    let (own, back) = (whole.element().clone(), switch.element().clone());
    let shut = move || {
        let was_open = open.get_untracked();
        if was_open {
            open.set(false);
        }
        was_open
    };
    let return_to = move || {
        if shut() {
            let _ = back.dyn_ref::<HtmlElement>().map(HtmlElement::focus);
        }
    };
    let after_choice = return_to.clone();
    let outside = own.clone();
    browser::listen("pointerdown", move |event| {
        if !is_within(&outside, event.target().as_ref()) {
            shut();
        }
    });
    let by_key = move |event: Event| {
        if browser::key(&event) == "Escape" && open.get_untracked() {
            // A menu around this one stays.
            event.stop_propagation();
            return_to();
        }
    };
    let left = move |event: Event| {
        let next = js_sys::Reflect::get(&event, &"relatedTarget".into()).unwrap_or_default();
        if next.is_object() && !is_within(&own, next.dyn_ref()) {
            shut();
        }
    };
    let chosen = move |event: Event| {
        let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
        if target.is_some_and(|target| matches!(target.closest(CHOICE), Ok(Some(_)))) {
            after_choice();
        }
    };
    whole
        .on("keydown", by_key)
        .on("focusout", left)
        .child(switch)
        .child(body.on("click", chosen))
}

fn is_within(whole: &Element, target: Option<&EventTarget>) -> bool {
    whole.contains(target.and_then(JsCast::dyn_ref::<Node>))
}
