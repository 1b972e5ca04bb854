//! Mistakes with shear force and bending moment.

use super::lesson::{Leaf, Lesson, Replaced};
use super::source::Source::{CommonErrors, EquilibriumSketches, ExamList, HomeworkDiscussion, Memory};
use super::{Kind, Mistake};
use crate::build::{LoadKind, StretchWorkings};
use crate::evaluate::Replacement;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter::Diagrams, Id};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 13] = [
    Mistake::usual(
        ("v-is-the-load-here", Diagrams, Concept),
        "takes the load at the section for {V}, without cutting",
        "Cut at {x} and balance one piece. {V} is what the other piece must supply.",
        &[EquilibriumSketches],
        load_here,
    ),
    Mistake::usual(
        ("reaction-forgotten", Diagrams, Procedure),
        "sums the loads to the left without the reaction",
        "The support pushes on the piece as well.",
        &[EquilibriumSketches],
        reaction_forgotten,
    ),
    Mistake::usual(
        ("spread-load-not-cut", Diagrams, Procedure),
        "takes the whole spread load though the cut passes through it",
        "Only the load on the piece that you kept acts on it.",
        &[HomeworkDiscussion, Memory],
        not_cut,
    ),
    Mistake::usual(
        ("spread-load-forgotten", Diagrams, Execution),
        "leaves out the part of the spread load left of the cut",
        "The load from its start to the cut acts on the piece.",
        &[CommonErrors],
        part_forgotten,
    ),
    Mistake::usual(
        ("spread-load-full-arm", Diagrams, Procedure),
        "turns the part of the spread load about the cut with its whole length as arm",
        "The resultant of the part stands at its centroid: under a uniform load, at its middle.",
        &[CommonErrors],
        full_arm,
    ),
    Mistake::usual(
        ("wrong-side-of-the-jump", Diagrams, Procedure),
        "gives {V} on the other side of a force",
        "{V} jumps at a force. Say on which side you cut.",
        &[ExamList, Memory],
        other_side_of_jump,
    ),
    Mistake::usual(
        ("couple-no-jump", Diagrams, Concept),
        "draws {M} through a couple without a jump",
        "An applied couple makes {M} jump by its size and leaves {V} alone.",
        &[Memory],
        no_jump,
    ),
    Mistake::usual(
        ("v-times-x", Diagrams, Concept),
        "multiplies {V} at {x} by {x}",
        "{M} is the area under {V} up to {x}, and {V} is not constant.",
        &[Memory],
        shear_times_station,
    ),
    Mistake::usual(
        ("straight-line-m", Diagrams, Concept),
        "joins the end values of {M} under a spread load by a straight line",
        "Under a spread load {V} is not constant, so {M} is curved: under a uniform one it is a parabola.",
        &[Memory],
        straight_line,
    ),
    Mistake::usual(
        ("m-max-at-midspan", Diagrams, Concept),
        "looks for the largest {M} at midspan",
        "{M} is largest where {V} passes through zero, or at a jump.",
        &[Memory],
        largest_at_midspan,
    ),
    Mistake::usual(
        ("m-max-under-the-force", Diagrams, Concept),
        "looks for the largest {M} under the point force only",
        "{M} is largest where {V} passes through zero, or at a jump.",
        &[Memory],
        largest_under_force,
    ),
    Mistake::usual(
        ("v-sign", Diagrams, Execution),
        "does not keep the course's sign habit for {V}",
        "Right size, wrong sign for this course. Look at the sign figure.",
        &[CommonErrors],
        |lesson| {
            opposite(
                lesson,
                [Some(lesson.solved.key().shear), Some(lesson.chapters().diagrams.largest_shear)],
            )
        },
    ),
    Mistake::usual(
        ("m-sign", Diagrams, Execution),
        "does not keep the course's sign habit for {M}",
        "Right size, wrong sign for this course. Look at the sign figure.",
        &[CommonErrors],
        |lesson| {
            let diagrams = &lesson.chapters().diagrams;
            let hogging_beside_sagging = lesson.hogging_beside_sagging();
            // Of a beam that bends both ways the sign tells which way: that is more than a habit.
            let habit = |id: Option<Id>| id.filter(|id| !hogging_beside_sagging.contains(id));
            let all = [Some(lesson.solved.key().moment), diagrams.sagging, diagrams.hogging];
            opposite(lesson, all.map(habit))
        },
    ),
];

/// The load whose place is nearest; of loads equally near the first, the beam's own weight last of all.
fn load_here(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let x = lesson.value(lesson.chapters().station);
    let labels = &lesson.solved.problem().loads;
    let away = |load: usize, kind: LoadKind| {
        let value = |id: Id| lesson.value(id);
        let distance = match kind {
            LoadKind::Force { station, .. } => (value(station) - x).abs(),
            LoadKind::Spread { from, to, .. } => (value(from) - x).max(x - value(to)).max(0.0),
            LoadKind::Couple { .. } => return None,
        };
        let own_weight = labels.get(load).is_some_and(|label| label.self_weight);
        Some((own_weight, distance, lesson.force_of(load)?))
    };
    let loads = lesson.chapters().beam.loads.iter().enumerate();
    let nearest = loads
        .filter_map(|(load, given)| away(load, given.kind))
        .min_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    nearest.map(|(.., force)| Replaced::by(lesson.solved.key().shear, -force)).into_iter().collect()
}

