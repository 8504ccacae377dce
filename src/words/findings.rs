//! English sentences of the findings.

use super::{around, heat, house, label, place};
use crate::analysis::conditions::{LEAST_SUCTION, MILD_OUTDOORS};
use crate::analysis::extrapolation::Formula;
use crate::design::field::{FieldId, Kind, field};
use crate::language::{said, say, within};
use crate::rules::{
    Around, Burning, Day, Figure, Finding, Hazard, Judged, Moment, OVERLOAD, PEAK_ALLOWANCE,
    Rule, Standing,
};
use crate::units::{Quantity, System, difference, figure, range};

/// A finding in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Text {
    /// What was found, with its figures.
    pub title: String,
    /// Why it matters.
    pub reason: &'static str,
    /// What to change.
    pub remedy: &'static str,
}

/// A finding in words.
pub fn finding(finding: &Finding, system: System) -> Text {
    let show = |shown: Figure| figure(shown.value, shown.quantity, system);
    let found = show(finding.found);
    let limit = finding.limit.map(show).unwrap_or_default();
    Text {
        title: title(finding, [&found, &limit], system),
        reason: reason(finding.rule),
        remedy: remedy(finding.rule),
    }
}

/// What formulas were not made for.
fn unlike(formula: Formula) -> &'static str {
    let english = match formula {
        Formula::ForcedConvection => "gas very slow",
        Formula::ColebrookFriction | Formula::NorrisGain => "walls very rough",
        Formula::LecknerEmissivity | Formula::GasTransport => "gas very hot",
    };
    said(english)
}

