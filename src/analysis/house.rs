//! The heater in its house: whether it covers the loss, the wood that would, how warm the room may
//! get, what the house itself pulls.

use super::HeightOfFire;
use super::day::DayState;
use crate::design::Design;
use crate::physics::air;
use crate::physics::house::{
    DAY, charge_for, firings_for, heat_of_a_day, house_after, house_loss, room_rise, wood_heat,
};
use crate::physics::pressure::column_pull;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Time constants of houses (s): light, middle, heavy. Rough.
///
/// # Source
///
/// [`crate::sources::HOUSE_TIME_CONSTANT`].
pub const TIME_CONSTANTS: [f64; 3] = [30.0 * 3600.0, 70.0 * 3600.0, 150.0 * 3600.0];

/// Height of the neutral level over that of the house (–): of a shell that leaks evenly.
///
/// # Source
///
/// [`crate::sources::NEUTRAL_LEVEL`].
pub const NEUTRAL_LEVEL: f64 = 0.5;

/// Heat of the heater against the loss of the house at the design temperature.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct House {
    /// Useful heat of all firings of a day, as a mean (W): charge x firings x efficiency.
    #[serde(rename = "mean_output_watts")]
    pub mean_output: f64,
    /// Loss of the house at the outdoor temperature of the design (W).
    #[serde(rename = "design_loss_watts")]
    pub design_loss: f64,
    /// Heat that the house needs in such a day (J).
    #[serde(rename = "day_need_joules")]
    pub day_need: f64,
    /// Efficiency that was reckoned with, on the lower heating value (–).
    pub efficiency_lower: f64,
    /// Charge that covers the day with the stated number of firings (kg); none where nothing is
    /// useful of the wood.
    #[serde(rename = "charge_that_covers_kg")]
    pub charge_that_covers: Option<f64>,
    /// Firings of the stated charge that cover the day, not rounded (–).
    pub firings_that_cover: Option<f64>,
}

/// The heater in its house at an efficiency (–): that of the height of the fire, or of the day.
pub fn house(design: &Design, fire: &HeightOfFire, efficiency: f64) -> House {
    let site = &design.site;
    let value = fire.lower_heating_value;
    let firings = design.fire.firings_per_day;
    let design_loss =
        house_loss(site.heat_loss, site.room_temperature, site.outdoor_temperature);
    let day_need = heat_of_a_day(design_loss);
    let useful = 0.0 < efficiency && 0.0 < value;
    House {
        mean_output: wood_heat(firings, fire.charge, value, efficiency) / DAY,
        design_loss,
        day_need,
        efficiency_lower: efficiency,
        charge_that_covers: useful.then(|| charge_for(day_need, firings, value, efficiency)),
        firings_that_cover: useful
            .then(|| firings_for(day_need, fire.charge, value, efficiency)),
    }
}

/// How warm the house may get: a first estimate. The house is taken as one body that keeps what the
/// heater gives beyond the loss. Air warms more than walls, most of all near the heater; sun, people
/// and appliances come on top.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Overheating {
    /// Outdoors (K in memory, °C in files).
    #[serde(rename = "outdoor_celsius", with = "crate::units::in_celsius")]
    #[schemars(with = "f64")]
    pub outdoors: f64,
    /// Most heat from the heater to the room (W).
    #[serde(rename = "peak_watts")]
    pub peak: f64,
    /// Loss of the house (W).
    #[serde(rename = "loss_watts")]
    pub loss: f64,
    /// Heat given at a stretch while it is more than the loss, beyond that; the most of a day (J).
    #[serde(rename = "surplus_joules")]
    pub surplus: f64,
    /// Rise of a light, a middle and a heavy house (K); none of a house without loss.
    #[serde(rename = "rises_kelvin")]
    pub rises: Option<[f64; 3]>,
}

/// How warm the house may get by a state of the day, outdoors at a temperature (K).
pub fn overheating(design: &Design, day: &DayState, outdoors: f64) -> Overheating {
    let site = &design.site;
    let loss = house_loss(site.heat_loss, site.room_temperature, outdoors);
    let series = &day.series;
    let points: Vec<(f64, f64)> = series
        .time_s
        .iter()
        .zip(&series.room_watts)
        .map(|(time, watts)| (*time, watts - loss))
        .collect();
    let surplus = most_above(&points);
    Overheating {
        outdoors,
        peak: day.peak.room_watts,
        loss,
        surplus,
        rises: (0.0 < site.heat_loss).then(|| {
            TIME_CONSTANTS
                .map(|time_constant| room_rise(surplus, site.heat_loss, time_constant))
        }),
    }
}

/// How warm a house gets by the heater alone over a day that repeats, taken as one body (K).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Coldest.
    pub low: f64,
    /// As a mean.
    pub mean: f64,
    /// Warmest.
    pub high: f64,
}

/// The room over the day that repeats, of a light, a middle and a heavy house; none of a house
/// without loss.
pub fn rooms(design: &Design, day: &DayState) -> Option<[Room; 3]> {
    let site = &design.site;
    let series = &day.series;
    let points: Vec<(f64, f64)> =
        series.time_s.iter().copied().zip(series.room_watts.iter().copied()).collect();
    let has_loss = 0.0 < site.heat_loss && 1 < points.len();
    has_loss.then(|| {
        TIME_CONSTANTS.map(|time_constant| {
            let over = over_outdoors(&points, site.heat_loss, time_constant);
            let kelvin = |over: f64| site.outdoor_temperature + over;
            Room { low: kelvin(over.low), mean: kelvin(over.mean), high: kelvin(over.high) }
        })
    })
}

