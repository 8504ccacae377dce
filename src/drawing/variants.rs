//! Pictures of variants: heat kept and draft to spare over an input, and a map of what is answered
//! over two.

use super::gallery::{Gallery, Mark, Picture};
use super::small::sections;
use super::text_length;
use crate::design::Design;
use crate::design::field::{FieldId, Kind, field};
use crate::language::{said, say, within};
use crate::rules::{Answer, Question};
use crate::study::compare::LEAST_GAIN;
use crate::study::figures::Line;
use crate::study::variant::{Brief, Variant, apply, value, words_of};
use crate::units::{Quantity, System, decimals, figure, fixed, number, to_shown, unit_of};
use crate::words;
use crate::words::label;
use crate::words::suggest::input;

/// Width of a picture (px); the page may show it smaller.
const WIDTH: f64 = 420.0;
/// Height of a panel (px).
const HEIGHT: f64 = 240.0;
/// Left, top, right and bottom of the plane (px).
const PLANE: [f64; 4] = [48.0, 26.0, WIDTH - 16.0, HEIGHT - 40.0];
/// Size of a text (px).
const TEXT: f64 = 13.0;
/// Radius of a dot (px).
const DOT: f64 = 4.5;
/// Air around what is shown, over its extent (–).
const AIR: f64 = 0.08;

/// What is known of a row of variants beyond their figures.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Marked {
    /// The best of them, by its value.
    pub best: Option<f64>,
    /// The first after which more of the input keeps less heat than it should, by its value.
    pub gain_ends: Option<f64>,
}

/// One variant of a row.
#[derive(Clone, Copy, Debug)]
struct Dot {
    /// Value of the input, in shown units.
    x: f64,
    /// Heat that stays and draft beyond what is wanted, in shown units.
    y: [f64; 2],
    passes: bool,
}

/// The row of a design's variants.
struct Row {
    id: FieldId,
    system: System,
    dots: Vec<Dot>,
    /// Ends of the input, with air.
    ends: (f64, f64),
    /// The design as it stands.
    now: f64,
    marked: Marked,
}

/// Variants that differ in their first input: heat kept and draft to spare over it; empty for fewer
/// than two with figures.
pub fn sweep(design: &Design, variants: &[Variant], marked: Marked, system: System) -> Gallery {
    let mut variants: Vec<&Variant> = variants.iter().collect();
    let first = |variant: &Variant| variant.puts.first().map_or(f64::NAN, |(_, value)| *value);
    variants.sort_by(|one, other| first(one).total_cmp(&first(other)));
    let known: Vec<&Variant> =
        variants.into_iter().filter(|each| each.brief.is_some()).collect();
    let Some(id) = known.first().and_then(|each| each.puts.first()).map(|(id, _)| *id) else {
        return Gallery::default();
    };
    let dots: Vec<Dot> = known.iter().filter_map(|each| dot(id, each, system)).collect();
    let (Some(low), Some(high)) = (dots.first().map(|d| d.x), dots.last().map(|d| d.x)) else {
        return Gallery::default();
    };
    if high <= low {
        return Gallery::default();
    }
    let air = AIR * (high - low);
    let now = value(design, id);
    let row = Row {
        id,
        system,
        ends: (low - air, high + air),
        now: shown(id, now, system),
        dots,
        marked,
    };
    let near = |variant: &&&Variant| {
        let own = first(variant);
        marked.best.map_or((own - now).abs() <= 1e-9, |best| (own - best).abs() <= 1e-9)
    };
    let place =
        |variant: &&Variant| known.iter().position(|each| std::ptr::eq(*each, *variant));
    Gallery {
        pictures: [Panel::Heat, Panel::Draft].map(|panel| row.picture(panel)).to_vec(),
        readings: known.iter().map(|each| reading(each, system)).collect(),
        across: known.len(),
        first: known.iter().find(near).and_then(place).unwrap_or_default(),
    }
}

fn dot(id: FieldId, variant: &Variant, system: System) -> Option<Dot> {
    let (_, value) = variant.puts.first()?;
    let brief = variant.brief.as_ref()?;
    let heat = to_shown(line(brief, Line::Efficiency)?, Quantity::Share, system);
    let draft = to_shown(brief.spare, Quantity::Pressure, system);
    let (x, y) = (shown(id, *value, system), [heat, draft]);
    let passes = worst(brief) == Answer::Yes;
    [x, heat, draft].into_iter().all(f64::is_finite).then_some(Dot { x, y, passes })
}

