//! The masonry of a design as bodies, level by level: where there is masonry and where the gas goes.
//!
//! `slots` places what no input places. Sizes are those of the analysis: the core is as thick as it says around the runs, the wall
//! between firebox and runs behind it is one. The facing rises as `analysis::facing` says.

mod slots;

use super::brick::{Bricks, Kit};
use super::lattice::{Rect, Region, Way, meters, steps};
use crate::analysis::facing;
use crate::analysis::places::{self, Placed};
use crate::design::building::{AirSupply, CleanoutFace, Cleanouts};
use crate::design::{Design, Layout, Run};

/// A part of the heater that is laid in courses of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Part {
    /// Floor, walls and crown of the firebox.
    Firebox,
    /// What runs above the firebox stand on beside it.
    Fill,
    /// Walls of the runs with their baffles.
    Runs,
    /// The outer shell.
    Facing,
    /// The slab over the heater.
    Cap,
}

impl Part {
    /// All of them, in the order in which they are begun.
    pub const ALL: [Self; 5] = [Self::Firebox, Self::Fill, Self::Runs, Self::Facing, Self::Cap];

    /// Its name in files.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Firebox => "firebox",
            Self::Fill => "fill",
            Self::Runs => "runs",
            Self::Facing => "facing",
            Self::Cap => "cap",
        }
    }
}

/// What an opening in a wall is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Opening {
    /// The loading door with the gap around its frame.
    Door,
    /// A cleanout of a run, by its index.
    Cleanout(usize),
    /// From the last run to the connector.
    Connector,
    /// The door of an oven.
    OvenDoor,
    /// The slot from the top of the firebox to the connector, which is always open.
    BleedSlot,
    /// The way of the damper from the firebox to the connector.
    Bypass,
    /// Where a duct brings the air for the fire.
    Air,
    /// From the firebox to runs behind or beside it.
    WayToRuns,
}

/// A space that must stay clear of masonry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Space {
    /// The firebox.
    Firebox,
    /// A run, by its index.
    Run(usize),
    /// The turn from a run to the next, by the index of the first.
    Turn(usize),
    /// From the firebox up to the first run.
    WayUp,
    /// Down through the cap slab into the first run of a bench.
    WayDown,
}

/// What courses leave out, since no input says where it lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeftOut {
    /// The duct from bleed slot or bypass to the connector.
    DuctToConnector,
    /// The opening from the firebox to runs that do not stand on it.
    WayToRuns,
    /// The duct from the firebox to a bench.
    DuctToBench,
    /// The air inlet, which is in the frame of the door.
    AirInlet,
    /// The door of an oven behind the firebox.
    OvenDoor,
    /// Cleanouts in the front of runs where the firebox stands before them.
    Cleanouts,
    /// An opening for which the walls of the firebox have no room.
    NoRoom(Opening),
}

/// How a level is laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Make {
    /// Walls of a thickness, which decides how bricks lie.
    Walls(i32),
    /// Solid masonry.
    Solid,
    /// One layer of slabs, or of bricks where they span.
    Slab,
}

/// Masonry that is alike from one height to another.
#[derive(Clone, Debug)]
pub(super) struct Level {
    pub bottom: i32,
    pub top: i32,
    pub region: Region,
    pub make: Make,
}

/// How an opening is fitted into whole courses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fit {
    /// No lower than it is.
    Around,
    /// Its height is only sketched, so that the nearest number of courses will do.
    Near,
}

/// An opening in a wall, before it is made in whole courses.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hole {
    pub opening: Opening,
    pub rect: Rect,
    pub bottom: i32,
    pub top: i32,
    /// How it is fitted into courses.
    pub fit: Fit,
    /// The way through it.
    pub through: Way,
    /// Section that it must have, in square steps; its width follows from its height. None where its
    /// sides are designed, or sketched.
    pub area: Option<i64>,
}

impl Hole {
    /// Of sides as they are.
    const fn of_sides(
        (opening, through): (Opening, Way),
        rect: Rect,
        (bottom, top): (i32, i32),
        fit: Fit,
    ) -> Self {
        Self { opening, rect, bottom, top, fit, through, area: None }
    }
}

