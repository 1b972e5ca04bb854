//! The loops of a section as directed stretches of boundary in local coordinates, with the material on their left.

use super::fault::{Fault, Ring};
use super::{Edge, Loop, Part, Point};
use crate::real;

/// Points nearer than this, of the section's size, are one point, and heights one height. Coordinates read from text
/// and converted differ in the last bits; a gap of 1 nm in a section of 1 m is no gap.
pub(crate) const SAME_PLACE: f64 = 1e-9;

/// The distances of an arc's ends from its centre may differ by this part of the radius: coordinates of
/// a point on a circle are often written with six or seven figures.
const SAME_RADIUS: f64 = 1e-6;

impl Point {
    /// The point (x, y), m.
    pub const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub(crate) fn is_finite(self) -> bool {
        self.x.is_finite() && self.y.is_finite()
    }

    pub(crate) fn minus(self, other: Point) -> Point {
        Point::new(self.x - other.x, self.y - other.y)
    }

    pub(crate) fn plus(self, other: Point) -> Point {
        Point::new(self.x + other.x, self.y + other.y)
    }

    pub(crate) fn cross(self, other: Point) -> f64 {
        self.x * other.y - self.y * other.x
    }

    pub(crate) fn dot(self, other: Point) -> f64 {
        self.x * other.x + self.y * other.y
    }

    pub(crate) fn length(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// The distance to another point, m.
    pub fn distance(self, other: Point) -> f64 {
        self.minus(other).length()
    }
}

/// How a stretch of boundary runs between its ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Curve {
    Straight,
    /// Round `centre`, from angle `start` through `sweep` rad (positive counter-clockwise).
    Round {
        centre: Point,
        radius: f64,
        start: f64,
        sweep: f64,
    },
}

/// A directed stretch of boundary.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stretch {
    pub from: Point,
    pub to: Point,
    pub curve: Curve,
    /// Index of the side of its loop that it is, or is a piece of.
    pub side: usize,
}

/// The smallest upright box that holds something.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Bounds {
    pub left: f64,
    pub right: f64,
    pub bottom: f64,
    pub top: f64,
}

impl Bounds {
    pub(crate) const NONE: Bounds = Bounds {
        left: f64::INFINITY,
        right: f64::NEG_INFINITY,
        bottom: f64::INFINITY,
        top: f64::NEG_INFINITY,
    };

    pub(crate) fn hold(&mut self, point: Point) {
        self.left = self.left.min(point.x);
        self.right = self.right.max(point.x);
        self.bottom = self.bottom.min(point.y);
        self.top = self.top.max(point.y);
    }

    pub(crate) fn hold_all(&mut self, other: &Bounds) {
        self.left = self.left.min(other.left);
        self.right = self.right.max(other.right);
        self.bottom = self.bottom.min(other.bottom);
        self.top = self.top.max(other.top);
    }

    pub(crate) fn size(&self) -> f64 {
        (self.right - self.left).max(self.top - self.bottom)
    }

    pub(crate) fn meets(&self, other: &Bounds, tolerance: f64) -> bool {
        self.left <= other.right + tolerance
            && other.left <= self.right + tolerance
            && self.bottom <= other.top + tolerance
            && other.bottom <= self.top + tolerance
    }
}

impl Stretch {
    /// The angles of the circle's right, top, left and lowest point that lie strictly within the sweep, in order.
    fn quarter_points(start: f64, sweep: f64) -> impl Iterator<Item = (i64, f64)> {
        let quarter = core::f64::consts::FRAC_PI_2;
        let (low, high) = if sweep > 0.0 { (start, start + sweep) } else { (start + sweep, start) };
        let (first, last) = ((low / quarter).ceil() as i64, (high / quarter).floor() as i64);
        let turns: Vec<i64> =
            if sweep > 0.0 { (first..=last).collect() } else { (first..=last).rev().collect() };
        turns
            .into_iter()
            .map(move |k| (k, k as f64 * quarter))
            .filter(move |(_, angle)| *angle > low && *angle < high)
    }

