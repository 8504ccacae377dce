//! Heat loss of a house from its parts, as the builder notes them: areas, what they are built of,
//! air, degree days; and the wood that a winter takes.

use super::Analysis;
use crate::design::Design;
use crate::design::notes::Notes;
use crate::physics::house::{
    air_loss, charge_for, firings_for, heat_of_a_day, house_loss, layer_resistance,
    transmittance, winter_heat,
};

/// A part of the house.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Element {
    /// Outer walls.
    Wall,
    /// Other outer walls.
    OtherWall,
    /// Roof or ceiling below it.
    Roof,
    /// Floor.
    Floor,
    /// Windows.
    Windows,
    /// Outer doors.
    Doors,
}

/// Typical parts: key, transmittance (W/m2K).
///
/// # Source
///
/// [`crate::sources::TYPICAL_U`], the middle of each range; glass of one pane
/// [`crate::sources::SINGLE_GLASS`].
pub const TYPICAL: [(&str, f64); 11] = [
    ("solid_brick", 1.75),
    ("cavity", 0.65),
    ("insulated", 0.28),
    ("of_today", 0.22),
    ("passive", 0.125),
    ("roof", 0.185),
    ("floor", 0.30),
    ("single_glass", 5.0),
    ("double_glass", 1.35),
    ("triple_glass", 0.80),
    ("door", 1.5),
];

/// Key of layers.
pub const LAYERS: &str = "layers";
/// Key of an own transmittance.
pub const OWN: &str = "own";

/// Materials of layers: key, conductivity (W/mK).
///
/// # Source
///
/// [`crate::sources::BUILDING_CONDUCTIVITY`]; brick [`crate::sources::ASHRAE_2013`], stone and
/// concrete [`crate::sources::EN_12524`].
pub const CONDUCTIVITIES: [(&str, f64); 15] = [
    ("brick", 0.78),
    ("granite", 2.8),
    ("limestone", 1.7),
    ("concrete", 2.0),
    ("log", 0.13),
    ("straw", 0.065),
    ("mineral_wool", 0.040),
    ("cellulose", 0.040),
    ("wood_fiber", 0.045),
    ("polystyrene", 0.038),
    ("foam_new", 0.026),
    ("foam_salvaged", 0.030),
    ("gypsum", 0.25),
    ("plaster", 0.80),
    ("clay", 0.80),
];

/// Key of air that stands.
pub const STILL_AIR: &str = "still_air";
/// What air that stands holds back (m2K/W).
const STILL_AIR_RESISTANCE: f64 = 0.18;
/// Layers of a part.
pub const MOST_LAYERS: usize = 4;

impl Element {
    /// All of them.
    pub const ALL: [Self; 6] =
        [Self::Wall, Self::OtherWall, Self::Roof, Self::Floor, Self::Windows, Self::Doors];

    /// Its name in notes.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Wall => "wall",
            Self::OtherWall => "other_wall",
            Self::Roof => "roof",
            Self::Floor => "floor",
            Self::Windows => "windows",
            Self::Doors => "doors",
        }
    }

    /// A note on it.
    pub fn note(self, what: &str) -> String {
        format!("house.{}.{what}", self.id())
    }

    /// A note on one of its layers, from 0.
    pub fn layer_note(self, index: usize, what: &str) -> String {
        format!("house.{}.layer_{}.{what}", self.id(), index + 1)
    }

    /// What it is built as where nothing is noted.
    pub const fn usual(self) -> &'static str {
        match self {
            Self::Wall | Self::OtherWall => "insulated",
            Self::Roof => "roof",
            Self::Floor => "floor",
            Self::Windows => "double_glass",
            Self::Doors => "door",
        }
    }

    /// Resistance of its surfaces inside and outside (m2K/W).
    ///
    /// # Source
    ///
    /// [`crate::sources::ISO_6946`].
    const fn surfaces(self) -> (f64, f64) {
        match self {
            Self::Roof => (0.10, 0.04),
            Self::Floor => (0.17, 0.04),
            _ => (0.13, 0.04),
        }
    }
}

