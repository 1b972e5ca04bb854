//! Arithmetic within an item: what an answer would be, were a student's earlier answers right.

use super::element::{Element, qti};
use super::identifier::Identifier;
use std::collections::BTreeSet;
use workings::expression::Expression;
use workings::working;

/// An expression over the student's earlier answers in the same item, each in the unit that it was asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Formula {
    /// A number.
    Number(f64),
    /// The student's own answer.
    Answer(Identifier),
    /// A sum.
    Sum(Vec<Formula>),
    /// A product.
    Product(Vec<Formula>),
    /// The first less the second.
    Difference(Box<Formula>, Box<Formula>),
    /// The first by the second.
    Quotient(Box<Formula>, Box<Formula>),
    /// A whole power.
    Power(Box<Formula>, i8),
    /// The size without its sign.
    Absolute(Box<Formula>),
}

impl Formula {
    /// The formula of a working. `leaf` says what each working in it is here: an answer of the item, or a number, with the
    /// factors of the units; `None` from it, or in the formula anything that is not arithmetic, gives `None`.
    pub fn of(
        expression: &Expression,
        leaf: &mut impl FnMut(&working::Id) -> Option<Formula>,
    ) -> Option<Self> {
        Some(match expression {
            Expression::Number(value) => Self::Number(*value),
            Expression::Working(id) => leaf(id)?,
            Expression::Negative(inner) => {
                Self::Difference(Box::new(Self::Number(0.0)), Box::new(Self::of(inner, leaf)?))
            }
            Expression::Sum(terms) => {
                Self::Sum(terms.iter().map(|term| Self::of(term, leaf)).collect::<Option<_>>()?)
            }
            Expression::Product(factors) => {
                Self::Product(factors.iter().map(|factor| Self::of(factor, leaf)).collect::<Option<_>>()?)
            }
            Expression::Quotient(above, below) => {
                Self::Quotient(Box::new(Self::of(above, leaf)?), Box::new(Self::of(below, leaf)?))
            }
            Expression::Power(base, exponent) => Self::Power(Box::new(Self::of(base, leaf)?), *exponent),
            Expression::Absolute(inner) => Self::Absolute(Box::new(Self::of(inner, leaf)?)),
            _ => return None,
        })
    }

    /// Its value with the given answers; `None` where one of them is missing. `product` sees every product.
    pub(super) fn value(
        &self,
        answer: &impl Fn(&Identifier) -> Option<f64>,
        product: &impl Fn(f64) -> f64,
    ) -> Option<f64> {
        let of = |inner: &Formula| inner.value(answer, product);
        Some(match self {
            Self::Number(value) => *value,
            Self::Answer(name) => answer(name)?,
            Self::Sum(terms) => terms.iter().map(of).sum::<Option<f64>>()?,
            Self::Product(factors) => product(factors.iter().map(of).product::<Option<f64>>()?),
            Self::Difference(first, second) => of(first)? - of(second)?,
            Self::Quotient(above, below) => of(above)? / of(below)?,
            Self::Power(base, exponent) => of(base)?.powi(i32::from(*exponent)),
            Self::Absolute(inner) => of(inner)?.abs(),
        })
    }

    /// The answers that it is computed from, each once.
    pub(super) fn answers(&self) -> BTreeSet<&Identifier> {
        match self {
            Self::Number(_) => BTreeSet::new(),
            Self::Answer(name) => BTreeSet::from([name]),
            Self::Sum(all) | Self::Product(all) => all.iter().flat_map(Self::answers).collect(),
            Self::Difference(first, second) | Self::Quotient(first, second) => {
                first.answers().into_iter().chain(second.answers()).collect()
            }
            Self::Power(inner, _) | Self::Absolute(inner) => inner.answers(),
        }
    }

    /// As an expression of QTI; `variable` names the response of an answer.
    pub(super) fn element(&self, variable: &impl Fn(&Identifier) -> String) -> Element {
        let of = |inner: &Formula| inner.element(variable);
        match self {
            Self::Number(value) => number(*value),
            Self::Answer(name) => qti("variable").with("identifier", variable(name)),
            Self::Sum(terms) => qti("sum").children(terms.iter().map(of)),
            Self::Product(factors) => qti("product").children(factors.iter().map(of)),
            Self::Difference(first, second) => qti("subtract").child(of(first)).child(of(second)),
            Self::Quotient(above, below) => qti("divide").child(of(above)).child(of(below)),
            Self::Power(base, exponent) => qti("power").child(of(base)).child(number(f64::from(*exponent))),
            Self::Absolute(inner) => absolute(of(inner)),
        }
    }
}

/// A number of QTI.
pub(super) fn number(value: f64) -> Element {
    qti("baseValue").with("baseType", "float").text(value)
}

/// The size of an expression without its sign.
pub(super) fn absolute(inner: Element) -> Element {
    qti("mathOperator").with("name", "abs").child(inner)
}
