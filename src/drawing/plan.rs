//! The heater from above, cut through a run: slot, core, gap, facing, what stands around it.

use super::front::far;
use super::section::CHIMNEY_AIR;
use super::sheet::{Note, Scale, Sheet};
use super::walls::{Distance, THICKNESS, drawn};
use super::{Anchor, Axis, Drawing, Extent, Grip, Point, Role, heat_step, point};
use crate::analysis::connection::Connection;
use crate::analysis::facing::{self, Facing};
use crate::analysis::{Analysis, places};
use crate::design::field::FieldId;
use crate::design::{Design, Layout};
use crate::language::{said, say};
use crate::rules::Place;
use crate::units::{Quantity, System, figure};

/// The inputs that the plan changes, in the order in which one reads it.
pub const GRIPS: [FieldId; 5] = [
    FieldId::BehindDistance,
    FieldId::RunLength,
    FieldId::RunWidth,
    FieldId::FireboxDepth,
    FieldId::FrontDistance,
];

struct Plan<'a> {
    design: &'a Design,
    system: System,
    sheet: Sheet,
    /// Runs, in flow order: all of a bench, else the first.
    runs: Vec<Extent>,
    firebox: Extent,
    /// Outer faces of what the facing goes around, the firebox first.
    blocks: Vec<Extent>,
    /// The core that is cut.
    cores: Vec<Extent>,
    /// The outside of the chimney.
    chimney: Extent,
    connection: Connection,
}

/// The heater from above, to scale (m): x as in the section, y from the front to the back, 0 in
/// the middle of the firebox. Texts are enlarged by a factor.
pub fn plan(design: &Design, analysis: &Analysis, system: System, text_scale: f64) -> Drawing {
    view(design, analysis, system, Scale::shown(text_scale))
}

/// The same with every distance as it is.
pub fn to_measure(design: &Design, analysis: &Analysis, system: System) -> Drawing {
    view(design, analysis, system, Scale::TO_MEASURE)
}

fn view(design: &Design, analysis: &Analysis, system: System, scale: Scale) -> Drawing {
    let mut plan = Plan::new(design, system, scale);
    plan.masonry();
    plan.runs(heat_step(analysis.height_of_fire.firebox_outlet));
    plan.firebox();
    plan.chimney();
    let whole = plan.blocks.iter().copied().reduce(Extent::join).unwrap_or(plan.firebox);
    plan.dimensions(whole);
    plan.around(whole);
    let description = plan.description(whole);
    plan.sheet.finish(description)
}

/// A rectangle of the facing's geometry as it is drawn.
const fn seen(plan: facing::Plan) -> Extent {
    Extent::new(plan.left, plan.front, plan.right, plan.back)
}

/// A rectangle of a width (m) between two ends across, with its middle at a height.
fn strip(left: f64, right: f64, middle: f64, width: f64) -> Extent {
    Extent::new(left, middle - 0.5 * width, right, middle + 0.5 * width)
}

