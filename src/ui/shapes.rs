//! Items of a drawing as elements of SVG. What stands there is mended where it differs, so that the
//! browser lays out and paints what has changed alone.

use super::dom::{Tag, svg};
use super::icon::Mark;
use super::signal::RwSignal;
use longsmoke::drawing::{Anchor, Item, MARK_RADIUS, Point, Role, Shape, beside, mark_outline};
use longsmoke::rules::{Place, Severity};
use wasm_bindgen::JsCast;
use web_sys::{Element, Event};

/// Length of an arrow's head over the size of texts.
const HEAD: f64 = 0.7;

/// Attribute with the place of an item in its drawing, where it shows a part of the heater.
const PART: &str = "data-part";

/// The items of a drawing on the page.
#[derive(Clone, Copy)]
pub struct Shapes {
    within: RwSignal<Tag>,
    drawn: RwSignal<Vec<Drawn>>,
}

impl Shapes {
    /// None yet, within an element of their own.
    pub fn within(element: Tag) -> Self {
        Self { within: RwSignal::new(element), drawn: RwSignal::new(Vec::new()) }
    }

    /// Shows items with texts of a size (m).
    pub fn show(self, items: &[Item], size: f64) {
        let within = self.within.get_untracked();
        self.drawn.update_untracked(|drawn| {
            for surplus in drawn.drain(items.len().min(drawn.len())..) {
                surplus.group.element().remove();
            }
            for (index, item) in items.iter().enumerate() {
                if let Some(drawn) = drawn.get_mut(index) {
                    drawn.become_item((index, item), size);
                } else {
                    let new = Drawn::new((index, item), size);
                    let _ = within.clone().child(new.group.clone());
                    drawn.push(new);
                }
            }
        });
    }

    /// Marks what shows a part of the heater, and nothing else.
    pub fn mark(self, place: Option<Place>) {
        self.drawn.with_untracked(|drawn| {
            for drawn in drawn.iter().filter(|drawn| drawn.item.place.is_some()) {
                let list = drawn.group.element().class_list();
                let _ = list.toggle_with_force("marked", drawn.item.place == place);
            }
        });
    }

    /// The part of the heater under a pointer.
    pub fn under(self, event: &Event) -> Option<Place> {
        let target = event.target()?.dyn_into::<Element>().ok()?;
        let index = target.closest(&format!("[{PART}]")).ok()??.get_attribute(PART)?;
        let index = index.parse::<usize>().ok()?;
        self.drawn.with_untracked(|drawn| drawn.get(index)?.item.place)
    }
}

/// An item drawn with texts of a size (m), for once.
pub fn drawn(item: &Item, size: f64) -> Tag {
    Drawn::new((0, item), size).group
}

/// An item on the page.
struct Drawn {
    item: Item,
    size: f64,
    group: Tag,
    parts: Vec<(Part, Tag)>,
}

impl Drawn {
    fn new((index, item): (usize, &Item), size: f64) -> Self {
        let group = svg("g").class(&class(item.role));
        let group = match item.place {
            Some(_) => group.attr(PART, &index.to_string()),
            None => group,
        };
        let parts = parts(&item.shape, size).into_iter();
        let parts: Vec<_> = parts.map(Part::with_element).collect();
        let group = group.children(parts.iter().map(|(_, tag)| tag.clone()));
        Self { item: item.clone(), size, group, parts }
    }

    /// Shows another item in the place of the one before, with the same elements if they will do.
    fn become_item(&mut self, (index, item): (usize, &Item), size: f64) {
        if self.item == *item && self.size.to_bits() == size.to_bits() {
            return;
        }
        let parts = parts(&item.shape, size);
        let alike = parts.len() == self.parts.len()
            && item.place.is_some() == self.item.place.is_some()
            && parts.iter().zip(&self.parts).all(|(new, (old, _))| new.is_like(old));
        if !alike {
            let new = Self::new((index, item), size);
            let _ = self.group.element().replace_with_with_node_1(new.group.element());
            *self = new;
            return;
        }
        if self.item.role != item.role {
            let _ = self.group.clone().class(&class(item.role));
        }
        for (new, (old, tag)) in parts.into_iter().zip(&mut self.parts) {
            new.mend(old, tag);
            *old = new;
        }
        self.item.clone_from(item);
        self.size = size;
    }
}

fn class(role: Role) -> String {
    match role {
        Role::Gas(step) => format!("gas gas-{step}"),
        other => format!("{other:?}").to_ascii_lowercase(),
    }
}

