//! The same heater under nine conditions, each judged on the three questions with a day of its own.
//!
//! A trial changes what weather, wood and use bring, never what the builder decides. Findings that
//! a trial brings about by its very supposition (wet wood is wet) are left out of it.

use crate::analysis::conditions::{LEAST_SUCTION, MILD_OUTDOORS};
use crate::analysis::day::{Setup, Whole, whole};
use crate::analysis::otherwise::{fouled, half_charged, hold};
use crate::analysis::{Analysis, Failure, analyze};
use crate::design::Design;
use crate::rules::{
    self, Answer, Burning, Condition, Day, DayFigures, Finding, InHouse, Known, Question, Rule,
    Start,
};
use crate::study::day::{failure_from_id, failure_id, place_number, place_of};
use crate::study::edges::overloaded;
use crate::study::figures::{COARSE, OFF, is_clear, off};
use crate::units::float;
use std::fmt;
use std::str::FromStr;

/// Water over moist mass of wet wood (–): wood a summer short of dry.
///
/// # Source
///
/// [`crate::sources::TRIAL_WOOD`].
pub const WET_WOOD: f64 = 0.30;
/// Suction that fans add (Pa).
///
/// # Source
///
/// [`crate::sources::TRIAL_FAN`].
pub const FAN: f64 = 4.0;
/// Pressure of the wind onto a mouth in an unfavorable place, inland (Pa).
///
/// # Source
///
/// [`crate::sources::TRIAL_WIND`].
pub const WIND: f64 = 25.0;

/// A condition under which the heater is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trial {
    /// The design as it stands, on its day.
    ColdDay,
    /// 15 °C outdoors, or as the design states if that is warmer.
    MildDay,
    /// A kindling fire while all is cold, on both days.
    ColdStart,
    /// [`WET_WOOD`].
    WetWood,
    /// [`crate::analysis::otherwise::HALF_CHARGE`].
    HalfCharge,
    /// [`rules::OVERLOAD`].
    Overload,
    /// [`FAN`].
    Fan,
    /// [`crate::analysis::otherwise::ASH`] and [`crate::analysis::otherwise::SOOT`].
    DueForCleaning,
    /// [`WIND`].
    Wind,
}

impl Trial {
    /// All, in the order in which they are shown.
    pub const ALL: [Self; 9] = [
        Self::ColdDay,
        Self::MildDay,
        Self::ColdStart,
        Self::WetWood,
        Self::HalfCharge,
        Self::Overload,
        Self::Fan,
        Self::DueForCleaning,
        Self::Wind,
    ];

    /// Name in messages and results.
    pub const fn id(self) -> &'static str {
        match self {
            Self::ColdDay => "cold_day",
            Self::MildDay => "mild_day",
            Self::ColdStart => "cold_start",
            Self::WetWood => "wet_wood",
            Self::HalfCharge => "half_charge",
            Self::Overload => "overload",
            Self::Fan => "fan",
            Self::DueForCleaning => "due_for_cleaning",
            Self::Wind => "wind",
        }
    }

    /// The one of that name.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|trial| trial.id() == id)
    }

    /// The design as this condition has it.
    pub fn apply(self, design: &Design) -> Design {
        let mut tried = design.clone();
        let fire = &mut tried.fire;
        match self {
            Self::ColdDay | Self::ColdStart => {}
            Self::MildDay => {
                let site = &mut tried.site;
                site.outdoor_temperature = site.outdoor_temperature.max(MILD_OUTDOORS);
                // As the draft on that day is judged at the height of the fire.
                site.house_suction = site.house_suction.max(LEAST_SUCTION);
            }
            Self::WetWood => fire.moisture_fraction = fire.moisture_fraction.max(WET_WOOD),
            Self::HalfCharge => return half_charged(design),
            Self::Overload => return overloaded(design),
            Self::Fan => {
                let site = &mut tried.site;
                site.house_suction = site.house_suction.max(LEAST_SUCTION) + FAN;
            }
            Self::DueForCleaning => return fouled(design),
            Self::Wind => tried.site.wind_pressure = tried.site.wind_pressure.max(WIND),
        }
        hold(&mut tried, design);
        tried
    }

    /// Whether a finding says no more than what the trial supposes, or is judged by another one.
    fn supposes(self, rule: Rule) -> bool {
        let cold_start = matches!(rule, Rule::ColdStartWeak(_));
        if has_its_row(rule) {
            return true;
        }
        match self {
            Self::ColdStart => !cold_start,
            Self::ColdDay => cold_start || on_mild_day(rule),
            Self::WetWood => cold_start || rule == Rule::WoodWet,
            Self::HalfCharge => cold_start || sizes(rule),
            Self::Overload => cold_start || sizes(rule) || at_the_held_air(rule),
            // What the house loses is that of its coldest day.
            Self::MildDay => cold_start || rule == Rule::InHouse(InHouse::RoomOverheats),
            Self::Fan => cold_start || rule == Rule::InHouse(InHouse::SuctionHigh),
            Self::DueForCleaning | Self::Wind => cold_start,
        }
    }
}

