//! Radiation of carbon dioxide and water vapor, and its exchange with walls.

use super::{OutOfRange, STEFAN_BOLTZMANN, quick, require};
use crate::sources::SMITH_1982;
use std::ops::RangeInclusive;

/// Lowest temperature of Leckner's charts (K); below it the emissivity at this temperature with
/// the same pressure path is used, which is continuous and, at a few W/m2K, small.
pub const LECKNER_TEMPERATURE: RangeInclusive<f64> = 400.0..=2500.0;
/// Temperatures of [`emissivity_smith`] (K).
pub const SMITH_TEMPERATURE: RangeInclusive<f64> = 600.0..=2400.0;
/// Pressure paths of [`emissivity_smith`] (atm m).
pub const SMITH_PRESSURE_PATH: RangeInclusive<f64> = 0.001..=10.0;

const PASCALS_PER_BAR: f64 = 1e5;
/// Bar centimeters per pascal meter.
const BAR_CENTIMETERS: f64 = 100.0 / PASCALS_PER_BAR;

/// State of a radiating gas volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Volume {
    /// Partial pressure of water vapor (Pa).
    pub water_pressure: f64,
    /// Partial pressure of carbon dioxide (Pa).
    pub carbon_dioxide_pressure: f64,
    /// Total pressure (Pa).
    pub pressure: f64,
    /// Mean beam length (m).
    pub beam_length: f64,
}

/// The parts of a gas emissivity (–).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Emissivity {
    /// Of water vapor alone.
    pub water: f64,
    /// Of carbon dioxide alone.
    pub carbon_dioxide: f64,
    /// Taken off where the bands overlap.
    pub overlap: f64,
}

impl Emissivity {
    /// Emissivity of the mixture (–).
    pub fn total(&self) -> f64 {
        (self.water + self.carbon_dioxide - self.overlap).max(0.0)
    }
}

/// Emissivity of water vapor at 1 bar and vanishing partial pressure (–).
///
/// ln e0 = sum c_ji (T/1000)^j (log10 pL)^i
///
/// * `pressure_path` (bar cm), `temperature` (K).
///
/// # Source
///
/// [`crate::sources::LECKNER_1972`].
pub fn emissivity_water_leckner(pressure_path: f64, temperature: f64) -> f64 {
    water_zero(quick::log10(pressure_path), temperature / 1000.0)
}

fn water_zero(l: f64, t: f64) -> f64 {
    let constant = -2.2118 + t * (-1.1987 + t * 0.035596);
    let linear = 0.85667 + t * (0.93048 - t * 0.14391);
    let square = -0.10838 + t * (-0.17156 + t * 0.045915);
    quick::exp(constant + l * (linear + l * square))
}

/// Emissivity of carbon dioxide at 1 bar and vanishing partial pressure (–).
///
/// ln e0 = sum c_ji (T/1000)^j (log10 pL)^i
///
/// * `pressure_path` (bar cm), `temperature` (K).
///
/// # Source
///
/// [`crate::sources::LECKNER_1972`].
pub fn emissivity_carbon_dioxide_leckner(pressure_path: f64, temperature: f64) -> f64 {
    carbon_dioxide_zero(quick::log10(pressure_path), temperature / 1000.0)
}

fn carbon_dioxide_zero(l: f64, t: f64) -> f64 {
    let constant = -3.9893 + t * (2.7669 + t * (-2.1081 + t * 0.39163));
    let linear = 1.2710 + t * (-1.1090 + t * (1.0195 - t * 0.21897));
    let square = -0.23678 + t * (0.19731 + t * (-0.19544 + t * 0.044644));
    quick::exp(constant + l * (linear + l * square))
}

/// Emissivity of a mixture of water vapor and carbon dioxide in air (–).
///
/// e = e_w + e_c - overlap, each with its pressure correction
/// e/e0 = 1 - (a-1)(1-P)/(a+b-1+P) exp\[-c log10((pL)_m/pL)^2\];
/// overlap = \[z/(10.7 + 101 z) - 0.0089 z^10.4\] (log10 pL)^2.76
///
/// * `temperature` (K): held to [`LECKNER_TEMPERATURE`].
///
/// # Source
///
/// [`crate::sources::LECKNER_1972`].
pub fn emissivity_leckner(volume: &Volume, temperature: f64) -> Emissivity {
    Radiator::new(volume).emissivity(temperature, 0.0)
}

