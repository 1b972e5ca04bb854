//! The three problems of a section, solved on a mesh: bending along each axis, and torsion.
//!
//! Coordinates are from the centroid in units of the section's size; stresses are those of a shear modulus of the
//! reference material and a force of one.

use super::Fault;
use super::element::{Basis, Shape, Shapes, Shares};
use super::fronts::{Dense, Factors};
use super::mesh::{Mesh, Triangle};
use super::stiffness::Stiffness;
use crate::section::Point;
use std::collections::BTreeMap;

/// The three problems: stress that balances a bending stress growing as `x`, as `y`, and torsion of one turn a length.
pub(super) const PROBLEMS: usize = 3;

/// What the solution needs of the materials.
#[derive(Clone, Copy, Debug)]
pub(super) struct Moduli<'a> {
    /// Modular ratio of each part.
    pub ratios: &'a [f64],
    /// Shear modulus of each part over that of reference.
    pub shear_ratios: &'a [f64],
    /// `nu G / E` of the material of reference.
    pub contraction: f64,
}

/// A mesh with unknowns of one order and the warping of the three problems at each.
#[derive(Clone, Debug)]
pub(super) struct Solved {
    pub basis: Basis,
    /// From the centroid of the mesh, which leaves the section's by what its arcs are not met.
    pub shapes: Vec<Shape>,
    pub centre: Point,
    /// The unknowns of each triangle, in the order of the lattice.
    pub unknowns_of: Vec<Vec<usize>>,
    pub parts: Vec<usize>,
    /// Shear modulus of each part over that of reference.
    pub shear_ratios: Vec<f64>,
    pub warping: [Vec<f64>; PROBLEMS],
    /// `nu G / E` of the material of reference.
    pub contraction: f64,
    pub integrals: Integrals,
}

/// What the stresses of the three problems add up to.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Integrals {
    /// Transformed area, `∫ n dA`, and its moments `∫ n x² dA`, `∫ n x y dA`, `∫ n y² dA`.
    pub area: f64,
    pub moments: [f64; 3],
    /// `∫ tau dA` of each problem.
    pub force: [[f64; 2]; PROBLEMS],
    /// `∫ (x tau_y - y tau_x) dA` of each problem.
    pub torque: [f64; PROBLEMS],
    /// `∫ tau_i tau_j / g dA` with the ratio `g` of the shear moduli.
    pub energy: [[f64; PROBLEMS]; PROBLEMS],
    /// `∫ n w dA`, `∫ n w x dA`, `∫ n w y dA` of the warping w of each problem.
    pub warping: [[f64; 3]; PROBLEMS],
    /// `∫ n` times what the mapping of the section adds to `grad w`, `dA`: see [`carried`].
    pub carried: [[f64; 2]; PROBLEMS],
}

/// The stress that the mapping of the section itself adds to the slope of the warping: the sideways contraction of
/// a bent beam, which varies along it, and the turning of a twisted one.
pub(super) fn carried(problem: usize, contraction: f64, at: Point) -> [f64; 2] {
    let half = 0.5 * (at.x * at.x - at.y * at.y);
    let product = at.x * at.y;
    match problem {
        0 => [-contraction * half, -contraction * product],
        1 => [-contraction * product, contraction * half],
        _ => [-at.y, at.x],
    }
}

/// The rate of bending stress along the beam that a problem balances.
fn pull(problem: usize, at: Point) -> f64 {
    [at.x, at.y, 0.0][problem]
}

/// A place of quadrature in one triangle.
pub(super) struct Spot {
    at: Point,
    /// Weight times area, in units of the size squared.
    pub area: f64,
    /// How slopes along the two sides that leave corner 0 make up those along x and y.
    slope_x: [f64; 2],
    slope_y: [f64; 2],
}

impl Spot {
    pub(super) fn new(shape: &Shape, (shares, weight, shapes): &Place) -> Self {
        let [first, second] = shape.along(shapes);
        let turn = first.cross(second);
        Spot {
            at: shape.point(*shares, shapes),
            area: weight * turn,
            slope_x: [second.y / turn, -first.y / turn],
            slope_y: [-second.x / turn, first.x / turn],
        }
    }

    pub(super) fn slope(&self, along: [f64; 2]) -> [f64; 2] {
        let of = |slope: [f64; 2]| slope[0] * along[0] + slope[1] * along[1];
        [of(self.slope_x), of(self.slope_y)]
    }
}

/// A place of quadrature in any triangle: its shares, its weight, the shape functions there.
pub(super) type Place = (Shares, f64, Shapes);

impl Solved {
    pub(super) fn new(mesh: &Mesh, moduli: Moduli<'_>, order: usize) -> Result<Self, Fault> {
        let basis = Basis::new(order);
        let shape = |triangle: &Triangle| {
            Shape::new(&basis, triangle.corners.map(|k| mesh.points[k]), &triangle.arcs)
        };
        let shapes = mesh.triangles.iter().map(shape).collect();
        Self::on_shapes(mesh, shapes, basis, moduli)
    }

