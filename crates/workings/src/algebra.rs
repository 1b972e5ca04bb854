//! Expressions written as formulas in the code, `v * q / (i * t)`, and walks over them.

use crate::expression::Expression;
use crate::working::Id;
use std::ops::{Add, Div, Mul, Neg, Sub};

impl From<Id> for Expression {
    fn from(id: Id) -> Self {
        Self::Working(id)
    }
}

impl From<f64> for Expression {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl Mul for Expression {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        let mut factors = match self {
            Self::Product(factors) => factors,
            one => vec![one],
        };
        match other {
            Self::Product(more) => factors.extend(more),
            one => factors.push(one),
        }
        Self::Product(factors)
    }
}

impl Div for Expression {
    type Output = Self;
    fn div(self, below: Self) -> Self {
        Self::Quotient(Box::new(self), Box::new(below))
    }
}

impl Add for Expression {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        let mut terms = match self {
            Self::Sum(terms) => terms,
            one => vec![one],
        };
        match other {
            Self::Sum(more) => terms.extend(more),
            one => terms.push(one),
        }
        Self::Sum(terms)
    }
}

impl Sub for Expression {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Neg for Expression {
    type Output = Self;
    fn neg(self) -> Self {
        match self {
            Self::Negative(of) => *of,
            other => Self::Negative(Box::new(other)),
        }
    }
}

impl Expression {
    /// A whole power.
    pub fn power(self, power: i8) -> Self {
        Self::Power(Box::new(self), power)
    }

    /// A square root.
    pub fn root(self) -> Self {
        Self::Root(Box::new(self))
    }

    /// A cube root.
    pub fn cube_root(self) -> Self {
        Self::CubeRoot(Box::new(self))
    }

    /// The angle whose tangent is `above / below`, in the quadrant of their signs.
    pub fn arctangent(above: Self, below: Self) -> Self {
        Self::Arctangent(Box::new(above), Box::new(below))
    }

    /// An absolute value.
    pub fn size(self) -> Self {
        Self::Absolute(Box::new(self))
    }

    /// `d` of it.
    pub fn differential(self) -> Self {
        Self::Differential(Box::new(self))
    }

    /// A sum over like terms: the one term itself where there is but one.
    pub fn sum_over(mut terms: Vec<Expression>) -> Self {
        match (terms.len(), terms.pop()) {
            (1, Some(only)) => only,
            (_, Some(last)) => {
                terms.push(last);
                Self::SumOver(Box::new(Self::Sum(terms)))
            }
            (_, None) => Self::Number(0.0),
        }
    }

    /// A plain sum: the one term itself where there is but one.
    pub fn sum(terms: Vec<Expression>) -> Self {
        match terms.as_slice() {
            [only] => only.clone(),
            _ => Self::Sum(terms),
        }
    }

    /// Visits every working that it reads, as often as it is read.
    pub fn each_working(&self, visit: &mut dyn FnMut(Id)) {
        match self {
            Self::Working(id) => visit(*id),
            Self::Number(_) | Self::Symbol(_) | Self::Quantity(..) | Self::Given(..) | Self::Words(_) => {}
            Self::Negative(of)
            | Self::Power(of, _)
            | Self::Root(of)
            | Self::CubeRoot(of)
            | Self::Absolute(of)
            | Self::Differential(of)
            | Self::SumOver(of) => of.each_working(visit),
            Self::Sum(of) | Self::Product(of) | Self::Equal(of) | Self::About(of) => {
                of.iter().for_each(|one| one.each_working(visit));
            }
            Self::Quotient(a, b)
            | Self::Arctangent(a, b)
            | Self::Of(a, b)
            | Self::LimitToZero { variable: a, body: b } => {
                a.each_working(visit);
                b.each_working(visit);
            }
            Self::Integral { over, integrand, by } => {
                over.iter().for_each(|over| over.each_working(visit));
                integrand.each_working(visit);
                by.each_working(visit);
            }
        }
    }

    /// The same tree with every branch for which `change` gives another replaced by that; the outermost wins.
    pub fn map_leaves(&self, change: &dyn Fn(&Expression) -> Option<Expression>) -> Self {
        if let Some(other) = change(self) {
            return other;
        }
        let one = |of: &Expression| Box::new(of.map_leaves(change));
        let all = |of: &[Expression]| of.iter().map(|of| of.map_leaves(change)).collect();
        match self {
            Self::Number(_)
            | Self::Working(_)
            | Self::Symbol(_)
            | Self::Quantity(..)
            | Self::Given(..)
            | Self::Words(_) => self.clone(),
            Self::Negative(of) => Self::Negative(one(of)),
            Self::Power(of, power) => Self::Power(one(of), *power),
            Self::Root(of) => Self::Root(one(of)),
            Self::CubeRoot(of) => Self::CubeRoot(one(of)),
            Self::Absolute(of) => Self::Absolute(one(of)),
            Self::Differential(of) => Self::Differential(one(of)),
            Self::SumOver(of) => Self::SumOver(one(of)),
            Self::Sum(of) => Self::Sum(all(of)),
            Self::Product(of) => Self::Product(all(of)),
            Self::Equal(of) => Self::Equal(all(of)),
            Self::About(of) => Self::About(all(of)),
            Self::Quotient(a, b) => Self::Quotient(one(a), one(b)),
            Self::Arctangent(a, b) => Self::Arctangent(one(a), one(b)),
            Self::Of(a, b) => Self::Of(one(a), one(b)),
            Self::LimitToZero { variable, body } => {
                Self::LimitToZero { variable: one(variable), body: one(body) }
            }
            Self::Integral { over, integrand, by } => Self::Integral {
                over: over.as_ref().map(|over| one(over)),
                integrand: one(integrand),
                by: one(by),
            },
        }
    }
}
