//! The heater under other conditions: three answers each, and what speaks against a yes.

use super::dom::Tag;
use super::labor::Job;
use super::told::{Section, section};
use super::workspace::{Workspace, same_but_name};
use longsmoke::service::order;
use longsmoke::words::trials as said;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(300),
    rank: 5,
    ask: |_| order::Job::Trials,
    same: same_but_name,
    in_units: false,
};

pub fn trials_view(workspace: Workspace) -> Tag {
    section(workspace, Section { name: "trials", title: said::TITLE, job: JOB })
}
