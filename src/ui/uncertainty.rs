//! What the figures are worth: bands, shares of answers, what matters most; ordered from a worker
//! of its own and shown wherever the figures stand.

use super::dom::{Tag, svg, tag, value_of};
use super::labor::{Heard, Job, Wanted, drive, wanted};
use super::texts;
use super::workspace::{Workspace, same_but_name};
use leptos::prelude::*;
use longsmoke::rules::Question;
use longsmoke::study::order;
use longsmoke::study::uncertainty::{Headline, Part, Rank, SpreadRange, Uncertainty};
use longsmoke::units::{Quantity, System, figure};
use longsmoke::words;
use longsmoke::words::uncertainty as said;
use std::sync::Arc;
use std::time::Duration;

/// The samples start after the day, so that what is looked at first is there first.
const JOB: Job = Job { rest: Duration::from_millis(400), study: |_| order::Job::Samples };

/// What the worker has found; written by its messages alone. The old stays until it is replaced.
#[derive(Clone, Debug, Default, PartialEq)]
struct Found {
    /// Generation and number of samples that are done.
    done: (u64, usize),
    bands: Option<(u64, Arc<Uncertainty>)>,
    /// Generation for which no sample had figures.
    nothing: u64,
    stopped: bool,
}

/// What is known of the bands, for all views that show any.
#[derive(Clone, Copy)]
pub struct Worth {
    workspace: Workspace,
    wanted: Memo<Wanted>,
    found: RwSignal<Found>,
}

impl Worth {
    /// Puts a worker to it.
    pub fn new(workspace: Workspace) -> Self {
        let wanted = wanted(workspace, same_but_name);
        let found = RwSignal::new(Found::default());
        drive(wanted, JOB, move |heard| found.update(|found| found.hear(&heard)));
        Self { workspace, wanted, found }
    }

    /// Reads the bands that were found last, in the units that are shown.
    pub fn read<T>(self, read: impl FnOnce(&Uncertainty, System) -> T) -> Option<T> {
        let system = self.workspace.system.get();
        self.found.with(|found| Some(read(&found.bands.as_ref()?.1, system)))
    }

    /// Whether what is read belongs to an earlier design.
    pub fn is_stale(self) -> bool {
        let wanted = self.generation();
        self.found.with(|found| found.bands.as_ref().is_none_or(|(of, _)| *of != wanted))
    }

    /// A line of text about the bands, grayed while they belong to an earlier design; it keeps its
    /// place while there is none.
    pub fn line(
        self,
        line: Tag,
        class: &'static str,
        text: impl Fn(&Uncertainty, System) -> String + 'static,
    ) -> Tag {
        line.live_attr("class", move || Some(self.graying(class)))
            .live_text(move || self.read(&text))
    }

    fn graying(self, class: &'static str) -> String {
        let known = self.read(|_, _| ()).is_some();
        let stale = if known && self.is_stale() { " stale" } else { "" };
        format!("{class}{stale}")
    }

    fn generation(self) -> u64 {
        self.wanted.with(|wanted| wanted.generation)
    }

    fn is_done(self) -> bool {
        let wanted = self.generation();
        !self.is_stale() || self.found.with(|found| found.stopped || found.nothing == wanted)
    }

    fn state_in_words(self) -> String {
        let wanted = self.generation();
        self.found.with(|found| match found.done {
            _ if found.stopped => texts::WORTH_STOPPED.into(),
            _ if found.nothing == wanted => texts::WORTH_NOTHING.into(),
            _ if !self.is_stale() => String::new(),
            (of, count) if of == wanted => texts::worth_progress(count),
            _ => texts::WORTH_WAITING.into(),
        })
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
                    Ok(Part::Done(count)) => self.done = (*generation, count),
                    Ok(Part::Found(bands)) => {
                        self.bands = Some((*generation, Arc::new(*bands)));
                    }
                    Ok(Part::Nothing) => self.nothing = *generation,
                    Err(_) => {}
                }
            }
            Heard::Message(..) => {}
        }
    }
}

pub fn worth_view(worth: Worth) -> Tag {
    let state = tag("p")
        .class("help state")
        .attr("role", "status")
        .attr("data-testid", "worth-state")
        .live_text(move || Some(worth.state_in_words()));
    let nothing = move || worth.read(|_, _| ()).is_none().then(String::new);
    let body = tag("div")
        .live_attr("class", move || Some(worth.graying("worth-body")))
        .live_attr("hidden", nothing)
        .child(answers(worth))
        .child(matters(worth))
        .child(reasons(worth));
    tag("section")
        .class("worth")
        .attr("aria-labelledby", "worth-title")
        .attr("data-testid", "worth")
        .live_attr("aria-busy", move || Some((!worth.is_done()).to_string()))
        .child(tag("h2").id("worth-title").text(said::TITLE))
        .child(tag("p").class("help").text(said::NOTE))
        .child(state)
        .child(body)
}

