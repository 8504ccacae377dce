//! The smoke path unrolled: firebox, runs, connector and chimney in one row.
//!
//! Its units are not meters: bars share a length scale such that the whole is about twelve units
//! wide, and a height scale of their own. Short runs are lengthened to hold their figures, a long
//! chimney is shortened and drawn with a break.

use super::sheet::{Note, Sheet};
use super::{Anchor, Drawing, Extent, Role, Shape, heat_step, point};
use crate::analysis::Analysis;
use crate::design::Design;
use crate::language::{said, say};
use crate::rules::Place;
use crate::units::{Quantity, System, figure, number, unit_of};

/// Text size in the units of this drawing.
pub const TEXT_SIZE: f64 = 0.23;
/// Length that firebox, runs and chimney share, about.
const LENGTH: f64 = 12.0;
const FIREBOX: f64 = 1.0;
const CHIMNEY: f64 = 2.0;
const SHORTEST_RUN: f64 = 0.98;
const SHORTEST_CONNECTOR: f64 = 0.86;
/// Height of the highest channel.
const HIGHEST: f64 = 0.9;
/// Half of the height of the firebox.
const HALF_FIREBOX: f64 = 0.6;
const PIECES: u32 = 4;

struct Bar {
    left: f64,
    right: f64,
    half: f64,
    inlet: f64,
    outlet: f64,
    place: Place,
}

impl Bar {
    fn extent(&self) -> Extent {
        Extent::new(self.left, -self.half, self.right, self.half)
    }
}

/// The figures under a bar, in the order of [`rows`].
type Column = [Option<f64>; 3];

