//! Sections that show what a worker tells of the present design as a passage.

use super::dom::{Tag, button, tag, watch};
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::signal::RwSignal;
use super::texts;
use super::workspace::Workspace;
use leptos::leptos_dom::helpers::document;
use leptos::reactive::graph::untrack;
use longsmoke::service::Told;
use longsmoke::words::passage::Passage;
use std::sync::Arc;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// A section and the job whose passage it shows.
#[derive(Clone, Copy)]
pub struct Section {
    /// Its class, and its id in tests.
    pub name: &'static str,
    /// Its heading, which stands there before the passage does.
    pub title: &'static str,
    /// What brings the passage.
    pub job: Job,
    /// Whether it is shut until it is asked for.
    pub folded: bool,
    /// Whether it takes so long that one may want to cancel it.
    pub long: bool,
}

/// What a job has told, with the generation that it is for: the old stays until it is replaced.
pub type Found<T> = RwSignal<Option<(u64, Arc<T>)>>;

pub fn section(workspace: Workspace, section: Section) -> Tag {
    let Section { name, title, job, folded, long } = section;
    let found: Found<Told> = RwSignal::new(None);
    let task = Task::new(workspace, job, move |wanted, what| {
        if let Some(told) = Told::read(what) {
            found.set(Some((wanted.generation, Arc::new(told))));
        }
    });
    let read = move || read(workspace, found, |told| told);
    let heading = format!("{name}-title");
    let head = tag("h2").id(&heading).text(title);
    let state = state(task, name);
    let state = if long { with_cancel(task, state) } else { state };
    let body = [state, graying(task, found, passage_view(read))];
    let shown = tag("section")
        .class(name)
        .attr("aria-labelledby", &heading)
        .attr("data-testid", name)
        .live_attr("aria-busy", move || Some((!task.is_done()).to_string()));
    if folded { shown.child(fold(head, body)) } else { shown.child(head).children(body) }
}

/// What is seldom read: shut below its heading until it is asked for.
pub fn fold(head: Tag, body: [Tag; 2]) -> Tag {
    tag("details").class("fold").child(tag("summary").child(head)).children(body)
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

/// The line of a job that takes long, with a button that cancels it or begins it again.
pub fn with_cancel(task: Task, line: Tag) -> Tag {
    let line = line.attr("tabindex", "-1");
    let press = move || {
        if untrack(|| task.is_cut_short()) {
            task.start_again();
        } else {
            task.cancel();
        }
    };
    let word = move || {
        Some(
            if task.is_cut_short() { texts::start_again() } else { texts::cancel() }.to_owned(),
        )
    };
    let button = button(press).live_text(word);
    let (shown, state) = (button.element().clone(), line.element().clone());
    watch(move || {
        let is_idle = task.is_done() && !task.is_cut_short();
        // What is hidden would lose the focus.
        if is_idle && document().active_element().as_ref() == Some(&shown) {
            let _ = state.dyn_ref::<HtmlElement>().map(HtmlElement::focus);
        }
        let _ = shown.toggle_attribute_with_force("hidden", is_idle);
    });
    tag("div").class("with-cancel").child(line).child(button)
}

/// Grays a view while it shows what was found for an earlier design.
pub fn graying<T: Send + Sync + 'static>(task: Task, found: Found<T>, view: Tag) -> Tag {
    let class = move || {
        let stale = found.with(Option::is_some) && is_stale(task, found);
        Some(if stale { "found stale" } else { "found" }.to_owned())
    };
    tag("div").live_attr("class", class).child(view)
}
