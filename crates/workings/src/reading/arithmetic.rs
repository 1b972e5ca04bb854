//! Evaluating what was read, with the dimensions checked at each step.

use super::parser::{Kind, Node, Operator};
use super::{Fault, Names, faults};
use crate::dimension::Dimension;
use crate::quantity::{Quantity, QuantityError};
use std::ops::Range;

/// The value of a tree.
pub(super) fn evaluate(text: &str, root: &Node, names: &Names) -> Result<Quantity, Vec<Fault>> {
    let mut evaluation = Evaluation { text, names, faults: Vec::new() };
    match evaluation.value(root) {
        Some(value) if evaluation.faults.is_empty() => Ok(value),
        _ => Err(evaluation.faults),
    }
}

/// The names of a tree, in the order of the text. `pi` is not one.
pub(super) fn collect_names<'a>(node: &'a Node, names: &mut Vec<(&'a str, Range<usize>)>) {
    match &node.kind {
        Kind::Measure { .. } => {}
        Kind::Name(name) => {
            if circle_number(name).is_none() {
                names.push((name, node.range.clone()));
            }
        }
        Kind::Negative(inner) | Kind::Power(inner, _) | Kind::Root(inner) | Kind::Absolute(inner) => {
            collect_names(inner, names);
        }
        Kind::Binary(_, left, right) => {
            collect_names(left, names);
            collect_names(right, names);
        }
    }
}

pub(super) fn circle_number(name: &str) -> Option<f64> {
    matches!(name, "pi" | "π").then_some(std::f64::consts::PI)
}

struct Evaluation<'a> {
    text: &'a str,
    names: &'a Names,
    faults: Vec<Fault>,
}

impl Evaluation<'_> {
    /// The value, or `None` with at least one fault noted.
    fn value(&mut self, node: &Node) -> Option<Quantity> {
        match &node.kind {
            Kind::Measure { value, dimension, joined, .. } => {
                let names = self.names;
                let text = self.text;
                let also_named = joined.iter().find(|word| names.contains_key(&text[(*word).clone()]));
                match also_named {
                    Some(word) => self.fail(faults::ambiguous(self.text, &node.range, word.clone())),
                    None => Some(Quantity::new(*value, *dimension)),
                }
            }
            Kind::Name(name) => match self.names.get(name) {
                Some(value) if value.value.is_finite() => Some(*value),
                Some(_) => self.fail(faults::not_a_number(node.range.clone(), name)),
                None => match circle_number(name) {
                    Some(value) => Some(Quantity::new(value, Dimension::NONE)),
                    None => self.fail(faults::unknown_name(node.range.clone(), name, self.names)),
                },
            },
            Kind::Negative(inner) => self.value(inner).map(Quantity::negative),
            Kind::Absolute(inner) => self.value(inner).map(Quantity::absolute),
            Kind::Power(base, power) => {
                let base_value = self.value(base)?;
                self.checked(node, base, base, base_value.power(*power))
            }
            Kind::Root(inner) => {
                let value = self.value(inner)?;
                self.checked(node, inner, inner, value.root())
            }
            Kind::Binary(operator, left, right) => {
                // Both sides, so that the faults of both are told.
                let (left_value, right_value) = (self.value(left), self.value(right));
                let (left_value, right_value) = (left_value?, right_value?);
                let result = match operator {
                    Operator::Plus => left_value.plus(right_value),
                    Operator::Minus => left_value.minus(right_value),
                    Operator::Times => left_value.times(right_value),
                    Operator::Over => left_value.over(right_value),
                };
                self.checked(node, left, right, result)
            }
        }
    }

    fn checked(
        &mut self,
        node: &Node,
        left: &Node,
        right: &Node,
        result: Result<Quantity, QuantityError>,
    ) -> Option<Quantity> {
        let written = |node: &Node| &self.text[node.range.clone()];
        match result {
            Ok(value) => Some(value),
            Err(error) => {
                let fault = match error {
                    QuantityError::UnlikeDimensions(a, b) => {
                        faults::unlike(right.range.clone(), written(left), a, written(right), b)
                    }
                    QuantityError::DivisionByZero => faults::over_zero(right.range.clone(), written(right)),
                    QuantityError::RootOfNegative => {
                        faults::root_of_negative(right.range.clone(), written(right))
                    }
                    QuantityError::RootOfDimension(dimension) => {
                        faults::root_of_dimension(right.range.clone(), written(right), dimension)
                    }
                    QuantityError::Overflow | QuantityError::DimensionOverflow => {
                        faults::too_large(node.range.clone(), written(node))
                    }
                };
                self.fail(fault)
            }
        }
    }

    fn fail(&mut self, fault: Fault) -> Option<Quantity> {
        self.faults.push(fault);
        None
    }
}
