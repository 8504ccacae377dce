//! Everything on the page that can be written, in one place; the rest is derived.

use super::dom::watch;
use super::history::{History, Step};
use super::labor::Task;
use super::office::Office;
use super::opening::{self, Opened, Owner};
use super::signal::{Memo, RwSignal};
use super::{browser, shelf, storage, texts};
use leptos::leptos_dom::helpers::TimeoutHandle;
use longsmoke::analysis::{Analysis, Failure, analyze};
use longsmoke::courses::snap::Sizes;
use longsmoke::design::Design;
use longsmoke::design::document::{self, Document, DocumentError, MOST_PINNED};
use longsmoke::design::field::{Field, FieldId, Group, Number, Problem, check, check_number};
use longsmoke::design::link::LinkError;
use longsmoke::rules::{self, Computed, DayFigures, Edges, Finding, Known, Place, Question};
use longsmoke::units::System;
use std::ops::Deref;
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;

/// Rest after the last change before the design is kept.
const REST: Duration = Duration::from_millis(500);
/// Rest after the last change before what need not follow a hand is drawn.
const MOMENT: Duration = Duration::from_millis(120);

/// What is shown of a design: the last one that could be analyzed.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    pub design: Arc<Design>,
    pub analysis: Arc<Analysis>,
    /// The heaviest first.
    pub findings: Arc<Vec<Finding>>,
    /// By question, as the page lists and numbers them: what is judged later stays as it was of
    /// the design before, until it has been.
    pub listed: Arc<Vec<Finding>>,
    /// Why the present design is not the one that is shown.
    pub failure: Option<Failure>,
}

/// What happened to the design on this device.
#[derive(Clone, Debug, PartialEq)]
pub enum Kept {
    Not,
    At(String),
    /// A design from a link, which is not the user's: in the tab's own storage.
    InTab(String),
    /// Without the generation before.
    Alone(String),
    Failed,
    /// It would be too long to be read again.
    TooMuch,
    /// Another tab has kept another one, and nobody has chosen yet.
    Held,
}

impl Kept {
    /// Whether it would be found again.
    const fn is_success(&self) -> bool {
        matches!(self, Self::At(_) | Self::InTab(_) | Self::Alone(_))
    }
}

/// Something to say above the page.
#[derive(Clone, Debug, PartialEq)]
pub enum Notice {
    Link(LinkError),
    File(DocumentError),
    FileUnreadable,
    NotSaved,
    /// The design is too long to be read again.
    TooMuch,
    /// No link can carry the design.
    NoLink,
    /// So many inputs were not in a file.
    Missing(usize),
    /// A text on the device that cannot be read, and what is to be said of it; the place where it is
    /// until that has been read, if that is no place of a design.
    Unreadable {
        broken: String,
        said: String,
        place: Option<&'static str>,
    },
    /// Another design stands in the place of the user's, which is kept; the name under which the one
    /// is on the shelf now that was kept there before.
    Replaced(Option<String>),
    /// What was made of a design from a link was put on the shelf, under this name.
    Shelved(String),
    /// It could not be put there, so it was not replaced.
    NoRoom,
    /// The own design could not be kept beside it, so it was not replaced.
    NoRoomBeside,
}

/// What a worker has found of a design, or why it has not, with that design.
pub type OfDesign<T> = RwSignal<Option<(Arc<Design>, Result<T, Failure>)>>;

