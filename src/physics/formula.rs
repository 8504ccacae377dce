//! A formula as its reader sees it, beside the function that computes it.

use crate::sources::Source;
use crate::units::measure::Measure;

/// A letter of a formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Symbol {
    /// As it stands in the formula.
    pub letter: &'static str,
    /// What it is.
    pub name: &'static str,
    /// Its unit.
    pub measure: Measure,
}

/// A formula with its letters, its source and the function that computes it.
#[derive(Clone, Copy, Debug)]
pub struct Formula {
    /// Name of the function.
    pub id: &'static str,
    /// The equation, as it stands in the comment of the function.
    pub text: &'static str,
    /// What it yields.
    pub result: Symbol,
    /// What is put in, in the order of the function.
    pub symbols: &'static [Symbol],
    /// Where it comes from.
    pub source: &'static Source,
    pub(crate) function: fn(&[f64]) -> f64,
}

impl Formula {
    /// What the function of the formula makes of values, in the order of its symbols; not a number
    /// where they are not as many.
    pub fn of(&self, values: &[f64]) -> f64 {
        (self.function)(values)
    }
}

impl PartialEq for Formula {
    fn eq(&self, other: &Self) -> bool {
        self.id == other.id && self.text == other.text
    }
}

/// Makes a [`Formula`] of a function that stands beside it.
macro_rules! formula {
    (
        $function:ident: $text:literal, $source:expr,
        $letter:literal $name:literal $measure:ident;
        $($argument:ident $symbol:literal $meaning:literal $unit:ident),+ $(,)?
    ) => {
        $crate::physics::formula::formula!(
            $function by $function, $text, $source, $letter $name $measure;
            $($argument $symbol $meaning $unit),+
        )
    };
    (
        $id:ident by $function:expr, $text:literal, $source:expr,
        $letter:literal $name:literal $measure:ident;
        $($argument:ident $symbol:literal $meaning:literal $unit:ident),+ $(,)?
    ) => {
        $crate::physics::formula::Formula {
            id: stringify!($id),
            text: $text,
            result: $crate::physics::formula::Symbol {
                letter: $letter,
                name: $name,
                measure: $crate::units::measure::$measure,
            },
            symbols: &[$($crate::physics::formula::Symbol {
                letter: $symbol,
                name: $meaning,
                measure: $crate::units::measure::$unit,
            }),+],
            source: &$source,
            function: |values| match *values {
                [$($argument),+] => ($function)($($argument),+),
                _ => f64::NAN,
            },
        }
    };
}
pub(crate) use formula;
