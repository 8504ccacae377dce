//! The published sizing route for one-off heaters, after EN 15544 (from memory where marked), in
//! full beside the physical model.
//!
//! It knows charge, length and sections, and no walls; its flow, its temperatures and its
//! efficiency are lines. Nothing is judged by its efficiency. Each formula names its source, and
//! `crate::sources` says which of them stand only in memory, and how surely.
//!
//! What the route as known here leaves open is taken from the design: air outdoors and in the
//! room, roughness, loss coefficients of air inlet and mouth. Connector and chimney cool after
//! EN 13384-1 (from memory), part by part; their friction is the route's.

pub mod cooling;
pub mod gas;
pub mod limits;
pub mod pressure;
pub mod sizes;
pub mod way;

pub use sizes::{
    AIR_GAP, bleed_area, firebox_surface, least_firebox_base, least_firebox_height,
    shortest_path,
};

use crate::analysis::path::Path;
use crate::design::Design;
use crate::physics::wood::flue_gas;
use crate::sources::{self, Source};
use crate::units::{in_celsius, kelvin};
use limits::{LEAST_EFFICIENCY, UnmetLimit};
use pressure::{
    Part, PressureCondition, RouteSegment, Setting, dynamic_pressure, pressure_condition,
    standing_pressure,
};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Least inner wall surface at the mouth (°C).
///
/// # Source
///
/// [`crate::sources::EN_15544_DEW_POINT`].
pub const LEAST_MOUTH_WALL_CELSIUS: f64 = 45.0;

/// Where the route comes from; its limits name their own.
pub const SOURCES: [&Source; 17] = [
    &sources::EN_15544_OUTPUT,
    &sources::EN_15544_OUTPUT_2023,
    &sources::EN_15544_LEAST_CHARGE,
    &sources::EN_15544_SIZES,
    &sources::EN_15544_LARGEST_BASE,
    &sources::EN_15544_FACTOR,
    &sources::EN_15544_BLEED,
    &sources::EN_15544_FLOW,
    &sources::EN_15544_TEMPERATURE,
    &sources::EN_15544_PRESSURE,
    &sources::EN_15544_TURN_TABLE,
    &sources::EN_15544_DEW_POINT,
    &sources::EN_15544_EFFICIENCY,
    &sources::EN_13384_COOLING,
    &sources::EN_13384_FILMS,
    &sources::ROUGHNESS,
    &sources::ROUTE_HEAT_CAPACITY,
];

/// What the route asks of the firebox.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RouteFirebox {
    /// Inner surface, door and gas exit counted in (m2).
    #[serde(rename = "surface_m2")]
    pub surface: f64,
    /// Smallest base (m2).
    #[serde(rename = "least_base_m2")]
    pub least_base: f64,
    /// Largest base with the perimeter of the design (m2); below 0 where none is possible.
    #[serde(rename = "largest_base_m2")]
    pub largest_base: f64,
    /// Smallest height (m).
    #[serde(rename = "least_height_m")]
    pub least_height: f64,
    /// Height at which the base of the design has the surface asked for (m).
    #[serde(rename = "height_m")]
    pub height: f64,
}

/// What pulls and what holds back after the route.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RoutePressure {
    /// What pulls, signed (Pa).
    #[serde(rename = "standing_pascals")]
    pub standing: f64,
    /// What holds back: friction, turns, air inlet and mouth (Pa).
    #[serde(rename = "resistance_pascals")]
    pub resistance: f64,
    /// Of that, the air inlet (Pa).
    #[serde(rename = "inlet_pascals")]
    pub inlet: f64,
    /// Of that, the mouth (Pa).
    #[serde(rename = "mouth_pascals")]
    pub mouth: f64,
    /// Whether pull and resistance meet within 5 %.
    pub condition: PressureCondition,
}

/// The mouth of the chimney after the route.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RouteMouth {
    /// Gas (K in memory, °C in files).
    #[serde(rename = "gas_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub gas: f64,
    /// Inner wall surface (K in memory, °C in files).
    #[serde(rename = "wall_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub wall: f64,
    /// Whether that wall reaches 45 °C, the dew-point condition.
    pub dew_point_condition_met: bool,
}

