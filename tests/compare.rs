//! Variants side by side are the designs that they say, and the best of them is the best.

use longsmoke::analysis::analyze;
use longsmoke::analysis::day::{DayState, Setup, day};
use longsmoke::design::field::FieldId;
use longsmoke::design::{ChimneyDuty, Design};
use longsmoke::rules::{DayFigures, Known, Question, answer, judge};
use longsmoke::service::VariantsTold;
use longsmoke::service::news::News;
use longsmoke::service::order::Job;
use longsmoke::service::shared::Shared;
use longsmoke::study::compare::{Best, Column, Compare, End, LEAST_GAIN, best, crossing};
use longsmoke::study::figures::{COARSE, Days, Figures, Line};
use longsmoke::study::matters::{What, effects, ranked};
use longsmoke::study::pinned::{MOST, Pin, beside, differing};
use longsmoke::study::sweep::{Axis, Sweep};
use longsmoke::study::trials::mild_day;
use longsmoke::study::variant::{apply, read_puts};
use longsmoke::units::{System, kelvin};
use longsmoke::words;

fn with_runs(runs: usize) -> Design {
    let mut design = Design::demonstration();
    design.path.run_count = runs;
    design
}

/// Figures, answers and mouth are those of the design by itself, taken from the results of the
/// analysis one by one.
#[test]
fn each_column_is_the_design_alone() {
    for column in Compare::new(&Design::demonstration()) {
        let design = with_runs(column.runs);
        let found = column.result.unwrap();
        let analysis = analyze(&design).unwrap();
        let same = |setup: &Setup| {
            let day = day(&design, setup).unwrap();
            let state: &DayState = &day.periodic;
            let cold = &analysis.conditions.cold_start;
            let alone = [
                (Line::RunsOutlet, analysis.height_of_fire.runs_outlet),
                (Line::ChimneyInlet, state.burn_mean.chimney_inlet),
                (Line::Efficiency, state.efficiency_lower),
                (Line::MarginHot, analysis.height_of_fire.margin),
                (Line::MarginCold, cold.design_day.margin.min(cold.mild_day.margin)),
                (Line::MarginMild, analysis.conditions.mild_day.stated.margin),
                (Line::MouthWall, analysis.height_of_fire.chimney_mouth_wall),
                (Line::HottestFace, state.peak.surface.temperature),
                (Line::Output, state.energy.to_room() / state.period_s),
                (Line::HalfWarm, 3600.0 * day.hours_to_half.unwrap()),
                (Line::Mass, analysis.structure.heater),
            ];
            let judged = DayFigures::new(&design, &day.first_fire, &day.periodic);
            let mild = mild_day(&design, setup);
            let known = Known {
                day: Some(Ok(&judged)),
                mild: mild.as_ref().map(Result::as_ref),
                edges: None,
            };
            let findings = judge(&design, &analysis, known);
            let answers = Question::ALL.map(|question| answer(question, &findings));
            alone.iter().all(|(line, value)| found.line(*line) == Some(*value))
                && answers == found.verdicts.map(|verdict| verdict.answer)
        };
        assert!(same(&COARSE) || same(&Setup::STANDARD), "{} runs", column.runs);
    }
}

/// What the coarse day is stated to be off by, against the day of the page.
#[test]
fn the_coarse_day_agrees_with_that_of_the_page() {
    for runs in [1, 4, 8] {
        let design = with_runs(runs);
        let [coarse, standard] = [&COARSE, &Setup::STANDARD].map(|s| day(&design, s).unwrap());
        let off = |of: fn(&DayState) -> f64| of(&coarse.periodic) - of(&standard.periodic);
        assert!(off(|day| day.burn_mean.chimney_inlet).abs() < 1.0, "{runs} runs");
        assert!(off(|day| day.peak.surface.temperature).abs() < 1.0, "{runs} runs");
        let end = off(|day| day.wall_when_burned_out().unwrap());
        assert!(end.abs() < 2.0, "{runs} runs: {end}");
        let first = coarse.first_fire.burn_mean.chimney_inlet
            - standard.first_fire.burn_mean.chimney_inlet;
        assert!(first.abs() < 1.0, "{runs} runs");
        let share = |of: fn(&DayState) -> f64| off(of) / of(&standard.periodic);
        assert!(share(|day| day.efficiency_lower).abs() < 0.01, "{runs} runs");
        assert!(share(|day| day.energy.to_room()).abs() < 0.01, "{runs} runs");
        let hours = coarse.hours_to_half.unwrap() / standard.hours_to_half.unwrap();
        assert!((hours - 1.0).abs() < 0.05, "{runs} runs: {hours}");
    }
}

