//! What the builder decides, as plain data, with the catalog of inputs, materials, files, links.

pub mod brick;
pub mod building;
pub mod document;
pub mod examples;
pub mod field;
mod frozen;
pub mod link;
pub mod material;
pub mod notes;

use crate::physics::geometry::block_surface;
use crate::physics::wood::Ultimate;
use crate::units::kelvin;
use brick::{Brick, BrickFormat, BrickSize};
use building::{
    AirSupply, Below, BenchUse, Carrier, ChimneyCarrier, ChimneyKind, ChimneyPlace,
    CleanoutFace, Cleanouts, ConnectorKind, Damper, Floor, Foam, Protection, Seismic, Soil,
    Stated, VoidBelow,
};
use material::Material;
use notes::Notes;

/// A heater with its wood, chimney, house and surroundings. SI base units.
#[derive(Clone, Debug, PartialEq)]
pub struct Design {
    /// Name that the builder gave it.
    pub name: String,
    /// House and site.
    pub site: Site,
    /// Wood and fire.
    pub fire: Fire,
    /// Firebox and door.
    pub firebox: Firebox,
    /// Smoke path between firebox and chimney.
    pub path: SmokePath,
    /// Walls of the heater.
    pub shell: Shell,
    /// Connector and chimney.
    pub chimney: Chimney,
    /// Distances to what can burn.
    pub surroundings: Surroundings,
    /// What carries the heater.
    pub support: Support,
    /// What the builder notes beside: it changes no judgment.
    pub notes: Notes,
}

/// House and site.
#[derive(Clone, Debug, PartialEq)]
pub struct Site {
    /// Height above the sea (m).
    pub altitude: f64,
    /// Outdoor temperature for which the heater is judged (K).
    pub outdoor_temperature: f64,
    /// Room temperature (K).
    pub room_temperature: f64,
    /// Heat loss of the house per kelvin (W/K).
    pub heat_loss: f64,
    /// Suction of the house at the heater's air inlet (Pa).
    pub house_suction: f64,
    /// Pressure of the wind onto the mouth of the chimney (Pa).
    pub wind_pressure: f64,
    /// Where the air for the fire comes from.
    pub air_supply: AirSupply,
    /// Free area of the opening or duct through which it comes (m2).
    pub air_opening: f64,
    /// Rules by which findings are made.
    pub rule_set: RuleSet,
}

/// Wood and fire.
#[derive(Clone, Debug, PartialEq)]
pub struct Fire {
    /// Composition of the wood.
    pub species: Species,
    /// Water over moist mass (–).
    pub moisture_fraction: f64,
    /// Moist wood of one firing (kg).
    pub charge: f64,
    /// Time in which the charge burns (s).
    pub burn_duration: f64,
    /// Air over stoichiometric air (–).
    pub excess_air_ratio: f64,
    /// Share of the lower heating value that leaves unburned (–).
    pub unburned_fraction: f64,
    /// Firings in 24 hours (–).
    pub firings_per_day: f64,
    /// From one firing to the next of the same day (s); 0 spreads them evenly.
    pub firing_interval: f64,
    /// What sets the air during the burn.
    pub air: AirControl,
    /// Shape of the burn over time.
    pub shape: BurnShape,
    /// Free opening through damper and door that stays after the fire (m2).
    pub after_opening: f64,
}

/// Shape of the burn over time, as shares of its duration.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BurnShape {
    /// Until the flame stands (–).
    pub kindling_fraction: f64,
    /// Until the flame begins to fall (–).
    pub char_start_fraction: f64,
    /// Rate of the char over the rate of the flame (–).
    pub char_rate_ratio: f64,
}

/// Firebox and door.
#[derive(Clone, Debug, PartialEq)]
pub struct Firebox {
    /// Inner width, along the runs (m).
    pub width: f64,
    /// Inner depth (m).
    pub depth: f64,
    /// Inner height (m).
    pub height: f64,
    /// Thickness of its walls (m).
    pub wall_thickness: f64,
    /// Thickness of the slab between firebox and first run (m).
    pub crown_thickness: f64,
    /// Width of the loading door (m).
    pub door_width: f64,
    /// Height of the loading door (m).
    pub door_height: f64,
    /// Glass over door area (–).
    pub glass_fraction: f64,
    /// Free area of the air inlet (m2).
    pub inlet_area: f64,
    /// Loss coefficient of the air inlet, outlet included (–).
    pub inlet_coefficient: f64,
    /// Emissivity of the flame (–).
    pub flame_emissivity: f64,
}

