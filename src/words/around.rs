//! Sentences on what stands around the heater, lies below it and carries it.

use crate::language;
use crate::rules::{Around, Matter};

/// A finding in words, with `{f}` for the figure, `{l}` for its limit and `{h}` for the matter.
pub(super) struct Said {
    pub short: &'static str,
    pub title: &'static str,
    pub reason: &'static str,
    pub remedy: &'static str,
}

/// Puts figures and matter into a sentence.
pub(super) fn filled(rule: Around, text: &str, [found, limit]: [&str; 2]) -> String {
    let matter = match rule {
        Around::NotStated(matter)
        | Around::NothingChecked(matter)
        | Around::ByLabel(matter) => noun(matter),
        _ => "",
    };
    text.replace("{f}", found).replace("{l}", limit).replace("{h}", matter)
}

fn noun(matter: Matter) -> &'static str {
    let english = match matter {
        Matter::Distances => "the distances to what can burn",
        Matter::Hearth => "the floor in front of the door",
        Matter::ChimneyGap => "the gap between chimney and wood",
        Matter::Connector => "the distance of the connector",
        Matter::Lining => "the liner and the wall of the chimney",
        Matter::SootFire => "a soot fire in the chimney",
        Matter::Roof => "the height of the mouth above the roof",
        Matter::FlueCleanout => "a cleanout at the foot of the flue",
        Matter::Mass => "the mass that makes a masonry heater",
        Matter::Footing => "the footing",
        Matter::Soil => "the soil below the footing",
        Matter::Seismic => "earthquakes",
        Matter::Below => "what lies below the heater",
        Matter::Cleanouts => "the cleanouts of the runs",
        Matter::Carrier => "what carries the heater",
        Matter::Foam => "foam near the heater",
        Matter::FoamCover => "what covers the foam",
        Matter::Damper => "the damper",
        Matter::AirSupply => "where the air for the fire comes from",
    };
    language::said(english)
}

/// Takes English and has it said.
pub(super) fn said_of(
    short: &'static str,
    title: &'static str,
    reason: &'static str,
    remedy: &'static str,
) -> Said {
    let [short, title, reason, remedy] = [short, title, reason, remedy].map(language::said);
    Said { short, title, reason, remedy }
}

const UNCHECKED: &str = "A missing check is not a passed check.";
const CHARS: &str =
    "Wood that is kept warm for years catches fire at lower and lower temperatures.";
const FOOTING: &str = "A footing that settles or lifts cracks the channels, and smoke leaks.";
const ENGINEER: &str = "Have an engineer decide what carries it.";

