//! Pictures as data: shapes in meters with a role each, and the temperature plot.
//!
//! Nothing here knows a canvas, a document or a color: the page turns roles into looks. Items
//! stand in the order in which they are painted.

pub mod course;
pub mod day;
pub mod front;
pub mod gallery;
pub mod path;
pub mod plan;
pub mod plot;
pub mod section;
mod sheet;
mod small;
pub mod variants;
mod walls;

#[cfg(test)]
mod tests;

use crate::design::field::FieldId;
use crate::rules::{Place, Severity};
use crate::units::kelvin;

/// Text size of a drawing that is 8 m high (m). Each drawing states its own, larger or smaller in
/// proportion, in [`Drawing::text_size`].
pub const TEXT_SIZE: f64 = 0.12;

/// Width of a character over the text size, as assumed for keeping labels apart (–).
pub const CHARACTER_WIDTH: f64 = 0.6;

/// How far a text reaches above its baseline, over the text size (–).
const ASCENT: f64 = 0.8;
/// How far a text reaches below its baseline, over the text size (–).
const DESCENT: f64 = 0.25;
/// From a dimension line to the baseline of its text, over the text size (–).
const DIMENSION_OFFSET: f64 = 0.3;
/// What the text of a dimension keeps free of its far end, where a grip may be, over the text size
/// (–).
const GRIP_AIR: f64 = 0.6;
/// Half of the side of a mark, over the text size (–).
pub const MARK_RADIUS: f64 = 0.72;

/// Outline of the mark of a finding, on a square of 16 units, y down, with room for a number.
pub const fn mark_outline(severity: Severity) -> &'static str {
    match severity {
        Severity::GoodToKnow => "M8 1a7 7 0 1 0 .01 0Z",
        Severity::LookAgain => "M8 .4 15.8 14.6H.2Z",
        Severity::DoNotBuild => "M5.2 1.2H10.8L14.8 5.2V10.8L10.8 14.8H5.2L1.2 10.8V5.2Z",
    }
}

/// A point (m), y up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// To the right (m).
    pub x: f64,
    /// Up (m).
    pub y: f64,
}

/// Which part of a text its point marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// Form of an item.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// Rectangle along the axes.
    Rectangle {
        /// Lower left corner.
        corner: Point,
        /// To the right (m).
        width: f64,
        /// Up (m).
        height: f64,
    },
    /// Polyline.
    Line {
        /// Its corners.
        points: Vec<Point>,
    },
    /// Arrow.
    Arrow {
        /// Its tail.
        from: Point,
        /// Its tip.
        to: Point,
    },
    /// Horizontal text.
    Label {
        /// On the baseline.
        at: Point,
        /// What it says.
        text: String,
        /// Which part of the text stands at the point.
        anchor: Anchor,
    },
    /// Dimension line with ticks at its ends; for its text see [`Shape::text_place`].
    Dimension {
        /// One end.
        from: Point,
        /// Other end.
        to: Point,
        /// Figure with unit.
        text: String,
    },
    /// Mark of a finding.
    Mark {
        /// Its center.
        at: Point,
        /// How much the finding weighs.
        severity: Severity,
        /// Number of the finding in the list, from 1.
        text: String,
    },
}

/// Where and how the text of a shape is written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TextPlace {
    /// On the baseline.
    pub at: Point,
    /// Which part of the text stands at the point.
    pub anchor: Anchor,
    /// Degrees, counterclockwise: 0, or 90 for a text that reads upward.
    pub degrees: f64,
}

/// What an item stands for, by which the page gives it a look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Core masonry, firebox walls and flue wall.
    Core,
    /// Facing masonry.
    Facing,
    /// Mineral wool.
    Insulation,
    /// Cap slab and support slab.
    Slab,
    /// Baffle between two runs.
    Baffle,
    /// Space without masonry.
    Void,
    /// Gas, by its step on the temperature scale (0 to 11).
    Gas(u8),
    /// Direction of the gas.
    Flow,
    /// Loading door.
    Door,
    /// Outline of the masonry.
    Outline,
    /// Ground under the floor.
    Ground,
    /// Floor, ceiling, roof.
    House,
    /// What can burn.
    Combustible,
    /// Dimension.
    Dimension,
    /// Text that matters.
    Label,
    /// Text that stays in the background, and leader lines.
    QuietLabel,
    /// Mark of a finding.
    Warning,
    /// Glass of the door.
    Glass,
    /// Cleanout.
    Cleanout,
    /// Way of the gas that is drawn schematically.
    Passage,
    /// Damper.
    Damper,
    /// Opening through which the fire takes its air.
    Inlet,
    /// Ruler of brick courses.
    Course,
    /// A brick of the core, or a cast piece.
    Brick,
    /// A brick or a stone of the facing.
    FacingBrick,
    /// What carries courses over an opening.
    Lintel,
    /// Paper under what must stand out from hot gas: lines wider than their own, rectangles filled.
    Halo,
}

