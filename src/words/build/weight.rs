//! What it weighs, where the middle lies, and what carries it.

use crate::analysis::Analysis;
use crate::build::support::Proposal;
use crate::build::weight::{Weights, weights};
use crate::design::Design;
use crate::design::building::{Carrier, Soil};
use crate::language::{said, say};
use crate::sources::{
    EDGE_PRESSURE, FRAMING, HEATER_MASS, IRC_R401_SOIL, IRC_R1001_FOOTING, PLAIN_FOOTING,
    SEPARATE_FOOTING,
};
use crate::units::{Quantity, System, figure};
use crate::words::passage::Passage;
use crate::words::sources::cited;
use crate::words::structure::{self, ENGINEER};

/// Weights of the parts and the ground below.
pub fn passage(design: &Design, analysis: &Analysis, system: System) -> Passage {
    let structure = &analysis.structure;
    let found = weights(design, structure);
    let show = |value, quantity| figure(value, quantity, system);
    let length = |value| show(value, Quantity::Length);
    let rows = found.parts.iter().map(|part| {
        let [along, deep, high] = part.center.map(length);
        let mass = show(part.mass, Quantity::Weight);
        vec![structure::part(part.part).to_owned(), mass, along, deep, high]
    });
    let [along, deep, high] = found.center.map(length);
    let whole = vec![
        said("All that stands on the support").to_owned(),
        show(found.carried, Quantity::Weight),
        along,
        deep,
        high,
    ];
    Passage::new(said("Weight and support"))
        .text(say!(
            "The heater weighs about {} without chimney and base; most weigh 1.5 to 4 t (3300 to \
             8800 lb).",
            show(structure.heater, Quantity::Weight)
        ))
        .table(
            &[
                said("Part"),
                said("Weighs"),
                said("Middle from the left"),
                said("From the front"),
                said("Above the base"),
            ],
            rows.chain([whole]),
        )
        .text(
            said(
                "From the outer faces of the masonry and the underside of the base slab. \
                 Slots, cleanouts and short runs are left out of account.",
            ),
        )
        .list(loads(design, &found, system))
        .text(ENGINEER)
        .folded(
            Passage::new(said("Where this comes from")).list(
                [
                    &HEATER_MASS,
                    &EDGE_PRESSURE,
                    &IRC_R401_SOIL,
                    &IRC_R1001_FOOTING,
                    &PLAIN_FOOTING,
                    &SEPARATE_FOOTING,
                    &FRAMING,
                ]
                .map(cited),
            ),
        )
}

fn loads(design: &Design, found: &Weights, system: System) -> Vec<String> {
    let show = |value, quantity| figure(value, quantity, system);
    let bearing = |value| show(value, Quantity::Bearing);
    let [length, depth] = found.outline.map(|side| show(side, Quantity::Length));
    let mut lines = vec![
        say!("The masonry stands in a rectangle of {length} by {depth}."),
        say!(
            "Its base presses {} on what lies below, and about {} at the edge that bears most, since \
             its middle is not that of the rectangle.",
            bearing(found.bearing),
            bearing(found.edge)
        ),
    ];
    match design.support.carrier {
        Carrier::HouseSlab => lines.push(
            said(
                "The slab of the house is thinner than a footing: an engineer must find it \
                 good for this.",
            )
            .into(),
        ),
        Carrier::Framing => lines.push(
            said(
                "House floors are framed for 1.9 kPa (40 psf) of people and furniture: do not \
                 build on wood framing without an engineer.",
            )
            .into(),
        ),
        Carrier::NotStated | Carrier::Footing | Carrier::Walls => {}
    }
    let (mean, most) =
        (per_length(found.per_wall, system), per_length(found.most_per_wall, system));
    lines.push(if design.support.carrier == Carrier::Walls {
        say!(
            "Walls under all four edges of that rectangle carry {mean} on average and about {most} \
             where they carry most, if the slab on them is stiff; their own mass comes on top."
        )
    } else {
        say!(
            "If it stands on walls under all four edges of that rectangle, they carry {mean} on \
             average and about {most} where they carry most, if the slab on them is stiff; their own \
             mass comes on top."
        )
    });
    lines.push(match &found.footing {
        Some(footing) => proposed(design, footing, system),
        None if design.support.carrier == Carrier::Framing => {
            said("No footing is proposed under framing.").into()
        }
        None => said(
            "No footing of plain concrete was found that this soil bears: ask an engineer.",
        )
        .into(),
    });
    lines
}

/// A mass along a wall.
fn per_length(value: f64, system: System) -> String {
    let (meters, unit) = match system {
        System::Metric => (1.0, said("meter")),
        System::Us => (12.0 * crate::units::METERS_PER_INCH, said("foot")),
    };
    format!("{} a {unit}", figure(value * meters, Quantity::Weight, system))
}

fn proposed(design: &Design, footing: &Proposal, system: System) -> String {
    let show = |value, quantity| figure(value, quantity, system);
    let [length, depth] = footing.sides.map(|side| show(side, Quantity::Length));
    let soil = match design.support.soil {
        Soil::NotStated => said("as long as the soil is not known"),
        _ => said("for the soil that is stated"),
    };
    say!(
        "A footing to begin from: plain concrete of {length} by {depth}, {} thick, {} wider than the \
         masonry on every side, its underside at least {} below grade. With its own {} it presses {} \
         on the soil at most, of {} that are allowed {soil}. Steel in it is the engineer's matter.",
        show(footing.thickness, Quantity::Size),
        show(footing.projection, Quantity::Size),
        show(footing.depth, Quantity::Length),
        show(footing.mass, Quantity::Weight),
        show(footing.soil, Quantity::Bearing),
        show(footing.bears, Quantity::Bearing),
    )
}
