//! Gas from the firebox to the mouth, once: each face as the sweep before left it.

use super::Solver;
use super::driving::Instant;
use crate::analysis::Failure;
use crate::analysis::branch::{self, Way};
use crate::analysis::chimney::{Flue, connector_channel, flue_channel};
use crate::analysis::day::Without;
use crate::analysis::day::body::{End, Part, Strip, outdoor_length};
use crate::analysis::fire::{
    Feed, Firebox, GLASS_EXCHANGE, Within, balance, black, through_glass,
};
use crate::analysis::march::{Gathering, Passage, Sink, Stream, Stretch, Touch, wall_at};
use crate::analysis::runs::run_channel;

/// Around the bracket of the firebox (K).
const SLACK: f64 = 5.0;

/// The gas from the firebox to the mouth, as a sweep found it.
pub struct Swept {
    pub(super) firebox: Firebox,
    /// Through runs and bleed slot.
    pub(super) way: Way,
    pub(super) flue: Flue,
}

impl Solver<'_> {
    /// Gas from the firebox to the mouth, once.
    pub(super) fn sweep(&mut self, instant: &Instant) -> Result<Swept, Failure> {
        let firebox = self.firebox(instant)?;
        let way = self.way(&instant.stream, firebox.temperature);
        let flue = self.flue(instant, way.joined);
        Ok(Swept { firebox, way, flue })
    }

    /// The gas through runs and bleed slot, at the share that the slot took in the sweep before.
    pub(super) fn way(&mut self, stream: &Stream, firebox: f64) -> Way {
        let branched = self.found.branched;
        let runs_stream = Stream { mass_flow: (1.0 - branched) * stream.mass_flow, ..*stream };
        let passages = self.runs(&runs_stream, firebox);
        let joined = branch::joined(stream, branched, firebox, &passages);
        Way { branched, runs_stream, passages, joined }
    }

    pub(super) fn firebox(&mut self, instant: &Instant) -> Result<Firebox, Failure> {
        let room = self.design.site.room_temperature;
        let flame = if instant.burning { self.design.firebox.flame_emissivity } else { 0.0 };
        let area: f64 = self.body.firebox.iter().map(|part| part.area).sum();
        let glow = |part: &Part| part.area * black(self.surface(part.wall, End::Inner));
        let mean = self.body.firebox.iter().map(glow).sum::<f64>() / area;
        let emission = (1.0 - flame) * self.wall_exchange();
        // Without fire the walls look out through the glass.
        let (glass, _) = self.design.firebox.door_parts();
        let exchange = if self.setup.lacks(Without::Glass) { 0.0 } else { GLASS_EXCHANGE };
        let window =
            if instant.burning { 0.0 } else { glass * through_glass(exchange, mean, room) };
        let received = emission * mean - window / area;
        let mut bounds = (room, instant.hottest);
        let mut sinks = Vec::with_capacity(self.body.firebox.len());
        for part in &self.body.firebox {
            let Some(response) = self.response(part.wall, End::Inner) else {
                continue;
            };
            let surface = self.surface(part.wall, End::Inner);
            bounds.0 = bounds.0.min(response.base).min(surface);
            bounds.1 = bounds.1.max(response.base).max(surface);
            sinks.push(Sink { received, emission, ..response.sink(part.area) });
        }
        let before = self.body.firebox.iter().map(|part| self.touch(part.wall, End::Inner));
        let mut touches: Vec<Touch> = before.collect();
        let feed = Feed {
            gas: &instant.stream.gas,
            mass_flow: instant.stream.mass_flow,
            supply: instant.supply,
            flame_emissivity: flame,
            glass_exchange: if instant.burning { exchange } else { 0.0 },
        };
        let (coolest, hottest) = (bounds.0 - SLACK, bounds.1 + SLACK);
        let start = self.found.firebox.clamp(coolest, hottest);
        let within = Within { coolest, hottest, start };
        let mut firebox = balance(self.design, &feed, &sinks, within, &mut touches)?;
        self.found.firebox = firebox.temperature;
        firebox.glass_heat += window;
        for (part, touch) in self.body.firebox.iter().zip(touches) {
            self.set(part.wall, End::Inner, touch);
        }
        Ok(firebox)
    }

    pub(super) fn runs(&mut self, stream: &Stream, inlet: f64) -> Vec<Passage> {
        let body = self.body;
        let path = self.path;
        let mut inlet = inlet;
        let mut passages = Vec::with_capacity(body.runs.len());
        let mut first = 0;
        let mut sinks = std::mem::take(&mut self.sinks);
        for (run, segment) in body.runs.iter().zip(&path.segments) {
            let cells = u32::try_from(run.cells.len()).unwrap_or(1);
            let channel = run_channel(self.design, segment, &[], cells);
            let place = Stretch::new(stream, &channel);
            let mut gathering = Gathering::new(&place, cells, inlet);
            let length = segment.length / f64::from(cells);
            for (index, strips) in run.cells.iter().enumerate() {
                let memory =
                    self.found.memories.get(first + index).copied().unwrap_or_default();
                self.strips(strips, &run.views, memory.absorptivity, &mut sinks);
                let at = (&place, length, first + index);
                self.cell(at, &sinks, &mut gathering, |index| {
                    strips.get(index).map(|strip| (strip.wall, strip.end))
                });
            }
            first += run.cells.len();
            let passage = gathering.finish();
            inlet = passage.outlet;
            passages.push(passage);
        }
        self.sinks = sinks;
        passages
    }

    /// Strips of a cell with what they receive from one another.
    pub(super) fn strips(
        &self,
        strips: &[Strip],
        views: &[[f64; 4]; 4],
        absorptivity: f64,
        sinks: &mut Vec<Sink>,
    ) {
        let mut glow = [0.0; 4];
        let mut girth = [0.0; 4];
        for strip in strips.iter().filter(|strip| !strip.rides_along) {
            let power = black(self.surface(strip.wall, strip.end));
            for ((glow, girth), side) in glow.iter_mut().zip(&mut girth).zip(strip.sides) {
                *glow += side * power;
                *girth += side;
            }
        }
        for (glow, girth) in glow.iter_mut().zip(girth) {
            *glow /= girth;
        }
        let arriving = views.map(|row| row.iter().zip(glow).map(|(view, e)| view * e).sum());
        let emission = (1.0 - absorptivity) * self.wall_exchange();
        let sink = |strip: &Strip| {
            let response = self.response(strip.wall, strip.end)?;
            let girth = strip.girth();
            let seen: f64 =
                strip.sides.iter().zip(arriving).map(|(side, e): (_, f64)| side * e).sum();
            let received = emission * seen / girth;
            Some(Sink { received, emission, ..response.sink(strip.exchanging()) })
        };
        sinks.clear();
        sinks.extend(strips.iter().filter_map(sink));
    }

    /// One cell of gas; `wall` names the face behind each sink.
    pub(super) fn cell(
        &mut self,
        (place, length, index): (&Stretch<'_>, f64, usize),
        sinks: &[Sink],
        gathering: &mut Gathering,
        wall: impl Fn(usize) -> Option<(usize, End)>,
    ) {
        let mut memory = self.found.memories.get(index).copied().unwrap_or_default();
        let mut touches = std::mem::take(&mut self.touches);
        touches.clear();
        let face = |index| wall(index).map(|(wall, end)| self.touch(wall, end));
        touches.extend((0..sinks.len()).filter_map(face));
        let cell =
            place.cell(sinks, (gathering.gas(), length), &mut memory.march, &mut touches);
        memory.absorptivity = cell.absorptivity;
        if let Some(slot) = self.found.memories.get_mut(index) {
            *slot = memory;
        }
        gathering.add(&cell);
        for (index, touch) in touches.iter().enumerate() {
            if let Some((wall, end)) = wall(index) {
                self.set(wall, end, *touch);
            }
        }
        self.touches = touches;
    }

    /// Connector and chimney.
    pub(super) fn flue(&mut self, instant: &Instant, inlet: f64) -> Flue {
        let body = self.body;
        let stream = &instant.stream;
        let mut index: usize = body.runs.iter().map(|run| run.cells.len()).sum();
        let design = self.design;
        let height = design.chimney.mouth_height - self.path.exit_height;
        let outdoor = outdoor_length(design);
        let exit = self.path.exit_height;
        let parts = [
            (connector_channel(design, &[]), std::slice::from_ref(&body.connector)),
            (flue_channel(design, exit, height - outdoor, &[]), body.indoors.as_slice()),
            (flue_channel(design, exit, outdoor, &[]), body.outdoors.as_slice()),
        ];
        let mut gas = inlet;
        let passages = parts.map(|(channel, walls)| {
            let cells = u32::try_from(walls.len()).unwrap_or(1);
            let length = channel.length / f64::from(cells);
            let place = Stretch::new(stream, &channel);
            let mut gathering = Gathering::new(&place, cells, gas);
            for wall in walls {
                if let Some(response) = self.response(*wall, End::Inner) {
                    let sinks = [response.sink(body.flue_girth)];
                    let at = (&place, length, index);
                    self.cell(at, &sinks, &mut gathering, |_| Some((*wall, End::Inner)));
                }
                index += 1;
            }
            let passage = gathering.finish();
            gas = passage.outlet;
            passage
        });
        let [connector, indoors, outdoors] = passages;
        Flue { connector, indoors, outdoors, mouth_wall: outdoors.wall }
    }

    /// Inner wall at the mouth (K), where a sweep brought gas of a temperature.
    pub(super) fn mouth_wall(&self, stream: &Stream, gas: f64) -> f64 {
        let last = self.body.outdoors.last();
        let response = last.and_then(|wall| self.response(*wall, End::Inner));
        let sinks = response.map(|response| [response.sink(self.body.flue_girth)]);
        let sinks = sinks.as_ref().map_or([].as_slice(), |sinks| sinks.as_slice());
        let length = outdoor_length(self.design);
        let mouth = flue_channel(self.design, self.path.exit_height, length, sinks);
        wall_at(stream, &mouth, gas)
    }
}
