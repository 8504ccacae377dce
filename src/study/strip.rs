//! The strip: the same heater with one to ten runs, each at the flow that its own draft gives it.

use crate::analysis::{Failure, analyze};
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
    /// What was found; none where the heater cannot be built or finds no flow.
    pub result: Option<ColumnResult>,
}

/// What a column says.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct ColumnResult {
    /// Excess air with the air fully open (–).
    pub excess_air_ratio: f64,
    /// Flue gas with the air fully open (kg/s).
    pub gas_flow: f64,
    /// Gas out of the last run, air open (K).
    #[serde(with = "in_celsius")]
    pub runs_outlet: f64,
    /// Gas into the chimney, air open (K).
    #[serde(with = "in_celsius")]
    pub chimney_inlet: f64,
    /// Efficiency on the lower heating value, air open (–).
    pub efficiency_lower: f64,
    /// Draft to spare at the excess air that the design states (Pa).
    pub margin: f64,
    /// Wall at the mouth, air open (K).
    #[serde(with = "in_celsius")]
    pub mouth_wall: f64,
    /// Dew point, air open (K).
    #[serde(with = "in_celsius")]
    pub dew_point: f64,
    /// Heaviest finding at the stated excess air.
    pub worst: Option<Severity>,
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
        // A failure here is a heater that cannot stand below this mouth, or draws at no flow.
        Some(Column { runs, result: column(&design).ok().flatten() })
    }

    fn size_hint(&self) -> (usize, Option<usize>) {
        let left = (RUNS.end() + 1).saturating_sub(self.next);
        (left, Some(left))
    }
}

impl ExactSizeIterator for Strip {}

/// A column, none when the heater finds no flow above the stoichiometric one.
fn column(design: &Design) -> Result<Option<ColumnResult>, Failure> {
    let stated = analyze(design)?;
    let margin = stated.height_of_fire.margin;
    let worst = check(design, &stated).iter().map(|finding| finding.severity).max();
    let Some(flow) = stated.height_of_fire.running_flow() else {
        return Ok(None);
    };
    let mut open = design.clone();
    open.fire.excess_air_ratio = flow.excess_air_ratio;
    let fire = match analyze(&open) {
        Ok(analysis) => analysis.height_of_fire,
        // Starved of air, or above what an input may be: no heater that runs.
        Err(Failure::Inputs(_)) => return Ok(None),
        Err(failure) => return Err(failure),
    };
    Ok(Some(ColumnResult {
        excess_air_ratio: fire.excess_air_ratio,
        gas_flow: fire.gas_flow,
        runs_outlet: fire.runs_outlet,
        chimney_inlet: fire.chimney_inlet,
        efficiency_lower: fire.efficiency_lower,
        margin,
        mouth_wall: fire.chimney_mouth_wall,
        dew_point: fire.dew_point,
        worst,
    }))
}