#[expect(clippy::too_many_lines, reason = "a sentence per rule")]
/// The figure of a finding beside its limit, for the line of a question.
pub(super) fn in_short(finding: &Finding, system: System) -> String {
    let show = |shown: Figure| figure(shown.value, shown.quantity, system);
    let found = show(finding.found);
    let limit = finding.limit.map(show).unwrap_or_default();
    let place = within(&place(finding.place));
    match finding.rule {
        Rule::DraftNegative(judged) => {
            say!("draft {} short{}", short(finding, system), in_short_on(judged))
        }
        Rule::ColdStartWeak(judged) => {
            let when = in_short_on(judged);
            say!("draft {} short at a cold start{when}", short(finding, system))
        }
        Rule::DraftReserveSmall(judged) => {
            say!("{found} to spare{}, {limit} wanted", in_short_on(judged))
        }
        Rule::NoRunningFlow(_) => said("no flow at which it runs").into(),
        Rule::SecondFlow(_) => say!("{found} flows at which it balances"),
        Rule::UnheldFlow(_) => said("a flow that does not hold itself").into(),
        Rule::GasAboveChimneyRating(_) | Rule::GasWasteful(_) | Rule::GasWarm(_) => {
            say!("gas into the chimney {found}, limit {limit}")
        }
        Rule::GasCool(_) => say!("gas into the chimney {found}, at least {limit} wanted"),
        Rule::ChimneyWallWet(Burning::MostOfBurn) => {
            say!("wall at the mouth wet for {found} of a burn")
        }
        Rule::ChimneyWallWet(burning) => {
            say!("wall at the mouth {found}{}, dew point {limit}", in_short_while(burning))
        }
        Rule::ChimneyWallFreezing(burning) => {
            say!("wall at the mouth {found}{}, limit {limit}", in_short_while(burning))
        }
        Rule::GasSlow => say!("{found} in {place}, at least {limit} wanted"),
        Rule::GasFast => say!("{found} in {place}, limit {limit}"),
        Rule::FireboxSmall => say!("firebox surface {found}, {limit} wanted"),
        Rule::FireboxLarge => say!("firebox surface {found}, {limit} suits"),
        Rule::FireboxBaseSmall => say!("base of the firebox {found}, {limit} wanted"),
        Rule::FireboxLow => say!("firebox {found} high, {limit} wanted"),
        Rule::FireboxOverfull => say!("{found} of wood, the firebox holds {limit}"),
        Rule::FireboxNarrow => say!("firebox {found} to 1, limit {limit}"),
        Rule::GlassLarge => say!("glass {found}, limit {limit}"),
        Rule::InletFast => say!("air enters at {found}, limit {limit}"),
        Rule::PathShort => say!("smoke path {found}, at least {limit} wanted"),
        Rule::NoRuns => said("no runs").into(),
        Rule::SideClose => say!("{found}, limit {limit} at the sides"),
        Rule::BackClose => say!("{found}, limit {limit} behind"),
        Rule::FrontClose => say!("{found}, limit {limit} in front of the door"),
        Rule::CeilingClose => say!("{found}, limit {limit} to the ceiling"),
        Rule::ClearancesNotChecked => said("no clearance of a code was checked").into(),
        Rule::OutsideFormula(formula) => say!("{} in {place}", unlike(formula)),
        Rule::InputUnusual(id) => {
            say!("{}: {found}, usual {}", label(id), usual(id, system))
        }
        Rule::WoodWet => say!("wood with {found} of water, limit {limit}"),
        Rule::AirScarce => say!("{found} times the air that wood needs, {limit} wanted"),
        Rule::HeatWasted => say!("{found} of the heat is of use, at least {limit} wanted"),
        Rule::HouseNotCovered => say!("{found} on average, the house loses {limit}"),
        Rule::SmokeBack(judged) => {
            say!("smoke for {found} of a burn{}", in_short_on(judged))
        }
        Rule::SmokeAtLighting(judged) => {
            say!("smoke for {found} at a cold start{}", in_short_on(judged))
        }
        Rule::ShortOfDraft(judged) => {
            say!("less air than stated for {found} of a burn{}", in_short_on(judged))
        }
        Rule::FireGoesOut(judged) => say!("the fire goes out{}", in_short_on(judged)),
        Rule::DayNotFound(judged) => say!("no firing day found{}", in_short_on(judged)),
        Rule::EdgeNotFound => said("no firing day found with more wood").to_owned(),
        Rule::InHouse(rule) => house::in_short(rule, [&found, &limit]),
        Rule::FaceTooHot => say!("face at {found}, limit {limit}"),
        Rule::AtTheEdge(hazard, _) => match hazard {
            Hazard::Rating => say!("gas into the chimney up to {found}, limit {limit}"),
            Hazard::Face => say!("face up to {found}, limit {limit}"),
            Hazard::Starved => say!("short of draft for {found} with more wood"),
            Hazard::WetWall => say!("wall at the mouth wet in {found} of cases"),
            Hazard::FrozenWall => say!("wall at the mouth freezing in {found} of cases"),
            Hazard::Growth => say!("core grows up to {found}, gap {limit}"),
            Hazard::TooHot(hot) => say!("{} up to {found}, limit {limit}", heat::noun(hot)),
            Hazard::Touch(touch) => {
                filled(heat::touch(touch).short, [&say!("up to {found}"), &limit])
            }
        },
        Rule::TooHot(hot) => say!("{} at {found}, limit {limit}", heat::noun(hot)),
        Rule::Touch(touch) => filled(heat::touch(touch).short, [&say!("at {found}"), &limit]),
        Rule::Around(rule) => around::filled(rule, around::said(rule).short, [&found, &limit]),
    }
}

/// How much draft is wanting.
fn short(finding: &Finding, system: System) -> String {
    let Figure { value, quantity } = finding.found;
    figure(-value, quantity, system)
}

/// What burns where it is not the stated charge, to follow a figure.
fn in_short_while(burning: Burning) -> &'static str {
    let english = match burning {
        Burning::Charge => "",
        Burning::HalfCharge => " with half a charge",
        Burning::LastChar => " at the end of a burn",
        Burning::WholeBurn => " at the most when the days repeat",
        Burning::MostOfBurn => " for most of a burn",
    };
    said(english)
}

fn in_short_on(judged: Judged) -> &'static str {
    let english = match (judged.day, judged.due) {
        (Day::Design, false) => "",
        (Day::Mild, false) => " on a mild day",
        (Day::Design, true) => " when due for cleaning",
        (Day::Mild, true) => " when due for cleaning, on a mild day",
    };
    said(english)
}

/// The usual range of an input.
fn usual(id: FieldId, system: System) -> String {
    match &field(id).kind {
        Kind::Number(number) => range(&number.usual, number.quantity, system),
        Kind::Choice(_) => String::new(),
    }
}

