//! Where the facing stands: what courses, weights, drawings, materials and the heat agree on.
//!
//! It rises straight from the base to the cap, at the gap from what reaches farthest of all the core
//! that it goes around: a facing that stepped in would have to stand on the hot core. Where firebox and
//! runs are not equally wide, it stands farther off the narrower of them. The core around the runs is one
//! block, as long and as wide as the largest of them.

use super::places;
use crate::design::{Design, Layout};

/// Farthest from the core to the facing that a tie spans (m), 4 1/2 in.
///
/// # Source
///
/// [`crate::sources::TIE_REACH`].
pub const TIE_REACH: f64 = 0.1143;
/// By how much a facing may stand farther off than the gap and still count as at the gap (m).
const AT_THE_GAP: f64 = 1e-3;

/// A rectangle seen from above (m): x as in `places`, y from the front to the back, 0 in the middle of
/// the firebox.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plan {
    /// Its left side.
    pub left: f64,
    /// Its front.
    pub front: f64,
    /// Its right side.
    pub right: f64,
    /// Its back.
    pub back: f64,
}

impl Plan {
    /// From left to right (m).
    pub fn length(self) -> f64 {
        self.right - self.left
    }

    /// From front to back (m).
    pub fn depth(self) -> f64 {
        self.back - self.front
    }

    /// What it covers (m2).
    pub fn area(self) -> f64 {
        self.length() * self.depth()
    }

    /// Its girth (m).
    pub fn girth(self) -> f64 {
        2.0 * (self.length() + self.depth())
    }

    /// The same, wider on every side.
    #[must_use]
    pub fn grown(self, by: f64) -> Self {
        Self {
            left: self.left - by,
            front: self.front - by,
            right: self.right + by,
            back: self.back + by,
        }
    }

    /// The rectangle around both.
    #[must_use]
    pub fn join(self, other: Self) -> Self {
        Self {
            left: self.left.min(other.left),
            front: self.front.min(other.front),
            right: self.right.max(other.right),
            back: self.back.max(other.back),
        }
    }

    /// What both cover.
    pub fn meet(self, other: Self) -> Option<Self> {
        let both = Self {
            left: self.left.max(other.left),
            front: self.front.max(other.front),
            right: self.right.min(other.right),
            back: self.back.min(other.back),
        };
        (both.left <= both.right && both.front <= both.back).then_some(both)
    }

    /// The same turned or mirrored so that a side of it lies in front.
    fn turned(self, side: Side) -> Self {
        let Self { left, front, right, back } = self;
        match side {
            Side::Front => self,
            Side::Back => Self { front: -back, back: -front, ..self },
            Side::Left => Self { left: front, front: left, right: back, back: right },
            Side::Right => Self { left: front, front: -right, right: back, back: -left },
        }
    }
}

/// Area of two rectangles or one, wider on every side, what they share counted once (m2).
fn area_of(plans: &[Plan], by: f64) -> f64 {
    let mut grown = plans.iter().map(|plan| plan.grown(by));
    match (grown.next(), grown.next()) {
        (Some(one), Some(other)) => {
            one.area() + other.area() - one.meet(other).map_or(0.0, Plan::area)
        }
        (one, _) => one.map_or(0.0, Plan::area),
    }
}

/// A side of the heater.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Where the loading door is.
    Front,
    /// Opposite.
    Back,
    /// Where the firebox begins.
    Left,
    /// Opposite.
    Right,
}

impl Side {
    /// All four.
    pub const ALL: [Self; 4] = [Self::Front, Self::Back, Self::Left, Self::Right];
}

/// A stretch of the facing's inner face on one level.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Side of the heater.
    pub side: Side,
    /// Its length (m).
    pub length: f64,
    /// From the core to the facing (m); none where no core lies behind it on this level.
    pub distance: Option<f64>,
}

/// The part of a long side of a run before which the facing stands farther off than at the gap.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Before {
    /// How much of that side it is (–).
    pub share: f64,
    /// From the core to the facing (m).
    pub distance: f64,
    /// Facing that closes the space before it, over the facing right before it (–).
    pub wider: f64,
}

/// One body of facing: the blocks of the core that it goes around, and its height.
#[derive(Clone, Debug, PartialEq)]
pub struct Shell<R, H> {
    /// What it goes around.
    pub around: Vec<R>,
    /// Up to where.
    pub top: H,
}

