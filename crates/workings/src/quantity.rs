//! A number with its dimension, and arithmetic that keeps the dimensions.

use crate::dimension::Dimension;
use std::fmt;

/// A value in SI with its dimension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// In the SI unit of the dimension (m, N, N m, Pa, ...).
    pub value: f64,
    /// What kind of thing it is.
    pub dimension: Dimension,
}

/// Why a computation with quantities has no result.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum QuantityError {
    /// Two quantities of unlike dimensions were added, subtracted or compared.
    UnlikeDimensions(Dimension, Dimension),
    /// A divisor is zero.
    DivisionByZero,
    /// A square root of a negative value.
    RootOfNegative,
    /// A square root of a dimension that has none, such as of a length.
    RootOfDimension(Dimension),
    /// The value is not finite: it is too large for the arithmetic.
    Overflow,
    /// A power of a dimension out of range.
    DimensionOverflow,
}

impl fmt::Display for QuantityError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::UnlikeDimensions(a, b) => write!(f, "{} and {} do not add", a.in_words(), b.in_words()),
            Self::DivisionByZero => f.write_str("the divisor is zero"),
            Self::RootOfNegative => f.write_str("a negative value has no square root"),
            Self::RootOfDimension(d) => write!(f, "{} has no square root", d.in_words()),
            Self::Overflow => f.write_str("the value is too large"),
            Self::DimensionOverflow => f.write_str("the powers of the units are too large"),
        }
    }
}

impl std::error::Error for QuantityError {}

impl Quantity {
    /// A quantity of `value` SI units.
    pub const fn new(value: f64, dimension: Dimension) -> Self {
        Self { value, dimension }
    }

    /// A plain number.
    pub const fn number(value: f64) -> Self {
        Self::new(value, Dimension::NONE)
    }

    fn finite(value: f64, dimension: Dimension) -> Result<Self, QuantityError> {
        if value.is_finite() { Ok(Self::new(value, dimension)) } else { Err(QuantityError::Overflow) }
    }

    /// The sum.
    ///
    /// # Errors
    /// Where the dimensions differ, or the sum is not finite.
    pub fn plus(self, other: Self) -> Result<Self, QuantityError> {
        if self.dimension != other.dimension {
            return Err(QuantityError::UnlikeDimensions(self.dimension, other.dimension));
        }
        Self::finite(self.value + other.value, self.dimension)
    }

    /// The difference.
    ///
    /// # Errors
    /// Where the dimensions differ, or the difference is not finite.
    pub fn minus(self, other: Self) -> Result<Self, QuantityError> {
        self.plus(other.negative())
    }

    /// The quantity with its sign changed.
    pub fn negative(self) -> Self {
        Self::new(-self.value, self.dimension)
    }

    /// The product.
    ///
    /// # Errors
    /// Where the value is not finite or a power of the dimension is out of range.
    pub fn times(self, other: Self) -> Result<Self, QuantityError> {
        let dimension = self.dimension.times(other.dimension).ok_or(QuantityError::DimensionOverflow)?;
        Self::finite(self.value * other.value, dimension)
    }

    /// The quotient.
    ///
    /// # Errors
    /// Where the divisor is zero, the value is not finite, or a power of the dimension is out of range.
    pub fn over(self, other: Self) -> Result<Self, QuantityError> {
        if other.value == 0.0 {
            return Err(QuantityError::DivisionByZero);
        }
        let dimension = self.dimension.over(other.dimension).ok_or(QuantityError::DimensionOverflow)?;
        Self::finite(self.value / other.value, dimension)
    }

    /// A whole power, by repeated multiplication (the same bits on every machine).
    ///
    /// # Errors
    /// As for a product; for a negative power also where the quantity is zero.
    pub fn power(self, exponent: i8) -> Result<Self, QuantityError> {
        let dimension = self.dimension.power(exponent).ok_or(QuantityError::DimensionOverflow)?;
        let value = (0..exponent.unsigned_abs()).fold(1.0, |product, _| product * self.value);
        if exponent >= 0 {
            return Self::finite(value, dimension);
        }
        if self.value == 0.0 {
            return Err(QuantityError::DivisionByZero);
        }
        Self::finite(1.0 / value, dimension)
    }