#[test]
fn the_verdict_of_a_column_is_that_of_the_page() {
    for column in Compare::new(&Design::demonstration()) {
        let design = with_runs(column.runs);
        let analysis = analyze(&design).unwrap();
        let day = day(&design, &Setup::STANDARD).unwrap();
        let judged = DayFigures::new(&design, &day.first_fire, &day.periodic);
        let mild = mild_day(&design, &Setup::STANDARD);
        let known = Known {
            day: Some(Ok(&judged)),
            mild: mild.as_ref().map(Result::as_ref),
            edges: None,
        };
        let findings = judge(&design, &analysis, known);
        let answers = Question::ALL.map(|question| answer(question, &findings));
        let column = column.result.unwrap().verdicts.map(|verdict| verdict.answer);
        assert_eq!(answers, column);
    }
}

/// A heater of whose columns several answer yes three times.
fn several() -> Vec<Column> {
    let mut design = Design::demonstration();
    let path = &mut design.path;
    (path.run_length, path.run_width, path.run_height) = (1.5, 0.13, 0.20);
    (path.reversal_coefficient, path.bypass_area) = (1.5, 0.02);
    let chimney = &mut design.chimney;
    (chimney.mouth_height, chimney.flue_width, chimney.duty) = (9.5, 0.24, ChimneyDuty::Wet);
    Compare::new(&design).collect()
}

#[test]
fn the_best_answers_yes_and_its_next_is_not_worth_it() {
    let columns = several();
    let of = |runs: usize| columns.iter().find(|c| c.runs == runs).unwrap();
    let figures = |runs| *of(runs).result.as_ref().unwrap();
    let Some(Best::Passes { runs, sensible: (fewest, most), end }) = best(&columns) else {
        panic!("{:?}", best(&columns));
    };
    assert!(fewest < most && (fewest..=most).contains(&runs), "{fewest}..{most}");
    assert!((fewest..=most).all(|runs| figures(runs).passes()));
    for fewer in fewest..runs {
        assert!(LEAST_GAIN <= figures(fewer + 1).efficiency() - figures(fewer).efficiency());
    }
    match end {
        End::GainsLittle(gain) => {
            assert!(gain < LEAST_GAIN);
            let found = figures(runs + 1).efficiency() - figures(runs).efficiency();
            assert!((gain - found).abs() < 1e-12);
        }
        End::Fails(finding) => {
            assert_eq!(figures(runs + 1).heaviest(), Some(&finding));
        }
        end => panic!("{end:?}"),
    }
}

#[test]
fn a_run_that_does_not_fit_ends_the_range() {
    let mut columns = several();
    let Some(Best::Passes { runs, .. }) = best(&columns) else { panic!() };
    columns.retain(|column| column.runs <= runs);
    assert!(matches!(best(&columns), Some(Best::Passes { end: End::Last, .. })));
    let mut design = Design::demonstration();
    design.chimney.mouth_height = 3.0;
    design.chimney.outdoor_length = 0.0;
    let columns: Vec<Column> = Compare::new(&design).collect();
    assert!(columns.iter().any(|column| column.result.is_err()));
}

#[test]
fn without_a_yes_the_least_wrong_is_named() {
    let mut design = Design::demonstration();
    design.surroundings.front = 0.4;
    let columns: Vec<Column> = Compare::new(&design).collect();
    let Some(Best::None { runs, finding }) = best(&columns) else { panic!() };
    assert_eq!((runs, finding.rule.id()), (5, "front-close"));
    assert_eq!(best(&[]), None);
}

#[test]
fn a_sweep_changes_its_inputs_alone() {
    let design = Design::demonstration();
    let length = Axis::new(FieldId::RunLength, Some(1.6..=2.0), 3);
    let runs = Axis::new(FieldId::RunCount, Some(3.0..=5.0), 9);
    assert_eq!(runs.values, [3.0, 4.0, 5.0]);
    let sweep = Sweep::new(&design, vec![length, runs]);
    assert_eq!(sweep.len(), 9);
    let (changed, values) = sweep.design(5).unwrap();
    let mut expected = design.clone();
    (expected.path.run_length, expected.path.run_count) = (1.8, 5);
    assert_eq!((changed, values), (expected, vec![1.8, 5.0]));
    assert_eq!(sweep.design(9), None);
    // The present design is a point of its own sweep.
    let point = sweep.point(8).unwrap().result.unwrap();
    assert_eq!(Ok(point), Column::new(&design, 5).result);
    let layout = Axis::new(FieldId::Layout, None, 2);
    assert_eq!(layout.values.len(), 3);
    let outdoors = Axis::new(FieldId::OutdoorTemperature, None, 2);
    assert_eq!(outdoors.values, [kelvin(-35.0), kelvin(20.0)]);
}

