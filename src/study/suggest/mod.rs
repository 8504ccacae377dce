//! Other designs for the same house, wood and chimney that answer yes three times.
//!
//! All sizes are looked at by the height of the fire, the likeliest followed through the day, and
//! those that pass judged under every condition that is asked and at the unfavorable edge. The
//! order of the search is fixed: the same design gets the same answer.

mod judging;
mod space;
mod wish;

pub use space::{Puts, Space, changed, labor, with};
pub use wish::{Aim, Wish};

use super::compare::Wrong;
use super::figures::{Figures, Line};
use super::trials::Trial;
use super::variant::{Brief, Variant};
use crate::analysis::{Analysis, Failure, analyze};
use crate::design::Design;
use crate::rules::{Finding, Severity, check};
use crate::units::kelvin;
use judging::{ALWAYS, Judging, Range, Verdict};
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
/// Of so many designs one is looked at before the first is judged.
const STRIDE: usize = 3;
/// Days after which the rest is looked at, though none was judged.
const EARLY_DAYS: usize = 4;
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

/// What is put into the design, and what it comes to.
impl From<&Proposal> for Variant {
    fn from(proposal: &Proposal) -> Self {
        Self { puts: proposal.puts.clone(), brief: Some(Brief::from(&proposal.figures)) }
    }
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
    Found(Box<Proposal>),
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
    /// Its judgment under all conditions, as far as it has come.
    judging: Judging,
    /// Whether it passed the conditions that were tried, and which those were.
    screened: Option<(Range, bool)>,
    /// What it came to at the edge.
    verdict: Option<Verdict>,
}

/// A design that is being judged, by its place, and how.
#[derive(Clone, Copy, Debug)]
enum Work {
    Screen(usize, Range),
    Edge(usize),
}

