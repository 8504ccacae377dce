//! Openings that air and gas need: for the fire, past a shut damper, out of a cold heater.

use super::around::Around;
use super::sets::Matter;
use super::{Finding, Lever, Severity};
use crate::analysis::Analysis;
use crate::analysis::conditions::LEAST_SUCTION;
use crate::analysis::standard_route::bleed_area;
use crate::design::building::{AirSupply, Damper};
use crate::design::field::FieldId;
use crate::design::{Design, RuleSet};
use crate::physics::air;
use crate::physics::formula::{Formula, formula};
use crate::physics::pressure::orifice_area;
use crate::sources::{
    AIR_OPENING, BLEED_PRACTICE, BYPASS_PRACTICE, DAMPER_OPENING, EN_15544_BLEED,
};
use crate::units::Quantity;

/// What a shut damper leaves open, as a share of the flue (–).
pub const DAMPER_SHARE: f64 = 0.03;
/// And at least (m2): 20 cm2.
pub const DAMPER_LEAST: f64 = 0.002;
/// Hair by which an opening may be smaller, relative to its limit (–).
const HAIR: f64 = 1e-9;

pub(super) fn check(design: &Design, analysis: &Analysis, findings: &mut Vec<Finding>) {
    findings.extend(air_opening(design, analysis));
    findings.extend(damper(design));
    findings.extend(bleed(design));
    findings.extend(bypass(design, analysis));
}

/// The air of the fire must come in with no more suction than the draft is judged with.
fn air_opening(design: &Design, analysis: &Analysis) -> Option<Finding> {
    match design.site.air_supply {
        AirSupply::NotStated => return Some(Matter::AirSupply.not_stated()),
        // The suction of the house stands for it.
        AirSupply::Leaks => return None,
        AirSupply::Opening | AirSupply::Duct => {}
    }
    let fire = &analysis.height_of_fire;
    let density = air::density(fire.pressure, design.site.outdoor_temperature);
    let asked = orifice_area(fire.air_flow, density, LEAST_SUCTION);
    let figures = [design.site.air_opening, asked];
    let lever = Lever { field: FieldId::AirOpening, raise: true };
    small(Around::AirOpeningSmall, figures, lever)
        .map(|found| Finding { source: &AIR_OPENING, ..found })
}

/// What a shut damper must leave open (m2).
///
/// A = max(0.002, 0.03 A_f)
///
/// * `flue` (m2): free area of the flue.
///
/// # Source
///
/// [`DAMPER_OPENING`].
pub fn stays_open(flue: f64) -> f64 {
    DAMPER_LEAST.max(DAMPER_SHARE * flue)
}

/// The formula of `stays_open`.
pub const STAYS_OPEN: Formula = formula!(
    stays_open: "A = max(0.002, 0.03 A_f)", DAMPER_OPENING,
    "A" "what stays open" AREA;
    flue "A_f" "free area of the flue" AREA,
);

fn damper(design: &Design) -> Option<Finding> {
    let chimney = &design.chimney;
    match chimney.damper {
        Damper::NotStated => return Some(Matter::Damper.not_stated()),
        Damper::Missing => return None,
        Damper::Fitted => {}
    }
    let limit = stays_open(chimney.area());
    let rule = if chimney.damper_opening <= 0.0 {
        Around::DamperTight
    } else {
        Around::DamperOpeningSmall
    };
    let lever = Lever { field: FieldId::DamperOpening, raise: true };
    small(rule, [chimney.damper_opening, limit], lever)
}

/// The standard asks for the slot in Europe; elsewhere it is a good habit.
fn bleed(design: &Design) -> Option<Finding> {
    let figures = [design.path.bleed_area, bleed_area(design.fire.charge)];
    let lever = Lever { field: FieldId::Bleed, raise: true };
    let found = small(Around::BleedSmall, figures, lever)?;
    Some(match design.site.rule_set {
        RuleSet::Europe => Finding { source: &EN_15544_BLEED, ..found },
        RuleSet::NorthAmerica | RuleSet::None => {
            Finding { severity: Severity::GoodToKnow, source: &BLEED_PRACTICE, ..found }
        }
    })
}

/// A bypass is opened for lighting; who forgets to close it sends the gas of the whole fire up the
/// chimney.
fn bypass(design: &Design, analysis: &Analysis) -> Option<Finding> {
    let figures = [analysis.height_of_fire.firebox_outlet, design.chimney.rated_temperature];
    let [found, limit] = figures;
    let shut = Lever { field: FieldId::Bypass, raise: false };
    let hot = 0.0 < design.path.bypass_area && limit < found;
    hot.then(|| Finding {
        lever: None,
        ..Around::BypassOpen.beyond(figures, Quantity::Temperature, shut, &BYPASS_PRACTICE)
    })
}

/// An opening that is smaller than it must be (m2), where it is.
fn small(rule: Around, figures: [f64; 2], lever: Lever) -> Option<Finding> {
    let [found, limit] = figures;
    (found < limit * (1.0 - HAIR))
        .then(|| rule.beyond(figures, Quantity::Opening, lever, &DAMPER_OPENING))
}
