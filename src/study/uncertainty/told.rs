//! The samples a few at a time.

use super::{Plan, Sample, Setup, Uncertainty};
use crate::design::Design;

/// What is told of the samples, in this order.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// So many are computed.
    Done(usize),
    /// What all of them say together; the last part.
    Found(Box<Uncertainty>),
    /// No figures were found at any of them; the last part then.
    Nothing,
}

/// Samples that are computed between two parts: some 20 ms in a browser, in which nobody is heard.
const AT_ONCE: usize = 25;

/// The parts, one by one.
#[derive(Clone, Debug)]
pub struct Parts {
    plan: Plan,
    samples: Vec<Sample>,
    told: bool,
}

impl Parts {
    /// All spreads of a design, with as many samples as are enough.
    pub fn new(design: &Design) -> Self {
        let plan = Plan::new(design, Setup::standard(Setup::ENOUGH));
        Self { plan, samples: Vec::new(), told: false }
    }
}

impl Iterator for Parts {
    type Item = Part;

    fn next(&mut self) -> Option<Part> {
        let done = self.samples.len();
        if done < self.plan.len() {
            let next = (done..done + AT_ONCE).filter_map(|index| self.plan.sample(index));
            self.samples.extend(next);
            return Some(Part::Done(self.samples.len()));
        }
        if std::mem::replace(&mut self.told, true) {
            return None;
        }
        let found = self.plan.sum_up(&self.samples);
        Some(found.map_or(Part::Nothing, |found| Part::Found(Box::new(found))))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn samples_are_counted_and_summed_up() {
        let design = Design::demonstration();
        let parts: Vec<Part> = Parts::new(&design).collect();
        let (last, before) = parts.split_last().unwrap();
        let counts: Vec<Part> = (1..=20).map(|part| Part::Done(25 * part)).collect();
        assert_eq!(before, counts);
        let plan = Plan::new(&design, Setup::standard(Setup::ENOUGH));
        let whole = plan.sum_up(&plan.samples().collect::<Vec<_>>()).unwrap();
        assert_eq!(*last, Part::Found(Box::new(whole)));
    }
}
