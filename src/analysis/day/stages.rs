//! A step of time by the two-stage, second-order, L-stable implicit method (SDIRK2): two implicit
//! Euler steps of 0.29 of its length, the second from a state that runs ahead.
//!
//! Running ahead overshoots in a wall that follows the gas within less than a step, such as the
//! sheet of a connector. Such a light wall takes the weights of the stages for its two steps, 0.71
//! and 0.29 of the length: it never overshoots, what its faces pass is booked as it was passed, and
//! it is of first order in steps in which it is in balance with the gas anyway.

use super::burn::BurnCurve;
use super::clock::Step;
use super::record::{Record, Stage};
use super::solver::Solver;
use crate::analysis::Failure;

/// Share of a step in each stage: 1 - 1/sqrt(2).
const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
/// A step that does not settle is cut in two, down to this length (s).
const SHORTEST: f64 = 2.0;

/// Makes one step; what its stages find is booked where a record is kept, while the solver still
/// holds the conductances of that stage.
///
/// # Errors
///
/// [`Failure`], also where a step does not settle however short it is.
pub fn advance(
    solver: &mut Solver<'_>,
    curve: &BurnCurve,
    step: &Step,
    state: &mut Vec<f64>,
    mut record: Option<&mut Record>,
) -> Result<(), Failure> {
    let before = (state.clone(), solver.place());
    let booked = record.as_ref().map(|record| record.booked.clone());
    let made = both_stages(solver, curve, step, state, record.as_deref_mut());
    if made != Err(Failure::DayUnsettled) || step.length < SHORTEST {
        return made;
    }
    if let (Some(record), Some(booked)) = (&mut record, booked) {
        record.booked = booked;
    }
    let (old, place) = before;
    state.clone_from(&old);
    solver.aside(place, |solver| {
        step.halves()
            .iter()
            .try_for_each(|half| advance(solver, curve, half, state, record.as_deref_mut()))
    })
}

fn both_stages(
    solver: &mut Solver<'_>,
    curve: &BurnCurve,
    step: &Step,
    state: &mut Vec<f64>,
    mut record: Option<&mut Record>,
) -> Result<(), Failure> {
    let length = GAMMA * step.length;
    let weight = step.length - length;
    let before = state.clone();
    solver.weigh(step.length);
    let rates = solver.stage(state, (length, weight), curve.at(step.since_lit + length))?;
    if let Some(record) = &mut record {
        record.add(solver, state, &rates, Stage { time: step.start + length, weight });
    }
    solver.run_ahead(state, &before, weight / length);
    // Just before the end, since the next step may begin something new.
    let end = curve.at(step.since_lit + step.length * (1.0 - 1e-9));
    let rates = solver.stage(state, (length, length), end)?;
    if let Some(record) = record {
        let time = step.start + step.length;
        record.add(solver, state, &rates, Stage { time, weight: length });
        record.point(solver, state, &rates, time);
    }
    Ok(())
}
