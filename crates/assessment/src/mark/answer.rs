//! What a student answered to one part.

/// What a student answered to one part, as it was read.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// Nothing.
    Blank,
    /// A number with its unit: in SI.
    Value(Written),
    /// A number without any unit: as it stands. It is taken in the part's own unit, see [`super::Units`].
    Bare(Written),
    /// A number with the unit of another kind of quantity, `12 kN` for a stress: as it stands, without that unit.
    OtherKind(Written),
    /// One of the values to choose from, by its place among [`crate::set::ChoicePart::alternatives`], from 0.
    Choice(usize),
    /// What no number can be read from; a person looks at it.
    Unreadable(String),
}

/// A finite number as it was written down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Written {
    number: f64,
    half_place: Option<f64>,
}

impl Written {
    /// A number, and half a unit of its last written figure in the same unit: 0.05 of `12.0`, 0.5 of `12`. `None` for the half unit
    /// where nothing is known of how it was written.
    ///
    /// Nothing of what is not finite, and of half a unit that is not positive.
    pub fn new(number: f64, half_place: Option<f64>) -> Option<Self> {
        let sound = half_place.is_none_or(|half| half.is_finite() && half > 0.0);
        (number.is_finite() && sound).then_some(Self { number, half_place })
    }

    /// The number.
    pub fn number(self) -> f64 {
        self.number
    }

    /// Half a unit of the last written figure.
    pub fn half_place(self) -> Option<f64> {
        self.half_place
    }

    /// The same in another unit, of which one is `factor` of the present one. Nothing where that is too large to be held.
    pub(super) fn times(self, factor: f64) -> Option<Self> {
        Self::new(self.number * factor, self.half_place.map(|half| half * factor))
    }
}
