//! Jobs kept at what is wanted last: each says what it is for, and how far it has come.

use super::dom::watch;
use super::office::{Hear, Heard, Office};
use super::signal::{Memo, RwSignal};
use super::texts;
use super::workspace::Workspace;
use longsmoke::design::Design;
use longsmoke::service::InUnits;
use longsmoke::service::news::News;
use longsmoke::service::order;
use longsmoke::units::System;
use std::ops::Deref;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

/// A design that figures are wanted for, and which generation that is.
#[derive(Clone, Debug)]
pub struct Wanted {
    pub generation: u64,
    pub design: Arc<Design>,
    /// Units in which they are wanted, where that counts.
    pub system: System,
}

impl PartialEq for Wanted {
    fn eq(&self, other: &Self) -> bool {
        self.generation == other.generation
    }
}

/// How a job is ordered.
#[derive(Clone, Copy)]
pub struct Job {
    /// Rest after the last change before it waits for a worker.
    pub rest: Duration,
    /// The least goes first.
    pub rank: u8,
    /// What it is for what is wanted.
    pub ask: fn(&Wanted) -> order::Job,
    /// Whether two designs are the same to it.
    pub same: fn(&Design, &Design) -> bool,
    /// Whether the units count.
    pub in_units: bool,
}

/// What is asked for; none for nothing.
type Asked = RwSignal<Option<order::Job>>;

/// What takes in what is found for what is wanted.
trait Take {
    fn take(&self, wanted: &Wanted, what: &str);
}

impl<F: Fn(&Wanted, &str)> Take for F {
    fn take(&self, wanted: &Wanted, what: &str) {
        self(wanted, what);
    }
}

