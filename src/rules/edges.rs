//! Safety at the unfavorable edge of what is known only roughly, with more wood than stated.

use super::day::where_hot;
use super::heat::{Hot, Touch};
use super::{Burning, Figure, Finding, HOTTEST_FACE, Lever, Place, Rule, Severity};
use crate::analysis::day::{FacePlace, LayerPeaks};
use crate::analysis::draft::NaturalFlow;
use crate::analysis::{Analysis, Failure};
use crate::design::field::FieldId;
use crate::design::{ChimneyDuty, Design};
use crate::sources::{
    AIR_OF_OVERLOAD, ASTM_E1602_FACE, CHIMNEY_CLASS, EN_13384, EXPANSION, OVERLOAD_CHARGE,
};
use crate::units::{Quantity, in_celsius};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Wood of an overloaded firing over that of the stated one (–): each firing of the day, burned in
/// the stated time at the stated excess air.
///
/// # Source
///
/// [`crate::sources::OVERLOAD_CHARGE`].
pub const OVERLOAD: f64 = 1.25;

/// Air over stoichiometric air with which fires in tested chambers burn at least (–).
///
/// # Source
///
/// [`crate::sources::AIR_OF_OVERLOAD`].
pub const TESTED_AIR: f64 = 1.95;

/// The same below which a fire is starved (–): the low end of what flames burn with. The flame of a
/// burn takes a third more air than its mean, so that its height then has hardly any to spare.
///
/// # Source
///
/// [`crate::sources::AIR_OF_OVERLOAD`].
pub const LEAST_AIR: f64 = 1.5;

/// Air over stoichiometric air that a fire gets with its air fully open (–), at most what is stated;
/// nothing where no flow holds itself.
pub fn air_it_gets(analysis: &Analysis) -> f64 {
    let fire = &analysis.height_of_fire;
    air_of(&fire.natural_flows, fire.margin, fire.excess_air_ratio)
}

/// The same of the flows at which a heater balances, with its margin (Pa) at the stated air.
pub(super) fn air_of(flows: &[NaturalFlow], margin: f64, stated: f64) -> f64 {
    match flows.iter().rfind(|flow| flow.stable) {
        Some(flow) => flow.excess_air_ratio.min(stated),
        None if margin < 0.0 => 0.0,
        None => stated,
    }
}

/// How much it weighs that a fire, overloaded or not, asks for more air than the chimney pulls. In truth it
/// then takes the air that it gets: as long as the chimney pulls that much, smoke stays inside, and
/// what counts is whether the air burns the wood.
pub(super) fn weight_of_starving(stated: f64, gets: f64) -> Severity {
    if gets < LEAST_AIR.min(stated) {
        Severity::DoNotBuild
    } else if gets < TESTED_AIR.min(stated) {
        Severity::LookAgain
    } else {
        Severity::GoodToKnow
    }
}

/// An overload that is short of draft for a time, and smokes for a time (s), with the analysis of the
/// overloaded heater.
pub fn starved(analysis: &Analysis, [short, smoke]: [f64; 2]) -> Option<Finding> {
    let fire = &analysis.height_of_fire;
    let air = (fire.excess_air_ratio, air_it_gets(analysis));
    let times = [short, smoke].map(|time| TimeEdge { nominal: time, edge: time });
    judged_starved(times, air)
}

fn judged_starved(
    [short, smoke]: [TimeEdge; 2],
    (stated, gets): (f64, f64),
) -> Option<Finding> {
    let TimeEdge { nominal, edge } = short;
    let quantity = Quantity::Duration;
    let starved = Judged { hazard: Hazard::Starved, quantity, nominal, edge, limit: 0.0 };
    let less = Lever { field: FieldId::Charge, raise: false };
    let found = starved.finding(Place::Fire, less)?;
    let by_air = weight_of_starving(stated, gets);
    let severity = if smoke.nominal > 0.0 {
        Severity::DoNotBuild
    } else if nominal <= 0.0 {
        // Where only the edge is short, the limit lies inside the band.
        by_air.min(Severity::LookAgain)
    } else {
        by_air
    };
    let may_smoke = if smoke.edge > 0.0 { Severity::LookAgain } else { Severity::GoodToKnow };
    let severity = severity.max(may_smoke);
    Some(Finding { severity, ..found })
}

