//! A wall reduced for one step: how its faces answer fluxes, and what its nodes become.

use super::{Back, Conductances, Layers};
use crate::analysis::march::Sink;

/// Temperature of a face as a line over the flux into it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Response {
    /// Without flux (K).
    pub base: f64,
    /// Rise per unit of flux (m2K/W).
    pub resistance: f64,
}

impl Response {
    /// The face as a strip of a channel.
    pub fn sink(&self, girth: f64) -> Sink {
        Sink::alone(girth, self.base, self.resistance)
    }
}

/// Fluxes into both faces from gas and other walls (W/m2); that into the outer face counts only
/// where gas is there.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Fluxes {
    /// Into the inner face.
    pub inner: f64,
    /// Into the outer face.
    pub outer: f64,
}

impl Layers {
    /// Reduces a wall to what its faces answer to fluxes within a step, and to what its nodes
    /// become: all nodes are eliminated from the outer side inward.
    pub fn reduce(&self, old: &[f64], step: f64, now: &Conductances, into: &mut Reduced) {
        into.rows.clear();
        let mut diagonal = now.out;
        let mut right = now.out * now.ambient;
        let mut passed = 1.0;
        let mut links = now.links.iter().rev();
        for (index, (capacity, old)) in self.capacity.iter().zip(old).rev().enumerate() {
            if index > 0 {
                let link = links.next().copied().unwrap_or(0.0);
                let inverse = 1.0 / (diagonal + link);
                let row = Row {
                    own: right * inverse,
                    inner: link * inverse,
                    outer: passed * inverse,
                };
                into.rows.push(row);
                diagonal *= row.inner;
                right *= row.inner;
                passed *= row.inner;
            }
            let mass = capacity / step;
            diagonal += mass;
            right += mass * old;
        }
        let rise = 1.0 / diagonal;
        into.first = Row { own: right * rise, inner: rise, outer: passed * rise };
        into.inner = Response { base: into.first.own, resistance: rise + 1.0 / now.inner };
        into.cross = into.first.outer;
        if self.back == Back::Gas {
            let last = into
                .rows
                .iter()
                .rev()
                .fold(Row { inner: 1.0, ..into.first }, |before, row| row.behind(&before));
            into.outer = Response { base: last.own, resistance: last.outer + 1.0 / now.outer };
        }
    }
}

/// Temperature of an eliminated node as a line: what it is by itself (K), how it follows its
/// inner neighbor (–; the first node: the flux into the inner face, m2K/W), how it rises with the
/// flux into the outer face (m2K/W).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Row {
    own: f64,
    inner: f64,
    outer: f64,
}

impl Row {
    /// The same over what the node before is a line over.
    fn behind(&self, before: &Self) -> Self {
        Self {
            own: self.own + self.inner * before.own,
            inner: self.inner * before.inner,
            outer: self.outer + self.inner * before.outer,
        }
    }
}

/// A wall reduced for one step.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reduced {
    /// Nodes from the last one inward, the first one apart.
    rows: Vec<Row>,
    first: Row,
    inner: Response,
    outer: Response,
    /// Rise of one face per unit of flux into the other (m2K/W).
    cross: f64,
}

impl Reduced {
    /// How the inner face answers a flux, the outer one being known.
    pub fn inner_response(&self, outer_flux: f64) -> Response {
        Response { base: self.inner.base + self.cross * outer_flux, ..self.inner }
    }

    /// How the outer face answers a flux, the inner one being known.
    pub fn outer_response(&self, inner_flux: f64) -> Response {
        Response { base: self.outer.base + self.cross * inner_flux, ..self.outer }
    }

    /// Node temperatures at the end of the step, both fluxes being known.
    pub fn advance(&self, fluxes: Fluxes, new: &mut [f64]) {
        let mut before = fluxes.inner;
        let rows = std::iter::once(&self.first).chain(self.rows.iter().rev());
        for (row, new) in rows.zip(new) {
            before = row.own + row.inner * before + row.outer * fluxes.outer;
            *new = before;
        }
    }
}
