//! The heater from the front: door, facing, cap, distances to walls and ceiling.

use super::section::Masses;
use super::sheet::{Note, Scale, Sheet};
use super::walls::{Distance, THICKNESS, drawn};
use super::{Anchor, Axis, Drawing, Extent, Grip, Point, Role, point};
use crate::analysis::Analysis;
use crate::analysis::places::{self, SILL};
use crate::design::field::FieldId;
use crate::design::{Design, Layout};
use crate::language::{said, say};
use crate::rules::Place;
use crate::units::{Quantity, System, figure};

/// The inputs that the front changes, in the order in which one reads it.
pub const GRIPS: [FieldId; 4] =
    [FieldId::AboveDistance, FieldId::SideDistance, FieldId::DoorHeight, FieldId::DoorWidth];

/// Height of what is drawn of the ground (m): drawn, not designed.
const GROUND: f64 = 0.1;

/// The heater from the front, to scale (m): x and y as in the section. Texts are enlarged by a
/// factor.
pub fn front(design: &Design, analysis: &Analysis, system: System, text_scale: f64) -> Drawing {
    view(design, analysis, system, Scale::shown(text_scale))
}

/// The same with every distance as it is.
pub fn to_measure(design: &Design, analysis: &Analysis, system: System) -> Drawing {
    view(design, analysis, system, Scale::TO_MEASURE)
}

fn view(design: &Design, analysis: &Analysis, system: System, scale: Scale) -> Drawing {
    let masses = Masses::new(design, analysis);
    let mut sheet = Sheet::of(design, scale);
    let blocks = placed(design, &masses);
    let whole = blocks.iter().copied().reduce(Extent::join).unwrap_or(masses.chimney);
    let off = drawn(design.surroundings.side, scale.reach) + THICKNESS;
    let (left, right) = (whole.low.x - off, whole.high.x + off);
    let ceiling = whole.high.y + drawn(design.surroundings.above, scale.reach);
    let base = -design.foot();
    let floor = base - design.shell.base_thickness;
    let ground = Extent::new(left, floor - GROUND, right, floor);
    sheet.rectangle(Role::Ground, None, ground);
    sheet.line(Role::House, vec![point(left, floor), point(right, floor)]);
    let chimney = masses.chimney;
    let seen = Extent::new(chimney.low.x, floor, chimney.high.x, ceiling);
    sheet.rectangle(Role::House, None, seen);
    for block in blocks.iter().rev() {
        let cap = block.high.y - design.shell.cap_thickness;
        let under = Extent::new(block.low.x, floor, block.high.x, base);
        let face = Extent::new(block.low.x, base, block.high.x, cap);
        let slab = Extent::new(block.low.x, cap, block.high.x, block.high.y);
        sheet.rectangle(Role::Slab, None, under);
        sheet.rectangle(Role::Facing, None, face);
        sheet.rectangle(Role::Slab, None, slab);
        sheet.rectangle(Role::Outline, Some(Place::Whole), face.join(slab));
    }
    let door = door(&mut sheet, design);
    dimensions(&mut sheet, (whole, floor), door, system);
    let side = |away: f64, x: f64| Distance {
        field: FieldId::SideDistance,
        place: Place::Side,
        from: point(x, 0.35 * whole.high.y),
        away: point(away, 0.0),
        length: design.surroundings.side,
        ends: (floor, ceiling),
    };
    let above = Distance {
        field: FieldId::AboveDistance,
        place: Place::Ceiling,
        from: point(whole.low.x + 0.2 * whole.width(), whole.high.y),
        away: point(0.0, 1.0),
        length: design.surroundings.above,
        ends: (left, right),
    };
    let other = side(-1.0, whole.low.x).add(&mut sheet, system);
    // One grip is enough for both sides.
    sheet.grips.retain(|grip| grip.field != FieldId::SideDistance);
    let scales =
        [other, side(1.0, whole.high.x).add(&mut sheet, system), above.add(&mut sheet, system)];
    if scales.contains(&false) {
        far(&mut sheet, point(left, floor - GROUND));
    }
    sheet.finish(description(design, whole, system))
}

