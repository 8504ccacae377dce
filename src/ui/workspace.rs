//! Everything on the page that can be written, in one place; the rest is derived.

use super::history::History;
use super::opening::{Opened, Owner};
use super::storage::{self, NotKept};
use leptos::prelude::*;
use longsmoke::analysis::{Analysis, Failure, analyze};
use longsmoke::design::Design;
use longsmoke::design::document::{self, DocumentError};
use longsmoke::design::field::{Field, Group, Number, Problem, check, check_number};
use longsmoke::design::link::LinkError;
use longsmoke::rules::{self, DayFigures, Finding, Place};
use longsmoke::units::System;
use serde_json::Value;
use std::sync::Arc;
use std::time::Duration;

/// Rest after the last change before the design is kept.
const REST: Duration = Duration::from_millis(500);

/// What is shown of a design: the last one that could be analyzed.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    pub design: Arc<Design>,
    pub analysis: Arc<Analysis>,
    pub findings: Arc<Vec<Finding>>,
    /// Why the present design is not the one that is shown.
    pub failure: Option<Failure>,
}

/// What happened to the design on this device.
#[derive(Clone, Debug, PartialEq)]
pub enum Kept {
    Not,
    At(String),
    Failed,
}

/// Something to say above the page.
#[derive(Clone, Debug, PartialEq)]
pub enum Notice {
    Link(LinkError),
    File(DocumentError),
    FileUnreadable,
    StoredUnreadable,
}

/// The page's state.
#[derive(Clone, Copy)]
pub struct Workspace {
    pub history: RwSignal<History>,
    pub design: Memo<Design>,
    pub shown: Memo<Option<Shown>>,
    /// What is judged of the firing day, with the design whose day it is.
    pub day: RwSignal<Option<(Arc<Design>, DayFigures)>>,
    /// Raised when the design comes from elsewhere than a field: what is typed is void then.
    pub epoch: RwSignal<u32>,
    pub system: RwSignal<System>,
    pub open_group: RwSignal<Option<Group>>,
    pub marked: RwSignal<Option<Place>>,
    pub owner: RwSignal<Owner>,
    pub notice: RwSignal<Option<Notice>>,
    pub kept: RwSignal<Kept>,
    /// The file from which the design came, for what we do not know in it.
    original: StoredValue<Option<Value>>,
    /// The user's own design while one from a link is open.
    own: StoredValue<Option<(Design, Option<Value>)>>,
    timer: StoredValue<Option<TimeoutHandle>>,
}

impl Workspace {
    pub fn new(opened: Opened) -> Self {
        let history = RwSignal::new(History::new(opened.design));
        let design = Memo::new(move |_| history.with(|history| history.present().clone()));
        let units = storage::read(storage::UNITS);
        let day = RwSignal::new(None::<(Arc<Design>, DayFigures)>);
        let show = move |design: &Design, last: Option<&Option<Shown>>| {
            day.with(|day| {
                let day = day.as_ref().filter(|(of, _)| same_but_name(of, design));
                show(design, day.map(|(_, figures)| figures), last)
            })
        };
        Self {
            history,
            design,
            shown: Memo::new(move |last| design.with(|design| show(design, last))),
            day,
            epoch: RwSignal::new(0),
            system: RwSignal::new(match units.as_deref() {
                Some("us") => System::Us,
                _ => System::Metric,
            }),
            open_group: RwSignal::new(Some(Group::Path)),
            marked: RwSignal::new(None),
            owner: RwSignal::new(opened.owner),
            notice: RwSignal::new(opened.notice),
            kept: RwSignal::new(Kept::Not),
            original: StoredValue::new(opened.original),
            own: StoredValue::new(opened.own),
            timer: StoredValue::new(None),
        }
    }

    /// Reads what is shown, in the units that are shown; none where there is nothing to show.
    pub fn read<T>(self, read: impl FnOnce(&Shown, System) -> T) -> Option<T> {
        let system = self.system.get();
        self.shown.with(|shown| shown.as_ref().map(|shown| read(shown, system)))
    }

