//! The heater under nine conditions: each moves what it says and nothing else, and nothing that
//! the design as a whole is told is lost among them.

use crate::laws::{Outcome, holds, usual};
use longsmoke::analysis::day::FacePlace;
use longsmoke::analysis::{Failure, analyze};
use longsmoke::design::building::Stated;
use longsmoke::design::examples::Example;
use longsmoke::design::{ChimneyDuty, Design};
use longsmoke::rules::{self, Answer, Burning, DayFigures, Judged, Known, Question, Rule};
use longsmoke::study::trials::{Trial, Tried, Verdict, has_mild_day, judge};
use longsmoke::units::{System, kelvin};
use longsmoke::words;
use longsmoke::words::passage::Block;
use proptest::prelude::*;

/// A day without anything to judge.
fn quiet() -> DayFigures {
    DayFigures {
        first_mean: kelvin(150.0),
        repeating_mean: kelvin(160.0),
        smoke_back: 0.0,
        smoke_later: 0.0,
        short_of_draft: 0.0,
        least_margin: 5.0,
        hottest_face: kelvin(70.0),
        hottest_place: FacePlace::Cap,
        ..DayFigures::default()
    }
}

fn verdict(design: &Design, trial: Trial) -> Verdict {
    judge(design, &Tried { trial, day: Ok(quiet()) }).unwrap()
}

#[test]
fn suction_and_wind_cost_exactly_what_they_are() {
    let mut design = Design::demonstration();
    design.site.house_suction = 4.0;
    design.site.wind_pressure = 0.0;
    let plain =
        verdict(&design, Trial::ColdDay).margin.min(verdict(&design, Trial::MildDay).margin);
    let fan = verdict(&design, Trial::Fan).margin;
    let wind = verdict(&design, Trial::Wind).margin;
    assert!((plain - fan - 4.0).abs() < 1e-9, "fan: {plain} to {fan}");
    assert!((plain - wind - 25.0).abs() < 1e-9, "wind: {plain} to {wind}");
}

#[test]
fn wet_wood_is_a_cooler_fire_with_a_higher_dew_point() {
    let design = Design::demonstration();
    // Wood of one winter's seasoning; drier is judged as stated.
    assert!((Trial::WetWood.apply(&design).fire.moisture_fraction - 0.30).abs() < 1e-12);
    let (dry, wet) = (verdict(&design, Trial::ColdDay), verdict(&design, Trial::WetWood));
    let (dry, wet) = (&dry.analysis.height_of_fire, &wet.analysis.height_of_fire);
    assert!(wet.firebox_outlet < dry.firebox_outlet);
    assert!(dry.dew_point < wet.dew_point);
}

#[test]
fn soot_and_ash_make_the_gas_faster_in_every_run() {
    let design = Design::demonstration();
    let (clean, foul) =
        (verdict(&design, Trial::ColdDay), verdict(&design, Trial::DueForCleaning));
    let runs = |verdict: &Verdict| verdict.analysis.height_of_fire.runs.clone();
    for (clean, foul) in runs(&clean).iter().zip(&runs(&foul)) {
        assert!(clean.velocity < foul.velocity);
    }
}

#[test]
fn a_cold_start_asks_about_the_draft_alone() {
    let design = Design::demonstration();
    let start = verdict(&design, Trial::ColdStart);
    let asked =
        Question::ALL.map(|question| start.answer(question, Trial::ColdStart).is_some());
    assert_eq!(asked, [true, false, false]);
    let mut weak = design;
    // A narrow flue that is cold for most of its height, and suction against it.
    weak.site.house_suction = 20.0;
    weak.path.run_count = 8;
    let start = verdict(&weak, Trial::ColdStart);
    assert_eq!(start.answer(Question::Draw, Trial::ColdStart), Some(Answer::No));
    assert!(start.findings.iter().all(|each| matches!(each.rule, Rule::ColdStartWeak(_))));
    assert!(start.margin < 0.0);
}

#[test]
fn a_fire_that_is_not_found_is_told() {
    let design = Design::demonstration();
    let day = Err(Failure::FireStarved);
    let failure = judge(&design, &Tried { trial: Trial::WetWood, day }).unwrap_err();
    assert!(words::failure(&failure, System::Metric).contains("goes out"));
}

