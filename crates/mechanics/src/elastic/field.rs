//! The shear stress all over a section.

use super::element::{Shapes, Shares};
use super::flexure::PROBLEMS;
use super::{ElasticShear, length};
use crate::balance::Residual;
use crate::section::Point;

/// A facet has no side longer than one part in so many of the section's size,
const FINENESS: f64 = 40.0;

/// unless the sides of the triangles were to be parted so many times as often as their polynomials ask.
const MOST_TIMES: usize = 4;

/// Corners of facets that agree in so many parts of the section's size are one: a power of two, so that places on a dyadic lattice stand on
/// its lines and not between them.
const SAME_CORNER: f64 = (1_u64 << 27) as f64;

/// A point may lie outside a triangle by this share of it, where its sides are straight: rounding puts it there.
const STRAIGHT_SLACK: f64 = 1e-7;

/// The same where a side is an arc, which polynomials meet to this share of the triangle.
const ROUND_SLACK: f64 = 1e-3;

/// Shear stress at a point of the section: what the left piece does to the right one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShearVector {
    /// `tau_x`, to the right, Pa.
    pub right: f64,
    /// `tau_y`, up, Pa.
    pub up: f64,
}

impl ShearVector {
    /// Size of the resultant, Pa.
    pub fn size(&self) -> f64 {
        length([self.right, self.up])
    }
}

/// The section in small triangles, each corner with its stress: for a drawing.
///
/// The stresses of the triangles that share a corner within one part are averaged. Between parts of different material the
/// stress along the line between them jumps, so a corner there stands once for each part.
#[derive(Clone, Debug, Default)]
pub struct Facets {
    /// Part, place in the coordinates of the outlines, stress.
    pub corners: Vec<(usize, Point, ShearVector)>,
    /// Three corners each, counter-clockwise.
    pub triangles: Vec<[usize; 3]>,
}

/// The stresses under one force.
#[derive(Clone, Copy, Debug)]
pub struct ElasticField<'e> {
    pub(super) elastic: &'e ElasticShear,
    /// How many times each problem goes in, in Pa.
    pub(super) times: [f64; PROBLEMS],
}

impl<'e> ElasticField<'e> {
    pub(super) fn new(elastic: &'e ElasticShear, times: [f64; PROBLEMS]) -> Self {
        Self { elastic, times }
    }

