//! Where the polynomials of one segment are zero.
//!
//! Each curve is monotone between the zeros of the one it is the integral of, so going up from the straight line of the
//! load intensity, every zero has a bracket of its own and none can be missed.

use super::segment::{Curve, Segment, horner};

/// At most five zeros, in rising order.
#[derive(Clone, Copy, Default)]
pub(super) struct Roots {
    values: [f64; 5],
    count: usize,
}

impl Roots {
    pub(super) fn as_slice(&self) -> &[f64] {
        &self.values[..self.count]
    }

    pub(super) fn into_iter(self) -> impl Iterator<Item = f64> {
        self.values.into_iter().take(self.count)
    }

    fn push(&mut self, value: f64) {
        // A polynomial of degree n has no more than n zeros; rounding may pretend one more.
        if let Some(free) = self.values.get_mut(self.count) {
            *free = value;
            self.count += 1;
        }
    }
}

impl Segment {
    /// The local coordinates strictly inside the segment at which a curve crosses or touches zero; a value no
    /// larger than `nothing` counts as zero.
    pub(super) fn roots(&self, curve: Curve, nothing: f64) -> Roots {
        match curve {
            Curve::Shear => {
                let derivative = self.load_intensity().map(|c| -c);
                between(&self.shear(), &derivative, self.length(), &self.turn_of_shear(), nothing)
            }
            Curve::BendingMoment => self.climb(&self.bending_moment(), &self.shear(), Curve::Shear, nothing),
            Curve::Slope => {
                let curvature = self.bending_moment().map(|c| c / self.flexural_rigidity);
                self.climb(&self.slope(), &curvature, Curve::BendingMoment, nothing)
            }
            Curve::Deflection if self.shear_flexibility != 0.0 => {
                zeros(&self.deflection(), self.length(), nothing)
            }
            Curve::Deflection => self.climb(&self.deflection(), &self.slope(), Curve::Slope, nothing),
        }
    }

    /// The zeros of a curve from those of its derivative, the curve `below`.
    fn climb(&self, coefficients: &[f64], derivative: &[f64], below: Curve, nothing: f64) -> Roots {
        // What it could change by is less than what it begins with: no zero, and no need to look below.
        let length = self.length();
        let change = coefficients[1..].iter().rev().fold(0.0, |sum, c| (sum + c.abs()) * length);
        if coefficients[0].abs() > change {
            return Roots::default();
        }
        // Where the curve turns is wanted however small its derivative is beside that of other stretches.
        let turns = self.roots(below, 0.0);
        between(coefficients, derivative, length, &turns, nothing)
    }

    /// The local coordinates strictly inside the segment at which a curve turns; a derivative no larger than `nothing`
    /// counts as zero.
    pub(super) fn turns(&self, curve: Curve, nothing: f64) -> Roots {
        match curve {
            Curve::Shear => self.turn_of_shear(),
            Curve::BendingMoment => self.roots(Curve::Shear, nothing),
            Curve::Slope => self.roots(Curve::BendingMoment, nothing),
            Curve::Deflection if self.shear_flexibility != 0.0 => {
                zeros(&self.axis_slope(), self.length(), nothing)
            }
            Curve::Deflection => self.roots(Curve::Slope, nothing),
        }
    }

    /// Where the load intensity is zero.
    fn turn_of_shear(&self) -> Roots {
        let mut turns = Roots::default();
        let at = -self.intensity_at_start / self.intensity_growth;
        if at > 0.0 && at < self.length() {
            turns.push(at);
        }
        turns
    }

    /// Whether a curve stays the same all over the segment, up to rounding.
    pub(super) fn is_flat(&self, curve: Curve, nothing: f64) -> bool {
        self.end_and_change(curve).1 <= nothing
    }
}

/// The zeros strictly between 0 and `length` of any polynomial of up to the fifth degree, from those of its derivative.
fn zeros(curve: &[f64], length: f64, nothing: f64) -> Roots {
    let mut derivative = [0.0; 5];
    let degree = curve.len().saturating_sub(1).min(derivative.len());
    for (power, coefficient) in derivative.iter_mut().enumerate().take(degree) {
        *coefficient = (power + 1) as f64 * curve[power + 1];
    }
    let derivative = &derivative[..degree];
    let turns = if degree > 1 { zeros(derivative, length, 0.0) } else { Roots::default() };
    between(curve, derivative, length, &turns, nothing)
}

/// The zeros strictly between 0 and `length` of a polynomial that is monotone between `turns`.
fn between(curve: &[f64], derivative: &[f64], length: f64, turns: &Roots, nothing: f64) -> Roots {
    let mut roots = Roots::default();
    let value = |s: f64| {
        let value = horner(curve, s);
        if value.abs() <= nothing { 0.0 } else { value }
    };
    let (mut from, mut at_from) = (0.0, value(0.0));
    for &to in turns.as_slice().iter().chain(&[length]) {
        let at_to = value(to);
        if at_from * at_to < 0.0 {
            roots.push(bracketed(curve, derivative, from, to, at_from));
        }
        if at_to == 0.0 && at_from != 0.0 && to < length {
            roots.push(to);
        }
        (from, at_from) = (to, at_to);
    }
    roots
}

/// The one zero between `low` and `high`: Newton's steps, halving the bracket where they leave it.
fn bracketed(curve: &[f64], derivative: &[f64], mut low: f64, mut high: f64, at_low: f64) -> f64 {
    let mut s = low + (high - low) / 2.0;
    // Halving alone would end after some sixty steps.
    for _ in 0..100 {
        let value = horner(curve, s);
        if value == 0.0 {
            return s;
        }
        if (value < 0.0) == (at_low < 0.0) {
            low = s;
        } else {
            high = s;
        }
        let newton = s - value / horner(derivative, s);
        let next = if newton > low && newton < high { newton } else { low + (high - low) / 2.0 };
        if (next - s).abs() <= f64::EPSILON * s || next == low || next == high {
            return next;
        }
        s = next;
    }
    s
}
