//! Where the parts of a heater stand in its section. The facing is that of `analysis::facing`; what stands
//! beside the firebox is drawn apart from it.

use super::heights::Heights;
use crate::analysis::places::{self, Placed};
use crate::analysis::{Analysis, RunState};
use crate::design::{Design, Layout};
use crate::drawing::{Extent, Point, point};

/// From the facing to a chimney that would stand in it (m): drawn, not designed.
pub(crate) const CHIMNEY_AIR: f64 = 0.04;

/// One run.
#[derive(Clone, Copy)]
pub(super) struct Cell {
    pub extent: Extent,
    /// 1 for gas that flows to the right, -1 to the left.
    pub along: f64,
    pub inlet: f64,
    pub outlet: f64,
}

impl Cell {
    fn place(&self) -> Placed {
        Placed { left: self.extent.low.x, right: self.extent.high.x, along: self.along }
    }

    pub(super) fn entry(&self) -> Point {
        let x = if self.along > 0.0 { self.extent.low.x } else { self.extent.high.x };
        point(x, self.extent.middle().y)
    }

    /// Just behind the entry.
    pub(super) fn inside(&self) -> Point {
        let into = 0.5 * self.extent.height().min(self.extent.width());
        point(self.entry().x + self.along * into, self.extent.middle().y)
    }

    pub(super) fn exit(&self) -> Point {
        let x = if self.along > 0.0 { self.extent.high.x } else { self.extent.low.x };
        point(x, self.extent.middle().y)
    }
}

/// A block of masonry.
#[derive(Clone, Copy)]
pub(super) struct Body {
    /// The core, to its top.
    pub core: Extent,
    /// And what is wider of it below.
    pub below: Option<Extent>,
    pub gap: Extent,
    pub facing: Extent,
    pub cap: Extent,
}

/// Connector and chimney.
#[derive(Clone, Copy)]
pub(super) struct Flue {
    /// Inner space of the chimney, from the house floor to the mouth.
    pub inner: Extent,
    /// From the face of the masonry to the chimney.
    pub connector: Extent,
    /// Through the masonry, from the last run to its face.
    pub opening: Extent,
    /// Masonry included (m).
    pub thickness: f64,
    /// Axis of the connector (m).
    pub exit: Point,
    /// 1 when it stands to the right of the masonry, -1 to the left.
    pub side: f64,
}

/// Where all parts stand.
pub(super) struct Frame {
    pub firebox: Extent,
    pub bodies: Vec<Body>,
    pub cells: Vec<Cell>,
    /// Openings from run to run, and in front of the first from the firebox when it lies below.
    pub slots: Vec<Extent>,
    /// Inner width of the runs, ends of the longest.
    pub inner: Extent,
    pub flue: Flue,
    /// Top of the base slab, on which all masonry stands.
    pub base: f64,
    /// Its underside.
    pub floor: f64,
    pub top: f64,
    pub heights: Heights,
}

impl Frame {
    pub(super) fn new(
        design: &Design,
        analysis: &Analysis,
        heights: Heights,
        spread: f64,
    ) -> Self {
        let chamber = &design.firebox;
        let firebox = Extent::new(0.0, 0.0, chamber.width, chamber.height);
        let cells = cells(design, analysis, spread);
        let inner =
            cells.iter().map(|cell| cell.extent).reduce(Extent::join).unwrap_or(firebox);
        let bodies = bodies(design, &cells, inner);
        let slots = match design.path.layout {
            Layout::Bench => Vec::new(),
            Layout::Above | Layout::Behind => slots(design, &cells),
        };
        let mut frame = Self {
            firebox,
            flue: flue(design, heights.drawn(design.chimney.mouth_height), &cells, &bodies),
            bodies,
            cells,
            slots,
            inner,
            base: -design.foot(),
            floor: floor(design),
            top: design.top_height(),
            heights,
        };
        frame.slots.extend(frame.way_up(design));
        frame
    }

    /// The opening from the firebox up to the first run.
    fn way_up(&self, design: &Design) -> Option<Extent> {
        let first = self.cells.first()?;
        if design.path.layout != Layout::Above {
            return None;
        }
        let width = places::way_up(design, design.path.runs().first()?);
        let top = first.extent.low.y;
        Some(Extent::new(0.0, self.firebox.high.y, width, top))
    }

    /// All masonry with the chimney left out.
    pub(super) fn outer(&self) -> Extent {
        self.bodies
            .iter()
            .map(|body| body.facing.join(body.cap))
            .reduce(Extent::join)
            .unwrap_or(self.firebox)
    }
}

/// Where the slab under the masonry lies on the house (m).
fn floor(design: &Design) -> f64 {
    -design.foot() - design.shell.base_thickness
}

fn cells(design: &Design, analysis: &Analysis, spread: f64) -> Vec<Cell> {
    let left = match design.path.layout {
        Layout::Above => 0.0,
        Layout::Behind | Layout::Bench => beside(design, spread),
    };
    let states = &analysis.height_of_fire.runs;
    let heights = design.run_heights();
    let sizes = design.path.runs();
    let rows = places::runs(design, left).into_iter().zip(sizes.iter().zip(heights));
    rows.enumerate()
        .map(|(index, (place, (run, height)))| {
            let (bottom, top) = (height - 0.5 * run.height, height + 0.5 * run.height);
            let (inlet, outlet) = temperatures(analysis, states.get(index));
            let extent = Extent::new(place.left, bottom, place.right, top);
            Cell { extent, along: place.along, inlet, outlet }
        })
        .collect()
}

