//! Mistakes with the bending stress.

use super::lesson::{Leaf, Lesson, Replaced};
use super::source::Source::{Memory, ShearInContext};
use super::{Kind, Mistake};
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{
    Chapter::{Bending, Materials},
    Id,
};
use Kind::{Concept, Procedure};

pub(super) static MISTAKES: [Mistake; 6] = [
    Mistake::usual(
        ("y-from-the-base", Bending, Concept),
        "measures y from an edge",
        "{y} starts at the neutral axis.",
        &[Memory],
        from_an_edge,
    ),
    Mistake::usual(
        ("half-depth", Bending, Procedure),
        "uses half the depth in an unsymmetric section",
        "The neutral axis is not at half depth here.",
        &[Memory],
        half_depth,
    ),
    Mistake::usual(
        ("nearer-fibre", Bending, Procedure),
        "uses the nearer edge for the largest stress",
        "Compare both edges.",
        &[Memory],
        nearer_fibre,
    ),
    Mistake::usual(
        ("tension-for-compression", Bending, Concept),
        "puts the tension on the wrong side",
        "With {M} sagging, the bottom is stretched.",
        &[ShearInContext],
        |lesson| stresses(lesson).map(|id| Replaced::by(id, -lesson.own(id))).collect(),
    ),
    Mistake::usual(
        ("v-for-m", Bending, Concept),
        "uses {V} in the bending formula",
        "Bending stress comes from {M}. Check the unit.",
        &[Memory],
        shear_for_moment,
    ),
    Mistake::usual(
        ("centroid-for-the-point", Bending, Procedure),
        "uses the centroid of the part beyond where the stress at the cut is asked",
        "{sigma} belongs to a height: use the height asked for.",
        &[Memory],
        centroid_for_point,
    ),
];

/// In the material of the outer fibres and in each of several.
fn stresses<'a>(lesson: &Lesson<'a>) -> impl Iterator<Item = Id> + use<'a> {
    let in_materials = lesson.formulas(Materials, Role::BendingStress);
    lesson.formulas(Bending, Role::BendingStress).chain(in_materials)
}

/// Every bending stress with the distance that it reads put for another.
fn with_distance(lesson: &Lesson<'_>, read: Id, by: &Expression) -> Vec<Replaced> {
    let with = |id: Id| lesson.with(id, read, by).map(|formula| Replaced::by(id, formula));
    stresses(lesson).filter_map(with).collect()
}

fn from_an_edge(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let section = &lesson.chapters().section;
    let mut made = with_distance(lesson, section.top_distance, &lesson.depth());
    made.extend(with_distance(lesson, section.bottom_distance, &lesson.depth()));
    let height = lesson.along_axis(lesson.above_base(lesson.solved.key().cut_height.into()));
    made.extend(with_distance(lesson, lesson.chapters().cut_distance, &height));
    made
}

fn half_depth(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let section = &lesson.chapters().section;
    let half = lesson.depth() / 2.0.into();
    let outer = [section.top_distance, section.bottom_distance];
    outer.into_iter().flat_map(|distance| with_distance(lesson, distance, &half)).collect()
}

fn nearer_fibre(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let section = &lesson.chapters().section;
    let (top, bottom) = (section.top_distance, section.bottom_distance);
    let (near, far) = if lesson.value(top) <= lesson.value(bottom) { (top, bottom) } else { (bottom, top) };
    with_distance(lesson, far, &near.into())
}

fn shear_for_moment(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let key = lesson.solved.key();
    let diagrams = &lesson.chapters().diagrams;
    let shear_of = |read: Id| {
        if read == key.moment {
            Leaf::Becomes(key.shear.into())
        } else if Some(read) == diagrams.sagging || Some(read) == diagrams.hogging {
            Leaf::Becomes(diagrams.largest_shear.into())
        } else {
            Leaf::Stays
        }
    };
    let with = |id: Id| {
        let formula = lesson.changed(id, &shear_of)?;
        Some(Replaced::numbers(id, formula, lesson.section_units()))
    };
    stresses(lesson).filter_map(with).collect()
}

fn centroid_for_point(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let Some(arm) = lesson.solved.key().centroid_beyond else { return Vec::new() };
    let up = if lesson.beyond_above() { arm.into() } else { -Expression::from(arm) };
    with_distance(lesson, lesson.chapters().cut_distance, &lesson.along_axis(up))
}
