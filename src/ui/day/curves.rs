//! The curves of the day on a canvas, with a cursor for pointer and keyboard and a table twin.

use super::Work;
use crate::ui::dom::{Tag, tag, value_of};
use crate::ui::plot::{Area, Ends, painted, pointed, shares};
use crate::ui::{Theme, texts};
use leptos::reactive::graph::untrack;
use longsmoke::analysis::day::Moment;
use longsmoke::drawing::day::{curves, draw, span};
use longsmoke::drawing::plot::Palette;
use longsmoke::units::{Quantity, System, float, number, unit_of};
use longsmoke::words::day::{clock, moment, summary};
use std::rc::Rc;
use web_sys::Event;

/// Step of the cursor (min).
const STEP: f64 = 5.0;

pub fn curves_view(work: Work, theme: Theme) -> Tag {
    let ends = Ends::default();
    let paint = {
        let ends = Rc::clone(&ends);
        move |area: &Area, palette: &Palette| {
            let (plot, hours) = work
                .read(|state, _, system| (curves(state, system), work.time(state) / 3600.0))?;
            ends.set(shares(area, draw(&plot, area, palette, Some(hours)).ok()?));
            Some(())
        }
    };
    let (canvas, pens) = painted(theme, paint);
    let point = move |share: f64| {
        let span = untrack(|| work.read(|state, _, _| span(state))).unwrap_or(24.0);
        work.minutes.set((60.0 * span * share / STEP).round() * STEP);
    };
    let label = move || work.read(|state, _, system| summary(state, system));
    let canvas = canvas
        .attr("role", "img")
        .attr("data-testid", "day-plot")
        .live_attr("aria-label", label);
    let canvas = pointed(canvas, ends, point);
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
        .child(tag("h3").text(texts::day_curves()))
        .child(tag("div").class("canvas").child(canvas))
        .child(cursor(work))
        .child(line)
        .child(pens)
}

/// The cursor as a slider, for the keyboard and for fingers.
fn cursor(work: Work) -> Tag {
    let most = move || work.read(|state, _, _| (60.0 * span(state)).to_string());
    let enter = move |event: Event| {
        if let Some(minutes) = float(&value_of(&event)) {
            work.minutes.set(minutes);
        }
    };
    tag("input")
        .attr("type", "range")
        .attr("min", "0")
        .attr("step", &STEP.to_string())
        .attr("aria-label", texts::day_cursor())
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
            (texts::day_fire(), power),
            (texts::day_gas(), power),
            (texts::day_room(), power),
            (texts::day_face(), degrees),
        ];
        let row = tag("tr").child(cell(texts::day_hour()));
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
        .child(tag("summary").text(texts::day_table()))
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
    let fire = if fire.0 > 0.0 { cell(fire) } else { tag("td").text(texts::day_no_fire()) };
    tag("tr")
        .child(tag("th").attr("scope", "row").text(&format!("{hour:.0}")))
        .child(fire)
        .children(others.map(cell))
}
