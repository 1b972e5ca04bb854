//! Stress trajectories: the lines whose direction is everywhere that of a principal stress.
//!
//! The direction is followed by the pair of formulas of order 3 and 2 that shares its last slope with the next step
//! (Bogacki and Shampine, 1989, coefficients from memory), with the step controlled by
//! the difference of the two. No step runs over the edge of a panel, so what jumps there does not blur the line: it
//! gets a corner. A principal direction has no sense, so that each evaluation takes the one along which the line came.

use super::PlaneStress;
use super::field::{Panel, StressField};
use crate::real;

/// Which of the two families of lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Family {
    /// Along the algebraically largest principal stress: the tension.
    Tension,
    /// Along the smallest: the compression.
    Compression,
}

/// A point of a trajectory with the direction in which it goes on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrajectoryPoint {
    /// Station, m.
    pub station: f64,
    /// Height, m.
    pub height: f64,
    /// Direction, a unit vector along the beam and up.
    pub direction: [f64; 2],
}

/// Why a trajectory ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TrajectoryEnd {
    /// It reaches the outline of the beam.
    Outline,
    /// The principal stresses are equal there, so that no direction is one of them more than any other.
    NoDirection,
    /// Beyond the edge of a panel the direction leads back.
    TurnedBack,
    /// Whoever asked had enough of it, or it is longer than any line of sense.
    Stopped,
}

/// The error allowed in one step, of the depth of the section: at a depth of some 150 px on a sheet, 0.015 px.
const TOLERANCE: f64 = 1e-4;
/// The longest and the shortest step, of the depth.
const STEPS: (f64, f64) = (0.5, 1e-6);
/// A line has no more steps than this: a hundred of them cross a drawing.
const MOST_STEPS: usize = 4000;
/// Principal stresses that differ by less than this part of the greatest are equal.
const EQUAL: f64 = 1e-9;

impl StressField<'_> {
    /// The direction of a family at a state of stress, the one nearer to `along`; `None` where there is none.
    fn direction(
        &self,
        stress: PlaneStress,
        family: Family,
        along: [f64; 2],
        scale: f64,
    ) -> Option<[f64; 2]> {
        let principal = stress.principal();
        if principal.largest_shear <= EQUAL * scale {
            return None;
        }
        let (sin, cos) = (real::sin(principal.angle), real::cos(principal.angle));
        let [x, y] = match family {
            Family::Tension => [cos, sin],
            Family::Compression => [-sin, cos],
        };
        if x * along[0] + y * along[1] < 0.0 { Some([-x, -y]) } else { Some([x, y]) }
    }

    /// Follows a trajectory from a point of the beam; `scale` is [`StressField::scale`]. It begins towards the right
    /// (of an upright direction, upwards), or the other way where `back` is set. Each point is handed to `reached`,
    /// which says whether to go on; a corner comes as two points of one place.
    pub fn follow(
        &self,
        (station, height): (f64, f64),
        family: Family,
        back: bool,
        scale: f64,
        mut reached: impl FnMut(TrajectoryPoint) -> bool,
    ) -> TrajectoryEnd {
        let depth = self.depth();
        let sense = if back { -1.0 } else { 1.0 };
        // A direction that is upright but for rounding goes up.
        let begin = [sense, 1e-6 * sense];
        let Some(mut panel) = self.panel_at(station, height) else { return TrajectoryEnd::Outline };
        let mut at = [station, height];
        let Some(mut slope) = self.direction(self.stress(&panel, at[0], at[1]), family, begin, scale) else {
            return TrajectoryEnd::NoDirection;
        };
        let mut step = 0.05 * depth;
        if !reached(point(at, slope)) {
            return TrajectoryEnd::Stopped;
        }
        for _ in 0..MOST_STEPS {
            let Some((next, next_slope, error)) = self.step(&panel, family, (at, slope), step, scale) else {
                return TrajectoryEnd::NoDirection;
            };
            let allowed = TOLERANCE * depth;
            if error > allowed && step > STEPS.1 * depth {
                step = (step * factor(allowed, error)).max(STEPS.1 * depth);
                continue;
            }
            let taken = step;
            step = (step * factor(allowed, error)).clamp(STEPS.1 * depth, STEPS.0 * depth);
            let Some((part, side)) = leaves(&panel, (at, slope), (next, next_slope), taken) else {
                (at, slope) = (next, next_slope);
                if !reached(point(at, slope)) {
                    return TrajectoryEnd::Stopped;
                }
                continue;
            };
            at = side.held(&panel, along_cubic((at, slope), (next, next_slope), taken, part));
            if let Some(there) = self.direction(self.stress(&panel, at[0], at[1]), family, slope, scale) {
                slope = there;
            }
            if !reached(point(at, slope)) {
                return TrajectoryEnd::Stopped;
            }
            let Some(beyond) = self.beyond(&panel, side) else { return TrajectoryEnd::Outline };
            let Some(turned) = self.direction(self.stress(&beyond, at[0], at[1]), family, slope, scale)
            else {
                return TrajectoryEnd::NoDirection;
            };
            if side.outward(turned) <= 0.0 {
                return TrajectoryEnd::TurnedBack;
            }
            panel = beyond;
            let corner = turned[0] * slope[0] + turned[1] * slope[1] < 1.0 - 1e-9;
            slope = turned;
            if corner && !reached(point(at, slope)) {
                return TrajectoryEnd::Stopped;
            }
        }
        TrajectoryEnd::Stopped
    }

    /// One step: where it leads, the direction there, and the error, m.
    fn step(
        &self,
        panel: &Panel,
        family: Family,
        (at, first): ([f64; 2], [f64; 2]),
        step: f64,
        scale: f64,
    ) -> Option<([f64; 2], [f64; 2], f64)> {
        let ahead = |slopes: &[(f64, [f64; 2])]| {
            let sum = |k: usize| slopes.iter().map(|(weight, slope)| weight * slope[k]).sum::<f64>();
            [at[0] + step * sum(0), at[1] + step * sum(1)]
        };
        let slope_at = |place: [f64; 2], along: [f64; 2]| {
            self.direction(self.stress(panel, place[0], place[1]), family, along, scale)
        };
        let second = slope_at(ahead(&[(0.5, first)]), first)?;
        let third = slope_at(ahead(&[(0.75, second)]), second)?;
        let next = ahead(&[(2.0 / 9.0, first), (1.0 / 3.0, second), (4.0 / 9.0, third)]);
        let fourth = slope_at(next, third)?;
        let lower = ahead(&[(7.0 / 24.0, first), (0.25, second), (1.0 / 3.0, third), (0.125, fourth)]);
        Some((next, fourth, real::hypot(next[0] - lower[0], next[1] - lower[1])))
    }

    /// The panel on the other side of an edge.
    fn beyond(&self, panel: &Panel, side: Edge) -> Option<Panel> {
        let (stretch, strip) = (panel.stretch, panel.strip);
        match side {
            Edge::Left => self.panel(stretch.checked_sub(1)?, strip),
            Edge::Right => self.panel(stretch + 1, strip),
            Edge::Bottom => self.panel(stretch, strip.checked_sub(1)?),
            Edge::Top => self.panel(stretch, strip + 1),
        }
    }
}

