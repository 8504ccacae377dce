//! SI and what is shown: unit systems, conversion, reading and writing of figures.
//!
//! Sole home of 273.15 and 0.3048. It knows kinds of quantity, not what they mean to a heater.

mod feet;
pub mod measure;
mod reading;

pub use reading::{NotANumber, float, parse};

use crate::language::{self, decimal, say};
use serde::{Deserialize, Serialize};
use std::ops::RangeInclusive;

/// 0 °C (K).
pub const ZERO_CELSIUS: f64 = 273.15;
/// 0 °F (K).
const ZERO_FAHRENHEIT: f64 = ZERO_CELSIUS - 160.0 / 9.0;
const METERS_PER_FOOT: f64 = 0.3048;
/// An inch (m).
pub const METERS_PER_INCH: f64 = 0.0254;
const KILOGRAMS_PER_POUND: f64 = 0.45359237;
const WATTS_PER_BTU_HOUR: f64 = 0.29307107;
const PASCALS_PER_INCH_WATER: f64 = 249.08891;
const PASCALS_PER_PSF: f64 =
    KILOGRAMS_PER_POUND * 9.80665 / (METERS_PER_FOOT * METERS_PER_FOOT);

/// Temperature in kelvin from degrees Celsius.
pub const fn kelvin(celsius: f64) -> f64 {
    celsius + ZERO_CELSIUS
}

/// Temperature in degrees Celsius from kelvin, rounded to a billionth so that the way there and
/// back is lossless.
pub const fn celsius(kelvin: f64) -> f64 {
    ((kelvin - ZERO_CELSIUS) * 1e9).round() / 1e9
}

/// Serde form of a temperature: kelvin in memory, degrees Celsius outside.
pub mod in_celsius {
    use serde::{Deserialize as _, Deserializer, Serializer};

    /// Writes degrees Celsius.
    ///
    /// # Errors
    ///
    /// Those of the serializer.
    pub fn serialize<S: Serializer>(kelvin: &f64, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(super::celsius(*kelvin))
    }

    /// Reads degrees Celsius.
    ///
    /// # Errors
    ///
    /// Those of the deserializer.
    pub fn deserialize<'de, D: Deserializer<'de>>(deserializer: D) -> Result<f64, D::Error> {
        f64::deserialize(deserializer).map(super::kelvin)
    }
}

/// Kind of quantity.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// Height, distance, path (m; feet and inches).
    Length,
    /// Size of a part (mm; in).
    Size,
    /// Surface (m2; ft2).
    Area,
    /// Opening (cm2; in2).
    Opening,
    /// Temperature (°C; °F).
    Temperature,
    /// Mass (kg; lb).
    Mass,
    /// Mass of masonry, in whole units (kg; lb).
    Weight,
    /// Power (kW; Btu/h).
    Power,
    /// Energy (kWh; Btu).
    Energy,
    /// Pressure (Pa; in of water).
    Pressure,
    /// Speed (m/s; ft/s).
    Speed,
    /// Duration (min).
    Duration,
    /// Hours of the day (h).
    Hours,
    /// Share (%).
    Share,
    /// Ratio without unit.
    Ratio,
    /// Whole number.
    Count,
    /// Mass flow (g/s; lb/h).
    MassFlow,
    /// Heat loss of a house (W/K; Btu/h°F).
    HeatLoss,
    /// What a weight presses on the ground (kPa; psf).
    Bearing,
}

/// System of units that is shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum System {
    /// Metric.
    #[default]
    Metric,
    /// US customary.
    Us,
}

/// How a quantity is shown in a system.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// Symbol, empty for a bare number and for figures that carry their own marks.
    pub symbol: &'static str,
    /// SI per unit.
    pub factor: f64,
    /// SI value of zero in this unit.
    pub zero: f64,
    /// Decimals shown.
    pub decimals: usize,
}

const fn unit(symbol: &'static str, factor: f64, decimals: usize) -> Unit {
    Unit { symbol, factor, zero: 0.0, decimals }
}

