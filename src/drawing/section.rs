//! Section through the heater along its runs, to scale.

mod fittings;
mod frame;
mod grips;
mod heights;

use super::sheet::{Note, Sheet};
use super::{
    Anchor, Drawing, Extent, MARK_RADIUS, Point, Role, Shape, TEXT_SIZE, heat_step, point,
    text_length,
};
use crate::analysis::{Analysis, places};
use crate::design::field::FieldId;
use crate::design::{Design, Layout, Run};
use crate::language::{said, say};
use crate::rules::{Finding, Place};
use crate::units::{Quantity, System, figure, number};
use frame::{Body, Cell, Flue, Frame};
use heights::Heights;

pub(super) use frame::CHIMNEY_AIR;
pub use grips::GRIPS;

/// Share of a channel's height that its band of gas takes (–).
const BAND: f64 = 0.64;
/// Pieces of a channel that take a color of their own.
const PIECES: u32 = 4;
/// Thickness of drawn slabs of the house (m): drawn, not designed.
const HOUSE_SLAB: f64 = 0.2;
/// Steepest drawn roof (–): drawn, not designed.
const ROOF_SLOPE: f64 = 0.35;
/// Height of a drawn cleanout (m): drawn, not designed.
const CLEANOUT: f64 = 0.15;
/// Height of a drawing with the text size of [`TEXT_SIZE`] (m).
const USUAL_HEIGHT: f64 = 8.0;
/// Places tried for a mark in one row, and rows.
const MARK_TRIES: (u32, u32) = (16, 12);
/// Places tried for a mark within its part.
const MARKS_WITHIN: usize = 60;
/// From one of them to the next, over the text size (–).
const MARK_STEP: f64 = 0.5;
/// Widest room of a temperature at the chimney, in characters.
const LABEL_CHARACTERS: f64 = 7.0;
/// From a face past the ruler of courses to the first dimension, over the text size (–).
const RULER: f64 = 2.6;
/// From a face to the temperatures beside it, over the text size (–).
const LEADER: f64 = 1.2;

struct Scene<'a> {
    design: &'a Design,
    analysis: &'a Analysis,
    system: System,
    frame: Frame,
    sheet: Sheet,
    /// Width of the temperatures of the runs beside the masonry (m); 0 when they stand in the runs.
    label_width: f64,
}

/// Section through the heater along its runs, to scale (m): x from the inner left wall of the
/// firebox, y from its floor. Findings are marked by their number in the list, from 1. Where it is
/// shown small, texts are enlarged by a factor and the rest makes room for them.
pub fn section(
    design: &Design,
    analysis: &Analysis,
    findings: &[Finding],
    system: System,
    text_scale: f64,
) -> Drawing {
    let scene = Scene::new((design, analysis), system, Heights::new(design), text_scale);
    scene.drawing(findings)
}

/// The same with every height as it is, and without findings.
pub fn to_measure(design: &Design, analysis: &Analysis, system: System) -> Drawing {
    Scene::new((design, analysis), system, Heights::unbroken(), 1.0).drawing(&[])
}

impl<'a> Scene<'a> {
    fn new(
        (design, analysis): (&'a Design, &'a Analysis),
        system: System,
        heights: Heights,
        text_scale: f64,
    ) -> Self {
        let text_size = text_scale * usual_text_size(design, &heights);
        let runs = analysis.height_of_fire.runs.iter();
        let label_width = runs
            .map(|run| text_length(&run_text(run.inlet, run.outlet, system), text_size))
            .fold(0.0, f64::max);
        let label_width =
            if fits_in_runs(design, label_width, text_size) { 0.0 } else { label_width };
        // Beside the temperatures: leader lines, the passage, the height of a run.
        let spread = label_width + 8.0 * text_size;
        Self {
            design,
            analysis,
            system,
            frame: Frame::new(design, analysis, heights, spread),
            sheet: Sheet::new(text_size),
            label_width,
        }
    }

    fn drawing(mut self, findings: &[Finding]) -> Drawing {
        let (left, names) = self.house();
        self.masonry();
        self.firebox();
        self.runs();
        self.passage();
        self.flue();
        self.breaks();
        self.names_of_house(left, &names);
        self.arrows();
        self.temperatures();
        self.courses();
        self.upright_dimensions();
        self.level_dimensions();
        self.captions();
        self.fittings();
        self.marks(findings);
        self.grips();
        self.key();
        let description = self.description();
        self.sheet.finish(description)
    }
}

/// Where masonry and chimney stand, for the other views.
pub(super) struct Masses {
    /// The outer faces of every block of masonry, caps included; the first has the firebox.
    pub blocks: Vec<Extent>,
    /// The outside of the chimney as drawn.
    pub chimney: Extent,
}

impl Masses {
    pub(super) fn new(design: &Design, analysis: &Analysis) -> Self {
        let frame = Frame::new(design, analysis, Heights::new(design), 0.0);
        let Flue { inner, thickness, .. } = frame.flue;
        let blocks = frame.bodies.iter().map(|body| body.facing.join(body.cap)).collect();
        let chimney = Extent::new(
            inner.low.x - thickness,
            inner.low.y,
            inner.high.x + thickness,
            inner.high.y,
        );
        Self { blocks, chimney }
    }
}

