//! Printing an expression as the mathematics of LaTeX with amsmath, without dollars.

use crate::expression::Expression;
use crate::style::Style;

/// As the mathematics of LaTeX with amsmath, without dollars, in one line.
pub fn latex(expression: &Expression, style: &Style) -> String {
    todo!()
}

/// As [`latex`], but a chain of equals is broken before each sign and aligned at the first.
pub fn latex_aligned(expression: &Expression, style: &Style) -> String {
    todo!()
}
