//! A gap between two layers of a wall.

use crate::physics::STEFAN_BOLTZMANN;

/// Air that turns over in an upright space (W/m2K at 1 K), and the least difference of temperature for
/// which that holds (K).
const TURNING: f64 = 0.73;
const LEAST_DIFFERENCE: f64 = 5.0;
/// Rounds for the share of the difference between nodes that lies across a gap.
const ROUNDS: u32 = 3;

/// A gap between two layers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Width (m).
    pub width: f64,
    /// Emissivity of both of its sides (–).
    pub emissivity: f64,
}

impl Gap {
    /// Conductance through its air and by radiation (W/m2K), at a mean temperature (K) and a difference
    /// of temperature across it (K).
    ///
    /// h = max(k/w, 0.73 D^(1/3)) + 4 sigma T3 / (2/e - 1), D at least 5 K
    ///
    /// Upright and shut at foot and top. The air of wide gaps turns over; at 130 °C that rule, made for
    /// the air of buildings, is some 20 % too high, which is 4 % of the gap.
    ///
    /// # Source
    ///
    /// Fourier's law and exchange between parallel gray plates; [`crate::sources::ISO_6946_AIRSPACE`].
    pub fn conductance(&self, temperature: f64, air_conductivity: f64, difference: f64) -> f64 {
        let radiation = 4.0 * STEFAN_BOLTZMANN * temperature * temperature * temperature
            / (2.0 / self.emissivity - 1.0);
        let turning = TURNING * libm::cbrt(difference.abs().max(LEAST_DIFFERENCE));
        (air_conductivity / self.width).max(turning) + radiation
    }
}

/// A gap with its place in a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct PlacedGap {
    pub(super) gap: Gap,
    /// Index of the link that it is.
    pub(super) link: usize,
    /// Its area over that of the inner face (–): that of the core, which sees nothing but the facing.
    pub(super) area: f64,
}

impl PlacedGap {
    /// Conductance between the nodes around it (W/m2K), at their mean temperature and difference (K, K);
    /// `around` is the resistance of both half nodes (m2K/W).
    pub(super) fn conductance(
        &self,
        (temperature, difference): (f64, f64),
        air_conductivity: f64,
        around: f64,
    ) -> f64 {
        let mut whole = 0.0;
        let mut across = difference;
        for _ in 0..ROUNDS {
            let gap = self.area * self.gap.conductance(temperature, air_conductivity, across);
            whole = 1.0 / (around + 1.0 / gap);
            across = difference * whole / gap;
        }
        whole
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// EN ISO 6946, table of unventilated layers, surely remembered: 0.18 m2K/W from 25 mm on for level
    /// heat flow, at 10 °C between faces of 0.9 that differ by no more than 5 K; 0.15 at 10 mm, and
    /// 0.11 at 5 mm, by still air.
    #[test]
    fn unventilated_layers_have_the_resistance_of_the_standard() {
        for (width, resistance) in
            [(0.3, 0.18), (0.05, 0.18), (0.025, 0.18), (0.01, 0.15), (0.005, 0.11)]
        {
            let found = 1.0 / Gap { width, emissivity: 0.9 }.conductance(283.15, 0.025, 5.0);
            assert!((found - resistance).abs() < 0.005, "{width}: {found}, {resistance}");
        }
    }

    /// By hand: 27 K across 150 mm make 0.73 x 3 = 2.19 W/m2K; still air in 6 mm passes 0.03/0.006 = 5.
    #[test]
    fn air_of_wide_spaces_turns_over_and_that_of_narrow_ones_is_still() {
        let radiation = 4.0 * STEFAN_BOLTZMANN * 300.0_f64.powi(3) / (2.0 / 0.9 - 1.0);
        let of = |width: f64| Gap { width, emissivity: 0.9 }.conductance(300.0, 0.03, -27.0);
        assert!((of(0.15) - radiation - 2.19).abs() < 1e-9);
        assert!((of(0.006) - radiation - 5.0).abs() < 1e-9);
    }

    /// The difference across the gap and those across both halves around it add up to the whole.
    #[test]
    fn the_gap_takes_its_share_of_the_difference_between_nodes() {
        let placed =
            PlacedGap { gap: Gap { width: 0.15, emissivity: 0.9 }, link: 0, area: 1.3 };
        let (around, whole) = (0.05, 80.0);
        let flux = whole * placed.conductance((350.0, whole), 0.03, around);
        let across = whole - flux * around;
        let passed = 1.3 * placed.gap.conductance(350.0, 0.03, across) * across;
        assert!((passed / flux - 1.0).abs() < 1e-4, "{passed}, {flux}");
    }
}