fn line(brief: &Brief, line: Line) -> Option<f64> {
    let place = Line::ALL.iter().position(|each| *each == line)?;
    brief.lines.get(place).copied().flatten()
}

fn worst(brief: &Brief) -> Answer {
    let worst = [Answer::No, Answer::NotEnoughKnown, Answer::LookAgain];
    worst.into_iter().find(|each| brief.answers.contains(each)).unwrap_or(Answer::Yes)
}

fn quantity(id: FieldId) -> Option<Quantity> {
    match &field(id).kind {
        Kind::Number(number) => Some(number.quantity),
        Kind::Choice(_) => None,
    }
}

fn shown(id: FieldId, value: f64, system: System) -> f64 {
    quantity(id).map_or(value, |quantity| to_shown(value, quantity, system))
}

fn axis_label(id: FieldId, system: System) -> String {
    let symbol = match (quantity(id), system) {
        // Feet and inches carry their marks; on an axis they are feet.
        (Some(Quantity::Length), System::Us) => "ft",
        (Some(quantity), system) => unit_of(quantity, system).symbol,
        (None, _) => "",
    };
    if symbol.is_empty() { label(id).into() } else { format!("{}, {symbol}", label(id)) }
}

/// A variant as it is said, and as words.
fn reading(variant: &Variant, system: System) -> (String, String) {
    let inputs = variant.puts.iter();
    let inputs = inputs.map(|(id, put)| format!("{} {}", label(*id), input(*id, *put, system)));
    let name = inputs.collect::<Vec<_>>().join(", ");
    let words = words_of(&variant.puts);
    let Some(brief) = &variant.brief else {
        return (say!("{name}: cannot stand."), words);
    };
    let heat = line(brief, Line::Efficiency)
        .map(|heat| say!("{} of the heat stays, ", figure(heat, Quantity::Share, system)));
    let spare = figure(brief.spare.abs(), Quantity::Pressure, system);
    let spare = if brief.spare < 0.0 {
        say!("the draft lacks {spare} of what is wanted")
    } else {
        say!("{spare} of draft beyond what is wanted")
    };
    let open = Question::ALL.into_iter().zip(brief.answers);
    let open = open.filter(|(_, answer)| *answer != Answer::Yes);
    let open = open.map(|(asked, found)| {
        format!("{} {}.", words::question(asked), words::answer(asked, found))
    });
    let open: Vec<_> = open.collect();
    let answers =
        if open.is_empty() { said("Yes three times.").into() } else { open.join(" ") };
    (format!("{name}: {}{spare}. {answers}", heat.unwrap_or_default()), words)
}

/// What a panel of a row shows.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Panel {
    Heat,
    Draft,
}

impl Panel {
    fn of(self, dot: &Dot) -> f64 {
        let [heat, draft] = dot.y;
        match self {
            Self::Heat => heat,
            Self::Draft => draft,
        }
    }

    const fn quantity(self) -> Quantity {
        match self {
            Self::Heat => Quantity::Share,
            Self::Draft => Quantity::Pressure,
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Heat => said("Heat that stays"),
            Self::Draft => said("Draft beyond what is wanted"),
        }
    }
}

impl Row {
    fn picture(&self, panel: Panel) -> Picture {
        let (low, high) = self.heights(panel);
        let plane = Plane { x: self.ends, y: (low, high) };
        let unit = unit_of(panel.quantity(), self.system).symbol;
        let marks = [
            self.sensible(&plane),
            self.axes(&plane),
            self.ends_of(panel, &plane),
            self.curve(panel, &plane),
        ];
        Picture {
            title: format!("{}, {unit}", panel.name()),
            description: self.description(panel),
            class: "row".into(),
            size: [WIDTH, HEIGHT],
            marks: marks.concat(),
            stops: self.stops(&plane),
        }
    }

    /// Ends of the upright axis.
    fn heights(&self, panel: Panel) -> (f64, f64) {
        let ends = (f64::INFINITY, f64::NEG_INFINITY);
        let (low, high) = self.dots.iter().map(|dot| panel.of(dot)).fold(ends, |ends, y| {
            let (low, high): (f64, f64) = ends;
            (low.min(y), high.max(y))
        });
        let air = (2.0 * AIR * (high - low)).max(1e-3 * high.abs()).max(1e-6);
        (low - air, high + air)
    }