/// A shape with its role.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// What it stands for.
    pub role: Role,
    /// Its form.
    pub shape: Shape,
    /// The part of the heater to which it belongs.
    pub place: Option<Place>,
}

impl Item {
    /// The lines of an item that a text must not cross.
    pub(crate) fn strokes(&self) -> Vec<[Point; 2]> {
        match (&self.shape, self.role) {
            (_, Role::Halo) => Vec::new(),
            (Shape::Line { points }, _) => {
                points.iter().zip(points.iter().skip(1)).map(|(a, b)| [*a, *b]).collect()
            }
            (Shape::Arrow { from, to } | Shape::Dimension { from, to, .. }, _) => {
                vec![[*from, *to]]
            }
            (Shape::Rectangle { corner, width, height }, Role::House) => {
                let level = |y: f64| [point(corner.x, y), point(corner.x + width, y)];
                vec![level(corner.y), level(corner.y + height)]
            }
            _ => Vec::new(),
        }
    }
}

/// Direction in which a grip moves.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Axis {
    /// Left and right.
    Across,
    /// Up and down.
    Up,
}

/// A place by which an input is changed in the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grip {
    /// The input.
    pub field: FieldId,
    /// Where it stands.
    pub at: Point,
    /// Direction in which it moves.
    pub axis: Axis,
    /// Change of the input (SI) as it moves by one drawn meter to the right or up.
    pub per_meter: f64,
}

/// How far what is long is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// A picture, in which a high chimney has breaks and a far wall stands nearer.
    Shortened,
    /// Every length as it is, to be measured.
    True,
}

/// A picture.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// Items in the order in which they are painted.
    pub items: Vec<Item>,
    /// By what it is changed, from top to bottom.
    pub grips: Vec<Grip>,
    /// What its hatchings and signs mean, with sizes.
    pub key: Vec<(Role, String)>,
    /// Lower left corner, texts included.
    pub low: Point,
    /// Upper right corner, texts included.
    pub high: Point,
    /// Text size (m).
    pub text_size: f64,
    /// The picture in words.
    pub description: String,
}

/// A rectangle along the axes by two corners.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Lower left corner.
    pub low: Point,
    /// Upper right corner.
    pub high: Point,
}

pub(crate) const fn point(x: f64, y: f64) -> Point {
    Point { x, y }
}

/// A point near `to`, seen along the line from `from`: so far onward and to the left (m).
pub fn beside(from: Point, to: Point, along: f64, across: f64) -> Point {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = (dx * dx + dy * dy).sqrt().max(f64::MIN_POSITIVE);
    let (dx, dy) = (dx / length, dy / length);
    point(to.x + along * dx - across * dy, to.y + along * dy + across * dx)
}

impl Extent {
    pub(crate) const fn new(left: f64, bottom: f64, right: f64, top: f64) -> Self {
        Self { low: point(left, bottom), high: point(right, top) }
    }

    fn around(a: Point, b: Point) -> Self {
        Self::new(a.x.min(b.x), a.y.min(b.y), a.x.max(b.x), a.y.max(b.y))
    }

    pub(crate) fn join(self, other: Self) -> Self {
        Self::new(
            self.low.x.min(other.low.x),
            self.low.y.min(other.low.y),
            self.high.x.max(other.high.x),
            self.high.y.max(other.high.y),
        )
    }

    pub(crate) fn grown(self, by: f64) -> Self {
        Self::new(self.low.x - by, self.low.y - by, self.high.x + by, self.high.y + by)
    }

    /// Width (m).
    pub fn width(&self) -> f64 {
        self.high.x - self.low.x
    }

    /// Height (m).
    pub fn height(&self) -> f64 {
        self.high.y - self.low.y
    }

    /// Middle.
    pub fn middle(&self) -> Point {
        point(0.5 * (self.low.x + self.high.x), 0.5 * (self.low.y + self.high.y))
    }

    /// Whether a line passes through more than an edge.
    pub fn is_crossed_by(&self, [from, to]: [Point; 2]) -> bool {
        // The share of the line that lies between both pairs of edges.
        let axes = [
            (from.x, to.x - from.x, self.low.x, self.high.x),
            (from.y, to.y - from.y, self.low.y, self.high.y),
        ];
        let (mut first, mut last) = (0.0_f64, 1.0_f64);
        for (start, step, low, high) in axes {
            if step.abs() < f64::MIN_POSITIVE {
                if start <= low || high <= start {
                    return false;
                }
            } else {
                let (a, b) = ((low - start) / step, (high - start) / step);
                first = first.max(a.min(b));
                last = last.min(a.max(b));
            }
        }
        first < last
    }

