//! Sheets to print and files for other programs: made by a worker when asked for.

use super::dom::{Tag, button, tag};
use super::labor::{Job, Task};
use super::menu::menu;
use super::signal::RwSignal;
use super::workspace::{Notice, Workspace, same_but_name};
use super::{bar, browser, texts};
use longsmoke::service::order;
use longsmoke::study::edges::Part;
use longsmoke::units::System;
use std::time::Duration;

const JOB: Job = Job {
    rest: Duration::ZERO,
    rank: 0,
    ask: |_| order::Job::Paper(String::new()),
    same: |one, other| one == other,
    in_units: true,
};

/// What the menu offers: its label, the name in the order, and how the file name ends.
const FILES: [(texts::Text, &str, &str); 17] = [
    (texts::sheets_a4, "sheet-a4", "-sheets.html"),
    (texts::sheets_letter, "sheet-letter", "-sheets.html"),
    (texts::section, "picture-section", "-section.svg"),
    (texts::section, "picture-section", "-section.png"),
    (texts::front, "picture-front", "-front.svg"),
    (texts::front, "picture-front", "-front.png"),
    (texts::plan, "picture-plan", "-plan.svg"),
    (texts::plan, "picture-plan", "-plan.png"),
    (texts::course_plans, "picture-courses", "-courses.svg"),
    (texts::cad, "dxf", ".dxf"),
    (texts::every_brick, "dxf-courses", "-courses.dxf"),
    (texts::every_brick, "csv-courses", "-courses.csv"),
    (texts::path_table, "csv-path", "-path.csv"),
    (texts::day, "csv-day", "-day.csv"),
    (texts::materials, "csv-materials", "-materials.csv"),
    (texts::strip, "csv-compare", "-compare.csv"),
    (texts::result, "json-result", "-result.json"),
];

/// A button that prints and a menu of files; what becomes of them.
pub fn paper(workspace: Workspace) -> ([Tag; 2], Tag) {
    let asked = RwSignal::new(None);
    let name = RwSignal::new(String::new());
    let task = Task::asked(workspace, JOB, asked, move |_, what| {
        asked.set(None);
        if !browser::give(&name.get_untracked(), what) {
            workspace.notice.set(Some(Notice::NotSaved));
        }
    });
    let ask = move |kind: &str, file: String| {
        name.set(file);
        let units = match workspace.system.get_untracked() {
            System::Metric => "metric",
            System::Us => "us",
        };
        let words = [kind, units, &browser::today(), &browser::address(), &edges(workspace)];
        let words = words.map(|word| word.replace(',', "%2C").replace(' ', "_"));
        asked.set(Some(order::Job::Paper(words.join(","))));
    };
    let files = FILES.map(|(label, kind, ending)| {
        let save = move || ask(kind, bar::file_name(workspace, ending));
        let format = ending.split('.').next_back().unwrap_or_default();
        tag("li").child(button(save).text(label()).text(" \u{b7} ").text(format))
    });
    let state = move || asked.with(Option::is_some).then(|| task.in_words());
    let state = tag("span")
        .class("kept")
        .attr("role", "status")
        .attr("data-testid", "paper-state")
        .live_text(state);
    let print = button(move || ask("print", String::new())).text(texts::print());
    ([print, menu("menu", texts::save_as(), tag("ul").children(files))], state)
}

/// The edges in words, or why there are none, where that is known of the present design.
fn edges(workspace: Workspace) -> String {
    let known = workspace.edges.get_untracked();
    let known = known
        .filter(|(of, _)| workspace.design.with_untracked(|design| same_but_name(of, design)));
    let part = known.map(|(_, edges)| match edges {
        Ok(edges) => Part::Found(Box::new(edges)),
        Err(failure) => Part::Failed(failure),
    });
    part.map(|part| part.to_string()).unwrap_or_default()
}