/// Share of cases that may be worse than what is judged (–).
pub const BEYOND: f64 = 0.05;

/// A temperature as it is reckoned, and beyond which it is worse in 5 of 100 cases.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TemperatureEdge {
    /// With everything as it stands (K in memory, °C in files).
    #[serde(rename = "nominal_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub nominal: f64,
    /// At the unfavorable edge (K in memory, °C in files).
    #[serde(rename = "edge_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub edge: f64,
}

impl TemperatureEdge {
    /// Whether it belongs to nothing that is there.
    const fn is_absent(&self) -> bool {
        self.nominal <= 0.0
    }

    /// The hotter of two.
    pub(super) const fn or(self, other: Self) -> Self {
        Self { nominal: self.nominal.max(other.nominal), edge: self.edge.max(other.edge) }
    }
}

/// A time as it is reckoned, and beyond which it is worse in 5 of 100 cases.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TimeEdge {
    /// With everything as it stands (s).
    #[serde(rename = "nominal_s")]
    pub nominal: f64,
    /// At the unfavorable edge (s).
    #[serde(rename = "edge_s")]
    pub edge: f64,
}

/// What is judged for safety at its unfavorable edge. Peaks are those of the day that repeats
/// with [`OVERLOAD`]; the wall at the mouth, which more wood would warm, is that of the height of
/// the first fire with the wood that is stated.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Edges {
    /// Number of samples.
    pub samples: usize,
    /// Start of the random numbers.
    pub seed: u64,
    /// Samples at which no figures were found.
    pub failed: usize,
    /// Hottest gas into the chimney.
    pub peak_gas: TemperatureEdge,
    /// Hottest gas out of the firebox.
    pub peak_firebox: TemperatureEdge,
    /// Hottest face to the room.
    pub hottest_face: TemperatureEdge,
    /// Where that is.
    pub hottest_place: FacePlace,
    /// Time of a period in which the fire asks for more air than the chimney pulls.
    pub short_of_draft: TimeEdge,
    /// Time of that in which it pulls less than the wood needs.
    pub smoke_back: TimeEdge,
    /// Air over stoichiometric air that it then gets, at most what is stated (–).
    pub air_ratio: f64,
    /// Wall at the mouth, whose edge is the cold one.
    pub mouth_wall: TemperatureEdge,
    /// Hottest face of the wall behind; 0 K where there is none.
    #[serde(default, skip_serializing_if = "TemperatureEdge::is_absent")]
    pub wall_behind: TemperatureEdge,
    /// Hottest upright face; 0 K where none was computed.
    #[serde(default, skip_serializing_if = "TemperatureEdge::is_absent")]
    pub upright: TemperatureEdge,
    /// Hottest top of a bench; 0 K where there is none.
    #[serde(default, skip_serializing_if = "TemperatureEdge::is_absent")]
    pub bench: TemperatureEdge,
    /// Hottest side of each layer, as it is reckoned.
    pub layers: LayerPeaks,
    /// The same at its edge.
    pub layers_edge: LayerPeaks,
    /// Share of cases in which that wall is below the dew point (–).
    pub wet_wall_fraction: f64,
    /// Share of cases in which it is below freezing (–).
    pub frozen_wall_fraction: f64,
}

/// What can go wrong there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hazard {
    /// Gas hotter than the rating of the chimney.
    Rating,
    /// A face hotter than a masonry heater may have.
    Face,
    /// The fire asks for more air than the chimney pulls.
    Starved,
    /// Wall at the mouth below the dew point.
    WetWall,
    /// Wall at the mouth below freezing.
    FrozenWall,
    /// The core grows more than its gap holds.
    Growth,
    /// A part of the heater, or the wall behind it, beyond what it bears.
    TooHot(Hot),
    /// Something that is touched too hot.
    Touch(Touch),
}

/// At what a hazard was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// With everything as it stands.
    Nominal,
    /// In more than 5 of 100 cases.
    Edge,
}

/// A hazard with its figures (SI) and its limit.
pub(super) struct Judged {
    hazard: Hazard,
    quantity: Quantity,
    nominal: f64,
    edge: f64,
    limit: f64,
}

impl Judged {
    pub(super) const fn hot(hazard: Hazard, figure: TemperatureEdge, limit: f64) -> Self {
        let TemperatureEdge { nominal, edge } = figure;
        Self { hazard, quantity: Quantity::Temperature, nominal, edge, limit }
    }

