//! What it takes to build a heater, to read: materials, weight, labor, order of work, first fires,
//! firing card, salvage, yearly care.

pub mod labor;
pub mod materials;
pub mod order;
pub mod report;
pub mod weight;

use super::operation;
use super::passage::{Cell, Entry, Passage};
use crate::analysis::Analysis;
use crate::design::Design;
use crate::language::English;
use crate::units::{System, decimals};

/// Heading over the build.
pub const TITLE: English = English("The build");
/// What goes with all of it.
pub const LABEL: English = English(
    "For planning and buying, from the design as it stands. Measure again before you order, \
     and let those who build and those who permit it decide.",
);

/// All of it.
pub fn passage(design: &Design, analysis: &Analysis, system: System) -> Passage {
    [
        materials::passage(design, analysis, system),
        weight::passage(design, analysis, system),
        labor::passage(design, analysis, system),
        order::passage(design, system),
        operation::curing_plan(design, system),
        operation::firing_card(design, system),
        operation::salvaged(),
        operation::yearly_care(),
    ]
    .into_iter()
    .fold(Passage::new(TITLE).text(LABEL), Passage::folded)
}

/// A figure as it is typed: no more digits than it needs.
pub(super) fn typed(value: f64) -> String {
    decimals(value, 4)
}

/// A cell in which a number is typed that becomes a note; one of what is typed means so much.
pub(super) fn number_cell(design: &Design, name: String, label: String, factor: f64) -> Cell {
    let text = design.notes.number(&name).map(|noted| typed(noted / factor));
    let entry = Entry { name, label, factor, words: Vec::new() };
    Cell { entry: Some(entry), ..Cell::from(text.unwrap_or_default()) }
}
