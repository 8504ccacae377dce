//! What is said: the figure beside an answer is the one that decides, in the reader's units.

use longsmoke::analysis::extrapolation::{Extrapolation, Formula, Stretch};
use longsmoke::analysis::{Analysis, analyze};
use longsmoke::design::field::{FIELDS, FieldId, Kind, Problem, ProblemKind, check_number};
use longsmoke::design::{Design, RuleSet, document};
use longsmoke::rules::{Finding, Lever, Question, Rule, check};
use longsmoke::sources::Trust;
use longsmoke::units::{System, at_least, at_most, editable, kelvin, parse};
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
    decides(Question::Safe, System::Metric, "no clearance of a code was checked", unchecked);
    let expected = "gas into the chimney 420 °C, limit 538 °C";
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

const SYSTEMS: [System; 2] = [System::Metric, System::Us];

/// What a message calls allowed is allowed, and near the limit that it rounds.
#[test]
fn a_limit_that_is_named_can_be_typed() {
    for field in &FIELDS {
        let Kind::Number(number) = &field.kind else { continue };
        for system in SYSTEMS {
            for range in [&number.possible, &number.usual] {
                let (low, high) = (*range.start(), *range.end());
                let texts = [
                    at_least(low, number.quantity, system),
                    at_most(high, number.quantity, system),
                ];
                for (text, limit) in texts.iter().zip([low, high]) {
                    let value = parse(text, number.quantity, system).unwrap();
                    assert!(check_number(field.id, number, value).is_none(), "{text}");
                    let near = (value - limit).abs() <= 0.05 * limit.abs();
                    assert!(near, "{}: {text} for {limit}", field.path);
                }
            }
        }
    }
}

#[test]
fn a_field_typed_again_as_it_is_shown_stays_within_half_a_millimeter() {
    let design = Design::demonstration();
    for field in &FIELDS {
        let Kind::Number(number) = &field.kind else { continue };
        for system in SYSTEMS {
            let ends =
                [&number.possible, &number.usual].map(|range| [*range.start(), *range.end()]);
            for value in ends.concat().into_iter().chain([(number.get)(&design)]) {
                let text = editable(value, number.quantity, system);
                let again = parse(&text, number.quantity, system).unwrap();
                let bound = if field.path.ends_with("_m") { 5e-4 } else { 1e-4 * value.abs() };
                assert!(
                    check_number(field.id, number, again).is_none(),
                    "{}: {text}",
                    field.path
                );
                assert!((again - value).abs() <= bound, "{}: {text} for {value}", field.path);
            }
        }
    }
}

#[test]
fn messages_at_a_field_speak_in_feet_and_inches() {
    let kind = ProblemKind::OutOfRange { value: 4.572, low: 0.2, high: 4.0 };
    let problem = Problem { field: FieldId::RunLength, kind };
    let said = "Run length must be 8\" to 13' 1\". You gave 15' 0\".";
    assert_eq!(words::problem(&problem, System::Us), said);
    let said = "Run length must be 0.20 m to 4.00 m. You gave 4.572 m.";
    assert_eq!(words::problem(&problem, System::Metric), said);
    let said = "Run length must be a number: 0.20 m to 4.00 m.";
    assert_eq!(words::not_a_number(FieldId::RunLength, System::Metric), said);
    // 2 in and 4 in.
    decides(Question::Safe, System::Us, "2 in, limit 4 in at the sides", |design, _| {
        design.surroundings.side = 0.0508;
        design.surroundings.behind = 1.0;
    });
}

#[test]
fn an_unusual_input_is_shown_beside_its_usual_range() {
    let say = |change: fn(&mut Design), id: FieldId, system: System| {
        let (_, findings) = changed(|design, _| change(design));
        let rule = Rule::InputUnusual(id);
        let finding = findings.into_iter().find(|finding| finding.rule == rule).unwrap();
        assert_eq!(finding.source.trust, Trust::CommonPractice);
        (words::finding(&finding, system).title, rule.question())
    };
    let (text, question) =
        say(|design| design.path.run_count = 12, FieldId::RunCount, System::Metric);
    assert_eq!(text, "Runs: 12 is outside the usual range of 1 to 8.");
    assert_eq!(question, Question::Heat);
    let (text, question) =
        say(|design| design.chimney.mouth_height = 20.0, FieldId::MouthHeight, System::Metric);
    let said = "Chimney mouth height: 20.00 m is outside the usual range of 4.00 m to 15.00 m.";
    assert_eq!((text.as_str(), question), (said, Question::Draw));
    // 0.254 m are 10 in; 5 m are 196.85 in, 0.3 m are 11.81 in.
    let (text, question) =
        say(|design| design.surroundings.front = 0.254, FieldId::FrontDistance, System::Us);
    let said =
        "Clearance in front of the door: 10 in is outside the usual range of 12 in to 196 in.";
    assert_eq!((text.as_str(), question), (said, Question::Safe));
}

#[test]
fn without_runs_the_lever_is_their_number() {
    let mut design = Design::demonstration();
    design.path.run_count = 0;
    let findings = check(&design, &analyze(&design).unwrap());
    let finding = findings.into_iter().find(|finding| finding.rule == Rule::NoRuns).unwrap();
    assert_eq!(finding.lever, Some(Lever { field: FieldId::RunCount, raise: true }));
    assert_eq!(words::finding(&finding, System::Metric).remedy, "Add a run.");
}

/// What a reader of JSON and a formula would say stays out of what a mason reads.
#[test]
fn sentences_are_plain() {
    let said =
        |text: &str| words::document_error(&document::read(text).unwrap_err(), System::Metric);
    let text = "{\n \"heater_design_version\": 1,\n \"name\": \"Nor";
    let cut = "This file is cut off, was changed by hand or holds no heater at all (line 3, column 13).";
    assert_eq!(said(text), cut);
    assert_eq!(said("{}"), "This file holds no heater of ours.");
    let newer = "This file was made by a newer version of Longsmoke than this one.";
    assert_eq!(said("{\"heater_design_version\": 99}"), newer);
    let text = "{\"heater_design_version\": 1,\n\"fire\": {\"charge_kg\": \"x\"}}";
    assert_eq!(
        said(text),
        "Charge cannot be read (line 2: fire.charge_kg: a number expected)."
    );
    let text = "{\"heater_design_version\": 1,\n\"fire\": {\"charge_kg\": -3}}";
    let refused = "Charge must be 0.5 kg to 80.0 kg. You gave -3 kg. (line 2: fire.charge_kg)";
    assert_eq!(said(text), refused);

    let (_, findings) = changed(|design, analysis| {
        analysis.height_of_fire.extrapolations.push(Extrapolation {
            formula: Formula::ForcedConvection,
            stretch: Stretch::Run(1),
            value: 204.54,
            from: 0.0,
            to: 1.0,
        });
        design.path.run_count = 0;
        design.firebox.height = 0.2;
    });
    assert!(
        findings
            .iter()
            .any(|finding| finding.rule == Rule::OutsideFormula(Formula::ForcedConvection))
    );
    for finding in findings {
        let text = words::finding(&finding, System::Metric);
        let all = [&text.title, text.reason, text.remedy, finding.source.text()].join(" ");
        for word in ["204", " ratio", "dynamic pressure", "m_B", "sqrt"] {
            assert!(!all.contains(word), "{all}");
        }
    }
    for field in &FIELDS {
        assert!(!words::help(field.id).contains("dynamic"), "{}", field.path);
    }
}
