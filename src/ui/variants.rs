//! Variants of the design that are computed when somebody asks: runs with a day each, inputs over
//! their ranges, copies beside each other, suggestions.

use super::dom::{Tag, button, tag, value_of, watch};
use super::gallery::gallery_view;
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::signal::{Memo, RwSignal};
use super::told::{Found, graying, read, state};
use super::workspace::{Shown, Workspace, same_but_name};
use super::{shelf, sketch, texts};
use longsmoke::design::Design;
use longsmoke::design::document::MOST_NAME;
use longsmoke::design::field::{FIELDS, Field, FieldId, Kind};
use longsmoke::drawing::gallery::Gallery;
use longsmoke::service::{InUnits, Told, VariantsTold, order};
use longsmoke::study::pinned::MOST;
use longsmoke::study::suggest::{Aim, Wish};
use longsmoke::study::trials::Trial;
use longsmoke::study::variant::{apply, read_puts};
use longsmoke::words;
use longsmoke::words::suggest as said;
use std::sync::Arc;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(300),
    rank: 4,
    // What is asked for says it.
    ask: |_| order::Job::Compare,
    same: same_but_name,
    in_units: false,
};

/// Values of an input that are tried.
const STEPS: u32 = 9;

/// What was asked for, and what was told of it.
#[derive(Clone, Copy)]
struct Study {
    workspace: Workspace,
    asked: RwSignal<Option<order::Job>>,
    task: Task,
    told: Found<Told>,
    seen: Found<InUnits<Gallery>>,
}

impl Study {
    fn new(workspace: Workspace) -> Self {
        let asked = RwSignal::new(None);
        let told: Found<Told> = RwSignal::new(None);
        let seen: Found<InUnits<Gallery>> = RwSignal::new(None);
        let task = Task::asked(workspace, JOB, asked, move |wanted, what| match what.parse() {
            Ok(VariantsTold::Read(read)) => {
                told.set(Some((wanted.generation, Arc::new(read))));
            }
            Ok(VariantsTold::Seen(gallery)) => {
                seen.set(Some((wanted.generation, Arc::new(gallery))));
            }
            Err(_) => {}
        });
        // What another question brought is not the answer to this one.
        watch(move || {
            asked.track();
            told.set(None);
            seen.set(None);
        });
        Self { workspace, asked, task, told, seen }
    }

    fn is_busy(self) -> bool {
        self.asked.with(Option::is_some) && !self.task.is_done()
    }

    /// State, pictures and passage.
    fn view(self, name: &str) -> Tag {
        let Self { workspace, task, told, seen, .. } = self;
        let read = move || read(workspace, told, |told| told);
        let gallery = Memo::new(move |_| {
            let system = workspace.system.get();
            seen.with(|seen| Some(seen.as_ref()?.1.get(system).clone()))
        });
        let take = move |words: &str| {
            if let Some(puts) = read_puts(words) {
                workspace.take(|design| apply(&puts, design));
            }
        };
        let idle = move || self.asked.with(Option::is_none).then(String::new);
        let pictures = graying(task, seen, gallery_view(gallery, take));
        tag("div")
            .live_attr("hidden", idle)
            .child(state(task, name))
            .child(pictures)
            .child(graying(task, told, passage_view(read)))
    }
}

/// A study that is asked for as long as it is unfolded.
fn unfolded(workspace: Workspace, (name, title): (&str, &str), job: order::Job) -> Tag {
    let study = Study::new(workspace);
    let details = tag("details").class("twin").attr("data-testid", name);
    let element = details.element().clone();
    let toggle = move |_| {
        let open = element.has_attribute("open");
        study.asked.set(open.then(|| job.clone()));
    };
    details
        .on("toggle", toggle)
        .live_attr("aria-busy", move || Some(study.is_busy().to_string()))
        .child(tag("summary").text(title))
        .child(study.view(name))
}

/// One to ten runs with a day each.
pub fn compare_view(workspace: Workspace) -> Tag {
    unfolded(workspace, ("compare", texts::compare()), order::Job::Compare)
}

pub fn variants_view(workspace: Workspace) -> Tag {
    tag("section")
        .class("variants")
        .attr("aria-labelledby", "variants-title")
        .child(tag("h2").id("variants-title").text(texts::variants()))
        .child(suggest_view(workspace))
        .child(sweep_view(workspace))
        .child(pinned_view(workspace))
        .child(unfolded(
            workspace,
            ("matters", words::matters::TITLE.said()),
            order::Job::Matters,
        ))
}

