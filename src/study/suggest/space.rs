//! What is searched: sizes in whole courses and half bricks.

use crate::analysis::standard_route::{
    firebox_surface, least_firebox_base, least_firebox_height, shortest_path,
};
use crate::analysis::{Analysis, analyze};
use crate::design::Design;
use crate::design::brick::Brick;
use crate::design::field::{FieldId, Kind, check, field};
use crate::rules;
use crate::rules::{GAS_SPEED, Rule, Severity};
use crate::study::variant::{put, value};

/// Inputs with the values that are put in.
pub type Puts = Vec<(FieldId, f64)>;

/// What is searched, and how far.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// Firebox and runs.
    pub variants: Vec<Puts>,
    /// What may be added to each where only that is lacking, the least first; the first adds
    /// nothing.
    pub shells: Vec<Puts>,
    /// Days that are computed at most.
    pub days: usize,
    /// Designs that are judged under all conditions at most.
    pub judged: usize,
}

/// Half a brick with its joint (m).
const HALF: f64 = 0.5 * (Brick::FIREBRICK.size.length + Brick::FIREBRICK.joint);
/// A course (m).
const COURSE: f64 = Brick::FIREBRICK.size.height + Brick::FIREBRICK.joint;
/// Widths of the runs (m).
const WIDTHS: [f64; 4] = [0.12, 0.14, 0.17, 0.20];
/// Courses of a run.
const COURSES: [u32; 5] = [2, 3, 4, 5, 6];
/// Half bricks of a run.
const HALVES: [u32; 6] = [7, 9, 11, 13, 15, 17];
/// Runs that are usual.
const RUNS: std::ops::RangeInclusive<u32> = 1..=8;
/// Core of half a brick (m).
const HALF_BRICK: f64 = Brick::FIREBRICK.size.width;
/// A facing of a whole modular brick (m).
const WHOLE_BRICK: f64 = Brick::MODULAR.size.length;
/// A bypass over the section of the flue (–): half of it lights a cold heater.
const BYPASS: f64 = 0.5;
/// Gas constant of flue gas (J/kg K), near enough to leave out what cannot be.
const GAS_CONSTANT: f64 = 290.0;
/// Gas into the last run is at most so hot, and into the first at least (K), to leave out what
/// cannot be.
const BETWEEN: (f64, f64) = (650.0, 800.0);
/// By how much a path may seem too short and still be looked at (m).
const SLACK: f64 = 0.5;

impl Space {
    /// Sizes around a design. House, wood and chimney stay.
    pub fn around(design: &Design) -> Self {
        let analysis = analyze(design).ok();
        let firebox = firebox(design, analysis.as_ref());
        let mut variants = Vec::new();
        for runs in RUNS {
            for length in HALVES.map(|count| millimeters(f64::from(count) * HALF)) {
                for width in WIDTHS {
                    for height in COURSES.map(|count| millimeters(f64::from(count) * COURSE)) {
                        let mut puts = firebox.clone();
                        puts.push((FieldId::RunCount, f64::from(runs)));
                        puts.push((FieldId::RunLength, length));
                        puts.push((FieldId::RunWidth, width));
                        puts.push((FieldId::RunHeight, height));
                        variants.push(puts);
                    }
                }
            }
        }
        variants.retain(|puts| is_thinkable(&with(design, puts), analysis.as_ref()));
        Self { variants, shells: shells(design), days: 12, judged: 6 }
    }
}

/// A design with values put in.
pub fn with(design: &Design, puts: &[(FieldId, f64)]) -> Design {
    let mut design = design.clone();
    for (id, value) in puts {
        put(&mut design, *id, *value);
    }
    design
}

/// What of some puts differs from a design.
pub fn changed(design: &Design, puts: &[(FieldId, f64)]) -> Puts {
    let differs = |(id, put): &&(FieldId, f64)| (value(design, *id) - put).abs() > f64::EPSILON;
    puts.iter().filter(differs).copied().collect()
}

fn millimeters(meters: f64) -> f64 {
    (1000.0 * meters).round() / 1000.0
}

/// Whether a design can stand and is not plainly outside what is judged: path and speed.
fn is_thinkable(design: &Design, analysis: Option<&Analysis>) -> bool {
    let path = &design.path;
    let turns = design.run_heights();
    let rises = turns.iter().zip(turns.iter().skip(1)).map(|(a, b)| (a - b).abs());
    let length = path.runs().iter().map(|run| run.length).sum::<f64>() + rises.sum::<f64>();
    let long = shortest_path(design.fire.charge, design.shell.gap) <= length + SLACK;
    let speeds = analysis.is_none_or(|analysis| {
        let fire = &analysis.height_of_fire;
        let area = path.run_width * path.run_height;
        let speed =
            |kelvins: f64| fire.gas_flow * GAS_CONSTANT * kelvins / (fire.pressure * area);
        let (hot, cool) = BETWEEN;
        GAS_SPEED.0 <= speed(hot) && speed(cool) <= GAS_SPEED.1
    });
    long && speeds && check(design).is_empty()
}

