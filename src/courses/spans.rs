//! What carries courses over a space: lintels and slabs with their bearings.

use super::lattice::{Rect, Region, Way, steps};
use super::laying::OVERHANG;

/// Longest slab (m): a longer one is laid in parts; common practice, no source.
const SLAB: f64 = 0.60;
/// Bearing of a lintel where the wall is longer (m), 4 in, common practice.
const BEARING: f64 = 0.10;
/// Up to which a lintel bears on all of a wall (m).
const WHOLE_BEARING: f64 = 0.16;
/// Longest bearing, past a corner that is too near (m).
const FARTHEST: f64 = 0.25;

/// What spans the spaces under a course of walls, each with its direction.
pub(super) fn spans(region: &Region, support: &Region, joint: i32) -> Vec<(Rect, Way)> {
    let thin = steps(OVERHANG);
    let turned = (region.turned(), support.turned());
    let mut spans: Vec<(Rect, Way)> = Vec::new();
    for space in region.without(support).rows() {
        if space.width().min(space.depth()) <= thin {
            continue;
        }
        let (left, right) = bearings(space, region, support);
        let (front, back) = bearings(space.turned(), &turned.0, &turned.1);
        let (along, deep) = (left.min(right) > 0, front.min(back) > 0);
        let way = match (along, deep) {
            (true, true) => Way::of(space).other(),
            (true, false) => Way::Along,
            (false, _) => Way::Deep,
        };
        let rect = match way {
            Way::Along => Rect { left: space.left - left, right: space.right + right, ..space },
            Way::Deep if deep => {
                Rect { front: space.front - front, back: space.back + back, ..space }
            }
            Way::Deep => space,
        };
        let is_taken = |rect: Rect| spans.iter().any(|(other, _)| other.overlaps(rect));
        let whole = if is_taken(rect) { space } else { rect };
        if !is_taken(whole) {
            spans.extend(tiles(whole, way, joint).into_iter().map(|tile| (tile, way)));
        }
    }
    spans
}

/// How far a wall carries to the left and to the right of a space.
fn bearings(space: Rect, region: &Region, support: &Region) -> (i32, i32) {
    let mirror = |rect: &Rect| Rect::new(-rect.right, rect.front, -rect.left, rect.back);
    let mirrored = |region: &Region| region.rects().iter().map(mirror).collect::<Region>();
    let right = bearing(mirror(&space), &mirrored(region), &mirrored(support), 1);
    (bearing(space, region, support, 0), right)
}

/// How far what spans a space reaches into the wall at its left: to the next corner where that is
/// about as far as a bearing, so that no sliver is left. Of a pier between two spaces each takes
/// half, one of them the spare step.
fn bearing(space: Rect, region: &Region, support: &Region, spare: i32) -> i32 {
    let strip = |by: i32| Rect { left: space.left - by, right: space.left, ..space };
    let carries = |by: &i32| region.covers(strip(*by)) && support.covers(strip(*by));
    let (usual, farthest) = (steps(BEARING), steps(FARTHEST));
    let edges = region.rects().iter().chain(support.rects());
    let edges = edges.flat_map(|rect| [space.left - rect.left, space.left - rect.right]);
    let corners: Vec<i32> =
        edges.filter(|by| 0 < *by && *by <= 2 * farthest).filter(carries).collect();
    let free = corners.iter().copied().max().unwrap_or(0);
    let beyond = Rect { right: space.left - free, ..strip(free + 1) };
    // A pier carries at its other side, too.
    let is_pier = region.covers(beyond) && !support.covers(beyond);
    // Corners of the wall, not those of what carries it.
    let columns = region.columns();
    let real = |by: &&i32| {
        let x = space.left - **by;
        columns.iter().any(|column| column.left == x || column.right == x)
    };
    let (least, most) = (usual / 2, steps(WHOLE_BEARING));
    let fits = corners.iter().filter(real).copied().filter(|by| least <= *by).min();
    let is_near = corners.iter().filter(real).any(|by| *by < least);
    let fits = fits.filter(|by| is_near && *by <= farthest || *by <= most);
    let far = Some(usual).filter(carries);
    let wanted = fits.or(far).unwrap_or(free);
    if is_pier && free < 2 * wanted { i32::midpoint(free, spare) } else { wanted }
}

/// A slab that spans in a direction, cut into parts alike.
pub(super) fn tiles(whole: Rect, way: Way, joint: i32) -> Vec<Rect> {
    let across = way.other();
    let rect = across.turn(whole);
    let total = rect.width();
    let count = ((total + joint + steps(SLAB)) / (steps(SLAB) + joint)).max(1);
    let size = (total + joint) / count - joint;
    let tile = |index: i32| {
        let left = rect.left + index * (size + joint);
        let right = if index + 1 == count { rect.right } else { left + size };
        across.turn(Rect::new(left, rect.front, right, rect.back))
    };
    (0..count).map(tile).collect()
}
