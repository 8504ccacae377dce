//! A gap between two layers of a wall.

use crate::physics::STEFAN_BOLTZMANN;

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
pub(super) struct PlacedGap {
    pub(super) gap: Gap,
    /// Index of the link that it is.
    pub(super) link: usize,
    /// Its area over that of the inner face (–).
    pub(super) area: f64,
}

impl PlacedGap {
    /// Conductance between the nodes around it, at a mean temperature (W/m2K); `around` is the
    /// resistance of both half nodes (m2K/W).
    pub(super) fn conductance(
        &self,
        temperature: f64,
        air_conductivity: f64,
        around: f64,
    ) -> f64 {
        let gap = self.area * self.gap.conductance(temperature, air_conductivity);
        1.0 / (around + 1.0 / gap)
    }
}
