//! The transcendental functions, from one place: the same bits natively and in WebAssembly.

/// Sine of an angle in rad.
pub fn sin(x: f64) -> f64 {
    libm::sin(x)
}

/// Cosine of an angle in rad.
pub fn cos(x: f64) -> f64 {
    libm::cos(x)
}

/// Arc cosine, in rad; the argument is held to [-1, 1], where rounding may have pushed it out.
pub fn acos(x: f64) -> f64 {
    libm::acos(x.clamp(-1.0, 1.0))
}

/// Arc sine, in rad; the argument is held to [-1, 1], where rounding may have pushed it out.
pub fn asin(x: f64) -> f64 {
    libm::asin(x.clamp(-1.0, 1.0))
}

/// Angle of the point (x, y) from the x axis, counter-clockwise, in rad, in (-π, π].
pub fn atan2(y: f64, x: f64) -> f64 {
    libm::atan2(y, x)
}

/// Length of the vector (x, y).
pub fn hypot(x: f64, y: f64) -> f64 {
    libm::hypot(x, y)
}

/// Common logarithm.
pub fn log10(x: f64) -> f64 {
    libm::log10(x)
}

/// `x` to the real power `p`.
pub fn pow(x: f64, p: f64) -> f64 {
    libm::pow(x, p)
}

/// Cube root.
pub fn cbrt(x: f64) -> f64 {
    libm::cbrt(x)
}

/// e to the power `x`.
pub fn exp(x: f64) -> f64 {
    libm::exp(x)
}

/// Natural logarithm.
pub fn ln(x: f64) -> f64 {
    libm::log(x)
}

/// Hyperbolic tangent.
pub fn tanh(x: f64) -> f64 {
    libm::tanh(x)
}

/// Complement of the error function: 2/√π times the integral of exp(-t²) from `x` on.
pub fn erfc(x: f64) -> f64 {
    libm::erfc(x)
}
