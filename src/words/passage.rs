//! A piece of reading: texts, lists and tables. It is made once, in the reader's language and units,
//! and shown alike by page, native command and paper.

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
    /// Points, one below the other.
    List(Vec<String>),
    /// Figures in rows.
    Table(Table),
    /// A passage within the passage, which the page keeps shut until it is asked for.
    Folded(Passage),
    /// Passages of which the page shows the one that is chosen by its heading, under a label.
    Choice(String, Vec<Passage>),
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

/// Letters of the longest text that is taken for a figure.
const LONGEST_FIGURE: usize = 14;

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
            Self::Text(paragraph) => vec![paragraph.clone()],
            Self::List(points) => points.iter().map(|point| format!("- {point}")).collect(),
            Self::Table(table) => table.lines(),
            Self::Folded(passage) => passage.lines(),
            Self::Choice(label, passages) => {
                let below = passages.iter().flat_map(Passage::lines);
                let below = below.map(|line| format!("  {line}"));
                std::iter::once(label.clone()).chain(below).collect()
            }
        }
    }
}

impl Cell {
    /// Whether it is a figure, which stands in a column of others.
    pub fn is_figure(&self) -> bool {
        let starts = |text: &str| {
            let text = text.trim_start_matches(['-', '\u{2212}']);
            text.starts_with(|first: char| first.is_ascii_digit())
        };
        self.answer.is_none()
            && self.text.chars().count() <= LONGEST_FIGURE
            && starts(&self.text)
    }

    fn plain(&self) -> String {
        match &self.answer {
            Some((_, word)) => format!("{word} {}", self.text).trim_end().to_owned(),
            None => self.text.clone(),
        }
    }
}

impl Table {
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
