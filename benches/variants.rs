//! Time of what the page asks of its workers, on one processor: one to ten runs with a day each, and
//! other designs, until the first is told and until all are, with the pieces of which they consist.
//! `cargo bench --bench variants`, or `cargo bench --bench variants -- --quick`.

use longsmoke::design::Design;
use longsmoke::study::compare::with_runs;
use longsmoke::study::figures::Days;
use longsmoke::study::strip::RUNS;
use longsmoke::study::suggest::{Memory, Part, Suggest, Wish};
use std::collections::BTreeMap;
use std::hint::black_box;
use std::io::Write as _;
use std::time::{Duration, Instant};

fn main() -> std::io::Result<()> {
    let quick = std::env::args().any(|argument| argument == "--quick");
    let samples = if quick { 1 } else { 5 };
    let design = Design::demonstration();
    let mut all = Duration::ZERO;
    for runs in RUNS {
        let design = with_runs(&design, runs);
        let time = fastest(samples, || drop(black_box(Days::new(&design))));
        all += time;
        say(&format!("{runs} runs"), time)?;
    }
    say("one to ten runs", all)?;
    suggest(&design)
}

/// Follows a search, and writes what its pieces cost.
fn suggest(design: &Design) -> std::io::Result<()> {
    let start = Instant::now();
    let mut search = Suggest::new(design, Wish::default());
    let ground = search.ground().clone();
    say("suggest, space", start.elapsed())?;
    let mut pieces: BTreeMap<String, (u32, Duration)> = BTreeMap::new();
    let (mut first, mut memory) = (None, Memory::default());
    loop {
        if let Some(piece) = search.wanted().first() {
            let begun = Instant::now();
            let found = ground.find_with(&mut memory, *piece);
            let words = piece.to_string();
            let kind = words.split(' ').next().unwrap_or_default().to_owned();
            let (count, time) = pieces.entry(kind).or_default();
            *count += 1;
            *time += begun.elapsed();
            search.learn(*piece, found);
        }
        match search.step() {
            Some(Part::Found(_)) => {
                first.get_or_insert_with(|| start.elapsed());
            }
            Some(Part::Done(..)) => {}
            Some(Part::End(_)) | None => break,
        }
    }
    if let Some(first) = first {
        say("suggest, first", first)?;
    }
    say("suggest, all", start.elapsed())?;
    for (kind, (count, time)) in pieces {
        say(&format!("  {count} of {kind}"), time)?;
    }
    Ok(())
}

fn fastest(samples: usize, mut call: impl FnMut()) -> Duration {
    let time = |_| {
        let start = Instant::now();
        call();
        start.elapsed()
    };
    (0..samples).map(time).min().unwrap_or_default()
}

fn say(what: &str, time: Duration) -> std::io::Result<()> {
    writeln!(std::io::stdout(), "{what:<24}{:>10.1} ms", time.as_secs_f64() * 1e3)
}
