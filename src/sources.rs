//! The bibliography: one constant per publication, with how far it was checked.

use crate::language::said;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};
use std::borrow::Cow;

/// How far a source was checked by this project.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Trust {
    /// The number or formula was read, at times in a reprint.
    Seen,
    /// Written from memory and not checked against the document.
    Memory,
    /// A rule of the trade without a single authority.
    CommonPractice,
    /// Computed by this project from formulas that it names.
    Computed,
}

/// A publication, or the lack of one, behind a formula, a value or a limit.
///
/// It holds no text, so that a program that shows none carries none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Source {
    place: usize,
    /// How far it was checked.
    pub trust: Trust,
}

impl Source {
    /// The reference as a reader would cite it, with clause or table where known.
    pub fn text(&self) -> &'static str {
        said(TEXTS.get(self.place()).copied().unwrap_or_default())
    }

    /// Its place in [`ALL`] and [`TEXTS`].
    pub const fn place(&self) -> usize {
        self.place
    }
}

/// A source as it leaves the library.
#[derive(Serialize, JsonSchema)]
struct Cited {
    /// The reference as a reader would cite it, with clause or table where known.
    text: &'static str,
    /// How far it was checked.
    trust: Trust,
}

impl Serialize for Source {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Cited { text: self.text(), trust: self.trust }.serialize(serializer)
    }
}

impl JsonSchema for Source {
    fn schema_name() -> Cow<'static, str> {
        "Source".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Cited::json_schema(generator)
    }
}

/// A source with what it serves for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Name in code and messages.
    pub id: &'static str,
    /// What it serves for, a sentence.
    pub about: &'static str,
    /// The source.
    pub source: &'static Source,
}