fn rows() -> [(&'static str, Quantity); 3] {
    [
        (said("wall"), Quantity::Temperature),
        (said("speed"), Quantity::Speed),
        (said("turn"), Quantity::Pressure),
    ]
}

/// The smoke path unrolled, in units of its own (see the module).
pub fn unrolled(design: &Design, analysis: &Analysis, system: System) -> Drawing {
    let mut sheet = Sheet::new(TEXT_SIZE);
    let bars = bars(design, analysis);
    for bar in &bars {
        draw_bar(&mut sheet, bar);
    }
    for (a, b) in bars.iter().zip(bars.iter().skip(1)) {
        let tip = (0.3 * (b.right - b.left)).min(0.4);
        sheet.arrow(Some(b.place), point(a.right - 0.2, 0.0), point(b.left + tip, 0.0));
    }
    if let Some(chimney) = bars.last() {
        draw_break(&mut sheet, chimney);
    }
    figures_above(&mut sheet, &bars, analysis, system);
    table(&mut sheet, &bars, analysis, system);
    let description = description(design, analysis, system);
    sheet.finish(description)
}

fn bars(design: &Design, analysis: &Analysis) -> Vec<Bar> {
    let fire = &analysis.height_of_fire;
    let runs = design.path.runs();
    let connector = design.chimney.connector_length;
    let total: f64 = runs.iter().map(|run| run.length).sum::<f64>() + connector;
    let scale = (LENGTH - FIREBOX - CHIMNEY) / total.max(0.1);
    // Few runs need not fill the width.
    let scale = scale.min(2.0);
    let flue = design.chimney.hydraulic_diameter();
    let highest = runs.iter().map(|run| run.height).fold(flue, f64::max);
    let half = |height: f64| (0.5 * HIGHEST * height / highest).max(0.06);
    let mut left = 0.0;
    let mut next = |length: f64| {
        let from = left;
        left += length;
        (from, left)
    };
    let mut bars = Vec::with_capacity(runs.len() + 3);
    let mut push = |(left, right): (f64, f64), half: f64, gas: (f64, f64), place: Place| {
        bars.push(Bar { left, right, half, inlet: gas.0, outlet: gas.1, place });
    };
    let hot = fire.firebox_outlet;
    push(next(FIREBOX), HALF_FIREBOX, (hot, hot), Place::Firebox);
    for (index, (run, state)) in runs.iter().zip(&fire.runs).enumerate() {
        let length = (run.length * scale).max(SHORTEST_RUN);
        let gas = (state.inlet, state.outlet);
        push(next(length), half(run.height), gas, Place::Run(index));
    }
    let length = (connector * scale).clamp(SHORTEST_CONNECTOR, CHIMNEY);
    let gas = (fire.runs_outlet, fire.chimney_inlet);
    push(next(length), half(flue), gas, Place::RunsOutlet);
    let gas = (fire.chimney_inlet, fire.chimney_mouth_gas);
    push(next(CHIMNEY), half(flue), gas, Place::ChimneyMouth);
    bars
}

fn draw_bar(sheet: &mut Sheet, bar: &Bar) {
    let step = (bar.right - bar.left) / f64::from(PIECES);
    let place = Some(bar.place);
    for piece in 0..PIECES {
        let share = (f64::from(piece) + 0.5) / f64::from(PIECES);
        let kelvin = bar.inlet + share * (bar.outlet - bar.inlet);
        let left = bar.left + step * f64::from(piece);
        let extent = Extent::new(left, -bar.half, left + step, bar.half);
        sheet.rectangle(Role::Gas(heat_step(kelvin)), place, extent);
    }
    sheet.rectangle(Role::Outline, place, bar.extent());
}

/// Two slanted strokes with paper between: the chimney goes on.
fn draw_break(sheet: &mut Sheet, chimney: &Bar) {
    let middle = 0.5 * (chimney.left + chimney.right);
    let (low, high) = (-chimney.half - 0.1, chimney.half + 0.1);
    let gap = Extent::new(middle - 0.06, low, middle + 0.06, high);
    sheet.rectangle(Role::Void, Some(chimney.place), gap);
    for x in [gap.low.x, gap.high.x] {
        sheet.line(Role::Outline, vec![point(x - 0.06, low), point(x + 0.06, high)]);
    }
}

fn figures_above(sheet: &mut Sheet, bars: &[Bar], analysis: &Analysis, system: System) {
    let base = HALF_FIREBOX + 0.6 * TEXT_SIZE;
    for bar in bars.iter().skip(1) {
        stroke(sheet, bar.left, base, bar.half);
        temperature(sheet, point(bar.left, base), (bar.inlet, bar.place), system);
    }
    let Some(chimney) = bars.last() else {
        return;
    };
    stroke(sheet, chimney.right, base, chimney.half);
    temperature(sheet, point(chimney.right, base), (chimney.outlet, chimney.place), system);
    let dew_point = figure(analysis.height_of_fire.dew_point, Quantity::Temperature, system);
    sheet.note(Note {
        at: point(chimney.right, base + 1.4 * TEXT_SIZE),
        text: say!("dew point {dew_point}"),
        anchor: Anchor::End,
        role: Role::QuietLabel,
        place: Some(Place::ChimneyMouth),
        leader: None,
        step: point(0.0, 0.4 * TEXT_SIZE),
    });
}

/// From a figure down to the bars.
fn stroke(sheet: &mut Sheet, x: f64, figure: f64, bar: f64) {
    let from = point(x, figure - 0.3 * TEXT_SIZE);
    sheet.line(Role::QuietLabel, vec![from, point(x, bar)]);
}

fn temperature(sheet: &mut Sheet, at: super::Point, gas: (f64, Place), system: System) {
    sheet.note(Note {
        at,
        text: figure(gas.0, Quantity::Temperature, system),
        anchor: Anchor::Middle,
        role: Role::Label,
        place: Some(gas.1),
        leader: None,
        step: point(0.0, 0.4 * TEXT_SIZE),
    });
}

/// Rows of figures under the bars, with their names and units at the left.
fn table(sheet: &mut Sheet, bars: &[Bar], analysis: &Analysis, system: System) {
    let row = |index: f64| -HALF_FIREBOX - TEXT_SIZE * (1.5 + 1.5 * index);
    let mut y = row(0.0);
    for bar in bars {
        quiet(sheet, bar, y, heading(bar.place));
    }
    for (index, (name, quantity)) in rows().into_iter().enumerate() {
        y -= 1.5 * TEXT_SIZE;
        let symbol = unit_of(quantity, system).symbol;
        sheet.add(
            Role::QuietLabel,
            None,
            Shape::Label {
                at: point(-0.1, y),
                text: format!("{name}, {symbol}"),
                anchor: Anchor::End,
            },
        );
        for bar in bars {
            let value = column(bar.place, analysis).get(index).copied().flatten();
            if let Some(value) = value {
                quiet(sheet, bar, y, number(value, quantity, system));
            }
        }
    }
}

fn heading(place: Place) -> String {
    match place {
        Place::Run(index) => (index + 1).to_string(),
        Place::Firebox => said("fire").into(),
        Place::RunsOutlet => said("pipe").into(),
        _ => said("chimney").into(),
    }
}

fn column(place: Place, analysis: &Analysis) -> Column {
    let fire = &analysis.height_of_fire;
    match place {
        Place::Firebox => [Some(fire.firebox_wall), None, None],
        Place::Run(index) => fire
            .runs
            .get(index)
            .map_or([None; 3], |run| [Some(run.wall), Some(run.velocity), Some(run.turn)]),
        Place::ChimneyMouth => {
            [Some(fire.chimney_mouth_wall), Some(fire.chimney_velocity), None]
        }
        _ => [None; 3],
    }
}

/// A figure of the table under the middle of a bar.
fn quiet(sheet: &mut Sheet, bar: &Bar, y: f64, text: String) {
    sheet.add(
        Role::QuietLabel,
        Some(bar.place),
        Shape::Label {
            at: point(0.5 * (bar.left + bar.right), y),
            text,
            anchor: Anchor::Middle,
        },
    );
}

fn description(design: &Design, analysis: &Analysis, system: System) -> String {
    let fire = &analysis.height_of_fire;
    let shown = |kelvin: f64| figure(kelvin, Quantity::Temperature, system);
    let outlets: Vec<String> = fire.runs.iter().map(|run| shown(run.outlet)).collect();
    let after = if outlets.is_empty() {
        said("There are no runs").into()
    } else {
        say!("Gas after each run: {}", outlets.join(", "))
    };
    say!(
        "Smoke path unrolled, not to scale: firebox outlet {}. {after}. Into the chimney {}, at \
         its mouth {} with a wall of {} and a dew point of {}. Runs: {}.",
        shown(fire.firebox_outlet),
        shown(fire.chimney_inlet),
        shown(fire.chimney_mouth_gas),
        shown(fire.chimney_mouth_wall),
        shown(fire.dew_point),
        design.path.run_count,
    )
}
