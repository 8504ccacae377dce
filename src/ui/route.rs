//! The published sizing route beside the model.

use super::dom::{Tag, tag};
use super::texts;
use super::workspace::Workspace;
use longsmoke::analysis::standard_route::StandardRoute;
use longsmoke::units::{Quantity, System, number, unit_of};
use longsmoke::words::standard_route as said;

pub fn route_view(workspace: Workspace) -> Tag {
    let table = tag("table").attr("data-testid", "route").live(move |table| {
        let rows = workspace.read(|shown, system| said::comparison(&shown.analysis, system));
        let row = |row: said::Comparison| {
            line(row.name).children([row.route, row.model].map(|text| tag("td").text(&text)))
        };
        let heads = [texts::ROUTE_FIGURE, texts::ROUTE_ROUTE, texts::ROUTE_MODEL];
        table
            .child(head(&heads))
            .child(tag("tbody").children(rows.into_iter().flatten().map(row)))
    });
    let differences = tag("ul").class("reasons").live(move |list| {
        let reasons = workspace
            .read(|shown, system| said::differences(&shown.design, &shown.analysis, system));
        list.children(reasons.into_iter().flatten().map(|text| tag("li").text(&text)))
    });
    tag("section")
        .class("route")
        .attr("aria-labelledby", "route-title")
        .child(tag("h2").id("route-title").text(said::TITLE))
        .child(tag("p").class("help").text(said::LABEL).text("."))
        .child(table)
        .child(unmet(workspace))
        .child(folded(texts::ROUTE_REASONS, differences))
        .child(folded(texts::ROUTE_SEGMENTS, segments(workspace)))
        .child(tag("p").class("help").text(said::NOT_CHECKED))
}

fn head(names: &[&str]) -> Tag {
    let cell = |name: &&str| tag("th").attr("scope", "col").text(name);
    tag("thead").child(tag("tr").children(names.iter().map(cell)))
}

fn line(name: &str) -> Tag {
    tag("tr").child(tag("th").attr("scope", "row").text(name))
}

fn folded(name: &str, content: Tag) -> Tag {
    tag("details").class("twin").child(tag("summary").text(name)).child(content)
}

/// Limits of the route that the design does not keep.
fn unmet(workspace: Workspace) -> Tag {
    let title = move || {
        workspace.read(|shown, _| {
            let kept = shown.analysis.standard_route.unmet.is_empty();
            let title = if kept { texts::ROUTE_KEPT } else { texts::ROUTE_UNMET };
            title.to_owned()
        })
    };
    let list = tag("ul").class("reasons").live(move |list| {
        let sentences = workspace.read(|shown, system| {
            let unmet = shown.analysis.standard_route.unmet.iter();
            unmet.map(|limit| said::unmet(limit, system)).collect::<Vec<_>>()
        });
        list.children(sentences.into_iter().flatten().map(|text| tag("li").text(&text)))
    });
    tag("div").child(tag("h3").live_text(title)).child(list)
}

fn segments(workspace: Workspace) -> Tag {
    let table = tag("table").live(move |table| {
        let rows = workspace.read(|shown, system| {
            let rows = segment_rows(&shown.analysis.standard_route, system);
            [segment_heads(system), tag("tbody").children(rows)]
        });
        table.children(rows.into_iter().flatten())
    });
    tag("div")
        .class("wide")
        .attr("role", "group")
        .attr("aria-label", texts::ROUTE_SEGMENTS)
        .attr("tabindex", "0")
        .child(table)
}

fn segment_heads(system: System) -> Tag {
    let columns = [
        (texts::ROUTE_LENGTH, Quantity::Length),
        (texts::ROUTE_GAS, Quantity::Temperature),
        (texts::ROUTE_SPEED, Quantity::Speed),
        (texts::LEDGER_PULLS, Quantity::Pressure),
        (texts::LEDGER_HOLDS, Quantity::Pressure),
    ];
    let cell = |text: &str| tag("th").attr("scope", "col").text(text);
    // Feet and inches carry their marks.
    let with_unit = |(name, quantity)| match unit_of(quantity, system).symbol {
        "" => cell(name),
        unit => cell(&format!("{name}, {unit}")),
    };
    let row = tag("tr").child(cell(texts::ROUTE_PART)).children(columns.map(with_unit));
    tag("thead").child(row)
}

fn segment_rows(route: &StandardRoute, system: System) -> Vec<Tag> {
    let names = said::parts(route);
    let rows = route.segments.iter().zip(names);
    rows.map(|(segment, name)| {
        let cells = [
            (segment.length, Quantity::Length),
            (segment.mean, Quantity::Temperature),
            (segment.velocity, Quantity::Speed),
            (segment.standing, Quantity::Pressure),
            (segment.friction + segment.turn, Quantity::Pressure),
        ];
        let cell = |(value, quantity)| tag("td").text(&number(value, quantity, system));
        line(&name).children(cells.map(cell))
    })
    .collect()
}
