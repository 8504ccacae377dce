//! Will it draw?

use super::{Day, Figure, Finding, Judged, Lever, Place, Rule, Severity};
use crate::analysis::Analysis;
use crate::analysis::conditions::{DraftState, LEAST_SUCTION};
use crate::analysis::draft::NaturalFlow;
use crate::design::Design;
use crate::design::field::FieldId;
use crate::physics::air;
use crate::physics::formula::{Formula, formula};
use crate::sources::{COLD_START, DRAFT_RESERVE, EN_15544_AIR, EN_15544_SPEED};
use crate::units::Quantity;

/// Draft that must be to spare when hot (Pa).
pub const RESERVE: f64 = 3.0;
/// And as a share of the losses (–).
pub const RESERVE_FRACTION: f64 = 0.15;
/// Window of the gas speed in the runs (m/s).
pub const GAS_SPEED: (f64, f64) = (1.2, 6.0);
/// Fastest inflow of combustion air (m/s).
pub const INFLOW: f64 = 4.0;

pub(super) fn check(design: &Design, analysis: &Analysis, findings: &mut Vec<Finding>) {
    findings.extend(margins(design, analysis));
    findings.extend(flows(design, analysis));
    findings.extend(cold_start(design, analysis));
    speeds(analysis, findings);
    inflow(design, analysis, findings);
}

fn pressure(value: f64) -> Figure {
    Figure { value, quantity: Quantity::Pressure }
}

/// The draft at the stated excess air as it is judged on one day.
struct Hot {
    judged: Judged,
    margin: f64,
    losses: f64,
}

/// The day of the design and the mild day. The ledger of the first keeps the suction that was
/// entered, its draft is judged with at least [`LEAST_SUCTION`]; the second has it within.
fn hot_days(design: &Design, analysis: &Analysis) -> [Hot; 2] {
    let fire = &analysis.height_of_fire;
    let mild = &analysis.conditions.mild_day.stated;
    let raise = (LEAST_SUCTION - design.site.house_suction).max(0.0);
    [
        Hot {
            judged: Judged::new(design, Day::Design),
            margin: fire.margin - raise,
            losses: fire.losses + raise,
        },
        Hot {
            judged: Judged::new(design, Day::Mild),
            margin: mild.margin,
            losses: mild.losses,
        },
    ]
}

impl Hot {
    /// Draft that must be to spare (Pa).
    fn reserve(&self) -> f64 {
        wanted(self.losses)
    }

    fn severity(&self) -> Option<Severity> {
        if self.margin < 0.0 {
            Some(Severity::DoNotBuild)
        } else if self.margin < self.reserve() {
            Some(Severity::LookAgain)
        } else {
            None
        }
    }
}

/// Draft that must be to spare when hot (Pa).
///
/// p = max(3, 0.15 p_l)
///
/// * `losses` (Pa).
///
/// # Source
///
/// [`DRAFT_RESERVE`].
pub fn wanted(losses: f64) -> f64 {
    RESERVE.max(RESERVE_FRACTION * losses)
}

/// [`wanted`].
pub const WANTED: Formula = formula!(
    wanted: "p = max(3, 0.15 p_l)", DRAFT_RESERVE,
    "p" "draft that must be to spare" PRESSURE;
    losses "p_l" "what holds back" PRESSURE,
);

/// Weight of a kindling fire that does not draw; on a mild day there are other ways to start it.
fn cold_severity(day: Day, margin: f64) -> Option<Severity> {
    let weight = match day {
        Day::Design => Severity::DoNotBuild,
        Day::Mild => Severity::LookAgain,
    };
    (margin < 0.0).then_some(weight)
}

/// What is burned when draft is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Start {
    /// The height of the fire.
    Hot,
    /// A kindling fire while all is cold.
    Cold,
}

/// The draft under one condition as it is judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Condition {
    /// What is burned.
    pub start: Start,
    /// On which day; the mild day is called so even where the design is as warm.
    pub day: Day,
    /// Outdoors (K).
    pub outdoors: f64,
    /// Draft less losses (Pa).
    pub margin: f64,
    /// What must be to spare (Pa).
    pub wanted: f64,
    /// How much it weighs if it is not; none where all is well.
    pub severity: Option<Severity>,
    /// Whether less suction of the house was entered than is judged with.
    pub suction_raised: bool,
}

/// The draft as it is judged: hot on the day of the design and on the mild day, cold on both.
pub fn conditions(design: &Design, analysis: &Analysis) -> [Condition; 4] {
    let mild = analysis.conditions.mild_day.stated.outdoors;
    let cold = &analysis.conditions.cold_start;
    let stated = design.site.outdoor_temperature;
    let of_hot = |hot: &Hot, day, outdoors| Condition {
        start: Start::Hot,
        day,
        outdoors,
        margin: hot.margin,
        wanted: hot.reserve(),
        severity: hot.severity(),
        suction_raised: hot.judged.suction_raised,
    };
    let of_cold = |margin, day, outdoors| Condition {
        start: Start::Cold,
        day,
        outdoors,
        margin,
        wanted: 0.0,
        severity: cold_severity(day, margin),
        suction_raised: Judged::new(design, day).suction_raised,
    };
    let [hot, hot_mild] = hot_days(design, analysis);
    [
        of_hot(&hot, Day::Design, stated),
        of_hot(&hot_mild, Day::Mild, mild),
        of_cold(cold.design_day.margin, Day::Design, stated),
        of_cold(cold.mild_day.margin, Day::Mild, mild),
    ]
}

