//! Passages and findings as HTML.

use super::Heater;
use crate::export::markup::Markup;
use crate::export::svg;
use crate::language::{self, said, say};
use crate::rules::{Finding, Question, answer};
use crate::sources::Source;
use crate::units::System;
use crate::words;
use crate::words::passage::{Block, Cell, Passage, Table};
use crate::words::sources::cited;
use crate::words::validity::validity;

/// Size of the number of a finding (mm).
const MARK: f64 = 2.6;

/// Sources in the order in which they are first cited.
#[derive(Default)]
pub(super) struct Footnotes {
    cited: Vec<Source>,
}

impl Footnotes {
    /// Number of a source, from 1.
    fn number(&mut self, source: &Source) -> usize {
        if let Some(place) = self.cited.iter().position(|other| other == source) {
            return place + 1;
        }
        self.cited.push(*source);
        self.cited.len()
    }

    /// All of them with how far each was checked.
    pub(super) fn write(&self, markup: &mut Markup) {
        markup.open("ol", &[("class", "p-notes")]);
        for source in &self.cited {
            markup.element("li", &[], &cited(source));
        }
        markup.close();
    }
}

/// The findings by question, numbered as in the drawing.
pub(super) fn findings(
    markup: &mut Markup,
    heater: Heater<'_>,
    notes: &mut Footnotes,
    system: System,
) {
    let listed = heater.findings;
    let numbered: Vec<(usize, &Finding)> = (1..).zip(listed).collect();
    for question in Question::ALL {
        let sure = heater.worth.map(|worth| worth.answers.get(question));
        let found = words::uncertainty::answer(question, answer(question, listed), sure);
        let head = format!("{} {found}", words::question(question));
        markup.element("h3", &[], &head);
        let mine = numbered.iter().filter(|(_, finding)| finding.rule.question() == question);
        markup.open("ul", &[("class", "p-findings")]);
        let mut none = true;
        for (number, finding) in mine {
            none = false;
            one(markup, (*number, finding), notes.number(finding.source), system);
        }
        if none {
            markup.element("li", &[], said("Nothing to look at."));
        }
        markup.close();
    }
}

fn one(markup: &mut Markup, (number, finding): (usize, &Finding), note: usize, system: System) {
    let text = words::finding(finding, system);
    markup.open("li", &[]);
    svg::numbered(markup, finding.severity, &number.to_string(), MARK);
    markup.open("div", &[]);
    markup.open("p", &[]);
    let head = format!(
        "{}, {}. ",
        words::severity(finding.severity),
        language::within(&words::place(finding.place))
    );
    markup.element("b", &[], &head);
    markup.text(&text.title);
    markup.element("sup", &[], &note.to_string());
    markup.close();
    markup.element("p", &[], &format!("{} {}", text.reason, text.remedy));
    let range = validity(finding.rule, system);
    markup.element("p", &[("class", "p-range")], &say!("Range of validity: {range}"));
    markup.close();
    markup.close();
}

/// Columns of a table beyond which it takes the whole width.
const NARROW: usize = 2;

/// Whether a passage has a table that takes the whole width.
pub(super) fn is_wide(passage: &Passage) -> bool {
    passage.blocks.iter().any(|block| match block {
        Block::Table(table) => NARROW < table.heads.len(),
        Block::Folded(passage) => is_wide(passage),
        Block::Choice(_, passages) => passages.iter().any(is_wide),
        Block::Text(_) | Block::Head(_) | Block::List(_) | Block::Take(_) => false,
    })
}

/// What stands below the heading of a passage.
pub(super) fn blocks(markup: &mut Markup, passage: &Passage) {
    for block in &passage.blocks {
        match block {
            Block::Text(text) => markup.element("p", &[], text),
            Block::Head(text) => markup.element("h3", &[], text),
            Block::List(points) => {
                markup.open("ul", &[]);
                for point in points {
                    markup.element("li", &[], point);
                }
                markup.close();
            }
            Block::Table(table) => self::table(markup, table),
            Block::Folded(passage) => within(markup, passage),
            // Paper takes nothing.
            Block::Take(_) => {}
            Block::Choice(_, passages) => {
                for passage in passages {
                    within(markup, passage);
                }
            }
        }
    }
}

fn within(markup: &mut Markup, passage: &Passage) {
    markup.open("section", &[]);
    markup.element("h3", &[], &passage.title);
    blocks(markup, passage);
    markup.close();
}

/// A table, with the units of its heads.
pub(super) fn table(markup: &mut Markup, table: &Table) {
    markup.open("table", &[]);
    if let Some(caption) = &table.caption {
        markup.element("caption", &[], caption);
    }
    let figures = table.figures();
    let class = |figure: Option<usize>| if figure.is_some() { "p-figure" } else { "p-text" };
    markup.open("thead", &[]);
    markup.open("tr", &[]);
    for (head, figure) in table.heads.iter().zip(&figures) {
        markup.element("th", &[("scope", "col"), ("class", class(*figure))], head);
    }
    markup.close();
    markup.close();
    markup.open("tbody", &[]);
    for row in &table.rows {
        markup.open("tr", &[]);
        for (index, (cell, figure)) in row.iter().zip(&figures).enumerate() {
            if index == 0 {
                markup.element("th", &[("scope", "row")], &cell.plain());
            } else {
                self::cell(markup, cell, *figure);
            }
        }
        markup.close();
    }
    markup.close();
    markup.close();
}

/// A cell; in a column of figures its unit takes as much room as the longest of the column, so that
/// the figures end in line.
fn cell(markup: &mut Markup, cell: &Cell, figure: Option<usize>) {
    if let Some(longest) = figure {
        let (number, unit) = cell.parts();
        markup.open("td", &[("class", "p-figure")]);
        markup.text(number);
        if 0 < longest {
            markup.text(" ");
            markup.element("span", &[("class", &format!("p-unit p-unit-{longest}"))], unit);
        }
        markup.close();
        return;
    }
    markup.open("td", &[("class", "p-text")]);
    if let Some((_, word)) = &cell.answer {
        markup.element("b", &[], word);
        markup.text(" ");
    }
    markup.text(&cell.text);
    markup.close();
}
