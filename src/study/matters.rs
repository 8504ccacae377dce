//! What matters most: each size at the ends of what builders keep, and each thing that is known
//! only roughly at the ends of its range, one at a time, at the height of the fire.

use super::sort_few;
use super::uncertainty::{SPREADS, Spread, SpreadId};
use super::variant::{put, value};
use crate::analysis::factors::Factors;
use crate::analysis::{Analysis, Failure, analyze, analyze_with};
use crate::design::Design;
use crate::design::field::FieldId;
use crate::rules::{Question, conditions};

/// How far a size may come out otherwise than it was meant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reach {
    /// By so much (m).
    By(f64),
    /// By such a share (–).
    Share(f64),
}

/// Sizes with how far they may come out otherwise.
///
/// # Source
///
/// [`crate::sources::BUILDING_TOLERANCES`].
pub const TOLERANCES: [(FieldId, Reach); 17] = [
    (FieldId::FireboxWidth, Reach::By(0.005)),
    (FieldId::FireboxDepth, Reach::By(0.005)),
    (FieldId::FireboxHeight, Reach::By(0.010)),
    (FieldId::FireboxWall, Reach::By(0.005)),
    (FieldId::Crown, Reach::By(0.005)),
    (FieldId::InletArea, Reach::Share(0.10)),
    (FieldId::RunLength, Reach::By(0.010)),
    (FieldId::RunWidth, Reach::By(0.005)),
    (FieldId::RunHeight, Reach::By(0.005)),
    (FieldId::Baffle, Reach::By(0.005)),
    (FieldId::Bleed, Reach::Share(0.10)),
    (FieldId::CoreThickness, Reach::By(0.005)),
    (FieldId::FacingThickness, Reach::By(0.005)),
    (FieldId::MouthHeight, Reach::By(0.050)),
    (FieldId::FlueWidth, Reach::By(0.005)),
    (FieldId::Insulation, Reach::By(0.005)),
    (FieldId::ConnectorLength, Reach::By(0.010)),
];

/// What is varied.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// A size, by its tolerance.
    Size(FieldId),
    /// Something known only roughly, between what 90 of 100 cases lie.
    Rough(SpreadId),
}

/// The figure on which a question rests here, at the height of the fire.
pub fn figure_of(question: Question, design: &Design, analysis: &Analysis) -> f64 {
    let fire = &analysis.height_of_fire;
    match question {
        Question::Draw => {
            let spare = conditions(design, analysis).map(|each| each.margin - each.wanted);
            spare.into_iter().fold(f64::INFINITY, f64::min)
        }
        Question::Heat => fire.efficiency_lower,
        Question::Safe => fire.chimney_inlet,
    }
}

/// What one thing does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Effect {
    /// The thing.
    pub what: What,
    /// Its lower and its upper end: SI, or over what is reckoned.
    pub ends: (f64, f64),
    /// What each end changes in the figure of each question, in the order of [`Question::ALL`].
    pub changes: [(f64, f64); Question::ALL.len()],
}

impl Effect {
    /// The larger change of a question's figure, with its sign.
    pub fn most(&self, question: Question) -> f64 {
        let all = Question::ALL.into_iter().zip(self.changes);
        let mine = all.filter(|(each, _)| *each == question);
        let larger = |(low, high): (f64, f64)| if high.abs() < low.abs() { low } else { high };
        mine.map(|(_, changes)| larger(changes)).next_back().unwrap_or_default()
    }
}

/// What each thing does, one by one.
///
/// # Errors
///
/// [`Failure`]: why the design as it stands has no figures.
pub fn effects(design: &Design) -> Result<Vec<Effect>, Failure> {
    let nominal = figures(design, &analyze(design)?);
    let sizes =
        TOLERANCES.iter().filter_map(|(id, reach)| size(design, (*id, *reach), nominal));
    let rough = SPREADS.iter().filter_map(|spread| rough(design, spread, nominal));
    Ok(sizes.chain(rough).collect())
}

/// The effects on a question, the largest first; those without any are left out.
pub fn ranked(effects: &[Effect], question: Question) -> Vec<Effect> {
    let acts = |effect: &&Effect| effect.most(question).abs() > f64::EPSILON;
    let mut ranked: Vec<Effect> = effects.iter().filter(acts).copied().collect();
    sort_few(&mut ranked, |a, b| b.most(question).abs().total_cmp(&a.most(question).abs()));
    ranked
}

type Three = [f64; Question::ALL.len()];

fn figures(design: &Design, analysis: &Analysis) -> Three {
    Question::ALL.map(|question| figure_of(question, design, analysis))
}

fn size(design: &Design, (id, reach): (FieldId, Reach), nominal: Three) -> Option<Effect> {
    let stated = value(design, id);
    let by = match reach {
        Reach::By(by) => by,
        Reach::Share(share) => share * stated,
    };
    // What is not there comes out so.
    if stated <= 0.0 {
        return None;
    }
    let ends = (stated - by, stated + by);
    let at = |end: f64| {
        let mut varied = design.clone();
        put(&mut varied, id, end);
        let analysis = analyze(&varied).ok()?;
        Some(figures(&varied, &analysis))
    };
    effect(What::Size(id), ends, nominal, at)
}

fn rough(design: &Design, spread: &Spread, nominal: Three) -> Option<Effect> {
    let Spread { id, target, distribution, .. } = spread;
    let end = |share| distribution.value(target.nominal(design), &target.possible(), share);
    let at = |end: f64| {
        let (mut varied, mut factors) = (design.clone(), Factors::NOMINAL);
        target.set(&mut varied, &mut factors, end);
        let analysis = analyze_with(&varied, &factors).ok()?;
        Some(figures(&varied, &analysis))
    };
    effect(What::Rough(*id), (end(0.05), end(0.95)), nominal, at)
}

fn effect(
    what: What,
    ends: (f64, f64),
    nominal: Three,
    at: impl Fn(f64) -> Option<Three>,
) -> Option<Effect> {
    let (low, high) = (at(ends.0)?, at(ends.1)?);
    let mut changes = [(0.0, 0.0); Question::ALL.len()];
    let all = changes.iter_mut().zip(nominal).zip(low.into_iter().zip(high));
    for ((change, nominal), (low, high)) in all {
        *change = (low - nominal, high - nominal);
    }
    Some(Effect { what, ends, changes })
}
