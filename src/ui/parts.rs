//! One part at a time, with what is decided of it: a run has its figures and sizes of its own, and
//! without them is like all others.

use super::dom::{Tag, button, tag, value_of};
use super::signal::{Memo, RwSignal};
use super::workspace::Workspace;
use super::{browser, texts};
use leptos::reactive::graph::untrack;
use longsmoke::analysis::RunState;
use longsmoke::design::field::{Field, FieldId, Kind, Number, check_number, field};
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

/// Parts that are not runs, with what is decided of each.
const PARTS: [(Place, &[FieldId]); 5] = [
    (
        Place::Firebox,
        &[
            FieldId::FireboxWidth,
            FieldId::FireboxDepth,
            FieldId::FireboxHeight,
            FieldId::FireboxWall,
        ],
    ),
    (
        Place::Door,
        &[FieldId::DoorWidth, FieldId::DoorHeight, FieldId::Glass, FieldId::InletArea],
    ),
    (
        Place::Chimney,
        &[
            FieldId::MouthHeight,
            FieldId::FlueWidth,
            FieldId::Insulation,
            FieldId::ConnectorLength,
        ],
    ),
    (
        Place::Whole,
        &[FieldId::CoreThickness, FieldId::Gap, FieldId::FacingThickness, FieldId::Cap],
    ),
    (
        Place::Side,
        &[
            FieldId::SideDistance,
            FieldId::BehindDistance,
            FieldId::FrontDistance,
            FieldId::AboveDistance,
        ],
    ),
];

/// The part to whose card a place belongs.
const fn part_of(place: Place) -> Place {
    match place {
        Place::Run(_) | Place::Firebox | Place::Door => place,
        Place::Fire => Place::Firebox,
        Place::RunsOutlet | Place::ChimneyInlet | Place::ChimneyMouth | Place::Chimney => {
            Place::Chimney
        }
        Place::Whole | Place::Below => Place::Whole,
        Place::Side | Place::Back | Place::Front | Place::Ceiling => Place::Side,
    }
}

fn name(part: Place) -> String {
    match part {
        Place::Whole => texts::part_walls().into(),
        Place::Side => texts::part_around().into(),
        part => words::place(part),
    }
}

/// Id of the card.
const ID: &str = "part-card";

/// Shows the card of what was pressed on a drawing; a finger has it brought into view.
pub fn choose(workspace: Workspace, place: Place, event: &web_sys::Event) {
    workspace.chosen.set(part_of(place));
    if browser::is_finger(event) {
        browser::bring_up(ID);
    }
}

/// The card of the part that was chosen last.
#[derive(Clone, Copy)]
struct Card {
    workspace: Workspace,
    chosen: Memo<Place>,
}

/// A number of the card: a run's own, or that of a decision.
#[derive(Clone, Copy)]
struct Row {
    card: Card,
    field: &'static Field,
    number: &'static Number,
    own: Option<Size>,
}

pub fn card(workspace: Workspace) -> Tag {
    let count = move || workspace.design.with(|design| design.path.run_count);
    let chosen = Memo::new(move |_| match workspace.chosen.get() {
        Place::Run(run) => match count().checked_sub(1) {
            Some(last) => Place::Run(run.min(last)),
            None => Place::Firebox,
        },
        other => other,
    });
    let card = Card { workspace, chosen };
    let choice = move |part: Place, text: &str| {
        button(move || workspace.chosen.set(part))
            .class("step")
            .attr("aria-label", &name(part))
            .live_attr("aria-pressed", move || Some((chosen.get() == part).to_string()))
            .text(text)
    };
    let run = move |index: usize| choice(Place::Run(index), &(index + 1).to_string());
    let parts = PARTS.map(|(part, _)| choice(part, &name(part)));
    let sizes = tag("div").class("sizes").live(move |sizes| {
        let part = chosen.get();
        sizes.children(card.rows(part).into_iter().map(Row::view))
    });
    tag("section")
        .class("part-card")
        .id(ID)
        .attr("tabindex", "-1")
        .attr("aria-label", texts::part_card())
        .attr("data-testid", "part-card")
        .child(tag("div").class("steps").children(parts))
        .child(tag("div").class("steps").text(texts::strip_runs()).repeat(count, run))
        .child(tag("h3").live_text(move || Some(name(chosen.get()))))
        .child(tag("p").class("help").live_text(move || card.figures()))
        .child(sizes)
}

