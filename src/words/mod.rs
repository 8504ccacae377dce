//! Sentences: findings, figures and inputs in the reader's language and units.
//!
//! Nothing is decided here. Every match is exhaustive, so a missing text does not compile.

mod around;
pub mod build;
pub mod compare;
pub mod conditions;
pub mod courses;
pub mod day;
pub mod edges;
pub mod envelope;
pub mod examples;
mod fields;
mod findings;
pub mod glossary;
mod heat;
pub mod hours;
pub mod house;
pub mod languages;
pub mod matters;
pub mod operation;
pub mod passage;
pub mod pinned;
pub mod remedy;
pub mod report;
pub mod sheet;
pub mod sources;
pub mod standard_route;
pub mod structure;
pub mod suggest;
pub mod sweep;
pub mod trials;
pub mod uncertainty;
pub mod validity;
pub mod walk;
pub mod working;

pub use fields::{help, label};
pub use findings::{Text, finding};

use crate::analysis::conditions::MILD_OUTDOORS;
use crate::analysis::draft::Item;
use crate::analysis::{Analysis, Failure};
use crate::design::document::DocumentError;
use crate::design::field::{FIELDS, FieldId, Group, Kind, Problem, ProblemKind, field};
use crate::design::link::LinkError;
use crate::language::{English, said, say};
use crate::rules::{self, Answer, Finding, Place, Question, Severity};
use crate::sources::Trust;
use crate::study::strip::OpenFlow;
use crate::units::{Quantity, System, at_least, at_most, editable, figure, range, unit_of};

/// What every page and sheet says.
pub const CAUTIONS: [English; 5] = [
    English(
        "This is a design aid, not a permit. Your local fire code, the building official and \
         a qualified mason or chimney professional decide.",
    ),
    English(
        "The answers are those of the fire as stated, on the day of the design and on a mild \
         one; peaks are judged with a quarter more wood. Not checked here: a fire with more \
         wood than that; firestops; other appliances on the flue, which carries this heater \
         alone.",
    ),
    English("Fit a carbon monoxide alarm in the room and where people sleep."),
    English(
        "Never close the damper by the clock: only when the bed has been raked through and \
         shows no flame, red or blue, and no glowing coal. If in doubt, leave it open.",
    ),
    English("Figures marked \"from memory\" were not checked against the published document."),
];

/// Name of a group of inputs.
pub fn group(group: Group) -> &'static str {
    let english = match group {
        Group::Site => "House and site",
        Group::Fire => "Wood and fire",
        Group::Firebox => "Firebox and door",
        Group::Path => "Smoke path",
        Group::Shell => "Shell",
        Group::Chimney => "Chimney",
        Group::Surroundings => "Surroundings",
        Group::Support => "Support and footing",
    };
    said(english)
}