/// Smoke path between firebox and chimney.
#[derive(Clone, Debug, PartialEq)]
pub struct SmokePath {
    /// Where the runs lie.
    pub layout: Layout,
    /// Number of runs (–).
    pub run_count: usize,
    /// Inner length of a run between its end walls (m).
    pub run_length: f64,
    /// Inner width of a run (m).
    pub run_width: f64,
    /// Inner height of a run (m).
    pub run_height: f64,
    /// Runs that differ from the rest, by index from 0; entries past the count are kept.
    pub overrides: Vec<RunOverride>,
    /// Thickness of the baffle between two runs (m).
    pub baffle_thickness: f64,
    /// Mean roughness of the runs (m).
    pub roughness: f64,
    /// Loss coefficient of a reversal between two runs (–).
    pub reversal_coefficient: f64,
    /// Loss coefficient of a turn of 90 degrees (–).
    pub turn_coefficient: f64,
    /// Slot from the top of the firebox to the connector, always open (m2).
    pub bleed_area: f64,
    /// Damper from the firebox to the connector that is opened to light a cold heater (m2).
    pub bypass_area: f64,
    /// Oven in place of a run.
    pub oven: Oven,
    /// At which ends the runs can be swept.
    pub cleanouts: Cleanouts,
    /// Face in which the cleanouts open.
    pub cleanout_face: CleanoutFace,
    /// Free space in front of them (m).
    pub cleanout_space: f64,
}

/// A chamber in the way of the gas, in place of a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oven {
    /// Number of the run that it is, from 1; 0 for none, past the runs likewise.
    pub place: usize,
    /// Inner width, along the runs (m).
    pub width: f64,
    /// Inner depth, front to back (m).
    pub depth: f64,
    /// Inner height (m).
    pub height: f64,
    /// Metal door to the room (m2).
    pub door_area: f64,
}

/// Sizes of one run where they differ from the rest.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct RunOverride {
    /// Inner length (m).
    pub length: Option<f64>,
    /// Inner width (m).
    pub width: Option<f64>,
    /// Inner height (m).
    pub height: Option<f64>,
}

/// Sizes of one run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Run {
    /// Inner length (m).
    pub length: f64,
    /// Inner width (m).
    pub width: f64,
    /// Inner height (m).
    pub height: f64,
}

/// Walls of the heater.
#[derive(Clone, Debug, PartialEq)]
pub struct Shell {
    /// Material of firebox, runs and baffles.
    pub core_material: Material,
    /// Thickness of the core around the runs (m).
    pub core_thickness: f64,
    /// Gap between core and facing (m).
    pub gap: f64,
    /// Material of the facing.
    pub facing_material: Material,
    /// Thickness of the facing (m).
    pub facing_thickness: f64,
    /// Thickness of the slab over the heater (m).
    pub cap_thickness: f64,
    /// Thickness of the concrete slab below the heater (m).
    pub base_thickness: f64,
    /// Emissivity of inner walls (–).
    pub inner_emissivity: f64,
    /// Insulating board on the faces (m); 0 leaves them free to the room.
    pub insulation: FaceInsulation,
    /// What the top of a bench is for.
    pub bench_use: BenchUse,
    /// Brick of the core, where it is of brick.
    pub core_brick: BrickFormat,
    /// Joint of the core (m).
    pub core_joint: f64,
    /// Brick of the facing, where it is of brick.
    pub facing_brick: BrickFormat,
    /// Joint of the facing (m).
    pub facing_joint: f64,
    /// Size of the builder's own brick.
    pub own_brick: BrickSize,
}

impl Shell {
    /// The brick in which the core is laid; none where it is cast or hewn.
    pub fn core(&self) -> Option<Brick> {
        let size = self.core_brick.size(self.own_brick);
        self.core_material.is_brick().then_some(Brick { size, joint: self.core_joint })
    }

    /// The brick in which the facing is laid; none where it is cast or hewn.
    pub fn facing(&self) -> Option<Brick> {
        let size = self.facing_brick.size(self.own_brick);
        self.facing_material.is_brick().then_some(Brick { size, joint: self.facing_joint })
    }
}

/// Thickness of insulating board on the faces of the heater (m).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct FaceInsulation {
    /// On the front, around the door.
    pub front: f64,
    /// On the back.
    pub back: f64,
    /// On each side, where the runs end.
    pub sides: f64,
    /// On the cap.
    pub top: f64,
}

