//! A drawing in the making: adds items, keeps texts apart, finds the bounds.

use super::section::text_size;
use super::{Anchor, Drawing, Extent, Grip, Item, Point, Reach, Role, Shape, point};
use crate::design::Design;
use crate::rules::Place;

/// Thinner is not drawn (m).
const THIN: f64 = 1e-6;
/// Places tried for a text before it is written where it stands.
const TRIES: u32 = 200;
/// Air around a text, over the text size (–).
const AIR: f64 = 0.08;
/// How far the paper under a mark reaches beyond it, over the text size (–).
const HALO: f64 = 0.1;

/// A text that may be moved.
pub(super) struct Note {
    /// Where the text should stand.
    pub at: Point,
    /// What it says.
    pub text: String,
    /// Which part of the text stands there.
    pub anchor: Anchor,
    /// Its role.
    pub role: Role,
    /// The part of the heater to which it belongs.
    pub place: Option<Place>,
    /// Where a leader line begins, when one is wanted.
    pub leader: Option<Point>,
    /// By how much to move it until it is free.
    pub step: Point,
}

/// How large texts are, and how far what is long is drawn.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    text: f64,
    pub reach: Reach,
}

impl Scale {
    /// To be measured.
    pub(super) const TO_MEASURE: Self = Self { text: 1.0, reach: Reach::True };

    /// To be looked at, with texts enlarged by a factor.
    pub(super) const fn shown(text: f64) -> Self {
        Self { text, reach: Reach::Shortened }
    }
}

/// A drawing in the making.
pub(super) struct Sheet {
    items: Vec<Item>,
    texts: Vec<Extent>,
    strokes: Vec<[Point; 2]>,
    pub grips: Vec<Grip>,
    pub key: Vec<(Role, String)>,
    pub text_size: f64,
    pub reach: Reach,
}

impl Sheet {
    /// An empty sheet for a design.
    pub(super) fn of(design: &Design, scale: Scale) -> Self {
        Self { reach: scale.reach, ..Self::new(scale.text * text_size(design)) }
    }

    pub(super) fn new(text_size: f64) -> Self {
        Self {
            items: Vec::new(),
            texts: Vec::new(),
            strokes: Vec::new(),
            grips: Vec::new(),
            key: Vec::new(),
            text_size,
            reach: Reach::Shortened,
        }
    }

    pub(super) fn add(&mut self, role: Role, place: Option<Place>, shape: Shape) {
        let item = Item { role, shape, place };
        self.texts.extend(item.shape.text_extent(self.text_size));
        self.strokes.extend(item.strokes());
        self.items.push(item);
    }

    /// Adds a rectangle unless it is too thin to be seen.
    pub(super) fn rectangle(&mut self, role: Role, place: Option<Place>, extent: Extent) {
        let (width, height) = (extent.width(), extent.height());
        if width > THIN && height > THIN {
            let corner = extent.low;
            self.add(role, place, Shape::Rectangle { corner, width, height });
        }
    }

    pub(super) fn line(&mut self, role: Role, points: Vec<Point>) {
        self.add(role, None, Shape::Line { points });
    }

    /// Adds an arrow that stands out from the gas under it.
    pub(super) fn arrow(&mut self, place: Option<Place>, from: Point, to: Point) {
        if (to.x - from.x).abs() + (to.y - from.y).abs() > THIN {
            self.add(Role::Halo, None, Shape::Arrow { from, to });
            self.add(Role::Flow, place, Shape::Arrow { from, to });
        }
    }

    /// Adds a dimension line, moved outward until it is free; where it ends.
    pub(super) fn dimension(
        &mut self,
        from: Point,
        to: Point,
        text: &str,
        step: Point,
    ) -> Point {
        let at = |share: f64| {
            let from = point(from.x + share * step.x, from.y + share * step.y);
            let to = point(to.x + share * step.x, to.y + share * step.y);
            (Shape::Dimension { from, to, text: text.into() }, Some([from, to]))
        };
        let (shape, line) = self.free(at);
        self.add(Role::Dimension, None, shape);
        line.map_or(to, |[_, end]| end)
    }

