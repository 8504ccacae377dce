//! What is suggested holds: it is judged alone, it is the best of a small space tried one by one,
//! and it keeps what was given.

use longsmoke::analysis::analyze;
use longsmoke::analysis::day::{Setup, day};
use longsmoke::design::Design;
use longsmoke::design::field::{FieldId, check};
use longsmoke::rules::{
    Answer, DayFigures, Finding, Known, Question, Rule, Severity, answer, check as check_rules,
    judge,
};
use longsmoke::service::VariantsTold;
use longsmoke::service::news::News;
use longsmoke::service::order::Job;
use longsmoke::study::edges::Study;
use longsmoke::study::figures::{Figures, Line};
use longsmoke::study::suggest::{
    Aim, Conflict, MOST, NEAREST, Outcome, Part, Proposal, Puts, Space, Suggest, Wish, labor,
    with,
};
use longsmoke::study::trials::{Trial, judge as judge_trial, mild_day, try_one};
use longsmoke::study::variant::words_of;
use longsmoke::units::System;
use longsmoke::words;
use std::collections::BTreeMap;

fn parts(design: &Design, wish: Wish, space: Option<Space>) -> (Vec<Proposal>, Outcome) {
    let space = space.unwrap_or_else(|| Space::around(design));
    let (mut found, mut end) = (Vec::new(), None);
    for part in Suggest::within(design, wish, space) {
        match part {
            Part::Done(done, of) => assert!(done <= of),
            Part::Found(proposal) => found.push(*proposal),
            Part::End(outcome) => end = Some(*outcome),
        }
    }
    (found, end.unwrap())
}

/// As the page judges it, each study by itself and as finely as the page shows it.
fn judged_alone(design: &Design) -> [Answer; 3] {
    let analysis = analyze(design).unwrap();
    let found = day(design, &Setup::STANDARD).unwrap();
    let figures = DayFigures::new(design, &found.first_fire, &found.periodic);
    let mild = mild_day(design, &Setup::STANDARD);
    let study = Study::new(design).unwrap();
    let samples: Vec<_> = (0..study.len()).filter_map(|index| study.sample(index)).collect();
    let edges = study.sum_up(&samples).unwrap();
    let known = Known {
        day: Some(Ok(&figures)),
        mild: mild.as_ref().map(Result::as_ref),
        edges: Some(Ok(&edges)),
    };
    let findings = judge(design, &analysis, known);
    Question::ALL.map(|question| answer(question, &findings))
}

/// Whether every question that a condition asks is answered yes.
fn passes(design: &Design, trial: Trial) -> bool {
    let verdict = judge_trial(design, &try_one(design, trial)).unwrap();
    let mut answers = Question::ALL.into_iter().filter_map(|each| verdict.answer(each, trial));
    answers.all(|answer| answer == Answer::Yes)
}

#[test]
fn each_suggestion_judged_alone_answers_yes_three_times() {
    let design = Design::demonstration();
    let (found, outcome) = parts(&design, Wish::default(), None);
    assert!(!outcome.proposals.is_empty() && outcome.proposals.len() <= MOST);
    assert!(outcome.nearest.is_empty());
    for proposal in &outcome.proposals {
        assert!(found.iter().any(|told| told.puts == proposal.puts));
        let proposed = with(&design, &proposal.puts);
        assert_eq!(judged_alone(&proposed), [Answer::Yes; 3], "{:?}", proposal.puts);
        for trial in &outcome.asked {
            assert!(passes(&proposed, *trial), "{trial:?} {:?}", proposal.puts);
        }
        // House, wood and chimney are as they were.
        assert_eq!(proposed.site, design.site);
        assert_eq!(proposed.fire, design.fire);
        assert_eq!(proposed.chimney, design.chimney);
        assert_eq!(proposed.surroundings, design.surroundings);
        assert_ne!(proposed, design);
    }
}

/// Eight designs, some of which pass; a condition that is asked leaves out others.
fn small() -> Space {
    let mut variants: Vec<Puts> = Vec::new();
    for runs in [5.0, 6.0] {
        for (width, height) in [(0.12, 0.26), (0.14, 0.24), (0.14, 0.195), (0.17, 0.195)] {
            let length = if runs < 5.5 { 1.957 } else { 1.726 };
            variants.push(vec![
                (FieldId::RunCount, runs),
                (FieldId::RunLength, length),
                (FieldId::RunWidth, width),
                (FieldId::RunHeight, height),
            ]);
        }
    }
    Space { variants, shells: vec![Puts::new()], days: 100, judged: 100 }
}

