//! Every brick for CAD: a layer for each course, each piece where it lies, as high as it is.

use super::{Layer, Pen, layer, unit};
use crate::courses::lattice::{Rect, meters};
use crate::courses::{Course, Part, Plans};
use crate::drawing::{Anchor, Extent, Point, TextPlace};
use crate::units::System;
use crate::words::courses as said;

/// Size of the heading of a course, over the longer side of the masonry (–).
const TEXT: f64 = 0.02;
/// Half of the side of a tie (m): drawn, not designed.
const TIE: f64 = 0.012;
/// Layer of what must stay clear for the gas.
const SPACES: Layer<'static> = layer("SPACES", 8);

/// A file with all courses in place, every length as it is: x to the right, y to the back, z up from
/// the floor of the firebox.
pub fn courses(plans: &Plans, system: System) -> String {
    let unit = unit(system);
    let bounds = plans.courses.iter().filter_map(|course| course.region.bounds());
    let whole = bounds.reduce(Rect::join).map_or(Extent::new(0.0, 0.0, 1.0, 1.0), extent);
    let names: Vec<String> = plans
        .courses
        .iter()
        .zip(1_usize..)
        .map(|(course, number)| name(course, number))
        .collect();
    let mut file = Pen { text: String::new(), unit: unit.per_meter, right: 0.0 };
    file.header(&unit, whole);
    let layers = plans.courses.iter().zip(&names);
    let layers = layers.map(|(course, name)| Layer { name, ..layer("", color(course.part)) });
    file.tables(std::iter::once(SPACES).chain(layers).collect());
    file.pair(0, "SECTION");
    file.pair(2, "ENTITIES");
    for clear in &plans.clear {
        let (bottom, top) = (meters(clear.bottom), meters(clear.top));
        file.upright(SPACES.name, extent(clear.rect), (bottom, top));
    }
    let size = TEXT * whole.width().max(whole.height());
    for (course, name) in plans.courses.iter().zip(&names) {
        file.course(course, name);
        let at = Point { x: whole.low.x, y: whole.high.y + size };
        let place = TextPlace { at, anchor: Anchor::Start, degrees: 0.0 };
        file.write(name, place, &said::title(plans, course, system), size);
    }
    file.pair(0, "ENDSEC");
    file.pair(0, "EOF");
    file.text
}

/// Name of the layer of a course by its number among all of them.
fn name(course: &Course, number: usize) -> String {
    let part = match course.part {
        Part::Firebox => "FIREBOX",
        Part::Fill => "FILL",
        Part::Runs => "RUNS",
        Part::Facing => "FACING",
        Part::Cap => "CAP",
    };
    format!("COURSE_{number:03}_{part}_{}", course.number)
}

const fn color(part: Part) -> u8 {
    match part {
        Part::Firebox => 30,
        Part::Fill => 33,
        Part::Runs => 40,
        Part::Facing => 32,
        Part::Cap => 7,
    }
}

fn extent(rect: Rect) -> Extent {
    let [left, front, right, back] = [rect.left, rect.front, rect.right, rect.back].map(meters);
    Extent::new(left, front, right, back)
}

impl Pen {
    fn course(&mut self, course: &Course, layer: &str) {
        let heights = (meters(course.bottom + course.bed), meters(course.top()));
        for piece in &course.pieces {
            self.upright(layer, extent(piece.rect), heights);
            for hole in &piece.holes {
                self.upright(layer, extent(*hole), heights);
            }
        }
        let bed = meters(course.bottom);
        for (x, y) in &course.ties {
            let (x, y) = (meters(*x), meters(*y));
            self.upright(layer, Extent::new(x, y, x, y).grown(TIE), (bed, heights.0));
        }
    }

    /// An upright block: its plan as a closed polyline at its bottom, as thick as it is high.
    fn upright(&mut self, layer: &str, plan: Extent, (bottom, top): (f64, f64)) {
        self.pair(0, "POLYLINE");
        self.pair(8, layer);
        self.pair(66, 1);
        self.number(10, 0.0);
        self.number(20, 0.0);
        self.length(30, bottom);
        self.length(39, top - bottom);
        self.pair(70, 1);
        let Extent { low, high } = plan;
        for (x, y) in [(low.x, low.y), (high.x, low.y), (high.x, high.y), (low.x, high.y)] {
            self.pair(0, "VERTEX");
            self.pair(8, layer);
            self.length(10, x);
            self.length(20, y);
            self.length(30, bottom);
        }
        self.pair(0, "SEQEND");
        self.pair(8, layer);
    }
}
