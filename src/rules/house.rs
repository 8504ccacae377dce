//! The heater in its house: whether it covers the loss and wastes no heat, whether the room gets too warm, whether the
//! house pulls harder than was entered, whether the damper shuts.

use super::{Figure, Finding, Known, Lever, Place, Rule, Severity, conditions};
use crate::analysis::Analysis;
use crate::analysis::conditions::LEAST_SUCTION;
use crate::analysis::house::{House, house, own_suction};
use crate::analysis::standard_route::limits::LEAST_EFFICIENCY;
use crate::design::Design;
use crate::design::building::AirSupply;
use crate::design::field::FieldId;
use crate::sources::{
    DAMPER_OPENING, EN_16798_ROOM, LEAST_USE, NET_HEATING_VALUE, STACK_EFFECT, SUCTION_BORNE,
};
use crate::units::{Quantity, ZERO_CELSIUS};

/// Warmest that a living room may get in winter (K).
pub const WARMEST_ROOM: f64 = 24.0 + ZERO_CELSIUS;
/// By how much a room may get warmer whatever its temperature (K), common practice, no source.
pub const ROOM_SWING: f64 = 2.0;
/// Most suction of a house for a fire that takes its air from the room (Pa).
pub const ROOM_AIR: f64 = 4.0;
/// And for one whose air comes through a duct from outdoors (Pa).
pub const DUCTED_AIR: f64 = 8.0;
/// By how much a house may pull harder than is judged with before it is told (Pa).
const SLACK: f64 = 0.05;

/// How heater and house get on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InHouse {
    /// The heater makes the room too warm.
    RoomOverheats,
    /// The house pulls harder by its own height than was entered.
    SuctionLow,
    /// The house pulls harder than such a fire bears.
    SuctionHigh,
    /// Nothing stays open after the fire.
    DamperShuts,
}

impl InHouse {
    /// Short name, what is wrong, for files and tests.
    pub const fn id(self) -> &'static str {
        match self {
            Self::RoomOverheats => "room-overheats",
            Self::SuctionLow => "house-suction-low",
            Self::SuctionHigh => "house-suction-high",
            Self::DamperShuts => "damper-shuts",
        }
    }
}

/// By the firing day, where that is known, else by the height of the fire.
pub(super) fn check(
    design: &Design,
    (analysis, known): (&Analysis, Known<'_>),
    findings: &mut Vec<Finding>,
) {
    let house = match known.found_day() {
        Some(day) => house(design, &analysis.height_of_fire, day.efficiency),
        None => analysis.house,
    };
    findings.extend(not_covered(&house));
    findings.extend(wasted(analysis, known));
    findings.extend(known.found_day().and_then(|day| overheats(design, day.rises)));
    findings.extend(suction(design, analysis));
    findings.extend(pulls_hard(design));
    findings.extend(damper(design));
}

fn not_covered(house: &House) -> Option<Finding> {
    let power = |value| Figure { value, quantity: Quantity::Power };
    (house.mean_output < house.design_loss).then(|| Finding {
        rule: Rule::HouseNotCovered,
        severity: Severity::GoodToKnow,
        place: Place::Whole,
        found: power(house.mean_output),
        limit: Some(power(house.design_loss)),
        lever: Some(Lever { field: FieldId::FiringsPerDay, raise: true }),
        source: &NET_HEATING_VALUE,
    })
}

/// The heat of use against what a masonry heater must give: of the days that repeat, where they are
/// known; the height of the first fire flatters, since all masonry is cold then.
fn wasted(analysis: &Analysis, known: Known<'_>) -> Option<Finding> {
    let share = |value| Figure { value, quantity: Quantity::Share };
    let of_use = known
        .found_day()
        .map_or(analysis.height_of_fire.efficiency_lower, |day| day.efficiency);
    (of_use < LEAST_EFFICIENCY).then(|| Finding {
        rule: Rule::HeatWasted,
        severity: Severity::LookAgain,
        place: Place::Whole,
        found: share(of_use),
        limit: Some(share(LEAST_EFFICIENCY)),
        lever: Some(Lever { field: FieldId::RunLength, raise: true }),
        source: &LEAST_USE,
    })
}

/// Too warm even for a heavy house is to look at again; a light one alone is good to know, since
/// what the house holds is only roughly known.
fn overheats(design: &Design, rises: [f64; 3]) -> Option<Finding> {
    let room = design.site.room_temperature;
    let limit = WARMEST_ROOM.max(room + ROOM_SWING);
    let [light, _, heavy] = rises.map(|rise| room + rise);
    let (found, severity) = if limit < heavy {
        (heavy, Severity::LookAgain)
    } else if limit < light {
        (light, Severity::GoodToKnow)
    } else {
        return None;
    };
    let figure = |value| Figure { value, quantity: Quantity::Temperature };
    Some(Finding {
        rule: Rule::InHouse(InHouse::RoomOverheats),
        severity,
        place: Place::Whole,
        found: figure(found),
        limit: Some(figure(limit)),
        lever: Some(Lever { field: FieldId::Charge, raise: false }),
        source: &EN_16798_ROOM,
    })
}

/// The house's own stack effect against the suction that was judged with, where the draft would no
/// longer suffice with it.
fn suction(design: &Design, analysis: &Analysis) -> Option<Finding> {
    let own = own_suction(design, analysis.height_of_fire.pressure)?;
    let judged = design.site.house_suction.max(LEAST_SUCTION);
    let more = own - judged;
    let [hot, ..] = conditions(design, analysis);
    let suffices = hot.wanted <= hot.margin - more;
    let pressure = |value| Figure { value, quantity: Quantity::Pressure };
    (SLACK < more && !suffices).then(|| Finding {
        rule: Rule::InHouse(InHouse::SuctionLow),
        severity: Severity::LookAgain,
        place: Place::Whole,
        found: pressure(judged),
        limit: Some(pressure(own)),
        lever: Some(Lever { field: FieldId::HouseSuction, raise: true }),
        source: &STACK_EFFECT,
    })
}

/// Whatever the draft at the height of the fire: when it has burned down, the chimney pulls less, and
/// char gives off carbon monoxide for hours.
fn pulls_hard(design: &Design) -> Option<Finding> {
    let limit = match design.site.air_supply {
        AirSupply::NotStated | AirSupply::Leaks | AirSupply::Opening => ROOM_AIR,
        AirSupply::Duct => DUCTED_AIR,
    };
    let found = design.site.house_suction;
    let pressure = |value| Figure { value, quantity: Quantity::Pressure };
    (limit + SLACK < found).then(|| Finding {
        rule: Rule::InHouse(InHouse::SuctionHigh),
        severity: Severity::LookAgain,
        place: Place::Whole,
        found: pressure(found),
        limit: Some(pressure(limit)),
        lever: Some(Lever { field: FieldId::HouseSuction, raise: false }),
        source: &SUCTION_BORNE,
    })
}

/// Without any opening after the fire, what the char gives off has no way out.
fn damper(design: &Design) -> Option<Finding> {
    (design.fire.after_opening <= 0.0).then_some(Finding {
        rule: Rule::InHouse(InHouse::DamperShuts),
        severity: Severity::LookAgain,
        place: Place::ChimneyInlet,
        found: Figure { value: 0.0, quantity: Quantity::Opening },
        limit: None,
        lever: Some(Lever { field: FieldId::AfterOpening, raise: true }),
        source: &DAMPER_OPENING,
    })
}