/// In proportion to the drawing, so that texts stay legible when it is shown as a whole.
fn usual_text_size(design: &Design, heights: &Heights) -> f64 {
    let longest = design.path.runs().iter().map(|run| run.length).fold(0.0, f64::max);
    let across = longest + design.firebox.width + design.chimney.connector_length + 2.0;
    let extent = heights.drawn(design.chimney.mouth_height).max(across);
    TEXT_SIZE * (extent / USUAL_HEIGHT).clamp(0.4, 4.0)
}

/// Whether the temperatures of every run fit between its turns.
fn fits_in_runs(design: &Design, label_width: f64, text_size: f64) -> bool {
    let fits = |run: &Run| {
        let ends = 2.0 * run.height.min(0.4 * run.length);
        run.height > 1.25 * text_size && run.length > label_width + ends + 0.5 * text_size
    };
    design.path.layout != Layout::Bench && design.path.runs().iter().all(fits)
}

/// The size of texts of the other views (m).
pub(super) fn text_size(design: &Design) -> f64 {
    usual_text_size(design, &Heights::new(design))
}

/// Gas of a run, from where it enters to where it leaves.
fn run_text(inlet: f64, outlet: f64, system: System) -> String {
    let inlet = number(inlet, Quantity::Temperature, system);
    format!("{inlet} \u{2192} {}", figure(outlet, Quantity::Temperature, system))
}