/// What the facing goes around, of any measure: firebox and runs, each with its top. `join` is the
/// rectangle around two.
pub fn shells<R: Copy, H: Copy + PartialOrd>(
    layout: Layout,
    (firebox, crown): (R, H),
    runs: Option<(R, H)>,
    join: impl Fn(R, R) -> R,
) -> Vec<Shell<R, H>> {
    let Some((stack, under)) = runs else {
        return vec![Shell { around: vec![firebox], top: crown }];
    };
    let top = if crown < under { under } else { crown };
    match layout {
        Layout::Above => vec![Shell { around: vec![join(stack, firebox)], top }],
        Layout::Behind => vec![Shell { around: vec![firebox, stack], top }],
        Layout::Bench => vec![
            Shell { around: vec![firebox], top: crown },
            Shell { around: vec![stack], top: under },
        ],
    }
}

/// Core and facing of a design.
#[derive(Clone, Debug, PartialEq)]
pub struct Facing {
    layout: Layout,
    /// The core around the firebox.
    pub firebox: Plan,
    /// Top of it above the floor of the firebox (m).
    pub crown: f64,
    /// From that floor down to the base slab, on which all of it stands (m).
    pub foot: f64,
    /// The core around all runs.
    pub runs: Option<Plan>,
    /// Where they begin and end (m).
    pub heights: (f64, f64),
    /// The bodies of facing.
    pub shells: Vec<Shell<Plan, f64>>,
    gap: f64,
    thickness: f64,
}

impl Facing {
    /// The facing of a design.
    pub fn new(design: &Design) -> Self {
        let (chamber, shell) = (&design.firebox, &design.shell);
        let layout = design.path.layout;
        let half = 0.5 * chamber.depth;
        let firebox = Plan { left: 0.0, front: -half, right: chamber.width, back: half }
            .grown(chamber.wall_thickness);
        let crown = chamber.height + chamber.crown_thickness;
        let runs = runs(design, firebox);
        let tops = design.run_heights().into_iter().zip(design.path.runs());
        let top = tops.map(|(axis, run)| axis + 0.5 * run.height).fold(0.0, f64::max);
        let bottom = if layout == Layout::Above { crown } else { 0.0 };
        let around = runs.map(|runs| (runs, top));
        let shells = shells(layout, (firebox, crown), around, Plan::join);
        Self {
            layout,
            firebox,
            crown,
            foot: design.foot(),
            runs,
            heights: (bottom, top),
            shells,
            gap: shell.gap,
            thickness: shell.facing_thickness,
        }
    }

    /// From the core that reaches farthest to the outer face (m).
    fn skin(&self) -> f64 {
        self.gap + self.thickness
    }

    /// Ground under all masonry (m2).
    pub fn footprint(&self) -> f64 {
        self.shells.iter().map(|shell| area_of(&shell.around, self.skin())).sum()
    }

    /// Ground under rectangles around every body of facing, wider on every side by a distance (m2).
    pub fn rectangles(&self, by: f64) -> f64 {
        let bodies = (0..self.shells.len()).filter_map(|shell| self.outside(shell));
        bodies.map(|plan| plan.grown(by).area()).sum()
    }

    /// The shorter side of the rectangle around the facing of the firebox (m).
    pub fn narrowest(&self) -> f64 {
        let outside = self.outside(0).unwrap_or(self.firebox);
        outside.length().min(outside.depth())
    }

    /// Ground under what a stack above the firebox stands on beside it (m2).
    pub fn under_runs(&self) -> f64 {
        let runs = self.runs.filter(|_| self.layout == Layout::Above);
        let beside = |runs: Plan| runs.area() - runs.meet(self.firebox).map_or(0.0, Plan::area);
        runs.map_or(0.0, beside)
    }

    /// The rectangle around the outer faces of a body of facing.
    pub fn outside(&self, shell: usize) -> Option<Plan> {
        let around = self.shells.get(shell)?.around.iter().copied().reduce(Plan::join)?;
        Some(around.grown(self.skin()))
    }

    /// Volume of the facing without its openings (m3).
    pub fn volume(&self) -> f64 {
        let ring = |shell: &Shell<Plan, f64>| {
            let area = |by| area_of(&shell.around, by);
            (area(self.skin()) - area(self.gap)) * (shell.top + self.foot)
        };
        self.shells.iter().map(ring).sum()
    }

    /// Outer face of the facing around the runs; of runs behind the firebox as if they stood alone.
    pub fn around_runs(&self) -> Option<Plan> {
        let around = match self.layout {
            Layout::Above => self.shells.last().and_then(|shell| shell.around.first().copied()),
            Layout::Behind | Layout::Bench => self.runs,
        };
        around.filter(|_| self.runs.is_some()).map(|plan| plan.grown(self.skin()))
    }