fn temperatures(analysis: &Analysis, state: Option<&RunState>) -> (f64, f64) {
    let fire = &analysis.height_of_fire;
    state.map_or((fire.runs_outlet, fire.runs_outlet), |state| (state.inlet, state.outlet))
}

/// Where runs begin that are drawn to the right of the firebox (m).
fn beside(design: &Design, spread: f64) -> f64 {
    let shell = &design.shell;
    let skin = shell.gap + shell.facing_thickness;
    design.firebox.width
        + design.firebox.wall_thickness
        + skin
        + spread
        + skin
        + shell.core_thickness
}

fn bodies(design: &Design, cells: &[Cell], inner: Extent) -> Vec<Body> {
    let (shell, chamber) = (&design.shell, &design.firebox);
    let (wall, core) = (chamber.wall_thickness, shell.core_thickness);
    let under_cap = design.top_height() - shell.cap_thickness;
    let base = -design.foot();
    let alone = Extent::new(-wall, base, chamber.width + wall, under_cap);
    if cells.is_empty() {
        return vec![body(design, alone)];
    }
    match design.path.layout {
        Layout::Above => {
            let crown = chamber.height + chamber.crown_thickness;
            let stack = Extent::new(inner.low.x - core, crown, inner.high.x + core, under_cap);
            let foot = Extent::new(stack.low.x, base, stack.high.x, crown);
            let below = Extent { high: point(alone.high.x, crown), ..alone }.join(foot);
            let whole = body(design, below.join(stack));
            vec![Body { core: stack, below: Some(below), ..whole }]
        }
        Layout::Behind | Layout::Bench => {
            let (top, firebox_top) = match design.path.layout {
                Layout::Bench => (inner.high.y, chamber.height + chamber.crown_thickness),
                Layout::Above | Layout::Behind => (under_cap, under_cap),
            };
            let stack = Extent::new(inner.low.x - core, base, inner.high.x + core, top);
            let alone = Extent::new(-wall, base, chamber.width + wall, firebox_top);
            vec![body(design, alone), body(design, stack)]
        }
    }
}

fn body(design: &Design, core: Extent) -> Body {
    let shell = &design.shell;
    let wider =
        |by: f64| Extent::new(core.low.x - by, core.low.y, core.high.x + by, core.high.y);
    let facing = wider(shell.gap + shell.facing_thickness);
    let top = facing.high.y;
    Body {
        core,
        below: None,
        gap: wider(shell.gap),
        facing,
        cap: Extent::new(facing.low.x, top, facing.high.x, top + shell.cap_thickness),
    }
}

/// Openings in the baffles.
fn slots(design: &Design, cells: &[Cell]) -> Vec<Extent> {
    let sizes = design.path.runs();
    let runs = || cells.iter().zip(&sizes);
    runs()
        .zip(runs().skip(1))
        .map(|((before, run), (after, next))| {
            let (a, b) = (before.extent, after.extent);
            let (left, right) = places::slot((before.place(), run), (after.place(), next));
            let (low, high) =
                if a.low.y < b.low.y { (a.high.y, b.low.y) } else { (b.high.y, a.low.y) };
            Extent::new(left, low, right, high)
        })
        .collect()
}

fn flue(design: &Design, mouth: f64, cells: &[Cell], bodies: &[Body]) -> Flue {
    let chimney = &design.chimney;
    let last = cells.last();
    let side = match design.path.layout {
        Layout::Above => last.map_or(1.0, |cell| cell.along),
        Layout::Behind | Layout::Bench => 1.0,
    };
    let exit = last.map_or(
        point(
            design.firebox.width,
            design.firebox.height - 0.5 * chimney.flue_width.min(design.firebox.height),
        ),
        Cell::exit,
    );
    let thickness = chimney.shell();
    let face = bodies
        .iter()
        .map(|body| if side > 0.0 { body.facing.high.x } else { -body.facing.low.x })
        .fold(f64::NEG_INFINITY, f64::max);
    let near = side * exit.x + chimney.connector_length;
    // One that would stand in the facing is drawn beside it.
    let near = if near < face + thickness { face + thickness + CHIMNEY_AIR } else { near };
    let (a, b) = (side * near, side * (near + chimney.flue_width));
    let inner = Extent::new(a.min(b), floor(design), a.max(b), mouth);
    let half = 0.5 * chimney.flue_width;
    let room = last.map_or(chimney.flue_width, |cell| cell.extent.height());
    let between = |a: f64, b: f64, half: f64| {
        Extent::new(a.min(b), exit.y - half, a.max(b), exit.y + half)
    };
    let connector = between(side * face, a, half);
    let opening = between(exit.x, side * face, half.min(0.5 * room));
    Flue { inner, connector, opening, thickness, exit, side }
}
