//! The working of a figure ends at that figure, and shows the formula that computed it.

use longsmoke::analysis::analyze;
use longsmoke::design::building::{AirSupply, Damper, Soil};
use longsmoke::design::{Design, Layout, RuleSet};
use longsmoke::rules::{DayFigures, Known, Rule, check, judge};
use longsmoke::study::working::{FORMULAS, Inputs, Shown, Step, behind, figure_of};
use longsmoke::units::{System, kelvin};
use longsmoke::words;
use longsmoke::words::working::Subject;
use std::collections::BTreeSet;
use std::path::Path;

/// Heaters of every kind.
fn designs() -> Vec<(&'static str, Design)> {
    let changed = |change: &dyn Fn(&mut Design)| {
        let mut design = Design::demonstration();
        change(&mut design);
        design
    };
    vec![
        ("as it stands", changed(&|_| ())),
        ("behind", changed(&|design| design.path.layout = Layout::Behind)),
        ("bench", changed(&|design| design.path.layout = Layout::Bench)),
        ("bleed slot", changed(&|design| design.path.bleed_area = 0.0015)),
        ("no connector", changed(&|design| design.chimney.connector_length = 0.0)),
        ("all indoors", changed(&|design| design.chimney.outdoor_length = 0.0)),
        ("no suction", changed(&|design| design.site.house_suction = 0.0)),
        ("no runs", changed(&|design| design.path.run_count = 0)),
        ("one run", changed(&|design| design.path.run_count = 1)),
        ("eight runs", changed(&|design| design.path.run_count = 8)),
        ("an oven", changed(&|design| design.path.oven.place = 2)),
    ]
}

#[test]
fn the_last_step_is_the_figure() {
    for (name, design) in designs() {
        let analysis = analyze(&design).unwrap();
        let inputs = Inputs::new(&design).unwrap();
        let mut compared = 0;
        for shown in Shown::ALL {
            let working = inputs.working(shown);
            let Some(figure) = figure_of(shown, &design, &analysis) else { continue };
            let last = working.result().unwrap_or_else(|| panic!("{name}: {shown:?}"));
            // A margin is a small difference of large figures, so their size counts.
            let put_in = match working.steps.last() {
                Some(Step::Formula { values, .. }) => values.clone(),
                Some(Step::Sum { terms, .. }) => terms.iter().map(|term| term.1).collect(),
                None => Vec::new(),
            };
            let is_difference = matches!(shown, Shown::Margin | Shown::Judged(..));
            let size = if is_difference { put_in[0].abs() } else { figure.abs() };
            assert!(
                (last - figure).abs() <= 1e-12 * size,
                "{name}: {shown:?}: {last} for {figure}"
            );
            compared += 1;
        }
        let fewest = if design.path.run_count < 2 { 26 } else { 29 };
        assert!(fewest <= compared, "{name}: {compared}");
    }
}

#[test]
fn every_step_is_what_its_formula_makes_of_what_is_put_in() {
    for (name, design) in designs() {
        let inputs = Inputs::new(&design).unwrap();
        for step in Shown::ALL.iter().flat_map(|shown| inputs.working(*shown).steps) {
            if let Step::Formula { formula, values, result, .. } = step {
                assert_eq!(values.len(), formula.symbols.len(), "{name}: {}", formula.id);
                assert_eq!(formula.of(&values).to_bits(), result.to_bits());
                assert!(result.is_finite(), "{name}: {} {values:?}", formula.id);
                assert!(FORMULAS.contains(&formula), "{}", formula.id);
            }
        }
    }
}

/// Comments of the functions of the library, by name.
fn comments() -> Vec<(String, String)> {
    fn gather(folder: &Path, into: &mut Vec<(String, String)>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                gather(&path, into);
                continue;
            }
            let mut comment = String::new();
            for line in std::fs::read_to_string(&path).unwrap().lines() {
                if let Some(text) = line.strip_prefix("///") {
                    comment.push_str(text.trim_start());
                    comment.push('\n');
                } else if let Some(head) = line.strip_prefix("pub fn ") {
                    let name = head.split('(').next().unwrap();
                    into.push((name.to_owned(), std::mem::take(&mut comment)));
                } else {
                    comment.clear();
                }
            }
        }
    }
    let mut all = Vec::new();
    gather(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut all);
    all
}

#[test]
fn the_text_of_a_formula_stands_in_the_comment_of_its_function() {
    let comments = comments();
    for formula in FORMULAS {
        let stands = comments.iter().any(|(name, text)| {
            name == formula.id && text.lines().any(|line| line == formula.text)
        });
        assert!(stands, "{}: {}", formula.id, formula.text);
    }
}

#[test]
fn the_letters_of_a_formula_stand_in_its_text() {
    let words = |text: &str| -> BTreeSet<String> {
        let parts = text.split(|c: char| !(c.is_alphanumeric() || c == '_'));
        parts.filter(|part| !part.is_empty()).map(str::to_owned).collect()
    };
    let functions = ["exp", "ln", "max", "sqrt"];
    for formula in FORMULAS {
        let mut letters: BTreeSet<String> =
            formula.symbols.iter().map(|symbol| symbol.letter.to_owned()).collect();
        assert_eq!(letters.len(), formula.symbols.len(), "{}", formula.id);
        letters.insert(formula.result.letter.to_owned());
        let is_letter = |word: &String| {
            !word.starts_with(|c: char| c.is_ascii_digit())
                && !functions.contains(&word.as_str())
        };
        let named: BTreeSet<_> = words(formula.text).into_iter().filter(is_letter).collect();
        assert_eq!(named, letters, "{}", formula.id);
    }
}

