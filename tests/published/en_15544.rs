//! EN 15544, one-off tiled and mortared stoves. The formulas are from memory, the numbers worked
//! by hand from them; burn duration and air per kilogram of wood stand against numbers as read or
//! of the trade.

use crate::{Check, Publication};
use longsmoke::analysis::standard_route::pressure::{
    Section, dynamic_pressure, friction_factor_rough, pair_coefficient, standing_pressure,
    turn_coefficient,
};
use longsmoke::analysis::standard_route::sizes::{
    LENGTH_FACTOR, LENGTH_FACTOR_GAP, bleed_area, firebox_height, heating_period,
    largest_firebox_base, least_charge, length_factor, nominal_output, nominal_output_at,
};
use longsmoke::analysis::standard_route::{
    firebox_surface, gas, least_firebox_base, least_firebox_height, shortest_path,
};
use longsmoke::design::Species;
use longsmoke::physics::wood::flue_gas;
use longsmoke::sources::Trust;
use longsmoke::units::{celsius, kelvin};

fn sizes() -> Vec<Check> {
    let mut checks = vec![
        Check::rounds_to("15 kg: firebox surface (cm2)", firebox_surface(15.0) * 1e4, "13500"),
        Check::rounds_to("15 kg: smallest base (cm2)", least_firebox_base(15.0) * 1e4, "1500"),
        Check::rounds_to("15 kg: smallest height (cm)", least_firebox_height(15.0) * 1e2, "40"),
        Check::rounds_to("15 kg: bleed slot (cm2)", bleed_area(15.0) * 1e4, "15"),
        Check::rounds_to("15 kg: smallest charge (kg)", least_charge(15.0), "7.5"),
        Check::rounds_to(
            "15 kg, base 40 x 38 cm: height (cm)",
            firebox_height(15.0, 0.1520, 1.56) * 1e2,
            "67.05",
        ),
        Check::rounds_to(
            "15 kg, perimeter 156 cm: largest base (cm2)",
            largest_firebox_base(15.0, 1.56) * 1e4,
            "3630",
        ),
        Check::rounds_to(
            "15 kg, one firing a day: nominal output (kW)",
            nominal_output(15.0, heating_period(1.0)) / 1e3,
            "2.03",
        ),
        Check::rounds_to(
            "14.77 kg, two firings a day: nominal output (kW)",
            nominal_output(14.77, heating_period(2.0)) / 1e3,
            "4.00",
        ),
        Check::within(
            "heat at 78 %, edition of 2023 (kWh/kg)",
            nominal_output_at(1.0, 3600.0, 0.78) / 1e3,
            "3.25",
            0.002,
            "4.16 kWh/kg and 3.25 kWh/kg are rounded",
        ),
    ];
    let rows = [
        (10.0, "4.11", "4.74"),
        (15.0, "5.03", "5.81"),
        (20.0, "5.81", "6.71"),
        (25.0, "6.50", "7.50"),
        (30.0, "7.12", "8.22"),
        (40.0, "8.22", "9.49"),
    ];
    for (charge, plain, gapped) in rows {
        let what = |name: &str| format!("{charge} kg: shortest path, {name} (m)");
        checks.push(Check::rounds_to(what("no air gap"), shortest_path(charge, 0.0), plain));
        checks.push(Check::rounds_to(what("air gap"), shortest_path(charge, 0.02), gapped));
    }
    checks
}

/// Efficiency (%), temperature (°C), factor without and with an air gap.
const FACTORS: [(f64, [&str; 3]); 9] = [
    (78.0, ["245.4", "1.264", "1.459"]),
    (78.5, ["240.1", "1.298", "1.498"]),
    (80.0, ["224.1", "1.406", "1.622"]),
    (82.0, ["202.9", "1.562", "1.802"]),
    (84.0, ["181.6", "1.735", "2.002"]),
    (85.0, ["171.0", "1.830", "2.111"]),
    (86.0, ["160.4", "1.930", "2.227"]),
    (88.0, ["139.1", "2.153", "2.484"]),
    (90.0, ["117.9", "2.413", "2.784"]),
];

