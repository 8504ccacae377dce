//! How the faces of the walls settle from sweep to sweep.

use super::body::End;
use crate::analysis::march::Touch;

/// Both faces of a wall.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Faces {
    /// The inner one.
    pub inner: Touch,
    /// The outer one.
    pub outer: Touch,
}

impl Faces {
    /// These with a share of the change from one to another of their earlier values.
    pub fn moved(self, from: Self, to: Self, share: f64) -> Self {
        let moved = |face: Touch, from: Touch, to: Touch| Touch {
            surface: face.surface + share * (to.surface - from.surface),
            flux: face.flux + share * (to.flux - from.flux),
        };
        Self {
            inner: moved(self.inner, from.inner, to.inner),
            outer: moved(self.outer, from.outer, to.outer),
        }
    }

    /// Rise of both surfaces from earlier ones (K).
    pub fn rise(self, from: Self) -> [f64; 2] {
        [self.inner.surface - from.inner.surface, self.outer.surface - from.outer.surface]
    }

    /// One of them.
    pub const fn get(&self, end: End) -> Touch {
        match end {
            End::Inner => self.inner,
            End::Outer => self.outer,
        }
    }
}

/// How the faces settle from sweep to sweep: those of the two sweeps before.
#[derive(Clone, Debug, Default)]
pub struct Settling {
    pub before: Vec<Faces>,
    earlier: Vec<Faces>,
    /// Sweeps since faces were last carried ahead.
    pub sweeps: u32,
}

impl Settling {
    /// Largest move of a surface since the sweep before (K).
    pub fn moved(&self, faces: &[Faces]) -> f64 {
        let moves = faces.iter().zip(&self.before).map(|(now, before)| {
            let [inner, outer] = now.rise(*before);
            inner.abs().max(outer.abs())
        });
        moves.fold(0.0, f64::max)
    }

    /// Keeps the faces as they are before a sweep.
    pub fn keep(&mut self, faces: &[Faces]) {
        std::mem::swap(&mut self.before, &mut self.earlier);
        self.before.clear();
        self.before.extend_from_slice(faces);
        self.sweeps += 1;
    }

    /// Carries faces ahead to where their moves lead, which shrink by the same share from sweep
    /// to sweep (Aitken); it takes two sweeps to tell that share.
    pub fn ahead(&mut self, faces: &mut [Faces]) {
        if self.sweeps < 2 {
            return;
        }
        let (mut both, mut square) = (0.0, 0.0);
        for ((now, before), earlier) in faces.iter().zip(&self.before).zip(&self.earlier) {
            for (last, first) in now.rise(*before).into_iter().zip(before.rise(*earlier)) {
                both += last * first;
                square += first * first;
            }
        }
        let share = (both / square).clamp(0.0, MOST_CARRIED);
        for (face, before) in faces.iter_mut().zip(&self.before) {
            *face = face.moved(*before, *face, share / (1.0 - share));
        }
        self.sweeps = 0;
    }
}

/// Largest share by which moves may shrink for faces to be carried ahead (–).
const MOST_CARRIED: f64 = 0.6;