/// Name of a choice, from its key.
#[expect(clippy::too_many_lines, reason = "one arm per choice")]
pub fn choice(key: &str) -> &'static str {
    let english = match key {
        "north_america" => "North America (IRC, NFPA 211, ASTM E1602)",
        "europe" => "Europe (distances vary by country)",
        "none" => "No rule set",
        "mixed" => "Wood in general",
        "oak" => "Oak",
        "pine" => "Pine",
        "held" => "Held at its figure",
        "draft" => "Left to the draft",
        "above" => "Stacked above the firebox",
        "behind" => "Stacked behind the firebox",
        "bench" => "Bench at floor level",
        "round" => "Round",
        "rectangular" => "Rectangular",
        "dry" => "Must stay dry",
        "wet" => "Rated for condensate",
        "fireclay" => "Fireclay brick",
        "common_brick" => "Common brick",
        "soapstone" => "Soapstone",
        "castable" => "Refractory concrete",
        "granite" => "Granite, crystalline stone",
        "clay_tile" => "Clay tile or liner",
        "stainless" => "Stainless steel",
        "high_duty_fireclay" => "High-duty fireclay brick",
        "no_wall" => "None near by",
        "framed" => "Wood-framed, insulated",
        "masonry" => "Masonry",
        "limestone" => "Hard limestone",
        "sandstone" => "Sandstone",
        "not_stated" => "Not stated",
        "yes" => "Yes",
        "no" => "No",
        "mineral" => "Masonry, concrete or earth alone",
        "foam" => "Foam",
        "wood" => "Wood, forms or framing",
        "no_void" => "None, or closed",
        "ventilated" => "Ventilated",
        "mineral_floor" => "Cannot burn",
        "combustible_floor" => "Can burn beyond the hearth",
        "bare" | "no_cleanouts" | "no_damper" | "no_foam" => "None",
        "masonry_tight" => "a: 90 mm (3 1/2 in) of masonry, no air behind",
        "board_on_wool" => "b: 13 mm (1/2 in) of board on 25 mm (1 in) of mineral wool",
        "sheet_on_wool_vented" => "c: sheet on 25 mm (1 in) of mineral wool, ventilated",
        "masonry_vented" => "d: 90 mm (3 1/2 in) of masonry, ventilated",
        "sheet_vented" => "e: sheet, ventilated",
        "board_vented" => "f: 13 mm (1/2 in) of board, ventilated",
        "two_sheets_vented" => "g: two sheets, ventilated between and behind",
        "wool_between_sheets_vented" => {
            "h: 25 mm (1 in) of mineral wool between sheets, ventilated"
        }
        "lined" => "Masonry with a liner",
        "unlined" => "Masonry without a liner",
        "system" => "Tested system",
        "inside" => "In the house or its wall",
        "outside" => "Wholly outside",
        "single_wall" => "Single-wall steel",
        "tested_pipe" => "Tested pipe",
        "both_ends" => "At both ends of every run",
        "one_end" => "At one end of every run",
        "at_sides" => "At the sides",
        "at_front" => "At the front",
        "at_rear" => "At the back",
        "own_footing" => "A footing of its own",
        "support_walls" => "Walls on a footing of their own",
        "house_slab" => "The slab of the house",
        "framing" => "Wood framing",
        "beside" => "Beside the heater",
        "on_heater" => "By the heater",
        "bedrock" => "Bedrock",
        "soft_rock" => "Sedimentary or layered rock",
        "gravel" => "Gravel, sandy gravel",
        "sand" => "Sand, silty or clayey sand or gravel",
        "clay" => "Clay, silt",
        "seismic_low" => "Category A to C",
        "seismic_high" => "Category D",
        "seismic_extreme" => "Category E",
        "through_leaks" => "From the room, through its leaks",
        "through_opening" => "From the room, through an opening outdoors",
        "through_duct" => "Through a duct from outdoors",
        "damper" => "Fitted",
        "seat" => "To sit on",
        "bed" => "To lie and sleep on",
        "firebrick" => "Firebrick 9 x 4 1/2 x 2 1/2 in",
        "firebrick_3in" => "Firebrick 9 x 4 1/2 x 3 in",
        "firebrick_230" => "Firebrick 230 x 114 x 64 mm",
        "firebrick_250" => "Firebrick 250 x 124 x 64 mm",
        "modular" => "Modular 7 5/8 x 3 5/8 x 2 1/4 in",
        "brick_240" => "Brick 240 x 115 x 71 mm",
        "brick_215" => "Brick 215 x 102.5 x 65 mm",
        "brick_250" => "Brick 250 x 120 x 65 mm",
        "own_brick" => "Own size, see advanced",
        "polystyrene" => "Polystyrene (EPS, XPS)",
        "polyurethane" => "Polyurethane (PUR, PIR)",
        "membrane" => "Vapor barrier or kraft facing",
        _ => "Unknown",
    };
    said(english)
}

/// One of the three questions.
pub fn question(question: Question) -> &'static str {
    let english = match question {
        Question::Draw => "Will it draw?",
        Question::Heat => "Will the heat stay?",
        Question::Safe => "Is it safe?",
    };
    said(english)
}

/// Answer to a question. Nothing is ever called safe: the question on safety says what passed.
pub fn answer(question: Question, answer: Answer) -> &'static str {
    let english = match (question, answer) {
        (Question::Safe, Answer::Yes) => "What was checked passed",
        (_, Answer::Yes) => "Yes",
        (_, Answer::LookAgain) => "Look again",
        (_, Answer::No) => "No",
        (_, Answer::NotEnoughKnown) => "Not enough known",
    };
    said(english)
}

/// The figure that decides a question: that of the finding which decides the answer, with its
/// limit; without one the figure on which the yes stands.
pub fn deciding(
    question: Question,
    analysis: &Analysis,
    findings: &[Finding],
    system: System,
) -> String {
    if let Some(finding) = rules::deciding(question, findings) {
        return findings::in_short(finding, system);
    }
    let fire = &analysis.height_of_fire;
    match question {
        Question::Draw => {
            let mild = &analysis.conditions.mild_day.stated;
            let worse = fire.margin.min(mild.margin);
            let pascals = figure(worse.abs(), Quantity::Pressure, system);
            let found = if worse < 0.0 { said("short") } else { said("to spare") };
            let is_mild = mild.margin < fire.margin && mild.outdoors <= MILD_OUTDOORS;
            let day = if is_mild { said(" on a mild day") } else { "" };
            format!("{pascals} {found}{day}")
        }
        Question::Heat => {
            say!("{} stays", figure(fire.efficiency_lower, Quantity::Share, system))
        }
        Question::Safe => say!(
            "gas into the chimney {}",
            figure(fire.chimney_inlet, Quantity::Temperature, system)
        ),
    }
}

