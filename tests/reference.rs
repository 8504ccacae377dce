//! The tables of general-purpose libraries in `reference/tables/`, see `reference/README.md`.
//!
//! The limits were set before the first comparison and stand in the calls below.

use crate::{Check, Publication, Worst, hold};
use longsmoke::design::Species as Wood;
use longsmoke::physics::air::{SEA_LEVEL_PRESSURE, density, pressure_at_altitude};
use longsmoke::physics::conduction::{semi_infinite_resistance, slab_resistance};
use longsmoke::physics::convection::{nusselt_gnielinski, nusselt_laminar_rectangle};
use longsmoke::physics::gap::{GapAir, WallBehind, across_gap};
use longsmoke::physics::gas::{
    Composition, Gas, Species, molar_mass, pure_conductivity, pure_viscosity,
};
use longsmoke::physics::pressure::{
    friction_factor_colebrook, friction_factor_haaland, friction_factor_konakov,
    laminar_friction_rectangle,
};
use longsmoke::physics::radiation::{
    SMITH_TEMPERATURE, Volume, absorptivity_leckner, emissivity_leckner, emissivity_smith,
};
use longsmoke::physics::vapor::dew_point;
use longsmoke::physics::wood::{
    flame_temperature, flue_gas, higher_heating_value, lower_heating_value,
    stoichiometric_oxygen,
};
use longsmoke::sources::Trust;
use std::path::PathBuf;

const BAR: f64 = 1e5;

/// A table with its header.
struct Table {
    columns: Vec<String>,
    rows: Vec<Vec<String>>,
}

/// A row that is asked by the name of a column.
struct Row<'a> {
    columns: &'a [String],
    values: &'a [String],
}

impl Table {
    fn read(name: &str) -> Self {
        let text =
            std::fs::read_to_string(folder().join(format!("tables/{name}.csv"))).unwrap();
        let split = |line: &str| line.split(',').map(str::to_owned).collect::<Vec<_>>();
        let mut lines = text.lines().filter(|line| !line.starts_with('#')).map(split);
        let columns = lines.next().unwrap();
        let rows: Vec<_> = lines.collect();
        assert!(rows.iter().all(|row| row.len() == columns.len()), "{name}");
        Self { columns, rows }
    }

    fn rows(&self) -> impl Iterator<Item = Row<'_>> {
        self.rows.iter().map(|values| Row { columns: &self.columns, values })
    }
}

impl Row<'_> {
    #[track_caller]
    fn text(&self, column: &str) -> &str {
        let place = self.columns.iter().position(|each| each == column);
        &self.values[place.unwrap_or_else(|| panic!("no column {column}"))]
    }

    #[track_caller]
    fn number(&self, column: &str) -> f64 {
        self.text(column).parse().unwrap()
    }

    /// The first columns, to find the row again.
    fn place(&self, columns: usize) -> String {
        self.values[..columns].join(", ")
    }
}

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference")
}

fn pure_gas() -> Publication {
    let [mut capacity, mut viscosity, mut conductivity] =
        std::array::from_fn(|_| Worst::default());
    for row in Table::read("pure_gas").rows() {
        let (species, index) = match row.text("species_name") {
            "N2" => (Species::Nitrogen, 0),
            "O2" => (Species::Oxygen, 1),
            "CO2" => (Species::CarbonDioxide, 2),
            "H2O" => (Species::Water, 3),
            "Ar" => (Species::Argon, 4),
            other => panic!("{other}"),
        };
        let t = row.number("temperature_k");
        let mut amounts = [0.0; 5];
        amounts[index] = 1.0;
        let gas = Gas::new(Composition::new(amounts));
        let at = || row.place(2);
        capacity.relative(
            gas.heat_capacity(t),
            row.number("heat_capacity_nasa7_j_per_kg_k"),
            at,
        );
        if t <= row.number("transport_published_up_to_k") {
            viscosity.relative(pure_viscosity(species, t), row.number("viscosity_pa_s"), at);
            let k = row.number("conductivity_w_per_m_k");
            conductivity.relative(pure_conductivity(species, t), k, at);
        }
    }
    Publication {
        name: "Pure gases: CoolProp, Cantera",
        trust: Trust::Computed,
        checks: vec![
            Check::table("heat capacity", &capacity, 0.005, "%"),
            Check::table("viscosity", &viscosity, 0.02, "%"),
            Check::table("conductivity", &conductivity, 0.05, "%"),
        ],
    }
}

