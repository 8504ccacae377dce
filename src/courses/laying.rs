//! Lays bodies in courses: what spans openings first, then strips of wall whose corners belong to
//! the one wall and the other in turn.

use super::brick::{Bed, Bricks, Kit};
use super::check::unbroken;
use super::lattice::{Rect, Region, Way, steps};
use super::row::{Span, best_row};
use super::solids::{Body, Fit, Hole, Level, Make, Part, Solids};
use super::spans::{spans, tiles};
use super::{Course, Joint, Kind, Piece, Through};
use crate::analysis::facing::TIE_REACH;
use std::borrow::Cow;

/// By how much a piece may stand out from what carries it (m), a third of a firebrick's height.
pub const OVERHANG: f64 = 0.02;
/// A side of a brick that differs by no more is not cut for it (steps of 0.1 mm).
const UNCUT: i32 = 20;
/// An opening that is only sketched may be lower by this share of a course (–).
const SKETCHED: f64 = 0.5;
/// From tie to tie along the wall (m), and up it from the base, where a facing is low up half of it; common
/// practice, no source.
const TIES: (f64, f64) = (0.60, 0.40);

/// A course before it is laid.
struct Layer<'a> {
    level: &'a Level,
    bottom: i32,
    bed: i32,
    height: i32,
    lie: Bed,
    /// Its place in the level.
    index: usize,
}

/// All courses, and what is open through them.
pub(super) fn lay(solids: &Solids, bricks: Bricks) -> (Vec<Course>, Vec<Through>) {
    let mut courses: Vec<Course> = Vec::new();
    let mut made: Vec<Made> = Vec::new();
    let mut through = Vec::new();
    let levels_of_all = solids.bodies.iter().flat_map(|body| &body.levels);
    let base = levels_of_all.map(|level| level.bottom).min().unwrap_or(0);
    for (index, body) in solids.bodies.iter().enumerate() {
        let brick = if body.part == Part::Facing { bricks.facing } else { bricks.core };
        let kit = Kit::new(brick);
        let levels = levels(body, kit, &made);
        let layers: Vec<Layer<'_>> =
            levels.iter().flat_map(|level| layers(level, kit)).collect();
        let open = openings(body, &layers, &made);
        let which = solids.bodies.iter().take(index).filter(|b| b.part == body.part).count();
        let first = courses.len();
        let top = body.levels.last().map_or(base, |level| level.top);
        for level in layers.chunk_by(|_, next| next.index > 0) {
            let mut laid = best_laid((&courses, base), level, &open, kit);
            for course in &mut laid {
                course.part = body.part;
                (course.body, course.number) = (which, course.number + courses.len() - first);
                course.ties = ties((&courses, base), course, top);
            }
            courses.append(&mut laid);
        }
        through.extend(open.iter().map(|each| each.through(&made)));
        if body.part != Part::Facing {
            made.extend(open);
        }
    }
    (courses, through)
}

