//! How a figure came about, to read: formula, numbers put in, result, source.

use super::passage::{Block, Passage};
use super::sources::cited;
use super::validity::validity;
use super::{finding as words_of, item};
use crate::analysis::Failure;
use crate::analysis::structure::Part;
use crate::design::Design;
use crate::language::{English, decimal, said, say};
use crate::physics::formula::{Formula, Symbol};
use crate::rules::{Day, Finding, Rule, Start};
use crate::study::working::{Inputs, Shown, Spot, Step, Term, Total, Working, behind};
use crate::units::measure::Measure;
use crate::units::{Quantity, System, difference};

/// What a working is asked for.
#[derive(Clone, Copy, Debug)]
pub enum Subject<'a> {
    /// A figure of the page.
    Figure(Shown),
    /// A finding with its figure and limit.
    Finding(&'a Finding),
}

/// How a figure or a finding came about.
///
/// # Errors
///
/// [`Failure`]: why the design could not be computed.
pub fn of(design: &Design, subject: Subject<'_>, system: System) -> Result<Passage, Failure> {
    let inputs = Inputs::new(design)?;
    Ok(match subject {
        Subject::Figure(shown) => figure(&inputs, shown, system),
        Subject::Finding(found) => finding(&inputs, found, system),
    })
}

/// How every figure at the head of a report and every finding came about.
///
/// # Errors
///
/// [`Failure`]: why the design could not be computed.
pub fn all(design: &Design, findings: &[Finding], system: System) -> Result<Passage, Failure> {
    let inputs = Inputs::new(design)?;
    let figures = Shown::HEADLINES.into_iter().map(|shown| figure(&inputs, shown, system));
    let found = findings.iter().map(|each| finding(&inputs, each, system));
    Ok(figures.chain(found).fold(Passage::new(TITLE).text(INTRODUCTION), Passage::folded))
}

/// The figures at the head of the page, to choose from.
pub fn choice(inputs: &Inputs<'_>, system: System) -> Passage {
    let figures = Shown::HEADLINES.map(|shown| figure(inputs, shown, system));
    Passage::new(TITLE)
        .text(INTRODUCTION)
        .with(Block::Choice(said("Figure").into(), figures.to_vec()))
}

/// Heading over the workings.
pub const TITLE: English = English("How the figures came about");
const INTRODUCTION: English = English(
    "Each figure step by step: the formula, the numbers put in, what it comes to, where it \
     comes from. Formulas are worked in meters, kilograms, seconds, watts, pascals and \
     kelvin.",
);
/// What is said where a figure is the end of many small steps.
const OF_THE_DAY: English = English(
    "This figure is found on the firing day, in steps of at most a minute through the walls; \
     its last step alone would show nothing.",
);

/// How a figure came about.
pub fn figure(inputs: &Inputs<'_>, shown: Shown, system: System) -> Passage {
    let working = inputs.working(shown);
    let title = match working.steps.last() {
        Some(step) => {
            format!("{}: {}", name(shown), told(step.measure(), step.result(), system))
        }
        None => say!("{}: no such figure in this design", name(shown)),
    };
    let passage = steps(Passage::new(title), &working, system);
    match note(shown) {
        Some(note) => passage.text(note),
        None => passage,
    }
}

/// How the figure of a finding and its limit came about.
pub fn finding(inputs: &Inputs<'_>, found: &Finding, system: System) -> Passage {
    let shown = |figure: crate::rules::Figure| {
        crate::units::figure(figure.value, figure.quantity, system)
    };
    let title = words_of(found, system).title;
    let mut passage = Passage::new(title);
    if let Some(limit) = found.limit {
        let apart = (found.found.value - limit.value).abs();
        let apart = match limit.quantity {
            Quantity::Temperature => difference(apart, system),
            quantity => crate::units::figure(apart, quantity, system),
        };
        passage = passage.text(say!(
            "Found {}, held against {}: {apart} apart.",
            shown(found.found),
            shown(limit)
        ));
    }
    let range = validity(found.rule, system);
    passage = passage
        .text(say!("Judged by: {}.", cited(found.source)))
        .text(say!("Range of validity: {range}"));
    let behind = behind(found);
    if behind.is_empty() {
        passage = passage.text(without_steps(found));
    }
    behind
        .into_iter()
        .fold(passage, |passage, each| passage.folded(figure(inputs, each, system)))
}

