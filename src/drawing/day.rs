//! The firing day over the hours: fire and gas, heat to the room, the hottest face, in panels
//! that share their axis; and how plotters draws it.

use super::plot::{Drawn, Palette, label, rgb, short, text_style};
use crate::analysis::day::DayState;
use crate::language::said;
use crate::units::{Quantity, System, kelvin, to_shown, unit_of};
use plotters::coord::Shift;
use plotters::coord::types::RangedCoordf64;
use plotters::element::DashedPathElement;
use plotters::prelude::{
    Cartesian2d, ChartBuilder, ChartContext, Circle, Color as _, DrawingArea,
    DrawingAreaErrorKind, DrawingBackend, LineSeries, PathElement, ShapeStyle, Text,
};
use plotters::style::text_anchor::{HPos, Pos, VPos};

const SECONDS_PER_HOUR: f64 = 3600.0;
/// Least time that is shown (h): a shorter period is shown several times.
const LEAST_SPAN: f64 = 24.0;

/// What a curve shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DayCurveName {
    /// Heat of the wood that burns.
    Fire,
    /// Gas above room temperature out of the last run.
    Gas,
    /// From the heater to the room.
    Room,
    /// Hottest face to the room.
    Face,
}

impl DayCurveName {
    /// What is written at the curve.
    pub fn label(self) -> &'static str {
        match self {
            Self::Fire => said("fire"),
            Self::Gas => said("gone with the gas"),
            Self::Room => said("to the room"),
            Self::Face => said("hottest face"),
        }
    }

    /// Stroke and gap (px); none where the line is solid.
    const fn dash(self) -> Option<(f64, f64)> {
        match self {
            Self::Fire | Self::Room | Self::Face => None,
            Self::Gas => Some((7.0, 4.0)),
        }
    }
}

/// A curve; time (h) and value, in shown units.
#[derive(Clone, Debug, PartialEq)]
pub struct DayCurve {
    /// What it shows.
    pub name: DayCurveName,
    /// Its points, by time.
    pub points: Vec<(f64, f64)>,
}

impl DayCurve {
    /// Value at a time (h).
    fn at(&self, hours: f64) -> Option<f64> {
        let after = self.points.partition_point(|(x, _)| *x < hours);
        let high = self.points.get(after).or_else(|| self.points.last())?;
        let low = self.points.get(after.saturating_sub(1))?;
        let width = high.0 - low.0;
        let share = if width > 0.0 { ((hours - low.0) / width).clamp(0.0, 1.0) } else { 1.0 };
        Some(low.1 + share * (high.1 - low.1))
    }

    /// What is drawn in one stroke each: the fire only while it burns.
    fn strokes(&self) -> Vec<Vec<(f64, f64)>> {
        if self.name != DayCurveName::Fire {
            return vec![self.points.clone()];
        }
        let burns = |index: usize| self.points.get(index).is_some_and(|(_, y)| *y > 0.0);
        let mut strokes = vec![Vec::new()];
        for (index, point) in self.points.iter().enumerate() {
            let near = [index.saturating_sub(1), index, index + 1];
            if !near.into_iter().any(burns) {
                strokes.push(Vec::new());
            } else if let Some(stroke) = strokes.last_mut() {
                stroke.push(*point);
            }
        }
        strokes.retain(|stroke| stroke.len() > 1);
        strokes
    }

    fn top(&self) -> f64 {
        self.points.iter().map(|(_, y)| *y).fold(f64::NEG_INFINITY, f64::max)
    }

    /// When it has first risen and fallen again to a hundredth of its top.
    fn fallen(&self) -> Option<f64> {
        let top = self.top();
        let risen = self.points.iter().skip_while(|(_, y)| *y < 0.5 * top);
        risen.into_iter().find(|(_, y)| *y < 0.01 * top).map(|(x, _)| *x)
    }
}

/// Curves of one quantity.
#[derive(Clone, Debug, PartialEq)]
pub struct Panel {
    /// What it shows, with its unit.
    pub title: String,
    /// Its curves.
    pub curves: Vec<DayCurve>,
    /// Ends of its axis.
    pub y_range: (f64, f64),
}

impl Panel {
    /// When the first fire is out: names stand beside the curves from there on.
    fn clear(&self) -> Option<f64> {
        self.curves.first().and_then(DayCurve::fallen)
    }
}