    /// The same with the triangles' shapes given.
    pub(super) fn on_shapes(
        mesh: &Mesh,
        mut shapes: Vec<Shape>,
        basis: Basis,
        moduli: Moduli<'_>,
    ) -> Result<Self, Fault> {
        let Moduli { ratios, shear_ratios, contraction } = moduli;
        let (unknowns_of, count) = number(mesh, &basis);
        let middles: Vec<Point> = shapes.iter().map(Shape::middle).collect();
        let parts: Vec<usize> = mesh.triangles.iter().map(|triangle| triangle.part).collect();
        let quadrature = tabulate(&basis);
        for (shape, &part) in shapes.iter().zip(&parts) {
            if quadrature.iter().any(|(_, _, at)| area_rate(shape, at) <= 0.0) {
                return Err(Fault::FoldedTriangle { part });
            }
        }
        let centre = centroid(&shapes, &parts, ratios, &quadrature);
        for shape in &mut shapes {
            shape.move_by(Point::new(-centre.x, -centre.y));
        }
        let table = Stiffness::new(&basis, &quadrature);
        let element = |triangle: usize| {
            let unknowns = unknowns_of[triangle].clone();
            let known = vec![1; unknowns.len()];
            let entries = table.of(&shapes[triangle], &quadrature, shear_ratios[parts[triangle]]);
            Dense { unknowns, known, entries }
        };
        let factors = Factors::of(count, &middles, &unknowns_of, &element)?;
        let mut warping: [Vec<f64>; PROBLEMS] = core::array::from_fn(|_| vec![0.0; count]);
        let mut loads = [(); PROBLEMS].map(|()| vec![0.0; basis.lattice.len()]);
        for (triangle, unknowns) in unknowns_of.iter().enumerate() {
            loads.iter_mut().for_each(|own| own.fill(0.0));
            for place in &quadrature {
                let spot = Spot::new(&shapes[triangle], place);
                let part = parts[triangle];
                let (stretched, sheared) = (ratios[part] * spot.area, shear_ratios[part] * spot.area);
                for (problem, own) in loads.iter_mut().enumerate() {
                    let load = stretched * pull(problem, spot.at);
                    let [x, y] = carried(problem, contraction, spot.at).map(|part| sheared * part);
                    let against = [0, 1].map(|side| x * spot.slope_x[side] + y * spot.slope_y[side]);
                    let at = place.2.value.iter().zip(&place.2.along);
                    for (sum, (value, along)) in own.iter_mut().zip(at) {
                        *sum += load * value - against[0] * along[0] - against[1] * along[1];
                    }
                }
            }
            for (values, own) in warping.iter_mut().zip(&loads) {
                for (&unknown, load) in unknowns.iter().zip(own) {
                    values[unknown] += load;
                }
            }
        }
        for values in &mut warping {
            factors.solve(values);
        }
        let mut solved = Solved {
            basis,
            shapes,
            centre,
            unknowns_of,
            parts,
            shear_ratios: shear_ratios.to_vec(),
            warping,
            contraction,
            integrals: Integrals::default(),
        };
        solved.integrate(&quadrature, ratios);
        Ok(solved)
    }

    fn integrate(&mut self, quadrature: &[Place], ratios: &[f64]) {
        let mut sum = Integrals::default();
        for (triangle, unknowns) in self.unknowns_of.iter().enumerate() {
            let part = self.parts[triangle];
            let own = self
                .warping
                .each_ref()
                .map(|values| -> Vec<f64> { unknowns.iter().map(|&unknown| values[unknown]).collect() });
            for place in quadrature {
                let spot = Spot::new(&self.shapes[triangle], place);
                let (x, y) = (spot.at.x, spot.at.y);
                let (mass, sheared) = (ratios[part] * spot.area, self.shear_ratios[part] * spot.area);
                sum.area += mass;
                for (moment, product) in sum.moments.iter_mut().zip([x * x, x * y, y * y]) {
                    *moment += mass * product;
                }
                let mut stress = [[0.0; 2]; PROBLEMS];
                for (problem, stress) in stress.iter_mut().enumerate() {
                    let (mut w, mut along) = (0.0, [0.0; 2]);
                    let at = place.2.value.iter().zip(&place.2.along);
                    for (here, (value, slopes)) in own[problem].iter().zip(at) {
                        w += here * value;
                        along[0] += here * slopes[0];
                        along[1] += here * slopes[1];
                    }
                    let slope = spot.slope(along);
                    let added = carried(problem, self.contraction, spot.at);
                    let [tx, ty] = [slope[0] + added[0], slope[1] + added[1]];
                    for (total, part) in sum.warping[problem].iter_mut().zip([w, w * x, w * y]) {
                        *total += mass * part;
                    }
                    sum.force[problem][0] += sheared * tx;
                    sum.force[problem][1] += sheared * ty;
                    sum.carried[problem][0] += mass * added[0];
                    sum.carried[problem][1] += mass * added[1];
                    sum.torque[problem] += sheared * (x * ty - y * tx);
                    *stress = [tx, ty];
                }
                for (row, first) in sum.energy.iter_mut().zip(&stress) {
                    for (entry, second) in row.iter_mut().zip(&stress) {
                        *entry += sheared * (first[0] * second[0] + first[1] * second[1]);
                    }
                }
            }
        }
        self.integrals = sum;
    }