/// Names of the notes on the whole house.
pub const VOLUME: &str = "house.volume";
/// See [`VOLUME`].
pub const CHANGES: &str = "house.air_changes";
/// See [`VOLUME`].
pub const BRIDGES: &str = "house.bridges";
/// See [`VOLUME`].
pub const DEGREE_DAYS: &str = "house.degree_days";

/// Air changes an hour where nothing is noted.
pub const USUAL_CHANGES: f64 = 0.5;
/// Share by which bridges add to the parts where nothing is noted (–).
pub const USUAL_BRIDGES: f64 = 0.10;

/// A layer as it is noted.
#[derive(Clone, Debug, PartialEq)]
pub struct Layer {
    /// Key of its material; empty for none.
    pub material: String,
    /// Thickness (m).
    pub thickness: f64,
    /// What it holds back (m2K/W).
    pub resistance: f64,
}

/// A part of the house with its loss.
#[derive(Clone, Debug, PartialEq)]
pub struct PartLoss {
    /// The part.
    pub element: Element,
    /// Its area (m2).
    pub area: f64,
    /// Key of what it is built as.
    pub built_as: String,
    /// Its layers, where it is built of those.
    pub layers: Vec<Layer>,
    /// Transmittance (W/m2K); none where nothing is noted of it.
    pub transmittance: Option<f64>,
    /// Loss (W/K).
    pub loss: f64,
}

/// A house by its parts.
#[derive(Clone, Debug, PartialEq)]
pub struct Envelope {
    /// Its parts.
    pub parts: Vec<PartLoss>,
    /// What bridges add (W/K).
    pub bridges: f64,
    /// Loss by air (W/K).
    pub air: f64,
    /// Loss of the whole (W/K).
    pub coefficient: f64,
}

fn layers(notes: &Notes, element: Element) -> Vec<Layer> {
    let layer = |index| {
        let material = notes.word(&element.layer_note(index, "of")).unwrap_or_default();
        let thickness = notes.number(&element.layer_note(index, "m")).unwrap_or(0.0);
        let known = CONDUCTIVITIES.iter().find(|(key, _)| *key == material);
        let resistance = match known {
            Some((_, conductivity)) => layer_resistance(thickness, *conductivity),
            None if material == STILL_AIR => STILL_AIR_RESISTANCE,
            None => 0.0,
        };
        Layer { material: material.to_owned(), thickness, resistance }
    };
    (0..MOST_LAYERS).map(layer).collect()
}

fn part(notes: &Notes, element: Element) -> PartLoss {
    let area = notes.number(&element.note("area_m2")).unwrap_or(0.0);
    let built_as = notes.word(&element.note("as")).unwrap_or(element.usual());
    let (mut of, mut transmittance_of) = (Vec::new(), None);
    if built_as == LAYERS {
        of = layers(notes, element);
        let (inside, outside) = element.surfaces();
        let sum = of.iter().map(|layer| layer.resistance).sum::<f64>();
        transmittance_of = (0.0 < sum).then(|| transmittance(inside, sum, outside));
    } else if built_as == OWN {
        transmittance_of = notes.number(&element.note("u"));
    } else if let Some((_, value)) = TYPICAL.iter().find(|(key, _)| *key == built_as) {
        transmittance_of = Some(*value);
    }
    PartLoss {
        element,
        area,
        built_as: built_as.to_owned(),
        layers: of,
        transmittance: transmittance_of,
        loss: area * transmittance_of.unwrap_or(0.0),
    }
}

/// The house as it is noted.
pub fn envelope(notes: &Notes) -> Envelope {
    let parts: Vec<PartLoss> =
        Element::ALL.into_iter().map(|element| part(notes, element)).collect();
    let through = parts.iter().map(|part| part.loss).sum::<f64>();
    let bridges = through * notes.number(BRIDGES).unwrap_or(USUAL_BRIDGES);
    let changes = notes.number(CHANGES).unwrap_or(USUAL_CHANGES);
    let air = air_loss(changes, notes.number(VOLUME).unwrap_or(0.0));
    Envelope { parts, bridges, air, coefficient: through + bridges + air }
}

