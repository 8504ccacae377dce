//! The masonry as walls cut into nodes, and where the gas touches them.

use super::layers::{Back, Gap, Layer, Layers};
use super::{Resolution, Setup, Without};
use crate::analysis::chimney::{CELLS, FILM_INDOORS, FILM_OUTDOORS, girth};
use crate::analysis::factors::Factors;
use crate::analysis::path::{Backing, Path, Segment, Side, Wall};
use crate::design::material::{
    CONCRETE, MINERAL_WOOL_CONDUCTIVITY, MINERAL_WOOL_HEAT_CAPACITY, Properties,
    STEEL_HEAT_CAPACITY,
};
use crate::design::{Design, Layout};
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

/// What the heat that leaves a wall is booked as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Zone {
    /// A face around a run, by index, to the room.
    RunFace(usize),
    /// A face around the firebox, to the room.
    FireboxFace,
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
}

/// Length of chimney that counts as outdoors (m): the mouth stands there in any case.
pub fn outdoor_length(design: &Design) -> f64 {
    design.chimney.outdoor_length.max(0.01)
}

/// Builds the masonry of a design.
pub fn body(design: &Design, path: &Path, setup: &Setup) -> Body {
    let resolution = &setup.resolution;
    let mut maker = Maker { design, setup, resolution, walls: Vec::new(), nodes: 0 };
    let mut runs = maker.runs(path);
    let firebox = maker.firebox(path, &mut runs);
    let connector = maker.connector();
    let height = design.chimney.mouth_height - path.exit_height;
    let outdoor = outdoor_length(design);
    let indoors = maker.flue(height - outdoor, Zone::Indoors);
    let outdoors = maker.flue(outdoor, Zone::Outdoors);
    let Maker { walls, nodes, .. } = maker;
    let flue_girth = girth(&design.chimney);
    Body { walls, nodes, firebox, runs, connector, indoors, outdoors, flue_girth }
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

struct Maker<'a> {
    design: &'a Design,
    setup: &'a Setup,
    resolution: &'a Resolution,
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
            Back::Room { ratio, .. } => ratio,
            _ => 1.0,
        };
        self.walls.push(Placed { layers, area, ratio, nodes, zone, start });
        self.walls.len() - 1
    }

    fn runs(&mut self, path: &Path) -> Vec<RunCells> {
        let count = self.resolution.cells_per_run;
        let blank = |segment: &Segment| RunCells {
            cells: vec![Vec::new(); count],
            views: views(segment.section),
        };
        let mut runs: Vec<RunCells> = path.segments.iter().map(blank).collect();
        for (index, segment) in path.segments.iter().enumerate() {
            for wall in &segment.walls {
                let area = segment.length / in_float(count) * wall.girth;
                for cell in 0..count {
                    let at = (index, cell);
                    match wall.backing {
                        Backing::Run { index: other, thickness } => {
                            let beyond = path.segments.get(other).map(|run| run.length);
                            let girth = beyond.map(|length| area * in_float(count) / length);
                            self.baffle(&mut runs, at, (wall, area), (other, thickness, girth));
                        }
                        // Made with the firebox.
                        Backing::Firebox(_) => {}
                        _ => self.own_wall(&mut runs, at, (wall, area)),
                    }
                }
            }
        }
        runs
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

    /// A wall that is not shared; left and right face the same room and are one wall.
    fn own_wall(
        &mut self,
        runs: &mut [RunCells],
        (run, cell): (usize, usize),
        (wall, area): (&Wall, f64),
    ) {
        let (layers, zone) = self.layers_of(wall.backing, run, wall.side);
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
        Properties {
            conductivity: core.conductivity * core_conductivity,
            density: core.density * core_heat_capacity,
            ..core
        }
    }

    /// A slab with gas on both sides.
    fn slab(&self, thickness: f64) -> Layers {
        let layer = Layer::plane(&self.core(), thickness, self.resolution.slab_nodes);
        Layers::new(&[layer], None, Back::Gas)
    }

    fn layers_of(&self, backing: Backing, run: usize, side: Side) -> (Layers, Zone) {
        let shell = &self.design.shell;
        match backing {
            Backing::Face => {
                (self.face(shell.core_thickness, self.spread(run, side)), Zone::RunFace(run))
            }
            Backing::Cap => (self.cap(self.spread(run, side)), Zone::Cap),
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
                perimeter * (own.height + baffle) / (2.0 * own.length * own.height)
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

    /// Core, gap, facing, room.
    fn face(&self, core_thickness: f64, ratio: f64) -> Layers {
        let shell = &self.design.shell;
        let core = self.core();
        let facing = shell.facing_material.properties();
        let layers = [
            Layer::plane(&core, core_thickness, self.resolution.core_nodes)
                .growing(GROWTH)
                .spreading(1.0, ratio),
            Layer::plane(&facing, shell.facing_thickness, self.resolution.facing_nodes)
                .spreading(ratio, ratio),
        ];
        let gap = (shell.gap > 0.0)
            .then_some(Gap { width: shell.gap, emissivity: shell.inner_emissivity });
        let ambient = self.design.site.room_temperature;
        Layers::new(&layers, gap, Back::Room { ratio, ambient, film: 1.0 })
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
        Layers::new(&[layer], None, Back::Room { ratio, ambient, film: 1.0 })
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
            Layer::plane(&CONCRETE, shell.base_thickness, self.resolution.facing_nodes),
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
            let face = self.face(firebox.wall_thickness, (inner + 4.0 * whole) / inner);
            let wall = self.place(face, rest, Zone::FireboxFace);
            parts.push(Part { wall, area: rest });
        }
        parts
    }

    fn connector(&mut self) -> usize {
        let layer = Layer {
            thickness: CONNECTOR_SHEET,
            conductivity: STEEL_CONDUCTIVITY,
            volumetric_heat_capacity: STEEL_HEAT_CAPACITY,
            spread: (1.0, 1.0),
            nodes: 1,
            growth: 1.0,
        };
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
                .spreading(1.0, ratio(wall)),
        ];
        if chimney.insulation_thickness > 0.0 {
            layers.push(Layer {
                thickness: chimney.insulation_thickness,
                conductivity: MINERAL_WOOL_CONDUCTIVITY * flue_conductivity,
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
    if zone != Zone::RunFace(run) {
        return None;
    }
    let cell = runs.get_mut(run)?.cells.get_mut(cell)?;
    let own =
        cell.iter_mut().find(|own| walls.get(own.wall).is_some_and(|w| w.zone == zone))?;
    *own.sides.get_mut(place_of(strip.side))? += strip.girth;
    Some(own.wall)
}
