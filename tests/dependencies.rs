//! What comes from elsewhere: under which licenses, from where, each once, and why.
//!
//! `cargo metadata` says what is compiled for the page and for this machine, the tests' own
//! dependencies included; npm's lock file says what bundles and drives the browser. A new license,
//! source or duplicate is somebody's decision, so it has to be added here.

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::process::Command;

/// As crates state them. Each lets the page be given away with the notice that `make dist` writes;
/// none asks that our own source be opened.
const LICENSES: [&str; 15] = [
    "(MIT OR Apache-2.0) AND Unicode-3.0",
    "0BSD OR MIT OR Apache-2.0",
    "Apache-2.0 OR BSL-1.0",
    "Apache-2.0 OR MIT",
    "Apache-2.0 OR MIT OR Zlib",
    "BSL-1.0",
    "CC0-1.0",
    "MIT",
    "MIT OR Apache-2.0",
    "MIT OR Zlib OR Apache-2.0",
    "MIT/Apache-2.0",
    "Unicode-3.0",
    "Unlicense OR MIT",
    "Unlicense/MIT",
    "Zlib",
];

/// Crates that are there in two versions, and why that is not ours to end.
const TWICE: [(&str, &str); 6] = [
    ("base64", "Leptos' server functions, which the page does not call, use 0.22"),
    ("convert_case", "two crates of Leptos"),
    ("cpufeatures", "random numbers of the tests"),
    ("syn", "macros, at build time; Leptos' own and serde's"),
    ("thiserror", "the canvas of plotters uses 1"),
    ("thiserror-impl", "with thiserror"),
];

/// What npm installs is for development: nothing of it is in the page.
const LICENSES_OF_NPM: [&str; 6] =
    ["0BSD", "Apache-2.0", "BSD-3-Clause", "ISC", "MIT", "MPL-2.0"];

fn file(name: &str) -> String {
    std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).unwrap()
}

fn metadata(platform: &str) -> Value {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--locked", "--format-version", "1", "--all-features"])
        .args(["--filter-platform", platform])
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).unwrap()
}

/// Every crate that is compiled for the page or for this machine, by name and version.
fn packages() -> BTreeMap<(String, String), Value> {
    let host = Command::new("rustc").arg("-vV").output().unwrap().stdout;
    let host = String::from_utf8(host).unwrap();
    let host = host.lines().find_map(|line| line.strip_prefix("host: ")).unwrap();
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    ["wasm32-unknown-unknown", host]
        .into_iter()
        .flat_map(|platform| {
            let metadata = metadata(platform);
            let used: BTreeSet<_> = metadata["resolve"]["nodes"]
                .as_array()
                .unwrap()
                .iter()
                .map(|node| text(&node["id"]))
                .collect();
            let packages = metadata["packages"].as_array().unwrap().clone();
            packages.into_iter().filter(move |package| used.contains(&text(&package["id"])))
        })
        .map(|package| ((text(&package["name"]), text(&package["version"])), package))
        .collect()
}

#[test]
fn crates_come_from_the_registry_under_known_licenses() {
    for ((name, _), package) in packages() {
        if name.starts_with("longsmoke") {
            continue;
        }
        let license = package["license"].as_str().unwrap_or("none");
        assert!(LICENSES.contains(&license), "{name}: {license}");
        let source = package["source"].as_str().unwrap_or("a path");
        assert_eq!(
            source, "registry+https://github.com/rust-lang/crates.io-index",
            "source of {name}"
        );
    }
}

#[test]
fn a_crate_is_there_once_or_for_a_reason() {
    let mut versions: BTreeMap<String, u32> = BTreeMap::new();
    for (name, _) in packages().into_keys() {
        *versions.entry(name).or_default() += 1;
    }
    for (name, count) in versions {
        let is_known = TWICE.iter().any(|(known, _)| *known == name);
        assert!(count == 1 || is_known, "{name} is there {count} times");
    }
}

#[test]
fn developers_are_told_why_each_dependency_is_there() {
    let told = file("DEVELOPERS.md");
    let (_, table) = told.split_once("## Dependencies").unwrap();
    let packages = packages();
    let ours = packages.iter().find(|((name, _), _)| name == "longsmoke").unwrap().1;
    for dependency in ours["dependencies"].as_array().unwrap() {
        let name = dependency["name"].as_str().unwrap();
        assert!(table.contains(&format!("`{name}`")), "{name}");
    }
    let npm: Value = serde_json::from_str(&file("package.json")).unwrap();
    for (name, version) in npm["devDependencies"].as_object().unwrap() {
        assert!(table.contains(&format!("`{name}`")), "{name}");
        let version = version.as_str().unwrap();
        assert!(version.split('.').all(|part| part.parse::<u32>().is_ok()), "{name} {version}");
    }
    assert!(npm.get("dependencies").is_none(), "npm is for development");
}

#[test]
fn npm_packages_have_known_licenses_and_hashes() {
    let lock: Value = serde_json::from_str(&file("package-lock.json")).unwrap();
    for (path, package) in lock["packages"].as_object().unwrap() {
        if path.is_empty() {
            continue;
        }
        let license = package["license"].as_str().unwrap_or("none");
        assert!(LICENSES_OF_NPM.contains(&license), "{path}: {license}");
        assert!(package["integrity"].as_str().is_some_and(|hash| hash.starts_with("sha512-")));
    }
}
