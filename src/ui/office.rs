//! The workers of the page. A free one takes the most urgent job that waits; what is no longer
//! wanted is stopped.
//!
//! Orders are words with a design as a file; answers are a ticket and words.

use super::browser;
use js_sys::Date;
use longsmoke::design::Design;
use longsmoke::service::news::News;
use longsmoke::service::order::{self, END, Order};
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::sync::Arc;
use std::time::Duration;
use wasm_bindgen::prelude::*;
use web_sys::{MessageChannel, MessageEvent, Worker};

/// How the message of a worker begins that died (see `web/worker.js`) or could not read its order.
const NO_ANSWER: char = '{';
/// Most workers, so that few processors are left to the page.
const MOST: usize = 2;

/// Longer than any job rests (ms).
const LONGEST_REST: f64 = 2000.0;

/// What a job hears.
pub enum Heard {
    /// News for a generation.
    News(u64, News),
    /// No more news for a generation.
    Ended(u64),
    /// Its worker died, or none could be had.
    Stopped,
}

/// How a job hears it.
pub type Hear = dyn Fn(Heard);

/// What a job asks for: what, for which generation, of which design.
pub type Asked = (order::Job, u64, Arc<Design>);

/// A job of the page, from the office's side of the desk.
struct Desk {
    rank: u8,
    hear: Rc<Hear>,
    /// What rests, and until when (ms since 1970); how long, below 0, until the page is painted.
    resting: Option<(f64, Asked)>,
    waiting: Option<Asked>,
    /// Ticket and generation of what is worked at.
    at_work: Option<(u64, u64)>,
}

/// A worker, and the ticket for which it works.
struct Hand {
    worker: Worker,
    ticket: Cell<Option<u64>>,
}

/// The workers and the jobs of the page.
#[derive(Default)]
pub struct Office {
    desks: RefCell<Vec<Desk>>,
    hands: RefCell<Vec<Rc<Hand>>>,
    tickets: Cell<u64>,
    /// When the office wakes for what has rested (ms since 1970): one clock for all jobs, as each
    /// change of a slider puts off every one of them.
    wakes: Cell<Option<f64>>,
    /// Whether something waits for the page to be painted.
    paints: Cell<bool>,
}

impl Office {
    /// A desk for a job; of those that wait, the one of the least rank goes first.
    pub fn desk(&self, rank: u8, hear: Rc<Hear>) -> usize {
        let mut desks = self.desks.borrow_mut();
        desks.push(Desk { rank, hear, resting: None, waiting: None, at_work: None });
        desks.len() - 1
    }

    /// What the job at a desk waits for or has under way is no longer wanted.
    pub fn stop(&self, desk: usize) {
        let at_work = self.desks.borrow_mut().get_mut(desk).and_then(|desk| {
            desk.resting = None;
            desk.waiting = None;
            desk.at_work.take()
        });
        let Some((ticket, _)) = at_work else {
            return;
        };
        let hands = self.hands.borrow();
        let hand = hands.iter().find(|hand| hand.ticket.get() == Some(ticket));
        if let Some(hand) = hand {
            hand.send(&Order::Stop { ticket });
        }
    }

    /// The job at a desk waits for a worker, after a rest. That begins when the page is painted, so
    /// that a slow device, too, is at rest by then.
    pub fn ask(self: &Rc<Self>, desk: usize, asked: Asked, rest: Duration) {
        if let Some(desk) = self.desks.borrow_mut().get_mut(desk) {
            desk.resting = Some((-1e3 * rest.as_secs_f64(), asked));
        }
        if !self.paints.replace(true) {
            let office = Rc::clone(self);
            let begin = move || {
                office.paints.set(false);
                office.wake();
            };
            browser::once_painted(Box::new(begin));
        }
    }

    fn wake_at(self: &Rc<Self>, time: f64) {
        if self.wakes.get().is_some_and(|wakes| wakes <= time) {
            return;
        }
        self.wakes.set(Some(time));
        let office = Rc::clone(self);
        let rest = Duration::from_secs_f64(1e-3 * (time - Date::now()).max(0.0));
        browser::after(rest, move || office.wake());
    }

    /// Has all wait that have rested enough.
    fn wake(self: &Rc<Self>) {
        self.wakes.set(None);
        // It wakes again when that is painted.
        if self.paints.get() {
            return;
        }
        let now = Date::now();
        let mut next = f64::INFINITY;
        for desk in self.desks.borrow_mut().iter_mut() {
            let Some((until, asked)) = desk.resting.take() else { continue };
            let until = if until <= 0.0 { now - until } else { until };
            // Nothing rests so long, unless the clock of the device was set back.
            if until <= now || LONGEST_REST < until - now {
                desk.waiting = Some(asked);
            } else {
                next = next.min(until);
                desk.resting = Some((until, asked));
            }
        }
        self.assign();
        if next.is_finite() {
            self.wake_at(next);
        }
    }

    /// Gives jobs that wait to workers that are free, as long as there are both.
    fn assign(self: &Rc<Self>) {
        while let Some(desk) = self.most_urgent() {
            match self.free_hand() {
                Some(Ok(hand)) => self.begin(desk, &hand),
                Some(Err(NoWorker)) => {
                    let refused = self.desks.borrow_mut().get_mut(desk).map(|desk| {
                        desk.waiting = None;
                        Rc::clone(&desk.hear)
                    });
                    if let Some(hear) = refused {
                        hear(Heard::Stopped);
                    }
                }
                None => return,
            }
        }
    }

