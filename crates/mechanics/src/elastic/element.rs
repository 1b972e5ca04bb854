//! One triangle with unknowns up to a chosen order: its shape functions, and how it lies in the section.
//!
//! The shape functions are Lagrange's on an evenly spaced lattice; a triangle beside an arc is mapped by the same functions, its
//! lattice laid so that the side follows the arc. Orders are kept to 8, below which even spacing does no harm.
//!
//! # Source
//! P. Silvester, High-order polynomial triangular finite elements (1969); the lattice beside an arc after B. Szabo and I.
//! Babuska, Finite Element Analysis (1991), blending. From memory.

use crate::gauss;
use crate::real;
use crate::section::Point;
use crate::section::ring::Curve;

/// The shape functions of one order.
#[derive(Clone, Debug)]
pub(super) struct Basis {
    pub order: usize,
    /// Steps from the side opposite to each corner, which add up to the order.
    pub lattice: Vec<[usize; 3]>,
}

/// A place within a triangle: the shares of its three corners.
pub(super) type Shares = [f64; 3];

/// The shape functions at one place: their values and their slopes along the two sides that leave corner 0.
#[derive(Clone, Debug, Default)]
pub(super) struct Shapes {
    pub value: Vec<f64>,
    pub along: Vec<[f64; 2]>,
}

impl Basis {
    pub(super) fn new(order: usize) -> Self {
        let mut lattice = Vec::new();
        for second in 0..=order {
            for third in 0..=order - second {
                lattice.push([order - second - third, second, third]);
            }
        }
        Basis { order, lattice }
    }

    pub(super) fn shares(&self, node: usize) -> Shares {
        self.lattice[node].map(|steps| steps as f64 / self.order as f64)
    }

    /// Silvester's polynomials `R_m(s) = prod (p s - q) / (q + 1)`, q < m, of the three shares, and their slopes.
    pub(super) fn at(&self, shares: Shares, shapes: &mut Shapes) {
        const MOST: usize = 9;
        let mut value = [[1.0; MOST]; 3];
        let mut slope = [[0.0; MOST]; 3];
        for corner in 0..3 {
            for m in 0..self.order {
                let q = m as f64;
                let factor = (self.order as f64 * shares[corner] - q) / (q + 1.0);
                let rate = self.order as f64 / (q + 1.0);
                value[corner][m + 1] = value[corner][m] * factor;
                slope[corner][m + 1] = slope[corner][m] * factor + value[corner][m] * rate;
            }
        }
        shapes.value.clear();
        shapes.along.clear();
        for &[i, j, k] in &self.lattice {
            let (a, b, c) = (value[0][i], value[1][j], value[2][k]);
            let first = slope[0][i] * b * c;
            shapes.value.push(a * b * c);
            shapes.along.push([a * slope[1][j] * c - first, a * b * slope[2][k] - first]);
        }
    }

    /// The shape functions at each of some places.
    pub(super) fn at_each(&self, places: &[Shares]) -> Vec<Shapes> {
        let at = |shares: &Shares| {
            let mut shapes = Shapes::default();
            self.at(*shares, &mut shapes);
            shapes
        };
        places.iter().map(at).collect()
    }

    /// Places and weights, which add up to 1/2, that integrate polynomials up to twice the order exactly.
    pub(super) fn quadrature(&self) -> Vec<(Shares, f64)> {
        let line = gauss::rule(self.order + 1);
        let mut places = Vec::with_capacity(line.len() * line.len());
        for &(first, first_weight) in &line {
            let away = 0.5 * (1.0 + first);
            for &(second, second_weight) in &line {
                let across = 0.5 * (1.0 + second);
                let shares = [1.0 - away, away * (1.0 - across), away * across];
                places.push((shares, 0.25 * first_weight * second_weight * away));
            }
        }
        places
    }
}

/// How a triangle lies in the section.
#[derive(Clone, Debug)]
pub(super) struct Shape {
    pub corners: [Point; 3],
    /// The places of the lattice, where a side is an arc.
    pub lattice: Option<Vec<Point>>,
}

impl Shape {
    pub(super) fn new(basis: &Basis, corners: [Point; 3], arcs: &[Option<Curve>; 3]) -> Self {
        if arcs.iter().all(Option::is_none) {
            return Shape { corners, lattice: None };
        }
        let lattice = (0..basis.lattice.len())
            .map(|node| {
                let shares = basis.shares(node);
                let mut at = mixed(&corners, shares);
                for (k, arc) in arcs.iter().enumerate() {
                    let (a, b) = (shares[k], shares[(k + 1) % 3]);
                    if let Some(arc) = arc
                        && a * b > 0.0
                    {
                        // On the side itself a = 1 - t, b = t, and the factor is one.
                        let t = 0.5 * (1.0 + b - a);
                        let off = off_chord(arc, corners[k], corners[(k + 1) % 3], t);
                        let factor = a * b / (t * (1.0 - t));
                        at = Point::new(at.x + factor * off.x, at.y + factor * off.y);
                    }
                }
                at
            })
            .collect();
        Shape { corners, lattice: Some(lattice) }
    }

