//! Time of one analysis at the height of the fire, natural flows included: the demonstration,
//! and the same heater with 1, 5 and 10 runs; of the strip and of the spreads on one processor. `cargo bench`, or `cargo bench -- --quick`.

use longsmoke::analysis::analyze;
use longsmoke::design::Design;
use longsmoke::rules::check;
use longsmoke::study::strip::Strip;
use longsmoke::study::uncertainty::{Plan, Setup};
use std::hint::black_box;
use std::io::Write as _;
use std::time::{Duration, Instant};

fn main() -> std::io::Result<()> {
    let quick = std::env::args().any(|argument| argument == "--quick");
    let samples = if quick { 11 } else { 501 };
    let demonstration = Design::demonstration();
    report("demonstration, analysis", samples, || drop(black_box(analyze(&demonstration))))?;
    for runs in [1, 5, 10] {
        let mut design = demonstration.clone();
        design.path.run_count = runs;
        let name = format!("{runs} runs, analysis");
        report(&name, samples, || drop(black_box(analyze(&design))))?;
    }
    if let Ok(analysis) = analyze(&demonstration) {
        report("demonstration, findings", samples, || {
            drop(black_box(check(&demonstration, &analysis)));
        })?;
    }
    report("strip of ten", (samples / 10).max(5), || {
        Strip::new(&demonstration).for_each(|column| {
            black_box(column);
        });
    })?;
    let standard = || Plan::new(&demonstration, Setup::standard(Setup::ENOUGH));
    report("500 samples, planned", (samples / 10).max(5), || drop(black_box(standard())))?;
    report("500 samples, computed", (samples / 50).max(3), || {
        let plan = standard();
        let samples: Vec<_> = plan.samples().collect();
        black_box(plan.sum_up(&samples));
    })
}

/// Writes the median time of a call, with the tenth and the ninetieth in a hundred.
fn report(name: &str, samples: usize, mut call: impl FnMut()) -> std::io::Result<()> {
    call();
    let mut times: Vec<Duration> = (0..samples.max(1))
        .map(|_| {
            let start = Instant::now();
            call();
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    let at = |tenths: usize| {
        let place = times.len() * tenths / 10;
        times.get(place).map_or(0.0, |time| time.as_secs_f64() * 1e6)
    };
    writeln!(std::io::stdout(), "{name:<26}{:>10.1} µs   ({:.1} to {:.1})", at(5), at(1), at(9))
}
