//! Where the resultant shear stress is largest.

use super::element::{Basis, Shapes, Shares};
use super::field::{ElasticField, ShearVector};
use super::length;
use crate::section::Point;

/// The triangles are searched on a lattice of this order first.
const SEARCHED: usize = 4;

/// Triangles whose best place on the lattice reaches this part of the best of all are searched closely.
const WORTH_A_LOOK: f64 = 0.9;

/// The search ends at steps of this share of a triangle.
const FINEST_STEP: f64 = 1e-4;

/// The largest resultant shear stress of a section, outside what is left out round sharp corners.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LargestElastic {
    /// Its size, Pa.
    pub value: f64,
    /// Its components.
    pub stress: ShearVector,
    /// Where it is, in the coordinates of the outlines, m.
    pub at: Point,
    /// The part in which it is.
    pub part: usize,
    /// By how much the solution of one order less differs at the same place, Pa.
    pub error: f64,
    /// Whether it lies at the edge of what is left out round a sharp corner, by its index: then it is no largest value of the
    /// section, and grows as one looks nearer to the corner.
    pub beside_corner: Option<usize>,
}

impl ElasticField<'_> {
    /// The largest resultant shear stress. It is looked for in the interior too: it need not lie on the outline.
    ///
    /// None where all of the section is left out round sharp corners.
    pub fn largest(&self) -> Option<LargestElastic> {
        self.largest_where(|_| true)
    }

    /// The same in some parts alone, those of one material.
    pub fn largest_in(&self, parts: &[usize]) -> Option<LargestElastic> {
        self.largest_where(|part| parts.contains(&part))
    }

    fn largest_where(&self, wanted: impl Fn(usize) -> bool) -> Option<LargestElastic> {
        let elastic = self.elastic;
        let lattice = Basis::new(SEARCHED);
        let looks: Vec<Shares> = (0..lattice.lattice.len()).map(|node| lattice.shares(node)).collect();
        let shapes_of = elastic.solved.basis.at_each(&looks);
        let mut shapes = Shapes::default();
        let mut best_of: Vec<(usize, Shares, f64)> = Vec::new();
        for triangle in (0..elastic.solved.shapes.len()).filter(|&one| wanted(elastic.solved.parts[one])) {
            let mut best: Option<(Shares, f64)> = None;
            for (&shares, shapes) in looks.iter().zip(&shapes_of) {
                let Some(value) = self.counted(triangle, shares, shapes) else { continue };
                if best.is_none_or(|(_, most)| value > most) {
                    best = Some((shares, value));
                }
            }
            best_of.extend(best.map(|(shares, value)| (triangle, shares, value)));
        }
        let most = best_of.iter().fold(0.0, |most: f64, one| most.max(one.2));
        let mut largest: Option<(usize, Shares, f64)> = None;
        for &(triangle, shares, value) in best_of.iter().filter(|one| one.2 >= WORTH_A_LOOK * most) {
            let (shares, value) = self.climbed(triangle, shares, value, &mut shapes);
            if largest.is_none_or(|(_, _, most)| value > most) {
                largest = Some((triangle, shares, value));
            }
        }
        let (triangle, shares, value) = largest?;
        let stress = self.stress(triangle, shares, &mut shapes);
        let at = elastic.on_axis(elastic.outer(elastic.solved.shapes[triangle].point(shares, &shapes)));
        let coarse = elastic.coarser.stress(triangle, shares, self.times, &mut shapes);
        let beside = |corner: &super::SharpCorner| corner.at.distance(at) < 1.05 * corner.left_out;
        Some(LargestElastic {
            value,
            stress: ShearVector { right: stress[0], up: stress[1] },
            at,
            part: elastic.solved.parts[triangle],
            error: length([stress[0] - coarse[0], stress[1] - coarse[1]]),
            beside_corner: elastic.sharp.iter().position(beside),
        })
    }

    /// Size of the stress, where it counts.
    fn counted(&self, triangle: usize, shares: Shares, shapes: &Shapes) -> Option<f64> {
        let value = length(self.elastic.solved.stress_with(triangle, shares, self.times, shapes));
        let at = self.elastic.solved.shapes[triangle].point(shares, shapes);
        (!self.elastic.is_left_out(self.elastic.outer(at))).then_some(value)
    }

    /// Climbs within a triangle from a place on the lattice: by steps along its three sides, halved where none leads up.
    fn climbed(&self, triangle: usize, from: Shares, value: f64, shapes: &mut Shapes) -> (Shares, f64) {
        let (mut here, mut most) = (from, value);
        let mut step = 0.5 / SEARCHED as f64;
        while step > FINEST_STEP {
            let mut moved = false;
            for (up, down) in [(0, 1), (0, 2), (1, 0), (1, 2), (2, 0), (2, 1)] {
                let mut there = here;
                let by = step.min(here[down]);
                there[up] += by;
                there[down] -= by;
                if by <= 0.0 {
                    continue;
                }
                self.elastic.solved.basis.at(there, shapes);
                if let Some(value) = self.counted(triangle, there, shapes)
                    && value > most
                {
                    (here, most, moved) = (there, value, true);
                }
            }
            if !moved {
                step *= 0.5;
            }
        }
        (here, most)
    }
}
