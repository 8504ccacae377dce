//! Variants over an input: heat kept and draft to spare, in panels that share their axis; and over
//! two inputs: a map of what is answered.

use super::plot::{Drawn, Palette, rgb, short, text_style};
use crate::design::field::{FieldId, Kind, field};
use crate::rules::Answer;
use crate::study::figures::Line;
use crate::study::variant::Variant;
use crate::units::{Quantity, System, to_shown, unit_of};
use crate::words::label;
use plotters::coord::Shift;
use plotters::prelude::{
    ChartBuilder, Circle, Color as _, DrawingArea, DrawingBackend, LineSeries, PathElement,
    ShapeStyle,
};

/// A variant in a panel, in shown units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dot {
    /// Value of the input.
    pub x: f64,
    /// The figure.
    pub y: f64,
    /// Whether it answers yes three times.
    pub passes: bool,
}

/// One figure over the input.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// What it shows, with its unit.
    pub title: String,
    /// By the input.
    pub dots: Vec<Dot>,
    /// Ends of its axis.
    pub y_range: (f64, f64),
}

/// Heat kept, and the draft beyond what is wanted, which ends at zero.
#[derive(Clone, Debug, PartialEq)]
pub struct Sweep {
    /// The input with its unit.
    pub x_label: String,
    /// Ends of its axis.
    pub x_range: (f64, f64),
    /// Heat above, draft below.
    pub panels: [Panel; 2],
}

/// The picture of variants that differ in their first input; none of fewer than two with figures.
pub fn sweep(variants: &[Variant], system: System) -> Option<Sweep> {
    let id = variants.iter().find_map(|each| each.puts.first()).map(|(id, _)| *id)?;
    let dots = |quantity, of: &dyn Fn(&Variant) -> Option<f64>| {
        let dot = |variant: &Variant| {
            let (_, value) = variant.puts.first()?;
            let y = to_shown(of(variant)?, quantity, system);
            let answers = variant.brief?.answers;
            let passes = answers.into_iter().all(|answer| answer == Answer::Yes);
            let x = shown(id, *value, system);
            (x.is_finite() && y.is_finite()).then_some(Dot { x, y, passes })
        };
        let mut dots: Vec<Dot> = variants.iter().filter_map(dot).collect();
        dots.sort_by(|one, other| one.x.total_cmp(&other.x));
        dots
    };
    let place = Line::ALL.iter().position(|line| *line == Line::Efficiency)?;
    let heat = dots(Quantity::Share, &|each| each.brief?.lines.get(place).copied().flatten());
    let draft = dots(Quantity::Pressure, &|each| Some(each.brief?.spare));
    let (first, last) = (heat.first()?.x, heat.last()?.x);
    let title = |name: &str, quantity| format!("{name}, {}", unit_of(quantity, system).symbol);
    (first < last).then(|| Sweep {
        x_label: x_label(id, system),
        x_range: (first, last),
        panels: [
            panel(title("Heat that stays", Quantity::Share), heat),
            panel(title("Draft beyond what is wanted", Quantity::Pressure), draft),
        ],
    })
}

fn panel(title: String, dots: Vec<Dot>) -> Panel {
    let ends = (f64::INFINITY, f64::NEG_INFINITY);
    let (low, high) =
        dots.iter().fold(ends, |(low, high), dot| (low.min(dot.y), high.max(dot.y)));
    let air = (AIR * (high - low)).max(f64::EPSILON.max(AIR * high.abs()) * AIR);
    Panel { title, dots, y_range: (low - air, high + air) }
}

/// Air above and below what is shown, over its height (–).
const AIR: f64 = 0.08;

fn quantity(id: FieldId) -> Option<Quantity> {
    match &field(id).kind {
        Kind::Number(number) => Some(number.quantity),
        Kind::Choice(_) => None,
    }
}

fn shown(id: FieldId, value: f64, system: System) -> f64 {
    quantity(id).map_or(value, |quantity| to_shown(value, quantity, system))
}

