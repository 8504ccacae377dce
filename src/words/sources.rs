//! The register of sources to read: a passage for page and paper, a table for the README.

use super::passage::Passage;
use super::trust;
use crate::language::{English, said};
use crate::sources::{ALL, Entry, Source, Trust};

/// Heading over them.
pub const TITLE: English = English("Sources");

/// What the labels mean, the surest first.
const LABELS: [(Trust, English); 4] = [
    (Trust::Seen, English("Seen: the number or formula was read, at times in a reprint")),
    (Trust::Memory, English("From memory: not checked against the published document")),
    (
        Trust::CommonPractice,
        English("Common practice: a rule of the trade without a single authority"),
    ),
    (Trust::Computed, English("Computed by this project from formulas that it names")),
];

const HEADS: [English; 3] =
    [English("What it serves for"), English("Source"), English("How far it was checked")];

/// A source with its label, as it stands behind a figure.
pub fn cited(source: &Source) -> String {
    format!("{} ({})", source.text(), trust(source.trust))
}

/// All sources, those of a label together.
pub fn passage() -> Passage {
    let passage = Passage::new(TITLE).text(said(
        "Every formula, limit and material value names its source and how far that was \
             checked.",
    ));
    LABELS.iter().fold(passage, |passage, (label, meaning)| {
        let rows = ALL
            .iter()
            .filter(|entry| entry.source.trust == *label)
            .map(|entry| vec![about(entry), entry.source.text().into()]);
        let [about, source, _] = HEADS.map(English::said);
        passage.folded(Passage::new(*meaning).table(&[about, source], rows))
    })
}

/// All sources as the README's table.
pub fn markdown() -> String {
    let line = |cells: [&str; 3]| format!("| {} |\n", cells.map(escaped).join(" | "));
    let rows = ALL
        .iter()
        .map(|entry| line([&about(entry), entry.source.text(), trust(entry.source.trust)]));
    let rule = String::from("|---|---|---|\n");
    [line(HEADS.map(English::said)), rule].into_iter().chain(rows).collect()
}

fn about(entry: &Entry) -> String {
    said(entry.about).trim_end_matches('.').into()
}

fn escaped(cell: &str) -> String {
    cell.replace('|', "\\|")
}
