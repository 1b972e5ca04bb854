//! Bending stress over the depth as blocks: tension and compression told apart by colour, line and letter.

use crate::arrow;
use crate::drawing::Mark;
use crate::geometry::Point;
use crate::hatch;
use crate::outline;
use crate::palette::{Ink, MEDIUM, Stroke, THIN};
use crate::scene::Scene;
use core::f64::consts::FRAC_PI_2;

/// A range of heights over which the bending stress runs in one straight line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Band {
    /// Its lower end, m.
    pub from: f64,
    /// Its upper end, m.
    pub to: f64,
    /// A part whose stress it is.
    pub part: usize,
}

/// The bands of the section or of what lies beyond the cut: one for each stretch of one material.
pub(crate) fn bands(scene: &Scene, beyond_only: bool) -> Vec<Band> {
    let mut bands: Vec<Band> = Vec::new();
    for (k, body) in scene.bodies.iter().enumerate() {
        let region = if beyond_only { &scene.beyond[k] } else { &body.region };
        if let Some(e) = outline::extent(std::slice::from_ref(region)) {
            bands.push(Band { from: e.bottom, to: e.top, part: body.parts.first().copied().unwrap_or(0) });
        }
    }
    bands.sort_by(|a, b| a.from.total_cmp(&b.from));
    let ratio = |part: usize| scene.section.parts()[part].modular_ratio;
    let touching = 1e-7 * scene.extent.height();
    let mut merged: Vec<Band> = Vec::new();
    for band in bands {
        let like = merged
            .iter_mut()
            .find(|known| ratio(known.part) == ratio(band.part) && band.from <= known.to + touching);
        match like {
            Some(known) => known.to = known.to.max(band.to),
            None => merged.push(band),
        }
    }
    merged
}

/// How a face's stresses are drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct BlockScale {
    /// px for each Pa.
    pub stress: f64,
    /// Where height 0 falls, px down.
    pub zero: f64,
    /// px for each m of height.
    pub height: f64,
    /// Where the face stands, px.
    pub face: f64,
    /// -1 where the outside of the face is on the left, 1 where it is on the right.
    pub outside: f64,
}

impl BlockScale {
    /// Where a height falls, px down.
    pub fn y(&self, height: f64) -> f64 {
        self.zero - height * self.height
    }

    /// Where the tip of a stress stands: always outside the face, whatever its sign.
    pub fn tip(&self, stress: f64, height: f64) -> Point {
        Point::new(self.face + self.outside * stress.abs() * self.stress, self.y(height))
    }

    /// The point of the face at a height.
    pub fn foot(&self, height: f64) -> Point {
        Point::new(self.face, self.y(height))
    }
}

/// The stretches of a band on either side of the neutral axis.
fn halves(band: Band, axis: f64) -> Vec<(f64, f64)> {
    if axis > band.from && axis < band.to {
        vec![(band.from, axis), (axis, band.to)]
    } else {
        vec![(band.from, band.to)]
    }
}

/// The blocks of one face (0 left, 1 right): tint, outline, arrows of true length.
pub(crate) fn block(
    scene: &Scene,
    bands: &[Band],
    face: usize,
    scale: BlockScale,
    spacing: f64,
) -> Vec<Mark> {
    let mut marks = Vec::new();
    let axis = scene.values.neutral_axis;
    for &band in bands {
        for (from, to) in halves(band, axis) {
            let at = |height: f64| scene.stress[face].bending_stress_in(band.part, height);
            let middle = at(0.5 * (from + to));
            if middle == 0.0 {
                continue;
            }
            let (tint, stroke) = if middle > 0.0 {
                (Ink::TensionTint, Stroke::solid(Ink::Tension, MEDIUM))
            } else {
                (Ink::CompressionTint, Stroke::dashed(Ink::Compression, MEDIUM))
            };
            let (low, high) = (scale.tip(at(from), from), scale.tip(at(to), to));
            let points = vec![scale.foot(from), low, high, scale.foot(to)];
            marks.push(Mark::Polygon { points, stroke: None, fill: Some(tint) });
            marks.push(Mark::Line { from: scale.foot(from), to: low, stroke });
            marks.push(Mark::Line { from: low, to: high, stroke });
            marks.push(Mark::Line { from: high, to: scale.foot(to), stroke });
            // As many arrows as fit, the first and the last at the ends of the stretch or near the axis.
            let count = ((to - from) * scale.height / spacing).floor().clamp(1.0, 8.0);
            for k in 0..=count as usize {
                let height = from + (to - from) * k as f64 / count;
                let (foot, tip) = (scale.foot(height), scale.tip(at(height), height));
                if foot.distance(tip) < 6.0 {
                    continue;
                }
                let arrow_stroke = Stroke { width: 1.0, ..stroke };
                marks.extend(if middle > 0.0 {
                    arrow::straight(foot, tip, arrow_stroke)
                } else {
                    arrow::straight(tip, foot, arrow_stroke)
                });
            }
        }
    }
    marks
}

/// What the right face has more (or less) than the left one, hatched on the right face's block.
pub(crate) fn difference(scene: &Scene, bands: &[Band], scale: BlockScale) -> Vec<Mark> {
    let mut marks = Vec::new();
    let axis = scene.values.neutral_axis;
    for &band in bands {
        for (from, to) in halves(band, axis) {
            let tip = |face: usize, height: f64| {
                scale.tip(scene.stress[face].bending_stress_in(band.part, height), height)
            };
            if tip(0, from).distance(tip(1, from)) + tip(0, to).distance(tip(1, to)) < 0.2 {
                continue;
            }
            let loops = [vec![tip(0, from), tip(1, from), tip(1, to), tip(0, to)]];
            let stroke = Stroke::solid(Ink::Line, THIN);
            marks.extend(hatch::marks(&loops, FRAC_PI_2, 3.0, stroke));
            marks.push(Mark::Line {
                from: tip(0, from),
                to: tip(0, to),
                stroke: Stroke::dotted(Ink::Line, 1.0),
            });
        }
    }
    marks
}
