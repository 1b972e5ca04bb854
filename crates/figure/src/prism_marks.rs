//! The marks of a prismatic piece in axonometric projection: walls and near end.

use crate::drawing::{Mark, Step};
use crate::geometry::Point as Spot;
use crate::hatch;
use crate::outline::Region;
use crate::palette::{Ink, Stroke, THIN};
use crate::prism::{View, Wall, walls};
use core::f64::consts::FRAC_PI_4;

/// Tints of a piece by the light that falls on them.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Paint {
    /// The near end.
    pub end: Ink,
    /// Walls in light, half in shade, in shade.
    pub walls: [Ink; 3],
    /// Whether the near end is hatched as the part beyond the cut.
    pub hatched: bool,
}

impl Paint {
    /// What stays when the part beyond the cut is lifted off.
    pub const REST: Paint = Paint {
        end: Ink::Material,
        walls: [Ink::MaterialLight, Ink::Material, Ink::MaterialShade],
        hatched: false,
    };

    /// The part beyond the cut.
    pub const BEYOND: Paint =
        Paint { end: Ink::Beyond, walls: [Ink::BeyondLight, Ink::Beyond, Ink::BeyondShade], hatched: true };
}

/// A piece between two stations, seen with its end at `near`.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Piece<'a> {
    /// Its parts.
    pub regions: &'a [Region],
    /// Station of the end that is seen, m.
    pub near: f64,
    /// Station of the other end, m.
    pub far: f64,
}

/// Its walls and its near end.
pub(crate) fn marks(view: &View, piece: Piece, paint: Paint) -> Vec<Mark> {
    let mut marks = Vec::new();
    for wall in walls(view, piece.regions, piece.near, piece.far) {
        push_wall(&mut marks, &wall, paint);
    }
    for region in piece.regions.iter().filter(|r| !r.is_empty()) {
        push_end(&mut marks, view, piece.near, region, paint);
    }
    marks
}

fn push_wall(marks: &mut Vec<Mark>, wall: &Wall, paint: Paint) {
    let step = (wall.light * 3.0).floor().clamp(0.0, 2.0);
    let ink = paint.walls[2 - step as usize];
    marks.push(Mark::Polygon { points: wall.corners.to_vec(), stroke: None, fill: Some(ink) });
    let [near_a, near_b, far_b, far_a] = wall.corners;
    // Where an outline runs smoothly on, a thin line in the wall's own tint closes the seam between two facets; it
    // ends short of the far edge, which it would else cover.
    let seam = Stroke::solid(ink, 0.7);
    for (near, far, line) in [(near_a, far_a, wall.lines.0), (near_b, far_b, wall.lines.1)] {
        let length = near.distance(far);
        if !line && length > 2.0 {
            let to = near.towards(far, 1.0 - 1.2 / length);
            marks.push(Mark::Line { from: near, to, stroke: seam });
        }
    }
    let edge = Stroke::solid(Ink::Line, THIN);
    marks.push(Mark::Line { from: far_a, to: far_b, stroke: edge });
    if wall.lines.0 {
        marks.push(Mark::Line { from: near_a, to: far_a, stroke: edge });
    }
    if wall.lines.1 {
        marks.push(Mark::Line { from: near_b, to: far_b, stroke: edge });
    }
}

fn push_end(marks: &mut Vec<Mark>, view: &View, station: f64, region: &Region, paint: Paint) {
    let loops: Vec<Vec<Spot>> =
        region.rings.iter().map(|ring| ring.points.iter().map(|&p| view.at(station, p)).collect()).collect();
    marks.push(filled(&loops, Some(paint.end), None));
    if paint.hatched {
        marks.extend(hatch::marks(&loops, FRAC_PI_4, 6.0, Stroke::solid(Ink::BeyondHatch, THIN)));
    }
    marks.push(filled(&loops, None, Some(Stroke::OUTLINE)));
}

/// Closed loops as one path, holes by the even-odd rule.
pub(crate) fn filled(loops: &[Vec<Spot>], fill: Option<Ink>, stroke: Option<Stroke>) -> Mark {
    let mut steps = Vec::new();
    for points in loops {
        let mut points = points.iter();
        if let Some(&first) = points.next() {
            steps.push(Step::Move(first));
            steps.extend(points.map(|&p| Step::Line(p)));
            steps.push(Step::Close);
        }
    }
    Mark::Path { steps, stroke, fill }
}
