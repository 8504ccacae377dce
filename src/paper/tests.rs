//! Sheets of the examples, read by a reader of XML.

use super::*;
use crate::analysis::analyze;
use crate::analysis::day::{Setup, day};
use crate::design::examples::Example;
use crate::design::field::FIELDS;
use crate::rules::{Answer, answer, check};
use crate::study::uncertainty::{self, Fractions, Plan};
use crate::words::sources::cited;

const PRINT: Print<'static> = Print {
    system: System::Metric,
    date: Some("2031-02-03"),
    address: Some("https://heaters.example/x/"),
};

fn file(design: &Design, print: Print<'_>, paper: Paper) -> (String, Vec<Finding>) {
    file_with(design, print, paper, None)
}

fn file_with(
    design: &Design,
    print: Print<'_>,
    paper: Paper,
    worth: Option<&Uncertainty>,
) -> (String, Vec<Finding>) {
    let analysis = analyze(design).unwrap();
    let day = day(design, &Setup::COARSE).ok();
    let findings = listed(&check(design, &analysis));
    let heater = Heater {
        design,
        analysis: &analysis,
        day: day.as_ref(),
        edges: None,
        worth,
        findings: &findings,
    };
    (document(heater, print, paper), findings)
}

fn parsed(text: &str) -> roxmltree::Document<'_> {
    let options = roxmltree::ParsingOptions { allow_dtd: true, ..Default::default() };
    roxmltree::Document::parse_with_options(text, options).unwrap()
}

fn said(node: roxmltree::Node<'_, '_>) -> String {
    let texts = node.descendants().filter(roxmltree::Node::is_text);
    texts.filter_map(|text| text.text()).collect()
}

#[test]
fn every_example_is_whole_in_either_system() {
    for example in Example::ALL {
        let design = words::examples::named(example);
        for system in [System::Metric, System::Us] {
            let (text, findings) = file(&design, Print { system, ..PRINT }, Paper::A4);
            let read = parsed(&text);
            let all = said(read.root_element());
            for finding in &findings {
                let words = words::finding(finding, system);
                for part in [words.title.as_str(), words.reason, words.remedy] {
                    assert!(all.contains(part), "{part}");
                }
                assert!(all.contains(&cited(finding.source)));
                let range = words::validity::validity(finding.rule, system);
                assert!(all.contains(&format!("Range of validity: {range}")), "{range}");
            }
            for field in &FIELDS {
                assert!(all.contains(words::label(field.id)), "{:?}", field.id);
            }
            for caution in words::CAUTIONS {
                assert!(all.contains(&*caution), "{caution}");
            }
            assert!(all.contains(words::structure::scope(design.site.rule_set)));
            let link = format!("https://heaters.example/x/#{}", link::encode(&design));
            assert!(all.contains(&link) && all.contains("2031-02-03"));
            assert!(all.split_whitespace().all(|word| !["NaN", "inf", "-inf"].contains(&word)));
        }
    }
}

/// What holds in 43 of 100 cases is no plain yes, and what was the same in all cases is told of the
/// cases alone.
#[test]
fn a_yes_says_in_how_many_cases() {
    let design = Design::demonstration();
    let plan = Plan::new(&design, uncertainty::Setup::standard(20));
    let mut worth = plan.sum_up(&plan.samples().collect::<Vec<_>>()).unwrap();
    worth.answers.will_it_draw =
        Fractions { yes: 0.434, look_again: 0.566, ..Fractions::default() };
    worth.answers.will_the_heat_stay =
        Fractions { yes: 0.95, no: 0.05, ..Fractions::default() };
    let (text, findings) = file_with(&design, PRINT, Paper::A4, Some(&worth));
    assert_eq!(answer(Question::Draw, &findings), Answer::Yes);
    assert_eq!(answer(Question::Heat, &findings), Answer::Yes);
    let read = parsed(&text);
    let of_class = |class| {
        let found = read.descendants().find(|node| node.attribute("class") == Some(class));
        said(found.unwrap())
    };
    let cover = of_class("p-answers");
    let draws = "Will it draw?Yes, if all is as stated: in 43 of 100 cases";
    assert!(cover.contains(draws), "{cover}");
    assert!(cover.contains("Yes in 43 of 100 cases, look again in 57."), "{cover}");
    assert!(cover.contains("Will the heat stay?Yes"), "{cover}");
    assert!(cover.contains("Yes in 95 of 100 cases, no in 5."), "{cover}");
    let headings = read.descendants().filter(|node| node.has_tag_name("h3")).map(said);
    let headings: Vec<String> = headings.collect();
    let heading = "Will it draw? Yes, if all is as stated: in 43 of 100 cases";
    assert!(headings.iter().any(|told| told == heading), "{headings:?}");
    let parts = read.descendants().filter(|node| node.attribute("class") == Some("p-part"));
    let with = parts.map(said).filter(|told| told.contains("without the firing day"));
    let with: Vec<String> = with.collect();
    assert!(
        matches!(with.as_slice(), [told] if told.starts_with("How sure the figures are")),
        "{with:?}"
    );
    let (plain, _) = file(&design, PRINT, Paper::A4);
    assert!(!plain.contains("without the firing day") && !plain.contains("of 100 cases"));
}

#[test]
fn notes_are_numbered_in_the_order_in_which_they_are_cited() {
    let design = Example::TallStack.design();
    let (text, findings) = file(&design, PRINT, Paper::A4);
    let read = parsed(&text);
    let numbers = read.descendants().filter(|node| node.has_tag_name("sup")).map(said);
    let numbers: Vec<usize> = numbers.map(|text| text.parse().unwrap()).collect();
    let notes =
        read.descendants().find(|node| node.attribute("class") == Some("p-notes")).unwrap();
    let notes: Vec<String> =
        notes.children().filter(roxmltree::Node::is_element).map(said).collect();
    assert_eq!(numbers.len(), findings.len());
    let mut highest = 0;
    for (number, finding) in numbers.into_iter().zip(&findings) {
        assert!(number <= highest + 1);
        highest = highest.max(number);
        assert_eq!(notes[number - 1], cited(finding.source));
    }
    assert_eq!(notes.len(), highest);
}

