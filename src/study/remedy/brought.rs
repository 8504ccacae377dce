//! What comes with a remedy.

use crate::rules::{Finding, Question, Severity};

/// A finding that comes with a remedy.
#[derive(Clone, Debug, PartialEq)]
pub enum Brought {
    /// As it was judged.
    Judged(Finding),
    /// As it is told to another program: the question to which it belongs, its weight, and what it
    /// says in short, in the language and the units of whoever reads it.
    Told(Question, Severity, String),
}

impl Brought {
    /// The question to which it belongs.
    pub const fn question(&self) -> Question {
        match self {
            Self::Judged(finding) => finding.rule.question(),
            Self::Told(question, ..) => *question,
        }
    }

    /// How much it weighs.
    pub const fn severity(&self) -> Severity {
        match self {
            Self::Judged(finding) => finding.severity,
            Self::Told(_, severity, _) => *severity,
        }
    }
}