/// Excess air that a heater takes with its air open.
pub fn open_flow(open: &OpenFlow, system: System) -> String {
    match open {
        OpenFlow::Runs { excess_air_ratio, .. } => {
            figure(*excess_air_ratio, Quantity::Ratio, system)
        }
        OpenFlow::Beyond => said("very much").into(),
        OpenFlow::Starves => said("too little").into(),
    }
}

/// Weight of a finding.
pub fn severity(severity: Severity) -> &'static str {
    let english = match severity {
        Severity::GoodToKnow => "Good to know",
        Severity::LookAgain => "Look again",
        Severity::DoNotBuild => "Do not build",
    };
    said(english)
}

/// How far a source was checked.
pub fn trust(trust: Trust) -> &'static str {
    let english = match trust {
        Trust::Seen => "seen",
        Trust::Memory => "from memory",
        Trust::CommonPractice => "common practice, no source",
        Trust::Computed => "computed",
    };
    said(english)
}

/// Where a finding belongs.
pub fn place(place: Place) -> String {
    match place {
        Place::Whole => said("Heater").into(),
        Place::Fire => said("Fire").into(),
        Place::Firebox => said("Firebox").into(),
        Place::Door => said("Door").into(),
        Place::Run(index) => say!("Run {}", index + 1),
        Place::RunsOutlet => said("End of the runs").into(),
        Place::ChimneyInlet => said("Foot of the chimney").into(),
        Place::ChimneyMouth => said("Mouth of the chimney").into(),
        Place::Side => said("Side").into(),
        Place::Back => said("Back").into(),
        Place::Front => said("In front of the door").into(),
        Place::Ceiling => said("Ceiling").into(),
        Place::Chimney => said("Chimney").into(),
        Place::Below => said("Below the heater").into(),
    }
}

/// A line of the draft ledger.
pub fn item(item: Item) -> &'static str {
    let english = match item {
        Item::FireboxColumn => "Hot gas in the firebox",
        Item::RunRises => "Rises between the runs",
        Item::ChimneyColumn => "Hot gas in the chimney",
        Item::Inlet => "Air inlet",
        Item::EntryTurn => "Turn into the first run",
        Item::Reversals => "Reversals between the runs",
        Item::ExitTurn => "Turn out of the last run",
        Item::RunFriction => "Friction in the runs",
        Item::ChimneyFriction => "Friction in the chimney",
        Item::Mouth => "Mouth of the chimney",
        Item::Acceleration => "Setting the gas in motion",
        Item::HouseSuction => "Suction of the house",
        Item::Wind => "Wind onto the mouth",
    };
    said(english)
}

fn quantity(id: FieldId) -> Quantity {
    match &field(id).kind {
        Kind::Number(number) => number.quantity,
        Kind::Choice(_) => Quantity::Ratio,
    }
}

fn with_unit(value: f64, quantity: Quantity, system: System) -> String {
    let number = editable(value, quantity, system);
    match unit_of(quantity, system).symbol {
        "" => number,
        symbol => format!("{number} {symbol}"),
    }
}

/// Message at a field: what is wrong and what is allowed.
pub fn problem(problem: &Problem, system: System) -> String {
    let name = label(problem.field);
    let quantity = quantity(problem.field);
    match problem.kind {
        ProblemKind::OutOfRange { value, low, high } => {
            let given = if value.is_finite() {
                with_unit(value, quantity, system)
            } else {
                said("no number").into()
            };
            let allowed = range(&(low..=high), quantity, system);
            say!("{name} must be {allowed}. You gave {given}.")
        }
        ProblemKind::MouthBelowHeater(lowest) => say!(
            "{} must reach above the heater, which grows with {} and {}: at least {}.",
            label(FieldId::MouthHeight),
            label(FieldId::RunCount),
            label(FieldId::RunHeight),
            at_least(lowest, Quantity::Length, system)
        ),
        ProblemKind::OutdoorsLongerThanChimney(longest) => say!(
            "{} cannot be longer than the whole chimney, which ends at {}: at most {}.",
            label(FieldId::OutdoorLength),
            label(FieldId::MouthHeight),
            at_most(longest, Quantity::Length, system)
        ),
        ProblemKind::FiringsOverlap(shortest) => say!(
            "{} cannot be shorter than {}, or the fire still burns when the next one is lit: at \
             least {}.",
            label(FieldId::FiringInterval),
            label(FieldId::BurnDuration),
            figure(shortest, Quantity::Hours, system)
        ),
        ProblemKind::FiringsBeyondDay(longest) => say!(
            "{} is too long for a day with that many {}: at most {}.",
            label(FieldId::FiringInterval),
            label(FieldId::FiringsPerDay),
            figure(longest, Quantity::Hours, system)
        ),
        ProblemKind::OvenInBench => {
            say!("{name}: a bench has no oven. Choose another layout or 0.")
        }
        ProblemKind::DoorLargerThanOven(largest) => say!(
            "{name} cannot be larger than the front of the oven: at most {}.",
            at_most(largest, Quantity::Opening, system)
        ),
        ProblemKind::DoorLargerThanFirebox(largest) => say!(
            "{name} cannot be larger than {}: at most {}.",
            label(match problem.field {
                FieldId::DoorHeight => FieldId::FireboxHeight,
                _ => FieldId::FireboxWidth,
            }),
            at_most(largest, Quantity::Size, system)
        ),
    }
}

