//! News of a job, as words.

use super::InUnits;
use std::fmt;
use std::str::FromStr;

/// What a worker tells of a job.
#[derive(Clone, Debug, PartialEq)]
pub enum News {
    /// So much of the whole is done.
    Progress {
        /// Parts that are done.
        done: usize,
        /// All parts.
        of: usize,
    },
    /// Something was found, in words of the job's own.
    Found(String),
    /// Why no more will be found.
    Failed(InUnits<String>),
}

/// Its kind, then the rest.
impl fmt::Display for News {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Progress { done, of } => write!(f, "progress {done} {of}"),
            Self::Found(what) => write!(f, "found {what}"),
            Self::Failed(why) => write!(f, "failed {}", super::wire::write(why)),
        }
    }
}

/// The words are no news.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotNews;

impl FromStr for News {
    type Err = NotNews;

    fn from_str(text: &str) -> Result<Self, NotNews> {
        let (kind, rest) = text.split_once(' ').ok_or(NotNews)?;
        match kind {
            "progress" => {
                let (done, of) = rest.split_once(' ').ok_or(NotNews)?;
                let read = |text: &str| text.parse().map_err(|_| NotNews);
                Ok(Self::Progress { done: read(done)?, of: read(of)? })
            }
            "found" => Ok(Self::Found(rest.to_owned())),
            "failed" => super::wire::read(rest).map(Self::Failed).ok_or(NotNews),
            _ => Err(NotNews),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn news_survive_their_words() {
        let news = [
            News::Progress { done: 3, of: 9 },
            News::Found("some words\nand a line".into()),
            News::Failed(InUnits { metric: "at 5 m".into(), us: "at 16' 5\"".into() }),
        ];
        for each in news {
            assert_eq!(each.to_string().parse(), Ok(each));
        }
        for text in ["", "found", "progress 1", "progress x 2", "failed so"] {
            assert_eq!(text.parse::<News>(), Err(NotNews), "{text}");
        }
    }
}