    /// Where the answers are yes three times.
    fn sensible(&self, plane: &Plane) -> Vec<Mark> {
        let [_, top, _, bottom] = PLANE;
        let xs: Vec<f64> = self.dots.iter().map(|dot| dot.x).collect();
        let runs = self.dots.chunk_by(|one, other| one.passes == other.passes);
        let runs = runs.filter(|run| run.first().is_some_and(|dot| dot.passes));
        let marks = runs.filter_map(|run| {
            let (from, _) = around(&xs, run.first()?.x);
            let (_, to) = around(&xs, run.last()?.x);
            let (left, right) = (plane.across(from), plane.across(to));
            let said = [said("yes three times"), said("yes")];
            let fits = |said: &&str| wide(said) <= right - left;
            let said = said.into_iter().find(fits).unwrap_or_default();
            let at = (0.5 * (left + right), top - 8.0);
            let side = |x: f64| Mark::line("side", [(x, top), (x, bottom)]);
            let face = Mark::rectangle("sensible", [left, top, right - left, bottom - top]);
            Some([face, side(left), side(right), Mark::text("middle", at, said)])
        });
        marks.flatten().collect()
    }

    fn axes(&self, plane: &Plane) -> Vec<Mark> {
        let [left, top, right, bottom] = PLANE;
        let mut marks = Vec::new();
        let (values, decimals) = ticks(plane.y, 4.0);
        for value in values {
            let y = plane.up(value);
            marks.push(Mark::line("grid", [(left, y), (right, y)]));
            let said = fixed(value, decimals);
            marks.push(Mark::text("end quiet", (left - 6.0, y + 4.0), minus(&said)));
        }
        for (value, said) in self.values(plane) {
            let x = plane.across(value);
            marks.push(Mark::line("axis", [(x, bottom), (x, bottom + 4.0)]));
            marks.push(Mark::text("middle quiet", (x, bottom + 17.0), minus(&said)));
        }
        marks.push(Mark::line("axis", [(left, top), (left, bottom), (right, bottom)]));
        let middle = 0.5 * (left + right);
        let name = axis_label(self.id, self.system);
        marks.push(Mark::text("middle quiet", (middle, HEIGHT - 6.0), name));
        if plane.x.0 <= self.now && self.now <= plane.x.1 {
            let x = plane.across(self.now);
            let tip = [(x, bottom - 1.0), (x - 5.0, bottom - 9.0), (x + 5.0, bottom - 9.0)];
            marks.push(Mark::line("now", tip.into_iter().chain([(x, bottom - 1.0)])));
        }
        marks
    }

    /// What is written along the input: each of a few whole numbers, round values of others.
    fn values(&self, plane: &Plane) -> Vec<(f64, String)> {
        if quantity(self.id) == Some(Quantity::Count) && self.dots.len() <= 12 {
            let said = |dot: &Dot| (dot.x, fixed(dot.x, 0));
            return self.dots.iter().map(said).collect();
        }
        let (values, decimals) = ticks(plane.x, 6.0);
        values.into_iter().map(|value| (value, fixed(value, decimals))).collect()
    }

    /// What ends the row: the draft that is wanted, the heat that one more should keep.
    fn ends_of(&self, panel: Panel, plane: &Plane) -> Vec<Mark> {
        let [left, top, right, bottom] = PLANE;
        let mut marks = Vec::new();
        if panel == Panel::Draft && plane.y.0 < 0.0 && 0.0 < plane.y.1 {
            let y = plane.up(0.0);
            marks.push(Mark::line("wanted", [(left, y), (right, y)]));
            marks.push(Mark::text("end", (right - 2.0, y - 5.0), said("just what is wanted")));
        }
        let (ends, said) = match panel {
            Panel::Draft => (self.draft_ends(), said("draft ends").to_owned()),
            Panel::Heat => {
                let gain = number(LEAST_GAIN, Quantity::Share, self.system);
                (self.marked.gain_ends, say!("one more keeps less than {gain} %"))
            }
        };
        if let Some(x) = ends.map(|x| plane.across(x)) {
            marks.push(Mark::line("crossing", [(x, top), (x, bottom)]));
            let is_late = x - left < wide(&said) + 8.0;
            let (class, x) = if is_late { ("start", x + 6.0) } else { ("end", x - 6.0) };
            marks.push(Mark::text(class, (x, bottom - 14.0), said));
        }
        marks
    }

