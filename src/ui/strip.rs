//! The same heater with one to ten runs, computed by a worker.

use super::dom::{Tag, button, tag};
use super::icon::{Mark, icon};
use super::labor::{Job, Task};
use super::signal::{Memo, RwSignal};
use super::workspace::{Workspace, same_but_path};
use super::{sketch, texts, variants};
use longsmoke::design::Design;
use longsmoke::design::field::check;
use longsmoke::service::order;
use longsmoke::study::strip::{Column, ColumnResult, OpenFlow, RUNS};
use longsmoke::units::{Quantity, System, figure};
use longsmoke::words;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(100),
    rank: 0,
    ask: |_| order::Job::Strip,
    same: same_but_runs,
    in_units: false,
};

/// What the worker has found, a column in each line, with its generation: the old stays until it is
/// replaced.
type Found = (u64, String);

pub fn strip_view(workspace: Workspace) -> Tag {
    let found = RwSignal::new(Found::default());
    let task = Task::new(workspace, JOB, move |wanted, what| {
        found.set((wanted.generation, what.to_owned()));
    });
    let is_fresh = move || found.with(|(of, _)| *of == task.generation());
    let refused = RwSignal::new(None);
    let columns = tag("div")
        .class("columns")
        .live_attr("aria-busy", move || Some((!task.is_done()).to_string()))
        .child(heads())
        .children(RUNS.map(|runs| {
            let column = Memo::new(move |_| {
                found.with(|(_, all)| all.split('\n').nth(runs - 1)?.parse::<Column>().ok())
            });
            column_view(workspace, refused, (runs, column), move || !is_fresh())
        }));
    let state = tag("p")
        .class("help state")
        .attr("role", "status")
        .attr("data-testid", "strip-state")
        .live_text(move || Some(task.in_words()));
    tag("section")
        .class("strip")
        .attr("aria-labelledby", "strip-title")
        .attr("data-testid", "strip")
        .child(tag("h2").id("strip-title").text(texts::strip()))
        .child(tag("p").class("help").text(texts::strip_note()))
        .child(columns)
        .child(why_not(workspace, refused))
        .child(state)
        .child(variants::compare_view(workspace))
}

fn same_but_runs(one: &Design, other: &Design) -> bool {
    let mut path = one.path.clone();
    path.run_count = other.path.run_count;
    path == other.path && same_but_path(one, other)
}

/// Names of the lines, at the left of the columns.
fn heads() -> Tag {
    let names = [
        texts::strip_outlet(),
        texts::strip_efficiency(),
        texts::strip_margin(),
        texts::strip_wall(),
    ];
    let open = tag("span")
        .class("open")
        .child(tag("span").class("state-name").text(texts::strip_open()))
        .child(tag("span").text(texts::strip_air()))
        .child(tag("span").text(texts::strip_outlet()));
    tag("div")
        .class("heads")
        .attr("aria-hidden", "true")
        .child(tag("span").class("runs").text(texts::strip_runs()))
        .child(tag("span").class("worst"))
        .children(names.map(|name| tag("span").text(name)))
        .child(open)
}

/// Why the number of runs that was chosen last cannot be taken.
fn why_not(workspace: Workspace, refused: RwSignal<Option<usize>>) -> Tag {
    let text = move || {
        let runs = refused.get()?;
        let mut design = workspace.design.get();
        design.path.run_count = runs;
        let problem = check(&design).into_iter().next()?;
        let name = if runs == 1 { texts::run() } else { texts::runs() };
        Some(format!("{runs} {name}: {}", words::problem(&problem, workspace.system.get())))
    };
    tag("p")
        .class("problem")
        .attr("role", "alert")
        .attr("data-testid", "strip-refused")
        .live_text(text)
}

fn column_view(
    workspace: Workspace,
    refused: RwSignal<Option<usize>>,
    (runs, column): (usize, Memo<Option<Column>>),
    is_stale: impl Fn() -> bool + 'static,
) -> Tag {
    let take = move || {
        let taken = workspace.try_change(|design| design.path.run_count = runs);
        refused.set(taken.is_err().then_some(runs));
        if taken.is_ok() {
            workspace.commit();
            workspace.void_entries();
        }
    };
    let chosen = move || {
        let chosen = workspace.design.with(|design| design.path.run_count);
        Some((chosen == runs).to_string())
    };
    let class = move || {
        let stale = if is_stale() { " stale" } else { "" };
        let none = if column.get().is_some_and(|column| column.result.is_none()) {
            " none"
        } else {
            ""
        };
        Some(format!("column{stale}{none}"))
    };
    let word = if runs == 1 { texts::run() } else { texts::runs() };
    let count = move || {
        let word = tag("span").class("unseen").text(" ").text(word);
        tag("span").class("runs").text(&runs.to_string()).child(word)
    };
    button(take)
        .live_attr("class", class)
        .live_attr("aria-pressed", chosen)
        .attr("data-testid", &format!("strip-{runs}"))
        .live(move |button| {
            let system = workspace.system.get();
            let button = button.child(count());
            match column.get().map(|column| column.result) {
                Some(Some(result)) => figures(button, &result, system),
                Some(None) => {
                    button.child(tag("span").class("absent").text(texts::strip_none()))
                }
                None => button,
            }
        })
}

fn figures(button: Tag, result: &ColumnResult, system: System) -> Tag {
    let name = |name| tag("span").class("name").text(name).text(" ");
    let line = |(title, value, quantity)| {
        tag("span").child(name(title)).text(&figure(value, quantity, system))
    };
    let mark = result.worst.map_or(Mark::Good, Mark::from);
    let word = result.worst.map_or(texts::strip_no_finding(), words::severity);
    let heat = sketch::heat_class(result.chimney_inlet);
    let worst = tag("span")
        .class("worst")
        .child(icon(mark))
        .child(tag("span").class("word").text(word));
    let outlet = tag("span")
        .class("outlet")
        .child(tag("span").class(&format!("chip {heat}")).attr("aria-hidden", "true"))
        .child(name(texts::strip_outlet()))
        .text(&figure(result.chimney_inlet, Quantity::Temperature, system));
    let lines = [
        (texts::strip_efficiency(), result.efficiency_lower, Quantity::Share),
        (texts::strip_margin(), result.margin, Quantity::Pressure),
        (texts::strip_wall(), result.mouth_wall, Quantity::Temperature),
    ];
    button
        .child(worst)
        .child(outlet)
        .children(lines.map(line))
        .child(open(&result.open, system))
}

/// The other state, apart from the figures above it.
fn open(open: &OpenFlow, system: System) -> Tag {
    let named = |title: &str, text: &str| {
        tag("span").child(tag("span").class("title").text(title).text(" ")).text(text)
    };
    let state = tag("span")
        .class("open")
        .child(tag("span").class("state-name").text(texts::strip_open()).text(" "))
        .child(named(texts::strip_air(), &words::open_flow(open, system)));
    match open {
        OpenFlow::Runs { chimney_inlet, .. } => {
            let inlet = figure(*chimney_inlet, Quantity::Temperature, system);
            state.text(" ").child(named(texts::strip_outlet(), &inlet))
        }
        OpenFlow::Beyond | OpenFlow::Starves => state,
    }
}
