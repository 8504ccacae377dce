//! Sections that show what a worker tells of the present design as a passage.

use super::dom::{Tag, tag};
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::workspace::Workspace;
use leptos::prelude::*;
use longsmoke::service::Told;
use longsmoke::words::passage::Passage;
use std::sync::Arc;

/// A section and the job whose passage it shows.
#[derive(Clone, Copy)]
pub struct Section {
    /// Its class, and its id in tests.
    pub name: &'static str,
    /// Its heading, which stands there before the passage does.
    pub title: &'static str,
    /// What brings the passage.
    pub job: Job,
}

/// What a job has told, with the generation that it is for: the old stays until it is replaced.
pub type Found<T> = RwSignal<Option<(u64, Arc<T>)>>;

pub fn section(workspace: Workspace, Section { name, title, job }: Section) -> Tag {
    let found: Found<Told> = RwSignal::new(None);
    let task = Task::new(workspace, job, move |wanted, what| {
        if let Some(told) = Told::read(what) {
            found.set(Some((wanted.generation, Arc::new(told))));
        }
    });
    let read = move || read(workspace, found, |told| told);
    let heading = format!("{name}-title");
    tag("section")
        .class(name)
        .attr("aria-labelledby", &heading)
        .attr("data-testid", name)
        .live_attr("aria-busy", move || Some((!task.is_done()).to_string()))
        .child(tag("h2").id(&heading).text(title))
        .child(state(task, name))
        .child(graying(task, found, passage_view(read)))
}

/// The passage in what was found, in the units that are shown.
pub fn read<T: Send + Sync + 'static>(
    workspace: Workspace,
    found: Found<T>,
    of: impl Fn(&T) -> &Told,
) -> Option<Passage> {
    let system = workspace.system.get();
    found.with(|found| Some(of(&found.as_ref()?.1).get(system).clone()))
}

/// Whether what was found is not for what is wanted.
pub fn is_stale<T: Send + Sync + 'static>(task: Task, found: Found<T>) -> bool {
    let wanted = task.generation();
    found.with(|found| found.as_ref().is_none_or(|(of, _)| *of != wanted))
}

/// How far a job has come, in a line that is read out.
pub fn state(task: Task, name: &str) -> Tag {
    tag("p")
        .class("help state")
        .attr("role", "status")
        .attr("data-testid", &format!("{name}-state"))
        .live_text(move || Some(task.in_words()))
}

/// Grays a view while it shows what was found for an earlier design.
pub fn graying<T: Send + Sync + 'static>(task: Task, found: Found<T>, view: Tag) -> Tag {
    let class = move || {
        let stale = found.with(Option::is_some) && is_stale(task, found);
        Some(if stale { "found stale" } else { "found" }.to_owned())
    };
    tag("div").live_attr("class", class).child(view)
}
