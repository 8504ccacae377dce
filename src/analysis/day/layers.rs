//! A wall cut into layers of nodes: heat conduction normal to it, implicit in time.

use crate::analysis::march::Sink;
use crate::design::material::{Properties, Rows, conductivity_in};
use crate::physics::STEFAN_BOLTZMANN;
use crate::physics::gap::{WallBehind, across_gap};
use crate::physics::surface::emission_and_slope as emission;
use crate::units::kelvin;

/// Emissivity of outer faces: brick, stone, plaster (–), between 0.85 and 0.95 from memory.
pub const OUTER_EMISSIVITY: f64 = 0.9;

/// What a layer of a wall is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ply {
    /// What the core is made of.
    Core,
    /// What the facing is made of.
    Facing,
    /// Insulating board on a face.
    Board,
    /// Concrete of the base slab.
    Base,
    /// Wall of the flue.
    Liner,
    /// Mineral wool around the flue.
    Wool,
    /// Steel sheet.
    Sheet,
}

/// One layer of a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// What it is made of.
    pub ply: Ply,
    /// Thickness (m).
    pub thickness: f64,
    /// Conductivity (W/mK).
    pub conductivity: f64,
    /// The same by temperature, where it is known.
    pub rows: Rows,
    /// Factor on these rows (–).
    pub scale: f64,
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
            ply: Ply::Core,
            thickness,
            conductivity: material.conductivity,
            rows: material.rows,
            scale: material.scale,
            volumetric_heat_capacity: material.volumetric_heat_capacity(),
            spread: (1.0, 1.0),
            nodes: nodes.max(1),
            growth: 1.0,
        }
    }

    /// The same of something else than the core.
    #[must_use]
    pub const fn of(self, ply: Ply) -> Self {
        Self { ply, ..self }
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

/// A gap with its place in a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
struct PlacedGap {
    gap: Gap,
    /// Index of the link that it is.
    link: usize,
    /// Its area over that of the inner face (–).
    area: f64,
}

impl PlacedGap {
    /// Conductance between the nodes around it, at a mean temperature (W/m2K); `around` is the
    /// resistance of both half nodes (m2K/W).
    fn conductance(&self, temperature: f64, air_conductivity: f64, around: f64) -> f64 {
        let gap = self.area * self.gap.conductance(temperature, air_conductivity);
        1.0 / (around + 1.0 / gap)
    }
}

/// Temperature of a face as a line over the flux into it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
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

/// Half of a node, as a way for heat.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Half {
    /// Thickness over area (m).
    reach: f64,
    conductivity: f64,
    rows: Rows,
    scale: f64,
}

impl Half {
    /// Resistance at a temperature (m2K/W).
    fn resistance(&self, temperature: f64) -> f64 {
        let printed = conductivity_in(self.rows, temperature);
        self.reach / printed.map_or(self.conductivity, |value| self.scale * value)
    }
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

/// Conductances at the present temperatures, for one step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Conductances {
    /// Between neighbors (W/m2K).
    links: Vec<f64>,
    /// From the inner face to the first node (W/m2K).
    inner: f64,
    /// From the last node to the outer face (W/m2K).
    outer: f64,
    /// Resistance of both half nodes around a gap (m2K/W).
    around: f64,
    /// Whether the masonry conducts as it does cold.
    cold: bool,
    /// From the last node to what is beyond (W/m2K), 0 for none.
    out: f64,
    ambient: f64,
    /// Outer face that meets the room, and the last node behind it (K); 0 before the first time.
    face: f64,
    node: f64,
}

impl Conductances {
    /// Heat that leaves by the outer face (W/m2 of inner face), gas apart.
    pub fn outflow(&self, temperatures: &[f64]) -> f64 {
        let last = temperatures.last().copied().unwrap_or(0.0);
        self.out * (last - self.ambient)
    }

    /// Temperature of an outer face that meets room, wall or film (K).
    pub fn outer_face(&self, temperatures: &[f64]) -> f64 {
        let last = temperatures.last().copied().unwrap_or(0.0);
        last - self.outflow(temperatures) / self.outer
    }

