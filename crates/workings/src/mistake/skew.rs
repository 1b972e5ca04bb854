//! Mistakes with bending askew.

use super::lesson::{Lesson, Replaced};
use super::source::Source::Memory;
use super::{Kind, Mistake};
use crate::build::{PieceWorkings, Size, SkewWorkings};
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter::Skew, Id};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 9] = [
    Mistake::usual(
        ("product-moment-forgotten", Skew, Concept),
        "leaves out the product moment and uses {M} {y}/{I}",
        "The level axis is no principal axis of this section: the stress varies across it too.",
        &[Memory],
        simple_formula,
    ),
    Mistake::usual(
        ("product-moment-sign", Skew, Execution),
        "gets the sign of the product moment wrong",
        "Each part counts with the signs of both its distances. Look in which quarters the area lies.",
        &[Memory],
        |lesson| of_skew(lesson, |skew| vec![Replaced::by(skew.product, -lesson.own(skew.product))]),
    ),
    Mistake::usual(
        ("second-moments-exchanged", Skew, Execution),
        "exchanges the two second moments in the full formula",
        "The distance upward goes with the second moment about the upright axis, not with its own.",
        &[Memory],
        exchanged,
    ),
    Mistake::usual(
        ("second-term-added", Skew, Execution),
        "adds the term of the product moment where it is taken off",
        "In the bracket and in what it is divided by the term of the product moment is taken off.",
        &[Memory],
        added,
    ),
    Mistake::usual(
        ("principal-axis-for-neutral-axis", Skew, Concept),
        "takes the principal axis for the neutral axis",
        "The neutral axis is a principal axis only if the load lies in the plane of the other one.",
        &[Memory],
        |lesson| {
            let principal = lesson.solved.workings().id("angle of the principal axis");
            let by = |principal: Id| {
                of_skew(lesson, |skew| vec![Replaced::by(skew.inclination, principal.into())])
            };
            principal.map(by).unwrap_or_default()
        },
    ),
    Mistake::usual(
        ("neutral-axis-upside-down", Skew, Procedure),
        "divides by the second moment about the level axis for the inclination",
        "Set the bracket of the formula to zero: the second moment about the upright axis stands with the height.",
        &[Memory],
        inclination_by_level,
    ),
    Mistake::usual(
        ("no-parallel-axis-across", Skew, Procedure),
        "adds only the second moment of each part about its own upright axis",
        "Each part lies beside the upright axis: add its area times its level distance squared.",
        &[Memory],
        no_parallel_axis,
    ),
    Mistake::usual(
        ("transformed-breadth-cubed", Skew, Concept),
        "takes the transformed breadth to the third power for the second moment about the upright axis",
        "Across the section too the strain goes with the true distance: the part counts {n} times, with its true breadth.",
        &[Memory],
        transformed_breadth,
    ),
    Mistake::usual(
        ("simple-shear-askew", Skew, Concept),
        "uses {V} {Q}/({I} {t}) where the section bends askew",
        "The bending stress grows across the section too: both first moments of the part beyond count.",
        &[Memory],
        |lesson| {
            let simple = lesson.solved.key().stress_on_cut;
            let by = |skew: &SkewWorkings| {
                skew.shear.map(|shear| Replaced::by(shear, simple.into())).into_iter().collect()
            };
            of_skew(lesson, by)
        },
    ),
];

fn of_skew(lesson: &Lesson<'_>, make: impl FnOnce(&SkewWorkings) -> Vec<Replaced>) -> Vec<Replaced> {
    lesson.chapters().skew.as_ref().map(make).unwrap_or_default()
}

/// Every stress at a corner by another formula of the moment, the two distances and the three moments.
fn at_corners(
    lesson: &Lesson<'_>,
    formula: impl Fn(Expression, [Expression; 2], [Expression; 3]) -> Expression,
) -> Vec<Replaced> {
    of_skew(lesson, |skew| {
        let level = lesson.chapters().section.second_moment;
        let moments = [level, skew.upright, skew.product];
        let made = skew.corners.iter().map(|corner| {
            let distances = [corner.depth, corner.across].map(Expression::from);
            let moment = match corner.ratio {
                Some(ratio) => Expression::from(ratio) * corner.moment.into(),
                None => corner.moment.into(),
            };
            let stress = formula(moment, distances, moments.map(Expression::from));
            Replaced::by(corner.stress, lesson.along_axis(-stress))
        });
        made.collect()
    })
}

fn simple_formula(lesson: &Lesson<'_>) -> Vec<Replaced> {
    at_corners(lesson, |moment, [depth, _], [level, ..]| moment * depth / level)
}

fn exchanged(lesson: &Lesson<'_>) -> Vec<Replaced> {
    at_corners(lesson, |moment, [depth, across], [level, upright, product]| {
        let both = level.clone() * upright - product.clone().power(2);
        moment * (level * depth - product * across) / both
    })
}

fn added(lesson: &Lesson<'_>) -> Vec<Replaced> {
    at_corners(lesson, |moment, [depth, across], [level, upright, product]| {
        let both = level * upright.clone() - product.clone().power(2);
        moment * (upright * depth + product * across) / both
    })
}

fn inclination_by_level(lesson: &Lesson<'_>) -> Vec<Replaced> {
    of_skew(lesson, |skew| {
        let product = lesson.along_axis(skew.product.into());
        let level = lesson.chapters().section.second_moment;
        vec![Replaced::by(skew.inclination, Expression::arctangent(product, level.into()))]
    })
}

/// The second moment about its own upright axis of each rectangle of another material.
fn transformed_breadth(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let pieces = &lesson.chapters().section.pieces;
    let wrong = |(piece, own): (&PieceWorkings, &Option<Id>)| {
        let placed = &piece.placed;
        let (Some(wide), Size::Rectangle { height, .. }) = (placed.transformed, placed.size) else {
            return None;
        };
        let plain = Expression::from(height) * Expression::from(wide).power(3) / 12.0.into();
        Some(Replaced::by((*own)?, if placed.piece.hole { -plain } else { plain }))
    };
    of_skew(lesson, |skew| pieces.iter().zip(&skew.own_upright).filter_map(wrong).collect())
}

fn no_parallel_axis(lesson: &Lesson<'_>) -> Vec<Replaced> {
    of_skew(lesson, |skew| {
        let own: Vec<Expression> = lesson
            .formulas(Skew, Role::SecondMomentUpright)
            .filter(|id| *id != skew.upright)
            .map(Into::into)
            .collect();
        if own.len() < 2 {
            return Vec::new();
        }
        vec![Replaced::by(skew.upright, Expression::sum_over(own))]
    })
}
