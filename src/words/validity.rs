//! For what a finding holds: the range of the limit or formula on which it rests, a sentence or two
//! for each rule.

use crate::analysis::extrapolation::{FORCED_RICHARDSON, Formula};
use crate::analysis::otherwise::{ASH, SOOT};
use crate::language::{said, say};
use crate::physics::convection::NORRIS_FRICTION_RATIO;
use crate::physics::gas::TRANSPORT_TEMPERATURE;
use crate::physics::pressure::{COLEBROOK_REYNOLDS, COLEBROOK_ROUGHNESS};
use crate::physics::radiation::LECKNER_TEMPERATURE;
use crate::rules::{Around, Burning, Hazard, Hot, InHouse, Rule, Touch};
use crate::units::{Quantity, System, decimals, figure};
use std::ops::RangeInclusive;

const NOTHING: &str = "None: there is no figure and no limit.";
const STEADY_DRAFT: &str = "A steady fire and a flue in its steady state, the door shut: while the flue \
    warms up there is less to spare, which the firing day tells. Gusts are not in it, and the losses of \
    turns are known to about half.";
const FIRING_DAY: &str = "The firing day of this design: its door shut, its kindling and its charge as \
    stated, weather that stays.";
const ENTRY: &str = "Wood fires in masonry heaters, gas averaged over a burn.";
const MOUTH: &str = "A flue in its steady state, as EN 13384-1 takes it: while it warms up it is cooler, \
    which the firing day judges. The dew point of water alone: tar settles on warmer walls too.";
const HALF: &str = "Half the wood burned in the stated time with as much air for each kilogram. EN \
    15544 knows no smaller charge.";
const LAST_CHAR: &str = "The dew point is that of the gas of the flame: char gives less water.";
const ROUTE: &str = "EN 15544: 10 to 40 kg (22 to 88 lb) of logs with 12 to 20 % of water, once in 8 to \
    24 hours.";
const CODE_DISTANCE: &str = "North America: masonry heaters as the code defines them. Europe: a model \
    that the law of each country replaces.";
const LAYER: &str = "Heat straight through each wall, which bounds it from above. The limit is usual \
    for its kind: a data sheet goes first.";
const BASE: &str = "Heat straight down: without a void it is taken that none leaves the slab below, which \
    bounds the figure from above; over a ventilated void, that its air is as warm as the room, and with \
    warmer air the slab gets hotter. The limit is usual for its kind: a data sheet goes first.";
const DEFINITION: &str = "The name of a masonry heater in North America. It does not tell how a heater \
    burns.";
const MASONRY_CHIMNEY: &str = "Chimneys of masonry in North America.";
const FOOTING: &str = "Footings of plain concrete in North America, in soil that does not swell. An \
    engineer may decide otherwise.";
const KINDLING: &str = "A kindling fire of 1 to 2 kg/h (2 to 4 lb/h) with four to six times the air \
    that it needs, before anything is warm.";
const RATING: &str = "Ratings for gas that flows without end.";
const OTHER_PEAKS: &str = "What the peak is beyond the mean was measured on other heaters.";
const COLDEST_DAY: &str = "The coldest day of the design, without sun and other heat; the heater's \
    output as its mean over the day.";
const AIRED_ROOM: &str = "What is borne is for a room of 47 m³ (1660 ft³) or more, aired by half its \
    volume an hour.";
const FACES: &str = "Faces away from the loading door, heat straight through the wall: the middle of a \
    face is a few degrees cooler, its edges many.";
const STEEL: &str = "Steel in the facing, or in the core where there is no facing. The leaf of the door \
    is as hot as the fire: its maker rates it.";
const OVERLOAD: &str = "A quarter more wood than stated, burned in the stated time; 5 of 100 cases are \
    worse.";
const CASES: &str = "The height of the first fire with the wood that is stated.";
const BRUSH: &str = "Straight runs, swept with a brush on a rod.";
const GROWTH: &str =
    "A core as hot all along as at its hottest, that grows toward one end: more than it does.";
const FACING: &str = "A facing that rises straight. Its heat is computed straight through walls, core, air \
                      and facing, not around corners, nor at foot and top of the air between.";
const DAMPER: &str = "Dampers that shut. The opening vents only while the chimney pulls.";

/// For what a finding holds.
pub fn validity(rule: Rule, system: System) -> String {
    if let Rule::OutsideFormula(formula) = rule {
        return of_formula(formula, system);
    }
    let due = match rule {
        Rule::DraftNegative(judged) | Rule::DraftReserveSmall(judged) => judged.due,
        _ => false,
    };
    let soot = due.then(|| {
        let [ash, soot] = [ASH, SOOT].map(|size| figure(size, Quantity::Size, system));
        say!(
            "{ash} of ash on the floor of every run and {soot} of soot on every wall; the heat goes \
             into the masonry as if it were clean."
        )
    });
    let sentences = english(rule).into_iter().map(|each| said(each).to_owned());
    sentences.chain(soot).collect::<Vec<_>>().join(" ")
}

