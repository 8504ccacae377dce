//! The firing day as a whole against an independent Python model of the same specification,
//! `reference/independent_day.py`, on two designs of its author.
//!
//! It was written by someone who had not read this program; it solves the walls by the method of
//! lines with SciPy's BDF on thousands of nodes.

use crate::{Check, Publication, Worst, day_designs, hold};
use longsmoke::analysis::day::{Day, DayState, Resolution, day};
use longsmoke::sources::Trust;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// Farthest that an energy may lie from the independent one, over the heat of the wood.
const ENERGY: f64 = 0.01;
/// Farthest that a curve may, over its span.
const CURVE: f64 = 0.02;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference")
}

fn computed(name: &str, resolution: Resolution) -> Day {
    let (design, setup) = day_designs::read(name, resolution);
    day(&design, &setup).unwrap()
}

/// Rows of the table: design, state, figure, time (s), value.
fn rows() -> Vec<(String, String, String, f64, f64)> {
    let text = std::fs::read_to_string(folder().join("tables/day.csv")).unwrap();
    let lines = text.lines().filter(|line| !line.starts_with('#')).skip(1);
    lines
        .map(|line| {
            let [design, state, figure, time, value] = line.split(',').collect::<Vec<_>>()[..]
            else {
                panic!("five columns: {line}")
            };
            let number = |text: &str| text.parse::<f64>().unwrap();
            (design.into(), state.into(), figure.into(), number(time), number(value))
        })
        .collect()
}

fn state<'a>(day: &'a Day, name: &str) -> &'a DayState {
    if name == "periodic" { &day.periodic } else { &day.first_fire }
}

fn energies(days: &BTreeMap<&str, Day>) -> Worst {
    let rows = rows();
    let mut worst = Worst::default();
    for (design, name, figure, _, expected) in &rows {
        let day = state(&days[design.as_str()], name);
        let energy = serde_json::to_value(day.energy).unwrap();
        if let Some(got) = energy.get(figure).and_then(Value::as_f64) {
            let share = (got - expected) / day.energy.wood_joules;
            worst.absolute(share, 0.0, || format!("{design}, {name}, {figure}"));
        }
    }
    worst
}

/// A curve of ours, in the unit of the table.
fn curve(day: &DayState, figure: &str) -> Option<Vec<f64>> {
    let series = &day.series;
    let kelvins = |curve: &Vec<f64>| curve.iter().map(|celsius| celsius + 273.15).collect();
    match figure {
        "firebox_gas_kelvin" => Some(kelvins(&series.firebox_outlet_celsius)),
        "chimney_inlet_gas_kelvin" => Some(kelvins(&series.chimney_inlet_celsius)),
        "room_heat_watts" => Some(series.room_watts.clone()),
        _ => {
            let run = figure.strip_prefix("run.")?.strip_suffix(".end_gas_kelvin")?;
            Some(kelvins(&series.runs_celsius[run.parse::<usize>().unwrap()]))
        }
    }
}

/// Value of a curve at a time, straight between its points.
fn at(times: &[f64], values: &[f64], time: f64) -> f64 {
    let next = times.iter().position(|each| time <= *each).unwrap_or(times.len() - 1);
    if next == 0 {
        return values[0];
    }
    let share = (time - times[next - 1]) / (times[next] - times[next - 1]);
    values[next - 1] + share * (values[next] - values[next - 1])
}

fn curves(days: &BTreeMap<&str, Day>) -> Worst {
    let rows = rows();
    let mut spans: BTreeMap<(&str, &str, &str), (f64, f64)> = BTreeMap::new();
    for (design, state, figure, _, value) in &rows {
        let span = spans.entry((design, state, figure)).or_insert((*value, *value));
        *span = (span.0.min(*value), span.1.max(*value));
    }
    let mut worst = Worst::default();
    for (design, name, figure, time, expected) in &rows {
        let day = state(&days[design.as_str()], name);
        let Some(curve) = curve(day, figure) else { continue };
        let (low, high) = spans[&(design.as_str(), name.as_str(), figure.as_str())];
        let deviation = (at(&day.series.time_s, &curve, *time) - expected) / (high - low);
        worst.absolute(deviation, 0.0, || format!("{design}, {name}, {figure} at {time} s"));
    }
    worst
}

pub(crate) fn all() -> Publication {
    let days = |resolution| -> BTreeMap<&str, Day> {
        day_designs::NAMES.into_iter().map(|name| (name, computed(name, resolution))).collect()
    };
    // Points of the curves lie as far apart as the steps; the table's times fall between them.
    let (standard, fine) = (days(Resolution::STANDARD), days(Resolution::STANDARD.finer(2)));
    Publication {
        name: "Independent Python model of the firing day with SciPy",
        trust: Trust::Computed,
        checks: vec![
            Check::table("energies over the wood", &energies(&standard), ENERGY, "%"),
            Check::table("energies over the wood, cut finer", &energies(&fine), ENERGY, "%"),
            Check::table("curves over their span, cut finer", &curves(&fine), CURVE, "%"),
        ],
    }
}

#[test]
fn the_day_agrees_with_an_independent_model() {
    hold(&all());
}
