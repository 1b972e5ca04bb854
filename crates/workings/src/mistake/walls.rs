//! Mistakes with the shear flow in thin walls and with the shear centre.

use super::lesson::{Lesson, Replaced};
use super::source::Source::Memory;
use super::{Kind, Mistake};
use crate::build::{CellWall, CellWorkings, CentreWorkings, OneCell, WallFlow};
use crate::evaluate::Replacement;
use crate::expression::Expression;
use crate::working::{Chapter::Walls, Id};
use Kind::{Concept, Execution, Procedure};

pub(super) static MISTAKES: [Mistake; 14] = [
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
                let torque = centre.torsion.first();
                torque
                    .map(|&torque| Replaced::by(torque, Expression::from(shear) * arm))
                    .into_iter()
                    .collect()
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
            of_cells(lesson, |cells| {
                let open = cells.cells.iter().map(|of| (of.closing, Replacement::Value(0.0)));
                Replaced::together(open).into_iter().collect()
            })
        },
    ),
    Mistake::usual(
        ("one-cell-closed-only", Walls, Procedure),
        "closes one cell and leaves the other open",
        "Each cell was cut open, so each needs a closing flow of its own: as many flows as cells, and as many conditions.",
        &[Memory],
        |lesson| of_cells(lesson, closes_one),
    ),
    Mistake::usual(
        ("each-cell-closed-by-itself", Walls, Concept),
        "closes each cell as if the other were not there",
        "In the wall between two cells the flow of the neighbour runs too, and twists this cell with it: the conditions hang together.",
        &[Memory],
        |lesson| of_cells(lesson, closes_each_by_itself),
    ),
    Mistake::usual(
        ("shared-wall-with-the-wrong-sign", Walls, Procedure),
        "counts the flow of the neighbour with the wrong sign in the condition of a cell",
        "Both flows run counter-clockwise round their own cells, so in the wall between them they run against each other: in the \
         condition of the one the flow of the other has a minus.",
        &[Memory],
        |lesson| {
            of_cells(lesson, |cells| {
                let turned =
                    cells.shared.iter().map(|&(.., id)| (id, Replacement::Expression(-lesson.own(id))));
                Replaced::together(turned).into_iter().collect()
            })
        },
    ),
    Mistake::usual(
        ("flows-added-in-the-shared-wall", Walls, Execution),
        "adds both closing flows in the wall between two cells",
        "There the one runs up while the other runs down: take the one from the other.",
        &[Memory],
        |lesson| of_cells(lesson, |cells| adds_both(lesson, cells)),
    ),
    Mistake::usual(
        ("closing-flow-without-thickness", Walls, Concept),
        "closes the cell without regard to the thickness",
        "A wall twists by its stress, not by its flow: each sum of the flow and each length is divided by the wall's thickness.",
        &[Memory],
        |lesson| of_cells(lesson, closes_by_lengths),
    ),
    Mistake::usual(
        ("closed-cell-twisted-as-open", Walls, Concept),
        "takes the torsion constant of an open section for the closed cell",
        "The flow of a closed cell runs round it: its torsion constant is four times the square of the enclosed area over the sum of \
         length over thickness.",
        &[Memory],
        |lesson| {
            let of = |name: &str| lesson.solved.workings().id(name);
            let slit = of("torsion constant, were the cell slit open");
            match (of("torsion constant"), slit.or_else(|| of("torsion constant, were every cell slit open")))
            {
                (Some(constant), Some(slit)) => vec![Replaced::by(constant, slit.into())],
                _ => Vec::new(),
            }
        },
    ),
    Mistake::usual(
        ("inner-wall-left-out-of-torsion", Walls, Concept),
        "takes two cells for one in torsion, without the wall between them",
        "The wall between two cells takes the difference of both flows: the cells twist alike, and what is wanted is the flow round each.",
        &[Memory],
        |lesson| of_cells(lesson, |cells| twists_as_one(lesson, cells)),
    ),
];

fn of_cells(lesson: &Lesson<'_>, make: impl FnOnce(&CellWorkings) -> Vec<Replaced>) -> Vec<Replaced> {
    lesson.solved.cells().map(make).unwrap_or_default()
}

fn all(terms: impl Iterator<Item = Expression>) -> Expression {
    Expression::sum(terms.collect())
}

fn signed(sense: f64, of: Expression) -> Expression {
    if sense > 0.0 { of } else { -of }
}

/// The flow that would close a cell, were no other beside it; none where it has no neighbour.
fn by_itself(cell: &OneCell) -> Option<Expression> {
    let condition = cell.condition?;
    Some(-(Expression::from(condition.open) / condition.round.into()))
}

