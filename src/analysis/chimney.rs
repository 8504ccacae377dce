//! Connector and chimney as channels with a steady wall.

use super::factors::Factors;
use super::march::{
    Channel, Gathering, Memory, Passage, Sink, Stream, Stretch, Touch, march, wall_at,
};
use crate::design::material::MINERAL_WOOL_CONDUCTIVITY;
use crate::design::{Chimney, Design, FlueShape};
use crate::physics::conduction::{cylinder_resistance, film_resistance, inner_surface};
use crate::physics::convection::{Duct, NUSSELT_LAMINAR_ROUND, nusselt_laminar_rectangle};
use crate::physics::pressure::{LAMINAR_FRICTION_ROUND, laminar_friction_rectangle};
use crate::physics::surface::emission;

/// Outside film inside a building (W/m2K).
///
/// # Source
///
/// [`crate::sources::EN_13384_FILMS`].
pub const FILM_INDOORS: f64 = 8.0;
/// Outside film outdoors (W/m2K).
///
/// # Source
///
/// [`crate::sources::EN_13384_FILMS`].
pub const FILM_OUTDOORS: f64 = 23.0;

/// Emissivity of a steel connector (–), common practice, no source.
pub const CONNECTOR_EMISSIVITY: f64 = 0.9;
/// Mean roughness of a metal connector (m).
///
/// # Source
///
/// [`crate::sources::ROUGHNESS`].
const CONNECTOR_ROUGHNESS: f64 = 0.001;
const MOST_FILM_ROUNDS: u32 = 30;
/// On the outside film of the connector, relative.
const FILM_TOLERANCE: f64 = 2e-3;
/// Cells of each part of the chimney.
pub const CELLS: u32 = 3;

/// Gas on its way from the last run to the mouth.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flue {
    /// Through the connector.
    pub connector: Passage,
    /// Through the indoor part of the chimney.
    pub indoors: Passage,
    /// Through the outdoor part of the chimney.
    pub outdoors: Passage,
    /// Inner wall surface at the mouth (K).
    pub mouth_wall: f64,
}

/// Flow and heat transfer of the flue.
pub fn flue_duct(chimney: &Chimney, length: f64) -> Duct {
    let (laminar_friction, laminar_nusselt) = match chimney.shape {
        FlueShape::Round => (LAMINAR_FRICTION_ROUND, NUSSELT_LAMINAR_ROUND),
        FlueShape::Rectangular => {
            let (width, depth) = (chimney.flue_width, chimney.flue_depth);
            let aspect = width.min(depth) / width.max(depth);
            (laminar_friction_rectangle(aspect), nusselt_laminar_rectangle(aspect))
        }
    };
    Duct {
        hydraulic_diameter: chimney.hydraulic_diameter(),
        length: length.max(0.01),
        roughness: chimney.roughness,
        laminar_friction,
        laminar_nusselt,
    }
}

/// Resistance of wall and insulation with an outside film, related to the inner surface (m2K/W).
///
/// R = sum D/(2k) ln(D_o/D_i) + D/(D_o film)
pub fn wall_resistance(chimney: &Chimney, factors: &Factors, film: f64) -> f64 {
    let inner = chimney.hydraulic_diameter();
    let wall = inner + 2.0 * chimney.wall_thickness;
    let outer = wall + 2.0 * chimney.insulation_thickness;
    let conductivity =
        factors.flue_conductivity * chimney.wall_material.properties().conductivity;
    let wool = factors.flue_conductivity * MINERAL_WOOL_CONDUCTIVITY;
    cylinder_resistance(inner, inner, wall, conductivity)
        + cylinder_resistance(inner, wall, outer, wool)
        + film_resistance(inner, outer, film * factors.outside_film)
}

/// A part of the chimney as a channel.
pub fn flue_channel<'a>(
    design: &Design,
    exit_height: f64,
    length: f64,
    sinks: &'a [Sink],
) -> Channel<'a> {
    let chimney = &design.chimney;
    Channel {
        duct: flue_duct(chimney, chimney.mouth_height - exit_height),
        length,
        area: chimney.area(),
        volume_over_area: 0.25 * chimney.hydraulic_diameter(),
        sinks,
        wall_emissivity: design.shell.inner_emissivity,
        cells: CELLS,
    }
}

/// The connector as a channel.
pub fn connector_channel<'a>(design: &Design, sinks: &'a [Sink]) -> Channel<'a> {
    let chimney = &design.chimney;
    Channel {
        duct: Duct {
            roughness: CONNECTOR_ROUGHNESS,
            ..flue_duct(chimney, chimney.connector_length)
        },
        length: chimney.connector_length,
        area: chimney.area(),
        volume_over_area: 0.25 * chimney.hydraulic_diameter(),
        sinks,
        wall_emissivity: design.shell.inner_emissivity,
        cells: 1,
    }
}

/// Marches the gas from the last run to the mouth.
pub fn flue(design: &Design, stream: &Stream, exit_height: f64, inlet: f64) -> Flue {
    let chimney = &design.chimney;
    let room = design.site.room_temperature;
    let connector = connector(design, stream, inlet);
    let sinks = [Sink::alone(
        girth(chimney),
        room,
        wall_resistance(chimney, &stream.factors, FILM_INDOORS),
    )];
    let length = indoor_length(chimney, exit_height);
    let lower = flue_channel(design, exit_height, length, &sinks);
    let indoors = march(stream, &lower, connector.outlet);
    let below = Flue { connector, indoors, outdoors: indoors, mouth_wall: indoors.wall };
    flue_outdoors(design, stream, exit_height, &below, design.site.outdoor_temperature)
}

