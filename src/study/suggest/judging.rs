//! A design under every condition that is asked, and at the unfavorable edge of safety.

use super::Wish;
use crate::analysis::analyze;
use crate::design::Design;
use crate::rules::{Answer, Edges, Finding, Known, Question, answer, deciding, judge};
use crate::study::edges::{Sample, Study};
use crate::study::figures::{Days, Figures};
use crate::study::trials::{
    Trial, Tried, has_mild_day, judge as judge_trial, mild_of, try_surely,
};

/// Conditions without which nothing is proposed.
pub const ALWAYS: [Trial; 3] = [Trial::ColdDay, Trial::MildDay, Trial::ColdStart];
/// Samples of the edge between two steps.
const AT_ONCE: usize = 8;

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

/// The judgment, step by step.
#[derive(Clone, Debug)]
pub struct Judging {
    design: Design,
    wish: Wish,
    figures: Option<Figures>,
    tried: Vec<Tried>,
    /// Conditions in which not all questions are answered yes.
    unmet: Vec<Trial>,
    edge: Option<Box<Edge>>,
}

#[derive(Clone, Debug)]
struct Edge {
    study: Study,
    samples: Vec<Sample>,
}

impl Judging {
    /// The judgment of a design.
    pub fn new(design: &Design, wish: Wish) -> Self {
        let design = design.clone();
        let (tried, unmet) = (Vec::new(), Vec::new());
        Self { design, wish, figures: None, tried, unmet, edge: None }
    }

    /// Conditions that were tried.
    pub const fn done(&self) -> usize {
        self.tried.len()
    }

    /// Those in which not all questions are answered yes.
    pub fn unmet(&self) -> &[Trial] {
        &self.unmet
    }

    /// The next condition; whether all passed that must, when it was the last.
    ///
    /// * `range`: which conditions are tried.
    pub fn screen(&mut self, range: Range) -> Option<bool> {
        if self.figures.is_none() {
            return (!self.begin()).then_some(false);
        }
        let asked = self.wish.trials();
        let is_asked = |trial: &Trial| match (&asked, range) {
            (Some(asked), _) => asked.contains(trial),
            (None, range) => range == Range::All,
        };
        let next = Trial::ALL.into_iter().find(|each| is_asked(each) && !self.is_tried(*each));
        let Some(trial) = next else {
            return Some(true);
        };
        let passes = self.attempt(trial);
        (!passes && asked.is_some()).then_some(false)
    }

    /// The next step at the edge of safety; its verdict when it is the last.
    pub fn edge(&mut self) -> Option<Verdict> {
        if let Some(edge) = &mut self.edge {
            let done = edge.samples.len();
            let next = (done..done + AT_ONCE).filter_map(|index| edge.study.sample(index));
            edge.samples.extend(next);
            let is_last = edge.study.len() <= edge.samples.len();
            return is_last.then(|| self.at_the_edge());
        }
        let Ok(study) = Study::new(&self.design) else {
            return Some(Verdict::default());
        };
        self.edge = Some(Box::new(Edge { study, samples: Vec::new() }));
        None
    }

    /// Figures of its days.
    pub const fn figures(&self) -> Option<Figures> {
        self.figures
    }

    fn is_tried(&self, trial: Trial) -> bool {
        self.tried.iter().any(|tried| tried.trial == trial)
    }

    /// The days of the design, which three conditions share; whether they pass.
    fn begin(&mut self) -> bool {
        let Ok(days) = Days::new(&self.design) else {
            return false;
        };
        self.figures = Some(days.figures);
        if !days.figures.passes() {
            return false;
        }
        let stated = |trial| Tried { trial, day: Ok(days.stated) };
        let mut known = vec![stated(Trial::ColdDay), stated(Trial::ColdStart)];
        if has_mild_day(&self.design) {
            known.extend(days.mild.map(|day| Tried { trial: Trial::MildDay, day }));
        }
        let passes = known.into_iter().all(|tried| self.take(tried));
        passes && ALWAYS.into_iter().all(|each| self.is_tried(each) || self.attempt(each))
    }

    fn attempt(&mut self, trial: Trial) -> bool {
        let tried = try_surely(&self.design, trial);
        self.take(tried)
    }

    fn take(&mut self, tried: Tried) -> bool {
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
    fn at_the_edge(&self) -> Verdict {
        let found = self.edge.as_ref().map(|edge| edge.study.sum_up(&edge.samples));
        let findings = match found {
            Some(Ok(edges)) => self.findings(&edges),
            _ => None,
        };
        let Some(findings) = findings else {
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
        let day = standing.and_then(|tried| tried.day.as_ref().ok());
        let mild = mild_of(&self.design, &self.tried);
        Some(judge(&self.design, &analysis, Known { day, mild, edges: Some(edges) }))
    }
}