/// The sizing route for a design.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StandardRoute {
    /// Time over which one charge heats (s).
    #[serde(rename = "heating_period_s")]
    pub heating_period: f64,
    /// Nominal output at the fixed efficiency of 78 % (W).
    #[serde(rename = "nominal_output_watts")]
    pub nominal_output: f64,
    /// Nominal output at the efficiency of the route (W).
    #[serde(rename = "nominal_output_at_efficiency_watts")]
    pub nominal_output_at_efficiency: f64,
    /// Smallest charge (kg).
    #[serde(rename = "least_charge_kg")]
    pub least_charge: f64,
    /// What it asks of the firebox.
    pub firebox: RouteFirebox,
    /// Length of runs and of the rises between them (m).
    #[serde(rename = "path_length_m")]
    pub path_length: f64,
    /// Shortest path of the charge (m).
    #[serde(rename = "shortest_path_m")]
    pub shortest_path: f64,
    /// Path at which the route gives just its least efficiency of 78 % (m).
    #[serde(rename = "path_of_least_efficiency_m")]
    pub path_of_least_efficiency: f64,
    /// Slot from the top of the firebox to the chimney (m2).
    #[serde(rename = "bleed_area_m2")]
    pub bleed_area: f64,
    /// Wood burned (kg/s).
    #[serde(rename = "burning_rate_kg_per_s")]
    pub burning_rate: f64,
    /// Combustion air at room temperature (m3/s).
    #[serde(rename = "air_flow_m3_per_s")]
    pub air_flow: f64,
    /// Speed of that air in the inlet (m/s).
    #[serde(rename = "air_velocity_m_per_s")]
    pub air_velocity: f64,
    /// Gas (kg/s).
    #[serde(rename = "gas_flow_kg_per_s")]
    pub gas_flow: f64,
    /// Air over the stoichiometric air of the wood of the design (–).
    pub excess_air_ratio: f64,
    /// Gas where it leaves the runs (K in memory, °C in files).
    #[serde(rename = "runs_outlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub runs_outlet: f64,
    /// Efficiency (–). No verdict rests on it.
    #[serde(rename = "efficiency_fraction")]
    pub efficiency: f64,
    /// From the firebox to the mouth.
    pub segments: Vec<RouteSegment>,
    /// What pulls and what holds back.
    pub pressure: RoutePressure,
    /// The mouth of the chimney.
    pub mouth: RouteMouth,
    /// Limits of the route that the design does not keep.
    pub unmet: Vec<UnmetLimit>,
}

/// Computes the route for a design and its path.
pub fn standard_route(design: &Design, path: &Path) -> StandardRoute {
    let charge = design.fire.charge;
    let site = &design.site;
    let setting = Setting {
        charge,
        altitude: site.altitude,
        outdoor_temperature: site.outdoor_temperature,
        shortest_path: shortest_path(charge, design.shell.gap),
    };
    let heating_period = sizes::heating_period(design.fire.firings_per_day);
    let runs_outlet = gas::run_temperature(path.length, setting.shortest_path);
    let efficiency = gas::efficiency(runs_outlet);
    let base_factor = sizes::base_factor(design.shell.gap);
    let air_flow = gas::air_volume_flow(charge, site.room_temperature, site.altitude);
    let outlet = way::outlet(design, path, &setting, runs_outlet);
    let mut segments = vec![firebox_segment(design, path, &setting)];
    segments.extend(setting.runs(&way::runs(design, path)));
    segments.extend(outlet.segments);
    let mut route = StandardRoute {
        heating_period,
        nominal_output: sizes::nominal_output(charge, heating_period),
        nominal_output_at_efficiency: sizes::nominal_output_at(
            charge,
            heating_period,
            efficiency,
        ),
        least_charge: sizes::least_charge(charge),
        firebox: route_firebox(design),
        path_length: path.length,
        shortest_path: setting.shortest_path,
        path_of_least_efficiency: sizes::length_factor(LEAST_EFFICIENCY, base_factor)
            * charge.sqrt(),
        bleed_area: bleed_area(charge),
        burning_rate: gas::burning_rate(charge),
        air_flow,
        air_velocity: air_flow / design.firebox.inlet_area,
        gas_flow: gas::gas_mass_flow(charge),
        excess_air_ratio: excess_air_ratio(design),
        runs_outlet,
        efficiency,
        pressure: pressures(design, &segments, outlet.mouth_gas),
        segments,
        mouth: RouteMouth {
            gas: outlet.mouth_gas,
            wall: outlet.mouth_wall,
            dew_point_condition_met: kelvin(LEAST_MOUTH_WALL_CELSIUS) <= outlet.mouth_wall,
        },
        unmet: Vec::new(),
    };
    route.unmet = limits::unmet(design, &route);
    route
}

