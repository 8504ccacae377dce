//! Judgments as data: each rule is a cheap pure function of design and analysis.
//!
//! A rule computes nothing that a result table would want too; its sentences stand in `words`.

mod around;
mod chimney;
mod cleanouts;
mod clearances;
mod day;
mod draft;
mod edges;
mod firebox;
mod gas;
mod hearth;
mod heat;
mod house;
mod inputs;
mod levers;
mod openings;
mod sets;
mod structure;

pub use around::Around;
pub use clearances::{FLUX_OF_GLASS, REACH_OF_GLASS, given_off};
pub use day::HOTTEST_FACE;
pub use draft::{Condition, GAS_SPEED, Start, WANTED, conditions, wanted};
pub use edges::{
    BEYOND, Edges, Hazard, LEAST_AIR, OVERLOAD, Standing, TESTED_AIR, TemperatureEdge,
    TimeEdge, air_it_gets, starved,
};
pub use gas::{ENTRY_WINDOW, PEAK_ALLOWANCE, of_half_a_charge};
pub use heat::{Hot, Touch, touchable};
pub use house::{InHouse, WARMEST_ROOM};
pub use levers::levers;
pub use openings::STAYS_OPEN;
pub use sets::{Matter, rule_of};
pub use structure::{PATH_OF_DEFINITION, path_of_definition};

use crate::analysis::conditions::{LEAST_SUCTION, MILD_OUTDOORS};
use crate::analysis::day::{DayState, FacePlace, LayerPeaks};
use crate::analysis::extrapolation::Formula;
use crate::analysis::house::overheating;
use crate::analysis::{Analysis, Failure};
use crate::design::Design;
use crate::design::field::FieldId;
use crate::sources::Source;
use crate::units::Quantity;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How much a finding weighs, the heaviest last.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Good to know.
    GoodToKnow,
    /// Look again.
    LookAgain,
    /// Do not build.
    DoNotBuild,
}

impl Severity {
    /// Name in messages.
    pub const fn id(self) -> &'static str {
        match self {
            Self::GoodToKnow => "good_to_know",
            Self::LookAgain => "look_again",
            Self::DoNotBuild => "do_not_build",
        }
    }

    /// The one of that name.
    pub fn from_id(id: &str) -> Option<Self> {
        [Self::GoodToKnow, Self::LookAgain, Self::DoNotBuild].into_iter().find(|s| s.id() == id)
    }
}

/// The three questions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Question {
    /// Will it draw?
    Draw,
    /// Will the heat stay?
    Heat,
    /// Is it safe?
    Safe,
}

impl Question {
    /// All three, in the order of the page.
    pub const ALL: [Self; 3] = [Self::Draw, Self::Heat, Self::Safe];

    /// Name in ids and messages.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Draw => "draw",
            Self::Heat => "heat",
            Self::Safe => "safe",
        }
    }

    /// The one of that name.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|question| question.id() == id)
    }
}

/// Where in the drawing a finding belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// The heater as a whole.
    Whole,
    /// Wood and fire.
    Fire,
    /// Firebox.
    Firebox,
    /// Loading door.
    Door,
    /// A run, from 0.
    Run(usize),
    /// End of the last run.
    RunsOutlet,
    /// Chimney at its foot.
    ChimneyInlet,
    /// Chimney at its mouth.
    ChimneyMouth,
    /// Side face.
    Side,
    /// Back.
    Back,
    /// Room in front of the door.
    Front,
    /// Between cap and ceiling.
    Ceiling,
    /// Chimney along its height.
    Chimney,
    /// Below the heater.
    Below,
}

/// A day on which draft is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Day {
    /// Outdoors as the design states.
    Design,
    /// [`crate::analysis::conditions::MILD_OUTDOORS`].
    Mild,
}

/// Under which condition draft was judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Judged {
    /// The day; never a mild one where the design itself is at least as warm.
    pub day: Day,
    /// Whether less suction of the house was entered than is judged with.
    pub suction_raised: bool,
    /// Whether the heater is due for cleaning.
    pub due: bool,
}

impl Judged {
    fn new(design: &Design, day: Day) -> Self {
        let warm = MILD_OUTDOORS <= design.site.outdoor_temperature;
        Self {
            day: if warm { Day::Design } else { day },
            suction_raised: design.site.house_suction < LEAST_SUCTION,
            due: false,
        }
    }
}

