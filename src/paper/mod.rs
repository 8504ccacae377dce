//! A design on sheets of A4 or Letter: HTML in its XML form with drawings as SVG, to be printed by
//! any browser. The page prints the same sheets.

mod plans;
mod plates;
mod qr;
mod reading;

#[cfg(test)]
mod tests;

use crate::analysis::Analysis;
use crate::analysis::day::Day;
use crate::courses::{self, brick::Bricks};
use crate::design::{Design, link};
use crate::export::markup::Markup;
use crate::language::{self, said, say};
use crate::rules::{Edges, Finding, Question};
use crate::study::uncertainty::Uncertainty;
use crate::units::System;
use crate::words;
use crate::words::passage::{Block, Passage};
use crate::words::{build, operation, sheet};
use reading::Footnotes;
use std::fmt::Write as _;

/// The look of the sheets.
const STYLE: &str = include_str!("sheets.css");
/// Version of the program that made them.
const VERSION: &str = env!("CARGO_PKG_VERSION");

/// What is printed.
#[derive(Clone, Copy, Debug)]
pub struct Heater<'a> {
    /// The design.
    pub design: &'a Design,
    /// Its figures.
    pub analysis: &'a Analysis,
    /// Its firing day, where there is one.
    pub day: Option<&'a Day>,
    /// Safety at its unfavorable edge, where that is known.
    pub edges: Option<&'a Edges>,
    /// What its figures are worth, where that is known.
    pub worth: Option<&'a Uncertainty>,
    /// Its findings, as [`listed`].
    pub findings: &'a [Finding],
}

/// How it is printed.
#[derive(Clone, Copy, Debug)]
pub struct Print<'a> {
    /// Units.
    pub system: System,
    /// The day of the print; none leaves room to write it.
    pub date: Option<&'a str>,
    /// Address of the page, to which the link leads; none where that is not known.
    pub address: Option<&'a str>,
}

/// Paper that a file asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 mm.
    A4,
    /// 8 1/2 by 11 in.
    Letter,
}

/// Findings in the order in which sheets and page number them: by question, the heaviest first.
pub fn listed(findings: &[Finding]) -> Vec<Finding> {
    let of = |question| findings.iter().filter(move |each| each.rule.question() == question);
    Question::ALL.into_iter().flat_map(of).copied().collect()
}

/// The sheets as a file of their own.
pub fn document(heater: Heater<'_>, print: Print<'_>, paper: Paper) -> String {
    let mut markup = Markup::default();
    markup.raw("<!DOCTYPE html>\n");
    markup
        .open("html", &[("xmlns", "http://www.w3.org/1999/xhtml"), ("lang", language::tag())]);
    markup.open("head", &[]);
    markup.empty("meta", &[("charset", "utf-8")]);
    let viewport = [("name", "viewport"), ("content", "width=device-width, initial-scale=1")];
    markup.empty("meta", &viewport);
    markup.element("title", &[], &format!("{} \u{b7} Longsmoke", name(heater.design)));
    markup.open("style", &[]);
    let size = match paper {
        Paper::A4 => "@page { size: A4; }\n",
        Paper::Letter => "@page { size: letter; }\n",
    };
    markup.raw(&style(heater.design, print));
    markup.raw(size);
    markup.close();
    markup.close();
    markup.open("body", &[]);
    markup.raw(&article(heater, print));
    markup.finish() + "\n"
}

/// The look of the sheets, with what stands in the margin of every page.
pub fn style(design: &Design, print: Print<'_>) -> String {
    let date = print.date.map_or(String::new(), |date| format!(", {date}"));
    let made = say!("Longsmoke {VERSION}{date}. A design aid, not a permit.");
    let mut style = STYLE.to_owned();
    for (place, text) in [("top-left", name(design)), ("bottom-left", &made)] {
        // A text takes whatever is written to it.
        let _ = writeln!(style, "@page {{ @{place} {{ content: \"{}\"; }} }}", quoted(text));
    }
    style
}

/// A text within quotation marks of a style sheet, in markup.
fn quoted(text: &str) -> String {
    let mut quoted = String::new();
    for character in text.chars() {
        if character.is_ascii_alphanumeric() || " .,".contains(character) {
            quoted.push(character);
        } else if !character.is_control() {
            // A text takes whatever is written to it.
            let _ = write!(quoted, "\\{:06x}", u32::from(character));
        }
    }
    quoted
}

fn name(design: &Design) -> &str {
    match design.name.trim() {
        "" => said("Unnamed design"),
        name => name,
    }
}

/// The sheets alone, for a page that has their look.
pub fn article(heater: Heater<'_>, print: Print<'_>) -> String {
    let mut markup = Markup::default();
    let xmlns = "http://www.w3.org/1999/xhtml";
    markup.open("article", &[("xmlns", xmlns), ("class", "paper"), ("lang", language::tag())]);
    let sheets = sheets(heater, print);
    let titles: Vec<&str> = sheets.iter().map(|sheet| sheet.title.as_str()).collect();
    cover(&mut markup, heater, print, &titles);
    for Sheet { title, content } in &sheets {
        markup.open("section", &[("class", "p-sheet")]);
        markup.element("h2", &[], title);
        markup.raw(content);
        markup.close();
    }
    markup.finish()
}

/// A sheet below its heading.
struct Sheet {
    title: String,
    content: String,
}

impl Sheet {
    fn new(title: &str, fill: impl FnOnce(&mut Markup)) -> Self {
        let mut markup = Markup::default();
        fill(&mut markup);
        Self { title: title.to_owned(), content: markup.finish() }
    }

