//! The result as plain data: all that the page shows, for scripts and for the native command.

use super::hours::Hours;
use super::validity::validity;
use super::{
    CAUTIONS, edges as edges_said, finding as words_of, house, quantity,
    remedy as remedy_words, standard_route as route_words, structure, trials as trial_words,
    uncertainty as said,
};
use crate::analysis::conditions::Conditions;
use crate::analysis::day::Day;
use crate::analysis::extrapolation::{OverTheBurn, over_the_burns};
use crate::analysis::house::{House, Overheating, own_suction};
use crate::analysis::path::path;
use crate::analysis::standard_route::{SOURCES, StandardRoute, standard_route};
use crate::analysis::structure::Structure;
use crate::analysis::{Analysis, HeightOfFire};
use crate::design::Design;
use crate::design::field::field;
use crate::language::English;
use crate::rules::{self, Edges, Finding, OVERLOAD, Question, Severity, answer};
use crate::sources::{OVERLOAD_CHARGE, Source};
use crate::study::remedy::{Key, Remedy, Traded};
use crate::study::trials::{self, Tried};
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
    /// The same hour by hour.
    pub hours: Option<Hours>,
    /// Formulas that are used outside their range while the fire burns, when the days repeat.
    pub day_extrapolations: Option<Vec<OverTheBurn>>,
    /// The heater in its house.
    pub house: HouseReport,
    /// The published sizing route beside it.
    pub standard_route: RouteReport,
    /// What the figures are worth; missing where it was not asked for.
    pub uncertainty: Option<UncertaintyReport>,
    /// What is judged for safety at its unfavorable edge; missing where it was not asked for or not
    /// found.
    pub edges: Option<EdgesReport>,
    /// The same heater under other conditions; missing where it was not asked for.
    pub trials: Option<Vec<TrialReport>>,
    /// Masses and loads.
    pub structure: StructureReport,
    /// What the chosen rule set is made of and what it leaves out.
    pub rules: &'static str,
    /// All findings, the heaviest first.
    pub findings: Vec<FindingReport>,
    /// What every page says.
    pub cautions: Vec<&'static str>,
}

/// The heater in its house.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct HouseReport {
    /// Its figures, with the efficiency of the firing day where that was found.
    #[serde(flatten)]
    pub house: House,
    /// How warm the house may get: on the day of the design when the days repeat, by one firing
    /// from cold on a mild day; missing without the firing day.
    pub overheating: Option<[Overheating; 2]>,
    /// What the house itself pulls at the heater by its height (Pa); missing where no roof is
    /// stated.
    pub own_suction_pascals: Option<f64>,
    /// What goes with these figures.
    pub label: &'static str,
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

/// Safety at its unfavorable edge, with how it was found.
#[derive(Clone, Copy, Debug, Serialize, JsonSchema)]
pub struct EdgesReport {
    /// Wood of each firing over that of the stated one (–).
    pub overload_ratio: f64,
    /// Why so much.
    pub overload_source: Source,
    /// How the edges were found.
    pub method: &'static str,
    /// The figures.
    #[serde(flatten)]
    pub edges: Edges,
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

/// The heater under one condition.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct TrialReport {
    /// Short name of the condition.
    pub trial: &'static str,
    /// What it supposes.
    pub supposes: String,
    /// Answers to the three questions; none where a condition does not ask one or was not found.
    pub answers: [Option<rules::Answer>; 3],
    /// Smallest draft to spare of those judged (Pa).
    pub margin_pascals: Option<f64>,
    /// Mean gas into the chimney when the days repeat (°C).
    pub chimney_inlet_celsius: Option<f64>,
    /// What speaks against it, by short name, the heaviest first.
    pub findings: Vec<&'static str>,
    /// Why nothing was found.
    pub failure: Option<String>,
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
    /// By how much it was passed; missing where there is no limit.
    pub beyond: Option<Figure>,
    /// Where the limit comes from, and how far that was checked.
    pub source: Source,
    /// For what the limit, or the formula behind the figure, holds.
    pub validity: String,
    /// What was found, as a sentence.
    pub text: String,
    /// Why it matters.
    pub reason: &'static str,
    /// What to change.
    pub remedy: &'static str,
    /// Single decisions with which it is not made, the best first, each tried on this design; empty
    /// where none was found or sought.
    pub remedies: Vec<RemedyReport>,
}

/// A single decision with which a finding is not made, or weighs less.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct RemedyReport {
    /// Group and key of the input in the design file, with the unit in the name.
    pub input: &'static str,
    /// Its value in the design.
    pub present: Figure,
    /// Its value with which the finding is not made.
    pub value: Figure,
    /// What to do, as a sentence.
    pub text: String,
    /// What comes with it, as sentences.
    pub trades: String,
    /// Weight that stays, where the finding is only made lighter.
    pub leaves: Option<Severity>,
    /// Figures before and after.
    pub figures: Vec<TradeReport>,
}

/// A figure of the height of the fire before and after a remedy.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct TradeReport {
    /// Its name.
    pub name: &'static str,
    /// As the design stands.
    pub before: Figure,
    /// With the remedy.
    pub after: Figure,
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
    /// The trials, where they were asked for.
    pub trials: Option<&'a [Tried]>,
    /// Safety at its unfavorable edge, where it was asked for and found.
    pub edges: Option<&'a Edges>,
    /// What mends the findings, as far as it was sought.
    pub remedies: &'a [(Key, Vec<Remedy>)],
}

