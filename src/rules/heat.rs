//! How hot materials, the wall behind and faces that are touched get, when the days repeat.

use super::edges::{Edges, Judged as JudgedEdge, TemperatureEdge};
use super::{
    Around, DayFigures, Figure, Finding, Hazard, Known, Lever, Matter, Place, Rule, Severity,
};
use crate::analysis::day::{GAP_FILM, INSULATED, LayerPeaks, OUTER_EMISSIVITY, gap_air};
use crate::design::building::{Below, BenchUse, Foam, Stated, VoidBelow};
use crate::design::field::FieldId;
use crate::design::material::{BOARD_LIMIT, CONCRETE_LIMIT, Material};
use crate::design::{Design, Layout, RuleSet, WallBehind};
use crate::physics::gap::{GapAir, WallBehind as BehindWall, across_gap};
use crate::sources::{
    BENCH_TOUCH, CHILD_TOUCH, COMBUSTIBLE_RISE, FOAM_BARRIER, FOAM_SERVICE, MORTAR_SERVICE,
    STEEL_SERVICE, Source, WALL_BEHIND, WOOD_FOR_LONG, WOOL_SERVICE,
};
use crate::units::{Quantity, ZERO_CELSIUS, kelvin};

/// Hottest that steel sheet may get (K).
pub const STEEL: f64 = 400.0 + ZERO_CELSIUS;
/// Hottest that mortar of lime or cement may get (K).
pub const MORTAR: f64 = 200.0 + ZERO_CELSIUS;
/// Where no mortar of lime or cement, and no concrete, holds (K).
pub const BINDER_GONE: f64 = 300.0 + ZERO_CELSIUS;
/// Hottest that mineral wool may get (K).
pub const WOOL: f64 = 600.0 + ZERO_CELSIUS;
/// By how much what can burn may be hotter than the room (K).
pub const RISE: f64 = 65.0;
/// Europe, hottest that it may get (K).
pub const EUROPE_WALL: f64 = 85.0 + ZERO_CELSIUS;
/// From here on wood that stays hot can light itself in the end (K).
pub const FOR_LONG: f64 = 77.0 + ZERO_CELSIUS;
/// Hottest face to sit on, for ten minutes (K).
pub const SEAT: f64 = 48.0 + ZERO_CELSIUS;
/// Hottest face to lie on, for eight hours (K).
pub const BED: f64 = 43.0 + ZERO_CELSIUS;
/// Stone and brick that burn a child who does not let go at once, in 10 s (K).
pub const REACH: f64 = 66.0 + ZERO_CELSIUS;

/// What must not get too hot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hot {
    /// Core toward the fire.
    Firebox,
    /// Core toward the gas of a run.
    Runs,
    /// Facing, on its inner side.
    Facing,
    /// Mortar of lime or cement in the facing.
    Mortar,
    /// Steel of the lintel and of the frame of the door.
    Steel,
    /// Insulating board.
    Board,
    /// Concrete of the base slab.
    Base,
    /// Sheet of the connector.
    Connector,
    /// Wall of the flue.
    Liner,
    /// Mineral wool around the flue.
    Wool,
    /// Face of a wood wall behind.
    Wall,
    /// The same for years.
    WallForLong,
    /// Foam or sheeting behind that face.
    Foam,
    /// Wood or foam across a void below the base slab.
    Below,
}

impl Hot {
    /// All of them, a heavier one before the milder one of its matter.
    pub const ALL: [Self; 14] = [
        Self::Firebox,
        Self::Runs,
        Self::Facing,
        Self::Mortar,
        Self::Steel,
        Self::Board,
        Self::Base,
        Self::Connector,
        Self::Liner,
        Self::Wool,
        Self::Wall,
        Self::WallForLong,
        Self::Foam,
        Self::Below,
    ];

