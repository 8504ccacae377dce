//! Files read back by readers that are not ours.

use super::*;
use crate::analysis::analyze;
use crate::design::Design;
use crate::design::examples::Example;
use crate::drawing::{Drawing, front, path, plan, section};
use crate::rules::check;
use crate::study::compare::Column;
use crate::units::{System, celsius};
use crate::words::passage::Passage;

/// What breaks a file whose writer forgets that a text is a text.
const NASTY: &str = "<b a='1'>&amp; \"x\" ]]> </text>\u{1}\u{ffff}";

fn drawings(design: &Design, system: System) -> Vec<Drawing> {
    let analysis = analyze(design).unwrap();
    let findings = check(design, &analysis);
    vec![
        section::section(design, &analysis, &findings, system, 1.0),
        section::to_measure(design, &analysis, system),
        front::front(design, &analysis, system, 1.0),
        plan::plan(design, &analysis, system, 1.0),
        path::unrolled(design, &analysis, system),
    ]
}

#[test]
fn a_drawing_is_well_formed_with_its_size_in_millimeters() {
    for example in Example::ALL {
        for system in [System::Metric, System::Us] {
            for drawing in drawings(&example.design(), system) {
                let frame = svg::Frame { id: "d", title: NASTY, scale: 40.0 };
                let text = svg::document(&drawing, frame);
                let read = roxmltree::Document::parse(&text).unwrap();
                let root = read.root_element();
                assert_eq!(root.tag_name().namespace(), Some("http://www.w3.org/2000/svg"));
                // At 40 mm a meter, and 1 mm around.
                let expected = 40.0 * (drawing.high.x - drawing.low.x) + 2.0;
                let wide = root.attribute("width").unwrap().strip_suffix("mm").unwrap();
                assert!((wide.parse::<f64>().unwrap() - expected).abs() < 1e-3, "{wide}");
                let of = |name| root.children().find(|child| child.has_tag_name(name)).unwrap();
                // XML has no place for the last two characters.
                let title = NASTY.replace(['\u{1}', '\u{ffff}'], "\u{fffd}");
                assert_eq!(of("title").text(), Some(title.as_str()));
                assert_eq!(of("desc").text(), Some(drawing.description.as_str()));
                let written = root.descendants().filter(|node| node.has_tag_name("text"));
                let written: Vec<&str> = written.filter_map(|node| node.text()).collect();
                let drawn: Vec<&str> =
                    drawing.items.iter().filter_map(|item| item.shape.text()).collect();
                assert_eq!(written, drawn);
            }
        }
    }
}

/// A page may forbid styles within it, and no file asks for another.
#[test]
fn a_drawing_has_no_style_of_its_own_and_no_reference_outward() {
    for drawing in drawings(&Design::demonstration(), System::Metric) {
        let text = svg::file(&drawing, "title");
        let read = roxmltree::Document::parse(&text).unwrap();
        for node in read.descendants().filter(roxmltree::Node::is_element) {
            assert!(!["style", "script", "image", "use"].contains(&node.tag_name().name()));
            for attribute in node.attributes() {
                let name = attribute.name();
                assert!(!name.starts_with("on") && name != "style" && name != "href", "{name}");
                let value = attribute.value();
                assert!(!value.contains("url(") || value.starts_with("url(#"), "{value}");
            }
        }
    }
}

/// Codes and values of a DXF file.
fn pairs(text: &str) -> Vec<(u16, &str)> {
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(lines.len() % 2, 0);
    lines.chunks(2).map(|pair| (pair[0].parse().unwrap(), pair[1])).collect()
}

#[test]
fn a_drawing_for_cad_has_lines_in_pairs_and_known_layers() {
    for example in Example::ALL {
        let design = example.design();
        let analysis = analyze(&design).unwrap();
        for system in [System::Metric, System::Us] {
            let text = dxf::drawings(&design, &analysis, system);
            assert!(text.is_ascii());
            let pairs = pairs(&text);
            assert_eq!(pairs.last(), Some(&(0, "EOF")));
            let (tables, entities) =
                pairs.split_at(pairs.iter().position(|pair| *pair == (2, "ENTITIES")).unwrap());
            let named = |name| tables.contains(&(2, name));
            for (_, layer) in entities.iter().filter(|(code, _)| *code == 8) {
                assert!(named(*layer), "{layer}");
            }
            let count = |what| entities.iter().filter(|pair| **pair == (0, what)).count();
            assert_eq!(count("POLYLINE"), count("SEQEND"));
            assert!(count("TEXT") > 20 && count("LINE") > 40);
        }
    }
}