#[expect(clippy::too_many_lines, reason = "a sentence per rule")]
fn title(finding: &Finding, [found, limit]: [&str; 2], system: System) -> String {
    match finding.rule {
        Rule::DraftNegative(judged) => say!(
            "The chimney does not pull enough{}: the draft to spare is {found}{}.",
            on(judged, system),
            suction(judged, system)
        ),
        Rule::DraftReserveSmall(judged) => say!(
            "Little draft to spare{}: {found}, where {limit} is wanted{}.",
            on(judged, system),
            suction(judged, system)
        ),
        Rule::NoRunningFlow(judged) => say!(
            "With its air fully open this heater finds no flow at which it runs{}{}.",
            on(judged, system),
            suction(judged, system)
        ),
        Rule::SecondFlow(judged) => say!(
            "The draft balances at {found} flows{}{}: the fire may settle at the wrong one.",
            on(judged, system),
            suction(judged, system)
        ),
        Rule::UnheldFlow(judged) => say!(
            "The draft balances only at an excess air ratio of {found}{}{}, and that does not \
             last: a smaller fire dies down.",
            on(judged, system),
            suction(judged, system)
        ),
        Rule::ColdStartWeak(judged) => say!(
            "A kindling fire does not draw while the heater is cold{}: its draft to spare is \
             {found}{}.",
            on(judged, system),
            suction(judged, system)
        ),
        Rule::GasAboveChimneyRating(moment) => {
            let more = difference(PEAK_ALLOWANCE, system);
            say!(
                "{} {found}, and up to {more} more at the peak of a firing; the chimney is rated \
                 for {limit}.",
                entering(moment)
            )
        }
        Rule::GasWasteful(moment) => {
            say!("{} {found}; above {limit} much of the wood is lost.", entering(moment))
        }
        Rule::GasWarm(moment) => {
            say!("{} {found}, on the warm side of {limit}.", entering(moment))
        }
        Rule::GasCool(moment) => {
            say!("{} {found}; below {limit} a dry flue drips.", entering(moment))
        }
        Rule::ChimneyWallWet(Burning::Charge) => say!(
            "The wall at the mouth of the chimney is at {found}, below the dew point of {limit}."
        ),
        Rule::ChimneyWallWet(Burning::HalfCharge) => say!(
            "With half a charge the wall at the mouth of the chimney is at {found}, below the dew \
             point of {limit}."
        ),
        Rule::ChimneyWallWet(Burning::LastChar) => say!(
            "When the last of the char has burned, the wall at the mouth of the chimney is at {found}, \
             below the dew point of {limit}: it stays wet from fire to fire."
        ),
        Rule::ChimneyWallWet(Burning::WholeBurn) => say!(
            "When the days repeat, the wall at the mouth of the chimney never gets warmer than {found} \
             while it burns: below the dew point of {limit} from lighting to the last char, whatever a \
             steady flue would come to."
        ),
        Rule::ChimneyWallWet(Burning::MostOfBurn) => say!(
            "When the days repeat, the wall at the mouth of the chimney is below the dew point for \
             {found} of a burn; {limit} is the most."
        ),
        Rule::ChimneyWallFreezing(Burning::WholeBurn) => say!(
            "When the days repeat, the wall at the mouth of the chimney never gets warmer than {found} \
             while it burns: it stays below freezing."
        ),
        Rule::ChimneyWallFreezing(Burning::MostOfBurn) => said(
            "When the days repeat, the wall at the mouth of the chimney is below freezing for most of \
             a burn."
        )
        .into(),
        Rule::ChimneyWallFreezing(Burning::Charge) => {
            say!("The wall at the mouth of the chimney is at {found}, below freezing.")
        }
        Rule::ChimneyWallFreezing(Burning::HalfCharge) => say!(
            "With half a charge the wall at the mouth of the chimney is at {found}, below freezing."
        ),
        Rule::ChimneyWallFreezing(Burning::LastChar) => say!(
            "When the last of the char has burned, the wall at the mouth of the chimney is at {found}, \
             below freezing."
        ),
        Rule::GasSlow => say!("Gas moves at {found} here, slower than {limit}."),
        Rule::GasFast => say!("Gas moves at {found} here, faster than {limit}."),
        Rule::FireboxSmall => {
            say!("The firebox has {found} of inner surface; the charge asks for {limit}.")
        }
        Rule::FireboxLarge => {
            say!("The firebox has {found} of inner surface; {limit} suits the charge.")
        }
        Rule::FireboxBaseSmall => {
            say!("The base of the firebox is {found}; the charge asks for {limit}.")
        }
        Rule::FireboxLow => {
            say!("The firebox is {found} high; the charge asks for {limit}.")
        }
        Rule::FireboxOverfull => {
            say!("The charge is {found}; filled to its ceiling, the firebox holds {limit}.")
        }
        Rule::FireboxNarrow => {
            say!("One side of the firebox is {found} times the other, more than {limit}.")
        }
        Rule::GlassLarge => {
            say!("Glass makes {found} of the firebox surface, more than {limit}.")
        }
        Rule::InletFast => {
            say!("Combustion air enters at {found}, faster than {limit}.")
        }
        Rule::PathShort => {
            say!("The smoke path is {found} long; the standard route asks for {limit}.")
        }
        Rule::NoRuns => {
            said("There are no runs: the gas goes straight from the firebox to the chimney.")
                .into()
        }
        Rule::SideClose => {
            say!("At the sides it is {found} to what can burn, where {limit} is asked.")
        }
        Rule::BackClose => {
            say!("Behind the heater it is {found} to what can burn, where {limit} is asked.")
        }
        Rule::FrontClose => say!(
            "In front of the loading door it is {found} to what can burn, where {limit} is asked."
        ),
        Rule::CeilingClose => {
            say!("From the cap slab to the ceiling it is {found}, where {limit} is asked.")
        }
        Rule::ClearancesNotChecked => {
            said("No rule set is chosen: no clearance that a code asks for was checked.").into()
        }
        Rule::OutsideFormula(Formula::ForcedConvection) => said(
            "The gas is so slow here that its heat stirs it more than the draft pushes it.",
        )
        .into(),
        Rule::OutsideFormula(Formula::ColebrookFriction | Formula::NorrisGain) => {
            said("The walls are rougher here than the formulas for rough ducts go.").into()
        }
        Rule::OutsideFormula(_) => {
            say!("The gas is {found} hot here, beyond the {limit} of its formulas.")
        }
        Rule::InputUnusual(id) => {
            let usual = usual(id, system);
            say!("{}: {found} is outside the usual range of {usual}.", label(id))
        }
        Rule::WoodWet => say!("The wood holds {found} of water, more than {limit}."),
        Rule::AirScarce => say!(
            "The wood burns with {found} times the air that it needs; {limit} times is the least of \
             tested chambers and flames."
        ),
        Rule::HeatWasted => {
            say!(
                "{found} of the heat of the wood is of use; a masonry heater must give {limit}."
            )
        }
        Rule::InHouse(rule) => house::title(rule, [found, limit]),
        Rule::HouseNotCovered => say!(
            "All firings of a day give {found} on average; the house loses {limit} on the \
             coldest day."
        ),
        Rule::SmokeBack(judged) => say!(
            "For {found} of a burn{} the chimney does not pull enough and the heater smokes{}.",
            on_mild(judged, system),
            suction(judged, system)
        ),
        Rule::SmokeAtLighting(judged) => say!(
            "When the cold heater is lit{}, it smokes for {found} before its flame stands{}.",
            on_mild(judged, system),
            suction(judged, system)
        ),
        Rule::ShortOfDraft(judged) => say!(
            "For {found} of a burn{} the chimney pulls less air than is stated, though enough to \
             burn{}.",
            on_mild(judged, system),
            suction(judged, system)
        ),
        Rule::FireGoesOut(judged) => {
            say!("The fire gets too little air and goes out{}.", on_mild(judged, system))
        }
        Rule::DayNotFound(judged) => {
            say!("No firing day could be computed{}.", on_mild(judged, system))
        }
        Rule::EdgeNotFound => {
            said("No firing day with more wood than stated could be computed.").to_owned()
        }
        Rule::FaceTooHot => {
            say!("When the days repeat, a face reaches {found}; {limit} is the most.")
        }
        Rule::TooHot(hot) => say!(
            "When the days repeat, {} reaches {found}; {limit} is the most.",
            heat::noun(hot)
        ),
        Rule::Touch(touch) => {
            let hot = filled(heat::touch(touch).title, [found, limit]);
            if finding.limit.is_none() { hot } else { say!("When the days repeat, {hot}") }
        }
        Rule::AtTheEdge(hazard, standing) => at_the_edge(hazard, standing, [found, limit]),
        Rule::Around(rule) => around::filled(rule, around::said(rule).title, [found, limit]),
    }
}

