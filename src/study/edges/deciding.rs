//! The few cases on which the edges of a design hang: by them those of a design much like it are
//! estimated in a tenth of the time.

use super::{
    FIGURES, Mouth, Peaks, Plan, Sample, Study, TIMES, enough, mouth, overloaded, pairs,
    quantile_of, sum_up_mouth,
};
use crate::analysis::day::{Repeating, Setup, repeating_near};
use crate::analysis::factors::Factors;
use crate::analysis::{Failure, analyze};
use crate::design::Design;
use crate::rules::{Around, Edges, Hazard, Hot, Rule, Touch, air_it_gets};
use crate::study::sort_few;

/// A design whose edges are known, with the cases that stand at them.
#[derive(Clone, Debug)]
pub struct Deciding {
    edges: Edges,
    /// As it stands, coarsely.
    near: Repeating,
    coarse: Peaks,
    /// Every sample: its place, and what it came to.
    all: Vec<(usize, Peaks, Mouth)>,
    /// Each case once: its place among the samples, and what it came to.
    cases: Vec<(usize, Peaks)>,
    /// For each figure the place of its case.
    of: [usize; FIGURES],
}

impl Deciding {
    /// Picks for each figure the sample that stands nearest its edge; for the times in which draft is
    /// wanting, which are mostly zero, by the draft to spare.
    ///
    /// # Errors
    ///
    /// As [`Study::sum_up`].
    pub fn new(study: &Study, samples: &[Sample]) -> Result<Self, Failure> {
        let mut edges = study.sum_up(samples)?;
        let coarse = study.coarse();
        let found = || {
            let outcomes = samples.iter().map(|each| (each.index, each.outcome.as_ref().ok()));
            outcomes.filter_map(|(index, found)| Some((index, found?.0)))
        };
        let all = samples.iter().filter_map(|sample| {
            let (peaks, mouth) = sample.outcome.as_ref().ok()?;
            Some((sample.index, *peaks, *mouth))
        });
        let thin = quantile_of(found().map(|(_, peaks)| -peaks.margin).collect());
        let mut picked = Self {
            edges,
            near: study.cases.coarse.clone(),
            coarse,
            all: all.collect(),
            cases: Vec::new(),
            of: [0; FIGURES],
        };
        for (place, [nominal, edge]) in pairs(&mut edges).enumerate() {
            let off = |peaks: &Peaks| {
                if TIMES.contains(&place) {
                    return (-peaks.margin - thin).abs();
                }
                (peaks.at(place) - coarse.at(place) - (*edge - *nominal)).abs()
            };
            let nearest = found().min_by(|one, other| off(&one.1).total_cmp(&off(&other.1)));
            picked.pick(place, nearest);
        }
        Ok(picked)
    }

    fn pick(&mut self, place: usize, case: Option<(usize, Peaks)>) {
        let Some(case) = case else { return };
        let known = self.cases.iter().position(|(index, _)| *index == case.0);
        let at = known.unwrap_or_else(|| {
            self.cases.push(case);
            self.cases.len() - 1
        });
        if let Some(of) = self.of.get_mut(place) {
            *of = at;
        }
    }

    /// Its edges, with all samples.
    pub const fn edges(&self) -> &Edges {
        &self.edges
    }

    /// The places of all samples, the worst first for what a rule is about.
    pub fn worst_first(&self, rule: Rule) -> Vec<usize> {
        let badness = |(_, peaks, mouth): &(usize, Peaks, Mouth)| match places(rule) {
            [] => mouth.dew_point - mouth.wall,
            [place, ..] if TIMES.contains(place) => -peaks.margin,
            [place, ..] => peaks.at(*place),
        };
        let mut sorted: Vec<_> = self.all.iter().collect();
        sort_few(&mut sorted, |one, other| badness(other).total_cmp(&badness(one)));
        let known: Vec<usize> = sorted.into_iter().map(|(index, ..)| *index).collect();
        // What had no figures may have some in another design.
        let failed = (0..self.edges.samples).filter(|index| !known.contains(index));
        known.iter().copied().chain(failed).collect()
    }