/// The firebox of the design where its size suits the charge; one in half bricks and whole courses
/// otherwise.
fn firebox(design: &Design, analysis: Option<&Analysis>) -> Puts {
    let sizes = |rule: Rule| {
        matches!(
            rule,
            Rule::FireboxSmall
                | Rule::FireboxBaseSmall
                | Rule::FireboxLow
                | Rule::FireboxOverfull
                | Rule::FireboxNarrow
                | Rule::FireboxLarge
        )
    };
    let misfits = analysis.is_some_and(|analysis| {
        let findings = rules::check(design, analysis);
        findings.iter().any(|finding| sizes(finding.rule))
    });
    if misfits { sized(design) } else { Vec::new() }
}

/// The smallest firebox in half bricks and whole courses that the charge asks for.
fn sized(design: &Design) -> Puts {
    let charge = design.fire.charge;
    let bases =
        (2_u32..=8).flat_map(|depth| (depth..=2 * depth).map(move |width| (width, depth)));
    let sides = |(width, depth): (u32, u32)| {
        (millimeters(f64::from(width) * HALF), millimeters(f64::from(depth) * HALF))
    };
    let fits = |(width, depth): &(f64, f64)| {
        least_firebox_base(charge) <= width * depth && design.firebox.door_width <= *width
    };
    let smallest =
        |one: &(f64, f64), other: &(f64, f64)| (one.0 * one.1).total_cmp(&(other.0 * other.1));
    let Some((width, depth)) = bases.map(sides).filter(fits).min_by(smallest) else {
        return Vec::new();
    };
    let least = least_firebox_height(charge).max(design.firebox.door_height);
    let around = 2.0 * (width + depth);
    let asked = ((firebox_surface(charge) - 2.0 * width * depth) / around).max(least);
    let height = millimeters((asked / COURSE).ceil() * COURSE);
    vec![
        (FieldId::FireboxWidth, width),
        (FieldId::FireboxDepth, depth),
        (FieldId::FireboxHeight, height),
    ]
}

/// Nothing; a bypass for lighting; a thicker core; both; and a thicker facing with them.
fn shells(design: &Design) -> Vec<Puts> {
    let bypass = (100.0 * BYPASS * design.chimney.area()).round() / 100.0;
    let more = |id: FieldId, value: f64| {
        let now = self::value(design, id);
        let possible = match &field(id).kind {
            Kind::Number(number) => number.possible.contains(&value),
            Kind::Choice(_) => false,
        };
        (now < value && possible).then_some((id, value))
    };
    let bypass = more(FieldId::Bypass, bypass);
    let core = more(FieldId::CoreThickness, HALF_BRICK);
    let wall = more(FieldId::FireboxWall, 2.0 * HALF_BRICK);
    let facing = more(FieldId::FacingThickness, WHOLE_BRICK);
    let all = [
        vec![],
        vec![bypass],
        vec![core],
        vec![bypass, core],
        vec![bypass, core, wall],
        vec![bypass, core, wall, facing],
    ];
    let mut shells: Vec<Puts> = Vec::new();
    for puts in all.map(|puts| puts.into_iter().flatten().collect::<Puts>()) {
        if !shells.contains(&puts) {
            shells.push(puts);
        }
    }
    shells
}

/// How much work a design is beyond its bricks (–): its runs, and sizes that are no whole courses
/// or half bricks.
pub fn labor(design: &Design) -> f64 {
    let cut = |size: f64, step: f64| {
        let steps = size / step;
        (steps - steps.round()).abs() * step > SNAP
    };
    let firebox = &design.firebox;
    let path = &design.path;
    let cuts = [
        cut(firebox.width, HALF),
        cut(firebox.depth, HALF),
        cut(firebox.height, COURSE),
        cut(path.run_length, HALF),
        cut(path.run_height, COURSE),
    ];
    let cuts = cuts.into_iter().filter(|cut| *cut).map(|_| CUT).sum::<f64>();
    u32::try_from(path.run_count).map_or(f64::MAX, f64::from) + cuts
}

/// By how much a joint takes up a size (m).
const SNAP: f64 = 0.003;
/// A size that asks for cut bricks weighs as much as so many runs (–): our choice.
const CUT: f64 = 0.5;

/// Whether a finding may be mended by what is added to the runs.
pub fn is_of_the_shell(rule: Rule, severity: Severity) -> bool {
    let mended = matches!(
        rule,
        Rule::SmokeAtLighting(_)
            | Rule::ColdStartWeak(_)
            | Rule::TooHot(_)
            | Rule::FaceTooHot
            | Rule::Touch(_)
    );
    mended || severity == Severity::GoodToKnow
}
