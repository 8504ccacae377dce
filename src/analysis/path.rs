//! The design turned into one path of segments, from the firebox to the connector.
//!
//! Layouts differ only here: where the runs lie and which walls they share.

use super::factors::Factors;
use super::fire::DOOR_CONDUCTANCE;
use crate::design::{Design, Layout, Run};
use crate::physics::conduction::{semi_infinite_resistance, slab_resistance};
use crate::physics::convection::{Duct, nusselt_laminar_rectangle};
use crate::physics::pressure::laminar_friction_rectangle;
use crate::units::kelvin;

/// What lies behind a wall of a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Backing {
    /// Core, gap, facing, then the room.
    Face,
    /// The slab over the heater, then the room.
    Cap,
    /// Masonry of the heater that reaches no room.
    Solid,
    /// The base below the heater.
    Under,
    /// A slab of this thickness (m) with another run on its other side.
    Run {
        /// Index of that run.
        index: usize,
        /// Thickness of the slab (m).
        thickness: f64,
    },
    /// A slab of this thickness (m) with the firebox on its other side.
    Firebox(f64),
    /// The metal door of an oven, then the room.
    Door,
}

/// A side of a run, seen along the flow of the first run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Floor.
    Bottom,
    /// Ceiling.
    Top,
    /// One upright side.
    Left,
    /// The other.
    Right,
}

impl Side {
    /// All four.
    pub const ALL: [Self; 4] = [Self::Bottom, Self::Top, Self::Left, Self::Right];
}

/// A strip of wall along a segment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
    /// Side of the run on which it lies.
    pub side: Side,
    /// Width of the strip, across the flow (m).
    pub girth: f64,
    /// What lies behind it.
    pub backing: Backing,
}

/// One run with the turn that leads into it.
#[derive(Clone, Debug, PartialEq)]
pub struct Segment {
    /// Length of the run (m).
    pub length: f64,
    /// Inner width and height (m).
    pub section: (f64, f64),
    /// Free section (m2).
    pub area: f64,
    /// Rise of the axis from the segment before (m), negative downward.
    pub rise: f64,
    /// Loss coefficient of the turn into it (–).
    pub turn_coefficient: f64,
    /// Flow and heat transfer of its section.
    pub duct: Duct,
    /// Volume of its gas over the surface around it (m): of an oven with its ends.
    pub volume_over_area: f64,
    /// Its walls; together they make its perimeter, those of an oven with its ends.
    pub walls: Vec<Wall>,
}

/// The way of the gas through the heater.
#[derive(Clone, Debug, PartialEq)]
pub struct Path {
    /// Runs in flow order.
    pub segments: Vec<Segment>,
    /// Height of the exit of the last run above the floor of the firebox (m).
    pub exit_height: f64,
    /// Loss coefficient of the turn out of the last run (–).
    pub exit_coefficient: f64,
    /// Area of the firebox walls with a run on their other side (m2).
    pub firebox_overlap: f64,
    /// Length of runs and rises or falls between them (m).
    pub length: f64,
}

impl Wall {
    /// Surface temperature rise per unit of flux after a time (m2K/W), see `physics::conduction`.
    pub fn storage_resistance(&self, design: &Design, factors: &Factors, time: f64) -> f64 {
        storage_resistance(self.backing, design, factors, time)
    }
}

/// At which the core conducts at the height of the fire (K): the mean over the depth that the heat
/// has reached by then, common practice, no source.
const MEAN_WALL: f64 = kelvin(300.0);

/// Surface temperature rise of a core wall per unit of constant flux (m2K/W).
///
/// A shared slab is heated alike on both faces: its mid-plane passes no heat.
pub fn storage_resistance(
    backing: Backing,
    design: &Design,
    factors: &Factors,
    time: f64,
) -> f64 {
    let material = design.shell.core_material.properties();
    let conductivity = material.conductivity_at(MEAN_WALL) * factors.core_conductivity;
    let capacity = material.volumetric_heat_capacity() * factors.core_heat_capacity;
    match backing {
        Backing::Face | Backing::Cap | Backing::Solid | Backing::Under => {
            semi_infinite_resistance(conductivity, capacity, time)
        }
        Backing::Run { thickness, .. } | Backing::Firebox(thickness) => {
            slab_resistance(0.5 * thickness, conductivity, capacity, time)
        }
        Backing::Door => 1.0 / DOOR_CONDUCTANCE,
    }
}

