//! The shear flow under a shear force through the shear centre, and where that centre is.

use super::ThinWalls;
use super::equations::flows_round_cells;
use super::line::Linear;
use super::torsion::{arm, cross};
use crate::balance::Residual;
use crate::section::Point;

/// The shear flow in every wall under a shear force through the shear centre.
#[derive(Clone, Debug)]
pub struct ShearFlow<'a> {
    section: &'a ThinWalls,
    force: Point,
    /// Rate at which the bending stress grows along the beam, Pa/m, as a function of the place.
    rate: Linear,
    /// Flow where each wall begins, N/m.
    begin: Vec<f64>,
}

/// Where the shear flow of a wall is largest by size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LargestFlow {
    /// Index of the wall.
    pub wall: usize,
    /// Part of the wall's length from 0 to 1.
    pub part: f64,
    /// The point of the middle line, m.
    pub at: Point,
    /// The flow there, N/m, positive as the wall runs.
    pub flow: f64,
    /// The size of the shear stress there, Pa: the flow over the thickness.
    pub stress: f64,
}

/// What must vanish of a shear flow.
#[derive(Clone, Debug, PartialEq)]
pub struct FlowBalance {
    /// What the flows add up to, to the right, less the force's part, N.
    pub right: Residual,
    /// The same upward, N.
    pub up: Residual,
    /// Moment of the flows about the first joint, less that of the force through the shear centre, N m.
    pub moment: Residual,
    /// What flows into each joint less what flows out, N/m.
    pub joints: Vec<Residual>,
    /// `∮ q ds/t` round each cell, N/m: a force through the shear centre does not twist it.
    pub cells: Vec<Residual>,
}

impl ThinWalls {
    /// The shear flow under a shear force through the shear centre, by its parts to the right and up, N.
    ///
    /// By balance of a piece of wall, `q = q_0 - ∫ (a x + b y) t ds` with x and y from the centroid, where along the beam
    /// the bending stress grows at the rate `a x + b y`:
    ///
    /// ```text
    /// a = (V_x I_x - V_y I_xy) / (I_x I_y - I_xy²)      b = (V_y I_y - V_x I_xy) / (I_x I_y - I_xy²)
    /// ```
    ///
    /// What flows into a joint flows out of it. That leaves one unknown flow for each closed cell; there the section does
    /// not twist: `∮ q ds/t = 0`. For a section with an upright or level axis of symmetry it is `q = V Q / I`.
    ///
    /// # Source
    /// Unsymmetric bending and shear of open and closed thin-walled beams: T. H. G. Megson, *Aircraft Structures*; Timoshenko
    /// & Gere, *Mechanics of Materials*, on shear centres (from memory; each line follows from the balance named).
    pub fn shear_flow(&self, right: f64, up: f64) -> ShearFlow<'_> {
        let (level, upright, product) = (self.second_moment, self.second_moment_upright, self.product_moment);
        let a = (right * level - up * product) / self.determinant();
        let b = (up * upright - right * product) / self.determinant();
        let rate = (a, b, -(a * self.centroid.x + b * self.centroid.y));
        let mut flow = ShearFlow {
            section: self,
            force: Point::new(right, up),
            rate,
            begin: vec![0.0; self.walls.len()],
        };
        flow.cut_open();
        flow.close_cells();
        flow
    }

    /// The shear centre, m: a shear force through it bends the section and does not twist it.
    ///
    /// # Source
    /// The moment of the shear flow equals that of the force: an upright unit force gives x, a level one gives y.
    pub fn shear_centre(&self) -> Point {
        let up = self.shear_flow(0.0, 1.0).moment_about(self.centroid);
        let right = self.shear_flow(1.0, 0.0).moment_about(self.centroid);
        Point::new(self.centroid.x + up, self.centroid.y - right)
    }
}

