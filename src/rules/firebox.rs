//! Firebox against the charge, after the standard route.

use super::{Figure, Finding, Lever, Place, Rule, Severity};
use crate::analysis::Analysis;
use crate::analysis::standard_route::{
    firebox_surface, least_firebox_base, least_firebox_height,
};
use crate::design::Design;
use crate::design::field::FieldId;
use crate::sources::{EN_15544_GLASS, EN_15544_SIZES, STACKED_WOOD, Source};
use crate::units::Quantity;

/// Surface over the surface of the route: below and above is a finding (–), common practice.
pub const SURFACE_WINDOW: (f64, f64) = (0.95, 1.25);
/// Longest base over its width (–).
pub const SIDE_RATIO: f64 = 2.0;
/// Wood that a firebox holds when it is filled to its ceiling (kg/m3): of the heaviest kind, oak of
/// 570 kg/m3 when dry, with a fifth of water, two thirds of a stack.
///
/// # Source
///
/// [`STACKED_WOOD`].
pub const FULL: f64 = 570.0 / 0.8 * 2.0 / 3.0;
/// Most glass over the surface of the chamber (–).
pub const GLASS_FRACTION: f64 = 0.2;

pub(super) fn check(design: &Design, _analysis: &Analysis, findings: &mut Vec<Finding>) {
    let firebox = &design.firebox;
    let charge = design.fire.charge;
    let surface = firebox.surface();
    let asked = firebox_surface(charge);
    let (small, large) = SURFACE_WINDOW;
    let area = |value| Figure { value, quantity: Quantity::Area };
    if surface < small * asked {
        let lever = (FieldId::FireboxHeight, true);
        let rule = (Rule::FireboxSmall, Severity::LookAgain);
        findings.push(finding(rule, area(surface), area(asked), lever));
    } else if large * asked < surface {
        let lever = (FieldId::FireboxHeight, false);
        let rule = (Rule::FireboxLarge, Severity::GoodToKnow);
        findings.push(finding(rule, area(surface), area(asked), lever));
    }
    let base = firebox.width * firebox.depth;
    let least = least_firebox_base(charge);
    if base < least {
        let rule = (Rule::FireboxBaseSmall, Severity::LookAgain);
        findings.push(finding(rule, area(base), area(least), (FieldId::FireboxDepth, true)));
    }
    let least = least_firebox_height(charge);
    if firebox.height < least {
        let size = |value| Figure { value, quantity: Quantity::Size };
        let rule = (Rule::FireboxLow, Severity::LookAgain);
        let found = size(firebox.height);
        findings.push(finding(rule, found, size(least), (FieldId::FireboxHeight, true)));
    }
    let holds = FULL * base * firebox.height;
    if holds < charge {
        let mass = |value| Figure { value, quantity: Quantity::Mass };
        let rule = (Rule::FireboxOverfull, Severity::DoNotBuild);
        let overfull = finding(rule, mass(charge), mass(holds), (FieldId::Charge, false));
        findings.push(Finding { source: &STACKED_WOOD, ..overfull });
    }
    let ratio = firebox.width.max(firebox.depth) / firebox.width.min(firebox.depth);
    if SIDE_RATIO < ratio {
        let plain = |value| Figure { value, quantity: Quantity::Ratio };
        let rule = (Rule::FireboxNarrow, Severity::LookAgain);
        let lever = if firebox.width < firebox.depth {
            (FieldId::FireboxWidth, true)
        } else {
            (FieldId::FireboxDepth, true)
        };
        findings.push(finding(rule, plain(ratio), plain(SIDE_RATIO), lever));
    }
    glass(design, findings);
}

fn glass(design: &Design, findings: &mut Vec<Finding>) {
    let firebox = &design.firebox;
    let share = firebox.door_area() * firebox.glass_fraction / firebox.surface();
    if GLASS_FRACTION < share {
        let figure = |value| Figure { value, quantity: Quantity::Share };
        let rule = (Rule::GlassLarge, Severity::LookAgain);
        let found =
            finding(rule, figure(share), figure(GLASS_FRACTION), (FieldId::Glass, false));
        findings.push(Finding { place: Place::Door, source: &EN_15544_GLASS, ..found });
    }
}

fn finding(
    (rule, severity): (Rule, Severity),
    found: Figure,
    limit: Figure,
    (field, raise): (FieldId, bool),
) -> Finding {
    const SOURCE: &Source = &EN_15544_SIZES;
    Finding {
        rule,
        severity,
        place: Place::Firebox,
        found,
        limit: Some(limit),
        lever: Some(Lever { field, raise }),
        source: SOURCE,
    }
}
