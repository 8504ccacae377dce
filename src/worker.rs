//! The program of the page's workers: takes orders of long work, answers part by part. It is
//! fetched when the first of them is hired, so that nobody waits for it before typing.

mod panics;
mod spoken;

use longsmoke::service::news::News;
use longsmoke::service::order::{END, Job, NotAnOrder, Order};
use longsmoke::service::shared::{Help, Lead, Shared};
use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{DedicatedWorkerGlobalScope, MessageChannel, MessageEvent, MessagePort};

/// Listens for orders for as long as the worker lives.
fn main() {
    panics::show();
    spoken::speak();
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    let desk =
        Rc::new(Desk { scope: scope.clone(), latest: Cell::new(0), mate: RefCell::default() });
    let listener = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        if let Ok(port) = event.data().dyn_into::<MessagePort>() {
            *desk.mate.borrow_mut() = Some(Mate::new(port));
            return;
        }
        let order = event.data().as_string().ok_or(NotAnOrder);
        match order.and_then(|order| order.parse()) {
            Ok(order) => take(order, &desk),
            Err(NotAnOrder) => desk.say(UNREAD),
        }
    });
    scope.set_onmessage(Some(listener.as_ref().unchecked_ref()));
    listener.forget();
}

/// Answer to an order that cannot be read.
const UNREAD: &str = "{\"unread\":true}";

/// What the worker has at hand.
struct Desk {
    scope: DedicatedWorkerGlobalScope,
    /// The ticket that is worked for.
    latest: Cell<u64>,
    /// Another worker, who helps and is helped.
    mate: RefCell<Option<Rc<Mate>>>,
}

impl Desk {
    fn say(&self, text: &str) {
        let _ = self.scope.post_message(&text.into());
    }

    fn tell(&self, ticket: u64, news: &News) {
        self.say(&format!("{ticket} {news}"));
    }

    /// Whether a mate leads a job that it is helped with.
    fn helps(&self) -> bool {
        self.mate.borrow().as_ref().is_some_and(|mate| mate.leads.get() != 0)
    }

    /// Lets the worker hear its messages: by one to itself, which comes behind those that wait, at
    /// once where a timer would rest for milliseconds.
    async fn breathe(&self) {
        let Ok(channel) = MessageChannel::new() else {
            return self.rest().await;
        };
        let heard = js_sys::Promise::new(&mut |resolve, _| {
            channel.port1().set_onmessage(Some(&resolve));
            let _ = channel.port2().post_message(&JsValue::NULL);
        });
        let _ = JsFuture::from(heard).await;
        channel.port1().close();
    }

    /// The same after a while, where there is nothing to do.
    async fn rest(&self) {
        let turn = js_sys::Promise::new(&mut |resolve, _| {
            let set = &self.scope;
            let _ = set.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 0);
        });
        // A promise that only a timer resolves is never rejected.
        let _ = JsFuture::from(turn).await;
    }
}

fn take(order: Order, desk: &Rc<Desk>) {
    match order {
        Order::Ping { ticket } => desk.say(&format!("{ticket} pong")),
        Order::Stop { ticket } if desk.latest.get() == ticket => desk.latest.set(0),
        Order::Stop { .. } => {}
        Order::Begin { job, ticket, design } => {
            desk.latest.set(ticket);
            let desk = Rc::clone(desk);
            if let Some(shared) = job.shared(&design) {
                let order = Order::Begin { job, ticket, design }.to_string();
                spawn_local(lead(shared, (ticket, order), desk));
            } else {
                // Nobody asked for them by themselves.
                let patience = if matches!(job, Job::Remedies(_)) { PATIENCE } else { 0 };
                spawn_local(run(job.news(&design), (ticket, patience), desk));
            }
        }
    }
}

/// Rounds for which a patient job rests while a mate is helped: half a minute.
const PATIENCE: u32 = 8000;

/// Sends news after news, until there are no more or another ticket is worked for; then says that
/// this one is at its end. While a mate is helped it rests as long as it has patience.
async fn run(
    mut news: Box<dyn Iterator<Item = News>>,
    (ticket, mut patience): (u64, u32),
    desk: Rc<Desk>,
) {
    while desk.latest.get() == ticket {
        if 0 < patience && desk.helps() {
            patience -= 1;
            desk.rest().await;
            continue;
        }
        let Some(news) = news.next() else { break };
        desk.tell(ticket, &news);
        desk.breathe().await;
    }
    desk.say(&format!("{ticket} {END}"));
}

/// Rounds in which a mate may keep a piece that nothing can go on without: some seconds.
const MOST_ROUNDS: u32 = 600;

/// Pieces that a mate has at once: while it seeks one, the next is on its way.
const AT_ONCE: usize = 2;