impl ShearFlow<'_> {
    /// The flow with every cell cut open where its closing wall begins: from the joints farthest out inwards, the wall that
    /// leads back takes what the others bring.
    fn cut_open(&mut self) {
        for &(joint, back) in self.section.tree.iter().rev() {
            let Some(back) = back else { continue };
            let brought: f64 =
                (0..self.begin.len()).filter(|wall| *wall != back).map(|w| self.brought(joint, w)).sum();
            // Away from the joint the wall takes it over; towards it, it must end with as much the other way.
            let runs_away = self.section.walls[back].from == joint;
            self.begin[back] = if runs_away { brought } else { self.gathered(back, 1.0) - brought };
        }
    }

    /// Adds to each cell the flow round it that undoes the twist.
    fn close_cells(&mut self) {
        let cells = &self.section.cells;
        let twists = (0..cells.len()).map(|cell| -self.twist(cell)).collect();
        let flows = flows_round_cells(self.section.cell_flexibility(), twists);
        for (cell, flow) in cells.iter().zip(flows) {
            for (wall, sense) in &cell.walls {
                self.begin[*wall] += sense * flow;
            }
        }
    }

    /// `∮ q ds/t` round a cell, N/m.
    fn twist(&self, cell: usize) -> f64 {
        let walls = &self.section.cells[cell].walls;
        walls
            .iter()
            .map(|(wall, sense)| sense * self.wall_force(*wall) / self.section.walls[*wall].thickness)
            .sum()
    }

    /// `∫ (a x + b y) t ds` from where a wall begins, N/m.
    fn gathered(&self, wall: usize, part: f64) -> f64 {
        self.section.walls[wall].thickness * self.section.lines[wall].integral(self.rate, part)
    }

    /// What a wall brings into a joint, N/m; a wall that begins and ends there brings the difference.
    fn brought(&self, joint: usize, wall: usize) -> f64 {
        let Some(of) = self.section.walls.get(wall) else { return 0.0 };
        let brought = if of.to == joint { self.at(wall, 1.0) } else { 0.0 };
        let taken = if of.from == joint { self.at(wall, 0.0) } else { 0.0 };
        brought - taken
    }

    /// The flow at a part from 0 to 1 of a wall's length, N/m, positive as the wall runs; 0 where there is no such wall.
    pub fn at(&self, wall: usize, part: f64) -> f64 {
        self.begin.get(wall).map_or(0.0, |begin| begin - self.gathered(wall, part))
    }

    /// The shear force, N: its parts to the right and up.
    pub fn force(&self) -> Point {
        self.force
    }

    /// The flow summed along a wall, N, positive as the wall runs. On a round wall no force of this size acts: see
    /// [`ShearFlow::wall_resultant`].
    pub fn wall_force(&self, wall: usize) -> f64 {
        self.over(wall, |_, _| 1.0)
    }

    /// The force that a wall takes, N: its parts to the right and up.
    pub fn wall_resultant(&self, wall: usize) -> Point {
        Point::new(self.over(wall, |_, along| along.x), self.over(wall, |_, along| along.y))
    }

    /// The moment of a wall's flow about a point, N m, counter-clockwise positive.
    pub fn wall_moment(&self, wall: usize, about: Point) -> f64 {
        self.over(wall, |point, along| cross(arm(point, about), along))
    }

    /// What all walls take, N: its parts to the right and up. It is the shear force.
    pub fn resultant(&self) -> Point {
        let all = (0..self.begin.len()).map(|wall| self.wall_resultant(wall));
        all.fold(Point::new(0.0, 0.0), |sum, of| Point::new(sum.x + of.x, sum.y + of.y))
    }

    /// The moment of all flows about a point, N m, counter-clockwise positive.
    pub fn moment_about(&self, about: Point) -> f64 {
        (0..self.begin.len()).map(|wall| self.wall_moment(wall, about)).sum()
    }

    /// `∫ q f ds` along a wall.
    fn over(&self, wall: usize, f: impl Fn(Point, Point) -> f64) -> f64 {
        let mut sum = 0.0;
        if let Some(line) = self.section.lines.get(wall) {
            line.for_each_node(|node| {
                sum += self.at(wall, node.part) * f(node.point, node.along) * node.weight
            });
        }
        sum
    }

    /// Where the flow of a wall is largest by size: at one of its ends, or where the bending stress is zero. None where there
    /// is no such wall.
    pub fn largest_in(&self, wall: usize) -> Option<LargestFlow> {
        let line = self.section.lines.get(wall)?;
        let thickness = self.section.walls[wall].thickness;
        let ends = [0.0, 1.0].into_iter().chain(line.zeros(self.rate));
        let of = |part: f64| {
            let flow = self.at(wall, part);
            LargestFlow { wall, part, at: line.at(part).0, flow, stress: flow.abs() / thickness }
        };
        ends.map(of).reduce(|most, other| if other.stress > most.stress { other } else { most })
    }

    /// Where the shear stress is largest in the section; the flow may be larger in a thicker wall.
    pub fn largest(&self) -> Option<LargestFlow> {
        let all = (0..self.begin.len()).filter_map(|wall| self.largest_in(wall));
        all.reduce(|most, other| if other.stress > most.stress { other } else { most })
    }

    /// What must vanish, each beside the largest term that went into it.
    pub fn balance(&self) -> FlowBalance {
        let walls = 0..self.begin.len();
        let (force, section) = (self.force, self.section);
        let sum = |terms: Vec<f64>, wanted: f64, scale: f64| {
            let found = Residual::of(&terms);
            Residual { value: found.value - wanted, scale: found.scale.max(wanted.abs()).max(scale) }
        };
        let of_force = force.x.abs().max(force.y.abs());
        let resultants: Vec<Point> = walls.clone().map(|wall| self.wall_resultant(wall)).collect();
        let centre = section.shear_centre();
        let about = section.joints[0];
        let moments = walls.clone().map(|wall| self.wall_moment(wall, about)).collect();
        let lever = cross(arm(centre, about), force);
        let size = walls.clone().map(|wall| section.length(wall)).fold(0.0, f64::max);
        let most = walls
            .clone()
            .filter_map(|wall| self.largest_in(wall))
            .map(|of| of.flow.abs())
            .fold(0.0, f64::max);
        let joint = |joint: usize| Residual {
            value: walls.clone().map(|wall| self.brought(joint, wall)).sum(),
            scale: most,
        };
        let cell = |cell: usize| {
            let flexible = |&(wall, _): &(usize, f64)| section.length(wall) / section.walls[wall].thickness;
            let round: f64 = section.cells[cell].walls.iter().map(flexible).sum();
            Residual { value: self.twist(cell), scale: most * round }
        };
        FlowBalance {
            right: sum(resultants.iter().map(|of| of.x).collect(), force.x, of_force),
            up: sum(resultants.iter().map(|of| of.y).collect(), force.y, of_force),
            moment: sum(moments, lever, of_force * size),
            joints: (0..section.joints.len()).map(joint).collect(),
            cells: (0..section.cells.len()).map(cell).collect(),
        }
    }
}

impl FlowBalance {
    /// Whether all of it closes.
    pub fn closes(&self) -> bool {
        let all = [&self.right, &self.up, &self.moment].into_iter().chain(&self.joints).chain(&self.cells);
        all.into_iter().all(Residual::closes)
    }
}
