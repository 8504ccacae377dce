//! What has to be bought or found: bricks, mortar, slabs as they are placed, all else by volumes and
//! surfaces.

use super::bricks;
use super::placed::{Placed, placed};
use crate::analysis::Analysis;
use crate::analysis::facing::Facing;
use crate::analysis::structure::centers::Masonry;
use crate::analysis::structure::{ChimneyVolumes, Part, chimney_volumes};
use crate::courses::FRAME_GAP;
use crate::courses::materials::MORTAR_DENSITY;
use crate::design::brick::Brick;
use crate::design::building::{
    AirSupply, Carrier, ChimneyCarrier, ChimneyKind, Cleanouts, Damper, Floor, Stated,
};
use crate::design::material::{BOARD, CONCRETE, MINERAL_WOOL_DENSITY, Material, Properties};
use crate::design::{Design, FlueShape};
use crate::sources::{
    BRICK_WASTE, CUT_BRICK_WASTE, FITTINGS, GEOMETRY, IRC_R1003_STRAPS, MORTAR_WASTE,
    STONE_MORTAR, Source, VENEER_TIES,
};

/// A kind of material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Bricks of firebox and runs.
    CoreBrick,
    /// The core where it is cast or hewn.
    CoreBody,
    /// Slab over the firebox.
    CrownSlab,
    /// Slabs between the runs.
    BaffleSlab,
    /// Slab over the heater.
    CapSlab,
    /// Bricks of the facing.
    FacingBrick,
    /// Stone of the facing, or what else it is hewn or cast of.
    FacingStone,
    /// Bricks around the flue.
    ChimneyBrick,
    /// Mortar of the core.
    FireclayMortar,
    /// Mortar of facing and chimney.
    CementMortar,
    /// Concrete of the base slab.
    BaseConcrete,
    /// Concrete of the footing that is stated.
    FootingConcrete,
    /// Layer between core and facing.
    GapLayer,
    /// Soft strip around openings.
    SoftStrip,
    /// Board on the faces.
    Board,
    /// Loading door.
    Door,
    /// Door of the oven.
    OvenDoor,
    /// Doors of the cleanouts of runs and flue.
    Cleanout,
    /// Damper of the flue.
    Damper,
    /// Bypass damper.
    Bypass,
    /// Lintels in the core.
    CoreLintel,
    /// Lintels in the facing, as the course plans place them.
    FacingLintel,
    /// Steel above the doors, in the facing alone, where no lintels are placed.
    SteelLintel,
    /// Ties of the facing.
    Tie,
    /// Hearth in front of the door.
    Hearth,
    /// Pipe from heater to chimney.
    Connector,
    /// Liner, or pipe of a tested system.
    Liner,
    /// Wool around the liner.
    FlueWool,
    /// Straps by which the house holds the chimney.
    Strap,
    /// Cap on the chimney.
    ChimneyCap,
    /// Duct for outdoor air.
    AirDuct,
    /// Carbon monoxide alarms.
    Alarm,
}

impl Kind {
    /// Its name in notes.
    pub const fn id(self) -> &'static str {
        match self {
            Self::CoreBrick => "core_brick",
            Self::CoreBody => "core_body",
            Self::CrownSlab => "crown_slab",
            Self::BaffleSlab => "baffle_slab",
            Self::CapSlab => "cap_slab",
            Self::FacingBrick => "facing_brick",
            Self::FacingStone => "facing_stone",
            Self::ChimneyBrick => "chimney_brick",
            Self::FireclayMortar => "fireclay_mortar",
            Self::CementMortar => "cement_mortar",
            Self::BaseConcrete => "base_concrete",
            Self::FootingConcrete => "footing_concrete",
            Self::GapLayer => "gap_layer",
            Self::SoftStrip => "soft_strip",
            Self::Board => "board",
            Self::Door => "door",
            Self::OvenDoor => "oven_door",
            Self::Cleanout => "cleanout",
            Self::Damper => "damper",
            Self::Bypass => "bypass",
            Self::CoreLintel => "core_lintel",
            Self::FacingLintel => "facing_lintel",
            Self::SteelLintel => "steel_lintel",
            Self::Tie => "tie",
            Self::Hearth => "hearth",
            Self::Connector => "connector",
            Self::Liner => "liner",
            Self::FlueWool => "flue_wool",
            Self::Strap => "strap",
            Self::ChimneyCap => "chimney_cap",
            Self::AirDuct => "air_duct",
            Self::Alarm => "alarm",
        }
    }
}

