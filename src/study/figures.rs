//! What a design comes to, in few figures: a column of a comparison, a point of a sweep.

use crate::analysis::day::{BurnMean, Day, LayerPeaks, Resolution, Setup, Whole, whole};
use crate::analysis::factors::Factors;
use crate::analysis::{Analysis, Failure, analyze};
use crate::build::bricks;
use crate::design::Design;
use crate::rules::{
    Answer, DayFigures, Finding, Known, Question, Start, answer, conditions, deciding, judge,
};
use crate::study::trials::{Trial, Tried, mild_day_near};
use crate::units::Quantity;
use std::fmt;

/// How finely the days of a comparison are cut. Against [`Setup::STANDARD`] gas and faces come out
/// within 1 K, the wall at the mouth at the end of a burn within 2 K, the sides of layers within
/// 30 K, efficiency and power within 1 %, hours within 5 %, in less than half the time.
pub const COARSE: Setup = Setup {
    resolution: Resolution {
        cells_per_run: 3,
        core_nodes: 6,
        facing_nodes: 5,
        slab_nodes: 4,
        flue_nodes: 2,
        refinement: 0.5,
        repeats_within: 0.05,
    },
    after_flow: None,
    without: Vec::new(),
    factors: Factors::NOMINAL,
};

/// By how much the temperatures of the coarse day may be off (K): a day whose answers would be
/// others with that much more or less is computed again at [`Setup::STANDARD`]. The hottest side of a
/// layer along a run is that of its first cell, which is longer here.
const COARSE_ERROR: f64 = 1.0;
const COARSE_BURNED_OUT_ERROR: f64 = 2.0;
const COARSE_BENCH_ERROR: f64 = 4.0;
const COARSE_RUNS_ERROR: f64 = 30.0;
const COARSE_FACING_ERROR: f64 = 12.0;
/// Shares of these by which a day is judged.
pub(super) const OFF: [f64; 3] = [0.0, -1.0, 1.0];
/// And the least draft to spare of a burn (Pa), near which smoke may come back or not.
const COARSE_DRAFT_ERROR: f64 = 0.5;

/// One of the figures.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Gas out of the last run at the height of the fire (K).
    RunsOutlet,
    /// Gas into the chimney, mean of the burn when the days repeat (K).
    ChimneyInlet,
    /// Efficiency on the lower heating value when the days repeat (–).
    Efficiency,
    /// Draft to spare at the height of the fire (Pa).
    MarginHot,
    /// Draft to spare of the kindling in the cold heater, on the day on which it is less (Pa).
    MarginCold,
    /// Draft to spare at the height of the fire on a mild day (Pa).
    MarginMild,
    /// Wall at the mouth at the height of the fire (K).
    MouthWall,
    /// Hottest face to the room when the days repeat (K).
    HottestFace,
    /// Heat to the room when the days repeat, mean (W).
    Output,
    /// Time from the warmest face's peak until half of its warmth is left (s); none where that
    /// takes days.
    HalfWarm,
    /// Mass without chimney, base and fill (kg).
    Mass,
    /// Bricks of the core by volume, without waste (–); none where it is not of brick.
    CoreBricks,
    /// Bricks of the facing by volume, without waste (–); none where it is not of brick.
    FacingBricks,
}

impl Line {
    /// All, in the order of a table.
    pub const ALL: [Self; 13] = [
        Self::RunsOutlet,
        Self::ChimneyInlet,
        Self::Efficiency,
        Self::MarginHot,
        Self::MarginCold,
        Self::MarginMild,
        Self::MouthWall,
        Self::HottestFace,
        Self::Output,
        Self::HalfWarm,
        Self::Mass,
        Self::CoreBricks,
        Self::FacingBricks,
    ];

