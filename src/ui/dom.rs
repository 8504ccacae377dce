//! Elements of the page. What is static is built once; what is live follows the signals that it
//! reads, for as long as the part of the page around it stands.
//!
//! All elements are of one type, and all live parts of few: in a program that is downloaded, a
//! type of its own for each would weigh more than what it does. For the same reason what is handed
//! over is boxed at once, behind traits of our own: behind `dyn Fn` each would stand there as
//! `FnMut` and `FnOnce` too.

use leptos::leptos_dom::helpers::document;
use leptos::reactive::effect::RenderEffect;
use leptos::reactive::owner::Owner;
use leptos::reactive::owner::StoredValue;
use std::any::Any;
use wasm_bindgen::prelude::*;
use web_sys::{CssStyleDeclaration, Element, Event, HtmlElement};

/// Namespace of drawings.
const SVG: &str = "http://www.w3.org/2000/svg";

/// An element under construction. Its methods return it, so that a view reads as the page does.
#[derive(Clone)]
pub struct Tag(Element);

/// An element of HTML.
pub fn tag(name: &str) -> Tag {
    Tag(document().create_element(name).unwrap_or_else(JsCast::unchecked_into))
}

/// An element of a drawing.
pub fn svg(name: &str) -> Tag {
    let made = document().create_element_ns(Some(SVG), name);
    Tag(made.unwrap_or_else(JsCast::unchecked_into))
}

/// A button that does something.
pub fn button(press: impl Fn() + 'static) -> Tag {
    pressed(Box::new(press))
}

fn pressed(press: Box<dyn Press>) -> Tag {
    tag("button").attr("type", "button").on("click", move |_| press.press())
}

/// What listens to an element. The browser may still have an event for one that was taken out of the
/// page, so it is told when nobody listens any more.
struct Listener {
    element: Element,
    event: &'static str,
    react: Closure<dyn Fn(Event)>,
}

impl Drop for Listener {
    fn drop(&mut self) {
        let function = self.react.as_ref().unchecked_ref();
        let _ = self.element.remove_event_listener_with_callback(self.event, function);
    }
}

/// What is done at a press.
trait Press {
    fn press(&self);
}

impl<F: Fn()> Press for F {
    fn press(&self) {
        self();
    }
}

/// What is done at an event.
trait React {
    fn react(&self, event: Event);
}

impl<F: Fn(Event)> React for F {
    fn react(&self, event: Event) {
        self(event);
    }
}

/// What is written, none where there is nothing to write.
trait Read {
    fn read(&self) -> Option<String>;
}

impl<F: Fn() -> Option<String>> Read for F {
    fn read(&self) -> Option<String> {
        self()
    }
}

/// What is done whenever something changes.
trait Run {
    fn run(&mut self);
}

impl<F: FnMut()> Run for F {
    fn run(&mut self) {
        self();
    }
}

/// What fills an element.
trait Fill {
    fn fill(&self, tag: Tag) -> Tag;
}

impl<F: Fn(Tag) -> Tag> Fill for F {
    fn fill(&self, tag: Tag) -> Tag {
        self(tag)
    }
}

/// How many there are.
trait Count {
    fn count(&self) -> usize;
}

impl<F: Fn() -> usize> Count for F {
    fn count(&self) -> usize {
        self()
    }
}

/// One of them, by its place.
trait View {
    fn view(&self, index: usize) -> Tag;
}

impl<F: Fn(usize) -> Tag> View for F {
    fn view(&self, index: usize) -> Tag {
        self(index)
    }
}

/// Value of the input from which an event came.
pub fn value_of(event: &Event) -> String {
    let value =
        event.target().and_then(|input| js_sys::Reflect::get(&input, &"value".into()).ok());
    value.and_then(|value| value.as_string()).unwrap_or_default()
}

impl From<Element> for Tag {
    fn from(element: Element) -> Self {
        Self(element)
    }
}

impl Tag {
    /// The element itself.
    pub fn element(&self) -> &Element {
        &self.0
    }

    pub fn attr(self, name: &str, value: &str) -> Self {
        // Names are constants of this program, none of which a browser refuses.
        let _ = self.0.set_attribute(name, value);
        self
    }

    pub fn class(self, class: &str) -> Self {
        self.attr("class", class)
    }

    pub fn id(self, id: &str) -> Self {
        self.attr("id", id)
    }

    pub fn text(self, text: &str) -> Self {
        let _ = self.0.append_with_str_1(text);
        self
    }

    pub fn child(self, Self(child): Self) -> Self {
        let _ = self.0.append_child(&child);
        self
    }

    pub fn children(self, children: impl IntoIterator<Item = Self>) -> Self {
        children.into_iter().fold(self, Self::child)
    }

    pub fn on(self, event: &'static str, react: impl Fn(Event) + 'static) -> Self {
        self.listen(event, Box::new(react))
    }

