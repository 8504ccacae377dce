//! One decision: a number with its slider, or a choice.

use super::texts;
use super::workspace::Workspace;
use leptos::prelude::*;
use longsmoke::design::field::{Choice, Field, Kind, Number, Problem};
use longsmoke::units::{Quantity, editable, figure, number, parse, unit_of};
use longsmoke::words;

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
    value: Memo<f64>,
    draft: RwSignal<Option<Draft>>,
}

impl Entry {
    fn new(field: &'static Field, number: &'static Number) -> Self {
        let workspace: Workspace = expect_context();
        Self {
            workspace,
            field,
            number,
            value: Memo::new(move |_| workspace.design.with(number.get)),
            draft: RwSignal::new(None),
        }
    }

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

    fn keep_draft(self, text: String, message: Option<String>) {
        let epoch = self.workspace.epoch.get_untracked();
        self.draft.set(Some(Draft { text, message, epoch }));
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
            self.draft.set(None);
        }
    }

    /// Follows the slider.
    fn slide(self, text: &str) {
        let Ok(value) = text.parse() else { return };
        match self.refused(value) {
            None => self.draft.set(None),
            message => {
                let system = self.workspace.system.get_untracked();
                self.keep_draft(editable(value, self.number.quantity, system), message);
            }
        }
    }

    /// Puts the design's value back.
    fn restore(self) {
        self.workspace.cancel();
        self.draft.set(None);
    }

    /// One step up or down.
    fn step(self, by: f64) {
        let value = self.value.get_untracked() + by * self.number.step;
        if let Some(message) = self.refused(value) {
            let system = self.workspace.system.get_untracked();
            let text = editable(value, self.number.quantity, system);
            self.keep_draft(text, Some(message));
        } else {
            self.draft.set(None);
            self.workspace.commit();
        }
    }
}

/// A refusal in words.
fn say(workspace: Workspace, problem: &Problem) -> String {
    words::problem(problem, workspace.system.get_untracked())
}

#[component]
pub fn FieldView(field: &'static Field) -> impl IntoView {
    match &field.kind {
        Kind::Number(number) => view! { <NumberField field number /> }.into_any(),
        Kind::Choice(choice) => view! { <ChoiceField field choice /> }.into_any(),
    }
}

#[component]
fn NumberField(field: &'static Field, number: &'static Number) -> impl IntoView {
    let entry = Entry::new(field, number);
    let id = entry_id(field);
    let (help, problem) = (format!("{id}-help"), format!("{id}-problem"));
    let message = Memo::new(move |_| entry.message());
    let described = {
        let (help, problem) = (help.clone(), problem.clone());
        move || {
            if message.with(Option::is_some) {
                format!("{problem} {help}")
            } else {
                help.clone()
            }
        }
    };
    view! {
        <div class="field" class:wrong=move || message.with(Option::is_some)>
            <div class="field-line">
                <label for=id.clone()>{words::label(field.id)}</label>
                <Steps entry />
                <input
                    id=id.clone()
                    type="text"
                    inputmode="decimal"
                    autocomplete="off"
                    prop:value=move || entry.text()
                    aria-describedby=described
                    aria-invalid=move || message.with(Option::is_some).then_some("true")
                    on:input:target=move |event| entry.type_text(event.target().value())
                    on:change=move |_| entry.finish()
                    on:keydown=move |event| {
                        match event.key().as_str() {
                            "Escape" => entry.restore(),
                            "Enter" => entry.finish(),
                            _ => {}
                        }
                    }
                />
                <Unit entry />
            </div>
            <p id=problem class="problem">{message}</p>
            <Slider entry />
            <p id=help class="help">
                {words::help(field.id)} " " {move || allowed(entry)}
            </p>
        </div>
    }
}

fn allowed(entry: Entry) -> String {
    let system = entry.workspace.system.get();
    let Number { quantity, possible, .. } = entry.number;
    // In few digits, unless these would name what is refused.
    let limit = |value: f64| {
        let short = number(value, *quantity, system);
        match parse(&short, *quantity, system) {
            Ok(rounded) if possible.contains(&rounded) => short,
            _ => editable(value, *quantity, system),
        }
    };
    let (low, high) = (limit(*possible.start()), limit(*possible.end()));
    texts::range(&low, &high, unit_of(*quantity, system).symbol)
}

#[component]
fn Unit(entry: Entry) -> impl IntoView {
    let quantity = entry.number.quantity;
    let symbol = move || unit_of(quantity, entry.workspace.system.get()).symbol;
    view! { <span class="unit" aria-hidden="true">{symbol}</span> }
}

/// Minus and plus, for whole numbers.
#[component]
fn Steps(entry: Entry) -> impl IntoView {
    let label = words::label(entry.field.id);
    let button = move |by: f64, sign, name| {
        view! {
            <button
                type="button"
                class="step"
                aria-label=format!("{label}, {name}")
                on:click=move |_| entry.step(by)
            >
                {sign}
            </button>
        }
    };
    (entry.number.quantity == Quantity::Count).then(|| {
        view! {
            <span class="steps">
                {button(-1.0, "\u{2212}", texts::FEWER)} {button(1.0, "+", texts::MORE)}
            </span>
        }
    })
}

/// Covers the usual range, in SI, so that its steps do not depend on the units shown.
#[component]
fn Slider(entry: Entry) -> impl IntoView {
    let number = entry.number;
    let shown =
        move || figure(entry.value.get(), number.quantity, entry.workspace.system.get());
    view! {
        <input
            type="range"
            aria-label=words::label(entry.field.id)
            aria-valuetext=shown
            min=number.usual.start().to_string()
            max=number.usual.end().to_string()
            step=number.step.to_string()
            prop:value=move || entry.value.get().to_string()
            on:input:target=move |event| entry.slide(&event.target().value())
            on:change=move |_| entry.workspace.commit()
        />
    }
}

#[component]
fn ChoiceField(field: &'static Field, choice: &'static Choice) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let id = entry_id(field);
    let (help, problem) = (format!("{id}-help"), format!("{id}-problem"));
    let chosen = Memo::new(move |_| workspace.design.with(choice.get));
    let refused = RwSignal::new(None::<(u32, String)>);
    let message = Memo::new(move |_| {
        let epoch = workspace.epoch.get();
        refused.get().filter(|(at, _)| *at == epoch).map(|(_, text)| text)
    });
    let choose = move |key: String| {
        let Some(index) = choice.keys.iter().position(|each| *each == key) else {
            return;
        };
        let changed = workspace.try_change(|design| (choice.set)(design, index));
        workspace.commit();
        let epoch = workspace.epoch.get_untracked();
        refused.set(changed.err().map(|problem| (epoch, say(workspace, &problem))));
    };
    let options = choice.keys.iter().enumerate().map(|(index, key)| {
        view! {
            <option value=*key selected=move || chosen.get() == index>
                {words::choice(key)}
            </option>
        }
    });
    view! {
        <div class="field choice" class:wrong=move || message.with(Option::is_some)>
            <label for=id.clone()>{words::label(field.id)}</label>
            <select
                id=id.clone()
                aria-describedby=format!("{problem} {help}")
                prop:value=move || choice.keys.get(chosen.get()).copied().unwrap_or_default()
                on:change:target=move |event| choose(event.target().value())
            >
                {options.collect_view()}
            </select>
            <p id=problem class="problem">{message}</p>
            <p id=help class="help">{words::help(field.id)}</p>
        </div>
    }
}
