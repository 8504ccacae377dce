//! How a passage travels: its texts one after the other, parted by a control character that no text
//! has, with how many there are where that varies. Small to read, which counts in the page.

use super::InUnits;
use crate::drawing::gallery::{Gallery, Mark, Picture};
use crate::rules::Answer;
use crate::units::float;
use crate::words::passage::{Block, Cell, Entry, Passage, Table, Take};
use std::str::{FromStr, Split};

/// Parts texts: the unit separator of ASCII.
const PART: char = '\u{1f}';

/// What can travel.
pub(super) trait Wire: Sized {
    fn put(&self, texts: &mut Vec<String>);
    fn take(texts: &mut Texts<'_>) -> Option<Self>;
}

/// The texts of a message, one by one.
pub(super) struct Texts<'a>(Split<'a, char>);

impl Texts<'_> {
    fn text(&mut self) -> Option<String> {
        self.0.next().map(str::to_owned)
    }

    pub(super) fn parse<T: FromStr>(&mut self) -> Option<T> {
        self.0.next()?.parse().ok()
    }
}

/// As words.
pub(super) fn write(told: &impl Wire) -> String {
    let mut texts = Vec::new();
    told.put(&mut texts);
    texts.join(&PART.to_string())
}

/// What was told, and nothing more.
pub(super) fn read<T: Wire>(words: &str) -> Option<T> {
    let mut texts = Texts(words.split(PART));
    T::take(&mut texts).filter(|_| texts.0.next().is_none())
}

impl Wire for String {
    fn put(&self, texts: &mut Vec<String>) {
        texts.push(self.replace(PART, " "));
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        texts.text()
    }
}

impl Wire for f64 {
    fn put(&self, texts: &mut Vec<String>) {
        texts.push(self.to_string());
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        float(texts.0.next()?)
    }
}

impl<const N: usize> Wire for [f64; N] {
    fn put(&self, texts: &mut Vec<String>) {
        for each in self {
            each.put(texts);
        }
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        let mut all = [0.0; N];
        for each in &mut all {
            *each = Wire::take(texts)?;
        }
        Some(all)
    }
}

/// How many, then each.
impl<T: Wire> Wire for Vec<T> {
    fn put(&self, texts: &mut Vec<String>) {
        texts.push(self.len().to_string());
        for each in self {
            each.put(texts);
        }
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        let count: usize = texts.parse()?;
        (0..count).map(|_| T::take(texts)).collect()
    }
}

/// As none or one.
impl<T: Wire> Wire for Option<T> {
    fn put(&self, texts: &mut Vec<String>) {
        texts.push(usize::from(self.is_some()).to_string());
        if let Some(each) = self {
            each.put(texts);
        }
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        match texts.parse::<usize>()? {
            0 => Some(None),
            _ => T::take(texts).map(Some),
        }
    }
}

impl<T: Wire> Wire for InUnits<T> {
    fn put(&self, texts: &mut Vec<String>) {
        self.metric.put(texts);
        self.us.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self { metric: T::take(texts)?, us: T::take(texts)? })
    }
}

/// A thing under its name.
impl<T: Wire> Wire for (String, T) {
    fn put(&self, texts: &mut Vec<String>) {
        self.0.put(texts);
        self.1.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some((texts.text()?, T::take(texts)?))
    }
}

impl Wire for Passage {
    fn put(&self, texts: &mut Vec<String>) {
        self.title.put(texts);
        self.blocks.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self { title: texts.text()?, blocks: Wire::take(texts)? })
    }
}

/// Its kind, then what it holds.
impl Wire for Block {
    fn put(&self, texts: &mut Vec<String>) {
        let mut kind = |kind: &str| texts.push(kind.to_owned());
        match self {
            Self::Text(text) => {
                kind("text");
                text.put(texts);
            }
            Self::Head(head) => {
                kind("head");
                head.put(texts);
            }
            Self::List(points) => {
                kind("list");
                points.put(texts);
            }
            Self::Table(table) => {
                kind("table");
                table.put(texts);
            }
            Self::Folded(passage) => {
                kind("folded");
                passage.put(texts);
            }
            Self::Choice(label, passages) => {
                kind("choice");
                label.put(texts);
                passages.put(texts);
            }
            Self::Take(Take { text, link, value }) => {
                kind("take");
                text.put(texts);
                link.put(texts);
                value.put(texts);
            }
        }
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(match texts.0.next()? {
            "text" => Self::Text(texts.text()?),
            "head" => Self::Head(texts.text()?),
            "list" => Self::List(Wire::take(texts)?),
            "table" => Self::Table(Wire::take(texts)?),
            "folded" => Self::Folded(Wire::take(texts)?),
            "choice" => Self::Choice(texts.text()?, Wire::take(texts)?),
            "take" => Self::Take(Take {
                text: texts.text()?,
                link: texts.text()?,
                value: Wire::take(texts)?,
            }),
            _ => return None,
        })
    }
}

