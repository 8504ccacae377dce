//! Other designs for the same house, wood and chimney that answer yes three times.
//!
//! All sizes are looked at by the height of the fire, the likeliest followed through the day, and
//! those that pass judged under every condition that is asked and at the unfavorable edge. The
//! order of the search is fixed: the same design gets the same answer.

mod judging;
mod space;
mod wish;

pub use judging::Judging;
pub use space::{Puts, Space, changed, labor, with};
pub use wish::{Aim, Wish};

use super::compare::Wrong;
use super::figures::{Figures, Line};
use super::trials::Trial;
use crate::analysis::{Analysis, Failure, analyze};
use crate::design::Design;
use crate::rules::{Finding, Severity, check};
use crate::units::kelvin;
use judging::Verdict;
use space::is_of_the_shell;
use std::cmp::Ordering;
use std::collections::VecDeque;

/// Most designs that are proposed.
pub const MOST: usize = 5;
/// Most that are told where none answers yes three times.
pub const NEAREST: usize = 3;
/// Designs that are looked at between two parts.
const AT_ONCE: usize = 40;
/// Gas into the chimney at the height of the fire from which the means of the days mostly lie
/// within what is good (K).
const LIKELY: (f64, f64) = (kelvin(95.0), kelvin(145.0));
/// Kelvins off that weigh as much as an aim's whole step.
const OFF: f64 = 10.0;
/// Draft to spare on a mild day at the height of the fire that a whole burn seems to ask (Pa).
const LIKELY_DRAFT: f64 = 15.0;
/// Pascals short of it that weigh as much as an aim's whole step.
const SHORT: f64 = 5.0;

/// A design that is proposed.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// What differs from the present design.
    pub puts: Puts,
    /// What it comes to.
    pub figures: Figures,
    /// Conditions in which not all questions are answered yes; none of those that were asked.
    pub unmet: Vec<Trial>,
    /// How far it serves the aims, in steps of them.
    pub score: f64,
}

/// A design that does not pass, with what speaks against it.
#[derive(Clone, Debug, PartialEq)]
pub struct Near {
    /// What differs from the present design.
    pub puts: Puts,
    /// What it comes to.
    pub figures: Figures,
    /// What decides each question that is not answered yes.
    pub against: Vec<Finding>,
    /// Conditions in which not all questions are answered yes, where it failed there alone.
    pub unmet: Vec<Trial>,
}

/// What a search came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The design as it stands.
    pub present: Result<Figures, Failure>,
    /// The best first.
    pub proposals: Vec<Proposal>,
    /// Where there are none: the least wrong first, each with another number of runs.
    pub nearest: Vec<Near>,
    /// Sizes that were looked at.
    pub looked: usize,
    /// Days that were computed.
    pub followed: usize,
    /// Conditions under which a yes was asked.
    pub asked: Vec<Trial>,
}

/// What is told, in this order.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// So many steps of at most so many are done.
    Done(usize, usize),
    /// A design was found; its place among others comes with the outcome.
    Found(Proposal),
    /// All of it; the last part.
    End(Box<Outcome>),
}

/// A likely design that waits for its day.
#[derive(Clone, Debug)]
struct Likely {
    variant: usize,
    shell: usize,
}

/// A design whose day was followed.
#[derive(Clone, Debug)]
struct Followed {
    puts: Puts,
    design: Design,
    figures: Figures,
    score: f64,
    /// None before it was judged under all conditions.
    verdict: Option<Verdict>,
}

/// The search, part by part.
#[derive(Clone, Debug)]
pub struct Suggest {
    design: Design,
    wish: Wish,
    space: Space,
    present: Option<Result<Figures, Failure>>,
    looked: usize,
    /// What was looked at, with how unlikely it is.
    rated: Vec<(Rate, usize)>,
    waiting: Option<VecDeque<Likely>>,
    followed: Vec<Followed>,
    days: usize,
    judging: Option<(usize, Judging)>,
    judged: usize,
    told: usize,
    ended: bool,
}

/// How unlikely a design is: what speaks against it at the height of the fire, then how far it is
/// from what mostly passes, less what it brings.
type Rate = (usize, f64);

