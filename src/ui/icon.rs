//! Shapes of severities and answers, so that color is never alone.

use super::dom::{Tag, svg};
use longsmoke::rules::{Answer, Severity};

/// What a shape says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A tick.
    Good,
    /// A ring around an i.
    Note,
    /// A triangle.
    Look,
    /// A filled octagon.
    Stop,
    /// A dashed ring around a question mark.
    Unknown,
}

impl From<Severity> for Mark {
    fn from(severity: Severity) -> Self {
        match severity {
            Severity::GoodToKnow => Self::Note,
            Severity::LookAgain => Self::Look,
            Severity::DoNotBuild => Self::Stop,
        }
    }
}

impl From<Answer> for Mark {
    fn from(answer: Answer) -> Self {
        match answer {
            Answer::Yes => Self::Good,
            Answer::LookAgain => Self::Look,
            Answer::No => Self::Stop,
            Answer::NotEnoughKnown => Self::Unknown,
        }
    }
}

impl Mark {
    /// Class that gives the color.
    pub fn class(self) -> &'static str {
        match self {
            Self::Good => "good",
            Self::Note => "note",
            Self::Look => "look",
            Self::Stop => "stop",
            Self::Unknown => "unknown",
        }
    }

    fn outline(self) -> &'static str {
        match self {
            Self::Good => "M2.5 8.5 6.2 12.2 13.5 3.8",
            Self::Note => "M8 1.5a6.5 6.5 0 1 0 .01 0ZM8 7.2V11.6M8 4.2V5.4",
            Self::Look => "M8 1.8 15 14.2H1ZM8 6.2V9.8M8 11.4V12.6",
            Self::Stop => "M5.2 1.2H10.8L14.8 5.2V10.8L10.8 14.8H5.2L1.2 10.8V5.2Z",
            Self::Unknown => "M5.6 6a2.4 2.4 0 1 1 3.4 2.2c-.7.4-1 .8-1 1.6M8 11.6V12.8",
        }
    }

    fn inner(self) -> &'static str {
        match self {
            Self::Stop => "M4.6 8H11.4",
            _ => "",
        }
    }
}

/// A shape beside its word.
pub fn icon(mark: Mark) -> Tag {
    shape(&format!("icon {}", mark.class()), mark.outline())
        .child(svg("path").class("inner").attr("d", mark.inner()))
}

/// An arrow that turns back; the style sheet turns it round for a step forth.
pub fn turn() -> Tag {
    shape("icon", "M6 2.5 2.5 6 6 9.5M2.5 6H9.5a4 4 0 0 1 0 8H7")
}

fn shape(class: &str, outline: &str) -> Tag {
    svg("svg")
        .class(class)
        .attr("viewBox", "0 0 16 16")
        .attr("aria-hidden", "true")
        .child(svg("path").class("outline").attr("d", outline))
}
