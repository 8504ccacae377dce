//! Sentences on what the figures are worth: what was varied and why, bands, shares of cases.

use super::passage::{Block, Cell, Passage};
use super::{answer as answer_to, quantity, question as question_name, trust};
use crate::language::{English, said, say, within};
use crate::rules::{Answer, Question};
use crate::study::uncertainty::{
    FigureBand, Fractions, GasBand, Headline, Rank, SPREADS, SpreadId, SpreadRange, Target,
    Uncertainty,
};
use crate::units::{Quantity, System, difference, figure, fixed, number, range};

/// Heading over the bands.
pub const TITLE: English = English("How sure the figures are");

/// What the cases are.
pub const NOTE: English = English(
    "Formulas, brick, wood and fire are known only roughly. The same heater is computed 500 \
     times, each time with all of it somewhere else in its range. A band holds 90 of 100 \
     cases: 5 lie below it and 5 above.",
);

/// Heading over what makes a band wide.
pub const MATTERS: English = English("What matters most");

/// What the list of it says.
pub const MATTERS_NOTE: English = English(
    "How much of the scatter of a figure goes along with each, the most first. What cannot be \
     told from chance is left out.",
);

/// What is the same in all cases.
pub const NOT_VARIED: English = English(
    "In all these cases weather, suction of the house, charge, burn and all sizes are as \
     entered, and the heater is well built and clean of soot and ash. The cases are figures at \
     the height of the first fire, and judged there without the firing day.",
);

/// What is said where no sample had figures.
pub const NOTHING: English = English("None of the cases has figures.");

/// Name of what is known only roughly.
pub fn name(spread: SpreadId) -> &'static str {
    let english = match spread {
        SpreadId::Reversal => "Loss of the reversals",
        SpreadId::Turn => "Loss of the turns into and out of the runs",
        SpreadId::Roughness => "Roughness of the runs",
        SpreadId::FlueRoughness => "Roughness of the flue",
        SpreadId::ExcessAir => "Excess air",
        SpreadId::Moisture => "Moisture of the wood",
        SpreadId::Unburned => "Share left unburned",
        SpreadId::FlameEmissivity => "Radiation of the flame",
        SpreadId::Convection => "Heat from gas to wall by convection",
        SpreadId::GasRadiation => "Heat from gas to wall by radiation",
        SpreadId::CoreConductivity => "Conductivity of the core",
        SpreadId::CoreHeatCapacity => "Heat capacity of the core",
        SpreadId::FlueConductivity => "Conductivity of flue and insulation",
        SpreadId::OutsideFilm => "Heat given off outside connector and chimney",
        SpreadId::KindlingRate => "Wood of the kindling fire",
        SpreadId::KindlingExcessAir => "Excess air of the kindling fire",
    };
    said(english)
}

/// Why it is known only so well.
pub fn reason(spread: SpreadId) -> &'static str {
    let english = match spread {
        SpreadId::Reversal => {
            "Authors put a reversal through a slot between 2.0 and 4.5, and no two slots are alike."
        }
        SpreadId::Turn => {
            "Authors differ by half on a sharp turn, and the run behind it is too short to settle."
        }
        SpreadId::Roughness => {
            "Smooth fireclay has 2 mm (0.08 in), brickwork 3 mm (0.12 in), with rough joints up to \
             5 mm (0.2 in)."
        }
        SpreadId::FlueRoughness => {
            "A clean clay liner has 1.5 mm (0.06 in); wear and soot add to it."
        }
        SpreadId::ExcessAir => {
            "No fire keeps the air that was planned: 1.5 to 2.5 while the flame stands."
        }
        SpreadId::Moisture => {
            "A stack differs from piece to piece, and a meter reads some wrong."
        }
        SpreadId::Unburned => {
            "In homes several times the carbon monoxide of a laboratory was measured."
        }
        SpreadId::FlameEmissivity => {
            "A flame gives off 0.3 to 0.7 of what it could, with its soot and its thickness."
        }
        SpreadId::Convection => {
            "Formulas meet measurements in smooth tubes within a fifth; short rough runs are known \
             less well."
        }
        SpreadId::GasRadiation => {
            "Formulas are within a tenth for clean hot gas; soot and corners come on top."
        }
        SpreadId::CoreConductivity => {
            "Fireclay is sold from 0.90 to 1.35 W/mK, and mortar joints differ from brick."
        }
        SpreadId::CoreHeatCapacity => {
            "Fireclay is sold from 1750 to 2300 kg/m³; heavier brick stores more."
        }
        SpreadId::FlueConductivity => {
            "Mineral wool has 0.04 W/mK cold and twice that hot; brick varies with its density."
        }
        SpreadId::OutsideFilm => "Still air takes off little, wind much.",
        SpreadId::KindlingRate => "A kindling fire burns 1 to 2 kg (2 to 4 lb) in an hour.",
        SpreadId::KindlingExcessAir => "A kindling fire takes 4 to 6 times the air it needs.",
    };
    said(english)
}

