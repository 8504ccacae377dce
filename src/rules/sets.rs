//! Which rule set says what about which hazard: one table.

use super::around::Around;
use super::{Finding, Lever, Place};
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
pub enum Hazard {
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
}

impl Hazard {
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
            Self::FlueCleanout => Place::ChimneyInlet,
            Self::Footing | Self::Soil | Self::Below | Self::Carrier => Place::Below,
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
        }
    }

    /// Whether nobody can say that a heater passed while this is not stated.
    pub const fn must_be_known(self) -> bool {
        matches!(self, Self::Below | Self::ChimneyGap | Self::Carrier)
    }

    /// The finding that the design does not state it.
    pub(super) const fn not_stated(self) -> Finding {
        let lever = Lever { field: self.field(), raise: true };
        Around::NotStated(self).bare(Some(lever), &NOT_STATED)
    }
}

/// The rule of a set for a hazard; none where it has none that is known here.
pub const fn rule_of(set: RuleSet, hazard: Hazard) -> Option<&'static Source> {
    let (north_america, europe) = match hazard {
        Hazard::Distances => (&IRC_R1002_CLEARANCE, Some(&MODEL_FIRE_ORDINANCE)),
        Hazard::Hearth => (&IRC_R1001_HEARTH, Some(&MODEL_FIRE_ORDINANCE)),
        Hazard::ChimneyGap => (&IRC_R1003_CLEARANCE, None),
        Hazard::Connector => (&CONNECTOR_NORTH_AMERICA, Some(&MODEL_FIRE_ORDINANCE)),
        Hazard::Lining => (&IRC_R1003_WALL, None),
        Hazard::SootFire => (&SOOT_FIRE_NORTH_AMERICA, Some(&SOOT_FIRE_EUROPE)),
        Hazard::Roof => (&IRC_R1003_TERMINATION, None),
        Hazard::FlueCleanout => (&IRC_R1003_CLEANOUT, None),
        Hazard::Mass => (&ASTM_E1602_MASS, None),
        Hazard::Footing => (&IRC_R1001_FOOTING, None),
        Hazard::Soil => (&IRC_R401_SOIL, None),
        Hazard::Seismic => (&IRC_R1002_SEISMIC, None),
        Hazard::Below | Hazard::Cleanouts | Hazard::Carrier => return None,
    };
    match set {
        RuleSet::NorthAmerica => Some(north_america),
        RuleSet::Europe => europe,
        RuleSet::None => None,
    }
}

/// Says of every hazard without a rule that nothing was checked. That no distance was is a finding
/// of its own.
pub(super) fn check(set: RuleSet, findings: &mut Vec<Finding>) {
    let unruled = Hazard::OF_SETS.into_iter().filter(|hazard| rule_of(set, *hazard).is_none());
    let unruled = unruled.filter(|hazard| *hazard != Hazard::Distances);
    findings.extend(
        unruled.map(|hazard| Around::NothingChecked(hazard).bare(None, &NO_RULE_IN_SET)),
    );
}
