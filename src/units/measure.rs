//! Units in which formulas are worked: SI beside US customary.

use super::{
    KILOGRAMS_PER_POUND, METERS_PER_FOOT, PASCALS_PER_INCH_WATER, PASCALS_PER_PSF, System,
    WATTS_PER_BTU_HOUR, ZERO_CELSIUS, ZERO_FAHRENHEIT, fixed, pointed, trimmed,
};
use crate::language::decimal;

/// A unit of SI with its twin in US customary.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measure {
    /// Symbol in SI, empty for a bare number.
    pub si: &'static str,
    /// Symbol in US customary.
    pub us: &'static str,
    /// SI per US unit.
    factor: f64,
    /// SI value of zero in the US unit.
    zero: f64,
}

const fn twin(si: &'static str, us: &'static str, factor: f64) -> Measure {
    Measure { si, us, factor, zero: 0.0 }
}

/// Joules in a British thermal unit.
const BTU: f64 = 3600.0 * WATTS_PER_BTU_HOUR;
/// Kelvins in a degree Fahrenheit.
const DEGREE: f64 = 5.0 / 9.0;
const FOOT: f64 = METERS_PER_FOOT;
const POUND: f64 = KILOGRAMS_PER_POUND;

/// A number without unit.
pub const NUMBER: Measure = twin("", "", 1.0);
/// Length.
pub const LENGTH: Measure = twin("m", "ft", FOOT);
/// Area.
pub const AREA: Measure = twin("m²", "ft²", FOOT * FOOT);
/// Volume.
pub const VOLUME: Measure = twin("m³", "ft³", FOOT * FOOT * FOOT);
/// Temperature; kelvin in formulas.
pub const TEMPERATURE: Measure =
    Measure { si: "K", us: "°F", factor: DEGREE, zero: ZERO_FAHRENHEIT };
/// Difference of temperatures.
pub const DIFFERENCE: Measure = twin("K", "°F", DEGREE);
/// Mass.
pub const MASS: Measure = twin("kg", "lb", POUND);
/// Mass flow.
pub const MASS_FLOW: Measure = twin("kg/s", "lb/h", POUND / 3600.0);
/// Density.
pub const DENSITY: Measure = twin("kg/m³", "lb/ft³", POUND / (FOOT * FOOT * FOOT));
/// Molar mass.
pub const MOLAR_MASS: Measure = twin("kg/mol", "lb/mol", POUND);
/// Amount of a substance in a mass.
pub const AMOUNT: Measure = twin("mol/kg", "mol/lb", 1.0 / POUND);
/// Pressure of air and gas.
pub const PRESSURE: Measure = twin("Pa", "in w.c.", PASCALS_PER_INCH_WATER);
/// What a weight presses on the ground.
pub const LOAD: Measure = twin("Pa", "psf", PASCALS_PER_PSF);
/// Speed.
pub const SPEED: Measure = twin("m/s", "ft/s", FOOT);
/// Time.
pub const TIME: Measure = twin("s", "s", 1.0);
/// Power.
pub const POWER: Measure = twin("W", "Btu/h", WATTS_PER_BTU_HOUR);
/// Heat.
pub const HEAT: Measure = twin("J", "Btu", BTU);
/// Heat in a mass.
pub const SPECIFIC_HEAT: Measure = twin("J/kg", "Btu/lb", BTU / POUND);
/// Heat that a mass takes per degree.
pub const HEAT_CAPACITY: Measure = twin("J/kgK", "Btu/lb°F", BTU / POUND / DEGREE);
/// Heat that a whole body takes per degree.
pub const STORAGE: Measure = twin("J/K", "Btu/°F", BTU / DEGREE);
/// Heat that passes an area per degree.
pub const FILM: Measure =
    twin("W/m²K", "Btu/h ft²°F", WATTS_PER_BTU_HOUR / (FOOT * FOOT) / DEGREE);
/// Heat that passes an area.
pub const FLUX: Measure = twin("W/m²", "Btu/h ft²", WATTS_PER_BTU_HOUR / (FOOT * FOOT));
/// What holds heat back.
pub const RESISTANCE: Measure =
    twin("m²K/W", "h ft²°F/Btu", FOOT * FOOT * DEGREE / WATTS_PER_BTU_HOUR);
/// Heat that passes a material of a thickness.
pub const CONDUCTIVITY: Measure =
    twin("W/mK", "Btu/h ft°F", WATTS_PER_BTU_HOUR / FOOT / DEGREE);
/// Heat that is lost per degree.
pub const HEAT_LOSS: Measure = twin("W/K", "Btu/h°F", WATTS_PER_BTU_HOUR / DEGREE);
/// Expansion per degree.
pub const EXPANSION: Measure = twin("1/K", "1/°F", 1.0 / DEGREE);

/// Digits of a figure in a working.
const DIGITS: usize = 5;