impl Computed<'_> {
    /// What mends a finding; none where nothing was sought.
    pub fn remedies_of(&self, finding: &Finding) -> Option<&[Remedy]> {
        let key = Key::of(finding);
        self.remedies.iter().find(|(of, _)| *of == key).map(|(_, remedies)| remedies.as_slice())
    }
}

/// Puts together the result of a design.
pub fn report(
    design: &Design,
    computed: Computed<'_>,
    findings: &[Finding],
    system: System,
) -> Report {
    let Computed { analysis, day, uncertainty, edges, trials, .. } = computed;
    let trial = |each: &Tried| trial(design, each, system);
    let told = |each| finding(each, computed.remedies_of(each).unwrap_or_default(), system);
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
        hours: day.map(Hours::new),
        day_extrapolations: day.map(|day| over_the_burns(&day.periodic)),
        house: HouseReport {
            house: house::of_day(design, analysis, day.map(Into::into)),
            overheating: day.map(|day| house::warm_days(design, day.into())),
            own_suction_pascals: own_suction(design, analysis.height_of_fire.pressure),
            label: house::LABEL.said(),
        },
        standard_route: route(design, analysis, system),
        uncertainty: uncertainty.map(in_words),
        structure: StructureReport {
            structure: analysis.structure.clone(),
            label: structure::ENGINEER.said(),
        },
        rules: structure::scope(design.site.rule_set),
        edges: edges.map(|edges| EdgesReport {
            overload_ratio: OVERLOAD,
            overload_source: OVERLOAD_CHARGE,
            method: edges_said::METHOD.said(),
            edges: *edges,
        }),
        trials: trials.map(|all| all.iter().map(trial).collect()),
        findings: findings.iter().map(told).collect(),
        cautions: CAUTIONS.map(English::said).to_vec(),
    }
}

impl Report {
    /// The document, on a line.
    pub fn text(&self) -> String {
        // It holds nothing that JSON has no form for.
        serde_json::to_string(self).unwrap_or_default() + "\n"
    }
}

/// JSON Schema of the result.
pub fn schema() -> Schema {
    schema_for!(Report)
}

fn route(design: &Design, analysis: &Analysis, system: System) -> RouteReport {
    let route = standard_route(design, &path(design));
    let both = route_words::Both { design, route: &route, fire: &analysis.height_of_fire };
    let in_words = |unmet| LimitReport {
        text: route_words::unmet(unmet, system),
        source: *unmet.limit.source(),
    };
    RouteReport {
        label: route_words::LABEL.said(),
        unmet_in_words: route.unmet.iter().map(in_words).collect(),
        not_checked: route_words::NOT_CHECKED.said(),
        differences: route_words::differences(both, system),
        sources: SOURCES.into_iter().copied().collect(),
        route,
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
        not_varied: said::NOT_VARIED.said(),
    }
}

fn trial(design: &Design, tried: &Tried, system: System) -> TrialReport {
    let trial = tried.trial;
    let verdict = trials::judge(design, tried);
    let found = verdict.as_ref().ok();
    TrialReport {
        trial: trial.id(),
        supposes: trial_words::supposes(trial, system),
        answers: Question::ALL.map(|question| found?.answer(question, trial)),
        margin_pascals: found.map(|found| found.margin),
        chimney_inlet_celsius: found.map(|found| celsius(found.chimney_inlet)),
        findings: found
            .into_iter()
            .flat_map(|found| found.findings.iter().map(|each| each.rule.id()))
            .collect(),
        failure: verdict.as_ref().err().map(|failure| super::failure(failure, system)),
    }
}

fn finding(finding: &Finding, remedies: &[Remedy], system: System) -> FindingReport {
    let text = words_of(finding, system);
    FindingReport {
        id: finding.rule.id(),
        severity: finding.severity,
        place: super::place(finding.place),
        figures: Figures { found: figure(finding.found) },
        limit: finding.limit.map(figure),
        beyond: finding.limit.map(|limit| beyond(finding.found, limit)),
        source: *finding.source,
        validity: validity(finding.rule, system),
        text: text.title,
        reason: text.reason,
        remedy: text.remedy,
        remedies: remedies.iter().map(|each| remedy(each, system)).collect(),
    }
}

/// How far a figure is from its limit; between temperatures that is in kelvin.
fn beyond(found: rules::Figure, limit: rules::Figure) -> Figure {
    let value = (found.value - limit.value).abs();
    let unit = match found.quantity {
        Quantity::Temperature => "K",
        quantity => si_unit(quantity),
    };
    Figure { value, unit }
}

fn remedy(remedy: &Remedy, system: System) -> RemedyReport {
    let shown = |value| figure(rules::Figure { value, quantity: quantity(remedy.field) });
    let trade = |(traded, (before, after)): (Traded, (f64, f64))| {
        let shown = |value| {
            let quantity = remedy_words::quantity_of(traded);
            figure(rules::Figure { value, quantity })
        };
        TradeReport {
            name: remedy_words::name_of(traded),
            before: shown(before),
            after: shown(after),
        }
    };
    RemedyReport {
        input: field(remedy.field).path,
        present: shown(remedy.present),
        value: shown(remedy.value),
        text: remedy_words::act(remedy, system),
        trades: remedy_words::trades(remedy, system),
        leaves: remedy.leaves,
        figures: Traded::ALL.into_iter().zip(remedy.trades).map(trade).collect(),
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
        Quantity::Mass | Quantity::Weight => "kg",
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
