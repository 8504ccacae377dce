//! The firing day hour by hour, for the result.

use crate::analysis::day::{Day, DayState, Moment};
use crate::units::celsius;
use schemars::JsonSchema;
use serde::Serialize;

const HOUR: f64 = 3600.0;
/// A heater is fired once a day at least.
const MOST_HOURS: u32 = 24;

/// Both states of the day at each full hour from lighting to the end of their time, which is that
/// of the next lighting where the days repeat.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Hours {
    /// A single firing from cold.
    pub first_fire: Vec<Hour>,
    /// The day that repeats.
    pub periodic: Vec<Hour>,
}

/// What the heater does at a full hour, straight between the steps of the curves.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Hour {
    /// Hours since the first lighting.
    pub hour: u32,
    /// Heat of the wood that burns (W).
    pub wood_watts: f64,
    /// Gas above room temperature out of the last run (W).
    pub stack_watts: f64,
    /// From the heater to the room (W).
    pub room_watts: f64,
    /// Hottest face to the room (°C).
    pub surface_celsius: f64,
    /// Gas out of the firebox (°C).
    pub firebox_outlet_celsius: f64,
    /// Gas at the end of each run (°C).
    pub runs_celsius: Vec<f64>,
    /// Gas into the chimney (°C).
    pub chimney_inlet_celsius: f64,
    /// Inner wall at the mouth (°C).
    pub mouth_wall_celsius: f64,
    /// Draft less losses (Pa).
    pub margin_pascals: f64,
}

impl Hours {
    /// Of a day.
    pub fn new(day: &Day) -> Self {
        Self { first_fire: hours(&day.first_fire), periodic: hours(&day.periodic) }
    }
}

fn hours(state: &DayState) -> Vec<Hour> {
    (0..=MOST_HOURS)
        .map(|hour| (hour, f64::from(hour) * HOUR))
        .take_while(|(_, time)| *time <= state.period_s + 1e-6)
        .map(|(hour, time)| at(hour, state.moment(time)))
        .collect()
}

fn at(hour: u32, moment: Moment) -> Hour {
    Hour {
        hour,
        wood_watts: moment.wood_watts,
        stack_watts: moment.stack_watts,
        room_watts: moment.room_watts,
        surface_celsius: celsius(moment.surface),
        firebox_outlet_celsius: celsius(moment.firebox_outlet),
        runs_celsius: moment.runs.into_iter().map(celsius).collect(),
        chimney_inlet_celsius: celsius(moment.chimney_inlet),
        mouth_wall_celsius: celsius(moment.mouth_wall),
        margin_pascals: moment.margin,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::day::{Setup, day};
    use crate::design::Design;

    #[test]
    fn a_day_has_an_hour_for_each_of_its_time() {
        let day = day(&Design::demonstration(), &Setup::COARSE).unwrap();
        let Hours { first_fire, periodic } = Hours::new(&day);
        // A day from cold, and two firings a day.
        assert_eq!((first_fire.len(), periodic.len()), (25, 13));
        // The fire of an hour and a half is out at the second hour.
        assert!(first_fire[1].wood_watts > 1e3 && first_fire[2].wood_watts.abs() < 1e-9);
        // The last hour of a period is that of the next lighting.
        let ends = day.periodic.series.room_watts.last().unwrap();
        assert!((periodic[12].room_watts - ends).abs() < 1e-9);
        assert_eq!(first_fire[3].runs_celsius.len(), 5);
    }
}