    /// How the facing stands before a long side of a run with its bottom and top at some heights (m).
    pub fn before_run(&self, side: Side, (bottom, top): (f64, f64)) -> Before {
        let near = Before { share: 0.0, distance: self.gap, wider: 1.0 };
        let stretches = self.beside_runs();
        let own = stretches.iter().filter(|each| each.side == side);
        let whole: f64 =
            own.clone().filter(|each| each.distance.is_some()).map(|each| each.length).sum();
        let is_far = |distance: &f64| self.gap + AT_THE_GAP < *distance;
        let far = own.filter_map(|each| each.distance.filter(is_far).map(|d| (each.length, d)));
        let (long, distance) = far.fold((0.0, 0.0), |(sum, most), (length, distance)| {
            (sum + length, f64::max(most, distance))
        });
        if long <= 0.0 || self.thickness <= 0.0 {
            return near;
        }
        let share = long / whole;
        match self.layout {
            Layout::Above | Layout::Bench => Before { share, distance, wider: 1.0 },
            Layout::Behind => {
                let above = (top - bottom.max(self.crown)).max(0.0) / (top - bottom);
                let wider = (long + 2.0 * distance) / long;
                Before { share: share * above, distance, wider }
            }
        }
    }

    /// The inner face of a body of facing on a level with some blocks of the core.
    fn stretches(&self, shell: &Shell<Plan, f64>, core: &[Plan]) -> Vec<Stretch> {
        let mut stretches = Vec::new();
        for side in Side::ALL {
            let turned = |plan: &Plan| plan.turned(side);
            let inner: Vec<Plan> =
                shell.around.iter().map(|plan| turned(&plan.grown(self.gap))).collect();
            let core: Vec<Plan> = core.iter().map(turned).collect();
            for (index, own) in inner.iter().enumerate() {
                let others = inner.iter().enumerate().filter(|(other, _)| *other != index);
                let others: Vec<Plan> = others.map(|(_, other)| *other).collect();
                along_front(*own, &others, &core, |length, distance| {
                    stretches.push(Stretch { side, length, distance });
                });
            }
        }
        stretches
    }

    /// The inner face of the facing on the level of the runs; of runs behind the firebox above its crown,
    /// where they reach higher.
    pub fn beside_runs(&self) -> Vec<Stretch> {
        let Some((runs, shell)) = self.runs.zip(self.shells.last()) else { return Vec::new() };
        let is_lower = self.layout == Layout::Behind && self.heights.1 <= self.crown;
        let core = if is_lower { vec![self.firebox, runs] } else { vec![runs] };
        self.stretches(shell, &core)
    }

    /// Levels of each body of facing: height (m) and what of the core stands there. A stack above the
    /// firebox stands on a fill beside it.
    fn levels(&self) -> Vec<(f64, Vec<Stretch>)> {
        let mut levels = Vec::new();
        for shell in &self.shells {
            let of = |plan: &Plan| shell.around.contains(plan) || self.layout == Layout::Above;
            let foot = -self.foot;
            let firebox = Some(self.firebox).filter(of).map(|plan| (plan, foot, self.crown));
            let (_, top) = self.heights;
            let runs = self.runs.filter(of).map(|plan| (plan, foot, top));
            let blocks: Vec<(Plan, f64, f64)> = firebox.into_iter().chain(runs).collect();
            let mut ends = [foot, self.crown.min(shell.top), top.min(shell.top), shell.top];
            ends.sort_by(f64::total_cmp);
            for (bottom, top) in ends.into_iter().zip(ends.into_iter().skip(1)) {
                let stands = |block: &&(Plan, f64, f64)| block.1 <= bottom && top <= block.2;
                let core: Vec<Plan> =
                    blocks.iter().filter(stands).map(|block| block.0).collect();
                if bottom < top {
                    levels.push((top - bottom, self.stretches(shell, &core)));
                }
            }
        }
        levels
    }

    fn area(&self, counts: impl Fn(f64) -> bool) -> f64 {
        let reached = |stretch: &&Stretch| stretch.distance.is_some_and(&counts);
        let levels = self.levels().into_iter().map(|(height, stretches)| {
            height * stretches.iter().filter(reached).map(|each| each.length).sum::<f64>()
        });
        levels.sum()
    }

    /// Inner face of the facing from which ties reach the core, openings included (m2).
    pub fn within_reach(&self) -> f64 {
        self.area(|distance| distance <= TIE_REACH)
    }

    /// Inner face of the facing that stands at the gap, openings included (m2).
    pub fn at_the_gap(&self) -> f64 {
        self.area(|distance| distance <= self.gap + AT_THE_GAP)
    }

