//! Functions for the innermost formulas: within 1e-9 of the exact value, several times as fast as
//! those of `libm`, and the same natively and in wasm, since they are sums, products and quotients
//! alone.

/// Adding it leaves the nearest whole number in the lowest bits: 1.5 times 2^52.
const WHOLE: f64 = 6_755_399_441_055_744.0;
/// 2^52, whose lowest bits count by ones.
const ONES: f64 = 4_503_599_627_370_496.0;
/// Bits of a mantissa.
const MANTISSA: u32 = 52;
/// Exponent of one, in place.
const EXPONENT_OF_ONE: u64 = 0x3ff0_0000_0000_0000;
/// What `exp` is held to: beyond, there are no such numbers.
const MOST: f64 = 700.0;

/// Up to here the power series of `expm1` serves.
const SMALL: f64 = 0.3;

/// Power of e (–).
///
/// e^x = 2^k e^r, x = k ln 2 + r, by the power series of r to its eighth term
///
/// * `x` (–): held to -700 to 700.
///
/// # Source
///
/// The power series.
pub fn exp(x: f64) -> f64 {
    let x = x.clamp(-MOST, MOST);
    let shifted = x * std::f64::consts::LOG2_E + WHOLE;
    let r = x - (shifted - WHOLE) * std::f64::consts::LN_2;
    let r2 = r * r;
    let r4 = r2 * r2;
    let low = (1.0 + r) + r2 * (1.0 / 2.0 + r * (1.0 / 6.0));
    let high = (1.0 / 24.0 + r * (1.0 / 120.0)) + r2 * (1.0 / 720.0 + r * (1.0 / 5040.0));
    let series = low + r4 * (high + r4 * (1.0 / 40_320.0));
    let scale = (shifted.to_bits() << MANTISSA).wrapping_add(EXPONENT_OF_ONE);
    series * f64::from_bits(scale)
}

/// Power of e, less 1 (–): as near to the exact value however small the power is.
///
/// e^x - 1
///
/// # Source
///
/// The power series.
pub fn expm1(x: f64) -> f64 {
    if x.abs() > SMALL {
        return exp(x) - 1.0;
    }
    let low = 1.0 + x * (1.0 / 2.0);
    let high = (1.0 / 6.0 + x * (1.0 / 24.0)) + x * x * (1.0 / 120.0 + x * (1.0 / 720.0));
    x * (low + x * x * (high + x * x * (x * x * (1.0 / 5040.0 + x * (1.0 / 40_320.0)))))
}

/// Natural logarithm (–).
///
/// ln x = k ln 2 + 2 artanh((m - 1)/(m + 1)), x = 2^k m, by the power series to its sixth term
///
/// * `x` (–): positive.
///
/// # Source
///
/// The power series.
pub fn ln(x: f64) -> f64 {
    const HALF: u64 = std::f64::consts::FRAC_1_SQRT_2.to_bits();
    const FRACTION: u64 = (1 << MANTISSA) - 1;
    let bits = x.to_bits().wrapping_add(EXPONENT_OF_ONE - HALF);
    let k = f64::from_bits(ONES.to_bits() | (bits >> MANTISSA)) - (ONES + 1023.0);
    let m = f64::from_bits((bits & FRACTION) + HALF);
    let s = (m - 1.0) / (m + 1.0);
    let q = s * s;
    let q2 = q * q;
    let series = (1.0 + q * (1.0 / 3.0))
        + q2 * ((1.0 / 5.0 + q * (1.0 / 7.0)) + q2 * (1.0 / 9.0 + q * (1.0 / 11.0)));
    k * std::f64::consts::LN_2 + 2.0 * s * series
}

/// Decimal logarithm (–).
///
/// log10 x = ln x / ln 10
///
/// * `x` (–): positive.
///
/// # Source
///
/// [`ln`].
pub fn log10(x: f64) -> f64 {
    ln(x) * std::f64::consts::LOG10_E
}

/// Power (–).
///
/// x^n = exp(n ln x)
///
/// * `x` (–): positive.
///
/// # Source
///
/// [`exp`], [`ln`].
pub fn pow(x: f64, power: f64) -> f64 {
    exp(power * ln(x))
}

/// Cube root (–).
///
/// y (y^3 + 2 x)/(2 y^3 + x), twice, from a third of the bits, which is within 4 %
///
/// * `x` (–): 0 is the root of what is not above 0.
///
/// # Source
///
/// Halley's method.
pub fn cbrt(x: f64) -> f64 {
    /// Two thirds of the exponent of one, less what makes the error even.
    const START: u64 = 0x2a9f_7893_0000_0000;
    if x < f64::MIN_POSITIVE {
        return 0.0;
    }
    let mut y = f64::from_bits(x.to_bits() / 3 + START);
    for _ in 0..2 {
        let cube = y * y * y;
        y *= (cube + 2.0 * x) / (2.0 * cube + x);
    }
    y
}

#[cfg(test)]
mod tests {
    use super::*;

    const WITHIN: f64 = 1e-9;

    /// Numbers from 1e-30 to 1e30, evenly by their logarithm, with what lies around a power of two.
    fn numbers() -> impl Iterator<Item = f64> {
        let even = (-30_000..=30_000).map(|i| libm::exp10(f64::from(i) / 1000.0));
        let around = (-60..=60).flat_map(|k| {
            [1.0 - 1e-12, 1.0, 1.0 + 1e-12].map(|x| x * libm::exp2(f64::from(k)))
        });
        even.chain(around)
    }

    #[test]
    fn powers_of_e_are_those_of_libm() {
        for i in -69_900..=69_900 {
            let x = f64::from(i) / 100.0 + 1e-5;
            assert!((exp(x) / libm::exp(x) - 1.0).abs() < WITHIN, "{x}");
        }
        for i in -6000..=6000 {
            for x in [f64::from(i) / 1000.0 + 1e-6, f64::from(i) * 1e-9 + 1e-12] {
                assert!((expm1(x) / libm::expm1(x) - 1.0).abs() < WITHIN, "{x}");
            }
        }
        assert!(exp(-1e9) < 1e-300 && exp(1e9) > 1e300 && exp(f64::NAN).is_nan());
    }

    #[test]
    fn logarithms_are_those_of_libm() {
        for x in numbers() {
            let exact = libm::log(x);
            assert!((ln(x) - exact).abs() <= WITHIN * exact.abs(), "{x}: {}", ln(x));
            let exact = libm::log10(x);
            assert!((log10(x) - exact).abs() <= WITHIN * exact.abs(), "{x}: {}", log10(x));
        }
    }

    #[test]
    fn cube_roots_and_powers_are_those_of_libm() {
        for x in numbers() {
            assert!((cbrt(x) / libm::cbrt(x) - 1.0).abs() < WITHIN, "{x}: {}", cbrt(x));
            for power in [-1.4, 0.215, 2.76, 10.4] {
                let exact = libm::pow(x, power);
                let near = (pow(x, power) / exact - 1.0).abs() < WITHIN;
                assert!(near || !(1e-300..1e300).contains(&exact), "{x}: {power}");
            }
        }
        assert!(cbrt(0.0).abs() < f64::MIN_POSITIVE);
    }
}
