//! Reading of what people type.

use super::{
    KILOGRAMS_PER_POUND, METERS_PER_FOOT, METERS_PER_INCH, PASCALS_PER_INCH_WATER,
    PASCALS_PER_PSF, Quantity, System, WATTS_PER_BTU_HOUR, ZERO_CELSIUS, ZERO_FAHRENHEIT,
    from_shown,
};
use lexical_parse_float::FromLexical as _;

/// A text that is not a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not a number")]
pub struct NotANumber;

/// Value in SI from what a person typed.
///
/// Accepts a decimal point or comma, fractions such as `1 1/2`, `1-1/2` and `1½`, and any unit of the
/// same kind of quantity: `150cm`, `11 in`, `3'6"`, `3 ft 6`, with plain or typographic marks.
/// Without a unit the shown one is meant.
///
/// # Errors
///
/// [`NotANumber`] for anything else.
pub fn parse(text: &str, quantity: Quantity, system: System) -> Result<f64, NotANumber> {
    let text = plain(text);
    let text = text.trim();
    let (sign, text) = match text.strip_prefix(['-', '+']) {
        Some(rest) => (if text.starts_with('-') { -1.0 } else { 1.0 }, rest.trim_start()),
        None => (1.0, text),
    };
    let (value, unit) = number(text).ok_or(NotANumber)?;
    let unit = unit.trim();
    if unit.is_empty() {
        return Ok(from_shown(sign * value, quantity, system));
    }
    if matches!(quantity, Quantity::Length | Quantity::Size) {
        return length(value, unit).map(|meters| sign * meters).ok_or(NotANumber);
    }
    let spelling = spelling(unit);
    let known = units(quantity).iter().find(|(name, ..)| *name == spelling);
    known.map(|(_, factor, zero)| sign * value * factor + zero).ok_or(NotANumber)
}

/// With the marks and signs of a plain keyboard.
fn plain(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            ',' => plain.push('.'),
            '\u{2212}' | '\u{2010}'..='\u{2014}' => plain.push('-'),
            '\u{2018}' | '\u{2019}' | '\u{2032}' | '\u{02b9}' | '\u{00b4}' => plain.push('\''),
            '\u{201c}' | '\u{201d}' | '\u{2033}' | '\u{02ba}' => plain.push('"'),
            '\u{2044}' | '\u{2215}' => plain.push('/'),
            c if c.is_whitespace() => plain.push(' '),
            c => match fraction_of(c) {
                Some(fraction) => {
                    plain.push(' ');
                    plain.push_str(fraction);
                }
                None => plain.push(c),
            },
        }
    }
    plain.replace("''", "\"")
}

const fn fraction_of(c: char) -> Option<&'static str> {
    Some(match c {
        '½' => "1/2",
        '⅓' => "1/3",
        '⅔' => "2/3",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        _ => return None,
    })
}

/// A number without sign at the start of a text, with its fraction, and what follows.
fn number(text: &str) -> Option<(f64, &str)> {
    let (first, rest) = digits(text)?;
    if let Some((denominator, rest)) = rest.strip_prefix('/').and_then(digits) {
        return quotient(first, denominator).map(|value| (value, rest));
    }
    // `1 1/2` and `1-1/2`.
    let part = rest.strip_prefix('-').unwrap_or(rest).trim_start();
    let part =
        digits(part).filter(|_| part.len() < rest.len()).and_then(|(numerator, rest)| {
            let (denominator, rest) = digits(rest.strip_prefix('/')?)?;
            Some((quotient(numerator, denominator)?, rest))
        });
    Some(part.map_or((first, rest), |(part, rest)| (first + part, rest)))
}

fn quotient(numerator: f64, denominator: f64) -> Option<f64> {
    (0.0 < denominator).then(|| numerator / denominator)
}

/// A number as [`f64::from_str`](std::str::FromStr) reads it, to the last bit, but without its
/// table of powers, which is random bytes to a compressor: 10 kB of each program of the page.
pub fn float(text: &str) -> Option<f64> {
    f64::from_lexical(text.as_bytes()).ok()
}

/// Digits with at most one point, and what follows. `float` alone would also take `inf` and `1e9`.
fn digits(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    let (digits, rest) = text.split_at_checked(end)?;
    float(digits).map(|value| (value, rest))
}

const FEET: [&str; 4] = ["'", "feet", "foot", "ft"];
const INCHES: [&str; 4] = ["\"", "inches", "inch", "in"];
const METRIC: [(&str, f64); 3] = [("mm", 1e-3), ("cm", 1e-2), ("m", 1.0)];

/// A length (m) from its number and what follows: a unit, after feet also inches.
fn length(value: f64, text: &str) -> Option<f64> {
    let text = text.to_ascii_lowercase();
    if let Some(rest) = without(&text, &FEET) {
        let rest = rest.strip_prefix('-').unwrap_or(rest).trim_start();
        let feet = value * METERS_PER_FOOT;
        if rest.is_empty() {
            return Some(feet);
        }
        let (inches, unit) = number(rest)?;
        let ends = unit.trim().is_empty() || without(unit.trim(), &INCHES) == Some("");
        return ends.then_some(feet + inches * METERS_PER_INCH);
    }
    if without(&text, &INCHES) == Some("") {
        return Some(value * METERS_PER_INCH);
    }
    METRIC.iter().find(|(name, _)| *name == text).map(|(_, factor)| value * factor)
}