/// Of the clean heater, and of one that is due for cleaning where that weighs more.
fn margins(design: &Design, analysis: &Analysis) -> impl Iterator<Item = Finding> {
    let clean = worst(&hot_days(design, analysis));
    let due = analysis.conditions.due_for_cleaning.and_then(|due| {
        let hot = |day, state: DraftState| Hot {
            judged: Judged { due: true, ..Judged::new(design, day) },
            margin: state.margin,
            losses: state.losses,
        };
        worst(&[hot(Day::Design, due.design_day), hot(Day::Mild, due.mild_day)])
    });
    let weighs_more =
        move |due: &Finding| clean.is_none_or(|clean| clean.severity < due.severity);
    clean.into_iter().chain(due.filter(weighs_more))
}

/// What two days come to.
fn worst(days: &[Hot; 2]) -> Option<Finding> {
    let judge = |hot: &Hot| {
        let severity = hot.severity()?;
        let (rule, limit) = if severity == Severity::DoNotBuild {
            (Rule::DraftNegative(hot.judged), 0.0)
        } else {
            (Rule::DraftReserveSmall(hot.judged), hot.reserve())
        };
        Some(Finding {
            rule,
            severity,
            place: Place::ChimneyInlet,
            found: pressure(hot.margin),
            limit: Some(pressure(limit)),
            lever: Some(Lever { field: FieldId::RunCount, raise: false }),
            source: &DRAFT_RESERVE,
        })
    };
    let found = days.iter().filter_map(judge);
    // The worse of the two days: the heavier finding, then the smaller margin.
    found.max_by(|a, b| {
        a.severity.cmp(&b.severity).then(b.found.value.total_cmp(&a.found.value))
    })
}

/// What the flows at which a heater balances mean for its fire, the worst last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Running {
    /// It pulls more than any flow that was searched needs.
    Beyond,
    /// One flow that holds itself, with air enough.
    Holds,
    /// One flow that does not hold itself, and the fire is above it: less dies down, more runs up
    /// to a flow beyond the search.
    Unheld,
    /// Several flows, at least one of which holds itself.
    Several,
    /// The fire falls to nothing, or to a flow that is short of air.
    Stalls,
}

/// Sorts out the flows at which a heater balances.
///
/// * `flows`: from the smallest to the largest, stable and unstable in turn.
/// * `margin` (Pa): at the excess air that the design states. Without any flow it has the sign of
///   the whole search.
fn running(flows: &[NaturalFlow], margin: f64) -> Running {
    let largest = flows.iter().rfind(|flow| flow.stable);
    let enough = largest.is_some_and(|flow| flow.excess_air_ratio >= 1.0);
    match flows {
        _ if margin < 0.0 && !enough => Running::Stalls,
        [] => Running::Beyond,
        [one] if one.stable => Running::Holds,
        [_] => Running::Unheld,
        _ => Running::Several,
    }
}

/// The flows of the day of the design, with the suction that was entered, and of the mild day.
fn flows(design: &Design, analysis: &Analysis) -> Option<Finding> {
    let fire = &analysis.height_of_fire;
    let mild = &analysis.conditions.mild_day;
    let entered = Judged { suction_raised: false, ..Judged::new(design, Day::Design) };
    let of_the_design = (entered, &fire.natural_flows, fire.margin);
    let of_the_mild_day =
        (Judged::new(design, Day::Mild), &mild.natural_flows, mild.stated.margin);
    // Of two days alike the one of the design, as the last.
    let days = [of_the_mild_day, of_the_design].into_iter();
    let sorted = days.map(|(judged, flows, margin)| (running(flows, margin), judged, flows));
    let (worst, judged, flows) = sorted.max_by_key(|(running, ..)| *running)?;
    let count = f64::from(u32::try_from(flows.len()).unwrap_or(u32::MAX));
    let balances = Figure { value: count, quantity: Quantity::Count };
    let (rule, severity, found) = match worst {
        Running::Beyond | Running::Holds => return None,
        Running::Unheld => {
            let ratio = flows.first().map_or(0.0, |flow| flow.excess_air_ratio);
            let found = Figure { value: ratio, quantity: Quantity::Ratio };
            (Rule::UnheldFlow(judged), Severity::LookAgain, found)
        }
        Running::Several => (Rule::SecondFlow(judged), Severity::LookAgain, balances),
        Running::Stalls => (Rule::NoRunningFlow(judged), Severity::DoNotBuild, balances),
    };
    Some(Finding {
        rule,
        severity,
        place: Place::Whole,
        found,
        limit: None,
        lever: Some(Lever { field: FieldId::MouthHeight, raise: true }),
        source: &DRAFT_RESERVE,
    })
}

