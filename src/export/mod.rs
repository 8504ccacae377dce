//! Files for other programs: drawings as SVG and DXF, figures as CSV.
//!
//! Whatever a person typed, such as the name of a design, is text in every one of them.

pub mod csv;
pub mod dxf;
pub mod markup;
pub mod svg;

#[cfg(test)]
mod tests;

use std::fmt::Write as _;

/// A number in as few digits as it needs, to so many decimals, with a decimal point.
pub(crate) fn decimal(value: f64, decimals: usize) -> String {
    let mut text = String::new();
    // A text takes whatever is written to it.
    let _ = write!(text, "{value:.decimals$}");
    if text.contains('.') {
        let short = text.trim_end_matches('0').trim_end_matches('.').len();
        text.truncate(short);
    }
    if text == "-0" { "0".into() } else { text }
}
