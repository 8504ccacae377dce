//! Jobs in pieces that several workers find at once. One of them leads: it hands pieces out, takes
//! what comes back and tells of it; another helps, with nothing but the order and the pieces. What
//! is told does not hang on who found a piece, or when.

use super::news::News;
use super::tell::Telling;
use std::collections::VecDeque;

/// A job from the side of whoever leads it.
pub trait Lead {
    /// What is told before anything is found.
    fn begin(&mut self) -> Vec<News>;
    /// Pieces that are wanted and not found, the most urgent first; none at the end. Only the first
    /// is sure to be of use.
    fn wanted(&self) -> Vec<String>;
    /// Takes what was found of a piece; what is told then.
    fn take(&mut self, piece: &str, found: &str) -> Vec<News>;
}

/// The same job from the side of whoever finds a piece of it.
pub trait Help {
    /// Finds a piece.
    fn find(&mut self, piece: &str) -> String;
}

/// A job with both of its sides.
pub struct Shared {
    /// Who leads it.
    pub lead: Box<dyn Lead>,
    /// Who finds its pieces.
    pub help: Box<dyn Help>,
}

impl Shared {
    /// All of its news, found by one alone.
    pub(super) fn alone(self) -> Telling {
        let Self { mut lead, mut help } = self;
        let mut news = VecDeque::from(lead.begin());
        Box::new(std::iter::from_fn(move || {
            while news.is_empty() {
                let piece = lead.wanted().into_iter().next()?;
                let found = help.find(&piece);
                news.extend(lead.take(&piece, &found));
            }
            news.pop_front()
        }))
    }
}
