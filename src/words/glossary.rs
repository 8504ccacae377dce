//! The words of the trade, each explained in a plain sentence. The list is the authority: labels,
//! findings and the names in the program use a word as it is explained here.

use super::passage::{Cell, Passage};
use super::{help, label};
use crate::design::field::FieldId;
use crate::language::{English, said, say};

/// Heading over the list.
pub const TITLE: English = English("Glossary");

/// A word of the trade.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// The word as it is written within a sentence, then its other forms, parted by commas.
    pub forms: English,
    /// What it means.
    pub meaning: English,
    /// What standards call it, where they have a word of their own.
    pub standard: Option<English>,
}

const fn entry(forms: &'static str, meaning: &'static str) -> Entry {
    Entry { forms: English(forms), meaning: English(meaning), standard: None }
}

const fn also(forms: &'static str, standard: &'static str, meaning: &'static str) -> Entry {
    Entry {
        forms: English(forms),
        meaning: English(meaning),
        standard: Some(English(standard)),
    }
}

/// The words by the part of the heater to which they belong.
pub const GROUPS: [(English, &[Entry]); 6] = [
    (English("House and draft"), &HOUSE),
    (English("Wood and fire"), &FIRE),
    (English("Smoke path"), &PATH),
    (English("Chimney"), &CHIMNEY),
    (English("Masonry"), &MASONRY),
    (English("Around the heater and in the findings"), &AROUND),
];

const HOUSE: [Entry; 12] = [
    also(
        "draft, draught",
        "draught (EN 13384-1)",
        "The pull of the chimney: hot gas weighs less than the air outside, which pushes it up.",
    ),
    entry(
        "draft to spare, reserve",
        "Draft beyond what the gas needs to get through the heater. Soot, wind and fans live on it.",
    ),
    also(
        "loss, losses, holds back",
        "coefficient of flow resistance (EN 13384-1)",
        "How much a turn, a slot or a mouth holds the gas back, as a number of times the push of the \
         moving gas.",
    ),
    entry("friction", "What rough walls hold back along a straight piece of the path."),
    entry(
        "house suction, suction of the house, suction",
        "Pressure by which fans and rising warm air in the house pull against the chimney.",
    ),
    also(
        "heat loss",
        "heat loss coefficient (EN 12831)",
        "Heat that the house loses for every degree between inside and outside.",
    ),
    also(
        "coldest day, coldest days",
        "external design temperature (EN 12831)",
        "The day for which the heater is laid out. Chimneys pull best on it.",
    ),
    entry(
        "mild day",
        "A day in spring or fall on which the chimney pulls little. Draft is judged on it, too.",
    ),
    entry(
        "cold start, cold heater",
        "A fire in a heater that has stood unused. Its flue is cold and pulls little.",
    ),
    entry(
        "wind pressure, wind",
        "Pressure by which moving air that falls onto the mouth holds the gas back.",
    ),
    entry("altitude", "Height above the sea. The air is thinner there and pulls less."),
    entry(
        "rule set, rules",
        "The distances and sizes of one family of codes. Local code decides in any case.",
    ),
];

