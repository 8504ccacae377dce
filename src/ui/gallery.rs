//! Shows a gallery that a worker made: marks become elements, and what can be read at a place is told
//! by pointer and by keys.

use super::dom::{Tag, button, svg, tag, value_of, watch};
use super::signal::{Memo, RwSignal};
use super::{browser, texts};
use leptos::reactive::graph::untrack;
use longsmoke::drawing::gallery::{Gallery, Mark, Picture};
use wasm_bindgen::JsCast as _;
use web_sys::{Element, Event};

/// Attribute with the number of a stop.
const STOP: &str = "data-stop";

/// A gallery that may change or not be there, with the place that is read.
#[derive(Clone, Copy)]
struct Reader {
    gallery: Memo<Option<Gallery>>,
    /// None as long as nobody has chosen: then the gallery says where reading begins.
    chosen: RwSignal<Option<usize>>,
    /// The stops of all pictures, with their places.
    stops: RwSignal<Vec<(usize, Tag)>>,
}

/// Shows a gallery, with a button that takes the variant that is read.
pub fn gallery_view(gallery: Memo<Option<Gallery>>, take: impl Fn(&str) + 'static) -> Tag {
    let chosen = RwSignal::new(None);
    let reader = Reader { gallery, chosen, stops: RwSignal::new(Vec::new()) };
    let said = move || reader.reading().map(|(said, _)| said);
    let press = move || {
        if let Some((_, variant)) = untrack(|| reader.reading()) {
            take(&variant);
        }
    };
    let reading = tag("div")
        .class("reading")
        .live_attr("hidden", move || said().is_none().then(String::new))
        .child(reader.cursor())
        .child(tag("p").attr("data-testid", "reading").live_text(said))
        .child(button(press).text(texts::take()));
    tag("div").child(reader.pictures()).child(reading)
}

impl Reader {
    fn of<T: Default>(self, of: impl FnOnce(&Gallery) -> T) -> T {
        self.gallery.with(|gallery| gallery.as_ref().map(of)).unwrap_or_default()
    }

    /// The place that is read.
    fn at(self) -> Option<usize> {
        let (count, first) = self.of(|gallery| (gallery.readings.len(), gallery.first));
        let last = count.checked_sub(1)?;
        Some(self.chosen.get().unwrap_or(first).min(last))
    }

    fn reading(self) -> Option<(String, String)> {
        let at = self.at()?;
        self.of(|gallery| gallery.readings.get(at).cloned())
    }

    fn pictures(self) -> Tag {
        let point = move |event: Event| {
            let target = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            let stop = target.and_then(|target| target.get_attribute(STOP)?.parse().ok());
            if stop.is_some() {
                self.chosen.set(stop);
            }
        };
        let none = move || self.of(|gallery| gallery.pictures.is_empty()).then(String::new);
        let pictures = tag("div")
            .class("gallery")
            .live_attr("hidden", none)
            .on("pointerover", point)
            .on("click", point)
            .live(move |within| {
                self.stops.update_untracked(Vec::clear);
                let pictures = self.of(|gallery| gallery.pictures.clone());
                within.children(pictures.iter().map(|picture| self.picture(picture)))
            });
        watch(move || {
            self.gallery.track();
            let at = self.at();
            self.stops.with_untracked(|stops| {
                for (place, stop) in stops {
                    let chosen = at == Some(*place);
                    let _ = stop.element().class_list().toggle_with_force("chosen", chosen);
                }
            });
        });
        pictures
    }

    fn picture(self, picture: &Picture) -> Tag {
        let [width, height] = picture.size;
        let stop = |(place, ends): (usize, &[f64; 4])| {
            let names = ["x", "y", "width", "height"];
            let stop = svg("rect").class("stop").attr(STOP, &place.to_string());
            let sized = names.into_iter().zip(ends);
            let stop = sized.fold(stop, |stop, (name, end)| stop.attr(name, &end.to_string()));
            self.stops.update_untracked(|stops| stops.push((place, stop.clone())));
            stop
        };
        let drawn = svg("svg")
            .class(&format!("picture {}", picture.class))
            .attr("viewBox", &format!("0 0 {width} {height}"))
            .attr("role", "img")
            .attr("aria-label", &picture.description)
            .children(picture.marks.iter().map(drawn))
            .children(picture.stops.iter().enumerate().map(stop));
        tag("figure").child(tag("figcaption").text(&picture.title)).child(drawn)
    }

    /// The place as a slider, for the keyboard and for fingers.
    fn cursor(self) -> Tag {
        // A row up or down in a map.
        let key = move |event: Event| {
            let (across, count) =
                untrack(|| self.of(|gallery| (gallery.across, gallery.readings.len())));
            let Some(now) = untrack(|| self.at()).filter(|_| across < count) else {
                return;
            };
            let next = match browser::key(&event).as_str() {
                "ArrowUp" => now.checked_sub(across),
                "ArrowDown" => Some(now + across),
                _ => return,
            };
            event.prevent_default();
            if let Some(next) = next.filter(|next| *next < count) {
                self.chosen.set(Some(next));
            }
        };
        let most = move || {
            let count = self.of(|gallery| gallery.readings.len());
            Some(count.saturating_sub(1).to_string())
        };
        tag("input")
            .attr("type", "range")
            .attr("min", "0")
            .attr("aria-label", texts::cursor())
            .live_attr("max", most)
            .live_attr("aria-valuetext", move || self.reading().map(|(said, _)| said))
            .live_value(move || self.at().map(|at| at.to_string()))
            .on("keydown", key)
            .on("input", move |event| self.chosen.set(value_of(&event).parse().ok()))
    }
}

fn drawn(mark: &Mark) -> Tag {
    if mark.text.is_empty() {
        return svg("path").class(&mark.class).attr("d", &mark.path);
    }
    let [x, y] = mark.at;
    svg("text")
        .class(&mark.class)
        .attr("x", &x.to_string())
        .attr("y", &y.to_string())
        .text(&mark.text)
}
