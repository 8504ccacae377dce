//! The language in which page and worker were started.

use longsmoke::language::Catalog;

/// Speaks the language whose rows `web/language.js` left; English where it left none.
pub fn speak() {
    let words = js_sys::Reflect::get(&js_sys::global(), &"longsmokeWords".into());
    let words = words.ok().and_then(|words| words.as_string()).unwrap_or_default();
    if let Some(catalog) = Catalog::of_rows(Box::leak(words.into_boxed_str())) {
        catalog.speak();
    }
}
