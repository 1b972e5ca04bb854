//! Evaluation of the graph: dimensions checked once, formulas compiled to short programs, replacements carried
//! through everything downstream.

mod error;
mod evaluator;
mod program;

pub use error::EvaluationError;
pub use evaluator::{Evaluator, Prepared};
pub(crate) use program::Program;
pub use program::Step;

use crate::dimension::Dimension;
use crate::expression::Expression;
use crate::graph::Workings;
use crate::working::{Id, Working};

/// What is put in the place of a working's formula.
#[derive(Clone, Debug, PartialEq)]
pub enum Replacement {
    /// A value, SI: what a student found, or another given.
    Value(f64),
    /// Another formula of the same dimension, over the workings of the graph.
    Expression(Expression),
    /// Another formula, computed with plain numbers in coherent units, as on a calculator: its dimension need
    /// not agree, and the number is read in the same units. `V Q / I` in N and mm gives 240, read as 240 MPa.
    Numbers(Expression, CoherentUnits),
}

/// Units that need no factors among each other: a force and a length, and what is made of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoherentUnits {
    /// The unit of force, N.
    pub force: f64,
    /// The unit of length, m.
    pub length: f64,
}

impl CoherentUnits {
    /// N, mm, and so MPa.
    pub const NEWTON_MILLIMETRE: Self = Self { force: 1.0, length: 1e-3 };
    /// kN, m, and so kPa.
    pub const KILONEWTON_METRE: Self = Self { force: 1e3, length: 1.0 };
    /// lbf, in, and so psi. Exact: 1 lb = 0.453 592 37 kg, g = 9.806 65 m/s², 1 in = 25.4 mm.
    pub const POUND_INCH: Self = Self { force: 4.448_221_615_260_5, length: 0.0254 };
    /// kip, in, and so ksi.
    pub const KIP_INCH: Self = Self { force: 4_448.221_615_260_5, length: 0.0254 };

    /// One such unit of a dimension, in SI.
    pub fn of(self, dimension: Dimension) -> f64 {
        // The unit of time stays the second, so the unit of mass is force / length.
        whole_power(self.force / self.length, dimension.mass) * whole_power(self.length, dimension.length)
    }
}

/// `base` to a whole power, by multiplication alone: the same bits everywhere.
pub(crate) fn whole_power(base: f64, power: i8) -> f64 {
    let mut product = 1.0;
    for _ in 0..power.unsigned_abs() {
        product *= base;
    }
    if power < 0 { 1.0 / product } else { product }
}

fn known<'a>(workings: &'a Workings, name: &str, id: Id) -> Result<&'a Working, EvaluationError> {
    if (id.0 as usize) < workings.len() {
        Ok(workings.working(id))
    } else {
        Err(EvaluationError::UnknownWorking { working: name.to_owned() })
    }
}

/// The dimension of an expression, each operation checked.
pub(crate) fn dimension_of(
    workings: &Workings,
    name: &str,
    expression: &Expression,
) -> Result<Dimension, EvaluationError> {
    let inner = |expression: &Expression| dimension_of(workings, name, expression);
    let held = |dimension: Option<Dimension>| {
        dimension.ok_or_else(|| EvaluationError::PowerTooHigh { working: name.to_owned() })
    };
    match expression {
        Expression::Number(_) => Ok(Dimension::NONE),
        Expression::Quantity(quantity, _) | Expression::Given(quantity, _) => Ok(quantity.dimension),
        Expression::Working(id) => Ok(known(workings, name, *id)?.value.dimension),
        Expression::Negative(of) | Expression::Absolute(of) | Expression::SumOver(of) => inner(of),
        Expression::Sum(terms) => {
            let mut dimensions = terms.iter().map(inner);
            let first = dimensions.next().unwrap_or(Ok(Dimension::NONE))?;
            for other in dimensions {
                let other = other?;
                if other != first {
                    return Err(EvaluationError::TermsDiffer { working: name.to_owned(), first, other });
                }
            }
            Ok(first)
        }
        Expression::Product(factors) => factors
            .iter()
            .try_fold(Dimension::NONE, |product, factor| held(combine(product, inner(factor)?, 1))),
        Expression::Quotient(above, below) => held(combine(inner(above)?, inner(below)?, -1)),
        Expression::Arctangent(above, below) => {
            let (first, other) = (inner(above)?, inner(below)?);
            if other != first {
                return Err(EvaluationError::TermsDiffer { working: name.to_owned(), first, other });
            }
            Ok(Dimension::NONE)
        }
        Expression::Power(base, power) => held(combine(Dimension::NONE, inner(base)?, *power)),
        Expression::Root(of) => {
            let under = inner(of)?;
            let powers = [under.mass, under.length, under.time];
            if powers.iter().any(|power| power % 2 != 0) {
                return Err(EvaluationError::OddRoot { working: name.to_owned(), under });
            }
            Ok(Dimension::of(under.mass / 2, under.length / 2, under.time / 2))
        }
        Expression::CubeRoot(of) => {
            let under = inner(of)?;
            let powers = [under.mass, under.length, under.time];
            if powers.iter().any(|power| power % 3 != 0) {
                return Err(EvaluationError::OddRoot { working: name.to_owned(), under });
            }
            Ok(Dimension::of(under.mass / 3, under.length / 3, under.time / 3))
        }
        Expression::Symbol(_)
        | Expression::Words(_)
        | Expression::Differential(_)
        | Expression::Of(..)
        | Expression::Integral { .. }
        | Expression::LimitToZero { .. }
        | Expression::Equal(_)
        | Expression::About(_) => Err(EvaluationError::NotComputable { working: name.to_owned() }),
    }
}

/// `a` times `b` to a power; `None` where a power does not fit.
fn combine(a: Dimension, b: Dimension, power: i8) -> Option<Dimension> {
    let one = |a: i8, b: i8| b.checked_mul(power)?.checked_add(a);
    Some(Dimension::of(one(a.mass, b.mass)?, one(a.length, b.length)?, one(a.time, b.time)?))
}
