//! Mistakes with the finite slice, the force on the cut, the joints, and what the beam may carry.

use super::lesson::{Lesson, Replaced};
use super::source::Source::{AnalysisText, DerivationStep, Memory, PhysicalModel};
use super::{Kind, Mistake};
use crate::build::governs;
use crate::evaluate::Replacement;
use crate::expression::Expression;
use crate::working::Chapter::{Allowables, Joints, Slice};
use crate::working::Id;
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 9] = [
    Mistake::usual(
        ("cut-force-is-v", Slice, Concept),
        "says that the force on the cut is {V}",
        "Equal stresses on perpendicular faces, not equal forces: {F} = {tau} {t} {dx}.",
        &[Memory],
        |lesson| force_on_cut(lesson, toward(lesson, lesson.solved.key().shear.into())),
    ),
    Mistake::usual(
        ("tau-times-part", Slice, Concept),
        "multiplies {tau} by {A'}",
        "{F} acts on the cut, whose area is {t} {dx}.",
        &[Memory],
        |lesson| {
            let key = lesson.solved.key();
            let force = Expression::from(key.stress_on_cut) * key.area_beyond.into();
            force_on_cut(lesson, toward(lesson, force))
        },
    ),
    Mistake::usual(
        ("one-face-only", Slice, Concept),
        "uses the stress resultant of one face",
        "Take the difference between the two faces.",
        &[DerivationStep],
        |lesson| force_on_cut(lesson, -Expression::from(lesson.solved.slice().resultant_left)),
    ),
    Mistake::usual(
        ("stress-at-the-cut-times-part", Slice, Procedure),
        "takes the bending stress at the cut for all of {A'}",
        "Its mean over {A'} is at the centroid of {A'}.",
        &[DerivationStep],
        |lesson| {
            let key = lesson.solved.key();
            let up = lesson.along_axis(lesson.chapters().cut_distance.into());
            let change = Expression::from(lesson.solved.slice().moment_change);
            force_on_cut(lesson, change * up * key.area_beyond.into() / key.second_moment.into())
        },
    ),
    Mistake::usual(
        ("no-width", Slice, Execution),
        "takes the force on the cut as {tau} {dx}",
        "Multiply by the width.",
        &[Memory],
        |lesson| {
            let slice = lesson.solved.slice();
            let force = Expression::from(lesson.solved.key().stress_on_cut) * slice.length.into();
            vec![Replaced::numbers(slice.force_on_cut, toward(lesson, force), lesson.section_units())]
        },
    ),
    Mistake::usual(
        ("spacing-inverted", Joints, Procedure),
        "divides the shear flow by what a fastener carries",
        "Check the unit: a spacing is a length.",
        &[Memory],
        spacing_inverted,
    ),
    Mistake::usual(
        ("one-row-for-two", Joints, Procedure),
        "forgets that fasteners stand side by side, or counts two where there is one",
        "How many fasteners cross the cut at one station?",
        &[Memory],
        rows_miscounted,
    ),
    Mistake::usual(
        ("wrong-cut-for-the-joint", Joints, Concept),
        "takes {A'} for another joint than the one asked",
        "Which part would slide if this joint were gone? That part is {A'}.",
        &[AnalysisText, PhysicalModel],
        other_joint,
    ),
    Mistake::usual(
        ("not-the-least-factor", Allowables, Procedure),
        "takes a limit that does not govern",
        "Every limit must be kept: the least of the load factors governs.",
        &[Memory],
        not_the_least,
    ),
];

/// A force with the sign of V, as the force on the part beyond, to the right.
fn toward(lesson: &Lesson<'_>, force: Expression) -> Expression {
    if lesson.beyond_above() { force } else { -force }
}

fn force_on_cut(lesson: &Lesson<'_>, wrong: Expression) -> Vec<Replaced> {
    vec![Replaced::by(lesson.solved.slice().force_on_cut, wrong)]
}

fn spacing_inverted(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let flows = lesson.chapters().joints.iter().flat_map(|joint| &joint.along);
    let inverted = |flow: Id, rows: Id, (spacing, capacity): (Id, Id)| {
        let formula = Expression::from(flow).size() / (Expression::from(rows) * capacity.into());
        Replaced::numbers(spacing, formula, lesson.section_units())
    };
    let at_stations = flows.filter_map(|at| {
        let fasteners = at.fasteners?;
        Some(inverted(at.flow, fasteners.rows, fasteners.largest_spacing?))
    });
    let in_zones = lesson.chapters().joints.iter().flat_map(|joint| {
        let fasteners = joint.along.last().and_then(|at| at.fasteners);
        let known = fasteners.and_then(|of| Some((of.rows, of.capacity?)));
        let zones = joint.zones.iter().filter_map(move |zone| known.map(|known| (zone, known)));
        zones.map(|(zone, (rows, capacity))| inverted(zone.flow, rows, (zone.largest_spacing, capacity)))
    });
    at_stations.chain(in_zones).collect()
}

fn rows_miscounted(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let rows = |joint: &crate::build::JointWorkings| {
        let rows = joint.along.iter().find_map(|at| at.fasteners)?.rows;
        let counted = if lesson.value(rows) > 1.0 { 1.0 } else { 2.0 };
        Replaced::together([(rows, Replacement::Value(counted))])
    };
    lesson.chapters().joints.iter().filter_map(rows).collect()
}

/// One for each limit that does not govern.
fn not_the_least(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let allowables = lesson.chapters().allowables.as_ref();
    let Some(growth) = allowables.and_then(|allowables| allowables.growth.as_ref()) else {
        return Vec::new();
    };
    let least = growth.largest_factor;
    let others =
        growth.factors.iter().copied().filter(|&factor| !governs(lesson.value(factor), lesson.value(least)));
    others.map(|factor| Replaced::by(least, factor.into())).collect()
}

/// Also of a cut that is given by its joint.
fn other_joint(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let joints = &lesson.chapters().joints;
    let cut = &lesson.solved.problem().cut;
    let asked = joints.iter().map(|joint| (&joint.name, joint.first_moment));
    let asked = asked.chain(cut.joint.iter().map(|name| (name, lesson.solved.key().first_moment)));
    asked
        .flat_map(|(name, first_moment)| {
            let others = joints.iter().filter(move |other| other.name != *name);
            others.map(move |other| Replaced::by(first_moment, other.first_moment.into()))
        })
        .collect()
}