    /// The exact point of a circle at `k` quarter turns.
    fn quarter_point(centre: Point, radius: f64, k: i64) -> Point {
        match k.rem_euclid(4) {
            0 => Point::new(centre.x + radius, centre.y),
            1 => Point::new(centre.x, centre.y + radius),
            2 => Point::new(centre.x - radius, centre.y),
            _ => Point::new(centre.x, centre.y - radius),
        }
    }

    pub(crate) fn bounds(&self) -> Bounds {
        let (from, to) = (self.from, self.to);
        let mut bounds = Bounds {
            left: from.x.min(to.x),
            right: from.x.max(to.x),
            bottom: from.y.min(to.y),
            top: from.y.max(to.y),
        };
        if let Curve::Round { centre, radius, start, sweep } = self.curve {
            for (k, _) in Self::quarter_points(start, sweep) {
                bounds.hold(Self::quarter_point(centre, radius, k));
            }
        }
        bounds
    }

    /// Hands on the pieces of this stretch that run up or down all the way: an arc is split at its highest and
    /// lowest points.
    pub(crate) fn for_each_monotone(&self, mut hand_on: impl FnMut(Stretch)) {
        let Curve::Round { centre, radius, start, sweep } = self.curve else {
            return hand_on(*self);
        };
        let (mut from, mut at) = (self.from, start);
        for (k, angle) in Self::quarter_points(start, sweep).filter(|(k, _)| k.rem_euclid(2) == 1) {
            let to = Self::quarter_point(centre, radius, k);
            let curve = Curve::Round { centre, radius, start: at, sweep: angle - at };
            hand_on(Stretch { from, to, curve, side: self.side });
            (from, at) = (to, angle);
        }
        let curve = Curve::Round { centre, radius, start: at, sweep: start + sweep - at };
        hand_on(Stretch { from, to: self.to, curve, side: self.side });
    }

    pub(crate) fn reversed(&self) -> Stretch {
        let curve = match self.curve {
            Curve::Straight => Curve::Straight,
            Curve::Round { centre, radius, start, sweep } => {
                Curve::Round { centre, radius, start: start + sweep, sweep: -sweep }
            }
        };
        Stretch { from: self.to, to: self.from, curve, side: self.side }
    }

    /// The stretch between two of its own points, the first nearer to its start.
    pub(crate) fn between(&self, from: Point, to: Point) -> Stretch {
        let curve = match self.curve {
            Curve::Straight => Curve::Straight,
            Curve::Round { centre, radius, .. } => {
                let (first, last) = (self.turned(from), self.turned(to));
                Curve::Round { centre, radius, start: self.start_angle() + first, sweep: last - first }
            }
        };
        Stretch { from, to, curve, side: self.side }
    }

    fn start_angle(&self) -> f64 {
        if let Curve::Round { start, .. } = self.curve { start } else { 0.0 }
    }

    /// How far through the sweep a point of the arc lies, in rad with the sign of the sweep; a point outside gives an
    /// angle before 0 or past the sweep, whichever is nearer. Zero for a straight stretch.
    pub(crate) fn turned(&self, point: Point) -> f64 {
        let Curve::Round { centre, start, sweep, .. } = self.curve else { return 0.0 };
        let full = 2.0 * core::f64::consts::PI;
        let towards = point.minus(centre);
        let mut turned = (real::atan2(towards.y, towards.x) - start) * sweep.signum();
        turned -= full * (turned / full).floor();
        // Past the end: what is nearer to the start counts as before it.
        if turned > sweep.abs() && full - turned < turned - sweep.abs() {
            turned -= full;
        }
        turned * sweep.signum()
    }

    /// How far along the stretch, from 0 to 1, a point of it lies.
    pub(crate) fn parameter(&self, point: Point) -> f64 {
        match self.curve {
            Curve::Straight => {
                let along = self.to.minus(self.from);
                point.minus(self.from).dot(along) / along.dot(along)
            }
            Curve::Round { sweep, .. } => self.turned(point) / sweep,
        }
    }

    /// The point at a parameter from 0 to 1.
    pub(crate) fn point_at(&self, parameter: f64) -> Point {
        match self.curve {
            Curve::Straight => Point::new(
                self.from.x + (self.to.x - self.from.x) * parameter,
                self.from.y + (self.to.y - self.from.y) * parameter,
            ),
            Curve::Round { centre, radius, start, sweep } => {
                let angle = start + sweep * parameter;
                Point::new(centre.x + radius * real::cos(angle), centre.y + radius * real::sin(angle))
            }
        }
    }

