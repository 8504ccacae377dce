//! Pieces in a row: bricks along a wall, wythes across it, courses up it.

use std::collections::VecDeque;

/// How pieces are put into a row, in steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spacing {
    /// Joint between two pieces.
    pub joint: i32,
    /// Widest joint.
    pub widest: i32,
    /// Smallest piece that is cut where another way is left.
    pub least: i32,
}

/// Start and size of a piece, in steps from the start of its row.
pub type Span = (i32, i32);

/// Fills a row with whole pieces, then wider joints where these make up for what is left, then one
/// piece cut, or two alike where one would be too small.
pub fn fill(total: i32, unit: i32, spacing: Spacing) -> Vec<Span> {
    let Spacing { joint, widest, least } = spacing;
    if total <= unit || unit <= 0 {
        return if total > 0 { vec![(0, total)] } else { Vec::new() };
    }
    let count = (total + joint) / (unit + joint);
    let rest = total - count * (unit + joint) + joint;
    if rest <= (count - 1) * (widest - joint) {
        return spread(count, unit, joint, rest);
    }
    let mut sizes = vec![unit; usize::try_from(count).unwrap_or(0)];
    if rest - joint >= least {
        sizes.push(rest - joint);
    } else {
        sizes.pop();
        let both = unit + rest - joint;
        sizes.extend([both - both / 2, both / 2]);
    }
    placed(sizes, joint)
}

/// The same with two pieces cut alike in any case.
fn fill_with_two(total: i32, unit: i32, spacing: Spacing) -> Vec<Span> {
    fill(total, unit, Spacing { widest: spacing.joint, least: unit, ..spacing })
}

/// The same from a first piece of a size on.
fn fill_from(first: i32, total: i32, unit: i32, spacing: Spacing) -> Vec<Span> {
    let start = first + spacing.joint;
    if total <= start {
        return fill(total, unit, spacing);
    }
    let rest = fill(total - start, unit, spacing);
    let moved = rest.into_iter().map(|(at, size)| (at + start, size));
    [(0, first)].into_iter().chain(moved).collect()
}

/// The same between pieces of two sizes; none where they leave no room.
fn fill_between(
    (first, last): (i32, i32),
    total: i32,
    unit: i32,
    spacing: Spacing,
) -> Option<Vec<Span>> {
    let end = total - last;
    let start = first + spacing.joint;
    let room = end - spacing.joint - start;
    (0 < room).then(|| {
        let middle = fill(room, unit, spacing).into_iter();
        let middle = middle.map(|(at, size)| (at + start, size));
        [(0, first)].into_iter().chain(middle).chain([(end, last)]).collect()
    })
}

/// The same row from its other end.
fn mirrored(row: &[Span], total: i32) -> Vec<Span> {
    row.iter().rev().map(|(at, size)| (total - at - size, *size)).collect()
}

/// The same pieces from another one on.
fn rotated(row: &[Span], by: usize) -> Vec<Span> {
    let joint =
        row.iter().zip(row.iter().skip(1)).map(|((at, size), (next, _))| next - at - size);
    let joints: Vec<i32> = joint.collect();
    let pieces = row.iter().cycle().skip(by).take(row.len());
    let mut at = 0;
    let place = |((_, size), joint): (&Span, &i32)| {
        let start = at;
        at += size + joint;
        (start, *size)
    };
    pieces.zip(joints.iter().chain([&0])).map(place).collect()
}

fn placed(sizes: Vec<i32>, joint: i32) -> Vec<Span> {
    let mut at = 0;
    let mut place = |size: i32| {
        let start = at;
        at += size + joint;
        (start, size)
    };
    sizes.into_iter().map(&mut place).collect()
}

/// Whole pieces with joints that take up what is left, each as much as the next but for a step.
fn spread(count: i32, unit: i32, joint: i32, rest: i32) -> Vec<Span> {
    let joints = (count - 1).max(1);
    (0..count).map(|index| (index * (unit + joint) + index * rest / joints, unit)).collect()
}

/// Sizes tried for the first piece of a row, in eighths of a piece.
const FIRST_PIECES: [i32; 7] = [8, 4, 6, 2, 5, 3, 7];

/// Spans where joints should not lie.
struct Taken {
    /// Where they begin, in order.
    from: Vec<i32>,
    /// How far each and all before it reach.
    reach: Vec<i32>,
}

impl Taken {
    fn new(spans: &[Span]) -> Self {
        let mut spans = spans.to_vec();
        spans.sort_unstable();
        let mut far = i32::MIN;
        let reach = spans.iter().map(|(_, to)| {
            far = far.max(*to);
            far
        });
        Self { reach: reach.collect(), from: spans.iter().map(|(from, _)| *from).collect() }
    }

    /// Whether what lies between two places touches one of them.
    fn touches(&self, start: i32, end: i32) -> bool {
        let before = self.from.partition_point(|from| *from < end);
        self.reach.iter().take(before).next_back().is_some_and(|reach| start < *reach)
    }
}

