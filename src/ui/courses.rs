//! Plans of the courses: one at a time, ticked off on this device when it is laid.

use super::dom::{Tag, button, svg, tag, value_of, watch};
use super::labor::{Job, Task};
use super::plot::watch_size;
use super::signal::RwSignal;
use super::told::{Found, graying, state};
use super::workspace::{Workspace, same_but_name};
use super::{sketch, storage, texts};
use longsmoke::service::{DrawnCourse, Room, order};
use std::sync::Arc;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::from_millis(50),
    rank: 1,
    // What is asked for says it.
    ask: |_| order::Job::Courses,
    same: same_but_name,
    in_units: false,
};

/// Parts what is kept of one design from that of the next.
const NEXT: char = '\u{1e}';

/// What is kept of a design: its name, then the numbers of the courses that are laid.
fn is_of(kept: &str, name: &str) -> bool {
    kept.strip_prefix(name).is_some_and(|rest| rest.starts_with('\n'))
}

/// The courses of a design that are laid.
fn ticked(name: &str) -> Vec<usize> {
    let kept = storage::read(storage::COURSES).unwrap_or_default();
    let own =
        kept.split(NEXT).find(|kept| is_of(kept, name)).and_then(|own| own.split_once('\n'));
    own.into_iter().flat_map(|(_, laid)| laid.split(' ')).flat_map(str::parse).collect()
}

fn keep(name: &str, laid: &[usize]) {
    let kept = storage::read(storage::COURSES).unwrap_or_default();
    let numbers: Vec<String> = laid.iter().map(usize::to_string).collect();
    let mut all = format!("{name}\n{}", numbers.join(" "));
    for other in kept.split(NEXT).filter(|kept| !kept.is_empty() && !is_of(kept, name)) {
        all.push(NEXT);
        all.push_str(other);
    }
    let _ = storage::write(storage::COURSES, &all);
}

/// The plan of a course with a slider over all of them.
pub fn courses_view(workspace: Workspace) -> Tag {
    let (open, at) = (RwSignal::new(false), RwSignal::new(0_usize));
    let asked = RwSignal::new(None);
    let plan: Found<DrawnCourse> = RwSignal::new(None);
    let task = Task::asked(workspace, JOB, asked, move |wanted, what| {
        if let Some(told) = DrawnCourse::read(what) {
            plan.set(Some((wanted.generation, Arc::new(told))));
        }
    });
    let room = RwSignal::new(Room::default());
    watch(move || {
        let wanted = order::Job::Plan(workspace.system.get(), at.get(), room.get());
        asked.set((open.get() && 0.0 < room.get().width).then_some(wanted));
    });
    let of = move |what: fn(&DrawnCourse) -> String| {
        move || plan.with(|plan| plan.as_ref().map(|(_, plan)| what(plan)))
    };
    let count =
        move || plan.with(|plan| plan.as_ref().map_or(1, |(_, plan)| plan.count.max(1)));
    let step = move |by: isize| {
        let last = count() - 1;
        move || at.update(|at| *at = at.saturating_add_signed(by).min(last))
    };
    let slider = tag("input")
        .attr("type", "range")
        .attr("min", "1")
        .attr("aria-label", texts::course())
        .live_attr("max", move || Some(count().to_string()))
        .live_attr("aria-valuetext", of(|plan| plan.title.clone()))
        .live_value(move || Some((at.get() + 1).to_string()))
        .on("input", move |event| {
            if let Ok(number) = value_of(&event).parse::<usize>() {
                at.set(number.saturating_sub(1));
            }
        });
    let row = tag("div")
        .class("course-row")
        .child(button(move || step(-1)()).text(texts::course_below()))
        .child(slider)
        .child(button(move || step(1)()).text(texts::course_above()))
        .child(laid(workspace, at));
    // A heading without a word would stand there until the plan is told.
    let title = tag("h3")
        .live_attr("hidden", move || plan.with(Option::is_none).then(String::new))
        .live_text(of(|plan| plan.title.clone()));
    let view = tag("div")
        .child(title)
        .child(picture(plan, room))
        .child(tag("p").live_text(of(|plan| plan.counted.clone())));
    let details = tag("details").class("twin").attr("data-testid", "course-plan");
    let element = details.element().clone();
    details
        .on("toggle", move |_| open.set(element.has_attribute("open")))
        .child(tag("summary").text(texts::course_plan()))
        .child(row)
        .child(state(task, "course-plan"))
        .child(graying(task, plan, view))
}

/// A box to tick when the course is laid.
fn laid(workspace: Workspace, at: RwSignal<usize>) -> Tag {
    let name = move || workspace.design.with(|design| design.name.clone());
    let done = RwSignal::new(Vec::new());
    watch(move || done.set(ticked(&name())));
    let press = move || {
        done.update(|done: &mut Vec<usize>| {
            let here = at.get_untracked() + 1;
            if done.contains(&here) {
                done.retain(|each| *each != here);
            } else {
                done.push(here);
            }
        });
        let name = workspace.design.with_untracked(|design| design.name.clone());
        done.with_untracked(|done| keep(&name, done));
    };
    button(press)
        .live_attr("aria-pressed", move || {
            Some(done.with(|done| done.contains(&(at.get() + 1))).to_string())
        })
        .text(texts::course_laid())
}

/// The plan, and the room that it has.
fn picture(plan: Found<DrawnCourse>, room: RwSignal<Room>) -> Tag {
    let drawing = svg("svg")
        .class("sketch course-plan")
        .attr("role", "img")
        .attr("aria-label", texts::course_plan());
    let element = drawing.element().clone();
    let measured = element.clone();
    watch_size(&element, move || {
        let now = sketch::Room::of(&measured).unwrap_or_default();
        let (width, text) = (now.width, now.text);
        let now = Room { width, height: now.height.unwrap_or(width), text };
        if room.get_untracked() != now {
            room.set(now);
        }
    });
    watch(move || {
        plan.with(|plan| {
            let Some((_, plan)) = plan else { return };
            element.set_text_content(None);
            let frame: Vec<String> = plan.frame.iter().map(f64::to_string).collect();
            let filled = Tag::from(element.clone())
                .attr("viewBox", &frame.join(" "))
                .attr("aria-label", &plan.description);
            let strokes = plan
                .strokes
                .iter()
                .map(|(kind, path)| svg("g").class(kind).child(svg("path").attr("d", path)));
            let written = plan.texts.iter().map(|(kind, (place, text))| {
                svg("g").class(kind).child(writing(place, text, plan.text_size))
            });
            let _ = filled.children(strokes).children(written);
        });
    });
    drawing
}

fn writing(place: &str, text: &str, size: f64) -> Tag {
    let mut parts = place.split(' ');
    let mut next = || parts.next().unwrap_or_default();
    let (x, y, anchor, degrees) = (next(), next(), next(), next());
    svg("text")
        .attr("x", x)
        .attr("y", y)
        .attr("text-anchor", anchor)
        .attr("font-size", &size.to_string())
        .attr("transform", &format!("rotate({degrees} {x} {y})"))
        .text(text)
}