/// Heat and wood for a house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Demand {
    /// Loss in the coldest hour (W).
    pub hour: f64,
    /// Heat of the coldest day (J).
    pub day: f64,
    /// Wood of that day (kg).
    pub day_wood: f64,
    /// Charge that covers that day with the firings of the design (kg).
    pub charge: f64,
    /// Firings of the charge of the design that cover it.
    pub firings: f64,
    /// Heat and wood of a winter (J, kg), where degree days are noted.
    pub winter: Option<(f64, f64)>,
}

/// Heat and wood for a house that loses so much (W/K), with the efficiency of the height of the fire.
/// None where nothing is useful of the wood.
pub fn demand(design: &Design, analysis: &Analysis, coefficient: f64) -> Option<Demand> {
    let fire = &analysis.height_of_fire;
    let (value, efficiency) = (fire.lower_heating_value, fire.efficiency_lower);
    let site = &design.site;
    if value <= 0.0 || efficiency <= 0.0 || coefficient <= 0.0 {
        return None;
    }
    let hour = house_loss(coefficient, site.room_temperature, site.outdoor_temperature);
    let day = heat_of_a_day(hour);
    let wood = |heat| charge_for(heat, 1.0, value, efficiency);
    let winter = design.notes.number(DEGREE_DAYS).map(|degree_days| {
        let heat = winter_heat(coefficient, degree_days);
        (heat, wood(heat))
    });
    let firings = design.fire.firings_per_day;
    Some(Demand {
        hour,
        day,
        day_wood: wood(day),
        charge: charge_for(day, firings, value, efficiency),
        firings: firings_for(day, fire.charge, value, efficiency),
        winter,
    })
}

/// Dry wood in green volume (kg/m3) by kind.
///
/// # Source
///
/// [`crate::sources::STACKED_WOOD`].
pub const WOODS: [(&str, f64); 5] =
    [("Oak", 570.0), ("Beech", 560.0), ("Birch", 500.0), ("Pine", 430.0), ("Spruce", 380.0)];

/// Wood in a stack (–).
const STACKED: f64 = 2.0 / 3.0;

/// Volume of a stack of moist wood (m3).
pub fn stacked(mass: f64, moisture: f64, density: f64) -> f64 {
    mass * (1.0 - moisture) / (density * STACKED)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::notes::Note;

    fn noted(list: &[(&str, Note)]) -> Envelope {
        let mut notes = Notes::default();
        for (name, note) in list {
            assert!(notes.set(name, Some(note.clone())), "{name}");
        }
        envelope(&notes)
    }

    #[test]
    fn a_house_of_which_nothing_is_noted_loses_nothing() {
        assert!(noted(&[]).coefficient.abs() < 1e-12);
    }

    #[test]
    fn layers_are_added_by_hand() {
        let word = |word: &str| Note::Word(word.into());
        // Straw 0.35 m of 0.065: 5.385; plaster 0.03 m of 0.8: 0.0375; surfaces 0.17: 5.592 m2K/W.
        let house = noted(&[
            ("house.wall.area_m2", Note::Number(100.0)),
            ("house.wall.as", word("layers")),
            ("house.wall.layer_1.of", word("straw")),
            ("house.wall.layer_1.m", Note::Number(0.35)),
            ("house.wall.layer_3.of", word("plaster")),
            ("house.wall.layer_3.m", Note::Number(0.03)),
            ("house.bridges", Note::Number(0.0)),
        ]);
        assert!((house.coefficient - 100.0 / 5.592).abs() < 0.002, "{}", house.coefficient);
    }

    #[test]
    fn a_stack_by_hand() {
        // 1000 kg at 20 % hold 800 kg of dry wood: of oak 800 / 570 = 1.404 m3, stacked 2.105 m3.
        assert!((stacked(1000.0, 0.20, 570.0) - 2.105).abs() < 5e-4);
    }
}