    /// The solution that it belongs to.
    pub fn elastic(&self) -> &'e ElasticShear {
        self.elastic
    }

    /// Shear stress at a point in the coordinates of the outlines; none off the section. On the line between two
    /// parts it is that of the earlier one.
    pub fn at(&self, point: Point) -> Option<ShearVector> {
        self.mean_at(point, None)
    }

    /// Shear stress in one part at a point; none off that part.
    pub fn in_part(&self, part: usize, point: Point) -> Option<ShearVector> {
        self.mean_at(point, Some(part))
    }

    fn mean_at(&self, point: Point, wanted: Option<usize>) -> Option<ShearVector> {
        let found = self.elastic.triangles_at(point);
        let least = found.iter().map(|&(triangle, _)| self.elastic.solved.parts[triangle]).min();
        let part = wanted.or(least)?;
        let (mut sum, mut count) = ([0.0; 2], 0.0);
        let mut shapes = Shapes::default();
        for (triangle, shares) in found {
            if self.elastic.solved.parts[triangle] == part {
                let stress = self.stress(triangle, shares, &mut shapes);
                sum = [sum[0] + stress[0], sum[1] + stress[1]];
                count += 1.0;
            }
        }
        (count > 0.0).then(|| ShearVector { right: sum[0] / count, up: sum[1] / count })
    }

    pub(super) fn stress(&self, triangle: usize, shares: Shares, shapes: &mut Shapes) -> [f64; 2] {
        self.elastic.solved.stress(triangle, shares, self.times, shapes)
    }

    /// The section in small triangles with the stress at their corners: no side is longer than about a fortieth of the section, where
    /// four times the steps of the polynomials suffice for that.
    pub fn facets(&self) -> Facets {
        let solved = &self.elastic.solved;
        let steps = self.steps_of_facets();
        let share = |second: usize, third: usize| -> Shares {
            [steps - second - third, second, third].map(|part| part as f64 / steps as f64)
        };
        let mut slots = std::collections::BTreeMap::new();
        let mut sums: Vec<(usize, Point, [f64; 2], f64)> = Vec::new();
        let mut facets = Facets::default();
        let mut shapes = Shapes::default();
        for triangle in 0..solved.shapes.len() {
            let part = solved.parts[triangle];
            // Corner by so many steps from the two sides that meet in corner 0.
            let mut numbers: Vec<Vec<usize>> = Vec::with_capacity(steps + 1);
            for second in 0..=steps {
                let mut row = Vec::with_capacity(steps + 1 - second);
                for third in 0..=steps - second {
                    let shares = share(second, third);
                    let stress = self.stress(triangle, shares, &mut shapes);
                    let at = solved.shapes[triangle].point(shares, &shapes);
                    // What two triangles have in common is one corner, with the mean of what both say.
                    let place = [at.x, at.y].map(|along| (along * SAME_CORNER).round() as i64);
                    let number = *slots.entry((part, place)).or_insert_with(|| {
                        sums.push((part, self.elastic.outer(at), [0.0; 2], 0.0));
                        sums.len() - 1
                    });
                    let (_, _, sum, count) = &mut sums[number];
                    *sum = [sum[0] + stress[0], sum[1] + stress[1]];
                    *count += 1.0;
                    row.push(number);
                }
                numbers.push(row);
            }
            for second in 0..steps {
                for third in 0..steps - second {
                    let [one, two] = [&numbers[second], &numbers[second + 1]];
                    facets.triangles.push([one[third], two[third], one[third + 1]]);
                    if second + third + 2 <= steps {
                        facets.triangles.push([two[third], two[third + 1], one[third + 1]]);
                    }
                }
            }
        }
        facets.corners = sums
            .into_iter()
            .map(|(part, at, sum, count)| {
                (part, at, ShearVector { right: sum[0] / count, up: sum[1] / count })
            })
            .collect();
        facets
    }

    /// Into how many steps each side of a triangle is parted: as many as its polynomials have, or more where the triangles are large.
    fn steps_of_facets(&self) -> usize {
        let solved = &self.elastic.solved;
        let order = solved.basis.order;
        let corners: [Shares; 3] = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];
        let shapes = solved.basis.at_each(&corners);
        let longest = solved.shapes.iter().fold(0.0_f64, |longest, shape| {
            let [a, b, c] = [0, 1, 2].map(|corner| shape.point(corners[corner], &shapes[corner]));
            longest.max(a.distance(b)).max(b.distance(c)).max(c.distance(a))
        });
        let times = (FINENESS * longest / order as f64).ceil() as usize;
        order * times.clamp(1, MOST_TIMES)
    }

    /// What the stresses add up to, by quadrature over the triangles: the force, N, and its moment about the
    /// centroid, N m, counter-clockwise.
    pub fn resultant(&self) -> (ShearVector, f64) {
        let sums = &self.elastic.solved.integrals;
        let size = self.elastic.size;
        let of =
            |part: &dyn Fn(usize) -> f64| -> f64 { (0..PROBLEMS).map(|p| self.times[p] * part(p)).sum() };
        let (right, up) = (of(&|p| sums.force[p][0]), of(&|p| sums.force[p][1]));
        let torque = of(&|p| sums.torque[p]);
        (ShearVector { right: right * size * size, up: up * size * size }, torque * size * size * size)
    }

    /// The self-check: the resultant against a force that it ought to be.
    pub fn check(&self, force: super::ShearForce) -> [Residual; 2] {
        let (found, _) = self.resultant();
        [Residual::of(&[found.right, -force.right, 0.0]), Residual::of(&[found.up, -force.up, 0.0])]
    }
}

impl ElasticShear {
    /// The triangles that hold a point of the outlines' coordinates, each with the point's shares.
    pub(super) fn triangles_at(&self, point: Point) -> Vec<(usize, Shares)> {
        let at = self.inner(point);
        let mut shapes = Shapes::default();
        let mut found: Vec<(usize, Shares, f64)> = Vec::new();
        for (triangle, shape) in self.solved.shapes.iter().enumerate() {
            if !shape.may_hold(at) {
                continue;
            }
            let Some(shares) = shape.shares_of(&self.solved.basis, at, &mut shapes) else { continue };
            let inside = shares.iter().fold(f64::INFINITY, |least, &share| least.min(share));
            let slack = if shape.lattice.is_some() { ROUND_SLACK } else { STRAIGHT_SLACK };
            if inside >= -slack {
                found.push((triangle, shares, inside));
            }
        }
        // Where one holds it well, those that hold it only by their slack do not count.
        let best = found.iter().fold(f64::NEG_INFINITY, |best, one| best.max(one.2));
        if best > ROUND_SLACK {
            found.retain(|one| one.2 >= -STRAIGHT_SLACK);
        }
        found.into_iter().map(|(triangle, shares, _)| (triangle, shares)).collect()
    }
}