/// A level whose first course runs through in front and behind, or at the sides: the one in which more
/// joints are broken, then fewer bricks cut.
fn best_laid(
    laid: (&[Course], i32),
    level: &[Layer<'_>],
    open: &[Made],
    kit: Kit,
) -> Vec<Course> {
    let rate = |courses: &[Course]| {
        let pairs = courses.iter().zip(courses.iter().skip(1));
        let unbroken: usize = pairs.map(|(below, above)| unbroken(below, above).count()).sum();
        let pieces = courses.iter().flat_map(|course| &course.pieces);
        (unbroken, pieces.filter(|piece| piece.is_cut).count())
    };
    let first = lay_level(laid, level, open, (kit, false));
    let best = rate(&first);
    if level.len() < 2 || best.0 == 0 {
        return first;
    }
    let other = lay_level(laid, level, open, (kit, true));
    if rate(&other) < best { other } else { first }
}

/// The courses of a level over those that are laid, numbered from 1, not yet named; turned where its first
/// course runs through at the sides. On the base nothing else carries them.
fn lay_level(
    (courses, base): (&[Course], i32),
    level: &[Layer<'_>],
    open: &[Made],
    (kit, turned): (Kit, bool),
) -> Vec<Course> {
    let mut laid: Vec<Course> = Vec::with_capacity(level.len());
    for (number, layer) in level.iter().enumerate() {
        let support =
            (base < layer.bottom).then(|| support(courses.iter().chain(&laid), layer));
        let below = laid.last().map_or(Vec::new(), |course| course.joints.clone());
        let (ahead, pieces, joints) = (Vec::new(), Vec::new(), Vec::new());
        let row = Row { kit, layer, turned, below, ahead, pieces, joints };
        let mut course = row.lay(open, support.as_ref());
        course.number = number + 1;
        laid.push(course);
    }
    laid
}

/// An opening in whole courses, in steps.
struct Made {
    hole: Hole,
    bottom: i32,
    top: i32,
}

impl Made {
    /// What must be open through it: of what goes on from the core as much as there.
    fn through(&self, made: &[Self]) -> Through {
        let inner = inner(&self.hole, made).unwrap_or(self);
        let Hole { opening, through, area, .. } = self.hole;
        let rect = self.hole.rect;
        Through { opening, way: through, rect, bottom: inner.bottom, top: inner.top, area }
    }
}

/// The opening in the core that goes on in this one.
fn inner<'a>(hole: &Hole, made: &'a [Made]) -> Option<&'a Made> {
    made.iter().find(|Made { hole: other, .. }| {
        other.opening == hole.opening
            && (other.bottom, other.top) == (hole.bottom, hole.top)
            && other.rect.overlaps(hole.rect)
    })
}

/// The levels of a body; stones and cast pieces end where openings do.
fn levels<'a>(body: &'a Body, kit: Kit, made: &[Made]) -> Vec<Cow<'a, Level>> {
    if kit.is_brick {
        return body.levels.iter().map(Cow::Borrowed).collect();
    }
    let ends = body.holes.iter().flat_map(|hole| {
        let inner = inner(hole, made);
        inner.map_or([hole.bottom, hole.top], |inner| [inner.bottom, inner.top])
    });
    let mut ends: Vec<i32> = ends.collect();
    ends.sort_unstable();
    let mut levels = Vec::new();
    for level in &body.levels {
        let mut bottom = level.bottom;
        let within = ends.iter().filter(|end| level.bottom < **end && **end < level.top);
        let walls = matches!(level.make, Make::Walls(_));
        for top in within.copied().filter(|_| walls).chain([level.top]) {
            if bottom < top {
                levels.push(Cow::Owned(Level { bottom, top, ..level.clone() }));
            }
            bottom = top;
        }
    }
    levels
}

/// Cuts a level into courses.
fn layers(level: &Level, kit: Kit) -> Vec<Layer<'_>> {
    let total = level.top - level.bottom;
    let lie = match level.make {
        Make::Walls(thickness) => kit.bed(thickness),
        Make::Solid => kit.best_bed(total),
        Make::Slab => Bed::Flat,
    };
    let mut bottom = level.bottom;
    if level.make == Make::Slab {
        // A slab thinner than its joints is bedded thinly.
        let bed = kit.joint.min(total / 4);
        return vec![Layer { level, bottom, bed, height: total - bed, lie, index: 0 }];
    }
    let mut layers = Vec::new();
    for (index, (start, height)) in kit.rises(total, lie).into_iter().enumerate() {
        let bed = level.bottom + kit.joint + start - bottom;
        layers.push(Layer { level, bottom, bed, height, lie, index });
        bottom += bed + height;
    }
    if bottom < level.top {
        // Lower than a joint.
        let bed = level.top - bottom;
        layers.push(Layer { level, bottom, bed, height: 0, lie, index: 0 });
    }
    layers
}

