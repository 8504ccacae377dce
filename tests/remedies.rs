//! What is offered to mend a finding mends it: each remedy is put into the design and judged anew,
//! with its days and at the unfavorable edge of its overload.

use crate::laws::{Outcome, holds, usual};
use longsmoke::analysis::analyze;
use longsmoke::analysis::day::{Setup, day};
use longsmoke::design::field::{FieldId, Kind, Number, check, field};
use longsmoke::design::{Design, RuleSet};
use longsmoke::rules::{
    Around, DayFigures, Edges, Finding, Hazard, Known, Rule, Severity, judge,
};
use longsmoke::study::edges::edges;
use longsmoke::study::remedy::{Brought, Key, MOST, Part, Remedies, Remedy, Traded};
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
    judged_with(design, edges(design).ok().as_ref())
}

/// With the days, and at the edge where that is given.
fn judged_with(design: &Design, edges: Option<&Edges>) -> Option<Vec<Finding>> {
    let analysis = analyze(design).ok()?;
    let day = day(design, &Setup::STANDARD).ok();
    let figures = day.map(|day| DayFigures::new(design, &day.first_fire, &day.periodic));
    let mild = figures.and_then(|_| mild_day(design, &Setup::STANDARD));
    let known = Known {
        day: figures.as_ref().map(Ok),
        mild: mild.as_ref().map(Result::as_ref),
        edges: edges.map(Ok),
    };
    Some(judge(design, &analysis, known))
}

/// What is told, no more of it sought than is read.
fn found(design: &Design, system: System) -> impl Iterator<Item = (Key, Vec<Remedy>)> {
    Remedies::new(design, system).filter_map(|part| match part {
        Part::Found(key, remedies) => Some((key, remedies)),
        Part::Working => None,
    })
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
    let mut all = found(design, System::Metric);
    all.find(|(of, _)| *of == key).map(|(_, remedies)| remedies).unwrap()
}

/// How far a finding is beyond its limit.
fn beyond(finding: &Finding) -> f64 {
    finding.limit.map_or(0.0, |limit| (finding.found.value - limit.value).abs())
}

/// Whether the matter of a finding is silent, or lighter where no more was promised; all that is new
/// is lighter, or no more than good to know, and told; and nothing heavier is made worse.
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
    // What has no edge is found as few cases tell, and judged here as it stands.
    let edges = if finding.rule.has_edge() { edges(&mended).ok() } else { None };
    let after = judged_with(&mended, edges.as_ref()).unwrap();
    let left = after.iter().filter(|each| each.rule.is_about(finding.rule));
    let left = left.map(|each| each.severity).max();
    prop_assert_eq!(left, remedy.leaves);
    prop_assert!(left.is_none_or(|left| left < finding.severity));
    let rating = |each: &&Finding| {
        edges.is_some() || !matches!(each.rule, Rule::GasAboveChimneyRating(_))
    };
    for each in after.iter().filter(rating) {
        if each.rule.is_about(finding.rule) {
            continue;
        }
        let same = |old: &&Finding| old.rule.is_about(each.rule);
        let old = before.iter().filter(same).find(|old| each.severity <= old.severity);
        let Some(old) = old else {
            let is_lighter = each.severity < finding.severity;
            let is_light = is_lighter || each.severity == Severity::GoodToKnow;
            prop_assert!(is_light, "{} of {path} brings {each:?}", finding.rule.id());
            let names = |brought: &Brought| matches!(brought, Brought::Judged(told) if told.rule == each.rule);
            prop_assert!(remedy.brings.iter().any(names), "{path} hides {each:?}");
            continue;
        };
        // What is judged of the day is sought near another one.
        if finding.severity < each.severity && !each.rule.is_of_the_day() {
            let is_no_worse = each.severity < old.severity || beyond(each) <= beyond(old);
            prop_assert!(is_no_worse, "{} of {path} worsens {each:?}", finding.rule.id());
        }
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
        let told = |remedy| words::told(remedy, system);
        let part = Part::Found(key, remedies.into_iter().map(told).collect());
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
    // The code allows 4 in for thick walls, where notes of the trade advise 12 in.
    let advised = "It brings another finding, good to know under \u{201c}Is it safe?\u{201d}: ";
    let said = words::trades(remedy, System::Metric);
    assert!(said.starts_with(advised) && said.contains("110 mm"), "{said}");
}

