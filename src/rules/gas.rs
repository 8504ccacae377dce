//! Gas into the chimney, wall at its mouth, length of the path.

use super::{DayFigures, Figure, Finding, Known, Lever, Moment, Place, Rule, Severity};
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
    let entries = Entries::new(analysis, known.day);
    // The edges know the peak itself.
    if known.edges.is_none() {
        findings.extend(rating(design, &entries));
    }
    findings.extend(entry(design, &entries));
    findings.extend(mouth(design, analysis));
    findings.extend(path(design, analysis));
}

/// Gas into the chimney at its warmest and its coolest (K), and the state to which both belong.
struct Entries {
    warmest: f64,
    coolest: f64,
    moment: Moment,
}

impl Entries {
    /// Of the day where it is known: hottest when the days repeat, coolest at the first fire.
    fn new(analysis: &Analysis, day: Option<&DayFigures>) -> Self {
        match day {
            Some(day) => Self {
                warmest: day.repeating_mean.max(day.first_mean),
                coolest: day.first_mean.min(day.repeating_mean),
                moment: Moment::BurnMean,
            },
            None => Self {
                warmest: analysis.height_of_fire.chimney_inlet,
                coolest: analysis.height_of_fire.chimney_inlet,
                moment: Moment::HeightOfFire,
            },
        }
    }
}

fn rating(design: &Design, entries: &Entries) -> Option<Finding> {
    let rated = design.chimney.rated_temperature;
    (rated < entries.warmest + PEAK_ALLOWANCE).then(|| Finding {
        rule: Rule::GasAboveChimneyRating(entries.moment),
        severity: Severity::DoNotBuild,
        place: Place::ChimneyInlet,
        found: temperature(entries.warmest),
        limit: Some(temperature(rated)),
        lever: Some(Lever { field: FieldId::RunLength, raise: true }),
        source: &CHIMNEY_PEAK,
    })
}

fn entry(design: &Design, entries: &Entries) -> Option<Finding> {
    let [cool, good, warm] = ENTRY_WINDOW;
    let Entries { warmest, coolest, moment } = *entries;
    let dry = design.chimney.duty == ChimneyDuty::Dry;
    let (rule, found, limit) = if warm < warmest {
        (Rule::GasWasteful(moment), warmest, warm)
    } else if good < warmest {
        (Rule::GasWarm(moment), warmest, good)
    } else if coolest < cool && dry {
        (Rule::GasCool(moment), coolest, cool)
    } else {
        return None;
    };
    Some(Finding {
        rule,
        severity: Severity::LookAgain,
        place: Place::ChimneyInlet,
        found: temperature(found),
        limit: Some(temperature(limit)),
        lever: Some(Lever { field: FieldId::RunLength, raise: rule != Rule::GasCool(moment) }),
        source: &CHIMNEY_ENTRY_WINDOW,
    })
}

fn mouth(design: &Design, analysis: &Analysis) -> Option<Finding> {
    let fire = &analysis.height_of_fire;
    let wall = fire.chimney_mouth_wall;
    let dry = design.chimney.duty == ChimneyDuty::Dry;
    let (rule, limit) = if wall < ZERO_CELSIUS {
        (Rule::ChimneyWallFreezing, ZERO_CELSIUS)
    } else if dry && wall < fire.dew_point {
        (Rule::ChimneyWallWet, fire.dew_point)
    } else {
        return None;
    };
    Some(Finding {
        rule,
        severity: Severity::DoNotBuild,
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
