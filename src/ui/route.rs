//! The published sizing route beside the model.

use super::dom::Tag;
use super::labor::Job;
use super::told::{Section, section};
use super::workspace::{Workspace, same_but_name};
use longsmoke::service::order;
use longsmoke::words::standard_route as said;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(200),
    rank: 2,
    ask: |_| order::Job::Route,
    same: same_but_name,
    in_units: false,
};

pub fn route_view(workspace: Workspace) -> Tag {
    section(workspace, Section { name: "route", title: said::TITLE, job: JOB })
}
