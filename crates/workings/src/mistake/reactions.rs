//! Mistakes on the way to the reactions.

use super::lesson::{Lesson, Replaced};
use super::source::Source::{CommonErrors, ConceptInventory, ExamList, HomeworkDiscussion, Memory};
use super::{Kind, Mistake};
use crate::build::{PlaceAs, Shape, StretchWorkings};
use crate::evaluate::Replacement;
use crate::expression::Expression;
use crate::working::{Chapter::Reactions, Formula, Id};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 10] = [
    Mistake::usual(
        ("equal-shares", Reactions, Concept),
        "halves the total load though the loads are not symmetric",
        "The loads do not stand symmetrically. Take moments about one support.",
        &[ExamList, CommonErrors],
        equal_shares,
    ),
    Mistake::usual(
        ("spread-load-at-its-start", Reactions, Procedure),
        "puts the resultant of a spread load at its beginning",
        "The resultant stands at the centroid of the load: of a uniform one, at the middle of the loaded part.",
        &[CommonErrors],
        |lesson| at_an_end(lesson, |stretch| stretch.from),
    ),
    Mistake::usual(
        ("spread-load-at-its-end", Reactions, Procedure),
        "puts the resultant of a spread load at its end",
        "The resultant stands at the centroid of the load: of a uniform one, at the middle of the loaded part.",
        &[CommonErrors],
        |lesson| at_an_end(lesson, |stretch| stretch.to),
    ),
    Mistake::usual(
        ("spread-load-left-out", Reactions, Execution),
        "leaves a spread load out of the balance",
        "Every load on the beam enters the balance.",
        &[CommonErrors],
        left_out,
    ),
    Mistake::usual(
        ("intensity-as-force", Reactions, Concept),
        "uses the intensity of a spread load as if it were a force",
        "{w} is a force per length. Multiply by the loaded length first.",
        &[ConceptInventory, HomeworkDiscussion],
        intensity_as_force,
    ),
    Mistake::usual(
        ("linear-load-whole-rectangle", Reactions, Procedure),
        "takes a triangular load as intensity times length",
        "A triangle holds half of its rectangle.",
        &[HomeworkDiscussion],
        whole_rectangle,
    ),
    Mistake::usual(
        ("linear-load-wrong-third", Reactions, Procedure),
        "puts the resultant of a triangular load a third from its thin end",
        "The centroid of a triangle lies a third from its thick end.",
        &[CommonErrors, Memory],
        wrong_third,
    ),
    Mistake::usual(
        ("arm-from-the-other-support", Reactions, Procedure),
        "mixes up which support the arm is measured from, so that the two reactions are swapped",
        "Check with the other support: the moments about it must balance too.",
        &[CommonErrors],
        swapped,
    ),
    Mistake::usual(
        ("couple-times-distance", Reactions, Concept),
        "multiplies an applied couple by its distance",
        "A couple has the same moment about every point.",
        &[ConceptInventory],
        couple_times_distance,
    ),
    Mistake::usual(
        ("couple-forgotten", Reactions, Execution),
        "leaves an applied couple out of the moment balance",
        "A couple adds no force, but it does enter the moment balance.",
        &[ConceptInventory, CommonErrors],
        couple_forgotten,
    ),
];

/// The left and the right reaction of a beam in one piece on two supports that let it turn.
pub(super) fn two_reactions(lesson: &Lesson<'_>) -> Option<(Id, Id)> {
    let chapters = lesson.chapters();
    let beam = &chapters.beam;
    if !beam.hinges.is_empty() || beam.supports.iter().any(|support| support.rotation.holds()) {
        return None;
    }
    let mut held: Vec<usize> =
        (0..beam.supports.len()).filter(|&of| beam.supports[of].transverse.holds()).collect();
    held.sort_by(|&a, &b| {
        lesson.value(beam.supports[a].station).total_cmp(&lesson.value(beam.supports[b].station))
    });
    let [left, right] = held.as_slice() else { return None };
    let force = |of: usize| chapters.reactions.forces.get(of).copied().flatten();
    Some((force(*left)?, force(*right)?))
}

/// The other reaction follows from the balance of forces: it gets the other half.
fn equal_shares(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let made = two_reactions(lesson).zip(lesson.all_loads());
    made.map(|((left, _), loads)| Replaced::by(left, loads / 2.0.into())).into_iter().collect()
}

