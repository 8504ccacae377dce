//! Temperature of gas and wall along the smoke path, and how plotters draws it.

use crate::analysis::Analysis;
use crate::design::Design;
use crate::rules::ENTRY_WINDOW;
use crate::study::uncertainty::GasBand;
use crate::units::{Quantity, System, to_shown, unit_of};
use plotters::coord::Shift;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::{
    Cartesian2d, ChartBuilder, ChartContext, Circle, Color as _, DrawingArea,
    DrawingAreaErrorKind, DrawingBackend, FontFamily, IntoFont as _, LineSeries, PathElement,
    Polygon, RGBColor, ShapeStyle, Text, TextStyle,
};
use plotters::style::text_anchor::{HPos, Pos, VPos};

/// What a curve shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CurveName {
    /// Gas.
    Gas,
    /// Inner wall surface: the mean of each run, and at the mouth one point.
    Wall,
}

/// A curve; one point is a dot.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// What it shows.
    pub name: CurveName,
    /// Length along the path and temperature, in shown units.
    pub points: Vec<(f64, f64)>,
}

/// What a limit line stands for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LimitName {
    /// Dew point of the gas.
    DewPoint,
    /// Temperature for which the chimney is rated.
    ChimneyRating,
    /// Gas into the chimney: too cool below.
    WindowLow,
    /// Gas into the chimney: on the hot side above.
    WindowHigh,
}

impl LimitName {
    /// What is written at the line.
    pub const fn label(self) -> &'static str {
        match self {
            Self::DewPoint => "dew point",
            Self::ChimneyRating => "chimney rating",
            Self::WindowLow => "into chimney: cool below",
            Self::WindowHigh => "into chimney: hot above",
        }
    }
}

/// A level line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limit {
    /// What it stands for.
    pub name: LimitName,
    /// Temperature, in shown units.
    pub value: f64,
}

/// A band between a lower and an upper temperature.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Band {
    /// Length along the path, lower and upper temperature, in shown units.
    pub points: Vec<(f64, f64, f64)>,
    /// Whether it belongs to an earlier design; it is drawn paler then.
    pub stale: bool,
}

/// Temperatures along the path, in shown units; every figure is finite.
#[derive(Clone, Debug, PartialEq)]
pub struct Plot {
    /// Name and unit of the length along the path.
    pub x_label: String,
    /// Name and unit of the temperature.
    pub y_label: String,
    /// Curves.
    pub curves: Vec<Curve>,
    /// What holds the gas in nine of ten cases.
    pub band: Band,
    /// Level lines.
    pub limits: Vec<Limit>,
    /// Ends of the length axis.
    pub x_range: (f64, f64),
    /// Ends of the temperature axis.
    pub y_range: (f64, f64),
    /// Where one part of the path ends and the next begins.
    pub marks: Vec<f64>,
}

/// Colors and sizes, from the page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Palette {
    /// Background.
    pub paper: (u8, u8, u8),
    /// Text.
    pub ink: (u8, u8, u8),
    /// Lines that stay in the background.
    pub quiet: (u8, u8, u8),
    /// Gas.
    pub ember: (u8, u8, u8),
    /// Wall.
    pub slate: (u8, u8, u8),
    /// Device pixels per pixel of the page.
    pub scale: f64,
    /// Text size in pixels of the page.
    pub font: i32,
}

