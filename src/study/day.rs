//! The firing day part by part, each as soon as it is found, and its words for a message from one
//! program to another.

use crate::analysis::Failure;
use crate::analysis::day::{self, At, BurnMean, DayState, FacePlace, FirstFire, Setup, Whole};
use crate::design::Design;
use crate::physics::root::NoRoot;
use crate::units::float;
use std::fmt;
use std::str::FromStr;

/// What is told of a day, in this order.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// It has begun.
    Begun,
    /// The single firing from cold.
    First(First),
    /// The day that repeats; the last part.
    Repeating(DayState),
    /// Why no more is found; the last part then.
    Failed(Failure),
}

/// The single firing from cold.
#[derive(Clone, Debug, PartialEq)]
pub struct First {
    /// The 24 hours.
    pub state: DayState,
    /// Hours until the warmth of the warmest face has fallen to half; none if that takes days.
    pub hours_to_half: Option<f64>,
    /// The same to a quarter.
    pub hours_to_quarter: Option<f64>,
}

impl From<&day::Day> for First {
    fn from(day: &day::Day) -> Self {
        Self {
            state: day.first_fire.clone(),
            hours_to_half: day.hours_to_half,
            hours_to_quarter: day.hours_to_quarter,
        }
    }
}

/// What is to be done next.
#[derive(Clone, Debug)]
enum Next {
    Begin,
    First,
    Repeating(Box<FirstFire>),
    Nothing,
}

/// The parts, one by one.
#[derive(Clone, Debug)]
pub struct Parts {
    design: Design,
    next: Next,
    standing: Option<Whole>,
}

impl Parts {
    /// The day of a design.
    pub fn new(design: &Design) -> Self {
        Self { design: design.clone(), next: Next::Begin, standing: None }
    }

    /// The whole day, from which another one is sought; none before all parts are found.
    pub const fn standing(&self) -> Option<&Whole> {
        self.standing.as_ref()
    }
}

impl Iterator for Parts {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        match std::mem::replace(&mut self.next, Next::Nothing) {
            Next::Begin => {
                self.next = Next::First;
                Some(Part::Begun)
            }
            Next::First => Some(match day::first_fire(&self.design, &Setup::STANDARD) {
                Ok(found) => {
                    let FirstFire { hours_to_half, hours_to_quarter, .. } = found;
                    let state = found.state.clone();
                    self.next = Next::Repeating(Box::new(found));
                    Part::First(First { state, hours_to_half, hours_to_quarter })
                }
                Err(failure) => Part::Failed(failure),
            }),
            Next::Repeating(first) => {
                Some(match day::repeating(&self.design, &Setup::STANDARD, &first) {
                    Ok(repeating) => {
                        let state = repeating.state.clone();
                        self.standing = Some(Whole { first: *first, repeating });
                        Part::Repeating(state)
                    }
                    Err(failure) => Part::Failed(failure),
                })
            }
            Next::Nothing => None,
        }
    }
}

/// As words, without rounding.
impl fmt::Display for Part {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Begun => f.write_str("begun"),
            Self::First(first) => {
                f.write_str("first")?;
                for hours in [first.hours_to_half, first.hours_to_quarter] {
                    match hours {
                        Some(hours) => write!(f, " {hours}")?,
                        None => f.write_str(" never")?,
                    }
                }
                write_state(f, &first.state)
            }
            Self::Repeating(state) => {
                f.write_str("repeating")?;
                write_state(f, state)
            }
            Self::Failed(failure) => write!(f, "failed {}", failure_id(failure)),
        }
    }
}

/// The words are not those of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NotAPart;

impl FromStr for Part {
    type Err = NotAPart;

    fn from_str(text: &str) -> Result<Self, NotAPart> {
        let mut words = text.split(' ');
        match words.next() {
            Some("begun") => Ok(Self::Begun),
            Some("first") => Ok(Self::First(First {
                hours_to_half: read_hours(&mut words)?,
                hours_to_quarter: read_hours(&mut words)?,
                state: read_state(&mut words)?,
            })),
            Some("repeating") => Ok(Self::Repeating(read_state(&mut words)?)),
            Some("failed") => {
                let failure = words.next().and_then(failure_from_id);
                failure.map(Self::Failed).ok_or(NotAPart)
            }
            _ => Err(NotAPart),
        }
    }
}

fn read(word: Option<&str>) -> Result<f64, NotAPart> {
    word.and_then(float).ok_or(NotAPart)
}

fn read_hours<'a>(words: &mut impl Iterator<Item = &'a str>) -> Result<Option<f64>, NotAPart> {
    match words.next() {
        Some("never") => Ok(None),
        word => read(word).map(Some),
    }
}

/// The number of a face in messages.
pub(super) const fn place_number(place: FacePlace) -> usize {
    match place {
        FacePlace::Firebox => 0,
        FacePlace::Cap => 1,
        FacePlace::Run(run) => run + 1,
    }
}

