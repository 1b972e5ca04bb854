//! Stress trajectories set so that they lie evenly apart on the sheet.
//!
//! Lines begin along the neutral axis, at places that are each other's mirror images, and then wherever a gap is left, from
//! midspan outwards. A line ends where it comes too near to another of its family, as those of one family do not cross but
//! crowd together. Where one half of the beam bears what the other bears, one half is drawn and mirrored: else which of two
//! lines is drawn first would show.

use crate::drawing::Step;
use crate::geometry::Point;
use crate::side::Side;
use mechanics::stress::{Family, StressField, TrajectoryPoint};
use std::collections::BTreeMap;

/// Distance between the lines of a family, px.
const APART: f64 = 21.0;
/// A line begins no nearer to another than this part of the distance, and ends where it comes nearer than that.
const NEAREST: (f64, f64) = (0.8, 0.38);
/// A line is no shorter than this, px.
const SHORTEST: f64 = 30.0;
/// A piece beyond a jump of the stress that ends after less than this is left out, px.
const STUB: f64 = 36.0;
/// What is as near to midspan as this lies on it, px.
const ON_MIDSPAN: f64 = 1e-6;
/// Distance of the points of a line at which it is looked how near another is, px.
const LOOK: f64 = 2.5;

/// The lines of one family so far: points in cells of the size of the distance.
#[derive(Default)]
struct Near(BTreeMap<(i32, i32), Vec<Point>>);

fn cell(at: Point) -> (i32, i32) {
    ((at.x / APART).floor() as i32, (at.y / APART).floor() as i32)
}

impl Near {
    fn add(&mut self, points: &[Point]) {
        for &point in points {
            self.0.entry(cell(point)).or_default().push(point);
        }
    }

    fn is_free(&self, at: Point, distance: f64) -> bool {
        let (column, row) = cell(at);
        (-1..=1).all(|dx| {
            (-1..=1).all(|dy| {
                let points = self.0.get(&(column + dx, row + dy));
                points.is_none_or(|points| points.iter().all(|other| other.distance(at) >= distance))
            })
        })
    }
}

/// A line being drawn: its curves, and points along it.
#[derive(Default)]
struct Line {
    steps: Vec<Step>,
    points: Vec<Point>,
    last: Option<TrajectoryPoint>,
    /// Whether it came back to where it began.
    is_ring: bool,
    /// How many steps and points it had where it last came to a jump of the stress, with the points beyond still to come.
    corner: Option<(usize, usize)>,
    /// Midspan, px, where a line ends whose other half is its image.
    middle: Option<f64>,
    /// Whether it ends there.
    is_half: bool,
}

impl Line {
    /// Whether a point comes near to where the line has been: round a point without stress it may run in a ring.
    fn meets_itself(&mut self, at: Point) -> bool {
        let Some(&begin) = self.points.first() else { return false };
        let recent = (0.8 * APART / LOOK) as usize;
        let older = self.points.len().saturating_sub(recent);
        let is_ring = older > 0 && begin.distance(at) <= LOOK;
        self.is_ring |= is_ring;
        let apart = |other: &Point| other.distance(at) >= NEAREST.1 * APART || other.distance(begin) < APART;
        is_ring || !self.points[..older].iter().all(apart)
    }

    /// Ends where it would crowd, or where it last came to a jump of the stress, if that is not far back: a short piece beyond
    /// would seem to end in the air.
    fn end(&mut self, last: Step) {
        match self.corner.filter(|&(_, points)| length(&self.points[points.saturating_sub(1)..]) < STUB) {
            Some((steps, points)) if steps > 1 => {
                self.steps.truncate(steps);
                self.points.truncate(points);
            }
            _ => self.steps.push(last),
        }
    }

    /// Goes on to a point; whether nothing is in the way.
    fn reach(&mut self, next: TrajectoryPoint, side: &Side, near: &Near) -> bool {
        let to = side.at(next.station, next.height);
        let Some(last) = self.last.replace(next) else {
            self.steps.push(Step::Move(to));
            self.points.push(to);
            return true;
        };
        let from = side.at(last.station, last.height);
        let third = mechanics::real::hypot(next.station - last.station, next.height - last.height) / 3.0;
        if third == 0.0 {
            self.corner = Some((self.steps.len(), self.points.len()));
            return true;
        }
        let beside = |of: TrajectoryPoint, by: f64| {
            side.at(of.station + by * of.direction[0], of.height + by * of.direction[1])
        };
        let (first, second) = (beside(last, third), beside(next, -third));
        let count = (from.distance(to) / LOOK).ceil().clamp(1.0, 2000.0);
        let curve = [from, first, second, to];
        let mut k = 1.0;
        while k <= count {
            let (at, head) = part(curve, k / count);
            if let Some(middle) = self.middle.filter(|&middle| at.x > middle + ON_MIDSPAN) {
                let (at, head) = part(curve, reaches(curve, middle, ((k - 1.0) / count, k / count)));
                self.steps.push(Step::Curve {
                    first: head[0],
                    second: head[1],
                    to: Point::new(middle, at.y),
                });
                self.points.push(at);
                self.is_half = true;
                return false;
            }
            if !near.is_free(at, NEAREST.1 * APART) || self.meets_itself(at) {
                self.end(Step::Curve { first: head[0], second: head[1], to: at });
                return false;
            }
            self.points.push(at);
            k += 1.0;
        }
        self.steps.push(Step::Curve { first, second, to });
        true
    }
}