/// Cold day, mild day and cold start together say what the design as a whole is told, but for what has
/// a row of its own.
#[test]
fn no_finding_is_lost_among_the_trials() {
    let together = [Trial::ColdDay, Trial::MildDay, Trial::ColdStart];
    holds(60, &usual(), |design| -> Outcome {
        let Ok(analysis) = analyze(&design) else {
            return Ok(());
        };
        let told = rules::judge(
            &design,
            &analysis,
            Known { day: Some(Ok(&quiet())), ..Known::default() },
        );
        let tried: Vec<_> = together
            .into_iter()
            .filter_map(|trial| judge(&design, &Tried { trial, day: Ok(quiet()) }).ok())
            .flat_map(|verdict| verdict.findings)
            .map(|finding| finding.rule.id())
            .collect();
        let of_its_row = |id: &str| id.starts_with("half-charge-") || id.starts_with("due-");
        for finding in told.iter().filter(|each| !of_its_row(each.rule.id())) {
            prop_assert!(tried.contains(&finding.rule.id()), "{} is lost", finding.rule.id());
        }
        Ok(())
    });
}

/// What the list says of half a charge and of a heater that is due for cleaning is what their rows say,
/// and no row says it of anything else.
#[test]
fn rows_say_what_the_list_says_of_them() {
    let row_of = |rule| match rule {
        Rule::ChimneyWallWet(Burning::HalfCharge) => {
            Some((Trial::HalfCharge, Rule::ChimneyWallWet(Burning::Charge)))
        }
        Rule::ChimneyWallFreezing(Burning::HalfCharge) => {
            Some((Trial::HalfCharge, Rule::ChimneyWallFreezing(Burning::Charge)))
        }
        Rule::DraftNegative(judged) if judged.due => {
            Some((Trial::DueForCleaning, Rule::DraftNegative(Judged { due: false, ..judged })))
        }
        Rule::DraftReserveSmall(judged) if judged.due => Some((
            Trial::DueForCleaning,
            Rule::DraftReserveSmall(Judged { due: false, ..judged }),
        )),
        _ => None,
    };
    let mut seen = [0, 0];
    let designs = [
        |design: &mut Design| design.chimney.duty = ChimneyDuty::Dry,
        // A chimney that is bare for most of its height.
        |design: &mut Design| {
            design.chimney.insulation_thickness = 0.01;
            design.chimney.outdoor_length = 2.0;
        },
        // A draft that suffices with clean runs, and with little to spare then.
        |design: &mut Design| *design = Example::TightHouse.design(),
    ];
    for change in designs {
        let mut design = Design::demonstration();
        change(&mut design);
        let analysis = analyze(&design).unwrap();
        let day = quiet();
        let known = Known { day: Some(Ok(&day)), ..Known::default() };
        for told in rules::judge(&design, &analysis, known) {
            let Some((trial, rule)) = row_of(told.rule) else { continue };
            let row = verdict(&design, trial).findings;
            let said = row.iter().find(|each| each.rule == rule).unwrap();
            assert_eq!((said.found, said.limit), (told.found, told.limit), "{rule:?}");
            if trial == Trial::HalfCharge {
                assert_eq!(told.severity, said.severity, "{rule:?}");
            }
            assert!(told.severity <= said.severity, "{rule:?}");
            seen[usize::from(trial == Trial::DueForCleaning)] += 1;
        }
        for trial in Trial::ALL {
            let row = verdict(&design, trial).findings;
            assert!(row.iter().all(|each| row_of(each.rule).is_none()), "{trial:?}");
        }
    }
    assert!(0 < seen[0] && 0 < seen[1], "{seen:?}");
}

/// Days on which something is wrong, each in another way.
fn bad_days() -> Vec<DayFigures> {
    let smoke = |smoke_back, smoke_later| DayFigures { smoke_back, smoke_later, ..quiet() };
    vec![
        smoke(600.0, 0.0),
        smoke(900.0, 300.0),
        DayFigures { hottest_face: kelvin(120.0), ..quiet() },
        DayFigures { repeating_mean: kelvin(260.0), ..quiet() },
        DayFigures { first_mean: kelvin(100.0), ..quiet() },
    ]
}

