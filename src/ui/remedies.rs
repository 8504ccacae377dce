//! What would mend each finding: ordered from a worker of its own once the design rests, shown
//! below the finding, taken by a press as one step.

use super::dom::{Tag, button, tag};
use super::labor::{Job, Task};
use super::workspace::{Workspace, same_but_name};
use super::{browser, texts};
use leptos::prelude::*;
use longsmoke::rules::Question;
use longsmoke::service::order;
use longsmoke::study::remedy::{Key, Part, Remedy};
use longsmoke::words::remedy as words;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(300),
    rank: 6,
    ask: |wanted| order::Job::Remedies(wanted.system),
    same: same_but_name,
    in_units: true,
};

/// What was found for a generation.
type Found = (u64, Vec<(Key, Vec<Remedy>)>);

/// The remedies of all findings.
#[derive(Clone, Copy)]
pub struct Remedies {
    pub workspace: Workspace,
    task: Task,
    found: RwSignal<Found>,
}

/// What is known of the remedies of a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum State {
    Sought,
    None,
    Some,
    Stopped,
    /// It rests on what remedies are not tried against.
    NotSought,
}

impl Remedies {
    pub fn new(workspace: Workspace) -> Self {
        let found = RwSignal::new(Found::default());
        let task = Task::new(workspace, JOB, move |wanted, what| {
            if let Ok(Part::Found(key, remedies)) = what.parse() {
                found.update(|(of, findings)| {
                    if *of != wanted.generation {
                        (*of, *findings) = (wanted.generation, Vec::new());
                    }
                    findings.push((key, remedies));
                });
            }
        });
        Self { workspace, task, found }
    }

    /// Reads the remedies of a finding of the present design; none while they are sought.
    fn read<T>(self, key: &Key, read: impl FnOnce(&[Remedy]) -> T) -> Option<T> {
        let wanted = self.task.generation();
        self.found.with(|(of, findings)| {
            let mut findings = findings.iter().filter(|_| *of == wanted);
            let (_, remedies) = findings.find(|(of, _)| of == key)?;
            Some(read(remedies))
        })
    }

    fn state(self, key: &Key) -> State {
        match self.read(key, <[Remedy]>::is_empty) {
            Some(true) => State::None,
            Some(false) => State::Some,
            None if self.task.is_stopped() => State::Stopped,
            None if self.task.is_done() => State::NotSought,
            None => State::Sought,
        }
    }

    /// The remedies of one finding; `key` is none where there is no lever.
    pub fn view(
        self,
        question: Question,
        key: impl Fn() -> Option<Key> + Copy + 'static,
    ) -> Tag {
        let count =
            move || key().and_then(|key| self.read(&key, <[Remedy]>::len)).unwrap_or_default();
        let said = move || {
            Some(match self.state(&key()?) {
                State::Sought => words::SOUGHT.to_owned(),
                State::None => words::NONE.to_owned(),
                State::Stopped => texts::STOPPED.to_owned(),
                State::NotSought => words::NOT_SOUGHT.to_owned(),
                State::Some => return None,
            })
        };
        let state = tag("p")
            .class("help")
            .live_attr("hidden", move || said().is_none().then(String::new))
            .live_text(said);
        let list = tag("ul")
            .class("remedies")
            .live_attr("hidden", move || (count() == 0).then(String::new))
            .repeat(count, move |index| self.one(question, move || Some((key()?, index))));
        tag("div").class("mend").child(state).child(list)
    }

    fn one(
        self,
        question: Question,
        which: impl Fn() -> Option<(Key, usize)> + Copy + 'static,
    ) -> Tag {
        let remedy = move || {
            let (key, index) = which()?;
            self.read(&key, |remedies| remedies.get(index).cloned()).flatten()
        };
        let system = self.workspace.system;
        let act = move || Some(words::act(&remedy()?, system.get()));
        let trades = move || Some(words::trades(&remedy()?, system.get()));
        let take = move || {
            if let Some(remedy) = remedy() {
                self.take(&remedy, question);
            }
        };
        let name = move || Some(format!("{}: {}", texts::TRY_IT, act()?));
        let press = button(take).class("try").live_attr("aria-label", name).text(texts::TRY_IT);
        tag("li")
            .child(tag("p").class("act").live_text(act))
            .child(press)
            .child(tag("p").class("trades").live_text(trades))
    }

    /// Applies a remedy as one step; the finding may go, so the focus moves to its question.
    fn take(self, remedy: &Remedy, question: Question) {
        if self.workspace.try_change(|design| remedy.apply(design)).is_ok() {
            self.workspace.commit();
            self.workspace.void_entries();
            browser::focus_on(format!("findings-{}", question.id()));
        }
    }
}
