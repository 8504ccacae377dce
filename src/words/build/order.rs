//! In which order it is built, and where one stops and looks.

use crate::build::order::{Stage, order};
use crate::design::Design;
use crate::design::building::ChimneyCarrier;
use crate::language::{said, say};
use crate::units::{Quantity, System, figure};
use crate::words::passage::{Cell, Passage};

/// The order of the work with its hold points.
pub fn passage(design: &Design, system: System) -> Passage {
    let rows = order(design).into_iter().enumerate().map(|(index, stage)| {
        let hold = if stage.holds() { said("Stop and look") } else { "" };
        let number = (index + 1).to_string();
        vec![
            Cell::from(format!("{number}. {}", name(stage))),
            Cell::from(hold),
            Cell::from(text(design, stage, system)),
        ]
    });
    Passage::new(said("Order of work"))
        .text(said(
            "Where it says so, stop and go on only when it is right: what is closed in \
             afterward can no longer be mended. Common practice, no source, where nothing \
             else is said.",
        ))
        .table(&[said("Stage"), said("Hold point"), said("What is done")], rows)
}

/// Name of a stage.
pub fn name(stage: Stage) -> &'static str {
    let english = match stage {
        Stage::Before => "Permit and material",
        Stage::DigFooting => "Dig and form the footing",
        Stage::LookAtForms => "Ground and forms",
        Stage::PourFooting => "Pour the footing",
        Stage::SupportWalls => "Support walls",
        Stage::LookAtSlab => "The slab that is there",
        Stage::Framing => "Framing below",
        Stage::Anchors => "Anchors",
        Stage::Void => "Ventilated void",
        Stage::BaseSlab => "Base slab",
        Stage::AirDuct => "Duct for outdoor air",
        Stage::DryLay => "First course without mortar",
        Stage::Firebox => "Firebox",
        Stage::Door => "Loading door",
        Stage::Crown => "Slab over the firebox",
        Stage::Fill => "Fill beside the firebox",
        Stage::Runs => "Runs and baffles",
        Stage::LookAtRuns => "Runs and slots",
        Stage::Oven => "Oven",
        Stage::SlotAndBypass => "Bleed slot and bypass",
        Stage::Cleanouts => "Cleanouts",
        Stage::Chimney => "Chimney",
        Stage::Connect => "Connector and damper",
        Stage::TryDraft => "Draft and leaks",
        Stage::Gap => "Gap",
        Stage::Facing => "Facing",
        Stage::Cap => "Cap slab",
        Stage::Board => "Insulating board",
        Stage::Hearth => "Hearth",
        Stage::LookAtAll => "Inspection",
        Stage::Dry => "Drying",
        Stage::FirstFires => "First fires",
    };
    said(english)
}