fn x_label(id: FieldId, system: System) -> String {
    let symbol = match (quantity(id), system) {
        // Feet and inches carry their marks; on an axis they are feet.
        (Some(Quantity::Length), System::Us) => "ft",
        (Some(quantity), system) => unit_of(quantity, system).symbol,
        (None, _) => "",
    };
    if symbol.is_empty() { label(id).into() } else { format!("{}, {symbol}", label(id)) }
}

/// Draws the panels, one below the other; a filled dot answers yes three times, a ring does not.
///
/// # Errors
///
/// Those of the backend.
pub fn draw<B: DrawingBackend>(
    plot: &Sweep,
    area: &DrawingArea<B, Shift>,
    palette: &Palette,
) -> Drawn<B> {
    area.fill(&rgb(palette.paper))?;
    let font = palette.pixels(f64::from(palette.font));
    let (_, height) = area.dim_in_pixel();
    let half = (height.cast_signed() - 3 * font) / 2;
    let (upper, lower) = area.split_vertically(half);
    let [heat, draft] = &plot.panels;
    draw_panel((plot, heat), &upper, palette, 0)?;
    draw_panel((plot, draft), &lower, palette, 3 * font)
}

fn draw_panel<B: DrawingBackend>(
    (plot, panel): (&Sweep, &Panel),
    area: &DrawingArea<B, Shift>,
    palette: &Palette,
    axis: i32,
) -> Drawn<B> {
    let font = palette.pixels(f64::from(palette.font));
    let text = text_style(font, palette.ink);
    let room = AIR * (plot.x_range.1 - plot.x_range.0);
    let across = plot.x_range.0 - room..plot.x_range.1 + room;
    let mut chart = ChartBuilder::on(area)
        .margin_top(2 * font)
        .margin_right(font)
        .y_label_area_size(4 * font)
        .x_label_area_size(axis)
        .build_cartesian_2d(across.clone(), panel.y_range.0..panel.y_range.1)?;
    chart
        .configure_mesh()
        .light_line_style(rgb(palette.quiet).mix(0.0))
        .bold_line_style(rgb(palette.quiet).mix(0.35).stroke_width(palette.line(1.0)))
        .axis_style(rgb(palette.quiet).stroke_width(palette.line(1.0)))
        .label_style(text.clone())
        .axis_desc_style(text.clone())
        .x_desc(if axis > 0 { plot.x_label.as_str() } else { "" })
        .x_labels(10)
        .y_labels(5)
        .x_label_formatter(&|value| short(*value))
        .y_label_formatter(&|value| short(*value))
        .draw()?;
    area.draw_text(&panel.title, &text, (4 * font, font / 2))?;
    let (low, high) = panel.y_range;
    if low < 0.0 && 0.0 < high {
        let line = rgb(palette.ink).stroke_width(palette.line(1.0));
        let zero = vec![(across.start, 0.0), (across.end, 0.0)];
        chart.plotting_area().draw(&PathElement::new(zero, line))?;
    }
    let style = ShapeStyle::from(rgb(palette.slate)).stroke_width(palette.line(1.5));
    chart.draw_series(LineSeries::new(panel.dots.iter().map(|dot| (dot.x, dot.y)), style))?;
    for dot in &panel.dots {
        let at = (dot.x, dot.y);
        let paper = ShapeStyle::from(rgb(palette.paper)).filled();
        chart.plotting_area().draw(&Circle::new(at, palette.pixels(5.0), paper))?;
        let style = if dot.passes { style.filled() } else { style };
        chart.plotting_area().draw(&Circle::new(at, palette.pixels(4.0), style))?;
    }
    Ok(())
}

/// A pair of values with the worst answer there, in shown units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Region {
    /// From and to, of the second input.
    pub across: (f64, f64),
    /// From and to, of the first input.
    pub up: (f64, f64),
    /// The worst of the three answers; none where the heater cannot stand.
    pub worst: Option<Answer>,
}

