//! The program of the page's workers: takes orders of long work, answers part by part. It is
//! fetched when the first of them is hired, so that nobody waits for it before typing.

mod panics;

use longsmoke::service::news::News;
use longsmoke::service::order::{END, NotAnOrder, Order};
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// Listens for orders for as long as the worker lives.
fn main() {
    panics::show();
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    let latest = Rc::new(Cell::new(0));
    let answering = scope.clone();
    let listener = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let order = event.data().as_string().ok_or(NotAnOrder);
        match order.and_then(|order| order.parse()) {
            Ok(order) => take(order, &answering, &latest),
            Err(NotAnOrder) => say(UNREAD, &answering),
        }
    });
    scope.set_onmessage(Some(listener.as_ref().unchecked_ref()));
    listener.forget();
}

/// Answer to an order that cannot be read.
const UNREAD: &str = "{\"unread\":true}";

fn say(text: &str, scope: &DedicatedWorkerGlobalScope) {
    let _ = scope.post_message(&text.into());
}

fn take(order: Order, scope: &DedicatedWorkerGlobalScope, latest: &Rc<Cell<u64>>) {
    match order {
        Order::Ping { ticket } => say(&format!("{ticket} pong"), scope),
        Order::Stop { ticket } if latest.get() == ticket => latest.set(0),
        Order::Stop { .. } => {}
        Order::Begin { job, ticket, design } => {
            latest.set(ticket);
            spawn_local(run(job.news(&design), ticket, scope.clone(), Rc::clone(latest)));
        }
    }
}

/// Sends news after news, until there are no more or another ticket is worked for; then says that
/// this one is at its end.
async fn run(
    mut news: Box<dyn Iterator<Item = News>>,
    ticket: u64,
    scope: DedicatedWorkerGlobalScope,
    latest: Rc<Cell<u64>>,
) {
    while latest.get() == ticket
        && let Some(news) = news.next()
    {
        say(&format!("{ticket} {news}"), &scope);
        breathe(&scope).await;
    }
    say(&format!("{ticket} {END}"), &scope);
}

/// Lets the worker hear its messages.
async fn breathe(scope: &DedicatedWorkerGlobalScope) {
    let turn = js_sys::Promise::new(&mut |resolve, _| {
        let _ = scope.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 0);
    });
    // A promise that only a timer resolves is never rejected.
    let _ = JsFuture::from(turn).await;
}
