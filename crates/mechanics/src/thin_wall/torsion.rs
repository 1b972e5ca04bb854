//! The torsion constant, and what the cells share.

use super::ThinWalls;
use super::equations::flows_round_cells;
use crate::section::Point;

impl ThinWalls {
    /// Area that a cell encloses, m², positive where its way runs counter-clockwise; 0 where there is no such cell.
    pub fn enclosed_area(&self, cell: usize) -> f64 {
        let mut twice = 0.0;
        for &(wall, sense) in self.cells.get(cell).map_or(&[][..], |cell| &cell.walls) {
            self.lines[wall].for_each_node(|node| {
                twice += sense * node.weight * cross(arm(node.point, self.centroid), node.along);
            });
        }
        0.5 * twice
    }

    /// Torsion constant `J`, m⁴: the twist per length is `T / (G J)`.
    ///
    /// Walls that are part of a cell count by the flow round the cells alone, all others by `Σ t³ L / 3`. The walls' own
    /// `t³ L / 3` within cells is left out: it is small as `(t / breadth)²`.
    ///
    /// # Source
    /// Saint-Venant's narrow rectangle `t³ L / 3`, summed over the walls; R. Bredt (1896): `J = 4 A² / ∮ ds/t` for one cell,
    /// for several the same twist in each, `∮ q ds/t = 2 A G θ'`, and `T = Σ 2 A q`. In any textbook of torsion, such as
    /// Timoshenko & Goodier, *Theory of Elasticity*, on thin tubes.
    pub fn torsion_constant(&self) -> f64 {
        let areas: Vec<f64> = (0..self.cells.len()).map(|cell| self.enclosed_area(cell)).collect();
        let flows = flows_round_cells(self.cell_flexibility(), areas.iter().map(|area| 2.0 * area).collect());
        let closed: f64 = areas.iter().zip(&flows).map(|(area, flow)| 2.0 * area * flow).sum();
        let open: f64 = (0..self.walls.len())
            .filter(|wall| !self.is_in_cell(*wall))
            .map(|wall| {
                let t = self.walls[wall].thickness;
                t * t * t * self.length(wall) / 3.0
            })
            .sum();
        open + closed
    }

    /// Whether a wall is part of a closed cell: whether it could be cut without the section falling apart.
    pub fn is_in_cell(&self, wall: usize) -> bool {
        self.cells.iter().any(|cell| cell.walls.iter().any(|(index, _)| *index == wall))
    }

    /// `∮ ds/t` that two cells share, each with its own sense; a cell with itself on the diagonal. No unit.
    pub(super) fn cell_flexibility(&self) -> Vec<Vec<f64>> {
        let shared = |one: &super::Cell, other: &super::Cell| -> f64 {
            let mut sum = 0.0;
            for (wall, sense) in &one.walls {
                if let Some((_, against)) = other.walls.iter().find(|(index, _)| index == wall) {
                    sum += sense * against * self.length(*wall) / self.walls[*wall].thickness;
                }
            }
            sum
        };
        self.cells.iter().map(|one| self.cells.iter().map(|other| shared(one, other)).collect()).collect()
    }
}

pub(super) fn arm(point: Point, about: Point) -> Point {
    Point::new(point.x - about.x, point.y - about.y)
}

/// Moment of a vector with a lever arm, counter-clockwise.
pub(super) fn cross(arm: Point, vector: Point) -> f64 {
    arm.x * vector.y - arm.y * vector.x
}
