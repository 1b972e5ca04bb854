//! Thin walls: what is asked of them. Sections of level and upright walls, open or with closed cells.

use super::builder::Builder;
use super::section::SectionWorkings;
use super::skew::SkewWorkings;
use super::wall_ways::{Ring, ways};
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::working::{Chapter, Id};
use mechanics::section::Section;
use mechanics::thin_wall::ThinWalls;

pub(super) const CHAPTER: Chapter = Chapter::Walls;

/// What is smaller than this part of its scale is nothing: middle lines are half-sums of sizes read from text.
pub(super) const NOTHING: f64 = 1e-9;

/// The workings of thin walls.
#[derive(Clone, Debug)]
pub(crate) struct WallWorkings {
    /// Each wall, in the order of the middle lines.
    pub(crate) walls: Vec<WallFlow>,
    /// The largest flow, where it lies within a wall.
    pub(crate) largest_flow: Option<Id>,
    pub(crate) largest_stress: Id,
    pub(crate) centre: Option<CentreWorkings>,
    pub(crate) cells: Option<CellWorkings>,
}

/// How the flows round the closed cells are found. Positive is counter-clockwise round each cell, and along each wall its own way.
#[derive(Clone, Debug)]
pub struct CellWorkings {
    /// Each cell, those on the left first.
    pub cells: Vec<OneCell>,
    /// The flows of the cells' walls while every cell is cut open, N/m, in the order in which they are found.
    pub open: Vec<Id>,
    /// Each wall's sum of that flow along it, N, in the order in which the walls are gone.
    pub sums: Vec<Id>,
    /// What two cells share: `∮ ds / t` over the walls between them, negative, for the one cell passes them against the other; the
    /// places of both cells before it. None where there is one cell.
    pub shared: Vec<(usize, usize, Id)>,
    /// The walls of the cells in the order in which they are gone.
    pub(crate) walls: Vec<CellWall>,
}

/// One closed cell.
#[derive(Clone, Debug)]
pub struct OneCell {
    /// Its number, `I`; nothing where it is the only one.
    pub number: String,
    /// The walls round it by their place among the middle lines, counter-clockwise from the one that is cut open where it begins.
    pub walls: Vec<usize>,
    /// What that first wall is called.
    pub cut_wall: String,
    /// What the joint is called at which it is cut open.
    pub cut_at: String,
    /// The flow round the cell that undoes the twist, N/m.
    pub closing: Id,
    /// What several cells need for their conditions of no twist; none where there is one cell.
    pub condition: Option<CellCondition>,
}

/// What the condition that a cell of several does not twist is made of.
#[derive(Clone, Copy, Debug)]
pub struct CellCondition {
    /// `∮ ds / t` round it, no unit.
    pub round: Id,
    /// `∮ q ds / t` round it while every cell is cut open, N/m.
    pub open: Id,
}

/// A wall of closed cells.
#[derive(Clone, Debug)]
pub(crate) struct CellWall {
    /// Its place among the middle lines.
    pub(crate) wall: usize,
    pub(crate) length: Id,
    pub(crate) thickness: Expression,
    /// The sum of the flow along it while the cells are cut open.
    pub(crate) sum: Id,
    /// The cells on whose edge it lies, each with 1 where its way runs counter-clockwise round that cell, else -1.
    pub(crate) cells: Vec<(usize, f64)>,
    /// What flows where its way begins, half-way and where it ends, once the cells are closed.
    pub(crate) flows: Vec<Id>,
}

/// One wall with what flows through it, along the way from its free or outer end inwards.
#[derive(Clone, Debug)]
pub struct WallFlow {
    /// Its number, which its symbols have: `2`.
    pub number: String,
    /// That way in words: `up`, `to the left`.
    pub way: &'static str,
    /// Its length, m.
    pub length: Id,
    /// Whether the way runs from the wall's last joint to its first.
    pub(crate) against: bool,
    /// The flow where the way begins; none at a free edge.
    pub(crate) begin: Option<Id>,
    pub(crate) middle: Option<Id>,
    pub(crate) end: Id,
    pub(crate) force: Id,
}

/// Where the shear force must act so that it does not twist the beam.
#[derive(Clone, Debug)]
pub(crate) struct CentreWorkings {
    pub(crate) distance: Id,
    /// The web's middle line, to the right of the leftmost fibre.
    pub(crate) web: Expression,
    /// Whether the shear centre lies to the right of it.
    pub(crate) to_the_right: bool,
    pub(crate) place: Id,
    pub(crate) centroid: Id,
    /// The torque if the load stands over the centroid, and what it does, in order.
    pub(crate) torsion: Vec<Id>,
    /// The flanges' share of the moment, each wall's.
    pub(crate) moments: Vec<Id>,
    pub(crate) moment: Id,
}

