//! Drawings as SVG: shapes become elements, roles become classes; the style sheet has the look.

use super::answers::unit_name;
use super::dom::{Tag, svg, tag};
use super::icon::Mark;
use super::plot::watch_size;
use super::texts;
use super::workspace::{Shown, Workspace};
use leptos::prelude::*;
use longsmoke::drawing::{
    Anchor, Drawing, Item, MARK_RADIUS, Point, Role, Shape, heat_scale, heat_step,
};
use longsmoke::rules::{Place, Severity};
use longsmoke::units::{Quantity, System, number};
use std::cell::Cell;
use web_sys::Element;

/// Length of an arrow's head over the size of texts.
const HEAD: f64 = 0.7;
/// Margin around a drawing over the size of texts.
const MARGIN: f64 = 0.1;

/// Least size of texts on the screen over that of the page's (–).
const LEAST_TEXT: f64 = 0.72;
/// Most by which texts are enlarged (–): beyond, they would leave no room for what they name.
const MOST_SCALE: f64 = 2.4;

/// Draws what is shown, with texts enlarged by a factor.
type Paint = fn(&Shown, System, f64) -> Drawing;

/// Class of a gas temperature (K).
pub fn heat_class(temperature: f64) -> String {
    format!("gas-{}", heat_step(temperature))
}

fn class(role: Role) -> String {
    match role {
        Role::Gas(step) => format!("gas gas-{step}"),
        other => format!("{other:?}").to_ascii_lowercase(),
    }
}

/// A drawing, to scale, by its name in tests.
pub fn sketch(workspace: Workspace, name: &'static str, paint: Paint) -> Tag {
    let items = svg("g");
    let sketch = svg("svg")
        .class(&format!("sketch {name}"))
        .attr("data-testid", name)
        .attr("role", "img")
        .child(hatches(name))
        .child(items.clone());
    let whole = sketch.clone();
    let room = RwSignal::new(Room::default());
    let measured = sketch.element().clone();
    watch_size(sketch.element(), move || {
        let now = Room::of(&measured).unwrap_or_default();
        if room.get_untracked() != now {
            room.set(now);
        }
    });
    let scale = Cell::new(1.0);
    items.live(move |items| {
        let room = room.get();
        let drawing = workspace
            .read(|shown, system| legible(room, &scale, |scale| paint(shown, system, scale)));
        let Some(drawing) = drawing else {
            return items;
        };
        let _ = whole
            .clone()
            .attr("aria-label", &drawing.description)
            .attr("viewBox", &view_box(&drawing))
            .attr("font-size", &drawing.text_size.to_string());
        let size = drawing.text_size;
        items.children(drawing.items.iter().map(|item| draw(item, size, workspace.marked)))
    });
    sketch
}

fn view_box(drawing: &Drawing) -> String {
    let margin = MARGIN * drawing.text_size;
    let (width, height) = size(drawing);
    format!("{} {} {width} {height}", drawing.low.x - margin, -drawing.high.y - margin)
}

/// Width and height with the margin around (m).
fn size(drawing: &Drawing) -> (f64, f64) {
    let margin = 2.0 * MARGIN * drawing.text_size;
    let (low, high) = (drawing.low, drawing.high);
    (high.x - low.x + margin, high.y - low.y + margin)
}

/// The room that a drawing has on the screen (px).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Room {
    width: f64,
    /// None where only the width limits it.
    height: Option<f64>,
    /// Least size of texts.
    text: f64,
}

impl Room {
    fn of(element: &Element) -> Option<Self> {
        let window = web_sys::window()?;
        let pixels = |element: &Element, property: &str| {
            let style = window.get_computed_style(element).ok()??;
            let text = style.get_property_value(property).ok()?;
            text.strip_suffix("px")?.parse::<f64>().ok()
        };
        Some(Self {
            width: element.get_bounding_client_rect().width().round(),
            height: pixels(element, "max-height"),
            text: LEAST_TEXT * pixels(&document().document_element()?, "font-size")?,
        })
    }

    /// Size at which the texts of a drawing appear.
    fn text_of(&self, drawing: &Drawing) -> f64 {
        let (width, height) = size(drawing);
        let scale =
            (self.width / width).min(self.height.map_or(f64::MAX, |most| most / height));
        scale * drawing.text_size
    }
}

/// Paints with texts as large as it takes for them to be read; `scale` is what it took last time.
fn legible(room: Room, scale: &Cell<f64>, paint: impl Fn(f64) -> Drawing) -> Drawing {
    let mut drawing = paint(scale.get());
    // A drawing grows with its texts, so that one step falls a little short.
    for _ in 0..6 {
        let shown = room.text_of(&drawing);
        let wanted = (scale.get() * room.text / shown.max(1.0)).clamp(1.0, MOST_SCALE);
        if room.width < 1.0 || (wanted / scale.get() - 1.0).abs() < 0.03 {
            break;
        }
        scale.set(wanted);
        drawing = paint(wanted);
    }
    drawing
}

