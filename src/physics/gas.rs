//! Mixtures of nitrogen, oxygen, carbon dioxide, water vapor and argon as ideal gases.

use super::MOLAR_GAS_CONSTANT;
use super::formula::{Formula, formula};
use crate::sources::{ENERGY_BALANCE, IDEAL_GAS};
use std::ops::RangeInclusive;
use std::sync::LazyLock;

/// The gases of a flue, in the order of every array here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Species {
    /// Nitrogen.
    Nitrogen,
    /// Oxygen.
    Oxygen,
    /// Carbon dioxide.
    CarbonDioxide,
    /// Water vapor.
    Water,
    /// Argon.
    Argon,
}

/// Number of species.
pub const SPECIES: usize = 5;

/// Molar masses (kg/mol), in the order of [`Species`].
pub const MOLAR_MASS: [f64; SPECIES] = [0.0280134, 0.0319988, 0.0440095, 0.0180153, 0.039948];

/// Molar mass of one gas (kg/mol).
pub const fn molar_mass(species: Species) -> f64 {
    let [nitrogen, oxygen, carbon_dioxide, water, argon] = MOLAR_MASS;
    match species {
        Species::Nitrogen => nitrogen,
        Species::Oxygen => oxygen,
        Species::CarbonDioxide => carbon_dioxide,
        Species::Water => water,
        Species::Argon => argon,
    }
}

/// Reference temperature of enthalpies (K).
pub const REFERENCE_TEMPERATURE: f64 = 298.15;

/// Temperatures for which the transport fits were made (K).
pub const TRANSPORT_TEMPERATURE: RangeInclusive<f64> = 250.0..=2000.0;

/// Where the two polynomials of each gas meet (K).
const POLYNOMIAL_SWITCH: f64 = 1000.0;

/// Coefficients a1 to a6 of c_p/R below 1000 K, as printed in GRI-Mech 3.0.
const NASA_LOW: [[f64; 6]; SPECIES] = [
    [3.298677, 1.4082404e-3, -3.963222e-6, 5.641515e-9, -2.444854e-12, -1020.8999],
    [3.78245636, -2.99673416e-3, 9.84730201e-6, -9.68129509e-9, 3.24372837e-12, -1063.94356],
    [2.35677352, 8.98459677e-3, -7.12356269e-6, 2.45919022e-9, -1.43699548e-13, -48371.9697],
    [4.19864056, -2.0364341e-3, 6.52040211e-6, -5.48797062e-9, 1.77197817e-12, -30293.7267],
    [2.5, 0.0, 0.0, 0.0, 0.0, -745.375],
];

/// Coefficients a1 to a6 of c_p/R from 1000 K, as printed in GRI-Mech 3.0.
const NASA_HIGH: [[f64; 6]; SPECIES] = [
    [2.92664, 1.4879768e-3, -5.68476e-7, 1.0097038e-10, -6.753351e-15, -922.7977],
    [3.28253784, 1.48308754e-3, -7.57966669e-7, 2.09470555e-10, -2.16717794e-14, -1088.45772],
    [3.85746029, 4.41437026e-3, -2.21481404e-6, 5.23490188e-10, -4.72084164e-14, -48759.166],
    [3.03399249, 2.17691804e-3, -1.64072518e-7, -9.7041987e-11, 1.68200992e-14, -30004.2971],
    [2.5, 0.0, 0.0, 0.0, 0.0, -745.375],
];

/// A, B, C, D of ln(viscosity) = A ln T + B/T + C/T2 + D (Pa s), see [`pure_viscosity`].
const VISCOSITY_FIT: [[f64; 4]; SPECIES] = [
    [0.648339, 7.70245, -8048.91, -14.5673],
    [0.619744, -36.0217, -3715.46, -14.163],
    [0.559226, -180.072, 8140.95, -13.7887],
    [0.643882, -515.023, 62277.7, -14.1836],
    [0.598033, -77.8884, 514.73, -13.8497],
];

/// A, B, C, D of ln(conductivity) = A ln T + B/T + C/T2 + D (W/mK), see [`pure_conductivity`].
const CONDUCTIVITY_FIT: [[f64; 4]; SPECIES] = [
    [0.760357, 48.2146, -12088.4, -8.0166],
    [0.772796, -2.35228, -5917.05, -7.96772],
    [0.526096, -529.284, 42219.2, -5.79573],
    [1.21109, -293.593, 49939.6, -10.4687],
    [0.590031, -82.0532, 659.468, -7.12793],
];

