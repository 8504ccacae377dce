//! Standing pressure, friction and turns of the route, stretch by stretch.

use super::gas::{ROUTE_GRAVITY, air_density, gas_density, gas_volume_flow, run_temperature};
use crate::units::in_celsius;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Loss coefficients by the angle of a turn (degrees). A reversal of 180 degrees is two turns of
/// 90.
const TURNS: [(f64, f64); 7] =
    [(0.0, 0.0), (10.0, 0.1), (30.0, 0.2), (45.0, 0.4), (60.0, 0.8), (90.0, 1.2), (180.0, 2.4)];

/// Pull of a column of gas (Pa), negative where it falls.
///
/// p_h = g H (rho_L - rho_G)
///
/// * `rise` (m): signed.
/// * `air_density`, `gas_density` (kg/m3).
///
/// # Source
///
/// [`crate::sources::EN_15544_PRESSURE`].
pub fn standing_pressure(rise: f64, air_density: f64, gas_density: f64) -> f64 {
    ROUTE_GRAVITY * rise * (air_density - gas_density)
}

/// Dynamic pressure (Pa).
///
/// p_d = rho v2 / 2
///
/// * `density` (kg/m3), `velocity` (m/s).
///
/// # Source
///
/// [`crate::sources::EN_15544_PRESSURE`].
pub fn dynamic_pressure(density: f64, velocity: f64) -> f64 {
    0.5 * density * velocity * velocity
}

/// Friction factor of the fully rough law (–).
///
/// f = 1 / (1.14 + 2 log10(D/k))^2
///
/// * `hydraulic_diameter` (m): 4 A/U.
/// * `roughness` (m): mean; above 0.
///
/// # Source
///
/// [`crate::sources::EN_15544_PRESSURE`].
pub fn friction_factor_rough(hydraulic_diameter: f64, roughness: f64) -> f64 {
    let root = 1.14 + 2.0 * libm::log10(hydraulic_diameter / roughness);
    1.0 / (root * root)
}

/// Loss coefficient of a turn (–): table, linear between its rows.
///
/// * `angle_degrees`: 0 to 180.
///
/// # Source
///
/// [`crate::sources::EN_15544_TURN_TABLE`].
pub fn turn_coefficient(angle_degrees: f64) -> f64 {
    let mut coefficient = 0.0;
    for ((low, at_low), (high, at_high)) in TURNS.into_iter().zip(TURNS.into_iter().skip(1)) {
        let share = ((angle_degrees - low) / (high - low)).clamp(0.0, 1.0);
        coefficient += share * (at_high - at_low);
    }
    coefficient
}

/// Loss coefficient of two turns in the same sense with a straight between them (–).
///
/// From one turn of both angles at no length to the sum of the two at one hydraulic diameter,
/// linear.
///
/// * `first_degrees`, `second_degrees`: together 0 to 180.
/// * `straight_over_diameter` (–): length over hydraulic diameter.
///
/// # Source
///
/// [`crate::sources::EN_15544_TURN_TABLE`].
pub fn pair_coefficient(
    first_degrees: f64,
    second_degrees: f64,
    straight_over_diameter: f64,
) -> f64 {
    let one = turn_coefficient(first_degrees + second_degrees);
    let both = turn_coefficient(first_degrees) + turn_coefficient(second_degrees);
    one + (both - one) * straight_over_diameter.clamp(0.0, 1.0)
}

/// What a segment of the route is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Part {
    /// Firebox, up or down to the axis of the first run.
    Firebox,
    /// A run, in flow order.
    Run,
    /// Rise or fall from one run to the next.
    Rise,
    /// Connector.
    Connector,
    /// Chimney indoors.
    ChimneyIndoors,
    /// Chimney outdoors.
    ChimneyOutdoors,
}

/// Section of a duct.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Section {
    /// Free area (m2).
    pub area: f64,
    /// Hydraulic diameter (m).
    pub hydraulic_diameter: f64,
    /// Mean roughness (m).
    pub roughness: f64,
}

/// A straight piece of the way with the turn into it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// What it is.
    pub part: Part,
    /// Length (m).
    pub length: f64,
    /// Rise (m), negative downward.
    pub rise: f64,
    /// Its section.
    pub section: Section,
    /// Loss coefficient of the turn into it (–).
    pub coefficient: f64,
    /// Narrower area of the two that the turn joins (m2).
    pub turn_area: f64,
}