fn route_firebox(design: &Design) -> RouteFirebox {
    let charge = design.fire.charge;
    let firebox = &design.firebox;
    let perimeter = 2.0 * (firebox.width + firebox.depth);
    RouteFirebox {
        surface: firebox_surface(charge),
        least_base: least_firebox_base(charge),
        largest_base: sizes::largest_firebox_base(charge, perimeter),
        least_height: least_firebox_height(charge),
        height: sizes::firebox_height(charge, firebox.width * firebox.depth, perimeter),
    }
}

/// Sums over the segments, with air inlet and mouth at the loss coefficients of the design.
fn pressures(design: &Design, segments: &[RouteSegment], mouth_gas: f64) -> RoutePressure {
    let Design { site, fire, firebox, chimney, .. } = design;
    let loss = |coefficient: f64, density: f64, flow: f64, area: f64| {
        coefficient * dynamic_pressure(density, flow / area)
    };
    let inlet = loss(
        firebox.inlet_coefficient,
        gas::air_density(site.room_temperature, site.altitude),
        gas::air_volume_flow(fire.charge, site.room_temperature, site.altitude),
        firebox.inlet_area,
    );
    let mouth = loss(
        chimney.mouth_coefficient,
        gas::gas_density(mouth_gas, site.altitude),
        gas::gas_volume_flow(fire.charge, mouth_gas, site.altitude),
        chimney.area(),
    );
    let standing = segments.iter().map(|segment| segment.standing).sum();
    let held: f64 = segments.iter().map(|segment| segment.friction + segment.turn).sum();
    let resistance = held + inlet + mouth;
    RoutePressure {
        standing,
        resistance,
        inlet,
        mouth,
        condition: pressure_condition(standing, resistance),
    }
}

/// Air of the route per wood that it burns, over the stoichiometric air of the design's wood (–).
fn excess_air_ratio(design: &Design) -> f64 {
    let fire = &design.fire;
    let air = gas::air_mass_flow(fire.charge) / gas::burning_rate(fire.charge);
    air / flue_gas(&fire.species.ultimate(), fire.moisture_fraction, 1.0).air_per_fuel
}

/// The column of the firebox to the axis of the first run at 700 °C, without resistance.
fn firebox_segment(design: &Design, path: &Path, setting: &Setting) -> RouteSegment {
    let firebox = &design.firebox;
    let temperature = kelvin(gas::FIREBOX_CELSIUS);
    let rise = firebox.height + path.segments.first().map_or(0.0, |segment| segment.rise);
    let density = gas::gas_density(temperature, setting.altitude);
    let outside = gas::air_density(setting.outdoor_temperature, setting.altitude);
    let flow = gas::gas_volume_flow(setting.charge, temperature, setting.altitude);
    RouteSegment {
        part: Part::Firebox,
        length: rise.abs(),
        inlet: temperature,
        mean: temperature,
        velocity: flow / (firebox.width * firebox.depth),
        density,
        friction: 0.0,
        turn: 0.0,
        standing: standing_pressure(rise, outside, density),
    }
}