    /// Short name, what is wrong, for files and tests.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Firebox => "firebox-core-too-hot",
            Self::Runs => "run-core-too-hot",
            Self::Facing => "facing-too-hot",
            Self::Mortar => "mortar-too-hot",
            Self::Steel => "door-steel-too-hot",
            Self::Board => "board-too-hot",
            Self::Base => "base-too-hot",
            Self::Connector => "connector-too-hot",
            Self::Liner => "liner-too-hot",
            Self::Wool => "wool-too-hot",
            Self::Wall => "wall-behind-too-hot",
            Self::WallForLong => "wall-behind-hot-for-long",
            Self::Foam => "foam-too-hot",
            Self::Below => "below-too-hot",
        }
    }

    /// The same with an overload.
    pub const fn overload_id(self) -> &'static str {
        match self {
            Self::Firebox => "overload-firebox-core-too-hot",
            Self::Runs => "overload-run-core-too-hot",
            Self::Facing => "overload-facing-too-hot",
            Self::Mortar => "overload-mortar-too-hot",
            Self::Steel => "overload-door-steel-too-hot",
            Self::Board => "overload-board-too-hot",
            Self::Base => "overload-base-too-hot",
            Self::Connector => "overload-connector-too-hot",
            Self::Liner => "overload-liner-too-hot",
            Self::Wool => "overload-wool-too-hot",
            Self::Wall => "overload-wall-behind-too-hot",
            Self::WallForLong => "overload-wall-behind-hot-for-long",
            Self::Foam => "overload-foam-too-hot",
            Self::Below => "overload-below-too-hot",
        }
    }

    /// The same at the edge alone.
    pub const fn edge_id(self) -> &'static str {
        match self {
            Self::Firebox => "overload-firebox-core-may-be-too-hot",
            Self::Runs => "overload-run-core-may-be-too-hot",
            Self::Facing => "overload-facing-may-be-too-hot",
            Self::Mortar => "overload-mortar-may-be-too-hot",
            Self::Steel => "overload-door-steel-may-be-too-hot",
            Self::Board => "overload-board-may-be-too-hot",
            Self::Base => "overload-base-may-be-too-hot",
            Self::Connector => "overload-connector-may-be-too-hot",
            Self::Liner => "overload-liner-may-be-too-hot",
            Self::Wool => "overload-wool-may-be-too-hot",
            Self::Wall => "overload-wall-behind-may-be-too-hot",
            Self::WallForLong => "overload-wall-behind-may-be-hot-for-long",
            Self::Foam => "overload-foam-may-be-too-hot",
            Self::Below => "overload-below-may-be-too-hot",
        }
    }

    /// The heavier one that speaks of the same.
    pub(super) const fn milder_than(self) -> Option<Self> {
        match self {
            Self::Mortar => Some(Self::Facing),
            Self::WallForLong => Some(Self::Wall),
            _ => None,
        }
    }

    /// How much a temperature (K) beyond its limit weighs: what holds the smoke in, and what can burn,
    /// must not fail. A facing that cracks, a slab that has room to do so, and wood that is warm
    /// rather than hot can be mended; mortar can be chosen by who lays it.
    fn weight(self, found: f64) -> Severity {
        match self {
            // Of mortar and concrete a range is known; and a slab that keeps six sevenths of its
            // strength carries a heater, which takes a hundredth of it.
            Self::Mortar | Self::Base if found <= BINDER_GONE => Severity::GoodToKnow,
            Self::Firebox
            | Self::Runs
            | Self::Connector
            | Self::Liner
            | Self::Wall
            | Self::Foam
            | Self::Below => Severity::DoNotBuild,
            Self::Facing
            | Self::Mortar
            | Self::Steel
            | Self::Board
            | Self::Base
            | Self::Wool
            | Self::WallForLong => Severity::LookAgain,
        }
    }

    const fn place(self) -> Place {
        match self {
            Self::Firebox => Place::Firebox,
            Self::Runs => Place::Run(0),
            Self::Facing | Self::Mortar | Self::Board => Place::Side,
            Self::Steel => Place::Door,
            Self::Base | Self::Below => Place::Below,
            Self::Connector => Place::RunsOutlet,
            Self::Liner | Self::Wool => Place::ChimneyInlet,
            Self::Wall | Self::WallForLong | Self::Foam => Place::Back,
        }
    }

    const fn lever(self) -> Lever {
        let field = match self {
            Self::Firebox | Self::Runs => FieldId::CoreMaterial,
            Self::Facing => FieldId::FacingMaterial,
            Self::Mortar => FieldId::CoreThickness,
            Self::Board => FieldId::FacingThickness,
            Self::Steel | Self::Base | Self::Below => FieldId::FireboxWall,
            Self::Connector | Self::Liner | Self::Wool => FieldId::RunLength,
            Self::Wall | Self::WallForLong | Self::Foam => FieldId::BackInsulation,
        };
        Lever { field, raise: true }
    }

    /// How hot it may get (K); none where there is nothing of the kind.
    fn limit(self, design: &Design) -> Option<(f64, &'static Source)> {
        let Design { shell, chimney, surroundings: around, site, .. } = design;
        let framed = around.wall_behind == WallBehind::Framed;
        let there = |is_there: bool, limit| is_there.then_some(limit);
        match self {
            Self::Firebox | Self::Runs => shell.core_material.service_temperature(),
            Self::Facing => shell.facing_material.service_temperature(),
            // Dry stones and slabs of steatite are set without it.
            Self::Mortar => {
                there(shell.facing_material != Material::Soapstone, (MORTAR, &MORTAR_SERVICE))
            }
            Self::Steel => Some((STEEL, &STEEL_SERVICE)),
            Self::Board => Some(BOARD_LIMIT),
            Self::Base => Some(CONCRETE_LIMIT),
            Self::Connector => there(0.0 < chimney.connector_length, (STEEL, &STEEL_SERVICE)),
            Self::Liner => chimney.wall_material.service_temperature(),
            Self::Wool => Some((WOOL, &WOOL_SERVICE)),
            Self::Wall => {
                let rise = site.room_temperature + RISE;
                let europe = site.rule_set == RuleSet::Europe;
                let limit = if europe { rise.min(EUROPE_WALL) } else { rise };
                there(framed, (limit, &COMBUSTIBLE_RISE))
            }
            Self::WallForLong => there(framed, (FOR_LONG, &WOOD_FOR_LONG)),
            Self::Foam => foam_limit(around.foam).map(|limit| (limit, &FOAM_SERVICE)),
            // Without a void neither of them may lie there at all.
            Self::Below if around.void_below == VoidBelow::Closed => None,
            Self::Below => match around.below {
                Below::Wood => Some((site.room_temperature + RISE, &COMBUSTIBLE_RISE)),
                Below::Foam => foam_limit(Foam::Polystyrene).map(|l| (l, &FOAM_SERVICE)),
                Below::NotStated | Below::Mineral => None,
            },
        }
    }

    /// Its temperature (K) in a room, with the wall behind at another.
    pub(crate) fn of(self, room: f64, layers: &LayerPeaks, wall: f64) -> f64 {
        match self {
            Self::Below => across_void(room, layers.under),
            // Without a facing it stands in the core.
            Self::Steel if layers.facing <= 0.0 => layers.firebox,
            Self::Firebox => layers.firebox,
            Self::Runs => layers.runs,
            Self::Facing | Self::Mortar | Self::Steel => layers.facing,
            Self::Board => layers.board,
            Self::Base => layers.base,
            Self::Connector => layers.connector,
            Self::Liner => layers.liner,
            Self::Wool => layers.wool,
            Self::Wall | Self::WallForLong | Self::Foam => wall,
        }
    }
}