impl Suggest {
    /// A search around a design.
    pub fn new(design: &Design, wish: Wish) -> Self {
        Self::within(design, wish, Space::around(design))
    }

    /// A search within a space.
    pub fn within(design: &Design, wish: Wish, space: Space) -> Self {
        Self {
            design: design.clone(),
            wish,
            space,
            present: None,
            looked: 0,
            rated: Vec::new(),
            waiting: None,
            followed: Vec::new(),
            days: 0,
            judging: None,
            judged: 0,
            told: 0,
            ended: false,
        }
    }

    fn progress(&self) -> Part {
        let steps = |count: usize| count.div_ceil(AT_ONCE);
        let conditions = Trial::ALL.len();
        let left = self.judging.as_ref().map_or(0, |(_, judging)| judging.done());
        let done = steps(self.looked) + self.days + conditions * self.judged + left;
        let all = steps(self.space.variants.len()) + self.space.days;
        let all = all + conditions * self.space.judged;
        Part::Done(done.min(all), all)
    }

    /// Looks at some designs at the height of the fire.
    fn look(&mut self) {
        let end = (self.looked + AT_ONCE).min(self.space.variants.len());
        for place in self.looked..end {
            if let Some(puts) = self.space.variants.get(place)
                && let Some(rate) = rate(&with(&self.design, puts), self.wish)
            {
                self.rated.push((rate, place));
            }
        }
        self.looked = end;
        if self.looked == self.space.variants.len() {
            self.waiting = Some(self.shortlist());
        }
    }

    /// The likeliest designs, of each number of runs in turn.
    fn shortlist(&mut self) -> VecDeque<Likely> {
        self.rated.sort_by(|(one, a), (other, b)| compare(*one, *other).then(a.cmp(b)));
        let runs = |place: usize| {
            let puts = self.space.variants.get(place).map_or(&[][..], Vec::as_slice);
            with(&self.design, puts).path.run_count
        };
        let mut turns: Vec<(usize, usize, usize)> = Vec::new();
        for (rank, (_, place)) in self.rated.iter().enumerate() {
            let turn = turns.iter().filter(|(.., other)| runs(*other) == runs(*place)).count();
            // A place further down the list for each one before with as many runs.
            turns.push((rank + TURN * turn, rank, *place));
        }
        turns.sort_unstable();
        let likely = |(.., variant): (usize, usize, usize)| Likely { variant, shell: 0 };
        turns.into_iter().map(likely).collect()
    }

    /// Follows the next design through its day.
    fn follow(&mut self, likely: &Likely) {
        let variant = self.space.variants.get(likely.variant).cloned().unwrap_or_default();
        let shell = self.space.shells.get(likely.shell).cloned().unwrap_or_default();
        let puts = changed(&self.design, &[variant, shell].concat());
        if puts.is_empty() {
            return;
        }
        let design = with(&self.design, &puts);
        self.days += 1;
        let Ok(figures) = Figures::roughly(&design) else {
            return;
        };
        let score = score(&design, &figures, self.wish);
        let against = figures.verdicts.iter().filter_map(|verdict| verdict.deciding);
        let is_mended = against.clone().all(|each| is_of_the_shell(each.rule, each.severity));
        if !figures.passes() && is_mended && likely.shell + 1 < self.space.shells.len() {
            let next = Likely { shell: likely.shell + 1, ..*likely };
            self.waiting.get_or_insert_default().push_front(next);
        }
        self.followed.push(Followed { puts, design, figures, score, verdict: None });
    }

    /// The best design that passes its day and was not judged yet, unlike those that were found.
    fn next_to_judge(&self) -> Option<usize> {
        if self.judged == self.space.judged || self.found().count() == MOST {
            return None;
        }
        let taken = |each: &Followed| {
            self.found().any(|(other, _)| is_alike(&other.design, &each.design))
        };
        let open = self.followed.iter().enumerate().filter(|(_, each)| {
            each.verdict.is_none() && each.figures.passes() && !taken(each)
        });
        open.min_by(|(_, a), (_, b)| b.score.total_cmp(&a.score)).map(|(place, _)| place)
    }

