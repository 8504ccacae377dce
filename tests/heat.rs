//! What gets too hot, and what must stay open: each rule speaks just beyond its limit and is silent
//! just within it.
//!
//! The limits stand here in the units of their sources, apart from the code.

use longsmoke::analysis::day::{LayerPeaks, Setup, day};
use longsmoke::analysis::{Analysis, analyze};
use longsmoke::design::building::{
    AirSupply, Below, BenchUse, Damper, Foam, Stated, VoidBelow,
};
use longsmoke::design::material::Material;
use longsmoke::design::{Design, Layout, RuleSet, WallBehind};
use longsmoke::rules::{
    Around, DayFigures, Edges, Finding, Hazard, Hot, InHouse, Known, Matter, Question, Rule,
    Severity, Standing, TemperatureEdge, Touch, check, judge,
};
use longsmoke::units::{System, kelvin};
use longsmoke::words;

const LOOK: Severity = Severity::LookAgain;
const STOP: Severity = Severity::DoNotBuild;
const NOTE: Severity = Severity::GoodToKnow;
const INCH: f64 = 0.0254;

type Change = fn(&mut Design);

/// A day on which everything is as warm as the room.
fn cool_day() -> DayFigures {
    let mut day = DayFigures { wall_behind: Some(0.0), ..DayFigures::default() };
    day.figures().into_iter().for_each(|figure| *figure = kelvin(20.0));
    let gas = kelvin(150.0);
    let (smoke_back, smoke_later, least_margin) = (0.0, 0.0, 5.0);
    DayFigures {
        first_mean: gas,
        repeating_mean: gas,
        smoke_back,
        smoke_later,
        least_margin,
        ..day
    }
}

fn changed(change: impl Fn(&mut Design)) -> (Design, Analysis) {
    let mut design = Design::demonstration();
    change(&mut design);
    let analysis = analyze(&design).unwrap();
    (design, analysis)
}

fn one(findings: &[Finding], rule: Rule) -> Option<Finding> {
    let mut mine = findings.iter().filter(|finding| finding.rule == rule);
    let first = mine.next().copied();
    assert!(mine.next().is_none(), "{rule:?} speaks twice");
    first
}

/// What a rule says of a design on a day.
fn on_a_day(
    rule: Rule,
    change: impl Fn(&mut Design),
    heat: impl Fn(&mut DayFigures),
) -> Option<Finding> {
    let (design, analysis) = changed(change);
    let mut day = cool_day();
    heat(&mut day);
    let known = Known { day: Some(Ok(&day)), ..Known::default() };
    one(&judge(&design, &analysis, known), rule)
}

/// A figure of the day in kelvin.
type Set = fn(&mut DayFigures, f64);

/// Speaks a tenth of a kelvin above a limit (°C), with a weight, and not a tenth below.
#[track_caller]
fn hotter_than(rule: Rule, (limit, severity): (f64, Severity), change: Change, set: Set) {
    let at = |celsius: f64| on_a_day(rule, change, |day| set(day, kelvin(celsius)));
    assert_eq!(at(limit - 0.1), None, "{rule:?} below {limit}");
    let found = at(limit + 0.1).unwrap_or_else(|| panic!("{rule:?} silent above {limit}"));
    assert_eq!(found.severity, severity, "{rule:?}");
    assert!((found.limit.unwrap().value - kelvin(limit)).abs() < 1e-9, "{rule:?}");
    for system in [System::Metric, System::Us] {
        let text = words::finding(&found, system);
        assert!(text.title.ends_with('.') && !text.title.contains(['{', '}']), "{text:?}");
    }
}

const AS_IT_IS: Change = |_| ();
const FRAMED: Change = |design| {
    design.surroundings.wall_behind = WallBehind::Framed;
    design.surroundings.wall_gap = 0.5;
};

