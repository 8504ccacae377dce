//! The way of the gas through a design, as the route sees it.

use super::cooling::{Around, Cooling, Flue, INSTABILITY_PRESSURE, INSTABILITY_TEMPERATURE};
use super::gas::gas_mass_flow;
use super::pressure::{
    Part, RouteSegment, Section, Setting, Stretch, pair_coefficient, turn_coefficient,
};
use crate::analysis::chimney::{FILM_INDOORS, FILM_OUTDOORS, wall_resistance};
use crate::analysis::factors::Factors;
use crate::analysis::path::Path;
use crate::design::Design;

/// Angle of a turn between firebox, runs, rises and connector (degrees).
const RIGHT_ANGLE: f64 = 90.0;
/// Mean roughness of a metal connector (m).
///
/// # Source
///
/// [`crate::sources::ROUGHNESS`].
const CONNECTOR_ROUGHNESS: f64 = 0.001;
/// Mean heat capacity of wood gas at excess air 2.95 from 20 to 150 °C (J/kgK).
///
/// # Source
///
/// [`crate::sources::ROUTE_HEAT_CAPACITY`].
const HEAT_CAPACITY: f64 = 1040.0;

/// Runs and rises of a path, each with the turn into it.
///
/// A reversal is two turns of 90 degrees with the rise as the straight between them; where the
/// runs lie side by side nothing is between them. A rise is as narrow as the narrower of its runs,
/// and a turn counts on the narrower of the sections that it joins.
pub fn runs(design: &Design, path: &Path) -> Vec<Stretch> {
    let mut stretches = Vec::with_capacity(2 * path.segments.len());
    let mut before: Option<Section> = None;
    for segment in &path.segments {
        let own = Section {
            area: segment.area,
            hydraulic_diameter: segment.duct.hydraulic_diameter,
            roughness: design.path.roughness,
        };
        let run = Stretch {
            part: Part::Run,
            length: segment.length,
            rise: 0.0,
            section: own,
            coefficient: turn_coefficient(RIGHT_ANGLE),
            turn_area: own.area,
        };
        let Some(last) = before.replace(own) else {
            stretches.push(run);
            continue;
        };
        let narrow = if last.area < own.area { last } else { own };
        let straight = segment.rise.abs();
        let pair =
            pair_coefficient(RIGHT_ANGLE, RIGHT_ANGLE, straight / narrow.hydraulic_diameter);
        let into_run = Stretch { turn_area: narrow.area, ..run };
        if straight > 0.0 {
            let coefficient = 0.5 * pair;
            stretches.push(Stretch {
                part: Part::Rise,
                length: straight,
                rise: segment.rise,
                section: narrow,
                coefficient,
                turn_area: narrow.area,
            });
            stretches.push(Stretch { coefficient, ..into_run });
        } else {
            stretches.push(Stretch { coefficient: pair, ..into_run });
        }
    }
    stretches
}

/// Connector and chimney after the route.
pub struct Outlet {
    /// Connector, chimney indoors, chimney outdoors.
    pub segments: Vec<RouteSegment>,
    /// Gas at the mouth where the pull is checked (K).
    pub mouth_gas: f64,
    /// Inner wall surface at the mouth where its temperature is checked (K).
    pub mouth_wall: f64,
}

/// Connector, indoor and outdoor part, with the connector's turn and the surroundings of each.
///
/// The connector is bare: an outside film alone. Room and outdoor temperature are the design's.
pub fn outlet(design: &Design, path: &Path, setting: &Setting, inlet: f64) -> Outlet {
    let (stretches, arounds) = flue_parts(design, path);
    let lengths = stretches.map(|stretch| stretch.length);
    let flues = flues(design, setting, &stretches);
    let checked = |instability: f64| {
        let mut from = inlet;
        let mut parts = Vec::with_capacity(3);
        for ((flue, around), length) in flues.iter().zip(arounds).zip(lengths) {
            let cooling = flue.cooled(&Around { instability, ..around }, length, from);
            from = cooling.end;
            parts.push(cooling);
        }
        parts
    };
    let mut from = inlet;
    let pull: Vec<Cooling> = checked(INSTABILITY_PRESSURE);
    let segments = stretches
        .iter()
        .zip(&pull)
        .map(|(stretch, cooling)| {
            let segment = setting.segment(stretch, from, cooling.mean);
            from = cooling.end;
            segment
        })
        .filter(|segment| segment.part == Part::Connector || 0.0 < segment.length)
        .collect();
    let wall = checked(INSTABILITY_TEMPERATURE);
    Outlet {
        segments,
        mouth_gas: from,
        // The mouth stands outdoors, however short the part is that does.
        mouth_wall: wall.last().map_or(inlet, |cooling| cooling.wall),
    }
}

/// The three parts as stretches, with what stands around them.
fn flue_parts(design: &Design, path: &Path) -> ([Stretch; 3], [Around; 3]) {
    let chimney = &design.chimney;
    let site = &design.site;
    let flue = Section {
        area: chimney.area(),
        hydraulic_diameter: chimney.hydraulic_diameter(),
        roughness: chimney.roughness,
    };
    let last = path.segments.last().map_or(flue.area, |segment| segment.area);
    let upright = |part, length: f64| Stretch {
        part,
        length,
        rise: length,
        section: flue,
        coefficient: 0.0,
        turn_area: flue.area,
    };
    let outdoors = chimney.outdoor_length;
    let connector = Stretch {
        rise: 0.0,
        section: Section { roughness: CONNECTOR_ROUGHNESS, ..flue },
        coefficient: turn_coefficient(RIGHT_ANGLE),
        turn_area: flue.area.min(last),
        ..upright(Part::Connector, chimney.connector_length)
    };
    let indoors = chimney.mouth_height - path.exit_height - outdoors;
    let around = |resistance, ambient| Around { resistance, instability: 1.0, ambient };
    (
        [
            connector,
            upright(Part::ChimneyIndoors, indoors),
            upright(Part::ChimneyOutdoors, outdoors),
        ],
        [
            around(1.0 / FILM_INDOORS, site.room_temperature),
            around(
                wall_resistance(chimney, &Factors::NOMINAL, FILM_INDOORS),
                site.room_temperature,
            ),
            around(
                wall_resistance(chimney, &Factors::NOMINAL, FILM_OUTDOORS),
                site.outdoor_temperature,
            ),
        ],
    )
}

fn flues(design: &Design, setting: &Setting, stretches: &[Stretch; 3]) -> [Flue; 3] {
    let [connector, indoors, outdoors] = *stretches;
    let whole = indoors.length + outdoors.length;
    let flue = |stretch: &Stretch, whole_length: f64| Flue {
        mass_flow: gas_mass_flow(setting.charge),
        heat_capacity: HEAT_CAPACITY,
        area: design.chimney.area(),
        hydraulic_diameter: stretch.section.hydraulic_diameter,
        roughness: stretch.section.roughness,
        whole_length,
    };
    [flue(&connector, connector.length), flue(&indoors, whole), flue(&outdoors, whole)]
}
