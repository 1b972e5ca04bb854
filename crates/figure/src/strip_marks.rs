//! A section of strips on the sheet: where it stands, its tints and hatches, the outlines of its bodies.

use crate::cross_section;
use crate::drawing::Mark;
use crate::geometry::Point;
use crate::hatch;
use crate::outline::Extent;
use crate::palette::{Ink, Stroke};
use crate::scene::Scene;
use crate::strips::{Piece, Strip};
use crate::transformed::Transformed;

/// Where heights fall, px.
pub(crate) struct High {
    /// px for each m.
    pub scale: f64,
    /// The box round the section, m.
    pub extent: Extent,
}

impl High {
    pub(crate) fn y(&self, height: f64) -> f64 {
        -(height - self.extent.bottom) * self.scale
    }
}

/// Where a section stands.
pub(crate) struct Across {
    /// px for each m of width.
    pub scale: f64,
    /// Its left edge, px.
    pub left: f64,
    /// The box round it, m.
    pub wide: Extent,
}

impl Across {
    pub(crate) fn x(&self, x: f64) -> f64 {
        self.left + (x - self.wide.left) * self.scale
    }

    pub(crate) fn right(&self) -> f64 {
        self.x(self.wide.right)
    }
}

/// A section of strips: tints and hatches of the materials, outlines of the bodies.
pub(crate) fn outlined(
    scene: &Scene,
    high: &High,
    of: &Transformed,
    strips: &[Strip],
    across: &Across,
) -> Vec<Mark> {
    let hatches = cross_section::materials(scene);
    let at = |x: f64, height: f64| Point::new(across.x(x), high.y(height));
    let (mut fills, mut edges) = (Vec::new(), Vec::new());
    let mut edge = |from: Point, to: Point| edges.push(Mark::Line { from, to, stroke: Stroke::OUTLINE });
    let near = 1e-6 * scene.extent.breadth();
    for strip in strips {
        for (place, piece) in strip.pieces.iter().enumerate() {
            let (low, top) = (strip.low, strip.high);
            let corners = vec![
                at(piece.below.0, low),
                at(piece.below.1, low),
                at(piece.above.1, top),
                at(piece.above.0, top),
            ];
            let ratio = of.material_of(piece.part).map_or(1.0, |material| material.modular_ratio);
            let loops = [corners.clone()];
            fills.push(Mark::Polygon { points: corners.clone(), stroke: None, fill: Some(Ink::Material) });
            if let Some(&(_, slant)) = hatches.iter().find(|(n, _)| *n == ratio) {
                fills.extend(hatch::marks(&loops, slant, 5.0, Stroke::solid(Ink::Quiet, 0.5)));
            }
            // What touches its neighbour of the same body has no line there, of another body one line.
            let touching = |other: &Piece| {
                (other.below.1 - piece.below.0).abs() <= near && (other.above.1 - piece.above.0).abs() <= near
            };
            let before = place.checked_sub(1).map(|place| &strip.pieces[place]);
            let after = strip.pieces.get(place + 1);
            if !before.is_some_and(|other| touching(other) && other.body == piece.body) {
                edge(corners[0], corners[3]);
            }
            let shared = after.is_some_and(|other| {
                (other.below.0 - piece.below.1).abs() <= near && (other.above.0 - piece.above.1).abs() <= near
            });
            if !shared {
                edge(corners[1], corners[2]);
            }
        }
    }
    let mut heights: Vec<f64> = strips.iter().flat_map(|strip| [strip.low, strip.high]).collect();
    heights.sort_by(f64::total_cmp);
    heights.dedup_by(|a, b| (*a - *b).abs() <= near);
    for height in heights {
        for body in 0..scene.bodies.len() {
            let below = stretches(strips, body, |strip| (strip.high - height).abs() <= near, |p| p.above);
            let above = stretches(strips, body, |strip| (strip.low - height).abs() <= near, |p| p.below);
            for (from, to) in in_one_alone(&below, &above, near) {
                edge(at(from, height), at(to, height));
            }
        }
    }
    fills.extend(edges);
    fills
}

/// The stretches of a body along one edge of a strip.
fn stretches(
    strips: &[Strip],
    body: usize,
    wanted: impl Fn(&Strip) -> bool,
    edge: impl Fn(&Piece) -> (f64, f64),
) -> Vec<(f64, f64)> {
    let strips = strips.iter().filter(|strip| wanted(strip));
    strips.flat_map(|strip| &strip.pieces).filter(|piece| piece.body == body).map(edge).collect()
}

/// Where one of two lists of stretches has something and the other nothing.
fn in_one_alone(one: &[(f64, f64)], other: &[(f64, f64)], near: f64) -> Vec<(f64, f64)> {
    let mut ends: Vec<f64> = one.iter().chain(other).flat_map(|&(from, to)| [from, to]).collect();
    ends.sort_by(f64::total_cmp);
    let holds = |list: &[(f64, f64)], x: f64| list.iter().any(|&(from, to)| from < x && x < to);
    let pairs = ends.windows(2).map(|pair| (pair[0], pair[1])).filter(|(from, to)| to - from > near);
    pairs
        .filter(|(from, to)| {
            let middle = 0.5 * (from + to);
            holds(one, middle) != holds(other, middle)
        })
        .collect()
}
