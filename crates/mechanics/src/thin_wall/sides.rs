//! The straight sides of an outline; a rounding counts as the corner that it rounds.

use super::strip::{SideOf, meeting, sides};
use crate::real;
use crate::section::Edge;
use crate::section::{Loop, Part, Point, turn};

/// A rounding runs on from both its neighbours: its radius there and the side are square to each other within this cosine, for
/// corners of sloping sides are often written with few figures.
const TANGENT: f64 = 0.02;

/// A rounding turns by less than this, rad: the lines on both sides of half a circle do not meet.
const LARGEST_TURN: f64 = 2.9;

/// A straight side, the material on its left.
#[derive(Clone, Copy, Debug)]
pub(super) struct Side {
    pub from: Point,
    pub to: Point,
}

impl Side {
    /// How far from a point, in a direction of length 1, a ray meets this side, m; none where it does not.
    pub fn met_by(&self, point: Point, way: Point) -> Option<f64> {
        let (along, off) = (self.to.minus(self.from), self.from.minus(point));
        let turned = way.cross(along);
        let place = off.cross(way) / turned;
        let far = off.cross(along) / turned;
        (far.is_finite() && (0.0..=1.0).contains(&place)).then_some(far)
    }
}

/// The sides of a part without roundings: those of its outline, then those of its holes; and the radius of the largest rounding, m.
pub(super) fn straight_sides(part: &Part) -> (Vec<Side>, f64) {
    let rings = std::iter::once((&part.outline, true)).chain(part.holes.iter().map(|hole| (hole, false)));
    let mut largest = 0.0;
    (rings.flat_map(|(ring, outer)| sides_of(ring, outer, &mut largest)).collect(), largest)
}

/// The area of a part, m².
pub(super) fn area(part: &Part) -> f64 {
    let holes: f64 = part.holes.iter().map(|hole| turned_area(hole).abs()).sum();
    turned_area(&part.outline).abs() - holes
}

/// `½ ∮ (x dy - y dx)` of a loop: its area, m², positive where it runs counter-clockwise.
fn turned_area(of: &Loop) -> f64 {
    let (mut at, mut twice) = (of.start, 0.0);
    for edge in &of.path {
        let (Edge::Line { to } | Edge::Arc { to, .. }) = *edge;
        twice += at.minus(of.start).cross(to.minus(of.start));
        if let Edge::Arc { centre, counter_clockwise, .. } = *edge {
            let (radius, (_, sweep)) = (at.distance(centre), turn(at, to, centre, counter_clockwise));
            twice += radius * radius * (sweep - real::sin(sweep));
        }
        at = to;
    }
    0.5 * twice
}

fn sides_of(ring: &Loop, outer: bool, largest: &mut f64) -> Vec<Side> {
    let all = sides(ring);
    let count = all.len();
    let end = |k: usize| all[(k + 1) % count].from();
    let is_straight = |k: usize| matches!(all[k % count], SideOf::Straight { .. });
    let mut lines = Vec::new();
    for (k, side) in all.iter().enumerate() {
        let (before, after) = (k + count - 1, k + 1);
        let is_rounding = match *side {
            SideOf::Straight { .. } => false,
            SideOf::Round { from, to, centre, sweep } => {
                let runs_on = |at: Point, of: usize| {
                    let (radius, way) = (at.minus(centre), end(of % count).minus(all[of % count].from()));
                    radius.dot(way).abs() <= TANGENT * radius.length() * way.length()
                };
                let between = is_straight(before) && is_straight(after);
                between && sweep.abs() < LARGEST_TURN && runs_on(from, before) && runs_on(to, after)
            }
        };
        if let (true, SideOf::Round { from, centre, .. }) = (is_rounding, *side) {
            *largest = largest.max(from.distance(centre));
        }
        // An arc that is no rounding is taken as its chord.
        if !is_rounding && side.from() != end(k) {
            lines.push((side.from(), end(k)));
        }
    }
    let mut corners: Vec<Point> = Vec::new();
    for (k, &(from, to)) in lines.iter().enumerate() {
        let (next, beyond) = lines[(k + 1) % lines.len()];
        corners.push(match to == next {
            true => to,
            false => meeting((from, to.minus(from)), (next, beyond.minus(next))),
        });
    }
    if (turned_area(&Loop::polygon(&corners)) > 0.0) != outer {
        corners.reverse();
    }
    let closed = corners.iter().zip(corners.iter().cycle().skip(1));
    closed.map(|(&from, &to)| Side { from, to }).collect()
}
