//! Pictures of many designs: finite, within bounds, texts apart.

use super::front::front;
use super::path::unrolled;
use super::plan::plan;
use super::plot::{LimitName, Palette, draw, temperatures};
use super::section::section;
use super::*;
use crate::analysis::facing::{self, Facing};
use crate::analysis::{Analysis, analyze};
use crate::design::examples::Example;
use crate::design::field::{FIELDS, Group, Kind, check as check_design, field};
use crate::design::{Design, Layout, RunOverride};
use crate::rules::check;
use crate::units::{Quantity, System, figure};
use plotters::prelude::{IntoDrawingArea as _, SVGBackend};

fn analyzed(design: &Design) -> Option<Analysis> {
    analyze(design).ok()
}

/// The demonstration with the sizes that the pictures must bear.
fn designs() -> Vec<Design> {
    let mut designs = Vec::new();
    for layout in Layout::ALL {
        for count in 0..=12 {
            for size in 0..4 {
                let mut design = Design::demonstration();
                design.path.layout = *layout;
                design.path.run_count = count;
                vary(&mut design, size);
                design.chimney.mouth_height =
                    design.chimney.mouth_height.max(design.top_height() + 0.4);
                designs.push(design);
            }
        }
    }
    designs
}

/// Designs with every size drawn at random from its usual range.
fn random_designs(count: u64) -> impl Iterator<Item = Design> {
    (0..count).filter_map(|seed| {
        let mut random = oorandom::Rand64::new(u128::from(seed));
        let mut design = Design::demonstration();
        let groups = [Group::Firebox, Group::Path, Group::Shell, Group::Chimney];
        for field in &FIELDS {
            match &field.kind {
                Kind::Number(number) if field.group == Group::Surroundings => {
                    (number.set)(&mut design, number.usual.start() + 2.0 * random.rand_float());
                }
                Kind::Number(number) if groups.contains(&field.group) => {
                    let (low, high) = (number.usual.start(), number.usual.end());
                    let value = low + (high - low) * random.rand_float();
                    (number.set)(&mut design, number.nearest(value));
                }
                Kind::Choice(choice) if field.id == FieldId::Layout => {
                    let index = random.rand_range(0..choice.keys.len() as u64);
                    (choice.set)(&mut design, usize::try_from(index).unwrap());
                }
                _ => {}
            }
        }
        design.firebox.door_width = design.firebox.door_width.min(design.firebox.width);
        design.firebox.door_height = design.firebox.door_height.min(design.firebox.height);
        check_design(&design).is_empty().then_some(design)
    })
}

fn vary(design: &mut Design, size: u32) {
    match size {
        1 => {
            design.firebox.width = 0.10;
            design.firebox.height = 0.15;
            design.firebox.door_width = 0.05;
            design.firebox.door_height = 0.05;
            design.path.run_length = 0.2;
            design.path.run_width = 0.06;
            design.path.run_height = 0.06;
            design.path.baffle_thickness = 0.02;
            design.shell.facing_thickness = 0.0;
            design.shell.gap = 0.0;
            design.chimney.mouth_height = 1.0;
            design.chimney.outdoor_length = 0.0;
            design.chimney.connector_length = 0.0;
            design.chimney.insulation_thickness = 0.0;
        }
        2 => {
            design.firebox.width = 1.5;
            design.path.run_length = 4.0;
            design.path.run_height = 0.6;
            design.chimney.mouth_height = 30.0;
            design.chimney.outdoor_length = 8.0;
            design.chimney.connector_length = 5.0;
            design.surroundings.above = 0.0;
        }
        3 => {
            let own = |length, height| RunOverride {
                length: Some(length),
                width: None,
                height: Some(height),
            };
            design.path.overrides = vec![own(0.2, 0.06), own(3.0, 0.3), own(0.4, 0.1)];
            design.surroundings.above = 20.0;
        }
        _ => {}
    }
}

/// Both pictures of all designs that can be analyzed, in both systems.
fn pictures(mut look: impl FnMut(&Design, &Drawing)) {
    let mut seen = 0;
    for design in designs().into_iter().chain(random_designs(150)) {
        let Some(analysis) = analyzed(&design) else {
            continue;
        };
        seen += 1;
        let findings = check(&design, &analysis);
        for system in [System::Metric, System::Us] {
            for text_scale in [1.0, 1.7] {
                look(&design, &section(&design, &analysis, &findings, system, text_scale));
            }
            for text_scale in [1.0, 1.7] {
                look(&design, &front(&design, &analysis, system, text_scale));
                look(&design, &plan(&design, &analysis, system, text_scale));
            }
            look(&design, &unrolled(&design, &analysis, system));
        }
    }
    assert!(seen > 150, "only {seen} designs can be analyzed");
}