/// Each cell in turn, and the others left open.
fn closes_one(cells: &CellWorkings) -> Vec<Replaced> {
    let one = |cell: &OneCell| {
        let others = cells.cells.iter().filter(|other| other.closing != cell.closing);
        let open = others.map(|other| (other.closing, Replacement::Value(0.0)));
        Replaced::together(
            [(cell.closing, Replacement::Expression(by_itself(cell)?))].into_iter().chain(open),
        )
    };
    cells.cells.iter().filter_map(one).collect()
}

fn closes_each_by_itself(cells: &CellWorkings) -> Vec<Replaced> {
    let each =
        cells.cells.iter().filter_map(|cell| Some((cell.closing, Replacement::Expression(by_itself(cell)?))));
    Replaced::together(each).into_iter().collect()
}

/// In every wall between two cells, with no sign of the one against the other.
fn adds_both(lesson: &Lesson<'_>, cells: &CellWorkings) -> Vec<Replaced> {
    let closings: Vec<Id> = cells.cells.iter().map(|cell| cell.closing).collect();
    let without_sign = |term: &Expression| match term {
        Expression::Negative(of) if matches!(of.as_ref(), Expression::Working(id) if closings.contains(id)) => {
            Some(of.as_ref().clone())
        }
        _ => None,
    };
    let between = cells.walls.iter().filter(|of| of.cells.len() > 1).flat_map(|of| &of.flows);
    let added = between.map(|&id| (id, Replacement::Expression(lesson.own(id).map_leaves(&without_sign))));
    Replaced::together(added).into_iter().collect()
}

/// All flows over all lengths; of several cells as if every wall were as thick as the first.
fn closes_by_lengths(cells: &CellWorkings) -> Vec<Replaced> {
    let on = |cell: usize| {
        let own = move |of: &'_ CellWall| {
            of.cells.iter().find(|(other, _)| *other == cell).map(|(_, sense)| *sense)
        };
        cells.walls.iter().filter_map(move |of| Some((of, own(of)?)))
    };
    let lengths = |cell: usize| all(on(cell).map(|(of, _)| of.length.into()));
    let sums = |cell: usize| all(on(cell).map(|(of, sense)| signed(sense, of.sum.into())));
    if let [only] = cells.cells.as_slice() {
        return vec![Replaced::by(only.closing, -(sums(0) / lengths(0)))];
    }
    let Some(thickness) = cells.walls.first().map(|of| of.thickness.clone()) else { return Vec::new() };
    let mut replaced = Vec::new();
    for (cell, of) in cells.cells.iter().enumerate() {
        let Some(condition) = of.condition else { continue };
        replaced.push((condition.round, lengths(cell) / thickness.clone()));
        replaced.push((condition.open, sums(cell) / thickness.clone()));
    }
    for &(one, other, id) in &cells.shared {
        let between = on(one).filter_map(|(of, sense)| {
            let against = of.cells.iter().find(|(cell, _)| *cell == other)?.1;
            Some(signed(sense * against, of.length.into()))
        });
        replaced.push((id, all(between) / thickness.clone()));
    }
    let replaced = replaced.into_iter().map(|(id, formula)| (id, Replacement::Expression(formula)));
    Replaced::together(replaced).into_iter().collect()
}

/// One cell of all, with the walls on its outside.
fn twists_as_one(lesson: &Lesson<'_>, cells: &CellWorkings) -> Vec<Replaced> {
    let of = |name: &str| lesson.solved.workings().id(name);
    let area = |cell: &OneCell| of(&format!("area inside the middle lines of cell {}", cell.number));
    let areas: Option<Vec<Id>> = cells.cells.iter().map(area).collect();
    let (Some(constant), Some(areas), true) = (of("torsion constant"), areas, cells.cells.len() > 1) else {
        return Vec::new();
    };
    let outside = cells.walls.iter().filter(|of| of.cells.len() == 1);
    let round = all(outside.map(|of| Expression::from(of.length) / of.thickness.clone()));
    let area = all(areas.into_iter().map(Expression::from));
    vec![Replaced::by(constant, Expression::Number(4.0) * area.power(2) / round)]
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
    let in_cell =
        |k: &usize| lesson.solved.cells().is_some_and(|cells| cells.walls.iter().any(|of| of.wall == *k));
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
/// Who does it in one flange does it in all: once for each flange, the others with it.
fn without_half(lesson: &Lesson<'_>) -> Vec<Replaced> {
    let straight: Vec<(Id, Expression)> = walls(lesson)
        .filter(|wall| wall.begin.is_none() && wall.middle.is_none())
        .map(|wall| (wall.force, Expression::from(wall.length) * wall.end.into()))
        .collect();
    let from = |first: usize| {
        let (before, rest) = straight.split_at(first);
        let all = rest.iter().chain(before);
        Replaced::together(all.map(|(force, wrong)| (*force, Replacement::Expression(wrong.clone()))))
    };
    (0..straight.len()).filter_map(from).collect()
}
