//! One course from above: its bricks, what stands beside it at its height, where the gas goes.

use super::sheet::Sheet;
use super::{Anchor, Drawing, Extent, Point, Role, Shape, point};
use crate::courses::lattice::{Rect, meters};
use crate::courses::materials::{Cut, cuts};
use crate::courses::{Course, Kind, Opening, Part, Piece, Plans};
use crate::language::{said, say};
use crate::rules::Place;
use crate::units::{Quantity, System, figure};
use crate::words::courses as said;

/// Text size over the longer side of the masonry (–).
const TEXT: f64 = 0.016;
/// From the plan down to the section, over the text size (–).
const SECTION: f64 = 4.5;
/// Half of the side of a tie (m): drawn, not designed.
const TIE: f64 = 0.012;

/// From number to number up a section, over the text size (–).
const LINE: f64 = 1.15;
/// Where the stroke of a cut piece leaves room for its number (–).
const BROKEN: (f64, f64) = (0.28, 0.72);

/// A course by its place among all of them, to scale (m), without a heading: x and y as in the plan,
/// with the section at its height below. Texts are enlarged by a factor. None where there is no such course.
pub fn course(plans: &Plans, at: usize, system: System, text_scale: f64) -> Option<Drawing> {
    let course = plans.courses.get(at)?;
    let whole = whole(plans)?;
    let longer = whole.width().max(whole.height());
    let mut sheet = Sheet::new(text_scale * TEXT * longer);
    from_above(&mut sheet, plans, (course, whole), &cuts(plans), system);
    section(&mut sheet, plans, course, whole);
    let title = said::title(plans, course, system);
    sheet.key = key(course, system);
    Some(sheet.finish(description(&title, course)))
}

/// Courses laid alike: the plan of the first of them, and the places of all.
pub struct Alike {
    /// The plan, as large as that of any other course.
    pub drawing: Drawing,
    /// Places among all courses.
    pub places: Vec<usize>,
}

/// Size of all masonry in plan (m); none where there is none.
pub fn size(plans: &Plans) -> Option<Extent> {
    whole(plans)
}

/// The plan of every course without a heading, those laid alike together in the order in which the
/// first of them is laid, with texts of a size (m).
pub fn all(plans: &Plans, system: System, text_size: f64) -> Vec<Alike> {
    let mut groups: Vec<(&Course, Vec<usize>)> = Vec::new();
    for (place, course) in plans.courses.iter().enumerate() {
        match groups.iter_mut().find(|(first, _)| are_alike(first, course)) {
            Some((_, places)) => places.push(place),
            None => groups.push((course, vec![place])),
        }
    }
    let Some(whole) = whole(plans) else {
        return Vec::new();
    };
    let cuts = cuts(plans);
    let drawn = groups.into_iter().map(|(course, places)| {
        let mut sheet = Sheet::new(text_size);
        from_above(&mut sheet, plans, (course, whole), &cuts, system);
        // Every plan takes the same room.
        for corner in [whole.low, whole.high] {
            sheet.add(Role::Halo, None, Shape::Line { points: vec![corner; 2] });
        }
        let title = said::title(plans, course, system);
        Alike { drawing: sheet.finish(description(&title, course)), places }
    });
    drawn.collect()
}

fn are_alike(one: &Course, other: &Course) -> bool {
    (one.part, one.body, one.height) == (other.part, other.body, other.height)
        && one.pieces == other.pieces
        && one.open == other.open
        && one.ties == other.ties
}

fn description(title: &str, course: &Course) -> String {
    let counted = said::counted(course);
    say!("Course from above, to scale. {title}: {counted}.")
}

