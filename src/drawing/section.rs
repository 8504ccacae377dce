//! Section through the heater along its runs, to scale.

mod frame;

use super::sheet::{Note, Sheet};
use super::{Anchor, Drawing, Extent, Point, Role, Shape, TEXT_SIZE, heat_step, point};
use crate::analysis::Analysis;
use crate::design::{Design, Layout};
use crate::rules::{Finding, Place};
use crate::units::{Quantity, System, figure};
use frame::{Body, Cell, Flue, Frame};

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
/// Places tried for a mark in one row.
const MARK_TRIES: f64 = 16.0;
/// Widest room of temperature labels, in characters.
const LABEL_CHARACTERS: f64 = 8.0;

struct Scene<'a> {
    design: &'a Design,
    analysis: &'a Analysis,
    system: System,
    frame: Frame,
    sheet: Sheet,
}

/// Section through the heater along its runs, to scale (m): x from the inner left wall of the
/// firebox, y from its floor. Findings are marked by their number in the list, from 1.
pub fn section(
    design: &Design,
    analysis: &Analysis,
    findings: &[Finding],
    system: System,
) -> Drawing {
    let text_size = text_size(design);
    let spread = 0.6 * LABEL_CHARACTERS * 2.0 * text_size;
    let mut scene = Scene {
        design,
        analysis,
        system,
        frame: Frame::new(design, analysis, spread),
        sheet: Sheet::new(text_size),
    };
    scene.house();
    scene.masonry();
    scene.firebox();
    scene.runs();
    scene.temperatures();
    scene.flue();
    scene.arrows();
    scene.upright_dimensions();
    scene.level_dimensions();
    scene.captions();
    scene.marks(findings);
    let description = scene.description();
    scene.sheet.finish(description)
}

