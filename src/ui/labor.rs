//! A worker kept at work for what is wanted last, and how it is told.
//!
//! Orders are words with a design as a file; answers are a generation and words.

use super::workspace::Workspace;
use leptos::prelude::*;
use longsmoke::design::Design;
use longsmoke::study::order::{self, Order};
use longsmoke::units::System;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen::prelude::*;
use web_sys::{MessageEvent, Worker};

/// How the message of a worker begins that died (see `web/worker.js`) or could not read its order.
const NO_ANSWER: char = '{';

/// A design that figures are wanted for, and which generation that is.
#[derive(Clone, Debug)]
pub struct Wanted {
    pub generation: u64,
    pub design: Arc<Design>,
    /// Units in which they are wanted, where that counts.
    pub system: System,
}

impl PartialEq for Wanted {
    fn eq(&self, other: &Self) -> bool {
        self.generation == other.generation
    }
}

impl Wanted {
    /// What is wanted now: the same as before where nothing has changed that counts.
    pub fn next(
        design: &Design,
        last: Option<&Self>,
        same: fn(&Design, &Design) -> bool,
    ) -> Self {
        Self::in_units(design, System::Metric, last, same)
    }

    /// The same where the units count as well.
    pub fn in_units(
        design: &Design,
        system: System,
        last: Option<&Self>,
        same: fn(&Design, &Design) -> bool,
    ) -> Self {
        match last {
            Some(last) if last.system == system && same(design, &last.design) => last.clone(),
            last => Self {
                generation: last.map_or(0, |last| last.generation) + 1,
                design: Arc::new(design.clone()),
                system,
            },
        }
    }
}

/// What is wanted of the present design, anew only when something changes that counts.
pub fn wanted(workspace: Workspace, same: fn(&Design, &Design) -> bool) -> Memo<Wanted> {
    Memo::new(move |last| workspace.design.with(|design| Wanted::next(design, last, same)))
}

/// What is known of the worker.
pub enum Heard<'a> {
    /// A message, with the generation that it is for.
    Message(u64, &'a str),
    /// It died, or none could be had.
    Stopped,
    /// There is a new one.
    Hired,
}

/// How a job is ordered.
#[derive(Clone, Copy)]
pub struct Job {
    /// Rest after the last change before the worker starts.
    pub rest: Duration,
    /// What it does for what is wanted.
    pub study: fn(&Wanted) -> order::Job,
}

/// Keeps a worker at work for what is wanted. What it still computes for an earlier generation it
/// drops when it next listens.
pub fn drive(wanted: Memo<Wanted>, job: Job, hear: impl Fn(Heard<'_>) + Copy + 'static) {
    let worker: Rc<RefCell<Option<Worker>>> = Rc::default();
    let timer: Rc<RefCell<Option<TimeoutHandle>>> = Rc::default();
    let alive = Rc::new(Cell::new(false));
    Effect::new(move |_| {
        let wanted = wanted.get();
        if let Some(timer) = timer.borrow_mut().take() {
            timer.clear();
        }
        if let Some(worker) = worker.borrow().as_ref() {
            send(worker, &Order::Stop { generation: wanted.generation });
        }
        let (worker, alive) = (Rc::clone(&worker), Rc::clone(&alive));
        let start = move || {
            let mut worker = worker.borrow_mut();
            if !alive.get() {
                *worker = hire(&alive, hear);
            }
            match worker.as_ref() {
                Some(worker) => {
                    let begin = Order::Begin {
                        job: (job.study)(&wanted),
                        generation: wanted.generation,
                        design: Box::new(Design::clone(&wanted.design)),
                    };
                    send(worker, &begin);
                }
                None => hear(Heard::Stopped),
            }
        };
        *timer.borrow_mut() = set_timeout_with_handle(start, job.rest).ok();
    });
}

fn send(worker: &Worker, order: &Order) {
    let _ = worker.post_message(&order.to_string().into());
}

/// A worker with a program of its own (`src/worker.rs`); `web/boot.js` knows how to start one.
fn hire(alive: &Rc<Cell<bool>>, hear: impl Fn(Heard<'_>) + Copy + 'static) -> Option<Worker> {
    let make = js_sys::Reflect::get(&js_sys::global(), &"longsmokeWorker".into()).ok()?;
    let make: js_sys::Function = make.dyn_into().ok()?;
    let worker: Worker = make.call0(&JsValue::NULL).ok()?.dyn_into().ok()?;
    let stopped = {
        let alive = Rc::clone(alive);
        move || {
            alive.set(false);
            hear(Heard::Stopped);
        }
    };
    let fail = Closure::<dyn Fn()>::new(stopped.clone());
    worker.set_onerror(Some(fail.as_ref().unchecked_ref()));
    fail.forget();
    let listen = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let Some(text) = event.data().as_string() else {
            return;
        };
        if text.starts_with(NO_ANSWER) {
            stopped();
        } else if let Some((generation, message)) = text.split_once(' ') {
            // Only a message of ours begins with a number.
            let _ = generation.parse().map(|of: u64| hear(Heard::Message(of, message)));
        }
    });
    worker.set_onmessage(Some(listen.as_ref().unchecked_ref()));
    listen.forget();
    alive.set(true);
    hear(Heard::Hired);
    Some(worker)
}
