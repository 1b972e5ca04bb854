//! Mistakes with the fasteners along the beam, and with what the beam may carry.

use super::lesson::{Lesson, Replaced};
use super::source::Source::Memory;
use super::{Kind, Mistake};
use crate::build::{JointWorkings, LimitKind, ZoneWorkings};
use crate::expression::Expression;
use crate::working::Chapter::{Allowables, Joints};
use crate::working::Id;
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 6] = [
    Mistake::usual(
        ("one-spacing-for-all", Joints, Procedure),
        "sets every stretch by the largest {V} of the whole beam",
        "Each stretch has a largest {V} of its own.",
        &[Memory],
        one_spacing,
    ),
    Mistake::usual(
        ("v-at-the-wrong-end", Joints, Procedure),
        "takes {V} at the end of the stretch where it is smaller",
        "The fasteners of one stretch stand equally close: the larger {V} sets them.",
        &[Memory],
        wrong_end,
    ),
    Mistake::usual(
        ("moment-not-its-change", Joints, Concept),
        "counts the fasteners by {M} itself instead of by its change over the stretch",
        "What both ends pull alike needs no fastener: take the difference of the two moments.",
        &[Memory],
        moment_itself,
    ),
    Mistake::usual(
        ("rows-in-the-number", Joints, Procedure),
        "divides the number of fasteners by the rows",
        "The balance counts all fasteners of the stretch, in whatever row they stand.",
        &[Memory],
        rows_in_number,
    ),
    Mistake::usual(
        ("factor-inverted", Allowables, Execution),
        "divides what is reached by what is allowed",
        "That is the utilisation. The loads may grow by what is allowed over what is reached.",
        &[Memory],
        factor_inverted,
    ),
    Mistake::usual(
        ("depth-in-proportion", Allowables, Concept),
        "takes what bending allows to grow with the depth itself",
        "It grows with the square of the depth: the section modulus does.",
        &[Memory],
        depth_in_proportion,
    ),
];

fn zones<'a>(lesson: &Lesson<'a>) -> impl Iterator<Item = (&'a JointWorkings, &'a ZoneWorkings)> {
    let joints = lesson.chapters().joints.iter();
    joints.flat_map(|joint| joint.zones.iter().map(move |zone| (joint, zone)))
}

/// The zones of one stretch share their shear force, so it is replaced once.
fn by_shear(lesson: &Lesson<'_>, wrong: impl Fn(&ZoneWorkings) -> Option<Expression>) -> Vec<Replaced> {
    let mut seen: Vec<Id> = Vec::new();
    let mut all = Vec::new();
    for (_, zone) in zones(lesson) {
        if !seen.contains(&zone.shear) {
            seen.push(zone.shear);
            all.extend(wrong(zone).map(|wrong| Replaced::by(zone.shear, wrong)));
        }
    }
    all
}

fn one_spacing(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let most = lesson.chapters().diagrams.largest_shear;
    let less = |zone: &ZoneWorkings| lesson.value(zone.shear) < lesson.value(most).abs() * (1.0 - 1e-9);
    by_shear(lesson, |zone| less(zone).then(|| Expression::from(most).size()))
}

fn wrong_end(lesson: &Lesson<'_>) -> Vec<Replaced> {
    by_shear(lesson, |zone| {
        let [Some(first), Some(last)] = zone.shears else { return None };
        let size = |id: Id| lesson.value(id).abs();
        let smaller = if size(first) < size(last) { first } else { last };
        let differs = size(smaller) < lesson.value(zone.shear) * (1.0 - 1e-9) && size(smaller) > 0.0;
        differs.then(|| Expression::from(smaller).size())
    })
}

fn moment_itself(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let wrong = |(joint, zone): (&JointWorkings, &ZoneWorkings)| {
        let capacity = joint.along.last()?.fasteners?.capacity?;
        let size = |id: Id| lesson.value(id).abs();
        let [first, last] = zone.moments;
        let larger = if size(first) > size(last) { first } else { last };
        // Where one of them is nothing, the other is the change.
        if size(first).min(size(last)) <= 1e-9 * size(larger) {
            return None;
        }
        let pulled = Expression::from(joint.counting.first_moment) * Expression::from(larger).size();
        let held = Expression::from(joint.counting.second_moment) * capacity.into();
        Some(Replaced::by(zone.number, pulled / held))
    };
    zones(lesson).filter_map(wrong).collect()
}

fn rows_in_number(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let wrong = |(joint, zone): (&JointWorkings, &ZoneWorkings)| {
        let rows = joint.along.last()?.fasteners?.rows;
        let several = lesson.value(rows) > 1.0;
        several.then(|| Replaced::by(zone.number, lesson.own(zone.number) / rows.into()))
    };
    zones(lesson).filter_map(wrong).collect()
}

fn factor_inverted(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let Some(allowables) = &lesson.chapters().allowables else { return Vec::new() };
    let Some(growth) = &allowables.growth else { return Vec::new() };
    let inverted = allowables.limits.iter().zip(&growth.factors).map(|(limit, &factor)| {
        let wrong = Expression::from(limit.reached).size() / limit.allowed.into();
        Replaced::by(factor, wrong)
    });
    inverted.collect()
}

fn depth_in_proportion(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let Some(allowables) = &lesson.chapters().allowables else { return Vec::new() };
    let Some(growth) = &allowables.growth else { return Vec::new() };
    let Some(depth) = growth.depth else { return Vec::new() };
    let limits = allowables.limits.iter().zip(growth.factors.iter().zip(&growth.depths));
    let bending = limits.filter(|(limit, _)| limit.kind == LimitKind::Bending);
    bending
        .map(|(_, (&factor, &least))| Replaced::by(least, Expression::from(depth) / factor.into()))
        .collect()
}
