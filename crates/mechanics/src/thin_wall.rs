//! Thin-walled open sections by their middle line: shear flow and shear centre.
//!
//! The wall is a chain of straight and round stretches, all of its area on the middle line: the walls' own `t³` terms and
//! the overlap at corners are left out, as in every textbook of the matter.

use crate::gauss;
use crate::real;
use crate::section::Point;

/// One stretch of wall, from where the one before it ended.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Wall {
    /// A straight wall.
    Straight {
        /// Where its middle line ends, m.
        to: Point,
        /// Its thickness, m.
        thickness: f64,
    },
    /// A round wall.
    Round {
        /// Centre of its middle line, m.
        centre: Point,
        /// Angle through which it runs from where it begins, rad, counter-clockwise positive.
        sweep: f64,
        /// Its thickness, m.
        thickness: f64,
    },
}

/// A thin-walled open section: one chain of walls, free at both ends.
#[derive(Clone, Debug, PartialEq)]
pub struct ThinWall {
    start: Point,
    walls: Vec<Wall>,
    area: f64,
    centroid: Point,
    second_moment: f64,
    second_moment_upright: f64,
    product_moment: f64,
}

/// What the shear stresses of a [`ThinWall`] come to under a shear force through the shear centre.
#[derive(Clone, Debug, PartialEq)]
pub struct ThinWallShear {
    /// Largest shear stress, Pa.
    pub largest: f64,
    /// Where on the middle line it is reached first, m.
    pub at: Point,
    /// Force along each wall, N: the shear flow summed along it, positive in the sense of the chain.
    pub wall_forces: Vec<f64>,
    /// Shear stress at the end of each wall, Pa, positive in the sense of the chain.
    pub end_stresses: Vec<f64>,
    /// Largest size of the shear stress in each wall, Pa.
    pub wall_largest: Vec<f64>,
}

/// A thickness or length that is not greater than zero, or a number that is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ThinWallFault {
    /// Index of the wall.
    pub wall: usize,
}

/// The pieces into which each wall is cut for quadrature; each takes sixteen nodes, so that a polynomial is met exactly and
/// an arc to the last bits.
const PIECES: u32 = 8;

impl Wall {
    fn thickness(&self) -> f64 {
        match self {
            Wall::Straight { thickness, .. } | Wall::Round { thickness, .. } => *thickness,
        }
    }

    fn length(&self, from: Point) -> f64 {
        match self {
            Wall::Straight { to, .. } => real::hypot(to.x - from.x, to.y - from.y),
            Wall::Round { centre, sweep, .. } => {
                sweep.abs() * real::hypot(from.x - centre.x, from.y - centre.y)
            }
        }
    }

    /// The point at a part from 0 to 1 of the wall, and the direction in which it runs there.
    fn at(&self, from: Point, part: f64) -> (Point, Point) {
        match *self {
            Wall::Straight { to, .. } => {
                let length = self.length(from);
                let (dx, dy) = (to.x - from.x, to.y - from.y);
                (Point::new(from.x + part * dx, from.y + part * dy), Point::new(dx / length, dy / length))
            }
            Wall::Round { centre, sweep, .. } => {
                let radius = real::hypot(from.x - centre.x, from.y - centre.y);
                let angle = real::atan2(from.y - centre.y, from.x - centre.x) + part * sweep;
                let (c, s) = (real::cos(angle), real::sin(angle));
                let sense = sweep.signum();
                (Point::new(centre.x + radius * c, centre.y + radius * s), Point::new(-s * sense, c * sense))
            }
        }
    }

    fn end(&self, from: Point) -> Point {
        match *self {
            Wall::Straight { to, .. } => to,
            Wall::Round { .. } => self.at(from, 1.0).0,
        }
    }

    /// Hands on points of the stretch between two parts of the wall, with their direction and weights in m.
    fn for_each_node(&self, from: Point, begin: f64, end: f64, mut hand_on: impl FnMut(Point, Point, f64)) {
        let length = self.length(from);
        gauss::for_each_node(begin, end, |part, weight| {
            let (point, along) = self.at(from, part);
            hand_on(point, along, weight * length);
        });
    }
}

