//! Limits within which the route holds, and those that a design does not keep.

use super::StandardRoute;
use super::pressure::Part;
use crate::design::Design;
use crate::sources::{
    EN_15544_AIR, EN_15544_BASE, EN_15544_CHARGE, EN_15544_EFFICIENCY, EN_15544_FIRECLAY,
    EN_15544_GLASS, EN_15544_LARGEST_BASE, EN_15544_MOISTURE, EN_15544_PERIOD, EN_15544_SIZES,
    EN_15544_SPEED, Source,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::ops::RangeInclusive;

/// Charges (kg).
const CHARGE: RangeInclusive<f64> = 10.0..=40.0;
/// Water over moist mass (–).
const MOISTURE: RangeInclusive<f64> = 0.12..=0.20;
/// Heating period (s): 8 to 24 h.
const PERIOD: RangeInclusive<f64> = 28_800.0..=86_400.0;
/// Density of the fireclay (kg/m3), edition of 2023.
const DENSITY: RangeInclusive<f64> = 1750.0..=2300.0;
/// Conductivity of the fireclay (W/mK), edition of 2023.
const CONDUCTIVITY: RangeInclusive<f64> = 0.90..=1.35;
/// Combustion air where it enters (m/s).
const AIR_SPEED: RangeInclusive<f64> = 2.0..=4.0;
/// Gas in the runs (m/s).
const RUN_SPEED: RangeInclusive<f64> = 1.2..=6.0;
/// Most glass over the surface of the chamber (–), edition of 2023.
const GLASS: f64 = 0.2;
/// Longest side of the base over the other (–).
const BASE_RATIO: f64 = 2.0;
/// Least width of the base (m).
const BASE_WIDTH: f64 = 0.23;
/// Least efficiency (–), edition of 2009.
pub const LEAST_EFFICIENCY: f64 = 0.78;

/// A limit of the route. Its name in files carries the unit of its figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum Limit {
    /// Moist wood of one firing.
    #[serde(rename = "charge_kg")]
    Charge,
    /// Water over moist mass.
    #[serde(rename = "moisture_fraction")]
    Moisture,
    /// Time over which one charge heats.
    #[serde(rename = "heating_period_s")]
    HeatingPeriod,
    /// Density of the core.
    #[serde(rename = "core_density_kg_per_m3")]
    CoreDensity,
    /// Conductivity of the core.
    #[serde(rename = "core_conductivity_w_per_m_k")]
    CoreConductivity,
    /// Glass over the surface of the firebox.
    #[serde(rename = "glass_fraction")]
    Glass,
    /// Combustion air where it enters.
    #[serde(rename = "air_velocity_m_per_s")]
    AirVelocity,
    /// Inner surface of the firebox.
    #[serde(rename = "firebox_surface_m2")]
    FireboxSurface,
    /// Base of the firebox.
    #[serde(rename = "firebox_base_m2")]
    FireboxBase,
    /// Height of the firebox.
    #[serde(rename = "firebox_height_m")]
    FireboxHeight,
    /// Longer side of the base over the other.
    #[serde(rename = "base_ratio")]
    BaseRatio,
    /// Shorter side of the base.
    #[serde(rename = "base_width_m")]
    BaseWidth,
    /// Length of the smoke path.
    #[serde(rename = "path_length_m")]
    PathLength,
    /// Gas in the slowest or fastest run.
    #[serde(rename = "run_velocity_m_per_s")]
    RunVelocity,
    /// Efficiency of the route.
    #[serde(rename = "efficiency_fraction")]
    Efficiency,
}

/// Side of a limit on which a figure may lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Bound {
    /// It must reach the limit.
    AtLeast,
    /// It must not pass the limit.
    AtMost,
}

/// A limit that a design does not keep.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct UnmetLimit {
    /// Which one; its name carries the unit of both figures.
    pub limit: Limit,
    /// What the design has.
    pub found: f64,
    /// What the route asks for.
    pub asked: f64,
    /// On which side of it the figure must lie.
    pub bound: Bound,
}