fn lengths() -> Vec<Check> {
    let mut checks = Vec::new();
    for (percent, [temperature, plain, gapped]) in FACTORS {
        let share = percent / 100.0;
        let what = |name: &str| format!("{percent} %: {name}");
        let outlet = celsius(gas::temperature_of_efficiency(share));
        checks.extend([
            Check::rounds_to(what("gas out of the runs (°C)"), outlet, temperature),
            Check::rounds_to(
                what("length factor, no air gap"),
                length_factor(share, LENGTH_FACTOR),
                plain,
            ),
            Check::rounds_to(
                what("length factor, air gap"),
                length_factor(share, LENGTH_FACTOR_GAP),
                gapped,
            ),
        ]);
    }
    let shares = [
        (0.0, "550", "49.3"),
        (0.5, "363.2", "66.9"),
        (1.0, "239.8", "78.5"),
        (1.5, "158.4", "86.2"),
        (2.0, "104.6", "91.2"),
    ];
    for (share, temperature, efficiency) in shares {
        let outlet = gas::run_temperature(share, 1.0);
        let what = |name: &str| format!("after {share} shortest paths: {name}");
        checks.push(Check::rounds_to(what("gas (°C)"), celsius(outlet), temperature));
        let percent = gas::efficiency(outlet) * 100.0;
        checks.push(Check::rounds_to(what("efficiency (%)"), percent, efficiency));
    }
    let fields = [
        (0.0, 7.0, "173", "84.8"),
        (0.0, 7.5, "159.7", "86.06"),
        (0.0, 8.0, "147", "87.2"),
        (0.02, 7.0, "202", "82.1"),
        (0.02, 7.5, "188.4", "83.36"),
        (0.02, 8.0, "175", "84.6"),
    ];
    for (gap, length, temperature, efficiency) in fields {
        let outlet = gas::run_temperature(length, shortest_path(15.0, gap));
        let what = |name: &str| format!("15 kg, gap {gap} m, path {length} m: {name}");
        checks.push(Check::rounds_to(what("gas (°C)"), celsius(outlet), temperature));
        let percent = gas::efficiency(outlet) * 100.0;
        checks.push(Check::rounds_to(what("efficiency (%)"), percent, efficiency));
    }
    checks
}

fn flows() -> Vec<Check> {
    let cold = kelvin(0.0);
    let hour = 3600.0;
    let air = gas::air_volume_flow(1.0, cold, 0.0) / gas::burning_rate(1.0);
    let mass = gas::air_mass_flow(1.0) / gas::burning_rate(1.0);
    let dry = flue_gas(&Species::Mixed.ultimate(), 0.13, 1.0).air_per_fuel;
    let mut checks = vec![
        Check::rounds_to("15 kg: burning rate (kg/h)", gas::burning_rate(15.0) * hour, "11.7"),
        Check::rounds_to("burn (min)", 1.0 / gas::burning_rate(1.0) / 60.0, "76.9"),
        Check::within(
            "burn as read in a catalog abstract (min)",
            1.0 / gas::burning_rate(1.0) / 60.0,
            "78",
            20.0 / 78.0,
            "the abstract says 78 +/- 20 min, of another fuel",
        ),
        Check::rounds_to("air per kilogram of wood (m3n)", air, "11.8"),
        Check::rounds_to("excess air of wood with 13 % of water", mass / dry, "2.95"),
        Check::within(
            "scale of the altitude, 288 J/kgK x 273 K (J/kg)",
            9.81 * 1000.0 / libm::log(gas::altitude_factor(1000.0)),
            "78624",
            1e-9,
            "exact",
        ),
        Check::rounds_to("15 kg: gas (kg/s)", gas::gas_mass_flow(15.0), "0.0525"),
        Check::rounds_to("gas per charge (1/s)", gas::gas_mass_flow(1.0), "0.00350"),
        Check::rounds_to("air per charge (1/s)", gas::air_mass_flow(1.0), "0.00331"),
        Check::rounds_to(
            "15 kg, 550 °C: gas (m3/s)",
            gas::gas_volume_flow(15.0, kelvin(550.0), 0.0),
            "0.12345",
        ),
    ];
    checks.extend(factors());
    for (speed, printed) in [(3.0, "128"), (2.0, "192"), (4.0, "96")] {
        let area = gas::air_volume_flow(15.0, cold, 0.0) / speed * 1e4;
        let what = format!("15 kg, air at 0 °C with {speed} m/s: inlet (cm2)");
        checks.push(Check::rounds_to(what, area, printed));
    }
    checks
}

