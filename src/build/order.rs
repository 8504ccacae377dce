//! In which order a design is built, and where one stops to look before going on.

use super::materials::cleanouts;
use crate::design::building::{
    AirSupply, Carrier, ChimneyCarrier, Damper, Floor, Seismic, VoidBelow,
};
use crate::design::{Design, FaceInsulation, Layout};

/// A stage of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Permits and what is bought.
    Before,
    /// Dig and form the footing.
    DigFooting,
    /// Somebody looks at ground and forms.
    LookAtForms,
    /// Pour it.
    PourFooting,
    /// Walls on it.
    SupportWalls,
    /// The slab of the house, looked at.
    LookAtSlab,
    /// Framing, strengthened by an engineer's drawing.
    Framing,
    /// Anchors against earthquakes.
    Anchors,
    /// Ventilated void.
    Void,
    /// Base slab.
    BaseSlab,
    /// Duct for outdoor air.
    AirDuct,
    /// First course without mortar.
    DryLay,
    /// Firebox.
    Firebox,
    /// Door frame.
    Door,
    /// Slab over the firebox.
    Crown,
    /// Fill under long runs.
    Fill,
    /// Runs with their baffles.
    Runs,
    /// Measure slots and runs, before they are closed.
    LookAtRuns,
    /// Oven.
    Oven,
    /// Bleed slot and bypass.
    SlotAndBypass,
    /// Cleanouts.
    Cleanouts,
    /// Chimney.
    Chimney,
    /// Damper and connector.
    Connect,
    /// Try the draft and look for leaks.
    TryDraft,
    /// Layer in the gap.
    Gap,
    /// Facing.
    Facing,
    /// Slab over the heater.
    Cap,
    /// Board on the faces.
    Board,
    /// Hearth.
    Hearth,
    /// Official and alarms.
    LookAtAll,
    /// Dry in the air.
    Dry,
    /// First fires.
    FirstFires,
}

impl Stage {
    /// Whether one stops there and goes on only when it is right.
    pub const fn holds(self) -> bool {
        matches!(
            self,
            Self::Before
                | Self::LookAtForms
                | Self::LookAtSlab
                | Self::Framing
                | Self::DryLay
                | Self::LookAtRuns
                | Self::TryDraft
                | Self::LookAtAll
        )
    }
}

/// The stages that a design has, in order.
pub fn order(design: &Design) -> Vec<Stage> {
    let has = |stage: Stage, is: bool| is.then_some(stage);
    let runs = 0 < design.path.run_count;
    let mut stages = vec![Stage::Before];
    stages.extend(ground(design));
    let path = &design.path;
    let core = [
        has(Stage::AirDuct, design.site.air_supply == AirSupply::Duct),
        Some(Stage::DryLay),
        Some(Stage::Firebox),
        Some(Stage::Door),
        Some(Stage::Crown),
        has(Stage::Fill, runs && path.layout == Layout::Above),
        has(Stage::Runs, runs),
        has(Stage::Oven, path.oven_index().is_some()),
        has(Stage::SlotAndBypass, 0.0 < path.bleed_area + path.bypass_area),
        has(Stage::Cleanouts, 0.0 < cleanouts(design)),
        has(Stage::LookAtRuns, runs),
    ];
    stages.extend(core.into_iter().flatten());
    stages.extend(shell(design));
    stages
}

fn ground(design: &Design) -> Vec<Stage> {
    let (support, around) = (&design.support, &design.surroundings);
    let footing = [Stage::DigFooting, Stage::LookAtForms, Stage::PourFooting];
    let mut stages = match support.carrier {
        Carrier::NotStated | Carrier::HouseSlab => vec![Stage::LookAtSlab],
        Carrier::Framing => vec![Stage::Framing],
        Carrier::Footing => footing.to_vec(),
        Carrier::Walls => [&footing[..], &[Stage::SupportWalls]].concat(),
    };
    if support.seismic == Seismic::High {
        stages.push(Stage::Anchors);
    }
    if around.void_below == VoidBelow::Ventilated {
        stages.push(Stage::Void);
    }
    stages.push(Stage::BaseSlab);
    stages
}

/// From the chimney on. A facing that would hide a leak comes after the draft was tried, and a chimney
/// on the heater after the slab that carries it.
fn shell(design: &Design) -> Vec<Stage> {
    let shell = &design.shell;
    let has = |stage: Stage, is: bool| is.then_some(stage);
    let FaceInsulation { front, back, sides, top } = shell.insulation;
    let faced = 0.0 < shell.facing_thickness;
    let on_it = design.support.chimney == ChimneyCarrier::Heater;
    let damper = design.chimney.damper == Damper::Fitted;
    let stages = [
        has(Stage::Chimney, !on_it),
        has(Stage::Connect, !on_it),
        Some(Stage::TryDraft),
        has(Stage::Gap, faced),
        has(Stage::Facing, faced),
        Some(Stage::Cap),
        has(Stage::Chimney, on_it),
        has(Stage::Connect, on_it && damper),
        has(Stage::Board, 0.0 < front + back + sides + top),
        has(Stage::Hearth, design.surroundings.floor != Floor::Mineral),
        Some(Stage::LookAtAll),
        Some(Stage::Dry),
        Some(Stage::FirstFires),
    ];
    stages.into_iter().flatten().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::building::Below;

    #[test]
    fn only_what_a_design_has_is_built_and_in_an_order_that_stands() {
        let mut design = Design::demonstration();
        let stages = order(&design);
        let place = |stages: &[Stage], stage| stages.iter().position(|each| *each == stage);
        let (draft, facing) = (place(&stages, Stage::TryDraft), place(&stages, Stage::Facing));
        assert!(draft.is_some() && draft < facing);
        assert!(place(&stages, Stage::DryLay) < place(&stages, Stage::Firebox));
        assert_eq!(place(&stages, Stage::Oven), None);
        assert_eq!(place(&stages, Stage::AirDuct), None);
        design.path.oven.place = 2;
        design.site.air_supply = AirSupply::Duct;
        design.shell.facing_thickness = 0.0;
        design.support.carrier = Carrier::Framing;
        let stages = order(&design);
        assert!(place(&stages, Stage::Oven).is_some() && stages.contains(&Stage::AirDuct));
        assert_eq!(place(&stages, Stage::Facing), None);
        assert_eq!(place(&stages, Stage::PourFooting), None);
        // What is stated is built, whatever lies below it.
        for (void, is_built) in [(VoidBelow::Ventilated, true), (VoidBelow::Closed, false)] {
            for below in [Below::NotStated, Below::Mineral, Below::Foam, Below::Wood] {
                let around = &mut design.surroundings;
                (around.void_below, around.below) = (void, below);
                assert_eq!(order(&design).contains(&Stage::Void), is_built, "{below:?}");
            }
        }
        for stages in [order(&design), order(&Design::demonstration())] {
            for (at, stage) in stages.iter().enumerate() {
                assert!(!stages[..at].contains(stage), "{stage:?} twice");
            }
        }
    }
}
