//! Mistakes with the shear flow in thin walls and with the shear centre.

use super::lesson::{Lesson, Replaced};
use super::source::Source::Memory;
use super::{Kind, Mistake};
use crate::build::{CellWorkings, CentreWorkings, WallFlow};
use crate::dimension::Dimension;
use crate::expression::Expression;
use crate::quantity::Quantity;
use crate::role::Role;
use crate::working::{Chapter::Walls, Id};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 9] = [
    Mistake::usual(
        ("flow-starts-anew", Walls, Concept),
        "lets the shear flow start from zero in each wall",
        "What flows out of one wall flows into the next: only a free edge begins at zero.",
        &[Memory],
        starts_anew,
    ),
    Mistake::usual(
        ("flange-force-without-half", Walls, Execution),
        "takes the largest flow of a flange for its mean",
        "Along the flange the flow grows from zero in a straight line: the force is half of the largest flow times the length.",
        &[Memory],
        without_half,
    ),
    Mistake::usual(
        ("one-flange-only", Walls, Procedure),
        "takes the moment of one flange only",
        "Both flanges turn the same way: their moments add up.",
        &[Memory],
        |lesson| {
            let one = |centre: &CentreWorkings| match centre.moments.as_slice() {
                [one, _] => vec![Replaced::by(centre.moment, (*one).into())],
                _ => Vec::new(),
            };
            of_channel(lesson, one)
        },
    ),
    Mistake::usual(
        ("shear-centre-at-the-centroid", Walls, Concept),
        "takes the centroid for the shear centre",
        "The shear flow has a moment about the centroid. The shear centre is where the shear force has the same one.",
        &[Memory],
        |lesson| of_centre(lesson, |centre| vec![Replaced::by(centre.place, centre.centroid.into())]),
    ),
    Mistake::usual(
        ("wrong-side-of-the-web", Walls, Concept),
        "puts the shear centre on the wrong side of the web",
        "The flanges turn the web's force away from them: the shear centre lies on the other side of the web than the flanges.",
        &[Memory],
        |lesson| {
            let other = |centre: &CentreWorkings| {
                let distance = Expression::from(centre.distance);
                let place = centre.web.clone() + if centre.to_the_right { -distance } else { distance };
                vec![Replaced::by(centre.place, place)]
            };
            of_channel(lesson, other)
        },
    ),
    Mistake::usual(
        ("arm-from-the-web", Walls, Procedure),
        "measures the arm of the load from the web",
        "The load twists by its distance from the shear centre, not from the web.",
        &[Memory],
        |lesson| {
            let shear = lesson.solved.key().shear;
            let from_web = |centre: &CentreWorkings| {
                let arm = Expression::from(centre.centroid) - centre.web.clone();
                vec![Replaced::by(centre.torque, Expression::from(shear) * arm)]
            };
            of_centre(lesson, from_web)
        },
    ),
    Mistake::usual(
        ("cell-left-open", Walls, Procedure),
        "leaves the cell cut open",
        "Cut open the tube twists. Only with the flow round the cell that turns it back is it whole again.",
        &[Memory],
        |lesson| {
            let nothing =
                || Expression::Quantity(Quantity::new(0.0, Dimension::FORCE_PER_LENGTH), Role::ShearFlow);
            of_cell(lesson, |cell| vec![Replaced::by(cell.closing, nothing())])
        },
    ),
    Mistake::usual(
        ("closing-flow-without-thickness", Walls, Concept),
        "closes the cell without regard to the thickness",
        "A wall twists by its stress, not by its flow: each sum of the flow and each length is divided by the wall's thickness.",
        &[Memory],
        |lesson| of_cell(lesson, closes_by_lengths),
    ),
    Mistake::usual(
        ("closed-cell-twisted-as-open", Walls, Concept),
        "takes the torsion constant of an open section for the closed cell",
        "The flow of a closed cell runs round it: its torsion constant is four times the square of the enclosed area over the sum of \
         length over thickness.",
        &[Memory],
        |lesson| {
            let of = |name: &str| lesson.solved.workings().id(name);
            match (of("torsion constant"), of("torsion constant, were the cell slit open")) {
                (Some(constant), Some(slit)) => vec![Replaced::by(constant, slit.into())],
                _ => Vec::new(),
            }
        },
    ),
];

fn of_cell(lesson: &Lesson<'_>, make: impl FnOnce(&CellWorkings) -> Vec<Replaced>) -> Vec<Replaced> {
    lesson.solved.cell().map(make).unwrap_or_default()
}

/// All flows over all lengths.
fn closes_by_lengths(cell: &CellWorkings) -> Vec<Replaced> {
    let all = |ids: &[Id]| Expression::sum(ids.iter().map(|&id| id.into()).collect());
    vec![Replaced::by(cell.closing, -(all(&cell.sums) / all(&cell.lengths)))]
}

fn walls<'a>(lesson: &Lesson<'a>) -> impl Iterator<Item = &'a WallFlow> {
    lesson.chapters().walls.iter().flat_map(|walls| &walls.walls)
}

fn of_centre(lesson: &Lesson<'_>, make: impl FnOnce(&CentreWorkings) -> Vec<Replaced>) -> Vec<Replaced> {
    let centre = lesson.chapters().walls.as_ref().and_then(|walls| walls.centre.as_ref());
    centre.map(make).unwrap_or_default()
}

/// The same of a channel: two flanges on one side of the web, which turn the same way.
fn of_channel(lesson: &Lesson<'_>, make: impl FnOnce(&CentreWorkings) -> Vec<Replaced>) -> Vec<Replaced> {
    of_centre(lesson, |centre| match centre.moments.as_slice() {
        [one, other] if lesson.solved.value(*one) * lesson.solved.value(*other) > 0.0 => make(centre),
        _ => Vec::new(),
    })
}

/// In the walls of no cell: round a cell no flow begins at zero.
fn starts_anew(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let in_cell = |k: &usize| lesson.solved.cell().is_some_and(|cell| cell.walls.contains(k));
    let largest = lesson.chapters().walls.as_ref().and_then(|walls| walls.largest_flow);
    let of_wall = |wall: &WallFlow| -> Vec<Replaced> {
        let Some(begin) = wall.begin else { return Vec::new() };
        let reading: Vec<Id> = [wall.middle, Some(wall.end), largest]
            .into_iter()
            .flatten()
            .filter(|id| lesson.reads(*id, begin))
            .collect();
        let without = |id: Id| lesson.without(id, begin).map(|formula| Replaced::by(id, formula));
        reading.into_iter().filter_map(without).collect()
    };
    walls(lesson).enumerate().filter(|(k, _)| !in_cell(k)).flat_map(|(_, wall)| of_wall(wall)).collect()
}

/// The force of each wall whose flow starts from a free edge in a straight line.
fn without_half(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let straight = walls(lesson).filter(|wall| wall.begin.is_none() && wall.middle.is_none());
    straight.map(|wall| Replaced::by(wall.force, Expression::from(wall.length) * wall.end.into())).collect()
}
