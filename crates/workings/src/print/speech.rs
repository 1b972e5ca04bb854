//! Printing an expression as it is spoken, so that nobody needs to see what stands under the bar.

use crate::expression::Expression;
use crate::style::Style;

/// By its letters: "tau equals V times Q, all over I times t".
pub fn speech(expression: &Expression, style: &Style) -> String {
    todo!()
}

/// By the names of its quantities: "shear stress equals shear force times first moment, all over ...".
pub fn speech_in_words(expression: &Expression, style: &Style) -> String {
    todo!()
}
