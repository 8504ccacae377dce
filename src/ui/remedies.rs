//! What would mend each finding: ordered from a worker of its own once the design rests, shown
//! below the finding, taken by a press as one step.

use super::dom::{Tag, button, tag};
use super::labor::{Job, Task};
use super::signal::{Memo, RwSignal};
use super::workspace::{Workspace, same_but_name};
use super::{browser, texts};
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

/// What was found of each finding, with its generation: an old one stays until it is replaced.
type Found = Vec<(u64, Key, Vec<Remedy>)>;

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
    /// Those of an earlier design, while they are sought anew.
    Old,
    Stopped,
    /// It rests on what remedies are not tried against.
    NotSought,
}

impl Remedies {
    pub fn new(workspace: Workspace) -> Self {
        let found = RwSignal::new(Found::default());
        let task = Task::new(workspace, JOB, move |wanted, what| {
            if let Ok(Part::Found(key, remedies)) = what.parse() {
                found.update(|found| {
                    found.retain(|(_, of, _)| *of != key);
                    found.push((wanted.generation, key, remedies));
                });
            }
        });
        Self { workspace, task, found }
    }

    /// Reads the remedies of a finding that were found last, and whether they are of the present
    /// design.
    fn read<T>(self, key: &Key, read: impl FnOnce(bool, &[Remedy]) -> T) -> Option<T> {
        let wanted = self.task.generation();
        self.found.with(|found| {
            let (of, _, remedies) = found.iter().find(|(_, of, _)| of == key)?;
            Some(read(*of == wanted, remedies))
        })
    }

    fn state(self, key: &Key) -> State {
        let found = self.read(key, |is_new, remedies| (is_new, remedies.is_empty()));
        match found {
            Some((true, true)) => State::None,
            Some((true, false)) => State::Some,
            _ if self.task.is_stopped() => State::Stopped,
            _ if self.task.is_done() => State::NotSought,
            Some((false, false)) => State::Old,
            _ => State::Sought,
        }
    }

    /// The remedies of one finding; `key` is none where there is no lever.
    pub fn view(
        self,
        question: Question,
        key: impl Fn() -> Option<Key> + Send + Sync + 'static,
    ) -> Tag {
        let key = Memo::new(move |_| key());
        let state = move || key.get().map(|key| self.state(&key));
        let count = move || {
            let shown = state().filter(|state| matches!(state, State::Some | State::Old));
            let count =
                shown.and_then(|_| self.read(&key.get()?, |_, remedies| remedies.len()));
            count.unwrap_or_default()
        };
        let said = move || {
            Some(match state()? {
                State::Sought => words::SOUGHT.said().to_owned(),
                State::None => words::NONE.said().to_owned(),
                State::Stopped => texts::stopped().to_owned(),
                State::NotSought => words::NOT_SOUGHT.said().to_owned(),
                State::Some | State::Old => return None,
            })
        };
        let is_old = move || state() == Some(State::Old);
        let line = tag("p")
            .class("help")
            .live_attr("hidden", move || said().is_none().then(String::new))
            .live_text(said);
        let list = tag("ul")
            .live_attr("hidden", move || (count() == 0).then(String::new))
            .live_attr("class", move || {
                Some(if is_old() { "remedies stale" } else { "remedies" }.to_owned())
            })
            .repeat(count, move |index| self.one(question, (key, index), is_old));
        tag("div").class("mend").child(line).child(list)
    }

    fn one(
        self,
        question: Question,
        (key, index): (Memo<Option<Key>>, usize),
        is_old: impl Fn() -> bool + 'static,
    ) -> Tag {
        let remedy = move || {
            self.read(&key.get()?, |_, remedies| remedies.get(index).cloned()).flatten()
        };
        let system = self.workspace.system;
        let act = move || Some(words::act(&remedy()?, system.get()));
        let trades = move || Some(words::trades(&remedy()?, system.get()));
        let take = move || {
            if let Some(remedy) = remedy() {
                self.take(&remedy, question);
            }
        };
        let name = move || Some(format!("{}: {}", texts::try_it(), act()?));
        let press =
            button(take).class("try").live_attr("aria-label", name).text(texts::try_it());
        let press = press.live_attr("disabled", move || is_old().then(String::new));
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