/// What a finding is about. One sentence each in `words`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rule {
    /// Losses eat up the draft.
    DraftNegative(Judged),
    /// Draft with too little to spare.
    DraftReserveSmall(Judged),
    /// No flow at which the heater runs.
    NoRunningFlow(Judged),
    /// A second state in which the fire could stall.
    SecondFlow(Judged),
    /// A single flow that does not hold itself.
    UnheldFlow(Judged),
    /// A kindling fire does not draw in the cold heater.
    ColdStartWeak(Judged),
    /// Gas into the chimney hotter than its rating, at the peak of a firing.
    GasAboveChimneyRating(Moment),
    /// Gas into the chimney so hot that wood is wasted.
    GasWasteful(Moment),
    /// Gas into the chimney on the hot side.
    GasWarm(Moment),
    /// Gas into the chimney too cool.
    GasCool(Moment),
    /// Wall at the mouth below the dew point.
    ChimneyWallWet(Burning),
    /// Wall at the mouth below freezing.
    ChimneyWallFreezing(Burning),
    /// Gas too slow in a run.
    GasSlow,
    /// Gas too fast in a run.
    GasFast,
    /// Firebox surface small for the charge.
    FireboxSmall,
    /// Firebox surface large for the charge.
    FireboxLarge,
    /// Base of the firebox small for the charge.
    FireboxBaseSmall,
    /// Firebox low for the charge.
    FireboxLow,
    /// More wood than the firebox holds.
    FireboxOverfull,
    /// Base more than twice as long as wide.
    FireboxNarrow,
    /// More glass than the route allows.
    GlassLarge,
    /// Combustion air enters too fast.
    InletFast,
    /// Path shorter than the standard route asks.
    PathShort,
    /// No run at all.
    NoRuns,
    /// Side face too close.
    SideClose,
    /// Back too close.
    BackClose,
    /// Something in front of the door.
    FrontClose,
    /// Ceiling too close.
    CeilingClose,
    /// No clearance rules were applied.
    ClearancesNotChecked,
    /// A formula was used outside its range.
    OutsideFormula(Formula),
    /// An input is outside its usual range.
    InputUnusual(FieldId),
    /// Wood too wet.
    WoodWet,
    /// A fire stated with less air than wood burns well with.
    AirScarce,
    /// Less of the wood's heat is of use than a masonry heater must give.
    HeatWasted,
    /// Heat of the day does not cover the house on the design day.
    HouseNotCovered,
    /// The chimney pulls less air than the wood needs for some minutes of the day's burn.
    SmokeBack(Judged),
    /// It does on a mild day, while a cold heater is lit and no longer.
    SmokeAtLighting(Judged),
    /// It pulls less than stated for some minutes, but enough to burn.
    ShortOfDraft(Judged),
    /// The fire goes out for want of draft.
    FireGoesOut(Judged),
    /// No firing day was found.
    DayNotFound(Judged),
    /// Its day with more wood, and what is uncertain, could not be computed.
    EdgeNotFound,
    /// How heater and house get on.
    InHouse(InHouse),
    /// A face to the room above what a masonry heater may have.
    FaceTooHot,
    /// A part of the heater, or the wall behind it, beyond what it bears when the days repeat.
    TooHot(Hot),
    /// Something that is touched too hot.
    Touch(Touch),
    /// Something beyond its limit at the unfavorable edge of what is known only roughly.
    AtTheEdge(Hazard, Standing),
    /// What stands around, lies below or carries the heater.
    Around(Around),
}

/// A state of the heater to which a temperature belongs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Moment {
    /// The height of the fire, first fire.
    HeightOfFire,
    /// Mean over the burn, weighted by the flow, on a day.
    BurnMean(Day),
}

/// What burns when the wall at the mouth is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Burning {
    /// The stated charge, at the height of the first fire.
    Charge,
    /// [`crate::analysis::otherwise::HALF_CHARGE`], likewise.
    HalfCharge,
    /// The last of the char, when the days repeat.
    LastChar,
    /// The stated charge from lighting to the last char, when the days repeat: at its warmest.
    WholeBurn,
    /// The same for more than half of that time.
    MostOfBurn,
}

