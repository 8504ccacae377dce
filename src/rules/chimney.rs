//! Chimney and connector: distances, liner, fire of the soot, height above the roof, cleanout.

use super::around::Around;
use super::sets::{Matter, rule_of};
use super::{Finding, Lever};
use crate::analysis::connection::Connection;
use crate::design::building::{
    ChimneyCarrier, ChimneyKind, ChimneyPlace, ConnectorKind, Stated,
};
use crate::design::field::FieldId;
use crate::design::{Design, RuleSet};
use crate::sources::{GEOMETRY, SOOT_FIRE_EUROPE};
use crate::units::Quantity;

/// North America, chimney in the house or its wall: 2 in (m).
pub const GAP_INSIDE: f64 = 0.0508;
/// North America, chimney wholly outside: 1 in (m).
pub const GAP_OUTSIDE: f64 = 0.025;
/// North America, single-wall connector: 18 in (m).
pub const CONNECTOR: f64 = 0.457;
/// Europe, single-wall connector (m).
pub const EUROPE_CONNECTOR: f64 = 0.400;
/// North America, masonry around a liner: nominal 4 in, of brick 3 5/8 in, that is printed as 92 mm
/// (m).
pub const WALL: f64 = 0.092;
/// North America, mouth above the roof: 3 ft (m).
pub const ABOVE_ROOF: f64 = 0.914;
/// North America, mouth above what is near: 2 ft (m).
pub const ABOVE_NEAR: f64 = 0.6096;
/// North America, what counts as near: 10 ft (m).
pub const NEAR: f64 = 3.048;
/// Hair by which something may be farther than near (m).
const HAIR: f64 = 1e-6;

pub(super) fn check(design: &Design, findings: &mut Vec<Finding>) {
    findings.extend(
        [
            room(design),
            gap(design),
            connector(design),
            lining(design),
            soot_fire(design),
            roof(design),
            cleanout(design),
        ]
        .into_iter()
        .flatten(),
    );
}

/// Facing and chimney cannot stand in the same place.
fn room(design: &Design) -> Option<Finding> {
    if design.support.chimney == ChimneyCarrier::Heater {
        return None;
    }
    let lever = Lever { field: FieldId::ConnectorLength, raise: true };
    let shortest = Connection::new(design).shortest(design);
    let sizes = [design.chimney.connector_length, shortest];
    Around::ConnectorShort.short(sizes, lever, &GEOMETRY)
}

/// The least that is stated or left between the outside of the chimney and what can burn, with what
/// makes it more: the wall at the side counts as standing on the side of the chimney too.
fn to_wood(design: &Design) -> (f64, FieldId) {
    let around = &design.surroundings;
    let stated = (around.chimney, FieldId::ChimneyDistance);
    let is_apart = design.chimney.place == ChimneyPlace::Outside
        || design.support.chimney == ChimneyCarrier::Heater;
    if is_apart {
        return stated;
    }
    let [side, behind] = Connection::new(design).to_walls(design);
    let walls = [(side, FieldId::SideDistance), (behind, FieldId::BehindDistance)];
    let least = walls.into_iter().fold(
        stated,
        |least, wall| {
            if wall.0 < least.0 { wall } else { least }
        },
    );
    (least.0.max(0.0), least.1)
}

/// What a system of tested parts asks for stands on its label, in Europe in its designation; of other
/// chimneys nothing is known there.
fn gap(design: &Design) -> Option<Finding> {
    let tested = design.chimney.kind == ChimneyKind::System;
    if tested && design.site.rule_set == RuleSet::Europe {
        return Some(Around::ByLabel(Matter::ChimneyGap).bare(None, &SOOT_FIRE_EUROPE));
    }
    let source = rule_of(design.site.rule_set, Matter::ChimneyGap)?;
    if tested {
        return Some(Around::ByLabel(Matter::ChimneyGap).bare(None, source));
    }
    let limit = match design.chimney.place {
        ChimneyPlace::NotStated => return Some(Matter::ChimneyGap.not_stated()),
        ChimneyPlace::Inside => GAP_INSIDE,
        ChimneyPlace::Outside => GAP_OUTSIDE,
    };
    let (found, field) = to_wood(design);
    let lever = Lever { field, raise: true };
    Around::ChimneyClose.short([found, limit], lever, source)
}

fn connector(design: &Design) -> Option<Finding> {
    let set = design.site.rule_set;
    let source = rule_of(set, Matter::Connector)?;
    let on_it = design.support.chimney == ChimneyCarrier::Heater;
    let bare = Connection::new(design).bare;
    if design.chimney.connector_length <= 0.0 || !on_it && bare <= 0.0 {
        return None;
    }
    match design.chimney.connector_kind {
        ConnectorKind::NotStated => Some(Matter::Connector.not_stated()),
        ConnectorKind::Tested => Some(Around::ByLabel(Matter::Connector).bare(None, source)),
        ConnectorKind::SingleWall => {
            let limit = if set == RuleSet::Europe { EUROPE_CONNECTOR } else { CONNECTOR };
            let lever = Lever { field: FieldId::ConnectorDistance, raise: true };
            let sizes = [design.surroundings.connector, limit];
            Around::ConnectorClose.short(sizes, lever, source)
        }
    }
}

fn lining(design: &Design) -> Option<Finding> {
    let source = rule_of(design.site.rule_set, Matter::Lining)?;
    let chimney = &design.chimney;
    match chimney.kind {
        ChimneyKind::NotStated => Some(Matter::Lining.not_stated()),
        ChimneyKind::System => None,
        ChimneyKind::Unlined => {
            let lever = Lever { field: FieldId::ChimneyKind, raise: true };
            Some(Around::ChimneyUnlined.bare(Some(lever), source))
        }
        ChimneyKind::Lined => {
            let lever = Lever { field: FieldId::MasonryWall, raise: true };
            Around::ChimneyWallThin.short([chimney.masonry_wall, WALL], lever, source)
        }
    }
}

fn soot_fire(design: &Design) -> Option<Finding> {
    let source = rule_of(design.site.rule_set, Matter::SootFire)?;
    match design.chimney.soot_fire {
        Stated::NotStated => Some(Matter::SootFire.not_stated()),
        Stated::Yes => None,
        Stated::No => {
            let lever = Lever { field: FieldId::SootFire, raise: true };
            Some(Around::SootFireUnrated.bare(Some(lever), source))
        }
    }
}

fn roof(design: &Design) -> Option<Finding> {
    let source = rule_of(design.site.rule_set, Matter::Roof)?;
    let chimney = &design.chimney;
    if chimney.roof_height <= 0.0 {
        return Some(Matter::Roof.not_stated());
    }
    let is_near = 0.0 < chimney.near_rise && chimney.near_distance <= NEAR + HAIR;
    let over_near = if is_near { chimney.near_rise + ABOVE_NEAR } else { 0.0 };
    let limit = ABOVE_ROOF.max(over_near);
    let found = chimney.mouth_height - chimney.roof_height;
    let lever = Lever { field: FieldId::MouthHeight, raise: true };
    (found < limit - HAIR)
        .then(|| Around::ChimneyLow.beyond([found, limit], Quantity::Length, lever, source))
}

fn cleanout(design: &Design) -> Option<Finding> {
    let source = rule_of(design.site.rule_set, Matter::FlueCleanout)?;
    match design.chimney.cleanout {
        Stated::NotStated => Some(Matter::FlueCleanout.not_stated()),
        Stated::Yes => None,
        Stated::No => {
            let lever = Lever { field: FieldId::FlueCleanout, raise: true };
            Some(Around::FlueCleanoutMissing.bare(Some(lever), source))
        }
    }
}
