//! The result as plain data: all that the page shows, for scripts and for the native command.

use super::{
    CAUTIONS, finding as words_of, standard_route as route_words, structure,
    uncertainty as said,
};
use crate::analysis::conditions::Conditions;
use crate::analysis::day::Day;
use crate::analysis::standard_route::{SOURCES, StandardRoute};
use crate::analysis::structure::Structure;
use crate::analysis::{Analysis, HeightOfFire, House};
use crate::design::Design;
use crate::rules::{self, Finding, Question, Severity, answer};
use crate::sources::Source;
use crate::study::uncertainty::{SPREADS, SpreadId, Uncertainty};
use crate::units::{Quantity, System, celsius};
use schemars::{JsonSchema, Schema, schema_for};
use serde::Serialize;

/// Version of the result format.
pub const VERSION: u32 = 1;

/// The result of a design. Figures are in SI and degrees Celsius; texts in the system asked for.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct Report {
    /// Marks the document and tells its version.
    pub heater_result_version: u32,
    /// Name of the design.
    pub name: String,
    /// Answers to the three questions.
    pub answers: Answers,
    /// The instant that stands for the firing.
    pub height_of_fire: HeightOfFire,
    /// Where the draft is smaller: a mild day, and the kindling in cold masonry.
    pub conditions: Conditions,
    /// The firing day, from cold and when the days repeat; missing where it was not asked for or
    /// not found.
    pub day: Option<Day>,
    /// The heater in its house.
    pub house: House,
    /// The published sizing route beside it.
    pub standard_route: RouteReport,
    /// What the figures are worth; missing where it was not asked for.
    pub uncertainty: Option<UncertaintyReport>,
    /// Masses and loads.
    pub structure: StructureReport,
    /// What the chosen rule set is made of and what it leaves out.
    pub rules: &'static str,
    /// All findings, the heaviest first.
    pub findings: Vec<FindingReport>,
    /// What every page says.
    pub cautions: Vec<&'static str>,
}

/// The sizing route with its label and the reasons why it differs from the model.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct RouteReport {
    /// What is said wherever figures of the route are shown.
    pub label: &'static str,
    /// Its figures.
    #[serde(flatten)]
    pub route: StandardRoute,
    /// The limits that are not kept, as sentences, in the order of `unmet`.
    pub unmet_in_words: Vec<LimitReport>,
    /// Limits for which there is no input.
    pub not_checked: &'static str,
    /// Why route and model differ.
    pub differences: Vec<String>,
    /// Where the route comes from, and how far that was checked.
    pub sources: Vec<Source>,
}

/// Masses and loads, with who decides.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct StructureReport {
    /// Parts, masses, loads.
    #[serde(flatten)]
    pub structure: Structure,
    /// What is said wherever they are shown.
    pub label: &'static str,
}

/// A limit of the route that is not kept, with its source.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct LimitReport {
    /// What was found and what the route asks for.
    pub text: String,
    /// Where the limit comes from, and how far that was checked.
    pub source: Source,
}

/// What the figures are worth, with its sentences.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct UncertaintyReport {
    /// Bands, shares of answers, what matters.
    #[serde(flatten)]
    pub uncertainty: Uncertainty,
    /// Each spread by name, in the order of `spreads`.
    pub spreads_in_words: Vec<SpreadReport>,
    /// In how many cases each question is answered with yes.
    pub answers_in_words: AnswersInWords,
    /// What is taken as it was entered.
    pub not_varied: &'static str,
}

/// Something known only roughly, with the reason.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub struct SpreadReport {
    /// Its name in `spreads`.
    pub spread: SpreadId,
    /// Its name.
    pub name: &'static str,
    /// Why it is known only so well.
    pub reason: &'static str,
    /// Where the range comes from, and how far that was checked.
    pub source: Source,
}

/// Shares of answers, as sentences.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct AnswersInWords {
    /// Does the chimney pull the gas through the runs?
    pub will_it_draw: String,
    /// Does the heat end in the masonry?
    pub will_the_heat_stay: String,
    /// Did what was checked for safety pass?
    pub is_it_safe: String,
}

/// Answers to the three questions.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub struct Answers {
    /// Does the chimney pull the gas through the runs?
    pub will_it_draw: rules::Answer,
    /// Does the heat end in the masonry?
    pub will_the_heat_stay: rules::Answer,
    /// Did what was checked for safety pass?
    pub is_it_safe: rules::Answer,
}

/// A finding with its sentences.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct FindingReport {
    /// Short name, what is wrong.
    pub id: &'static str,
    /// How much it weighs.
    pub severity: Severity,
    /// Where in the heater it belongs.
    pub place: String,
    /// What was found.
    pub figures: Figures,
    /// The limit that was passed, where there is one.
    pub limit: Option<Figure>,
    /// Where the limit comes from, and how far that was checked.
    pub source: Source,
    /// What was found, as a sentence.
    pub text: String,
    /// Why it matters.
    pub reason: &'static str,
    /// What to change.
    pub remedy: &'static str,
}

