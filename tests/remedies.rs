//! What is offered to mend a finding mends it: each remedy is put into the design and judged anew.

use crate::laws::{Outcome, holds, usual};
use longsmoke::analysis::analyze;
use longsmoke::analysis::day::{Setup, day};
use longsmoke::design::field::{FieldId, Kind, Number, check, field};
use longsmoke::design::{Design, RuleSet};
use longsmoke::rules::{DayFigures, Finding, Known, Rule, Severity, judge};
use longsmoke::study::remedy::{Key, MOST, Part, Remedies, Remedy, Traded};
use longsmoke::study::trials::mild_day;
use longsmoke::units::System;
use longsmoke::words::remedy as words;
use proptest::prelude::*;

/// What the house, the weather, an authority or the standing chimney decides, and what is known
/// only roughly.
const NOT_THE_BUILDERS: [&str; 13] = [
    "site.rule_set",
    "site.altitude_m",
    "site.outdoor_celsius",
    "site.room_celsius",
    "site.heat_loss_w_per_k",
    "site.house_suction_pascals",
    "site.wind_pressure_pascals",
    "chimney.rated_celsius",
    "path.reversal_coefficient",
    "path.turn_coefficient",
    "path.roughness_m",
    "firebox.inlet_coefficient",
    "chimney.mouth_coefficient",
];

fn judged(design: &Design) -> Option<Vec<Finding>> {
    let analysis = analyze(design).ok()?;
    let day = day(design, &Setup::STANDARD).ok();
    let figures = day.map(|day| DayFigures::new(design, &day.first_fire, &day.periodic));
    let mild = figures.and_then(|_| mild_day(design, &Setup::STANDARD));
    let known = Known { day: figures.as_ref(), mild: mild.as_ref(), edges: None };
    Some(judge(design, &analysis, known))
}

fn found(design: &Design, system: System) -> Vec<(Key, Vec<Remedy>)> {
    let parts = Remedies::new(design, system);
    let found = parts.filter_map(|part| match part {
        Part::Found(key, remedies) => Some((key, remedies)),
        Part::Working => None,
    });
    found.collect()
}

fn number(id: FieldId) -> &'static Number {
    match &field(id).kind {
        Kind::Number(number) => number,
        Kind::Choice(_) => panic!("{id:?} is no number"),
    }
}

fn remedies_of(design: &Design, rule: Rule) -> Vec<Remedy> {
    let findings = judged(design).unwrap();
    let finding = findings.iter().find(|finding| finding.rule.is_about(rule)).unwrap();
    let key = Key::of(finding);
    let mut all = found(design, System::Metric).into_iter();
    all.find(|(of, _)| *of == key).map(|(_, remedies)| remedies).unwrap()
}

/// Whether the matter of a finding is silent, or lighter where no more was promised, nothing that
/// weighs as much is new, and nothing heavier is new.
fn mends(before: &[Finding], finding: &Finding, remedy: &Remedy, design: &Design) -> Outcome {
    let number = number(remedy.field);
    let path = field(remedy.field).path;
    prop_assert!(!NOT_THE_BUILDERS.contains(&path), "{path}");
    let mut mended = design.clone();
    remedy.apply(&mut mended);
    let same = |a: f64, b: f64| a.to_bits() == b.to_bits();
    prop_assert!(same((number.get)(design), remedy.present));
    prop_assert!(same((number.get)(&mended), remedy.value));
    prop_assert!(!same(remedy.value, remedy.present));
    prop_assert!(check(&mended).is_empty());
    if number.usual.contains(&remedy.present) {
        prop_assert!(number.usual.contains(&remedy.value), "{path}: {}", remedy.value);
    }
    let after = judged(&mended).unwrap();
    let left = after.iter().filter(|each| each.rule.is_about(finding.rule));
    let left = left.map(|each| each.severity).max();
    prop_assert_eq!(left, remedy.leaves);
    prop_assert!(left.is_none_or(|left| left < finding.severity));
    for each in after.iter().filter(|each| finding.severity <= each.severity) {
        let known = before
            .iter()
            .any(|old| old.rule.is_about(each.rule) && each.severity <= old.severity);
        prop_assert!(known, "{} of {path} brings {each:?}", finding.rule.id());
    }
    let (was, is) = (analyze(design).unwrap(), analyze(&mended).unwrap());
    for (traded, pair) in Traded::ALL.into_iter().zip(remedy.trades) {
        prop_assert!(same(pair.0, traded.of(&was)) && same(pair.1, traded.of(&is)));
    }
    for system in [System::Metric, System::Us] {
        let sentence = words::act(remedy, system);
        prop_assert!(sentence.ends_with('.') && !sentence.contains("NaN"), "{sentence}");
        words::trades(remedy, system);
    }
    Ok(())
}