impl Limit {
    /// Where the limit comes from, and how far that was checked.
    pub const fn source(self) -> &'static Source {
        match self {
            Self::Charge => &EN_15544_CHARGE,
            Self::Moisture => &EN_15544_MOISTURE,
            Self::HeatingPeriod => &EN_15544_PERIOD,
            Self::CoreDensity | Self::CoreConductivity => &EN_15544_FIRECLAY,
            Self::Glass => &EN_15544_GLASS,
            Self::AirVelocity => &EN_15544_AIR,
            Self::FireboxSurface | Self::FireboxHeight | Self::PathLength => &EN_15544_SIZES,
            Self::FireboxBase => &EN_15544_LARGEST_BASE,
            Self::BaseRatio | Self::BaseWidth => &EN_15544_BASE,
            Self::RunVelocity => &EN_15544_SPEED,
            Self::Efficiency => &EN_15544_EFFICIENCY,
        }
    }

    /// What keeps a figure from lying within a range.
    fn within(self, found: f64, range: &RangeInclusive<f64>) -> Option<UnmetLimit> {
        self.at_least(found, *range.start()).or_else(|| self.at_most(found, *range.end()))
    }

    fn at_least(self, found: f64, asked: f64) -> Option<UnmetLimit> {
        let unmet = UnmetLimit { limit: self, found, asked, bound: Bound::AtLeast };
        (found < asked * (1.0 - SLACK)).then_some(unmet)
    }

    fn at_most(self, found: f64, asked: f64) -> Option<UnmetLimit> {
        let unmet = UnmetLimit { limit: self, found, asked, bound: Bound::AtMost };
        (asked * (1.0 + SLACK) < found).then_some(unmet)
    }
}

/// Rounding of inputs that lie on a limit (–).
const SLACK: f64 = 1e-9;

/// The limits that a design does not keep.
///
/// Log size, porosity of the fireclay and height of the air opening above the floor are no inputs.
pub(super) fn unmet(design: &Design, route: &StandardRoute) -> Vec<UnmetLimit> {
    let core = design.shell.core_material.properties();
    let fire = &design.fire;
    let firebox = &design.firebox;
    let glass = firebox.door_parts().0 / firebox.surface();
    let speeds = || {
        route.segments.iter().filter(|segment| matches!(segment.part, Part::Run | Part::Rise))
    };
    let slowest = speeds().map(|segment| segment.velocity).fold(f64::INFINITY, f64::min);
    let fastest = speeds().map(|segment| segment.velocity).fold(0.0, f64::max);
    let mut list = vec![
        Limit::Charge.within(fire.charge, &CHARGE),
        Limit::Moisture.within(fire.moisture_fraction, &MOISTURE),
        Limit::HeatingPeriod.within(route.heating_period, &PERIOD),
        Limit::CoreDensity.within(core.density, &DENSITY),
        Limit::CoreConductivity.within(core.conductivity, &CONDUCTIVITY),
        Limit::Glass.at_most(glass, GLASS),
        Limit::AirVelocity.within(route.air_velocity, &AIR_SPEED),
    ];
    list.extend(firebox_limits(design, route));
    list.extend([
        Limit::PathLength.at_least(route.path_length, route.shortest_path),
        Limit::RunVelocity.at_least(slowest, *RUN_SPEED.start()),
        Limit::RunVelocity.at_most(fastest, *RUN_SPEED.end()),
        Limit::Efficiency.at_least(route.efficiency, LEAST_EFFICIENCY),
    ]);
    list.into_iter().flatten().collect()
}

fn firebox_limits(design: &Design, route: &StandardRoute) -> [Option<UnmetLimit>; 6] {
    let firebox = &design.firebox;
    let base = firebox.width * firebox.depth;
    let shorter = firebox.width.min(firebox.depth);
    let longer = firebox.width.max(firebox.depth);
    let asked = &route.firebox;
    [
        Limit::FireboxSurface.at_least(firebox.surface(), asked.surface),
        Limit::FireboxBase.at_least(base, asked.least_base),
        Limit::FireboxBase.at_most(base, asked.largest_base),
        Limit::FireboxHeight.at_least(firebox.height, asked.least_height),
        Limit::BaseRatio.at_most(longer / shorter, BASE_RATIO),
        Limit::BaseWidth.at_least(shorter, BASE_WIDTH),
    ]
}