impl<'a> Plan<'a> {
    fn new(design: &'a Design, system: System, scale: Scale) -> Self {
        let sizes = design.path.runs();
        let chamber = &design.firebox;
        let firebox = strip(0.0, chamber.width, 0.0, chamber.depth);
        let facing = Facing::new(design);
        let skin = design.shell.gap + design.shell.facing_thickness;
        let around = facing.shells.iter().flat_map(|shell| &shell.around);
        let blocks = around.map(|plan| seen(plan.grown(skin))).collect();
        let is_above = design.path.layout == Layout::Above;
        let firebox_core = Some(facing.firebox).filter(|_| !is_above || facing.runs.is_none());
        let cores = firebox_core.into_iter().chain(facing.runs).map(seen).collect();
        let count = if design.path.layout == Layout::Bench { sizes.len() } else { 1 };
        let inside =
            facing.runs.map_or(firebox, |plan| seen(plan.grown(-design.shell.core_thickness)));
        let left = inside.low.x;
        let across = places::runs(design, left).into_iter().zip(&sizes).take(count);
        let runs = across
            .map(|(place, size)| match design.path.layout {
                Layout::Bench => {
                    let middle = places::bench_middle(design);
                    strip(place.left, place.right, middle, size.length)
                }
                Layout::Above => strip(place.left, place.right, 0.0, size.width),
                Layout::Behind => {
                    let front = inside.low.y;
                    Extent::new(place.left, front, place.right, front + size.width)
                }
            })
            .collect::<Vec<_>>();
        let connection = Connection::new(design);
        // One that would stand in the facing is drawn beside it.
        let off = if connection.bare < 0.0 { CHIMNEY_AIR - connection.bare } else { 0.0 };
        let along = connection.side * off;
        let chimney = seen(connection.outside);
        let chimney = Extent {
            low: point(chimney.low.x + along, chimney.low.y),
            high: point(chimney.high.x + along, chimney.high.y),
        };
        let sheet = Sheet::of(design, scale);
        Self { design, system, sheet, runs, firebox, blocks, cores, chimney, connection }
    }

    fn figure(&self, value: f64, quantity: Quantity) -> String {
        figure(value, quantity, self.system)
    }

    fn masonry(&mut self) {
        let thickness = self.design.shell.facing_thickness;
        let blocks = self.blocks.clone();
        for block in &blocks {
            self.sheet.rectangle(Role::Facing, None, *block);
            self.sheet.rectangle(Role::Outline, Some(Place::Whole), *block);
        }
        for block in blocks {
            self.sheet.rectangle(Role::Void, None, block.grown(-thickness));
        }
        for core in self.cores.clone() {
            self.sheet.rectangle(Role::Core, None, core);
        }
    }

    /// The runs with their slots: up or down at the end of one, through the baffle of a bench.
    fn runs(&mut self, heat: u8) {
        let is_bench = self.design.path.layout == Layout::Bench;
        for (index, run) in self.runs.clone().into_iter().enumerate() {
            let place = Some(Place::Run(index));
            self.sheet.rectangle(Role::Void, place, run);
            let inset = 0.18 * run.width().min(run.height());
            if !is_bench {
                self.sheet.rectangle(Role::Gas(heat), place, run.grown(-inset));
            }
        }
        let sizes = self.design.path.runs();
        if is_bench {
            let pairs: Vec<_> =
                self.runs.iter().copied().zip(self.runs.iter().skip(1).copied()).collect();
            let middle = places::bench_middle(self.design);
            let turns = pairs.into_iter().zip(sizes.iter().zip(sizes.iter().skip(1)));
            for (index, ((before, after), (size, next))) in turns.enumerate() {
                let (low, high) = places::slot_of_bench(index, size, next);
                let (low, high) = (middle + low, middle + high);
                let slot = Extent::new(before.high.x, low, after.low.x, high);
                self.sheet.rectangle(Role::Void, None, slot);
            }
            if let Some((run, size)) = self.runs.first().copied().zip(sizes.first()) {
                let long = places::way_down(size);
                self.dashed(Extent::new(run.low.x, run.low.y, run.high.x, run.low.y + long));
            }
        } else if let (Some(run), Some(size)) = (self.runs.first().copied(), sizes.first()) {
            let long = size.height.min(0.4 * run.width());
            let to_right = self.design.path.layout == Layout::Above || sizes.len() % 2 == 1;
            let slot = if to_right {
                Extent::new(run.high.x - long, run.low.y, run.high.x, run.high.y)
            } else {
                Extent::new(run.low.x, run.low.y, run.low.x + long, run.high.y)
            };
            self.dashed(slot);
        }
    }

    fn dashed(&mut self, of: Extent) {
        let (low, high) = (of.low, of.high);
        let corners = [low, point(high.x, low.y), high, point(low.x, high.y), low];
        self.sheet.line(Role::Passage, corners.to_vec());
    }