/// What the row of the mild day says against the heater, the answers on top say as well, and weigh
/// it alike.
#[test]
fn the_mild_day_is_in_the_answers() {
    holds(40, &usual(), |design| -> Outcome {
        let Ok(analysis) = analyze(&design) else {
            return Ok(());
        };
        for day in bad_days().into_iter().map(Ok).chain([Err(Failure::FireStarved)]) {
            let quiet = quiet();
            let known = Known { day: Some(Ok(&quiet)), mild: Some(day.as_ref()), edges: None };
            let told = rules::judge(&design, &analysis, known);
            let tried = Tried { trial: Trial::MildDay, day };
            let Ok(verdict) = judge(&design, &tried) else {
                prop_assert_eq!(rules::answer(Question::Draw, &told), Answer::No);
                continue;
            };
            for finding in verdict.findings {
                let id = finding.rule.id();
                // A wall that freezes on the day of the design is wet as well.
                let says = |rule: Rule| {
                    rule.id() == id
                        || (finding.rule, rule)
                            == (
                                Rule::ChimneyWallWet(Burning::Charge),
                                Rule::ChimneyWallFreezing(Burning::Charge),
                            )
                };
                let is_told = told
                    .iter()
                    .any(|each| says(each.rule) && finding.severity <= each.severity);
                prop_assert!(is_told || !has_mild_day(&design), "{id}");
            }
        }
        Ok(())
    });
}

/// Trials move weather, wood and use; what the builder decides stays, but for ash and soot.
#[test]
fn a_trial_leaves_what_the_builder_decides() {
    let design = Design::demonstration();
    for trial in Trial::ALL {
        let tried = trial.apply(&design);
        assert_eq!(tried.shell, design.shell, "{trial:?}");
        assert_eq!(tried.firebox, design.firebox, "{trial:?}");
        assert_eq!(tried.surroundings, design.surroundings, "{trial:?}");
        if trial != Trial::DueForCleaning {
            assert_eq!(
                (&tried.path, &tried.chimney),
                (&design.path, &design.chimney),
                "{trial:?}"
            );
        }
    }
}

#[test]
fn a_trial_survives_its_words() {
    for trial in Trial::ALL {
        let with_a_wall = DayFigures { wall_behind: Some(kelvin(60.0)), ..quiet() };
        for day in [Ok(quiet()), Ok(with_a_wall), Err(Failure::NotPeriodic)] {
            let tried = Tried { trial, day };
            assert_eq!(tried.to_string().parse(), Ok(tried));
        }
    }
    for broken in ["", "cold_day", "cold_day 0 1 2", "no_day 0 1 2 3 4", "cold_day failed"] {
        assert!(broken.parse::<Tried>().is_err(), "{broken}");
    }
}

/// Each cell opens its findings, each with what to change and its source.
#[test]
fn every_cell_opens_its_findings() {
    let mut design = Design::demonstration();
    // Something to find in every row.
    (design.path.run_count, design.firebox.inlet_area) = (9, 0.004);
    design.chimney.cleanout = Stated::No;
    let mut opened = 0;
    for trial in Trial::ALL {
        let verdict = verdict(&design, trial);
        let tried = Tried { trial, day: Ok(quiet()) };
        let passage = words::trials::passage(&design, &[tried], System::Metric);
        let Some(Block::Table(table)) =
            passage.blocks.iter().find(|block| matches!(block, Block::Table(_)))
        else {
            panic!("{passage:?}")
        };
        let cells = table.rows[0].iter().skip(1);
        for (question, cell) in Question::ALL.into_iter().zip(cells) {
            if verdict.answer(question, trial).is_none() {
                assert_eq!(cell.more, None, "{trial:?}");
                continue;
            }
            let said = cell.more.as_ref().unwrap().plain();
            let mine = verdict
                .findings
                .iter()
                .filter(|each| each.rule.questions().contains(&question));
            for finding in mine {
                opened += 1;
                let text = words::finding(finding, System::Metric);
                for part in [text.title.as_str(), text.remedy, finding.source.text()] {
                    assert!(said.contains(part), "{trial:?} {question:?}: {part}");
                }
            }
        }
    }
    assert!(2 * Trial::ALL.len() < opened, "{opened}");
}