/// Figures of a finding.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub struct Figures {
    /// What was found.
    pub found: Figure,
}

/// A figure with its unit.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub struct Figure {
    /// Value in the unit.
    pub value: f64,
    /// Unit: SI, or celsius; 1 for shares and ratios.
    pub unit: &'static str,
}

/// What was computed for a design.
#[derive(Clone, Copy, Debug)]
pub struct Computed<'a> {
    /// The height of the fire and other conditions.
    pub analysis: &'a Analysis,
    /// The firing day, where it was asked for and found.
    pub day: Option<&'a Day>,
    /// What the figures are worth, where it was asked for and found.
    pub uncertainty: Option<&'a Uncertainty>,
}

/// Puts together the result of a design.
pub fn report(
    design: &Design,
    computed: Computed<'_>,
    findings: &[Finding],
    system: System,
) -> Report {
    let Computed { analysis, day, uncertainty } = computed;
    Report {
        heater_result_version: VERSION,
        name: design.name.clone(),
        answers: Answers {
            will_it_draw: answer(Question::Draw, findings),
            will_the_heat_stay: answer(Question::Heat, findings),
            is_it_safe: answer(Question::Safe, findings),
        },
        height_of_fire: analysis.height_of_fire.clone(),
        conditions: analysis.conditions.clone(),
        day: day.cloned(),
        house: analysis.house,
        standard_route: route(design, analysis, system),
        uncertainty: uncertainty.map(in_words),
        structure: StructureReport {
            structure: analysis.structure.clone(),
            label: structure::ENGINEER,
        },
        rules: structure::scope(design.site.rule_set),
        findings: findings.iter().map(|each| finding(each, system)).collect(),
        cautions: CAUTIONS.to_vec(),
    }
}

/// JSON Schema of the result.
pub fn schema() -> Schema {
    schema_for!(Report)
}

fn route(design: &Design, analysis: &Analysis, system: System) -> RouteReport {
    let route = &analysis.standard_route;
    let in_words = |unmet| LimitReport {
        text: route_words::unmet(unmet, system),
        source: *unmet.limit.source(),
    };
    RouteReport {
        label: route_words::LABEL,
        route: route.clone(),
        unmet_in_words: route.unmet.iter().map(in_words).collect(),
        not_checked: route_words::NOT_CHECKED,
        differences: route_words::differences(design, analysis, system),
        sources: SOURCES.into_iter().copied().collect(),
    }
}

fn in_words(uncertainty: &Uncertainty) -> UncertaintyReport {
    let spread = |id: SpreadId| {
        let known = SPREADS.iter().find(|spread| spread.id == id)?;
        Some(SpreadReport {
            spread: id,
            name: said::name(id),
            reason: said::reason(id),
            source: *known.source,
        })
    };
    let cases = |question| said::cases(question, uncertainty.answers.get(question));
    UncertaintyReport {
        uncertainty: uncertainty.clone(),
        spreads_in_words: uncertainty
            .spreads
            .iter()
            .filter_map(|range| spread(range.spread))
            .collect(),
        answers_in_words: AnswersInWords {
            will_it_draw: cases(Question::Draw),
            will_the_heat_stay: cases(Question::Heat),
            is_it_safe: cases(Question::Safe),
        },
        not_varied: said::NOT_VARIED,
    }
}

fn finding(finding: &Finding, system: System) -> FindingReport {
    let text = words_of(finding, system);
    FindingReport {
        id: finding.rule.id(),
        severity: finding.severity,
        place: super::place(finding.place),
        figures: Figures { found: figure(finding.found) },
        limit: finding.limit.map(figure),
        source: *finding.source,
        text: text.title,
        reason: text.reason,
        remedy: text.remedy,
    }
}

fn figure(figure: rules::Figure) -> Figure {
    let value = match figure.quantity {
        Quantity::Temperature => celsius(figure.value),
        _ => figure.value,
    };
    Figure { value, unit: si_unit(figure.quantity) }
}

/// Unit of a figure in files.
const fn si_unit(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Length | Quantity::Size => "m",
        Quantity::Area | Quantity::Opening => "m2",
        Quantity::Temperature => "celsius",
        Quantity::Mass => "kg",
        Quantity::Power => "W",
        Quantity::Energy => "J",
        Quantity::Pressure | Quantity::Bearing => "Pa",
        Quantity::Speed => "m/s",
        Quantity::Duration | Quantity::Hours => "s",
        Quantity::MassFlow => "kg/s",
        Quantity::HeatLoss => "W/K",
        Quantity::Share | Quantity::Ratio | Quantity::Count => "1",
    }
}