/// Service temperatures as the handbook of the trade gives them, the low end of each range.
#[test]
fn materials_bear_what_they_bear() {
    let hot = |hot| Rule::TooHot(hot);
    let core =
        |material: Material| move |design: &mut Design| design.shell.core_material = material;
    for (material, limit) in [
        (Material::Fireclay, 1300.0),
        (Material::HighDutyFireclay, 1400.0),
        (Material::Castable, 1200.0),
        (Material::CommonBrick, 600.0),
        (Material::Soapstone, 1000.0),
    ] {
        for (part, set) in [
            (Hot::Firebox, (|day, k| day.layers.firebox = k) as Set),
            (Hot::Runs, |day, k| day.layers.runs = k),
        ] {
            let at = |c: f64| on_a_day(hot(part), core(material), |day| set(day, kelvin(c)));
            assert_eq!(at(limit - 0.1), None, "{material:?}");
            assert_eq!(at(limit + 0.1).map(|found| found.severity), Some(STOP), "{material:?}");
        }
    }
    hotter_than(
        hot(Hot::Facing),
        (300.0, LOOK),
        |design| design.shell.facing_material = Material::Granite,
        |day, k| day.layers.facing = k,
    );
    hotter_than(hot(Hot::Mortar), (200.0, NOTE), AS_IT_IS, |day, k| day.layers.facing = k);
    hotter_than(hot(Hot::Base), (204.0, NOTE), AS_IT_IS, |day, k| day.layers.base = k);
    hotter_than(hot(Hot::Board), (1000.0, LOOK), AS_IT_IS, |day, k| day.layers.board = k);
    hotter_than(hot(Hot::Connector), (400.0, STOP), AS_IT_IS, |day, k| {
        day.layers.connector = k;
    });
    hotter_than(hot(Hot::Liner), (1000.0, STOP), AS_IT_IS, |day, k| day.layers.liner = k);
    hotter_than(
        hot(Hot::Liner),
        (550.0, STOP),
        |design| design.chimney.wall_material = Material::Stainless,
        |day, k| day.layers.liner = k,
    );
    hotter_than(hot(Hot::Wool), (600.0, LOOK), AS_IT_IS, |day, k| day.layers.wool = k);
    // Mild steel, 400 to 450 °C: in the facing, or in the core where there is no facing.
    hotter_than(hot(Hot::Steel), (400.0, LOOK), AS_IT_IS, |day, k| day.layers.facing = k);
    hotter_than(hot(Hot::Steel), (400.0, LOOK), AS_IT_IS, |day, k| {
        (day.layers.facing, day.layers.firebox) = (0.0, k);
    });
}

/// Across a void whose air is warmed half as much as the slab: where the slab is 20 K above a room of
/// 20 °C nothing below it passes 40 °C; at 200 °C it passes 85 °C, for radiation alone of 0.82 x 5.67e-8
/// (473.15^4 - 358.15^4) = 1565 W/m2 meets a wall that passes 65/4 = 16 W/m2 at 85 °C.
#[test]
fn what_lies_across_a_void_below_must_not_char() {
    let below = |below, celsius: f64| {
        let set = |day: &mut DayFigures| day.layers.under = kelvin(celsius);
        let change = |design: &mut Design| design.surroundings.below = below;
        on_a_day(Rule::TooHot(Hot::Below), change, set).map(|found| found.severity)
    };
    for burns in [Below::Wood, Below::Foam] {
        assert_eq!(below(burns, 40.0), None);
        assert_eq!(below(burns, 200.0), Some(STOP));
    }
    assert_eq!(below(Below::Mineral, 200.0), None);
}

#[test]
fn mortar_is_chosen_up_to_300_degrees_and_not_beyond() {
    let weight = |celsius: f64| {
        let set = |day: &mut DayFigures| day.layers.facing = kelvin(celsius);
        on_a_day(Rule::TooHot(Hot::Mortar), |_| (), set).map(|found| found.severity)
    };
    assert_eq!(weight(299.9), Some(NOTE));
    assert_eq!(weight(300.1), Some(LOOK));
    // Where the stone itself fails, its mortar is not spoken of as well.
    let granite = |design: &mut Design| design.shell.facing_material = Material::Granite;
    let set = |day: &mut DayFigures| day.layers.facing = kelvin(310.0);
    assert!(on_a_day(Rule::TooHot(Hot::Facing), granite, set).is_some());
    assert_eq!(on_a_day(Rule::TooHot(Hot::Mortar), granite, set), None);
}