/// The page's state, which lives as long as the page: by its place, since whatever follows it carries
/// it along.
#[derive(Clone, Copy)]
pub struct Workspace(&'static State);

impl Deref for Workspace {
    type Target = State;

    fn deref(&self) -> &State {
        self.0
    }
}

/// What the page's state consists of.
pub struct State {
    pub history: RwSignal<History>,
    pub design: Memo<Design>,
    /// The same, to be handed on.
    pub current: Memo<Arc<Design>>,
    /// Designs that are pinned beside it.
    pub pinned: Memo<Arc<[Design]>>,
    /// Whether links carry them.
    pub links_pinned: RwSignal<bool>,
    pub shown: Memo<Option<Shown>>,
    /// The same once it has rested for a moment, for what need not follow a hand.
    pub rested: RwSignal<Option<Shown>>,
    /// What is judged of the firing day, with the design whose day it is.
    pub day: OfDesign<DayFigures>,
    /// None of a design that is mild as it stands.
    pub mild: OfDesign<DayFigures>,
    /// Safety at its unfavorable edge.
    pub edges: OfDesign<Edges>,
    /// Raised when the design comes from elsewhere than a field: what is typed is void then.
    pub epoch: RwSignal<u32>,
    /// Decisions whose entry is refused and not in the design.
    pub refused: RwSignal<Vec<FieldId>>,
    pub system: RwSignal<System>,
    pub open_group: RwSignal<Option<Group>>,
    pub marked: RwSignal<Option<Place>>,
    /// Whether grips set sizes to whole courses and half bricks.
    pub to_bricks: RwSignal<bool>,
    /// The part whose card is shown.
    pub chosen: RwSignal<Place>,
    pub owner: RwSignal<Owner>,
    pub notice: RwSignal<Option<Notice>>,
    pub kept: RwSignal<Kept>,
    /// Who does what takes long.
    pub office: RwSignal<Rc<Office>>,
    /// Judgments that come later than the design.
    pub awaited: RwSignal<Vec<Task>>,
    /// Whether any of them is still to come.
    pub waits: Memo<bool>,
    /// Whether findings are listed: at the start once all are known, or have been asked for.
    pub lists: RwSignal<bool>,
    /// The user's own design while one from a link is open; none where there was none.
    own: RwSignal<Option<Step>>,
    /// What the link brought; none where it was edited before the tab was reloaded.
    came: RwSignal<Option<Step>>,
    /// What this tab last read or wrote as the own design of the device.
    seen: RwSignal<Option<String>>,
    timer: RwSignal<Option<TimeoutHandle>>,
}

impl Workspace {
    pub fn new(opened: Opened) -> Self {
        let came = (!opened.is_edited).then(|| opened.step.clone());
        let history = RwSignal::new(History::new(opened.step));
        let design =
            Memo::new(move |_| history.with(|history| history.present().design.clone()));
        let pinned =
            Memo::new(move |_| history.with(|history| history.present().pinned.clone()));
        let units = storage::read(storage::UNITS);
        let [day, mild] = [RwSignal::new(None), RwSignal::new(None)];
        let edges: OfDesign<Edges> = RwSignal::new(None);
        let awaited = RwSignal::new(Vec::<Task>::new());
        let waits =
            Memo::new(move |_| awaited.with(|tasks| tasks.iter().any(|task| !task.is_done())));
        let show = move |design: &Arc<Design>, last: Option<&Option<Shown>>| {
            let (day, mild, edges) = (day.get(), mild.get(), edges.get());
            let known = |with_old: bool| {
                let counts = |of: &Design| with_old || same_but_name(of, design);
                Known {
                    day: computed(day.as_ref(), counts),
                    mild: computed(mild.as_ref(), counts),
                    edges: computed(edges.as_ref(), counts),
                }
            };
            show(design, known(false), waits.get().then(|| known(true)), last)
        };
        let current = Memo::new(move |_| design.with(|design| Arc::new(design.clone())));
        let shown = Memo::new(move |last| current.with(|design| show(design, last)));
        Self(Box::leak(Box::new(State {
            history,
            design,
            current,
            pinned,
            links_pinned: RwSignal::new(false),
            shown,
            rested: rested(shown),
            day,
            mild,
            edges,
            epoch: RwSignal::new(0),
            refused: RwSignal::new(Vec::new()),
            system: RwSignal::new(match units.as_deref() {
                Some("us") => System::Us,
                _ => System::Metric,
            }),
            open_group: RwSignal::new(Some(Group::Path)),
            marked: RwSignal::new(None),
            to_bricks: RwSignal::new(false),
            chosen: RwSignal::new(Place::Run(0)),
            owner: RwSignal::new(opened.owner),
            notice: RwSignal::new(opened.notice),
            kept: RwSignal::new(Kept::Not),
            office: RwSignal::new(Rc::default()),
            awaited,
            waits,
            lists: RwSignal::new(false),
            own: RwSignal::new(opened.own),
            came: RwSignal::new(came),
            seen: RwSignal::new(opened.stored),
            timer: RwSignal::new(None),
        })))
    }

    /// Reads what is shown, in the units that are shown; none where there is nothing to show.
    pub fn read<T>(self, read: impl FnOnce(&Shown, System) -> T) -> Option<T> {
        let system = self.system.get();
        self.shown.with(|shown| shown.as_ref().map(|shown| read(shown, system)))
    }

    /// The same once it has rested for a moment.
    pub fn read_rested<T>(self, read: impl FnOnce(&Shown, System) -> T) -> Option<T> {
        let system = self.system.get();
        self.rested.with(|shown| shown.as_ref().map(|shown| read(shown, system)))
    }

    /// Puts a number into the design, as part of a gesture; refuses what cannot be built.
    pub fn enter(self, field: &Field, number: &Number, value: f64) -> Result<(), Problem> {
        if let Some(problem) = check_number(field.id, number, value) {
            return Err(problem);
        }
        self.try_change(|design| (number.set)(design, value))
    }

    /// Step of a number under a hand (SI): that of bricks where it is set to them.
    pub fn step_of(self, id: FieldId, number: &Number) -> f64 {
        self.sizes(id).map_or(number.step, Sizes::step)
    }

    /// The sizes that bricks leave to a number, where it is set to them.
    fn sizes(self, id: FieldId) -> Option<Sizes> {
        let wanted = self.to_bricks.get_untracked();
        wanted.then(|| self.design.with_untracked(|design| Sizes::of(id, design))).flatten()
    }

    /// Brings a number as near to a value as can be built, in whole steps, as part of a gesture;
    /// says what stands in the way.
    pub fn approach(self, field: &Field, number: &Number, value: f64) -> Option<Problem> {
        let (sizes, step) = (self.sizes(field.id), self.step_of(field.id, number));
        let near = |value: f64| match sizes {
            Some(sizes) => {
                let size = sizes.nearest(number.nearest(value));
                let over = f64::from(size > *number.possible.end());
                size - step * (over - f64::from(size < *number.possible.start()))
            }
            None => number.nearest(value),
        };
        let now = self.design.with_untracked(number.get);
        let wanted = near(value);
        let mut problem = self.enter(field, number, wanted).err()?;
        // The nearest that can be built lies between, if anywhere.
        let steps = libm::round((wanted - now) / step);
        let (mut good, mut bad) = (0.0, steps);
        while (bad - good).abs() > 1.5 {
            let middle = libm::round(0.5 * (good + bad));
            match self.enter(field, number, near(now + middle * step)) {
                Ok(()) => good = middle,
                Err(why) => (problem, bad) = (why, middle),
            }
        }
        Some(problem)
    }

    /// Changes the design as part of a gesture, unless that makes one that cannot be built.
    pub fn try_change(self, change: impl FnOnce(&mut Design)) -> Result<(), Problem> {
        let mut design = self.design.get_untracked();
        change(&mut design);
        if let Some(problem) = check(&design).into_iter().next() {
            return Err(problem);
        }
        self.history.update(|history| history.change(design));
        Ok(())
    }

    pub fn commit(self) {
        self.history.update(History::commit);
    }

    pub fn cancel(self) {
        self.history.update(History::cancel);
    }

    pub fn undo(self) {
        self.history.update(History::undo);
        self.void_entries();
    }

    pub fn redo(self) {
        self.history.update(History::redo);
        self.void_entries();
    }

    pub fn void_entries(self) {
        self.epoch.update(|epoch| *epoch += 1);
        self.refused.update(Vec::clear);
    }

    /// Ends a gesture on a drawing; what is typed is void where it changed the design.
    pub fn settle(self) {
        if self.history.with_untracked(History::is_under_way) {
            self.commit();
            self.void_entries();
        }
    }

    /// Notes that the entry of a decision is refused.
    pub fn refuse(self, id: FieldId) {
        if !self.refused.with_untracked(|refused| refused.contains(&id)) {
            self.refused.update(|refused| refused.push(id));
        }
    }

    /// Notes that it no longer is.
    pub fn accept(self, id: FieldId) {
        if self.refused.with_untracked(|refused| refused.contains(&id)) {
            self.refused.update(|refused| refused.retain(|other| *other != id));
        }
    }

    pub fn show_units(self, system: System) {
        self.system.set(system);
        self.void_entries();
        let name = match system {
            System::Metric => "metric",
            System::Us => "us",
        };
        // Nothing is lost if it is not kept.
        let _ = storage::write(storage::UNITS, name);
    }

    /// Takes a file's text as the design, as one step.
    pub fn open_file(self, text: &str) {
        match document::read(text) {
            Ok(document) => {
                let _ = self.open_document(document);
            }
            Err(error) => self.notice.set(Some(Notice::File(error))),
        }
    }

    /// Takes a file as the design, as one step, unless that would lose another; whether it did.
    fn open_document(self, document: Document) -> bool {
        let Ok(shelved) = self.put_linked_away() else {
            self.notice.set(Some(Notice::NoRoom));
            return false;
        };
        let missing = document.missing();
        let missing = (missing > 0).then_some(Notice::Missing(missing));
        self.notice.set(missing.or(shelved));
        self.replace(document.into());
        true
    }

    /// Whether the design came with a link and is no longer what it brought.
    fn is_edited(self) -> bool {
        let is_as_it_came = |history: &History| {
            self.came.with_untracked(|came| came.as_ref() == Some(history.present()))
        };
        self.owner.get_untracked() == Owner::Link && !self.history.with_untracked(is_as_it_came)
    }

    /// Puts what was made of a design from a link on the shelf, before another takes its place; what
    /// is to be said then.
    fn put_linked_away(self) -> Result<Option<Notice>, storage::NotKept> {
        if !self.is_edited() {
            return Ok(None);
        }
        // It was said that whoever goes on loses it.
        let is_told = self.notice.with_untracked(|notice| *notice == Some(Notice::NoRoom));
        match shelf::put_linked_away(&self.file()) {
            Ok(name) => Ok(Some(Notice::Shelved(name))),
            Err(storage::NotKept) if is_told => Ok(None),
            Err(error) => Err(error),
        }
    }

    /// Pins other designs beside this one, as one step.
    pub fn pin(self, change: impl FnOnce(&mut Vec<Design>)) {
        let present = self.history.with_untracked(|history| history.present().clone());
        let mut pinned = present.pinned.to_vec();
        change(&mut pinned);
        pinned.truncate(MOST_PINNED);
        self.replace(Step { pinned: pinned.into(), ..present });
    }

    /// Takes a variant or a pinned design as the design, as one step; the pinned ones stay.
    pub fn take(self, change: impl FnOnce(&mut Design)) {
        if self.try_change(change).is_ok() {
            self.commit();
            self.void_entries();
        }
    }

    fn replace(self, step: Step) {
        self.history.update(|history| history.replace(step));
        self.void_entries();
    }

    /// Shows a design that came with a link; the own one is put aside.
    pub fn open_linked(self, step: Step, said: Option<Notice>) {
        self.notice.set(said);
        self.came.set_untracked(Some(step.clone()));
        if self.owner.get_untracked() == Owner::Link {
            self.replace(step);
        } else {
            self.keep_waiting();
            let is_theirs = self.seen.with_untracked(Option::is_some)
                || self.history.with_untracked(History::can_undo);
            let own = self.history.with_untracked(|history| history.present().clone());
            self.own.set_untracked(is_theirs.then_some(own));
            self.show_anew(step, Owner::Link);
        }
        self.keep_now();
    }

    /// Whether the user has a design that a link did not bring.
    pub fn has_own(self) -> bool {
        self.own.with_untracked(Option::is_some)
    }

    /// Puts the design of the link away and shows the own one again.
    pub fn back_to_own(self) {
        let Ok(said) = self.put_linked_away() else {
            return self.notice.set(Some(Notice::NoRoom));
        };
        // Another tab may have gone on with it.
        let stored = storage::read(storage::OWN);
        let newer =
            stored.as_deref().filter(|_| self.seen.with_untracked(|seen| *seen != stored));
        let step = match newer.map(document::read) {
            Some(Ok(document)) => {
                self.seen.set_untracked(stored);
                document.into()
            }
            _ => self.own.get_untracked().unwrap_or_else(|| opening::example().into()),
        };
        storage::forget_linked();
        self.notice.set(said);
        self.show_anew(step, Owner::User);
    }

    /// Makes the design of the link the user's own. The one that was stays a step back, and on the
    /// device.
    pub fn keep_linked(self) {
        if let Some(own) = self.own.get_untracked() {
            let Ok(earlier) = shelf::put_replaced(&own.file()) else {
                return self.notice.set(Some(Notice::NoRoomBeside));
            };
            self.history.update(|history| {
                let linked = history.present().clone();
                history.replace(own);
                history.replace(linked);
            });
            self.own.set_untracked(None);
            self.notice.set(Some(Notice::Replaced(earlier)));
        }
        self.owner.set(Owner::User);
        self.keep_now();
    }

    /// Shows the design again in whose place another was put.
    pub fn bring_back(self) {
        let Some(text) = storage::read(storage::REPLACED) else {
            self.undo();
            self.notice.set(None);
            return;
        };
        let Ok(document) = document::read(&text) else {
            let place = Some(storage::REPLACED);
            return self.notice.set(Some(opening::unreadable(text, texts::set_aside(), place)));
        };
        if self.open_document(document) {
            self.keep_now();
            if self.kept.with_untracked(Kept::is_success) {
                storage::remove(storage::REPLACED);
            }
        }
    }

    fn show_anew(self, step: Step, owner: Owner) {
        self.owner.set(owner);
        self.history.set(History::new(step));
        self.void_entries();
    }

    /// The design as a file.
    pub fn file(self) -> String {
        self.history.with_untracked(|history| history.present().file())
    }

    /// Keeps the design on this device, after a rest.
    pub fn keep_soon(self) {
        let keep = move || {
            self.timer.set_untracked(None);
            self.keep_now();
        };
        if let Some(timer) = self.timer.get_untracked() {
            timer.clear();
        }
        self.timer.set_untracked(browser::after(REST, keep));
    }

    /// Whether a change still waits to be kept.
    fn is_unkept(self) -> bool {
        self.timer.with_untracked(Option::is_some)
    }

    /// Keeps a change that still waits for it.
    pub fn keep_waiting(self) {
        if self.is_unkept() {
            self.keep_now();
        }
    }

    /// Keeps the design on this device, unless that would undo what another tab has kept.
    pub fn keep_now(self) {
        if let Some(timer) = self.timer.get_untracked() {
            timer.clear();
            self.timer.set_untracked(None);
        }
        let text = self.file();
        let at = browser::time_of_day;
        let kept = if !document::fits(&text) {
            Kept::TooMuch
        } else if self.owner.get_untracked() == Owner::Link {
            let write = if self.is_edited() {
                storage::write_linked_edited
            } else {
                storage::write_linked
            };
            write(&text).map_or(Kept::Failed, |()| Kept::InTab(at()))
        } else if self.is_other(&text) {
            Kept::Held
        } else {
            let written = storage::write_own(&text);
            if written.is_ok() {
                self.seen.set_untracked(Some(text));
                // It may have been that of a link until now.
                storage::forget_linked();
            }
            match written {
                Ok(true) => Kept::At(at()),
                Ok(false) => Kept::Alone(at()),
                Err(storage::NotKept) => Kept::Failed,
            }
        };
        self.kept.set(kept);
    }

    /// Whether the device holds a design that neither is this one nor was seen by this tab.
    fn is_other(self, text: &str) -> bool {
        storage::read(storage::OWN).is_some_and(|stored| {
            stored != text && self.seen.with_untracked(|seen| seen.as_ref() != Some(&stored))
        })
    }

    /// Looks at what another tab has kept.
    pub fn look_at_other(self) {
        if self.owner.get_untracked() == Owner::User && self.is_other(&self.file()) {
            self.kept.set(Kept::Held);
        }
    }

    /// Takes what another tab has kept in the place of what is here, as one step.
    pub fn take_other(self) {
        let stored = storage::read(storage::OWN);
        match stored.as_deref().map(document::read) {
            // It is no link's, so nothing has to be put away.
            Some(Ok(document)) => drop(self.open_document(document)),
            Some(Err(_)) => {
                let broken = stored.unwrap_or_default();
                let said = texts::design_as_it_was();
                return self.notice.set(Some(opening::unreadable(broken, said, None)));
            }
            None => {}
        }
        self.seen.set_untracked(stored);
        self.keep_now();
    }

    /// Keeps what is here; what another tab has kept becomes the generation before.
    pub fn keep_mine(self) {
        self.seen.set_untracked(storage::read(storage::OWN));
        self.keep_now();
    }

    /// The page is left.
    pub fn leave(self) {
        self.keep_waiting();
        // The tab may not come again. It is too late to say that there was no room.
        let _ = self.put_linked_away();
        let is_held = self.kept.with_untracked(|kept| *kept == Kept::Held);
        let is_worked_on = |history: &History| history.can_undo() || history.can_redo();
        if is_held && self.history.with_untracked(is_worked_on) {
            // The next visit says so.
            let _ = shelf::put_replaced(&self.file());
        }
    }
}

/// What is shown, once it has not changed for a moment.
fn rested(shown: Memo<Option<Shown>>) -> RwSignal<Option<Shown>> {
    let rested = RwSignal::new(shown.get_untracked());
    let timer = RwSignal::new(None::<TimeoutHandle>);
    let mut is_first = true;
    watch(move || {
        let now = shown.get();
        // What it was made with is there already.
        if !std::mem::take(&mut is_first) {
            let rest = move || {
                if let Some(timer) = timer.get_untracked() {
                    timer.clear();
                }
                let draw = move || rested.set(now);
                timer.set_untracked(browser::after(MOMENT, draw));
            };
            browser::once_painted(Box::new(rest));
        }
    });
    rested
}

/// Whether two designs are the same but for their names and notes, which change no judgment.
pub fn same_but_name(one: &Design, other: &Design) -> bool {
    same_but_path(one, other) && one.path == other.path
}

/// Whether two designs are the same but for their names, their notes and their smoke paths.
pub fn same_but_path(one: &Design, other: &Design) -> bool {
    let Design {
        name: _,
        site,
        fire,
        firebox,
        path: _,
        shell,
        chimney,
        surroundings,
        support,
        notes: _,
    } = one;
    *site == other.site
        && *fire == other.fire
        && *firebox == other.firebox
        && *shell == other.shell
        && *chimney == other.chimney
        && *surroundings == other.surroundings
        && *support == other.support
}

/// What was found, if it is of a design that counts.
fn computed<T>(
    found: Option<&(Arc<Design>, Result<T, Failure>)>,
    counts: impl Fn(&Design) -> bool,
) -> Computed<'_, T> {
    let (of, found) = found?;
    counts(of).then_some(found.as_ref())
}

/// Analysis and findings of a design, with its firing day and its edges as soon as they are known,
/// until then beside what is known of the design before; those of the last good one when it has none.
fn show(
    design: &Arc<Design>,
    known: Known<'_>,
    before: Option<Known<'_>>,
    last: Option<&Option<Shown>>,
) -> Option<Shown> {
    match analyze(design) {
        Ok(analysis) => {
            let findings = rules::judge(design, &analysis, known);
            let old = before.map(|before| rules::judge(design, &analysis, before));
            let all = old.as_ref().unwrap_or(&findings);
            let of = |question| {
                all.iter().filter(move |finding| finding.rule.question() == question)
            };
            let listed = Question::ALL.into_iter().flat_map(of).copied().collect();
            Some(Shown {
                listed: Arc::new(listed),
                findings: Arc::new(findings),
                design: Arc::clone(design),
                analysis: Arc::new(analysis),
                failure: None,
            })
        }
        Err(failure) => {
            let last = last.cloned().flatten()?;
            Some(Shown { failure: Some(failure), ..last })
        }
    }
}
