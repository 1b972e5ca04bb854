//! Strips joined to walls: where one stands on another, both middle lines meet.

use super::line::Line;
use super::no_middle_lines::NoMiddleLines;
use super::strip::{Strip, mean, meeting};
use super::{ThinWallFault, ThinWalls, Wall};
use crate::section::Point;

/// Strips that stand off each other by less than this part of the section's size touch: places are sums of sizes read from
/// text, and those on slopes are written with few figures.
const TOUCHES: f64 = 1e-5;

/// Strips whose directions differ by less than this, as the sine of the angle between them, lie along each other: none stands
/// on the other.
const ALONG: f64 = 0.2;

/// Where the two ends of a strip go.
#[derive(Clone, Copy, Default)]
struct Ends([Option<Point>; 2]);

/// A strip's end on the flank of another.
struct Standing {
    /// Where the middle lines meet, m.
    at: Point,
    /// The end of the other strip with which it makes a corner.
    corner: Option<usize>,
}

/// The joints found so far; those nearer to each other than `near`, m, are one.
struct Joints {
    all: Vec<Point>,
    near: f64,
}

impl Joints {
    /// The joint at a point, a new one where there is none but the `other`.
    fn at(&mut self, point: Point, other: Option<usize>) -> usize {
        let is_it = |(k, there): (usize, &Point)| Some(k) != other && there.distance(point) <= self.near;
        self.all.iter().enumerate().position(is_it).unwrap_or_else(|| {
            self.all.push(point);
            self.all.len() - 1
        })
    }
}

/// Strips joined where one stands on another, or one ends where another ends.
pub(super) fn joined(strips: &[Strip]) -> Result<ThinWalls, NoMiddleLines> {
    let size = strips.iter().map(|strip| strip.line.length()).fold(0.0, f64::max);
    let near = TOUCHES * size;
    let mut ends = vec![Ends::default(); strips.len()];
    let mut breaks: Vec<Vec<Point>> = vec![Vec::new(); strips.len()];
    for (one, strip) in strips.iter().enumerate() {
        for (other, on) in strips.iter().enumerate().filter(|(other, _)| *other != one) {
            for end in 0..2 {
                if let Some(standing) = stands_on(strip, end, on, near) {
                    ends[one].0[end] = Some(standing.at);
                    breaks[other].push(standing.at);
                    if let Some(corner) = standing.corner {
                        ends[other].0[corner] = Some(standing.at);
                    }
                } else if (0..2).any(|of_other| strip.end(end).distance(on.end(of_other)) <= near) {
                    ends[one].0[end].get_or_insert(strip.end(end));
                }
            }
        }
    }
    let mut joints = Joints { all: Vec::new(), near };
    // A round wall ends on its circle; straight ones are led there. The two edges of a slit stay two, however narrow it is.
    let of_round = |strip: &Strip, joints: &mut Joints| {
        let from = joints.at(strip.end(0), None);
        (from, joints.at(strip.end(1), Some(from)))
    };
    let round: Vec<Option<(usize, usize)>> = strips
        .iter()
        .map(|strip| matches!(strip.line, Line::Round { .. }).then(|| of_round(strip, &mut joints)))
        .collect();
    let mut walls = Vec::new();
    for (((strip, ends), mut along), round) in strips.iter().zip(ends).zip(breaks).zip(round) {
        if let (Line::Round { centre, sweep, .. }, Some(ends)) = (strip.line, round) {
            walls.push(Wall::round(&strip.name, ends, centre, sweep, strip.thickness));
            continue;
        }
        let (from, to) = (strip.end(0), strip.end(1));
        along.extend([ends.0[0].unwrap_or(from), ends.0[1].unwrap_or(to)]);
        let way = to.minus(from);
        let place = |point: &Point| point.minus(from).dot(way);
        along.sort_by(|a, b| place(a).total_cmp(&place(b)));
        along.dedup_by(|a, b| a.distance(*b) <= near);
        let stretches = along.len().saturating_sub(1);
        for (stretch, pair) in along.windows(2).enumerate() {
            let (from, to) = (joints.at(pair[0], None), joints.at(pair[1], None));
            walls.push(Wall::straight(strip.name_of(stretch, stretches), from, to, strip.thickness));
        }
    }
    ThinWalls::new(joints.all, walls).map_err(|fault| match fault {
        ThinWallFault::OnOneLine | ThinWallFault::NoWalls => NoMiddleLines::Solid,
        ThinWallFault::NoSuchJoint { .. }
        | ThinWallFault::Size { .. }
        | ThinWallFault::EndsElsewhere { .. }
        | ThinWallFault::Apart { .. } => NoMiddleLines::Apart,
    })
}

/// Where the end of a strip stands on the flank of another; `near` is what counts as touching, m.
fn stands_on(strip: &Strip, end: usize, on: &Strip, near: f64) -> Option<Standing> {
    let (Line::Straight { from, to }, Line::Straight { from: foot, to: head }) = (strip.line, on.line) else {
        return None;
    };
    let (way, flank) = (to.minus(from), head.minus(foot));
    let (length, reach) = (way.length(), flank.length());
    if way.cross(flank).abs() < ALONG * length * reach {
        return None;
    }
    // Off the other's middle line, and along it.
    let off = |point: Point| flank.cross(point.minus(foot)) / reach;
    let along = |point: Point| flank.dot(point.minus(foot)) / reach;
    let [one, other] = strip.ends[end];
    let middle = mean(one, other);
    let aslant = 0.5 * (off(one) - off(other)).abs();
    let touches = (off(middle).abs() - 0.5 * on.thickness).abs() <= near + aslant;
    let place = along(middle);
    if !touches || place < -near || place > reach + near {
        return None;
    }
    let flush = 0.5 * (along(one) - along(other)).abs() + near;
    let corner = match () {
        () if place <= flush => Some(0),
        () if (reach - place).abs() <= flush => Some(1),
        () => None,
    };
    Some(Standing { at: meeting((middle, way), (foot, flank)), corner })
}
