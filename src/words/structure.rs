//! What is said of weights, and of what a rule set covers.

use crate::analysis::structure::Structure;
use crate::design::RuleSet;
use crate::units::{Quantity, System, figure};

/// What goes with every weight.
pub const ENGINEER: &str = "An engineer decides what carries it. Its footing stands apart from the \
                            slab of the house, with a joint in which both can move.";

/// Weight and load in a sentence.
pub fn weight(structure: &Structure, system: System) -> String {
    let show = |value, quantity| figure(value, quantity, system);
    format!(
        "The heater weighs about {} without chimney and base. On what carries it stand {}, {} \
         on {}. {ENGINEER}",
        show(structure.heater, Quantity::Weight),
        show(structure.carried, Quantity::Weight),
        show(structure.bearing, Quantity::Bearing),
        show(structure.footprint, Quantity::Area),
    )
}

/// What a rule set is made of and what it leaves out.
pub const fn scope(set: RuleSet) -> &'static str {
    match set {
        RuleSet::NorthAmerica => {
            "Rules: IRC R401, R1001 to R1003 (editions of 2000 to 2021, in reprints) and IBC 2111 to \
             2113, the table of NFPA 211 for protection, the definition of ASTM E1602; parts from \
             memory. Left out: amendments of states and towns, heaters listed to UL 1482, anchors \
             and reinforcement, spark arrestors."
        }
        RuleSet::Europe => {
            "Rules: EN 15544 (2009 and 2023), EN 13384-1 and EN 1443, and a model fire ordinance, \
             from memory or abstracts; every country has its own. Left out: footing and soil, \
             earthquakes, height above the roof, the chimney's own distances, its liner and \
             cleanout, the least mass of a heater."
        }
        RuleSet::None => {
            "No rule set: only what holds anywhere was looked at; of the distances only that in \
             front of the glass."
        }
    }
}