/// Puts a figure and its limit into a sentence.
fn filled(text: &str, [found, limit]: [&str; 2]) -> String {
    text.replace("{f}", found).replace("{l}", limit)
}

/// What was found at the edge.
fn at_the_edge(hazard: Hazard, standing: Standing, [found, limit]: [&str; 2]) -> String {
    let cases = match standing {
        Standing::Nominal => "",
        Standing::Edge => said(" in 95 of 100 cases"),
    };
    let more = say!("With {} more wood than stated", overload());
    match hazard {
        Hazard::Rating => say!(
            "{more}, gas enters the chimney at up to {found}{cases}; the chimney is rated for \
             {limit}."
        ),
        Hazard::Face => say!(
            "{more}, when the days repeat, a face reaches up to {found}{cases}; {limit} is the \
             most."
        ),
        Hazard::Starved => say!(
            "{more}, the fire asks for more air than the chimney pulls, for up to {found} of a \
             day{cases}."
        ),
        Hazard::Growth => say!(
            "{more}, when the days repeat, the core grows by up to {found}{cases}; its gap is {limit}."
        ),
        Hazard::TooHot(hot) => say!(
            "{more}, when the days repeat, {} reaches up to {found}{cases}; {limit} is the most.",
            heat::noun(hot)
        ),
        Hazard::Touch(touch) => {
            let found = say!("up to {found}{cases}");
            let hot = filled(heat::touch(touch).title, [&found, limit]);
            say!("{more}, when the days repeat, {hot}")
        }
        Hazard::WetWall => say!(
            "In {found} of the cases tried the wall at the mouth of the chimney is below the dew point \
             of the gas."
        ),
        Hazard::FrozenWall => say!(
            "In {found} of the cases tried the wall at the mouth of the chimney is below freezing."
        ),
    }
}

