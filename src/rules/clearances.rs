//! Distances from the faces to what can burn, by the rule set that the user picked.

use super::around::Around;
use super::heat::RISE;
use super::{Figure, Finding, Known, Lever, Place, Rule, Severity};
use crate::analysis::Analysis;
use crate::analysis::fire::GLASS_EXCHANGE;
use crate::design::building::Protection;
use crate::design::field::FieldId;
use crate::design::{Design, RuleSet};
use crate::physics::STEFAN_BOLTZMANN;
use crate::physics::formula::{Formula, formula};
use crate::physics::surface::emission;
use crate::sources::{
    BIA_NOTES, E1602_DOOR, GLASS_PRACTICE, GLASS_RADIATION, IRC_R1002_CEILING,
    IRC_R1002_CLEARANCE, MODEL_FIRE_ORDINANCE, NFPA_211_PROTECTION, NO_RULE_SET, Source,
};
use crate::units::Quantity;

/// North America, every face: 36 in (m).
pub const FULL: f64 = 0.914;
/// North America, exception for thick walls: 4 in, that the code rounds up to 102 mm (m).
pub const REDUCED: f64 = 0.1016;
/// North America, exception for thick walls, above the cap slab: 8 in (m).
pub const REDUCED_CEILING: f64 = 0.203;
/// Advised all around, whatever the walls: 12 in, that is printed as 300 mm (m).
pub const ADVISED: f64 = 0.300;
/// North America, walls of the heater for the exception: 8 in of solid masonry (m).
pub const BODY_WALL: f64 = 0.203;
/// North America, walls of the channels for the exception: 5 in of solid masonry (m).
pub const CHANNEL_WALL: f64 = 0.127;
/// North America, in front of the loading door: 48 in, rounded up to 1220 mm (m).
pub const DOOR: f64 = 1.2192;
/// Europe, every face (m).
pub const EUROPE: f64 = 0.400;
/// Europe, in front of door and glass (m).
pub const EUROPE_DOOR: f64 = 0.800;
/// What glass gives off in full fire at least (W/m2).
///
/// # Source
///
/// [`crate::sources::GLASS_PRACTICE`].
const GLASS_FLUX: f64 = 10_000.0;
/// Emissivity of wood (–).
const WOOD_EMISSIVITY: f64 = 0.93;
/// Hair by which a distance may miss its limit (m).
pub(super) const SLACK: f64 = 1e-6;

/// Whether the heater meets the North American exception: solid masonry, so gaps do not count; the
/// cap is the outer wall of the highest channel; without a reversal it is no masonry heater.
pub fn thick_walls(design: &Design) -> bool {
    let facing = design.shell.facing_thickness;
    BODY_WALL - SLACK <= design.firebox.wall_thickness + facing
        && CHANNEL_WALL - SLACK <= design.shell.core_thickness + facing
        && CHANNEL_WALL - SLACK <= design.shell.cap_thickness
        && 2 <= design.path.run_count
}

/// Distances to a wall and to a ceiling that a protection leaves of 36 in (m); none where the table
/// has no figure.
pub const fn protected(protection: Protection) -> [Option<f64>; 2] {
    const NEAR: f64 = 0.3048;
    const MIDDLE: f64 = 0.457;
    const FAR: f64 = 0.6096;
    match protection {
        Protection::Bare => [None, None],
        Protection::Masonry => [Some(FAR), None],
        Protection::BoardOnWool => [Some(MIDDLE), Some(FAR)],
        Protection::MasonryVented => [Some(NEAR), None],
        Protection::SheetOnWool
        | Protection::Sheet
        | Protection::Board
        | Protection::TwoSheets
        | Protection::WoolBetweenSheets => [Some(NEAR), Some(MIDDLE)],
    }
}

