//! Drawings as SVG, in millimeters. Looks are attributes, so that a file stands by itself and a page
//! that forbids styles within it shows the same.

mod courses;

use super::decimal;
use super::markup::{Attributes, Markup};
use crate::drawing::{
    Anchor, Drawing, Extent, Item, MARK_RADIUS, Point, Role, Shape, TextPlace, beside,
    mark_outline,
};
use crate::rules::Severity;

pub use courses::courses;

/// Length of an arrow's head over the size of texts.
const HEAD: f64 = 0.7;
/// Room around a drawing (mm).
const MARGIN: f64 = 1.0;
/// Decimals of a length (mm).
const DIGITS: usize = 3;
/// From one line of a hatching to the next (mm).
const HATCH: f64 = 1.6;

const INK: &str = "#2a2520";
const QUIET: &str = "#5d5750";
const EDGE: &str = "#857f76";
const EMBER: &str = "#ad4216";
const SLATE: &str = "#435e75";
const LOOK: &str = "#875806";
const STOP: &str = "#a51f1e";
const PAPER: &str = "#ffffff";
/// Ground and lines of core, facing and mineral wool.
const HATCHES: [(&str, [&str; 2], &str); 3] = [
    ("core", ["#f2e8dd", "#b6a08f"], "rotate(45)"),
    ("facing", ["#f3dcd0", "#c09381"], "rotate(-45)"),
    ("insulation", ["#f1ebd5", "#b7aa87"], "rotate(90)"),
];
/// Colors of the gas, from cool to hot, darker from step to step.
pub const GAS: [&str; 12] = [
    "#d5e3f1", "#c8dceb", "#bed5e1", "#c7ceb6", "#cfc595", "#d4b771", "#d7a44d", "#db8e2f",
    "#d87416", "#cc5903", "#ba4209", "#9f2c12",
];

/// How a drawing is written.
#[derive(Clone, Copy, Debug)]
pub struct Frame<'a> {
    /// Starts the ids in it, so that several drawings can stand in a document.
    pub id: &'a str,
    /// What it shows.
    pub title: &'a str,
    /// Millimeters of a drawn meter.
    pub scale: f64,
}

/// Width and height of a drawing (mm).
pub fn size(drawing: &Drawing, scale: f64) -> (f64, f64) {
    let (low, high) = (drawing.low, drawing.high);
    (scale * (high.x - low.x) + 2.0 * MARGIN, scale * (high.y - low.y) + 2.0 * MARGIN)
}

/// Size of texts in a file (mm).
const TEXT: f64 = 2.5;

/// A file with a drawing, as large as it takes for its texts to be read on paper.
pub fn file(drawing: &Drawing, title: &str) -> String {
    document(drawing, Frame { id: "drawing", title, scale: TEXT / drawing.text_size })
}

/// A file with a drawing.
pub fn document(drawing: &Drawing, frame: Frame<'_>) -> String {
    let mut markup = Markup::default();
    markup.raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    element(&mut markup, drawing, frame);
    markup.raw("\n");
    markup.finish()
}

/// Adds a drawing to a document.
pub fn element(markup: &mut Markup, drawing: &Drawing, frame: Frame<'_>) {
    let (width, height) = size(drawing, frame.scale);
    let label = format!("{}-title", frame.id);
    root(markup, (width, height), &[("role", "img"), ("aria-labelledby", &label)]);
    markup.element("title", &[("id", &label)], frame.title);
    markup.element("desc", &[], &drawing.description);
    markup.open("defs", &[]);
    for hatch in &HATCHES {
        pattern(markup, frame.id, hatch);
    }
    markup.close();
    let corner = Point { x: drawing.low.x, y: drawing.high.y };
    let mut pen = Pen {
        markup,
        id: frame.id,
        corner,
        scale: frame.scale,
        text: frame.scale * drawing.text_size,
        size: drawing.text_size,
    };
    for item in &drawing.items {
        pen.item(item);
    }
    markup.close();
}