/// The face of a number.
pub(super) const fn place_of(number: usize) -> FacePlace {
    match number {
        0 => FacePlace::Firebox,
        1 => FacePlace::Cap,
        run => FacePlace::Run(run - 1),
    }
}

/// Number of runs, steps and firings, where the hottest face is, number of walls behind, then every
/// figure.
fn write_state(f: &mut fmt::Formatter<'_>, state: &DayState) -> fmt::Result {
    let place = place_number(state.peak.surface_place);
    let series = &state.series;
    let walls = usize::from(state.peak.wall_behind.is_some());
    let counts = [series.runs_celsius.len(), series.time_s.len(), state.firings, place, walls];
    for count in counts {
        write!(f, " {count}")?;
    }
    for figure in figures(&mut state.clone()) {
        write!(f, " {figure}")?;
    }
    Ok(())
}

fn read_state<'a>(words: &mut impl Iterator<Item = &'a str>) -> Result<DayState, NotAPart> {
    let read_count = |word: &str| word.parse::<usize>().ok();
    let mut count = || words.next().and_then(read_count).ok_or(NotAPart);
    let [runs, steps, firings, place] = [count()?, count()?, count()?, count()?];
    let walls = count()?;
    // Nothing of ours is longer; memory is taken only for what a message can hold.
    if runs > 100 || steps > 100_000 || walls > 1 {
        return Err(NotAPart);
    }
    let mut state = DayState { firings, ..empty(runs, steps) };
    state.peak.wall_behind = (walls == 1).then(At::default);
    state.peak.surface_place = place_of(place);
    for figure in figures(&mut state) {
        *figure = read(words.next())?;
    }
    Ok(state)
}

/// A state whose figures are all zero.
fn empty(runs: usize, steps: usize) -> DayState {
    let mut state = DayState {
        period_s: 0.0,
        firings: 0,
        burn_mean: BurnMean::default(),
        peak: day::Peak::default(),
        energy: day::Energy::default(),
        efficiency_lower: 0.0,
        efficiency_higher: 0.0,
        draft: day::DraftOfDay::default(),
        series: day::Series::default(),
    };
    state.burn_mean.runs_celsius.resize(runs, 0.0);
    state.series.runs_celsius.resize(runs, Vec::new());
    for curve in curves(&mut state.series) {
        curve.resize(steps, 0.0);
    }
    state
}

fn curves(series: &mut day::Series) -> Vec<&mut Vec<f64>> {
    let day::Series {
        time_s,
        wood_watts,
        stack_watts,
        room_watts,
        stored_joules,
        surface_celsius,
        firebox_outlet_celsius,
        runs_celsius,
        chimney_inlet_celsius,
        mouth_wall_celsius,
        margin_pascals,
        excess_air_ratio,
        gas_flow_kg_per_s,
        largest_richardson,
    } = series;
    let mut curves = vec![
        time_s,
        wood_watts,
        stack_watts,
        room_watts,
        stored_joules,
        surface_celsius,
        firebox_outlet_celsius,
        chimney_inlet_celsius,
        mouth_wall_celsius,
        margin_pascals,
        excess_air_ratio,
        gas_flow_kg_per_s,
        largest_richardson,
    ];
    curves.extend(runs_celsius);
    curves
}

/// Every figure of a state in the order of a message, for writing and for reading.
fn figures(state: &mut DayState) -> Vec<&mut f64> {
    let DayState {
        period_s,
        firings: _,
        burn_mean,
        peak,
        energy,
        efficiency_lower,
        efficiency_higher,
        draft,
        series,
    } = state;
    let mut figures = vec![period_s, efficiency_lower, efficiency_higher];
    figures.extend(of_means(burn_mean));
    figures.extend(of_peak(peak));
    figures.extend(of_energy(energy));
    figures.extend(of_draft(draft));
    figures.extend(curves(series).into_iter().flatten());
    figures
}

fn of_means(means: &mut BurnMean) -> Vec<&mut f64> {
    let BurnMean {
        firebox_outlet,
        runs_celsius,
        chimney_inlet,
        gas_flow_kg_per_s,
        excess_air_ratio,
    } = means;
    let mut figures = vec![firebox_outlet, chimney_inlet, gas_flow_kg_per_s, excess_air_ratio];
    figures.extend(runs_celsius);
    figures
}

fn of_peak(peak: &mut day::Peak) -> Vec<&mut f64> {
    let day::Peak {
        firebox_outlet,
        runs_outlet,
        chimney_inlet,
        surface,
        surface_place: _,
        wall_behind,
        upright,
        bench,
        layers,
        room_watts,
        room_time_s,
    } = peak;
    let mut figures = vec![room_watts, room_time_s, upright, bench];
    figures.extend(layers.figures());
    let hottest = [firebox_outlet, runs_outlet, chimney_inlet, surface];
    for At { temperature, time_s } in hottest.into_iter().chain(wall_behind) {
        figures.extend([temperature, time_s]);
    }
    figures
}

