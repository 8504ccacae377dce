//! A wall cut into layers of nodes: heat conduction normal to it, implicit in time.

use crate::analysis::march::Sink;
use crate::design::material::Properties;
use crate::physics::STEFAN_BOLTZMANN;
use crate::physics::surface::emission;

/// Emissivity of outer faces: brick, stone, plaster (–), between 0.85 and 0.95 from memory.
pub const OUTER_EMISSIVITY: f64 = 0.9;

/// One layer of a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Thickness (m).
    pub thickness: f64,
    /// Conductivity (W/mK).
    pub conductivity: f64,
    /// Density times specific heat (J/m3K).
    pub volumetric_heat_capacity: f64,
    /// Area at its inner and outer side, over the area of the wall's inner face (–).
    pub spread: (f64, f64),
    /// Number of nodes.
    pub nodes: usize,
    /// Each node is this much thicker than the one before (–).
    pub growth: f64,
}

impl Layer {
    /// A plane layer with equal nodes.
    pub fn plane(material: &Properties, thickness: f64, nodes: usize) -> Self {
        Self {
            thickness,
            conductivity: material.conductivity,
            volumetric_heat_capacity: material.volumetric_heat_capacity(),
            spread: (1.0, 1.0),
            nodes: nodes.max(1),
            growth: 1.0,
        }
    }

    /// The same with nodes that grow from the inner side.
    #[must_use]
    pub const fn growing(self, growth: f64) -> Self {
        Self { growth, ..self }
    }

    /// The same on an area that grows to this many times the inner one.
    #[must_use]
    pub const fn spreading(self, from: f64, to: f64) -> Self {
        Self { spread: (from, to), ..self }
    }

    /// Depths of the borders between nodes, first and last included (m).
    fn borders(&self) -> Vec<f64> {
        let mut steps = Vec::with_capacity(self.nodes);
        let mut step = 1.0;
        for _ in 0..self.nodes {
            steps.push(step);
            step *= self.growth;
        }
        let scale = self.thickness / steps.iter().sum::<f64>();
        let mut depth = 0.0;
        let mut borders = vec![0.0];
        borders.extend(steps.iter().map(|step| {
            depth += step * scale;
            depth
        }));
        borders
    }

    fn area_at(&self, depth: f64) -> f64 {
        let (from, to) = self.spread;
        from + (to - from) * depth / self.thickness
    }
}

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

/// A gap between two layers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Width (m).
    pub width: f64,
    /// Emissivity of both of its sides (–).
    pub emissivity: f64,
}

impl Gap {
    /// Conductance by conduction through still air and by radiation (W/m2K), at a mean
    /// temperature (K).
    ///
    /// h = k/w + 4 sigma T3 / (2/e - 1)
    ///
    /// # Source
    ///
    /// Fourier's law and exchange between parallel gray plates; convection is negligible in gaps
    /// of less than 15 mm or so.
    pub fn conductance(&self, temperature: f64, air_conductivity: f64) -> f64 {
        let radiation = 4.0 * STEFAN_BOLTZMANN * temperature * temperature * temperature
            / (2.0 / self.emissivity - 1.0);
        air_conductivity / self.width + radiation
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Link {
    /// Conductance between two nodes per inner area (W/m2K).
    Solid(f64),
    /// A gap, with the resistance of both halves around it and its area ratio.
    Gap { gap: Gap, around: f64, area: f64 },
}

/// Temperature of a face as a line over the flux into it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Response {
    /// Without flux (K).
    pub base: f64,
    /// Rise per unit of flux (m2K/W).
    pub resistance: f64,
}

impl Response {
    /// The face as a strip of a channel.
    pub fn sink(&self, girth: f64) -> Sink {
        Sink::alone(girth, self.base, self.resistance)
    }
}

/// A wall as nodes; everything is per square meter of its inner face.
#[derive(Clone, Debug, PartialEq)]
pub struct Layers {
    /// Heat capacity of each node (J/m2K).
    capacity: Vec<f64>,
    /// Between neighbors.
    links: Vec<Link>,
    /// From the inner face to the first node (W/m2K).
    inner: f64,
    /// From the last node to the outer face (W/m2K).
    outer: f64,
    /// What is beyond the outer face.
    pub back: Back,
}

/// Conductances at the present temperatures, for one step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Conductances {
    links: Vec<f64>,
    /// From the last node to what is beyond (W/m2K), 0 for none.
    out: f64,
    ambient: f64,
    /// Outer face that meets the room (K); 0 before the first time.
    face: f64,
}

