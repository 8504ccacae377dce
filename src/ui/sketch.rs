//! Drawings as SVG: shapes become elements, roles become classes; the style sheet has the look.

use super::icon::Mark;
use super::texts;
use super::workspace::Workspace;
use leptos::prelude::*;
use leptos::svg;
use longsmoke::drawing::{
    Anchor, Drawing, Item, MARK_RADIUS, Point, Role, Shape, heat_scale, heat_step,
};
use longsmoke::rules::{Place, Severity};
use longsmoke::units::{Quantity, number, unit_of};

/// Length of an arrow's head over the size of texts.
const HEAD: f64 = 0.7;
/// Margin around a drawing over the size of texts.
const MARGIN: f64 = 0.5;

/// Class of a gas temperature (K).
pub fn heat_class(temperature: f64) -> String {
    format!("gas-{}", heat_step(temperature))
}

fn class(role: Role) -> String {
    match role {
        Role::Gas(step) => format!("gas gas-{step}"),
        other => format!("{other:?}").to_lowercase(),
    }
}

/// A drawing, to scale.
#[component]
pub fn Sketch(
    drawing: Memo<Option<Drawing>>,
    /// Id in tests.
    name: &'static str,
) -> impl IntoView {
    let workspace: Workspace = expect_context();
    let view_box = move || {
        drawing.with(|drawing| {
            let drawing = drawing.as_ref()?;
            let margin = MARGIN * drawing.text_size;
            let (low, high) = (drawing.low, drawing.high);
            let (width, height) =
                (high.x - low.x + 2.0 * margin, high.y - low.y + 2.0 * margin);
            Some(format!("{} {} {width} {height}", low.x - margin, -high.y - margin))
        })
    };
    let text_size =
        move || drawing.with(|drawing| Some(drawing.as_ref()?.text_size.to_string()));
    let description =
        move || drawing.with(|drawing| Some(drawing.as_ref()?.description.clone()));
    let items = move || {
        drawing.with(|drawing| {
            let items = drawing.iter().flat_map(|drawing| drawing.items.iter());
            let size = drawing.as_ref().map_or(0.0, |drawing| drawing.text_size);
            items.map(|item| draw(item, size, workspace.marked)).collect_view()
        })
    };
    view! {
        <svg
            class=format!("sketch {name}")
            data-testid=name
            role="img"
            aria-label=description
            viewBox=view_box
            font-size=text_size
        >
            <Hatches name />
            {items}
        </svg>
    }
}

/// Hatching of masonry by material.
#[component]
fn Hatches(name: &'static str) -> impl IntoView {
    let hatch = move |kind: &str, size: f64, turn: &str| {
        view! {
            <pattern
                id=format!("{kind}-{name}")
                class=format!("hatch {kind}-hatch")
                width=size.to_string()
                height=size.to_string()
                patternUnits="userSpaceOnUse"
                patternTransform=turn.to_owned()
            >
                <rect class="ground" width=size.to_string() height=size.to_string() />
                <path d=format!("M0 0V{size}") />
            </pattern>
        }
    };
    view! {
        <defs>
            {hatch("core", 0.05, "rotate(45)")} {hatch("facing", 0.08, "rotate(-45)")}
            {hatch("insulation", 0.025, "rotate(0)")}
        </defs>
    }
}

fn draw(item: &Item, size: f64, marked: RwSignal<Option<Place>>) -> AnyView {
    let place = item.place;
    let role = class(item.role);
    let class = move || {
        if place.is_some() && marked.get() == place {
            format!("{role} marked")
        } else {
            role.clone()
        }
    };
    let drawn = (shape(&item.shape, size), writing(&item.shape, size));
    svg::g().class(class).child(drawn).into_any()
}

fn shape(shape: &Shape, size: f64) -> AnyView {
    match shape {
        Shape::Rectangle { corner, width, height } => {
            view! { <rect x=corner.x y=-corner.y - height width=*width height=*height /> }
                .into_any()
        }
        Shape::Line { points } => view! { <polyline points=points_text(points) /> }.into_any(),
        Shape::Arrow { from, to } => arrow(*from, *to, size),
        Shape::Dimension { from, to, .. } => dimension(*from, *to, size),
        Shape::Mark { at, severity, .. } => mark(*at, *severity, size),
        Shape::Label { .. } => ().into_any(),
    }
}

fn points_text(points: &[Point]) -> String {
    let pairs = points.iter().map(|point| format!("{},{}", point.x, -point.y));
    pairs.collect::<Vec<_>>().join(" ")
}

/// A point near `to`, seen along the line from `from` (m).
fn beside(from: Point, to: Point, along: f64, across: f64) -> Point {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = libm::hypot(dx, dy).max(f64::MIN_POSITIVE);
    let (dx, dy) = (dx / length, dy / length);
    Point { x: to.x + along * dx - across * dy, y: to.y + along * dy + across * dx }
}

fn arrow(from: Point, to: Point, size: f64) -> AnyView {
    let (long, wide) = (HEAD * size, 0.35 * HEAD * size);
    let head = [to, beside(from, to, -long, wide), beside(from, to, -long, -wide)];
    view! {
        <polyline points=points_text(&[from, to]) />
        <polygon points=points_text(&head) />
    }
    .into_any()
}

/// The text of a shape, where the drawing keeps room for it.
fn writing(shape: &Shape, size: f64) -> Option<impl IntoView + use<>> {
    let place = shape.text_place(size)?;
    let text = shape.text()?.to_owned();
    let anchor = match place.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    let (x, y) = (place.at.x, -place.at.y);
    let turn = (place.degrees != 0.0).then(|| format!("rotate({} {x} {y})", -place.degrees));
    Some(view! {
        <text x=x y=y text-anchor=anchor transform=turn>
            {text}
        </text>
    })
}

/// A line with a tick at each end.
fn dimension(from: Point, to: Point, size: f64) -> AnyView {
    let tick = |from, to| {
        let (tick, size) = (0.3, size);
        let ends = [(tick, tick), (-tick, -tick)];
        points_text(&ends.map(|(along, across)| beside(from, to, along * size, across * size)))
    };
    view! {
        <polyline points=points_text(&[from, to]) />
        <polyline points=tick(from, to) />
        <polyline points=tick(to, from) />
    }
    .into_any()
}

/// The shape of a finding's severity where it occurs; its number is written into it.
fn mark(at: Point, severity: Severity, size: f64) -> AnyView {
    let mark = Mark::from(severity);
    let side = 2.0 * MARK_RADIUS * size;
    let corner = (at.x - 0.5 * side, -at.y - 0.5 * side);
    let place = format!("translate({} {}) scale({})", corner.0, corner.1, side / 16.0);
    view! {
        <g class=format!("icon {}", mark.class()) transform=place>
            <path class="outline" d=mark.plain() />
        </g>
    }
    .into_any()
}

/// What the colors of the gas mean.
#[component]
pub fn Legend() -> impl IntoView {
    let workspace: Workspace = expect_context();
    let steps = move || {
        let system = workspace.system.get();
        heat_scale()
            .into_iter()
            .map(|(step, lower)| {
                view! {
                    <li>
                        <span class=format!("chip gas-{step}")></span>
                        <span class="lower">{number(lower, Quantity::Temperature, system)}</span>
                    </li>
                }
            })
            .collect_view()
    };
    view! {
        <div class="legend">
            <span>
                {texts::LEGEND} ", "
                {move || unit_of(Quantity::Temperature, workspace.system.get()).symbol}
            </span>
            <ol>{steps}</ol>
        </div>
    }
}
