//! The designs that can be opened: those to begin with, and copies kept on this device.

use super::dom::{Tag, button, tag, watch};
use super::labor::{Job, Task};
use super::signal::RwSignal;
use super::workspace::Workspace;
use super::{browser, storage, texts};
use longsmoke::design::{Design, document};
use longsmoke::service::{Offer, order};
use longsmoke::words::examples as said;
use std::time::Duration;

/// Designs to begin with are the same for every design.
const JOB: Job = Job {
    rest: Duration::from_millis(100),
    rank: 7,
    ask: |_| order::Job::Examples,
    same: |_, _| true,
    in_units: false,
};

/// Id of the button that opens the shelf.
const SWITCH: &str = "to-shelf";
/// Parts the copies in storage; no file of ours has control characters.
const BETWEEN: char = '\u{1e}';
/// Parts the name of a copy from its file.
const WITHIN: char = '\u{1f}';

/// A copy kept on this device.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Kept {
    name: String,
    file: String,
}

/// All copies, as other tabs may have left them.
fn kept() -> Vec<Kept> {
    let text = storage::read(storage::SHELF).unwrap_or_default();
    let copy = |text: &str| {
        let (name, file) = text.split_once(WITHIN)?;
        Some(Kept { name: name.into(), file: file.into() })
    };
    text.split(BETWEEN).filter_map(copy).collect()
}

/// The designs of all copies that can be read, with their names.
pub fn designs() -> Vec<(String, Design)> {
    let read = |copy: Kept| {
        let document = document::read(&copy.file).ok()?;
        Some((or_unnamed(copy.name), document.design))
    };
    kept().into_iter().filter_map(read).collect()
}

fn keep(copies: &[Kept]) -> Result<(), storage::NotKept> {
    let texts = copies.iter().map(|Kept { name, file }| format!("{name}{WITHIN}{file}"));
    let text = texts.collect::<Vec<_>>().join(&BETWEEN.to_string());
    storage::write(storage::SHELF, &text)
}

/// Keeps what was made of a design from a link as a copy with a name of its own, which it gives: in
/// the place of the copy that this tab made of it before.
pub fn put_linked_away(file: &str) -> Result<String, storage::NotKept> {
    let mut copies = kept();
    let name = if let Some(name) = lies_there(&copies, file) {
        name
    } else {
        let earlier = storage::linked_copy();
        let same = |copy: &&mut Kept| Some(&copy.file) == earlier.as_ref();
        let name = if let Some(copy) = copies.iter_mut().find(same) {
            file.clone_into(&mut copy.file);
            copy.name.clone()
        } else {
            add(&mut copies, file, texts::from_a_link)
        };
        keep(&copies)?;
        storage::note_linked_copy(file);
        name
    };
    // Where it is not noted, it is told now or not at all.
    let _ = storage::write(storage::SHELVED, &name);
    Ok(name)
}

/// Puts an own design aside that another takes the place of. One that lies there and that nobody has
/// decided on becomes a copy first, whose name it gives.
pub fn put_replaced(file: &str) -> Result<Option<String>, storage::NotKept> {
    let undecided = storage::read(storage::REPLACED).filter(|old| old != file);
    let name = undecided.map(|old| copied(&old)).transpose()?;
    storage::write(storage::REPLACED, file)?;
    Ok(name)
}

/// Keeps an own design from before as a copy, unless it is one; gives its name.
fn copied(file: &str) -> Result<String, storage::NotKept> {
    let mut copies = kept();
    if let Some(name) = lies_there(&copies, file) {
        return Ok(name);
    }
    let name = add(&mut copies, file, texts::from_before);
    keep(&copies)?;
    Ok(name)
}

/// The tab shows again what it put away, so nobody need be told.
pub fn is_open_again(file: &str) {
    let name = lies_there(&kept(), file);
    if name.is_some() && name == storage::read(storage::SHELVED) {
        storage::remove(storage::SHELVED);
    }
}

fn lies_there(copies: &[Kept], file: &str) -> Option<String> {
    copies.iter().find(|copy| copy.file == file).map(|copy| or_unnamed(copy.name.clone()))
}

/// Adds a copy whose name tells where it came from; gives the name, which no other copy has.
fn add(copies: &mut Vec<Kept>, file: &str, named: fn(&str) -> String) -> String {
    let name = document::read(file).map(|read| read.design.name).unwrap_or_default();
    let first = plain(&named(&or_unnamed(name)));
    let numbered = (2_u32..).map(|count| format!("{first} {count}"));
    let is_free = |name: &String| copies.iter().all(|copy| copy.name != *name);
    let name = std::iter::once(first.clone()).chain(numbered).find(is_free).unwrap_or_default();
    copies.insert(0, Kept { name: name.clone(), file: file.to_owned() });
    name
}

/// A name without what parts the copies in storage.
fn plain(name: &str) -> String {
    name.replace([BETWEEN, WITHIN], " ")
}

/// The shelf's state.
#[derive(Clone, Copy)]
struct Shelf {
    workspace: Workspace,
    offers: RwSignal<Vec<Offer>>,
    copies: RwSignal<Vec<Kept>>,
    /// What was done last, for who listens.
    said: RwSignal<String>,
    open: RwSignal<bool>,
}

