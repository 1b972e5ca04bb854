//! Where a field over a section is at least so large: the area, and the line at its edge.

use crate::geometry::Point;
use mechanics::real;
use std::collections::BTreeMap;

/// A line is simplified where it strays from what was found by no more than this, px.
const STRAYS: f64 = 0.1;

/// A field on the sheet: corners with their values, and triangles of them, straight in between.
#[derive(Clone, Debug, Default)]
pub(crate) struct Field {
    /// Where each corner lies, and the value there.
    pub corners: Vec<(Point, f64)>,
    /// Three corners each, all turning one way.
    pub triangles: Vec<[usize; 3]>,
}

/// What of a field reaches a level.
#[derive(Clone, Debug, Default)]
pub(crate) struct Reached {
    /// The outlines of the area, holes among them: to be filled by the even-odd rule.
    pub loops: Vec<Vec<Point>>,
    /// The line along which the field has just this value, in pieces.
    pub lines: Vec<Vec<Point>>,
}

/// A corner, or the place on the side between two corners where the level is met.
type Node = (usize, usize);

impl Field {
    /// What of the field is at least `level`.
    pub fn reached(&self, level: f64) -> Reached {
        // Sides that two triangles share are walked once each way, and fall out.
        let mut sides: BTreeMap<(Node, Node), ()> = BTreeMap::new();
        let mut cut: BTreeMap<Node, Vec<Node>> = BTreeMap::new();
        for triangle in &self.triangles {
            let mut ring: Vec<Node> = Vec::new();
            for k in 0..3 {
                let (here, next) = (triangle[k], triangle[(k + 1) % 3]);
                let (inside, stays) = (self.corners[here].1 >= level, self.corners[next].1 >= level);
                if inside {
                    ring.push((here, here));
                }
                if inside != stays {
                    ring.push((here.min(next), here.max(next)));
                }
            }
            for k in 0..ring.len() {
                let (from, to) = (ring[k], ring[(k + 1) % ring.len()]);
                if from.0 != from.1 && to.0 != to.1 {
                    cut.entry(from).or_default().push(to);
                }
                if sides.remove(&(to, from)).is_none() {
                    sides.insert((from, to), ());
                }
            }
        }
        let mut around: BTreeMap<Node, Vec<Node>> = BTreeMap::new();
        for ((from, to), ()) in sides {
            around.entry(from).or_default().push(to);
        }
        let place = |node: &Node| self.place(*node, level);
        let drawn = |chain: Vec<Node>| simplified(&chain.iter().map(place).collect::<Vec<Point>>());
        Reached {
            loops: chains(around).into_iter().map(drawn).filter(|points| points.len() > 3).collect(),
            lines: chains(cut).into_iter().map(drawn).filter(|points| points.len() > 1).collect(),
        }
    }

    fn place(&self, (first, second): Node, level: f64) -> Point {
        let ((from, low), (to, high)) = (self.corners[first], self.corners[second]);
        if first == second || low == high { from } else { from.towards(to, (level - low) / (high - low)) }
    }
}

/// Follows the steps from node to node: pieces with ends first, then rings, which end where they began.
fn chains(mut steps: BTreeMap<Node, Vec<Node>>) -> Vec<Vec<Node>> {
    let mut entered: BTreeMap<Node, usize> = BTreeMap::new();
    for to in steps.values().flatten() {
        *entered.entry(*to).or_default() += 1;
    }
    let begins = |node: &Node| !entered.contains_key(node);
    let mut starts: Vec<Node> = steps.keys().copied().filter(begins).collect();
    starts.extend(steps.keys().copied().filter(|node| !begins(node)));
    let mut found = Vec::new();
    for start in starts {
        while steps.get(&start).is_some_and(|left| !left.is_empty()) {
            let mut chain = vec![start];
            let mut here = start;
            while let Some(next) = steps.get_mut(&here).and_then(Vec::pop) {
                chain.push(next);
                here = next;
                if here == start {
                    break;
                }
            }
            found.push(chain);
        }
    }
    found
}