/// Turns a design into its path.
pub fn path(design: &Design) -> Path {
    let runs = design.path.runs();
    let heights = design.run_heights();
    let mut from = exit_of_firebox(design);
    let mut segments = Vec::with_capacity(runs.len());
    let mut length = 0.0;
    for (index, (run, height)) in runs.iter().zip(&heights).enumerate() {
        let neighbors = Neighbors {
            index,
            before: index.checked_sub(1).and_then(|before| runs.get(before)).copied(),
            after: runs.get(index + 1).copied(),
        };
        // The firebox column ends at the axis of the first run of a stack above it.
        let rise = if index == 0 { 0.0 } else { height - from };
        length += run.length + rise.abs();
        segments.push(Segment {
            length: run.length,
            section: (run.width, run.height),
            area: run.width * run.height,
            rise: height - from,
            turn_coefficient: entry_coefficient(design, &runs, index),
            duct: duct(design, run),
            volume_over_area: volume_over_area(design, run, index),
            walls: walls(design, run, *height, neighbors),
        });
        from = *height;
    }
    let shared_area = |(index, (run, height)): (usize, (&Run, &f64))| {
        against_firebox(design, run, *height, index).map_or(0.0, |(area, _)| area)
    };
    let firebox_overlap = runs.iter().zip(&heights).enumerate().map(shared_area).sum();
    Path {
        segments,
        exit_height: from,
        exit_coefficient: exit_coefficient(design, &runs),
        firebox_overlap,
        length,
    }
}

/// Volume over surface (m): a quarter of the hydraulic diameter but for an oven, a short box.
fn volume_over_area(design: &Design, run: &Run, index: usize) -> f64 {
    let Run { length, width, height } = *run;
    let ends = if design.path.oven_index() == Some(index) { 1.0 } else { 0.0 };
    let surface = 2.0 * (width + height) * length + ends * 2.0 * width * height;
    width * height * length / surface
}

/// Loss of the way into a run (–), on the narrower of both sections: the turn, and where the gas
/// comes into an oven or out of it, the sudden change of section. Into an oven that comes first
/// it passes an opening as large as a run.
///
/// # Source
///
/// [`crate::sources::BORDA_CARNOT`].
fn entry_coefficient(design: &Design, runs: &[Run], index: usize) -> f64 {
    let path = &design.path;
    let oven = path.oven_index();
    let area = |index: usize| runs.get(index).map_or(1.0, |run| run.width * run.height);
    let Some(before) = index.checked_sub(1) else {
        let opening = (path.run_width * path.run_height).min(area(0));
        let ratio = opening / area(0);
        return if oven == Some(0) {
            let lost = path.turn_coefficient + (1.0 - ratio) * (1.0 - ratio);
            lost / (ratio * ratio)
        } else {
            path.turn_coefficient
        };
    };
    let ratio = area(before) / area(index);
    let change = if oven != Some(index) && oven != Some(before) {
        0.0
    } else if ratio < 1.0 {
        (1.0 - ratio) * (1.0 - ratio)
    } else {
        0.5 * (1.0 - 1.0 / ratio)
    };
    path.reversal_coefficient + change
}

/// Loss of the way out of the last run (–): out of an oven it narrows to the flue.
fn exit_coefficient(design: &Design, runs: &[Run]) -> f64 {
    let turn = design.path.turn_coefficient;
    let last = runs.len().checked_sub(1);
    match runs.last() {
        Some(run) if design.path.oven_index() == last => {
            turn + 0.5 * (1.0 - design.chimney.area() / (run.width * run.height)).max(0.0)
        }
        _ => turn,
    }
}

/// Height at which gas leaves the firebox (m): its ceiling.
fn exit_of_firebox(design: &Design) -> f64 {
    design.firebox.height
}

/// Area of a run that lies against the firebox (m2) and the thickness between them (m).
fn against_firebox(
    design: &Design,
    run: &Run,
    height: f64,
    index: usize,
) -> Option<(f64, f64)> {
    let firebox = &design.firebox;
    let along = run.length.min(firebox.width);
    match design.path.layout {
        Layout::Above if index == 0 => {
            Some((along * run.width.min(firebox.depth), firebox.crown_thickness))
        }
        Layout::Behind => {
            let top = (height + 0.5 * run.height).min(firebox.height);
            let facing = (top - (height - 0.5 * run.height)).max(0.0);
            Some((along * facing, firebox.wall_thickness))
        }
        Layout::Above | Layout::Bench => None,
    }
}

fn duct(design: &Design, run: &Run) -> Duct {
    let (width, height) = (run.width, run.height);
    let aspect = width.min(height) / width.max(height);
    Duct {
        hydraulic_diameter: 2.0 * width * height / (width + height),
        length: run.length,
        roughness: design.path.roughness,
        laminar_friction: laminar_friction_rectangle(aspect),
        laminar_nusselt: nusselt_laminar_rectangle(aspect),
    }
}

