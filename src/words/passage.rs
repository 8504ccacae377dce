//! A piece of reading: texts, lists and tables. It is made once, in the reader's language and units,
//! and shown alike by page, native command and paper.

use crate::language::English;
use crate::rules::Answer;

/// Something to read, with its heading.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Passage {
    /// Heading.
    pub title: String,
    /// What stands below it.
    pub blocks: Vec<Block>,
}

/// A piece of a passage.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A paragraph.
    Text(String),
    /// A heading over what follows, which is shown with it.
    Head(String),
    /// Points, one below the other.
    List(Vec<String>),
    /// Figures in rows.
    Table(Table),
    /// A passage within the passage, which the page keeps shut until it is asked for.
    Folded(Passage),
    /// Passages of which the page shows the one that is chosen by its heading, under a label.
    Choice(String, Vec<Passage>),
    /// A figure that the page offers to take for an input.
    Take(Take),
}

/// A figure that can be taken for an input.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Take {
    /// What taking it means.
    pub text: String,
    /// Key of the input in links.
    pub link: String,
    /// The figure (SI).
    pub value: f64,
}

/// Figures in rows. What a row is stands in its first cell.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What the table is, where its passage does not say it.
    pub caption: Option<String>,
    /// Heads of the columns, as many as a row has cells.
    pub heads: Vec<String>,
    /// The rows.
    pub rows: Vec<Vec<Cell>>,
}

/// A cell of a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Cell {
    /// Answer that stands before the text, with its word.
    pub answer: Option<(Answer, String)>,
    /// What the cell says.
    pub text: String,
    /// A figure as a bar: its share of the longest one (–), below zero for the other way.
    pub bar: Option<f64>,
    /// What is shown when the cell is opened.
    pub more: Option<Passage>,
    /// What the page lets be typed or chosen in place of the text.
    pub entry: Option<Entry>,
}

/// A note of the design that is typed or chosen in a cell, whose text is what it is now.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entry {
    /// Name of the note.
    pub name: String,
    /// What it is, for those who do not see the table.
    pub label: String,
    /// What one of what is typed means as a note.
    pub factor: f64,
    /// Words to choose from, each with what is shown; none where a number is typed.
    pub words: Vec<(String, String)>,
}

impl From<String> for Cell {
    fn from(text: String) -> Self {
        Self { text, ..Self::default() }
    }
}

impl From<&str> for Cell {
    fn from(text: &str) -> Self {
        text.to_owned().into()
    }
}

impl From<English> for Cell {
    fn from(text: English) -> Self {
        text.said().into()
    }
}

/// Letters of the longest text that is taken for a figure.
const LONGEST_FIGURE: usize = 14;
/// Letters of the longest word that stands in a column of figures, such as that there are none.
const LONGEST_WORD: usize = 6;
/// Letters of the longest unit that is set apart from its figure.
const LONGEST_UNIT: usize = 7;

impl Passage {
    /// An empty passage.
    pub fn new(title: impl Into<String>) -> Self {
        Self { title: title.into(), blocks: Vec::new() }
    }

    /// With a paragraph more.
    #[must_use]
    pub fn text(self, text: impl Into<String>) -> Self {
        self.with(Block::Text(text.into()))
    }

    /// With a heading over what follows.
    #[must_use]
    pub fn head(self, text: impl Into<String>) -> Self {
        self.with(Block::Head(text.into()))
    }

    /// With points more; nothing where there are none.
    #[must_use]
    pub fn list(self, points: impl IntoIterator<Item = String>) -> Self {
        let points: Vec<_> = points.into_iter().collect();
        if points.is_empty() { self } else { self.with(Block::List(points)) }
    }

    /// With a table more.
    #[must_use]
    pub fn table<C: Into<Cell>>(
        self,
        heads: &[&str],
        rows: impl IntoIterator<Item = Vec<C>>,
    ) -> Self {
        let heads = heads.iter().copied().map(String::from).collect();
        let cells = |row: Vec<C>| row.into_iter().map(Into::into).collect();
        let rows = rows.into_iter().map(cells).collect();
        self.with(Block::Table(Table { caption: None, heads, rows }))
    }

    /// With a passage more, which the page keeps shut until it is asked for.
    #[must_use]
    pub fn folded(self, passage: Self) -> Self {
        self.with(Block::Folded(passage))
    }

    /// With a piece more.
    #[must_use]
    pub fn with(mut self, block: Block) -> Self {
        self.blocks.push(block);
        self
    }

    /// As plain text, for a terminal: headings, points behind dashes, columns in line.
    pub fn plain(&self) -> String {
        self.lines().into_iter().map(|line| line + "\n").collect()
    }

    fn lines(&self) -> Vec<String> {
        let below = self.blocks.iter().flat_map(Block::lines).map(|line| format!("  {line}"));
        std::iter::once(self.title.clone()).chain(below).collect()
    }
}

