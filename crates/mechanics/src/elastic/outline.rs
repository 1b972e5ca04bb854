//! The lines that a mesh has to follow: the outlines of all parts as one net of corners and sides, with each line along
//! which two parts touch once, cut where anything meets it, and cut finer towards corners where the stress is steep.

use super::Fault;
use crate::real;
use crate::section::meeting::meetings;
use crate::section::ring::{Bounds, Curve, LocalRing, Stretch};
use crate::section::{Point, Section};

/// An arc turns through no more than this between two corners of the mesh, rad: 30 degrees, so that a curved side bulges by
/// a fifteenth of its length.
const LARGEST_SWEEP: f64 = core::f64::consts::PI / 6.0;

/// An arc bulges out of its chord by no more than this part of the distance to the nearest other side, so that the
/// chords of a thin wall keep clear of each other.
const LARGEST_BULGE: f64 = 0.2;

/// The net may grow to so many sides and no more.
const MOST_SIDES: usize = 8_000;

/// The outline has a corner where it turns by more than this, rad: about a degree. At a re-entrant corner of less
/// the stress grows as the distance to the power of -0.006, which nobody would notice at the size of an atom.
const SMALLEST_TURN: f64 = 0.02;

/// Between two corners of the net, with the parts on both sides of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Side {
    pub from: usize,
    pub to: usize,
    pub stretch: Stretch,
    /// The part on its left, seen from `from` to `to`.
    pub left: usize,
    /// The part on its right, where it is the line along which two parts touch.
    pub right: Option<usize>,
}

impl Side {
    pub(super) fn is_arc(&self) -> bool {
        matches!(self.stretch.curve, Curve::Round { .. })
    }

    /// How far the side leaves its chord.
    fn bulge(&self) -> f64 {
        match self.stretch.curve {
            Curve::Straight => 0.0,
            Curve::Round { radius, sweep, .. } => radius * (1.0 - real::cos(0.5 * sweep)),
        }
    }
}

/// A corner at which the theory gives no finite stress, or may give none.
#[derive(Clone, Copy, Debug)]
pub(super) struct SharpCorner {
    pub vertex: usize,
    /// Distance to the nearest thing else: the length of the shortest side at it, or a side that does not end in it.
    pub room: f64,
}

/// The net, in coordinates from the centroid, in units of the section's size.
#[derive(Clone, Debug)]
pub(super) struct Outline {
    pub vertices: Vec<Point>,
    pub sides: Vec<Side>,
    pub sharp: Vec<SharpCorner>,
    /// Corners of the section that are not sharp but where the outline turns, with their room.
    pub convex: Vec<SharpCorner>,
}

/// The two pieces of a stretch on both sides of a parameter.
fn pieces_at(stretch: &Stretch, parameter: f64, at: Point) -> [Stretch; 2] {
    let (first, last) = match stretch.curve {
        Curve::Straight => (Curve::Straight, Curve::Straight),
        Curve::Round { centre, radius, start, sweep } => {
            let turned = sweep * parameter;
            (
                Curve::Round { centre, radius, start, sweep: turned },
                Curve::Round { centre, radius, start: start + turned, sweep: sweep - turned },
            )
        }
    };
    [Stretch { to: at, curve: first, ..*stretch }, Stretch { from: at, curve: last, ..*stretch }]
}

impl Outline {
    /// The net of a section; the unit of length is `size`, m, and the origin its centroid.
    pub(super) fn of(section: &Section, size: f64) -> Result<Self, Fault> {
        let tolerance = section.tolerance();
        let mut raw: Vec<(Stretch, usize)> = Vec::new();
        let rings = section.rings();
        for ring in rings {
            let others: Vec<&LocalRing> = rings
                .iter()
                .filter(|other| other.part != ring.part && other.bounds.meets(&ring.bounds, tolerance))
                .collect();
            for stretch in &ring.stretches {
                cut_where_met(stretch, &others, tolerance, |piece| raw.push((piece, ring.part)));
            }
        }
        let centroid = section.properties().centroid.minus(section.origin());
        let scaled = |point: Point| {
            let off = point.minus(centroid);
            Point::new(off.x / size, off.y / size)
        };
        let mut net =
            Outline { vertices: Vec::new(), sides: Vec::new(), sharp: Vec::new(), convex: Vec::new() };
        let near = 4.0 * tolerance / size;
        for (stretch, part) in raw {
            let curve = match stretch.curve {
                Curve::Straight => Curve::Straight,
                Curve::Round { centre, radius, start, sweep } => {
                    Curve::Round { centre: scaled(centre), radius: radius / size, start, sweep }
                }
            };
            let (from, to) = (net.vertex(scaled(stretch.from), near), net.vertex(scaled(stretch.to), near));
            let stretch =
                Stretch { from: net.vertices[from], to: net.vertices[to], curve, side: stretch.side };
            net.add(Side { from, to, stretch, left: part, right: None }, near);
        }
        net.find_corners(section);
        net.divide_arcs()?;
        Ok(net)
    }