    /// Name in files, with the unit.
    pub const fn key(self) -> &'static str {
        match self {
            Self::RunsOutlet => "runs_outlet_celsius",
            Self::ChimneyInlet => "chimney_inlet_mean_celsius",
            Self::Efficiency => "efficiency_lower",
            Self::MarginHot => "margin_hot_pascals",
            Self::MarginCold => "margin_cold_start_pascals",
            Self::MarginMild => "margin_mild_day_pascals",
            Self::MouthWall => "mouth_wall_celsius",
            Self::HottestFace => "hottest_face_celsius",
            Self::Output => "mean_output_watts",
            Self::HalfWarm => "half_warm_s",
            Self::Mass => "mass_kg",
            Self::CoreBricks => "core_bricks",
            Self::FacingBricks => "facing_bricks",
        }
    }

    /// Kind of quantity.
    pub const fn quantity(self) -> Quantity {
        match self {
            Self::RunsOutlet | Self::ChimneyInlet | Self::MouthWall | Self::HottestFace => {
                Quantity::Temperature
            }
            Self::Efficiency => Quantity::Share,
            Self::MarginHot | Self::MarginCold | Self::MarginMild => Quantity::Pressure,
            Self::Output => Quantity::Power,
            Self::HalfWarm => Quantity::Hours,
            Self::Mass => Quantity::Weight,
            Self::CoreBricks | Self::FacingBricks => Quantity::Count,
        }
    }
}

/// The answer to a question, and what decides it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Verdict {
    /// The answer.
    pub answer: Answer,
    /// The finding that decides it; none when nothing speaks against a yes.
    pub deciding: Option<Finding>,
}

/// The figures of one design.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// In the order of [`Line::ALL`] (SI).
    lines: Lines,
    /// Draft to spare beyond what is wanted, where that is least (Pa).
    pub spare: f64,
    /// In the order of [`Question::ALL`].
    pub verdicts: [Verdict; Question::ALL.len()],
}

impl Figures {
    /// Analyzes a design with its day; the day is the coarse one unless a judgment hangs on less
    /// than that may be off.
    ///
    /// # Errors
    ///
    /// [`Failure`]: why it could not be computed.
    pub fn new(design: &Design) -> Result<Self, Failure> {
        Days::new(design).map(|days| days.figures)
    }

    /// The figures of what was found already, with what is judged of the mild day where that is
    /// another one.
    pub fn of(
        design: &Design,
        analysis: &Analysis,
        day: &Day,
        mild: Option<&Result<DayFigures, Failure>>,
    ) -> Self {
        let judged = DayFigures::new(design, &day.first_fire, &day.periodic);
        let mild = mild.map(Result::as_ref);
        let known = Known { day: Some(Ok(&judged)), mild, edges: None };
        Self::judged(design, analysis, lines(design, analysis, day), known)
    }

    fn judged(design: &Design, analysis: &Analysis, lines: Lines, known: Known<'_>) -> Self {
        let findings = judge(design, analysis, known);
        let verdict = |question| Verdict {
            answer: answer(question, &findings),
            deciding: deciding(question, &findings).copied(),
        };
        let spare = conditions(design, analysis).map(|each| each.margin - each.wanted);
        Self {
            lines,
            spare: spare.into_iter().fold(f64::INFINITY, f64::min),
            verdicts: Question::ALL.map(verdict),
        }
    }

    /// A figure (SI); none as its line says.
    pub fn line(&self, line: Line) -> Option<f64> {
        let place = Line::ALL.iter().position(|each| *each == line);
        place.and_then(|place| self.lines.get(place).copied().flatten())
    }

    /// Efficiency on the lower heating value when the days repeat (–).
    pub fn efficiency(&self) -> f64 {
        self.line(Line::Efficiency).unwrap_or(f64::NAN)
    }

    /// All figures in the order of [`Line::ALL`] (SI).
    pub const fn lines(&self) -> &[Option<f64>; Line::ALL.len()] {
        &self.lines
    }

    /// Answer to a question.
    pub fn answer(&self, question: Question) -> Answer {
        let mut all = Question::ALL.into_iter().zip(&self.verdicts);
        let mine = all.find(|(each, _)| *each == question);
        mine.map_or(Answer::NotEnoughKnown, |(_, verdict)| verdict.answer)
    }

    /// Whether all three questions are answered yes.
    pub fn passes(&self) -> bool {
        self.verdicts.iter().all(|verdict| verdict.answer == Answer::Yes)
    }

    /// The heaviest of the findings that decide.
    pub fn heaviest(&self) -> Option<&Finding> {
        let findings = self.verdicts.iter().filter_map(|verdict| verdict.deciding.as_ref());
        findings.rev().max_by_key(|finding| finding.severity)
    }
}