/// Mole fractions of a mixture, in the order of [`Species`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Composition {
    fractions: [f64; SPECIES],
}

impl Composition {
    /// A mixture from mole amounts in any unit; they are scaled to add up to one.
    pub const fn new(amounts: [f64; SPECIES]) -> Self {
        let [n2, o2, co2, h2o, ar] = amounts;
        let total = n2 + o2 + co2 + h2o + ar;
        Self { fractions: [n2 / total, o2 / total, co2 / total, h2o / total, ar / total] }
    }

    /// Mole fraction of one gas (–).
    pub const fn fraction(&self, species: Species) -> f64 {
        let [n2, o2, co2, h2o, ar] = self.fractions;
        match species {
            Species::Nitrogen => n2,
            Species::Oxygen => o2,
            Species::CarbonDioxide => co2,
            Species::Water => h2o,
            Species::Argon => ar,
        }
    }

    /// Mole fractions in the order of [`Species`] (–).
    pub const fn fractions(&self) -> [f64; SPECIES] {
        self.fractions
    }

    /// Molar mass of the mixture (kg/mol).
    pub fn molar_mass(&self) -> f64 {
        self.fractions.iter().zip(MOLAR_MASS).map(|(x, m)| x * m).sum()
    }
}

/// Dynamic viscosity of a pure gas at low pressure (Pa s).
///
/// ln(viscosity) = A ln T + B/T + C/T2 + D
///
/// * `temperature` (K): within [`TRANSPORT_TEMPERATURE`].
///
/// # Source
///
/// [`crate::sources::PURE_GAS_TRANSPORT`].
pub fn pure_viscosity(species: Species, temperature: f64) -> f64 {
    transport(&VISCOSITY_FIT, species, temperature)
}

/// Thermal conductivity of a pure gas at low pressure (W/mK).
///
/// ln(conductivity) = A ln T + B/T + C/T2 + D
///
/// * `temperature` (K): within [`TRANSPORT_TEMPERATURE`].
///
/// # Source
///
/// [`crate::sources::PURE_GAS_TRANSPORT`].
pub fn pure_conductivity(species: Species, temperature: f64) -> f64 {
    transport(&CONDUCTIVITY_FIT, species, temperature)
}

fn transport(fit: &[[f64; 4]; SPECIES], species: Species, temperature: f64) -> f64 {
    let [nitrogen, oxygen, carbon_dioxide, water, argon] = fit;
    let [a, b, c, d] = match species {
        Species::Nitrogen => nitrogen,
        Species::Oxygen => oxygen,
        Species::CarbonDioxide => carbon_dioxide,
        Species::Water => water,
        Species::Argon => argon,
    };
    let inverse = 1.0 / temperature;
    libm::exp(a * libm::log(temperature) + (b + c * inverse) * inverse + d)
}

const ALL: [Species; SPECIES] = [
    Species::Nitrogen,
    Species::Oxygen,
    Species::CarbonDioxide,
    Species::Water,
    Species::Argon,
];

/// Dynamic viscosity and thermal conductivity of a mixture (Pa s, W/mK).
///
/// viscosity = sum x_i mu_i / sum_j x_j phi_ij,
/// phi_ij = \[1 + (mu_i/mu_j)^(1/2) (M_j/M_i)^(1/4)\]^2 / \[8 (1 + M_i/M_j)\]^(1/2);
/// conductivity likewise with the same phi_ij (Mason and Saxena's rule with a factor of 1; their
/// 1.065, made for unlike gases, puts air 4 % low).
///
/// * `temperature` (K): within [`TRANSPORT_TEMPERATURE`].
///
/// # Source
///
/// [`crate::sources::WILKE_1950`], [`crate::sources::MASON_SAXENA_1958`]. Mason and Saxena's
/// A_ij is written with the viscosity ratio, as Wilke's.
pub fn mixture_transport(composition: &Composition, temperature: f64) -> (f64, f64) {
    PureTransport::at(temperature).mixed(composition)
}

/// What the mixing rules take of the pure gases at one temperature.
#[derive(Clone, Copy)]
struct PureTransport {
    viscosity: [f64; SPECIES],
    conductivity: [f64; SPECIES],
    /// phi_ij by i and j.
    phi: [[f64; SPECIES]; SPECIES],
}

