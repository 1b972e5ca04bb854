//! Rounding to figures or to places, on the exact decimal value of a float, by a named published rule.

/// How many figures a computed value shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figures {
    /// So many significant figures; held to 1 to 15.
    Significant(u8),
    /// Three, and four when the first is 1: the habit of engineering textbooks.
    ThreeOrFour,
    /// So many decimals; held to 0 to 12.
    Decimals(u8),
}

impl Default for Figures {
    fn default() -> Self {
        Self::Significant(3)
    }
}

/// What becomes of a value that lies halfway between two neighbours.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RoundingRule {
    /// To the even neighbour.
    ///
    /// ASTM E29, clause 6.4 (rounding method); also ISO 80000-1:2009, annex B, rule A.
    #[default]
    HalfToEven,
    /// Away from zero, as commonly taught; ISO 80000-1:2009, annex B, rule B for positive values.
    HalfAwayFromZero,
}
