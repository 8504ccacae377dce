//! Other designs for the same house, wood and chimney that answer yes three times.
//!
//! All sizes are looked at by the height of the fire, the likeliest followed through the day, and
//! those that pass judged under every condition that is asked and at the unfavorable edge. The
//! order of the search is fixed: the same design gets the same answer, however many seek its pieces.

mod judging;
mod pieces;
mod space;
mod wish;

pub use pieces::{Found, Ground, Memory, NotAPiece, Piece};
pub use space::{Puts, Space, changed, labor, with};
pub use wish::{Aim, Wish};

use super::compare::Wrong;
use super::edges::{Nominal, Sampled, summed_up};
use super::figures::{Days, Figures, Line};
use super::sort_few;
use super::trials::Trial;
use super::variant::{Brief, Variant};
use crate::analysis::{Analysis, Failure, analyze};
use crate::design::Design;
use crate::rules::{Edges, Finding, Severity, check};
use crate::units::kelvin;
use judging::{ALWAYS, Judging, Need, Range, Verdict};
use pieces::{AT_ONCE, OF_AN_EDGE, STRIDE};
use space::is_of_the_shell;
use std::cmp::Ordering;
use std::collections::{BTreeMap, VecDeque};

/// Most designs that are proposed.
pub const MOST: usize = 5;
/// Most that are told where none answers yes three times.
pub const NEAREST: usize = 3;
/// Gas into the chimney at the height of the fire from which the means of the days mostly lie
/// within what is good (K).
const LIKELY: (f64, f64) = (kelvin(95.0), kelvin(145.0));
/// Days after which the rest is looked at, though none was judged.
const EARLY_DAYS: usize = 4;
/// Kelvins off that weigh as much as an aim's whole step.
const OFF: f64 = 10.0;
/// Draft to spare on a mild day at the height of the fire that a whole burn seems to ask (Pa).
const LIKELY_DRAFT: f64 = 15.0;
/// Pascals short of it that weigh as much as an aim's whole step.
const SHORT: f64 = 5.0;

/// A design that is proposed.
#[derive(Clone, Debug, PartialEq)]
pub struct Proposal {
    /// What differs from the present design.
    pub puts: Puts,
    /// What it comes to.
    pub figures: Figures,
    /// Conditions in which not all questions are answered yes; none of those that were asked.
    pub unmet: Vec<Trial>,
    /// How far it serves the aims, in steps of them.
    pub score: f64,
}

/// What is put into the design, and what it comes to.
impl From<&Proposal> for Variant {
    fn from(proposal: &Proposal) -> Self {
        Self { puts: proposal.puts.clone(), brief: Some(Brief::from(&proposal.figures)) }
    }
}

/// A design that does not pass, with what speaks against it.
#[derive(Clone, Debug, PartialEq)]
pub struct Near {
    /// What differs from the present design.
    pub puts: Puts,
    /// What it comes to.
    pub figures: Figures,
    /// What decides each question that is not answered yes.
    pub against: Vec<Finding>,
    /// Conditions in which not all questions are answered yes, where it failed there alone.
    pub unmet: Vec<Trial>,
}

/// What a search came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// The design as it stands.
    pub present: Result<Figures, Failure>,
    /// The best first.
    pub proposals: Vec<Proposal>,
    /// Where there are none: the least wrong first, each with another number of runs.
    pub nearest: Vec<Near>,
    /// And the limits that the sizes do not keep at the height of the fire, the most frequent first.
    pub conflicts: Vec<Conflict>,
    /// Sizes that were looked at.
    pub looked: usize,
    /// Days that were computed.
    pub followed: usize,
    /// Conditions under which a yes was asked.
    pub asked: Vec<Trial>,
}

/// What is told, in this order.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// So many steps of at most so many are done.
    Done(usize, usize),
    /// A design was found; its place among others comes with the outcome.
    Found(Box<Proposal>),
    /// All of it; the last part.
    End(Box<Outcome>),
}

/// A likely design, by its places in the space.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Likely {
    /// Among the variants.
    pub variant: usize,
    /// Among the shells.
    pub shell: usize,
}

