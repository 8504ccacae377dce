//! A moment of a day, between the steps at which its curves were recorded.

use super::{DayState, Series};
use crate::units::kelvin;

/// What the heater does at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Heat of the wood that burns (W).
    pub wood_watts: f64,
    /// Gas above room temperature out of the last run (W).
    pub stack_watts: f64,
    /// From the heater to the room (W).
    pub room_watts: f64,
    /// Hottest face to the room (K).
    pub surface: f64,
    /// Gas out of the firebox (K).
    pub firebox_outlet: f64,
    /// Gas at the end of each run (K).
    pub runs: Vec<f64>,
    /// Gas into the chimney (K).
    pub chimney_inlet: f64,
    /// Inner wall at the mouth (K).
    pub mouth_wall: f64,
    /// Draft less losses (Pa).
    pub margin: f64,
}

impl DayState {
    /// The moment at a time since the first lighting (s). Beyond the period the state is held to
    /// repeat, and its end belongs to it; before its first step it is as at that step, but for the
    /// fire, which rises from nothing.
    pub fn moment(&self, time: f64) -> Moment {
        let Series { time_s, runs_celsius, .. } = &self.series;
        let periods = (time / self.period_s - 1e-9).floor().max(0.0);
        let since = time - periods * self.period_s;
        let after = time_s.partition_point(|step| *step < since);
        let before = after.saturating_sub(1);
        let share = match (time_s.get(before), time_s.get(after)) {
            (Some(low), Some(high)) if low < high => (since - low) / (high - low),
            _ => 0.0,
        };
        let at = |curve: &[f64]| {
            let low = curve.get(before).copied().unwrap_or_default();
            low + share * (curve.get(after).copied().unwrap_or(low) - low)
        };
        let series = &self.series;
        let lit = time_s.first().map_or(1.0, |first| (since / first).clamp(0.0, 1.0));
        Moment {
            wood_watts: lit * at(&series.wood_watts),
            stack_watts: at(&series.stack_watts),
            room_watts: at(&series.room_watts),
            surface: kelvin(at(&series.surface_celsius)),
            firebox_outlet: kelvin(at(&series.firebox_outlet_celsius)),
            runs: runs_celsius.iter().map(|run| kelvin(at(run))).collect(),
            chimney_inlet: kelvin(at(&series.chimney_inlet_celsius)),
            mouth_wall: kelvin(at(&series.mouth_wall_celsius)),
            margin: at(&series.margin_pascals),
        }
    }
}

impl DayState {
    /// Inner wall at the mouth at the last step with fire (K), of several firings the coldest; none
    /// where nothing was recorded.
    pub fn wall_when_burned_out(&self) -> Option<f64> {
        let Series { wood_watts, mouth_wall_celsius, .. } = &self.series;
        let after = wood_watts.iter().skip(1).chain([&0.0]);
        let steps = wood_watts.iter().zip(after).zip(mouth_wall_celsius);
        let ends = steps.filter(|((burns, then), _)| 0.0 < **burns && **then <= 0.0);
        ends.map(|(_, wall)| kelvin(*wall)).min_by(f64::total_cmp)
    }
}

#[cfg(test)]
mod tests {
    use crate::analysis::day::{DayState, Series, Setup, first_fire};
    use crate::design::Design;
    use crate::units::celsius;

    #[test]
    fn a_moment_lies_on_the_curves_between_their_steps() {
        let state = first_fire(&Design::demonstration(), &Setup::STANDARD).unwrap().state;
        let series = &state.series;
        for (index, time) in series.time_s.iter().enumerate() {
            let moment = state.moment(*time);
            assert!((celsius(moment.surface) - series.surface_celsius[index]).abs() < 1e-6);
            assert!((moment.wood_watts - series.wood_watts[index]).abs() < 1e-6);
            assert_eq!(moment.runs.len(), series.runs_celsius.len());
        }
        let [one, two] = [series.time_s[10], series.time_s[11]];
        let middle = state.moment(0.5 * (one + two)).room_watts;
        let mean = 0.5 * (series.room_watts[10] + series.room_watts[11]);
        assert!((middle - mean).abs() < 1e-6 * mean);
        assert!(state.moment(0.0).wood_watts.abs() < 1e-9);
        assert_eq!(state.moment(0.0).runs, state.moment(series.time_s[0]).runs);
        assert_eq!(state.moment(2.0 * state.period_s), state.moment(state.period_s));
        assert_eq!(state.moment(state.period_s + 7200.0), state.moment(7200.0));
    }

    /// Two firings, of which the second leaves the colder wall, and one that burns to the last step.
    #[test]
    fn the_wall_at_the_end_of_a_burn_is_that_of_the_last_step_with_fire() {
        let curves = |wood: &[f64], wall: &[f64]| DayState {
            series: Series {
                wood_watts: wood.to_vec(),
                mouth_wall_celsius: wall.to_vec(),
                ..Series::default()
            },
            ..first_fire(&Design::demonstration(), &Setup::COARSE).unwrap().state
        };
        let ended = |day: DayState| day.wall_when_burned_out().map(celsius);
        let two = [0.0, 9.0, 1.0, 0.0, 9.0, 1.0, 0.0];
        let walls = [5.0, 20.0, 60.0, 70.0, 40.0, 50.0, 10.0];
        assert!((ended(curves(&two, &walls)).unwrap() - 50.0).abs() < 1e-9);
        assert!((ended(curves(&[1.0, 2.0], &[30.0, 40.0])).unwrap() - 40.0).abs() < 1e-9);
        assert_eq!(ended(curves(&[], &[])), None);
    }
}