impl PureTransport {
    fn at(temperature: f64) -> Self {
        let of = |species| (pure_viscosity(species, temperature), molar_mass(species));
        let gases = ALL.map(of);
        let phi = gases.map(|(mu_i, m_i)| {
            gases.map(|(mu_j, m_j)| {
                let root = 1.0 + ((mu_i / mu_j) * (m_j / m_i).sqrt()).sqrt();
                root * root / (8.0 * (1.0 + m_i / m_j)).sqrt()
            })
        });
        Self {
            viscosity: gases.map(|(viscosity, _)| viscosity),
            conductivity: ALL.map(|species| pure_conductivity(species, temperature)),
            phi,
        }
    }

    /// Viscosity and conductivity of a mixture (Pa s, W/mK).
    fn mixed(&self, composition: &Composition) -> (f64, f64) {
        let mut mixture = (0.0, 0.0);
        let pure = self.viscosity.iter().zip(&self.conductivity).zip(&self.phi);
        for (x_i, ((mu_i, k_i), phi)) in composition.fractions.iter().zip(pure) {
            let sum: f64 = composition.fractions.iter().zip(phi).map(|(x, phi)| x * phi).sum();
            mixture.0 += x_i * mu_i / sum;
            mixture.1 += x_i * k_i / sum;
        }
        mixture
    }
}

/// The pure gases at the nodes of the interpolation: the same for all mixtures.
static PURE_AT_NODES: LazyLock<[PureTransport; NODES]> =
    LazyLock::new(|| Chebyshev::temperatures().map(PureTransport::at));

/// Nodes of the interpolation of transport properties.
const NODES: usize = 7;
const NODE_COUNT: f64 = 7.0;

/// A polynomial of the root of the temperature, in Chebyshev form over
/// [`TRANSPORT_TEMPERATURE`].
#[derive(Clone, Copy, Debug, PartialEq)]
struct Chebyshev {
    coefficients: [f64; NODES],
}

impl Chebyshev {
    /// cos(pi (k + 1/2) / 7) for k from 0 to 6.
    const ABSCISSAS: [f64; NODES] = [
        0.974927912181823607,
        0.781831482468029809,
        0.433883739117558120,
        0.0,
        -0.433883739117558120,
        -0.781831482468029809,
        -0.974927912181823607,
    ];

    fn root_range() -> (f64, f64) {
        (TRANSPORT_TEMPERATURE.start().sqrt(), TRANSPORT_TEMPERATURE.end().sqrt())
    }

    fn temperatures() -> [f64; NODES] {
        let (low, high) = Self::root_range();
        Self::ABSCISSAS.map(|x| {
            let root = 0.5 * (low + high) + 0.5 * (high - low) * x;
            root * root
        })
    }

    fn through(values: [f64; NODES]) -> Self {
        let mut coefficients = [0.0; NODES];
        for (value, x) in values.into_iter().zip(Self::ABSCISSAS) {
            let (mut previous, mut current) = (1.0, x);
            for (order, coefficient) in coefficients.iter_mut().enumerate() {
                let polynomial = if order == 0 { 1.0 } else { current };
                let weight = if order == 0 { 1.0 } else { 2.0 };
                *coefficient += weight / NODE_COUNT * value * polynomial;
                if order > 0 {
                    (previous, current) = (current, 2.0 * x * current - previous);
                }
            }
        }
        Self { coefficients }
    }

    /// Where the root of a temperature lies between the ends (-1 to 1).
    fn place(root: f64) -> f64 {
        let (low, high) = Self::root_range();
        (2.0 * root.clamp(low, high) - low - high) / (high - low)
    }

    fn at(&self, x: f64) -> f64 {
        let (mut first, mut second) = (0.0, 0.0);
        let [constant, rest @ ..] = &self.coefficients;
        for coefficient in rest.iter().rev() {
            (first, second) = (2.0 * x * first - second + coefficient, first);
        }
        constant + x * first - second
    }
}

/// Polynomials of a mixture: those of its gases, weighted (J/kgK).
#[derive(Clone, Copy, Debug, PartialEq)]
struct Polynomials {
    low: [f64; 6],
    high: [f64; 6],
    reference_enthalpy: f64,
}

