//! The program in a worker: takes orders, answers with progress.

use super::labor::Order;
use longsmoke::design::{Design, document};
use longsmoke::study::day::Parts;
use longsmoke::study::remedy::Remedies;
use longsmoke::study::strip::Strip;
use std::cell::Cell;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::{JsFuture, spawn_local};
use web_sys::{DedicatedWorkerGlobalScope, MessageEvent};

/// Listens for orders for as long as the worker lives.
pub fn start() {
    let scope: DedicatedWorkerGlobalScope = js_sys::global().unchecked_into();
    let latest = Rc::new(Cell::new(0));
    let answering = scope.clone();
    let listener = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
        let order = event.data().as_string();
        let order = order.as_deref().and_then(Order::read);
        if order.and_then(|order| take(order, &answering, &latest)).is_none() {
            let _ = answering.post_message(&UNREAD.into());
        }
    });
    scope.set_onmessage(Some(listener.as_ref().unchecked_ref()));
    listener.forget();
}

/// Answer to an order that cannot be read.
const UNREAD: &str = "{\"unread\":true}";

/// None where the design of an order cannot be read.
fn take(
    order: Order,
    scope: &DedicatedWorkerGlobalScope,
    latest: &Rc<Cell<u64>>,
) -> Option<()> {
    match order {
        Order::Ping { generation } => {
            let answer = serde_json::json!({ "generation": generation, "result": "pong" });
            let _ = scope.post_message(&answer.to_string().into());
        }
        Order::Stop { generation } => latest.set(generation),
        Order::Strip { generation, design } => {
            let columns = Strip::new(&read(&design)?);
            let told = columns.map(|column| column.to_string());
            begin(Box::new(told), generation, scope, latest);
        }
        Order::Day { generation, design } => {
            let parts = Parts::new(&read(&design)?);
            let told = parts.map(|part| part.to_string());
            begin(Box::new(told), generation, scope, latest);
        }
        Order::Remedies { generation, design, system } => {
            let parts = Remedies::new(&read(&design)?, system);
            let told = parts.map(|part| part.to_string());
            begin(Box::new(told), generation, scope, latest);
        }
    }
    Some(())
}

fn read(design: &str) -> Option<Design> {
    document::read(design).ok().map(|document| document.design)
}

/// Answers of a study, found one by one.
type Told = Box<dyn Iterator<Item = String>>;

fn begin(
    told: Told,
    generation: u64,
    scope: &DedicatedWorkerGlobalScope,
    latest: &Rc<Cell<u64>>,
) {
    latest.set(generation);
    spawn_local(run(told, generation, scope.clone(), Rc::clone(latest)));
}

/// Sends answer after answer, until there are no more or a later generation is wanted.
async fn run(
    mut told: Told,
    generation: u64,
    scope: DedicatedWorkerGlobalScope,
    latest: Rc<Cell<u64>>,
) {
    while latest.get() == generation {
        let Some(answer) = told.next() else {
            return;
        };
        let _ = scope.post_message(&format!("{generation} {answer}").into());
        breathe(&scope).await;
    }
}

/// Lets the worker hear its messages.
async fn breathe(scope: &DedicatedWorkerGlobalScope) {
    let turn = js_sys::Promise::new(&mut |resolve, _| {
        let _ = scope.set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, 0);
    });
    // A promise that only a timer resolves is never rejected.
    let _ = JsFuture::from(turn).await;
}