/// The map of variants that differ in two inputs: a region around each pair, halfway to the next.
pub fn map(variants: &[Variant], system: System) -> Vec<Region> {
    let pair = |variant: &Variant| match variant.puts.as_slice() {
        [(one, up), (other, across)] => {
            Some((shown(*one, *up, system), shown(*other, *across, system)))
        }
        _ => None,
    };
    let axis = |of: fn((f64, f64)) -> f64| {
        let mut values: Vec<f64> = variants.iter().filter_map(pair).map(of).collect();
        values.sort_by(f64::total_cmp);
        values.dedup();
        values
    };
    let (ups, acrosses) = (axis(|pair| pair.0), axis(|pair| pair.1));
    let region = |variant: &Variant| {
        let (up, across) = pair(variant)?;
        let worst = variant.brief.map(|brief| worst(&brief.answers));
        Some(Region { across: around(&acrosses, across), up: around(&ups, up), worst })
    };
    variants.iter().filter_map(region).collect()
}

/// Halfway to the values beside one; as far beyond the last as before it.
fn around(values: &[f64], value: f64) -> (f64, f64) {
    let below = values.iter().rev().find(|other| **other < value);
    let above = values.iter().find(|other| value < **other);
    let half = |other: &f64| 0.5 * (other - value).abs();
    let (down, up) = match (below.map(half), above.map(half)) {
        (Some(down), Some(up)) => (down, up),
        (Some(one), None) | (None, Some(one)) => (one, one),
        (None, None) => (0.5, 0.5),
    };
    (value - down, value + up)
}

fn worst(answers: &[Answer]) -> Answer {
    let worst = [Answer::No, Answer::NotEnoughKnown, Answer::LookAgain];
    worst.into_iter().find(|each| answers.contains(each)).unwrap_or(Answer::Yes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::drawing::tests::PALETTE;
    use crate::study::compare::Column;
    use plotters::prelude::{IntoDrawingArea as _, SVGBackend};

    fn columns() -> Vec<Variant> {
        let column = |runs| Variant::from(&Column::new(&Design::demonstration(), runs));
        [5, 7, 9].map(column).to_vec()
    }

    #[test]
    fn runs_are_drawn_with_the_zero_of_their_draft() {
        let plot = sweep(&columns(), System::Metric).unwrap();
        assert_eq!(plot.x_range, (5.0, 9.0));
        for panel in &plot.panels {
            assert_eq!(panel.dots.len(), 3);
            let (low, high) = panel.y_range;
            assert!(panel.dots.iter().all(|dot| low < dot.y && dot.y < high));
        }
        // Five runs have draft to spare, nine have not.
        let [_, draft] = &plot.panels;
        assert!(draft.dots[0].y > 0.0 && draft.dots[2].y < 0.0);
        let mut text = String::new();
        let area = SVGBackend::with_string(&mut text, (640, 420)).into_drawing_area();
        draw(&plot, &area, &PALETTE).unwrap();
        drop(area);
        assert_eq!(text.matches("<circle").count(), 12);
        assert!(text.contains("Runs") && text.contains("Heat that stays, %"), "{text}");
        assert_eq!(sweep(&columns()[..1], System::Us), None);
    }

    #[test]
    fn a_map_covers_its_plane_without_gaps() {
        let at = |up: f64, across: f64| Variant {
            puts: vec![(FieldId::RunCount, up), (FieldId::FiringsPerDay, across)],
            brief: None,
        };
        let regions =
            map(&[at(1.0, 1.0), at(1.0, 2.0), at(3.0, 1.0), at(3.0, 2.0)], System::Metric);
        let area =
            |region: &Region| (region.across.1 - region.across.0) * (region.up.1 - region.up.0);
        // By hand: from 0.5 to 2.5 across, from 0 to 4 up.
        assert!((regions.iter().map(area).sum::<f64>() - 8.0).abs() < 1e-12);
        assert_eq!(regions[3].across, (1.5, 2.5));
        assert_eq!(regions[3].up, (2.0, 4.0));
        assert!(map(&columns(), System::Metric).is_empty());
    }
}
