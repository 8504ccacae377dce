//! Other languages than English: nothing is left unsaid, and nothing is said in vain.

use longsmoke::analysis::analyze;
use longsmoke::courses::brick::Bricks;
use longsmoke::courses::plans;
use longsmoke::design::Design;
use longsmoke::design::examples::Example;
use longsmoke::design::field::{FIELDS, Kind};
use longsmoke::rules::{Question, check};
use longsmoke::sources::{ALL, TEXTS};
use longsmoke::study::working::FORMULAS;
use longsmoke::units::{Quantity, System, figure};
use longsmoke::words;
use longsmoke::words::languages::{CATALOGS, speak, written};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).to_owned()
}

/// Folders and files in which sentences are said.
const SAID_IN: [&str; 8] = [
    "src/words",
    "src/drawing",
    "src/paper",
    "src/export",
    "src/service",
    "src/bin",
    "src/ui/texts.rs",
    "src/units.rs",
];

/// Files whose sentences are all said by one function.
const WHOLLY: [&str; 1] = ["validity.rs"];

/// What stands before a text that is said, or before a list of such texts.
const SAYS: [&str; 3] = ["said(", "English(", "say!("];
const LISTS: [&str; 6] =
    ["let english =", "texts! {", "said_of(", "sourced(", "entry(", "also("];

/// A text within code.
struct Literal {
    /// Place of its first letter.
    at: usize,
    /// Place behind its closing quote.
    end: usize,
    text: String,
}

/// All texts of some code; comments and tests hold none.
fn literals(code: &str) -> Vec<Literal> {
    let mut found = Vec::new();
    let bytes = code.as_bytes();
    let mut at = 0;
    while at < bytes.len() {
        let rest = &code[at..];
        if rest.starts_with("//") {
            at += rest.find('\n').unwrap_or(rest.len());
        } else if rest.starts_with("'\"'") {
            at += 3;
        } else if rest.starts_with("r#\"") {
            at += rest.find("\"#").unwrap_or(rest.len()) + 2;
        } else if bytes[at] == b'"' {
            let mut end = at + 1;
            while bytes[end] != b'"' {
                end += if bytes[end] == b'\\' { 2 } else { 1 };
            }
            found.push(Literal { at, end: end + 1, text: unescaped(&code[at + 1..end]) });
            at = end + 1;
        } else {
            at += rest.chars().next().map_or(1, char::len_utf8);
        }
    }
    found
}

fn unescaped(source: &str) -> String {
    let mut text = String::new();
    let mut rest = source.chars().peekable();
    while let Some(letter) = rest.next() {
        if letter != '\\' {
            text.push(letter);
            continue;
        }
        match rest.next() {
            Some('n') => text.push('\n'),
            Some('u') => {
                let code: String = rest.by_ref().skip(1).take_while(|c| *c != '}').collect();
                text.extend(u32::from_str_radix(&code, 16).ok().and_then(char::from_u32));
            }
            Some('\n') => while rest.next_if(|c| c.is_whitespace()).is_some() {},
            Some(other) => text.push(other),
            None => {}
        }
    }
    text
}

/// Where the lists of texts of some code stand, each to its closing mark.
fn lists(code: &str, texts: &[Literal]) -> Vec<(usize, usize)> {
    let within = |at: usize| texts.iter().find(|text| text.at <= at && at < text.end);
    let mut found = Vec::new();
    for (start, mark) in LISTS.iter().flat_map(|mark| code.match_indices(mark)) {
        if code[..start].ends_with("fn ") || within(start).is_some() {
            continue;
        }
        let mut depth = i32::from(!mark.ends_with('='));
        let mut at = start + mark.len();
        while at < code.len() {
            if let Some(text) = within(at) {
                at = text.end;
                continue;
            }
            match code.as_bytes()[at] {
                b'(' | b'[' | b'{' => depth += 1,
                b')' | b']' | b'}' => depth -= 1,
                b';' if depth == 0 => break,
                _ => {}
            }
            if depth == 0 && !mark.ends_with('=') {
                break;
            }
            at += 1;
        }
        found.push((start, at));
    }
    found
}

/// Whether two words stand side by side.
fn is_sentence(text: &str) -> bool {
    let is_word = |word: &&str| {
        let letters = word.trim_matches(|c| ",.:;".contains(c));
        letters.chars().count() > 1 && letters.chars().all(char::is_alphabetic)
    };
    let words: Vec<_> = text.split(' ').collect();
    words.windows(2).any(|two| two.iter().all(is_word))
}