    /// The edges of another design, as if each stood at the same case and was as far from it; where
    /// only what a rule is about is wanted, the rest is left as it is.
    ///
    /// # Errors
    ///
    /// [`Failure`]: why a day of it was not found.
    pub fn estimate(&self, design: &Design, wanted: Option<Rule>) -> Result<Edges, Failure> {
        let mut edges = self.edges;
        let overloaded = overloaded(design);
        let plan = Plan::new(&overloaded, enough());
        let is_wanted = |place: usize| wanted.is_none_or(|rule| places(rule).contains(&place));
        if (0..FIGURES).any(is_wanted) {
            self.estimate_days(&mut edges, (&overloaded, &plan), &is_wanted)?;
            edges.air_ratio = air_it_gets(&analyze(&overloaded)?);
        }
        if wanted.is_some_and(|rule| !places(rule).is_empty()) {
            return Ok(edges);
        }
        let stands = mouth(design, &Factors::NOMINAL)?;
        let mouths: Result<Vec<Mouth>, Failure> = (0..plan.len())
            .map(|index| {
                let (mut varied, factors) = plan.varied(index);
                varied.fire.charge = design.fire.charge;
                mouth(&varied, &factors)
            })
            .collect();
        sum_up_mouth(&mut edges, stands, &mouths?);
        Ok(edges)
    }

    fn estimate_days(
        &self,
        edges: &mut Edges,
        (overloaded, plan): (&Design, &Plan),
        is_wanted: &dyn Fn(usize) -> bool,
    ) -> Result<(), Failure> {
        let near = repeating_near(overloaded, &Setup::COARSE, &self.near)?;
        let coarse = Peaks::of(&near.state);
        let mut now: Vec<Option<Peaks>> = vec![None; self.cases.len()];
        edges.hottest_place = near.state.peak.surface_place;
        for (place, [nominal, edge]) in pairs(edges).enumerate().filter(|(p, _)| is_wanted(*p))
        {
            *nominal += coarse.at(place) - self.coarse.at(place);
            let of = self.of.get(place).copied().unwrap_or_default();
            if let (Some((index, before)), Some(now)) = (self.cases.get(of), now.get_mut(of)) {
                let found = if let Some(known) = now {
                    *known
                } else {
                    let (varied, factors) = plan.varied(*index);
                    let setup = Setup { factors, ..Setup::COARSE };
                    let day = repeating_near(&varied, &setup, &near)?;
                    *now.insert(Peaks::of(&day.state))
                };
                *edge += found.at(place) - before.at(place);
            }
            *edge = edge.max(*nominal);
        }
        Ok(())
    }
}

/// Places of the figures on which a rule hangs.
const fn places(rule: Rule) -> &'static [usize] {
    match rule {
        Rule::AtTheEdge(Hazard::Rating, _) => &[0],
        Rule::Around(Around::GlassNear) => &[1],
        Rule::FaceTooHot | Rule::AtTheEdge(Hazard::Face, _) => &[2],
        Rule::Touch(touch) | Rule::AtTheEdge(Hazard::Touch(touch), _) => match touch {
            Touch::Reach => &[4, 5],
            Touch::Seat | Touch::Bed | Touch::Door => &[5],
        },
        Rule::AtTheEdge(Hazard::Starved, _) => &[6, 7],
        Rule::TooHot(hot) | Rule::AtTheEdge(Hazard::TooHot(hot), _) => match hot {
            Hot::Wall | Hot::WallForLong | Hot::Foam => &[3],
            Hot::Firebox => &[8],
            Hot::Runs => &[9],
            Hot::Facing | Hot::Mortar => &[10],
            Hot::Steel => &[10, 8],
            Hot::Board => &[11],
            Hot::Base => &[12],
            Hot::Below => &[13],
            Hot::Connector => &[14],
            Hot::Liner => &[15],
            Hot::Wool => &[16],
        },
        Rule::Around(Around::GapSmall) | Rule::AtTheEdge(Hazard::Growth, _) => &[17],
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Standing;

    /// What moves a figure of its place moves the rule that hangs on it.
    #[test]
    fn rules_hang_on_the_figures_of_their_places() {
        for hot in Hot::ALL {
            let [place, ..] = places(Rule::TooHot(hot)) else { panic!("{hot:?}") };
            let mut edges = Edges::default();
            for (index, [nominal, _]) in pairs(&mut edges).enumerate() {
                *nominal = if index == *place { 9000.0 } else { 300.0 };
            }
            let found = hot.of(293.15, &edges.layers, edges.wall_behind.nominal);
            assert!(1000.0 < found, "{hot:?}");
        }
        let rating = Rule::AtTheEdge(Hazard::Rating, Standing::Edge);
        let mut edges = Edges::default();
        for (index, [_, edge]) in pairs(&mut edges).enumerate() {
            *edge = if places(rating).contains(&index) { 1.0 } else { 0.0 };
        }
        assert_eq!((edges.peak_gas.edge, edges.peak_firebox.edge), (1.0, 0.0));
    }
}