/// In the order of [`Line::ALL`] (SI).
type Lines = [Option<f64>; Line::ALL.len()];

fn lines(design: &Design, analysis: &Analysis, day: &Day) -> Lines {
    let conditions = conditions(design, analysis);
    let [hot, mild, ..] = conditions.map(|each| each.margin);
    let cold = conditions.iter().filter(|each| each.start == Start::Cold);
    let Analysis { height_of_fire: fire, structure, .. } = analysis;
    let repeating = &day.periodic;
    let BurnMean { chimney_inlet, .. } = repeating.burn_mean;
    Line::ALL.map(|line| match line {
        Line::RunsOutlet => Some(fire.runs_outlet),
        Line::ChimneyInlet => Some(chimney_inlet),
        Line::Efficiency => Some(repeating.efficiency_lower),
        Line::MarginHot => Some(hot),
        Line::MarginCold => cold.clone().map(|each| each.margin).reduce(f64::min),
        Line::MarginMild => Some(mild),
        Line::MouthWall => Some(fire.chimney_mouth_wall),
        Line::HottestFace => Some(repeating.peak.surface.temperature),
        Line::Output => Some(repeating.energy.to_room() / repeating.period_s),
        Line::HalfWarm => day.hours_to_half.map(|hours| 3600.0 * hours),
        Line::Mass => Some(structure.heater),
        Line::CoreBricks => bricks::core(design, structure),
        Line::FacingBricks => bricks::facing(design, structure),
    })
}

/// Figures with the days on which they stand.
#[derive(Clone, Debug, PartialEq)]
pub struct Days {
    /// The figures.
    pub figures: Figures,
    /// What is judged of the day of the design.
    pub stated: DayFigures,
    /// And of the mild one, where that is another.
    pub mild: Option<Result<DayFigures, Failure>>,
    /// Whether finer days would be answered in the same way.
    pub is_sure: bool,
}

impl Days {
    /// As [`Figures::new`].
    ///
    /// # Errors
    ///
    /// [`Failure`]: why it could not be computed.
    pub fn new(design: &Design) -> Result<Self, Failure> {
        let rough = Self::roughly(design)?;
        if rough.is_sure {
            return Ok(rough);
        }
        Self::finely(design, &whole(design, &Setup::STANDARD, None)?)
    }

    /// The same by the coarse days alone, however near to a limit they are: for a first look.
    ///
    /// # Errors
    ///
    /// [`Failure`]: why it could not be computed.
    pub fn roughly(design: &Design) -> Result<Self, Failure> {
        let analysis = analyze(design)?;
        let day = whole(design, &COARSE, None)?;
        let mild = mild_day_near(design, &COARSE, Some(&day));
        let day = day.into();
        let is_sure = !hangs(design, &analysis, (&day, mild.as_ref()));
        Ok(Self { is_sure, ..Self::of(design, &analysis, &day, mild) })
    }

    /// The same by the days of the page, of which that of the design is known.
    ///
    /// # Errors
    ///
    /// [`Failure`]: why it could not be computed.
    pub fn finely(design: &Design, day: &Whole) -> Result<Self, Failure> {
        let mild = mild_day_near(design, &Setup::STANDARD, Some(day));
        Ok(Self::of(design, &analyze(design)?, &day.clone().into(), mild))
    }

    fn of(
        design: &Design,
        analysis: &Analysis,
        day: &Day,
        mild: Option<Result<DayFigures, Failure>>,
    ) -> Self {
        Self {
            figures: Figures::of(design, analysis, day, mild.as_ref()),
            stated: DayFigures::new(design, &day.first_fire, &day.periodic),
            mild,
            is_sure: true,
        }
    }

    /// Reads the words of a design's days; what was judged is judged again, which costs no day.
    pub fn read(design: &Design, words: &str) -> Option<Self> {
        let mut rows = words.split('\n');
        let mut figures = rows.next()?.split(' ');
        let mut lines = [None; Line::ALL.len()];
        for line in &mut lines {
            *line = match figures.next()? {
                "-" => None,
                word => Some(word.parse().ok()?),
            };
        }
        let is_sure = figures.next()? == SURE;
        let tried = |row: &str| row.parse::<Tried>().ok().map(|tried| tried.day);
        let stated = tried(rows.next()?)?.ok()?;
        let mild = match rows.next() {
            Some(row) => Some(tried(row)?),
            None => None,
        };
        let of_mild = mild.as_ref().map(Result::as_ref);
        let known = Known { day: Some(Ok(&stated)), mild: of_mild, edges: None };
        let figures = Figures::judged(design, &analyze(design).ok()?, lines, known);
        Some(Self { figures, stated, mild, is_sure })
    }
}

