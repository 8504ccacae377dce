//! The masonry as walls cut into nodes, and where the gas touches them.

use super::layers::{Back, Gap, Layer, Layers, OUTER_EMISSIVITY, Ply};
use super::{Resolution, Setup, Without};
use crate::analysis::chimney::{CELLS, FILM_INDOORS, FILM_OUTDOORS, girth};
use crate::analysis::factors::Factors;
use crate::analysis::fire::DOOR_CONDUCTANCE;
use crate::analysis::path::{Backing, Path, Segment, Side, Wall, ends_of_oven};
use crate::design::material::{
    BOARD, CONCRETE, MINERAL_WOOL_CONDUCTIVITY, MINERAL_WOOL_HEAT_CAPACITY, Properties,
    STEEL_HEAT_CAPACITY,
};
use crate::design::{Design, Layout, WallBehind as WallKind};
use crate::physics::gap::{GapAir, WallBehind};
use std::ops::Range;

/// Thickness of the sheet of a connector (m), common practice, no source.
const CONNECTOR_SHEET: f64 = 0.0015;
/// Conductivity of that sheet (W/mK): thin, so of no weight.
const STEEL_CONDUCTIVITY: f64 = 50.0;
/// From the base slab down into a ventilated void (m2K/W): EN ISO 6946, downward, from memory.
const VOID_RESISTANCE: f64 = 0.17;
/// Nodes of the core grow outward by this factor.
const GROWTH: f64 = 1.35;
/// And those of a slab of the core's material alone, which has more of them.
const GROWTH_OF_SLABS: f64 = 1.15;

/// A part of the outside of the heater.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outside {
    /// Where the door is; or all faces that lose heat alike with it.
    Front,
    /// Opposite the door.
    Back,
    /// Where the runs end.
    Sides,
}

/// What lies on a part of the outside.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Cover {
    /// Insulating board (m).
    insulation: f64,
    /// A wall of the house across a gap; the room otherwise.
    behind: Option<WallBehind>,
}

/// What the heat that leaves a wall is booked as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// A face around a run, by index, to the room.
    RunFace(usize, Outside),
    /// A face around the firebox, to the room.
    FireboxFace(Outside),
    /// The door of an oven, to the room.
    OvenDoor,
    /// The cap, to the room.
    Cap,
    /// Below the heater.
    Under,
    /// Inside the heater: nothing leaves.
    Inside,
    /// The connector, to the room.
    Connector,
    /// The chimney indoors.
    Indoors,
    /// The chimney outdoors.
    Outdoors,
}

impl Zone {
    /// Whether it is an upright face.
    pub const fn is_face(self) -> bool {
        matches!(self, Self::RunFace(..) | Self::FireboxFace(_))
    }

    /// Whether it faces a wall behind the heater, where there is one.
    pub const fn is_back(self) -> bool {
        matches!(self, Self::RunFace(_, Outside::Back) | Self::FireboxFace(Outside::Back))
    }
}

/// A wall with its place among all nodes.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// How it conducts.
    pub layers: Layers,
    /// Area of its inner face (m2).
    pub area: f64,
    /// Outer area over inner area (–).
    pub ratio: f64,
    /// Its nodes among all nodes.
    pub nodes: Range<usize>,
    /// How its losses are booked.
    pub zone: Zone,
    /// Temperature at the start from cold (K).
    pub start: f64,
}

/// A face of a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// Its inner face.
    Inner,
    /// Its outer face, with gas before it.
    Outer,
}

/// A strip of wall in a cell, with its girth on each side of the run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Index of the wall.
    pub wall: usize,
    /// Which of its faces.
    pub end: End,
    /// Girth (m) on bottom, top, left, right.
    pub sides: [f64; 4],
}

impl Strip {
    /// Whole girth (m).
    pub fn girth(&self) -> f64 {
        self.sides.iter().sum()
    }
}

/// The cells of a run.
#[derive(Clone, Debug, PartialEq)]
pub struct RunCells {
    /// Strips of each cell, in flow order.
    pub cells: Vec<Vec<Strip>>,
    /// Share of the radiation of each side that reaches each other one (–).
    pub views: [[f64; 4]; 4],
}

