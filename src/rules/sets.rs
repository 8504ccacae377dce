//! Which rule set says what about which matter: one table.

use super::around::Around;
use super::{Finding, Lever, Place, Rule};
use crate::design::RuleSet;
use crate::design::field::FieldId;
use crate::sources::{
    ASTM_E1602_MASS, CONNECTOR_NORTH_AMERICA, IRC_R401_SOIL, IRC_R1001_FOOTING,
    IRC_R1001_HEARTH, IRC_R1002_CLEARANCE, IRC_R1002_SEISMIC, IRC_R1003_CLEANOUT,
    IRC_R1003_CLEARANCE, IRC_R1003_TERMINATION, IRC_R1003_WALL, MODEL_FIRE_ORDINANCE,
    NO_RULE_IN_SET, NOT_STATED, SOOT_FIRE_EUROPE, SOOT_FIRE_NORTH_AMERICA, Source,
};

/// What a rule set can have a rule for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Matter {
    /// Distances around the heater, to the ceiling and in front of the door.
    Distances,
    /// Floor in front of the door.
    Hearth,
    /// Gap between chimney and wood.
    ChimneyGap,
    /// Connector.
    Connector,
    /// Liner and wall of the chimney.
    Lining,
    /// Fire of the soot.
    SootFire,
    /// Mouth above the roof.
    Roof,
    /// Cleanout of the flue.
    FlueCleanout,
    /// Mass that makes a masonry heater.
    Mass,
    /// Footing.
    Footing,
    /// Soil.
    Soil,
    /// Earthquakes.
    Seismic,
    /// What lies below, in every set.
    Below,
    /// Cleanouts of the runs, in every set.
    Cleanouts,
    /// What carries the heater, in every set.
    Carrier,
    /// Foam near the heater, in every set.
    Foam,
    /// What covers the foam, in every set.
    FoamCover,
    /// Damper, in every set.
    Damper,
    /// Air for the fire, in every set.
    AirSupply,
}

impl Matter {
    /// All for which a set may lack a rule.
    pub const OF_SETS: [Self; 12] = [
        Self::Distances,
        Self::Hearth,
        Self::ChimneyGap,
        Self::Connector,
        Self::Lining,
        Self::SootFire,
        Self::Roof,
        Self::FlueCleanout,
        Self::Mass,
        Self::Footing,
        Self::Soil,
        Self::Seismic,
    ];

    pub(super) const fn place(self) -> Place {
        match self {
            Self::Hearth => Place::Front,
            Self::ChimneyGap | Self::Lining | Self::SootFire => Place::Chimney,
            Self::Connector => Place::RunsOutlet,
            Self::Roof => Place::ChimneyMouth,
            Self::FlueCleanout | Self::Damper => Place::ChimneyInlet,
            Self::Footing | Self::Soil | Self::Below | Self::Carrier => Place::Below,
            Self::Foam | Self::FoamCover => Place::Back,
            Self::AirSupply => Place::Fire,
            Self::Distances | Self::Mass | Self::Seismic | Self::Cleanouts => Place::Whole,
        }
    }

    /// Input that states it.
    const fn field(self) -> FieldId {
        match self {
            Self::Distances => FieldId::SideDistance,
            Self::Hearth => FieldId::Floor,
            Self::ChimneyGap => FieldId::ChimneyPlace,
            Self::Connector => FieldId::ConnectorKind,
            Self::Lining => FieldId::ChimneyKind,
            Self::SootFire => FieldId::SootFire,
            Self::Roof => FieldId::RoofHeight,
            Self::FlueCleanout => FieldId::FlueCleanout,
            Self::Mass => FieldId::FacingThickness,
            Self::Footing | Self::Carrier => FieldId::Carrier,
            Self::Soil => FieldId::Soil,
            Self::Seismic => FieldId::Seismic,
            Self::Below => FieldId::Below,
            Self::Cleanouts => FieldId::Cleanouts,
            Self::Foam => FieldId::Foam,
            Self::FoamCover => FieldId::FoamCovered,
            Self::Damper => FieldId::Damper,
            Self::AirSupply => FieldId::AirSupply,
        }
    }

    /// Whether nobody can say that a heater passed while this is not stated, or not checked: what
    /// sets a house on fire, and what lets a heater fall.
    pub const fn must_be_known(self) -> bool {
        matches!(self, Self::Below | Self::ChimneyGap | Self::Carrier)
    }

    /// The finding that the design does not state it.
    pub(super) const fn not_stated(self) -> Finding {
        let lever = Lever { field: self.field(), raise: true };
        Around::NotStated(self).bare(Some(lever), &NOT_STATED)
    }
}

/// The rule of a set for a matter; none where it has none that is known here.
pub const fn rule_of(set: RuleSet, matter: Matter) -> Option<&'static Source> {
    let (north_america, europe) = match matter {
        Matter::Distances => (&IRC_R1002_CLEARANCE, Some(&MODEL_FIRE_ORDINANCE)),
        Matter::Hearth => (&IRC_R1001_HEARTH, Some(&MODEL_FIRE_ORDINANCE)),
        Matter::ChimneyGap => (&IRC_R1003_CLEARANCE, None),
        Matter::Connector => (&CONNECTOR_NORTH_AMERICA, Some(&MODEL_FIRE_ORDINANCE)),
        Matter::Lining => (&IRC_R1003_WALL, None),
        Matter::SootFire => (&SOOT_FIRE_NORTH_AMERICA, Some(&SOOT_FIRE_EUROPE)),
        Matter::Roof => (&IRC_R1003_TERMINATION, None),
        Matter::FlueCleanout => (&IRC_R1003_CLEANOUT, None),
        Matter::Mass => (&ASTM_E1602_MASS, None),
        Matter::Footing => (&IRC_R1001_FOOTING, None),
        Matter::Soil => (&IRC_R401_SOIL, None),
        Matter::Seismic => (&IRC_R1002_SEISMIC, None),
        Matter::Below
        | Matter::Cleanouts
        | Matter::Carrier
        | Matter::Foam
        | Matter::FoamCover
        | Matter::Damper
        | Matter::AirSupply => return None,
    };
    match set {
        RuleSet::NorthAmerica => Some(north_america),
        RuleSet::Europe => europe,
        RuleSet::None => None,
    }
}

/// Says of every matter without a rule that nothing was checked. That no distance was is a finding
/// of its own, and what stands on a label was said already.
pub(super) fn check(set: RuleSet, findings: &mut Vec<Finding>) {
    for matter in Matter::OF_SETS {
        let labeled = Rule::Around(Around::ByLabel(matter));
        let is_said = || findings.iter().any(|finding| finding.rule == labeled);
        if matter != Matter::Distances && rule_of(set, matter).is_none() && !is_said() {
            findings.push(Around::NothingChecked(matter).bare(None, &NO_RULE_IN_SET));
        }
    }
}
