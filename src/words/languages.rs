//! Languages beside English, for programs that carry them: a catalog each, named by the tag of the
//! language. The page fetches the same files (`web/language.js`).

use crate::language::{Catalog, ROW, TO, WITHIN};
use serde::Deserialize;
use std::collections::BTreeMap;

/// Tags with their catalogs.
pub const CATALOGS: [(&str, &str); 1] = [("de", include_str!("de.json"))];

/// A catalog as it is written, each text by its English.
#[derive(Clone, Debug, Deserialize)]
pub struct Written {
    /// What stands between whole and parts of a number.
    pub decimal_mark: char,
    /// Texts of the language as they are written within a sentence.
    pub within: BTreeMap<String, String>,
    /// The sentences.
    pub sentences: BTreeMap<String, String>,
}

/// The catalog of a language, as it is written.
pub fn written(tag: &str) -> Option<Written> {
    let (_, text) = CATALOGS.iter().find(|(each, _)| *each == tag)?;
    serde_json::from_str(text).ok()
}

/// Has this thread speak a language; whether there is one of that tag.
pub fn speak(tag: &str) -> bool {
    let catalog = written(tag).and_then(|written| {
        let Written { decimal_mark, within, sentences } = written;
        let head = format!("{tag}{TO}{decimal_mark}");
        let within = within.into_iter().map(|(text, small)| (format!("{WITHIN}{text}"), small));
        let rows: BTreeMap<_, _> = within.chain(sentences).collect();
        let rows = rows.into_iter().map(|(english, said)| format!("{english}{TO}{said}"));
        let rows: Vec<_> = std::iter::once(head).chain(rows).collect();
        Catalog::of_rows(rows.join(&ROW.to_string()).leak())
    });
    catalog.map(Catalog::speak).is_some()
}
