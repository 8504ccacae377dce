//! The strip: the same heater with one to ten runs, each as the page would show it, and beside that
//! the flow that its own draft gives it with the air open.

use crate::analysis::{Analysis, Failure, analyze};
use crate::design::Design;
use crate::rules::{Severity, check};
use crate::units::float;
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
    /// What was found; none where the heater cannot be built.
    pub result: Option<ColumnResult>,
}

/// What a column says: one state of the heater, at the excess air that the design states.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColumnResult {
    /// Gas out of the last run (K).
    pub runs_outlet: f64,
    /// Gas into the chimney (K).
    pub chimney_inlet: f64,
    /// Efficiency on the lower heating value (–).
    pub efficiency_lower: f64,
    /// Draft to spare (Pa).
    pub margin: f64,
    /// Wall at the mouth (K).
    pub mouth_wall: f64,
    /// Dew point (K).
    pub dew_point: f64,
    /// Heaviest finding.
    pub worst: Option<Severity>,
    /// The other state, with the air fully open.
    pub open: OpenFlow,
}

/// The flow that the heater's own draft gives it with the air fully open.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum OpenFlow {
    /// It settles at a flow.
    Runs {
        /// Excess air (–).
        excess_air_ratio: f64,
        /// Flue gas (kg/s).
        gas_flow: f64,
        /// Gas into the chimney (K).
        chimney_inlet: f64,
    },
    /// It draws more air than an input may hold.
    Beyond,
    /// It finds no flow, or less than the wood needs.
    Starves,
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
            result.runs_outlet,
            result.chimney_inlet,
            result.efficiency_lower,
            result.margin,
            result.mouth_wall,
            result.dew_point,
        ] {
            write!(f, " {figure}")?;
        }
        write!(f, " {}", result.worst.map_or("fine", Severity::id))?;
        match result.open {
            OpenFlow::Beyond => write!(f, " beyond"),
            OpenFlow::Starves => write!(f, " starves"),
            OpenFlow::Runs { excess_air_ratio, gas_flow, chimney_inlet } => {
                write!(f, " runs {excess_air_ratio} {gas_flow} {chimney_inlet}")
            }
        }
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
        let figure = |word: &str| float(word).ok_or(NotAColumn);
        let mut next = || words.next().ok_or(NotAColumn);
        let result = ColumnResult {
            runs_outlet: figure(first)?,
            chimney_inlet: figure(next()?)?,
            efficiency_lower: figure(next()?)?,
            margin: figure(next()?)?,
            mouth_wall: figure(next()?)?,
            dew_point: figure(next()?)?,
            worst: Severity::from_id(next()?),
            open: match next()? {
                "beyond" => OpenFlow::Beyond,
                "starves" => OpenFlow::Starves,
                "runs" => OpenFlow::Runs {
                    excess_air_ratio: figure(next()?)?,
                    gas_flow: figure(next()?)?,
                    chimney_inlet: figure(next()?)?,
                },
                _ => return Err(NotAColumn),
            },
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
