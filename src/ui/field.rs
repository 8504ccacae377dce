//! One decision: a number with its slider, or a choice.

use super::answers::unit;
use super::dom::{Tag, button, tag, value_of};
use super::signal::{Memo, RwSignal};
use super::workspace::Workspace;
use super::{browser, texts};
use longsmoke::design::field::{Choice, Field, Kind, Number, Problem};
use longsmoke::units::{Quantity, System, editable, figure, float, parse, range, to_shown};
use longsmoke::words;
use std::cell::Cell;

/// By how much a value may miss a step of its slider, from rounding (steps).
const HAIR: f64 = 1e-6;

/// How far a slider goes beyond either end of the usual range over that range (–), so that a design
/// at an end of it can be moved both ways.
const ROOM: f64 = 0.5;

/// Id of the element in which a decision is entered.
pub fn entry_id(field: &Field) -> String {
    format!("field-{}", field.path.replace(['.', '_'], "-"))
}

/// What a person typed and has not yet become the design, or cannot.
#[derive(Clone, Debug, PartialEq)]
struct Draft {
    text: String,
    message: Option<String>,
    epoch: u32,
}

/// State of a number's entry.
#[derive(Clone, Copy)]
struct Entry {
    workspace: Workspace,
    field: &'static Field,
    number: &'static Number,
    /// The design's value: what shows it stands still while others change.
    value: Memo<f64>,
    draft: RwSignal<Option<Draft>>,
}

impl Entry {
    /// The draft, unless the design has changed behind its back.
    fn live_draft(self) -> Option<Draft> {
        let epoch = self.workspace.epoch.get();
        self.draft.get().filter(|draft| draft.epoch == epoch)
    }

    fn text(self) -> String {
        self.live_draft().map_or_else(
            || {
                let system = self.workspace.system.get();
                editable(self.value.get(), self.number.quantity, system)
            },
            |draft| draft.text,
        )
    }

    fn message(self) -> Option<String> {
        self.live_draft()?.message
    }

    /// Keeps a text that is not, or not yet, the design's. One that is refused ends the gesture:
    /// of what was typed on the way to it nothing stays.
    fn keep_draft(self, text: String, message: Option<String>) {
        let epoch = self.workspace.epoch.get_untracked();
        if message.is_some() {
            self.workspace.cancel();
            self.workspace.refuse(self.field.id);
        } else {
            self.workspace.accept(self.field.id);
        }
        self.draft.set(Some(Draft { text, message, epoch }));
    }

    fn drop_draft(self) {
        self.workspace.accept(self.field.id);
        self.draft.set(None);
    }

    /// Follows the text as it is typed.
    fn type_text(self, text: String) {
        let system = self.workspace.system.get_untracked();
        let message = match parse(&text, self.number.quantity, system) {
            Err(_) => Some(words::not_a_number(self.field.id, system)),
            Ok(value) => self.refused(value),
        };
        self.keep_draft(text, message);
    }

    /// Puts a value into the design; the message if it is refused.
    fn refused(self, value: f64) -> Option<String> {
        let entered = self.workspace.enter(self.field, self.number, value);
        entered.err().map(|problem| say(self.workspace, &problem))
    }

    /// Ends the gesture: the text is now the design's, or stays with its message.
    fn finish(self) {
        self.workspace.commit();
        if self
            .draft
            .with_untracked(|draft| draft.as_ref().is_some_and(|draft| draft.message.is_none()))
        {
            self.drop_draft();
        }
    }

    /// Follows the slider.
    fn slide(self, text: &str) {
        let Some(value) = float(text) else { return };
        match self.refused(value) {
            None => self.drop_draft(),
            message => {
                let system = self.workspace.system.get_untracked();
                self.keep_draft(editable(value, self.number.quantity, system), message);
            }
        }
    }

    /// Puts the design's value back.
    fn restore(self) {
        self.workspace.cancel();
        self.drop_draft();
    }

