//! Variants of the design that are computed when somebody asks: runs with a day each, inputs over
//! their ranges, copies beside each other, suggestions.

use super::dom::{Tag, button, tag, value_of};
use super::labor::{Job, Task};
use super::passage::passage_view;
use super::told::{Found, graying, read, state};
use super::workspace::{Workspace, same_but_name};
use super::{shelf, texts};
use leptos::prelude::*;
use longsmoke::design::Design;
use longsmoke::design::field::{FIELDS, Field, FieldId, Kind};
use longsmoke::service::{Told, VariantsTold, order};
use longsmoke::study::pinned::MOST;
use longsmoke::study::suggest::{Aim, Wish};
use longsmoke::study::trials::Trial;
use longsmoke::study::variant::Variant;
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
    asked: RwSignal<Option<order::Job>>,
    task: Task,
    told: Found<Told>,
    best: RwSignal<(u64, Vec<Variant>)>,
}

impl Study {
    fn new(workspace: Workspace) -> Self {
        let asked = RwSignal::new(None);
        let told: Found<Told> = RwSignal::new(None);
        let best = RwSignal::new((0, Vec::new()));
        let task = Task::asked(workspace, JOB, asked, move |wanted, what| match what.parse() {
            Ok(VariantsTold::Read(read)) => {
                told.set(Some((wanted.generation, Arc::new(read))));
            }
            Ok(VariantsTold::Best(variants)) => best.set((wanted.generation, variants)),
            Ok(VariantsTold::One(_)) | Err(_) => {}
        });
        Self { asked, task, told, best }
    }

    fn is_busy(self) -> bool {
        self.asked.with(Option::is_some) && !self.task.is_done()
    }

    /// State and passage.
    fn view(self, workspace: Workspace, name: &str) -> Tag {
        let read = move || read(workspace, self.told, |told| told);
        let idle = move || self.asked.with(Option::is_none).then(String::new);
        tag("div").live_attr("hidden", idle).child(state(self.task, name)).child(graying(
            self.task,
            self.told,
            passage_view(read),
        ))
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
        .child(study.view(workspace, name))
}

/// One to ten runs with a day each.
pub fn compare_view(workspace: Workspace) -> Tag {
    unfolded(workspace, ("compare", texts::COMPARE), order::Job::Compare)
}

pub fn variants_view(workspace: Workspace) -> Tag {
    tag("section")
        .class("variants")
        .attr("aria-labelledby", "variants-title")
        .child(tag("h2").id("variants-title").text(texts::VARIANTS))
        .child(suggest_view(workspace))
        .child(sweep_view(workspace))
        .child(pinned_view(workspace))
        .child(unfolded(workspace, ("matters", words::matters::TITLE), order::Job::Matters))
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
    folded("suggest", said::TITLE)
        .live_attr("aria-busy", move || Some(study.is_busy().to_string()))
        .child(tag("p").class("help").text(said::NOTE))
        .child(ticks(texts::SUGGEST_TRIALS, of_trials, trials))
        .child(ticks(texts::SUGGEST_AIMS, of_aims, aims))
        .child(
            tag("div")
                .class("of-which")
                .child(button(begin).class("main").text(texts::SUGGEST))
                .child(
                    button(move || study.asked.set(None))
                        .live_attr("hidden", idle)
                        .text(texts::CANCEL),
                ),
        )
        .child(study.view(workspace, "suggest"))
        .child(takes(workspace, study))
}

/// A button for each design that was suggested, to take it as one step.
fn takes(workspace: Workspace, study: Study) -> Tag {
    let fresh = move || {
        let wanted = study.task.generation();
        study.best.with(|(of, variants)| if *of == wanted { variants.len() } else { 0 })
    };
    let take = move |index: usize| {
        let press = move || {
            let variant = study.best.with_untracked(|(_, all)| all.get(index).cloned());
            let Some(variant) = variant else { return };
            if workspace.try_change(|design| variant.apply(design)).is_ok() {
                workspace.commit();
                workspace.void_entries();
            }
        };
        button(press).text(&texts::take(index + 1))
    };
    tag("div").class("of-which").attr("data-testid", "takes").repeat(fresh, take)
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
    folded("sweep", texts::SWEEP)
        .live_attr("aria-busy", move || Some(study.is_busy().to_string()))
        .child(tag("p").class("help").text(texts::SWEEP_NOTE))
        .child(input_choice(texts::SWEEP_ONE, texts::SWEEP_NONE, choose(one)))
        .child(input_choice(texts::SWEEP_OTHER, texts::SWEEP_NONE, choose(other)))
        .child(study.view(workspace, "sweep"))
}

/// Copies from the shelf beside the design.
fn pinned_view(workspace: Workspace) -> Tag {
    let study = Study::new(workspace);
    let chosen = RwSignal::new(Vec::<String>::new());
    let copies = RwSignal::new(Vec::<(String, Design)>::new());
    let details = folded("pinned", words::pinned::TITLE);
    let element = details.element().clone();
    let toggle = move |_| {
        if element.has_attribute("open") {
            copies.set(shelf::designs());
        }
    };
    let ask = move || {
        let chosen = chosen.get_untracked();
        let of_chosen =
            |(name, design): &(String, Design)| chosen.contains(name).then(|| design.clone());
        let others: Vec<_> = copies
            .with_untracked(|all| all.iter().filter_map(of_chosen).take(MOST - 1).collect());
        study.asked.set((!others.is_empty()).then_some(order::Job::Pinned(others)));
    };
    let list = tag("div").class("ticks").live(move |list| {
        let names: Vec<_> =
            copies.with(|all| all.iter().map(|(name, _)| name.clone()).collect());
        list.children(names.into_iter().map(|name| {
            tick(&name.clone(), move |on| {
                chosen.update(|chosen| {
                    chosen.retain(|other| *other != name);
                    if on {
                        chosen.push(name.clone());
                    }
                });
                ask();
            })
        }))
    });
    details
        .on("toggle", toggle)
        .live_attr("aria-busy", move || Some(study.is_busy().to_string()))
        .child(tag("p").class("help").text(texts::PINNED_NOTE))
        .child(list)
        .child(study.view(workspace, "pinned"))
}