    fn found(&self) -> impl Iterator<Item = (&Followed, &Verdict)> {
        let judged = self.followed.iter();
        judged.filter_map(|each| Some((each, each.verdict.as_ref().filter(|v| v.passes)?)))
    }

    /// A step of the judgment under all conditions.
    fn judge(&mut self, place: usize, mut judging: Judging) -> Part {
        let Some(verdict) = judging.step() else {
            self.judging = Some((place, judging));
            return self.progress();
        };
        self.judged += 1;
        let Some(followed) = self.followed.get_mut(place) else {
            return self.progress();
        };
        let figures = Figures::new(&followed.design);
        let passes = verdict.passes && figures.as_ref().is_ok_and(Figures::passes);
        if let Ok(figures) = figures {
            followed.figures = figures;
            followed.score = score(&followed.design, &followed.figures, self.wish);
        }
        let verdict = Verdict { passes, ..verdict };
        followed.verdict = Some(verdict.clone());
        if passes {
            self.told += 1;
            Part::Found(proposal(followed, &verdict))
        } else {
            self.progress()
        }
    }

    fn outcome(&mut self) -> Outcome {
        let mut proposals: Vec<Proposal> =
            self.found().map(|(each, verdict)| proposal(each, verdict)).collect();
        let asked = self.wish.trials().unwrap_or_else(|| {
            let met = |trial: &Trial| proposals.iter().any(|each| !each.unmet.contains(trial));
            Trial::ALL.into_iter().filter(met).collect()
        });
        // Where the conditions are left to what is found, those that meet most of them.
        let missed = |each: &Proposal| each.unmet.iter().filter(|t| asked.contains(t)).count();
        let least = proposals.iter().map(missed).min().unwrap_or_default();
        proposals.retain(|each| missed(each) == least);
        proposals.sort_by(|a, b| b.score.total_cmp(&a.score));
        let nearest = if proposals.is_empty() { self.nearest() } else { Vec::new() };
        let present = self.present.take();
        Outcome {
            present: present.unwrap_or(Err(Failure::NotFinite)),
            proposals,
            nearest,
            looked: self.looked,
            followed: self.days,
            asked,
        }
    }

    fn nearest(&self) -> Vec<Near> {
        let mut wrong: Vec<(Option<Wrong>, &Followed)> =
            self.followed.iter().map(|each| (Wrong::new(&each.figures), each)).collect();
        wrong.sort_by(|(one, _), (other, _)| match (one, other) {
            (Some(one), Some(other)) => one.cmp(other),
            (one, other) => one.is_some().cmp(&other.is_some()),
        });
        let mut nearest: Vec<Near> = Vec::new();
        let mut known: Vec<usize> = Vec::new();
        for (_, each) in wrong {
            let runs = each.design.path.run_count;
            if known.contains(&runs) || nearest.len() == NEAREST {
                continue;
            }
            known.push(runs);
            let verdict = each.verdict.as_ref();
            let edge = verdict.map(|verdict| verdict.against.clone()).unwrap_or_default();
            let of_day = each.figures.verdicts.iter().filter_map(|verdict| verdict.deciding);
            let mut against: Vec<Finding> = Vec::new();
            for finding in of_day.chain(edge) {
                if !against.iter().any(|other| other.rule == finding.rule) {
                    against.push(finding);
                }
            }
            nearest.push(Near {
                puts: each.puts.clone(),
                figures: each.figures,
                against,
                unmet: verdict.map(|verdict| verdict.unmet.clone()).unwrap_or_default(),
            });
        }
        nearest
    }
}

/// Places by which a further design of as many runs goes down the list.
const TURN: usize = 12;