    pub(super) fn move_by(&mut self, by: Point) {
        for point in self.corners.iter_mut().chain(self.lattice.iter_mut().flatten()) {
            *point = point.plus(by);
        }
    }

    pub(super) fn middle(&self) -> Point {
        mixed(&self.corners, [1.0 / 3.0; 3])
    }

    pub(super) fn point(&self, shares: Shares, shapes: &Shapes) -> Point {
        match &self.lattice {
            None => mixed(&self.corners, shares),
            Some(lattice) => {
                let mut at = Point::new(0.0, 0.0);
                for (node, value) in lattice.iter().zip(&shapes.value) {
                    at = Point::new(at.x + node.x * value, at.y + node.y * value);
                }
                at
            }
        }
    }

    /// How the place moves with each of the two sides that leave corner 0.
    pub(super) fn along(&self, shapes: &Shapes) -> [Point; 2] {
        match &self.lattice {
            None => [self.corners[1].minus(self.corners[0]), self.corners[2].minus(self.corners[0])],
            Some(lattice) => {
                let mut along = [Point::new(0.0, 0.0); 2];
                for (node, slopes) in lattice.iter().zip(&shapes.along) {
                    for (sum, slope) in along.iter_mut().zip(slopes) {
                        *sum = Point::new(sum.x + node.x * slope, sum.y + node.y * slope);
                    }
                }
                along
            }
        }
    }

    /// Whether a point lies in the box round the triangle, widened by what an arc may bulge.
    pub(super) fn may_hold(&self, point: Point) -> bool {
        let [a, b, c] = self.corners;
        let (left, right) = (a.x.min(b.x).min(c.x), a.x.max(b.x).max(c.x));
        let (bottom, top) = (a.y.min(b.y).min(c.y), a.y.max(b.y).max(c.y));
        let share = if self.lattice.is_some() { 0.2 } else { 1e-6 };
        let slack = share * (right - left).max(top - bottom);
        (left - slack..=right + slack).contains(&point.x) && (bottom - slack..=top + slack).contains(&point.y)
    }

    /// The shares of a point, by Newton's method where a side is an arc; none where it does not settle.
    pub(super) fn shares_of(&self, basis: &Basis, point: Point, shapes: &mut Shapes) -> Option<Shares> {
        let straight = |from: Point, along: [Point; 2]| -> Option<[f64; 2]> {
            let turn = along[0].cross(along[1]);
            let off = point.minus(from);
            (turn > 0.0).then(|| [off.cross(along[1]) / turn, along[0].cross(off) / turn])
        };
        let first = straight(
            self.corners[0],
            [self.corners[1].minus(self.corners[0]), self.corners[2].minus(self.corners[0])],
        )?;
        let mut shares = [1.0 - first[0] - first[1], first[0], first[1]];
        if self.lattice.is_none() {
            return Some(shares);
        }
        // A point far off cannot lie in the triangle, and the mapping means nothing there.
        if shares.iter().any(|share| *share < -1.0) {
            return None;
        }
        for _ in 0..20 {
            basis.at(shares, shapes);
            let step = straight(self.point(shares, shapes), self.along(shapes))?;
            shares[1] += step[0];
            shares[2] += step[1];
            shares[0] = 1.0 - shares[1] - shares[2];
            if shares.iter().any(|share| !(-1.5..=2.5).contains(share)) {
                return None;
            }
            if step[0].abs() + step[1].abs() < 1e-13 {
                return Some(shares);
            }
        }
        None
    }
}

fn mixed(corners: &[Point; 3], shares: Shares) -> Point {
    Point::new(
        shares[0] * corners[0].x + shares[1] * corners[1].x + shares[2] * corners[2].x,
        shares[0] * corners[0].y + shares[1] * corners[1].y + shares[2] * corners[2].y,
    )
}

/// From the chord between two points of an arc to the arc, at a part of the way.
fn off_chord(arc: &Curve, from: Point, to: Point, part: f64) -> Point {
    let Curve::Round { centre, radius, start, sweep } = *arc else { return Point::new(0.0, 0.0) };
    let angle = start + sweep * part;
    let on = Point::new(centre.x + radius * real::cos(angle), centre.y + radius * real::sin(angle));
    let chord = Point::new(from.x + (to.x - from.x) * part, from.y + (to.y - from.y) * part);
    on.minus(chord)
}