/// How much warmer than outdoors a house is under heat that repeats (s, W), once it repeats itself.
fn over_outdoors(points: &[(f64, f64)], coefficient: f64, time_constant: f64) -> Room {
    let spans = || {
        points.iter().zip(points.iter().skip(1)).map(|((from, a), (to, b))| {
            let (heat, duration) = (0.5 * (a + b), to - from);
            (heat, duration)
        })
    };
    let after = |before: f64, (heat, duration): (f64, f64)| {
        house_after(before, heat, coefficient, time_constant, duration)
    };
    // What a period leaves is what it made and a share of what was there before.
    let made = spans().fold(0.0, after);
    let (heat, period) =
        spans().fold((0.0, 0.0), |sum, (heat, long)| (sum.0 + heat * long, sum.1 + long));
    let start = made / -libm::expm1(-period / time_constant);
    let mut now = start;
    let (mut low, mut high) = (start, start);
    for span in spans() {
        now = after(now, span);
        (low, high) = (low.min(now), high.max(now));
    }
    Room { low, mean: heat / period / coefficient, high }
}

/// The largest integral of what lies above zero at a stretch, straight between the points.
fn most_above(points: &[(f64, f64)]) -> f64 {
    let (mut most, mut stretch) = (0.0_f64, 0.0);
    for ((t0, a), (t1, b)) in points.iter().zip(points.iter().skip(1)) {
        let (low, high) = (a.min(*b), a.max(*b));
        let width = t1 - t0;
        if 0.0 <= low {
            stretch += 0.5 * (low + high) * width;
        } else if 0.0 < high {
            // A triangle, that of the end of one stretch or of the beginning of another.
            let part = 0.5 * high * width * high / (high - low);
            if a < b {
                stretch = part;
            } else {
                most = most.max(stretch + part);
                stretch = 0.0;
            }
        } else {
            stretch = 0.0;
        }
        most = most.max(stretch);
    }
    most
}

/// What the house itself pulls at the floor of the firebox (Pa): its own stack effect, from the
/// height of the roof above that floor. Nothing where no roof is stated.
pub fn own_suction(design: &Design, pressure: f64) -> Option<f64> {
    let height = neutral_height(design)?;
    let site = &design.site;
    let [outdoors, room] = [site.outdoor_temperature, site.room_temperature]
        .map(|temperature| air::density(pressure, temperature));
    Some(column_pull(height, outdoors, room).max(0.0))
}

/// Height of the neutral level above the floor of the firebox (m).
pub fn neutral_height(design: &Design) -> Option<f64> {
    let roof = design.chimney.roof_height;
    (0.0 < roof).then_some(NEUTRAL_LEVEL * roof)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::kelvin;

    #[test]
    fn only_what_lies_above_the_loss_counts() {
        // A triangle of 4 W over 2 s each way, less 2 W: base 2 s, height 2 W, 2 J.
        let points = [(0.0, -2.0), (2.0, 2.0), (4.0, -2.0), (9.0, -2.0)];
        assert!((most_above(&points) - 2.0).abs() < 1e-12);
        assert!(most_above(&points[2..]).abs() < 1e-12);
        // Two such triangles apart do not add up, two that meet above the loss do.
        let apart = [(0.0, -2.0), (2.0, 2.0), (4.0, -2.0), (6.0, 2.0), (8.0, -2.0)];
        assert!((most_above(&apart) - 2.0).abs() < 1e-12);
        let together = [(0.0, -2.0), (2.0, 2.0), (3.0, 0.0), (4.0, 2.0), (6.0, -2.0)];
        assert!((most_above(&together) - 4.0).abs() < 1e-12);
    }

    /// A body of time constant T under heat q + Q sin(w t) swings by Q / (C sqrt(1 + (w T)^2)) about
    /// q / C: the exact solution. Here 2 kW and 1 kW over a day into 100 W/K with 30 h: w T = 7.854.
    #[test]
    fn a_house_swings_as_the_exact_solution() {
        let steps = 2000_u32;
        let point = |step: u32| {
            let share = f64::from(step) / f64::from(steps);
            let heat = 2000.0 + 1000.0 * libm::sin(2.0 * std::f64::consts::PI * share);
            (86_400.0 * share, heat)
        };
        let points: Vec<(f64, f64)> = (0..=steps).map(point).collect();
        let room = over_outdoors(&points, 100.0, 108_000.0);
        let swing = 10.0 / (1.0_f64 + 7.853_982 * 7.853_982).sqrt();
        assert!((room.mean - 20.0).abs() < 1e-6, "{room:?}");
        assert!((room.high - (20.0 + swing)).abs() < 1e-4, "{room:?}");
        assert!((room.low - (20.0 - swing)).abs() < 1e-4, "{room:?}");
    }

    #[test]
    fn the_house_pulls_as_its_height_and_the_cold_make_it() {
        let mut design = Design::demonstration();
        design.chimney.roof_height = 6.0;
        design.site.outdoor_temperature = kelvin(-16.0);
        design.site.room_temperature = kelvin(21.0);
        // Air at 101 325 Pa: 1.3727 kg/m3 at -16 C, 1.2001 at 21 C; over 3 m 9.80665 x 3 x 0.1726.
        let pascals = own_suction(&design, 101_325.0).unwrap();
        assert!((pascals - 5.078).abs() < 0.01, "{pascals}");
        design.chimney.roof_height = 0.0;
        assert_eq!(own_suction(&design, 101_325.0), None);
    }
}
