//! Remedies in words: what to do, to which figure, and what it costs.

use super::{label, quantity, question, severity, with_unit};
use crate::design::field::FieldId;
use crate::rules::{Lever, Severity};
use crate::study::remedy::{Remedy, Traded};
use crate::units::{Quantity, System, figure};

/// Said while remedies are sought.
pub const SOUGHT: &str = "Trying which single change would mend this\u{2026}";
/// Said where none was found.
pub const NONE: &str = "No single change within the usual ranges was found to mend this.";
/// Said where none was sought.
pub const NOT_SOUGHT: &str = "Single changes are not tried against the unfavorable edge or against more \
    wood than stated.";
/// Said before each: it was put into the design and judged anew.
pub const TRIED: &str = "Tried";

/// What to do, as a sentence.
pub fn act(remedy: &Remedy, system: System) -> String {
    let lever = Lever { field: remedy.field, raise: remedy.present < remedy.value };
    let quantity = quantity(remedy.field);
    let value = with_unit(remedy.value, quantity, system);
    if let Some((before, after)) = verb(lever) {
        return format!("{before} {value}{after}.");
    }
    let present = with_unit(remedy.present, quantity, system);
    format!("{}: {value} instead of {present}.", label(remedy.field))
}

/// What comes with it, as sentences; empty where nothing that is shown changes.
pub fn trades(remedy: &Remedy, system: System) -> String {
    let changes: Vec<_> = Traded::ALL
        .into_iter()
        .zip(remedy.trades)
        .filter_map(|(traded, (before, after))| {
            let show = |value| figure(value, quantity_of(traded), system);
            let (before, after) = (show(before), show(after));
            (before != after).then(|| format!("{} {before}, then {after}", name_of(traded)))
        })
        .collect();
    let mut sentences = Vec::new();
    if !changes.is_empty() {
        sentences.push(format!("What changes: {}.", changes.join("; ")));
    }
    if let Some(left) = remedy.leaves {
        sentences.push(format!("It makes this lighter only: {}.", low(left)));
    }
    for (about, weight) in &remedy.brings {
        sentences.push(format!(
            "It brings another finding: {}, under \u{201c}{}\u{201d}.",
            low(*weight),
            question(*about)
        ));
    }
    sentences.join(" ")
}

fn low(weight: Severity) -> String {
    severity(weight).to_ascii_lowercase()
}

/// Words before and after the figure; none for what is said by its name.
const fn verb(lever: Lever) -> Option<(&'static str, &'static str)> {
    Some(match (lever.field, lever.raise) {
        (FieldId::RunCount, true) => ("Add runs, to", " in all"),
        (FieldId::RunCount, false) => ("Drop runs, to", " in all"),
        (FieldId::RunLength, true) => ("Lengthen each run to", ""),
        (FieldId::RunLength, false) => ("Shorten each run to", ""),
        (FieldId::RunWidth, true) => ("Widen the runs to", ""),
        (FieldId::RunWidth, false) => ("Narrow the runs to", ""),
        (FieldId::RunHeight, true) => ("Make the runs higher, to", ""),
        (FieldId::RunHeight, false) => ("Make the runs lower, to", ""),
        (FieldId::MouthHeight, true) => ("Raise the mouth of the chimney to", ""),
        (FieldId::FlueWidth, true) => ("Widen the flue to", ""),
        (FieldId::Insulation, true) => ("Insulate the flue with", " of mineral wool"),
        (FieldId::OutdoorLength, false) => ("Leave no more of the chimney outdoors than", ""),
        (FieldId::Bypass, true) => ("Fit a bypass damper of", ", open until the flue draws"),
        (FieldId::Charge, true) => ("Burn more at a time,", ""),
        (FieldId::Charge, false) => ("Burn less at a time,", ""),
        (FieldId::FiringsPerDay, true) => ("Fire more often,", " times a day"),
        (FieldId::Moisture, false) => ("Burn drier wood, with no more water than", ""),
        (FieldId::FireboxWidth, true) => ("Widen the firebox to", ""),
        (FieldId::FireboxWidth, false) => ("Narrow the firebox to", ""),
        (FieldId::FireboxDepth, true) => ("Deepen the firebox to", ""),
        (FieldId::FireboxDepth, false) => ("Make the firebox shallower, to", ""),
        (FieldId::FireboxHeight, true) => ("Raise the ceiling of the firebox to", ""),
        (FieldId::FireboxHeight, false) => ("Lower the ceiling of the firebox to", ""),
        (FieldId::Glass, false) => ("Take less glass,", " of the door"),
        (FieldId::DoorHeight, false) => ("Take a door only", " high"),
        (FieldId::InletArea, true) => ("Enlarge the air inlet to", ""),
        (FieldId::FacingThickness, true) => ("Make the facing thicker, to", ""),
        (FieldId::Cap, true) => ("Make the cap slab thicker, to", ""),
        (FieldId::SideDistance, true) => ("Keep at the sides", " to what can burn"),
        (FieldId::BehindDistance, true) => ("Keep behind the heater", " to what can burn"),
        (FieldId::FrontDistance, true) => ("Keep in front of the door", " to what can burn"),
        (FieldId::AboveDistance, true) => ("Keep above the cap slab", " to the ceiling"),
        _ => return None,
    })
}

/// Name of a figure that a remedy may cost.
pub const fn name_of(traded: Traded) -> &'static str {
    match traded {
        Traded::Margin => "draft to spare",
        Traded::Efficiency => "heat kept",
        Traded::ChimneyInlet => "gas into the chimney",
        Traded::MouthWall => "wall at the mouth",
        Traded::MeanOutput => "heat over the day",
    }
}

/// Its kind.
pub const fn quantity_of(traded: Traded) -> Quantity {
    match traded {
        Traded::Margin => Quantity::Pressure,
        Traded::Efficiency => Quantity::Share,
        Traded::ChimneyInlet | Traded::MouthWall => Quantity::Temperature,
        Traded::MeanOutput => Quantity::Power,
    }
}
