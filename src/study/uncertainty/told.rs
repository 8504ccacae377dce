//! The samples a few at a time, and their words for a message from one program to another.

use super::{
    AnswerFractions, FigureBand, FigureBands, FindingFraction, Fractions, GasBand, Headline,
    Plan, Rank, SPREADS, Sample, Setup, Shape, SpreadId, SpreadRange, Uncertainty,
};
use crate::design::Design;
use crate::rules::{Question, Severity};
use std::fmt;
use std::str::{FromStr, Split};

/// What is told of the samples, in this order.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// So many are computed.
    Done(usize),
    /// What all of them say together; the last part.
    Found(Box<Uncertainty>),
    /// No figures were found at any of them; the last part then.
    Nothing,
}

/// Samples that are computed between two parts: some 20 ms in a browser, in which nobody is heard.
const AT_ONCE: usize = 25;

/// The parts, one by one.
#[derive(Clone, Debug)]
pub struct Parts {
    plan: Plan,
    samples: Vec<Sample>,
    told: bool,
}

impl Parts {
    /// All spreads of a design, with as many samples as are enough.
    pub fn new(design: &Design) -> Self {
        let plan = Plan::new(design, Setup::standard(Setup::ENOUGH));
        Self { plan, samples: Vec::new(), told: false }
    }
}

impl Iterator for Parts {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        let done = self.samples.len();
        if done < self.plan.len() {
            let next = (done..done + AT_ONCE).filter_map(|index| self.plan.sample(index));
            self.samples.extend(next);
            return Some(Part::Done(self.samples.len()));
        }
        if std::mem::replace(&mut self.told, true) {
            return None;
        }
        let found = self.plan.sum_up(&self.samples);
        Some(found.map_or(Part::Nothing, |found| Part::Found(Box::new(found))))
    }
}

/// As words, without rounding.
impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Done(count) => write!(f, "done {count}"),
            Self::Found(found) => {
                f.write_str("found")?;
                write(f, found)
            }
            Self::Nothing => f.write_str("nothing"),
        }
    }
}

/// The words are not those of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAPart;

impl FromStr for Part {
    type Err = NotAPart;

    fn from_str(text: &str) -> Result<Self, NotAPart> {
        let mut words = Words(text.split(' '));
        let part = match words.0.next() {
            Some("done") => words.read().map(Self::Done),
            Some("found") => words.uncertainty().map(|found| Self::Found(Box::new(found))),
            Some("nothing") => Some(Self::Nothing),
            _ => None,
        };
        part.ok_or(NotAPart)
    }
}

fn write(f: &mut fmt::Formatter<'_>, found: &Uncertainty) -> fmt::Result {
    let Uncertainty {
        samples,
        seed,
        failed,
        spreads,
        gas_along_the_path,
        figures,
        answers,
        findings,
    } = found;
    write!(f, " {samples} {seed} {failed} {}", spreads.len())?;
    for SpreadRange { spread, distribution, nominal, p05, p95 } in spreads {
        let (spread, shape) = (number_of(*spread), *distribution as u8);
        write!(f, " {spread} {shape} {nominal} {p05} {p95}")?;
    }
    write!(f, " {}", gas_along_the_path.len())?;
    for GasBand { p05, p50, p95 } in gas_along_the_path {
        write!(f, " {p05} {p50} {p95}")?;
    }
    for headline in Headline::ALL {
        let FigureBand { p05, p50, p95, ranking } = figures.get(headline);
        write!(f, " {p05} {p50} {p95} {}", ranking.len())?;
        for Rank { spread, rank_correlation } in ranking {
            write!(f, " {} {rank_correlation}", number_of(*spread))?;
        }
    }
    for question in Question::ALL {
        let Fractions { yes, look_again, no, not_enough_known } = answers.get(question);
        write!(f, " {yes} {look_again} {no} {not_enough_known}")?;
    }
    write!(f, " {}", findings.len())?;
    for FindingFraction { id, severity, fraction } in findings {
        write!(f, " {id} {} {fraction}", severity.id())?;
    }
    Ok(())
}