fn of_energy(energy: &mut day::Energy) -> [&mut f64; 14] {
    let day::Energy {
        wood_joules,
        air_joules,
        unburned_joules,
        glass_joules,
        door_joules,
        faces_joules,
        cap_joules,
        under_joules,
        connector_joules,
        chimney_indoors_joules,
        chimney_outdoors_joules,
        mouth_joules,
        stored_joules,
        stack_joules,
    } = energy;
    [
        wood_joules,
        air_joules,
        unburned_joules,
        glass_joules,
        door_joules,
        faces_joules,
        cap_joules,
        under_joules,
        connector_joules,
        chimney_indoors_joules,
        chimney_outdoors_joules,
        mouth_joules,
        stored_joules,
        stack_joules,
    ]
}

fn of_draft(draft: &mut day::DraftOfDay) -> [&mut f64; 9] {
    let day::DraftOfDay {
        least_margin_pascals,
        least_margin_time_s,
        short_of_draft_s,
        smoke_back_s,
        kindling_smoke_s,
        coldest_mouth_wall,
        wet_wall_s,
        warmest_mouth_wall,
        burning_s,
    } = draft;
    [
        least_margin_pascals,
        least_margin_time_s,
        short_of_draft_s,
        smoke_back_s,
        kindling_smoke_s,
        coldest_mouth_wall,
        wet_wall_s,
        warmest_mouth_wall,
        burning_s,
    ]
}

/// Problems with the inputs are told at the inputs, before anybody computes a day.
pub(super) const fn failure_id(failure: &Failure) -> &'static str {
    match failure {
        Failure::Inputs(_) => "inputs",
        Failure::Firebox(NoRoot::NotBracketed) => "firebox-sign",
        Failure::Firebox(NoRoot::TooManySteps) => "firebox-steps",
        Failure::NaturalFlow(NoRoot::NotBracketed) => "flow-sign",
        Failure::NaturalFlow(NoRoot::TooManySteps) => "flow-steps",
        Failure::DayUnsettled => "unsettled",
        Failure::FireStarved => "starved",
        Failure::NotPeriodic => "not-periodic",
        Failure::NotFinite => "not-finite",
    }
}

pub(super) fn failure_from_id(id: &str) -> Option<Failure> {
    Some(match id {
        "inputs" => Failure::Inputs(Vec::new()),
        "firebox-sign" => Failure::Firebox(NoRoot::NotBracketed),
        "firebox-steps" => Failure::Firebox(NoRoot::TooManySteps),
        "flow-sign" => Failure::NaturalFlow(NoRoot::NotBracketed),
        "flow-steps" => Failure::NaturalFlow(NoRoot::TooManySteps),
        "unsettled" => Failure::DayUnsettled,
        "starved" => Failure::FireStarved,
        "not-periodic" => Failure::NotPeriodic,
        "not-finite" => Failure::NotFinite,
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn survives(part: &Part) {
        assert_eq!(part.to_string().parse().as_ref(), Ok(part));
    }

    #[test]
    fn a_day_survives_its_words_and_is_that_of_the_native_command() {
        let design = Design::demonstration();
        let parts: Vec<Part> = Parts::new(&design).collect();
        parts.iter().for_each(survives);
        let [Part::Begun, Part::First(first), Part::Repeating(repeating)] = parts.as_slice()
        else {
            panic!("{parts:?}");
        };
        let whole = day::day(&design, &Setup::STANDARD).unwrap();
        assert_eq!(first.state, whole.first_fire);
        assert_eq!(first.hours_to_quarter, whole.hours_to_quarter);
        assert_eq!(*repeating, whole.periodic);
        let mut other = first.clone();
        (other.hours_to_half, other.state.peak.surface_place) = (None, FacePlace::Cap);
        other.state.peak.wall_behind = Some(At { temperature: 341.5, time_s: 20_000.0 });
        survives(&Part::First(other));
    }

    #[test]
    fn a_failure_survives_its_words() {
        for root in [NoRoot::NotBracketed, NoRoot::TooManySteps] {
            survives(&Part::Failed(Failure::Firebox(root)));
            survives(&Part::Failed(Failure::NaturalFlow(root)));
        }
        survives(&Part::Failed(Failure::DayUnsettled));
        survives(&Part::Failed(Failure::FireStarved));
        survives(&Part::Failed(Failure::NotPeriodic));
        survives(&Part::Failed(Failure::NotFinite));
        survives(&Part::Failed(Failure::Inputs(Vec::new())));
    }

    #[test]
    fn other_words_are_no_part() {
        for text in ["", "first", "first 1 2 5 3 1 0 7", "failed", "failed so", "repeating x"] {
            assert_eq!(text.parse::<Part>(), Err(NotAPart), "{text}");
        }
        assert_eq!("repeating 5 99999999999 1 0".parse::<Part>(), Err(NotAPart));
    }
}
