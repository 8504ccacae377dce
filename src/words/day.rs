//! The firing day in words: its figures, where the heat went, what happens at a moment.

use super::passage::Passage;
use super::place;
use crate::analysis::day::{DayState, Energy, FacePlace, Moment};
use crate::analysis::extrapolation::{Formula, OverTheBurn, over_the_burns};
use crate::language::{English, said, say, within};
use crate::rules::Place;
use crate::study::day::First;
use crate::units::{Quantity, System, figure, fixed};

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
pub fn side(side: Side) -> &'static str {
    let english = match side {
        Side::Room => "To the room",
        Side::House => "Elsewhere in the house",
        Side::Lost => "Lost",
    };
    said(english)
}

/// The figures of a state; the times to half and quarter are those of the single firing.
pub fn figures(state: &DayState, first: &First, system: System) -> [FigureGroup; 3] {
    [
        FigureGroup { title: said("Warmth"), figures: warmth(state, first, system) },
        FigureGroup { title: said("Gas into the chimney"), figures: gas(state, system) },
        FigureGroup { title: said("Draft and flue"), figures: flue(state, system) },
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
        None => said("over 3 days").into(),
    };
    let single = || said("single firing from cold").to_owned();
    let mut lines = vec![
        line("room-mean", said("To the room, mean"), power(mean), String::new()),
        line(
            "room-peak",
            said("To the room, peak"),
            power(peak.room_watts),
            after(peak.room_time_s, state),
        ),
        line(
            "face",
            said("Hottest face"),
            figure(peak.surface.temperature, Quantity::Temperature, system),
            format!("{}, {}", face(peak.surface_place), after(peak.surface.time_s, state)),
        ),
        line("half", said("Warmth halves in"), hours(first.hours_to_half), single()),
        line("quarter", said("Falls to a quarter in"), hours(first.hours_to_quarter), single()),
    ];
    lines.extend(peak.wall_behind.map(|at| {
        let value = figure(at.temperature, Quantity::Temperature, system);
        line("wall-behind", said("Face of the wall behind"), value, after(at.time_s, state))
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
            said("Mean of the burn"),
            temperature(state.burn_mean.chimney_inlet),
            String::new(),
        ),
        line(
            "gas-peak",
            said("Peak"),
            temperature(peak.temperature),
            after(peak.time_s, state),
        ),
        line(
            "efficiency-lower",
            said("Heat kept"),
            share(state.efficiency_lower),
            said("of the lower heating value").into(),
        ),
        line(
            "efficiency-higher",
            said("Heat kept"),
            share(state.efficiency_higher),
            said("of the higher heating value").into(),
        ),
    ]
}

fn flue(state: &DayState, system: System) -> Vec<DayFigure> {
    let draft = &state.draft;
    let minutes = |seconds| figure(seconds, Quantity::Duration, system);
    let burning = || said("while it burns").to_owned();
    vec![
        line(
            "least-margin",
            said("Least draft to spare"),
            figure(draft.least_margin_pascals, Quantity::Pressure, system),
            after(draft.least_margin_time_s, state),
        ),
        line(
            "short-of-draft",
            said("Less air than stated"),
            minutes(draft.short_of_draft_s),
            burning(),
        ),
        line("smoke-back", said("Smoke-back"), minutes(draft.smoke_back_s), burning()),
        line(
            "coldest-wall",
            said("Coldest wall at the mouth"),
            figure(draft.coldest_mouth_wall, Quantity::Temperature, system),
            burning(),
        ),
        line(
            "warmest-wall",
            said("Warmest wall at the mouth"),
            figure(draft.warmest_mouth_wall, Quantity::Temperature, system),
            burning(),
        ),
        line(
            "wet-wall",
            said("That wall below the dew point"),
            minutes(draft.wet_wall_s),
            burning(),
        ),
    ]
}

/// Where the hottest face is.
fn face(at: FacePlace) -> String {
    match at {
        FacePlace::Firebox => said("firebox").into(),
        FacePlace::Run(number) => within(&place(Place::Run(number.saturating_sub(1)))),
        FacePlace::Cap => said("cap").into(),
    }
}

/// When, counted from the first lighting.
fn after(seconds: f64, state: &DayState) -> String {
    let lit = if state.firings > 1 { said("the first lighting") } else { said("lighting") };
    say!("{} after {lit}", clock(seconds))
}

/// A time as hours and minutes.
pub fn clock(seconds: f64) -> String {
    let minutes = (seconds / 60.0).round().max(0.0);
    let hours = (minutes / 60.0).floor();
    let minutes = minutes - 60.0 * hours;
    if hours > 0.0 && minutes < 1.0 {
        format!("{} h", fixed(hours, 0))
    } else if hours < 1.0 {
        format!("{} min", fixed(minutes, 0))
    } else {
        format!("{} h {} min", fixed(hours, 0), fixed(minutes, 0))
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
        part(Side::Room, said("Faces of firebox and runs"), energy.faces_joules),
        part(Side::Room, said("Glass"), energy.glass_joules),
        part(Side::Room, said("Metal of the door"), energy.door_joules),
        part(Side::Room, said("Cap"), energy.cap_joules),
        part(Side::House, said("Chimney indoors"), energy.chimney_indoors_joules),
        part(Side::House, said("Connector"), energy.connector_joules),
        part(Side::House, said("Still in the masonry"), energy.stored_joules),
        part(Side::Lost, said("Out at the mouth"), energy.mouth_joules - energy.air_joules),
        part(Side::Lost, said("Chimney outdoors"), energy.chimney_outdoors_joules),
        part(Side::Lost, said("Down through the base"), energy.under_joules),
        part(Side::Lost, said("Left unburned"), energy.unburned_joules),
    ]
}

/// What the shares are of: the wood of a state and its time.
pub fn wood(state: &DayState, system: System) -> String {
    let heat = figure(state.energy.wood_joules, Quantity::Energy, system);
    let firings = match state.firings {
        1 => said("One firing").into(),
        count => say!("{count} firings"),
    };
    say!("{firings} in {}: {heat} of wood, lower heating value.", clock(state.period_s))
}

/// What happens at a moment.
pub fn moment(at: f64, moment: &Moment, system: System) -> String {
    let power = |watts| figure(watts, Quantity::Power, system);
    let fire = if moment.wood_watts > 0.0 {
        say!(
            "fire {}, lost with the gas {}",
            power(moment.wood_watts),
            power(moment.stack_watts)
        )
    } else {
        say!("no fire, lost with the air {}", power(moment.stack_watts))
    };
    say!(
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
    say!(
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

/// Formulas that are used outside their range while the fire burns, when the days repeat; none where
/// all stay within.
pub fn beyond_formulas(state: &DayState, system: System) -> Option<Passage> {
    let found = over_the_burns(state);
    let line = |found: &OverTheBurn| {
        let quantity = match found.formula {
            Formula::LecknerEmissivity | Formula::GasTransport => Quantity::Temperature,
            _ => Quantity::Ratio,
        };
        let show = |value| figure(value, quantity, system);
        let time = |seconds| figure(seconds, Quantity::Duration, system);
        let what = match found.formula {
            Formula::ForcedConvection => said(
                "heat from gas that the draft pushes along, by buoyancy over inertia \
                 (Richardson number)",
            ),
            Formula::LecknerEmissivity => {
                said("heat that the gas radiates, by its temperature")
            }
            Formula::GasTransport => {
                said("viscosity and conductivity of the gas, by its temperature")
            }
            Formula::ColebrookFriction | Formula::NorrisGain => said("friction of rough walls"),
        };
        say!(
            "{} of {}: {what}. At the worst {}; it was made for {} to {}.",
            time(found.time_s),
            time(found.of_s),
            show(found.value),
            show(found.from),
            show(found.to)
        )
    };
    (!found.is_empty())
        .then(|| Passage::new(BEYOND_FORMULAS).text(BEYOND_NOTE).list(found.iter().map(line)))
}

const BEYOND_FORMULAS: English = English("Formulas outside their range while the fire burns");
const BEYOND_NOTE: English = English(
    "For so much of the burns, when the days repeat, a formula is used beyond what it was \
     made for; the figures of those minutes are rough. Temperatures are held to the range of \
     their formula, and slow gas is computed with both its draft and its own heat.",
);

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
