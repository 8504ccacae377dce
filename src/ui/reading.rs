//! What is only to be read: other days, the standard route, operation.

use super::dom::Tag;
use super::labor::Job;
use super::told::{Section, section};
use super::workspace::{Workspace, same_but_name};
use longsmoke::service::order;
use longsmoke::words;
use std::time::Duration;

const fn job(rank: u8, ask: fn(&super::labor::Wanted) -> order::Job) -> Job {
    Job { rest: Duration::from_millis(300), rank, ask, same: same_but_name, in_units: false }
}

/// The heater under other conditions.
pub fn trials(workspace: Workspace) -> Tag {
    let job = job(5, |_| order::Job::Trials);
    section(workspace, Section { name: "trials", title: words::trials::TITLE, job })
}

/// The published sizing route beside the model.
pub fn route(workspace: Workspace) -> Tag {
    let job = job(2, |_| order::Job::Route);
    section(workspace, Section { name: "route", title: words::standard_route::TITLE, job })
}

/// How the heater is run without harm.
pub fn operation(workspace: Workspace) -> Tag {
    let job = job(2, |_| order::Job::Operation);
    section(workspace, Section { name: "operation", title: words::operation::TITLE, job })
}