/// Factors of temperature and altitude, densities.
fn factors() -> Vec<Check> {
    let mut checks = Vec::new();
    let factors = [
        (0.0, "1.000"),
        (20.0, "1.0733"),
        (180.0, "1.6593"),
        (240.0, "1.8791"),
        (400.0, "2.4652"),
        (550.0, "3.0147"),
        (700.0, "3.5641"),
    ];
    for (temperature, printed) in factors {
        let factor = gas::temperature_factor(kelvin(temperature));
        let what = format!("temperature factor at {temperature} °C");
        checks.push(Check::rounds_to(what, factor, printed));
    }
    for (altitude, printed) in [(500.0, "1.0644"), (1000.0, "1.1329"), (1500.0, "1.2058")] {
        let what = format!("altitude factor at {altitude} m");
        checks.push(Check::rounds_to(what, gas::altitude_factor(altitude), printed));
    }
    for (temperature, printed) in [(550.0, "0.4253"), (240.0, "0.6822"), (180.0, "0.7726")] {
        let density = gas::gas_density(kelvin(temperature), 0.0);
        let what = format!("density of gas at {temperature} °C (kg/m3)");
        checks.push(Check::rounds_to(what, density, printed));
    }
    checks
}

fn pressures() -> Vec<Check> {
    let mut checks = Vec::new();
    for (diameter, printed) in [(0.15, "0.04182"), (0.18, "0.03924"), (0.20, "0.03785")] {
        let what = format!("friction factor, roughness 2 mm in {diameter} m");
        checks.push(Check::rounds_to(what, friction_factor_rough(diameter, 0.002), printed));
    }
    let section = Section { area: 0.036, hydraulic_diameter: 0.072 / 0.38, roughness: 0.002 };
    let factor = friction_factor_rough(section.hydraulic_diameter, section.roughness);
    let ducts = [
        (550.0, ["3.429", "2.500", "0.509", "3.000"]),
        (240.0, ["2.1375", "1.559", "0.317", "1.870"]),
    ];
    for (temperature, [speed, dynamic, friction, turn]) in ducts {
        let gas_temperature = kelvin(temperature);
        let v = gas::gas_volume_flow(15.0, gas_temperature, 0.0) / section.area;
        let p = dynamic_pressure(gas::gas_density(gas_temperature, 0.0), v);
        let what = |name: &str| format!("15 kg, 0.20 x 0.18 m at {temperature} °C: {name}");
        checks.extend([
            Check::rounds_to(what("speed (m/s)"), v, speed),
            Check::rounds_to(what("dynamic pressure (Pa)"), p, dynamic),
            Check::rounds_to(
                what("friction (Pa/m)"),
                factor * p / section.hydraulic_diameter,
                friction,
            ),
            Check::rounds_to(what("turn of 90 degrees (Pa)"), turn_coefficient(90.0) * p, turn),
        ]);
    }
    let columns = [
        (6.0, 180.0, 0.0, 0.0, "30.63"),
        (5.0, 200.0, 0.0, 0.0, "27.13"),
        (5.0, 200.0, 15.0, 0.0, "23.82"),
        (-1.0, 400.0, 0.0, 0.0, "-7.58"),
        (6.0, 150.0, 0.0, 0.0, "27.41"),
        (6.0, 150.0, 0.0, 1000.0, "24.19"),
    ];
    for (rise, hot, cold, altitude, printed) in columns {
        let pull = standing_pressure(
            rise,
            gas::air_density(kelvin(cold), altitude),
            gas::gas_density(kelvin(hot), altitude),
        );
        let what = format!("{rise} m at {hot} °C, air {cold} °C, altitude {altitude} m (Pa)");
        checks.push(Check::rounds_to(what, pull, printed));
    }
    checks
}

/// The table by angle, a value between two rows, two turns close to each other.
fn turns() -> Vec<Check> {
    let rows = [
        (10.0, "0.1"),
        (30.0, "0.2"),
        (45.0, "0.4"),
        (60.0, "0.8"),
        (90.0, "1.2"),
        (75.0, "1.0"),
        (180.0, "2.4"),
    ];
    let mut checks: Vec<Check> = rows
        .into_iter()
        .map(|(angle, printed)| {
            let what = format!("loss coefficient of {angle} degrees");
            Check::rounds_to(what, turn_coefficient(angle), printed)
        })
        .collect();
    // 45 and 45 degrees: 1.2 at no length, 0.8 from one diameter on.
    for (straight, printed) in [(0.0, "1.2"), (0.5, "1.0"), (1.0, "0.8"), (3.0, "0.8")] {
        let what = format!("two turns of 45 degrees, {straight} diameters between them");
        checks.push(Check::rounds_to(what, pair_coefficient(45.0, 45.0, straight), printed));
    }
    checks
}

pub fn publication() -> Publication {
    let mut checks = sizes();
    checks.extend(lengths());
    checks.extend(flows());
    checks.extend(pressures());
    checks.extend(turns());
    Publication {
        name: "EN 15544, formulas from memory, numbers by hand",
        trust: Trust::Memory,
        checks,
    }
}