/// The unit of a quantity in a system.
pub const fn unit_of(quantity: Quantity, system: System) -> Unit {
    match (quantity, system) {
        (Quantity::Length, System::Metric) => unit("m", 1.0, 2),
        (Quantity::Length, System::Us) => unit("", METERS_PER_FOOT, 2),
        (Quantity::Size, System::Metric) => unit("mm", 1e-3, 0),
        (Quantity::Size, System::Us) => unit("in", METERS_PER_INCH, 2),
        (Quantity::Area, System::Metric) => unit("m²", 1.0, 2),
        (Quantity::Area, System::Us) => unit("ft²", METERS_PER_FOOT * METERS_PER_FOOT, 1),
        (Quantity::Opening, System::Metric) => unit("cm²", 1e-4, 0),
        (Quantity::Opening, System::Us) => unit("in²", METERS_PER_INCH * METERS_PER_INCH, 1),
        (Quantity::Temperature, System::Metric) => {
            Unit { symbol: "°C", factor: 1.0, zero: ZERO_CELSIUS, decimals: 0 }
        }
        (Quantity::Temperature, System::Us) => {
            Unit { symbol: "°F", factor: 5.0 / 9.0, zero: ZERO_FAHRENHEIT, decimals: 0 }
        }
        (Quantity::Weight, System::Metric) => unit("kg", 1.0, 0),
        (Quantity::Weight, System::Us) => unit("lb", KILOGRAMS_PER_POUND, 0),
        (Quantity::Mass, System::Metric) => unit("kg", 1.0, 1),
        (Quantity::Mass, System::Us) => unit("lb", KILOGRAMS_PER_POUND, 1),
        (Quantity::Power, System::Metric) => unit("kW", 1e3, 1),
        (Quantity::Power, System::Us) => unit("Btu/h", WATTS_PER_BTU_HOUR, 0),
        (Quantity::Energy, System::Metric) => unit("kWh", 3.6e6, 1),
        (Quantity::Energy, System::Us) => unit("Btu", 3600.0 * WATTS_PER_BTU_HOUR, 0),
        (Quantity::Pressure, System::Metric) => unit("Pa", 1.0, 1),
        (Quantity::Pressure, System::Us) => unit("in w.c.", PASCALS_PER_INCH_WATER, 3),
        (Quantity::Speed, System::Metric) => unit("m/s", 1.0, 1),
        (Quantity::Speed, System::Us) => unit("ft/s", METERS_PER_FOOT, 1),
        (Quantity::Duration, _) => unit("min", 60.0, 0),
        (Quantity::Hours, _) => unit("h", 3600.0, 1),
        (Quantity::Share, _) => unit("%", 1e-2, 1),
        (Quantity::Ratio, _) => unit("", 1.0, 2),
        (Quantity::Count, _) => unit("", 1.0, 0),
        (Quantity::MassFlow, System::Metric) => unit("g/s", 1e-3, 1),
        (Quantity::MassFlow, System::Us) => unit("lb/h", KILOGRAMS_PER_POUND / 3600.0, 0),
        (Quantity::Bearing, System::Metric) => unit("kPa", 1e3, 1),
        (Quantity::Bearing, System::Us) => unit("psf", PASCALS_PER_PSF, 0),
        (Quantity::HeatLoss, System::Metric) => unit("W/K", 1.0, 0),
        (Quantity::HeatLoss, System::Us) => unit("Btu/h°F", WATTS_PER_BTU_HOUR * 9.0 / 5.0, 0),
    }
}

/// Value in the shown unit from SI.
pub fn to_shown(value: f64, quantity: Quantity, system: System) -> f64 {
    let unit = unit_of(quantity, system);
    (value - unit.zero) / unit.factor
}

/// Value in SI from the shown unit.
pub fn from_shown(value: f64, quantity: Quantity, system: System) -> f64 {
    let unit = unit_of(quantity, system);
    value * unit.factor + unit.zero
}

/// A figure with its unit, in the digits that suit it.
pub fn figure(value: f64, quantity: Quantity, system: System) -> String {
    with_symbol(number(value, quantity, system), unit_of(quantity, system).symbol)
}

/// A figure without its unit, in the digits that suit it. Lengths in feet and inches carry their
/// marks.
pub fn number(value: f64, quantity: Quantity, system: System) -> String {
    match (quantity, system) {
        (Quantity::Length, System::Us) => feet::length(value),
        (Quantity::Size, System::Us) => feet::size(value),
        _ => {
            let decimals = unit_of(quantity, system).decimals;
            fixed(to_shown(value, quantity, system), decimals)
        }
    }
}

/// A difference of temperatures (K) with its unit.
pub fn difference(kelvins: f64, system: System) -> String {
    let unit = unit_of(Quantity::Temperature, system);
    let symbol = if system == System::Metric { "K" } else { unit.symbol };
    format!("{:.0} {symbol}", kelvins / unit.factor)
}