/// At which part of its way, between two of them, a cubic reaches an upright line.
fn reaches(curve: [Point; 4], x: f64, (mut low, mut high): (f64, f64)) -> f64 {
    for _ in 0..40 {
        let middle = 0.5 * (low + high);
        if part(curve, middle).0.x <= x {
            low = middle;
        } else {
            high = middle;
        }
    }
    low
}

/// The image of a step beyond an upright line.
fn mirrored(step: Step, middle: f64) -> Step {
    let image = |at: Point| Point::new(2.0 * middle - at.x, at.y);
    match step {
        Step::Move(at) => Step::Move(image(at)),
        Step::Line(at) => Step::Line(image(at)),
        Step::Curve { first, second, to } => {
            Step::Curve { first: image(first), second: image(second), to: image(to) }
        }
        Step::Close => Step::Close,
    }
}

/// Whether one half of the beam bears what the other bears: as much pull, and as much shear the other way.
fn is_symmetrical(field: &StressField<'_>, axis: f64, scale: f64) -> bool {
    // Stations between which no load of its own can hide; none of them is likely to be a place of a load.
    const LOOKED_AT: u32 = 40;
    let top = field.panel(0, 0).map_or(axis, |panel| panel.bottom) + field.depth();
    let stresses = |station: f64| {
        let at = |height: f64| Some(field.stress(&field.panel_at(station, height)?, station, height));
        Some((at(top)?.normal, at(axis)?.shear))
    };
    (0..LOOKED_AT).all(|k| {
        let station = 0.5 * field.length() * (f64::from(k) + 0.37) / f64::from(LOOKED_AT);
        let halves = stresses(station).zip(stresses(field.length() - station));
        let near = |one: f64, other: f64| (one - other).abs() <= 1e-9 * scale;
        halves.is_some_and(|((pull, shear), (image, back))| near(pull, image) && near(shear, -back))
    })
}

/// The point of a cubic at a part of its way, and the inner control points of the piece up to there (de Casteljau).
fn part([a, b, c, d]: [Point; 4], t: f64) -> (Point, [Point; 2]) {
    let (ab, bc, cd) = (a.towards(b, t), b.towards(c, t), c.towards(d, t));
    let (abc, bcd) = (ab.towards(bc, t), bc.towards(cd, t));
    (abc.towards(bcd, t), [ab, abc])
}

fn length(points: &[Point]) -> f64 {
    points.windows(2).map(|pair| pair[0].distance(pair[1])).sum()
}

/// The steps of a path along all lines of a family, and how many lines there are.
pub(crate) fn lines(field: &StressField<'_>, side: &Side, axis: f64, family: Family) -> (Vec<Step>, usize) {
    let scale = field.scale();
    let (across, up) = side.scale();
    let rect = side.rect();
    let middle = is_symmetrical(field, axis, scale).then(|| rect.middle().x);
    let mut near = Near::default();
    let mut all = Vec::new();
    let mut count = 0;
    for (station, height) in seeds(field, (across, up), axis) {
        let at = side.at(station, height);
        // The image begins as far beyond midspan: on it the two are one line.
        let off = middle.map_or(f64::INFINITY, |middle| middle - at.x);
        if off.abs() > ON_MIDSPAN && off < 0.5 * NEAREST.0 * APART {
            continue;
        }
        if !near.is_free(at, NEAREST.0 * APART)
            || !rect.grown(1e-6).holds(crate::geometry::Rect::between(at, at))
        {
            continue;
        }
        let follow = |back: bool| {
            let mut line = Line { middle, ..Line::default() };
            field.follow((station, height), family, back, scale, |point| line.reach(point, side, &near));
            line
        };
        let there = follow(false);
        let back = if there.is_ring { Line::default() } else { follow(true) };
        if length(&there.points) + length(&back.points) < SHORTEST {
            continue;
        }
        let is_whole = there.is_half || back.is_half || off.abs() <= ON_MIDSPAN;
        count += if middle.is_none() || is_whole { 1 } else { 2 };
        for line in [there, back] {
            near.add(&line.points);
            if line.steps.len() > 1 {
                let image = middle.map(|middle| line.steps.iter().map(move |&step| mirrored(step, middle)));
                let image: Vec<Step> = image.into_iter().flatten().collect();
                all.extend(line.steps);
                all.extend(image);
            }
        }
    }
    (all, count)
}

/// Where lines may begin: along the axis, evenly; then on a grid, from the axis outwards. In each row from midspan outwards,
/// so that the places do not depend on which end of the beam is called the left one.
fn seeds(field: &StressField<'_>, (across, up): (f64, f64), axis: f64) -> Vec<(f64, f64)> {
    let row = |apart: f64| {
        let count = (field.length() * across / apart).round().max(1.0);
        let mut stations = Vec::new();
        let mut k = 0.5;
        while k < count {
            stations.push(field.length() * k / count);
            k += 1.0;
        }
        let last = stations.len() - 1;
        let pairs = (0..=last / 2).rev().flat_map(|left| [left, last - left]);
        let mut stations: Vec<f64> = pairs.map(|place| stations[place]).collect();
        stations.dedup();
        stations
    };
    let bottom = field.panel(0, 0).map_or(axis, |panel| panel.bottom);
    let top = bottom + field.depth();
    let mut seeds: Vec<(f64, f64)> = row(APART).into_iter().map(|station| (station, axis)).collect();
    let mut off = 0.5 * APART / up;
    while off < field.depth() {
        for height in [axis + off, axis - off] {
            if height > bottom && height < top {
                seeds.extend(row(0.5 * APART).into_iter().map(|station| (station, height)));
            }
        }
        off += 0.5 * APART / up;
    }
    seeds
}
