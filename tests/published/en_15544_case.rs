//! A stacked heater after EN 15544, worked apart from this code: 15 kg without air gap, sea
//! level, air at 0 °C, runs of 0.20 x 0.18 m in fireclay with a roughness of 2 mm. Six level runs
//! of 0.75 m, five rises of 0.25 m, a turn of 90 degrees at each change. The formulas are partly
//! from memory, and no published example with numbers was found.

use crate::{Check, Publication};
use longsmoke::analysis::path::path;
use longsmoke::analysis::standard_route::gas::{efficiency, gas_volume_flow};
use longsmoke::analysis::standard_route::pressure::{
    Part, RouteSegment, Section, Setting, Stretch, dynamic_pressure, friction_factor_rough,
    pair_coefficient, standing_pressure, turn_coefficient,
};
use longsmoke::analysis::standard_route::{gas, shortest_path, standard_route};
use longsmoke::design::{Design, Layout, SmokePath};
use longsmoke::sources::Trust;
use longsmoke::units::{celsius, kelvin};

const CHARGE: f64 = 15.0;
const RUN: (f64, f64) = (0.20, 0.18);

/// Middle (m), temperature (°C), flow (m3/s), speed (m/s), density (kg/m3), dynamic pressure,
/// friction (Pa), temperature at the turn (°C), turn, standing pressure (Pa).
const ROWS: [[&str; 10]; 11] = [
    ["0.375", "517.0", "0.1185", "3.292", "0.4430", "2.400", "0.366", "550.0", "0", "0"],
    [
        "0.875", "476.1", "0.1124", "3.121", "0.4672", "2.276", "0.116", "486.0", "2.767",
        "2.025",
    ],
    ["1.375", "438.5", "0.1067", "2.964", "0.4919", "2.161", "0.330", "466.4", "2.696", "0"],
    [
        "1.875", "403.8", "0.1015", "2.820", "0.5171", "2.056", "0.105", "412.2", "2.498",
        "1.903",
    ],
    ["2.375", "371.8", "0.0967", "2.687", "0.5428", "1.959", "0.299", "395.5", "2.437", "0"],
    [
        "2.875", "342.4", "0.0923", "2.564", "0.5687", "1.870", "0.095", "349.5", "2.270",
        "1.776",
    ],
    ["3.375", "315.3", "0.0882", "2.451", "0.5949", "1.787", "0.273", "335.4", "2.218", "0"],
    [
        "3.875", "290.4", "0.0845", "2.347", "0.6212", "1.712", "0.087", "296.4", "2.076",
        "1.647",
    ],
    ["4.375", "267.4", "0.0811", "2.252", "0.6477", "1.642", "0.251", "284.4", "2.032", "0"],
    [
        "4.875", "246.2", "0.0779", "2.163", "0.6740", "1.577", "0.080", "251.4", "1.912",
        "1.518",
    ],
    ["5.375", "226.8", "0.0750", "2.082", "0.7003", "1.518", "0.232", "241.2", "1.875", "0"],
];

const COLUMNS: [&str; 10] = [
    "middle (m)",
    "gas (°C)",
    "flow (m3/s)",
    "speed (m/s)",
    "density (kg/m3)",
    "dynamic pressure (Pa)",
    "friction (Pa)",
    "gas at the turn (°C)",
    "turn (Pa)",
    "standing pressure (Pa)",
];

fn setting() -> Setting {
    Setting {
        charge: CHARGE,
        altitude: 0.0,
        outdoor_temperature: kelvin(0.0),
        shortest_path: shortest_path(CHARGE, 0.0),
    }
}

fn section() -> Section {
    let (width, height) = RUN;
    Section {
        area: width * height,
        hydraulic_diameter: 2.0 * width * height / (width + height),
        roughness: 0.002,
    }
}

/// Run, rise, run and so on; nothing leads into the first.
fn stretches() -> Vec<Stretch> {
    (0..11)
        .map(|index| {
            let (part, length, rise) =
                if index % 2 == 0 { (Part::Run, 0.75, 0.0) } else { (Part::Rise, 0.25, 0.25) };
            Stretch {
                part,
                length,
                rise,
                section: section(),
                coefficient: if index == 0 { 0.0 } else { turn_coefficient(90.0) },
                turn_area: section().area,
            }
        })
        .collect()
}

fn row(segment: &RouteSegment, middle: f64) -> [f64; 10] {
    [
        middle,
        celsius(segment.mean),
        gas_volume_flow(CHARGE, segment.mean, 0.0),
        segment.velocity,
        segment.density,
        dynamic_pressure(segment.density, segment.velocity),
        segment.friction,
        celsius(segment.inlet),
        segment.turn,
        segment.standing,
    ]
}