impl Block {
    fn lines(&self) -> Vec<String> {
        match self {
            Self::Text(text) | Self::Head(text) => vec![text.clone()],
            Self::List(points) => points.iter().map(|point| format!("- {point}")).collect(),
            Self::Table(table) => table.lines(),
            Self::Folded(passage) => passage.lines(),
            Self::Choice(label, passages) => {
                let below = passages.iter().flat_map(Passage::lines);
                let below = below.map(|line| format!("  {line}"));
                std::iter::once(label.clone()).chain(below).collect()
            }
            // Nothing can be taken on paper.
            Self::Take(_) => Vec::new(),
        }
    }
}

impl Cell {
    /// Whether it is a figure, which stands in a column of others.
    pub fn is_figure(&self) -> bool {
        let starts = |text: &str| {
            let text = text.trim_start_matches(['-', '+', '\u{2212}']);
            text.starts_with(|first: char| first.is_ascii_digit())
        };
        self.answer.is_none()
            && self.text.chars().count() <= LONGEST_FIGURE
            && starts(&self.text)
    }

    /// A figure and its unit, where that is set apart; else the whole text.
    pub fn parts(&self) -> (&str, &str) {
        let text = self.text.as_str();
        let end = text.rfind(|letter: char| letter.is_ascii_digit()).map_or(0, |at| at + 1);
        let (number, rest) = text.split_at(end);
        match rest.strip_prefix(' ') {
            Some(unit) if self.is_figure() && unit.chars().count() <= LONGEST_UNIT => {
                (number, unit)
            }
            _ => (text, ""),
        }
    }

    /// As plain text.
    pub fn plain(&self) -> String {
        match &self.answer {
            Some((_, word)) => format!("{word} {}", self.text).trim_end().to_owned(),
            None => self.text.clone(),
        }
    }
}

impl Table {
    /// The columns that hold figures, each with the letters of its longest unit: the first names its
    /// row and holds none.
    pub fn figures(&self) -> Vec<Option<usize>> {
        let column = |index: usize| {
            let cells = || self.rows.iter().filter_map(move |row| row.get(index));
            let fits = |cell: &Cell| {
                let short = cell.answer.is_none() && cell.text.chars().count() <= LONGEST_WORD;
                cell.is_figure() || short || cell.entry.is_some()
            };
            let is_figure = |cell: &Cell| {
                let typed = cell.entry.as_ref().is_some_and(|entry| entry.words.is_empty());
                cell.is_figure() || typed
            };
            let holds = 0 < index && cells().all(fits) && cells().any(is_figure);
            let unit = |cell: &Cell| cell.parts().1.chars().count();
            holds.then(|| cells().map(unit).max().unwrap_or(0))
        };
        (0..self.heads.len()).map(column).collect()
    }

    fn lines(&self) -> Vec<String> {
        let plain = |row: &Vec<Cell>| row.iter().map(Cell::plain).collect();
        let rows: Vec<Vec<String>> =
            std::iter::once(self.heads.clone()).chain(self.rows.iter().map(plain)).collect();
        let length = |row: &Vec<String>, column| {
            row.get(column).map_or(0, |cell: &String| cell.chars().count())
        };
        let width =
            |column| rows.iter().map(|row| length(row, column)).max().unwrap_or_default();
        let widths: Vec<_> = (0..self.heads.len()).map(width).collect();
        let line = |row: &Vec<String>| {
            let cells = row.iter().zip(&widths);
            let cells: Vec<_> = cells.map(|(cell, width)| format!("{cell:width$}")).collect();
            cells.join("  ").trim_end().to_owned()
        };
        self.caption.iter().cloned().chain(rows.iter().map(line)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_stand_apart_from_their_units() {
        let parts = |text: &str| {
            let cell = Cell::from(text);
            let (number, unit) = cell.parts();
            (number.to_owned(), unit.to_owned())
        };
        for (text, number, unit) in [
            ("0.053 m\u{b3}", "0.053", "m\u{b3}"),
            ("1 3/4 in", "1 3/4", "in"),
            ("-3.5 Pa", "-3.5", "Pa"),
            ("6 to 12 h", "6 to 12", "h"),
            ("210", "210", ""),
            ("3' 6\"", "3' 6\"", ""),
            ("none", "none", ""),
        ] {
            assert_eq!(parts(text), (number.to_owned(), unit.to_owned()));
        }
        let rows = [
            ["Brick", "210", "a note"],
            ["Mortar", "0.1 m\u{b3}", "12 kg"],
            ["Slab", "none", ""],
        ];
        let passage = Passage::new("").table(&["What", "Needed", "Said"], rows.map(Vec::from));
        let [Block::Table(table)] = passage.blocks.as_slice() else { panic!() };
        assert_eq!(table.figures(), [None, Some(2), Some(2)]);
    }

    #[test]
    fn plain_text_keeps_columns_in_line() {
        let rows = [["Gas", "200 °C"], ["Hottest face", "61 °C"]];
        let rows = rows.map(|row| row.to_vec());
        let folded = Passage::new("Why").list(["Because.".to_owned()]);
        let passage = Passage::new("Figures").table(&["What", "Is"], rows).folded(folded);
        let expected = "\
Figures
  What          Is
  Gas           200 °C
  Hottest face  61 °C
  Why
    - Because.
";
        assert_eq!(passage.plain(), expected);
    }
}
