//! The walls of an outline: its sides run in pairs against each other, with thin material between them.

use super::of_outline::TAPERED;
use super::sides::Side;
use super::strip::mean;
use crate::section::Point;

/// Stretches are of one wall whose middle lines stand off each other, and whose thicknesses differ, by less than this part of
/// the thickness: corners of sloping sides are often written with few figures.
pub(super) const SAME_LINE: f64 = 0.05;

/// And whose sides lie at the same angle to each other, but for a sine of this.
const SAME_TAPER: f64 = 0.02;

/// What is shorter than this part of the outline's size is nothing.
const NOTHING: f64 = 1e-9;

/// A wall or a stretch of one, as far as both its sides reach.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    /// Its middle line runs from here to there, m.
    pub from: Point,
    pub to: Point,
    /// m.
    pub thickness: f64,
    /// The sine of the angle between both sides, positive where they part on the way.
    taper: f64,
}

impl Stretch {
    pub fn length(&self) -> f64 {
        self.from.distance(self.to)
    }

    /// The direction of its middle line, of length 1.
    pub fn way(&self) -> Point {
        unit(self.to.minus(self.from))
    }

    pub fn middle(&self) -> Point {
        mean(self.from, self.to)
    }

    /// How far along it a point stands, m.
    pub fn place(&self, of: Point) -> f64 {
        of.minus(self.from).dot(self.way())
    }

    /// Whether another one lies on its line, and is as thick.
    fn goes_on_in(&self, other: &Self) -> bool {
        let near = SAME_LINE * self.thickness;
        let off = |point: Point| self.way().cross(point.minus(self.from)).abs();
        let as_thick = (self.thickness - other.thickness).abs() <= near;
        as_thick
            && (self.taper - other.taper).abs() <= SAME_TAPER
            && off(other.from) <= near
            && off(other.to) <= near
    }
}

pub(super) fn unit(of: Point) -> Point {
    let length = of.length();
    Point::new(of.x / length, of.y / length)
}

/// How far from a point within the material, in a direction of length 1, the material ends, m; without end where there is none.
pub(super) fn depth(sides: &[Side], from: Point, way: Point) -> f64 {
    sides
        .iter()
        .filter_map(|side| side.met_by(from, way))
        .filter(|far| *far > 0.0)
        .fold(f64::INFINITY, f64::min)
}

/// The walls of an outline by its sides, the longest first.
pub(super) fn walls(sides: &[Side]) -> Vec<Stretch> {
    let mut left = stretches(sides);
    left.sort_by(|a, b| b.length().total_cmp(&a.length()));
    let mut gaps: Vec<(Point, Point)> = Vec::new();
    let mut walls = Vec::new();
    while let Some(seed) = left.iter().position(|one| one.length() >= one.thickness) {
        let mut wall = left.remove(seed);
        while let Some((next, gap)) = next_of(&wall, &left, (sides, &gaps)) {
            let one = left.remove(next);
            let both = wall.length() + one.length();
            let thickness = (wall.thickness * wall.length() + one.thickness * one.length()) / both;
            let (from, way, length) = (wall.from, wall.way(), wall.length());
            let places = [wall.place(one.from), wall.place(one.to)];
            let low = places.iter().copied().fold(0.0, f64::min);
            let high = places.iter().copied().fold(length, f64::max);
            let at = |place: f64| Point::new(from.x + place * way.x, from.y + place * way.y);
            wall = Stretch { from: at(low), to: at(high), thickness, ..wall };
            gaps.push(gap);
        }
        walls.push(wall);
    }
    walls
}

