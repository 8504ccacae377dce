//! Lengths in feet, inches and fractions of an inch.

use super::{METERS_PER_FOOT, METERS_PER_INCH, decimals};

/// Finest fraction of an inch: a sixteenth.
const PARTS: f64 = 16.0;
/// Under half an inch sixteenths are too coarse (in).
const FINE: f64 = 0.5;
/// From here on whole feet do (m).
const FAR: f64 = 100.0 * METERS_PER_FOOT;
/// By how much a fraction may differ from what it stands for and still be it (m).
const EXACT: f64 = 5e-5;
/// Finest step of an inch that is shown, in decimals.
const DECIMALS: usize = 3;

/// Feet and inches, `4' 11 1/16"`; whole feet when far.
pub(super) fn length(meters: f64) -> String {
    if meters.abs() < FAR { marked(meters, inches_of(meters)) } else { feet(meters, 0) }
}

/// Inches without their unit, `11 1/16`.
pub(super) fn size(meters: f64) -> String {
    match inches_of(meters) {
        Inches::Parts(parts) => signed(meters, &with_fraction(parts)),
        Inches::Decimal(text) => text,
    }
}

/// A length for an input field: as it is shown where that is exact, else decimal inches.
pub(super) fn editable_length(meters: f64) -> String {
    if FAR <= meters.abs() {
        return feet(meters, DECIMALS);
    }
    match exact(meters) {
        Some(parts) => marked(meters, Inches::Parts(parts)),
        None => format!("{}\"", decimal(meters)),
    }
}

/// A size for an input field: as it is shown where that is exact, else decimal inches.
pub(super) fn editable_size(meters: f64) -> String {
    let parts = exact(meters);
    parts.map_or_else(|| decimal(meters), |parts| signed(meters, &with_fraction(parts)))
}

/// The steps to which a limit may be rounded (m), coarse ones first.
pub(super) fn steps(meters: f64) -> &'static [f64] {
    const FRACTIONS: [f64; 5] = [
        METERS_PER_INCH,
        METERS_PER_INCH / 2.0,
        METERS_PER_INCH / 4.0,
        METERS_PER_INCH / 8.0,
        METERS_PER_INCH / PARTS,
    ];
    if FAR <= meters.abs() { &[METERS_PER_FOOT] } else { &FRACTIONS }
}

/// The step for a limit that fractions would change too much (m).
pub(super) fn fine_step(meters: f64) -> Option<f64> {
    ((meters / METERS_PER_INCH).abs() < FINE).then_some(METERS_PER_INCH / 1000.0)
}

/// What a fraction may differ; half of a thousandth of a foot when far (m).
pub(super) fn shown_within(meters: f64) -> f64 {
    if FAR <= meters.abs() { 0.5e-3 * METERS_PER_FOOT } else { EXACT }
}

/// Inches with decimals, without their unit.
pub(super) fn decimal(meters: f64) -> String {
    decimals(meters / METERS_PER_INCH, DECIMALS)
}

enum Inches {
    /// Whole sixteenths, without sign.
    Parts(i64),
    /// Decimal, with sign.
    Decimal(String),
}

fn inches_of(meters: f64) -> Inches {
    let fine = (meters / METERS_PER_INCH).abs() < FINE && exact(meters).is_none();
    if fine { Inches::Decimal(decimal(meters)) } else { Inches::Parts(parts(meters)) }
}

#[expect(clippy::cast_possible_truncation, reason = "a length is far from 2^63 sixteenths")]
fn parts(meters: f64) -> i64 {
    (meters.abs() / METERS_PER_INCH * PARTS).round() as i64
}

/// Sixteenths, when they are what the length is.
fn exact(meters: f64) -> Option<i64> {
    let near = (meters.abs() / METERS_PER_INCH * PARTS).round() * METERS_PER_INCH / PARTS;
    ((near - meters.abs()).abs() <= EXACT).then(|| parts(meters))
}

fn feet(meters: f64, digits: usize) -> String {
    format!("{} ft", decimals(meters / METERS_PER_FOOT, digits))
}

fn marked(meters: f64, inches: Inches) -> String {
    match inches {
        Inches::Decimal(text) => format!("{text}\""),
        Inches::Parts(parts) => {
            let (feet, rest) = (parts / (12 * 16), parts % (12 * 16));
            let inches = with_fraction(rest);
            let text =
                if feet == 0 { format!("{inches}\"") } else { format!("{feet}' {inches}\"") };
            signed(meters, &text)
        }
    }
}

fn signed(meters: f64, text: &str) -> String {
    if meters < 0.0 && parts(meters) != 0 { format!("-{text}") } else { text.into() }
}

/// Sixteenths in lowest terms: 177 is `11 1/16`.
fn with_fraction(parts: i64) -> String {
    let (whole, mut part, mut of) = (parts / 16, parts % 16, 16);
    while part != 0 && part % 2 == 0 {
        (part, of) = (part / 2, of / 2);
    }
    match (whole, part) {
        (_, 0) => format!("{whole}"),
        (0, _) => format!("{part}/{of}"),
        _ => format!("{whole} {part}/{of}"),
    }
}