/// The same flue on a day of another outdoor temperature: only its outdoor part feels it.
pub fn flue_outdoors(
    design: &Design,
    stream: &Stream,
    exit_height: f64,
    below: &Flue,
    outdoors: f64,
) -> Flue {
    let chimney = &design.chimney;
    let resistance = wall_resistance(chimney, &stream.factors, FILM_OUTDOORS);
    let sinks = [Sink::alone(girth(chimney), outdoors, resistance)];
    let upper = flue_channel(design, exit_height, chimney.outdoor_length, &sinks);
    let Flue { connector, indoors, .. } = *below;
    let outdoors = outdoor_passage(stream, &upper, &indoors);
    // The mouth stands outdoors, however short the part is that does.
    let mouth_wall = mouth(stream, &upper, outdoors.outlet).surface();
    Flue { connector, indoors, outdoors, mouth_wall }
}

/// The flue before it has taken any heat: walls at room temperature indoors, as cold as the air
/// outdoors.
pub fn cold_flue(
    design: &Design,
    stream: &Stream,
    exit_height: f64,
    inlet: f64,
    outdoors: f64,
) -> Flue {
    let chimney = &design.chimney;
    let room = design.site.room_temperature;
    let (lower, upper) = (cold_wall(girth(chimney), room), cold_wall(girth(chimney), outdoors));
    let connector = march(stream, &connector_channel(design, &lower), inlet);
    let lower = flue_channel(design, exit_height, indoor_length(chimney, exit_height), &lower);
    let indoors = march(stream, &lower, connector.outlet);
    let upper = flue_channel(design, exit_height, chimney.outdoor_length, &upper);
    let above = outdoor_passage(stream, &upper, &indoors);
    Flue { connector, indoors, outdoors: above, mouth_wall: outdoors }
}

/// A wall that is held at its temperature.
pub fn cold_wall(girth: f64, temperature: f64) -> [Sink; 1] {
    [Sink::alone(girth, temperature, 0.0)]
}

/// Difference between gas and surroundings at which nothing flows (K).
const NO_DIFFERENCE: f64 = 1e-6;

/// A steady wall between gas and surroundings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteadyWall {
    /// Gas (K).
    pub gas: f64,
    /// Surroundings (K).
    pub outside: f64,
    /// Film of the gas, convection and radiation together (W/m2K).
    pub film: f64,
    /// From the inner surface to the surroundings (m2K/W).
    pub resistance: f64,
}

impl SteadyWall {
    /// Inner surface (K).
    pub fn surface(&self) -> f64 {
        inner_surface(self.gas, self.outside, self.film, self.resistance)
    }
}

/// The wall at the mouth, where the gas of the topmost channel has a temperature (K).
fn mouth(stream: &Stream, upper: &Channel<'_>, gas: f64) -> SteadyWall {
    let sink = upper.sinks.first().copied().unwrap_or_default();
    let surface = wall_at(stream, upper, gas);
    let through = (surface - sink.base) / sink.resistance;
    let film = through / (gas - surface);
    let film = if (gas - sink.base).abs() < NO_DIFFERENCE {
        0.0
    } else if 0.0 < film {
        film
    } else {
        // A wall as warm as its gas has a film that holds nothing back.
        f64::INFINITY
    };
    SteadyWall { gas, outside: sink.base, film, resistance: sink.resistance }
}

/// The wall at the mouth of a flue.
pub fn mouth_of(design: &Design, stream: &Stream, exit_height: f64, flue: &Flue) -> SteadyWall {
    let chimney = &design.chimney;
    let resistance = wall_resistance(chimney, &stream.factors, FILM_OUTDOORS);
    let sinks = [Sink::alone(girth(chimney), design.site.outdoor_temperature, resistance)];
    let upper = flue_channel(design, exit_height, chimney.outdoor_length, &sinks);
    mouth(stream, &upper, flue.outdoors.outlet)
}

fn outdoor_passage(stream: &Stream, upper: &Channel<'_>, indoors: &Passage) -> Passage {
    if upper.length > 0.0 { march(stream, upper, indoors.outlet) } else { indoors.none_after() }
}

fn indoor_length(chimney: &Chimney, exit_height: f64) -> f64 {
    chimney.mouth_height - exit_height - chimney.outdoor_length
}

/// Inner girth of the flue (m).
pub fn girth(chimney: &Chimney) -> f64 {
    4.0 * chimney.area() / chimney.hydraulic_diameter()
}

/// Bare steel that gives its heat to the room. Its outside film depends on its own temperature
/// and is found by repeated substitution, halfway each time, since a hot film overshoots.
fn connector(design: &Design, stream: &Stream, inlet: f64) -> Passage {
    let room = design.site.room_temperature;
    let mut film = FILM_INDOORS;
    let mut passage = Passage::default();
    let channel = connector_channel(design, &[]);
    let place = Stretch::new(stream, &channel);
    // Each round starts from where the one before ended.
    let mut memory = Memory::default();
    let mut touches = [Touch::default()];
    for _ in 0..MOST_FILM_ROUNDS {
        let sinks = [Sink::alone(girth(&design.chimney), room, 1.0 / film)];
        let cell = place.cell(&sinks, (inlet, channel.length), &mut memory, &mut touches);
        let mut gathering = Gathering::new(&place, channel.cells, inlet);
        gathering.add(&cell);
        passage = gathering.finish();
        let excess = passage.wall - room;
        if excess < 1.0 {
            break;
        }
        let next = stream.factors.outside_film
            * emission(CONNECTOR_EMISSIVITY, passage.wall, room)
            / excess;
        let change = next - film;
        film += 0.5 * change;
        if change.abs() < FILM_TOLERANCE * film {
            break;
        }
    }
    passage
}
