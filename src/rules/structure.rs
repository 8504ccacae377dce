//! What the heater weighs, what carries it, how far its facing stands off, and the gap in which its core
//! grows.

use super::around::Around;
use super::edges::{Edges, Judged};
use super::sets::{Matter, rule_of};
use super::{Finding, Known, Lever, Place, Rule, Severity};
use crate::analysis::Analysis;
use crate::analysis::facing::{Facing, Side, TIE_REACH};
use crate::analysis::structure::Structure;
use crate::build::support::{FOOTING_DEPTH, FOOTING_PROJECTION, FOOTING_THICKNESS, bearing};
use crate::design::building::{Carrier, ChimneyCarrier, Seismic};
use crate::design::field::FieldId;
use crate::design::{Design, Layout};
use crate::physics::expansion::thermal_growth;
use crate::physics::formula::{Formula, formula};
use crate::sources::{
    self, ASTM_E1602_PATH, EXPANSION, FRAMING, GEOMETRY, IRC_SEISMIC_E, SEPARATE_FOOTING,
};
use crate::units::Quantity;

/// Least mass of a masonry heater: 1760 lb (kg).
pub const MASS: f64 = 798.32;
/// Least path of a masonry heater over the largest dimension of its firebox (–).
pub const DIMENSIONS: f64 = 2.0;
/// What wood framing of a house is meant to carry: 40 psf (Pa).
pub const FRAMING_LOAD: f64 = 1915.2;
/// By how much a facing stands farther off the runs than its gap before it is told (m), 1 in; common
/// practice, no source.
pub const APART: f64 = 0.0254;
/// Length or height of a wall between what holds it, over its thickness, at most (–).
pub const FREE: f64 = 18.0;
/// North America, height over width from which a body is reinforced in category D (–).
pub const SLENDERNESS: f64 = 3.5;