    fn vertex(&mut self, at: Point, near: f64) -> usize {
        let same = |other: &Point| (other.x - at.x).abs() <= near && (other.y - at.y).abs() <= near;
        self.vertices.iter().position(same).unwrap_or_else(|| {
            self.vertices.push(at);
            self.vertices.len() - 1
        })
    }

    /// Adds a side, or, where another part has left the same line, tells that side who lies on its right.
    fn add(&mut self, side: Side, near: f64) {
        if side.from == side.to {
            return;
        }
        let middle = side.stretch.point_at(0.5);
        let twin = self.sides.iter_mut().find(|other| {
            other.from == side.to
                && other.to == side.from
                && other.left != side.left
                && other.stretch.point_at(0.5).distance(middle) <= 4.0 * near
        });
        match twin {
            Some(other) => other.right = Some(side.left),
            None => self.sides.push(side),
        }
    }

    /// Cuts a side at parameters that rise, none of them at its ends.
    pub(super) fn cut(&mut self, side: usize, parameters: &[f64]) {
        let mut done = 0.0;
        let mut rest = self.sides[side];
        let mut slot = side;
        for &parameter in parameters {
            let own = (parameter - done) / (1.0 - done);
            let at = rest.stretch.point_at(own);
            self.vertices.push(at);
            let middle = self.vertices.len() - 1;
            let [first, last] = pieces_at(&rest.stretch, own, at);
            self.sides[slot] = Side { to: middle, stretch: first, ..rest };
            rest = Side { from: middle, stretch: last, ..rest };
            self.sides.push(rest);
            slot = self.sides.len() - 1;
            done = parameter;
        }
    }

    /// Arcs into pieces that turn little and bulge little.
    fn divide_arcs(&mut self) -> Result<(), Fault> {
        for side in 0..self.sides.len() {
            if let Curve::Round { sweep, .. } = self.sides[side].stretch.curve {
                let pieces = (sweep.abs() / LARGEST_SWEEP - 1e-9).ceil().max(1.0);
                let count = pieces as usize;
                let cuts: Vec<f64> = (1..count).map(|k| k as f64 / pieces).collect();
                self.cut(side, &cuts);
            }
        }
        let mut side = 0;
        while side < self.sides.len() {
            if self.sides.len() > MOST_SIDES {
                return Err(Fault::TooFine { sides: MOST_SIDES });
            }
            let bulge = self.sides[side].bulge();
            if bulge > 0.0 && bulge > LARGEST_BULGE * self.clearance(side, bulge / LARGEST_BULGE) {
                self.cut(side, &[0.5]);
            } else {
                side += 1;
            }
        }
        Ok(())
    }

    /// Distance of a side from the nearest side that shares no corner with it; of no interest beyond `reach`.
    fn clearance(&self, side: usize, reach: f64) -> f64 {
        let this = &self.sides[side];
        let bounds = this.stretch.bounds();
        let marks = [0.0, 0.25, 0.5, 0.75, 1.0].map(|parameter| this.stretch.point_at(parameter));
        let mut least = reach;
        for other in &self.sides {
            let shares = [other.from, other.to].iter().any(|end| *end == this.from || *end == this.to);
            if shares || !other.stretch.bounds().meets(&bounds, reach) {
                continue;
            }
            for mark in marks {
                least = least.min(other.stretch.distance_to(mark));
            }
            for mark in [other.stretch.from, other.stretch.to] {
                least = least.min(this.stretch.distance_to(mark));
            }
        }
        least
    }

    /// Distance of a corner from the nearest thing else.
    fn room(&self, vertex: usize) -> f64 {
        let at = self.vertices[vertex];
        let mut bounds = Bounds::NONE;
        bounds.hold(at);
        let mut least = f64::INFINITY;
        for side in &self.sides {
            if side.from == vertex || side.to == vertex {
                least = least.min(side.stretch.length());
            } else if side.stretch.bounds().meets(&bounds, least) {
                least = least.min(side.stretch.distance_to(at));
            }
        }
        least
    }

    /// Finds the corners by the angle of the material round each vertex.
    fn find_corners(&mut self, section: &Section) {
        let mut at: Vec<Vec<(usize, bool)>> = vec![Vec::new(); self.vertices.len()];
        for (index, side) in self.sides.iter().enumerate() {
            at[side.from].push((index, true));
            at[side.to].push((index, false));
        }
        for (vertex, ends) in at.iter().enumerate() {
            // Directions of the sides that leave the vertex, with the parts counter-clockwise and clockwise of each.
            let mut rays: Vec<(f64, Option<usize>, Option<usize>)> = ends
                .iter()
                .map(|&(index, leaves)| {
                    let side = &self.sides[index];
                    let (left, right) = (Some(side.left), side.right);
                    if leaves {
                        (direction(&side.stretch), left, right)
                    } else {
                        (direction(&side.stretch.reversed()), right, left)
                    }
                })
                .collect();
            rays.sort_by(|a, b| a.0.total_cmp(&b.0));
            match sharpness(&rays, &|part| section.ratio(part)) {
                Sharpness::Smooth => {}
                Sharpness::Convex => self.convex.push(SharpCorner { vertex, room: self.room(vertex) }),
                Sharpness::Sharp => self.sharp.push(SharpCorner { vertex, room: self.room(vertex) }),
            }
        }
    }

