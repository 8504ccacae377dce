//! What explains words and page, which a worker tells once: the glossary, the words at each input,
//! and the walk.

use super::dom::{Tag, tag};
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::signal::RwSignal;
use super::texts;
use super::told::{Found, fold, state};
use super::workspace::Workspace;
use leptos::reactive::graph::untrack;
use longsmoke::design::field::Field;
use longsmoke::service::{Guide as Told, order};
use longsmoke::words::glossary::TITLE;
use std::sync::Arc;
use std::time::Duration;

/// It is the same for every design.
const JOB: Job = Job {
    rest: Duration::from_millis(100),
    rank: 1,
    ask: |_| order::Job::Guide,
    same: |_, _| true,
    in_units: false,
};

/// What is known of it, for all views that explain.
#[derive(Clone, Copy)]
pub struct Guide {
    task: Task,
    found: Found<Told>,
}

impl Guide {
    /// Puts a worker to it.
    pub fn new(workspace: Workspace) -> Self {
        let found: Found<Told> = RwSignal::new(None);
        let task = Task::new(workspace, JOB, move |wanted, what| {
            if let Some(told) = Told::read(what) {
                found.set(Some((wanted.generation, Arc::new(told))));
            }
        });
        Self { task, found }
    }

    /// Reads it, once it is there.
    pub fn read<T>(self, read: impl FnOnce(&Told) -> T) -> Option<T> {
        self.found.with(|found| Some(read(&found.as_ref()?.1)))
    }

    /// A button behind the help of an input that shows its words below.
    pub fn terms(self, field: &'static Field) -> Tag {
        let none = move || self.read(|told| told.terms(field).is_empty()).unwrap_or(true);
        // It keeps its place, so that nothing moves when the words come.
        let ask = tag("button")
            .attr("type", "button")
            .class("ask")
            .attr("aria-label", texts::terms_of())
            .attr("aria-expanded", "false")
            .live_attr("disabled", move || none().then(String::new))
            .text(texts::terms());
        let list = tag("ul").class("reasons");
        let (pressed, shown) = (ask.clone(), list.clone());
        let press = move |_| {
            let opens = !shown.element().has_child_nodes();
            shown.element().set_text_content(None);
            if opens {
                let lines = untrack(move || self.read(|told| told.terms(field).to_vec()));
                let items = lines.into_iter().flatten().map(|line| tag("li").text(&line));
                let _ = shown.clone().children(items);
            }
            let _ = pressed.element().set_attribute("aria-expanded", &opens.to_string());
        };
        tag("div").class("terms").child(ask.on("click", press)).child(list)
    }
}

/// All words of the trade, shut until they are asked for.
pub fn glossary_view(guide: Guide) -> Tag {
    let heading = tag("h2").id("glossary-title").text(TITLE.said());
    let read = move || guide.read(|told| told.glossary.clone());
    tag("section")
        .class("glossary")
        .attr("aria-labelledby", "glossary-title")
        .attr("data-testid", "glossary")
        .child(fold(heading, [state(guide.task, "glossary"), passage_view(read)]))
}
