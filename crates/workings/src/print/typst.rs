//! Printing an expression as the mathematics of Typst, without dollars.

use crate::expression::Expression;
use crate::style::Style;

/// As the mathematics of Typst, without dollars, in one line.
pub fn typst(expression: &Expression, style: &Style) -> String {
    todo!()
}

/// As [`typst`], but a chain of equals is broken before each sign and aligned at the first.
pub fn typst_aligned(expression: &Expression, style: &Style) -> String {
    todo!()
}
