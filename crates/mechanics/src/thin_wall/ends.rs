//! Where the walls of an outline end: at a corner, on the flank of another wall, or free.

use super::line::Line;
use super::no_middle_lines::NoMiddleLines;
use super::pairs::{SAME_LINE, Stretch, depth};
use super::sides::Side;
use super::strip::{Strip, mean, meeting};
use crate::section::Point;

/// The sine of the angle between walls that make a corner, at least.
const LEAST_BEND: f64 = 0.02;

/// How many thicknesses beyond what both sides reach a wall may go on: chamfers and tapers take something off them.
const BEYOND: f64 = 1.0;

/// A wall's end: its place among the walls, and 0 where its line begins, 1 where it ends.
type EndOf = (usize, usize);

/// Where a wall's end goes.
#[derive(Clone, Copy)]
enum Goes {
    /// To the end of another one.
    Corner { with: EndOf, at: Point },
    /// To the flank of another one, short of its middle line.
    Flank { of: usize, at: Point },
    /// Nowhere: it is free.
    Free,
}

/// The middle line of a wall led on beyond one of its ends to that of another.
#[derive(Clone, Copy)]
struct Meeting {
    at: Point,
    /// From the end, m; negative where it lies before it.
    ahead: f64,
}

/// The walls of an outline as strips from end to end, each by the number of its stretch; all are called nothing yet.
pub(super) fn ended(walls: &[Stretch], sides: &[Side]) -> Result<Vec<Strip>, NoMiddleLines> {
    let all = Walls { walls, sides };
    let goes: Vec<[Goes; 2]> = (0..walls.len()).map(|k| [all.goes((k, 0)), all.goes((k, 1))]).collect();
    let strip = |k: usize| {
        let mut ends = [[walls[k].from; 2], [walls[k].to; 2]];
        for end in 0..2 {
            ends[end] = match goes[k][end] {
                Goes::Corner { .. } => [all.corner((k, end), &goes)?; 2],
                Goes::Flank { of, at } => all.flank((k, end), of, at),
                Goes::Free => [all.free((k, end))?; 2],
            };
        }
        let line = Line::Straight { from: mean(ends[0][0], ends[0][1]), to: mean(ends[1][0], ends[1][1]) };
        Ok(Strip { name: String::new(), line, thickness: walls[k].thickness, ends })
    };
    (0..walls.len()).map(strip).collect()
}

/// Whether two walls and no more make one corner, as the legs of an angle do.
pub(super) fn is_angle(walls: &[Stretch], sides: &[Side]) -> bool {
    let all = Walls { walls, sides };
    walls.len() == 2 && (0..2).any(|end| matches!(all.goes((0, end)), Goes::Corner { .. }))
}

struct Walls<'a> {
    walls: &'a [Stretch],
    sides: &'a [Side],
}