/// Why no steps are shown.
fn without_steps(found: &Finding) -> &'static str {
    let of_flows = matches!(
        found.rule,
        Rule::NoRunningFlow(_) | Rule::SecondFlow(_) | Rule::UnheldFlow(_)
    );
    let english = if of_flows {
        OF_ALL_FLOWS
    } else if is_of_many_steps(found) {
        OF_THE_DAY
    } else if matches!(found.rule, Rule::OutsideFormula(_)) {
        OF_THE_WAY
    } else if found.limit.is_some() {
        ENTERED
    } else {
        WITHOUT_FIGURE
    };
    english.said()
}

/// Whether the figure of a finding comes out of the firing day, once or in many cases.
fn is_of_many_steps(found: &Finding) -> bool {
    let of_time = found.found.quantity == Quantity::Duration;
    of_time || found.rule.is_of_the_day() || matches!(found.rule, Rule::AtTheEdge(..))
}

/// What is said where a figure was not computed by a formula of its own.
const ENTERED: English =
    English("The figure is as it was entered, or read off the entries by counting.");
/// What is said where flows were sought.
const OF_ALL_FLOWS: English = English(
    "Found by trying flow after flow: pull and losses of each are computed like those of the draft \
     to spare.",
);
/// What is said of the worst of many places.
const OF_THE_WAY: English =
    English("The worst of all places on the way of the gas, in cold masonry and hot.");
/// What is said where there is nothing to compute.
const WITHOUT_FIGURE: English =
    English("There is no figure to work out: the entries or the choice of rules say it.");

fn steps(passage: Passage, working: &Working, system: System) -> Passage {
    working.steps.iter().fold(passage, |passage, each| passage.folded(step(each, system)))
}

fn step(step: &Step, system: System) -> Passage {
    let told = told(step.measure(), step.result(), system);
    match step {
        Step::Formula { formula, spot, values, .. } => {
            let title =
                format!("{}, {}: {told}", capital(said(formula.result.name)), place(*spot));
            let symbols = formula.symbols.iter().zip(values);
            let rows = symbols.map(|(symbol, value)| {
                let name = format!("{}: {}", symbol.letter, said(symbol.name));
                row(name, symbol.measure, *value, system)
            });
            Passage::new(title)
                .text(written(formula.text))
                .text(put_in(formula, values))
                .table(&heads(system), rows)
                .text(say!("Source: {}.", cited(formula.source)))
        }
        Step::Sum { total, terms, measure, .. } => {
            let rows = terms
                .iter()
                .map(|(term, value)| row(term_name(*term), *measure, *value, system));
            Passage::new(say!("{}, added up: {told}", total_name(*total)))
                .table(&heads(system), rows)
        }
    }
}

fn heads(system: System) -> Vec<&'static str> {
    match system {
        System::Metric => vec![said("Put in"), said("Figure")],
        System::Us => vec![said("Put in"), said("In SI, as it is worked"), said("In US units")],
    }
}

fn row(name: String, measure: Measure, value: f64, system: System) -> Vec<String> {
    let mut cells = vec![name, measure.in_si(value)];
    if system == System::Us {
        cells.push(measure.in_us(value));
    }
    cells
}

/// A result in the reader's units, and in those in which it is worked.
fn told(measure: Measure, value: f64, system: System) -> String {
    let worked = measure.in_si(value);
    match system {
        System::Us if measure.us != measure.si => {
            format!("{worked}, {}", measure.in_us(value))
        }
        _ => worked,
    }
}

/// An equation as the language writes its numbers.
fn written(equation: &str) -> String {
    parts(equation).into_iter().map(marked).collect()
}

/// A part of an equation; where a comma parts the decimals, a semicolon parts numbers.
fn marked(part: &str) -> String {
    let half = decimal("0.5".into());
    if part == "," && half.contains(',') { ";".into() } else { decimal(part.into()) }
}

