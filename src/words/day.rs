//! The firing day in words: its figures, where the heat went, what happens at a moment.

use super::place;
use crate::analysis::day::{DayState, Energy, FacePlace, Moment};
use crate::rules::Place;
use crate::study::day::First;
use crate::units::{Quantity, System, figure};

/// A figure of the day.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct DayFigure {
    /// Short name, for tests and scripts.
    pub id: &'static str,
    /// What it is.
    pub name: &'static str,
    /// Figure with unit.
    pub value: String,
    /// Where and when, or what it is about; may be empty.
    pub note: String,
}

/// Figures that belong together.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FigureGroup {
    /// What they are about.
    pub title: &'static str,
    /// The figures.
    pub figures: Vec<DayFigure>,
}

/// A part of the heat of the wood.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeatShare {
    /// Where it went.
    pub name: &'static str,
    /// How much (J).
    pub joules: f64,
    /// Of the heat of the wood (–).
    pub share: f64,
    /// Whether it serves the house.
    pub side: Side,
}

/// On which side of the account a part of the heat stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Warms the room around the heater.
    Room,
    /// Stays in the house, but elsewhere or for later.
    House,
    /// Leaves it.
    Lost,
}

/// Heading over a side of the account.
pub const fn side(side: Side) -> &'static str {
    match side {
        Side::Room => "To the room",
        Side::House => "Elsewhere in the house",
        Side::Lost => "Lost",
    }
}

/// The figures of a state; the times to half and quarter are those of the single firing.
pub fn figures(state: &DayState, first: &First, system: System) -> [FigureGroup; 3] {
    [
        FigureGroup { title: "Warmth", figures: warmth(state, first, system) },
        FigureGroup { title: "Gas into the chimney", figures: gas(state, system) },
        FigureGroup { title: "Draft and flue", figures: flue(state, system) },
    ]
}

fn line(id: &'static str, name: &'static str, value: String, note: String) -> DayFigure {
    DayFigure { id, name, value, note }
}

fn warmth(state: &DayState, first: &First, system: System) -> Vec<DayFigure> {
    let power = |watts| figure(watts, Quantity::Power, system);
    let mean = state.energy.to_room() / state.period_s;
    let peak = &state.peak;
    let hours = |hours: Option<f64>| match hours {
        Some(hours) => figure(3600.0 * hours, Quantity::Hours, system),
        None => "over 3 days".into(),
    };
    let single = || "single firing from cold".to_owned();
    let mut lines = vec![
        line("room-mean", "To the room, mean", power(mean), String::new()),
        line(
            "room-peak",
            "To the room, peak",
            power(peak.room_watts),
            after(peak.room_time_s, state),
        ),
        line(
            "face",
            "Hottest face",
            figure(peak.surface.temperature, Quantity::Temperature, system),
            format!("{}, {}", face(peak.surface_place), after(peak.surface.time_s, state)),
        ),
        line("half", "Warmth halves in", hours(first.hours_to_half), single()),
        line("quarter", "Falls to a quarter in", hours(first.hours_to_quarter), single()),
    ];
    lines.extend(peak.wall_behind.map(|at| {
        let value = figure(at.temperature, Quantity::Temperature, system);
        line("wall-behind", "Face of the wall behind", value, after(at.time_s, state))
    }));
    lines
}

fn gas(state: &DayState, system: System) -> Vec<DayFigure> {
    let temperature = |value| figure(value, Quantity::Temperature, system);
    let share = |value| figure(value, Quantity::Share, system);
    let peak = &state.peak.chimney_inlet;
    vec![
        line(
            "gas-mean",
            "Mean of the burn",
            temperature(state.burn_mean.chimney_inlet),
            String::new(),
        ),
        line("gas-peak", "Peak", temperature(peak.temperature), after(peak.time_s, state)),
        line(
            "efficiency-lower",
            "Heat kept",
            share(state.efficiency_lower),
            "of the lower heating value".into(),
        ),
        line(
            "efficiency-higher",
            "Heat kept",
            share(state.efficiency_higher),
            "of the higher heating value".into(),
        ),
    ]
}

fn flue(state: &DayState, system: System) -> Vec<DayFigure> {
    let draft = &state.draft;
    let minutes = |seconds| figure(seconds, Quantity::Duration, system);
    let burning = || "while it burns".to_owned();
    vec![
        line(
            "least-margin",
            "Least draft to spare",
            figure(draft.least_margin_pascals, Quantity::Pressure, system),
            after(draft.least_margin_time_s, state),
        ),
        line(
            "short-of-draft",
            "Less air than stated",
            minutes(draft.short_of_draft_s),
            burning(),
        ),
        line("smoke-back", "Smoke-back", minutes(draft.smoke_back_s), burning()),
        line(
            "coldest-wall",
            "Coldest wall at the mouth",
            figure(draft.coldest_mouth_wall, Quantity::Temperature, system),
            burning(),
        ),
        line("wet-wall", "That wall below the dew point", minutes(draft.wet_wall_s), burning()),
    ]
}

/// Where the hottest face is.
fn face(at: FacePlace) -> String {
    match at {
        FacePlace::Firebox => "firebox".into(),
        FacePlace::Run(number) => {
            place(Place::Run(number.saturating_sub(1))).to_ascii_lowercase()
        }
        FacePlace::Cap => "cap".into(),
    }
}

/// When, counted from the first lighting.
fn after(seconds: f64, state: &DayState) -> String {
    let lit = if state.firings > 1 { "the first lighting" } else { "lighting" };
    format!("{} after {lit}", clock(seconds))
}

