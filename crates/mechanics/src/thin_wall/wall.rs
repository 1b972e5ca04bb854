//! One wall of a thin-walled section.

use super::ThinWallFault;
use super::line::Line;
use crate::real;
use crate::section::Point;

/// How a wall's middle line runs from its first joint to its last.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Path {
    /// Straight.
    Straight,
    /// Along a circle.
    Round {
        /// Centre of the circle, m.
        centre: Point,
        /// Angle through which it runs, rad, counter-clockwise positive.
        sweep: f64,
    },
}

/// A wall of one thickness between two joints.
#[derive(Clone, Debug, PartialEq)]
pub struct Wall {
    /// What it is called: `web`, `top flange, left`.
    pub name: String,
    /// Index of the joint where it begins.
    pub from: usize,
    /// Index of the joint where it ends; the same for a wall that closes a circle.
    pub to: usize,
    /// How it runs.
    pub path: Path,
    /// Its thickness, m.
    pub thickness: f64,
}

/// A round wall must end within this part of its radius from its last joint: both are computed, in the last bits apart.
const SAME_END: f64 = 1e-9;

impl Wall {
    /// A straight wall between two joints; thickness in m.
    pub fn straight(name: impl Into<String>, from: usize, to: usize, thickness: f64) -> Self {
        Self { name: name.into(), from, to, path: Path::Straight, thickness }
    }

    /// A round wall between two joints: its centre, m, the angle through which it runs, rad, counter-clockwise positive, and
    /// its thickness, m.
    pub fn round(
        name: impl Into<String>,
        (from, to): (usize, usize),
        centre: Point,
        sweep: f64,
        thickness: f64,
    ) -> Self {
        Self { name: name.into(), from, to, path: Path::Round { centre, sweep }, thickness }
    }

    /// Its middle line; `wall` is its index, for the fault.
    pub(super) fn line(&self, wall: usize, joints: &[Point]) -> Result<Line, ThinWallFault> {
        let (Some(&from), Some(&to)) = (joints.get(self.from), joints.get(self.to)) else {
            return Err(ThinWallFault::NoSuchJoint { wall });
        };
        let line = match self.path {
            Path::Straight => Line::Straight { from, to },
            Path::Round { centre, sweep } => Line::Round {
                centre,
                radius: real::hypot(from.x - centre.x, from.y - centre.y),
                start: real::atan2(from.y - centre.y, from.x - centre.x),
                sweep,
            },
        };
        let size = |x: f64| x > 0.0 && x.is_finite();
        if !size(line.length()) || !size(self.thickness) {
            return Err(ThinWallFault::Size { wall });
        }
        let end = line.at(1.0).0;
        let off = real::hypot(end.x - to.x, end.y - to.y);
        match line {
            Line::Round { radius, .. } if off > SAME_END * radius => {
                Err(ThinWallFault::EndsElsewhere { wall })
            }
            _ => Ok(line),
        }
    }
}
