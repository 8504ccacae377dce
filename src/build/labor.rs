//! Hours by step of the work, from published rates with their spread, and a calendar.

use super::bricks;
use super::crew::Crew;
use super::curing::{self, AIR_DAYS};
use super::materials::{Item, Kind};
use crate::analysis::Analysis;
use crate::analysis::structure::Part;
use crate::design::Design;
use crate::sources::{CORE_LABOR, HEATER_LABOR, Source, TENDER_LABOR, TRADE_HOURS};

/// A step of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Footing: dig, form, pour.
    Footing,
    /// Base slab.
    Base,
    /// Lay out, dry-lay, cut.
    LayOut,
    /// Firebox and runs.
    Core,
    /// Crown, cap and lintels.
    Slabs,
    /// Doors, cleanouts, dampers, connector.
    Fittings,
    /// Facing with gap and ties.
    Facing,
    /// Chimney.
    Chimney,
    /// Board, hearth, pointing, cleaning up.
    Finish,
}

impl Step {
    /// All of them, in order.
    pub const ALL: [Self; 9] = [
        Self::Footing,
        Self::Base,
        Self::LayOut,
        Self::Core,
        Self::Slabs,
        Self::Fittings,
        Self::Chimney,
        Self::Facing,
        Self::Finish,
    ];
}

/// At least and at most.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Spread {
    /// At least.
    pub low: f64,
    /// At most.
    pub high: f64,
}

impl Spread {
    const fn new(low: f64, high: f64) -> Self {
        Self { low, high }
    }

    fn times(self, by: f64) -> Self {
        Self { low: self.low * by, high: self.high * by }
    }

    fn plus(self, other: Self) -> Self {
        Self { low: self.low + other.low, high: self.high + other.high }
    }

    /// Between both.
    pub fn middle(self) -> f64 {
        0.5 * (self.low + self.high)
    }
}

/// Hours of a step, as masons and their tenders take them who have built such heaters.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Work {
    /// The step.
    pub step: Step,
    /// Hours of masons.
    pub mason: Spread,
    /// Hours of those who mix, carry and cut.
    pub tender: Spread,
    /// Where the rate comes from.
    pub source: &'static Source,
}

impl Work {
    /// Hours of all hands.
    pub fn hours(&self) -> Spread {
        self.mason.plus(self.tender)
    }
}

/// Hours of a mason's day to which the rates belong.
const DAY: f64 = 8.0;
/// Firebricks of a core with many cuts that a mason lays in a day.
const CORE_RATE: Spread = Spread::new(100.0, 200.0);
/// Face bricks that a mason lays in a day.
const FACE_RATE: Spread = Spread::new(300.0, 400.0);
/// Stone over brick of the same face (–).
const STONE: Spread = Spread::new(1.5, 2.0);
/// Bricks of 1 m2 of face for which the rates are meant: modular brick (1/m2).
const FACE_BRICKS: f64 = 6.75 / (0.3048 * 0.3048);
/// Concrete by hand (h/m3).
const CONCRETE: Spread = Spread::new(4.0, 8.0);
/// A slab or a lintel that is cast or set (h).
const SLAB: Spread = Spread::new(2.0, 5.0);
/// A door or damper (h), a cleanout (h).
const DOOR: Spread = Spread::new(1.5, 4.0);
const CLEANOUT: Spread = Spread::new(0.5, 1.0);
/// Liner or pipe (h/m).
const LINER: Spread = Spread::new(0.4, 1.0);
/// Board or hearth (h/m2).
const BOARD: Spread = Spread::new(0.5, 1.5);
/// Laying out with the first course dry; cleaning up (h).
const ONCE: Spread = Spread::new(6.0, 12.0);

/// Hours for so many bricks at a rate of a day.
fn laid(bricks: f64, rate: Spread) -> Spread {
    Spread::new(DAY * bricks / rate.high, DAY * bricks / rate.low)
}

/// Hours by step; steps that the design does not have are left out.
pub fn labor(design: &Design, analysis: &Analysis, items: &[Item]) -> Vec<Work> {
    let net = |kind| items.iter().filter(|item| item.kind == kind).map(|item| item.net).sum();
    let work = |step| {
        let (mason, helped, source) = rate(design, analysis, step, &net);
        let tender = mason.times(if helped { 1.0 } else { 0.0 });
        (0.0 < mason.high).then_some(Work { step, mason, tender, source })
    };
    Step::ALL.into_iter().filter_map(work).collect()
}