/// 14 kg charge, five runs of 2 m over the firebox: the numbers of the example by hand.
#[test]
fn a_drawing_for_cad_measures_as_the_design() {
    let design = Design::demonstration();
    let analysis = analyze(&design).unwrap();
    for (system, unit) in [(System::Metric, 0.001), (System::Us, 0.0254)] {
        let text = dxf::drawings(&design, &analysis, system);
        let pairs = pairs(&text);
        let vertices = pairs
            .windows(4)
            .filter(|window| window[0] == (0, "VERTEX") && window[1] == (8, "OUTLINE"));
        let vertices = vertices.map(|window| {
            [window[2].1, window[3].1].map(|length| length.parse::<f64>().unwrap() * unit)
        });
        // The first rectangle is the masonry, the second the chimney.
        let corners: Vec<[f64; 2]> = vertices.take(8).collect();
        let least =
            |of: &[[f64; 2]], axis: usize| of.iter().map(|at| at[axis]).fold(9.0, f64::min);
        let most =
            |of: &[[f64; 2]], axis: usize| of.iter().map(|at| at[axis]).fold(-9.0, f64::max);
        let (masonry, chimney) = corners.split_at(4);
        // 114 mm of firebox wall, 6 mm of gap, 115 mm of facing to the left of the firebox; beyond
        // runs of 2 m 64 mm of core, gap and facing.
        assert!((least(masonry, 0) + 0.235).abs() < 1e-6);
        assert!((most(masonry, 0) - 2.185).abs() < 1e-6);
        // 620 mm of firebox, 100 mm under the runs, five runs of 240 mm with four baffles of 64 mm,
        // a cap of 150 mm.
        assert!((most(masonry, 1) - 2.326).abs() < 1e-6);
        // The chimney ends where it does, without a break.
        assert!((most(chimney, 1) - 8.2).abs() < 1e-6);
        // A flue of 200 mm in 20 mm of liner, 40 mm of wool and 115 mm of brick.
        assert!((most(chimney, 0) - least(chimney, 0) - 0.550).abs() < 1e-6);
    }
}

fn rows(text: &str) -> (Vec<String>, Vec<Vec<String>>) {
    let mut reader = csv_reader(text);
    let own = |record: &::csv::StringRecord| record.iter().map(String::from).collect();
    let heads = own(reader.headers().unwrap());
    let rows = reader.records().map(|record| own(&record.unwrap())).collect();
    (heads, rows)
}

fn csv_reader(text: &str) -> ::csv::Reader<&[u8]> {
    ::csv::Reader::from_reader(text.as_bytes())
}

#[test]
fn the_path_is_read_back_in_its_units() {
    let design = Design::demonstration();
    let analysis = analyze(&design).unwrap();
    let (heads, found) = rows(&csv::path(&design, &analysis, System::Metric));
    assert_eq!(heads[..4], ["Part", "Length (m)", "Width (mm)", "Height (mm)"]);
    let gas_out = heads.iter().position(|head| head == "Gas out (C)").unwrap();
    // Firebox, five runs, chimney.
    assert_eq!(found.len(), 7);
    assert_eq!(found[1][..4], ["Run 1", "2", "140", "240"]);
    for (row, run) in found[1..6].iter().zip(&analysis.height_of_fire.runs) {
        assert!((row[gas_out].parse::<f64>().unwrap() - celsius(run.outlet)).abs() < 1e-6);
    }
    let (heads, found) = rows(&csv::path(&design, &analysis, System::Us));
    assert_eq!(heads[..4], ["Part", "Length (ft)", "Width (in)", "Height (in)"]);
    // 2 m are 6.5617 ft, 140 mm 5.5118 in.
    assert!((found[1][1].parse::<f64>().unwrap() - 6.5617).abs() < 1e-4);
    assert!((found[1][2].parse::<f64>().unwrap() - 5.5118).abs() < 1e-4);
}

#[test]
fn the_comparison_has_a_row_for_each_number_of_runs() {
    let design = Design::demonstration();
    let columns = [1, 12].map(|runs| Column::new(&design, runs));
    for system in [System::Metric, System::Us] {
        let (heads, found) = rows(&csv::compare(&columns, system));
        assert_eq!(found.iter().map(|row| row[0].as_str()).collect::<Vec<_>>(), ["1", "12"]);
        assert!(heads.iter().all(|head| head.is_ascii()), "{heads:?}");
    }
}

#[test]
fn no_cell_is_taken_for_a_formula() {
    let nasty =
        ["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\r=1", "a,b", "say \"no\"", "two\nlines"];
    let cells: Vec<csv::Cell> = nasty.map(csv::Cell::from).into();
    let heads: Vec<String> = nasty.map(String::from).into();
    let (read, found) = rows(&csv::write(&heads, &[cells]));
    for (text, expected) in read.iter().chain(&found[0]).zip(nasty.iter().chain(&nasty)) {
        assert!(!text.starts_with(['=', '+', '-', '@', '\t', '\r']), "{text}");
        assert_eq!(text.strip_prefix('\'').unwrap_or(text), *expected);
    }
    // A figure below zero is a figure.
    assert_eq!(csv::write(&["a".into()], &[vec![csv::Cell::Number(-1.5)]]), "a\r\n-1.5\r\n");
    let none = [f64::NAN, f64::INFINITY].map(csv::Cell::Number).to_vec();
    assert_eq!(csv::write(&["a".into(), "b".into()], &[none]), "a,b\r\n,\r\n");
}