    /// The firebox, below the cut where runs lie above it.
    fn firebox(&mut self) {
        let chamber = &self.design.firebox;
        let is_below = self.design.path.layout == Layout::Above && !self.runs.is_empty();
        if is_below {
            self.dashed(self.firebox);
        } else {
            self.sheet.rectangle(Role::Void, Some(Place::Firebox), self.firebox);
        }
        let Some(block) = self.blocks.first() else {
            return;
        };
        let middle = self.firebox.middle().x;
        let half = 0.5 * chamber.door_width;
        let deep = 0.4 * (self.firebox.low.y - block.low.y);
        let door = Extent::new(middle - half, block.low.y, middle + half, block.low.y + deep);
        self.sheet.rectangle(Role::Door, Some(Place::Door), door);
        self.grip(FieldId::FireboxDepth, point(middle, self.firebox.high.y), 2.0);
    }

    fn chimney(&mut self) {
        let size = &self.design.chimney;
        let outer = self.chimney;
        let wool = outer.grown(-size.masonry());
        let wall = wool.grown(-size.insulation_thickness);
        let place = Some(Place::ChimneyInlet);
        if 0.0 < size.masonry() {
            self.sheet.rectangle(Role::FacingBrick, place, outer);
        }
        self.sheet.rectangle(Role::Insulation, place, wool);
        self.sheet.rectangle(Role::Core, None, wall);
        let flue = wall.grown(-size.wall_thickness);
        self.sheet.rectangle(Role::Void, place, flue);
        self.pipe(flue);
    }

    /// The connector between facing and chimney.
    fn pipe(&mut self, flue: Extent) {
        let Connection { bare, side, .. } = self.connection;
        let half = 0.5 * self.design.chimney.flue_width.min(flue.height());
        let middle = self.chimney.middle().y;
        let near = if side > 0.0 { self.chimney.low.x } else { self.chimney.high.x };
        let far = near - side * bare.max(0.0);
        let pipe = Extent::new(near.min(far), middle - half, near.max(far), middle + half);
        self.sheet.rectangle(Role::Void, Some(Place::RunsOutlet), pipe);
    }

    fn grip(&mut self, field: FieldId, at: Point, per_meter: f64) {
        self.sheet.grips.push(Grip { field, at, axis: Axis::Up, per_meter });
    }

    fn dimensions(&mut self, whole: Extent) {
        let size = self.sheet.text_size;
        let away = point(-0.6 * size, 0.0);
        let x = self.firebox.low.x + 1.6 * size;
        let (low, high) = (point(x, self.firebox.low.y), point(x, self.firebox.high.y));
        let text = self.figure(self.design.firebox.depth, Quantity::Size);
        self.sheet.dimension(low, high, &text, point(-away.x, 0.0));
        if let Some(run) = self.runs.first().copied() {
            let is_bench = self.design.path.layout == Layout::Bench;
            let field = if is_bench { FieldId::RunLength } else { FieldId::RunWidth };
            let at = if is_bench { 0.5 } else { 0.7 };
            let quantity = if is_bench { Quantity::Length } else { Quantity::Size };
            let x = run.low.x + at * run.width();
            self.grip(field, point(x, run.high.y), 2.0);
            let (low, high) = (point(x, run.low.y), point(x, run.high.y));
            let text = self.figure(run.height(), quantity);
            let step = if is_bench { 0.6 * size } else { -0.6 * size };
            self.sheet.dimension(low, high, &text, point(step, 0.0));
        }
        self.chimney_dimensions(whole);
        let x = whole.low.x.min(self.chimney.low.x) - 1.2 * size;
        let (low, high) = (point(x, whole.low.y), point(x, whole.high.y));
        let text = self.figure(whole.height(), Quantity::Length);
        self.sheet.dimension(low, high, &text, away);
        let y = whole.low.y - 1.6 * size;
        let (left, right) = (point(whole.low.x, y), point(whole.high.x, y));
        let text = self.figure(whole.width(), Quantity::Length);
        self.sheet.dimension(left, right, &text, point(0.0, -0.6 * size));
    }

