//! The strip: the same heater with one to ten runs, each at the flow that its own draft gives it.

use crate::analysis::{Failure, analyze};
use crate::design::Design;
use crate::rules::{Severity, check};
use std::fmt;
use std::ops::RangeInclusive;
use std::str::FromStr;

/// Numbers of runs that are compared.
pub const RUNS: RangeInclusive<usize> = 1..=10;

/// One column: the design with another number of runs, the mouth of its chimney kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Column {
    /// Number of runs.
    pub runs: usize,
    /// What was found; none where the heater cannot be built or finds no flow.
    pub result: Option<ColumnResult>,
}

/// What a column says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColumnResult {
    /// Excess air with the air fully open (–).
    pub excess_air_ratio: f64,
    /// Flue gas with the air fully open (kg/s).
    pub gas_flow: f64,
    /// Gas out of the last run, air open (K).
    pub runs_outlet: f64,
    /// Gas into the chimney, air open (K).
    pub chimney_inlet: f64,
    /// Efficiency on the lower heating value, air open (–).
    pub efficiency_lower: f64,
    /// Draft to spare at the excess air that the design states (Pa).
    pub margin: f64,
    /// Wall at the mouth, air open (K).
    pub mouth_wall: f64,
    /// Dew point, air open (K).
    pub dew_point: f64,
    /// Heaviest finding at the stated excess air.
    pub worst: Option<Severity>,
}

/// As words in the order of the fields, for a message from one program to another: nothing is
/// rounded. A column without a result is its number of runs alone.
impl fmt::Display for Column {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.runs)?;
        let Some(result) = self.result else {
            return Ok(());
        };
        for figure in [
            result.excess_air_ratio,
            result.gas_flow,
            result.runs_outlet,
            result.chimney_inlet,
            result.efficiency_lower,
            result.margin,
            result.mouth_wall,
            result.dew_point,
        ] {
            write!(f, " {figure}")?;
        }
        write!(f, " {}", result.worst.map_or("fine", Severity::id))
    }
}

/// The words are not those of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAColumn;

impl FromStr for Column {
    type Err = NotAColumn;

    fn from_str(text: &str) -> Result<Self, NotAColumn> {
        let mut words = text.split(' ');
        let runs = words.next().and_then(|runs| runs.parse().ok()).ok_or(NotAColumn)?;
        let Some(first) = words.next() else {
            return Ok(Self { runs, result: None });
        };
        let figure = |word: &str| word.parse().map_err(|_| NotAColumn);
        let mut next = || words.next().ok_or(NotAColumn);
        let result = ColumnResult {
            excess_air_ratio: figure(first)?,
            gas_flow: figure(next()?)?,
            runs_outlet: figure(next()?)?,
            chimney_inlet: figure(next()?)?,
            efficiency_lower: figure(next()?)?,
            margin: figure(next()?)?,
            mouth_wall: figure(next()?)?,
            dew_point: figure(next()?)?,
            worst: Severity::from_id(next()?),
        };
        Ok(Self { runs, result: Some(result) })
    }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_survives_its_words() {
        let columns: Vec<Column> = Strip::new(&Design::demonstration()).collect();
        assert!(columns.iter().any(|column| column.result.is_some_and(|r| r.worst.is_some())));
        let absent = Column { runs: 3, result: None };
        for column in columns.into_iter().chain([absent]) {
            assert_eq!(column.to_string().parse(), Ok(column));
        }
        assert_eq!("".parse::<Column>(), Err(NotAColumn));
        assert_eq!("3 1.5".parse::<Column>(), Err(NotAColumn));
    }
}
