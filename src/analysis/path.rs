//! The design turned into one path of segments, from the firebox to the connector.
//!
//! Layouts differ only here: where the runs lie and which walls they share.

use crate::design::{Design, Layout, Run};
use crate::physics::conduction::{semi_infinite_resistance, slab_resistance};
use crate::physics::convection::{Duct, nusselt_laminar_rectangle};
use crate::physics::pressure::laminar_friction_rectangle;

/// What lies behind a wall of a run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Backing {
    /// Masonry that the heat does not cross during the burn: faces, cap, underside.
    Thick,
    /// A slab with gas on its other side as well, of this thickness (m).
    Shared(f64),
}

/// A strip of wall along a segment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wall {
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
    /// Free section (m2).
    pub area: f64,
    /// Rise of the axis from the segment before (m), negative downward.
    pub rise: f64,
    /// Loss coefficient of the turn into it (–).
    pub turn_coefficient: f64,
    /// Flow and heat transfer of its section.
    pub duct: Duct,
    /// Its walls; together they make its perimeter.
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
    pub fn storage_resistance(&self, design: &Design, time: f64) -> f64 {
        storage_resistance(self.backing, design, time)
    }
}

/// Surface temperature rise of a core wall per unit of constant flux (m2K/W).
///
/// A shared slab is heated alike on both faces: its mid-plane passes no heat.
pub fn storage_resistance(backing: Backing, design: &Design, time: f64) -> f64 {
    let material = design.shell.core_material.properties();
    let (conductivity, capacity) = (material.conductivity, material.volumetric_heat_capacity());
    match backing {
        Backing::Thick => semi_infinite_resistance(conductivity, capacity, time),
        Backing::Shared(thickness) => {
            slab_resistance(0.5 * thickness, conductivity, capacity, time)
        }
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
            area: run.width * run.height,
            rise: height - from,
            turn_coefficient: if index == 0 {
                design.path.turn_coefficient
            } else {
                design.path.reversal_coefficient
            },
            duct: duct(design, run),
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
        exit_coefficient: design.path.turn_coefficient,
        firebox_overlap,
        length,
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

/// Walls of a run. Its perimeter times its length is its whole surface: where a slot as long as
/// the run is high opens the baffle at one end, the end wall beside it has the same area.
fn walls(design: &Design, run: &Run, height: f64, neighbors: Neighbors) -> Vec<Wall> {
    let baffle = design.path.baffle_thickness;
    let mut shared: Vec<(f64, f64)> = Vec::new();
    for neighbor in [neighbors.before, neighbors.after].into_iter().flatten() {
        let along = run.length.min(neighbor.length);
        let across = match design.path.layout {
            Layout::Above | Layout::Behind => run.width.min(neighbor.width),
            Layout::Bench => run.height.min(neighbor.height),
        };
        shared.push((along * across / run.length, baffle));
    }
    if let Some((area, thickness)) = against_firebox(design, run, height, neighbors.index) {
        shared.push((area / run.length, thickness));
    }
    let perimeter = 2.0 * (run.width + run.height);
    let inner: f64 = shared.iter().map(|(girth, _)| girth).sum();
    let thick = Wall { girth: (perimeter - inner).max(0.0), backing: Backing::Thick };
    let shared = shared
        .into_iter()
        .filter(|(girth, _)| 0.0 < *girth)
        .map(|(girth, thickness)| Wall { girth, backing: Backing::Shared(thickness) });
    std::iter::once(thick).chain(shared).collect()
}
