//! Parts split along a straight line: the pieces that a cut leaves, as closed loops.

use super::fault::Ring;
use super::flank::{Flank, Moments};
use super::meeting::meetings;
use super::ring::{Bounds, Curve, LocalRing, Stretch};
use super::{Figure, Loop, Part, Point};

/// A straight line along which to cut, in local coordinates, over a range of its length.
#[derive(Clone, Copy, Debug)]
pub(crate) struct CutLine {
    pub from: Point,
    /// Of length 1.
    pub along: Point,
    /// Places along the line between which it cuts, m.
    pub begins: f64,
    pub ends: f64,
    pub tolerance: f64,
}

impl CutLine {
    pub(crate) fn place(&self, point: Point) -> f64 {
        point.minus(self.from).dot(self.along)
    }

    pub(crate) fn point(&self, place: f64) -> Point {
        Point::new(self.from.x + self.along.x * place, self.from.y + self.along.y * place)
    }

    /// Distance of a point to the left of the line.
    pub(crate) fn left(&self, point: Point) -> f64 {
        self.along.cross(point.minus(self.from))
    }

    fn holds(&self, point: Point) -> bool {
        self.left(point).abs() <= self.tolerance
    }

    /// Whether a stretch lies along the line, where it cuts.
    pub(crate) fn runs_along(&self, stretch: &Stretch) -> bool {
        let middle = stretch.point_at(0.5);
        self.holds(stretch.from)
            && self.holds(stretch.to)
            && self.holds(middle)
            && (self.begins..=self.ends).contains(&self.place(middle))
    }
}

/// A piece of a part: its outer loop and its holes, the material on their left.
#[derive(Clone, Debug)]
pub(crate) struct Piece {
    pub part: usize,
    pub outer: Vec<Stretch>,
    pub holes: Vec<Vec<Stretch>>,
}

/// A stretch of the cut through the material of one part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct CutChord {
    pub part: usize,
    pub from: f64,
    pub to: f64,
}

/// What a cut leaves of the parts.
#[derive(Clone, Debug, Default)]
pub(crate) struct Split {
    pub pieces: Vec<Piece>,
    pub chords: Vec<CutChord>,
    /// A place where the cut ends within the material.
    pub ends_inside: Option<f64>,
}

impl Piece {
    pub(crate) fn stretches(&self) -> impl Iterator<Item = &Stretch> {
        self.outer.iter().chain(self.holes.iter().flatten())
    }

    pub(crate) fn moments(&self) -> Moments {
        let mut sum = Moments::default();
        for stretch in self.stretches() {
            stretch.for_each_monotone(|piece| {
                if let Some(flank) = Flank::of(self.part, &piece, piece.from.y, piece.to.y) {
                    sum.add(&flank.moments(flank.lower.y, flank.upper.y), flank.sign);
                }
            });
        }
        sum
    }

    pub(crate) fn holds(&self, point: Point) -> bool {
        let ring = |stretches: &[Stretch]| ring_of(self.part, Ring::Outline, stretches.to_vec());
        ring(&self.outer).encloses(point) && !self.holes.iter().any(|hole| ring(hole).encloses(point))
    }

    /// As a part in the coordinates of the outlines.
    pub(crate) fn as_part(&self, modular_ratio: f64, origin: Point) -> Part {
        let as_loop = |stretches: &[Stretch]| Loop {
            start: stretches.first().map_or(origin, |first| first.from.plus(origin)),
            path: stretches.iter().map(|stretch| stretch.edge(origin)).collect(),
        };
        Part {
            outline: as_loop(&self.outer),
            holes: self.holes.iter().map(|hole| as_loop(hole)).collect(),
            modular_ratio,
            figure: Figure::Outline,
        }
    }
}

fn ring_of(part: usize, ring: Ring, stretches: Vec<Stretch>) -> LocalRing {
    let mut bounds = Bounds::NONE;
    for stretch in &stretches {
        bounds.hold_all(&stretch.bounds());
    }
    LocalRing { part, ring, stretches, bounds }
}

/// A directed side of the drawing that the loops and the cut make together.
struct Side {
    stretch: Stretch,
    /// The side that follows it round its piece.
    next: usize,
}

/// Splits every part along the line.
pub(crate) fn split(rings: &[LocalRing], parts: usize, line: &CutLine) -> Split {
    let mut all = Split::default();
    for part in 0..parts {
        let own: Vec<&LocalRing> = rings.iter().filter(|ring| ring.part == part).collect();
        split_part(part, &own, line, &mut all);
    }
    all
}

