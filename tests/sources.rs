//! The register of sources is whole, used, and what the README lists.

use longsmoke::sources::{ALL, Trust};
use longsmoke::words::sources::{markdown, passage};
use std::collections::BTreeSet;
use std::path::Path;

const README: &str = include_str!("../README.md");

/// All code of the library but the register itself.
fn code() -> String {
    fn gather(folder: &Path, into: &mut String) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                gather(&path, into);
            } else if !path.ends_with("src/sources.rs") {
                into.push_str(&std::fs::read_to_string(&path).unwrap());
            }
        }
    }
    let mut code = String::new();
    gather(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut code);
    code
}

#[test]
fn the_readme_lists_the_register() {
    let (_, rest) = README.split_once("<!-- sources -->\n").unwrap();
    let (table, _) = rest.split_once("<!-- end of sources -->").unwrap();
    assert!(table == markdown(), "the table is another one: make sources writes it");
}

#[test]
fn every_source_is_in_the_register() {
    // Whoever writes a source of his own elsewhere leaves it out.
    let code = code();
    for word in ["Source { place", "trust: Trust::"] {
        assert!(!code.contains(word), "{word}");
    }
}

#[test]
fn every_source_of_the_register_is_used() {
    let code = code();
    let words: BTreeSet<&str> =
        code.split(|c: char| !(c.is_alphanumeric() || c == '_')).collect();
    let idle: Vec<_> =
        ALL.iter().map(|entry| entry.id).filter(|id| !words.contains(id)).collect();
    assert!(idle.is_empty(), "{idle:?}");
}

#[test]
fn the_passage_shows_each_source_once() {
    let text = passage().plain();
    for entry in ALL {
        assert!(text.contains(entry.source.text()), "{}", entry.id);
        assert!(entry.about.ends_with('.') && !entry.about.starts_with(' '), "{}", entry.id);
    }
    let ids: BTreeSet<_> = ALL.iter().map(|entry| entry.id).collect();
    assert_eq!(ids.len(), ALL.len());
    assert!(ALL.iter().any(|entry| entry.source.trust == Trust::Computed));
}
