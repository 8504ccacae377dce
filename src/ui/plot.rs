//! The temperatures along the path, on a canvas, with a table twin.

use super::dom::{Tag, tag, value_of, watch};
use super::signal::{Memo, RwSignal};
use super::uncertainty::Worth;
use super::workspace::Workspace;
use super::{Theme, browser, texts};
use leptos::reactive::graph::untrack;
use longsmoke::analysis::HeightOfFire;
use longsmoke::drawing::plot::{self, Palette};
use longsmoke::rules::Place;
use longsmoke::study::uncertainty::GasBand;
use longsmoke::units::{Quantity, figure, float};
use longsmoke::words;
use longsmoke::words::uncertainty as said;
use plotters::coord::Shift;
use plotters::prelude::{DrawingArea, IntoDrawingArea as _};
use plotters_canvas::CanvasBackend;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{
    Element, Event, HtmlCanvasElement, IntersectionObserver, IntersectionObserverEntry,
    IntersectionObserverInit,
};

pub fn plot_view(workspace: Workspace, theme: Theme, worth: Worth) -> Tag {
    // Of its own, so that progress of the samples does not paint anew.
    let band = Memo::new(move |_| {
        let gas = worth.read(|found, _| found.gas.clone());
        (gas.unwrap_or_default(), worth.is_stale())
    });
    // Share of the path at which the curves are read.
    let along = RwSignal::new(0.5);
    let plot = move || {
        workspace.read_rested(|shown, system| {
            let plot = plot::temperatures(&shown.design, &shown.analysis, system);
            band.with(|(band, stale)| {
                let mut plot = plot.with_band(band, system).with_cursor(along.get());
                plot.band.stale = *stale;
                plot
            })
        })
    };
    let ends = Ends::default();
    let found = Rc::clone(&ends);
    let paint = move |area: &Area, palette: &Palette| {
        let across = plot::draw(&plot()?, area, palette).ok()?;
        found.set(shares(area, across));
        Some(())
    };
    let (canvas, pens) = painted(theme, paint);
    let canvas = canvas
        .attr("role", "img")
        .attr("aria-labelledby", "plot-title")
        .attr("data-testid", "path-plot");
    let canvas = pointed(canvas, ends, move |share| along.set(share));
    tag("section")
        .class("plot")
        .attr("aria-labelledby", "plot-title")
        .child(tag("h2").id("plot-title").text(texts::plot()))
        .child(tag("div").class("canvas").child(canvas))
        .children(cursor(along, move || plot()?.said()))
        .child(pens)
        .child(twin(workspace, worth))
}

/// The cursor as a slider, for the keyboard and for fingers, and what is read there.
fn cursor(
    along: RwSignal<f64>,
    said: impl Fn() -> Option<String> + Copy + 'static,
) -> [Tag; 2] {
    let slider = tag("input")
        .attr("type", "range")
        .attr("min", "0")
        .attr("max", "1")
        .attr("step", "0.01")
        .attr("aria-label", texts::plot_cursor())
        .live_attr("aria-valuetext", said)
        .live_value(move || Some(along.get().to_string()))
        .on("input", move |event| along.set(float(&value_of(&event)).unwrap_or(0.5)));
    let line = tag("p").class("moment").attr("data-testid", "path-moment").live_text(said);
    [slider, line]
}

/// Ends of the axis across over the width of a canvas.
pub type Ends = Rc<Cell<(f64, f64)>>;

/// The ends of an axis (px of the area) as shares of the width.
pub fn shares(area: &Area, (left, right): (i32, i32)) -> (f64, f64) {
    let width = f64::from(area.dim_in_pixel().0.max(1));
    (f64::from(left) / width, f64::from(right) / width)
}

/// A canvas that tells at which share of its axis it is pointed at.
pub fn pointed(canvas: Tag, ends: Ends, put: impl Fn(f64) + 'static) -> Tag {
    let point = Rc::new(move |event: Event| {
        if let Some(share) = share_of(&event) {
            let (left, right) = ends.get();
            put(((share - left) / (right - left)).clamp(0.0, 1.0));
        }
    });
    let press = Rc::clone(&point);
    canvas
        .on("pointermove", move |event| point(event))
        .on("pointerdown", move |event| press(event))
}