impl Scene<'_> {
    fn figure(&self, value: f64, quantity: Quantity) -> String {
        figure(value, quantity, self.system)
    }

    /// The side of the masonry on which the chimney does not stand, as a direction.
    fn free_side(&self) -> f64 {
        -self.frame.flue.side
    }

    /// Outer face of the masonry on a side (m).
    fn face(&self, side: f64) -> f64 {
        let outer = self.frame.outer();
        if side > 0.0 { outer.high.x } else { outer.low.x }
    }

    /// Outer face of the chimney on its far side (m).
    fn far_face(&self) -> f64 {
        let Flue { inner, thickness, side, .. } = self.frame.flue;
        if side > 0.0 { inner.high.x + thickness } else { inner.low.x - thickness }
    }

    /// Floor, ceiling and roof; where their lines begin, with their names.
    fn house(&mut self) -> (f64, Vec<(f64, &'static str)>) {
        let (frame, flue) = (&self.frame, &self.frame.flue);
        let reach = self.sheet.text_size * LABEL_CHARACTERS * 0.6;
        let outer = frame.outer();
        let left = outer.low.x.min(self.far_face()) - reach;
        let right = outer.high.x.max(self.far_face()) + reach;
        let floor = frame.floor;
        let ground = Extent::new(left, floor - 0.5 * HOUSE_SLAB, right, floor);
        let mouth = self.design.chimney.mouth_height;
        let ceiling = frame.top + self.design.surroundings.above;
        let roof = mouth - self.design.chimney.outdoor_length;
        let flat = |y: f64| vec![point(left, y), point(right, y)];
        let axis = flue.inner.middle().x;
        let seen = ceiling + HOUSE_SLAB < mouth;
        let apart = roof - HOUSE_SLAB > ceiling + HOUSE_SLAB;
        let outdoors_low = roof < ceiling;
        let (ceiling, roof) = (frame.heights.drawn(ceiling), frame.heights.drawn(roof));
        self.sheet.rectangle(Role::Ground, None, ground);
        self.sheet.line(Role::House, flat(floor));
        let mut names = vec![(floor, said("floor"))];
        if seen && !outdoors_low {
            names.push((ceiling + HOUSE_SLAB, said("ceiling")));
            let slab = Extent::new(left, ceiling, right, ceiling + HOUSE_SLAB);
            let place = Some(Place::Ceiling);
            self.sheet.rectangle(Role::House, place, slab);
            let points = flat(ceiling);
            self.sheet.add(Role::Combustible, place, Shape::Line { points });
        }
        if self.design.chimney.outdoor_length > 0.0 && apart {
            let reach = (axis - left).max(right - axis);
            let slope = ROOF_SLOPE.min((roof - ceiling - 2.0 * HOUSE_SLAB) / reach);
            let eaves = |x: f64| point(x, roof - slope * (x - axis).abs());
            let line = vec![eaves(left), point(axis, roof), eaves(right)];
            names.push((eaves(left).y, said("roof")));
            self.sheet.line(Role::House, line);
        }
        (left, names)
    }

    fn masonry(&mut self) {
        let frame = &self.frame;
        let outer = frame.outer();
        let support = Extent::new(outer.low.x, frame.floor, outer.high.x, frame.base);
        let (floor, base) = (frame.floor, frame.base);
        let apart = self.design.path.layout != Layout::Above;
        if !apart {
            self.sheet.rectangle(Role::Slab, None, support);
        }
        for Body { core, below, gap, facing, cap } in frame.bodies.clone() {
            if apart {
                let under = Extent::new(facing.low.x, floor, facing.high.x, base);
                self.sheet.rectangle(Role::Slab, None, under);
            }
            self.sheet.rectangle(Role::Facing, Some(Place::Whole), facing);
            self.sheet.rectangle(Role::Void, None, gap);
            for core in below.into_iter().chain([core]) {
                self.sheet.rectangle(Role::Core, None, core);
            }
            self.sheet.rectangle(Role::Slab, None, cap);
            let whole = facing.join(cap);
            self.sheet.rectangle(Role::Outline, Some(Place::Whole), whole);
        }
        self.niche();
    }

    /// What stands beside the firebox under longer runs.
    fn niche(&mut self) {
        let chamber = &self.design.firebox;
        let core = self.design.shell.core_thickness;
        let left = chamber.width + chamber.wall_thickness;
        let right = self.frame.inner.high.x;
        let long = !self.frame.cells.is_empty() && right > left + core;
        if self.design.path.layout == Layout::Above && long {
            let space = Extent::new(left, 0.0, right, chamber.height);
            self.inside(space, said("masonry below the runs"));
        }
    }

    /// Writes a text into a space, in as few lines as fit; none where it does not fit.
    fn inside(&mut self, space: Extent, text: &str) {
        let size = self.sheet.text_size;
        let room = space.width() - size;
        let mut lines: Vec<String> = Vec::new();
        for word in text.split(' ') {
            match lines.last_mut() {
                Some(line) if text_length(&format!("{line} {word}"), size) <= room => {
                    line.push(' ');
                    line.push_str(word);
                }
                _ => lines.push(word.into()),
            }
        }
        let widest = lines.iter().map(|line| text_length(line, size)).fold(0.0, f64::max);
        let mut drop = size;
        let high = lines.iter().fold(0.0, |high, _| high + 1.3 * size);
        if room < widest || space.height() < high + size {
            return;
        }
        let middle = space.middle();
        for line in lines {
            let at = point(middle.x, middle.y + 0.5 * high - drop);
            let shape = Shape::Label { at, text: line, anchor: Anchor::Middle };
            self.sheet.add(Role::QuietLabel, None, shape);
            drop += 1.3 * size;
        }
    }

    fn firebox(&mut self) {
        let chamber = &self.design.firebox;
        let space = self.frame.firebox;
        let fire = &self.analysis.height_of_fire;
        let gas = Role::Gas(heat_step(fire.firebox_outlet));
        let inset = 0.5 * (1.0 - BAND) * 0.25 * space.width().min(space.height());
        let middle = space.middle().x;
        let (width, height) = (chamber.door_width, chamber.door_height);
        let sill = places::sill(self.design);
        let half = 0.5 * width;
        let door = Extent::new(middle - half, sill, middle + half, sill + height);
        let shrink = chamber.glass_fraction.clamp(0.0, 1.0).sqrt();
        let (wide, high) = (0.5 * shrink * width, 0.5 * shrink * height);
        let center = door.middle();
        let glass =
            Extent::new(center.x - wide, center.y - high, center.x + wide, center.y + high);
        let place = Some(Place::Firebox);
        self.sheet.rectangle(Role::Void, place, space);
        self.sheet.rectangle(gas, place, space.grown(-inset));
        let (low, high) = (door.low, door.high);
        let around = [low, point(high.x, low.y), high, point(low.x, high.y), low];
        self.sheet.line(Role::Halo, around.to_vec());
        self.sheet.rectangle(Role::Glass, Some(Place::Door), glass);
        self.sheet.rectangle(Role::Door, Some(Place::Door), door);
    }

    fn runs(&mut self) {
        let cells = self.frame.cells.clone();
        self.baffles(&cells);
        for (index, cell) in cells.iter().enumerate() {
            let place = Some(Place::Run(index));
            self.sheet.rectangle(Role::Void, place, cell.extent);
        }
        for slot in self.frame.slots.clone() {
            self.sheet.rectangle(Role::Void, None, slot);
        }
        for (index, cell) in cells.iter().enumerate() {
            self.band(index, cell);
        }
        self.slot_bands(&cells);
        self.oven(&cells);
    }

    /// The door of an oven over its gas.
    fn oven(&mut self, cells: &[Cell]) {
        let path = &self.design.path;
        let index = path.oven_index();
        let Some((index, cell)) = index.and_then(|index| Some((index, cells.get(index)?)))
        else {
            return;
        };
        let space = cell.extent;
        let share = (path.oven.door_area / (space.width() * space.height())).clamp(0.0, 1.0);
        let (half, middle) = (0.5 * share.sqrt(), space.middle());
        let (wide, high) = (half * space.width(), half * space.height());
        let door =
            Extent::new(middle.x - wide, middle.y - high, middle.x + wide, middle.y + high);
        if share > 0.0 {
            self.sheet.rectangle(Role::Door, Some(Place::Run(index)), door);
        }
    }

    fn baffles(&mut self, cells: &[Cell]) {
        let inner = self.frame.inner;
        for (before, after) in cells.iter().zip(cells.iter().skip(1)) {
            let (a, b) = (before.extent, after.extent);
            let baffle = if self.design.path.layout == Layout::Bench {
                Extent::new(a.high.x, 0.0, b.low.x, inner.high.y)
            } else if a.low.y < b.low.y {
                Extent::new(inner.low.x, a.high.y, inner.high.x, b.low.y)
            } else {
                Extent::new(inner.low.x, b.high.y, inner.high.x, a.low.y)
            };
            self.sheet.rectangle(Role::Baffle, None, baffle);
        }
    }

    /// The gas of a run, in pieces from inlet to outlet.
    fn band(&mut self, index: usize, cell: &Cell) {
        let room = cell.extent;
        let inset = 0.5 * (1.0 - BAND) * room.height().min(room.width());
        let band = room.grown(-inset);
        let step = band.width() / f64::from(PIECES);
        let start = if cell.along > 0.0 { band.low.x } else { band.high.x };
        for piece in 0..PIECES {
            let a = start + cell.along * step * f64::from(piece);
            let b = a + cell.along * step;
            let extent = Extent::new(a.min(b), band.low.y, a.max(b), band.high.y);
            let gas = between(cell.inlet, cell.outlet, piece);
            self.sheet.rectangle(Role::Gas(gas), Some(Place::Run(index)), extent);
        }
    }

    /// The gas in the openings, as far as the bands of the runs beside them.
    fn slot_bands(&mut self, cells: &[Cell]) {
        let band = |cell: &Cell| {
            let inset = 0.5 * (1.0 - BAND) * cell.extent.height().min(cell.extent.width());
            cell.extent.grown(-inset)
        };
        let turns = cells.iter().zip(cells.iter().skip(1));
        let gases = turns.map(|(before, after)| {
            let (a, b) = (band(before), band(after));
            let (low, high) = (a.high.y.min(b.high.y), a.low.y.max(b.low.y));
            (low, high, before.outlet)
        });
        let first = cells.first().map(|cell| {
            let inset = 0.1 * self.frame.firebox.width().min(self.frame.firebox.height());
            let low = self.frame.firebox.high.y - inset;
            (low, band(cell).low.y, cell.inlet)
        });
        let bands: Vec<(Extent, u8)> = gases
            .chain(first)
            .zip(&self.frame.slots)
            .map(|((low, high, kelvin), slot)| {
                let inset = 0.5 * (1.0 - BAND) * slot.width();
                let (left, right) = (slot.low.x + inset, slot.high.x - inset);
                (Extent::new(left, low, right, high), heat_step(kelvin))
            })
            .collect();
        for (extent, step) in bands {
            self.sheet.rectangle(Role::Gas(step), None, extent);
        }
    }

    /// The gas of every run on the side where no chimney stands; over a bench at every turn.
    fn temperatures(&mut self) {
        let cells = self.frame.cells.clone();
        if self.design.path.layout == Layout::Bench {
            self.turn_temperatures(&cells);
            return;
        }
        if self.label_width <= 0.0 {
            for (index, cell) in cells.iter().enumerate() {
                let text = run_text(cell.inlet, cell.outlet, self.system);
                self.sheet.written(Place::Run(index), cell.extent, text);
            }
            return;
        }
        let size = self.sheet.text_size;
        let side = self.free_side();
        let stack = self.frame.bodies.last().map_or(self.frame.firebox, |body| body.facing);
        let face = if side > 0.0 { stack.high.x } else { stack.low.x };
        // In the order of the runs, so that leader lines do not cross.
        let onward = if self.design.path.layout == Layout::Behind { -1.0 } else { 1.0 };
        for (index, cell) in cells.iter().enumerate() {
            let y = cell.extent.middle().y;
            self.sheet.note(Note {
                at: point(face + side * LEADER * size, y - 0.3 * size),
                text: run_text(cell.inlet, cell.outlet, self.system),
                anchor: if side > 0.0 { Anchor::Start } else { Anchor::End },
                role: Role::Label,
                place: Some(Place::Run(index)),
                leader: Some(point(face, y)),
                step: point(0.0, onward * 0.25 * size),
            });
        }
    }

    /// From left to right, each higher than those which it would cover.
    fn turn_temperatures(&mut self, cells: &[Cell]) {
        let size = self.sheet.text_size;
        let above = self.frame.inner.high.y + self.design.shell.cap_thickness;
        let first = cells.first().map(|cell| (cell.entry(), cell.inlet, 0));
        let exits = cells.iter().enumerate();
        let exits = exits.map(|(index, cell)| (cell.exit(), cell.outlet, index));
        for (turn, kelvin, run) in first.into_iter().chain(exits) {
            self.sheet.note(Note {
                at: point(turn.x, above + 0.6 * size),
                text: self.figure(kelvin, Quantity::Temperature),
                anchor: Anchor::End,
                role: Role::Label,
                place: Some(Place::Run(run)),
                leader: Some(point(turn.x, above)),
                step: point(0.0, 0.25 * size),
            });
        }
    }

    /// The way from the firebox to runs that stand apart in the picture, through their cap: where it
    /// lies is not designed.
    fn passage(&mut self) {
        let (Some(first), Some(stack)) =
            (self.frame.cells.first().copied(), self.frame.bodies.get(1).copied())
        else {
            return;
        };
        let size = self.sheet.text_size;
        let start = self.firebox_exit();
        let face = self.frame.bodies.first().map_or(start.x, |body| body.facing.high.x);
        let between = face + LEADER * size;
        let (cap, inside) = (stack.cap.middle().y, first.inside());
        let points = vec![
            start,
            point(between, start.y),
            point(between, cap),
            point(inside.x, cap),
            point(inside.x, first.extent.high.y),
        ];
        self.sheet.add(Role::Passage, Some(Place::Run(0)), Shape::Line { points });
    }

    /// Where the gas leaves a firebox for runs that stand apart.
    fn firebox_exit(&self) -> Point {
        let space = self.frame.firebox;
        point(space.high.x, space.low.y + 0.85 * space.height())
    }

    /// Where the chimney is drawn shorter than it is: paper between two zigzags.
    fn breaks(&mut self) {
        let Flue { inner, thickness, .. } = self.frame.flue;
        let size = self.sheet.text_size;
        let outer = inner.grown(thickness + 0.5 * size);
        let step = outer.width() / 4.0;
        for y in self.frame.heights.breaks.clone() {
            let half = 0.3 * size;
            let gap = Extent::new(outer.low.x, y - half, outer.high.x, y + half);
            self.sheet.rectangle(Role::Halo, None, gap);
            for edge in [gap.low.y, gap.high.y] {
                let corners = [0.0, 0.3, -0.3, 0.3, 0.0].into_iter().zip(0_u8..);
                let corner = |(up, at): (f64, u8)| {
                    point(outer.low.x + f64::from(at) * step, edge + up * size)
                };
                self.sheet.line(Role::Outline, corners.map(corner).collect());
            }
        }
    }

    fn flue(&mut self) {
        let Flue { inner, connector, opening, thickness, exit, side } = self.frame.flue;
        let chimney = &self.design.chimney;
        let wall = chimney.wall_thickness;
        let wool = wall + chimney.insulation_thickness;
        let is_masonry = 0.0 < chimney.masonry();
        let fire = &self.analysis.height_of_fire;
        let wider = |by: f64| {
            Extent::new(inner.low.x - by, inner.low.y, inner.high.x + by, inner.high.y)
        };
        let (inlet, mouth) = (fire.chimney_inlet, fire.chimney_mouth_gas);
        let connector_gas = heat_step(0.5 * (fire.runs_outlet + inlet));
        let inset = 0.5 * (1.0 - BAND) * inner.width();
        let foot = exit.y - 0.5 * BAND * opening.height();
        let step = (inner.high.y - foot) / f64::from(PIECES);
        let axis = inner.middle().x;
        let half = 0.5 * BAND * opening.height();
        // It begins where the band of the last run ends.
        let last = self.frame.cells.last().map(|cell| cell.extent);
        let rim = last.map_or(0.0, |run| run.height().min(run.width()));
        let start = exit.x - side * 0.5 * (1.0 - BAND) * rim;
        let along = Extent::new(start.min(axis), exit.y - half, start.max(axis), exit.y + half);
        if is_masonry {
            let place = Some(Place::ChimneyMouth);
            self.sheet.rectangle(Role::FacingBrick, place, wider(thickness));
        }
        self.sheet.rectangle(Role::Insulation, Some(Place::ChimneyMouth), wider(wool));
        self.sheet.rectangle(Role::Core, None, wider(wall));
        self.sheet.rectangle(Role::Outline, None, wider(thickness));
        self.sheet.rectangle(Role::Void, Some(Place::ChimneyInlet), inner);
        for part in [opening, connector] {
            self.sheet.rectangle(Role::Void, Some(Place::RunsOutlet), part);
        }
        self.sheet.rectangle(Role::Gas(connector_gas), Some(Place::RunsOutlet), along);
        for piece in 0..PIECES {
            let low = foot + step * f64::from(piece);
            let (left, right) = (inner.low.x + inset, inner.high.x - inset);
            let extent = Extent::new(left, low, right, low + step);
            let gas = Role::Gas(between(inlet, mouth, piece));
            self.sheet.rectangle(gas, Some(Place::ChimneyMouth), extent);
        }
        self.cleanout();
    }

    fn cleanout(&mut self) {
        let Flue { inner, connector, .. } = self.frame.flue;
        let door = Extent::new(
            inner.low.x,
            inner.low.y + 0.02,
            inner.high.x,
            (inner.low.y + 0.02 + CLEANOUT).min(connector.low.y),
        );
        self.sheet.rectangle(Role::Cleanout, None, door);
    }

    fn arrows(&mut self) {
        let cells = self.frame.cells.clone();
        let turns: Vec<(Cell, Cell)> =
            cells.iter().copied().zip(cells.iter().skip(1).copied()).collect();
        let bench = self.design.path.layout == Layout::Bench;
        for (index, (before, after)) in turns.into_iter().enumerate() {
            let place = Some(Place::Run(index + 1));
            let (from, to) = if bench {
                (before.extent.middle(), after.extent.middle())
            } else {
                let x =
                    self.frame.slots.get(index).map_or(before.exit().x, |slot| slot.middle().x);
                (point(x, before.extent.middle().y), point(x, after.extent.middle().y))
            };
            self.sheet.arrow(place, from, to);
        }
        let inner = self.frame.flue.inner;
        let exit = self.frame.flue.exit;
        let axis = inner.middle().x;
        let foot = point(axis, exit.y);
        let rise = (3.0 * inner.width()).min(0.5 * (inner.high.y - exit.y));
        let broken = self.frame.heights.breaks.first();
        let rise = broken.map_or(rise, |y| rise.min(y - self.sheet.text_size - exit.y));
        let up = point(axis, exit.y + rise);
        // Not as far back as the temperature that is written in the run.
        let rim = cells.last().map_or(0.0, |cell| 0.5 * cell.extent.height());
        let back = (0.3 * (axis - exit.x).abs()).min(rim);
        let outlet = point(exit.x - self.frame.flue.side * back, exit.y);
        self.sheet.arrow(Some(Place::RunsOutlet), outlet, foot);
        self.sheet.arrow(Some(Place::ChimneyInlet), foot, up);
        self.first_arrow(&cells);
    }

    /// Out of the firebox.
    fn first_arrow(&mut self, cells: &[Cell]) {
        let Some(first) = cells.first() else {
            return;
        };
        let space = self.frame.firebox;
        if let (Layout::Above, Some(slot)) = (self.design.path.layout, self.frame.slots.last())
        {
            let x = slot.middle().x;
            let from = point(x, space.high.y - 0.2 * space.height());
            let to = point(x, first.extent.middle().y);
            self.sheet.arrow(Some(Place::Run(0)), from, to);
            return;
        }
        let to = self.firebox_exit();
        self.sheet.arrow(Some(Place::Firebox), point(space.middle().x, to.y), to);
        let inside = first.inside();
        let from = point(inside.x, first.extent.high.y);
        self.sheet.arrow(Some(Place::Run(0)), from, inside);
    }

    fn upright_dimensions(&mut self) {
        let size = self.sheet.text_size;
        let side = self.free_side();
        // Beyond the temperatures on that side; those of other layouts stand elsewhere.
        let room = match self.design.path.layout {
            Layout::Above if self.label_width > 0.0 => self.label_width + (LEADER + 1.4) * size,
            Layout::Above | Layout::Behind | Layout::Bench => RULER * size,
        };
        let start = self.face(side) + side * room;
        let step = point(side * 0.6 * size, 0.0);
        let column = |index: f64| start + side * 1.5 * size * index;
        let frame = &self.frame;
        let (base, top) = (frame.base, frame.top);
        let ceiling = top + self.design.surroundings.above;
        let space = frame.firebox;
        let mouth = self.design.chimney.mouth_height;
        let beside_runs = self.run_height_column().unwrap_or(column(0.0));
        // The width of a run of a bench is written with its height.
        let bench = self.design.path.layout == Layout::Bench;
        let run = frame.cells.last().filter(|_| !bench).map(|cell| cell.extent);
        let firebox = Some(FieldId::FireboxHeight);
        let mut spans = vec![(column(1.0), 0.0, space.high.y, Quantity::Size, firebox)];
        spans.extend(run.map(|run| (beside_runs, run.low.y, run.high.y, Quantity::Size, None)));
        spans.push((column(2.0), base, top, Quantity::Length, None));
        if ceiling + HOUSE_SLAB < mouth {
            let above = Some(FieldId::AboveDistance);
            spans.push((column(2.0), top, ceiling, Quantity::Size, above));
        }
        for (x, low, high, quantity, field) in spans {
            let end = self.upright(x, (low, high), quantity, step);
            self.grip_up(field, end, (low, high));
        }
        let flue_room = size * (0.6 * LABEL_CHARACTERS + 1.4);
        let beyond = self.far_face() - side * flue_room;
        let step = point(-step.x, 0.0);
        let end = self.upright(beyond, (0.0, mouth), Quantity::Length, step);
        self.grip_up(Some(FieldId::MouthHeight), end, (top, mouth));
    }

    /// A dimension between two heights, with its true length.
    fn upright(
        &mut self,
        x: f64,
        (low, high): (f64, f64),
        quantity: Quantity,
        step: Point,
    ) -> Point {
        let text = self.figure(high - low, quantity);
        let heights = &self.frame.heights;
        let (low, high) = (point(x, heights.drawn(low)), point(x, heights.drawn(high)));
        self.sheet.dimension(low, high, &text, step)
    }

    /// Where the height of a run is written when the runs stand by themselves (m).
    fn run_height_column(&self) -> Option<f64> {
        let stack = self.frame.bodies.get(1)?;
        let beyond_labels = self.label_width + (LEADER + 1.6) * self.sheet.text_size;
        Some(stack.facing.low.x - beyond_labels)
    }

    fn level_dimensions(&mut self) {
        let size = self.sheet.text_size;
        let frame = &self.frame;
        let outer = frame.outer();
        let space = frame.firebox;
        let row = |index: f64| frame.floor - 0.5 * HOUSE_SLAB - size * (1.6 + 1.6 * index);
        let text = |extent: Extent, quantity| self.figure(extent.width(), quantity);
        let mut spans = vec![(row(0.0), space, text(space, Quantity::Size))];
        let mut firebox = Some(FieldId::FireboxWidth);
        let run = frame.cells.first().map(|cell| cell.extent);
        spans.extend(run.map(|run| {
            let text = match self.design.path.layout {
                Layout::Bench => {
                    let width = number(run.width(), Quantity::Size, self.system);
                    format!("{width} \u{d7} {}", self.figure(run.height(), Quantity::Size))
                }
                Layout::Above | Layout::Behind => text(run, Quantity::Length),
            };
            (row(1.0), run, text)
        }));
        if self.design.path.layout == Layout::Above {
            spans.push((row(2.0), outer, text(outer, Quantity::Length)));
        }
        for (y, extent, text) in spans {
            let step = point(0.0, -0.6 * size);
            let (left, right) = (point(extent.low.x, y), point(extent.high.x, y));
            let end = self.sheet.dimension(left, right, &text, step);
            self.grip_across(firebox.take(), end);
        }
    }

    /// What the picture does not show as it stands, and the gas in the chimney.
    fn captions(&mut self) {
        let size = self.sheet.text_size;
        let stack = self.frame.bodies.get(1).map(|body| body.facing.low.x);
        let passage = stack.map(|_| said("way of the gas to the runs not to scale").to_owned());
        for text in self.caption().into_iter().chain(passage) {
            let low = self.frame.floor - 0.5 * HOUSE_SLAB - 4.8 * size;
            self.sheet.note(Note {
                at: point(stack.unwrap_or(0.0), low),
                text,
                anchor: Anchor::Start,
                role: Role::QuietLabel,
                place: None,
                leader: None,
                step: point(0.0, -0.4 * size),
            });
        }
        let fire = &self.analysis.height_of_fire;
        let (inlet, mouth) = (fire.chimney_inlet, fire.chimney_mouth_gas);
        let foot = self.frame.flue.connector.high.y + size;
        let height = self.frame.flue.inner.high.y;
        let foot = foot.max(self.frame.top + 0.5 * size).min(height - 2.0 * size);
        self.flue_temperature(inlet, foot, Place::ChimneyInlet);
        self.flue_temperature(mouth, height - size, Place::ChimneyMouth);
    }

    fn caption(&self) -> Option<String> {
        let runs = self.design.path.runs();
        let length = runs.first()?.length;
        match self.design.path.layout {
            Layout::Above => None,
            Layout::Behind => Some(said("runs stand behind the firebox").into()),
            Layout::Bench if runs.iter().all(|run| (run.length - length).abs() < 1e-9) => {
                let length = self.figure(length, Quantity::Length);
                Some(say!("runs seen from their ends, {length} long"))
            }
            Layout::Bench => Some(said("runs seen from their ends").into()),
        }
    }

    fn flue_temperature(&mut self, kelvin: f64, y: f64, place: Place) {
        let size = self.sheet.text_size;
        let side = self.frame.flue.side;
        let text = self.figure(kelvin, Quantity::Temperature);
        self.sheet.note(Note {
            at: point(self.far_face() + side * 0.5 * size, y),
            text,
            anchor: if side > 0.0 { Anchor::Start } else { Anchor::End },
            role: Role::Label,
            place: Some(place),
            leader: None,
            step: point(0.0, 0.25 * size),
        });
    }

    /// A mark stands within its part; where that has no room, beside it with a line to it.
    fn marks(&mut self, findings: &[Finding]) {
        let size = self.sheet.text_size;
        for (index, finding) in findings.iter().enumerate() {
            let place = finding.place;
            let room = self.room(place);
            let spot = self.spot(place);
            let inside = room.map_or_else(Vec::new, |room| within(room, spot, size));
            let beside = self.beside(place);
            let led = room.into_iter().flat_map(|room| {
                let own = room.grown(-0.3 * size);
                let around = beside.iter().flat_map(move |at| on_all_sides(spot, *at));
                around.map(move |at| (at, Some([nearest(own, at), at])))
            });
            let alone = |at: &Point| (*at, None);
            let tries = inside.iter().map(alone).chain(led).chain(beside.iter().map(alone));
            let mark = |(at, line)| {
                let text = (index + 1).to_string();
                (Shape::Mark { at, severity: finding.severity, text }, line)
            };
            self.sheet.mark(place, &tries.map(mark));
        }
    }

    /// The part in which the marks of a place stand; none where they stand in the open.
    fn room(&self, place: Place) -> Option<Extent> {
        match place {
            Place::Fire | Place::Firebox | Place::Door => Some(self.frame.firebox),
            Place::Run(index) => self.frame.cells.get(index).map(|cell| cell.extent),
            _ => None,
        }
    }

    /// Places for a mark away from its own, in rows.
    fn beside(&self, place: Place) -> Vec<Point> {
        let at = self.spot(place);
        let toward = match place {
            Place::RunsOutlet | Place::ChimneyInlet | Place::ChimneyMouth | Place::Side => {
                self.free_side()
            }
            _ => 1.0,
        };
        let size = self.sheet.text_size;
        let (in_a_row, rows) = MARK_TRIES;
        let of_row = |row: u32| {
            (0..in_a_row).map(move |tried| {
                let along = 0.4 * size * toward * f64::from(tried);
                point(at.x + along, at.y + 1.3 * size * f64::from(row))
            })
        };
        (0..rows).flat_map(of_row).collect()
    }

    /// Where the first mark of a place stands.
    fn spot(&self, place: Place) -> Point {
        let size = self.sheet.text_size;
        let frame = &self.frame;
        let space = frame.firebox;
        let outer = frame.outer();
        let inner = frame.flue.inner;
        let side = self.free_side();
        let first = frame.bodies.first().map_or(outer, |body| body.facing);
        match place {
            Place::Whole => point(space.middle().x, frame.top + 0.9 * size),
            Place::Fire => point(space.low.x + 0.3 * space.width(), 0.15 * space.height()),
            Place::Firebox => point(space.low.x + 0.3 * space.width(), 0.85 * space.height()),
            Place::Door => point(space.middle().x, 0.45 * space.height()),
            Place::Run(index) => {
                frame.cells.get(index).map_or(outer.middle(), |cell| cell.extent.middle())
            }
            Place::RunsOutlet => frame.flue.exit,
            Place::ChimneyInlet => point(
                inner.middle().x,
                (frame.flue.connector.high.y + 0.8 * size).min(inner.high.y),
            ),
            Place::ChimneyMouth => {
                point(inner.middle().x + side * 3.0 * size, inner.high.y - size)
            }
            Place::Side => point(self.face(side) + side * 0.8 * size, 0.5 * space.high.y),
            Place::Back => point(first.low.x + 0.8 * size, frame.top + 2.4 * size),
            Place::Front => point(space.middle().x, 0.5 * (frame.floor + frame.base)),
            Place::Chimney => {
                let foot = frame.flue.connector.high.y;
                point(inner.middle().x, 0.5 * (foot + inner.high.y))
            }
            Place::Below => point(outer.low.x + size, 0.5 * (frame.floor + frame.base)),
            Place::Ceiling => {
                let above = self.design.surroundings.above.min(2.0);
                point(outer.middle().x, frame.heights.drawn(frame.top + 0.5 * above))
            }
        }
    }

    fn description(&self) -> String {
        let fire = &self.analysis.height_of_fire;
        let runs = match self.design.path.layout {
            Layout::Above => said("stacked above the firebox"),
            Layout::Behind => said("stacked behind the firebox"),
            Layout::Bench => said("side by side as a bench"),
        };
        let scale = if self.frame.heights.breaks.is_empty() {
            said("Section to scale")
        } else {
            said("Section to scale, the chimney shortened")
        };
        say!(
            "{scale}: firebox {} wide and {} high, runs {runs}: {}; all masonry {} high \
             above the base slab; chimney mouth {} above the floor of the firebox. Gas leaves the firebox at {}, the last run at {} \
             and the mouth at {}.",
            self.figure(self.design.firebox.width, Quantity::Size),
            self.figure(self.design.firebox.height, Quantity::Size),
            self.frame.cells.len(),
            self.figure(self.design.height_above_base(), Quantity::Length),
            self.figure(self.design.chimney.mouth_height, Quantity::Length),
            self.figure(fire.firebox_outlet, Quantity::Temperature),
            self.figure(fire.runs_outlet, Quantity::Temperature),
            self.figure(fire.chimney_mouth_gas, Quantity::Temperature),
        )
    }
}