/// The equation with numbers for its letters, and what it comes to.
fn put_in(formula: &Formula, values: &[f64]) -> String {
    let Some((_, right)) = formula.text.split_once(" = ") else { return String::new() };
    let number = |word: &str| {
        let letters = formula.symbols.iter().zip(values);
        let found = letters.into_iter().find(|(symbol, _)| symbol.letter == word)?;
        Some(number(found.0, *found.1))
    };
    let mut text = String::new();
    for part in parts(right) {
        let shown = number(part).unwrap_or_else(|| marked(part));
        if is_operand(part) && ends_in_operand(&text) {
            text.push_str("× ");
        }
        text.push_str(&shown);
    }
    let result = formula.of(values);
    let measure = formula.result.measure;
    format!("{} = {text} = {}", formula.result.letter, measure.in_si(result))
}

/// A number as it is put in, in parentheses where it has a sign.
fn number(symbol: &Symbol, value: f64) -> String {
    let text = symbol.measure.put_in(value);
    if text.starts_with('-') { format!("({text})") } else { text }
}

const FUNCTIONS: [&str; 4] = ["exp", "ln", "max", "sqrt"];

/// Words, and what stands between them, each character by itself.
fn parts(text: &str) -> Vec<&str> {
    let mut parts = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let of_word = |c: char| c.is_alphanumeric() || c == '_' || c == '.';
        let length = if of_word(first) {
            rest.find(|c: char| !of_word(c)).unwrap_or(rest.len())
        } else {
            first.len_utf8()
        };
        let (part, after) = rest.split_at(length);
        parts.push(part);
        rest = after;
    }
    parts
}

/// Whether a part may begin a factor.
fn is_operand(part: &str) -> bool {
    part == "(" || part.starts_with(|c: char| c.is_alphanumeric())
}