/// Absorptivity of the gas for radiation from a wall (–).
///
/// alpha = (T_g/T_w)^(1/2) e(T_w, pL T_w/T_g)
///
/// * `gas_temperature`, `wall_temperature` (K).
///
/// # Source
///
/// [`crate::sources::LECKNER_1972`], form of Modest.
pub fn absorptivity_leckner(
    volume: &Volume,
    gas_temperature: f64,
    wall_temperature: f64,
) -> f64 {
    Radiator::new(volume).absorptivity(gas_temperature, wall_temperature)
}

/// log10 of 13.2, 0.054 and 0.225: paths of the largest pressure correction.
const LOG_WATER_PATH: f64 = 1.1205739312058498;
const LOG_CARBON_PATH_COLD: f64 = -1.267606240177031;
const LOG_CARBON_PATH_HOT: f64 = -0.6478174818886375;

/// log10 of a path in bar cm below which a gas radiates nothing: an emissivity of 1e-6 or less.
const ABSENT: f64 = -6.0;

/// A radiating gas volume made ready for many evaluations of [`emissivity_leckner`]: what does
/// not change with temperature is kept.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Radiator {
    /// Pressures (bar).
    pressure: f64,
    water_pressure: f64,
    carbon_dioxide_pressure: f64,
    /// log10 of the pressure paths in bar cm.
    water_log: f64,
    carbon_log: f64,
    sum_log: f64,
    overlap_factor: f64,
}

impl Radiator {
    /// Prepares a volume.
    pub fn new(volume: &Volume) -> Self {
        let path = |partial: f64| (partial * volume.beam_length * BAR_CENTIMETERS).max(1e-9);
        let sum = volume.water_pressure + volume.carbon_dioxide_pressure;
        let z = (volume.water_pressure / sum.max(1e-9)).max(1e-6);
        Self {
            pressure: volume.pressure / PASCALS_PER_BAR,
            water_pressure: volume.water_pressure / PASCALS_PER_BAR,
            carbon_dioxide_pressure: volume.carbon_dioxide_pressure / PASCALS_PER_BAR,
            water_log: quick::log10(path(volume.water_pressure)),
            carbon_log: quick::log10(path(volume.carbon_dioxide_pressure)),
            sum_log: quick::log10(path(sum)),
            overlap_factor: z / (10.7 + 101.0 * z) - 0.0089 * quick::pow(z, 10.4),
        }
    }

    /// See [`absorptivity_leckner`].
    pub fn absorptivity(&self, gas_temperature: f64, wall_temperature: f64) -> f64 {
        let ratio = wall_temperature / gas_temperature;
        self.emissivity(wall_temperature, quick::log10(ratio)).total() / ratio.sqrt()
    }

    /// See [`emissivity_leckner`]; `log_scale` is the log10 of a factor on the paths.
    pub fn emissivity(&self, temperature: f64, log_scale: f64) -> Emissivity {
        let (low, high) = (*LECKNER_TEMPERATURE.start(), *LECKNER_TEMPERATURE.end());
        let t = temperature.clamp(low, high) / 1000.0;
        let log_t = quick::log10(t);
        Emissivity {
            water: self.water(self.water_log + log_scale, t, log_t),
            carbon_dioxide: self.carbon_dioxide(self.carbon_log + log_scale, t, log_t),
            overlap: self.overlap(self.sum_log + log_scale),
        }
    }

    fn water(&self, path_log: f64, t: f64, log_t: f64) -> f64 {
        if path_log < ABSENT {
            return 0.0;
        }
        let correction = PressureCorrection {
            effective: self.pressure + 2.56 * self.water_pressure / t.sqrt(),
            log_path_ratio: LOG_WATER_PATH + 2.0 * log_t - path_log,
            a: if t < 0.75 { 2.144 } else { 1.888 - 2.053 * log_t },
            b: 1.10 * ten_to(-1.4 * log_t),
            c: 0.5,
        };
        at_path(path_log, |l| water_zero(l, t)) * correction.factor()
    }

