//! The middle line of one wall: straight, or an arc of a circle; its points and the integrals along it.

use crate::gauss;
use crate::real;
use crate::section::Point;

/// A middle line, m and rad.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Line {
    Straight { from: Point, to: Point },
    Round { centre: Point, radius: f64, start: f64, sweep: f64 },
}

/// A point of a middle line that stands for some of its length.
pub(super) struct Node {
    /// Part of the length from 0 to 1.
    pub part: f64,
    pub point: Point,
    /// Direction of the line there, of length 1.
    pub along: Point,
    /// Length that it stands for, m.
    pub weight: f64,
}

/// What is linear in the place: `x` times the first, `y` times the second, and the third.
pub(super) type Linear = (f64, f64, f64);

/// Pieces into which an arc is cut for quadrature; sixteen nodes in each meet the products of sines, cosines and the angle
/// over a full turn to the last bits. On a straight wall one piece is exact, for there all is a polynomial.
const PIECES: u32 = 8;

impl Line {
    pub fn length(&self) -> f64 {
        match *self {
            Self::Straight { from, to } => real::hypot(to.x - from.x, to.y - from.y),
            Self::Round { radius, sweep, .. } => radius * sweep.abs(),
        }
    }

    /// The point at a part from 0 to 1 of the length, and the direction there.
    pub fn at(&self, part: f64) -> (Point, Point) {
        match *self {
            Self::Straight { from, to } => {
                let (dx, dy, length) = (to.x - from.x, to.y - from.y, self.length());
                (Point::new(from.x + part * dx, from.y + part * dy), Point::new(dx / length, dy / length))
            }
            Self::Round { centre, radius, start, sweep } => {
                let angle = start + part * sweep;
                let (c, s, sense) = (real::cos(angle), real::sin(angle), sweep.signum());
                (Point::new(centre.x + radius * c, centre.y + radius * s), Point::new(-s * sense, c * sense))
            }
        }
    }

    /// `∫ (a x + b y + c) ds` from where the line begins to a part of its length.
    pub fn integral(&self, (a, b, c): Linear, part: f64) -> f64 {
        let s = part * self.length();
        match *self {
            // The value half-way times the length.
            Self::Straight { .. } => {
                let (middle, _) = self.at(0.5 * part);
                (a * middle.x + b * middle.y + c) * s
            }
            // With x = x_c + R cos φ, y = y_c + R sin φ, ds = ± R dφ.
            Self::Round { centre, radius, start, sweep } => {
                let end = start + part * sweep;
                let across = real::sin(end) - real::sin(start);
                let up = real::cos(start) - real::cos(end);
                let turned = radius * radius * sweep.signum();
                (a * centre.x + b * centre.y + c) * s + turned * (a * across + b * up)
            }
        }
    }

    /// The parts of the length, strictly between 0 and 1, where `a x + b y + c` is zero.
    pub fn zeros(&self, (a, b, c): Linear) -> Vec<f64> {
        let within = |part: &f64| *part > 0.0 && *part < 1.0;
        match *self {
            Self::Straight { from, to } => {
                let (begin, end) = (a * from.x + b * from.y + c, a * to.x + b * to.y + c);
                // A line along which it hardly changes has no zero of its own.
                Some(begin / (begin - end)).into_iter().filter(within).collect()
            }
            // R √(a² + b²) cos(φ - φ₀) = -(a x_c + b y_c + c): two angles in each turn.
            Self::Round { centre, radius, start, sweep } => {
                let size = radius * real::hypot(a, b);
                let level = -(a * centre.x + b * centre.y + c) / size;
                if level.is_nan() || level.abs() > 1.0 {
                    return Vec::new();
                }
                let (direction, aside) = (real::atan2(b, a), real::acos(level));
                let turn = core::f64::consts::TAU;
                let turns = (sweep.abs() / turn).ceil() as u32;
                let mut parts = Vec::new();
                for angle in [direction + aside, direction - aside] {
                    let first = ((angle - start) * sweep.signum()).rem_euclid(turn);
                    parts.extend(
                        (0..=turns).map(|k| (first + f64::from(k) * turn) / sweep.abs()).filter(within),
                    );
                }
                parts.sort_by(f64::total_cmp);
                parts
            }
        }
    }

    /// Hands on points with the length that each stands for.
    pub fn for_each_node(&self, mut hand_on: impl FnMut(Node)) {
        let length = self.length();
        let pieces = match self {
            Self::Straight { .. } => 1,
            Self::Round { .. } => PIECES,
        };
        let part_of = |piece: u32| f64::from(piece) / f64::from(pieces);
        for piece in 0..pieces {
            gauss::for_each_node(part_of(piece), part_of(piece + 1), |part, weight| {
                let (point, along) = self.at(part);
                hand_on(Node { part, point, along, weight: weight * length });
            });
        }
    }
}