impl Card {
    /// What is shown of a part.
    fn rows(self, part: Place) -> Vec<Row> {
        let row = |id, own| {
            let field = field(id);
            let Kind::Number(number) = &field.kind else { return None };
            Some(Row { card: self, field, number, own })
        };
        let own = Size::ALL.into_iter().map(|size| (size.common(), Some(size)));
        let all = PARTS.iter().find(|(of, _)| *of == part);
        match all {
            Some((_, fields)) => fields.iter().filter_map(|id| row(*id, None)).collect(),
            None => own.filter_map(|(id, own)| row(id, own)).collect(),
        }
    }

    fn run(self) -> Option<usize> {
        match self.chosen.get() {
            Place::Run(run) => Some(run),
            _ => None,
        }
    }

    /// What the gas does in the run.
    fn figures(self) -> Option<String> {
        let run = self.run()?;
        let say = |state: &RunState, system| {
            let show = |value, quantity| figure(value, quantity, system);
            format!(
                "{} {} {} {}, {}",
                texts::run_gas(),
                show(state.inlet, Quantity::Temperature),
                texts::run_to(),
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
}

impl Row {
    fn value(self) -> Option<f64> {
        let run = self.card.run();
        self.card.workspace.design.with(|design| match self.own {
            Some(size) => design.path.runs().get(run?).map(|run| size.of(run)),
            None => Some((self.number.get)(design)),
        })
    }

    /// Whether the run has a size of its own.
    fn is_own(self) -> bool {
        let Some((size, run)) = self.own.zip(self.card.run()) else { return false };
        self.card.workspace.design.with(|design| {
            let own = design.path.overrides.get(run).copied();
            own.is_some_and(|mut own| size.own(&mut own).is_some())
        })
    }

    fn view(self) -> Tag {
        let Self { card: Card { workspace, .. }, field, number, .. } = self;
        let id = format!("part-card-{}", field.link);
        let message = RwSignal::new(None::<String>);
        let text = move || {
            let system = workspace.system.get();
            // An entry that is refused is void as soon as the design changes elsewhere.
            workspace.epoch.track();
            Some(editable(self.value()?, number.quantity, system))
        };
        let take = move |text: String| message.set(self.enter(&text));
        let common = move || {
            message.set(None);
            self.change(None);
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
            let name = format!("{}, {name}", words::label(field.id));
            let press = move || message.set(self.step(way));
            button(press).class("step").attr("aria-label", &name).text(sign)
        };
        tag("div")
            .class("size")
            .child(tag("label").attr("for", &id).text(words::label(field.id)))
            .child(step(-1.0, "\u{2212}", texts::smaller()))
            .child(input)
            .child(super::answers::unit(workspace, number.quantity))
            .child(step(1.0, "+", texts::larger()))
            .child(
                button(common)
                    .live_attr("hidden", move || (!self.is_own()).then(String::new))
                    .text(texts::as_all()),
            )
            .child(
                tag("p")
                    .class("problem")
                    .attr("role", "alert")
                    .live_text(move || message.get()),
            )
    }

    /// One step up or down; the message if it is refused.
    fn step(self, way: f64) -> Option<String> {
        let now = untrack(move || self.value()).unwrap_or_default();
        self.put_in(self.number.nearest(now + way * self.number.step))
    }

    /// Takes a text as the value; the message if it is refused.
    fn enter(self, text: &str) -> Option<String> {
        let system = self.card.workspace.system.get_untracked();
        match parse(text, self.number.quantity, system) {
            Ok(value) => self.put_in(value),
            Err(_) => Some(words::not_a_number(self.field.id, system)),
        }
    }

    fn put_in(self, value: f64) -> Option<String> {
        let system = self.card.workspace.system.get_untracked();
        if let Some(problem) = check_number(self.field.id, self.number, value) {
            return Some(words::problem(&problem, system));
        }
        self.change(Some(value))
    }

    /// As one step; the message if no such heater can stand. No value makes the run like all others.
    fn change(self, value: Option<f64>) -> Option<String> {
        if value.is_some() && untrack(move || self.value()) == value {
            return None;
        }
        let run = untrack(move || self.card.run());
        let workspace = self.card.workspace;
        let changed = workspace.try_change(|design| match (self.own.zip(run), value) {
            (Some((size, run)), value) => put(design, run, size, value),
            (None, Some(value)) => (self.number.set)(design, value),
            (None, None) => {}
        });
        workspace.settle();
        let system = workspace.system.get_untracked();
        changed.err().map(|problem| words::problem(&problem, system))
    }
}