/// By hand from two runs that differ in nothing else: one run more is one more ring of core, one
/// baffle and one ring of facing, which goes around firebox and runs: both begin at the left of the
/// firebox, whose walls are thicker; it is deeper than the runs, and these are longer.
#[test]
fn a_run_more_takes_the_bricks_of_its_walls() {
    let [four, five] = [4, 5].map(|runs| Column::new(&Design::demonstration(), runs));
    let more = |line| {
        let of = |column: &Column| column.result.as_ref().unwrap().line(line).unwrap();
        of(&five) - of(&four)
    };
    let design = Design::demonstration();
    let (path, shell) = (&design.path, &design.shell);
    let core = shell.core_thickness;
    let (length, width) = (path.run_length + 2.0 * core, path.run_width + 2.0 * core);
    let walls = (length * width - path.run_length * path.run_width) * path.run_height;
    let slot = path.run_height * path.run_width;
    let baffle = path.baffle_thickness * (length * width - slot);
    // Both are 64 mm thick, firebrick on edge: a face of 9 1/16 x 4 9/16 in.
    let faces = walls / core + baffle / path.baffle_thickness;
    let face = 0.0254_f64.powi(2) * 9.0625 * 4.5625;
    assert!((more(Line::CoreBricks) - faces / face).abs() <= 1.0);
    let skin = shell.facing_thickness;
    let wall = design.firebox.wall_thickness;
    let (long, deep) = (wall + path.run_length + core, design.firebox.depth + 2.0 * wall);
    let girth = 2.0 * (long + deep) + 8.0 * shell.gap + 4.0 * skin;
    let ring = girth * (path.run_height + path.baffle_thickness);
    // 115 mm thick, brick of 240 x 115 x 71 mm with joints of 10 mm: a face of 250 x 81 mm.
    assert!((more(Line::FacingBricks) - ring / (0.250 * 0.081)).abs() <= 1.0);
}

#[test]
fn draft_and_heat_cross_where_the_columns_say() {
    let columns: Vec<Column> = Compare::new(&Design::demonstration()).collect();
    let figures = |runs: usize| *columns[runs - 1].result.as_ref().unwrap();
    let crossing = crossing(&columns);
    let (last, has, lacks) = crossing.draft.unwrap();
    assert!((1..=last).all(|runs| 0.0 <= figures(runs).spare));
    assert!(figures(last + 1).spare < 0.0);
    assert_eq!((has, lacks), (figures(last).spare, figures(last + 1).spare));
    if let Some((first, gain)) = crossing.gain {
        assert!(gain < LEAST_GAIN);
        let gained = |runs| figures(runs + 1).efficiency() - figures(runs).efficiency();
        assert!((1..first).all(|runs| LEAST_GAIN <= gained(runs)));
    }
    let said = words::compare::passage(&columns, System::Metric).plain();
    assert!(said.contains(&format!("The draft lasts for {last} runs")), "{said}");
    assert!(said.contains("(best)"), "{said}");
}

#[test]
fn a_column_that_cannot_stand_is_told_so() {
    let mut design = Design::demonstration();
    design.chimney.mouth_height = 3.0;
    design.chimney.outdoor_length = 0.0;
    let columns: Vec<Column> = Compare::new(&design).collect();
    let failed = columns.iter().filter(|column| column.result.is_err()).count();
    assert!(0 < failed && failed < columns.len());
    let said = words::compare::passage(&columns, System::Us).plain();
    assert_eq!(said.matches("must reach above the heater").count(), failed, "{said}");
}

#[test]
fn pinned_designs_show_what_differs() {
    let first = Design::demonstration();
    let mut other = with_runs(4);
    other.name = "Four runs".into();
    other.path.run_length = 1.8;
    let pins: Vec<Pin> = beside(&first, &[other.clone(), first.clone()])
        .into_iter()
        .map(|design| Pin { result: Figures::new(&design), design })
        .collect();
    assert_eq!(differing(&pins), [FieldId::RunCount, FieldId::RunLength]);
    assert_eq!(differing(&pins[..1]), []);
    assert_eq!(beside(&first, &vec![other; 9]).len(), 1 + MOST);
    // Two of the same name are told apart.
    let names = ["North farmhouse", "Four runs", "North farmhouse (3)"];
    assert_eq!(words::pinned::names(&pins), names);
    let said = words::pinned::passage(&pins, System::Metric).plain();
    // Two meters against 1.8 m, five runs against four.
    assert!(said.contains("Four runs") && said.contains("1.8 m (\u{2212}0.2 m)"), "{said}");
    assert!(said.contains("4 (\u{2212}1)"), "{said}");
    // A difference is that of the figures that are shown, and stands only where they differ.
    let mass = |pin: &Pin| pin.result.as_ref().unwrap().line(Line::Mass).unwrap();
    let less = mass(&pins[0]).round() - mass(&pins[1]).round();
    assert!(said.contains(&format!("(\u{2212}{less:.0})")), "{less} {said}");
}