    fn carbon_dioxide(&self, path_log: f64, t: f64, log_t: f64) -> f64 {
        if path_log < ABSENT {
            return 0.0;
        }
        let correction = PressureCorrection {
            effective: self.pressure + 0.28 * self.carbon_dioxide_pressure,
            log_path_ratio: if t < 0.7 {
                LOG_CARBON_PATH_COLD - 2.0 * log_t
            } else {
                LOG_CARBON_PATH_HOT + 2.0 * log_t
            } - path_log,
            a: 1.0 + 0.1 * ten_to(-1.45 * log_t),
            b: 0.23,
            c: 1.47,
        };
        at_path(path_log, |l| carbon_dioxide_zero(l, t)) * correction.factor()
    }

    fn overlap(&self, path_log: f64) -> f64 {
        if path_log <= 0.0 {
            return 0.0;
        }
        (self.overlap_factor * quick::pow(path_log, 2.76)).max(0.0)
    }
}

/// The charts begin at about 0.1 bar cm; below, emissivity falls in proportion to the path.
fn at_path(path_log: f64, chart: impl Fn(f64) -> f64) -> f64 {
    if path_log < -1.0 { chart(-1.0) * ten_to(path_log + 1.0) } else { chart(path_log) }
}

fn ten_to(power: f64) -> f64 {
    quick::exp(power * std::f64::consts::LN_10)
}

struct PressureCorrection {
    effective: f64,
    log_path_ratio: f64,
    a: f64,
    b: f64,
    c: f64,
}

impl PressureCorrection {
    fn factor(&self) -> f64 {
        let Self { effective, log_path_ratio, a, b, c } = self;
        1.0 - (a - 1.0) * (1.0 - effective) / (a + b - 1.0 + effective)
            * quick::exp(-c * log_path_ratio * log_path_ratio)
    }
}

/// Emissivity of combustion gas with equal parts of water vapor and carbon dioxide (–).
///
/// e = sum a_i(T) \[1 - exp(-k_i pL)\]
///
/// * `pressure_path` (atm m): of both gases together, `temperature` (K).
///
/// # Errors
///
/// [`OutOfRange`] outside [`SMITH_TEMPERATURE`] or [`SMITH_PRESSURE_PATH`].
///
/// # Source
///
/// [`SMITH_1982`].
pub fn emissivity_smith(pressure_path: f64, temperature: f64) -> Result<f64, OutOfRange> {
    const ROWS: [[f64; 5]; 3] = [
        [0.4303, 5.150e-1, -2.303e-4, 9.779e-8, -1.494e-11],
        [7.055, 7.749e-2, 3.399e-4, -2.297e-7, 3.770e-11],
        [178.1, 1.907e-1, -1.824e-4, 5.608e-8, -5.122e-12],
    ];
    require("temperature", temperature, SMITH_TEMPERATURE, &SMITH_1982)?;
    require("pressure path", pressure_path, SMITH_PRESSURE_PATH, &SMITH_1982)?;
    let t = temperature;
    Ok(ROWS
        .iter()
        .map(|[k, b1, b2, b3, b4]| {
            (b1 + t * (b2 + t * (b3 + t * b4))) * (1.0 - quick::exp(-k * pressure_path))
        })
        .sum())
}

/// Mean beam length of a gas volume (m).
///
/// L = 3.6 V / A
///
/// * `volume_over_area` (m): a quarter of the hydraulic diameter in a long duct.
///
/// # Source
///
/// [`crate::sources::HOTTEL_SAROFIM_1967`].
pub fn mean_beam_length(volume_over_area: f64) -> f64 {
    3.6 * volume_over_area
}

/// Net radiation from a gas to a gray wall that surrounds it (W/m2).
///
/// q = sigma (e_w + 1)/2 (e_g T_g^4 - alpha_g T_w^4)
///
/// * `wall_emissivity` (–): above 0.8.
/// * `gas_emissivity`, `gas_absorptivity` (–), `gas_temperature`, `wall_temperature` (K).
///
/// # Source
///
/// [`crate::sources::HOTTEL_SAROFIM_1967`].
pub fn gas_to_wall(
    wall_emissivity: f64,
    gas_emissivity: f64,
    gas_absorptivity: f64,
    gas_temperature: f64,
    wall_temperature: f64,
) -> f64 {
    let fourth = |t: f64| t * t * t * t;
    STEFAN_BOLTZMANN
        * 0.5
        * (wall_emissivity + 1.0)
        * (gas_emissivity * fourth(gas_temperature)
            - gas_absorptivity * fourth(wall_temperature))
}