    /// Where the draft to spare falls to what is wanted, on the way from one variant to the next.
    fn draft_ends(&self) -> Option<f64> {
        let draft = |dot: &Dot| Panel::Draft.of(dot);
        self.dots.iter().zip(self.dots.iter().skip(1)).find_map(|(one, other)| {
            let (from, to) = (draft(one), draft(other));
            let crosses = (0.0 <= from) != (0.0 <= to);
            crosses.then(|| one.x + (other.x - one.x) * from / (from - to))
        })
    }

    fn curve(&self, panel: Panel, plane: &Plane) -> Vec<Mark> {
        let at = |dot: &Dot| (plane.across(dot.x), plane.up(panel.of(dot)));
        let mut marks = vec![Mark::line("curve", self.dots.iter().map(at))];
        for dot in &self.dots {
            let is_best = self.marked.best.is_some_and(|best| (best - dot.x).abs() < 1e-9);
            if is_best {
                marks.push(Mark::circle("best", at(dot), 2.0 * DOT));
            }
            let class = if dot.passes { "dot passes" } else { "dot" };
            marks.push(Mark::circle(class, at(dot), DOT));
        }
        marks
    }

    /// A strip of the plane around each variant.
    fn stops(&self, plane: &Plane) -> Vec<[f64; 4]> {
        let [left, top, right, bottom] = PLANE;
        let xs: Vec<f64> = self.dots.iter().map(|dot| dot.x).collect();
        let stop = |dot: &Dot| {
            let (from, to) = around(&xs, dot.x);
            let from = plane.across(from).clamp(left, right);
            [from, top, plane.across(to).clamp(left, right) - from, bottom - top]
        };
        self.dots.iter().map(stop).collect()
    }

    fn description(&self, panel: Panel) -> String {
        let name = panel.name();
        let said = |dot: Option<&Dot>| {
            let y = dot.map_or(f64::NAN, |dot| panel.of(dot));
            let unit = unit_of(panel.quantity(), self.system);
            format!("{} {}", fixed(y, unit.decimals), unit.symbol)
        };
        let (first, last) = (said(self.dots.first()), said(self.dots.last()));
        let over = within(label(self.id));
        minus(&say!("{name} over {over}: from {first} to {last}."))
    }
}

/// A hyphen before a digit as the sign that it is.
fn minus(text: &str) -> String {
    text.replace('-', "\u{2212}")
}

/// Length of a text (px).
fn wide(text: &str) -> f64 {
    text_length(text, TEXT)
}

/// Where values stand in the plane.
struct Plane {
    x: (f64, f64),
    y: (f64, f64),
}

impl Plane {
    fn across(&self, x: f64) -> f64 {
        let [left, _, right, _] = PLANE;
        left + (right - left) * (x - self.x.0) / (self.x.1 - self.x.0)
    }

    fn up(&self, y: f64) -> f64 {
        let [_, top, _, bottom] = PLANE;
        bottom - (bottom - top) * (y - self.y.0) / (self.y.1 - self.y.0)
    }
}

/// Round values within a range, about so many, with the decimals that they need.
fn ticks((low, high): (f64, f64), about: f64) -> (Vec<f64>, usize) {
    let raw = (high - low) / about;
    let power = libm::pow(10.0, libm::floor(libm::log10(raw)));
    let mut nice = [1.0, 2.0, 5.0, 10.0].into_iter().map(|step| step * power);
    let step = nice.find(|step| raw <= step * (1.0 + 1e-9)).unwrap_or(raw);
    let first = libm::ceil(low / step);
    let counts = (0_u8..20).map(|count| (first + f64::from(count)) * step);
    let values = counts.take_while(|value| *value <= high + 1e-9 * step).map(|value| {
        // No zero with a sign.
        if value.abs() < 1e-9 * step { 0.0 } else { value }
    });
    let mut decimals = (0..6).zip([1.0, 10.0, 100.0, 1e3, 1e4, 1e5]);
    let is_whole = |tens: f64| (step * tens - libm::round(step * tens)).abs() < 1e-6;
    let decimals = decimals.find(|(_, tens)| is_whole(*tens));
    (values.collect(), decimals.map_or(6, |(decimals, _)| decimals))
}

