//! The walls within a stage: how their faces answer, and what their nodes become.

use super::Solver;
use crate::analysis::day::Without;
use crate::analysis::day::body::End;
use crate::analysis::day::layers::{Fluxes, Layers, Response};
use crate::analysis::march::Touch;

impl Solver<'_> {
    /// Reduces all walls for a stage, with conductances at the temperatures to which the stage
    /// before leads.
    pub(super) fn prepare(&mut self, old: &[f64], steps: (f64, f64)) {
        let Self { body, setup, conductances, reduced, new, rates, air, light, .. } = self;
        new.clear();
        new.extend_from_slice(old);
        let walls = body.walls.iter().zip(conductances).zip(reduced).zip(light);
        for (((wall, now), reduced), light) in walls {
            let nodes = wall.nodes.clone();
            let (Some(old), Some(new), Some(rates)) =
                (old.get(nodes.clone()), new.get_mut(nodes.clone()), rates.get(nodes))
            else {
                continue;
            };
            let step = if *light { steps.1 } else { steps.0 };
            for (new, rate) in new.iter_mut().zip(rates) {
                *new += step * rate;
            }
            if !setup.lacks(Without::HotConductivity) {
                wall.layers.conduct(new, now);
            }
            wall.layers.conductances(new, &|t| air.conductivity(t), now);
            wall.layers.reduce(old, step, now, reduced);
        }
    }

    /// Makes the temperatures those of the end of the stage.
    pub(super) fn finish(&mut self, state: &mut Vec<f64>, steps: (f64, f64)) {
        // The others were brought there by the last sweep.
        self.advance(Layers::is_firm);
        let Self { body, new, rates, light, .. } = self;
        for (wall, light) in body.walls.iter().zip(light) {
            let nodes = wall.nodes.clone();
            let step = if *light { steps.1 } else { steps.0 };
            let (Some(rates), Some(new), Some(old)) =
                (rates.get_mut(nodes.clone()), new.get(nodes.clone()), state.get(nodes))
            else {
                continue;
            };
            for ((rate, new), old) in rates.iter_mut().zip(new).zip(old) {
                *rate = (new - old) / step;
            }
        }
        std::mem::swap(state, &mut self.new);
    }

    /// Brings nodes to the fluxes of the sweep and conductances to these temperatures; whether all
    /// conductances were so already.
    pub(super) fn renewed(&mut self, old: &[f64], steps: (f64, f64)) -> bool {
        self.advance(|layers| !layers.is_firm());
        let Self { body, conductances, reduced, new, air, light, .. } = self;
        let mut same = true;
        let walls = body.walls.iter().zip(conductances).zip(reduced).zip(light);
        for (((wall, now), reduced), light) in walls {
            if wall.layers.is_firm() {
                continue;
            }
            let (Some(old), Some(new)) =
                (old.get(wall.nodes.clone()), new.get(wall.nodes.clone()))
            else {
                continue;
            };
            if wall.layers.conductances(new, &|t| air.conductivity(t), now) {
                let step = if *light { steps.1 } else { steps.0 };
                wall.layers.reduce(old, step, now, reduced);
                same = false;
            }
        }
        same
    }

    /// How a face answers a flux within the step.
    pub(super) fn response(&self, wall: usize, end: End) -> Option<Response> {
        let faces = self.found.faces.get(wall)?;
        let reduced = self.reduced.get(wall)?;
        Some(match end {
            End::Inner => reduced.inner_response(faces.outer.flux),
            End::Outer => reduced.outer_response(faces.inner.flux),
        })
    }

    pub(super) fn touch(&self, wall: usize, end: End) -> Touch {
        self.found.faces.get(wall).map_or_else(Touch::default, |faces| faces.get(end))
    }

    pub(super) fn surface(&self, wall: usize, end: End) -> f64 {
        self.touch(wall, end).surface
    }

    pub(super) fn set(&mut self, wall: usize, end: End, touch: Touch) {
        if let Some(faces) = self.found.faces.get_mut(wall) {
            match end {
                End::Inner => faces.inner = touch,
                End::Outer => faces.outer = touch,
            }
        }
    }

    /// Share of its radiation that a gray wall gives to other gray walls around (–): between
    /// parallel plates of the same emissivity.
    pub(super) fn wall_exchange(&self) -> f64 {
        if self.setup.lacks(Without::WallRadiation) {
            return 0.0;
        }
        let emissivity = self.design.shell.inner_emissivity;
        emissivity / (2.0 - emissivity)
    }

    /// Node temperatures of some walls from the fluxes of the sweep.
    fn advance(&mut self, of: fn(&Layers) -> bool) {
        let Self { body, reduced, found, new, .. } = self;
        let walls = body.walls.iter().zip(reduced).zip(&found.faces);
        for ((wall, reduced), faces) in walls.filter(|((wall, _), _)| of(&wall.layers)) {
            if let Some(new) = new.get_mut(wall.nodes.clone()) {
                let fluxes = Fluxes { inner: faces.inner.flux, outer: faces.outer.flux };
                reduced.advance(fluxes, new);
            }
        }
    }
}