/// Whether a row of its own judges it: half a charge, or a heater that is due for cleaning.
const fn has_its_row(rule: Rule) -> bool {
    match rule {
        Rule::ChimneyWallWet(burning) | Rule::ChimneyWallFreezing(burning) => {
            matches!(burning, Burning::HalfCharge)
        }
        Rule::DraftNegative(judged) | Rule::DraftReserveSmall(judged) => judged.due,
        _ => false,
    }
}

/// Whether draft was judged on a mild day.
fn on_mild_day(rule: Rule) -> bool {
    match rule {
        Rule::DraftNegative(judged)
        | Rule::DraftReserveSmall(judged)
        | Rule::NoRunningFlow(judged)
        | Rule::SecondFlow(judged)
        | Rule::UnheldFlow(judged) => judged.day == Day::Mild,
        _ => false,
    }
}

/// Rules by which a fire that is given more wood would still burn with the air that is stated; it
/// burns with what it gets, which is judged by itself.
fn at_the_held_air(rule: Rule) -> bool {
    matches!(
        rule,
        Rule::DraftNegative(_)
            | Rule::DraftReserveSmall(_)
            | Rule::SmokeBack(_)
            | Rule::ShortOfDraft(_)
    )
}

/// Rules that hold sizes and heat of use against the charge that is stated, and inputs against what is
/// usual.
fn sizes(rule: Rule) -> bool {
    matches!(
        rule,
        Rule::FireboxSmall
            | Rule::FireboxLarge
            | Rule::FireboxBaseSmall
            | Rule::FireboxLow
            | Rule::FireboxOverfull
            | Rule::HeatWasted
            | Rule::PathShort
            | Rule::InputUnusual(_)
            | Rule::HouseNotCovered
            | Rule::InHouse(InHouse::RoomOverheats)
    )
}

/// What a trial came to, before it is judged.
#[derive(Clone, Debug, PartialEq)]
pub struct Tried {
    /// The condition.
    pub trial: Trial,
    /// What is judged of its day.
    pub day: Result<DayFigures, Failure>,
}

/// A trial as it is judged.
#[derive(Clone, Debug)]
pub struct Verdict {
    /// What was computed.
    pub analysis: Analysis,
    /// What speaks against it, the heaviest first.
    pub findings: Vec<Finding>,
    /// Smallest draft to spare of those judged here (Pa).
    pub margin: f64,
    /// Mean gas into the chimney when the days repeat, or at the height of the fire (K).
    pub chimney_inlet: f64,
}

impl Verdict {
    /// Whether every question that the trial asks is answered yes.
    pub fn passes(&self, trial: Trial) -> bool {
        let mut asked = Question::ALL.into_iter().filter_map(|each| self.answer(each, trial));
        asked.all(|answer| answer == Answer::Yes)
    }

    /// Answer to a question; none where the trial does not ask it.
    pub fn answer(&self, question: Question, trial: Trial) -> Option<Answer> {
        let asked = trial != Trial::ColdStart || question == Question::Draw;
        asked.then(|| rules::answer(question, &self.findings))
    }
}

/// Judges a trial of a design.
///
/// # Errors
///
/// What could not be computed.
pub fn judge(design: &Design, tried: &Tried) -> Result<Verdict, Failure> {
    let trial = tried.trial;
    let changed = trial.apply(design);
    let day = tried.day.as_ref().map_err(Clone::clone)?;
    let analysis = analyze(&changed)?;
    let known = if trial == Trial::MildDay && has_mild_day(design) {
        Known { mild: Some(tried.day.as_ref()), ..Known::default() }
    } else {
        Known { day: Some(Ok(day)), ..Known::default() }
    };
    let mut findings = rules::judge(&changed, &analysis, known);
    if trial == Trial::Overload {
        findings.extend(rules::starved(&analysis, [day.short_of_draft, day.smoke_later]));
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    }
    findings.retain(|finding| !trial.supposes(finding.rule));
    if trial == Trial::HalfCharge {
        let whole = analyze(design)?;
        for finding in &mut findings {
            *finding = rules::of_half_a_charge(design, &whole, *finding);
        }
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    }
    let margin = margin(trial, &rules::conditions(&changed, &analysis));
    Ok(Verdict { analysis, findings, margin, chimney_inlet: day.repeating_mean })
}

/// Whether the mild day is another one than that of the design.
pub fn has_mild_day(design: &Design) -> bool {
    design.site.outdoor_temperature < MILD_OUTDOORS
}

/// What is judged of a mild day, or why nothing is.
pub type Mild = Result<DayFigures, Failure>;

/// What is judged of the mild day; none where the design is mild as it stands.
pub fn mild_day(design: &Design, setup: &Setup) -> Option<Result<DayFigures, Failure>> {
    let near = whole(design, setup, None).ok();
    mild_day_near(design, setup, near.as_ref())
}

/// The same, sought near the day of the design.
pub fn mild_day_near(
    design: &Design,
    setup: &Setup,
    near: Option<&Whole>,
) -> Option<Result<DayFigures, Failure>> {
    has_mild_day(design).then(|| figures(&Trial::MildDay.apply(design), setup, near))
}