/// Whether what stands before a blank at the end is a factor.
fn ends_in_operand(text: &str) -> bool {
    let Some(before) = text.strip_suffix(' ') else { return false };
    let is_function = FUNCTIONS.iter().any(|function| before.ends_with(function));
    !is_function && before.ends_with(|c: char| c.is_alphanumeric() || c == ')')
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// Name of a figure.
pub fn name(shown: Shown) -> String {
    let fixed = match shown {
        Shown::Draft => said("What pulls"),
        Shown::Losses => said("What holds back"),
        Shown::Margin => said("Draft to spare at the height of the fire"),
        Shown::Judged(Start::Hot, Day::Design) => said("Draft to spare, as it is judged"),
        Shown::Judged(Start::Hot, Day::Mild) => said("Draft to spare on a mild day"),
        Shown::Judged(Start::Cold, Day::Design) => said("Draft to spare at a cold start"),
        Shown::Judged(Start::Cold, Day::Mild) => {
            said("Draft to spare at a cold start on a mild day")
        }
        Shown::Wanted(Day::Design) => said("Draft that must be to spare"),
        Shown::Wanted(Day::Mild) => said("Draft that must be to spare on a mild day"),
        Shown::Due(Day::Design) => said("Draft to spare when due for cleaning"),
        Shown::Due(Day::Mild) => said("Draft to spare when due for cleaning, on a mild day"),
        Shown::DueWanted(Day::Design) => {
            said("Draft that must be to spare when due for cleaning")
        }
        Shown::DueWanted(Day::Mild) => {
            said("Draft that must be to spare when due for cleaning, on a mild day")
        }
        Shown::ExcessAir => said("Excess air"),
        Shown::ChimneyInlet => said("Gas into the chimney"),
        Shown::EfficiencyLower => said("Efficiency, lower heating value"),
        Shown::EfficiencyHigher => said("Efficiency, higher heating value"),
        Shown::DewPoint => said("Dew point"),
        Shown::MouthWall => said("Wall at the mouth"),
        Shown::HalfChargeWall => said("Wall at the mouth with half a charge"),
        Shown::Speed(run) => return say!("Speed of the gas into run {}", run + 1),
        Shown::Buoyancy(run) => {
            return say!("Buoyancy over inertia in run {}", run + 1);
        }
        Shown::BaseRatio => said("Longer side of the base over the other"),
        Shown::GlassShare => said("Glass over the surface of the firebox"),
        Shown::BleedAsked => said("Bleed slot that the route asks for"),
        Shown::DamperAsked => said("What a shut damper must leave open"),
        Shown::AirAsked => said("Opening that the air of the fire needs"),
        Shown::GlassReach => said("Distance that the glass asks for"),
        Shown::Inflow => said("Speed of the air through its inlet"),
        Shown::FireboxSurface => said("Inner surface of the firebox"),
        Shown::SurfaceAsked => said("Inner surface that the route asks for"),
        Shown::FireboxBase => said("Base of the firebox"),
        Shown::BaseAsked => said("Smallest base that the route asks for"),
        Shown::HeightAsked => said("Smallest height that the route asks for"),
        Shown::PathLength => said("Smoke path"),
        Shown::ShortestPath => said("Shortest smoke path of the route"),
        Shown::PathOfDefinition => said("Shortest smoke path of a masonry heater"),
        Shown::HouseLoss => said("Loss of the house on the day of the design"),
        Shown::DayHeat => said("Useful heat of a day"),
        Shown::ChargeWanted => said("Charge that covers the house"),
        Shown::FiringsWanted => said("Firings that cover the house"),
        Shown::Mass => said("Mass of the heater"),
        Shown::Bearing => said("What the heater presses on its ground"),
        Shown::SoilPressure => said("What the footing presses on the soil"),
        Shown::Growth => said("Growth of the core"),
        Shown::OwnSuction => said("Suction of the house by its own height"),
    };
    fixed.into()
}

/// What a reader should know beside the steps.
fn note(shown: Shown) -> Option<&'static str> {
    match shown {
        Shown::Draft => Some(said(
            "The density of the gas in the chimney is its mean over the length, since it \
             cools on its way.",
        )),
        Shown::Losses => Some(said(
            "Friction is added up over three stretches of every run and of the chimney, each \
             with the speed and the friction factor of its own gas. The gas set in motion is \
             what the fire gives it in speed, less what it loses of it as it cools.",
        )),
        Shown::Judged(Start::Hot, Day::Mild) | Shown::Wanted(Day::Mild) => Some(said(
            "Pull and losses are found as for the day of the design, with the air outdoors of \
             the mild day and at least 4 Pa of suction by the house.",
        )),
        Shown::Judged(Start::Cold, _) => Some(said(
            "Pull and losses are those of a kindling fire while masonry and flue are cold, \
             with at least 4 Pa of suction by the house.",
        )),
        Shown::ExcessAir => Some(said(
            "The excess air is entered, and the flow of air follows from it; with its air \
             open the heater takes what the draft gives it.",
        )),
        Shown::ChimneyInlet => Some(said(
            "The gas gives its heat to the walls stretch by stretch, three to a run; the last \
             stretch is shown. A wall takes the more heat the cooler it still is, so the \
             temperature at which no heat would flow rises as the fire goes on.",
        )),
        Shown::EfficiencyLower | Shown::EfficiencyHigher => Some(said(
            "Heat in the gas is counted from 25 °C, from the heat capacities of its parts \
             (GRI-Mech 3.0, seen).",
        )),
        Shown::MouthWall => Some(said(
            "The film of the gas is convection and radiation together, at the temperatures found. The \
             flue is taken in its steady state, as EN 13384-1 takes it: within a burn its wall stays \
             cooler, and the firing day tells how warm it gets.",
        )),
        Shown::Growth => Some(said(
            "At the height of the first fire, by the face toward the gas. Where the finding names a \
             larger growth, its rise is that of the mean through the core in the hottest minute of \
             the days that repeat, with more wood where it says so.",
        )),
        Shown::ShortestPath => {
            Some(said("After EN 15544; which factor belongs to which shell is from memory."))
        }
        Shown::DayHeat | Shown::ChargeWanted | Shown::FiringsWanted => Some(said(
            "The efficiency is that of the height of the fire; the firing day has its own.",
        )),
        _ => None,
    }
}