/// What an aim asks for, more being better; by the names of the aims.
fn served(aim: Aim, design: &Design) -> f64 {
    let figures = Figures::new(design).unwrap();
    match aim {
        Aim::Warmth => figures.line(Line::HalfWarm).unwrap_or(f64::INFINITY),
        Aim::Wood => figures.line(Line::Efficiency).unwrap(),
        Aim::Masonry => -figures.line(Line::Mass).unwrap(),
        Aim::Simplicity => -labor(design),
    }
}

/// The same space tried one by one, with all that is known of each.
#[test]
fn the_best_of_a_small_space_is_found() {
    let design = Design::demonstration();
    let asked = [Trial::ColdDay, Trial::MildDay, Trial::ColdStart];
    let all = small().variants.into_iter().map(|puts| with(&design, &puts));
    let good: Vec<Design> = all
        .filter(|each| {
            judged_alone(each) == [Answer::Yes; 3]
                && asked.into_iter().all(|trial| passes(each, trial))
        })
        .collect();
    assert!((2..=MOST).contains(&good.len()), "{}", good.len());
    for aim in [Aim::Wood, Aim::Masonry, Aim::Warmth] {
        let (_, outcome) = parts(&design, Wish::new(&asked, &[aim]), Some(small()));
        let mut expected: Vec<&Design> = good.iter().collect();
        expected.sort_by(|a, b| served(aim, b).total_cmp(&served(aim, a)));
        let told = outcome.proposals.iter().map(|each| with(&design, &each.puts));
        let told: Vec<Design> = told.collect();
        assert_eq!(told.iter().collect::<Vec<_>>(), expected, "{aim:?}");
    }
}

#[test]
fn the_same_design_gets_the_same_answer() {
    let design = Design::demonstration();
    let wish = Wish::new(&[Trial::ColdDay], &[Aim::Masonry]);
    let once = parts(&design, wish, Some(small()));
    assert_eq!(parts(&design, wish, Some(small())), once);
}

/// Whoever finds a piece, and in whatever order: what comes of it is the same, also by way of words.
#[test]
fn many_seekers_find_what_one_finds() {
    let design = Design::demonstration();
    for wish in [Wish::default(), Wish::new(&[Trial::ColdDay, Trial::Wind], &[Aim::Wood])] {
        let (_, alone) = parts(&design, wish, Some(small()));
        let mut search = Suggest::within(&design, wish, small());
        let ground = search.ground().clone();
        let outcome = loop {
            let wanted = search.wanted();
            if wanted.is_empty() {
                match search.step() {
                    Some(Part::End(outcome)) => break *outcome,
                    Some(_) => continue,
                    None => panic!("neither a piece nor an end"),
                }
            }
            // All that may be wanted, the last first.
            for piece in wanted.into_iter().rev() {
                let words = ground.find(piece).to_string();
                assert_eq!(piece.to_string().parse(), Ok(piece));
                search.learn(piece, ground.read(piece, &words).unwrap());
            }
        };
        assert_eq!(outcome, alone);
    }
}

/// How far a finding is beyond its limit, as a share of it.
fn beyond(finding: &Finding) -> f64 {
    let limit =
        finding.limit.map(|limit| limit.value).filter(|limit| limit.abs() > f64::EPSILON);
    limit.map_or(1.0, |limit| ((finding.found.value - limit) / limit).abs())
}

/// Every size tried one by one: by its name the limit that is missed most, how often that is, and by
/// how little.
fn missed(design: &Design) -> BTreeMap<&'static str, (usize, f64)> {
    // What a bypass or a thicker shell mends is not counted.
    let counts = |finding: &&Finding| {
        let of_shell = matches!(
            finding.rule,
            Rule::SmokeAtLighting(_)
                | Rule::ColdStartWeak(_)
                | Rule::TooHot(_)
                | Rule::FaceTooHot
                | Rule::Touch(_)
        );
        let light = finding.severity == Severity::GoodToKnow;
        !finding.rule.is_of_the_day() && !light && !of_shell
    };
    let mut most = BTreeMap::new();
    for puts in &Space::around(design).variants {
        let each = with(design, puts);
        let Ok(analysis) = analyze(&each) else { continue };
        let findings = check_rules(&each, &analysis);
        let heaviest = findings.iter().filter(counts).map(|found| found.severity).max();
        let heavy = findings.iter().filter(counts);
        let heavy = heavy.filter(|found| Some(found.severity) == heaviest);
        if let Some(worst) = heavy.max_by(|a, b| beyond(a).total_cmp(&beyond(b))) {
            let entry = most.entry(worst.rule.id()).or_insert((0, f64::INFINITY));
            *entry = (entry.0 + 1, beyond(worst).min(entry.1));
        }
    }
    most
}

