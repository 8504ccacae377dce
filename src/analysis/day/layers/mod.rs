//! A wall cut into layers of nodes: heat conduction normal to it, implicit in time.

mod conducting;
mod gap;
mod layer;
mod reduced;

pub use conducting::Conductances;
pub use gap::Gap;
pub use layer::{Layer, Ply};
pub use reduced::{Fluxes, Reduced, Response};

use crate::physics::gap::WallBehind;
use crate::units::kelvin;
use gap::PlacedGap;
use layer::Half;

/// Emissivity of outer faces: brick, stone, plaster (–), between 0.85 and 0.95 from memory.
pub const OUTER_EMISSIVITY: f64 = 0.9;

/// What a wall's outer side meets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Back {
    /// Nothing: no heat passes.
    Adiabatic,
    /// The room, by natural convection and radiation.
    Room {
        /// Outer area over inner area (–).
        ratio: f64,
        /// Room temperature (K).
        ambient: f64,
        /// Factor on the film (–).
        film: f64,
    },
    /// A wall of the house, across a gap.
    Wall {
        /// Outer area over inner area (–).
        ratio: f64,
        /// The wall and the gap.
        behind: WallBehind,
    },
    /// A fixed film toward a temperature.
    Film {
        /// Conductance per inner area (W/m2K).
        conductance: f64,
        /// Temperature beyond (K).
        ambient: f64,
    },
    /// Gas: the other face of a wall between two channels.
    Gas,
}

/// A wall as nodes; everything is per square meter of its inner face.
#[derive(Clone, Debug, PartialEq)]
pub struct Layers {
    /// Heat capacity of each node (J/m2K).
    capacity: Vec<f64>,
    /// Half of each node.
    halves: Vec<Half>,
    /// What each layer is made of, and its first node.
    plies: Vec<(Ply, usize)>,
    gap: Option<PlacedGap>,
    /// Up to here all of it conducts as it does cold (K).
    constant_to: f64,
    /// What is beyond the outer face.
    pub back: Back,
}

impl Layers {
    /// Cuts layers into nodes; `gap` lies between the first two where there is one.
    pub fn new(layers: &[Layer], gap: Option<Gap>, back: Back) -> Self {
        let mut wall = Self {
            capacity: Vec::new(),
            halves: Vec::new(),
            plies: Vec::new(),
            gap: None,
            constant_to: f64::INFINITY,
            back,
        };
        let mut behind = 1.0;
        for (index, layer) in layers.iter().filter(|layer| layer.thickness > 0.0).enumerate() {
            if let Some(gap) = gap.filter(|_| index == 1) {
                let link = wall.halves.len().saturating_sub(1);
                wall.gap = Some(PlacedGap { gap, link, area: behind });
            }
            behind = layer.spread.1;
            wall.plies.push((layer.ply, wall.halves.len()));
            if let Some((celsius, _)) = layer.rows.first() {
                wall.constant_to = wall.constant_to.min(kelvin(*celsius));
            }
            for (start, end) in layer.borders().iter().zip(layer.borders().iter().skip(1)) {
                let half = 0.5 * (end - start);
                let area = layer.area_at(start + half);
                let Layer { conductivity, rows, scale, .. } = *layer;
                wall.halves.push(Half { reach: half / area, conductivity, rows, scale });
                wall.capacity.push(2.0 * half * area * layer.volumetric_heat_capacity);
            }
        }
        wall
    }

    /// Number of nodes.
    pub fn nodes(&self) -> usize {
        self.capacity.len()
    }

