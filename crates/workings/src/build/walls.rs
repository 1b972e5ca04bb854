//! Thin walls: the middle lines, their moments, and what is asked of them. Open sections of level and upright walls.

use super::across::{AcrossWorkings, less, mean};
use super::builder::{Builder, Entry};
use super::section::{PieceWorkings, SectionWorkings};
use super::skew::SkewWorkings;
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::{Chapter, Id};
use mechanics::section::{Point, Section};
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
    /// The walls in an order in which each begins at a free edge or where all other walls are done.
    pub order: Vec<usize>,
    /// The second moment that counts.
    pub second_moment: Id,
    /// How much of a level distance counts against an upright one: `I_yz / I_y`; none where the level axis is a principal one.
    pub slant: Option<Expression>,
    /// Joint by joint: to the right of the leftmost fibre, and up.
    pub joints: Vec<[Expression; 2]>,
    /// What each joint is called.
    pub names: Vec<String>,
}

/// The walls from the free edges inwards, each with whether it is gone against its own sense; none where a cell is closed or a
/// wall is neither level nor upright.
fn ways(walls: &ThinWalls) -> Option<Vec<(usize, bool)>> {
    let straight = |k: usize| {
        let (Some((from, _)), Some((to, _))) = (walls.point(k, 0.0), walls.point(k, 1.0)) else {
            return false;
        };
        let near = NOTHING * walls.length(k);
        walls.walls()[k].path == Path::Straight
            && ((from.x - to.x).abs() <= near || (from.y - to.y).abs() <= near)
    };
    if !walls.cells().is_empty() || !(0..walls.walls().len()).all(straight) {
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
        })?;
        let wall = &walls.walls()[left[next]];
        // Of an upright wall that is open at both ends the way runs up.
        let (at_from, at_to) = (open(wall.from, &left) == 1, open(wall.to, &left) == 1);
        let up = walls.joints()[wall.to].y >= walls.joints()[wall.from].y;
        let against = if at_from && at_to { !up } else { at_to };
        order.push((left.remove(next), against));
    }
    Some(order)
}

fn is_level(walls: &ThinWalls, k: usize) -> bool {
    walls.point(k, 0.5).is_some_and(|(_, along)| along.x.abs() > along.y.abs())
}

