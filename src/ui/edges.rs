//! Safety at its unfavorable edge: judged as soon as it is known.

use super::dom::{Tag, tag};
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::signal::RwSignal;
use super::told::{Found, graying, read, state, with_cancel};
use super::workspace::{Workspace, same_but_name};
use longsmoke::service::{EdgesTold, order};
use longsmoke::words::edges as said;
use std::sync::Arc;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(300),
    rank: 4,
    ask: |_| order::Job::Edges,
    same: same_but_name,
    in_units: false,
};

pub fn edges_view(workspace: Workspace) -> Tag {
    let found: Found<EdgesTold> = RwSignal::new(None);
    let task = Task::new(workspace, JOB, move |wanted, what| {
        if let Ok(told) = what.parse::<EdgesTold>() {
            workspace.edges.set(Some((Arc::clone(&wanted.design), told.edges.clone())));
            // Without them there is nothing to read but why.
            if told.edges.is_ok() {
                found.set(Some((wanted.generation, Arc::new(told))));
            }
        }
    });
    workspace.awaited.update(|awaited| awaited.push(task));
    let read = move || read(workspace, found, |told| &told.passage);
    tag("div")
        .attr("data-testid", "edges")
        .live_attr("aria-busy", move || Some((!task.is_done()).to_string()))
        .child(tag("h3").text(said::TITLE.said()))
        .child(with_cancel(task, state(task, "edges")))
        .child(graying(task, found, passage_view(read)))
}
