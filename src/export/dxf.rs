//! Drawings as DXF R12, which every CAD program reads: lines, closed polylines and texts on layers
//! that are named by what they stand for.
//!
//! Written here, as the format is pairs of lines: a code and a value. A library for it would bring
//! readers for all later versions, pictures and calendars into the page's worker.

mod courses;

use super::decimal;
use crate::analysis::Analysis;
use crate::design::Design;
use crate::drawing::{
    Anchor, Drawing, Extent, Item, Point, Role, Shape, TextPlace, beside, front, plan, section,
};
use crate::language::said;
use crate::units::{Quantity, System, unit_of};
use std::fmt::{Display, Write as _};

pub use courses::courses;

/// Air between two views, over the text size (–).
const APART: f64 = 8.0;
/// Height of a letter over the text size (–).
const LETTER: f64 = 0.72;
/// Decimals of a coordinate (mm, in).
const DIGITS: usize = 5;

/// A drawing with its heading.
#[derive(Clone, Copy, Debug)]
pub struct View<'a> {
    /// What it shows.
    pub title: &'a str,
    /// The drawing.
    pub drawing: &'a Drawing,
}

/// Unit of length of a file.
struct Unit {
    per_meter: f64,
    /// `$INSUNITS`.
    code: u8,
    /// `$MEASUREMENT`.
    measurement: u8,
}

fn unit(system: System) -> Unit {
    let (code, measurement) = match system {
        System::Metric => (4, 1),
        System::Us => (1, 0),
    };
    Unit { per_meter: 1.0 / unit_of(Quantity::Size, system).factor, code, measurement }
}

/// A file with section, front and plan, every length as it is.
pub fn drawings(design: &Design, analysis: &Analysis, system: System) -> String {
    let drawings = [
        (said("Section along the runs"), section::to_measure(design, analysis, system)),
        (said("From the front"), front::to_measure(design, analysis, system)),
        (said("From above, cut through a run"), plan::to_measure(design, analysis, system)),
    ];
    let views = drawings.each_ref().map(|(title, drawing)| View { title, drawing });
    document(&views, system)
}

/// A layer with its color of the standard palette.
struct Layer<'a> {
    name: &'a str,
    color: u8,
    line: &'static str,
}

const fn layer(name: &str, color: u8) -> Layer<'_> {
    Layer { name, color, line: "CONTINUOUS" }
}

/// Where an item goes; none for what only makes a picture: color of gas, paper under lines, marks
/// of findings.
const fn layer_of(role: Role) -> Option<Layer<'static>> {
    Some(match role {
        Role::Core => layer("CORE", 30),
        Role::Facing => layer("FACING", 32),
        Role::Insulation => layer("INSULATION", 50),
        Role::Slab => layer("SLABS", 40),
        Role::Baffle => layer("BAFFLES", 7),
        Role::Void => layer("SPACES", 8),
        Role::Flow => layer("FLOW", 1),
        Role::Door => layer("DOOR", 5),
        Role::Glass => layer("GLASS", 4),
        Role::Outline => layer("OUTLINE", 7),
        Role::Ground | Role::House => layer("HOUSE", 9),
        Role::Combustible => layer("COMBUSTIBLE", 34),
        Role::Dimension => layer("DIMENSIONS", 3),
        Role::Label | Role::QuietLabel => layer("TEXT", 2),
        Role::Cleanout => layer("CLEANOUTS", 150),
        Role::Passage => Layer { name: "SCHEMATIC", color: 1, line: "DASHED" },
        Role::Damper => layer("DAMPER", 150),
        Role::Inlet => layer("AIR_INLET", 150),
        Role::Course => layer("COURSES", 8),
        Role::Brick => layer("BRICKS", 30),
        Role::FacingBrick => layer("FACING_BRICKS", 32),
        Role::Lintel => layer("LINTELS", 40),
        Role::Gas(_) | Role::Halo | Role::Warning => return None,
    })
}

/// A role of each layer.
const ROLES: [Role; 23] = [
    Role::Core,
    Role::Facing,
    Role::Insulation,
    Role::Slab,
    Role::Baffle,
    Role::Void,
    Role::Flow,
    Role::Door,
    Role::Glass,
    Role::Outline,
    Role::House,
    Role::Combustible,
    Role::Dimension,
    Role::Label,
    Role::Cleanout,
    Role::Passage,
    Role::Damper,
    Role::Inlet,
    Role::Course,
    Role::Brick,
    Role::FacingBrick,
    Role::Lintel,
    Role::Halo,
];