    /// The inner side of each layer with its temperature (K); of a wall with gas on both sides its
    /// outer face as well. Faces to the gas are carried on from the two nodes behind them.
    pub fn sides<'a>(
        &'a self,
        temperatures: &'a [f64],
        now: &'a Conductances,
    ) -> impl Iterator<Item = (Ply, f64)> + 'a {
        let at = |node: usize| temperatures.get(node).copied();
        // From a node half way on, by the heat that comes from a neighbor or goes to it.
        let side = move |node: usize, link: usize, other: usize| {
            let (here, there) = (at(node)?, at(other)?);
            let half = self.halves.get(node)?.resistance(here);
            Some(here + half * now.links.get(link)? * (there - here))
        };
        let inner = self.plies.iter().filter_map(move |(ply, first)| match *first {
            0 => {
                let beyond = side(0, 0, 1).map(|middle| 2.0 * at(0).unwrap_or(middle) - middle);
                Some((*ply, beyond.or_else(|| at(0))?))
            }
            first => Some((*ply, side(first, first - 1, first - 1)?)),
        });
        let last = self.halves.len().wrapping_sub(1);
        let outer = (self.back == Back::Gas).then(|| {
            let before = last.checked_sub(1)?;
            let middle = side(last, before, before)?;
            Some((self.plies.last()?.0, 2.0 * at(last)? - middle))
        });
        inner.chain(outer.flatten())
    }

    /// Mean of the first layer, by what it stores (K).
    pub fn inner_mean(&self, temperatures: &[f64]) -> Option<f64> {
        let end = self.plies.get(1).map_or(self.capacity.len(), |(_, first)| *first);
        let nodes = self.capacity.iter().zip(temperatures).take(end);
        let (heat, capacity) =
            nodes.fold((0.0, 0.0), |(heat, all), (c, t)| (heat + c * t, all + c));
        (0.0 < capacity).then(|| heat / capacity)
    }

    /// Heat in the wall above a temperature (J/m2).
    pub fn heat(&self, temperatures: &[f64], above: f64) -> f64 {
        self.capacity.iter().zip(temperatures).map(|(c, t)| c * (t - above)).sum()
    }

    /// Heat capacity of the whole (J/m2K).
    pub fn capacity(&self) -> f64 {
        self.capacity.iter().sum()
    }

    /// Heat capacity of each node (J/m2K).
    pub fn capacities(&self) -> &[f64] {
        &self.capacity
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::material::Properties;
    use crate::physics::conduction::{semi_infinite_resistance, slab_resistance};

    const BRICK: Properties = Properties {
        conductivity: 1.05,
        rows: &[],
        scale: 1.0,
        density: 2150.0,
        specific_heat: 956.0,
        source: &crate::sources::VDI_REFRACTORIES,
    };
    const ROOM: f64 = 293.15;
    const FLUX: f64 = 4000.0;

    /// Rise of the inner face (K) after a time under a constant flux, by the two-stage method.
    fn rise(wall: &Layers, time: f64, steps: u32) -> f64 {
        let gamma = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
        let step = gamma * time / f64::from(steps);
        let (mut now, mut reduced) = (Conductances::default(), Reduced::default());
        let mut state = vec![ROOM; wall.nodes()];
        let mut new = state.clone();
        let mut rise = 0.0;
        for _ in 0..steps {
            let before = state.clone();
            for stage in 0..2 {
                wall.conductances(&state, &|_| 0.026, &mut now);
                wall.reduce(&state, step, &now, &mut reduced);
                let face = reduced.inner_response(0.0);
                rise = face.base + face.resistance * FLUX - ROOM;
                reduced.advance(Fluxes { inner: FLUX, outer: 0.0 }, &mut new);
                state.clone_from(&new);
                if stage == 0 {
                    for (now, before) in state.iter_mut().zip(&before) {
                        *now = before + (1.0 - gamma) / gamma * (*now - before);
                    }
                }
            }
        }
        rise
    }

    #[test]
    fn a_thick_wall_follows_the_semi_infinite_solid() {
        let layer = Layer::plane(&BRICK, 0.40, 24).growing(1.15);
        let wall = Layers::new(&[layer], None, Back::Adiabatic);
        for time in [1200.0, 3600.0, 7200.0] {
            let exact =
                FLUX * semi_infinite_resistance(1.05, BRICK.volumetric_heat_capacity(), time);
            let found = rise(&wall, time, 24);
            assert!((found / exact - 1.0).abs() < 5e-3, "{time} s: {found} K, {exact} K");
        }
    }

    #[test]
    fn a_slab_follows_the_series_of_a_finite_one() {
        let wall = Layers::new(&[Layer::plane(&BRICK, 0.032, 8)], None, Back::Adiabatic);
        for time in [600.0, 2400.0, 7200.0] {
            let exact =
                FLUX * slab_resistance(0.032, 1.05, BRICK.volumetric_heat_capacity(), time);
            let found = rise(&wall, time, 24);
            assert!((found / exact - 1.0).abs() < 5e-3, "{time} s: {found} K, {exact} K");
        }
    }

    /// Steady: the flux meets the resistances of core, gap and facing in series, and of a film.
    #[test]
    fn a_composite_wall_comes_to_the_resistances_in_series() {
        let layers = [
            Layer::plane(&BRICK, 0.114, 6),
            Layer { conductivity: 0.78, ..Layer::plane(&BRICK, 0.115, 5) },
        ];
        let gap = Gap { width: 0.006, emissivity: 0.9 };
        let back = Back::Film { conductance: 8.0, ambient: ROOM };
        let wall = Layers::new(&layers, Some(gap), back);
        let flux = 300.0;
        let (mut now, mut reduced) = (Conductances::default(), Reduced::default());
        let mut state = vec![ROOM; wall.nodes()];
        let mut new = state.clone();
        for _ in 0..400 {
            wall.conductances(&state, &|_| 0.03, &mut now);
            wall.reduce(&state, 36_000.0, &now, &mut reduced);
            reduced.advance(Fluxes { inner: flux, outer: 0.0 }, &mut new);
            state.clone_from(&new);
        }
        let outer = ROOM + flux / 8.0;
        assert!((now.outer_face(&state) - outer).abs() < 1e-3);
        let inside_facing = outer + flux * 0.115 / 0.78;
        // The gap by fixed point on its own mean temperature.
        let mut outside_core = inside_facing;
        for _ in 0..50 {
            let mean = 0.5 * (inside_facing + outside_core);
            let across = outside_core - inside_facing;
            outside_core = inside_facing + flux / gap.conductance(mean, 0.03, across);
        }
        let exact = outside_core + flux * 0.114 / 1.05;
        wall.reduce(&state, 1e9, &now, &mut reduced);
        let face = reduced.inner_response(0.0);
        let found = face.base + face.resistance * flux;
        // The wall takes the mean of the nodes beside the gap for the mean of its sides.
        assert!((found - exact).abs() < 0.005 * (exact - ROOM), "{found} K, {exact} K");
    }

    /// On an area that grows to 1.5 of the inner one, the resistance is that of a wedge:
    /// thickness over conductivity and logarithmic mean area.
    #[test]
    fn a_spreading_wall_has_the_resistance_of_a_wedge() {
        let layer = Layer::plane(&BRICK, 0.1, 40).spreading(1.0, 1.5);
        let back = Back::Film { conductance: 1e9, ambient: ROOM };
        let wall = Layers::new(&[layer], None, back);
        let (mut now, mut reduced) = (Conductances::default(), Reduced::default());
        let cold = vec![ROOM; wall.nodes()];
        wall.conductances(&cold, &|_| 0.03, &mut now);
        wall.reduce(&cold, 1e12, &now, &mut reduced);
        let face = reduced.inner_response(0.0);
        let mean_area = 0.5 / libm::log(1.5);
        let exact = 0.1 / (1.05 * mean_area);
        assert!((face.resistance / exact - 1.0).abs() < 1e-3, "{}", face.resistance / exact);
    }

    /// Steady, with a conductivity that grows in proportion to the temperature: its integral over
    /// the temperature is flux times thickness (Kirchhoff; Carslaw and Jaeger, 2.16).
    #[test]
    fn conductivity_by_temperature_follows_its_integral() {
        let rows = &[(0.0, 0.6), (1200.0, 2.1)];
        let layer = Layer { rows, ..Layer::plane(&BRICK, 0.114, 7) };
        let back = Back::Film { conductance: 1e9, ambient: ROOM };
        let wall = Layers::new(&[layer], None, back);
        let flux = 6000.0;
        let (mut now, mut reduced) = (Conductances::default(), Reduced::default());
        let mut state = vec![ROOM; wall.nodes()];
        let mut new = state.clone();
        for _ in 0..200 {
            wall.conduct(&state, &mut now);
            wall.conductances(&state, &|_| 0.03, &mut now);
            wall.reduce(&state, 36_000.0, &now, &mut reduced);
            reduced.advance(Fluxes { inner: flux, outer: 0.0 }, &mut new);
            state.clone_from(&new);
        }
        let face = reduced.inner_response(0.0);
        let found = face.base + face.resistance * flux - ROOM;
        // With k = k0 + b (T - T0): k0 D + b D2/2 = q L.
        let (b, k0) = (1.5 / 1200.0, 0.6 + 1.5 / 1200.0 * 20.0);
        let exact = ((k0 * k0 + 2.0 * b * flux * 0.114).sqrt() - k0) / b;
        assert!((found / exact - 1.0).abs() < 5e-3, "{found} K, {exact} K");
    }

    /// Steady, by hand: along 100 mm of brick each the temperature falls from 120 to 100 to 80 °C in a
    /// straight line; a gap between the two takes its own fall before the second.
    #[test]
    fn sides_of_layers_lie_on_the_line_between_nodes() {
        let line = |depth: f64| 120.0 - 200.0 * depth;
        let brick = Layer::plane(&BRICK, 0.1, 4);
        let wall = Layers::new(&[brick, brick.of(Ply::Facing)], None, Back::Gas);
        let nodes: Vec<f64> = (0..8).map(|i| line((f64::from(i) + 0.5) * 0.025)).collect();
        let mut now = Conductances::default();
        wall.conductances(&nodes, &|_| 0.03, &mut now);
        let found: Vec<(Ply, f64)> = wall.sides(&nodes, &now).collect();
        let expected = [(Ply::Core, 120.0), (Ply::Facing, 100.0), (Ply::Facing, 80.0)];
        assert_eq!(found.len(), expected.len());
        for ((ply, side), (made_of, at)) in found.into_iter().zip(expected) {
            assert_eq!(ply, made_of);
            assert!((side - at).abs() < 1e-9, "{ply:?}: {side}, {at}");
        }
        assert!((wall.inner_mean(&nodes).unwrap() - 110.0).abs() < 1e-9);
        // A gap that passes 10 W/m2K takes 1/10 of the flux of 1.05 x 200 = 210 W/m2: 21 K.
        let gap = Gap { width: 0.006, emissivity: 0.9 };
        let wall = Layers::new(&[brick, brick.of(Ply::Facing)], Some(gap), Back::Gas);
        let nodes: Vec<f64> =
            nodes.iter().enumerate().map(|(i, t)| if i < 4 { *t } else { t - 21.0 }).collect();
        let mut now = Conductances::default();
        wall.conductances(&nodes, &|_| 0.03, &mut now);
        now.links[3] = 1.0 / (now.around + 0.1);
        let facing = wall.sides(&nodes, &now).find(|(ply, _)| *ply == Ply::Facing).unwrap();
        assert!((facing.1 - 79.0).abs() < 1e-9, "{}", facing.1);
    }

    /// Hottest outer face and hottest inner side of the facing (°C) of core, gap and facing around a
    /// firebox whose gas swings with a period of 12 hours, cut as for a day; the outside is wider by a
    /// ratio.
    fn hot_spots(ratio: f64) -> [f64; 2] {
        let facing = Layer {
            conductivity: 0.78,
            volumetric_heat_capacity: 1760.0 * 800.0,
            ..Layer::plane(&BRICK, 0.115, 9)
        };
        // 11 W/m2K, which is nearly without weight.
        let gap = Layer { conductivity: 0.066, volumetric_heat_capacity: 1.0, ..facing };
        let layers = [
            Layer::plane(&BRICK, 0.114, 7).growing(1.35).spreading(1.0, ratio),
            Layer { thickness: 0.006, nodes: 1, ..gap }.of(Ply::Board).spreading(ratio, ratio),
            facing.of(Ply::Facing).spreading(ratio, ratio),
        ];
        let back = Back::Film { conductance: 9.0 * ratio, ambient: ROOM };
        let wall = Layers::new(&layers, None, back);
        let period = 43_200.0;
        let gas = |time: f64| {
            let swing = |times: f64| libm::cos(times * std::f64::consts::TAU * time / period);
            kelvin(300.0) + 250.0 * swing(1.0) + 120.0 * swing(2.0)
        };
        let gamma = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
        let (steps, periods) = (240_u32, 12);
        let length = period / f64::from(steps);
        let (mut now, mut reduced) = (Conductances::default(), Reduced::default());
        let mut state = vec![kelvin(100.0); wall.nodes()];
        let mut new = state.clone();
        let mut found = [0.0_f64; 2];
        for step in 0..steps * periods {
            if step == steps * (periods - 1) {
                found = [0.0; 2];
            }
            let before = state.clone();
            for (stage, share) in [gamma, 1.0].into_iter().enumerate() {
                wall.conductances(&state, &|_| 0.03, &mut now);
                wall.reduce(&state, gamma * length, &now, &mut reduced);
                let face = reduced.inner_response(0.0);
                let met = gas((f64::from(step) + share) * length);
                let flux = (met - face.base) / (1.0 / 25.0 + face.resistance);
                reduced.advance(Fluxes { inner: flux, outer: 0.0 }, &mut new);
                state.clone_from(&new);
                if stage == 0 {
                    for (now, before) in state.iter_mut().zip(&before) {
                        *now = before + (1.0 - gamma) / gamma * (*now - before);
                    }
                }
            }
            let inside = wall.sides(&state, &now).find(|(ply, _)| *ply == Ply::Facing).unwrap();
            let here = [now.outer_face(&state), inside.1];
            for (found, here) in found.iter_mut().zip(here) {
                *found = found.max(crate::units::celsius(here));
            }
        }
        found
    }

    /// A level section of 420 by 360 mm, as `tests/reference/hot_spots.py` prints it: plane by transfer
    /// matrices (EN ISO 13786), in two dimensions by finite volumes, each harmonic by itself. The middle
    /// of the outside lies between a plane wall and one that spreads evenly on all of it.
    #[test]
    fn the_middle_of_a_face_lies_between_a_plane_wall_and_one_that_spreads() {
        let (exact, middle) = ([93.19, 199.59], [86.35, 189.05]);
        let plane = hot_spots(1.0);
        for (found, exact) in plane.into_iter().zip(exact) {
            assert!((found - exact).abs() < 5e-3 * (exact - 20.0), "{found}, {exact}");
        }
        // On 2 (0.42 + 0.36) m of inside 8 (0.114 + 0.006 + 0.115) m more of outside.
        let spread = hot_spots(1.0 + 8.0 * 0.235 / (2.0 * 0.78));
        for ((plane, middle), spread) in plane.into_iter().zip(middle).zip(spread) {
            assert!(spread + 5.0 < middle && middle < plane, "{spread}, {middle}, {plane}");
        }
    }

    /// Both faces of a slab heated alike: the middle passes no heat, as in a slab of half the
    /// thickness.
    #[test]
    fn a_slab_between_two_gases_is_symmetric() {
        let wall = Layers::new(&[Layer::plane(&BRICK, 0.064, 6)], None, Back::Gas);
        let old = vec![ROOM; wall.nodes()];
        let (mut now, mut reduced) = (Conductances::default(), Reduced::default());
        wall.conductances(&old, &|_| 0.03, &mut now);
        wall.reduce(&old, 300.0, &now, &mut reduced);
        let (inner, outer) = (reduced.inner_response(FLUX), reduced.outer_response(FLUX));
        assert!((inner.base - outer.base).abs() < 1e-9);
        assert!((inner.resistance - outer.resistance).abs() < 1e-12);
        let mut new = old.clone();
        reduced.advance(Fluxes { inner: FLUX, outer: FLUX }, &mut new);
        let stored = wall.heat(&new, ROOM);
        assert!((stored / (2.0 * FLUX * 300.0) - 1.0).abs() < 1e-12);
    }
}
