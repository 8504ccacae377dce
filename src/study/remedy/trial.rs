//! One design with one decision moved, judged; each only once.

use super::{Brought, Remedy, Traded, number};
use crate::analysis::day::{Setup, Whole, whole};
use crate::analysis::{Analysis, analyze};
use crate::design::Design;
use crate::design::field::{FieldId, Group, field};
use crate::rules::{DayFigures, Edges, Finding, Known, Rule, Severity, check, judge};
use crate::study::edges::{Deciding, Sample, Study};
use crate::study::figures::{COARSE, OFF, is_clear, off};
use crate::study::trials::{Mild, mild_day_near};
use crate::units::Quantity;

/// What a remedy must reach.
#[derive(Clone, Copy, Debug)]
pub(super) struct Aim {
    pub(super) finding: Finding,
    /// Weight from which its matter may not be spoken of.
    silent_from: Severity,
}

impl Aim {
    /// That the matter of a finding is not spoken of.
    pub(super) fn silence(finding: &Finding) -> Self {
        Self { finding: *finding, silent_from: Severity::GoodToKnow }
    }

    /// That what forbids building no longer does; none where that is not less than silence.
    pub(super) fn lighter(self) -> Option<Self> {
        let heavy = self.finding.severity;
        let is_less = heavy == Severity::DoNotBuild && self.silent_from < heavy;
        is_less.then_some(Self { silent_from: heavy, ..self })
    }

    /// Whether a finding speaks of its matter.
    fn is_about(&self, found: &Finding) -> bool {
        found.rule.is_about(self.finding.rule)
    }

    /// Whether its matter is silent at the edges of a design.
    fn is_silent(&self, design: &Design, analysis: &Analysis, edges: &Edges) -> bool {
        let findings = judge(design, analysis, known(None, Some(edges)));
        let mut about = findings.iter().filter(|each| self.is_about(each));
        about.all(|found| found.severity < self.silent_from)
    }

    /// Whether findings reach it. That is: its matter is silent, or lighter where no more is asked;
    /// of what weighs as much as its finding nothing is new; of what is heavier nothing is new, and
    /// nothing is made worse by more than [`is_worse`] allows for. What is lighter may come, and so
    /// may what is only good to know, even where its finding is no more than that; both are told.
    fn is_reached<'a>(
        &self,
        before: &[Finding],
        mut after: impl Iterator<Item = &'a Finding>,
    ) -> bool {
        let weight = self.finding.severity;
        after.all(|found| {
            if self.is_about(found) {
                return found.severity < self.silent_from;
            }
            if found.severity < weight || found.severity == Severity::GoodToKnow {
                return true;
            }
            as_heavy(before, found)
                .is_some_and(|known| found.severity == weight || !is_worse(found, known))
        })
    }
}

/// The finding of the same matter that was as heavy before.
fn as_heavy<'a>(before: &'a [Finding], found: &Finding) -> Option<&'a Finding> {
    let mut same = before.iter().filter(|each| each.rule.is_about(found.rule));
    same.find(|each| found.severity <= each.severity)
}

/// Whether a finding is further beyond its limit than before: by more than the temperatures of a day
/// may be off that was sought near another one, once it counts as repeating.
fn is_worse(found: &Finding, before: &Finding) -> bool {
    let beyond =
        |each: &Finding| each.limit.map_or(0.0, |limit| (each.found.value - limit.value).abs());
    let off = match (found.found.quantity, found.rule) {
        // What is at the edge is estimated by coarse days.
        (Quantity::Temperature, Rule::AtTheEdge(..)) => Setup::COARSE.resolution.repeats_within,
        (Quantity::Temperature, rule) if rule.is_of_the_day() => {
            Setup::STANDARD.resolution.repeats_within
        }
        _ => 0.0,
    };
    before.severity <= found.severity && beyond(before) + off < beyond(found)
}

/// A decision with the value that is put in.
pub(super) type Put = (FieldId, f64);

/// Samples that are computed at a time.
const AT_A_TIME: usize = 8;

#[derive(Clone, Debug)]
struct Trial {
    put: Put,
    design: Design,
    /// None where it cannot be analyzed.
    stated: Option<(Analysis, Vec<Finding>)>,
    days: OnDays,
    edges: Edged,
}

/// What is known of the days of a trial.
#[derive(Clone, Debug)]
enum OnDays {
    NotYet,
    /// Only the design as it stands has them.
    Missing,
    Found(Box<Days>),
}

/// What is known of the edges of a trial; none where there are none.
#[derive(Clone, Debug)]
enum Edged {
    NotYet,
    /// As the cases tell that decide them in the design as it stands.
    Estimated(Option<Edges>),
    /// With some samples, which are enough to say that an aim is not reached.
    Begun(Box<Sampling>),
    /// With all samples.
    Sampled(Option<Edges>),
}