    /// Film on an outer face (W/m2K), behind which lies a node (K), with its area over that of
    /// the inner face; `emission` is what a face gives off and how that grows (W/m2, W/m2K).
    fn film(
        &mut self,
        (node, ratio): (f64, f64),
        ambient: f64,
        emission: impl Fn(f64) -> (f64, f64),
    ) -> f64 {
        self.node = node;
        let conductance = self.outer / ratio;
        let mut face = if self.face > 0.0 { self.face } else { node };
        let (mut flux, mut steepness) = (0.0, 0.0);
        for _ in 0..MOST_FILM_ROUNDS {
            let (here, slope) = emission(face);
            steepness = slope;
            let step = (conductance * (node - face) - here) / (conductance + slope);
            face += step;
            flux = here + slope * step;
            if step.abs() < FACE_TOLERANCE {
                break;
            }
        }
        self.face = face;
        let excess = face - ambient;
        if excess.abs() < 1e-3 { steepness } else { flux / excess }
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
            halves: Vec::new(),
            plies: Vec::new(),
            gap: None,
            constant_to: f64::INFINITY,
            back,
        };
        for (index, layer) in layers.iter().filter(|layer| layer.thickness > 0.0).enumerate() {
            if let Some(gap) = gap.filter(|_| index == 1) {
                let link = wall.halves.len().saturating_sub(1);
                wall.gap = Some(PlacedGap { gap, link, area: layer.spread.0 });
            }
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

    /// Lets the masonry conduct as it does at node temperatures. For a step these are the ones to
    /// which the step before leads: conductivity follows them slowly.
    pub fn conduct(&self, temperatures: &[f64], now: &mut Conductances) {
        let cold = temperatures.iter().all(|t| *t <= self.constant_to);
        if cold && now.cold {
            return;
        }
        now.cold = cold;
        now.links.resize(self.halves.len().saturating_sub(1), 0.0);
        let mut links = now.links.iter_mut().enumerate();
        // Resistance from the last node so far to its outer border.
        let mut behind = None;
        for (half, temperature) in self.halves.iter().zip(temperatures) {
            let resistance = half.resistance(*temperature);
            let Some(before) = behind.replace(resistance) else {
                now.inner = 1.0 / resistance;
                continue;
            };
            let Some((index, link)) = links.next() else { break };
            if self.gap.is_some_and(|gap| gap.link == index) {
                now.around = before + resistance;
            } else {
                *link = 1.0 / (before + resistance);
            }
        }
        now.outer = behind.map_or(f64::INFINITY, |behind| 1.0 / behind);
    }

    /// Brings gap and outer film to node temperatures; whether they differ from what they were.
    pub fn conductances(
        &self,
        temperatures: &[f64],
        air: &impl Fn(f64) -> f64,
        now: &mut Conductances,
    ) -> bool {
        let first = now.outer <= 0.0;
        if first {
            self.conduct(temperatures, now);
        }
        let gap = self.through_gap(temperatures, air, now);
        let back = self.to_back(temperatures, now);
        first || gap || back
    }

    fn through_gap(
        &self,
        temperatures: &[f64],
        air: &impl Fn(f64) -> f64,
        now: &mut Conductances,
    ) -> bool {
        let Some(gap) = &self.gap else { return false };
        let [Some(one), Some(other)] =
            [gap.link, gap.link + 1].map(|node| temperatures.get(node))
        else {
            return false;
        };
        let mean = 0.5 * (one + other);
        let next = gap.conductance(mean, air(mean), now.around);
        now.links.get_mut(gap.link).is_some_and(|link| replaced(link, next, one - other))
    }

    fn to_back(&self, temperatures: &[f64], now: &mut Conductances) -> bool {
        let last = temperatures.last().copied().unwrap_or(0.0);
        let (film, ambient) = match self.back {
            Back::Adiabatic | Back::Gas => return false,
            Back::Film { conductance, ambient } => (conductance, ambient),
            Back::Room { .. } | Back::Wall { .. } if (last - now.node).abs() < NODE_MOVED => {
                return false;
            }
            Back::Room { ratio, ambient, film: factor } => {
                let emission = |face| {
                    let (flux, slope) = emission(OUTER_EMISSIVITY, face, ambient);
                    (factor * flux, factor * slope)
                };
                (ratio * now.film((last, ratio), ambient, emission), ambient)
            }
            Back::Wall { ratio, behind } => {
                let flux = |face| across_gap(&behind, face).1;
                let emission = |face| (flux(face), flux(face + 0.5) - flux(face - 0.5));
                (ratio * now.film((last, ratio), behind.room, emission), behind.room)
            }
        };
        now.ambient = ambient;
        replaced(&mut now.out, 1.0 / (1.0 / now.outer + 1.0 / film), last - ambient)
    }

    /// Reduces a wall to what its faces answer to fluxes within a step, and to what its nodes
    /// become: all nodes are eliminated from the outer side inward.
    pub fn reduce(&self, old: &[f64], step: f64, now: &Conductances, into: &mut Reduced) {
        into.rows.clear();
        let mut diagonal = now.out;
        let mut right = now.out * now.ambient;
        let mut passed = 1.0;
        let mut links = now.links.iter().rev();
        for (index, (capacity, old)) in self.capacity.iter().zip(old).rev().enumerate() {
            if index > 0 {
                let link = links.next().copied().unwrap_or(0.0);
                let inverse = 1.0 / (diagonal + link);
                let row = Row {
                    own: right * inverse,
                    inner: link * inverse,
                    outer: passed * inverse,
                };
                into.rows.push(row);
                diagonal *= row.inner;
                right *= row.inner;
                passed *= row.inner;
            }
            let mass = capacity / step;
            diagonal += mass;
            right += mass * old;
        }
        let rise = 1.0 / diagonal;
        into.first = Row { own: right * rise, inner: rise, outer: passed * rise };
        into.inner = Response { base: into.first.own, resistance: rise + 1.0 / now.inner };
        into.cross = into.first.outer;
        if self.back == Back::Gas {
            let last = into
                .rows
                .iter()
                .rev()
                .fold(Row { inner: 1.0, ..into.first }, |before, row| row.behind(&before));
            into.outer = Response { base: last.own, resistance: last.outer + 1.0 / now.outer };
        }
    }
}

/// Conductances that differ by less than this share are the same (–): by as much as a face of
/// 60 °C in a room of 20 °C differs when it moves by 0.01 K.
const SAME_CONDUCTANCE: f64 = 1e-4;
/// And those whose flux differs by less than this (W/m2): near the temperature of the room a film
/// changes at once with the face, but carries nothing.
const SAME_FLUX: f64 = 0.02;
/// A film to the room is reckoned anew when the node behind the face has moved by this much (K).
const NODE_MOVED: f64 = 1e-3;
const MOST_FILM_ROUNDS: u32 = 12;
/// Last step of Newton's method for an outer face (K); its error goes with the square of it.
const FACE_TOLERANCE: f64 = 0.05;

/// Puts a new conductance in the place of one that differs from it, at a difference of
/// temperature (K); 0 stands for not known.
fn replaced(conductance: &mut f64, next: f64, difference: f64) -> bool {
    let change = (next - *conductance).abs();
    let differs = change > SAME_CONDUCTANCE * next && change * difference.abs() > SAME_FLUX;
    let replaced = differs || *conductance <= 0.0;
    if replaced {
        *conductance = next;
    }
    replaced
}

/// Temperature of an eliminated node as a line: what it is by itself (K), how it follows its
/// inner neighbor (–; the first node: the flux into the inner face, m2K/W), how it rises with the
/// flux into the outer face (m2K/W).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Row {
    own: f64,
    inner: f64,
    outer: f64,
}

