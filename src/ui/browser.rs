//! The few things that the page asks of the browser, without a panic when it refuses.

use leptos::leptos_dom::helpers::{
    TimeoutHandle, request_animation_frame, set_timeout_with_handle,
};
use std::time::Duration;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

/// Gives a text to the clipboard; whether the browser took it.
pub async fn copy(text: &str) -> bool {
    let Some(window) = web_sys::window() else {
        return false;
    };
    let clipboard = window.navigator().clipboard();
    // Absent where the page is not served securely.
    if JsValue::from(clipboard.clone()).is_undefined() {
        return false;
    }
    JsFuture::from(clipboard.write_text(text)).await.is_ok()
}

/// Address of the page without query and fragment.
pub fn address() -> String {
    let Some(location) = web_sys::window().map(|window| window.location()) else {
        return String::new();
    };
    let part = |part: Result<String, JsValue>| part.unwrap_or_default();
    part(location.origin()) + &part(location.pathname())
}

/// Fragment of the address, without `#`.
pub fn fragment() -> String {
    let hash = web_sys::window().and_then(|window| window.location().hash().ok());
    hash.unwrap_or_default().trim_start_matches('#').into()
}

/// Takes the fragment out of the address bar.
pub fn clean_address() {
    let history = web_sys::window().and_then(|window| window.history().ok());
    if let Some(history) = history {
        let _ = history.replace_state_with_url(&JsValue::NULL, "", Some(&address()));
    }
}

/// Sets a name on `globalThis`.
pub fn set_global(name: &str, value: &str) {
    let _ = js_sys::Reflect::set(&js_sys::global(), &name.into(), &value.into());
}

fn element(id: &str) -> Option<web_sys::Element> {
    web_sys::window()?.document()?.get_element_by_id(id)
}

/// Does something once the browser has painted what the page shows now: when the frame after it
/// begins. In a page that is hidden nothing is painted until it is seen.
pub fn once_painted(then: Box<dyn FnOnce()>) {
    at_frame(move || framed(then));
}

/// Does something when the next frame begins.
pub fn at_frame(then: impl FnOnce() + 'static) {
    framed(Box::new(then));
}

// Boxed at once: a frame of its own for each would stand in the program as often.
fn framed(then: Box<dyn FnOnce()>) {
    request_animation_frame(then);
}

/// Does something after a while.
pub fn after(rest: Duration, then: impl FnOnce() + 'static) -> Option<TimeoutHandle> {
    rested(rest, Box::new(then))
}

fn rested(rest: Duration, then: Box<dyn FnOnce()>) -> Option<TimeoutHandle> {
    set_timeout_with_handle(then, rest).ok()
}

/// Opens what is folded around an element and gives it the focus, once the page has been redrawn.
pub fn focus_on(id: String) {
    at_frame(move || {
        let Some(element) = element(&id) else { return };
        if let Ok(Some(folded)) = element.closest("details") {
            let _ = folded.set_attribute("open", "");
        }
        if let Ok(element) = element.dyn_into::<web_sys::HtmlElement>() {
            let _ = element.focus();
            element.scroll_into_view();
        }
    });
}

/// Gives the focus to an element that is in view wherever the page stands.
pub fn focus_here(id: &'static str) {
    at_frame(move || {
        let found = element(id).and_then(|element| element.dyn_into().ok());
        if let Some::<web_sys::HtmlElement>(element) = found {
            let _ = element.focus();
        }
    });
}

/// Takes files that are dropped anywhere on the page; a text that is dragged is the browser's.
pub fn on_drop(take: impl Fn(web_sys::File) + 'static) {
    let carried = |event: &web_sys::Event| {
        let get = |of: &JsValue, name: &str| js_sys::Reflect::get(of, &name.into()).ok();
        let carried = get(event, "dataTransfer")?;
        let kinds: js_sys::Array = get(&carried, "types")?.dyn_into().ok()?;
        kinds.includes(&"Files".into(), 0).then_some(get(&carried, "files")?)
    };
    let show = |over: bool| {
        let root = web_sys::window().and_then(|window| window.document()?.document_element());
        let _ = root.map(|root| root.class_list().toggle_with_force("dropping", over));
    };
    listen("dragover", move |event| {
        if carried(&event).is_some() {
            event.prevent_default();
            show(true);
        }
    });
    listen("dragleave", move |_| show(false));
    listen("drop", move |event| {
        show(false);
        let Some(files) = carried(&event) else { return };
        event.prevent_default();
        if let Some(file) =
            files.dyn_into().ok().and_then(|files: web_sys::FileList| files.get(0))
        {
            take(file);
        }
    });
}