/// The same line with fewer points.
fn simplified(points: &[Point]) -> Vec<Point> {
    let (Some(&first), Some(&last)) = (points.first(), points.last()) else { return Vec::new() };
    let mut kept = vec![first];
    let mut from = 0;
    for to in 2..points.len() {
        let strays = points[from + 1..to].iter().any(|&p| distance(p, points[from], points[to]) > STRAYS);
        if strays {
            kept.push(points[to - 1]);
            from = to - 1;
        }
    }
    kept.push(last);
    kept
}

/// Distance of a point from the stretch between two others, px.
fn distance(point: Point, from: Point, to: Point) -> f64 {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = real::hypot(dx, dy);
    if length == 0.0 {
        return point.distance(from);
    }
    let share = ((point.x - from.x) * dx + (point.y - from.y) * dy) / (length * length);
    point.distance(from.towards(to, share.clamp(0.0, 1.0)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A field on a square of side 10 in small squares, each of two triangles.
    fn square(value: impl Fn(f64, f64) -> f64) -> Field {
        const STEPS: usize = 20;
        let mut field = Field::default();
        for row in 0..=STEPS {
            for column in 0..=STEPS {
                let (x, y) = (column as f64 * 0.5, row as f64 * 0.5);
                field.corners.push((Point::new(x, y), value(x, y)));
            }
        }
        let at = |row: usize, column: usize| row * (STEPS + 1) + column;
        for row in 0..STEPS {
            for column in 0..STEPS {
                let (a, b) = (at(row, column), at(row, column + 1));
                let (c, d) = (at(row + 1, column + 1), at(row + 1, column));
                field.triangles.extend([[a, b, c], [a, c, d]]);
            }
        }
        field
    }

    fn area(ring: &[Point]) -> f64 {
        0.5 * ring.windows(2).map(|pair| pair[0].x * pair[1].y - pair[1].x * pair[0].y).sum::<f64>()
    }

    /// Closed form: x reaches 4 on the right 6/10 of the square, along one upright line.
    #[test]
    fn a_straight_field() {
        let reached = square(|x, _| x).reached(4.25);
        assert_eq!((reached.loops.len(), reached.lines.len()), (1, 1));
        assert!((area(&reached.loops[0]).abs() - 57.5).abs() < 1e-9);
        assert!(reached.lines[0].iter().all(|point| (point.x - 4.25).abs() < 1e-12));
        assert_eq!(reached.lines[0].len(), 2, "a straight line has two ends");
    }

    /// Closed form: a ring of radius 30 px has the area 900 pi. A cone laid over triangles whose longest side is 7.1 px is off by
    /// 7.1² / (8 x 30) = 0.21 px at most, and the line strays by 0.1 px: together 2 x 0.31 / 30 of the area.
    #[test]
    fn a_hill_is_ringed() {
        let mut hill = square(|x, y| -real::hypot(x - 5.0, y - 5.0));
        for (point, _) in &mut hill.corners {
            *point = Point::new(10.0 * point.x, 10.0 * point.y);
        }
        let reached = hill.reached(-3.0);
        assert_eq!((reached.loops.len(), reached.lines.len()), (1, 1));
        assert!((area(&reached.loops[0]).abs() / (900.0 * std::f64::consts::PI) - 1.0).abs() < 0.0207);
        assert_eq!(reached.lines[0].first(), reached.lines[0].last());
    }

    /// All of it, and nothing of it.
    #[test]
    fn beyond_its_values() {
        let field = square(|x, y| x + y);
        let all = field.reached(-1.0);
        assert!((area(&all.loops[0]).abs() - 100.0).abs() < 1e-9 && all.lines.is_empty());
        let none = field.reached(21.0);
        assert!(none.loops.is_empty() && none.lines.is_empty());
    }
}