type Limit = (f64, &'static Source);

/// Distances that a rule set asks for (m), each with its source.
struct Limits {
    faces: Limit,
    ceiling: Limit,
    door: Limit,
}

fn limits(design: &Design) -> Option<Limits> {
    let around = &design.surroundings;
    match design.site.rule_set {
        RuleSet::NorthAmerica if thick_walls(design) => Some(Limits {
            faces: (REDUCED, &IRC_R1002_CLEARANCE),
            ceiling: (REDUCED_CEILING, &IRC_R1002_CEILING),
            door: (DOOR, &E1602_DOOR),
        }),
        RuleSet::NorthAmerica => {
            let full = (FULL, &IRC_R1002_CLEARANCE);
            let reduced = |left: Option<f64>| left.map(|left| (left, &NFPA_211_PROTECTION));
            let [wall, _] = protected(around.wall_protection);
            let [_, ceiling] = protected(around.ceiling_protection);
            Some(Limits {
                faces: reduced(wall).unwrap_or(full),
                ceiling: reduced(ceiling).unwrap_or(full),
                door: (DOOR, &E1602_DOOR),
            })
        }
        RuleSet::Europe => Some(Limits {
            faces: (EUROPE, &MODEL_FIRE_ORDINANCE),
            ceiling: (EUROPE, &MODEL_FIRE_ORDINANCE),
            door: (EUROPE_DOOR, &MODEL_FIRE_ORDINANCE),
        }),
        RuleSet::None => None,
    }
}

/// Protection counts in North America alone, of the 36 in alone, and at a ceiling not every kind.
fn not_counted(design: &Design) -> Option<Finding> {
    let around = &design.surroundings;
    let of_the_whole = design.site.rule_set == RuleSet::NorthAmerica && !thick_walls(design);
    let idle = |protection: Protection, left: Option<f64>| {
        protection != Protection::Bare && !(of_the_whole && left.is_some())
    };
    let [wall, _] = protected(around.wall_protection);
    let [_, ceiling] = protected(around.ceiling_protection);
    let field = if idle(around.wall_protection, wall) {
        FieldId::WallProtection
    } else if idle(around.ceiling_protection, ceiling) {
        FieldId::CeilingProtection
    } else {
        return None;
    };
    let lever = Lever { field, raise: false };
    Some(Around::ProtectionNotCounted.bare(Some(lever), &NFPA_211_PROTECTION))
}

/// What glass gives off to the room (W/m2), at least what is usual in full fire: as the heat balance of
/// the firebox has it.
///
/// E = max(10 000, 0.115 * 5.670e-8 (T^4 - T_r^4))
///
/// * `fire`, `room` (K): T and T_r.
///
/// # Source
///
/// [`GLASS_PRACTICE`].
pub fn glass_flux(fire: f64, room: f64) -> f64 {
    let fourth = |t: f64| t * t * t * t;
    (GLASS_EXCHANGE * STEFAN_BOLTZMANN * (fourth(fire) - fourth(room))).max(GLASS_FLUX)
}

/// The formula of `glass_flux`.
pub const FLUX_OF_GLASS: Formula = formula!(
    glass_flux: "E = max(10 000, 0.115 * 5.670e-8 (T^4 - T_r^4))", GLASS_PRACTICE,
    "E" "what the glass gives off" FLUX;
    fire "T" "gas out of the firebox" TEMPERATURE,
    room "T_r" "room" TEMPERATURE,
);

/// Where what can burn in front of glass gets as hot as it may (m), as if the glass were a disc in
/// front of which a small face of wood keeps all its heat: 0.93 E r2/(r2 + d2) = q, pi r2 = A.
///
/// d = sqrt(A / 3.14159 max(0, 0.93 E / q - 1))
///
/// * `glass` (m2).
/// * `flux` (W/m2): see [`glass_flux`].
/// * `given_off` (W/m2): see [`given_off`].
///
/// # Source
///
/// [`GLASS_RADIATION`].
pub fn reach_of_glass(glass: f64, flux: f64, given_off: f64) -> f64 {
    let beyond = WOOD_EMISSIVITY * flux / given_off - 1.0;
    (glass / std::f64::consts::PI * beyond.max(0.0)).sqrt()
}

/// The formula of `reach_of_glass`.
pub const REACH_OF_GLASS: Formula = formula!(
    reach_of_glass: "d = sqrt(A / 3.14159 max(0, 0.93 E / q - 1))", GLASS_RADIATION,
    "d" "distance at which wood gets as hot as it may" LENGTH;
    glass "A" "glass of the door" AREA,
    flux "E" "what the glass gives off" FLUX,
    given_off "q" "what such wood gives off to the room" FLUX,
);

/// What wood gives off to a room (K) when it is as hot as it may be (W/m2).
pub fn given_off(room: f64) -> f64 {
    emission(WOOD_EMISSIVITY, room + RISE, room)
}

/// Wood before the glass, at the hottest fire that is known: that of an overload where its edges are.
fn glass(design: &Design, (analysis, known): (&Analysis, Known<'_>)) -> Option<Finding> {
    let lever = Lever { field: FieldId::FrontDistance, raise: true };
    let (glass, _) = design.firebox.door_parts();
    let (front, room) = (design.surroundings.front, design.site.room_temperature);
    let reach = |fire: f64| reach_of_glass(glass, glass_flux(fire, room), given_off(room));
    let stated = analysis.height_of_fire.firebox_outlet;
    let [nominal, edge] = known
        .found_edges()
        .map_or([stated; 2], |edges| [edges.peak_firebox.nominal, edges.peak_firebox.edge])
        .map(|fire| reach(fire.max(stated)));
    let short = |limit: f64| Around::GlassNear.short([front, limit], lever, &GLASS_RADIATION);
    // Where only the edge is short, the limit lies inside the band.
    let at_edge = || Some(Finding { severity: Severity::LookAgain, ..short(edge)? });
    short(nominal).or_else(at_edge)
}

pub(super) fn check(
    design: &Design,
    found: (&Analysis, Known<'_>),
    findings: &mut Vec<Finding>,
) {
    let Some(limits) = limits(design) else {
        findings.push(not_checked());
        findings.extend(glass(design, found));
        return;
    };
    findings.extend(not_counted(design));
    let around = &design.surroundings;
    let nearest = if around.behind_to_combustibles() < around.behind {
        FieldId::WallGap
    } else {
        FieldId::BehindDistance
    };
    let distances = [
        (Rule::SideClose, Place::Side, FieldId::SideDistance, around.side, limits.faces),
        (Rule::BackClose, Place::Back, nearest, around.behind_to_combustibles(), limits.faces),
        (Rule::FrontClose, Place::Front, FieldId::FrontDistance, around.front, limits.door),
        (
            Rule::CeilingClose,
            Place::Ceiling,
            FieldId::AboveDistance,
            around.above,
            limits.ceiling,
        ),
    ];
    let size = |value| Figure { value, quantity: Quantity::Size };
    for (rule, place, field, free, (limit, source)) in distances {
        if free < limit - SLACK {
            findings.push(Finding {
                rule,
                severity: Severity::DoNotBuild,
                place,
                found: size(free),
                limit: Some(size(limit)),
                lever: Some(Lever { field, raise: true }),
                source,
            });
        }
    }
    findings.extend(advised(design, findings));
    // Where the rule of the set speaks of the door, it asks for more.
    if !findings.iter().any(|finding| finding.rule == Rule::FrontClose) {
        findings.extend(glass(design, found));
    }
}

/// The nearest face of a heater that may stand as near as the exception allows.
fn advised(design: &Design, findings: &[Finding]) -> Option<Finding> {
    let around = &design.surroundings;
    let is_excepted = design.site.rule_set == RuleSet::NorthAmerica && thick_walls(design);
    let close = |each: &Finding| {
        matches!(each.rule, Rule::SideClose | Rule::BackClose | Rule::CeilingClose)
    };
    if !is_excepted || findings.iter().any(close) {
        return None;
    }
    let faces = [
        (around.side, Place::Side, FieldId::SideDistance),
        (around.behind_to_combustibles(), Place::Back, FieldId::BehindDistance),
        (around.above, Place::Ceiling, FieldId::AboveDistance),
    ];
    let (found, place, field) =
        faces.into_iter().min_by(|one, other| one.0.total_cmp(&other.0))?;
    let lever = Lever { field, raise: true };
    Around::CloserThanAdvised
        .short([found, ADVISED], lever, &BIA_NOTES)
        .map(|finding| Finding { place, ..finding })
}

fn not_checked() -> Finding {
    Finding {
        rule: Rule::ClearancesNotChecked,
        severity: Severity::LookAgain,
        place: Place::Whole,
        found: Figure { value: 0.0, quantity: Quantity::Count },
        limit: None,
        lever: None,
        source: &NO_RULE_SET,
    }
}