#[test]
fn without_a_yes_the_limits_that_conflict_are_named() {
    let mut design = Design::demonstration();
    design.chimney.mouth_height = 4.5;
    design.chimney.roof_height = 3.4;
    let (found, outcome) = parts(&design, Wish::default(), None);
    assert!(found.is_empty() && outcome.proposals.is_empty());
    assert!(!outcome.nearest.is_empty() && outcome.nearest.len() <= NEAREST);
    for near in &outcome.nearest {
        let figures = Figures::new(&with(&design, &near.puts)).unwrap();
        assert!(!figures.passes());
        assert!(!near.against.is_empty());
    }
    let most = missed(&design);
    assert_eq!(outcome.conflicts.len(), most.len());
    for Conflict { count, nearest } in &outcome.conflicts {
        let (often, least) = most[nearest.rule.id()];
        assert_eq!(*count, often, "{}", nearest.rule.id());
        assert!((beyond(nearest) - least).abs() < 1e-9, "{}", nearest.rule.id());
    }
    let passage = words::suggest::passage(&design, Wish::default(), &outcome, System::Metric);
    assert!(passage.plain().contains("The limits conflict"), "{}", passage.plain());
}

#[test]
fn a_condition_that_is_asked_is_met_or_nothing_is_proposed() {
    let design = Design::demonstration();
    let (_, outcome) = parts(&design, Wish::new(&[Trial::Wind], &[]), Some(small()));
    let always = [Trial::ColdDay, Trial::MildDay, Trial::ColdStart];
    assert_eq!(outcome.asked, [always.as_slice(), &[Trial::Wind]].concat());
    for proposal in &outcome.proposals {
        assert!(passes(&with(&design, &proposal.puts), Trial::Wind));
    }
    let any = small().variants.iter().any(|puts| passes(&with(&design, puts), Trial::Wind));
    assert!(any || outcome.proposals.is_empty());
}

#[test]
fn what_is_searched_can_stand_and_is_in_whole_courses() {
    let design = Design::demonstration();
    let space = Space::around(&design);
    assert!(space.variants.len() > 50);
    for puts in &space.variants {
        let each = with(&design, puts);
        assert!(check(&each).is_empty());
        // 2 1/2 in and a joint of 1/16 in.
        let courses = each.path.run_height / 0.065;
        assert!((courses - courses.round()).abs() < 0.02, "{courses}");
    }
}

#[test]
fn the_worker_tells_each_and_then_the_best() {
    let design = Design::demonstration();
    let wish = Wish::new(&[Trial::ColdDay], &[]);
    let told = Job::Suggest(wish).news(&design).filter_map(|news| match news {
        News::Found(words) => {
            let told: VariantsTold = words.parse().unwrap();
            assert_eq!(told.to_string(), words);
            Some(told)
        }
        _ => None,
    });
    let told: Vec<VariantsTold> = told.collect();
    let [early @ .., VariantsTold::Seen(best), VariantsTold::Read(_)] = told.as_slice() else {
        panic!("{told:?}");
    };
    let (_, outcome) = parts(&design, wish, None);
    let words: Vec<&String> = best.metric.readings.iter().map(|(_, words)| words).collect();
    let expected: Vec<String> =
        outcome.proposals.iter().map(|each| words_of(&each.puts)).collect();
    assert!(!words.is_empty());
    assert_eq!(words, expected.iter().collect::<Vec<_>>());
    // Each was told as soon as it was found.
    let early = early.iter().filter_map(|told| match told {
        VariantsTold::Seen(found) => found.metric.readings.last().map(|(_, words)| words),
        VariantsTold::Read(_) => None,
    });
    let early: Vec<&String> = early.collect();
    assert!(words.iter().all(|each| early.contains(each)));
}
