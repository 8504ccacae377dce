//! Masonry materials: density, conductivity, heat capacity, each with its source.

use super::choices;
use crate::sources::{ASHRAE_2013, EN_12524, MATERIAL_FROM_MEMORY, Source, VDI_REFRACTORIES};

choices! {
    /// A material of core, facing or flue.
    Material {
        /// Dense fireclay brick.
        Fireclay = "fireclay",
        /// Common red clay brick.
        CommonBrick = "common_brick",
        /// Soapstone.
        Soapstone = "soapstone",
        /// Refractory concrete.
        Castable = "castable",
        /// Granite and other crystalline stone.
        Granite = "granite",
        /// Clay tile, also as a flue liner.
        ClayTile = "clay_tile",
        /// Stainless steel.
        Stainless = "stainless",
    }
}

/// Properties of a material near 300 °C, the mean of a wall in a firing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// Thermal conductivity (W/mK).
    pub conductivity: f64,
    /// Density (kg/m3).
    pub density: f64,
    /// Specific heat capacity (J/kgK).
    pub specific_heat: f64,
    /// Where the values come from.
    pub source: &'static Source,
}

/// Conductivity of mineral wool around a warm flue (W/mK): between the cold value 0.04 and the
/// hot value 0.10 at 300 °C, from memory.
pub const MINERAL_WOOL_CONDUCTIVITY: f64 = 0.06;

/// Density of mineral wool around a flue (kg/m3), from memory.
pub const MINERAL_WOOL_DENSITY: f64 = 100.0;

/// Mineral wool around a flue: density times specific heat of 1030 J/kgK (J/m3K).
pub const MINERAL_WOOL_HEAT_CAPACITY: f64 = MINERAL_WOOL_DENSITY * 1030.0;

/// Concrete of high density, as in a base slab.
pub const CONCRETE: Properties =
    Properties { conductivity: 2.0, density: 2400.0, specific_heat: 1000.0, source: &EN_12524 };

/// Steel sheet of a connector: density times specific heat (J/m3K), carbon steel from memory.
pub const STEEL_HEAT_CAPACITY: f64 = 7900.0 * 480.0;

impl Properties {
    /// Density times specific heat (J/m3K).
    pub fn volumetric_heat_capacity(&self) -> f64 {
        self.density * self.specific_heat
    }
}

impl Material {
    /// Properties near 300 °C; the first row of a table that begins at 400 °C.
    ///
    /// # Source
    ///
    /// Each material names its own.
    pub const fn properties(self) -> Properties {
        let (conductivity, density, specific_heat, source) = match self {
            Self::Fireclay => (1.05, 2150.0, 956.0, &VDI_REFRACTORIES),
            Self::CommonBrick => (0.78, 1760.0, 800.0, &ASHRAE_2013),
            Self::Soapstone => (3.3, 2980.0, 1000.0, &MATERIAL_FROM_MEMORY),
            Self::Castable => (1.05, 2150.0, 970.0, &MATERIAL_FROM_MEMORY),
            Self::Granite => (2.8, 2600.0, 1000.0, &EN_12524),
            Self::ClayTile => (1.0, 2000.0, 800.0, &EN_12524),
            Self::Stainless => (17.0, 7900.0, 480.0, &EN_12524),
        };
        Properties { conductivity, density, specific_heat, source }
    }

    /// Linear expansion (1/K), the upper end of what is known, so that a gap is rather too wide.
    ///
    /// # Source
    ///
    /// [`crate::sources::EXPANSION`].
    pub const fn expansion(self) -> f64 {
        match self {
            Self::Fireclay => 6e-6,
            Self::CommonBrick => 8e-6,
            Self::Castable | Self::ClayTile => 7e-6,
            Self::Soapstone | Self::Granite => 9e-6,
            Self::Stainless => 17e-6,
        }
    }
}