fn mixture() -> Publication {
    let mut worst: [Worst; 8] = Default::default();
    for row in Table::read("mixture").rows() {
        let t = row.number("temperature_k");
        let burned = flue_gas(
            &Wood::Mixed.ultimate(),
            row.number("moisture_kg_per_kg_wet"),
            row.number("excess_air_dimensionless"),
        );
        let gas = Gas::new(burned.composition);
        let at = || format!("{}, {t}", row.place(2));
        let columns =
            ["n2", "o2", "co2", "h2o", "ar"].map(|name| format!("{name}_mol_per_mol"));
        let fractions = burned.composition.fractions();
        for (fraction, column) in fractions.into_iter().zip(columns) {
            worst[0].absolute(fraction, row.number(&column), at);
        }
        worst[1].relative(gas.molar_mass(), row.number("molar_mass_kg_per_mol"), at);
        worst[2].relative(gas.heat_capacity(t), row.number("heat_capacity_j_per_kg_k"), at);
        // Near the reference temperature the enthalpy itself is near zero.
        worst[3].absolute(
            gas.enthalpy(t) / (t - 298.15),
            row.number("enthalpy_above_298_15_k_j_per_kg") / (t - 298.15),
            at,
        );
        let rho = row.number("density_at_101325_pa_kg_per_m3");
        worst[4].relative(gas.density(101_325.0, t), rho, at);
        let rho = row.number("density_at_93900_pa_kg_per_m3");
        worst[5].relative(gas.density(93_900.0, t), rho, at);
        worst[6].relative(gas.viscosity(t), row.number("viscosity_pa_s"), at);
        let k = row.number("conductivity_w_per_m_k");
        worst[7].relative(gas.conductivity(t), k, at);
    }
    let [fractions, mass, capacity, enthalpy, low, high, viscosity, conductivity] = &worst;
    Publication {
        name: "Flue gas: Cantera and CoolProp's pure gases",
        trust: Trust::Computed,
        checks: vec![
            Check::table("mole fractions", fractions, 1e-3, ""),
            Check::table("molar mass", mass, 0.002, "%"),
            Check::table("heat capacity", capacity, 0.005, "%"),
            Check::table("enthalpy over its span", enthalpy, 0.005 * 1000.0, "J/kgK"),
            Check::table("density at 101325 Pa", low, 0.002, "%"),
            Check::table("density at 93900 Pa", high, 0.002, "%"),
            Check::table("viscosity", viscosity, 0.02, "%"),
            Check::table("conductivity", conductivity, 0.05, "%"),
        ],
    }
}

fn flame() -> Publication {
    let [mut complete, mut equilibrium] = std::array::from_fn(|_| Worst::default());
    let wood = Wood::Mixed.ultimate();
    for row in Table::read("flame").rows() {
        let excess_air = row.number("excess_air_dimensionless");
        if excess_air < 1.5 {
            continue;
        }
        let moisture = row.number("moisture_kg_per_kg_wet");
        let burned = flue_gas(&wood, moisture, excess_air);
        let flame = flame_temperature(
            &burned,
            &Gas::new(burned.composition),
            lower_heating_value(&wood, moisture),
            row.number("air_temperature_k"),
        );
        let at = || row.place(3);
        let expected = row.number("flame_temperature_complete_combustion_k");
        complete.absolute(flame, expected, at);
        equilibrium.absolute(flame, row.number("flame_temperature_equilibrium_k"), at);
    }
    Publication {
        name: "Adiabatic flame from excess air 1.5: Cantera",
        trust: Trust::Computed,
        checks: vec![
            Check::table("complete combustion", &complete, 10.0, "K"),
            Check::table("equilibrium", &equilibrium, 10.0, "K"),
        ],
    }
}