    /// Whether two have more than an edge in common.
    pub fn overlaps(&self, other: &Self) -> bool {
        self.low.x < other.high.x
            && other.low.x < self.high.x
            && self.low.y < other.high.y
            && other.low.y < self.high.y
    }
}

impl Shape {
    /// The text of a shape that has one.
    pub fn text(&self) -> Option<&str> {
        match self {
            Self::Label { text, .. }
            | Self::Dimension { text, .. }
            | Self::Mark { text, .. } => Some(text),
            Self::Rectangle { .. } | Self::Line { .. } | Self::Arrow { .. } => None,
        }
    }

    /// Where the text of a shape is written: beside the middle of a dimension line, or as far back
    /// from there as keeps its far end free, above it when the line is level, to its left and
    /// reading upward when it is upright.
    pub fn text_place(&self, text_size: f64) -> Option<TextPlace> {
        let level = |at, anchor| TextPlace { at, anchor, degrees: 0.0 };
        match self {
            Self::Label { at, anchor, .. } => Some(level(*at, *anchor)),
            Self::Mark { at, .. } => {
                let drop = 0.5 * (ASCENT - DESCENT) * text_size;
                Some(level(point(at.x, at.y - drop), Anchor::Middle))
            }
            Self::Dimension { from, to, text } => {
                let middle = Extent::around(*from, *to).middle();
                let offset = DIMENSION_OFFSET * text_size;
                let long = text_length(text, text_size);
                let back = |line: f64| {
                    let over = 0.5 * (long - line) + GRIP_AIR * text_size;
                    over.max(0.0)
                };
                if (to.y - from.y).abs() <= (to.x - from.x).abs() {
                    let x = middle.x - back(to.x - from.x);
                    return Some(level(point(x, middle.y + offset), Anchor::Middle));
                }
                Some(TextPlace {
                    at: point(middle.x - offset, middle.y - back(to.y - from.y)),
                    anchor: Anchor::Middle,
                    degrees: 90.0,
                })
            }
            Self::Rectangle { .. } | Self::Line { .. } | Self::Arrow { .. } => None,
        }
    }

    /// The space that the text of a shape takes, for a mark the mark.
    pub fn text_extent(&self, text_size: f64) -> Option<Extent> {
        let place = self.text_place(text_size)?;
        if let Self::Mark { at, .. } = self {
            return Some(Extent::around(*at, *at).grown(MARK_RADIUS * text_size));
        }
        let length = text_length(self.text()?, text_size);
        let before = match place.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => 0.5 * length,
            Anchor::End => length,
        };
        let (up, down) = (ASCENT * text_size, DESCENT * text_size);
        let Point { x, y } = place.at;
        Some(if place.degrees > 0.0 {
            Extent::new(x - up, y - before, x + down, y - before + length)
        } else {
            Extent::new(x - before, y - down, x - before + length, y + up)
        })
    }

    /// The space that a shape takes, its text included.
    pub fn extent(&self, text_size: f64) -> Extent {
        let drawn = match self {
            Self::Rectangle { corner, width, height } => {
                Extent::around(*corner, point(corner.x + width, corner.y + height))
            }
            Self::Line { points } => {
                let first = points.first().copied().unwrap_or(point(0.0, 0.0));
                points.iter().fold(Extent::around(first, first), |extent, each| {
                    extent.join(Extent::around(*each, *each))
                })
            }
            Self::Arrow { from, to } | Self::Dimension { from, to, .. } => {
                Extent::around(*from, *to)
            }
            Self::Label { at, .. } | Self::Mark { at, .. } => Extent::around(*at, *at),
        };
        self.text_extent(text_size).map_or(drawn, |text| drawn.join(text))
    }
}

#[expect(clippy::cast_precision_loss, reason = "a text is short")]
pub(crate) fn text_length(text: &str, text_size: f64) -> f64 {
    CHARACTER_WIDTH * text_size * text.chars().count() as f64
}

/// Steps of the temperature scale.
const STEPS: u8 = 12;

/// Lower end of a step (K): 50 °C + 850 K (step/12)^1.5, finer where chimneys work.
fn step_start(step: u8) -> f64 {
    let share = f64::from(step) / f64::from(STEPS);
    kelvin(50.0 + 850.0 * share * share.sqrt())
}

/// The step of the temperature scale on which a gas temperature (K) falls, 0 to 11. Twelve steps
/// from 50 °C to 900 °C, narrow when cool and wide when hot: 50, 70, 108, 156, 214, 279, 351,
/// 429, 513, 602, 697 and 796 °C; what lies beyond takes the first or the last.
pub fn heat_step(kelvin: f64) -> u8 {
    (1..STEPS).rfind(|step| step_start(*step) <= kelvin).unwrap_or(0)
}

/// All steps with the temperature where each begins (K), for a legend.
pub fn heat_scale() -> Vec<(u8, f64)> {
    (0..STEPS).map(|step| (step, step_start(step))).collect()
}
