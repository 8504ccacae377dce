//! Times of what the independent Python models compute as well, with what the day comes to, as JSON
//! for `tests/reference/speed.py`: the height of the fire with all its natural flows, the firing day
//! from cold and as it repeats.

#[expect(clippy::unwrap_used, clippy::indexing_slicing, reason = "files of this repository")]
#[path = "../tests/day_designs.rs"]
mod day_designs;

use longsmoke::analysis::analyze;
use longsmoke::analysis::day::{Resolution, day};
use longsmoke::design::document;
use serde_json::{Value, json};
use std::hint::black_box;
use std::io::Write as _;
use std::path::Path;
use std::time::Instant;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let quick = std::env::args().any(|argument| argument == "--quick");
    let (flows, days) = if quick { (11, 3) } else { (201, 21) };
    let mut heights = serde_json::Map::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/designs");
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        let design = document::read(&std::fs::read_to_string(&path)?)?.design;
        let seconds = median(flows, || drop(black_box(analyze(black_box(&design)))));
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        heights.insert(name, json!(seconds));
    }
    let mut found = serde_json::Map::new();
    for name in day_designs::NAMES {
        let (design, setup) = day_designs::read(name, Resolution::STANDARD);
        let seconds = median(days, || drop(black_box(day(black_box(&design), &setup))));
        let day = day(&design, &setup)?;
        let energies = |state| serde_json::to_value(state).unwrap_or(Value::Null);
        let energy = json!({
            "first_fire": energies(day.first_fire.energy),
            "periodic": energies(day.periodic.energy),
        });
        found.insert(name.to_owned(), json!({ "seconds": seconds, "energy": energy }));
    }
    let told = json!({
        "height_of_fire": heights,
        "day": found,
        "most_memory_kilobytes": most_memory(),
    });
    writeln!(std::io::stdout(), "{told}")?;
    Ok(())
}

/// Most memory that this program has held (kB), where the system tells.
fn most_memory() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    line.split_whitespace().next()?.parse().ok()
}

/// Median time of a call (s).
fn median(samples: usize, mut call: impl FnMut()) -> f64 {
    call();
    let mut times: Vec<f64> = (0..samples)
        .map(|_| {
            let start = Instant::now();
            call();
            start.elapsed().as_secs_f64()
        })
        .collect();
    times.sort_unstable_by(f64::total_cmp);
    times.get(samples / 2).copied().unwrap_or(f64::NAN)
}