fn fuel() -> Publication {
    let mut worst: [Worst; 7] = Default::default();
    for row in Table::read("fuel").rows() {
        let wood = match row.text("wood_name") {
            "generic" => Wood::Mixed,
            "oak" => Wood::Oak,
            "pine" => Wood::Pine,
            other => panic!("{other}"),
        };
        let wood = wood.ultimate();
        let moisture = row.number("moisture_kg_per_kg_wet");
        let burned = flue_gas(&wood, moisture, 1.0);
        let fraction = |species| burned.composition.fraction(species);
        let moles = burned.gas_per_fuel / burned.composition.molar_mass();
        let pairs = [
            (higher_heating_value(&wood), "higher_heating_value_j_per_kg_dry"),
            (lower_heating_value(&wood, moisture), "lower_heating_value_25_c_j_per_kg_wet"),
            (stoichiometric_oxygen(&wood) * (1.0 - moisture), "oxygen_need_mol_per_kg_wet"),
            (burned.air_per_fuel, "stoichiometric_air_kg_per_kg_wet"),
            (burned.gas_per_fuel, "stoichiometric_flue_gas_kg_per_kg_wet"),
            (
                moles * fraction(Species::Water) * molar_mass(Species::Water),
                "water_in_flue_gas_kg_per_kg_wet",
            ),
            (
                fraction(Species::CarbonDioxide) / (1.0 - fraction(Species::Water)),
                "co2_max_dry_mol_per_mol",
            ),
        ];
        for (worst, (computed, column)) in worst.iter_mut().zip(pairs) {
            worst.relative(computed, row.number(column), || row.place(2));
        }
    }
    let names = [
        "higher heating value",
        "lower heating value",
        "oxygen",
        "air",
        "flue gas",
        "water in the flue gas",
        "most carbon dioxide, dry",
    ];
    let checks = names.iter().zip(&worst);
    Publication {
        name: "Wood: stoichiometry with Cantera's atomic weights",
        trust: Trust::Computed,
        checks: checks.map(|(name, worst)| Check::table(name, worst, 0.005, "%")).collect(),
    }
}

fn dew_points() -> Publication {
    let [mut pure, mut sea_level, mut high] = std::array::from_fn(|_| Worst::default());
    for row in Table::read("dew_point").rows() {
        let computed = dew_point(row.number("partial_pressure_pa"));
        pure.absolute(computed, row.number("dew_point_k"), || row.place(1));
    }
    for row in Table::read("dew_point_mixture").rows() {
        let burned = flue_gas(
            &Wood::Mixed.ultimate(),
            row.number("moisture_kg_per_kg_wet"),
            row.number("excess_air_dimensionless"),
        );
        let water = burned.composition.fraction(Species::Water);
        let at = || row.place(2);
        let expected = row.number("dew_point_at_101325_pa_k");
        sea_level.absolute(dew_point(water * 101_325.0), expected, at);
        let expected = row.number("dew_point_at_93900_pa_k");
        high.absolute(dew_point(water * 93_900.0), expected, at);
    }
    Publication {
        name: "Dew point: CoolProp (IAPWS-95)",
        trust: Trust::Computed,
        checks: vec![
            Check::table("water vapor", &pure, 0.3, "K"),
            Check::table("flue gas at 101325 Pa", &sea_level, 0.3, "K"),
            Check::table("flue gas at 93900 Pa", &high, 0.3, "K"),
        ],
    }
}

fn friction() -> Publication {
    let [mut colebrook, mut haaland, mut konakov] = std::array::from_fn(|_| Worst::default());
    for row in Table::read("friction").rows() {
        let reynolds = row.number("reynolds_dimensionless");
        let roughness = row.number("relative_roughness_dimensionless");
        let at = || row.place(2);
        let computed = friction_factor_colebrook(reynolds, roughness).unwrap();
        let expected = row.number("friction_factor_colebrook_dimensionless");
        colebrook.relative(computed, expected, at);
        let computed = friction_factor_haaland(reynolds, roughness);
        haaland.relative(computed, row.number("friction_factor_haaland_dimensionless"), at);
    }
    for row in Table::read("friction_smooth").rows() {
        let computed = friction_factor_konakov(row.number("reynolds_dimensionless"));
        let expected = row.number("friction_factor_konakov_dimensionless");
        konakov.relative(computed, expected, || row.place(1));
    }
    Publication {
        name: "Friction: fluids, SciPy",
        trust: Trust::Computed,
        checks: vec![
            Check::table("Colebrook", &colebrook, 0.005, "%"),
            Check::table("Haaland", &haaland, 0.005, "%"),
            Check::table("Konakov", &konakov, 0.005, "%"),
        ],
    }
}

