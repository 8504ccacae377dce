//! Grips on a drawing: each is a slider in the place where what it changes is drawn.

use super::browser;
use super::dom::{Tag, button, tag};
use super::signal::{Memo, RwSignal};
use super::sketch::Picture;
use super::texts;
use super::workspace::Workspace;
use longsmoke::design::field::{Field, FieldId, Kind, Number, field};
use longsmoke::drawing::{Axis, Grip};
use longsmoke::units::{Quantity, figure, to_shown};
use longsmoke::words;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::{Event, HtmlElement, PointerEvent};

/// Steps of a key with shift.
const LEAP: f64 = 10.0;

/// A grip that is held by a pointer.
#[derive(Clone, Copy)]
struct Hold {
    /// Where the pointer took it (px).
    start: (f64, f64),
    /// The input then (SI).
    value: f64,
    /// Change of the input over the way of the pointer to the right and up (SI/px).
    per_pixel: (f64, f64),
}

/// One grip of a drawing.
#[derive(Clone, Copy)]
struct Handle {
    workspace: Workspace,
    picture: Memo<Option<Picture>>,
    /// Whether a pointer holds a grip of this drawing, so that the drawing does not move under it.
    held: RwSignal<bool>,
    field: &'static Field,
    number: &'static Number,
    /// Why it goes no further.
    refusal: RwSignal<Option<String>>,
}

/// The grips of a drawing, in the order in which they are reached by keyboard.
pub fn grips(
    workspace: Workspace,
    picture: Memo<Option<Picture>>,
    held: RwSignal<bool>,
    fields: &[FieldId],
) -> Tag {
    let handles = fields.iter().filter_map(|id| {
        let field = field(*id);
        let Kind::Number(number) = &field.kind else { return None };
        let refusal = RwSignal::new(None);
        Some(handle(Handle { workspace, picture, held, field, number, refusal }))
    });
    tag("div").class("grips").children(handles)
}

impl Handle {
    /// Where it stands on the page (px), and how it moves.
    fn read<T>(self, read: impl FnOnce(&Grip, &Picture) -> T) -> Option<T> {
        self.picture.with(|picture| {
            let picture = picture.as_ref()?;
            let grips = &mut picture.drawing.grips.iter();
            grips.find(|grip| grip.field == self.field.id).map(|grip| read(grip, picture))
        })
    }

    fn axis(self) -> Option<Axis> {
        self.read(|grip, _| grip.axis)
    }

    fn value(self) -> f64 {
        self.workspace.design.with(self.number.get)
    }

    fn said(self) -> String {
        figure(self.value(), self.number.quantity, self.workspace.system.get())
    }

    /// Brings the input as near to a value as the design allows.
    fn put(self, value: f64) {
        let refused = self.workspace.approach(self.field, self.number, value);
        let system = self.workspace.system.get_untracked();
        let said = refused.map(|problem| words::problem(&problem, system));
        if self.refusal.with_untracked(|last| *last != said) {
            self.refusal.set(said);
        }
    }

    fn step(self, by: f64) {
        let value = self.workspace.design.with_untracked(self.number.get);
        self.put(value + by * self.workspace.step_of(self.field.id, self.number));
    }

    fn done(self) {
        self.refusal.set(None);
        self.workspace.settle();
    }

    fn key(self, event: &Event) {
        let leap = if browser::is_shifted(event) { LEAP } else { 1.0 };
        let possible = &self.number.possible;
        match browser::key(event).as_str() {
            "ArrowUp" | "ArrowRight" => self.step(leap),
            "ArrowDown" | "ArrowLeft" => self.step(-leap),
            "PageUp" => self.step(LEAP),
            "PageDown" => self.step(-LEAP),
            "Home" => self.put(*possible.start()),
            "End" => self.put(*possible.end()),
            _ => return,
        }
        event.prevent_default();
    }

    fn hold(self, pointer: &PointerEvent) -> Option<Hold> {
        let value = self.workspace.design.with_untracked(self.number.get);
        let per_pixel = self.read(|grip, picture| {
            let ratio = grip.per_meter / picture.scale;
            match grip.axis {
                Axis::Across => (ratio, 0.0),
                Axis::Up => (0.0, -ratio),
            }
        })?;
        Some(Hold { start: place_of(pointer), value, per_pixel })
    }
}

fn place_of(pointer: &PointerEvent) -> (f64, f64) {
    (f64::from(pointer.client_x()), f64::from(pointer.client_y()))
}