/// A text without the unit at its start, and without the period of an abbreviation.
fn without<'a>(text: &'a str, units: &[&str]) -> Option<&'a str> {
    let rest = units.iter().find_map(|unit| text.strip_prefix(unit))?;
    Some(rest.strip_prefix('.').unwrap_or(rest).trim_start())
}

/// A unit in small letters, without spaces, periods and degree signs, powers as plain digits.
fn spelling(unit: &str) -> String {
    let letters =
        unit.chars().filter(|c| !matches!(c, ' ' | '.' | '°' | 'º' | '·' | '(' | ')'));
    letters.map(|c| if c == '²' { '2' } else { c.to_ascii_lowercase() }).collect()
}

const FT2: f64 = METERS_PER_FOOT * METERS_PER_FOOT;
const IN2: f64 = METERS_PER_INCH * METERS_PER_INCH;
const BTU: f64 = WATTS_PER_BTU_HOUR;
const POUND: f64 = KILOGRAMS_PER_POUND;

/// Units of a kind of quantity: spelling, SI per unit, SI value of zero.
const fn units(quantity: Quantity) -> &'static [(&'static str, f64, f64)] {
    match quantity {
        Quantity::Area | Quantity::Opening => &[
            ("mm2", 1e-6, 0.0),
            ("cm2", 1e-4, 0.0),
            ("m2", 1.0, 0.0),
            ("in2", IN2, 0.0),
            ("sqin", IN2, 0.0),
            ("ft2", FT2, 0.0),
            ("sqft", FT2, 0.0),
        ],
        Quantity::Temperature => {
            &[("c", 1.0, ZERO_CELSIUS), ("f", 5.0 / 9.0, ZERO_FAHRENHEIT), ("k", 1.0, 0.0)]
        }
        Quantity::Mass | Quantity::Weight => {
            &[("kg", 1.0, 0.0), ("g", 1e-3, 0.0), ("lb", POUND, 0.0), ("lbs", POUND, 0.0)]
        }
        Quantity::Power => {
            &[("w", 1.0, 0.0), ("kw", 1e3, 0.0), ("btu/h", BTU, 0.0), ("btu/hr", BTU, 0.0)]
        }
        Quantity::Energy => &[("j", 1.0, 0.0), ("kwh", 3.6e6, 0.0), ("btu", 3600.0 * BTU, 0.0)],
        Quantity::Pressure => &[
            ("pa", 1.0, 0.0),
            ("hpa", 1e2, 0.0),
            ("mbar", 1e2, 0.0),
            ("inwc", PASCALS_PER_INCH_WATER, 0.0),
            ("inh2o", PASCALS_PER_INCH_WATER, 0.0),
        ],
        Quantity::Speed => &[("m/s", 1.0, 0.0), ("ft/s", METERS_PER_FOOT, 0.0)],
        Quantity::Duration | Quantity::Hours => {
            &[("s", 1.0, 0.0), ("min", 60.0, 0.0), ("h", 3600.0, 0.0), ("hr", 3600.0, 0.0)]
        }
        Quantity::Share => &[("%", 1e-2, 0.0)],
        // A bare number; lengths are read by `length`.
        Quantity::Ratio | Quantity::Count | Quantity::Length | Quantity::Size => &[],
        Quantity::MassFlow => &[
            ("g/s", 1e-3, 0.0),
            ("kg/s", 1.0, 0.0),
            ("kg/h", 1.0 / 3600.0, 0.0),
            ("lb/h", POUND / 3600.0, 0.0),
            ("lb/hr", POUND / 3600.0, 0.0),
        ],
        Quantity::Bearing => {
            &[("pa", 1.0, 0.0), ("kpa", 1e3, 0.0), ("psf", PASCALS_PER_PSF, 0.0)]
        }
        Quantity::HeatLoss => &[
            ("w/k", 1.0, 0.0),
            ("btu/hf", BTU * 9.0 / 5.0, 0.0),
            ("btu/hrf", BTU * 9.0 / 5.0, 0.0),
        ],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use oorandom::Rand64;

    #[test]
    fn a_number_is_read_to_the_last_bit_as_std_reads_it() {
        let same = |text: &str| {
            let (ours, theirs) = (float(text), text.parse::<f64>().ok());
            assert_eq!(ours.map(f64::to_bits), theirs.map(f64::to_bits), "{text}");
        };
        // Halfway between two floats, the least ones, the largest, beyond it, and no numbers.
        let hard = "9007199254740993 2.2250738585072011e-308 5e-324 2e-324 1.7976931348623157e308 \
                    1e309 1e23 8.41e21 0 -0.0 007 .5 5. +1 1e5 1E-5 - . 1e 1e+ 0x1 1_0 1,0 1..2 e5";
        hard.split(' ').for_each(same);
        same("");
        same(" 1");
        let mut random = Rand64::new(8);
        for _ in 0..20_000 {
            let number = f64::from_bits(random.rand_u64());
            if number.is_finite() {
                same(&number.to_string());
                same(&format!("{number:.20e}"));
                same(&format!("{:.3}", number.clamp(-1e6, 1e6)));
            }
        }
    }
}
