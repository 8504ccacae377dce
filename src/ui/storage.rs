//! Designs and preferences on this device.

use web_sys::Storage;

/// The user's own design.
pub const OWN: &str = "longsmoke.design";
/// The one that it replaced.
pub const BEFORE: &str = "longsmoke.design.before";
/// A stored text that could not be read.
pub const UNREADABLE: &str = "longsmoke.design.unreadable";
/// A design that came with a link.
pub const LINKED: &str = "longsmoke.linked";
/// Units that are shown.
pub const UNITS: &str = "longsmoke.units";
/// Light or dark.
pub const THEME: &str = "longsmoke.theme";
/// In the tab's own storage: a design from a link is open here.
const LINKED_HERE: &str = "longsmoke.linked.here";

/// The browser keeps nothing for this page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotKept;

fn device() -> Option<Storage> {
    web_sys::window()?.local_storage().ok()?
}

fn tab() -> Option<Storage> {
    web_sys::window()?.session_storage().ok()?
}

pub fn read(key: &str) -> Option<String> {
    device()?.get_item(key).ok()?
}

pub fn write(key: &str, text: &str) -> Result<(), NotKept> {
    let device = device().ok_or(NotKept)?;
    device.set_item(key, text).map_err(|_| NotKept)
}

/// Writes the own design; the one that it replaces stays as the generation before.
pub fn write_own(text: &str) -> Result<(), NotKept> {
    match read(OWN) {
        Some(old) if old == text => return Ok(()),
        Some(old) => write(BEFORE, &old)?,
        None => {}
    }
    write(OWN, text)
}

/// Whether this tab was showing a design from a link when it was reloaded.
pub fn linked_here() -> bool {
    tab().is_some_and(|tab| matches!(tab.get_item(LINKED_HERE), Ok(Some(_))))
}

pub fn open_linked_here() {
    if let Some(tab) = tab() {
        let _ = tab.set_item(LINKED_HERE, "1");
    }
}

pub fn close_linked_here() {
    if let Some(tab) = tab() {
        let _ = tab.remove_item(LINKED_HERE);
    }
    if let Some(device) = device() {
        let _ = device.remove_item(LINKED);
    }
}
