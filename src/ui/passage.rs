//! Shows a passage: text, lists, tables.
//!
//! It is made anew whenever what it says changes; what was unfolded, chosen or in focus stays so.

use super::dom::{Tag, button, svg, tag, value_of, watch};
use super::icon::icon;
use super::texts;
use leptos::prelude::*;
use longsmoke::words::passage::{Block, Cell, Passage, Table};
use std::collections::BTreeMap;
use wasm_bindgen::prelude::*;
use web_sys::{Element, HtmlElement};

/// What a reader has unfolded or chosen, by its place in the passage.
type Choices = BTreeMap<String, usize>;

/// Who shows a passage.
#[derive(Clone, Copy)]
struct Reader {
    choices: RwSignal<Choices>,
}

/// What stands below the heading of a passage that may change or not be there.
pub fn passage_view(read: impl Fn() -> Option<Passage> + 'static) -> Tag {
    let reader = Reader { choices: RwSignal::new(Choices::new()) };
    let body = tag("div").class("told");
    let element = body.element().clone();
    watch(move || {
        let passage = read();
        let focus = focused(&element);
        element.set_text_content(None);
        if let Some(passage) = passage {
            let _ = Tag::from(element.clone()).children(reader.blocks("p", &passage.blocks));
        }
        if let Some(focus) = focus {
            give_focus(&element, &focus);
        }
    });
    body
}

/// Columns beyond which a table may be wider than the page.
const WIDE: usize = 5;

/// Attribute with the place in the passage of what may have the focus.
const PLACE: &str = "data-place";

/// Place of what has the focus within an element.
fn focused(within: &Element) -> Option<String> {
    let active = within.owner_document()?.active_element()?;
    within.contains(Some(&active)).then(|| active.get_attribute(PLACE)).flatten()
}

fn give_focus(within: &Element, place: &str) {
    let found = within.query_selector(&format!("[{PLACE}=\"{place}\"]"));
    if let Some(element) = found.ok().flatten().and_then(|found| found.dyn_into().ok()) {
        let element: HtmlElement = element;
        let _ = element.focus();
    }
}

impl Reader {
    fn blocks(self, place: &str, blocks: &[Block]) -> Vec<Tag> {
        let places = blocks.iter().enumerate();
        places.map(|(index, block)| self.block(format!("{place}-{index}"), block)).collect()
    }

    fn block(self, place: String, block: &Block) -> Tag {
        match block {
            Block::Text(text) => tag("p").class("help").text(text),
            Block::List(points) => tag("ul")
                .class("reasons")
                .children(points.iter().map(|point| tag("li").text(point))),
            Block::Table(table) => self.table(&place, table),
            Block::Folded(passage) => self.folded(place, passage),
            Block::Choice(label, passages) => self.choice(place, label, passages),
        }
    }

    /// What is chosen at a place, without following it.
    fn chosen(self, place: &str) -> usize {
        self.choices.with_untracked(|choices| choices.get(place).copied().unwrap_or_default())
    }

    fn choose(self, place: &str, choice: usize) {
        self.choices.update(|choices| {
            choices.insert(place.to_owned(), choice);
        });
    }

    fn folded(self, place: String, passage: &Passage) -> Tag {
        let details = tag("details").class("twin");
        let details = if self.chosen(&place) == 1 { details.attr("open", "") } else { details };
        let summary = tag("summary").attr(PLACE, &place).text(&passage.title);
        let blocks = self.blocks(&place, &passage.blocks);
        let element = details.element().clone();
        let toggle = move |_| {
            // It stands open only afterward.
            self.choices.update_untracked(|choices| {
                choices.insert(place.clone(), usize::from(element.has_attribute("open")));
            });
        };
        details.on("toggle", toggle).child(summary).children(blocks)
    }