/// Finds piece after piece, with a mate where there is one.
async fn lead(shared: Shared, (ticket, order): (u64, String), desk: Rc<Desk>) {
    let Shared { mut lead, mut help } = shared;
    for news in lead.begin() {
        desk.tell(ticket, &news);
    }
    let mate = desk.mate.borrow().clone();
    if let Some(mate) = &mate {
        mate.begin(ticket, &order);
    }
    let mut rounds = 0;
    while desk.latest.get() == ticket {
        let wanted = lead.wanted();
        let Some(first) = wanted.first() else {
            break;
        };
        let given = mate.as_ref().map(|mate| mate.given.borrow().clone()).unwrap_or_default();
        let mut open: VecDeque<&String> =
            wanted.iter().filter(|piece| !given.contains(piece)).collect();
        let own = if MOST_ROUNDS < rounds { Some(first) } else { open.pop_front() };
        if let Some(mate) = &mate {
            mate.give(&mut open);
        }
        if let Some(piece) = own {
            let found = help.find(piece);
            take_in(&mut *lead, (piece, &found), ticket, &desk);
            rounds = 0;
            desk.breathe().await;
        } else {
            rounds += 1;
            desk.rest().await;
        }
        let found = mate.as_ref().map(|mate| mate.found.take()).unwrap_or_default();
        for (piece, found) in found {
            take_in(&mut *lead, (&piece, &found), ticket, &desk);
        }
    }
    if let Some(mate) = &mate {
        mate.say(&["done", &ticket.to_string()]);
    }
    desk.say(&format!("{ticket} {END}"));
}

fn take_in(lead: &mut dyn Lead, (piece, found): (&str, &str), ticket: u64, desk: &Desk) {
    // Both may have found it.
    if lead.wanted().iter().any(|wanted| wanted == piece) {
        for news in lead.take(piece, found) {
            desk.tell(ticket, &news);
        }
    }
}

/// The other worker.
struct Mate {
    port: MessagePort,
    /// The pieces that it seeks for us.
    given: RefCell<Vec<String>>,
    /// The ticket for which it does.
    ticket: Cell<u64>,
    /// What it found.
    found: RefCell<Vec<(String, String)>>,
    /// How it is helped.
    help: RefCell<Option<Box<dyn Help>>>,
    /// The ticket of the job that it leads; 0 for none.
    leads: Cell<u64>,
}

/// Parts the kind of a message between mates from the rest, and a piece from what was found.
const PART: char = '\u{1d}';

impl Mate {
    /// Listens to the other worker for as long as both live.
    fn new(port: MessagePort) -> Rc<Self> {
        let mate = Rc::new(Self {
            port,
            given: RefCell::default(),
            ticket: Cell::default(),
            found: RefCell::default(),
            help: RefCell::default(),
            leads: Cell::default(),
        });
        let own = Rc::clone(&mate);
        let listener = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            if let Some(text) = event.data().as_string() {
                own.hear(&text);
            }
        });
        mate.port.set_onmessage(Some(listener.as_ref().unchecked_ref()));
        listener.forget();
        mate
    }

    fn say(&self, words: &[&str]) {
        let _ = self.port.post_message(&words.join(&PART.to_string()).into());
    }

    /// Says what is worked at; what was sought for an earlier job is no longer waited for.
    fn begin(&self, ticket: u64, order: &str) {
        self.given.take();
        self.found.take();
        self.ticket.set(ticket);
        self.say(&["order", order]);
    }

    /// Gives it of the pieces that are open what it has room for. The last ones are left to whoever is
    /// free first.
    fn give(&self, open: &mut VecDeque<&String>) {
        let mut given = self.given.borrow_mut();
        while given.is_empty() || given.len() < AT_ONCE && 1 < open.len() {
            let Some(piece) = open.pop_front() else { return };
            self.say(&["find", &self.ticket.get().to_string(), piece]);
            given.push(piece.clone());
        }
    }

    fn hear(&self, text: &str) {
        let words: Vec<&str> = text.splitn(4, PART).collect();
        match words.as_slice() {
            ["order", order] => {
                let help = match order.parse() {
                    Ok(Order::Begin { job, design, ticket }) => {
                        self.leads.set(ticket);
                        Job::shared(&job, &design)
                    }
                    _ => None,
                };
                *self.help.borrow_mut() = help.map(|shared| shared.help);
            }
            ["done", ticket] if *ticket == self.leads.get().to_string() => self.leads.set(0),
            ["find", ticket, piece] => {
                let found = self.help.borrow_mut().as_mut().map(|help| help.find(piece));
                if let Some(found) = found {
                    self.say(&["found", ticket, piece, &found]);
                }
            }
            ["found", ticket, piece, found] => {
                // An answer to an earlier job is of no use.
                let mut given = self.given.borrow_mut();
                let place = given.iter().position(|given| given == piece);
                if let Some(place) = place.filter(|_| *ticket == self.ticket.get().to_string())
                {
                    given.swap_remove(place);
                    self.found.borrow_mut().push(((*piece).to_owned(), (*found).to_owned()));
                }
            }
            _ => {}
        }
    }
}