/// 65 K above a room of 20 °C; in Europe 85 °C whatever the room; 77 °C for years.
#[test]
fn a_wood_wall_behind_may_be_65_kelvin_warmer_than_the_room() {
    let set: Set = |day, k| day.wall_behind = Some(k);
    hotter_than(Rule::TooHot(Hot::Wall), (85.0, STOP), FRAMED, set);
    let warm_room: Change = |design| {
        FRAMED(design);
        design.site.room_temperature = kelvin(24.0);
    };
    hotter_than(Rule::TooHot(Hot::Wall), (89.0, STOP), warm_room, set);
    let in_europe: Change = |design| {
        FRAMED(design);
        design.site.room_temperature = kelvin(24.0);
        design.site.rule_set = RuleSet::Europe;
    };
    hotter_than(Rule::TooHot(Hot::Wall), (85.0, STOP), in_europe, set);
    hotter_than(Rule::TooHot(Hot::WallForLong), (77.0, LOOK), FRAMED, set);
    // One of the two speaks.
    let hot = |day: &mut DayFigures| day.wall_behind = Some(kelvin(90.0));
    assert_eq!(on_a_day(Rule::TooHot(Hot::WallForLong), FRAMED, hot), None);
    // Brick does not burn.
    let brick: Change = |design| design.surroundings.wall_behind = WallBehind::Masonry;
    assert_eq!(on_a_day(Rule::TooHot(Hot::Wall), brick, hot), None);
}

#[test]
fn foam_behind_melts_before_wood_burns() {
    let set: Set = |day, k| day.wall_behind = Some(k);
    let brick_on: [(f64, Change); 3] = [
        (75.0, |design| design.surroundings.foam = Foam::Polystyrene),
        (90.0, |design| design.surroundings.foam = Foam::Polyurethane),
        (80.0, |design| design.surroundings.foam = Foam::Membrane),
    ];
    for (limit, change) in brick_on {
        hotter_than(Rule::TooHot(Hot::Foam), (limit, STOP), change, set);
    }
}

/// 48 °C for ten minutes, 43 °C for a night; who does not say what a bench is for may sleep on it.
#[test]
fn a_bench_is_to_sit_or_to_lie_on() {
    let bench = |usage| {
        move |design: &mut Design| {
            design.path.layout = Layout::Bench;
            design.path.run_count = 2;
            design.shell.bench_use = usage;
        }
    };
    let at = |touch, usage, celsius: f64| {
        let set = |day: &mut DayFigures| day.bench = kelvin(celsius);
        on_a_day(Rule::Touch(touch), bench(usage), set).map(|found| found.severity)
    };
    assert_eq!(at(Touch::Seat, BenchUse::Seat, 47.9), None);
    assert_eq!(at(Touch::Seat, BenchUse::Seat, 48.1), Some(LOOK));
    for usage in [BenchUse::Bed, BenchUse::NotStated] {
        assert_eq!(at(Touch::Bed, usage, 42.9), None);
        assert_eq!(at(Touch::Bed, usage, 43.1), Some(LOOK));
    }
    assert_eq!(at(Touch::Bed, BenchUse::Bed, 47.9), Some(LOOK));
    assert_eq!(at(Touch::Bed, BenchUse::Bed, 48.1), Some(STOP));
    // Nobody lies on what is no bench.
    let set = |day: &mut DayFigures| day.bench = kelvin(90.0);
    assert_eq!(on_a_day(Rule::Touch(Touch::Bed), |_| (), set), None);
}

#[test]
fn a_face_of_66_degrees_is_too_hot_where_children_reach() {
    let with = |children| move |design: &mut Design| design.surroundings.children = children;
    let at = |children, celsius: f64| {
        let set = |day: &mut DayFigures| day.upright = kelvin(celsius);
        on_a_day(Rule::Touch(Touch::Reach), with(children), set).map(|found| found.severity)
    };
    for (children, severity) in
        [(Stated::Yes, Some(LOOK)), (Stated::NotStated, Some(NOTE)), (Stated::No, None)]
    {
        assert_eq!(at(children, 65.9), None);
        assert_eq!(at(children, 66.1), severity, "{children:?}");
    }
    let door = |children| {
        let (design, analysis) = changed(with(children));
        one(&check(&design, &analysis), Rule::Touch(Touch::Door)).map(|found| found.severity)
    };
    assert_eq!(door(Stated::Yes), Some(NOTE));
    assert_eq!(door(Stated::No), None);
}