/// The sections alone.
fn sections(mut look: impl FnMut(&Design, &Analysis, &Drawing)) {
    for design in designs() {
        let Some(analysis) = analyzed(&design) else {
            continue;
        };
        for system in [System::Metric, System::Us] {
            look(&design, &analysis, &section(&design, &analysis, &[], system, 1.0));
        }
    }
}

fn what(design: &Design) -> String {
    let path = &design.path;
    format!("{:?} with {} runs of {} m", path.layout, path.run_count, path.run_length)
}

#[test]
fn everything_is_finite_and_within_bounds() {
    pictures(|design, drawing| {
        for item in &drawing.items {
            let extent = item.shape.extent(drawing.text_size);
            let inside = drawing.low.x <= extent.low.x
                && drawing.low.y <= extent.low.y
                && extent.high.x <= drawing.high.x
                && extent.high.y <= drawing.high.y;
            // False for anything that is not a number.
            assert!(inside, "{}: {item:?}", what(design));
        }
        let bounds = [drawing.low, drawing.high];
        assert!(bounds.iter().all(|end| end.x.abs() < 60.0 && end.y.abs() < 60.0));
    });
}

#[test]
fn no_two_texts_overlap() {
    pictures(|design, drawing| {
        let texts: Vec<(&Item, Extent)> = drawing
            .items
            .iter()
            .filter_map(|item| Some((item, item.shape.text_extent(drawing.text_size)?)))
            .collect();
        for (index, (item, extent)) in texts.iter().enumerate() {
            for (other, beside) in texts.iter().skip(index + 1) {
                assert!(!extent.overlaps(beside), "{}: {item:?} over {other:?}", what(design));
            }
        }
    });
}

/// A mark may stand on lines, on its paper.
#[test]
fn no_line_crosses_a_text() {
    pictures(|design, drawing| {
        let lines: Vec<(&Item, [Point; 2])> = drawing
            .items
            .iter()
            .flat_map(|item| item.strokes().into_iter().map(move |line| (item, line)))
            .collect();
        for item in &drawing.items {
            let is_mark = matches!(item.shape, Shape::Mark { .. });
            let Some(extent) = item.shape.text_extent(drawing.text_size).filter(|_| !is_mark)
            else {
                continue;
            };
            for (other, line) in &lines {
                let crossed = extent.is_crossed_by(*line);
                assert!(!crossed, "{}: {other:?} through {item:?}", what(design));
            }
        }
    });
}

#[test]
fn a_line_crosses_a_rectangle_or_passes_it() {
    let extent = Extent::new(1.0, 1.0, 3.0, 2.0);
    let crosses =
        |a: (f64, f64), b: (f64, f64)| extent.is_crossed_by([point(a.0, a.1), point(b.0, b.1)]);
    assert!(crosses((0.0, 0.0), (4.0, 3.0)), "through");
    assert!(crosses((2.0, 1.5), (2.0, 1.6)), "inside");
    assert!(crosses((2.0, 0.0), (2.0, 1.1)), "into");
    assert!(!crosses((0.0, 1.0), (4.0, 1.0)), "along an edge");
    assert!(!crosses((0.0, 1.5), (1.0, 1.5)), "up to an edge");
    assert!(!crosses((0.0, 1.5), (1.5, 3.0)), "past a corner");
    assert!(!crosses((2.0, 3.0), (2.0, 4.0)), "above");
}

/// What stands beyond the chimney would seem to be the chimney's.
#[test]
fn temperatures_of_the_runs_stand_where_no_chimney_does() {
    sections(|design, _, drawing| {
        let axis = |extent: Extent| extent.middle().x;
        let cleanout = drawing.items.iter().find(|item| item.role == Role::Cleanout).unwrap();
        let chimney = axis(cleanout.shape.extent(drawing.text_size));
        let firebox = 0.5 * design.firebox.width;
        let labels = drawing.items.iter().filter(|item| {
            matches!((item.role, item.place), (Role::Label, Some(Place::Run(_))))
        });
        let mut count = 0;
        for label in labels {
            let extent = label.shape.extent(drawing.text_size);
            let before = if firebox < chimney {
                extent.high.x < chimney
            } else {
                chimney < extent.low.x
            };
            assert!(before, "{}: {label:?}", what(design));
            count += 1;
        }
        let expected = match (design.path.layout, design.path.run_count) {
            (Layout::Bench, count @ 1..) => count + 1,
            (_, count) => count,
        };
        assert_eq!(count, expected, "{}", what(design));
    });
}