/// A design whose day was followed.
#[derive(Clone, Debug)]
struct Followed {
    likely: Likely,
    puts: Puts,
    design: Design,
    figures: Figures,
    score: f64,
    /// Its days, where they are sure and not judged yet.
    days: Option<Days>,
    /// Its judgment under all conditions, as far as it has come.
    judging: Judging,
    /// What was found of its edge.
    edge: Edge,
    /// Whether it passed the conditions that were tried, and which those were.
    screened: Option<(Range, bool)>,
    /// What it came to at the edge.
    verdict: Option<Verdict>,
}

/// What was found of an edge, part by part.
#[derive(Clone, Debug, Default)]
struct Edge {
    nominal: Option<Box<Nominal>>,
    sampled: Vec<Sampled>,
    /// Parts that were found.
    parts: usize,
}

impl Edge {
    /// Takes a part; whether no more are needed.
    fn take(&mut self, found: Option<Found>) -> bool {
        self.parts += 1;
        match found {
            Some(Found::Nominal(nominal)) => self.nominal = nominal,
            Some(Found::Sampled(Some(sampled))) => self.sampled.push(*sampled),
            // Without a part there is no edge.
            _ => self.nominal = None,
        }
        self.nominal.is_none() || self.parts == OF_AN_EDGE
    }

    fn edges(&self) -> Option<Edges> {
        summed_up(self.nominal.as_ref()?, &self.sampled).ok()
    }
}

/// A design that is being judged, by its place, and how.
#[derive(Clone, Copy, Debug)]
enum Work {
    Screen(usize, Range),
    Edge(usize),
}

/// What is done next.
#[derive(Clone, Copy, Debug)]
enum Action {
    Judge(Work),
    Look(usize),
    Follow(Likely),
    End,
}

/// The search, part by part.
#[derive(Clone, Debug)]
pub struct Suggest {
    ground: Ground,
    /// Pieces that were found and are not used yet.
    known: Vec<(Piece, Found)>,
    looked: usize,
    /// What was looked at, with how unlikely it is.
    rated: Vec<(Rate, usize)>,
    /// Limits that were missed: how often, how near, and by which variant.
    missed: BTreeMap<String, (usize, f64, usize)>,
    /// The likeliest that were not followed; none until they are listed.
    waiting: Option<VecDeque<Likely>>,
    /// Variants whose day was computed.
    tried: Vec<usize>,
    followed: Vec<Followed>,
    days: usize,
    work: Option<Work>,
    ended: bool,
    /// For finding pieces by itself.
    memory: Memory,
}

/// How unlikely a design is: what speaks against it at the height of the fire, then how far it is
/// from what mostly passes, less what it brings.
type Rate = (usize, f64);

/// What a look at a design, by the height of the fire, came to.
#[derive(Clone, Debug, PartialEq)]
pub struct Looked {
    against: usize,
    off: f64,
    /// What speaks against it most, by its name, with how far that is beyond its limit (–).
    missed: Option<(String, f64)>,
}

/// A limit that many sizes do not keep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conflict {
    /// How many do not keep it before any other.
    pub count: usize,
    /// Where it is missed least.
    pub nearest: Finding,
}

impl Suggest {
    /// A search around a design.
    pub fn new(design: &Design, wish: Wish) -> Self {
        Self::within(design, wish, Space::around(design))
    }

    /// A search within a space.
    pub fn within(design: &Design, wish: Wish, space: Space) -> Self {
        Self {
            ground: Ground::new(design, wish, space),
            known: Vec::new(),
            looked: 0,
            rated: Vec::new(),
            missed: BTreeMap::new(),
            waiting: None,
            tried: Vec::new(),
            followed: Vec::new(),
            days: 0,
            work: None,
            ended: false,
            memory: Memory::default(),
        }
    }

    /// What it stands on.
    pub const fn ground(&self) -> &Ground {
        &self.ground
    }

    /// Pieces that are not known and wanted, the next first; those behind it may turn out to be of
    /// no use. None where the next step needs none.
    pub fn wanted(&self) -> Vec<Piece> {
        let is_open = |piece: &Piece| !self.known.iter().any(|(known, _)| known == piece);
        let action = self.plan();
        let Some(first) = self.needs(action).filter(is_open) else {
            return Vec::new();
        };
        let mut wanted = vec![first];
        for piece in self.ahead(action).into_iter().filter(is_open) {
            if !wanted.contains(&piece) {
                wanted.push(piece);
            }
        }
        wanted
    }

