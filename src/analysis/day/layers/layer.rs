//! One layer of a wall, and the halves of its nodes.

use crate::design::material::{Properties, Rows, conductivity_in};

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
    pub(super) fn borders(&self) -> Vec<f64> {
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

    pub(super) fn area_at(&self, depth: f64) -> f64 {
        let (from, to) = self.spread;
        from + (to - from) * depth / self.thickness
    }
}

/// Half of a node, as a way for heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Half {
    /// Thickness over area (m).
    pub(super) reach: f64,
    pub(super) conductivity: f64,
    pub(super) rows: Rows,
    pub(super) scale: f64,
}

impl Half {
    /// Resistance at a temperature (m2K/W).
    pub(super) fn resistance(&self, temperature: f64) -> f64 {
        let printed = conductivity_in(self.rows, temperature);
        self.reach / printed.map_or(self.conductivity, |value| self.scale * value)
    }
}