    /// The stress at a place of a triangle: the three problems, each so many times, times the ratio of the shear modulus.
    pub(super) fn stress(
        &self,
        triangle: usize,
        shares: Shares,
        times: [f64; PROBLEMS],
        shapes: &mut Shapes,
    ) -> [f64; 2] {
        self.basis.at(shares, shapes);
        self.stress_with(triangle, shares, times, shapes)
    }

    /// The same with the shape functions of the place at hand.
    pub(super) fn stress_with(
        &self,
        triangle: usize,
        shares: Shares,
        times: [f64; PROBLEMS],
        shapes: &Shapes,
    ) -> [f64; 2] {
        let shape = &self.shapes[triangle];
        let at = shape.point(shares, shapes);
        let [first, second] = shape.along(shapes);
        let turn = first.cross(second);
        let mut along = [0.0; 2];
        for (&unknown, slope) in self.unknowns_of[triangle].iter().zip(&shapes.along) {
            let mut here = 0.0;
            for (values, many) in self.warping.iter().zip(times) {
                here += many * values[unknown];
            }
            along[0] += here * slope[0];
            along[1] += here * slope[1];
        }
        let mut stress = [
            (along[0] * second.y - along[1] * first.y) / turn,
            (along[1] * first.x - along[0] * second.x) / turn,
        ];
        for (problem, many) in times.iter().enumerate() {
            let added = carried(problem, self.contraction, at);
            stress[0] += many * added[0];
            stress[1] += many * added[1];
        }
        let ratio = self.shear_ratios[self.parts[triangle]];
        [ratio * stress[0], ratio * stress[1]]
    }
}

fn tabulate(basis: &Basis) -> Vec<Place> {
    let places = basis.quadrature().into_iter();
    places
        .map(|(shares, weight)| {
            let mut shapes = Shapes::default();
            basis.at(shares, &mut shapes);
            (shares, weight, shapes)
        })
        .collect()
}

/// The transformed centroid of the triangles. The loads balance only about this one to the last bit.
fn centroid(shapes: &[Shape], parts: &[usize], ratios: &[f64], quadrature: &[Place]) -> Point {
    let (mut area, mut sum) = (0.0, Point::new(0.0, 0.0));
    for (shape, &part) in shapes.iter().zip(parts) {
        for (shares, weight, at) in quadrature {
            let mass = ratios[part] * weight * area_rate(shape, at);
            let point = shape.point(*shares, at);
            area += mass;
            sum = Point::new(sum.x + mass * point.x, sum.y + mass * point.y);
        }
    }
    Point::new(sum.x / area, sum.y / area)
}

fn area_rate(shape: &Shape, shapes: &Shapes) -> f64 {
    let [first, second] = shape.along(shapes);
    first.cross(second)
}

/// The unknowns of each triangle, and how many there are: at the corners, along the sides and within.
fn number(mesh: &Mesh, basis: &Basis) -> (Vec<Vec<usize>>, usize) {
    let order = basis.order;
    let mut count = 0;
    let mut corners = vec![usize::MAX; mesh.points.len()];
    let mut sides: BTreeMap<(usize, usize), usize> = BTreeMap::new();
    let mut all = Vec::with_capacity(mesh.triangles.len());
    for triangle in &mesh.triangles {
        let unknowns = basis.lattice.iter().map(|&steps| {
            let zeros = steps.iter().filter(|&&step| step == 0).count();
            match zeros {
                2 => {
                    let corner = (0..3).find(|&k| steps[k] > 0).unwrap_or(0);
                    let slot = &mut corners[triangle.corners[corner]];
                    if *slot == usize::MAX {
                        *slot = count;
                        count += 1;
                    }
                    *slot
                }
                1 => {
                    let opposite = (0..3).find(|&k| steps[k] == 0).unwrap_or(0);
                    let (a, b) = ((opposite + 1) % 3, (opposite + 2) % 3);
                    let (first, last) = (triangle.corners[a], triangle.corners[b]);
                    // Counted from the end with the smaller number, so that both triangles mean the same.
                    let step = if first < last { steps[b] } else { steps[a] };
                    let begin = *sides.entry((first.min(last), first.max(last))).or_insert_with(|| {
                        let begin = count;
                        count += order - 1;
                        begin
                    });
                    begin + step - 1
                }
                _ => {
                    count += 1;
                    count - 1
                }
            }
        });
        all.push(unknowns.collect());
    }
    (all, count)
}
