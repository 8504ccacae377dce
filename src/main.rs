//! The page.

mod panics;
mod spoken;
mod ui;

use leptos::mount::mount_to;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::spawn_local;

fn main() {
    panics::show();
    spoken::speak();
    if let Some(window) = web_sys::window() {
        start_page(&window);
    }
}

fn start_page(window: &web_sys::Window) {
    listen_for_test_panic(window);
    let page = window.document().and_then(|document| document.get_element_by_id("page"));
    if let Some(page) = page.and_then(|page| page.dyn_into::<web_sys::HtmlElement>().ok()) {
        spawn_local(async move {
            let opened = ui::open().await;
            // What is drawn follows what is written for as long as the page stands.
            mount_to(page.clone(), move || ui::start(page.into(), opened)).forget();
        });
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
