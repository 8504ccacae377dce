//! Remedies in words: what to do, to which figure, and what it costs.

use super::{label, quantity, question, severity, with_unit};
use crate::design::field::FieldId;
use crate::language::{English, said, say, within};
use crate::rules::{Lever, Severity};
use crate::study::remedy::{Brought, Remedy, Traded};
use crate::units::{Quantity, System, figure};

/// Said while remedies are sought.
pub const SOUGHT: English = English("Trying which single change would mend this\u{2026}");
/// Said where none was found.
pub const NONE: English = English(
    "No single change within the usual ranges was found that mends this and brings nothing worse.",
);
/// Said where none was sought.
pub const NOT_SOUGHT: English = English("No single change was tried against this.");
/// Said before each: it was put into the design and judged anew.
pub const TRIED: English = English("Tried");

/// What to do, as a sentence.
pub fn act(remedy: &Remedy, system: System) -> String {
    let lever = Lever { field: remedy.field, raise: remedy.present < remedy.value };
    let quantity = quantity(remedy.field);
    let value = with_unit(remedy.value, quantity, system);
    if let Some(act) = verb(lever, &value) {
        return act;
    }
    let present = with_unit(remedy.present, quantity, system);
    say!("{}: {value} instead of {present}.", label(remedy.field))
}

/// What comes with it, as sentences; empty where nothing that is shown changes.
pub fn trades(remedy: &Remedy, system: System) -> String {
    let changes: Vec<_> = Traded::ALL
        .into_iter()
        .zip(remedy.trades)
        .filter_map(|(traded, (before, after))| {
            let show = |value| figure(value, quantity_of(traded), system);
            let (before, after) = (show(before), show(after));
            (before != after).then(|| say!("{} {before}, then {after}", name_of(traded)))
        })
        .collect();
    let mut sentences = Vec::new();
    if !changes.is_empty() {
        sentences.push(say!("What changes: {}.", changes.join("; ")));
    }
    if let Some(left) = remedy.leaves {
        sentences.push(say!("It makes this lighter only: {}.", low(left)));
    }
    for brought in &remedy.brings {
        sentences.push(say!(
            "It brings another finding, {} under \u{201c}{}\u{201d}: {}.",
            low(brought.severity()),
            question(brought.question()),
            in_short(brought, system)
        ));
    }
    sentences.join(" ")
}

/// What comes with a remedy, as it is told to another program.
pub fn told(mut remedy: Remedy, system: System) -> Remedy {
    for brought in &mut remedy.brings {
        let short = in_short(brought, system);
        *brought = Brought::Told(brought.question(), brought.severity(), short);
    }
    remedy
}

fn in_short(brought: &Brought, system: System) -> String {
    match brought {
        Brought::Judged(finding) => super::findings::in_short(finding, system),
        Brought::Told(.., short) => short.clone(),
    }
}

fn low(weight: Severity) -> String {
    within(severity(weight))
}

/// What to do, with the figure; none for what is said by its name.
fn verb(lever: Lever, value: &str) -> Option<String> {
    Some(match (lever.field, lever.raise) {
        (FieldId::RunCount, true) => say!("Add runs, to {value} in all."),
        (FieldId::RunCount, false) => say!("Drop runs, to {value} in all."),
        (FieldId::RunLength, true) => say!("Lengthen each run to {value}."),
        (FieldId::RunLength, false) => say!("Shorten each run to {value}."),
        (FieldId::RunWidth, true) => say!("Widen the runs to {value}."),
        (FieldId::RunWidth, false) => say!("Narrow the runs to {value}."),
        (FieldId::RunHeight, true) => say!("Make the runs higher, to {value}."),
        (FieldId::RunHeight, false) => say!("Make the runs lower, to {value}."),
        (FieldId::MouthHeight, true) => say!("Raise the mouth of the chimney to {value}."),
        (FieldId::FlueWidth, true) => say!("Widen the flue to {value}."),
        (FieldId::Insulation, true) => say!("Insulate the flue with {value} of mineral wool."),
        (FieldId::OutdoorLength, false) => {
            say!("Leave no more of the chimney outdoors than {value}.")
        }
        (FieldId::Bypass, true) => {
            say!("Fit a bypass damper of {value}, open until the flue draws.")
        }
        (FieldId::Charge, true) => say!("Burn more at a time, {value}."),
        (FieldId::Charge, false) => say!("Burn less at a time, {value}."),
        (FieldId::FiringsPerDay, true) => say!("Fire more often, {value} times a day."),
        (FieldId::Moisture, false) => say!("Burn drier wood, with no more water than {value}."),
        (FieldId::FireboxWidth, true) => say!("Widen the firebox to {value}."),
        (FieldId::FireboxWidth, false) => say!("Narrow the firebox to {value}."),
        (FieldId::FireboxDepth, true) => say!("Deepen the firebox to {value}."),
        (FieldId::FireboxDepth, false) => say!("Make the firebox shallower, to {value}."),
        (FieldId::FireboxHeight, true) => say!("Raise the ceiling of the firebox to {value}."),
        (FieldId::FireboxHeight, false) => say!("Lower the ceiling of the firebox to {value}."),
        (FieldId::Glass, false) => say!("Take less glass, {value} of the door."),
        (FieldId::DoorHeight, false) => say!("Take a door only {value} high."),
        (FieldId::InletArea, true) => say!("Enlarge the air inlet to {value}."),
        (FieldId::FacingThickness, true) => say!("Make the facing thicker, to {value}."),
        (FieldId::Cap, true) => say!("Make the cap slab thicker, to {value}."),
        (FieldId::SideDistance, true) => say!("Keep at the sides {value} to what can burn."),
        (FieldId::BehindDistance, true) => {
            say!("Keep behind the heater {value} to what can burn.")
        }
        (FieldId::FrontDistance, true) => {
            say!("Keep in front of the door {value} to what can burn.")
        }
        (FieldId::AboveDistance, true) => {
            say!("Keep above the cap slab {value} to the ceiling.")
        }
        _ => return None,
    })
}

/// Name of a figure that a remedy may cost.
pub fn name_of(traded: Traded) -> &'static str {
    let english = match traded {
        Traded::Margin => "draft to spare",
        Traded::Efficiency => "heat kept",
        Traded::ChimneyInlet => "gas into the chimney",
        Traded::MouthWall => "wall at the mouth",
        Traded::MeanOutput => "heat over the day",
    };
    said(english)
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
