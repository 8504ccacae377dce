//! The page and its worker: one program, which looks at where it runs.

mod ui;

use leptos::prelude::*;
use wasm_bindgen::prelude::*;

fn main() {
    std::panic::set_hook(Box::new(show_panic));
    match web_sys::window() {
        Some(window) => start_page(&window),
        None => ui::worker::start(),
    }
}

/// Hands a panic to the console and to `longsmokePanic` of `web/boot.js` or `web/worker.js`.
fn show_panic(info: &std::panic::PanicHookInfo<'_>) {
    web_sys::console::error_1(&info.to_string().into());
    let show = js_sys::Reflect::get(&js_sys::global(), &"longsmokePanic".into());
    if let Some(show) = show.ok().and_then(|show| show.dyn_into::<js_sys::Function>().ok()) {
        // There is nobody left to tell of an error in here.
        let _ = show.call1(&JsValue::NULL, &info.to_string().into());
    }
}

fn start_page(window: &web_sys::Window) {
    listen_for_test_panic(window);
    let page = window.document().and_then(|document| document.get_element_by_id("page"));
    if let Some(page) = page.and_then(|page| page.dyn_into::<web_sys::HtmlElement>().ok()) {
        mount_to(page.clone(), move || ui::start(page.into())).forget();
    }
}

/// Panics on the event `longsmoke-test-panic`, which only tests send: no link and no input can.
fn listen_for_test_panic(window: &web_sys::Window) {
    #[expect(clippy::panic, reason = "the purpose of this listener")]
    let listener = Closure::<dyn Fn()>::new(|| panic!("longsmoke-test-panic"));
    let _ = window.add_event_listener_with_callback(
        "longsmoke-test-panic",
        listener.as_ref().unchecked_ref(),
    );
    listener.forget();
}