/// A wall as it is computed.
pub(super) struct Strip {
    pub name: String,
    pub number: String,
    pub level: bool,
    /// The joint at which the way begins, and the one at which it ends.
    pub from: usize,
    pub to: usize,
    pub against: bool,
    /// Whether the way runs upward, or to the right.
    pub ahead: bool,
    /// Whether it is a wall of a cell where there are several, so that no one way round tells its own.
    pub of_several_cells: bool,
    pub thickness: Expression,
    pub length: Id,
    /// The distance of its middle from the axis along the course's depth axis; where the section bends askew, what counts of it.
    pub distance: Id,
}

/// All of them, with what they share.
pub(super) struct Strips {
    pub all: Vec<Strip>,
    /// The walls in an order in which each begins at a free edge or where all other walls are done; those of the cells last.
    pub order: Vec<usize>,
    /// The closed cells; none in an open section.
    pub cells: Vec<Ring>,
    /// The joint at which the first cell is cut open, and at which all ways end.
    pub root: Option<usize>,
    /// The second moment that counts.
    pub second_moment: Id,
    /// How much of a level distance counts against an upright one: `I_yz / I_y`; none where the level axis is a principal one.
    pub slant: Option<Expression>,
    /// Joint by joint: to the right of the leftmost fibre, and up.
    pub joints: Vec<[Expression; 2]>,
    /// What each joint is called.
    pub names: Vec<String>,
}

pub(super) fn is_level(walls: &ThinWalls, k: usize) -> bool {
    walls.point(k, 0.5).is_some_and(|(_, along)| along.x.abs() > along.y.abs())
}

impl Strip {
    /// The way in words: `up`, `to the left`.
    pub(super) fn sense(&self) -> &'static str {
        match (self.level, self.ahead) {
            (true, true) => "to the right",
            (true, false) => "to the left",
            (false, true) => "up",
            (false, false) => "down",
        }
    }

    /// What is said of a flow, with the way that counts as positive where nothing else tells it.
    pub(super) fn says(&self, words: &str) -> String {
        if self.of_several_cells { format!("{words} Positive {}.", self.sense()) } else { words.to_owned() }
    }
}

impl Strips {
    /// The cells on whose edge a wall lies, each with 1 where the wall's way runs counter-clockwise round it, else -1.
    pub(super) fn cells_of(&self, wall: usize) -> Vec<(usize, f64)> {
        let of = |(cell, ring): (usize, &Ring)| {
            ring.walls.iter().find(|(k, _)| *k == wall).map(|(_, sense)| (cell, *sense))
        };
        self.cells.iter().enumerate().filter_map(of).collect()
    }

    /// The walls of the cells in the order in which they are gone.
    pub(super) fn of_cells(&self) -> Vec<usize> {
        self.order.iter().copied().filter(|&k| !self.cells_of(k).is_empty()).collect()
    }

    /// Whether a cell is cut open where this wall begins.
    pub(super) fn is_cut(&self, wall: usize) -> bool {
        self.cells.iter().any(|ring| ring.walls.first().is_some_and(|(k, _)| *k == wall))
    }
}

impl Builder<'_> {
    /// The chapter; none where the walls are not thin or run askew, a wall hangs between two cells, or no shear force acts.
    pub(crate) fn walls(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        (shear, skew): (Id, Option<&SkewWorkings>),
    ) -> Result<Option<WallWorkings>, EvaluationError> {
        if self.value(shear) == 0.0 {
            return Ok(None);
        }
        let Ok(walls) = self.problem.thin_walls() else { return Ok(None) };
        let Some(ways) = ways(&walls) else { return Ok(None) };
        let across = match skew {
            Some(skew) => skew.across.clone(),
            None => self.across(CHAPTER, section, engine)?,
        };
        let strips = self.strips(&walls, &ways, (section, &across))?;
        let (flows, cells) = self.flows(&strips, shear)?;
        let (largest_flow, largest_stress) = self.largest_in_walls(&walls, &strips, (&flows, shear))?;
        let centre = self.shear_centre(&walls, &strips, (&flows, shear, &across), cells.as_ref())?;
        Ok(Some(WallWorkings { walls: flows, largest_flow, largest_stress, centre, cells }))
    }
}