impl Burning {
    const fn wet_id(self) -> &'static str {
        match self {
            Self::Charge => "chimney-wall-wet",
            Self::HalfCharge => "half-charge-chimney-wall-wet",
            Self::LastChar => "last-char-chimney-wall-wet",
            Self::WholeBurn => "whole-burn-chimney-wall-wet",
            Self::MostOfBurn => "most-of-burn-chimney-wall-wet",
        }
    }

    const fn freezing_id(self) -> &'static str {
        match self {
            Self::Charge => "chimney-wall-freezing",
            Self::HalfCharge => "half-charge-chimney-wall-freezing",
            Self::LastChar => "last-char-chimney-wall-freezing",
            Self::WholeBurn => "whole-burn-chimney-wall-freezing",
            Self::MostOfBurn => "most-of-burn-chimney-wall-freezing",
        }
    }
}

/// What is judged of the firing day.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct DayFigures {
    /// Gas into the chimney, mean over the first burn from cold (K).
    pub first_mean: f64,
    /// And over the burn when the days repeat (K).
    pub repeating_mean: f64,
    /// Longest time of a burn in which the chimney pulls less air than the wood needs (s).
    pub smoke_back: f64,
    /// The same, but for the time in which the cold heater is lit (s).
    pub smoke_later: f64,
    /// Longest time of a burn in which it pulls less than stated (s).
    pub short_of_draft: f64,
    /// Least draft to spare of both burns (Pa).
    pub least_margin: f64,
    /// Hottest face to the room (K).
    pub hottest_face: f64,
    /// Where that is.
    pub hottest_place: FacePlace,
    /// Hottest face of the wall behind when the days repeat, where there is one (K).
    pub wall_behind: Option<f64>,
    /// Hottest upright face (K).
    pub upright: f64,
    /// Hottest top of a bench (K); 0 where there is none.
    pub bench: f64,
    /// Hottest side of each layer when the days repeat (K).
    pub layers: LayerPeaks,
    /// Wall at the mouth at the end of a burn when the days repeat (K); 0 where that is not known.
    pub burned_out_wall: f64,
    /// The same wall at its warmest while the fire burns (K); 0 where that is not known.
    pub warmest_wall: f64,
    /// Share of the burns in which it is below the dew point (–).
    pub wet_share: f64,
    /// Share of the wood's heat that is of use when the days repeat (–).
    pub efficiency: f64,
    /// By how much the room may get warmer in a light, a middle and a heavy house when the days
    /// repeat (K); 0 where the house has no loss.
    pub rises: [f64; 3],
}

impl DayFigures {
    /// Every figure, in the order of a message.
    pub fn figures(&mut self) -> Vec<&mut f64> {
        let Self {
            first_mean,
            repeating_mean,
            smoke_back,
            smoke_later,
            short_of_draft,
            least_margin,
            hottest_face,
            hottest_place: _,
            wall_behind,
            upright,
            bench,
            layers,
            burned_out_wall,
            warmest_wall,
            wet_share,
            efficiency,
            rises,
        } = self;
        let mut figures =
            vec![first_mean, repeating_mean, smoke_back, smoke_later, short_of_draft];
        figures.extend([least_margin, hottest_face, upright, bench]);
        figures.extend([burned_out_wall, warmest_wall, wet_share, efficiency]);
        figures.extend(rises);
        figures.extend(wall_behind);
        figures.extend(layers.figures());
        figures
    }

    /// What is judged of the first firing from cold and of the day that repeats.
    pub fn new(design: &Design, first: &DayState, repeating: &DayState) -> Self {
        let warm = overheating(design, repeating, design.site.outdoor_temperature);
        Self {
            first_mean: first.burn_mean.chimney_inlet,
            repeating_mean: repeating.burn_mean.chimney_inlet,
            smoke_back: first.draft.smoke_back_s.max(repeating.draft.smoke_back_s),
            smoke_later: (first.draft.smoke_back_s - first.draft.kindling_smoke_s)
                .max(repeating.draft.smoke_back_s),
            short_of_draft: first.draft.short_of_draft_s.max(repeating.draft.short_of_draft_s),
            least_margin: first
                .draft
                .least_margin_pascals
                .min(repeating.draft.least_margin_pascals),
            hottest_face: repeating.peak.surface.temperature,
            hottest_place: repeating.peak.surface_place,
            wall_behind: repeating.peak.wall_behind.map(|at| at.temperature),
            upright: repeating.peak.upright,
            bench: repeating.peak.bench,
            layers: repeating.peak.layers,
            burned_out_wall: repeating.wall_when_burned_out().unwrap_or_default(),
            warmest_wall: repeating.draft.warmest_mouth_wall,
            wet_share: repeating.draft.wet_share(),
            efficiency: repeating.efficiency_lower,
            rises: warm.rises.unwrap_or_default(),
        }
    }
}

