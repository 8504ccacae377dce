//! Pieces of a search that can be found by anyone: what comes of one hangs on the design and the wish
//! alone, so that it does not matter who finds it, or when.

use super::space::{Puts, Space, changed};
use super::{Likely, Looked, Wish, look, with};
use crate::analysis::Failure;
use crate::analysis::day::{Setup, Whole, whole};
use crate::design::Design;
use crate::study::edges::{Cases, ENOUGH, Nominal, Sampled};
use crate::study::figures::Days;
use crate::study::trials::{Trial, Tried, try_surely};
use std::fmt;
use std::str::FromStr;

/// Designs that are looked at in a piece.
pub const AT_ONCE: usize = 40;
/// Of so many designs one is looked at before the first is judged.
pub const STRIDE: usize = 4;
/// Samples of the edge in a piece.
const SAMPLES_AT_ONCE: usize = 8;
/// Pieces of an edge: the day as it stands, then the samples.
pub const OF_AN_EDGE: usize = 1 + (ENOUGH as usize).div_ceil(SAMPLES_AT_ONCE);

/// A piece of the search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece {
    /// How likely some designs are, by the height of the fire.
    Look(usize),
    /// The coarse days of a design.
    Rough(Likely),
    /// Its days as the page has them.
    Days(Likely),
    /// A condition.
    Trial(Likely, Trial),
    /// A part of the unfavorable edge: the day as it stands, then samples.
    Edge(Likely, usize),
}

/// What came of a piece.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// Of designs, in their order; none where one cannot be analyzed.
    Looked(Vec<Option<Looked>>),
    /// Of days; none where there are none.
    Days(Box<Option<Days>>),
    /// Of a condition.
    Tried(Box<Tried>),
    /// Of the day on which the edge stands; none where there is none.
    Nominal(Option<Box<Nominal>>),
    /// Of some samples of the edge; none where there are none.
    Sampled(Option<Box<Sampled>>),
}

/// What a search stands on.
#[derive(Clone, Debug)]
pub struct Ground {
    /// The design as it stands.
    pub design: Design,
    /// What is wished.
    pub wish: Wish,
    /// What is searched.
    pub space: Space,
    /// In which order the variants are looked at: every fourth first.
    pub order: Vec<usize>,
}

impl Ground {
    /// The ground of a search.
    pub fn new(design: &Design, wish: Wish, space: Space) -> Self {
        let count = space.variants.len();
        let order = (0..STRIDE).flat_map(|first| (first..count).step_by(STRIDE)).collect();
        Self { design: design.clone(), wish, space, order }
    }

    /// Variants that are looked at in a piece, by their places.
    pub fn chunk(&self, index: usize) -> impl Iterator<Item = usize> {
        self.order.iter().skip(AT_ONCE * index).take(AT_ONCE).copied()
    }

    /// What differs in a design that may be followed.
    pub fn puts(&self, likely: Likely) -> Puts {
        let of = |all: &[Puts], place: usize| all.get(place).cloned().unwrap_or_default();
        let variant = of(&self.space.variants, likely.variant);
        let shell = of(&self.space.shells, likely.shell);
        changed(&self.design, &[variant, shell].concat())
    }

    fn likely(&self, likely: Likely) -> Design {
        with(&self.design, &self.puts(likely))
    }

    /// Finds a piece.
    pub fn find(&self, piece: Piece) -> Found {
        self.find_with(&mut Memory::default(), piece)
    }

    /// The same with what is known of the design that was sought before.
    pub fn find_with(&self, memory: &mut Memory, piece: Piece) -> Found {
        match piece {
            Piece::Look(index) => {
                let looked = self.chunk(index).map(|place| {
                    let puts = self.space.variants.get(place)?;
                    look(&with(&self.design, puts), self.wish)
                });
                Found::Looked(looked.collect())
            }
            Piece::Rough(likely) => {
                Found::Days(Box::new(Days::roughly(&self.likely(likely)).ok()))
            }
            Piece::Days(likely) => {
                let design = self.likely(likely);
                let standing = memory.standing(likely, &design).ok();
                Found::Days(Box::new(standing.and_then(|day| Days::finely(&design, day).ok())))
            }
            Piece::Trial(likely, trial) => {
                let design = &self.likely(likely);
                let tried = try_surely(design, trial, || memory.standing(likely, design));
                Found::Tried(Box::new(tried))
            }
            Piece::Edge(likely, part) => self.edge(memory, likely, part),
        }
    }

    fn edge(&self, memory: &mut Memory, likely: Likely, part: usize) -> Found {
        let Some(part) = part.checked_sub(1) else {
            let nominal = Nominal::new(&self.likely(likely)).ok();
            return Found::Nominal(nominal.map(Box::new));
        };
        let cases = memory.cases(likely, || self.likely(likely));
        let first = SAMPLES_AT_ONCE * part;
        let sampled = cases.map(|cases| cases.sampled(first..first + SAMPLES_AT_ONCE));
        Found::Sampled(sampled.map(Box::new))
    }