    /// The shorter way over which no tie reaches the core of the runs (m), along the facing or up it, of the
    /// side where it is longest.
    pub fn unheld(&self) -> f64 {
        let (bottom, top) = self.heights;
        let low = if self.layout == Layout::Behind { self.crown } else { bottom };
        let stretches = self.beside_runs();
        let long = |side: Side| {
            let on = stretches.iter().filter(|each| each.side == side);
            let far = |each: &&Stretch| each.distance.is_some_and(|d| TIE_REACH < d);
            on.filter(far).map(|each| each.length).sum::<f64>()
        };
        let longest = Side::ALL.into_iter().map(long).fold(0.0, f64::max);
        if 0.0 < self.thickness { longest.min((top - low).max(0.0)) } else { 0.0 }
    }

    /// Where on some sides the facing stands farthest off the core of the runs, and how far (m); none
    /// without runs or facing.
    pub fn farthest(&self, sides: &[Side]) -> Option<(Side, f64)> {
        let stretches = self.beside_runs();
        let on = stretches.iter().filter(|each| sides.contains(&each.side));
        let distances = on.filter_map(|each| Some((each.side, each.distance?)));
        let farther = |one: (Side, f64), other: (Side, f64)| {
            // Front and back of the same stack differ by rounding alone.
            if one.1 + AT_THE_GAP < other.1 { other } else { one }
        };
        distances.reduce(farther).filter(|_| 0.0 < self.thickness)
    }
}

/// The core around all runs.
fn runs(design: &Design, firebox: Plan) -> Option<Plan> {
    let shell = &design.shell;
    let sizes = design.path.runs();
    let left = match design.path.layout {
        Layout::Above => 0.0,
        Layout::Behind => firebox.left + shell.core_thickness,
        Layout::Bench => {
            firebox.right + 2.0 * (shell.gap + shell.facing_thickness) + shell.core_thickness
        }
    };
    let placed = places::runs(design, left).into_iter().zip(&sizes);
    let inside = placed.map(|(place, run)| {
        let (front, back) = match design.path.layout {
            Layout::Above => (-0.5 * run.width, 0.5 * run.width),
            // The wall between firebox and runs behind it is one.
            Layout::Behind => (firebox.back, firebox.back + run.width),
            Layout::Bench => {
                let middle = places::bench_middle(design);
                (middle - 0.5 * run.length, middle + 0.5 * run.length)
            }
        };
        Plan { left: place.left, front, right: place.right, back }
    });
    inside.reduce(Plan::join).map(|inside| inside.grown(shell.core_thickness))
}