/// The sentences of a rule.
fn english(rule: Rule) -> Vec<&'static str> {
    match rule {
        Rule::DraftNegative(_)
        | Rule::DraftReserveSmall(_)
        | Rule::NoRunningFlow(_)
        | Rule::SecondFlow(_)
        | Rule::UnheldFlow(_) => vec![STEADY_DRAFT],
        Rule::ColdStartWeak(_) => vec![KINDLING],
        Rule::GasAboveChimneyRating(_) => vec![RATING, OTHER_PEAKS],
        Rule::GasWasteful(_) | Rule::GasWarm(_) => vec![ENTRY],
        Rule::GasCool(_) => vec![ENTRY, "Flues that must stay dry."],
        Rule::ChimneyWallWet(burning) | Rule::ChimneyWallFreezing(burning) => match burning {
            Burning::Charge => vec![MOUTH],
            Burning::HalfCharge => vec![HALF, MOUTH],
            Burning::LastChar | Burning::WholeBurn | Burning::MostOfBurn => {
                vec![FIRING_DAY, LAST_CHAR]
            }
        },
        Rule::FireboxSmall
        | Rule::FireboxLarge
        | Rule::FireboxBaseSmall
        | Rule::FireboxLow
        | Rule::FireboxOverfull
        | Rule::AirScarce
        | Rule::FireboxNarrow
        | Rule::GlassLarge
        | Rule::InletFast
        | Rule::GasSlow
        | Rule::GasFast
        | Rule::WoodWet => vec![ROUTE],
        Rule::HeatWasted => vec![
            "The efficiency of the days that repeat, once they are found; that of the height of the first \
             fire before.",
        ],
        Rule::PathShort | Rule::NoRuns => {
            vec![ROUTE, "It counts the length alone, whatever the section."]
        }
        Rule::SideClose | Rule::BackClose | Rule::CeilingClose | Rule::FrontClose => {
            vec![CODE_DISTANCE]
        }
        Rule::ClearancesNotChecked
        | Rule::DayNotFound(_)
        | Rule::EdgeNotFound
        | Rule::OutsideFormula(_) => vec![NOTHING],
        Rule::InputUnusual(_) => {
            vec!["Heaters as they are mostly built. The figure may still be right."]
        }
        Rule::HouseNotCovered => vec![COLDEST_DAY],
        Rule::SmokeBack(_) | Rule::ShortOfDraft(_) | Rule::FireGoesOut(_) => vec![FIRING_DAY],
        Rule::SmokeAtLighting(_) => vec![FIRING_DAY, AIRED_ROOM],
        Rule::InHouse(rule) => vec![in_house(rule)],
        Rule::FaceTooHot => {
            vec![FACES, "The limit defines a heater; what a hand bears is less."]
        }
        Rule::TooHot(hot) => of_hot(hot),
        Rule::Touch(touch) => vec![of_touch(touch)],
        Rule::AtTheEdge(hazard, _) => at_the_edge(hazard),
        Rule::Around(rule) => vec![around(rule)],
    }
}

/// The range of a formula, from the constants of physics.
fn of_formula(formula: Formula, system: System) -> String {
    let hot = |range: &RangeInclusive<f64>| {
        let [from, to] = [range.start(), range.end()]
            .map(|kelvin| figure(*kelvin, Quantity::Temperature, system));
        say!("Gas from {from} to {to}.")
    };
    match formula {
        Formula::ForcedConvection => {
            say!("Buoyancy over inertia of at most {}.", FORCED_RICHARDSON.end())
        }
        Formula::ColebrookFriction => say!(
            "Turbulent gas, Reynolds numbers from {}, and walls as rough as {} of the width at most.",
            COLEBROOK_REYNOLDS.start(),
            decimals(*COLEBROOK_ROUGHNESS.end(), 4)
        ),
        Formula::NorrisGain => {
            say!("Friction of at most {} times that of a smooth duct.", NORRIS_FRICTION_RATIO)
        }
        Formula::LecknerEmissivity => hot(&LECKNER_TEMPERATURE),
        Formula::GasTransport => hot(&TRANSPORT_TEMPERATURE),
    }
}

const fn in_house(rule: InHouse) -> &'static str {
    match rule {
        InHouse::RoomOverheats => {
            "A first estimate: one room for the whole house, the day that repeats, no sun."
        }
        InHouse::SuctionLow => {
            "Still air, and a house that leaks as much above as below. Fans come on top."
        }
        InHouse::SuctionHigh => {
            "Fires that burn with their door shut. Law and the makers of fans may ask for less."
        }
        InHouse::DamperShuts => "Any fire that leaves embers.",
    }
}

