//! Every figure of the same designs, for `e2e/same.test.mjs`, which runs this natively and as wasm
//! and compares. A line each, nothing rounded: the design, its analysis with findings and, of some,
//! what a worker tells of its day.

mod drawn;

use drawn::{Range, drawn, set_right};
use longsmoke::analysis::analyze;
use longsmoke::design::field::FIELDS;
use longsmoke::design::{Design, Layout, document};
use longsmoke::rules::check;
use longsmoke::service::order::Job;
use oorandom::Rand64;

const DESIGNS: usize = 200;
/// Of every so many designs one has its day computed.
const DAYS: usize = 5;
const SEED: u128 = 20_250;

fn main() {
    let mut random = Rand64::new(SEED);
    for index in 0..DESIGNS {
        let design = design(index, &mut random);
        say(&document::write(&design, None).replace('\n', " "));
        let analysis = analyze(&design);
        let findings = analysis.as_ref().map(|analysis| check(&design, analysis));
        say(&format!("{analysis:?} {findings:?}"));
        if index % DAYS == 0 {
            Job::Day.news(&design).for_each(|news| say(&news.to_string()));
        }
    }
}

/// By turns of every layout, within what is usual and within what is possible.
fn design(index: usize, random: &mut Rand64) -> Design {
    let range: Range = match index % 2 {
        0 => |number| &number.usual,
        _ => |number| &number.possible,
    };
    let shares: Vec<f64> = FIELDS.iter().map(|_| random.rand_float()).collect();
    let mut design = drawn(range, &shares);
    design.path.layout = match index % 3 {
        0 => Layout::Above,
        1 => Layout::Behind,
        _ => Layout::Bench,
    };
    set_right(&mut design);
    design
}

#[cfg(not(target_arch = "wasm32"))]
fn say(line: &str) {
    use std::io::Write as _;
    // Who has stopped reading is told nothing.
    let _ = writeln!(std::io::stdout(), "{line}");
}

#[cfg(target_arch = "wasm32")]
fn say(line: &str) {
    web_sys::console::log_1(&line.into());
}
