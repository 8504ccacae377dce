//! What a panic does, in the page and in its worker.

use wasm_bindgen::prelude::*;

/// Hands panics to the console and to `longsmokePanic` of `web/boot.js` or `web/worker.js`.
pub fn show() {
    std::panic::set_hook(Box::new(show_panic));
}

fn show_panic(info: &std::panic::PanicHookInfo<'_>) {
    web_sys::console::error_1(&info.to_string().into());
    let show = js_sys::Reflect::get(&js_sys::global(), &"longsmokePanic".into());
    if let Some(show) = show.ok().and_then(|show| show.dyn_into::<js_sys::Function>().ok()) {
        // There is nobody left to tell of an error in here.
        let _ = show.call1(&JsValue::NULL, &info.to_string().into());
    }
}
