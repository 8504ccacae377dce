//! Time of a whole firing day, first fire and the day that repeats: the demonstration and the
//! same heater with six runs, its excess air held and following the draft.
//! `cargo bench --bench day`, or `cargo bench --bench day -- --quick`.

use longsmoke::analysis::day::{Setup, day};
use longsmoke::design::{AirControl, Design};
use std::hint::black_box;
use std::io::Write as _;
use std::time::{Duration, Instant};

fn main() -> std::io::Result<()> {
    let quick = std::env::args().any(|argument| argument == "--quick");
    let samples = if quick { 3 } else { 21 };
    let demonstration = Design::demonstration();
    let mut six_runs = demonstration.clone();
    six_runs.path.run_count = 6;
    for (name, design) in [("demonstration", demonstration), ("six runs", six_runs)] {
        for (control, air) in
            [("air held", AirControl::Held), ("air by draft", AirControl::Draft)]
        {
            let mut design = design.clone();
            design.fire.air = air;
            report(&format!("{name}, {control}"), &design, samples)?;
        }
    }
    Ok(())
}

/// Writes the median time of a day, with the fastest and the slowest.
fn report(name: &str, design: &Design, samples: usize) -> std::io::Result<()> {
    let mut times: Vec<Duration> = (0..samples)
        .map(|_| {
            let start = Instant::now();
            drop(black_box(day(black_box(design), &Setup::STANDARD)));
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    let at = |place: usize| times.get(place).map_or(0.0, |time| time.as_secs_f64() * 1e3);
    let (median, fastest, slowest) = (at(samples / 2), at(0), at(samples - 1));
    writeln!(std::io::stdout(), "{name:<28}{median:>8.1} ms   ({fastest:.1} to {slowest:.1})")
}
