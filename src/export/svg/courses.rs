//! The plans of all courses in one file.

use super::{Frame, TEXT, element, root, size};
use crate::courses::Plans;
use crate::drawing::course::all;
use crate::export::decimal;
use crate::export::markup::Markup;
use crate::units::System;
use crate::words::courses as said;

/// Millimeters of the heater on one of the file.
const SCALE: f64 = 20.0;
/// From a plan to the line below it, and from line to line (mm).
const LINE: f64 = 4.0;

/// A file with the plans of all courses, one below the other, those alike together.
pub fn courses(plans: &Plans, system: System) -> String {
    let all = all(plans, system, 0.001 * SCALE * TEXT);
    let scale = 1000.0 / SCALE;
    let room = all.iter().map(|alike| size(&alike.drawing, scale));
    let (wide, high) = room.fold((0.0_f64, 0.0), |(wide, high), (width, height)| {
        (wide.max(width), high + height + 4.0 * LINE)
    });
    let mut markup = Markup::default();
    markup.raw("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    root(&mut markup, (wide, high), &[("role", "img"), ("aria-label", said::PLANS.said())]);
    let mut top = 0.0;
    for (alike, number) in all.iter().zip(1_usize..) {
        let plate = said::plate(plans, &alike.places, system);
        let id = format!("course-{number}");
        markup.open("g", &[("transform", &format!("translate(0 {})", decimal(top, 3)))]);
        element(&mut markup, &alike.drawing, Frame { id: &id, title: &plate.name, scale });
        top += size(&alike.drawing, scale).1;
        for (line, text) in (1_u8..).zip([&plate.name, &plate.places, &plate.takes]) {
            let y = decimal(size(&alike.drawing, scale).1 + LINE * f64::from(line) - 1.0, 3);
            let size = decimal(TEXT, 3);
            markup.element("text", &[("x", "1"), ("y", &y), ("font-size", &size)], text);
        }
        markup.close();
        top += 4.0 * LINE;
    }
    markup.finish() + "\n"
}