/// A job of the page, which lives as long as the page.
#[derive(Clone, Copy)]
pub struct Task(&'static Labor);

impl Deref for Task {
    type Target = Labor;

    fn deref(&self) -> &Labor {
        self.0
    }
}

/// What is wanted of a job, and how far it has come.
pub struct Labor {
    wanted: Memo<Wanted>,
    state: RwSignal<State>,
    /// The generation for which somebody canceled it.
    canceled: RwSignal<Option<u64>>,
    system: RwSignal<System>,
}

/// How far a job has come; written by its news alone.
#[derive(Clone, Debug, Default, PartialEq)]
struct State {
    /// For what generation.
    of: u64,
    progress: Option<(usize, usize)>,
    failed: Option<InUnits<String>>,
    ended: bool,
    stopped: bool,
}

impl Task {
    /// Keeps a job at what is wanted; what is found goes to `found`, with its design.
    pub fn new(
        workspace: Workspace,
        job: Job,
        found: impl Fn(&Wanted, &str) + 'static,
    ) -> Self {
        Self::begin(workspace, job, None, Box::new(found))
    }

    /// The same for what is asked for, as long as something is.
    pub fn asked(
        workspace: Workspace,
        job: Job,
        asked: RwSignal<Option<order::Job>>,
        found: impl Fn(&Wanted, &str) + 'static,
    ) -> Self {
        Self::begin(workspace, job, Some(asked), Box::new(found))
    }

    fn begin(
        workspace: Workspace,
        job: Job,
        asked: Option<Asked>,
        found: Box<dyn Take>,
    ) -> Self {
        let wanted = Memo::new(move |last: Option<&Wanted>| {
            let system = if job.in_units { workspace.system.get() } else { System::Metric };
            workspace.current.with(|design| match last {
                Some(last) if last.system == system && (job.same)(design, &last.design) => {
                    last.clone()
                }
                last => Wanted {
                    generation: last.map_or(0, |last| last.generation) + 1,
                    design: Arc::clone(design),
                    system,
                },
            })
        });
        let state = RwSignal::new(State::default());
        let canceled = RwSignal::new(None);
        let labor = Labor { wanted, state, canceled, system: workspace.system };
        let task = Self(Box::leak(Box::new(labor)));
        let hear = move |heard: Heard| task.hear(heard, &*found);
        task.keep_at((job, asked), workspace.office.with_untracked(Rc::clone), Rc::new(hear));
        task
    }

    fn keep_at(self, (job, asked): (Job, Option<Asked>), office: Rc<Office>, hear: Rc<Hear>) {
        let desk = office.desk(job.rank, hear);
        let mut last = 0;
        watch(move || {
            let wanted = self.wanted.get();
            // Only a change of the design may have others behind it.
            let is_other = std::mem::replace(&mut last, wanted.generation) != wanted.generation;
            let rest = if is_other { job.rest } else { Duration::ZERO };
            office.stop(desk);
            if self.canceled.get() == Some(wanted.generation) {
                return;
            }
            let ask = match asked.map(RwSignal::get) {
                Some(None) => return,
                Some(Some(asked)) => {
                    self.state.set(State::default());
                    asked
                }
                None => (job.ask)(&wanted),
            };
            office.ask(desk, (ask, wanted.generation, Arc::clone(&wanted.design)), rest);
        });
    }

    fn hear(self, heard: Heard, found: &dyn Take) {
        let wanted = self.wanted.get_untracked();
        match heard {
            Heard::Stopped => self.state.update(|state| state.stopped = true),
            Heard::News(generation, _) if generation != wanted.generation => {}
            Heard::News(_, News::Found(what)) => found.take(&wanted, &what),
            Heard::News(of, News::Progress { done, of: all }) => {
                let progress = Some((done, all));
                self.state.set(State { of, progress, ..State::default() });
            }
            Heard::News(of, News::Failed(why)) => {
                self.state.set(State { of, failed: Some(why), ..State::default() });
            }
            Heard::Ended(of) if of == wanted.generation => self.state.update(|state| {
                let failed = state.failed.take().filter(|_| state.of == of);
                *state = State { of, failed, ended: true, ..State::default() };
            }),
            Heard::Ended(_) => {}
        }
    }

    /// The generation that is wanted.
    pub fn generation(self) -> u64 {
        self.wanted.with(|wanted| wanted.generation)
    }

    /// Stops it for what is wanted now; the next change begins it again.
    pub fn cancel(self) {
        self.canceled.set(Some(self.wanted.with_untracked(|wanted| wanted.generation)));
    }

    /// Begins it again after it was canceled or stopped by itself.
    pub fn start_again(self) {
        self.state.set(State::default());
        self.canceled.set(None);
    }

    /// Whether somebody canceled it for what is wanted.
    fn is_canceled(self) -> bool {
        let wanted = self.generation();
        self.canceled.get() == Some(wanted)
    }

    /// Whether it ended before its end, so that it can be begun again.
    pub fn is_cut_short(self) -> bool {
        self.is_canceled() || self.is_stopped()
    }

    /// Whether nothing more is to come for what is wanted.
    pub fn is_done(self) -> bool {
        let wanted = self.generation();
        let is_at_end =
            self.state.with(|state| state.stopped || state.of == wanted && state.ended);
        is_at_end || self.is_canceled()
    }

    /// Whether its worker died, or none could be had.
    pub fn is_stopped(self) -> bool {
        self.state.with(|state| state.stopped)
    }

    /// Whether it came to nothing, and why.
    pub fn failure(self) -> Option<String> {
        let (wanted, system) = (self.generation(), self.system.get());
        self.state.with(|state| {
            let failed = state.failed.as_ref().filter(|_| state.of == wanted)?;
            Some(failed.get(system).clone())
        })
    }

    /// How far it has come, or why no further; nothing where it is done.
    pub fn in_words(self) -> String {
        if let Some(failure) = self.failure() {
            return failure;
        }
        if self.is_canceled() {
            return texts::canceled().into();
        }
        let wanted = self.generation();
        self.state.with(|state| match state.progress {
            _ if state.stopped => texts::stopped().into(),
            _ if state.of == wanted && state.ended => String::new(),
            Some((done, all)) if state.of == wanted => texts::progress(done, all),
            _ => texts::waiting().into(),
        })
    }
}