    fn most_urgent(&self) -> Option<usize> {
        let desks = self.desks.borrow();
        let waiting = desks.iter().enumerate().filter(|(_, desk)| desk.waiting.is_some());
        waiting.min_by_key(|(_, desk)| desk.rank).map(|(index, _)| index)
    }

    /// A worker that is free, a new one where there may be more; none where all are at work.
    fn free_hand(self: &Rc<Self>) -> Option<Result<Rc<Hand>, NoWorker>> {
        let free = self.hands.borrow().iter().find(|hand| hand.ticket.get().is_none()).cloned();
        match free {
            Some(hand) => Some(Ok(hand)),
            None if self.hands.borrow().len() < MOST => Some(self.hire().ok_or(NoWorker)),
            None => None,
        }
    }

    fn begin(&self, desk: usize, hand: &Hand) {
        let ticket = self.tickets.get() + 1;
        self.tickets.set(ticket);
        let asked = self.desks.borrow_mut().get_mut(desk).and_then(|desk| {
            let asked = desk.waiting.take()?;
            desk.at_work = Some((ticket, asked.1));
            Some(asked)
        });
        if let Some((job, _, design)) = asked {
            hand.ticket.set(Some(ticket));
            let design = Box::new(Design::clone(&design));
            hand.send(&Order::Begin { job, ticket, design });
        }
    }

    /// Takes a message of a worker: a ticket and words.
    fn hear(self: &Rc<Self>, hand: &Hand, text: &str) {
        let Some((ticket, words)) = text.split_once(' ') else {
            return;
        };
        let Ok(ticket) = ticket.parse::<u64>() else {
            return;
        };
        let mut desks = self.desks.borrow_mut();
        let desk = desks
            .iter_mut()
            .find(|desk| desk.at_work.is_some_and(|(at_work, _)| at_work == ticket));
        let told = desk.and_then(|desk| {
            let (_, generation) = desk.at_work?;
            let heard = if words == END {
                desk.at_work = None;
                Heard::Ended(generation)
            } else {
                Heard::News(generation, words.parse().ok()?)
            };
            Some((Rc::clone(&desk.hear), heard))
        });
        drop(desks);
        if let Some((hear, heard)) = told {
            hear(heard);
        }
        if words == END {
            hand.ticket.set(None);
            self.assign();
        }
    }

    /// A worker died: its job hears so, and the others go on with those that are left.
    fn lose(self: &Rc<Self>, lost: &Rc<Hand>) {
        self.hands.borrow_mut().retain(|hand| !Rc::ptr_eq(hand, lost));
        let ticket = lost.ticket.take();
        let mut desks = self.desks.borrow_mut();
        let desk = desks.iter_mut().find(|desk| {
            desk.at_work.is_some() && desk.at_work.map(|(at_work, _)| at_work) == ticket
        });
        let hear = desk.map(|desk| {
            desk.at_work = None;
            Rc::clone(&desk.hear)
        });
        drop(desks);
        if let Some(hear) = hear {
            hear(Heard::Stopped);
        }
        self.assign();
    }

    /// A worker with a program of its own (`src/worker.rs`); `web/boot.js` knows how to start one.
    fn hire(self: &Rc<Self>) -> Option<Rc<Hand>> {
        let make = js_sys::Reflect::get(&js_sys::global(), &"longsmokeWorker".into()).ok()?;
        let make: js_sys::Function = make.dyn_into().ok()?;
        let worker: Worker = make.call0(&JsValue::NULL).ok()?.dyn_into().ok()?;
        let hand = Rc::new(Hand { worker, ticket: Cell::new(None) });
        let (office, lost) = (Rc::clone(self), Rc::clone(&hand));
        let fail = Closure::<dyn Fn()>::new(move || office.lose(&lost));
        hand.worker.set_onerror(Some(fail.as_ref().unchecked_ref()));
        fail.forget();
        let (office, own) = (Rc::clone(self), Rc::clone(&hand));
        let listen =
            Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
                match event.data().as_string() {
                    Some(text) if text.starts_with(NO_ANSWER) => office.lose(&own),
                    Some(text) => office.hear(&own, &text),
                    None => {}
                }
            });
        hand.worker.set_onmessage(Some(listen.as_ref().unchecked_ref()));
        listen.forget();
        self.hands.borrow_mut().push(Rc::clone(&hand));
        self.introduce();
        Some(hand)
    }

    /// Lets two workers hear of each other, so that they can share a job.
    fn introduce(&self) {
        let hands = self.hands.borrow();
        let ([one, other], Ok(channel)) = (hands.as_slice(), MessageChannel::new()) else {
            return;
        };
        for (hand, port) in [(one, channel.port1()), (other, channel.port2())] {
            let _ = hand.worker.post_message_with_transfer(&port, &js_sys::Array::of1(&port));
        }
    }
}

/// The browser gives none.
struct NoWorker;

impl Hand {
    fn send(&self, order: &Order) {
        let _ = self.worker.post_message(&order.to_string().into());
    }
}
