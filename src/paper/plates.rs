//! Drawings at a round scale, as large as a sheet of A4 or Letter takes them.

use super::{Heater, Print};
use crate::drawing::{Drawing, Role, front, path, plan, section};
use crate::export::decimal;
use crate::export::markup::Markup;
use crate::export::svg::{self, Frame};
use crate::language::{said, say};
use crate::units::System;

/// Widest drawing (mm): what both papers have between their margins.
pub(super) const WIDTH: f64 = 180.0;
/// Highest drawing with its key on a sheet of Letter, and of two of them (mm).
const WHOLE: f64 = 188.0;
const HALF: f64 = 106.0;
/// Highest unrolled path (mm).
const PATH: f64 = 80.0;
/// Size of texts on paper (mm).
pub(super) const TEXT: f64 = 2.5;
/// Least and most by which texts of a drawing are changed for that (–).
const TEXT_SCALE: (f64, f64) = (0.5, 2.4);

/// Millimeters of the heater on one of paper, with the scale's name; those of the US are inches to
/// a foot.
const METRIC: [(f64, &str); 12] = [
    (5.0, "1 : 5"),
    (10.0, "1 : 10"),
    (15.0, "1 : 15"),
    (20.0, "1 : 20"),
    (25.0, "1 : 25"),
    (30.0, "1 : 30"),
    (40.0, "1 : 40"),
    (50.0, "1 : 50"),
    (75.0, "1 : 75"),
    (100.0, "1 : 100"),
    (150.0, "1 : 150"),
    (200.0, "1 : 200"),
];
const US: [(f64, &str); 10] = [
    (6.0, "2 in to a foot (1 : 6)"),
    (8.0, "1 1/2 in to a foot (1 : 8)"),
    (12.0, "1 in to a foot (1 : 12)"),
    (16.0, "3/4 in to a foot (1 : 16)"),
    (24.0, "1/2 in to a foot (1 : 24)"),
    (32.0, "3/8 in to a foot (1 : 32)"),
    (48.0, "1/4 in to a foot (1 : 48)"),
    (64.0, "3/16 in to a foot (1 : 64)"),
    (96.0, "1/8 in to a foot (1 : 96)"),
    (192.0, "1/16 in to a foot (1 : 192)"),
];

/// The round scales from the largest on.
pub(super) const fn scales(system: System) -> &'static [(f64, &'static str)] {
    match system {
        System::Metric => &METRIC,
        System::Us => &US,
    }
}

/// A drawing at a scale.
struct Fitted {
    drawing: Drawing,
    /// Millimeters of the heater on one of paper.
    ratio: f64,
    name: &'static str,
}

type Paint<'a> = &'a dyn Fn(f64) -> Drawing;

/// The largest round scale at which a drawing fits into the width and a height (mm).
fn fit(paint: Paint<'_>, height: f64, system: System) -> Fitted {
    let mut text_scale = 1.0;
    let mut fitted = at_scale(paint(text_scale), height, system);
    for _ in 0..4 {
        let text = 1000.0 * fitted.drawing.text_size / fitted.ratio;
        let wanted = (text_scale * TEXT / text).clamp(TEXT_SCALE.0, TEXT_SCALE.1);
        if (wanted / text_scale - 1.0).abs() < 0.02 {
            break;
        }
        text_scale = wanted;
        fitted = at_scale(paint(text_scale), height, system);
    }
    fitted
}

fn at_scale(drawing: Drawing, height: f64, system: System) -> Fitted {
    let fits = |ratio: f64| {
        let (wide, high) = svg::size(&drawing, 1000.0 / ratio);
        wide <= WIDTH && high <= height
    };
    let found = scales(system).iter().find(|(ratio, _)| fits(*ratio));
    let (ratio, name) = found
        .copied()
        .unwrap_or_else(|| (1000.0 / filling(&drawing, height), said("fitted to the sheet")));
    Fitted { drawing, ratio, name }
}

