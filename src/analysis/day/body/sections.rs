//! Walls of a heater from their inner face outward: face, cap, slab, base, door.

use super::covers::Cover;
use super::{Maker, Outside, Zone};
use crate::analysis::day::layers::{Back, Gap, Layer, Layers, Ply};
use crate::analysis::factors::Factors;
use crate::analysis::fire::DOOR_CONDUCTANCE;
use crate::analysis::path::{Backing, Side, Wall, ends_of_oven};
use crate::design::building::VoidBelow;
use crate::design::material::{BOARD, CONCRETE, Properties, STEEL_HEAT_CAPACITY};
use crate::design::{Design, Layout};

/// Thickness of the sheet of a connector (m), common practice, no source.
const CONNECTOR_SHEET: f64 = 0.0015;
/// Conductivity of that sheet (W/mK): thin, so of no weight.
const STEEL_CONDUCTIVITY: f64 = 50.0;
/// From the base slab down into a ventilated void (m2K/W): EN ISO 6946, downward, from memory.
const VOID_RESISTANCE: f64 = 0.17;
/// Nodes of the core grow outward by this factor.
const GROWTH: f64 = 1.35;
/// And those of a slab of the core's material alone, which has more of them.
const GROWTH_OF_SLABS: f64 = 1.15;

/// What lies between a part of a wall of a run and its facing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Beyond {
    /// From the core to the facing (m).
    pub(super) distance: f64,
    /// Facing that closes the space over that right before the core (–).
    pub(super) wider: f64,
}

/// How core and facing of a wall stand to its inner face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Standing {
    /// Outer area of the core over the inner area (–).
    pub(super) core: f64,
    /// Area of the facing over the inner area (–).
    pub(super) facing: f64,
    /// From the core to the facing (m).
    pub(super) distance: f64,
}

impl Standing {
    /// One area all through, with the facing at a distance from the core (m).
    pub(super) const fn plane(distance: f64) -> Self {
        Self { core: 1.0, facing: 1.0, distance }
    }
}

