//! The draft ledger: what pulls and what holds back, item by item.

use super::answers::unit_name;
use super::dom::{Tag, tag};
use super::texts;
use super::workspace::Workspace;
use longsmoke::analysis::HeightOfFire;
use longsmoke::analysis::draft::Entry;
use longsmoke::units::{Quantity, System, number};
use longsmoke::words;

pub fn ledger(workspace: Workspace) -> Tag {
    let unit = move || Some(unit_name(workspace, Quantity::Pressure));
    let head = |name| tag("th").attr("scope", "col").text(name);
    let heads = tag("tr")
        .child(head(texts::ledger_item()))
        .child(head(texts::ledger_pulls()).text(", ").live_text(unit))
        .child(head(texts::ledger_holds()).text(", ").live_text(unit));
    let body = tag("tbody").live(move |body| {
        let lines = workspace.read_rested(|shown, system| {
            let entries = shown.analysis.height_of_fire.ledger.iter();
            entries.map(|entry| line(entry, system)).collect::<Vec<_>>()
        });
        body.children(lines.unwrap_or_default())
    });
    let total = |read: fn(&HeightOfFire) -> f64| {
        let total = move || {
            workspace.read_rested(|shown, system| {
                pascals(read(&shown.analysis.height_of_fire), system)
            })
        };
        tag("td").live_text(total)
    };
    let name = |name| tag("th").attr("scope", "row").text(name);
    let sum = tag("tr")
        .child(name(texts::ledger_sum()))
        .child(total(|fire| fire.draft))
        .child(total(|fire| fire.losses));
    let margin = tag("tr")
        .class("margin")
        .child(name(texts::ledger_margin()).text(", ").live_text(unit))
        .child(total(|fire| fire.margin).attr("colspan", "2"));
    let table = tag("table")
        .attr("data-testid", "ledger")
        .child(tag("thead").child(heads))
        .child(body)
        .child(tag("tfoot").child(sum).child(margin));
    tag("section")
        .class("ledger")
        .attr("aria-labelledby", "ledger-title")
        .child(tag("h2").id("ledger-title").text(texts::ledger()))
        .child(table)
}

fn pascals(value: f64, system: System) -> String {
    number(value, Quantity::Pressure, system)
}

fn line(entry: &Entry, system: System) -> Tag {
    let value = pascals(entry.pascals.abs(), system);
    let (pulls, holds) = if entry.pascals > 0.0 { (&*value, "") } else { ("", &*value) };
    tag("tr")
        .child(tag("th").attr("scope", "row").text(words::item(entry.item)))
        .child(tag("td").text(pulls))
        .child(tag("td").text(holds))
}
