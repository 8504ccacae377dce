//! The plan of a course as strokes and texts, so that the page carries neither what lays bricks nor
//! what draws them.

use super::wire::{Texts, Wire, read};
use crate::courses::Plans;
use crate::drawing::course::course;
use crate::drawing::{Anchor, Drawing, Item, Point, Role, Shape};
use crate::units::System;
use crate::words::courses as said;

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

    /// The plan of a course; none where there is no such course.
    pub fn new(plans: &Plans, at: usize, system: System) -> Option<Self> {
        let drawing = course(plans, at, system, 1.0)?;
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

    #[test]
    fn a_plan_survives_its_way() {
        let design = Design::demonstration();
        let plans = plans(&design, Bricks::of(&design));
        for at in 0..plans.courses.len() {
            let told = DrawnCourse::new(&plans, at, System::Us).unwrap();
            assert_eq!(DrawnCourse::read(&write(&told)), Some(told));
        }
        assert_eq!(DrawnCourse::new(&plans, plans.courses.len(), System::Us), None);
    }
}
