//! Safety at its unfavorable edge: ordered from a worker of its own, judged as soon as it is known.

use super::dom::{Tag, tag};
use super::labor::{Heard, Job, Wanted, drive, wanted};
use super::texts;
use super::workspace::{Workspace, same_but_name};
use leptos::prelude::*;
use longsmoke::analysis::Failure;
use longsmoke::rules::Edges;
use longsmoke::study::edges::{ENOUGH, Part};
use longsmoke::study::order;
use longsmoke::words;
use longsmoke::words::edges::{self as said, Row};
use std::sync::Arc;
use std::time::Duration;

/// The last of all: it takes the longest.
const JOB: Job = Job { rest: Duration::from_millis(600), study: |_| order::Job::Edges };

/// What the worker has found; written by its messages alone.
#[derive(Clone, Debug, Default, PartialEq)]
struct Found {
    /// Generation and number of samples that are done; none before the day as it stands.
    done: (u64, Option<usize>),
    edges: Option<(u64, Edges)>,
    failure: Option<(u64, Failure)>,
    stopped: bool,
}

/// The part's state.
#[derive(Clone, Copy)]
struct Work {
    workspace: Workspace,
    wanted: Memo<Wanted>,
    found: RwSignal<Found>,
}

pub fn edges_view(workspace: Workspace) -> Tag {
    let wanted = wanted(workspace, same_but_name);
    let found = RwSignal::new(Found::default());
    drive(wanted, JOB, move |heard| found.update(|found| found.hear(&heard)));
    let work = Work { workspace, wanted, found };
    Effect::new(move |_| work.tell_workspace());
    let state = tag("p")
        .class("help state")
        .attr("role", "status")
        .attr("data-testid", "edges-state")
        .live_text(move || Some(work.state_in_words()));
    tag("div")
        .attr("data-testid", "edges")
        .live_attr("aria-busy", move || Some((!work.is_done()).to_string()))
        .child(tag("h3").text(said::TITLE))
        .child(tag("p").class("help").text(&said::note()))
        .child(state)
        .child(table(work))
}

fn table(work: Work) -> Tag {
    let head = |name: &str| tag("th").attr("scope", "col").text(name);
    let heads =
        [texts::EDGES_FIGURE, texts::EDGES_NOMINAL, texts::EDGES_EDGE, texts::EDGES_LIMIT];
    let heads = tag("thead").child(tag("tr").children(heads.map(head)));
    let rows = move || {
        let edges = work.found.with(|found| Some(found.edges.as_ref()?.1))?;
        work.workspace.read(|shown, system| said::rows(&shown.design, &edges, system))
    };
    let body = tag("tbody").live(move |body| body.children(rows().iter().flatten().map(row)));
    let class = move || Some(if work.is_fresh() { "edges" } else { "edges stale" }.to_owned());
    tag("table")
        .live_attr("class", class)
        .live_attr("hidden", move || rows().is_none().then(String::new))
        .child(heads)
        .child(body)
}

fn row(row: &Row) -> Tag {
    tag("tr")
        .attr("data-testid", &format!("edge-{}", row.id))
        .child(tag("th").attr("scope", "row").text(row.name))
        .child(tag("td").text(&row.nominal))
        .child(tag("td").text(&row.edge))
        .child(tag("td").text(&row.limit))
}

impl Work {
    fn generation(self) -> u64 {
        self.wanted.with(|wanted| wanted.generation)
    }

    fn is_fresh(self) -> bool {
        let wanted = self.generation();
        self.found.with(|found| found.edges.is_some_and(|(of, _)| of == wanted))
    }

    fn failure(self) -> Option<Failure> {
        let wanted = self.generation();
        self.found.with(|found| {
            let (of, failure) = found.failure.as_ref()?;
            (*of == wanted).then(|| failure.clone())
        })
    }

    fn is_done(self) -> bool {
        self.is_fresh() || self.failure().is_some() || self.found.with(|found| found.stopped)
    }

    /// Lets the findings know the edges, once they are those of the present design.
    fn tell_workspace(self) {
        let Wanted { generation, design, .. } = self.wanted.get();
        let edges = self.found.with(|found| found.edges.filter(|(of, _)| *of == generation));
        if let Some((_, edges)) = edges {
            self.workspace.edges.set(Some((Arc::clone(&design), edges)));
        }
    }

    fn state_in_words(self) -> String {
        let wanted = self.generation();
        if self.found.with(|found| found.stopped) {
            return texts::EDGES_STOPPED.into();
        }
        if let Some(failure) = self.failure() {
            let failure = words::failure(&failure, self.workspace.system.get());
            return format!("{failure} {}", texts::EDGES_FAILED);
        }
        if self.is_fresh() {
            return String::new();
        }
        match self.found.with(|found| found.done) {
            (of, Some(done)) if of == wanted => texts::edges_progress(done, ENOUGH),
            (of, None) if of == wanted => texts::EDGES_NOMINAL_STAGE.into(),
            _ => texts::DAY_WAITING.into(),
        }
    }
}

impl Found {
    /// Takes a message of the worker; drops what an earlier generation still sends.
    fn hear(&mut self, heard: &Heard<'_>) {
        match heard {
            Heard::Stopped => self.stopped = true,
            Heard::Hired => self.stopped = false,
            Heard::Message(generation, message) if self.done.0 <= *generation => {
                match message.parse() {
                    Ok(Part::Begun) => self.done = (*generation, None),
                    Ok(Part::Done(count)) => self.done = (*generation, Some(count)),
                    Ok(Part::Found(edges)) => self.edges = Some((*generation, *edges)),
                    Ok(Part::Failed(failure)) => self.failure = Some((*generation, failure)),
                    Err(_) => {}
                }
            }
            Heard::Message(..) => {}
        }
    }
}
