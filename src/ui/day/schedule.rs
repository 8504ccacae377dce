//! The figures of the day, in groups.

use super::Work;
use crate::ui::dom::{Tag, tag};
use longsmoke::words::day::{DayFigure, FigureGroup, figures};

pub fn schedule(work: Work) -> Tag {
    tag("div").class("schedule").live(move |list| {
        let groups = work.read(figures);
        list.children(groups.iter().flatten().map(group))
    })
}

fn group(group: &FigureGroup) -> Tag {
    let figures = tag("dl").children(group.figures.iter().map(line));
    tag("div").child(tag("h3").text(group.title)).child(figures)
}

fn line(figure: &DayFigure) -> Tag {
    let value =
        tag("dd").attr("data-testid", &format!("day-{}", figure.id)).text(&figure.value);
    let line = tag("div").child(tag("dt").text(figure.name)).child(value);
    if figure.note.is_empty() {
        return line;
    }
    line.child(tag("dd").class("note").text(&figure.note))
}