/// A part with its levels, from the bottom up.
#[derive(Clone, Debug)]
pub(super) struct Body {
    pub part: Part,
    pub levels: Vec<Level>,
    pub holes: Vec<Hole>,
}

/// A space in plan and height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Clear {
    /// What it is.
    pub space: Space,
    /// Its plan.
    pub rect: Rect,
    /// Its bottom in steps.
    pub bottom: i32,
    /// Its top.
    pub top: i32,
}

pub(super) struct Solids {
    pub bodies: Vec<Body>,
    pub clear: Vec<Clear>,
    pub left_out: Vec<LeftOut>,
}

/// Gap around the frame of a door for its expansion (m), 1/4 in, common practice.
pub const FRAME_GAP: f64 = 0.006;
/// Height and width of a cleanout (m): sketched, not designed.
const CLEANOUT: f64 = 0.15;
/// And at most, over the height of the run (–).
const CLEANOUT_SHARE: f64 = 0.6;

/// The design with walls as thick as its bricks where they nearly are.
pub fn as_laid(design: &Design, bricks: Bricks) -> Design {
    let (core, facing) = (Kit::new(bricks.core), Kit::new(bricks.facing));
    let mut laid = design.clone();
    laid.firebox.wall_thickness = core.laid(design.firebox.wall_thickness);
    laid.shell.core_thickness = core.laid(design.shell.core_thickness);
    laid.shell.facing_thickness = facing.laid(design.shell.facing_thickness);
    if design.path.layout == Layout::Bench {
        laid.path.baffle_thickness = core.laid(design.path.baffle_thickness);
    }
    laid
}

/// A run on the lattice.
#[derive(Clone, Copy)]
struct Channel {
    rect: Rect,
    bottom: i32,
    top: i32,
    place: Placed,
}

/// An end of a run: the left one or the right one, in a bench the front or the back.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    Near,
    Far,
}

impl End {
    /// Where the wall begins and ends that closes a run there, along x.
    const fn wall(self, inner: Rect, stack: Rect) -> (i32, i32) {
        match self {
            Self::Near => (stack.left, inner.left),
            Self::Far => (inner.right, stack.right),
        }
    }
}

struct Builder<'a> {
    design: &'a Design,
    /// What the core is laid with.
    kit: Kit,
    sizes: Vec<Run>,
    wall: i32,
    core: i32,
    /// Top of the base slab, on which all masonry stands: below the floor of the firebox, which is 0.
    base: i32,
    /// Inner and outer firebox.
    chamber: Rect,
    block: Rect,
    channels: Vec<Channel>,
    /// Around all runs.
    stack: Option<Rect>,
    clear: Vec<Clear>,
    left_out: Vec<LeftOut>,
}

/// The masonry of a design whose walls are as thick as they are laid.
pub(super) fn solids(design: &Design, bricks: Bricks) -> Solids {
    let mut builder = Builder::new(design, bricks);
    let mut bodies = vec![builder.firebox()];
    bodies.extend(builder.fill());
    bodies.extend(builder.runs());
    for (outline, top) in builder.outlines() {
        bodies.extend(builder.facing(&outline, top));
        bodies.extend(builder.cap(&outline, top));
    }
    bodies.sort_by_key(|body| body.part);
    builder.name_what_is_left_out();
    Solids { bodies, clear: builder.clear, left_out: builder.left_out }
}

fn rect(left: f64, front: f64, right: f64, back: f64) -> Rect {
    Rect::new(steps(left), steps(front), steps(right), steps(back))
}

/// Half of a size (m), in steps.
fn half(size: f64) -> i32 {
    steps(0.5 * size)
}

impl<'a> Builder<'a> {
    fn new(design: &'a Design, bricks: Bricks) -> Self {
        let (fire, shell) = (&design.firebox, &design.shell);
        let (wall, core) = (steps(fire.wall_thickness), steps(shell.core_thickness));
        let chamber = rect(0.0, -0.5 * fire.depth, fire.width, 0.5 * fire.depth);
        let mut builder = Self {
            design,
            kit: Kit::new(bricks.core),
            sizes: design.path.runs(),
            wall,
            core,
            base: -steps(design.foot()),
            chamber,
            block: chamber.grown(wall),
            channels: Vec::new(),
            stack: None,
            clear: Vec::new(),
            left_out: Vec::new(),
        };
        builder.channels = builder.channels();
        let around = builder.channels.iter().map(|channel| channel.rect).reduce(Rect::join);
        builder.stack = around.map(|inner| inner.grown(core));
        builder.clear_spaces();
        builder
    }