impl Kind {
    /// Whether it is bought as dry mix.
    pub const fn is_mortar(self) -> bool {
        matches!(self, Self::FireclayMortar | Self::CementMortar)
    }
}

/// How a material is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// Pieces.
    Pieces,
    /// Length (m).
    Length,
    /// Surface (m2).
    Area,
    /// Volume (m3).
    Volume,
}

/// How much there is of a material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Item {
    /// The kind.
    pub kind: Kind,
    /// How it is counted.
    pub measure: Measure,
    /// How much is built in.
    pub net: f64,
    /// What the estimate by volume says of that, where pieces are placed.
    pub by_volume: Option<f64>,
    /// How much more is broken, cut off or left over (–).
    pub waste: f64,
    /// Mass of what is built in (kg); none where it is not known.
    pub mass: Option<f64>,
    /// Mass of one piece as it is bought, of a meter, m2 or m3 (kg); none where it is not known.
    pub mass_of_one: Option<f64>,
    /// Where amount and waste come from.
    pub source: &'static Source,
    /// How much the builder has already.
    pub stock: f64,
    /// Price of one unit, in whatever currency the builder thinks.
    pub price: Option<f64>,
}

/// What a note on a kind is called: of stock, price or waste.
pub fn note(what: &str, kind: Kind) -> String {
    format!("{what}.{}", kind.id())
}

impl Item {
    /// What is needed with what is wasted, in whole pieces where it comes in pieces.
    pub fn gross(&self) -> f64 {
        let gross = self.net * (1.0 + self.waste);
        // A hair for what rounding adds to a whole number.
        if self.measure == Measure::Pieces { (gross - 1e-6).ceil() } else { gross }
    }

    /// What is left to buy.
    pub fn to_buy(&self) -> f64 {
        (self.gross() - self.stock).max(0.0)
    }

    /// Mass of what is needed (kg), of pieces whole as they are bought; none where it is not known.
    pub fn gross_mass(&self) -> Option<f64> {
        self.mass_of_one.map(|one| one * self.gross())
    }

    /// What is left to buy costs, where a price is known.
    pub fn cost(&self) -> Option<f64> {
        self.price.map(|price| price * self.to_buy())
    }

    /// Share of what is needed that the builder has (–).
    pub fn in_stock(&self) -> f64 {
        let gross = self.gross();
        if gross <= 0.0 { 0.0 } else { (self.stock / gross).min(1.0) }
    }
}

/// Waste of brick that is cut little, of a core with many cuts, of mortar, of all else (–).
const WASTE: [f64; 4] = [0.05, 0.10, 0.35, 0.10];
/// Share of mortar in a facing of stone (–).
const STONE_JOINTS: f64 = 0.20;
/// Facing that one tie holds (m2).
const PER_TIE: f64 = 0.25;
/// What a lintel rests on beyond an opening, at each end (m): half a brick.
const LINTEL_REST: f64 = 0.115;
/// Girth of the opening of a cleanout (m).
const CLEANOUT_GIRTH: f64 = 0.6;
/// Straps at a ceiling and at a roof.
const STRAPS: f64 = 4.0;

/// Collects items.
struct List<'a> {
    design: &'a Design,
    items: Vec<Item>,
}

