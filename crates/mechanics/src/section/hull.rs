//! The corners of a section that a straight line can touch from outside, and its farthest point in a direction.

use super::ring::Curve;
use super::{Point, Section};
use crate::real;

/// A corner nearer to the line through its neighbours than this part of the section's size lies on it.
const ON_THE_LINE: f64 = 1e-9;

impl Section {
    /// The corners of the convex hull of the section's corners, counter-clockwise from the lowest one (of several the
    /// leftmost), in the coordinates of the outlines, m. Of an arc only its ends count.
    pub fn hull(&self) -> Vec<Point> {
        self.hull_where(|_| true)
    }

    /// The same of some of the parts alone, by their places in the section: those of one of several materials. Empty where there are none.
    pub fn hull_of(&self, parts: &[usize]) -> Vec<Point> {
        self.hull_where(|part| parts.contains(&part))
    }

    fn hull_where(&self, counts: impl Fn(usize) -> bool) -> Vec<Point> {
        let rings = self.rings().iter().filter(|ring| counts(ring.part));
        let mut points: Vec<Point> =
            rings.flat_map(|ring| ring.stretches.iter().map(|stretch| stretch.from)).collect();
        points.sort_by(|a, b| a.y.total_cmp(&b.y).then(a.x.total_cmp(&b.x)));
        points.dedup_by(|a, b| a.distance(*b) <= self.tolerance());
        let size = self.properties().height().max(self.properties().breadth());
        let half = |points: &mut dyn Iterator<Item = Point>| {
            let mut half: Vec<Point> = Vec::new();
            for point in points {
                while let [.., a, b] = half.as_slice() {
                    if b.minus(*a).cross(point.minus(*a)) > ON_THE_LINE * size * size {
                        break;
                    }
                    half.pop();
                }
                half.push(point);
            }
            half.pop();
            half
        };
        let mut hull = half(&mut points.iter().copied());
        hull.extend(half(&mut points.iter().rev().copied()));
        let origin = self.origin();
        hull.into_iter().map(|point| point.plus(origin)).collect()
    }

    /// The point of the section farthest in a direction, in the coordinates of the outlines, m; of several the first one of
    /// the outline. None where the direction is none.
    pub fn farthest(&self, direction: Point) -> Option<Point> {
        self.farthest_where(|_| true, direction)
    }

    /// The same of some of the parts alone, by their places in the section. None where there are none.
    pub fn farthest_of(&self, parts: &[usize], direction: Point) -> Option<Point> {
        self.farthest_where(|part| parts.contains(&part), direction)
    }

    fn farthest_where(&self, counts: impl Fn(usize) -> bool, direction: Point) -> Option<Point> {
        let length = real::hypot(direction.x, direction.y);
        if !(length > 0.0 && length.is_finite()) {
            return None;
        }
        let unit = Point::new(direction.x / length, direction.y / length);
        let mut farthest: Option<(f64, Point)> = None;
        let mut hold = |point: Point| {
            let reach = point.dot(unit);
            if farthest.is_none_or(|(most, _)| reach > most + self.tolerance()) {
                farthest = Some((reach, point));
            }
        };
        let rings = self.rings().iter().filter(|ring| counts(ring.part));
        for stretch in rings.flat_map(|ring| &ring.stretches) {
            hold(stretch.from);
            if let Curve::Round { centre, radius, start, sweep } = stretch.curve {
                let turned = (real::atan2(unit.y, unit.x) - start) * sweep.signum();
                if turned.rem_euclid(core::f64::consts::TAU) < sweep.abs() {
                    hold(Point::new(centre.x + radius * unit.x, centre.y + radius * unit.y));
                }
            }
        }
        farthest.map(|(_, point)| point.plus(self.origin()))
    }
}