#[test]
fn runs_that_stand_apart_are_reached_by_a_passage() {
    sections(|design, _, drawing| {
        let passages: Vec<_> =
            drawing.items.iter().filter(|item| item.role == Role::Passage).collect();
        let apart = design.path.layout != Layout::Above && design.path.run_count > 0;
        assert_eq!(passages.len(), usize::from(apart));
        let said = drawing
            .items
            .iter()
            .any(|item| item.shape.text().is_some_and(|text| text.contains("not to scale")));
        assert_eq!(said, apart, "{}", what(design));
        for passage in passages {
            let way = passage.shape.extent(drawing.text_size);
            assert!(way.low.x <= design.firebox.width && way.high.x > design.firebox.width);
        }
    });
}

/// Heater and support are the largest thing in the picture, however high the chimney.
#[test]
fn a_tall_chimney_is_broken_and_the_heater_stays_large() {
    for (layout, least) in [(Layout::Above, 0.35), (Layout::Behind, 0.25), (Layout::Bench, 0.2)]
    {
        for count in [1, 3, 5, 8] {
            let mut design = Design::demonstration();
            design.path.layout = layout;
            design.path.run_count = count;
            for (mouth, outdoors) in [(6.0, 1.0), (8.2, 1.5), (30.0, 0.0), (30.0, 12.0)] {
                design.chimney.mouth_height = mouth;
                design.chimney.outdoor_length = outdoors;
                let analysis = analyzed(&design).unwrap();
                let drawing = section(&design, &analysis, &[], System::Metric, 1.0);
                let height = drawing.high.y - drawing.low.y;
                let share = design.height_above_base() / height;
                assert!(least < share, "{} {share}", what(&design));
                let true_height = format!("{mouth:.2} m");
                let said = drawing.items.iter().any(|item| {
                    matches!(&item.shape, Shape::Dimension { text, .. } if *text == true_height)
                });
                assert!(said, "its true height");
                assert!(drawing.description.contains("the chimney shortened"));
            }
        }
    }
}

/// On the screen an edge stays under the pointer that drags it.
#[test]
fn a_grip_moves_as_far_as_the_pointer() {
    let along = |grip: &Grip| match grip.axis {
        Axis::Across => grip.at.x,
        Axis::Up => grip.at.y,
    };
    let mut moved = 0;
    for design in designs().into_iter().chain(random_designs(80)) {
        let Some(before) = analyzed(&design) else {
            continue;
        };
        let before = section(&design, &before, &[], System::Metric, 1.0);
        // The chimney and the ceiling are drawn shortened, runs come one by one.
        let shortened = [FieldId::MouthHeight, FieldId::AboveDistance, FieldId::RunCount];
        for grip in before.grips.iter().filter(|grip| !shortened.contains(&grip.field)) {
            let Kind::Number(number) = &field(grip.field).kind else {
                panic!("{grip:?}");
            };
            let mut changed = design.clone();
            (number.set)(&mut changed, (number.get)(&design) + number.step);
            let Some(after) = analyzed(&changed).filter(|_| check_design(&changed).is_empty())
            else {
                continue;
            };
            // The page holds the size of texts meanwhile.
            let draw = |scale| section(&changed, &after, &[], System::Metric, scale);
            let after = draw(before.text_size / draw(1.0).text_size);
            let there = after.grips.iter().find(|other| other.field == grip.field).unwrap();
            // Of the inputs, the length of a run that is not the longest moves where it may.
            let is_level = design.path.overrides.is_empty();
            if is_level {
                let way = (along(there) - along(grip)) * grip.per_meter;
                assert!((way - number.step).abs() < 1e-9, "{}: {grip:?} {way}", what(&design));
                moved += 1;
            }
        }
    }
    assert!(moved > 500, "{moved}");
}

