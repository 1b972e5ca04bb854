//! Points and boxes on the sheet: px, x to the right, y down.

use mechanics::real;

/// A point or a vector on the sheet, px.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Point {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

impl Point {
    /// The point (x, y).
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// This point moved by (dx, dy).
    pub fn moved(self, dx: f64, dy: f64) -> Self {
        Self { x: self.x + dx, y: self.y + dy }
    }

    /// The distance to another point.
    pub fn distance(self, other: Point) -> f64 {
        real::hypot(other.x - self.x, other.y - self.y)
    }

    /// The square of the distance to another point, px²: what is nearer needs no root.
    pub fn square_of_distance(self, other: Point) -> f64 {
        let (dx, dy) = (other.x - self.x, other.y - self.y);
        dx * dx + dy * dy
    }

    /// The point at the fraction `part` of the way to another.
    pub fn towards(self, other: Point, part: f64) -> Point {
        Point::new(self.x + (other.x - self.x) * part, self.y + (other.y - self.y) * part)
    }

    /// The point of the circle about this one, at an angle counter-clockwise from the right as seen on the sheet.
    pub fn around(self, radius: f64, angle: f64) -> Point {
        Point::new(self.x + radius * real::cos(angle), self.y - radius * real::sin(angle))
    }
}

/// An upright box on the sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub left: f64,
    /// Top edge (the smaller y).
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Bottom edge.
    pub bottom: f64,
}

impl Rect {
    /// The box around nothing: joins with any other to that other.
    pub const NOTHING: Rect =
        Rect { left: f64::INFINITY, top: f64::INFINITY, right: f64::NEG_INFINITY, bottom: f64::NEG_INFINITY };

    /// The box between two corners, in any order.
    pub fn between(a: Point, b: Point) -> Self {
        Self { left: a.x.min(b.x), top: a.y.min(b.y), right: a.x.max(b.x), bottom: a.y.max(b.y) }
    }

    /// The smallest box around points.
    pub fn around(points: &[Point]) -> Self {
        points.iter().fold(Self::NOTHING, |all, &point| all.joined(Self::between(point, point)))
    }

    /// The smallest box around this and another.
    pub fn joined(self, other: Rect) -> Self {
        Self {
            left: self.left.min(other.left),
            top: self.top.min(other.top),
            right: self.right.max(other.right),
            bottom: self.bottom.max(other.bottom),
        }
    }

    /// The box grown by `by` on every side (shrunk where negative).
    pub fn grown(self, by: f64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    /// The box moved by (dx, dy).
    pub fn moved(self, dx: f64, dy: f64) -> Self {
        Self { left: self.left + dx, top: self.top + dy, right: self.right + dx, bottom: self.bottom + dy }
    }

    /// Its width.
    pub fn width(self) -> f64 {
        self.right - self.left
    }

    /// Its height.
    pub fn height(self) -> f64 {
        self.bottom - self.top
    }

    /// Its middle.
    pub fn middle(self) -> Point {
        Point::new((self.left + self.right) / 2.0, (self.top + self.bottom) / 2.0)
    }

    /// Whether two boxes share more than an edge.
    pub fn overlaps(self, other: Rect) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// Whether the other box lies in this one.
    pub fn holds(self, other: Rect) -> bool {
        self.left <= other.left
            && self.top <= other.top
            && self.right >= other.right
            && self.bottom >= other.bottom
    }

    /// The nearest point of the box to a point.
    pub fn nearest(self, point: Point) -> Point {
        Point::new(point.x.clamp(self.left, self.right), point.y.clamp(self.top, self.bottom))
    }

    /// Whether a straight stretch runs through the inside of the box.
    pub fn is_crossed(self, from: Point, to: Point) -> bool {
        if !Rect::between(from, to).grown(1e-9).overlaps(self) {
            return false;
        }
        // the stretch is clipped by the four edges in turn (Liang and Barsky)
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for (run, room) in [
            (-dx, from.x - self.left),
            (dx, self.right - from.x),
            (-dy, from.y - self.top),
            (dy, self.bottom - from.y),
        ] {
            if run == 0.0 {
                if room <= 0.0 {
                    return false;
                }
            } else if run < 0.0 {
                enter = enter.max(room / run);
            } else {
                leave = leave.min(room / run);
            }
        }
        enter < leave
    }
}

/// Whether a point lies within rings, by how often its level ray crosses them; lines between parts that touch are crossed twice.
pub fn is_inside(rings: &[Vec<Point>], at: Point) -> bool {
    let mut inside = false;
    for ring in rings {
        for k in 0..ring.len() {
            let (a, b) = (ring[k], ring[(k + 1) % ring.len()]);
            if (a.y > at.y) != (b.y > at.y) && at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y) {
                inside = !inside;
            }
        }
    }
    inside
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stretch_crosses_a_box_only_through_its_inside() {
        let rect = Rect { left: 0.0, top: 0.0, right: 10.0, bottom: 5.0 };
        assert!(rect.is_crossed(Point::new(-1.0, 2.0), Point::new(11.0, 3.0)));
        assert!(rect.is_crossed(Point::new(2.0, 2.0), Point::new(3.0, 3.0)));
        assert!(!rect.is_crossed(Point::new(-1.0, 0.0), Point::new(11.0, 0.0)));
        assert!(!rect.is_crossed(Point::new(-1.0, 4.0), Point::new(1.0, 7.0)));
        assert!(!rect.is_crossed(Point::new(12.0, -5.0), Point::new(12.0, 9.0)));
    }
}