fn folded(name: &str, title: &str) -> Tag {
    tag("details").class("twin").attr("data-testid", name).child(tag("summary").text(title))
}

/// A box to tick.
fn tick(name: &str, set: impl Fn(bool) + 'static) -> Tag {
    let input = tag("input").attr("type", "checkbox");
    let element = input.element().clone();
    let change = move |_| {
        let ticked = js_sys::Reflect::get(&element, &"checked".into());
        set(ticked.is_ok_and(|ticked| ticked.is_truthy()));
    };
    tag("label").class("tick").child(input.on("change", change)).text(name)
}

/// Ticks, of which those that are ticked are known.
fn ticks<T: Copy + PartialEq + Send + Sync + 'static>(
    title: &str,
    all: impl IntoIterator<Item = (T, String)>,
    ticked: RwSignal<Vec<T>>,
) -> Tag {
    let each = all.into_iter().map(|(each, name)| {
        tick(&name, move |on| {
            ticked.update(|ticked| {
                ticked.retain(|other| *other != each);
                if on {
                    ticked.push(each);
                }
            });
        })
    });
    tag("fieldset").class("ticks").child(tag("legend").text(title)).children(each)
}

fn suggest_view(workspace: Workspace) -> Tag {
    let study = Study::new(workspace);
    let (trials, aims) = (RwSignal::new(Vec::new()), RwSignal::new(Vec::new()));
    let begin = move || {
        let wish = Wish::new(&trials.get_untracked(), &aims.get_untracked());
        study.asked.set(Some(order::Job::Suggest(wish)));
    };
    let of_trials = Trial::ALL.map(|trial| (trial, words::trials::name(trial).to_owned()));
    let of_aims = Aim::ALL.map(|aim| (aim, said::aim(aim).to_owned()));
    let idle = move || (!study.is_busy()).then(String::new);
    folded("suggest", said::TITLE.said())
        .live_attr("aria-busy", move || Some(study.is_busy().to_string()))
        .child(tag("p").class("help").text(said::NOTE.said()))
        .child(ticks(texts::suggest_trials(), of_trials, trials))
        .child(ticks(texts::suggest_aims(), of_aims, aims))
        .child(
            tag("div")
                .class("of-which")
                .child(button(begin).class("main").text(texts::suggest()))
                .child(
                    button(move || study.asked.set(None))
                        .live_attr("hidden", idle)
                        .text(texts::cancel()),
                ),
        )
        .child(study.view("suggest"))
}

/// Inputs that can be tried over their ranges.
fn inputs() -> impl Iterator<Item = &'static Field> {
    FIELDS.iter().filter(|field| matches!(field.kind, Kind::Number(_)))
}

fn input_choice(label: &str, empty: &str, choose: impl Fn(Option<FieldId>) + 'static) -> Tag {
    let option = |field: &'static Field| {
        tag("option").attr("value", field.link).text(words::label(field.id))
    };
    let change = move |event: web_sys::Event| {
        let link = value_of(&event);
        choose(inputs().find(|field| field.link == link).map(|field| field.id));
    };
    let select = tag("select")
        .child(tag("option").attr("value", "").text(empty))
        .children(inputs().map(option))
        .on("change", change);
    tag("label").class("of-which").text(label).text(" ").child(select)
}

fn sweep_view(workspace: Workspace) -> Tag {
    let study = Study::new(workspace);
    let (one, other) = (RwSignal::new(None), RwSignal::new(None));
    let ask = move || {
        let job = match (one.get_untracked(), other.get_untracked()) {
            (Some(one), Some(other)) if one != other => Some(order::Job::Map(one, other)),
            (Some(id), _) | (None, Some(id)) => Some(order::Job::Sweep(id, STEPS)),
            (None, None) => None,
        };
        study.asked.set(job);
    };
    let choose = move |which: RwSignal<Option<FieldId>>| {
        move |id| {
            which.set(id);
            ask();
        }
    };
    folded("sweep", texts::sweep())
        .live_attr("aria-busy", move || Some(study.is_busy().to_string()))
        .child(tag("p").class("help").text(texts::sweep_note()))
        .child(input_choice(texts::sweep_one(), texts::sweep_none(), choose(one)))
        .child(input_choice(texts::sweep_other(), texts::sweep_none(), choose(other)))
        .child(study.view("sweep"))
}