impl Hazard {
    /// Short name where the design as it stands is at fault.
    const fn overload_id(self) -> &'static str {
        match self {
            Self::Rating => "overload-above-chimney-rating",
            Self::Face => "overload-face-too-hot",
            Self::Starved => "overload-short-of-draft",
            Self::WetWall => "chimney-wall-wet",
            Self::FrozenWall => "chimney-wall-freezing",
            Self::Growth => "overload-gap-small",
            Self::TooHot(hot) => hot.overload_id(),
            Self::Touch(touch) => touch.overload_id(),
        }
    }

    /// Short name where it is only at the edge.
    const fn edge_id(self) -> &'static str {
        match self {
            Self::Rating => "overload-may-pass-chimney-rating",
            Self::Face => "overload-face-may-be-too-hot",
            Self::Starved => "overload-may-be-short-of-draft",
            Self::WetWall => "chimney-wall-may-be-wet",
            Self::FrozenWall => "chimney-wall-may-freeze",
            Self::Growth => "overload-gap-may-be-small",
            Self::TooHot(hot) => hot.edge_id(),
            Self::Touch(touch) => touch.edge_id(),
        }
    }
}

impl Rule {
    /// Short name, what is wrong, for files and tests.
    pub const fn id(self) -> &'static str {
        match self {
            Self::DraftNegative(Judged { due: false, .. }) => "draft-negative",
            Self::DraftNegative(Judged { due: true, .. }) => "due-draft-negative",
            Self::DraftReserveSmall(Judged { due: false, .. }) => "draft-reserve-small",
            Self::DraftReserveSmall(Judged { due: true, .. }) => "due-draft-reserve-small",
            Self::NoRunningFlow(_) => "no-running-flow",
            Self::SecondFlow(_) => "second-flow",
            Self::UnheldFlow(_) => "unheld-flow",
            Self::ColdStartWeak(_) => "cold-start-weak",
            Self::GasAboveChimneyRating(_) => "gas-above-chimney-rating",
            Self::GasWasteful(_) => "gas-wasteful",
            Self::GasWarm(_) => "gas-warm",
            Self::GasCool(_) => "gas-cool",
            Self::ChimneyWallWet(burning) => burning.wet_id(),
            Self::ChimneyWallFreezing(burning) => burning.freezing_id(),
            Self::GasSlow => "gas-slow",
            Self::GasFast => "gas-fast",
            Self::FireboxSmall => "firebox-small",
            Self::FireboxLarge => "firebox-large",
            Self::FireboxBaseSmall => "firebox-base-small",
            Self::FireboxLow => "firebox-low",
            Self::FireboxOverfull => "firebox-overfull",
            Self::FireboxNarrow => "firebox-narrow",
            Self::GlassLarge => "glass-large",
            Self::InletFast => "inlet-fast",
            Self::PathShort => "path-short",
            Self::NoRuns => "no-runs",
            Self::SideClose => "side-close",
            Self::BackClose => "back-close",
            Self::FrontClose => "front-close",
            Self::CeilingClose => "ceiling-close",
            Self::ClearancesNotChecked => "clearances-not-checked",
            Self::OutsideFormula(_) => "outside-formula",
            Self::InputUnusual(_) => "input-unusual",
            Self::WoodWet => "wood-wet",
            Self::AirScarce => "air-scarce",
            Self::HeatWasted => "heat-wasted",
            Self::HouseNotCovered => "house-not-covered",
            Self::SmokeBack(_) => "smoke-back",
            Self::SmokeAtLighting(_) => "smoke-at-lighting",
            Self::ShortOfDraft(_) => "short-of-draft",
            Self::FireGoesOut(_) => "fire-goes-out",
            Self::DayNotFound(_) => "day-not-found",
            Self::EdgeNotFound => "edge-not-found",
            Self::InHouse(rule) => rule.id(),
            Self::FaceTooHot => "face-too-hot",
            Self::TooHot(hot) => hot.id(),
            Self::Touch(touch) => touch.id(),
            Self::AtTheEdge(hazard, Standing::Nominal) => hazard.overload_id(),
            Self::AtTheEdge(hazard, Standing::Edge) => hazard.edge_id(),
            Self::Around(rule) => rule.id(),
        }
    }

    /// The questions that it answers, the one to which it belongs first. What lets smoke and carbon
    /// monoxide into the room answers that of safety too.
    pub const fn questions(self) -> &'static [Question] {
        const DRAW: &[Question] = &[Question::Draw];
        const SMOKE: &[Question] = &[Question::Draw, Question::Safe];
        const HEAT: &[Question] = &[Question::Heat];
        const SAFE: &[Question] = &[Question::Safe];
        match self {
            Self::DraftNegative(_)
            | Self::NoRunningFlow(_)
            | Self::ColdStartWeak(_)
            | Self::SmokeBack(_)
            | Self::SmokeAtLighting(_)
            | Self::FireGoesOut(_)
            | Self::DayNotFound(_)
            | Self::EdgeNotFound => SMOKE,
            Self::DraftReserveSmall(_)
            | Self::SecondFlow(_)
            | Self::UnheldFlow(_)
            | Self::GasSlow
            | Self::GasFast
            | Self::ShortOfDraft(_)
            | Self::InHouse(InHouse::SuctionLow)
            | Self::AtTheEdge(Hazard::Starved, _)
            | Self::InletFast => DRAW,
            Self::GasWasteful(_)
            | Self::GasWarm(_)
            | Self::FireboxSmall
            | Self::FireboxLarge
            | Self::FireboxBaseSmall
            | Self::FireboxLow
            | Self::FireboxNarrow
            | Self::PathShort
            | Self::NoRuns
            | Self::OutsideFormula(_)
            | Self::WoodWet
            | Self::HeatWasted
            | Self::InHouse(InHouse::RoomOverheats)
            | Self::HouseNotCovered => HEAT,
            Self::GasAboveChimneyRating(_)
            | Self::GasCool(_)
            | Self::ChimneyWallWet(_)
            | Self::ChimneyWallFreezing(_)
            | Self::GlassLarge
            | Self::FireboxOverfull
            | Self::AirScarce
            | Self::SideClose
            | Self::BackClose
            | Self::FrontClose
            | Self::CeilingClose
            | Self::FaceTooHot
            | Self::TooHot(_)
            | Self::Touch(_)
            | Self::InHouse(InHouse::DamperShuts | InHouse::SuctionHigh)
            | Self::AtTheEdge(..)
            | Self::Around(_)
            | Self::ClearancesNotChecked => SAFE,
            Self::InputUnusual(id) => match inputs::question(id) {
                Question::Draw => DRAW,
                Question::Heat => HEAT,
                Question::Safe => SAFE,
            },
        }
    }

    /// The question to which it belongs.
    pub const fn question(self) -> Question {
        match self.questions() {
            [first, ..] => *first,
            [] => Question::Safe,
        }
    }

    /// Whether its question has no answer as long as it speaks.
    const fn leaves_open(self) -> bool {
        match self {
            Self::ClearancesNotChecked | Self::DayNotFound(_) | Self::EdgeNotFound => true,
            Self::Around(Around::NotStated(hazard) | Around::NothingChecked(hazard)) => {
                hazard.must_be_known()
            }
            _ => false,
        }
    }

    /// Whether the fire asks for too much air on the day of the design already.
    const fn smokes_as_stated(self) -> bool {
        matches!(
            self,
            Self::SmokeBack(Judged { day: Day::Design, .. })
                | Self::ShortOfDraft(Judged { day: Day::Design, .. })
        )
    }
}