    fn layout(&self) -> Layout {
        self.design.path.layout
    }

    /// From the core to the outer face.
    fn skin(&self) -> (i32, i32) {
        let shell = &self.design.shell;
        (steps(shell.gap), steps(shell.facing_thickness))
    }

    fn channels(&self) -> Vec<Channel> {
        let (gap, facing) = self.skin();
        let left = match self.layout() {
            Layout::Above => 0,
            Layout::Behind => self.block.left + self.core,
            Layout::Bench => self.block.right + 2 * (gap + facing) + self.core,
        };
        let placed = places::runs(self.design, meters(left));
        let runs = placed.into_iter().zip(self.sizes.iter().zip(self.heights()));
        runs.map(|(place, (run, (bottom, top)))| {
            let across = match self.layout() {
                Layout::Above => (-half(run.width), half(run.width)),
                Layout::Behind => (self.block.back, self.block.back + steps(run.width)),
                Layout::Bench => {
                    let middle = steps(places::bench_middle(self.design));
                    (middle - half(run.length), middle + half(run.length))
                }
            };
            Channel {
                rect: Rect::new(steps(place.left), across.0, steps(place.right), across.1),
                bottom,
                top,
                place,
            }
        })
        .collect()
    }

    /// Bottom and top of each run: the heights of the design, added up on the lattice.
    fn heights(&self) -> Vec<(i32, i32)> {
        let fire = &self.design.firebox;
        let baffle = steps(self.design.path.baffle_thickness);
        let (is_bench, is_behind) =
            (self.layout() == Layout::Bench, self.layout() == Layout::Behind);
        let mut bottom = match self.layout() {
            Layout::Above => steps(fire.height + fire.crown_thickness),
            Layout::Behind | Layout::Bench => 0,
        };
        let mut heights = Vec::with_capacity(self.sizes.len());
        let mut put = |run: &Run| {
            let top = bottom + steps(run.height);
            heights.push((bottom, top));
            bottom = if is_bench { 0 } else { top + baffle };
        };
        if is_behind {
            self.sizes.iter().rev().for_each(&mut put);
            heights.reverse();
        } else {
            self.sizes.iter().for_each(&mut put);
        }
        heights
    }

    fn pairs(&self) -> impl Iterator<Item = (usize, (Channel, Channel), (Run, Run))> {
        let channels = self.channels.iter().copied();
        let channels = channels.clone().zip(channels.skip(1));
        let sizes = self.sizes.iter().copied();
        let sizes = sizes.clone().zip(sizes.skip(1));
        channels.zip(sizes).enumerate().map(|(index, (channels, runs))| (index, channels, runs))
    }

    /// The opening between two runs, in plan.
    fn turn(&self, index: usize, channels: (Channel, Channel), runs: (Run, Run)) -> Rect {
        let (a, b) = channels;
        if self.layout() == Layout::Bench {
            let (low, high) = places::slot_of_bench(index, &runs.0, &runs.1);
            let middle = places::bench_middle(self.design);
            let (low, high) = (steps(middle + low), steps(middle + high));
            return Rect::new(a.rect.right, low, b.rect.left, high);
        }
        let (left, right) = places::slot((a.place, &runs.0), (b.place, &runs.1));
        let (front, back) = (a.rect.front.max(b.rect.front), a.rect.back.min(b.rect.back));
        Rect::new(steps(left), front, steps(right), back)
    }

    /// The opening from the firebox to runs above it, in plan.
    fn way_up(&self) -> Option<Rect> {
        let first = self.channels.first()?;
        let run = self.sizes.first()?;
        let is_above = self.layout() == Layout::Above;
        is_above.then(|| {
            let across = self.chamber.meet(first.rect);
            let right = steps(places::way_up(self.design, run)).min(first.rect.right);
            Rect::new(0, across.front, right, across.back)
        })
    }