impl Conductances {
    /// Heat that leaves by the outer face (W/m2 of inner face), gas apart.
    pub fn outflow(&self, temperatures: &[f64]) -> f64 {
        let last = temperatures.last().copied().unwrap_or(0.0);
        self.out * (last - self.ambient)
    }
}

/// Fluxes into both faces from gas and other walls (W/m2); that into the outer face counts only
/// where gas is there.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Fluxes {
    /// Into the inner face.
    pub inner: f64,
    /// Into the outer face.
    pub outer: f64,
}

impl Layers {
    /// Cuts layers into nodes; `gap` lies between the first two where there is one.
    pub fn new(layers: &[Layer], gap: Option<Gap>, back: Back) -> Self {
        let mut wall = Self {
            capacity: Vec::new(),
            links: Vec::new(),
            inner: f64::INFINITY,
            outer: f64::INFINITY,
            back,
        };
        // Resistance from the last node so far to its outer border.
        let mut behind = 0.0;
        for (index, layer) in layers.iter().filter(|layer| layer.thickness > 0.0).enumerate() {
            for (start, end) in layer.borders().iter().zip(layer.borders().iter().skip(1)) {
                let half = 0.5 * (end - start);
                let area = layer.area_at(start + half);
                let resistance = half / (layer.conductivity * area);
                let link = match gap {
                    Some(gap) if index == 1 && *start <= 0.0 => {
                        Link::Gap { gap, around: behind + resistance, area: layer.spread.0 }
                    }
                    _ => Link::Solid(1.0 / (behind + resistance)),
                };
                if wall.capacity.is_empty() {
                    wall.inner = 1.0 / resistance;
                } else {
                    wall.links.push(link);
                }
                wall.capacity.push(2.0 * half * area * layer.volumetric_heat_capacity);
                behind = resistance;
            }
        }
        wall.outer = 1.0 / behind;
        wall
    }

    /// Number of nodes.
    pub fn nodes(&self) -> usize {
        self.capacity.len()
    }

    /// Heat in the wall above a temperature (J/m2).
    pub fn heat(&self, temperatures: &[f64], above: f64) -> f64 {
        self.capacity.iter().zip(temperatures).map(|(c, t)| c * (t - above)).sum()
    }

    /// Heat capacity of each node (J/m2K).
    pub fn capacities(&self) -> &[f64] {
        &self.capacity
    }

    /// Conductances at node temperatures.
    pub fn conductances(
        &self,
        temperatures: &[f64],
        air: &impl Fn(f64) -> f64,
        into: &mut Conductances,
    ) {
        into.links.clear();
        let pairs = temperatures.iter().zip(temperatures.iter().skip(1));
        into.links.extend(self.links.iter().zip(pairs).map(
            |(link, (one, other))| match *link {
                Link::Solid(conductance) => conductance,
                Link::Gap { gap, around, area } => {
                    let mean = 0.5 * (one + other);
                    1.0 / (around + 1.0 / (area * gap.conductance(mean, air(mean))))
                }
            },
        ));
        let last = temperatures.last().copied().unwrap_or(0.0);
        (into.out, into.ambient) = match self.back {
            Back::Adiabatic | Back::Gas => (0.0, 0.0),
            Back::Film { conductance, ambient } => {
                (1.0 / (1.0 / self.outer + 1.0 / conductance), ambient)
            }
            Back::Room { ratio, ambient } => {
                // From the face of the sweep before, a round or two of this are enough.
                let mut face = if into.face > 0.0 { into.face } else { last };
                let mut film = 0.0;
                for _ in 0..MOST_FILM_ROUNDS {
                    film = ratio * room_film(face, ambient);
                    let next = (self.outer * last + film * ambient) / (self.outer + film);
                    let change = next - face;
                    face = next;
                    if change.abs() < FACE_TOLERANCE {
                        break;
                    }
                }
                into.face = face;
                (1.0 / (1.0 / self.outer + 1.0 / film), ambient)
            }
        };
    }