/// A figure of a finding (SI) with its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// Value in SI.
    pub value: f64,
    /// Kind of quantity.
    pub quantity: Quantity,
}

/// Which input to move, and which way, to mend a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Lever {
    /// The input.
    pub field: FieldId,
    /// Whether more of it helps.
    pub raise: bool,
}

/// One judgment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Finding {
    /// What it is about.
    pub rule: Rule,
    /// How much it weighs.
    pub severity: Severity,
    /// Where it belongs.
    pub place: Place,
    /// What was found.
    pub found: Figure,
    /// The limit that it passed, where there is one.
    pub limit: Option<Figure>,
    /// What to move.
    pub lever: Option<Lever>,
    /// Where the limit comes from.
    pub source: &'static Source,
}

/// Answer to one of the three questions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Answer {
    /// What was checked passed.
    Yes,
    /// Something to look at again.
    LookAgain,
    /// Not as it stands.
    No,
    /// Too little is known or checked.
    NotEnoughKnown,
}

impl Answer {
    const ALL: [Self; 4] = [Self::Yes, Self::LookAgain, Self::No, Self::NotEnoughKnown];

    /// Name in messages.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Yes => "yes",
            Self::LookAgain => "look_again",
            Self::No => "no",
            Self::NotEnoughKnown => "not_enough_known",
        }
    }

    /// The one of that name.
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|answer| answer.id() == id)
    }
}

