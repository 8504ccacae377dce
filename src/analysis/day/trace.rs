//! What was found at each stage of a period, as a start for the same stage of the next one.

use super::settling::Faces;
use crate::analysis::march::Memory;

/// Memory of a gas cell.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CellMemory {
    /// Start for the march.
    pub march: Memory,
    /// Absorptivity of its gas (–).
    pub absorptivity: f64,
}

/// What a sweep found, and in the end a stage: a start for what comes after.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Found {
    /// Faces of every wall.
    pub faces: Vec<Faces>,
    /// Memories of every gas cell.
    pub memories: Vec<CellMemory>,
    /// Temperature of the firebox (K).
    pub firebox: f64,
    /// Air that the draft drives (kg/s).
    pub flow: f64,
    /// Share of the gas that takes the bleed slot (–).
    pub branched: f64,
}

/// What was found at each stage of a period, as a start for the same stage of the next one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Trace {
    stages: Vec<Found>,
    /// The stage that comes next.
    next: usize,
    /// At the stage just done, in the period before.
    before: Option<Found>,
}

impl Trace {
    /// Whether it is of as many steps, each of two stages, in as many walls and cells.
    pub fn is_of(&self, steps: usize, found: &Found) -> bool {
        let alike = |stage: &Found| {
            stage.faces.len() == found.faces.len()
                && stage.memories.len() == found.memories.len()
        };
        self.stages.len() == 2 * steps && self.stages.first().is_some_and(alike)
    }

    /// The same for another heater.
    #[must_use]
    pub fn elsewhere(mut self) -> Self {
        for stage in &mut self.stages {
            for memory in &mut stage.memories {
                memory.march = memory.march.elsewhere();
            }
        }
        self
    }

    /// Back to the first stage of a period.
    pub fn rewind(&mut self) {
        self.next = 0;
        self.before = None;
    }

    /// Moves what was found just now to where it was at this stage in the period before: faces and
    /// flow as much farther as they were off at the stage just done.
    pub fn start(&self, now: &mut Found) {
        let Some(then) = self.stages.get(self.next) else { return };
        let Some(before) = &self.before else {
            now.clone_from(then);
            return;
        };
        let faces = now.faces.iter_mut().zip(&before.faces).zip(&then.faces);
        for ((face, before), then) in faces {
            *face = face.moved(*before, *then, 1.0);
        }
        now.memories.clone_from(&then.memories);
        now.firebox += then.firebox - before.firebox;
        // At some temperatures there are two flows, one of them a trickle: which it is follows
        // from the flow before, not from the period before.
        let ratio = then.flow / before.flow;
        if (now.flow - before.flow).abs() < SAME_DRIVE * before.flow
            && (ratio - 1.0).abs() < SMALL_STRIDE
        {
            now.flow *= ratio;
        }
    }

    /// Passes over both stages of a step that was made otherwise, and ended like this.
    #[must_use]
    pub fn beyond(mut self, found: &Found) -> Self {
        // The first of them may have been kept before the second failed.
        let next = self.next + 2 - self.next % 2;
        while self.next < next {
            self.keep(found);
        }
        self
    }

    /// Keeps what the stage just done found.
    pub fn keep(&mut self, found: &Found) {
        if let Some(stage) = self.stages.get_mut(self.next) {
            self.before = Some(std::mem::replace(stage, found.clone()));
        } else {
            self.stages.push(found.clone());
        }
        self.next += 1;
    }
}

/// Flows driven by the draft that differ by less than this share are the same in both periods (–).
const SAME_DRIVE: f64 = 0.02;
/// And change in the same way from stage to stage where they change by less than this share (–).
const SMALL_STRIDE: f64 = 0.2;
