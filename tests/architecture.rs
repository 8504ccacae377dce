//! What the folders of `src` may know of each other, and what every published formula carries.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// A module of the library with what it may import: ours and other crates.
struct Layer {
    name: &'static str,
    ours: &'static [&'static str],
    crates: &'static [&'static str],
}

const fn layer(
    name: &'static str,
    ours: &'static [&'static str],
    crates: &'static [&'static str],
) -> Layer {
    Layer { name, ours, crates }
}

/// The import table, in the order of the list in `lib.rs`: a module knows only what stands above
/// it. `schemars` and `serde` describe results that leave the library.
const TABLE: [Layer; 15] = [
    layer("language", &[], &["longsmoke_say"]),
    layer("sources", &["language"], &["schemars", "serde"]),
    layer("units", &["language"], &["lexical_parse_float", "serde", "thiserror"]),
    layer("physics", &["sources", "units"], &["libm", "thiserror"]),
    layer(
        "design",
        &["physics", "sources", "units"],
        &["base64", "miniz_oxide", "serde", "serde_json", "thiserror"],
    ),
    layer(
        "analysis",
        &["design", "physics", "sources", "units"],
        &["libm", "schemars", "serde", "thiserror"],
    ),
    layer("courses", &["analysis", "design", "sources", "units"], &["schemars", "serde"]),
    layer(
        "build",
        &["analysis", "courses", "design", "physics", "sources", "units"],
        &["libm", "schemars", "serde"],
    ),
    layer(
        "rules",
        &["analysis", "build", "design", "physics", "sources", "units"],
        &["schemars", "serde"],
    ),
    layer(
        "study",
        &["analysis", "build", "design", "physics", "rules", "sources", "units"],
        &["libm", "oorandom", "schemars", "serde"],
    ),
    layer(
        "words",
        &[
            "analysis", "build", "courses", "design", "language", "physics", "rules",
            "sources", "study", "units",
        ],
        &["schemars", "serde", "serde_json"],
    ),
    layer(
        "drawing",
        &[
            "analysis", "build", "courses", "design", "language", "physics", "rules",
            "sources", "study", "units", "words",
        ],
        &["libm", "plotters"],
    ),
    layer(
        "export",
        &[
            "analysis", "build", "courses", "design", "drawing", "language", "physics",
            "rules", "sources", "study", "units", "words",
        ],
        &[],
    ),
    layer(
        "paper",
        &[
            "analysis", "build", "courses", "design", "drawing", "export", "language",
            "physics", "rules", "sources", "study", "units", "words",
        ],
        &["qrcodegen"],
    ),
    layer(
        "service",
        &[
            "analysis", "build", "courses", "design", "drawing", "export", "language", "paper",
            "physics", "rules", "sources", "study", "units", "words",
        ],
        &[],
    ),
];

/// Other crates that a module can name.
const CRATES: [&str; 22] = [
    "base64",
    "console_error_panic_hook",
    "js_sys",
    "leptos",
    "lexopt",
    "libm",
    "longsmoke",
    "longsmoke_say",
    "miniz_oxide",
    "oorandom",
    "plotters",
    "plotters_canvas",
    "proptest",
    "qrcodegen",
    "rand",
    "schemars",
    "serde",
    "serde_json",
    "thiserror",
    "wasm_bindgen",
    "wasm_bindgen_futures",
    "web_sys",
];

/// Functions of physics that are no published formula, with the reason.
const NO_FORMULA: [(&str, &str); 1] = [("molar_mass", "looks up a constant")];

/// Methods of floats whose results differ between native and browser; `libm` has them all.
const UNSTABLE: [&str; 22] = [
    "exp", "exp2", "exp_m1", "ln", "ln_1p", "log", "log2", "log10", "powf", "sin", "cos",
    "sin_cos", "tan", "asin", "acos", "atan", "atan2", "sinh", "cosh", "tanh", "cbrt", "hypot",
];

fn source_folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("src")
}

/// A source file with its code: comments, texts and the tests at its end taken out.
struct File {
    path: PathBuf,
    text: String,
    code: String,
}

