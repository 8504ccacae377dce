//! What the page opens with: the design of a link, the own one, or the demonstration.

use super::history::Step;
use super::workspace::{Notice, Workspace};
use super::{browser, shelf, storage, texts};
use longsmoke::design::Design;
use longsmoke::design::document;
use longsmoke::design::link::{self, LinkError, Linked};
use longsmoke::language::said;
use wasm_bindgen_futures::spawn_local;

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
    /// Whether a design from a link is no longer what the link brought.
    pub is_edited: bool,
}

/// What to show first.
pub async fn open() -> Opened {
    let (theirs, said) = match from_address().await {
        Some(Ok((step, said))) => (Some((step, false)), said),
        Some(Err(notice)) => (from_tab(), Some(notice)),
        None => (from_tab(), None),
    };
    let opened = match theirs {
        Some((step, is_edited)) => Opened { is_edited, ..linked(own(), step) },
        None => own(),
    };
    Opened { notice: said.or(opened.notice), ..opened }
}

/// The design of a link that this tab showed before it was reloaded, and whether it was edited.
fn from_tab() -> Option<(Step, bool)> {
    let text = storage::linked()?;
    let step = document::read(&text).ok()?.into();
    shelf::is_open_again(&text);
    Some((step, storage::is_linked_edited()))
}

/// The design that is shown where there is none of one's own.
pub fn example() -> Design {
    Design { name: said("North farmhouse").into(), ..Design::demonstration() }
}

fn linked(own: Opened, step: Step) -> Opened {
    let theirs = own.stored.is_some().then_some(own.step);
    Opened { step, owner: Owner::Link, own: theirs, ..own }
}

/// The own design of this device, else the one before it, else the demonstration.
fn own() -> Opened {
    let stored = storage::read(storage::OWN);
    let (step, notice) = match stored.as_deref().map(document::read) {
        None => (example().into(), left_over()),
        Some(Ok(document)) => (document.into(), left_over()),
        Some(Err(_)) => instead(stored.clone().unwrap_or_default()),
    };
    Opened { step, owner: Owner::User, notice, own: None, stored, is_edited: false }
}

/// What to show in the place of a stored text that cannot be read.
fn instead(broken: String) -> (Step, Option<Notice>) {
    let before = storage::read(storage::BEFORE).and_then(|text| document::read(&text).ok());
    let (step, shown) = match before {
        Some(document) => (document.into(), texts::shows_before()),
        None => (example().into(), texts::shows_example()),
    };
    let kept = match storage::write(storage::UNREADABLE, &broken) {
        Ok(()) => texts::set_aside(),
        Err(storage::NotKept) => texts::not_set_aside(),
    };
    let said = [shown, kept].join(" ");
    (step, Some(unreadable(broken, &said, Some(storage::UNREADABLE))))
}

/// A text on the device that cannot be read.
///
/// * `more`: what is said beside that.
/// * `place`: where it is until that has been read, if that is no place of a design.
pub fn unreadable(broken: String, more: &str, place: Option<&'static str>) -> Notice {
    let said = [texts::stored_unreadable(), more].join(" ");
    Notice::Unreadable { broken, said, place }
}

/// What an earlier visit put aside and nobody has decided on.
fn left_over() -> Option<Notice> {
    let unreadable = storage::read(storage::UNREADABLE)
        .map(|broken| unreadable(broken, texts::set_aside(), Some(storage::UNREADABLE)));
    let replaced = || storage::read(storage::REPLACED).map(|_| Notice::Replaced(None));
    let shelved = || storage::read(storage::SHELVED).map(Notice::Shelved);
    unreadable.or_else(replaced).or_else(shelved)
}

/// The design in the address, and what is to be said then; none where there is no fragment of ours.
/// What was made in this tab of another link's is put away before. The address is cleaned, but only
/// once a reload of this tab would find the design elsewhere.
async fn from_address() -> Option<Result<(Step, Option<Notice>), Notice>> {
    let fragment = browser::fragment();
    if fragment.is_empty() {
        return None;
    }
    let step = match decode(&fragment).await {
        Ok(linked) => Step::from(linked),
        Err(error) => {
            browser::clean_address();
            return Some(Err(Notice::Link(error)));
        }
    };
    let edited = storage::linked().filter(|_| storage::is_linked_edited());
    let said = match edited.map(|text| shelf::put_linked_away(&text)) {
        None => None,
        Some(Ok(name)) => Some(Notice::Shelved(name)),
        Some(Err(storage::NotKept)) => return Some(Err(Notice::NoRoom)),
    };
    storage::forget_linked();
    if storage::write_linked(&step.file()).is_ok() {
        browser::clean_address();
    }
    Some(Ok((step, said)))
}

/// Unpacks a link as the browser does it: with a program of ours for it, everybody would wait longer.
async fn decode(fragment: &str) -> Result<Linked, LinkError> {
    let packed = link::packed(fragment)?;
    let text = browser::inflate(&packed.bytes).await.ok_or(LinkError::Damaged)?;
    packed.open(&text)
}

/// Opens links that are put into the address bar of the open page.
pub fn watch_address(workspace: Workspace) {
    let open = move || async move {
        workspace.keep_waiting();
        match from_address().await {
            Some(Ok((step, said))) => workspace.open_linked(step, said),
            Some(Err(notice)) => workspace.notice.set(Some(notice)),
            None => {}
        }
    };
    browser::listen("hashchange", move |_| spawn_local(open()));
}