/// How often each question is answered how.
fn answers(worth: Worth) -> Tag {
    let line = move |question| {
        let cases =
            move || worth.read(|found, _| said::cases(question, found.answers.get(question)));
        tag("div")
            .child(tag("dt").text(words::question(question)))
            .child(tag("dd").live_text(cases))
    };
    tag("div")
        .child(tag("h3").text(texts::WORTH_ANSWERS))
        .child(tag("p").class("help").text(said::NOT_VARIED))
        .child(tag("dl").class("cases").children(Question::ALL.map(line)))
}

/// What makes the band of a figure wide, the most first, as bars in a table.
fn matters(worth: Worth) -> Tag {
    let chosen = RwSignal::new(Headline::Margin);
    let options = Headline::ALL.iter().enumerate().map(|(index, headline)| {
        let option = tag("option").attr("value", &index.to_string());
        let option = option.text(said::headline(*headline));
        if *headline == Headline::Margin { option.attr("selected", "") } else { option }
    });
    let choose = move |event: web_sys::Event| {
        let index = value_of(&event).parse::<usize>().ok();
        if let Some(headline) = index.and_then(|index| Headline::ALL.get(index)) {
            chosen.set(*headline);
        }
    };
    let select = tag("select").children(options).on("change", choose);
    let band = move |found: &Uncertainty, system| {
        let headline = chosen.get();
        said::band(headline, found.figures.get(headline), system)
    };
    let label = tag("label").class("of-which").text(texts::WORTH_OF).child(select);
    tag("div")
        .child(tag("h3").text(said::MATTERS))
        .child(tag("p").class("help").text(said::MATTERS_NOTE))
        .child(label)
        .child(worth.line(tag("p"), "band", band))
        .child(ranking(worth, chosen))
}

fn ranking(worth: Worth, chosen: RwSignal<Headline>) -> Tag {
    let head = |name: &str| tag("th").attr("scope", "col").text(name);
    let heads = tag("tr")
        .child(head(texts::WORTH_WHAT))
        .child(tag("td"))
        .child(head(texts::WORTH_SHARE))
        .child(head(texts::WORTH_WAY));
    let body = tag("tbody").live(move |body| {
        let rows = worth.read(|found, system| {
            let ranking = &found.figures.get(chosen.get()).ranking;
            let most = ranking.first().map_or(1.0, Rank::share);
            ranking.iter().map(|rank| row(rank, (most, system))).collect::<Vec<_>>()
        });
        body.children(rows.into_iter().flatten())
    });
    tag("table")
        .class("account matters")
        .attr("data-testid", "worth-matters")
        .child(tag("thead").child(heads))
        .child(body)
}

fn row(rank: &Rank, (most, system): (f64, System)) -> Tag {
    let width = format!("{:.2}%", 100.0 * rank.share() / most);
    let class = if rank.rank_correlation < 0.0 { "to-house" } else { "to-room" };
    let bar = svg("svg")
        .class("share")
        .attr("aria-hidden", "true")
        .child(svg("rect").class(class).attr("width", &width).attr("height", "100%"));
    tag("tr")
        .child(tag("th").attr("scope", "row").text(said::name(rank.spread)))
        .child(tag("td").child(bar))
        .child(tag("td").text(&figure(rank.share(), Quantity::Share, system)))
        .child(tag("td").text(said::way(rank)))
}

/// Each spread with its range, its reason and its source.
fn reasons(worth: Worth) -> Tag {
    let list = tag("dl").class("reasons").live(move |list| {
        let lines = worth.read(|found, system| {
            found.spreads.iter().map(|range| reason(range, system)).collect::<Vec<_>>()
        });
        list.children(lines.into_iter().flatten())
    });
    tag("details").class("twin").child(tag("summary").text(texts::WORTH_REASONS)).child(list)
}

fn reason(range: &SpreadRange, system: System) -> Tag {
    let id = range.spread;
    let text = format!("{}. {}", said::varied(range, system), said::reason(id));
    tag("div")
        .child(tag("dt").text(said::name(id)))
        .child(tag("dd").text(&text))
        .child(tag("dd").class("source").text(&said::source(id)))
}
