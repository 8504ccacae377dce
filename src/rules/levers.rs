//! What a builder can move to mend a finding, and which findings are one matter.

use super::{Around, Burning, Finding, Hazard, Hot, InHouse, Lever, Rule, Standing, Touch};
use crate::analysis::extrapolation::Formula;
use crate::design::field::FieldId;

const fn more(field: FieldId) -> Lever {
    Lever { field, raise: true }
}

const fn less(field: FieldId) -> Lever {
    Lever { field, raise: false }
}

const PULL: &[Lever] = &[
    less(FieldId::RunCount),
    more(FieldId::MouthHeight),
    more(FieldId::RunWidth),
    more(FieldId::RunHeight),
    more(FieldId::FlueWidth),
    less(FieldId::RunLength),
    more(FieldId::Insulation),
];
const COLD_PULL: &[Lever] = &[
    more(FieldId::Bypass),
    less(FieldId::RunCount),
    more(FieldId::MouthHeight),
    more(FieldId::RunWidth),
    more(FieldId::RunHeight),
    more(FieldId::FlueWidth),
];
const COOLER_GAS: &[Lever] =
    &[more(FieldId::RunCount), more(FieldId::RunLength), less(FieldId::Charge)];
const WARMER_GAS: &[Lever] =
    &[less(FieldId::RunCount), less(FieldId::RunLength), more(FieldId::Charge)];
const WARMER_FLUE: &[Lever] = &[
    more(FieldId::Insulation),
    less(FieldId::OutdoorLength),
    less(FieldId::RunCount),
    less(FieldId::RunLength),
];
const SLOWER: &[Lever] =
    &[more(FieldId::RunWidth), more(FieldId::RunHeight), less(FieldId::Charge)];
const FASTER: &[Lever] =
    &[less(FieldId::RunHeight), less(FieldId::RunWidth), more(FieldId::Charge)];
const LARGER_FIREBOX: &[Lever] = &[
    more(FieldId::FireboxHeight),
    more(FieldId::FireboxDepth),
    more(FieldId::FireboxWidth),
    less(FieldId::Charge),
];
const SMALLER_FIREBOX: &[Lever] = &[
    less(FieldId::FireboxHeight),
    less(FieldId::FireboxDepth),
    less(FieldId::FireboxWidth),
    more(FieldId::Charge),
];
const SQUARER: &[Lever] = &[less(FieldId::FireboxWidth), less(FieldId::FireboxDepth)];
const LESS_GLASS: &[Lever] = &[less(FieldId::Glass), less(FieldId::DoorHeight)];
const LESS_WOOD: &[Lever] = &[less(FieldId::Charge)];
const FED: &[Lever] = &[
    more(FieldId::MouthHeight),
    less(FieldId::RunCount),
    more(FieldId::RunWidth),
    more(FieldId::RunHeight),
    more(FieldId::FlueWidth),
    less(FieldId::RunLength),
];
const COOLER_BACK: &[Lever] = &[more(FieldId::FacingThickness), less(FieldId::Charge)];
const COOLER_FACING: &[Lever] = &[more(FieldId::FireboxWall), less(FieldId::Charge)];
const LESS_HEAT: &[Lever] = &[less(FieldId::FiringsPerDay), less(FieldId::Charge)];
const MORE_HEAT: &[Lever] = &[more(FieldId::FiringsPerDay), more(FieldId::Charge)];

const fn too_hot(hot: Hot) -> &'static [Lever] {
    match hot {
        Hot::Connector | Hot::Liner | Hot::Wool => COOLER_GAS,
        Hot::Wall | Hot::WallForLong | Hot::Foam => COOLER_BACK,
        Hot::Mortar | Hot::Facing | Hot::Steel => COOLER_FACING,
        Hot::Firebox | Hot::Runs | Hot::Board | Hot::Base | Hot::Below => LESS_WOOD,
    }
}

/// Moves that mend a finding where they go far enough, the likeliest first: its own lever, then
/// others of its rule. None of what the house, the weather or an authority decides, and none of
/// what is only known roughly: writing down a smaller loss makes no draft.
pub fn levers(finding: &Finding) -> Vec<Lever> {
    let others = match finding.rule {
        Rule::DraftNegative(_)
        | Rule::DraftReserveSmall(_)
        | Rule::NoRunningFlow(_)
        | Rule::SecondFlow(_)
        | Rule::UnheldFlow(_)
        | Rule::SmokeBack(_)
        | Rule::ShortOfDraft(_)
        | Rule::FireGoesOut(_) => PULL,
        Rule::ColdStartWeak(_) | Rule::SmokeAtLighting(_) => COLD_PULL,
        Rule::AtTheEdge(Hazard::Starved, _) => FED,
        Rule::GasAboveChimneyRating(_)
        | Rule::GasWasteful(_)
        | Rule::GasWarm(_)
        | Rule::HeatWasted
        | Rule::PathShort
        | Rule::NoRuns
        | Rule::AtTheEdge(Hazard::Rating, _) => COOLER_GAS,
        Rule::GasCool(_) => WARMER_GAS,
        Rule::ChimneyWallWet(_)
        | Rule::ChimneyWallFreezing(_)
        | Rule::AtTheEdge(Hazard::WetWall | Hazard::FrozenWall, _) => WARMER_FLUE,
        Rule::GasSlow | Rule::OutsideFormula(Formula::ForcedConvection) => FASTER,
        Rule::GasFast => SLOWER,
        Rule::FireboxSmall
        | Rule::FireboxBaseSmall
        | Rule::FireboxLow
        | Rule::FireboxOverfull => LARGER_FIREBOX,
        Rule::FireboxLarge => SMALLER_FIREBOX,
        Rule::FireboxNarrow => SQUARER,
        Rule::GlassLarge => LESS_GLASS,
        Rule::InletFast
        | Rule::FaceTooHot
        | Rule::Touch(_)
        | Rule::AtTheEdge(Hazard::Face | Hazard::Touch(_), _) => LESS_WOOD,
        Rule::HouseNotCovered => MORE_HEAT,
        Rule::InHouse(InHouse::RoomOverheats) => LESS_HEAT,
        Rule::TooHot(hot) | Rule::AtTheEdge(Hazard::TooHot(hot), _) => too_hot(hot),
        // What is unusual may be meant.
        Rule::InputUnusual(_) => return Vec::new(),
        _ => &[],
    };
    let mut levers: Vec<Lever> = Vec::new();
    for lever in finding.lever.iter().chain(others) {
        let is_new = levers.iter().all(|known| known.field != lever.field);
        if is_new && is_the_builders(lever.field) {
            levers.push(*lever);
        }
    }
    levers
}