    /// Takes what was found of a piece.
    pub fn learn(&mut self, piece: Piece, found: Found) {
        if !self.known.iter().any(|(known, _)| *known == piece) {
            self.known.push((piece, found));
        }
    }

    /// The next part; none while a piece is wanted, and at the end.
    pub fn step(&mut self) -> Option<Part> {
        let action = self.plan();
        let found = match self.needs(action) {
            Some(piece) => {
                let place = self.known.iter().position(|(known, _)| *known == piece)?;
                Some(self.known.swap_remove(place).1)
            }
            None => None,
        };
        match action {
            _ if self.ended => None,
            Action::Judge(work) => Some(self.judge(work, found)),
            Action::Look(index) => {
                self.look(index, found);
                Some(self.progress())
            }
            Action::Follow(likely) => {
                self.follow(likely, found);
                Some(self.progress())
            }
            Action::End => {
                self.ended = true;
                Some(Part::End(Box::new(self.outcome())))
            }
        }
    }

    fn plan(&self) -> Action {
        if let Some(work) = self.work {
            return Action::Judge(work);
        }
        let early = self.is_early();
        let count = self.ground.order.len();
        if self.looked < count && (!early || self.looked < count.div_ceil(STRIDE)) {
            return Action::Look(self.looked / AT_ONCE);
        }
        // The first that passes is judged at once, so that something is told early.
        let first = if early { self.next_to_screen() } else { None };
        if first.is_none()
            && self.days < self.ground.space.days
            && let Some(likely) = self.waiting.as_ref().and_then(VecDeque::front)
        {
            return Action::Follow(*likely);
        }
        let early = first.map(|place| Work::Screen(place, Range::Asked));
        let all = || self.half_screened().or_else(|| self.next_to_screen());
        let screen = || all().map(|place| Work::Screen(place, Range::All));
        let work = early.or_else(screen).or_else(|| self.next_at_the_edge().map(Work::Edge));
        work.map_or(Action::End, Action::Judge)
    }

    /// The piece without which an action cannot be.
    fn needs(&self, action: Action) -> Option<Piece> {
        match action {
            Action::Look(index) => Some(Piece::Look(index)),
            Action::Follow(likely) => Some(Piece::Rough(likely)),
            // What is known of the days is judged first.
            Action::Judge(Work::Screen(place, _))
                if self.followed.get(place).is_some_and(|each| each.days.is_some()) =>
            {
                None
            }
            Action::Judge(Work::Screen(place, range)) => {
                self.screening(place, range).into_iter().next()
            }
            Action::Judge(Work::Edge(place)) => {
                self.followed.get(place).and_then(|each| edge_pieces(each).next())
            }
            Action::End => None,
        }
    }

    /// What a design must be known by to be screened.
    fn screening(&self, place: usize, range: Range) -> Vec<Piece> {
        let Some(followed) = self.followed.get(place) else {
            return Vec::new();
        };
        let piece = |need| match need {
            Need::Days => Piece::Days(followed.likely),
            Need::Trial(trial) => Piece::Trial(followed.likely, trial),
        };
        let needs = followed.judging.needs(range).into_iter();
        let is_open = |need: &Need| *need != Need::Days || followed.days.is_none();
        needs.filter(is_open).map(piece).collect()
    }

    /// What an action and those behind it will probably need, the likeliest first.
    fn ahead(&self, action: Action) -> Vec<Piece> {
        let looks = self.looked / AT_ONCE..self.ground.order.len().div_ceil(AT_ONCE);
        let looks = looks.map(Piece::Look);
        let days = self.ground.space.days.saturating_sub(self.days);
        let days = self.waiting.iter().flatten().take(days).map(|likely| Piece::Rough(*likely));
        let mut ahead = Vec::new();
        match action {
            Action::Judge(Work::Screen(place, range)) => {
                ahead.extend(self.screening(place, range));
                ahead.extend(self.followed.get(place).into_iter().flat_map(edge_pieces));
            }
            Action::Look(_) => {
                ahead.extend(looks);
                return ahead;
            }
            Action::Follow(_) => ahead.extend(days.clone()),
            Action::Judge(Work::Edge(place)) => {
                ahead.extend(self.followed.get(place).into_iter().flat_map(edge_pieces));
            }
            Action::End => {}
        }
        let is_open =
            |each: &Followed| each.screened.is_none_or(|(range, _)| range == Range::Asked);
        let mut open: Vec<(usize, &Followed)> = self.followed.iter().enumerate().collect();
        open.retain(|(_, each)| each.figures.passes() && is_open(each));
        sort_few(&mut open, |(_, a), (_, b)| b.score.total_cmp(&a.score));
        for (place, _) in open {
            ahead.extend(self.screening(place, Range::All));
        }
        let screened = self.followed.iter().filter(|each| is_screened(each));
        let edges = screened.filter(|each| each.verdict.is_none());
        ahead.extend(edges.flat_map(edge_pieces));
        // Looking comes before days once something was told.
        ahead.into_iter().chain(looks).chain(days).collect()
    }