/// Connector and chimney.
#[derive(Clone, Debug, PartialEq)]
pub struct Chimney {
    /// Height of the mouth above the floor of the firebox (m).
    pub mouth_height: f64,
    /// Shape of the flue.
    pub shape: FlueShape,
    /// Inner width or diameter (m).
    pub flue_width: f64,
    /// Inner depth of a rectangular flue (m).
    pub flue_depth: f64,
    /// Material of the flue's wall.
    pub wall_material: Material,
    /// Thickness of the flue's wall (m).
    pub wall_thickness: f64,
    /// Thickness of mineral wool around it (m).
    pub insulation_thickness: f64,
    /// Length of flue outdoors, at the top (m).
    pub outdoor_length: f64,
    /// Mean roughness (m).
    pub roughness: f64,
    /// Loss coefficient of the mouth beyond the outflow (–).
    pub mouth_coefficient: f64,
    /// Length of the steel connector (m).
    pub connector_length: f64,
    /// Gas temperature for which the chimney is rated (K).
    pub rated_temperature: f64,
    /// Whether condensate may run in it.
    pub duty: ChimneyDuty,
    /// How it is made.
    pub kind: ChimneyKind,
    /// Solid masonry around the liner of a masonry chimney (m).
    pub masonry_wall: f64,
    /// Whether it withstands a fire of its soot.
    pub soot_fire: Stated,
    /// Whether a cleanout lies at its base.
    pub cleanout: Stated,
    /// Where it stands.
    pub place: ChimneyPlace,
    /// Kind of the connector.
    pub connector_kind: ConnectorKind,
    /// Highest point of the roof where it passes through, above the floor of the firebox (m);
    /// 0 where nothing is stated.
    pub roof_height: f64,
    /// Ridge or other highest thing nearby above that point (m).
    pub near_rise: f64,
    /// Level distance to that thing (m).
    pub near_distance: f64,
    /// Damper between heater and chimney.
    pub damper: Damper,
    /// What of the flue it leaves open when it is shut (m2).
    pub damper_opening: f64,
}

/// Distances to what can burn.
#[derive(Clone, Debug, PartialEq)]
pub struct Surroundings {
    /// From a side face (m).
    pub side: f64,
    /// From the back (m).
    pub behind: f64,
    /// In front of the loading door (m).
    pub front: f64,
    /// From the cap slab up to the ceiling (m).
    pub above: f64,
    /// Wall of the house behind the heater.
    pub wall_behind: WallBehind,
    /// From the back to that wall (m).
    pub wall_gap: f64,
    /// Free opening at the foot of that gap (m2).
    pub gap_low_opening: f64,
    /// Free opening at its top (m2).
    pub gap_high_opening: f64,
    /// From the chimney (m).
    pub chimney: f64,
    /// From the connector (m).
    pub connector: f64,
    /// Protection in front of what can burn at the sides and behind.
    pub wall_protection: Protection,
    /// And at the ceiling.
    pub ceiling_protection: Protection,
    /// Floor in front of the loading door.
    pub floor: Floor,
    /// Hearth that cannot burn, in front of the door (m).
    pub hearth_front: f64,
    /// And to each side of its opening (m).
    pub hearth_side: f64,
    /// What lies below the base slab.
    pub below: Below,
    /// What separates the two.
    pub void_below: VoidBelow,
    /// Foam or sheeting near the heater.
    pub foam: Foam,
    /// Whether a layer that holds fire off covers the foam.
    pub foam_covered: Stated,
    /// Whether small children live in the house.
    pub children: Stated,
}

impl Surroundings {
    /// From the back to the nearest thing that can burn (m), a framed wall included.
    pub fn behind_to_combustibles(&self) -> f64 {
        match self.wall_behind {
            WallBehind::Framed => self.behind.min(self.wall_gap),
            WallBehind::NoWall | WallBehind::Masonry => self.behind,
        }
    }
}

/// What carries the heater.
#[derive(Clone, Debug, PartialEq)]
pub struct Support {
    /// What carries it.
    pub carrier: Carrier,
    /// What carries the chimney.
    pub chimney: ChimneyCarrier,
    /// Thickness of the footing (m).
    pub footing_thickness: f64,
    /// By how much the footing is wider on every side (m).
    pub footing_projection: f64,
    /// Underside of the footing below grade (m).
    pub footing_depth: f64,
    /// Depth of frost below grade (m); 0 without frost.
    pub frost_depth: f64,
    /// Soil below the footing.
    pub soil: Soil,
    /// Seismic design category.
    pub seismic: Seismic,
}

