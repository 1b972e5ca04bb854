//! One expression tree, printed as Typst, MathML, LaTeX, speech and plain text.
//!
//! The expression must be resolved: its leaves are symbols, quantities, numbers and words, no
//! [`Expression::Working`](crate::expression::Expression::Working).
//!
//! ```
//! use workings::{expression::Expression, print, role::{Role, Symbol}, style::Style};
//!
//! let symbol = |role| Expression::Symbol(Symbol::plain(role));
//! let flow = symbol(Role::ShearForce) * symbol(Role::FirstMoment) / symbol(Role::SecondMoment);
//! let equation = Expression::Equal(vec![symbol(Role::ShearFlow), flow]);
//! let style = Style::default();
//! assert_eq!(print::plain(&equation, &style), "q = V Q/I");
//! assert_eq!(print::typst(&equation, &style), "q = frac(V thin Q, I)");
//! assert_eq!(print::speech(&equation, &style), "small q equals V times Q, all over I");
//! ```

mod difference;
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