    /// Where the gas comes down into the first run of a bench, through all that lies over it.
    fn way_down(&self) -> Option<Clear> {
        let (first, run) = self.first_run().filter(|_| self.layout() == Layout::Bench)?;
        let Rect { left, front, right, .. } = first.rect;
        let rect = Rect::new(left, front, right, front + steps(places::way_down(&run)));
        let highest = self.channels.iter().map(|channel| channel.top).fold(0, i32::max);
        let top = highest + steps(self.design.shell.cap_thickness);
        Some(Clear { space: Space::WayDown, rect, bottom: first.top, top })
    }

    fn clear_spaces(&mut self) {
        let fire = &self.design.firebox;
        let (floor, ceiling) = (0, steps(fire.height));
        let crown = steps(fire.height + fire.crown_thickness);
        let mut clear = vec![Clear {
            space: Space::Firebox,
            rect: self.chamber,
            bottom: floor,
            top: ceiling,
        }];
        if let Some(rect) = self.way_up() {
            clear.push(Clear { space: Space::WayUp, rect, bottom: ceiling, top: crown });
        }
        for (index, channel) in self.channels.iter().enumerate() {
            let Channel { rect, bottom, top, .. } = *channel;
            clear.push(Clear { space: Space::Run(index), rect, bottom, top });
        }
        for (index, (a, b), runs) in self.pairs() {
            let rect = self.turn(index, (a, b), runs);
            let (bottom, top) = if self.layout() == Layout::Bench {
                (a.bottom.max(b.bottom), a.top.min(b.top))
            } else {
                (a.top.min(b.top), a.bottom.max(b.bottom))
            };
            clear.push(Clear { space: Space::Turn(index), rect, bottom, top });
        }
        clear.extend(self.way_down());
        self.clear = clear;
    }

    fn firebox(&self) -> Body {
        let fire = &self.design.firebox;
        let (height, crown) = (steps(fire.height), steps(fire.height + fire.crown_thickness));
        let mut walls = Region::from(self.block);
        walls.cut(self.chamber);
        let mut over = Region::from(self.block);
        over.cut(self.way_up().unwrap_or(Rect::new(0, 0, 0, 0)));
        let level = |bottom, top, region, make| Level { bottom, top, region, make };
        let levels = vec![
            level(self.base, 0, Region::from(self.block), Make::Solid),
            level(0, height, walls, Make::Walls(self.wall)),
            level(height, crown, over, Make::Slab),
        ];
        let mut holes = vec![self.door(self.block.front, self.chamber.front)];
        holes.extend(self.slots());
        Body { part: Part::Firebox, levels, holes }
    }

    fn door(&self, front: i32, back: i32) -> Hole {
        let fire = &self.design.firebox;
        let (middle, half) = (0.5 * fire.width, 0.5 * fire.door_width + FRAME_GAP);
        let sill = places::sill(self.design);
        // A jamb is not cut for the gap around a frame as wide as the firebox.
        let left = steps(middle - half).max(self.chamber.left);
        let right = steps(middle + half).min(self.chamber.right);
        let rect = Rect::new(left, front, right, back);
        let bottom = steps(sill - FRAME_GAP).max(0);
        let top = steps((sill + fire.door_height + FRAME_GAP).min(fire.height));
        Hole::of_sides((Opening::Door, Way::Deep), rect, (bottom, top), Fit::Around)
    }

    fn fill(&self) -> Option<Body> {
        let fire = &self.design.firebox;
        let stack = self.stack.filter(|_| self.layout() == Layout::Above)?;
        let mut region = Region::from(stack);
        region.cut(self.block);
        let top = steps(fire.height + fire.crown_thickness);
        let level = Level { bottom: self.base, top, region, make: Make::Solid };
        let is_there = !level.region.is_empty();
        // Runs wider than the firebox stand on masonry before its door.
        let door = self.door(stack.front, self.chamber.front);
        let is_before = !level.region.within(door.rect).is_empty();
        let holes = is_before.then_some(door).into_iter().collect();
        is_there.then(|| Body { part: Part::Fill, levels: vec![level], holes })
    }