impl Measure {
    /// A value as it is put into a formula, without its unit.
    pub fn put_in(&self, value: f64) -> String {
        significant(value)
    }

    /// A value with its SI unit; a temperature in both kelvin and degrees Celsius.
    pub fn in_si(&self, value: f64) -> String {
        let number = with(significant(value), self.si);
        if self.is_temperature() {
            format!("{number} = {} °C", significant(value - ZERO_CELSIUS))
        } else {
            number
        }
    }

    /// A value with its unit in a system, in so many decimals.
    pub fn figure(&self, value: f64, system: System, decimals: usize) -> String {
        let (shown, symbol) = match system {
            System::Metric => (value, self.si),
            System::Us => ((value - self.zero) / self.factor, self.us),
        };
        with(fixed(shown, decimals), symbol)
    }

    /// SI per unit of a system.
    pub const fn per(&self, system: System) -> f64 {
        match system {
            System::Metric => 1.0,
            System::Us => self.factor,
        }
    }

    /// A value in US customary.
    pub fn in_us(&self, value: f64) -> String {
        with(significant((value - self.zero) / self.factor), self.us)
    }

    fn is_temperature(&self) -> bool {
        self.zero > 0.0
    }
}

fn with(number: String, symbol: &str) -> String {
    if symbol.is_empty() { number } else { format!("{number} {symbol}") }
}

/// In five digits, with an exponent where zeros would hide them.
fn significant(value: f64) -> String {
    const PLAIN: std::ops::Range<f64> = 1e-4..1e7;
    let size = value.abs();
    if size == 0.0 || !size.is_finite() {
        return fixed(value, 0);
    }
    if !PLAIN.contains(&size) {
        return decimal(format!("{value:.*e}", DIGITS - 1));
    }
    let mut before = 0;
    let mut rest = size;
    while rest >= 1.0 {
        rest /= 10.0;
        before += 1;
    }
    let zeros = if before == 0 { leading_zeros(size) } else { 0 };
    decimal(trimmed(pointed(value, (DIGITS + zeros).saturating_sub(before))))
}

/// Zeros behind the point of a number below 1.
fn leading_zeros(size: f64) -> usize {
    let mut zeros = 0;
    let mut rest = size * 10.0;
    while rest < 1.0 {
        rest *= 10.0;
        zeros += 1;
    }
    zeros
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Quantity, System, unit_of};

    #[test]
    fn figures_keep_five_digits() {
        for (value, text) in [
            (0.0, "0"),
            (1.0, "1"),
            (9.80669, "9.8067"),
            (-21.349_96, "-21.35"),
            (0.001_234_56, "0.0012346"),
            (101_325.0, "101325"),
            (1.513e7, "1.5130e7"),
            (4.7e-6, "4.7000e-6"),
        ] {
            assert_eq!(significant(value), text);
        }
    }

    #[test]
    fn the_twins_are_those_of_the_page() {
        for (measure, quantity) in [
            (AREA, Quantity::Area),
            (TEMPERATURE, Quantity::Temperature),
            (MASS, Quantity::Mass),
            (MASS_FLOW, Quantity::MassFlow),
            (POWER, Quantity::Power),
            (HEAT, Quantity::Energy),
            (PRESSURE, Quantity::Pressure),
            (LOAD, Quantity::Bearing),
            (SPEED, Quantity::Speed),
            (HEAT_LOSS, Quantity::HeatLoss),
        ] {
            let unit = unit_of(quantity, System::Us);
            assert_eq!(measure.us, unit.symbol);
            assert!((measure.factor / unit.factor - 1.0).abs() < 1e-12, "{quantity:?}");
            assert!((measure.zero - unit.zero).abs() < 1e-12, "{quantity:?}");
        }
    }

    #[test]
    fn a_temperature_is_told_three_ways() {
        // 100 °C is 212 °F.
        assert_eq!(TEMPERATURE.in_si(373.15), "373.15 K = 100 °C");
        assert_eq!(TEMPERATURE.in_us(373.15), "212 °F");
        // 1 Btu/lb is 2326 J/kg by definition.
        assert_eq!(SPECIFIC_HEAT.in_us(2326.0), "1 Btu/lb");
        // Water: 62.43 lb/ft3 is 1000 kg/m3, NIST SP 811.
        assert_eq!(DENSITY.in_us(1000.0), "62.428 lb/ft³");
        // 1 Btu/h ft2 F is 5.678263 W/m2K, NIST SP 811.
        assert_eq!(FILM.in_us(5.678_263), "1 Btu/h ft²°F");
        assert_eq!(RESISTANCE.in_us(0.176_110_2), "1 h ft²°F/Btu");
        assert_eq!(CONDUCTIVITY.in_us(1.730_735), "1 Btu/h ft°F");
        assert_eq!(HEAT_CAPACITY.in_us(4186.8), "1 Btu/lb°F");
    }
}