/// Adds a sign of a key, a drawn meter as long as in the drawing whose hatchings it shares.
pub fn sign(markup: &mut Markup, role: Role, id: &str) {
    let (width, height) = (0.009, 0.004);
    let low = Point { x: 0.0, y: 0.0 };
    let shape = match role {
        Role::Damper => Shape::Line { points: vec![low, Point { x: width, y: height }] },
        Role::Course => {
            let comb = [
                (0.0, 1.0),
                (0.0, 0.0),
                (0.5, 0.0),
                (0.5, 0.6),
                (0.5, 0.0),
                (1.0, 0.0),
                (1.0, 1.0),
            ];
            let at = |(x, y): (f64, f64)| Point { x: x * width, y: (1.0 - y) * height };
            Shape::Line { points: comb.map(at).to_vec() }
        }
        _ => Shape::Rectangle { corner: low, width, height },
    };
    let scale = 1000.0;
    root(markup, (scale * width + 2.0 * MARGIN, scale * height + 2.0 * MARGIN), &[]);
    let corner = Point { x: 0.0, y: height };
    let mut pen = Pen { markup, id, corner, scale, text: 2.0, size: 0.002 };
    pen.item(&Item { role, shape, place: None });
    markup.close();
}

/// Adds the mark of a finding with its number, as it stands in the drawings (mm).
pub fn numbered(markup: &mut Markup, severity: Severity, number: &str, text: f64) {
    let side = 2.0 * MARK_RADIUS * text;
    root(markup, (side + 2.0 * MARGIN, side + 2.0 * MARGIN), &[]);
    let half = 0.5 * side;
    let corner = Point { x: -half, y: half };
    let mut pen = Pen { markup, id: "", corner, scale: 1.0, text, size: text };
    let at = Point { x: 0.0, y: 0.0 };
    let shape = Shape::Mark { at, severity, text: number.to_owned() };
    pen.item(&Item { role: Role::Warning, shape, place: None });
    markup.close();
}

/// Opens a drawing of a size (mm).
pub fn root(markup: &mut Markup, (width, height): (f64, f64), more: Attributes<'_>) {
    let (width, height) = (decimal(width, DIGITS), decimal(height, DIGITS));
    let view = format!("0 0 {width} {height}");
    let (wide, high) = (format!("{width}mm"), format!("{height}mm"));
    let mut attributes = vec![
        ("xmlns", "http://www.w3.org/2000/svg"),
        ("width", wide.as_str()),
        ("height", &high),
        ("viewBox", &view),
        ("font-family", "system-ui, sans-serif"),
    ];
    attributes.extend(more);
    markup.open("svg", &attributes);
}

fn pattern(
    markup: &mut Markup,
    id: &str,
    (name, [ground, line], turn): &(&str, [&str; 2], &str),
) {
    let side = decimal(HATCH, DIGITS);
    let name = format!("{id}-{name}");
    let attributes = [
        ("id", name.as_str()),
        ("width", &side),
        ("height", &side),
        ("patternUnits", "userSpaceOnUse"),
        ("patternTransform", turn),
    ];
    markup.open("pattern", &attributes);
    markup.empty("rect", &[("width", &side), ("height", &side), ("fill", ground)]);
    let path = format!("M0 0V{side}");
    markup.empty("path", &[("d", &path), ("stroke", line), ("stroke-width", "0.35")]);
    markup.close();
}

