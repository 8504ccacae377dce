//! Designs from shares: a place in the range of every input.

use longsmoke::design::Design;
use longsmoke::design::field::{FIELDS, Kind, Number, ProblemKind, check};
use longsmoke::units::{Quantity, kelvin};
use std::ops::RangeInclusive;

pub(crate) type Range = fn(&Number) -> &RangeInclusive<f64>;

/// A value in a range, in digits that a person would type, so that files and links keep it.
pub(crate) fn typed(number: &Number, range: &RangeInclusive<f64>, share: f64) -> f64 {
    let zero = if number.quantity == Quantity::Temperature { kelvin(0.0) } else { 0.0 };
    let value = range.start() + share * (range.end() - range.start()) - zero;
    let digits = match number.quantity {
        Quantity::Count => 1.0,
        _ => 1e6,
    };
    ((value * digits).round() / digits + zero).clamp(*range.start(), *range.end())
}

/// A design whose inputs stand at these shares of their ranges.
pub(crate) fn drawn(range: Range, shares: &[f64]) -> Design {
    let mut design = Design::demonstration();
    for (field, share) in FIELDS.iter().zip(shares) {
        match &field.kind {
            Kind::Number(number) => {
                (number.set)(&mut design, typed(number, range(number), *share));
            }
            Kind::Choice(choice) => {
                let place = (0..choice.keys.len())
                    .rfind(|place| f64_of(*place) <= share * f64_of(choice.keys.len()));
                let last = choice.keys.len() - 1;
                (choice.set)(&mut design, place.unwrap_or(0).min(last));
            }
        }
    }
    design
}

fn f64_of(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::NAN, f64::from)
}

/// Sets sizes right that belong together, as `check` asks.
pub(crate) fn set_right(design: &mut Design) {
    for _ in 0..3 {
        for problem in check(design) {
            match problem.kind {
                ProblemKind::MouthBelowHeater(least) => {
                    design.chimney.mouth_height = (least * 1e3 + 1.0).ceil() / 1e3;
                }
                ProblemKind::OutdoorsLongerThanChimney(most) => {
                    design.chimney.outdoor_length = (most * 0.5 * 1e3).floor() / 1e3;
                }
                ProblemKind::DoorLargerThanFirebox(_) => {
                    design.firebox.door_width =
                        design.firebox.door_width.min(design.firebox.width);
                    design.firebox.door_height =
                        design.firebox.door_height.min(design.firebox.height);
                }
                ProblemKind::FiringsOverlap(_) | ProblemKind::FiringsBeyondDay(_) => {
                    design.fire.firing_interval = 0.0;
                }
                ProblemKind::OvenInBench => design.path.oven.place = 0,
                ProblemKind::DoorLargerThanOven(_) => design.path.oven.door_area = 0.0,
                ProblemKind::OutOfRange { .. } => {}
            }
        }
    }
}