/// The button of the bar, and what it opens.
pub fn shelf(workspace: Workspace) -> (Tag, Tag) {
    let open = RwSignal::new(false);
    let offers = RwSignal::new(Vec::<Offer>::new());
    // It lives as long as the page.
    let _ = Task::new(workspace, JOB, move |_, what| {
        if let Some(offer) = Offer::read(what) {
            offers.update(|offers| offers.push(offer));
        }
    });
    let shelf = Shelf {
        workspace,
        offers,
        copies: RwSignal::new(kept()),
        said: RwSignal::new(String::new()),
        open,
    };
    watch(move || {
        // What is said may be that a copy was made.
        workspace.notice.track();
        if open.get() {
            shelf.copies.set(kept());
        }
    });
    let switch = button(move || open.update(|open| *open = !*open))
        .id(SWITCH)
        .attr("aria-controls", "shelf")
        .live_attr("aria-expanded", move || Some(open.get().to_string()))
        .text(texts::shelf());
    let panel = tag("section")
        .class("shelf")
        .id("shelf")
        .attr("aria-label", texts::shelf())
        .live_attr("hidden", move || (!open.get()).then(String::new))
        .child(shelf.own())
        .child(shelf.examples());
    (switch, panel)
}

impl Shelf {
    fn own(self) -> Tag {
        let count = move || self.copies.with(Vec::len);
        let none = tag("p")
            .class("help")
            .live_attr("hidden", move || (count() > 0).then(String::new))
            .text(texts::shelf_empty());
        let list = tag("ul").class("copies").repeat(count, move |index| self.copy(index));
        let state = tag("p")
            .class("help")
            .attr("role", "status")
            .attr("data-testid", "shelf-state")
            .live_text(move || Some(self.said.get()));
        tag("div")
            .child(tag("h2").text(texts::shelf_own()))
            .child(button(move || self.keep_this()).class("main").text(texts::shelf_keep()))
            .child(state)
            .child(none)
            .child(list)
            .child(erase(self))
    }

    /// A copy by its place in the list.
    fn copy(self, index: usize) -> Tag {
        let name = move || {
            self.copies
                .with(|copies| copies.get(index).map(|copy| or_unnamed(copy.name.clone())))
        };
        let named = move |what: &'static str| {
            move || Some(format!("{what}: {}", name().unwrap_or_default()))
        };
        let open = move || {
            let file =
                self.copies.with_untracked(|copies| Some(copies.get(index)?.file.clone()));
            if let Some(file) = file {
                self.show(&file);
            }
        };
        tag("li")
            .child(tag("span").class("title").live_text(name))
            .child(
                button(open)
                    .live_attr("aria-label", named(texts::shelf_open()))
                    .text(texts::shelf_open()),
            )
            .child(
                button(move || self.remove(index))
                    .live_attr("aria-label", named(texts::shelf_remove()))
                    .text(texts::shelf_remove()),
            )
    }

    fn examples(self) -> Tag {
        let count = move || self.offers.with(Vec::len);
        let offer = move |index: usize| {
            let read = move |part: fn(&Offer) -> &String| {
                move || self.offers.with(|offers| offers.get(index).map(part).cloned())
            };
            let open = move || {
                if let Some(file) = read(|offer| &offer.file)() {
                    self.show(&file);
                }
            };
            let name = read(|offer| &offer.name);
            let named = move || {
                Some(format!("{}: {}", texts::shelf_open(), name().unwrap_or_default()))
            };
            tag("li")
                .child(tag("span").class("title").live_text(name))
                .child(button(open).live_attr("aria-label", named).text(texts::shelf_open()))
                .child(tag("p").class("help").live_text(read(|offer| &offer.teaches)))
        };
        tag("div")
            .child(tag("h2").text(said::TITLE.said()))
            .child(tag("p").class("help").text(said::NOTE.said()))
            .child(tag("ul").class("copies").repeat(count, offer))
    }

    /// Opens a design and puts the shelf away.
    fn show(self, file: &str) {
        self.workspace.open_file(file);
        self.open.set(false);
        browser::focus_on(SWITCH.into());
    }

    /// Keeps a copy of the present design, in the place of one of the same name.
    fn keep_this(self) {
        let name = self.workspace.design.with_untracked(|design| design.name.clone());
        let name = plain(&name);
        let mut copies = kept();
        copies.retain(|copy| copy.name != name);
        let file = self.workspace.file();
        if !document::fits(&file) {
            return self.said.set(texts::too_much().into());
        }
        copies.insert(0, Kept { name: name.clone(), file });
        self.write(copies, &format!("{} {}.", texts::shelf_kept(), or_unnamed(name)));
    }

    fn remove(self, index: usize) {
        let shown = self.copies.with_untracked(|copies| Some(copies.get(index)?.name.clone()));
        if let Some(name) = shown {
            let mut copies = kept();
            copies.retain(|copy| copy.name != name);
            self.write(copies, &format!("{} {}.", texts::shelf_removed(), or_unnamed(name)));
        }
    }

    fn write(self, copies: Vec<Kept>, done: &str) {
        match keep(&copies) {
            Ok(()) => {
                self.copies.set(copies);
                self.said.set(done.to_owned());
            }
            Err(storage::NotKept) => self.said.set(texts::shelf_full().into()),
        }
    }
}

fn or_unnamed(name: String) -> String {
    if name.trim().is_empty() { texts::unnamed().into() } else { name }
}

/// Takes everything of ours off this device, after a second press; the page goes on with the design
/// that is open, and keeps it again with the next change.
fn erase(shelf: Shelf) -> Tag {
    let sure = RwSignal::new(false);
    let press = move || {
        if sure.get_untracked() {
            storage::erase();
            shelf.copies.set(Vec::new());
            shelf.said.set(texts::erased().into());
        }
        sure.update(|sure| *sure = !*sure);
    };
    let name =
        move || Some(if sure.get() { texts::erase_sure() } else { texts::erase() }.to_owned());
    button(press).on("blur", move |_| sure.set(false)).live_text(name)
}