/// In proportion to the drawing, so that texts stay legible when it is shown as a whole.
fn text_size(design: &Design) -> f64 {
    let longest = design.path.runs().iter().map(|run| run.length).fold(0.0, f64::max);
    let across = longest + design.firebox.width + design.chimney.connector_length + 2.0;
    let extent = design.chimney.mouth_height.max(across);
    TEXT_SIZE * (extent / USUAL_HEIGHT).clamp(0.4, 4.0)
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

    fn house(&mut self) {
        let (frame, flue) = (&self.frame, &self.frame.flue);
        let reach = self.sheet.text_size * LABEL_CHARACTERS * 0.8;
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
        self.sheet.rectangle(Role::Ground, None, ground);
        self.sheet.line(Role::House, flat(floor));
        let seen = ceiling + HOUSE_SLAB < mouth;
        let apart = roof - HOUSE_SLAB > ceiling + HOUSE_SLAB;
        let outdoors_low = roof < ceiling;
        if seen && !outdoors_low {
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
            self.sheet.line(Role::House, line);
        }
    }

    fn masonry(&mut self) {
        let frame = &self.frame;
        let outer = frame.outer();
        let support = Extent::new(outer.low.x, frame.floor, outer.high.x, 0.0);
        let apart = self.design.path.layout != Layout::Above;
        if !apart {
            self.sheet.rectangle(Role::Slab, None, support);
        }
        for Body { core, gap, facing, cap } in frame.bodies.clone() {
            if apart {
                let under = Extent::new(facing.low.x, -frame::SUPPORT, facing.high.x, 0.0);
                self.sheet.rectangle(Role::Slab, None, under);
            }
            self.sheet.rectangle(Role::Facing, None, facing);
            self.sheet.rectangle(Role::Void, None, gap);
            self.sheet.rectangle(Role::Core, None, core);
            self.sheet.rectangle(Role::Slab, None, cap);
            let whole = facing.join(cap);
            self.sheet.rectangle(Role::Outline, Some(Place::Whole), whole);
        }
        self.niche();
    }

    /// The space beside the firebox under longer runs.
    fn niche(&mut self) {
        let chamber = &self.design.firebox;
        let core = self.design.shell.core_thickness;
        let left = chamber.width + chamber.wall_thickness;
        let right = self.frame.inner.high.x;
        let long = !self.frame.cells.is_empty() && right > left + core;
        if self.design.path.layout == Layout::Above && long {
            let space = Extent::new(left, 0.0, right, chamber.height);
            self.sheet.rectangle(Role::Void, None, space);
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
        let sill = 0.25 * (space.height() - height);
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

    /// The gas temperature at every turn, outside at the ends of the runs. Their leader lines
    /// pass behind the chimney, which is painted later.
    fn temperatures(&mut self) {
        let cells = self.frame.cells.clone();
        let Some(first) = cells.first() else {
            return;
        };
        let last = cells.len() - 1;
        self.temperature(first.entry(), -first.along, first.inlet, 0);
        for (index, cell) in cells.iter().enumerate() {
            let mut at = cell.exit();
            if let Some(slot) = self.frame.slots.get(index).filter(|_| index < last) {
                at.y = slot.middle().y;
            }
            self.temperature(at, cell.along, cell.outlet, index);
        }
    }

    fn temperature(&mut self, turn: Point, side: f64, kelvin: f64, run: usize) {
        let size = self.sheet.text_size;
        let text = self.figure(kelvin, Quantity::Temperature);
        let bench = self.design.path.layout == Layout::Bench;
        let note = if bench {
            let above = self.frame.inner.high.y + self.design.shell.cap_thickness;
            Note {
                at: point(turn.x, above + 0.6 * size),
                text,
                anchor: Anchor::Middle,
                role: Role::Label,
                place: Some(Place::Run(run)),
                leader: Some(point(turn.x, above)),
                step: point(0.0, 0.25 * size),
            }
        } else {
            // In the order of the runs, so that leader lines do not cross.
            let onward = match self.design.path.layout {
                Layout::Behind => -1.0,
                Layout::Above | Layout::Bench => 1.0,
            };
            let behind_chimney = (side - self.frame.flue.side).abs() < 0.5;
            let stack = self.frame.bodies.last().map_or(turn.x, |body| {
                if side > 0.0 { body.facing.high.x } else { body.facing.low.x }
            });
            let clear = if behind_chimney { self.far_face() } else { stack };
            Note {
                at: point(clear + side * 1.2 * size, turn.y - 0.3 * size),
                text,
                anchor: if side > 0.0 { Anchor::Start } else { Anchor::End },
                role: Role::Label,
                place: Some(Place::Run(run)),
                leader: Some(point(stack, turn.y)),
                step: point(0.0, onward * 0.25 * size),
            }
        };
        self.sheet.note(note);
    }

    fn flue(&mut self) {
        let Flue { inner, connector, opening, thickness, exit, side } = self.frame.flue;
        let wall = self.design.chimney.wall_thickness;
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
        self.sheet.rectangle(Role::Insulation, Some(Place::ChimneyMouth), wider(thickness));
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
        let up = point(axis, exit.y + rise);
        let outlet = point(exit.x - 0.3 * (axis - exit.x), exit.y);
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
        let reach = 0.3 * space.height();
        let ceiling = point(space.middle().x, space.high.y);
        let from = point(ceiling.x, ceiling.y - reach);
        self.sheet.arrow(Some(Place::Firebox), from, ceiling);
        if self.design.path.layout == Layout::Behind {
            let entry = first.entry();
            let inside = 0.3 * first.extent.width();
            let to = point(entry.x + first.along * inside, entry.y);
            self.sheet.arrow(Some(Place::Run(0)), entry, to);
        }
    }

    fn upright_dimensions(&mut self) {
        let size = self.sheet.text_size;
        let side = self.free_side();
        // Beyond the temperatures on that side.
        let room = self.sheet.text_size * (0.6 * LABEL_CHARACTERS + 1.4);
        let start = self.face(side) + side * room;
        let step = point(side * 0.6 * size, 0.0);
        let column = |index: f64| start + side * 1.7 * size * index;
        let frame = &self.frame;
        let top = frame.top;
        let ceiling = top + self.design.surroundings.above;
        let space = frame.firebox;
        let run = frame.cells.first().map(|cell| cell.extent);
        let mouth = self.design.chimney.mouth_height;
        let beyond = self.far_face() - side * room;
        let mut spans = vec![(column(1.0), 0.0, space.high.y, Quantity::Size)];
        let beside_runs = self.run_height_column().unwrap_or(column(0.0));
        spans.extend(run.map(|run| (beside_runs, run.low.y, run.high.y, Quantity::Size)));
        spans.push((column(2.0), 0.0, top, Quantity::Length));
        if ceiling + HOUSE_SLAB < mouth {
            spans.push((column(2.0), top, ceiling, Quantity::Size));
        }
        for (x, low, high, quantity) in spans {
            let text = self.figure(high - low, quantity);
            self.sheet.dimension(point(x, low), point(x, high), &text, step);
        }
        let text = self.figure(mouth, Quantity::Length);
        let outward = point(-step.x, 0.0);
        self.sheet.dimension(point(beyond, 0.0), point(beyond, mouth), &text, outward);
    }

    /// Where the height of a run is written when the runs stand by themselves (m).
    fn run_height_column(&self) -> Option<f64> {
        // Between the temperatures and the firebox; a bench has its temperatures above.
        let away = match self.design.path.layout {
            Layout::Above => return None,
            Layout::Behind => 7.0,
            Layout::Bench => 1.5,
        };
        let stack = self.frame.bodies.get(1)?;
        Some(stack.facing.low.x - away * self.sheet.text_size)
    }

    fn level_dimensions(&mut self) {
        let size = self.sheet.text_size;
        let frame = &self.frame;
        let outer = frame.outer();
        let space = frame.firebox;
        let row = |index: f64| frame.floor - 0.5 * HOUSE_SLAB - size * (1.6 + 1.6 * index);
        let mut spans = vec![(row(0.0), space.low.x, space.high.x, Quantity::Size)];
        let run = frame.cells.first().map(|cell| cell.extent);
        let quantity = match self.design.path.layout {
            Layout::Bench => Quantity::Size,
            Layout::Above | Layout::Behind => Quantity::Length,
        };
        spans.extend(run.map(|run| (row(1.0), run.low.x, run.high.x, quantity)));
        if self.design.path.layout == Layout::Above {
            spans.push((row(2.0), outer.low.x, outer.high.x, Quantity::Length));
        }
        for (y, left, right, quantity) in spans {
            let text = self.figure(right - left, quantity);
            let step = point(0.0, -0.6 * size);
            self.sheet.dimension(point(left, y), point(right, y), &text, step);
        }
    }

    /// What the picture does not show as it stands, and the gas in the chimney.
    fn captions(&mut self) {
        let size = self.sheet.text_size;
        if let (Some(text), Some(stack)) = (self.caption(), self.frame.bodies.get(1)) {
            let low = self.frame.floor - 0.5 * HOUSE_SLAB - 4.8 * size;
            self.sheet.note(Note {
                at: point(stack.facing.low.x, low),
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
        let height = self.design.chimney.mouth_height;
        let foot = foot.max(self.frame.top + 0.5 * size).min(height - 2.0 * size);
        self.flue_temperature(inlet, foot, Place::ChimneyInlet);
        self.flue_temperature(mouth, height - size, Place::ChimneyMouth);
    }

    fn caption(&self) -> Option<String> {
        let runs = self.design.path.runs();
        let length = runs.first()?.length;
        match self.design.path.layout {
            Layout::Above => None,
            Layout::Behind => Some("runs stand behind the firebox".into()),
            Layout::Bench if runs.iter().all(|run| (run.length - length).abs() < 1e-9) => {
                let length = self.figure(length, Quantity::Length);
                Some(format!("runs seen from their ends, {length} long"))
            }
            Layout::Bench => Some("runs seen from their ends".into()),
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

    fn marks(&mut self, findings: &[Finding]) {
        let radius = self.sheet.text_size;
        for (index, finding) in findings.iter().enumerate() {
            let at = self.spot(finding.place);
            let toward = match finding.place {
                Place::RunsOutlet | Place::ChimneyInlet | Place::ChimneyMouth => {
                    self.free_side()
                }
                Place::Side => self.free_side(),
                _ => 1.0,
            };
            let step = 0.4 * radius * toward;
            self.sheet.mark(finding.place, |tried| {
                let row = (tried / MARK_TRIES).floor();
                let along = tried - row * MARK_TRIES;
                Shape::Mark {
                    at: point(at.x + along * step, at.y + 1.3 * radius * row),
                    severity: finding.severity,
                    text: (index + 1).to_string(),
                }
            });
        }
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
            Place::Front => point(space.middle().x, frame.floor + 0.5 * frame::SUPPORT),
            Place::Ceiling => point(
                outer.middle().x,
                frame.top + 0.5 * self.design.surroundings.above.min(2.0),
            ),
        }
    }

    fn description(&self) -> String {
        let fire = &self.analysis.height_of_fire;
        let runs = match self.design.path.layout {
            Layout::Above => "stacked above the firebox",
            Layout::Behind => "stacked behind the firebox",
            Layout::Bench => "side by side as a bench",
        };
        format!(
            "Section to scale: firebox {} wide and {} high, runs {runs}: {}; chimney mouth {} \
             above the floor of the firebox. Gas leaves the firebox at {}, the last run at {} \
             and the mouth at {}.",
            self.figure(self.design.firebox.width, Quantity::Size),
            self.figure(self.design.firebox.height, Quantity::Size),
            self.frame.cells.len(),
            self.figure(self.design.chimney.mouth_height, Quantity::Length),
            self.figure(fire.firebox_outlet, Quantity::Temperature),
            self.figure(fire.runs_outlet, Quantity::Temperature),
            self.figure(fire.chimney_mouth_gas, Quantity::Temperature),
        )
    }
}

/// Step of the temperature scale in the middle of a piece of a channel.
fn between(inlet: f64, outlet: f64, piece: u32) -> u8 {
    let share = (f64::from(piece) + 0.5) / f64::from(PIECES);
    heat_step(inlet + share * (outlet - inlet))
}
