//! Sentences on how hot materials, the wall behind and faces get.

use super::around::{Said, said_of};
use crate::language::said;
use crate::rules::{Hot, Touch};

/// What gets hot, to go before "gets 80 °C hot".
pub(super) fn noun(hot: Hot) -> &'static str {
    let english = match hot {
        Hot::Firebox => "the core around the fire",
        Hot::Runs => "the core of the runs",
        Hot::Facing => "the inner side of the facing",
        Hot::Mortar => "the mortar of the facing",
        Hot::Steel => "the steel of lintel and door frame",
        Hot::Board => "the insulating board",
        Hot::Base => "the concrete below the heater",
        Hot::Connector => "the steel of the connector",
        Hot::Liner => "the liner of the chimney",
        Hot::Wool => "the mineral wool around the flue",
        Hot::Wall | Hot::WallForLong => "the wood wall behind",
        Hot::Foam => "the foam or sheeting in the wall behind",
        Hot::Below => "what lies across the void below",
    };
    said(english)
}

pub(super) fn reason(hot: Hot) -> &'static str {
    let english = match hot {
        Hot::Firebox | Hot::Runs => {
            "It cracks and crumbles, and smoke finds its way into the room."
        }
        Hot::Facing => "It cracks and can fall.",
        Hot::Mortar => "Mortar of lime or cement crumbles, and the facing comes loose.",
        Hot::Steel => {
            "It sags and warps, cracks the masonry around the door, and smoke leaks into the room."
        }
        Hot::Board | Hot::Wool => "It loses its binder and its strength.",
        Hot::Base => {
            "Concrete that stays hot keeps nine tenths of its strength at 250 °C (480 °F), six \
             sevenths at 300 °C (570 °F) and three quarters at 400 °C (750 °F); it cracks, and \
             spalls where it is heated fast while it is damp."
        }
        Hot::Connector => "It scales through, and smoke leaks into the room.",
        Hot::Liner => "It cracks, and the next soot fire goes through it.",
        Hot::Wall | Hot::Below => "It chars or melts, and catches fire.",
        Hot::WallForLong => {
            "Wood that is kept warm for years catches fire at lower and lower temperatures."
        }
        Hot::Foam => {
            "Foam shrinks and melts, sheeting splits, and what is behind it gets damp or burns."
        }
    };
    said(english)
}

pub(super) fn remedy(hot: Hot) -> &'static str {
    let english = match hot {
        Hot::Firebox | Hot::Runs => "Take a core that bears more, or burn less at a time.",
        Hot::Facing => "Take a facing that bears more, a thicker core, or burn less at a time.",
        Hot::Mortar => {
            "Lay the facing around firebox and first run in clay or refractory mortar, or make the \
             core thicker."
        }
        Hot::Steel => {
            "Carry the opening of the core with an arch or a refractory lintel and keep steel in the \
             facing, make the firebox wall thicker, or burn less at a time."
        }
        Hot::Board => "Make the wall under it thicker.",
        Hot::Base => {
            "Make the floor under the fire thicker, entered as Firebox wall (under a bench as Core \
             thickness), or burn less at a time."
        }
        Hot::Below => {
            "Take out what can burn below the heater, make the floor under the fire thicker, entered \
             as Firebox wall (under a bench as Core thickness), or burn less at a time."
        }
        Hot::Connector | Hot::Liner | Hot::Wool => {
            "Add a run, lengthen the runs, or burn less at a time."
        }
        Hot::Wall | Hot::WallForLong | Hot::Foam => {
            "Insulate the back, open the gap at foot and top, move the heater away, or build that wall \
             from something that cannot burn all through."
        }
    };
    said(english)
}

/// A sentence on what is touched, with `{f}` and `{l}` for its figure and its limit.
pub(super) fn touch(touch: Touch) -> Said {
    match touch {
        Touch::Seat => said_of(
            "bench {f}, {l} to sit on",
            "the bench reaches {f}; {l} is the most to sit on.",
            "It burns whoever sits on it for long.",
            "Make its top thicker, send cooler gas through it, or lay a slab with air under it.",
        ),
        Touch::Bed => said_of(
            "bench {f}, {l} to lie on",
            "the bench reaches {f}; {l} is the most to lie and sleep on.",
            "A sleeper does not feel in time that the skin burns.",
            "Make its top thicker, send cooler gas through it, or lay a slab with air under it.",
        ),
        Touch::Reach => said_of(
            "face {f}, {l} within reach of children",
            "an upright face or a bench reaches {f}; above {l} stone burns the skin within 10 \
             seconds, and cooler stone does at a longer touch.",
            "Small children lean on what is warm and do not pull back.",
            "Make the wall there thicker, burn less at a time, or put up a guard.",
        ),
        Touch::Door => said_of(
            "hot door within reach of children",
            "Glass and metal of the loading door burn at a touch as long as there is fire.",
            "Small children reach for what glows.",
            "Put up a guard in front of the door.",
        ),
    }
}
