//! Arrows: straight, one-barbed and turning.

use crate::drawing::Mark;
use crate::geometry::{Point, Rect};
use crate::palette::{Ink, Stroke};
use core::f64::consts::FRAC_PI_2;
use mechanics::real;

/// Length of an arrowhead for a stroke, px.
pub fn head_length(stroke: Stroke) -> f64 {
    5.5 + 2.2 * stroke.width
}

fn head(tip: Point, direction: Point, length: f64, ink: Ink) -> Mark {
    let half = 0.34 * length;
    let base = tip.moved(-direction.x * length, -direction.y * length);
    Mark::Polygon {
        points: vec![
            tip,
            base.moved(-direction.y * half, direction.x * half),
            base.moved(direction.y * half, -direction.x * half),
        ],
        stroke: None,
        fill: Some(ink),
    }
}

fn direction(from: Point, to: Point) -> Option<Point> {
    let length = from.distance(to);
    (length > 1e-9).then(|| Point::new((to.x - from.x) / length, (to.y - from.y) / length))
}

/// A straight arrow with its head at `to`. An arrow shorter than its head gets a smaller head; one of no
/// length is not drawn.
pub fn straight(from: Point, to: Point, stroke: Stroke) -> Vec<Mark> {
    straight_with_head(from, to, stroke, head_length(stroke))
}

/// A straight arrow whose head is `head_length` px long, where the arrow is.
pub fn straight_with_head(from: Point, to: Point, stroke: Stroke, head_length: f64) -> Vec<Mark> {
    let Some(along) = direction(from, to) else { return Vec::new() };
    let length = head_length.min(from.distance(to));
    // the shaft ends inside the head, or its square end would show beside the tip
    let shaft_end = to.moved(-along.x * length * 0.8, -along.y * length * 0.8);
    vec![Mark::Line { from, to: shaft_end, stroke }, head(to, along, length, stroke.ink)]
}

/// An arrow with heads at both ends.
pub fn double(from: Point, to: Point, stroke: Stroke) -> Vec<Mark> {
    let middle = from.towards(to, 0.5);
    let mut marks = straight(middle, to, stroke);
    marks.extend(straight(middle, from, stroke));
    marks
}

/// Which side of the way the barb of a half-arrow stands, as seen when looking along it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Barb {
    /// On the left.
    Left,
    /// On the right.
    Right,
}

/// A half-arrow (one barb), as shear is drawn: its head at `to`.
pub fn half(from: Point, to: Point, barb: Barb, stroke: Stroke) -> Vec<Mark> {
    let Some(along) = direction(from, to) else { return Vec::new() };
    let length = (head_length(stroke) * 1.15).min(from.distance(to));
    // looking along (dx, dy) on a sheet with y down, (dy, -dx) lies to the left
    let side = match barb {
        Barb::Left => Point::new(along.y, -along.x),
        Barb::Right => Point::new(-along.y, along.x),
    };
    let base = to.moved(-along.x * length, -along.y * length);
    vec![
        Mark::Line { from, to, stroke },
        Mark::Polygon {
            points: vec![to, base.moved(side.x * length * 0.42, side.y * length * 0.42), base],
            stroke: None,
            fill: Some(stroke.ink),
        },
    ]
}

/// A turning arrow: an open arc about `centre` from the angle `from` over `turn` (counter-clockwise positive),
/// its head at the end; rad.
pub fn turning(centre: Point, radius: f64, from: f64, turn: f64, stroke: Stroke) -> Vec<Mark> {
    let length = head_length(stroke).min(radius * turn.abs());
    let sense = if turn < 0.0 { -1.0 } else { 1.0 };
    // the head is a chord of the arc: it starts where the shaft ends
    let head_angle = length / radius;
    let end = from + turn;
    let tip = centre.around(radius, end);
    let base = centre.around(radius, end - sense * head_angle);
    let along = direction(base, tip).unwrap_or_else(|| {
        Point::new(real::cos(end + sense * FRAC_PI_2), -real::sin(end + sense * FRAC_PI_2))
    });
    vec![
        Mark::Arc { centre, radius, from, turn: turn - sense * head_angle * 0.8, stroke },
        head(tip, along, length, stroke.ink),
    ]
}

/// The box of the head of a straight arrow: what no label may cover.
pub fn head_rect(from: Point, to: Point, stroke: Stroke) -> Rect {
    let Some(along) = direction(from, to) else { return Rect::between(from, to) };
    let length = head_length(stroke).min(from.distance(to));
    head(to, along, length, stroke.ink).rect()
}
