//! One design with one decision moved, judged; each only once.

use super::{Remedy, Traded, number};
use crate::analysis::day::{Setup, day};
use crate::analysis::{Analysis, Failure, analyze};
use crate::design::Design;
use crate::design::field::{FieldId, Group, field};
use crate::rules::{DayFigures, Finding, Known, Severity, check, judge};
use crate::study::trials::mild_day;

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

    /// Whether findings reach it: its matter silent, nothing new that weighs as much, nothing
    /// heavier made worse.
    fn is_reached<'a>(
        &self,
        before: &[Finding],
        mut after: impl Iterator<Item = &'a Finding>,
    ) -> bool {
        let weight = self.finding.severity;
        after.all(|found| {
            if found.rule.is_about(self.finding.rule) {
                return found.severity < self.silent_from;
            }
            let known = known(before, found);
            found.severity < weight
                || known
                    .is_some_and(|known| found.severity == weight || !is_worse(found, known))
        })
    }
}

/// The finding of the same matter that was as heavy before.
fn known<'a>(before: &'a [Finding], found: &Finding) -> Option<&'a Finding> {
    let mut same = before.iter().filter(|each| each.rule.is_about(found.rule));
    same.find(|each| found.severity <= each.severity)
}

/// Whether a finding is further beyond its limit than before.
fn is_worse(found: &Finding, before: &Finding) -> bool {
    let beyond =
        |each: &Finding| each.limit.map_or(0.0, |limit| (each.found.value - limit.value).abs());
    before.severity <= found.severity && beyond(before) < beyond(found)
}

/// A decision with the value that is put in.
pub(super) type Put = (FieldId, f64);

#[derive(Clone, Debug)]
struct Trial {
    put: Put,
    design: Design,
    /// None where it cannot be analyzed.
    stated: Option<(Analysis, Vec<Finding>)>,
    judged: Judged,
}

/// Findings with the firing day.
#[derive(Clone, Debug)]
enum Judged {
    NotYet,
    WithoutDay,
    Found(Vec<Finding>),
}

/// The design as it stands, and all that was tried.
#[derive(Clone, Debug)]
pub(super) struct Trials {
    design: Design,
    analysis: Analysis,
    days: Option<Days>,
    stated: Vec<Finding>,
    judged: Vec<Finding>,
    tried: Vec<Trial>,
}

/// What is judged of the firing day, and of the mild one where that is another.
#[derive(Clone, Debug)]
struct Days {
    stated: DayFigures,
    mild: Option<Result<DayFigures, Failure>>,
}

impl Days {
    /// None where the design as it stands has none.
    fn of(design: &Design) -> Option<Self> {
        let day = day(design, &Setup::STANDARD).ok()?;
        let stated = DayFigures::new(design, &day.first_fire, &day.periodic);
        Some(Self { stated, mild: mild_day(design, &Setup::STANDARD) })
    }

    const fn known(&self) -> Known<'_> {
        Known { day: Some(&self.stated), mild: self.mild.as_ref(), edges: None }
    }
}

impl Trials {
    /// None where the design cannot be analyzed.
    pub(super) fn new(design: &Design) -> Option<Self> {
        let analysis = analyze(design).ok()?;
        let days = Days::of(design);
        let stated = check(design, &analysis);
        let known = days.as_ref().map(Days::known).unwrap_or_default();
        let judged = judge(design, &analysis, known);
        let design = design.clone();
        Some(Self { design, analysis, days, stated, judged, tried: Vec::new() })
    }

    /// The design as it stands.
    pub(super) const fn design(&self) -> &Design {
        &self.design
    }

    /// Its findings, with its firing day where there is one.
    pub(super) fn findings(&self) -> &[Finding] {
        &self.judged
    }

    /// Whether an aim is reached as far as it shows without the firing day.
    pub(super) fn passes_stated(&mut self, aim: Aim, put: Put) -> bool {
        let Some((trial, before)) = self.trial(put) else {
            return false;
        };
        let Some((_, findings)) = &trial.stated else {
            return false;
        };
        let counts = |finding: &&Finding| !finding.rule.is_of_the_day();
        aim.is_reached(before, findings.iter().filter(counts))
    }

    /// Whether an aim is reached.
    pub(super) fn passes(&mut self, aim: Aim, put: Put) -> bool {
        let before = self.judged.clone();
        self.judged(put).is_some_and(|after| aim.is_reached(&before, after.iter()))
    }

    /// The trial of a value, with the findings of the design as it stands without its day.
    fn trial(&mut self, put: Put) -> Option<(&mut Trial, &[Finding])> {
        let place = self.tried.iter().position(|trial| trial.put == put);
        let place = place.unwrap_or_else(|| {
            self.tried.push(Trial::new(&self.design, put));
            self.tried.len() - 1
        });
        Some((self.tried.get_mut(place)?, &self.stated))
    }

    /// Findings with a value put in, with the firing day where it is found; none where only the
    /// design as it stands has one.
    fn judged(&mut self, put: Put) -> Option<&[Finding]> {
        let days = self.days.clone();
        let has_day = days.is_some();
        let (trial, _) = self.trial(put)?;
        let Trial { design, stated, judged, .. } = trial;
        let (analysis, findings) = stated.as_ref()?;
        if matches!(judged, Judged::NotYet) {
            // What stands around the heater changes nothing in it.
            let same = field(put.0).group == Group::Surroundings;
            let days = if same { days } else { Days::of(design) };
            *judged = match days {
                Some(days) => Judged::Found(judge(design, analysis, days.known())),
                None if has_day => Judged::WithoutDay,
                None => Judged::Found(findings.clone()),
            };
        }
        match judged {
            Judged::Found(findings) => Some(findings),
            Judged::NotYet | Judged::WithoutDay => None,
        }
    }

    /// A value that reached an aim, as a remedy.
    pub(super) fn remedy(&mut self, aim: Aim, put: Put) -> Option<Remedy> {
        let (id, value) = put;
        let present = (number(id)?.get)(&self.design);
        let before = self.judged.clone();
        let about = |finding: &&Finding| finding.rule.is_about(aim.finding.rule);
        let after = self.judged(put)?;
        let leaves = after.iter().filter(about).map(|finding| finding.severity).max();
        let is_new = |finding: &&Finding| known(&before, finding).is_none() && !about(finding);
        let mut brings: Vec<_> = after
            .iter()
            .filter(is_new)
            .map(|finding| (finding.rule.question(), finding.severity))
            .collect();
        brings.dedup();
        let now = Traded::ALL.map(|traded| traded.of(&self.analysis));
        let (trial, _) = self.trial(put)?;
        let (analysis, _) = trial.stated.as_ref()?;
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
        Self { put, design, stated, judged: Judged::NotYet }
    }
}
