//! Operands of a difference with as many figures as it takes to tell the difference honestly.
//!
//! Of two values that are nearly the same the usual figures may be the same too: `0.624 − 0.624`. A reader who takes what is
//! written must come to what is meant.

use crate::expression::Expression;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::shown::Shown;
use crate::style::Style;

/// Terms whose sum is at least this part of the largest of them are shown with the usual figures: rounding then costs no
/// more than anywhere else.
const NO_DIFFERENCE: f64 = 0.2;
/// A sum below this part of the largest term is the noise of the arithmetic.
const NOISE: f64 = 1e-9;
/// By which part of the sum the sum of what is shown may be off: more than this, and the terms get more figures; then no more
/// than that.
const OFF: (f64, f64) = (0.05, 0.005);
/// The most figures of a term.
const MOST: u8 = 10;

/// A term: its value, with its sign in the sum.
enum Term {
    /// Rounded where it is shown.
    Rounded(f64, Quantity, Role),
    /// Shown as it is.
    Exact(f64),
}

impl Term {
    fn of(expression: &Expression, sign: f64) -> Option<Self> {
        match expression {
            Expression::Quantity(quantity, role) => Some(Self::Rounded(sign, *quantity, *role)),
            Expression::Given(quantity, _) => Some(Self::Exact(sign * quantity.value)),
            Expression::Number(number) => Some(Self::Exact(sign * number)),
            Expression::Negative(inner) => Self::of(inner, -sign),
            _ => None,
        }
    }

    fn value(&self) -> f64 {
        match self {
            Self::Rounded(sign, quantity, _) => sign * quantity.value,
            Self::Exact(value) => *value,
        }
    }
}

/// How many figures the terms of a sum need, in a style in which the usual ones would tell their sum wrongly; `None` where the
/// usual ones do, and where the terms are no plain values.
pub(super) fn figures(terms: &[Expression], style: &Style) -> Option<u8> {
    let terms: Vec<Term> = terms.iter().map(|term| Term::of(term, 1.0)).collect::<Option<_>>()?;
    let sum: f64 = terms.iter().map(Term::value).sum();
    let largest = terms.iter().map(|term| term.value().abs()).fold(0.0, f64::max);
    if sum.abs() >= NO_DIFFERENCE * largest || sum.abs() <= NOISE * largest {
        return None;
    }
    let off = |shown: &dyn Fn(Quantity, Role) -> Shown| {
        let read: f64 = terms
            .iter()
            .map(|term| match term {
                Term::Rounded(sign, quantity, role) => sign * shown(*quantity, *role).in_si(),
                Term::Exact(value) => *value,
            })
            .sum();
        (read - sum).abs() / sum.abs()
    };
    if off(&|quantity, role| style.show(quantity, role)) <= OFF.0 {
        return None;
    }
    (4..MOST)
        .find(|&count| off(&|quantity, role| style.show_with(quantity, role, count)) <= OFF.1)
        .or(Some(MOST))
}
