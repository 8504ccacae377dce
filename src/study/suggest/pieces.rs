//! Pieces of a search that can be found by anyone: what comes of one hangs on the design and the wish
//! alone, so that it does not matter who finds it, or when.

use super::space::{Puts, Space, changed};
use super::{Likely, Looked, Wish, look, with};
use crate::design::Design;
use crate::rules::Edges;
use crate::study::edges;
use crate::study::edges::Study;
use crate::study::figures::Days;
use crate::study::trials::{Trial, Tried, try_surely};
use std::fmt;
use std::str::FromStr;

/// Designs that are looked at in a piece.
pub const AT_ONCE: usize = 40;
/// Of so many designs one is looked at before the first is judged.
pub const STRIDE: usize = 3;

/// A piece of the search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece {
    /// How likely some designs are, by the height of the fire.
    Look(usize),
    /// The coarse days of a design.
    Rough(Likely),
    /// Its days, as fine as the judgment asks.
    Days(Likely),
    /// A condition.
    Trial(Likely, Trial),
    /// The unfavorable edge.
    Edge(Likely),
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
    /// Of the edge; none where there is none.
    Edges(Option<Box<Edges>>),
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
    /// In which order the variants are looked at: every third first.
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
            Piece::Days(likely) => Found::Days(Box::new(Days::new(&self.likely(likely)).ok())),
            Piece::Trial(likely, trial) => {
                Found::Tried(Box::new(try_surely(&self.likely(likely), trial)))
            }
            Piece::Edge(likely) => {
                let study = Study::new(&self.likely(likely)).ok();
                let edges = study.and_then(|study| {
                    let samples: Vec<_> =
                        (0..study.len()).filter_map(|index| study.sample(index)).collect();
                    study.sum_up(&samples).ok()
                });
                Found::Edges(edges.map(Box::new))
            }
        }
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
            Piece::Edge(_) if none => Found::Edges(None),
            Piece::Edge(_) => match words.parse() {
                Ok(edges::Part::Found(edges)) => Found::Edges(Some(edges)),
                _ => return None,
            },
        })
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
            Self::Rough(likely) => ("rough", likely),
            Self::Days(likely) => ("days", likely),
            Self::Edge(likely) => ("edge", likely),
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
                    ("edge", []) => Ok(Self::Edge(likely)),
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
            Self::Edges(Some(edges)) => write!(f, "{}", edges::Part::Found(edges.clone())),
            Self::Edges(None) => f.write_str(NOTHING),
        }
    }
}