    /// Puts a number into the design, as part of a gesture; refuses what cannot be built.
    pub fn enter(self, field: &Field, number: &Number, value: f64) -> Result<(), Problem> {
        if let Some(problem) = check_number(field.id, number, value) {
            return Err(problem);
        }
        self.try_change(|design| (number.set)(design, value))
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
                self.original.set_value(Some(document.original));
                let design = document.design;
                self.history.update(|history| {
                    history.commit();
                    history.change(design);
                    history.commit();
                });
                self.void_entries();
                self.notice.set(None);
            }
            Err(error) => self.notice.set(Some(Notice::File(error))),
        }
    }

    /// Shows a design that came with a link; the own one is put aside.
    pub fn open_linked(self, design: Design) {
        self.keep_now();
        if self.owner.get_untracked() == Owner::User {
            let original = self.original.get_value();
            self.own.set_value(Some((self.design.get_untracked(), original)));
        }
        self.original.set_value(None);
        self.replace_all(design, Owner::Link);
        storage::open_linked_here();
        self.keep_now();
    }

    /// Puts the design of the link away and shows the own one again.
    pub fn back_to_own(self) {
        let (design, original) =
            self.own.get_value().unwrap_or_else(|| (Design::demonstration(), None));
        self.original.set_value(original);
        storage::close_linked_here();
        self.replace_all(design, Owner::User);
    }

    /// Makes the design of the link the user's own.
    pub fn keep_linked(self) {
        self.owner.set(Owner::User);
        self.own.set_value(None);
        storage::close_linked_here();
        self.keep_now();
    }

    fn replace_all(self, design: Design, owner: Owner) {
        self.owner.set(owner);
        self.notice.set(None);
        self.history.set(History::new(design));
        self.void_entries();
    }

    /// The design as a file.
    pub fn file(self) -> String {
        self.original.with_value(|original| {
            self.design.with_untracked(|design| document::write(design, original.as_ref()))
        })
    }

    /// Keeps the design on this device, after a rest.
    pub fn keep_soon(self) {
        let keep = move || {
            self.timer.set_value(None);
            self.keep_now();
        };
        if let Some(timer) = self.timer.get_value() {
            timer.clear();
        }
        self.timer.set_value(set_timeout_with_handle(keep, REST).ok());
    }

    /// Whether a change still waits to be kept.
    pub fn is_unkept(self) -> bool {
        self.timer.with_value(Option::is_some)
    }

    /// Keeps the design on this device.
    pub fn keep_now(self) {
        if let Some(timer) = self.timer.get_value() {
            timer.clear();
            self.timer.set_value(None);
        }
        let text = self.file();
        let written = match self.owner.get_untracked() {
            Owner::User => storage::write_own(&text),
            Owner::Link => storage::write(storage::LINKED, &text),
        };
        self.kept.set(match written {
            Ok(()) => Kept::At(super::browser::time_of_day()),
            Err(NotKept) => Kept::Failed,
        });
    }
}

/// Whether two designs are the same but for their names.
pub fn same_but_name(one: &Design, other: &Design) -> bool {
    let mut one = one.clone();
    one.name.clone_from(&other.name);
    one == *other
}

/// Analysis and findings of a design, with its firing day as soon as that is known; those of the
/// last good one when it has none.
fn show(
    design: &Design,
    day: Option<&DayFigures>,
    last: Option<&Option<Shown>>,
) -> Option<Shown> {
    match analyze(design) {
        Ok(analysis) => Some(Shown {
            findings: Arc::new(rules::judge(design, &analysis, day)),
            design: Arc::new(design.clone()),
            analysis: Arc::new(analysis),
            failure: None,
        }),
        Err(failure) => {
            let last = last.cloned().flatten()?;
            Some(Shown { failure: Some(failure), ..last })
        }
    }
}
