//! Inputs outside what is usual, formulas outside their range, wet wood, and a fire short of air.

use super::{Figure, Finding, LEAST_AIR, Lever, Place, Question, Rule, Severity, TESTED_AIR};
use crate::analysis::Analysis;
use crate::analysis::extrapolation::{Extrapolation, Formula, Stretch};
use crate::design::Design;
use crate::design::field::{FIELDS, FieldId, Kind};
use crate::sources::{
    AIR_OF_OVERLOAD, COLEBROOK_1939, EN_15544_MOISTURE, LECKNER_1972, NORRIS_1970,
    PURE_GAS_TRANSPORT, SHAH_LONDON_1978, Source, USUAL_RANGE,
};
use crate::units::Quantity;

/// Wettest wood (–).
pub const MOISTURE: f64 = 0.20;
/// Hair by which an input may leave its usual range, relative to the range (–).
const SLACK: f64 = 1e-9;

/// The question on which an input bears most.
pub(super) const fn question(id: FieldId) -> Question {
    match id {
        FieldId::Altitude
        | FieldId::OutdoorTemperature
        | FieldId::HouseSuction
        | FieldId::WindPressure
        | FieldId::InletArea
        | FieldId::InletCoefficient
        | FieldId::PathRoughness
        | FieldId::Reversal
        | FieldId::Turn
        | FieldId::Bleed
        | FieldId::Bypass
        | FieldId::MouthHeight
        | FieldId::FlueWidth
        | FieldId::FlueDepth
        | FieldId::FlueWall
        | FieldId::Insulation
        | FieldId::OutdoorLength
        | FieldId::FlueRoughness
        | FieldId::MouthCoefficient
        | FieldId::ConnectorLength => Question::Draw,
        FieldId::RatedTemperature
        | FieldId::SideDistance
        | FieldId::BehindDistance
        | FieldId::FrontDistance
        | FieldId::AboveDistance
        | FieldId::CleanoutSpace
        | FieldId::RoofHeight
        | FieldId::NearRise
        | FieldId::NearDistance
        | FieldId::MasonryWall
        | FieldId::ChimneyDistance
        | FieldId::ConnectorDistance
        | FieldId::HearthFront
        | FieldId::HearthSide
        | FieldId::FootingThickness
        | FieldId::FootingProjection
        | FieldId::FootingDepth
        | FieldId::FrostDepth => Question::Safe,
        _ => Question::Heat,
    }
}

pub(super) fn check(design: &Design, analysis: &Analysis, findings: &mut Vec<Finding>) {
    findings.extend(FIELDS.iter().filter_map(|field| {
        let Kind::Number(number) = &field.kind else {
            return None;
        };
        let value = (number.get)(design);
        let (low, high) = (*number.usual.start(), *number.usual.end());
        let slack = SLACK * (high - low);
        // These are judged by themselves.
        let wet = field.id == FieldId::Moisture && high < value;
        let scarce = field.id == FieldId::ExcessAir && value < TESTED_AIR;
        let limit = if value < low - slack && !scarce {
            low
        } else if high + slack < value && !wet {
            high
        } else {
            return None;
        };
        Some(Finding {
            rule: Rule::InputUnusual(field.id),
            severity: Severity::GoodToKnow,
            place: Place::Whole,
            found: Figure { value, quantity: number.quantity },
            limit: Some(Figure { value: limit, quantity: number.quantity }),
            lever: Some(Lever { field: field.id, raise: value < low }),
            source: &USUAL_RANGE,
        })
    }));
    findings.extend(analysis.height_of_fire.extrapolations.iter().filter_map(outside_formula));
    findings.extend(wet_wood(design));
    findings.extend(scarce_air(design));
}

/// A fire that is stated with less air than tested chambers have, or than flames burn with: what the
/// model burns whole would give off carbon monoxide.
fn scarce_air(design: &Design) -> Option<Finding> {
    let ratio = |value| Figure { value, quantity: Quantity::Ratio };
    let stated = design.fire.excess_air_ratio;
    let (severity, limit) = if stated < LEAST_AIR {
        (Severity::DoNotBuild, LEAST_AIR)
    } else if stated < TESTED_AIR {
        (Severity::LookAgain, TESTED_AIR)
    } else {
        return None;
    };
    Some(Finding {
        rule: Rule::AirScarce,
        severity,
        place: Place::Fire,
        found: ratio(stated),
        limit: Some(ratio(limit)),
        lever: Some(Lever { field: FieldId::ExcessAir, raise: true }),
        source: &AIR_OF_OVERLOAD,
    })
}

/// Gas too cold for a formula is passed over: there it is held, and carries little.
fn outside_formula(found: &Extrapolation) -> Option<Finding> {
    let Extrapolation { formula, stretch, value, to, .. } = *found;
    let (quantity, lever): (_, Option<(FieldId, bool)>) = match formula {
        Formula::ForcedConvection => (Quantity::Ratio, Some((FieldId::RunHeight, false))),
        Formula::ColebrookFriction | Formula::NorrisGain => {
            (Quantity::Ratio, Some((FieldId::PathRoughness, false)))
        }
        Formula::LecknerEmissivity | Formula::GasTransport => (Quantity::Temperature, None),
    };
    let figure = |value| Figure { value, quantity };
    (to < value).then(|| Finding {
        rule: Rule::OutsideFormula(formula),
        severity: Severity::GoodToKnow,
        place: match stretch {
            Stretch::Run(count) => Place::Run(count.saturating_sub(1)),
            Stretch::Flue => Place::ChimneyInlet,
        },
        found: figure(value),
        limit: Some(figure(to)),
        lever: lever.map(|(field, raise)| Lever { field, raise }),
        source: source(formula),
    })
}

/// Where the range of a formula comes from.
const fn source(formula: Formula) -> &'static Source {
    match formula {
        Formula::ForcedConvection => &SHAH_LONDON_1978,
        Formula::ColebrookFriction => &COLEBROOK_1939,
        Formula::NorrisGain => &NORRIS_1970,
        Formula::LecknerEmissivity => &LECKNER_1972,
        Formula::GasTransport => &PURE_GAS_TRANSPORT,
    }
}

fn wet_wood(design: &Design) -> Option<Finding> {
    let value = design.fire.moisture_fraction;
    let share = |value| Figure { value, quantity: Quantity::Share };
    (MOISTURE + SLACK < value).then(|| Finding {
        rule: Rule::WoodWet,
        severity: Severity::LookAgain,
        place: Place::Fire,
        found: share(value),
        limit: Some(share(MOISTURE)),
        lever: Some(Lever { field: FieldId::Moisture, raise: false }),
        source: &EN_15544_MOISTURE,
    })
}
