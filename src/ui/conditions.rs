//! The draft under four conditions: two fires on two days.

use super::dom::{Tag, tag};
use super::icon::{Mark, icon};
use super::texts;
use super::workspace::Workspace;
use longsmoke::rules::{Condition, Start, conditions};
use longsmoke::units::System;
use longsmoke::words::conditions as said;

pub fn conditions_view(workspace: Workspace) -> Tag {
    let judged = move || {
        workspace.read(|shown, system| (conditions(&shown.design, &shown.analysis), system))
    };
    let table =
        tag("table").class("conditions").attr("data-testid", "conditions").live(move |table| {
            match judged() {
                Some((all, system)) => {
                    table.child(heads(&all, system)).child(tag("tbody").children(
                        [Start::Hot, Start::Cold].map(|start| row(start, &all, system)),
                    ))
                }
                None => table,
            }
        });
    let note = move || judged().map(|(all, system)| said::note(&all, system));
    tag("section")
        .class("under-conditions")
        .attr("aria-labelledby", "conditions-title")
        .child(tag("h2").id("conditions-title").text(said::TITLE))
        .child(tag("p").class("help").live_text(note))
        .child(table)
}

fn heads(all: &[Condition], system: System) -> Tag {
    let days = all.iter().filter(|condition| condition.start == Start::Hot);
    let row = tag("tr")
        .child(tag("th").attr("scope", "col").text(texts::CONDITIONS_FIRE))
        .children(days.map(|day| tag("th").attr("scope", "col").text(&said::day(day, system))));
    tag("thead").child(row)
}

fn row(start: Start, all: &[Condition], system: System) -> Tag {
    let cells = all.iter().filter(|condition| condition.start == start);
    tag("tr")
        .child(tag("th").attr("scope", "row").text(said::start(start)))
        .children(cells.map(|condition| cell(condition, system)))
}

fn cell(condition: &Condition, system: System) -> Tag {
    let mark = condition.severity.map_or(Mark::Good, Mark::from);
    let verdict =
        tag("span").class("verdict").child(icon(mark)).text(said::verdict(condition.severity));
    tag("td")
        .child(verdict)
        .child(tag("span").class("deciding").text(&said::margin(condition, system)))
}
