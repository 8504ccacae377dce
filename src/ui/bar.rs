//! The bar on top: the design's name, what happened to it, and what can be done with it.

use super::history::History;
use super::opening::Owner;
use super::workspace::{Kept, Notice, Workspace};
use super::{browser, storage, texts};
use leptos::ev;
use leptos::prelude::*;
use longsmoke::design::document::MOST_NAME;
use longsmoke::design::link;
use longsmoke::units::System;
use longsmoke::words;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::{JsFuture, spawn_local};

#[component]
pub fn Bar() -> impl IntoView {
    view! {
        <header class="bar">
            <h1>"Longsmoke"</h1>
            <Name />
            <KeptState />
            <Steps />
            <Units />
            <Theme />
            <Files />
            <Share />
        </header>
    }
}

#[component]
fn Name() -> impl IntoView {
    let workspace: Workspace = expect_context();
    let name = Memo::new(move |_| workspace.design.with(|design| design.name.clone()));
    let rename = move |name: String| {
        // A name cannot make a heater impossible.
        let _ = workspace.try_change(|design| design.name = name);
    };
    view! {
        <input
            class="name"
            type="text"
            aria-label=texts::NAME_LABEL
            placeholder=texts::UNNAMED
            maxlength=MOST_NAME
            autocomplete="off"
            prop:value=name
            on:input:target=move |event| rename(event.target().value())
            on:change=move |_| workspace.commit()
        />
    }
}

#[component]
fn KeptState() -> impl IntoView {
    let workspace: Workspace = expect_context();
    let text = move || match workspace.kept.get() {
        Kept::Not => texts::NOT_YET_KEPT.into(),
        Kept::At(time) => texts::kept_at(&time),
        Kept::Failed => texts::KEEPING_FAILED.into(),
    };
    view! {
        <span class="kept" role="status" data-testid="kept">
            {text}
        </span>
    }
}

#[component]
fn Steps() -> impl IntoView {
    let workspace: Workspace = expect_context();
    let keys = window_event_listener(ev::keydown, move |event| {
        let typing = event
            .target()
            .and_then(|target| target.dyn_into::<web_sys::HtmlInputElement>().ok())
            .is_some_and(|input| input.type_() == "text");
        if typing || !(event.ctrl_key() || event.meta_key()) {
            return;
        }
        match (event.key().to_lowercase().as_str(), event.shift_key()) {
            ("z", false) => workspace.undo(),
            ("z", true) | ("y", false) => workspace.redo(),
            _ => return,
        }
        event.prevent_default();
    });
    on_cleanup(move || keys.remove());
    view! {
        <span class="pair">
            <button
                type="button"
                disabled=move || !workspace.history.with(History::can_undo)
                on:click=move |_| workspace.undo()
            >
                {texts::UNDO}
            </button>
            <button
                type="button"
                disabled=move || !workspace.history.with(History::can_redo)
                on:click=move |_| workspace.redo()
            >
                {texts::REDO}
            </button>
        </span>
    }
}

#[component]
fn Units() -> impl IntoView {
    let workspace: Workspace = expect_context();
    let button = move |system, name| {
        view! {
            <button
                type="button"
                aria-pressed=move || (workspace.system.get() == system).to_string()
                on:click=move |_| workspace.show_units(system)
            >
                {name}
            </button>
        }
    };
    view! {
        <span class="pair" role="group" aria-label=texts::UNITS>
            {button(System::Metric, texts::METRIC)} {button(System::Us, texts::US)}
        </span>
    }
}

/// Light, dark, or what the device says; the style sheet does the rest.
#[component]
fn Theme() -> impl IntoView {
    let theme: super::Theme = expect_context();
    let option = move |key: &'static str, name| {
        view! {
            <option value=key selected=move || theme.0.get() == key>
                {name}
            </option>
        }
    };
    let choose = move |key: String| {
        let _ = storage::write(storage::THEME, &key);
        theme.0.set(key);
    };
    view! {
        <select
            class="theme"
            aria-label=texts::THEME
            on:change:target=move |event| choose(event.target().value())
        >
            {option("", texts::THEME_DEVICE)} {option("light", texts::THEME_LIGHT)}
            {option("dark", texts::THEME_DARK)}
        </select>
    }
}