    fn runs(&self) -> Option<Body> {
        let stack = self.stack?;
        let mut levels = Vec::new();
        if self.layout() != Layout::Above {
            let region = Region::from(stack);
            levels.push(Level { bottom: self.base, top: 0, region, make: Make::Solid });
        }
        if self.layout() == Layout::Bench {
            self.bench_walls(stack, &mut levels);
        } else {
            self.stack_walls(stack, &mut levels);
        }
        levels.sort_by_key(|level| level.bottom);
        if self.layout() == Layout::Behind {
            levels = self.beside_firebox(levels);
        }
        let holes = self.holes(stack);
        Some(Body { part: Part::Runs, levels, holes })
    }

    fn stack_walls(&self, stack: Rect, levels: &mut Vec<Level>) {
        for channel in &self.channels {
            let mut region = Region::from(stack);
            region.cut(channel.rect);
            let make = Make::Walls(self.core);
            levels.push(Level { bottom: channel.bottom, top: channel.top, region, make });
        }
        for clear in &self.clear {
            if matches!(clear.space, Space::Turn(_)) {
                let mut region = Region::from(stack);
                region.cut(clear.rect);
                let Clear { bottom, top, .. } = *clear;
                levels.push(Level { bottom, top, region, make: Make::Slab });
            }
        }
    }

    fn bench_walls(&self, stack: Rect, levels: &mut Vec<Level>) {
        let mut tops: Vec<i32> = self.channels.iter().map(|channel| channel.top).collect();
        let turns = self.clear.iter().filter(|clear| matches!(clear.space, Space::Turn(_)));
        tops.extend(turns.map(|clear| clear.top));
        tops.sort_unstable();
        tops.dedup();
        let mut bottom = 0;
        for top in tops {
            let mut region = Region::from(stack);
            let open = self.clear.iter().filter(|clear| {
                let is_open =
                    matches!(clear.space, Space::Run(_) | Space::Turn(_) | Space::WayDown);
                is_open && clear.bottom <= bottom && bottom < clear.top
            });
            for clear in open {
                region.cut(clear.rect);
            }
            levels.push(Level { bottom, top, region, make: Make::Walls(self.core) });
            bottom = top;
        }
    }

    /// Takes the wall of the firebox out of the levels of runs behind it.
    fn beside_firebox(&self, levels: Vec<Level>) -> Vec<Level> {
        let fire = &self.design.firebox;
        let top = steps(fire.height + fire.crown_thickness);
        let mut parts = Vec::with_capacity(levels.len() + 1);
        for mut level in levels {
            if level.bottom < top && top < level.top && level.make != Make::Slab {
                let above = Level { bottom: top, ..level.clone() };
                level.top = top;
                parts.push(above);
            }
            if level.bottom < top {
                level.region.cut(self.block);
            }
            parts.push(level);
        }
        parts.sort_by_key(|level| level.bottom);
        parts
    }

    /// Cleanouts, way to the connector, door of an oven.
    fn holes(&self, stack: Rect) -> Vec<Hole> {
        let mut holes = Vec::new();
        let last = self.channels.len().saturating_sub(1);
        for (index, (channel, run)) in self.channels.iter().zip(&self.sizes).enumerate() {
            for end in [End::Near, End::Far] {
                let taken = index == last && end == self.exit_end(channel);
                let (rect, middle) = self.cleanout(stack, channel, end);
                if self.is_cleaned(end) && !taken && !self.is_hidden(rect, middle) {
                    let high = half(CLEANOUT.min(CLEANOUT_SHARE * run.height));
                    let (bottom, top) = (middle - high, middle + high);
                    let of = (Opening::Cleanout(index), self.cleaned_through());
                    holes.push(Hole::of_sides(of, rect, (bottom, top), Fit::Near));
                }
            }
        }
        holes.extend(self.connector(stack));
        holes.extend(self.oven_door(stack));
        holes
    }

    /// At which end the last run meets the connector.
    fn exit_end(&self, last: &Channel) -> End {
        let is_far = match self.layout() {
            Layout::Bench => !self.channels.len().is_multiple_of(2),
            Layout::Above | Layout::Behind => last.place.along > 0.0,
        };
        if is_far { End::Far } else { End::Near }
    }