/// The plan of a course with its dimensions.
fn from_above(
    sheet: &mut Sheet,
    plans: &Plans,
    (course, whole): (&Course, Extent),
    cuts: &[Cut],
    system: System,
) {
    let height = course.bottom + course.bed + course.height / 2;
    beside(sheet, plans, course, height);
    spaces(sheet, plans, height);
    for piece in &course.pieces {
        draw(sheet, course.part, piece);
    }
    for piece in &course.pieces {
        number(sheet, course.part, piece, cuts);
    }
    for (opening, rect) in &course.open {
        open(sheet, *opening, extent(*rect));
    }
    for (x, y) in &course.ties {
        let at = point(meters(*x), meters(*y));
        sheet.rectangle(Role::Damper, None, Extent::new(at.x, at.y, at.x, at.y).grown(TIE));
    }
    dimensions(sheet, course, whole, system);
}

/// All courses cut upright through the middle of the firebox, with their numbers beside them: those
/// of the facing to the right, all others to the left.
pub fn numbered(plans: &Plans, text_size: f64) -> Option<Drawing> {
    let whole = whole(plans)?;
    let mut sheet = Sheet::new(text_size);
    for course in &plans.courses {
        for place in cut(course, 0.0) {
            let role =
                if course.part == Part::Facing { Role::FacingBrick } else { Role::Brick };
            sheet.rectangle(role, None, place);
        }
    }
    let mut last = [f64::MIN; 2];
    for (course, number) in plans.courses.iter().zip(1_usize..) {
        let is_facing = course.part == Part::Facing;
        let (x, anchor) = if is_facing {
            (whole.high.x + text_size, Anchor::Start)
        } else {
            (whole.low.x - text_size, Anchor::End)
        };
        let y = meters(course.bottom + course.bed + course.height / 2) - 0.3 * text_size;
        let [left, right] = &mut last;
        let before = if is_facing { right } else { left };
        if *before + LINE * text_size <= y {
            *before = y;
            let shape = Shape::Label { at: point(x, y), text: number.to_string(), anchor };
            sheet.add(Role::Label, None, shape);
        }
    }
    Some(sheet.finish(said("All courses cut upright, with their numbers.").into()))
}

fn extent(rect: Rect) -> Extent {
    let [left, front, right, back] = [rect.left, rect.front, rect.right, rect.back].map(meters);
    Extent::new(left, front, right, back)
}

/// Around all courses, so that every plan is drawn alike.
fn whole(plans: &Plans) -> Option<Extent> {
    let bounds = plans.courses.iter().filter_map(|course| course.region.bounds());
    bounds.reduce(Rect::join).map(extent)
}

/// What other parts have at this height, as an outline.
fn beside(sheet: &mut Sheet, plans: &Plans, course: &Course, height: i32) {
    for other in &plans.courses {
        let is_other = (other.part, other.body) != (course.part, course.body);
        if is_other && other.bottom <= height && height < other.top() {
            for rect in other.region.rows() {
                sheet.rectangle(Role::House, None, extent(rect));
            }
        }
    }
}

/// Where the gas goes at this height.
fn spaces(sheet: &mut Sheet, plans: &Plans, height: i32) {
    use crate::courses::Space;
    for clear in &plans.clear {
        if clear.bottom <= height && height < clear.top {
            let place = match clear.space {
                Space::Firebox | Space::WayUp => Some(Place::Firebox),
                Space::WayDown => Some(Place::Run(0)),
                Space::Run(index) => Some(Place::Run(index)),
                Space::Turn(_) => None,
            };
            let space = extent(clear.rect);
            sheet.rectangle(Role::Void, place, space);
            let name = said::space(clear.space);
            let at = point(space.middle().x, space.middle().y - 0.3 * sheet.text_size);
            let shape = Shape::Label { at, text: name, anchor: Anchor::Middle };
            let fits = shape.text_extent(sheet.text_size).is_some_and(|text| {
                text.width() < space.width() && text.height() < space.height()
            });
            if fits {
                sheet.add_if_free(Role::QuietLabel, shape);
            }
        }
    }
}

