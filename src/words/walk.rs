//! A short walk through the page, a stop at a time.
use crate::language::English;

/// Name of the walk, on its button and over its card.
pub const TITLE: English = English("A walk through the page");

/// Its stops in the order in which they are made: what is looked at, and a sentence or two.
pub const STOPS: [(English, English); 6] = [
    (
        English("Decisions"),
        English(
            "You decide, in the order of building: house, wood, smoke path, chimney, shell. \
             Change a figure here and all others follow at once.",
        ),
    ),
    (
        English("The section"),
        English(
            "The heater cut open, to scale; color is the heat of the smoke. Pull its grips, \
             or tap a part to change it below the drawing.",
        ),
    ),
    (
        English("Three questions"),
        English(
            "Will it draw, will the heat stay, is it safe? Each answer leads to what was \
             found, why it matters and what mends it.",
        ),
    ),
    (
        English("One to ten runs"),
        English(
            "More runs keep more heat and leave less draft. Compare them all, and take one at \
             a press.",
        ),
    ),
    (
        English("Other ways"),
        English(
            "Let designs for this house be sought, or set copies of yours beside each other. \
             Nothing is changed before you take it.",
        ),
    ),
    (
        English("Share"),
        English(
            "The link carries the whole design to mason and official, and nothing else leaves \
             this device. They decide: this is a design aid, not a permit.",
        ),
    ),
];
