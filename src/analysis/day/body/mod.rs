//! The masonry as walls cut into nodes, and where the gas touches them.

mod covers;
mod firebox;
mod flue;
mod runs;
mod sections;
mod spots;

use super::layers::{Back, Layers};
use super::{Resolution, Setup, Without};
use crate::analysis::chimney::girth;
use crate::analysis::facing::Facing;
use crate::analysis::path::Path;
use crate::design::Design;
use crate::physics::gap::WallBehind;
use covers::{Cover, covers, wall_behind};
pub use covers::{GAP_FILM, INSULATED, gap_air};
use std::ops::Range;

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
    /// The first of the walls that stand in a row along a run with it, by index; its own where it
    /// stands alone.
    pub row: usize,
}

impl Placed {
    /// Whether it only rides along: it meets gas and radiation as the wall that it stands for, and
    /// neither takes heat from them nor gives any to the room.
    pub fn rides_along(&self) -> bool {
        self.area <= 0.0
    }
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
    /// Whether its wall only rides along: then its sides are those of the wall that it stands for.
    pub rides_along: bool,
}

impl Strip {
    /// Whole girth (m), also of what only rides along.
    pub fn girth(&self) -> f64 {
        self.sides.iter().sum()
    }

    /// Girth over which it exchanges heat (m).
    pub fn exchanging(&self) -> f64 {
        if self.rides_along { 0.0 } else { self.girth() }
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
        facing: Facing::new(design),
        covers: covers(design, behind),
        walls: Vec::new(),
        nodes: 0,
    };
    let mut runs = maker.runs(path);
    let mut firebox = maker.firebox(path, &mut runs);
    if !setup.lacks(Without::HotSpots) {
        maker.ride_along_runs(path, &mut runs);
        firebox.extend(maker.ride_along_firebox(&firebox));
    }
    let connector = maker.connector();
    let height = design.chimney.mouth_height - path.exit_height;
    let outdoor = outdoor_length(design);
    let indoors = maker.flue(height - outdoor, Zone::Indoors);
    let outdoors = maker.flue(outdoor, Zone::Outdoors);
    let Maker { walls, nodes, .. } = maker;
    let flue_girth = girth(&design.chimney);
    Body { walls, nodes, firebox, runs, connector, indoors, outdoors, flue_girth, behind }
}

struct Maker<'a> {
    design: &'a Design,
    setup: &'a Setup,
    resolution: &'a Resolution,
    facing: Facing,
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
        let row = self.walls.len();
        self.walls.push(Placed { layers, area, ratio, nodes, zone, start, row });
        row
    }

    /// Lets a wall stand in a row with the one before.
    fn in_row(&mut self, wall: usize) {
        let before = wall.checked_sub(1).and_then(|before| self.walls.get(before));
        let row = before.map(|before| before.row);
        if let Some((wall, row)) = self.walls.get_mut(wall).zip(row) {
            wall.row = row;
        }
    }
}

fn in_float(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}
