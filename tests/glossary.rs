//! The glossary: no word of the trade on the page without an entry, no entry without a use.

use longsmoke::analysis::analyze;
use longsmoke::design::Design;
use longsmoke::design::examples::Example;
use longsmoke::design::field::{FIELDS, Group, Kind};
use longsmoke::rules::{Finding, Known, Place, Question, judge};
use longsmoke::units::System;
use longsmoke::words;
use longsmoke::words::glossary::{Entry, Reading, entries, passage, words_of};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// Words of everyday English in labels, choices and titles of findings. Whoever adds a word decides:
/// everyday words come here, words of the trade into the glossary.
const EVERYDAY: &str = include_str!("glossary_everyday.txt");

const UNITS: [&str; 5] = ["kg", "kpa", "kw", "min", "pa"];

/// What the page calls things: labels, choices, groups, places, questions, lines of the ledger.
fn names() -> Vec<String> {
    let choices = FIELDS.iter().filter_map(|field| match &field.kind {
        Kind::Choice(choice) => {
            Some(choice.keys.iter().map(|key| words::choice(key).to_owned()))
        }
        Kind::Number(_) => None,
    });
    let places = [
        Place::Whole,
        Place::Fire,
        Place::Firebox,
        Place::Door,
        Place::Run(0),
        Place::RunsOutlet,
        Place::ChimneyInlet,
        Place::ChimneyMouth,
        Place::Side,
        Place::Back,
        Place::Front,
        Place::Ceiling,
        Place::Chimney,
        Place::Below,
    ];
    let labels = FIELDS.iter().map(|field| words::label(field.id).to_owned());
    labels
        .chain(choices.flatten())
        .chain(Group::ALL.map(|group| words::group(group).to_owned()))
        .chain(places.map(words::place))
        .chain(Question::ALL.map(|question| words::question(question).to_owned()))
        .collect()
}

/// Titles of what is found in the examples, each as it is and with one input after another at the
/// ends of its range.
fn titles() -> BTreeSet<String> {
    let mut titles = BTreeSet::new();
    let mut look = |design: &Design| {
        let Ok(analysis) = analyze(design) else { return };
        let known = Known { day: None, mild: None, edges: None };
        let findings: Vec<Finding> = judge(design, &analysis, known);
        for finding in &findings {
            titles.insert(words::finding(finding, System::Metric).title);
        }
    };
    for example in Example::ALL {
        look(&example.design());
    }
    for field in &FIELDS {
        let base = Design::demonstration();
        match &field.kind {
            Kind::Number(number) => {
                for value in [*number.possible.start(), *number.possible.end()] {
                    let mut design = base.clone();
                    (number.set)(&mut design, value);
                    look(&design);
                }
            }
            Kind::Choice(choice) => {
                for index in 0..choice.keys.len() {
                    let mut design = base.clone();
                    (choice.set)(&mut design, index);
                    look(&design);
                }
            }
        }
    }
    titles
}

#[test]
fn every_word_of_the_trade_is_explained() {
    let everyday: BTreeSet<String> = words_of(EVERYDAY).into_iter().collect();
    let is_word = |word: &String| {
        let letters = word.chars().all(|c| c.is_alphabetic() || c == '-');
        letters && word.len() > 1 && !UNITS.contains(&word.as_str())
    };
    let texts = names().into_iter().chain(titles());
    let used: BTreeSet<String> =
        texts.flat_map(|text| Reading::of(&text).others).filter(is_word).collect();
    let unknown: Vec<_> = used.difference(&everyday).collect();
    assert!(unknown.is_empty(), "neither everyday nor in the glossary: {unknown:?}");
}

#[test]
fn no_word_is_everyday_and_of_the_trade() {
    let forms = entries().flat_map(Entry::forms).map(words_of);
    let trade: BTreeSet<String> = forms.filter(|form| form.len() == 1).flatten().collect();
    let both: Vec<_> =
        words_of(EVERYDAY).into_iter().filter(|word| trade.contains(word)).collect();
    assert!(both.is_empty(), "{both:?}");
}

/// The word of an entry within a sentence.
fn name_of(entry: &'static Entry) -> &'static str {
    entry.forms().next().unwrap()
}

/// Everything that page and command say.
fn everything_said() -> String {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let files = files_below(&root.join("words")).into_iter();
    let files = files.filter(|file| !file.ends_with("glossary.rs"));
    let read = |file| fs::read_to_string(file).unwrap();
    files.chain([root.join("ui/texts.rs")]).map(read).collect()
}

fn files_below(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries
        .flat_map(|path| if path.is_dir() { files_below(&path) } else { vec![path] })
        .filter(|path| path.extension().is_some_and(|extension| extension == "rs"))
        .collect()
}

#[test]
fn every_entry_is_used_and_said_once() {
    let said = Reading::of(&everything_said()).explained;
    let in_meanings = entries().flat_map(|entry| Reading::of(&entry.meaning).explained);
    let used: BTreeSet<&str> = said.iter().copied().chain(in_meanings).map(name_of).collect();
    let mut seen = BTreeSet::new();
    for entry in entries() {
        for form in entry.forms() {
            assert!(seen.insert(form), "twice: {form}");
        }
        assert!(
            entry.meaning.ends_with('.') && entry.meaning.len() < 200,
            "{}",
            name_of(entry)
        );
        let own = Reading::of(&entry.meaning).explained.contains(&entry);
        assert!(!own, "{} is explained by itself", name_of(entry));
    }
    let unused: Vec<_> = entries().map(name_of).filter(|form| !used.contains(form)).collect();
    assert!(unused.is_empty(), "{unused:?}");
}

/// Whoever asks at an input gets the longest word that is meant, and only what stands there.
#[test]
fn an_input_explains_its_own_words() {
    let of = |path: &str| {
        let field = FIELDS.iter().find(|field| field.path == path).unwrap();
        let lines = words::glossary::terms(field.id);
        lines.iter().map(|line| line.split(':').next().unwrap().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(of("path.run_count"), ["Run"]);
    assert!(of("path.bleed_m2").contains(&"Bleed slot".to_owned()));
    let whole = Reading::of("Bleed slot").explained;
    assert_eq!(whole.into_iter().map(name_of).collect::<Vec<_>>(), ["bleed slot"]);
    // Many inputs need no word at all; none needs more than a handful.
    for field in &FIELDS {
        assert!(words::glossary::terms(field.id).len() <= 8, "{}", field.path);
    }
}

#[test]
fn the_glossary_can_be_read_in_a_terminal() {
    let text = passage().plain();
    assert!(text.contains("Bleed slot") && text.contains("gas slot (EN 15544)"), "{text}");
}