/// Temperatures along the path from the firebox to the mouth of the chimney. Its length counts
/// runs, connector and chimney; rises between runs take no length.
///
/// Without its band; see [`Plot::with_band`].
pub fn temperatures(design: &Design, analysis: &Analysis, system: System) -> Plot {
    let fire = &analysis.height_of_fire;
    let degrees = |value: f64| to_shown(value, Quantity::Temperature, system);
    let mut along = 0.0;
    let mut marks = vec![0.0];
    let mut gas = vec![(0.0, degrees(fire.firebox_outlet))];
    let mut wall = Vec::new();
    let mut pass = |length: f64, outlet: f64| {
        let from = to_shown(along, Quantity::Length, system);
        along += length.max(0.0);
        let to = to_shown(along, Quantity::Length, system);
        gas.push((to, degrees(outlet)));
        (from, to)
    };
    for (run, state) in design.path.runs().iter().zip(&fire.runs) {
        let (from, to) = pass(run.length, state.outlet);
        wall.push((from, degrees(state.wall)));
        wall.push((to, degrees(state.wall)));
        marks.push(to);
    }
    let (_, to) = pass(design.chimney.connector_length, fire.chimney_inlet);
    marks.push(to);
    let (_, end) = pass(chimney_length(design), fire.chimney_mouth_gas);
    let mouth_wall = vec![(end, degrees(fire.chimney_mouth_wall))];
    let curves =
        [(CurveName::Gas, gas), (CurveName::Wall, wall), (CurveName::Wall, mouth_wall)];
    let curves: Vec<Curve> = curves.into_iter().filter_map(curve).collect();
    let limits = limits(design, analysis, system);
    let length = match system {
        System::Metric => "m",
        System::Us => "ft",
    };
    Plot {
        x_label: format!("length along the path, {length}"),
        y_label: format!("temperature, {}", unit_of(Quantity::Temperature, system).symbol),
        x_range: (0.0, if end.is_finite() { end.max(0.1) } else { 1.0 }),
        y_range: y_range(&curves, &limits),
        curves,
        band: Band::default(),
        limits,
        marks: marks.into_iter().filter(|mark| mark.is_finite()).collect(),
    }
}

impl Plot {
    /// The same with what holds the gas in nine of ten cases, where it has as many places along the
    /// path as the gas.
    #[must_use]
    pub fn with_band(mut self, within: &[GasBand], system: System) -> Self {
        let degrees = |value: f64| to_shown(value, Quantity::Temperature, system);
        let gas = self.curves.iter().find(|curve| curve.name == CurveName::Gas);
        let places = gas.map_or(&[][..], |gas| &gas.points);
        if places.len() == within.len() {
            let point = |((x, _), band): (&(f64, f64), &GasBand)| {
                (*x, degrees(band.p05), degrees(band.p95))
            };
            let points = places.iter().zip(within).map(point).collect();
            self.band = Band { points, stale: false };
            let most = self.band.points.iter().map(|point| point.2).fold(0.0, f64::max);
            self.y_range.1 = self.y_range.1.max(hundred_above(most));
        }
        self
    }
}

/// From the axis of the last run to the mouth (m).
fn chimney_length(design: &Design) -> f64 {
    let start = design.run_heights().last().copied();
    design.chimney.mouth_height - start.unwrap_or(design.firebox.height)
}

fn curve((name, mut points): (CurveName, Vec<(f64, f64)>)) -> Option<Curve> {
    points.retain(|(x, y)| x.is_finite() && y.is_finite());
    (!points.is_empty()).then_some(Curve { name, points })
}

fn limits(design: &Design, analysis: &Analysis, system: System) -> Vec<Limit> {
    let [low, high, _] = ENTRY_WINDOW;
    [
        (LimitName::DewPoint, analysis.height_of_fire.dew_point),
        (LimitName::WindowLow, low),
        (LimitName::WindowHigh, high),
        (LimitName::ChimneyRating, design.chimney.rated_temperature),
    ]
    .into_iter()
    .map(|(name, value)| Limit { name, value: to_shown(value, Quantity::Temperature, system) })
    .filter(|limit| limit.value.is_finite())
    .collect()
}