impl Builder<'_> {
    /// The chapter; none where the walls are not thin, close a cell or run askew, or no shear force acts.
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
        let flows = self.flows(&walls, &strips, shear)?;
        let (largest_flow, largest_stress) = self.largest_in_walls(&walls, &strips, (&flows, shear))?;
        let centre = self.shear_centre(&walls, &strips, (&flows, shear, &across))?;
        Ok(Some(WallWorkings { walls: flows, largest_flow, largest_stress, centre }))
    }

    /// The middle lines: joints, lengths, distances from the axis, and the second moment.
    fn strips(
        &mut self,
        walls: &ThinWalls,
        ways: &[(usize, bool)],
        (section, across): (&SectionWorkings, &AcrossWorkings),
    ) -> Result<Strips, EvaluationError> {
        let names = joint_names(walls);
        let pieces: Vec<Option<usize>> =
            (0..walls.walls().len()).map(|k| piece_of(walls, k, &section.pieces)).collect();
        let mut joints = Vec::new();
        for (joint, name) in names.iter().enumerate() {
            joints.push(self.wall_joint(walls, (joint, name), &pieces, (section, across))?);
        }
        let mut thicknesses = Vec::new();
        let mut lengths = Vec::new();
        for (k, wall) in walls.walls().iter().enumerate() {
            let number = (k + 1).to_string();
            let level = is_level(walls, k);
            thicknesses.push(match pieces[k].map(|piece| section.pieces[piece].placed.size) {
                Some(super::section::Size::Rectangle { breadth, height }) => {
                    Expression::from(if level { height } else { breadth })
                }
                _ => {
                    let entry =
                        Entry::new(CHAPTER, Role::Thickness, &number, format!("thickness of {}", wall.name));
                    let how = "Read off the outline.";
                    let call = (Vec::new(), Call::Fixed);
                    self.engine(entry.says(how), how, call, wall.thickness, Dimension::LENGTH)?.into()
                }
            });
            let axis = if level { 0 } else { 1 };
            let at = |joint: usize| [walls.joints()[joint].x, walls.joints()[joint].y][axis];
            let (low, high) =
                if at(wall.from) < at(wall.to) { (wall.from, wall.to) } else { (wall.to, wall.from) };
            let entry = Entry::new(CHAPTER, Role::WallLength, &number, format!("length of {}", wall.name))
                .says(format!("The length of the middle line of {}.", wall.name));
            let difference = less(joints[high][axis].clone(), joints[low][axis].clone());
            lengths.push(self.formula(entry, difference)?);
        }
        let area = |k: usize| thicknesses[k].clone() * lengths[k].into();
        let all = 0..walls.walls().len();
        let total = || Expression::sum(all.clone().map(area).collect());
        let middle = |k: usize, axis: usize| {
            let wall = &walls.walls()[k];
            match (axis == 0) == is_level(walls, k) {
                true => mean(joints[wall.from][axis].clone(), joints[wall.to][axis].clone()),
                false => joints[wall.from][axis].clone(),
            }
        };
        let moment = |axis: usize| Expression::sum(all.clone().map(|k| area(k) * middle(k, axis)).collect());
        let askew =
            walls.product_moment().abs() > 1e-7 * (walls.second_moment() + walls.second_moment_upright());
        let entry = Entry::new(CHAPTER, Role::CentroidHeight, "m", "centroid height by middle lines").says(
            "Thin walls are taken as lines: all of a wall's area lies on its middle line, so corners are not met exactly.",
        );
        let height = self.formula(entry, moment(1) / total())?;
        let mut depths = Vec::new();
        let way = if self.axis_down { "below" } else { "above" };
        for (k, wall) in walls.walls().iter().enumerate() {
            let entry = Entry::new(
                CHAPTER,
                Role::Depth,
                &format!("m,{}", k + 1),
                format!("distance of the middle of {} from the level axis", wall.name),
            )
            .says(format!(
                "How far the middle of {} lies {way} the level axis through that centroid.",
                wall.name
            ));
            let up = middle(k, 1) - height.into();
            let distance = if self.axis_down { Expression::from(height) - middle(k, 1) } else { up };
            depths.push(self.formula(entry, distance)?);
        }
        let squares = |distances: &[Id], along_level: bool| {
            let term = |k: usize| {
                let steiner = area(k) * Expression::from(distances[k]).power(2);
                match is_level(walls, k) == along_level {
                    true => {
                        let own =
                            thicknesses[k].clone() * Expression::from(lengths[k]).power(3) / 12.0.into();
                        Expression::Sum(vec![own, steiner])
                    }
                    false => steiner,
                }
            };
            Expression::sum(all.clone().map(term).collect())
        };
        let entry = Entry::new(CHAPTER, Role::SecondMoment, "m", "second moment by middle lines").says(
            "The second moment of the middle lines, each with its thickness. With it the forces of the walls add up to the shear \
             force exactly.",
        );
        let level_moment = self.formula(entry, squares(&depths, false))?;
        let (mut second_moment, mut slant, mut distances) = (level_moment, None, depths.clone());
        if askew {
            let entry =
                Entry::new(CHAPTER, Role::CentroidAcross, "m", "place of the centroid by middle lines")
                    .says("The centroid of the middle lines, to the right of the leftmost fibre.");
            let place = self.formula(entry, moment(0) / total())?;
            let mut rights = Vec::new();
            for (k, wall) in walls.walls().iter().enumerate() {
                let entry = Entry::new(
                    CHAPTER,
                    Role::Across,
                    &format!("m,{}", k + 1),
                    format!("distance of the middle of {} to the right", wall.name),
                )
                .says(format!("How far the middle of {} lies to the right of that centroid.", wall.name));
                rights.push(self.formula(entry, middle(k, 0) - place.into())?);
            }
            let entry =
                Entry::new(CHAPTER, Role::SecondMomentUpright, "m", "upright second moment by middle lines")
                    .says("The same about the upright axis.");
            let upright = self.formula(entry, squares(&rights, true))?;
            let products = all.clone().map(|k| area(k) * depths[k].into() * rights[k].into()).collect();
            let entry = Entry::new(CHAPTER, Role::ProductMoment, "m", "product moment by middle lines")
                .says("Each wall adds its area times both distances of its middle, each with its sign.");
            let product = self.formula(entry, Expression::sum(products))?;
            let ratio = || Expression::from(product) / upright.into();
            let entry = Entry::new(
                CHAPTER,
                Role::SecondMoment,
                "m, askew",
                "second moment by middle lines that counts askew",
            )
            .says("What the product moment leaves of it in a beam that is free to go sideways.");
            let lost = Expression::from(product).power(2) / upright.into();
            second_moment = self.formula(entry, Expression::from(level_moment) - lost)?;
            for (k, wall) in walls.walls().iter().enumerate() {
                let entry = Entry::new(
                    CHAPTER,
                    Role::Depth,
                    &format!("askew, {}", k + 1),
                    format!("distance of the middle of {} that counts askew", wall.name),
                )
                .says(
                    "The distance that the bending stress follows: along the depth, less what lies across.",
                );
                let counts = Expression::from(depths[k]) - ratio() * rights[k].into();
                distances[k] = self.formula(entry, counts)?;
            }
            slant = Some(ratio());
        }
        let strip = |k: usize| {
            let wall = &walls.walls()[k];
            let against = ways.contains(&(k, true));
            let (from, to) = if against { (wall.to, wall.from) } else { (wall.from, wall.to) };
            let level = is_level(walls, k);
            let (a, b) = (walls.joints()[from], walls.joints()[to]);
            Strip {
                name: wall.name.clone(),
                number: (k + 1).to_string(),
                level,
                from,
                to,
                against,
                ahead: if level { b.x > a.x } else { b.y > a.y },
                thickness: thicknesses[k].clone(),
                length: lengths[k],
                distance: distances[k],
            }
        };
        let strips = all.clone().map(strip).collect();
        Ok(Strips {
            all: strips,
            order: ways.iter().map(|(k, _)| *k).collect(),
            second_moment,
            slant,
            joints,
            names,
        })
    }

    /// A joint to the right of the leftmost fibre and up, by the sizes of the pieces that meet there.
    fn wall_joint(
        &mut self,
        walls: &ThinWalls,
        (joint, name): (usize, &str),
        pieces: &[Option<usize>],
        (section, across): (&SectionWorkings, &AcrossWorkings),
    ) -> Result<[Expression; 2], EvaluationError> {
        let at = walls.joints()[joint];
        let meets = |k: &usize| walls.walls()[*k].from == joint || walls.walls()[*k].to == joint;
        let near = NOTHING * walls.length(0);
        let mut found: [Option<Expression>; 2] = [None, None];
        for k in (0..walls.walls().len()).filter(meets) {
            let Some(piece) = pieces[k] else { continue };
            let (placed, place) = (&section.pieces[piece].placed, &across.pieces[piece]);
            let zero = || super::builder::zero(Dimension::LENGTH, Role::Height);
            if is_level(walls, k) {
                found[1] = Some(section.pieces[piece].centroid.into());
                let end = if (placed.piece.left - at.x).abs() <= near {
                    Some(place.left.clone().unwrap_or_else(zero))
                } else if (placed.piece.right - at.x).abs() <= near {
                    place.right(placed)
                } else {
                    None
                };
                found[0] = found[0].clone().or(end);
            } else {
                found[0] = Some(place.centroid.into());
                let end = if (placed.piece.bottom - at.y).abs() <= near {
                    Some(placed.base.clone().unwrap_or_else(zero))
                } else if (placed.piece.top - at.y).abs() <= near {
                    placed.top()
                } else {
                    None
                };
                found[1] = found[1].clone().or(end);
            }
        }
        let how = "Read off the outline.";
        let mut read = |role, what: &str, value: f64| {
            let entry = Entry::new(CHAPTER, role, &format!("m,{}", joint + 1), format!("{what} of {name}"));
            self.engine(entry.says(how), how, (Vec::new(), Call::Fixed), value, Dimension::LENGTH)
        };
        let [right, up] = found;
        let right = match right {
            Some(right) => right,
            None => read(Role::CentroidAcross, "place", at.x - across.base)?.into(),
        };
        let up = match up {
            Some(up) => up,
            None => read(Role::CutHeight, "height", at.y)?.into(),
        };
        Ok([right, up])
    }
}

