//! Gas into the chimney, wall at its mouth, length of the path.

use super::{Burning, Figure, Finding, Known, Lever, Moment, Place, Rule, Severity};
use crate::analysis::Analysis;
use crate::analysis::standard_route::shortest_path;
use crate::design::field::FieldId;
use crate::design::{ChimneyDuty, Design};
use crate::sources::{CHIMNEY_ENTRY_WINDOW, CHIMNEY_PEAK, EN_13384, EN_15544_SIZES};
use crate::units::{Quantity, ZERO_CELSIUS};

/// Gas into the chimney: too cool below, good up to, look again up to, wasteful above (K).
pub const ENTRY_WINDOW: [f64; 3] =
    [120.0 + ZERO_CELSIUS, 200.0 + ZERO_CELSIUS, 250.0 + ZERO_CELSIUS];

/// By how much the gas at the peak of a firing may be hotter than the figure for it (K): the most
/// that was measured above the mean, until the peak itself is computed.
pub const PEAK_ALLOWANCE: f64 = 212.0;

const fn temperature(value: f64) -> Figure {
    Figure { value, quantity: Quantity::Temperature }
}

pub(super) fn check(
    design: &Design,
    (analysis, known): (&Analysis, Known<'_>),
    findings: &mut Vec<Finding>,
) {
    let entries = entries(analysis, known);
    // The edges know the peak itself.
    if known.found_edges().is_none() {
        findings.extend(rating(design, &entries));
    }
    findings.extend(entry(design, &entries));
    findings.extend(mouth(design, (analysis, known)));
    findings.extend(path(design, analysis));
}

/// Gas into the chimney at its warmest and its coolest (K), and the state to which both belong.
struct Entry {
    warmest: f64,
    coolest: f64,
    moment: Moment,
}

/// Of the days where they are known, that of the design first: hottest when the days repeat, coolest
/// at the first fire.
fn entries(analysis: &Analysis, known: Known<'_>) -> Vec<Entry> {
    let mut entries: Vec<Entry> = known
        .days()
        .map(|(day, figures)| Entry {
            warmest: figures.repeating_mean.max(figures.first_mean),
            coolest: figures.first_mean.min(figures.repeating_mean),
            moment: Moment::BurnMean(day),
        })
        .collect();
    if entries.is_empty() {
        let inlet = analysis.height_of_fire.chimney_inlet;
        let moment = Moment::HeightOfFire;
        entries.push(Entry { warmest: inlet, coolest: inlet, moment });
    }
    entries
}

fn rating(design: &Design, entries: &[Entry]) -> Option<Finding> {
    let rated = design.chimney.rated_temperature;
    let beyond = entries.iter().find(|entry| rated < entry.warmest + PEAK_ALLOWANCE)?;
    Some(Finding {
        rule: Rule::GasAboveChimneyRating(beyond.moment),
        severity: Severity::DoNotBuild,
        place: Place::ChimneyInlet,
        found: temperature(beyond.warmest),
        limit: Some(temperature(rated)),
        lever: Some(Lever { field: FieldId::RunLength, raise: true }),
        source: &CHIMNEY_PEAK,
    })
}

/// The hottest matter of any day; the mild day only where that of the design is without it.
fn entry(design: &Design, entries: &[Entry]) -> Option<Finding> {
    let [cool, good, warm] = ENTRY_WINDOW;
    let hotter = |limit: f64| entries.iter().find(|entry| limit < entry.warmest);
    let dry = design.chimney.duty == ChimneyDuty::Dry;
    let (rule, found, limit) = if let Some(entry) = hotter(warm) {
        (Rule::GasWasteful(entry.moment), entry.warmest, warm)
    } else if let Some(entry) = hotter(good) {
        (Rule::GasWarm(entry.moment), entry.warmest, good)
    } else {
        let entry = entries.iter().find(|entry| dry && entry.coolest < cool)?;
        (Rule::GasCool(entry.moment), entry.coolest, cool)
    };
    Some(Finding {
        rule,
        severity: Severity::LookAgain,
        place: Place::ChimneyInlet,
        found: temperature(found),
        limit: Some(temperature(limit)),
        lever: Some(Lever {
            field: FieldId::RunLength,
            raise: !matches!(rule, Rule::GasCool(_)),
        }),
        source: &CHIMNEY_ENTRY_WINDOW,
    })
}

/// Share of the burns in which the wall at the mouth of a dry chimney may be below the dew point (–),
/// common practice, no source: what is wet for longer does not dry in what is left of them.
pub const WET_SHARE: f64 = 0.5;

/// The wall at the mouth with the stated charge, in a steady flue and over the burns of the day that
/// repeats, which warm the flue less; where it is well then, with half of the charge, and when the last
/// char has burned: a wall that is wet for a while dries again.
fn mouth(design: &Design, (analysis, known): (&Analysis, Known<'_>)) -> Vec<Finding> {
    let fire = &analysis.height_of_fire;
    let judged = |burning, wall, dew_point| cold_wall(design, burning, [wall, dew_point]);
    if let Some(cold) = judged(Burning::Charge, fire.chimney_mouth_wall, fire.dew_point) {
        return vec![cold];
    }
    let warmest = known.found_day().map(|day| day.warmest_wall).filter(|wall| 0.0 < *wall);
    let whole = warmest.and_then(|wall| judged(Burning::WholeBurn, wall, fire.dew_point));
    if let Some(cold) = whole {
        return vec![cold];
    }
    let half = analysis.conditions.half_charge;
    let half = half.and_then(|half| judged(Burning::HalfCharge, half.wall, half.dew_point));
    let most = known.found_day().and_then(|day| wet_for_long(design, day.wet_share));
    let walls = known.found_day().map(|day| day.burned_out_wall).filter(|wall| 0.0 < *wall);
    let char = walls.and_then(|wall| judged(Burning::LastChar, wall, fire.dew_point));
    // At the end of the burns as well it stays so from fire to fire.
    half.into_iter().chain(char.or(most)).collect()
}

/// A wall at the mouth of a dry chimney that is below the dew point for a share of the burns (–).
fn wet_for_long(design: &Design, share: f64) -> Option<Finding> {
    let figure = |value| Figure { value, quantity: Quantity::Share };
    let dry = design.chimney.duty == ChimneyDuty::Dry;
    (dry && WET_SHARE < share).then(|| Finding {
        rule: Rule::ChimneyWallWet(Burning::MostOfBurn),
        severity: Severity::LookAgain,
        place: Place::ChimneyMouth,
        found: figure(share),
        limit: Some(figure(WET_SHARE)),
        lever: Some(Lever { field: FieldId::Insulation, raise: true }),
        source: &EN_13384,
    })
}

/// How much it weighs. Half a charge is burned on many days, though not on all: what it wets, whole
/// charges dry, but the ice that it makes closes the mouth while there is a fire.
const fn weight_of_cold_wall(burning: Burning, rule: Rule) -> Severity {
    match (burning, rule) {
        (Burning::Charge | Burning::WholeBurn, _)
        | (Burning::HalfCharge, Rule::ChimneyWallFreezing(_)) => Severity::DoNotBuild,
        (Burning::HalfCharge | Burning::LastChar | Burning::MostOfBurn, _) => {
            Severity::LookAgain
        }
    }
}

/// A finding on the wall at the mouth of a heater with half the wood, weighed as that of half a charge
/// where the wall is well with the whole of it, of which the analysis tells; any other as it is.
pub fn of_half_a_charge(design: &Design, whole: &Analysis, finding: Finding) -> Finding {
    let is_cold =
        matches!(finding.rule, Rule::ChimneyWallWet(_) | Rule::ChimneyWallFreezing(_));
    let fire = &whole.height_of_fire;
    let of_whole =
        || cold_wall(design, Burning::Charge, [fire.chimney_mouth_wall, fire.dew_point]);
    if is_cold && of_whole().is_none() {
        let severity = weight_of_cold_wall(Burning::HalfCharge, finding.rule);
        return Finding { severity, ..finding };
    }
    finding
}

/// A wall at the mouth that is below freezing, or in a dry chimney below the dew point (K).
fn cold_wall(
    design: &Design,
    burning: Burning,
    [wall, dew_point]: [f64; 2],
) -> Option<Finding> {
    let dry = design.chimney.duty == ChimneyDuty::Dry;
    let (rule, limit) = if wall < ZERO_CELSIUS {
        (Rule::ChimneyWallFreezing(burning), ZERO_CELSIUS)
    } else if dry && wall < dew_point {
        (Rule::ChimneyWallWet(burning), dew_point)
    } else {
        return None;
    };
    Some(Finding {
        rule,
        severity: weight_of_cold_wall(burning, rule),
        place: Place::ChimneyMouth,
        found: temperature(wall),
        limit: Some(temperature(limit)),
        lever: Some(Lever { field: FieldId::Insulation, raise: true }),
        source: &EN_13384,
    })
}

fn path(design: &Design, analysis: &Analysis) -> Option<Finding> {
    let length = |value| Figure { value, quantity: Quantity::Length };
    let found = analysis.height_of_fire.path_length;
    let asked = shortest_path(design.fire.charge, design.shell.gap);
    let (rule, field) = if design.path.run_count == 0 {
        (Rule::NoRuns, FieldId::RunCount)
    } else {
        (Rule::PathShort, FieldId::RunLength)
    };
    (found < asked).then(|| Finding {
        rule,
        severity: Severity::LookAgain,
        place: Place::RunsOutlet,
        found: length(found),
        limit: Some(length(asked)),
        lever: Some(Lever { field, raise: true }),
        source: &EN_15544_SIZES,
    })
}