/// What took long to compute, or why it could not be; nothing as long as it is not known.
pub type Computed<'a, T> = Option<Result<&'a T, &'a Failure>>;

/// What is known of a design beside its analysis; what takes longer is not known yet. Where it could
/// not be computed there is no yes.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Known<'a> {
    /// The firing day: the gas into the chimney is judged on its burns instead of the height of the
    /// fire.
    pub day: Computed<'a, DayFigures>,
    /// The firing day on a mild day: the heater is lit on such days too. Nothing where the design is
    /// mild as it stands.
    pub mild: Computed<'a, DayFigures>,
    /// Safety at its unfavorable edge: the chimney is judged on the peak with an overload instead
    /// of an allowance for it.
    pub edges: Computed<'a, Edges>,
}

impl<'a> Known<'a> {
    /// The day of the design, where it was found.
    pub(crate) fn found_day(&self) -> Option<&'a DayFigures> {
        self.day?.ok()
    }

    /// The edges, where they were found.
    pub(crate) fn found_edges(&self) -> Option<&'a Edges> {
        self.edges?.ok()
    }
}

/// All findings of a design of which nothing more is known, the heaviest first.
pub fn check(design: &Design, analysis: &Analysis) -> Vec<Finding> {
    judge(design, analysis, Known::default())
}

/// All findings of a design, the heaviest first.
pub fn judge(design: &Design, analysis: &Analysis, known: Known<'_>) -> Vec<Finding> {
    let mut findings = Vec::new();
    draft::check(design, analysis, &mut findings);
    gas::check(design, (analysis, known), &mut findings);
    day::check(design, (analysis, known), &mut findings);
    match known.edges {
        Some(Ok(edges)) => edges::check(design, edges, &mut findings),
        // Without the day itself it is told already.
        Some(Err(failure)) if !matches!(known.day, Some(Err(_))) => {
            findings.extend(edges::without_edges(failure));
        }
        Some(Err(_)) | None => {}
    }
    heat::check(design, known, &mut findings);
    if let Some(edges) = known.found_edges() {
        heat::check_edges(design, edges, &mut findings);
    }
    heat::check_stated(design, &mut findings);
    openings::check(design, analysis, &mut findings);
    firebox::check(design, analysis, &mut findings);
    clearances::check(design, (analysis, known), &mut findings);
    hearth::check(design, &mut findings);
    chimney::check(design, &mut findings);
    cleanouts::check(design, &mut findings);
    structure::check(design, (analysis, known), &mut findings);
    sets::check(design.site.rule_set, &mut findings);
    inputs::check(design, analysis, &mut findings);
    house::check(design, (analysis, known), &mut findings);
    heaviest_first(&findings)
}

/// In the order of their weight, among equals in their own.
fn heaviest_first(findings: &[Finding]) -> Vec<Finding> {
    let weights = [Severity::DoNotBuild, Severity::LookAgain, Severity::GoodToKnow].into_iter();
    let of = |weight| findings.iter().filter(move |finding| finding.severity == weight);
    weights.flat_map(of).copied().collect()
}

/// The finding that decides a question: the heaviest of those that answer it, the first of the list
/// among equals; none when nothing speaks against a yes.
pub fn deciding(question: Question, findings: &[Finding]) -> Option<&Finding> {
    let mine =
        || findings.iter().filter(|finding| finding.rule.questions().contains(&question));
    let worst = mine().map(|finding| finding.severity).max()?;
    let first = mine().find(|finding| finding.severity == worst);
    let unchecked = mine().find(|finding| finding.rule.leaves_open());
    match worst {
        Severity::DoNotBuild => first,
        Severity::LookAgain => unchecked.or(first),
        Severity::GoodToKnow => unchecked,
    }
}

/// Answer to a question, from the finding that decides it.
pub fn answer(question: Question, findings: &[Finding]) -> Answer {
    match deciding(question, findings) {
        None => Answer::Yes,
        Some(finding) if finding.severity == Severity::DoNotBuild => Answer::No,
        Some(finding) if finding.rule.leaves_open() => Answer::NotEnoughKnown,
        Some(_) => Answer::LookAgain,
    }
}
