//! How figures came about: all that stand at the head of the page, and those behind a finding.

use super::dom::{Tag, tag};
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::signal::RwSignal;
use super::texts;
use super::told::{Found, fold, graying, read, state};
use super::workspace::{Workspace, same_but_name};
use longsmoke::rules::Finding;
use longsmoke::service::{Workings, order};
use longsmoke::study::working::behind;
use longsmoke::words::passage::Passage;
use longsmoke::words::working as said;
use std::sync::Arc;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(250),
    rank: 2,
    ask: |_| order::Job::Working,
    same: same_but_name,
    in_units: false,
};

/// What is known of the workings, for all views that show any.
#[derive(Clone, Copy)]
pub struct Working {
    workspace: Workspace,
    task: Task,
    found: Found<Workings>,
}

impl Working {
    /// Puts a worker to it.
    pub fn new(workspace: Workspace) -> Self {
        let found: Found<Workings> = RwSignal::new(None);
        let task = Task::new(workspace, JOB, move |wanted, what| {
            if let Some(told) = Workings::read(what) {
                found.set(Some((wanted.generation, Arc::new(told))));
            }
        });
        Self { workspace, task, found }
    }

    /// The figures behind a finding, each with its working; none where there are none.
    fn behind(self, finding: &Finding) -> Option<Passage> {
        let system = self.workspace.system.get();
        self.found.with(|found| {
            let (_, workings) = found.as_ref()?;
            let figures = behind(finding)
                .into_iter()
                .filter_map(|shown| Some(workings.figure(shown)?.get(system).clone()));
            let passage = figures.fold(Passage::default(), Passage::folded);
            (!passage.blocks.is_empty()).then_some(passage)
        })
    }

    /// The same to unfold below a finding; it has its place before they are there.
    pub fn below(self, finding: impl Fn() -> Option<Finding> + Copy + 'static) -> Tag {
        let passage = move || finding().and_then(|finding| self.behind(&finding));
        let is_none = move || finding().is_none_or(|finding| behind(&finding).is_empty());
        tag("details")
            .class("twin working")
            .live_attr("hidden", move || is_none().then(String::new))
            .child(tag("summary").text(texts::working()))
            .child(graying(self.task, self.found, passage_view(passage)))
    }
}

/// All figures at the head of the page.
pub fn working_view(working: Working) -> Tag {
    let Working { workspace, task, found } = working;
    let read = move || read(workspace, found, |told| &told.all);
    tag("section")
        .class("workings")
        .attr("aria-labelledby", "workings-title")
        .attr("data-testid", "workings")
        .live_attr("aria-busy", move || Some((!task.is_done()).to_string()))
        .child(fold(
            tag("h2").id("workings-title").text(said::TITLE.said()),
            [state(task, "workings"), graying(task, found, passage_view(read))],
        ))
}
