//! The firing day: ordered from a worker of its own, so that it delays neither the strip nor the
//! page, and shown as soon as a part of it is found.

mod account;
mod curves;
mod schedule;

use super::dom::{Tag, button, tag};
use super::labor::{Job, Task, Wanted};
use super::passage::passage_view;
use super::signal::RwSignal;
use super::told;
use super::workspace::{Workspace, same_but_name};
use super::{Theme, texts};
use longsmoke::analysis::day::DayState;
use longsmoke::drawing::day::span;
use longsmoke::rules::DayFigures;
use longsmoke::service::{DayTold, Told, order};
use longsmoke::study::day::{First, Part};
use longsmoke::study::trials::Tried;
use longsmoke::units::System;
use longsmoke::words;
use std::sync::Arc;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(150),
    rank: 1,
    ask: |_| order::Job::Day,
    same: same_but_name,
    in_units: false,
};

/// Which of the two states is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Which {
    FirstFire,
    Repeating,
}

/// What the worker has found; written by its messages alone. An old part stays until it is
/// replaced.
#[derive(Clone, Debug, Default, PartialEq)]
struct Found {
    first: Option<(u64, Arc<First>)>,
    repeating: Option<(u64, Arc<DayState>)>,
}

/// The section's state.
#[derive(Clone, Copy)]
struct Work {
    workspace: Workspace,
    task: Task,
    found: RwSignal<Found>,
    which: RwSignal<Which>,
    /// Time of the cursor (min).
    minutes: RwSignal<f64>,
}

pub fn day_view(workspace: Workspace, theme: Theme) -> Tag {
    let found = RwSignal::new(Found::default());
    let house: told::Found<Told> = RwSignal::new(None);
    let task = Task::new(workspace, JOB, move |wanted, what| {
        let of = wanted.generation;
        match what.parse() {
            Ok(DayTold::Part(part)) => match *part {
                Part::First(first) => {
                    found.update(|found| found.first = Some((of, first.into())));
                }
                Part::Repeating(state) => {
                    found.update(|found| found.repeating = Some((of, state.into())));
                    tell_workspace(workspace, found, wanted);
                }
                Part::Failed(failure) => {
                    workspace.day.set(Some((Arc::clone(&wanted.design), Err(failure))));
                }
                Part::Begun => {}
            },
            Ok(DayTold::House(told)) => house.set(Some((of, Arc::new(told)))),
            Ok(DayTold::Mild(Tried { day, .. })) => {
                workspace.mild.set(Some((Arc::clone(&wanted.design), day)));
            }
            Err(_) => {}
        }
    });
    workspace.awaited.update(|awaited| awaited.push(task));
    let half_burned =
        workspace.design.with_untracked(|design| design.fire.burn_duration / 120.0);
    let work = Work {
        workspace,
        task,
        found,
        which: RwSignal::new(Which::Repeating),
        minutes: RwSignal::new(half_burned.round()),
    };
    let state = tag("p")
        .class("help state")
        .attr("role", "status")
        .attr("data-testid", "day-state")
        .live_text(move || Some(work.state_in_words()));
    tag("section")
        .class("day")
        .attr("aria-labelledby", "day-title")
        .attr("data-testid", "day")
        .live_attr("aria-busy", move || Some((!task.is_done()).to_string()))
        .child(tag("h2").id("day-title").text(texts::day()))
        .child(tag("p").class("help").text(texts::day_note()))
        .child(switch(work))
        .child(told::with_cancel(task, state))
        .child(body(work, theme))
        .child(house_view(workspace, task, house))
}

/// What the day makes of the house.
fn house_view(workspace: Workspace, task: Task, found: told::Found<Told>) -> Tag {
    let read = move || told::read(workspace, found, |told| told);
    tag("section")
        .class("house")
        .attr("aria-labelledby", "house-title")
        .attr("data-testid", "house")
        .child(tag("h3").id("house-title").text(words::house::TITLE.said()))
        .child(told::graying(task, found, passage_view(read)))
}

fn switch(work: Work) -> Tag {
    let choice = |which, name| {
        let pressed = move || Some((work.which.get() == which).to_string());
        button(move || work.which.set(which)).live_attr("aria-pressed", pressed).text(name)
    };
    tag("div")
        .class("pair")
        .attr("role", "group")
        .attr("aria-label", texts::day_which())
        .child(choice(Which::FirstFire, texts::day_first()))
        .child(choice(Which::Repeating, texts::day_repeating()))
}

fn body(work: Work, theme: Theme) -> Tag {
    let class =
        move || Some(if work.is_stale() { "day-body stale" } else { "day-body" }.to_owned());
    let nothing = move || work.read(|_, _, _| ()).is_none().then(String::new);
    tag("div")
        .live_attr("class", class)
        .live_attr("hidden", nothing)
        .child(schedule::schedule(work))
        .child(curves::curves_view(work, theme))
        .child(account::path_at(work))
        .child(account::account(work))
        .child(curves::twin(work))
}

impl Work {
    /// Reads the state that is shown, with the single firing, in the units that are shown.
    fn read<T>(self, read: impl FnOnce(&DayState, &First, System) -> T) -> Option<T> {
        let (which, system) = (self.which.get(), self.workspace.system.get());
        self.found.with(|found| {
            let (_, first) = found.first.as_ref()?;
            match which {
                Which::FirstFire => Some(read(&first.state, first, system)),
                Which::Repeating => {
                    let (_, state) = found.repeating.as_ref()?;
                    Some(read(state, first, system))
                }
            }
        })
    }

    /// Time of the cursor within what is shown (s).
    fn time(self, state: &DayState) -> f64 {
        self.minutes.get().clamp(0.0, 60.0 * span(state)) * 60.0
    }

    fn is_fresh(self, which: Which) -> bool {
        let wanted = self.task.generation();
        self.found.with(|found| match which {
            Which::FirstFire => found.first.as_ref().is_some_and(|(of, _)| *of == wanted),
            Which::Repeating => found.repeating.as_ref().is_some_and(|(of, _)| *of == wanted),
        })
    }

    /// Whether what is shown belongs to an earlier design.
    fn is_stale(self) -> bool {
        !self.is_fresh(self.which.get())
    }

    fn state_in_words(self) -> String {
        let shown = self.is_stale() && self.read(|_, _, _| ()).is_some();
        let rest =
            if self.task.failure().is_some() && shown { texts::day_last_good() } else { "" };
        format!("{} {rest}", self.task.in_words()).trim().to_owned()
    }
}

/// Lets the findings know the day of a design, once both of its parts are there.
fn tell_workspace(workspace: Workspace, found: RwSignal<Found>, wanted: &Wanted) {
    let figures = found.with_untracked(|found| {
        let (of, first) = found.first.as_ref()?;
        let (_, repeating) = found.repeating.as_ref()?;
        (*of == wanted.generation)
            .then(|| DayFigures::new(&wanted.design, &first.state, repeating))
    });
    if let Some(figures) = figures {
        workspace.day.set(Some((Arc::clone(&wanted.design), Ok(figures))));
    }
}
