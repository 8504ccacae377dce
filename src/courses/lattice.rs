//! Plans on a lattice of a tenth of a millimeter, so that bricks and joints add up exactly.

/// Steps of the lattice in a meter.
const STEPS: f64 = 1e4;

/// A length (m) in whole steps.
#[expect(clippy::cast_possible_truncation, reason = "a heater is a few meters")]
pub fn steps(meters: f64) -> i32 {
    (meters * STEPS).round() as i32
}

/// A length of whole steps (m).
pub fn meters(steps: i32) -> f64 {
    f64::from(steps) / STEPS
}

/// A rectangle in plan, in steps: x to the right, y from front to back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Rect {
    /// Its smaller y.
    pub front: i32,
    /// Its smaller x.
    pub left: i32,
    /// Its greater y.
    pub back: i32,
    /// Its greater x.
    pub right: i32,
}

impl Rect {
    /// By its sides.
    pub const fn new(left: i32, front: i32, right: i32, back: i32) -> Self {
        Self { front, left, back, right }
    }

    /// Along x.
    pub const fn width(self) -> i32 {
        self.right - self.left
    }

    /// Along y.
    pub const fn depth(self) -> i32 {
        self.back - self.front
    }

    /// Whether nothing lies in it.
    pub const fn is_empty(self) -> bool {
        self.width() <= 0 || self.depth() <= 0
    }

    /// Area in square steps.
    pub fn area(self) -> i64 {
        if self.is_empty() { 0 } else { i64::from(self.width()) * i64::from(self.depth()) }
    }

    /// x for y.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self::new(self.front, self.left, self.back, self.right)
    }

    /// Wider on every side.
    #[must_use]
    pub const fn grown(self, by: i32) -> Self {
        Self::new(self.left - by, self.front - by, self.right + by, self.back + by)
    }

    /// What two have in common; empty where that is nothing.
    #[must_use]
    pub fn meet(self, other: Self) -> Self {
        Self::new(
            self.left.max(other.left),
            self.front.max(other.front),
            self.right.min(other.right),
            self.back.min(other.back),
        )
    }

    /// The rectangle around two.
    #[must_use]
    pub fn join(self, other: Self) -> Self {
        Self::new(
            self.left.min(other.left),
            self.front.min(other.front),
            self.right.max(other.right),
            self.back.max(other.back),
        )
    }

    /// Whether two have more than an edge in common.
    pub fn overlaps(self, other: Self) -> bool {
        !self.meet(other).is_empty()
    }

    /// What is left of it without another.
    fn without(self, other: Self) -> impl Iterator<Item = Self> {
        let hole = self.meet(other);
        let parts = if hole.is_empty() {
            [self; 4].map(Some).map(|part| part.filter(|_| false))
        } else {
            [
                Self::new(self.left, self.front, self.right, hole.front),
                Self::new(self.left, hole.back, self.right, self.back),
                Self::new(self.left, hole.front, hole.left, hole.back),
                Self::new(hole.right, hole.front, self.right, hole.back),
            ]
            .map(|part| Some(part).filter(|part| !part.is_empty()))
        };
        let whole = hole.is_empty().then_some(self);
        whole.into_iter().chain(parts.into_iter().flatten())
    }
}

/// A direction in plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Along x.
    Along,
    /// From front to back.
    Deep,
}

impl Way {
    /// That of the longer side.
    pub const fn of(rect: Rect) -> Self {
        if rect.width() >= rect.depth() { Self::Along } else { Self::Deep }
    }

    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Along => Self::Deep,
            Self::Deep => Self::Along,
        }
    }

    /// A rectangle turned so that this way lies along x, and back again.
    #[must_use]
    pub const fn turn(self, rect: Rect) -> Rect {
        match self {
            Self::Along => rect,
            Self::Deep => rect.turned(),
        }
    }
}

/// A rectilinear part of a plan, as rectangles that do not overlap.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Region {
    rects: Vec<Rect>,
}

impl From<Rect> for Region {
    fn from(rect: Rect) -> Self {
        Self { rects: Some(rect).filter(|rect| !rect.is_empty()).into_iter().collect() }
    }
}

impl FromIterator<Rect> for Region {
    fn from_iter<T: IntoIterator<Item = Rect>>(rects: T) -> Self {
        let mut region = Self::default();
        for rect in rects {
            region.add(rect);
        }
        region
    }
}

impl Region {
    /// Adds a rectangle; where there is something already, nothing changes.
    pub fn add(&mut self, rect: Rect) {
        let mut new = Self::from(rect);
        for old in &self.rects {
            new.cut(*old);
        }
        self.rects.append(&mut new.rects);
    }

    /// Takes a rectangle out.
    pub fn cut(&mut self, hole: Rect) {
        if hole.is_empty() {
            return;
        }
        let mut parts = Vec::new();
        self.rects.retain(|rect| {
            let is_cut = rect.overlaps(hole);
            if is_cut {
                parts.extend(rect.without(hole));
            }
            !is_cut
        });
        self.rects.append(&mut parts);
    }

    /// Its rectangles, which do not overlap.
    pub fn rects(&self) -> &[Rect] {
        &self.rects
    }

    /// Whether it has no area.
    pub fn is_empty(&self) -> bool {
        self.rects.is_empty()
    }

    /// Area in square steps.
    pub fn area(&self) -> i64 {
        self.rects.iter().map(|rect| rect.area()).sum()
    }

    /// Without another.
    #[must_use]
    pub fn without(&self, other: &Self) -> Self {
        let mut rest = self.clone();
        for rect in &other.rects {
            rest.cut(*rect);
        }
        rest
    }

