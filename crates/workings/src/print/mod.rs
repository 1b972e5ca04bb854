//! One expression tree, printed as Typst, MathML, LaTeX, speech and plain text.
//!
//! The expression must be resolved: its leaves are symbols, quantities, numbers and words, no
//! [`Expression::Working`](crate::expression::Expression::Working).

mod latex;
mod layout;
mod mathml;
mod plain;
mod speech;
mod typst;

pub use self::latex::{latex, latex_aligned};
pub use self::mathml::{mathml, mathml_block};
pub use self::plain::plain;
pub use self::speech::{speech, speech_in_words};
pub use self::typst::{typst, typst_aligned};