/// The design as it stands, and all that was tried.
#[derive(Clone, Debug)]
pub(super) struct Trials {
    design: Design,
    analysis: Analysis,
    days: Option<(Whole, Days)>,
    /// The same coarsely, with what is found by them where they are off by as much as they may be.
    rough: Option<(Whole, [Vec<Finding>; OFF.len()])>,
    deciding: Option<Deciding>,
    stated: Vec<Finding>,
    /// With the days.
    daily: Vec<Finding>,
    /// With the edges as well.
    judged: Vec<Finding>,
    tried: Vec<Trial>,
}

/// What is judged of the firing day, and of the mild one where that is another.
#[derive(Clone, Debug)]
struct Days {
    stated: DayFigures,
    mild: Option<Mild>,
}

impl Days {
    /// None where a design has none.
    fn of(design: &Design, setup: &Setup, near: Option<&Whole>) -> Option<(Whole, Self)> {
        let day = whole(design, setup, near).ok()?;
        let stated = DayFigures::new(design, &day.first.state, &day.repeating.state);
        let mild = mild_day_near(design, setup, Some(&day));
        Some((day, Self { stated, mild }))
    }

    /// With all temperatures off by a share of what they may be coarsely.
    fn off(&self, share: f64) -> Self {
        let by = |day| off(day, share);
        Self { stated: by(self.stated), mild: self.mild.clone().map(|day| day.map(by)) }
    }

    /// Whether draft is clearly there or clearly wanting.
    fn is_clear(&self) -> bool {
        let is_clear = |day: &DayFigures| is_clear(day.least_margin);
        let mild = self.mild.as_ref().and_then(|day| day.as_ref().ok());
        is_clear(&self.stated) && mild.is_none_or(is_clear)
    }
}

fn known<'a>(days: Option<&'a Days>, edges: Option<&'a Edges>) -> Known<'a> {
    Known {
        day: days.map(|days| Ok(&days.stated)),
        mild: days.and_then(|days| days.mild.as_ref().map(Result::as_ref)),
        edges: edges.map(Ok),
    }
}

/// Whether a decision changes nothing in the heater nor in a wall behind: what stands farther away.
fn is_apart(id: FieldId) -> bool {
    let moves_air = matches!(id, FieldId::WallGap | FieldId::GapLow | FieldId::GapHigh);
    field(id).group == Group::Surroundings && !moves_air
}

/// All samples of a value, computed some at a time, the worst first.
#[derive(Clone, Debug)]
pub(super) struct Sampling {
    put: Put,
    aim: Aim,
    study: Study,
    order: Vec<usize>,
    samples: Vec<Sample>,
}

impl Sampling {
    fn new(put: Put, aim: Aim, study: Study, deciding: &Deciding) -> Self {
        let order = deciding.worst_first(aim.finding.rule);
        Self { put, aim, study, order, samples: Vec::new() }
    }

    /// Whether the samples that are known tell already that the aim is not reached.
    fn is_hopeless(&self, trial: &Trial) -> bool {
        let edges = self.study.at_least(&self.samples);
        let stated = trial.stated.as_ref();
        stated.is_none_or(|(analysis, _)| !self.aim.is_silent(&trial.design, analysis, &edges))
    }
}

impl Trials {
    /// With the days of the design, where they are known; none where it cannot be analyzed.
    pub(super) fn new(design: &Design, days: Option<(Whole, Option<Mild>)>) -> Option<Self> {
        let analysis = analyze(design).ok()?;
        let days = match days {
            Some((day, mild)) => {
                let (first, repeating) = (&day.first.state, &day.repeating.state);
                let stated = DayFigures::new(design, first, repeating);
                Some((day, Days { stated, mild }))
            }
            None => Days::of(design, &Setup::STANDARD, None),
        };
        let rough = days.as_ref().and_then(|_| Days::of(design, &COARSE, None));
        let rough = rough.map(|(day, days)| {
            let judged = |share| judge(design, &analysis, known(Some(&days.off(share)), None));
            (day, OFF.map(judged))
        });
        let stated = check(design, &analysis);
        let daily = judge(design, &analysis, known(days.as_ref().map(|days| &days.1), None));
        let (design, judged, tried) = (design.clone(), daily.clone(), Vec::new());
        Some(Self {
            design,
            analysis,
            days,
            rough,
            deciding: None,
            stated,
            daily,
            judged,
            tried,
        })
    }

