//! The signs of the supports, drawn from how they hold the beam.

use crate::drawing::{Mark, bounds};
use crate::geometry::{Point, Rect};
use crate::hatch;
use crate::palette::{HEAVY, Ink, MEDIUM, Stroke, THIN};
use core::f64::consts::{FRAC_PI_4, TAU};
use mechanics::beam::{Hold, Support};
use workings::problem::SupportKind;

/// Height of the triangle of a pin, px.
const TRIANGLE: f64 = 14.0;
/// Half the width of the triangle, px.
const TRIANGLE_HALF: f64 = 8.0;
/// Half the length of a ground line, px.
const GROUND_HALF: f64 = 13.0;
/// Depth of the hatch of the ground, px.
const GROUND_DEPTH: f64 = 6.0;
/// Half the height of the wall of a fixed end, px.
pub const WALL_HALF: f64 = 18.0;
/// Length of the zigzag of a spring, px.
const ZIGZAG: f64 = 26.0;

/// Where along the beam a support stands; it decides on which side the wall of a fixed end is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BeamPlace {
    /// At its left end.
    LeftEnd,
    /// Between its ends.
    Inside,
    /// At its right end.
    RightEnd,
}

/// The sign of a support: its marks, and the box that they fill.
pub struct SupportSign {
    /// The marks behind the beam.
    pub marks: Vec<Mark>,
    /// The marks in front of the beam.
    pub front: Vec<Mark>,
    /// The box around them.
    pub rect: Rect,
}

/// The sign of a support of a beam whose axis is at `axis` (px) and whose half depth is `half_depth` px.
pub fn sign(
    support: &Support,
    kind: SupportKind,
    place: BeamPlace,
    axis: Point,
    half_depth: f64,
) -> SupportSign {
    let below = axis.moved(0.0, half_depth);
    let (mut marks, mut front) = (Vec::new(), Vec::new());
    match (support.transverse, support.rotation) {
        (Hold::Rigid { .. }, Hold::Rigid { .. }) => fixed(place, axis, half_depth, &mut marks),
        (Hold::Rigid { .. }, rotation) => {
            if kind == SupportKind::Roller {
                roller(below, &mut marks);
            } else {
                pin(below, &mut marks);
            }
            if matches!(rotation, Hold::Spring { .. }) {
                spiral(axis, &mut front);
            }
        }
        (Hold::Free, Hold::Rigid { .. }) => guided(place, axis, half_depth, &mut marks),
        (Hold::Spring { .. }, rotation) => {
            zigzag(below, &mut marks);
            match rotation {
                Hold::Free => {}
                Hold::Rigid { .. } => guided(place, axis, half_depth, &mut marks),
                Hold::Spring { .. } => spiral(axis, &mut front),
            }
        }
        (Hold::Free, Hold::Spring { .. }) => spiral(axis, &mut front),
        (Hold::Free, Hold::Free) => {}
    }
    let rect = bounds(&marks).joined(bounds(&front)).joined(Rect::between(below, below));
    SupportSign { marks, front, rect }
}

/// The ground: a line with hatch on the side away from the beam, `across` a box beside the line.
fn ground(from: Point, to: Point, hatched: Rect, marks: &mut Vec<Mark>) {
    let loops = [vec![
        Point::new(hatched.left, hatched.top),
        Point::new(hatched.right, hatched.top),
        Point::new(hatched.right, hatched.bottom),
        Point::new(hatched.left, hatched.bottom),
    ]];
    marks.extend(hatch::marks(&loops, FRAC_PI_4, 3.2, Stroke::solid(Ink::Quiet, THIN)));
    marks.push(Mark::Line { from, to, stroke: Stroke::OUTLINE });
}

fn level_ground(middle: Point, marks: &mut Vec<Mark>) {
    let (from, to) = (middle.moved(-GROUND_HALF, 0.0), middle.moved(GROUND_HALF, 0.0));
    ground(from, to, Rect::between(from, to.moved(0.0, GROUND_DEPTH)), marks);
}

fn triangle(apex: Point, marks: &mut Vec<Mark>) {
    marks.push(Mark::Polygon {
        points: vec![apex, apex.moved(TRIANGLE_HALF, TRIANGLE), apex.moved(-TRIANGLE_HALF, TRIANGLE)],
        stroke: Some(Stroke::OUTLINE),
        fill: Some(Ink::Paper),
    });
    marks.push(Mark::Circle {
        centre: apex.moved(0.0, 1.0),
        radius: 2.4,
        stroke: Some(Stroke::OUTLINE),
        fill: Some(Ink::Paper),
    });
}

fn pin(apex: Point, marks: &mut Vec<Mark>) {
    level_ground(apex.moved(0.0, TRIANGLE), marks);
    triangle(apex, marks);
}

fn roller(apex: Point, marks: &mut Vec<Mark>) {
    let radius = 2.6;
    level_ground(apex.moved(0.0, TRIANGLE + 2.0 * radius + 1.0), marks);
    triangle(apex, marks);
    for across in [-5.0, 0.0, 5.0] {
        marks.push(Mark::Circle {
            centre: apex.moved(across, TRIANGLE + radius + 0.6),
            radius,
            stroke: Some(Stroke::solid(Ink::Line, 1.0)),
            fill: Some(Ink::Paper),
        });
    }
}

