//! State that is written, and values derived from it. Leptos knows who reads what; the values lie
//! beside it, since its signals would stand in the program once for each type of value.

use leptos::reactive::computed::ArcMemo;
use leptos::reactive::owner::{LocalStorage, StoredValue};
use leptos::reactive::signal::ArcTrigger;
use leptos::reactive::traits::{
    Get as _, GetUntracked as _, GetValue as _, Notify as _, Track as _,
};
use std::any::Any;
use std::cell::{Ref, RefCell};
use std::marker::PhantomData;
use std::rc::Rc;

/// A value with what tells of its changes.
#[derive(Clone)]
struct Slot<C> {
    value: Rc<dyn Any>,
    changes: C,
}

/// Where a slot lies, as long as the part of the page around it stands.
type Place<C> = StoredValue<Slot<C>, LocalStorage>;

// Asking for a type takes its name of sixteen bytes: not inlined, so that it stands in the program
// once for each type and not at each reading.

#[inline(never)]
#[expect(clippy::expect_used, reason = "it was made with a value of its type")]
fn cell<T: 'static>(value: &dyn Any) -> &RefCell<T> {
    value.downcast_ref().expect("a value of its type")
}

#[inline(never)]
fn borrow<T: 'static>(value: &dyn Any) -> Ref<'_, T> {
    cell(value).borrow()
}

#[inline(never)]
#[expect(clippy::expect_used, reason = "it is derived whenever its changes are asked for")]
fn borrow_derived<T: 'static>(value: &dyn Any) -> Ref<'_, T> {
    Ref::map(cell::<Option<T>>(value).borrow(), |value| value.as_ref().expect("derived before"))
}

/// A value that is written; who reads it follows.
pub struct RwSignal<T> {
    at: Place<ArcTrigger>,
    of: PhantomData<fn() -> T>,
}

impl<T> Clone for RwSignal<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for RwSignal<T> {}

/// Where a slot lies that is written.
fn written(value: Rc<dyn Any>) -> Place<ArcTrigger> {
    StoredValue::new_local(Slot { value, changes: ArcTrigger::new() })
}

fn slot(at: Place<ArcTrigger>) -> Slot<ArcTrigger> {
    at.get_value()
}

/// The same, which is followed from here on.
fn tracked(at: Place<ArcTrigger>) -> Slot<ArcTrigger> {
    let slot = slot(at);
    slot.changes.track();
    slot
}

/// Tells who follows it.
fn notify(at: Place<ArcTrigger>) {
    slot(at).changes.notify();
}

impl<T: 'static> RwSignal<T> {
    pub fn new(value: T) -> Self {
        Self { at: written(Rc::new(RefCell::new(value))), of: PhantomData }
    }

    /// Follows it without reading.
    pub fn track(self) {
        tracked(self.at);
    }

    pub fn with<R>(self, read: impl FnOnce(&T) -> R) -> R {
        read(&borrow(&*tracked(self.at).value))
    }

    pub fn with_untracked<R>(self, read: impl FnOnce(&T) -> R) -> R {
        read(&borrow(&*slot(self.at).value))
    }

    pub fn update(self, write: impl FnOnce(&mut T)) {
        self.update_untracked(write);
        notify(self.at);
    }

    /// Writes without telling anybody.
    pub fn update_untracked(self, write: impl FnOnce(&mut T)) {
        write(&mut cell(&*slot(self.at).value).borrow_mut());
    }

    pub fn set(self, value: T) {
        self.update(|old| *old = value);
    }

    pub fn set_untracked(self, value: T) {
        self.update_untracked(|old| *old = value);
    }
}

impl<T: Clone + 'static> RwSignal<T> {
    pub fn get(self) -> T {
        self.with(T::clone)
    }

    pub fn get_untracked(self) -> T {
        self.with_untracked(T::clone)
    }
}

/// A value derived from others; who reads it follows when it comes out as another.
pub struct Memo<T> {
    /// With how often it has come out as another.
    at: Place<ArcMemo<u64>>,
    of: PhantomData<fn() -> T>,
}

impl<T> Clone for Memo<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Memo<T> {}

/// Derives a value anew.
trait Renew: Send + Sync {
    /// Whether it came out as another.
    fn renew(&self, value: &dyn Any) -> bool;
}

impl<F: Fn(&dyn Any) -> bool + Send + Sync> Renew for F {
    fn renew(&self, value: &dyn Any) -> bool {
        self(value)
    }
}

/// Where a slot lies that is derived.
fn derived(value: Rc<dyn Any>, renew: Box<dyn Renew>) -> Place<ArcMemo<u64>> {
    let at = StoredValue::new_local(Rc::clone(&value));
    let changes = ArcMemo::new(move |last: Option<&u64>| {
        let is_other = at.try_get_value().is_some_and(|value| renew.renew(&*value));
        last.copied().unwrap_or_default() + u64::from(is_other)
    });
    StoredValue::new_local(Slot { value, changes })
}

/// The slot of what is derived, up to date and followed from here on.
fn derived_tracked(at: Place<ArcMemo<u64>>) -> Slot<ArcMemo<u64>> {
    let slot = at.get_value();
    slot.changes.get();
    slot
}

/// The same without following it.
fn derived_untracked(at: Place<ArcMemo<u64>>) -> Slot<ArcMemo<u64>> {
    let slot = at.get_value();
    slot.changes.get_untracked();
    slot
}

impl<T: PartialEq + 'static> Memo<T> {
    /// `derive` is given what came out before.
    pub fn new(derive: impl Fn(Option<&T>) -> T + Send + Sync + 'static) -> Self {
        let renew = move |value: &dyn Any| {
            let value = cell::<Option<T>>(value);
            let new = derive(value.borrow().as_ref());
            let is_other = value.borrow().as_ref() != Some(&new);
            if is_other {
                value.replace(Some(new));
            }
            is_other
        };
        let value = Rc::new(RefCell::new(None::<T>));
        Self { at: derived(value, Box::new(renew)), of: PhantomData }
    }
}

impl<T: 'static> Memo<T> {
    /// Follows it without reading.
    pub fn track(self) {
        derived_tracked(self.at);
    }

    pub fn with<R>(self, read: impl FnOnce(&T) -> R) -> R {
        read(&borrow_derived(&*derived_tracked(self.at).value))
    }

    pub fn with_untracked<R>(self, read: impl FnOnce(&T) -> R) -> R {
        read(&borrow_derived(&*derived_untracked(self.at).value))
    }
}

impl<T: Clone + 'static> Memo<T> {
    pub fn get(self) -> T {
        self.with(T::clone)
    }

    pub fn get_untracked(self) -> T {
        self.with_untracked(T::clone)
    }
}
