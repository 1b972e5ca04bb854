//! What was read as a formula over the workings of a lesson.

use super::Parsed;
use super::arithmetic::circle_number;
use super::parser::{Kind, Node, Operator};
use crate::expression::Expression;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::working::Id;

impl Parsed {
    /// The formula as an expression, each name looked up as a working; `None` where one is not found.
    ///
    /// `role` decides in which unit a quantity that is written in the formula would be shown.
    pub fn expression(&self, role: Role, working: &dyn Fn(&str) -> Option<Id>) -> Option<Expression> {
        expression(&self.root, role, working)
    }
}

fn expression(node: &Node, role: Role, working: &dyn Fn(&str) -> Option<Id>) -> Option<Expression> {
    let inner = |node: &Node| expression(node, role, working);
    Some(match &node.kind {
        Kind::Measure { value, plain: true, .. } => (*value).into(),
        Kind::Measure { value, dimension, .. } => Expression::Given(Quantity::new(*value, *dimension), role),
        Kind::Name(name) => match working(name) {
            Some(id) => id.into(),
            None => circle_number(name)?.into(),
        },
        Kind::Negative(of) => -inner(of)?,
        Kind::Power(base, power) => inner(base)?.power(*power),
        Kind::Root(of) => inner(of)?.root(),
        Kind::Absolute(of) => inner(of)?.size(),
        Kind::Binary(operator, left, right) => {
            let (left, right) = (inner(left)?, inner(right)?);
            match operator {
                Operator::Plus => left + right,
                Operator::Minus => left - right,
                Operator::Times => left * right,
                Operator::Over => left / right,
            }
        }
    })
}