/// How much more wood an overload has.
pub(super) fn overload() -> String {
    format!("{:.0} %", 100.0 * (OVERLOAD - 1.0))
}

/// Gas into the chimney, to go before its temperature.
fn entering(moment: Moment) -> &'static str {
    let english = match moment {
        Moment::HeightOfFire => "Gas enters the chimney at",
        Moment::BurnMean(Day::Design) => "On average over a burn, gas enters the chimney at",
        Moment::BurnMean(Day::Mild) => {
            "On average over a burn on a mild day, gas enters the chimney at"
        }
    };
    said(english)
}

/// The day on which draft was judged, to follow a phrase.
fn on(judged: Judged, system: System) -> String {
    let due = if judged.due { said(" when the heater is due for cleaning,") } else { "" };
    let day = match judged.day {
        Day::Design => said(" at the outdoor temperature of the design").into(),
        Day::Mild => {
            let outdoors = figure(MILD_OUTDOORS, Quantity::Temperature, system);
            say!(" on a mild day of {outdoors}")
        }
    };
    format!("{due}{day}")
}

/// The day where it is not that of the design, to follow a phrase.
fn on_mild(judged: Judged, system: System) -> String {
    match judged.day {
        Day::Design => String::new(),
        Day::Mild => on(judged, system),
    }
}

/// The suction that was judged with, where less was entered, to follow a phrase.
fn suction(judged: Judged, system: System) -> String {
    if judged.suction_raised {
        let least = figure(LEAST_SUCTION, Quantity::Pressure, system);
        say!(", computed with {least} of house suction, more than was entered")
    } else {
        String::new()
    }
}

