//! A stretch of values that count as one.

use serde::Serialize;

/// All values from `lower` to `upper`, both included.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Band {
    /// The least, SI.
    pub lower: f64,
    /// The greatest, SI; not below `lower`.
    pub upper: f64,
}

impl Band {
    /// Values no farther than `half_width` (not negative) from `middle`, both SI.
    pub fn about(middle: f64, half_width: f64) -> Self {
        Self { lower: middle - half_width, upper: middle + half_width }
    }

    /// Whether a value lies in it. A bound that is met exactly is met: the last bits of a converted answer do not decide.
    pub fn contains(&self, value: f64) -> bool {
        let slack = 1e-12 * self.lower.abs().max(self.upper.abs());
        value >= self.lower - slack && value <= self.upper + slack
    }

    /// The same values with the other sign.
    pub fn mirrored(&self) -> Self {
        Self { lower: -self.upper, upper: -self.lower }
    }

    /// What is left of it beside another band, around a value that lies outside of that one.
    pub(super) fn beside(mut self, other: Self, value: f64) -> Self {
        if value > other.upper {
            self.lower = self.lower.max(other.upper);
        } else {
            self.upper = self.upper.min(other.lower);
        }
        self
    }
}