#[test]
fn grips_stand_in_the_picture_and_none_twice() {
    sections(|design, _, drawing| {
        let mut fields: Vec<_> = drawing.grips.iter().map(|grip| grip.field).collect();
        for grip in &drawing.grips {
            let Point { x, y } = grip.at;
            let inside = drawing.low.x <= x
                && x <= drawing.high.x
                && drawing.low.y <= y
                && y <= drawing.high.y;
            assert!(inside && grip.per_meter > 0.0, "{}: {grip:?}", what(design));
            assert!(section::GRIPS.contains(&grip.field));
        }
        let count = fields.len();
        fields.sort_by_key(|field| format!("{field:?}"));
        fields.dedup();
        assert_eq!(fields.len(), count, "{}", what(design));
        assert!(count >= 3, "{}", what(design));
    });
}

#[test]
fn what_lies_on_hot_gas_has_paper_under_it() {
    pictures(|design, drawing| {
        let pairs = drawing.items.iter().zip(drawing.items.iter().skip(1));
        for (before, item) in pairs {
            if matches!(item.role, Role::Flow | Role::Warning) {
                assert_eq!(before.role, Role::Halo, "{}", what(design));
                assert_eq!(before.place, None);
            }
        }
    });
    sections(|design, _, drawing| {
        let door = drawing.items.iter().position(|item| item.role == Role::Door).unwrap();
        let door_extent = drawing.items[door].shape.extent(drawing.text_size);
        let under = drawing.items[..door].iter().any(|item| {
            let extent = item.shape.extent(drawing.text_size);
            item.role == Role::Halo && extent == door_extent
        });
        assert!(under, "{}", what(design));
    });
}

#[test]
fn the_space_below_the_runs_is_named() {
    let design = Design::demonstration();
    let analysis = analyzed(&design).unwrap();
    for system in [System::Metric, System::Us] {
        let drawing = section(&design, &analysis, &[], system, 1.0);
        let words: Vec<&str> = drawing
            .items
            .iter()
            .filter(|item| item.role == Role::QuietLabel)
            .filter_map(|item| item.shape.text())
            .collect();
        assert!(words.join(" ").starts_with("masonry below the runs"));
    }
}

#[test]
fn dimensions_carry_their_unit() {
    pictures(|_, drawing| {
        for item in &drawing.items {
            if let Shape::Dimension { from, to, text } = &item.shape {
                let unit = text.rsplit(' ').next().unwrap();
                let marked = text.ends_with('"');
                assert!(["m", "mm", "ft", "in"].contains(&unit) || marked, "{text}");
                assert!(from.x <= to.x && from.y <= to.y, "{item:?}");
            }
        }
    });
}

#[test]
fn the_section_is_to_scale() {
    let mut design = Design::demonstration();
    // Low enough to be drawn without a break.
    design.chimney.mouth_height = 3.6;
    design.chimney.outdoor_length = 0.25;
    let analysis = analyzed(&design).unwrap();
    let drawing = section(&design, &analysis, &[], System::Metric, 1.0);
    let rectangles = |wanted: Role| {
        drawing
            .items
            .iter()
            .filter(move |item| item.role == wanted)
            .map(|item| item.shape.extent(drawing.text_size))
    };
    let close = |a: f64, b: f64| (a - b).abs() < 1e-9;
    let path = &design.path;
    let runs = rectangles(Role::Void)
        .filter(|space| {
            close(space.width(), path.run_length) && close(space.height(), path.run_height)
        })
        .count();
    assert_eq!(runs, path.run_count);
    assert_eq!(rectangles(Role::Baffle).count(), path.run_count - 1);
    let top = rectangles(Role::Slab).map(|slab| slab.high.y).fold(0.0, f64::max);
    assert!(close(top, design.top_height()));
    let mouth = rectangles(Role::Void).map(|flue| flue.high.y).fold(0.0, f64::max);
    assert!(close(mouth, design.chimney.mouth_height));
}

/// Rectangles of a role in a drawing.
fn rectangles(drawing: &Drawing, wanted: Role) -> Vec<Extent> {
    let of = drawing.items.iter().filter(|item| item.role == wanted);
    of.map(|item| item.shape.extent(drawing.text_size)).collect()
}

fn all_in(drawing: &Drawing, wanted: Role) -> Extent {
    rectangles(drawing, wanted).into_iter().reduce(Extent::join).unwrap()
}

