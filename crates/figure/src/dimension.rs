//! Dimension lines with 45° ticks.

use crate::drawing::Mark;
use crate::geometry::Point;
use crate::palette::{Ink, Stroke, THIN};

/// Half the length of a tick as seen along either axis, px.
const TICK: f64 = 3.2;
/// How far an extension line runs past its dimension line, px.
const PAST: f64 = 4.0;
/// The gap between the thing measured and its extension line, px.
const GAP: f64 = 3.0;

fn tick(at: Point) -> Mark {
    Mark::Line {
        from: at.moved(-TICK, TICK),
        to: at.moved(TICK, -TICK),
        stroke: Stroke::solid(Ink::Quiet, 1.5 * THIN),
    }
}

/// A level dimension line at height `y`, from `from` to `to`, with a tick at both ends.
pub fn level(from: f64, to: f64, y: f64) -> Vec<Mark> {
    let (from, to) = (Point::new(from, y), Point::new(to, y));
    vec![Mark::Line { from, to, stroke: Stroke::DIMENSION }, tick(from), tick(to)]
}

/// An upright dimension line at `x`, from `from` to `to`, with a tick at both ends.
pub fn upright(x: f64, from: f64, to: f64) -> Vec<Mark> {
    let (from, to) = (Point::new(x, from), Point::new(x, to));
    vec![Mark::Line { from, to, stroke: Stroke::DIMENSION }, tick(from), tick(to)]
}

/// A chain of level dimensions at height `y`: one line, a tick at each of the stations (px, in order).
pub fn chain(stations: &[f64], y: f64) -> Vec<Mark> {
    let mut marks = Vec::new();
    if let (Some(&first), Some(&last)) = (stations.first(), stations.last()) {
        let (from, to) = (Point::new(first, y), Point::new(last, y));
        marks.push(Mark::Line { from, to, stroke: Stroke::DIMENSION });
        marks.extend(stations.iter().map(|&x| tick(Point::new(x, y))));
    }
    marks
}

/// A chain of upright dimensions at `x`: one line, a tick at each of the heights (px, in order).
pub fn upright_chain(heights: &[f64], x: f64) -> Vec<Mark> {
    let mut marks = Vec::new();
    if let (Some(&first), Some(&last)) = (heights.first(), heights.last()) {
        let (from, to) = (Point::new(x, first), Point::new(x, last));
        marks.push(Mark::Line { from, to, stroke: Stroke::DIMENSION });
        marks.extend(heights.iter().map(|&y| tick(Point::new(x, y))));
    }
    marks
}

/// The extension line from a point of the thing measured to its dimension line at `to`, a little past it.
pub fn extension(thing: Point, to: Point) -> Vec<Mark> {
    let length = thing.distance(to);
    if length < GAP {
        return Vec::new();
    }
    let from = thing.towards(to, GAP / length);
    let end = thing.towards(to, (length + PAST) / length);
    vec![Mark::Line { from, to: end, stroke: Stroke::solid(Ink::Quiet, 0.5) }]
}