/// Laws of conduction: a slab that gives off heat into a void is hotter without it, and then gives off
/// none; its underside, that of a slab without losses, is as hot as its top in the mean, and no hotter
/// than the fire's side of the core at any time.
#[test]
fn a_slab_without_a_void_is_hotter() {
    let with = |void_below| {
        let (mut design, _) = changed(|_| ());
        design.surroundings.void_below = void_below;
        let periodic = day(&design, &Setup::COARSE).unwrap().periodic;
        (periodic.peak.layers, periodic.energy.under_joules)
    };
    let (over, into_the_void) = with(VoidBelow::Ventilated);
    let (without, lost) = with(VoidBelow::Closed);
    assert!(0.0 < into_the_void);
    assert!(lost.abs() <= 0.0, "{lost}");
    assert!(over.base < without.base);
    // Into a void at 20 °C, most of the way down is lost; without it, hardly any.
    let step = |layers: &LayerPeaks| layers.base - layers.under;
    assert!(step(&without) < 0.5 * step(&over));
    assert!(without.under <= without.base);
    assert!(without.base <= without.firebox);
}

/// The day of the design and the mild one are both looked at.
#[test]
fn the_hotter_of_two_days_counts() {
    let (design, analysis) = changed(|_| ());
    let (day, mut mild) = (cool_day(), cool_day());
    mild.layers.base = kelvin(210.0);
    let mild = Ok(mild);
    let known = Known { day: Some(Ok(&day)), mild: Some(mild.as_ref()), edges: None };
    assert!(one(&judge(&design, &analysis, known), Rule::TooHot(Hot::Base)).is_some());
}

/// With an overload: beyond a limit as it is reckoned it weighs what it weighs, beyond it in 5 of 100
/// cases it is looked at again at most.
#[test]
fn an_overload_at_its_edge_heats_too() {
    let judged = |nominal: f64, edge: f64| {
        let (design, analysis) = changed(FRAMED);
        let day = cool_day();
        let mut edges = Edges {
            wall_behind: TemperatureEdge { nominal: kelvin(nominal), edge: kelvin(edge) },
            layers: day.layers,
            layers_edge: day.layers,
            air_ratio: 2.0,
            ..Edges::default()
        };
        edges.layers_edge.base = kelvin(205.0);
        let known = Known { day: Some(Ok(&day)), edges: Some(Ok(&edges)), ..Known::default() };
        let findings = judge(&design, &analysis, known);
        let at = |hot, standing| {
            one(&findings, Rule::AtTheEdge(Hazard::TooHot(hot), standing))
                .map(|found| found.severity)
        };
        assert_eq!(at(Hot::Base, Standing::Edge), Some(NOTE));
        [at(Hot::Wall, Standing::Nominal), at(Hot::Wall, Standing::Edge)]
    };
    assert_eq!(judged(84.9, 84.9), [None, None]);
    assert_eq!(judged(84.9, 85.1), [None, Some(LOOK)]);
    assert_eq!(judged(85.1, 90.0), [Some(STOP), None]);
}

#[test]
fn what_is_too_hot_as_stated_is_not_said_again_of_more_wood() {
    let (design, analysis) = changed(FRAMED);
    let day = DayFigures { wall_behind: Some(kelvin(90.0)), ..cool_day() };
    let edges = Edges {
        wall_behind: TemperatureEdge { nominal: kelvin(95.0), edge: kelvin(99.0) },
        air_ratio: 2.0,
        ..Edges::default()
    };
    let known = Known { day: Some(Ok(&day)), edges: Some(Ok(&edges)), ..Known::default() };
    let findings = judge(&design, &analysis, known);
    let walls = findings.iter().filter(|found| found.rule.id().contains("wall-behind"));
    assert_eq!(walls.map(|found| found.rule).collect::<Vec<_>>(), [Rule::TooHot(Hot::Wall)]);
}