fn files(folder: &Path) -> Vec<File> {
    let mut list = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            list.extend(files(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            let text = std::fs::read_to_string(&path).unwrap();
            let code = code_of(&text);
            list.push(File { path, text, code });
        }
    }
    list
}

/// Files of a module: `name.rs` and all below `name/`.
fn module_files(name: &str) -> Vec<File> {
    let folder = source_folder().join(name);
    let mut list = if folder.is_dir() { files(&folder) } else { Vec::new() };
    // Tests in a file of their own may name what tests need.
    list.retain(|file| file.path.file_name().is_some_and(|name| name != "tests.rs"));
    let single = source_folder().join(format!("{name}.rs"));
    if let Ok(text) = std::fs::read_to_string(&single) {
        let code = code_of(&text);
        list.push(File { path: single, text, code });
    }
    assert!(!list.is_empty(), "{name} has no files");
    list
}

/// Without comments, and without the tests at its end; tests in a file of their own (`mod tests;`) hide
/// nothing of what stands below.
fn code_of(text: &str) -> String {
    let before_tests = text.split("#[cfg(test)]\nmod tests {").next().unwrap_or_default();
    let lines = before_tests.lines().map(|line| line.split("//").next().unwrap_or_default());
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn tests_hide_no_import_from_these_checks() {
    for file in files(&source_folder()) {
        let hidden = file.text.lines().skip(file.code.lines().count());
        // What is hidden stands within the tests, one step to the right.
        let bare =
            hidden.filter(|line| line.starts_with("use ") || line.starts_with("pub use "));
        assert_eq!(bare.count(), 0, "{}", file.path.display());
    }
}

/// Names that stand behind `prefix::` in code, groups in braces taken apart.
fn imported(code: &str, prefix: &str) -> BTreeSet<String> {
    let name_at = |text: &str| -> String {
        let name = |c: &char| c.is_alphanumeric() || *c == '_';
        text.trim_start().chars().take_while(name).collect()
    };
    let mut names = BTreeSet::new();
    for rest in code.split(&format!("{prefix}::")).skip(1) {
        if let Some(group) = rest.strip_prefix('{') {
            let mut depth = 0;
            let mut start = 0;
            for (at, c) in group.char_indices() {
                match c {
                    '{' => depth += 1,
                    '}' if depth == 0 => {
                        names.insert(name_at(&group[start..at]));
                        break;
                    }
                    '}' => depth -= 1,
                    ',' if depth == 0 => {
                        names.insert(name_at(&group[start..at]));
                        start = at + 1;
                    }
                    _ => {}
                }
            }
        } else {
            names.insert(name_at(rest));
        }
    }
    names.remove("");
    names
}

/// Whether a crate is named: its name and `::` with nothing of a longer name before.
fn names_crate(code: &str, name: &str) -> bool {
    let of_a_name = |c: char| c.is_alphanumeric() || c == '_' || c == ':';
    code.match_indices(&format!("{name}::"))
        .any(|(at, _)| !code[..at].chars().next_back().is_some_and(of_a_name))
}

#[test]
fn a_module_imports_only_what_stands_above_it() {
    let mut wrong = Vec::new();
    for layer in &TABLE {
        for file in module_files(layer.name) {
            for name in imported(&file.code, "crate") {
                let own = name == layer.name || layer.ours.contains(&name.as_str());
                if !own {
                    wrong.push(format!("{}: crate::{name}", file.path.display()));
                }
            }
            for name in CRATES {
                if names_crate(&file.code, name) && !layer.crates.contains(&name) {
                    wrong.push(format!("{}: {name}", file.path.display()));
                }
            }
            if file.code.contains("super::super") {
                wrong.push(format!("{}: super::super", file.path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_table_knows_only_layers_above() {
    for (index, layer) in TABLE.iter().enumerate() {
        let above: Vec<_> = TABLE[..index].iter().map(|layer| layer.name).collect();
        assert!(layer.ours.iter().all(|name| above.contains(name)), "{}", layer.name);
    }
}

#[test]
fn the_table_is_the_list_of_the_library() {
    let text = std::fs::read_to_string(source_folder().join("lib.rs")).unwrap();
    let named: Vec<_> = text
        .lines()
        .filter_map(|line| line.split_once("[`mod@"))
        .map(|(_, rest)| rest.split('`').next().unwrap())
        .collect();
    assert_eq!(named, TABLE.map(|layer| layer.name));
    let modules: BTreeSet<_> = text
        .lines()
        .filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';'))
        .collect();
    assert_eq!(modules, named.into_iter().collect());
}

/// What would bring long work into the page, and the page into its worker: both are downloaded.
#[test]
fn page_and_worker_keep_to_themselves() {
    let read = |name: &str| {
        let path = source_folder().join(name);
        let text = std::fs::read_to_string(&path).unwrap();
        File { path, code: code_of(&text), text }
    };
    let mut page = files(&source_folder().join("ui"));
    page.push(read("main.rs"));
    let long = ["Parts", "Strip::", "Plan::", ".answers(", "first_fire(", "Job::answers"];
    let of_the_page = ["leptos", "plotters", "drawing::", "words::", "mod ui"];
    let mut wrong = Vec::new();
    for (files, names) in [(page, &long[..]), (vec![read("worker.rs")], &of_the_page)] {
        for file in files {
            let found = names.iter().filter(|name| file.code.contains(**name));
            wrong.extend(found.map(|name| format!("{}: {name}", file.path.display())));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_search_for_imports_sees_them() {
    let code = "use crate::{analysis::{a, b}, design};\nlet x = crate::units::kelvin(1.0);";
    let names = ["analysis", "design", "units"].map(str::to_owned);
    assert_eq!(imported(code, "crate"), names.into());
    assert!(names_crate("use serde::Serialize;", "serde"));
    assert!(!names_crate("use crate::serde::Serialize;", "serde"));
    assert!(!names_crate("use my_serde::Serialize;", "serde"));
}

/// Documentation, attributes and head of each public function that stands at the margin: methods
/// are accessors or lean on such a function.
fn public_functions(text: &str) -> Vec<(String, String)> {
    let mut functions = Vec::new();
    let mut doc = String::new();
    for line in text.lines() {
        let head = line.strip_prefix("pub fn ").or_else(|| line.strip_prefix("pub const fn "));
        if let Some(head) = head {
            let name = head.split(['(', '<']).next().unwrap_or_default();
            functions.push((name.to_owned(), std::mem::take(&mut doc)));
        } else if let Some(comment) = line.strip_prefix("///") {
            doc.push_str(comment);
            doc.push('\n');
        } else if !line.starts_with("#[") {
            doc.clear();
        }
    }
    functions
}

#[test]
fn every_formula_names_its_source_and_units() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for file in module_files("physics") {
        for (name, doc) in public_functions(&file.text) {
            if NO_FORMULA.iter().any(|(exempt, _)| *exempt == name) {
                continue;
            }
            count += 1;
            let place = format!("{}: {name}", file.path.display());
            if !doc.contains("# Source\n") {
                wrong.push(format!("{place}: no # Source"));
            }
            let first = doc.split("\n\n").next().unwrap_or_default();
            if !first.contains('(')
                && !file.path.ends_with("root.rs")
                && !name.contains("flue_gas")
            {
                wrong.push(format!("{place}: no unit in its first paragraph"));
            }
        }
    }
    assert!(count > 30, "{count}");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_core_calls_no_float_function_that_differs_in_the_browser() {
    let mut wrong = Vec::new();
    for layer in &TABLE {
        for file in module_files(layer.name) {
            for name in UNSTABLE {
                let calls =
                    [format!(".{name}("), format!("f64::{name}"), format!("f32::{name}")];
                if calls.iter().any(|call| file.code.contains(call)) {
                    wrong.push(format!("{}: {name}", file.path.display()));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_module_has_a_name_that_says_nothing() {
    for file in files(&source_folder()) {
        let name = file.path.file_stem().and_then(|name| name.to_str()).unwrap();
        let empty = ["utils", "util", "common", "helpers", "types", "model", "misc"];
        assert!(!empty.contains(&name), "{}", file.path.display());
    }
}
