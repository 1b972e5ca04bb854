//! The arrows of bending stress on the ends of the pieces in the pictorial view, their lengths true to one scale on each piece.

use crate::arrow;
use crate::drawing::Mark;
use crate::geometry::Point as Spot;
use crate::outline::{self, Region};
use crate::palette::{Ink, MEDIUM, Stroke};
use crate::prism::View;
use crate::scene::Scene;
use mechanics::section::{HeightSide, Point};

/// Longest stress arrow, px.
const LONGEST: f64 = 52.0;
/// Where the longest arrow on a piece would be shorter than this, all on it are drawn larger, px; but not more than so many times.
const READABLE: f64 = 14.0;
const MOST_TIMES: f64 = 20.0;
/// Stress arrows shorter than this say nothing, px.
const SHORTEST: f64 = 5.0;

/// The arrows on one end of a piece, that of the left (0) or right (1) face at its station in m.
pub(crate) fn arrows(
    scene: &Scene,
    view: &View,
    regions: &[Region],
    (face, station): (usize, f64),
) -> Vec<Mark> {
    let greatest = scene.greatest_bending_stress();
    let Some(extent) = outline::extent(regions) else { return Vec::new() };
    if greatest == 0.0 {
        return Vec::new();
    }
    // Along the beam on the sheet, one px long.
    let size = view.along.distance(Spot::new(0.0, 0.0));
    let along = Spot::new(view.along.x / size, view.along.y / size);
    let outwards = if face == 0 { -1.0 } else { 1.0 };
    let rows = (extent.height() * view.up.y.abs() / 22.0).floor().clamp(1.0, 9.0);
    let mut heights: Vec<f64> =
        (0..rows as usize).map(|row| extent.bottom + extent.height() * (row as f64 + 0.5) / rows).collect();
    // A thin layer between two rows has one of its own.
    for layer in regions.iter().filter_map(|region| outline::extent(std::slice::from_ref(region))) {
        if !heights.iter().any(|&height| layer.holds(height)) {
            heights.push(0.5 * (layer.bottom + layer.top));
        }
    }
    let times = enlargement(scene, regions);
    let mut marks = Vec::new();
    for height in heights {
        for chord in scene.section.chords(height, HeightSide::Above) {
            let stress = scene.stress[face].bending_stress_in(chord.part, height);
            let long = times * LONGEST * stress.abs() / greatest;
            if long < SHORTEST {
                continue;
            }
            // Of the arrows on the far end only those at its near edge are seen whole.
            let length = chord.to - chord.from;
            let count = (length * view.across.x / 40.0).round().clamp(1.0, 3.0) as usize;
            let places: Vec<f64> = match face {
                0 => vec![chord.from],
                _ => (0..count).map(|k| chord.from + length * (k as f64 + 0.5) / count as f64).collect(),
            };
            for x in places {
                let foot = view.at(station, Point { x, y: height });
                let tip = foot.moved(outwards * long * along.x, outwards * long * along.y);
                marks.extend(if stress > 0.0 {
                    arrow::straight(foot, tip, Stroke::solid(Ink::Tension, MEDIUM))
                } else {
                    arrow::straight(tip, foot, Stroke::dashed(Ink::Compression, MEDIUM))
                });
            }
        }
    }
    marks
}

/// How many times as long the stress arrows on a piece are drawn as those on the other, so that the way they point is seen.
pub(crate) fn enlargement(scene: &Scene, regions: &[Region]) -> f64 {
    let stresses = regions.iter().zip(&scene.bodies).filter_map(|(region, body)| {
        let extent = outline::extent(std::slice::from_ref(region))?;
        let part = *body.parts.first()?;
        let at = |height: f64| scene.stress[0].bending_stress_in(part, height).abs();
        Some(at(extent.bottom).max(at(extent.top)))
    });
    let longest =
        LONGEST * stresses.fold(0.0, f64::max) / scene.greatest_bending_stress().max(f64::MIN_POSITIVE);
    if longest > 0.0 && longest < READABLE { (2.0 * READABLE / longest).ceil().min(MOST_TIMES) } else { 1.0 }
}
