//! The normal distribution.

/// Share of a normal distribution below a number of standard deviations (–).
///
/// P = erfc(-z/2^(1/2))/2
///
/// * `deviations` z (–).
///
/// # Source
///
/// Definition of the complementary error function.
pub fn probability(deviations: f64) -> f64 {
    0.5 * libm::erfc(-deviations / std::f64::consts::SQRT_2)
}

/// Number of standard deviations below which a share of a normal distribution lies (–).
///
/// Quotients of polynomials of the seventh degree, in q = P - 1/2 in the middle and in
/// (-ln P)^(1/2) in the tails; infinite at 0 and 1.
///
/// * `probability` P (–): from 0 to 1.
///
/// # Source
///
/// [`crate::sources::WICHURA_1988`], PPND16, relative accuracy about 1e-16.
pub fn deviations(probability: f64) -> f64 {
    let from_middle = probability - 0.5;
    if from_middle.abs() <= 0.425 {
        let r = 0.180625 - from_middle * from_middle;
        return from_middle * polynomial(&MIDDLE.0, r) / polynomial(&MIDDLE.1, r);
    }
    let tail = if from_middle < 0.0 { probability } else { 1.0 - probability };
    if tail <= 0.0 {
        return f64::INFINITY.copysign(from_middle);
    }
    let r = (-libm::log(tail)).sqrt();
    let (r, (above, below)) = if r <= 5.0 { (r - 1.6, &TAIL) } else { (r - 5.0, &FAR_TAIL) };
    (polynomial(above, r) / polynomial(below, r)).copysign(from_middle)
}

/// Coefficients of a numerator and of a denominator, from the constant upward.
type Quotient = ([f64; 8], [f64; 8]);

const MIDDLE: Quotient = (
    [
        3.3871328727963666080,
        1.3314166789178437745e2,
        1.9715909503065514427e3,
        1.3731693765509461125e4,
        4.5921953931549871457e4,
        6.7265770927008700853e4,
        3.3430575583588128105e4,
        2.5090809287301226727e3,
    ],
    [
        1.0,
        4.2313330701600911252e1,
        6.8718700749205790830e2,
        5.3941960214247511077e3,
        2.1213794301586595867e4,
        3.9307895800092710610e4,
        2.8729085735721942674e4,
        5.2264952788528545610e3,
    ],
);

const TAIL: Quotient = (
    [
        1.42343711074968357734,
        4.63033784615654529590,
        5.76949722146069140550,
        3.64784832476320460504,
        1.27045825245236838258,
        2.41780725177450611770e-1,
        2.27238449892691845833e-2,
        7.74545014278341407640e-4,
    ],
    [
        1.0,
        2.05319162663775882187,
        1.67638483018380384940,
        6.89767334985100004550e-1,
        1.48103976427480074590e-1,
        1.51986665636164571966e-2,
        5.47593808499534494600e-4,
        1.05075007164441684324e-9,
    ],
);

const FAR_TAIL: Quotient = (
    [
        6.65790464350110377720,
        5.46378491116411436990,
        1.78482653991729133580,
        2.96560571828504891230e-1,
        2.65321895265761230930e-2,
        1.24266094738807843860e-3,
        2.71155556874348757815e-5,
        2.01033439929228813265e-7,
    ],
    [
        1.0,
        5.99832206555887937690e-1,
        1.36929880922735805310e-1,
        1.48753612908506148525e-2,
        7.86869131145613259100e-4,
        1.84631831751005468180e-5,
        1.42151175831644588870e-7,
        2.04426310338993978564e-15,
    ],
);

fn polynomial(coefficients: &[f64], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, coefficient| sum * x + coefficient)
}