/// Message at a field whose text is no number.
pub fn not_a_number(id: FieldId, system: System) -> String {
    let name = label(id);
    match &field(id).kind {
        Kind::Number(number) => {
            let allowed = range(&number.possible, number.quantity, system);
            say!("{name} must be a number: {allowed}.")
        }
        Kind::Choice(_) => say!("{name}: pick one of the list."),
    }
}

/// Why there are no figures.
pub fn failure(failure: &Failure, system: System) -> String {
    match failure {
        Failure::Inputs(problems) => {
            problems.iter().map(|each| problem(each, system)).collect::<Vec<_>>().join(" ")
        }
        Failure::Firebox(_) => said(
            "No temperature was found at which this firebox balances; look at charge, excess \
             air and firebox.",
        )
        .into(),
        Failure::NaturalFlow(_) => said(
            "The flow that this heater would take was not found; look at chimney and runs.",
        )
        .into(),
        Failure::DayUnsettled => said(
            "A step of the firing day did not settle; look at the chimney and the opening \
             after the fire.",
        )
        .into(),
        Failure::FireStarved => said(
            "With its air open this chimney gives the fire too little air, and it goes out; \
             raise the mouth of the chimney, drop a run, or widen the runs.",
        )
        .into(),
        Failure::NotPeriodic => {
            said("No day was found that repeats itself; look at charge and walls.").into()
        }
        Failure::NotFinite => said("These inputs lead to no finite figures.").into(),
    }
}

/// Why a link does not open.
pub fn link_error(error: LinkError) -> String {
    match error {
        LinkError::NotADesign => said("This link holds no heater.").into(),
        LinkError::UnknownVersion(_) => said(
            "This link was made by a newer version of Longsmoke. Load the page anew to get it.",
        )
        .into(),
        LinkError::Damaged => said(
            "This link is damaged: it was cut off or changed on the way. Ask for it again.",
        )
        .into(),
        LinkError::TooLong => said("This link holds too much to be one of ours.").into(),
        LinkError::Refused => said("This link holds a value that is not possible.").into(),
    }
}

/// Why a file does not open; line and column, for scripts, after the plain sentence.
pub fn document_error(error: &DocumentError, system: System) -> String {
    match error {
        DocumentError::TooLong => said("This file holds too much to be one of ours.").into(),
        DocumentError::NotJson { line, cause } => {
            // The reader's own words end with the column.
            let column = cause.rsplit_once("column ").map(|(_, column)| column);
            let column = column.map(|column| say!(", column {column}")).unwrap_or_default();
            say!(
                "This file is cut off, was changed by hand or holds no heater at all (line \
                 {line}{column})."
            )
        }
        DocumentError::NotADesign => said("This file holds no heater of ours.").into(),
        DocumentError::UnknownVersion(_) => {
            said("This file was made by a newer version of Longsmoke than this one.").into()
        }
        DocumentError::WrongKind { line, path, expected } => {
            let name = named(path);
            say!("{name} cannot be read (line {line}: {path}: {expected} expected).")
        }
        DocumentError::Refused { line, path, problem: refused } => {
            say!("{} (line {line}: {path})", problem(refused, system))
        }
    }
}

/// Name of the input that stands at a path of a file.
fn named(path: &str) -> &'static str {
    let input = FIELDS.iter().find(|field| field.path == path);
    match input {
        Some(field) => label(field.id),
        None if path == "name" => said("The name"),
        None => said("The list of runs"),
    }
}