/// Mortar that can be chosen as stated, and none that holds with an overload: both are said.
#[test]
fn what_weighs_more_with_an_overload_is_said() {
    let (design, analysis) = changed(|_| ());
    let mut day = cool_day();
    day.layers.facing = kelvin(210.0);
    let with_overload = |celsius: f64| {
        let mut edges = Edges { air_ratio: 2.0, ..Edges::default() };
        (edges.layers.facing, edges.layers_edge.facing) = (kelvin(celsius), kelvin(celsius));
        let known = Known { day: Some(Ok(&day)), edges: Some(Ok(&edges)), ..Known::default() };
        let findings = judge(&design, &analysis, known);
        assert!(one(&findings, Rule::TooHot(Hot::Mortar)).is_some());
        one(&findings, Rule::AtTheEdge(Hazard::TooHot(Hot::Mortar), Standing::Nominal))
            .map(|found| found.severity)
    };
    assert_eq!(with_overload(299.0), None);
    assert_eq!(with_overload(301.0), Some(LOOK));
}

/// What is touched is judged with an overload too: a bench to sit on at 48, to lie on at 43 and to
/// stop building at 48 °C, faces within reach of children at 66 °C; a degree less is quiet.
#[test]
fn what_is_touched_is_judged_at_the_edge() {
    let judged = |touch: Touch, change: fn(&mut Design), [nominal, edge]: [f64; 2]| {
        let (design, analysis) = changed(change);
        let hot = TemperatureEdge { nominal: kelvin(nominal), edge: kelvin(edge) };
        let upright = touch == Touch::Reach;
        let edges = Edges {
            air_ratio: 2.0,
            upright: if upright { hot } else { TemperatureEdge::default() },
            bench: if upright { TemperatureEdge::default() } else { hot },
            ..Edges::default()
        };
        let day = cool_day();
        let known = Known { day: Some(Ok(&day)), edges: Some(Ok(&edges)), ..Known::default() };
        let findings = judge(&design, &analysis, known);
        for found in &findings {
            let text = words::finding(found, System::Metric);
            assert!(!text.title.contains(['{', '}']), "{text:?}");
        }
        let at = |standing| one(&findings, Rule::AtTheEdge(Hazard::Touch(touch), standing));
        [at(Standing::Nominal), at(Standing::Edge)].map(|each| each.map(|each| each.severity))
    };
    let seat: Change = |design| {
        (design.path.layout, design.shell.bench_use) = (Layout::Bench, BenchUse::Seat);
        design.surroundings.children = Stated::No;
    };
    let bed: Change = |design| {
        (design.path.layout, design.shell.bench_use) = (Layout::Bench, BenchUse::Bed);
        design.surroundings.children = Stated::No;
    };
    let children: Change = |design| design.surroundings.children = Stated::Yes;
    let unknown: Change = |design| design.surroundings.children = Stated::NotStated;
    let nobody: Change = |design| design.surroundings.children = Stated::No;
    assert_eq!(judged(Touch::Seat, seat, [40.0, 47.9]), [None, None]);
    assert_eq!(judged(Touch::Seat, seat, [47.9, 48.1]), [None, Some(LOOK)]);
    assert_eq!(judged(Touch::Seat, seat, [48.1, 50.0]), [Some(LOOK), None]);
    assert_eq!(judged(Touch::Bed, bed, [42.9, 42.9]), [None, None]);
    assert_eq!(judged(Touch::Bed, bed, [42.9, 49.0]), [None, Some(LOOK)]);
    assert_eq!(judged(Touch::Bed, bed, [47.9, 49.0]), [Some(LOOK), None]);
    assert_eq!(judged(Touch::Bed, bed, [48.1, 49.0]), [Some(STOP), None]);
    assert_eq!(judged(Touch::Reach, children, [60.0, 65.9]), [None, None]);
    assert_eq!(judged(Touch::Reach, children, [60.0, 66.1]), [None, Some(LOOK)]);
    assert_eq!(judged(Touch::Reach, children, [66.1, 70.0]), [Some(LOOK), None]);
    assert_eq!(judged(Touch::Reach, unknown, [66.1, 70.0]), [Some(NOTE), None]);
    assert_eq!(judged(Touch::Reach, nobody, [90.0, 99.0]), [None, None]);
}