/// What lies across a ventilated void below a slab (K), as a wall across a gap in which air moves
/// slowly: warm air does not sink.
fn across_void(room: f64, under: f64) -> f64 {
    let below = BehindWall {
        room,
        beyond: room,
        resistance: INSULATED,
        film: GAP_FILM,
        emissivity: OUTER_EMISSIVITY,
        air: GapAir::Poor,
    };
    across_gap(&below, under).0
}

const fn foam_limit(foam: Foam) -> Option<f64> {
    match foam {
        Foam::NotStated | Foam::Missing => None,
        Foam::Polystyrene => Some(kelvin(75.0)),
        Foam::Polyurethane => Some(kelvin(90.0)),
        Foam::Membrane => Some(kelvin(80.0)),
    }
}

/// What is touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Touch {
    /// Bench to sit on.
    Seat,
    /// Bench to lie on.
    Bed,
    /// Faces within reach of small children.
    Reach,
    /// Glass and metal of the door.
    Door,
}

impl Touch {
    /// Short name, what is wrong, for files and tests.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Seat => "bench-hot-to-sit-on",
            Self::Bed => "bench-hot-to-lie-on",
            Self::Reach => "face-hot-for-children",
            Self::Door => "door-hot-for-children",
        }
    }

    /// The same with an overload; the door is hot with any fire.
    pub const fn overload_id(self) -> &'static str {
        match self {
            Self::Seat => "overload-bench-hot-to-sit-on",
            Self::Bed => "overload-bench-hot-to-lie-on",
            Self::Reach => "overload-face-hot-for-children",
            Self::Door => self.id(),
        }
    }

    /// The same at the edge alone.
    pub const fn edge_id(self) -> &'static str {
        match self {
            Self::Seat => "overload-bench-may-be-hot-to-sit-on",
            Self::Bed => "overload-bench-may-be-hot-to-lie-on",
            Self::Reach => "overload-face-may-be-hot-for-children",
            Self::Door => self.id(),
        }
    }

    /// How much a temperature (K) beyond its limit weighs. Who sleeps does not feel in time what
    /// burns: a bed that burns within ten minutes forbids building. Faces are judged more mildly
    /// where nobody has stated whether there are children.
    fn weight(self, design: &Design, found: f64) -> Severity {
        let is_bed = design.shell.bench_use == BenchUse::Bed;
        let children = design.surroundings.children == Stated::Yes;
        match self {
            Self::Bed if is_bed && SEAT < found => Severity::DoNotBuild,
            Self::Seat | Self::Bed => Severity::LookAgain,
            Self::Reach if children => Severity::LookAgain,
            Self::Reach | Self::Door => Severity::GoodToKnow,
        }
    }

    const fn place(self) -> Place {
        match self {
            Self::Seat | Self::Bed => Place::Run(0),
            Self::Reach => Place::Front,
            Self::Door => Place::Door,
        }
    }

    const fn lever(self) -> Lever {
        let field = match self {
            Self::Seat | Self::Bed => FieldId::Cap,
            Self::Reach | Self::Door => FieldId::FacingThickness,
        };
        Lever { field, raise: true }
    }

    const fn source(self) -> &'static Source {
        match self {
            Self::Seat | Self::Bed => &BENCH_TOUCH,
            Self::Reach | Self::Door => &CHILD_TOUCH,
        }
    }
}