/// Makes a constant of each source and the list of them all, so that none can be left out.
macro_rules! register {
    ($($(#[doc = $about:literal])+ pub const $id:ident: Source = $trust:ident($text:literal $(,)?);)+) => {
        /// Places of the sources.
        #[expect(non_camel_case_types, reason = "named like the constants")]
        #[expect(clippy::upper_case_acronyms, reason = "named like the constants")]
        enum Place { $($id),+ }

        $($(#[doc = $about])+ pub const $id: Source =
            Source { place: Place::$id as usize, trust: trust::$trust };)+

        /// All sources, in the order in which they stand here.
        pub const ALL: &[Entry] = &[$(Entry {
            id: stringify!($id),
            about: concat!($($about),+).trim_ascii_start(),
            source: &$id,
        }),+];

        /// Their texts.
        pub const TEXTS: &[&str] = &[$($text),+];
    };
}

/// Labels as the register below writes them.
#[expect(non_upper_case_globals, reason = "so that the register reads as a list")]
mod trust {
    use super::Trust;

    pub(super) const seen: Trust = Trust::Seen;
    pub(super) const memory: Trust = Trust::Memory;
    pub(super) const practice: Trust = Trust::CommonPractice;
    pub(super) const computed: Trust = Trust::Computed;
}

register! {
/// Heating value of wood from its elements.
pub const CHANNIWALA_PARIKH_2002: Source =
    seen("Channiwala and Parikh, Fuel 81 (2002) 1051-1063, unified correlation");
/// Lower heating value from the higher one and the water that leaves as vapor.
pub const NET_HEATING_VALUE: Source = seen(
    "Kanchanrai, fuel analysis table: net from gross heating value, 2.447 MJ per kg of water",
);
/// Composition of oak and pine.
pub const WOOD_OAK_PINE: Source =
    seen("Kanchanrai, fuel analysis table: ultimate analysis of oak and pine");
/// Composition of wood in general.
pub const WOOD_GENERIC: Source =
    memory("Typical ultimate analysis of wood: C 50, H 6, O 43, N 0.2, ash 0.8 % of dry mass");
/// Composition of dry air.
pub const DRY_AIR: Source =
    memory("U.S. Standard Atmosphere 1976, table 3: composition of dry air");
/// Pressure of the standard atmosphere.
pub const STANDARD_ATMOSPHERE: Source =
    memory("U.S. Standard Atmosphere 1976 (ISO 2533), troposphere");
/// Heat capacities and enthalpies of the gases.
pub const GRI_MECH_THERMO: Source =
    seen("GRI-Mech 3.0 thermodynamic data, NASA seven-coefficient polynomials");
/// Transport properties of the pure gases.
pub const PURE_GAS_TRANSPORT: Source = computed(
    "Fit of this project to the reference equations in CoolProp 8.0 (Lemmon and Jacobsen 2004; \
     Huber and others 2016; Laesecke and Muzny 2017; IAPWS 2008 and 2011), within 0.5 %",
);
/// Viscosity of a gas mixture.
pub const WILKE_1950: Source = memory("Wilke, J. Chem. Phys. 18 (1950) 517-519");
/// Thermal conductivity of a gas mixture.
pub const MASON_SAXENA_1958: Source = memory(
    "Mason and Saxena, Phys. Fluids 1 (1958) 361-369, with Wassiljewa's form; factor 1 as \
            in Poling, Prausnitz and O'Connell, The Properties of Gases and Liquids (2001)",
);
/// Density of air and gas.
pub const IDEAL_GAS: Source = memory("Ideal gas law; textbooks of thermodynamics");
/// Pull of a column of hot gas.
pub const STACK_EFFECT: Source = memory(
    "Weight of a column of outdoor air less that of the gas beside it; textbooks of fluid mechanics",
);
/// Dynamic pressure, and losses that go with it.
pub const BERNOULLI: Source = memory(
    "Bernoulli's equation with Darcy and Weisbach's loss; textbooks of fluid mechanics",
);
/// What comes in as heat goes out or stays.
pub const ENERGY_BALANCE: Source =
    memory("First law of thermodynamics; textbooks of thermodynamics");
/// Gas that nears the temperature of walls along its way.
pub const HEAT_EXCHANGER: Source = memory(
    "Stream along a wall of one temperature: the distance falls as exp(-N); textbooks of heat transfer",
);
/// Films and layers one behind the other.
pub const FOURIER: Source =
    memory("Fourier's law, resistances in series; textbooks of heat transfer");
/// Elements that burn, air that they need.
pub const ELEMENT_BALANCE: Source =
    memory("Balance of the elements in complete combustion; textbooks of combustion");
/// Heat loss of a house.
pub const EN_12831: Source = memory(
    "EN 12831, simplified: loss by walls and air goes with the difference of the temperatures",
);
/// Layers and surfaces of a wall.
pub const ISO_6946: Source = seen(
    "ISO 6946 as teaching texts print it: layers in series; surfaces 0.13 (walls), 0.10 (roofs), 0.17 \
     (floors) inside and 0.04 m2K/W outside; unventilated air 0.18 m2K/W",
);
/// Sum of the cold of a winter.
pub const DEGREE_DAYS: Source =
    memory("Degree days: the difference between room and outdoors, summed over days of heating");
/// Transmittance of parts of houses.
pub const TYPICAL_U: Source = memory(
    "Typical transmittance: solid brick 1.5-2.0, cavity of the 1980s 0.5-0.8, insulated wall 0.20-0.35, \
     of today 0.15-0.28, passive house 0.10-0.15, roof 0.12-0.25, floor 0.2-0.4, double glazing \
     1.1-1.6, triple 0.7-0.9, doors 1.0-2.0 W/m2K, probably",
);
/// Glass of one pane.
pub const SINGLE_GLASS: Source =
    seen("Window of a single pane in wood, 5.0 W/m2K, in a teaching text");
/// Conductivity of what walls are built of.
pub const BUILDING_CONDUCTIVITY: Source = memory(
    "ISO 10456 and authors, from memory: softwood across the grain 0.13, straw bales 0.05-0.08, \
     mineral wool 0.036-0.045, cellulose 0.04, wood fiber board 0.045, polystyrene 0.035-0.040, \
     polyurethane new 0.023-0.028 and aged 0.03, gypsum board 0.25, plaster 0.8 W/mK",
);
/// How often the air of a house changes.
pub const AIR_CHANGES: Source = memory(
    "Air changes: tight house 0.1-0.3 an hour, average 0.5, leaky 1.0-2.0, probably",
);
/// Thermal bridges.
pub const BRIDGES: Source =
    practice("Corners, studs and edges: a tenth more than the parts lose, where nothing is known");
/// How much wood a stack holds.
pub const STACKED_WOOD: Source = memory(
    "Dry wood in green volume, probably: beech 560, oak 570, birch 500, pine 430, spruce 380 kg/m3; two \
     thirds of a stack are wood; a cord is 128 ft3",
);
/// How long a house holds its heat.
pub const HOUSE_TIME_CONSTANT: Source = practice(
    "Time constant of a house, rough: 30 h in light timber, 70 h mixed, 150 h in heavy masonry",
);
/// How warm a room may be in winter.
pub const EN_16798_ROOM: Source =
    memory("EN 16798-1, probably: living rooms 20-24 C in the heating season (category II)");
/// Level at which a house neither sucks nor presses.
pub const NEUTRAL_LEVEL: Source = practice(
    "Neutral level at half the height of a house that leaks evenly; leaks high up raise it and the \
     suction below",
);
/// What stays open in a damper.
pub const DAMPER_OPENING: Source = memory(
    "Main damper, probably: an opening of at least 3 % of the flue and 20 cm2 that stays; it vents \
     only while the draft is positive",
);
/// When a damper may be closed.
pub const DAMPER_CLOSING: Source = practice(
    "Damper closed only when the bed has been raked through and shows no red and no blue flame, \
     never by the clock",
);
/// Char that is left long after the flame.
pub const CHAR_LEFT: Source = seen(
    "Laboratory test of a heater, report summary: of 23 kg of wood 2.5 kg of charcoal left at 3.5 \
     hours and 1.2 kg at 7.5 hours",
);
/// Carbon monoxide of char in a closed house.
pub const CHAR_MONOXIDE: Source = computed(
    "0.1 kg of char an hour with a fifth of its carbon to carbon monoxide is 42 g/h: some 255 ppm \
     in 283 m3 at half an air change an hour, 640 ppm at a fifth",
);
/// Alarms.
pub const MONOXIDE_ALARM: Source =
    practice("Carbon monoxide alarm in the room of the heater and where people sleep");
/// How long a cold heater may smoke when it is lit.
pub const FIRST_PUFFS: Source = computed(
    "kindling that comes up to 2 kg an hour within a minute, with 83 g of carbon monoxide per kg, all \
     of it into 47 m3 at half an air change an hour: 34.7 mg/m3 over an hour after 75 s of smoke, 97 \
     mg/m3 over a quarter of an hour after 135 s; WHO guidelines for indoor air (2010, from memory): 35 \
     mg/m3 for an hour, 100 mg/m3 for a quarter of an hour",
);
/// What everybody who runs a heater knows.
pub const RUNNING: Source = practice(
    "Carbon monoxide has no smell and comes from char and from fires short of air; fans off while \
     the fire burns, cleanouts shut, no smoldering fire, everybody out when the alarm sounds",
);
/// Too much wood at a time.
pub const TISSARI_LOAD: Source = seen(
    "Tissari and others (Kuopio), abstract: a doubled load raised emission factors up to four times, \
     as fast pyrolysis got too little air",
);
/// How a heater is fired.
pub const FIRING: Source = seen(
    "Brick Institute of America, Technical Notes on brick masonry heaters (reprint of 1983): one or \
     two full charges a day, door closed, air open while the flame stands",
);
/// Air from outdoors.
pub const OUTSIDE_AIR: Source = memory(
    "Duct for outdoor air, probably: cannot burn near the heater, 25 mm to what can for 1.5 m, \
     screened, closable, not from garage or attic, never rising above the firebox",
);
/// Air that a fire needs.
pub const AIR_PER_WOOD: Source =
    practice("About 10-12 m3 of air (at 0 C) for a kilogram of wood");
/// The first fires.
pub const CURING: Source = practice(
    "Air-dry for 2-4 weeks, then fires of 1.4-2.3 kg, as much more each day, two a day 6 hours apart",
);
/// What salvaged parts may hold.
pub const SALVAGE: Source = practice(
    "Old panels, gaskets and pipe insulation may hold asbestos, old paint lead; sooted or salty chimney \
     brick; dust of silica; paper of ceramic fiber; painted or treated wood is no fuel",
);
/// What burns on in the ash.
pub const ASH: Source = practice("Ash in a lidded metal can outdoors for days");
/// How often a chimney is looked at.
pub const NFPA_211_INSPECTION: Source =
    memory("NFPA 211, surely remembered: chimneys are inspected at least once a year");
/// Whether a chimney pulls before it is lit.
pub const DRAFT_CHECK: Source = practice(
    "A flame held to a cleanout shows the draft before lighting; paper burned in bypass or cleanout \
     warms a cold flue",
);
/// Weight of what stands on the ground.
pub const WEIGHT: Source = memory("Weight over area; standard free fall 9.80665 m/s2");
/// Surfaces, lengths and sums of a body.
pub const GEOMETRY: Source = computed("Geometry of the parts as the design states them");
/// Saturation of water vapor, in the form of the chimney standard.
pub const EN_13384_DEW_POINT: Source = memory("EN 13384-1, water dew point of the flue gas");
/// Laminar flow and heat transfer in rectangular ducts.
pub const SHAH_LONDON_1978: Source = memory(
    "Shah and London, Laminar Flow Forced Convection in Ducts (1978), rectangular ducts",
);
/// Laminar thermal entrance.
pub const VDI_LAMINAR: Source =
    memory("VDI Heat Atlas, G1: laminar flow in tubes, isothermal wall, thermal entrance");
/// Turbulent heat transfer in smooth ducts.
pub const GNIELINSKI_1976: Source =
    seen("Gnielinski, Int. Chem. Eng. 16 (1976) 359-368, with entrance term after Hausen");
/// Heat transfer between laminar and turbulent flow.
pub const GNIELINSKI_2013: Source =
    memory("Gnielinski, Int. J. Heat Mass Transfer 63 (2013) 134-140, transition region");
/// Heat transfer of rough ducts.
pub const NORRIS_1970: Source = memory(
    "Norris (1970) in Augmentation of Convective Heat and Mass Transfer, ASME: exponent \
     0.68 Pr^0.215, friction ratio at most 4",
);
/// Friction factor of a smooth duct.
pub const KONAKOV_1946: Source =
    memory("Konakov (1946), as used by Gnielinski in the VDI Heat Atlas");
/// Friction factor of a rough duct.
pub const COLEBROOK_1939: Source = memory("Colebrook, J. Inst. Civ. Eng. 11 (1939) 133-156");
/// Friction factor of a rough duct, explicit.
pub const HAALAND_1983: Source = memory("Haaland, J. Fluids Eng. 105 (1983) 89-90");
/// Emissivity of carbon dioxide and water vapor.
pub const LECKNER_1972: Source = memory(
    "Leckner, Combustion and Flame 19 (1972) 33-48, as tabulated by Modest, Radiative Heat \
     Transfer; overlap term seen, constants from memory",
);
/// Emissivity of combustion gas as a sum of gray gases.
pub const SMITH_1982: Source =
    seen("Smith, Shen and Friedman, J. Heat Transfer 104 (1982) 602-608, table 1");
/// Mean beam length and gray-wall exchange.
pub const HOTTEL_SAROFIM_1967: Source =
    memory("Hottel and Sarofim, Radiative Transfer (1967): beam length 3.6 V/A, gray walls");
/// Conduction into solids.
pub const CARSLAW_JAEGER_1959: Source =
    memory("Carslaw and Jaeger, Conduction of Heat in Solids (1959), 2.9 and 3.8");
/// Heat given off by a face to the room.
pub const SURFACE_EMISSION: Source = memory(
    "Radiation and turbulent natural convection, 1.31 (T_s - T_r)^(4/3) W/m2, textbook form",
);
/// Forced and natural convection together.
pub const CHURCHILL_1977: Source =
    memory("Churchill, AIChE J. 23 (1977) 10-16: sum of the cubes of the Nusselt numbers");
/// Turbulent natural convection on an upright face.
pub const BAYLEY_1955: Source = memory(
    "Bayley, Proc. Inst. Mech. Eng. 169 (1955) 361-370, as textbooks print it: Nu = 0.10 Ra^(1/3)",
);
/// Sudden changes of section.
pub const BORDA_CARNOT: Source = memory("Borda-Carnot: sudden expansion, contraction, inlet");
/// Properties of fireclay and insulating brick.
pub const VDI_REFRACTORIES: Source =
    seen("VDI Heat Atlas (2010), table of refractories, as carried by the ht library");
/// Properties of brick.
pub const ASHRAE_2013: Source = seen("ASHRAE Handbook (2013), as carried by the ht library");
/// Properties of stone, tile, concrete and steel.
pub const EN_12524: Source = seen("EN 12524 / ISO 10456, as carried by the ht library");
/// Properties known only from memory.
pub const MATERIAL_FROM_MEMORY: Source =
    memory("Material value from memory: obtain a data sheet");
/// Hottest that refractories may get.
pub const REFRACTORY_SERVICE: Source = memory(
    "Dense fireclay 1300-1400 C, high-duty 1400-1450 C, surely remembered; refractory concrete \
     1200-1500 C, vermiculite board 1000-1100 C, probably: obtain a data sheet",
);
/// Hottest that clay brick and tile may get.
pub const BRICK_SERVICE: Source = memory(
    "Common clay brick 600-900 C and not in a firebox, clay tile 1000 C and cracked by sudden heat, \
     probably: obtain a data sheet",
);
/// Hottest that stone may get.
pub const STONE_SERVICE: Source = memory(
    "Soapstone 1000-1300 C; granite 300-500 C, as its quartz grows at 573 C; limestone 500-600 C; \
     sandstone 500 C, probably: obtain a data sheet",
);
/// Hottest that stainless steel may get.
pub const STAINLESS_SERVICE: Source =
    memory("Stainless steel 550-800 C, surely remembered; liners to T600");
/// Hottest that concrete may get.
pub const CONCRETE_SERVICE: Source =
practice(
    "Concrete: 400 F (204 C) in the trade, 200-300 C from memory; of its strength it keeps 0.95 at \
     200 C, 0.85 at 300 C and 0.75 at 400 C, EN 1992-1-2 with siliceous gravel, from memory",
);
/// Wall across a gap from the back of a heater.
pub const WALL_BEHIND: Source = computed(
    "Balance of this project: radiation between gray faces of 0.9, film of 3.5 W/m2K, air of the gap \
     10 K above the room where it flows freely, half as warm as the back where poorly, shut in \
     otherwise",
);
/// Insulation of a wall of a house.
pub const WALL_U_VALUE: Source = memory(
    "Insulated wall 0.20-0.35 W/m2K, probably; the better it is, the hotter its face behind a heater",
);
/// Air shut in an upright space.
pub const ISO_6946_AIRSPACE: Source = memory(
    "EN ISO 6946, annex on air spaces, probably: heat flow level, up to 0.3 m of air, 0.73 W/m2K times the \
     cube root of the difference in K, 1.25 at 5 K or less; not less than by still air",
);
/// Gap that counts as ventilated.
pub const VENTILATED_GAP: Source = memory(
    "NFPA 211, notes to table 12.6.2.1: a ventilated air space is at least 1 in wide and open at \
     bottom and top",
);
/// Route for one-off heaters: loads, firebox, path length.
pub const EN_15544_SIZES: Source = memory(
    "After EN 15544: per kg of wood 900 cm2 of firebox surface; firebox 25 cm high and 1 cm more \
     per kg; smoke path 1.3 m, with an air gap in the shell 1.5 m, times the square root of the \
     charge in kg",
);
/// Nominal output, edition of 2009.
pub const EN_15544_OUTPUT: Source = memory(
    "After EN 15544 (2009), surely remembered: output 3.25 kWh per kg over the heating period",
);
/// Nominal output, edition of 2023.
pub const EN_15544_OUTPUT_2023: Source = memory(
    "After EN 15544 (2023), probably: output 4.16 kWh/kg times the efficiency over the heating \
     period; that the efficiency varies was read in a catalog abstract",
);
/// Smallest charge.
pub const EN_15544_LEAST_CHARGE: Source =
    memory("After EN 15544 (2009), surely remembered: smallest charge half of the largest");
/// Heating period.
pub const EN_15544_PERIOD: Source =
    seen("EN 15544 (2023), catalog abstract: heating period 8-24 h");
/// Largest base of the firebox.
pub const EN_15544_LARGEST_BASE: Source = memory(
    "After EN 15544: smallest base 100 cm2/kg, surely remembered; largest from surface, perimeter \
     and least height, probably",
);
/// Shape of the base of the firebox.
pub const EN_15544_BASE: Source =
    memory("After EN 15544, probably: sides 1:1 to 1:2, at least 23 cm wide");
/// Length of the path for an efficiency.
pub const EN_15544_FACTOR: Source = computed(
    "The route's lines of temperature and efficiency (from memory) solved for the length; the \
     table of 2023 was not seen",
);
/// Height of the lowest inlet of air.
pub const EN_15544_AIR_INLET: Source = seen(
    "EN 15544, catalog abstract: air from the side, the lowest opening at least 5 cm above the floor \
     of the firebox",
);
/// Bleed slot.
pub const EN_15544_BLEED: Source =
    memory("After EN 15544, surely remembered: bleed slot 1 cm2 per kg");
/// Burning rate, flows, densities.
pub const EN_15544_FLOW: Source = memory(
    "After EN 15544, surely remembered: 0.78 m_B kg/h; air 0.00256 m_B and gas 0.00273 m_B m3/s \
     at 0 C and sea level, 1.293 and 1.282 kg/m3",
);
/// Temperatures for the pressure calculation.
pub const EN_15544_TEMPERATURE: Source = memory(
    "After EN 15544, surely remembered: 700 C in the firebox, 550 exp(-0.83 L/L_min) C in the runs",
);
/// Pressures.
pub const EN_15544_PRESSURE: Source = memory(
    "After EN 15544, surely remembered: standing pressure, fully rough friction, pull between \
     resistance and 5 % more",
);
/// Table of turns.
pub const EN_15544_TURN_TABLE: Source = memory(
    "After EN 15544, probably: loss coefficient 0.1, 0.2, 0.4, 0.8, 1.2 at 10, 30, 45, 60, 90 \
     degrees; a reversal as two turns of 90; short straights interpolated",
);
/// Wall at the mouth.
pub const EN_15544_DEW_POINT: Source =
    memory("After EN 15544, probably: inner wall at the mouth at least 45 C");
/// Efficiency line.
pub const EN_15544_EFFICIENCY: Source = memory(
    "After EN 15544, surely remembered: efficiency 101.09 - 0.0941 t %, at least 78 % (2009)",
);
/// Fireclay.
pub const EN_15544_FIRECLAY: Source = seen(
    "EN 15544 (2023), catalog abstract: fireclay 1750-2300 kg/m3, 0.90-1.35 W/mK at 20-400 C",
);
/// Window of gas speed in the runs.
pub const EN_15544_SPEED: Source = memory("After EN 15544: 1.2 to 6 m/s in the runs");
/// Range of wood moisture.
pub const EN_15544_MOISTURE: Source =
    seen("EN 15544 (2023), catalog abstract: wood moisture 12-20 % wet basis");
/// Range of the charge.
pub const EN_15544_CHARGE: Source =
    seen("EN 15544 (2023), catalog abstract: charge 10-40 kg, 5-40 kg in type-tested chambers");
/// Excess air over a burn.
pub const EXCESS_AIR_PRACTICE: Source =
    practice("Excess air 1.5-2.5 while the flame stands, 3-6 while the char burns");
/// Moisture of air-dried wood.
pub const MOISTURE_PRACTICE: Source = practice(
    "Air-dried wood of one stack differs by some points of moisture, and a meter reads some wrong",
);
/// Share of glass.
pub const EN_15544_GLASS: Source =
    seen("EN 15544 (2023), catalog abstract: glass at most 1/5 of the chamber surface");
/// Speed of the combustion air.
pub const EN_15544_AIR: Source =
    seen("EN 15544, catalog abstract: combustion air enters at 2-4 m/s");
/// Reversal through a slot.
pub const REVERSAL_PRACTICE: Source = practice(
    "Reversal of 180 degrees through a slot as high as the channel: 3.0, authors from 2.0 to 4.5",
);
/// How far apart authors are on a turn.
pub const EN_15544_TURN_SPREAD: Source = practice(
    "Turn of 90 degrees: 1.2 in the table of EN 15544 (from memory), authors differ by half of it",
);
/// Roughness of runs and flues.
pub const ROUGHNESS: Source = memory("EN 15544 and EN 13384-1, tables of mean roughness");
/// Chimney calculation.
pub const EN_13384: Source = memory(
    "EN 13384-1: wall at the mouth at or above the water dew point (dry operation) or 0 C (wet)",
);
/// Outside films of a chimney.
pub const EN_13384_FILMS: Source =
    memory("EN 13384-1: 8 W/m2K inside a building, 23 W/m2K outdoors");
/// Gas that cools in a chimney.
pub const EN_13384_COOLING: Source = memory(
    "EN 13384-1, surely remembered: cooling along the flue, inner film, half of the wall's \
     resistance for the pull and all of it for the wall",
);
/// Heat capacity of wood gas in the standard route's chimney.
pub const ROUTE_HEAT_CAPACITY: Source = computed(
    "Mean heat capacity of wood gas at excess air 2.95 from 20 to 150 C, 1040 J/kgK: in place of \
     the constants of EN 13384-1, which are not known here",
);
/// Window of the gas into the chimney.
pub const CHIMNEY_ENTRY_WINDOW: Source = practice(
    "Gas into the chimney 120-200 C good, to 250 C look again, above it wasteful; below 120 C \
     only with a wet-rated liner",
);
/// Chimney designation.
pub const CHIMNEY_CLASS: Source = memory(
    "EN 1443 designation (T400, T600); in North America residential type, 1000 F (538 C) continuous",
);
/// Wood beyond what a heater is laid out for.
pub const OVERLOAD_CHARGE: Source = practice(
    "a quarter more wood than stated: charges of one and the same heater differed by 20 and 29 % \
     in laboratory test reports (68.3 and 81.9 lb, 55 and 70.8 lb), a user's differ no less",
);
/// Hottest that steel sheet may get.
pub const STEEL_SERVICE: Source =
    memory("Mild steel 400-450 C, above which it scales, probably: obtain a data sheet");
/// Hottest that mortar of lime or cement may get.
pub const MORTAR_SERVICE: Source =
    memory("Mortar of lime or cement 200-300 C, mortar of clay 500 C, probably");
/// Hottest that mineral wool may get.
pub const WOOL_SERVICE: Source =
    memory("Mineral wool 600-750 C, probably: obtain a data sheet");
/// Rise of what can burn beside a heater.
pub const COMBUSTIBLE_RISE: Source = memory(
    "EN 13229, EN 13240 and EN 15250, test walls: at most 65 K above the room, surely remembered; \
     UL 1482 and NFPA practice 117 F (65 K); model fire ordinance 85 C",
);
/// Wood that stays hot.
pub const WOOD_FOR_LONG: Source = seen(
    "Babrauskas, Gray, Janssens, Fire and Materials 31(2) 2007, abstract: a surface of 77 C and more \
     that is held against wood can ignite it in the end",
);
/// Hottest that foam and sheeting may get.
pub const FOAM_SERVICE: Source = memory(
    "EPS and XPS 75 C, PUR and PIR 90-100 C, kraft facings and membranes 80 C, probably: obtain a \
     data sheet",
);
/// Foam that faces a room.
pub const FOAM_BARRIER: Source = memory(
    "IRC R316.4: foam is kept from the room by a thermal barrier, 1/2 in of gypsum board",
);
/// Faces to sit and lie on.
pub const BENCH_TOUCH: Source =
    memory("ISO 13732-1: 43 C for 8 h, 48 C for 10 min on any material, surely remembered");
/// Faces within reach of small children.
pub const CHILD_TOUCH: Source = memory(
    "ISO 13732-1: burns from 66-70 C on ceramic and stone, 55-60 C on bare metal, after 10 s; a weak \
     memory, obtain the standard",
);
/// Suction with which air comes through an opening.
pub const AIR_OPENING: Source = memory(
    "EN 13384-1: 3 Pa for the air supply with openings, 4 Pa without; flow through a sharp opening",
);
/// Bleed slot, where no standard asks for it.
pub const BLEED_PRACTICE: Source = seen(
    "Trade magazine, October 2005: a small slot lets trapped gas escape while a run is cold; 1 cm2 per \
     kg of wood after EN 15544, from memory",
);
/// Air with which an overloaded fire still burns.
pub const AIR_OF_OVERLOAD: Source = practice(
    "1.95 is the least air of tested chambers in EN 15544 (2023), seen in a catalog abstract; flames \
     burn with 1.5 to 2.5; a quarter more wood as in laboratory test reports",
);
/// Heat that a masonry heater must give.
pub const LEAST_USE: Source = memory(
    "EN 15544 (2009): efficiency at least 78 %, on the lower heating value; EN 15250: at least 70 %",
);
/// Gas at the peak of a firing against the rating of the chimney.
pub const CHIMNEY_PEAK: Source = seen(
    "Leppanen and others, abstract: gas 37-212 K hotter at the peak of a nominal test than its \
     mean; ratings after EN 1443 (T400, T600) and, in North America, 1000 F (538 C), from memory",
);
/// Discharge of a sharp-edged opening.
pub const DISCHARGE: Source = memory(
    "sharp-edged orifice at high Reynolds numbers, 0.60 to 0.62; fluid mechanics textbooks",
);
/// Hottest face of a masonry heater.
pub const ASTM_E1602_FACE: Source = seen(
    "ASTM E1602, definition of a masonry heater (encyclopedia copy): outer surface at most 110 C \
     but right around the loading door",
);
/// Outdoors when the least draft is checked.
pub const MILD_DAY: Source =
    memory("EN 13384-1: 15 C outdoors where the least draft of a chimney is checked");
/// Suction of a house against its chimney.
pub const HOUSE_SUCTION: Source = memory(
    "EN 13384-1: 4 Pa for the supply of air from a room without openings of its own, as the least \
     suction of a house that is judged",
);
/// Suction that a fire bears.
pub const SUCTION_BORNE: Source = memory(
    "4 Pa of suction for a fire that takes its air from the room, 8 Pa for one with a tight duct from \
     outdoors, probably: practice of European approvals",
);
/// Bypass for lighting.
pub const BYPASS_PRACTICE: Source = practice(
    "Bypass damper on long runs for cold starts, closed once the flue draws",
);
/// First fire in cold masonry.
pub const COLD_START: Source = practice(
    "Cold start: a kindling fire of 1-2 kg/h with excess air of 4-6 and gas of about 250 C draws \
     while masonry and flue are cold",
);
/// Wood that was not dried long enough.
pub const TRIAL_WOOD: Source =
    practice("Trial: wood of 30 % moisture, as it is after one summer in a poor stack");
/// Fans of the house.
pub const TRIAL_FAN: Source = memory(
    "Trial: fans add 4 Pa to the suction of the house, so that at least 8 Pa are reckoned with, the \
     most for a fire that is fed from outdoors",
);
/// A heater that is due for cleaning.
pub const TRIAL_SOOT: Source =
    practice("Trial: 10 mm of ash on the floor of every run, 1-2 mm of soot on the walls");
/// Wind onto the mouth.
pub const TRIAL_WIND: Source = memory(
    "EN 13384-1: wind of 25 Pa inland (40 Pa at the coast) onto a mouth in an unfavorable place",
);
/// Reserve of draft.
pub const DRAFT_RESERVE: Source =
    practice("Draft margin when hot of at least 3 Pa and 15 % of the losses");
/// Masonry heater clearances of the North American codes.
pub const IRC_R1002_CLEARANCE: Source = seen(
    "IRC R1002.5 / IBC 2112.5 (code reprint): 36 in (914 mm); 4 in (102 mm) where walls are 8 in \
     and channel walls 5 in of solid masonry",
);
/// Cap slab to ceiling.
pub const IRC_R1002_CEILING: Source = seen(
    "IRC R1002.5 exception 1, second sentence (code reprint; reading from memory): 8 in (203 mm) \
     above a gas-tight cap slab",
);
/// In front of the door.
pub const E1602_DOOR: Source =
    memory("ASTM E1602: 48 in (1220 mm) in front of the loading door");
/// European distances.
pub const MODEL_FIRE_ORDINANCE: Source = memory(
    "Model fire ordinance (national law varies): 400 mm from the heater and a single-wall connector, \
     or at most 85 C at what can burn; 800 mm in the radiation zone of door and glass; floor that \
     cannot burn 500 mm in front of the door and 300 mm beside it",
);
/// Heat through glass.
pub const GLASS_PRACTICE: Source = practice(
    "About 10 kW per m2 of glass in full fire, 3-5 % of the heat, straight to the room",
);
/// What can burn in front of glass.
pub const GLASS_RADIATION: Source = computed(
    "Balance of this project: glass as a disc that gives off what the fire has it, 10 kW/m2 or more, \
     wood of 0.93 that loses heat to the room alone, at most 65 K above it",
);
/// Emissivity of a wood flame.
pub const FLAME_EMISSIVITY: Source = practice("Wood flame in a firebox: emissivity 0.3-0.7");
/// Carbon monoxide of heaters in homes.
pub const HEARTH_EMISSIONS: Source = seen(
    "Barnett, McCrillis and Crooks, EPA/600/A-93/059 (record): carbon monoxide 41 and 83 g per kg \
     of wood from two heaters in homes, against 14 g in a laboratory",
);
/// Convection in the firebox.
pub const FIREBOX_CONVECTION: Source =
    practice("Inside film of a firebox about 8 W/m2K, small beside radiation");
/// How far formulas for convection in ducts are off.
pub const CONVECTION_SPREAD: Source = memory(
    "Gnielinski (1976): most measurements in smooth tubes within 20 %; rough and short ducts \
     between laminar and turbulent flow are known less well",
);
/// How far formulas for the radiation of combustion gas are off.
pub const GAS_RADIATION_SPREAD: Source = memory(
    "Leckner (1972) within 5 % for water vapor and 10 % for carbon dioxide above 400 K; beam \
     length, soot and dust of the gas come on top",
);
/// Conductivity of mineral wool.
pub const WOOL_CONDUCTIVITY: Source = memory(
    "Mineral wool 0.036-0.045 W/mK cold, 0.10-0.15 W/mK at 300-400 C; brick 0.68-0.90 W/mK with \
     its density",
);
/// Film outside a chimney.
pub const OUTSIDE_FILM_SPREAD: Source = practice(
    "Film of 8 W/m2K in a house and 23 W/m2K outdoors (EN 13384-1): natural convection and \
     radiation of 6-11 in still air, 15-35 outdoors with the wind",
);
/// Quantiles of the normal distribution.
pub const WICHURA_1988: Source =
    seen("Wichura, Algorithm AS 241, Applied Statistics 37 (1988) 477-484, in a reprint");
/// Samples that cover every range evenly.
pub const MCKAY_1979: Source =
    memory("McKay, Beckman and Conover, Technometrics 21 (1979) 239-245: Latin hypercube");
/// Samples of which no two go along with one another.
pub const OWEN_1994: Source =
    memory("Owen, J. Am. Stat. Assoc. 89 (1994) 1517-1522: correlations in Latin hypercubes");
/// Random numbers.
pub const ONEILL_2014: Source =
    memory("O'Neill, PCG (2014), report HMC-CS-2014-0905: generator PCG-XSH-RR 64/32");
/// Quantiles of a sample.
pub const HYNDMAN_FAN_1996: Source =
    memory("Hyndman and Fan, The American Statistician 50 (1996) 361-365: sample quantiles");
/// Rank correlation.
pub const SPEARMAN_1904: Source =
    memory("Spearman, Am. J. Psychology 15 (1904) 72-101: correlation of ranks");
/// No rule set chosen.
pub const NO_RULE_SET: Source = practice("No rule set: local code was not looked at");
/// Usual ranges of the inputs.
pub const USUAL_RANGE: Source =
    practice("Range in which heaters are usually built, chosen by this project");
/// Hearth in front of the loading door.
pub const IRC_R1001_HEARTH: Source = seen(
    "IRC R1001.10 (code reprint), for fireplaces, used alike here: hearth 16 in in front and 8 in \
     beside the opening, from 6 ft2 of opening on 20 in and 12 in",
);
/// Protection in front of what can burn.
pub const NFPA_211_PROTECTION: Source = seen(
    "NFPA 211 table 12.6.2.1 (reprint of the table; its conditions from memory): clearances of 36 in \
     with protection",
);
/// Chimney to wood.
pub const IRC_R1003_CLEARANCE: Source = seen(
    "IRC R1003.18 / IBC 2113.19 (code reprint): 2 in (51 mm) in the house or its wall, 1 in (25 mm) \
     wholly outside",
);
/// Height above the roof.
pub const IRC_R1003_TERMINATION: Source = seen(
    "IRC R1003.9 (code reprint): 3 ft above the highest point of the roof where it passes through, \
     2 ft above all within 10 ft",
);
/// Wall and liner of a chimney.
pub const IRC_R1003_WALL: Source = seen(
    "IRC R1003.10 and R1003.11 (code reprint; that a liner must be there from memory): liner in 4 in, \
     nominal, of solid masonry, which is 3 5/8 in (92 mm) of brick",
);
/// Cleanout of a chimney.
pub const IRC_R1003_CLEANOUT: Source = memory(
    "IRC R1003.17, surely remembered: cleanout within 6 in of the foot of the flue, 6 in (152 mm) \
     from wood; Ontario BC 9.21.5.1 seen with 150 mm",
);
/// Fire of the soot, North America.
pub const SOOT_FIRE_NORTH_AMERICA: Source = memory(
    "Residential type: clay liner ASTM C315 in masonry, or a metal chimney UL 103 type HT",
);
/// Fire of the soot, Europe.
pub const SOOT_FIRE_EUROPE: Source =
    memory("EN 1443 designation: soot-fire class G for wood, with its own distance");
/// Connector to what can burn.
pub const CONNECTOR_NORTH_AMERICA: Source = memory(
    "NFPA 211, surely remembered: single-wall connector 18 in (457 mm) to what can burn, never \
     through a wall or ceiling",
);
/// Footing.
pub const IRC_R1001_FOOTING: Source = seen(
    "IRC R1001.2, R1002.3, R1003.2 (code reprint): footing 12 in thick, 6 in wider on every side, \
     below frost or 12 in below grade",
);
/// Soil.
pub const IRC_R401_SOIL: Source =
    seen("IRC table R401.4.1 (code reprint): presumptive load-bearing values of soil");
/// Earthquakes.
pub const IRC_R1002_SEISMIC: Source = memory(
    "IRC R1002.4, surely remembered: in category D anchor the heater to its foundation; \
     reinforcement where it is higher than 3.5 times its width or carries the chimney",
);
/// Where earthquakes are strongest.
pub const IRC_SEISMIC_E: Source = memory(
    "IRC R301.2.2, surely remembered: a house in category E is designed after the IBC, by an \
     engineer; what R1002.4 allows holds to category D2",
);
/// Mass of a masonry heater.
pub const ASTM_E1602_MASS: Source = seen(
    "ASTM E1602 / IBC 2112.1, definition of a masonry heater (code reprint): at least 800 kg \
     (1760 lb) without chimney and base",
);
/// What masons advise beyond the code.
pub const BIA_NOTES: Source = seen(
    "BIA Technical Notes on masonry heaters, 1983, p. 25 (reprint): 12 in (300 mm) to what can burn all \
     around",
);
/// Path of a masonry heater.
pub const ASTM_E1602_PATH: Source = memory(
    "ASTM E1602 / IBC 2112.1, definition of a masonry heater: the path turns by 180 degrees at least \
     once (seen in part), and is at least twice as long as the firebox in its largest dimension",
);
/// What lies below the heater.
pub const BELOW_HEATER: Source = computed(
    "Foam below a heater reaches 180-310 C through firebrick and concrete, 53-83 C below a ventilated \
     void with vermiculite board (one-dimensional, periodic); foam bears 75-100 C, from memory",
);
/// Cleanouts of the runs.
pub const CLEANOUT_PRACTICE: Source = practice(
    "A brush reaches 1.5 m of run from one end and 3 m from both; 600 mm free in front of a cleanout",
);
/// What wood framing carries.
pub const FRAMING: Source =
    memory("IRC table R301.5: floors of houses are framed for 40 psf (1.9 kPa) of live load");
/// A footing apart from the house.
pub const SEPARATE_FOOTING: Source = practice(
    "A heater stands on a footing apart from the slab of the house, since settlement cracks its channels",
);
/// Expansion of masonry.
pub const EXPANSION: Source = memory(
    "Linear expansion, upper ends: fireclay 6, brick 8, castable and clay tile 7, soapstone and \
     granite 9, stainless steel 17 millionths per kelvin",
);
/// Nothing stated.
pub const NOT_STATED: Source = practice("The design does not state it");
/// No rule in a set.
pub const NO_RULE_IN_SET: Source = practice(
    "The rule set holds no rule for it that is known here: local code was not looked at",
);
/// Sizes of bricks and their joints.
pub const BRICK_FORMATS: Source = memory(
    "Firebrick 9 x 4 1/2 x 2 1/2 or 3 in, 230 x 114 x 64 or 250 x 124 x 64 mm, with joints of 1/16 in; \
     brick 7 5/8 x 3 5/8 x 2 1/4 in with joints of 3/8 in, 240 x 115 x 71, 215 x 102.5 x 65 and \
     250 x 120 x 65 mm with joints of 10 mm",
);
/// Waste of brick that is cut little.
pub const BRICK_WASTE: Source =
    seen("Griffith, in a historic estimating guide: 5 % of waste of brick");
/// Waste of brick that is cut a lot.
pub const CUT_BRICK_WASTE: Source =
    practice("About 10 % of waste of firebrick in a core with many cuts");
/// Waste of mortar.
pub const MORTAR_WASTE: Source = practice(
    "25-50 % of mortar is wasted; mortar of clay or cement weighs about 1900 kg/m3 when it has set",
);
/// Mortar and waste of stone.
pub const STONE_MORTAR: Source =
    practice("A fifth of a stone facing is mortar; a tenth of stone and cast pieces is wasted");
/// Ties of a facing.
pub const VENEER_TIES: Source = memory(
    "IRC R703.8.4, probably: one tie for 2.67 ft2 (0.25 m2) of veneer; in a heater 22 gauge and not \
     stiffer (Brick Institute of America, reprint of 1984, seen)",
);
/// How far the ties of a facing reach.
pub const TIE_REACH: Source = memory(
    "TMS 402, prescriptive rules for anchored veneer, probably: at most 4 1/2 in (114 mm) from the \
     inner face of the veneer to what carries it; beyond, an engineer designs the ties",
);
/// How far a wall stands free.
pub const LATERAL_SUPPORT: Source = memory(
    "TMS 402, empirical design, probably: a wall is at most 18 times as long or as high between what holds \
     it as it is thick (outer walls that bear nothing, or hollow ones that bear; 20 where solid, 36 inside)",
);
/// Straps of a chimney.
pub const IRC_R1003_STRAPS: Source = seen(
    "IRC R1003.4.1 (code reprint): two straps of 3/16 x 1 in at each floor, ceiling and roof more than \
     6 ft above grade; counted here for one ceiling and one roof",
);
/// Parts that come in pieces.
pub const FITTINGS: Source = practice("Doors, dampers and lintels as the design states them");
/// Pressure of a load off the middle.
pub const EDGE_PRESSURE: Source = memory(
    "Pressure below a stiff rectangle with a load off its middle, p (1 + 6 e / l); textbooks of \
     structural mechanics",
);
/// Footing without steel.
pub const PLAIN_FOOTING: Source = memory(
    "IRC R403.1.1, probably: a footing of plain concrete juts out at least 2 in and no farther than \
     it is thick",
);
/// What heaters weigh.
pub const HEATER_MASS: Source = practice("A heater with its facing weighs 1.5-4 t");
/// Bricks of a core in a day.
pub const CORE_LABOR: Source = practice(
    "A mason lays 100-200 firebricks a day in a core with many cuts, with a tender beside",
);
/// Face bricks in a day.
pub const TENDER_LABOR: Source = seen(
    "Griffith, in a historic estimating guide: 300-400 face bricks a day and mason; 10 hours of mason \
     and 10 of tender for 1000 bricks",
);
/// Hours of a whole heater.
pub const HEATER_LABOR: Source = practice(
    "60-150 hours of masons for core and brick facing; stone 1.5-2 times as long as brick; a \
     first-time crew 1.6-4 times the published rates",
);
/// Hours of what goes with it.
pub const TRADE_HOURS: Source = practice(
    "Hours for concrete by hand, slabs, doors, flue and cleaning up, rough, chosen by this project",
);
/// Concrete that gets hard.
pub const CONCRETE_HARDENING: Source =
    practice("Concrete is loaded after 3-7 days and has its strength after 28");
/// Sizes as they are built.
pub const BUILDING_TOLERANCES: Source = practice(
    "Brick and stone are laid to 5 mm in a thickness or section and 10 mm in a length, a chimney to \
     50 mm in its height; openings come out within 10 %",
);
}