/// Whether an event came from a finger.
pub fn is_finger(event: &web_sys::Event) -> bool {
    let kind = js_sys::Reflect::get(event, &"pointerType".into());
    kind.is_ok_and(|kind| kind == "touch")
}

/// Scrolls an element up into view, once the page has been redrawn.
pub fn bring_up(id: &'static str) {
    at_frame(move || {
        if let Some(element) = element(id) {
            element.scroll_into_view_with_bool(false);
        }
    });
}

/// Points at one part of the page, which it gives, or at none.
pub fn point_out(selector: Option<&str>) -> Option<web_sys::Element> {
    let document = web_sys::window()?.document()?;
    let find = |selector: &str| document.query_selector(selector).ok().flatten();
    if let Some(last) = find("[data-pointed]") {
        let _ = last.remove_attribute("data-pointed");
    }
    let element = selector.and_then(find)?;
    let _ = element.set_attribute("data-pointed", "");
    Some(element)
}

/// Listens to the window for as long as the page lives.
pub fn listen(event: &str, react: impl Fn(web_sys::Event) + 'static) {
    let listener = Closure::<dyn Fn(web_sys::Event)>::new(react);
    if let Some(window) = web_sys::window() {
        let _ =
            window.add_event_listener_with_callback(event, listener.as_ref().unchecked_ref());
    }
    listener.forget();
}

/// Local time as hours and minutes.
pub fn time_of_day() -> String {
    let now = js_sys::Date::new_0();
    format!("{}:{:02}", now.get_hours(), now.get_minutes())
}

/// The day here, as year, month and day.
pub fn today() -> String {
    let now = js_sys::Date::new_0();
    format!("{}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// Gives a text to be kept under a file name, or printed where there is none (`web/give.js`); whether
/// the browser took it.
pub fn give(name: &str, text: &str) -> bool {
    let give = js_sys::Reflect::get(&js_sys::global(), &"longsmokeGive".into());
    let give = give.ok().and_then(|give| give.dyn_into::<js_sys::Function>().ok());
    give.is_some_and(|give| give.call2(&JsValue::NULL, &name.into(), &text.into()).is_ok())
}

/// The control by which another language is chosen (`web/language.js`).
pub fn language_choice() -> Option<web_sys::Element> {
    let choice = js_sys::Reflect::get(&js_sys::global(), &"longsmokeLanguageChoice".into());
    let choice = choice.ok()?.dyn_into::<js_sys::Function>().ok()?;
    choice.call0(&JsValue::NULL).ok()?.dyn_into().ok()
}

/// The key of a keyboard's event.
pub fn key(event: &web_sys::Event) -> String {
    event
        .dyn_ref::<web_sys::KeyboardEvent>()
        .map(web_sys::KeyboardEvent::key)
        .unwrap_or_default()
}

/// Whether shift is held.
pub fn is_shifted(event: &web_sys::Event) -> bool {
    event.dyn_ref::<web_sys::KeyboardEvent>().is_some_and(web_sys::KeyboardEvent::shift_key)
}

/// A text in lower case, by the browser's tables: ours would be a fiftieth of the program.
pub fn lower_case(text: &str) -> String {
    js_sys::JsString::from(text).to_lower_case().into()
}

/// A text with a hyphen for all that is neither letter nor digit, by the browser's tables too.
pub fn letters_and_digits(text: &str) -> String {
    let others = js_sys::RegExp::new("[^\\p{L}\\p{N}]", "gu");
    js_sys::JsString::from(text).replace_by_pattern(&others, "-").into()
}

/// The content of a deflate stream (`web/inflate.js`); none where it is damaged or too much.
pub async fn inflate(packed: &[u8]) -> Option<Vec<u8>> {
    let inflate = js_sys::Reflect::get(&js_sys::global(), &"longsmokeInflate".into()).ok()?;
    let inflate: js_sys::Function = inflate.dyn_into().ok()?;
    let packed = js_sys::Uint8Array::from(packed);
    let text =
        inflate.call1(&JsValue::NULL, &packed).ok()?.dyn_into::<js_sys::Promise>().ok()?;
    let text: js_sys::Uint8Array = JsFuture::from(text).await.ok()?.dyn_into().ok()?;
    Some(text.to_vec())
}
