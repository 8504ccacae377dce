//! Sections in small, side by side and all to the same scale, as finished marks.

use super::gallery::{Mark, Picture};
use super::section::section;
use super::{Drawing, Extent, Item, Point, Role, Shape};
use crate::analysis::analyze;
use crate::design::Design;
use crate::language::{said, say};
use crate::units::System;

/// Width and height of the picture (px).
const SIZE: [f64; 2] = [420.0, 240.0];
/// Widest room of a section (px).
const WIDEST: f64 = 140.0;
/// Room below the sections for their numbers (px).
const FOOT: f64 = 26.0;
/// Air around a section (px).
const AIR: f64 = 6.0;

/// Sections of designs, numbered from 1, each with its stop; one that cannot be analyzed leaves its
/// place empty. None where there is nothing to show.
pub fn sections(designs: &[Design]) -> Option<Picture> {
    let drawn = designs.iter().map(|design| {
        let analysis = analyze(design).ok()?;
        Some(section(design, &analysis, &[], System::Metric, 1.0))
    });
    let drawn: Vec<Option<Drawing>> = drawn.collect();
    let items = drawn.iter().flatten().flat_map(|drawing| drawing.items.iter());
    let whole = items.filter_map(shown).map(|(_, extent)| extent).reduce(Extent::join)?;
    let [width, height] = SIZE;
    let count = u32::try_from(drawn.len()).ok()?;
    let room = (width / f64::from(count)).min(WIDEST);
    let across = (room - 2.0 * AIR) / whole.width().max(f64::MIN_POSITIVE);
    let up = (height - FOOT - 2.0 * AIR) / whole.height().max(f64::MIN_POSITIVE);
    let scale = across.min(up);
    let (mut marks, mut stops) = (Vec::new(), Vec::new());
    for (place, drawing) in (0..count).zip(&drawn) {
        let left = room * f64::from(place);
        let middle = left + 0.5 * room;
        let corner = (middle - 0.5 * scale * whole.width(), height - FOOT);
        let items = drawing.iter().flat_map(|drawing| &drawing.items);
        marks.extend(items.filter_map(|item| mark(item, (whole, scale, corner))));
        let number = (place + 1).to_string();
        marks.push(Mark::text("middle", (middle, height - 0.3 * FOOT), number));
        stops.push([left, 0.0, room, height]);
    }
    Some(Picture {
        title: said("Sections, all to one scale").into(),
        description: say!("Sections of {count} designs side by side, all to one scale."),
        class: "section".into(),
        size: SIZE,
        marks,
        stops,
    })
}

/// An item with the lower left corner of the whole at a place (px).
fn mark(item: &Item, (whole, scale, corner): (Extent, f64, (f64, f64))) -> Option<Mark> {
    let place = |at: Point| {
        (corner.0 + scale * (at.x - whole.low.x), corner.1 - scale * (at.y - whole.low.y))
    };
    let (class, extent) = shown(item)?;
    Some(match &item.shape {
        Shape::Line { points } => Mark::line(class, points.iter().map(|at| place(*at))),
        Shape::Arrow { from, to } => Mark::line(class, [place(*from), place(*to)]),
        _ => {
            let (left, top) = place(Point { x: extent.low.x, y: extent.high.y });
            let (width, height) = (scale * extent.width(), scale * extent.height());
            Mark::rectangle(class, [left, top, width, height])
        }
    })
}

/// How an item is shown, and where it stands; texts, rulers and what the house is made of are not.
fn shown(item: &Item) -> Option<(&'static str, Extent)> {
    let class = match item.role {
        Role::Core | Role::Facing | Role::Slab | Role::Insulation => "axis",
        Role::Void => "dot",
        Role::Baffle => "now",
        Role::Outline | Role::Flow | Role::Ground => "",
        Role::Door | Role::Glass => "curve",
        Role::Gas(_)
        | Role::House
        | Role::Combustible
        | Role::Dimension
        | Role::Label
        | Role::QuietLabel
        | Role::Warning
        | Role::Cleanout
        | Role::Passage
        | Role::Damper
        | Role::Inlet
        | Role::Course
        | Role::Brick
        | Role::FacingBrick
        | Role::Lintel
        | Role::Halo => return None,
    };
    let around = |points: &[Point]| {
        let each = points.iter().map(|at| Extent::new(at.x, at.y, at.x, at.y));
        each.reduce(Extent::join)
    };
    let extent = match &item.shape {
        Shape::Rectangle { corner, width, height } => {
            Some(Extent::new(corner.x, corner.y, corner.x + width, corner.y + height))
        }
        Shape::Line { points } => around(points),
        Shape::Arrow { from, to } => around(&[*from, *to]),
        Shape::Label { .. } | Shape::Dimension { .. } | Shape::Mark { .. } => None,
    }?;
    Some((class, extent))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two more runs are two more channels with a slot below each, drawn to the same scale beside the
    /// first.
    #[test]
    fn two_designs_stand_side_by_side_in_one_scale() {
        let few = Design::demonstration();
        let mut many = few.clone();
        many.path.run_count += 2;
        let channels = |designs: &[Design]| {
            let picture = sections(designs).unwrap();
            picture.marks.iter().filter(|mark| mark.class == "dot").count()
        };
        let [one, two] = [&few, &many].map(|each| channels(std::slice::from_ref(each)));
        assert_eq!(two, one + 4);
        let both = [few.clone(), many];
        assert_eq!(channels(&both), one + two);
        let picture = sections(&both).unwrap();
        assert_eq!(picture.stops, [[0.0, 0.0, 140.0, 240.0], [140.0, 0.0, 140.0, 240.0]]);
        let words: Vec<&str> = picture.marks.iter().map(|mark| mark.text.as_str()).collect();
        let words: Vec<&str> = words.into_iter().filter(|text| !text.is_empty()).collect();
        assert_eq!(words, ["1", "2"]);
        assert!(picture.marks.iter().all(|mark| !mark.path.contains("NaN")));
        let mut broken = few;
        broken.fire.charge = f64::NAN;
        assert_eq!(sections(&[broken]), None);
    }
}
