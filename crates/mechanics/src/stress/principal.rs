//! Principal stresses at a point of the beam.

use crate::real;

/// The principal stresses of a plane state of stress.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrincipalStresses {
    /// The algebraically largest, Pa, tension positive.
    pub largest: f64,
    /// The algebraically smallest, Pa.
    pub smallest: f64,
    /// Largest shear stress in the plane, Pa.
    pub largest_shear: f64,
    /// Direction of the largest principal stress, counter-clockwise from the beam's axis, rad, in (-π/2, π/2].
    pub angle: f64,
}

impl PrincipalStresses {
    /// Of the normal stress along the beam and the shear stress on the face towards +x (positive up), Pa; no stress
    /// across the beam.
    ///
    /// # Source
    /// Mohr's circle: `sigma / 2 ± √((sigma / 2)² + tau²)`, any textbook.
    pub fn of(normal: f64, shear: f64) -> Self {
        let middle = 0.5 * normal;
        let radius = real::hypot(middle, shear);
        let angle = if radius == 0.0 { 0.0 } else { 0.5 * real::atan2(shear, middle) };
        // Where the two parts cancel, the smaller one comes from the product of the two, -tau².
        let (largest, smallest) = if middle > 0.0 {
            (middle + radius, -shear * (shear / (middle + radius)))
        } else if middle < 0.0 {
            (shear * (shear / (radius - middle)), middle - radius)
        } else {
            (radius, -radius)
        };
        Self { largest, smallest, largest_shear: radius, angle }
    }
}
