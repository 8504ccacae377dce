//! Volumes and masses of the parts in closed form, and what they press on.
//!
//! Core and facing stand on the base slab on one level, [`Design::foot`]. The facing goes around all of
//! the core as [`super::facing`] says, and carries the cap. Runs above the firebox that are longer or wider than it
//! stand on a fill of the core's material.

pub mod centers;

use super::facing::{Facing, Plan};
use super::path::Path;
use crate::design::building::ChimneyCarrier;
use crate::design::material::{CONCRETE, MINERAL_WOOL_DENSITY, Material};
use crate::design::{Chimney, Design, FlueShape, Layout, Run};
use crate::physics::expansion::{self, ground_pressure, soil_pressure};
use centers::Masonry;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A part of heater and chimney.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// Floor, walls and crown of the firebox.
    Firebox,
    /// Floors and walls of the runs.
    Runs,
    /// Baffles between them.
    Baffles,
    /// What runs above the firebox stand on beside it.
    Fill,
    /// The outer shell.
    Facing,
    /// The slab over the heater.
    Cap,
    /// The concrete slab below.
    Base,
    /// Liner, insulation and masonry of the chimney.
    Chimney,
}

/// How much there is of a part.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Amount {
    /// The part.
    pub part: Part,
    /// Its volume (m3).
    #[serde(rename = "volume_m3")]
    pub volume: f64,
    /// Its mass (kg).
    #[serde(rename = "mass_kg")]
    pub mass: f64,
}

/// Masses of the parts and what they press on. An engineer decides what carries a heater.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Structure {
    /// All parts.
    pub parts: Vec<Amount>,
    /// The heater without chimney, base and fill (kg).
    #[serde(rename = "heater_kg")]
    pub heater: f64,
    /// All that stands on the support: heater, fill, base, and a chimney that the heater carries
    /// (kg).
    #[serde(rename = "carried_kg")]
    pub carried: f64,
    /// Ground that it covers (m2).
    #[serde(rename = "footprint_m2")]
    pub footprint: f64,
    /// What it presses on that ground (Pa).
    #[serde(rename = "bearing_pascals")]
    pub bearing: f64,
    /// The footing that the design states (kg).
    #[serde(rename = "footing_kg")]
    pub footing: f64,
    /// Ground under that footing (m2).
    #[serde(rename = "footing_ground_m2")]
    pub footing_ground: f64,
    /// Length and depth of the rectangle around all masonry (m).
    #[serde(rename = "outline_m")]
    pub outline: [f64; 2],
    /// The middle of all that stands on the support: from the left and from the front of that
    /// rectangle, and above the underside of the base (m).
    #[serde(rename = "center_m")]
    pub center: [f64; 3],
    /// What footing and heater press on the soil at the edge that bears most (Pa).
    #[serde(rename = "soil_pascals")]
    pub soil: f64,
    /// Height of the masonry over its smallest outer side (–).
    pub slenderness: f64,
    /// Longest level side of the core around the runs (m).
    #[serde(rename = "longest_core_m")]
    pub longest_core: f64,
}

impl Structure {
    /// How far its middle is off that of a rectangle which is wider than its outline on every side
    /// (m), over the sides of that rectangle (–).
    pub fn off_middle(&self, wider: f64) -> [f64; 2] {
        let ([long, deep], [along, across, _]) = (self.outline, self.center);
        let off = |at: f64, side: f64| (at - 0.5 * side).abs() / (side + 2.0 * wider);
        [off(along, long), off(across, deep)]
    }
}

/// The block of masonry around all runs (m).
#[derive(Clone, Copy)]
struct Block {
    length: f64,
    depth: f64,
    height: f64,
}

impl Block {
    fn area(self) -> f64 {
        self.length * self.depth
    }

    fn volume(self) -> f64 {
        self.area() * self.height
    }

    fn wider(self, by: f64) -> Self {
        Self { length: self.length + 2.0 * by, depth: self.depth + 2.0 * by, ..self }
    }
}

