//! A design under every condition that is asked, and at the unfavorable edge of safety.

use super::Wish;
use crate::analysis::{Failure, analyze};
use crate::design::Design;
use crate::rules::{Answer, Finding, Known, Question, answer, deciding, judge};
use crate::study::edges::{Sample, Study};
use crate::study::trials::try_surely;
use crate::study::trials::{self, Trial, Tried, mild_of};

/// Conditions without which nothing is proposed.
const ALWAYS: [Trial; 3] = [Trial::ColdDay, Trial::MildDay, Trial::ColdStart];
/// Samples of the edge between two steps.
const AT_ONCE: usize = 8;

/// What a design came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// Whether it may be proposed.
    pub passes: bool,
    /// Conditions in which not all questions are answered yes.
    pub unmet: Vec<Trial>,
    /// What speaks against it at the edge, the weightiest of each question.
    pub against: Vec<Finding>,
}

/// The judgment, step by step.
#[derive(Clone, Debug)]
pub struct Judging {
    design: Design,
    wish: Wish,
    tried: Vec<Tried>,
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
        Self { design, wish, tried: Vec::new(), unmet: Vec::new(), edge: None }
    }

    /// Conditions that were tried.
    pub const fn done(&self) -> usize {
        self.tried.len()
    }

    fn is_asked(&self, trial: Trial) -> bool {
        ALWAYS.contains(&trial)
            || self.wish.trials().is_some_and(|asked| asked.contains(&trial))
    }

    /// The next step; its verdict when it is the last.
    pub fn step(&mut self) -> Option<Verdict> {
        if let Some(edge) = &mut self.edge {
            let done = edge.samples.len();
            let next = (done..done + AT_ONCE).filter_map(|index| edge.study.sample(index));
            edge.samples.extend(next);
            if edge.samples.len() < edge.study.len() {
                return None;
            }
            return Some(self.at_the_edge());
        }
        if let Some(trial) = self.next_trial() {
            return self.attempt(trial);
        }
        match Study::new(&self.design) {
            Ok(study) => {
                self.edge = Some(Box::new(Edge { study, samples: Vec::new() }));
                None
            }
            Err(_) => Some(self.verdict(Vec::new(), false)),
        }
    }

    /// Those that are asked first, so that a design that fails costs little.
    fn next_trial(&self) -> Option<Trial> {
        let is_new = |trial: &Trial| !self.tried.iter().any(|tried| tried.trial == *trial);
        let all = || Trial::ALL.into_iter().filter(is_new);
        let asked = all().find(|trial| self.is_asked(*trial));
        // A condition that is not asked is tried only where that is left to what is found.
        asked.or_else(|| all().next().filter(|_| self.wish.trials().is_none()))
    }

    fn attempt(&mut self, trial: Trial) -> Option<Verdict> {
        let standing = self.tried.iter().find(|tried| tried.trial == Trial::ColdDay);
        let tried = match standing {
            Some(tried) if trial == Trial::ColdStart => Tried { trial, ..tried.clone() },
            _ => try_surely(&self.design, trial),
        };
        let passes = is_yes(&self.design, &tried);
        self.tried.push(tried);
        if passes {
            return None;
        }
        self.unmet.push(trial);
        self.is_asked(trial).then(|| self.verdict(Vec::new(), false))
    }

    /// As the page judges: with the day, the mild day and the edge.
    fn at_the_edge(&self) -> Verdict {
        let found = self.edge.as_ref().map(|edge| edge.study.sum_up(&edge.samples));
        let Some(Ok(edges)) = found else {
            return self.verdict(Vec::new(), false);
        };
        let findings = self.findings(Known { edges: Some(&edges), ..Known::default() });
        let findings = findings.unwrap_or_default();
        let deciding = Question::ALL.iter().filter_map(|each| deciding(*each, &findings));
        let against = deciding.copied().collect();
        let is_yes = |question| answer(question, &findings) == Answer::Yes;
        self.verdict(against, Question::ALL.into_iter().all(is_yes))
    }

    fn findings(&self, known: Known<'_>) -> Result<Vec<Finding>, Failure> {
        let analysis = analyze(&self.design)?;
        let standing = self.tried.iter().find(|tried| tried.trial == Trial::ColdDay);
        let day = standing.and_then(|tried| tried.day.as_ref().ok());
        let mild = mild_of(&self.design, &self.tried);
        Ok(judge(&self.design, &analysis, Known { day, mild, ..known }))
    }

    fn verdict(&self, against: Vec<Finding>, passes: bool) -> Verdict {
        Verdict { passes, unmet: self.unmet.clone(), against }
    }
}

/// Whether every question that a trial asks is answered yes.
pub fn is_yes(design: &Design, tried: &Tried) -> bool {
    trials::judge(design, tried).is_ok_and(|verdict| {
        let mut answers = Question::ALL.into_iter();
        answers.all(|each| verdict.answer(each, tried.trial).is_none_or(|a| a == Answer::Yes))
    })
}