fn reaction_forgotten(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let key = lesson.solved.key();
    let is_reaction =
        |id: Id| matches!(lesson.working(id).symbol.role, Role::Reaction | Role::ReactionCouple);
    let without = |id: Id| {
        let change = |read: Id| if is_reaction(read) { Leaf::Goes } else { Leaf::Stays };
        lesson.changed(id, &change).map(|formula| Replaced::by(id, formula))
    };
    [key.shear, key.moment].into_iter().filter_map(without).collect()
}

fn not_cut(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let shear = lesson.solved.key().shear;
    let whole = |stretch: &StretchWorkings| {
        let whole = lesson.force_of(stretch.load)?;
        lesson.shear_with(stretch, &whole).map(|formula| Replaced::by(shear, formula))
    };
    lesson.cut_stretches().filter_map(whole).collect()
}

fn part_forgotten(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let nothing = |stretch: &StretchWorkings| {
        let downs = stretch.resultants.iter().map(|resultant| (resultant.down, Replacement::Value(0.0)));
        Replaced::together(downs)
    };
    lesson.cut_stretches().filter_map(nothing).collect()
}

fn full_arm(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let all = |stretch: &StretchWorkings| {
        let length = Replacement::Expression(stretch.length.into());
        Replaced::together(stretch.resultants.iter().map(|resultant| (resultant.place, length.clone())))
    };
    lesson.cut_stretches().filter_map(all).collect()
}

fn other_side_of_jump(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let chapters = lesson.chapters();
    let mut jumps: Vec<[Id; 2]> = chapters.diagrams.stops.iter().map(|stop| stop.shear).collect();
    jumps.extend(chapters.left_of_slice.map(|left| [left.shear, lesson.solved.key().shear]));
    // At a couple alone M jumps and V does not.
    let nothing = lesson.no_shear();
    jumps
        .retain(|&[left, right]| left != right && (lesson.value(left) - lesson.value(right)).abs() > nothing);
    let swapped =
        |[left, right]: [Id; 2]| [Replaced::by(left, right.into()), Replaced::by(right, left.into())];
    jumps.into_iter().flat_map(swapped).collect()
}

/// The couple is missing just right of it, and in every balance of a piece that it acts on.
fn no_jump(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let without = |moment: Id, (couple, _): (Id, Id)| {
        lesson.without(moment, couple).map(|formula| Replaced::by(moment, formula))
    };
    let of = |moment: Id| lesson.couples().into_iter().filter_map(move |couple| without(moment, couple));
    lesson.formulas(Diagrams, Role::BendingMoment).flat_map(of).collect()
}

fn shear_times_station(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let key = lesson.solved.key();
    let station = lesson.chapters().station;
    if lesson.value(station) == 0.0 {
        return Vec::new();
    }
    vec![Replaced::by(key.moment, Expression::from(key.shear) * station.into())]
}

/// Between the key stations to the left and to the right of the slice's, where a spread load acts there.
fn straight_line(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let station = lesson.chapters().station;
    let Some(reach) = lesson.reach_at(lesson.value(station)) else { return Vec::new() };
    if reach.intensity.is_none() || reach.is_end(lesson, station) {
        return Vec::new();
    }
    let (start, end) = (reach.from.moment[1], reach.to.moment[0]);
    let slope = (Expression::from(end) - start.into()) / reach.length();
    let line = Expression::from(start) + slope * (Expression::from(station) - reach.from.station.into());
    vec![Replaced::by(lesson.solved.key().moment, line)]
}

fn largest_at_midspan(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let Some(sagging) = lesson.chapters().diagrams.sagging else { return Vec::new() };
    let made = lesson.midspan_of(sagging).and_then(|middle| Some(lesson.inner_at(&middle)?.moment));
    made.map(|moment| Replaced::by(sagging, moment)).into_iter().collect()
}

fn largest_under_force(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let chapters = lesson.chapters();
    let Some(sagging) = chapters.diagrams.sagging else { return Vec::new() };
    let under = |kind: LoadKind| {
        let LoadKind::Force { station, .. } = kind else { return None };
        let x = lesson.value(station);
        let stop =
            chapters.diagrams.stops.iter().find(|stop| lesson.same_station(lesson.value(stop.station), x))?;
        // Where M hogs or vanishes nobody looks for the largest sagging moment.
        (lesson.value(stop.moment[0]) > lesson.no_moment())
            .then(|| Replaced::by(sagging, stop.moment[0].into()))
    };
    chapters.beam.loads.iter().filter_map(|load| under(load.kind)).collect()
}

fn opposite<const N: usize>(lesson: &Lesson<'_>, of: [Option<Id>; N]) -> Vec<Replaced> {
    of.into_iter().flatten().map(|id| Replaced::by(id, -lesson.own(id))).collect()
}