    /// One step up or down.
    fn step(self, by: f64) {
        let value =
            self.workspace.design.with_untracked(self.number.get) + by * self.number.step;
        if let Some(message) = self.refused(value) {
            let system = self.workspace.system.get_untracked();
            let text = editable(value, self.number.quantity, system);
            self.keep_draft(text, Some(message));
        } else {
            self.drop_draft();
            self.workspace.commit();
        }
    }
}

/// A refusal in words.
fn say(workspace: Workspace, problem: &Problem) -> String {
    words::problem(problem, workspace.system.get_untracked())
}

pub fn field_view(workspace: Workspace, field: &'static Field) -> Tag {
    match &field.kind {
        Kind::Number(number) => {
            let value = Memo::new(move |_| workspace.design.with(number.get));
            let draft = RwSignal::new(None);
            number_field(Entry { workspace, field, number, value, draft })
        }
        Kind::Choice(choice) => choice_field(workspace, field, choice),
    }
}

fn number_field(entry: Entry) -> Tag {
    let field = entry.field;
    let id = entry_id(field);
    let (help, problem) = (format!("{id}-help"), format!("{id}-problem"));
    let wrong = move || entry.message().is_some();
    let line = tag("div")
        .class("field-line")
        .child(tag("label").attr("for", &id).text(words::label(field.id)))
        .children(steps(entry))
        .child(number_input(entry, &id))
        .child(unit(entry.workspace, entry.number.quantity).attr("aria-hidden", "true"));
    let message = problem_line(&problem).live_text(move || entry.message());
    let help = tag("p")
        .id(&help)
        .class("help")
        .text(words::help(field.id))
        .text(" ")
        .live_text(move || Some(allowed(entry)));
    tag("div")
        .live_attr("class", move || {
            Some(if wrong() { "field wrong" } else { "field" }.to_owned())
        })
        .child(line)
        .child(message)
        .child(slider(entry))
        .child(help)
}

/// Where a refusal is said.
fn problem_line(id: &str) -> Tag {
    tag("p").id(id).class("problem").attr("role", "alert")
}

/// The keyboard that a phone shows: that for numbers, unless marks, fractions or a minus may be
/// wanted.
fn keyboard(number: &Number, system: System) -> &'static str {
    let in_parts =
        system == System::Us && matches!(number.quantity, Quantity::Length | Quantity::Size);
    let may_be_negative = to_shown(*number.possible.start(), number.quantity, system) < 0.0;
    if in_parts || may_be_negative { "text" } else { "decimal" }
}

fn number_input(entry: Entry, id: &str) -> Tag {
    let wrong = move || entry.message().is_some();
    let (help, both) = (format!("{id}-help"), format!("{id}-problem {id}-help"));
    tag("input")
        .id(id)
        .attr("type", "text")
        .live_attr("inputmode", move || {
            Some(keyboard(entry.number, entry.workspace.system.get()).to_owned())
        })
        .attr("autocomplete", "off")
        .live_value(move || Some(entry.text()))
        .live_attr("aria-describedby", move || {
            Some(if wrong() { &both } else { &help }.clone())
        })
        .live_attr("aria-invalid", move || wrong().then(|| "true".to_owned()))
        .on("input", move |event| entry.type_text(value_of(&event)))
        .on("change", move |_| entry.finish())
        .on("keydown", move |event| match browser::key(&event).as_str() {
            "Escape" => entry.restore(),
            "Enter" => entry.finish(),
            _ => {}
        })
}

fn allowed(entry: Entry) -> String {
    let system = entry.workspace.system.get();
    texts::allowed(&range(&entry.number.possible, entry.number.quantity, system))
}

