//! The bar on top: the design's name, what happened to it, and what can be done with it.

use super::dom::{Tag, button, tag, value_of};
use super::history::History;
use super::icon::turn;
use super::menu::menu;
use super::opening::Owner;
use super::workspace::{Kept, Notice, Workspace};
use super::{Theme, browser, paper, share, storage, texts};
use longsmoke::design::document::{self, MOST_NAME};
use longsmoke::units::System;
use longsmoke::words;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::{JsFuture, spawn_local};

pub fn bar(workspace: Workspace, theme: Theme, (to_shelf, to_walk): (Tag, Tag)) -> Tag {
    let (paper, paper_state) = paper::paper(workspace);
    let settings = tag("div")
        .class("settings")
        .child(theme_choice(theme))
        .children(browser::language_choice().map(Tag::from))
        .child(to_walk);
    let seldom = tag("div")
        .class("seldom")
        .child(units(workspace))
        .child(files(workspace))
        .children(paper)
        .child(settings);
    tag("header")
        .class("bar")
        .child(tag("h1").text("Longsmoke"))
        .child(name(workspace))
        .child(kept_state(workspace))
        .child(steps(workspace))
        .child(to_shelf)
        .child(menu("more", texts::more_to_do(), seldom))
        .child(paper_state)
        .children(share::share(workspace))
}

fn name(workspace: Workspace) -> Tag {
    let name = move || Some(workspace.design.with(|design| design.name.clone()));
    let rename = move |name: String| {
        // A name cannot make a heater impossible.
        let _ = workspace.try_change(|design| design.name = name);
    };
    tag("input")
        .class("name")
        .attr("type", "text")
        .attr("aria-label", texts::name_label())
        .attr("placeholder", texts::unnamed())
        .attr("maxlength", &MOST_NAME.to_string())
        .attr("autocomplete", "off")
        .live_value(name)
        .on("input", move |event| rename(value_of(&event)))
        .on("change", move |_| workspace.commit())
}

fn kept_state(workspace: Workspace) -> Tag {
    let text = move || {
        Some(match workspace.kept.get() {
            Kept::Not => String::new(),
            Kept::At(time) => texts::kept_at(&time),
            Kept::InTab(time) => texts::kept_in_tab(&time),
            Kept::Alone(time) => texts::kept_alone(&time),
            Kept::Held => texts::held().into(),
            Kept::TooMuch => texts::too_much().into(),
            Kept::Failed => texts::keeping_failed().into(),
        })
    };
    tag("span").class("kept").attr("role", "status").attr("data-testid", "kept").live_text(text)
}

fn steps(workspace: Workspace) -> Tag {
    browser::listen("keydown", move |event| {
        // What is not yet a step of ours is the browser's to undo.
        let typing = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok())
            .filter(|input| input.type_() == "text")
            .is_some_and(|input| {
                input.has_attribute("aria-invalid")
                    || workspace.history.with_untracked(History::is_under_way)
            });
        let Some(pressed) = event.dyn_ref::<web_sys::KeyboardEvent>() else {
            return;
        };
        if typing || !(pressed.ctrl_key() || pressed.meta_key()) {
            return;
        }
        match (pressed.key().to_ascii_lowercase().as_str(), pressed.shift_key()) {
            ("z", false) => workspace.undo(),
            ("z", true) | ("y", false) => workspace.redo(),
            _ => return,
        }
        event.prevent_default();
    });
    let step = |name, press: fn(Workspace), can: fn(&History) -> bool| {
        button(move || press(workspace))
            .attr("title", name)
            .live_attr("disabled", move || (!workspace.history.with(can)).then(String::new))
            .child(turn())
            .child(tag("span").class("unseen").text(name))
    };
    tag("span")
        .class("pair back-and-forth")
        .child(step(texts::undo(), Workspace::undo, History::can_undo))
        .child(step(texts::redo(), Workspace::redo, History::can_redo))
}

fn units(workspace: Workspace) -> Tag {
    let choice = |system, name| {
        let pressed = move || Some((workspace.system.get() == system).to_string());
        button(move || workspace.show_units(system))
            .live_attr("aria-pressed", pressed)
            .text(name)
    };
    tag("span")
        .class("pair")
        .attr("role", "group")
        .attr("aria-label", texts::units())
        .child(choice(System::Metric, texts::metric()))
        .child(choice(System::Us, texts::us()))
}

/// Light, dark, or what the device says; the style sheet does the rest.
fn theme_choice(Theme(theme): Theme) -> Tag {
    let option = |key, name| tag("option").attr("value", key).text(name);
    let choose = move |key: String| {
        let _ = storage::write(storage::THEME, &key);
        theme.set(key);
    };
    tag("select")
        .class("theme")
        .attr("aria-label", texts::theme())
        .child(option("", texts::theme_device()))
        .child(option("light", texts::theme_light()))
        .child(option("dark", texts::theme_dark()))
        .child(option("bright", texts::theme_bright()))
        .live_value(move || Some(theme.get()))
        .on("change", move |event| choose(value_of(&event)))
}

fn files(workspace: Workspace) -> Tag {
    let save = move || {
        let file = workspace.file();
        if document::fits(&file) {
            save_text(workspace, &file_name(workspace, ".json"), &file);
        } else {
            workspace.notice.set(Some(Notice::TooMuch));
        }
    };
    let open = move |event: web_sys::Event| {
        let input = event.target().and_then(|input| input.dyn_into().ok());
        let Some::<web_sys::HtmlInputElement>(input) = input else {
            return;
        };
        if let Some(file) = input.files().and_then(|files| files.get(0)) {
            read_file(workspace, file);
        }
        // The same file can then be opened again.
        input.set_value("");
    };
    browser::on_drop(move |file| read_file(workspace, file));
    let input = tag("input")
        .class("unseen")
        .attr("type", "file")
        .attr("accept", ".json,application/json")
        .on("change", open);
    tag("span")
        .class("pair")
        .child(tag("label").class("button").text(texts::open_file()).child(input))
        .child(button(save).text(texts::save_file()))
}

