//! What the firing days alone show: smoke for minutes, hot faces.

use super::edges::{air_of, weight_of_starving};
use super::{
    Computed, Day, DayFigures, Figure, Finding, Judged, Known, Lever, Place, Rule, Severity,
};
use crate::analysis::day::FacePlace;
use crate::analysis::{Analysis, Failure};
use crate::design::Design;
use crate::design::field::FieldId;
use crate::sources::{self, ASTM_E1602_FACE, DRAFT_RESERVE};
use crate::units::{Quantity, ZERO_CELSIUS};

/// Hottest that a face of a masonry heater may be, away from its door (K).
pub const HOTTEST_FACE: f64 = 110.0 + ZERO_CELSIUS;

/// As long as a cold heater may smoke when it is lit, if its kindling draws once it burns (s).
///
/// Kindling that comes up to 2 kg/h within its first minute, the most of a kindling fire, burns 25 g
/// in it, which at 83 g of carbon monoxide a kilogram give 2.1 g: all of it in a room of 47 m3 makes
/// 44 mg/m3, and at half an air change an hour 34.7 mg/m3 on average over the hour.
///
/// # Source
///
/// [`crate::sources::FIRST_PUFFS`].
pub const FIRST_PUFFS: f64 = 75.0;
/// As long as that may be looked at again (s): the same makes 103 mg/m3, 97 mg/m3 on average over a
/// quarter of an hour.
pub const LONG_PUFFS: f64 = 135.0;