impl Row {
    /// The same over what the node before is a line over.
    fn behind(&self, before: &Self) -> Self {
        Self {
            own: self.own + self.inner * before.own,
            inner: self.inner * before.inner,
            outer: self.outer + self.inner * before.outer,
        }
    }
}

/// A wall reduced for one step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reduced {
    /// Nodes from the last one inward, the first one apart.
    rows: Vec<Row>,
    first: Row,
    inner: Response,
    outer: Response,
    /// Rise of one face per unit of flux into the other (m2K/W).
    cross: f64,
}

impl Reduced {
    /// How the inner face answers a flux, the outer one being known.
    pub fn inner_response(&self, outer_flux: f64) -> Response {
        Response { base: self.inner.base + self.cross * outer_flux, ..self.inner }
    }

    /// How the outer face answers a flux, the inner one being known.
    pub fn outer_response(&self, inner_flux: f64) -> Response {
        Response { base: self.outer.base + self.cross * inner_flux, ..self.outer }
    }

    /// Node temperatures at the end of the step, both fluxes being known.
    pub fn advance(&self, fluxes: Fluxes, new: &mut [f64]) {
        let mut before = fluxes.inner;
        let rows = std::iter::once(&self.first).chain(self.rows.iter().rev());
        for (row, new) in rows.zip(new) {
            before = row.own + row.inner * before + row.outer * fluxes.outer;
            *new = before;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
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
            outside_core = inside_facing + flux / gap.conductance(mean, 0.03);
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