#[component]
fn Files() -> impl IntoView {
    let workspace: Workspace = expect_context();
    let save = move |_| {
        let name = workspace.design.with_untracked(|design| file_name(&design.name));
        browser::download(&name, &workspace.file());
    };
    let open = move |input: web_sys::HtmlInputElement| {
        let Some(file) = input.files().and_then(|files| files.get(0)) else {
            return;
        };
        spawn_local(async move {
            let text = JsFuture::from(file.text()).await.ok();
            match text.and_then(|text| text.as_string()) {
                Some(text) => workspace.open_file(&text),
                None => workspace.notice.set(Some(Notice::FileUnreadable)),
            }
            // The same file can then be opened again.
            input.set_value("");
        });
    };
    view! {
        <span class="pair">
            <label class="button">
                {texts::OPEN_FILE}
                <input
                    class="unseen"
                    type="file"
                    accept=".json,application/json"
                    on:change:target=move |event| open(event.target())
                />
            </label>
            <button type="button" on:click=save>
                {texts::SAVE_FILE}
            </button>
        </span>
    }
}

/// A file name that every system takes.
fn file_name(name: &str) -> String {
    let plain: String = name
        .to_lowercase()
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .collect();
    let plain = plain.trim_matches('-');
    let plain = if plain.is_empty() { "design" } else { plain };
    format!("{plain}.json")
}

/// Absolute link that carries a design.
pub fn link_of(design: &longsmoke::design::Design) -> String {
    format!("{}#{}", browser::address(), link::encode(design))
}

#[component]
fn Share() -> impl IntoView {
    let workspace: Workspace = expect_context();
    let link = move || workspace.design.with_untracked(link_of);
    let copied = RwSignal::new(None::<String>);
    let by_hand = RwSignal::new(None::<String>);
    let share = move |_| {
        let link = link();
        spawn_local(async move {
            if browser::copy(&link).await {
                copied.set(Some(link));
                by_hand.set(None);
            } else {
                by_hand.set(Some(link));
            }
        });
    };
    // The word stays until the link is no longer that of the design.
    let done = move || {
        copied.with(|copied| {
            let copied = copied.as_ref()?;
            workspace.design.with(|design| link_of(design) == *copied).then_some(texts::SHARED)
        })
    };
    view! {
        <button type="button" class="main" on:click=share>
            {move || done().unwrap_or(texts::SHARE)}
        </button>
        <span class="unseen" role="status">{done}</span>
        {move || by_hand.get().map(|link| view! { <LinkByHand link /> })}
    }
}

#[component]
fn LinkByHand(link: String) -> impl IntoView {
    let input = NodeRef::<leptos::html::Input>::new();
    input.on_load(|input| {
        request_animation_frame(move || {
            let _ = input.focus();
            input.select();
        });
    });
    view! {
        <label class="by-hand">
            {texts::SHARE_BY_HAND} <input node_ref=input type="text" readonly prop:value=link />
        </label>
    }
}

/// What is to be said above the page: a design from a link, or trouble with one.
#[component]
pub fn Notices() -> impl IntoView {
    let workspace: Workspace = expect_context();
    let text = move || {
        Some(match workspace.notice.get()? {
            Notice::Link(error) => {
                format!("{} {}", words::link_error(error), texts::DESIGN_AS_IT_WAS)
            }
            Notice::File(error) => format!(
                "{} {}",
                words::document_error(&error, workspace.system.get()),
                texts::DESIGN_AS_IT_WAS
            ),
            Notice::FileUnreadable => texts::FILE_UNREADABLE.into(),
            Notice::StoredUnreadable => texts::STORED_UNREADABLE.into(),
        })
    };
    let linked = move || workspace.owner.get() == Owner::Link;
    view! {
        <div role="status" class="notices">
            <p class="notice" hidden=move || !linked()>
                <span>{texts::LINKED}</span>
                <button type="button" on:click=move |_| workspace.back_to_own()>
                    {texts::BACK_TO_OWN}
                </button>
                <button type="button" on:click=move |_| workspace.keep_linked()>
                    {texts::KEEP_LINKED}
                </button>
            </p>
            <p class="notice trouble-notice" hidden=move || text().is_none()>
                <span>{text}</span>
                <button type="button" on:click=move |_| workspace.notice.set(None)>
                    {texts::DISMISS}
                </button>
            </p>
        </div>
    }
}