fn of_hot(hot: Hot) -> Vec<&'static str> {
    match hot {
        Hot::Firebox
        | Hot::Runs
        | Hot::Facing
        | Hot::Board
        | Hot::Connector
        | Hot::Liner
        | Hot::Wool => vec![LAYER],
        Hot::Mortar => vec![LAYER, "Mortar of clay and refractory mortar bear more."],
        Hot::Base => vec![BASE, "Concrete of usual gravel."],
        Hot::Steel => vec![LAYER, STEEL],
        Hot::Wall => vec!["Wood in a frame across a gap, heat straight through: test walls."],
        Hot::WallForLong => {
            vec!["Wood that stays warm for years. Short peaks harm it less."]
        }
        Hot::Foam => vec![LAYER, "Foam and sheeting right behind the face of the wall."],
        Hot::Below => {
            vec!["A void whose air moves and is as warm as the room, heat straight down."]
        }
    }
}

const fn of_touch(touch: Touch) -> &'static str {
    match touch {
        Touch::Seat => "Bare skin for ten minutes, on any material.",
        Touch::Bed => "Bare skin for eight hours, on any material.",
        Touch::Reach => {
            "Stone, brick and tile touched for 10 seconds. Bare metal burns from 55 °C (131 °F) on."
        }
        Touch::Door => "Any fire behind glass or metal.",
    }
}

/// What is judged with an overload, with the range of its limit.
fn at_the_edge(hazard: Hazard) -> Vec<&'static str> {
    let of_limit = match hazard {
        Hazard::WetWall | Hazard::FrozenWall => return vec![CASES, MOUTH],
        Hazard::Rating => vec![RATING],
        Hazard::Face => vec![FACES],
        Hazard::Starved => vec!["Weather that stays, the door shut."],
        Hazard::Growth => vec![GROWTH],
        Hazard::TooHot(hot) => of_hot(hot),
        Hazard::Touch(touch) => vec![of_touch(touch)],
    };
    [vec![OVERLOAD], of_limit].concat()
}

const fn around(rule: Around) -> &'static str {
    match rule {
        Around::NotStated(_) | Around::NothingChecked(_) => NOTHING,
        Around::ByLabel(_) => "The part on whose label it stands, and no other.",
        Around::ProtectionNotCounted => {
            "The table of NFPA 211 for walls and ceilings, of the whole 914 mm (36 in) alone."
        }
        Around::CloserThanAdvised => "Advice for heaters of brick, whatever their walls.",
        Around::FoamBelow | Around::WoodBelow => {
            "Firebrick on concrete with heat straight down, which bounds it from above."
        }
        Around::HearthShort | Around::HearthNarrow => {
            "North America: fireplaces, of which heaters borrow it. Europe: a model that the law of \
             each country replaces."
        }
        Around::ChimneyClose => {
            "Chimneys of masonry in North America; tested ones have a label."
        }
        Around::ConnectorClose => "Bare single-wall pipe, without a shield.",
        Around::ConnectorShort => "A chimney that stands beside the heater.",
        Around::ChimneyUnlined | Around::ChimneyWallThin | Around::FlueCleanoutMissing => {
            MASONRY_CHIMNEY
        }
        Around::SootFireUnrated => "Chimneys for wood and other solid fuel.",
        Around::ChimneyLow => {
            "Roofs and what is near, within 3.05 m (10 ft). Wind off hills and trees is not in it."
        }
        Around::CleanoutsMissing | Around::CleanoutOutOfReach | Around::CleanoutBlocked => {
            BRUSH
        }
        Around::CleanoutNearWood => {
            "Cleanouts of chimneys, of which those of the runs borrow it."
        }
        Around::MassSmall | Around::NoReversal | Around::PathOfDefinition => DEFINITION,
        Around::OnFraming => "Wood floors of houses. An engineer may design another one.",
        Around::OnHouseSlab => "Slabs that were not made for the heater.",
        Around::FootingThin | Around::FootingNarrow | Around::FootingShallow => FOOTING,
        Around::SoilOverloaded => {
            "A stiff footing with its load near its middle, on soil that bears 72 kPa (1500 psf) or \
             more."
        }
        Around::SeismicAnchor | Around::SeismicReinforcement => {
            "Houses in the seismic design categories D0 to D2."
        }
        Around::SeismicEngineered => "Houses in the seismic design category E.",
        Around::GapSmall => GROWTH,
        Around::FacingUntied | Around::TiesOutOfReach | Around::FacingApart => FACING,
        Around::GapBlocked => "Walls of wood behind the heater.",
        Around::FoamBare => "Foam that faces a room.",
        Around::GlassNear => {
            "Wood that faces the glass squarely and loses its heat to the room alone, in the hottest fire that is \
             known: of an overload, once its edges are found."
        }
        Around::DamperTight | Around::DamperOpeningSmall => DAMPER,
        Around::BleedSmall => ROUTE,
        Around::AirOpeningSmall => "An opening with sharp edges and without a screen.",
        Around::BypassOpen => "A bypass as wide as its flue, and a fire at its height.",
    }
}