/// Takes what a file holds as the design, or says why not.
fn read_file(workspace: Workspace, file: web_sys::File) {
    spawn_local(async move {
        let text = JsFuture::from(file.text()).await.ok();
        match text.and_then(|text| text.as_string()) {
            Some(text) => workspace.open_file(&text),
            None => workspace.notice.set(Some(Notice::FileUnreadable)),
        }
    });
}

/// Saves a text as a file, or says that it could not be done.
fn save_text(workspace: Workspace, name: &str, text: &str) {
    if !browser::give(name, text) {
        workspace.notice.set(Some(Notice::NotSaved));
    }
}

/// A file name of the design that every system takes.
pub fn file_name(workspace: Workspace, ending: &str) -> String {
    let name = workspace.design.with_untracked(|design| browser::lower_case(&design.name));
    let plain = browser::letters_and_digits(&name);
    let plain = plain.trim_matches('-');
    let plain = if plain.is_empty() { "design" } else { plain };
    [plain, ending].concat()
}

/// What is to be said above the page: whose design this is, and trouble with one.
pub fn notices(workspace: Workspace) -> Tag {
    let is_own = move || workspace.owner.get() == Owner::User;
    let has_own = move || !is_own() && workspace.has_own();
    let either = move |yes: &str, no: &str| Some(if has_own() { yes } else { no }.to_owned());
    let linked = notice()
        .attr("role", "status")
        .live_attr("hidden", move || is_own().then(String::new))
        .child(tag("span").live_text(move || either(texts::linked(), texts::linked_alone())))
        .child(
            button(move || workspace.back_to_own())
                .live_text(move || either(texts::back_to_own(), texts::back_to_example())),
        )
        .child(button(move || workspace.keep_linked()).text(texts::keep_linked()));
    let is_held = move || workspace.kept.with(|kept| *kept == Kept::Held);
    let other = notice()
        .class("notice trouble-notice")
        .attr("role", "alert")
        .live_attr("hidden", move || (!is_held()).then(String::new))
        .child(tag("span").live_text(move || is_held().then(|| texts::other_tab().to_owned())))
        .child(button(move || workspace.take_other()).text(texts::take_other()))
        .child(button(move || workspace.keep_mine()).text(texts::keep_mine()));
    tag("div").class("notices").child(linked).child(other).child(said(workspace))
}

fn notice() -> Tag {
    tag("p").class("notice")
}

/// What happened, with what can be done about it.
fn said(workspace: Workspace) -> Tag {
    let text = move || {
        workspace.notice.with(|notice| Some(words_of(notice.as_ref()?, workspace.system.get())))
    };
    let class = move || {
        let is_calm = workspace.notice.with(|notice| {
            matches!(
                notice,
                None | Some(Notice::Missing(_) | Notice::Replaced(_) | Notice::Shelved(_))
            )
        });
        Some(if is_calm { "notice" } else { "notice trouble-notice" }.to_owned())
    };
    let way_out = move || {
        workspace.notice.with(|notice| match notice {
            Some(Notice::Unreadable { .. }) => Some(texts::save_text().to_owned()),
            Some(Notice::Replaced(_)) => Some(texts::bring_back().to_owned()),
            _ => None,
        })
    };
    let take = move || match workspace.notice.get_untracked() {
        Some(Notice::Unreadable { broken, .. }) => {
            save_text(workspace, texts::UNREADABLE_FILE, &broken);
        }
        Some(Notice::Replaced(_)) => workspace.bring_back(),
        _ => {}
    };
    let close = move || {
        match workspace.notice.get_untracked() {
            Some(Notice::Unreadable { place: Some(place), .. }) => storage::remove(place),
            Some(Notice::Replaced(_)) => storage::remove(storage::REPLACED),
            Some(Notice::Shelved(_)) => storage::remove(storage::SHELVED),
            _ => {}
        }
        workspace.notice.set(None);
    };
    tag("p")
        .attr("role", "alert")
        .live_attr("class", class)
        .live_attr("hidden", move || text().is_none().then(String::new))
        .child(tag("span").live_text(text))
        .child(
            button(take)
                .live_attr("hidden", move || way_out().is_none().then(String::new))
                .live_text(way_out),
        )
        .child(button(close).text(texts::dismiss()))
}

fn words_of(notice: &Notice, system: System) -> String {
    match notice {
        Notice::Link(error) => {
            format!("{} {}", words::link_error(*error), texts::design_as_it_was())
        }
        Notice::File(error) => {
            format!("{} {}", words::document_error(error, system), texts::design_as_it_was())
        }
        Notice::FileUnreadable => texts::file_unreadable().into(),
        Notice::NotSaved => texts::not_saved().into(),
        Notice::TooMuch => texts::too_much().into(),
        Notice::NoLink => texts::no_link().into(),
        Notice::Missing(count) => texts::missing(*count),
        Notice::Unreadable { said, .. } => said.clone(),
        Notice::Replaced(None) => texts::replaced().into(),
        Notice::Replaced(Some(earlier)) => {
            [texts::replaced(), " ", &texts::earlier(earlier)].concat()
        }
        Notice::Shelved(name) => texts::shelved(name),
        Notice::NoRoom => texts::no_room().into(),
        Notice::NoRoomBeside => texts::no_room_beside().into(),
    }
}