impl Polynomials {
    fn mixed(composition: &Composition) -> Self {
        let specific = MOLAR_GAS_CONSTANT / composition.molar_mass();
        let mix = |table: &[[f64; 6]; SPECIES]| {
            let mut mixed = [0.0; 6];
            for (x, row) in composition.fractions.iter().zip(table) {
                for (sum, a) in mixed.iter_mut().zip(row) {
                    *sum += x * a * specific;
                }
            }
            mixed
        };
        let mut polynomials =
            Self { low: mix(&NASA_LOW), high: mix(&NASA_HIGH), reference_enthalpy: 0.0 };
        polynomials.reference_enthalpy = polynomials.enthalpy(REFERENCE_TEMPERATURE);
        polynomials
    }

    const fn at(&self, temperature: f64) -> &[f64; 6] {
        if temperature < POLYNOMIAL_SWITCH { &self.low } else { &self.high }
    }

    fn heat_capacity(&self, t: f64) -> f64 {
        let [a1, a2, a3, a4, a5, _] = self.at(t);
        a1 + t * (a2 + t * (a3 + t * (a4 + t * a5)))
    }

    fn enthalpy(&self, t: f64) -> f64 {
        let [a1, a2, a3, a4, a5, a6] = self.at(t);
        let series = a1 + t * (a2 / 2.0 + t * (a3 / 3.0 + t * (a4 / 4.0 + t * a5 / 5.0)));
        series * t + a6 - self.reference_enthalpy
    }
}

/// Sensible enthalpy of a mixture above 298.15 K (J/kg), for a single use; see [`Gas::enthalpy`].
///
/// # Source
///
/// [`crate::sources::GRI_MECH_THERMO`].
pub fn sensible_enthalpy(composition: &Composition, temperature: f64) -> f64 {
    Polynomials::mixed(composition).enthalpy(temperature)
}

/// Density of an ideal gas (kg/m3).
///
/// rho = p M / (8.314462618 T)
///
/// * `pressure` (Pa), `molar_mass` (kg/mol), `temperature` (K).
///
/// # Source
///
/// [`IDEAL_GAS`].
pub fn density(pressure: f64, molar_mass: f64, temperature: f64) -> f64 {
    pressure * molar_mass / (MOLAR_GAS_CONSTANT * temperature)
}

/// [`density`].
pub const DENSITY: Formula = formula!(
    density: "rho = p M / (8.314462618 T)", IDEAL_GAS,
    "rho" "density" DENSITY;
    pressure "p" "local air pressure" PRESSURE,
    molar_mass "M" "molar mass" MOLAR_MASS,
    temperature "T" "temperature" TEMPERATURE,
);

/// Heat of a stream above that of another temperature (W).
///
/// Q = m (h_1 - h_2)
///
/// * `mass_flow` (kg/s), `hot`, `cold` (J/kg): enthalpies.
///
/// # Source
///
/// [`ENERGY_BALANCE`].
pub fn stream_heat(mass_flow: f64, hot: f64, cold: f64) -> f64 {
    mass_flow * (hot - cold)
}

/// [`stream_heat`].
pub const STREAM_HEAT: Formula = formula!(
    stream_heat: "Q = m (h_1 - h_2)", ENERGY_BALANCE,
    "Q" "heat of the stream" POWER;
    mass_flow "m" "mass flow" MASS_FLOW,
    hot "h_1" "heat in the gas as it is" SPECIFIC_HEAT,
    cold "h_2" "heat in it at the other temperature" SPECIFIC_HEAT,
);

/// A mixture made ready for many evaluations: polynomials of its own for all properties.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    composition: Composition,
    molar_mass: f64,
    polynomials: Polynomials,
    viscosity: Chebyshev,
    conductivity: Chebyshev,
}

impl Gas {
    /// Prepares a mixture.
    pub fn new(composition: Composition) -> Self {
        let molar_mass = composition.molar_mass();
        let polynomials = Polynomials::mixed(&composition);
        // The square root takes out most of the curvature of both properties.
        let mut at_nodes = Chebyshev::temperatures().map(|t| (1.0 / t.sqrt(), 1.0 / t.sqrt()));
        for ((viscosity, conductivity), pure) in at_nodes.iter_mut().zip(&*PURE_AT_NODES) {
            let mixture = pure.mixed(&composition);
            *viscosity *= mixture.0;
            *conductivity *= mixture.1;
        }
        Self {
            composition,
            molar_mass,
            polynomials,
            viscosity: Chebyshev::through(at_nodes.map(|pair| pair.0)),
            conductivity: Chebyshev::through(at_nodes.map(|pair| pair.1)),
        }
    }