/// A kindling fire must draw while everything is cold.
fn cold_start(design: &Design, analysis: &Analysis) -> Option<Finding> {
    let start = &analysis.conditions.cold_start;
    let days = [(Day::Design, start.design_day.margin), (Day::Mild, start.mild_day.margin)];
    let judge =
        |(day, margin)| cold_severity(day, margin).map(|severity| (day, severity, margin));
    let (day, severity, margin) = days.into_iter().find_map(judge)?;
    Some(Finding {
        rule: Rule::ColdStartWeak(Judged::new(design, day)),
        severity,
        place: Place::ChimneyInlet,
        found: pressure(margin),
        limit: Some(pressure(0.0)),
        lever: Some(Lever { field: FieldId::RunCount, raise: false }),
        source: &COLD_START,
    })
}

fn speeds(analysis: &Analysis, findings: &mut Vec<Finding>) {
    let runs = || analysis.height_of_fire.runs.iter().enumerate();
    let speed = |value| Figure { value, quantity: Quantity::Speed };
    let (slowest, fastest) = GAS_SPEED;
    let finding = |(index, value): (usize, f64), rule, limit, raise| Finding {
        rule,
        severity: Severity::LookAgain,
        place: Place::Run(index),
        found: speed(value),
        limit: Some(speed(limit)),
        lever: Some(Lever { field: FieldId::RunWidth, raise }),
        source: &EN_15544_SPEED,
    };
    let slow =
        runs().map(|(index, run)| (index, run.velocity)).min_by(|a, b| a.1.total_cmp(&b.1));
    let fast =
        runs().map(|(index, run)| (index, run.velocity)).max_by(|a, b| a.1.total_cmp(&b.1));
    if let Some(slow) = slow.filter(|(_, value)| *value < slowest) {
        findings.push(finding(slow, Rule::GasSlow, slowest, false));
    }
    if let Some(fast) = fast.filter(|(_, value)| fastest < *value) {
        findings.push(finding(fast, Rule::GasFast, fastest, true));
    }
}

fn inflow(design: &Design, analysis: &Analysis, findings: &mut Vec<Finding>) {
    let fire = &analysis.height_of_fire;
    let density = air::density(fire.pressure, design.site.room_temperature);
    let value = fire.air_flow / (density * design.firebox.inlet_area);
    if INFLOW < value {
        findings.push(Finding {
            rule: Rule::InletFast,
            severity: Severity::LookAgain,
            place: Place::Door,
            found: Figure { value, quantity: Quantity::Speed },
            limit: Some(Figure { value: INFLOW, quantity: Quantity::Speed }),
            lever: Some(Lever { field: FieldId::InletArea, raise: true }),
            source: &EN_15544_AIR,
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(excess_air_ratio: f64) -> NaturalFlow {
        NaturalFlow { gas_flow_kg_per_s: 0.03, excess_air_ratio, stable: true }
    }

    fn unheld(excess_air_ratio: f64) -> NaturalFlow {
        NaturalFlow { stable: false, ..held(excess_air_ratio) }
    }

    #[test]
    fn without_a_balance_the_sign_of_the_margin_decides() {
        assert_eq!(running(&[], 5.0), Running::Beyond);
        assert_eq!(running(&[], -5.0), Running::Stalls);
    }

    #[test]
    fn one_balance_holds_when_it_is_stable_and_has_air() {
        // More air than stated, or less: either way the fire comes to it.
        assert_eq!(running(&[held(3.0)], 5.0), Running::Holds);
        assert_eq!(running(&[held(1.5)], -5.0), Running::Holds);
        assert_eq!(running(&[held(0.9)], -5.0), Running::Stalls, "short of air");
    }

    #[test]
    fn one_unstable_balance_is_never_passed_over() {
        // Stated above it: it draws, yet a small fire dies. Stated below it: it dies.
        assert_eq!(running(&[unheld(0.6)], 5.0), Running::Unheld);
        assert_eq!(running(&[unheld(3.0)], -5.0), Running::Stalls);
    }

    #[test]
    fn several_balances_are_told_and_a_starved_one_stalls() {
        let to_kindle = [unheld(0.5), held(3.0)];
        assert_eq!(running(&to_kindle, 5.0), Running::Several);
        assert_eq!(running(&to_kindle, -5.0), Running::Several);
        assert_eq!(running(&[unheld(0.4), held(0.8)], -5.0), Running::Stalls);
        // Negative between a starved balance and an unstable one.
        let gap = [held(0.5), unheld(3.0)];
        assert_eq!(running(&gap, -5.0), Running::Stalls);
        assert_eq!(running(&gap, 5.0), Running::Several);
    }
}
