//! Rules on what stands around the heater, what lies below it and what carries it.

use super::sets::Matter;
use super::{Figure, Finding, Lever, Place, Rule, Severity};
use crate::sources::Source;
use crate::units::Quantity;

/// What a finding on the surroundings is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Around {
    /// The design does not say.
    NotStated(Matter),
    /// The rule set does not say.
    NothingChecked(Matter),
    /// A tested part whose label says.
    ByLabel(Matter),
    /// Protection that reduces no distance here.
    ProtectionNotCounted,
    /// Nearer than is advised, though the code allows it.
    CloserThanAdvised,
    /// Foam below the heater.
    FoamBelow,
    /// Wood below the heater.
    WoodBelow,
    /// Hearth short in front of the door.
    HearthShort,
    /// Hearth narrow beside the door.
    HearthNarrow,
    /// Chimney close to wood.
    ChimneyClose,
    /// Connector close to what can burn.
    ConnectorClose,
    /// Connector so short that facing and chimney would take each other's place.
    ConnectorShort,
    /// Masonry chimney without a liner.
    ChimneyUnlined,
    /// Little masonry around the liner.
    ChimneyWallThin,
    /// Chimney that bears no fire of its soot.
    SootFireUnrated,
    /// Mouth low above roof or ridge.
    ChimneyLow,
    /// No cleanout at the foot of the flue.
    FlueCleanoutMissing,
    /// No cleanouts in the runs.
    CleanoutsMissing,
    /// Run longer than a brush reaches.
    CleanoutOutOfReach,
    /// No room to work in front of a cleanout.
    CleanoutBlocked,
    /// Cleanout close to what can burn.
    CleanoutNearWood,
    /// Too light for a masonry heater.
    MassSmall,
    /// No turn of 180 degrees, without which it is no masonry heater.
    NoReversal,
    /// Path too short for a masonry heater.
    PathOfDefinition,
    /// Carried by wood framing.
    OnFraming,
    /// Carried by the slab of the house.
    OnHouseSlab,
    /// Thin footing.
    FootingThin,
    /// Footing hardly wider than the heater.
    FootingNarrow,
    /// Footing above frost.
    FootingShallow,
    /// Soil pressed harder than it bears.
    SoilOverloaded,
    /// To be anchored against earthquakes.
    SeismicAnchor,
    /// To be reinforced against earthquakes.
    SeismicReinforcement,
    /// To be designed by an engineer against earthquakes.
    SeismicEngineered,
    /// Gap smaller than the core grows.
    GapSmall,
    /// Facing that no tie holds over a length for which it is too thin.
    FacingUntied,
    /// Facing farther off the core than ties reach.
    TiesOutOfReach,
    /// Facing far off the core of the runs.
    FacingApart,
    /// Gap to a wood wall behind through which no air moves.
    GapBlocked,
    /// Foam without a layer that holds fire off.
    FoamBare,
    /// What can burn, in the radiation of the glass.
    GlassNear,
    /// Damper that shuts off everything.
    DamperTight,
    /// Damper that leaves little open.
    DamperOpeningSmall,
    /// Slot small through which gas gets out of a cold heater.
    BleedSmall,
    /// Opening small for the air of the fire.
    AirOpeningSmall,
    /// Bypass that may be left open while the charge burns.
    BypassOpen,
}