#[expect(clippy::too_many_lines, reason = "a sentence per rule")]
fn reason(rule: Rule) -> &'static str {
    let english = match rule {
        Rule::DraftNegative(_)
        | Rule::NoRunningFlow(_)
        | Rule::SmokeBack(_)
        | Rule::FireGoesOut(_) => "Smoke and carbon monoxide come into the room.",
        Rule::DraftReserveSmall(Judged { due: true, .. }) => {
            "Wind takes the rest, and the heater smokes."
        }
        Rule::DraftReserveSmall(_) => "Soot or wind take the rest, and the heater smokes.",
        Rule::SecondFlow(_) => {
            "A gust or an open door can throw it from one state into the other."
        }
        Rule::UnheldFlow(_) => {
            "Below it the heater smokes; above it nothing but the air opening holds the fire back."
        }
        Rule::ColdStartWeak(_) | Rule::SmokeAtLighting(_) => {
            "Until the flue is warm, smoke and carbon monoxide come into the room."
        }
        Rule::GasAboveChimneyRating(_) | Rule::AtTheEdge(Hazard::Rating, _) => {
            "The chimney can crack and set the house on fire."
        }
        Rule::GasWasteful(_) | Rule::GasWarm(_) | Rule::HeatWasted => {
            "Heat that was paid for leaves through the chimney."
        }
        Rule::GasCool(_) | Rule::ChimneyWallWet(_) | Rule::AtTheEdge(Hazard::WetWall, _) => {
            "Water and tar run down the flue and soak its joints."
        }
        Rule::ChimneyWallFreezing(_) | Rule::AtTheEdge(Hazard::FrozenWall, _) => {
            "Ice closes the mouth and splits the flue."
        }
        Rule::GasSlow => "Slow gas leaves soot and takes long to start.",
        Rule::GasFast => "Fast gas costs draft at every turn.",
        Rule::FireboxSmall | Rule::FireboxBaseSmall | Rule::FireboxLow => {
            "The flame touches cold walls before it has burned out, and smokes."
        }
        Rule::FireboxLarge => "A fire too small for its room burns cool and dirty.",
        Rule::FireboxOverfull => {
            "Wood that lies against door and ceiling starves its own fire, and falls out when the door is \
             opened."
        }
        Rule::AirScarce => {
            "A starved fire gives off carbon monoxide and tar; the figures here are of one that burns \
             whole."
        }
        Rule::FireboxNarrow => "The flame does not fill a long narrow box.",
        Rule::GlassLarge => "Glass lets the heat of the fire out at once and cools it.",
        Rule::InletFast => "Fast air whistles, and costs draft.",
        Rule::PathShort | Rule::NoRuns => "The masonry does not get the heat.",
        Rule::SideClose | Rule::BackClose | Rule::CeilingClose => {
            "Wood that is kept warm for years catches fire at lower and lower temperatures."
        }
        Rule::FrontClose => "Radiation from the door, and embers, reach it.",
        Rule::ClearancesNotChecked | Rule::DayNotFound(_) | Rule::EdgeNotFound => {
            "A missing check is not a passed check."
        }
        Rule::OutsideFormula(Formula::ForcedConvection) => {
            "The formulas are for gas that the draft pushes along; the figures here are rough."
        }
        Rule::OutsideFormula(_) => "Beyond what a formula was made for its figures are rough.",
        Rule::InputUnusual(_) => "Few heaters are built so, and little is known of them.",
        Rule::WoodWet => "Wet wood burns cool, smokes and wets the chimney.",
        Rule::HouseNotCovered => "Something else has to heat on those days.",
        Rule::InHouse(rule) => house::reason(rule),
        Rule::ShortOfDraft(_) | Rule::AtTheEdge(Hazard::Starved, _) => {
            "It burns with less air than stated, dirty, and smokes when the door is opened; far too \
             little air makes carbon monoxide."
        }
        Rule::FaceTooHot | Rule::AtTheEdge(Hazard::Face, _) => {
            "It burns whoever touches it, and chars wood that leans on it."
        }
        Rule::AtTheEdge(Hazard::Growth, _) => around::said(Around::GapSmall).reason,
        Rule::TooHot(hot) | Rule::AtTheEdge(Hazard::TooHot(hot), _) => heat::reason(hot),
        Rule::Touch(touch) | Rule::AtTheEdge(Hazard::Touch(touch), _) => {
            heat::touch(touch).reason
        }
        Rule::Around(rule) => around::said(rule).reason,
    };
    said(english)
}

