//! Thin walls: what is asked of them. Sections of level and upright walls, open or with one closed cell.

use super::builder::Builder;
use super::section::SectionWorkings;
use super::skew::SkewWorkings;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::working::{Chapter, Id};
use mechanics::section::Section;
use mechanics::thin_wall::{Path, ThinWalls};

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
    pub(crate) cell: Option<CellWorkings>,
}

/// How the flow round a closed cell is found.
#[derive(Clone, Debug)]
pub struct CellWorkings {
    /// What the joint is called at which the cell is cut open.
    pub cut_at: String,
    /// The flows of the cell's walls while it is cut open, N/m, in the order in which they are found.
    pub open: Vec<Id>,
    /// Each wall's sum of that flow along it, N, counter-clockwise positive as all flows of the cell.
    pub sums: Vec<Id>,
    /// The flow round the cell that undoes the twist, N/m.
    pub closing: Id,
    /// The walls of the cell by their place among the middle lines, counter-clockwise from the cut.
    pub(crate) walls: Vec<usize>,
    /// Each wall's length, in the same order.
    pub(crate) lengths: Vec<Id>,
}

/// One wall with what flows through it, along the way from its free or outer end inwards.
#[derive(Clone, Debug)]
pub(crate) struct WallFlow {
    /// Whether the way runs from the wall's last joint to its first.
    pub(crate) against: bool,
    pub(crate) length: Id,
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
    pub(crate) torque: Id,
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
    pub thickness: Expression,
    pub length: Id,
    /// The distance of its middle from the axis along the course's depth axis; where the section bends askew, what counts of it.
    pub distance: Id,
}

/// All of them, with what they share.
pub(super) struct Strips {
    pub all: Vec<Strip>,
    /// The walls in an order in which each begins at a free edge or where all other walls are done; those of the cell last.
    pub order: Vec<usize>,
    /// The walls of the closed cell, counter-clockwise from where it is cut open; none in an open section.
    pub cell: Vec<usize>,
    /// The second moment that counts.
    pub second_moment: Id,
    /// How much of a level distance counts against an upright one: `I_yz / I_y`; none where the level axis is a principal one.
    pub slant: Option<Expression>,
    /// Joint by joint: to the right of the leftmost fibre, and up.
    pub joints: Vec<[Expression; 2]>,
    /// What each joint is called.
    pub names: Vec<String>,
}

/// The order in which the walls are gone.
pub(super) struct Ways {
    /// The walls from the free edges inwards, each with whether it is gone against its own sense; those of the cell last.
    pub order: Vec<(usize, bool)>,
    /// The walls of the cell.
    pub cell: Vec<usize>,
}

/// How the walls are gone; none where there are several cells or a wall is neither level nor upright.
fn ways(walls: &ThinWalls) -> Option<Ways> {
    let straight = |k: usize| {
        let (Some((from, _)), Some((to, _))) = (walls.point(k, 0.0), walls.point(k, 1.0)) else {
            return false;
        };
        let near = NOTHING * walls.length(k);
        walls.walls()[k].path == Path::Straight
            && ((from.x - to.x).abs() <= near || (from.y - to.y).abs() <= near)
    };
    if walls.cells().len() > 1 || !(0..walls.walls().len()).all(straight) {
        return None;
    }
    // Webs last: what they take is what is asked for.
    let mut left: Vec<usize> = (0..walls.walls().len()).collect();
    left.sort_by_key(|&k| !is_level(walls, k));
    let mut order = Vec::new();
    while !left.is_empty() {
        let open = |joint: usize, left: &[usize]| {
            left.iter().filter(|&&k| walls.walls()[k].from == joint || walls.walls()[k].to == joint).count()
        };
        let next = left.iter().position(|&k| {
            let wall = &walls.walls()[k];
            open(wall.from, &left) == 1 || open(wall.to, &left) == 1
        });
        let Some(next) = next else { break };
        let wall = &walls.walls()[left[next]];
        // Of an upright wall that is open at both ends the way runs up.
        let (at_from, at_to) = (open(wall.from, &left) == 1, open(wall.to, &left) == 1);
        let up = walls.joints()[wall.to].y >= walls.joints()[wall.from].y;
        let against = if at_from && at_to { !up } else { at_to };
        order.push((left.remove(next), against));
    }
    let round = round(walls, &left)?;
    let cell = round.iter().map(|(k, _)| *k).collect();
    order.extend(round);
    Some(Ways { order, cell })
}

/// The walls of a cell counter-clockwise, each with whether it is gone against its own sense, from the left end of its lowest
/// level wall.
fn round(walls: &ThinWalls, of_cell: &[usize]) -> Option<Vec<(usize, bool)>> {
    let height = |k: usize| walls.point(k, 0.5).map_or(f64::INFINITY, |(at, _)| at.y);
    let levels = of_cell.iter().copied().filter(|&k| is_level(walls, k));
    let Some(first) = levels.min_by(|&a, &b| height(a).total_cmp(&height(b))) else {
        return of_cell.is_empty().then(Vec::new);
    };
    // Along the lowest wall to the right the cell lies on the left: counter-clockwise.
    let ends = |k: usize, against: bool| match against {
        false => (walls.walls()[k].from, walls.walls()[k].to),
        true => (walls.walls()[k].to, walls.walls()[k].from),
    };
    let against = walls.joints()[walls.walls()[first].to].x < walls.joints()[walls.walls()[first].from].x;
    let (start, mut at) = ends(first, against);
    let mut found = vec![(first, against)];
    while at != start {
        let next = of_cell.iter().copied().filter(|k| found.iter().all(|(other, _)| other != k));
        let mut both = next.flat_map(|k| [(k, false), (k, true)]);
        let (k, against) = both.find(|&(k, against)| ends(k, against).0 == at)?;
        at = ends(k, against).1;
        found.push((k, against));
    }
    (found.len() == of_cell.len()).then_some(found)
}

pub(super) fn is_level(walls: &ThinWalls, k: usize) -> bool {
    walls.point(k, 0.5).is_some_and(|(_, along)| along.x.abs() > along.y.abs())
}

impl Builder<'_> {
    /// The chapter; none where the walls are not thin, close several cells or run askew, or no shear force acts.
    pub(crate) fn walls(
        &mut self,
        section: &SectionWorkings,
        engine: &Section,
        (shear, skew): (Id, Option<&SkewWorkings>),
    ) -> Result<Option<WallWorkings>, EvaluationError> {
        if self.value(shear) == 0.0 {
            return Ok(None);
        }
        let Some(walls) = self.problem.thin_walls() else { return Ok(None) };
        let Some(ways) = ways(&walls) else { return Ok(None) };
        let across = match skew {
            Some(skew) => skew.across.clone(),
            None => self.across(CHAPTER, section, engine)?,
        };
        let strips = self.strips(&walls, &ways, (section, &across))?;
        let (flows, cell) = self.flows(&strips, shear)?;
        let (largest_flow, largest_stress) = self.largest_in_walls(&walls, &strips, (&flows, shear))?;
        let centre = self.shear_centre(&walls, &strips, (&flows, shear, &across))?;
        Ok(Some(WallWorkings { walls: flows, largest_flow, largest_stress, centre, cell }))
    }
}
