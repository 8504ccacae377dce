//! The heater under other conditions: three answers each, and what speaks against a yes.

use super::dom::{Tag, button, tag};
use super::icon::{Mark, icon};
use super::labor::{Heard, Job, Wanted, drive, wanted};
use super::texts;
use super::workspace::{Workspace, same_but_name};
use leptos::prelude::*;
use longsmoke::analysis::Failure;
use longsmoke::rules::{Answer, Question};
use longsmoke::study::order;
use longsmoke::study::trials::{Trial, Tried, Verdict, has_mild_day, judge};
use longsmoke::words;
use longsmoke::words::trials as said;
use std::collections::BTreeMap;
use std::sync::Arc;
use std::time::Duration;

/// Later than the day, of which it needs nine.
const JOB: Job = Job { rest: Duration::from_millis(900), study: |_| order::Job::Trials };

type Judged = Result<Arc<Verdict>, Failure>;

/// What the worker has found; written by its messages alone.
#[derive(Clone, Debug, Default)]
struct Found {
    /// Each with its generation: an old one stays until it is replaced.
    trials: BTreeMap<Trial, (u64, Judged)>,
    stopped: bool,
}

#[derive(Clone, Copy)]
struct Work {
    workspace: Workspace,
    wanted: Memo<Wanted>,
    found: RwSignal<Found>,
    /// The cell whose findings are shown.
    opened: RwSignal<Option<(Trial, Question)>>,
}

pub fn trials_view(workspace: Workspace) -> Tag {
    let wanted = wanted(workspace, same_but_name);
    let work = Work {
        workspace,
        wanted,
        found: RwSignal::new(Found::default()),
        opened: RwSignal::new(None),
    };
    drive(wanted, JOB, move |heard| work.hear(&heard));
    let supposes = move |trial| {
        tag("span")
            .class("supposes")
            .live_text(move || Some(said::supposes(trial, workspace.system.get())))
    };
    let row = |trial| {
        let head =
            tag("th").attr("scope", "row").text(said::name(trial)).child(supposes(trial));
        tag("tr")
            .live_attr("class", move || (!work.is_fresh(trial)).then(|| "stale".to_owned()))
            .child(head)
            .children(Question::ALL.map(|question| work.cell(trial, question)))
    };
    let names = [said::CONDITION].into_iter().chain(Question::ALL.map(words::question));
    let heads = names.map(|name| tag("th").attr("scope", "col").text(name));
    let table = tag("table")
        .class("conditions trials")
        .attr("data-testid", "trials")
        .live_attr("aria-busy", move || Some((work.done() < Trial::ALL.len()).to_string()))
        .child(tag("thead").child(tag("tr").children(heads)))
        .child(tag("tbody").children(Trial::ALL.map(row)));
    let state = tag("p")
        .class("help state")
        .attr("role", "status")
        .attr("data-testid", "trials-state")
        .live_text(move || Some(work.state()));
    tag("section")
        .class("other-days")
        .attr("aria-labelledby", "trials-title")
        .child(tag("h2").id("trials-title").text(said::TITLE))
        .child(tag("p").class("help").text(said::NOTE))
        .child(table)
        .child(state)
        .child(work.opened_view())
}

impl Work {
    /// Takes a message of the worker; drops what an earlier generation still sends.
    fn hear(self, heard: &Heard<'_>) {
        match heard {
            Heard::Stopped => self.found.update(|found| found.stopped = true),
            Heard::Hired => self.found.update(|found| found.stopped = false),
            Heard::Message(generation, message) => {
                let wanted = self.wanted.get_untracked();
                let Ok(tried) = message.parse::<Tried>() else {
                    return;
                };
                if wanted.generation == *generation {
                    if tried.trial == Trial::MildDay && has_mild_day(&wanted.design) {
                        let design = Arc::clone(&wanted.design);
                        self.workspace.mild.set(Some((design, tried.day.clone())));
                    }
                    let judged = judge(&wanted.design, &tried).map(Arc::new);
                    self.found.update(|found| {
                        found.trials.insert(tried.trial, (*generation, judged));
                    });
                }
            }
        }
    }

    fn is_fresh(self, trial: Trial) -> bool {
        let wanted = self.wanted.with(|wanted| wanted.generation);
        self.found.with(|found| found.trials.get(&trial).is_some_and(|(of, _)| *of == wanted))
    }

    fn done(self) -> usize {
        Trial::ALL.into_iter().filter(|trial| self.is_fresh(*trial)).count()
    }

    fn state(self) -> String {
        let (done, total) = (self.done(), Trial::ALL.len());
        match self.found.with(|found| found.stopped) {
            true => texts::STRIP_STOPPED.into(),
            false if done == total => String::new(),
            false => texts::strip_progress(done, total),
        }
    }

    fn read<T>(self, trial: Trial, read: impl FnOnce(&Judged) -> T) -> Option<T> {
        self.found.with(|found| found.trials.get(&trial).map(|(_, judged)| read(judged)))
    }

    fn answer(self, trial: Trial, question: Question) -> Option<Answer> {
        self.read(trial, |judged| judged.as_ref().ok()?.answer(question, trial)).flatten()
    }

    fn cell(self, trial: Trial, question: Question) -> Tag {
        if trial == Trial::ColdStart && question != Question::Draw {
            return tag("td").child(tag("span").class("deciding").text(said::NOT_ASKED));
        }
        let system = self.workspace.system;
        let figure = move || {
            let system = system.get();
            self.read(trial, |judged| match judged {
                Ok(verdict) => said::figure_of(question, verdict, system),
                Err(_) => said::NOT_FOUND.into(),
            })
        };
        let verdict =
            tag("span").class("verdict").live(move |line| match self.answer(trial, question) {
                Some(answer) => {
                    line.child(icon(Mark::from(answer))).text(words::answer(question, answer))
                }
                None => line,
            });
        let here = Some((trial, question));
        let press = move || {
            self.opened.update(|opened| *opened = if *opened == here { None } else { here });
        };
        let expanded = move || Some((self.opened.get() == here).to_string());
        let cell = button(press)
            .class("cell")
            .attr("aria-controls", "trial-findings")
            .live_attr("aria-expanded", expanded)
            .child(verdict)
            .child(tag("span").class("deciding").live_text(figure));
        tag("td").attr("data-question", words::question(question)).child(cell)
    }

    /// What speaks against a yes in the cell that was chosen.
    fn opened_view(self) -> Tag {
        let system = self.workspace.system;
        let closed = move || self.opened.get().is_none().then(String::new);
        tag("div")
            .id("trial-findings")
            .class("trial-findings")
            .attr("role", "status")
            .attr("data-testid", "trial-findings")
            .live_attr("hidden", closed)
            .live(move |panel| {
                let Some((trial, question)) = self.opened.get() else {
                    return panel;
                };
                let title = format!("{}: {}", said::name(trial), words::question(question));
                let panel = panel.child(tag("h3").text(&title));
                let lines = self.read(trial, |judged| match judged {
                    Ok(verdict) => said::against(question, verdict, system.get()),
                    Err(failure) => vec![words::failure(failure, system.get())],
                });
                let lines =
                    lines.unwrap_or_default().into_iter().map(|line| tag("li").text(&line));
                panel.child(tag("ul").class("reasons").children(lines))
            })
    }
}
