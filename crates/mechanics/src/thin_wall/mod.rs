//! Thin-walled sections by their middle lines: shear flow, shear centre and torsion constant.
//!
//! A section is a network: [joints](ThinWalls::joints), and walls that run from joint to joint, straight or round, each of one
//! thickness. Open walls may branch (I, T, Z, hat), and walls may close cells (box, tube, box of two cells). The section
//! needs no axis of symmetry.
//!
//! All of a wall's area lies on its middle line: the walls' own `t³` terms, fillets, and the overlap at corners are left
//! out, as in every textbook of the matter; the stress does not vary across the wall, and the walls do not buckle or lose
//! their shape. One material throughout.
//!
//! Senses: x to the right, y up. A shear force is given by its parts to the right and up, and so is what the shear stresses
//! on the face add up to. A shear flow is positive from a wall's first joint to its last, a moment counter-clockwise.

mod ends;
mod equations;
mod fault;
mod flow;
mod joined;
mod line;
mod named;
mod network;
mod no_middle_lines;
mod of_outline;
mod of_parts;
mod pairs;
mod sides;
mod strip;
mod torsion;
mod wall;
mod wall_names;

pub use equations::flows_round_cells;
pub use fault::ThinWallFault;
pub use flow::{FlowBalance, LargestFlow, ShearFlow};
pub use named::BoxWalls;
pub use network::Cell;
pub use no_middle_lines::NoMiddleLines;
pub use wall::{Path, Wall};

use crate::section::{Point, product_that_counts};
use line::Line;

/// A thin-walled section.
#[derive(Clone, Debug, PartialEq)]
pub struct ThinWalls {
    joints: Vec<Point>,
    walls: Vec<Wall>,
    lines: Vec<Line>,
    tree: network::Tree,
    cells: Vec<Cell>,
    area: f64,
    centroid: Point,
    second_moment: f64,
    second_moment_upright: f64,
    product_moment: f64,
}

/// `I_x I_y - I_xy²` below this part of `(I_x + I_y)²` is that of walls on one line: a flange a thousandth of the web's
/// length still gives 1e-9, rounding 1e-16.
const ON_ONE_LINE: f64 = 1e-12;

/// A wall is upright whose ends stand less than this part of its length beside one another.
const UPRIGHT: f64 = 1e-9;

impl ThinWalls {
    /// Walls between joints, m.
    ///
    /// # Errors
    /// See [`ThinWallFault`].
    pub fn new(joints: Vec<Point>, walls: Vec<Wall>) -> Result<Self, ThinWallFault> {
        let lines =
            walls.iter().enumerate().map(|(k, wall)| wall.line(k, &joints)).collect::<Result<Vec<_>, _>>()?;
        let (tree, cells) = network::network(joints.len(), &walls)?;
        let origin = joints.first().copied().ok_or(ThinWallFault::NoWalls)?;
        let mut section = Self {
            joints,
            walls,
            lines,
            tree,
            cells,
            area: 0.0,
            centroid: origin,
            second_moment: 0.0,
            second_moment_upright: 0.0,
            product_moment: 0.0,
        };
        section.integrate();
        let (level, upright) = (section.second_moment, section.second_moment_upright);
        if section.determinant() > ON_ONE_LINE * (level + upright) * (level + upright) {
            Ok(section)
        } else {
            Err(ThinWallFault::OnOneLine)
        }
    }

    fn integrate(&mut self) {
        let origin = self.centroid;
        let (mut area, mut x, mut y) = (0.0, 0.0, 0.0);
        self.for_each_node(|point, weight| {
            area += weight;
            x += weight * (point.x - origin.x);
            y += weight * (point.y - origin.y);
        });
        let centroid = Point::new(origin.x + x / area, origin.y + y / area);
        let (mut level, mut upright, mut product) = (0.0, 0.0, 0.0);
        self.for_each_node(|point, weight| {
            let (dx, dy) = (point.x - centroid.x, point.y - centroid.y);
            level += weight * dy * dy;
            upright += weight * dx * dx;
            product += weight * dx * dy;
        });
        (self.area, self.centroid) = (area, centroid);
        (self.second_moment, self.second_moment_upright) = (level, upright);
        self.product_moment = product_that_counts(product, level, upright);
    }