/// Name of a figure.
pub fn headline(headline: Headline) -> &'static str {
    let english = match headline {
        Headline::FireboxOutlet => "Gas out of the firebox",
        Headline::ChimneyInlet => "Gas into the chimney",
        Headline::MouthWall => "Wall at the mouth",
        Headline::MouthWallAboveDewPoint => "Wall at the mouth above the dew point",
        Headline::DewPoint => "Dew point of the gas",
        Headline::Efficiency => "Efficiency, lower heating value",
        Headline::Margin => "Draft to spare",
        Headline::MildDayMargin => "Draft to spare on a mild day",
        Headline::ColdStartMargin => "Draft to spare at the cold start",
    };
    said(english)
}

/// How a question is answered, and in how many of a hundred cases. A yes is rounded down, a no up.
pub fn cases(question: Question, fractions: &Fractions) -> String {
    let Fractions { yes, look_again, no, not_enough_known } = *fractions;
    let failed = (1.0 - yes - look_again - no - not_enough_known).max(0.0);
    let (down, up) = (
        |share: f64| (100.0 * share + HAIR).floor(),
        |share: f64| (100.0 * share - HAIR).ceil(),
    );
    let (yes, no, failed) = (down(yes), up(no), up(failed));
    // What is left, so that all make a hundred.
    let rest = (100.0 - yes - no - failed).max(0.0);
    let unknown = if look_again < not_enough_known { rest } else { 0.0 };
    let named = |answer| answer_to(question, answer);
    let mut text = say!("{} in {} of 100 cases", named(Answer::Yes), fixed(yes, 0));
    for (what, count) in [
        (named(Answer::LookAgain), rest - unknown),
        (named(Answer::NotEnoughKnown), unknown),
        (named(Answer::No), no),
        (said("No figures"), failed),
    ] {
        if 0.0 < count {
            text.push_str(&say!(", {} in {}", within(what), fixed(count, 0)));
        }
    }
    text + "."
}

/// Share of cases below which a yes is said with its number of cases (–): bands are told for as
/// many.
const SURE: f64 = 0.9;

/// In how many cases a question is answered with yes, to be said with a yes that does not hold in
/// nearly all of them. Rounded down.
pub fn reserve(fractions: &Fractions) -> Option<String> {
    let count = fixed((100.0 * fractions.yes + HAIR).floor(), 0);
    (fractions.yes < SURE - 0.01 * HAIR).then(|| say!("in {count} of 100 cases"))
}

/// An answer with that.
pub fn answer(question: Question, answer: Answer, fractions: Option<&Fractions>) -> String {
    let word = answer_to(question, answer);
    let yes = fractions.filter(|_| answer == Answer::Yes);
    match yes.and_then(reserve) {
        Some(reserve) => say!("{word}, if all is as stated: {reserve}"),
        None => word.to_owned(),
    }
}

/// A share that is a whole number of hundredths but for its last bits (–), in hundredths.
const HAIR: f64 = 1e-9;

/// Between what a figure lies in nine of ten cases.
pub fn band(headline: Headline, band: &FigureBand, system: System) -> String {
    let quantity = match headline {
        Headline::FireboxOutlet
        | Headline::ChimneyInlet
        | Headline::MouthWall
        | Headline::DewPoint => Quantity::Temperature,
        Headline::MouthWallAboveDewPoint => {
            let shown = |kelvins| difference(kelvins, system);
            return say!("{} to {} in 90 of 100 cases", shown(band.p05), shown(band.p95));
        }
        Headline::Efficiency => Quantity::Share,
        Headline::Margin | Headline::MildDayMargin | Headline::ColdStartMargin => {
            Quantity::Pressure
        }
    };
    let low = number(band.p05, quantity, system);
    say!("{low} to {} in 90 of 100 cases", figure(band.p95, quantity, system))
}

