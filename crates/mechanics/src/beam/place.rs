//! Where something is found along the beam.

use super::Side;

/// A station, and the side of it where the curve jumps there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Position, m.
    pub station: f64,
    /// The side meant; `None` where the curve has one value there. At an end of the beam always the inner side.
    pub side: Option<Side>,
}

impl Place {
    /// The side to ask a curve for: the one meant, or either.
    pub fn any_side(&self) -> Side {
        self.side.unwrap_or(Side::Left)
    }
}

/// Where a value is reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Reached {
    /// At one place.
    At(Place),
    /// All over a stretch.
    Over {
        /// Its left end, m.
        from: f64,
        /// Its right end, m.
        to: f64,
    },
}

/// A largest or smallest value, and everywhere it is reached.
#[derive(Clone, Debug, PartialEq)]
pub struct Extreme {
    /// The value, in the curve's unit, with its sign.
    pub value: f64,
    /// Every place or stretch where it is reached, from left to right; values that differ by rounding only
    /// count as equal.
    pub reached: Vec<Reached>,
}

/// The extremes of one curve over the whole beam, both limits at jumps and the inner limits at the ends
/// taken into account.
#[derive(Clone, Debug, PartialEq)]
pub struct Extremes {
    /// The largest positive value; `None` where the curve is nowhere positive.
    pub highest: Option<Extreme>,
    /// The most negative value; `None` where the curve is nowhere negative.
    pub lowest: Option<Extreme>,
    /// The largest size (its value is not negative), at all the places of either sign.
    pub largest_size: Extreme,
}

/// Where a curve is zero inside the beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Zero {
    /// At a station, or on one side of it where the curve jumps.
    At {
        /// Where.
        place: Place,
        /// Whether the curve has opposite signs on the two sides; where M has, this is a contraflexure.
        changes_sign: bool,
    },
    /// The curve jumps across zero there.
    Across {
        /// Where, m.
        station: f64,
    },
    /// All over a stretch.
    Over {
        /// Its left end, m.
        from: f64,
        /// Its right end, m.
        to: f64,
    },
}
