//! What a heater is fitted with, the ruler of courses, and what the signs mean.

use super::frame::Flue;
use super::{CLEANOUT, Scene};
use crate::analysis::places;
use crate::design::Layout;
use crate::drawing::sheet::Note;
use crate::drawing::{Anchor, Extent, Role, Shape, point};
use crate::language::{said, say};
use crate::rules::Place;
use crate::units::Quantity;

/// Height of a firebrick laid flat (m): the US and the metric straight, common practice.
const BRICK: f64 = 0.064;
/// Joint between firebricks (m): trowel joint, common practice.
const JOINT: f64 = 0.003;
/// Courses from one number of the ruler to the next.
const NUMBERED: u32 = 5;
/// Most courses on the ruler: none is needed beyond.
const MOST_COURSES: u32 = 400;
/// Reach of a brush from one end of a run (m), common practice.
const REACH: f64 = 1.5;
/// Depth of a drawn cleanout where there is no facing (m): drawn, not designed.
const COVER: f64 = 0.04;

impl Scene<'_> {
    /// Cleanouts of the runs, dampers, air inlet.
    pub(super) fn fittings(&mut self) {
        if self.design.path.layout != Layout::Bench {
            self.run_cleanouts();
        }
        let Flue { connector, side, .. } = self.frame.flue;
        if connector.width() > 0.0 {
            let middle = connector.middle();
            let (reach, rise) = (0.35 * connector.width(), 0.18 * connector.height());
            let plate = vec![
                point(middle.x - side * reach, middle.y - rise),
                point(middle.x + side * reach, middle.y + rise),
            ];
            self.sheet.line(Role::Damper, plate);
        }
        self.inlet();
    }

    /// At the ends of the runs where a brush gets in, from both ends when they are long.
    fn run_cleanouts(&mut self) {
        let free = self.free_side();
        let Some(body) = self.frame.bodies.last().copied() else {
            return;
        };
        let last = self.frame.cells.len().saturating_sub(1);
        for (index, cell) in self.frame.cells.clone().into_iter().enumerate() {
            let run = cell.extent;
            let half = 0.5 * CLEANOUT.min(0.6 * run.height());
            let y = run.middle().y;
            for side in [free, -free] {
                // The connector leaves there.
                let taken = side * free < 0.0 && (run.width() <= REACH || index == last);
                if taken {
                    continue;
                }
                let ends = |body: Extent| if side > 0.0 { body.high.x } else { body.low.x };
                let (face, core) = (ends(body.facing), ends(body.core));
                let inner = face - side * (side * (face - core)).max(COVER);
                let door = Extent::new(face.min(inner), y - half, face.max(inner), y + half);
                self.sheet.rectangle(Role::Cleanout, Some(Place::Run(index)), door);
            }
        }
    }

    /// The air inlet under the door, as large as it is where it fits.
    fn inlet(&mut self) {
        let chamber = &self.design.firebox;
        let sill = places::sill(self.design);
        let width = chamber.door_width;
        let height = chamber.inlet_area / width.max(0.01);
        let middle = self.frame.firebox.middle().x;
        let height = height.min(0.7 * sill);
        let low = 0.5 * (sill - height);
        let slot = Extent::new(middle - 0.5 * width, low, middle + 0.5 * width, low + height);
        self.sheet.rectangle(Role::Inlet, Some(Place::Fire), slot);
    }

    /// A tick for every course at the face where no chimney stands.
    pub(super) fn courses(&mut self) {
        let size = self.sheet.text_size;
        let side = self.free_side();
        let face = self.face(side) + side * 0.4 * size;
        let course = BRICK + JOINT;
        let is_numbered = self.label_width <= 0.0 && size < 3.0 * course;
        let mut comb = vec![point(face, 0.0)];
        let mut numbers = Vec::new();
        for count in 1..MOST_COURSES {
            let y = course * f64::from(count);
            if y > self.frame.top {
                break;
            }
            let long = count % NUMBERED == 0;
            let tip = face + side * if long { 0.7 } else { 0.35 } * size;
            comb.extend([point(face, y), point(tip, y), point(face, y)]);
            if long && is_numbered {
                numbers.push((point(tip + side * 0.2 * size, y - 0.3 * size), count));
            }
        }
        self.sheet.line(Role::Course, comb);
        let anchor = if side > 0.0 { Anchor::Start } else { Anchor::End };
        for (at, count) in numbers {
            let shape = Shape::Label { at, text: count.to_string(), anchor };
            self.sheet.add_if_free(Role::Course, shape);
        }
    }

    /// Names of floor, ceiling and roof, where their lines begin.
    pub(super) fn names_of_house(&mut self, left: f64, names: &[(f64, &str)]) {
        let size = self.sheet.text_size;
        for (y, name) in names {
            self.sheet.note(Note {
                at: point(left, y + 0.35 * size),
                text: (*name).to_owned(),
                anchor: Anchor::Start,
                role: Role::QuietLabel,
                place: None,
                leader: None,
                step: point(0.0, 0.2 * size),
            });
        }
    }

    /// What hatchings and signs mean, with the sizes of what they stand for.
    pub(super) fn key(&mut self) {
        let (shell, chimney) = (&self.design.shell, &self.design.chimney);
        let sized =
            |name: &str, size: f64| format!("{name}, {}", self.figure(size, Quantity::Size));
        let runs = !self.frame.cells.is_empty();
        let mut key = vec![
            (Role::Core, sized(said("core"), shell.core_thickness)),
            (Role::Facing, sized(said("facing"), shell.facing_thickness)),
            (Role::Void, sized(said("gap"), shell.gap)),
            (Role::Insulation, sized(said("flue insulation"), chimney.insulation_thickness)),
            (Role::FacingBrick, sized(said("masonry around the flue"), chimney.masonry())),
            (Role::Slab, sized(said("cap slab"), shell.cap_thickness)),
            (Role::Baffle, sized(said("baffle"), self.design.path.baffle_thickness)),
            (Role::Door, said("loading door").into()),
            (
                Role::Inlet,
                say!(
                    "air inlet, {}",
                    self.figure(self.design.firebox.inlet_area, Quantity::Opening)
                ),
            ),
            (Role::Cleanout, said("cleanout, as a sketch").into()),
            (Role::Damper, said("damper, open").into()),
            (Role::Course, say!("courses of {}", self.figure(BRICK + JOINT, Quantity::Size))),
        ];
        let thickness = |role: Role| match role {
            Role::Facing => shell.facing_thickness,
            Role::Void => shell.gap,
            Role::Insulation => chimney.insulation_thickness,
            Role::FacingBrick => chimney.masonry(),
            _ => 1.0,
        };
        key.retain(|(role, _)| {
            thickness(*role) > 0.0 && (runs || !matches!(role, Role::Baffle))
        });
        self.sheet.key = key;
    }
}
