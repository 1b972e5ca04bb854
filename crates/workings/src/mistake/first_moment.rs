//! Mistakes with the first moment Q of the part beyond the cut, and with the width t of the cut.

use super::lesson::{Lesson, Replaced};
use super::source::Source::{AnalysisText, Flashcards, LectureText, Memory, PhysicalModel};
use super::{Kind, Mistake};
use crate::build::CutWorkings;
use crate::expression::Expression;
use crate::working::{Chapter::Shear, Formula, Id};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 13] = [
    Mistake::usual(
        ("q-to-the-cut", Shear, Procedure),
        "takes {Q} as {A'} times the distance of the cut from the neutral axis",
        "Use the distance to the centroid of {A'}, not to the cut.",
        &[LectureText],
        |lesson| {
            let distance = Expression::from(lesson.chapters().cut_distance).size();
            at_the_cut(lesson, distance)
        },
    ),
    Mistake::usual(
        ("q-to-the-edge", Shear, Procedure),
        "takes {Q} as {A'} times the distance of its outer edge from the neutral axis",
        "Use the distance to the centroid of {A'}, not to its edge.",
        &[LectureText],
        |lesson| {
            let section = &lesson.chapters().section;
            let above = lesson.beyond_above();
            let edge = if above { section.top_distance } else { section.bottom_distance };
            at_the_cut(lesson, edge.into())
        },
    ),
    Mistake::usual(
        ("q-about-own-edge", Shear, Concept),
        "takes {Q} of {A'} about the cut, as {A'} times half its depth",
        "{Q} is taken about the neutral axis of the whole section.",
        &[Memory],
        |lesson| at_the_cut(lesson, Expression::from(lesson.chapters().shear.depth) / 2.0.into()),
    ),
    Mistake::usual(
        ("q-about-the-base", Shear, Procedure),
        "takes {Q} about the base",
        "{Q} is taken about the neutral axis of the whole section, not about the base.",
        &[Memory],
        |lesson| {
            each_part(lesson, |part| Expression::from(part.area) * lesson.above_base(part.centroid.into()))
        },
    ),
    Mistake::usual(
        ("q-of-the-whole-area", Shear, Concept),
        "takes the whole area for {A'}",
        "Only the area beyond the cut is held by the cut.",
        &[Memory],
        |lesson| {
            let area = lesson.chapters().section.area;
            each_part(lesson, |part| Expression::from(area) * part.arm.into())
        },
    ),
    Mistake::usual(
        ("q-at-the-neutral-axis", Shear, Concept),
        "uses the largest {Q}, that at the neutral axis, for every cut",
        "{Q} belongs to the cut.",
        &[Memory],
        |lesson| {
            let largest = Expression::from(lesson.chapters().shear.at_axis.cut.first_moment);
            each_part(lesson, |_| largest.clone())
        },
    ),
    Mistake::usual(
        ("q-leaves-out-a-part", Shear, Procedure),
        "forgets a part of {A'}, such as the piece of web between flange and cut",
        "Everything beyond the cut counts.",
        &[Memory],
        part_left_out,
    ),
    Mistake::usual(
        ("distance-squared-in-q", Shear, Execution),
        "squares the distance in {Q}",
        "{Q} is area times distance ({unit of Q}).",
        &[Memory],
        |lesson| {
            let units = lesson.section_units();
            let squared = |part: Part| {
                let formula = Expression::from(part.area) * Expression::from(part.arm).power(2);
                Replaced::numbers(part.first_moment, formula, units)
            };
            parts(lesson).into_iter().map(squared).collect()
        },
    ),
    Mistake::usual(
        ("q-about-mid-depth", Shear, Procedure),
        "puts the neutral axis at half depth in {Q} only",
        "Measure from the neutral axis that you found.",
        &[Memory],
        |lesson| {
            each_part(lesson, |part| {
                Expression::from(part.area) * (Expression::from(part.centroid) - lesson.mid_depth()).size()
            })
        },
    ),
    Mistake::usual(
        ("width-of-the-other-side", Shear, Concept),
        "takes the width on the other side of the jump",
        "The width jumps here. Use the width on the side asked.",
        &[Flashcards, PhysicalModel],
        |lesson| {
            let shear = &lesson.chapters().shear;
            let other = shear.other_side.as_ref();
            other.map(|other| Replaced::by(shear.cut.width, other.cut.width.into())).into_iter().collect()
        },
    ),
    Mistake::usual(
        ("depth-for-width", Shear, Concept),
        "takes the depth of {A'} for {t}",
        "{t} is the width of the cut, across the section.",
        &[Memory],
        |lesson| {
            let shear = &lesson.chapters().shear;
            let some = lesson.value(shear.depth) > 0.0;
            some.then(|| Replaced::by(shear.cut.width, shear.depth.into())).into_iter().collect()
        },
    ),
    Mistake::usual(
        ("cut-not-the-shortest", Shear, Procedure),
        "takes {t} along a cut that is not straight through the material, or one web of a box instead of two",
        "Count every place where the cut passes through material.",
        &[AnalysisText, Memory],
        |lesson| {
            let width = lesson.chapters().shear.cut.width;
            let own = lesson.own(width);
            let half = || Replaced::by(width, own.clone() / 2.0.into());
            let twice = Replaced::by(width, Expression::from(2.0) * own.clone());
            // Nobody leaves out one web of a single one.
            let webs = (!is_one_breadth(lesson, &own)).then(half);
            // Twice the width over a hole may be the full one: that is another mistake.
            let full = full_breadth(lesson).and_then(|full| lesson.solved.workings().evaluate(&full).ok());
            let is_full = |full: f64| (2.0 * lesson.value(width) - full).abs() <= 1e-9 * full;
            let twice = (!full.is_some_and(|full| is_full(full.value))).then_some(twice);
            webs.into_iter().chain(twice).collect()
        },
    ),
    Mistake::usual(
        ("hole-in-the-width", Shear, Execution),
        "takes the whole breadth for {t}, as if there were no hole in the cut",
        "The hole is no material: take its chord off.",
        &[Memory],
        |lesson| {
            let width = lesson.chapters().shear.cut.width;
            full_breadth(lesson).map(|full| Replaced::by(width, full)).into_iter().collect()
        },
    ),
];