impl List<'_> {
    fn add(&mut self, (kind, measure): (Kind, Measure), net: f64, mass: Option<f64>) {
        if net <= 0.0 {
            return;
        }
        let (waste, source) = waste(kind, measure);
        let mass_of_one = mass.map(|mass| mass / net);
        let notes = &self.design.notes;
        let noted = |what| notes.number(&note(what, kind));
        self.items.push(Item {
            kind,
            measure,
            net,
            by_volume: None,
            waste: noted("waste").map_or(waste, |share| share.min(5.0)),
            mass,
            mass_of_one,
            source,
            stock: noted("stock").unwrap_or(0.0),
            price: noted("price"),
        });
    }

    fn pieces(&mut self, kind: Kind, count: f64) {
        self.add((kind, Measure::Pieces), count, None);
    }

    fn volume(&mut self, kind: Kind, volume: f64, density: f64) {
        self.add((kind, Measure::Volume), volume, Some(volume * density));
    }

    fn bricks(&mut self, kind: Kind, count: f64, (brick, density): (Brick, f64)) {
        let mass = count * brick.volume() * density;
        self.add((kind, Measure::Pieces), count, Some(mass));
    }

    /// Takes what is placed in the stead of the last item, which is an estimate.
    fn place(&mut self, placed: Option<f64>) {
        let Some((item, placed)) = self.items.last_mut().zip(placed) else {
            return;
        };
        item.by_volume = Some(item.net);
        item.mass = item.mass.map(|mass| mass / item.net * placed);
        item.net = placed;
    }

    /// The mass of the last item (kg), of which some is cut off.
    fn weigh(&mut self, mass: Option<f64>) {
        if let Some((item, mass)) = self.items.last_mut().zip(mass) {
            item.mass = Some(mass);
        }
    }
}

const fn waste(kind: Kind, measure: Measure) -> (f64, &'static Source) {
    let [brick, cut, mortar, other] = WASTE;
    match (kind, measure) {
        (Kind::CoreBrick, _) => (cut, &CUT_BRICK_WASTE),
        (Kind::FacingBrick | Kind::ChimneyBrick, _) => (brick, &BRICK_WASTE),
        (Kind::FireclayMortar | Kind::CementMortar, _) => (mortar, &MORTAR_WASTE),
        (Kind::FacingStone | Kind::CoreBody, _) => (other, &STONE_MORTAR),
        (Kind::Tie, _) => (other, &VENEER_TIES),
        (Kind::Strap, _) => (0.0, &IRC_R1003_STRAPS),
        (_, Measure::Pieces) => (0.0, &FITTINGS),
        _ => (brick, &GEOMETRY),
    }
}

/// All that has to be bought or found for a design.
pub fn materials(design: &Design, analysis: &Analysis) -> Vec<Item> {
    of_placed(design, analysis, placed(design, &analysis.structure).as_ref())
}

/// The same with what is placed, or by volume alone.
pub fn of_placed(design: &Design, analysis: &Analysis, placed: Option<&Placed>) -> Vec<Item> {
    let mut list = List { design, items: Vec::new() };
    core(&mut list, analysis, placed);
    facing(&mut list, analysis, placed);
    ground(&mut list, analysis);
    fittings(&mut list, placed);
    chimney(&mut list);
    list.pieces(Kind::Alarm, 2.0);
    list.items
}

fn volume_of(analysis: &Analysis, counts: impl Fn(Part) -> bool) -> f64 {
    let parts = analysis.structure.parts.iter().filter(|amount| counts(amount.part));
    parts.map(|amount| amount.volume).sum()
}

