//! A design under every condition that is asked, and at the unfavorable edge of safety.

use super::Wish;
use super::pieces::Found;
use crate::analysis::analyze;
use crate::design::Design;
use crate::rules::{Answer, Edges, Finding, Known, Question, answer, deciding, judge};
use crate::study::figures::Figures;
use crate::study::trials::{Trial, Tried, has_mild_day, judge as judge_trial, mild_of};

/// Conditions without which nothing is proposed.
pub const ALWAYS: [Trial; 3] = [Trial::ColdDay, Trial::MildDay, Trial::ColdStart];

/// What a design came to.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Verdict {
    /// Whether it may be proposed.
    pub passes: bool,
    /// What speaks against it at the edge, the weightiest of each question.
    pub against: Vec<Finding>,
}

/// Which conditions are tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Range {
    /// Those that must pass.
    Asked,
    /// The others too, where none is asked.
    All,
}

/// What must be known for the next step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need {
    /// The days of the design, which three conditions share.
    Days,
    /// The design under a condition.
    Trial(Trial),
}

/// The judgment, step by step.
#[derive(Clone, Debug)]
pub struct Judging {
    design: Design,
    wish: Wish,
    figures: Option<Figures>,
    tried: Vec<Tried>,
    /// Conditions in which not all questions are answered yes.
    unmet: Vec<Trial>,
}

impl Judging {
    /// The judgment of a design.
    pub fn new(design: &Design, wish: Wish) -> Self {
        let design = design.clone();
        Self { design, wish, figures: None, tried: Vec::new(), unmet: Vec::new() }
    }

    /// Conditions that were tried.
    pub const fn done(&self) -> usize {
        self.tried.len()
    }

    /// Those in which not all questions are answered yes.
    pub fn unmet(&self) -> &[Trial] {
        &self.unmet
    }

    /// What the judgment still needs, the first first.
    ///
    /// * `range`: which conditions are tried.
    pub fn needs(&self, range: Range) -> Vec<Need> {
        let days = self.figures.is_none().then_some(Need::Days);
        let asked = self.wish.trials();
        let is_asked = |trial: &Trial| match (&asked, range) {
            (Some(asked), _) => asked.contains(trial),
            (None, range) => range == Range::All,
        };
        // The days bring three of them, the mild one where there is one.
        let comes = |trial: &Trial| match trial {
            Trial::ColdDay | Trial::ColdStart => true,
            Trial::MildDay => has_mild_day(&self.design),
            _ => false,
        };
        let is_open = |trial: &Trial| {
            let known = self.tried.iter().any(|tried| tried.trial == *trial);
            !(known || days.is_some() && comes(trial))
        };
        let rest = Trial::ALL.into_iter().filter(|each| !ALWAYS.contains(each));
        let trials = ALWAYS.into_iter().chain(rest.filter(is_asked)).filter(is_open);
        days.into_iter().chain(trials.map(Need::Trial)).collect()
    }

    /// Takes what was needed; whether all passed that must, where that is settled.
    pub fn take(&mut self, range: Range, found: Option<Found>) -> Option<bool> {
        match found {
            Some(Found::Days(days)) => {
                let days = *days;
                self.figures = days.as_ref().map(|days| days.figures);
                let Some(days) = days.filter(|days| days.figures.passes()) else {
                    return Some(false);
                };
                let stated = |trial| Tried { trial, day: Ok(days.stated) };
                let mut known = vec![stated(Trial::ColdDay), stated(Trial::ColdStart)];
                if has_mild_day(&self.design) {
                    known.extend(days.mild.map(|day| Tried { trial: Trial::MildDay, day }));
                }
                if !known.into_iter().all(|tried| self.passes(tried)) {
                    return Some(false);
                }
            }
            Some(Found::Tried(tried)) => {
                let must = ALWAYS.contains(&tried.trial) || self.wish.trials().is_some();
                if !self.passes(*tried) && must {
                    return Some(false);
                }
            }
            _ => {}
        }
        self.needs(range).is_empty().then_some(true)
    }

    /// Figures of its days.
    pub const fn figures(&self) -> Option<Figures> {
        self.figures
    }

    fn passes(&mut self, tried: Tried) -> bool {
        let trial = tried.trial;
        let judged = judge_trial(&self.design, &tried);
        let passes = judged.is_ok_and(|verdict| verdict.passes(trial));
        self.tried.push(tried);
        if !passes {
            self.unmet.push(trial);
        }
        passes
    }

    /// As the page judges: with the day, the mild day and the edge.
    pub fn at_the_edge(&self, edges: Option<&Edges>) -> Verdict {
        let Some(findings) = edges.and_then(|edges| self.findings(edges)) else {
            return Verdict::default();
        };
        let against = Question::ALL.iter().filter_map(|each| deciding(*each, &findings));
        let is_yes = |question| answer(question, &findings) == Answer::Yes;
        Verdict {
            passes: Question::ALL.into_iter().all(is_yes),
            against: against.copied().collect(),
        }
    }

    fn findings(&self, edges: &Edges) -> Option<Vec<Finding>> {
        let analysis = analyze(&self.design).ok()?;
        let standing = self.tried.iter().find(|tried| tried.trial == Trial::ColdDay);
        let day = standing.map(|tried| tried.day.as_ref());
        let mild = mild_of(&self.design, &self.tried).map(Result::as_ref);
        Some(judge(&self.design, &analysis, Known { day, mild, edges: Some(Ok(edges)) }))
    }
}