/// The width at the cut without what its holes take off it; none where no hole is cut.
fn full_breadth(lesson: &Lesson<'_>) -> Option<Expression> {
    let Expression::Sum(terms) = lesson.own(lesson.chapters().shear.cut.width) else { return None };
    let count = terms.len();
    let solid: Vec<Expression> =
        terms.into_iter().filter(|term| !matches!(term, Expression::Negative(_))).collect();
    (solid.len() < count && !solid.is_empty()).then(|| Expression::sum(solid))
}

/// Whether the width of a cut is the breadth of one rectangle.
fn is_one_breadth(lesson: &Lesson<'_>, width: &Expression) -> bool {
    matches!(width, Expression::Working(id) if !matches!(lesson.working(*id).formula, Formula::Engine { .. }))
}

/// A part that a cut or a joint holds.
struct Part {
    area: Id,
    /// Height of its centroid.
    centroid: Id,
    /// Distance of its centroid from the neutral axis.
    arm: Id,
    first_moment: Id,
}

/// What lies beyond the cut, and what each joint holds.
fn parts(lesson: &Lesson<'_>) -> Vec<Part> {
    let chapters = lesson.chapters();
    let cut = &chapters.shear.cut;
    let beyond = cut.centroid.zip(cut.arm).map(|(centroid, arm)| Part {
        area: cut.area,
        centroid,
        arm,
        first_moment: cut.first_moment,
    });
    let held = chapters.joints.iter().map(|joint| Part {
        area: joint.area,
        centroid: joint.centroid,
        arm: joint.arm,
        first_moment: joint.first_moment,
    });
    beyond.into_iter().chain(held).collect()
}

fn each_part(lesson: &Lesson<'_>, wrong: impl Fn(&Part) -> Expression) -> Vec<Replaced> {
    parts(lesson).iter().map(|part| Replaced::by(part.first_moment, wrong(part))).collect()
}

/// Q at the cut as A' times a wrong distance; none where nothing lies beyond.
fn at_the_cut(lesson: &Lesson<'_>, distance: Expression) -> Vec<Replaced> {
    let cut = &lesson.chapters().shear.cut;
    let some = cut.centroid.is_some();
    some.then(|| Replaced::by(cut.first_moment, Expression::from(cut.area) * distance)).into_iter().collect()
}

/// One piece of A' after the other, at the cut, at the neutral axis and at the place of the largest stress.
fn part_left_out(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let chapters = lesson.chapters();
    let shear = &chapters.shear;
    let mut made = Vec::new();
    let cuts = [Some(&shear.at_axis), shear.at_largest.as_ref()].into_iter().flatten().map(|at| &at.cut);
    for cut in std::iter::once(&shear.cut).chain(cuts) {
        let terms: Vec<(Expression, Expression)> =
            cut.pieces.iter().map(|piece| (piece.area.clone(), piece.centroid.clone())).collect();
        // At the neutral axis Q may be taken over from the cut.
        if is_computed(lesson, cut) {
            made.extend(without_one(lesson, cut.first_moment, &terms, lesson.beyond_above()));
        }
    }
    for joint in &chapters.joints {
        let held = joint.pieces.iter().filter_map(|&place| chapters.section.pieces.get(place));
        let terms: Vec<_> = held.map(|piece| (piece.area.into(), piece.centroid.into())).collect();
        let above = lesson.value(joint.centroid) >= lesson.value(lesson.solved.key().centroid);
        made.extend(without_one(lesson, joint.first_moment, &terms, above));
    }
    made
}

fn is_computed(lesson: &Lesson<'_>, cut: &CutWorkings) -> bool {
    cut.arm.is_some_and(|arm| lesson.reads(cut.first_moment, arm))
}

/// Q of all pieces but one, each one left out once.
fn without_one(
    lesson: &Lesson<'_>,
    first_moment: Id,
    pieces: &[(Expression, Expression)],
    above: bool,
) -> Vec<Replaced> {
    if pieces.len() < 2 {
        return Vec::new();
    }
    let axis = Expression::from(lesson.solved.key().centroid);
    let moment = |(area, centroid): &(Expression, Expression)| {
        let distance = match above {
            true => centroid.clone() - axis.clone(),
            false => axis.clone() - centroid.clone(),
        };
        area.clone() * distance
    };
    let without = |left_out: usize| {
        let others = pieces.iter().enumerate().filter(|&(place, _)| place != left_out);
        Replaced::by(first_moment, Expression::sum(others.map(|(_, piece)| moment(piece)).collect()))
    };
    (0..pieces.len()).map(without).collect()
}