impl Walls<'_> {
    /// A wall's end and the direction outwards.
    fn end(&self, (k, end): EndOf) -> (Point, Point) {
        let (wall, way) = (&self.walls[k], self.walls[k].way());
        if end == 0 { (wall.from, Point::new(-way.x, -way.y)) } else { (wall.to, way) }
    }

    /// How far beyond a wall's end the material goes on along its middle line, m.
    fn beyond(&self, of: EndOf) -> f64 {
        let (wall, (_, out)) = (&self.walls[of.0], self.end(of));
        depth(self.sides, wall.middle(), out) - 0.5 * wall.length()
    }

    /// Where a wall's end comes to the middle line of another one, within the material.
    ///
    /// With thicknesses t and t' at an angle φ, the sides of a wall that stands on another one's flank reach to within
    /// `(t' + t |cos φ|) / (2 sin φ)` of that line; at a corner both may reach beyond it by as much as `t |cos φ| / (2 sin φ)`. A
    /// wall that overhangs reaches further yet, by half of the other one's breadth across its line at least.
    fn meets(&self, of: EndOf, other: usize) -> Option<Meeting> {
        let (wall, on) = (&self.walls[of.0], &self.walls[other]);
        let (point, out) = self.end(of);
        let (sine, cosine) = (out.cross(on.way()).abs(), out.dot(on.way()).abs());
        if sine < LEAST_BEND {
            return None;
        }
        let at = meeting((point, out), (on.from, on.way()));
        let ahead = at.minus(point).dot(out);
        let before = (wall.thickness * cosine + 0.5 * on.thickness) / (2.0 * sine);
        let after = (on.thickness + wall.thickness * cosine) / (2.0 * sine)
            + BEYOND * wall.thickness.max(on.thickness);
        let within = ahead <= self.beyond(of) + SAME_LINE * wall.thickness;
        (ahead > -before && ahead <= after && within).then_some(Meeting { at, ahead })
    }

    /// Where a wall's end goes to another wall.
    fn goes_to(&self, of: EndOf, other: usize) -> Option<(Goes, f64)> {
        let Meeting { at, ahead } = self.meets(of, other)?;
        let on = &self.walls[other];
        let place = on.place(at);
        let nearer = usize::from(place > 0.5 * on.length());
        let goes = if self.meets((other, nearer), of.0).is_some() {
            Goes::Corner { with: (other, nearer), at }
        } else if place > 0.0 && place < on.length() {
            Goes::Flank { of: other, at }
        } else {
            return None;
        };
        Some((goes, ahead.abs()))
    }

    /// Where a wall's end goes: to a flank where there is one, else to the nearest corner.
    fn goes(&self, of: EndOf) -> Goes {
        let others = (0..self.walls.len()).filter(|other| *other != of.0);
        let found = others.filter_map(|other| self.goes_to(of, other));
        let is_corner = |goes: &Goes| matches!(goes, Goes::Corner { .. });
        found
            .min_by(|(a, near), (b, far)| is_corner(a).cmp(&is_corner(b)).then(near.total_cmp(far)))
            .map_or(Goes::Free, |(goes, _)| goes)
    }

    /// The joint of all walls that come to a corner; none where their middle lines do not meet in one point.
    fn corner(&self, of: EndOf, goes: &[[Goes; 2]]) -> Result<Point, NoMiddleLines> {
        let mut members = vec![of];
        let mut points: Vec<Point> = Vec::new();
        let mut next = 0;
        while let Some(&(wall, end)) = members.get(next) {
            next += 1;
            let all = (0..goes.len()).flat_map(|k| [(k, 0), (k, 1)]);
            for (k, which) in all {
                let Goes::Corner { with, at } = goes[k][which] else { continue };
                let other = match () {
                    () if (k, which) == (wall, end) => with,
                    () if with == (wall, end) => (k, which),
                    () => continue,
                };
                points.push(at);
                if !members.contains(&other) {
                    members.push(other);
                }
            }
        }
        let first = points.first().copied().unwrap_or(self.end(of).0);
        let near = SAME_LINE * members.iter().map(|(k, _)| self.walls[*k].thickness).fold(0.0, f64::max);
        if points.iter().any(|point| point.distance(first) > near) {
            return Err(NoMiddleLines::Apart);
        }
        if members.len() == 2 {
            return Ok(first);
        }
        let count = points.len() as f64;
        let (x, y) = points.iter().fold((0.0, 0.0), |(x, y), point| (x + point.x, y + point.y));
        Ok(Point::new(x / count, y / count))
    }

    /// The two corners where a wall stands on the flank of another one, whose middle line it would meet at a point.
    fn flank(&self, of: EndOf, other: usize, at: Point) -> [Point; 2] {
        let (wall, on) = (&self.walls[of.0], &self.walls[other]);
        let ((_, out), way) = (self.end(of), on.way());
        let sine = out.cross(way).abs();
        let (back, half) = (0.5 * on.thickness / sine, 0.5 * wall.thickness / sine);
        let foot = Point::new(at.x - back * out.x, at.y - back * out.y);
        [-half, half].map(|half| Point::new(foot.x + half * way.x, foot.y + half * way.y))
    }

    /// A free end: where the middle line leaves the material.
    fn free(&self, of: EndOf) -> Result<Point, NoMiddleLines> {
        let ((point, out), beyond) = (self.end(of), self.beyond(of));
        if beyond.abs() > (1.0 + BEYOND) * self.walls[of.0].thickness {
            return Err(NoMiddleLines::Unpaired);
        }
        Ok(Point::new(point.x + beyond * out.x, point.y + beyond * out.y))
    }
}