/// A file with views side by side: the first where its own zero is, each at its own height.
pub fn document(views: &[View<'_>], system: System) -> String {
    let unit = unit(system);
    let mut entities = Pen { text: String::new(), unit: unit.per_meter, right: 0.0 };
    let mut whole: Option<Extent> = None;
    for view in views {
        let drawing = view.drawing;
        let extent = Extent { low: drawing.low, high: drawing.high };
        if let Some(before) = whole {
            entities.right = before.high.x + APART * drawing.text_size - extent.low.x;
        }
        let moved = entities.view(view, extent);
        whole = Some(whole.map_or(moved, |before| before.join(moved)));
    }
    let mut file = Pen { text: String::new(), unit: unit.per_meter, right: 0.0 };
    file.header(&unit, whole.unwrap_or(Extent::new(0.0, 0.0, 1.0, 1.0)));
    file.tables(ROLES.into_iter().filter_map(layer_of).collect());
    file.pair(0, "SECTION");
    file.pair(2, "ENTITIES");
    file.text.push_str(&entities.text);
    file.pair(0, "ENDSEC");
    file.pair(0, "EOF");
    file.text
}

/// A text that cannot break the lines of the file, in the letters of R12: degrees and the like by
/// their codes, what is beyond ASCII by its number.
fn plain(text: &str) -> String {
    let mut plain = String::new();
    for character in text.chars() {
        match character {
            '\u{b0}' => plain.push_str("%%d"),
            '\u{d7}' => plain.push('x'),
            '\u{2192}' => plain.push_str("->"),
            '\u{b2}' => plain.push('2'),
            '\u{2013}' | '\u{2212}' => plain.push('-'),
            '\u{a0}' => plain.push(' '),
            // Both begin codes.
            '%' => plain.push_str("%%%"),
            '^' => plain.push_str("^ "),
            ' '..='~' => plain.push(character),
            other if other.is_control() => plain.push(' '),
            other => {
                let mut pair = [0; 2];
                for unit in other.encode_utf16(&mut pair) {
                    // A text takes whatever is written to it.
                    let _ = write!(plain, "\\U+{unit:04X}");
                }
            }
        }
    }
    plain
}

/// Writes pairs of a code and a value.
struct Pen {
    text: String,
    /// Units of a meter.
    unit: f64,
    /// By how much a view is moved to the right (m).
    right: f64,
}

impl Pen {
    fn pair(&mut self, code: u16, value: impl Display) {
        // A text takes whatever is written to it.
        let _ = write!(self.text, "{code}\r\n{value}\r\n");
    }

    fn length(&mut self, code: u16, meters: f64) {
        self.number(code, meters * self.unit);
    }

    fn number(&mut self, code: u16, value: f64) {
        let text = decimal(value, DIGITS);
        let text = if text.contains('.') { text } else { text + ".0" };
        self.pair(code, text);
    }

    /// A point by its first code.
    fn point(&mut self, code: u16, at: Point) {
        self.length(code, at.x + self.right);
        self.length(code + 10, at.y);
        self.number(code + 20, 0.0);
    }

    fn header(&mut self, unit: &Unit, whole: Extent) {
        self.pair(0, "SECTION");
        self.pair(2, "HEADER");
        self.pair(9, "$ACADVER");
        self.pair(1, "AC1009");
        self.pair(9, "$INSUNITS");
        self.pair(70, unit.code);
        self.pair(9, "$MEASUREMENT");
        self.pair(70, unit.measurement);
        self.pair(9, "$LUNITS");
        self.pair(70, 2);
        for (name, corner) in [("$EXTMIN", whole.low), ("$EXTMAX", whole.high)] {
            self.pair(9, name);
            self.point(10, corner);
        }
        self.pair(0, "ENDSEC");
    }

    fn tables(&mut self, layers: Vec<Layer<'_>>) {
        self.pair(0, "SECTION");
        self.pair(2, "TABLES");
        self.table("LTYPE", 2);
        self.line_type("CONTINUOUS", "Solid", &[]);
        self.line_type("DASHED", "Dashed", &[0.06, -0.03]);
        self.pair(0, "ENDTAB");
        self.table("LAYER", layers.len() + 1);
        for each in std::iter::once(layer("0", 7)).chain(layers) {
            self.pair(0, "LAYER");
            self.pair(2, each.name);
            self.pair(70, 0);
            self.pair(62, each.color);
            self.pair(6, each.line);
        }
        self.pair(0, "ENDTAB");
        self.table("STYLE", 1);
        self.pair(0, "STYLE");
        self.pair(2, "STANDARD");
        self.pair(70, 0);
        for (code, value) in [(40, 0.0), (41, 1.0), (50, 0.0)] {
            self.number(code, value);
        }
        self.pair(71, 0);
        self.number(42, 1.0);
        self.pair(3, "txt");
        self.pair(4, "");
        self.pair(0, "ENDTAB");
        self.pair(0, "ENDSEC");
    }

    fn table(&mut self, name: &str, entries: usize) {
        self.pair(0, "TABLE");
        self.pair(2, name);
        self.pair(70, entries);
    }

    /// A kind of line by its dashes and gaps (m).
    fn line_type(&mut self, name: &str, about: &str, dashes: &[f64]) {
        self.pair(0, "LTYPE");
        self.pair(2, name);
        self.pair(70, 0);
        self.pair(3, about);
        self.pair(72, 65);
        self.pair(73, dashes.len());
        self.length(40, dashes.iter().map(|dash| dash.abs()).sum());
        for dash in dashes {
            self.length(49, *dash);
        }
    }

    /// Adds a view under its heading; the room that it takes.
    fn view(&mut self, view: &View<'_>, extent: Extent) -> Extent {
        let size = view.drawing.text_size;
        for item in &view.drawing.items {
            self.item(item, size);
        }
        let high = extent.high.y + 2.0 * size;
        let at = Point { x: extent.low.x, y: high - 1.2 * size };
        let place = TextPlace { at, anchor: Anchor::Start, degrees: 0.0 };
        self.write("TEXT", place, view.title, 1.2 * size);
        Extent::new(extent.low.x + self.right, extent.low.y, extent.high.x + self.right, high)
    }

    fn item(&mut self, Item { role, shape, .. }: &Item, size: f64) {
        let Some(Layer { name, .. }) = layer_of(*role) else {
            return;
        };
        match shape {
            Shape::Rectangle { corner, width, height } => {
                let (right, top) = (corner.x + width, corner.y + height);
                let corners =
                    [(corner.x, corner.y), (right, corner.y), (right, top), (corner.x, top)];
                self.polyline(name, &corners.map(|(x, y)| Point { x, y }), 1);
            }
            Shape::Line { points } => self.polyline(name, points, 0),
            Shape::Arrow { from, to } => {
                self.line(name, *from, *to);
                let back = |across| beside(*from, *to, -0.7 * size, across * size);
                self.polyline(name, &[*to, back(0.25), back(-0.25)], 1);
            }
            Shape::Dimension { from, to, .. } => {
                self.line(name, *from, *to);
                let tick = 0.3 * size;
                for (from, to) in [(*from, *to), (*to, *from)] {
                    self.line(
                        name,
                        beside(from, to, tick, tick),
                        beside(from, to, -tick, -tick),
                    );
                }
            }
            Shape::Label { .. } | Shape::Mark { .. } => {}
        }
        if let (Some(place), Some(text)) = (shape.text_place(size), shape.text()) {
            self.write(name, place, text, size);
        }
    }

    fn line(&mut self, layer: &str, from: Point, to: Point) {
        self.pair(0, "LINE");
        self.pair(8, layer);
        self.point(10, from);
        self.point(11, to);
    }

    /// A polyline, closed by the flag 1.
    fn polyline(&mut self, layer: &str, points: &[Point], flag: u8) {
        self.pair(0, "POLYLINE");
        self.pair(8, layer);
        self.pair(66, 1);
        for code in [10, 20, 30] {
            self.number(code, 0.0);
        }
        self.pair(70, flag);
        for at in points {
            self.pair(0, "VERTEX");
            self.pair(8, layer);
            self.point(10, *at);
        }
        self.pair(0, "SEQEND");
        self.pair(8, layer);
    }

    fn write(&mut self, layer: &str, place: TextPlace, text: &str, size: f64) {
        self.pair(0, "TEXT");
        self.pair(8, layer);
        self.point(10, place.at);
        self.length(40, LETTER * size);
        self.pair(1, plain(text));
        self.number(50, place.degrees);
        let justified = match place.anchor {
            Anchor::Start => return,
            Anchor::Middle => 1,
            Anchor::End => 2,
        };
        self.pair(72, justified);
        self.point(11, place.at);
    }
}