#[expect(clippy::too_many_lines, reason = "a sentence per rule")]
fn remedy(rule: Rule) -> &'static str {
    let english = match rule {
        Rule::DraftNegative(Judged { due: true, .. })
        | Rule::DraftReserveSmall(Judged { due: true, .. }) => {
            "Clean it sooner than that; or drop a run, widen the runs, or raise the chimney."
        }
        Rule::DraftNegative(_) | Rule::DraftReserveSmall(_) => {
            "Drop a run, widen the runs, or raise the chimney."
        }
        Rule::NoRunningFlow(_) | Rule::SecondFlow(_) | Rule::UnheldFlow(_) => {
            "Raise the chimney or drop a run."
        }
        Rule::ColdStartWeak(_) | Rule::SmokeAtLighting(_) => {
            "Warm the flue first, with burning newspaper at the cleanout, before every cold start; \
             or fit a bypass damper, raise the chimney, or drop a run."
        }
        Rule::GasAboveChimneyRating(_) | Rule::AtTheEdge(Hazard::Rating, _) => {
            "Add a run, lengthen the runs, or take a chimney with a higher rating."
        }
        Rule::GasWasteful(_) | Rule::GasWarm(_) | Rule::PathShort => {
            "Add a run, lengthen the runs, or burn less at a time."
        }
        Rule::GasCool(_) => {
            "Drop a run, shorten the runs, or take a liner rated for condensate."
        }
        Rule::ChimneyWallWet(Burning::HalfCharge)
        | Rule::ChimneyWallFreezing(Burning::HalfCharge) => {
            "Take a liner rated for condensate, or burn whole charges; or insulate the flue, shorten \
             the part outdoors, or drop a run."
        }
        Rule::ChimneyWallWet(_)
        | Rule::ChimneyWallFreezing(_)
        | Rule::AtTheEdge(Hazard::WetWall | Hazard::FrozenWall, _) => {
            "Insulate the flue, shorten the part outdoors, or drop a run."
        }
        Rule::GasSlow => "Make the runs narrower or lower.",
        Rule::GasFast => "Make the runs wider or higher.",
        Rule::FireboxSmall => "Enlarge the firebox or burn less at a time.",
        Rule::FireboxLarge => "Make the firebox smaller or burn more at a time.",
        Rule::FireboxBaseSmall => "Widen or deepen the firebox, or burn less at a time.",
        Rule::FireboxLow => "Raise the ceiling of the firebox, or burn less at a time.",
        Rule::FireboxOverfull => "Burn less at a time, or enlarge the firebox.",
        Rule::AirScarce => "Give the fire more air; never shut it before the flames are out.",
        Rule::HeatWasted => {
            "Lengthen the runs or add one; or take less air, if more than twice of what wood needs is \
             stated."
        }
        Rule::FireboxNarrow => "Bring width and depth of the firebox closer together.",
        Rule::GlassLarge => "Take less glass.",
        Rule::InletFast => "Enlarge the air inlet.",
        Rule::NoRuns => "Add a run.",
        Rule::CeilingClose => {
            "Build the heater lower, or build the ceiling above it from something that cannot burn \
             all through; a cladding over wood counts only as far as Protection of the ceiling does."
        }
        Rule::SideClose | Rule::BackClose => {
            "Move the heater, or build what is near it from something that cannot burn all through; \
             a cladding over wood counts only as far as Protection of walls does."
        }
        Rule::FrontClose => {
            "Move the heater, or build what is near it from something that cannot burn all through, not \
             as a cladding over wood."
        }
        Rule::ClearancesNotChecked => "Choose a rule set, and ask the building official.",
        Rule::OutsideFormula(Formula::ForcedConvection) => {
            "Make the runs lower, so that the gas moves faster."
        }
        Rule::OutsideFormula(_) => "Judge these figures with more reserve.",
        Rule::InputUnusual(_) => "Check the figure; go on if it is meant.",
        Rule::WoodWet => "Dry the wood for two summers under a roof.",
        Rule::HouseNotCovered => "Burn more, fire more often, or insulate the house.",
        Rule::SmokeBack(_) | Rule::ShortOfDraft(_) | Rule::FireGoesOut(_) => {
            "Raise the mouth of the chimney, drop a run, or widen the runs."
        }
        Rule::DayNotFound(_) | Rule::EdgeNotFound => "Change what is unusual in the design.",
        Rule::InHouse(rule) => house::remedy(rule),
        Rule::AtTheEdge(Hazard::Starved, _) => {
            "Burn no more than is stated; or raise the mouth, drop a run, or widen the runs."
        }
        Rule::FaceTooHot | Rule::AtTheEdge(Hazard::Face, _) => {
            "Make the wall there thicker, or burn less."
        }
        Rule::AtTheEdge(Hazard::Growth, _) => around::said(Around::GapSmall).remedy,
        Rule::TooHot(hot) | Rule::AtTheEdge(Hazard::TooHot(hot), _) => heat::remedy(hot),
        Rule::Touch(touch) | Rule::AtTheEdge(Hazard::Touch(touch), _) => {
            heat::touch(touch).remedy
        }
        Rule::Around(rule) => around::said(rule).remedy,
    };
    said(english)
}