/// What is touched in a house, with the most that it may come to (K).
pub fn touchable(design: &Design) -> impl Iterator<Item = (Touch, f64)> {
    let bench = match design.shell.bench_use {
        BenchUse::Seat => (Touch::Seat, SEAT),
        BenchUse::Bed | BenchUse::NotStated => (Touch::Bed, BED),
    };
    let bench = (design.path.layout == Layout::Bench).then_some(bench);
    let may_be_children = design.surroundings.children != Stated::No;
    let reach = may_be_children.then_some((Touch::Reach, REACH));
    bench.into_iter().chain(reach)
}

/// Figures of the days; nothing of them is judged where no day is known.
pub(super) fn check(design: &Design, known: Known<'_>, findings: &mut Vec<Finding>) {
    let room = design.site.room_temperature;
    for hot in Hot::ALL {
        let figure =
            |day: &DayFigures| hot.of(room, &day.layers, day.wall_behind.unwrap_or_default());
        let Some((_, day)) = known.worst(figure) else { continue };
        let Some((limit, source)) = hot.limit(design) else { continue };
        let found = figure(day);
        if limit < found && !is_said(hot, hot.weight(found), findings) {
            findings.push(finding(Rule::TooHot(hot), hot, [found, limit], source));
        }
    }
    touched(design, known, findings);
}

/// The same with an overload, at the unfavorable edge.
pub(super) fn check_edges(design: &Design, edges: &Edges, findings: &mut Vec<Finding>) {
    let room = design.site.room_temperature;
    for hot in Hot::ALL {
        let Some((limit, source)) = hot.limit(design) else { continue };
        let figure = TemperatureEdge {
            nominal: hot.of(room, &edges.layers, edges.wall_behind.nominal),
            edge: hot.of(room, &edges.layers_edge, edges.wall_behind.edge),
        };
        let judged = JudgedEdge::hot(Hazard::TooHot(hot), figure, limit);
        let Some(found) = judged.finding(hot.place(), hot.lever()) else { continue };
        let severity = found.severity.min(hot.weight(found.found.value));
        if !is_said(hot, severity, findings) {
            findings.push(Finding { severity, source, ..found });
        }
    }
    touched_at_the_edge(design, edges, findings);
}