impl Iterator for Suggest {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        if self.ended {
            return None;
        }
        if self.present.is_none() {
            self.present = Some(Figures::new(&self.design));
            return Some(self.progress());
        }
        if let Some((place, judging)) = self.judging.take() {
            return Some(self.judge(place, judging));
        }
        if self.waiting.is_none() {
            self.look();
            return Some(self.progress());
        }
        // The first that passes is judged at once, so that something is told early.
        let first =
            if self.told == 0 && self.judged == 0 { self.next_to_judge() } else { None };
        let likely = match (first, self.days < self.space.days) {
            (None, true) => self.waiting.as_mut().and_then(VecDeque::pop_front),
            _ => None,
        };
        if let Some(likely) = likely {
            self.follow(&likely);
            return Some(self.progress());
        }
        if let Some(place) = first.or_else(|| self.next_to_judge()) {
            let design = self.followed.get(place).map(|each| each.design.clone());
            let design = design.unwrap_or_else(|| self.design.clone());
            self.judging = Some((place, Judging::new(&design, self.wish)));
            return Some(self.progress());
        }
        self.ended = true;
        Some(Part::End(Box::new(self.outcome())))
    }
}

fn proposal(followed: &Followed, verdict: &Verdict) -> Proposal {
    Proposal {
        puts: followed.puts.clone(),
        figures: followed.figures,
        unmet: verdict.unmet.clone(),
        score: followed.score,
    }
}

/// Designs that differ in no more than the length of their runs are alike.
fn is_alike(one: &Design, other: &Design) -> bool {
    let same_length = |design: &Design| {
        let mut design = design.clone();
        design.path.run_length = 1.0;
        design
    };
    same_length(one) == same_length(other)
}

fn compare(one: Rate, other: Rate) -> Ordering {
    one.0.cmp(&other.0).then(one.1.total_cmp(&other.1))
}

/// How unlikely a design is to pass; none where it cannot be analyzed.
fn rate(design: &Design, wish: Wish) -> Option<Rate> {
    let analysis = analyze(design).ok()?;
    let weigh = |finding: &Finding| match finding.severity {
        _ if finding.rule.is_of_the_day() => 0,
        _ if is_of_the_shell(finding.rule, finding.severity) => 0,
        Severity::GoodToKnow => 0,
        Severity::LookAgain => 1,
        Severity::DoNotBuild => 3,
    };
    let against = check(design, &analysis).iter().map(weigh).sum();
    let inlet = analysis.height_of_fire.chimney_inlet;
    let off = (LIKELY.0 - inlet).max(inlet - LIKELY.1).max(0.0) / OFF;
    let margin = analysis.conditions.mild_day.stated.margin;
    let short = (LIKELY_DRAFT - margin).max(0.0) / SHORT;
    Some((against, off + short - promise(design, &analysis, wish)))
}

/// Steps of the aims: so much of each is worth as much as of any other. A convention of this
/// project.
const STEP_WARMTH: f64 = 4.0 * 3600.0;
const STEP_EFFICIENCY: f64 = 0.05;
const STEP_MASS: f64 = 1000.0;
const STEP_LABOR: f64 = 2.0;
/// Time that stands for warmth that does not fall to half within days (s).
const DAYS: f64 = 96.0 * 3600.0;

/// What of the aims shows at the height of the fire.
fn promise(design: &Design, analysis: &Analysis, wish: Wish) -> f64 {
    let fire = &analysis.height_of_fire;
    sum(wish, |aim| match aim {
        Aim::Warmth => 0.0,
        Aim::Wood => fire.efficiency_lower / STEP_EFFICIENCY,
        Aim::Masonry => -analysis.structure.heater / STEP_MASS,
        Aim::Simplicity => -labor(design) / STEP_LABOR,
    })
}

/// How far a design serves the aims, in steps of them.
pub fn score(design: &Design, figures: &Figures, wish: Wish) -> f64 {
    let line = |line| figures.line(line).unwrap_or_default();
    sum(wish, |aim| match aim {
        Aim::Warmth => figures.line(Line::HalfWarm).unwrap_or(DAYS) / STEP_WARMTH,
        Aim::Wood => line(Line::Efficiency) / STEP_EFFICIENCY,
        Aim::Masonry => -line(Line::Mass) / STEP_MASS,
        Aim::Simplicity => -labor(design) / STEP_LABOR,
    })
}

fn sum(wish: Wish, of: impl Fn(Aim) -> f64) -> f64 {
    Aim::ALL.into_iter().filter(|aim| wish.aims_at(*aim)).map(of).sum()
}
