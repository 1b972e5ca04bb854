//! A number with its dimension.

use crate::dimension::Dimension;

/// A value in SI with its dimension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// In the SI unit of the dimension (m, N, N m, Pa, ...).
    pub value: f64,
    /// What kind of thing it is.
    pub dimension: Dimension,
}

impl Quantity {
    /// A quantity of `value` SI units.
    pub const fn new(value: f64, dimension: Dimension) -> Self {
        Self { value, dimension }
    }
}