    fn progress(&self) -> Part {
        let steps = |count: usize| count.div_ceil(AT_ONCE);
        let tried = self.followed.iter().map(|each| each.judging.done()).sum::<usize>();
        let at_the_edge = self.followed.iter().filter(|each| each.verdict.is_some()).count();
        let edge = Trial::ALL.len();
        let done = steps(self.looked) + self.days + tried + edge * at_the_edge;
        let all = steps(self.ground.order.len()) + self.ground.space.days;
        let all = all + edge * (self.ground.space.judged + MOST);
        Part::Done(done.min(all), all)
    }

    /// Takes how likely some designs are.
    fn look(&mut self, index: usize, found: Option<Found>) {
        let places: Vec<usize> = self.ground.chunk(index).collect();
        self.looked += places.len();
        let looked = if let Some(Found::Looked(looked)) = found { looked } else { Vec::new() };
        for (looked, place) in looked.into_iter().zip(places) {
            let Some(Looked { against, off, missed }) = looked else {
                continue;
            };
            self.rated.push(((against, off), place));
            if let Some((rule, beyond)) = missed {
                let (count, least, nearest) =
                    self.missed.entry(rule).or_insert((0, f64::INFINITY, place));
                *count += 1;
                if beyond < *least {
                    (*least, *nearest) = (beyond, place);
                }
            }
        }
        let count = self.ground.order.len();
        let is_enough = self.is_early() && count.div_ceil(STRIDE) <= self.looked;
        if self.looked == count || is_enough {
            self.waiting = Some(self.shortlist());
        }
    }

    /// Whether something was told early, or sought for long enough.
    fn is_early(&self) -> bool {
        let is_told = self.followed.iter().any(|each| each.screened.is_some());
        !is_told && self.days < EARLY_DAYS
    }

    /// The likeliest designs, of each number of runs in turn.
    fn shortlist(&mut self) -> VecDeque<Likely> {
        self.rated
            .sort_unstable_by(|(one, a), (other, b)| compare(*one, *other).then(a.cmp(b)));
        let runs = |place: usize| {
            let puts = self.ground.space.variants.get(place).map_or(&[][..], Vec::as_slice);
            with(&self.ground.design, puts).path.run_count
        };
        let mut turns: Vec<(usize, usize, usize)> = Vec::new();
        for (rank, (_, place)) in self.rated.iter().enumerate() {
            let turn = turns.iter().filter(|(.., other)| runs(*other) == runs(*place)).count();
            // A place further down the list for each one before with as many runs.
            turns.push((rank + TURN * turn, rank, *place));
        }
        turns.sort_unstable();
        let likely = |(.., variant): (usize, usize, usize)| Likely { variant, shell: 0 };
        let is_new = |each: &(usize, usize, usize)| !self.tried.contains(&each.2);
        turns.into_iter().filter(is_new).map(likely).collect()
    }