fn swapped(lesson: &Lesson<'_>) -> Vec<Replaced> {
    two_reactions(lesson).map(|(left, right)| Replaced::by(left, right.into())).into_iter().collect()
}

/// All the resultants of one stretch, each replaced in the same way.
fn each_resultant(
    stretch: &StretchWorkings,
    replacement: impl Fn(&StretchWorkings) -> (Vec<Id>, Replacement),
) -> Option<Replaced> {
    let (ids, by) = replacement(stretch);
    Replaced::together(ids.into_iter().map(|id| (id, by.clone())))
}

fn at_an_end(lesson: &Lesson<'_>, end: fn(&StretchWorkings) -> Id) -> Vec<Replaced> {
    let moved = |stretch: &StretchWorkings| {
        let places = stretch.resultants.iter().map(|resultant| resultant.place).collect();
        (places, Replacement::Expression(end(stretch).into()))
    };
    lesson.whole_stretches().filter_map(|stretch| each_resultant(stretch, moved)).collect()
}

fn left_out(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let nothing = |stretch: &StretchWorkings| {
        (stretch.resultants.iter().map(|resultant| resultant.down).collect(), Replacement::Value(0.0))
    };
    let counted = lesson.whole_stretches().filter(|stretch| !lesson.is_on_an_overhang(stretch));
    counted.filter_map(|stretch| each_resultant(stretch, nothing)).collect()
}

/// Of a load with one resultant only: the intensity of a trapezium is no one number.
fn intensity_as_force(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let alone = |stretch: &StretchWorkings| {
        let [resultant] = stretch.resultants.as_slice() else { return None };
        let intensity = match resultant.shape {
            Shape::Rectangle | Shape::Falling => stretch.down_from,
            Shape::Rising => stretch.down_to,
        };
        Some(Replaced::numbers(resultant.down, intensity.into(), lesson.beam_units()))
    };
    lesson.whole_stretches().filter_map(alone).collect()
}

/// Also of the part that the slice's station leaves.
fn whole_rectangle(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let resultants =
        lesson.whole_stretches().chain(lesson.cut_stretches()).flat_map(|stretch| &stretch.resultants);
    let undivided = |down: Id| match &lesson.working(down).formula {
        Formula::Expression(Expression::Quotient(rectangle, _)) => {
            Some(Replaced::by(down, rectangle.as_ref().clone()))
        }
        _ => None,
    };
    resultants
        .filter(|resultant| resultant.shape != Shape::Rectangle)
        .filter_map(|resultant| undivided(resultant.down))
        .collect()
}

fn wrong_third(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let mut made = Vec::new();
    for stretch in lesson.whole_stretches().chain(lesson.cut_stretches()) {
        let one = Expression::from(stretch.length) / 3.0.into();
        let two = Expression::from(2.0) * stretch.length.into() / 3.0.into();
        for resultant in &stretch.resultants {
            let offset = match (resultant.shape, stretch.place_as) {
                (Shape::Rectangle, _) => continue,
                (Shape::Rising, PlaceAs::Station) | (Shape::Falling, PlaceAs::ArmAboutRightEnd) => &one,
                (Shape::Falling, PlaceAs::Station) | (Shape::Rising, PlaceAs::ArmAboutRightEnd) => &two,
            };
            let place = match stretch.place_as {
                PlaceAs::Station => Expression::from(stretch.from) + offset.clone(),
                PlaceAs::ArmAboutRightEnd => offset.clone(),
            };
            made.push(Replaced::by(resultant.place, place));
        }
    }
    made
}

fn couple_times_distance(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let mut made = Vec::new();
    for balance in &lesson.chapters().moment_balances {
        for (couple, station) in lesson.couples() {
            if lesson.same_station(lesson.value(station), lesson.value(balance.about)) {
                continue;
            }
            let distance = (Expression::from(balance.about) - station.into()).size();
            let formula = lesson.with(balance.unknown, couple, &(Expression::from(couple) * distance));
            made.extend(formula.map(|f| Replaced::numbers(balance.unknown, f, lesson.beam_units())));
        }
    }
    made
}

fn couple_forgotten(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let balances = &lesson.chapters().moment_balances;
    let without = |unknown: Id, (couple, _): (Id, Id)| {
        lesson.without(unknown, couple).map(|formula| Replaced::by(unknown, formula))
    };
    let of = |unknown: Id| lesson.couples().into_iter().filter_map(move |couple| without(unknown, couple));
    balances.iter().flat_map(|balance| of(balance.unknown)).collect()
}