/// The wall beside an end: the line at `x`, hatched towards `outwards` (-1 left, 1 right).
fn wall(x: f64, axis: f64, outwards: f64, marks: &mut Vec<Mark>) {
    let (from, to) = (Point::new(x, axis - WALL_HALF), Point::new(x, axis + WALL_HALF));
    ground(from, to, Rect::between(from, to.moved(outwards * (GROUND_DEPTH + 1.0), 0.0)), marks);
}

fn fixed(place: BeamPlace, axis: Point, half_depth: f64, marks: &mut Vec<Mark>) {
    match place {
        BeamPlace::LeftEnd => wall(axis.x, axis.y, -1.0, marks),
        BeamPlace::RightEnd => wall(axis.x, axis.y, 1.0, marks),
        BeamPlace::Inside => {
            // a clamp: the beam runs through between two grounds
            for side in [-1.0, 1.0] {
                let edge = axis.moved(0.0, side * half_depth);
                let (from, to) = (edge.moved(-9.0, 0.0), edge.moved(9.0, 0.0));
                ground(from, to, Rect::between(from, to.moved(0.0, side * (GROUND_DEPTH + 4.0))), marks);
            }
        }
    }
}

fn guided(place: BeamPlace, axis: Point, half_depth: f64, marks: &mut Vec<Mark>) {
    let roller = |x: f64, y: f64| Mark::Circle {
        centre: Point::new(x, y),
        radius: 2.6,
        stroke: Some(Stroke::solid(Ink::Line, 1.0)),
        fill: Some(Ink::Paper),
    };
    let plate = |x: f64| Mark::Line {
        from: Point::new(x, axis.y - WALL_HALF * 0.8),
        to: Point::new(x, axis.y + WALL_HALF * 0.8),
        stroke: Stroke::solid(Ink::Line, HEAVY),
    };
    let sides: &[f64] = match place {
        BeamPlace::LeftEnd => &[-1.0],
        BeamPlace::RightEnd => &[1.0],
        BeamPlace::Inside => &[-1.0, 1.0],
    };
    if place == BeamPlace::Inside {
        // a post through the beam that two walls keep upright
        for side in sides {
            let x = axis.x + side * 3.0;
            marks.push(Mark::Line {
                from: Point::new(x, axis.y + half_depth),
                to: Point::new(x, axis.y + half_depth + 22.0),
                stroke: Stroke::OUTLINE,
            });
            let (from, to) = (
                Point::new(axis.x + side * 8.8, axis.y + half_depth + 4.0),
                Point::new(axis.x + side * 8.8, axis.y + half_depth + 22.0),
            );
            ground(from, to, Rect::between(from, to.moved(side * GROUND_DEPTH, 0.0)), marks);
            marks.push(roller(axis.x + side * 5.9, axis.y + half_depth + 9.0));
            marks.push(roller(axis.x + side * 5.9, axis.y + half_depth + 17.0));
        }
        return;
    }
    for side in sides {
        marks.push(plate(axis.x));
        wall(axis.x + side * 7.4, axis.y, *side, marks);
        for down in [-0.5, 0.5] {
            marks.push(roller(axis.x + side * 4.0, axis.y + down * WALL_HALF));
        }
    }
}

fn zigzag(top: Point, marks: &mut Vec<Mark>) {
    let mut points = vec![top, top.moved(0.0, 4.0)];
    let turns = 6;
    let pitch = (ZIGZAG - 8.0) / f64::from(turns);
    for turn in 0..turns {
        let side = if turn % 2 == 0 { 6.0 } else { -6.0 };
        points.push(top.moved(side, 4.0 + pitch * (f64::from(turn) + 0.5)));
    }
    points.push(top.moved(0.0, ZIGZAG - 4.0));
    points.push(top.moved(0.0, ZIGZAG));
    for pair in points.windows(2) {
        marks.push(Mark::Line { from: pair[0], to: pair[1], stroke: Stroke::OUTLINE });
    }
    level_ground(top.moved(0.0, ZIGZAG), marks);
}

/// A spiral about the axis of the beam, as a spring against turning is drawn, with its foot on a ground.
fn spiral(axis: Point, marks: &mut Vec<Mark>) {
    let turns = 1.5;
    let steps = 48;
    let point = |step: i32| {
        let part = f64::from(step) / f64::from(steps);
        axis.around(1.5 + 8.5 * part, -TAU * turns * part)
    };
    for step in 0..steps {
        marks.push(Mark::Line {
            from: point(step),
            to: point(step + 1),
            stroke: Stroke::solid(Ink::Line, MEDIUM),
        });
    }
    // the outer end is held by a small ground
    let end = point(steps);
    ground(
        end.moved(0.0, -6.0),
        end.moved(0.0, 6.0),
        Rect::between(end.moved(0.0, -6.0), end.moved(-5.0, 6.0)),
        marks,
    );
}