/// Places for a mark within a part, those nearest to its own first.
fn within(room: Extent, spot: Point, size: f64) -> Vec<Point> {
    let free = room.grown(-MARK_RADIUS * size);
    let near = nearest(free, spot);
    let steps = |length: f64| {
        let steps = (1_u32..).map(move |times| MARK_STEP * size * f64::from(times));
        steps.take_while(move |step| *step <= length)
    };
    let both = |from: f64, low: f64, high: f64| {
        let up = steps(high - from).map(move |step| from + step);
        let down = steps(from - low).map(move |step| from - step);
        std::iter::once(from).chain(up).chain(down).collect::<Vec<f64>>()
    };
    let across = both(near.x, free.low.x, free.high.x);
    let mut places: Vec<Point> = both(near.y, free.low.y, free.high.y)
        .into_iter()
        .flat_map(|y| across.iter().map(move |x| point(*x, y)))
        .collect();
    let far = |at: &Point| libm::hypot(at.x - spot.x, at.y - spot.y);
    places.sort_by(|one, other| far(one).total_cmp(&far(other)));
    places.truncate(MARKS_WITHIN);
    places
}

/// A place beside another, and as far from it to the other sides.
const fn on_all_sides(spot: Point, at: Point) -> [Point; 4] {
    let (left, low) = (2.0 * spot.x - at.x, 2.0 * spot.y - at.y);
    [at, point(left, at.y), point(at.x, low), point(left, low)]
}

/// The place within an extent that is nearest to another; where it is smaller than nothing, as that of
/// a mark in a part smaller than itself, its middle.
fn nearest(extent: Extent, to: Point) -> Point {
    let Extent { low, high } = extent;
    let of = |low: f64, high: f64, to: f64| {
        if low < high { to.clamp(low, high) } else { 0.5 * (low + high) }
    };
    point(of(low.x, high.x, to.x), of(low.y, high.y, to.y))
}

/// Step of the temperature scale in the middle of a piece of a channel.
fn between(inlet: f64, outlet: f64, piece: u32) -> u8 {
    let share = (f64::from(piece) + 0.5) / f64::from(PIECES);
    heat_step(inlet + share * (outlet - inlet))
}
