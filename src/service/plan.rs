//! The plan of a course as strokes and texts, so that the page carries neither what lays bricks nor
//! what draws them.

use super::wire::{Texts, Wire, read};
use crate::courses::Plans;
use crate::drawing::course::course;
use crate::drawing::{Anchor, Drawing, Item, Point, Role, Shape};
use crate::units::System;
use crate::words::courses as said;

/// Most by which texts are enlarged (–): beyond, they would leave no room for what they name.
const MOST_SCALE: f64 = 3.0;

/// The room that a plan has on the screen (px).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Room {
    /// Its width.
    pub width: f64,
    /// The most of its height.
    pub height: f64,
    /// Least size of texts.
    pub text: f64,
}

impl Room {
    /// Size of the texts of a drawing in it (px).
    fn shown(&self, drawing: &Drawing) -> f64 {
        let (low, high) = (drawing.low, drawing.high);
        let scale = (self.width / (high.x - low.x)).min(self.height / (high.y - low.y));
        scale * drawing.text_size
    }
}

/// A course from above with the section at its height.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DrawnCourse {
    /// How many courses there are.
    pub count: usize,
    /// Which course it is, and where it lies.
    pub title: String,
    /// What it takes, and all courses up to it.
    pub counted: String,
    /// The picture in words.
    pub description: String,
    /// Left, top, width and height, y down.
    pub frame: Vec<f64>,
    /// Lines of a kind together, as the data of a path.
    pub strokes: Vec<(String, String)>,
    /// Texts of a kind, each with its place: x, y, anchor, degrees.
    pub texts: Vec<(String, (String, String))>,
    /// Size of the texts.
    pub text_size: f64,
}

impl DrawnCourse {
    /// Reads what was told.
    pub fn read(words: &str) -> Option<Self> {
        read(words)
    }

    /// The plan of a course for a room; none where there is no such course.
    pub fn new(plans: &Plans, at: usize, system: System, room: Room) -> Option<Self> {
        let drawing = legible(room, |scale| course(plans, at, system, scale))?;
        let laid = plans.courses.get(at)?;
        let (low, high) = (drawing.low, drawing.high);
        Some(Self {
            count: plans.courses.len(),
            title: said::title(plans, laid, system),
            counted: said::up_to(plans, at, system),
            frame: vec![low.x, -high.y, high.x - low.x, high.y - low.y],
            strokes: strokes(&drawing),
            texts: drawing.items.iter().filter_map(|item| text(item, &drawing)).collect(),
            text_size: drawing.text_size,
            description: drawing.description,
        })
    }
}

/// Draws with texts as large as it takes for them to be read.
fn legible(room: Room, draw: impl Fn(f64) -> Option<Drawing>) -> Option<Drawing> {
    let mut scale = 1.0;
    let mut drawing = draw(scale)?;
    // A drawing grows with its texts, so that one step falls a little short.
    for _ in 0..6 {
        let shown = room.shown(&drawing);
        let wanted = (scale * room.text / shown).clamp(1.0, MOST_SCALE);
        if !wanted.is_finite() || (wanted / scale - 1.0).abs() < 0.03 {
            break;
        }
        scale = wanted;
        drawing = draw(scale)?;
    }
    Some(drawing)
}

/// Roles in the order in which they are painted; a role that comes again begins anew.
fn strokes(drawing: &Drawing) -> Vec<(String, String)> {
    let mut strokes: Vec<(String, String)> = Vec::new();
    for item in &drawing.items {
        let line = line(&item.shape);
        let kind = kind(item.role);
        match strokes.last_mut() {
            _ if line.is_empty() => {}
            Some((last, path)) if *last == kind => path.push_str(&line),
            _ => strokes.push((kind, line)),
        }
    }
    strokes
}

fn kind(role: Role) -> String {
    format!("{role:?}").to_ascii_lowercase()
}

/// A tenth of a millimeter is enough.
fn figure(value: f64) -> String {
    let text = format!("{value:.4}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

fn line(shape: &Shape) -> String {
    let to = |at: &Point| format!("{} {}", figure(at.x), figure(-at.y));
    let along = |points: &[Point]| {
        let points: Vec<String> = points.iter().map(to).collect();
        if points.is_empty() { String::new() } else { format!("M{}", points.join("L")) }
    };
    match shape {
        Shape::Rectangle { corner, width, height } => {
            let (wide, high) = (figure(*width), figure(*height));
            format!("M{}h{wide}v-{high}h-{wide}z", to(corner))
        }
        Shape::Line { points } => along(points),
        Shape::Arrow { from, to } | Shape::Dimension { from, to, .. } => along(&[*from, *to]),
        Shape::Label { .. } | Shape::Mark { .. } => String::new(),
    }
}

fn text(item: &Item, drawing: &Drawing) -> Option<(String, (String, String))> {
    let place = item.shape.text_place(drawing.text_size)?;
    let anchor = match place.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let (x, y, degrees) = (figure(place.at.x), figure(-place.at.y), figure(-place.degrees));
    let told = format!("{x} {y} {anchor} {degrees}");
    Some((kind(item.role), (told, item.shape.text()?.to_owned())))
}

impl Wire for DrawnCourse {
    fn put(&self, texts: &mut Vec<String>) {
        texts.push(self.count.to_string());
        self.title.put(texts);
        self.counted.put(texts);
        self.description.put(texts);
        self.frame.put(texts);
        self.strokes.put(texts);
        self.texts.put(texts);
        self.text_size.put(texts);
    }

    fn take(texts: &mut Texts<'_>) -> Option<Self> {
        Some(Self {
            count: texts.parse()?,
            title: Wire::take(texts)?,
            counted: Wire::take(texts)?,
            description: Wire::take(texts)?,
            frame: Wire::take(texts)?,
            strokes: Wire::take(texts)?,
            texts: Wire::take(texts)?,
            text_size: Wire::take(texts)?,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::courses::brick::Bricks;
    use crate::courses::plans;
    use crate::design::Design;
    use crate::service::wire::write;

    /// On a phone as legible as the section: 0.72 of 16 px in 350 px, as far as texts have room.
    #[test]
    fn texts_of_a_plan_can_be_read_on_a_phone() {
        let design = Design::demonstration();
        let plans = plans(&design, Bricks::of(&design));
        let room = Room { width: 350.0, height: 675.0, text: 11.52 };
        for at in 0..plans.courses.len() {
            let told = DrawnCourse::new(&plans, at, System::Metric, room).unwrap();
            let [_, _, width, height] = told.frame[..] else { panic!("{:?}", told.frame) };
            let shown = told.text_size * (350.0 / width).min(675.0 / height);
            assert!(0.97 * 11.52 <= shown, "{at}: {shown}");
        }
    }

    #[test]
    fn a_plan_survives_its_way() {
        let design = Design::demonstration();
        let plans = plans(&design, Bricks::of(&design));
        for at in 0..plans.courses.len() {
            let told = DrawnCourse::new(&plans, at, System::Us, Room::default()).unwrap();
            assert_eq!(DrawnCourse::read(&write(&told)), Some(told));
        }
        let beyond = plans.courses.len();
        assert_eq!(DrawnCourse::new(&plans, beyond, System::Us, Room::default()), None);
    }
}
