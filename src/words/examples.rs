//! Names of the designs to begin with, and what each of them teaches.

use crate::design::Design;
use crate::design::examples::Example;
use crate::language::{English, said};

/// What is said over the list.
pub const TITLE: English = English("Designs to begin with");
/// What they are.
pub const NOTE: English = English(
    "All of them are invented. Open one and change it: your own design stays a step back, \
     under Undo.",
);

/// Name of a design to begin with.
pub fn name(example: Example) -> &'static str {
    let english = match example {
        Example::Farmhouse => "North farmhouse",
        Example::Cabin => "Small cabin, three runs",
        Example::Bench => "Heated bench",
        Example::TallStack => "Tall stack that does not draw",
        Example::StoneFaced => "Heavy, faced with stone",
        Example::TightHouse => "Tight house with a fan",
    };
    said(english)
}

/// What it teaches.
pub fn teaches(example: Example) -> &'static str {
    let english = match example {
        Example::Farmhouse => {
            "Five runs over the firebox, two firings on the coldest days: where every figure is, and \
             how the runs share the heat."
        }
        Example::Cabin => {
            "A little wood and a short chimney: few runs keep enough of the heat and still draw."
        }
        Example::Bench => {
            "Runs at floor level give nothing to the draft, and a bench must not get too hot to sit \
             on."
        }
        Example::TallStack => {
            "Eight narrow runs keep nearly all of the heat and smoke: drop runs one by one and watch \
             the draft come back."
        }
        Example::StoneFaced => {
            "Thick stone warms late and stays warm into the next day: compare hours of warmth with \
             the peak."
        }
        Example::TightHouse => {
            "A fan pulls against the chimney: see what the bypass damper and one more meter \
             (3 ft) of chimney do."
        }
    };
    said(english)
}

/// The design under its name.
pub fn named(example: Example) -> Design {
    Design { name: name(example).into(), ..example.design() }
}