    /// Judges with the edges from here on.
    pub(super) fn know(&mut self, deciding: Deciding) {
        let days = self.days.as_ref().map(|days| &days.1);
        let known = known(days, Some(deciding.edges()));
        self.judged = judge(&self.design, &self.analysis, known);
        self.deciding = Some(deciding);
    }

    /// The design as it stands.
    pub(super) const fn design(&self) -> &Design {
        &self.design
    }

    /// Its findings, with its firing day and its edges where there are such.
    pub(super) fn findings(&self) -> &[Finding] {
        &self.judged
    }

    /// Whether its edges are known.
    pub(super) const fn has_edges(&self) -> bool {
        self.deciding.is_some()
    }

    /// Whether an aim is reached as far as it shows without the firing day.
    pub(super) fn passes_stated(&mut self, aim: Aim, put: Put) -> bool {
        let place = self.place(put);
        let Some((_, findings)) = self.tried.get(place).and_then(|trial| trial.stated.as_ref())
        else {
            return false;
        };
        let counts = |finding: &&Finding| !finding.rule.is_of_the_day();
        aim.is_reached(&self.stated, findings.iter().filter(counts))
    }

    /// Whether the matter of an aim is silent at the edge, as the cases tell that decide it.
    pub(super) fn passes_near(&mut self, aim: Aim, put: Put) -> bool {
        let place = self.place(put);
        let (Some(trial), Some(deciding)) = (self.tried.get(place), &self.deciding) else {
            return false;
        };
        let estimated = if is_apart(put.0) {
            Ok(*deciding.edges())
        } else {
            deciding.estimate(&trial.design, Some(aim.finding.rule))
        };
        let (Ok(edges), Some((analysis, _))) = (estimated, &trial.stated) else {
            return false;
        };
        aim.is_silent(&trial.design, analysis, &edges)
    }

    /// Whether an aim is reached with the firing day, whatever is at the edge.
    pub(super) fn passes(&mut self, aim: Aim, put: Put) -> bool {
        self.passes_roughly(aim, put).unwrap_or_else(|| {
            let found = self.judged_with(put, None);
            found.is_some_and(|after| aim.is_reached(&self.daily, after.iter()))
        })
    }

    /// The same by coarse days; none where that hangs on less than they may be off.
    fn passes_roughly(&mut self, aim: Aim, put: Put) -> Option<bool> {
        let place = self.place(put);
        let (near, before) = self.rough.as_ref()?;
        let trial = self.tried.get(place).filter(|_| !is_apart(put.0))?;
        if matches!(trial.days, OnDays::Found(_)) {
            return None;
        }
        let (analysis, _) = trial.stated.as_ref()?;
        let (_, days) =
            Days::of(&trial.design, &COARSE, Some(near)).filter(|(_, days)| days.is_clear())?;
        let mut reached = OFF.into_iter().zip(before).map(|(share, before)| {
            let after = judge(&trial.design, analysis, known(Some(&days.off(share)), None));
            aim.is_reached(before, after.iter())
        });
        let found = reached.next()?;
        reached.all(|each| each == found).then_some(found)
    }

    /// Whether an aim is reached with everything that is judged, once that is computed.
    pub(super) fn passes_surely(&mut self, aim: Aim, put: Put) -> bool {
        let found = self.surely(put);
        found.is_some_and(|after| aim.is_reached(&self.judged, after.iter()))
    }

    /// What is yet to be computed for a value before an aim can be judged surely; none where nothing
    /// is. Where its matter has no edge, it is enough that nothing else comes up in the cases that
    /// decide.
    pub(super) fn left_to_sample(&mut self, aim: Aim, put: Put) -> Option<Sampling> {
        let place = self.place(put);
        let (trial, deciding) = (self.tried.get_mut(place)?, self.deciding.as_ref()?);
        let has_edge = aim.finding.rule.has_edge();
        match std::mem::replace(&mut trial.edges, Edged::NotYet) {
            Edged::Begun(begun) if has_edge => {
                let (put, study, samples) = (begun.put, begun.study, begun.samples);
                let sampling = Sampling { samples, ..Sampling::new(put, aim, study, deciding) };
                if sampling.is_hopeless(trial) {
                    trial.edges = Edged::Begun(Box::new(sampling));
                    return None;
                }
                return Some(sampling);
            }
            edges @ Edged::Sampled(_) => {
                trial.edges = edges;
                return None;
            }
            edges @ Edged::Estimated(_) if !has_edge => {
                trial.edges = edges;
                return None;
            }
            Edged::Begun(_) | Edged::Estimated(_) | Edged::NotYet => {}
        }
        if is_apart(put.0) {
            trial.edges = Edged::Sampled(Some(*deciding.edges()));
            return None;
        }
        if !has_edge {
            trial.edges = Edged::Estimated(deciding.estimate(&trial.design, None).ok());
            return None;
        }
        let Ok(study) = Study::new(&trial.design) else {
            trial.edges = Edged::Sampled(None);
            return None;
        };
        Some(Sampling::new(put, aim, study, deciding))
    }