    /// The outside of the chimney and where it stands: off the facing, and behind the front of the masonry.
    fn chimney_dimensions(&mut self, whole: Extent) {
        let size = self.sheet.text_size;
        let Connection { bare, side, .. } = self.connection;
        let (outer, text) = (self.chimney, |length| self.figure(length, Quantity::Size));
        let (across, deep) = (text(outer.width()), text(outer.height()));
        let (place, off) = (text(outer.low.y - whole.low.y), text(bare));
        let (near, far) =
            if side > 0.0 { (outer.low.x, outer.high.x) } else { (outer.high.x, outer.low.x) };
        let (down, up) = (point(0.0, -0.6 * size), point(0.0, 0.6 * size));
        let level =
            |y: f64, from: f64, to: f64| (point(from.min(to), y), point(from.max(to), y));
        let (from, to) = level(outer.low.y - size, near, far);
        self.sheet.dimension(from, to, &across, down);
        if 0.0 < bare {
            let (from, to) = level(outer.high.y + size, near - side * bare, near);
            self.sheet.dimension(from, to, &off, up);
        }
        let x = far + side * 1.2 * size;
        let away = point(side * 0.6 * size, 0.0);
        self.sheet.dimension(point(x, outer.low.y), point(x, outer.high.y), &deep, away);
        if whole.low.y < outer.low.y {
            let from = point(x, whole.low.y);
            self.sheet.dimension(from, point(x, outer.low.y), &place, away);
        }
    }

    /// What can burn behind and in front.
    fn around(&mut self, whole: Extent) {
        let near = &self.design.surroundings;
        let left = whole.low.x.min(self.chimney.low.x);
        let right = whole.high.x.max(self.chimney.high.x);
        let behind = Distance {
            field: FieldId::BehindDistance,
            place: Place::Back,
            from: point(whole.low.x + 0.75 * whole.width(), whole.high.y),
            away: point(0.0, 1.0),
            length: near.behind,
            ends: (left, right),
        };
        let front = Distance {
            field: FieldId::FrontDistance,
            place: Place::Front,
            from: point(whole.low.x + 0.75 * whole.width(), whole.low.y),
            away: point(0.0, -1.0),
            length: near.front,
            ends: (left, right),
        };
        let scales =
            [&behind, &front].map(|distance| distance.add(&mut self.sheet, self.system));
        if scales.contains(&false) {
            let below = whole.low.y - drawn(near.front, self.sheet.reach) - THICKNESS;
            let corner = point(left, below + 4.0 * self.sheet.text_size);
            far(&mut self.sheet, corner);
        }
        let cut = match self.design.path.layout {
            Layout::Above if !self.runs.is_empty() => said("dashed: firebox below, slot up"),
            Layout::Bench => said("all runs; dashed: way of the gas down into the first"),
            _ => said("dashed: slot"),
        };
        let size = self.sheet.text_size;
        let above =
            whole.high.y + drawn(near.behind, self.sheet.reach) + THICKNESS + 0.5 * size;
        self.sheet.note(Note {
            at: point(left, above),
            text: cut.into(),
            anchor: Anchor::Start,
            role: Role::QuietLabel,
            place: None,
            leader: None,
            step: point(0.0, 0.4 * size),
        });
    }

    fn description(&self, whole: Extent) -> String {
        let near = &self.design.surroundings;
        let size = |length| self.figure(length, Quantity::Size);
        say!(
            "Plan to scale: {} wide and {} deep, run {} wide, firebox {} deep; {} to what can burn \
             behind, {} in front of the door.",
            self.figure(whole.width(), Quantity::Length),
            self.figure(whole.height(), Quantity::Length),
            size(self.design.path.run_width),
            size(self.design.firebox.depth),
            size(near.behind),
            size(near.front),
        )
    }
}