/// Name of a place in the title of a step.
fn place(spot: Spot) -> String {
    let fixed = match spot {
        Spot::Site => said("at the site"),
        Spot::Outdoors => said("outdoors"),
        Spot::Room => said("in the room"),
        Spot::Wood => said("of this wood"),
        Spot::Inlet => said("air inlet"),
        Spot::Firebox => said("firebox"),
        Spot::Run(run) => return say!("run {}", run + 1),
        Spot::Into(0) => said("into run 1"),
        Spot::Into(run) => return say!("from run {run} to run {}", run + 1),
        Spot::OutOfRuns => said("out of the last run"),
        Spot::LastCell => said("last stretch of the last run"),
        Spot::Connector => said("through the connector"),
        Spot::ChimneyIndoors => said("chimney indoors"),
        Spot::ChimneyOutdoors => said("chimney outdoors"),
        Spot::Mouth => said("at the mouth"),
        Spot::FlueWall => said("wall of the flue"),
        Spot::Wool => said("wool around it"),
        Spot::OutsideFilm => said("outside"),
        Spot::Part(part) => part_name(part),
        Spot::Heater => said("heater"),
        Spot::Footing => said("footing"),
        Spot::House => said("house"),
    };
    fixed.into()
}

fn part_name(part: Part) -> &'static str {
    let english = match part {
        Part::Firebox => "firebox",
        Part::Runs => "runs",
        Part::Baffles => "baffles",
        Part::Fill => "fill",
        Part::Facing => "facing",
        Part::Cap => "cap",
        Part::Base => "base",
        Part::Chimney => "chimney",
    };
    said(english)
}

fn term_name(term: Term) -> String {
    let fixed = match term {
        Term::Item(of) => item(of),
        Term::At(spot) => return capital(&place(spot)),
        Term::Losses => said("What holds back, as entered"),
        Term::MoreSuction => said("Suction of the house up to the least that is judged with"),
        Term::Wood => said("Heat of the wood"),
        Term::Air => said("Heat of the air above 25 °C"),
        Term::Unburned => said("Unburned"),
        Term::Walls => said("Into the walls of the firebox"),
        Term::Glass => said("Through the glass"),
        Term::Door => said("Through the metal of the door"),
    };
    fixed.into()
}

fn total_name(total: Total) -> &'static str {
    let english = match total {
        Total::Draft => "What pulls",
        Total::Losses => "What holds back",
        Total::FireboxGas => "Heat in the gas that leaves the firebox",
        Total::Resistance => "Resistance from the inner surface to the air outdoors",
        Total::Path => "Smoke path",
        Total::Heater => "Heater",
    };
    said(english)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::pressure::{COLUMN_PULL, LOCAL_LOSS};
    use crate::physics::vapor::DEW_POINT;

    #[test]
    fn numbers_stand_for_letters() {
        // 9.80665 x 3 x (1.3 - 0.8) is 14.709975; 2 x 2^2/(2 x 0.5) is 8.
        assert_eq!(
            put_in(&COLUMN_PULL, &[3.0, 1.3, 0.8]),
            "p = 9.80665 × 3 × (1.3 - 0.8) = 14.71 Pa"
        );
        assert_eq!(
            put_in(&LOCAL_LOSS, &[2.0, 1.0, 0.5, 0.5]),
            "p = 2 × (1/0.5)^2 / (2 × 0.5) = 8 Pa"
        );
        assert_eq!(
            put_in(&COLUMN_PULL, &[-1.0, 1.0, 0.5]),
            "p = 9.80665 × (-1) × (1 - 0.5) = -4.9033 Pa"
        );
        let dew = put_in(&DEW_POINT, &[10_000.0]);
        assert!(
            dew.starts_with("T = 273.15 + 4077.9 / (23.6448 - ln 10000) - 236.67 = "),
            "{dew}"
        );
    }

    #[test]
    fn a_working_is_told_in_both_systems() {
        let design = Design::demonstration();
        let figure = Subject::Figure(Shown::DewPoint);
        let metric = of(&design, figure, System::Metric).unwrap();
        assert!(metric.title.starts_with("Dew point: ") && metric.title.ends_with(" °C"));
        let us = of(&design, figure, System::Us).unwrap();
        assert!(us.title.ends_with(" °F"), "{}", us.title);
        assert!(us.plain().contains("(from memory)"));
    }
}