/// Where on the width of its element a pointer is.
fn share_of(event: &Event) -> Option<f64> {
    let element: Element = event.target()?.dyn_into().ok()?;
    let across = js_sys::Reflect::get(event, &"offsetX".into()).ok()?.as_f64()?;
    Some(across / element.get_bounding_client_rect().width().max(1.0))
}

/// What a plot is drawn on.
pub type Area = DrawingArea<CanvasBackend, Shift>;

/// A canvas that is painted whenever its size, the colors or what the paint reads change while it is
/// in sight, and the pens that hold its colors. A canvas that cannot be painted leaves the table.
pub fn painted(
    Theme(theme): Theme,
    paint: impl Fn(&Area, &Palette) -> Option<()> + 'static,
) -> (Tag, Tag) {
    let tag_of_canvas = tag("canvas");
    let pens = tag("div")
        .class("pens")
        .attr("aria-hidden", "true")
        .children(PENS.map(|pen| tag("i").class(&format!("pen-{pen}"))));
    if let Some(canvas) = tag_of_canvas.element().dyn_ref::<HtmlCanvasElement>().cloned() {
        let pens = pens.element().clone();
        let look = RwSignal::new(None);
        let seen = RwSignal::new(false);
        watch_sight(&canvas, move |is_seen| seen.set(is_seen));
        browser::listen("beforeprint", move |_| seen.set(true));
        let measured = canvas.clone();
        let measure = move || look.set(Look::of(&measured, &pens));
        watch_size(&canvas, measure.clone());
        watch_dark(measure.clone());
        watch(move || {
            theme.track();
            measure();
        });
        watch(move || {
            // For the font of a text the browser brings the styles of the whole page up to date.
            if seen.get() {
                look.get().and_then(|look| paint_now(&canvas, look, &paint));
            }
        });
    }
    (tag_of_canvas, pens)
}

/// How a canvas looks. It is asked for only when that may have changed: the browser lays out the
/// whole page for an answer.
#[derive(Clone, Copy)]
struct Look {
    width: u32,
    height: u32,
    palette: Palette,
}

impl Look {
    /// None where nothing is to be seen.
    fn of(canvas: &Element, pens: &Element) -> Option<Self> {
        let ratio = web_sys::window()?.device_pixel_ratio();
        let size = canvas.get_bounding_client_rect();
        let (width, height) = (whole(size.width() * ratio), whole(size.height() * ratio));
        (0 < width && 0 < height).then(|| Self { width, height, palette: palette(pens, ratio) })
    }
}

fn paint_now(
    canvas: &HtmlCanvasElement,
    Look { width, height, palette }: Look,
    paint: &dyn Fn(&Area, &Palette) -> Option<()>,
) -> Option<()> {
    if (canvas.width(), canvas.height()) != (width, height) {
        canvas.set_width(width);
        canvas.set_height(height);
    }
    let area = CanvasBackend::with_canvas_object(canvas.clone())?.into_drawing_area();
    paint(&area, &palette)?;
    area.present().ok()
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "pixels of a canvas on a screen"
)]
fn whole(pixels: f64) -> u32 {
    pixels.round().clamp(0.0, 16384.0) as u32
}

/// Names of the colors of a plot; the style sheet gives each to an element, where the browser
/// turns it into red, green and blue.
const PENS: [&str; 5] = ["paper", "ink", "quiet", "ember", "slate"];
/// Text size of the plot (px).
const FONT: i32 = 12;

fn palette(pens: &Element, scale: f64) -> Palette {
    let color = |name: &str| {
        let pen = pens.query_selector(&format!(".pen-{name}")).ok().flatten();
        pen.and_then(|pen| color_of(&pen)).unwrap_or((128, 128, 128))
    };
    Palette {
        paper: color("paper"),
        ink: color("ink"),
        quiet: color("quiet"),
        ember: color("ember"),
        slate: color("slate"),
        scale,
        font: FONT,
    }
}