/// Charge and surroundings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Moist wood of one firing (kg).
    pub charge: f64,
    /// Height above the sea (m).
    pub altitude: f64,
    /// Air outdoors (K).
    pub outdoor_temperature: f64,
    /// Shortest path of the charge (m).
    pub shortest_path: f64,
}

/// One straight piece of the way after the route.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RouteSegment {
    /// What it is.
    pub part: Part,
    /// Length (m).
    #[serde(rename = "length_m")]
    pub length: f64,
    /// Gas where it enters (K in memory, °C in files).
    #[serde(rename = "inlet_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub inlet: f64,
    /// Gas that stands for the whole (K in memory, °C in files): in the runs at their middle.
    #[serde(rename = "mean_celsius", with = "in_celsius")]
    #[schemars(with = "f64")]
    pub mean: f64,
    /// Speed at that temperature (m/s).
    #[serde(rename = "velocity_m_per_s")]
    pub velocity: f64,
    /// Density at that temperature (kg/m3).
    #[serde(rename = "density_kg_per_m3")]
    pub density: f64,
    /// Wall friction (Pa).
    #[serde(rename = "friction_pascals")]
    pub friction: f64,
    /// Loss of the turn into it (Pa), at the temperature where gas enters.
    #[serde(rename = "turn_pascals")]
    pub turn: f64,
    /// Pull of its column of gas (Pa), negative where it falls.
    #[serde(rename = "standing_pascals")]
    pub standing: f64,
}

impl Setting {
    /// A stretch between two temperatures (K).
    ///
    /// v = V / A, p_R = f p_d L / D, p_u = zeta p_d
    ///
    /// # Source
    ///
    /// [`crate::sources::EN_15544_PRESSURE`].
    pub fn segment(&self, stretch: &Stretch, inlet: f64, mean: f64) -> RouteSegment {
        let Section { area, hydraulic_diameter, roughness } = stretch.section;
        let velocity = self.velocity(area, mean);
        let density = gas_density(mean, self.altitude);
        let factor = friction_factor_rough(hydraulic_diameter, roughness);
        let at_turn = dynamic_pressure(
            gas_density(inlet, self.altitude),
            self.velocity(stretch.turn_area, inlet),
        );
        let outside = air_density(self.outdoor_temperature, self.altitude);
        RouteSegment {
            part: stretch.part,
            length: stretch.length,
            inlet,
            mean,
            velocity,
            density,
            friction: factor * dynamic_pressure(density, velocity) * stretch.length
                / hydraulic_diameter,
            turn: stretch.coefficient * at_turn,
            standing: standing_pressure(stretch.rise, outside, density),
        }
    }

    /// Gas through an area (m/s).
    fn velocity(&self, area: f64, temperature: f64) -> f64 {
        gas_volume_flow(self.charge, temperature, self.altitude) / area
    }

    /// The runs with the rises between them: friction and pull at the middle of each stretch,
    /// its turn where it begins.
    pub fn runs(&self, stretches: &[Stretch]) -> Vec<RouteSegment> {
        let mut from = 0.0;
        let at = |length: f64| run_temperature(length, self.shortest_path);
        stretches
            .iter()
            .map(|stretch| {
                let segment = self.segment(stretch, at(from), at(from + 0.5 * stretch.length));
                from += stretch.length;
                segment
            })
            .collect()
    }
}

/// Whether standing pressure and resistance meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PressureCondition {
    /// The pull is less than the resistance.
    TooLittle,
    /// The pull lies between the resistance and 5 % more.
    Met,
    /// The pull is more than 5 % above the resistance: the chimney wants a damper or a
    /// narrower way.
    TooMuch,
}

/// Pressure condition: resistance <= pull <= 1.05 resistance (Pa).
///
/// # Source
///
/// [`crate::sources::EN_15544_PRESSURE`].
pub fn pressure_condition(standing: f64, resistance: f64) -> PressureCondition {
    if standing < resistance {
        PressureCondition::TooLittle
    } else if standing <= 1.05 * resistance {
        PressureCondition::Met
    } else {
        PressureCondition::TooMuch
    }
}