/// A bench too hot as stated is not said again, unless it weighs more with an overload.
#[test]
fn a_hot_bench_is_said_once() {
    let (design, analysis) = changed(|design| {
        (design.path.layout, design.shell.bench_use) = (Layout::Bench, BenchUse::Bed);
        design.surroundings.children = Stated::No;
    });
    let day = DayFigures { bench: kelvin(45.0), ..cool_day() };
    let ids = |celsius: f64| {
        let hot = TemperatureEdge { nominal: kelvin(celsius), edge: kelvin(celsius) };
        let edges = Edges { air_ratio: 2.0, bench: hot, ..Edges::default() };
        let known = Known { day: Some(Ok(&day)), edges: Some(Ok(&edges)), ..Known::default() };
        let findings = judge(&design, &analysis, known);
        let bench = findings.iter().map(|found| found.rule.id());
        bench.filter(|id| id.contains("bench")).collect::<Vec<_>>()
    };
    assert_eq!(ids(47.0), ["bench-hot-to-lie-on"]);
    assert_eq!(ids(49.0), ["overload-bench-hot-to-lie-on", "bench-hot-to-lie-on"]);
}

fn stated(rule: Around, change: impl Fn(&mut Design)) -> Option<Severity> {
    let (design, analysis) = changed(change);
    one(&check(&design, &analysis), Rule::Around(rule)).map(|found| found.severity)
}

#[test]
fn a_gap_to_a_wood_wall_must_be_open_at_both_ends() {
    let gap = |low: f64, high: f64, width: f64| {
        stated(Around::GapBlocked, |design| {
            FRAMED(design);
            let around = &mut design.surroundings;
            (around.gap_low_opening, around.gap_high_opening) = (low, high);
            around.wall_gap = width;
        })
    };
    assert_eq!(gap(0.0, 0.1, 0.1), Some(LOOK));
    assert_eq!(gap(0.1, 0.0, 0.1), Some(LOOK));
    assert_eq!(gap(0.1, 0.1, 0.1), None);
    assert_eq!(gap(0.1, 0.1, 0.9 * INCH), Some(LOOK));
}

#[test]
fn foam_is_covered_or_it_forbids_building() {
    let with = |foam, covered| {
        move |design: &mut Design| {
            design.surroundings.foam = foam;
            design.surroundings.foam_covered = covered;
        }
    };
    let bare = |foam, covered| stated(Around::FoamBare, with(foam, covered));
    assert_eq!(bare(Foam::Polystyrene, Stated::No), Some(STOP));
    assert_eq!(bare(Foam::Polyurethane, Stated::No), Some(STOP));
    assert_eq!(bare(Foam::Polystyrene, Stated::Yes), None);
    assert_eq!(bare(Foam::Membrane, Stated::No), None);
    let open = |matter, foam, covered, wall| {
        stated(Around::NotStated(matter), move |design| {
            with(foam, covered)(design);
            design.surroundings.wall_behind = wall;
            design.surroundings.wall_gap = 0.5;
        })
    };
    let (none, unknown) = (WallBehind::NoWall, Stated::NotStated);
    assert_eq!(open(Matter::FoamCover, Foam::Polystyrene, unknown, none), Some(NOTE));
    assert_eq!(open(Matter::Foam, Foam::NotStated, unknown, WallBehind::Masonry), Some(NOTE));
    assert_eq!(open(Matter::Foam, Foam::Missing, unknown, WallBehind::Masonry), None);
    assert_eq!(open(Matter::Foam, Foam::NotStated, unknown, none), None);
}