    pub(crate) fn length(&self) -> f64 {
        match self.curve {
            Curve::Straight => self.to.distance(self.from),
            Curve::Round { radius, sweep, .. } => radius * sweep.abs(),
        }
    }

    /// Distance of a point from the stretch.
    pub(crate) fn distance_to(&self, point: Point) -> f64 {
        match self.curve {
            Curve::Straight => {
                let parameter = self.parameter(point).clamp(0.0, 1.0);
                self.point_at(parameter).distance(point)
            }
            Curve::Round { centre, radius, .. } => {
                let within = (0.0..=1.0).contains(&self.parameter(point));
                let to_circle = if within { (point.distance(centre) - radius).abs() } else { f64::INFINITY };
                to_circle.min(point.distance(self.from)).min(point.distance(self.to))
            }
        }
    }

    /// As a side of a loop in the outline's own coordinates.
    pub(crate) fn edge(&self, origin: Point) -> Edge {
        match self.curve {
            Curve::Straight => Edge::Line { to: self.to.plus(origin) },
            Curve::Round { centre, sweep, .. } => Edge::Arc {
                to: self.to.plus(origin),
                centre: centre.plus(origin),
                counter_clockwise: sweep > 0.0,
            },
        }
    }

    /// Twice the area swept from the local origin.
    fn swept(&self) -> f64 {
        let chord = self.from.cross(self.to);
        match self.curve {
            Curve::Straight => chord,
            Curve::Round { radius, sweep, .. } => chord + radius * radius * (sweep - real::sin(sweep)),
        }
    }
}

/// One loop in local coordinates.
#[derive(Clone, Debug)]
pub(crate) struct LocalRing {
    pub part: usize,
    pub ring: Ring,
    pub stretches: Vec<Stretch>,
    pub bounds: Bounds,
}

impl LocalRing {
    /// Area enclosed, positive where it runs counter-clockwise.
    pub(crate) fn signed_area(&self) -> f64 {
        0.5 * self.stretches.iter().map(Stretch::swept).sum::<f64>()
    }

    /// Turns the loop round so that the material lies on its left: outlines counter-clockwise, holes clockwise.
    pub(crate) fn put_material_left(&mut self) {
        let counter_clockwise = self.signed_area() > 0.0;
        if counter_clockwise != (self.ring == Ring::Outline) {
            self.stretches.reverse();
            for stretch in &mut self.stretches {
                *stretch = stretch.reversed();
            }
        }
    }

    /// Whether a point that is not on the loop lies inside it: an upward ray crosses it an odd number of times.
    pub(crate) fn encloses(&self, point: Point) -> bool {
        let mut inside = false;
        for stretch in &self.stretches {
            stretch.for_each_monotone(|piece| {
                if (piece.from.y > point.y) != (piece.to.y > point.y) {
                    let x = match piece.curve {
                        Curve::Straight => {
                            let part = (point.y - piece.from.y) / (piece.to.y - piece.from.y);
                            piece.from.x + (piece.to.x - piece.from.x) * part
                        }
                        Curve::Round { centre, radius, .. } => {
                            let up = point.y - centre.y;
                            let out = ((radius - up) * (radius + up)).max(0.0).sqrt();
                            centre.x + out * piece.right_or_left()
                        }
                    };
                    inside ^= x > point.x;
                }
            });
        }
        inside
    }