/// Says below a picture that a wall is farther away than it is drawn.
pub(super) fn far(sheet: &mut Sheet, corner: Point) {
    let size = sheet.text_size;
    sheet.note(Note {
        at: point(corner.x, corner.y - 5.5 * size),
        text: said("long distances not to scale").into(),
        anchor: Anchor::Start,
        role: Role::QuietLabel,
        place: None,
        leader: None,
        step: point(0.0, -0.4 * size),
    });
}

/// The blocks as they stand: runs behind the firebox are seen behind it.
fn placed(design: &Design, masses: &Masses) -> Vec<Extent> {
    let mut blocks = masses.blocks.clone();
    let near = blocks.first().map_or(0.0, |block| block.low.x);
    if design.path.layout == Layout::Behind
        && let Some(stack) = blocks.get_mut(1)
    {
        let width = stack.width();
        *stack = Extent::new(near, stack.low.y, near + width, stack.high.y);
    }
    blocks
}

fn door(sheet: &mut Sheet, design: &Design) -> Extent {
    let chamber = &design.firebox;
    let (width, height) = (chamber.door_width, chamber.door_height);
    let sill = places::sill(design);
    let left = 0.5 * (chamber.width - width);
    let door = Extent::new(left, sill, left + width, sill + height);
    let shrink = chamber.glass_fraction.clamp(0.0, 1.0).sqrt();
    let middle = door.middle();
    let (half_width, half_height) = (0.5 * shrink * width, 0.5 * shrink * height);
    let glass = Extent::new(
        middle.x - half_width,
        middle.y - half_height,
        middle.x + half_width,
        middle.y + half_height,
    );
    sheet.rectangle(Role::Halo, None, door);
    sheet.rectangle(Role::Glass, Some(Place::Door), glass);
    sheet.rectangle(Role::Door, Some(Place::Door), door);
    sheet.grips.extend([
        Grip {
            field: FieldId::DoorWidth,
            at: point(door.high.x, middle.y),
            axis: Axis::Across,
            per_meter: 2.0,
        },
        Grip {
            field: FieldId::DoorHeight,
            at: point(middle.x, door.high.y),
            axis: Axis::Up,
            per_meter: 1.0 / (1.0 - SILL),
        },
    ]);
    door
}

fn dimensions(sheet: &mut Sheet, (whole, floor): (Extent, f64), door: Extent, system: System) {
    let size = sheet.text_size;
    let text = |length: f64, quantity| figure(length, quantity, system);
    let row = |index: f64| floor - GROUND - size * (1.6 + 1.6 * index);
    let down = point(0.0, -0.6 * size);
    for (index, extent, quantity) in
        [(0.0, door, Quantity::Size), (1.0, whole, Quantity::Length)]
    {
        let (left, right) = (point(extent.low.x, row(index)), point(extent.high.x, row(index)));
        sheet.dimension(left, right, &text(extent.width(), quantity), down);
    }
    let x = door.high.x + 1.8 * size;
    let aside = point(0.6 * size, 0.0);
    let (low, high) = (point(x, door.low.y), point(x, door.high.y));
    sheet.dimension(low, high, &text(door.height(), Quantity::Size), aside);
    let x = whole.high.x - 1.0 * size;
    let (low, high) = (point(x, whole.low.y), point(x, whole.high.y));
    sheet.dimension(
        low,
        high,
        &text(whole.height(), Quantity::Length),
        point(-0.6 * size, 0.0),
    );
}

fn description(design: &Design, whole: Extent, system: System) -> String {
    let size = |length| figure(length, Quantity::Size, system);
    let length = |length| figure(length, Quantity::Length, system);
    let around = &design.surroundings;
    say!(
        "Front to scale: {} wide and {} high above the base slab, door {} by {}; {} \
         to what can burn at the sides, {} to the ceiling.",
        length(whole.width()),
        length(whole.height()),
        size(design.firebox.door_width),
        size(design.firebox.door_height),
        size(around.side),
        size(around.above),
    )
}