/// How days end their line whose answers are sure, and others.
const SURE: &str = "sure";
const UNSURE: &str = "unsure";

/// The figures on a line, `-` for none, unrounded, and whether they are sure; then what is judged of
/// each day.
impl fmt::Display for Days {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let said = |line: &Option<f64>| line.map_or("-".to_owned(), |value| value.to_string());
        let lines: Vec<_> = self.figures.lines.iter().map(said).collect();
        let sure = if self.is_sure { SURE } else { UNSURE };
        write!(f, "{} {sure}", lines.join(" "))?;
        let tried = |trial, day| Tried { trial, day };
        write!(f, "\n{}", tried(Trial::ColdDay, Ok(self.stated)))?;
        match &self.mild {
            Some(day) => write!(f, "\n{}", tried(Trial::MildDay, day.clone())),
            None => Ok(()),
        }
    }
}

/// A day with everything that is judged by its temperature off by a share of what it may be.
pub(super) fn off(day: DayFigures, share: f64) -> DayFigures {
    // What is not there stays at 0 K.
    let by = |temperature: f64, error: f64| {
        if temperature > 0.0 { temperature + share * error } else { temperature }
    };
    let near = |temperature: f64| by(temperature, COARSE_ERROR);
    let LayerPeaks { firebox, runs, facing, board, base, under, connector, liner, wool, core } =
        day.layers;
    DayFigures {
        first_mean: near(day.first_mean),
        repeating_mean: near(day.repeating_mean),
        hottest_face: near(day.hottest_face),
        wall_behind: day.wall_behind.map(near),
        upright: near(day.upright),
        bench: by(day.bench, COARSE_BENCH_ERROR),
        layers: LayerPeaks {
            firebox: near(firebox),
            runs: by(runs, COARSE_RUNS_ERROR),
            facing: by(facing, COARSE_FACING_ERROR),
            board: by(board, COARSE_FACING_ERROR),
            base: near(base),
            under: near(under),
            connector: near(connector),
            liner: near(liner),
            wool: near(wool),
            // Its mean errs no more than its hottest place.
            core: by(core, COARSE_RUNS_ERROR),
        },
        burned_out_wall: by(day.burned_out_wall, COARSE_BURNED_OUT_ERROR),
        warmest_wall: by(day.warmest_wall, COARSE_BURNED_OUT_ERROR),
        ..day
    }
}

/// Whether a least draft to spare (Pa) is clearly one or clearly none.
pub(super) const fn is_clear(margin: f64) -> bool {
    COARSE_DRAFT_ERROR <= margin.abs()
}

/// Whether another day within the errors of the coarse one would be answered in another way.
fn hangs(
    design: &Design,
    analysis: &Analysis,
    (coarse, mild): (&Day, Option<&Result<DayFigures, Failure>>),
) -> bool {
    let states = [&coarse.first_fire, &coarse.periodic];
    let judged = DayFigures::new(design, &coarse.first_fire, &coarse.periodic);
    let decided = |share: f64| {
        let warm = |day| off(day, share);
        let (day, mild) = (warm(judged), mild.map(|mild| mild.clone().map(warm)));
        let mild = mild.as_ref().map(Result::as_ref);
        let known = Known { day: Some(Ok(&day)), mild, edges: None };
        let findings = judge(design, analysis, known);
        // What is only good to know decides no answer.
        Question::ALL.map(|question| {
            let deciding = deciding(question, &findings).map(|found| found.rule);
            (answer(question, &findings), deciding)
        })
    };
    let near = |margin: f64| !is_clear(margin);
    states.iter().any(|day| near(day.draft.least_margin_pascals))
        || mild.is_some_and(|mild| mild.as_ref().is_ok_and(|day| near(day.least_margin)))
        || OFF.map(decided).windows(2).any(|pair| matches!(pair, [a, b] if a != b))
}
