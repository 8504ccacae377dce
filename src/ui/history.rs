//! Undo and redo of designs: one step per gesture.

use longsmoke::design::Design;
use longsmoke::design::document::{self, Document};
use longsmoke::design::link::Linked;
use serde_json::Value;
use std::sync::Arc;

/// Most steps that can be undone.
const MOST_STEPS: usize = 200;

/// A design with the file from which it came, for what we do not know in it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    pub design: Design,
    /// Designs that are pinned beside it.
    pub pinned: Arc<[Design]>,
    pub original: Option<Arc<Value>>,
}

impl From<Design> for Step {
    fn from(design: Design) -> Self {
        Self { design, pinned: Arc::default(), original: None }
    }
}

impl From<Document> for Step {
    fn from(Document { design, pinned, original }: Document) -> Self {
        Self { design, pinned: pinned.into(), original: Some(Arc::new(original)) }
    }
}

impl From<Linked> for Step {
    fn from(Linked { design, pinned }: Linked) -> Self {
        Self { design, pinned: pinned.into(), original: None }
    }
}

impl Step {
    /// The design as a file, with those that are pinned beside it.
    pub fn file(&self) -> String {
        document::write_pinned(&self.design, &self.pinned, self.original.as_deref())
    }
}

/// The design with what it was and what it will be again.
#[derive(Clone, Debug, PartialEq)]
pub struct History {
    past: Vec<Step>,
    present: Step,
    future: Vec<Step>,
    /// What was before the gesture that is under way.
    before: Option<Step>,
}

impl History {
    pub fn new(present: Step) -> Self {
        Self { past: Vec::new(), present, future: Vec::new(), before: None }
    }

    pub fn present(&self) -> &Step {
        &self.present
    }

    pub fn can_undo(&self) -> bool {
        self.before.is_some() || !self.past.is_empty()
    }

    pub fn can_redo(&self) -> bool {
        !self.future.is_empty()
    }

    pub fn is_under_way(&self) -> bool {
        self.before.is_some()
    }

    /// Changes the design within a gesture.
    pub fn change(&mut self, design: Design) {
        self.put(Step { design, ..self.present.clone() });
    }

    fn put(&mut self, step: Step) {
        let old = std::mem::replace(&mut self.present, step);
        self.before.get_or_insert(old);
    }

    /// Puts another design in the place of this one, as a step of its own.
    pub fn replace(&mut self, step: Step) {
        self.commit();
        self.put(step);
        self.commit();
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
        if let Some(step) = self.past.pop() {
            self.future.push(std::mem::replace(&mut self.present, step));
        }
    }

    pub fn redo(&mut self) {
        self.commit();
        if let Some(step) = self.future.pop() {
            self.past.push(std::mem::replace(&mut self.present, step));
        }
    }
}
