//! What the page opens with: the design of a link, the own one, or the demonstration.

use super::workspace::{Notice, Workspace};
use super::{browser, storage};
use leptos::prelude::Set as _;
use longsmoke::design::Design;
use longsmoke::design::document;
use longsmoke::design::link::{self, LinkError};
use serde_json::Value;

/// Whose design is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Owner {
    User,
    Link,
}

/// A design to begin with.
pub struct Opened {
    pub design: Design,
    pub original: Option<Value>,
    pub owner: Owner,
    pub notice: Option<Notice>,
    /// The user's own design, when another is shown.
    pub own: Option<(Design, Option<Value>)>,
}

/// What to show first.
pub fn open() -> Opened {
    let own = own();
    match from_address() {
        Some(Ok(design)) => {
            storage::open_linked_here();
            linked(own, design, None)
        }
        Some(Err(error)) => Opened { notice: Some(Notice::Link(error)), ..own },
        None => match kept_linked() {
            Some(document) => linked(own, document.design, Some(document.original)),
            None => own,
        },
    }
}

fn linked(own: Opened, design: Design, original: Option<Value>) -> Opened {
    Opened {
        design,
        original,
        owner: Owner::Link,
        notice: own.notice,
        own: Some((own.design, own.original)),
    }
}

/// The own design of this device, else the demonstration.
fn own() -> Opened {
    let demonstration = |notice| Opened {
        design: Design::demonstration(),
        original: None,
        owner: Owner::User,
        notice,
        own: None,
    };
    let Some(text) = storage::read(storage::OWN) else {
        return demonstration(None);
    };
    if let Ok(document) = document::read(&text) {
        return Opened {
            design: document.design,
            original: Some(document.original),
            ..demonstration(None)
        };
    }
    // If there is no room for the copy, the generation before still is one.
    let _ = storage::write(storage::UNREADABLE, &text);
    demonstration(Some(Notice::StoredUnreadable))
}

/// The design of a link that this tab showed before it was reloaded.
fn kept_linked() -> Option<document::Document> {
    let text = storage::linked_here().then(|| storage::read(storage::LINKED))??;
    document::read(&text).ok()
}

/// The design in the address, which is cleaned; none where there is no fragment of ours.
fn from_address() -> Option<Result<Design, LinkError>> {
    let fragment = browser::fragment();
    if fragment.is_empty() {
        return None;
    }
    browser::clean_address();
    Some(link::decode(&fragment))
}

/// Opens links that are put into the address bar of the open page.
pub fn watch_address(workspace: Workspace) {
    browser::listen("hashchange", move |_| match from_address() {
        Some(Ok(design)) => workspace.open_linked(design),
        Some(Err(error)) => workspace.notice.set(Some(Notice::Link(error))),
        None => {}
    });
}
