//! Elements of the page. What is static is built once; what is live follows the signals that it
//! reads, for as long as the part of the page around it stands.
//!
//! All elements are of one type, and all live parts of few: in a program that is downloaded, a
//! type of its own for each would weigh more than what it does.

use leptos::prelude::*;
use leptos::reactive::effect::RenderEffect;
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
    tag("button").attr("type", "button").on("click", move |_| press())
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

    pub fn on(self, event: &str, react: impl Fn(Event) + 'static) -> Self {
        self.listen(event, Box::new(react))
    }

    fn listen(self, event: &str, react: Box<dyn Fn(Event)>) -> Self {
        let listener = Closure::wrap(react);
        let function = listener.as_ref().unchecked_ref();
        let _ = self.0.add_event_listener_with_callback(event, function);
        hold(Box::new(listener));
        self
    }

    /// An attribute, absent where its value is none.
    pub fn live_attr(
        self,
        name: &'static str,
        value: impl Fn() -> Option<String> + 'static,
    ) -> Self {
        let element = self.0.clone();
        let write = move |value: Option<&str>| {
            let _ = match value {
                Some(value) => element.set_attribute(name, value),
                None => element.remove_attribute(name),
            };
        };
        follow(Box::new(value), Box::new(write));
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
        let node = document().create_text_node("");
        let _ = self.0.append_child(&node);
        follow(Box::new(text), Box::new(move |text| node.set_data(text.unwrap_or_default())));
        self
    }

    /// What an input holds.
    pub fn live_value(self, value: impl Fn() -> Option<String> + 'static) -> Self {
        let element = self.0.clone();
        let write = move |value: Option<&str>| {
            let value = value.unwrap_or_default().into();
            let _ = js_sys::Reflect::set(&element, &"value".into(), &value);
        };
        follow(Box::new(value), Box::new(write));
        self
    }

    /// The whole content, made anew at each change: nothing in it may take the focus.
    pub fn live(self, fill: impl Fn(Self) -> Self + 'static) -> Self {
        let tag = self.clone();
        watch(move || {
            tag.0.set_text_content(None);
            fill(tag.clone());
        });
        self
    }

    /// As many children as are counted; each stays as long as the count allows.
    pub fn repeat(
        self,
        count: impl Fn() -> usize + 'static,
        view: impl Fn(usize) -> Self + 'static,
    ) -> Self {
        let (parent, owner) = (self.0.clone(), Owner::current().unwrap_or_default());
        let mut shown: Vec<(Self, Owner)> = Vec::new();
        watch(move || {
            let count = count();
            while shown.len() > count {
                if let Some((tag, owner)) = shown.pop() {
                    tag.0.remove();
                    owner.cleanup();
                }
            }
            for index in shown.len()..count {
                let owner = owner.child();
                let tag = owner.with(|| view(index));
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

fn watch_boxed(mut run: Box<dyn FnMut()>) {
    hold(Box::new(RenderEffect::new(move |_: Option<()>| run())));
}

type Read = Box<dyn Fn() -> Option<String>>;
type Write = Box<dyn Fn(Option<&str>)>;

/// Writes what is read, whenever that differs from what was written before.
fn follow(read: Read, write: Write) {
    let mut written = None;
    watch(move || {
        let value = read();
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
