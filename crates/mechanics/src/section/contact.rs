//! Where two parts touch along a line: what a joint between them is made on.

use super::ring::{Curve, LocalRing, Stretch};
use super::{Edge, Point};

/// A line along which two parts touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// The earlier of the two parts.
    pub first: usize,
    /// The later one.
    pub second: usize,
    /// Where the line begins, in the coordinates of the outlines, m.
    pub start: Point,
    /// The line itself, straight or round.
    pub edge: Edge,
    /// Its length, m.
    pub length: f64,
}

impl Contact {
    /// Where the line ends, m.
    pub fn end(&self) -> Point {
        match self.edge {
            Edge::Line { to } | Edge::Arc { to, .. } => to,
        }
    }

    /// Whether it lies level.
    pub fn is_level(&self) -> bool {
        matches!(self.edge, Edge::Line { to } if (to.y - self.start.y).abs() <= 1e-9 * self.length)
    }

    /// Into the coordinates of the outlines.
    pub(crate) fn moved(mut self, origin: Point) -> Self {
        self.start = self.start.plus(origin);
        self.edge = match self.edge {
            Edge::Line { to } => Edge::Line { to: to.plus(origin) },
            Edge::Arc { to, centre, counter_clockwise } => {
                Edge::Arc { to: to.plus(origin), centre: centre.plus(origin), counter_clockwise }
            }
        };
        self
    }
}

/// All contacts between the parts, in local coordinates.
pub(crate) fn between_all(parts: &[Vec<&LocalRing>], tolerance: f64) -> Vec<Contact> {
    let mut contacts = Vec::new();
    for second in 1..parts.len() {
        for first in 0..second {
            for ours in &parts[first] {
                for theirs in parts[second].iter().filter(|ring| ring.bounds.meets(&ours.bounds, tolerance)) {
                    between(first, second, ours, theirs, tolerance, &mut contacts);
                }
            }
        }
    }
    contacts
}

fn between(
    first: usize,
    second: usize,
    ours: &LocalRing,
    theirs: &LocalRing,
    tolerance: f64,
    found: &mut Vec<Contact>,
) {
    for a in &ours.stretches {
        let bounds = a.bounds();
        for b in theirs.stretches.iter().filter(|b| bounds.meets(&b.bounds(), tolerance)) {
            for piece in common(a, b, tolerance).into_iter().flatten() {
                let edge = piece.edge(Point::new(0.0, 0.0));
                found.push(Contact { first, second, start: piece.from, edge, length: piece.length() });
            }
        }
    }
}

/// What two stretches share along their length: at most one piece, or two for two arcs of one circle.
pub(crate) fn common(a: &Stretch, b: &Stretch, tolerance: f64) -> [Option<Stretch>; 2] {
    let one_line = match (a.curve, b.curve) {
        (Curve::Straight, Curve::Straight) => {
            // Both ends of the shorter side may hang over the longer one, so the distance is taken from its line.
            let (long, short) = if a.length() >= b.length() { (a, b) } else { (b, a) };
            let along = long.to.minus(long.from);
            let off = |point: Point| (along.cross(point.minus(long.from)) / along.length()).abs();
            off(short.from) <= tolerance && off(short.to) <= tolerance
        }
        (Curve::Round { centre, radius, .. }, Curve::Round { centre: other, radius: other_radius, .. }) => {
            centre.distance(other) <= tolerance && (radius - other_radius).abs() <= tolerance
        }
        _ => false,
    };
    if !one_line {
        return [None, None];
    }
    // The ends of `b` and of `a` that lie on both, in order along `a`, cut it into pieces; a piece is shared if its
    // middle lies on `b`.
    let mut marks = vec![0.0, 1.0];
    for end in [b.from, b.to] {
        let parameter = a.parameter(end);
        if parameter > 0.0 && parameter < 1.0 {
            marks.push(parameter);
        }
    }
    marks.sort_unstable_by(f64::total_cmp);
    let mut pieces = [None, None];
    let mut count = 0;
    for pair in marks.windows(2) {
        let middle = a.point_at(0.5 * (pair[0] + pair[1]));
        let piece = a.between(a.point_at(pair[0]), a.point_at(pair[1]));
        if piece.length() > tolerance && b.distance_to(middle) <= 2.0 * tolerance && count < 2 {
            pieces[count] = Some(piece);
            count += 1;
        }
    }
    pieces
}

/// The groups of parts that hang together and do not hold part 0.
pub(crate) fn groups_apart(parts: usize, contacts: &[Contact]) -> Vec<Vec<usize>> {
    let mut group: Vec<usize> = (0..parts).collect();
    // Each pass hands the smallest index of a group one contact further; a chain of n parts needs at most n passes.
    let mut changed = true;
    while changed {
        changed = false;
        for contact in contacts {
            let least = group[contact.first].min(group[contact.second]);
            for part in [contact.first, contact.second] {
                if group[part] > least {
                    group[part] = least;
                    changed = true;
                }
            }
        }
    }
    let leaders: Vec<usize> = (1..parts).filter(|&part| group[part] == part).collect();
    leaders.into_iter().map(|leader| (0..parts).filter(|&part| group[part] == leader).collect()).collect()
}