/// By hand: firebox of 0.42 x 0.36 m in walls of 114 mm, runs of 2.0 x 0.14 m in 64 mm, 6 mm and 115 mm
/// around what reaches farthest.
#[test]
fn the_facing_is_drawn_straight_around_a_narrower_core() {
    let design = Design::demonstration();
    let analysis = analyzed(&design).unwrap();
    let alike = |one: Extent, [left, low, right, high]: [f64; 4]| {
        let pairs =
            [(one.low.x, left), (one.low.y, low), (one.high.x, right), (one.high.y, high)];
        assert!(
            pairs.iter().all(|(a, b)| (a - b).abs() < 1e-9),
            "{one:?}, {left}, {low}, {right}, {high}"
        );
    };
    let seen = section(&design, &analysis, &[], System::Metric, 1.0);
    let cores = rectangles(&seen, Role::Core);
    let top = 0.72 + 5.0 * 0.24 + 4.0 * 0.064;
    alike(cores[0], [-0.114, -0.114, 2.064, 0.72]);
    alike(cores[1], [-0.064, 0.72, 2.064, top]);
    alike(rectangles(&seen, Role::Facing)[0], [-0.235, -0.114, 2.185, top]);
    let above = plan(&design, &analysis, System::Metric, 1.0);
    alike(rectangles(&above, Role::Facing)[0], [-0.235, -0.415, 2.185, 0.415]);
    alike(rectangles(&above, Role::Core)[0], [-0.064, -0.134, 2.064, 0.134]);
}

/// All masonry stands on the base slab on one level, as thick as the walls of the firebox below its floor,
/// and its whole height is written alike from the side and from the front. By hand: of the demonstration
/// 0.114 m under the floor, 0.72 m to the crown, five runs of 0.24 m with four baffles of 64 mm, a cap.
#[test]
fn all_masonry_is_drawn_from_the_top_of_the_base_slab() {
    for layout in Layout::ALL {
        let mut design = Design::demonstration();
        design.path.layout = *layout;
        let analysis = analyzed(&design).unwrap();
        let seen = section(&design, &analysis, &[], System::Metric, 1.0);
        let from_front = front(&design, &analysis, System::Metric, 1.0);
        let close = |one: f64, other: f64| (one - other).abs() < 1e-9;
        for drawing in [&seen, &from_front] {
            for facing in rectangles(drawing, Role::Facing) {
                assert!(close(facing.low.y, -0.114), "{layout:?}: {facing:?}");
            }
            let slabs = rectangles(drawing, Role::Slab);
            let bases: Vec<_> = slabs.iter().filter(|slab| slab.high.y < 0.0).collect();
            assert!(!bases.is_empty(), "{layout:?}");
            for base in bases {
                let thick = design.shell.base_thickness;
                assert!(close(base.high.y, -0.114) && close(base.height(), thick), "{base:?}");
            }
        }
        let low = rectangles(&seen, Role::Core).into_iter().filter(|core| core.low.x < 0.0);
        assert!(low.map(|core| core.low.y).any(|low| close(low, -0.114)), "{layout:?}");
        let text = figure(0.114 + design.top_height(), Quantity::Length, System::Metric);
        for drawing in [&seen, &from_front] {
            let is_written = |item: &Item| item.shape.text() == Some(&text);
            assert!(drawing.items.iter().any(is_written), "{layout:?}: {text}");
            assert!(drawing.description.contains(&text), "{}", drawing.description);
        }
    }
    let design = Design::demonstration();
    let height = 0.114 + 0.72 + 5.0 * 0.24 + 4.0 * 0.064 + design.shell.cap_thickness;
    assert!((design.height_above_base() - height).abs() < 1e-9);
}

