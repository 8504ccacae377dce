//! The few things that the page asks of the browser, without a panic when it refuses.

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

/// Opens what is folded around an element and gives it the focus, once the page has been redrawn.
pub fn focus_on(id: String) {
    leptos::prelude::request_animation_frame(move || {
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

/// Offers a text as a file to keep; none where the browser refuses.
pub fn download(name: &str, text: &str) -> Option<()> {
    let parts = js_sys::Array::of1(&text.into());
    let blob = web_sys::Blob::new_with_str_sequence(&parts).ok()?;
    let url = web_sys::Url::create_object_url_with_blob(&blob).ok()?;
    let anchor = web_sys::window()?.document()?.create_element("a").ok()?;
    let anchor: web_sys::HtmlAnchorElement = anchor.dyn_into().ok()?;
    anchor.set_href(&url);
    anchor.set_download(name);
    anchor.click();
    // Some browsers read it only after a while.
    let revoke = move || {
        let _ = web_sys::Url::revoke_object_url(&url);
    };
    leptos::prelude::set_timeout(revoke, Duration::from_mins(1));
    Some(())
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
