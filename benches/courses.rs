//! Time to lay every brick of a heater with runs 2 m long, to check the courses, and to draw one.
//! `cargo bench --bench courses`, or `-- --quick`.

use longsmoke::courses::brick::Bricks;
use longsmoke::courses::check::check;
use longsmoke::courses::plans;
use longsmoke::design::Design;
use longsmoke::drawing::course::course;
use longsmoke::units::System;
use std::hint::black_box;
use std::io::Write as _;
use std::time::{Duration, Instant};

fn main() -> std::io::Result<()> {
    let quick = std::env::args().any(|argument| argument == "--quick");
    let samples = if quick { 11 } else { 101 };
    let design = Design::demonstration();
    let bricks = Bricks::of(&design);
    let laid = plans(&design, bricks);
    let pieces: usize = laid.courses.iter().map(|course| course.pieces.len()).sum();
    let courses = laid.courses.len();
    writeln!(std::io::stdout(), "{courses} courses, {pieces} pieces")?;
    report("all courses", samples, || drop(black_box(plans(&design, bricks))))?;
    report("checked", samples, || drop(black_box(check(&laid))))?;
    report("one drawn", samples, || {
        drop(black_box(course(&laid, courses / 2, System::Metric, 1.0)));
    })
}

/// Writes the median time of a call, with the tenth and the ninetieth in a hundred.
fn report(name: &str, samples: usize, mut call: impl FnMut()) -> std::io::Result<()> {
    call();
    let mut times: Vec<Duration> = (0..samples)
        .map(|_| {
            let start = Instant::now();
            call();
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    let at = |tenths: usize| {
        let place = times.len() * tenths / 10;
        times.get(place).map_or(0.0, |time| time.as_secs_f64() * 1e3)
    };
    writeln!(std::io::stdout(), "{name:<26}{:>10.2} ms   ({:.2} to {:.2})", at(5), at(1), at(9))
}