fn most(runs: &[Run], size: impl Fn(&Run) -> f64) -> f64 {
    runs.iter().map(size).fold(0.0, f64::max)
}

fn run_block(design: &Design) -> Option<Block> {
    let runs = design.path.runs();
    let between = (1..runs.len()).map(|_| design.path.baffle_thickness).sum::<f64>();
    let length = most(&runs, |run| run.length);
    let inner = match design.path.layout {
        Layout::Bench => Block {
            length,
            depth: runs.iter().map(|run| run.width).sum::<f64>() + between,
            height: most(&runs, |run| run.height),
        },
        Layout::Above | Layout::Behind => Block {
            length,
            depth: most(&runs, |run| run.width),
            height: runs.iter().map(|run| run.height).sum::<f64>() + between,
        },
    };
    (!runs.is_empty()).then(|| inner.wider(design.shell.core_thickness))
}

/// Volumes of the walls of the runs and of their baffles (m3). A baffle lacks a slot as long as
/// the run is high.
fn runs_and_baffles(design: &Design, facing: &Facing, path: &Path) -> (f64, f64) {
    let Some(block) = run_block(design) else { return (0.0, 0.0) };
    let (core, baffle) = (design.shell.core_thickness, design.path.baffle_thickness);
    let runs = design.path.runs();
    let bench = design.path.layout == Layout::Bench;
    let slab = |(one, other): (&Run, &Run)| {
        let length = one.length.min(other.length);
        let slot = one.height.min(length);
        if bench {
            baffle * one.height.min(other.height) * (length - slot)
        } else {
            let width = one.width.min(other.width);
            let whole = (length + 2.0 * core) * (width + 2.0 * core);
            baffle * (whole - slot * width)
        }
    };
    let baffles = runs.iter().zip(runs.iter().skip(1)).map(slab).sum::<f64>();
    let walls = if bench {
        let voids = runs.iter().map(|run| run.length * run.width * run.height).sum::<f64>();
        block.volume() - voids - baffles
    } else {
        let wall = |run: &Run| {
            let outer = (run.length + 2.0 * core) * (run.width + 2.0 * core);
            (outer - run.length * run.width) * run.height
        };
        runs.iter().map(wall).sum::<f64>()
    };
    // Where the firebox stands in it, its own floor lies.
    let shared = facing.runs.and_then(|runs| runs.meet(facing.firebox)).map_or(0.0, Plan::area);
    let floor = match design.path.layout {
        Layout::Above => 0.0,
        Layout::Behind => (block.area() - shared) * facing.foot - path.firebox_overlap * core,
        Layout::Bench => block.area() * facing.foot,
    };
    (walls + floor, baffles)
}

fn firebox(design: &Design, facing: &Facing) -> f64 {
    let chamber = &design.firebox;
    let wall = chamber.wall_thickness;
    let inner = chamber.width * chamber.depth * chamber.height;
    facing.firebox.area() * (facing.crown + facing.foot) - inner - chamber.door_area() * wall
}

/// The facing without the opening of the door.
fn around(design: &Design, facing: &Facing) -> f64 {
    let opening = design.shell.facing_thickness * design.firebox.door_area();
    (facing.volume() - opening).max(0.0)
}

/// Section of a flue that is wider on every side (m2).
fn flue_section(chimney: &Chimney, by: f64) -> f64 {
    let width = chimney.flue_width + 2.0 * by;
    match chimney.shape {
        FlueShape::Round => std::f64::consts::PI / 4.0 * width * width,
        FlueShape::Rectangular => width * (chimney.flue_depth + 2.0 * by),
    }
}

/// What a chimney is made of (m3), from the floor of the firebox or, on the heater, from its top.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ChimneyVolumes {
    /// Length of the flue (m).
    pub length: f64,
    /// Its liner or pipe.
    pub liner: f64,
    /// Mineral wool around it.
    pub wool: f64,
    /// Masonry around both.
    pub masonry: f64,
}