/// Changes that bring findings of many kinds.
const CHANGES: [fn(&mut Design); 6] = [
    |design| {
        design.path.run_count = 10;
        design.path.run_length = 0.4;
        design.chimney.mouth_height = 7.0;
    },
    |design| design.path.run_count = 2,
    |design| design.path.run_width = 0.5,
    |design| design.path.run_height = 0.08,
    |design| {
        design.fire.charge = 30.0;
        design.firebox.inlet_area = 0.006;
    },
    |design| {
        design.shell.facing_thickness = 0.03;
        design.support.soil = Soil::Clay;
        design.support.footing_projection = 0.0;
        design.support.footing_thickness = 1.5;
    },
];

#[test]
fn a_finding_leads_to_its_figure() {
    let mut led = BTreeSet::new();
    for change in CHANGES {
        let mut design = Design::demonstration();
        change(&mut design);
        let analysis = analyze(&design).unwrap();
        let inputs = Inputs::new(&design).unwrap();
        for finding in check(&design, &analysis) {
            let id = finding.rule.id();
            // These lead to what they are held against.
            let Some(first) = behind(&finding).first().copied() else { continue };
            if [
                "house-not-covered",
                "house-suction-low",
                "firebox-low",
                "gap-small",
                "bleed-small",
                "air-opening-small",
                "damper-tight",
                "damper-opening-small",
                "glass-near",
            ]
            .contains(&id)
            {
                continue;
            }
            let figure = inputs.working(first).result().unwrap();
            let found = finding.found.value;
            assert!((figure - found).abs() <= 1e-9 * found.abs().max(1.0), "{id}");
            led.insert(id);
        }
    }
    assert!(7 <= led.len(), "{led:?}");
}

/// What is said in place of steps.
const REASONS: [&str; 5] = [
    "found on the firing day",
    "as it was entered, or read off the entries",
    "Found by trying flow after flow",
    "The worst of all places",
    "There is no figure to work out",
];

/// Each finding of many designs, in either system: its steps or why there are none, its source and for
/// what it holds.
#[test]
fn a_finding_has_a_working_or_says_why_not_and_for_what_it_holds() {
    let unstated: fn(&mut Design) = |design| {
        *design =
            longsmoke::design::document::read("{\"heater_design_version\": 1}").unwrap().design;
    };
    let more: [fn(&mut Design); 7] = [
        |design| design.site.rule_set = RuleSet::None,
        |design| design.site.rule_set = RuleSet::Europe,
        |design| design.path.run_count = 1,
        |design| (design.path.run_count, design.path.run_length) = (2, 0.3),
        |design| (design.site.air_supply, design.site.air_opening) = (AirSupply::Duct, 0.001),
        |design| (design.chimney.damper, design.chimney.damper_opening) = (Damper::Fitted, 0.0),
        |design| design.surroundings.front = 0.3,
    ];
    let mut seen = BTreeSet::new();
    for change in CHANGES.into_iter().chain(more).chain([unstated]) {
        let mut design = Design::demonstration();
        change(&mut design);
        let analysis = analyze(&design).unwrap();
        for finding in check(&design, &analysis) {
            let id = finding.rule.id();
            seen.insert(id);
            for system in [System::Metric, System::Us] {
                let subject = Subject::Finding(&finding);
                let said = words::working::of(&design, subject, system).unwrap().plain();
                let steps = behind(&finding);
                let reasons = REASONS.iter().filter(|reason| said.contains(**reason)).count();
                assert_eq!(reasons, usize::from(steps.is_empty()), "{id}: {said}");
                assert!(said.contains("Judged by: "), "{id}: {said}");
                let range = words::validity::validity(finding.rule, system);
                assert!(said.contains(&format!("Range of validity: {range}")), "{id}");
                assert!(range.ends_with('.') && !range.contains(" safe"), "{id}: {range}");
                assert!(range.starts_with(char::is_uppercase), "{id}: {range}");
            }
        }
    }
    for id in ["path-below-definition", "no-reversal", "air-opening-small", "damper-tight"] {
        assert!(seen.contains(id), "{id} is not in {seen:?}");
    }
}

/// By how much, by hand: 50 mm where 914 mm are asked; 120 °C where 110 °C is the most.
#[test]
fn a_finding_tells_by_how_much() {
    let mut design = Design::demonstration();
    design.surroundings.side = 0.05;
    design.shell.core_thickness = 0.03;
    design.shell.facing_thickness = 0.02;
    let analysis = analyze(&design).unwrap();
    let day = DayFigures { hottest_face: kelvin(120.0), ..DayFigures::default() };
    let known = Known { day: Some(Ok(&day)), ..Known::default() };
    let findings = judge(&design, &analysis, known);
    let said = |rule: Rule, system: System| {
        let found = findings.iter().find(|each| each.rule == rule).unwrap();
        words::working::of(&design, Subject::Finding(found), system).unwrap().plain()
    };
    assert!(said(Rule::SideClose, System::Metric).contains("864 mm apart"));
    assert!(said(Rule::FaceTooHot, System::Metric).contains("10 K apart"));
    assert!(said(Rule::FaceTooHot, System::Us).contains("18 °F apart"));
}
