//! One run at a time: its figures, and sizes of its own. A run without them is like all others.

use super::dom::{Tag, button, tag, value_of};
use super::workspace::Workspace;
use super::{browser, texts};
use leptos::prelude::*;
use longsmoke::analysis::RunState;
use longsmoke::design::field::{FieldId, Kind, Number, check_number, field};
use longsmoke::design::{Design, Run, RunOverride};
use longsmoke::rules::Place;
use longsmoke::units::{Quantity, editable, figure, parse};
use longsmoke::words;

/// A size of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Size {
    Length,
    Width,
    Height,
}

impl Size {
    const ALL: [Self; 3] = [Self::Length, Self::Width, Self::Height];

    /// The decision for all runs, whose range holds for each.
    const fn common(self) -> FieldId {
        match self {
            Self::Length => FieldId::RunLength,
            Self::Width => FieldId::RunWidth,
            Self::Height => FieldId::RunHeight,
        }
    }

    const fn of(self, run: &Run) -> f64 {
        match self {
            Self::Length => run.length,
            Self::Width => run.width,
            Self::Height => run.height,
        }
    }

    const fn own(self, run: &mut RunOverride) -> &mut Option<f64> {
        match self {
            Self::Length => &mut run.length,
            Self::Width => &mut run.width,
            Self::Height => &mut run.height,
        }
    }
}

/// Gives a run a size of its own, or none.
fn put(design: &mut Design, run: usize, size: Size, value: Option<f64>) {
    let overrides = &mut design.path.overrides;
    if overrides.len() <= run {
        overrides.resize(run + 1, RunOverride::default());
    }
    if let Some(own) = overrides.get_mut(run) {
        *size.own(own) = value;
    }
    while overrides.last() == Some(&RunOverride::default()) {
        overrides.pop();
    }
}

/// The card of the run that was chosen last.
#[derive(Clone, Copy)]
struct Card {
    workspace: Workspace,
    chosen: Memo<usize>,
}

pub fn run_card(workspace: Workspace) -> Tag {
    let chosen = Memo::new(move |_| {
        let count = workspace.design.with(|design| design.path.run_count);
        workspace.chosen_run.get().min(count.saturating_sub(1))
    });
    let card = Card { workspace, chosen };
    let count = move || workspace.design.with(|design| design.path.run_count);
    let choice = move |index: usize| {
        button(move || workspace.chosen_run.set(index))
            .class("step")
            .attr("aria-label", &words::place(Place::Run(index)))
            .live_attr("aria-pressed", move || Some((chosen.get() == index).to_string()))
            .text(&(index + 1).to_string())
    };
    let title = move || Some(words::place(Place::Run(chosen.get())));
    tag("section")
        .class("run-card")
        .id("run-card")
        .attr("tabindex", "-1")
        .attr("aria-label", texts::RUN_CARD)
        .attr("data-testid", "run-card")
        .live_attr("hidden", move || (count() == 0).then(String::new))
        .child(
            tag("div")
                .class("of-which")
                .child(tag("h3").live_text(title))
                .child(tag("span").class("steps").repeat(count, choice)),
        )
        .child(tag("p").class("help").live_text(move || card.figures()))
        .child(tag("div").class("sizes").children(Size::ALL.map(|size| card.entry(size))))
}

impl Card {
    /// What the gas does in the run.
    fn figures(self) -> Option<String> {
        let run = self.chosen.get();
        let say = |state: &RunState, system| {
            let show = |value, quantity| figure(value, quantity, system);
            format!(
                "{} {} {} {}, {}",
                texts::RUN_GAS,
                show(state.inlet, Quantity::Temperature),
                texts::RUN_TO,
                show(state.outlet, Quantity::Temperature),
                show(state.velocity, Quantity::Speed),
            )
        };
        self.workspace
            .read(|shown, system| {
                Some(say(shown.analysis.height_of_fire.runs.get(run)?, system))
            })
            .flatten()
    }

    fn size(self, size: Size) -> Option<f64> {
        let run = self.chosen.get();
        self.workspace.design.with(|design| design.path.runs().get(run).map(|run| size.of(run)))
    }

    /// Whether the run has a size of its own.
    fn is_own(self, size: Size) -> bool {
        let run = self.chosen.get();
        self.workspace.design.with(|design| {
            let own = design.path.overrides.get(run).copied();
            own.is_some_and(|mut own| size.own(&mut own).is_some())
        })
    }

    fn entry(self, size: Size) -> Tag {
        let field = field(size.common());
        let Kind::Number(number) = &field.kind else {
            return tag("div");
        };
        let id = format!("run-card-{}", field.link);
        let message = RwSignal::new(None::<String>);
        let text = move || {
            let system = self.workspace.system.get();
            // An entry that is refused is void as soon as the design changes elsewhere.
            self.workspace.epoch.track();
            Some(editable(self.size(size)?, number.quantity, system))
        };
        let take = move |text: String| message.set(self.enter(size, number, &text));
        let common = move || {
            message.set(None);
            self.change(size, None);
        };
        let input = tag("input")
            .id(&id)
            .attr("type", "text")
            .attr("autocomplete", "off")
            .live_value(text)
            .live_attr("aria-invalid", move || message.get().map(|_| "true".into()))
            .on("change", move |event| take(value_of(&event)))
            .on("keydown", move |event| {
                if browser::key(&event) == "Enter" {
                    take(value_of(&event));
                }
            });
        let step = |way: f64, sign: &str, name: &str| {
            let press = move || {
                let now = self.size(size).unwrap_or_default();
                let value = number.nearest(now + way * number.step);
                message.set(self.put_in(size, number, value));
            };
            let name = format!("{}, {name}", words::label(field.id));
            button(press).class("step").attr("aria-label", &name).text(sign)
        };
        let unit = super::answers::unit(self.workspace, number.quantity);
        tag("div")
            .class("size")
            .child(tag("label").attr("for", &id).text(words::label(field.id)))
            .child(step(-1.0, "\u{2212}", texts::SMALLER))
            .child(input)
            .child(unit)
            .child(step(1.0, "+", texts::LARGER))
            .child(
                button(common)
                    .live_attr("hidden", move || (!self.is_own(size)).then(String::new))
                    .text(texts::AS_ALL),
            )
            .child(
                tag("p")
                    .class("problem")
                    .attr("role", "alert")
                    .live_text(move || message.get()),
            )
    }

    /// Takes a text as the run's own size; the message if it is refused.
    fn enter(self, size: Size, number: &'static Number, text: &str) -> Option<String> {
        let system = self.workspace.system.get_untracked();
        match parse(text, number.quantity, system) {
            Ok(value) => self.put_in(size, number, value),
            Err(_) => Some(words::not_a_number(size.common(), system)),
        }
    }

    fn put_in(self, size: Size, number: &'static Number, value: f64) -> Option<String> {
        let system = self.workspace.system.get_untracked();
        if let Some(problem) = check_number(size.common(), number, value) {
            return Some(words::problem(&problem, system));
        }
        self.change(size, Some(value))
    }

    /// As one step; the message if no such heater can stand.
    fn change(self, size: Size, value: Option<f64>) -> Option<String> {
        let run = self.chosen.get_untracked();
        let same = value.is_some() && self.size(size) == value;
        if same {
            return None;
        }
        let changed = self.workspace.try_change(|design| put(design, run, size, value));
        self.workspace.commit();
        let system = self.workspace.system.get_untracked();
        changed.err().map(|problem| words::problem(&problem, system))
    }
}