impl ThinWall {
    /// A chain of walls from a free end.
    ///
    /// # Errors
    /// The first wall without length or thickness, or with a number that is none.
    pub fn new(start: Point, walls: Vec<Wall>) -> Result<ThinWall, ThinWallFault> {
        let mut at = start;
        for (index, wall) in walls.iter().enumerate() {
            let (length, thickness) = (wall.length(at), wall.thickness());
            if !(length > 0.0 && length.is_finite() && thickness > 0.0 && thickness.is_finite()) {
                return Err(ThinWallFault { wall: index });
            }
            at = wall.end(at);
        }
        if walls.is_empty() {
            return Err(ThinWallFault { wall: 0 });
        }
        let mut section = ThinWall {
            start,
            walls,
            area: 0.0,
            centroid: start,
            second_moment: 0.0,
            second_moment_upright: 0.0,
            product_moment: 0.0,
        };
        let (mut area, mut x, mut y) = (0.0, 0.0, 0.0);
        section.for_each_point(|point, thickness, weight| {
            area += thickness * weight;
            x += thickness * weight * (point.x - start.x);
            y += thickness * weight * (point.y - start.y);
        });
        section.area = area;
        section.centroid = Point::new(start.x + x / area, start.y + y / area);
        let centroid = section.centroid;
        let (mut yy, mut xx, mut xy) = (0.0, 0.0, 0.0);
        section.for_each_point(|point, thickness, weight| {
            let (dx, dy) = (point.x - centroid.x, point.y - centroid.y);
            yy += thickness * weight * dy * dy;
            xx += thickness * weight * dx * dx;
            xy += thickness * weight * dx * dy;
        });
        (section.second_moment, section.second_moment_upright, section.product_moment) = (yy, xx, xy);
        Ok(section)
    }

    /// A channel, its web upright at x = 0 and centred on y = 0, its flanges to the right; measured on the middle lines.
    /// The chain runs from the tip of the lower flange over the web to the tip of the upper one.
    ///
    /// # Errors
    /// A dimension that is not greater than zero.
    pub fn channel(
        flange_breadth: f64,
        height: f64,
        flange_thickness: f64,
        web_thickness: f64,
    ) -> Result<ThinWall, ThinWallFault> {
        let half = 0.5 * height;
        let flange = |to| Wall::Straight { to, thickness: flange_thickness };
        ThinWall::new(
            Point::new(flange_breadth, -half),
            vec![
                flange(Point::new(0.0, -half)),
                Wall::Straight { to: Point::new(0.0, half), thickness: web_thickness },
                flange(Point::new(flange_breadth, half)),
            ],
        )
    }

    /// A round tube about the origin, slit lengthwise on its right at mid-height; the radius is that of the middle line.
    ///
    /// # Errors
    /// A dimension that is not greater than zero.
    pub fn slit_tube(radius: f64, thickness: f64) -> Result<ThinWall, ThinWallFault> {
        let centre = Point::new(0.0, 0.0);
        let sweep = 2.0 * core::f64::consts::PI;
        ThinWall::new(Point::new(radius, 0.0), vec![Wall::Round { centre, sweep, thickness }])
    }

    /// Area, m².
    pub fn area(&self) -> f64 {
        self.area
    }

    /// Centroid, m.
    pub fn centroid(&self) -> Point {
        self.centroid
    }

    /// `∫ y² dA` about the level axis through the centroid, m⁴.
    pub fn second_moment(&self) -> f64 {
        self.second_moment
    }

    fn for_each_point(&self, mut hand_on: impl FnMut(Point, f64, f64)) {
        let mut from = self.start;
        for wall in &self.walls {
            for piece in 0..PIECES {
                let (begin, end) = (part_of(piece), part_of(piece + 1));
                wall.for_each_node(from, begin, end, |point, _, weight| {
                    hand_on(point, wall.thickness(), weight)
                });
            }
            from = wall.end(from);
        }
    }

    /// Rates at which the bending stress grows with x and y, per unit of shear force up: `dM/dx = V` moves the whole
    /// distribution of skew bending.
    fn rates(&self) -> (f64, f64) {
        let both =
            self.second_moment * self.second_moment_upright - self.product_moment * self.product_moment;
        (-self.product_moment / both, self.second_moment_upright / both)
    }