    /// Cuts the sides at the corners given at distances that shrink towards the corner by `factor`, `layers` times.
    pub(super) fn grade(&mut self, corners: &[SharpCorner], layers: usize, factor: f64) {
        for corner in corners {
            let mut distance = 0.5 * corner.room;
            for _ in 0..layers {
                for index in 0..self.sides.len() {
                    let side = &self.sides[index];
                    let (leaves, arrives) = (side.from == corner.vertex, side.to == corner.vertex);
                    if !leaves && !arrives {
                        continue;
                    }
                    let share = distance / side.stretch.length();
                    // A side that is already as short needs no cut.
                    if share < 0.9 {
                        self.cut(index, &[if leaves { share } else { 1.0 - share }]);
                    }
                }
                distance *= factor;
            }
        }
    }
}

/// The direction in which a stretch leaves its beginning, rad.
fn direction(stretch: &Stretch) -> f64 {
    match stretch.curve {
        Curve::Straight => {
            let along = stretch.to.minus(stretch.from);
            real::atan2(along.y, along.x)
        }
        Curve::Round { start, sweep, .. } => {
            let angle = start + sweep.signum() * core::f64::consts::FRAC_PI_2;
            real::atan2(real::sin(angle), real::cos(angle))
        }
    }
}

enum Sharpness {
    Smooth,
    Convex,
    Sharp,
}

/// What the material does round a vertex. `rays` are sorted counter-clockwise, each with the part that follows it
/// counter-clockwise and the one before it.
///
/// Where one material fills an angle above half a turn, the stress grows without limit towards the vertex, as
/// `r^(pi/angle - 1)`. Where materials meet there it may do so too, whatever the angle, save where they meet a free
/// side squarely.
fn sharpness(rays: &[(f64, Option<usize>, Option<usize>)], ratio: &dyn Fn(usize) -> f64) -> Sharpness {
    let half = core::f64::consts::PI;
    let count = rays.len();
    let mut sectors: Vec<Option<(f64, f64)>> = Vec::with_capacity(count);
    for (index, ray) in rays.iter().enumerate() {
        let next = &rays[(index + 1) % count];
        let mut angle = next.0 - ray.0;
        if index + 1 == count {
            angle += 2.0 * half;
        }
        sectors.push(ray.1.map(|part| (angle, ratio(part))));
    }
    let mut worst = Sharpness::Smooth;
    // A fan begins after an empty sector; where there is none, the material goes all the way round.
    let begin = sectors.iter().position(Option::is_none).map_or(0, |empty| empty + 1);
    let mut fan: Vec<(f64, f64)> = Vec::new();
    for step in 0..=count {
        let sector = if step < count { sectors[(begin + step) % count] } else { None };
        if let Some(sector) = sector {
            fan.push(sector);
            continue;
        }
        if fan.is_empty() {
            continue;
        }
        let total: f64 = fan.iter().map(|sector| sector.0).sum();
        let one_material = fan.iter().all(|sector| sector.1 == fan[0].1);
        let square = fan.iter().all(|sector| (sector.0 - 0.5 * half).abs() < SMALLEST_TURN);
        let all_round = total > 2.0 * half - SMALLEST_TURN && sectors.iter().all(Option::is_some);
        let sharp = if one_material {
            total > half + SMALLEST_TURN && !all_round
        } else {
            let straight = fan.len() == 2 && fan.iter().all(|sector| (sector.0 - half).abs() < SMALLEST_TURN);
            !((square && fan.len() == 2) || (all_round && straight))
        };
        if sharp {
            return Sharpness::Sharp;
        }
        if total < half - SMALLEST_TURN {
            worst = Sharpness::Convex;
        }
        fan.clear();
    }
    worst
}

/// Hands on the pieces of a stretch between the points where other parts meet it.
fn cut_where_met(stretch: &Stretch, others: &[&LocalRing], tolerance: f64, mut hand_on: impl FnMut(Stretch)) {
    let mut marks: Vec<(f64, Point)> = Vec::new();
    let bounds = stretch.bounds();
    for other in others.iter().flat_map(|ring| &ring.stretches) {
        if !other.bounds().meets(&bounds, tolerance) {
            continue;
        }
        for point in meetings(stretch, other, tolerance).iter() {
            let apart = point.distance(stretch.from).min(point.distance(stretch.to));
            let parameter = stretch.parameter(point);
            if apart > 4.0 * tolerance && parameter > 0.0 && parameter < 1.0 {
                marks.push((parameter, point));
            }
        }
    }
    marks.sort_by(|a, b| a.0.total_cmp(&b.0));
    marks.dedup_by(|a, b| a.1.distance(b.1) <= 4.0 * tolerance);
    let mut rest = *stretch;
    let mut done = 0.0;
    for (parameter, point) in marks {
        let [first, last] = pieces_at(&rest, (parameter - done) / (1.0 - done), point);
        hand_on(first);
        rest = last;
        done = parameter;
    }
    hand_on(rest);
}