/// The same of trials that were made.
pub fn mild_of<'a>(
    design: &Design,
    tried: &'a [Tried],
) -> Option<&'a Result<DayFigures, Failure>> {
    let mild = tried.iter().find(|tried| tried.trial == Trial::MildDay)?;
    has_mild_day(design).then_some(&mild.day)
}

fn margin(trial: Trial, conditions: &[Condition]) -> f64 {
    let start = if trial == Trial::ColdStart { Start::Cold } else { Start::Hot };
    let judged = |condition: &&Condition| {
        condition.start == start && (trial != Trial::ColdDay || condition.day == Day::Design)
    };
    conditions.iter().filter(judged).map(|each| each.margin).fold(f64::INFINITY, f64::min)
}

/// The trials, one by one.
#[derive(Clone, Debug)]
pub struct Trials {
    design: Design,
    next: usize,
    /// The day of the design as it stands, once it is known.
    standing: Option<Result<Whole, Failure>>,
}

impl Trials {
    /// All trials of a design.
    pub fn new(design: &Design) -> Self {
        Self { design: design.clone(), next: 0, standing: None }
    }
}

impl Iterator for Trials {
    type Item = Tried;

    fn next(&mut self) -> Option<Tried> {
        let trial = *Trial::ALL.get(self.next)?;
        self.next += 1;
        let Self { design, standing, .. } = self;
        let standing = standing.get_or_insert_with(|| whole(design, &Setup::STANDARD, None));
        Some(try_near(design, trial, standing.as_ref()))
    }
}

/// One trial with its day.
pub fn try_one(design: &Design, trial: Trial) -> Tried {
    try_near(design, trial, whole(design, &Setup::STANDARD, None).as_ref())
}

/// The same where the day of the design as it stands is known: that of a trial is sought near it.
pub fn try_near(design: &Design, trial: Trial, standing: Result<&Whole, &Failure>) -> Tried {
    let day = match (trial, standing) {
        (Trial::ColdDay | Trial::ColdStart, Ok(standing)) => Ok(judged(design, standing)),
        (Trial::ColdDay | Trial::ColdStart, Err(failure)) => Err(failure.clone()),
        _ => figures(&trial.apply(design), &Setup::STANDARD, standing.ok()),
    };
    Tried { trial, day }
}

/// One trial, with a coarse day unless that would pass and the judgment hangs on less than it may
/// be off; then with the day of the design as it stands, which is asked for.
pub(super) fn try_surely<'a>(
    design: &Design,
    trial: Trial,
    standing: impl FnOnce() -> Result<&'a Whole, &'a Failure>,
) -> Tried {
    let coarse = Tried { trial, day: figures(&trial.apply(design), &COARSE, None) };
    let with = |share: f64| {
        let day = coarse.day.clone().map(|day| off(day, share));
        judge(design, &Tried { trial, day }).is_ok_and(|verdict| verdict.passes(trial))
    };
    let is_sure = coarse.day.as_ref().is_ok_and(|day| is_clear(day.least_margin))
        && OFF.into_iter().all(with);
    if is_sure || !with(0.0) { coarse } else { try_near(design, trial, standing()) }
}

fn figures(
    design: &Design,
    setup: &Setup,
    near: Option<&Whole>,
) -> Result<DayFigures, Failure> {
    whole(design, setup, near).map(|day| judged(design, &day))
}

fn judged(design: &Design, Whole { first, repeating }: &Whole) -> DayFigures {
    DayFigures::new(design, &first.state, &repeating.state)
}

/// As words, without rounding.
impl fmt::Display for Tried {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.trial.id())?;
        match &self.day {
            Ok(day) => {
                let walls = usize::from(day.wall_behind.is_some());
                write!(f, " {} {walls}", place_number(day.hottest_place))?;
                day.clone().figures().iter().try_for_each(|figure| write!(f, " {figure}"))
            }
            Err(failure) => write!(f, " failed {}", failure_id(failure)),
        }
    }
}

/// The words are not those of a trial.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotATrial;

impl FromStr for Tried {
    type Err = NotATrial;

    fn from_str(text: &str) -> Result<Self, NotATrial> {
        let mut words = text.split(' ');
        let trial = words.next().and_then(Trial::from_id).ok_or(NotATrial)?;
        let first = words.next().ok_or(NotATrial)?;
        if first == "failed" {
            let failure = words.next().and_then(failure_from_id).ok_or(NotATrial)?;
            return Ok(Self { trial, day: Err(failure) });
        }
        let place = first.parse().map_err(|_| NotATrial)?;
        let has_wall = words.next().ok_or(NotATrial)? == "1";
        let wall_behind = has_wall.then_some(0.0);
        let hottest_place = place_of(place);
        let mut day = DayFigures { hottest_place, wall_behind, ..DayFigures::default() };
        for figure in day.figures() {
            *figure = words.next().and_then(float).ok_or(NotATrial)?;
        }
        Ok(Self { trial, day: Ok(day) })
    }
}
