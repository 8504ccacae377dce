//! The link that carries the design: made by a worker after each change, copied at a press.

use super::dom::{Tag, button, tag, watch};
use super::labor::{Job, Task};
use super::signal::RwSignal;
use super::workspace::{Notice, Workspace};
use super::{browser, texts};
use leptos::reactive::graph::untrack;
use longsmoke::design::link::MOST_BYTES;
use longsmoke::service::order;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen::JsCast as _;
use wasm_bindgen_futures::spawn_local;

const JOB: Job = Job {
    rest: Duration::from_millis(50),
    rank: 0,
    // What is asked for says it.
    ask: |_| order::Job::Link(Vec::new()),
    same: |one, other| one == other,
    in_units: false,
};

/// The link's state.
#[derive(Clone, Copy)]
struct Share {
    workspace: Workspace,
    task: Task,
    /// The newest link, and the generation whose design it carries; empty where none could be opened.
    made: RwSignal<Option<(u64, String)>>,
    /// The link that was copied last.
    copied: RwSignal<Option<String>>,
    /// The link that is shown to be copied by hand.
    by_hand: RwSignal<Option<String>>,
    /// Whether somebody waits for the link of the present design.
    awaited: RwSignal<bool>,
}

pub fn share(workspace: Workspace) -> [Tag; 3] {
    let made = RwSignal::new(None);
    let asked = RwSignal::new(None);
    watch(move || {
        let pinned =
            if workspace.links_pinned.get() { workspace.pinned.get() } else { Arc::default() };
        made.set(None);
        asked.set(Some(order::Job::Link(pinned.to_vec())));
    });
    let task = Task::asked(workspace, JOB, asked, move |wanted, what| {
        let opens = what.len() <= MOST_BYTES;
        let link = if opens { format!("{}#{what}", browser::address()) } else { String::new() };
        browser::set_global("longsmokeLink", &link);
        made.set(Some((wanted.generation, link)));
    });
    let share = Share {
        workspace,
        task,
        made,
        copied: RwSignal::new(None),
        by_hand: RwSignal::new(None),
        awaited: RwSignal::new(false),
    };
    watch(move || {
        if let Some(link) = share.link()
            && share.awaited.get_untracked()
        {
            share.awaited.set(false);
            share.copy(link);
        }
    });
    let press = move || match share.link_untracked() {
        Some(link) => share.copy(link),
        None => share.awaited.set(true),
    };
    let text = move || {
        let done = share.is_copied();
        Some(if done { texts::shared() } else { texts::share() }.to_owned())
    };
    let said = move || share.is_copied().then(|| texts::shared().to_owned());
    [
        button(press)
            .class("main")
            .live_attr("aria-busy", move || Some(share.link().is_none().to_string()))
            .live_text(text),
        tag("span").class("unseen").attr("role", "status").live_text(said),
        link_by_hand(share.by_hand),
    ]
}

impl Share {
    /// The link of the present design, as soon as it is made.
    fn link(self) -> Option<String> {
        let wanted = self.task.generation();
        self.made.with(|made| Some(made.as_ref().filter(|(of, _)| *of == wanted)?.1.clone()))
    }

    fn link_untracked(self) -> Option<String> {
        untrack(|| self.link())
    }

    /// The word stays until the link is no longer that of the design.
    fn is_copied(self) -> bool {
        let link = self.link();
        link.is_some() && self.copied.with(|copied| *copied == link)
    }

    fn copy(self, link: String) {
        if link.is_empty() {
            return self.workspace.notice.set(Some(Notice::NoLink));
        }
        spawn_local(async move {
            if browser::copy(&link).await {
                self.copied.set(Some(link));
                self.by_hand.set(None);
            } else {
                self.by_hand.set(Some(link));
            }
        });
    }
}

fn link_by_hand(link: RwSignal<Option<String>>) -> Tag {
    let input =
        tag("input").attr("type", "text").attr("readonly", "").live_value(move || link.get());
    if let Some(input) = input.element().dyn_ref::<web_sys::HtmlInputElement>().cloned() {
        watch(move || {
            if link.with(Option::is_some) {
                let input = input.clone();
                browser::at_frame(move || {
                    let _ = input.focus();
                    input.select();
                });
            }
        });
    }
    tag("label")
        .class("by-hand")
        .live_attr("hidden", move || link.with(Option::is_none).then(String::new))
        .text(texts::share_by_hand())
        .text(" ")
        .child(input)
}