    /// Takes the days of the likeliest design.
    fn follow(&mut self, likely: Likely, found: Option<Found>) {
        self.waiting.as_mut().and_then(VecDeque::pop_front);
        self.tried.push(likely.variant);
        let Ground { design, wish, space, .. } = &self.ground;
        let puts = self.ground.puts(likely);
        if puts.is_empty() {
            return;
        }
        self.days += 1;
        let Some(Found::Days(days)) = found else {
            return;
        };
        let Some(days) = *days else {
            return;
        };
        let figures = days.figures;
        let design = with(design, &puts);
        let score = score(&design, &figures, *wish);
        let against = figures.verdicts.iter().filter_map(|verdict| verdict.deciding);
        let is_mended = against.clone().all(|each| is_of_the_shell(each.rule, each.severity));
        if !figures.passes() && is_mended && likely.shell + 1 < space.shells.len() {
            let next = Likely { shell: likely.shell + 1, ..likely };
            self.waiting.get_or_insert_default().push_front(next);
        }
        let judging = Judging::new(&design, *wish);
        self.followed.push(Followed {
            likely,
            puts,
            design,
            figures,
            score,
            days: Some(days).filter(|days| days.is_sure),
            judging,
            edge: Edge::default(),
            screened: None,
            verdict: None,
        });
    }

    /// The best design that passes its day and was not tried, unlike those that were.
    fn next_to_screen(&self) -> Option<usize> {
        let screened = || self.followed.iter().filter(|each| each.screened.is_some());
        let passed = || screened().filter(|each| is_screened(each));
        if self.ground.space.judged <= screened().count() {
            return None;
        }
        let open = self.followed.iter().enumerate().filter(|(_, each)| {
            let is_like = |other: &Followed| is_alike(&other.design, &each.design);
            each.screened.is_none() && each.figures.passes() && !passed().any(is_like)
        });
        open.min_by(|(_, a), (_, b)| b.score.total_cmp(&a.score)).map(|(place, _)| place)
    }

    /// One that was tried only under what must pass.
    fn half_screened(&self) -> Option<usize> {
        let half = Some((Range::Asked, true));
        self.followed.iter().position(|each| each.screened == half)
    }

    /// The best of those that meet most of what is asked, for the edge of safety.
    fn next_at_the_edge(&self) -> Option<usize> {
        let asked = self.asked();
        let least = self.found().map(|each| unmet(each, &asked)).min();
        if self.found().count() == MOST {
            return None;
        }
        let open = self.followed.iter().enumerate().filter(|(_, each)| {
            let is_worse = least.is_some_and(|least| least < unmet(each, &asked));
            is_screened(each) && each.verdict.is_none() && !is_worse
        });
        let first = open.min_by(|(_, a), (_, b)| {
            let order = unmet(a, &asked).cmp(&unmet(b, &asked));
            order.then(b.score.total_cmp(&a.score))
        });
        first.map(|(place, _)| place)
    }

    fn found(&self) -> impl Iterator<Item = &Followed> {
        self.followed.iter().filter(|each| is_found(each))
    }

    /// Conditions that are asked: those of the wish, or all in which some design passes.
    fn asked(&self) -> Vec<Trial> {
        let wished = self.ground.wish.trials().map(|wished| {
            let is_asked = |trial: &Trial| ALWAYS.contains(trial) || wished.contains(trial);
            Trial::ALL.into_iter().filter(is_asked).collect()
        });
        wished.unwrap_or_else(|| {
            let mut passed = self.followed.iter().filter(|each| is_screened(each)).peekable();
            if passed.peek().is_none() {
                return Vec::new();
            }
            let passed: Vec<_> = passed.collect();
            let met =
                |trial: &Trial| passed.iter().any(|each| !each.judging.unmet().contains(trial));
            Trial::ALL.into_iter().filter(met).collect()
        })
    }

    /// A step of a judgment.
    fn judge(&mut self, work: Work, found: Option<Found>) -> Part {
        let (Work::Screen(place, _) | Work::Edge(place)) = work;
        let wish = self.ground.wish;
        let Some(followed) = self.followed.get_mut(place) else {
            self.work = None;
            return self.progress();
        };
        self.work = Some(work);
        match (work, found) {
            (Work::Screen(_, range), found) => {
                let known = followed.days.take().map(|days| Found::Days(Box::new(Some(days))));
                let found = known.or(found);
                if let Some(passes) = followed.judging.take(range, found) {
                    followed.take_figures(wish);
                    followed.screened = Some((range, passes));
                    // What is tried early is told early.
                    let is_early = range == Range::Asked && passes;
                    self.work = is_early.then_some(Work::Edge(place));
                }
            }
            (Work::Edge(_), found) => {
                if !followed.edge.take(found) {
                    return self.progress();
                }
                let edges = followed.edge.edges();
                let verdict = followed.judging.at_the_edge(edges.as_ref());
                self.work = None;
                let passes = verdict.passes;
                followed.verdict = Some(verdict);
                if passes {
                    return Part::Found(Box::new(proposal(followed)));
                }
            }
        }
        self.progress()
    }