const FIRE: [Entry; 15] = [
    also(
        "charge, charges",
        "maximum load (EN 15544)",
        "All the wood of one firing, with the water in it.",
    ),
    entry("firing, firings", "Lighting one charge and letting it burn down."),
    entry(
        "burn, burn duration",
        "The time from lighting until the charge has burned down to embers.",
    ),
    entry("height of the fire", "The time of the burn at which the fire is strongest."),
    entry(
        "moisture",
        "Water as a share of the moist wood (wet basis). Many meters show it as a share of the dry \
         wood, which is more.",
    ),
    also(
        "excess air ratio, excess air",
        "air ratio (EN 15544)",
        "Air that passes the fire over the air that the wood needs: 1 is just enough, 3 is three \
         times as much.",
    ),
    entry(
        "combustion air, air inlet, inlet, air for the fire, air supply",
        "The air of the fire, and the opening through which the firebox takes it.",
    ),
    entry(
        "unburned",
        "What leaves the fire as carbon monoxide, soot and charcoal instead of heat.",
    ),
    entry("kindling", "The thin dry wood that lights the charge, and the time that it takes."),
    entry(
        "char",
        "What is left of wood when its flame has gone: it glows slowly, with much carbon monoxide.",
    ),
    entry("embers, coal", "Glowing char on the floor of the firebox."),
    entry(
        "carbon monoxide",
        "A poisonous gas without smell, which fires give off that get too little air, and embers.",
    ),
    entry(
        "soot",
        "Black dust of an unclean flame. It narrows the path and can burn in the chimney.",
    ),
    also(
        "soot fire",
        "sootfire resistance, class G (EN 1443)",
        "Soot that burns in the chimney, at some 1000 °C (1800 °F).",
    ),
    entry(
        "emissivity",
        "How strongly a surface or a flame radiates, as a share of what a black body does.",
    ),
];

const PATH: [Entry; 18] = [
    also(
        "firebox, fireboxes",
        "combustion chamber (EN 15544)",
        "The room in which the wood burns, measured inside.",
    ),
    entry("crown", "The slab between the firebox and what lies above it."),
    entry(
        "loading door, door",
        "Where the wood goes into the firebox, and the lid that shuts it.",
    ),
    also(
        "smoke path, path",
        "flue pipe (EN 15544)",
        "The way of the smoke from the firebox through the runs to the chimney.",
    ),
    entry(
        "run, runs",
        "A horizontal channel through which the smoke passes once, from one end of the heater to \
         the other.",
    ),
    entry("baffle, baffles", "The thin floor of masonry that parts one run from the next."),
    entry(
        "reversal, reversals",
        "The end of a run, where the smoke turns back into the next one.",
    ),
    also(
        "turn, turns",
        "change of direction (EN 15544)",
        "A corner of the path by a right angle. A reversal is two of them.",
    ),
    entry("slot", "An opening that is long and narrow."),
    also(
        "roughness",
        "mean value of roughness (EN 13384-1)",
        "How high the grains of a wall stand out on average.",
    ),
    also(
        "bleed slot",
        "gas slot (EN 15544)",
        "A small opening from the top of the firebox to the connector that is never shut: gas gets \
         out by it even if the runs do not draw.",
    ),
    entry(
        "bypass damper, bypass",
        "A shutter that lets the smoke go straight to the chimney while a cold heater is lit.",
    ),
    entry(
        "damper",
        "A shutter in the way of the smoke, shut when no ember glows, so that the heat stays.",
    ),
    also(
        "cleanout, cleanouts",
        "cleaning opening (EN 15287-1)",
        "A small door in the masonry through which soot and ash are brushed out.",
    ),
    entry("oven", "A chamber for baking through which the smoke passes in place of a run."),
    entry(
        "bench, benches",
        "A low heater to sit on, whose runs lie side by side at the floor.",
    ),
    also(
        "connector, connectors",
        "connecting flue pipe (EN 13384-1); chimney connector (NFPA 211)",
        "The pipe from the last run to the chimney.",
    ),
    entry("layout", "Where the runs lie: above the firebox, behind it, or as a bench."),
];

const CHIMNEY: [Entry; 9] = [
    entry(
        "chimney, chimneys",
        "The upright flue with its walls, from the connector to above the roof.",
    ),
    entry("flue", "The passage inside the chimney."),
    also(
        "liner",
        "flue liner (EN 1443)",
        "The inner wall of a chimney, of clay tile or steel, which keeps the smoke in.",
    ),
    also(
        "mouth",
        "chimney outlet (EN 13384-1); termination (IRC)",
        "The upper end of the chimney, where the gas leaves.",
    ),
    also(
        "chimney rating, rated, rating",
        "temperature class (EN 1443)",
        "The hottest gas for which the chimney is made, as on its label.",
    ),
    also(
        "dew point, dew points",
        "water dew point (EN 13384-1)",
        "The temperature of a wall below which water from the gas settles on it.",
    ),
    also(
        "condensate, chimney duty, duty",
        "condensate resistance, class W or D (EN 1443)",
        "Water that settles from the gas. A wet chimney is made for it, a dry one is not.",
    ),
    entry("mineral wool", "Insulation of spun rock or slag that does not burn."),
    entry("ridge", "The highest line of the roof. Wind falls off it onto a low chimney."),
];

