//! What a worker makes to be read: other days, the standard route, operation, the build. What is
//! typed there becomes a note of the design.

use super::browser;
use super::dom::{Tag, value_of};
use super::labor::Job;
use super::texts;
use super::told::{Section, section};
use super::workspace::{Workspace, same_but_name};
use longsmoke::design::field::{FIELDS, Kind};
use longsmoke::design::notes::Note;
use longsmoke::service::order;
use longsmoke::units::{Quantity, float, parse};
use longsmoke::words;
use std::time::Duration;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlInputElement};

const fn job(rank: u8, ask: fn(&super::labor::Wanted) -> order::Job) -> Job {
    Job { rest: Duration::from_millis(300), rank, ask, same: same_but_name, in_units: false }
}

/// The heater under other conditions.
pub fn trials(workspace: Workspace) -> Tag {
    let job = job(5, |_| order::Job::Trials);
    section(
        workspace,
        Section {
            name: "trials",
            title: words::trials::TITLE.said(),
            job,
            folded: false,
            long: true,
        },
    )
}

/// The draft of two fires on two days.
pub fn conditions(workspace: Workspace) -> Tag {
    let job = job(2, |_| order::Job::TwoDays);
    let title = words::conditions::TITLE.said();
    section(workspace, Section { name: "conditions", title, job, folded: false, long: false })
}

/// The published sizing route beside the model.
pub fn route(workspace: Workspace) -> Tag {
    let job = job(2, |_| order::Job::Route);
    section(
        workspace,
        Section {
            name: "route",
            title: words::standard_route::TITLE.said(),
            job,
            folded: true,
            long: false,
        },
    )
}

/// Every brick, course by course.
pub fn courses(workspace: Workspace) -> Tag {
    let job = job(6, |_| order::Job::Courses);
    section(
        workspace,
        Section {
            name: "courses",
            title: words::courses::TITLE.said(),
            job,
            folded: false,
            long: false,
        },
    )
}

/// How the heater is run without harm.
pub fn operation(workspace: Workspace) -> Tag {
    let job = job(2, |_| order::Job::Operation);
    section(
        workspace,
        Section {
            name: "operation",
            title: words::operation::TITLE.said(),
            job,
            folded: false,
            long: false,
        },
    )
}

/// What it takes to build it.
pub fn build(workspace: Workspace) -> Tag {
    let job = Job { same: |one, other| one == other, ..job(3, |_| order::Job::Build) };
    let name = "build";
    noted(
        workspace,
        section(
            workspace,
            Section {
                name,
                title: words::build::TITLE.said(),
                job,
                folded: false,
                long: false,
            },
        ),
    )
}

/// Heat loss from the parts of the house.
pub fn envelope(workspace: Workspace) -> Tag {
    let job = Job { same: |one, other| one == other, ..job(3, |_| order::Job::Envelope) };
    let (name, title) = ("envelope", words::envelope::TITLE.said());
    noted(
        workspace,
        section(workspace, Section { name, title, job, folded: false, long: false }),
    )
}

/// Takes what is typed, chosen or taken in a section into the design, as one step.
fn noted(workspace: Workspace, section: Tag) -> Tag {
    let typed = move |event: Event| {
        let Some((target, name)) = marked(&event, "data-note") else { return };
        take_note(workspace, &target, &name, &value_of(&event));
        if let Ok(input) = target.dyn_into::<HtmlInputElement>() {
            input.report_validity();
        }
    };
    let taken = move |event: Event| {
        let Some((target, link)) = marked(&event, "data-take") else { return };
        let value = target.get_attribute("data-value").and_then(|value| float(&value));
        let field = FIELDS.iter().find(|field| field.link == link);
        if let (Some(field), Some(value)) = (field, value)
            && let Kind::Number(number) = &field.kind
        {
            let _ = workspace.enter(field, number, value);
            workspace.commit();
            workspace.void_entries();
        }
    };
    // Where the section was made anew around what was being typed, browsers no longer take that for a
    // change. What cannot be noted stays as it is and is marked; telling it aloud would take the
    // focus back from where it goes.
    let left = move |event: Event| {
        let Some((target, name)) = marked(&event, "data-note") else { return };
        let entry = target.dyn_ref::<HtmlInputElement>();
        if entry.is_some_and(|entry| entry.value() != entry.default_value()) {
            take_note(workspace, &target, &name, &value_of(&event));
        }
    };
    let entered = move |event: Event| {
        if browser::key(&event) == "Enter" {
            left(event);
        }
    };
    section.on("change", typed).on("click", taken).on("focusout", left).on("keydown", entered)
}

/// The element from which an event came, and what it is marked with.
fn marked(event: &Event, mark: &str) -> Option<(Element, String)> {
    let target: Element = event.target()?.dyn_into().ok()?;
    let name = target.get_attribute(mark)?;
    Some((target, name))
}

/// Notes what was typed, and marks the entry where it cannot be noted.
fn take_note(workspace: Workspace, entry: &Element, name: &str, typed: &str) {
    let is_noted = note(workspace, name, typed, entry.get_attribute("data-factor"));
    let _ = entry.set_attribute("aria-invalid", if is_noted { "false" } else { "true" });
    if let Some(input) = entry.dyn_ref::<HtmlInputElement>() {
        input.set_custom_validity(if is_noted { "" } else { texts::number_wanted() });
    }
}

/// Notes a text: as a number where a factor belongs to it. Says whether it could be noted.
fn note(workspace: Workspace, name: &str, text: &str, factor: Option<String>) -> bool {
    let note = match factor.and_then(|factor| float(&factor)) {
        _ if text.trim().is_empty() => None,
        None => Some(Note::Word(text.to_owned())),
        Some(factor) => {
            let system = workspace.system.get_untracked();
            let Ok(value) = parse(text, Quantity::Ratio, system) else { return false };
            Some(Note::Number(value * factor))
        }
    };
    let mut done = false;
    let _ = workspace.try_change(|design| done = design.notes.set(name, note));
    workspace.commit();
    done
}
