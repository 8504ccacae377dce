//! Drawings as SVG: shapes become elements, roles become classes; the style sheet has the look.

use super::answers::unit_name;
use super::dom::{Tag, svg, tag, watch};
use super::grips;
use super::parts;
use super::plot::watch_size;
use super::shapes::{self, Shapes};
use super::signal::{Memo, RwSignal};
use super::texts;
use super::workspace::{Shown, Workspace};
use leptos::leptos_dom::helpers::document;
use longsmoke::analysis::analyze;
use longsmoke::design::Design;
use longsmoke::design::field::FieldId;
use longsmoke::drawing::section::section;
use longsmoke::drawing::{Drawing, Item, Point, Role, Shape, heat_scale, heat_step};
use longsmoke::units::{Quantity, System, float, number};
use web_sys::{Element, Event};

/// Margin around a drawing over the size of texts.
const MARGIN: f64 = 0.1;

/// Least size of texts on the screen over that of the page's (–).
const LEAST_TEXT: f64 = 0.72;
/// Most by which texts are enlarged (–): beyond, they would leave no room for what they name.
const MOST_SCALE: f64 = 2.4;

/// Half of the width of a grip's knob (px), its border included.
const HALF_KNOB: f64 = 11.0;
/// Scale of a drawing without room (px/m).
const UNPLACED: f64 = 1e-3;

/// Draws what is shown, with texts enlarged by a factor.
type Paint = fn(&Shown, System, f64) -> Drawing;

/// Class of a gas temperature (K).
pub fn heat_class(temperature: f64) -> String {
    format!("gas-{}", heat_step(temperature))
}

/// When a drawing follows the design.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pace {
    /// At once.
    Live,
    /// Once the design has rested, unless it is held by a grip of its own.
    Rested,
}

/// A drawing of the page.
#[derive(Clone, Copy)]
pub struct Sketch {
    /// Its name in tests and styles.
    pub name: &'static str,
    pub paint: Paint,
    /// By which decisions it is changed, in the order in which they are reached by keyboard.
    pub grips: &'static [FieldId],
    pub pace: Pace,
}

/// A drawing with the part of it that is shown, and how large.
#[derive(Clone, Debug, PartialEq)]
pub struct Picture {
    pub drawing: Drawing,
    /// Upper left corner of what is shown (m), y up.
    corner: Point,
    /// Width and height of what is shown (m).
    size: (f64, f64),
    /// Pixels per meter.
    pub scale: f64,
    /// From the corner of the element to that of what is shown (px).
    inset: (f64, f64),
    text_scale: f64,
}

impl Picture {
    fn new(drawing: Drawing, room: Room, text_scale: f64) -> Self {
        let margin = MARGIN * drawing.text_size;
        let corner = Point { x: drawing.low.x - margin, y: drawing.high.y + margin };
        let size = size(&drawing);
        let scale = room.scale(size);
        // Its height follows, unless that is limited.
        let inset = (0.5 * (room.width - scale * size.0), 0.0);
        Self { drawing, corner, size, scale: scale.max(UNPLACED), inset, text_scale }
    }

    /// The same view with texts of the same size, of what is painted now.
    fn with(&self, paint: impl Fn(f64) -> Drawing) -> Self {
        let size = self.drawing.text_size;
        let mut drawing = paint(self.text_scale);
        if (drawing.text_size / size - 1.0).abs() > 1e-9 {
            drawing = paint(self.text_scale * size / drawing.text_size);
        }
        Self { drawing, ..self.clone() }
    }

    /// Where a point is shown (px), right and down from the corner of the element.
    fn place(&self, at: Point) -> (f64, f64) {
        let right = self.inset.0 + self.scale * (at.x - self.corner.x);
        (right, self.inset.1 + self.scale * (self.corner.y - at.y))
    }

    /// Where the grip of a point stands (px): there, but not beyond the sides of the drawing.
    pub fn grip_place(&self, at: Point) -> (f64, f64) {
        let (right, down) = self.place(at);
        let most = 2.0 * self.inset.0 + self.scale * self.size.0 - HALF_KNOB;
        (right.min(most).max(HALF_KNOB), down)
    }

    /// Whether it knows its room on the screen.
    pub fn is_placed(&self) -> bool {
        self.scale > UNPLACED
    }

    /// Whether a point is in the right half of what is shown.
    pub fn is_late(&self, at: Point) -> bool {
        at.x > self.corner.x + 0.5 * self.size.0
    }

