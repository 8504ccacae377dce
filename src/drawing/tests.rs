//! Pictures of many designs: finite, within bounds, texts apart.

use super::path::unrolled;
use super::plot::{LimitName, Palette, draw, temperatures};
use super::section::section;
use super::*;
use crate::analysis::{Analysis, analyze};
use crate::design::{Design, Layout, RunOverride};
use crate::rules::check;
use crate::units::System;
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
    for design in designs() {
        let Some(analysis) = analyzed(&design) else {
            continue;
        };
        seen += 1;
        let findings = check(&design, &analysis);
        for system in [System::Metric, System::Us] {
            look(&design, &section(&design, &analysis, &findings, system));
            look(&design, &unrolled(&design, &analysis, system));
        }
    }
    assert!(seen > 100, "only {seen} designs can be analyzed");
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
    let design = Design::demonstration();
    let analysis = analyzed(&design).unwrap();
    let drawing = section(&design, &analysis, &[], System::Metric);
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

#[test]
fn the_chimney_stands_where_the_last_run_ends() {
    let mut design = Design::demonstration();
    for (count, is_right) in [(5, true), (4, false)] {
        design.path.run_count = count;
        let analysis = analyzed(&design).unwrap();
        let drawing = section(&design, &analysis, &[], System::Metric);
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

const PALETTE: Palette = Palette {
    paper: (247, 243, 234),
    ink: (43, 42, 40),
    quiet: (139, 133, 120),
    ember: (184, 73, 26),
    slate: (70, 90, 110),
    scale: 1.0,
    font: 13,
};

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
            draw(&plot, &area, &PALETTE).unwrap();
            drop(area);
            assert!(text.contains("polyline") && text.contains("length along the path"));
        }
    }
}