    /// Adds a text, moved until it is free, with its leader line.
    pub(super) fn note(&mut self, note: Note) {
        let Note { at, text, anchor, role, place, leader, step } = note;
        let (shape, line) = self.free(|share| {
            let at = point(at.x + share * step.x, at.y + share * step.y);
            let shape = Shape::Label { at, text: text.clone(), anchor };
            let extent = shape.text_extent(self.text_size);
            let line = leader.zip(extent).map(|(from, text)| [from, nearest(text, from)]);
            (shape, line)
        });
        if let Some([from, to]) = line {
            self.line(Role::QuietLabel, vec![from, to]);
        }
        self.add(role, place, shape);
    }

    /// Adds a text on paper, in the middle of a space.
    pub(super) fn written(&mut self, place: Place, space: Extent, text: String) {
        let at = space.middle();
        let at = point(at.x, at.y - 0.3 * self.text_size);
        let shape = Shape::Label { at, text, anchor: Anchor::Middle };
        if let Some(extent) = shape.text_extent(self.text_size) {
            self.rectangle(Role::Halo, None, extent.grown(HALO * self.text_size));
        }
        self.add(Role::Label, Some(place), shape);
    }

    /// Adds the first of some marks, each with its line, that is free, on paper; the very first where
    /// none is.
    pub(super) fn mark(
        &mut self,
        place: Place,
        marks: &(impl Iterator<Item = (Shape, Option<[Point; 2]>)> + Clone),
    ) {
        let free = marks.clone().find(|(shape, line)| self.is_free(shape, *line));
        let Some((shape, line)) = free.or_else(|| marks.clone().next()) else { return };
        if let Some([from, to]) = line {
            self.line(Role::QuietLabel, vec![from, to]);
        }
        if let Some(extent) = shape.text_extent(self.text_size) {
            self.rectangle(Role::Halo, None, extent.grown(HALO * self.text_size));
        }
        self.add(Role::Warning, Some(place), shape);
    }

    /// The first of a row of shapes, each with its line, that touches no other: no text lies on a
    /// text, no line on a text. A mark may lie on lines.
    fn free(
        &self,
        shape: impl Fn(f64) -> (Shape, Option<[Point; 2]>),
    ) -> (Shape, Option<[Point; 2]>) {
        (0..TRIES)
            .map(|tried| shape(f64::from(tried)))
            .find(|(shape, line)| self.is_free(shape, *line))
            .unwrap_or_else(|| shape(0.0))
    }

    /// Whether a shape with its line touches no other.
    fn is_free(&self, shape: &Shape, line: Option<[Point; 2]>) -> bool {
        let extent = shape.text_extent(self.text_size);
        let apart = extent.is_none_or(|extent| {
            let extent = extent.grown(AIR * self.text_size);
            let is_mark = matches!(shape, Shape::Mark { .. });
            let on_line = || self.strokes.iter().any(|line| extent.is_crossed_by(*line));
            !self.texts.iter().any(|other| other.overlaps(&extent)) && (is_mark || !on_line())
        });
        let over_text = |line| self.texts.iter().any(|text: &Extent| text.is_crossed_by(line));
        apart && !line.is_some_and(over_text)
    }

    /// Adds a text where there is room for it.
    pub(super) fn add_if_free(&mut self, role: Role, shape: Shape) {
        if self.is_free(&shape, None) {
            self.add(role, None, shape);
        }
    }

    pub(super) fn finish(self, description: String) -> Drawing {
        let size = self.text_size;
        let bounds = self
            .items
            .iter()
            .map(|item| item.shape.extent(size))
            .reduce(Extent::join)
            .unwrap_or(Extent::new(0.0, 0.0, 1.0, 1.0))
            .grown(0.5 * size);
        // From the top down.
        let mut grips: Vec<Grip> = Vec::new();
        for grip in self.grips {
            let place = grips.partition_point(|other| grip.at.y <= other.at.y);
            grips.insert(place, grip);
        }
        Drawing {
            items: self.items,
            grips,
            key: self.key,
            low: bounds.low,
            high: bounds.high,
            text_size: size,
            description,
        }
    }
}

/// The place on that edge of a text which faces a point.
fn nearest(text: Extent, from: Point) -> Point {
    let middle = text.middle();
    if from.x < text.low.x {
        point(text.low.x, middle.y)
    } else if from.x > text.high.x {
        point(text.high.x, middle.y)
    } else if from.y < middle.y {
        point(from.x, text.low.y)
    } else {
        point(from.x, text.high.y)
    }
}
