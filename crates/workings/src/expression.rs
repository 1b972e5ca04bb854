//! The expression tree: one tree for evaluation and for every way of printing a formula.

use crate::quantity::Quantity;
use crate::role::{Role, Symbol};
use crate::working::Id;

/// An expression. `Working` leaves are what a formula computes from; before printing they are turned into
/// `Symbol` leaves (the formula) or `Quantity` leaves (the substitution).
#[derive(Clone, Debug, PartialEq)]
pub enum Expression {
    /// An exact number of a formula, such as the 12 of `b h³ / 12`.
    Number(f64),
    /// The value of another working.
    Working(Id),
    /// A symbol with no working behind it; it cannot be evaluated.
    Symbol(Symbol),
    /// A value to be shown in the course's units, as the given role would be.
    Quantity(Quantity, Role),
    /// A value as the lesson gives it: all its digits, none added.
    Given(Quantity, Role),
    /// Words inside a formula, such as "at" or "left".
    Words(String),
    /// The negative of an expression.
    Negative(Box<Expression>),
    /// A sum; a [`Expression::Negative`] term prints with a minus sign.
    Sum(Vec<Expression>),
    /// A product.
    Product(Vec<Expression>),
    /// A fraction.
    Quotient(Box<Expression>, Box<Expression>),
    /// A whole power.
    Power(Box<Expression>, i8),
    /// A square root.
    Root(Box<Expression>),
    /// A cube root.
    CubeRoot(Box<Expression>),
    /// The angle, rad, whose tangent is the first over the second, in the quadrant of their signs.
    Arctangent(Box<Expression>, Box<Expression>),
    /// An absolute value.
    Absolute(Box<Expression>),
    /// `d` of something: `dx`, `dM`.
    Differential(Box<Expression>),
    /// A function of an argument: `M(x)`, `b(y)`.
    Of(Box<Expression>, Box<Expression>),
    /// An integral over a region (or none) of an integrand by a variable: `∫_{A'} y dA`.
    Integral {
        /// The region written at the foot of the integral sign.
        over: Option<Box<Expression>>,
        /// The integrand.
        integrand: Box<Expression>,
        /// The variable, printed with its `d`.
        by: Box<Expression>,
    },
    /// A sum over like terms: `Σ A_i y_i`. The terms are printed as one general term.
    SumOver(Box<Expression>),
    /// A limit: the body as the variable tends to zero.
    LimitToZero {
        /// What shrinks.
        variable: Box<Expression>,
        /// The body.
        body: Box<Expression>,
    },
    /// A chain of equals: `tau = V Q / (I t) = ... = 12 MPa`.
    Equal(Vec<Expression>),
    /// As [`Expression::Equal`], but the last is rounded or approximate.
    About(Vec<Expression>),
}
