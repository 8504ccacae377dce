//! The tests that look at the library from outside, as one crate.
//!
//! An expected value comes from a publication or from a general-purpose library, never from
//! Longsmoke. Every such number is a [`Check`]; all of them are written to
//! `outside_checks.md` in the target folder.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a failing test may panic"
)]

mod architecture;
mod around;
mod build;
mod compare;
mod courses;
mod day;
mod day_designs;
mod dependencies;
mod documents;
mod drawn;
mod edges;
mod glossary;
mod heat;
mod house;
mod independent;
mod independent_day;
mod language;
mod laws;
mod published;
mod reference;
mod remedies;
mod rules;
mod sources;
mod standard_route;
mod suggest;
mod trials;
mod uncertainty;
mod whole_designs;
mod words;
mod working;

use longsmoke::sources::Trust;
use std::fmt::Write as _;

/// The numbers of one publication or of one reference table beside ours.
struct Publication {
    name: &'static str,
    trust: Trust,
    checks: Vec<Check>,
}

/// One number from outside beside ours.
struct Check {
    what: String,
    expected: String,
    got: String,
    /// Distance from the expected value over the distance that is allowed; good up to 1.
    strain: f64,
    /// Why so much is allowed.
    allowed: String,
    /// Why the two are not expected to agree.
    difference: Option<&'static str>,
}

impl Check {
    /// A number that must round to the printed text: half a unit in its last digit.
    fn rounds_to(what: impl Into<String>, computed: f64, printed: &str) -> Self {
        let (value, half_unit) = printed_value(printed);
        Self {
            what: what.into(),
            expected: printed.into(),
            got: digits(computed),
            // A hair for numbers that lie on the half.
            strain: (computed - value).abs() / (half_unit * (1.0 + 1e-9)),
            allowed: "last digit".into(),
            difference: None,
        }
    }

    /// A number that may leave the printed one by a share of it, for a reason.
    fn within(
        what: impl Into<String>,
        computed: f64,
        printed: &str,
        relative: f64,
        reason: &str,
    ) -> Self {
        let (value, _) = printed_value(printed);
        Self {
            what: what.into(),
            expected: printed.into(),
            got: digits(computed),
            strain: (computed - value).abs() / (relative * value.abs()),
            allowed: format!("{} %: {reason}", digits(relative * 100.0)),
            difference: None,
        }
    }

    /// The largest deviation in a table against its limit.
    fn table(what: &str, worst: &Worst, limit: f64, unit: &str) -> Self {
        let scale = if unit == "%" { 100.0 } else { 1.0 };
        Self {
            what: format!("{what} ({} rows)", worst.rows),
            expected: format!("at most {} {unit}", digits(limit * scale)),
            got: format!("{} {unit} at {}", digits(worst.deviation * scale), worst.at),
            strain: worst.deviation / limit,
            allowed: String::new(),
            difference: None,
        }
    }

    /// `DIFFERENCE:` the two do not agree, and this is why. It fails once they do.
    fn differs(self, cause: &'static str) -> Self {
        Self { difference: Some(cause), ..self }
    }

    fn holds(&self) -> bool {
        (self.strain <= 1.0) != self.difference.is_some() && self.strain.is_finite()
    }
}

/// The largest deviation seen in a table, and where.
#[derive(Default)]
struct Worst {
    deviation: f64,
    at: String,
    rows: usize,
}

impl Worst {
    fn see(&mut self, deviation: f64, at: impl FnOnce() -> String) {
        self.rows += 1;
        // NaN counts as the worst of all.
        if self.rows == 1 || deviation.is_nan() || self.deviation < deviation {
            (self.deviation, self.at) = (deviation, at());
        }
    }

    fn relative(&mut self, computed: f64, expected: f64, at: impl FnOnce() -> String) {
        self.see((computed / expected - 1.0).abs(), at);
    }

    fn absolute(&mut self, computed: f64, expected: f64, at: impl FnOnce() -> String) {
        self.see((computed - expected).abs(), at);
    }
}

/// The value of a printed number and half a unit in its last digit.
fn printed_value(printed: &str) -> (f64, f64) {
    let value = printed.parse().expect("a printed number");
    let (mantissa, exponent) = printed.split_once('e').unwrap_or((printed, "0"));
    let decimals = mantissa.split_once('.').map_or(0, |(_, after)| after.len());
    let exponent: i32 = exponent.parse().expect("an exponent");
    let last = exponent - i32::try_from(decimals).expect("few digits");
    (value, 0.5 * 10.0_f64.powi(last))
}

/// Five significant digits, without an exponent where that is easy to read.
fn digits(value: f64) -> String {
    let text = format!("{value:.4e}");
    let exponent = text.split_once('e').and_then(|(_, exponent)| exponent.parse::<i32>().ok());
    let Some(exponent @ -3..=5) = exponent else {
        return text;
    };
    let decimals = usize::try_from(4 - exponent).unwrap_or(0);
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').into()
    } else {
        text
    }
}

/// Holds a publication to its numbers; all that fail are named at once.
#[track_caller]
fn hold(publication: &Publication) {
    let failures: Vec<String> = publication
        .checks
        .iter()
        .filter(|check| !check.holds())
        .map(|check| {
            format!(
                "{}: {} expected, {} computed ({:.2} times the allowance){}",
                check.what,
                check.expected,
                check.got,
                check.strain,
                check.difference.map_or("", |_| ", yet marked DIFFERENCE"),
            )
        })
        .collect();
    assert!(!publication.checks.is_empty(), "no checks");
    assert!(failures.is_empty(), "{}:\n{}", publication.name, failures.join("\n"));
}

fn report(publications: &[Publication]) -> String {
    let mut text = String::from("# Numbers from outside beside ours\n");
    for publication in publications {
        let trust = match publication.trust {
            Trust::Seen => "seen",
            Trust::Memory => "from memory",
            Trust::CommonPractice => "common practice",
            Trust::Computed => "computed by others",
        };
        let _ = write!(
            text,
            "\n## {} ({trust})\n\n| what | expected | computed | of the allowance | allowed | \
             |\n|---|---|---|---|---|---|\n",
            publication.name
        );
        for check in &publication.checks {
            let note =
                check.difference.map_or(String::new(), |cause| format!("DIFFERENCE: {cause}"));
            let _ = writeln!(
                text,
                "| {} | {} | {} | {:.2} | {} | {note} |",
                check.what, check.expected, check.got, check.strain, check.allowed
            );
        }
    }
    text
}

#[test]
fn the_report_of_all_outside_checks_is_written() {
    let mut publications = published::all();
    publications.extend(reference::all());
    publications.extend([independent::all(), independent_day::all()]);
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
    let target = folder.parent().unwrap_or(folder);
    std::fs::write(target.join("outside_checks.md"), report(&publications)).unwrap();
}

#[test]
fn printed_numbers_are_held_to_half_a_unit_of_their_last_digit() {
    assert!(Check::rounds_to("", 147.49, "147").holds());
    assert!(!Check::rounds_to("", 147.51, "147").holds());
    assert!(Check::rounds_to("", 0.020474, "0.02047").holds());
    assert!(!Check::rounds_to("", 0.020476, "0.02047").holds());
    assert!(Check::rounds_to("", 2.7274e-5, "2.727e-5").holds());
    assert!(!Check::rounds_to("", 2.7276e-5, "2.727e-5").holds());
    assert!(!Check::rounds_to("", f64::NAN, "1").holds());
    assert!(!Check::rounds_to("", 1.0, "1").differs("they agree").holds());
}