fn core(list: &mut List<'_>, analysis: &Analysis, placed: Option<&Placed>) {
    let design = list.design;
    let material = design.shell.core_material;
    let density = material.properties().density;
    let slab = bricks::crown(design);
    let body = volume_of(analysis, bricks::is_core) - slab;
    match design.shell.core() {
        Some(brick) => {
            let amount = bricks::core_amount(design, &analysis.structure, brick);
            list.bricks(Kind::CoreBrick, amount.bricks, (brick, density));
            list.place(placed.map(|placed| placed.core.bricks));
            list.weigh(placed.map(|placed| placed.core.volume * density));
            list.volume(Kind::FireclayMortar, amount.mortar, MORTAR_DENSITY);
            list.place(placed.map(|placed| placed.core.mortar));
            let slabs = placed.map_or(0.0, |placed| placed.baffle_slabs);
            list.volume(Kind::BaffleSlab, slabs, density);
        }
        None => list.volume(Kind::CoreBody, body, density),
    }
    list.volume(Kind::CrownSlab, slab, density);
    list.volume(Kind::CapSlab, volume_of(analysis, |part| part == Part::Cap), density);
}

fn facing(list: &mut List<'_>, analysis: &Analysis, placed: Option<&Placed>) {
    let design = list.design;
    let shell = &design.shell;
    let volume = volume_of(analysis, |part| part == Part::Facing);
    if volume <= 0.0 || shell.facing_thickness <= 0.0 {
        return;
    }
    let Properties { density, .. } = shell.facing_material.properties();
    if let Some(brick) = shell.facing() {
        let amount = bricks::amount(brick, volume, shell.facing_thickness);
        let placed = placed.map(|placed| placed.facing);
        list.bricks(Kind::FacingBrick, amount.bricks, (brick, density));
        list.place(placed.map(|facing| facing.bricks));
        list.weigh(placed.map(|facing| facing.volume * density));
        list.volume(Kind::CementMortar, amount.mortar, MORTAR_DENSITY);
        list.place(placed.map(|facing| facing.mortar));
    } else {
        list.volume(Kind::FacingStone, volume * (1.0 - STONE_JOINTS), density);
        list.volume(Kind::CementMortar, volume * STONE_JOINTS, MORTAR_DENSITY);
    }
    let facing = Facing::new(design);
    let door = design.firebox.door_area();
    let layer = (facing.at_the_gap() - door).max(0.0);
    list.add((Kind::GapLayer, Measure::Area), layer, None);
    let reached = (facing.within_reach() - door).max(0.0);
    if 0.0 < reached {
        list.pieces(Kind::Tie, (reached / PER_TIE).ceil());
        list.place(placed.filter(|_| shell.facing().is_some()).map(|placed| placed.ties));
    }
}

fn ground(list: &mut List<'_>, analysis: &Analysis) {
    let design = list.design;
    let structure = &analysis.structure;
    list.volume(
        Kind::BaseConcrete,
        volume_of(analysis, |part| part == Part::Base),
        CONCRETE.density,
    );
    if matches!(design.support.carrier, Carrier::Footing | Carrier::Walls) {
        let volume = structure.footing / CONCRETE.density;
        list.volume(Kind::FootingConcrete, volume, CONCRETE.density);
    }
    let around = &design.surroundings;
    if around.floor != Floor::Mineral {
        let width = design.firebox.door_width + 2.0 * around.hearth_side;
        list.add((Kind::Hearth, Measure::Area), width * around.hearth_front, None);
    }
}

/// Cleanouts of the runs.
pub fn cleanouts(design: &Design) -> f64 {
    let runs = f64::from(u32::try_from(design.path.run_count).unwrap_or(u32::MAX));
    match design.path.cleanouts {
        Cleanouts::BothEnds => 2.0 * runs,
        Cleanouts::OneEnd => runs,
        Cleanouts::NotStated | Cleanouts::Missing => 0.0,
    }
}

