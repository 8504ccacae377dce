//! Times what a step of a slider computes: analysis with its flow root, findings, and the data of
//! the section. A line of times (ms) for `tools/bench.mjs`, each the mean over one to ten runs.

use longsmoke::analysis::analyze;
use longsmoke::design::Design;
use longsmoke::drawing::section::section;
use longsmoke::rules::check;
use longsmoke::units::System;
use std::hint::black_box;

const ROUNDS: usize = 60;

fn main() {
    let demonstration = Design::demonstration();
    let designs: Vec<Design> = (1..=10)
        .map(|runs| {
            let mut design = demonstration.clone();
            design.path.run_count = runs;
            design
        })
        .collect();
    let round = || {
        let start = now();
        designs.iter().for_each(step);
        (now() - start) / 10.0
    };
    // The first ones are compiled while they run.
    (0..ROUNDS / 4).for_each(|_| {
        black_box(round());
    });
    let times: Vec<String> = (0..ROUNDS).map(|_| round().to_string()).collect();
    say(&times.join(" "));
}

fn step(design: &Design) {
    if let Ok(analysis) = analyze(design) {
        let findings = check(design, &analysis);
        black_box(section(design, &analysis, &findings, System::Metric, 1.0));
    }
}

#[cfg(not(target_arch = "wasm32"))]
fn now() -> f64 {
    use std::sync::LazyLock;
    use std::time::Instant;
    static START: LazyLock<Instant> = LazyLock::new(Instant::now);
    1e3 * START.elapsed().as_secs_f64()
}

#[cfg(not(target_arch = "wasm32"))]
fn say(line: &str) {
    use std::io::Write as _;
    // Who has stopped reading is told nothing.
    let _ = writeln!(std::io::stdout(), "{line}");
}

#[cfg(target_arch = "wasm32")]
fn now() -> f64 {
    use wasm_bindgen::JsCast as _;
    let clock = js_sys::Reflect::get(&js_sys::global(), &"performance".into());
    let now = clock.and_then(|clock| {
        let read = js_sys::Reflect::get(&clock, &"now".into())?;
        read.unchecked_into::<js_sys::Function>().call0(&clock)
    });
    now.ok().and_then(|now| now.as_f64()).unwrap_or_default()
}

#[cfg(target_arch = "wasm32")]
fn say(line: &str) {
    web_sys::console::log_1(&line.into());
}