/// A figure for an input field: all digits that it needs, no more than it has.
pub fn editable(value: f64, quantity: Quantity, system: System) -> String {
    match (quantity, system) {
        (Quantity::Length, System::Us) => feet::editable_length(value),
        (Quantity::Size, System::Us) => feet::editable_size(value),
        _ => {
            let digits = unit_of(quantity, system).decimals + 3;
            decimals(to_shown(value, quantity, system), digits)
        }
    }
}

/// By how much [`editable`] may differ from a value in either system (SI).
pub fn shown_within(value: f64, quantity: Quantity) -> f64 {
    let half = |system: System| {
        let Unit { factor, decimals, .. } = unit_of(quantity, system);
        (0..decimals + 3).fold(0.5 * factor, |digit, _| digit / 10.0)
    };
    let us = match quantity {
        Quantity::Length | Quantity::Size => feet::shown_within(value),
        _ => half(System::Us),
    };
    half(System::Metric).max(us)
}

/// A lower limit with its unit, rounded up to what a person would say, so that it is itself allowed.
pub fn at_least(value: f64, quantity: Quantity, system: System) -> String {
    limit(value, quantity, system, |steps| (steps - HAIR).ceil())
}

/// An upper limit with its unit, rounded down to what a person would say, so that it is itself
/// allowed.
pub fn at_most(value: f64, quantity: Quantity, system: System) -> String {
    limit(value, quantity, system, |steps| (steps + HAIR).floor())
}

/// A range with its unit, its ends rounded inward.
pub fn range(ends: &RangeInclusive<f64>, quantity: Quantity, system: System) -> String {
    let low = at_least(*ends.start(), quantity, system);
    let high = at_most(*ends.end(), quantity, system);
    say!("{low} to {high}")
}

/// Hair by which a limit may miss a whole step, from conversion (steps).
const HAIR: f64 = 1e-6;
/// Share of a limit by which it may be rounded (–).
const ROUNDED_BY: f64 = 0.02;

/// A limit on the coarsest step that changes it little, rounded in whole steps.
fn limit(value: f64, quantity: Quantity, system: System, round: fn(f64) -> f64) -> String {
    if matches!((quantity, system), (Quantity::Length | Quantity::Size, System::Us)) {
        return limit_in_inches(value, quantity, round);
    }
    let unit = unit_of(quantity, system);
    let shown = to_shown(value, quantity, system);
    let rounded = |digits: usize| {
        let tens = (0..digits).fold(1.0, |tens, _| tens * 10.0);
        round(shown * tens) / tens
    };
    let most = unit.decimals + 3;
    let close =
        |digits: &usize| quantity == Quantity::Temperature || is_close(rounded(*digits), shown);
    let digits = (unit.decimals..most).find(close).unwrap_or(most);
    with_symbol(fixed(rounded(digits), digits), unit.symbol)
}

fn limit_in_inches(value: f64, quantity: Quantity, round: fn(f64) -> f64) -> String {
    let rounded = |step: &f64| round(value / step) * step;
    let steps = feet::steps(value);
    let near = steps.iter().map(rounded).find(|rounded| is_close(*rounded, value));
    let Some(fine) = feet::fine_step(value).filter(|_| near.is_none()) else {
        let finest = near.or(steps.last().map(rounded));
        return figure(finest.unwrap_or(value), quantity, System::Us);
    };
    let inches = feet::decimal(rounded(&fine));
    if quantity == Quantity::Size { format!("{inches} in") } else { format!("{inches}\"") }
}

fn is_close(rounded: f64, value: f64) -> bool {
    (rounded - value).abs() <= ROUNDED_BY * value.abs() + f64::MIN_POSITIVE
}

fn with_symbol(number: String, symbol: &str) -> String {
    if symbol.is_empty() { number } else { format!("{number} {symbol}") }
}

/// In so many decimals, as the language writes them.
pub fn fixed(value: f64, decimals: usize) -> String {
    decimal(pointed(value, decimals))
}

/// In so many decimals, with a point.
fn pointed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    // Rounding may leave a minus before zero.
    if text.strip_prefix('-').is_some_and(|rest| rest.chars().all(|c| "0.".contains(c))) {
        text.trim_start_matches('-').into()
    } else {
        text
    }
}

/// A number as [`fixed`] writes it; none where it is none.
pub fn read(text: &str) -> Option<f64> {
    language::point(text).parse().ok()
}

/// In so many decimals at most, as the language writes them.
pub fn decimals(value: f64, most: usize) -> String {
    decimal(trimmed(pointed(value, most)))
}