#[test]
fn steps_are_those_of_a_builder() {
    let mut design = Design::demonstration();
    design.surroundings.side = 0.05;
    let wide = |system| {
        let all = found(&design, system).flat_map(|(_, remedies)| remedies);
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

/// A heater of few runs under a chimney of a low rating, and a facing as thin as it may be.
fn hot_at_the_edge() -> Design {
    let mut design = Design::demonstration();
    design.path.run_count = 3;
    design.fire.charge = 18.0;
    design
}

/// What speaks at the edge alone is mended by figures too, each of which passes with all samples; the
/// effort is bounded, so a value may be a few steps farther than it must.
#[test]
fn what_stands_at_the_edge_alone_has_remedies() {
    let mut design = hot_at_the_edge();
    // Rated a little above the nominal peak, so that only the edge passes it.
    let found = edges(&design).unwrap().peak_gas;
    design.chimney.rated_temperature = found.nominal + 0.5 * (found.edge - found.nominal);
    let findings = judged(&design).unwrap();
    let rating = findings
        .iter()
        .find(|finding| matches!(finding.rule, Rule::AtTheEdge(Hazard::Rating, _)));
    let rating = *rating.unwrap();
    assert_eq!(rating.severity, Severity::LookAgain);
    let remedies = remedies_of(&design, rating.rule);
    assert!(!remedies.is_empty());
    for remedy in &remedies {
        mends(&findings, &rating, remedy, &design).unwrap();
        // Far less of the move does not do.
        let number = number(remedy.field);
        let mut short = design.clone();
        (number.set)(&mut short, remedy.present + 0.2 * (remedy.value - remedy.present));
        let left = edges(&short).unwrap();
        let is_count = remedy.field == FieldId::RunCount;
        assert!(is_count || short.chimney.rated_temperature < left.peak_gas.edge, "{remedy:?}");
    }
}

/// What no wood and no wall of the usual ranges mends is said to have no remedy, at the edge too.
#[test]
fn what_nothing_mends_at_the_edge_has_no_remedy() {
    let mut design = hot_at_the_edge();
    design.chimney.rated_temperature = 373.15;
    let findings = judged(&design).unwrap();
    let rating = findings
        .iter()
        .find(|finding| matches!(finding.rule, Rule::AtTheEdge(Hazard::Rating, _)));
    assert_eq!(remedies_of(&design, rating.unwrap().rule), Vec::new());
}

/// A cold heater smokes for a minute when it is lit, which is only good to know. A bypass mends that, and
/// one that may be left open is itself good to know: it is offered, and says what it brings.
#[test]
fn what_is_good_to_know_is_mended_by_what_brings_no_more_than_that() {
    let design = Design::demonstration();
    let findings = judged(&design).unwrap();
    let smoke = findings.iter().find(|each| each.rule.id() == "smoke-at-lighting").unwrap();
    assert_eq!(smoke.severity, Severity::GoodToKnow);
    let remedies = remedies_of(&design, smoke.rule);
    let bypass = remedies.iter().find(|remedy| remedy.field == FieldId::Bypass).unwrap();
    mends(&findings, smoke, bypass, &design).unwrap();
    let [Brought::Judged(brought)] = bypass.brings.as_slice() else { panic!("{bypass:?}") };
    assert_eq!(brought.rule, Rule::Around(Around::BypassOpen));
    assert_eq!(brought.severity, Severity::GoodToKnow);
    let said = words::trades(bypass, System::Metric);
    assert!(said.contains("It brings another finding, good to know"), "{said}");
    assert!(said.contains("bypass left open"), "{said}");
}

/// A bleed slot lets gas of the firebox into the chimney. One as wide as the charge asks for makes the
/// gas of the demonstration too warm, which weighs more than a missing slot: it is not offered.
#[test]
fn what_is_good_to_know_is_not_mended_by_what_weighs_more() {
    let design = Design::demonstration();
    let findings = judged(&design).unwrap();
    let slot = findings.iter().find(|each| each.rule == Rule::Around(Around::BleedSmall));
    let slot = slot.unwrap();
    assert_eq!(slot.severity, Severity::GoodToKnow);
    assert_eq!(remedies_of(&design, slot.rule), Vec::new());
    let mut wider = design;
    // 1 cm2 for a kilogram: the least that mends it.
    wider.path.bleed_area = 1e-4 * wider.fire.charge;
    let after = judged(&wider).unwrap();
    assert!(after.iter().all(|each| each.rule != slot.rule));
    let heavier = |each: &Finding| {
        Severity::GoodToKnow < each.severity
            && findings.iter().all(|old| !old.rule.is_about(each.rule))
    };
    assert!(after.iter().any(heavier));
}
