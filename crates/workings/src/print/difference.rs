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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dimension::Dimension;
    use crate::print::plain;
    use crate::rounding::Figures;

    fn stress(value: f64) -> Expression {
        Expression::Quantity(Quantity::new(value, Dimension::STRESS), Role::ShearStress)
    }

    fn difference(one: f64, other: f64) -> String {
        plain(&(stress(one) - stress(other)), &Style::default())
    }

    /// Closed form: 624 312 Pa less 624 000 Pa is 312 Pa, which the three figures of the course would show as nothing.
    #[test]
    fn what_is_nearly_the_same_gets_the_figures_that_tell_it_apart() {
        assert_eq!(
            difference(624_312.0, 624_000.0),
            "0.624\u{202f}312\u{a0}MPa \u{2212} 0.624\u{202f}000\u{a0}MPa"
        );
    }

    #[test]
    fn where_the_usual_figures_tell_the_difference_they_stay() {
        assert_eq!(difference(624_000.0, 312_000.0), "0.624\u{a0}MPa \u{2212} 0.312\u{a0}MPa");
        assert_eq!(difference(624_000.0, 604_000.0), "0.624\u{a0}MPa \u{2212} 0.604\u{a0}MPa");
        // Noise of the arithmetic is no difference.
        assert_eq!(
            difference(624_000.0, 624_000.0 * (1.0 - 1e-15)),
            "0.624\u{a0}MPa \u{2212} 0.624\u{a0}MPa"
        );
    }

    /// Whatever two values are a little apart: what is read off comes to what is meant, by the bound of this file.
    #[test]
    fn what_is_read_off_comes_to_what_is_meant() {
        for figures in
            [Figures::ThreeOrFour, Figures::Significant(2), Figures::Significant(5), Figures::Decimals(2)]
        {
            let style = Style { figures, ..Style::default() };
            for power in 1..8 {
                let (one, other) = (7.654_321e6, 7.654_321e6 * (1.0 - 1.7 * 10_f64.powi(-power)));
                let terms = [stress(one), Expression::Negative(Box::new(stress(other)))];
                let read = |value: f64| {
                    let quantity = Quantity::new(value, Dimension::STRESS);
                    match super::figures(&terms, &style) {
                        Some(figures) => style.show_with(quantity, Role::ShearStress, figures).in_si(),
                        None => style.show(quantity, Role::ShearStress).in_si(),
                    }
                };
                let off = ((read(one) - read(other)) - (one - other)).abs() / (one - other);
                assert!(off <= 0.05, "{figures:?}, {power}: off by {off}");
            }
        }
    }
}