/// A wall of the firebox.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Part {
    /// Index of the wall; the firebox is on its inner side.
    pub wall: usize,
    /// Area (m2).
    pub area: f64,
}

/// All masonry of a heater with connector and chimney.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Every wall.
    pub walls: Vec<Placed>,
    /// Number of all nodes.
    pub nodes: usize,
    /// Walls of the firebox.
    pub firebox: Vec<Part>,
    /// Runs in flow order.
    pub runs: Vec<RunCells>,
    /// Wall of the connector.
    pub connector: usize,
    /// Walls of the chimney's cells indoors, in flow order.
    pub indoors: Vec<usize>,
    /// And outdoors.
    pub outdoors: Vec<usize>,
    /// Inner girth of connector and chimney (m).
    pub flue_girth: f64,
    /// Wall of the house behind the heater.
    pub behind: Option<WallBehind>,
}

/// Length of chimney that counts as outdoors (m): the mouth stands there in any case.
pub fn outdoor_length(design: &Design) -> f64 {
    design.chimney.outdoor_length.max(0.01)
}

/// Builds the masonry of a design.
pub fn body(design: &Design, path: &Path, setup: &Setup) -> Body {
    let resolution = &setup.resolution;
    let behind = wall_behind(design);
    let mut maker = Maker {
        design,
        setup,
        resolution,
        covers: covers(design, behind),
        walls: Vec::new(),
        nodes: 0,
    };
    let mut runs = maker.runs(path);
    let firebox = maker.firebox(path, &mut runs);
    let connector = maker.connector();
    let height = design.chimney.mouth_height - path.exit_height;
    let outdoor = outdoor_length(design);
    let indoors = maker.flue(height - outdoor, Zone::Indoors);
    let outdoors = maker.flue(outdoor, Zone::Outdoors);
    let Maker { walls, nodes, .. } = maker;
    let flue_girth = girth(&design.chimney);
    Body { walls, nodes, firebox, runs, connector, indoors, outdoors, flue_girth, behind }
}

/// Views between the sides of a duct, width by height, by Hottel's crossed strings.
///
/// F = ((w2 + h2)^(1/2) - h)/w between floor and ceiling; what is left goes to both uprights.
///
/// # Source
///
/// [`crate::sources::HOTTEL_SAROFIM_1967`].
pub fn views((width, height): (f64, f64)) -> [[f64; 4]; 4] {
    let diagonal = libm::hypot(width, height);
    let level = (diagonal - height) / width;
    let upright = (diagonal - width) / height;
    let to_upright = 0.5 * (1.0 - level);
    let to_level = 0.5 * (1.0 - upright);
    [
        [0.0, level, to_upright, to_upright],
        [level, 0.0, to_upright, to_upright],
        [to_level, to_level, 0.0, upright],
        [to_level, to_level, upright, 0.0],
    ]
}

const fn place_of(side: Side) -> usize {
    match side {
        Side::Bottom => 0,
        Side::Top => 1,
        Side::Left => 2,
        Side::Right => 3,
    }
}

/// Film between either face of a gap and its air (W/m2K).
///
/// # Source
///
/// [`crate::sources::WALL_BEHIND`].
pub const GAP_FILM: f64 = 3.5;
/// From the face of a framed wall through its insulation (m2K/W), 1/0.25.
///
/// # Source
///
/// [`crate::sources::WALL_U_VALUE`].
pub const INSULATED: f64 = 4.0;
/// From the face of a masonry wall to the other side (m2K/W): 240 mm of brick and a film.
const MASONRY_RESISTANCE: f64 = 0.24 / 0.78 + 0.13;
/// Narrowest gap in which air flows (m): 25 mm.
///
/// # Source
///
/// [`crate::sources::VENTILATED_GAP`].
const NARROWEST_GAP: f64 = 0.025;
/// Openings at foot and top over the section of the gap from which its air flows freely (–): then
/// 2 m of air that is 10 K warmer carry off what a back of 85 °C gives to it, with 2.7 for the loss
/// of each opening; computed.
const FREE_OPENING: f64 = 0.5;