    fn is_cleaned(&self, end: End) -> bool {
        match self.design.path.cleanouts {
            Cleanouts::Missing => false,
            Cleanouts::OneEnd => end == End::Near,
            Cleanouts::BothEnds | Cleanouts::NotStated => true,
        }
    }

    /// Whether the firebox stands before an opening of runs behind it.
    fn is_hidden(&self, rect: Rect, middle: i32) -> bool {
        let fire = &self.design.firebox;
        let is_low = middle <= steps(fire.height + fire.crown_thickness);
        self.layout() == Layout::Behind && is_low && rect.overlaps(self.block)
    }

    fn hides_cleanouts(&self) -> bool {
        let Some(stack) = self.stack else {
            return false;
        };
        let cleaned = |channel: &Channel, end: End| {
            let (rect, middle) = self.cleanout(stack, channel, end);
            self.is_cleaned(end) && self.is_hidden(rect, middle)
        };
        self.channels
            .iter()
            .any(|channel| cleaned(channel, End::Near) || cleaned(channel, End::Far))
    }

    fn cleaned_through(&self) -> Way {
        let is_at_sides = self.design.path.cleanout_face == CleanoutFace::Sides;
        if is_at_sides && self.layout() != Layout::Bench { Way::Along } else { Way::Deep }
    }

    /// Plan of a cleanout at an end of a run, and its middle height.
    fn cleanout(&self, stack: Rect, channel: &Channel, end: End) -> (Rect, i32) {
        let (inner, is_bench) = (channel.rect, self.layout() == Layout::Bench);
        let room = if is_bench { inner.width() } else { inner.depth() };
        let wide = half(CLEANOUT).min(room / 2);
        let rect = match (is_bench, self.design.path.cleanout_face) {
            (true, _) => {
                let x = i32::midpoint(inner.left, inner.right);
                let (front, back) = match end {
                    End::Near => (stack.front, inner.front),
                    End::Far => (inner.back, stack.back),
                };
                Rect::new(x - wide, front, x + wide, back)
            }
            (false, CleanoutFace::Sides) => {
                let y = i32::midpoint(inner.front, inner.back);
                let (left, right) = end.wall(inner, stack);
                Rect::new(left, y - wide, right, y + wide)
            }
            (false, face) => {
                let long = steps(CLEANOUT).min(inner.width() / 2);
                let left = match end {
                    End::Near => inner.left,
                    End::Far => inner.right - long,
                };
                let (front, back) = match face {
                    CleanoutFace::Rear => (inner.back, stack.back),
                    CleanoutFace::Front | CleanoutFace::Sides => (stack.front, inner.front),
                };
                Rect::new(left, front, left + long, back)
            }
        };
        (rect, i32::midpoint(channel.bottom, channel.top))
    }

    fn connector(&self, stack: Rect) -> Option<Hole> {
        let (channel, run) = self.channels.last().zip(self.sizes.last())?;
        let flue = self.design.chimney.flue_width;
        let high = half(flue.min(run.height));
        let middle = i32::midpoint(channel.bottom, channel.top);
        let inner = channel.rect;
        let end = self.exit_end(channel);
        let rect = if self.layout() == Layout::Bench {
            let wide = steps(flue).min(inner.depth());
            let front = if end == End::Far { inner.back - wide } else { inner.front };
            Rect::new(inner.right, front, stack.right, front + wide)
        } else {
            let wide = half(flue).min(inner.depth() / 2);
            let y = i32::midpoint(inner.front, inner.back);
            let (left, right) = end.wall(inner, stack);
            Rect::new(left, y - wide, right, y + wide)
        };
        let of = (Opening::Connector, Way::Along);
        Some(Hole::of_sides(of, rect, (middle - high, middle + high), Fit::Near))
    }

    fn oven_door(&self, stack: Rect) -> Option<Hole> {
        let path = &self.design.path;
        let (index, above) = (path.oven_index()?, self.layout() == Layout::Above);
        let channel =
            self.channels.get(index).filter(|_| above && path.oven.door_area > 0.0)?;
        let run = self.sizes.get(index)?;
        let share = (path.oven.door_area / (run.length * run.height)).clamp(0.0, 1.0).sqrt();
        let (wide, high) = (half(share * run.length), half(share * run.height));
        let x = i32::midpoint(channel.rect.left, channel.rect.right);
        let z = i32::midpoint(channel.bottom, channel.top);
        let rect = Rect::new(x - wide, stack.front, x + wide, channel.rect.front);
        let of = (Opening::OvenDoor, Way::Deep);
        Some(Hole::of_sides(of, rect, (z - high, z + high), Fit::Near))
    }