fn point(at: [f64; 2], direction: [f64; 2]) -> TrajectoryPoint {
    TrajectoryPoint { station: at[0], height: at[1], direction }
}

/// How much longer the next step may be: the error of the lower formula grows with the cube of the step.
fn factor(allowed: f64, error: f64) -> f64 {
    if error <= 0.0 { 3.0 } else { (0.9 * real::cbrt(allowed / error)).clamp(0.2, 3.0) }
}

/// An edge of a panel.
#[derive(Clone, Copy)]
enum Edge {
    Left,
    Right,
    Bottom,
    Top,
}

impl Edge {
    /// How much of a direction leads out over this edge.
    fn outward(self, [x, y]: [f64; 2]) -> f64 {
        match self {
            Edge::Left => -x,
            Edge::Right => x,
            Edge::Bottom => -y,
            Edge::Top => y,
        }
    }

    /// How far a place lies beyond this edge, m.
    fn past(self, panel: &Panel, [x, y]: [f64; 2]) -> f64 {
        match self {
            Edge::Left => panel.from - x,
            Edge::Right => x - panel.to,
            Edge::Bottom => panel.bottom - y,
            Edge::Top => y - panel.top,
        }
    }

    /// A place put on this edge.
    fn held(self, panel: &Panel, [x, y]: [f64; 2]) -> [f64; 2] {
        match self {
            Edge::Left => [panel.from, y],
            Edge::Right => [panel.to, y],
            Edge::Bottom => [x, panel.bottom],
            Edge::Top => [x, panel.top],
        }
    }
}

type Place = ([f64; 2], [f64; 2]);

/// The place at a part of a step: the cubic through both ends with their directions.
fn along_cubic((from, begins): Place, (to, ends): Place, step: f64, t: f64) -> [f64; 2] {
    let (u, v) = (t * t, t * t * t);
    let weights = [2.0 * v - 3.0 * u + 1.0, step * (v - 2.0 * u + t), 3.0 * u - 2.0 * v, step * (v - u)];
    [0, 1].map(|k| weights[0] * from[k] + weights[1] * begins[k] + weights[2] * to[k] + weights[3] * ends[k])
}

/// The edge over which a step leaves the panel first, and at which part of the step; `None` where it stays.
fn leaves(panel: &Panel, from: Place, to: Place, step: f64) -> Option<(f64, Edge)> {
    let edges = [Edge::Left, Edge::Right, Edge::Bottom, Edge::Top];
    let crossed = edges.into_iter().filter(|edge| edge.past(panel, to.0) > 0.0).map(|edge| {
        let (mut inside, mut outside) = (0.0, 1.0);
        // 60 halvings exhaust the bits of a part.
        for _ in 0..60 {
            let middle = 0.5 * (inside + outside);
            let past = edge.past(panel, along_cubic(from, to, step, middle)) > 0.0;
            if past { outside = middle } else { inside = middle }
        }
        (outside, edge)
    });
    crossed.min_by(|a, b| a.0.total_cmp(&b.0))
}