    /// A growth and the gap that must hold it (m).
    pub(super) const fn growth([nominal, edge]: [f64; 2], limit: f64) -> Self {
        Self { hazard: Hazard::Growth, quantity: Quantity::Size, nominal, edge, limit }
    }

    /// A share of cases, which is at its edge what it is.
    const fn share(hazard: Hazard, share: f64) -> Self {
        let quantity = Quantity::Share;
        Self { hazard, quantity, nominal: 0.0, edge: share, limit: BEYOND }
    }

    /// What it comes to; nothing where the whole band passes.
    pub(super) fn finding(&self, place: Place, lever: Lever) -> Option<Finding> {
        let (standing, found) = if self.limit < self.nominal {
            (Standing::Nominal, self.nominal)
        } else if self.limit < self.edge {
            (Standing::Edge, self.edge)
        } else {
            return None;
        };
        let severity = match (self.hazard, standing) {
            (_, Standing::Nominal) => Severity::DoNotBuild,
            (_, Standing::Edge) => Severity::LookAgain,
        };
        let figure = |value| Figure { value, quantity: self.quantity };
        Some(Finding {
            rule: Rule::AtTheEdge(self.hazard, standing),
            severity,
            place,
            found: figure(found),
            limit: Some(figure(self.limit)),
            lever: Some(lever),
            source: match self.hazard {
                Hazard::Rating => &CHIMNEY_CLASS,
                Hazard::Face => &ASTM_E1602_FACE,
                Hazard::Starved => &AIR_OF_OVERLOAD,
                Hazard::WetWall | Hazard::FrozenWall => &EN_13384,
                Hazard::Growth => &EXPANSION,
                Hazard::TooHot(_) | Hazard::Touch(_) => &OVERLOAD_CHARGE,
            },
        })
    }
}

/// A day with an overload that could not be computed.
pub(super) fn without_edges(failure: &Failure) -> Option<Finding> {
    // Told at the inputs.
    if matches!(failure, Failure::Inputs(_)) {
        return None;
    }
    Some(Finding {
        rule: Rule::EdgeNotFound,
        severity: Severity::LookAgain,
        place: Place::Whole,
        found: Figure { value: 0.0, quantity: Quantity::Count },
        limit: None,
        lever: None,
        source: &OVERLOAD_CHARGE,
    })
}

/// Judges the edges; what is found already with everything as it is stated is not said again.
pub(super) fn check(design: &Design, edges: &Edges, findings: &mut Vec<Finding>) {
    let has = |rules: &[Rule]| findings.iter().any(|finding| rules.contains(&finding.rule));
    let hot = has(&[Rule::FaceTooHot]);
    let smokes = findings.iter().any(|finding| finding.rule.smokes_as_stated());
    let of_the_charge =
        |of: fn(Burning) -> Rule| has(&[of(Burning::Charge), of(Burning::WholeBurn)]);
    let cold = of_the_charge(Rule::ChimneyWallWet) || of_the_charge(Rule::ChimneyWallFreezing);
    let raise = |field| Lever { field, raise: true };
    let rated = design.chimney.rated_temperature;
    let rating = Judged::hot(Hazard::Rating, edges.peak_gas, rated);
    findings.extend(rating.finding(Place::ChimneyInlet, raise(FieldId::RunLength)));
    if !hot {
        let (place, lever) = where_hot(edges.hottest_place);
        let face = Judged::hot(Hazard::Face, edges.hottest_face, HOTTEST_FACE);
        findings.extend(face.finding(place, lever));
    }
    if !smokes {
        let air = (design.fire.excess_air_ratio, edges.air_ratio);
        findings.extend(judged_starved([edges.short_of_draft, edges.smoke_back], air));
    }
    if !cold {
        let dry = design.chimney.duty == ChimneyDuty::Dry;
        let frozen = Judged::share(Hazard::FrozenWall, edges.frozen_wall_fraction);
        let wet = Judged::share(Hazard::WetWall, edges.wet_wall_fraction);
        let insulate =
            |judged: Judged| judged.finding(Place::ChimneyMouth, raise(FieldId::Insulation));
        let wet = || insulate(wet).filter(|_| dry);
        findings.extend(insulate(frozen).or_else(wet));
    }
}
