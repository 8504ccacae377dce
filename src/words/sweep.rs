//! Inputs over their ranges in words.

use super::compare::{self, BRICKS, Beside, NOTE};
use super::label;
use super::suggest::input;
use crate::language::{said, say};
use crate::study::figures::Figures;
use crate::study::sweep::{Axis, Point};
use crate::units::System;
use crate::words::passage::{Block, Cell, Passage, Table};

/// One input over its range: where it answers yes three times, and every figure.
pub fn passage(axis: &Axis, points: &[Point], system: System) -> Passage {
    let shown = |point: &Point| {
        let value = point.values.first().copied().unwrap_or_default();
        input(axis.field, value, system)
    };
    let designs: Vec<Beside<'_>> =
        points.iter().map(|point| (shown(point), &point.result)).collect();
    let failures = points.iter().filter_map(|point| {
        let why = super::failure(point.result.as_ref().err()?, system);
        Some(format!("{}: {why}", shown(point)))
    });
    Passage::new(label(axis.field))
        .text(stretches(axis, points, system))
        .with(Block::Table(compare::table(label(axis.field), &designs, system)))
        .list(failures)
        .text(NOTE)
        .text(BRICKS)
}

/// From where to where three questions are answered yes.
fn stretches(axis: &Axis, points: &[Point], system: System) -> String {
    let passes = |point: &Point| point.result.as_ref().is_ok_and(Figures::passes);
    let shown = |point: &Point| {
        let value = point.values.first().copied().unwrap_or_default();
        input(axis.field, value, system)
    };
    let runs = points.chunk_by(|one, other| passes(one) == passes(other));
    let yes = runs.filter(|run| run.first().is_some_and(passes)).filter_map(|run| {
        let (first, last) = (shown(run.first()?), shown(run.last()?));
        Some(if first == last { first } else { say!("{first} to {last}") })
    });
    let yes: Vec<_> = yes.collect();
    if yes.is_empty() {
        said("At none of these values are all three questions answered yes.").into()
    } else {
        say!("Yes three times at {}, as far as these values show.", yes.join(said(" and ")))
    }
}

/// Two inputs as a map: the worst of the three answers at each pair of values.
pub fn map(axes: (&Axis, &Axis), points: &[Point], system: System) -> Passage {
    let (down, across) = axes;
    let heads = across.values.iter().map(|value| input(across.field, *value, system));
    let corner = say!("{}, then across {}", label(down.field), label(across.field));
    let rows = down.values.iter().zip(points.chunks(across.values.len().max(1)));
    let rows = rows.map(|(value, points)| {
        let head = Cell::from(input(down.field, *value, system));
        std::iter::once(head).chain(points.iter().map(cell)).collect()
    });
    let yes = points.iter().filter(|point| point.result.as_ref().is_ok_and(Figures::passes));
    Passage::new(say!("{} and {}", label(down.field), label(across.field)))
        .text(say!(
            "The worst of the three answers at each pair. {} of {} pairs answer yes three times.",
            yes.count(),
            points.len()
        ))
        .with(Block::Table(Table {
            caption: None,
            heads: std::iter::once(corner).chain(heads).collect(),
            rows: rows.collect(),
        }))
}

fn cell(point: &Point) -> Cell {
    point.result.as_ref().map_or(compare::NOTHING.into(), compare::worst)
}