/// Whole hundreds around everything that is shown, with room for a band around the gas.
fn y_range(curves: &[Curve], limits: &[Limit]) -> (f64, f64) {
    let of_gas = |curve: &Curve| match curve.name {
        CurveName::Gas => ROOM_FOR_A_BAND,
        CurveName::Wall => 1.0,
    };
    let points = curves
        .iter()
        .flat_map(|curve| curve.points.iter().map(move |(_, y)| of_gas(curve) * y));
    let values = points.chain(limits.iter().map(|limit| limit.value));
    let (low, high) = values
        .fold((0.0_f64, 100.0_f64), |(low, high), value| (low.min(value), high.max(value)));
    (100.0 * (low / 100.0).floor(), hundred_above(high))
}

/// The hottest gas of a band over that of the curve within (–): seldom more, so that the axis
/// stays as it is when the band comes.
const ROOM_FOR_A_BAND: f64 = 1.2;

/// The next hundred with some air below it.
fn hundred_above(value: f64) -> f64 {
    100.0 * (value / 100.0 + 0.05).ceil()
}

type Chart<'a, B> = ChartContext<'a, B, Cartesian2d<RangedCoordf64, RangedCoordf64>>;
pub(super) type Drawn<B> = Result<(), DrawingAreaErrorKind<<B as DrawingBackend>::ErrorType>>;

pub(super) const fn rgb((red, green, blue): (u8, u8, u8)) -> RGBColor {
    RGBColor(red, green, blue)
}

/// Draws the plot on an area, without caption or legend.
///
/// # Errors
///
/// Those of the backend.
pub fn draw<B: DrawingBackend>(
    plot: &Plot,
    area: &DrawingArea<B, Shift>,
    palette: &Palette,
) -> Drawn<B> {
    let font = palette.pixels(f64::from(palette.font));
    area.fill(&rgb(palette.paper))?;
    let mut chart = ChartBuilder::on(area)
        .margin(font)
        .x_label_area_size(3 * font)
        .y_label_area_size(5 * font)
        .build_cartesian_2d(plot.x_range.0..plot.x_range.1, plot.y_range.0..plot.y_range.1)?;
    let text = text_style(font, palette.ink);
    chart
        .configure_mesh()
        .light_line_style(rgb(palette.quiet).mix(0.0))
        .bold_line_style(rgb(palette.quiet).mix(0.35).stroke_width(palette.line(1.0)))
        .axis_style(rgb(palette.quiet).stroke_width(palette.line(1.0)))
        .label_style(text.clone())
        .axis_desc_style(text)
        .x_desc(plot.x_label.as_str())
        .y_desc(plot.y_label.as_str())
        .x_labels(8)
        .y_labels(7)
        .x_label_formatter(&|value| short(*value))
        .y_label_formatter(&|value| short(*value))
        .draw()?;
    draw_band(&plot.band, &chart, palette)?;
    draw_marks(plot, &chart, palette)?;
    draw_limits(plot, &chart, palette)?;
    draw_curves(plot, &mut chart, palette)
}

impl Palette {
    #[expect(clippy::cast_possible_truncation, reason = "a few hundred at most")]
    pub(super) fn pixels(&self, size: f64) -> i32 {
        (self.scale * size).round().clamp(1.0, 1000.0) as i32
    }

    pub(super) fn line(&self, size: f64) -> u32 {
        self.pixels(size).unsigned_abs()
    }
}

/// A round value without needless decimals.
pub(super) fn short(value: f64) -> String {
    let text = format!("{value:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text == "-0" { "0".into() } else { text.into() }
}

/// A tint in the color of the gas.
fn draw_band<B: DrawingBackend>(
    band: &Band,
    chart: &Chart<'_, B>,
    palette: &Palette,
) -> Drawn<B> {
    if band.points.len() < 2 {
        return Ok(());
    }
    let low = band.points.iter().map(|(x, low, _)| (*x, *low));
    let high = band.points.iter().rev().map(|(x, _, high)| (*x, *high));
    let tint = rgb(palette.ember).mix(if band.stale { 0.08 } else { 0.2 });
    chart.plotting_area().draw(&Polygon::new(low.chain(high).collect::<Vec<_>>(), tint))
}

/// Short strokes on the length axis where one part ends and the next begins.
fn draw_marks<B: DrawingBackend>(
    plot: &Plot,
    chart: &Chart<'_, B>,
    palette: &Palette,
) -> Drawn<B> {
    let (low, high) = plot.y_range;
    let top = low + 0.03 * (high - low);
    let style = rgb(palette.quiet).stroke_width(palette.line(1.0));
    for x in &plot.marks {
        chart.plotting_area().draw(&PathElement::new(vec![(*x, low), (*x, top)], style))?;
    }
    Ok(())
}

pub(super) fn text_style(font: i32, color: (u8, u8, u8)) -> TextStyle<'static> {
    let mut style = TextStyle::from((FontFamily::SansSerif, font).into_font());
    style.color = rgb(color).to_backend_color();
    style
}