/// The row whose joints keep most out of the spans where they should not lie, then has no small
/// pieces, then the fewest that are cut.
pub fn best_row(total: i32, unit: i32, spacing: Spacing, taken: &[Span]) -> Vec<Span> {
    let sorted = &Taken::new(taken);
    let rate = |row: &[Span]| {
        let ends = row.iter().zip(row.iter().skip(1));
        let unbroken = ends.filter(|((at, size), (next, _))| sorted.touches(at + size, *next));
        let small = row.iter().filter(|(_, size)| *size < spacing.least).count();
        let cut = row.iter().filter(|(_, size)| *size != unit).count();
        (unbroken.count(), small, cut, row.len())
    };
    let plain = fill(total, unit, spacing);
    let mut best = (rate(&plain), plain);
    let mut take = |row: Vec<Span>| {
        let rated = rate(&row);
        if rated < best.0 {
            best = (rated, row);
        }
        best.0.0 + best.0.1 == 0
    };
    let firsts = FIRST_PIECES.map(|eighths| match eighths {
        8 => unit,
        4 => (unit - spacing.joint) / 2,
        _ => unit * eighths / 8 - spacing.joint / 2,
    });
    let firsts = || firsts.into_iter().filter(|first| spacing.least <= *first);
    for first in firsts() {
        let row = fill_from(first, total, unit, spacing);
        take(mirrored(&row, total));
        take(row);
    }
    // With the same pieces in another order, then cut at both ends.
    let rows = firsts().map(|first| fill_from(first, total, unit, spacing));
    let rows = rows.chain([fill_with_two(total, unit, spacing)]);
    let ordered = rows.flat_map(|row| {
        let count = row.len();
        (0..count).map(move |by| rotated(&row, by))
    });
    let ends = firsts().flat_map(|first| firsts().map(move |last| (first, last)));
    let cut = ends.filter_map(|ends| fill_between(ends, total, unit, spacing));
    let sought = Sought { total, unit, spacing, taken, sorted };
    let _ = ordered.chain(cut).chain(sought.row()).any(&mut take);
    best.1
}

/// A row sought joint by joint.
struct Sought<'a> {
    total: i32,
    unit: i32,
    spacing: Spacing,
    taken: &'a [Span],
    sorted: &'a Taken,
}

/// What a joint where it should not lie, a small piece, a cut piece and a piece count in a search: any
/// number of the lesser less than one of the greater.
const COUNTS: [i64; 4] = [1_000_000_000, 1_000_000, 1_000, 1];

impl Sought<'_> {
    /// The row of the least account of all whose joints lie whole pieces away from an end of the row
    /// or of what is taken; none where there is no such row.
    fn row(&self) -> Option<Vec<Span>> {
        let places = self.places();
        // The least account up to each joint, and the joint before it; from the start of the row.
        let mut best: Vec<Option<(i64, Option<usize>)>> = Vec::with_capacity(places.len());
        let mut kinds = self.kinds();
        for (index, place) in places.iter().enumerate() {
            let from_start = self.piece(*place).map(|account| (account, None));
            // The nearest among equals: smaller pieces come first.
            let others = kinds.iter_mut().filter_map(|kind| {
                let (account, other) = kind.least(place - self.spacing.joint)?;
                Some((account, Some(other)))
            });
            let found =
                from_start.into_iter().chain(others).min_by_key(|(account, _)| *account);
            let joint = self.at(*place);
            let found = found.map(|(account, from)| (account + joint, from));
            if let Some((account, _)) = found {
                for kind in &mut kinds {
                    kind.add((*place, account, index));
                }
            }
            best.push(found);
        }
        let last =
            places.iter().zip(&best).enumerate().filter_map(|(index, (place, found))| {
                let (account, _) = (*found)?;
                let piece = self.piece(self.total - place - self.spacing.joint)?;
                Some((account + piece, index))
            });
        let (_, mut at) = last.min()?;
        let mut joints = Vec::new();
        loop {
            joints.extend(places.get(at));
            match best.get(at).copied().flatten()? {
                (_, Some(before)) => at = before,
                (_, None) => break,
            }
        }
        joints.reverse();
        let starts =
            std::iter::once(0).chain(joints.iter().map(|end| end + self.spacing.joint));
        let ends = joints.iter().copied().chain([self.total]);
        Some(starts.zip(ends).map(|(start, end)| (start, end - start)).collect())
    }

    /// Where a joint may begin, from the start of the row on.
    fn places(&self) -> Vec<i32> {
        let Spacing { joint, .. } = self.spacing;
        let step = self.unit + joint;
        // A joint that begins there ends or begins where something taken does.
        let free = self.taken.iter().flat_map(|(from, to)| [*to, from - joint]);
        let anchors = free.chain([self.unit, self.total - step]);
        let steps = self.total / step + 1;
        let places =
            anchors.flat_map(|anchor| (-steps..=steps).map(move |count| anchor + count * step));
        let mut places: Vec<i32> =
            places.filter(|place| 0 < *place && place + joint < self.total).collect();
        places.sort_unstable();
        places.dedup();
        places
    }

    /// Small pieces, cut ones, whole ones.
    fn kinds(&self) -> [Window; 3] {
        let Spacing { widest, least, .. } = self.spacing;
        let (small, unit) = (2 * widest + 1, self.unit);
        let of = |sizes: (i32, i32)| {
            let count = self.piece(sizes.0).unwrap_or_default();
            Window { sizes, count, waiting: VecDeque::new(), open: VecDeque::new() }
        };
        let cut = small.max(least);
        [of((small, cut.min(unit) - 1)), of((cut, unit - 1)), of((unit.max(small), unit))]
    }

    /// What a piece counts; none where it is none.
    fn piece(&self, size: i32) -> Option<i64> {
        let [_, small, cut, one] = COUNTS;
        let is = |wanted: bool, count: i64| if wanted { count } else { 0 };
        let least = self.spacing.least;
        (2 * self.spacing.widest < size && size <= self.unit)
            .then(|| one + is(size < least, small) + is(size != self.unit, cut))
    }

    /// What a joint counts that begins at a place.
    fn at(&self, place: i32) -> i64 {
        let next = place + self.spacing.joint;
        if self.sorted.touches(place, next) { COUNTS[0] } else { 0 }
    }
}

