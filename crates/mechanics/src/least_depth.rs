//! The least depth of a rectangular beam for allowable bending and shear stresses: an exercise of the unit, not advice on a
//! real beam.

/// What decides the least depth.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Governing {
    /// The bending stress.
    Bending,
    /// The shear stress.
    Shear,
}

/// The least depth of a rectangle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeastDepth {
    /// For the bending stress, m: `√(6 M / (b sigma))`.
    pub by_bending: f64,
    /// For the shear stress, m: `3 V / (2 b tau)`.
    pub by_shear: f64,
    /// The greater of the two, m.
    pub depth: f64,
    /// Which of the two it is.
    pub governing: Governing,
}

/// The least depth of a rectangle of a breadth in m under the largest bending moment (N m) and shear force (N) of a beam,
/// sizes only, for allowable stresses in Pa. None where breadth or stresses are not greater than zero, or any
/// value is no number.
///
/// # Source
/// `sigma = 6 M / (b h²)` and `tau = 3 V / (2 b h)`, solved for h; any textbook.
pub fn least_depth(
    breadth: f64,
    bending_moment: f64,
    shear_force: f64,
    allowable_bending_stress: f64,
    allowable_shear_stress: f64,
) -> Option<LeastDepth> {
    let positive = [breadth, allowable_bending_stress, allowable_shear_stress];
    let finite = [bending_moment, shear_force];
    if !(positive.iter().all(|value| *value > 0.0 && value.is_finite())
        && finite.iter().all(|value| value.is_finite()))
    {
        return None;
    }
    let by_bending = (6.0 * bending_moment.abs() / (breadth * allowable_bending_stress)).sqrt();
    let by_shear = 1.5 * shear_force.abs() / (breadth * allowable_shear_stress);
    let governing = if by_shear > by_bending { Governing::Shear } else { Governing::Bending };
    Some(LeastDepth { by_bending, by_shear, depth: by_bending.max(by_shear), governing })
}