/// The nearest stretch with which a wall goes on where a branching wall interrupts it, and what lies between them. Where two walls
/// cross, that which was found first goes through.
fn next_of(
    wall: &Stretch,
    left: &[Stretch],
    (sides, gaps): (&[Side], &[(Point, Point)]),
) -> Option<(usize, (Point, Point))> {
    let candidates = left.iter().enumerate().filter(|(_, other)| wall.goes_on_in(other));
    let with_gap = candidates.map(|(k, other)| {
        let (a, b) = (wall.place(other.from), wall.place(other.to));
        let on_line = |place: f64| {
            let way = wall.way();
            Point::new(wall.from.x + place * way.x, wall.from.y + place * way.y)
        };
        let gap = if a.min(b) > 0.5 * wall.length() {
            (wall.to, on_line(a.min(b)))
        } else {
            (on_line(a.max(b)), wall.from)
        };
        (k, gap)
    });
    let is_filled = |(from, to): (Point, Point)| {
        let length = from.distance(to);
        // Material goes on beyond both ends. From the middle of a slit the ends themselves are as far as half the slit.
        let beyond = 0.5 * length + SAME_LINE * wall.thickness;
        let clear = |point: Point, way: Point| depth(sides, point, way) >= beyond;
        let (middle, way) = (mean(from, to), unit(to.minus(from)));
        let back = Point::new(-way.x, -way.y);
        length <= NOTHING * wall.length() || clear(middle, way) && clear(middle, back)
    };
    let crosses = |gap: (Point, Point)| gaps.iter().any(|other| do_cross(gap, *other));
    with_gap
        .filter(|(_, gap)| is_filled(*gap) && !crosses(*gap))
        .min_by(|(_, a), (_, b)| a.0.distance(a.1).total_cmp(&b.0.distance(b.1)))
}

fn do_cross((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let parts = |from: Point, to: Point, p: Point, q: Point| {
        let way = to.minus(from);
        way.cross(p.minus(from)) * way.cross(q.minus(from)) < 0.0
    };
    parts(a, b, c, d) && parts(c, d, a, b)
}

/// Where two sides run against each other and nothing but material lies between them.
fn stretches(sides: &[Side]) -> Vec<Stretch> {
    let mut found = Vec::new();
    for (one, side) in sides.iter().enumerate() {
        for (other, from, to) in opposite(sides, one) {
            // Both see each other.
            if one < other {
                found.extend(between(side, &sides[other], (from, to)));
            }
        }
    }
    found
}

/// What a side faces across the material, and from where to where along it, m.
fn opposite(sides: &[Side], one: usize) -> Vec<(usize, f64, f64)> {
    let side = &sides[one];
    let (length, way) = (side.from.distance(side.to), unit(side.to.minus(side.from)));
    let inward = Point::new(-way.y, way.x);
    let mut places: Vec<f64> = sides.iter().map(|other| other.from.minus(side.from).dot(way)).collect();
    places.extend([0.0, length]);
    places.retain(|place| (0.0..=length).contains(place));
    places.sort_by(f64::total_cmp);
    let mut found: Vec<(usize, f64, f64)> = Vec::new();
    for pair in places.windows(2).filter(|pair| pair[1] - pair[0] > NOTHING * length) {
        let place = 0.5 * (pair[0] + pair[1]);
        let at = Point::new(side.from.x + place * way.x, side.from.y + place * way.y);
        let met = sides.iter().enumerate().filter(|(other, _)| *other != one);
        let met = met.filter_map(|(other, of)| of.met_by(at, inward).map(|far| (other, far)));
        let nearest = met.filter(|(_, far)| *far > 0.0).min_by(|a, b| a.1.total_cmp(&b.1));
        let Some((other, _)) = nearest else { continue };
        match found.last_mut() {
            Some((of, _, to)) if *of == other && *to >= pair[0] - NOTHING * length => *to = pair[1],
            _ => found.push((other, pair[0], pair[1])),
        }
    }
    found
}

/// The stretch between two sides along a piece of the first; none where they do not run against each other.
fn between(one: &Side, other: &Side, (from, to): (f64, f64)) -> Option<Stretch> {
    let (way, back) = (unit(one.to.minus(one.from)), unit(other.to.minus(other.from)));
    let taper = back.cross(way);
    if way.dot(back) >= 0.0 || taper.abs() > TAPERED {
        return None;
    }
    // Half-way between both directions.
    let along = unit(way.minus(back));
    let across = Point::new(-along.y, along.x);
    let place = 0.5 * (from + to);
    let at = Point::new(one.from.x + place * way.x, one.from.y + place * way.y);
    let thickness = other.from.minus(at).cross(back) / across.cross(back);
    let middle = Point::new(at.x + 0.5 * thickness * across.x, at.y + 0.5 * thickness * across.y);
    let half = 0.5 * (to - from) * way.dot(along);
    let end = |half: f64| Point::new(middle.x + half * along.x, middle.y + half * along.y);
    let forward = if along.x.abs() > along.y.abs() { along.x > 0.0 } else { along.y > 0.0 };
    let (half, taper) = if forward { (half, taper) } else { (-half, -taper) };
    Some(Stretch { from: end(-half), to: end(half), thickness, taper })
}
