//! Shows a passage: text, lists, tables.
//!
//! It is made anew whenever what it says changes; what was unfolded, chosen or in focus stays so.

use super::dom::{Tag, button, svg, tag, value_of, watch};
use super::icon::icon;
use super::signal::RwSignal;
use super::texts;
use leptos::leptos_dom::helpers::document;
use longsmoke::words::passage::{Block, Cell, Entry, Passage, Table, Take};
use wasm_bindgen::prelude::*;
use web_sys::{Element, HtmlElement, HtmlInputElement};

/// What a reader has unfolded or chosen, by its place in the passage.
type Choices = Vec<(String, usize)>;

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
    // Of its own: what is made for a passage goes when it is made anew, so only for another.
    let shown = RwSignal::new(None);
    watch(move || {
        let passage = read();
        if shown.with_untracked(|shown| *shown != passage) {
            shown.set(passage);
        }
    });
    watch(move || {
        let focus = focused(&element);
        let typed = focus.as_ref().and_then(|_| being_typed());
        element.set_text_content(None);
        shown.with(|passage| {
            let blocks = passage.iter().flat_map(|passage| reader.blocks("p", &passage.blocks));
            let _ = Tag::from(element.clone()).children(blocks);
        });
        if let Some(focus) = focus {
            give_focus(&element, &focus);
            if let (Some(typed), Some(input)) = (typed, active_input()) {
                input.set_value(&typed);
            }
        }
    });
    body
}

/// Columns beyond which a table may be wider than the page.
const WIDE: usize = 3;
/// Columns beyond which a table stays one on a narrow page, moved below its names.
const MANY: usize = 5;

/// Attribute with the place in the passage of what may have the focus.
const PLACE: &str = "data-place";

/// Place of what has the focus within an element.
fn focused(within: &Element) -> Option<String> {
    let active = within.owner_document()?.active_element()?;
    within.contains(Some(&active)).then(|| active.get_attribute(PLACE)).flatten()
}

fn active_input() -> Option<HtmlInputElement> {
    document().active_element()?.dyn_into().ok()
}

/// What stands in the entry with the focus and was not taken in yet.
fn being_typed() -> Option<String> {
    let input = active_input()?;
    Some(input.value()).filter(|typed| *typed != input.default_value())
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
            Block::Head(text) => tag("h3").class("head").text(text),
            Block::List(points) => tag("ul")
                .class("reasons")
                .children(points.iter().map(|point| tag("li").text(point))),
            Block::Table(table) => self.table(&place, table),
            Block::Folded(passage) => self.folded(place, passage),
            Block::Choice(label, passages) => self.choice(place, label, passages),
            Block::Take(Take { text, link, value }) => button(|| {})
                .attr(PLACE, &place)
                .attr("data-take", link)
                .attr("data-value", &value.to_string())
                .text(text),
        }
    }

    /// What is chosen at a place, without following it.
    fn chosen(self, place: &str) -> usize {
        self.choices.with_untracked(|choices| {
            let chosen = choices.iter().find(|(of, _)| of == place);
            chosen.map(|(_, choice)| *choice).unwrap_or_default()
        })
    }

    fn choose(self, place: &str, choice: usize) {
        self.choices.update_untracked(|choices| {
            choices.retain(|(of, _)| of != place);
            choices.push((place.to_owned(), choice));
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
            self.choose(&place, usize::from(element.has_attribute("open")));
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
        let figures = table.figures();
        let head = |(name, figure): (&String, &Option<usize>)| {
            let head = tag("th").attr("scope", "col").text(name);
            if figure.is_some() { head.class("figure") } else { head }
        };
        let heads = table.heads.iter().zip(&figures).map(head);
        let heads = tag("thead").child(tag("tr").children(heads));
        let opened =
            tag("div").class("opened").attr("role", "status").id(&format!("{place}-open"));
        let rows = table.rows.iter().enumerate().map(|(index, row)| {
            let (first, others) = row.split_first()?;
            let cells = others.iter().zip(table.heads.iter().skip(1)).enumerate();
            let cells = cells.map(|(column, (cell, head))| {
                let place = format!("{place}-{index}-{column}");
                let figure = figures.get(column + 1).copied().flatten();
                self.cell(&place, (cell, figure), &opened).attr("data-head", head)
            });
            let head = tag("th").attr("scope", "row").text(&first.text);
            Some(tag("tr").child(head).children(cells))
        });
        let body = tag("tbody").children(rows.flatten());
        let caption = table.caption.iter().map(|caption| tag("caption").text(caption));
        let columns = table.heads.len();
        let wide = if columns <= WIDE {
            "figures-in-rows"
        } else if columns <= MANY {
            "figures-in-rows wide-rows"
        } else {
            "figures-in-rows matrix"
        };
        let opens = table.rows.iter().flatten().any(|cell| cell.more.is_some());
        let wide = if opens { [wide, " opens"].concat() } else { wide.to_owned() };
        let shown = tag("table").class(&wide).children(caption).child(heads).child(body);
        let framed = tag("div").class("in-frame").child(shown);
        // What is wider than the page is moved by keys as well.
        let framed = if columns > WIDE {
            framed
                .attr("tabindex", "0")
                .attr("role", "group")
                .attr("aria-label", texts::wide_table())
        } else {
            framed
        };
        if opens { framed.child(opened) } else { framed }
    }

    fn cell(self, place: &str, (cell, figure): (&Cell, Option<usize>), opened: &Tag) -> Tag {
        let class = if figure.is_some() { "figure" } else { "" };
        if let Some(entry) = &cell.entry {
            return tag("td").class(class).child(entry_view(place, &cell.text, entry));
        }
        let shown = tag("td").class(class);
        let content = |within: Tag| {
            let within = match &cell.answer {
                Some((answer, word)) => within.child(
                    tag("span").class("verdict").child(icon((*answer).into())).text(word),
                ),
                None => within,
            };
            let within = within.children(cell.bar.map(bar));
            within.child(said(cell, figure))
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

/// The text of a cell; in a column of figures its unit takes as much room as the longest of the
/// column, so that the figures end in line.
fn said(cell: &Cell, figure: Option<usize>) -> Tag {
    let said = tag("span").class("deciding");
    match figure {
        Some(longest) if 0 < longest => {
            let (number, unit) = cell.parts();
            let space = if unit.is_empty() { "" } else { " " };
            let unit = tag("span").class(&format!("unit unit-{longest}")).text(unit);
            said.text(number).text(space).child(unit)
        }
        _ => said.text(&cell.text),
    }
}

/// What is typed or chosen in a cell; whoever shows the passage hears of it.
fn entry_view(place: &str, text: &str, entry: &Entry) -> Tag {
    let view = if entry.words.is_empty() {
        tag("input")
            .attr("type", "text")
            .attr("inputmode", "decimal")
            .attr("autocomplete", "off")
            .attr("data-factor", &entry.factor.to_string())
            .attr("value", text)
    } else {
        tag("select").children(entry.words.iter().map(|(word, shown)| {
            let option = tag("option").attr("value", word).text(shown);
            if shown == text { option.attr("selected", "") } else { option }
        }))
    };
    view.class("entry")
        .attr("data-note", &entry.name)
        .attr("aria-label", &entry.label)
        .attr(PLACE, place)
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
