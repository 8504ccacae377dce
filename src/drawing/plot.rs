//! Temperature of gas and wall along the smoke path, and how plotters draws it.

use crate::analysis::Analysis;
use crate::design::Design;
use crate::language::{said, say, within};
use crate::rules::{ENTRY_WINDOW, Place};
use crate::study::uncertainty::GasBand;
use crate::units::{Quantity, System, decimals, fixed, to_shown, unit_of};
use crate::words;
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
    pub fn label(self) -> &'static str {
        match self {
            Self::DewPoint => said("dew point"),
            Self::ChimneyRating => said("chimney rating"),
            Self::WindowLow => said("into chimney: cool below"),
            Self::WindowHigh => said("into chimney: hot above"),
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
    /// Length along the path at which the curves are read.
    pub cursor: Option<f64>,
    /// Units of length and temperature.
    units: [&'static str; 2],
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
    let degree = unit_of(Quantity::Temperature, system).symbol;
    Plot {
        x_label: say!("length along the path, {length}"),
        y_label: say!("temperature, {degree}"),
        cursor: None,
        units: [length, degree],
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

    /// The same with a cursor at a share of the path (–).
    #[must_use]
    pub fn with_cursor(mut self, share: f64) -> Self {
        let (start, end) = self.x_range;
        self.cursor = Some(start + share.clamp(0.0, 1.0) * (end - start));
        self
    }

    /// What the curves are at the cursor, in a sentence.
    pub fn said(&self) -> Option<String> {
        let x = self.cursor?;
        let [length, degree] = self.units;
        let read = |name| {
            let mut curves = self.curves.iter().filter(|curve| curve.name == name);
            curves
                .find_map(|curve| curve.at(x))
                .map(|value| format!("{} {degree}", fixed(value, 0)))
        };
        let passed = self.marks.iter().skip(1).filter(|mark| **mark < x).count();
        let place = match (self.marks.len().saturating_sub(2)).checked_sub(passed) {
            Some(0) => said("connector").to_owned(),
            Some(_) => within(&words::place(Place::Run(passed))),
            None => within(&words::place(Place::Chimney)),
        };
        let gas = read(CurveName::Gas)?;
        let band = self.band.at(x).filter(|_| !self.band.stale);
        let band = band.map(|(low, high)| {
            let (low, high) = (fixed(low, 0), fixed(high, 0));
            say!(" ({low} to {high} {degree} in 90 of 100 cases)")
        });
        let wall = read(CurveName::Wall).map(|wall| say!(", inner wall {wall}"));
        let (band, wall) = (band.unwrap_or_default(), wall.unwrap_or_default());
        let at = fixed(x, 2);
        Some(say!("At {at} {length}, {place}: gas {gas}{band}{wall}."))
    }
}

impl Curve {
    /// Its value at a length, if it reaches there.
    fn at(&self, x: f64) -> Option<f64> {
        between(self.points.iter().copied(), x)
    }
}

impl Band {
    /// Its ends at a length, if it reaches there.
    fn at(&self, x: f64) -> Option<(f64, f64)> {
        let low = between(self.points.iter().map(|(x, low, _)| (*x, *low)), x)?;
        let high = between(self.points.iter().map(|(x, _, high)| (*x, *high)), x)?;
        Some((low, high))
    }
}

/// The value at a place of a line through points; none beyond them.
fn between(points: impl Iterator<Item = (f64, f64)> + Clone, x: f64) -> Option<f64> {
    let mut pairs = points.clone().zip(points.skip(1));
    let ((from, low), (to, high)) =
        pairs.find(|((from, _), (to, _))| *from <= x && x <= *to)?;
    let share = if to > from { (x - from) / (to - from) } else { 0.0 };
    Some(low + share * (high - low))
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

/// Draws the plot on an area, without caption or legend; gives the ends of the length axis (px of
/// the area).
///
/// # Errors
///
/// Those of the backend.
pub fn draw<B: DrawingBackend>(
    plot: &Plot,
    area: &DrawingArea<B, Shift>,
    palette: &Palette,
) -> Result<(i32, i32), DrawingAreaErrorKind<B::ErrorType>> {
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
    draw_curves(plot, &mut chart, palette)?;
    draw_names(plot, &chart, palette)?;
    draw_cursor(plot, &chart, palette)?;
    let (across, _) = chart.plotting_area().get_pixel_range();
    Ok((across.start, across.end))
}

fn draw_cursor<B: DrawingBackend>(
    plot: &Plot,
    chart: &Chart<'_, B>,
    palette: &Palette,
) -> Drawn<B> {
    let (Some(x), (low, high)) = (plot.cursor, plot.y_range) else { return Ok(()) };
    let area = chart.plotting_area();
    let line = rgb(palette.ink).stroke_width(palette.line(1.0));
    area.draw(&PathElement::new(vec![(x, low), (x, high)], line))?;
    for curve in &plot.curves {
        if let Some(y) = curve.at(x) {
            let dot = ShapeStyle::from(rgb(palette.ink)).filled();
            area.draw(&Circle::new((x, y), palette.pixels(3.0), dot))?;
        }
    }
    Ok(())
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
    decimals(value, 2)
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
    let line = rgb(palette.quiet).stroke_width(palette.line(1.0));
    for Limit { value, .. } in &plot.limits {
        let ends = vec![(left, *value), (right, *value)];
        chart.plotting_area().draw(&PathElement::new(ends, line))?;
    }
    Ok(())
}

/// Names of the limits at their right ends, in a halo that keeps them legible on the curves.
fn draw_names<B: DrawingBackend>(
    plot: &Plot,
    chart: &Chart<'_, B>,
    palette: &Palette,
) -> Drawn<B> {
    let (left, right) = plot.x_range;
    let (low, high) = plot.y_range;
    let (width, height) = chart.plotting_area().dim_in_pixel();
    let across = (right - left) * f64::from(palette.pixels(1.0)) / f64::from(width.max(1));
    let up = (high - low) * f64::from(palette.pixels(1.0)) / f64::from(height.max(1));
    let line_of_text = f64::from(palette.font) * up;
    // Room for the dot at the mouth.
    let end = right - 8.0 * across;
    for limit in &plot.limits {
        let y = limit.value;
        // Under the line where a curve ends just above it.
        let crowded = plot
            .curves
            .iter()
            .filter_map(|curve| curve.points.last())
            .any(|(x, at)| end < *x && (y..y + 2.0 * line_of_text).contains(at));
        let (vertical, offset) =
            if crowded { (VPos::Top, -2.0 * up) } else { (VPos::Bottom, 2.0 * up) };
        let around = [(-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0)];
        let halo = around.map(|(x, y)| (x, y, palette.paper));
        for (x, shift, color) in halo.into_iter().chain([(0.0, 0.0, palette.ink)]) {
            let style = label(palette, color, Pos::new(HPos::Right, vertical));
            let at = (end + x * across, y + offset + shift * up);
            chart.plotting_area().draw(&Text::new(limit.name.label(), at, style))?;
        }
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
            CurveName::Gas => (palette.ember, said("gas"), curve.points.get(1)),
            CurveName::Wall => (palette.slate, said("wall"), curve.points.first()),
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