#[test]
fn tables_of_a_passage_stand_under_their_headings() {
    let rows = [["Brick", "=2"], ["Sand", "-0.5"]].map(|row| row.to_vec());
    let inner = Passage::new("Core").table(&["What", "How many"], rows);
    let text = csv::passage(&Passage::new("Materials").text("Read me.").folded(inner));
    assert_eq!(text, "Core\r\nWhat,How many\r\nBrick,'=2\r\nSand,-0.5\r\n");
}

#[test]
fn numbers_have_a_point_and_no_needless_digits() {
    let texts =
        [(1.0, "1"), (-0.0001, "0"), (0.125, "0.125"), (-2.5, "-2.5"), (1200.0, "1200")];
    for (value, text) in texts {
        assert_eq!(decimal(value, 3), text);
    }
    assert_eq!(decimal(1200.0, 0), "1200");
}

/// Red, green and blue of a color in OKLCH, by Ottosson's matrices.
fn hex(lightness: f64, chroma: f64, hue: f64) -> String {
    let (a, b) = (chroma * libm::cos(hue.to_radians()), chroma * libm::sin(hue.to_radians()));
    let cube = |part: f64| part * part * part;
    let l = cube(lightness + 0.3963377774 * a + 0.2158037573 * b);
    let m = cube(lightness - 0.1055613458 * a - 0.0638541728 * b);
    let s = cube(lightness - 0.0894841775 * a - 1.2914855480 * b);
    let linear = [
        4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s,
        -1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s,
        -0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s,
    ];
    let byte = |part: f64| {
        let part = part.clamp(0.0, 1.0);
        let curved = if part <= 0.0031308 {
            12.92 * part
        } else {
            1.055 * libm::pow(part, 1.0 / 2.4) - 0.055
        };
        format!("{:02x}", format!("{:.0}", 255.0 * curved).parse::<u8>().unwrap())
    };
    format!("#{}", linear.map(byte).concat())
}

/// Drawings in files have the colors that the page has in daylight.
#[test]
fn colors_are_those_of_the_page() {
    let css = include_str!("../../style/page.css");
    let color = |name: &str| {
        let (_, rest) = css.split_once(&format!("--{name}: light-dark(oklch(")).unwrap();
        let (parts, _) = rest.split_once(')').unwrap();
        let parts: Vec<f64> =
            parts.split(' ').map(|part| part.trim_end_matches('%').parse().unwrap()).collect();
        hex(parts[0] / 100.0, parts[1], parts[2])
    };
    for (step, expected) in svg::GAS.iter().enumerate() {
        assert_eq!(color(&format!("gas-{step}")), *expected);
    }
    let drawings = drawings(&Example::Bench.design(), System::Metric);
    let text: String = drawings.iter().map(|drawing| svg::file(drawing, "")).collect();
    let named = ["ink", "quiet", "edge", "ember", "slate", "look", "masonry", "facing", "wool"];
    for name in named.into_iter().chain(["masonry-line", "facing-line", "wool-line"]) {
        assert!(text.contains(&color(name)), "{name} {}", color(name));
    }
}

/// Every piece is on the layer of its course, at its height; the reader in Python looks closer.
#[test]
fn every_course_is_a_layer_of_its_own() {
    use crate::courses::brick::Bricks;
    use crate::courses::plans;
    let design = Design::demonstration();
    let plans = plans(&design, Bricks::of(&design));
    let text = dxf::courses(&plans, System::Metric);
    let lines: Vec<&str> = text.split("\r\n").collect();
    let pairs = lines.chunks_exact(2);
    let mut layers: Vec<&str> = Vec::new();
    let mut thick = 0;
    for (before, pair) in pairs.clone().zip(pairs.skip(1)) {
        if before == ["0", "LAYER"] {
            layers.push(pair[1]);
        }
        thick += usize::from(pair[0] == "39");
    }
    let own = layers.iter().filter(|layer| layer.starts_with("COURSE_"));
    assert_eq!(own.count(), plans.courses.len());
    assert!(layers.iter().all(|layer| layer.len() <= 31), "{layers:?}");
    let pieces: usize = plans.courses.iter().map(|course| course.pieces.len()).sum();
    assert!(pieces + plans.clear.len() <= thick, "{thick}");
    // As many rows as pieces below the heads.
    assert_eq!(csv::courses(&plans).lines().count(), 1 + pieces);
    let drawn = svg::courses(&plans, System::Us);
    roxmltree::Document::parse(&drawn).unwrap();
}
