//! Every brick of a design, course by course.

use super::{Outcome, complain, open, say};
use longsmoke::analysis::{Analysis, analyze};
use longsmoke::courses::brick::Bricks;
use longsmoke::courses::check::check;
use longsmoke::courses::lattice::{Rect, meters};
use longsmoke::courses::materials::{Cut, Tally, cuts, tallies};
use longsmoke::courses::snap::{Change, snap};
use longsmoke::courses::{Course, Piece, Plans, plans};
use longsmoke::design::Design;
use longsmoke::design::field::field;
use longsmoke::export::{csv, dxf, svg};
use longsmoke::units::System;
use longsmoke::words;
use serde_json::{Value, json};

/// How the courses are written.
#[derive(Clone, Copy)]
pub enum Form {
    /// Passage.
    Text(System),
    /// A row a piece.
    Csv,
    /// A document.
    Json,
    /// The plan of every course, one below the other.
    Svg(System),
    /// Every brick in place for CAD, a layer for each course.
    Dxf(System),
}

/// The courses of a file.
pub fn courses(file: &str, form: Form) -> Outcome {
    let design = match open(file) {
        Ok(design) => design,
        Err(outcome) => return outcome,
    };
    let system = match form {
        Form::Text(system) | Form::Svg(system) | Form::Dxf(system) => system,
        Form::Csv | Form::Json => System::Metric,
    };
    let analysis = match analyze(&design) {
        Ok(analysis) => analysis,
        Err(failure) => {
            complain(&format!("{file}: {}\n", words::failure(&failure, system)));
            return Outcome::Unreadable;
        }
    };
    let plans = plans(&design, Bricks::of(&design));
    let said = match form {
        Form::Text(system) => {
            say(&words::courses::passage(&design, &analysis, &plans, system).plain())
        }
        Form::Csv => say(&csv::courses(&plans)),
        Form::Json => say(&format!("{}\n", document(&design, &analysis, &plans))),
        Form::Svg(system) => say(&svg::courses(&plans, system)),
        Form::Dxf(system) => say(&dxf::courses(&plans, system)),
    };
    // Plans by which nobody may build.
    if check(&plans).faults.is_empty() { said } else { Outcome::Unreadable }
}

fn corners(rect: &Rect) -> Value {
    let [left, front, right, back] =
        [rect.left, rect.front, rect.right, rect.back].map(rounded);
    json!({ "left_m": left, "front_m": front, "right_m": right, "back_m": back })
}

fn rounded(steps: i32) -> Value {
    json!(meters(steps))
}

fn document(design: &Design, analysis: &Analysis, plans: &Plans) -> Value {
    let piece = |piece: &Piece| {
        json!({
            "kind": piece.id(),
            "place": corners(&piece.rect),
            "left_out": piece.holes.iter().map(corners).collect::<Vec<_>>(),
            "size_m": piece.size.map(rounded),
        })
    };
    let course = |course: &Course| {
        let open = course.open.iter().map(|(opening, rect)| {
            json!({ "for": words::courses::opening(*opening), "place": corners(rect) })
        });
        let ties = course.ties.iter().map(|(x, y)| json!([rounded(*x), rounded(*y)]));
        json!({
            "part": course.part.id(),
            "body": course.body + 1,
            "course": course.number,
            "bed_from_m": rounded(course.bottom),
            "bottom_m": rounded(course.bottom + course.bed),
            "top_m": rounded(course.top()),
            "pieces": course.pieces.iter().map(piece).collect::<Vec<_>>(),
            "open": open.collect::<Vec<_>>(),
            "ties_m": ties.collect::<Vec<_>>(),
        })
    };
    let report = check(plans);
    let tallies = tallies(design, &analysis.structure, plans);
    let snapped = snap(design, plans.bricks);
    let change = |change: &Change| {
        let path = field(change.field).path;
        json!({ "input": path, "run": change.run, "from": change.from, "to": change.to })
    };
    json!({
        "materials": tallies.iter().map(tally).collect::<Vec<_>>(),
        "cuts": cuts(plans).iter().map(cut).collect::<Vec<_>>(),
        "sizes_that_fit": snapped.changes.iter().map(change).collect::<Vec<_>>(),
        "courses": plans.courses.iter().map(course).collect::<Vec<_>>(),
        "faults": report.faults.len(),
        "places_to_look_at": report.notes.len(),
    })
}

fn tally(tally: &Tally) -> Value {
    json!({
        "part": tally.part.id(),
        "whole_bricks": tally.whole,
        "cut_bricks": tally.cut,
        "bricks_to_take": tally.bricks,
        "slabs": tally.slabs,
        "lintels": tally.lintels,
        "blocks": tally.blocks,
        "ties": tally.ties,
        "pieces_m3": tally.pieces,
        "mortar_m3": tally.mortar,
        "mass_kg": tally.mass,
        "by_volume_m3": tally.estimated,
        "by_volume_kg": tally.estimated_mass,
        "difference_by_mortar_kg": tally.by_mortar,
        "difference_by_other_volume_kg": tally.by_volume,
    })
}

fn cut(cut: &Cut) -> Value {
    json!({
        "part": cut.part.id(),
        "kind": cut.kind.id(),
        "size_m": cut.size.map(rounded),
        "count": cut.count,
    })
}