/// The piece whose middle line a wall is, where it is a rectangle.
fn piece_of(walls: &ThinWalls, wall: usize, pieces: &[PieceWorkings]) -> Option<usize> {
    let (middle, _) = walls.point(wall, 0.5)?;
    let thickness = walls.walls().get(wall)?.thickness;
    let near = NOTHING * walls.length(wall);
    let same = |a: f64, b: f64| (a - b).abs() <= near;
    let is_it = |of: &PieceWorkings| {
        let piece = &of.placed.piece;
        let centre = Point::new(0.5 * (piece.left + piece.right), 0.5 * (piece.bottom + piece.top));
        let (breadth, height) = (piece.right - piece.left, piece.top - piece.bottom);
        let along = if is_level(walls, wall) {
            same(centre.y, middle.y)
                && same(height, thickness)
                && piece.left < middle.x
                && middle.x < piece.right
        } else {
            same(centre.x, middle.x)
                && same(breadth, thickness)
                && piece.bottom < middle.y
                && middle.y < piece.top
        };
        along && of.placed.is_plain() && of.placed.is_upright() && of.placed.level().is_some()
    };
    pieces.iter().position(is_it)
}

/// What a joint is called: after the end of the upright wall there, or the free edge that it is.
fn joint_names(walls: &ThinWalls) -> Vec<String> {
    let name = |joint: usize| {
        let meeting: Vec<usize> = (0..walls.walls().len())
            .filter(|&k| walls.walls()[k].from == joint || walls.walls()[k].to == joint)
            .collect();
        let upright = meeting.iter().copied().find(|&k| !is_level(walls, k));
        match (meeting.as_slice(), upright) {
            ([only], _) => format!("the free edge of {}", walls.walls()[*only].name),
            (_, Some(k)) => {
                let wall = &walls.walls()[k];
                let other = if wall.from == joint { wall.to } else { wall.from };
                let end = if walls.joints()[joint].y > walls.joints()[other].y { "upper" } else { "lower" };
                format!("the {end} end of {}", wall.name)
            }
            _ => format!("joint {}", joint + 1),
        }
    };
    (0..walls.joints().len()).map(name).collect()
}