    /// How the inner face answers a flux within a step, the outer flux being known.
    pub fn inner_response(
        &self,
        old: &[f64],
        step: f64,
        now: &Conductances,
        outer_flux: f64,
    ) -> Response {
        let far = Far { conductance: now.out, ambient: now.ambient, flux: outer_flux };
        let nodes = self.capacity.iter().zip(old).rev();
        eliminate(nodes, now.links.iter().rev(), step, far).face(self.inner)
    }

    /// How the outer face answers a flux within a step, the inner flux being known.
    pub fn outer_response(
        &self,
        old: &[f64],
        step: f64,
        now: &Conductances,
        inner_flux: f64,
    ) -> Response {
        let far = Far { flux: inner_flux, ..Far::default() };
        let nodes = self.capacity.iter().zip(old);
        eliminate(nodes, now.links.iter(), step, far).face(self.outer)
    }

    /// Node temperatures at the end of a step, both fluxes being known.
    pub fn advance(
        &self,
        old: &[f64],
        step: f64,
        (now, fluxes): (&Conductances, Fluxes),
        new: &mut [f64],
    ) {
        let mut rows = [Row::default(); MOST_NODES];
        let mut row = Row { diagonal: 0.0, right: fluxes.inner };
        let nodes = self.capacity.iter().zip(old).zip(&mut rows);
        // What the last node meets, seen from the node before it.
        let mut link = f64::INFINITY;
        let mut links = now.links.iter();
        for ((capacity, old), slot) in nodes {
            row = row.next(link, capacity / step, *old);
            *slot = row;
            link = links.next().copied().unwrap_or(0.0);
        }
        let mut after =
            (row.right + now.out * now.ambient + fluxes.outer) / (row.diagonal + now.out);
        let backward = rows.iter().take(self.nodes()).rev().zip(new.iter_mut().rev());
        let mut links = now.links.iter().rev();
        for (index, (row, new)) in backward.enumerate() {
            if index > 0 {
                let link = links.next().copied().unwrap_or(0.0);
                after = (row.right + link * after) / (row.diagonal + link);
            }
            *new = after;
        }
    }

    /// Temperature of an outer face that meets room or film (K).
    pub fn outer_face(&self, temperatures: &[f64], now: &Conductances) -> f64 {
        let last = temperatures.last().copied().unwrap_or(0.0);
        last - now.outflow(temperatures) / self.outer
    }
}

/// Most nodes of a wall.
pub const MOST_NODES: usize = 64;
const MOST_FILM_ROUNDS: u32 = 12;
/// On the temperature of an outer face (K).
const FACE_TOLERANCE: f64 = 3e-3;

/// Film between an outer face and the room (W/m2K).
fn room_film(face: f64, ambient: f64) -> f64 {
    let excess = face - ambient;
    if excess.abs() < 1e-3 {
        4.0 * STEFAN_BOLTZMANN * OUTER_EMISSIVITY * ambient * ambient * ambient
    } else {
        emission(OUTER_EMISSIVITY, face, ambient) / excess
    }
}

/// Far side of a wall: a conductance toward a temperature, and a flux.
#[derive(Clone, Copy, Debug, Default)]
struct Far {
    conductance: f64,
    ambient: f64,
    flux: f64,
}

/// The last row of an elimination: diagonal times temperature equals right side.
#[derive(Clone, Copy, Debug, Default)]
struct Row {
    diagonal: f64,
    right: f64,
}

impl Row {
    /// The row of the next node, for which the eliminated ones are a conductance in series.
    fn next(self, link: f64, mass: f64, old: f64) -> Self {
        let share = if link.is_finite() { link / (self.diagonal + link) } else { 1.0 };
        Self { diagonal: mass + share * self.diagonal, right: mass * old + share * self.right }
    }