    /// Its part within a rectangle.
    #[must_use]
    pub fn within(&self, rect: Rect) -> Self {
        let parts = self.rects.iter().map(|each| each.meet(rect));
        Self { rects: parts.filter(|part| !part.is_empty()).collect() }
    }

    /// Whether all of a rectangle lies in it.
    pub fn covers(&self, rect: Rect) -> bool {
        self.within(rect).area() == rect.area()
    }

    /// The rectangle around it.
    pub fn bounds(&self) -> Option<Rect> {
        self.rects.iter().copied().reduce(Rect::join)
    }

    /// Cut into the longest strips along x that fit, from front to back. Two strips touch along x
    /// alone.
    pub fn rows(&self) -> Vec<Rect> {
        let mut levels: Vec<i32> =
            self.rects.iter().flat_map(|rect| [rect.front, rect.back]).collect();
        levels.sort_unstable();
        levels.dedup();
        let mut rows: Vec<Rect> = Vec::new();
        let mut open: Vec<Rect> = Vec::new();
        for (front, back) in levels.iter().zip(levels.iter().skip(1)) {
            let band = self.band(*front, *back);
            let (mut on, ended): (Vec<Rect>, Vec<Rect>) = open.drain(..).partition(|row| {
                band.iter().any(|each| (each.left, each.right) == (row.left, row.right))
            });
            rows.extend(ended);
            for row in &mut on {
                row.back = *back;
            }
            for each in band {
                if !on.iter().any(|row| (row.left, row.right) == (each.left, each.right)) {
                    on.push(each);
                }
            }
            open = on;
        }
        rows.extend(open);
        rows.sort_unstable();
        rows
    }

    /// Likewise along y.
    pub fn columns(&self) -> Vec<Rect> {
        self.turned().rows().into_iter().map(Rect::turned).collect()
    }

    /// Cut into the longest strips that lie in a direction.
    pub fn strips(&self, way: Way) -> Vec<Rect> {
        match way {
            Way::Along => self.rows(),
            Way::Deep => self.columns(),
        }
    }

    /// x for y.
    #[must_use]
    pub fn turned(&self) -> Self {
        Self { rects: self.rects.iter().map(|rect| rect.turned()).collect() }
    }

    /// What lies between two levels of y that no edge comes between.
    fn band(&self, front: i32, back: i32) -> Vec<Rect> {
        let mut parts: Vec<Rect> = self
            .rects
            .iter()
            .filter(|rect| rect.front <= front && back <= rect.back)
            .map(|rect| Rect::new(rect.left, front, rect.right, back))
            .collect();
        parts.sort_unstable_by_key(|rect| rect.left);
        let mut merged: Vec<Rect> = Vec::with_capacity(parts.len());
        for part in parts {
            match merged.last_mut() {
                Some(last) if last.right == part.left => last.right = part.right,
                _ => merged.push(part),
            }
        }
        merged
    }

    /// A rectangle in it whose width and depth are both more than a size; none where it is thinner
    /// everywhere.
    pub fn thick(&self, size: i32) -> Option<Rect> {
        let mut edges: Vec<i32> =
            self.rects.iter().flat_map(|rect| [rect.front, rect.back]).collect();
        edges.sort_unstable();
        edges.dedup();
        let bands = edges.iter().zip(edges.iter().skip(1));
        let bands = bands.flat_map(|(front, back)| self.band(*front, *back));
        let mut open: Vec<Rect> = Vec::new();
        for band in bands.filter(|band| size < band.width()) {
            let mut next = vec![band];
            for each in &open {
                let (left, right) = (each.left.max(band.left), each.right.min(band.right));
                if each.back == band.front && size < right - left {
                    next.push(Rect::new(left, each.front, right, band.back));
                }
            }
            if let Some(found) = next.iter().find(|each| size < each.depth()) {
                return Some(*found);
            }
            open.retain(|each| band.front <= each.back);
            open.extend(next);
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring() -> Region {
        let mut ring = Region::from(Rect::new(0, 0, 10, 8));
        ring.cut(Rect::new(2, 2, 8, 6));
        ring
    }

    #[test]
    fn a_ring_is_cut_into_two_long_and_two_short_strips() {
        let rows = [
            Rect::new(0, 0, 10, 2),
            Rect::new(0, 2, 2, 6),
            Rect::new(8, 2, 10, 6),
            Rect::new(0, 6, 10, 8),
        ];
        let columns = [
            Rect::new(0, 0, 2, 8),
            Rect::new(8, 0, 10, 8),
            Rect::new(2, 0, 8, 2),
            Rect::new(2, 6, 8, 8),
        ];
        assert_eq!(ring().rows(), rows);
        assert_eq!(ring().area(), 80 - 24);
        let mut found = ring().columns();
        found.sort_unstable_by_key(|rect| (rect.left, rect.front));
        let mut columns = columns.to_vec();
        columns.sort_unstable_by_key(|rect| (rect.left, rect.front));
        assert_eq!(found, columns);
    }

    #[test]
    fn what_is_thick_is_found_across_its_parts() {
        assert_eq!(ring().thick(2), None);
        assert!(ring().thick(1).is_some());
        // Three by three, in three parts.
        let parts = [Rect::new(0, 0, 5, 1), Rect::new(1, 1, 4, 2), Rect::new(0, 2, 4, 3)];
        let region: Region = parts.into_iter().collect();
        assert!(region.thick(2).is_some());
        assert_eq!(region.thick(3), None);
    }
}