    /// The square root.
    ///
    /// # Errors
    /// Where the value is negative or the dimension has no root.
    pub fn root(self) -> Result<Self, QuantityError> {
        let dimension = self.dimension.root().ok_or(QuantityError::RootOfDimension(self.dimension))?;
        if self.value < 0.0 {
            return Err(QuantityError::RootOfNegative);
        }
        Self::finite(self.value.sqrt(), dimension)
    }

    /// The size without the sign.
    pub fn absolute(self) -> Self {
        Self::new(self.value.abs(), self.dimension)
    }

    /// Exactly zero where the value lies within `noise` (in SI, not negative) of zero, unchanged elsewhere.
    ///
    /// What should be zero comes out as 1e-13 of its scale, and would print as a number that means nothing.
    pub fn settled(self, noise: f64) -> Self {
        if self.value.abs() <= noise { Self::new(0.0, self.dimension) } else { self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Closed form: tau = V Q / (I t) of a rectangle 100 mm x 200 mm under 10 kN is 3 V / (2 A).
    #[test]
    fn a_formula_carries_its_dimension() {
        let shear_force = Quantity::new(10.0e3, Dimension::FORCE);
        let first_moment = Quantity::new(0.1 * 0.1 * 0.05, Dimension::LENGTH_3);
        let second_moment = Quantity::new(0.1 * 0.2 * 0.2 * 0.2 / 12.0, Dimension::LENGTH_4);
        let thickness = Quantity::new(0.1, Dimension::LENGTH);
        let tau = shear_force
            .times(first_moment)
            .and_then(|above| above.over(second_moment.times(thickness)?))
            .expect("all values are finite and not zero");
        assert_eq!(tau.dimension, Dimension::STRESS);
        assert!((tau.value - 1.5 * 10.0e3 / 0.02).abs() < 1e-6);
    }

    #[test]
    fn unlike_dimensions_do_not_add() {
        let force = Quantity::new(1.0, Dimension::FORCE);
        let length = Quantity::new(1.0, Dimension::LENGTH);
        let error = force.plus(length).expect_err("a force and a length do not add");
        assert_eq!(error.to_string(), "a force and a length do not add");
    }

    #[test]
    fn nothing_that_is_not_finite_leaves() {
        let large = Quantity::new(1e300, Dimension::LENGTH);
        assert_eq!(large.times(large), Err(QuantityError::Overflow));
        assert_eq!(large.over(Quantity::number(0.0)), Err(QuantityError::DivisionByZero));
        assert_eq!(large.negative().times(large.absolute()), Err(QuantityError::Overflow));
        assert_eq!(Quantity::number(-1.0).root(), Err(QuantityError::RootOfNegative));
        assert_eq!(large.root(), Err(QuantityError::RootOfDimension(Dimension::LENGTH)));
        assert_eq!(Quantity::number(0.0).power(-1), Err(QuantityError::DivisionByZero));
    }

    #[test]
    fn whole_powers() {
        let length = Quantity::new(2.0, Dimension::LENGTH);
        assert_eq!(length.power(3), Ok(Quantity::new(8.0, Dimension::LENGTH_3)));
        assert_eq!(length.power(-1), Ok(Quantity::new(0.5, Dimension::CURVATURE)));
        assert_eq!(length.power(0), Ok(Quantity::number(1.0)));
    }

    #[test]
    fn noise_settles_to_zero() {
        assert_eq!(Quantity::number(-3e-14).settled(1e-9).value, 0.0);
        assert_eq!(Quantity::number(0.1).settled(1e-9).value, 0.1);
    }
}