    /// The face before that node, at a conductance.
    fn face(self, conductance: f64) -> Response {
        Response {
            base: self.right / self.diagonal,
            resistance: 1.0 / self.diagonal + 1.0 / conductance,
        }
    }
}

/// Eliminates all nodes but the last of the iteration, starting at the far side.
fn eliminate<'a>(
    nodes: impl Iterator<Item = (&'a f64, &'a f64)>,
    mut links: impl Iterator<Item = &'a f64>,
    step: f64,
    far: Far,
) -> Row {
    let right = far.conductance * far.ambient + far.flux;
    let mut row = Row { diagonal: far.conductance, right };
    let mut link = f64::INFINITY;
    for (capacity, old) in nodes {
        row = row.next(link, capacity / step, *old);
        link = links.next().copied().unwrap_or(0.0);
    }
    row
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::conduction::{semi_infinite_resistance, slab_resistance};

    const BRICK: Properties = Properties {
        conductivity: 1.05,
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
        let mut now = Conductances::default();
        let mut state = vec![ROOM; wall.nodes()];
        let mut new = state.clone();
        let mut rise = 0.0;
        for _ in 0..steps {
            let before = state.clone();
            for stage in 0..2 {
                wall.conductances(&state, &|_| 0.026, &mut now);
                let face = wall.inner_response(&state, step, &now, 0.0);
                rise = face.base + face.resistance * FLUX - ROOM;
                let fluxes = Fluxes { inner: FLUX, outer: 0.0 };
                wall.advance(&state, step, (&now, fluxes), &mut new);
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
        let mut now = Conductances::default();
        let mut state = vec![ROOM; wall.nodes()];
        let mut new = state.clone();
        for _ in 0..400 {
            wall.conductances(&state, &|_| 0.03, &mut now);
            let fluxes = Fluxes { inner: flux, outer: 0.0 };
            wall.advance(&state, 36_000.0, (&now, fluxes), &mut new);
            state.clone_from(&new);
        }
        let outer = ROOM + flux / 8.0;
        assert!((wall.outer_face(&state, &now) - outer).abs() < 1e-3);
        let inside_facing = outer + flux * 0.115 / 0.78;
        // The gap by fixed point on its own mean temperature.
        let mut outside_core = inside_facing;
        for _ in 0..50 {
            let mean = 0.5 * (inside_facing + outside_core);
            outside_core = inside_facing + flux / gap.conductance(mean, 0.03);
        }
        let exact = outside_core + flux * 0.114 / 1.05;
        let face = wall.inner_response(&state, 1e9, &now, 0.0);
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
        let mut now = Conductances::default();
        wall.conductances(&vec![ROOM; wall.nodes()], &|_| 0.03, &mut now);
        let face = wall.inner_response(&vec![ROOM; wall.nodes()], 1e12, &now, 0.0);
        let mean_area = 0.5 / libm::log(1.5);
        let exact = 0.1 / (1.05 * mean_area);
        assert!((face.resistance / exact - 1.0).abs() < 1e-3, "{}", face.resistance / exact);
    }

    /// Both faces of a slab heated alike: the middle passes no heat, as in a slab of half the
    /// thickness.
    #[test]
    fn a_slab_between_two_gases_is_symmetric() {
        let wall = Layers::new(&[Layer::plane(&BRICK, 0.064, 6)], None, Back::Gas);
        let old = vec![ROOM; wall.nodes()];
        let mut now = Conductances::default();
        wall.conductances(&old, &|_| 0.03, &mut now);
        let inner = wall.inner_response(&old, 300.0, &now, FLUX);
        let outer = wall.outer_response(&old, 300.0, &now, FLUX);
        assert!((inner.base - outer.base).abs() < 1e-9);
        assert!((inner.resistance - outer.resistance).abs() < 1e-12);
        let mut new = old.clone();
        let fluxes = Fluxes { inner: FLUX, outer: FLUX };
        wall.advance(&old, 300.0, (&now, fluxes), &mut new);
        let stored = wall.heat(&new, ROOM);
        assert!((stored / (2.0 * FLUX * 300.0) - 1.0).abs() < 1e-12);
    }
}