/// Color of an element, from `rgb(184, 73, 26)` or `color(srgb 0.72 0.29 0.1)`.
fn color_of(element: &Element) -> Option<(u8, u8, u8)> {
    let style = web_sys::window()?.get_computed_style(element).ok()??;
    let text = style.get_property_value("color").ok()?;
    let scale = if text.starts_with("color(") { 255.0 } else { 1.0 };
    let mut parts =
        text.split(|c: char| !(c.is_ascii_digit() || ".e-".contains(c))).filter_map(float);
    let mut next = || Some(byte(scale * parts.next()?));
    Some((next()?, next()?, next()?))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to 0..=255 before"
)]
fn byte(value: f64) -> u8 {
    value.round().clamp(0.0, 255.0) as u8
}

/// Tells when an element changes its size.
pub fn watch_size(element: &Element, changed: impl Fn() + 'static) {
    let listener = Closure::<dyn Fn()>::new(changed);
    if let Ok(observer) = web_sys::ResizeObserver::new(listener.as_ref().unchecked_ref()) {
        observer.observe(element);
    }
    listener.forget();
}

/// Tells whether an element is in sight or about to be.
fn watch_sight(element: &Element, changed: impl Fn(bool) + 'static) {
    let listener = Closure::<dyn Fn(js_sys::Array)>::new(move |entries: js_sys::Array| {
        let last = entries.pop().dyn_into::<IntersectionObserverEntry>();
        changed(last.is_ok_and(|last| last.is_intersecting()));
    });
    let options = IntersectionObserverInit::new();
    options.set_root_margin("50%");
    let listen = listener.as_ref().unchecked_ref();
    if let Ok(observer) = IntersectionObserver::new_with_options(listen, &options) {
        observer.observe(element);
    }
    listener.forget();
}

/// Tells when the device turns dark or light.
fn watch_dark(changed: impl Fn() + 'static) {
    let query = "(prefers-color-scheme: dark)";
    let media = web_sys::window().and_then(|window| window.match_media(query).ok().flatten());
    let listener = Closure::<dyn Fn()>::new(changed);
    if let Some(media) = media {
        let listener = listener.as_ref().unchecked_ref();
        let _ = media.add_event_listener_with_callback("change", listener);
    }
    listener.forget();
}

/// A line of the table: where, gas, wall (K).
type Station = (Place, f64, Option<f64>);

fn stations(fire: &HeightOfFire) -> Vec<Station> {
    let mut stations = vec![(Place::Firebox, fire.firebox_outlet, Some(fire.firebox_wall))];
    let runs = fire.runs.iter().enumerate();
    stations.extend(runs.map(|(index, run)| (Place::Run(index), run.outlet, Some(run.wall))));
    stations.push((Place::ChimneyInlet, fire.chimney_inlet, None));
    let mouth = Some(fire.chimney_mouth_wall);
    stations.push((Place::ChimneyMouth, fire.chimney_mouth_gas, mouth));
    stations
}

/// The same as a table.
fn twin(workspace: Workspace, worth: Worth) -> Tag {
    let row = |(place, gas, wall): Station, band: Option<&GasBand>, system| {
        let show = |value| figure(value, Quantity::Temperature, system);
        tag("tr")
            .child(tag("th").attr("scope", "row").text(&words::place(place)))
            .child(tag("td").text(&show(gas)))
            .child(
                tag("td").text(&band.map(|band| said::along(band, system)).unwrap_or_default()),
            )
            .child(tag("td").text(&wall.map(show).unwrap_or_default()))
    };
    let rows = tag("tbody").live(move |body| {
        let (stations, system) = workspace
            .read_rested(|shown, system| (stations(&shown.analysis.height_of_fire), system))
            .unwrap_or_default();
        // Bands of another design go with its stations, which rest.
        let fresh = Some(()).filter(|()| !untrack(|| worth.is_stale()));
        let bands = fresh.and_then(|()| worth.read(|found, _| found.gas.clone()));
        let bands = bands.unwrap_or_default();
        let rows = stations.into_iter().enumerate();
        body.children(rows.map(|(index, station)| row(station, bands.get(index), system)))
    });
    let heads = [texts::plot_here(), texts::plot_gas(), said::BAND.said(), texts::plot_wall()];
    let heads = heads.map(|head| tag("th").attr("scope", "col").text(head));
    tag("details")
        .class("twin")
        .child(tag("summary").text(texts::plot_table()))
        .child(tag("table").child(tag("thead").child(tag("tr").children(heads))).child(rows))
}