/// Place of a spread among all.
fn number_of(spread: SpreadId) -> usize {
    SPREADS.iter().position(|known| known.id == spread).unwrap_or_default()
}

struct Words<'a>(Split<'a, char>);

impl Words<'_> {
    fn read<T: FromStr>(&mut self) -> Option<T> {
        self.0.next()?.parse().ok()
    }

    fn list<T>(&mut self, mut read: impl FnMut(&mut Self) -> Option<T>) -> Option<Vec<T>> {
        let count: usize = self.read()?;
        (0..count).map(|_| read(self)).collect()
    }

    fn spread(&mut self) -> Option<SpreadId> {
        SPREADS.get(self.read::<usize>()?).map(|spread| spread.id)
    }

    fn uncertainty(&mut self) -> Option<Uncertainty> {
        Some(Uncertainty {
            samples: self.read()?,
            seed: self.read()?,
            failed: self.read()?,
            spreads: self.list(Self::range)?,
            gas_along_the_path: self.list(Self::gas)?,
            figures: self.figures()?,
            answers: AnswerFractions {
                will_it_draw: self.fractions()?,
                will_the_heat_stay: self.fractions()?,
                is_it_safe: self.fractions()?,
            },
            findings: self.list(Self::finding)?,
        })
    }

    fn range(&mut self) -> Option<SpreadRange> {
        Some(SpreadRange {
            spread: self.spread()?,
            distribution: match self.read::<u8>()? {
                0 => Shape::Lognormal,
                1 => Shape::Normal,
                _ => Shape::Uniform,
            },
            nominal: self.read()?,
            p05: self.read()?,
            p95: self.read()?,
        })
    }

    fn gas(&mut self) -> Option<GasBand> {
        Some(GasBand { p05: self.read()?, p50: self.read()?, p95: self.read()? })
    }

    fn figures(&mut self) -> Option<FigureBands> {
        let figures: Option<Vec<_>> = Headline::ALL.iter().map(|_| self.figure()).collect();
        let mut figures = figures?.into_iter();
        let none = || FigureBand { p05: 0.0, p50: 0.0, p95: 0.0, ranking: Vec::new() };
        Some(FigureBands::new(|_| figures.next().unwrap_or_else(none)))
    }

    fn figure(&mut self) -> Option<FigureBand> {
        Some(FigureBand {
            p05: self.read()?,
            p50: self.read()?,
            p95: self.read()?,
            ranking: self.list(|words| {
                Some(Rank { spread: words.spread()?, rank_correlation: words.read()? })
            })?,
        })
    }

    fn fractions(&mut self) -> Option<Fractions> {
        Some(Fractions {
            yes: self.read()?,
            look_again: self.read()?,
            no: self.read()?,
            not_enough_known: self.read()?,
        })
    }

    fn finding(&mut self) -> Option<FindingFraction> {
        Some(FindingFraction {
            id: self.read()?,
            severity: Severity::from_id(self.0.next()?)?,
            fraction: self.read()?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn samples_are_counted_and_their_sum_survives_its_words() {
        let design = Design::demonstration();
        let parts: Vec<Part> = Parts::new(&design).collect();
        let (last, before) = parts.split_last().unwrap();
        let counts: Vec<Part> = (1..=20).map(|part| Part::Done(25 * part)).collect();
        assert_eq!(before, counts);
        for part in &parts {
            assert_eq!(part.to_string().parse().as_ref(), Ok(part));
        }
        let plan = Plan::new(&design, Setup::standard(Setup::ENOUGH));
        let whole = plan.sum_up(&plan.samples().collect::<Vec<_>>()).unwrap();
        assert_eq!(*last, Part::Found(Box::new(whole)));
        assert_eq!(Part::Nothing.to_string().parse(), Ok(Part::Nothing));
    }

    #[test]
    fn other_words_are_no_part() {
        for text in
            ["", "done", "done x", "found", "found 1 1 0 99999999999", "found 1 1 0 1 99"]
        {
            assert_eq!(text.parse::<Part>(), Err(NotAPart), "{text}");
        }
    }
}