fn table(segments: &[RouteSegment]) -> Vec<Check> {
    let mut from = 0.0;
    let mut checks = Vec::new();
    for (index, (segment, printed)) in segments.iter().zip(ROWS).enumerate() {
        let computed = row(segment, from + 0.5 * segment.length);
        from += segment.length;
        for ((name, value), text) in COLUMNS.iter().zip(computed).zip(printed) {
            let what = format!("section {}: {name}", index + 1);
            checks.push(Check::rounds_to(what, value, text));
        }
    }
    checks
}

fn around() -> Vec<Check> {
    let air = gas::air_density(kelvin(0.0), 0.0);
    let hot = gas::gas_density(kelvin(700.0), 0.0);
    let warm = kelvin(150.0);
    let area = std::f64::consts::PI / 4.0 * 0.18 * 0.18;
    let chimney = Stretch {
        part: Part::ChimneyIndoors,
        length: 6.0,
        rise: 6.0,
        section: Section { area, hydraulic_diameter: 0.18, roughness: 0.002 },
        coefficient: 0.0,
        turn_area: area,
    };
    let chimney = setting().segment(&chimney, warm, warm);
    let dynamic = dynamic_pressure(chimney.density, chimney.velocity);
    vec![
        Check::rounds_to(
            "firebox of 0.67 m at 700 °C (Pa)",
            standing_pressure(0.67, air, hot),
            "6.13",
        ),
        Check::rounds_to("chimney of 6 m at 150 °C (Pa)", chimney.standing, "27.41"),
        Check::rounds_to("chimney: friction (Pa)", chimney.friction, "3.36"),
        Check::rounds_to("chimney: speed (m/s)", chimney.velocity, "2.493"),
        Check::rounds_to("chimney: dynamic pressure (Pa)", dynamic, "2.572"),
        Check::rounds_to("chimney: flow (m3/s)", gas_volume_flow(CHARGE, warm, 0.0), "0.06345"),
    ]
}

/// The same heater as a design: to its ten turns comes that into the first run.
fn as_a_design() -> Vec<Check> {
    let mut design = Design::demonstration();
    design.site.altitude = 0.0;
    design.site.outdoor_temperature = kelvin(0.0);
    design.fire.charge = CHARGE;
    design.shell.gap = 0.0;
    design.path = SmokePath {
        layout: Layout::Above,
        run_count: 6,
        run_length: 0.75,
        run_width: RUN.0,
        run_height: RUN.1,
        baffle_thickness: 0.07,
        roughness: 0.002,
        overrides: Vec::new(),
        ..design.path
    };
    let route = standard_route(&design, &path(&design));
    let runs =
        || route.segments.iter().filter(|each| matches!(each.part, Part::Run | Part::Rise));
    let sum = |of: fn(&RouteSegment) -> f64| runs().map(of).sum::<f64>();
    let first = runs().next().map_or(0.0, |segment| segment.turn);
    vec![
        Check::rounds_to("as a design: friction (Pa)", sum(|each| each.friction), "2.233"),
        Check::rounds_to("as a design: turns (Pa)", sum(|each| each.turn) - first, "22.780"),
        Check::rounds_to("as a design: standing (Pa)", sum(|each| each.standing), "8.870"),
        Check::rounds_to("as a design: end (°C)", celsius(route.runs_outlet), "213.2"),
        Check::rounds_to("as a design: efficiency (%)", route.efficiency * 100.0, "81.0"),
    ]
}

pub fn publication() -> Publication {
    let segments = setting().runs(&stretches());
    let sum = |of: fn(&RouteSegment) -> f64| segments.iter().map(of).sum::<f64>();
    let length = sum(|segment| segment.length);
    let end = gas::run_temperature(length, setting().shortest_path);
    let section = section();
    let mut checks = vec![
        Check::rounds_to("hydraulic diameter (m)", section.hydraulic_diameter, "0.18947"),
        Check::rounds_to(
            "friction factor",
            friction_factor_rough(section.hydraulic_diameter, section.roughness),
            "0.03855",
        ),
        Check::rounds_to(
            "two turns of 90 degrees with 0.25 m between them",
            pair_coefficient(90.0, 90.0, 0.25 / section.hydraulic_diameter),
            "2.4",
        ),
    ];
    checks.extend(table(&segments));
    checks.extend([
        Check::rounds_to("friction, sum (Pa)", sum(|segment| segment.friction), "2.233"),
        Check::rounds_to("turns, sum (Pa)", sum(|segment| segment.turn), "22.780"),
        Check::rounds_to("standing pressure, sum (Pa)", sum(|each| each.standing), "8.870"),
        Check::rounds_to("length (m)", length, "5.75"),
        Check::rounds_to("length over the shortest", length / setting().shortest_path, "1.142"),
        Check::rounds_to("gas at the end (°C)", celsius(end), "213.2"),
        Check::rounds_to("efficiency (%)", efficiency(end) * 100.0, "81.0"),
    ]);
    checks.extend(around());
    checks.extend(as_a_design());
    Publication {
        name: "EN 15544, stacked heater of 15 kg, worked apart from formulas partly from memory",
        trust: Trust::Computed,
        checks,
    }
}