/// A size matters by what the analysis says at both of its ends, by itself.
#[test]
fn what_matters_is_what_the_analysis_says() {
    let design = Design::demonstration();
    let effects = effects(&design).unwrap();
    let nominal = analyze(&design).unwrap().height_of_fire.chimney_inlet;
    let width = What::Size(FieldId::RunWidth);
    let found = effects.iter().find(|effect| effect.what == width).unwrap();
    for (by, change) in [(-0.005, found.changes[2].0), (0.005, found.changes[2].1)] {
        let mut varied = design.clone();
        varied.path.run_width += by;
        let inlet = analyze(&varied).unwrap().height_of_fire.chimney_inlet;
        assert!((inlet - nominal - change).abs() < 1e-9, "{by}");
    }
    for question in Question::ALL {
        let ranked = ranked(&effects, question);
        let sizes: Vec<f64> = ranked.iter().map(|each| each.most(question).abs()).collect();
        assert!(sizes.is_sorted_by(|one, other| other <= one));
        assert!(ranked.iter().any(|each| matches!(each.what, What::Rough(_))));
        assert!(ranked.iter().any(|each| matches!(each.what, What::Size(_))));
    }
    // A bleed slot that is not there comes out so.
    assert!(effects.iter().all(|effect| effect.what != What::Size(FieldId::Bleed)));
    let said = words::matters::passage(&effects, System::Us).plain();
    assert!(said.contains("common practice"), "{said}");
}

#[test]
fn sweep_and_map_are_told_point_by_point() {
    let design = Design::demonstration();
    let told = |job: Job| {
        let news = job.news(&design).filter_map(|news| match news {
            News::Found(words) => Some(words.parse::<VariantsTold>().unwrap()),
            _ => None,
        });
        news.collect::<Vec<_>>()
    };
    let swept = told(Job::Sweep(FieldId::RunLength, 3));
    let [.., VariantsTold::Seen(seen), VariantsTold::Read(read)] = swept.as_slice() else {
        panic!("{swept:?}");
    };
    // A picture for each of three values, and the passage.
    assert_eq!(swept.len(), 4);
    let [first, ..] = seen.metric.readings.as_slice() else { panic!("{seen:?}") };
    let puts = read_puts(&first.1).unwrap();
    assert_eq!(puts, [(FieldId::RunLength, 0.5)]);
    let mut short = design.clone();
    apply(&puts, &mut short);
    let kept = 100.0 * Figures::new(&short).unwrap().efficiency();
    assert!(first.0.contains(&format!("{kept:.1} % of the heat stays")), "{}", first.0);
    assert_eq!(read.metric.title, words::label(FieldId::RunLength));
    let mapped = told(Job::Map(FieldId::Layout, FieldId::AirControl));
    // Three layouts by two kinds of air: a picture a row, and the passage.
    assert_eq!(mapped.len(), 4);
    let Some(VariantsTold::Read(read)) = mapped.last() else { panic!("{mapped:?}") };
    assert!(read.metric.plain().contains("of 6 pairs"), "{}", read.metric.plain());
}

/// Two who find the pieces of a job, each with nothing but the order and a piece, tell what one alone
/// tells: every column and the passage.
#[test]
fn a_job_that_is_shared_tells_what_one_alone_tells() {
    let design = Design::demonstration();
    let last = |news: Vec<News>| match news.into_iter().next_back() {
        Some(News::Found(words)) => words,
        other => panic!("{other:?}"),
    };
    for job in [Job::Compare, Job::Map(FieldId::Layout, FieldId::AirControl)] {
        let alone = last(job.clone().news(&design).collect());
        let Shared { mut lead, mut help } = job.shared(&design).unwrap();
        let mut other = job.shared(&design).unwrap().help;
        let mut told = lead.begin();
        loop {
            let wanted = lead.wanted();
            // The last goes to the other one, who answers first.
            let Some(piece) = wanted.last() else { break };
            told.extend(lead.take(piece, &other.find(piece)));
            if let Some(piece) = lead.wanted().first() {
                told.extend(lead.take(piece, &help.find(piece)));
            }
        }
        assert_eq!(last(told), alone);
    }
}

#[test]
fn days_survive_their_words() {
    for runs in [1, 5, 8] {
        let design = with_runs(runs);
        for days in [Days::new(&design).unwrap(), Days::roughly(&design).unwrap()] {
            assert_eq!(Days::read(&design, &days.to_string()), Some(days), "{runs} runs");
        }
    }
    for words in ["", "1 2 3", "- - - - - - - - - - - - -"] {
        assert_eq!(Days::read(&with_runs(5), words), None, "{words}");
    }
}