/// Designs that are pinned beside the one that is open.
fn pinned_view(workspace: Workspace) -> Tag {
    let study = Study::new(workspace);
    let open = RwSignal::new(false);
    let details = folded("pinned", words::pinned::TITLE.said());
    let element = details.element().clone();
    let toggle = move |_| open.set(element.has_attribute("open"));
    watch(move || {
        let pinned = workspace.pinned.get();
        let ask = open.get() && !pinned.is_empty();
        study.asked.set(ask.then(|| order::Job::Pinned(pinned.to_vec())));
    });
    let count = move || workspace.pinned.with(|pinned| pinned.len());
    let full = move || (count() == MOST).then(String::new);
    let none = move || (count() == 0).then(String::new);
    let pin = move || {
        let design = workspace.design.get_untracked();
        workspace.pin(|pinned| pinned.push(design));
    };
    details
        .on("toggle", toggle)
        .live_attr("aria-busy", move || Some(study.is_busy().to_string()))
        .child(tag("p").class("help").text(texts::pinned_note()))
        .child(
            tag("div")
                .class("of-which")
                .live_attr("hidden", full)
                .child(button(pin).class("main").text(texts::pin()))
                .child(pin_a_copy(workspace, open)),
        )
        .child(tag("ul").class("pins").repeat(count, move |index| pin_view(workspace, index)))
        .child(
            tick(texts::links_pinned(), move |on| workspace.links_pinned.set(on))
                .live_attr("hidden", none),
        )
        .child(drawn(workspace))
        .child(study.view("pinned"))
}

/// The design and those that are pinned beside it as sections in small, all to the same scale.
fn drawn(workspace: Workspace) -> Tag {
    tag("div").class("gallery small").live(move |within| {
        let pinned = workspace.pinned.get();
        let shown = if pinned.is_empty() { None } else { workspace.rested.get() };
        let Some(Shown { design, .. }) = shown else {
            return within;
        };
        let all = std::iter::once(&*design).chain(pinned.iter());
        within.children(sketch::small(all))
    })
}

/// One of them, by its place: its name, to be taken as the design, to be put away.
fn pin_view(workspace: Workspace, index: usize) -> Tag {
    let name =
        move || workspace.pinned.with(|pinned| pinned.get(index).map(|pin| pin.name.clone()));
    let named = move |what: &'static str| {
        move || Some(format!("{what}: {}", name().unwrap_or_default()))
    };
    let rename = move |event: web_sys::Event| {
        let name = value_of(&event).chars().take(MOST_NAME).collect();
        workspace.pin(|pinned| {
            if let Some(pin) = pinned.get_mut(index) {
                pin.name = name;
            }
        });
    };
    let take = move || {
        let pin = workspace.pinned.with_untracked(|pinned| pinned.get(index).cloned());
        if let Some(pin) = pin {
            workspace.take(|design| *design = pin);
        }
    };
    let put_away = move || {
        workspace.pin(|pinned| {
            if index < pinned.len() {
                pinned.remove(index);
            }
        });
    };
    let label = format!("{} {}", texts::pin_name(), index + 1);
    tag("li")
        .child(
            tag("input")
                .attr("type", "text")
                .attr("aria-label", &label)
                .live_value(name)
                .on("change", rename),
        )
        .child(button(take).live_attr("aria-label", named(texts::take())).text(texts::take()))
        .child(
            button(put_away)
                .live_attr("aria-label", named(texts::unpin()))
                .text(texts::unpin()),
        )
}

/// A choice of the copies on the shelf.
fn pin_a_copy(workspace: Workspace, open: RwSignal<bool>) -> Tag {
    let copies = RwSignal::new(Vec::<(String, Design)>::new());
    watch(move || {
        if open.get() {
            copies.set(shelf::designs());
        }
    });
    let change = move |event: web_sys::Event| {
        let place = value_of(&event).parse::<usize>().ok();
        let copy = copies.with_untracked(|all| all.get(place?).map(|(_, copy)| copy.clone()));
        if let Some(copy) = copy {
            workspace.pin(|pinned| pinned.push(copy));
        }
    };
    let options = move |select: Tag| {
        let option = |value: &str, name: &str| tag("option").attr("value", value).text(name);
        let all = copies.with(|all| {
            let each = all.iter().enumerate();
            each.map(|(place, (name, _))| option(&place.to_string(), name)).collect::<Vec<_>>()
        });
        select.child(option("", texts::pin_copy())).children(all)
    };
    tag("select")
        .attr("aria-label", texts::pin_copy())
        .live_attr("hidden", move || copies.with(Vec::is_empty).then(String::new))
        .live(options)
        .on("change", change)
}
