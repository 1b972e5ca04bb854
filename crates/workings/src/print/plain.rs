//! Printing an expression as plain text in one line, for terminals and tables.

use crate::expression::Expression;
use crate::style::Style;

/// As plain text: `τ = V Q/(I t)`.
pub fn plain(expression: &Expression, style: &Style) -> String {
    todo!()
}
