//! Mistakes with the properties of the section.

use super::lesson::{Lesson, Replaced};
use super::source::Source::{HomeworkDiscussion, Memory};
use super::{Kind, Mistake};
use crate::build::{PieceWorkings, Size};
use crate::evaluate::Replacement;
use crate::expression::Expression;
use crate::working::{Chapter::Section, Id};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 10] = [
    Mistake::usual(
        ("axis-at-mid-depth", Section, Concept),
        "puts the neutral axis at half depth",
        "The neutral axis passes through the centroid of the area.",
        &[Memory],
        |lesson| vec![Replaced::by(lesson.solved.key().centroid, lesson.mid_depth())],
    ),
    Mistake::usual(
        ("centroid-unweighted", Section, Procedure),
        "averages the centroids of the parts",
        "Weight each part by its area.",
        &[Memory],
        unweighted,
    ),
    Mistake::usual(
        ("no-parallel-axis", Section, Procedure),
        "adds only the second moment of each part about its own axis",
        "Each part lies away from the neutral axis: add {A} {y}².",
        &[Memory],
        |lesson| by_parts(lesson, |part| part.own),
    ),
    Mistake::usual(
        ("only-parallel-axis", Section, Procedure),
        "adds {A} {y}² of the parts only",
        "The parts' own {b} {h}³/12 belong to it too.",
        &[Memory],
        only_shifted,
    ),
    Mistake::usual(
        ("distance-not-squared", Section, Execution),
        "adds {A} {y} instead of {A} {y}²",
        "The distance is squared (check: {unit of I}).",
        &[Memory],
        not_squared,
    ),
    Mistake::usual(
        ("about-the-base", Section, Procedure),
        "refers {I} to the base",
        "Bending turns about the neutral axis, not about the base.",
        &[Memory],
        |lesson| shifted(lesson, lesson.chapters().section.bottom_distance.into()),
    ),
    Mistake::usual(
        ("about-mid-depth", Section, Procedure),
        "refers {I} to mid-depth",
        "Bending turns about the neutral axis, not about mid-depth.",
        &[Memory],
        |lesson| shifted(lesson, Expression::from(lesson.solved.key().centroid) - lesson.mid_depth()),
    ),
    Mistake::usual(
        ("wrong-axis", Section, Concept),
        "cubes the breadth instead of the height",
        "Cube the dimension that runs across the neutral axis.",
        &[HomeworkDiscussion],
        wrong_axis,
    ),
    Mistake::usual(
        ("outer-rectangle", Section, Procedure),
        "takes the outline of the section as full",
        "Part of the outline is empty.",
        &[Memory],
        outline_as_full,
    ),
    Mistake::usual(
        ("hole-added", Section, Execution),
        "adds a hole instead of taking it off",
        "A hole takes area and {I} away.",
        &[Memory],
        hole_added,
    ),
];

/// What the theorem of parallel axes takes of a part.
struct PartTerms {
    own: Expression,
    area: Expression,
    distance: Expression,
}

/// The terms of each part; empty where there is one part only, to which the theorem is not applied.
fn terms(lesson: &Lesson<'_>) -> Vec<PartTerms> {
    let pieces = lesson.chapters().section.pieces.iter();
    let terms = |piece: &PieceWorkings| {
        let shifted = piece.shifted?;
        let (own, area, distance) = (shifted.own.into(), piece.area.into(), shifted.distance.into());
        Some(PartTerms { own, area, distance })
    };
    pieces.filter_map(terms).collect()
}

fn second_moment(lesson: &Lesson<'_>) -> Id {
    lesson.solved.key().second_moment
}

fn by_parts(lesson: &Lesson<'_>, term: fn(PartTerms) -> Expression) -> Vec<Replaced> {
    let terms: Vec<Expression> = terms(lesson).into_iter().map(term).collect();
    if terms.is_empty() {
        return Vec::new();
    }
    vec![Replaced::by(second_moment(lesson), Expression::sum_over(terms))]
}

/// Parts whose centroids all lie on the neutral axis need no theorem.
fn only_shifted(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let near = 1e-9 * lesson.solved.section().properties().height();
    let pieces = lesson.chapters().section.pieces.iter();
    if pieces.filter_map(|piece| piece.shifted).all(|part| lesson.value(part.distance).abs() <= near) {
        return Vec::new();
    }
    by_parts(lesson, |part| part.area * part.distance.power(2))
}

fn not_squared(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let terms: Vec<Expression> =
        terms(lesson).into_iter().map(|part| part.own + part.area * part.distance.size()).collect();
    if terms.is_empty() {
        return Vec::new();
    }
    vec![Replaced::numbers(second_moment(lesson), Expression::sum_over(terms), lesson.section_units())]
}

fn unweighted(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let solid = lesson.chapters().section.pieces.iter().filter(|piece| !piece.placed.piece.hole);
    let heights: Vec<Expression> = solid.map(|piece| piece.centroid.into()).collect();
    if heights.len() < 2 {
        return Vec::new();
    }
    let count = heights.len() as f64;
    vec![Replaced::by(lesson.solved.key().centroid, Expression::sum_over(heights) / count.into())]
}

/// `I + A e²`: I about an axis at a distance e from the neutral axis.
fn shifted(lesson: &Lesson<'_>, distance: Expression) -> Vec<Replaced> {
    let id = second_moment(lesson);
    let area = Expression::from(lesson.chapters().section.area);
    vec![Replaced::by(id, lesson.own(id) + area * distance.power(2))]
}

/// Of sections made of rectangles only.
fn wrong_axis(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let turned = |piece: &PieceWorkings| match piece.placed.size {
        Size::Rectangle { breadth, height } => {
            let cubed = Expression::from(height) * Expression::from(breadth).power(3) / 12.0.into();
            Some(piece.placed.counted(cubed))
        }
        Size::Round { .. } | Size::Triangle { .. } | Size::Outline => None,
    };
    let terms: Option<Vec<Expression>> = lesson.chapters().section.pieces.iter().map(turned).collect();
    match terms {
        Some(terms) if !terms.is_empty() => {
            vec![Replaced::by(second_moment(lesson), Expression::sum_over(terms))]
        }
        _ => Vec::new(),
    }
}

/// A section with holes without them; another one, unless it is itself a full figure of the handbooks, as the rectangle
/// round it.
fn outline_as_full(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let pieces = &lesson.chapters().section.pieces;
    let solid: Vec<&PieceWorkings> = pieces.iter().filter(|piece| !piece.placed.piece.hole).collect();
    if let ([only], true) = (solid.as_slice(), pieces.len() > 1) {
        let own = only.shifted.map(|shifted| Replaced::by(second_moment(lesson), shifted.own.into()));
        return own.into_iter().collect();
    }
    let full = matches!(solid.as_slice(), [only] if !matches!(only.placed.size, Size::Outline));
    if full || solid.len() < pieces.len() || !lesson.chapters().section.materials.is_empty() {
        return Vec::new();
    }
    let outer = lesson.breadth() * lesson.depth().power(3) / 12.0.into();
    vec![Replaced::by(second_moment(lesson), outer)]
}

/// Its area and its second moment with the wrong sign, and all that follows from them.
fn hole_added(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let added = |piece: &PieceWorkings| {
        let of = |id: Id| (id, Replacement::Expression(-lesson.own(id)));
        let shifted = piece.shifted.filter(|_| piece.placed.piece.hole)?;
        Replaced::together([of(piece.area), of(shifted.own)])
    };
    lesson.chapters().section.pieces.iter().filter_map(added).collect()
}