/// Heading over bands along the path.
pub const BAND: English = English("In 90 of 100 cases");

/// Between what the gas lies at a place of the path in nine of ten cases.
pub fn along(band: &GasBand, system: System) -> String {
    let low = number(band.p05, Quantity::Temperature, system);
    say!("{low} to {}", figure(band.p95, Quantity::Temperature, system))
}

/// In how many cases a question is answered with yes, short. A yes is rounded down.
pub fn yes(question: Question, fractions: &Fractions) -> String {
    let count = (100.0 * fractions.yes + HAIR).floor();
    let yes = match question {
        Question::Safe => said("passed"),
        Question::Draw | Question::Heat => said("yes"),
    };
    say!("At the height of the fire {yes} in {} of 100 cases", fixed(count, 0))
}

/// Between what something was varied: 90 of 100 cases lie within.
pub fn varied(varied: &SpreadRange, system: System) -> String {
    let target = SPREADS.iter().find(|spread| spread.id == varied.spread);
    let ends = varied.p05..=varied.p95;
    match target.map(|spread| spread.target) {
        Some(Target::Input(id)) => range(&ends, quantity(id), system),
        _ => say!("{} of what is computed", range(&ends, Quantity::Share, system)),
    }
}

/// Where the range of something comes from, and how far that was checked.
pub fn source(spread: SpreadId) -> String {
    let known = SPREADS.iter().find(|known| known.id == spread);
    known.map_or_else(String::new, |known| {
        format!("{} ({})", known.source.text(), trust(known.source.trust))
    })
}

/// Which way more of something moves a figure.
pub fn way(rank: &Rank) -> &'static str {
    if rank.rank_correlation < 0.0 { said("lowers it") } else { said("raises it") }
}

/// How many of what matters most are named.
const NAMED: usize = 3;

/// What makes a band wide, the most first; nothing where nothing stands out.
pub fn ranking(band: &FigureBand) -> Option<String> {
    let names: Vec<_> =
        band.ranking.iter().take(NAMED).map(|rank| within(name(rank.spread))).collect();
    let (last, before) = names.split_last()?;
    let list = match before {
        [] => last.clone(),
        before => say!("{} and {last}", before.join(", ")),
    };
    Some(say!("What matters most: {list}."))
}

/// What the samples say, but for what stands beside the figures themselves.
pub fn passage(found: &Uncertainty, system: System) -> Passage {
    let answers = Question::ALL.map(|question| {
        vec![question_name(question).to_owned(), cases(question, found.answers.get(question))]
    });
    // What is asked first comes first.
    let others = Headline::ALL.into_iter().filter(|headline| *headline != Headline::Margin);
    let headlines = std::iter::once(Headline::Margin).chain(others);
    let matters = headlines.map(|headline| matters(headline, found, system)).collect();
    Passage::new(TITLE)
        .text(NOTE)
        .text(NOT_VARIED)
        .table(&[said("Question"), said("Answers")], answers)
        .text(format!("{MATTERS}. {MATTERS_NOTE}"))
        .with(Block::Choice(said("For the figure").into(), matters))
        .folded(reasons(found, system))
}

/// The same in short, for paper: what the cases are, and between what the figures lie.
pub fn in_short(found: &Uncertainty, system: System) -> Passage {
    let row =
        |of: Headline| vec![headline(of).to_owned(), band(of, found.figures.get(of), system)];
    Passage::new(TITLE)
        .text(NOTE)
        .text(NOT_VARIED)
        .table(&[said("Figure"), said("Is")], Headline::ALL.map(row))
}

