//! Plans of the courses, several on a page, each with room to tick off what is laid.

use super::plates::{WIDTH, figure_of, key, scales};
use crate::courses::Plans;
use crate::drawing::Drawing;
use crate::drawing::course::{Alike, all, numbered, signs, size};
use crate::export::markup::Markup;
use crate::export::svg;
use crate::language::say;
use crate::units::System;
use crate::words::courses as said;

/// Size of texts in a plan (mm).
const TEXT: f64 = 2.0;
/// Between two plans side by side (mm).
const APART: f64 = 4.0;
/// Highest plan, and highest section of all courses (mm).
const HIGHEST: f64 = 100.0;
/// Least scale at which two plans side by side can be read: millimeters of the heater on one.
const SMALLEST: f64 = 41.0;

/// All courses in section with their numbers, then their plans.
pub(super) fn sheet(markup: &mut Markup, plans: &Plans, system: System) {
    let (fitted, abreast) = fitted(plans, system);
    let Some(fitted) = fitted else {
        return;
    };
    markup.element("p", &[], &said::HOW_TO_READ);
    let paint = |ratio: f64| numbered(plans, 0.001 * TEXT * ratio);
    if let Some((drawing, (ratio, name))) = scaled(&paint, (WIDTH, HIGHEST), system) {
        let title = say!("All courses with their numbers. Scale {name}.");
        figure_of(
            markup,
            &drawing,
            ("courses", said::PLANS.said()),
            1000.0 / ratio,
            |markup| {
                markup.text(&title);
            },
        );
    }
    markup.element("p", &[], &say!("All plans at the scale {}.", fitted.name));
    key(markup, &signs(plans), "course-1");
    let class = if abreast { "p-plans p-two" } else { "p-plans" };
    markup.open("div", &[("class", class)]);
    for (alike, number) in fitted.all.iter().zip(1_usize..) {
        one(markup, plans, alike, (number, fitted.ratio), system);
    }
    markup.close();
}

/// Plans at a scale.
struct Fitted {
    all: Vec<Alike>,
    ratio: f64,
    name: &'static str,
}

/// The plans as large as they fit side by side, or across the page where that is too small to read,
/// and whether they lie side by side.
fn fitted(plans: &Plans, system: System) -> (Option<Fitted>, bool) {
    let at = |width: f64| {
        let size = size(plans)?;
        let rough = |ratio: f64| {
            let fits = |side: f64, room: f64| 1000.0 * side / ratio < room;
            fits(size.width(), width) && fits(size.height(), HIGHEST)
        };
        let scales = scales(system).iter().copied().filter(|(ratio, _)| rough(*ratio));
        scales.into_iter().find_map(|(ratio, name)| {
            let all = all(plans, system, 0.001 * TEXT * ratio);
            let fits = all.iter().all(|each| fits(&each.drawing, ratio, (width, HIGHEST)));
            fits.then_some(Fitted { all, ratio, name })
        })
    };
    let two = at(0.5 * (WIDTH - APART)).filter(|fitted| fitted.ratio <= SMALLEST);
    match two {
        Some(two) => (Some(two), true),
        None => (at(WIDTH), false),
    }
}

fn fits(drawing: &Drawing, ratio: f64, (width, height): (f64, f64)) -> bool {
    let (wide, high) = svg::size(drawing, 1000.0 / ratio);
    wide <= width && high <= height
}

/// The largest scale at which a drawing fits, which is made anew for the size of its texts.
fn scaled(
    paint: &dyn Fn(f64) -> Option<Drawing>,
    room: (f64, f64),
    system: System,
) -> Option<(Drawing, (f64, &'static str))> {
    scales(system).iter().copied().find_map(|(ratio, name)| {
        let drawing = paint(ratio).filter(|drawing| fits(drawing, ratio, room))?;
        Some((drawing, (ratio, name)))
    })
}

fn one(
    markup: &mut Markup,
    plans: &Plans,
    alike: &Alike,
    (number, ratio): (usize, f64),
    system: System,
) {
    let id = format!("course-{number}");
    let said::Plate { name, places, takes } = said::plate(plans, &alike.places, system);
    figure_of(markup, &alike.drawing, (&id, &name), 1000.0 / ratio, |markup| {
        markup.element("b", &[], &name);
        for part in [places, takes] {
            markup.element("span", &[], &part);
        }
    });
}