    fn listen(self, event: &'static str, react: Box<dyn React>) -> Self {
        let react = Closure::<dyn Fn(Event)>::new(move |event| react.react(event));
        let function = react.as_ref().unchecked_ref();
        let _ = self.0.add_event_listener_with_callback(event, function);
        hold(Box::new(Listener { element: self.0.clone(), event, react }));
        self
    }

    /// An attribute, absent where its value is none.
    pub fn live_attr(
        self,
        name: &'static str,
        value: impl Fn() -> Option<String> + 'static,
    ) -> Self {
        self.follow_attr(name, Box::new(value))
    }

    fn follow_attr(self, name: &'static str, value: Box<dyn Read>) -> Self {
        let element = self.0.clone();
        let write = move |value: Option<&str>| {
            let _ = match value {
                Some(value) => element.set_attribute(name, value),
                None => element.remove_attribute(name),
            };
        };
        follow(value, Box::new(write));
        self
    }

    /// A property of the style; the policy of the page refuses none that a program sets.
    pub fn live_style(
        self,
        name: &'static str,
        value: impl Fn() -> Option<String> + 'static,
    ) -> Self {
        let style = self.0.dyn_ref::<HtmlElement>().map(HtmlElement::style);
        let write = move |value: Option<&str>| {
            let set = |style: &CssStyleDeclaration| {
                style.set_property(name, value.unwrap_or_default())
            };
            let _ = style.as_ref().map(set);
        };
        follow(Box::new(value), Box::new(write));
        self
    }

    /// A text among the children.
    pub fn live_text(self, text: impl Fn() -> Option<String> + 'static) -> Self {
        self.follow_text(Box::new(text))
    }

    fn follow_text(self, text: Box<dyn Read>) -> Self {
        let node = document().create_text_node("");
        let _ = self.0.append_child(&node);
        follow(text, Box::new(move |text| node.set_data(text.unwrap_or_default())));
        self
    }

    /// What an input holds.
    pub fn live_value(self, value: impl Fn() -> Option<String> + 'static) -> Self {
        self.follow_value(Box::new(value))
    }

    fn follow_value(self, value: Box<dyn Read>) -> Self {
        let element = self.0.clone();
        let write = move |value: Option<&str>| {
            let value = value.unwrap_or_default().into();
            let _ = js_sys::Reflect::set(&element, &"value".into(), &value);
        };
        follow(value, Box::new(write));
        self
    }

    /// The whole content, made anew at each change: nothing in it may take the focus.
    pub fn live(self, fill: impl Fn(Self) -> Self + 'static) -> Self {
        self.follow_content(Box::new(fill))
    }

    fn follow_content(self, fill: Box<dyn Fill>) -> Self {
        let tag = self.clone();
        watch(move || {
            tag.0.set_text_content(None);
            fill.fill(tag.clone());
        });
        self
    }

    /// The same, made anew only when what it shows comes out as another.
    pub fn live_of<T: PartialEq + 'static>(
        self,
        read: impl Fn() -> T + 'static,
        fill: impl Fn(Self, &T) -> Self + 'static,
    ) -> Self {
        let tag = self.clone();
        let mut shown = None;
        watch(move || {
            let new = read();
            if shown.as_ref() != Some(&new) {
                tag.0.set_text_content(None);
                fill(tag.clone(), &new);
                shown = Some(new);
            }
        });
        self
    }

    /// As many children as are counted; each stays as long as the count allows.
    pub fn repeat(
        self,
        count: impl Fn() -> usize + 'static,
        view: impl Fn(usize) -> Self + 'static,
    ) -> Self {
        self.follow_count(Box::new(count), Box::new(view))
    }

    fn follow_count(self, count: Box<dyn Count>, view: Box<dyn View>) -> Self {
        let (parent, owner) = (self.0.clone(), Owner::current().unwrap_or_default());
        let mut shown: Vec<(Self, Owner)> = Vec::new();
        watch(move || {
            let count = count.count();
            while shown.len() > count {
                if let Some((tag, owner)) = shown.pop() {
                    tag.0.remove();
                    owner.cleanup();
                }
            }
            for index in shown.len()..count {
                let owner = owner.child();
                let tag = owner.with(|| view.view(index));
                let _ = parent.append_child(&tag.0);
                shown.push((tag, owner));
            }
        });
        self
    }
}

/// Runs now and whenever what was read changes.
pub fn watch(run: impl FnMut() + 'static) {
    watch_boxed(Box::new(run));
}

fn watch_boxed(mut run: Box<dyn Run>) {
    hold(Box::new(RenderEffect::new(move |_: Option<()>| run.run())));
}

type Write = Box<dyn Fn(Option<&str>)>;

/// Writes what is read, whenever that differs from what was written before.
fn follow(read: Box<dyn Read>, write: Write) {
    let mut written = None;
    watch(move || {
        let value = read.read();
        if written.as_ref() != Some(&value) {
            write(value.as_deref());
            written = Some(value);
        }
    });
}

/// Holds a thing for as long as the part of the page around it stands.
fn hold(thing: Box<dyn Any>) {
    StoredValue::new_local(thing);
}
