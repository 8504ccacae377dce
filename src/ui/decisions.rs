//! The decisions, by group; one group is open at a time.

use super::field::FieldView;
use super::texts;
use super::workspace::Workspace;
use leptos::prelude::*;
use longsmoke::design::field::{FIELDS, Field, Group};
use longsmoke::words;

#[component]
pub fn Decisions() -> impl IntoView {
    let groups = Group::ALL.map(|group| view! { <GroupView group /> });
    view! {
        <section
            id="decisions"
            class="decisions"
            aria-labelledby="decisions-title"
            tabindex="-1"
        >
            <h2 id="decisions-title">{texts::DECISIONS}</h2>
            {groups.into_iter().collect_view()}
        </section>
    }
}

fn fields(group: Group) -> impl Iterator<Item = &'static Field> {
    FIELDS.iter().filter(move |field| field.group == group)
}

#[component]
fn GroupView(group: Group) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let open = move || workspace.open_group.get() == Some(group);
    let toggle = move |_| {
        workspace.open_group.update(|open| {
            *open = if *open == Some(group) { None } else { Some(group) };
        });
    };
    let id = format!("group-{group:?}").to_lowercase();
    let show = |field: &'static Field| view! { <FieldView field /> };
    let plain = fields(group).filter(|field| !field.advanced).map(show);
    let advanced: Vec<_> = fields(group).filter(|field| field.advanced).collect();
    view! {
        <div class="group">
            <h3>
                <button
                    type="button"
                    aria-expanded=move || open().to_string()
                    aria-controls=id.clone()
                    on:click=toggle
                >
                    {words::group(group)}
                </button>
            </h3>
            <div id=id hidden=move || !open()>
                {plain.collect_view()}
                {(!advanced.is_empty())
                    .then(|| {
                        view! {
                            <details class="advanced">
                                <summary>{texts::ADVANCED}</summary>
                                {advanced.into_iter().map(show).collect_view()}
                            </details>
                        }
                    })}
            </div>
        </div>
    }
}