    /// Hands on points of the middle lines with the area that each stands for, m².
    fn for_each_node(&self, mut hand_on: impl FnMut(Point, f64)) {
        for (wall, line) in self.walls.iter().zip(&self.lines) {
            line.for_each_node(|node| hand_on(node.point, node.weight * wall.thickness));
        }
    }

    /// `I_x I_y - I_xy²`, m⁸: greater than zero, for it is the product of the principal moments.
    fn determinant(&self) -> f64 {
        self.second_moment * self.second_moment_upright - self.product_moment * self.product_moment
    }

    /// The joints, m.
    pub fn joints(&self) -> &[Point] {
        &self.joints
    }

    /// The walls.
    pub fn walls(&self) -> &[Wall] {
        &self.walls
    }

    /// The closed cells: as many as there are walls that could be cut without the section falling apart.
    pub fn cells(&self) -> &[Cell] {
        &self.cells
    }

    /// Length of a wall's middle line, m; 0 where there is no such wall.
    pub fn length(&self, wall: usize) -> f64 {
        self.lines.get(wall).map_or(0.0, Line::length)
    }

    /// The point of a wall's middle line at a part of its length from 0 to 1, m, and the direction in which the wall runs
    /// there, of length 1. None where there is no such wall.
    pub fn point(&self, wall: usize, part: f64) -> Option<(Point, Point)> {
        self.lines.get(wall).map(|line| line.at(part))
    }

    /// The straight upright wall whose middle line stands nearest to a place across, as its index and that line's place, m:
    /// where textbooks measure the shear centre from. A web is held at both ends: a wall that hangs from another, as a lip
    /// does, counts only where there is no such web. None where no wall is straight and upright.
    pub fn upright_wall_near(&self, x: f64) -> Option<(usize, f64)> {
        let upright = |(index, line): (usize, &Line)| match *line {
            Line::Straight { from, to } if (from.x - to.x).abs() <= UPRIGHT * line.length() => {
                Some((index, from.x))
            }
            _ => None,
        };
        let all: Vec<(usize, f64)> = self.lines.iter().enumerate().filter_map(upright).collect();
        let is_free = |joint: usize| {
            self.walls.iter().flat_map(|wall| [wall.from, wall.to]).filter(|end| *end == joint).count() == 1
        };
        let longest = (0..self.walls.len()).map(|wall| self.length(wall)).fold(0.0, f64::max);
        // A wall that another one meets half-way is two: the web goes on where its line does.
        let holds = |place: f64| {
            let on_it = all.iter().filter(|(_, at)| (at - place).abs() <= UPRIGHT * longest);
            on_it
                .flat_map(|&(wall, _)| [self.walls[wall].from, self.walls[wall].to])
                .filter(|joint| is_free(*joint))
                .count()
                == 0
        };
        let webs: Vec<(usize, f64)> = all.iter().copied().filter(|(_, place)| holds(*place)).collect();
        let of = if webs.is_empty() { all } else { webs };
        of.into_iter().min_by(|a, b| (a.1 - x).abs().total_cmp(&(b.1 - x).abs()))
    }

    /// Area, m².
    pub fn area(&self) -> f64 {
        self.area
    }

    /// Centroid, m.
    pub fn centroid(&self) -> Point {
        self.centroid
    }

    /// `I_x = ∫ y² dA` about the level axis through the centroid, m⁴.
    pub fn second_moment(&self) -> f64 {
        self.second_moment
    }

    /// `I_y = ∫ x² dA` about the upright axis through the centroid, m⁴.
    pub fn second_moment_upright(&self) -> f64 {
        self.second_moment_upright
    }

    /// Whether the level axis is no principal axis of the middle lines.
    pub fn bends_askew(&self) -> bool {
        self.product_moment != 0.0
    }

    /// `I_xy = ∫ x y dA` about the centroid, m⁴.
    pub fn product_moment(&self) -> f64 {
        self.product_moment
    }
}