/// Openings in whole courses: where they begin and end.
fn openings(body: &Body, layers: &[Layer<'_>], made: &[Made]) -> Vec<Made> {
    body.holes
        .iter()
        .filter_map(|hole| {
            let (bottom, top) = match inner(hole, made) {
                Some(inner) => around(layers, inner.bottom, inner.top),
                // Its ends are those of courses, whatever other openings part the wall into.
                None if hole.area.is_some() => around(layers, hole.bottom, hole.top),
                None => in_courses(layers, hole)?,
            };
            let inner = inner(hole, made);
            Some(Made { hole: sized(*hole, (bottom, top), inner), bottom, top })
        })
        .collect()
}

/// An opening as wide as its section asks for at its height, or as what it goes on from.
fn sized(hole: Hole, (bottom, top): (i32, i32), inner: Option<&Made>) -> Hole {
    let Some(area) = hole.area else {
        return hole;
    };
    let across = hole.through.other();
    let rect = across.turn(hole.rect);
    let (left, right) = if let Some(made) = inner {
        let inner = across.turn(made.hole.rect);
        (inner.left, inner.right)
    } else {
        let tall = i64::from((top - bottom).max(1));
        let wide = i32::try_from((area + tall - 1) / tall).unwrap_or(rect.width());
        let left = i32::midpoint(rect.left, rect.right) - wide / 2;
        (left, left + wide)
    };
    Hole { rect: across.turn(Rect { left, right, ..rect }), ..hole }
}

/// The courses around what is open in the core.
fn around(layers: &[Layer<'_>], bottom: i32, top: i32) -> (i32, i32) {
    let ends = |layer: &Layer<'_>| layer.bottom + layer.bed + layer.height;
    let low = layers.iter().map(|layer| layer.bottom).filter(|each| *each <= bottom).max();
    let high = layers.iter().map(ends).filter(|each| top <= *each).min();
    (low.unwrap_or(bottom), high.unwrap_or(top))
}

/// From the course that begins nearest to its sill up to that which gives its height.
fn in_courses(layers: &[Layer<'_>], hole: &Hole) -> Option<(i32, i32)> {
    let ends = |layer: &Layer<'_>| layer.bottom + layer.bed + layer.height;
    let middle = i32::midpoint(hole.bottom, hole.top);
    let level = layers.iter().find(|l| l.level.bottom <= middle && middle < l.level.top)?.level;
    let own: Vec<&Layer<'_>> =
        layers.iter().filter(|layer| layer.level.bottom == level.bottom).collect();
    let tall = hole.top - hole.bottom;
    let slack = if hole.fit == Fit::Near {
        #[expect(clippy::cast_possible_truncation, reason = "half of a course")]
        own.first().map_or(0, |l| (SKETCHED * f64::from(l.bed + l.height)) as i32)
    } else {
        0
    };
    let top_of = |bottom: i32| {
        own.iter().map(|l| ends(l)).find(|top| bottom + tall - slack <= *top && bottom < *top)
    };
    let starts = own.iter().map(|layer| layer.bottom);
    let whole = starts.filter_map(|bottom| top_of(bottom).map(|top| (bottom, top)));
    whole
        .min_by_key(|(bottom, _)| (bottom - hole.bottom).abs())
        .or_else(|| own.first().zip(own.last()).map(|(low, high)| (low.bottom, ends(high))))
}

/// What carries a course: the one below in its body and whatever ends where it begins.
fn support<'a>(courses: impl Iterator<Item = &'a Course>, layer: &Layer<'_>) -> Region {
    let mut support = Region::default();
    for course in courses.filter(|course| course.top() == layer.bottom) {
        for rect in course.region.rects() {
            support.add(*rect);
        }
    }
    support
}

/// Whether a rectangle reaches beyond what carries it, and by how much.
pub(super) fn overhang(rect: Rect, support: &Region) -> i32 {
    support.within(rect).bounds().map_or(rect.width().max(rect.depth()), |carried| {
        (carried.left - rect.left)
            .max(rect.right - carried.right)
            .max(carried.front - rect.front)
            .max(rect.back - carried.back)
    })
}

/// A side of a strip.
#[derive(Clone, Copy)]
enum Edge {
    Front,
    Back,
    Left,
    Right,
}

impl Edge {
    const ALL: [Self; 4] = [Self::Front, Self::Back, Self::Left, Self::Right];

    const fn opposite(self) -> Self {
        match self {
            Self::Front => Self::Back,
            Self::Back => Self::Front,
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }

    const fn is_across(self) -> bool {
        matches!(self, Self::Left | Self::Right)
    }

    /// The step beyond it.
    fn beyond(self, rect: Rect) -> Rect {
        let Rect { left, front, right, back } = rect;
        match self {
            Self::Front => Rect { front: front - 1, back: front, ..rect },
            Self::Back => Rect { front: back, back: back + 1, ..rect },
            Self::Left => Rect { left: left - 1, right: left, ..rect },
            Self::Right => Rect { left: right, right: right + 1, ..rect },
        }
    }

    /// A rectangle without a joint at this side, and the joint; what would be no thicker than the
    /// widest joint is laid dry.
    fn drawn(self, rect: Rect, kit: Kit) -> Option<(Rect, Rect)> {
        let joint = kit.joint;
        let Rect { left, front, right, back } = rect;
        let size = if self.is_across() { rect.width() } else { rect.depth() };
        (joint + kit.widest < size).then(|| match self {
            Self::Front => {
                (Rect { front: front + joint, ..rect }, Rect { back: front + joint, ..rect })
            }
            Self::Back => {
                (Rect { back: back - joint, ..rect }, Rect { front: back - joint, ..rect })
            }
            Self::Left => {
                (Rect { left: left + joint, ..rect }, Rect { right: left + joint, ..rect })
            }
            Self::Right => {
                (Rect { right: right - joint, ..rect }, Rect { left: right - joint, ..rect })
            }
        })
    }
}

/// A course in the making.
struct Row<'a> {
    kit: Kit,
    layer: &'a Layer<'a>,
    /// Whether side walls run through in its first course, not in its second.
    turned: bool,
    below: Vec<Joint>,
    /// Where the next course will have joints that it cannot choose.
    ahead: Vec<Joint>,
    pieces: Vec<Piece>,
    joints: Vec<Joint>,
}

impl Row<'_> {
    /// The course with its openings, not yet named.
    fn lay(mut self, open: &[Made], support: Option<&Region>) -> Course {
        let Layer { level, bottom, bed, height, lie, index } = *self.layer;
        let open = open.iter().filter(|made| made.bottom <= bottom && bottom < made.top);
        let whole = level.region.bounds().unwrap_or(Rect::new(0, 0, 0, 0));
        let open = open.map(|made| (made.hole.opening, made.hole.rect.meet(whole)));
        let open: Vec<_> = open.filter(|(_, rect)| !rect.is_empty()).collect();
        let mut region = level.region.clone();
        for (_, rect) in &open {
            region.cut(*rect);
        }
        self.fill(&region, support);
        Course {
            part: Part::Firebox,
            body: 0,
            number: 0,
            in_level: index,
            bottom,
            bed,
            height,
            lie,
            region,
            pieces: self.pieces,
            joints: self.joints,
            ties: Vec::new(),
            widest: self.kit.widest,
            open,
        }
    }

    fn fill(&mut self, region: &Region, support: Option<&Region>) {
        if self.layer.height <= 0 {
            return;
        }
        if self.layer.level.make == Make::Slab {
            self.slabs(region, support);
            return;
        }
        let joint = self.kit.joint;
        let spans = support.map_or(Vec::new(), |support| spans(region, support, joint));
        let mut rest = region.clone();
        let mut fixed = Vec::with_capacity(spans.len());
        let mut slots: Vec<Rect> = Vec::with_capacity(spans.len());
        for (rect, way) in spans {
            rest.cut(rect);
            // A joint lies between two of them, not two.
            let mut beyond = region.clone();
            for slot in &slots {
                beyond.cut(*slot);
            }
            fixed.push(self.lintel((rect, way), &beyond));
            slots.push(rect);
        }
        // Front and back walls run through in one course, the others in the next.
        let way = if self.is_along() { Way::Along } else { Way::Deep };
        self.ahead = self.apart(&rest.strips(way.other()), &fixed, way.other()).1;
        let (strips, joints) = self.apart(&rest.strips(way), &fixed, way);
        self.joints.extend(joints);
        for strip in strips {
            self.strip(strip);
        }
        self.fill_in(region);
    }

    fn is_along(&self) -> bool {
        self.layer.index.is_multiple_of(2) != self.turned
    }

    /// Fills what would be thicker than a joint, where strips and lintels meet oddly.
    fn fill_in(&mut self, region: &Region) {
        let mut rest = region.clone();
        for piece in &self.pieces {
            rest.cut(piece.rect);
        }
        while let Some(rect) = rest.thick(self.kit.widest) {
            let (along, across) =
                (rect.width().max(rect.depth()), rect.width().min(rect.depth()));
            self.brick(rect, along, across, self.kit.length);
            rest.cut(rect);
        }
    }

    /// What spans a space along x or across it, a joint short of the wall that goes on.
    fn lintel(&mut self, (rect, way): (Rect, Way), region: &Region) -> Rect {
        let edges = match way {
            Way::Along => [Edge::Left, Edge::Right],
            Way::Deep => [Edge::Front, Edge::Back],
        };
        let lap = self.kit.lap(self.kit.length);
        let mut piece = rect;
        for edge in edges {
            let goes_on = !region.within(edge.beyond(rect)).is_empty();
            if let Some((rest, gap)) = edge.drawn(piece, self.kit).filter(|_| goes_on) {
                self.joints.push(Joint { rect: gap, way, lap });
                piece = rest;
            }
        }
        self.put(Kind::Lintel, piece);
        piece
    }

    fn put(&mut self, kind: Kind, rect: Rect) {
        let height = self.layer.height;
        let (long, wide) = (rect.width().max(rect.depth()), rect.width().min(rect.depth()));
        let size = [long, wide, height];
        self.pieces.push(Piece { kind, rect, holes: Vec::new(), size, is_cut: false });
    }

    /// Strips drawn apart by a joint where they touch, with these joints. Rows touch in front and
    /// behind alone; the narrower gives way, and any to what spans. What is no wider than a joint
    /// is one.
    fn apart(&self, strips: &[Rect], fixed: &[Rect], way: Way) -> (Vec<Rect>, Vec<Joint>) {
        let turn = |rect: &Rect| way.turn(*rect);
        let widest = self.kit.widest;
        let is_thick = |rect: &Rect| widest < rect.width().min(rect.depth());
        let rows: Vec<Rect> = strips.iter().filter(|strip| is_thick(strip)).map(turn).collect();
        let fixed: Vec<Rect> = fixed.iter().map(turn).collect();
        let lap = self.kit.lap(self.kit.length);
        let (mut drawn, mut joints) = (Vec::with_capacity(rows.len()), Vec::new());
        let to_fixed = |row: &Rect, edge: Edge| {
            let beyond = edge.beyond(*row);
            fixed.iter().any(|each| each.overlaps(beyond))
        };
        for (index, row) in rows.iter().enumerate() {
            let mut strip = *row;
            for edge in Edge::ALL {
                let beyond = edge.beyond(*row);
                let to_row = rows.iter().enumerate().any(|(other, each)| {
                    let is_narrower = row.width() < each.width()
                        || row.width() == each.width() && other < index;
                    let meets = is_narrower && each.overlaps(beyond);
                    meets && !to_fixed(each, edge.opposite())
                });
                let yields = to_row || to_fixed(row, edge);
                if let Some((rest, gap)) = edge.drawn(strip, self.kit).filter(|_| yields) {
                    let across = if edge.is_across() { way } else { way.other() };
                    joints.push(Joint { rect: turn(&gap), way: across, lap });
                    strip = rest;
                }
            }
            drawn.push(turn(&strip));
        }
        drawn.retain(is_thick);
        (drawn, joints)
    }

    /// A strip of wall: wythes across it, bricks along each.
    fn strip(&mut self, strip: Rect) {
        let way = Way::of(strip);
        let strip = way.turn(strip);
        let wide = self.kit.across(self.layer.lie);
        let mut wythes = Vec::new();
        for (at, thick) in self.wythes(strip, wide, way) {
            let unit = if thick <= wide { self.kit.length } else { wide };
            let front = strip.front + at;
            let wythe = Rect::new(strip.left, front, strip.right, front + thick);
            let row = self.best_row(wythe, unit, way);
            self.put_row(wythe, &row, unit, way);
            wythes.push(wythe);
        }
        for (one, other) in wythes.iter().zip(wythes.iter().skip(1)) {
            let gap = Rect::new(strip.left, one.back, strip.right, other.front);
            let lap = self.kit.lap(wide);
            self.joints.push(Joint { rect: way.turn(gap), way: way.other(), lap });
        }
    }

    /// Bricks along a wall that is not thicker than one is wide; across it where it is not thicker
    /// than one is long; else several along it, and in the next course across it.
    fn wythes(&self, strip: Rect, wide: i32, way: Way) -> Vec<Span> {
        let long = self.kit.length;
        if strip.depth() <= long {
            return vec![(0, strip.depth())];
        }
        let unit = if self.is_along() { wide } else { long };
        self.best_row(strip.turned(), unit, way.other())
    }

    /// The row that breaks most joints with the courses below and above.
    fn best_row(&self, wythe: Rect, unit: i32, way: Way) -> Vec<Span> {
        let lap = self.kit.lap(unit);
        let near = self.below.iter().chain(&self.ahead);
        let near = near
            .filter(|joint| joint.way == way)
            .map(|joint| (way.turn(joint.rect), joint.lap.min(lap)))
            .filter(|(rect, _)| rect.front < wythe.back && wythe.front < rect.back)
            .map(|(rect, lap)| (rect.left - lap - wythe.left, rect.right + lap - wythe.left));
        best_row(wythe.width(), unit, self.kit.spacing(unit), &near.collect::<Vec<_>>())
    }

    fn put_row(&mut self, wythe: Rect, row: &[Span], unit: i32, way: Way) {
        let (front, back) = (wythe.front, wythe.back);
        for (at, size) in row {
            let left = wythe.left + at;
            let rect = way.turn(Rect::new(left, front, left + size, back));
            self.brick(rect, *size, wythe.depth(), unit);
        }
        for ((at, size), (next, _)) in row.iter().zip(row.iter().skip(1)) {
            let gap = Rect::new(wythe.left + at + size, front, wythe.left + next, back);
            let lap = self.kit.lap(unit);
            self.joints.push(Joint { rect: way.turn(gap), way, lap });
        }
    }

    /// A brick, with its size as cut: along the wall, across it, up.
    fn brick(&mut self, rect: Rect, along: i32, across: i32, unit: i32) {
        let Kit { length, width, height, is_brick, .. } = self.kit;
        let up = self.layer.height;
        if !is_brick {
            self.put(Kind::Block, rect);
            return;
        }
        let (long, wide) = if unit == length { (along, across) } else { (across, along) };
        let size = match self.layer.lie {
            Bed::Flat => [long, wide, up],
            Bed::Edge => [long, up, wide],
        };
        let whole = [length, width, height];
        let is_cut = size.iter().zip(whole).any(|(side, of)| UNCUT < (side - of).abs());
        self.pieces.push(Piece { kind: Kind::Brick, rect, holes: Vec::new(), size, is_cut });
    }

    /// A layer of slabs, across the shorter way; of bricks where one is long enough; in one piece
    /// where parts of it would not carry.
    fn slabs(&mut self, region: &Region, support: Option<&Region>) {
        let Some(bounds) = region.bounds() else {
            return;
        };
        let way = Way::of(bounds);
        let (strips, joints) = self.apart(&region.strips(way.other()), &[], way.other());
        let carried = |rect: &Rect| {
            support.is_none_or(|support| overhang(*rect, support) <= steps(OVERHANG))
        };
        let bricks = self.kit.is_brick
            && self.kit.height == self.layer.height
            && strips.iter().all(|strip| way.turn(*strip).depth() <= self.kit.length);
        let joint = self.kit.joint;
        let tiles: Vec<Rect> =
            strips.iter().flat_map(|strip| tiles(*strip, way.other(), joint)).collect();
        if !tiles.iter().all(carried) && carried(&bounds) {
            self.put(Kind::Slab, bounds);
            if let Some(slab) = self.pieces.last_mut() {
                slab.holes = Region::from(bounds).without(region).rows();
            }
        } else if bricks {
            self.joints.extend(joints);
            for strip in strips {
                let turned = way.turn(strip);
                let wide = self.kit.width;
                let unit = if turned.depth() <= wide { self.kit.length } else { wide };
                let row = self.best_row(turned, unit, way);
                self.put_row(turned, &row, unit, way);
            }
        } else {
            for tile in tiles {
                self.put(Kind::Slab, tile);
            }
        }
    }
}

/// Ties into the bed under a course of the facing, where they reach the core.
fn ties((courses, base): (&[Course], i32), course: &Course, top: i32) -> Vec<(i32, i32)> {
    let rise = steps(TIES.1).min((top - base) / 2).max(1);
    let rows_below = |height: i32| (height - base) / rise;
    let below = course.bottom - course.bed - course.height;
    let is_due = rows_below(course.bottom) != rows_below(below.max(base));
    if course.part != Part::Facing || !is_due {
        return Vec::new();
    }
    let beside = courses.iter().filter(|other| {
        other.part != Part::Facing
            && other.bottom <= course.bottom
            && course.bottom < other.top()
    });
    let core: Region = beside.flat_map(|other| other.region.rects().iter().copied()).collect();
    course.region.rows().iter().flat_map(|strip| tied(*strip, &core)).collect()
}

/// A place along a wall, or the nearest where there is core: the middle of what lies nearest.
fn onto(core: &[(i32, i32)], place: i32) -> i32 {
    let off = |span: &(i32, i32)| (span.0 - place).max(place - span.1).max(0);
    let nearest = core.iter().min_by_key(|span| off(span));
    nearest
        .map_or(place, |span| if off(span) > 0 { i32::midpoint(span.0, span.1) } else { place })
}

/// Places of ties on both sides of a strip, along what of the core they reach.
fn tied(strip: Rect, core: &Region) -> Vec<(i32, i32)> {
    let way = Way::of(strip);
    let Rect { left, front, right, back } = way.turn(strip);
    let reach = steps(TIE_REACH);
    let mut places = Vec::new();
    for (y, near, far) in [(front, front - reach, front), (back, back, back + reach)] {
        let within = core.within(way.turn(Rect::new(left, near, right, far)));
        let mut spans: Vec<(i32, i32)> = within
            .rects()
            .iter()
            .map(|rect| way.turn(*rect))
            .map(|r| (r.left, r.right))
            .collect();
        spans.sort_unstable();
        let mut whole: Vec<(i32, i32)> = Vec::new();
        for (from, to) in spans {
            match whole.last_mut().filter(|before| from <= before.1) {
                Some(before) => before.1 = before.1.max(to),
                None => whole.push((from, to)),
            }
        }
        let Some((from, to)) =
            whole.first().map(|first| first.0).zip(whole.last().map(|last| last.1))
        else {
            continue;
        };
        let count = ((to - from) / steps(TIES.0)).max(1);
        let mut at: Vec<i32> = (0..count)
            .map(|index| onto(&whole, from + (2 * index + 1) * (to - from) / (2 * count)))
            .collect();
        at.dedup();
        let place = |x: i32| way.turn(Rect::new(x, y, x + 1, y + 1));
        places.extend(at.into_iter().map(place).map(|place| (place.left, place.front)));
    }
    places
}
