//! What the samples say, as the page needs it.

use super::wire::{self, Texts, Wire};
use super::{InUnits, Told};
use crate::rules::Question;
use crate::study::uncertainty::{GasBand, Headline, Uncertainty};
use crate::words::uncertainty as said;

/// Bands and shares of answers: what stands beside figures and answers in words, the gas in
/// figures, since it is drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Bands {
    /// Gas along the path: out of the firebox and of each run, into the chimney, at its mouth.
    pub gas: Vec<GasBand>,
    /// Between what each figure lies, in the order of [`Headline::ALL`].
    figures: Vec<InUnits<String>>,
    /// In how many cases each question is answered with yes, in the order of [`Question::ALL`].
    yes: Vec<String>,
    /// What is said with a yes that does not hold in nearly all cases, likewise; else empty.
    reserves: Vec<String>,
    /// All of it.
    pub passage: Told,
}

impl Bands {
    /// What the samples say.
    pub fn new(found: &Uncertainty) -> Self {
        let figure = |headline| {
            InUnits::say(|system| said::band(headline, found.figures.get(headline), system))
        };
        let yes = |question| said::yes(question, found.answers.get(question));
        let reserve = |question| said::reserve(found.answers.get(question)).unwrap_or_default();
        Self {
            gas: found.gas_along_the_path.clone(),
            figures: Headline::ALL.map(figure).to_vec(),
            yes: Question::ALL.map(yes).to_vec(),
            reserves: Question::ALL.map(reserve).to_vec(),
            passage: InUnits::say(|system| said::passage(found, system)),
        }
    }

    /// Reads what was told.
    pub fn read(words: &str) -> Option<Self> {
        wire::read(words)
    }

    /// Between what a figure lies.
    pub fn figure(&self, headline: Headline) -> Option<&InUnits<String>> {
        let place = Headline::ALL.iter().position(|other| *other == headline)?;
        self.figures.get(place)
    }

    /// In how many cases a question is answered with yes.
    pub fn yes(&self, question: Question) -> Option<&str> {
        of_question(&self.yes, question)
    }

    /// What is said with a yes that does not hold in nearly all cases; else empty.
    pub fn reserve(&self, question: Question) -> Option<&str> {
        of_question(&self.reserves, question)
    }
}

fn of_question(texts: &[String], question: Question) -> Option<&str> {
    let place = Question::ALL.iter().position(|other| *other == question)?;
    texts.get(place).map(String::as_str)
}

impl Wire for Bands {
    fn put(&self, texts: &mut Vec<String>) {
        self.gas.put(texts);
        self.figures.put(texts);
        self.yes.put(texts);
        self.reserves.put(texts);
        self.passage.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            gas: Wire::take(texts)?,
            figures: Wire::take(texts)?,
            yes: Wire::take(texts)?,
            reserves: Wire::take(texts)?,
            passage: Wire::take(texts)?,
        })
    }
}

impl Wire for GasBand {
    fn put(&self, texts: &mut Vec<String>) {
        for each in [self.p05, self.p50, self.p95] {
            each.put(texts);
        }
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self { p05: Wire::take(texts)?, p50: Wire::take(texts)?, p95: Wire::take(texts)? })
    }
}
