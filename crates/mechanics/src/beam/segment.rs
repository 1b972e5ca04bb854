//! One stretch of the beam between two neighbouring breakpoints, where every curve is one polynomial.

/// A curve along the beam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Curve {
    /// Shear force V, N.
    Shear,
    /// Bending moment M, N m.
    BendingMoment,
    /// Slope, rad: by how much the section has turned. Only where shear bends nothing is it the slope of the axis as well.
    Slope,
    /// Deflection, m.
    Deflection,
}

impl Curve {
    /// All four, from the load's side to the deflection's.
    pub const ALL: [Curve; 4] = [Curve::Shear, Curve::BendingMoment, Curve::Slope, Curve::Deflection];
}

/// A stretch of the beam on which the load intensity is one straight line, and V, M, slope and deflection
/// are one polynomial each in the local coordinate `s = x - from`, `0 <= s <= length()`.
///
/// Signs and units as in the crate's root. Only the values at its beginning are kept; the rest follows by
/// integrating `V' = -w`, `M' = V`, `slope' = M / (E I)`, `deflection' = slope - V f / (G A)`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// Station of its left end, m.
    pub from: f64,
    /// Station of its right end, m.
    pub to: f64,
    /// Load intensity at its left end, N/m, positive down.
    pub intensity_at_start: f64,
    /// By how much the intensity grows per metre, N/m².
    pub intensity_growth: f64,
    /// Shear force just right of its left end, N.
    pub shear_at_start: f64,
    /// Bending moment just right of its left end, N m.
    pub bending_moment_at_start: f64,
    /// Slope just right of its left end, rad.
    pub slope_at_start: f64,
    /// Deflection of its left end, m.
    pub deflection_at_start: f64,
    /// Flexural rigidity `E I`, N m².
    pub flexural_rigidity: f64,
    /// Slope of the axis against the section under a unit of shear force, `f / (G A)`, 1/N; 0 where shear is left out.
    pub shear_flexibility: f64,
}

impl Segment {
    /// Its length, m.
    pub fn length(&self) -> f64 {
        self.to - self.from
    }

    /// Load intensity in N/m, positive down: coefficients of `1, s`.
    pub fn load_intensity(&self) -> [f64; 2] {
        [self.intensity_at_start, self.intensity_growth]
    }

    /// Shear force in N: coefficients of `1, s, s²`.
    pub fn shear(&self) -> [f64; 3] {
        [self.shear_at_start, -self.intensity_at_start, -self.intensity_growth / 2.0]
    }

    /// Bending moment in N m: coefficients of `1, s, s², s³`.
    pub fn bending_moment(&self) -> [f64; 4] {
        [
            self.bending_moment_at_start,
            self.shear_at_start,
            -self.intensity_at_start / 2.0,
            -self.intensity_growth / 6.0,
        ]
    }

    /// Slope in rad: coefficients of `1, s, ... s⁴`.
    pub fn slope(&self) -> [f64; 5] {
        let rigidity = self.flexural_rigidity;
        let [m0, m1, m2, m3] = self.bending_moment();
        [
            self.slope_at_start,
            m0 / rigidity,
            m1 / (2.0 * rigidity),
            m2 / (3.0 * rigidity),
            m3 / (4.0 * rigidity),
        ]
    }

    /// Slope of the axis in rad, of which the deflection is the integral: coefficients of `1, s, ... s⁴`.
    pub fn axis_slope(&self) -> [f64; 5] {
        let mut slope = self.slope();
        for (of_section, shear) in slope.iter_mut().zip(self.shear()) {
            *of_section -= self.shear_flexibility * shear;
        }
        slope
    }

    /// Deflection in m, positive up: coefficients of `1, s, ... s⁵`.
    pub fn deflection(&self) -> [f64; 6] {
        let [t0, t1, t2, t3, t4] = self.axis_slope();
        [self.deflection_at_start, t0, t1 / 2.0, t2 / 3.0, t3 / 4.0, t4 / 5.0]
    }

    /// The value of a curve at the local coordinate `s` in m, in the curve's unit.
    pub fn value(&self, curve: Curve, s: f64) -> f64 {
        match curve {
            Curve::Shear => horner(&self.shear(), s),
            Curve::BendingMoment => horner(&self.bending_moment(), s),
            Curve::Slope => horner(&self.slope(), s),
            Curve::Deflection => horner(&self.deflection(), s),
        }
    }
}

/// The value at `s` of the polynomial with these coefficients of `1, s, s², ...`.
pub(super) fn horner(coefficients: &[f64], s: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, &c| sum * s + c)
}

impl Segment {
    /// A curve's value at the right end, and the sum of the sizes of the terms that it changed by.
    pub(super) fn end_and_change(&self, curve: Curve) -> (f64, f64) {
        let length = self.length();
        let add_up = |coefficients: &[f64]| {
            let sizes = coefficients[1..].iter().rev().fold(0.0, |sum, c| (sum + c.abs()) * length);
            (horner(coefficients, length), sizes)
        };
        match curve {
            Curve::Shear => add_up(&self.shear()),
            Curve::BendingMoment => add_up(&self.bending_moment()),
            Curve::Slope => add_up(&self.slope()),
            Curve::Deflection => add_up(&self.deflection()),
        }
    }
}