/// What makes the band of a figure wide, the most first.
fn matters(headline: Headline, found: &Uncertainty, system: System) -> Passage {
    let figures = found.figures.get(headline);
    let most = figures.ranking.first().map_or(1.0, Rank::share);
    let row = |rank: &Rank| {
        let bar = (rank.share() / most).copysign(rank.rank_correlation);
        vec![
            name(rank.spread).into(),
            Cell { bar: Some(bar), ..figure(rank.share(), Quantity::Share, system).into() },
            way(rank).into(),
        ]
    };
    let heads = [said("Known only roughly"), said("Share"), said("More of it")];
    Passage::new(self::headline(headline))
        .text(band(headline, figures, system))
        .table(&heads, figures.ranking.iter().map(row))
}

/// Each spread with its range, its reason and its source.
fn reasons(found: &Uncertainty, system: System) -> Passage {
    let row = |range: &SpreadRange| {
        let id = range.spread;
        vec![name(id).to_owned(), varied(range, system), reason(id).to_owned(), source(id)]
    };
    let heads =
        [said("Known only roughly"), said("In 90 of 100 cases"), said("Why"), said("Source")];
    Passage::new(said("What was varied, how far and why"))
        .table(&heads, found.spreads.iter().map(row))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::uncertainty::Rank;

    #[test]
    fn cases_are_counted_on_the_careful_side() {
        let say = |yes, look_again, no| {
            let fractions = Fractions { yes, look_again, no, not_enough_known: 0.0 };
            cases(Question::Draw, &fractions)
        };
        assert_eq!(say(0.96, 0.04, 0.0), "Yes in 96 of 100 cases, look again in 4.");
        assert_eq!(
            say(0.968, 0.03, 0.002),
            "Yes in 96 of 100 cases, look again in 3, no in 1."
        );
        assert_eq!(say(0.998, 0.0, 0.002), "Yes in 99 of 100 cases, no in 1.");
        assert_eq!(say(0.998, 0.002, 0.0), "Yes in 99 of 100 cases, look again in 1.");
        assert_eq!(say(1.0, 0.0, 0.0), "Yes in 100 of 100 cases.");
        assert_eq!(say(0.002, 0.0, 0.998), "Yes in 0 of 100 cases, no in 100.");
        // 0.29 x 100 is a hair below 29.
        assert_eq!(say(0.29, 0.71, 0.0), "Yes in 29 of 100 cases, look again in 71.");
        assert_eq!(
            say(0.9, 0.08, 0.0),
            "Yes in 90 of 100 cases, look again in 8, no figures in 2."
        );
        let unchecked = Fractions { not_enough_known: 0.95, no: 0.05, ..Fractions::default() };
        assert_eq!(
            cases(Question::Safe, &unchecked),
            "What was checked passed in 0 of 100 cases, not enough known in 95, no in 5."
        );
    }

    #[test]
    fn a_yes_of_fewer_than_ninety_cases_says_so() {
        let said = |answer, yes| {
            let fractions = Fractions { yes, ..Fractions::default() };
            super::answer(Question::Draw, answer, Some(&fractions))
        };
        assert_eq!(said(Answer::Yes, 0.438), "Yes, if all is as stated: in 43 of 100 cases");
        assert_eq!(said(Answer::Yes, 0.898), "Yes, if all is as stated: in 89 of 100 cases");
        assert_eq!(said(Answer::Yes, 0.9), "Yes");
        assert_eq!(said(Answer::LookAgain, 0.4), "Look again");
        assert_eq!(answer(Question::Draw, Answer::Yes, None), "Yes");
    }

    #[test]
    fn three_reasons_are_named() {
        let rank = |spread| Rank { spread, rank_correlation: 0.5 };
        let with = |ranking| FigureBand { p05: 1.0, p50: 2.0, p95: 3.0, ranking };
        assert_eq!(ranking(&with(Vec::new())), None);
        let all =
            [SpreadId::ExcessAir, SpreadId::Convection, SpreadId::Moisture, SpreadId::Turn];
        let said = ranking(&with(all.map(rank).to_vec()));
        let expected = "What matters most: excess air, heat from gas to wall by convection and \
                        moisture of the wood.";
        assert_eq!(said.as_deref(), Some(expected));
        let band = band(Headline::Margin, &with(Vec::new()), System::Metric);
        assert_eq!(band, "1.0 to 3.0 Pa in 90 of 100 cases");
    }
}