/// By hand: a flue of 0.20 m in 20 mm of liner, 40 mm of wool and 115 mm of brick is 0.55 m from outside to
/// outside; its outside stands 0.45 - 0.185 - 0.175 m off the facing, and as far behind the front of the
/// masonry, 0.83 m deep, as before its back.
#[test]
fn the_masonry_of_the_chimney_is_in_every_view() {
    let design = Design::demonstration();
    let analysis = analyzed(&design).unwrap();
    let close = |one: f64, other: f64| (one - other).abs() < 1e-9;
    let seen = section(&design, &analysis, &[], System::Metric, 1.0);
    let above = plan(&design, &analysis, System::Metric, 1.0);
    let from_front = front(&design, &analysis, System::Metric, 1.0);
    for drawing in [&seen, &above] {
        let outside = all_in(drawing, Role::FacingBrick);
        assert!(
            close(outside.width(), 0.55) && close(outside.low.x, 2.185 + 0.09),
            "{outside:?}"
        );
    }
    assert!(close(all_in(&above, Role::FacingBrick).height(), 0.55));
    let chimney = |extent: &Extent| close(extent.width(), 0.55) && close(extent.low.x, 2.275);
    assert!(rectangles(&from_front, Role::House).iter().any(chimney));
    let written: Vec<&str> = above.items.iter().filter_map(|item| item.shape.text()).collect();
    let text = |length| figure(length, Quantity::Size, System::Metric);
    for length in [0.55, 0.09, 0.14] {
        assert!(written.contains(&text(length).as_str()), "{length}: {written:?}");
    }
    // The chimney of a bench stands where its last run ends: at the back after three, in front after two.
    for (count, is_behind) in [(3, true), (2, false)] {
        let mut design = Design::demonstration();
        design.path.layout = Layout::Bench;
        design.path.run_count = count;
        let analysis = analyzed(&design).unwrap();
        let above = plan(&design, &analysis, System::Metric, 1.0);
        let outside = all_in(&above, Role::FacingBrick);
        let run =
            rectangles(&above, Role::Void).into_iter().find(|each| close(each.height(), 2.0));
        let (low, high) = (run.unwrap().low.y, run.unwrap().high.y);
        // The bench begins beside the firebox, 0.18 m before its middle.
        assert!(close(low, -0.18), "{low}");
        let at = if is_behind { high - 0.1 } else { low + 0.1 };
        assert!(close(outside.middle().y, at), "{count}: {outside:?}");
    }
}

/// What the weights go by is what is drawn, whatever the design.
#[test]
fn the_plan_shows_the_facing_that_is_weighed() {
    for design in designs() {
        let Some(analysis) = analyzed(&design) else { continue };
        let facing = Facing::new(&design);
        let bodies = (0..facing.shells.len()).filter_map(|body| facing.outside(body));
        let whole = bodies.reduce(facing::Plan::join).unwrap();
        let above = plan(&design, &analysis, System::Metric, 1.0);
        let drawn = all_in(&above, Role::Facing);
        let ends = [
            (drawn.low.x, whole.left),
            (drawn.high.x, whole.right),
            (drawn.low.y, whole.front),
            (drawn.high.y, whole.back),
        ];
        assert!(ends.iter().all(|(a, b)| (a - b).abs() < 1e-9), "{}: {ends:?}", what(&design));
        if design.path.layout == Layout::Above {
            let seen =
                all_in(&section(&design, &analysis, &[], System::Metric, 1.0), Role::Facing);
            assert!((seen.width() - whole.length()).abs() < 1e-9, "{}", what(&design));
        }
    }
}

#[test]
fn the_chimney_stands_where_the_last_run_ends() {
    let mut design = Design::demonstration();
    for (count, is_right) in [(5, true), (4, false)] {
        design.path.run_count = count;
        let analysis = analyzed(&design).unwrap();
        let drawing = section(&design, &analysis, &[], System::Metric, 1.0);
        let cleanout = drawing
            .items
            .iter()
            .find(|item| item.role == Role::Cleanout)
            .map(|item| item.shape.extent(drawing.text_size).middle().x);
        assert_eq!(cleanout.unwrap() > 0.8, is_right, "{count} runs");
    }
}

#[test]
fn findings_are_marked_by_number() {
    pictures(|design, drawing| {
        let marks =
            drawing.items.iter().filter(|item| matches!(item.shape, Shape::Mark { .. }));
        let analysis = analyzed(design).unwrap();
        let count = marks.count();
        assert!(count == 0 || count == check(design, &analysis).len());
    });
}