/// A piece.
fn draw(sheet: &mut Sheet, part: Part, piece: &Piece) {
    let role = match (piece.kind, part) {
        (Kind::Slab, _) => Role::Slab,
        (Kind::Lintel, _) => Role::Lintel,
        (Kind::Brick | Kind::Block, Part::Facing) => Role::FacingBrick,
        (Kind::Brick | Kind::Block, _) => Role::Brick,
    };
    let place = extent(piece.rect);
    sheet.rectangle(role, None, place);
    for hole in &piece.holes {
        sheet.rectangle(Role::Void, None, extent(*hole));
    }
}

/// The number of a piece in the list of cuts, where it has room; a stroke from corner to corner means
/// that a brick is cut.
fn number(sheet: &mut Sheet, part: Part, piece: &Piece, cuts: &[Cut]) {
    let place = extent(piece.rect);
    let made = |cut: &Cut| (cut.part, cut.kind, cut.size) == (part, piece.kind, piece.size);
    let is_made = piece.is_cut || matches!(piece.kind, Kind::Slab | Kind::Lintel);
    let number = cuts.iter().position(made).filter(|_| is_made).map(|index| index + 1);
    let at = point(place.middle().x, place.middle().y - 0.3 * sheet.text_size);
    let label = number.map(|number| Shape::Label {
        at,
        text: number.to_string(),
        anchor: Anchor::Middle,
    });
    let fits = |shape: &Shape| {
        let text = shape.text_extent(sheet.text_size);
        text.is_some_and(|text| text.width() < place.width() && text.height() < place.height())
    };
    let label = label.filter(fits);
    let stroke = |from: f64, to: f64| {
        let along = |share: f64| {
            let (low, high) = (place.low, place.high);
            point(low.x + share * (high.x - low.x), low.y + share * (high.y - low.y))
        };
        vec![along(from), along(to)]
    };
    if piece.is_cut && label.is_some() {
        sheet.line(Role::QuietLabel, stroke(0.0, BROKEN.0));
        sheet.line(Role::QuietLabel, stroke(BROKEN.1, 1.0));
    } else if piece.is_cut {
        sheet.line(Role::QuietLabel, stroke(0.0, 1.0));
    }
    if let Some(label) = label {
        sheet.add(Role::Label, None, label);
    }
}

fn open(sheet: &mut Sheet, opening: Opening, space: Extent) {
    let (role, place) = match opening {
        Opening::Door => (Role::Door, Some(Place::Door)),
        Opening::OvenDoor => (Role::Door, None),
        Opening::Cleanout(run) => (Role::Cleanout, Some(Place::Run(run))),
        Opening::BleedSlot | Opening::Bypass | Opening::WayToRuns => (Role::Passage, None),
        Opening::Air => (Role::Inlet, None),
        Opening::Connector => (Role::Inlet, Some(Place::RunsOutlet)),
    };
    sheet.rectangle(role, place, space);
}

/// Length and depth of the course, and where its first piece begins.
fn dimensions(sheet: &mut Sheet, course: &Course, whole: Extent, system: System) {
    let Some(own) = course.region.bounds().map(extent) else {
        return;
    };
    let size = sheet.text_size;
    let text = |length: f64| figure(length, Quantity::Size, system);
    let y = whole.low.y - 1.6 * size;
    let level = |x: f64| -> Point { point(x, y) };
    let down = point(0.0, -0.6 * size);
    sheet.dimension(level(own.low.x), level(own.high.x), &text(own.width()), down);
    let x = whole.low.x - 0.5 * size;
    let (low, high) = (point(x, own.low.y), point(x, own.high.y));
    sheet.dimension(low, high, &text(own.height()), point(-0.6 * size, 0.0));
}