/// The day; every figure is finite.
#[derive(Clone, Debug, PartialEq)]
pub struct DayPlot {
    /// What the time is counted from, with its unit.
    pub x_label: &'static str,
    /// Hours shown.
    pub hours: f64,
    /// From top to bottom.
    pub panels: [Panel; 3],
}

/// Hours that a state is shown over.
pub fn span(state: &DayState) -> f64 {
    (state.period_s / SECONDS_PER_HOUR).max(LEAST_SPAN)
}

/// The curves of a state.
pub fn curves(state: &DayState, system: System) -> DayPlot {
    let hours = span(state);
    let series = &state.series;
    // A Btu an hour is too little for an axis.
    let (per, power_unit) = match system {
        System::Metric => (1.0, "kW"),
        System::Us => (1000.0, "1000 Btu/h"),
    };
    let power = |watts: f64| to_shown(watts, Quantity::Power, system) / per;
    let degrees = |celsius: f64| to_shown(kelvin(celsius), Quantity::Temperature, system);
    let curve = |name, values: &[f64], shown: &dyn Fn(f64) -> f64| DayCurve {
        name,
        points: repeated(state, hours, values, shown),
    };
    let panel = |what: &str, quantity, curves: Vec<DayCurve>| {
        let unit = match quantity {
            Quantity::Power => power_unit,
            _ => unit_of(quantity, system).symbol,
        };
        let y_range = y_range(&curves, quantity);
        Panel { title: format!("{what}, {unit}"), y_range, curves }
    };
    let fire = curve(DayCurveName::Fire, &series.wood_watts, &power);
    let gas = curve(DayCurveName::Gas, &series.stack_watts, &power);
    let room = curve(DayCurveName::Room, &series.room_watts, &power);
    let face = curve(DayCurveName::Face, &series.surface_celsius, &degrees);
    DayPlot {
        x_label: said("hours after lighting"),
        hours,
        panels: [
            panel(said("Fire, and gone with the gas"), Quantity::Power, vec![fire, gas]),
            panel(said("Heat to the room"), Quantity::Power, vec![room]),
            panel(said("Hottest face"), Quantity::Temperature, vec![face]),
        ],
    }
}

/// A curve of a state, as often as its period fits into the hours shown.
fn repeated(
    state: &DayState,
    hours: f64,
    values: &[f64],
    shown: &dyn Fn(f64) -> f64,
) -> Vec<(f64, f64)> {
    let period = (state.period_s / SECONDS_PER_HOUR).max(1e-3);
    let once: Vec<(f64, f64)> = state
        .series
        .time_s
        .iter()
        .zip(values)
        .map(|(time, value)| (time / SECONDS_PER_HOUR, shown(*value)))
        .filter(|(x, y)| x.is_finite() && y.is_finite())
        .collect();
    let starts = std::iter::successors(Some(0.0), |start| Some(start + period));
    starts
        .take_while(|start| *start < hours - 1e-6)
        .flat_map(|start| once.iter().map(move |(x, y)| (start + x, *y)))
        .take_while(|(x, _)| *x <= hours + 1e-6)
        .map(|(x, y)| (x.min(hours), y))
        .collect()
}

/// Round values around everything that is shown; power from nothing.
fn y_range(curves: &[DayCurve], quantity: Quantity) -> (f64, f64) {
    let values = || curves.iter().flat_map(|curve| &curve.points).map(|(_, y)| *y);
    let high = values().fold(f64::NEG_INFINITY, f64::max);
    let low = values().fold(f64::INFINITY, f64::min);
    if !(low.is_finite() && high.is_finite()) {
        return (0.0, 1.0);
    }
    let low = if quantity == Quantity::Power { low.min(0.0) } else { low };
    let step = step((high - low).max(1e-3) / 3.0);
    ((low / step).floor() * step, (high / step + 0.05).ceil() * step)
}

/// The largest of 1, 2 and 5 times a power of ten that is no larger.
fn step(most: f64) -> f64 {
    let mut ten = 1e-3;
    while ten * 10.0 <= most {
        ten *= 10.0;
    }
    [5.0, 2.0].into_iter().map(|times| times * ten).find(|step| *step <= most).unwrap_or(ten)
}