/// 0.25 m2 of glass: wood keeps below 85 °C in a room of 20 °C where it takes in no more than it gives
/// off, 0.93 x 5.67e-8 (358.15^4 - 293.15^4) + 1.31 x 65^(4/3) = 478.1 + 342.4 = 820.5 W/m2. A disc of
/// 0.25 m2 has r2 = 0.07958 m2, and 0.93 x 10 000 r2/(r2 + d2) = 820.5 at d2 = 0.8225, d = 0.907 m.
#[test]
fn glass_keeps_its_distance() {
    let glass = |front: f64, set| {
        stated(Around::GlassNear, move |design| {
            let door = &mut design.firebox;
            (door.door_width, door.door_height, door.glass_fraction) = (0.5, 0.5, 1.0);
            (door.width, door.height, design.fire.charge) = (0.6, 0.8, 14.0);
            design.surroundings.front = front;
            design.site.rule_set = set;
        })
    };
    for set in [RuleSet::Europe, RuleSet::None] {
        assert_eq!(glass(0.90, set), Some(STOP));
        assert_eq!(glass(0.92, set), None);
    }
    // A fire of 1000 °C, as an overload may have it: 0.115 x 5.67e-8 (1273.15^4 - 293.15^4) = 17 084 W/m2
    // through the glass, so that 0.93 x 17 084 r2/(r2 + d2) = 820.5 at d = 1.209 m.
    let hot = |front: f64, nominal: f64| {
        let (design, analysis) = changed(|design| {
            let door = &mut design.firebox;
            (door.door_width, door.door_height, door.glass_fraction) = (0.5, 0.5, 1.0);
            (door.width, door.height, design.fire.charge) = (0.6, 0.8, 14.0);
            design.surroundings.front = front;
            design.site.rule_set = RuleSet::Europe;
        });
        let peak_firebox = TemperatureEdge { nominal, edge: 1273.15 };
        let edges = Edges { air_ratio: 2.0, peak_firebox, ..Edges::default() };
        let known = Known { edges: Some(Ok(&edges)), ..Known::default() };
        one(&judge(&design, &analysis, known), Rule::Around(Around::GlassNear))
            .map(|found| found.severity)
    };
    assert_eq!(hot(1.20, 1273.15), Some(STOP));
    assert_eq!(hot(1.20, 1000.0), Some(LOOK));
    assert_eq!(hot(1.22, 1273.15), None);
    // North America asks for 48 in there anyway.
    assert_eq!(glass(0.90, RuleSet::NorthAmerica), None);
}

/// 20 cm2, and 3 % of a flue of 0.30 x 0.30 m: 27 cm2.
#[test]
fn a_shut_damper_leaves_an_opening() {
    let damper = |rule, damper, opening: f64, wide: bool| {
        stated(rule, move |design| {
            design.chimney.damper = damper;
            design.chimney.damper_opening = opening;
            if wide {
                design.chimney.shape = longsmoke::design::FlueShape::Rectangular;
                (design.chimney.flue_width, design.chimney.flue_depth) = (0.3, 0.3);
            }
        })
    };
    let small = Around::DamperOpeningSmall;
    assert_eq!(damper(small, Damper::Fitted, 0.00199, false), Some(LOOK));
    assert_eq!(damper(small, Damper::Fitted, 0.00200, false), None);
    assert_eq!(damper(small, Damper::Fitted, 0.00269, true), Some(LOOK));
    assert_eq!(damper(small, Damper::Fitted, 0.00271, true), None);
    assert_eq!(damper(Around::DamperTight, Damper::Fitted, 0.0, false), Some(STOP));
    assert_eq!(damper(Around::DamperTight, Damper::Missing, 0.0, false), None);
    let open = damper(Around::NotStated(Matter::Damper), Damper::NotStated, 0.0, false);
    assert_eq!(open, Some(NOTE));
}

/// 1 cm2 per kg: 14 cm2 for 14 kg.
#[test]
fn a_bleed_slot_goes_with_the_charge() {
    let slot = |area: f64, set| {
        stated(Around::BleedSmall, move |design| {
            design.path.bleed_area = area;
            design.site.rule_set = set;
        })
    };
    assert_eq!(slot(0.001_39, RuleSet::Europe), Some(LOOK));
    assert_eq!(slot(0.001_39, RuleSet::NorthAmerica), Some(NOTE));
    assert_eq!(slot(0.001_39, RuleSet::None), Some(NOTE));
    assert_eq!(slot(0.001_41, RuleSet::Europe), None);
}