    fn view_box(&self) -> String {
        let Self { corner, size: (width, height), .. } = self;
        format!("{} {} {width} {height}", corner.x, -corner.y)
    }
}

/// A drawing, to scale, with its grips.
pub fn sketch(workspace: Workspace, sketch: Sketch) -> Tag {
    let Sketch { name, paint, grips, pace } = sketch;
    let items = svg("g");
    let drawn = svg("svg")
        .class(&format!("sketch {name}"))
        .attr("data-testid", name)
        .attr("role", "img")
        .child(hatches(name))
        .child(items.clone());
    let room = RwSignal::new(Room::default());
    let measured = drawn.element().clone();
    watch_size(drawn.element(), move || {
        let now = Room::of(&measured).unwrap_or_default();
        if room.get_untracked() != now {
            room.set(now);
        }
    });
    let held = RwSignal::new(false);
    let picture = Memo::new(move |last: Option<&Option<Picture>>| {
        let last = last.and_then(Option::as_ref);
        let system = workspace.system.get();
        let shown = match pace {
            Pace::Rested if !held.get() => workspace.rested.get(),
            Pace::Rested | Pace::Live => workspace.shown.get(),
        };
        shown.map(|shown| {
            let paint = |scale| paint(&shown, system, scale);
            match last.filter(|_| held.get()) {
                // It stays where it is under the hand.
                Some(last) => last.with(paint),
                None => legible(room.get(), last.map_or(1.0, |last| last.text_scale), paint),
            }
        })
    });
    let shapes = Shapes::within(items);
    let whole = drawn.clone();
    watch(move || {
        picture.with(|picture| {
            if let Some(picture) = picture {
                fill(&whole, shapes, picture);
            }
        });
    });
    mark_meant(workspace, picture, shapes);
    let drawn = pointed(workspace, drawn, shapes);
    let sheet = tag("div").class("frame").child(drawn);
    let sheet = match grips {
        [] => sheet,
        fields => sheet.child(grips::grips(workspace, picture, held, fields)),
    };
    tag("div").class(&format!("{name}-frame")).child(sheet).child(key(picture, name))
}

/// Marks the part that is meant elsewhere.
fn mark_meant(workspace: Workspace, picture: Memo<Option<Picture>>, shapes: Shapes) {
    let mut last = None;
    watch(move || {
        let marked = workspace.marked.get();
        picture.track();
        if marked.is_some() || last.is_some() {
            shapes.mark(marked);
        }
        last = marked;
    });
}

/// A drawing whose parts are meant elsewhere when they are pointed at; a part is chosen by a press.
fn pointed(workspace: Workspace, drawn: Tag, shapes: Shapes) -> Tag {
    let point_out = move |event: Event| {
        let place = shapes.under(&event);
        if workspace.marked.get_untracked() != place {
            workspace.marked.set(place);
        }
    };
    let choose = move |event: Event| {
        if let Some(place) = shapes.under(&event) {
            parts::choose(workspace, place, &event);
        }
    };
    drawn
        .on("pointerover", point_out)
        .on("pointerleave", move |_| workspace.marked.set(None))
        .on("click", choose)
}

/// What the hatchings and signs of a drawing mean.
fn key(picture: Memo<Option<Picture>>, name: &'static str) -> Tag {
    let list = tag("ul").class("key");
    let filled = list.clone();
    let mut last = Vec::new();
    watch(move || {
        let key = picture.with(|picture| {
            let picture = picture.as_ref()?;
            (picture.drawing.key != last).then(|| picture.drawing.key.clone())
        });
        if let Some(key) = key {
            filled.element().set_text_content(None);
            let _ = filled.clone().children(key.iter().map(|entry| sign(entry, name)));
            last = key;
        }
    });
    list
}

/// A sign with its meaning.
fn sign((role, meaning): &(Role, String), name: &str) -> Tag {
    let corner = Point { x: 0.04, y: 0.04 };
    let shape = match role {
        Role::Damper => Shape::Line { points: vec![corner, Point { x: 0.36, y: 0.16 }] },
        Role::Course => {
            let comb = [(0.04, 0.16), (0.04, 0.04), (0.2, 0.04), (0.2, 0.1), (0.2, 0.04)];
            let ends = [(0.36, 0.04), (0.36, 0.16)];
            let points = comb.into_iter().chain(ends).map(|(x, y)| Point { x, y });
            Shape::Line { points: points.collect() }
        }
        _ => Shape::Rectangle { corner, width: 0.32, height: 0.12 },
    };
    let item = Item { role: *role, shape, place: None };
    let sample = svg("svg")
        .class(&format!("sketch {name}"))
        .attr("viewBox", "0 -0.2 0.4 0.2")
        .attr("aria-hidden", "true")
        .child(shapes::drawn(&item, 0.1));
    tag("li").child(sample).text(meaning)
}

