//! What the firing day alone shows: smoke for minutes, hot faces.

use super::{DayFigures, Figure, Finding, Lever, Place, Rule, Severity};
use crate::analysis::day::FacePlace;
use crate::design::field::FieldId;
use crate::sources::{ASTM_E1602_FACE, DRAFT_RESERVE};
use crate::units::{Quantity, ZERO_CELSIUS};

/// Hottest that a face of a masonry heater may be, away from its door (K).
pub const HOTTEST_FACE: f64 = 110.0 + ZERO_CELSIUS;

pub(super) fn check(day: &DayFigures, findings: &mut Vec<Finding>) {
    if day.smoke_back > 0.0 {
        findings.push(Finding {
            rule: Rule::SmokeBack,
            severity: Severity::DoNotBuild,
            place: Place::Door,
            found: Figure { value: day.smoke_back, quantity: Quantity::Duration },
            limit: None,
            lever: Some(Lever { field: FieldId::MouthHeight, raise: true }),
            source: &DRAFT_RESERVE,
        });
    }
    if day.smoke_back <= 0.0 && day.short_of_draft > 0.0 {
        findings.push(Finding {
            rule: Rule::ShortOfDraft,
            severity: Severity::LookAgain,
            place: Place::Door,
            found: Figure { value: day.short_of_draft, quantity: Quantity::Duration },
            limit: None,
            lever: Some(Lever { field: FieldId::MouthHeight, raise: true }),
            source: &DRAFT_RESERVE,
        });
    }
    if HOTTEST_FACE < day.hottest_face {
        let figure = |value| Figure { value, quantity: Quantity::Temperature };
        let (place, lever) = where_hot(day.hottest_place);
        findings.push(Finding {
            rule: Rule::FaceTooHot,
            severity: Severity::DoNotBuild,
            place,
            found: figure(day.hottest_face),
            limit: Some(figure(HOTTEST_FACE)),
            lever: Some(lever),
            source: &ASTM_E1602_FACE,
        });
    }
}

/// Where a hot face belongs, and what mends it.
pub(super) const fn where_hot(face: FacePlace) -> (Place, Lever) {
    let (place, field) = match face {
        FacePlace::Firebox => (Place::Firebox, FieldId::FacingThickness),
        FacePlace::Run(count) => {
            (Place::Run(count.saturating_sub(1)), FieldId::FacingThickness)
        }
        FacePlace::Cap => (Place::Ceiling, FieldId::Cap),
    };
    (place, Lever { field, raise: true })
}
