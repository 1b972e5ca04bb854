//! One or two linear equations, solved in letters.

use crate::expression::Expression;

/// The unknowns of one or two equations, from their right sides and their coefficients row by row; none of more.
///
/// # Source
/// Cramer's rule.
pub(crate) fn solved_by_determinants(right: &[Expression], coefficients: &[Expression]) -> Vec<Expression> {
    match (right, coefficients) {
        ([right], [unit]) => vec![right.clone() / unit.clone()],
        ([first, second], [a, b, c, d]) => {
            let below = a.clone() * d.clone() - b.clone() * c.clone();
            vec![
                less(product(first, d), product(second, b)) / below.clone(),
                less(product(second, a), product(first, c)) / below,
            ]
        }
        _ => Vec::new(),
    }
}

/// A difference; of two negative terms the one that turns positive stands first.
fn less(one: Expression, other: Expression) -> Expression {
    match (one, other) {
        (one @ Expression::Negative(_), Expression::Negative(other)) => *other + one,
        (one, other) => one - other,
    }
}

/// A product with its sign before it.
fn product(one: &Expression, other: &Expression) -> Expression {
    match one {
        Expression::Negative(one) => -(other.clone() * one.as_ref().clone()),
        one => other.clone() * one.clone(),
    }
}
