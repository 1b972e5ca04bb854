//! The middle lines of thin walls: joints, lengths, distances from the axis, and the moments.

use super::across::{AcrossWorkings, less, mean};
use super::builder::{Builder, Entry};
use super::names::with_article;
use super::section::{PieceWorkings, SectionWorkings};
use super::wall_ways::Ways;
use super::walls::{CHAPTER, NOTHING, Strip, Strips, is_level};
use crate::dimension::Dimension;
use crate::engine::Call;
use crate::evaluate::EvaluationError;
use crate::expression::Expression;
use crate::role::Role;
use crate::working::Id;
use mechanics::section::Point;
use mechanics::thin_wall::ThinWalls;

impl Builder<'_> {
    /// The middle lines: joints, lengths, distances from the axis, and the second moment.
    pub(super) fn strips(
        &mut self,
        walls: &ThinWalls,
        ways: &Ways,
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
                .says(format!("The length of the middle line of {}.", with_article(&wall.name)));
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
        let askew = walls.bends_askew();
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
                with_article(&wall.name)
            ));
            let up = middle(k, 1) - height.into();
            let distance = if self.axis_down { Expression::from(height) - middle(k, 1) } else { up };
            depths.push(self.formula(entry, distance)?);
        }
        let squares = |distances: &[Id], along_level: bool| {
            let terms = |k: usize| {
                let own = (is_level(walls, k) == along_level)
                    .then(|| thicknesses[k].clone() * Expression::from(lengths[k]).power(3) / 12.0.into());
                own.into_iter().chain([area(k) * Expression::from(distances[k]).power(2)])
            };
            Expression::sum(all.clone().flat_map(terms).collect())
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
                .says(format!(
                    "How far the middle of {} lies to the right of that centroid.",
                    with_article(&wall.name)
                ));
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
            let against = ways.order.contains(&(k, true));
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
                of_several_cells: ways.cells.len() > 1
                    && ways.cells.iter().any(|ring| ring.walls.iter().any(|(of, _)| *of == k)),
                thickness: thicknesses[k].clone(),
                length: lengths[k],
                distance: distances[k],
            }
        };
        let strips = all.clone().map(strip).collect();
        Ok(Strips {
            all: strips,
            order: ways.order.iter().map(|(k, _)| *k).collect(),
            cells: ways.cells.clone(),
            root: ways.root,
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
