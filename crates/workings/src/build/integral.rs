//! The integral of the product of two bending moments over a piece of the beam.
//!
//! # Source
//! Simpson's rule is exact for a product of the third degree; of the fourth it leaves out the fourth derivative times
//! length⁵/2880 (any textbook of numerical analysis).

use crate::expression::Expression;
use crate::working::Id;

/// A bending moment on a piece of the beam; what is zero by its nature is none.
#[derive(Clone, Copy, Default)]
pub(super) struct Law {
    pub(super) start: Option<Id>,
    pub(super) end: Option<Id>,
    /// Halfway, where a spread load bends it; a straight one has the mean of its ends there.
    pub(super) middle: Option<Id>,
}

impl Law {
    pub(super) fn ids(self) -> impl Iterator<Item = Id> {
        [self.start, self.middle, self.end].into_iter().flatten()
    }
}

/// How much a load grows along itself.
pub(super) struct Growth {
    /// From its start to its end.
    pub(super) whole: Expression,
    /// Its length, where it is longer than the piece.
    pub(super) over: Option<Expression>,
}

/// An integral: a product, and by what it is still to be divided.
pub(super) struct Integral {
    product: Expression,
    below: Expression,
    minus: bool,
}

impl Integral {
    fn part(product: Expression, parts: f64) -> Self {
        Self { product, below: parts.into(), minus: false }
    }

    /// The integral over the flexural rigidity.
    pub(super) fn over(self, rigidity: Id) -> Expression {
        let all = self.product / (self.below * rigidity.into());
        if self.minus { -all } else { all }
    }
}

/// The integral of the product of two moments over a piece of some length, the second of them straight: a sixth of the length
/// times the product at the start, four times that halfway, and that at the end. In parts that are no broader than a page.
pub(super) fn simpson(length: &Expression, one: Law, other: Law) -> Vec<Integral> {
    let of = |id: Id| Expression::from(id);
    let twice = |id: Id| Expression::from(2.0) * id.into();
    let sixth = |all: Expression| Integral::part(length.clone() * all, 6.0);
    let third = |all: Expression| Integral::part(length.clone() * all, 3.0);
    if let Some(middle) = one.middle {
        return match (other.start, other.end) {
            (Some(a), Some(b)) => {
                let start = one.start.map(|start| sixth(of(start) * of(a)));
                let halfway = third(of(middle) * (of(a) + of(b)));
                let end = one.end.map(|end| sixth(of(end) * of(b)));
                start.into_iter().chain([halfway]).chain(end).collect()
            }
            (Some(a), None) => vec![match one.start {
                Some(start) => sixth(of(a) * (of(start) + twice(middle))),
                None => third(of(a) * of(middle)),
            }],
            (None, Some(b)) => vec![match one.end {
                Some(end) => sixth(of(b) * (twice(middle) + of(end))),
                None => third(of(b) * of(middle)),
            }],
            (None, None) => Vec::new(),
        };
    }
    match ((one.start, one.end), (other.start, other.end)) {
        ((None, None), _) | (_, (None, None)) => Vec::new(),
        ((Some(start), Some(end)), (Some(a), Some(b))) if (start, end) == (a, b) => {
            vec![third(of(a).power(2) + of(a) * of(b) + of(b).power(2))]
        }
        ((Some(start), Some(end)), (Some(a), Some(b))) => {
            vec![sixth(of(start) * (twice(a) + of(b))), sixth(of(end) * (of(a) + twice(b)))]
        }
        ((Some(start), Some(end)), (Some(a), None)) | ((Some(a), None), (Some(start), Some(end))) => {
            vec![sixth(of(a) * (twice(start) + of(end)))]
        }
        ((Some(start), Some(end)), (None, Some(b))) | ((None, Some(b)), (Some(start), Some(end))) => {
            vec![sixth(of(b) * (of(start) + twice(end)))]
        }
        ((Some(one), None), (Some(other), None)) | ((None, Some(one)), (None, Some(other))) => {
            vec![third(if one == other { of(one).power(2) } else { of(one) * of(other) })]
        }
        ((Some(one), None), (None, Some(other))) | ((None, Some(one)), (Some(other), None)) => {
            vec![sixth(of(one) * of(other))]
        }
    }
}

/// What Simpson's rule leaves out where a load grows along a piece: the moment is a cubic with the third derivative
/// -growth / length, so that a 720th of length³ times the growth of both is missing.
pub(super) fn beyond_simpson(length: &Expression, growth: Growth, other: Law) -> Option<Integral> {
    let moment = match (other.start, other.end) {
        (Some(start), Some(end)) => Expression::from(end) - start.into(),
        (None, Some(end)) => end.into(),
        (Some(start), None) => -Expression::from(start),
        (None, None) => return None,
    };
    let mut minus = false;
    let mut plain = |expression: Expression| match expression {
        Expression::Negative(of) => {
            minus = !minus;
            *of
        }
        other => other,
    };
    let grown = plain(growth.whole) * plain(moment);
    Some(match growth.over {
        None => Integral { product: length.clone().power(3) * grown, below: 720.0.into(), minus },
        Some(over) => Integral {
            product: length.clone().power(4) * grown,
            below: Expression::from(720.0) * over,
            minus,
        },
    })
}