fn fittings(list: &mut List<'_>, placed: Option<&Placed>) {
    let design = list.design;
    let (chamber, path) = (&design.firebox, &design.path);
    let has_oven = path.oven_index().is_some() && 0.0 < path.oven.door_area;
    let oven_side = libm::sqrt(path.oven.door_area);
    let openings = if has_oven { 2.0 } else { 1.0 };
    list.pieces(Kind::Door, 1.0);
    list.pieces(Kind::OvenDoor, openings - 1.0);
    let of_flue = if design.chimney.cleanout == Stated::Yes { 1.0 } else { 0.0 };
    list.pieces(Kind::Cleanout, cleanouts(design) + of_flue);
    let damper = if design.chimney.damper == Damper::Fitted { 1.0 } else { 0.0 };
    list.pieces(Kind::Damper, damper);
    list.pieces(Kind::Bypass, if 0.0 < path.bypass_area { 1.0 } else { 0.0 });
    list.pieces(Kind::CoreLintel, openings);
    if design.shell.core().is_some() {
        list.place(placed.map(|placed| placed.core.lintels).filter(|count| 0.0 < *count));
    }
    let in_facing = placed.filter(|_| design.shell.facing().is_some());
    let lintels = in_facing.map_or(0.0, |placed| placed.facing.lintels);
    list.pieces(Kind::FacingLintel, lintels);
    if 0.0 < design.shell.facing_thickness && lintels <= 0.0 {
        let beyond = 2.0 * (FRAME_GAP + LINTEL_REST);
        let oven = if has_oven { oven_side + beyond } else { 0.0 };
        let length = chamber.door_width + beyond + oven;
        list.add((Kind::SteelLintel, Measure::Length), length, None);
    }
    let girth = 2.0 * (chamber.door_width + chamber.door_height)
        + if has_oven { 4.0 * oven_side } else { 0.0 }
        + CLEANOUT_GIRTH * cleanouts(design);
    list.add((Kind::SoftStrip, Measure::Length), girth, None);
    let board = board(design);
    list.add((Kind::Board, Measure::Volume), board, Some(board * BOARD.density));
    if design.site.air_supply == AirSupply::Duct {
        list.pieces(Kind::AirDuct, 1.0);
    }
}

/// Board on the faces of the rectangle around all masonry (m3).
fn board(design: &Design) -> f64 {
    let on = design.shell.insulation;
    let [length, depth] = Masonry::new(design).outline();
    let height = design.height_above_base();
    (on.front + on.back) * length * height
        + 2.0 * on.sides * depth * height
        + on.top * length * depth
}

fn chimney(list: &mut List<'_>) {
    let design = list.design;
    let flue = &design.chimney;
    let ChimneyVolumes { length, liner, wool, masonry } = chimney_volumes(design);
    let density = flue.wall_material.properties().density;
    if flue.kind != ChimneyKind::Unlined {
        list.add((Kind::Liner, Measure::Length), length, Some(liner * density));
    }
    list.volume(Kind::FlueWool, wool, MINERAL_WOOL_DENSITY);
    if 0.0 < masonry {
        let brick = design.shell.facing().unwrap_or(Brick::MODULAR);
        let amount = bricks::amount(brick, masonry, flue.masonry_wall);
        let density = Material::CommonBrick.properties().density;
        list.bricks(Kind::ChimneyBrick, amount.bricks, (brick, density));
        let mortar = amount.mortar;
        match list.items.iter_mut().find(|item| item.kind == Kind::CementMortar) {
            Some(item) => {
                item.net += mortar;
                item.mass = Some(item.net * MORTAR_DENSITY);
            }
            None => list.volume(Kind::CementMortar, mortar, MORTAR_DENSITY),
        }
        list.pieces(Kind::Strap, STRAPS);
    }
    let is_beside = design.support.chimney == ChimneyCarrier::Beside;
    let connector = if is_beside { flue.connector_length } else { 0.0 };
    list.add((Kind::Connector, Measure::Length), connector, None);
    list.pieces(Kind::ChimneyCap, 1.0);
}

/// Diameter or sides of the flue, as a pipe or liner is bought (m, m).
pub fn flue_size(design: &Design) -> (f64, Option<f64>) {
    let flue = &design.chimney;
    match flue.shape {
        FlueShape::Round => (flue.flue_width, None),
        FlueShape::Rectangular => (flue.flue_width, Some(flue.flue_depth)),
    }
}