const MASONRY: [Entry; 19] = [
    also(
        "masonry heater, heater, heaters",
        "masonry heater (ASTM E1602); slow heat release appliance (EN 15250)",
        "A heavy stove of brick or stone that stores the heat of a short fire and gives it off for \
         hours.",
    ),
    entry("masonry", "Brick or stone laid in mortar."),
    entry(
        "core, cores",
        "The inner masonry of firebox, runs and baffles, which the smoke touches.",
    ),
    entry("facing, facings", "The outer masonry, which the room sees."),
    entry("shell", "Core, gap and facing together, with the slabs."),
    entry("gap, gaps", "Space left free: between core and facing, or to the wall behind."),
    entry(
        "tie, ties",
        "Metal in two joints that holds the facing to the core and gives way as it grows.",
    ),
    entry("course, courses", "One layer of bricks with what they are laid in."),
    entry("mortar", "What bricks are laid in: clay, or a refractory kind, where it gets hot."),
    entry("joint, joints", "What lies between two bricks."),
    entry("modular", "Of a brick: its size makes a round one with the mortar around it."),
    entry("refractory", "Made to bear the heat of a fire."),
    entry("fireclay, firebrick", "A clay that bears great heat, and the brick burned from it."),
    entry(
        "refractory concrete",
        "Concrete with a binder that bears the heat of a fire, cast into slabs.",
    ),
    entry("soapstone", "A soft heavy stone that holds and leads heat well."),
    entry("cap slab, cap", "The slab that closes the heater at the top."),
    entry("base slab, base", "The slab on which the heater stands; of the firebox, its floor."),
    entry("insulating board, insulation", "A layer that lets little heat through."),
    entry("glass", "The pane in the loading door. It radiates into the room during the fire."),
];

const AROUND: [Entry; 17] = [
    also(
        "clearance, distance",
        "distance to combustible material (EN 1443)",
        "Free space from the heater, its pipe or its chimney to the nearest thing that can burn.",
    ),
    also(
        "what can burn, thing that can burn, combustible",
        "combustible material (NFPA 211)",
        "Wood, foam, cloth and the like, also behind a cladding of board, tile or metal.",
    ),
    also(
        "protection",
        "clearance reduction system (NFPA 211)",
        "A layer in front of a wall or ceiling for which some codes allow a shorter clearance.",
    ),
    also(
        "hearth",
        "hearth extension (IRC)",
        "Floor that cannot burn, in front of the loading door and beside its opening.",
    ),
    entry("footing, footings", "Concrete in the ground that spreads the weight of the heater."),
    entry("frost depth", "How deep the ground freezes. A footing reaches below it."),
    entry("framing, framed", "Posts and beams of wood that carry a floor or a wall."),
    entry(
        "void, ventilated",
        "A hollow below the base slab, and whether room air moves through it.",
    ),
    entry("foam, EPS, XPS, PUR, PIR", "Light board of plastic. It melts and burns."),
    entry("finding", "Something in the design to look at: what, where, by how much, and why."),
    entry(
        "do not build, look again, good to know",
        "The three weights of a finding, the heaviest first.",
    ),
    entry("heat kept", "Share of the heat of the wood that does not leave by the chimney."),
    entry(
        "when the days repeat, once the days repeat",
        "After some days of the same firing, when each day ends as warm as it began.",
    ),
    entry(
        "nine of ten cases, band",
        "The range that holds a figure 9 times out of 10, as wood, fire and masonry are never quite as \
         stated.",
    ),
    entry(
        "unfavorable edge, in 95 of 100 cases",
        "The worse end of what may be: in 95 of 100 trials a hazard stays below it.",
    ),
    also(
        "standard route",
        "calculation of EN 15544",
        "The sizing by rules of a published standard. It stands beside the figures of this page.",
    ),
    entry("seismic, earthquakes", "How strongly the ground may shake where the house stands."),
];