impl Around {
    /// Short name, what is wrong, for files and tests.
    pub const fn id(self) -> &'static str {
        match self {
            Self::NotStated(_) => "not-stated",
            Self::NothingChecked(_) => "nothing-checked",
            Self::ByLabel(_) => "by-label",
            Self::ProtectionNotCounted => "protection-not-counted",
            Self::CloserThanAdvised => "closer-than-advised",
            Self::FoamBelow => "foam-below",
            Self::WoodBelow => "wood-below",
            Self::HearthShort => "hearth-short",
            Self::HearthNarrow => "hearth-narrow",
            Self::ChimneyClose => "chimney-close",
            Self::ConnectorClose => "connector-close",
            Self::ConnectorShort => "connector-short",
            Self::ChimneyUnlined => "chimney-unlined",
            Self::ChimneyWallThin => "chimney-wall-thin",
            Self::SootFireUnrated => "soot-fire-unrated",
            Self::ChimneyLow => "chimney-low",
            Self::FlueCleanoutMissing => "flue-cleanout-missing",
            Self::CleanoutsMissing => "cleanouts-missing",
            Self::CleanoutOutOfReach => "cleanout-out-of-reach",
            Self::CleanoutBlocked => "cleanout-blocked",
            Self::CleanoutNearWood => "cleanout-near-wood",
            Self::MassSmall => "mass-small",
            Self::NoReversal => "no-reversal",
            Self::PathOfDefinition => "path-below-definition",
            Self::OnFraming => "on-framing",
            Self::OnHouseSlab => "on-house-slab",
            Self::FootingThin => "footing-thin",
            Self::FootingNarrow => "footing-narrow",
            Self::FootingShallow => "footing-shallow",
            Self::SoilOverloaded => "soil-overloaded",
            Self::SeismicAnchor => "seismic-anchor",
            Self::SeismicReinforcement => "seismic-reinforcement",
            Self::SeismicEngineered => "seismic-engineered",
            Self::GapSmall => "gap-small",
            Self::FacingUntied => "facing-untied",
            Self::TiesOutOfReach => "ties-out-of-reach",
            Self::FacingApart => "facing-apart",
            Self::GapBlocked => "gap-blocked",
            Self::FoamBare => "foam-bare",
            Self::GlassNear => "glass-near",
            Self::DamperTight => "damper-tight",
            Self::DamperOpeningSmall => "damper-opening-small",
            Self::BleedSmall => "bleed-small",
            Self::AirOpeningSmall => "air-opening-small",
            Self::BypassOpen => "bypass-open",
        }
    }

    /// How much it weighs.
    pub const fn severity(self) -> Severity {
        match self {
            Self::NotStated(_)
            | Self::NothingChecked(_)
            | Self::ByLabel(_)
            | Self::ProtectionNotCounted
            | Self::CloserThanAdvised
            | Self::BypassOpen
            | Self::TiesOutOfReach
            | Self::FacingApart
            | Self::SeismicAnchor => Severity::GoodToKnow,
            Self::FlueCleanoutMissing
            | Self::CleanoutOutOfReach
            | Self::CleanoutBlocked
            | Self::MassSmall
            | Self::NoReversal
            | Self::PathOfDefinition
            | Self::OnHouseSlab
            | Self::FootingThin
            | Self::FootingNarrow
            | Self::FootingShallow
            | Self::SeismicReinforcement
            | Self::SeismicEngineered
            | Self::GapSmall
            | Self::FacingUntied
            | Self::GapBlocked
            | Self::DamperOpeningSmall
            | Self::BleedSmall
            | Self::AirOpeningSmall => Severity::LookAgain,
            _ => Severity::DoNotBuild,
        }
    }

    const fn place(self) -> Place {
        match self {
            Self::NotStated(matter) | Self::NothingChecked(matter) | Self::ByLabel(matter) => {
                matter.place()
            }
            Self::ProtectionNotCounted => Place::Side,
            Self::HearthShort | Self::HearthNarrow | Self::GlassNear => Place::Front,
            Self::GapBlocked | Self::FoamBare => Place::Back,
            Self::AirOpeningSmall => Place::Fire,
            Self::BleedSmall => Place::Firebox,
            Self::ChimneyClose
            | Self::ChimneyUnlined
            | Self::ChimneyWallThin
            | Self::SootFireUnrated => Place::Chimney,
            Self::ConnectorClose | Self::ConnectorShort => Place::RunsOutlet,
            Self::ChimneyLow => Place::ChimneyMouth,
            Self::FlueCleanoutMissing
            | Self::DamperTight
            | Self::DamperOpeningSmall
            | Self::BypassOpen => Place::ChimneyInlet,
            Self::FoamBelow
            | Self::WoodBelow
            | Self::OnFraming
            | Self::OnHouseSlab
            | Self::FootingThin
            | Self::FootingNarrow
            | Self::FootingShallow
            | Self::SoilOverloaded => Place::Below,
            _ => Place::Whole,
        }
    }

    /// A finding that has no figure.
    pub(super) const fn bare(self, lever: Option<Lever>, source: &'static Source) -> Finding {
        Finding {
            rule: Rule::Around(self),
            severity: self.severity(),
            place: self.place(),
            found: Figure { value: 0.0, quantity: Quantity::Count },
            limit: None,
            lever,
            source,
        }
    }

    /// A finding on a figure and its limit of the same kind.
    pub(super) const fn beyond(
        self,
        [found, limit]: [f64; 2],
        quantity: Quantity,
        lever: Lever,
        source: &'static Source,
    ) -> Finding {
        Finding {
            found: Figure { value: found, quantity },
            limit: Some(Figure { value: limit, quantity }),
            ..self.bare(Some(lever), source)
        }
    }

    /// A size that must not be smaller than a limit (m), where it is.
    pub(super) fn short(
        self,
        sizes: [f64; 2],
        lever: Lever,
        source: &'static Source,
    ) -> Option<Finding> {
        let [found, limit] = sizes;
        (found < limit - super::clearances::SLACK)
            .then(|| self.beyond(sizes, Quantity::Size, lever, source))
    }
}
