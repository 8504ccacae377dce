//! The decisions, by group; one group is open at a time.

use super::dom::{Tag, button, tag};
use super::field::{entry_id, field_view};
use super::guide::Guide;
use super::workspace::Workspace;
use super::{browser, texts};
use longsmoke::design::field::{FIELDS, FieldId, Group, field};
use longsmoke::words;

pub fn decisions(workspace: Workspace, guide: Guide) -> Tag {
    tag("section")
        .id("decisions")
        .class("decisions")
        .attr("aria-labelledby", "decisions-title")
        .attr("tabindex", "-1")
        .child(head(workspace))
        .children(Group::ALL.map(|group| group_view(workspace, guide, group)))
}

/// The heading, with what is refused: an entry may be folded away with its group.
fn head(workspace: Workspace) -> Tag {
    let count = move || workspace.refused.with(Vec::len);
    let go = move || {
        if let Some(id) = workspace.refused.with_untracked(|refused| refused.first().copied()) {
            go_to(workspace, id);
        }
    };
    let refused = button(go)
        .class("refused")
        .attr("data-testid", "refused")
        .live_attr("hidden", move || (count() == 0).then(String::new))
        .live_text(move || Some(texts::refused(count())));
    tag("div")
        .class("decisions-head")
        .child(tag("h2").id("decisions-title").text(texts::decisions()))
        .child(refused)
}

/// Opens the group of a decision and puts the focus into its entry.
pub fn go_to(workspace: Workspace, id: FieldId) {
    let field = field(id);
    workspace.open_group.set(Some(field.group));
    browser::focus_on(entry_id(field));
}

fn group_view(workspace: Workspace, guide: Guide, group: Group) -> Tag {
    let is_open = move || workspace.open_group.get() == Some(group);
    let toggle = move || {
        workspace.open_group.update(|open| {
            *open = if *open == Some(group) { None } else { Some(group) };
        });
    };
    let id = format!("group-{group:?}").to_ascii_lowercase();
    let refused = move || {
        let mine = |id: &&FieldId| field(**id).group == group;
        workspace.refused.with(|refused| refused.iter().filter(mine).count())
    };
    let mark = tag("span")
        .class("group-refused")
        .live_attr("hidden", move || (refused() == 0).then(String::new))
        .live_text(move || Some(texts::refused_here(refused())));
    let head = button(toggle)
        .attr("aria-controls", &id)
        .live_attr("aria-expanded", move || Some(is_open().to_string()))
        .text(words::group(group))
        .child(mark);
    let fields = |advanced| {
        let fields = FIELDS.iter().filter(move |field| field.group == group);
        let fields = fields.filter(move |field| field.advanced == advanced);
        fields.map(move |field| field_view(workspace, field).child(guide.terms(field)))
    };
    let mut content = tag("div")
        .id(&id)
        .live_attr("hidden", move || (!is_open()).then(String::new))
        .children(fields(false));
    let mut advanced = fields(true).peekable();
    if advanced.peek().is_some() {
        let summary = tag("summary").text(texts::advanced());
        content =
            content.child(tag("details").class("advanced").child(summary).children(advanced));
    }
    tag("div").class("group").child(tag("h3").child(head)).child(content)
}
