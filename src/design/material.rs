//! Masonry materials: density, conductivity, heat capacity, each with its source.

use super::choices;
use crate::sources::{
    ASHRAE_2013, BRICK_SERVICE, CONCRETE_SERVICE, EN_12524, MATERIAL_FROM_MEMORY,
    REFRACTORY_SERVICE, STAINLESS_SERVICE, STONE_SERVICE, Source, VDI_REFRACTORIES,
};
use crate::units::{ZERO_CELSIUS, kelvin};

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
        /// Dense fireclay brick rich in alumina.
        HighDutyFireclay = "high_duty_fireclay",
        /// Hard limestone.
        Limestone = "limestone",
        /// Sandstone.
        Sandstone = "sandstone",
    }
}

/// Conductivity by temperature, rising (°C, W/mK).
pub type Rows = &'static [(f64, f64)];

/// Dense fireclay brick.
const FIRECLAY: Rows =
    &[(400.0, 1.05), (600.0, 1.10), (800.0, 1.15), (1000.0, 1.18), (1200.0, 1.22)];

/// Dense fireclay brick rich in alumina.
const HIGH_DUTY_FIRECLAY: Rows =
    &[(400.0, 1.20), (600.0, 1.27), (800.0, 1.33), (1000.0, 1.38), (1200.0, 1.42)];

/// Properties of a material near 300 °C, the mean of a wall in a firing. Density and specific heat
/// are held: only the conductivity follows the temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// Thermal conductivity (W/mK).
    pub conductivity: f64,
    /// The same by temperature (°C, W/mK), as printed; empty where one value is all there is.
    pub rows: Rows,
    /// Factor on these rows (–); 1 as printed.
    pub scale: f64,
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
pub const CONCRETE: Properties = Properties {
    conductivity: 2.0,
    rows: &[],
    scale: 1.0,
    density: 2400.0,
    specific_heat: 1000.0,
    source: &EN_12524,
};

/// Vermiculite board on a face of the heater: 0.12-0.20 W/mK, 400-700 kg/m3.
pub const BOARD: Properties = Properties {
    conductivity: 0.16,
    rows: &[],
    scale: 1.0,
    density: 550.0,
    specific_heat: 975.0,
    source: &MATERIAL_FROM_MEMORY,
};

/// Hottest that such a board may get (K).
pub const BOARD_LIMIT: (f64, &Source) = (kelvin(1000.0), &REFRACTORY_SERVICE);

/// Hottest that concrete of a base slab may get for long (K).
pub const CONCRETE_LIMIT: (f64, &Source) = (kelvin(204.0), &CONCRETE_SERVICE);

/// Steel sheet of a connector: density times specific heat (J/m3K), carbon steel from memory.
pub const STEEL_HEAT_CAPACITY: f64 = 7900.0 * 480.0;

impl Properties {
    /// Density times specific heat (J/m3K).
    pub fn volumetric_heat_capacity(&self) -> f64 {
        self.density * self.specific_heat
    }

    /// The same with other conductivity and heat capacity, by a factor each (–).
    #[must_use]
    pub fn scaled(self, conductivity: f64, heat_capacity: f64) -> Self {
        Self {
            conductivity: self.conductivity * conductivity,
            scale: self.scale * conductivity,
            density: self.density * heat_capacity,
            ..self
        }
    }

    /// Conductivity at a temperature (W/mK; K): straight between the rows of the table, constant
    /// outside them.
    pub fn conductivity_at(&self, temperature: f64) -> f64 {
        let printed = conductivity_in(self.rows, temperature);
        printed.map_or(self.conductivity, |value| self.scale * value)
    }
}

/// Conductivity in a table at a temperature (W/mK; K); none where the table is empty.
pub fn conductivity_in(rows: Rows, temperature: f64) -> Option<f64> {
    let celsius = temperature - ZERO_CELSIUS;
    let mut before = rows.first()?;
    for row in rows {
        if celsius < row.0 {
            let share = ((celsius - before.0) / (row.0 - before.0).max(1e-9)).max(0.0);
            return Some(before.1 + share * (row.1 - before.1));
        }
        before = row;
    }
    Some(before.1)
}

impl Material {
    /// Whether it is laid in bricks of a size, and not cast or hewn.
    pub const fn is_brick(self) -> bool {
        matches!(self, Self::Fireclay | Self::HighDutyFireclay | Self::CommonBrick)
    }

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
            Self::HighDutyFireclay => (1.20, 2320.0, 958.0, &VDI_REFRACTORIES),
            Self::Limestone => (1.7, 2200.0, 1000.0, &EN_12524),
            Self::Sandstone => (2.3, 2600.0, 1000.0, &EN_12524),
        };
        let rows: Rows = match self {
            Self::Fireclay => FIRECLAY,
            Self::HighDutyFireclay => HIGH_DUTY_FIRECLAY,
            _ => &[],
        };
        Properties { conductivity, rows, scale: 1.0, density, specific_heat, source }
    }

    /// Hottest that the material may get in use (K), the lower end where a range is known.
    ///
    /// # Source
    ///
    /// Each limit names its own; none was read in a data sheet.
    pub const fn service_temperature(self) -> Option<(f64, &'static Source)> {
        let (celsius, source) = match self {
            Self::Fireclay => (1300.0, &REFRACTORY_SERVICE),
            Self::HighDutyFireclay => (1400.0, &REFRACTORY_SERVICE),
            Self::Castable => (1200.0, &REFRACTORY_SERVICE),
            Self::CommonBrick => (600.0, &BRICK_SERVICE),
            Self::ClayTile => (1000.0, &BRICK_SERVICE),
            Self::Soapstone => (1000.0, &STONE_SERVICE),
            Self::Granite => (300.0, &STONE_SERVICE),
            Self::Limestone | Self::Sandstone => (500.0, &STONE_SERVICE),
            Self::Stainless => (550.0, &STAINLESS_SERVICE),
        };
        Some((kelvin(celsius), source))
    }

    /// Linear expansion (1/K), the upper end of what is known, so that a gap is rather too wide.
    ///
    /// # Source
    ///
    /// [`crate::sources::EXPANSION`].
    pub const fn expansion(self) -> f64 {
        match self {
            Self::Fireclay | Self::HighDutyFireclay => 6e-6,
            Self::CommonBrick => 8e-6,
            Self::Castable | Self::ClayTile => 7e-6,
            Self::Soapstone | Self::Granite | Self::Limestone => 9e-6,
            Self::Sandstone => 12e-6,
            Self::Stainless => 17e-6,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn conductivity_is_straight_between_rows_and_constant_outside() {
        let brick = Material::Fireclay.properties();
        for (celsius, expected) in
            [(-50.0, 1.05), (400.0, 1.05), (500.0, 1.075), (1200.0, 1.22), (2000.0, 1.22)]
        {
            let found = brick.conductivity_at(kelvin(celsius));
            assert!((found - expected).abs() < 1e-12, "{celsius} °C: {found}");
        }
        let stone = Material::Granite.properties();
        assert!((stone.conductivity_at(kelvin(900.0)) - 2.8).abs() < 1e-12);
    }

    #[test]
    fn tables_rise_with_temperature() {
        for material in Material::ALL {
            let rows = material.properties().rows;
            assert!(rows.windows(2).all(|pair| pair[0].0 < pair[1].0), "{material:?}");
            assert!(material.service_temperature().is_some_and(|(limit, _)| limit > 500.0));
        }
    }
}