    fn outcome(&self) -> Outcome {
        let asked = self.asked();
        // Where the conditions are left to what is found, those that meet most of them.
        let least = self.found().map(|each| unmet(each, &asked)).min().unwrap_or_default();
        let best = self.found().filter(|each| unmet(each, &asked) == least);
        let mut proposals: Vec<Proposal> = best.map(proposal).collect();
        sort_few(&mut proposals, |a, b| b.score.total_cmp(&a.score));
        let none = proposals.is_empty();
        let nearest = if none { self.nearest() } else { Vec::new() };
        let conflicts = if none { self.conflicts() } else { Vec::new() };
        Outcome {
            present: Figures::new(&self.ground.design),
            proposals,
            nearest,
            conflicts,
            looked: self.looked,
            followed: self.days,
            asked,
        }
    }

    fn conflicts(&self) -> Vec<Conflict> {
        let conflict = |(_, (count, _, place)): (&String, &(usize, f64, usize))| {
            let puts = self.ground.space.variants.get(*place)?;
            let design = with(&self.ground.design, puts);
            let analysis = analyze(&design).ok()?;
            let nearest = missed(&against(&design, &analysis))?.finding;
            Some(Conflict { count: *count, nearest })
        };
        let mut conflicts: Vec<Conflict> = self.missed.iter().filter_map(conflict).collect();
        sort_few(&mut conflicts, |a, b| b.count.cmp(&a.count));
        conflicts
    }

    fn nearest(&self) -> Vec<Near> {
        let mut wrong: Vec<(Option<Wrong>, &Followed)> =
            self.followed.iter().map(|each| (Wrong::new(&each.figures), each)).collect();
        sort_few(&mut wrong, |(one, _), (other, _)| match (one, other) {
            (Some(one), Some(other)) => one.cmp(other),
            (one, other) => one.is_some().cmp(&other.is_some()),
        });
        let mut nearest: Vec<Near> = Vec::new();
        let mut known: Vec<usize> = Vec::new();
        for (_, each) in wrong {
            let runs = each.design.path.run_count;
            if known.contains(&runs) || nearest.len() == NEAREST {
                continue;
            }
            known.push(runs);
            let verdict = each.verdict.as_ref();
            let edge = verdict.map(|verdict| verdict.against.clone()).unwrap_or_default();
            let of_day = each.figures.verdicts.iter().filter_map(|verdict| verdict.deciding);
            let mut against: Vec<Finding> = Vec::new();
            for finding in of_day.chain(edge) {
                if !against.iter().any(|other| other.rule == finding.rule) {
                    against.push(finding);
                }
            }
            nearest.push(Near {
                puts: each.puts.clone(),
                figures: each.figures,
                against,
                unmet: each.judging.unmet().to_vec(),
            });
        }
        nearest
    }
}

/// Places by which a further design of as many runs goes down the list.
const TURN: usize = 12;

impl Iterator for Suggest {
    type Item = Part;

    /// Finds what is wanted by itself.
    fn next(&mut self) -> Option<Part> {
        if let Some(piece) = self.wanted().first() {
            let found = self.ground.find_with(&mut self.memory, *piece);
            self.learn(*piece, found);
        }
        self.step()
    }
}

impl Followed {
    /// The figures by which it was judged.
    fn take_figures(&mut self, wish: Wish) {
        if let Some(figures) = self.judging.figures() {
            self.figures = figures;
            self.score = score(&self.design, &figures, wish);
        }
    }
}

/// Pieces of an edge that were not found yet.
fn edge_pieces(followed: &Followed) -> impl Iterator<Item = Piece> {
    let Followed { likely, edge, .. } = followed;
    (edge.parts..OF_AN_EDGE).map(|part| Piece::Edge(*likely, part))
}

fn is_screened(followed: &Followed) -> bool {
    followed.screened.is_some_and(|(_, passes)| passes)
}

fn is_found(followed: &Followed) -> bool {
    is_screened(followed) && followed.verdict.as_ref().is_some_and(|verdict| verdict.passes)
}