macro_rules! choices {
    ($(#[$doc:meta])* $name:ident { $($(#[$variant_doc:meta])* $variant:ident = $key:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum $name { $($(#[$variant_doc])* $variant),+ }

        impl $name {
            /// All choices, in the order in which they are offered.
            pub const ALL: &'static [Self] = &[$(Self::$variant),+];
            /// Their keys in files and links.
            pub const KEYS: &'static [&'static str] = &[$($key),+];

            #[expect(clippy::indexing_slicing, reason = "the list is never empty")]
            /// The choice at a place of the list; the first when there is none.
            pub fn at(index: usize) -> Self {
                Self::ALL.get(index).copied().unwrap_or(Self::ALL[0])
            }

            /// The place in the list.
            pub fn index(self) -> usize {
                Self::ALL.iter().position(|each| *each == self).unwrap_or(0)
            }

            /// The key in files and links.
            pub const fn key(self) -> &'static str {
                match self { $(Self::$variant => $key),+ }
            }
        }
    };
}
use choices;

choices! {
    /// Rules by which findings are made.
    RuleSet {
        /// IRC/IBC, NFPA 211, ASTM E1602 as far as known.
        NorthAmerica = "north_america",
        /// EN 15544, EN 13384-1, model fire ordinance as far as known.
        Europe = "europe",
        /// No clearance rules at all.
        None = "none",
    }
}

choices! {
    /// Composition of the wood.
    Species {
        /// Wood in general.
        Mixed = "mixed",
        /// Oak.
        Oak = "oak",
        /// Pine.
        Pine = "pine",
    }
}

impl Species {
    /// Elements of the dry wood.
    ///
    /// # Source
    ///
    /// [`crate::sources::WOOD_GENERIC`], [`crate::sources::WOOD_OAK_PINE`].
    pub const fn ultimate(self) -> Ultimate {
        let (carbon, hydrogen, oxygen, nitrogen, ash) = match self {
            Self::Mixed => (0.50, 0.06, 0.43, 0.002, 0.008),
            Self::Oak => (0.502, 0.060, 0.433, 0.001, 0.004),
            Self::Pine => (0.526, 0.070, 0.401, 0.0, 0.003),
        };
        Ultimate { carbon, hydrogen, oxygen, nitrogen, ash }
    }
}

choices! {
    /// What sets the air during the burn.
    AirControl {
        /// The excess air ratio is held.
        Held = "held",
        /// The air is open, and the draft sets it.
        Draft = "draft",
    }
}

choices! {
    /// Where the runs lie.
    Layout {
        /// Stacked above the firebox; the gas rises from run to run.
        Above = "above",
        /// Stacked behind or beside the firebox, from the top down; the chimney then rises.
        Behind = "behind",
        /// Side by side at floor level, as a bench.
        Bench = "bench",
    }
}

choices! {
    /// Wall of the house behind the heater.
    WallBehind {
        /// None near by.
        NoWall = "no_wall",
        /// Framed in wood and insulated.
        Framed = "framed",
        /// Brick, stone or concrete.
        Masonry = "masonry",
    }
}

choices! {
    /// Shape of the flue.
    FlueShape {
        /// Round.
        Round = "round",
        /// Rectangular.
        Rectangular = "rectangular",
    }
}

choices! {
    /// Whether condensate may run in the chimney.
    ChimneyDuty {
        /// The flue must stay dry.
        Dry = "dry",
        /// The flue is rated for condensate.
        Wet = "wet",
    }
}

impl SmokePath {
    /// Index of the run that is an oven.
    pub fn oven_index(&self) -> Option<usize> {
        self.oven.place.checked_sub(1).filter(|index| *index < self.run_count)
    }

    /// Sizes of every run, in flow order.
    pub fn runs(&self) -> Vec<Run> {
        (0..self.run_count)
            .map(|index| {
                if self.oven_index() == Some(index) {
                    let Oven { width, depth, height, .. } = self.oven;
                    return Run { length: width, width: depth, height };
                }
                let own = self.overrides.get(index).copied().unwrap_or_default();
                Run {
                    length: own.length.unwrap_or(self.run_length),
                    width: own.width.unwrap_or(self.run_width),
                    height: own.height.unwrap_or(self.run_height),
                }
            })
            .collect()
    }
}

impl Firebox {
    /// Area of the loading door (m2).
    pub fn door_area(&self) -> f64 {
        self.door_width * self.door_height
    }

