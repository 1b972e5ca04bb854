//! A value as it is shown: digits, a power of ten, a unit.

use crate::quantity::Quantity;
use crate::role::Role;
use crate::style::{DecimalMark, Style};
use crate::unit::Unit;

/// A value ready to be written. Its parts are kept apart, so that every printer sets them in its own way.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// Whether a minus stands before it; never for zero.
    pub negative: bool,
    /// Unsigned decimal digits with a point and no grouping: `12.0`, `108000`.
    pub digits: String,
    /// The power of ten that the digits are to be multiplied with; 0 for none.
    pub power: i32,
    /// The unit.
    pub unit: Unit,
    /// The course's decimal mark.
    pub decimal_mark: DecimalMark,
}

impl Shown {
    pub(crate) fn rounded(style: &Style, quantity: Quantity, role: Role) -> Self {
        todo!()
    }

    pub(crate) fn given(style: &Style, quantity: Quantity, role: Role) -> Self {
        todo!()
    }

    /// The unsigned number with the course's decimal mark, digits in groups of three: `108 000`, `0.012 5`.
    pub fn number(&self) -> String {
        todo!()
    }

    /// The number with its sign and power of ten, without the unit: `−11.3×10⁶`.
    pub fn number_text(&self) -> String {
        todo!()
    }

    /// As plain text: `12.0 kN`, `11.3×10⁶ mm⁴`, `−3.50 kN·m`, `30°`.
    pub fn text(&self) -> String {
        todo!()
    }

    /// As it is spoken: `11.3 million millimetres to the fourth`, `minus 3.50 kilonewton metres`.
    pub fn speech(&self) -> String {
        todo!()
    }

    /// The value that is shown, in SI.
    pub fn in_si(&self) -> f64 {
        todo!()
    }

    /// Whether what is shown is zero.
    pub fn is_zero(&self) -> bool {
        !self.digits.bytes().any(|b| (b'1'..=b'9').contains(&b))
    }
}