    /// What is only read.
    fn of(passage: &Passage) -> Self {
        Self::new(&passage.title, |markup| {
            let look = if passage.blocks.iter().any(|block| matches!(block, Block::Head(_))) {
                // A card, to be read from where one stands before the fire.
                "p-card p-columns"
            } else if reading::is_wide(passage) {
                "p-reading"
            } else {
                "p-reading p-columns"
            };
            markup.open("div", &[("class", look)]);
            reading::blocks(markup, passage);
            markup.close();
        })
    }
}

/// All sheets behind the cover, in the order in which they are printed.
fn sheets(heater: Heater<'_>, print: Print<'_>) -> Vec<Sheet> {
    let mut sheets = vec![
        Sheet::new(said("The heater in section"), |markup| {
            plates::section_sheet(markup, heater, print);
        }),
        Sheet::new(said("Front and plan"), |markup| plates::views_sheet(markup, heater, print)),
        Sheet::new(said("The smoke path"), |markup| path(markup, heater, print)),
        Sheet::new(said("Findings"), |markup| findings(markup, heater, print)),
    ];
    sheets.extend(to_build(heater, print).iter().map(Sheet::of));
    let plans = courses::plans(heater.design, Bricks::of(heater.design));
    let Heater { design, analysis, .. } = heater;
    let beside = words::courses::beside_plans(design, analysis, &plans, print.system);
    sheets.push(Sheet::of(&beside));
    sheets.push(Sheet::new(words::courses::PLANS.said(), |markup| {
        plans::sheet(markup, &plans, print.system);
    }));
    sheets.extend(to_run(heater, print).iter().map(Sheet::of));
    sheets
}

fn path(markup: &mut Markup, heater: Heater<'_>, print: Print<'_>) {
    plates::path_figure(markup, heater, print);
    let runs = sheet::runs(heater.design, heater.analysis, print.system);
    let hours = heater.day.map(|day| sheet::hours(day, print.system));
    for passage in std::iter::once(runs).chain(hours) {
        part(markup, &passage);
    }
}

/// What is read to build it, a sheet each, in the order in which it is printed.
fn to_build(heater: Heater<'_>, print: Print<'_>) -> [Passage; 4] {
    let Heater { design, analysis, .. } = heater;
    let system = print.system;
    [
        build::materials::passage(design, analysis, system),
        build::weight::passage(design, analysis, system),
        build::labor::passage(design, analysis, system),
        build::order::passage(design, system),
    ]
}

/// What is read when it stands, likewise.
fn to_run(heater: Heater<'_>, print: Print<'_>) -> [Passage; 5] {
    let Heater { design, analysis, day, .. } = heater;
    let system = print.system;
    [
        operation::curing_plan(design, system),
        operation::firing_card(design, system),
        words::house::passage(design, analysis, day.map(Into::into), system),
        operation::passage(design, analysis, system),
        sheet::inputs(design, system),
    ]
}

fn part(markup: &mut Markup, passage: &Passage) {
    markup.open("section", &[("class", "p-part")]);
    markup.element("h3", &[], &passage.title);
    reading::blocks(markup, passage);
    markup.close();
}

fn cover(markup: &mut Markup, heater: Heater<'_>, print: Print<'_>, sheets: &[&str]) {
    let Heater { design, analysis, findings, worth, .. } = heater;
    markup.open("section", &[("class", "p-sheet p-cover")]);
    markup.element("h1", &[], name(design));
    let date = print.date.unwrap_or("____________________");
    markup.element(
        "p",
        &[("class", "p-made")],
        &say!("A masonry heater. Printed on {date} by Longsmoke {VERSION}."),
    );
    markup.open("div", &[("class", "p-answers")]);
    reading::table(markup, &sheet::answers(analysis, findings, worth, print.system));
    markup.close();
    markup.open("ul", &[("class", "p-cautions")]);
    for caution in words::CAUTIONS {
        markup.element("li", &[], caution.said());
    }
    markup.close();
    markup.open("div", &[("class", "p-abreast")]);
    reading::table(markup, &sheet::figures(design, analysis, print.system));
    linked(markup, design, print.address);
    markup.close();
    markup.open("ol", &[("class", "p-contents")]);
    for title in sheets {
        markup.element("li", &[], title);
    }
    markup.close();
    markup.close();
}

/// The link that carries the design, and its code.
fn linked(markup: &mut Markup, design: &Design, address: Option<&str>) {
    markup.open("div", &[("class", "p-linked")]);
    let fragment = link::encode(design);
    if let Some(address) = address {
        let link = format!("{address}#{fragment}");
        let coded = qr::add(markup, &link);
        let said = if coded {
            said("The code and this link open the design:")
        } else {
            said("This link opens the design; it is too long for a code:")
        };
        markup.element("p", &[], said);
        markup.element("p", &[("class", "p-link")], &link);
    } else {
        let said = said("Behind the address of the page, this opens the design:");
        markup.element("p", &[], said);
        markup.element("p", &[("class", "p-link")], &format!("#{fragment}"));
    }
    markup.close();
}

fn findings(markup: &mut Markup, heater: Heater<'_>, print: Print<'_>) {
    let mut notes = Footnotes::default();
    markup.element(
        "p",
        &[],
        said("The numbers are those in the section; small ones are sources below."),
    );
    reading::findings(markup, heater, &mut notes, print.system);
    let edges =
        heater.edges.map(|edges| words::edges::passage(heater.design, edges, print.system));
    let worth = heater.worth.map(|worth| words::uncertainty::in_short(worth, print.system));
    for passage in edges.iter().chain(&worth) {
        part(markup, passage);
    }
    part(markup, &sheet::left_out(heater.design));
    markup.open("section", &[("class", "p-part")]);
    markup.element("h3", &[], words::sources::TITLE.said());
    notes.write(markup);
    markup.close();
}
