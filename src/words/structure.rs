//! What is said of weights, and of what a rule set covers.

use crate::analysis::structure::{Part, Structure};
use crate::design::RuleSet;
use crate::language::{English, said, say};
use crate::units::{Quantity, System, figure};

/// What goes with every weight.
pub const ENGINEER: English = English(
    "An engineer decides what carries it. Its footing stands apart from the slab of the \
     house, with a joint in which both can move.",
);

/// Name of a part.
pub fn part(part: Part) -> &'static str {
    let english = match part {
        Part::Firebox => "Firebox",
        Part::Runs => "Walls of the runs",
        Part::Baffles => "Baffles",
        Part::Fill => "Fill under the runs",
        Part::Facing => "Facing",
        Part::Cap => "Cap slab",
        Part::Base => "Base slab",
        Part::Chimney => "Chimney",
    };
    said(english)
}

/// Weight and load in a sentence.
pub fn weight(structure: &Structure, system: System) -> String {
    let show = |value, quantity| figure(value, quantity, system);
    say!(
        "The heater weighs about {} without chimney and base. On what carries it stand {}, {} \
         on {}. {ENGINEER}",
        show(structure.heater, Quantity::Weight),
        show(structure.carried, Quantity::Weight),
        show(structure.bearing, Quantity::Bearing),
        show(structure.footprint, Quantity::Area),
    )
}

/// What a rule set is made of and what it leaves out.
pub fn scope(set: RuleSet) -> &'static str {
    let english = match set {
        RuleSet::NorthAmerica => {
            "Rules: IRC R401, R1001 to R1003 (editions of 2000 to 2021, in reprints) and IBC 2111 to \
             2113, the table of NFPA 211 for protection, the definition of ASTM E1602; parts from \
             memory. Left out: amendments of states and towns, heaters listed to UL 1482, anchors \
             and reinforcement, spark arrestors, thickness of the hearth, mean thickness of the walls, \
             wood trim around the loading door, a flue that changes its size near a floor or the roof, \
             framing that meets heater or chimney (none may bear on them), a pipe through a wall or a \
             ceiling, another stove on the same flue."
        }
        RuleSet::Europe => {
            "Rules: EN 15544 (2009 and 2023), EN 13384-1 and EN 1443, and a model fire ordinance, \
             from memory or abstracts; every country has its own. Left out: footing and soil, \
             earthquakes, height above the roof, how far a chimney of masonry stays from wood, its \
             liner and cleanout, the least mass of a heater, framing that meets heater or chimney (none \
             may bear on them), a pipe through a wall or a ceiling, another stove on the same flue."
        }
        RuleSet::None => {
            "No rule set: only what holds anywhere was looked at; of the distances only that in \
             front of the glass. Framing, pipes through walls and another stove on the same flue were \
             not looked at either."
        }
    };
    said(english)
}
