//! Proves that bricks and joints fill the masonry: shared by tests and page.
//!
//! Faults are what must never be; places are where the geometry leaves no better way, for a mason
//! to look at.

use super::lattice::{Rect, Region, steps};
use super::laying::{OVERHANG, overhang};
use super::{Clear, Course, Kind, Opening, Part, Plans, Space, Through};

/// Where something was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spot {
    /// The part.
    pub part: Part,
    /// Which of its bodies.
    pub body: usize,
    /// The course, by its number.
    pub course: usize,
    /// The place in plan.
    pub rect: Rect,
}

/// What must never be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fault {
    /// Two pieces take the same place.
    Overlap(Spot),
    /// A piece stands outside of the masonry.
    Outside(Spot),
    /// Neither piece nor joint.
    Hole(Spot),
    /// A piece in the way of the gas.
    Blocked(Spot, Space),
    /// A course does not begin where the one below it ends.
    Gap(Spot),
    /// A body begins neither on the base nor on other masonry.
    Hanging(Spot),
    /// Pieces of two bodies take the same place.
    Crossing(Spot),
    /// Masonry in the way through an opening.
    Closed(Spot, Opening),
    /// An opening of less than its section.
    Narrow(Spot, Opening),
}

/// What geometry leaves for a mason to look at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Note {
    /// A joint over a joint, with its lap in steps.
    Unbroken(Spot, i32),
    /// A piece smaller than a quarter of a brick.
    Small(Spot),
    /// A piece that stands out from what carries it, in steps.
    Overhang(Spot, i32),
}

/// What the checker found.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Report {
    /// What must never be; empty.
    pub faults: Vec<Fault>,
    /// What to look at.
    pub notes: Vec<Note>,
}

/// Checks all courses.
pub fn check(plans: &Plans) -> Report {
    let mut report = Report::default();
    let base = plans.courses.iter().map(|course| course.bottom).min().unwrap_or(0);
    for course in &plans.courses {
        filled(course, &mut report);
        clear(course, &plans.clear, &mut report);
        open(course, &plans.through, &mut report);
        small(course, plans, &mut report);
    }
    for part in Part::ALL {
        for body in 0.. {
            let own = plans.courses.iter().filter(|c| c.part == part && c.body == body);
            let mut own: Vec<&Course> = own.collect();
            own.sort_by_key(|course| course.number);
            let Some(lowest) = own.first() else {
                break;
            };
            standing(lowest, plans, base, &mut report);
            for (below, above) in own.iter().zip(own.iter().skip(1)) {
                if below.top() != above.bottom {
                    let rect = above.region.bounds().unwrap_or(Rect::new(0, 0, 0, 0));
                    report.faults.push(Fault::Gap(spot(above, rect)));
                }
                // Across a slab or on a floor joints may lie over joints.
                if above.in_level > 0 {
                    bonded(below, above, &mut report);
                }
            }
        }
    }
    carried(plans, base, &mut report);
    crossing(plans, &mut report);
    report
}

const fn spot(course: &Course, rect: Rect) -> Spot {
    Spot { part: course.part, body: course.body, course: course.number, rect }
}

/// Pieces lie in the masonry, apart from each other, and leave nothing wider than a joint, beside
/// them or below.
fn filled(course: &Course, report: &mut Report) {
    let mut rest = course.region.clone();
    for piece in &course.pieces {
        let mut own = Region::from(piece.rect);
        for hole in &piece.holes {
            own.cut(*hole);
        }
        for rect in own.rects() {
            let left = rest.within(*rect).area();
            if left < rect.area() {
                let is_inside = course.region.covers(*rect);
                let fault = if is_inside { Fault::Overlap } else { Fault::Outside };
                report.faults.push(fault(spot(course, *rect)));
            }
            rest.cut(*rect);
        }
    }
    let thick = rest.thick(course.widest).filter(|_| course.height > 0);
    let bed = course.region.bounds().filter(|_| course.widest < course.bed);
    report.faults.extend(thick.or(bed).map(|rect| Fault::Hole(spot(course, rect))));
}

/// No masonry where the gas goes.
fn clear(course: &Course, spaces: &[Clear], report: &mut Report) {
    for space in spaces {
        let is_beside = space.top <= course.bottom || course.top() <= space.bottom;
        let within = course.region.within(space.rect);
        if !is_beside && let Some(rect) = within.rects().first() {
            report.faults.push(Fault::Blocked(spot(course, *rect), space.space));
        }
    }
}