fn split_part(part: usize, rings: &[&LocalRing], line: &CutLine, all: &mut Split) {
    let mut sides = sides_of(rings, line);
    // The corners on the line. A chord takes its ends from them bit by bit: a gap of one bit would let a ray through.
    let corners = sides.iter().map(|side| side.stretch.from).filter(|corner| line.holds(*corner));
    let mut places: Vec<(f64, Point)> = corners.map(|corner| (line.place(corner), corner)).collect();
    places.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    places.dedup_by(|next, kept| next.0 - kept.0 <= line.tolerance);
    let boundary = sides.len();
    let inside = |point: Point| {
        rings.iter().filter(|ring| ring.encloses(point)).count() == 1
            && !rings
                .iter()
                .flat_map(|ring| &ring.stretches)
                .any(|side| side.distance_to(point) <= line.tolerance)
    };
    // The chord that begins at each place: the index of its side that runs along the line; the one back comes next.
    let mut ahead: Vec<Option<usize>> = vec![None; places.len()];
    for (index, pair) in places.windows(2).enumerate() {
        let ((from, begin), (to, end)) = (pair[0], pair[1]);
        if !inside(line.point(0.5 * (from + to))) {
            continue;
        }
        let overlap = to.min(line.ends) - from.max(line.begins);
        if overlap <= line.tolerance {
            continue;
        }
        if from < line.begins - line.tolerance {
            all.ends_inside = Some(line.begins);
        } else if to > line.ends + line.tolerance {
            all.ends_inside = Some(line.ends);
        } else {
            all.chords.push(CutChord { part, from, to });
            ahead[index] = Some(sides.len());
            let stretch = Stretch { from: begin, to: end, curve: Curve::Straight, side: 0 };
            sides.push(Side { stretch, next: 0 });
            sides.push(Side { stretch: stretch.reversed(), next: 0 });
        }
    }
    for incoming in 0..boundary {
        let corner = sides[incoming].stretch.to;
        if !line.holds(corner) {
            continue;
        }
        let place = line.place(corner);
        let Some(node) = places.iter().position(|other| (other.0 - place).abs() <= line.tolerance) else {
            continue;
        };
        let outgoing = sides[incoming].next;
        // Each chord at the corner as (away from it, towards it).
        let forward = ahead[node].map(|chord| (chord, chord + 1));
        let backward = node.checked_sub(1).and_then(|before| ahead[before]).map(|chord| (chord + 1, chord));
        // In the order met when turning counter-clockwise from the outgoing side.
        let leaves_left = line.left(sides[outgoing].stretch.point_at(0.5)) > 0.0;
        let ordered = if leaves_left { [backward, forward] } else { [forward, backward] };
        let mut next = outgoing;
        for (away, towards) in ordered.into_iter().flatten() {
            sides[towards].next = next;
            next = away;
        }
        sides[incoming].next = next;
    }
    gather(part, &sides, &mut all.pieces);
}

/// The sides of the loops, split where the line crosses them, each with the one that follows.
fn sides_of(rings: &[&LocalRing], line: &CutLine) -> Vec<Side> {
    let mut sides: Vec<Side> = Vec::new();
    for ring in rings {
        let first = sides.len();
        let reach = [ring.bounds.left, ring.bounds.right]
            .into_iter()
            .flat_map(|x| [ring.bounds.bottom, ring.bounds.top].map(|y| line.place(Point::new(x, y)).abs()));
        let reach = 2.0 * reach.fold(line.begins.abs().max(line.ends.abs()), f64::max);
        let long =
            Stretch { from: line.point(-reach), to: line.point(reach), curve: Curve::Straight, side: 0 };
        for stretch in &ring.stretches {
            let mut marks: Vec<(f64, Point)> = meetings(stretch, &long, line.tolerance)
                .iter()
                .map(|at| (stretch.parameter(at), at))
                .collect();
            if matches!(stretch.curve, Curve::Straight) && line.holds(stretch.from) && line.holds(stretch.to)
            {
                marks.extend([line.begins, line.ends].map(|place| {
                    let at = line.point(place);
                    (stretch.parameter(at), at)
                }));
            }
            marks.retain(|(parameter, at)| {
                (0.0..=1.0).contains(parameter)
                    && at.distance(stretch.from) > line.tolerance
                    && at.distance(stretch.to) > line.tolerance
            });
            marks.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
            marks.dedup_by(|next, kept| next.1.distance(kept.1) <= line.tolerance);
            let mut from = stretch.from;
            for to in marks.iter().map(|(_, at)| *at).chain([stretch.to]) {
                let next = sides.len() + 1;
                sides.push(Side { stretch: stretch.between(from, to), next });
                from = to;
            }
        }
        if let Some(last) = sides.last_mut() {
            last.next = first;
        }
    }
    sides
}

/// Follows the sides round; loops that run counter-clockwise are pieces, the others their holes.
fn gather(part: usize, sides: &[Side], pieces: &mut Vec<Piece>) {
    let mut seen = vec![false; sides.len()];
    let mut holes = Vec::new();
    let first_piece = pieces.len();
    for begin in 0..sides.len() {
        let mut stretches = Vec::new();
        let mut at = begin;
        while !seen[at] {
            seen[at] = true;
            stretches.push(sides[at].stretch);
            at = sides[at].next;
        }
        if stretches.is_empty() {
            continue;
        }
        let ring = ring_of(part, Ring::Outline, stretches);
        if ring.signed_area() > 0.0 {
            pieces.push(Piece { part, outer: ring.stretches, holes: Vec::new() });
        } else {
            holes.push(ring);
        }
    }
    for hole in holes {
        let at = hole.stretches[0].point_at(0.5);
        let around = pieces[first_piece..]
            .iter_mut()
            .find(|piece| ring_of(part, Ring::Outline, piece.outer.clone()).encloses(at));
        if let Some(piece) = around {
            piece.holes.push(hole.stretches);
        }
    }
}