    /// Shear flow per unit of upward shear force, positive in the sense of the chain, handed on at the nodes of each
    /// piece together with the point, the direction of the wall and the weight of the node in m.
    ///
    /// The balance of the piece of wall from the free end: `q = -∫ (a x + b y) t ds`.
    fn for_each_flow(&self, mut hand_on: impl FnMut(usize, Point, Point, f64, f64)) {
        let (a, b) = self.rates();
        let mut from = self.start;
        let mut flow = 0.0;
        for (index, wall) in self.walls.iter().enumerate() {
            let thickness = wall.thickness();
            let stress = |point: Point| a * (point.x - self.centroid.x) + b * (point.y - self.centroid.y);
            let grown = |begin: f64, end: f64| {
                let mut sum = 0.0;
                wall.for_each_node(from, begin, end, |point, _, weight| {
                    sum += stress(point) * weight * thickness
                });
                sum
            };
            let length = wall.length(from);
            for piece in 0..PIECES {
                let (begin, end) = (part_of(piece), part_of(piece + 1));
                gauss::for_each_node(begin, end, |part, weight| {
                    let (point, along) = wall.at(from, part);
                    hand_on(index, point, along, flow - grown(begin, part), weight * length);
                });
                flow -= grown(begin, end);
            }
            from = wall.end(from);
        }
    }

    /// Where across the section the shear centre stands, m: an upright force there bends the section without twisting
    /// it. Its height, which a level force would ask for, is not given.
    ///
    /// # Source
    /// The moment of the shear flow about the centroid equals that of the force; any textbook (thin open sections).
    pub fn shear_centre_x(&self) -> f64 {
        let mut moment = 0.0;
        self.for_each_flow(|_, point, along, flow, weight| {
            let arm = Point::new(point.x - self.centroid.x, point.y - self.centroid.y);
            moment += flow * weight * (arm.x * along.y - arm.y * along.x);
        });
        self.centroid.x + moment
    }

    /// The shear flows under a shear force through the shear centre, N, taken upward.
    pub fn shear(&self, shear_force: f64) -> ThinWallShear {
        let mut wall_forces = vec![0.0; self.walls.len()];
        self.for_each_flow(|wall, _, _, flow, weight| wall_forces[wall] += shear_force * flow * weight);
        let (mut end_stresses, mut wall_largest) = (Vec::new(), Vec::new());
        let (mut largest, mut at) = (0.0, self.start);
        let mut from = self.start;
        let mut flow = 0.0;
        for wall in &self.walls {
            let thickness = wall.thickness();
            let mut most = 0.0;
            for (place, value) in self.extreme_flows(wall, from, flow) {
                let stress = (shear_force * value / thickness).abs();
                if stress > most {
                    most = stress;
                }
                if stress > largest {
                    (largest, at) = (stress, place);
                }
            }
            flow = self.flow_at(wall, from, flow, 1.0);
            end_stresses.push(shear_force * flow / thickness);
            wall_largest.push(most);
            from = wall.end(from);
        }
        ThinWallShear { largest, at, wall_forces, end_stresses, wall_largest }
    }

    fn flow_at(&self, wall: &Wall, from: Point, begin: f64, part: f64) -> f64 {
        let (a, b) = self.rates();
        let mut flow = begin;
        for piece in 0..PIECES {
            let (low, high) = (part_of(piece), part_of(piece + 1).min(part));
            if low < high {
                wall.for_each_node(from, low, high, |point, _, weight| {
                    let stress = a * (point.x - self.centroid.x) + b * (point.y - self.centroid.y);
                    flow -= stress * weight * wall.thickness();
                });
            }
        }
        flow
    }

    /// The shear flow at both ends of a wall and where the stress passes through zero, for there it is largest.
    fn extreme_flows(&self, wall: &Wall, from: Point, begin: f64) -> Vec<(Point, f64)> {
        let (a, b) = self.rates();
        let stress = |part: f64| {
            let (point, _) = wall.at(from, part);
            a * (point.x - self.centroid.x) + b * (point.y - self.centroid.y)
        };
        let mut parts = vec![0.0, 1.0];
        for piece in 0..PIECES {
            let (mut low, mut high) = (part_of(piece), part_of(piece + 1));
            let rising = stress(low) < 0.0;
            if (stress(high) < 0.0) == rising {
                continue;
            }
            // Sixty halvings pass the last bit of a part between 0 and 1.
            for _ in 0..60 {
                let middle = 0.5 * (low + high);
                if (stress(middle) < 0.0) == rising {
                    low = middle;
                } else {
                    high = middle;
                }
            }
            parts.push(0.5 * (low + high));
        }
        parts.into_iter().map(|part| (wall.at(from, part).0, self.flow_at(wall, from, begin, part))).collect()
    }
}

fn part_of(piece: u32) -> f64 {
    f64::from(piece) / f64::from(PIECES)
}