    /// Reads what was found of a piece.
    pub fn read(&self, piece: Piece, words: &str) -> Option<Found> {
        let none = words == NOTHING;
        Some(match piece {
            Piece::Look(_) => {
                let words = words.split(' ').filter(|word| !word.is_empty());
                Found::Looked(words.map(read_looked).collect::<Result<_, _>>().ok()?)
            }
            Piece::Rough(_) | Piece::Days(_) if none => Found::Days(Box::new(None)),
            Piece::Rough(likely) | Piece::Days(likely) => {
                Found::Days(Box::new(Some(Days::read(&self.likely(likely), words)?)))
            }
            Piece::Trial(..) => Found::Tried(Box::new(words.parse().ok()?)),
            Piece::Edge(_, 0) if none => Found::Nominal(None),
            Piece::Edge(_, 0) => Found::Nominal(Some(Box::new(Nominal::read(words)?))),
            Piece::Edge(..) if none => Found::Sampled(None),
            Piece::Edge(..) => Found::Sampled(Some(Box::new(Sampled::read(words)?))),
        })
    }
}

/// What a seeker keeps of the design that it sought before, from which further pieces of it are
/// found. It hangs on that design alone.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    standing: Option<(Likely, Result<Whole, Failure>)>,
    cases: Option<(Likely, Option<Cases>)>,
}

impl Memory {
    /// The day of a design as the page has it.
    fn standing(&mut self, likely: Likely, design: &Design) -> Result<&Whole, &Failure> {
        self.standing.take_if(|(of, _)| *of != likely);
        let found = || (likely, whole(design, &Setup::STANDARD, None));
        self.standing.get_or_insert_with(found).1.as_ref()
    }

    fn cases(&mut self, likely: Likely, design: impl FnOnce() -> Design) -> Option<&Cases> {
        self.cases.take_if(|(of, _)| *of != likely);
        let found = || (likely, Cases::new(&design()).ok());
        self.cases.get_or_insert_with(found).1.as_ref()
    }
}

/// A look at a design; none where it cannot be analyzed.
fn read_looked(word: &str) -> Result<Option<Looked>, NotAPiece> {
    if word == NOTHING {
        return Ok(None);
    }
    let number = |word: &str| word.parse::<f64>().map_err(|_| NotAPiece);
    let words: Vec<&str> = word.split(',').collect();
    let (against, off, missed) = match words.as_slice() {
        [against, off] => (against, off, None),
        [against, off, rule, beyond] => {
            (against, off, Some(((*rule).to_owned(), number(beyond)?)))
        }
        _ => return Err(NotAPiece),
    };
    let against = against.parse().map_err(|_| NotAPiece)?;
    Ok(Some(Looked { against, off: number(off)?, missed }))
}

/// What stands where nothing was found.
const NOTHING: &str = "-";

/// Its kind, then what it is about.
impl fmt::Display for Piece {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (name, Likely { variant, shell }) = match self {
            Self::Look(index) => return write!(f, "look {index}"),
            Self::Trial(Likely { variant, shell }, trial) => {
                return write!(f, "trial {variant} {shell} {}", trial.id());
            }
            Self::Edge(Likely { variant, shell }, part) => {
                return write!(f, "edge {variant} {shell} {part}");
            }
            Self::Rough(likely) => ("rough", likely),
            Self::Days(likely) => ("days", likely),
        };
        write!(f, "{name} {variant} {shell}")
    }
}

/// The words are not those of a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAPiece;

impl FromStr for Piece {
    type Err = NotAPiece;

    fn from_str(text: &str) -> Result<Self, NotAPiece> {
        let words: Vec<&str> = text.split(' ').collect();
        let number = |word: &str| word.parse().map_err(|_| NotAPiece);
        match words.as_slice() {
            ["look", index] => number(index).map(Self::Look),
            [name, variant, shell, rest @ ..] => {
                let likely = Likely { variant: number(variant)?, shell: number(shell)? };
                match (*name, rest) {
                    ("rough", []) => Ok(Self::Rough(likely)),
                    ("days", []) => Ok(Self::Days(likely)),
                    ("edge", [part]) => number(part).map(|part| Self::Edge(likely, part)),
                    ("trial", [trial]) => {
                        let trial = Trial::from_id(trial).ok_or(NotAPiece)?;
                        Ok(Self::Trial(likely, trial))
                    }
                    _ => Err(NotAPiece),
                }
            }
            _ => Err(NotAPiece),
        }
    }
}

/// Without rounding.
impl fmt::Display for Found {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Looked(looked) => {
                let said = |looked: &Option<Looked>| match looked {
                    Some(Looked { against, off, missed: Some((rule, beyond)) }) => {
                        format!("{against},{off},{rule},{beyond}")
                    }
                    Some(Looked { against, off, missed: None }) => format!("{against},{off}"),
                    None => NOTHING.into(),
                };
                f.write_str(&looked.iter().map(said).collect::<Vec<_>>().join(" "))
            }
            Self::Days(days) => match &**days {
                Some(days) => write!(f, "{days}"),
                None => f.write_str(NOTHING),
            },
            Self::Tried(tried) => write!(f, "{tried}"),
            Self::Nominal(Some(nominal)) => f.write_str(&nominal.words()),
            Self::Sampled(Some(sampled)) => f.write_str(&sampled.words()),
            Self::Nominal(None) | Self::Sampled(None) => f.write_str(NOTHING),
        }
    }
}