pub(super) fn check(
    design: &Design,
    (analysis, known): (&Analysis, Known<'_>),
    findings: &mut Vec<Finding>,
) {
    let structure = &analysis.structure;
    findings.extend(mass(design, structure));
    findings.extend(path(design, analysis));
    match design.support.carrier {
        Carrier::NotStated => findings.push(Matter::Carrier.not_stated()),
        Carrier::Framing => {
            let figures = [structure.bearing, FRAMING_LOAD];
            let lever = Lever { field: FieldId::Carrier, raise: false };
            let rule = Around::OnFraming;
            findings.push(rule.beyond(figures, Quantity::Bearing, lever, &FRAMING));
        }
        Carrier::HouseSlab => {
            let lever = Lever { field: FieldId::Carrier, raise: false };
            findings.push(Around::OnHouseSlab.bare(Some(lever), &SEPARATE_FOOTING));
        }
        Carrier::Footing | Carrier::Walls => {
            footing(design, findings);
            findings.extend(soil(design, structure));
        }
    }
    findings.extend(seismic(design, structure));
    findings.extend(apart(design));
    findings.extend(gap(design, (analysis, known)));
    if let Some(edges) = known.found_edges() {
        findings.extend(gap_at_the_edge(design, analysis, (edges, findings)));
    }
}

fn mass(design: &Design, structure: &Structure) -> Option<Finding> {
    let source = rule_of(design.site.rule_set, Matter::Mass)?;
    let lever = Lever { field: FieldId::FacingThickness, raise: true };
    let figures = [structure.heater, MASS];
    (structure.heater < MASS)
        .then(|| Around::MassSmall.beyond(figures, Quantity::Weight, lever, source))
}

/// What makes a path that of a masonry heater; without runs it is none, which is told elsewhere.
fn path(design: &Design, analysis: &Analysis) -> Option<Finding> {
    rule_of(design.site.rule_set, Matter::Mass)?;
    let firebox = &design.firebox;
    let asked = path_of_definition(firebox.largest());
    let found = analysis.height_of_fire.path_length;
    let source = &ASTM_E1602_PATH;
    match design.path.run_count {
        0 => None,
        1 => {
            let lever = Lever { field: FieldId::RunCount, raise: true };
            Some(Around::NoReversal.bare(Some(lever), source))
        }
        _ => {
            let lever = Lever { field: FieldId::RunLength, raise: true };
            let rule = Around::PathOfDefinition;
            let figures = [found, asked];
            (found < asked).then(|| rule.beyond(figures, Quantity::Length, lever, source))
        }
    }
}

fn footing(design: &Design, findings: &mut Vec<Finding>) {
    let Some(source) = rule_of(design.site.rule_set, Matter::Footing) else { return };
    let support = &design.support;
    let deep = support.frost_depth.max(FOOTING_DEPTH);
    let rows = [
        (
            Around::FootingThin,
            [support.footing_thickness, FOOTING_THICKNESS],
            FieldId::FootingThickness,
        ),
        (
            Around::FootingNarrow,
            [support.footing_projection, FOOTING_PROJECTION],
            FieldId::FootingProjection,
        ),
        (Around::FootingShallow, [support.footing_depth, deep], FieldId::FootingDepth),
    ];
    findings.extend(rows.into_iter().filter_map(|(rule, sizes, field)| {
        rule.short(sizes, Lever { field, raise: true }, source)
    }));
}

fn soil(design: &Design, structure: &Structure) -> Option<Finding> {
    let source = rule_of(design.site.rule_set, Matter::Soil)?;
    let Some(bears) = bearing(design.support.soil) else {
        return Some(Matter::Soil.not_stated());
    };
    let lever = Lever { field: FieldId::FootingProjection, raise: true };
    let figures = [structure.soil, bears];
    (bears < structure.soil)
        .then(|| Around::SoilOverloaded.beyond(figures, Quantity::Bearing, lever, source))
}

fn seismic(design: &Design, structure: &Structure) -> Option<Finding> {
    let source = rule_of(design.site.rule_set, Matter::Seismic)?;
    match design.support.seismic {
        Seismic::NotStated => Some(Matter::Seismic.not_stated()),
        Seismic::Low => None,
        Seismic::Extreme => Some(Around::SeismicEngineered.bare(None, &IRC_SEISMIC_E)),
        Seismic::High => {
            let carries = design.support.chimney == ChimneyCarrier::Heater;
            let slender = SLENDERNESS < structure.slenderness;
            let rule = if carries || slender {
                Around::SeismicReinforcement
            } else {
                Around::SeismicAnchor
            };
            Some(rule.bare(None, source))
        }
    }
}

/// Shortest path of a masonry heater by definition (m).
///
/// L = 2 d
///
/// * `largest` (m): largest inner dimension of the firebox.
///
/// # Source
///
/// [`ASTM_E1602_PATH`].
pub fn path_of_definition(largest: f64) -> f64 {
    DIMENSIONS * largest
}

/// [`path_of_definition`].
pub const PATH_OF_DEFINITION: Formula = formula!(
    path_of_definition: "L = 2 d", ASTM_E1602_PATH,
    "L" "shortest path of a masonry heater" LENGTH;
    largest "d" "largest inner dimension of the firebox" LENGTH,
);

/// The facing before the runs. At their ends little of the heat passes, so that there only ties count.
/// Where none reaches, the facing is a wall between its corners, what is tied below and the cap.
fn apart(design: &Design) -> Option<Finding> {
    let facing = Facing::new(design);
    let (side, distance) = facing.farthest(&Side::ALL)?;
    let lever = nearer(design, side);
    let far = [distance, TIE_REACH];
    let free = [facing.unheld(), FREE * design.shell.facing_thickness];
    if free[1] < free[0] {
        let found = Around::FacingUntied;
        return Some(found.beyond(free, Quantity::Length, lever, &sources::LATERAL_SUPPORT));
    }
    if TIE_REACH < distance {
        let found = Around::TiesOutOfReach;
        return Some(found.beyond(far, Quantity::Size, lever, &sources::TIE_REACH));
    }
    let (side, distance) = facing.farthest(&[Side::Front, Side::Back])?;
    let figures = [distance, design.shell.gap];
    let lever = nearer(design, side);
    (design.shell.gap + APART < distance)
        .then(|| Around::FacingApart.beyond(figures, Quantity::Size, lever, &GEOMETRY))
}

/// What brings the core to the facing on a side.
const fn nearer(design: &Design, side: Side) -> Lever {
    let field = match (design.path.layout, side) {
        (Layout::Behind, Side::Front) => FieldId::FireboxHeight,
        (_, Side::Front | Side::Back) => FieldId::RunWidth,
        (_, Side::Left) => FieldId::CoreThickness,
        (_, Side::Right) => FieldId::RunLength,
    };
    Lever { field, raise: true }
}

const WIDER: Lever = Lever { field: FieldId::Gap, raise: true };

/// The core around the hottest run against the gap, as if it were as hot all along and grew toward one
/// end alone: as hot as its face at the height of the first fire, and as its mean when the days repeat.
fn gap(design: &Design, (analysis, known): (&Analysis, Known<'_>)) -> Option<Finding> {
    let fire = &analysis.height_of_fire;
    let walls = fire.runs.iter().map(|run| run.wall);
    let days = known.days().map(|(_, day)| day.layers.core);
    let hottest = walls.chain(days).fold(design.site.room_temperature, f64::max);
    let grows = growth(design, analysis, hottest);
    if design.shell.facing_thickness <= 0.0 {
        return None;
    }
    Around::GapSmall.short([design.shell.gap, grows], WIDER, &EXPANSION)
}

/// The same with an overload, where it is not said already.
fn gap_at_the_edge(
    design: &Design,
    analysis: &Analysis,
    (edges, findings): (&Edges, &[Finding]),
) -> Option<Finding> {
    let said = Rule::Around(Around::GapSmall);
    let is_said = findings.iter().any(|finding| finding.rule == said);
    if is_said || design.shell.facing_thickness <= 0.0 {
        return None;
    }
    let grows =
        [&edges.layers, &edges.layers_edge].map(|layers| growth(design, analysis, layers.core));
    let found = Judged::growth(grows, design.shell.gap).finding(Place::Whole, WIDER)?;
    Some(Finding { severity: found.severity.min(Severity::LookAgain), ..found })
}

/// Growth of the longest core at a temperature (m).
fn growth(design: &Design, analysis: &Analysis, temperature: f64) -> f64 {
    let rise = temperature - design.site.room_temperature;
    let expansion = design.shell.core_material.expansion();
    thermal_growth(expansion, analysis.structure.longest_core, rise)
}