impl Maker<'_> {
    /// What core, cap and baffles are made of.
    pub(super) fn core(&self) -> Properties {
        let core = self.design.shell.core_material.properties();
        let Factors { core_conductivity, core_heat_capacity, .. } = self.setup.factors;
        core.scaled(core_conductivity, core_heat_capacity)
    }

    /// A slab with gas on both sides.
    pub(super) fn slab(&self, thickness: f64) -> Layers {
        let layer = Layer::plane(&self.core(), thickness, self.resolution.slab_nodes);
        Layers::new(&[layer], None, Back::Gas)
    }

    pub(super) fn layers_of(
        &self,
        wall: &Wall,
        run: usize,
        (outside, beyond): (Outside, Beyond),
    ) -> (Layers, Zone) {
        let shell = &self.design.shell;
        let ratio = || self.spread(run, wall.side);
        match wall.backing {
            Backing::Face => {
                let standing = Standing {
                    core: ratio(),
                    facing: beyond.wider * self.facing_over(run),
                    distance: beyond.distance,
                };
                let face = self.face(shell.core_thickness, standing, outside);
                (face, Zone::RunFace(run, outside))
            }
            Backing::Cap => (self.cap(ratio()), Zone::Cap),
            Backing::Door => (self.oven_door(), Zone::OvenDoor),
            Backing::Under => (self.under(shell.core_thickness), Zone::Under),
            Backing::Solid | Backing::Run { .. } | Backing::Firebox(_) => {
                let thickness = shell.core_thickness + shell.facing_thickness;
                (self.plain(thickness, Back::Adiabatic), Zone::Inside)
            }
        }
    }

    /// Outer area of the facing over the inner area of the upright walls of a run: the facing goes around
    /// all runs, and is higher by the edges of the baffles. On a bench as far as the core spreads.
    fn facing_over(&self, run: usize) -> f64 {
        let Design { path, shell, .. } = self.design;
        let spread = self.spread(run, Side::Left);
        let around = self.facing.around_runs().zip(path.runs().get(run).copied());
        let Some((outside, own)) = around else { return spread };
        if path.layout == Layout::Bench || shell.facing_thickness <= 0.0 {
            return spread;
        }
        let inner = 2.0 * own.length * own.height + ends_of_oven(self.design, run);
        (outside.girth() * (own.height + path.baffle_thickness) / inner).max(spread)
    }

    /// Outer area over inner area of a wall of a run whose facing stands at the gap: the outer body is
    /// wider than the run by its walls, higher by the edges of the baffles, and closed by end walls.
    pub(super) fn spread(&self, run: usize, side: Side) -> f64 {
        let Design { path, shell, .. } = self.design;
        let Some(own) = path.runs().get(run).copied() else { return 1.0 };
        let whole = shell.core_thickness + shell.gap + shell.facing_thickness;
        let baffle = path.baffle_thickness;
        let upright = matches!(side, Side::Left | Side::Right);
        let longer = |thickness: f64| (own.length + 2.0 * thickness) / own.length;
        match path.layout {
            Layout::Above | Layout::Behind if upright => {
                let perimeter = 2.0 * (own.length + own.width + 4.0 * whole);
                let inner = 2.0 * own.length * own.height + ends_of_oven(self.design, run);
                perimeter * (own.height + baffle) / inner
            }
            // The rim of the cap over the facing lies too far from the gas.
            Layout::Above | Layout::Behind => {
                let core = shell.core_thickness;
                longer(core) * (own.width + 2.0 * core) / own.width
            }
            Layout::Bench if upright => longer(whole),
            Layout::Bench => longer(shell.core_thickness) * (1.0 + baffle / own.width),
        }
    }

    /// Core, gap, facing, insulating board, room or wall of the house. One-dimensional: the core spreads
    /// as if the facing stood at the gap, the space between both passes heat on the core's area, and
    /// what closes that space at foot and top passes none.
    pub(super) fn face(
        &self,
        core_thickness: f64,
        standing: Standing,
        outside: Outside,
    ) -> Layers {
        let ratio = standing.facing;
        let Cover { insulation, behind } = self.cover(outside);
        let shell = &self.design.shell;
        let core = self.core();
        let facing = shell.facing_material.properties();
        let layers = [
            Layer::plane(&core, core_thickness, self.resolution.core_nodes)
                .growing(GROWTH)
                .spreading(1.0, standing.core),
            Layer::plane(&facing, shell.facing_thickness, self.resolution.facing_nodes)
                .of(Ply::Facing)
                .spreading(ratio, ratio),
            self.board(insulation, ratio),
        ];
        let width = standing.distance;
        let gap = (width > 0.0).then_some(Gap { width, emissivity: shell.inner_emissivity });
        let ambient = self.design.site.room_temperature;
        let room = Back::Room { ratio, ambient, film: 1.0 };
        let back = behind.map_or(room, |behind| Back::Wall { ratio, behind });
        Layers::new(&layers, gap, back)
    }

    pub(super) fn board(&self, thickness: f64, ratio: f64) -> Layer {
        Layer::plane(&BOARD, thickness, self.resolution.flue_nodes)
            .of(Ply::Board)
            .spreading(ratio, ratio)
    }

    pub(super) fn cap(&self, ratio: f64) -> Layers {
        let shell = &self.design.shell;
        let layer = Layer::plane(
            &self.core(),
            shell.cap_thickness,
            self.resolution.core_nodes + self.resolution.facing_nodes,
        );
        let ambient = self.design.site.room_temperature;
        let layer = layer.growing(GROWTH_OF_SLABS).spreading(1.0, ratio);
        let board = self.board(shell.insulation.top, ratio);
        Layers::new(&[layer, board], None, Back::Room { ratio, ambient, film: 1.0 })
    }

    pub(super) fn plain(&self, thickness: f64, back: Back) -> Layers {
        let nodes = self.resolution.core_nodes + self.resolution.facing_nodes;
        Layers::new(
            &[Layer::plane(&self.core(), thickness, nodes).growing(GROWTH_OF_SLABS)],
            None,
            back,
        )
    }

    /// Core of a thickness on the base slab, over a ventilated void; without one no heat leaves below,
    /// whatever lies there, which bounds the slab from above.
    pub(super) fn under(&self, thickness: f64) -> Layers {
        let shell = &self.design.shell;
        let layers = [
            Layer::plane(&self.core(), thickness, self.resolution.core_nodes).growing(GROWTH),
            Layer::plane(&CONCRETE, shell.base_thickness, self.resolution.facing_nodes)
                .of(Ply::Base),
        ];
        let ambient = self.design.site.room_temperature;
        let back = match self.design.surroundings.void_below {
            VoidBelow::Ventilated => Back::Film { conductance: 1.0 / VOID_RESISTANCE, ambient },
            VoidBelow::Closed => Back::Adiabatic,
        };
        Layers::new(&layers, None, back)
    }

    /// Double-walled, as the loading door.
    pub(super) fn oven_door(&self) -> Layers {
        let ambient = self.design.site.room_temperature;
        let back = Back::Film { conductance: DOOR_CONDUCTANCE, ambient };
        Layers::new(&[sheet()], None, back)
    }
}

/// Sheet of a connector or a door.
pub(super) const fn sheet() -> Layer {
    Layer {
        ply: Ply::Sheet,
        thickness: CONNECTOR_SHEET,
        conductivity: STEEL_CONDUCTIVITY,
        rows: &[],
        scale: 1.0,
        volumetric_heat_capacity: STEEL_HEAT_CAPACITY,
        spread: (1.0, 1.0),
        nodes: 1,
        growth: 1.0,
    }
}
