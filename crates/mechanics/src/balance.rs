//! What a balance leaves over, beside the bound that it must meet.

/// What is left of a sum that ought to be zero, with the largest term that went into it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Residual {
    /// What is left, in the unit of the sum.
    pub value: f64,
    /// Size of the largest term, in the same unit; zero where there is nothing to balance.
    pub scale: f64,
}

impl Residual {
    /// A balance closes when its residual is at most this part of its scale.
    // Sums of some hundred terms in f64 stay below 1e-13 of their largest one; 1e-9 leaves room for
    // ill-conditioned beams and still shows any slip of the mechanics.
    pub const BOUND: f64 = 1e-9;

    /// The residual of a sum: its value and the largest of its terms.
    pub fn of(terms: &[f64]) -> Self {
        Self {
            value: terms.iter().sum(),
            scale: terms.iter().fold(0.0, |most: f64, term| most.max(term.abs())),
        }
    }

    /// The residual of `found` against what it ought to be.
    pub fn between(found: f64, wanted: f64) -> Self {
        Self::of(&[found, -wanted])
    }

    /// Residual over scale; zero where both are zero.
    pub fn relative(&self) -> f64 {
        if self.scale > 0.0 { self.value.abs() / self.scale } else { self.value.abs() }
    }

    /// Whether it meets [`Residual::BOUND`].
    pub fn closes(&self) -> bool {
        self.value.abs() <= Self::BOUND * self.scale
    }
}