/// How many of the conditions that are asked a design does not meet.
fn unmet(followed: &Followed, asked: &[Trial]) -> usize {
    followed.judging.unmet().iter().filter(|trial| asked.contains(trial)).count()
}

fn proposal(followed: &Followed) -> Proposal {
    Proposal {
        puts: followed.puts.clone(),
        figures: followed.figures,
        unmet: followed.judging.unmet().to_vec(),
        score: followed.score,
    }
}

/// Designs that differ in no more than the length of their runs are alike.
fn is_alike(one: &Design, other: &Design) -> bool {
    let same_length = |design: &Design| {
        let mut design = design.clone();
        design.path.run_length = 1.0;
        design
    };
    same_length(one) == same_length(other)
}

fn compare(one: Rate, other: Rate) -> Ordering {
    one.0.cmp(&other.0).then(one.1.total_cmp(&other.1))
}

/// What speaks against a design at the height of the fire that no shell mends, with its weight.
fn against(design: &Design, analysis: &Analysis) -> Vec<(Finding, usize)> {
    let weigh = |finding: Finding| {
        let weight = match finding.severity {
            _ if finding.rule.is_of_the_day() => 0,
            _ if is_of_the_shell(finding.rule, finding.severity) => 0,
            Severity::GoodToKnow => 0,
            Severity::LookAgain => 1,
            Severity::DoNotBuild => 3,
        };
        (finding, weight)
    };
    let all = check(design, analysis).into_iter().map(weigh);
    all.filter(|(_, weight)| 0 < *weight).collect()
}

fn missed(against: &[(Finding, usize)]) -> Option<Wrong> {
    Wrong::among(&against.iter().map(|(finding, _)| *finding).collect::<Vec<_>>())
}

/// How unlikely a design is to pass; none where it cannot be analyzed.
fn look(design: &Design, wish: Wish) -> Option<Looked> {
    let analysis = analyze(design).ok()?;
    let against = against(design, &analysis);
    let inlet = analysis.height_of_fire.chimney_inlet;
    let off = (LIKELY.0 - inlet).max(inlet - LIKELY.1).max(0.0) / OFF;
    let margin = analysis.conditions.mild_day.stated.margin;
    let short = (LIKELY_DRAFT - margin).max(0.0) / SHORT;
    let missed =
        missed(&against).map(|wrong| (wrong.finding.rule.id().to_owned(), wrong.beyond));
    Some(Looked {
        against: against.iter().map(|(_, weight)| weight).sum(),
        off: off + short - promise(design, &analysis, wish),
        missed,
    })
}

/// Steps of the aims: so much of each is worth as much as of any other. A convention of this
/// project.
const STEP_WARMTH: f64 = 4.0 * 3600.0;
const STEP_EFFICIENCY: f64 = 0.05;
const STEP_MASS: f64 = 1000.0;
const STEP_LABOR: f64 = 2.0;
/// Time that stands for warmth that does not fall to half within days (s).
const DAYS: f64 = 96.0 * 3600.0;

/// What of the aims shows at the height of the fire.
fn promise(design: &Design, analysis: &Analysis, wish: Wish) -> f64 {
    let fire = &analysis.height_of_fire;
    sum(wish, |aim| match aim {
        Aim::Warmth => 0.0,
        Aim::Wood => fire.efficiency_lower / STEP_EFFICIENCY,
        Aim::Masonry => -analysis.structure.heater / STEP_MASS,
        Aim::Simplicity => -labor(design) / STEP_LABOR,
    })
}

/// How far a design serves the aims, in steps of them.
pub fn score(design: &Design, figures: &Figures, wish: Wish) -> f64 {
    let line = |line| figures.line(line).unwrap_or_default();
    sum(wish, |aim| match aim {
        Aim::Warmth => figures.line(Line::HalfWarm).unwrap_or(DAYS) / STEP_WARMTH,
        Aim::Wood => line(Line::Efficiency) / STEP_EFFICIENCY,
        Aim::Masonry => -line(Line::Mass) / STEP_MASS,
        Aim::Simplicity => -labor(design) / STEP_LABOR,
    })
}

fn sum(wish: Wish, of: impl Fn(Aim) -> f64) -> f64 {
    Aim::ALL.into_iter().filter(|aim| wish.aims_at(*aim)).map(of).sum()
}