/// The wall behind a heater. The other side of it is taken to be as warm as the room, for a wall
/// that loses nothing to the cold gets hotter.
fn wall_behind(design: &Design) -> Option<WallBehind> {
    let around = &design.surroundings;
    let resistance = match around.wall_behind {
        WallKind::NoWall => return None,
        WallKind::Framed => INSULATED,
        WallKind::Masonry => MASONRY_RESISTANCE,
    };
    let room = design.site.room_temperature;
    Some(WallBehind {
        room,
        beyond: room,
        resistance,
        film: GAP_FILM,
        emissivity: OUTER_EMISSIVITY,
        air: gap_air(design),
    })
}

/// Blocked unless openings at foot and top are known.
pub fn gap_air(design: &Design) -> GapAir {
    let Design { path, firebox, shell, surroundings, .. } = design;
    let opening = surroundings.gap_low_opening.min(surroundings.gap_high_opening);
    let inner = path.runs().iter().map(|run| run.length).fold(firebox.width, f64::max);
    let width = inner + 2.0 * (shell.core_thickness + shell.gap + shell.facing_thickness);
    let gap = surroundings.wall_gap;
    if opening <= 0.0 || gap < NARROWEST_GAP {
        GapAir::Blocked
    } else if opening < FREE_OPENING * width * gap {
        GapAir::Poor
    } else {
        GapAir::Flowing
    }
}

fn covers(design: &Design, behind: Option<WallBehind>) -> [(Outside, Cover); 3] {
    let board = design.shell.insulation;
    let cover = |insulation, behind| Cover { insulation, behind };
    [
        (Outside::Front, cover(board.front, None)),
        (Outside::Back, cover(board.back, behind)),
        (Outside::Sides, cover(board.sides, None)),
    ]
}

struct Maker<'a> {
    design: &'a Design,
    setup: &'a Setup,
    resolution: &'a Resolution,
    /// What lies on each part of the outside.
    covers: [(Outside, Cover); 3],
    walls: Vec<Placed>,
    nodes: usize,
}