/// A time as hours and minutes.
pub fn clock(seconds: f64) -> String {
    let minutes = (seconds / 60.0).round().max(0.0);
    let hours = (minutes / 60.0).floor();
    let minutes = minutes - 60.0 * hours;
    if hours > 0.0 && minutes < 1.0 {
        format!("{hours:.0} h")
    } else if hours < 1.0 {
        format!("{minutes:.0} min")
    } else {
        format!("{hours:.0} h {minutes:.0} min")
    }
}

/// Where the heat of the wood went. What the air brought in, warmer or colder than 25 °C, is set
/// against what leaves at the mouth, so that the shares make up the whole.
pub fn shares(energy: &Energy) -> [HeatShare; 11] {
    let part = |side, name, joules| HeatShare {
        name,
        joules,
        share: joules / energy.wood_joules,
        side,
    };
    [
        part(Side::Room, "Faces of firebox and runs", energy.faces_joules),
        part(Side::Room, "Glass", energy.glass_joules),
        part(Side::Room, "Metal of the door", energy.door_joules),
        part(Side::Room, "Cap", energy.cap_joules),
        part(Side::House, "Chimney indoors", energy.chimney_indoors_joules),
        part(Side::House, "Connector", energy.connector_joules),
        part(Side::House, "Still in the masonry", energy.stored_joules),
        part(Side::Lost, "Out at the mouth", energy.mouth_joules - energy.air_joules),
        part(Side::Lost, "Chimney outdoors", energy.chimney_outdoors_joules),
        part(Side::Lost, "Down through the base", energy.under_joules),
        part(Side::Lost, "Left unburned", energy.unburned_joules),
    ]
}

/// What the shares are of: the wood of a state and its time.
pub fn wood(state: &DayState, system: System) -> String {
    let heat = figure(state.energy.wood_joules, Quantity::Energy, system);
    let firings = match state.firings {
        1 => "One firing".into(),
        count => format!("{count} firings"),
    };
    format!("{firings} in {}: {heat} of wood, lower heating value.", clock(state.period_s))
}

/// What happens at a moment.
pub fn moment(at: f64, moment: &Moment, system: System) -> String {
    let power = |watts| figure(watts, Quantity::Power, system);
    let fire = if moment.wood_watts > 0.0 {
        format!(
            "fire {}, lost with the gas {}",
            power(moment.wood_watts),
            power(moment.stack_watts)
        )
    } else {
        format!("no fire, lost with the air {}", power(moment.stack_watts))
    };
    format!(
        "After {}: {fire}, to the room {}, hottest face {}.",
        clock(at),
        power(moment.room_watts),
        figure(moment.surface, Quantity::Temperature, system),
    )
}

/// The curves in a sentence or two, for who does not see them.
pub fn summary(state: &DayState, system: System) -> String {
    let peak = &state.peak;
    let most = state.series.wood_watts.iter().copied().fold(0.0, f64::max);
    let least = state.series.room_watts.iter().copied().fold(f64::INFINITY, f64::min);
    let power = |watts| figure(watts, Quantity::Power, system);
    format!(
        "Over {}, the fire gives {} at its height. The heater gives the room from {} to {}, the \
         most {}. Its hottest face reaches {}, {}.",
        clock(state.period_s),
        power(most),
        power(least),
        power(peak.room_watts),
        after(peak.room_time_s, state),
        figure(peak.surface.temperature, Quantity::Temperature, system),
        after(peak.surface.time_s, state),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::analysis::day::{Setup, day};
    use crate::design::Design;

    fn found() -> (DayState, First) {
        let day = day(&Design::demonstration(), &Setup::STANDARD).unwrap();
        let first = First {
            state: day.first_fire,
            hours_to_half: day.hours_to_half,
            hours_to_quarter: None,
        };
        (day.periodic, first)
    }

    #[test]
    fn the_shares_make_up_the_heat_of_the_wood() {
        let (periodic, first) = found();
        for state in [&periodic, &first.state] {
            let shares = shares(&state.energy);
            let sum: f64 = shares.iter().map(|each| each.share).sum();
            assert!((sum - 1.0).abs() < 1e-3, "{sum}");
            let room: f64 = shares
                .iter()
                .filter(|each| each.side == Side::Room)
                .map(|each| each.joules)
                .sum();
            assert!((room - state.energy.to_room()).abs() < 1.0);
        }
    }

    #[test]
    fn times_are_told_in_hours_and_minutes() {
        for (seconds, text) in
            [(0.0, "0 min"), (59.9 * 60.0, "1 h"), (4500.0, "1 h 15 min"), (86400.0, "24 h")]
        {
            assert_eq!(clock(seconds), text);
        }
    }

    #[test]
    fn figures_and_sentences_carry_units_of_either_system() {
        let (periodic, first) = found();
        for (system, units) in
            [(System::Metric, ["kW", "°C", "Pa"]), (System::Us, ["Btu/h", "°F", "in w.c."])]
        {
            for state in [&periodic, &first.state] {
                let mut said = summary(state, system);
                said.push_str(&moment(2700.0, &state.moment(2700.0), system));
                said.push_str(&moment(40000.0, &state.moment(40000.0), system));
                for figure in figures(state, &first, system).iter().flat_map(|g| &g.figures) {
                    said.push_str(&figure.value);
                    said.push_str(&figure.note);
                }
                for unit in units {
                    assert!(said.contains(unit), "{unit}: {said}");
                }
                assert!(said.contains("over 3 days") && said.contains("no fire"), "{said}");
                assert!(!said.contains("NaN") && !said.contains("inf"), "{said}");
            }
        }
    }
}