/// An element of an item.
struct Part {
    name: &'static str,
    attributes: Vec<(&'static str, String)>,
    text: String,
    /// Whose shape it holds.
    mark: Option<Severity>,
}

impl Part {
    fn new<const N: usize>(
        name: &'static str,
        attributes: [(&'static str, String); N],
    ) -> Self {
        Self { name, attributes: attributes.into(), text: String::new(), mark: None }
    }

    fn with_element(self) -> (Self, Tag) {
        let tag = self.made();
        (self, tag)
    }

    fn made(&self) -> Tag {
        let tag = svg(self.name);
        let tag = match self.mark {
            Some(severity) => tag
                .class(&format!("icon {}", Mark::from(severity).class()))
                .child(svg("path").class("outline").attr("d", mark_outline(severity))),
            None => tag,
        };
        let tag = self.attributes.iter().fold(tag, |tag, (name, value)| tag.attr(name, value));
        if self.text.is_empty() { tag } else { tag.text(&self.text) }
    }

    /// Whether the element of another will do for this one.
    fn is_like(&self, other: &Self) -> bool {
        let same_attributes = self.attributes.len() == other.attributes.len()
            && self.attributes.iter().zip(&other.attributes).all(|(a, b)| a.0 == b.0);
        self.name == other.name && self.mark == other.mark && same_attributes
    }

    /// Brings an element from what it shows to this.
    fn mend(&self, old: &Self, tag: &Tag) {
        for ((name, value), (_, before)) in self.attributes.iter().zip(&old.attributes) {
            if value != before {
                let _ = tag.element().set_attribute(name, value);
            }
        }
        if self.text != old.text {
            tag.element().set_text_content(Some(&self.text));
        }
    }
}

/// The elements of a shape, its text last.
fn parts(shape: &Shape, size: f64) -> Vec<Part> {
    let mut parts = match shape {
        Shape::Rectangle { corner, width, height } => vec![Part::new(
            "rect",
            [
                ("x", meters(corner.x)),
                ("y", meters(-corner.y - height)),
                ("width", meters(*width)),
                ("height", meters(*height)),
            ],
        )],
        Shape::Line { points } => vec![line("polyline", points)],
        Shape::Arrow { from, to } => arrow(*from, *to, size),
        Shape::Dimension { from, to, .. } => dimension(*from, *to, size),
        Shape::Mark { at, severity, .. } => vec![mark(*at, *severity, size)],
        Shape::Label { .. } => Vec::new(),
    };
    parts.extend(writing(shape, size));
    parts
}

/// A length in a drawing (m), to a hundredth of a millimeter: no screen shows more.
fn meters(length: f64) -> String {
    (libm::round(length * 1e5) / 1e5).to_string()
}

fn line(name: &'static str, points: &[Point]) -> Part {
    let mut text = String::new();
    for point in points {
        text = text + &meters(point.x) + "," + &meters(-point.y) + " ";
    }
    text.pop();
    Part::new(name, [("points", text)])
}

fn arrow(from: Point, to: Point, size: f64) -> Vec<Part> {
    let (long, wide) = (HEAD * size, 0.35 * HEAD * size);
    let head = [to, beside(from, to, -long, wide), beside(from, to, -long, -wide)];
    vec![line("polyline", &[from, to]), line("polygon", &head)]
}

/// A line with a tick at each end.
fn dimension(from: Point, to: Point, size: f64) -> Vec<Part> {
    let tick = |from, to| {
        let tick = 0.3 * size;
        let ends = [(tick, tick), (-tick, -tick)];
        line("polyline", &ends.map(|(along, across)| beside(from, to, along, across)))
    };
    vec![line("polyline", &[from, to]), tick(from, to), tick(to, from)]
}

/// The shape of a finding's severity where it occurs; its number is written into it.
fn mark(at: Point, severity: Severity, size: f64) -> Part {
    let side = 2.0 * MARK_RADIUS * size;
    let (x, y) = (meters(at.x - 0.5 * side), meters(-at.y - 0.5 * side));
    let place = format!("translate({x} {y}) scale({})", side / 16.0);
    Part { mark: Some(severity), ..Part::new("g", [("transform", place)]) }
}

/// The text of a shape, where the drawing keeps room for it.
fn writing(shape: &Shape, size: f64) -> Option<Part> {
    let (place, text) = (shape.text_place(size)?, shape.text()?);
    let anchor = match place.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let (x, y) = (meters(place.at.x), meters(-place.at.y));
    let mut written = Part::new("text", [("text-anchor", anchor.to_owned())]);
    if place.degrees != 0.0 {
        let turned = format!("rotate({} {x} {y})", -place.degrees);
        written.attributes.push(("transform", turned));
    }
    written.attributes.extend([("x", x), ("y", y)]);
    written.text.push_str(text);
    Some(written)
}
