//! What the heater weighs, what carries it, and the gap in which its core grows.

use super::around::Around;
use super::sets::{Matter, rule_of};
use super::{Finding, Lever};
use crate::analysis::Analysis;
use crate::analysis::structure::Structure;
use crate::design::Design;
use crate::design::building::{Carrier, ChimneyCarrier, Seismic, Soil};
use crate::design::field::FieldId;
use crate::physics::expansion::thermal_growth;
use crate::sources::{EXPANSION, FRAMING, SEPARATE_FOOTING};
use crate::units::Quantity;

/// Least mass of a masonry heater: 1760 lb (kg).
pub const MASS: f64 = 798.32;
/// North America, thickness of a footing: 12 in (m).
pub const FOOTING_THICKNESS: f64 = 0.3048;
/// North America, by how much it is wider: 6 in (m).
pub const FOOTING_PROJECTION: f64 = 0.152;
/// North America, underside below grade where there is no frost: 12 in (m).
pub const FOOTING_DEPTH: f64 = 0.3048;
/// What wood framing of a house is meant to carry: 40 psf (Pa).
pub const FRAMING_LOAD: f64 = 1915.2;
/// North America, height over width from which a body is reinforced in category D (–).
pub const SLENDERNESS: f64 = 3.5;

const POUND_PER_SQUARE_FOOT: f64 = 47.880_26;

/// What a soil bears (Pa).
pub const fn bearing(soil: Soil) -> Option<f64> {
    let pounds_per_square_foot = match soil {
        Soil::NotStated => return None,
        Soil::Bedrock => 12_000.0,
        Soil::SoftRock => 4000.0,
        Soil::Gravel => 3000.0,
        Soil::Sand => 2000.0,
        Soil::Clay => 1500.0,
    };
    Some(pounds_per_square_foot * POUND_PER_SQUARE_FOOT)
}

pub(super) fn check(design: &Design, analysis: &Analysis, findings: &mut Vec<Finding>) {
    let structure = &analysis.structure;
    findings.extend(mass(design, structure));
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
    findings.extend(gap(design, analysis));
}

fn mass(design: &Design, structure: &Structure) -> Option<Finding> {
    let source = rule_of(design.site.rule_set, Matter::Mass)?;
    let lever = Lever { field: FieldId::FacingThickness, raise: true };
    let figures = [structure.heater, MASS];
    (structure.heater < MASS)
        .then(|| Around::MassSmall.beyond(figures, Quantity::Weight, lever, source))
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

/// The core around the hottest run against the gap, as if it grew toward one end alone.
fn gap(design: &Design, analysis: &Analysis) -> Option<Finding> {
    let fire = &analysis.height_of_fire;
    let walls = fire.runs.iter().map(|run| run.wall);
    let hottest = walls.fold(design.site.room_temperature, f64::max);
    let rise = hottest - design.site.room_temperature;
    let expansion = design.shell.core_material.expansion();
    let grows = thermal_growth(expansion, analysis.structure.longest_core, rise);
    if design.shell.facing_thickness <= 0.0 {
        return None;
    }
    let lever = Lever { field: FieldId::Gap, raise: true };
    Around::GapSmall.short([design.shell.gap, grows], lever, &EXPANSION)
}