pub(super) fn label(palette: &Palette, color: (u8, u8, u8), pos: Pos) -> TextStyle<'static> {
    let font = palette.pixels(0.9 * f64::from(palette.font));
    text_style(font, color).pos(pos)
}

fn draw_limits<B: DrawingBackend>(
    plot: &Plot,
    chart: &Chart<'_, B>,
    palette: &Palette,
) -> Drawn<B> {
    let (left, right) = plot.x_range;
    let (low, high) = plot.y_range;
    let (width, height) = chart.plotting_area().dim_in_pixel();
    let degrees = |pixels: f64| {
        (high - low) * f64::from(palette.pixels(pixels)) / f64::from(height.max(1))
    };
    let (air, line_of_text) = (degrees(2.0), degrees(f64::from(palette.font)));
    // Room for the dot at the mouth.
    let room = f64::from(palette.pixels(8.0)) / f64::from(width.max(1));
    let end = right - (right - left) * room;
    let line = rgb(palette.quiet).stroke_width(palette.line(1.0));
    for limit in &plot.limits {
        let y = limit.value;
        let area = chart.plotting_area();
        area.draw(&PathElement::new(vec![(left, y), (right, y)], line))?;
        // Under the line where a curve ends just above it.
        let crowded = plot
            .curves
            .iter()
            .filter_map(|curve| curve.points.last())
            .any(|(x, at)| end < *x && (y..y + 2.0 * line_of_text).contains(at));
        let (vertical, offset) = if crowded { (VPos::Top, -air) } else { (VPos::Bottom, air) };
        let style = label(palette, palette.ink, Pos::new(HPos::Right, vertical));
        area.draw(&Text::new(limit.name.label(), (end, y + offset), style))?;
    }
    Ok(())
}

fn draw_curves<B: DrawingBackend>(
    plot: &Plot,
    chart: &mut Chart<'_, B>,
    palette: &Palette,
) -> Drawn<B> {
    let (width, height) = chart.plotting_area().dim_in_pixel();
    let pixels = f64::from(palette.pixels(4.0));
    let shift = (
        (plot.x_range.1 - plot.x_range.0) * pixels / f64::from(width.max(1)),
        (plot.y_range.1 - plot.y_range.0) * pixels / f64::from(height.max(1)),
    );
    for curve in &plot.curves {
        let (color, name, at) = match curve.name {
            CurveName::Gas => (palette.ember, "gas", curve.points.get(1)),
            CurveName::Wall => (palette.slate, "wall", curve.points.first()),
        };
        let style = ShapeStyle::from(rgb(color)).stroke_width(palette.line(2.0));
        let radius = palette.pixels(3.5);
        if let [only] = curve.points.as_slice() {
            let dot = Circle::new(*only, radius, style.filled());
            chart.plotting_area().draw(&dot)?;
            continue;
        }
        chart.draw_series(LineSeries::new(curve.points.iter().copied(), style))?;
        if let Some((x, y)) = at {
            let style = label(palette, color, Pos::new(HPos::Left, VPos::Bottom));
            let at = (x + shift.0, y + shift.1);
            chart.plotting_area().draw(&Text::new(name, at, style))?;
        }
    }
    Ok(())
}