/// The scale at which a drawing fills the width or a height (mm).
fn filling(drawing: &Drawing, height: f64) -> f64 {
    let (margin, _) = svg::size(drawing, 0.0);
    let (wide, high) = svg::size(drawing, 1.0);
    ((WIDTH - margin) / (wide - margin)).min((height - margin) / (high - margin))
}

/// The dimensioned section with what its signs mean.
pub(super) fn section_sheet(markup: &mut Markup, heater: Heater<'_>, print: Print<'_>) {
    let Heater { design, analysis, findings, .. } = heater;
    let paint = |scale| section::section(design, analysis, findings, print.system, scale);
    let fitted = fit(&paint, WHOLE, print.system);
    figure(markup, &fitted, "section", said("Section along the runs"));
    key(markup, &fitted.drawing.key, "section");
    bar(markup, print.system);
}

/// Front and plan, each as large as half a sheet takes it.
pub(super) fn views_sheet(markup: &mut Markup, heater: Heater<'_>, print: Print<'_>) {
    let Heater { design, analysis, .. } = heater;
    let from_front = |scale| front::front(design, analysis, print.system, scale);
    let from_above = |scale| plan::plan(design, analysis, print.system, scale);
    let [front, plan] =
        [&from_front as Paint<'_>, &from_above].map(|paint| fit(paint, HALF, print.system));
    figure(markup, &front, "front", said("From the front"));
    figure(markup, &plan, "plan", said("From above, cut through a run"));
}

/// The smoke path unrolled, which has no scale.
pub(super) fn path_figure(markup: &mut Markup, heater: Heater<'_>, print: Print<'_>) {
    let drawing = path::unrolled(heater.design, heater.analysis, print.system);
    let scale = filling(&drawing, PATH);
    let title = said("The smoke path, unrolled");
    figure_of(markup, &drawing, ("path", title), scale, |markup| {
        markup.text(said("The smoke path, unrolled. Not to scale."));
    });
}

fn figure(markup: &mut Markup, fitted: &Fitted, id: &str, title: &str) {
    let caption = say!("{title}. Scale {}.", fitted.name);
    figure_of(markup, &fitted.drawing, (id, title), 1000.0 / fitted.ratio, |markup| {
        markup.text(&caption);
    });
}

/// A drawing by its id and title, at a scale (mm/m), with what is said below it.
pub(super) fn figure_of(
    markup: &mut Markup,
    drawing: &Drawing,
    (id, title): (&str, &str),
    scale: f64,
    caption: impl FnOnce(&mut Markup),
) {
    markup.open("figure", &[]);
    svg::element(markup, drawing, Frame { id, title, scale });
    markup.open("figcaption", &[]);
    caption(markup);
    markup.close();
    markup.close();
}

/// What signs mean, with the hatchings of a drawing.
pub(super) fn key(markup: &mut Markup, entries: &[(Role, String)], of: &str) {
    markup.open("ul", &[("class", "p-key")]);
    for (role, meaning) in entries {
        markup.open("li", &[]);
        svg::sign(markup, *role, of);
        markup.text(meaning);
        markup.close();
    }
    markup.close();
}

/// A bar by which a print is checked.
fn bar(markup: &mut Markup, system: System) {
    let (step, steps, said) = match system {
        System::Metric => {
            (20.0, 5_u8, said("This bar is 100 mm long where the print has its full size."))
        }
        System::Us => {
            (25.4, 4, said("This bar is 4 in long where the print has its full size."))
        }
    };
    markup.open("p", &[("class", "p-bar")]);
    let length = step * f64::from(steps);
    svg::root(markup, (length + 1.0, 3.0), &[("aria-hidden", "true")]);
    for place in 0..steps {
        let x = decimal(0.5 + step * f64::from(place), 3);
        let fill = if place % 2 == 0 { "#2a2520" } else { "#ffffff" };
        let attributes = [
            ("x", x.as_str()),
            ("y", "0.5"),
            ("width", &decimal(step, 3)),
            ("height", "2"),
            ("fill", fill),
            ("stroke", "#2a2520"),
            ("stroke-width", "0.2"),
        ];
        markup.empty("rect", &attributes);
    }
    markup.close();
    markup.element("span", &[], said);
    markup.close();
}