/// Halfway to the values beside one; as far beyond the last as before it.
fn around(values: &[f64], value: f64) -> (f64, f64) {
    let below = values.iter().rev().find(|other| **other < value);
    let above = values.iter().find(|other| value < **other);
    let half = |other: &f64| 0.5 * (other - value).abs();
    let (down, up) = match (below.map(half), above.map(half)) {
        (Some(down), Some(up)) => (down, up),
        (Some(one), None) | (None, Some(one)) => (one, one),
        (None, None) => (0.5, 0.5),
    };
    (value - down, value + up)
}

/// Height of a field of a map (px).
const FIELD: f64 = 36.0;
/// Left of the fields of a map (px).
const MAP_LEFT: f64 = 72.0;
/// Top of the fields of a map (px).
const MAP_TOP: f64 = 30.0;

/// Variants that differ in two inputs: a field for each pair, with the worst answer there, the first
/// input upward; the border of what answers yes three times is drawn around it.
pub fn map(design: &Design, variants: &[Variant], system: System) -> Gallery {
    let pair = |variant: &Variant| match variant.puts.as_slice() {
        [(_, up), (_, across)] => Some((*up, *across)),
        _ => None,
    };
    let ids = variants.iter().find_map(|variant| match variant.puts.as_slice() {
        [(up, _), (across, _)] => Some((*up, *across)),
        _ => None,
    });
    let Some((up, across)) = ids else {
        return Gallery::default();
    };
    let axis = |of: fn((f64, f64)) -> f64| {
        let mut values: Vec<f64> = variants.iter().filter_map(pair).map(of).collect();
        values.sort_by(f64::total_cmp);
        values.dedup();
        values
    };
    let (mut ups, acrosses) = (axis(|pair| pair.0), axis(|pair| pair.1));
    // The largest stands at the top.
    ups.reverse();
    let grid = Grid { ups, acrosses, ids: (up, across), system };
    let find =
        |up: f64, across: f64| variants.iter().find(|each| pair(each) == Some((up, across)));
    let pairs = grid.ups.iter().flat_map(|up| grid.acrosses.iter().map(move |one| (*up, *one)));
    let found: Vec<Option<&Variant>> = pairs.map(|(up, across)| find(up, across)).collect();
    let now = (value(design, up), value(design, across));
    let nearest = grid.nearest(now);
    let said =
        |each: Option<&Variant>| each.map(|each| reading(each, system)).unwrap_or_default();
    Gallery {
        pictures: vec![grid.picture(&found, nearest)],
        readings: found.iter().copied().map(said).collect(),
        across: grid.acrosses.len(),
        first: nearest,
    }
}

/// The fields of a map, row by row from the top.
struct Grid {
    ups: Vec<f64>,
    acrosses: Vec<f64>,
    ids: (FieldId, FieldId),
    system: System,
}

impl Grid {
    fn width(&self) -> f64 {
        (WIDTH - MAP_LEFT - 8.0) / count(self.acrosses.len())
    }

    /// Left, top, width, height of a field.
    fn field(&self, place: usize) -> [f64; 4] {
        let columns = self.acrosses.len().max(1);
        let (row, column) = (count(place / columns), count(place % columns));
        let left = MAP_LEFT + column * self.width();
        [left, MAP_TOP + row * FIELD, self.width(), FIELD]
    }

    /// The field whose values are nearest to those of the design.
    fn nearest(&self, (up, across): (f64, f64)) -> usize {
        let near = |values: &[f64], value: f64| {
            let off =
                |place: &usize| values.get(*place).map_or(f64::MAX, |v| (v - value).abs());
            (0..values.len()).min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or_default()
        };
        near(&self.ups, up) * self.acrosses.len() + near(&self.acrosses, across)
    }