/// Goes along the front of a facing's inner face where no other body of it stands before it, and tells of
/// each stretch its length and how far behind it the nearest core stands.
fn along_front(
    own: Plan,
    others: &[Plan],
    core: &[Plan],
    mut tell: impl FnMut(f64, Option<f64>),
) {
    let ends = others.iter().chain(core).flat_map(|plan| [plan.left, plan.right]);
    let mut borders: Vec<f64> =
        ends.filter(|end| own.left < *end && *end < own.right).collect();
    borders.extend([own.left, own.right]);
    borders.sort_by(f64::total_cmp);
    for (from, to) in borders.iter().zip(borders.iter().skip(1)) {
        let middle = 0.5 * (from + to);
        let covers = |plan: &&Plan| plan.left < middle && middle < plan.right;
        let is_inside = |plan: &Plan| plan.front < own.front && own.front <= plan.back;
        if others.iter().filter(covers).any(is_inside) {
            continue;
        }
        let behind = core.iter().filter(covers).map(|plan| plan.front - own.front);
        let nearest = behind.filter(|distance| -1e-9 <= *distance).reduce(f64::min);
        if from < to {
            tell(to - from, nearest.map(|distance| distance.max(0.0)));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(one: f64, other: f64) {
        assert!((one - other).abs() < 1e-9, "{one}, {other}");
    }

    /// Firebox 0.42 x 0.36 m in walls of 114 mm: 0.588 m deep. Runs 2.0 x 0.14 m in 64 mm: 0.268 m deep.
    /// Facing 115 mm at 6 mm: on both long sides 0.16 + 0.006 m off the runs, to their left 0.05 m more
    /// than the gap, to their right at the gap.
    #[test]
    fn a_stack_narrower_than_the_firebox_stands_off_the_facing_by_hand() {
        let facing = Facing::new(&Design::demonstration());
        let stretches = facing.beside_runs();
        let distance = |side: Side| {
            let on = stretches.iter().filter(|each| each.side == side);
            on.filter_map(|each| each.distance).fold(f64::NAN, f64::max)
        };
        near(distance(Side::Front), 0.166);
        // Up from the crown: 1.456 m; along the runs it is more.
        near(facing.unheld(), 5.0 * 0.24 + 4.0 * 0.064);
        near(distance(Side::Back), 0.166);
        near(distance(Side::Left), 0.056);
        near(distance(Side::Right), 0.006);
        near(facing.farthest(&Side::ALL).unwrap().1, 0.166);
        let outside = facing.outside(0).unwrap();
        near(outside.length(), 0.114 + 2.064 + 0.242);
        near(outside.depth(), 0.588 + 0.242);
        assert_eq!(facing.around_runs(), Some(outside));
        near(facing.footprint(), 2.42 * 0.83);
        // 0.72 m up to the crown, five runs of 0.24 m with four baffles of 64 mm.
        let height = 0.72 + 5.0 * 0.24 + 4.0 * 0.064;
        // And 0.114 m down to the base, as thick as the walls of the firebox.
        near(facing.volume(), (2.42 * 0.83 - 2.19 * 0.6) * (height + 0.114));
        // Ties reach firebox and both ends; beside firebox and runs nothing but what lies at the gap.
        let above = height - 0.72;
        let low = 2.0 * 0.648 + 0.588 + 0.268;
        near(facing.within_reach(), 0.834 * low + above * 2.0 * 0.268);
        near(facing.at_the_gap(), 0.834 * low + above * 0.268);
    }

    /// A bench stands at the gap all around, and so does a firebox without runs.
    #[test]
    fn where_nothing_is_wider_the_facing_stands_at_the_gap() {
        let mut design = Design::demonstration();
        design.path.layout = Layout::Bench;
        let facing = Facing::new(&design);
        near(facing.farthest(&Side::ALL).unwrap().1, 0.006);
        assert_eq!(facing.shells.len(), 2);
        near(facing.unheld(), 0.0);
        let runs = 5.0 * 0.14 + 4.0 * 0.064 + 0.128;
        near(facing.around_runs().unwrap().length(), runs + 0.242);
        near(facing.before_run(Side::Front, (0.0, 0.24)).share, 0.0);
        let within = 2.0 * (0.648 + 0.588) * 0.834 + 2.0 * (runs + 2.128) * 0.354;
        near(facing.within_reach(), within);
        near(facing.at_the_gap(), within);
        design.path.run_count = 0;
        let facing = Facing::new(&design);
        assert_eq!(facing.farthest(&Side::ALL), None);
        near(facing.within_reach(), 2.0 * (0.648 + 0.588) * 0.834);
        assert_eq!(facing.around_runs(), None);
    }

    /// Runs behind the firebox that reach above its crown: before them there stands nothing up to the
    /// facing in front of the firebox, 0.588 - 0.064 + 0.006 m off; beyond the firebox they stand at the gap.
    #[test]
    fn runs_behind_look_over_the_firebox() {
        let mut design = Design::demonstration();
        design.path.layout = Layout::Behind;
        let facing = Facing::new(&design);
        near(facing.farthest(&Side::ALL).unwrap().1, 0.588 - 0.064 + 0.006);
        let stretches = facing.beside_runs();
        let front = |is_far: bool| {
            let on = stretches.iter().filter(|each| each.side == Side::Front);
            let of = on.filter(|each| each.distance.is_some_and(|d| (0.1 < d) == is_far));
            of.map(|each| each.length).sum::<f64>()
        };
        // As wide as the firebox and the gap to its right.
        near(front(true), 0.654);
        near(front(false), 2.128 - 0.654);
        // The first run lies above the crown, a share of it before the firebox; the last one below.
        let before = facing.before_run(Side::Front, (1.216, 1.456));
        near(before.share, 0.654 / 2.128);
        near(before.distance, 0.53);
        near(before.wider, (0.654 + 2.0 * 0.53) / 0.654);
        near(facing.before_run(Side::Front, (0.0, 0.24)).share, 0.0);
        near(facing.before_run(Side::Front, (0.6, 0.84)).share, 0.5 * before.share);
        near(facing.before_run(Side::Back, (1.216, 1.456)).share, 0.0);
        // An L: both rectangles less what they share.
        let (wide, deep) = (2.128 + 0.242, 0.268 + 0.242);
        let shared = (0.648 + 0.242) * (0.064 + 0.242);
        near(facing.footprint(), wide * deep + 0.89 * 0.83 - shared);
    }
}
