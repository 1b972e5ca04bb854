//! Mistakes with beams of several materials.

use super::lesson::{Lesson, Replaced};
use super::source::Source::Memory;
use super::{Kind, Mistake};
use crate::build::{CutWorkings, Placed, Size};
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{
    Chapter::{Bending, Materials, Section, Shear, Skew},
    Id,
};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 8] = [
    Mistake::usual(
        ("ratio-upside-down", Section, Execution),
        "turns the modular ratio upside down",
        "{n} is the modulus of the other material over that of reference: what is stiffer counts more, not less.",
        &[Memory],
        |lesson| ratios(lesson).map(|ratio| Replaced::by(ratio, inverse(lesson, ratio))).collect(),
    ),
    Mistake::usual(
        ("ratio-left-out", Section, Concept),
        "takes all materials as one",
        "Strained alike, the stiffer material bears more: its breadth counts {n} times.",
        &[Memory],
        |lesson| ratios(lesson).map(|ratio| Replaced::by(ratio, 1.0.into())).collect(),
    ),
    Mistake::usual(
        ("i-as-drawn", Section, Concept),
        "takes {I} of the section as drawn",
        "{I} is that of the transformed section: each part counts {n} times.",
        &[Memory],
        second_moment_as_drawn,
    ),
    Mistake::usual(
        ("height-transformed", Section, Procedure),
        "transforms the height of a part and not its breadth",
        "Only the breadth becomes {n} times as large. The heights stay, for the strain goes with the height.",
        &[Memory],
        height_transformed,
    ),
    Mistake::usual(
        ("stress-of-the-reference", Materials, Concept),
        "does not multiply the stress by the modular ratio",
        "That is the stress in the material of reference at this place. In the other it is {n} times as large.",
        &[Memory],
        |lesson| stresses(lesson, |_| 1.0.into()),
    ),
    Mistake::usual(
        ("stress-divided-by-the-ratio", Materials, Procedure),
        "divides the stress by the modular ratio",
        "Multiply by {n}: a unit of breadth of the other material stands for {n} of the material of reference.",
        &[Memory],
        |lesson| stresses(lesson, |ratio| Expression::from(1.0) / ratio.into()),
    ),
    Mistake::usual(
        ("q-as-drawn", Shear, Procedure),
        "takes {Q} of the part beyond as drawn",
        "{Q} belongs to the transformed section, as {I} does: the part beyond counts {n} times.",
        &[Memory],
        first_moment_as_drawn,
    ),
    Mistake::usual(
        ("transformed-width", Shear, Procedure),
        "divides by the width of the transformed section",
        "The shear flow passes through the true width: {t} is measured on the section as it is.",
        &[Memory],
        transformed_width,
    ),
];

/// The modular ratios of a lesson.
fn ratios<'a>(lesson: &Lesson<'a>) -> impl Iterator<Item = Id> + use<'a> {
    lesson.chapters().section.materials.iter().filter_map(|material| material.ratio)
}

fn inverse(lesson: &Lesson<'_>, ratio: Id) -> Expression {
    match lesson.own(ratio) {
        Expression::Quotient(above, below) => *below / *above,
        other => Expression::from(1.0) / other,
    }
}

/// Every bending stress in another material with its ratio put for something else.
fn stresses(lesson: &Lesson<'_>, by: fn(Id) -> Expression) -> Vec<Replaced> {
    let all = || {
        let chapters = [Bending, Materials, Skew].into_iter();
        chapters.flat_map(|chapter| lesson.formulas(chapter, Role::BendingStress))
    };
    let with =
        |ratio: Id| all().filter_map(move |id| Some(Replaced::by(id, lesson.with(id, ratio, &by(ratio))?)));
    ratios(lesson).flat_map(with).collect()
}

/// Of several parts each without its ratio, about the neutral axis of the transformed section.
fn second_moment_as_drawn(lesson: &Lesson<'_>) -> Vec<Replaced> {
    if ratios(lesson).next().is_none() {
        return Vec::new();
    }
    let terms = lesson.chapters().section.pieces.iter().map(|piece| {
        let shifted = piece.shifted?;
        let distance = Expression::from(shifted.distance).power(2);
        let term = Expression::Sum(vec![shifted.own.into(), Expression::from(piece.area) * distance]);
        Some(match piece.placed.ratio {
            Some(ratio) => term / ratio.into(),
            None => term,
        })
    });
    let terms: Option<Vec<Expression>> = terms.collect();
    let id = lesson.solved.key().second_moment;
    terms.map(|terms| Replaced::by(id, Expression::sum_over(terms))).into_iter().collect()
}

fn height_transformed(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let pieces = lesson.chapters().section.pieces.iter();
    let wrong = |placed: &Placed, own: Id| {
        let (ratio, Size::Rectangle { breadth, height }) = (placed.ratio?, placed.size) else { return None };
        let high = (Expression::from(ratio) * height.into()).power(3);
        let plain = Expression::from(breadth) * high / 12.0.into();
        Some(Replaced::by(own, if placed.piece.hole { -plain } else { plain }))
    };
    pieces.filter_map(|piece| wrong(&piece.placed, piece.shifted?.own)).collect()
}

/// The cuts of the shear chapter.
fn cuts<'a>(lesson: &Lesson<'a>) -> Vec<&'a CutWorkings> {
    let shear = &lesson.chapters().shear;
    let others = [shear.other_side.as_ref(), Some(&shear.at_axis), shear.at_largest.as_ref()];
    std::iter::once(&shear.cut).chain(others.into_iter().flatten().map(|at| &at.cut)).collect()
}

/// Where all of the part beyond is of one other material.
fn first_moment_as_drawn(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let pieces = &lesson.chapters().section.pieces;
    let common = |places: &mut dyn Iterator<Item = usize>| {
        let mut ratios = places.map(|place| pieces.get(place).and_then(|piece| piece.placed.ratio));
        let first = ratios.next()??;
        ratios.all(|ratio| ratio == Some(first)).then_some(first)
    };
    let mut found: Vec<(Id, Id)> = Vec::new();
    for cut in cuts(lesson) {
        let ratio = common(&mut cut.pieces.iter().map(|beyond| beyond.piece));
        found.extend(ratio.map(|ratio| (cut.first_moment, ratio)));
    }
    for joint in &lesson.chapters().joints {
        let ratio = common(&mut joint.pieces.iter().copied());
        found.extend(ratio.map(|ratio| (joint.first_moment, ratio)));
    }
    found.dedup();
    found.into_iter().map(|(id, ratio)| Replaced::by(id, lesson.own(id) / ratio.into())).collect()
}

/// The width of a cut through another material, made of transformed breadths.
fn transformed_width(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let placed = || lesson.chapters().section.pieces.iter().map(|piece| &piece.placed);
    let wide = |id: Id| {
        let mut formula = None;
        for piece in placed() {
            let (Size::Rectangle { breadth, .. }, Some(wide)) = (piece.size, piece.transformed) else {
                continue;
            };
            formula = lesson.with(id, breadth, &wide.into()).or(formula);
        }
        formula.map(|formula| Replaced::by(id, formula))
    };
    let mut widths: Vec<Id> = cuts(lesson).into_iter().map(|cut| cut.width).collect();
    widths.dedup();
    widths.into_iter().filter_map(wide).collect()
}