/// All entries.
pub fn entries() -> impl Iterator<Item = &'static Entry> {
    GROUPS.iter().flat_map(|(_, entries)| entries.iter())
}

impl Entry {
    /// The word, then its other forms.
    pub fn forms(&self) -> impl Iterator<Item = &'static str> {
        self.forms.said().split(", ")
    }

    /// The word at the beginning of a line.
    pub fn name(&self) -> String {
        let word = self.forms().next().unwrap_or_default();
        let mut letters = word.chars();
        let first = letters.next().map(|letter| letter.to_ascii_uppercase());
        first.into_iter().chain(letters).collect()
    }

    /// In one line.
    pub fn line(&self) -> String {
        let (name, meaning) = (self.name(), self.meaning);
        match self.standard {
            Some(standard) => say!("{name}: {meaning} In standards: {standard}."),
            None => format!("{name}: {meaning}"),
        }
    }
}

/// The words of a text, in small letters, without what parts them.
pub fn words_of(text: &str) -> Vec<String> {
    let parts = text.split(|c: char| !(c.is_alphanumeric() || c == '-'));
    parts.filter(|part| !part.is_empty()).map(str::to_lowercase).collect()
}

/// A text that was looked through.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Reading {
    /// The words that are explained, in the order in which they come. Where one is part of another,
    /// as the slot of the bleed slot, only the whole counts.
    pub explained: Vec<&'static Entry>,
    /// All other words.
    pub others: Vec<String>,
}

impl Reading {
    /// Looks through a text.
    pub fn of(text: &str) -> Self {
        let words = words_of(text);
        let forms =
            |entry: &'static Entry| entry.forms().map(move |form| (entry, words_of(form)));
        let forms: Vec<_> = entries().flat_map(forms).collect();
        let (mut reading, mut rest) = (Self::default(), words.as_slice());
        while let Some((first, after)) = rest.split_first() {
            if let Some((entry, length)) = longest(&forms, rest) {
                if !reading.explained.contains(&entry) {
                    reading.explained.push(entry);
                }
                rest = rest.get(length..).unwrap_or_default();
            } else {
                reading.others.push(first.clone());
                rest = after;
            }
        }
        reading
    }
}

/// A form of a word, in words.
type Form = (&'static Entry, Vec<String>);

/// The entry with the longest form at the beginning of a text, and how many words that has.
fn longest(forms: &[Form], text: &[String]) -> Option<(&'static Entry, usize)> {
    let found = forms.iter().filter(|(_, form)| text.starts_with(form));
    found.map(|(entry, form)| (*entry, form.len())).max_by_key(|(_, length)| *length)
}

/// The words in the label and the help line of an input, explained.
pub fn terms(id: FieldId) -> Vec<String> {
    let reading = Reading::of(&format!("{}. {}", label(id), help(id)));
    reading.explained.into_iter().map(Entry::line).collect()
}

/// The glossary to read.
pub fn passage() -> Passage {
    let passage = Passage::new(TITLE).text(said(
        "One word for one thing, on the page, on paper and in files. What standards call it \
         is from memory.",
    ));
    GROUPS.iter().fold(passage, |passage, (group, entries)| {
        let rows = entries.iter().map(|entry| {
            let standard = entry.standard.map(English::said).unwrap_or_default();
            vec![Cell::from(entry.name()), entry.meaning.into(), standard.into()]
        });
        let heads = [said("Word"), said("What it means"), said("In standards")];
        passage.folded(Passage::new(*group).table(&heads, rows))
    })
}