/// The look of a role.
#[derive(Clone, Copy)]
struct Look {
    fill: Fill,
    stroke: Option<(&'static str, f64)>,
    /// Color of texts.
    ink: &'static str,
    dashes: Option<&'static str>,
}

#[derive(Clone, Copy)]
enum Fill {
    Nothing,
    Plain(&'static str),
    /// So much of a color (–).
    Tint(&'static str, &'static str),
    Hatch(&'static str),
}

const fn look(fill: Fill, stroke: Option<(&'static str, f64)>) -> Look {
    Look { fill, stroke, ink: INK, dashes: None }
}

fn look_of(role: Role) -> Look {
    match role {
        Role::Core | Role::Slab => look(Fill::Hatch("core"), None),
        Role::Facing => look(Fill::Hatch("facing"), None),
        Role::Insulation => look(Fill::Hatch("insulation"), Some((INK, 0.2))),
        Role::Baffle => look(Fill::Plain(INK), None),
        Role::Void => look(Fill::Plain(PAPER), Some((INK, 0.25))),
        Role::Gas(step) => {
            let color = GAS.get(usize::from(step)).copied().unwrap_or(EMBER);
            look(Fill::Plain(color), None)
        }
        Role::Flow => look(Fill::Nothing, Some((INK, 0.35))),
        Role::Outline => look(Fill::Nothing, Some((INK, 0.6))),
        Role::Door | Role::Damper => look(Fill::Nothing, Some((SLATE, 0.6))),
        Role::Glass => look(Fill::Tint(SLATE, "0.25"), Some((SLATE, 0.35))),
        Role::Ground | Role::House => look(Fill::Nothing, Some((EDGE, 0.35))),
        Role::Combustible => look(Fill::Tint(LOOK, "0.2"), Some((LOOK, 0.35))),
        Role::Label | Role::Warning => look(Fill::Nothing, Some((INK, 0.25))),
        Role::Dimension | Role::QuietLabel => {
            Look { ink: QUIET, ..look(Fill::Nothing, Some((QUIET, 0.2))) }
        }
        Role::Cleanout => look(Fill::Nothing, Some((SLATE, 0.35))),
        Role::Passage => {
            Look { dashes: Some("1.6 1"), ..look(Fill::Nothing, Some((EMBER, 0.5))) }
        }
        Role::Inlet => look(Fill::Plain(PAPER), Some((SLATE, 0.35))),
        Role::Course => Look { ink: QUIET, ..look(Fill::Nothing, Some((EDGE, 0.2))) },
        Role::Halo => look(Fill::Plain(PAPER), None),
        Role::Brick => look(Fill::Plain(HATCHES[0].1[0]), Some((INK, 0.2))),
        Role::FacingBrick => look(Fill::Plain(HATCHES[1].1[0]), Some((INK, 0.2))),
        Role::Lintel => look(Fill::Hatch("core"), Some((INK, 0.35))),
    }
}

/// Writes items of a drawing.
struct Pen<'a> {
    markup: &'a mut Markup,
    id: &'a str,
    /// Upper left corner of what is drawn.
    corner: Point,
    /// Millimeters of a drawn meter.
    scale: f64,
    /// Size of texts (mm).
    text: f64,
    /// The same in the drawing.
    size: f64,
}

impl Pen<'_> {
    fn place(&self, at: Point) -> (f64, f64) {
        (
            MARGIN + self.scale * (at.x - self.corner.x),
            MARGIN + self.scale * (self.corner.y - at.y),
        )
    }

    fn item(&mut self, Item { role, shape, .. }: &Item) {
        let look = look_of(*role);
        match shape {
            Shape::Rectangle { corner, width, height } => {
                let high = Point { x: corner.x + width, y: corner.y + height };
                self.rectangle(Extent { low: *corner, high }, look);
            }
            Shape::Line { points } if *role == Role::Halo => self.line(points, halo(look)),
            Shape::Line { points } => self.line(points, line_of(*role, look)),
            Shape::Arrow { from, to } => self.arrow([*from, *to], *role, look),
            Shape::Dimension { from, to, .. } => self.dimension([*from, *to], look),
            Shape::Mark { at, severity, .. } => self.mark(*at, *severity),
            Shape::Label { .. } => {}
        }
        if let (Some(place), Some(text)) = (shape.text_place(self.size), shape.text()) {
            let (ink, weight) = match shape {
                Shape::Mark { severity: Severity::DoNotBuild, .. } => (PAPER, "600"),
                Shape::Mark { .. } => (INK, "600"),
                _ => (look.ink, "400"),
            };
            self.write(place, text, ink, weight);
        }
    }

    fn painted(&mut self, name: &'static str, shape: Attributes<'_>, look: Look) {
        let (hatch, width);
        let mut attributes = shape.to_vec();
        match look.fill {
            Fill::Nothing => attributes.push(("fill", "none")),
            Fill::Plain(color) => attributes.push(("fill", color)),
            Fill::Tint(color, share) => {
                attributes.extend([("fill", color), ("fill-opacity", share)]);
            }
            Fill::Hatch(name) => {
                hatch = format!("url(#{}-{name})", self.id);
                attributes.push(("fill", &hatch));
            }
        }
        if let Some((color, wide)) = look.stroke {
            width = decimal(wide, DIGITS);
            attributes.extend([("stroke", color), ("stroke-width", width.as_str())]);
            attributes.push(("stroke-linejoin", "round"));
            attributes.extend(look.dashes.map(|dashes| ("stroke-dasharray", dashes)));
        }
        self.markup.empty(name, &attributes);
    }

    fn rectangle(&mut self, extent: Extent, look: Look) {
        let (left, bottom) = self.place(extent.low);
        let (right, top) = self.place(extent.high);
        let [x, y, width, height] =
            [left, top, right - left, bottom - top].map(|length| decimal(length, DIGITS));
        let shape = [("x", x.as_str()), ("y", &y), ("width", &width), ("height", &height)];
        self.painted("rect", &shape, look);
    }

    fn points(&self, points: &[Point]) -> String {
        let pairs = points.iter().map(|at| {
            let (x, y) = self.place(*at);
            format!("{},{}", decimal(x, DIGITS), decimal(y, DIGITS))
        });
        pairs.collect::<Vec<_>>().join(" ")
    }

    fn line(&mut self, points: &[Point], look: Look) {
        let points = self.points(points);
        self.painted("polyline", &[("points", &points)], look);
    }

    fn arrow(&mut self, [from, to]: [Point; 2], role: Role, look: Look) {
        let (line, head) = if role == Role::Halo {
            (halo(look), Look { stroke: Some((PAPER, 1.0)), ..look })
        } else {
            (look, Look { fill: Fill::Plain(look.ink), stroke: None, ..look })
        };
        self.line(&[from, to], line);
        let (long, wide) = (HEAD * self.size, 0.35 * HEAD * self.size);
        let corners = [to, beside(from, to, -long, wide), beside(from, to, -long, -wide)];
        let points = self.points(&corners);
        self.painted("polygon", &[("points", &points)], head);
    }

    /// A line with a tick at each end.
    fn dimension(&mut self, [from, to]: [Point; 2], look: Look) {
        self.line(&[from, to], look);
        let tick = 0.3 * self.size;
        for (from, to) in [(from, to), (to, from)] {
            let ends = [beside(from, to, tick, tick), beside(from, to, -tick, -tick)];
            self.line(&ends, look);
        }
    }

    fn mark(&mut self, at: Point, severity: Severity) {
        let side = 2.0 * MARK_RADIUS * self.text;
        let (x, y) = self.place(at);
        let [x, y, scale] =
            [x - 0.5 * side, y - 0.5 * side, side / 16.0].map(|value| decimal(value, 4));
        let turn = format!("translate({x} {y}) scale({scale})");
        let (fill, ink) = match severity {
            Severity::DoNotBuild => (STOP, STOP),
            Severity::LookAgain => (PAPER, LOOK),
            Severity::GoodToKnow => (PAPER, SLATE),
        };
        let shape = [("d", mark_outline(severity)), ("transform", turn.as_str())];
        let look = look(Fill::Plain(fill), Some((ink, 1.5)));
        self.painted("path", &shape, look);
    }

    fn write(&mut self, place: TextPlace, text: &str, ink: &str, weight: &str) {
        let (x, y) = self.place(place.at);
        let [x, y, size] = [x, y, self.text].map(|value| decimal(value, DIGITS));
        let anchor = match place.anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let turn = format!("rotate({} {x} {y})", decimal(-place.degrees, 1));
        let mut attributes = vec![
            ("x", x.as_str()),
            ("y", &y),
            ("font-size", &size),
            ("font-weight", weight),
            ("text-anchor", anchor),
            ("fill", ink),
        ];
        if ink != PAPER {
            // Paper around the letters, where they lie on a hatching.
            attributes.extend([("stroke", PAPER), ("stroke-width", "0.5")]);
            attributes.extend([("stroke-linejoin", "round"), ("paint-order", "stroke")]);
        }
        if place.degrees != 0.0 {
            attributes.push(("transform", &turn));
        }
        self.markup.element("text", &attributes, text);
    }
}

/// Paper under a line.
const fn halo(look: Look) -> Look {
    Look { fill: Fill::Nothing, stroke: Some((PAPER, 1.3)), ..look }
}

/// A line is not filled, but for masonry.
const fn line_of(role: Role, look: Look) -> Look {
    match (role, look.stroke) {
        (Role::Core | Role::Facing | Role::Slab, _) => look,
        (_, Some(_)) => Look { fill: Fill::Nothing, ..look },
        (_, None) => Look { fill: Fill::Nothing, stroke: Some((INK, 0.35)), ..look },
    }
}