type Chart<'a, B> = ChartContext<'a, B, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// Draws the panels below each other, with a cursor at a time (h) where there is one; gives the
/// ends of the time axis (px of the area).
///
/// # Errors
///
/// Those of the backend.
pub fn draw<B: DrawingBackend>(
    plot: &DayPlot,
    area: &DrawingArea<B, Shift>,
    palette: &Palette,
    cursor: Option<f64>,
) -> Result<(i32, i32), DrawingAreaErrorKind<B::ErrorType>> {
    area.fill(&rgb(palette.paper))?;
    let font = palette.pixels(f64::from(palette.font));
    let height = i32::try_from(area.dim_in_pixel().1).unwrap_or(i32::MAX);
    // The time axis stands below the last panel.
    let each = (height - 3 * font) / 3;
    let mut rest = area.clone();
    let mut ends = (0, 1);
    for (index, panel) in plot.panels.iter().enumerate() {
        let is_last = index + 1 == plot.panels.len();
        let (this, below) =
            if is_last { (rest.clone(), rest) } else { rest.split_vertically(each) };
        ends =
            draw_panel((plot, panel), &this, palette, (cursor, is_last.then_some(3 * font)))?;
        rest = below;
    }
    Ok(ends)
}

fn draw_panel<B: DrawingBackend>(
    (plot, panel): (&DayPlot, &Panel),
    area: &DrawingArea<B, Shift>,
    palette: &Palette,
    (cursor, axis): (Option<f64>, Option<i32>),
) -> Result<(i32, i32), DrawingAreaErrorKind<B::ErrorType>> {
    let font = palette.pixels(f64::from(palette.font));
    let text = text_style(font, palette.ink);
    let mut chart = ChartBuilder::on(area)
        .margin_top(2 * font)
        .margin_right(font)
        .margin_bottom(font / 2)
        .y_label_area_size(7 * font / 2)
        .x_label_area_size(axis.unwrap_or(0))
        .build_cartesian_2d(0.0..plot.hours, panel.y_range.0..panel.y_range.1)?;
    chart
        .configure_mesh()
        .light_line_style(rgb(palette.quiet).mix(0.0))
        .bold_line_style(rgb(palette.quiet).mix(0.35).stroke_width(palette.line(1.0)))
        .axis_style(rgb(palette.quiet).stroke_width(palette.line(1.0)))
        .label_style(text.clone())
        .axis_desc_style(text.clone())
        .x_desc(if axis.is_some() { plot.x_label } else { "" })
        .x_labels(13)
        .y_labels(5)
        .x_label_formatter(&|value| short(*value))
        .y_label_formatter(&|value| short(*value))
        .draw()?;
    let (across, _) = chart.plotting_area().get_pixel_range();
    let (left, _) = area.get_pixel_range();
    let title = (across.start - left.start, font / 2);
    area.draw_text(&panel.title, &text, title)?;
    for curve in &panel.curves {
        draw_curve(curve, panel, &mut chart, palette)?;
    }
    if let Some(at) = cursor {
        draw_cursor(at, panel, &chart, palette)?;
    }
    Ok((across.start, across.end))
}

const fn color(name: DayCurveName, palette: &Palette) -> (u8, u8, u8) {
    match name {
        DayCurveName::Fire | DayCurveName::Face => palette.ember,
        DayCurveName::Gas => palette.slate,
        DayCurveName::Room => palette.ink,
    }
}

fn draw_curve<B: DrawingBackend>(
    curve: &DayCurve,
    panel: &Panel,
    chart: &mut Chart<'_, B>,
    palette: &Palette,
) -> Drawn<B> {
    let style =
        ShapeStyle::from(rgb(color(curve.name, palette))).stroke_width(palette.line(2.0));
    for points in curve.strokes() {
        if let Some((stroke, gap)) = curve.name.dash() {
            let (stroke, gap) = (palette.pixels(stroke), palette.pixels(gap));
            chart.plotting_area().draw(&DashedPathElement::new(points, stroke, gap, style))?;
        } else {
            chart.draw_series(LineSeries::new(points, style))?;
        }
    }
    // A panel with one curve has its name above it.
    let Some(x) = panel.clear().filter(|_| panel.curves.len() > 1) else {
        return Ok(());
    };
    let (width, _) = chart.plotting_area().dim_in_pixel();
    let (from, to) = (chart.x_range().start, chart.x_range().end);
    let shift = (to - from) * f64::from(palette.pixels(4.0)) / f64::from(width.max(1));
    let style = label(palette, color(curve.name, palette), Pos::new(HPos::Left, VPos::Center));
    let name = Text::new(curve.name.label(), (x + shift, 0.75 * curve.top()), style);
    chart.plotting_area().draw(&name)
}