/// Without zeros behind the point that say nothing.
fn trimmed(text: String) -> String {
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').into()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const ALL: [Quantity; 16] = [
        Quantity::Length,
        Quantity::Size,
        Quantity::Area,
        Quantity::Opening,
        Quantity::Temperature,
        Quantity::Weight,
        Quantity::Mass,
        Quantity::Power,
        Quantity::Pressure,
        Quantity::Speed,
        Quantity::Duration,
        Quantity::Share,
        Quantity::Ratio,
        Quantity::Count,
        Quantity::MassFlow,
        Quantity::HeatLoss,
    ];

    #[track_caller]
    fn reads(text: &str, quantity: Quantity, expected: f64) {
        for system in [System::Metric, System::Us] {
            let value = parse(text, quantity, system).unwrap_or(f64::NAN);
            assert!((value - expected).abs() <= 1e-9 * expected.abs(), "{text}: {value}");
        }
    }

    #[test]
    fn reads_what_people_type() {
        let size = |text| parse(text, Quantity::Size, System::Us).unwrap() / METERS_PER_INCH;
        for (text, inches) in [
            ("1 1/2\"", 1.5),
            ("1-1/2", 1.5),
            ("3'6\"", 42.0),
            ("3'-6\"", 42.0),
            ("3'", 36.0),
            ("3/4", 0.75),
            ("½", 0.5),
            ("11¼", 11.25),
            ("11 ¾ in", 11.75),
            ("4⅛\"", 4.125),
            ("5 1\u{2044}2", 5.5),
            ("2.5", 2.5),
            ("2,5", 2.5),
        ] {
            assert!((size(text) - inches).abs() < 1e-12, "{text}");
        }
        assert!(
            (parse("0,38", Quantity::Length, System::Metric).unwrap() - 0.38).abs() < 1e-12
        );
        assert!((parse("-1,5", Quantity::Length, System::Us).unwrap() + 0.4572).abs() < 1e-12);
        for bad in [
            "",
            "abc",
            "1e9",
            "inf",
            "nan",
            "1/0",
            "--3",
            "1 2 3/4/5",
            "1.2.3",
            "3 6",
            "3 kg",
            "3 ft ft",
            "3 in 6 ft",
            "4 m2",
            "°",
            "'",
            "1/2/3",
            ".",
        ] {
            for system in [System::Metric, System::Us] {
                assert_eq!(parse(bad, Quantity::Length, system), Err(NotANumber), "{bad}");
            }
        }
    }

    #[test]
    fn any_unit_of_the_kind_is_read_in_either_system() {
        for text in ["3'6\"", "3\u{2019}6\u{201d}", "3\u{2032} 6\u{2033}", "3ft 6in", "3 ft 6"]
        {
            reads(text, Quantity::Length, 3.5 * 0.3048);
            reads(text, Quantity::Size, 3.5 * 0.3048);
        }
        reads("3 ft. 6 in.", Quantity::Length, 3.5 * 0.3048);
        reads("3' 6½\"", Quantity::Length, 42.5 * 0.0254);
        reads("-3' 6\"", Quantity::Length, -3.5 * 0.3048);
        reads("5 feet 1 1/16 inches", Quantity::Length, 61.0625 * 0.0254);
        reads("150cm", Quantity::Length, 1.5);
        reads("150 CM", Quantity::Size, 1.5);
        reads("280 mm", Quantity::Size, 0.28);
        reads("1,7 m", Quantity::Length, 1.7);
        reads("11 in", Quantity::Size, 11.0 * 0.0254);
        reads("11\u{201d}", Quantity::Size, 11.0 * 0.0254);
        reads("-16 °C", Quantity::Temperature, 257.15);
        reads("212°F", Quantity::Temperature, 373.15);
        reads("30 lb", Quantity::Mass, 30.0 * 0.45359237);
        reads("14kg", Quantity::Mass, 14.0);
        reads("160 cm²", Quantity::Opening, 0.016);
        reads("24 sq in", Quantity::Opening, 24.0 * 0.0254 * 0.0254);
        reads("0.02 in w.c.", Quantity::Pressure, 0.02 * 249.08891);
        reads("4 Pa", Quantity::Pressure, 4.0);
        reads("1.5 h", Quantity::Duration, 5400.0);
        reads("78min", Quantity::Duration, 4680.0);
        reads("17 %", Quantity::Share, 0.17);
        // 1 Btu/h = 0.293 W; 1 K is 9/5 °F.
        reads("100 Btu/h°F", Quantity::HeatLoss, 100.0 * 0.29307107 * 1.8);
    }

    /// Whatever is shown is read again as what it stands for, and shown alike.
    #[test]
    fn what_is_shown_is_read_again() {
        for quantity in ALL {
            for system in [System::Metric, System::Us] {
                for step in 0..2000 {
                    let shown = f64::from(step * step) * 1e-3;
                    let value = from_shown(shown, quantity, system);
                    let text = figure(value, quantity, system);
                    let again = parse(&text, quantity, system).unwrap();
                    assert_eq!(figure(again, quantity, system), text, "{shown} {quantity:?}");
                    let text = editable(value, quantity, system);
                    let again = parse(&text, quantity, system).unwrap();
                    assert_eq!(editable(again, quantity, system), text, "{shown} {quantity:?}");
                    let is_length = matches!(quantity, Quantity::Length | Quantity::Size);
                    assert!(!is_length || (again - value).abs() < 5e-4, "{text}");
                }
            }
        }
    }

    #[test]
    fn lengths_in_us_units_are_feet_inches_and_sixteenths() {
        let inches = |inches: f64| inches * METERS_PER_INCH;
        for (value, length, size) in [
            (59.0625, "4' 11 1/16\"", "59 1/16 in"),
            (11.0625, "11 1/16\"", "11 1/16 in"),
            (36.0, "3' 0\"", "36 in"),
            (47.99, "4' 0\"", "48 in"),
            (0.75, "3/4\"", "3/4 in"),
            (0.0, "0\"", "0 in"),
            (-18.5, "-1' 6 1/2\"", "-18 1/2 in"),
            // Sixteenths would be too coarse.
            (0.24, "0.24\"", "0.24 in"),
            (25200.0, "2100 ft", "25200 in"),
        ] {
            assert_eq!(figure(inches(value), Quantity::Length, System::Us), length);
            assert_eq!(figure(inches(value), Quantity::Size, System::Us), size);
        }
        for (meters, length, size) in [
            // 59 1/16 in are 1.5001875 m.
            (1.50019, "4' 11 1/16\"", "59 1/16"),
            (1.50, "59.055\"", "59.055"),
            (0.006, "0.236\"", "0.236"),
            (640.0, "2099.738 ft", "25196.85"),
        ] {
            assert_eq!(editable(meters, Quantity::Length, System::Us), length);
            assert_eq!(editable(meters, Quantity::Size, System::Us), size);
        }
    }

    #[test]
    fn limits_are_rounded_inward_to_what_one_would_say() {
        let metric = |value| at_least(value, Quantity::Size, System::Metric);
        assert_eq!(metric(0.1), "100 mm");
        assert_eq!(metric(0.0003), "0.3 mm");
        assert_eq!(range(&(0.2..=4.0), Quantity::Length, System::Metric), "0.20 m to 4.00 m");
        // 7.874 in, 13 ft 1.48 in; 2.362 in, 31.496 in.
        assert_eq!(range(&(0.2..=4.0), Quantity::Length, System::Us), "8\" to 13' 1\"");
        assert_eq!(range(&(0.06..=0.8), Quantity::Size, System::Us), "2 3/8 in to 31 in");
        assert_eq!(range(&(0.0..=4000.0), Quantity::Length, System::Us), "0\" to 13123 ft");
        let cold = range(&(kelvin(-50.0)..=kelvin(35.0)), Quantity::Temperature, System::Us);
        assert_eq!(cold, "-58 °F to 95 °F");
        for quantity in ALL {
            for system in [System::Metric, System::Us] {
                for step in 1..500 {
                    let value = f64::from(step) * f64::from(step) * 1e-4;
                    let read = |text: &str| parse(text, quantity, system).unwrap();
                    let (low, high) =
                        (at_least(value, quantity, system), at_most(value, quantity, system));
                    let hair = 1e-9 * value;
                    assert!(value - hair <= read(&low), "{low} {value} {quantity:?}");
                    assert!(read(&high) <= value + hair, "{high} {value} {quantity:?}");
                }
            }
        }
    }

    #[test]
    fn temperatures_go_round_without_loss() {
        for t in [-16.0, 0.0, 20.0, 399.9] {
            assert_eq!(celsius(kelvin(t)).to_bits(), f64::to_bits(t));
        }
        assert_eq!(figure(kelvin(100.0), Quantity::Temperature, System::Us), "212 °F");
        assert_eq!(difference(100.0, System::Us), "180 °F");
        assert_eq!(difference(100.0, System::Metric), "100 K");
        assert_eq!(figure(-0.01, Quantity::Pressure, System::Metric), "0.0 Pa");
    }
}