    fn picture(&self, found: &[Option<&Variant>], nearest: usize) -> Picture {
        let (up, across) = self.ids;
        let bottom = MAP_TOP + FIELD * count(self.ups.len());
        let mut marks = Vec::new();
        for (place, variant) in found.iter().enumerate() {
            marks.extend(self.answered(place, *variant));
        }
        marks.extend(self.border(found));
        let [left, top, width, height] = self.field(nearest);
        let inset = [left + 3.0, top + 3.0, width - 6.0, height - 6.0];
        marks.push(Mark::rectangle("here", inset));
        for (value, row) in self.ups.iter().zip(0_u16..) {
            let y = MAP_TOP + FIELD * (f64::from(row) + 0.5) + 4.0;
            let at = (MAP_LEFT - 6.0, y);
            marks.push(Mark::text("end quiet", at, self.said(up, *value)));
        }
        for (value, column) in self.acrosses.iter().zip(0_u16..) {
            let x = MAP_LEFT + self.width() * (f64::from(column) + 0.5);
            let at = (x, bottom + 16.0);
            marks.push(Mark::text("middle quiet", at, self.said(across, *value)));
        }
        let name = |id| axis_label(id, self.system);
        marks.push(Mark::text("start quiet", (4.0, MAP_TOP - 12.0), name(up)));
        let middle = 0.5 * (MAP_LEFT + WIDTH - 8.0);
        marks.push(Mark::text("middle quiet", (middle, bottom + 34.0), name(across)));
        let yes = found.iter().flatten().filter(|each| is_yes(each)).count();
        Picture {
            title: say!("{} up, {} across", label(up), within(label(across))),
            description: say!("{yes} of {} pairs answer yes three times.", found.len()),
            class: "map".into(),
            size: [WIDTH, bottom + 42.0],
            marks,
            stops: (0..found.len()).map(|place| self.field(place)).collect(),
        }
    }

    /// A value on an axis, short.
    fn said(&self, id: FieldId, value: f64) -> String {
        match quantity(id) {
            Some(_) => minus(&decimals(shown(id, value, self.system), 2)),
            None => input(id, value, self.system),
        }
    }

    /// A field with the sign of its answer.
    fn answered(&self, place: usize, variant: Option<&Variant>) -> Vec<Mark> {
        let Some(variant) = variant else {
            return Vec::new();
        };
        let field = self.field(place);
        let [left, top, width, height] = field;
        let (x, y) = (left + 0.5 * width, top + 0.5 * height);
        let sign = |class: &str, points: &[(f64, f64)]| {
            Mark::line(class, points.iter().map(|(right, down)| (x + right, y + down)))
        };
        let worst = variant.brief.as_ref().map(worst);
        let (class, sign) = match worst {
            Some(Answer::Yes) => {
                ("field yes", sign("sign good", &[(-6.0, 0.0), (-2.0, 5.0), (7.0, -6.0)]))
            }
            Some(Answer::LookAgain | Answer::NotEnoughKnown) => {
                let triangle = [(0.0, -6.0), (6.5, 5.0), (-6.5, 5.0), (0.0, -6.0)];
                ("field", sign("sign look", &triangle))
            }
            Some(Answer::No) => {
                let cross = [(-5.0, -5.0), (5.0, 5.0), (0.0, 0.0), (-5.0, 5.0), (5.0, -5.0)];
                ("field", sign("sign stop", &cross))
            }
            None => ("field", sign("sign none", &[(-5.0, 0.0), (5.0, 0.0)])),
        };
        vec![Mark::rectangle(class, field), sign]
    }

    /// The lines between what answers yes three times and what does not.
    fn border(&self, found: &[Option<&Variant>]) -> Vec<Mark> {
        let columns = self.acrosses.len().max(1);
        let yes = |place: Option<usize>| {
            place.and_then(|place| found.get(place).copied().flatten()).is_some_and(is_yes)
        };
        let mut marks = Vec::new();
        for place in (0..found.len()).filter(|place| yes(Some(*place))) {
            let [left, top, width, height] = self.field(place);
            let (right, bottom) = (left + width, top + height);
            let column = place % columns;
            let beside = [
                (place.checked_sub(columns), [(left, top), (right, top)]),
                (place.checked_add(columns), [(left, bottom), (right, bottom)]),
                ((column > 0).then(|| place - 1), [(left, top), (left, bottom)]),
                ((column + 1 < columns).then_some(place + 1), [(right, top), (right, bottom)]),
            ];
            let open = beside.into_iter().filter(|(other, _)| !yes(*other));
            marks.extend(open.map(|(_, side)| Mark::line("border", side)));
        }
        marks
    }
}

fn is_yes(variant: &Variant) -> bool {
    variant.brief.as_ref().is_some_and(|brief| worst(brief) == Answer::Yes)
}

fn count(count: usize) -> f64 {
    u32::try_from(count).map_or(f64::MAX, f64::from)
}