fn all_mend(design: &Design, system: System) -> Outcome {
    let Some(before) = judged(design) else {
        return Ok(());
    };
    for (key, remedies) in found(design, system) {
        prop_assert!(remedies.len() <= MOST);
        let finding = before.iter().find(|finding| Key::of(finding) == key);
        let Some(finding) = finding else {
            return Err(TestCaseError::fail(format!("{key:?} is no finding")));
        };
        for remedy in &remedies {
            mends(&before, finding, remedy, design)?;
        }
        let part = Part::Found(key, remedies);
        prop_assert_eq!(part.to_string().parse(), Ok(part));
    }
    Ok(())
}

#[test]
fn remedies_mend_random_designs_over_a_usual_day() {
    holds(2, &usual(), |design| all_mend(&design, System::Metric));
    holds(1, &usual(), |design| all_mend(&design, System::Us));
}

fn poor_draft() -> Design {
    let mut design = Design::demonstration();
    design.path.run_count = 8;
    design.path.run_width = 0.12;
    design.chimney.mouth_height = 6.0;
    design
}

#[test]
fn little_draft_is_mended_by_no_more_than_it_takes() {
    let design = poor_draft();
    all_mend(&design, System::Metric).unwrap();
    let findings = judged(&design).unwrap();
    let draft = |finding: &&Finding| finding.rule.id().starts_with("draft-");
    let rule = findings.iter().find(draft).unwrap().rule;
    let remedies = remedies_of(&design, rule);
    let fields: Vec<_> = remedies.iter().map(|remedy| remedy.field).collect();
    assert!(!fields.is_empty());
    // One step less of each does not do.
    for remedy in remedies {
        let number = number(remedy.field);
        let way = (remedy.value - remedy.present).signum();
        let mut short = design.clone();
        let step = if number.step < 0.01 { 0.01 } else { number.step };
        (number.set)(&mut short, remedy.value - way * step);
        let left = judged(&short).unwrap();
        let about = |finding: &Finding| finding.rule.is_about(rule);
        assert!(left.iter().any(about), "{:?}", remedy.field);
    }
}

#[test]
fn a_clearance_is_kept_never_argued_away() {
    let mut design = Design::demonstration();
    design.surroundings.side = 0.05;
    let remedies = remedies_of(&design, Rule::SideClose);
    let [remedy] = remedies.as_slice() else { panic!("{remedies:?}") };
    assert_eq!(remedy.field, FieldId::SideDistance);
    assert!(remedy.trades.iter().all(|(before, after)| before.to_bits() == after.to_bits()));
    assert_eq!(words::trades(remedy, System::Metric), "");
}

#[test]
fn steps_are_those_of_a_builder() {
    let mut design = Design::demonstration();
    design.surroundings.side = 0.05;
    let wide = |system| {
        let all = found(&design, system).into_iter().flat_map(|(_, remedies)| remedies);
        let mut sides = all.filter(|remedy| remedy.field == FieldId::SideDistance);
        words::act(&sides.next().unwrap(), system)
    };
    // 914 or 102 mm are asked, whichever the walls of the demonstration allow.
    let metric = wide(System::Metric);
    assert!(metric.contains("920 mm") || metric.contains("110 mm"), "{metric}");
    let us = wide(System::Us);
    assert!(us.contains("36 in") || us.contains("4 in"), "{us}");
}

#[test]
fn what_no_single_decision_mends_has_no_remedy() {
    let mut design = Design::demonstration();
    // A gale onto the mouth: no usual change pulls against it.
    design.site.wind_pressure = 60.0;
    let rule = judged(&design).unwrap().into_iter().find(|finding| {
        finding.severity == Severity::DoNotBuild && finding.rule.id() == "draft-negative"
    });
    assert_eq!(remedies_of(&design, rule.unwrap().rule), Vec::new());
}

/// Naming a protection, a rule set or what lies somewhere builds nothing: no lever of a distance that is
/// too short is one of them.
#[test]
fn no_distance_is_loosened_by_naming_a_protection() {
    let named = [
        FieldId::WallProtection,
        FieldId::CeilingProtection,
        FieldId::RuleSet,
        FieldId::Below,
        FieldId::Floor,
        FieldId::WallBehind,
        FieldId::Foam,
    ];
    for rule_set in [RuleSet::NorthAmerica, RuleSet::Europe] {
        let mut design = Design::demonstration();
        design.site.rule_set = rule_set;
        let around = &mut design.surroundings;
        (around.side, around.behind, around.above, around.front) = (0.06, 0.06, 0.12, 0.35);
        (around.chimney, around.connector) = (0.01, 0.05);
        let analysis = analyze(&design).unwrap();
        let findings = longsmoke::rules::check(&design, &analysis);
        let close = findings.iter().filter(|finding| finding.rule.id().ends_with("-close"));
        assert!(close.clone().count() >= 5);
        for lever in close.flat_map(longsmoke::rules::levers) {
            assert!(!named.contains(&lever.field), "{:?}", lever.field);
        }
    }
}