    /// Around what the facing goes, and up to where.
    fn outlines(&self) -> Vec<(Region, i32)> {
        let fire = &self.design.firebox;
        let crown = steps(fire.height + fire.crown_thickness);
        let runs = self.stack.map(|stack| {
            (stack, self.channels.iter().map(|channel| channel.top).fold(0, i32::max))
        });
        let shells = facing::shells(self.layout(), (self.block, crown), runs, Rect::join);
        shells
            .into_iter()
            .map(|shell| (shell.around.into_iter().collect(), shell.top))
            .collect()
    }

    fn facing(&self, outline: &Region, top: i32) -> Option<Body> {
        let (gap, thickness) = self.skin();
        let grown = |by: i32| outline.rects().iter().map(move |rect| rect.grown(by));
        let mut region: Region = grown(gap + thickness).collect();
        for rect in grown(gap) {
            region.cut(rect);
        }
        if thickness <= 0 {
            return None;
        }
        let holes = self.holes_through(&region, outline.bounds()?);
        let level = Level { bottom: self.base, top, region, make: Make::Walls(thickness) };
        Some(Body { part: Part::Facing, levels: vec![level], holes })
    }

    /// The openings of the core where they come out.
    fn holes_through(&self, facing: &Region, core: Rect) -> Vec<Hole> {
        let (gap, thickness) = self.skin();
        let outer = core.grown(gap + thickness);
        let mut holes = self.slots_in(facing);
        let door = self.door(outer.front, self.chamber.front);
        if core.overlaps(self.block) {
            holes.push(door);
        }
        let Some(stack) = self.stack.filter(|stack| core.overlaps(*stack)) else {
            return holes;
        };
        for hole in self.holes(stack) {
            let mut through = hole;
            let rect = &mut through.rect;
            if hole.rect.left == stack.left {
                rect.left = outer.left;
            }
            if hole.rect.right == stack.right {
                rect.right = outer.right;
            }
            if hole.rect.front == stack.front {
                rect.front = outer.front;
            }
            if hole.rect.back == stack.back {
                rect.back = outer.back;
            }
            if !facing.within(*rect).is_empty() {
                holes.push(through);
            }
        }
        holes
    }

    fn cap(&self, outline: &Region, bottom: i32) -> Option<Body> {
        let (gap, thickness) = self.skin();
        let top = bottom + steps(self.design.shell.cap_thickness);
        let rects = outline.rects().iter();
        let mut region: Region = rects.map(|rect| rect.grown(gap + thickness)).collect();
        for clear in self.clear.iter().filter(|clear| clear.space == Space::WayDown) {
            region.cut(clear.rect);
        }
        let level = Level { bottom, top, region, make: Make::Slab };
        (bottom < top).then(|| Body { part: Part::Cap, levels: vec![level], holes: Vec::new() })
    }

    fn name_what_is_left_out(&mut self) {
        let path = &self.design.path;
        let mut left_out = Vec::new();
        if self.design.site.air_supply != AirSupply::Duct {
            left_out.push(LeftOut::AirInlet);
        }
        if path.bleed_area.max(path.bypass_area) > 0.0 {
            left_out.push(LeftOut::DuctToConnector);
        }
        if self.layout() != Layout::Above
            && self.first_run().is_some()
            && self.to_runs().is_none()
        {
            left_out.push(LeftOut::WayToRuns);
        }
        if self.layout() == Layout::Bench && self.to_runs().is_some() {
            left_out.push(LeftOut::DuctToBench);
        }
        left_out.extend(self.without_room().map(LeftOut::NoRoom));
        if self.hides_cleanouts() {
            left_out.push(LeftOut::Cleanouts);
        }
        if self.layout() == Layout::Behind && path.oven_index().is_some() {
            left_out.push(LeftOut::OvenDoor);
        }
        self.left_out = left_out;
    }
}
