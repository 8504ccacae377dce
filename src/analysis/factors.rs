//! How far formulas and table values that are no input may be off.

/// Factors on what the analysis takes as known; all 1 when it is taken as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Factors {
    /// On the convective film between gas and walls, in runs, connector and flue.
    pub convection: f64,
    /// On emissivity and absorptivity of the gas there.
    pub gas_radiation: f64,
    /// On the conductivity of the core.
    pub core_conductivity: f64,
    /// On the heat capacity of the core by volume.
    pub core_heat_capacity: f64,
    /// On the conductivity of the flue's wall and of the wool around it.
    pub flue_conductivity: f64,
    /// On the film outside connector and chimney.
    pub outside_film: f64,
    /// On the wood that a kindling fire burns.
    pub kindling_rate: f64,
    /// On the excess air of a kindling fire.
    pub kindling_excess_air: f64,
}

impl Factors {
    /// Everything as it stands.
    pub const NOMINAL: Self = Self {
        convection: 1.0,
        gas_radiation: 1.0,
        core_conductivity: 1.0,
        core_heat_capacity: 1.0,
        flue_conductivity: 1.0,
        outside_film: 1.0,
        kindling_rate: 1.0,
        kindling_excess_air: 1.0,
    };
}

impl Default for Factors {
    fn default() -> Self {
        Self::NOMINAL
    }
}