/// Whether the builder decides an input, rather than the house, the weather, the chimney that
/// stands, an authority, or a table.
const fn is_the_builders(field: FieldId) -> bool {
    !matches!(
        field,
        FieldId::RuleSet
            | FieldId::Altitude
            | FieldId::OutdoorTemperature
            | FieldId::RoomTemperature
            | FieldId::HeatLoss
            | FieldId::HouseSuction
            | FieldId::WindPressure
            | FieldId::Species
            | FieldId::Unburned
            | FieldId::ExcessAir
            | FieldId::Kindling
            | FieldId::CharStart
            | FieldId::CharRate
            | FieldId::InletCoefficient
            | FieldId::FlameEmissivity
            | FieldId::PathRoughness
            | FieldId::Reversal
            | FieldId::Turn
            | FieldId::InnerEmissivity
            | FieldId::FlueRoughness
            | FieldId::MouthCoefficient
            | FieldId::Duty
            | FieldId::RatedTemperature
    )
}

impl Rule {
    /// Whether two rules speak of one matter, the one perhaps more mildly: who mends the one wants
    /// the other gone as well.
    pub fn is_about(self, other: Self) -> bool {
        match (self, other) {
            (Self::InputUnusual(one), Self::InputUnusual(other)) => one == other,
            _ => self.matter() == other.matter(),
        }
    }

    /// Name of the heaviest rule of its matter.
    const fn matter(self) -> &'static str {
        match self {
            Self::DraftReserveSmall(judged) => Self::DraftNegative(judged).id(),
            Self::SecondFlow(judged) | Self::UnheldFlow(judged) => {
                Self::NoRunningFlow(judged).id()
            }
            Self::GasWasteful(moment) | Self::GasWarm(moment) => {
                Self::GasAboveChimneyRating(moment).id()
            }
            Self::ChimneyWallFreezing(burning) => Self::ChimneyWallWet(burning).id(),
            Self::AtTheEdge(Hazard::WetWall | Hazard::FrozenWall, _) => {
                Self::ChimneyWallWet(Burning::Charge).id()
            }
            Self::SmokeAtLighting(judged) => Self::SmokeBack(judged).id(),
            Self::TooHot(hot) | Self::AtTheEdge(Hazard::TooHot(hot), _) => {
                match hot.milder_than() {
                    Some(heavier) => heavier.id(),
                    None => hot.id(),
                }
            }
            Self::AtTheEdge(Hazard::Face, _) => Self::FaceTooHot.id(),
            Self::AtTheEdge(Hazard::Growth, _) => Self::Around(Around::GapSmall).id(),
            Self::AtTheEdge(Hazard::Touch(touch), _) => touch.id(),
            // A warm chimney, and a fire that wants air as stated, are other matters.
            Self::AtTheEdge(hazard @ (Hazard::Rating | Hazard::Starved), _) => {
                Self::AtTheEdge(hazard, Standing::Nominal).id()
            }
            Self::PathShort => Self::NoRuns.id(),
            Self::Around(Around::TiesOutOfReach) => Self::Around(Around::FacingUntied).id(),
            _ => self.id(),
        }
    }

    /// Whether its matter is judged at the unfavorable edge too.
    pub const fn has_edge(self) -> bool {
        matches!(
            self,
            Self::AtTheEdge(..)
                | Self::FaceTooHot
                | Self::TooHot(_)
                | Self::Touch(Touch::Seat | Touch::Bed | Touch::Reach)
                | Self::ChimneyWallWet(Burning::Charge)
                | Self::ChimneyWallFreezing(Burning::Charge)
                | Self::Around(Around::GapSmall)
        )
    }

    /// Whether it is judged on the firing day, or at the edge, wherever that is known.
    pub const fn is_of_the_day(self) -> bool {
        matches!(
            self,
            Self::GasAboveChimneyRating(_)
                | Self::GasWasteful(_)
                | Self::GasWarm(_)
                | Self::GasCool(_)
                | Self::ChimneyWallWet(
                    Burning::LastChar | Burning::WholeBurn | Burning::MostOfBurn
                )
                | Self::ChimneyWallFreezing(
                    Burning::LastChar | Burning::WholeBurn | Burning::MostOfBurn
                )
                | Self::SmokeBack(_)
                | Self::SmokeAtLighting(_)
                | Self::ShortOfDraft(_)
                | Self::FireGoesOut(_)
                | Self::DayNotFound(_)
                | Self::EdgeNotFound
                | Self::FaceTooHot
                | Self::TooHot(_)
                | Self::Touch(Touch::Seat | Touch::Bed | Touch::Reach)
                | Self::Around(Around::GapSmall)
                | Self::AtTheEdge(..)
        )
    }
}
