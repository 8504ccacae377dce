//! What is said: the figure beside an answer is the one that decides, in the reader's units.

use longsmoke::analysis::{Analysis, analyze};
use longsmoke::design::{Design, RuleSet};
use longsmoke::rules::{Finding, Question, check};
use longsmoke::units::{System, kelvin};
use longsmoke::words;

/// The demonstration without anything to look at, then changed.
fn changed(change: impl Fn(&mut Design, &mut Analysis)) -> (Analysis, Vec<Finding>) {
    let mut design = Design::demonstration();
    let mut analysis = analyze(&design).unwrap();
    let fire = &mut analysis.height_of_fire;
    (fire.margin, fire.losses) = (9.0, 20.0);
    fire.chimney_inlet = kelvin(160.0);
    change(&mut design, &mut analysis);
    let findings = check(&design, &analysis);
    (analysis, findings)
}

#[track_caller]
fn decides(
    question: Question,
    system: System,
    expected: &str,
    change: impl Fn(&mut Design, &mut Analysis),
) {
    let (analysis, findings) = changed(change);
    assert_eq!(words::deciding(question, &analysis, &findings, system), expected);
}

#[test]
fn the_figure_beside_an_answer_decides_it() {
    use Question::{Draw, Heat, Safe};
    let metric = System::Metric;
    decides(Draw, metric, "9.0 Pa to spare", |_, _| ());
    decides(Safe, metric, "gas into the chimney 160 °C", |_, _| ());
    decides(Heat, metric, "81.0 % stays", |_, analysis| {
        analysis.height_of_fire.efficiency_lower = 0.81;
    });
    decides(Draw, metric, "draft 1.5 Pa short", |_, analysis| {
        analysis.height_of_fire.margin = -1.5;
    });
    // 3 Pa, or 15 % of 40 Pa.
    decides(Draw, metric, "2.0 Pa to spare, 3.0 Pa wanted", |_, analysis| {
        analysis.height_of_fire.margin = 2.0;
    });
    decides(Draw, metric, "5.0 Pa to spare, 6.0 Pa wanted", |_, analysis| {
        (analysis.height_of_fire.margin, analysis.height_of_fire.losses) = (5.0, 40.0);
    });
    decides(Draw, metric, "7.5 m/s in run 3, limit 6.0 m/s", |_, analysis| {
        analysis.height_of_fire.runs[2].velocity = 7.5;
    });
    decides(Safe, metric, "50 mm, limit 400 mm at the sides", |design, _| {
        design.site.rule_set = RuleSet::Europe;
        design.surroundings.side = 0.05;
        design.surroundings.behind = 0.5;
        design.surroundings.front = 2.0;
    });
    decides(Heat, metric, "wood with 35.0 % of water, limit 20.0 %", |design, _| {
        design.fire.moisture_fraction = 0.35;
    });
}

#[test]
fn smoke_in_the_room_is_named_beside_the_question_of_safety() {
    decides(Question::Safe, System::Metric, "draft 1.5 Pa short", |_, analysis| {
        analysis.height_of_fire.margin = -1.5;
    });
}

#[test]
fn what_was_not_checked_decides_unless_something_forbids_building() {
    let unchecked = |design: &mut Design, _: &mut Analysis| {
        design.site.rule_set = RuleSet::None;
        design.firebox.glass_fraction = 1.0;
    };
    decides(Question::Safe, System::Metric, "no clearance was checked", unchecked);
    let expected = "gas into the chimney 420 °C, limit 400 °C";
    decides(Question::Safe, System::Metric, expected, |design, analysis| {
        unchecked(design, analysis);
        analysis.height_of_fire.chimney_inlet = kelvin(420.0);
    });
}

/// What is merely good to know leaves a yes, and the figure on which it stands.
#[test]
fn good_to_know_does_not_decide() {
    decides(Question::Heat, System::Metric, "81.0 % stays", |_, analysis| {
        analysis.height_of_fire.efficiency_lower = 0.81;
        analysis.height_of_fire.runs[0].richardson = 3.0;
        analysis.house.mean_output = 0.0;
    });
}