fn nusselt() -> Publication {
    let [mut turbulent, mut isothermal, mut series] = std::array::from_fn(|_| Worst::default());
    for row in Table::read("nusselt_turbulent").rows() {
        // The table goes further down than the formula's published range.
        let reynolds = row.number("reynolds_dimensionless");
        let computed = nusselt_gnielinski(
            reynolds,
            row.number("prandtl_dimensionless"),
            row.number("friction_factor_dimensionless"),
            0.0,
        );
        match computed {
            Ok(computed) => turbulent.relative(
                computed,
                row.number("nusselt_gnielinski_dimensionless"),
                || row.place(3),
            ),
            Err(error) => assert!(reynolds < 3000.0, "{error}"),
        }
    }
    for row in Table::read("laminar_duct").rows() {
        let aspect = row.number("aspect_short_over_long_dimensionless");
        isothermal.relative(
            nusselt_laminar_rectangle(aspect),
            row.number("nusselt_isothermal_eigenvalue_dimensionless"),
            || row.place(1),
        );
        series.relative(
            laminar_friction_rectangle(aspect),
            row.number("friction_factor_times_reynolds_series_dimensionless"),
            || row.place(1),
        );
    }
    Publication {
        name: "Ducts: ht, exact series, SciPy's eigenvalues",
        trust: Trust::Computed,
        checks: vec![
            Check::table("Gnielinski", &turbulent, 0.01, "%"),
            Check::table("laminar rectangle, isothermal", &isothermal, 0.01, "%"),
            Check::table("laminar rectangle, f Re", &series, 0.01, "%"),
        ],
    }
}

fn volume(row: &Row<'_>) -> Volume {
    Volume {
        water_pressure: BAR * row.number("partial_pressure_h2o_bar"),
        carbon_dioxide_pressure: BAR * row.number("partial_pressure_co2_bar"),
        pressure: BAR * row.number("pressure_bar"),
        beam_length: row.number("beam_length_m"),
    }
}

fn radiation() -> Publication {
    let mut worst: [Worst; 7] = Default::default();
    for row in Table::read("emissivity").rows() {
        let t = row.number("gas_temperature_k");
        let volume = volume(&row);
        let ours = emissivity_leckner(&volume, t);
        let at = || row.place(5);
        let number = |name: &str| row.number(&format!("{name}_dimensionless"));
        worst[0].relative(ours.water, number("emissivity_h2o_leckner"), at);
        worst[1].relative(ours.carbon_dioxide, number("emissivity_co2_leckner"), at);
        worst[2].absolute(ours.overlap, number("overlap_leckner"), at);
        worst[3].relative(ours.total(), number("emissivity_leckner"), at);
        if SMITH_TEMPERATURE.contains(&t) {
            let pressure = volume.water_pressure + volume.carbon_dioxide_pressure;
            let path = pressure * volume.beam_length / SEA_LEVEL_PRESSURE;
            let smith = emissivity_smith(path, t).unwrap();
            worst[4].relative(smith, number("emissivity_smith_ratio_1"), at);
        }
    }
    for row in Table::read("absorptivity").rows() {
        let [gas, wall] = ["gas_temperature_k", "wall_temperature_k"].map(|c| row.number(c));
        let volume = volume(&row);
        let computed = absorptivity_leckner(&volume, gas, wall);
        let expected = row.number("absorptivity_leckner_dimensionless");
        // Bar cm of the rarer gas, on the path that is scaled to the wall's temperature.
        let rarer = volume.water_pressure.min(volume.carbon_dioxide_pressure) / BAR;
        let path = 100.0 * rarer * volume.beam_length * wall / gas;
        let below_charts = usize::from(path < 0.1);
        worst[5 + below_charts].relative(computed, expected, || row.place(5));
    }
    let [water, carbon_dioxide, overlap, total, smith, absorptivity, thin] = &worst;
    Publication {
        name: "Gas radiation: Leckner and Smith written out apart",
        trust: Trust::Computed,
        checks: vec![
            Check::table("water vapor, Leckner", water, 0.01, "%"),
            Check::table("carbon dioxide, Leckner", carbon_dioxide, 0.01, "%"),
            Check::table("overlap, Leckner", overlap, 1e-4, ""),
            Check::table("mixture, Leckner", total, 0.01, "%"),
            Check::table("mixture, Smith", smith, 0.01, "%"),
            Check::table("absorptivity, Leckner", absorptivity, 0.01, "%"),
            Check::table("absorptivity, Leckner, below the charts", thin, 0.01, "%").differs(
                "below 0.1 bar cm, where the charts begin, the table runs on along the polynomial; \
                 Longsmoke lets the emissivity fall in proportion to the path",
            ),
        ],
    }
}