/// A mark stands in the part of which it tells, or a line leads from there to it, on a phone too, where
/// the page makes texts up to 2.4 times as large: the firebox reaches from 0 to its width and its height.
#[test]
fn marks_stay_in_their_part_or_are_led_to_it() {
    let mut seen = [0, 0];
    for example in Example::ALL {
        let design = example.design();
        let analysis = analyzed(&design).unwrap();
        let findings = check(&design, &analysis);
        for text_scale in [1.0, 1.3, 1.7, 2.0, 2.2, 2.4] {
            let drawing = section(&design, &analysis, &findings, System::Metric, text_scale);
            let chamber = Extent::new(0.0, 0.0, design.firebox.width, design.firebox.height);
            let is_in = |at: Point| {
                chamber.low.x <= at.x
                    && at.x <= chamber.high.x
                    && chamber.low.y <= at.y
                    && at.y <= chamber.high.y
            };
            for item in &drawing.items {
                let Shape::Mark { at, .. } = item.shape else { continue };
                if !matches!(item.place, Some(Place::Door | Place::Fire | Place::Firebox)) {
                    continue;
                }
                let is_led = drawing.items.iter().any(|line| match &line.shape {
                    Shape::Line { points } => {
                        points.last() == Some(&at) && points.first().is_some_and(|p| is_in(*p))
                    }
                    _ => false,
                });
                assert!(is_in(at) || is_led, "{example:?} {text_scale}: {item:?}");
                seen[usize::from(is_led)] += 1;
            }
        }
    }
    assert!(0 < seen[0] && 0 < seen[1], "{seen:?}");
}

#[test]
fn the_temperature_scale_has_twelve_rising_steps() {
    let scale = heat_scale();
    assert_eq!(scale.len(), 12);
    assert!(scale.windows(2).all(|pair| pair[0].1 < pair[1].1));
    for (step, lower) in scale {
        assert_eq!(heat_step(lower), step);
        assert_eq!(heat_step(lower - 1e-6), step.saturating_sub(1));
    }
    assert_eq!(heat_step(0.0), 0);
    assert_eq!(heat_step(f64::NAN), 0);
    assert_eq!(heat_step(5000.0), 11);
}

pub(super) const PALETTE: Palette = Palette {
    paper: (247, 243, 234),
    ink: (43, 42, 40),
    quiet: (139, 133, 120),
    ember: (184, 73, 26),
    slate: (70, 90, 110),
    scale: 1.0,
    font: 13,
};

/// At the ends of a part the cursor reads what the analysis has there, in the middle of a run
/// halfway between; the wall of a run is its mean.
#[test]
fn the_cursor_reads_what_is_drawn() {
    let design = Design::demonstration();
    let analysis = analyzed(&design).unwrap();
    let fire = &analysis.height_of_fire;
    let plot = temperatures(&design, &analysis, System::Metric);
    let degrees = |kelvin: f64| format!("{:.0} °C", kelvin - 273.15);
    let whole = plot.x_range.1;
    let said = |meters: f64| plot.clone().with_cursor(meters / whole).said().unwrap();
    let length = design.path.run_length;
    let first = said(0.5 * length);
    assert!(first.contains("run 1:"), "{first}");
    let mean = 0.5 * (fire.firebox_outlet + fire.runs[0].outlet);
    assert!(first.contains(&format!("gas {}", degrees(mean))), "{first}");
    assert!(first.contains(&format!("inner wall {}", degrees(fire.runs[0].wall))), "{first}");
    let end = said(whole);
    assert!(end.contains("chimney") && end.contains(&degrees(fire.chimney_mouth_gas)), "{end}");
    let second = said(1.5 * length);
    assert!(second.contains("run 2:"), "{second}");
}

#[test]
fn plots_are_finite_and_drawn() {
    for design in designs().into_iter().step_by(5) {
        let Some(analysis) = analyzed(&design) else {
            continue;
        };
        for system in [System::Metric, System::Us] {
            let plot = temperatures(&design, &analysis, system);
            let inside = |(x, y): &(f64, f64)| {
                (plot.x_range.0..=plot.x_range.1).contains(x)
                    && (plot.y_range.0..=plot.y_range.1).contains(y)
            };
            assert!(plot.curves.iter().flat_map(|curve| &curve.points).all(inside));
            assert!(plot.limits.iter().any(|limit| limit.name == LimitName::DewPoint));
            let mut text = String::new();
            let area = SVGBackend::with_string(&mut text, (640, 360)).into_drawing_area();
            let plot = plot.with_cursor(0.5);
            let (left, right) = draw(&plot, &area, &PALETTE).unwrap();
            assert!(0 < left && left < right && right <= 640);
            drop(area);
            assert!(text.contains("polyline") && text.contains("length along the path"));
        }
    }
}
