//! The register of sources, which a worker tells once: a line behind each finding, all of it at the
//! end of the page.

use super::dom::{Tag, tag};
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::signal::RwSignal;
use super::told::{Found, fold, graying, read, state};
use super::workspace::Workspace;
use longsmoke::service::{Register, order};
use longsmoke::sources::Source;
use longsmoke::words;
use std::sync::Arc;
use std::time::Duration;

/// It is the same for every design, and behind every finding, so it comes early.
const JOB: Job = Job {
    rest: Duration::from_millis(100),
    rank: 0,
    ask: |_| order::Job::Sources,
    same: |_, _| true,
    in_units: false,
};

/// What is known of the register, for all views that cite.
#[derive(Clone, Copy)]
pub struct Cited {
    task: Task,
    found: Found<Register>,
}

impl Cited {
    /// Puts a worker to it.
    pub fn new(workspace: Workspace) -> Self {
        let found: Found<Register> = RwSignal::new(None);
        let task = Task::new(workspace, JOB, move |wanted, what| {
            if let Some(register) = Register::read(what) {
                found.set(Some((wanted.generation, Arc::new(register))));
            }
        });
        Self { task, found }
    }

    /// A source as it stands behind a figure; only its label until the register is there.
    pub fn line(self, source: &Source) -> String {
        let known = self.found.with(|found| {
            let (_, register) = found.as_ref()?;
            register.line(source).map(str::to_owned)
        });
        known.unwrap_or_else(|| words::trust(source.trust).to_owned())
    }
}

pub fn sources_view(workspace: Workspace, cited: Cited) -> Tag {
    let Cited { task, found } = cited;
    let read = move || read(workspace, found, |register| &register.passage);
    tag("section")
        .class("sources")
        .attr("aria-labelledby", "sources-title")
        .attr("data-testid", "sources")
        .child(fold(
            tag("h2").id("sources-title").text(words::sources::TITLE.said()),
            [state(task, "sources"), graying(task, found, passage_view(read))],
        ))
}