/// Hatching of masonry by material.
fn hatches(name: &str) -> Tag {
    let hatch = |kind: &str, size: &str, turn: &str| {
        let ground = svg("rect").class("ground").attr("width", size).attr("height", size);
        svg("pattern")
            .id(&format!("{kind}-{name}"))
            .class(&format!("hatch {kind}-hatch"))
            .attr("width", size)
            .attr("height", size)
            .attr("patternUnits", "userSpaceOnUse")
            .attr("patternTransform", turn)
            .child(ground)
            .child(svg("path").attr("d", &format!("M0 0V{size}")))
    };
    svg("defs")
        .child(hatch("core", "0.05", "rotate(45)"))
        .child(hatch("facing", "0.08", "rotate(-45)"))
        .child(hatch("insulation", "0.025", "rotate(0)"))
}

fn draw(item: &Item, size: f64, marked: RwSignal<Option<Place>>) -> Tag {
    let role = class(item.role);
    let drawn = svg("g").class(&role);
    let drawn = match item.place {
        Some(place) => drawn.live_attr("class", move || {
            let mark = if marked.get() == Some(place) { " marked" } else { "" };
            Some(format!("{role}{mark}"))
        }),
        None => drawn,
    };
    writing(shape(drawn, &item.shape, size), &item.shape, size)
}

/// Adds the elements of a shape.
fn shape(group: Tag, shape: &Shape, size: f64) -> Tag {
    match shape {
        Shape::Rectangle { corner, width, height } => group.child(
            svg("rect")
                .attr("x", &corner.x.to_string())
                .attr("y", &(-corner.y - height).to_string())
                .attr("width", &width.to_string())
                .attr("height", &height.to_string()),
        ),
        Shape::Line { points } => group.child(polyline(points)),
        Shape::Arrow { from, to } => arrow(group, *from, *to, size),
        Shape::Dimension { from, to, .. } => dimension(group, *from, *to, size),
        Shape::Mark { at, severity, .. } => group.child(mark(*at, *severity, size)),
        Shape::Label { .. } => group,
    }
}

fn polyline(points: &[Point]) -> Tag {
    svg("polyline").attr("points", &points_text(points))
}

fn points_text(points: &[Point]) -> String {
    let pairs = points.iter().map(|point| format!("{},{}", point.x, -point.y));
    pairs.collect::<Vec<_>>().join(" ")
}

/// A point near `to`, seen along the line from `from` (m).
fn beside(from: Point, to: Point, along: f64, across: f64) -> Point {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = libm::hypot(dx, dy).max(f64::MIN_POSITIVE);
    let (dx, dy) = (dx / length, dy / length);
    Point { x: to.x + along * dx - across * dy, y: to.y + along * dy + across * dx }
}

fn arrow(group: Tag, from: Point, to: Point, size: f64) -> Tag {
    let (long, wide) = (HEAD * size, 0.35 * HEAD * size);
    let head = [to, beside(from, to, -long, wide), beside(from, to, -long, -wide)];
    group.child(polyline(&[from, to])).child(svg("polygon").attr("points", &points_text(&head)))
}

/// Adds the text of a shape, where the drawing keeps room for it.
fn writing(group: Tag, shape: &Shape, size: f64) -> Tag {
    let (Some(place), Some(text)) = (shape.text_place(size), shape.text()) else {
        return group;
    };
    let anchor = match place.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let (x, y) = (place.at.x, -place.at.y);
    let mut written = svg("text")
        .attr("x", &x.to_string())
        .attr("y", &y.to_string())
        .attr("text-anchor", anchor)
        .text(text);
    if place.degrees != 0.0 {
        written = written.attr("transform", &format!("rotate({} {x} {y})", -place.degrees));
    }
    group.child(written)
}

/// A line with a tick at each end.
fn dimension(group: Tag, from: Point, to: Point, size: f64) -> Tag {
    let tick = |from, to| {
        let tick = 0.3 * size;
        let ends = [(tick, tick), (-tick, -tick)];
        polyline(&ends.map(|(along, across)| beside(from, to, along, across)))
    };
    group.child(polyline(&[from, to])).child(tick(from, to)).child(tick(to, from))
}

/// The shape of a finding's severity where it occurs; its number is written into it.
fn mark(at: Point, severity: Severity, size: f64) -> Tag {
    let mark = Mark::from(severity);
    let side = 2.0 * MARK_RADIUS * size;
    let (x, y) = (at.x - 0.5 * side, -at.y - 0.5 * side);
    svg("g")
        .class(&format!("icon {}", mark.class()))
        .attr("transform", &format!("translate({x} {y}) scale({})", side / 16.0))
        .child(svg("path").class("outline").attr("d", mark.plain()))
}

/// What the colors of the gas mean.
pub fn legend(workspace: Workspace) -> Tag {
    let unit = move || Some(unit_name(workspace, Quantity::Temperature));
    let steps = tag("ol").live(move |list| {
        let system = workspace.system.get();
        list.children(heat_scale().into_iter().map(|(step, lower)| {
            let lower = number(lower, Quantity::Temperature, system);
            tag("li")
                .child(tag("span").class(&format!("chip gas-{step}")))
                .child(tag("span").class("lower").text(&lower))
        }))
    });
    tag("div")
        .class("legend")
        .child(tag("span").text(texts::LEGEND).text(", ").live_text(unit))
        .child(steps)
}
