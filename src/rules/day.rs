//! What the firing days alone show: smoke for minutes, hot faces.

use super::{Day, DayFigures, Figure, Finding, Judged, Known, Lever, Place, Rule, Severity};
use crate::analysis::day::FacePlace;
use crate::analysis::{Analysis, Failure};
use crate::design::Design;
use crate::design::field::FieldId;
use crate::sources::{ASTM_E1602_FACE, DRAFT_RESERVE};
use crate::units::{Quantity, ZERO_CELSIUS};

/// Hottest that a face of a masonry heater may be, away from its door (K).
pub const HOTTEST_FACE: f64 = 110.0 + ZERO_CELSIUS;

impl<'a> Known<'a> {
    /// The firing days that are known: that of the design, and the mild one.
    pub(super) fn days(&self) -> impl Iterator<Item = (Day, &'a DayFigures)> + use<'a> {
        let mild = self.mild.and_then(|mild| mild.as_ref().ok());
        let days = [(Day::Design, self.day), (Day::Mild, mild)];
        days.into_iter().filter_map(|(day, figures)| Some((day, figures?)))
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
    findings.extend(smoke.or_else(|| short_of_draft(design, known)));
    findings.extend(known.mild.and_then(|mild| without_a_day(design, mild.as_ref().err()?)));
    findings.extend(face(known));
}

/// The state of a day as it was computed: that of the design with the suction that was entered.
fn judged(design: &Design, day: Day) -> Judged {
    let judged = Judged::new(design, day);
    Judged { suction_raised: judged.suction_raised && day == Day::Mild, ..judged }
}

/// The heavier of both days, then the longer.
fn smoke(design: &Design, (analysis, known): (&Analysis, Known<'_>)) -> Option<Finding> {
    let start = &analysis.conditions.cold_start;
    // The day keeps the bypass shut; who lights a cold heater opens it, and then it draws.
    let bypassed = |day| {
        let margin = match day {
            Day::Design => start.design_day.margin,
            Day::Mild => start.mild_day.margin,
        };
        0.0 < design.path.bypass_area && 0.0 <= margin
    };
    let found = known.days().filter_map(|(day, figures)| {
        let judged = judged(design, day);
        // As a kindling fire that does not draw: on a mild day a cold flue can be warmed first, and
        // who cannot do so waits for a colder one. Smoke from a fire that burns is another matter.
        let (rule, severity) = match day {
            Day::Mild if figures.smoke_later <= 0.0 => {
                (Rule::SmokeAtLighting(judged), Severity::LookAgain)
            }
            Day::Mild | Day::Design => (Rule::SmokeBack(judged), Severity::DoNotBuild),
        };
        let is_lit_aside = figures.smoke_later <= 0.0 && bypassed(day);
        (figures.smoke_back > 0.0 && !is_lit_aside).then_some(Finding {
            rule,
            severity,
            place: Place::Door,
            found: Figure { value: figures.smoke_back, quantity: Quantity::Duration },
            limit: None,
            lever: Some(Lever { field: FieldId::MouthHeight, raise: true }),
            source: &DRAFT_RESERVE,
        })
    });
    let weigh = |one: &Finding, other: &Finding| {
        // The last of equals is taken: the mild day only where it is worse.
        one.severity.cmp(&other.severity).then(one.found.value.total_cmp(&other.found.value))
    };
    found.reduce(|one, other| if weigh(&one, &other).is_lt() { other } else { one })
}

/// Less air than stated, though enough to burn, on the day on which that lasts longer.
fn short_of_draft(design: &Design, known: Known<'_>) -> Option<Finding> {
    let (day, figures) = known.worst(|day| day.short_of_draft)?;
    (figures.short_of_draft > 0.0).then(|| Finding {
        rule: Rule::ShortOfDraft(judged(design, day)),
        severity: Severity::LookAgain,
        place: Place::Door,
        found: Figure { value: figures.short_of_draft, quantity: Quantity::Duration },
        limit: None,
        lever: Some(Lever { field: FieldId::MouthHeight, raise: true }),
        source: &DRAFT_RESERVE,
    })
}

/// A mild day on which the fire goes out, or that could not be computed.
fn without_a_day(design: &Design, failure: &Failure) -> Option<Finding> {
    let judged = judged(design, Day::Mild);
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
