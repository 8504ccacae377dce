//! SI and what is shown: unit systems, conversion, reading and writing of figures.
//!
//! Sole home of 273.15 and 0.3048. It knows kinds of quantity, not what they mean to a heater.

use serde::{Deserialize, Serialize};

/// 0 °C (K).
pub const ZERO_CELSIUS: f64 = 273.15;
const METERS_PER_FOOT: f64 = 0.3048;
const METERS_PER_INCH: f64 = 0.0254;
const KILOGRAMS_PER_POUND: f64 = 0.45359237;
const WATTS_PER_BTU_HOUR: f64 = 0.29307107;
const PASCALS_PER_INCH_WATER: f64 = 249.08891;

/// Temperature in kelvin from degrees Celsius.
pub fn kelvin(celsius: f64) -> f64 {
    celsius + ZERO_CELSIUS
}

/// Temperature in degrees Celsius from kelvin, rounded to a billionth so that the way there and
/// back is lossless.
pub fn celsius(kelvin: f64) -> f64 {
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
    /// Height, distance, path (m; ft).
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
    /// Power (kW; Btu/h).
    Power,
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
    /// Symbol, empty for a bare number.
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
        (Quantity::Length, System::Us) => unit("ft", METERS_PER_FOOT, 2),
        (Quantity::Size, System::Metric) => unit("mm", 1e-3, 0),
        (Quantity::Size, System::Us) => unit("in", METERS_PER_INCH, 2),
        (Quantity::Area, System::Metric) => unit("m²", 1.0, 2),
        (Quantity::Area, System::Us) => unit("ft²", METERS_PER_FOOT * METERS_PER_FOOT, 1),
        (Quantity::Opening, System::Metric) => unit("cm²", 1e-4, 0),
        (Quantity::Opening, System::Us) => unit("in²", METERS_PER_INCH * METERS_PER_INCH, 1),
        (Quantity::Temperature, System::Metric) => {
            Unit { symbol: "°C", factor: 1.0, zero: ZERO_CELSIUS, decimals: 0 }
        }
        (Quantity::Temperature, System::Us) => Unit {
            symbol: "°F",
            factor: 5.0 / 9.0,
            zero: ZERO_CELSIUS - 160.0 / 9.0,
            decimals: 0,
        },
        (Quantity::Mass, System::Metric) => unit("kg", 1.0, 1),
        (Quantity::Mass, System::Us) => unit("lb", KILOGRAMS_PER_POUND, 1),
        (Quantity::Power, System::Metric) => unit("kW", 1e3, 1),
        (Quantity::Power, System::Us) => unit("Btu/h", WATTS_PER_BTU_HOUR, 0),
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
    let number = number(value, quantity, system);
    match unit_of(quantity, system).symbol {
        "" => number,
        symbol => format!("{number} {symbol}"),
    }
}

/// A difference of temperatures (K) with its unit.
pub fn difference(kelvins: f64, system: System) -> String {
    let unit = unit_of(Quantity::Temperature, system);
    let symbol = if system == System::Metric { "K" } else { unit.symbol };
    format!("{:.0} {symbol}", kelvins / unit.factor)
}

/// A figure without its unit, in the digits that suit it.
pub fn number(value: f64, quantity: Quantity, system: System) -> String {
    let decimals = unit_of(quantity, system).decimals;
    let text = format!("{:.decimals$}", to_shown(value, quantity, system));
    // Rounding may leave a minus before zero.
    if text.strip_prefix('-').is_some_and(|rest| rest.chars().all(|c| "0.".contains(c))) {
        text.trim_start_matches('-').into()
    } else {
        text
    }
}

/// A figure for an input field: all digits that it needs, no more than it has.
pub fn editable(value: f64, quantity: Quantity, system: System) -> String {
    let decimals = unit_of(quantity, system).decimals + 3;
    let text = format!("{:.decimals$}", to_shown(value, quantity, system));
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        &text
    };
    if text == "-0" { "0".into() } else { text.into() }
}

/// A text that is not a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("not a number")]
pub struct NotANumber;

/// Value in SI from what a person typed.
///
/// Accepts a decimal point or comma, fractions such as `1 1/2`, and for lengths feet and inches
/// such as `3'6"` in either system. Without a unit mark the shown unit is meant.
///
/// # Errors
///
/// [`NotANumber`] for anything else.
pub fn parse(text: &str, quantity: Quantity, system: System) -> Result<f64, NotANumber> {
    let text = text.trim().replace(',', ".").replace('\u{2212}', "-");
    let text = text.strip_suffix(unit_of(quantity, system).symbol).unwrap_or(&text).trim();
    if matches!(quantity, Quantity::Length | Quantity::Size) && text.contains(['\'', '"']) {
        return feet_and_inches(text);
    }
    Ok(from_shown(with_fraction(text)?, quantity, system))
}

fn feet_and_inches(text: &str) -> Result<f64, NotANumber> {
    let (feet, inches) = match text.split_once('\'') {
        Some((feet, inches)) => (with_fraction(feet)?, inches),
        None => (0.0, text),
    };
    let inches = inches.trim().trim_end_matches('"').trim().trim_start_matches('-');
    let inches = if inches.is_empty() { 0.0 } else { with_fraction(inches)? };
    Ok(feet * METERS_PER_FOOT + inches * METERS_PER_INCH)
}

fn with_fraction(text: &str) -> Result<f64, NotANumber> {
    let plain = |text: &str| {
        // `parse` would also take "inf", "nan" and "1e9".
        let digits = text.trim();
        if digits.is_empty() || !digits.chars().all(|c| c.is_ascii_digit() || "+-.".contains(c))
        {
            return Err(NotANumber);
        }
        digits.parse::<f64>().map_err(|_| NotANumber)
    };
    let text = text.trim();
    let Some((left, denominator)) = text.split_once('/') else {
        return plain(text);
    };
    let denominator = plain(denominator)?;
    if denominator <= 0.0 {
        return Err(NotANumber);
    }
    match left.trim().rsplit_once(' ') {
        Some((whole, numerator)) => {
            let whole = plain(whole)?;
            let part = plain(numerator)? / denominator;
            Ok(if whole < 0.0 { whole - part } else { whole + part })
        }
        None => Ok(plain(left)? / denominator),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn reads_what_people_type() {
        let size = |text| parse(text, Quantity::Size, System::Us).unwrap() / METERS_PER_INCH;
        assert!((size("1 1/2\"") - 1.5).abs() < 1e-12);
        assert!((size("3'6\"") - 42.0).abs() < 1e-12);
        assert!((size("3/4") - 0.75).abs() < 1e-12);
        assert!(
            (parse("0,38", Quantity::Length, System::Metric).unwrap() - 0.38).abs() < 1e-12
        );
        assert!(
            (parse("180 mm", Quantity::Size, System::Metric).unwrap() - 0.18).abs() < 1e-12
        );
        for bad in ["", "abc", "1e9", "inf", "nan", "1/0", "--3", "1 2 3/4/5"] {
            assert_eq!(parse(bad, Quantity::Length, System::Metric), Err(NotANumber), "{bad}");
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