fn handle(handle: Handle) -> Tag {
    let Handle { workspace, field, number, .. } = handle;
    let left = move || handle.read(|grip, picture| pixels(picture.grip_place(grip.at).0));
    let top = move || handle.read(|grip, picture| pixels(picture.grip_place(grip.at).1));
    let class = move || {
        let (axis, is_late) =
            handle.read(|grip, picture| (grip.axis, picture.is_late(grip.at)))?;
        let axis = if axis == Axis::Up { " up" } else { "" };
        let late = if is_late { " right-half" } else { "" };
        Some(format!("grip{axis}{late}"))
    };
    let shown = move |value: f64| {
        let shown = to_shown(value, number.quantity, workspace.system.get());
        Some(format!("{shown:.4}"))
    };
    let orientation = move || {
        Some(if handle.axis()? == Axis::Up { "vertical" } else { "horizontal" }.to_owned())
    };
    let bubble = tag("span")
        .class("bubble")
        .attr("aria-hidden", "true")
        .text(words::label(field.id))
        .text(" ")
        .child(tag("b").live_text(move || Some(handle.said())))
        .child(tag("span").class("problem").live_text(move || handle.refusal.get()));
    let grip = tag("div")
        .live_attr("class", class)
        .attr("role", "slider")
        .attr("tabindex", "0")
        .attr("data-grip", field.path)
        .attr("aria-label", words::label(field.id))
        .live_attr("aria-orientation", orientation)
        .live_attr("aria-valuemin", move || shown(*number.possible.start()))
        .live_attr("aria-valuemax", move || shown(*number.possible.end()))
        .live_attr("aria-valuenow", move || shown(handle.value()))
        .live_attr("aria-valuetext", move || Some(handle.said()))
        .child(tag("span").class("knob"))
        .child(bubble);
    tag("div")
        .class("grip-place")
        // Before the drawing knows its room, a grip would jump to its place.
        .live_attr("hidden", move || {
            let is_placed = handle.read(|_, picture| picture.is_placed());
            (is_placed != Some(true)).then(String::new)
        })
        .live_style("left", left)
        .live_style("top", top)
        .child(reacting(handle, grip))
        .children(more_and_fewer(handle))
}

fn pixels(length: f64) -> String {
    format!("{length:.1}px")
}

/// Minus and plus beside the grip of a whole number.
fn more_and_fewer(handle: Handle) -> Option<Tag> {
    let label = words::label(handle.field.id);
    let step = move |by: f64, sign, name| {
        let press = move || {
            handle.step(by);
            handle.done();
        };
        button(press).class("step").attr("aria-label", &format!("{label}, {name}")).text(sign)
    };
    (handle.number.quantity == Quantity::Count).then(|| {
        tag("div")
            .class("more-and-fewer")
            .child(step(-1.0, "\u{2212}", texts::fewer()))
            .child(step(1.0, "+", texts::more()))
    })
}

/// Follows pointer and keys: one gesture from taking to letting go is one step of the history.
fn reacting(handle: Handle, grip: Tag) -> Tag {
    let drag = Rc::new(Drag {
        handle,
        element: grip.element().clone(),
        hold: Cell::new(None),
        wanted: Rc::new(Cell::new(None)),
    });
    let on = |react: fn(&Drag, &Event)| {
        let drag = Rc::clone(&drag);
        move |event: Event| react(&drag, &event)
    };
    grip.on("pointerdown", on(Drag::take))
        .on("pointermove", on(Drag::follow))
        .on("pointerup", on(|drag, _| drag.let_go()))
        .on("pointercancel", on(|drag, _| drag.give_up()))
        .on("keydown", on(Drag::key))
        // As long as a key is held, its steps are one.
        .on("keyup", move |_| handle.workspace.settle())
        .on("blur", move |_| handle.done())
}

/// A grip and the gesture that holds it, if one does.
struct Drag {
    handle: Handle,
    element: web_sys::Element,
    hold: Cell<Option<Hold>>,
    /// What the last move asks for, until the next frame.
    wanted: Rc<Cell<Option<f64>>>,
}

impl Drag {
    fn take(&self, event: &Event) {
        let Some(pointer) = event.dyn_ref::<PointerEvent>() else { return };
        if pointer.button() != 0 || !pointer.is_primary() {
            return;
        }
        event.prevent_default();
        let _ = self.element.set_pointer_capture(pointer.pointer_id());
        if let Some(element) = self.element.dyn_ref::<HtmlElement>() {
            let _ = element.focus();
        }
        self.hold.set(self.handle.hold(pointer));
        self.handle.held.set(true);
    }

    fn follow(&self, event: &Event) {
        let pointer = event.dyn_ref::<PointerEvent>();
        let Some((hold, pointer)) = self.hold.get().zip(pointer) else { return };
        let (x, y) = place_of(pointer);
        let (across, up) = hold.per_pixel;
        let value = hold.value + across * (x - hold.start.0) + up * (y - hold.start.1);
        // Many moves in a frame are one change.
        if self.wanted.replace(Some(value)).is_none() {
            let (handle, wanted) = (self.handle, Rc::clone(&self.wanted));
            browser::at_frame(move || {
                if let Some(value) = wanted.take() {
                    handle.put(value);
                }
            });
        }
    }

    fn let_go(&self) {
        if self.hold.take().is_some() {
            if let Some(value) = self.wanted.take() {
                self.handle.put(value);
            }
            self.handle.done();
            self.handle.held.set(false);
        }
    }

    /// The design is as it was before the gesture.
    fn give_up(&self) {
        if self.hold.take().is_some() {
            self.wanted.take();
            self.cancel();
            self.handle.held.set(false);
        }
    }

    fn cancel(&self) {
        self.handle.refusal.set(None);
        self.handle.workspace.cancel();
    }

    fn key(&self, event: &Event) {
        match browser::key(event).as_str() {
            "Escape" if self.hold.get().is_some() => self.give_up(),
            "Escape" => self.cancel(),
            _ => self.handle.key(event),
        }
    }
}