/// All courses cut upright through the middle of the firebox, below the plan, with this one in ink.
fn section(sheet: &mut Sheet, plans: &Plans, course: &Course, whole: Extent) {
    let heights = plans.courses.iter().map(Course::top);
    let top = meters(heights.max().unwrap_or(0));
    let base = whole.low.y - SECTION * sheet.text_size - top;
    for other in &plans.courses {
        for piece in cut(other, base) {
            sheet.rectangle(Role::House, None, piece);
        }
    }
    let bounds = course.region.bounds().map_or(whole, extent);
    let level = base + meters(course.bottom + course.bed + course.height / 2);
    for piece in cut(course, base) {
        sheet.rectangle(Role::Baffle, None, piece);
    }
    let size = sheet.text_size;
    for (from, to) in
        [(whole.low.x - 2.0 * size, bounds.low.x), (bounds.high.x, whole.high.x + 2.0 * size)]
    {
        sheet.line(Role::Passage, vec![point(from, level), point(to, level)]);
    }
}

/// What the middle of the firebox cuts of a course, above a base (m).
fn cut(of: &Course, base: f64) -> Vec<Extent> {
    let (low, high) = (meters(of.bottom + of.bed), meters(of.top()));
    let spans = of.pieces.iter().flat_map(across_the_middle);
    let place =
        |(left, right)| Extent::new(meters(left), base + low, meters(right), base + high);
    spans.map(place).collect()
}

/// Where a piece lies along x in the middle of the firebox, in steps.
fn across_the_middle(piece: &Piece) -> Vec<(i32, i32)> {
    let lies = |rect: &Rect| rect.front <= 0 && 0 < rect.back;
    let mut spans: Vec<(i32, i32)> =
        lies(&piece.rect).then_some((piece.rect.left, piece.rect.right)).into_iter().collect();
    for hole in piece.holes.iter().filter(|hole| lies(hole)) {
        let beside = |(left, right): (i32, i32)| {
            [(left, right.min(hole.left)), (left.max(hole.right), right)]
        };
        spans =
            spans.into_iter().flat_map(beside).filter(|(left, right)| left < right).collect();
    }
    spans
}

/// What the signs of the plans mean.
pub fn signs(plans: &Plans) -> Vec<(Role, String)> {
    let pieces = || plans.courses.iter().flat_map(|course| &course.pieces);
    let has = |kind: Kind| pieces().any(|piece| piece.kind == kind);
    let is_faced = plans.courses.iter().any(|course| course.part == Part::Facing);
    let has_ties = plans.courses.iter().any(|course| !course.ties.is_empty());
    let all = [
        (true, Role::Brick, said("core; with strokes from corner to corner: a cut brick")),
        (is_faced, Role::FacingBrick, said("facing, likewise")),
        (has(Kind::Slab), Role::Slab, said("slab")),
        (has(Kind::Lintel), Role::Lintel, said("lintel")),
        (true, Role::Void, said("way of the gas")),
        (true, Role::House, said("other parts at this height")),
        (has_ties, Role::Damper, said("tie in the bed below")),
    ];
    let all = all.into_iter().filter(|(is_there, ..)| *is_there);
    all.map(|(_, role, meaning)| (role, meaning.to_owned())).collect()
}

fn key(course: &Course, system: System) -> Vec<(Role, String)> {
    let mut key = Vec::new();
    let has = |kind: Kind| course.pieces.iter().any(|piece| piece.kind == kind);
    let brick = if course.part == Part::Facing { Role::FacingBrick } else { Role::Brick };
    if has(Kind::Brick) {
        key.push((brick, said("brick; with a stroke from corner to corner: cut").to_owned()));
    }
    if has(Kind::Block) {
        key.push((brick, said("stone or cast piece, length as a sketch").to_owned()));
    }
    let high = figure(meters(course.height), Quantity::Size, system);
    if has(Kind::Slab) {
        key.push((Role::Slab, say!("slab, {high} high")));
    }
    if has(Kind::Lintel) {
        key.push((Role::Lintel, say!("lintel, {high} high")));
    }
    key.push((Role::House, said("other parts at this height").to_owned()));
    if !course.ties.is_empty() {
        key.push((Role::Damper, said("tie in the bed").to_owned()));
    }
    key
}