/// Texts of a file, each with whether it is said; keys of a match and attributes are none.
fn texts(path: &Path) -> Vec<(String, bool)> {
    let code = fs::read_to_string(path).unwrap();
    let code = code.split("#[cfg(test)]\nmod tests {").next().unwrap();
    let all = literals(code);
    let lists = lists(code, &all);
    let is_wholly = WHOLLY.iter().any(|name| path.ends_with(name));
    let mut found = Vec::new();
    for Literal { at, end, text } in &all {
        let before = code[..*at].trim_end();
        let line = before.rsplit('\n').next().unwrap_or_default();
        let after = code[*end..].trim_start();
        let is_key = after.starts_with("=>") || after.starts_with("| \"");
        if line.contains("#[") || is_key {
            continue;
        }
        let is_listed = lists.iter().any(|(from, to)| (from..to).contains(&at));
        // A constant that `said_of` takes.
        let is_constant = before.ends_with(": &str =") && is_sentence(text);
        let is_constant = is_constant || is_wholly && text.ends_with('.');
        let is_said = SAYS
            .iter()
            .any(|mark| before.ends_with(mark) && !before.ends_with(&format!("fn {mark}")));
        found.push((text.clone(), is_listed || is_said || is_constant));
    }
    found
}

fn files(path: &Path) -> Vec<PathBuf> {
    if path.is_file() {
        return vec![path.to_owned()];
    }
    let entries = fs::read_dir(path).unwrap().map(|entry| entry.unwrap().path());
    let all = entries.flat_map(|entry| files(&entry));
    all.filter(|file| {
        file.extension().is_some_and(|extension| extension == "rs")
            && !file.ends_with("tests.rs")
    })
    .collect()
}

/// The texts of the shell of the page that a script puts into the language.
fn shell() -> Vec<String> {
    let page = fs::read_to_string(root().join("index.html")).unwrap();
    let (_, body) = page.split_once("<body>").unwrap();
    let outside = |text: &str, from: &str, to: &str| -> String {
        let parts = text.split(from).enumerate();
        let kept = parts.map(|(place, part)| {
            if place == 0 { part } else { part.split_once(to).map_or("", |(_, rest)| rest) }
        });
        kept.collect::<Vec<_>>().join(" ")
    };
    let body = outside(&outside(body, "<!--", "-->"), "<noscript>", "</noscript>");
    let texts = body.split('<').map(|tag| tag.split_once('>').map_or("", |(_, text)| text));
    let texts = texts.map(|text| text.split_whitespace().collect::<Vec<_>>().join(" "));
    texts.filter(|text| !text.is_empty() && text != "Longsmoke").collect()
}

/// Everything that is said, in English.
fn everything() -> BTreeSet<String> {
    let said = SAID_IN.iter().flat_map(|path| files(&root().join(path))).flat_map(|file| {
        texts(&file).into_iter().filter(|(_, said)| *said).map(|(text, _)| text)
    });
    let formulas = FORMULAS.iter().flat_map(|formula| {
        std::iter::once(&formula.result).chain(formula.symbols).map(|symbol| symbol.name.into())
    });
    let sources = ALL.iter().map(|entry| entry.about).chain(TEXTS.iter().copied());
    let of_script = ["Language".to_owned()];
    let all = said.chain(formulas).chain(sources.map(String::from)).chain(shell());
    all.chain(of_script).filter(|text| !text.is_empty()).collect()
}

/// What is put into a sentence, each place named or numbered.
fn places(sentence: &str) -> BTreeSet<String> {
    let mut unnamed = 0;
    let names = sentence.split('{').skip(1).map(|part| {
        let name = part.split('}').next().unwrap_or_default();
        if name.is_empty() {
            unnamed += 1;
            (unnamed - 1).to_string()
        } else {
            name.to_owned()
        }
    });
    names.collect()
}

#[test]
fn every_catalog_is_known() {
    let files = fs::read_dir(root().join("src/words")).unwrap();
    let files = files.map(|file| file.unwrap().file_name().into_string().unwrap());
    let tags: BTreeSet<_> =
        files.filter_map(|name| name.strip_suffix(".json").map(String::from)).collect();
    assert_eq!(tags, CATALOGS.map(|(tag, _)| tag.to_owned()).into());
}

#[test]
fn every_sentence_has_its_translation_and_no_translation_is_left_over() {
    let everything = everything();
    for (tag, _) in CATALOGS {
        let catalog = written(tag).unwrap();
        let translated: BTreeSet<_> = catalog.sentences.keys().cloned().collect();
        let missing: Vec<_> = everything.difference(&translated).collect();
        assert!(missing.is_empty(), "{tag} lacks {}: {missing:#?}", missing.len());
        let stale: Vec<_> = translated.difference(&everything).collect();
        assert!(stale.is_empty(), "{tag} has what nobody says: {stale:#?}");
        for (english, said) in &catalog.sentences {
            assert_eq!(places(english), places(said), "{tag}: {english}");
            let ends = |text: &str| text.ends_with(' ') || text.ends_with('\n');
            assert_eq!(ends(english), ends(said), "{tag}: {english:?}");
            assert_eq!(english.starts_with(' '), said.starts_with(' '), "{tag}: {english:?}");
        }
    }
}

