//! Designs and preferences on this device.

use web_sys::Storage;

/// The user's own design.
pub const OWN: &str = "longsmoke.design";
/// The one that was kept before it.
pub const BEFORE: &str = "longsmoke.design.before";
/// An own design in whose place another was put.
pub const REPLACED: &str = "longsmoke.design.replaced";
/// A stored text that could not be read.
pub const UNREADABLE: &str = "longsmoke.design.unreadable";
/// Copies of designs.
pub const SHELF: &str = "longsmoke.shelf";
/// The name of a copy that was made unasked, until that has been read.
pub const SHELVED: &str = "longsmoke.shelf.unasked";
/// Courses that are ticked off.
pub const COURSES: &str = "longsmoke.courses";
/// Units that are shown.
pub const UNITS: &str = "longsmoke.units";
/// Light or dark.
pub const THEME: &str = "longsmoke.theme";
/// Language that is spoken (`web/language.js`).
const LANGUAGE: &str = "longsmoke.language";
/// Whether the walk through the page was seen.
pub const WALK: &str = "longsmoke.walk";
/// In the tab's own storage: the design from a link that is open here.
const LINKED: &str = "longsmoke.linked";
/// There, too: that it is no longer what the link brought.
const LINKED_EDITED: &str = "longsmoke.linked.edited";
/// There, too: the copy that was made of it unasked.
const LINKED_COPY: &str = "longsmoke.linked.copy";

/// The browser keeps nothing for this page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotKept;

fn device() -> Option<Storage> {
    web_sys::window()?.local_storage().ok()?
}

fn tab() -> Option<Storage> {
    web_sys::window()?.session_storage().ok()?
}

fn put(storage: Option<Storage>, key: &str, text: &str) -> Result<(), NotKept> {
    storage.ok_or(NotKept)?.set_item(key, text).map_err(|_| NotKept)
}

pub fn read(key: &str) -> Option<String> {
    device()?.get_item(key).ok()?
}

pub fn write(key: &str, text: &str) -> Result<(), NotKept> {
    put(device(), key, text)
}

pub fn remove(key: &str) {
    if let Some(device) = device() {
        let _ = device.remove_item(key);
    }
}

/// Writes the own design; the one that it replaces stays as the generation before. Whether there
/// was room for that, too.
pub fn write_own(text: &str) -> Result<bool, NotKept> {
    let copied = match read(OWN) {
        Some(old) if old == text => return Ok(true),
        Some(old) => write(BEFORE, &old).is_ok(),
        None => true,
    };
    write(OWN, text)?;
    Ok(copied)
}

/// Removes everything of ours from this device and this tab.
pub fn erase() {
    let designs = [OWN, BEFORE, REPLACED, UNREADABLE, SHELF, SHELVED];
    for key in designs.into_iter().chain([COURSES, UNITS, THEME, LANGUAGE, WALK]) {
        remove(key);
    }
    forget_linked();
}

/// The design of a link that this tab showed before it was reloaded.
pub fn linked() -> Option<String> {
    tab()?.get_item(LINKED).ok()?
}

/// Whether it is no longer what the link brought.
pub fn is_linked_edited() -> bool {
    tab().is_some_and(|tab| matches!(tab.get_item(LINKED_EDITED), Ok(Some(_))))
}

pub fn write_linked(text: &str) -> Result<(), NotKept> {
    put(tab(), LINKED, text)?;
    forget(&[LINKED_EDITED])
}

/// The same of one that is no longer what the link brought.
pub fn write_linked_edited(text: &str) -> Result<(), NotKept> {
    put(tab(), LINKED, text)?;
    put(tab(), LINKED_EDITED, "yes")
}

/// The copy that this tab made unasked of the design from a link.
pub fn linked_copy() -> Option<String> {
    tab()?.get_item(LINKED_COPY).ok()?
}

pub fn note_linked_copy(text: &str) {
    // Where it is not noted, there is one copy more.
    let _ = put(tab(), LINKED_COPY, text);
}

pub fn forget_linked() {
    let _ = forget(&[LINKED, LINKED_EDITED, LINKED_COPY]);
}

fn forget(keys: &[&str]) -> Result<(), NotKept> {
    let tab = tab().ok_or(NotKept)?;
    keys.iter().try_for_each(|key| tab.remove_item(key).map_err(|_| NotKept))
}
