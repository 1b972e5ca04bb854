//! How much a triangle resists warping: the matrix of its equations.

use super::element::{Basis, Shape};
use super::flexure::{Place, Spot};

/// `∫ grad N_i . grad N_j dA` of any triangle.
pub(super) struct Stiffness {
    /// The integrals of the slopes along the two sides that leave corner 0 with each other: first with first, both orders of
    /// first with second together, second with second; the lower triangle, row after row. All that straight sides need.
    straight: Vec<[f64; 3]>,
    size: usize,
}

impl Stiffness {
    pub(super) fn new(basis: &Basis, quadrature: &[Place]) -> Self {
        let size = basis.lattice.len();
        let mut straight = vec![[0.0; 3]; size * (size + 1) / 2];
        for (_, weight, shapes) in quadrature {
            let mut entries = straight.iter_mut();
            for (i, a) in shapes.along.iter().enumerate() {
                for (entry, b) in entries.by_ref().take(i + 1).zip(&shapes.along) {
                    entry[0] += weight * a[0] * b[0];
                    entry[1] += weight * (a[0] * b[1] + a[1] * b[0]);
                    entry[2] += weight * a[1] * b[1];
                }
            }
        }
        Stiffness { straight, size }
    }

    /// The lower triangle, row after row, `ratio` times.
    pub(super) fn of(&self, shape: &Shape, quadrature: &[Place], ratio: f64) -> Vec<f64> {
        if shape.lattice.is_some() {
            return self.curved(shape, quadrature, ratio);
        }
        let [first, second] = [1, 2].map(|k| shape.corners[k].minus(shape.corners[0]));
        // The area element is the cross product of the two sides, and each slope has it once in its denominator.
        let scale = ratio / first.cross(second);
        let metric = [scale * second.dot(second), -scale * first.dot(second), scale * first.dot(first)];
        let value = |entry: &[f64; 3]| metric[0] * entry[0] + metric[1] * entry[1] + metric[2] * entry[2];
        self.straight.iter().map(value).collect()
    }

    fn curved(&self, shape: &Shape, quadrature: &[Place], ratio: f64) -> Vec<f64> {
        let mut entries = vec![0.0; self.straight.len()];
        let mut slopes: Vec<[f64; 2]> = Vec::with_capacity(self.size);
        for place in quadrature {
            let spot = Spot::new(shape, place);
            slopes.clear();
            slopes.extend(place.2.along.iter().map(|along| spot.slope(*along)));
            let weight = ratio * spot.area;
            let mut row = entries.iter_mut();
            for (i, first) in slopes.iter().enumerate() {
                let [x, y] = [weight * first[0], weight * first[1]];
                for (entry, second) in row.by_ref().take(i + 1).zip(&slopes) {
                    *entry += x * second[0] + y * second[1];
                }
            }
        }
        entries
    }
}