/// Texts of several words that nobody says, with the reason.
const UNSAID: [&str; 0] = [];

#[test]
fn no_sentence_is_said_in_english_alone() {
    let mut unsaid = Vec::new();
    for file in
        ["src/words", "src/ui/texts.rs"].iter().flat_map(|path| files(&root().join(path)))
    {
        for (text, said) in texts(&file) {
            if is_sentence(&text) && !said && !UNSAID.contains(&text.as_str()) {
                unsaid.push(format!("{}: {text}", file.display()));
            }
        }
    }
    assert!(unsaid.is_empty(), "{unsaid:#?}");
}

/// Words that stand in many English sentences and in no German one.
const ENGLISH: [&str; 14] = [
    "the", "of", "and", "with", "is", "are", "from", "by", "that", "it", "to", "heater", "run",
    "chimney",
];

/// What keeps its name: terms of North American rules, titles of publications.
const NAMES: [&str; 10] = [
    "seismic design category",
    "chimney connector",
    "hearth extension",
    "masonry heater (ASTM E1602)",
    "Brick Institute of America",
    "The Properties of Gases and Liquids",
    "Augmentation of Convective Heat and Mass Transfer",
    "Combustion and Flame",
    "Conduction of Heat in Solids",
    "Fire and Materials",
];

/// All that is read of a design.
fn read(design: &Design, system: System) -> Vec<String> {
    let analysis = analyze(design).unwrap();
    let findings = check(design, &analysis);
    let passages = [
        words::build::passage(design, &analysis, system),
        words::courses::passage(design, &analysis, &plans(design, Bricks::of(design)), system),
        words::envelope::passage(design, &analysis, system),
        words::house::passage(design, &analysis, None, system),
        words::operation::passage(design, &analysis, system),
        words::sheet::inputs(design, system),
        words::sheet::runs(design, &analysis, system),
        words::sheet::left_out(design),
        words::working::all(design, &findings, system).unwrap(),
        words::glossary::passage(),
        words::sources::passage(),
    ];
    let found = findings.iter().map(|each| {
        let text = words::finding(each, system);
        format!("{} {} {}", text.title, text.reason, text.remedy)
    });
    let answers = Question::ALL.map(|each| words::deciding(each, &analysis, &findings, system));
    let fields = FIELDS.iter().map(|field| {
        let label = words::label(field.id);
        let choices = match &field.kind {
            Kind::Choice(choice) => choice.keys.iter().map(|key| words::choice(key)).collect(),
            Kind::Number(_) => Vec::new(),
        };
        format!("{label}. {} {}", words::help(field.id), choices.join(", "))
    });
    let lines = passages.iter().map(words::passage::Passage::plain);
    lines.chain(found).chain(answers).chain(fields).collect()
}

#[test]
fn german_is_german_throughout() {
    assert!(speak("de"));
    let mut english = BTreeSet::new();
    for example in Example::ALL {
        for system in [System::Metric, System::Us] {
            for line in
                read(&words::examples::named(example), system).iter().flat_map(|t| t.lines())
            {
                let line =
                    NAMES.iter().fold(line.to_owned(), |line, name| line.replace(name, ""));
                let parts = line.split(|c: char| !c.is_alphabetic());
                if parts.clone().any(|word| ENGLISH.contains(&word)) {
                    english.insert(line.trim().to_owned());
                }
            }
        }
    }
    assert!(english.is_empty(), "{}: {english:#?}", english.len());
}

#[test]
fn german_figures_have_a_comma_and_are_read_again() {
    assert!(speak("de"));
    let said = figure(0.385, Quantity::Length, System::Metric);
    assert_eq!(said, "0,39 m");
    assert_eq!(figure(1234.5, Quantity::Mass, System::Metric), "1234,5 kg");
    assert_eq!(figure(0.381, Quantity::Size, System::Us), "15 in");
    let typed = longsmoke::units::editable(0.3855, Quantity::Length, System::Metric);
    assert_eq!(typed, "0,3855");
    let again = longsmoke::units::parse(&typed, Quantity::Length, System::Metric).unwrap();
    assert!((again - 0.3855).abs() < 1e-12);
    assert_eq!(
        words::answer(Question::Draw, longsmoke::rules::Answer::LookAgain),
        "Noch einmal ansehen"
    );
}