#[expect(clippy::too_many_lines, reason = "a sentence per rule")]
pub(super) fn said(rule: Around) -> Said {
    match rule {
        Around::NotStated(_) => said_of(
            "not stated: {h}",
            "Nothing is stated on {h}, so nothing was checked there.",
            UNCHECKED,
            "State it, or ask whoever knows the house.",
        ),
        Around::NothingChecked(_) => said_of(
            "nothing checked on {h}",
            "No rule on {h} is known here for this choice of rules: nothing was checked.",
            UNCHECKED,
            "Ask the building official, or look at what another rule set asks.",
        ),
        Around::ByLabel(_) => said_of(
            "{h}: as on the label",
            "A tested part: {h} is what its label says, and was not checked here.",
            UNCHECKED,
            "Read the label and keep what it says.",
        ),
        Around::ProtectionNotCounted => said_of(
            "protection not counted",
            "A protection is entered that shortens no distance here.",
            "It counts in North America alone, only where the whole 914 mm (36 in) are asked, never in \
             front of the door or around the chimney, and not every kind at a ceiling.",
            "Keep the distance as if nothing were built there.",
        ),
        Around::CloserThanAdvised => said_of(
            "{f} to what can burn, {l} advised",
            "At the nearest it is {f} to what can burn; the code allows that for thick walls, and {l} is \
             advised.",
            CHARS,
            "Keep more space where there is any.",
        ),
        Around::FoamBelow => said_of(
            "foam below the heater, no ventilated void",
            "Foam lies below the heater without a ventilated void between them.",
            "Heat goes down through brick and concrete day after day; the foam melts, the heater \
             sinks, and it can catch fire.",
            "Take the foam out below the heater, or build it over a void that air moves through.",
        ),
        Around::WoodBelow => said_of(
            "wood below the heater, no ventilated void",
            "Wood lies below the heater without a ventilated void between them.",
            CHARS,
            "Take the wood and all forms out below the heater, or build it over a void that air \
             moves through.",
        ),
        Around::HearthShort => said_of(
            "hearth {f} in front of the door, {l} wanted",
            "The floor that cannot burn reaches {f} in front of the loading door, where {l} is \
             asked.",
            "Embers fall out of the door onto the floor.",
            "Make the hearth deeper, of stone or tile on a floor that cannot burn.",
        ),
        Around::HearthNarrow => said_of(
            "hearth {f} beside the door, {l} wanted",
            "The floor that cannot burn reaches {f} beside the door opening, where {l} is asked.",
            "Embers fall out of the door onto the floor.",
            "Make the hearth wider, of stone or tile on a floor that cannot burn.",
        ),
        Around::ChimneyClose => said_of(
            "{f}, limit {l} around the chimney",
            "From the chimney to wood it is {f}, where {l} is asked, all the way up.",
            CHARS,
            "Frame farther from the chimney, and close the gap at floors with sheet metal alone.",
        ),
        Around::ConnectorClose => said_of(
            "{f}, limit {l} around the connector",
            "From the connector to what can burn it is {f}, where {l} is asked.",
            "Bare steel pipe gets hot enough to light wood.",
            "Move the pipe or take a tested one. It never goes through a wall or a ceiling.",
        ),
        Around::ConnectorShort => said_of(
            "connector {f}, {l} to the flue",
            "The connector is {f} long; from the last run through core and facing, and through what \
             stands around the flue, it is {l}.",
            "Facing and chimney would stand in the same place.",
            "Make the connector longer.",
        ),
        Around::ChimneyUnlined => said_of(
            "chimney without a liner",
            "The chimney has no liner.",
            "Its joints leak smoke, and a soot fire goes through them into the house.",
            "Put in a liner.",
        ),
        Around::ChimneyWallThin => said_of(
            "{f} of masonry around the liner, {l} wanted",
            "Around the liner stands {f} of masonry, where {l} is asked.",
            "A cracked liner then has too little behind it.",
            "Build the chimney with a full brick around the liner.",
        ),
        Around::SootFireUnrated => said_of(
            "chimney not made for a soot fire",
            "The chimney is not made for a soot fire.",
            "Soot burns at some 1000 °C (1800 °F); a chimney that is not made for it cracks or glows.",
            "Take a chimney that is made for it.",
        ),
        Around::ChimneyLow => said_of(
            "mouth {f} above the roof, {l} wanted",
            "The mouth stands {f} above the roof, where {l} is asked for the roof and the ridge.",
            "Wind that falls off the ridge pushes smoke back, and sparks reach the roof.",
            "Raise the mouth, or let the chimney out nearer the ridge.",
        ),
        Around::FlueCleanoutMissing => said_of(
            "no cleanout at the foot of the flue",
            "The flue has no cleanout at its foot.",
            "Soot that is swept down stays there and closes the way of the smoke.",
            "Build in a cleanout door.",
        ),
        Around::CleanoutsMissing => said_of(
            "no cleanouts in the runs",
            "The runs have no cleanouts.",
            "Soot and ash fill the runs; the heater smokes after some winters and has to be opened.",
            "Build in a cleanout at each end of every run.",
        ),
        Around::CleanoutOutOfReach => said_of(
            "run of {f}, a brush reaches {l}",
            "This run is {f} long; from its cleanouts a brush reaches {l}.",
            "What the brush does not reach stays there.",
            "Build in a cleanout at each end, or shorten the run.",
        ),
        Around::CleanoutBlocked => said_of(
            "{f} free at the cleanouts, {l} wanted",
            "In front of the cleanouts {f} is free, where {l} is wanted to work in.",
            "A cleanout that cannot be reached is none.",
            "Move the heater, or put the cleanouts into another face.",
        ),
        Around::CleanoutNearWood => said_of(
            "{f}, limit {l} at the cleanouts",
            "From the cleanouts to what can burn it is {f}, where {l} is asked.",
            "A cleanout door gets hot and can leak.",
            "Move the heater, or put the cleanouts into another face.",
        ),
        Around::MassSmall => said_of(
            "{f} of masonry, {l} makes a masonry heater",
            "The heater weighs {f} without chimney and base; less than {l} is no masonry heater by \
             definition.",
            "The distances and rules for masonry heaters do not hold for it, and it cools fast.",
            "Make the walls thicker, or have it judged as another kind of stove.",
        ),
        Around::NoReversal => said_of(
            "no turn of 180 degrees",
            "The smoke path turns nowhere by 180 degrees; by definition that is no masonry heater.",
            "The distances and rules for masonry heaters do not hold for it.",
            "Add a run.",
        ),
        Around::PathOfDefinition => said_of(
            "smoke path {f}, {l} makes a masonry heater",
            "The smoke path is {f} long; less than {l}, twice the largest dimension of the firebox, is \
             no masonry heater by definition.",
            "The distances and rules for masonry heaters do not hold for it.",
            "Lengthen the runs, or add one.",
        ),
        Around::OnFraming => said_of(
            "{f} on wood framing meant for {l}",
            "The heater presses {f} on wood framing; floors of houses are meant for {l}.",
            "The floor bends and breaks.",
            "Build a footing on the ground. Do not build on framing without an engineer.",
        ),
        Around::OnHouseSlab => said_of(
            "on the slab of the house",
            "The heater stands on the slab of the house instead of a footing of its own.",
            "The slab cracks under it, and what settles cracks the channels.",
            "Build a footing apart from the slab, with a joint in which both can move, or have an \
             engineer decide.",
        ),
        Around::FootingThin => said_of(
            "footing {f} thick, {l} wanted",
            "The footing is {f} thick, where {l} is asked.",
            FOOTING,
            ENGINEER,
        ),
        Around::FootingNarrow => said_of(
            "footing {f} wider, {l} wanted",
            "The footing is {f} wider than the heater on every side, where {l} is asked.",
            FOOTING,
            ENGINEER,
        ),
        Around::FootingShallow => said_of(
            "footing {f} deep, {l} wanted",
            "The footing reaches {f} below the ground, where {l} is asked.",
            FOOTING,
            ENGINEER,
        ),
        Around::SoilOverloaded => said_of(
            "{f} on the soil, it bears {l}",
            "At the edge that bears most, heater and footing press {f} on the soil, which is taken to \
             bear {l}.",
            FOOTING,
            "Make the footing larger. Have an engineer decide.",
        ),
        Around::SeismicAnchor => said_of(
            "to be anchored",
            "Where earthquakes are strong, the heater is anchored to its foundation.",
            "A heater that is not held slides or falls.",
            ENGINEER,
        ),
        Around::SeismicReinforcement => said_of(
            "to be reinforced",
            "Where earthquakes are strong, a heater so slender, or one that carries its chimney, \
             is reinforced and anchored.",
            "A tall heater that is not held falls.",
            "Let the chimney stand beside it, build it lower or wider, or have an engineer design \
             the reinforcement.",
        ),
        Around::SeismicEngineered => said_of(
            "an engineer designs against earthquakes",
            "Where earthquakes are strongest, an engineer designs how heater and chimney are held.",
            "A heater that is not held slides or falls.",
            ENGINEER,
        ),
        Around::BypassOpen => said_of(
            "bypass left open: gas {f}, chimney rated {l}",
            "A bypass that is left open lets gas of {f} straight into the chimney, which is rated for {l}.",
            "The chimney can crack and set the house on fire, and the masonry stays cold.",
            "Close the bypass as soon as the flue draws, before the charge is laid; build one that shows \
             from the firing place whether it is open.",
        ),
        Around::GapSmall => said_of(
            "gap {f}, the core grows {l}",
            "The gap between core and facing is {f}; the core grows up to {l} when it is hot.",
            "The core pushes the facing apart.",
            "Widen the gap, or fill it with something that gives.",
        ),
        Around::FacingUntied => said_of(
            "facing free over {f}, at most {l}",
            "No tie holds the facing over {f}; 18 times its thickness is {l}.",
            "It rises straight around firebox and runs. Where one of them is much narrower no tie reaches the \
             core, and a thin wall may buckle.",
            "Make firebox and runs equally wide outside, or the facing thicker; or have an engineer say how it \
             is held.",
        ),
        Around::TiesOutOfReach => said_of(
            "facing {f} off the core, ties reach {l}",
            "The facing stands {f} off the core of the runs; ties reach {l}.",
            "It rises straight around firebox and runs. Where one of them is narrower no tie reaches the core: \
             the facing stands by itself between its corners.",
            "Make firebox and runs equally wide outside, or bond the corners well and have an engineer look at \
             it.",
        ),
        Around::FacingApart => said_of(
            "facing {f} off the runs, gap {l}",
            "The facing stands {f} off the core of the runs, where the gap is {l}.",
            "It rises straight around firebox and runs. The air between passes less heat than the gap, and the \
             facing is larger and heavier; both are counted in.",
            "Make firebox and runs equally wide outside, where it is to stand closer.",
        ),
        Around::GapBlocked => said_of(
            "no air through the gap behind",
            "A wood wall stands behind the heater, and no air moves through the gap between them.",
            "Air that is shut in carries no heat away: the wall gets nearly as hot as the back.",
            "Open the gap at foot and top, and keep it clear. How wide it must be is told by the clearance \
             behind; air hardly moves in less than 25 mm (1 in).",
        ),
        Around::FoamBare => said_of(
            "bare foam near the heater",
            "Foam near the heater is not covered by a layer that holds fire off.",
            "Bare foam burns fast and with poisonous smoke.",
            "Cover it with 13 mm (1/2 in) of gypsum board or as much, or take it out.",
        ),
        Around::GlassNear => said_of(
            "{f} in front of the glass, {l} wanted",
            "In front of the glass it is {f} to what can burn, where {l} would keep it from getting more than \
             65 K (117 °F) hotter than the room.",
            "Glass radiates into the room as long as there is fire, and lights wood that is near.",
            "Keep the space in front of the door free, or take less glass.",
        ),
        Around::DamperTight => said_of(
            "damper leaves nothing open",
            "The damper leaves nothing open when it is shut; {l} must stay.",
            "Embers that seem dead give off carbon monoxide, which then comes into the room.",
            "Cut a notch or a hole into the damper.",
        ),
        Around::DamperOpeningSmall => said_of(
            "damper leaves {f} open, {l} wanted",
            "The damper leaves {f} open when it is shut, where {l} is asked.",
            "Embers that seem dead give off carbon monoxide, which then comes into the room.",
            "Cut a larger notch or hole into the damper.",
        ),
        Around::BleedSmall => said_of(
            "bleed slot {f}, {l} suits the charge",
            "From the top of the firebox to the connector {f} stays open; {l} suits the charge.",
            "Gas that is caught while the heater is cold can light all at once.",
            "Leave a small slot there. It costs a few points of the heat.",
        ),
        Around::AirOpeningSmall => said_of(
            "{f} for the air of the fire, {l} wanted",
            "The air for the fire comes through {f}; {l} let it in with no more suction than the \
             draft is judged with.",
            "The fire takes the air from elsewhere, by the chimney of another stove at worst, and \
             smokes.",
            "Make the opening larger, and keep it free of leaves and snow.",
        ),
    }
}
