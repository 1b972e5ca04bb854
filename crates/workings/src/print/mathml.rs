//! Printing an expression as MathML Core.

use crate::expression::Expression;
use crate::style::Style;

/// As one inline `<math>` element, with its speech as `alttext`.
pub fn mathml(expression: &Expression, style: &Style) -> String {
    todo!()
}

/// As one `<math display="block">` element; a chain of equals is broken before each sign and aligned at the first.
pub fn mathml_block(expression: &Expression, style: &Style) -> String {
    todo!()
}