    /// Reads a loop; tells what is wrong with its arcs. Sides of no length are left out.
    pub(crate) fn read(
        part: usize,
        ring: Ring,
        outline: &Loop,
        origin: Point,
        tolerance: f64,
        faults: &mut Vec<Fault>,
    ) -> Self {
        let start = outline.start.minus(origin);
        let mut stretches = Vec::with_capacity(outline.path.len() + 1);
        let mut from = start;
        for (side, edge) in outline.path.iter().enumerate() {
            match *edge {
                Edge::Line { to } => {
                    let to = to.minus(origin);
                    if to.distance(from) > tolerance {
                        stretches.push(Stretch { from, to, curve: Curve::Straight, side });
                        from = to;
                    }
                }
                Edge::Arc { to, centre, counter_clockwise } => {
                    let (to, centre) = (to.minus(origin), centre.minus(origin));
                    match arc(from, to, centre, counter_clockwise, tolerance) {
                        Ok(curve) => stretches.push(Stretch { from, to, curve, side }),
                        Err(ArcFault::EndsMeet) => faults.push(Fault::ArcEndsMeet { part, ring, side }),
                        Err(ArcFault::OffCentre(start_distance, end_distance)) => {
                            faults.push(Fault::ArcOffCentre {
                                part,
                                ring,
                                side,
                                start_distance,
                                end_distance,
                            });
                            stretches.push(Stretch { from, to, curve: Curve::Straight, side });
                        }
                    }
                    from = to;
                }
            }
        }
        if start.distance(from) > tolerance {
            stretches.push(Stretch { from, to: start, curve: Curve::Straight, side: outline.path.len() });
        } else if let Some(last) = stretches.last_mut() {
            last.to = start;
        }
        let mut bounds = Bounds::NONE;
        for stretch in &stretches {
            bounds.hold_all(&stretch.bounds());
        }
        Self { part, ring, stretches, bounds }
    }
}

impl Stretch {
    /// For a piece that runs up or down all the way: +1 on the right half of its circle, -1 on the left half.
    pub(crate) fn right_or_left(&self) -> f64 {
        let Curve::Round { start, sweep, .. } = self.curve else { return 1.0 };
        if real::cos(start + 0.5 * sweep) >= 0.0 { 1.0 } else { -1.0 }
    }
}

enum ArcFault {
    EndsMeet,
    OffCentre(f64, f64),
}

fn arc(
    from: Point,
    to: Point,
    centre: Point,
    counter_clockwise: bool,
    tolerance: f64,
) -> Result<Curve, ArcFault> {
    let chord = to.minus(from);
    if chord.length() <= tolerance {
        return Err(ArcFault::EndsMeet);
    }
    let (first, last) = (from.distance(centre), to.distance(centre));
    if (first - last).abs() > SAME_RADIUS * first.max(last) || first.max(last) <= tolerance {
        return Err(ArcFault::OffCentre(first, last));
    }
    // Onto the perpendicular bisector of the chord, so that the circle passes through both ends to the last bit.
    let middle = Point::new(0.5 * (from.x + to.x), 0.5 * (from.y + to.y));
    let off = centre.minus(middle).dot(chord) / chord.dot(chord);
    let centre = Point::new(centre.x - off * chord.x, centre.y - off * chord.y);
    let radius = 0.5 * (from.distance(centre) + to.distance(centre));
    let (start, sweep) = turn(from, to, centre, counter_clockwise);
    Ok(Curve::Round { centre, radius, start, sweep })
}

/// The angle at which an arc about a centre begins, counter-clockwise from the right, and how far it turns, rad; a whole turn where it
/// ends where it begins.
pub(crate) fn turn(from: Point, to: Point, centre: Point, counter_clockwise: bool) -> (f64, f64) {
    let angle = |point: Point| real::atan2(point.y - centre.y, point.x - centre.x);
    let full = 2.0 * core::f64::consts::PI;
    let start = angle(from);
    let sweep = match angle(to) - start {
        sweep if counter_clockwise && sweep <= 0.0 => sweep + full,
        sweep if !counter_clockwise && sweep >= 0.0 => sweep - full,
        sweep => sweep,
    };
    (start, sweep)
}

/// All loops of the parts: each part's outline, then its holes.
pub(crate) fn read_parts(
    parts: &[Part],
    origin: Point,
    tolerance: f64,
    faults: &mut Vec<Fault>,
) -> Vec<LocalRing> {
    let mut rings = Vec::with_capacity(parts.len());
    for (index, part) in parts.iter().enumerate() {
        rings.push(LocalRing::read(index, Ring::Outline, &part.outline, origin, tolerance, faults));
        for (hole, outline) in part.holes.iter().enumerate() {
            rings.push(LocalRing::read(index, Ring::Hole(hole), outline, origin, tolerance, faults));
        }
    }
    rings
}