    /// Largest inner dimension (m).
    pub const fn largest(&self) -> f64 {
        self.width.max(self.depth).max(self.height)
    }

    /// Areas of glass and of metal in the door (m2).
    pub fn door_parts(&self) -> (f64, f64) {
        let glass = self.door_area() * self.glass_fraction;
        (glass, self.door_area() - glass)
    }

    /// Inner surface with door and gas exit counted in (m2).
    pub fn surface(&self) -> f64 {
        block_surface(self.width, self.depth, self.height)
    }
}

impl Chimney {
    /// Free area of the flue (m2).
    pub fn area(&self) -> f64 {
        match self.shape {
            FlueShape::Round => std::f64::consts::PI / 4.0 * self.flue_width * self.flue_width,
            FlueShape::Rectangular => self.flue_width * self.flue_depth,
        }
    }

    /// Depth of the flue, from the front to the back (m).
    pub const fn depth(&self) -> f64 {
        match self.shape {
            FlueShape::Round => self.flue_width,
            FlueShape::Rectangular => self.flue_depth,
        }
    }

    /// Masonry around liner and wool (m); none around a system of tested parts.
    pub const fn masonry(&self) -> f64 {
        match self.kind {
            ChimneyKind::Lined | ChimneyKind::Unlined => self.masonry_wall,
            ChimneyKind::NotStated | ChimneyKind::System => 0.0,
        }
    }

    /// From the flue to the outer face of the chimney (m): liner, wool, masonry.
    pub const fn shell(&self) -> f64 {
        self.wall_thickness + self.insulation_thickness + self.masonry()
    }

    /// Hydraulic diameter of the flue (m).
    pub fn hydraulic_diameter(&self) -> f64 {
        match self.shape {
            FlueShape::Round => self.flue_width,
            FlueShape::Rectangular => {
                2.0 * self.flue_width * self.flue_depth / (self.flue_width + self.flue_depth)
            }
        }
    }
}

impl Design {
    /// Height of the axis of each run above the floor of the firebox (m).
    pub fn run_heights(&self) -> Vec<f64> {
        let runs = self.path.runs();
        let baffle = self.path.baffle_thickness;
        let stacked = |order: &mut dyn Iterator<Item = &Run>, base: f64| {
            let mut bottom = base;
            order
                .map(|run| {
                    let axis = bottom + 0.5 * run.height;
                    bottom += run.height + baffle;
                    axis
                })
                .collect::<Vec<_>>()
        };
        match self.path.layout {
            Layout::Above => {
                stacked(&mut runs.iter(), self.firebox.height + self.firebox.crown_thickness)
            }
            Layout::Behind => {
                let mut heights = stacked(&mut runs.iter().rev(), 0.0);
                heights.reverse();
                heights
            }
            Layout::Bench => runs.iter().map(|run| 0.5 * run.height).collect(),
        }
    }

    /// Height of the top of the masonry above the floor of the firebox (m).
    pub fn top_height(&self) -> f64 {
        let runs = self.path.runs();
        let firebox = self.firebox.height + self.firebox.crown_thickness;
        let tops = self.run_heights().into_iter().zip(&runs);
        let core = tops.map(|(axis, run)| axis + 0.5 * run.height).fold(firebox, f64::max);
        core + self.shell.cap_thickness
    }

    /// From the floor of the firebox down to the base slab (m): as thick as its walls. All masonry stands
    /// on that level, the floor of runs behind or beside the firebox fills it.
    pub fn foot(&self) -> f64 {
        let wall = self.firebox.wall_thickness;
        match self.path.layout {
            Layout::Behind | Layout::Bench if 0 < self.path.run_count => {
                wall.max(self.shell.core_thickness)
            }
            Layout::Above | Layout::Behind | Layout::Bench => wall,
        }
    }

    /// Height of all masonry above the base slab (m).
    pub fn height_above_base(&self) -> f64 {
        self.foot() + self.top_height()
    }

