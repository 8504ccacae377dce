//! What the page opens with: the design of a link, the own one, or the demonstration.

use super::history::Step;
use super::workspace::{Notice, Workspace};
use super::{browser, storage, texts};
use leptos::prelude::Set as _;
use longsmoke::design::Design;
use longsmoke::design::document;
use longsmoke::design::link::{self, LinkError};

/// Whose design is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Owner {
    User,
    Link,
}

/// A design to begin with.
pub struct Opened {
    pub step: Step,
    pub owner: Owner,
    pub notice: Option<Notice>,
    /// The user's own design, when there is one and another is shown.
    pub own: Option<Step>,
    /// What stands on the device as the own design.
    pub stored: Option<String>,
}

/// What to show first.
pub fn open() -> Opened {
    let own = own();
    match from_address() {
        Some(Ok(design)) => linked(own, design.into()),
        Some(Err(error)) => Opened { notice: Some(Notice::Link(error)), ..own },
        None => match storage::linked().and_then(|text| document::read(&text).ok()) {
            Some(document) => linked(own, document.into()),
            None => own,
        },
    }
}

fn linked(own: Opened, step: Step) -> Opened {
    let theirs = own.stored.is_some().then_some(own.step);
    Opened { step, owner: Owner::Link, own: theirs, ..own }
}

/// The own design of this device, else the one before it, else the demonstration.
fn own() -> Opened {
    let stored = storage::read(storage::OWN);
    let (step, notice) = match stored.as_deref().map(document::read) {
        None => (Design::demonstration().into(), left_over()),
        Some(Ok(document)) => (document.into(), left_over()),
        Some(Err(_)) => instead(stored.clone().unwrap_or_default()),
    };
    Opened { step, owner: Owner::User, notice, own: None, stored }
}

/// What to show in the place of a stored text that cannot be read.
fn instead(broken: String) -> (Step, Option<Notice>) {
    let before = storage::read(storage::BEFORE).and_then(|text| document::read(&text).ok());
    let (step, shown) = match before {
        Some(document) => (document.into(), texts::SHOWS_BEFORE),
        None => (Design::demonstration().into(), texts::SHOWS_EXAMPLE),
    };
    let kept = match storage::write(storage::UNREADABLE, &broken) {
        Ok(()) => texts::SET_ASIDE,
        Err(storage::NotKept) => texts::NOT_SET_ASIDE,
    };
    let said = format!("{} {shown} {kept}", texts::STORED_UNREADABLE);
    (step, Some(Notice::Unreadable { broken, said }))
}

/// What an earlier visit put aside and nobody has decided on.
fn left_over() -> Option<Notice> {
    let unreadable = storage::read(storage::UNREADABLE).map(|broken| {
        let said = format!("{} {}", texts::STORED_UNREADABLE, texts::SET_ASIDE);
        Notice::Unreadable { broken, said }
    });
    let replaced = || storage::read(storage::REPLACED).map(|_| Notice::Replaced);
    unreadable.or_else(replaced)
}

/// The design in the address; none where there is no fragment of ours. The address is cleaned, but
/// only once a reload of this tab would find the design elsewhere.
fn from_address() -> Option<Result<Design, LinkError>> {
    let fragment = browser::fragment();
    if fragment.is_empty() {
        return None;
    }
    let decoded = link::decode(&fragment);
    let kept = match &decoded {
        Ok(design) => storage::write_linked(&document::write(design, None)),
        Err(_) => Ok(()),
    };
    if kept.is_ok() {
        browser::clean_address();
    }
    Some(decoded)
}

/// Opens links that are put into the address bar of the open page.
pub fn watch_address(workspace: Workspace) {
    browser::listen("hashchange", move |_| match from_address() {
        Some(Ok(design)) => workspace.open_linked(design),
        Some(Err(error)) => workspace.notice.set(Some(Notice::Link(error))),
        None => {}
    });
}
