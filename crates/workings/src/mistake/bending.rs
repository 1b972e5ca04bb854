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

pub(super) static MISTAKES: [Mistake; 8] = [
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
        |lesson| wrong_side(lesson, false),
    ),
    Mistake::usual(
        ("tension-as-if-sagging", Bending, Concept),
        "puts the tension at the bottom though the beam hogs there",
        "Where {M} hogs the top is stretched and the bottom pressed.",
        &[ShearInContext, Memory],
        |lesson| wrong_side(lesson, true),
    ),
    Mistake::usual(
        ("smaller-moment-not-compared", Bending, Procedure),
        "looks for the largest stress only where {M} is of largest size",
        "The smaller moment bends the beam the other way, and acts on the farther edge. Compare both.",
        &[Memory],
        smaller_moment,
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

/// Of the stresses that follow from a hogging moment, or of the others.
fn wrong_side(lesson: &Lesson<'_>, hogging: bool) -> Vec<Replaced> {
    let (moment, most) = (lesson.solved.key().moment, lesson.chapters().diagrams.hogging);
    let hogs = |id: Id| {
        (lesson.reads(id, moment) && lesson.value(moment) < -lesson.no_moment())
            || most.is_some_and(|most| lesson.reads(id, most))
    };
    let of = stresses(lesson).filter(|&id| hogs(id) == hogging);
    of.map(|id| Replaced::by(id, -lesson.own(id))).collect()
}

/// Where the largest tension or compression comes from the smaller of the sagging and the hogging moment.
fn smaller_moment(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let chapters = lesson.chapters();
    let (Some(sagging), Some(hogging)) = (chapters.diagrams.sagging, chapters.diagrams.hogging) else {
        return Vec::new();
    };
    let size = |id: Id| lesson.value(id).abs();
    if (size(sagging) - size(hogging)).abs() <= lesson.no_moment() {
        return Vec::new();
    }
    let (small, large) = if size(sagging) < size(hogging) { (sagging, hogging) } else { (hogging, sagging) };
    let (top, bottom) = (chapters.section.top_distance, chapters.section.bottom_distance);
    // The larger moment bends the other way, so that it makes a stress of this sign at the other edge.
    let change = |read: Id| match read {
        _ if read == small => Leaf::Becomes(-Expression::from(large)),
        _ if read == top => Leaf::Becomes(bottom.into()),
        _ if read == bottom => Leaf::Becomes(top.into()),
        _ => Leaf::Stays,
    };
    let of_small = lesson.formulas(Bending, Role::BendingStress).filter(|&id| lesson.reads(id, small));
    of_small.filter_map(|id| Some(Replaced::by(id, lesson.changed(id, &change)?))).collect()
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
    // Where both edges are equally far each is taken for the other: rounding must not decide at which stress it is made.
    let alike = lesson.alike(top, bottom);
    let for_the_nearer = |far: Id, near: Id| match alike || lesson.value(far) > lesson.value(near) {
        true => with_distance(lesson, far, &near.into()),
        false => Vec::new(),
    };
    [for_the_nearer(bottom, top), for_the_nearer(top, bottom)].concat()
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