    #[expect(clippy::too_many_lines, reason = "one literal, a line per input")]
    /// The demonstration: an invented farmhouse with a brick heater of five runs. Its chimney is
    /// of the residential type, see [`crate::sources::CHIMNEY_CLASS`].
    pub fn demonstration() -> Self {
        Self {
            name: "North farmhouse".into(),
            site: Site {
                altitude: 640.0,
                outdoor_temperature: kelvin(-16.0),
                room_temperature: kelvin(20.0),
                heat_loss: 100.0,
                house_suction: 4.0,
                wind_pressure: 0.0,
                air_supply: AirSupply::Opening,
                air_opening: 0.02,
                rule_set: RuleSet::NorthAmerica,
            },
            fire: Fire {
                species: Species::Mixed,
                moisture_fraction: 0.17,
                charge: 14.0,
                burn_duration: 5400.0,
                excess_air_ratio: 2.0,
                unburned_fraction: 0.01,
                firings_per_day: 2.0,
                firing_interval: 0.0,
                air: AirControl::Held,
                shape: BurnShape {
                    kindling_fraction: 0.12,
                    char_start_fraction: 0.65,
                    char_rate_ratio: 0.25,
                },
                after_opening: 0.0003,
            },
            firebox: Firebox {
                width: 0.42,
                depth: 0.36,
                height: 0.62,
                wall_thickness: 0.114,
                crown_thickness: 0.10,
                door_width: 0.36,
                door_height: 0.34,
                glass_fraction: 0.6,
                inlet_area: 0.016,
                inlet_coefficient: 2.0,
                flame_emissivity: 0.5,
            },
            path: SmokePath {
                layout: Layout::Above,
                run_count: 5,
                run_length: 2.0,
                run_width: 0.14,
                run_height: 0.24,
                overrides: Vec::new(),
                baffle_thickness: 0.064,
                roughness: 0.003,
                reversal_coefficient: 3.0,
                turn_coefficient: 1.2,
                bleed_area: 0.0,
                bypass_area: 0.0,
                oven: Oven { place: 0, width: 0.5, depth: 0.4, height: 0.35, door_area: 0.12 },
                cleanouts: Cleanouts::BothEnds,
                cleanout_face: CleanoutFace::Sides,
                cleanout_space: 0.60,
            },
            shell: Shell {
                core_material: Material::Fireclay,
                core_thickness: 0.064,
                gap: 0.006,
                facing_material: Material::CommonBrick,
                facing_thickness: 0.115,
                cap_thickness: 0.15,
                base_thickness: 0.15,
                inner_emissivity: 0.9,
                insulation: FaceInsulation { front: 0.0, back: 0.0, sides: 0.0, top: 0.0 },
                bench_use: BenchUse::NotStated,
                core_brick: BrickFormat::Firebrick,
                core_joint: 0.001_587_5,
                facing_brick: BrickFormat::Normal,
                facing_joint: 0.010,
                own_brick: BrickSize { length: 0.203, width: 0.095, height: 0.057 },
            },
            chimney: Chimney {
                mouth_height: 8.2,
                shape: FlueShape::Round,
                flue_width: 0.20,
                flue_depth: 0.20,
                wall_material: Material::ClayTile,
                wall_thickness: 0.02,
                insulation_thickness: 0.04,
                outdoor_length: 1.5,
                roughness: 0.0015,
                mouth_coefficient: 0.5,
                connector_length: 0.45,
                rated_temperature: kelvin(538.0),
                duty: ChimneyDuty::Wet,
                kind: ChimneyKind::Lined,
                masonry_wall: 0.115,
                soot_fire: Stated::Yes,
                cleanout: Stated::Yes,
                place: ChimneyPlace::Inside,
                connector_kind: ConnectorKind::SingleWall,
                roof_height: 7.0,
                near_rise: 0.50,
                near_distance: 2.0,
                damper: Damper::Fitted,
                damper_opening: 0.002,
            },
            surroundings: Surroundings {
                side: 0.80,
                behind: 0.30,
                front: 1.50,
                above: 0.60,
                chimney: 0.06,
                connector: 0.60,
                wall_protection: Protection::Bare,
                ceiling_protection: Protection::Bare,
                floor: Floor::Combustible,
                hearth_front: 0.60,
                hearth_side: 0.35,
                below: Below::Mineral,
                void_below: VoidBelow::Ventilated,
                wall_behind: WallBehind::NoWall,
                wall_gap: 0.30,
                gap_low_opening: 0.0,
                gap_high_opening: 0.0,
                foam: Foam::Missing,
                foam_covered: Stated::NotStated,
                children: Stated::No,
            },
            support: Support {
                carrier: Carrier::Footing,
                chimney: ChimneyCarrier::Beside,
                footing_thickness: 0.35,
                footing_projection: 0.20,
                footing_depth: 1.50,
                frost_depth: 1.20,
                soil: Soil::Sand,
                seismic: Seismic::Low,
            },
            notes: Notes::default(),
        }
    }
}
