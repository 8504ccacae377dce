//! What the figures are worth: bands beside them, shares of answers, what matters most.

use super::dom::{Tag, tag};
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::signal::RwSignal;
use super::told::{Found, graying, is_stale, read, state, with_cancel};
use super::workspace::{Workspace, same_but_name};
use longsmoke::service::{Bands, order};
use longsmoke::units::System;
use longsmoke::words::uncertainty as said;
use std::sync::Arc;
use std::time::Duration;

/// The samples start after the day, so that what is looked at first is there first.
const JOB: Job = Job {
    rest: Duration::from_millis(200),
    rank: 3,
    ask: |_| order::Job::Samples,
    same: same_but_name,
    in_units: false,
};

/// What is known of the bands, for all views that show any.
#[derive(Clone, Copy)]
pub struct Worth {
    workspace: Workspace,
    task: Task,
    found: Found<Bands>,
}

impl Worth {
    /// Puts a worker to it.
    pub fn new(workspace: Workspace) -> Self {
        let found: Found<Bands> = RwSignal::new(None);
        let task = Task::new(workspace, JOB, move |wanted, what| {
            if let Some(bands) = Bands::read(what) {
                found.set(Some((wanted.generation, Arc::new(bands))));
            }
        });
        Self { workspace, task, found }
    }

    /// Reads the bands that were found last, in the units that are shown.
    pub fn read<T>(self, read: impl FnOnce(&Bands, System) -> T) -> Option<T> {
        let system = self.workspace.system.get();
        self.found.with(|found| Some(read(&found.as_ref()?.1, system)))
    }

    /// Whether what is read belongs to an earlier design.
    pub fn is_stale(self) -> bool {
        is_stale(self.task, self.found)
    }

    /// A line of text about the bands, grayed while they belong to an earlier design; it keeps its
    /// place while there is none.
    pub fn line(
        self,
        line: Tag,
        class: &'static str,
        text: impl Fn(&Bands, System) -> Option<String> + 'static,
    ) -> Tag {
        let graying = move || {
            let stale = self.found.with(Option::is_some) && self.is_stale();
            Some(format!("{class}{}", if stale { " stale" } else { "" }))
        };
        line.live_attr("class", graying).live_text(move || self.read(&text).flatten())
    }
}

pub fn worth_view(worth: Worth) -> Tag {
    let Worth { workspace, task, found } = worth;
    let read = move || read(workspace, found, |bands| &bands.passage);
    tag("section")
        .class("worth")
        .attr("aria-labelledby", "worth-title")
        .attr("data-testid", "worth")
        .live_attr("aria-busy", move || Some((!task.is_done()).to_string()))
        .child(tag("h2").id("worth-title").text(said::TITLE.said()))
        .child(with_cancel(task, state(task, "worth")))
        .child(graying(task, found, passage_view(read)))
}
