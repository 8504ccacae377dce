//! The decisions, by group; one group is open at a time.

use super::dom::{Tag, button, tag};
use super::field::field_view;
use super::texts;
use super::workspace::Workspace;
use leptos::prelude::*;
use longsmoke::design::field::{FIELDS, Group};
use longsmoke::words;

pub fn decisions(workspace: Workspace) -> Tag {
    tag("section")
        .id("decisions")
        .class("decisions")
        .attr("aria-labelledby", "decisions-title")
        .attr("tabindex", "-1")
        .child(tag("h2").id("decisions-title").text(texts::DECISIONS))
        .children(Group::ALL.map(|group| group_view(workspace, group)))
}

fn group_view(workspace: Workspace, group: Group) -> Tag {
    let is_open = move || workspace.open_group.get() == Some(group);
    let toggle = move || {
        workspace.open_group.update(|open| {
            *open = if *open == Some(group) { None } else { Some(group) };
        });
    };
    let id = format!("group-{group:?}").to_ascii_lowercase();
    let head = button(toggle)
        .attr("aria-controls", &id)
        .live_attr("aria-expanded", move || Some(is_open().to_string()))
        .text(words::group(group));
    let fields = |advanced| {
        let fields = FIELDS.iter().filter(move |field| field.group == group);
        let fields = fields.filter(move |field| field.advanced == advanced);
        fields.map(move |field| field_view(workspace, field))
    };
    let mut content = tag("div")
        .id(&id)
        .live_attr("hidden", move || (!is_open()).then(String::new))
        .children(fields(false));
    let mut advanced = fields(true).peekable();
    if advanced.peek().is_some() {
        let summary = tag("summary").text(texts::ADVANCED);
        content =
            content.child(tag("details").class("advanced").child(summary).children(advanced));
    }
    tag("div").class("group").child(tag("h3").child(head)).child(content)
}