/// Through 100 cm2 with sharp edges, 4 Pa drive 0.62 x 0.01 (2 rho 4)^(1/2) kg/s of outdoor air of
/// density rho: at 101 325 Pa and 0 °C rho = 101325/(287.05 x 273.15) = 1.2923 kg/m3, so 0.019935 kg/s.
#[test]
fn air_comes_in_with_no_more_suction_than_is_judged() {
    let speaks = |area: f64, supply| {
        let (mut design, mut analysis) = changed(|_| ());
        design.site.outdoor_temperature = kelvin(0.0);
        (design.site.air_supply, design.site.air_opening) = (supply, area);
        analysis.height_of_fire.pressure = 101_325.0;
        analysis.height_of_fire.air_flow = 0.019_935;
        let rule = Rule::Around(Around::AirOpeningSmall);
        one(&check(&design, &analysis), rule).map(|found| found.severity)
    };
    for supply in [AirSupply::Opening, AirSupply::Duct] {
        assert_eq!(speaks(0.0099, supply), Some(LOOK));
        assert_eq!(speaks(0.0101, supply), None);
    }
    assert_eq!(speaks(0.0, AirSupply::Leaks), None);
    let open = |design: &mut Design| design.site.air_supply = AirSupply::NotStated;
    assert_eq!(stated(Around::NotStated(Matter::AirSupply), open), Some(NOTE));
}

/// What burns, chars, melts or scalds is a matter of safety.
#[test]
fn heat_is_a_matter_of_safety() {
    for hot in Hot::ALL {
        assert_eq!(Rule::TooHot(hot).questions(), [Question::Safe]);
        for standing in [Standing::Nominal, Standing::Edge] {
            let rule = Rule::AtTheEdge(Hazard::TooHot(hot), standing);
            assert_eq!(rule.questions(), [Question::Safe]);
        }
    }
    for touch in [Touch::Seat, Touch::Bed, Touch::Reach, Touch::Door] {
        assert_eq!(Rule::Touch(touch).questions(), [Question::Safe]);
    }
}

/// 4 Pa for a fire that takes its air from the room, 8 Pa for one with a duct of its own, whatever the
/// draft.
#[test]
fn a_house_pulls_no_harder_than_its_fire_bears() {
    let weight = |supply: AirSupply, pascals: f64| {
        let (design, mut analysis) = changed(|design| {
            design.site.air_supply = supply;
            design.site.house_suction = pascals;
        });
        analysis.height_of_fire.margin = 100.0;
        let found = one(&check(&design, &analysis), Rule::InHouse(InHouse::SuctionHigh));
        found.map(|found| found.severity)
    };
    for supply in [AirSupply::NotStated, AirSupply::Leaks, AirSupply::Opening] {
        assert_eq!(weight(supply, 4.0), None);
        assert_eq!(weight(supply, 4.1), Some(LOOK));
    }
    assert_eq!(weight(AirSupply::Duct, 8.0), None);
    assert_eq!(weight(AirSupply::Duct, 8.1), Some(LOOK));
}

/// A bypass that is left open sends the gas of the firebox into the chimney.
#[test]
fn a_bypass_is_told_where_its_gas_is_hotter_than_the_chimney_bears() {
    let told = |bypass: f64, celsius: f64| {
        let (mut design, mut analysis) = changed(|_| ());
        design.path.bypass_area = bypass;
        design.chimney.rated_temperature = kelvin(538.0);
        analysis.height_of_fire.firebox_outlet = kelvin(celsius);
        let found = one(&check(&design, &analysis), Rule::Around(Around::BypassOpen));
        found.map(|found| found.severity)
    };
    assert_eq!(told(0.01, 538.1), Some(NOTE));
    assert_eq!(told(0.01, 537.9), None);
    assert_eq!(told(0.0, 900.0), None);
}