impl Wire for Table {
    fn put(&self, texts: &mut Vec<String>) {
        self.caption.put(texts);
        self.heads.put(texts);
        self.rows.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            caption: Wire::take(texts)?,
            heads: Wire::take(texts)?,
            rows: Wire::take(texts)?,
        })
    }
}

impl Wire for Cell {
    fn put(&self, texts: &mut Vec<String>) {
        self.answer.put(texts);
        self.text.put(texts);
        self.bar.put(texts);
        self.more.put(texts);
        self.entry.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            answer: Wire::take(texts)?,
            text: texts.text()?,
            bar: Wire::take(texts)?,
            more: Wire::take(texts)?,
            entry: Wire::take(texts)?,
        })
    }
}

impl Wire for Entry {
    fn put(&self, texts: &mut Vec<String>) {
        self.name.put(texts);
        self.label.put(texts);
        self.factor.put(texts);
        self.words.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            name: texts.text()?,
            label: texts.text()?,
            factor: Wire::take(texts)?,
            words: Wire::take(texts)?,
        })
    }
}

impl Wire for Gallery {
    fn put(&self, texts: &mut Vec<String>) {
        self.pictures.put(texts);
        self.readings.put(texts);
        texts.push(self.across.to_string());
        texts.push(self.first.to_string());
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            pictures: Wire::take(texts)?,
            readings: Wire::take(texts)?,
            across: texts.parse()?,
            first: texts.parse()?,
        })
    }
}

impl Wire for Picture {
    fn put(&self, texts: &mut Vec<String>) {
        for text in [&self.title, &self.description, &self.class] {
            text.put(texts);
        }
        self.size.put(texts);
        self.marks.put(texts);
        self.stops.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            title: texts.text()?,
            description: texts.text()?,
            class: texts.text()?,
            size: Wire::take(texts)?,
            marks: Wire::take(texts)?,
            stops: Wire::take(texts)?,
        })
    }
}

impl Wire for Mark {
    fn put(&self, texts: &mut Vec<String>) {
        self.class.put(texts);
        self.path.put(texts);
        self.at.put(texts);
        self.text.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            class: texts.text()?,
            path: texts.text()?,
            at: Wire::take(texts)?,
            text: texts.text()?,
        })
    }
}

/// An answer with its word.
impl Wire for (Answer, String) {
    fn put(&self, texts: &mut Vec<String>) {
        texts.push(self.0.id().to_owned());
        self.1.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some((Answer::from_id(texts.0.next()?)?, texts.text()?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_passage_survives_its_way() {
        let more = Passage::new("Why").list(["One.".to_owned(), "Two, \"three\".".to_owned()]);
        let cell = Cell {
            answer: Some((Answer::LookAgain, "Look again".into())),
            bar: Some(-0.25),
            more: Some(more.clone()),
            entry: Some(Entry {
                name: "stock.core".into(),
                label: "Bricks in stock".into(),
                factor: 0.5,
                words: vec![("a".into(), "A".into())],
            }),
            ..Cell::from("5 Pa")
        };
        let take = Take { text: "Take 80 W/K".into(), link: "ua".into(), value: 80.25 };
        let passage = Passage::new("Figures")
            .text("")
            .table(&["What", "Is"], [vec!["A".into(), cell], vec!["B".into(), Cell::default()]])
            .folded(more.clone())
            .with(Block::Take(take))
            .with(Block::Choice("Which".into(), vec![more, Passage::default()]));
        let told = InUnits { metric: passage, us: Passage::new("feet") };
        assert_eq!(read(&write(&told)), Some(told));
    }

    #[test]
    fn a_gallery_survives_its_way() {
        let marks =
            vec![Mark::line("curve", [(0.0, 1.25)]), Mark::text("end", (3.0, 4.0), "5")];
        let stops = vec![[0.0, 1.0, 2.0, 3.5]];
        let title = "Heat".to_owned();
        let picture =
            Picture { title, size: [420.0, 240.5], marks, stops, ..Picture::default() };
        let readings = vec![("Runs 5".to_owned(), "1 rn 5 none".to_owned())];
        let gallery = Gallery { pictures: vec![picture], readings, across: 3, first: 2 };
        assert_eq!(read(&write(&gallery)), Some(gallery));
    }

    #[test]
    fn damaged_words_are_nothing() {
        let told = write(&Passage::new("Figures").text("one").text("two"));
        let texts: Vec<&str> = told.split(PART).collect();
        for count in 0..texts.len() {
            let cut = texts[..count].join(&PART.to_string());
            assert_eq!(read::<Passage>(&cut), None, "{cut}");
        }
        assert_eq!(read::<Passage>(&format!("{told}{PART}")), None);
        assert_eq!(read::<Passage>(&told.replace("text", "song")), None);
        let many = format!("title{PART}18446744073709551615{PART}text{PART}one");
        assert_eq!(read::<Passage>(&many), None);
    }

    #[test]
    fn a_text_cannot_part_another() {
        let odd = Passage::new(format!("a{PART}b"));
        assert_eq!(read(&write(&odd)), Some(Passage::new("a b")));
    }
}