/// Whether its matter was found already and weighs as much.
fn is_said(hot: Hot, severity: Severity, findings: &[Finding]) -> bool {
    let same = |one: Hot| Some(one) == hot.milder_than() || one == hot;
    findings.iter().filter(|finding| severity <= finding.severity).any(|finding| match finding
        .rule
    {
        Rule::TooHot(one) | Rule::AtTheEdge(Hazard::TooHot(one), _) => same(one),
        _ => false,
    })
}

fn finding(rule: Rule, hot: Hot, [found, limit]: [f64; 2], source: &'static Source) -> Finding {
    let figure = |value| Figure { value, quantity: Quantity::Temperature };
    Finding {
        rule,
        severity: hot.weight(found),
        place: hot.place(),
        found: figure(found),
        limit: Some(figure(limit)),
        lever: Some(hot.lever()),
        source,
    }
}

/// What is touched, on the hottest day.
fn touched(design: &Design, known: Known<'_>, findings: &mut Vec<Finding>) {
    for (touch, limit) in touchable(design) {
        let figure = |day: &DayFigures| match touch {
            Touch::Reach => day.upright.max(day.bench),
            Touch::Seat | Touch::Bed | Touch::Door => day.bench,
        };
        let Some((_, day)) = known.worst(figure) else { continue };
        let found = figure(day);
        if limit < found {
            let figure = |value| Figure { value, quantity: Quantity::Temperature };
            findings.push(Finding {
                rule: Rule::Touch(touch),
                severity: touch.weight(design, found),
                place: touch.place(),
                found: figure(found),
                limit: Some(figure(limit)),
                lever: Some(touch.lever()),
                source: touch.source(),
            });
        }
    }
}

/// The same with an overload, at the unfavorable edge; what was found as heavy is not said again.
fn touched_at_the_edge(design: &Design, edges: &Edges, findings: &mut Vec<Finding>) {
    for (touch, limit) in touchable(design) {
        let figure = match touch {
            Touch::Reach => edges.upright.or(edges.bench),
            Touch::Seat | Touch::Bed | Touch::Door => edges.bench,
        };
        let judged = JudgedEdge::hot(Hazard::Touch(touch), figure, limit);
        let Some(found) = judged.finding(touch.place(), touch.lever()) else { continue };
        let severity = found.severity.min(touch.weight(design, found.found.value));
        let same = |known: &Finding| known.rule == Rule::Touch(touch);
        if !findings.iter().any(|known| same(known) && severity <= known.severity) {
            findings.push(Finding { severity, source: touch.source(), ..found });
        }
    }
}

/// What the design alone says of the wall behind, of foam and of a door that children reach.
pub(super) fn check_stated(design: &Design, findings: &mut Vec<Finding>) {
    let around = &design.surroundings;
    if around.wall_behind == WallBehind::Framed && gap_air(design) == GapAir::Blocked {
        let lever = Lever { field: FieldId::GapLow, raise: true };
        findings.push(Around::GapBlocked.bare(Some(lever), &WALL_BEHIND));
    }
    let covered = Lever { field: FieldId::FoamCovered, raise: true };
    match (around.foam, around.foam_covered) {
        (Foam::Polystyrene | Foam::Polyurethane, Stated::No) => {
            findings.push(Around::FoamBare.bare(Some(covered), &FOAM_BARRIER));
        }
        (Foam::Polystyrene | Foam::Polyurethane, Stated::NotStated) => {
            findings.push(Matter::FoamCover.not_stated());
        }
        (Foam::NotStated, _) if around.wall_behind != WallBehind::NoWall => {
            findings.push(Matter::Foam.not_stated());
        }
        _ => {}
    }
    if around.children == Stated::Yes {
        let figure = Figure { value: 0.0, quantity: Quantity::Count };
        findings.push(Finding {
            rule: Rule::Touch(Touch::Door),
            severity: Severity::GoodToKnow,
            place: Place::Door,
            found: figure,
            limit: None,
            lever: None,
            source: &CHILD_TOUCH,
        });
    }
}