/// Designs that are proposed, each as a section in small and to be read.
pub fn proposals(design: &Design, variants: &[Variant], system: System) -> Gallery {
    let put = |variant: &Variant| {
        let mut put = design.clone();
        apply(&variant.puts, &mut put);
        put
    };
    let designs: Vec<Design> = variants.iter().map(put).collect();
    let pictures = sections(&designs).into_iter().collect();
    let counted = (1_usize..).zip(variants);
    let readings = counted.map(|(count, variant)| {
        let (said, words) = reading(variant, system);
        (format!("{count}: {said}"), words)
    });
    let readings = readings.collect();
    Gallery { pictures, readings, across: variants.len(), ..Gallery::default() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::compare::Column;

    fn columns() -> Vec<Variant> {
        let column = |runs| Variant::from(&Column::new(&Design::demonstration(), runs));
        [9, 5, 7].map(column).to_vec()
    }

    fn with_class<'a>(picture: &'a Picture, class: &str) -> Vec<&'a Mark> {
        picture.marks.iter().filter(|mark| mark.class == class).collect()
    }

    #[test]
    fn runs_are_drawn_with_the_place_where_the_draft_ends() {
        let design = Design::demonstration();
        let marked = Marked { best: Some(7.0), gain_ends: Some(5.0) };
        let gallery = sweep(&design, &columns(), marked, System::Metric);
        let [heat, draft] = gallery.pictures.as_slice() else { panic!("{gallery:?}") };
        assert_eq!((heat.stops.len(), gallery.readings.len(), gallery.first), (3, 3, 1));
        assert!(gallery.readings[0].0.starts_with("Runs 5: "), "{:?}", gallery.readings);
        assert_eq!(gallery.readings[2].1, "rn 9");
        // Five runs have draft to spare, nine have not.
        assert_eq!(with_class(draft, "wanted").len(), 1);
        assert_eq!(with_class(draft, "crossing").len(), 1);
        assert_eq!(with_class(heat, "crossing").len(), 1);
        assert_eq!(with_class(heat, "best").len(), 1);
        assert!(heat.title.contains("Heat that stays, %"));
        let one = sweep(&design, &columns()[..1], marked, System::Us);
        assert_eq!(one, Gallery::default());
    }

    /// By hand: a draft of 3 at 5 and of -1 at 7 is what is wanted at 6.5.
    #[test]
    fn the_draft_ends_where_its_line_does() {
        let dot = |x, y| Dot { x, y: [0.0, y], passes: false };
        let row = Row {
            id: FieldId::RunCount,
            system: System::Metric,
            dots: vec![dot(5.0, 3.0), dot(7.0, -1.0)],
            ends: (4.0, 8.0),
            now: 5.0,
            marked: Marked::default(),
        };
        assert!((row.draft_ends().unwrap() - 6.5).abs() < 1e-12);
    }

    #[test]
    fn ticks_are_round_and_within_their_range() {
        assert_eq!(ticks((0.0, 10.0), 5.0), (vec![0.0, 2.0, 4.0, 6.0, 8.0, 10.0], 0));
        let (values, decimals) = ticks((-0.013, 0.027), 4.0);
        assert_eq!((values.len(), decimals), (4, 2));
        assert!(
            values.iter().zip([-0.01, 0.0, 0.01, 0.02]).all(|(a, b)| (a - b).abs() < 1e-12)
        );
    }

    #[test]
    fn a_map_draws_a_field_for_each_pair_and_the_border_of_the_yes() {
        let column = Variant::from(&Column::new(&Design::demonstration(), 5));
        let brief = Brief { answers: [Answer::Yes; 3], ..column.brief.unwrap() };
        let at = |up: f64, across: f64, brief: Option<Brief>| Variant {
            puts: vec![(FieldId::RunCount, up), (FieldId::FiringsPerDay, across)],
            brief,
        };
        let variants = [
            at(1.0, 1.0, Some(brief)),
            at(1.0, 2.0, Some(brief)),
            at(3.0, 1.0, None),
            at(3.0, 2.0, None),
        ];
        let design = Design::demonstration();
        let gallery = map(&design, &variants, System::Metric);
        let [picture] = gallery.pictures.as_slice() else { panic!("{gallery:?}") };
        assert_eq!((picture.stops.len(), gallery.across), (4, 2));
        assert_eq!(with_class(picture, "field yes").len(), 2);
        // By hand: two fields beside each other have six sides that face no other yes.
        assert_eq!(with_class(picture, "border").len(), 6);
        // The larger value of the first input is at the top.
        assert!(gallery.readings[0].0.starts_with("Runs 3"), "{:?}", gallery.readings);
        assert_eq!(map(&design, &columns(), System::Us), Gallery::default());
    }
}
