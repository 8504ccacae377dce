//! The link as a code that a phone reads.

use crate::export::markup::Markup;
use crate::export::svg;
use crate::language::said;
use qrcodegen::{QrCode, QrCodeEcc};
use std::fmt::Write as _;

/// Side of the code with its margin (mm).
const SIDE: f64 = 44.0;
/// Margin that readers ask for (modules).
const QUIET: i32 = 4;

/// Adds the code of a link; whether it fits into one.
pub(super) fn add(markup: &mut Markup, link: &str) -> bool {
    let Ok(code) = QrCode::encode_text(link, QrCodeEcc::Medium) else {
        return false;
    };
    let size = code.size();
    let mut path = String::new();
    for y in 0..size {
        for x in (0..size).filter(|x| code.get_module(*x, y)) {
            // A text takes whatever is written to it.
            let _ = write!(path, "M{} {}h1v1h-1z", x + QUIET, y + QUIET);
        }
    }
    let scale = SIDE / f64::from(size + 2 * QUIET);
    svg::root(
        markup,
        (SIDE, SIDE),
        &[("role", "img"), ("class", "p-qr"), ("shape-rendering", "crispEdges")],
    );
    markup.element("title", &[], said("QR code of the link"));
    markup.empty("rect", &[("width", "100%"), ("height", "100%"), ("fill", "#ffffff")]);
    let turn = format!("scale({scale:.5})");
    markup.empty("path", &[("d", &path), ("transform", &turn), ("fill", "#000000")]);
    markup.close();
    true
}