/// What the chimney of a design is made of.
pub fn chimney_volumes(design: &Design) -> ChimneyVolumes {
    let chimney = &design.chimney;
    let foot = match design.support.chimney {
        ChimneyCarrier::Beside => 0.0,
        ChimneyCarrier::Heater => design.top_height(),
    };
    let wool = chimney.wall_thickness + chimney.insulation_thickness;
    let [inner, liner, outer] =
        [0.0, chimney.wall_thickness, wool].map(|by| flue_section(chimney, by));
    let walls = if 0.0 < chimney.masonry() {
        let side = |inner: f64| inner + 2.0 * chimney.shell();
        side(chimney.flue_width) * side(chimney.depth()) - outer
    } else {
        0.0
    };
    let length = (chimney.mouth_height - foot).max(0.0);
    ChimneyVolumes {
        length,
        liner: (liner - inner) * length,
        wool: (outer - liner) * length,
        masonry: walls * length,
    }
}

/// Volume (m3) and mass (kg) of the chimney.
fn chimney(design: &Design) -> (f64, f64) {
    let ChimneyVolumes { liner, wool, masonry, .. } = chimney_volumes(design);
    let mass = liner * design.chimney.wall_material.properties().density
        + wool * MINERAL_WOOL_DENSITY
        + masonry * Material::CommonBrick.properties().density;
    (liner + wool + masonry, mass)
}

/// Masses of the parts of a design and what they press on.
pub fn structure(design: &Design, path: &Path) -> Structure {
    let shell = &design.shell;
    let facing = Facing::new(design);
    let footprint = facing.footprint();
    let core = shell.core_material.properties().density;
    let face = shell.facing_material.properties().density;
    let (runs, baffles) = runs_and_baffles(design, &facing, path);
    let fill = facing.under_runs() * (facing.crown + facing.foot);
    let (chimney_volume, chimney_mass) = chimney(design);
    let of = |part, volume: f64, density: f64| Amount {
        part,
        volume,
        mass: expansion::mass(volume, density),
    };
    let parts = vec![
        of(Part::Firebox, firebox(design, &facing), core),
        of(Part::Runs, runs, core),
        of(Part::Baffles, baffles, core),
        of(Part::Facing, around(design, &facing), face),
        of(Part::Cap, footprint * shell.cap_thickness, core),
        of(Part::Fill, fill, core),
        of(Part::Base, footprint * shell.base_thickness, CONCRETE.density),
        Amount { part: Part::Chimney, volume: chimney_volume, mass: chimney_mass },
    ];
    let on_it = design.support.chimney == ChimneyCarrier::Heater;
    let sum = |counts: &dyn Fn(Part) -> bool| {
        parts.iter().filter(|amount| counts(amount.part)).map(|amount| amount.mass).sum::<f64>()
    };
    let heater = sum(&|part| !matches!(part, Part::Fill | Part::Base | Part::Chimney));
    let carries = |part| part != Part::Chimney || on_it;
    let carried = sum(&carries);
    let masonry = Masonry::new(design);
    let center = masonry.common(parts.iter().filter(|amount| carries(amount.part)));
    let support = &design.support;
    let ground = facing.rectangles(support.footing_projection);
    let footing = ground * support.footing_thickness * CONCRETE.density;
    let mut structure = Structure {
        parts,
        heater,
        carried,
        footprint,
        bearing: ground_pressure(carried, footprint),
        footing,
        footing_ground: ground,
        outline: masonry.outline(),
        center,
        soil: 0.0,
        slenderness: design.height_above_base() / facing.narrowest(),
        longest_core: run_block(design).map_or(facing.firebox.length(), |runs| runs.length),
    };
    let [along, deep] = structure.off_middle(support.footing_projection);
    structure.soil = soil_pressure(carried, along, deep, footing, ground);
    structure
}
