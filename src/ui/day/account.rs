//! Where the heat of the wood went, and the temperatures along the path at the cursor.

use super::Work;
use crate::ui::dom::{Tag, svg, tag};
use crate::ui::sketch::heat_class;
use crate::ui::texts;
use longsmoke::analysis::day::{DayState, Moment};
use longsmoke::rules::Place;
use longsmoke::units::{Quantity, System, figure, kelvin, number, unit_of};
use longsmoke::words;
use longsmoke::words::day::{HeatShare, Side, clock, shares, side, wood};

/// A bar over a share of the whole width; its class gives the color.
fn bar(share: f64, class: &str) -> Tag {
    let width = format!("{:.2}%", 100.0 * share.clamp(0.0, 1.0));
    svg("svg")
        .class("share")
        .attr("aria-hidden", "true")
        .child(svg("rect").class(class).attr("width", &width).attr("height", "100%"))
}

pub fn account(work: Work) -> Tag {
    let whole = move || work.read(|state, _, system| wood(state, system));
    let table =
        tag("table").class("account").attr("data-testid", "day-account").live(move |table| {
            let bodies = work.read(|state, _, system| {
                let shares = shares(&state.energy);
                let most = shares.iter().map(|each| each.share).fold(0.0, f64::max);
                [Side::Room, Side::House, Side::Lost]
                    .map(|side| side_view(side, &shares, (most, system)))
            });
            let system = work.workspace.system.get();
            table.child(heads(system)).children(bodies.into_iter().flatten())
        });
    tag("div")
        .child(tag("h3").text(texts::day_account()))
        .child(tag("p").class("help").live_text(whole))
        .child(table)
}

fn heads(system: System) -> Tag {
    let head = |name: &str| tag("th").attr("scope", "col").text(name);
    let with_unit =
        |name, quantity| head(&format!("{name}, {}", unit_of(quantity, system).symbol));
    let row = tag("tr")
        .child(head(texts::day_where()))
        .child(tag("td"))
        .child(with_unit(texts::day_share(), Quantity::Share))
        .child(with_unit(texts::day_heat(), Quantity::Energy));
    tag("thead").child(row)
}

fn side_view(of: Side, shares: &[HeatShare], (most, system): (f64, System)) -> Tag {
    let class = match of {
        Side::Room => "to-room",
        Side::House => "to-house",
        Side::Lost => "to-outside",
    };
    let parts = || shares.iter().filter(|share| share.side == of);
    let sum = parts()
        .fold((0.0, 0.0), |(share, joules), part| (share + part.share, joules + part.joules));
    let figures = |row: Tag, (share, joules): (f64, f64)| {
        row.child(tag("td").text(&number(share, Quantity::Share, system)))
            .child(tag("td").text(&number(joules, Quantity::Energy, system)))
    };
    let head = |name: &str| tag("th").attr("scope", "row").text(name);
    let total = tag("tr").class("sum").child(head(side(of))).child(tag("td"));
    let rows = parts().map(|part| {
        let row = tag("tr").child(head(part.name));
        let row = row.child(tag("td").child(bar(part.share / most.max(1e-9), class)));
        figures(row, (part.share, part.joules))
    });
    tag("tbody").child(figures(total, sum)).children(rows)
}

/// Temperatures along the path at the time of the cursor, over a scale that the cursor leaves
/// as it is.
pub fn path_at(work: Work) -> Tag {
    let title = move || {
        work.read(|state, _, _| format!("{} {}", texts::day_path(), clock(work.time(state))))
    };
    let list = tag("dl").class("along").attr("data-testid", "day-path").live(move |list| {
        let lines = work.read(|state, _, system| {
            let moment = state.moment(work.time(state));
            let lines = stations(&moment).into_iter();
            lines.map(|line| station(line, state, system)).collect::<Vec<_>>()
        });
        list.children(lines.into_iter().flatten())
    });
    tag("div").child(tag("h3").live_text(title)).child(list)
}

fn stations(moment: &Moment) -> Vec<(String, f64)> {
    let runs = moment.runs.iter().enumerate();
    let mut stations = vec![(words::place(Place::Firebox), moment.firebox_outlet)];
    stations.extend(runs.map(|(index, run)| (words::place(Place::Run(index)), *run)));
    stations.push((words::place(Place::ChimneyInlet), moment.chimney_inlet));
    stations.push((texts::day_mouth_wall().into(), moment.mouth_wall));
    stations
}

fn station((name, temperature): (String, f64), state: &DayState, system: System) -> Tag {
    let zero = kelvin(0.0);
    let share = (temperature - zero) / (state.peak.firebox_outlet.temperature - zero).max(1.0);
    let value = figure(temperature, Quantity::Temperature, system);
    tag("div").child(tag("dt").text(&name)).child(
        tag("dd").child(bar(share, &heat_class(temperature))).child(tag("span").text(&value)),
    )
}