/// A joint: where it begins, the least account up to it, its index.
type Reached = (i32, i64, usize);

/// The joints from which a piece of some size reaches a place that moves on, with the least account
/// among them at hand.
struct Window {
    /// Smallest and largest size of such a piece; none where the smallest is larger.
    sizes: (i32, i32),
    /// What each counts.
    count: i64,
    /// Joints that are still too near.
    waiting: VecDeque<Reached>,
    /// Joints near enough, each with a larger account than the one before.
    open: VecDeque<Reached>,
}

impl Window {
    /// Adds a joint behind all others.
    fn add(&mut self, joint: Reached) {
        self.waiting.push_back(joint);
    }

    /// The least account up to the end of a piece that begins behind a joint, whose width is taken off
    /// that end, and that joint: the nearest among equals. The end never moves back.
    fn least(&mut self, end: i32) -> Option<(i64, usize)> {
        let (smallest, largest) = self.sizes;
        while let Some(joint) = self.waiting.pop_front_if(|joint| smallest <= end - joint.0) {
            while self.open.pop_back_if(|other| joint.1 <= other.1).is_some() {}
            self.open.push_back(joint);
        }
        while self.open.pop_front_if(|joint| largest < end - joint.0).is_some() {}
        self.open.front().map(|(_, account, index)| (account + self.count, *index))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SPACING: Spacing = Spacing { joint: 10, widest: 13, least: 45 };

    #[test]
    fn a_row_is_filled_with_whole_pieces_where_they_fit() {
        assert_eq!(fill(410, 200, SPACING), [(0, 200), (210, 200)]);
        assert_eq!(fill(623, 200, SPACING), [(0, 200), (211, 200), (423, 200)]);
        assert_eq!(fill(150, 200, SPACING), [(0, 150)]);
        assert_eq!(fill(0, 200, SPACING), []);
    }

    /// Three bricks in 620, with joints of the next course about 200, 310 and 420: neither whole nor
    /// half bricks break with all three, 130, 200, 200 and 60 do.
    #[test]
    fn a_joint_keeps_away_where_any_cut_lets_it() {
        let taken = [(195, 225), (300, 330), (405, 435)];
        let row = best_row(620, 200, SPACING, &taken);
        for ((at, size), (next, _)) in row.iter().zip(row.iter().skip(1)) {
            let (end, next) = (at + size, *next);
            assert!(taken.iter().all(|(from, to)| next <= *from || *to <= end), "{row:?}");
            assert_eq!(next - end, 10);
        }
        assert!(row.iter().all(|(_, size)| 45 <= *size && *size <= 200), "{row:?}");
        assert_eq!(row.iter().map(|(_, size)| size + 10).sum::<i32>(), 630);
        assert_eq!(row.iter().filter(|(_, size)| *size < 200).count(), 2, "{row:?}");
    }

    #[test]
    fn what_is_left_is_cut_and_never_too_small() {
        // 410 and a joint, then 60 of 480.
        assert_eq!(fill(480, 200, SPACING), [(0, 200), (210, 200), (420, 60)]);
        // 20 would be left: the last two share 200 + 20.
        assert_eq!(fill(440, 200, SPACING), [(0, 200), (210, 110), (330, 110)]);
        assert_eq!(fill_from(95, 515, 200, SPACING), [(0, 95), (105, 200), (315, 200)]);
        assert_eq!(mirrored(&[(0, 95), (105, 200)], 305), [(0, 200), (210, 95)]);
        assert_eq!(rotated(&[(0, 200), (210, 95)], 1), [(0, 95), (105, 200)]);
        let between = [(0, 95), (105, 200), (315, 95)];
        assert_eq!(fill_between((95, 95), 410, 200, SPACING).unwrap(), between);
    }
}