/// Puts a picture on the page.
fn fill(whole: &Tag, shapes: Shapes, picture: &Picture) {
    let size = picture.drawing.text_size;
    let _ = whole
        .clone()
        .attr("aria-label", &picture.drawing.description)
        .attr("viewBox", &picture.view_box())
        .attr("font-size", &size.to_string());
    shapes.show(&picture.drawing.items, size);
}

/// Width and height with the margin around (m).
fn size(drawing: &Drawing) -> (f64, f64) {
    let margin = 2.0 * MARGIN * drawing.text_size;
    let (low, high) = (drawing.low, drawing.high);
    (high.x - low.x + margin, high.y - low.y + margin)
}

/// The room that a drawing has on the screen (px).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    pub width: f64,
    /// None where only the width limits it.
    pub height: Option<f64>,
    /// Least size of texts.
    pub text: f64,
}

impl Room {
    pub fn of(element: &Element) -> Option<Self> {
        let window = web_sys::window()?;
        let pixels = |element: &Element, property: &str| {
            let style = window.get_computed_style(element).ok()??;
            let text = style.get_property_value(property).ok()?;
            float(text.strip_suffix("px")?)
        };
        Some(Self {
            width: element.get_bounding_client_rect().width().round(),
            height: pixels(element, "max-height"),
            text: LEAST_TEXT * pixels(&document().document_element()?, "font-size")?,
        })
    }

    /// Pixels per meter of a drawing of a size (m).
    fn scale(&self, (width, height): (f64, f64)) -> f64 {
        (self.width / width).min(self.height.map_or(f64::MAX, |most| most / height))
    }
}

/// Paints with texts as large as it takes for them to be read; `scale` is what it took last time.
fn legible(room: Room, mut scale: f64, paint: impl Fn(f64) -> Drawing) -> Picture {
    let mut drawing = paint(scale);
    // A drawing grows with its texts, so that one step falls a little short.
    for _ in 0..16 {
        let shown = room.scale(size(&drawing)) * drawing.text_size;
        let wanted = (scale * room.text / shown.max(1.0)).clamp(1.0, MOST_SCALE);
        // Rather a little larger than too small.
        if room.width < 1.0 || (-0.03..0.01).contains(&(wanted / scale - 1.0)) {
            break;
        }
        scale = wanted;
        drawing = paint(wanted);
    }
    Picture::new(drawing, room, scale)
}

/// Sections of designs without a word in them, all to the same scale, each under its name; those that
/// cannot be analyzed are left out.
pub fn small<'a>(designs: impl Iterator<Item = &'a Design>) -> Vec<Tag> {
    let drawn = designs.filter_map(|design| {
        let analysis = analyze(design).ok()?;
        Some((design, section(design, &analysis, &[], System::Metric, 1.0)))
    });
    let drawn: Vec<(&Design, Drawing)> = drawn.collect();
    let most = |of: fn(&Drawing) -> f64| {
        drawn.iter().map(|(_, drawing)| of(drawing)).fold(0.0, f64::max)
    };
    let (left, below) = (most(|drawing| -drawing.low.x), most(|drawing| -drawing.low.y));
    let (right, above) = (most(|drawing| drawing.high.x), most(|drawing| drawing.high.y));
    let view = format!("{} {} {} {}", -left, -above, left + right, above + below);
    let is_built = |item: &&Item| {
        let of_words =
            [Role::Dimension, Role::Label, Role::QuietLabel, Role::Course, Role::Halo];
        !of_words.contains(&item.role) && item.shape.text().is_none()
    };
    let figure = |(design, drawing): &(&Design, Drawing)| {
        let size = drawing.text_size;
        let items = drawing.items.iter().filter(is_built);
        let drawn = svg("svg")
            .class("sketch section")
            .attr("viewBox", &view)
            .attr("role", "img")
            .attr("aria-label", &drawing.description)
            .children(items.map(|item| shapes::drawn(item, size)));
        tag("figure").child(tag("figcaption").text(&design.name)).child(drawn)
    };
    drawn.iter().map(figure).collect()
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
        .child(tag("span").text(texts::legend()).text(", ").live_text(unit))
        .child(steps)
}
