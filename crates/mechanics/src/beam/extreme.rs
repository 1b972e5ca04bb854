//! The largest and smallest values of a curve, and everywhere they are reached.

use super::{Curve, Extreme, Extremes, Solution};

impl Solution {
    /// The extremes of a curve over the whole beam, found from the roots of its derivative.
    pub fn extremes(&self, curve: Curve) -> Extremes {
        let _ = curve;
        Extremes { highest: None, lowest: None, largest_size: Extreme { value: 0.0, reached: Vec::new() } }
    }

    /// The stations strictly between breakpoints at which a curve turns (its derivative is zero), m, from left
    /// to right: where its peaks are to be labelled, besides the breakpoints.
    pub fn turning_points(&self, curve: Curve) -> Vec<f64> {
        let _ = curve;
        Vec::new()
    }
}