impl Maker<'_> {
    fn place(&mut self, layers: Layers, area: f64, zone: Zone) -> usize {
        let nodes = self.nodes..self.nodes + layers.nodes();
        self.nodes = nodes.end;
        let site = &self.design.site;
        let start = match zone {
            Zone::Outdoors => site.outdoor_temperature,
            _ => site.room_temperature,
        };
        let ratio = match layers.back {
            Back::Room { ratio, .. } | Back::Wall { ratio, .. } => ratio,
            _ => 1.0,
        };
        self.walls.push(Placed { layers, area, ratio, nodes, zone, start });
        self.walls.len() - 1
    }

    fn runs(&mut self, path: &Path) -> Vec<RunCells> {
        let count = self.resolution.cells_per_run;
        let blank = |(index, segment): (usize, &Segment)| {
            // The ends of an oven stand with its upright sides, as if these were higher.
            let (width, height) = segment.section;
            let end = 0.5 * ends_of_oven(self.design, index) / segment.length;
            RunCells { cells: vec![Vec::new(); count], views: views((width, height + end)) }
        };
        let mut runs: Vec<RunCells> = path.segments.iter().enumerate().map(blank).collect();
        for (index, segment) in path.segments.iter().enumerate() {
            for (wall, outside) in self.parted(&segment.walls, index) {
                let area = segment.length / in_float(count) * wall.girth;
                for cell in 0..count {
                    let at = (index, cell);
                    match wall.backing {
                        Backing::Run { index: other, thickness } => {
                            let beyond = path.segments.get(other).map(|run| run.length);
                            let girth = beyond.map(|length| area * in_float(count) / length);
                            let beyond = (other, thickness, girth);
                            self.baffle(&mut runs, at, (&wall, area), beyond);
                        }
                        // Made with the firebox.
                        Backing::Firebox(_) => {}
                        _ => self.own_wall(&mut runs, at, (&wall, area), outside),
                    }
                }
            }
        }
        runs
    }

    /// Walls of a run, each face of them parted where what it shares the outside with has another
    /// cover: the ends of a run lose heat by its long walls, by their share of the perimeter.
    fn parted(&self, walls: &[Wall], run: usize) -> Vec<(Wall, Outside)> {
        let Design { path, shell, .. } = self.design;
        let sizes = path.runs();
        let own = sizes.get(run).map_or((1.0, 0.0), |own| (own.length, own.width));
        let whole = shell.core_thickness + shell.gap + shell.facing_thickness;
        let (along, across) = (own.0 + 2.0 * whole, own.1 + 2.0 * whole);
        let last = run + 1 == sizes.len();
        let mut parts = Vec::with_capacity(walls.len() + 2);
        for wall in walls {
            let outside = match (path.layout, wall.side) {
                _ if wall.backing != Backing::Face => Outside::Front,
                (Layout::Above, Side::Right) | (Layout::Behind, Side::Left) => Outside::Back,
                (Layout::Bench, Side::Right) if last => Outside::Back,
                _ => Outside::Front,
            };
            let (long, ends) = (self.alike(outside), self.alike(Outside::Sides));
            if wall.backing != Backing::Face || path.layout == Layout::Bench || long == ends {
                parts.push((*wall, long));
                continue;
            }
            let share = along / (along + across);
            let part = |share: f64| Wall { girth: share * wall.girth, ..*wall };
            parts.push((part(share), long));
            parts.push((part(1.0 - share), ends));
        }
        parts
    }

    /// The first part of the outside that loses heat as this one does.
    fn alike(&self, outside: Outside) -> Outside {
        let cover = self.cover(outside);
        let first = self.covers.iter().find(|(_, each)| *each == cover);
        first.map_or(outside, |(first, _)| *first)
    }

    fn cover(&self, outside: Outside) -> Cover {
        let own = self.covers.iter().find(|(each, _)| *each == outside);
        own.map_or(Cover { insulation: 0.0, behind: None }, |(_, cover)| *cover)
    }

    /// A baffle, made by the lower-numbered of its two runs; the serpentine runs back on its
    /// other side.
    fn baffle(
        &mut self,
        runs: &mut [RunCells],
        (run, cell): (usize, usize),
        (wall, area): (&Wall, f64),
        (other, thickness, girth): (usize, f64, Option<f64>),
    ) {
        if self.setup.lacks(Without::BaffleConduction) {
            let half = self.plain(0.5 * thickness, Back::Adiabatic);
            let placed = self.place(half, area, Zone::Inside);
            add(runs, (run, cell), placed, End::Inner, wall);
        } else if let Some(girth) = girth.filter(|_| run < other) {
            let placed = self.place(self.slab(thickness), area, Zone::Inside);
            add(runs, (run, cell), placed, End::Inner, wall);
            let far = (other, self.resolution.cells_per_run - 1 - cell);
            let wall = Wall { side: opposite(wall.side), girth, ..*wall };
            add(runs, far, placed, End::Outer, &wall);
        }
    }

    /// A wall that is not shared; left and right are one wall where they face the same.
    fn own_wall(
        &mut self,
        runs: &mut [RunCells],
        (run, cell): (usize, usize),
        (wall, area): (&Wall, f64),
        outside: Outside,
    ) {
        let (layers, zone) = self.layers_of(wall, run, outside);
        let same = widened(runs, (run, cell), &self.walls, (zone, wall));
        if let Some(placed) = same.and_then(|index| self.walls.get_mut(index)) {
            placed.area += area;
        } else {
            let placed = self.place(layers, area, zone);
            add(runs, (run, cell), placed, End::Inner, wall);
        }
    }

    /// What core, cap and baffles are made of.
    fn core(&self) -> Properties {
        let core = self.design.shell.core_material.properties();
        let Factors { core_conductivity, core_heat_capacity, .. } = self.setup.factors;
        core.scaled(core_conductivity, core_heat_capacity)
    }

    /// A slab with gas on both sides.
    fn slab(&self, thickness: f64) -> Layers {
        let layer = Layer::plane(&self.core(), thickness, self.resolution.slab_nodes);
        Layers::new(&[layer], None, Back::Gas)
    }

    fn layers_of(&self, wall: &Wall, run: usize, outside: Outside) -> (Layers, Zone) {
        let shell = &self.design.shell;
        let ratio = || self.spread(run, wall.side);
        match wall.backing {
            Backing::Face => {
                (self.face(shell.core_thickness, ratio(), outside), Zone::RunFace(run, outside))
            }
            Backing::Cap => (self.cap(ratio()), Zone::Cap),
            Backing::Door => (self.oven_door(), Zone::OvenDoor),
            Backing::Under => (self.under(shell.core_thickness), Zone::Under),
            Backing::Solid | Backing::Run { .. } | Backing::Firebox(_) => {
                let thickness = shell.core_thickness + shell.facing_thickness;
                (self.plain(thickness, Back::Adiabatic), Zone::Inside)
            }
        }
    }

    /// Outer area over inner area of a wall of a run: the outer body of the heater is wider than
    /// the runs by its walls, higher by the edges of the baffles, and closed by end walls.
    fn spread(&self, run: usize, side: Side) -> f64 {
        let Design { path, shell, .. } = self.design;
        let Some(own) = path.runs().get(run).copied() else { return 1.0 };
        let whole = shell.core_thickness + shell.gap + shell.facing_thickness;
        let baffle = path.baffle_thickness;
        let upright = matches!(side, Side::Left | Side::Right);
        let longer = |thickness: f64| (own.length + 2.0 * thickness) / own.length;
        match path.layout {
            Layout::Above | Layout::Behind if upright => {
                let perimeter = 2.0 * (own.length + own.width + 4.0 * whole);
                let inner = 2.0 * own.length * own.height + ends_of_oven(self.design, run);
                perimeter * (own.height + baffle) / inner
            }
            // The rim of the cap over the facing lies too far from the gas.
            Layout::Above | Layout::Behind => {
                let core = shell.core_thickness;
                longer(core) * (own.width + 2.0 * core) / own.width
            }
            Layout::Bench if upright => longer(whole),
            Layout::Bench => longer(shell.core_thickness) * (1.0 + baffle / own.width),
        }
    }

    /// Core, gap, facing, insulating board, room or wall of the house.
    fn face(&self, core_thickness: f64, ratio: f64, outside: Outside) -> Layers {
        let Cover { insulation, behind } = self.cover(outside);
        let shell = &self.design.shell;
        let core = self.core();
        let facing = shell.facing_material.properties();
        let layers = [
            Layer::plane(&core, core_thickness, self.resolution.core_nodes)
                .growing(GROWTH)
                .spreading(1.0, ratio),
            Layer::plane(&facing, shell.facing_thickness, self.resolution.facing_nodes)
                .of(Ply::Facing)
                .spreading(ratio, ratio),
            self.board(insulation, ratio),
        ];
        let gap = (shell.gap > 0.0)
            .then_some(Gap { width: shell.gap, emissivity: shell.inner_emissivity });
        let ambient = self.design.site.room_temperature;
        let room = Back::Room { ratio, ambient, film: 1.0 };
        let back = behind.map_or(room, |behind| Back::Wall { ratio, behind });
        Layers::new(&layers, gap, back)
    }

    fn board(&self, thickness: f64, ratio: f64) -> Layer {
        Layer::plane(&BOARD, thickness, self.resolution.flue_nodes)
            .of(Ply::Board)
            .spreading(ratio, ratio)
    }

    fn cap(&self, ratio: f64) -> Layers {
        let shell = &self.design.shell;
        let layer = Layer::plane(
            &self.core(),
            shell.cap_thickness,
            self.resolution.core_nodes + self.resolution.facing_nodes,
        );
        let ambient = self.design.site.room_temperature;
        let layer = layer.growing(GROWTH_OF_SLABS).spreading(1.0, ratio);
        let board = self.board(shell.insulation.top, ratio);
        Layers::new(&[layer, board], None, Back::Room { ratio, ambient, film: 1.0 })
    }

    fn plain(&self, thickness: f64, back: Back) -> Layers {
        let nodes = self.resolution.core_nodes + self.resolution.facing_nodes;
        Layers::new(
            &[Layer::plane(&self.core(), thickness, nodes).growing(GROWTH_OF_SLABS)],
            None,
            back,
        )
    }

    /// Core of a thickness on the base slab, over a ventilated void.
    fn under(&self, thickness: f64) -> Layers {
        let shell = &self.design.shell;
        let layers = [
            Layer::plane(&self.core(), thickness, self.resolution.core_nodes).growing(GROWTH),
            Layer::plane(&CONCRETE, shell.base_thickness, self.resolution.facing_nodes)
                .of(Ply::Base),
        ];
        let ambient = self.design.site.room_temperature;
        Layers::new(&layers, None, Back::Film { conductance: 1.0 / VOID_RESISTANCE, ambient })
    }

    fn firebox(&mut self, path: &Path, runs: &mut [RunCells]) -> Vec<Part> {
        let firebox = &self.design.firebox;
        let shell = &self.design.shell;
        let mut parts = Vec::new();
        for (index, segment) in path.segments.iter().enumerate() {
            for wall in &segment.walls {
                let Backing::Firebox(thickness) = wall.backing else { continue };
                let count = self.resolution.cells_per_run;
                let area = segment.length / in_float(count) * wall.girth;
                for cell in 0..count {
                    if self.setup.lacks(Without::CrownConduction) {
                        let half = self.plain(0.5 * thickness, Back::Adiabatic);
                        let placed = self.place(half.clone(), area, Zone::Inside);
                        add(runs, (index, cell), placed, End::Inner, wall);
                        parts.push(Part { wall: self.place(half, area, Zone::Inside), area });
                    } else {
                        let placed = self.place(self.slab(thickness), area, Zone::Inside);
                        add(runs, (index, cell), placed, End::Outer, wall);
                        parts.push(Part { wall: placed, area });
                    }
                }
            }
        }
        let base = firebox.width * firebox.depth;
        let floor = self.place(self.under(firebox.wall_thickness), base, Zone::Under);
        parts.push(Part { wall: floor, area: base });
        let mut rest = firebox.surface() - firebox.door_area() - path.firebox_overlap - base;
        if self.design.path.layout != Layout::Above && shell.cap_thickness > 0.0 {
            let cap = self.place(self.cap(1.0), base, Zone::Cap);
            parts.push(Part { wall: cap, area: base });
            rest -= base;
        }
        // Where the runs take up more of the firebox than it has, nothing is left over.
        if rest > 0.0 {
            let whole = firebox.wall_thickness + shell.gap + shell.facing_thickness;
            let inner = firebox.width + firebox.depth;
            let ratio = (inner + 4.0 * whole) / inner;
            for (outside, share) in self.firebox_outsides() {
                let face = self.face(firebox.wall_thickness, ratio, outside);
                let area = share * rest;
                let wall = self.place(face, area, Zone::FireboxFace(outside));
                parts.push(Part { wall, area });
            }
        }
        parts
    }

    /// Parts of the outside of the firebox with their shares of its free walls (–), those together
    /// that lose heat alike.
    fn firebox_outsides(&self) -> Vec<(Outside, f64)> {
        let firebox = &self.design.firebox;
        let upright = firebox.width * firebox.height;
        // Runs behind the firebox stand between it and what lies behind the heater.
        let back = match self.design.path.layout {
            Layout::Behind => 0.0,
            Layout::Above | Layout::Bench => upright,
        };
        let areas = [
            (Outside::Front, upright - firebox.door_area()),
            (Outside::Back, back),
            (Outside::Sides, 2.0 * firebox.depth * firebox.height),
        ];
        let whole: f64 = areas.iter().map(|(_, area)| area.max(0.0)).sum();
        let mut shares: Vec<(Outside, f64)> = Vec::new();
        for (outside, area) in areas {
            let (alike, share) = (self.alike(outside), area.max(0.0) / whole);
            match shares.iter_mut().find(|(each, _)| *each == alike) {
                Some((_, sum)) => *sum += share,
                None if share > 0.0 => shares.push((alike, share)),
                None => {}
            }
        }
        if let [(_, only)] = shares.as_mut_slice() {
            *only = 1.0;
        }
        shares
    }

    /// Double-walled, as the loading door.
    fn oven_door(&self) -> Layers {
        let ambient = self.design.site.room_temperature;
        let back = Back::Film { conductance: DOOR_CONDUCTANCE, ambient };
        Layers::new(&[sheet()], None, back)
    }

    fn connector(&mut self) -> usize {
        let layer = sheet();
        let ambient = self.design.site.room_temperature;
        let film = self.setup.factors.outside_film;
        let layers = Layers::new(&[layer], None, Back::Room { ratio: 1.0, ambient, film });
        let chimney = &self.design.chimney;
        let area = chimney.connector_length * girth(chimney);
        self.place(layers, area, Zone::Connector)
    }

    /// Walls of a part of the chimney, a wall per cell.
    fn flue(&mut self, length: f64, zone: Zone) -> Vec<usize> {
        let chimney = &self.design.chimney;
        let site = &self.design.site;
        let Factors { flue_conductivity, outside_film, .. } = self.setup.factors;
        let (film, ambient) = match zone {
            Zone::Outdoors => (FILM_OUTDOORS, site.outdoor_temperature),
            _ => (FILM_INDOORS, site.room_temperature),
        };
        let inner = chimney.hydraulic_diameter();
        let ratio = |depth: f64| 1.0 + 2.0 * depth / inner;
        let wall = chimney.wall_thickness;
        let outer = wall + chimney.insulation_thickness;
        let material = chimney.wall_material.properties();
        let material =
            Properties { conductivity: material.conductivity * flue_conductivity, ..material };
        let mut layers = vec![
            Layer::plane(&material, wall, self.resolution.flue_nodes)
                .of(Ply::Liner)
                .spreading(1.0, ratio(wall)),
        ];
        if chimney.insulation_thickness > 0.0 {
            layers.push(Layer {
                ply: Ply::Wool,
                thickness: chimney.insulation_thickness,
                conductivity: MINERAL_WOOL_CONDUCTIVITY * flue_conductivity,
                rows: &[],
                scale: 1.0,
                volumetric_heat_capacity: MINERAL_WOOL_HEAT_CAPACITY,
                spread: (ratio(wall), ratio(outer)),
                nodes: self.resolution.flue_nodes,
                growth: 1.0,
            });
        }
        let area = length / f64::from(CELLS) * girth(chimney);
        let back = Back::Film { conductance: film * outside_film * ratio(outer), ambient };
        (0..CELLS).map(|_| self.place(Layers::new(&layers, None, back), area, zone)).collect()
    }
}