fn atmosphere() -> Publication {
    let [mut pressure, mut rho] = std::array::from_fn(|_| Worst::default());
    for row in Table::read("atmosphere").rows() {
        let computed = pressure_at_altitude(row.number("altitude_m")).unwrap();
        pressure.relative(computed, row.number("pressure_pa"), || row.place(1));
        let computed = density(row.number("pressure_pa"), row.number("temperature_k"));
        rho.relative(computed, row.number("density_kg_per_m3"), || row.place(1));
    }
    Publication {
        name: "Atmosphere: fluids (US Standard Atmosphere 1976)",
        trust: Trust::Computed,
        checks: vec![
            Check::table("pressure", &pressure, 0.002, "%"),
            Check::table("density of air", &rho, 0.002, "%"),
        ],
    }
}

fn conduction() -> Publication {
    let [mut surface, mut slab, mut lines] = std::array::from_fn(|_| Worst::default());
    for row in Table::read("conduction_semi_infinite").rows() {
        let [k, capacity, flux, time] = wall(&row);
        if row.number("depth_m") > 0.0 {
            continue;
        }
        let computed = flux * semi_infinite_resistance(k, capacity, time);
        surface.relative(computed, row.number("temperature_rise_k"), || row.place(5));
    }
    for row in Table::read("conduction_slab").rows() {
        let [k, capacity, flux, time] = wall(&row);
        let computed = flux * slab_resistance(row.number("thickness_m"), k, capacity, time);
        let at = || row.place(6);
        slab.relative(computed, row.number("front_rise_series_k"), at);
        lines.relative(computed, row.number("front_rise_method_of_lines_k"), at);
    }
    Publication {
        name: "Conduction under constant flux: closed form, series, SciPy",
        trust: Trust::Computed,
        checks: vec![
            Check::table("surface of a thick wall", &surface, 0.005, "%"),
            Check::table("heated face of a slab, series", &slab, 0.005, "%"),
            Check::table("heated face of a slab, method of lines", &lines, 0.005, "%"),
        ],
    }
}

fn wall_behind() -> Publication {
    let mut face = Worst::default();
    let mut flux = Worst::default();
    let mut cooler = Worst::default();
    let mut near = Worst::default();
    for row in Table::read("wall_behind").rows() {
        let wall = WallBehind {
            room: 293.15,
            beyond: row.number("beyond_k"),
            resistance: row.number("resistance_m2k_per_w"),
            film: 3.5,
            emissivity: 0.9,
            air: match row.text("air") {
                "flowing" => GapAir::Flowing,
                "poor" => GapAir::Poor,
                _ => GapAir::Blocked,
            },
        };
        let back = row.number("back_k");
        let (found, leaving) = across_gap(&wall, back);
        let at = || row.place(4);
        face.absolute(found, row.number("wall_k"), at);
        flux.absolute(leaving, row.number("flux_w_per_m2"), at);
        if let Ok(other) = row.text("wall_correlation_k").parse::<f64>() {
            cooler.see((other - found).max(0.0), at);
            if back < 360.0 {
                near.absolute(found, other, at);
            }
        }
    }
    Publication {
        name: "Wall across a gap from a hot back: SciPy; films by correlations of ht",
        trust: Trust::Computed,
        checks: vec![
            Check::table("face of the wall", &face, 0.01, "K"),
            Check::table("heat that leaves the back", &flux, 0.05, "W/m2"),
            // The film is meant to lie on the side of the hotter wall.
            Check::table("cooler than with films by correlations", &cooler, 0.5, "K"),
            Check::table("off from them, backs up to 85 °C", &near, 3.0, "K"),
        ],
    }
}

/// Conductivity, volumetric heat capacity, flux, time.
fn wall(row: &Row<'_>) -> [f64; 4] {
    let capacity = row.number("density_kg_per_m3") * row.number("heat_capacity_j_per_kg_k");
    let conductivity = row.number("conductivity_w_per_m_k");
    [conductivity, capacity, row.number("flux_w_per_m2"), row.number("time_s")]
}

/// All tables.
pub fn all() -> Vec<Publication> {
    vec![
        pure_gas(),
        mixture(),
        flame(),
        fuel(),
        dew_points(),
        friction(),
        nusselt(),
        radiation(),
        atmosphere(),
        conduction(),
        wall_behind(),
    ]
}