    fn choice(self, place: String, label: &str, passages: &[Passage]) -> Tag {
        let chosen = self.chosen(&place);
        let options = passages.iter().enumerate().map(|(index, passage)| {
            let option = tag("option").attr("value", &index.to_string()).text(&passage.title);
            if index == chosen { option.attr("selected", "") } else { option }
        });
        let select = tag("select").attr(PLACE, &place).children(options);
        let label = tag("label").class("of-which").text(label).text(" ");
        let bodies = passages.iter().enumerate().map(|(index, passage)| {
            let body =
                tag("div").children(self.blocks(&format!("{place}-{index}"), &passage.blocks));
            if index == chosen { body } else { body.attr("hidden", "") }
        });
        let bodies: Vec<_> = bodies.collect();
        let shown = bodies.clone();
        let choose = move |event: web_sys::Event| {
            let Ok(chosen) = value_of(&event).parse::<usize>() else {
                return;
            };
            self.choose(&place, chosen);
            for (index, body) in shown.iter().enumerate() {
                let _ = body.element().toggle_attribute_with_force("hidden", index != chosen);
            }
        };
        tag("div").child(label.child(select.on("change", choose))).children(bodies)
    }

    fn table(self, place: &str, table: &Table) -> Tag {
        let head = |name: &String| tag("th").attr("scope", "col").text(name);
        let heads = tag("thead").child(tag("tr").children(table.heads.iter().map(head)));
        let opened =
            tag("div").class("opened").attr("role", "status").id(&format!("{place}-open"));
        let rows = table.rows.iter().enumerate().map(|(index, row)| {
            let (first, others) = row.split_first()?;
            let cells = others.iter().zip(table.heads.iter().skip(1)).enumerate();
            let cells = cells.map(|(column, (cell, head))| {
                let place = format!("{place}-{index}-{column}");
                self.cell(&place, cell, &opened).attr("data-head", head)
            });
            let head = tag("th").attr("scope", "row").text(&first.text);
            Some(tag("tr").child(head).children(cells))
        });
        let body = tag("tbody").children(rows.flatten());
        let caption = table.caption.iter().map(|caption| tag("caption").text(caption));
        let wide =
            if table.heads.len() > 3 { "figures-in-rows wide-rows" } else { "figures-in-rows" };
        let shown = tag("table").class(wide).children(caption).child(heads).child(body);
        let opens = table.rows.iter().flatten().any(|cell| cell.more.is_some());
        let framed = tag("div").class("in-frame").child(shown);
        // What is wider than the page is moved by keys as well.
        let framed = if table.heads.len() > WIDE {
            framed
                .attr("tabindex", "0")
                .attr("role", "group")
                .attr("aria-label", texts::WIDE_TABLE)
        } else {
            framed
        };
        if opens { framed.child(opened) } else { framed }
    }

    fn cell(self, place: &str, cell: &Cell, opened: &Tag) -> Tag {
        let class = if cell.is_figure() { "figure" } else { "" };
        let shown = tag("td").class(class);
        let content = |within: Tag| {
            let within = match &cell.answer {
                Some((answer, word)) => within.child(
                    tag("span").class("verdict").child(icon((*answer).into())).text(word),
                ),
                None => within,
            };
            let within = within.children(cell.bar.map(bar));
            within.child(tag("span").class("deciding").text(&cell.text))
        };
        let Some(more) = &cell.more else {
            return content(shown);
        };
        let more = more.clone();
        let here = opened.clone();
        let show = move || self.open(&here, &more);
        shown.child(content(button(show).class("cell").attr(PLACE, place)))
    }

    /// Shows what a cell has to say below its table.
    fn open(self, below: &Tag, passage: &Passage) {
        below.element().set_text_content(None);
        let blocks = self.blocks("opened", &passage.blocks);
        let _ = below.clone().child(tag("h3").text(&passage.title)).children(blocks);
    }
}

/// A bar as long as its share of the cell.
fn bar(share: f64) -> Tag {
    let width = format!("{:.2}%", 100.0 * share.abs().min(1.0));
    let class = if share < 0.0 { "to-house" } else { "to-room" };
    svg("svg")
        .class("share")
        .attr("aria-hidden", "true")
        .child(svg("rect").class(class).attr("width", &width).attr("height", "100%"))
}
