//! Undo and redo of designs: one step per gesture.

use longsmoke::design::Design;

/// Most steps that can be undone.
const MOST_STEPS: usize = 200;

/// The design with what it was and what it will be again.
#[derive(Clone, Debug, PartialEq)]
pub struct History {
    past: Vec<Design>,
    present: Design,
    future: Vec<Design>,
    /// The design before the gesture that is under way.
    before: Option<Design>,
}

impl History {
    pub fn new(design: Design) -> Self {
        Self { past: Vec::new(), present: design, future: Vec::new(), before: None }
    }

    pub fn present(&self) -> &Design {
        &self.present
    }

    pub fn can_undo(&self) -> bool {
        self.before.is_some() || !self.past.is_empty()
    }

    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    /// Changes the design within a gesture.
    pub fn change(&mut self, design: Design) {
        let old = std::mem::replace(&mut self.present, design);
        self.before.get_or_insert(old);
    }

    /// Ends the gesture as one step.
    pub fn commit(&mut self) {
        let Some(before) = self.before.take() else {
            return;
        };
        if before == self.present {
            return;
        }
        if self.past.len() == MOST_STEPS {
            self.past.remove(0);
        }
        self.past.push(before);
        self.future.clear();
    }

    /// Ends the gesture as if it had never begun.
    pub fn cancel(&mut self) {
        if let Some(before) = self.before.take() {
            self.present = before;
        }
    }

    pub fn undo(&mut self) {
        self.commit();
        if let Some(design) = self.past.pop() {
            self.future.push(std::mem::replace(&mut self.present, design));
        }
    }

    pub fn redo(&mut self) {
        self.commit();
        if let Some(design) = self.future.pop() {
            self.past.push(std::mem::replace(&mut self.present, design));
        }
    }
}
