//! The curves of the day on a canvas, with a cursor for pointer and keyboard and a table twin.

use super::Work;
use crate::ui::dom::{Tag, tag, value_of};
use crate::ui::plot::{Area, painted};
use crate::ui::{Theme, texts};
use leptos::prelude::*;
use longsmoke::analysis::day::Moment;
use longsmoke::drawing::day::{curves, draw, span};
use longsmoke::drawing::plot::Palette;
use longsmoke::units::{Quantity, System, number, unit_of};
use longsmoke::words::day::{clock, moment, summary};
use std::cell::Cell;
use std::rc::Rc;
use web_sys::Event;

/// Step of the cursor (min).
const STEP: f64 = 5.0;

pub fn curves_view(work: Work, theme: Theme) -> Tag {
    // Ends of the time axis over the width of the canvas.
    let ends = Rc::new(Cell::new((0.0, 1.0)));
    let paint = {
        let ends = Rc::clone(&ends);
        move |area: &Area, palette: &Palette| {
            let (plot, hours) = work
                .read(|state, _, system| (curves(state, system), work.time(state) / 3600.0))?;
            let (left, right) = draw(&plot, area, palette, Some(hours)).ok()?;
            let width = f64::from(area.dim_in_pixel().0.max(1));
            ends.set((f64::from(left) / width, f64::from(right) / width));
            Some(())
        }
    };
    let (canvas, pens) = painted(theme, paint);
    let point = move |event: Event| {
        if let Some(share) = share_of(&event) {
            let (left, right) = ends.get();
            let at = ((share - left) / (right - left)).clamp(0.0, 1.0);
            let span = untrack(|| work.read(|state, _, _| span(state))).unwrap_or(24.0);
            work.minutes.set((60.0 * span * at / STEP).round() * STEP);
        }
    };
    let label = move || work.read(|state, _, system| summary(state, system));
    let canvas = canvas
        .attr("role", "img")
        .attr("data-testid", "day-plot")
        .live_attr("aria-label", label)
        .on("pointermove", point.clone())
        .on("pointerdown", point);
    let line = tag("p")
        .class("moment")
        .attr("data-testid", "day-moment")
        .attr("aria-live", "polite")
        .live_text(move || {
            work.read(|state, _, system| {
                let time = work.time(state);
                moment(time, &state.moment(time), system)
            })
        });
    tag("div")
        .class("curves")
        .child(tag("h3").text(texts::DAY_CURVES))
        .child(tag("div").class("canvas").child(canvas))
        .child(cursor(work))
        .child(line)
        .child(pens)
}

/// Where on the width of its element a pointer is.
fn share_of(event: &Event) -> Option<f64> {
    use wasm_bindgen::JsCast as _;
    let element: web_sys::Element = event.target()?.dyn_into().ok()?;
    let across = js_sys::Reflect::get(event, &"offsetX".into()).ok()?.as_f64()?;
    Some(across / element.get_bounding_client_rect().width().max(1.0))
}

/// The cursor as a slider, for the keyboard and for fingers.
fn cursor(work: Work) -> Tag {
    let most = move || work.read(|state, _, _| (60.0 * span(state)).to_string());
    let enter = move |event: Event| {
        if let Ok(minutes) = value_of(&event).parse() {
            work.minutes.set(minutes);
        }
    };
    tag("input")
        .attr("type", "range")
        .attr("min", "0")
        .attr("step", &STEP.to_string())
        .attr("aria-label", texts::DAY_CURSOR)
        .live_attr("max", most)
        .live_attr("aria-valuetext", move || Some(clock(60.0 * work.minutes.get())))
        .live_value(move || Some(work.minutes.get().to_string()))
        .on("input", enter)
}

/// The same as a table, hour by hour.
pub fn twin(work: Work) -> Tag {
    let head = tag("thead").live(move |head| {
        let system = work.workspace.system.get();
        let power = unit_of(Quantity::Power, system).symbol;
        let degrees = unit_of(Quantity::Temperature, system).symbol;
        let cell = |name: &str| tag("th").attr("scope", "col").text(name);
        let cells = [
            (texts::DAY_FIRE, power),
            (texts::DAY_GAS, power),
            (texts::DAY_ROOM, power),
            (texts::DAY_FACE, degrees),
        ];
        let row = tag("tr").child(cell(texts::DAY_HOUR));
        head.child(row.children(cells.map(|(name, unit)| cell(&format!("{name}, {unit}")))))
    });
    let body = tag("tbody").live(move |body| {
        let rows = work.read(|state, _, system| {
            let hours = std::iter::successors(Some(0.0), |hour| Some(hour + 1.0));
            let last = span(state);
            hours
                .take_while(|hour| *hour <= last + 1e-6)
                .map(|hour| row(hour, &state.moment(3600.0 * hour), system))
                .collect::<Vec<_>>()
        });
        body.children(rows.into_iter().flatten())
    });
    tag("details")
        .class("twin")
        .child(tag("summary").text(texts::DAY_TABLE))
        .child(tag("table").child(head).child(body))
}

fn row(hour: f64, moment: &Moment, system: System) -> Tag {
    let cells = [
        (moment.wood_watts, Quantity::Power),
        (moment.stack_watts, Quantity::Power),
        (moment.room_watts, Quantity::Power),
        (moment.surface, Quantity::Temperature),
    ];
    let cell = |(value, quantity)| tag("td").text(&number(value, quantity, system));
    let [fire, others @ ..] = cells;
    let fire = if fire.0 > 0.0 { cell(fire) } else { tag("td").text(texts::DAY_NO_FIRE) };
    tag("tr")
        .child(tag("th").attr("scope", "row").text(&format!("{hour:.0}")))
        .child(fire)
        .children(others.map(cell))
}