/// Openings go through all that lies in their way, as large as they must be.
fn open(course: &Course, all: &[Through], report: &mut Report) {
    for through in all {
        let Through { opening, way, rect, bottom, top, area } = *through;
        let within = course.region.within(rect);
        let is_beside = top <= course.bottom || course.top() <= bottom;
        if let Some(rect) = within.rects().first().filter(|_| !is_beside) {
            report.faults.push(Fault::Closed(spot(course, *rect), opening));
        }
        let begins =
            course.bottom == bottom && course.open.iter().any(|(of, _)| *of == opening);
        let section = i64::from(way.other().turn(rect).width()) * i64::from(top - bottom);
        if begins && area.is_some_and(|area| section < area) {
            report.faults.push(Fault::Narrow(spot(course, rect), opening));
        }
    }
}

fn small(course: &Course, plans: &Plans, report: &mut Report) {
    let bricks = plans.bricks;
    let brick = if course.part == Part::Facing { bricks.facing } else { bricks.core };
    let Some(brick) = brick else { return };
    let joint = steps(brick.joint);
    // A quarter of a brick by length, and of a brick laid across by width.
    let least = |size: f64| (steps(size) - 3 * joint) / 4;
    for piece in course.pieces.iter().filter(|piece| piece.kind == Kind::Brick) {
        let [length, width, height] = piece.size;
        let is_small = length < least(brick.size.length)
            || width < least(brick.size.width)
            || height < least(brick.size.height);
        if is_small {
            report.notes.push(Note::Small(spot(course, piece.rect)));
        }
    }
}

/// Joints of a course against those of the course below that run the same way.
fn bonded(below: &Course, above: &Course, report: &mut Report) {
    let notes =
        unbroken(below, above).map(|(rect, lap)| Note::Unbroken(spot(above, rect), lap));
    report.notes.extend(notes);
}

/// Joints of a course that do not keep away from those of the course below, each with its lap.
pub(super) fn unbroken<'a>(
    below: &'a Course,
    above: &'a Course,
) -> impl Iterator<Item = (Rect, i32)> + 'a {
    above.joints.iter().filter_map(|upper| {
        let near = below.joints.iter().filter(|lower| lower.way == upper.way);
        let laps = near.filter_map(|lower| {
            let (a, b) = (upper.way.turn(upper.rect), lower.way.turn(lower.rect));
            let shared = a.back.min(b.back) - a.front.max(b.front);
            let lap = (a.left - b.right).max(b.left - a.right).max(0);
            (above.widest < shared && lap < upper.lap.min(lower.lap)).then_some(lap)
        });
        laps.min().map(|lap| (upper.rect, lap))
    })
}

/// What ends where a course begins.
fn support(plans: &Plans, course: &Course) -> Region {
    let mut support = Region::default();
    for other in plans.courses.iter().filter(|other| other.top() == course.bottom) {
        for rect in other.region.rects() {
            support.add(*rect);
        }
    }
    support
}

/// The lowest pieces of a body lie on the base or on other masonry, but for those of a cap that span.
fn standing(lowest: &Course, plans: &Plans, base: i32, report: &mut Report) {
    if lowest.bottom <= base {
        return;
    }
    let support = support(plans, lowest);
    let hanging = lowest.pieces.iter().filter(|piece| support.within(piece.rect).is_empty());
    let spans = lowest.part == Part::Cap && hanging.clone().count() < lowest.pieces.len();
    let found = hanging.take(usize::from(!spans));
    report.faults.extend(found.map(|piece| Fault::Hanging(spot(lowest, piece.rect))));
}

/// Every piece lies on the base or on courses that end where its own begins.
fn carried(plans: &Plans, base: i32, report: &mut Report) {
    for course in plans.courses.iter().filter(|course| base < course.bottom) {
        let support = support(plans, course);
        for piece in &course.pieces {
            let by = overhang(piece.rect, &support);
            if steps(OVERHANG) < by {
                report.notes.push(Note::Overhang(spot(course, piece.rect), by));
            }
        }
    }
}

/// Bodies do not take each other's place.
fn crossing(plans: &Plans, report: &mut Report) {
    let courses = &plans.courses;
    for (index, one) in courses.iter().enumerate() {
        let others = courses
            .iter()
            .skip(index + 1)
            .take_while(|other| other.bottom + other.bed <= one.top());
        for other in others {
            let is_same = one.part == other.part && one.body == other.body;
            let is_beside = other.top() <= one.bottom || one.top() <= other.bottom;
            if is_same || is_beside {
                continue;
            }
            let met = one
                .region
                .rects()
                .iter()
                .find_map(|rect| other.region.within(*rect).rects().first().copied());
            if let Some(rect) = met {
                report.faults.push(Fault::Crossing(spot(other, rect)));
            }
        }
    }
}