#[test]
fn every_table_is_met_within_its_limits() {
    for publication in all() {
        hold(&publication);
    }
}

/// The script that writes a table.
fn script_of(table: &str) -> &'static str {
    match table {
        "height_of_fire" => "independent_model.py",
        "day" => "independent_day.py",
        "wall_behind" => "wall_behind.py",
        _ => "make_tables.py",
    }
}

#[test]
fn every_table_comes_from_its_script_as_it_stands() {
    let mut tables = 0;
    for entry in std::fs::read_dir(folder().join("tables")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_stem().and_then(|name| name.to_str()).unwrap();
        let script = script_of(name);
        let hash = sha256(&std::fs::read(folder().join(script)).unwrap());
        let text = std::fs::read_to_string(&path).unwrap();
        let first = text.lines().next().unwrap_or_default();
        let named = first.strip_prefix("# script-sha256: ");
        assert_eq!(named, Some(hash.as_str()), "{name}: run {script} again");
        tables += 1;
    }
    assert!(tables >= 18);
}

#[test]
fn the_hash_is_that_of_the_standard() {
    // FIPS 180-2, appendix B.1 and B.2.
    assert_eq!(
        sha256(b"abc"),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
    assert_eq!(
        sha256(b"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
    );
}

/// The first 32 bits of the fractions of the roots of the first primes, as FIPS 180-4 defines its
/// constants.
fn prime_root_fractions(count: usize, root: fn(u128) -> u128) -> Vec<u32> {
    let is_prime = |n: &u128| (2..*n).all(|divisor| !n.is_multiple_of(divisor));
    let fraction = |prime| u32::try_from(root(prime) & 0xffff_ffff).unwrap();
    (2..).filter(is_prime).take(count).map(fraction).collect()
}

/// Largest number whose power is at most the target.
fn integer_root(target: u128, power: u32) -> u128 {
    let (mut low, mut high) = (0, 1 << 36);
    while high - low > 1 {
        let middle = u128::midpoint(low, high);
        if middle <= target && u128::pow(middle, power) <= target {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// FIPS 180-4, SHA-256, in hexadecimal.
fn sha256(bytes: &[u8]) -> String {
    let constants = prime_root_fractions(64, |prime| integer_root(prime << 96, 3));
    let mut state = prime_root_fractions(8, |prime| integer_root(prime << 64, 2));
    let mut message = bytes.to_vec();
    message.push(0x80);
    message.resize((message.len() + 8).next_multiple_of(64) - 8, 0);
    let bits = 8 * u64::try_from(bytes.len()).unwrap();
    message.extend(bits.to_be_bytes());
    for block in message.chunks_exact(64) {
        let mut words: Vec<u32> = block
            .chunks_exact(4)
            .map(|word| u32::from_be_bytes(word.try_into().unwrap()))
            .collect();
        for t in 16..64 {
            let [a, b] = [words[t - 15], words[t - 2]];
            let small_0 = a.rotate_right(7) ^ a.rotate_right(18) ^ (a >> 3);
            let small_1 = b.rotate_right(17) ^ b.rotate_right(19) ^ (b >> 10);
            let sum = words[t - 16].wrapping_add(small_0).wrapping_add(words[t - 7]);
            words.push(sum.wrapping_add(small_1));
        }
        let mut working = state.clone();
        for (word, constant) in words.iter().zip(&constants) {
            let (a, b, c, e) = (working[0], working[1], working[2], working[4]);
            let large_1 = e.rotate_right(6) ^ e.rotate_right(11) ^ e.rotate_right(25);
            let choice = (e & working[5]) ^ (!e & working[6]);
            let first = working[7]
                .wrapping_add(large_1)
                .wrapping_add(choice)
                .wrapping_add(*constant)
                .wrapping_add(*word);
            let large_0 = a.rotate_right(2) ^ a.rotate_right(13) ^ a.rotate_right(22);
            let majority = (a & b) ^ (a & c) ^ (b & c);
            working.rotate_right(1);
            working[4] = working[4].wrapping_add(first);
            working[0] = first.wrapping_add(large_0).wrapping_add(majority);
        }
        for (sum, word) in state.iter_mut().zip(working) {
            *sum = sum.wrapping_add(word);
        }
    }
    state.iter().fold(String::new(), |text, word| format!("{text}{word:08x}"))
}