    /// Computes some more samples; what is left to compute.
    pub(super) fn sample(&mut self, mut sampling: Sampling) -> Option<Sampling> {
        let Sampling { put, study, order, samples, .. } = &mut sampling;
        let is_new = |index: &usize| samples.iter().all(|sample| sample.index() != *index);
        let next: Vec<usize> = order.iter().copied().filter(is_new).take(AT_A_TIME).collect();
        samples.extend(next.into_iter().filter_map(|index| study.sample(index)));
        let place = self.place(*put);
        let trial = self.tried.get_mut(place)?;
        if sampling.samples.len() < sampling.study.len() {
            if !sampling.is_hopeless(trial) {
                return Some(sampling);
            }
            trial.edges = Edged::Begun(Box::new(sampling));
            return None;
        }
        trial.edges = Edged::Sampled(sampling.study.sum_up(&sampling.samples).ok());
        None
    }

    /// The place of the trial of a value.
    fn place(&mut self, put: Put) -> usize {
        let place = self.tried.iter().position(|trial| trial.put == put);
        place.unwrap_or_else(|| {
            self.tried.push(Trial::new(&self.design, put));
            self.tried.len() - 1
        })
    }

    /// Findings with a value put in, with the firing day where there is one; none where only the
    /// design as it stands has one.
    fn judged_with(&mut self, put: Put, edges: Option<&Edges>) -> Option<Vec<Finding>> {
        let place = self.place(put);
        let trial = self.tried.get_mut(place)?;
        let (analysis, _) = trial.stated.as_ref()?;
        if self.days.is_none() {
            return Some(judge(&trial.design, analysis, known(None, edges)));
        }
        if matches!(trial.days, OnDays::NotYet) {
            let standing = self.days.as_ref();
            let days = if is_apart(put.0) {
                standing.map(|(_, days)| days.clone())
            } else {
                let near = standing.map(|(day, _)| day);
                Days::of(&trial.design, &Setup::STANDARD, near).map(|(_, days)| days)
            };
            trial.days = days.map_or(OnDays::Missing, |days| OnDays::Found(Box::new(days)));
        }
        match &trial.days {
            OnDays::Found(days) => {
                Some(judge(&trial.design, analysis, known(Some(days), edges)))
            }
            OnDays::NotYet | OnDays::Missing => None,
        }
    }

    /// The same with the edges, where the design as it stands has any.
    fn surely(&mut self, put: Put) -> Option<Vec<Finding>> {
        let place = self.place(put);
        let edges = match &self.tried.get(place)?.edges {
            Edged::NotYet | Edged::Begun(_) => None,
            Edged::Estimated(edges) | Edged::Sampled(edges) => *edges,
        };
        if self.has_edges() && edges.is_none() {
            return None;
        }
        self.judged_with(put, edges.as_ref())
    }

    /// A value that reached an aim, as a remedy.
    pub(super) fn remedy(&mut self, aim: Aim, put: Put) -> Option<Remedy> {
        let (id, value) = put;
        let present = (number(id)?.get)(&self.design);
        let after = self.surely(put)?;
        let about = |finding: &&Finding| aim.is_about(finding);
        let leaves = after.iter().filter(about).map(|finding| finding.severity).max();
        let is_new =
            |finding: &&Finding| as_heavy(&self.judged, finding).is_none() && !about(finding);
        let brings = after.iter().filter(is_new).copied().map(Brought::Judged).collect();
        let now = Traded::ALL.map(|traded| traded.of(&self.analysis));
        let place = self.place(put);
        let (analysis, _) = self.tried.get(place)?.stated.as_ref()?;
        let mut trades = now.map(|before| (before, before));
        for (traded, (_, after)) in Traded::ALL.into_iter().zip(&mut trades) {
            *after = traded.of(analysis);
        }
        Some(Remedy { field: id, present, value, leaves, brings, trades })
    }
}

impl Trial {
    fn new(design: &Design, put: Put) -> Self {
        let mut design = design.clone();
        if let Some(number) = number(put.0) {
            (number.set)(&mut design, put.1);
        }
        let stated = analyze(&design).ok().map(|analysis| {
            let findings = check(&design, &analysis);
            (analysis, findings)
        });
        Self { put, design, stated, days: OnDays::NotYet, edges: Edged::NotYet }
    }
}
