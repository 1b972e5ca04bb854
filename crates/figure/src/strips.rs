//! A section strip by strip, as it is or transformed: the breadth of each material as many times as its modular ratio says,
//! the heights as they are.

use crate::outline::Extent;
use crate::scene::Scene;
use mechanics::section::HeightSide;

/// How finely a part with sloping or round sides is taken apart, strips between two heights.
const FINE: usize = 16;

/// Whether breadths are as they are or as they count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Breadths {
    Drawn,
    Transformed,
}

/// A level strip of the section.
#[derive(Clone, Debug)]
pub(crate) struct Strip {
    /// Its lower edge, m.
    pub low: f64,
    /// Its upper edge, m.
    pub high: f64,
    /// What lies in it, from left to right.
    pub pieces: Vec<Piece>,
}

/// What of one body lies in a strip; x in m.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Piece {
    /// The body, by its place among the scene's.
    pub body: usize,
    /// The part.
    pub part: usize,
    /// Left and right end along the lower edge.
    pub below: (f64, f64),
    /// Left and right end along the upper edge.
    pub above: (f64, f64),
}

/// The strips from the lowest up.
pub(crate) fn strips(scene: &Scene, breadths: Breadths) -> Vec<Strip> {
    let levels: Vec<f64> = scene.section.levels().collect();
    let mut strips = Vec::new();
    for pair in levels.windows(2) {
        let (low, high) = (pair[0], pair[1]);
        // Just inside: at an apex the breadth is nothing.
        let inside = 1e-6 * (high - low);
        let at = |share: f64| widened(scene, breadths, low + inside + share * (high - low - 2.0 * inside));
        let straight = at(0.5).iter().zip(at(0.0).iter().zip(&at(1.0))).all(|(middle, (below, above))| {
            let off = 0.5 * (below.right - below.left + above.right - above.left);
            (middle.right - middle.left - off).abs() <= 1e-6 * scene.extent.breadth()
        });
        let count = if straight { 1 } else { FINE };
        for k in 0..count {
            let (from, to) = (k as f64 / count as f64, (k + 1) as f64 / count as f64);
            let pieces = at(from).into_iter().zip(at(to)).map(|(below, above)| Piece {
                body: below.body,
                part: below.part,
                below: (below.left, below.right),
                above: (above.left, above.right),
            });
            strips.push(Strip {
                low: low + from * (high - low),
                high: low + to * (high - low),
                pieces: pieces.collect(),
            });
        }
    }
    strips
}

/// The box round the strips.
pub(crate) fn extent(scene: &Scene, strips: &[Strip]) -> Extent {
    let ends = strips.iter().flat_map(|strip| &strip.pieces).flat_map(|p| [p.below, p.above]);
    let (left, right) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |(left, right), (from, to)| {
        (left.min(from), right.max(to))
    });
    if left < right { Extent { left, right, ..scene.extent } } else { scene.extent }
}

/// A stretch of one part on a level line.
struct Wide {
    body: usize,
    part: usize,
    left: f64,
    right: f64,
}

/// The stretches on a level line as broad as they count, from left to right. What is of the material of reference stays
/// where it is, if it is in one piece; else all is spread about the middle. Gaps stay as they are.
fn widened(scene: &Scene, breadths: Breadths, height: f64) -> Vec<Wide> {
    let chords = scene.section.chords(height, HeightSide::Above);
    let ratio = |part: usize| match breadths {
        Breadths::Drawn => 1.0,
        Breadths::Transformed => scene.section.parts().get(part).map_or(1.0, |part| part.modular_ratio),
    };
    let body = |part: usize| scene.bodies.iter().position(|body| body.parts.contains(&part)).unwrap_or(0);
    let (Some(first), Some(last)) = (chords.first(), chords.last()) else { return Vec::new() };
    let mut x = first.from;
    let mut end = first.from;
    let mut wide = Vec::with_capacity(chords.len());
    for chord in &chords {
        x += (chord.from - end).max(0.0);
        end = chord.to;
        let breadth = ratio(chord.part) * (chord.to - chord.from);
        wide.push(Wide { body: body(chord.part), part: chord.part, left: x, right: x + breadth });
        x += breadth;
    }
    let mut of_reference = chords.iter().zip(&wide).filter(|(chord, _)| ratio(chord.part) == 1.0);
    let moved = match (of_reference.next(), of_reference.next()) {
        (Some((chord, wide)), None) => chord.from - wide.left,
        _ if breadths == Breadths::Drawn => 0.0,
        _ => 0.5 * (first.from + last.to) - 0.5 * (first.from + x),
    };
    for piece in &mut wide {
        piece.left += moved;
        piece.right += moved;
    }
    wide
}