    /// Mole fractions.
    pub const fn composition(&self) -> &Composition {
        &self.composition
    }

    /// Molar mass (kg/mol).
    pub const fn molar_mass(&self) -> f64 {
        self.molar_mass
    }

    /// Specific heat capacity at constant pressure (J/kgK).
    ///
    /// c_p/R = a1 + a2 T + a3 T2 + a4 T3 + a5 T4
    ///
    /// * `temperature` (K): 200 to 3500.
    ///
    /// # Source
    ///
    /// [`crate::sources::GRI_MECH_THERMO`].
    pub fn heat_capacity(&self, temperature: f64) -> f64 {
        self.polynomials.heat_capacity(temperature)
    }

    /// Sensible enthalpy above 298.15 K (J/kg).
    ///
    /// H/RT = a1 + a2 T/2 + a3 T2/3 + a4 T3/4 + a5 T4/5 + a6/T
    ///
    /// * `temperature` (K): 200 to 3500.
    ///
    /// # Source
    ///
    /// [`crate::sources::GRI_MECH_THERMO`].
    pub fn enthalpy(&self, temperature: f64) -> f64 {
        self.polynomials.enthalpy(temperature)
    }

    /// Temperature at which the sensible enthalpy above 298.15 K has a value (K).
    ///
    /// Newton's method on a curve whose slope is always positive; limited to 100 to 5000 K.
    ///
    /// * `enthalpy` (J/kg).
    pub fn temperature(&self, enthalpy: f64) -> f64 {
        let mut temperature = REFERENCE_TEMPERATURE + enthalpy / 1100.0;
        for _ in 0..20 {
            temperature = temperature.clamp(100.0, 5000.0);
            let step =
                (enthalpy - self.enthalpy(temperature)) / self.heat_capacity(temperature);
            temperature += step;
            if step.abs() < 1e-9 * temperature {
                break;
            }
        }
        temperature.clamp(100.0, 5000.0)
    }

    /// Density as an ideal gas (kg/m3).
    ///
    /// rho = p M / (R T)
    ///
    /// * `pressure` (Pa), `temperature` (K).
    pub fn density(&self, pressure: f64, temperature: f64) -> f64 {
        density(pressure, self.molar_mass, temperature)
    }

    /// Dynamic viscosity (Pa s): [`mixture_transport`] interpolated, within 0.1 %.
    ///
    /// * `temperature` (K): clamped to [`TRANSPORT_TEMPERATURE`].
    pub fn viscosity(&self, temperature: f64) -> f64 {
        self.transport(temperature).0
    }

    /// Thermal conductivity (W/mK): [`mixture_transport`] interpolated, within 0.1 %.
    ///
    /// * `temperature` (K): clamped to [`TRANSPORT_TEMPERATURE`].
    pub fn conductivity(&self, temperature: f64) -> f64 {
        self.transport(temperature).1
    }

    /// Both at once: [`Self::viscosity`], [`Self::conductivity`].
    pub fn transport(&self, temperature: f64) -> (f64, f64) {
        let root = temperature.sqrt();
        let x = Chebyshev::place(root);
        (self.viscosity.at(x) * root, self.conductivity.at(x) * root)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::air::DRY_AIR;

    #[test]
    fn interpolation_follows_the_mixture_formula() {
        let mixtures = [
            DRY_AIR,
            Composition::new([0.72, 0.09, 0.09, 0.09, 0.01]),
            Composition::new([0.60, 0.0, 0.17, 0.22, 0.01]),
        ];
        for composition in mixtures {
            let gas = Gas::new(composition);
            for step in 0..=70 {
                let t = 250.0 + 25.0 * f64::from(step);
                let (viscosity, conductivity) = mixture_transport(&composition, t);
                assert!((gas.viscosity(t) / viscosity - 1.0).abs() < 1e-3, "viscosity at {t}");
                assert!((gas.conductivity(t) / conductivity - 1.0).abs() < 1e-3, "k at {t}");
            }
        }
    }

    #[test]
    fn temperature_is_the_inverse_of_enthalpy() {
        let gas = Gas::new(DRY_AIR);
        for t in [220.0, 298.15, 600.0, 999.9, 1000.1, 1800.0] {
            assert!((gas.temperature(gas.enthalpy(t)) - t).abs() < 1e-6, "{t}");
        }
    }
}