impl<'a> Known<'a> {
    /// The firing days that are known: that of the design, and the mild one.
    pub(super) fn days(&self) -> impl Iterator<Item = (Day, &'a DayFigures)> + use<'a> {
        let days = [(Day::Design, self.day), (Day::Mild, self.mild)];
        days.into_iter().filter_map(|(day, figures)| Some((day, figures?.ok()?)))
    }

    /// The day on which a figure is largest, the day of the design among equals.
    pub(super) fn worst(
        &self,
        figure: impl Fn(&DayFigures) -> f64,
    ) -> Option<(Day, &'a DayFigures)> {
        self.days()
            .reduce(|one, other| if figure(one.1) < figure(other.1) { other } else { one })
    }
}

pub(super) fn check(
    design: &Design,
    (analysis, known): (&Analysis, Known<'_>),
    findings: &mut Vec<Finding>,
) {
    let smoke = smoke(design, (analysis, known));
    findings.extend(smoke);
    if !smoke.is_some_and(|smoke| matches!(smoke.rule, Rule::SmokeBack(_))) {
        findings.extend(short_of_draft(design, (analysis, known)));
    }
    let days = [(Day::Design, known.day), (Day::Mild, known.mild)].into_iter();
    let missing = |(day, computed): (Day, Computed<'_, DayFigures>)| {
        without_a_day(judged(design, day), computed?.err()?)
    };
    findings.extend(days.filter_map(missing).reduce(heavier));
    findings.extend(face(known));
}

/// The state of a day as it was computed: that of the design with the suction that was entered.
fn judged(design: &Design, day: Day) -> Judged {
    let judged = Judged::new(design, day);
    Judged { suction_raised: judged.suction_raised && day == Day::Mild, ..judged }
}

/// The heavier of both days, then the longer.
fn smoke(design: &Design, (analysis, known): (&Analysis, Known<'_>)) -> Option<Finding> {
    let found = known.days().filter_map(|(day, figures)| {
        let (rule, severity) = weight_of_smoke(design, analysis, (day, figures))?;
        Some(of_a_burn((rule, severity), figures.smoke_back))
    });
    found.reduce(heavier)
}

/// What smoke of a day comes to.
///
/// As long as a cold heater is lit it is a matter of the kindling. The day keeps the bypass shut;
/// who lights a cold heater opens it, and if it draws then, nothing is wrong. The first puffs of a
/// kindling fire that draws once it burns come from every cold heater; what lasts longer is looked at
/// again. Else, on a mild day, a cold flue can be warmed first, and who cannot do so waits for a
/// colder one. Smoke from a fire that burns is another matter.
fn weight_of_smoke(
    design: &Design,
    analysis: &Analysis,
    (day, figures): (Day, &DayFigures),
) -> Option<(Rule, Severity)> {
    let start = &analysis.conditions.cold_start;
    let kindling = match day {
        Day::Design => start.design_day.margin,
        Day::Mild => start.mild_day.margin,
    };
    let draws = 0.0 <= kindling;
    let judged = judged(design, day);
    let at_lighting = |severity| Some((Rule::SmokeAtLighting(judged), severity));
    if figures.smoke_back <= 0.0 {
        None
    } else if figures.smoke_later > 0.0 {
        Some((Rule::SmokeBack(judged), Severity::DoNotBuild))
    } else if draws && 0.0 < design.path.bypass_area {
        None
    } else if draws && figures.smoke_back <= FIRST_PUFFS {
        at_lighting(Severity::GoodToKnow)
    } else if day == Day::Mild || (draws && figures.smoke_back <= LONG_PUFFS) {
        at_lighting(Severity::LookAgain)
    } else {
        Some((Rule::SmokeBack(judged), Severity::DoNotBuild))
    }
}

fn of_a_burn((rule, severity): (Rule, Severity), seconds: f64) -> Finding {
    let puffs = matches!(rule, Rule::SmokeAtLighting(_));
    Finding {
        rule,
        severity,
        place: Place::Door,
        found: Figure { value: seconds, quantity: Quantity::Duration },
        limit: None,
        lever: Some(Lever { field: FieldId::MouthHeight, raise: true }),
        source: if puffs { &sources::FIRST_PUFFS } else { &DRAFT_RESERVE },
    }
}

/// The heavier of two findings, then the one with the larger figure; the first of equals.
fn heavier(one: Finding, other: Finding) -> Finding {
    let by_weight = one.severity.cmp(&other.severity);
    let order = by_weight.then(one.found.value.total_cmp(&other.found.value));
    if order.is_lt() { other } else { one }
}

/// Less air than stated, though enough to burn; it weighs as with an overload.
fn short_of_draft(
    design: &Design,
    (analysis, known): (&Analysis, Known<'_>),
) -> Option<Finding> {
    let fire = &analysis.height_of_fire;
    let mild = &analysis.conditions.mild_day;
    let found = known.days().filter(|(_, figures)| figures.short_of_draft > 0.0);
    let found = found.map(|(day, figures)| {
        let (flows, margin) = match day {
            Day::Design => (&fire.natural_flows, fire.margin),
            Day::Mild => (&mild.natural_flows, mild.stated.margin),
        };
        let stated = fire.excess_air_ratio;
        let severity = weight_of_starving(stated, air_of(flows, margin, stated));
        of_a_burn((Rule::ShortOfDraft(judged(design, day)), severity), figures.short_of_draft)
    });
    found.reduce(heavier)
}

/// A day on which the fire goes out, or that could not be computed.
fn without_a_day(judged: Judged, failure: &Failure) -> Option<Finding> {
    let (rule, severity) = match failure {
        Failure::FireStarved => (Rule::FireGoesOut(judged), Severity::DoNotBuild),
        // Told at the inputs.
        Failure::Inputs(_) => return None,
        _ => (Rule::DayNotFound(judged), Severity::LookAgain),
    };
    Some(Finding {
        rule,
        severity,
        place: Place::Fire,
        found: Figure { value: 0.0, quantity: Quantity::Count },
        limit: None,
        lever: Some(Lever { field: FieldId::MouthHeight, raise: true }),
        source: &DRAFT_RESERVE,
    })
}

fn face(known: Known<'_>) -> Option<Finding> {
    let (_, day) = known.worst(|day| day.hottest_face)?;
    let figure = |value| Figure { value, quantity: Quantity::Temperature };
    let (place, lever) = where_hot(day.hottest_place);
    (HOTTEST_FACE < day.hottest_face).then(|| Finding {
        rule: Rule::FaceTooHot,
        severity: Severity::DoNotBuild,
        place,
        found: figure(day.hottest_face),
        limit: Some(figure(HOTTEST_FACE)),
        lever: Some(lever),
        source: &ASTM_E1602_FACE,
    })
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