#[expect(clippy::too_many_lines, reason = "one arm per stage")]
fn text(design: &Design, stage: Stage, system: System) -> String {
    let show = |value, quantity| figure(value, quantity, system);
    let size = |value| show(value, Quantity::Size);
    let opening = |value| show(value, Quantity::Opening);
    let (shell, path, chamber) = (&design.shell, &design.path, &design.firebox);
    let (support, around) = (&design.support, &design.surroundings);
    match stage {
        Stage::Before => said(
            "The building official and a qualified mason or chimney professional have seen \
             the design. Door, cleanouts and damper are there, so that their openings can be \
             built to size. Salvaged brick is sorted, cleaned and tried.",
        )
        .into(),
        Stage::DigFooting => say!(
            "To ground that was never moved, underside {} below grade; forms {} high.",
            show(support.footing_depth, Quantity::Length),
            size(support.footing_thickness)
        ),
        Stage::LookAtForms => said(
            "Engineer or inspector looks at ground, forms and steel before concrete hides \
             them. The footing stands apart from the slab of the house.",
        )
        .into(),
        Stage::PourFooting => {
            said("In one pour. Keep it damp for a week; load it after three to seven days.")
                .into()
        }
        Stage::SupportWalls => said(
            "Solid masonry or concrete up to the base slab, no wood left in it; an opening to \
             look and sweep through.",
        )
        .into(),
        Stage::LookAtSlab => said(
            "What carries the heater is not settled: an engineer looks at the slab and what \
             lies below before anything is built.",
        )
        .into(),
        Stage::Framing => said(
            "Do not build on wood framing without an engineer's drawing and the official's \
             consent.",
        )
        .into(),
        Stage::Anchors => {
            said("Anchors of heater and chimney to the footing, as the engineer draws them.")
                .into()
        }
        Stage::Void => said(
            "Supports that cannot burn, open at both sides so that air moves below the base \
             slab; no form of wood stays.",
        )
        .into(),
        Stage::BaseSlab => say!("{} of concrete, level and flat.", size(shell.base_thickness)),
        Stage::AirDuct => say!(
            "From outdoors to the firebox, {} free, screened, closable, of something that cannot \
             burn.",
            opening(design.site.air_opening)
        ),
        Stage::DryLay => said(
            "Firebox, runs and facing laid out in full without mortar: joints, cuts, door, \
             cleanouts, gap and distances to all that can burn. Change the design now, not \
             later.",
        )
        .into(),
        Stage::Firebox => say!(
            "{} wide, {} deep, {} high inside, in joints of {}. Wipe joints flush.",
            size(chamber.width),
            size(chamber.depth),
            size(chamber.height),
            size(shell.core_joint)
        ),
        Stage::Door => said(
            "Frame in a soft strip all around, with room to grow; no mortar against steel. \
             Lintels lie in soft packing at their ends.",
        )
        .into(),
        Stage::Crown => {
            say!("{} thick, free to grow at its edges.", size(chamber.crown_thickness))
        }
        Stage::Fill => said("Solid masonry under the runs beside the firebox.").into(),
        Stage::Runs => say!(
            "{} runs, {} long, {} wide, {} high as a rule; baffles of {} lie free at one end. Wipe \
             every run clean as it is built.",
            path.run_count,
            show(path.run_length, Quantity::Length),
            size(path.run_width),
            size(path.run_height),
            size(path.baffle_thickness)
        ),
        Stage::LookAtRuns => said(
            "Measure every run and every slot, by mirror and lamp; no mortar hangs in, \
             nothing narrows. A brush goes through from the cleanouts.",
        )
        .into(),
        Stage::Oven => say!(
            "{} wide, {} deep, {} high inside.",
            size(path.oven.width),
            size(path.oven.depth),
            size(path.oven.height)
        ),
        Stage::SlotAndBypass => match (0.0 < path.bleed_area, 0.0 < path.bypass_area) {
            (true, true) => say!(
                "Bleed slot of {}, bypass of {}; the damper moves freely.",
                opening(path.bleed_area),
                opening(path.bypass_area)
            ),
            (true, false) => say!("Bleed slot of {}.", opening(path.bleed_area)),
            _ => say!("Bypass of {}; its damper moves freely.", opening(path.bypass_area)),
        },
        Stage::Cleanouts => said(
            "A plug that bears the heat behind every door, set in soft packing; each can be \
             reached with a brush.",
        )
        .into(),
        Stage::Chimney => say!(
            "Up to {} above the floor of the firebox. Keep its distance to all that can burn; framing \
             rests neither on heater nor chimney.",
            show(design.chimney.mouth_height, Quantity::Length)
        ),
        Stage::Connect => {
            said("Tight, with a damper that never shuts fully, and where it can be swept.")
                .into()
        }
        Stage::TryDraft => {
            let pipe = match support.chimney {
                ChimneyCarrier::Beside => "",
                ChimneyCarrier::Heater => {
                    said(" and a pipe set up where the chimney will stand")
                }
            };
            say!(
                "Before the facing hides the core, with a slab laid loose over the last run{pipe}: \
                 close the door, hold a flame to each cleanout, then burn paper and a little \
                 kindling; look for smoke at every joint. Point leaks and try again. No more fire \
                 than that: the masonry is green."
            )
        }
        Stage::Gap => say!(
            "{} between core and facing, kept by a layer that yields or burns out, ceramic paper \
             around openings. No mortar falls in.",
            size(shell.gap)
        ),
        Stage::Facing => say!(
            "{} thick, ties that give way, steel above openings only. It touches the core nowhere.",
            size(shell.facing_thickness)
        ),
        Stage::Cap => say!("{} thick, on a bed that yields.", size(shell.cap_thickness)),
        Stage::Board => said("On the faces that are to stay cool, as thick as entered.").into(),
        Stage::Hearth => say!(
            "{} in front of the door and {} to each side, of something that cannot burn.",
            show(around.hearth_front, Quantity::Length),
            show(around.hearth_side, Quantity::Length)
        ),
        Stage::LookAtAll => said(
            "The official and a chimney professional look at heater, chimney and distances. \
             Carbon monoxide alarms hang and were tried.",
        )
        .into(),
        Stage::Dry => said(
            "Two to four weeks with door and damper open; no heater beside it to hurry it.",
        )
        .into(),
        Stage::FirstFires => said("As the list of the first fires says, never faster.").into(),
    }
}
