//! Will it draw?

use super::{Figure, Finding, Lever, Place, Rule, Severity};
use crate::analysis::Analysis;
use crate::design::Design;
use crate::design::field::FieldId;
use crate::physics::air;
use crate::sources::{DRAFT_RESERVE, EN_15544_AIR, EN_15544_SPEED};
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
    margin(analysis, findings);
    flows(analysis, findings);
    speeds(analysis, findings);
    inflow(design, analysis, findings);
}

fn pressure(value: f64) -> Figure {
    Figure { value, quantity: Quantity::Pressure }
}

fn margin(analysis: &Analysis, findings: &mut Vec<Finding>) {
    let fire = &analysis.height_of_fire;
    let reserve = RESERVE.max(RESERVE_FRACTION * fire.losses);
    let (rule, severity, limit) = if fire.margin < 0.0 {
        (Rule::DraftNegative, Severity::DoNotBuild, 0.0)
    } else if fire.margin < reserve {
        (Rule::DraftReserveSmall, Severity::LookAgain, reserve)
    } else {
        return;
    };
    findings.push(Finding {
        rule,
        severity,
        place: Place::ChimneyInlet,
        found: pressure(fire.margin),
        limit: Some(pressure(limit)),
        lever: Some(Lever { field: FieldId::RunCount, raise: false }),
        source: &DRAFT_RESERVE,
    });
}

fn flows(analysis: &Analysis, findings: &mut Vec<Finding>) {
    let fire = &analysis.height_of_fire;
    let count = u32::try_from(fire.natural_flows.len()).unwrap_or(u32::MAX);
    let lever = Some(Lever { field: FieldId::MouthHeight, raise: true });
    let finding = |rule, severity| Finding {
        rule,
        severity,
        place: Place::Whole,
        found: Figure { value: f64::from(count), quantity: Quantity::Count },
        limit: None,
        lever,
        source: &DRAFT_RESERVE,
    };
    let starved = fire.running_flow().is_none_or(|flow| flow.excess_air_ratio < 1.0);
    // A heater that pulls even at the largest flow that was searched has no root at all.
    if starved && fire.margin < 0.0 {
        findings.push(finding(Rule::NoRunningFlow, Severity::DoNotBuild));
    } else if count > 1 {
        findings.push(finding(Rule::SecondFlow, Severity::LookAgain));
    }
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