/// The search, part by part.
#[derive(Clone, Debug)]
pub struct Suggest {
    design: Design,
    wish: Wish,
    space: Space,
    /// In which order the variants are looked at: every third first.
    order: Vec<usize>,
    looked: usize,
    /// What was looked at, with how unlikely it is.
    rated: Vec<(Rate, usize)>,
    waiting: Option<VecDeque<Likely>>,
    /// Variants whose day was computed.
    tried: Vec<usize>,
    followed: Vec<Followed>,
    days: usize,
    work: Option<Work>,
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
        let count = space.variants.len();
        Self {
            design: design.clone(),
            wish,
            order: (0..STRIDE).flat_map(|first| (first..count).step_by(STRIDE)).collect(),
            space,
            looked: 0,
            rated: Vec::new(),
            waiting: None,
            tried: Vec::new(),
            followed: Vec::new(),
            days: 0,
            work: None,
            ended: false,
        }
    }

    fn progress(&self) -> Part {
        let steps = |count: usize| count.div_ceil(AT_ONCE);
        let tried = self.followed.iter().map(|each| each.judging.done()).sum::<usize>();
        let at_the_edge = self.followed.iter().filter(|each| each.verdict.is_some()).count();
        let edge = Trial::ALL.len();
        let done = steps(self.looked) + self.days + tried + edge * at_the_edge;
        let all = steps(self.order.len()) + self.space.days;
        let all = all + edge * (self.space.judged + MOST);
        Part::Done(done.min(all), all)
    }

    /// Looks at some designs at the height of the fire.
    fn look(&mut self) {
        let end = (self.looked + AT_ONCE).min(self.order.len());
        for place in self.order.iter().take(end).skip(self.looked).copied() {
            if let Some(puts) = self.space.variants.get(place)
                && let Some(rate) = rate(&with(&self.design, puts), self.wish)
            {
                self.rated.push((rate, place));
            }
        }
        self.looked = end;
    }

    /// Whether something was told early, or sought for long enough.
    fn is_early(&self) -> bool {
        let is_told = self.followed.iter().any(|each| each.screened.is_some());
        !is_told && self.days < EARLY_DAYS
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
        let is_new = |each: &(usize, usize, usize)| !self.tried.contains(&each.2);
        turns.into_iter().filter(is_new).map(likely).collect()
    }

    /// Follows the next design through its day.
    fn follow(&mut self, likely: &Likely) {
        self.tried.push(likely.variant);
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
        let judging = Judging::new(&design, self.wish);
        let (screened, verdict) = (None, None);
        self.followed.push(Followed {
            puts,
            design,
            figures,
            score,
            judging,
            screened,
            verdict,
        });
    }

    /// The best design that passes its day and was not tried, unlike those that were.
    fn next_to_screen(&self) -> Option<usize> {
        let screened = || self.followed.iter().filter(|each| each.screened.is_some());
        let passed = || screened().filter(|each| is_screened(each));
        if self.space.judged <= screened().count() {
            return None;
        }
        let open = self.followed.iter().enumerate().filter(|(_, each)| {
            let is_like = |other: &Followed| is_alike(&other.design, &each.design);
            each.screened.is_none() && each.figures.passes() && !passed().any(is_like)
        });
        open.min_by(|(_, a), (_, b)| b.score.total_cmp(&a.score)).map(|(place, _)| place)
    }

    /// One that was tried only under what must pass.
    fn half_screened(&self) -> Option<usize> {
        let half = Some((Range::Asked, true));
        self.followed.iter().position(|each| each.screened == half)
    }

    /// The best of those that meet most of what is asked, for the edge of safety.
    fn next_at_the_edge(&self) -> Option<usize> {
        let asked = self.asked();
        let least = self.found().map(|each| missed(each, &asked)).min();
        if self.found().count() == MOST {
            return None;
        }
        let open = self.followed.iter().enumerate().filter(|(_, each)| {
            let is_worse = least.is_some_and(|least| least < missed(each, &asked));
            is_screened(each) && each.verdict.is_none() && !is_worse
        });
        let first = open.min_by(|(_, a), (_, b)| {
            let order = missed(a, &asked).cmp(&missed(b, &asked));
            order.then(b.score.total_cmp(&a.score))
        });
        first.map(|(place, _)| place)
    }

    fn found(&self) -> impl Iterator<Item = &Followed> {
        self.followed.iter().filter(|each| is_found(each))
    }

    /// Conditions that are asked: those of the wish, or all in which some design passes.
    fn asked(&self) -> Vec<Trial> {
        let wished = self.wish.trials().map(|wished| {
            let is_asked = |trial: &Trial| ALWAYS.contains(trial) || wished.contains(trial);
            Trial::ALL.into_iter().filter(is_asked).collect()
        });
        wished.unwrap_or_else(|| {
            let mut passed = self.followed.iter().filter(|each| is_screened(each)).peekable();
            if passed.peek().is_none() {
                return Vec::new();
            }
            let passed: Vec<_> = passed.collect();
            let met =
                |trial: &Trial| passed.iter().any(|each| !each.judging.unmet().contains(trial));
            Trial::ALL.into_iter().filter(met).collect()
        })
    }

    /// A step of a judgment.
    fn judge(&mut self, work: Work) -> Part {
        let (Work::Screen(place, _) | Work::Edge(place)) = work;
        let wish = self.wish;
        let Some(followed) = self.followed.get_mut(place) else {
            return self.progress();
        };
        self.work = Some(work);
        match work {
            Work::Screen(_, range) => {
                if let Some(passes) = followed.judging.screen(range) {
                    followed.take_figures(wish);
                    followed.screened = Some((range, passes));
                    // What is tried early is told early.
                    let is_early = range == Range::Asked && passes;
                    self.work = is_early.then_some(Work::Edge(place));
                }
            }
            Work::Edge(_) => {
                if let Some(verdict) = followed.judging.edge() {
                    self.work = None;
                    let passes = verdict.passes;
                    followed.verdict = Some(verdict);
                    if passes {
                        return Part::Found(Box::new(proposal(followed)));
                    }
                }
            }
        }
        self.progress()
    }

    fn outcome(&self) -> Outcome {
        let asked = self.asked();
        // Where the conditions are left to what is found, those that meet most of them.
        let least = self.found().map(|each| missed(each, &asked)).min().unwrap_or_default();
        let best = self.found().filter(|each| missed(each, &asked) == least);
        let mut proposals: Vec<Proposal> = best.map(proposal).collect();
        proposals.sort_by(|a, b| b.score.total_cmp(&a.score));
        let nearest = if proposals.is_empty() { self.nearest() } else { Vec::new() };
        Outcome {
            present: Figures::new(&self.design),
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
                unmet: each.judging.unmet().to_vec(),
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
        if let Some(work) = self.work.take() {
            return Some(self.judge(work));
        }
        let early = self.is_early();
        let first = self.order.len() / STRIDE;
        if self.looked < self.order.len() && (!early || self.looked < first) {
            self.look();
            self.waiting = None;
            return Some(self.progress());
        }
        if self.waiting.is_none() {
            self.waiting = Some(self.shortlist());
        }
        // The first that passes is judged at once, so that something is told early.
        let first = if early { self.next_to_screen() } else { None };
        let likely = match (first, self.days < self.space.days) {
            (None, true) => self.waiting.as_mut().and_then(VecDeque::pop_front),
            _ => None,
        };
        if let Some(likely) = likely {
            self.follow(&likely);
            return Some(self.progress());
        }
        let early = first.map(|place| Work::Screen(place, Range::Asked));
        let all = || self.half_screened().or_else(|| self.next_to_screen());
        let screen = || all().map(|place| Work::Screen(place, Range::All));
        let work = early.or_else(screen).or_else(|| self.next_at_the_edge().map(Work::Edge));
        if let Some(work) = work {
            return Some(self.judge(work));
        }
        self.ended = true;
        Some(Part::End(Box::new(self.outcome())))
    }
}

impl Followed {
    /// The figures by which it was judged.
    fn take_figures(&mut self, wish: Wish) {
        if let Some(figures) = self.judging.figures() {
            self.figures = figures;
            self.score = score(&self.design, &figures, wish);
        }
    }
}

fn is_screened(followed: &Followed) -> bool {
    followed.screened.is_some_and(|(_, passes)| passes)
}

fn is_found(followed: &Followed) -> bool {
    is_screened(followed) && followed.verdict.as_ref().is_some_and(|verdict| verdict.passes)
}

/// How many of the conditions that are asked a design does not meet.
fn missed(followed: &Followed, asked: &[Trial]) -> usize {
    followed.judging.unmet().iter().filter(|trial| asked.contains(trial)).count()
}

fn proposal(followed: &Followed) -> Proposal {
    Proposal {
        puts: followed.puts.clone(),
        figures: followed.figures,
        unmet: followed.judging.unmet().to_vec(),
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