/// Sheet of a connector or a door.
const fn sheet() -> Layer {
    Layer {
        ply: Ply::Sheet,
        thickness: CONNECTOR_SHEET,
        conductivity: STEEL_CONDUCTIVITY,
        rows: &[],
        scale: 1.0,
        volumetric_heat_capacity: STEEL_HEAT_CAPACITY,
        spread: (1.0, 1.0),
        nodes: 1,
        growth: 1.0,
    }
}

fn in_float(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}

const fn opposite(side: Side) -> Side {
    match side {
        Side::Bottom => Side::Top,
        Side::Top => Side::Bottom,
        Side::Left => Side::Right,
        Side::Right => Side::Left,
    }
}

/// Puts a face of a wall into a cell.
fn add(
    runs: &mut [RunCells],
    (run, cell): (usize, usize),
    wall: usize,
    end: End,
    strip: &Wall,
) {
    let mut sides = [0.0; 4];
    if let Some(side) = sides.get_mut(place_of(strip.side)) {
        *side = strip.girth;
    }
    if let Some(cell) = runs.get_mut(run).and_then(|run| run.cells.get_mut(cell)) {
        cell.push(Strip { wall, end, sides });
    }
}

/// Widens the face that a cell already has to the room, where there is one.
fn widened(
    runs: &mut [RunCells],
    (run, cell): (usize, usize),
    walls: &[Placed],
    (zone, strip): (Zone, &Wall),
) -> Option<usize> {
    if !matches!(zone, Zone::RunFace(..)) {
        return None;
    }
    let cell = runs.get_mut(run)?.cells.get_mut(cell)?;
    let own =
        cell.iter_mut().find(|own| walls.get(own.wall).is_some_and(|w| w.zone == zone))?;
    *own.sides.get_mut(place_of(strip.side))? += strip.girth;
    Some(own.wall)
}