fn draw_cursor<B: DrawingBackend>(
    at: f64,
    panel: &Panel,
    chart: &Chart<'_, B>,
    palette: &Palette,
) -> Drawn<B> {
    let area = chart.plotting_area();
    let (low, high) = panel.y_range;
    let line = rgb(palette.ink).stroke_width(palette.line(1.0));
    area.draw(&PathElement::new(vec![(at, low), (at, high)], line))?;
    for curve in &panel.curves {
        if let Some(value) = curve.at(at) {
            let ring = ShapeStyle::from(rgb(palette.paper)).filled();
            let dot = ShapeStyle::from(rgb(color(curve.name, palette))).filled();
            area.draw(&Circle::new((at, value), palette.pixels(4.5), ring))?;
            area.draw(&Circle::new((at, value), palette.pixels(3.0), dot))?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::day::{Setup, day};
    use crate::design::Design;
    use crate::drawing::tests::PALETTE;
    use plotters::prelude::{IntoDrawingArea as _, SVGBackend};

    fn svg(plot: &DayPlot, cursor: Option<f64>) -> (String, (i32, i32)) {
        let mut text = String::new();
        let area = SVGBackend::with_string(&mut text, (640, 420)).into_drawing_area();
        let ends = draw(plot, &area, &PALETTE, cursor).unwrap();
        drop(area);
        (text, ends)
    }

    #[test]
    fn the_day_is_drawn_with_its_names_and_its_cursor() {
        let day = day(&Design::demonstration(), &Setup::STANDARD).unwrap();
        for system in [System::Metric, System::Us] {
            for state in [&day.first_fire, &day.periodic] {
                let plot = curves(state, system);
                for panel in &plot.panels {
                    for (x, y) in panel.curves.iter().flat_map(|curve| &curve.points) {
                        assert!((0.0..=plot.hours).contains(x), "{x}");
                        assert!((panel.y_range.0..=panel.y_range.1).contains(y), "{y}");
                    }
                }
                let (plain, ends) = svg(&plot, None);
                let names = ["Heat to the room", "fire", "gone with the gas", "hours after"];
                assert!(names.iter().all(|name| plain.contains(name)), "{plain}");
                assert!(0 < ends.0 && ends.0 < 80 && 560 < ends.1 && ends.1 <= 640, "{ends:?}");
                let (with_cursor, _) = svg(&plot, Some(6.0));
                assert_eq!(with_cursor.matches("<circle").count(), 8);
                assert!(!plain.contains("<circle"));
            }
        }
    }

    #[test]
    fn a_short_period_is_shown_as_often_as_it_fits_into_a_day() {
        let day = day(&Design::demonstration(), &Setup::STANDARD).unwrap();
        assert!((day.periodic.period_s - 43_200.0).abs() < 1.0);
        let plot = curves(&day.periodic, System::Metric);
        let [fire, _] = plot.panels[0].curves.as_slice() else { panic!() };
        assert!((plot.hours - 24.0).abs() < 1e-9);
        let steps = day.periodic.series.time_s.len();
        assert_eq!(fire.points.len(), 2 * steps);
        assert_eq!(fire.strokes().len(), 2, "two fires, nothing between them");
        assert_eq!(plot.panels[1].curves[0].strokes().len(), 1);
        assert!(fire.points.windows(2).all(|pair| pair[0].0 <= pair[1].0));
        assert!((fire.at(1.0).unwrap() - fire.at(13.0).unwrap()).abs() < 1e-6);
        assert!(fire.at(30.0).is_some());
    }

    #[test]
    fn the_axis_is_round() {
        for (most, expected) in [(0.9, 0.5), (1.0, 1.0), (4.9, 2.0), (18.0, 10.0), (55.0, 50.0)]
        {
            assert!((step(most) - expected).abs() < 1e-9, "{most}: {}", step(most));
        }
        assert_eq!(y_range(&[], Quantity::Power), (0.0, 1.0));
    }
}