#[derive(Clone, Copy)]
struct Neighbors {
    index: usize,
    before: Option<Run>,
    after: Option<Run>,
}

/// Area of both ends of an oven (m2), less what the slots to its neighbors open elsewhere; none for
/// a run.
pub fn ends_of_oven(design: &Design, index: usize) -> f64 {
    let path = &design.path;
    let runs = path.runs();
    let section = |run: &Run| run.width * run.height;
    let Some(oven) = runs.get(index).filter(|_| path.oven_index() == Some(index)) else {
        return 0.0;
    };
    let to = |neighbor: Option<usize>| {
        let beside = neighbor.and_then(|neighbor| runs.get(neighbor));
        beside.map_or(path.run_width * path.run_height, section)
    };
    let slots = [to(index.checked_sub(1)), to(Some(index + 1))];
    slots.into_iter().map(|slot| (section(oven) - slot).max(0.0)).sum()
}

/// Walls of a run. Its perimeter times its length is its whole surface: where a slot as long as
/// the run is high opens the baffle at one end, the end wall beside it has the same area. The ends
/// of an oven, a short box, are more than that: they count with its upright sides.
fn walls(design: &Design, run: &Run, height: f64, neighbors: Neighbors) -> Vec<Wall> {
    let thickness = design.path.baffle_thickness;
    let layout = design.path.layout;
    let Neighbors { index, before, after } = neighbors;
    let (side_before, side_after) = match layout {
        Layout::Above => (Side::Bottom, Side::Top),
        Layout::Behind => (Side::Top, Side::Bottom),
        Layout::Bench => (Side::Left, Side::Right),
    };
    let baffle = |neighbor: Option<Run>, side, other| {
        neighbor.map(|neighbor| {
            let along = run.length.min(neighbor.length);
            let across = match side {
                Side::Bottom | Side::Top => run.width.min(neighbor.width),
                Side::Left | Side::Right => run.height.min(neighbor.height),
            };
            let backing = Backing::Run { index: other, thickness };
            Wall { side, girth: along * across / run.length, backing }
        })
    };
    let firebox = against_firebox(design, run, height, index).map(|(area, thickness)| Wall {
        side: if layout == Layout::Above { Side::Bottom } else { Side::Right },
        girth: area / run.length,
        backing: Backing::Firebox(thickness),
    });
    let shared = [
        baffle(before, side_before, index.wrapping_sub(1)),
        baffle(after, side_after, index + 1),
        firebox,
    ];
    let mut walls: Vec<Wall> = shared.into_iter().flatten().collect();
    let ends = ends_of_oven(design, index);
    for side in Side::ALL {
        let whole = match side {
            Side::Bottom | Side::Top => run.width,
            Side::Left | Side::Right => run.height,
        };
        let shared: f64 =
            walls.iter().filter(|wall| wall.side == side).map(|wall| wall.girth).sum();
        let backing = own_backing(layout, side, after);
        let end = match side {
            Side::Bottom | Side::Top => 0.0,
            Side::Left | Side::Right => 0.5 * ends / run.length,
        };
        let girth = (whole - shared).max(0.0) + end;
        let door = door_girth(design, run, index).filter(|_| side == front(layout));
        if let Some(door) = door {
            walls.push(Wall { side, girth: door.min(girth), backing: Backing::Door });
        }
        let door = door.unwrap_or(0.0).min(girth);
        walls.push(Wall { side, girth: girth - door, backing });
    }
    walls.retain(|wall| 0.0 < wall.girth);
    walls
}

/// The side of a run on which the room with the door lies.
const fn front(layout: Layout) -> Side {
    match layout {
        Layout::Above | Layout::Bench => Side::Left,
        Layout::Behind => Side::Right,
    }
}

/// Door of an oven as a strip along it (m).
fn door_girth(design: &Design, run: &Run, index: usize) -> Option<f64> {
    let door = design.path.oven.door_area;
    (design.path.oven_index() == Some(index) && door > 0.0).then(|| door / run.length)
}

/// What lies behind the part of a side that is not shared.
const fn own_backing(layout: Layout, side: Side, after: Option<Run>) -> Backing {
    match (layout, side) {
        (_, Side::Left | Side::Right) => Backing::Face,
        (_, Side::Top) => Backing::Cap,
        (Layout::Bench, Side::Bottom) => Backing::Under,
        (Layout::Behind, Side::Bottom) if after.is_none() => Backing::Under,
        (Layout::Above | Layout::Behind, Side::Bottom) => Backing::Solid,
    }
}