/// Minus and plus, for whole numbers.
fn steps(entry: Entry) -> Option<Tag> {
    let label = words::label(entry.field.id);
    let step = |by: f64, sign, name| {
        button(move || entry.step(by))
            .class("step")
            .attr("aria-label", &format!("{label}, {name}"))
            .text(sign)
    };
    (entry.number.quantity == Quantity::Count).then(|| {
        tag("span").class("steps").child(step(-1.0, "\u{2212}", texts::fewer())).child(step(
            1.0,
            "+",
            texts::more(),
        ))
    })
}

/// Covers the usual range with room beyond it, and every value that it had to show, in SI, so that
/// its steps do not depend on the units shown.
fn slider(entry: Entry) -> Tag {
    let number = entry.number;
    let step = number.step;
    let room = ROOM * (number.usual.end() - number.usual.start());
    let beyond = |possible: f64| libm::floor(room.min(possible) / step + HAIR) * step;
    let start = number.usual.start() - beyond(number.usual.start() - number.possible.start());
    let end = number.usual.end() + beyond(number.possible.end() - number.usual.end());
    let (low, high) = (Cell::new(start), Cell::new(end));
    // In whole steps, and never narrower again, so that the handle stays where it is held.
    let least = move || {
        let below = libm::ceil((start - entry.value.get()) / step - HAIR) * step;
        low.set(low.get().min(start - below));
        Some(low.get().to_string())
    };
    let most = move || {
        let above = libm::ceil((entry.value.get() - end) / step - HAIR) * step;
        high.set(high.get().max(end + above));
        Some(high.get().to_string())
    };
    let shown =
        move || Some(figure(entry.value.get(), number.quantity, entry.workspace.system.get()));
    tag("input")
        .attr("type", "range")
        .attr("aria-label", words::label(entry.field.id))
        .live_attr("aria-valuetext", shown)
        .live_attr("min", least)
        .live_attr("max", most)
        .attr("step", &step.to_string())
        .live_value(move || Some(entry.value.get().to_string()))
        .on("input", move |event| entry.slide(&value_of(&event)))
        .on("change", move |_| entry.workspace.commit())
}

fn choice_field(workspace: Workspace, field: &'static Field, choice: &'static Choice) -> Tag {
    let id = entry_id(field);
    let (help, problem) = (format!("{id}-help"), format!("{id}-problem"));
    let refused = RwSignal::new(None::<Draft>);
    let live = move || {
        let epoch = workspace.epoch.get();
        refused.get().filter(|refused| refused.epoch == epoch)
    };
    let message = move || live()?.message;
    let chosen = move || {
        let index = workspace.design.with(choice.get);
        let refused = live().filter(|draft| draft.message.is_some());
        let key = || choice.keys.get(index).map(|&key| key.to_owned());
        refused.map(|draft| draft.text).or_else(key)
    };
    let choose = move |key: String| {
        let Some(index) = choice.keys.iter().position(|each| *each == key) else {
            return;
        };
        let changed = workspace.try_change(|design| (choice.set)(design, index));
        workspace.commit();
        let message = changed.err().map(|problem| say(workspace, &problem));
        let epoch = workspace.epoch.get_untracked();
        match message {
            Some(_) => workspace.refuse(field.id),
            None => workspace.accept(field.id),
        }
        refused.set(Some(Draft { text: key, message, epoch }));
    };
    let option = |key: &&str| tag("option").attr("value", key).text(words::choice(key));
    let select = tag("select")
        .id(&id)
        .attr("aria-describedby", &format!("{problem} {help}"))
        .children(choice.keys.iter().map(option))
        .live_value(chosen)
        .live_attr("aria-invalid", move || message().map(|_| "true".to_owned()))
        .on("change", move |event| choose(value_of(&event)));
    let class = move || {
        Some(if message().is_some() { "field choice wrong" } else { "field choice" }.to_owned())
    };
    tag("div")
        .live_attr("class", class)
        .child(tag("label").attr("for", &id).text(words::label(field.id)))
        .child(select)
        .child(problem_line(&problem).live_text(message))
        .child(tag("p").id(&help).class("help").text(words::help(field.id)))
}
