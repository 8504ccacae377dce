//! The strip: the same heater with one to ten runs, each as the page would show it, and beside that
//! the flow that its own draft gives it with the air open.

use crate::analysis::{Analysis, Failure, analyze};
use crate::design::Design;
use crate::rules::{Severity, check};
use crate::units::in_celsius;
use serde::{Deserialize, Serialize};
use std::ops::RangeInclusive;

/// Numbers of runs that are compared.
pub const RUNS: RangeInclusive<usize> = 1..=10;

/// One column: the design with another number of runs, the mouth of its chimney kept.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Column {
    /// Number of runs.
    pub runs: usize,
    /// What was found; none where the heater cannot be built.
    pub result: Option<ColumnResult>,
}

/// What a column says: one state of the heater, at the excess air that the design states.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColumnResult {
    /// Gas out of the last run (K).
    #[serde(with = "in_celsius")]
    pub runs_outlet: f64,
    /// Gas into the chimney (K).
    #[serde(with = "in_celsius")]
    pub chimney_inlet: f64,
    /// Efficiency on the lower heating value (–).
    pub efficiency_lower: f64,
    /// Draft to spare (Pa).
    pub margin: f64,
    /// Wall at the mouth (K).
    #[serde(with = "in_celsius")]
    pub mouth_wall: f64,
    /// Dew point (K).
    #[serde(with = "in_celsius")]
    pub dew_point: f64,
    /// Heaviest finding.
    pub worst: Option<Severity>,
    /// The other state, with the air fully open.
    pub open: OpenFlow,
}

/// The flow that the heater's own draft gives it with the air fully open.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum OpenFlow {
    /// It settles at a flow.
    Runs {
        /// Excess air (–).
        excess_air_ratio: f64,
        /// Flue gas (kg/s).
        gas_flow: f64,
        /// Gas into the chimney (K).
        #[serde(with = "in_celsius")]
        chimney_inlet: f64,
    },
    /// It draws more air than an input may hold.
    Beyond,
    /// It finds no flow, or less than the wood needs.
    Starves,
}

/// The columns, one by one.
#[derive(Clone, Debug)]
pub struct Strip {
    design: Design,
    next: usize,
}

impl Strip {
    /// A strip of a design.
    pub fn new(design: &Design) -> Self {
        Self { design: design.clone(), next: *RUNS.start() }
    }
}

impl Iterator for Strip {
    type Item = Column;

    fn next(&mut self) -> Option<Column> {
        let runs = self.next;
        if !RUNS.contains(&runs) {
            return None;
        }
        self.next += 1;
        let mut design = self.design.clone();
        design.path.run_count = runs;
        // A failure here is a heater that cannot stand below this mouth.
        Some(Column { runs, result: column(&design).ok() })
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        let left = (RUNS.end() + 1).saturating_sub(self.next);
        (left, Some(left))
    }
}

impl ExactSizeIterator for Strip {}

fn column(design: &Design) -> Result<ColumnResult, Failure> {
    let stated = analyze(design)?;
    let open = open_flow(design, &stated)?;
    let worst = check(design, &stated).iter().map(|finding| finding.severity).max();
    let fire = stated.height_of_fire;
    Ok(ColumnResult {
        runs_outlet: fire.runs_outlet,
        chimney_inlet: fire.chimney_inlet,
        efficiency_lower: fire.efficiency_lower,
        margin: fire.margin,
        mouth_wall: fire.chimney_mouth_wall,
        dew_point: fire.dew_point,
        worst,
        open,
    })
}

fn open_flow(design: &Design, stated: &Analysis) -> Result<OpenFlow, Failure> {
    let fire = &stated.height_of_fire;
    let Some(flow) = fire.running_flow() else {
        // One that pulls even at the largest flow that was searched has no balance either.
        return Ok(if fire.margin < 0.0 { OpenFlow::Starves } else { OpenFlow::Beyond });
    };
    if flow.excess_air_ratio < 1.0 {
        return Ok(OpenFlow::Starves);
    }
    let mut open = design.clone();
    open.fire.excess_air_ratio = flow.excess_air_ratio;
    match analyze(&open) {
        Ok(Analysis { height_of_fire: fire, .. }) => Ok(OpenFlow::Runs {
            excess_air_ratio: fire.excess_air_ratio,
            gas_flow: fire.gas_flow,
            chimney_inlet: fire.chimney_inlet,
        }),
        // The least that an input may be is a little above what the wood needs.
        Err(Failure::Inputs(_)) if flow.excess_air_ratio < fire.excess_air_ratio => {
            Ok(OpenFlow::Starves)
        }
        Err(Failure::Inputs(_)) => Ok(OpenFlow::Beyond),
        Err(failure) => Err(failure),
    }
}