/// Hours of masons for a step, whether as many tenders help, and the source.
fn rate(
    design: &Design,
    analysis: &Analysis,
    step: Step,
    net: &dyn Fn(Kind) -> f64,
) -> (Spread, bool, &'static Source) {
    let trade = |hours| (hours, false, &TRADE_HOURS);
    match step {
        Step::Footing => trade(CONCRETE.times(net(Kind::FootingConcrete))),
        Step::Base => trade(CONCRETE.times(net(Kind::BaseConcrete))),
        Step::LayOut | Step::Finish => {
            let flat = BOARD.times(net(Kind::Hearth));
            trade(if step == Step::Finish { ONCE.plus(flat) } else { ONCE })
        }
        Step::Core => {
            // A core that is not of brick is reckoned as firebrick of the same volume.
            let brick = design.shell.core().unwrap_or(crate::design::brick::Brick::FIREBRICK);
            let bricks = bricks::core_amount(design, &analysis.structure, brick).bricks;
            (laid(bricks, CORE_RATE), true, &CORE_LABOR)
        }
        Step::Slabs => {
            let slabs = [Kind::CrownSlab, Kind::CapSlab].map(net);
            let slabs = slabs.into_iter().filter(|volume| 0.0 < *volume).map(|_| 1.0);
            trade(SLAB.times(slabs.sum::<f64>() + net(Kind::CoreLintel)))
        }
        Step::Fittings => {
            let doors = [Kind::Door, Kind::OvenDoor, Kind::Damper, Kind::Bypass].map(net);
            let connector = LINER.times(net(Kind::Connector));
            let cleanouts = CLEANOUT.times(net(Kind::Cleanout));
            trade(DOOR.times(doors.iter().sum()).plus(cleanouts).plus(connector))
        }
        Step::Facing => {
            let facing = analysis.structure.parts.iter().find(|each| each.part == Part::Facing);
            let volume = facing.map_or(0.0, |facing| facing.volume);
            let thickness = design.shell.facing_thickness;
            let area = if 0.0 < thickness { volume / thickness } else { 0.0 };
            let hours = laid(FACE_BRICKS * area, FACE_RATE);
            let stone = 0.0 < net(Kind::FacingStone);
            let hours = if stone {
                Spread::new(hours.low * STONE.low, hours.high * STONE.high)
            } else {
                hours
            };
            (hours, true, if stone { &HEATER_LABOR } else { &TENDER_LABOR })
        }
        Step::Chimney => {
            let hours = laid(net(Kind::ChimneyBrick), FACE_RATE);
            (hours.plus(LINER.times(net(Kind::Liner))), true, &TENDER_LABOR)
        }
    }
}

/// A line of the calendar.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// What is done or waited for.
    pub what: Doing,
    /// How long it takes: working days, or days of waiting.
    pub days: Spread,
    /// First day and last, in the middle of the spread, weekends included, from 1.
    pub from_to: (f64, f64),
}

/// What is done or waited for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing {
    /// A step of the work.
    Work(Step),
    /// Concrete gets hard.
    Hardening,
    /// Masonry dries in the air.
    Drying,
    /// The first fires.
    Curing,
}

/// Days that concrete hardens before it is loaded.
const HARDENING: Spread = Spread::new(3.0, 7.0);
/// Working days of a week.
const WEEK: (f64, f64) = (5.0, 7.0);

/// The work and its waits, one after the other, for a crew.
pub fn calendar(design: &Design, labor: &[Work], crew: Crew) -> Vec<Line> {
    let mut lines = Vec::new();
    let mut day = 0.0;
    let mut put = |what, days: Spread, in_a_week: f64| {
        let (_, week) = WEEK;
        let begins = day;
        day += days.middle() * week / in_a_week;
        let last = libm::ceil(day - 1e-9).max(libm::floor(begins) + 1.0);
        lines.push(Line { what, days, from_to: (libm::floor(begins) + 1.0, last) });
    };
    let (working, week) = WEEK;
    for work in labor {
        let hours = work.hours();
        let days = Spread::new(crew.days(hours.low), crew.days(hours.high));
        put(Doing::Work(work.step), days, working);
        if matches!(work.step, Step::Footing | Step::Base) {
            put(Doing::Hardening, HARDENING, week);
        }
    }
    put(Doing::Drying, Spread::new(AIR_DAYS.0, AIR_DAYS.1), week);
    let fires = curing::charges(design.fire.charge).len();
    let fires = f64::from(u32::try_from(fires).unwrap_or(u32::MAX));
    put(Doing::Curing, Spread::new(fires, fires), week);
    lines
}

/// Hours of all steps.
pub fn sum(labor: &[Work], of: impl Fn(&Work) -> Spread) -> Spread {
    labor.iter().map(of).fold(Spread::default(), Spread::plus)
}