/// What a sheet of either paper has between its margins (mm): 210 by 297 and 215.9 by 279.4.
#[test]
fn every_drawing_fits_either_paper_at_a_legible_size() {
    for example in Example::ALL {
        for system in [System::Metric, System::Us] {
            let (text, _) = file(&example.design(), Print { system, ..PRINT }, Paper::Letter);
            let read = parsed(&text);
            let drawings = read.descendants().filter(|node| node.has_tag_name("figure"));
            let mut seen = 0;
            for figure in drawings {
                seen += 1;
                let drawing = figure.first_element_child().unwrap();
                let side = |name| {
                    let side = drawing.attribute(name).unwrap().strip_suffix("mm").unwrap();
                    side.parse::<f64>().unwrap()
                };
                assert!(side("width") <= 210.0 - 30.0 + 1e-2, "{}", side("width"));
                // Headings, captions and key take the rest.
                assert!(side("height") <= 279.4 - 30.0 - 45.0, "{}", side("height"));
                let sizes =
                    drawing.descendants().filter_map(|node| node.attribute("font-size"));
                for size in sizes {
                    let size: f64 = size.parse().unwrap();
                    // 5.5 points are 1.94 mm.
                    assert!((1.94..=4.0).contains(&size), "{example:?} {size}");
                }
            }
            // Section, front, plan, path, all courses in section, and their plans.
            assert!(5 + 8 < seen, "{example:?}: {seen}");
        }
    }
}

/// Every course stands below one plan, by its number among all of them, and its box.
#[test]
fn every_course_has_its_plan() {
    for example in Example::ALL {
        let design = example.design();
        let (text, _) = file(&design, PRINT, Paper::A4);
        let read = parsed(&text);
        let plans = courses::plans(&design, Bricks::of(&design));
        let mut boxes: Vec<usize> = Vec::new();
        for caption in read.descendants().filter(|node| node.has_tag_name("figcaption")) {
            let said = said(caption);
            let numbers = said.split('\u{25a1}').skip(1);
            boxes.extend(numbers.map(|rest| {
                rest.trim_start().split(':').next().unwrap().parse::<usize>().unwrap()
            }));
        }
        boxes.sort_unstable();
        let all: Vec<usize> = (1..=plans.courses.len()).collect();
        assert_eq!(boxes, all, "{example:?}");
    }
}

#[test]
fn ids_are_apart_and_nothing_comes_from_elsewhere() {
    let (text, _) = file(&Design::demonstration(), PRINT, Paper::A4);
    let read = parsed(&text);
    let mut ids: Vec<&str> =
        read.descendants().filter_map(|node| node.attribute("id")).collect();
    let count = ids.len();
    ids.sort_unstable();
    ids.dedup();
    assert_eq!(ids.len(), count);
    for node in read.descendants().filter(roxmltree::Node::is_element) {
        assert!(!["script", "link", "img", "iframe", "a"].contains(&node.tag_name().name()));
        assert!(node.attribute("style").is_none() && node.attribute("href").is_none());
        if let Some(label) = node.attribute("aria-labelledby") {
            assert!(ids.contains(&label), "{label}");
        }
    }
}

#[test]
fn a_name_is_a_text_everywhere() {
    let nasty = "</style><script>alert(1)</script> \"} @page \\ \u{1}";
    let design = Design { name: nasty.into(), ..Design::demonstration() };
    let (text, _) = file(&design, PRINT, Paper::A4);
    assert!(!text.contains("<script"));
    assert_eq!(text.matches("</style>").count(), 1);
    let read = parsed(&text);
    let heading = read.descendants().find(|node| node.has_tag_name("h1")).unwrap();
    assert_eq!(said(heading), nasty.replace('\u{1}', "\u{fffd}"));
    // Nothing but letters, marks and numbers of characters within the marks of the style sheet.
    let style = said(read.descendants().find(|node| node.has_tag_name("style")).unwrap());
    let (_, content) = style.split_once("@top-left { content: \"").unwrap();
    let (content, _) = content.split_once("\"; } }").unwrap();
    let plain = |c: char| c.is_ascii_alphanumeric() || " .,\\".contains(c);
    assert!(content.chars().all(plain), "{content}");
}

/// Elements without content would stay open where HTML is read as HTML.
#[test]
fn only_what_html_closes_by_itself_is_closed_at_once() {
    let (text, _) = file(&Design::demonstration(), PRINT, Paper::A4);
    for (before, _) in text.match_indices("/>") {
        let start = text[..before].rfind('<').unwrap();
        let name = text[start + 1..before].split([' ', '/']).next().unwrap();
        let known = ["meta", "rect", "path", "polyline", "polygon"];
        assert!(known.contains(&name), "{name}");
    }
}

#[test]
fn without_an_address_the_link_is_told_and_not_coded() {
    let design = Design::demonstration();
    let print = Print { address: None, date: None, ..PRINT };
    let (text, _) = file(&design, print, Paper::A4);
    assert!(text.contains(&link::encode(&design)) && !text.contains("class=\"p-qr\""));
    // A link that no code holds is told all the same.
    let far = format!("https://heaters.example/{}/", "x".repeat(3000));
    let (text, _) = file(&design, Print { address: Some(&far), ..PRINT }, Paper::A4);
    assert!(text.contains("too long for a code") && !text.contains("class=\"p-qr\""));
}
